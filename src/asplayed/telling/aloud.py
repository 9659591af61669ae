"""Numbers as they are said aloud: from the printed words of a figure, so that what is read and what is heard agree."""

from __future__ import annotations

import re
from datetime import date

from asplayed.quantities import write_fraction

_ONES = (
    *("nought", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_DIGITS = ("oh", *_ONES[1:10])
_FRACTIONS = {"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
_PARTS = {2: ("half", "halves"), 4: ("quarter", "quarters"), 8: ("eighth", "eighths"), 16: ("sixteenth", "sixteenths")}
_QUARTERS = {"25": (1, 4), "5": (1, 2), "50": (1, 2), "75": (3, 4)}

# unit as printed: one, many
UNITS = {
    "°": ("degree", "degrees"),
    "in": ("inch", "inches"),
    "mm": ("millimetre", "millimetres"),
    "g": ("gram", "grams"),
    "yd": ("yard", "yards"),
    "ft": ("foot", "feet"),
    "mph": ("mile an hour", "miles an hour"),
    "rpm": ("turn a minute", "turns a minute"),
    "cpm": ("cycle a minute", "cycles a minute"),
    "s": ("second", "seconds"),
    "%": ("percent", "percent"),
}

_PRINTED = re.compile(
    r"(?P<sign>[−+±-]?)(?P<whole>\d+)?(?:\.(?P<decimals>\d+))?"
    r"(?:(?P<glyph>[¼½¾⅛⅜⅝⅞])|(?: ?(?P<top>\d{1,2})/(?P<bottom>2|4|8|16)\b))?\s*(?P<unit>\D*)"
)
_SWING_WEIGHT = re.compile(r"(?P<letter>[A-G])(?P<points>[−-]?\d+(?:\.\d+)?)")
_DAY = re.compile(r"(?:19|20)\d\d-\d\d(?:-\d\d)?")
_SIGNS = {"−": "minus ", "-": "minus ", "+": "plus ", "±": "plus or minus "}


def cardinal(number: int) -> str:
    """A whole number in words.

    >>> cardinal(57), cardinal(203), cardinal(2750)
    ('fifty-seven', 'two hundred and three', 'two thousand seven hundred and fifty')
    """
    if number < 20:
        return _ONES[number]
    if number < 100:
        tens, ones = divmod(number, 10)
        return _TENS[tens] + (f"-{_ONES[ones]}" if ones else "")
    for size, name in ((1_000_000, "million"), (1000, "thousand"), (100, "hundred")):
        if number >= size:
            many, rest = divmod(number, size)
            joined = "" if not rest else f" and {cardinal(rest)}" if rest < 100 else f" {cardinal(rest)}"
            return f"{cardinal(many)} {name}{joined}"
    raise AssertionError(number)


def aloud(printed: str) -> str:
    """A printed figure as it is said; what is no number is left as it is.

    >>> aloud("57°"), aloud("44¾ in"), aloud("9.75°"), aloud("0.5°"), aloud("−1°")
    ('fifty-seven degrees', 'forty-four and three quarter inches', 'nine and three quarter degrees', 'half a degree', \
'minus one degree')
    >>> aloud("44.49 in"), aloud("37.01 in"), aloud("D0.0")
    ('about forty-four and a half inches', 'about thirty-seven inches', 'D zero')
    >>> aloud("65 g"), aloud("D2.4"), aloud("35 13/16 in"), aloud("54.3°")
    ('sixty-five grams', 'D two point four', 'thirty-five and thirteen sixteenths inches', \
'fifty-four point three degrees')
    """
    if _DAY.fullmatch(printed):
        return date_aloud(printed)
    swing = _SWING_WEIGHT.fullmatch(printed)
    if swing:
        return f"{swing['letter']} {_decimal(swing['points'])}"
    found = _PRINTED.fullmatch(printed)
    if found is None or not any(found[name] for name in ("whole", "decimals", "glyph", "top")):
        return printed
    unit = found["unit"].strip()
    sign, whole = _SIGNS.get(found["sign"], ""), int(found["whole"] or 0)
    top_bottom = _fraction(found, unit)
    if top_bottom is None and found["decimals"] and unit == "in" and whole > 1 and not sign:
        return f"about {aloud(f'{_eighths(float(printed[: -len(unit)]))} in')}"
    if top_bottom is None and found["decimals"]:
        digits = " ".join(_DIGITS[int(digit)] for digit in found["decimals"])
        return f"{sign}{cardinal(whole)} point {digits}{_unit(unit, many=True)}"
    if top_bottom is None:
        return f"{sign}{cardinal(whole)}{_unit(unit, many=whole != 1)}"
    return sign + _with_fraction(whole, *top_bottom, unit)


# After a number, `in` is no unit where a value or a name follows: “the Turnstone 2 in 56°”, “the Gannet 5 in TX”.
_INCH = r"in\b(?! (?:\d|[A-Z]|the\b|an?\b))"
_IN_TEXT = re.compile(
    r"(?<![\w.°])[−+±-]?\d+(?:\.\d+)?(?:[¼½¾⅛⅜⅝⅞]|(?: \d{1,2})?/(?:2|4|8|16)\b)?"
    rf"(?:°| {_INCH}| (?:mm|g|yd|ft|mph|rpm|cpm)\b)"
    r"|(?<![\w.°-])(?:19|20)\d\d-\d\d(?:-\d\d)?(?![\w-])"
    r"|(?<![\w.°-])[A-G]\d\.\d+(?!\w)"
    r"|(?<![\w.°-])\d+(?:\.\d+)?(?=(?:, \d+(?:\.\d+)?)*(?: and | or )\d+(?:\.\d+)?°)"  # the 8 and 10 of “8, 10 and 14°”
)


def sentence_aloud(text: str) -> str:
    """A sentence with every figure that bears a unit as it is said.

    >>> sentence_aloud("The 6 iron is 6.5° stronger, at 37½ in.")
    'The 6 iron is six and a half degrees stronger, at thirty-seven and a half inches.'
    """
    return "".join(said for said, _ in pieces_aloud(text))


def pieces_aloud(text: str) -> list[tuple[str, str]]:
    """A sentence in pieces as they are said, each with the figure it stands for, or nothing.

    >>> pieces_aloud("It is 6.5° stronger.")
    [('It is ', ''), ('six and a half degrees', '6.5°'), (' stronger.', '')]
    """
    found, end = [], 0
    for figure in _IN_TEXT.finditer(text):
        found += [(text[end : figure.start()], ""), (aloud(figure[0]), figure[0])]
        end = figure.end()
    return [piece for piece in [*found, (text[end:], "")] if piece[0]]


_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
           "December")  # fmt: skip
_ORDINALS = {1: "first", 2: "second", 3: "third", 5: "fifth", 8: "eighth", 9: "ninth", 12: "twelfth"}


def ordinal(number: int) -> str:
    """A day of the month as it is said.

    >>> ordinal(3), ordinal(12), ordinal(20), ordinal(31)
    ('third', 'twelfth', 'twentieth', 'thirty-first')
    """
    if number in _ORDINALS:
        return _ORDINALS[number]
    tens, ones = divmod(number, 10)
    if number < 20 or not ones:
        return cardinal(number).removesuffix("y") + ("ieth" if not ones and tens > 1 else "th")
    return f"{_TENS[tens]}-{ordinal(ones)}"


def date_aloud(day: str, *, american: bool = False) -> str:
    """A date, or a month, as it is said; what is no ISO 8601 date is left as it is.

    >>> date_aloud("2025-10-20"), date_aloud("2025-10-20", american=True), date_aloud("2025-10")
    ('the twentieth of October twenty twenty-five', 'October twentieth, twenty twenty-five', \
'October twenty twenty-five')
    """
    try:
        found = date.fromisoformat(f"{day}-01" if len(day) == len("2025-10") else day)
    except ValueError:
        return day
    if len(day) == len("2025-10"):
        return f"{_MONTHS[found.month - 1]} {year_aloud(found.year)}"
    month, said = _MONTHS[found.month - 1], year_aloud(found.year)
    return f"{month} {ordinal(found.day)}, {said}" if american else f"the {ordinal(found.day)} of {month} {said}"


def year_aloud(year: int) -> str:
    """A year as it is said.

    >>> year_aloud(2026), year_aloud(2004), year_aloud(1900)
    ('twenty twenty-six', 'two thousand and four', 'nineteen hundred')
    """
    century, rest = divmod(year, 100)
    if 2000 <= year < 2010 or not 1100 <= year < 2100:
        return cardinal(year)
    return f"{cardinal(century)} {'hundred' if not rest else cardinal(rest) if rest > 9 else f'oh {cardinal(rest)}'}"


def _eighths(inches: float) -> str:
    """Inches to the nearest eighth as a shop fraction: nobody hears hundredths, nor builds to them."""
    return write_fraction(round(inches * 8) / 8)


def _fraction(found: re.Match[str], unit: str) -> tuple[int, int] | None:
    if found["glyph"]:
        return _FRACTIONS[found["glyph"]]
    if found["top"]:
        return int(found["top"]), int(found["bottom"])
    return _QUARTERS.get(found["decimals"] or "") if unit in {"°", "in"} else None


def _with_fraction(whole: int, top: int, bottom: int, unit: str) -> str:
    """Quarters and their like: `three quarter inches`, but `thirteen sixteenths inches`."""
    one, many = _PARTS[bottom]
    part = one if top == 1 else many
    if whole == 0:
        name = UNITS.get(unit, (unit, unit))[0]
        article = "an" if name.startswith("i") else "a"
        said = "half" if bottom == 2 else f"{'a' if top == 1 else cardinal(top)} {part} of"
        return f"{said} {article} {name}" if name else said.removesuffix(" of")
    count = "a" if top == 1 else cardinal(top)
    return f"{cardinal(whole)} and {count} {one if bottom <= 4 else part}{_unit(unit, many=True)}"


def _unit(unit: str, *, many: bool) -> str:
    if not unit:
        return ""
    one, several = UNITS.get(unit, (unit, unit))
    return f" {several if many else one}"


def _decimal(text: str) -> str:
    """A swing weight's points in words, as the trade says them: `D zero`, and no idle nought behind the point."""
    sign = "minus " if text[0] in "−-" else ""
    whole, _, decimals = text.lstrip("−-").partition(".")
    digits = " ".join(_DIGITS[int(digit)] for digit in decimals.rstrip("0"))
    return f"{sign}{cardinal(int(whole)) if int(whole) else 'zero'}" + (f" point {digits}" if digits else "")
