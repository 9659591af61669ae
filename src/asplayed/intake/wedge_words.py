"""Words that name a wedge by itself: "the gap", "Sand 56", "for sand I have …"."""

from __future__ import annotations

from asplayed.intake.tokens import Token

WEDGE_WORDS = {
    "sand": "sand wedge", "gap": "gap wedge", "lob": "lob wedge", "approach": "gap wedge",
    "pitching": "pitching wedge", "pitch": "pitching wedge",
}  # fmt: skip
LETTERED = {
    "P": "pitching wedge", "G": "gap wedge", "A": "gap wedge", "S": "sand wedge", "L": "lob wedge",
}  # fmt: skip
SET_WORDS = {"set", "set's", "set’s", "matching"}  # "set PW and set gap": wedges of the irons' own model
STAMPED = {"gap": (48.0, 54.0), "sand": (54.0, 58.0), "lob": (58.0, 64.0)}  # lofts that go with the word


def wedge_named_later(tokens: list[Token], words: list[str], position: int) -> bool:
    """True for the "gap" of "pitching, gap and sand wedge"."""
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    if after is None or not (after.text in (",", "/", "&") or after.lower == "and"):
        return False
    return any(word in ("wedge", "wedges") for word in words[position + 2 : position + 7])


def for_sand(tokens: list[Token], position: int) -> bool:
    """True for the "sand" of "For sand I have a Teasel of fifty-six degrees", "For the bunkers there is …"."""
    near = [token.lower for token in tokens[max(0, position - 2) : position + 3] if token.lower != "the"]
    word = tokens[position].lower if tokens[position].lower in ("sand", "bunkers", "bunker") else "sand"
    near = near[near.index(word) - 1 :] if word in near[1:] else []
    led = (["i"], ["he"], ["she"], ["there's"], ["it's"], [","], ["a"], ["my"], ["there"])
    return near[:2] == ["for", word] and near[2:3] in led


def wedge_by_loft(tokens: list[Token], position: int, before: Token | None) -> bool:
    """True for the "Gap" of "Gap 50, Sand 56": a wedge's word with a wedge's loft behind it."""
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    lofted = after is not None and isinstance(after.value, float) and 44 <= after.value <= 64 and not after.sign
    low, high = STAMPED.get(tokens[position].lower, (1.0, 0.0))
    if lofted and before is not None and before.terminal == "WORD" and low <= after.value <= high:  # type: ignore[union-attr,operator]
        return True  # "a crake sand fifty five"
    return lofted and (before is None or before.terminal in ("NEWLINE", "BULLET", "STOP", "COMMA", "AND", "SLASH"))


def wedge_before(tagged: list[Token]) -> bool:
    """True for a word, tagged last, behind another wedge's ("pitching and gap")."""
    behind = [token for token in tagged[-4:-1] if token.terminal not in ("AND", "COMMA")]
    return bool(behind) and behind[-1].terminal == "NAMEDWEDGE"
