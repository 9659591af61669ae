"""Laws of drag and lift of a golf ball: the named ones, and a table of the user's own.

No smooth law describes a slow ball with little spin: below a Reynolds number of 70,000 with less than 2,250 rpm,
published balls show the drag crisis and lift that turns downward. There the answer says so (`outside_model`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache
from importlib import resources
from itertools import pairwise
from typing import Any, NamedTuple, TypeAlias

from asplayed.errors import BadInput
from asplayed.mechanics.flight_equations import BALL_RADIUS, Law, PowerLaw, Table, coefficients

SLOW_REYNOLDS = 7e4
SLOW_SPIN = 2250.0 * math.pi / 30.0
ORDINARY_VISCOSITY = 1.46e-5  # m²/s, kinematic, of air of 15 °C at sea level


Model: TypeAlias = str | Law

# house: least squares on carry and apex of tour averages, a calibration and not a measurement of lift.
# smits-smith: A. J. Smits and D. R. Smith 1994, Science and Golf II, without its Reynolds term (from memory).
_POWER_LAWS = {
    "house": PowerLaw(0.2305, 0.2875, 0.4497, 0.3667),
    "smits-smith": PowerLaw(0.24, 0.18, 0.54, 0.4),
}
MODELS = ("house", "smits-smith", "bearman-harvey", "constant")


def law_of(model: Model, drag: float | None = None, lift: float | None = None) -> Law:
    """The law behind a model's name; `constant` needs `drag` and `lift`; a `Law` stands for itself.

    >>> law_of("constant", drag=0.25, lift=0.15)
    PowerLaw(drag_base=0.25, drag_slope=0.0, lift_scale=0.15, lift_power=0.0)
    >>> law_of("feather")
    Traceback (most recent call last):
    asplayed.errors.BadInput: model is 'feather'; give house, smits-smith, bearman-harvey, constant or a table_law
    """
    if model == "constant":
        for name, given, low, high in (("drag", drag, 0.0, 5.0), ("lift", lift, -2.0, 2.0)):
            if given is None:
                raise BadInput(f"model constant needs {name}; give drag and lift as pure numbers")
            if isinstance(given, bool) or not isinstance(given, int | float) or not low <= given <= high:
                raise BadInput(f"{name} is {given!r:.40}; give a value from {low:g} to {high:g}")
        assert drag is not None and lift is not None
        return PowerLaw(float(drag), 0.0, float(lift), 0.0)
    if drag is not None or lift is not None:
        raise BadInput(
            "drag and lift are given, but only model constant takes them; leave them out or say model constant"
        )
    if isinstance(model, PowerLaw | Table):
        return model
    if model in _POWER_LAWS:
        return _POWER_LAWS[model]
    if model == "bearman-harvey":
        return _bearman_harvey()
    raise BadInput(f"model is {model!r:.40}; give {', '.join(MODELS)} or a table_law")


def table_law(
    *,
    spin_ratio: Sequence[float],
    drag: Sequence[float] | Sequence[Sequence[float]],
    lift: Sequence[float] | Sequence[Sequence[float]],
    reynolds: Sequence[float] | None = None,
) -> Table:
    """A law from a table of the user's own: C_D and C_L against spin ratio, or against spin ratio and Reynolds number.

    `spin_ratio` and `reynolds` rise; `drag` and `lift` hold one number per spin ratio, or, with `reynolds`, one row of
    numbers (one per Reynolds number) per spin ratio. Straight lines between nodes, the edge outside.

    >>> tunnel = table_law(spin_ratio=[0.05, 0.15, 0.3], drag=[0.26, 0.28, 0.32], lift=[0.11, 0.18, 0.28])
    >>> drag_and_lift(1.5e5, 0.10, tunnel).lift
    0.145
    """
    rows = _axis("spin_ratio", spin_ratio)
    columns = (0.0,) if reynolds is None else _axis("reynolds", reynolds)
    values: list[tuple[float, ...]] = []
    given: Any
    for name, given, low, high in (("drag", drag, 0.0, 5.0), ("lift", lift, -2.0, 2.0)):
        flat: list[float] = []
        if len(given) != len(rows):
            raise BadInput(f"{name} has {len(given)} rows; give one for each of the {len(rows)} spin ratios")
        for number, row in enumerate(given):
            cells: list[Any] = list(row) if hasattr(row, "__len__") else [row]
            if len(cells) != len(columns):
                raise BadInput(
                    f"{name} row {number} has {len(cells)} values; give {len(columns)}, one per Reynolds number"
                )
            for cell in cells:
                if isinstance(cell, str) or not low <= cell <= high:
                    raise BadInput(f"{name} row {number} holds {cell!r}; give values from {low:g} to {high:g}")
                flat.append(float(cell))
        values.append(tuple(flat))
    return Table(False, 1.0, 1.0, columns, rows, values[0], values[1])


def _axis(name: str, given: Sequence[float]) -> tuple[float, ...]:
    found = tuple(math.nan if isinstance(each, str) else float(each) for each in given)
    if not found or not all(0.0 <= each < 1e9 for each in found):
        raise BadInput(f"{name} is empty or holds a value that is negative or no number; give rising values from 0 on")
    if any(after <= before for before, after in pairwise(found)):
        raise BadInput(f"{name} does not rise at every step; sort its values and give each once")
    return found


def scaled(law: Law, drag: float, lift: float) -> Law:
    """A law with all its drag and all its lift multiplied: the calibration to one player's carry and apex.

    >>> scaled(law_of("constant", drag=0.25, lift=0.15), 1.1, 1.0).drag_base
    0.275
    """
    if isinstance(law, Table):
        return law._replace(drag_factor=law.drag_factor * drag, lift_factor=law.lift_factor * lift)
    base, slope = law.drag_base * drag, law.drag_slope * drag
    return law._replace(drag_base=base, drag_slope=slope, lift_scale=law.lift_scale * lift)


def outside_model(reynolds: Any, spin: Any) -> Any:
    """Whether no smooth law describes a ball at this Reynolds number (0 in a vacuum) and spin in rad/s.

    >>> outside_model(5e4, 100.0), outside_model(1.5e5, 100.0)
    (True, False)
    """
    return (reynolds > 0.0) & (reynolds < SLOW_REYNOLDS) & (spin < SLOW_SPIN)


class Coefficients(NamedTuple):
    """Drag and lift coefficient (area π d²/4), and whether the point lies where no smooth law describes a ball."""

    drag: float
    lift: float
    outside_model: bool


def drag_and_lift(reynolds: float, spin_ratio: float, model: Model = "house") -> Coefficients:
    """C_D and C_L of a model at a Reynolds number (on the diameter) and a spin ratio S = r ω/v.

    Refused with `BadInput` outside Reynolds numbers of 0 to 10⁶ and spin ratios of 0 to 100. `outside_model` compares
    the spin this is in ordinary air with the bounds in this module's heading.

    >>> round(drag_and_lift(1.5e5, 0.2).lift, 5)
    0.24924
    """
    if not 0.0 <= reynolds <= 1e6:
        raise BadInput(f"reynolds is {reynolds!r}; give a value from 0 to 1,000,000")
    if not 0.0 <= spin_ratio <= 100.0:
        raise BadInput(f"spin_ratio is {spin_ratio!r}; give a value from 0 to 100")
    drag, lift = coefficients(law_of(model), reynolds, spin_ratio)
    spin = spin_ratio * reynolds * ORDINARY_VISCOSITY / (2.0 * BALL_RADIUS**2)
    return Coefficients(drag, lift, outside_model(reynolds, spin))


@cache
def _bearman_harvey() -> Table:
    """The printed rows of Bearman and Harvey 1976, carried over by equal Reynolds number and equal spin ratio.

    The tunnel's ball is 41.1 mm across in air of kinematic viscosity 1.5e-5 m²/s: a column's speed becomes a Reynolds
    number, a row's spin the product of spin ratio and Reynolds number.
    """
    diameter, viscosity = 0.0411, 1.5e-5
    text = resources.files("asplayed.mechanics").joinpath("data/bearman_harvey_1976.csv").read_text(encoding="utf-8")
    lines = [line.split(",") for line in text.splitlines() if not line.startswith("#")]
    columns = tuple(float(speed) * diameter / viscosity for speed in lines[0][2:])
    rows = tuple(
        float(line[1]) * math.pi / 30.0 * (diameter / 2.0) * diameter / viscosity for line in lines if line[0] == "drag"
    )
    drags, lifts = (
        tuple(float(cell) for line in lines if line[0] == name for cell in line[2:]) for name in ("drag", "lift")
    )
    return Table(True, 1.0, 1.0, columns, rows, drags, lifts)
