"""Expected strokes of playing a club for a shot: where the club's shots come to rest, weighed by what is left to play.

A club's full shots come to rest around its middle, normally spread along and across, correlated, and bent by
`curvature`. A full shot aims at the hole whether it reaches or not: a club too short is a lay-up, and what it leaves is
counted from the fairway, the rough or the hazard it ends in. A club too long may be swung short of full, with a spread
that falls with the distance.

The integral is a sum over a grid. The ground is first smoothed by a round normal law as wide as the grid's step, and
the club's own spread made so much narrower, which leaves the integral as it was; a sum over the grid then errs far less
than the edges of greens and fairways would let it. Clubs alike in distance and spread share a grid, so that the sums of
a block of clubs over all situations are one matrix product.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any, NamedTuple

import numpy as np
from numpy.polynomial.chebyshev import chebvander
from numpy.typing import NDArray

from asplayed.choosing.demand import Situation
from asplayed.choosing.ground import Ground, strokes_left
from asplayed.errors import BadInput

Numbers = NDArray[np.float64]

_STEPS = (6.0, 3.0, 1.5, 0.75, 0.375, 0.1875)  # m, of the grids
_REACH = 3.75  # standard deviations that a grid spans either way
_MARGIN = 4.5  # steps that the smoothing of the ground spans either way
_BLOCK = 64  # clubs summed together
_CHECKED = 8  # clubs and situations that the error is stated from
_NEAR = 70.0  # m around the hole within which the spread of a part swing lies
_PART_SPREADS = 1.0, 32.0  # m, least and most, between which part swings are interpolated
_PART_NODES, _PART_TILTS = 9, 5  # spreads each way and correlations that are summed
_MOST_TILT = 0.6  # correlation beyond which a part swing counts as if at the end


class Pattern(NamedTuple):
    """How the full shots of clubs come to rest from a good lie; arrays of one length, SI.

    `carry` and `run` to the middle of the shots, `side` of the middle off the line (+ right; what the player does not
    aim off for), `depth` and `width` one standard deviation of single shots along and across, `correlation` of the two,
    `curvature` (1/m): across is off by curvature x (along² - depth²) more; `loft` (rad) as played. A club that plays no
    full shots, a putter, has no carry (NaN): it costs infinitely much.
    """

    carry: Numbers
    run: Numbers
    side: Numbers
    depth: Numbers
    width: Numbers
    correlation: Numbers
    curvature: Numbers
    loft: Numbers

    def where(self, kept: Any) -> Pattern:
        """The patterns that `kept` picks."""
        return Pattern(*(each[kept] for each in self))


class Costs(NamedTuple):
    """Expected strokes by club and situation (clubs by situations), and how far off they may be."""

    strokes: Numbers
    error: float


class _Rows(NamedTuple):
    """Shots from one lie: middle along and across, spread along and across, correlation, curvature."""

    along: Numbers
    across: Numbers
    depth: Numbers
    width: Numbers
    correlation: Numbers
    curvature: Numbers

    def where(self, kept: Any) -> _Rows:
        return _Rows(*(each[kept] for each in self))


class _Part(NamedTuple):
    """Shots from one lie, and which of the situations are played from it."""

    rows: _Rows
    asked: slice


@cache
def lies() -> dict[str, Any]:
    """The figures of `data/lies.toml`."""
    return tomllib.loads(resources.files("asplayed.choosing").joinpath("data/lies.toml").read_text(encoding="utf-8"))


def expected_strokes(patterns: Pattern, situations: Sequence[Situation], *, part_swings: bool = True) -> Costs:
    """Expected strokes to hole out when each club plays each situation, the shot itself counted.

    The error is the largest difference that a grid of half the step, a standard deviation wider each way, makes for
    some of the clubs and situations; 1e-3 strokes is what the steps are chosen for. Spreads below 1 m are taken as 1 m.
    Refused with `BadInput`: no situation, a spread or a distance no shot can have.

    >>> one = [np.array([x]) for x in (150.0, 4.0, 0.0, 9.0, 9.0, 0.3, 0.0, 0.55)]
    >>> found = expected_strokes(Pattern(*one), [Situation("fairway", 154.0, 1.0)])
    >>> bool(2.9 < found.strokes[0, 0] < 3.3), found.error < 1e-3
    (True, True)
    """
    patterns = _checked(patterns, situations)
    strokes = np.full((len(patterns.carry), len(situations)), np.inf)
    struck = np.flatnonzero(np.isfinite(patterns.carry))
    if not len(struck):
        return Costs(strokes, 0.0)
    played = patterns.where(struck)
    groups: dict[tuple[str, float], list[int]] = {}
    for place, each in enumerate(situations):
        groups.setdefault((each.lie, each.run), []).append(place)
    order = [place for places in groups.values() for place in places]
    asked = [situations[place] for place in order]
    lies_of = [_from_lie(played, lie, run) for lie, run in groups]
    ends = np.cumsum([len(places) for places in groups.values()]).tolist()
    parts = [
        _Part(rows, slice(begin, end)) for (rows, _more), begin, end in zip(lies_of, [0, *ends], ends, strict=False)
    ]
    found = _full_shots(parts, asked, 1.0)
    error = _error(parts, asked, found)
    for part, (rows, more), full in zip(parts, lies_of, found, strict=True):
        least = np.minimum(full, _part_shots(rows, more, asked[part.asked])) if part_swings else full
        strokes[np.ix_(struck, np.array(order[part.asked]))] = 1.0 + least
    return Costs(strokes, error)


def _checked(patterns: Pattern, situations: Sequence[Situation]) -> Pattern:
    patterns = Pattern(*(np.atleast_1d(np.asarray(each, dtype=np.float64)) for each in patterns))
    if not situations:
        raise BadInput("there is no situation to play; give at least one shot a round asks for")
    struck = np.isfinite(patterns.carry)
    for name in ("run", "side", "depth", "width", "correlation", "curvature", "loft"):
        if not np.isfinite(getattr(patterns, name)[struck]).all():
            raise BadInput(
                f"the {name} of a club's shots is not a number; leave the club's carry out where it has none"
            )
    if (patterns.carry[struck] <= 0).any() or (patterns.carry[struck] > 400).any():
        raise BadInput("a club's carry is not between 0 and 400 m; check its distance and unit")
    for name in ("depth", "width"):
        spread = getattr(patterns, name)[struck]
        if (spread <= 0).any() or (spread > 80).any():
            raise BadInput(f"the {name} of a club's shots is not between 0 and 80 m; check it and its unit")
    if (np.abs(patterns.correlation[struck]) > 0.9).any():
        raise BadInput("the correlation of a club's shots along and across lies within 0.9 either way")
    return patterns


def _from_lie(patterns: Pattern, lie: str, run: float) -> tuple[_Rows, Numbers]:
    """The shots from a lie, and how much more a part swing scatters."""
    table, part = lies()[lie], lies()["part_swing"]
    loft = np.degrees(patterns.loft)
    kept, wider = (np.interp(loft, table["loft"], table[name]) for name in ("carry", "spread"))
    along = patterns.carry * kept + patterns.run * run
    least = part["least"]
    depth, width = (np.maximum(each * wider, least) for each in (patterns.depth, patterns.width))
    rows = _Rows(along, patterns.side * kept, depth, width, patterns.correlation, patterns.curvature / wider)
    return rows, np.interp(loft, part["loft"], part["more"])


# --- sums over grids ----------------------------------------------------------------------------------------------


def _steps(rows: _Rows, finer: float) -> Numbers:
    """The step of the grid for each row: as wide as its narrowest spread allows."""
    a, b, c = rows.depth**2, rows.width**2, rows.correlation * rows.depth * rows.width
    narrowest = np.sqrt((a + b) / 2 - np.sqrt((a - b) ** 2 / 4 + c * c))
    bent = np.abs(rows.curvature) * 2 * rows.depth
    fine = narrowest / (math.sqrt(2.0) * (1 + 2 * bent) * finer)
    steps = np.array(_STEPS[::-1])
    return steps[np.maximum(np.searchsorted(steps, fine, side="right") - 1, 0)]


def _full_shots(
    parts: Sequence[_Part], situations: Sequence[Situation], finer: float, reach: float = _REACH
) -> list[Numbers]:
    """Strokes left after the shots of each part's rows, by its own situations; the ground is smoothed once for all."""
    found = [np.empty((len(part.rows.along), len(situations[part.asked]))) for part in parts]
    steps = [_steps(part.rows, finer) for part in parts]
    for step in np.unique(np.concatenate(steps)).tolist():
        blocks = [
            (place, block) for place, part in enumerate(parts) for block in _blocks(part.rows, steps[place] == step)
        ]
        grids = [_grid(parts[place].rows.where(block), step, reach) for place, block in blocks]
        first = min(grid[0] for grid in grids), min(grid[2] for grid in grids)
        last = max(grid[1] for grid in grids), max(grid[3] for grid in grids)
        left = _smoothed(situations, step, first, last)
        for (place, block), (x0, x1, y0, y1) in zip(blocks, grids, strict=True):
            rows, asked = parts[place]
            weights = _weights(rows.where(block), step, np.arange(x0, x1 + 1) * step, np.arange(y0, y1 + 1) * step)
            here = left[x0 - first[0] : x1 - first[0] + 1, y0 - first[1] : y1 - first[1] + 1, asked]
            found[place][block] = weights @ here.reshape(weights.shape[1], -1)
    return found


