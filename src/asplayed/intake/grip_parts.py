"""The pieces of a sentence about grips: a grip's name, its mass, its wraps, clubs, words that leave clubs out or in."""

from __future__ import annotations

from copy import copy
from typing import Literal, NamedTuple

from asplayed.intake.groups import FAMILIES
from asplayed.intake.own_tables import own_words
from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import gap
from asplayed.intake.wording import EXCEPT, cased, eligible, ordinary

_CLUB_RULES = ("club", "named", "family", "span", "dashed", "amounts", "code")
KINDS = {*FAMILIES, "NAMEDWEDGE"}
_NO_NAME = {*KINDS, "GRIPWORD", "WRAP", "SHAFTWORD", "BALLWORD", "HEADWORD", "CORRECTION", "DATE", "MONTH", "THAN"}
_COUNTS = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11,
    "twelve": 12, "thirteen": 13, "fourteen": 14,
}  # fmt: skip
_BEFORE_WRAPS = ("any", "the", "extra", "additional", "single", "more")
_BELOW = ("under", "underneath", "beneath")
ROW_WORDS = (
    "items",
    "item",
    "rows",
    "row",
    "lines",
    "line",
    "numbers",
    "nos",
    "no",
    "nos.",
    "no.",
    "pos",
    "position",
    "positions",
)
_UNTOLD = {"idea", "clue", "record", "count", "counts", "showing", "shown", "note", "telling"}
_SINGLES = {"one": 1.0, "two": 2.0, "three": 3.0}
_PASSED = {"of", "the", "my", "his", "her", "our", "single", "one", "below", "here"}
_MARKS = {"STOP", "COMMA", "EQ", "DASH", "BULLET", "BREAK", "LPAR", "RPAR", "MARK", "AND", "SLASH"}
_MARKED = set(".;,:=-–—()[]&*_~/'’")  # the marks that may stand in such a sentence

Whole = Literal["all", "of them", "rest", "so far", "counted", "rows", "run"]


class Reach(NamedTuple):
    """Clubs that a statement is said of: a sort of "all", or a phrase that names some."""

    whole: Whole | None
    phrase: Phrase | None = None
    first: int = 0  # how many are counted
    to: Phrase | None = None  # the club that a run ends with
    rows: tuple[int, ...] = ()  # the counted lines


class Part(NamedTuple):
    """A piece of a sentence: what sort, what it says, and its tokens."""

    sort: str  # grip, name, mass, wraps, club, out, out behind, in, in behind, keeps, those, has, mark, size, no
    value: object
    start: int
    end: int


def words(sort: str) -> frozenset[str]:
    """The words of one sort of `data/grips.toml`."""
    return own_words("grips", sort)


