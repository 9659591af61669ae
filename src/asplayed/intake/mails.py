"""Mails that answer above what they quote: the older one tells the set, and the newer one puts it right."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.tokens import Token, lines_of

_FEWEST = 3  # clubs that a quoted mail names at the beginning of its lines, for it to tell the set
_OPENS = 2  # tokens in which a line of a list names its club
_SENDER = ("from", "from:")


def oldest_first(tokens: list[Token]) -> list[Token]:
    """The tokens of a chain of mails, newest on top, with the quoted list read before the mail that answers it.

    "The 3 wood is 43, not 42.5." above "Halina wrote:" and "> 3 wood Gannet 15, 42.5" puts the quoted list right.
    """
    lines = lines_of(tokens)
    first = next((at for at, line in enumerate(lines) if quote_depth(line)), len(lines))
    wrote = [at for at, line in enumerate(lines) if not quote_depth(line) and _wrote(line)]
    quoted = [line for line in lines if quote_depth(line)]
    if not wrote or wrote[0] > first or sum(map(_opens_with_club, quoted)) < _FEWEST:
        return tokens
    answer = [at for at, line in enumerate(lines) if not quote_depth(line) and at not in wrote]
    own = [lines[at] for at in answer]
    below = any(at > first and len(lines[at]) > 1 for at in answer)
    if below or sum(map(_opens_with_club, own)) >= _FEWEST:
        return tokens  # the answer stands between the lines, or tells a list of its own
    for line in [*(lines[at] for at in wrote), *(line for line in own if line[0].lower in _SENDER)]:
        for token in line:
            token.terminal = "SILENT" if token.kind == "word" else token.terminal  # who answers need not own the clubs
    oldest = sorted(quoted, key=quote_depth, reverse=True)
    ordered = [lines[at] for at in wrote] + [line[1:] for line in oldest] + own
    return [token for line in ordered for token in line]


def quote_depth(line: list[Token]) -> int:
    """How many marks of quoting open the line."""
    return len(line[0].text) if set(line[0].text) == {">"} else 0


def _wrote(line: list[Token]) -> bool:
    told = [token.text for token in line if token.kind != "newline"]
    return told[-2:] == ["wrote", ":"]


def _opens_with_club(line: list[Token]) -> bool:
    told = line[1:] if quote_depth(line) else line
    return any(token.terminal in FAMILIES for token in told[:_OPENS]) and told[0].kind in ("number", "word")
