"""Brackets and clauses that speak of another club than the one just told: "(the old Stint is in the garage)"."""

from __future__ import annotations

from asplayed.intake.phrases import CLUBS_NAMED, says
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_WHOSE = {"the", "his", "her", "my", "their"}
_ANOTHER = {"old", "older", "other", "previous", "former", "original", "spare", "new", "newer", "second"}
_ONE = {"one", "ones"}


def own_bracket(scene: Scene, at: int, start: int, end: int) -> tuple[int, int] | None:
    """The bracket of "Stint (tried an Avocet)", "Eddy 22 (sold the 3 hybrid)": it speaks of a club of its own."""
    tokens = scene.tokens
    low = next((index for index in range(at, start - 1, -1) if tokens[index].terminal in ("LPAR", "RPAR")), -1)
    if low < 0 or tokens[low].terminal != "LPAR":
        return None
    high = next((index for index in range(at, end) if tokens[index].terminal == "RPAR"), end)
    named = says(tokens, at, high, CLUBS_NAMED)
    told = at + 1 < high and tokens[at + 1].lower in ("a", "an", "the", "my", "his", "her")
    told = told or (at == low + 1 and tokens[at + 1].text == ":")  # "Gannet 9 (last year: Burr 10.5)"
    told = told or (at + 1 < high and tokens[at + 1].kind == "number")  # "Gannet 4, 5, 7, 8, 9 (lost the 6)"
    wished = tokens[at].lower.startswith(("want", "id like", "would like", "out went", "out comes", "out goes"))
    return (low + 1, high) if named or told or wished or of_another(tokens, low + 1) else None


def named_alone(tokens: list[Token], at: int, end: int) -> bool:
    """True for "the Stint 65 X was tried": a thing with its own name, told up to `end`, and one alone."""
    words = [token.lower for token in tokens[at:end]]
    named = len(words) > 2 and words[0] in _WHOSE and tokens[at + 1].text[:1].isupper()
    return named and words[-1] in ("was", "is", "got")


def of_another(tokens: list[Token], at: int) -> bool:
    """True for "the old Stint is in the garage", "his other one stays at home": another club than the one just told."""
    words = [token.lower for token in tokens[at : at + 2]]
    return words[:1] != [] and words[0] in _WHOSE and words[1:] != [] and words[1] in _ANOTHER


def set_compared_aside(scene: Scene) -> None:
    """Keep aside the "than the one he lent to his brother" of a sentence that goes on telling of its own club."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        pointed = [token.lower for token in tokens[at + 1 : at + 3]]
        if tokens[at].terminal != "THAN" or scene.claims[at] or pointed[0] not in _WHOSE or pointed[1] not in _ONE:
            continue
        end = at + 3
        while end < len(tokens) and tokens[end].kind not in ("mark", "newline"):
            end += 1
        if end > at + 3:
            scene.set_aside(at, end)
