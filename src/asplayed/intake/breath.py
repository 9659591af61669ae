"""Speech written down without marks ("… thirty two inches oh and there's a chipper …"): where its sentences begin.

The words that say so are in `data/breath.toml`; a long line with hardly a mark is parted there.
"""

from __future__ import annotations

from functools import cache

from asplayed.intake.own_tables import own_table
from asplayed.intake.tokens import Line, Token, lines_of, made

_LONG = 50  # words of a line that nobody writes without a mark
_RARE = 40  # words for each mark
_MARKS = {".", ",", ";", ":", "!", "?"}


@cache
def _phrases(sort: str, key: int = 0) -> dict[str, list[list[str]]]:
    """The phrases of one sort, each as its words, by their first word or the last (`key`).

    A sort of single words is written in one string.
    """
    told = own_table("breath")[sort]
    found: dict[str, list[list[str]]] = {}
    for words in told.split() if isinstance(told, str) else told:
        found.setdefault(words.split()[key], []).append(words.split())
    return found


def parted(tokens: list[Token]) -> list[Token]:
    """The tokens with a stop wherever a line of speech without marks begins a new sentence."""
    return [token for line in lines_of(tokens) for token in (_with_stops(line) if _breathless(line) else line)]


def _breathless(line: Line) -> bool:
    words = sum(token.kind == "word" for token in line)
    return words >= _LONG and _RARE * sum(token.text in _MARKS for token in line) <= words


def _with_stops(line: Line) -> Line:
    words = [token.lower for token in line]
    stops = {at for at in range(1, len(words)) if _begins(words, at)}
    return [
        one
        for at, token in enumerate(line)
        for one in ([made(".", "mark", "", token), token] if at in stops else [token])
    ]


def _begins(words: list[str], at: int) -> bool:
    """True before words that open a sentence, behind words that close one, and where who speaks stops to think."""
    if any(words[max(0, at - len(one)) : at] == one for one in _phrases("closes", -1).get(words[at - 1], ())):
        return True
    if words[at - 1] in _phrases("sounds"):
        return False
    thinks = words[at] in _phrases("sounds") and at + 1 < len(words) and words[at + 1] in _phrases("goes_on")
    return thinks or any(words[at : at + len(one)] == one for one in _phrases("opens").get(words[at], ()))
