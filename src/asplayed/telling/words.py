"""Figures and records as words: values with their units, bands, sources and trade names, ready for a reader."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.quantities import Figure, Source, convert, write_fraction, write_quantity

MISSING = "—"
_LONGEST_TEXT = 24  # of a figure that is a text, such as a swing weight


class Measure(NamedTuple):
    """One figure of a club as played: its field in the record, its heading in a table, the unit the heading names."""

    key: str
    heading: str
    unit: str = ""


# The figures of a club as played in the order a practitioner reads them off.
MEASURES = (
    Measure("loft", "Loft"),
    Measure("lie", "Lie"),
    Measure("face", "Face"),
    Measure("bounce", "Bounce"),
    Measure("length", "Length"),
    Measure("mass", "Mass, g", "g"),
    Measure("swing_weight", "Swing weight"),
    Measure("butt_inertia", "Butt inertia, kg·cm²", "kg*cm2"),
    Measure("frequency", "Frequency, cpm", "cpm"),
)

UNIT_WORDS = {"deg": "°", "kg*cm2": "kg·cm²", "g*cm2": "g·cm²", "in*oz": "in·oz", "N*m2": "N·m²", "N*m": "N·m",
              "kg/m3": "kg/m³", "mm2": "mm²", "in2": "in²", "cm3": "cm³", "percent": "%", "1": ""}  # fmt: skip

_PLACES = {"deg": 1, "in": 2, "mm": 0, "g": 0, "kg*cm2": 0, "cpm": 0, "percent": 1, "in*oz": 1}

SOURCES: dict[Source, str] = {
    Source.MEASURED: "gauged on this very club",
    Source.STATED: "said by whoever brought the list",
    Source.PUBLISHED: "from the maker’s specification",
    Source.COMPUTED: "worked out from other figures",
    Source.COMMON_PRACTICE: "the trade’s usual figure",
    Source.ASSUMED: "a guess, to be confirmed",
}

LEVELS = {
    "breach": "Breach of a rule",
    "flaw": "Flaw",
    "unusual": "Unusual",
    "note": "Worth knowing",
}


def clean(text: str) -> str:
    """`text` without the control characters and broken code points that no page may hold.

    >>> clean("a\\x00b\\ud800c\\td")
    'ab�c d'
    """
    if text.isprintable():  # nearly all text is, and it has none of them
        return text
    kept = []
    for character in text:
        category = unicodedata.category(character)
        if category == "Cs":
            kept.append("\ufffd")
        elif category == "Cc":
            kept.append(" " if character in "\t\n\r" else "")
        elif ord(character) & 0xFFFE == 0xFFFE:
            kept.append("\ufffd")
        else:
            kept.append(character)
    return "".join(kept)


# Marks that turn the direction of all that follows, beyond the words they came with.
_TURNING = dict.fromkeys(map(ord, "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"))


def contained(text: str) -> str:
    """`text` cleaned, and without the marks by which it would turn the words around it where nothing sets it apart.

    >>> contained("\u202eAda")
    'Ada'
    """
    return clean(text).translate(_TURNING)


def shorten(text: str, limit: int) -> str:
    """`text` within `limit` characters; what was cut is shown by an ellipsis.

    >>> shorten("pitching wedge", 9)
    'pitching…'
    """
    return text if len(text) <= limit else text[: limit - 1].rstrip() + "…"


def listed(words: Sequence[str]) -> str:
    """Words as a list in a sentence.

    >>> listed(["driver", "3 wood", "putter"])
    'driver, 3 wood and putter'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def counted(count: int, one: str, many: str | None = None) -> str:
    """A count with its noun.

    >>> counted(1, "club"), counted(14, "club")
    ('1 club', '14 clubs')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def _tidy(value: float, unit: str, places: int) -> str:
    """A number without its unit; quarters of a degree keep both their decimals."""
    if unit == "deg" and places < 2 and abs(value * 4 - round(value * 4)) < 0.02:
        places = 2
    return write_quantity(value, "1", places=places)


def number_text(value: float, unit: str, *, computed: bool) -> str:
    """A value as its digits: a given figure as it was given, a computed one to its usual last place.

    >>> number_text(-0.75, "deg", computed=False), number_text(56.5243, "deg", computed=True)
    ('−0.75', '56.5')
    """
    small = (unit == "mm" and abs(value) < 100) or (unit == "g" and abs(value) < 20)
    return _tidy(value, unit, _PLACES.get(unit, 2) + small if computed else 3)


def with_unit(digits: str, unit: str) -> str:
    """Digits with the unit as a reader expects it.

    >>> with_unit("56", "deg"), with_unit("2750", "kg*cm2"), with_unit("44.75", "in")
    ('56°', '2750 kg·cm²', '44.75 in')
    """
    word = UNIT_WORDS.get(unit, unit)
    return f"{digits}{word}" if word in {"", "°"} else f"{digits} {word}"


def value_text(figure: Figure | None) -> str:
    """A figure's value with its unit, inches as a fraction where they are one; a missing value as a dash.

    >>> from asplayed.quantities import figure
    >>> value_text(figure(44.75, "in", "stated")), value_text(figure(1130, "mm", "stated")), value_text(None)
    ('44¾ in', '1130 mm', '—')
    """
    if figure is None or figure.value is None:
        return MISSING
    if isinstance(figure.value, str):
        return _swing_weight(figure.value) if figure.source is Source.COMPUTED else _short(figure.value)
    if figure.unit == "in":
        return f"{inches(figure.number)} in"
    return with_unit(number_text(figure.number, figure.unit, computed=figure.source is Source.COMPUTED), figure.unit)


def _short(text: str) -> str:
    return shorten(clean(text), _LONGEST_TEXT)


def _swing_weight(text: str) -> str:
    """A computed swing weight to a tenth of a point, which is more than a scale reads.

    >>> _swing_weight("C7.58"), _swing_weight("C9.97"), _swing_weight("D2")
    ('C7.6', 'D0.0', 'D2')
    """
    from asplayed.mechanics.balance import swing_weight_points_of, swing_weight_text

    if len(text.partition(".")[2]) < 2:
        return _short(text)
    try:
        return swing_weight_text(swing_weight_points_of(text), 1).replace("-", "−")
    except ValueError:
        return _short(text)


def inches(value: float) -> str:
    """Inches as a shop fraction where the value is one (to 1/16), else with two decimals, small ones with three.

    >>> inches(44.75), inches(35.8125), inches(44.4882), inches(0.9312)
    ('44¾', '35 13/16', '44.49', '0.931')
    """
    if abs(value * 16 - round(value * 16)) < 0.02 and (round(value * 16) or value == 0):
        return write_fraction(value)
    return write_quantity(value, "1", places=3 if abs(value) < 2 else 2)


def millimetres(figure: Figure) -> str:
    """A length in whole millimetres.

    >>> from asplayed.quantities import figure
    >>> millimetres(figure(44.75, "in", "stated"))
    '1137 mm'
    """
    return with_unit(_tidy(convert(figure.number, figure.unit, "mm"), "mm", 0), "mm")


def _swing_weight_band(figure: Figure) -> str:
    """A swing weight's band as the scale reads it, from its own ends or from the points it was written down from."""
    from asplayed.mechanics.balance import swing_weight_text

    points = [figure, *(parent.figure for parent in figure.parents if parent.name == "points")][-1]
    if points.low is None or points.high is None:
        return ""
    return f"{swing_weight_text(points.low, 1)} to {swing_weight_text(points.high, 1)}".replace("-", "−")


