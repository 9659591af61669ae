"""Lines that tell a shaft before the clubs that have it: "Reed 60 S: driver, 3 wood", "On Osier 110 X: irons 4-PW"."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.tokens import Line, Token, lines_of, made

_LEADS = {"on", "in", "with"}
_FLEXES = {"FLEX", "FLEXCODE"}
_NAMING = {"", "WORD", "LETTER", "COLOUR", "HYPHEN"}
_SHAFT = {*_NAMING, *_FLEXES, "NUM", "GRAM", "SILENT", "COMMA", "FLEXWORD", "SHAFTWORD"}
_LIGHTEST, _HEAVIEST = 30, 150


def clubs_first(tokens: list[Token]) -> list[Token]:
    """The tokens with such lines turned round: "driver, 3 wood, all Reed 60 S"."""
    return [token for line in lines_of(tokens) for token in _turned(line)]


def _turned(line: Line) -> Line:
    colon = next((at for at, token in enumerate(line) if token.text == ":"), 0)
    opens = 1 if line and line[0].terminal == "BULLET" else 0
    led = opens + (len(line) > opens and line[opens].lower in _LEADS)
    if not colon or not _is_shaft(line[led:colon]):
        return line
    end = next(at for at in range(len(line), 0, -1) if line[at - 1].terminal not in ("NEWLINE", "STOP"))
    clubs = _clubs(line, colon + 1, end)
    if not clubs or any(token.terminal in _FLEXES for token in line[colon + 1 : end]):
        return line
    several = [made("all", "word", "ALL", line[colon])] if clubs > 1 else []
    for every in several:
        every.value = "all"
    comma = made(",", "mark", "COMMA", line[colon])
    return [*line[:opens], *line[colon + 1 : end], comma, *several, *line[led:colon], *line[end:]]


def _is_shaft(told: Line) -> bool:
    """True for a name, a mass and a flex, in this order, and nothing else."""
    masses = [at for at, token in enumerate(told) if _massive(token)]
    flexes = [at for at, token in enumerate(told) if token.terminal in _FLEXES]
    if not masses or not flexes or any(token.terminal not in _SHAFT for token in told):
        return False
    named = told[0].kind == "word" and told[0].terminal in _NAMING and told[0].text[:1].isupper()
    return named and 0 < masses[0] < flexes[0]


def _massive(token: Token) -> bool:
    return token.terminal == "NUM" and isinstance(token.value, float) and _LIGHTEST <= token.value <= _HEAVIEST


def _clubs(line: Line, start: int, end: int) -> int:
    """How many clubs are named, a run or a family counted as two; 0 where the words do not begin with one."""
    first = phrase_at(line, start) if start < end else None
    if first is None or not (first.rule in CLUB_RULES or first.rule in ("dashed", "span")):
        return 0
    found, at = 0, start
    while at < end:
        phrase = phrase_at(line, at)
        if phrase is not None and phrase.end <= end:
            one = phrase.rule in ("club", "named") and phrase.has(*FAMILIES)
            found += one or 2 * (phrase.rule in ("family", "dashed", "span", "amounts"))
            at = phrase.end
        else:
            at += 1
    return found
