"""Lines that open with what is told of their clubs, which are heard first.

So lists by their shafts ("Reed 65 S: driver (Gannet 9), 3 wood (Gannet 15)") and lists whose clubs stand in brackets at
the lines' ends ("Gannet 9 with Reed 65 S (driver)").
"""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, TOLD, phrase_at, says
from asplayed.intake.tokens import DASHES, Line, Token, lines_of, made, repeated, said, unsaid

_FLEX = {"FLEX", "FLEXCODE", "LETTER", "SIGN"}
_LIGHTEST, _HEAVIEST = 35, 140  # grams of a shaft
_STAMPS = range(44, 65)  # degrees of wedges that are named by their lofts
_LEADS = {"on", "in", "with"}  # "On Reed 65 S: …"
_ENDS = ("STOP", "NEWLINE")
_FIGURES = 8  # tokens in which a shaft's mass or flex stands behind its name
_AGAIN = ("again", "too", "also")
_FAMILIES = ("WOOD", "HYBRID", "IRON", "WEDGE")
_PARTING = {"COMMA", "AND", "STOP", "SLASH"}


def clubs_first(tokens: list[Token]) -> list[Token]:
    """The tokens with the clubs of such lines before what is told of them."""
    lines = lines_of(tokens)
    behind = [_in_closing_bracket(said(line)) for line in lines]
    named = sum(says(line, 0, len(line), CLUB_RULES) for line in lines)
    bracketed = len(lines) - behind.count(0)
    kept: list[Token] = []
    for line, bracket in zip(lines, behind, strict=True):
        if bracket and bracketed > 1 and 4 * bracketed >= 3 * named:
            kept += _bracket_first(line, bracket)
        else:
            kept += _each_with_shaft(line)
    return _families_first(kept)


def _families_first(tokens: list[Token]) -> list[Token]:
    """ "Same Reed one-thirty in the wedges, but stiff" as "the wedges, shaft Reed one-thirty, but stiff".

    Only a name that stood before a mass or a flex is moved: it is a shaft's.
    """
    found: list[Token] = []
    start = 0
    while start < len(tokens):
        end = start
        while end < len(tokens) and tokens[end].terminal not in _ENDS:
            end += 1
        found += _family_first(tokens, start, end)
        found += tokens[end : end + 1]
        start = end + 1
    return found


def _family_first(tokens: list[Token], start: int, end: int) -> list[Token]:
    clause, name = tokens[start:end], start
    while name < end and tokens[name].terminal in ("SAME", "AND", "SILENT", "COMMA", "BULLET"):
        name += 1
    close = name
    while close < end and tokens[close].terminal == "WORD" and tokens[close].text[:1].isupper():
        close += 1
    place = close
    while place < end and (tokens[place].terminal in (*_FLEX, "NUM", "GRAM") or tokens[place].lower in _AGAIN):
        place += 1
    family = place + 1
    while family < end and tokens[family].terminal in ("SILENT", "ALL"):
        family += 1
    told = family < end and tokens[place].lower == "in" and tokens[family].terminal in _FAMILIES
    if close == name or not told or not tokens[family].lower.endswith("s") or not _weighed_before(tokens, name, close):
        return clause
    near = tokens[family]
    moved = [*tokens[place + 1 : family + 1], made(",", "mark", "COMMA", near), unsaid("shaft", "SHAFTWORD", near)]
    return [*tokens[start:name], *moved, *tokens[name:place], *tokens[family + 1 : end]]


def _weighed_before(tokens: list[Token], start: int, end: int) -> bool:
    """True where the same name stood before this with a mass or a flex behind it."""
    name = [token.text for token in tokens[start:end]]
    for at in range(start - len(name)):
        if tokens[at].text == name[0] and [token.text for token in tokens[at : at + len(name)]] == name:
            behind = tokens[at + len(name) : at + len(name) + _FIGURES]
            ends = next((place for place, token in enumerate(behind) if token.terminal in _ENDS), len(behind))
            weighed = any(isinstance(one.value, float) and _LIGHTEST <= one.value <= _HEAVIEST for one in behind[:2])
            if weighed or any(token.terminal in ("FLEX", "FLEXCODE", "GRAM") for token in behind[:ends]):
                return True
    return False