def band_text(figure: Figure | None) -> str:
    """A figure's band: ± where both sides are alike, else from … to …; nothing where no band is known.

    >>> from asplayed.quantities import figure
    >>> band_text(figure(56, "deg", "stated", tolerance=1)), band_text(figure(37, "in", "stated", tolerance=1 / 16))
    ('±1°', '±1/16 in')
    """
    if figure is not None and isinstance(figure.value, str):
        return _swing_weight_band(figure)
    if figure is None or figure.low is None or figure.high is None:
        return ""
    unit = figure.unit
    if figure.has_number:
        below, above = figure.number - figure.low, figure.high - figure.number
        wider = max(below, above)
        if abs(below - above) <= 0.1 * wider:
            return f"±{with_unit(_width(wider, unit), unit)}" if wider > 0 else ""
    low, high = (
        inches(end) if unit == "in" else number_text(end, unit, computed=figure.high - figure.low > 1)
        for end in (figure.low, figure.high)
    )
    return with_unit(f"{low} to {high}", unit)


def _width(wide: float, unit: str) -> str:
    """Half a band as digits: a shop fraction of an inch, else two digits that count."""
    if unit == "in" and inches(wide) == write_fraction(wide):
        return inches(wide)
    places = 0 if wide >= 10 else 1 if wide >= 1 else 2 if wide >= 0.1 else 3
    return _tidy(wide, unit, places)


