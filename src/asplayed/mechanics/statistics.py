"""Statistics for few shots: robust middle and spread, gaps, ellipses, and how many shots a difference needs.

Sources: Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993), for the modified z and its limit of 3.5 (from
memory); the rest are textbook formulas.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.mechanics.checks import Numbers, accept, choose

NORMAL = 1.4826  # a normal spread's standard deviation over its median absolute deviation
LIMIT = 3.5
FEWEST_TO_FLAG = 5
MOST_FLAGGED = 0.4  # of the shots
PRIOR_FREEDOM = 5.0


def _numbers(shots: Sequence[float], name: str = "shots", fewest: int = 1) -> list[float]:
    found = [float(shot) for shot in shots]
    if len(found) < fewest:
        raise BadInput(f"{name} holds {len(found)} values; give at least {fewest}")
    for place, shot in enumerate(found, 1):
        if not math.isfinite(shot) or abs(shot) > 1e6:
            raise BadInput(f"{name}: value {place} is {shot}; give finite numbers below a million")
    return found


def median(shots: Sequence[float]) -> float:
    """The median, in the unit of the shots.

    >>> median([151, 148, 153, 150, 118])
    150.0
    """
    ordered = sorted(_numbers(shots))
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2


class Spread(NamedTuple):
    """The middle and spread of a few shots, in their unit; `flagged` counts shots from 0; `note` says what was held
    back and why."""

    median: float
    mad: float
    scale: float
    flagged: tuple[int, ...]
    note: str | None


def spread(shots: Sequence[float]) -> Spread:
    """Median, median absolute deviation, robust standard deviation, and the shots that stand apart (modified z > 3.5).

    Nothing is flagged with fewer than five shots, or where more than half are alike (MAD 0); then the scale falls back
    on the mean absolute deviation × 1.2533. At least 60 % of the shots are kept. Flagging never deletes.

    >>> spread([151, 148, 153, 150, 118])[:4]
    (150.0, 2.0, 2.9652, (4,))
    """
    values = _numbers(shots)
    middle = median(values)
    apart = [abs(value - middle) for value in values]
    mad = _deviation(values, middle)
    if mad == 0:
        mean = math.fsum(apart) / len(apart)
        note = "more than half the shots are alike, so none is flagged"
        if mean > 0:
            note += " and the scale is the mean absolute deviation × 1.2533"
        return Spread(middle, mad, 1.2533 * mean, (), note)
    if len(values) < FEWEST_TO_FLAG:
        note = f"fewer than {FEWEST_TO_FLAG} shots, so none is flagged"
        return Spread(middle, mad, NORMAL * mad, (), note)
    flagged = [i for i, distance in enumerate(apart) if 0.6745 * distance / mad > LIMIT]
    most = int(MOST_FLAGGED * len(values))
    held = None
    if len(flagged) > most:
        held = f"{len(flagged)} shots stand apart; only the farthest {most} are flagged, so that 60 % are kept"
        flagged = sorted(sorted(flagged, key=lambda i: -apart[i])[:most])
    return Spread(middle, mad, NORMAL * mad, tuple(flagged), held)


def _deviation(values: list[float], middle: float) -> float:
    """The median absolute deviation; 0 where it is no more than the rounding of the values themselves."""
    mad = median([abs(value - middle) for value in values])
    return 0.0 if mad <= 1e-12 * max(abs(value) for value in values) else mad


def modified_z(shots: Sequence[float]) -> tuple[float, ...]:
    """How far each shot stands from the median, in robust standard deviations; zeros where the MAD is 0.

    >>> round(modified_z([151, 148, 153, 150, 118])[4], 2)
    -10.79
    """
    values = _numbers(shots)
    middle = median(values)
    mad = _deviation(values, middle)
    return tuple(0.0 if mad == 0 else 0.6745 * (value - middle) / mad for value in values)


def location(shots: Sequence[float], *, mishits: bool = True) -> float:
    """The typical shot: the median of fewer than ten or where mis-hits are possible, else the 20 % trimmed mean.

    >>> location([1, 2, 3, 4, 5, 6, 7, 8, 9, 100], mishits=False)
    5.5
    """
    values = sorted(_numbers(shots))
    if mishits or len(values) < 10:
        return median(values)
    cut = int(0.2 * len(values))
    kept = values[cut : len(values) - cut]
    return math.fsum(kept) / len(kept)


class Interval(NamedTuple):
    """An interval and the share of samples in which such an interval covers the truth."""

    low: float
    high: float
    coverage: float


def median_interval(shots: Sequence[float], confidence: float = 0.95) -> Interval:
    """The interval for the median between two order statistics: the narrowest that reaches `confidence`, else the whole
    range. Its true coverage is given.

    >>> median_interval([148, 150, 151, 153, 149])
    Interval(low=148.0, high=153.0, coverage=0.9375)
    """
    _confidence(confidence)
    values = sorted(_numbers(shots))
    n = len(values)
    best = 0
    for cut in range(n // 2):
        if _cover(n, cut) < confidence:
            break
        best = cut
    return Interval(values[best], values[n - 1 - best], _cover(n, best))


def _cover(n: int, cut: int) -> float:
    """The chance that the median lies between the order statistics `cut` in from either end."""
    return 1.0 - 2 * sum(math.comb(n, k) for k in range(cut + 1)) / float(2**n)


def mean_interval(shots: Sequence[float], confidence: float = 0.95) -> Interval:
    """Student's interval for the mean.

    >>> low, high, _ = mean_interval([148, 150, 151, 153, 149])
    >>> round(low, 2), round(high, 2)
    (147.81, 152.59)
    """
    from scipy.special import stdtrit

    _confidence(confidence)
    values = _numbers(shots, fewest=2)
    n = len(values)
    mean = math.fsum(values) / n
    deviation = math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (n - 1))
    half = float(stdtrit(n - 1, 0.5 + confidence / 2)) * deviation / math.sqrt(n)
    return Interval(mean - half, mean + half, confidence)


def _confidence(confidence: float) -> None:
    if not 0 < confidence < 1:
        raise BadInput(f"confidence is {confidence}; give a share between 0 and 1, such as 0.95")


def shots_needed(difference: float, spread: float) -> int:
    """How many shots with each of two clubs show a difference: 16 (s/d)², for 80 % power at 5 %.

    >>> shots_needed(5, 8)
    41
    """
    if not (difference > 0 and spread >= 0 and math.isfinite(spread / difference)):
        raise BadInput(f"difference is {difference} and spread {spread}; give a difference above 0 and a spread from 0")
    return math.ceil(16 * (spread / difference) ** 2 - 1e-9)


def pooled_toward(own: float, shots: int, pooled: float, prior_freedom: float = PRIOR_FREEDOM) -> float:
    """A club's standard deviation drawn towards the set's, which counts as `prior_freedom` shots (4 to 6: common
    practice).

    >>> round(pooled_toward(10.0, 6, 6.0), 3)
    8.246
    """
    if shots < 1 or own < 0 or pooled < 0 or prior_freedom <= 0:
        raise BadInput("give at least one shot, standard deviations from 0 and a prior above 0")
    weight = shots - 1
    return math.sqrt((weight * own * own + prior_freedom * pooled * pooled) / (weight + prior_freedom))


class Gap(NamedTuple):
    """How two clubs' distances mix: the chance that the shorter outflies the longer, and the area under both curves."""

    swap_probability: Numbers
    overlap: Numbers