def _blocks(rows: _Rows, kept: NDArray[np.bool_]) -> list[NDArray[np.int64]]:
    """The rows that are kept, by so many as share a grid: those alike in distance."""
    places = np.flatnonzero(kept)
    places = places[np.argsort(rows.along[places], kind="stable")]
    return np.split(places, range(_BLOCK, len(places), _BLOCK)) if len(places) else []


def _grid(rows: _Rows, step: float, reach: float) -> tuple[int, int, int, int]:
    """The lines of a grid, in steps, that span the shots of all rows: first and last along, first and last across."""
    bent = np.abs(rows.curvature) * rows.depth**2
    return (
        math.floor(float((rows.along - reach * rows.depth).min()) / step),
        math.ceil(float((rows.along + reach * rows.depth).max()) / step),
        math.floor(float((rows.across - reach * rows.width - reach**2 * bent).min()) / step),
        math.ceil(float((rows.across + reach * rows.width + reach**2 * bent).max()) / step),
    )


def _weights(rows: _Rows, step: float, x: Numbers, y: Numbers) -> Any:
    """The share of each row's shots that each point of a grid stands for, the grid's own smoothing taken off."""
    depth = np.sqrt(rows.depth**2 - step**2)
    covariance = rows.correlation * rows.depth * rows.width
    slope = covariance / depth**2
    across = np.sqrt(rows.width**2 - step**2 - slope * covariance)
    u = x - rows.along[:, None]
    middle = rows.across[:, None] + slope[:, None] * u + rows.curvature[:, None] * (u * u - depth[:, None] ** 2)
    along = np.exp(-0.5 * (u / depth[:, None]) ** 2)
    scale = (math.sqrt(0.5) / across).astype(np.float32)[:, None, None]
    off = (y.astype(np.float32) - middle.astype(np.float32)[:, :, None]) * scale
    np.multiply(off, off, out=off)
    np.negative(off, out=off)
    np.exp(off, out=off)
    off *= along.astype(np.float32)[:, :, None]
    flat = off.reshape(len(rows.along), -1)
    flat /= flat.sum(axis=1, dtype=np.float64).astype(np.float32)[:, None]
    return flat


