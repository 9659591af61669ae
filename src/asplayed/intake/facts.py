"""What a phrase says of a club of a given family: paths of the record with their entries."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Any

from asplayed.intake.drafts import Draft, Entry, Moved
from asplayed.intake.phrases import FLEX_NUMBER, Amount, Phrase, stamp_fits, wedge_loft
from asplayed.quantities import convert

Facts = list[tuple[str, Entry]]

# What bare numbers of a club can be: loft and length by family (the usual ones of the trade, widened), masses, bounce.
_LOFT: dict[str, tuple[float, float]] = {
    "driver": (6, 14), "wood": (11, 29), "hybrid": (14, 36), "diron": (13, 30), "iron": (15, 56), "wedge": (28, 66),
    "putter": (0, 6),
}  # fmt: skip
_LENGTH: dict[str, tuple[float, float]] = {
    "driver": (42.5, 48), "wood": (38, 44.5), "hybrid": (36.5, 42.5), "diron": (36.5, 42), "iron": (33.5, 41),
    "wedge": (33, 37.5), "putter": (28, 54),
}  # fmt: skip
_MASS: dict[str, tuple[float, float]] = {
    "driver": (38, 95), "wood": (40, 110), "hybrid": (45, 125), "diron": (55, 140), "iron": (50, 145),
    "wedge": (40, 150), "putter": (90, 180),
}  # fmt: skip
# Grams from which a mass is the whole club's: no head of the family is that heavy (common practice).
_TOTAL = {"driver": 260.0, "wood": 290.0, "hybrid": 310.0, "diron": 330.0, "iron": 350.0, "wedge": 390.0}
_IRON_LOFT: dict[int, float] = {1: 16.0, 2: 18.0, 3: 20.5, 4: 22.5, 5: 25.5, 6: 29, 7: 32.5, 8: 37, 9: 41}


_AS_IT_WAS = {"unchanged", "untouched", "nothing changed", "stock"}


@cache
def limits() -> dict[str, Any]:
    """The table of possible and usual figures (`data/limits.toml`)."""
    text = resources.files("asplayed.intake").joinpath("data/limits.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def loft_of_family(terminal: str, value: float) -> bool:
    """True when the number can be the loft of a club of this word."""
    family = {"WOOD": "wood", "HYBRID": "hybrid", "DIRON": "diron"}.get(terminal, "driver")
    return _within(value, _LOFT, family)


def _entry(value: float | str | bool | None, unit: str, phrase: Phrase, **more: Any) -> Entry:
    text = " ".join(token.text for token in phrase.tokens)
    return Entry(value, unit, phrase.line, text, **more)


def _length(amount: Amount, phrase: Phrase) -> Entry:
    if amount.unit in ("mm", "cm", "m"):
        value = convert(amount.value, amount.unit, "in")
        return _entry(round(value, 4), "in", phrase, why=f"{amount.token.text} {amount.unit} as written")
    return _entry(amount.value, "in", phrase)


def _within(value: float, table: dict[str, tuple[float, float]], family: str) -> bool:
    low, high = table[family]
    return low <= value <= high


def _loft_fits(value: float, draft: Draft) -> bool:
    if draft.family == "iron" and draft.number is not None and draft.number in _IRON_LOFT:
        return abs(value - _IRON_LOFT[draft.number]) <= 5.5
    return _within(value, _LOFT, draft.family)


def _length_fits(value: float, draft: Draft) -> bool:
    if draft.family == "iron" and draft.number:
        usual = 40.5 - draft.number / 2
        return abs(value - usual) <= 2.0
    return _within(value, _LENGTH, draft.family)


def bare(amount: Amount, phrase: Phrase, draft: Draft, zone: str, *, at: bool = False) -> Facts | None:
    """What a number without a noun says of this club, by its unit, the part being spoken of and the usual ranges.

    `at` is true behind the word "at", where a club's length stands when its shaft is told.
    """
    value, unit = amount.value, amount.unit
    if unit in ("in", "mm", "cm", "m"):
        length = _length(amount, phrase)
        assert isinstance(length.value, float)
        if amount.signed or abs(length.value) <= 3:
            return [("length_change", length)]
        return [("length", length)]
    if unit == "g":
        return _grams(value, phrase, draft, zone)
    if unit == "cpm":
        return [("stated.frequency", _entry(value, "cpm", phrase))]
    if unit == "deg":
        return _degrees(amount, phrase, draft, zone)
    if zone.startswith("shaft") and FLEX_NUMBER.fullmatch(amount.token.text) and not draft.has("shaft.flex"):
        return [("shaft.flex", _entry(amount.token.text, "1", phrase))]
    told = draft.has("shaft.name") and not draft.has("length") and _length_fits(value, draft)
    if at and told and not amount.signed and zone.startswith("shaft"):
        return [("length", _entry(value, "in", phrase))]  # "lindrake blue 6s at 45"
    zoned = _in_zone(amount, phrase, draft, zone)
    if zoned is not None:
        return zoned
    if amount.signed:
        fraction = "/" in amount.token.text or any(mark in amount.token.text for mark in "⅛¼⅜½⅝¾⅞")
        quarters = value * 8 == int(value * 8) and value != int(value)
        if (fraction or quarters) and not draft.adjustable and abs(value) <= 2:
            return [("length_change", _entry(value, "in", phrase))]
        if draft.adjustable and abs(value) <= 3 and not draft.has("sleeve.loft_change"):
            return [("sleeve.loft_change", _entry(value, "deg", phrase))]
        return None
    return _by_range(amount, phrase, draft, zone)


def _grams(value: float, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    if zone == "grip":
        return [("grip.mass", _entry(value, "g", phrase))]
    if zone == "head":
        return [("head.mass", _entry(value, "g", phrase))] if value >= 150 else None
    if zone == "total":
        return [("stated.mass", _entry(value, "g", phrase))]
    if draft.family == "putter" and value >= 300:
        return [("head.mass", _entry(value, "g", phrase))] if value < 430 else None
    if value >= 185:
        if value >= _TOTAL.get(draft.family, 999):
            return [("stated.mass", _entry(value, "g", phrase))] if value < 520 else None
        return [("head.mass", _entry(value, "g", phrase))] if value < 320 and zone != "shaft" else None
    if 35 <= value <= 160:
        if zone == "shaft.mass" or _massless(draft):
            return [("shaft.mass", _entry(value, "g", phrase))]
        if 40 <= value <= 75 and draft.has("grip.name"):
            return [("grip.mass", _entry(value, "g", phrase))]
        return [("shaft.mass", _entry(value, "g", phrase))]
    return None


def _degrees(amount: Amount, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    value = amount.value
    if zone == "torque" or (zone == "shaft" and 1 <= value <= 8 and draft.has("head.loft") and not amount.signed):
        return [("shaft.torque", _entry(value, "deg", phrase))]
    if zone in ("lie", "toe_hang", "bounce", "loft", "sleeve", "bend", "target"):
        found = _in_zone(amount, phrase, draft, zone)
        if found is not None:
            return found
    if amount.signed:
        if draft.adjustable:
            return [("sleeve.loft_change", _entry(value, "deg", phrase))]
        return None
    if draft.family == "putter":
        if value >= 62:
            return [("as_played.lie", _entry(value, "deg", phrase))]
        if value <= 6:
            return [("head.loft", _entry(value, "deg", phrase))]
        return [("putter.toe_hang", _entry(value, "deg", phrase))] if value >= 8 else None
    if draft.family == "wedge" and 0 < value <= 18:
        return [("head.bounce", _entry(value, "deg", phrase))]
    if _loft_fits(value, draft) or (draft.family == "wedge" and not draft.has("head.loft") and 40 <= value <= 66):
        if draft.has("head.loft") and draft.family in ("iron", "wedge") and 58 <= value <= 67:
            return [("as_played.lie", _entry(value, "deg", phrase))]
        return [("head.loft", _entry(value, "deg", phrase))]
    if 53 <= value <= 68:
        return [("as_played.lie", _entry(value, "deg", phrase))]
    if draft.family == "iron" and 15 <= value <= 56:
        return [("head.loft", _entry(value, "deg", phrase))]
    if value > 90 or (draft.adjustable and value < 45 and not draft.has("head.loft")):
        return [("head.loft", _entry(value, "deg", phrase))]
    return None


def _in_zone(amount: Amount, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    value = amount.value
    if zone == "loft":
        return (
            [change_path(draft, "loft", value, phrase)]
            if amount.signed
            else [("head.loft", _entry(value, "deg", phrase))]
        )
    if zone == "target" and (amount.signed or abs(value) <= 8):
        return [change_path(draft, "loft", value, phrase)]
    if zone == "target":
        return [("target.loft", _entry(value, "deg", phrase))]
    if zone == "lie":
        if amount.signed or value <= 8:
            return [change_path(draft, "lie", value, phrase)]
        return [("as_played.lie", _entry(value, "deg", phrase))]
    if zone == "bounce":
        return [("head.bounce", _entry(value, "deg", phrase))]
    if zone == "length":
        if amount.signed or value <= 3:
            return [("length_change", _entry(value, "in", phrase))]
        if value < 15 and amount.whole:
            return None  # "Lengths 5 38, 6 37.5": a club's number
        if value > 700:
            return [("length", _entry(round(value / 25.4, 4), "in", phrase, why=f"{amount.token.text} mm as written"))]
        return [("length", _entry(value, "in", phrase))]
    if zone == "toe_hang":
        return [("putter.toe_hang", _entry(value, "deg", phrase))]
    if zone == "torque":
        return [("shaft.torque", _entry(value, "deg", phrase))]
    if zone == "frequency":
        return [("stated.frequency", _entry(value, "cpm", phrase))]
    if zone == "total":
        return [("stated.mass", _entry(value, "g", phrase))]
    if zone == "wraps" or (zone == "grip" and amount.whole and (amount.signed or value <= 5)):
        return [("grip.wraps", _entry(value, "1", phrase))]
    if zone == "grip" and 20 <= value <= 130:
        return [("grip.mass", _entry(value, "g", phrase))]
    if zone == "sleeve":
        if amount.signed:
            return [("sleeve.loft_change", _entry(value, "deg", phrase))]
        if _loft_fits(value, draft) and value > 5:
            return [("target.loft", _entry(value, "deg", phrase))]
        return [("sleeve.loft_change", _entry(0.0, "deg", phrase))] if value == 0 else None
    if zone in ("shaft.mass", "grip.mass"):
        return [(zone, _entry(value, "g", phrase))]
    if zone == "head.mass":
        return [("head.mass", _entry(value, "g", phrase))]
    massive = not amount.signed and _within(value, _MASS, draft.family) and _massless(draft)
    light = draft.family == "iron" and 40 <= value < 50 and draft.has("shaft.name") and not draft.has("shaft.flex")
    if zone == "shaft" and light and amount.whole and not amount.signed and _massless(draft):
        return [("shaft.mass", _entry(value, "g", phrase))]
    if zone == "shaft" and massive and (amount.whole or not _length_fits(value, draft)):
        return [("shaft.mass", _entry(value, "g", phrase))]
    return None


def _by_range(amount: Amount, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    value = amount.value
    loft_free = not draft.has("head.loft")
    loft = _loft_fits(value, draft)
    length = _length_fits(value, draft)
    if zone == "head" and loft_free and loft and draft.family == "iron":
        return [("head.loft", _entry(value, "deg", phrase))]  # "Hornbeam 37" in a table's column of heads
    shorter = 780 if draft.family in ("wedge", "putter") else 900
    if shorter < value < 1400:
        return [("length", _entry(round(value / 25.4, 4), "in", phrase, why=f"{amount.token.text} mm as written"))]
    if length and ("/" in amount.token.text or any(c in amount.token.text for c in "⅛¼⅜⅝¾⅞")):
        return [("length", _entry(value, "in", phrase))]
    if loft and length and draft.family == "iron":
        modelled = draft.has("head.name") and not draft.has("shaft.name")
        if loft_free and (not draft.facts or draft.has("length") or modelled):
            return [("head.loft", _entry(value, "deg", phrase))]
        if loft_free and draft.has("shaft.name") and draft.has("shaft.flex") and not draft.has("length"):
            return [("length", _entry(value, "in", phrase))]  # a loft stands before the shaft
        return [("length", _entry(value, "in", phrase))] if not loft_free and not draft.has("length") else None
    if draft.family == "wedge":
        if draft.name == "chipper" and loft_free and 36 <= value <= 50:
            return [("head.loft", _entry(value, "deg", phrase))]
        if loft_free and wedge_loft(value) and stamp_fits(draft.name, value):
            return [("head.loft", _entry(value, "deg", phrase))]
        if length and not draft.has("length"):
            return [("length", _entry(value, "in", phrase))]
        if 3 <= value <= 18 and amount.whole and draft.has("head.loft") and not draft.has("head.bounce"):
            return [("head.bounce", _entry(value, "deg", phrase))]
        if value >= 70 and _within(value, _MASS, "wedge") and _massless(draft):
            return [("shaft.mass", _entry(value, "g", phrase))]
        if 28 <= value < 50 and loft_free:
            return [("head.loft", _entry(value, "deg", phrase))]
        return None
    if loft and (loft_free or not length):
        return [("head.loft", _entry(value, "deg", phrase))]
    if length:
        return [("length", _entry(value, "in", phrase))]
    if draft.family == "putter":
        if 62 <= value <= 80:
            return [("as_played.lie", _entry(value, "deg", phrase))]
        return [("head.mass", _entry(value, "g", phrase))] if 300 <= value <= 420 else None
    if _within(value, _MASS, draft.family) and amount.whole and _massless(draft):
        if 56 <= value <= 65 and not draft.has("shaft.name") and zone != "shaft" and draft.family in ("iron", "diron"):
            return None
        return [("shaft.mass", _entry(value, "g", phrase))]
    if 180 <= value <= 380 and draft.has("shaft.name") and draft.family != "putter" and value >= 220:
        return None
    if value > 90 and not draft.has("length") and value >= 400:
        return None
    return None


def _massless(draft: Draft) -> bool:
    """True where a shaft's mass can be taken: none is known, or one that was said of a larger group."""
    return draft.narrowed or not draft.has("shaft.mass")