def gap(separation: Numbers, spread_long: Numbers, spread_short: Numbers) -> Gap:
    """Two normal spreads a distance apart, in one unit of length (m); broadcasting; the shorter club is the nearer.

    >>> both = gap(12.0, 6.0, 6.0)
    >>> round(both.swap_probability, 5), round(both.overlap, 5)
    (0.07865, 0.31731)
    """
    m, apart, long, short = accept(separation=separation, spread_long=spread_long, spread_short=spread_short)
    both = m.sqrt(long * long + short * short)
    safe = choose(m, both > 0, both, 1.0)
    certain = choose(m, apart > 0, 0.0, choose(m, apart < 0, 1.0, 0.5))
    swap = choose(m, both > 0, _below(m, -apart / safe), certain)
    return Gap(swap, _overlap(m, apart, long, short))


def _below(m: Any, z: Numbers) -> Numbers:
    """The standard normal distribution."""
    if m is math:
        return 0.5 * math.erfc(-z / math.sqrt(2))
    from scipy.special import ndtr

    return ndtr(z)


def _overlap(m: Any, apart: Numbers, long: Numbers, short: Numbers) -> Numbers:
    """The area under both of two normal curves, one at 0 and one `apart`, from where they cross."""
    wide, narrow = choose(m, long > short, long, short), choose(m, long > short, short, long)
    flat = narrow <= 0
    wide, narrow = choose(m, wide > 0, wide, 1.0), choose(m, flat, 1.0, narrow)
    ratio = wide / narrow
    equal = ratio - 1 < 1e-7
    alike = 2 * _below(m, -abs(apart) / (wide + narrow))
    # The narrow one at 0, the wide one at −d: the curves cross at two places, and between them the wide one is lower.
    d = abs(apart)
    difference = choose(m, equal, 1.0, wide * wide - narrow * narrow)
    centre = d * narrow * narrow / difference
    reach = wide * narrow / difference * m.sqrt(d * d + 2 * difference * m.log(choose(m, equal, m.e, ratio)))
    inside = _below(m, (centre + reach + d) / wide) - _below(m, (centre - reach + d) / wide)
    outside = _below(m, (centre - reach) / narrow) + _below(m, -(centre + reach) / narrow)
    return choose(m, flat, 0.0, choose(m, equal, alike, inside + outside))


