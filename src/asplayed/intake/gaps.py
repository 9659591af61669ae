"""Irons that a range leaves out: "irons 5 to 9, the 6 is missing", "5-PW (no 6)"."""

from __future__ import annotations

from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_LEADS = {"no", "without", "minus", "lacking", "skipping", "bar", "ohne", "missing", "not"}
_OPENS = {"COMMA", "LPAR", "STOP", "DASH", "AND", "NEWLINE"}
_CLOSES = {"COMMA", "RPAR", "STOP", "NEWLINE", "AND", "DASH"}
_GONE = {"missing", "lost", "absent", "lacking", "gone", "is missing", "is gone", "went missing", "has been missing"}
_BETWEEN = {"is", "was", "'s", "got", "went", "has", "been"}
_NEAR = 24  # tokens behind the range in which the gap is told


def leave_gaps(scene: Scene) -> None:
    """Set aside what says that an iron of the range before it is not there; the range then passes over its number."""
    tokens = scene.tokens
    at = 0
    while at < len(tokens):
        phrase = phrase_at(tokens, at) if tokens[at].kind == "number" or tokens[at].terminal == "IRON" else None
        numbers = _range(phrase) if phrase is not None and phrase.rule in ("span", "dashed") else None
        if phrase is None or numbers is None:
            at += 1
            continue
        at = phrase.end
        while at < min(len(tokens), phrase.end + _NEAR):
            start, number, end = _gap_at(tokens, at)
            if numbers[0] < number < numbers[1]:
                scene.set_aside(start, end)
                scene.gaps.add(number)
                at = end
            else:
                at += 1
        at = phrase.end


def _range(phrase: Phrase) -> tuple[int, int] | None:
    """The first and the last number of a range of irons, a wedge at its end as ten; None for any other."""
    if phrase.first("WOOD", "HYBRID", "DIRON"):
        return None
    values = [amount.value for amount in phrase.amounts]
    wedge = phrase.first("NAMEDWEDGE", "LETTER", "WEDGE") is not None
    if len(values) != 2 - wedge or any(value != int(value) or value > 9 for value in values):
        return None
    return int(values[0]), 10 if wedge else int(values[1])


def _gap_at(tokens: list[Token], at: int) -> tuple[int, int, int]:
    """Where a gap told at this place begins, the number of its iron, where it ends; zeros when there is none."""
    start = at
    led = tokens[at].kind == "word" and tokens[at].lower.split()[0] in _LEADS
    there = at > 1 and tokens[at].lower in ("except", "but", "bar") and tokens[at - 1].lower == "there"
    led = led or there  # "all there except the 6 iron"
    at += led
    pointed = at < len(tokens) and tokens[at].lower == "the"
    while at < len(tokens) and tokens[at].lower in ("the", "a", "any"):
        at += 1
    number = tokens[at].value if at < len(tokens) and tokens[at].kind == "number" else None
    if not isinstance(number, float) or number != int(number):
        return 0, 0, 0
    at += 1
    if at < len(tokens) and tokens[at].terminal == "IRON":
        at += 1
    if led:
        closed = pointed or at >= len(tokens) or tokens[at].terminal in _CLOSES
        counted = at + 1 < len(tokens) and tokens[at + 1].lower == "no"  # "No 5, No 6": numbers, not gaps
        return (start, int(number), at) if closed and not counted else (0, 0, 0)
    if start == 0 or tokens[start - 1].terminal not in _OPENS:
        return 0, 0, 0
    while at < len(tokens) and tokens[at].lower in _BETWEEN:
        at += 1
    if at < len(tokens) and tokens[at].lower in _GONE:
        return start, int(number), at + 1
    return 0, 0, 0
