"""The shots a round asks for: from a course, from a usual mix, or from the player's own rounds.

A course is a TOML file: its holes with par, length, fairway, green and hazards, its height and usual winds. The player
drives every hole that his longest club does not overpower, lays up where he cannot reach, and misses some greens; what
then remains are the situations his clubs must serve.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any, Literal, NamedTuple, get_args

import numpy as np

from asplayed.choosing.ground import YARD, Ground, Hazard, HazardKind, figures
from asplayed.clubs.records import Record
from asplayed.errors import BadInput, Refused, nearest
from asplayed.players.records import Conditions
from asplayed.players.records import Ground as Firmness
from asplayed.quantities import Figure, figure, read_quantity, to_si, unit_named

Lie = Literal["tee", "fairway", "rough", "sand"]
Side = Literal["left", "right", "across"]

_PARS = {3: (60.0, 290.0), 4: (180.0, 560.0), 5: (350.0, 800.0)}  # yd; common practice, widened
_MOST_HOLES = 72
_WIDE = 200.0 * YARD  # how far a hazard reaches that nobody said the width of


class Situation(NamedTuple):
    """A shot to be played: lie, distance to the hole (m), how often a round, the ground around the hole, and the share
    of its run on the fairway that the ball has where it lands."""

    lie: Lie
    distance: float
    weight: float
    ground: Ground = Ground()
    run: float = 1.0


class Hole(Record, frozen=True, kw_only=True):
    """A hole: par, length (m), and the ground around its flag."""

    par: int
    length: float
    ground: Ground


class Course(Record, frozen=True, kw_only=True):
    """A course: its holes, how firm it plays, its height above the sea, and its usual winds with their shares."""

    title: str
    holes: tuple[Hole, ...]
    firmness: Firmness = "normal"
    altitude: Figure | None = None
    winds: tuple[tuple[Conditions, float], ...] = ()

    def worlds(self) -> tuple[tuple[Conditions, float], ...]:
        """The conditions the course is played in, with their odds: its height and firmness in each of its winds.

        >>> [round(odds, 2) for _, odds in course_named("Estow").worlds()]
        [0.35, 0.35, 0.3]
        """
        import msgspec

        own = Conditions(altitude=self.altitude, ground=self.firmness)
        if not self.winds:
            return ((own, 1.0),)
        whole = sum(share for _, share in self.winds)
        return tuple(
            (msgspec.structs.replace(own, wind_along=wind.wind_along, wind_across=wind.wind_across), share / whole)
            for wind, share in self.winds
        )


# --- courses ------------------------------------------------------------------------------------------------------

_COURSE_FIELDS = ("title", "altitude", "fairway", "green", "sand", "firmness", "wind", "hole")
_HOLE_FIELDS = ("par", "length", "fairway", "green", "sand", "hazard")
_HAZARD_FIELDS = ("kind", "side", "from", "until", "off", "width")
_WIND_FIELDS = ("blows", "share")


class _Reader:
    """Fields of one course file, checked; faults are gathered with their place in it."""

    def __init__(self) -> None:
        self.faults: list[str] = []

    def fields(self, table: Any, known: tuple[str, ...], where: str) -> Mapping[str, Any]:
        if not isinstance(table, dict):
            self.faults.append(f"{where}: it is no table of fields; write {', '.join(known)} under it")
            return {}
        for name in table:
            if name not in known:
                self.faults.append(f"{where}: there is no field {str(name)[:40]!r}{nearest(str(name), known)}")
        return table

    def measure(
        self, table: Mapping[str, Any], name: str, where: str, low: float, high: float, otherwise: float | None = None
    ) -> float:
        """A length with its unit, in m; what is missing without an `otherwise` is a fault."""
        given = table.get(name)
        if given is None:
            if otherwise is None:
                self.faults.append(
                    f'{where}: {name} is missing; write it with its unit, such as {name} = "{high / 2:g} yd"'
                )
            return low * YARD if otherwise is None else otherwise
        try:
            quantity = read_quantity(given) if isinstance(given, str) else None
            if quantity is None or not quantity.unit or unit_named(quantity.unit).dimension != "length":
                raise BadInput("no length")
        except BadInput:
            self.faults.append(
                f'{where}: {name} {given!r} is no length with a unit; write it as {name} = "{high / 2:g} yd"'
            )
            return low * YARD
        value = to_si(float(quantity.value), quantity.unit)
        if not low * YARD - 1e-9 <= value <= high * YARD + 1e-9:
            self.faults.append(f"{where}: {name} {given!r} cannot be; it lies from {low:g} to {high:g} yd")
        return value

    def number(
        self, table: Mapping[str, Any], name: str, where: str, low: float, high: float, otherwise: float
    ) -> float:
        given = table.get(name, otherwise)
        if isinstance(given, bool) or not isinstance(given, int | float) or not low <= given <= high:
            self.faults.append(f"{where}: {name} {given!r} cannot be; write a number from {low:g} to {high:g}")
            return otherwise
        return float(given)

    def choice(
        self, table: Mapping[str, Any], name: str, where: str, known: tuple[str, ...], otherwise: str | None
    ) -> str:
        given = table.get(name, otherwise)
        if given not in known:
            word = "is missing" if given is None else f"{given!r} is not known"
            self.faults.append(f"{where}: {name} {word}; use one of {', '.join(known)}")
            return known[0]
        return str(given)

    def tables(self, table: Mapping[str, Any], name: str, where: str) -> list[Any]:
        given = table.get(name, [])
        if not isinstance(given, list):
            self.faults.append(f"{where}: {name} is no list; write one [[{name}]] for each")
            return []
        return given


def read_course(path: str | Path) -> Course:
    """The course that a TOML file describes; all its faults are refused at once."""
    from asplayed.catalogue.tables import MAX_SIZE, read_bytes

    path = Path(path)
    try:
        with path.open("rb") as stream:
            text = read_bytes(stream, str(path), max_size=MAX_SIZE).decode("utf-8")
    except FileNotFoundError:
        raise BadInput(
            f"there is no file {str(path)!r}; give the path of a course in TOML, or one of {', '.join(course_names())}"
        ) from None
    except (OSError, UnicodeDecodeError, ValueError) as fault:
        if isinstance(fault, BadInput):
            raise
        reason = getattr(fault, "strerror", None) or "it is not UTF-8 text"
        raise BadInput(f"{str(path)[:200]!r} cannot be read: {reason}; give a course in TOML") from None
    return course_of(text, str(path))


@cache
def course_names() -> tuple[str, ...]:
    """The names of the courses that come with the program."""
    return ("Estow", "usual")


@cache
def course_named(name: str) -> Course:
    """A course that comes with the program.

    >>> [round(hole.length / YARD) for hole in course_named("Estow").holes][:3]
    [392, 428, 171]
    """
    found = {each.casefold(): each for each in course_names()}.get(name.casefold())
    if found is None:
        raise BadInput(f"there is no course {name[:60]!r}{nearest(name, course_names())}; give the path of its file")
    place = resources.files("asplayed.choosing").joinpath(f"data/{found.casefold()}.toml")
    return course_of(place.read_text(encoding="utf-8"), found)


def course_of(text: str, name: str = "the course") -> Course:
    """The course that a text in TOML describes; `name` is where it came from.

    >>> course = course_of('title = "Nine"\\n[[hole]]\\npar = 3\\nlength = "150 yd"')
    >>> course.title, round(course.holes[0].length, 2)
    ('Nine', 137.16)
    """
    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as fault:
        raise BadInput(f"{name} is not TOML: {str(fault)[:200]}; correct that place") from None
    reader = _Reader()
    table = dict(reader.fields(table, _COURSE_FIELDS, "the course"))
    title = table.get("title")
    if not isinstance(title, str) or not title.strip():
        reader.faults.append('the course: title is missing; write title = "Estow"')
        title = ""
    firmness: Any = reader.choice(table, "firmness", "the course", get_args(Firmness), "normal")
    usual = Ground()
    wide = reader.measure(table, "fairway", "the course", 8, 120, usual.fairway)
    green = reader.measure(table, "green", "the course", 6, 80, 2 * usual.green)
    sand = reader.number(table, "sand", "the course", 0.0, 1.0, usual.sand)
    holes = []
    given = reader.tables(table, "hole", "the course")
    if not given or len(given) > _MOST_HOLES:
        reader.faults.append(
            f"the course: it has {len(given)} holes; write one [[hole]] for each, at most {_MOST_HOLES}"
        )
    for number, entry in enumerate(given[:_MOST_HOLES], 1):
        where = f"hole {number}"
        hole = reader.fields(entry, _HOLE_FIELDS, where)
        par = hole.get("par")
        if isinstance(par, bool) or par not in _PARS:
            reader.faults.append(f"{where}: par {par!r} cannot be; write 3, 4 or 5")
            par = 4
        length = reader.measure(hole, "length", where, *_PARS[par])
        hazards = tuple(
            _hazard(reader, each, f"{where}, hazard {place}", length)
            for place, each in enumerate(reader.tables(hole, "hazard", where), 1)
        )
        ground = Ground(
            reader.measure(hole, "fairway", where, 8, 120, wide),
            reader.measure(hole, "green", where, 6, 80, green) / 2,
            reader.number(hole, "sand", where, 0.0, 1.0, sand),
            hazards,
        )
        holes.append(Hole(par=par, length=length, ground=ground))
    altitude = table.get("altitude")
    height = None if altitude is None else reader.measure(table, "altitude", "the course", -500, 5000)
    winds = tuple(
        wind
        for place, entry in enumerate(reader.tables(table, "wind", "the course"), 1)
        if (wind := _wind(reader, entry, f"wind {place}")) is not None
    )
    if reader.faults:
        raise Refused(f"{name} cannot be used as a course", reader.faults)
    return Course(
        title=title.strip(),
        holes=tuple(holes),
        firmness=firmness,
        altitude=None if height is None else figure(round(height, 3), "m", "stated"),
        winds=winds,
    )


def _hazard(reader: _Reader, entry: Any, where: str, length: float) -> Hazard:
    table = reader.fields(entry, _HAZARD_FIELDS, where)
    kind: Any = reader.choice(table, "kind", where, get_args(HazardKind), None)
    side = reader.choice(table, "side", where, get_args(Side), None)
    start = reader.measure(table, "from", where, 0, 900)
    until = reader.measure(table, "until", where, 0, 900)
    if until <= start and not any(fault.startswith(where) for fault in reader.faults):
        reader.faults.append(f"{where}: it ends before it begins; write until farther from the tee than from")
    off = reader.measure(table, "off", where, 0, 200, 0.0 if side == "across" else None)
    width = reader.measure(table, "width", where, 1, 300, _WIDE)
    if side == "across":
        return Hazard(kind, start - length, until - length, off - width, off + width)
    left, right = (-off - width, -off) if side == "left" else (off, off + width)
    return Hazard(kind, start - length, until - length, left, right)


def _wind(reader: _Reader, entry: Any, where: str) -> tuple[Conditions, float] | None:
    from asplayed.choosing.what_if import air_asked

    table = reader.fields(entry, _WIND_FIELDS, where)
    share = reader.number(table, "share", where, 0.0, 1000.0, 1.0)
    blows = table.get("blows")
    if not isinstance(blows, str):
        reader.faults.append(f'{where}: blows is missing; write blows = "8 mph head", tail or left to right')
        return None
    try:
        return air_asked([f"wind: {blows}"])[0], share
    except BadInput as fault:
        reader.faults.append(f"{where}: {fault}")
        return None


# --- what a round asks for ----------------------------------------------------------------------------------------


@cache
def shares() -> dict[str, Any]:
    """The figures of `data/demand.toml`."""
    return tomllib.loads(resources.files("asplayed.choosing").joinpath("data/demand.toml").read_text(encoding="utf-8"))


def demand_of(course: Course, reach: float, handicap: float = 15.0) -> tuple[Situation, ...]:
    """The shots a round on a course asks of a player whose longest club goes `reach` (m) in all, run included.

    Alike shots are one situation, weighed by how often a round they come. Refused with `BadInput`: a reach no player
    has.

    >>> asked = demand_of(course_named("usual"), 230.0, 8.0)
    >>> sum(each.weight for each in asked if each.lie == "tee")
    18.0
    """
    if not 60.0 <= reach <= 400.0:
        raise BadInput(f"a longest club that goes {reach:.4g} m cannot be; give 60 to 400 m")
    table = shares()
    skill = {
        name: float(np.interp(handicap, table["skill"]["handicap"], table["skill"][name]))
        for name in ("fairways", "sand", "greens")
    }
    lies: dict[Lie, float] = {"fairway": skill["fairways"], "sand": skill["sand"]}
    lies["rough"] = 1.0 - skill["fairways"] - skill["sand"]
    found: dict[tuple[Lie, float, Ground, float], float] = {}
    firm = figures()["run"][course.firmness]

    def ask(lie: Lie, distance: float, weight: float, ground: Ground, run: float, step: str) -> None:
        wide = table["steps"][step] * YARD
        rounded = round(distance / wide) * wide
        key = (lie, rounded or wide, _seen(ground, rounded), run)
        found[key] = found.get(key, 0.0) + weight

    for hole in course.holes:
        reached = hole.length <= reach
        ask("tee", hole.length, 1.0, hole.ground, firm if reached else 1.0, "tee")
        left = [] if reached else _after(hole.length, reach, table)
        for far, share in left:
            onto = far <= reach * table["lay_up"]["share"]
            for lie, often in lies.items():
                ask(lie, far, share * often, hole.ground, firm if onto else 1.0, "approach")
        for yards, share in table["short"]["distances"].items():
            for lie, often in table["short"]["lies"].items():
                weight = (1.0 - skill["greens"]) * share * often
                ask(lie, float(yards) * YARD, weight, hole.ground, firm, "short")
    return tuple(Situation(lie, away, weight, ground, run) for (lie, away, ground, run), weight in found.items())


def _after(length: float, reach: float, table: Mapping[str, Any]) -> list[tuple[float, float]]:
    """Distances left after the drives of a hole and after the lay-ups that follow, with their shares."""
    found = []
    for off in (-1.0, 0.0, 1.0):
        left = length - reach * (1 + off * table["drives"]["spread"])
        while left > table["short"]["longest"] * YARD:
            found.append((left, 1 / 3))
            if left <= reach * table["lay_up"]["share"]:
                break
            left -= reach * table["lay_up"]["share"]
    return found


def _seen(ground: Ground, distance: float) -> Ground:
    """The ground as a shot from so far can meet it: hazards behind the ball are of no matter."""
    return ground._replace(hazards=tuple(each for each in ground.hazards if each.end > -distance))


def default_demand(reach: float, handicap: float = 15.0) -> tuple[Situation, ...]:
    """What a round usually asks for of a player whose longest club goes `reach` (m), on tees that suit him.

    >>> 30 < sum(each.weight for each in default_demand(230.0, 8.0)) < 60
    True
    """
    import msgspec

    usual = shares()["usual"]
    course = course_named(usual["course"])
    scale = min(max(reach / usual["reach"], usual["least"]), usual["most"])
    holes = tuple(msgspec.structs.replace(hole, length=hole.length * scale) for hole in course.holes)
    return demand_of(msgspec.structs.replace(course, holes=holes), reach, handicap)


_USUAL = Ground()


# --- a player's own rounds ----------------------------------------------------------------------------------------


@cache
def _columns() -> Mapping[str, Any]:
    from asplayed.catalogue.columns import Column

    text = resources.files("asplayed.choosing").joinpath("data/shot_columns.toml").read_text(encoding="utf-8")
    return {
        name: Column(
            name=name,
            kind=entry["kind"],
            about=entry["about"],
            units=tuple(entry.get("units", ())),
            possible=tuple(entry["possible"]) if "possible" in entry else None,
            also=tuple(entry["also"]),
            choices={word: kept for kept, others in entry.get("choices", {}).items() for word in (kept, *others)},
        )
        for name, entry in tomllib.loads(text).items()
    }


class OwnRounds(NamedTuple):
    """What a player's own rounds ask for: the situations, how many shots and rounds they come from, and remarks."""

    situations: tuple[Situation, ...]
    shots: int
    rounds: int
    remarks: tuple[str, ...]


