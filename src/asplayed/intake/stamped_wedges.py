"""Wedges told by their model and loft alone: a line "Copperline 54°, 14 bounce" names its club for the rooms behind."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.tokens import Token, behind_capitals, unsaid

_OTHERS = {*FAMILIES, "NAMEDWEDGE", "BALLWORD", "PIPE", "LENGTH", "LIE"}
_PARTS = {"SHAFTWORD", "GRIPWORD"}
_LONGEST = 4  # words of a model's name
_ARTICLES = {"a", "an", "the", "my", "his", "her"}
_LOWEST, _HIGHEST = 46, 64


def stamped_wedges(tokens: list[Token]) -> list[Token]:
    """The tokens with the word "wedge" before each model whose loft opens a sentence or goes on with one."""
    found: list[Token] = []
    start, headed = 0, False
    for at, token in enumerate(tokens):
        if token.terminal in ("STOP", "NEWLINE"):
            sentence = tokens[start : at + 1]
            found += sentence if headed else _named(sentence)
            said = {one.terminal for one in sentence}
            headed = bool(said & {*FAMILIES}) and "WORD" not in said  # "gap wedge", and below it "Copperline 52°"
            start = at + 1
    return _in_a_row(found + _named(tokens[start:]))


def _in_a_row(tokens: list[Token]) -> list[Token]:
    """The tokens with the word "wedge" before each of "a Copperline 52, a Copperline 56 and a Copperline 60"."""
    found: list[int] = []
    row: list[int] = []  # where the models of the row that is being told begin
    behind = start = 0
    for at, token in enumerate(tokens):
        start = at + 1 if token.terminal in ("STOP", "NEWLINE") else start
        article = token.lower in ("a", "an") and at + 1 < len(tokens)
        end = _behind_stamp(tokens, at + 1) if article else 0
        if not end:
            continue
        joints = tokens[behind:at] if row else []
        joined = bool(joints) and all(one.terminal in ("COMMA", "AND") for one in joints)
        alone = not any(one.terminal in {*_OTHERS, *_PARTS} for one in tokens[start:at])
        row = [*row, at + 1] if joined else [at + 1] if alone else []
        behind = end
        if len(row) > 1:
            found += row[-1:] if len(row) > 2 else row
    return _worded(tokens, found)


def _behind_stamp(tokens: list[Token], at: int) -> int:
    """The place behind a model's name and a bare number that can be a wedge's loft; 0 where none stands."""
    end = behind_capitals(tokens, at, _LONGEST)
    if end == at or end >= len(tokens) or any(token.terminal != "WORD" for token in tokens[at:end]):
        return 0
    after = tokens[end + 1] if end + 1 < len(tokens) else None
    closed = after is None or after.terminal in ("COMMA", "AND", "STOP", "NEWLINE", "DEG")
    return end + 1 if closed and _lofty(tokens[end]) else 0


def _lofty(token: Token) -> bool:
    """True for a number that can be a wedge's loft."""
    return isinstance(token.value, float) and _LOWEST <= token.value <= _HIGHEST and not token.sign


def _worded(tokens: list[Token], places: list[int]) -> list[Token]:
    found = list(tokens)
    for at in reversed(places):
        found.insert(at, unsaid("wedge", "WEDGE", tokens[at]))
    return found


def _named(line: list[Token]) -> list[Token]:
    if any(token.terminal in _OTHERS for token in line):
        return line
    if stamps := _stamps_before_models(line):
        return _worded(line, stamps)
    found: list[Token] = []
    opens = inside = True
    for at, token in enumerate(line):
        if opens and _stamped(line, at):
            found.append(unsaid("wedge", "WEDGE", token))
            inside = False
        elif opens and inside and token.terminal != "BULLET" and token.lower not in _ARTICLES:
            return line  # what the line opens with is told of another club
        found.append(token)
        opens = token.terminal in ("BULLET", "COMMA", "AND") or (opens and token.lower in _ARTICLES)
    return found


def _stamps_before_models(line: list[Token]) -> list[int]:
    """The places behind the lofts of "58 Copperline, 54 Copperline"; none where anything else is told."""
    found: list[int] = []
    told = [at for at, token in enumerate(line) if token.terminal not in ("BULLET", "NEWLINE", "STOP", "DEG")]
    for place, at in enumerate(told):
        token, opens = line[at], not place or line[told[place - 1]].terminal in ("COMMA", "AND")
        if opens and token.terminal not in ("COMMA", "AND"):
            behind = [one.terminal for one in line[at + 1 : at + 3] if one.terminal != "DEG"]
            named = behind[:1] == ["WORD"]
            if not _lofty(token) or not named:
                return []
            found.append(at + 1)
        elif token.terminal not in ("COMMA", "AND", "WORD", "LETTER"):
            return []
    return found if len(found) > 1 else []


def _stamped(line: list[Token], at: int) -> bool:
    """True for a model's name and the loft of a wedge right behind it, given away by its sign, a bounce, a bend."""
    end = behind_capitals(line, at, _LONGEST)
    if any(token.terminal not in ("", "WORD", "LETTER") for token in line[at:end]):
        return False
    if end == at or end >= len(line) or len(line[at].text) == 1:
        return False
    stamp, behind = line[end], line[end + 1 : end + 5]
    if stamp.terminal == "CODE":
        return True
    if not _lofty(stamp) or not behind:
        return False
    told = [token.terminal for token in behind]
    bounced = told[told[0] == "COMMA" :][:2] == ["NUM", "BOUNCE"]
    gripped = told[0] == "COMMA" and "GRIPWORD" in told
    return told[0] in ("DEG", "BENT", "EQ") or behind[0].lower in ("has", "had") or bounced or gripped
