"""What a calculation is, how its keys are read, and how its results become figures."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

from asplayed.calc.functions import FUNCTIONS, Why
from asplayed.errors import BadInput
from asplayed.quantities.figures import Figure, figure
from asplayed.quantities.notation import read_quantity
from asplayed.quantities.units import convert, from_si, to_si, unit_named, units_of

# The units that figures in JSON come in; a dimension none of them measures keeps the unit it was given in.
JSON_UNITS = tuple(
    """deg in g mph yd ft s rpm cpm kg/m3 Pa*s Pa m/s m/s2 m/N in*oz kg*cm2 N*m2 mm percent strokes 1""".split()  # noqa: SIM905
)


class Key(NamedTuple):
    """One key of a calculation: its name, the dimension of its unit, and what it is.

    `dimension` is one of units.toml, or `dimensionless` (a bare number), `percent`, `text`, `swing weight`, or `any`.
    `default` is text as a user would write it: None where the key must be given, "" where it may stay away.
    """

    name: str
    dimension: str
    about: str
    unit: str = ""
    choices: tuple[str, ...] = ()
    default: str | None = None
    list: bool = False

    @property
    def accepted(self) -> str:
        """What may be written for the value, in words."""
        if self.choices:
            return f"one of {', '.join(self.choices)}"
        if self.dimension == "swing weight":
            return "a swing weight, such as D2 or C8.5"
        if self.dimension == "dimensionless":
            return "a bare number"
        if self.dimension == "percent":
            return "a number in percent"
        if self.dimension == "any":
            return "numbers with a unit, such as yd, m or mph"
        return f"a number in {', '.join(units_of(self.dimension))}"


class Result(NamedTuple):
    """One result: its name, the unit it comes in, and what it is."""

    name: str
    unit: str
    about: str


class Calculation(NamedTuple):
    """A bench calculation: what it does, its keys, the groups of which one must be given, its results, its source."""

    name: str
    does: str
    keys: tuple[Key, ...]
    either: tuple[tuple[str, ...], ...]
    results: tuple[Result, ...]
    formula: str
    source: str
    example: str
    free: bool  # any figure may be entered; the calculation itself says which it knows


class Answer(NamedTuple):
    """A calculation done: the figures it was given and the figures it gave."""

    calc: str
    inputs: dict[str, Any]
    results: dict[str, Any]


@cache
def calculations() -> dict[str, Calculation]:
    """Every calculation, by name, in the order of the table.

    >>> [key.name for key in calculations()["balance"].keys]
    ['mass', 'balance_point']
    """
    text = resources.files("asplayed.calc").joinpath("data/calculations.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    return {name: _calculation(name, entry, table) for name, entry in table["calculation"].items()}


def _calculation(name: str, entry: Mapping[str, Any], table: Mapping[str, Any]) -> Calculation:
    either = tuple(tuple(group) for group in entry.get("either", ()))
    defaults: dict[str, str | None] = dict.fromkeys(entry.get("needs", ()))
    defaults |= {key: "" for group in either for key in group if key not in defaults}
    defaults |= entry.get("may", {})
    keys = []
    for key, default in defaults.items():
        told = table["key"][entry.get("keys", {}).get(key, key)]
        keys.append(
            Key(
                key,
                told["dimension"],
                told["about"],
                told.get("unit", ""),
                tuple(told.get("choices", ())),
                default,
                told.get("list", False),
            )
        )
    results = tuple(Result(result, **table["result"][result]) for result in entry["gives"])
    said = {field: entry[field] for field in ("formula", "source", "example")}
    return Calculation(name, entry["does"], tuple(keys), either, results, **said, free=entry.get("free", False))


def _nearest(word: str, known: Sequence[str]) -> str:
    import difflib

    near = difflib.get_close_matches(word, known, n=3, cutoff=0.5)
    return f"did you mean {' or '.join(near)}?" if near else f"the known ones are {', '.join(known)}"


def find(name: str) -> Calculation:
    """The calculation of that name; an unknown one is refused with the nearest names.

    >>> find("flite")
    Traceback (most recent call last):
    asplayed.errors.BadInput: there is no calculation 'flite'; did you mean flight?
    """
    found = calculations().get(name)
    if found is None:
        raise BadInput(f"there is no calculation {name!r}; {_nearest(name, list(calculations()))}")
    return found


def compute(name: str, given: Mapping[str, str]) -> Answer:
    """Do the calculation `name` on what was written for its keys.

    Refused: a key it does not have, a key it lacks, a value without its unit or in the wrong one, a value that cannot
    be; each sentence names what is accepted.

    >>> compute("balance", {"mass": "430g", "balance_point": "27.9in"}).results["swing_weight"].value
    'C8.48'
    """
    calculation = find(name)
    if calculation.free:
        return _rules(given)
    known = [key.name for key in calculation.keys]
    for word in given:
        if word not in known:
            raise BadInput(f"{name} has no key {word!r}; {_nearest(word, known)}")
    _complete(calculation, given)
    inputs: dict[str, Any] = {}
    values: dict[str, Any] = {}
    for key in calculation.keys:
        stated = key.name in given
        written = given[key.name].strip() if stated else key.default or ""
        if not stated and not written:
            continue
        if written in ("none", "flat") and key.default == written:
            inputs[key.name] = Figure(value=None, unit="1", source=_source(stated), why=f"{written}")
            continue
        values[key.name], inputs[key.name] = _read(key, written, stated)
    found = FUNCTIONS[name](values)
    results = {result.name: _figure(found[result.name], _unit_of(result, inputs)) for result in calculation.results}
    return Answer(name, inputs, results)


def _source(stated: bool) -> Any:
    from asplayed.quantities.figures import Source

    return Source.STATED if stated else Source.ASSUMED


def _complete(calculation: Calculation, given: Mapping[str, str]) -> None:
    """Refuse what is not enough: a needed key, or one group of keys of which one must be given."""
    missing = [key.name for key in calculation.keys if key.default is None and key.name not in given]
    groups = calculation.either
    wanted = {key for group in groups for key in group}
    chosen = {key for key in given if key in wanted}
    fits = not groups or any(chosen == set(group) for group in groups)
    if not missing and fits:
        return
    told = {key.name: key for key in calculation.keys}
    sentences = [f"{key} ({told[key].about}: {told[key].accepted})" for key in missing]
    if not fits:
        choices = [" and ".join(group) for group in groups if group]
        sentences.append(f"{', or '.join(choices)} (one of these, not more)")
    example = f"asplayed calc {calculation.name} {calculation.example}"
    raise BadInput(f"{calculation.name} needs {'; '.join(sentences)}; for example: {example}")


def _read(key: Key, written: str, stated: bool) -> tuple[Any, Any]:
    """The value in SI and the figure to echo for what was written for a key."""
    if key.list:
        parts = [part for part in written.split(",") if part.strip()]
        if not parts:
            raise BadInput(f"{key.name} is empty; give {key.accepted}")
        pairs = [_read_one(key, part, stated) for part in parts]
        dimensions = {unit_named(entry.unit).dimension for _, entry in pairs}
        if len(dimensions) > 1:
            raise BadInput(f"{key.name} mixes {' and '.join(sorted(dimensions))}; give all values in one kind of unit")
        return [value for value, _ in pairs], [entry for _, entry in pairs]
    return _read_one(key, written, stated)


def _read_one(key: Key, written: str, stated: bool) -> tuple[Any, Figure]:
    if key.dimension == "text":
        if written not in key.choices:
            raise BadInput(f"{key.name} is {written!r}; give {key.accepted}")
        return written, Figure(value=written, unit="1", source=_source(stated))
    if key.dimension == "swing weight":
        return written, Figure(value=written, unit="1", source=_source(stated))
    try:
        quantity = read_quantity(written)
    except BadInput as fault:
        raise BadInput(f"{key.name}: {fault}; give {key.accepted}") from None
    unit = quantity.unit
    dimension = unit_named(unit).dimension if unit else ""
    fits = {
        "dimensionless": unit in ("", "1"),
        "percent": unit == "percent",
        "any": bool(unit) and dimension not in ("temperature", "dimensionless"),
    }.get(key.dimension, dimension == key.dimension)
    if not fits:
        trouble = "carries no unit" if not unit else f"is in {unit}"
        raise BadInput(f"{key.name}={written.strip()} {trouble}; give {key.accepted}")
    unit = unit or "1"
    number = float(quantity.value)
    shown = _json_unit(unit, key.unit)
    value = number if shown == unit else convert(number, unit, shown)
    return to_si(number, unit), Figure(
        value=value, unit=shown, source=_source(stated), why=None if stated else "default"
    )


def _unit_of(result: Result, inputs: Mapping[str, Any]) -> str:
    if result.unit != "as shots":
        return result.unit
    shown: str = inputs["shots"][0].unit
    return shown


def _json_unit(unit: str, preferred: str) -> str:
    """The unit a figure given in `unit` is shown in: its own where JSON has it, else the preferred one of its kind."""
    if unit in JSON_UNITS:
        return unit
    alike = units_of(unit_named(unit).dimension)
    return preferred if preferred in alike else next((other for other in alike if other in JSON_UNITS), unit)


def _figure(found: Any, unit: str) -> Figure:
    """A result as a figure: SI into its unit, texts and truths as they are; of several values a text, of none null."""
    why = None
    if isinstance(found, Why):
        found, why = found.value, found.why
    if isinstance(found, list):
        values = [_in_unit(value, unit) for value in found]
        found = None if not values else values[0] if len(values) == 1 else ", ".join(f"{value:g}" for value in values)
    elif isinstance(found, float):
        found = _in_unit(found, unit)
    return figure(found, unit, "computed", why=why)


def _in_unit(value: float, unit: str) -> float:
    """Twelve digits: the rest is the noise of changing units. Adding zero does away with a negative one."""
    return float(f"{from_si(value, unit):.12g}") + 0.0


def _rules(given: Mapping[str, str]) -> Answer:
    """The rules take any figure of a club, a ball or a set; the judgement itself says which it knows."""
    from asplayed.judgement.rules import check, keys

    if not given:
        raise BadInput(f"rules needs at least one figure: {', '.join(keys())}, local_rules")
    entered: dict[str, Any] = {}
    local: list[str] = []
    for word, written in given.items():
        if word == "local_rules":
            local = [part.strip() for part in written.split(",") if part.strip() not in ("", "none")]
            continue
        if word not in keys():
            raise BadInput(f"rules has no key {word!r}; {_nearest(word, [*keys(), 'local_rules'])}")
        figures = [_entered(word, part) for part in written.split(",")]
        entered[word] = figures[0] if len(figures) == 1 else figures
    verdicts = check(entered, local)
    inputs = dict(entered)
    if local:
        inputs["local_rules"] = figure(", ".join(local), "1", "stated")
    return Answer("rules", inputs, {"verdicts": list(verdicts)})


def _entered(word: str, written: str) -> Figure:
    if word in ("kind", "medical"):
        return figure(written.strip(), "1", "stated")
    try:
        quantity = read_quantity(written)
    except BadInput as fault:
        raise BadInput(f"{word}: {fault}") from None
    return figure(float(quantity.value), quantity.unit or "1", "stated")
