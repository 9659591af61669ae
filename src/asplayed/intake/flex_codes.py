"""Letters that say a flex, and the signs written tight behind them."""

from __future__ import annotations

from asplayed.intake.tokens import DASHES, Token

_APART = 7  # tokens between a shaft's mass and the small letter that tells its flex behind a comma
_READS = {"says", "reads", "marked", "stamped", "lettered", "an"}


def is_flex_code(
    token: Token,
    before: Token | None,
    after: Token | None,
    *,
    flexed: bool = False,
    labelled: bool = False,
    lettered: bool = False,
) -> bool:
    if after is not None and after.lower == "flex":
        return True
    if len(token.text) > 1:
        return (
            token.text.isupper()
            or token.lower in ("tx", "xs", "sr")
            or (
                token.lower[0] in "rf" and token.text[-1].isdigit() and (before is not None and before.kind == "number")
            )
        )
    if token.text.isupper():
        if token.text == "A" and before is not None and before.lower in _READS:
            return after is None or after.kind != "word" or after.lower == "on"  # "it says A on the shaft"
        if token.text == "A":
            return (
                before is not None
                and (before.terminal in ("NUM", "GRAM", "WORD", "COMMA", "PIPE", "SLASH") or labelled)
                and (after is None or after.kind in ("newline", "mark", "number"))
            )
        return True
    alone = after is None or after.kind in ("newline", "mark", "number")
    alone = alone or (not token.glued and token.lower in ("l", "r", "s", "x"))  # "sixty five x and forty five inches"
    if labelled and token.lower in ("l", "a", "r", "s", "x") and alone:
        return True  # "flex: x"
    cell = before is not None and before.terminal in ("PIPE", "SLASH") and after is not None
    if cell and token.lower in "srx" and after.kind in ("mark", "newline"):  # type: ignore[union-attr]
        return True  # "reed | 60 | s | 45.25"
    if token.lower == "s" and flexed:
        return False  # "regular Tarrock 90s": a plural
    joined = token.glued and token.lower in "srx" and after is not None and after.lower in ("and", "with", "in", "at")
    if joined and before is not None and isinstance(before.value, float) and 45 <= before.value <= 150:
        return not flexed  # "burr 115s and the putter …"
    if before is not None and before.terminal == "GRAM":
        return alone
    if token.glued and before is not None and before.text in "45678" and token.lower in "srx" and lettered:
        return alone or after.lower in ("at", "in", "flex")  # type: ignore[union-attr]  # "lindrake blue 6s at 45"
    return (
        before is not None
        and before.kind == "number"
        and isinstance(before.value, float)
        and before.value >= 35
        and token.lower != "a"
        and alone
    )


def is_flex_apart(tokens: list[Token], at: int) -> bool:
    """True for the small letter of "one twenty-five, x.", "the eighty gram Reed, also x", "a Reed one fifteen in x"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if tokens[at].text not in ("r", "s", "x") or not (after is None or after.kind in ("mark", "newline")):
        return False
    led, told = tokens[max(0, at - 2) : at], tokens[max(0, at - _APART) : at]
    parted = led[-1:] != [] and (led[-1].terminal in ("COMMA", "IN") or led[-1].lower in ("also", "again", "in"))
    ends = max((index for index, token in enumerate(told) if token.kind == "newline"), default=-1)
    return parted and any(_of_a_shaft(token) for token in told[ends + 1 :])


def _of_a_shaft(token: Token) -> bool:
    return token.terminal == "GRAM" or (isinstance(token.value, float) and 38 <= token.value <= 150)


def suffix_sign(tokens: list[Token], token: Token, end: int) -> int:
    """Join a plus or minus written tight behind a flex ("R+", "S-")."""
    if token.terminal not in ("FLEX", "FLEXCODE") or end >= len(tokens):
        return end
    mark = tokens[end]
    after = tokens[end + 1] if end + 1 < len(tokens) else None
    closes = mark.text == "+" and (after is None or after.kind in ("newline", "mark"))
    if mark.kind != "mark" or not (mark.glued or closes) or mark.text not in ("+", *DASHES):
        return end
    if after is not None and after.glued and after.kind in ("word", "number"):
        return end
    sign = "+" if mark.text == "+" else "-"
    token.text += mark.text
    token.end = mark.end
    base = token.value if token.terminal == "FLEX" else token.text[:-1].upper()
    token.terminal, token.value = "FLEX", f"{base}{sign}"
    return end + 1
