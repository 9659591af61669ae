"""The physics, pure: no file, name, clock, network or screen.

One convention everywhere. SI inside: metres, kilograms, seconds, radians, kelvin, pascals, radians per second.

Ground axes: x to the target, y to the left, z up (right-handed). *Reported* side, direction, path, face and
spin-axis tilt are positive to the **right**, for every player. Angles of a club are from the player's own side:
face open +, strike toe + and high +, attack up +, loft change weak +, lie change upright +, bend weak +.
Wind: `wind_along` tail +, head −; `wind_across` + pushes the ball right. Offsets of a head's centre of gravity:
depth behind the face, toe-ward of the face centre, up from it. A frequency always carries its clamp length.

Scalars and arrays broadcast; a scalar call gives Python floats, an array call arrays of the broadcast shape. What
lies outside a function's range is refused with `BadInput`, naming the argument, the accepted range and, for an
array, the elements.
"""

from importlib import import_module
from typing import Any

_WHERE = {
    "bounce": "ground",
    "build": "balance",
    "delivered_bounce": "head",
    "dplane": "impact",
    "drag_and_lift": "aerodynamics",
    "fly": "flight",
    "frequency": "shaft",
    "gap": "statistics",
    "green": "ground",
    "lie_error": "head",
    "matching_head_mass": "balance",
    "moist_air": "air",
    "opened_face": "head",
    "putt": "putter",
    "run": "ground",
    "sleeve": "head",
    "sleeve_setting": "head",
    "spread": "statistics",
    "strokes": "scoring",
    "table_law": "aerodynamics",
    "tip_bend": "shaft",
    "toe_hang": "head",
    "torsional_stiffness": "shaft",
    "trajectory": "flight",
    "wind_power_law": "flight",
    "wind_table": "flight",
}

__all__ = sorted(_WHERE)  # noqa: PLE0605


def __getattr__(name: str) -> Any:
    """The functions of this room, each brought in with its module when first asked for."""
    if name in _WHERE:
        return getattr(import_module(f"asplayed.mechanics.{_WHERE[name]}"), name)
    raise AttributeError(f"module 'asplayed.mechanics' has no attribute {name!r}")