def _smoothed(situations: Sequence[Situation], step: float, first: tuple[int, int], last: tuple[int, int]) -> Any:
    """Strokes left on the lines of a grid seen from the ball, smoothed by its step: along, across, situation."""
    x = np.arange(first[0], last[0] + 1) * step
    y = np.arange(first[1], last[1] + 1) * step
    found = np.empty((len(x), len(y), len(situations)), dtype=np.float32)
    # the edge of a hazard is two strokes high, that of a green a fifth of one
    fine, margin = step / (4 if any(each.ground.hazards for each in situations) else 3), _MARGIN * step
    by_ground: dict[Ground, list[int]] = {}
    for place, each in enumerate(situations):
        by_ground.setdefault(each.ground, []).append(place)
    yf = np.arange(math.floor((y[0] - margin) / fine), math.ceil((y[-1] + margin) / fine) + 1) * fine
    across = _smoother(yf, y, step)
    for ground, places in by_ground.items():
        distances = [situations[place].distance for place in places]
        begin = math.floor((x[0] - max(distances) - margin) / fine)
        end = math.ceil((x[-1] - min(distances) + margin) / fine)
        xf = np.arange(begin, end + 1) * fine
        if ground.hazards:
            left = strokes_left(ground, xf[:, None], yf, cell=fine)
        else:  # both sides of the line are alike
            off, side = np.unique(np.abs(np.rint(yf / fine)), return_inverse=True)
            left = strokes_left(ground, xf[:, None], off * fine, cell=fine)[:, side]
        rows = left.astype(np.float32) @ across
        for place, distance in zip(places, distances, strict=True):
            wanted = x - distance
            low = max(0, math.floor((wanted[0] - margin) / fine) - begin)
            high = math.ceil((wanted[-1] + margin) / fine) - begin + 1
            found[:, :, place] = _smoother(xf[low:high], wanted, step).T @ rows[low:high]
    return found


def _smoother(fine: Any, wanted: Any, step: float) -> Any:
    """The matrix that smooths values on fine points into values at wanted points by a normal law so wide.

    The wanted points lie a whole number of fine ones apart, so that one kernel serves them all, each further down.
    """
    cell = fine[1] - fine[0]
    apart = round(step / cell)
    first = max(0, math.ceil((wanted[0] - _MARGIN * step - fine[0]) / cell))
    reach = fine[first : first + math.floor(2 * _MARGIN * apart) + 1]
    kernel = np.exp(-0.5 * ((reach - wanted[0]) / step) ** 2)
    here = np.arange(len(wanted))
    below = first + np.arange(len(reach))[:, None] + apart * here
    smoother = np.zeros((len(fine), len(wanted)), dtype=np.float32)
    smoother[np.minimum(below, len(fine) - 1), here] = (kernel / kernel.sum())[:, None]
    return smoother


