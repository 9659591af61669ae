"""Other ways of saying the same: "with the exception of" is read as "except", "used to be" as "was".

The rooms behind this one know one wording of each. The user's own words stay in the tokens and come back in what is
kept aside or given back.
"""

from __future__ import annotations

from functools import cache

from asplayed.intake.own_tables import own_table
from asplayed.intake.tokens import Token, spanning
from asplayed.intake.vocabulary import Ways, by_first_word

_OPENS = {"newline", "mark"}


@cache
def _ways() -> Ways:
    """Each other way of saying with what it is read as."""
    told = own_table("said_otherwise")["read_as"]
    return by_first_word((other, plain) for plain, others in told.items() for other in others)


def said_plainly(tokens: list[Token]) -> list[Token]:
    """The tokens with each other way of saying as the words that it is read as."""
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        for way, plain in _ways().get(tokens[at].lower, ()):
            if _stands(tokens, at, way):
                found += _read_as(tokens[at : at + len(way)], plain)
                at += len(way)
                break
        else:
            found.append(tokens[at])
            at += 1
    return found


def _stands(tokens: list[Token], at: int, way: tuple[str, ...]) -> bool:
    """True where the words of the way stand here, all of them in small letters or all in capitals: no name."""
    here = tokens[at : at + len(way)]
    if len(here) < len(way) or any(token.lower != word for token, word in zip(here, way, strict=True)):
        return False
    opens = at == 0 or tokens[at - 1].kind in _OPENS
    return all(token.text.islower() for token in here[opens:]) or all(token.text.isupper() for token in here)


def _read_as(here: list[Token], plain: tuple[str, ...]) -> list[Token]:
    """As many tokens as there are plain words; the last spans all that the user's words have more."""
    found = []
    for index, word in enumerate(plain):
        first, last = here[index], here[index if index + 1 < len(plain) else -1]
        text = first.text if first is last else " ".join(token.text for token in here[index:])
        token = spanning(text, "word", first, last)
        token.lower = word
        found.append(token)
    return found
