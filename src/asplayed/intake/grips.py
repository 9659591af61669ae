"""Sentences that tell nothing but grips: which grip, of what mass, with how many wraps, on which clubs, and on which not.

"Norrby Cord on all but the putter, two extra wraps; Norrby Flat on the putter", "the irons and wedges have Tessary
grips", "Grips: Norrby, whole set incl. putter", "One extra wrap on the woods, two on the irons". Such a sentence is taken
whole before anything else is made of its words; which clubs it means is settled when they are known (`grips_given`).
"""

from __future__ import annotations

import tomllib
from copy import copy
from functools import cache
from importlib import resources
from typing import Literal, NamedTuple

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import cased, eligible, ordinary

_ENDS = {"STOP", "NEWLINE", "PIPE"}
_LONGEST = 90  # tokens of a sentence of grips
_PIECES = 24  # lines of one sentence that are looked at
_CLUB_RULES = ("club", "named", "family", "span", "dashed", "amounts", "code")
_KINDS = {*FAMILIES, "NAMEDWEDGE"}
_OTHERS = {
    "ASIDE", "BALLWORD", "SHAFTWORD", "HEADWORD", "LENGTH", "LOFT", "PLAYERWORD", "EVENTWORD", "TITLEWORD", "HANDWORD",
    "FLEXWORD", "SWINGWEIGHT", "SWV", "LIE", "BOUNCE", "DEG", "INCH", "CPM", "SLEEVE", "UPRIGHT", "BENT", "DATE", "MONTH",
}  # fmt: skip
_NO_NAME = {*_KINDS, "GRIPWORD", "WRAP", "SHAFTWORD", "BALLWORD", "HEADWORD", "CORRECTION", "DATE", "MONTH", "THAN"}
_MARKS = {"COMMA", "EQ", "DASH", "BULLET", "BREAK", "LPAR", "RPAR", "MARK", "AND", "SLASH"}
_MARKED = set(",:=-–—()[]&*_~/")  # the marks that may stand in such a sentence

Whole = Literal["all", "of them", "rest", "so far", "counted", "rows", "run"]


class Reach(NamedTuple):
    """Clubs that a statement is said of: a sort of "all", or a phrase that names some."""

    whole: Whole | None
    phrase: Phrase | None = None
    first: int = 0  # how many are counted, or the first row …
    last: int = 0  # … and the last
    to: Phrase | None = None  # the club that a run ends with


class Given(NamedTuple):
    """One grip told: what of it, on which clubs, and not on which."""

    facts: dict[str, Entry]
    reach: list[Reach]
    but: list[Reach]


class Statement(NamedTuple):
    """What one sentence says of grips."""

    given: list[Given]
    correcting: bool
    bench: bool  # "regripped": what is done at a bench, and a putter comes with a grip of its own


class Met:
    """A statement of grips that the walk has come by, with the clubs that were known there."""

    def __init__(self, statement: Statement, known: list[Draft], since: list[Draft], apart: list[Draft]) -> None:
        self.statement = statement
        self.known = known  # the clubs told of before it
        self.since = since  # those of them that had no grip yet
        self.apart = apart  # a putter spoken of right before: "no need to do the putter; all the others …"


class _Part(NamedTuple):
    """A piece of a sentence: what sort, what it says, and its tokens."""

    sort: str  # grip, name, mass, wraps, club, out, out behind, in, in behind, keeps, those, has, mark, size, no
    value: object
    start: int
    end: int


@cache
def _words(sort: str) -> frozenset[str]:
    """The words of one sort of `data/grips.toml`."""
    text = resources.files("asplayed.intake").joinpath("data/grips.toml").read_text(encoding="utf-8")
    told = tomllib.loads(text)[sort]
    return frozenset(told.split() if isinstance(told, str) else told)


def read_grips(scene: Scene) -> None:
    """Take every sentence that tells of nothing but grips; what each says waits in `scene.grips`."""
    Grips(scene).run()