def _error(parts: Sequence[_Part], situations: Sequence[Situation], found: Sequence[Numbers]) -> float:
    """The largest difference that a grid of half the step and a longer reach makes for some rows and situations."""
    count = len(parts[0].rows.along)
    some = np.unique(np.linspace(0, count - 1, _CHECKED).astype(int))
    asked = [np.unique(np.linspace(0, full.shape[1] - 1, _CHECKED).astype(int)) for full in found]
    fewer: list[_Part] = []
    picked: list[Situation] = []
    for part, places in zip(parts, asked, strict=True):
        fewer.append(_Part(part.rows.where(some), slice(len(picked), len(picked) + len(places))))
        picked += [situations[part.asked][place] for place in places.tolist()]
    finer = _full_shots(fewer, picked, 2.0, _REACH + 1.0)
    return max(
        float(np.abs(fine - full[np.ix_(some, places)]).max())
        for fine, full, places in zip(finer, found, asked, strict=True)
    )


# --- swings short of full -----------------------------------------------------------------------------------------


def _part_shots(rows: _Rows, more: Numbers, situations: Sequence[Situation]) -> Numbers:
    """Strokes left when each club is swung just so far that the middle of its shots lies on the hole."""
    found = np.full((len(rows.along), len(situations)), np.inf)
    least = lies()["part_swing"]["least"]
    for place, each in enumerate(situations):
        share = each.distance / rows.along
        able = np.flatnonzero(share < 1.0)
        scale = share[able] * (1 + more[able] * (1 - share[able]))
        depth, width = (np.hypot(spread[able] * scale, least) for spread in (rows.depth, rows.width))
        found[able, place] = _around_hole(_near_hole(each.ground), depth, width, rows.correlation[able])
    return found


def _near_hole(ground: Ground) -> Ground:
    """The ground as far as a part swing can see it."""
    near = tuple(
        each
        for each in ground.hazards
        if each.end > -_NEAR and each.start < _NEAR and each.right > -_NEAR and each.left < _NEAR
    )
    return ground._replace(hazards=near)


def _around_hole(ground: Ground, depth: Numbers, width: Numbers, correlation: Numbers) -> Numbers:
    """Strokes left after shots whose middle lies on the hole, interpolated between spreads that were summed."""
    along, across, tilt = _polynomial(ground).shape
    series = (
        chebvander(_spread_seat(depth), along - 1),
        chebvander(_spread_seat(width), across - 1),
        chebvander(np.clip(correlation / _MOST_TILT, -1.0, 1.0), tilt - 1),
    )
    by_depth = (series[0] @ _polynomial(ground).reshape(along, -1)).reshape(-1, across, tilt)
    found: Numbers = np.einsum("nij,ni,nj->n", by_depth, series[1], series[2])
    return found


def _spread_seat(spread: Numbers) -> Numbers:
    """Where a spread lies between the least and the largest that are summed, from -1 to 1."""
    least, most = _PART_SPREADS
    seat: Numbers = np.clip(2.0 * np.log(spread / least) / math.log(most / least) - 1.0, -1.0, 1.0)
    return seat


@cache
def _polynomial(ground: Ground) -> Numbers:
    """Coefficients of the polynomial through the strokes left around the hole, by spread and correlation."""
    least, most = _PART_SPREADS
    seats, tilts = (np.cos(np.pi * (np.arange(count) + 0.5) / count) for count in (_PART_NODES, _PART_TILTS))
    spreads = least * (most / least) ** ((seats + 1.0) / 2.0)
    table = np.empty((_PART_NODES, _PART_NODES, _PART_TILTS))
    width, tilt = (each.ravel() for each in np.meshgrid(spreads, tilts * _MOST_TILT, indexing="ij"))
    nothing = np.zeros(len(width))
    at_hole = [Situation("fairway", 0.0, 1.0, ground)]
    for place, depth in enumerate(spreads.tolist()):
        rows = _Rows(nothing, nothing, nothing + depth, width, tilt, nothing)
        table[place] = _full_shots([_Part(rows, slice(0, 1))], at_hole, 1.0)[0][:, 0].reshape(table.shape[1:])
    back, across = (np.linalg.inv(chebvander(nodes, len(nodes) - 1)) for nodes in (seats, tilts))
    found: Numbers = np.einsum("ai,bj,ck,ijk->abc", back, back, across, table)
    return found
