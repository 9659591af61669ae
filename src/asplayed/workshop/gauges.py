"""What gauges read: a table of measures, or plain lines such as a scale or a clamp sends, one reading a line.

A line names its club (or a line before it did), the figure where the unit leaves that open, a number and a unit:
`7 iron loft 33.5 deg`, `7i 437.2 g`, `sand wedge frequency 331 cpm clamp 5 in`. Several readings of one figure count as
repeats: their mean stands, and their scatter tells how well the gauge repeats.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Sequence
from statistics import fmean, stdev
from typing import NamedTuple

from asplayed.catalogue.tables import read_table
from asplayed.clubs import Club
from asplayed.clubs.names import club_meant, labels
from asplayed.errors import BadInput, Refused
from asplayed.mechanics.balance import swing_weight_points_of, swing_weight_text
from asplayed.quantities import Figure, Source, find_unit, read_quantity
from asplayed.workshop.records import Bench, Reading


class Gauge(NamedTuple):
    """One kind of figure: its unit, what it can be in that unit, and the spellings of its name."""

    unit: str
    low: float
    high: float
    names: tuple[str, ...]


# What a club can measure at all; a figure outside was read wrongly or in another unit.
MEASURES: dict[str, Gauge] = {
    "loft": Gauge("deg", -5, 80, ("loft",)),
    "lie": Gauge("deg", 40, 85, ("lie",)),
    "bounce": Gauge("deg", -10, 30, ("bounce",)),
    "length": Gauge("in", 18, 60, ("length",)),
    "mass": Gauge("g", 150, 900, ("mass", "weight", "total mass", "total weight")),
    "swing_weight": Gauge("1", -20, 70, ("swing weight", "swingweight", "balance scale")),
    "balance_point": Gauge("in", 10, 55, ("balance", "balance point")),
    "butt_inertia": Gauge("kg*cm2", 1000, 6000, ("inertia", "butt inertia")),
    "frequency": Gauge("cpm", 100, 500, ("frequency",)),
    "clamp": Gauge("in", 1, 12, ("clamp", "clamp length")),
    "grip_size": Gauge("in", 0.5, 1.75, ("grip size", "grip", "grip diameter")),
}
PARTS: dict[str, Gauge] = {
    "head_mass": Gauge("g", 100, 600, ("head mass", "head weight", "head")),
    "raw_length": Gauge("in", 20, 60, ("raw length", "shaft length")),
    "raw_mass": Gauge("g", 25, 200, ("raw mass", "shaft mass", "shaft weight")),
    "bore_depth": Gauge("in", 0.25, 4, ("bore depth",)),
    "bore_to_sole": Gauge("in", 0, 5, ("bore to sole", "bottom of bore to sole", "bottom of bore to ground")),
    "cap": Gauge("in", 0, 1, ("cap",)),
    "tip": Gauge("in", 0.3, 0.5, ("tip",)),
    "bore": Gauge("in", 0.3, 0.5, ("bore",)),
    "butt": Gauge("in", 0.5, 0.75, ("butt",)),
    "core": Gauge("in", 0.5, 0.75, ("core",)),
    "frequency": Gauge("cpm", 100, 500, ("frequency",)),
    "clamp": Gauge("in", 1, 12, ("clamp",)),
    "bends": Gauge("1", 0, 50, ("bends",)),
}


# -------------------------------------------------------------------------------------------------- one figure as text


def figure_of(name: str, text: str, table: dict[str, Gauge], unit: str = "") -> Figure:
    """A reading as written, in the unit it carries, else in `unit`, else in the figure's own.

    >>> figure_of("length", "940 mm", MEASURES).number, figure_of("swing_weight", "D2.5", MEASURES).value
    (37.00787401574804, 'D2.5')
    """
    gauge = table[name]
    if name == "swing_weight" and re.match(r"\s*[A-Za-z]", text):
        points = swing_weight_points_of(text)
        if not gauge.low <= points <= gauge.high:
            raise BadInput(f"a swing weight of {text.strip()} cannot be; scales read from A0 to G10, such as D2")
        return Figure(value=swing_weight_text(points, 2).rstrip("0").rstrip("."), unit="1", source=Source.MEASURED)
    quantity = read_quantity(text)
    written = quantity.unit or unit or gauge.unit
    if _dimension(written) != _dimension(gauge.unit):
        raise BadInput(
            f"{text.strip()!r} is no {_said(name)}: {written} is another kind of unit; give it in {gauge.unit}"
        )
    read = Figure(value=float(quantity.value), unit=written, source=Source.MEASURED).in_unit(gauge.unit)
    if not gauge.low <= read.number <= gauge.high:
        raise BadInput(
            f"a {_said(name)} of {text.strip()} ({read.number:g} {gauge.unit}) cannot be; it lies from {gauge.low:g} "
            f"to {gauge.high:g} {gauge.unit}: name the unit if it is another"
        )
    if name == "swing_weight":
        return Figure(value=swing_weight_text(read.number, 2), unit="1", source=Source.MEASURED)
    return read


def _dimension(unit: str) -> str:
    known = find_unit(unit)
    return known.dimension if known else ""


def _said(name: str) -> str:
    return name.replace("_", " ")


def _named(word: str, table: dict[str, Gauge]) -> str | None:
    plain = " ".join(word.casefold().replace("_", " ").split())
    return next((name for name, gauge in table.items() if plain in gauge.names), None)


# ------------------------------------------------------------------------------------------------------------- tables


class _Cell(NamedTuple):
    club: str
    name: str
    figure: Figure
    where: str


def _rows(data: bytes, called: str, clubs: Sequence[Club], kinds: dict[str, Gauge]) -> list[list[_Cell]]:
    table = read_table(data, called)
    columns = [" ".join(name.casefold().split()) for name in table.columns]
    if "club" not in columns:
        known = ", ".join(_said(name) for name in kinds)
        raise BadInput(f"{called} has no column club; its first row should name the columns: club, {known}")
    at_club = columns.index("club")
    names = labels(clubs)
    found: list[list[_Cell]] = []
    faults = []
    for row in table.rows:
        cells = dict(enumerate(row.cells))
        written = cells.get(at_club, "").strip()
        if not any(cell.strip() for cell in row.cells):
            continue
        where = f"{called}, line {row.line}"
        places = club_meant(written, clubs)
        if len(places) != 1:
            faults.append(f"line {row.line}: {_which(written, places, names)}")
            continue
        mine = []
        for place, column in enumerate(columns):
            name = _named(column, kinds)
            text = cells.get(place, "").strip()
            if name is None or not text or text in ("-", "–", "—"):
                continue
            try:
                mine.append(_Cell(names[places[0]], name, figure_of(name, text, kinds, table.units[place]), where))
            except BadInput as fault:
                faults.append(f"line {row.line}, column {column}: {fault}")
        found.append(mine)
    if faults:
        raise Refused(f"{called} cannot be used", faults)
    if not any(found):
        raise BadInput(f"{called} holds no measure; give a row for each club below the names of the columns")
    return found


def _which(written: str, places: Sequence[int], names: Sequence[str]) -> str:
    if not written:
        return "no club is named"
    if places:
        return f"{written!r} may be {' or '.join(names[place] for place in places)}; name one of them"
    return f"there is no {written[:60]!r} in this set; its clubs are {', '.join(names)}"


def read_bench(data: bytes, called: str, clubs: Sequence[Club]) -> tuple[Bench, ...]:
    """What a table says was measured of the parts, one row a club; several rows of a club are several heads at hand.

    >>> bag = [Club(club="7 iron", kind="iron")]
    >>> [row] = read_bench(b"club,head mass [g],bends\\n7 iron,268.4,1\\n", "bench.csv", bag)
    >>> row.head_mass.value, row.bends
    (268.4, 1)
    """
    rows = []
    for cells in _rows(data, called, clubs, PARTS):
        if not cells:
            continue
        figures: dict[str, Figure] = {cell.name: cell.figure for cell in cells if cell.name != "bends"}
        bends = next((int(cell.figure.number) for cell in cells if cell.name == "bends"), None)
        rows.append(Bench(club=cells[0].club, bends=bends, **figures))
    return tuple(rows)


# -------------------------------------------------------------------------------------------------------------- lines

_LINE = re.compile(
    r"^(?P<words>.*?)[\s:,=]*(?P<number>[+-]?\s*(?:\d+(?:\s+\d+/\d+|[¼½¾⅛⅜⅝⅞])?(?:[.,]\d+)?|\d+/\d+|[¼½¾⅛⅜⅝⅞]))\s*"
    r"(?P<unit>[a-zA-Z°\"″*·²/0-9]*)\s*$"
)
_LONGEST = 120  # characters of a line; the patterns here take long over long lines
_STATUS = {"st", "gs", "nt", "net", "gross", "stable", "ok", "s", "+"}
_UNSTABLE = {"us", "unstable", "d", "ol", "overload", "err", "error"}
_CLAMP = re.compile(
    r"[,;\s]+(?:butt\s+)?clamp(?:ed)?(?:\s+at|\s+length)?[\s:=]+(?P<clamp>[\d./¼½¾\s]+?)\s*"
    r"(?P<unit>in|\"|″|mm|cm)?\s*$"
)
_BY_UNIT = {"mass": "mass", "frequency": "frequency", "inertia": "butt_inertia"}


def read_lines(text: str, called: str, clubs: Sequence[Club]) -> tuple[Reading, ...]:
    """The readings of plain lines; a line with a club alone says of which club the next ones are.

    >>> bag = [Club(club="7 iron", kind="iron")]
    >>> [(one.figure, one.measured.value) for one in read_lines("7 iron\\nST,GS,+ 437.2 g\\nloft 33.5 deg", "-", bag)]
    [('mass', 437.2), ('loft', 33.5)]
    """
    names = labels(clubs)
    current: str | None = None
    cells: list[_Cell] = []
    faults = []
    for number, line in enumerate(text.splitlines(), 1):
        bare = line.strip()
        if not bare or bare.startswith("#"):
            continue
        alone = club_meant(bare.rstrip(":"), clubs)
        if len(alone) == 1:
            current = names[alone[0]]
            continue
        try:
            found = _line(bare, current, clubs, names)
        except BadInput as fault:
            faults.append(f"line {number}: {fault}")
            continue
        current = found[0].club
        cells += [cell._replace(where=f"{called}, line {number}") for cell in found]
    if faults:
        raise Refused(f"{called} cannot be used", faults)
    if not cells:
        raise BadInput(f"{called} holds no reading; write lines such as 7 iron loft 33.5 deg")
    return _gathered(cells)


def _line(line: str, current: str | None, clubs: Sequence[Club], names: Sequence[str]) -> list[_Cell]:
    if len(line) > _LONGEST:
        raise BadInput(f"{line[:40]!r}… is no reading: a line of one has {_LONGEST} characters at most")
    clamp = None
    if match := _CLAMP.search(line):
        clamp = figure_of("clamp", match["clamp"], MEASURES, match["unit"] or "")
        line = line[: match.start()]
    balance = re.search(r"(?:^|\s)(?P<text>[A-Ha-h]\d(?:[.,]\d+)?)\s*$", line)
    if balance is not None:
        words, value, unit = line[: balance.start()], balance["text"], ""
    else:
        match = _LINE.match(line)
        if match is None:
            raise BadInput(f"{line[:80]!r} is no reading; write CLUB FIGURE NUMBER UNIT, such as 7 iron loft 33.5 deg")
        words, value, unit = match["words"], match["number"].replace("+ ", "").replace("+", ""), match["unit"]
    tokens = [word for word in re.split(r"[\s,;:=]+", words) if word]
    if any(word.casefold() in _UNSTABLE for word in tokens):
        raise BadInput(f"{line[:80]!r}: the gauge was not at rest; read it again")
    tokens = [word for word in tokens if word.casefold() not in _STATUS or word.casefold() == "s"]
    club, figure = _split(tokens, clubs, names)
    if balance is not None:
        figure = figure or "swing_weight"
    if unit and find_unit(unit) is None:
        raise BadInput(f"{line[:80]!r}: {unit!r} is not a unit that is known here")
    if figure is None:
        figure = _BY_UNIT.get(_dimension(unit)) if unit else None
    if figure is None:
        raise BadInput(f"{line[:80]!r} does not say which figure was read; write loft, lie, length, mass … before it")
    if not unit and figure != "swing_weight":
        raise BadInput(f"{line[:80]!r} carries no unit; write it behind the number, such as {MEASURES[figure].unit}")
    club = club or current
    if club is None:
        raise BadInput(f"{line[:80]!r} does not say of which club; name it first")
    cells = [_Cell(club, figure, figure_of(figure, value, MEASURES, unit), "")]
    if clamp is not None:
        cells.append(_Cell(club, "clamp", clamp, ""))
    return cells


def _split(tokens: Sequence[str], clubs: Sequence[Club], names: Sequence[str]) -> tuple[str | None, str | None]:
    """The club and the figure that the words of a line name, in either order."""
    if not tokens:
        return None, None
    for cut in range(len(tokens) + 1):
        for club_words, figure_words in ((tokens[:cut], tokens[cut:]), (tokens[cut:], tokens[:cut])):
            figure = _named(" ".join(figure_words), MEASURES) if figure_words else None
            places = club_meant(" ".join(club_words), clubs) if club_words else ()
            if (figure or not figure_words) and (len(places) == 1 or not club_words) and (figure or places):
                return (names[places[0]] if places else None), figure
    said = " ".join(tokens)
    raise BadInput(f"{said[:60]!r} names no club of the order and no figure; the clubs are {', '.join(names)}")


# ----------------------------------------------------------------------------------------------------------- together


def read_measures(
    data: bytes, called: str, clubs: Sequence[Club], decode: Callable[[bytes], str]
) -> tuple[Reading, ...]:
    """The readings in a table or in plain lines, whichever it is: a table names a column `club` in its first row."""
    if data[:4] == b"PK\x03\x04":
        return _gathered([cell for row in _rows(data, called, clubs, MEASURES) for cell in row])
    text = decode(data)
    first = next((line for line in text.splitlines() if line.strip()), "")
    cells = [cell.strip().casefold() for cell in re.split(r"[,;\t|]", first)]
    if "club" in cells or "club" in first.casefold().split():
        return _gathered([cell for row in _rows(data, called, clubs, MEASURES) for cell in row])
    return read_lines(text, called, clubs)


def _gathered(cells: Iterable[_Cell]) -> tuple[Reading, ...]:
    """One reading for every figure of every club, repeats put together; a clamp is said with its frequency."""
    grouped: dict[tuple[str, str], list[_Cell]] = {}
    for cell in cells:
        grouped.setdefault((cell.club, cell.name), []).append(cell)
    found = []
    for (club, name), repeats in grouped.items():
        if name == "clamp":
            continue
        values = [_value(cell.figure) for cell in repeats]
        mean, spread = fmean(values), stdev(values) if len(values) > 1 else 0.0
        figure = repeats[0].figure
        if len(values) > 1:
            shown = swing_weight_text(mean) if isinstance(figure.value, str) else round(mean, 4)
            figure = Figure(value=shown, unit=figure.unit, source=Source.MEASURED)
        if name == "frequency":
            clamps = {cell.figure.number for cell in grouped.get((club, "clamp"), ())}
            if len(clamps) > 1:
                raise BadInput(f"the frequency of the {club} was read with several clamps; give one")
            if clamps:
                figure = Figure(figure.value, figure.unit, figure.source, why=f"butt clamped {clamps.pop():g} in")
        found.append(
            Reading(club=club, figure=name, measured=figure, count=len(values), spread=spread, where=repeats[0].where)
        )
    return tuple(found)


def _value(figure: Figure) -> float:
    return swing_weight_points_of(figure.value) if isinstance(figure.value, str) else figure.number


def repeatability(reading: Reading, gauge: float) -> float:
    """Half the width of the band in which the true figure lies: of the gauge, or of its scatter if that is wider.

    >>> once = Reading(club="7 iron", figure="loft", measured=Figure(33.5, "deg", Source.MEASURED))
    >>> repeatability(once, 0.25)
    0.25
    """
    if reading.count < 2:
        return gauge
    return max(gauge, 2 * reading.spread) / math.sqrt(reading.count)


def shaft_masses(text: str, called: str = "the shafts") -> list[Figure]:
    """The raw masses of the shafts at hand, as a line: in grams where no unit stands.

    >>> [mass.value for mass in shaft_masses("112, 115.5 g")]
    [112.0, 115.5]
    """
    found = []
    for part in text.replace(";", ",").split(","):
        quantity = read_quantity(part)
        unit = quantity.unit or "g"
        if unit not in ("g", "kg", "oz", "lb"):
            raise BadInput(f"{called} {part.strip()!r} is no mass; give the raw masses in grams, such as 112,115.5")
        grams = Figure(value=float(quantity.value), unit=unit, source=Source.MEASURED).in_unit("g")
        if not 25 <= grams.number <= 200:
            raise BadInput(f"{called} {part.strip()!r}: no shaft weighs {grams.number:g} g; they weigh 25 to 200 g")
        found.append(grams)
    return found
