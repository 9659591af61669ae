"""A set told on one line, its clubs parted by slashes: each slash before a club, grips or a ball ends a statement."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.tokens import Token

_CLUBS = 3  # so many stretches of a line open with a club: fewer may be one club told of twice
_TOLD = {"GRIPWORD", "BALLWORD"}


def parted_by_slashes(tokens: list[Token]) -> list[Token]:
    """The tokens with a stop in place of each slash of "Dr Gannet 9, Reed 60 X / 3w Gannet 15 / … / Norrby grips"."""
    start = 0
    while start < len(tokens):
        end = next((at for at in range(start, len(tokens)) if tokens[at].kind == "newline"), len(tokens))
        slashes = [at for at in range(start + 1, end - 1) if _apart(tokens, at)]
        stretches = [start, *(at + 1 for at in slashes)]
        if sum(_tells_of_club(tokens, *stretch) for stretch in pairwise([*stretches, end + 1])) >= _CLUBS:
            for slash, close in zip(slashes, [*slashes[1:], end], strict=True):
                phrase = phrase_at(tokens, slash + 1)
                club = phrase is not None and phrase.rule in CLUB_RULES
                if club or any(token.terminal in _TOLD for token in tokens[slash:close]):
                    tokens[slash].terminal = "STOP"
        start = end + 1
    return tokens


def _apart(tokens: list[Token], at: int) -> bool:
    """True for a slash with a blank on each side."""
    return tokens[at].terminal == "SLASH" and not tokens[at].glued and not tokens[at + 1].glued


def _tells_of_club(tokens: list[Token], start: int, behind: int) -> bool:
    """True where a club by its own word opens a stretch and something is told of it: "driver / 3 wood" is a row."""
    phrase = phrase_at(tokens, start)
    named = phrase is not None and phrase.rule in CLUB_RULES and phrase.has(*FAMILIES, "NAMEDWEDGE")
    if phrase is None or not named:
        return False
    return any(token.kind == "word" for token in tokens[phrase.end : behind - 1])  # not "7i 188 / 8i 174": distances