class Grips:
    """Goes through a list's sentences and takes those about grips."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.heading: list[Reach] = []  # the clubs that a heading names: "GRIPS, all clubs"
        self.sized = -1  # where a sentence begins that tells of nothing but the size of grips
        self.small = not cased(scene)  # names may be written without capitals
        self.labels = _labels_of_speakers(self.tokens)
        # words right behind a club's: a maker of heads may make grips too
        self.models = {
            token.text for token, before in zip(self.tokens[1:], self.tokens, strict=False) if before.terminal in _KINDS
        }

    def run(self) -> None:
        """Take the sentences one after the other; what follows one about grips may lean on it."""
        tokens = self.tokens
        at, leaning = 0, ""
        while at < len(tokens):
            start = at
            while at < len(tokens) and tokens[at].terminal not in _ENDS:
                at += 1
            self.heading = self.heading if leaning in ("heading", "line") else []
            taken = at > start and self._taken(start, at, leaning)
            if at > start:
                leaning = self._leaned_on(start, at, taken)
            if at < len(tokens) and tokens[at].terminal == "NEWLINE" and leaning == "taken":
                leaning = "heading" if self.heading else "line"
            at += 1

    def _taken(self, start: int, end: int, leaning: str) -> bool:
        """Take the sentence, or the stretch of it that tells of grips, or keep it as a note; True where it was taken."""
        for first, last in self._stretches(start, end):
            if last - first > _LONGEST:
                continue
            self.sized = -1
            told = self._sentence(first, last, leaning if first == start else "")
            if told is not None:
                self._take(first, last, told)
                if last < end:
                    self._taken(last, end, "")
                return True
            if self.sized >= 0:  # "midsize grips on everything"
                self.scene.add_note(self.sized, last, None)
                self.scene.claims[self.sized : last] = ["note"] * (last - self.sized)
                return False
        return False

    def _stretches(self, start: int, end: int) -> list[tuple[int, int]]:
        """The sentence, and what of it lies between the ends of lines or ends before ", and": the longest first."""
        tokens = self.tokens
        lines = [at for at in range(start, end) if tokens[at].kind == "newline"]
        joints = [at for at in range(start, end - 1) if tokens[at].text == "," and tokens[at + 1].terminal == "AND"]
        starts = [start, *(at + 1 for at in lines)][:_PIECES]
        ends = sorted({*lines, *joints, end}, reverse=True)
        found = [(first, last) for first in starts for last in ends if first < last <= first + _LONGEST]
        return sorted(found, key=lambda one: (one[0] != start, one[0] - one[1]))[: _PIECES * 3]

    def _leaned_on(self, start: int, end: int, taken: bool) -> str:
        """What the next sentence may lean on: a statement, a heading or question "Grips?", a sentence with grips."""
        if taken:
            return "taken"
        words = [token for token in self.tokens[start:end] if token.kind == "word" and token.terminal not in ("SILENT", "BULLET")]
        if start in self.labels:
            words = [token for token in words if token.start >= self.tokens[self.labels[start]].start]
        gripped = any(token.terminal == "GRIPWORD" for token in words)
        if gripped and (len(words) == 1 or self.heading):
            return "heading"
        return "said" if gripped else ""

    def _take(self, start: int, end: int, told: Statement) -> None:
        """Count the sentence as told of clubs and keep what it says."""
        scene, tokens = self.scene, self.tokens
        scene.take(start, end)
        scene.grips.append((tokens[start], told))
        for given in told.given:
            name = given.facts.get("grip.name")
            first = str(name.value).split()[0] if name is not None else ""
            if first and first not in self.models:
                scene.evidence.append((first, "grip", 4))
        # what other rooms would make of its words is nothing
        for token in tokens[start:end]:
            token.terminal = "SILENT"

    # ------------------------------------------------------------------------------------------------ its pieces

    def _sentence(self, start: int, end: int, leaning: str) -> Statement | None:
        """What the sentence says, or None where it tells of anything but grips."""
        at = self.labels.get(start, start)
        while at < end and self.tokens[at].terminal == "BULLET":
            at += 1
        apart = at + 1 < end and _apart(self.tokens[at], self.tokens[at + 1])
        if apart and self.tokens[at].terminal in ("WORD", "MONTH"):
            at += 1  # "August     Fresh grips on everything …"
        if at >= end:
            return None
        begin = at
        lowers = {token.lower for token in self.tokens[at:end]}
        terminals = {token.terminal for token in self.tokens[at:end]}
        if not (terminals & {"GRIPWORD", "WRAP"} or leaning or "ALL" in terminals) or self.scene.claims[at]:
            return None
        kept = lowers & _words("keeps")
        if lowers & (_words("breaks") - (_words("keeps_behind") if kept else set())) or terminals & _OTHERS:
            return None
        parts: list[_Part] = []
        while at < end:
            part = self._part(at, end, parts, begin)
            if part is None:
                return None
            if part.sort == "club" and (run := self._run(part, end)) is not None:
                part = run
            if part.sort != "plain":
                parts.append(part)
            at = max(part.end, at + 1)
        size = next((part.start for part in parts if part.sort == "size"), -1)
        sorts = {part.sort for part in parts}
        if size >= 0 and "grip" in sorts and not sorts & {"name", "mass", "wraps"}:
            self.sized = min(part.start for part in parts if part.sort in ("size", "grip", "club"))
        if sorts <= {"grip", "mark", "club"} and "grip" in sorts and "club" in sorts and begin == start:
            self.heading = [part.value for part in parts if isinstance(part.value, Reach)]  # "GRIPS, all clubs"
        told = _Reader(self, parts, leaning).statement()
        if told is not None and leaning == "heading" and self.heading and not any(one.reach for one in told.given):
            told = told._replace(given=[one._replace(reach=list(self.heading)) for one in told.given])
        return told

    def _part(self, at: int, end: int, before: list[_Part], begin: int) -> _Part | None:
        """The piece that begins here; None at a word that has no place in such a sentence."""
        tokens = self.tokens
        token = tokens[at]
        word = token.lower
        told = {part.sort for part in before}
        following = tokens[at + 1].lower if at + 1 < end else ""
        if (wraps := self._wraps(at, end, told)) is not None:
            return wraps
        if token.terminal == "GRIPWORD":
            return _Part("grip", word, at, at + 1)
        if f"{word} {following}" in _words("leaves_out_pairs"):
            return _Part("out", None, at, at + 2)
        if word in _words("leaves_out_pairs") or (word in _words("leaves_out") and self._club_behind(at + 1, end)):
            return _Part("out", None, at, at + 1)
        if word in ("no", "but", "not") or token.terminal == "CORRECTION":
            if word == "no" and self._club_behind(at + 1, end):
                return _Part("out", None, at, at + 1)
            if word == "not" and before and following.isalnum() and tokens[at + 1].kind == "number":
                return _Part("plain", None, at, at + 2)  # "two wraps, not one"
            return _Part("no" if token.terminal == "CORRECTION" else "plain", None, at, at + 1)
        if word in _words("keeps"):
            return _Part("keeps", None, at, at + 1)
        if "keeps" in told and word in _words("keeps_behind") and before[-1].sort == "keeps":
            return _Part("keeps", None, at, at + 1)
        if word in _words("left_out") and told & {"club"}:
            return _Part("out behind", None, at, at + 1)
        if (word in _words("takes_in") or word == "as well as") and self._club_behind(at + 1, end):
            return _Part("in", None, at, at + 1)
        if word in _words("as_well") or f"{word} {following}" == "as well":
            return _Part("in behind", None, at, at + 1 + (word == "as"))
        if (reach := self._reach(at, end)) is not None:
            return reach
        if word in _words("of_those") and before and before[-1].sort in ("club", "mark"):
            return _Part("those", None, at, at + 1)
        if word in _words("has") or token.terminal == "WITH":
            return _Part("has", word, at, at + 1)
        if (mass := self._mass(at, before)) is not None:
            return mass
        if token.terminal in _MARKS or (token.kind == "mark" and token.text in _MARKED):
            ok = token.kind != "mark" or token.text in _MARKED
            return _Part("mark", token.text if token.kind == "mark" else ",", at, at + 1) if ok else None
        if (name := self._name(at, end, at == begin)) is not None:
            return name
        if token.terminal == "SIZE" or word in ("undersize", "oversize"):
            return _Part("size", word, at, at + 1)
        plain = word in _words("plain") or (token.terminal == "SILENT" and word not in _words("breaks"))
        small = token.terminal in ("COLOUR", "BULLET") or token.terminal in ("AT", "IN", "BY", "EQ", "AND")
        return _Part("plain", None, at, at + 1) if plain or small else None

    def _run(self, part: _Part, end: int) -> _Part | None:
        """ "driver to wedges", "from the 3 wood down to the lob wedge": a run of the set by its ends."""
        tokens, at = self.tokens, part.end
        first = part.value
        while at < end and (tokens[at].terminal in ("DOWN", "SILENT") and tokens[at].lower in ("down", "all", "right")):
            at += 1
        joint = at < end and (tokens[at].terminal == "RANGE" or (tokens[at].terminal == "DASH" and tokens[at].glued))
        if not joint or not isinstance(first, Reach) or first.phrase is None:
            return None
        at += 1
        while at < end and tokens[at].terminal == "SILENT":
            at += 1
        last = self._reach(at, end) if at < end else None
        if last is None or not isinstance(last.value, Reach) or last.value.phrase is None:
            return None
        return _Part("club", Reach("run", first.phrase, to=last.value.phrase), part.start, last.end)

    def _wraps(self, at: int, end: int, told: set[str]) -> _Part | None:
        """ "two extra wraps", "no extra wraps", "an extra layer of tape", "+2"; "two" alone where wraps were told."""
        tokens = self.tokens
        token = tokens[at]
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule == "wraps" and phrase.end <= end:
            return _Part("wraps", phrase.amounts[0].value, at, phrase.end)
        if token.terminal == "WRAP" and not told & {"wraps"}:  # "Wraps: 2 extra"
            behind = at + 1
            while behind < end and (tokens[behind].kind == "mark" or tokens[behind].terminal == "BULLET"):
                behind += 1
            number = tokens[behind].value if behind > at + 1 and behind < end else None
            if isinstance(number, float) and 0 <= number <= 6:
                return _Part("wraps", number, at, behind + 1)
        counts = {"no": 0, "without": 0, "zero": 0, "a": 1, "an": 1, "one": 1, "single": 1, "double": 2}
        if token.lower in counts:
            behind = at + 1
            while behind < end and behind < at + 3 and tokens[behind].lower in ("any", "extra", "additional", "single"):
                behind += 1
            if behind < end and tokens[behind].terminal == "WRAP":
                return _Part("wraps", float(counts[token.lower]), at, behind + 1)
        value = token.value if token.kind == "number" and isinstance(token.value, float) else None
        if value is None or value != int(value) or not 0 <= value <= 6:
            return None
        extra = at + 1
        if tokens[at - 1].terminal == "WRAP" and at:
            return None
        while extra < end and tokens[extra].lower in ("extra", "more", "additional"):
            extra += 1
        if extra > at + 1 and (extra >= end or tokens[extra].terminal in (*_MARKS, "WRAP", "AT")):
            return _Part("wraps", value, at, extra + (extra < end and tokens[extra].terminal == "WRAP"))
        signed = token.terminal == "SNUM" and token.sign > 0 and told & {"name", "grip"}
        lone = "wraps" in told and (extra >= end or tokens[extra].terminal in (*_MARKS, "AT", "IN"))
        if signed or lone:
            return _Part("wraps", value, at, at + 1)
        return None

    def _mass(self, at: int, before: list[_Part]) -> _Part | None:
        """ "50 g", and behind a grip's name "50"."""
        phrase = phrase_at(self.tokens, at)
        if phrase is None or phrase.rule != "bare" or self.tokens[at].kind != "number":
            return None
        amount = phrase.amounts[0]
        labelled = bool(before) and before[0].sort == "grip" and any(part.sort == "name" for part in before)
        if not 20 <= amount.value <= 140 or not (amount.unit == "g" or (not amount.unit and labelled)):
            return None
        return _Part("mass", amount.value, at, phrase.end)

    def _club_behind(self, at: int, end: int) -> bool:
        """True where clubs are named next: "on the putter"."""
        tokens = self.tokens
        while at < end and (tokens[at].terminal in ("SILENT", "AT", "IN", "BY", "LPAR") or tokens[at].lower == "for"):
            at += 1
        part = self._reach(at, end) if at < end else None
        return part is not None and isinstance(part.value, Reach) and part.value.whole is None

    # -------------------------------------------------------------------------------------------------- its clubs

    def _reach(self, at: int, end: int) -> _Part | None:
        """Clubs named here, or a word for all of them, for the rest, for so many."""
        tokens = self.tokens
        whole = self._whole(at, end)
        if whole is not None:
            return whole
        token = tokens[at]
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.end <= end:
            if phrase.rule in _CLUB_RULES and self._of_clubs(phrase):
                pointed = at > 0 and tokens[at - 1].lower in ("the", "on", "in", "for", "and", "but", "all", ":", "to")
                stamps = phrase.rule in ("amounts", "code") and not phrase.has(*_KINDS)
                if stamps and not (pointed and all(amount.value >= 44 for amount in phrase.amounts)):
                    return None  # "Burr 54/10"
                rows = self._rows(phrase)
                return _Part("club", rows or Reach(None, _kept(phrase)), at, phrase.end)
            if phrase.rule == "group" and phrase.has("ORDINAL", *_KINDS):
                return _Part("club", Reach(None, _kept(phrase)), at, phrase.end)
            stamp = phrase.amounts[0].value if phrase.rule == "bare" else 0.0
            pointed = at > 0 and tokens[at - 1].lower in ("the", "on", "in", "and")
            closed = phrase.end >= end or tokens[phrase.end].terminal in (*_MARKS, "SILENT", "AT")
            if 44 <= stamp <= 64 and phrase.amounts[0].unit in ("", "deg") and pointed and closed:
                return _Part("club", Reach(None, _kept(phrase)), at, phrase.end)  # "the 58"
        gripped = at + 1 < end and (
            tokens[at + 1].terminal == "GRIPWORD"
            or (tokens[at + 1].lower in ("new", "x") and at + 2 < end and tokens[at + 2].terminal == "GRIPWORD")
        )
        led = tokens[at - 1] if at else None
        opens = led is None or led.kind in ("newline", "mark") or led.terminal in ("SILENT", "BULLET")
        if token.kind == "number" and isinstance(token.value, float) and gripped and 2 <= token.value <= 14 and opens:
            return _Part("club", Reach("counted", None, int(token.value)), at, at + 1)  # "13 grips Norrby"
        return None

    def _whole(self, at: int, end: int) -> _Part | None:
        """ "all", "every club", "the whole set", "all the others", "all three", "the other six clubs", "all of these"."""
        tokens = self.tokens
        led = at
        while at < end and (tokens[at].lower in _words("whole") or tokens[at].lower == "the"):
            at += 1
        first = tokens[at] if at < end else tokens[led]
        opened = at > led and any(tokens[one].lower in _words("whole") for one in range(led, at))
        every = first.terminal == "ALL" or first.lower in _words("all") or (opened and first.lower in _words("set"))
        rest = any(word in _words("rest") for word in first.lower.split())
        bag = first.lower in ("bag", "set") and led and tokens[led - 1].lower in ("through", "throughout", "whole")
        resting = rest and (first.terminal == "THOSE" or first.lower in ("other", "others", "remaining"))
        these = first.lower in ("these", "those") and at + 1 < end and tokens[at + 1].lower in ("clubs", "all")
        if not (every or resting or bag or these) or first.lower == "each":
            return None
        count = 2 if first.value == "both" else 0
        so_far = "above" in first.lower.split() or these
        them = "them" in first.lower.split()
        at += 1
        while at < end:
            token, word = tokens[at], tokens[at].lower
            if word in _words("rest"):
                rest = True
            elif word in _words("so_far") or (word == "so" and tokens[min(at + 1, end - 1)].lower == "far"):
                so_far = True
            elif token.terminal == "THOSE":
                rest = rest or word in _words("rest") or "rest" in word or "other" in word
                so_far = so_far or word in ("these", "those")
                them = True
            elif token.kind == "number" and isinstance(token.value, float) and 2 <= token.value <= 14:
                unit = tokens[at + 1].terminal if at + 1 < end else ""
                if unit in ("GRAM", "WRAP") or tokens[min(at + 1, end - 1)].lower == "extra" or token.sign:
                    break
                if token.value != int(token.value):
                    break
                count = int(token.value)
            elif token.terminal == "ALL" and so_far:
                pass  # "these clubs all got"
            elif token.terminal in _KINDS or (token.terminal == "ALL" and word not in _words("set")):
                break
            elif word not in _words("set") and word not in _words("whole") and word not in ("of", "the", "my", "his",
                                                                                         "her", "our", "single", "one"):  # fmt: skip
                break
            at += 1
        while at > led + 1 and tokens[at - 1].lower in ("the", "my", "his", "her", "our", "of"):
            at -= 1
        if at < end and (rest or every) and not count:
            phrase = phrase_at(tokens, at + (tokens[at].lower in ("the", "of")))
            span = phrase is not None and phrase.rule in _CLUB_RULES
            ahead = phrase is not None and phrase.tokens[0].terminal in (*_KINDS, "NUM")
            if span and ahead and phrase is not None and phrase.end <= end and self._of_clubs(phrase):
                return _Part("club", Reach(None, _kept(phrase)), led, phrase.end)  # "all the irons", "all 4 wedges"
        if at < end and count and tokens[at].terminal in _KINDS:
            phrase = phrase_at(tokens, at)
            if phrase is not None and phrase.end <= end:
                return _Part("club", Reach(None, _kept(phrase), count), led, phrase.end)  # "the three wedges"
        if rest:
            return _Part("club", Reach("rest", None, count), led, at)
        if count:
            return _Part("club", Reach("counted", None, count), led, at)
        them = them and not any(one.terminal == "SAME" for one in tokens[max(0, led - 4) : led])
        return _Part("club", Reach("so far" if so_far else "of them" if them else "all"), led, at)

    def _rows(self, phrase: Phrase) -> Reach | None:
        """ "1 to 13", "lines 2-5", "1, 3 and 4": rows of a list whose lines are counted, and no clubs' numbers."""
        if phrase.has(*_KINDS, "LETTER", "DEG") or phrase.rule not in ("span", "dashed"):
            return None
        values = [int(amount.value) for amount in phrase.amounts]
        led = [token.lower for token in self.tokens[max(0, phrase.start - 2) : phrase.start]]
        named = any(word in ("items", "rows", "lines", "numbers", "nos", "no.") for word in led)
        if len(values) == 2 and values[0] < values[1] and (values[0] == 1 or named):
            return Reach("rows", None, values[0], values[1])
        return None

    def _of_clubs(self, phrase: Phrase) -> bool:
        """False for a figure that only looks like clubs: "1-2 wraps", "50 g"."""
        after = self.tokens[phrase.end].terminal if phrase.end < len(self.tokens) else ""
        if after in ("WRAP", "GRAM", "GRIPWORD") and phrase.tokens[-1].kind == "number":
            return False
        return not phrase.amounts or all(amount.unit in ("", "deg") for amount in phrase.amounts)

    # --------------------------------------------------------------------------------------------------- its name

    def _name(self, at: int, end: int, opens: bool) -> _Part | None:
        """The name that begins here: capital words, or any of nobody's where the list writes no capitals."""
        if not self._begins_name(at, opens):
            return None
        tokens, stop = self.tokens, at + 1
        while stop < end and self._goes_on(at, stop, end):
            stop += 1
        while tokens[stop - 1].terminal == "HYPHEN":
            stop -= 1
        return _Part("name", self.scene.words(at, stop), at, stop)

    def _begins_name(self, at: int, opens: bool) -> bool:
        """True for a word that can begin a grip's name."""
        token = self.tokens[at]
        proper = token.terminal in ("WORD", "COLOUR") and token.lower not in _words("plain")
        if not proper or (token.terminal == "WORD" and not eligible(self.scene, at)):
            return False
        if token.text[:1].isupper():
            return not (opens and (ordinary(self.scene, at) or token.terminal != "WORD"))
        free = token.terminal == "WORD" and not ordinary(self.scene, at) and token.lower not in _words("has")
        return self.small and free

    def _goes_on(self, start: int, at: int, end: int) -> bool:
        """True where the name that began at `start` goes on with this token."""
        tokens = self.tokens
        token, before = tokens[at], tokens[at - 1]
        if token.line != before.line or token.start - before.end > 2:
            return False
        if token.terminal == "HYPHEN":
            return at + 1 < end
        if before.terminal == "HYPHEN":
            return token.kind in ("word", "number")
        if token.kind == "number" and isinstance(token.value, float):
            return self._number_of_name(at, end)
        if token.terminal == "GRIPWORD" and token.text[:1].isupper() and at + 1 < end and tokens[at + 1].text == "-":
            return tokens[at + 1].glued  # "Norrby Grip-On"
        if token.text == "-" and before.terminal == "GRIPWORD":
            return True
        if before.text == "-" and before.glued and token.glued:
            return token.kind == "word"
        if token.terminal == "MINIDRIVER" and token.text.istitle():
            return True  # "Norrby Mini"
        if token.kind != "word" or token.terminal in _NO_NAME:
            return False
        if token.glued and before.kind == "number":
            return len(token.text) < 3 and token.terminal not in ("GRAM", "WRAP")  # "58R"
        if token.text[:1].isupper():
            return token.terminal != "ALL" and token.terminal not in ("WITH", "AT", "IN", "CORRECTION")
        words = ("leaves_out", "left_out", "as_well", "has", "plain", "keeps", "takes_in", "all", "rest")
        free = token.terminal in ("WORD", "FLAT", "PLACE") and not any(token.lower in _words(sort) for sort in words)
        return free and (not ordinary(self.scene, at) or self.small)

    def _number_of_name(self, at: int, end: int) -> bool:
        """True for the 2 of "Norrby 2", the 360 of "Norrby 360", the 2.0 of "Norrby 2.0"."""
        tokens = self.tokens
        token = tokens[at]
        after = tokens[at + 1] if at + 1 < end else None
        if token.sign or (after is not None and after.terminal in ("GRAM", "WRAP", "MM", "INCH")):
            return False
        if after is not None and after.lower in ("extra", "more"):
            return False
        value = float(token.value) if isinstance(token.value, float) else 0.0
        weighed = any(one.terminal == "GRAM" for one in tokens[at:end])
        lettered = after is not None and after.glued and after.kind == "word" and after.terminal != "GRAM"
        if token.text.istitle() and value <= 12:
            return True  # "Norrby Flat Two"
        return token.text[:1].isdigit() and (not 20 <= value <= 140 or weighed or lettered)