def change_path(draft: Draft, what: str, value: float | None, phrase: Phrase, **more: Any) -> tuple[str, Entry]:
    """A change of loft or lie: by the sleeve where the club has one, else by bending."""
    owner = "sleeve" if draft.adjustable else "bend"
    path = f"{owner}.{what}_change" if owner == "sleeve" else f"bend.{what}"
    return path, _entry(value, "deg", phrase, **more)


def change(phrase: Phrase, draft: Draft, zone: str, *, noun: str = "") -> Facts | None:
    """What "1 weak", "¾ down and upright", "half an inch long", "down to 9" say of this club."""
    way = phrase.directions
    amount = phrase.amounts[0] if phrase.amounts else None
    noun = noun or {"loft": "LOFT", "lie": "LIE", "length": "LENGTH"}.get(zone, "")
    if not way:
        return _standard_plus(phrase, amount) if amount else None
    if phrase.has("STD") and amount is not None and amount.unit != "deg":
        noun = noun or "LENGTH"  # "standard plus a half"
    led = any(one in way and other.terminal == "RANGE" for one, other in pairwise(phrase.tokens))
    if led and amount is not None and not phrase.has("STD") and not bent_by(phrase):
        return _target(amount, phrase, draft, noun)
    if phrase.has("CLICK"):
        text = " ".join(token.text for token in phrase.tokens if token.terminal not in ("SLEEVE", "EQ", "TURNED", "AT"))
        what = "lie" if way[0].terminal in ("UPRIGHT", "FLAT") else "loft"
        if not draft.adjustable:
            return None
        return [("sleeve.position", _entry(text, "1", phrase)), (f"sleeve.{what}_change", _entry(None, "deg", phrase))]
    facts: Facts = []
    for index, token in enumerate(way):
        value = amount.value if amount is not None and index == 0 else None
        facts += _direction(token.terminal, value, amount, phrase, draft, noun)
    return facts or None


