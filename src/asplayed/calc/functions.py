"""The function behind each calculation: SI values by key in, SI values by result out.

Imports wait in the functions, so that a closed formula starts without the heavy libraries.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from asplayed.errors import BadInput

Values = Mapping[str, Any]
# A result is an SI value, a text or a truth; `Why` says something about it as well.


class Why:
    """A result with a remark."""

    def __init__(self, value: Any, why: str) -> None:
        self.value, self.why = value, why


def _air(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.air import air

    return air(**values)._asdict()


def _flight(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.air import air
    from asplayed.mechanics.flight import fly

    shot = dict(values)
    weather = {name: shot.pop(name) for name in AIR_KEYS if shot.get(name) is not None}
    remark = None
    if "density" not in shot:
        if not weather:
            weather = USUAL_AIR
            remark = "in air of 70 °F and 50 % humidity at sea level, none being given"
        found = air(**weather)
        shot["density"] = found.density
        shot.setdefault("viscosity", found.viscosity)
    elif weather:
        raise BadInput(f"give density, or {' and '.join(weather)} for the air, not both")
    constant = shot["model"] == "constant"
    if constant != ("drag" in shot) or constant != ("lift" in shot):
        raise BadInput("drag and lift go with model=constant, which needs both")
    landed = fly(**shot)
    results = {name: getattr(landed, name) for name in FLIGHT_RESULTS}
    remarks = [remark] if remark else []
    if landed.outside_model:
        remarks.append("so slow a ball with so little spin lies outside the model")
    if remarks:
        results["carry"] = Why(results["carry"], "; ".join(remarks))
    return results


AIR_KEYS = ("temperature", "humidity", "pressure", "altitude", "sea_level_pressure")
USUAL_AIR = {"temperature": 294.26111111111112, "humidity": 0.5, "altitude": 0.0}
FLIGHT_RESULTS = ("carry", "side", "apex", "flight_time", "descent_angle", "landing_speed", "landing_spin")


def _impact(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.impact import impact

    return impact(**values)._asdict()


def _strike(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.strike import strike

    return strike(**values)._asdict()


def _dplane(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.impact import dplane

    return dplane(**values)._asdict()


def _bounce(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.ground import bounce

    return bounce(**values)._asdict()


def _run(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.ground import run

    found = run(**values)
    good = "no ball was measured that turns so fast for its speed" if found.outside_model else "good to ± 30 %"
    return {"run": Why(found.run, good), "bounces": found.bounces}


def _green(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.ground import green

    return green(**values)._asdict()


def _build(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.balance import build, swing_weight_text

    made = build(**values)
    return {**made._asdict(), "swing_weight": swing_weight_text(made.swing_weight_points)}


def _balance(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.balance import swing_weight_moment, swing_weight_points, swing_weight_text

    moment = swing_weight_moment(**values)
    return {"moment": moment, "swing_weight": swing_weight_text(swing_weight_points(moment))}


def _match(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.balance import matching_head_mass, swing_weight_points_of

    parts = dict(values)
    wanted = parts.pop("swing_weight", None)
    if wanted is not None:
        parts["swing_weight_points"] = swing_weight_points_of(wanted)
    return {"head_mass": matching_head_mass(**parts)}


def _frequency(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.shaft import frequency

    beam = dict(values)
    if "stiffness" in beam:
        beam["stiffness_clamp"] = beam["stiffness_tip"] = beam.pop("stiffness")
    found = frequency(**beam)
    clamped = f"clamped so that {beam['beam_length'] / 0.0254:.2f} in of shaft swing free"
    return {"frequency": Why(found.frequency, clamped), "compliance": found.compliance}


def _torsion(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.shaft import torsional_stiffness

    return {"torsional_stiffness": torsional_stiffness(**values)}


def _tip_bend(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.shaft import tip_bend

    return tip_bend(**values)._asdict()


def _lie_error(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.head import lie_error

    return lie_error(**values)._asdict()


def _sleeve(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.head import sleeve

    return sleeve(**values)._asdict()


def _sole(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.head import delivered_bounce

    return delivered_bounce(**values)._asdict()


def _toe_hang(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.head import toe_hang

    return {"toe_hang": toe_hang(**values)}


def _gap(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.statistics import gap

    return gap(**values)._asdict()


def _spread(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.statistics import modified_z, spread
    from asplayed.quantities.notation import write_quantity

    shots = values["shots"]
    found = spread(shots)
    apart = modified_z(shots)
    told = [f"shot {i + 1} stands apart: modified z {write_quantity(apart[i], '1')}" for i in found.flagged]
    why = "; ".join([*told, *([found.note] if found.note else [])]) or "no shot stands apart"
    flagged = Why([shots[i] for i in found.flagged], why)
    return {"median": found.median, "mad": found.mad, "scale": found.scale, "flagged": flagged}


def _strokes(values: Values) -> dict[str, Any]:
    from asplayed.mechanics.scoring import strokes, surely_remembered

    expected = strokes(values["lie"], values["distance"])
    if surely_remembered(values["lie"], values["distance"]):
        return {"strokes": expected}
    return {"strokes": Why(expected, "the table's rows here are doubtful")}


FUNCTIONS: dict[str, Callable[[Values], dict[str, Any]]] = {
    "air": _air,
    "flight": _flight,
    "impact": _impact,
    "strike": _strike,
    "dplane": _dplane,
    "bounce": _bounce,
    "run": _run,
    "green": _green,
    "build": _build,
    "balance": _balance,
    "match": _match,
    "frequency": _frequency,
    "torsion": _torsion,
    "tip-bend": _tip_bend,
    "lie-error": _lie_error,
    "sleeve": _sleeve,
    "sole": _sole,
    "toe-hang": _toe_hang,
    "gap": _gap,
    "spread": _spread,
    "strokes": _strokes,
}
