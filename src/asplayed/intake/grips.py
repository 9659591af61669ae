"""Sentences that tell nothing but grips: which grip, of what mass, with how many wraps, on which clubs, on which not.

"Norrby Cord on all but the putter, two extra wraps; Norrby Flat on the putter", "the irons and wedges have Tessary
grips", "Grips: Norrby, whole set incl. putter", "One extra wrap on the woods, two on the irons". Such a sentence is
taken whole before anything else is made of its words; which clubs it means is settled by `grips_given`.
"""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.grip_parts import KINDS, ROW_WORDS, Part, Pieces, Reach, words
from asplayed.intake.grips_alike import alike_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_ENDS = {"STOP", "NEWLINE", "PIPE"}
_TURNS = ("so", "and", "but", "grips")
_EVERY = ("all", "of them")
_LINKS = (":", "=", "-", "–", "—", "(")  # between clubs and their grip
_ASKED = 6  # tokens of a question that only puts in a word
_TALK = 16  # tokens of a stretch that tells of other things
_LONGEST = 90  # tokens of a sentence of grips
_PIECES = 24  # lines of one sentence that are looked at
_OTHERS = {
    "ASIDE", "BALLWORD", "SHAFTWORD", "HEADWORD", "LENGTH", "LOFT", "PLAYERWORD", "EVENTWORD", "TITLEWORD",
    "FLEXWORD", "SWINGWEIGHT", "SWV", "LIE", "BOUNCE", "DEG", "INCH", "CPM", "SLEEVE", "UPRIGHT", "BENT",
}  # fmt: skip

_OF_CLUBS = _OTHERS - {"BALLWORD", "ASIDE", "PLAYERWORD", "EVENTWORD", "TITLEWORD"}


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
    like: Reach | None = None  # the club whose grip it is: said of the clubs spoken of


class Met:
    """A statement of grips that the walk has come by, with the clubs that were known there."""

    def __init__(self, statement: Statement, known: list[Draft], since: list[Draft], apart: list[Draft]) -> None:
        self.statement = statement
        self.known = known  # the clubs told of before it
        self.since = since  # those of them that had no grip yet
        self.apart = apart  # a putter spoken of right before: "no need to do the putter; all the others …"


def read_grips(scene: Scene) -> None:
    """Take every sentence that tells of nothing but grips; what each says waits in `scene.grips`."""
    Grips(scene).run()


