"""Figures told by steps from club to club: "the 4 iron 38.5, then half an inch less each club"."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.likened import club_behind
from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import LEAD
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token
from asplayed.quantities import convert

_LESS = {"less", "shorter", "flatter", "lower", "down", "off", "stronger", "short", "flat"}
_MORE = {"more", "longer", "upright", "higher", "up", "weaker", "long", "upright more", "plus"}
_WAYS = {
    "down": -1,
    "up": 1,
    "plus": 1,
    "minus": -1,
    "adding": 1,
    "add": 1,
}  # before the figure: "down half an inch a club"
_GOING = {"going", "go", "goes", "dropping", "drop", "drops", "stepping", "step", "steps", "coming", "come", "comes"}
_BETWEEN = {"more", "less"}  # "0.5° more upright"
_THINGS = {"club", "clubs", "iron", "irons", "one", "wood", "wedge"}
_NOT_LOOSE = {*_THINGS, "per"}
_EACH = ("each", "every", "every one", "each one")
_AFTER = (["after", "it"], ["after", "that"], ["after", "the"], ["behind", "it"], ["thereafter"], ["below", "it"])
_BEFORE = {"before", "previous", "last", "above"}
_STEPPED = ("length", "as_played.lie", "head.loft")
_UNITS = {"INCH": "in", "MM": "mm", "CM": "cm", "DEG": "deg"}
_LOOSE = ("SILENT", "EQ", "WITH", "IN", "AND")


class Step(NamedTuple):
    """How much more or less each club has than the one before it, and where that is told."""

    amount: float
    unit: str
    previous: bool  # told of the club before, and not of a club named just now
    end: int
    told: bool = True  # its unit was


class Steps(Stride):
    """Gives clubs in a row figures that go on from the first by steps."""

    def _steps(self) -> bool:
        """Take a step told here; False where none is told or nothing is there to step from."""
        scene = self.scene
        step = step_at(self.tokens, self.at) if scene.drafts and scene.table is None else None
        if step is None:
            return False
        if step.previous and scene.focus and scene.last_path[0] not in _STEPPED:
            path, clubs = "length", list(scene.focus)
            anchor = self._figure_before(clubs[0], path)
        else:
            path, told = scene.last_path
            clubs = self._onward(told) if path in _STEPPED else []
            anchor = told[0].facts.get(path) if clubs else None
        inches = step.unit in ("in", "mm", "cm") if step.told else path == "length"
        if anchor is None or not clubs or not isinstance(anchor.value, float) or (inches != (path == "length")):
            return False
        amount = convert(step.amount, step.unit, "in") if inches and step.unit != "deg" else step.amount
        words = scene.words(self.at, step.end)
        for count, draft in enumerate(clubs, 1):
            value = round(anchor.value + count * amount, 4)
            why = f"{anchor.text}, and {words}"
            entry = Entry(value, anchor.unit, self.tokens[self.at].line, words, why=why, group=1)
            scene.stepped.append((draft, path, anchor, entry))
        scene.take(self.at, step.end)
        self.at = step.end
        return True

    def _length_by_another(self) -> bool:
        """ "Two inches shorter than the driver": a length told by what it lacks of another club's."""
        tokens, scene = self.tokens, self.scene
        phrase = phrase_at(tokens, self.at) if tokens[self.at].kind == "number" else None
        if phrase is None or phrase.rule != "change" or phrase.end >= len(tokens) or tokens[phrase.end].lower != "than":
            return False
        unit = phrase.amounts[0].unit if phrase.amounts and phrase.has("LONG", "SHORT") else ""
        club = club_behind(tokens, phrase.end + 1) if unit in ("in", "mm", "cm") else None
        known = self.mentions.find(club) if club is not None else []
        anchor = known[0].facts.get("length") if len(known) == 1 else None
        if club is None or anchor is None or not isinstance(anchor.value, float | int) or known[0] in scene.focus:
            return False
        inches = convert(phrase.amounts[0].value, unit, "in") * (-1 if phrase.has("SHORT") else 1)
        words = scene.words(self.at, club.end)
        value = round(anchor.value + inches, 4)
        why = f"{anchor.text} of the {known[0].name or scene.words(club.start, club.end)}, and {words}"
        self.put(scene.focus, "length", Entry(value, "in", phrase.line, words, why=why))
        scene.take(self.at, club.end)
        self.at = club.end
        return True

    def _settle_steps(self) -> None:
        """At a line's end give each club its figure, unless the line told its own."""
        scene = self.scene
        first = scene.focus[0] if scene.stepped and len(scene.focus) == 1 else None
        run = list(dict.fromkeys(draft for draft, *_rest in scene.stepped))
        if first is not None and first not in run and self._figures_below(len(run) + 1):
            scene.focus, scene.grouped = [first, *run], True
        for draft, path, anchor, entry in scene.stepped:
            known = draft.facts.get(path)
            if known is None or known == anchor or known.group:
                draft.facts[path] = entry
                draft.lines.add(entry.line)
        scene.stepped = []

    def _figures_below(self, count: int) -> bool:
        """True above "Lofts: 26, 30, 34": the next line tells as many figures as the run has clubs."""
        row = self.tokens[self.at + 1 : self.at + 3 + 2 * count]
        labelled = len(row) > 3 and row[0].terminal in ("LOFT", "LIE", "LENGTH", "BOUNCE") and row[1].text == ":"
        end = next((at for at, token in enumerate(row) if token.terminal in ("NEWLINE", "STOP")), len(row))
        return labelled and sum(token.kind == "number" for token in row[2:end]) == count

    def _figure_before(self, first: Draft, path: str) -> Entry | None:
        """The figure of the club that stands before these in the list."""
        drafts = self.scene.drafts
        at = drafts.index(first) - 1 if first in drafts else -1
        return drafts[at].facts.get(path) if at >= 0 else None

    def _onward(self, told: list[Draft]) -> list[Draft]:
        """The clubs behind the first of those told: the rest of them, or the rest of their run."""
        drafts = self.scene.drafts
        if not told or told[0] not in drafts:
            return []
        if len(told) > 1:
            return told[1:]
        first = told[0]
        onward = drafts[drafts.index(first) + 1 :]
        ranged = [draft for draft in onward if draft.in_range and first.family == "iron"]
        return ranged or [draft for draft in onward if draft.family == first.family]