def bent_by(phrase: Phrase) -> bool:
    """True for "bent to 1 weak": the direction word stands behind its number."""
    way, numbers = phrase.directions, phrase.all("NUM", "SNUM")
    return bool(way and numbers) and phrase.tokens.index(way[0]) > phrase.tokens.index(numbers[0])


def _direction(
    terminal: str, value: float | None, amount: Amount | None, phrase: Phrase, draft: Draft, noun: str
) -> Facts:
    length = amount is not None and amount.unit in ("in", "mm", "cm")
    signs = {"WEAK": 1, "STRONG": -1, "UPRIGHT": 1, "FLAT": -1, "UP": 1, "DOWN": -1, "LONG": 1, "SHORT": -1}
    sign = signs.get(terminal)
    if sign is None:
        return []
    moved = None if value is None else sign * abs(value)
    if terminal in ("LONG", "SHORT") or noun == "LENGTH" or (length and terminal in ("UP", "DOWN")):
        if amount is None or moved is None:
            return [("length_change", _entry(None, "in", phrase))]
        inches = _length(amount, phrase)
        assert isinstance(inches.value, float)
        if abs(inches.value) > 15:
            return [("length", inches._replace(value=abs(inches.value)))]
        return [("length_change", inches._replace(value=sign * abs(inches.value)))]
    if length:
        return []
    if terminal in ("WEAK", "STRONG"):
        return [change_path(draft, "loft", moved, phrase)]
    if terminal in ("UPRIGHT", "FLAT") or noun == "LIE":
        return [change_path(draft, "lie", moved, phrase)]
    if noun == "LOFT" or draft.adjustable:
        return [change_path(draft, "loft", moved, phrase)]
    return [change_path(draft, "lie", moved, phrase)]