class Grips:
    """Goes through a list's sentences and takes those about grips."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.heading: list[Reach] = []  # the clubs that a heading names: "GRIPS, all clubs"
        self.under = False  # the lines below "Grips" are told
        self.notes: list[Part] = []  # the sizes and remarks among what is told
        self.holes: list[tuple[int, int]] = []  # stretches in it that tell of other things: they are left to the rest
        self.cut = self.end = 0  # where what is told ends, and where the sentence ends
        self.skipped: list[int] = []  # the tokens that tell no figure
        self.gone = False  # the sentence tells of grips that are there no more
        self.sized = -1  # where a sentence begins that tells of nothing but the size of grips
        self.pieces = Pieces(scene)
        self.labels = _labels_of_speakers(self.tokens)
        # words right behind a club's: a maker of heads may make grips too
        self.models = {
            token.text for token, before in zip(self.tokens[1:], self.tokens, strict=False) if before.terminal in KINDS
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
            taken = at > start and (self._alike(start, at) or self._taken(start, at, leaning))
            asked = at < len(tokens) and tokens[at].text == "?" and at - start < _ASKED and not taken
            if at > start and not (asked and leaning in ("taken", "line")):  # "one?" puts in a word
                passed = leaning == "taken" and not taken and self._other_talk(start, at)  # "New in May."
                leaning = "passed" if passed else self._leaned_on(start, at, taken)
                self.under = leaning == "heading" or (self.under and taken)
            if at < len(tokens) and tokens[at].terminal == "NEWLINE" and leaning == "taken":
                leaning = "heading" if self.heading or self.under else "line"
            at += 1

    def _alike(self, start: int, end: int) -> bool:
        """Take "Grip: as item 1, but three extra wraps" anywhere in a sentence."""
        tokens = self.tokens
        for at in range(start, end):
            if tokens[at].terminal not in ("SAME", "GRIPWORD") or self.scene.claims[at]:
                continue
            alike = alike_at(self.pieces, at, end)
            if alike is None:
                continue
            facts = {}
            if alike.wraps is not None and isinstance(alike.wraps.value, float):
                said = self.scene.words(alike.wraps.start, alike.wraps.end)
                facts["grip.wraps"] = Entry(alike.wraps.value, "1", tokens[alike.wraps.start].line, said)
            self.skipped, self.holes, self.notes = list(range(at, alike.end)), [], []
            self._take(at, alike.end, Statement([Given(facts, [], [])], False, False, alike.club))
            return not start < at
        return False

    def _taken(self, start: int, end: int, leaning: str) -> bool:
        """Take the sentence, or the stretch of it that tells of grips; a size alone is kept as a note."""
        for first, last in self._stretches(start, end):
            if last - first > _LONGEST:
                continue
            self.sized, self.gone = -1, False
            told = self._sentence(first, last, leaning if first == start else "inside")
            if told is not None:
                stop = self.cut
                self._take(first, stop, told)
                if stop < end:
                    self._taken(stop, end, "inside")
                return True
            if self.gone:
                self.scene.set_aside(first, last)
                return False
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
        turns = [at for at in range(start, end - 1) if tokens[at].text == "," and tokens[at + 1].lower in _TURNS]
        clubs = next((at for at in range(start, end) if tokens[at].terminal in KINDS), end)
        turns += [at for at in range(start, min(clubs, end)) if tokens[at].text == ":"]
        every = next((at for at in range(start + 1, min(clubs, end)) if tokens[at].terminal == "ALL"), None)
        if every is not None and not any(
            token.terminal in ("GRIPWORD", "WRAP") or token.lower in words("spoils") for token in tokens[start:every]
        ):
            turns.append(every - 1)  # "Since the wet spring all of them wear Norrby grips"
        starts = sorted({start, *(at + 1 for at in (*lines, *turns))})[:_PIECES]
        ends = sorted({*lines, *joints, end}, reverse=True)
        found = [(first, last) for first in starts for last in ends if first < last <= first + _LONGEST]
        return sorted(found, key=lambda one: (one[0] != start, one[0] - one[1]))[: _PIECES * 3]

    def _leaned_on(self, start: int, end: int, taken: bool) -> str:
        """What the next sentence may lean on: a statement, a heading or question "Grips?", a sentence with grips."""
        if taken:
            return "taken"
        words = [
            token
            for token in self.tokens[start:end]
            if token.kind == "word" and token.terminal not in ("SILENT", "BULLET")
        ]
        if start in self.labels:
            words = [token for token in words if token.start >= self.tokens[self.labels[start]].start]
        gripped = any(token.terminal in ("GRIPWORD", "WRAP") for token in words)
        if gripped and (len(words) == 1 or self.heading):
            return "heading"
        return "said" if gripped else ""

    def _take(self, start: int, end: int, told: Statement) -> None:
        """Count the sentence as told of clubs and keep what it says."""
        scene, tokens = self.scene, self.tokens
        holes = [at for first, last in self.holes for at in range(first, last)]
        told_of = [at for at in range(start, end) if at not in holes]
        for at in told_of:
            scene.take(at, at + 1)
        for first, last in self.holes:
            if any(token.terminal in ("MONTH", "DATE") for token in tokens[first:last]):
                self.notes.append(Part("note", None, first, last))  # when it was done is no date of the list's
        for at in self.skipped:
            if tokens[at].kind == "number":
                scene.claims[at] = (
                    "silent"  # how many clubs, which rows, what a correction replaced: no figure of a club
                )
        for part in self.notes:
            scene.add_note(part.start, part.end, None)
            scene.claims[part.start : part.end] = ["note"] * (part.end - part.start)
        scene.grips.append((tokens[start], told))
        for given in told.given:
            name = given.facts.get("grip.name")
            maker = str(name.value).split()[0] if name is not None else ""
            if maker and maker not in self.models:
                scene.evidence.append((maker, "grip", 4))
        # what other rooms would make of its words is nothing
        for at in told_of:
            tokens[at].terminal = "BULLET" if tokens[at].terminal == "BULLET" else "SILENT"

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
        leaning = "taken" if leaning == "passed" else leaning
        self.pieces.rows = leaning == "taken"
        self.pieces.wrapped = leaning in ("taken", "line")
        label = self.tokens[at : at + 2]
        if end - at > 2 and label[0].terminal in ("WORD", "TITLEWORD") and label[1].text == ":":
            at += 2  # "Spec: Norrby grips on all"
        begin = self.pieces.begin = at
        told_of = self.tokens[at:end]
        terminals = {token.terminal for token in told_of}
        if not (terminals & {"GRIPWORD", "WRAP"} or leaning not in ("", "inside") or "ALL" in terminals) or (
            self.scene.claims[at] and self.tokens[at].lower not in ROW_WORDS
        ):
            return None
        lowers = {token.lower for token in told_of if token.text.islower() or token is told_of[0]}
        own = any(self.pieces.its_own(one, end) for one in range(at, end))
        kept = words("keeps_behind") if own or lowers & words("keeps") else frozenset()
        dated = any(one.lower in words("gone") and other.lower.startswith("grip") for one, other in pairwise(told_of))
        gone = words("gone") if dated and not kept else frozenset()
        self.pieces.gone = bool(gone)
        breaks = words("breaks") - kept - (gone and words("gone_too"))
        parts = self._parts(at, end, breaks)
        if parts is None:
            return None
        self.notes = [part for part in parts if part.sort in ("size", "note")]
        size = next((part.start for part in parts if part.sort == "size"), -1)
        if parts and all(part.sort == "note" for part in parts) and leaning:
            self.sized = begin  # "Renewed 4 April 2025."
        sorts = {part.sort for part in parts}
        if size >= 0 and "grip" in sorts and not sorts & {"name", "mass", "wraps"}:
            self.sized = min(part.start for part in parts if part.sort in ("size", "grip", "club"))
        if sorts <= {"grip", "mark", "club"} and "grip" in sorts and "club" in sorts and begin == start:
            self.heading = [part.value for part in parts if isinstance(part.value, Reach)]  # "GRIPS, all clubs"
        told = _Reader(self, parts, leaning).statement()
        if told is not None and leaning == "heading" and self.heading and not any(one.reach for one in told.given):
            told = told._replace(given=[one._replace(reach=list(self.heading)) for one in told.given])
        if told is not None and gone:
            self.gone = True  # "The old grips were Norrby Cord"
            return None
        return told

    def _parts(self, begin: int, end: int, breaks: frozenset[str]) -> list[Part] | None:
        """The pieces of a sentence; a stretch between marks that tells of other things is passed over."""
        tokens, at = self.tokens, begin
        parts: list[Part] = []
        self.skipped, self.holes, self.cut, self.end = [], [], end, end
        opened, before, passed = begin, 0, 0  # where the stretch begins, and what was found until there
        while at < end:
            if _mark_between(tokens, at):
                opened, before, passed = at, len(parts), len(self.skipped)
            part = self.pieces.part(at, end, parts)
            if part is not None and part.sort == "club" and (run := self.pieces.run(part, end)) is not None:
                part = run
            if part is not None and part.sort != "note" and self._elsewhere(part, begin, breaks):
                part = None
            if part is None:
                behind = next((one for one in range(at + 1, end) if _mark_between(tokens, one)), end)
                first = opened + (tokens[opened].kind == "mark")
                del parts[before:], self.skipped[passed:]
                sorts = {part.sort for part in parts}
                if "name" in sorts and not sorts & {"grip", "wraps"}:
                    return None  # "Norrby, Alder 95 S, half an inch over, one wrap": a club
                said = any(token.terminal in ("GRIPWORD", "WRAP") for token in tokens[begin:end])
                if said and self._other_talk(first, behind, opening=not parts):
                    self.holes.append((first, behind))
                    at = behind
                    continue
                others = any(token.terminal in _OTHERS for token in tokens[first:end])
                told = sorts & {"grip", "wraps"} and sorts & {"name", "wraps", "mass"}
                if others and told and not any(token.lower in words("spoils") for token in tokens[first:end]):
                    self.cut = opened  # "… except the putter, the irons are half an inch over"
                    return parts
                return None
            if part.sort != "plain":
                parts.append(part)
            if part.sort in ("plain", "club"):
                self.skipped += range(part.start, part.end)
            at = max(part.end, at + 1)
        return parts

    def _elsewhere(self, part: Part, begin: int, breaks: frozenset[str]) -> bool:
        """True for a piece with a word of other parts or of what was or may be."""
        for at in range(part.start, part.end):
            token = self.tokens[at]
            if token.terminal in _OTHERS and part.sort != "name":
                return True
            if token.lower in breaks and (token.text.islower() or at == begin) and not self._passive(at):
                return True
        return False

    def _passive(self, at: int) -> bool:
        """True for the "were" of "all clubs were regripped with Norrby Cord"."""
        tokens = self.tokens
        behind = [token.lower for token in tokens[at + 1 : at + 3]]
        return tokens[at].lower in ("was", "were") and any(word in words("work") for word in behind)

    def _other_talk(self, start: int, end: int, *, opening: bool = False) -> bool:
        """True for a short stretch that names no clubs and no grips, and does not unsay what is told beside it."""
        stretch = self.tokens[start:end]
        dated = any(token.terminal in ("MONTH", "DATE") for token in stretch)
        if not dated and any(token.kind == "number" for token in stretch):
            return False
        if opening and any(token.terminal in _OTHERS for token in stretch):
            return False
        return 0 < len(stretch) <= _TALK and not any(
            token.terminal in (*KINDS, *_OF_CLUBS, "GRIPWORD", "WRAP", "GRAM", "ALL", "CORRECTION")
            or (token.lower in words("spoils") and token.text != "May")
            for token in stretch
        )


def _mark_between(tokens: list[Token], at: int) -> bool:
    """True for a comma, a bracket or a dash that stands apart, and behind such a mark."""
    token = tokens[at]
    dash = token.terminal == "DASH" and not token.glued
    return token.kind == "mark" and (token.text in (",", "(", ")", "[", "]", "–", "—") or dash)


def _apart(one: Token, other: Token) -> bool:
    """True where three blanks or more stand between two words of a line: another column."""
    return one.line == other.line and other.start - one.end > 2


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

    def __init__(self, room: Grips, parts: list[Part], leaning: str) -> None:
        self.room = room
        self.parts = parts
        self.leaning = leaning
        self.given: list[Given] = []
        self.out: list[Reach] = []  # the clubs just left out
        self.own = False  # what follows is of those
        self.owned: list[Given] = []  # what was told of those
        self.maker = ""  # the name before a colon, which the names behind it go on with
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
        for one in self.owned:  # "on everything, except the wedges: those get three wraps": of the same grip
            if "grip.name" not in one.facts and "grip.name" in given[0].facts:
                one.facts["grip.name"] = given[0].facts["grip.name"]
        if not self._stands(given, correcting):
            return None
        bench = any(part.sort == "grip" and "gripped" in str(part.value) for part in parts)
        return Statement(given, correcting, bench)

    def _open(self, *reach: Reach) -> Given:
        """Begin another grip."""
        self.given.append(Given({}, list(reach), []))
        self.own = False
        return self.given[-1]

    def _hear(self, index: int, part: Part) -> bool:
        """Add one piece to what was said; False where it fits nowhere."""
        sort = part.sort
        if sort in ("name", "mass", "wraps"):
            self._fact(index, part)
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

    def _fact(self, index: int, part: Part) -> None:
        """A name, a mass or wraps: of the grip being told, of the club just left out, or of another grip."""
        path = {"name": "grip.name", "mass": "grip.mass", "wraps": "grip.wraps"}[part.sort]
        token = self.room.tokens[part.start]
        value = part.value if isinstance(part.value, str | float) else None
        if path == "grip.name" and self.maker and self.room.tokens[part.start - 1].lower == "the":
            value = f"{self.maker} {value}"  # "Grips are all Norrby: the Lite on the driver, the Firm on the irons"
            if self.given[0].facts.get(path) is not None and self.given[0].facts[path].value == self.maker:
                del self.given[0].facts[path]
                self.given[0].reach.clear()
        entry = Entry(
            value, "g" if path == "grip.mass" else "1", token.line, self.room.scene.words(part.start, part.end)
        )
        now = self.given[-1]
        self.replacing = self.replacing and not self._on_others(index)  # "… one, sorry, two on the irons"
        if self.own and self.out:
            now = self._open(*self.out)
            self.owned.append(now)
        elif (path in now.facts or self._apart_from(now, index)) and not self.replacing:
            now = self._open()
        self.replacing, self.out = False, []
        behind = self.parts[index + 1 : index + 2]
        if path == "grip.name" and behind and behind[0].value == ":":
            self.maker = str(value)
        now.facts[path] = entry

    def _apart_from(self, now: Given, index: int) -> bool:
        """True for the wraps of "Grips: Norrby, two extra wraps on the irons": of other clubs than the name."""
        parts = self.parts
        labelled = (
            parts[0].sort == "grip" and parts[1].sort in ("name", "mark") and "gripped" not in str(parts[0].value)
        )
        whole = labelled and len(self.given) == 1 and parts[index].sort == "wraps" and parts[index - 1].value == ","
        return bool((now.reach or whole) and now.facts) and self._on_others(index)

    def _on_others(self, index: int) -> bool:
        """True for the wraps of "Norrby on everything, two extra wraps on the irons"."""
        behind = self.parts[index + 1 : index + 3]
        named = bool(behind) and behind[0].sort == "club"
        return named and not (len(behind) > 1 and behind[1].sort in ("out behind", "in behind", "keeps", "name"))

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
        laid = index and parts[index - 1].sort in ("name", "mass") and not now.reach and self._on(parts[index].start)
        bracketed = parts[index + 1 : index + 2] and parts[index + 1].value == "(" and self._behind(index) != "name"
        shared = bracketed and bool(now.reach) and self._joined(index) and "grip.name" in now.facts
        if fresh and not laid and not shared:  # "Norrby Firm on the irons with one extra wrap" is one grip
            self._open(reach)
        else:
            now.reach.append(reach)

    def _on(self, at: int) -> bool:
        """True for clubs behind "on" or "for"."""
        led = [token.lower for token in self.room.tokens[max(0, at - 2) : at]]
        return bool(led) and (
            led[-1] in ("on", "for") or (led[-1] in ("the", "my", "his", "her") and led[0] in ("on", "for"))
        )

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
            parts[at].sort in ("has", "those", "grip")
            or (parts[at].sort == "mark" and str(parts[at].value) in ":=-–—(")
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
        partly = self.room.holes or self.room.cut < self.room.end
        if partly and len(given) > 1 and not given[0].reach and parts[0].sort != "grip":
            return False  # "Put a Norrby grip on the Alder putter, left it at 34"
        reaches = [reach for one in given for reach in (*one.reach, *one.but)]
        gripped = any(part.sort == "grip" for part in parts)
        wraps = any(part.sort == "wraps" for part in parts)
        named = [part for part in parts if part.sort == "name"]
        if not any(one.facts for one in given) and parts[0].sort == "out" and not gripped:
            return self.leaning in ("taken", "line") and self.room.tokens[parts[0].start].lower != "no"
        if not any(one.facts for one in given) and {part.sort for part in parts} <= {
            "club",
            "keeps",
            "out behind",
            "grip",
        }:
            return self.leaning in ("taken", "line")  # "Putter untouched."
        if self.leaning == "taken" or (self.leaning == "heading" and (named or wraps)):
            return True
        if self.leaning == "line" and not gripped:
            return not named and (wraps or bool(reaches)) and not gripped
        if self._labelled():
            return True
        group = (
            any(one.but for one in given)
            or any(reach.whole is not None or self._several(reach) for reach in reaches)
            or len(given) > 1
        )
        rest = any(reach.whole == "rest" for reach in reaches)
        if self.leaning == "said" and rest and named:
            return True
        if group and (gripped or wraps):
            return bool(given[0].facts)
        if not reaches and len(given) == 1 and self.leaning != "inside" and self._of_all_grips():
            return True
        # "Norrby on everything": what is on every club is its grip
        everything = next(
            (part for part in parts if isinstance(part.value, Reach) and part.value.whole in _EVERY), None
        )
        if (
            everything is parts[0]
            and len(parts) > 2
            and parts[1].value in ("wear", "wears")
            and parts[2].sort == "name"
        ):
            return True  # "Every club here wears a Norrby, 42 g"
        on = everything is not None and self.room.tokens[everything.start - 1].lower == "on"
        only = all(set(one.facts) <= {"grip.name"} for one in given)
        return on and only and parts[0].sort == "name" and parts[1] is everything

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
