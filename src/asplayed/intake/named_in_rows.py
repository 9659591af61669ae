"""Clubs that are named only where their figures are: "60 g in the driver, 70 in the 3 wood, 80 in the 5"."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import phrase_at
from asplayed.intake.tokens import Token, made, repeated, unsaid

_NUMBERED = {"WOOD", "HYBRID", "IRON"}
_LEADS = {"in", "on", "for"}
_UNITS = {"DEG", "INCH", "MM", "CM", "GRAM", "CPM", "CLICK", "WRAP"}
_WAYS = {"UP", "DOWN", "FLAT", "UPRIGHT", "LONG", "SHORT", "WEAK", "STRONG"}
_NAMING = ("club", "named", "span", "dashed")
_NOUNS = {"LIE", "LENGTH", "LOFT", "BOUNCE", "FREQUENCY", "SWINGWEIGHT", "TOTALMASS", "SWV"}
_FEWEST = 2


def named_in_rows(tokens: list[Token]) -> list[Token]:
    """The tokens with each club of such a row whole ("the 5 wood"), and named before the row that alone names them."""
    whole: list[Token] = []
    start, irons = 0, False
    for at, token in enumerate(tokens):
        irons = irons or token.lower == "irons"
        if token.terminal in ("STOP", "NEWLINE") or at + 1 == len(tokens):
            sentence = _whole(tokens[start : at + 1])
            whole += _irons(sentence) if irons else sentence
            start = at + 1
    return _named_before(whole)


def _whole(sentence: list[Token]) -> list[Token]:
    """The sentence with the kind of club behind each number that goes without: "in the 5 iron, … in the 6"."""
    found: list[Token] = []
    kind: Token | None = None
    family = next((token for token in sentence if token.terminal in ("WOOD", "HYBRID")), None)
    counted = sum(one.text == "#" and other.kind == "number" for one, other in pairwise(sentence)) > 1
    for at, token in enumerate(sentence):
        found.append(token)
        if counted and family is not None and at and sentence[at - 1].text == "#" and token.kind == "number":
            found.append(repeated(family, token))  # "FW: Burr #5 18° and #7 21°"
            continue
        if token.kind != "number" or token.value not in range(2, 12) or token.sign:
            continue
        behind = sentence[at + 1] if at + 1 < len(sentence) else None
        if behind is not None and behind.terminal in _NUMBERED:
            kind = behind
            continue
        ends = behind is None or behind.terminal in ("COMMA", "AND", "STOP", "NEWLINE")
        if kind is not None and ends and _led(sentence, at):
            found.append(repeated(kind, token))
    return found


def _irons(sentence: list[Token]) -> list[Token]:
    """The sentence with "iron" behind the numbers of "6 – 37.5 in, 7 – 37 in", "6: lie 61, 7: lie 61.5"."""
    opens = [at for at in range(len(sentence) - 2) if _opens_item(sentence, at)]
    numbers = [sentence[at].value for at in opens]
    if len(numbers) < _FEWEST or numbers != [numbers[0] + more for more in range(len(numbers))]:  # type: ignore[operator]
        return sentence
    found: list[Token] = []
    for at, token in enumerate(sentence):
        found.append(token)
        if at in opens:
            found.append(unsaid("iron", "IRON", token))
    return found


def _opens_item(sentence: list[Token], at: int) -> bool:
    """True for an iron's number that opens an item, with a mark or a noun between it and its figure."""
    token, before = sentence[at], sentence[at - 1].terminal if at else "NEWLINE"
    if token.value not in range(2, 10) or token.sign or before not in ("COMMA", "EQ", "AND", "NEWLINE", "BULLET"):
        return False
    told = at + 1 + (sentence[at + 1].terminal in ("DASH", "EQ"))
    if sentence[told].terminal in _NOUNS:
        return True
    lengthy = told + 1 < len(sentence) and sentence[told + 1].terminal == "INCH"
    return told > at + 1 and sentence[told].kind == "number" and lengthy


def _named_before(tokens: list[Token]) -> list[Token]:
    """The tokens with the clubs of the first such row told before its sentence, where it alone names them."""
    rowed = [(at, end) for at in range(len(tokens)) if _led(tokens, at) and (end := _club_end(tokens, at))]
    kinds, inside = {_kind(tokens, *one) for one in rowed}, {at for one in rowed for at in range(*one)}
    if len(rowed) < _FEWEST:
        return tokens
    others = (
        at
        for at in range(len(tokens))
        if at not in inside and (tokens[at].kind == "number" or tokens[at].terminal in FAMILIES)
    )
    if any((end := _club_end(tokens, at)) and _kind(tokens, at, end) in kinds for at in others):
        return tokens
    first = rowed[0][0]
    opens = max((at + 1 for at in range(first) if tokens[at].terminal in ("STOP", "NEWLINE")), default=0)
    near = tokens[first]
    headed = next((at for at in range(opens, first) if tokens[at].lower == "irons"), 0)
    clubs: list[Token] = []
    for at, end in rowed:
        same_kind = headed and end - at > 1 and tokens[end - 1].terminal == "IRON"
        clubs += [repeated(token, near) for token in tokens[at : end - 1 if same_kind else end]]
        clubs.append(made(",", "mark", "COMMA", near))
    if headed:
        return tokens[: headed + 1] + clubs + tokens[headed + 1 :]
    clubs[-1] = made("\n", "newline", "NEWLINE", near)
    return tokens[:opens] + clubs + tokens[opens:]


def _led(tokens: list[Token], at: int) -> bool:
    """True for the club of "60 g in the driver", behind its figure."""
    if at < 3 or tokens[at - 1].lower != "the" or tokens[at - 2].lower not in _LEADS:
        return False
    place = at - 3
    while place > 0 and (tokens[place].terminal in _UNITS or tokens[place].terminal in _WAYS):
        place -= 1
    return tokens[place].kind == "number"


def _kind(tokens: list[Token], at: int, end: int) -> str:
    """What sort of club these words name."""
    return next((FAMILIES[token.terminal] for token in tokens[at:end] if token.terminal in FAMILIES), "iron")


def _club_end(tokens: list[Token], at: int) -> int:
    """The place behind a club that is named here by number or by its own word; 0 for none."""
    if tokens[at].kind != "number" and tokens[at].terminal not in FAMILIES:
        return 0
    phrase = phrase_at(tokens, at)
    named = phrase is not None and phrase.rule in _NAMING and (phrase.rule != "dashed" or phrase.has(*_NUMBERED))
    return phrase.end if phrase is not None and named else 0
