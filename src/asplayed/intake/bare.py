"""What a number without a noun is of a club: by its unit, the part being spoken of and the trade's usual ranges."""

from __future__ import annotations

from typing import Any

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.own_tables import own_table
from asplayed.intake.phrases import Amount, Phrase, flex_number, stamp_fits, wedge_loft
from asplayed.quantities import convert

Facts = list[tuple[str, Entry]]


def limits() -> dict[str, Any]:
    """The table of possible and usual figures (`data/limits.toml`)."""
    return own_table("limits")


WOOD_LOFTS = {  # the lofts a wood of a number has (common practice, widened)
    "2": (11.5, 14.5), "3": (12.5, 16.9), "4": (15.5, 18.0), "5": (17.0, 20.0), "7": (20.0, 23.0), "9": (23.0, 26.5),
}  # fmt: skip


def loft_of_family(terminal: str, value: float) -> bool:
    """True when the number can be the loft of a club of this word."""
    family = {"WOOD": "wood", "HYBRID": "hybrid", "DIRON": "diron"}.get(terminal, "driver")
    return _within(value, "loft", family)


def entry_of(value: float | str | bool | None, unit: str, phrase: Phrase, **more: Any) -> Entry:
    text = " ".join(token.text for token in phrase.tokens)
    return Entry(value, unit, phrase.line, text, **more)


def length_of(amount: Amount, phrase: Phrase) -> Entry:
    if amount.unit in ("mm", "cm", "m"):
        value = convert(amount.value, amount.unit, "in")
        return entry_of(round(value, 4), "in", phrase, why=f"{amount.token.text} {amount.unit} as written")
    return entry_of(amount.value, "in", phrase)


def _within(value: float, figure: str, family: str) -> bool:
    low, high = limits()["bare"][figure][family]
    return bool(low <= value <= high)


def loft_fits(value: float, draft: Draft) -> bool:
    if draft.name == "pitching wedge" and draft.family == "iron" and value > 58:
        return False  # a lie, in the column of the irons' lies
    usual = limits()["bare"]["iron_loft"]
    if draft.family == "iron" and str(draft.number) in usual:
        return bool(abs(value - usual[str(draft.number)]) <= 5.5)
    return _within(value, "loft", draft.family)


def length_fits(value: float, draft: Draft) -> bool:
    if draft.family == "iron" and draft.number:
        usual = 40.5 - draft.number / 2
        return abs(value - usual) <= 2.0
    return _within(value, "length", draft.family)


def bare(amount: Amount, phrase: Phrase, draft: Draft, zone: str, *, at: bool = False) -> Facts | None:
    """What a number without a noun says of this club, by its unit, the part being spoken of and the usual ranges.

    `at` is true behind the word "at", where a club's length stands when its shaft is told.
    """
    value, unit = amount.value, amount.unit
    if unit in ("in", "mm", "cm", "m"):
        length = length_of(amount, phrase)
        assert isinstance(length.value, float)
        if amount.signed or abs(length.value) <= 3:
            return [("length_change", length)]
        return [("length", length)]
    if unit == "g":
        return _grams(value, phrase, draft, zone)
    if unit == "cpm":
        return [("stated.frequency", entry_of(value, "cpm", phrase))]
    if unit == "deg":
        return _degrees(amount, phrase, draft, zone)
    if zone.startswith("shaft") and flex_number(amount.token) and not draft.has("shaft.flex"):
        return [("shaft.flex", entry_of(flex_number(amount.token), "1", phrase))]
    told = draft.has("shaft.name") and not draft.has("length") and length_fits(value, draft)
    if at and told and not amount.signed and zone.startswith("shaft"):
        return [("length", entry_of(value, "in", phrase))]  # "lindrake blue 6s at 45"
    zoned = in_zone(amount, phrase, draft, zone)
    if zoned is not None:
        return zoned
    if amount.signed:
        fraction = "/" in amount.token.text or any(mark in amount.token.text for mark in "⅛¼⅜½⅝¾⅞")
        quarters = value * 8 == int(value * 8) and value != int(value)
        if (fraction or quarters) and not draft.adjustable and abs(value) <= 2:
            return [("length_change", entry_of(value, "in", phrase))]
        if draft.adjustable and abs(value) <= 3 and not draft.has("sleeve.loft_change"):
            return [("sleeve.loft_change", entry_of(value, "deg", phrase))]
        return None
    return _by_range(amount, phrase, draft, zone)


