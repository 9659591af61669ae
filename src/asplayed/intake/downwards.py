"""Runs of irons told without "to": "six down are the Burr", "from the 6 on down", "4 up to 9", "5→PW"."""

from __future__ import annotations

from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.tokens import Token, repeated

_LEADS = ("from", "the")
_ONWARD = ("and", "on")
_SAID_OF = ("EQ", "WITH", "ALL", "THOSE")
_HAVE = {"that", "have", "has", "get", "got", "wear", "share", "the", "it's", "they're"}
_NUMBERS = range(1, 10)
_ARROWS = ("→", "->")
_UNITS = ("DEG", "INCH", "MM", "CM", "GRAM", "UP", "DOWN", "FLAT", "UPRIGHT", "WEAK", "STRONG")
_LEAST = 3  # "2 down" is told of a lie or a loft


def runs_downwards(tokens: list[Token]) -> list[Token]:
    """The tokens with "six to pitching wedge" for "six down", where a run of irons that ends so was named before."""
    found: list[Token] = []
    first, last = 0, None
    _join_ends(tokens)
    at = 0
    while at < len(tokens):
        phrase = phrase_at(tokens, at) if tokens[at].kind == "number" else None
        down = _down_behind(tokens, at) if last is not None and _inside(tokens[at], first) else 0
        if down and last is not None:
            found.append(tokens[at])
            for token in tokens[at + 1 : down]:
                token.terminal = "SILENT"
            tokens[down].terminal = "RANGE"
            found += [*tokens[at + 1 : down + 1], repeated(last, tokens[down])]
            at = down + 1
            continue
        if phrase is not None and _tells_a_run(phrase) and not phrase.has("WOOD", "HYBRID", "DIRON"):
            numbers = [amount.value for amount in phrase.amounts]
            if numbers[0] in range(1, 9) and not phrase.amounts[0].unit:
                first, last = int(numbers[0]), phrase.first("NAMEDWEDGE", "LETTER") or phrase.amounts[-1].token
        found.append(tokens[at])
        at += 1
    return found


def _tells_a_run(phrase: Phrase) -> bool:
    """True for "6-9", "6 to PW" and for "6, 7, 8 and 9"."""
    numbers = [amount.value for amount in phrase.amounts]
    rising = len(numbers) > 2 and numbers == [numbers[0] + more for more in range(len(numbers))]
    return phrase.rule in ("span", "dashed") or (phrase.rule == "amounts" and rising)


def _join_ends(tokens: list[Token]) -> None:
    """Take "up to", "down to" and an arrow between the numbers of two clubs for "to": "four up to nine", "5→PW"."""
    for at in range(len(tokens) - 2):
        if tokens[at].kind != "number" or tokens[at].sign:
            continue
        if tokens[at].value not in _NUMBERS and not _masses(tokens[at], tokens[at]):
            continue
        way = at + 1 + (tokens[at + 1].terminal == "IRON")
        end = way + 1 if tokens[way].text in _ARROWS else way + 2
        if end >= len(tokens) or tokens[way].terminal not in ("UP", "DOWN", "SLASH"):
            continue
        if tokens[way].text not in _ARROWS and (tokens[way + 1].lower != "to" or tokens[way + 1].terminal != "RANGE"):
            continue
        if tokens[way].text not in _ARROWS and _masses(tokens[at], tokens[end]):
            tokens[way].terminal = "SILENT"  # "ninety-five up to one hundred and five grams"
            continue
        further = tokens[end].value in _NUMBERS and tokens[end].value > tokens[at].value + 1 and not tokens[end].sign  # type: ignore[operator]
        unit = end + 1 < len(tokens) and tokens[end + 1].terminal in _UNITS and tokens[end + 1].lower != "plus"
        if tokens[end].terminal == "NAMEDWEDGE" or (tokens[end].kind == "number" and further and not unit):
            tokens[way].terminal = "RANGE" if end == way + 1 else "SILENT"


def _masses(low: Token, high: Token) -> bool:
    """True for two masses of shafts."""
    return all(isinstance(one.value, float) and 60 <= one.value <= 150 for one in (low, high))


def _inside(token: Token, first: int) -> bool:
    """True for the number of an iron of the run, and not for a change of two degrees."""
    return isinstance(token.value, float) and token.value in range(max(first, _LEAST), 10) and not token.sign


def _down_behind(tokens: list[Token], at: int) -> int:
    """The place of the "down" of "six down are", "from the 6 on down"; 0 where no run of irons alone is told."""
    led = at
    while led > 0 and tokens[led - 1].lower in _LEADS:
        led -= 1
    if led > 0 and tokens[led - 1].terminal in ("ALL", "GRIPWORD"):
        return 0  # "everything from the six down": the wedges too
    down = at + 1
    while down < len(tokens) and tokens[down].lower in _ONWARD:
        down += 1
    if down + 1 >= len(tokens) or tokens[down].terminal != "DOWN":
        return 0
    behind, before = tokens[down + 1], tokens[at - 1].lower if at else ""
    if behind.terminal == "RANGE" or behind.kind == "number":
        return 0  # "six down to the wedge", "the 6 down 1"
    named = behind.terminal == "WORD" and behind.text[:1].isupper()
    told = named or behind.terminal in _SAID_OF or behind.lower in _HAVE
    return down if told or before in _LEADS or down > at + 1 else 0
