"""What one club has said of another: "and so has the lob wedge", "the same goes for the 9 iron", "as does it"."""

from __future__ import annotations

from functools import cache

from asplayed.intake.own_tables import own_table
from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.tokens import Token, unsaid
from asplayed.intake.vocabulary import Ways, by_first_word

_OPENS = {"COMMA", "AND", "STOP", "NEWLINE", "BULLET", "DASH", "SILENT"}
_ARTICLES = {"the", "my", "his", "her"}
_LONGEST = 7  # words of a stamp and a model's name between the article and the club
_GENERAL = {"GRIPWORD", "SHAFTWORD"}


def likewise(tokens: list[Token]) -> list[Token]:
    """The tokens with "the 9 iron same" for "the same goes for the 9 iron"."""
    found: list[Token] = []
    same_at = 0
    for at, token in enumerate(tokens):
        behind = _said(tokens, at) if not same_at else 0
        if behind and (club := _club_end(tokens, behind)):
            for said in tokens[at:behind]:
                said.terminal = "SILENT"
            same_at = club
        if same_at == at and same_at:
            found.append(unsaid("same", "SAME", tokens[at - 1]))
            same_at = 0
        found.append(token)
    return found


def _said(tokens: list[Token], at: int) -> int:
    """The place behind the words that say so of a club to come; 0 where none stand."""
    if at and tokens[at - 1].terminal not in _OPENS:
        return 0
    for way, _none in _ways().get(tokens[at].lower, ()):
        if tuple(token.lower for token in tokens[at : at + len(way)]) == way:
            return at + len(way)
    return 0


@cache
def _ways() -> Ways:
    """Each way of saying so."""
    return by_first_word((way, "") for way in own_table("said_otherwise")["likewise"])


def _club_end(tokens: list[Token], at: int) -> int:
    """The place behind the club that is named here, behind an article and its model's name; 0 for none."""
    place = at + (tokens[at].lower in _ARTICLES if at < len(tokens) else 0)
    for start in range(place, min(place + _LONGEST, len(tokens))):
        phrase = phrase_at(tokens, start)
        if phrase is not None and phrase.rule in CLUB_RULES:
            behind = tokens[phrase.end].terminal if phrase.end < len(tokens) else "NEWLINE"
            return 0 if behind in _GENERAL else phrase.end
        told = tokens[start].kind == "number" or tokens[start].terminal in ("SILENT", "DEG")  # "the 58-degree Yarrow"
        if not told and not tokens[start].text[:1].isupper():
            return 0
    return 0