def _standard_plus(phrase: Phrase, amount: Amount) -> Facts | None:
    if amount.unit == "deg":
        return None
    return [("length_change", _length(amount, phrase))]


def _target(amount: Amount, phrase: Phrase, draft: Draft, noun: str) -> Facts | None:
    """What "to 57" makes of the club: its loft, its lie or its length, by what the number can be."""
    value = amount.value
    if amount.unit in ("in", "mm", "cm"):
        return [("length", _length(amount, phrase))]
    if noun == "LIE" or (draft.family == "iron" and value >= 57 and noun != "LOFT"):
        return [("as_played.lie", _entry(value, "deg", phrase))]
    if _loft_fits(value, draft) or noun == "LOFT" or amount.unit == "deg":
        if draft.family == "putter" and value > 60:
            return [("as_played.lie", _entry(value, "deg", phrase))]
        return [("target.loft", _entry(value, "deg", phrase))]
    if _length_fits(value, draft):
        return [("length", _entry(value, "in", phrase))]
    return None


def _labelled(phrase: Phrase, draft: Draft) -> Facts | None:
    token = phrase.first(
        "LOFT", "LIE", "BOUNCE", "LENGTH", "TORQUE", "FREQUENCY", "TOTALMASS", "TOEHANG", "HEADMASS", "SHAFTWORD",
        "GRIPWORD", "HEADWORD",
    )  # fmt: skip
    assert token is not None
    noun = token.terminal
    if phrase.directions:
        if noun in ("LOFT", "LIE", "LENGTH"):
            return change(phrase, draft, "", noun=noun)
        return None
    if not phrase.amounts:
        return None
    amount = phrase.amounts[0]
    zone = {
        "LOFT": "loft", "LIE": "lie", "BOUNCE": "bounce", "LENGTH": "length", "TORQUE": "torque",
        "FREQUENCY": "frequency", "TOTALMASS": "total", "TOEHANG": "toe_hang", "HEADMASS": "head.mass",
        "SHAFTWORD": "shaft.mass", "GRIPWORD": "grip", "HEADWORD": "head.mass",
    }[noun]  # fmt: skip
    if amount.unit in ("mm", "cm", "m", "in"):
        return bare(amount, phrase, draft, zone) if noun == "LENGTH" else None
    if zone == "grip":
        return [("grip.mass", _entry(amount.value, "g", phrase))]
    return _in_zone(amount, phrase, draft, zone)


