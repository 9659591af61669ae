"""Where a spelling cannot have one of its meanings: "in" that is no inch, "more" that is no direction."""

from __future__ import annotations

import re

from asplayed.intake.flex_codes import is_flex_apart, is_flex_code
from asplayed.intake.tokens import DASHES, Token

_AFTER_NUMBER_ONLY = {"GRAM", "MM", "CM", "METRE", "DEG", "INCH", "CPM", "PCT"}
_MORE_OF = {
    "club", "clubs", "driver", "hybrid", "hybrids", "iron", "irons", "of", "putter", "wedge", "wedges", "wood", "woods",
}  # fmt: skip
_AIMED = {"line", "centre", "center", "target", "course"}
_FLEX_WORDS = {"ladie", "lady", "stiff", "regular", "senior", "extra", "firm", "soft", "amateur", "r", "x", "a", "l"}
_DAYS = {
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "spring", "summer", "autumn",
    "winter", "january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
    "november", "december", "the",
}  # fmt: skip
_SWING_WEIGHT = re.compile(r"[A-G]\d?(?:\.\d+)?")
_TIMES = (_DAYS - {"the"}) | {"night", "week", "weekend", "month", "time", "thing"}


def fits(
    tokens: list[Token], position: int, end: int, terminal: str, meaning: str, before: Token | None, after_number: bool
) -> bool:
    """False where a spelling cannot have this meaning in this place."""
    token = tokens[position]
    after = tokens[end] if end < len(tokens) else None
    if terminal == "CPM" and after is not None and isinstance(after.value, float) and 180 <= after.value <= 400:
        return after_number and isinstance(before.value, float) and before.value >= 180  # type: ignore[union-attr]
    if terminal == "DRIVER" and token.lower in ("drive", "drives"):
        return after is not None and after.lower in ("a", "an", "the", "with")  # not "and with that I drive"
    if terminal in _AFTER_NUMBER_ONLY:
        if not after_number or before is None:
            return False
        if token.text == "G" and token.glued and isinstance(before.value, float) and before.value < 10:
            return False  # "Norrby 2G"
        if token.lower == "in":
            behind = tokens[end + 1] if end + 1 < len(tokens) else None
            flex = behind is not None and behind.lower in ("flex", "flexes")  # "Larkspur 40 in L flex"
            return not flex and _is_inch(before, after)
        if token.lower == "m" and before.terminal == "CODE":
            return False
        if token.lower == "m":
            return isinstance(before.value, float) and before.value < 3 and (token.glued or before.value < 2)
        return token.lower not in ("mil", "mils") or (isinstance(before.value, float) and before.value > 300)
    if terminal == "NAMEDWEDGE" and end > position + 1 and tokens[position + 1].text == "/":
        if after is not None and _SWING_WEIGHT.fullmatch(after.text.upper()):
            return False  # "S/W D3"
        parts = ("NEWLINE", "BULLET", "STOP", "COMMA", "PIPE", "RANGE", "AND", "DASH")
        return before is None or before.terminal in parts or before.lower in ("the", "a", "to")
    if terminal == "SHORT" and token.lower == "off":  # "took half an inch off every one", not "an inch off line"
        aimed = after is not None and after.lower in _AIMED
        return before is not None and before.terminal in ("INCH", "MM", "CM") and not aimed
    if terminal == "SHORT" and token.lower == "cut" and end == position + 1:  # "all cut 1/2 in", not "made the cut"
        return after is not None and after.kind == "number"
    if terminal == "UP" and token.lower == "more":
        return after is None or after.lower not in _MORE_OF  # "one more wedge"
    if terminal == "ASIDE" and end == position + 3 and tokens[end - 1].lower == "loft":
        return after is None or after.kind in ("mark", "newline")  # "kept the old one in the loft"
    if terminal == "ASIDE" and token.lower == "used":
        return after is not None and after.lower in ("have", "carry", "play", "use", "own", "be", "game", "hit", "love")
    if terminal == "FLEXCODE":
        flexed = any(entry.terminal == "FLEX" for entry in tokens[max(0, position - 4) : position])
        labelled = any(entry.terminal == "FLEXWORD" for entry in tokens[max(0, position - 2) : position])
        lettered = position > 1 and tokens[position - 2].terminal in ("WORD", "COLOUR")
        if is_flex_apart(tokens, position):
            return True
        return is_flex_code(token, before, after, flexed=flexed, labelled=labelled, lettered=lettered)
    if terminal == "FLEX" and end > position + 1 and tokens[end - 1].lower == "plus" and after is not None:
        added = after.kind == "number" and not (isinstance(after.value, float) and after.value >= 30)
        return not (added or after.lower in ("a", "half", "an"))  # "regular plus a half inch", "regular plus 45 inches"
    if (terminal == "HYBRID" and token.lower.startswith("rescue")) or token.lower in ("util", "utils"):
        return before is None or before.kind != "word" or before.terminal == "SILENT"  # "Plover Rescue": a model
    if terminal == "STD" and token.lower == "stock" and end < len(tokens) and tokens[end].kind == "word":
        return not tokens[end].text[:1].isupper() or tokens[end].text.isupper()  # "stock Lindrake": no setting
    if terminal == "NOTE" and token.lower.startswith("carr"):
        return after is not None and after.kind == "number" and isinstance(after.value, float) and after.value > 99
    if terminal == "PUTTER" and end == position + 2 and token.lower in ("mallet", "blade") and before is not None:
        return token.text.islower() or before.kind != "word"  # "a Stint Mallet putter": the model's own word
    if terminal == "PUTTER" and token.lower == "put":
        return token.text == "PUT"
    if terminal == "CORRECTION" and token.lower == "wait" and before is not None:
        return before.lower not in ("can", "can't", "will", "to", "must", "could", "should")  # "the rest can wait"
    if terminal == "CORRECTION" and token.lower == "no" and end == position + 1:
        return before is not None and before.terminal != "NEWLINE" and after is not None and after.text == ","
    if terminal == "MONTH":
        return (
            after_number
            or (before is not None and before.terminal == "SILENT" and before.lower in ("th", "of", "st"))
            or (after is not None and after.kind == "number")
        )
    if terminal == "LENGTH" and token.lower in ("finish", "fin") and end == position + 1:
        if after is not None and after.lower in ("at", "to") and end + 1 < len(tokens):
            after = tokens[end + 1]
        return after is not None and isinstance(after.value, float) and 28 <= after.value <= 54  # no "satin finish"
    if terminal == "PLAYING" and token.lower == "played":
        return after_number or (before is not None and before.terminal == "DEG")
    if terminal == "WITH" and token.lower == "w":
        texted = after is not None and after.lower in ("a", "an", "the", "my") and token.text == "w"
        return texted or (after is not None and after.text == "/" and after.glued)
    if terminal == "SIZE" and meaning == "blade" and before is not None and before.terminal == "WORD":
        irons = position > 1 and tokens[position - 2].terminal in ("NAMEDWEDGE", "IRON")  # "irons 5-pw dunlin blade"
        if token.text[:1].isupper() or (irons and token.lower == "blade"):
            return token.text.isupper()
    if terminal == "SOLE" and token.lower == "full" and end == position + 1 and after is not None:
        named = before is not None and before.lower in ("sole", "grind")  # "sole full   lie 1 up"
        return named or after.kind != "word" or after.lower in ("on", "bounce", "with")  # "the full set of them"
    if terminal in ("COLOUR", "LEVEL", "NECK", "SOLE") and end == position + 1:
        return True
    if terminal == "ORDINAL" and token.lower in ("last", "first") and after is not None and after.lower in _TIMES:
        return False  # "she went to the 9 last night"
    if terminal == "EVENTKIND" or (terminal == "SIZE" and meaning.startswith("core")):
        return not after_number or terminal == "SIZE"
    if (
        terminal == "PLAYERWORD"
        and end == position + 2
        and tokens[end - 1].lower in ("for", "to")
        and after is not None
    ):
        led = tokens[end + 1] if after.lower in ("our", "my", "a", "the", ":") and end + 1 < len(tokens) else after
        return led.text[:1].isupper() and led.lower not in _DAYS
    if terminal == "PLAYERWORD" and token.lower == "set":
        if before is not None and before.lower == "a":
            return False  # "a set of Dunlins"
        return after is not None and after.kind == "word" and after.text[:1].isupper() and not after.text.isupper()
    if terminal == "PLAYERWORD" and token.lower == "name":
        return after is not None and after.text in (":", "=")
    if token.lower in ("di", "ui", "hy", "mini", "fw", "ir", "wg", "metal", "metals"):
        before_number = after is not None and after.kind == "number" and token.lower in ("hy", "fw", "di", "ui", "ir")
        opens = token.text.isupper() and (before is None or before.terminal in ("NEWLINE", "BULLET"))
        opens = opens and after is not None and after.kind == "word" and after.text[:1].isupper()
        dashed = after is not None and after.text in DASHES and not after.glued
        parted = after is not None and (after.text in (":", "/", "|", "\t") or opens or dashed)
        labels = token.lower in ("fw", "ir", "wg", "hy", "di", "ui") and parted
        return token.lower == "mini" or after_number or before_number or labels
    if token.lower == "model" and before is not None and before.terminal == "SAME":
        return True
    if token.lower == "list" and before is not None and before.terminal not in ("NEWLINE", "BULLET", "STOP"):
        return False  # "a correction to my list: …"
    if token.lower in ("event", "week", "list", "total", "model") and end == position + 1:
        return (
            after is not None and (after.text in (":", "=", "\t", "|") or after.kind == "number")
        ) or token.lower == "total"
    return True


def _is_inch(number: Token, after: Token | None) -> bool:
    value = number.value
    if not isinstance(value, float):
        return False
    if after is None or after.kind in ("newline", "mark"):
        words = number.text[:1].isalpha() and value >= 49  # "the Reed fifty in, regular"
        return not (words or 55 <= value <= 75)  # "put the 60 in": no club is so long, and shafts are so heavy
    if after.lower in (
        "the",
        "a",
        "an",
        "toe",
        "heel",
        "front",
        "back",
        "my",
        "his",
        "her",
        "it",
        "both",
        "all",
        "each",
    ):
        return False
    if after.lower.rstrip("'s") in _FLEX_WORDS:
        return False  # "the Tupelo 45 in ladies"
    return 28 <= value <= 50 or (
        abs(value) <= 3 and after.lower in ("long", "short", "over", "under", "longer", "shorter")
    )
