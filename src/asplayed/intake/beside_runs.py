"""Clubs told by their numbers before one word for their kind: "4, 7-9 irons", "7-9 and 4 irons", "3+5W"."""

from __future__ import annotations

from asplayed.intake.tokens import DASHES, Token, repeated

_KINDS = {"IRON", "HYBRID", "WOOD"}
_JOINTS = {"COMMA", "AND"}
_OPENS = {"NEWLINE", "STOP", "BULLET", "LPAR", "PIPE", "SILENT"}


def kind_behind_each(tokens: list[Token]) -> list[Token]:
    """The tokens with the word for the kind behind each number and each run that only the last one has it behind."""
    found: list[Token] = []
    at = 0
    while at < len(tokens):
        ends = _row(tokens, at) if at == 0 or tokens[at - 1].terminal in _OPENS else []
        if ends:
            kind = tokens[ends[-1]]
            kind.lower = kind.lower.removesuffix("s")  # "7-9 and 4 irons" are not four of them
        for end in ends[:-1]:
            found += [*tokens[at:end], repeated(kind, tokens[end - 1])]
            tokens[end].terminal = "AND" if tokens[end].text == "+" else tokens[end].terminal
            at = end
        found.append(tokens[at])
        at += 1
    return found


def _row(tokens: list[Token], at: int) -> list[int]:
    """The places behind the numbers and runs of a row that ends with the word for their kind; empty for no such row."""
    ends, run, plus = [], False, False
    while at < len(tokens) and _numbers_a_club(tokens[at]):
        at += 1
        if at + 1 < len(tokens) and tokens[at].text in DASHES and _numbers_a_club(tokens[at + 1]):
            at, run = at + 2, True
        ends.append(at)
        if at >= len(tokens) or not (tokens[at].terminal in _JOINTS or tokens[at].text == "+"):
            break
        plus = plus or tokens[at].text == "+"
        at += 1
    closed = at < len(tokens) and tokens[at].terminal in _KINDS and len(ends) > 1
    return ends if closed and ends[-1] == at and (run or plus) else []


def _numbers_a_club(token: Token) -> bool:
    return token.terminal == "NUM" and not token.sign and token.value in range(1, 10)