def _plainly(phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    facts: Facts = []
    for token in phrase.tokens:
        if token.terminal == "LOFT":
            facts.append(change_path(draft, "loft", 0.0, phrase))
        elif token.terminal == "LIE":
            facts.append(change_path(draft, "lie", 0.0, phrase))
        elif token.terminal == "LENGTH":
            facts.append(("length_change", _entry(0.0, "in", phrase)))
        elif token.terminal == "LLL":
            facts += [("length_change", _entry(0.0, "in", phrase)), change_path(draft, "lie", 0.0, phrase)]
            if token.value == "3":
                facts.append(change_path(draft, "loft", 0.0, phrase))
        elif token.terminal not in ("STD", "AND", "COMMA", "SLASH", "EQ", "AT", "RANGE", "IN", "BY", "TURNED"):
            return None
    if facts:
        return facts
    if zone not in ("sleeve", "loft", "lie", "length") and phrase.tokens[0].lower in _AS_IT_WAS:
        return None  # "irons unchanged": the clubs are the old ones
    if zone == "sleeve":
        return _sleeve_standard(phrase)
    if zone in ("loft", "lie"):
        return [change_path(draft, zone, 0.0, phrase)]
    if zone in ("grip", "head", "bounce", "sole") or (zone == "shaft" and not draft.has("shaft.name")):
        return None
    if (
        draft.adjustable
        and zone != "length"
        and not any(draft.has(path) for path in ("shaft.name", "shaft.mass", "length"))
    ):
        return _sleeve_standard(phrase)  # "3 wood Gannet 15, std, Lindrake 70 X": said of the head, before the shaft
    return [("length_change", _entry(0.0, "in", phrase))]


def _sleeve_standard(phrase: Phrase) -> Facts:
    word = phrase.first("STD", "PLACE")
    return [
        ("sleeve.position", _entry(word.text.lower() if word else "standard", "1", phrase)),
        ("sleeve.loft_change", _entry(0.0, "deg", phrase)),
        ("sleeve.lie_change", _entry(0.0, "deg", phrase)),
    ]


def _set(phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    """What a sleeve's or a turned club's phrase says."""
    position = phrase.first("POSCODE", "SWV")
    if position is not None:
        if phrase.rule != "turned" or draft.adjustable:
            return [("sleeve.position", _entry(position.text, "1", phrase))]
        return None
    place = phrase.first("PLACE")
    if place is not None:
        if place.value == "neutral":
            return _sleeve_standard(phrase)
        return [
            ("sleeve.position", _entry(place.text, "1", phrase)),
            ("sleeve.loft_change", _entry(None, "deg", phrase)),
        ]
    if phrase.has("STD") and not phrase.amounts:
        if phrase.rule == "sleeve" or draft.adjustable:
            return _sleeve_standard(phrase)
        return _plainly(phrase, draft, zone)
    if phrase.directions:
        return change(phrase, draft, zone)
    amount = phrase.amounts[0]
    if phrase.rule == "sleeve":
        return _in_zone(amount, phrase, draft, "sleeve")
    if amount.signed or amount.unit in ("g", "cpm"):
        return bare(amount, phrase, draft, "sleeve" if draft.adjustable else zone)
    stamp = draft.value("head.loft")
    if draft.adjustable and stamp is not None and amount.value > 5 and 0 < abs(amount.value - stamp) <= 2.5:
        return [("target.loft", _entry(amount.value, "deg", phrase))]  # "the lower setting, so it plays eight"
    if phrase.has("RANGE", "AT", "EQ") and not (draft.adjustable and not draft.has("head.loft")):
        return _target(amount, phrase, draft, "")
    return bare(amount, phrase, draft, zone)


def _bent(phrase: Phrase, draft: Draft) -> Facts | None:
    if phrase.tokens[-1].terminal == "BENT":  # "60/8, 60.5 bent"
        stamp, value = draft.value("head.loft"), phrase.amounts[0].value
        near = stamp is not None and abs(stamp - value) <= 4
        return [("target.loft", _entry(value, "deg", phrase))] if near else None
    if len(phrase.amounts) == 2:
        first = _entry(phrase.amounts[0].value, "deg", phrase)
        return [("head.loft", first), ("target.loft", first._replace(value=phrase.amounts[1].value))]
    noun = phrase.first("LOFT", "LIE")
    word = noun.terminal if noun else ""
    if phrase.has("STD"):
        return [(f"bend.{word.lower() or 'loft'}", _entry(0.0, "deg", phrase))]
    facts: Facts | None
    if phrase.directions:
        facts = change(phrase, draft, "", noun=word)
    else:
        amount = phrase.amounts[0]
        if amount.signed:
            facts = [(f"bend.{word.lower() or 'loft'}", _entry(amount.value, "deg", phrase))]
        elif amount.value > 8:
            facts = _target(amount, phrase, draft, word)
        else:
            facts = [(f"bend.{word.lower() or 'loft'}", _entry(None, "deg", phrase))]
    if facts:
        renamed = {"sleeve.loft_change": "bend.loft", "sleeve.lie_change": "bend.lie"}
        facts = [(renamed.get(path, path), entry) for path, entry in facts]
    return facts


def _tendency(phrase: Phrase) -> Facts:
    word = phrase.first("ASCENDING")
    if word is not None:
        return [("shaft.ascending", _entry(word.value == "ascending", "1", phrase))]
    level = phrase.first("LEVEL")
    assert level is not None and isinstance(level.value, str)
    facts: Facts = []
    both = phrase.all("LEVEL")
    if len(both) == 2:  # "low/mid": launch, then spin
        return [(f"shaft.{what}", _entry(str(token.value), "1", phrase))
                for what, token in zip(("launch", "spin"), both, strict=True)]  # fmt: skip
    if phrase.has("LAUNCH"):
        facts.append(("shaft.launch", _entry(level.value, "1", phrase)))
    if phrase.has("SPIN"):
        facts.append(("shaft.spin", _entry(level.value, "1", phrase)))
    return facts


def _spread(phrase: Phrase) -> Facts:
    low, high = phrase.amounts[0].value, phrase.amounts[1].value
    return [("shaft.mass_range", _entry(None, "g", phrase, low=low, high=high))]


def _played(phrase: Phrase, draft: Draft) -> Facts | None:
    """ "Playing at 9¼", "measures 57": the loft it has now; a gauge's reading stands as measured."""
    facts = _target(phrase.amounts[0], phrase, draft, "")
    word = phrase.first("PLAYING")
    if facts and word is not None and word.value == "measured":
        path, entry = facts[0]
        return [("as_played.loft" if path == "target.loft" else path, entry._replace(source="measured"))]
    return facts


def _word(phrase: Phrase, draft: Draft) -> Facts | None:
    """What a phrase of words alone says: flex, neck, sole, toe hang of a face-balanced head."""
    rule = phrase.rule
    if rule == "flex":
        token = phrase.first("FLEX", "FLEXCODE")
        assert token is not None and isinstance(token.value, str)
        return [("shaft.flex", _entry(token.value, "1", phrase))]
    if rule == "neck":
        if draft.family != "putter":
            return None
        token = phrase.first("NECK")
        return [("putter.neck", _entry(str(token.value) if token else "long", "1", phrase))]
    if rule == "hang":
        return [("putter.toe_hang", _entry(0.0, "deg", phrase))] if draft.family == "putter" else None
    token = phrase.first("SOLE", "LETTER", "FLEXCODE")
    assert token is not None
    if draft.family not in ("wedge", "iron") or (draft.family == "iron" and token.terminal != "SOLE"):
        return None
    return [("head.sole", _entry(str(token.value) if token.terminal == "SOLE" else token.text, "1", phrase))]


def moved(phrase: Phrase) -> Moved:
    """The movable mass a phrase speaks of. A small bare number is a step until a heavier one beside it says grams."""
    place = phrase.first("PLACE")
    assert place is not None
    amount = phrase.amounts[0] if phrase.amounts else None
    if amount is None:
        return Moved(str(place.value), None, None, phrase.line)
    if phrase.has("CLICK") or (not amount.unit and amount.whole and amount.value <= 4):
        return Moved(str(place.value), int(amount.value), None, phrase.line)
    return Moved(str(place.value), None, amount.value, phrase.line)


def facts_of(phrase: Phrase, draft: Draft, zone: str, *, at: bool = False) -> Facts | None:
    """What this phrase says of this club, or None where it says nothing that can be taken; `at` as in `bare`."""
    rule = phrase.rule
    if rule == "bare":
        return bare(phrase.amounts[0], phrase, draft, zone, at=at)
    if rule == "change":
        return change(phrase, draft, zone)
    if rule == "labelled":
        return _labelled(phrase, draft)
    if rule == "plainly":
        return _plainly(phrase, draft, zone)
    if rule == "playing":
        return _played(phrase, draft)
    if rule in ("turned", "sleeve"):
        return _set(phrase, draft, zone)
    if rule == "bent":
        return _bent(phrase, draft)
    if rule == "tendency":
        return _tendency(phrase)
    if rule == "wraps" and phrase.amounts[0].unit:
        return None  # "4 mm of tape": no count
    if rule == "wraps":
        return [("grip.wraps", _entry(phrase.amounts[0].value, "1", phrase))]
    if rule == "swing":
        token = phrase.first("SWV")
        return [("stated.swing_weight", _entry(str(token.value), "1", phrase))] if token else None
    if rule in ("span", "dashed") and len(phrase.amounts) == 2:
        return _spread(phrase)
    if rule in ("flex", "neck", "hang", "sole"):
        return _word(phrase, draft)
    return None
