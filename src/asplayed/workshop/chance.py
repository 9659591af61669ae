"""How likely a built club is inside its tolerances: bands count as two standard deviations, errors as normal."""

from __future__ import annotations

import math
from collections.abc import Iterable


def inside(half_width: float, within: float, off: float = 0.0) -> float:
    """The chance that a figure known to ± `half_width` (two standard deviations), `off` its target, is `within` it.

    >>> round(inside(1.0, 1.0), 4), inside(0.0, 0.5), inside(0.0, 0.5, off=0.6)
    (0.9545, 1.0, 0.0)
    """
    if half_width <= 0:
        return 1.0 if abs(off) <= within else 0.0
    scale = half_width / 2 * math.sqrt(2)
    return 0.5 * (math.erf((within - off) / scale) + math.erf((within + off) / scale))


def all_inside(chances: Iterable[float]) -> float:
    """The chance that several figures are inside at once, taken as independent.

    >>> all_inside([0.9, 0.5])
    0.45
    """
    return math.prod(chances)
