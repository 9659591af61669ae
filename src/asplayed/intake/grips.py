"""Sentences that tell nothing but grips: which grip, of what mass, with how many wraps, on which clubs, on which not.

"Norrby Cord on all but the putter, two extra wraps; Norrby Flat on the putter", "the irons and wedges have Tessary
grips", "Grips: Norrby, whole set incl. putter", "One extra wrap on the woods, two on the irons". Such a sentence is
taken whole before anything else is made of its words; which clubs it means is settled by `grips_given`.
"""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.drafts import Entry
from asplayed.intake.grip_parts import KINDS, ROW_WORDS, Part, Pieces, Reach, words
from asplayed.intake.grip_statements import Given, Reader, Statement
from asplayed.intake.grips_alike import alike_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token, gap

_ENDS = {"STOP", "NEWLINE", "PIPE"}
_TURNS = ("so", "and", "but", "grips")
_ASKED = 6  # tokens of a question that only puts in a word
_LEFT_OUT = 6  # tokens from what leaves clubs out to the end of the sentence
_TALK = 16  # tokens of a stretch that tells of other things
_LONGEST = 90  # tokens of a sentence of grips
_PIECES = 24  # lines of one sentence that are looked at
_OTHERS = {
    "ASIDE", "BALLWORD", "SHAFTWORD", "HEADWORD", "LENGTH", "LOFT", "PLAYERWORD", "EVENTWORD", "TITLEWORD",
    "FLEXWORD", "SWINGWEIGHT", "SWV", "LIE", "BOUNCE", "DEG", "INCH", "CPM", "SLEEVE", "UPRIGHT", "BENT",
}  # fmt: skip

_OF_CLUBS = _OTHERS - {"BALLWORD", "ASIDE", "PLAYERWORD", "EVENTWORD", "TITLEWORD"}


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
        self.cut = 0  # where what is told ends
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
            at = self._end(at)
            if self._of_those_behind(start, at):
                at = self._end(at + 1)
            self.heading = self.heading if leaning in ("heading", "line") else []
            taken = at > start and (self._alike(start, at) or self._taken(start, at, leaning))
            asked = at < len(tokens) and tokens[at].text == "?" and at - start < _ASKED and not taken
            if at > start and not (asked and leaning in ("taken", "line")):  # "one?" puts in a word
                stops = at < len(tokens) and tokens[at].terminal == "STOP"
                leans = leaning == "taken" or (leaning == "line" and stops)
                passed = leans and not taken and self._other_talk(start, at)  # "New in May."
                leaning = "passed" if passed else self._leaned_on(start, at, taken)
                self.under = leaning == "heading" or (self.under and taken)
            if at < len(tokens) and tokens[at].terminal == "NEWLINE" and leaning == "taken":
                leaning = "heading" if self.heading or self.under else "line"
            at += 1

    def _end(self, at: int) -> int:
        """Where the sentence from here ends."""
        while at < len(self.tokens) and self.tokens[at].terminal not in _ENDS:
            at += 1
        return at

    def _of_those_behind(self, start: int, stop: int) -> bool:
        """True where "… on all but the putter. That one has a Norrby Fat" goes on: of the clubs just left out."""
        tokens = self.tokens
        told = [token.lower for token in tokens[max(start, stop - _LEFT_OUT) : stop]]
        behind = tokens[stop + 1 : self._end(stop + 1)]
        out = words("leaves_out") | words("leaves_out_pairs")
        left_out = any(word in out or f"{word} {other}" in out for word, other in pairwise([*told, ""]))
        if not left_out or len(behind) < 3 or tokens[stop].terminal != "STOP" or tokens[stop - 1].terminal not in KINDS:
            return False
        verb = behind[1 + (behind[1].lower in ("one", "ones"))]
        had = verb.lower in words("has") | words("keeps") or verb.terminal in ("EQ", "WITH")
        gripped = not any(token.terminal in _OTHERS for token in behind)
        return gripped and behind[0].lower in words("of_those") and (had or behind[0].lower in ("that's", "it's"))

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
        asked = end < len(self.tokens) and self.tokens[end].text == "?"
        others = any(
            token.kind == "number" or token.terminal in ("BALLWORD", "SHAFTWORD", "HEADWORD") for token in words
        )
        if gripped and asked and not others:
            parts = [self.pieces.reach(at, end) for at in range(start, end)]
            self.heading = [part.value for part in parts if part is not None and isinstance(part.value, Reach)]
            return "heading"  # "What about the grips on the others?"
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
            maker = str(name.value).partition(" ")[0] if name is not None else ""
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
        if any(one.lower == "could" and other.lower in ("you", "i", "we") for one, other in pairwise(told_of)):
            breaks -= {"could"}  # "Could you put the Norrby on everything?"
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
        partly = bool(self.holes) or self.cut < end
        told = Reader(self.scene, parts, leaning, partly=partly).statement()
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
        self.skipped, self.holes, self.cut = [], [], end
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
        behind = " ".join(token.lower for token in tokens[at + 1 : at + 3]).split()
        return tokens[at].lower in ("was", "were") and any(word in words("work") for word in behind)

    def _other_talk(self, start: int, end: int, *, opening: bool = False) -> bool:
        """True for a short stretch that names no clubs and no grips, and does not unsay what is told beside it."""
        stretch = self.tokens[start:end]
        dated = any(token.terminal in ("MONTH", "DATE") or token.lower in words("money") for token in stretch)
        if not dated and any(token.kind == "number" for token in stretch):
            return False
        wished = any(
            one.lower == "if" and other.lower in ("you", "possible", "there") for one, other in pairwise(stretch)
        )  # "in lilac if you have them"
        if opening and any(token.terminal in _OTHERS for token in stretch):
            return False
        return 0 < len(stretch) <= _TALK and not any(
            token.terminal in (*KINDS, *_OF_CLUBS, "GRIPWORD", "WRAP", "GRAM", "CORRECTION")
            or (token.terminal == "ALL" and token.lower != "each")
            or (token.lower in words("spoils") and token.text != "May" and not (wished and token.lower == "if"))
            for token in stretch
        )


def _mark_between(tokens: list[Token], at: int) -> bool:
    """True for a comma, a bracket or a dash that stands apart, and behind such a mark."""
    token = tokens[at]
    dash = token.terminal == "DASH" and not token.glued
    return token.kind == "mark" and (token.text in (",", "(", ")", "[", "]", "–", "—") or dash)


def _apart(one: Token, other: Token) -> bool:
    """True where three blanks or more stand between two words of a line: another column."""
    return one.line == other.line and gap(one, other) > 2


def _labels_of_speakers(tokens: list[Token]) -> dict[int, int]:
    """Where a line opens with who speaks ("Ada: …"), and where what is said begins."""
    found: dict[str, list[int]] = {}
    for at in range(len(tokens) - 1):
        opens = at == 0 or tokens[at - 1].kind == "newline"
        if opens and tokens[at].kind == "word" and tokens[at + 1].text == ":" and tokens[at].terminal in ("WORD", ""):
            found.setdefault(tokens[at].lower, []).append(at)
    return {at: at + 2 for places in found.values() if len(places) > 1 for at in places}