def step_at(tokens: list[Token], start: int) -> Step | None:
    """The step that the words from here tell, or None."""
    at, then, each, after = start, False, False, False
    if tokens[at].lower == "then":
        then, at = True, at + 1
    if at < len(tokens) and tokens[at].lower in _EACH:
        each, at = True, _past_thing(tokens, at + 1)
        words = [token.lower for token in tokens[at : at + 2]]
        after = any(words[: len(one)] == one for one in _AFTER)
        at += 2 * after
        while after and at < len(tokens) and tokens[at].lower in ("first", "is", "being", "was"):
            at += 1
    led = _way_before(tokens, at)
    at = led or at
    number = tokens[at] if at < len(tokens) else None
    if number is None or number.terminal != "NUM" or not isinstance(number.value, float):
        return None
    unit, at = number.unit, at + 1
    if at < len(tokens) and tokens[at].terminal in _UNITS:
        unit, at = _UNITS[tokens[at].terminal], at + 1
    behind = _way(tokens, at)
    way = behind or (_WAYS[tokens[led - 1].lower] if led else 0)
    if way == 0 or (number.sign and not led):
        return None
    comparative = led > 0 or tokens[at].lower not in ("up", "down", "short", "long", "flat", "upright", "off")
    at += behind != 0
    if at < len(tokens) and tokens[at - 1].lower in _BETWEEN and _way(tokens, at):
        at += 1
    previous = _than_before(tokens, at)
    at = previous or at
    if not each:
        while at < len(tokens) and tokens[at].terminal in _LOOSE and tokens[at].lower not in _NOT_LOOSE:
            at += 1
        each = at < len(tokens) and tokens[at].lower in (*_EACH, "per")
        if not each and tokens[at - 1].lower == "a" and _past_thing(tokens, at) > at:
            each, at = True, at - 1  # "half an inch less a club"
        thing = _past_thing(tokens, at + 1)
        counted = thing > at + 1 or (each and " " in tokens[at].lower)
        at = thing
        if not each or not (then or (comparative and counted)):
            return None
    elif not (previous or (after and comparative)):
        return None
    told = bool(unit)
    length = not unit and (tokens[at - 1].terminal == "SHORT" or abs(number.value) < 1 or previous)
    unit = unit or ("mm" if length and number.value > 3 else "in" if length else "deg")
    return Step(way * number.value, unit, bool(previous), _past_end(tokens, at), told)


def _way_before(tokens: list[Token], at: int) -> int:
    """The place behind the "down" of "down half an inch a club", "and going up by 0.5 per club"; 0 for none."""
    last = min(len(tokens), at + LEAD)
    while at < last and (tokens[at].lower in _GOING or tokens[at].lower in ("and", "then")):
        at += 1
    if at + 1 >= len(tokens) or tokens[at].lower not in _WAYS:
        return 0
    return at + 1


def _way(tokens: list[Token], at: int) -> int:
    """−1 for less, 1 for more, 0 for neither."""
    word = tokens[at].lower.rsplit(maxsplit=1)[-1] if at < len(tokens) and tokens[at].kind == "word" else ""
    return -1 if word in _LESS else int(word in _MORE)


def _past_thing(tokens: list[Token], at: int) -> int:
    """The place behind the "club" of "each club"."""
    return at + (at < len(tokens) and tokens[at].lower in _THINGS)


def _than_before(tokens: list[Token], at: int) -> int:
    """The place behind "than the one before (it)"; 0 where nothing is compared so."""
    if at >= len(tokens) or tokens[at].lower != "than":
        return 0
    for before in range(at + 1, min(at + 5, len(tokens))):
        if tokens[before].lower in _BEFORE:
            end = before + 1
            while end < len(tokens) and tokens[end].lower in ("it", *_THINGS):
                end += 1
            return end
    return 0


def _past_end(tokens: list[Token], at: int) -> int:
    """The place behind "up to (and including) the PW"."""
    if at + 1 >= len(tokens) or [tokens[at].lower, tokens[at + 1].lower] not in (["up", "to"], ["down", "to"]):
        return at
    end = at + 2
    while end < len(tokens) and (tokens[end].lower in ("and", "including", "the")):
        end += 1
    return end + (end < len(tokens) and tokens[end].terminal in ("NAMEDWEDGE", "NUM"))