class Pieces:
    """Finds the pieces, one after the other."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.small = not cased(scene)  # names may be written without capitals
        self.begin = 0  # where what is told begins
        self.wrapped = False  # the sentence before told of wraps, maybe
        self.gone = False  # the grips told of are there no more
        self.rows = False  # the sentence before told of counted rows, maybe

    def part(self, at: int, end: int, before: list[Part]) -> Part | None:
        """The piece that begins here; None at a word that has no place in such a sentence."""
        tokens = self.tokens
        token = tokens[at]
        word = token.lower
        told = {part.sort for part in before}
        following = tokens[at + 1].lower if at + 1 < end else ""
        if (unknown := self._unknown(at, end)) is not None:
            return unknown
        if (wraps := self.wraps(at, end, told)) is not None:
            return wraps
        if (hand := self._under_hand(at, end, before)) is not None:
            return hand
        if token.terminal == "GRIPWORD":
            return Part("grip", word, at, at + 1)
        if f"{word} {following}" in words("leaves_out_pairs"):
            return Part("out", None, at, at + 2)
        if word in words("leaves_out_pairs") or (word in words("leaves_out") and self._club_behind(at + 1, end)):
            return Part("out", None, at, at + 1)
        if f"{word} {following}" in words("keeps_pairs"):
            return Part("keeps", None, at, at + 2)
        if word in words("keeps") or self.its_own(at, end):
            return Part("keeps", None, at, at + 1)
        if (word in words("left_out") or self._negated(at, end)) and "club" in told:
            return Part("out behind", None, at, at + 1)
        if word in ("no", "no.", "nos") and following.isdecimal():
            return Part("plain", None, at, at + 1)  # "no 4 Norrby Fat"
        if word in ("not", "instead of", "rather than") and before and at + 1 < end and tokens[at + 1].kind == "number":
            return Part("plain", None, at, at + 2)  # "two wraps, not one"
        if (date := self._date(at, end)) is not None:
            return date
        if word == "by" and at + 1 < end and tokens[at + 1].text.istitle():
            return None  # "put on by Ada Quill"
        if word in ("changed", "amended", "corrected") and told & {"name", "wraps", "mass"}:
            return Part("no", word, at, at + 1)  # "two extra wraps [changed: one extra wrap]"
        if word in (*EXCEPT, "apart from") and (behind := self._another_name(at + 1, end)):
            return Part("plain", None, at, behind)
        if word in ("no", "but", "not") or token.terminal == "CORRECTION":
            if word == "no" and self._club_behind(at + 1, end):
                return Part("out", None, at, at + 1)
            return Part("no" if token.terminal == "CORRECTION" else "plain", None, at, at + 1)
        if "keeps" in told and word in words("keeps_behind") and before[-1].sort in ("keeps", "club", "grip"):
            return Part("keeps", None, at, at + 1)
        if (word in words("takes_in") or word == "as well as") and self._club_behind(at + 1, end):
            return Part("in", None, at, at + 1)
        if word in words("as_well") or f"{word} {following}" == "as well":
            return Part("in behind", None, at, at + 1 + (word == "as"))
        if (reach := self.reach(at, end)) is not None:
            return reach
        if word in words("of_those") and before and before[-1].sort in ("club", "mark"):
            return Part("those", None, at, at + 1)
        if word in words("has") or token.terminal == "WITH":
            return Part("has", word, at, at + 1)
        if (core := self._core(at, end, told)) is not None:
            return core
        if (mass := self._mass(at, before)) is not None:
            return mass
        if word in ("name", "called", "named") and "name" in told:
            return Part("no", word, at, at + 1)  # "Leather grips on all, name on the cap: Norrby"
        if token.terminal == "NOTE" and "name" in told and word.partition(" ")[0] in ("logo", "alignment"):
            return Part("note", word, at, at + 1)
        if token.terminal in _MARKS or (token.kind == "mark" and token.text in _MARKED):
            ok = token.kind != "mark" or token.text in _MARKED
            return Part("mark", token.text if token.kind == "mark" else ",", at, at + 1) if ok else None
        if (name := self._name(at, end, at == self.begin)) is not None:
            return name
        if token.terminal == "SIZE" or word in ("undersize", "oversize"):
            return Part("size", word, at, at + 1)
        plain = (
            token.value == "both"
            or (self.gone and word in words("gone_too"))
            or word in words("plain")
            or word in words("looks")
            or (token.terminal == "SILENT" and word not in words("breaks"))
        )
        plain = plain or (token.terminal == "RANGE" and word.startswith(("down", "through")))
        led = {one.lower for one in tokens[max(self.begin, at - 3) : at]}
        place = token.terminal == "WORD" and token.text.islower() and not self.small and led & words("where")
        plain = plain or bool(place and word not in words("breaks"))  # "put on in our shop"
        small = token.terminal in ("COLOUR", "BULLET") or token.terminal in ("AT", "IN", "BY", "EQ", "AND")
        return Part("plain", None, at, at + 1) if plain or small else None

    def run(self, part: Part, end: int) -> Part | None:
        """ "driver to wedges", "from the 3 wood down to the lob wedge": a run of the set by its ends."""
        tokens, at = self.tokens, part.end
        first = part.value
        if not isinstance(first, Reach) or first.phrase is None:
            return None
        if part.start > 1 and "down to" in " ".join(token.lower for token in tokens[part.start - 3 : part.start]):
            return Part("club", Reach("run", None, to=first.phrase), part.start, at)  # "Down to the 3 wood"
        led = at
        while at < end and tokens[at].lower in ("and", "on", "all", "right", "&"):
            at += 1
        below = at < end and tokens[at].lower in ("down", "downward", "downwards", "below", "on down", "and down")
        if below and (at + 1 >= end or tokens[at + 1].terminal not in ("RANGE", "AT", "BY")):
            return Part("club", Reach("run", first.phrase), part.start, at + 1)  # "from the 4 iron down"
        at = led
        while at < end and (tokens[at].terminal in ("DOWN", "SILENT") and tokens[at].lower in ("down", "all", "right")):
            at += 1
        joint = at < end and (tokens[at].terminal == "RANGE" or (tokens[at].terminal == "DASH" and tokens[at].glued))
        if not joint:
            return None
        at += 1
        while at < end and tokens[at].terminal == "SILENT":
            at += 1
        last = self.reach(at, end) if at < end else None
        if last is None or not isinstance(last.value, Reach) or last.value.phrase is None:
            return None
        return Part("club", Reach("run", first.phrase, to=last.value.phrase), part.start, last.end)

    def wraps(self, at: int, end: int, told: set[str]) -> Part | None:
        """ "two extra wraps", "no extra wraps", "an extra layer of tape", "+2"; "two" alone where wraps were told."""
        tokens = self.tokens
        token = tokens[at]
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule == "wraps" and phrase.end <= end:
            return Part("wraps", phrase.amounts[0].value, at, phrase.end)
        if token.terminal == "WRAP" and not told & {"wraps"}:  # "Wraps: 2 extra"
            behind = at + 1
            while behind < end and (tokens[behind].kind == "mark" or tokens[behind].terminal == "BULLET"):
                behind += 1
            number = tokens[behind].value if behind > at + 1 and behind < end else None
            if isinstance(number, float) and 0 <= number <= 6:
                return Part("wraps", number, at, behind + 1)
        counts = {"no": 0, "without": 0, "zero": 0, "a": 1, "an": 1, "one": 1, "single": 1, "double": 2}
        if token.lower in counts:
            behind = at + 1
            while behind < end and behind < at + 4 and tokens[behind].lower in _BEFORE_WRAPS:
                behind += 1
            if behind < end and tokens[behind].terminal == "WRAP":
                return Part("wraps", float(counts[token.lower]), at, behind + 1)
        value = token.value if token.kind == "number" and isinstance(token.value, float) else None
        if value is None:
            on = at + 1 < end and tokens[at + 1].lower in ("on", "for")  # "two wraps on the irons, one on the driver"
            value = _SINGLES.get(token.lower) if on else None
        if at and any(one.lower in ROW_WORDS for one in tokens[max(0, at - 2) : at] if one.lower != "no"):
            return None
        if value is None or value != int(value) or not 0 <= value <= 6:
            return None
        extra = at + 1
        if tokens[at - 1].terminal == "WRAP" and at:
            return None
        while extra < end and tokens[extra].lower in ("extra", "more", "additional"):
            extra += 1
        below = extra < end and tokens[extra].lower in _BELOW  # "one more under the right hand"
        if extra > at + 1 and (below or extra >= end or tokens[extra].terminal in (*_MARKS, "WRAP", "AT", "ALL")):
            return Part("wraps", value, at, extra + (extra < end and tokens[extra].terminal == "WRAP"))
        signed = (
            token.terminal == "SNUM"
            and token.sign > 0
            and (told & {"name", "grip"} or (self.wrapped and "club" in told))
        )
        lone = ("wraps" in told or (self.wrapped and "no" in told)) and (
            extra >= end or tokens[extra].terminal in (*_MARKS, "AT", "IN")
        )
        if signed or lone:
            return Part("wraps", value, at, at + 1)
        return None

    def _unknown(self, at: int, end: int) -> Part | None:
        """ "No idea how much tape", "no tape showing", "no tape count": what nobody knows, and no wraps."""
        said = [token.lower for token in self.tokens[at : min(at + 3, end)]]
        taped = len(said) > 2 and self.tokens[at + 1].terminal == "WRAP" and said[2] in _UNTOLD
        if said[:1] != ["no"] or not (taped or (len(said) > 1 and said[1] in _UNTOLD)):
            return None
        stop = next((place for place in range(at, end) if self.tokens[place].kind == "mark"), end)
        return Part("note", None, at, stop)

    def _mass(self, at: int, before: list[Part]) -> Part | None:
        """ "50 g", and behind a grip's name "50"."""
        phrase = phrase_at(self.tokens, at)
        if phrase is None or phrase.rule != "bare" or self.tokens[at].kind != "number":
            return None
        amount = phrase.amounts[0]
        labelled = bool(before) and before[0].sort == "grip" and any(part.sort == "name" for part in before)
        if not 20 <= amount.value <= 140 or not (amount.unit == "g" or (not amount.unit and labelled)):
            return None
        return Part("mass", amount.value, at, phrase.end)

    def _another_name(self, at: int, end: int) -> int:
        """The place of the name in "except for a Tessary on the putter", which has another grip; 0 for no name."""
        tokens = self.tokens
        at += at < end and tokens[at].lower in ("for", "from")
        at += at < end and tokens[at].lower in ("a", "an", "the")
        named = at < end and tokens[at].terminal == "WORD" and tokens[at].text[:1].isupper()
        return at if named and any(token.lower == "on" for token in tokens[at + 1 : min(at + 5, end)]) else 0

    def its_own(self, at: int, end: int) -> bool:
        """True for the "own" of "the putter has its own", "keeps the original one", "has its own grip"."""
        if self.tokens[at].lower not in words("its_own"):
            return False
        behind = self.tokens[at + 1] if at + 1 < end else None
        if behind is None or behind.kind == "mark":
            return self.tokens[at - 1].lower in ("its", "their", "it's", "an", "the")
        return behind.lower in ("one", "ones") or (behind.terminal == "GRIPWORD" and self.tokens[at].lower == "own")

    def _date(self, at: int, end: int) -> Part | None:
        """ "12 April 2025", "last May", "this spring": when the grips came on."""
        tokens, stop = self.tokens, at
        while stop < end and stop < at + 2 and tokens[stop].lower in words("times_before"):
            stop += 1
        if stop + 1 < end and tokens[stop].kind == "number" and tokens[stop + 1].terminal == "MONTH":
            stop += 1
        if stop >= end:
            return None
        lower = tokens[stop].lower
        if tokens[stop].terminal not in ("MONTH", "DATE") and lower not in words("times"):
            return None
        led = tokens[at - 1].lower if at else ""
        if stop == at and lower in words("times") and led not in ("in", "on", "since", "this", "at", "early", "late"):
            return None
        stop += 1
        while stop < end and tokens[stop].kind == "number" and not tokens[stop].glued and stop < at + 5:
            value = tokens[stop].value
            if not (isinstance(value, float) and 1990 <= value <= 2099):
                break
            stop += 1
        return Part("note", None, at, stop)

    def _negated(self, at: int, end: int) -> bool:
        """True for the "not" of "Grips: Norrby, putter not."."""
        return self.tokens[at].lower == "not" and (at + 1 >= end or self.tokens[at + 1].kind == "mark")

    def _under_hand(self, at: int, end: int, before: list[Part]) -> Part | None:
        """ "… under the lower hand", "plus one more under the right hand": where the tape lies has no field."""
        tokens = self.tokens
        if tokens[at].lower not in (*_BELOW, "for"):
            return None
        for stop in range(at + 1, min(at + 4, end)):
            if tokens[stop].lower.split()[-1:] in (["hand"], ["hands"]):
                start = at
                if before and before[-1].sort == "wraps" and sum(part.sort == "wraps" for part in before) > 1:
                    start = before.pop().start  # "one more under the right hand"
                return Part("note", None, start, stop + 1)
        return None

    def _core(self, at: int, end: int, told: set[str]) -> Part | None:
        """The "(60R)" behind a grip's name: the size of its core, which has no field."""
        token = self.tokens[at]
        if token.value not in (56.0, 58.0, 60.0, 62.0) or "name" not in told or self.tokens[at - 1].text != "(":
            return None
        stop = at + 1
        while stop < end and self.tokens[stop].text != ")":
            stop += 1
        return Part("note", token.text, at, stop) if stop <= at + 2 else None

    def _club_behind(self, at: int, end: int) -> bool:
        """True where clubs are named next: "on the putter"."""
        tokens = self.tokens
        while at < end and (tokens[at].terminal in ("SILENT", "AT", "IN", "BY", "LPAR") or tokens[at].lower == "for"):
            at += 1
        part = self.reach(at, end) if at < end else None
        return part is not None and isinstance(part.value, Reach) and part.value.whole is None

    # -------------------------------------------------------------------------------------------------- its clubs

    def reach(self, at: int, end: int) -> Part | None:
        """Clubs named here, or a word for all of them, for the rest, for so many."""
        tokens = self.tokens
        whole = self._whole(at, end)
        if whole is not None:
            return whole
        token = tokens[at]
        if (rows := self._rows(at, end)) is not None:
            return rows
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.end <= end:
            if phrase.rule in _CLUB_RULES and self._of_clubs(phrase):
                pointed = at > 0 and tokens[at - 1].lower in ("the", "on", "in", "for", "and", "but", "all", ":", "to")
                stamps = phrase.rule in ("amounts", "code") and not phrase.has(*KINDS)
                if stamps and not (pointed and all(amount.value >= 44 for amount in phrase.amounts)):
                    return None  # "Burr 54/10"
                return Part("club", Reach(None, _kept(phrase)), at, phrase.end)
            if phrase.rule == "group" and phrase.has("ORDINAL", *KINDS):
                return Part("club", Reach(None, _kept(phrase)), at, phrase.end)
            stamp = phrase.amounts[0].value if phrase.rule == "bare" else 0.0
            pointed = at > 0 and tokens[at - 1].lower in ("the", "on", "in", "and")
            closed = phrase.end >= end or tokens[phrase.end].terminal in (*_MARKS, "SILENT", "AT")
            if 44 <= stamp <= 64 and phrase.amounts[0].unit in ("", "deg") and pointed and closed:
                return Part("club", Reach(None, _kept(phrase)), at, phrase.end)  # "the 58"
        gripped = at + 1 < end and (
            tokens[at + 1].terminal == "GRIPWORD"
            or (tokens[at + 1].lower in ("new", "x") and at + 2 < end and tokens[at + 2].terminal == "GRIPWORD")
        )
        led = tokens[at - 1] if at else None
        opens = led is None or led.kind in ("newline", "mark") or led.terminal in ("SILENT", "BULLET")
        if token.kind == "number" and isinstance(token.value, float) and gripped and 2 <= token.value <= 14 and opens:
            return Part("club", Reach("counted", None, int(token.value)), at, at + 1)  # "13 grips Norrby"
        return None

    def _whole(self, at: int, end: int) -> Part | None:
        """ "all", "every club", "the whole set", "all the others", "all three", "all of these"."""
        tokens = self.tokens
        led = at
        while at < end and (tokens[at].lower in words("whole") or tokens[at].lower == "the"):
            at += 1
        first = tokens[at] if at < end else tokens[led]
        opened = at > led and any(tokens[one].lower in words("whole") for one in range(led, at))
        every = first.terminal == "ALL" or first.lower in words("all") or (opened and first.lower in words("set"))
        rest = any(word in words("rest") for word in first.lower.split())
        bag = first.lower in ("bag", "set") and led and tokens[led - 1].lower in ("through", "throughout", "whole")
        resting = rest and (first.terminal == "THOSE" or first.lower in ("other", "others", "remaining"))
        these = first.lower in ("these", "those") and at + 1 < end and tokens[at + 1].lower in ("clubs", "all")
        if not (every or resting or bag or these) or first.lower == "each":
            return None
        behind = next((one for one in tokens[at + 1 : end] if one.terminal != "SILENT"), None)
        if first.value == "both" and behind is not None and behind.terminal in KINDS:
            return None  # "both the driver and the irons"
        count = 2 if first.value == "both" else 0
        so_far = "above" in first.lower.split() or these
        them = "them" in first.lower.split()
        at += 1
        while at < end:
            token, word = tokens[at], tokens[at].lower
            if word in words("rest"):
                rest = True
            elif word in words("so_far") or (word == "so" and tokens[min(at + 1, end - 1)].lower == "far"):
                so_far = True
            elif token.terminal == "THOSE":
                rest = rest or word in words("rest") or "rest" in word or "other" in word
                so_far = so_far or word in ("these", "those")
                them = True
            elif word in _COUNTS and (at + 1 >= end or tokens[at + 1].terminal not in ("GRAM", "WRAP", "NUM")):
                count = _COUNTS[word]
                if at + 1 < end and tokens[at + 1].lower == "extra":
                    count = 0
                    break
            elif token.kind == "number" and isinstance(token.value, float) and 2 <= token.value <= 14:
                unit = tokens[at + 1].terminal if at + 1 < end else ""
                if unit in ("GRAM", "WRAP") or tokens[min(at + 1, end - 1)].lower == "extra" or token.sign:
                    break
                if token.value != int(token.value):
                    break
                count = int(token.value)
            elif token.terminal == "ALL" and (so_far or word in words("set")):
                pass  # "these clubs all got", "on all the lot"
            elif (
                token.terminal in KINDS
                or token.terminal == "ALL"
                or word not in _PASSED | words("set") | words("whole")
            ):
                break
            at += 1
        while at > led + 1 and tokens[at - 1].lower in ("the", "my", "his", "her", "our", "of"):
            at -= 1
        if at < end and (rest or every) and not count:
            phrase = phrase_at(tokens, at + (tokens[at].lower in ("the", "of")))
            span = phrase is not None and phrase.rule in _CLUB_RULES
            ahead = phrase is not None and phrase.tokens[0].terminal in (*KINDS, "NUM")
            if span and ahead and phrase is not None and phrase.end <= end and self._of_clubs(phrase):
                return Part("club", Reach(None, _kept(phrase)), led, phrase.end)  # "all the irons", "all 4 wedges"
        if at < end and count and tokens[at].terminal in KINDS:
            phrase = phrase_at(tokens, at)
            if phrase is not None and phrase.end <= end:
                return Part("club", Reach(None, _kept(phrase), count), led, phrase.end)  # "the three wedges"
        if rest:
            return Part("club", Reach("rest", None, count), led, at)
        if count:
            return Part("club", Reach("counted", None, count), led, at)
        them = them and not any(one.terminal == "SAME" for one in tokens[max(0, led - 4) : led])
        return Part("club", Reach("so far" if so_far else "of them" if them else "all"), led, at)

    def _rows(self, at: int, end: int) -> Part | None:
        """ "on 1 to 13", "lines 2-5", "14 Norrby Fat": counted lines of a list, and no clubs' numbers."""
        tokens = self.tokens
        if (bracketed := self._bracketed_rows(at, end)) is not None:
            return bracketed
        led = [token.lower for token in tokens[max(0, at - 2) : at] if token.text != "."]
        named = bool(led) and led[-1] in ROW_WORDS
        rows, stop = self._counted(at, end)
        if len(rows) > 1:
            more = phrase_at(tokens, at)
            clubs = more is not None and (more.end > stop or more.has(*KINDS))
            ranged = stop == at + 3 and rows[0] == 1
            counted = named or (ranged and bool(led) and led[-1] in ("on", "for", ":", "-", "at", "in", "grips"))
            if counted and not clubs:
                return Part("club", Reach("rows", None, rows=rows), at, stop)
        after = tokens[at + 1].terminal if at + 1 < end else ""
        named_one = named and (after in ("", "SILENT", "WITH") or tokens[at + 1].kind == "mark")
        opening = self.rows and at == self.begin
        if len(rows) == 1 and (named or opening) and (after in ("WORD", "EQ") or named_one):
            return Part("club", Reach("rows", None, rows=rows), at, at + 1)
        count = _COUNTS.get(tokens[at].lower, 0)
        closed = at + 1 >= end or tokens[at + 1].kind == "mark"
        if count and led[-1:] == ["on"] and closed:
            return Part("club", Reach("counted", None, count), at, at + 1)  # "on twelve"
        return None

    def _counted(self, at: int, end: int) -> tuple[tuple[int, ...], int]:
        """The whole numbers of "1 to 3", "1, 2 and 5", "4" from here, each at most 14, and the place behind."""
        tokens = self.tokens
        rows: list[int] = []
        stop = at
        while at < end and tokens[at].text.isdecimal() and 1 <= int(tokens[at].text) <= 14:
            number = int(tokens[at].text)
            joint = tokens[at - 1] if rows else None
            if joint is not None and number <= rows[-1]:
                break
            if joint is not None and (joint.terminal in ("RANGE", "DASH") or joint.text in ("-", "–", "to")):
                rows += range(rows[-1] + 1, number)
            rows.append(number)
            stop = at + 1
            joined = stop < end and (
                tokens[stop].terminal in ("RANGE", "DASH", "AND", "COMMA", "SLASH")
                or tokens[stop].text in ("-", "–", "to", "and", "&", ",")
            )
            at = stop + joined
            if not joined:
                break
        return tuple(rows), stop

    def _bracketed_rows(self, at: int, end: int) -> Part | None:
        """ "(1)-(4)", "(5)": lines counted in brackets, in a list that counts them so."""
        tokens = self.tokens
        if tokens[at].text != "(" or not any(line.lstrip().startswith("(1)") for line in self.scene.source.lines):
            return None
        rows: list[int] = []
        ranged, led = False, at
        while (
            at + 2 < end and tokens[at].text == "(" and tokens[at + 1].text.isdecimal() and tokens[at + 2].text == ")"
        ):
            number = int(tokens[at + 1].text)
            if ranged and rows and rows[-1] < number <= 14:
                rows += range(rows[-1] + 1, number)
            rows.append(number)
            at += 3
            if at < end and tokens[at + 1 : at + 2] and tokens[at + 1].text == "(":
                joint = tokens[at]
                ranged = joint.terminal in ("DASH", "RANGE")
                at += ranged or joint.terminal in ("COMMA", "AND", "SLASH")
        return Part("club", Reach("rows", None, rows=tuple(rows)), led, at) if rows else None

    def _of_clubs(self, phrase: Phrase) -> bool:
        """False for a figure that only looks like clubs: "1-2 wraps", "50 g"."""
        after = self.tokens[phrase.end].terminal if phrase.end < len(self.tokens) else ""
        if after in ("WRAP", "GRAM", "GRIPWORD") and phrase.tokens[-1].kind == "number":
            return False
        return not phrase.amounts or all(amount.unit in ("", "deg") for amount in phrase.amounts)

    # --------------------------------------------------------------------------------------------------- its name

    def _name(self, at: int, end: int, opens: bool) -> Part | None:
        """The name that begins here: capital words, or any of nobody's where the list writes no capitals."""
        if not self._begins_name(at, opens):
            return None
        tokens, stop = self.tokens, at + 1
        while stop < end and self._goes_on(at, stop, end):
            stop += 1
        while tokens[stop - 1].terminal == "HYPHEN":
            stop -= 1
        return Part("name", self.scene.words(at, stop), at, stop)

    def _begins_name(self, at: int, opens: bool) -> bool:
        """True for a word that can begin a grip's name."""
        token = self.tokens[at]
        proper = token.terminal in ("WORD", "COLOUR") and token.lower not in words("plain")
        if token.text.istitle() and token.lower in words("looks") and self.tokens[at - 1].lower == "the" and not opens:
            return True  # "Norrby: the Lite on the driver, the Firm on the irons"
        if not proper or (token.terminal == "WORD" and not eligible(self.scene, at)):
            return False
        if token.text[:1].isupper():
            plain = ordinary(self.scene, at) or token.lower in words("looks")
            return not (opens and (plain or token.terminal != "WORD"))
        free = token.terminal == "WORD" and not ordinary(self.scene, at) and token.lower not in words("has")
        return self.small and free

    def _goes_on(self, start: int, at: int, end: int) -> bool:
        """True where the name that began at `start` goes on with this token."""
        tokens = self.tokens
        token, before = tokens[at], tokens[at - 1]
        if token.line != before.line or gap(before, token) > 2:
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
        if token.terminal == "WRAP" and token.text.istitle() and before.terminal == "WORD":
            return True  # "Norrby Wrap"
        if token.kind != "word" or token.terminal in _NO_NAME:
            return False
        if token.glued and before.kind == "number":
            return len(token.text) < 3 and token.terminal not in ("GRAM", "WRAP")  # "58R"
        if token.text[:1].isupper():
            return token.terminal != "ALL" and token.terminal not in ("WITH", "AT", "IN", "CORRECTION")
        sorts = ("leaves_out", "left_out", "as_well", "has", "plain", "keeps", "takes_in", "all", "rest")
        free = token.terminal in ("WORD", "FLAT", "PLACE") and not any(token.lower in words(sort) for sort in sorts)
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
        return token.text[:1].isdecimal() and (not 20 <= value <= 140 or weighed or lettered)


def _kept(phrase: Phrase) -> Phrase:
    """The phrase with tokens of its own, which nobody changes."""
    return Phrase(phrase.rule, [copy(token) for token in phrase.tokens], phrase.start, phrase.end)