def _in_closing_bracket(row: Line) -> int:
    """Where the bracket opens that ends a line and names its clubs and nothing else; 0 for any other line."""
    opens = [at for at, token in enumerate(row) if token.terminal == "LPAR"]
    if not opens or row[-1].terminal != "RPAR" or says(row, 0, opens[-1], CLUB_RULES):
        return 0
    inside = row[opens[-1] + 1 : -1]
    at = 0
    while at < len(inside):
        phrase = phrase_at(inside, at)
        if phrase is not None and (phrase.rule in CLUB_RULES or _stamp(inside[at])):
            at = phrase.end
        elif inside[at].terminal in _PARTING:
            at += 1
        else:
            return 0
    return opens[-1] if inside else 0


def _bracket_first(line: Line, bracket: int) -> Line:
    """ "Gannet 9 with Reed 65 S (driver)" as "driver: Gannet 9 with Reed 65 S"."""
    row = said(line)
    first = next(at for at, token in enumerate(row) if token.terminal != "BULLET")
    row[bracket].terminal = "BULLET"
    row[-1].terminal, row[-1].text = "EQ", ":"
    told = [*row[bracket + 1 :], *row[first:bracket]]
    return [*row[:first], row[bracket], *told, *(token for token in line if token.kind == "newline")]


def _each_with_shaft(line: Line) -> Line:
    """A line that opens with a shaft as one line for each of its clubs."""
    row = said(line)
    first, colon = _shaft_at(row)
    starts = _clubs_from(row, colon + 1) if colon else []
    if not starts:
        return line
    kept: Line = []
    shaft = row[first:colon]
    for number, (start, end) in enumerate(zip(starts, [*starts[1:], len(row)], strict=True)):
        club = row[start:end]
        while club[-1].terminal in _PARTING:
            club.pop()
        near = club[-1]
        label = unsaid("shaft", "SHAFTWORD", near)
        told = shaft if not number else [repeated(token, near) for token in shaft]
        kept += [*club, made(",", "mark", "COMMA", near), label, *told, made("\n", "newline", "NEWLINE", near)]
    return [*kept[:-1], *(token for token in line if token.kind == "newline")]


def _shaft_at(row: Line) -> tuple[int, int]:
    """Where the "Reed Amber 65 S:" begins that opens a line, and where its colon stands; (0, 0) for any other line."""
    first = 0
    while first < len(row) and (row[first].terminal == "BULLET" or row[first].lower in _LEADS):
        first += 1
    at = first
    while at < len(row) and row[at].kind == "word" and row[at].terminal not in {*FAMILIES, *TOLD}:
        at += 1
    grams = at < len(row) and row[at].text.isdigit() and _LIGHTEST <= int(row[at].text) <= _HEAVIEST
    if at == first or not grams:
        return 0, 0
    at += 1
    at += at < len(row) and row[at].terminal == "GRAM"
    flex = at
    while at < len(row) and (row[at].terminal in _FLEX or (row[at].glued and row[at].text in ("+", "-"))):
        at += 1
    marked = at < len(row) and (row[at].text == ":" or (row[at].text in DASHES and not row[at].glued))
    return (first, at) if marked and at > flex else (0, 0)


def _clubs_from(row: Line, at: int) -> list[int]:
    """Where the clubs begin of which something is told from `at` on; [] where no club stands there.

    Clubs of which nothing is told ("driver, 3 wood", "the 52" of "52 and 58 Burr") are heard with the next one.
    """
    starts: list[int] = []
    first, depth, told = at, 0, True
    while at < len(row):
        depth += (row[at].terminal == "LPAR") - (row[at].terminal == "RPAR")
        phrase = phrase_at(row, at) if not depth else None
        opens = at == first or row[at - 1].terminal in _PARTING
        if opens and phrase is not None and (phrase.rule in CLUB_RULES or _stamp(row[at])):
            starts += [at] if told else []
            at, told = phrase.end, False
        elif at == first:
            return []
        else:
            told = told or row[at].terminal not in {*_PARTING, "DEG"}
            at += 1
    return starts


def _stamp(token: Token) -> bool:
    """True for the 52 of "52° (Burr), 58° (Burr)", "52 and 58"."""
    return isinstance(token.value, float) and token.value in _STAMPS