def _apart(one: Token, other: Token) -> bool:
    """True where three blanks or more stand between two words of a line: another column."""
    return one.line == other.line and other.start - one.end > 2


def _kept(phrase: Phrase) -> Phrase:
    """The phrase with tokens of its own, which nobody changes."""
    return Phrase(phrase.rule, [copy(token) for token in phrase.tokens], phrase.start, phrase.end)


def _labels_of_speakers(tokens: list[Token]) -> dict[int, int]:
    """Where a line opens with who speaks ("Ada: …"), and where what is said begins."""
    found: dict[str, list[int]] = {}
    for at in range(len(tokens) - 1):
        opens = at == 0 or tokens[at - 1].kind == "newline"
        if opens and tokens[at].kind == "word" and tokens[at + 1].text == ":" and tokens[at].terminal in ("WORD", ""):
            found.setdefault(tokens[at].lower, []).append(at)
    return {at: at + 2 for places in found.values() if len(places) > 1 for at in places}


class _Reader:
    """Makes statements of the pieces of one sentence."""

    def __init__(self, room: Grips, parts: list[_Part], leaning: str) -> None:
        self.room = room
        self.parts = parts
        self.leaning = leaning
        self.given: list[Given] = []
        self.out: list[Reach] = []  # the clubs just left out
        self.own = False  # what follows is of those
        self.replacing = False

    def statement(self) -> Statement | None:
        """What the pieces say together, or None."""
        parts = self.parts
        correcting = bool(parts) and parts[0].sort == "no"
        self._open()
        for index, part in enumerate(parts):
            if not self._hear(index, part):
                return None
        given = [one for one in self.given if one.facts or one.but]
        if not self._stands(given, correcting):
            return None
        bench = any(part.sort == "grip" and "gripped" in str(part.value) for part in parts)
        return Statement(given, correcting, bench)

    def _open(self, *reach: Reach) -> Given:
        """Begin another grip."""
        self.given.append(Given({}, list(reach), []))
        self.own = False
        return self.given[-1]

    def _hear(self, index: int, part: _Part) -> bool:
        """Add one piece to what was said; False where it fits nowhere."""
        sort = part.sort
        if sort in ("name", "mass", "wraps"):
            self._fact(part)
        elif sort == "club":
            assert isinstance(part.value, Reach)
            self._club(index, part.value)
        elif sort == "out behind":
            self._leave_out(index)
        elif sort == "keeps":
            if index == 0 or self.parts[index - 1].sort != "keeps":
                self._leave_out(index)
        elif sort == "those" or (sort == "mark" and part.value == "("):
            self.own = bool(self.out)
        elif sort == "has":
            self.own = self.own or (bool(self.out) and bool(self.given[-1].facts) and part.value not in ("with", "w"))
        elif sort == "mark" and part.value == ")":
            self.own, self.out = False, []
        elif sort == "no":
            self.replacing = index > 0
        return True

    def _fact(self, part: _Part) -> None:
        """A name, a mass or wraps: of the grip being told, of the club just left out, or of another grip."""
        path = {"name": "grip.name", "mass": "grip.mass", "wraps": "grip.wraps"}[part.sort]
        token = self.room.tokens[part.start]
        value = part.value if isinstance(part.value, str | float) else None
        entry = Entry(value, "g" if path == "grip.mass" else "1", token.line, self.room.scene.words(part.start, part.end))
        now = self.given[-1]
        if self.own and self.out:
            now = self._open(*self.out)
        elif path in now.facts and not self.replacing:
            now = self._open()
        self.replacing, self.out = False, []
        now.facts[path] = entry

    def _club(self, index: int, reach: Reach) -> None:
        """Clubs: left out, taken in, or the next whose grip is told."""
        parts = self.parts
        now = self.given[-1]
        behind = next((part.sort for part in parts[index + 1 :] if part.sort not in ("has", "mark", "those")), "")
        tight = self._tight(index)
        mode = self._mode(index)
        if mode == "out":
            now.but.append(reach)
            self.out = [*self.out, reach] if self._joined(index) else [reach]
            return
        if mode == "in" or (behind == "in behind" and now.facts):
            now.reach.append(reach)
            return
        if behind in ("out behind", "keeps") or self._kept_before(index):
            now.but.append(reach)
            self.out = [reach]
            return
        figures = tight and reach.whole is not None and not now.reach and self._behind(index) != "name"
        fresh = bool(now.facts) and not figures and (tight or (bool(now.reach) and not self._joined(index)))
        if fresh:
            self._open(reach)
        else:
            now.reach.append(reach)

    def _mode(self, index: int) -> str:
        """ "out" behind "but", "in" behind "including", also where clubs are joined to one that is."""
        at = index - 1
        while at >= 0 and self.parts[at].sort in ("mark", "club", "has"):
            if self.parts[at].sort == "mark" and self.parts[at].value in (":", "=", "(", ")"):
                return ""
            comma = self.parts[at].sort == "mark" and self.parts[at].value == ","
            if comma and self._tight(index):
                return ""
            at -= 1
        sort = self.parts[at].sort if at >= 0 else ""
        return sort if sort in ("out", "in") else ""

    def _tight(self, index: int) -> bool:
        """True where a grip follows right behind clubs: "the irons Norrby", "putter: Norrby", "the wedges have two"."""
        return self._behind(index) in ("name", "wraps", "mass")

    def _behind(self, index: int) -> str:
        """What sort of piece follows right behind clubs."""
        parts = self.parts
        at = index + 1
        while at < len(parts) and (
            parts[at].sort in ("has", "those", "grip") or (parts[at].sort == "mark" and parts[at].value in ":=-–—(")
        ):
            at += 1
        return parts[at].sort if at < len(parts) else ""

    def _joined(self, index: int) -> bool:
        """True where only marks stand between these clubs and those before."""
        at = index - 1
        while at >= 0 and self.parts[at].sort == "mark" and self.parts[at].value in (",", "&", "/"):
            at -= 1
        return at >= 0 and self.parts[at].sort in ("club", "out")

    def _kept_before(self, index: int) -> bool:
        """True for the putter of "leave the putter as it is"."""
        at = index - 1
        return at >= 0 and self.parts[at].sort == "keeps" and (at == 0 or self.parts[at - 1].sort in ("mark", "no"))

    def _leave_out(self, index: int) -> None:
        """ "… putter excepted", "the putter keeps its own": the clubs right before are left out."""
        at = index - 1
        while at >= 0 and self.parts[at].sort in ("mark", "grip", "has", "those"):
            at -= 1
        if at < 0 or self.parts[at].sort != "club":
            return
        club = self.parts[at].value
        now = self.given[-1]
        if isinstance(club, Reach) and club in now.reach:
            now.reach.remove(club)
            target = self.given[-2] if not now.facts and not now.reach and len(self.given) > 1 else now
            target.but.append(club)

    def _stands(self, given: list[Given], correcting: bool) -> bool:
        """True where this is a whole statement of grips and nothing else can be meant."""
        parts = self.parts
        if not given or any(one.reach and not one.facts for one in given):
            return False
        if any(not one.reach and one.facts for one in given[1:]):
            return False
        reaches = [reach for one in given for reach in (*one.reach, *one.but)]
        gripped = any(part.sort == "grip" for part in parts)
        wraps = any(part.sort == "wraps" for part in parts)
        named = [part for part in parts if part.sort == "name"]
        if not any(one.facts for one in given) and parts[0].sort == "out" and not gripped:
            return self.leaning in ("taken", "line") and self.room.tokens[parts[0].start].lower != "no"
        if self.leaning == "taken" or (self.leaning == "heading" and (named or wraps)):
            return True
        if self.leaning == "line" and not gripped:
            return not named and (wraps or bool(reaches)) and not gripped
        if self._labelled():
            return True
        group = any(one.but for one in given) or any(reach.whole is not None or self._several(reach) for reach in reaches) or len(given) > 1
        rest = any(reach.whole == "rest" for reach in reaches)
        if self.leaning == "said" and rest and named:
            return True
        if group and (gripped or wraps):
            return bool(given[0].facts)
        if not reaches and len(given) == 1 and self._of_all_grips():
            return True
        # "Norrby on everything": what is on every club is its grip
        everything = next((part for part in parts if isinstance(part.value, Reach) and part.value.whole == "all"), None)
        on = everything is not None and self.room.tokens[everything.start - 1].lower == "on"
        only = all(set(one.facts) <= {"grip.name"} for one in given) and len(given) == 1
        return on and only and parts[0].sort == "name" and parts.index(everything) == 1

    def _labelled(self) -> bool:
        """True for "Putter grip: Norrby", "Grip, irons: Norrby"."""
        parts = [part for part in self.parts if part.sort != "mark"]
        label = {part.sort for part in parts[:2]} == {"grip", "club"} and "gripped" not in str(parts[0].value)
        near = label and parts[1].start - parts[0].end <= 1 and self.room.tokens[parts[1].end].text in (":", "=")
        return near and len(parts) > 2 and parts[2].sort == "name"

    def _of_all_grips(self) -> bool:
        """True for "Grips: Norrby, one extra wrap", "I use Norrby grips": no clubs are named, so all are meant."""
        parts = [part for part in self.parts if part.sort != "mark"]
        sorts = [part.sort for part in parts]
        plural = [part for part in parts if part.sort == "grip" and part.value == "grips"]
        opens = sorts[:2] == ["grip", "name"] or sorts[:3] == ["has", "name", "grip"]
        return bool(plural) and opens and sorts.count("name") == 1

    def _several(self, reach: Reach) -> bool:
        """True for "irons", "5-PW", "the three wedges"."""
        phrase = reach.phrase
        return phrase is not None and (
            phrase.rule in ("family", "span", "dashed", "amounts")
            or reach.first > 1
            or phrase.tokens[-1].lower.endswith("s")
        )