class Ellipse(NamedTuple):
    """An ellipse of dispersion: half axes (long, short), angle of the long one from the first axis (rad), area."""

    long_radius: float
    short_radius: float
    angle: float
    area: float


Covariance = tuple[tuple[float, float], tuple[float, float]]


def ellipse_factor(probability: float, shots: int | None = None) -> float:
    """The squared radius, in standard deviations, that holds a share of shots: −2 ln(1 − p), or by Hotelling for the
    next shot after `shots` of them.

    >>> round(ellipse_factor(0.95), 5), ellipse_factor(0.95, 10) > ellipse_factor(0.95)
    (5.99146, True)
    """
    _confidence(probability)
    if shots is None:
        return -2.0 * math.log(1 - probability)
    if shots < 3:
        raise BadInput(f"shots is {shots}; a prediction needs at least 3")
    freedom = shots - 2
    quantile = freedom / 2 * ((1 - probability) ** (-2 / freedom) - 1)  # of F with 2 and `freedom`
    return 2.0 * (shots - 1) * (shots + 1) / (shots * (shots - 2)) * float(quantile)


def ellipse(covariance: Covariance, probability: float, shots: int | None = None) -> Ellipse:
    """The ellipse that holds `probability` of shots with this covariance, or, given `shots`, of the next shot.

    >>> round(ellipse(((64.0, 0.0), (0.0, 144.0)), 0.95).area, 2)
    1806.98
    """
    (a, b), (c, d) = covariance
    if not (math.isfinite(a + b + d) and abs(b - c) <= 1e-9 * (abs(a) + abs(d)) and a >= 0 and d >= 0):
        raise BadInput("covariance must be symmetric with variances from 0")
    q = ellipse_factor(probability, shots)
    middle, swing = (a + d) / 2, math.hypot((a - d) / 2, b)
    if middle - swing < -1e-9 * middle:
        raise BadInput("covariance is larger than the variances allow")
    long, short = math.sqrt(q * (middle + swing)), math.sqrt(q * max(0.0, middle - swing))
    return Ellipse(long, short, 0.5 * math.atan2(2 * b, a - d), math.pi * long * short)


def covariance(depth: Sequence[float], width: Sequence[float]) -> Covariance:
    """The sample covariance of depth and width.

    >>> covariance([0.0, 2.0], [0.0, 1.0])
    ((2.0, 1.0), (1.0, 0.5))
    """
    x, y = _numbers(depth, "depth", 2), _numbers(width, "width", 2)
    if len(x) != len(y):
        raise BadInput(f"depth holds {len(x)} values and width {len(y)}; give one of each for every shot")
    n = len(x)
    mx, my = math.fsum(x) / n, math.fsum(y) / n
    xx = math.fsum((a - mx) ** 2 for a in x) / (n - 1)
    yy = math.fsum((b - my) ** 2 for b in y) / (n - 1)
    xy = math.fsum((a - mx) * (b - my) for a, b in zip(x, y, strict=True)) / (n - 1)
    return ((xx, xy), (xy, yy))


def offline_spread(carry: Numbers, direction_spread: Numbers) -> Numbers:
    """The sideways standard deviation (m) at a carry (m) for a spread of direction (rad); broadcasting.

    >>> round(offline_spread(250.0, math.radians(3.4)), 2)
    14.85
    """
    m, carry, spread = accept(carry=carry, direction_spread=direction_spread)
    return carry * m.tan(spread)
