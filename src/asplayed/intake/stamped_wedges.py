"""Wedges told by their model and loft alone: a line "Copperline 54°, 14 bounce" names its club for the rooms behind."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.tokens import Token, made

_OTHERS = {*FAMILIES, "NAMEDWEDGE", "BALLWORD", "PIPE", "LENGTH", "LIE"}
_LONGEST = 4  # words of a model's name
_ARTICLES = {"a", "an", "the", "my", "his", "her"}
_LOWEST, _HIGHEST = 46, 64


def stamped_wedges(tokens: list[Token]) -> list[Token]:
    """The tokens with the word "wedge" before each model whose loft opens a sentence or goes on with one."""
    found: list[Token] = []
    start = 0
    for at, token in enumerate(tokens):
        if token.terminal in ("STOP", "NEWLINE"):
            found += _named(tokens[start : at + 1])
            start = at + 1
    return found + _named(tokens[start:])


def _named(line: list[Token]) -> list[Token]:
    if any(token.terminal in _OTHERS for token in line):
        return line
    found: list[Token] = []
    opens = inside = True
    for at, token in enumerate(line):
        if opens and _stamped(line, at):
            found.append(made("wedge", "word", "WEDGE", token))
            found[-1].value, found[-1].lower = "wedge", "wedge"
            inside = False
        elif opens and inside and token.terminal != "BULLET" and token.lower not in _ARTICLES:
            return line  # what the line opens with is told of another club
        found.append(token)
        opens = token.terminal in ("BULLET", "COMMA", "AND") or (opens and token.lower in _ARTICLES)
    return found


def _stamped(line: list[Token], at: int) -> bool:
    """True for a model's name and the loft of a wedge right behind it, given away by its sign, a bounce, a bend."""
    end = at
    while end < len(line) and end - at < _LONGEST and line[end].kind == "word" and line[end].text[:1].isupper():
        if line[end].terminal not in ("", "WORD", "LETTER"):
            return False
        end += 1
    if end == at or end >= len(line) or len(line[at].text) == 1:
        return False
    stamp, behind = line[end], line[end + 1 : end + 5]
    if stamp.terminal == "CODE":
        return True
    lofty = isinstance(stamp.value, float) and _LOWEST <= stamp.value <= _HIGHEST and not stamp.sign
    if not lofty or not behind:
        return False
    told = [token.terminal for token in behind]
    bounced = told[told[0] == "COMMA" :][:2] == ["NUM", "BOUNCE"]
    gripped = told[0] == "COMMA" and "GRIPWORD" in told
    return told[0] in ("DEG", "BENT", "EQ") or behind[0].lower in ("has", "had") or bounced or gripped