def signed(figure: Figure, below: str, above: str) -> str:
    """A change in words: which way by its sign, how much by its size.

    >>> from asplayed.quantities import figure
    >>> signed(figure(-1, "deg", "stated"), "strong", "weak")
    '1° strong'
    """
    way = above if figure.number > 0 else below
    return f"{value_text(_size(figure))} {way}"


def _size(figure: Figure) -> Figure:
    return Figure(value=abs(figure.number), unit=figure.unit, source=figure.source)


def changed(figure: Figure | None) -> bool:
    """True for a figure that says something was changed: a number other than nought."""
    return figure is not None and figure.has_number and figure.number != 0


def settings(club: Club) -> list[str]:
    """What is set or altered on a club, one phrase each, in the order head to grip.

    >>> from asplayed.clubs import Bend
    >>> from asplayed.quantities import figure
    >>> settings(Club(club="lob wedge", kind="wedge", bend=Bend(loft=figure(1, "deg", "stated"))))
    ['bent 1° weak']
    """
    phrases: list[str] = []
    if club.sleeve is not None:
        phrases.append(f"sleeve {club.sleeve.position}" if club.sleeve.position else "sleeve turned")
        effects = [
            signed(change, *ways)
            for change, ways in (
                (club.sleeve.loft_change, ("strong", "weak")),
                (club.sleeve.lie_change, ("flat", "upright")),
            )
            if change is not None and changed(change)
        ]
        if effects:
            phrases[-1] += f": {listed(effects)}"
    for weight in club.weights:
        words = [value_text(weight.mass)] if weight.mass is not None and weight.mass.value is not None else ["weight"]
        if weight.place:
            words.append(f"at {weight.place}" if weight.place in {"toe", "heel", "front", "back"} else weight.place)
        if weight.step is not None:
            words.append(f"step {weight.step}")
        phrases.append(" ".join(words))
    for bend, ways in ((club.bend.loft, ("strong", "weak")), (club.bend.lie, ("flat", "upright"))):
        if bend is not None and changed(bend):
            phrases.append(f"bent {signed(bend, *ways)}")
    if club.length_change is not None and changed(club.length_change):
        phrases.append(f"built {signed(club.length_change, 'short', 'long')}")
    if club.putter is not None and club.putter.neck:
        phrases.append(f"{club.putter.neck} neck")
    if club.grip is not None and club.grip.wraps:
        phrases.append(f"{counted(int(club.grip.wraps), 'extra wrap')}" if club.grip.wraps == int(club.grip.wraps)
                       else f"{club.grip.wraps:g} extra wraps")  # fmt: skip
    return phrases


def part_name(part: object) -> str:
    """A part's maker and model where the catalogue settled them, else the user's own words."""
    settled = [word for word in (getattr(part, "maker", None), getattr(part, "model", None)) if word]
    return " ".join(settled) or getattr(part, "name", None) or ""


def title(golf_set: GolfSet) -> str:
    """What a sheet is headed: the set's title, else whose it is.

    >>> from asplayed.clubs import SetFacts
    >>> title(GolfSet(set=SetFacts(player="Ada Brandt"))), title(GolfSet())
    ('The set of Ada Brandt', 'A set of clubs')
    """
    if golf_set.set.title:
        return golf_set.set.title
    return f"The set of {golf_set.set.player}" if golf_set.set.player else "A set of clubs"


def trade_name(about: str) -> str:
    """The path of a field in the trade's words.

    >>> trade_name("shaft.flex"), trade_name("bend.loft")
    ('shaft flex', 'bend loft')
    """
    return about.replace(".", " ").replace("_", " ")