def demand_from_rounds(
    data: bytes,
    name: str = "the table",
    *,
    ground: Ground = _USUAL,
    firmness: Firmness = "normal",
    column_map: Mapping[str, str] | None = None,
) -> OwnRounds:
    """What a table of a player's own shots asks for: CSV, TSV or XLSX with `lie` and `distance`, and `round` if known.

    Putts are left aside. Without a column `round` the table is taken for one round. A table with a faulty row is
    refused whole, all of them named.

    >>> own = demand_from_rounds(b"round,lie,distance [yd]\\nMay,tee,400\\nMay,rough,150\\nMay,green,4\\n")
    >>> [(each.lie, round(each.distance / YARD), each.weight) for each in own.situations], own.rounds
    ([('tee', 402, 1.0), ('rough', 150, 1.0)], 1)
    """
    from asplayed.catalogue.columns import Measure, understand
    from asplayed.catalogue.tables import read_table

    table = read_table(data, name)
    steps, firm = shares()["steps"], figures()["run"][firmness]
    rounds: set[Any] = set()
    counted: dict[tuple[Any, float], int] = {}
    faults: list[str] = []
    shots = putts = 0
    for entry in understand(table, _columns(), column_map=column_map, needed=("lie", "distance")):
        if entry.faults:
            faults.extend(f"line {entry.line}, {fault}" for fault in entry.faults)
            continue
        rounds.add(entry.values.get("round"))
        if entry.values["lie"] == "green":
            putts += 1
            continue
        away = entry.values["distance"]
        assert isinstance(away, Measure)
        yards = away.value
        wide = steps["short"] if yards < 45 else steps["approach"]
        key = (entry.values["lie"], max(round(yards / wide), 1) * wide * YARD)
        counted[key] = counted.get(key, 0) + 1
        shots += 1
    if faults:
        raise Refused(f"{name}: its rows cannot be used", faults)
    if not shots:
        raise BadInput(f"{name} has no shot from off the green; give one row a shot, with its lie and distance")
    remarks = list(table.remarks)
    if putts:
        remarks.append(f"{putts} putts were left aside: no club but the putter serves them")
    if rounds == {None}:
        remarks.append("no column says which round a shot belongs to; all were taken for one round")
    situations = tuple(
        Situation(lie, away, times / len(rounds), ground, 1.0 if lie == "tee" and away > 230 * YARD else firm)
        for (lie, away), times in counted.items()
    )
    return OwnRounds(situations, shots, len(rounds), tuple(remarks))
