"""Who speaks where a talk names its speakers on lines of their own ("Ada, 20:11", "Speaker 2"): put as "Ada:"."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.tokens import Token

_LONGEST = 9  # tokens of such a line: a name of three words, a mark, a clock
_NUMBERED = {"speaker", "person", "voice", "participant", "guest"}
_AROUND = {",", "(", ")", "[", "]", "-", "–", "—", "·", "•", "|", "/", ":"}


def speakers_before(tokens: list[Token]) -> list[Token]:
    """The tokens with each speaker's line put before what he says: "Ada, 20:11", then "Reed 60 S", is "Ada: Reed 60 S".

    Two speakers at least, one of whom speaks again, make a talk of it; any other text stays as it is.
    """
    tokens = _offices_joined(tokens)
    heads = {start: head for start in _opens(tokens) if (head := _head(tokens, start)) is not None}
    names = [_said(tokens, start, name) for start, (name, _end) in heads.items()]
    if len(set(names)) < 2 or len(names) < 3 or len(set(names)) == len(names):
        return tokens
    put: list[Token] = []
    at = 0
    while at < len(tokens):
        if at not in heads:
            put.append(tokens[at])
            at += 1
            continue
        name, end = heads[at]
        whole = tokens[at : at + name]
        label = whole[0]
        if len(whole) > 1 and whole[-1].kind == "number":  # "Speaker 2" is one word
            label.text = f"{label.text} {whole[-1].text}"
            label.end, whole = whole[-1].end, [label]
            label.lower = label.text.lower()
        mark = tokens[end]
        mark.text = mark.lower = ":"
        mark.kind, mark.terminal, mark.glued = "mark", "EQ", True
        put += [*whole, mark]
        at = end + 1
    return put


def _offices_joined(tokens: list[Token]) -> list[Token]:
    """The tokens with the "Ada (shop)" that several lines begin with before a colon made one word each."""
    found: dict[str, list[int]] = {}
    for at in _opens(tokens):
        label = tokens[at : at + 5]
        if [token.text for token in label[1:2] + label[3:]] == ["(", ")", ":"] and label[2].kind == "word":
            found.setdefault(f"{label[0].text} ({label[2].text})", []).append(at)
    spoken = {at: name for name, places in found.items() if len(places) > 1 for at in places}
    for at, name in spoken.items():
        tokens[at].text, tokens[at].lower, tokens[at].end = name, name.lower(), tokens[at + 3].end
    inside = {at + step for at in spoken for step in (1, 2, 3)}
    return [token for at, token in enumerate(tokens) if at not in inside]


def _opens(tokens: list[Token]) -> list[int]:
    """Where the lines begin."""
    return [
        at
        for at, token in enumerate(tokens)
        if token.kind != "newline" and (not at or tokens[at - 1].kind == "newline")
    ]


def _head(tokens: list[Token], start: int) -> tuple[int, int] | None:
    """How many words the name of a speaker's line has, and its newline; None for any other line.

    The line is a name and a clock, or "Speaker 2" alone, and what is said stands on the next line.
    """
    end = next((at for at in range(start, min(start + _LONGEST, len(tokens))) if tokens[at].kind == "newline"), -1)
    if end < 0 or end + 1 >= len(tokens) or tokens[end + 1].kind == "newline":
        return None
    name = start
    while name < end and name - start < 3 and tokens[name].kind == "word":
        name += 1  # "Front desk" too, whatever the trade means by "front"
    numbered = tokens[start].lower in _NUMBERED and start + 1 < end and tokens[start + 1].text.isdigit()
    if numbered and all(token.text in _AROUND for token in tokens[start + 2 : end]):
        return 2, end
    rest = tokens[name:end]
    clock = [token for token in rest if token.text not in _AROUND and token.lower not in ("am", "pm", "at", "today")]
    clocked = 2 <= len(clock) <= 3 and all(token.text.isdigit() for token in clock)
    told = sum(mark.text == ":" and mark.glued and after.glued and after in clock for mark, after in pairwise(rest))
    return (name - start, end) if name > start and clocked and told == len(clock) - 1 else None


def _said(tokens: list[Token], start: int, name: int) -> str:
    return " ".join(token.lower for token in tokens[start : start + name])
