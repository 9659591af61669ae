"""Other ways of saying the same: "with the exception of" is read as "except", "used to be" as "was".

The rooms behind this one know one wording of each. The user's own words stay in the tokens and come back in what is
kept aside or given back.
"""

from __future__ import annotations

from functools import cache

from asplayed.intake.own_tables import own_table
from asplayed.intake.tokens import DASHES, Token, spanning
from asplayed.intake.vocabulary import Ways, by_first_word

_OPENS = {"newline", "mark"}
_BEFORE_DITTO = {":", ",", ";", "|", "/", "(", "\t"}
_KINDS = {"wood", "hybrid", "iron", "wedge", "driver", "putter"}


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
        if size := _ditto_size(tokens, at):
            found += _read_as(tokens[at : at + size], ("ditto",))
            at += size
            continue
        for way, plain in _ways().get(tokens[at].lower, ()):
            if _stands(tokens, at, way):
                found += _read_as(tokens[at : at + len(way)], plain)
                at += len(way)
                break
        else:
            found.append(tokens[at])
            at += 1
    return found


def _ditto_size(tokens: list[Token], at: int) -> int:
    """Of how many tokens the "do." of "No. 5 wood: do., 18°", the "-do-" is: so "ditto" was written; 0 for the verb."""
    if at == 0 or at + 2 >= len(tokens):
        return 0
    before, (first, second, third) = tokens[at - 1], tokens[at : at + 3]
    if first.text in DASHES and second.lower == "do" and third.text in DASHES:
        return 3 if second.glued and third.glued else 0
    opens = before.text in _BEFORE_DITTO or before.text in DASHES or before.lower in _KINDS
    onward = third.kind in ("mark", "number") or third.text.islower()
    return 2 if first.lower == "do" and opens and second.text == "." and second.glued and onward else 0


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