def _grams(value: float, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    if zone == "grip":
        return [("grip.mass", entry_of(value, "g", phrase))]
    if zone in ("head", "head.mass"):
        return [("head.mass", entry_of(value, "g", phrase))] if value >= 150 else None
    if zone == "total":
        return [("stated.mass", entry_of(value, "g", phrase))]
    if draft.family == "putter" and value >= 300:
        return [("head.mass", entry_of(value, "g", phrase))] if value < 430 else None
    if value >= 185:
        if value >= limits()["bare"]["total"].get(draft.family, 999):
            return [("stated.mass", entry_of(value, "g", phrase))] if value < 520 else None
        return [("head.mass", entry_of(value, "g", phrase))] if value < 320 and zone != "shaft" else None
    if 35 <= value <= 160:
        if zone == "shaft.mass" or _massless(draft):
            return [("shaft.mass", entry_of(value, "g", phrase))]
        if 40 <= value <= 75 and draft.has("grip.name"):
            return [("grip.mass", entry_of(value, "g", phrase))]
        return [("shaft.mass", entry_of(value, "g", phrase))]
    return None


def _degrees(amount: Amount, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    value = amount.value
    if zone == "torque" or (zone == "shaft" and 1 <= value <= 8 and draft.has("head.loft") and not amount.signed):
        return [("shaft.torque", entry_of(value, "deg", phrase))]
    if zone in ("lie", "toe_hang", "bounce", "loft", "sleeve", "bend", "target"):
        found = in_zone(amount, phrase, draft, zone)
        if found is not None:
            return found
    if amount.signed:
        if draft.adjustable:
            return [("sleeve.loft_change", entry_of(value, "deg", phrase))]
        return None
    if draft.family == "putter":
        if value >= 62:
            return [("as_played.lie", entry_of(value, "deg", phrase))]
        if value <= 6:
            return [("head.loft", entry_of(value, "deg", phrase))]
        return [("putter.toe_hang", entry_of(value, "deg", phrase))] if value >= 8 else None
    if draft.family == "wedge" and 0 < value <= 18:
        return [("head.bounce", entry_of(value, "deg", phrase))]
    if loft_fits(value, draft) or (draft.family == "wedge" and not draft.has("head.loft") and 40 <= value <= 66):
        if draft.has("head.loft") and draft.family in ("iron", "wedge") and 58 <= value <= 67:
            return [("as_played.lie", entry_of(value, "deg", phrase))]
        return [("head.loft", entry_of(value, "deg", phrase))]
    if 53 <= value <= 68:
        return [("as_played.lie", entry_of(value, "deg", phrase))]
    if draft.family == "iron" and 15 <= value <= 56:
        return [("head.loft", entry_of(value, "deg", phrase))]
    if value > 90 or (draft.adjustable and value < 45 and not draft.has("head.loft")):
        return [("head.loft", entry_of(value, "deg", phrase))]
    return None


def in_zone(amount: Amount, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    value = amount.value
    if zone == "loft":
        return (
            [change_path(draft, "loft", value, phrase)]
            if amount.signed
            else [("head.loft", entry_of(value, "deg", phrase))]
        )
    if zone == "bend" and value == 0:
        return [("bend.loft", entry_of(0.0, "deg", phrase))]
    if zone == "target" and (amount.signed or abs(value) <= 8):
        return [change_path(draft, "loft", value, phrase)]
    if zone == "target":
        return [("target.loft", entry_of(value, "deg", phrase))]
    if zone == "lie":
        if amount.signed or value <= 8:
            return [change_path(draft, "lie", value, phrase)]
        return [("as_played.lie", entry_of(value, "deg", phrase))]
    if zone == "bounce":
        return [("head.bounce", entry_of(value, "deg", phrase))]
    if zone == "length":
        if amount.signed or value <= 3:
            return [("length_change", entry_of(value, "in", phrase))]
        if value < 15 and amount.whole:
            return None  # "Lengths 5 38, 6 37.5": a club's number
        if value > 700:
            return [("length", length_of(Amount(amount.token, "mm"), phrase))]
        return [("length", entry_of(value, "in", phrase))]
    if zone == "toe_hang":
        return [("putter.toe_hang", entry_of(value, "deg", phrase))]
    if zone == "torque":
        return [("shaft.torque", entry_of(value, "deg", phrase))]
    if zone == "frequency":
        return [("stated.frequency", entry_of(value, "cpm", phrase))]
    if zone == "total":
        return [("stated.mass", entry_of(value, "g", phrase))]
    if zone == "wraps" or (zone == "grip" and amount.whole and (amount.signed or value <= 5)):
        return [("grip.wraps", entry_of(value, "1", phrase))]
    if zone == "grip" and 20 <= value <= 130:
        return [("grip.mass", entry_of(value, "g", phrase))]
    if zone == "sleeve":
        if amount.signed:
            return [("sleeve.loft_change", entry_of(value, "deg", phrase))]
        if loft_fits(value, draft) and value > 5:
            return [("target.loft", entry_of(value, "deg", phrase))]
        return [("sleeve.loft_change", entry_of(0.0, "deg", phrase))] if value == 0 else None
    if zone in ("shaft.mass", "grip.mass"):
        return [(zone, entry_of(value, "g", phrase))]
    if zone == "head.mass":
        return [("head.mass", entry_of(value, "g", phrase))]
    massive = not amount.signed and _within(value, "mass", draft.family) and _massless(draft)
    light = draft.family == "iron" and 40 <= value < 50 and draft.has("shaft.name") and not draft.has("shaft.flex")
    if zone == "shaft" and light and amount.whole and not amount.signed and _massless(draft):
        return [("shaft.mass", entry_of(value, "g", phrase))]
    if zone == "shaft" and massive and (amount.whole or not length_fits(value, draft)):
        return [("shaft.mass", entry_of(value, "g", phrase))]
    return None


def _by_range(amount: Amount, phrase: Phrase, draft: Draft, zone: str) -> Facts | None:
    value = amount.value
    loft_free = not draft.has("head.loft")
    loft = loft_fits(value, draft)
    length = length_fits(value, draft)
    if zone == "head" and loft_free and loft and draft.family == "iron":
        return [("head.loft", entry_of(value, "deg", phrase))]  # "Hornbeam 37" in a table's column of heads
    shorter = 780 if draft.family in ("wedge", "putter") else 900
    if shorter < value < 1400:
        return [("length", length_of(Amount(amount.token, "mm"), phrase))]
    if length and ("/" in amount.token.text or any(c in amount.token.text for c in "⅛¼⅜⅝¾⅞")):
        return [("length", entry_of(value, "in", phrase))]
    if loft and length and draft.family == "iron":
        modelled = draft.has("head.name") and not draft.has("shaft.name")
        if loft_free and (not draft.facts or draft.has("length") or modelled):
            return [("head.loft", entry_of(value, "deg", phrase))]
        if loft_free and draft.has("shaft.name") and draft.has("shaft.flex") and not draft.has("length"):
            return [("length", entry_of(value, "in", phrase))]  # a loft stands before the shaft
        return [("length", entry_of(value, "in", phrase))] if not loft_free and not draft.has("length") else None
    if draft.family == "wedge":
        if draft.name == "chipper" and loft_free and 36 <= value <= 50:
            return [("head.loft", entry_of(value, "deg", phrase))]
        if loft_free and wedge_loft(value) and stamp_fits(draft.name, value):
            return [("head.loft", entry_of(value, "deg", phrase))]
        if length and not draft.has("length"):
            return [("length", entry_of(value, "in", phrase))]
        if 3 <= value <= 18 and amount.whole and draft.has("head.loft") and not draft.has("head.bounce"):
            return [("head.bounce", entry_of(value, "deg", phrase))]
        if value >= 70 and _within(value, "mass", "wedge") and _massless(draft):
            return [("shaft.mass", entry_of(value, "g", phrase))]
        if 28 <= value < 50 and loft_free:
            return [("head.loft", entry_of(value, "deg", phrase))]
        return None
    known = draft.value("head.loft")
    if loft and known is not None and known + 4 < value >= 30 and not draft.has("length"):
        return [("length", entry_of(value, "in", phrase))]  # a child's hybrid, "26 degrees, which is 34 and a half"
    if loft and (loft_free or not length):
        return [("head.loft", entry_of(value, "deg", phrase))]
    if length:
        return [("length", entry_of(value, "in", phrase))]
    if draft.family == "putter":
        if 62 <= value <= 80:
            return [("as_played.lie", entry_of(value, "deg", phrase))]
        return [("head.mass", entry_of(value, "g", phrase))] if 300 <= value <= 420 else None
    if _within(value, "mass", draft.family) and amount.whole and _massless(draft):
        if 56 <= value <= 65 and not draft.has("shaft.name") and zone != "shaft" and draft.family in ("iron", "diron"):
            return None
        return [("shaft.mass", entry_of(value, "g", phrase))]
    return None


def _massless(draft: Draft) -> bool:
    """True where a shaft's mass can be taken: none is known, or one that was said of a larger group."""
    return draft.narrowed or not draft.has("shaft.mass")


def change_path(
    draft: Draft, what: str, value: float | None, phrase: Phrase, zone: str = "", **more: Any
) -> tuple[str, Entry]:
    """A change of loft or lie: by the sleeve where the club has one, else by bending ("7 wood 21, lie 1 up")."""
    path = f"sleeve.{what}_change" if _by_sleeve(draft, what, phrase, zone) else f"bend.{what}"
    return path, entry_of(value, "deg", phrase, **more)


def _by_sleeve(draft: Draft, what: str, phrase: Phrase, zone: str) -> bool:
    """True for a club with a sleeve; of a lie only where the sleeve is spoken of, as fairway woods are bent too."""
    if what == "loft" or draft.family not in ("wood", "hybrid"):
        return draft.adjustable
    told = zone == "sleeve" or phrase.has("SLEEVE", "TURNED", "CLICK")
    return told or any(draft.has(f"sleeve.{path}") for path in ("position", "loft_change", "lie_change"))
