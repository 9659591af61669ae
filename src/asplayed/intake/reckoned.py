"""What is told in a roundabout way, read as told straight: lengths by what they lack of another, grips by "wears"."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.tokens import Token, behind_capitals, spanning, unsaid

_ARROWS = {"->", "→", "make"}
_BENDS = ("iron", "wedge")
_FARTHEST, _LEAST = 4, 15  # degrees that a club is bent by, and the loft of the longest iron
_LENGTHS = range(30, 51)  # inches from which a length is reckoned
_SIGNS = {"LONG": 1, "SHORT": -1}
_WEARS = {"wears", "wear", "wearing"}
_OF_A_SHAFT = {"NUM", "FLEX", "FLEXCODE", "SHAFTWORD", "GRIPWORD", "GRAM"}


def told_straight(tokens: list[Token]) -> list[Token]:
    """The tokens with "44.75" for "a quarter of an inch under forty-five", "a Norrby grip" for "wears a Norrby"."""
    _bend_at_arrows(tokens)
    found: list[Token] = []
    named = 0
    for at, token in enumerate(tokens):
        if named and at == named:
            found.append(unsaid("grip", "GRIPWORD", tokens[at - 1]))
        if token.lower in _WEARS and (end := _grip_worn(tokens, at + 1)):
            token.terminal, token.lower, named = "WITH", "with", end
        found.append(token)
        if token.kind == "number" and (length := _reckoned(found)):
            while found[-1] is not length[0]:
                found.pop()
            found[-1] = length[1]
    return found


def _bend_at_arrows(tokens: list[Token]) -> None:
    """Take the arrow of "7i Dunlin 34 -> 33.5" for "bent to"; of a lie only the second figure counts."""
    bends = False
    for at in range(1, len(tokens) - 1):
        arrow, kind = tokens[at], FAMILIES.get(tokens[at - 1].terminal, "")
        bends = (bends or kind in _BENDS) and arrow.kind != "newline" and kind in ("", *_BENDS)
        first, second = tokens[at - 1].value, tokens[at + 1].value
        if arrow.text not in _ARROWS or not bends or not isinstance(first, float) or not isinstance(second, float):
            continue
        label = tokens[at - 2].terminal if at > 1 else ""
        if label not in ("LOFT", "LIE") and arrow.text != "make":
            continue  # rows of a bench are read by their columns
        behind = tokens[at + 2].terminal if at + 2 < len(tokens) else ""
        if behind in ("INCH", "GRAM", "MM", "CM") or not 0 < abs(first - second) <= _FARTHEST or second < _LEAST:
            continue
        arrow.terminal, arrow.value = "BENT", "bent"
        if label == "LIE":
            tokens[at - 1].terminal = arrow.terminal = "SILENT"
            tokens[at - 1].kind = "word"


def _grip_worn(tokens: list[Token], at: int) -> int:
    """The place behind the name of "wears a Norrby Cord"; 0 for a shaft's name, its mass or flex behind it."""
    start = at + (at < len(tokens) and tokens[at].lower in ("a", "an", "the"))
    end = behind_capitals(tokens, start)
    behind = tokens[end].terminal if end < len(tokens) else "NEWLINE"
    return end if start < end and behind not in _OF_A_SHAFT else 0


def _reckoned(told: list[Token]) -> tuple[Token, Token] | None:
    """The first token of "¼ in under 45", told last, and the length that it makes; None for anything else."""
    at = len(told) - 2
    while at > 0 and told[at].terminal == "SILENT":
        at -= 1
    way = told[at] if at > 0 else None
    if way is None or way.terminal not in _SIGNS or told[-1].value not in _LENGTHS or told[-1].sign:
        return None
    part = at - 1 - (told[at - 1].terminal == "INCH")
    amount = told[part].value if part >= 0 else None
    if not isinstance(amount, float | int) or not 0 < amount <= 2 or told[part].kind != "number":
        return None
    length = spanning(" ".join(token.text for token in told[part:]), "number", told[part], told[-1])
    length.terminal, length.value = "NUM", float(told[-1].value) + _SIGNS[way.terminal] * amount  # type: ignore[arg-type]
    return told[part], length
