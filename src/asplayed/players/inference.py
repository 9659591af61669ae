"""What the readings say of a player's delivery with every club, and of his ball's drag and lift: one joint estimate.

Each club's delivery is the norm plus a departure in five numbers. Before any shot is seen, a departure has a part that
all the player's clubs share and a part of its own, both normal with the spreads of `data/norms.toml`; drag and lift are
the house law times two factors near 1, the only numbers of the flight that are ever fitted. Readings of the club, of
the ball and of the flight then update all of it at once (Gauss–Newton steps of the linear Gaussian update), so that
club data settle the restitutions, ball data alone settle speed, loft and attack as far as they can, a club that was
struck informs the clubs that were not, and nothing at all leaves the norm.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.mechanics.flight import FEW, fly
from asplayed.mechanics.impact import impact
from asplayed.players.delivery import DEGREE, OF_90, Delivery, Norm, norms
from asplayed.quantities import Figure

Numbers = NDArray[np.float64]

READINGS = ("club speed", "attack", "dynamic loft", "ball speed", "launch", "spin", "carry", "apex")
FLOWN = READINGS.index("carry")
_LOGARITHMIC = np.array([name in ("club speed", "ball speed", "spin", "carry") for name in READINGS])
_PER_CLUB = len(Delivery._fields)
# Steps of the finite differences: of the logarithm of speed, two angles, two restitutions, two factors.
STEPS = np.array([1e-4, 1e-4, 1e-4, 1e-4, 1e-4, 1e-3, 1e-3])
_ROUNDS = 4
# So many standard deviations from the norm the estimate stays, whatever was read: what lies beyond (a session of chips
# with a driver) is no full swing, and remains unexplained.
_FARTHEST = 5.0


class Weather(NamedTuple):
    """What a ball flies through, SI: density, viscosity, wind along (tail +) and across (+ right), landing height."""

    density: Any
    viscosity: Any
    wind_along: Any = 0.0
    wind_across: Any = 0.0
    landing_height: Any = 0.0


class Readings(NamedTuple):
    """Typical readings: a row for each club of each session; SI, NaN where nothing was read.

    `values` and `errors` (one standard deviation of the typical value, from the shots alone) have the columns of
    `READINGS`; `club` is the place in the set; `weather` holds one value a row.
    """

    club: NDArray[np.int64]
    values: Numbers
    errors: Numbers
    weather: Weather


class Estimate(NamedTuple):
    """The player as the readings leave him: departures from the norm and the two factors of flight, jointly normal.

    `mean` and `covariance` run over the clubs, five numbers each (logarithm of club speed, attack, dynamic loft, the
    two restitutions), then drag and lift less 1. `unexplained` is reading less estimate, in SI, as the readings stand.
    """

    mean: Numbers
    covariance: Numbers
    unexplained: Numbers
    fitted: bool

    def departures(self, club: int) -> Numbers:
        """The mean departure of one club."""
        return self.mean[club * _PER_CLUB : (club + 1) * _PER_CLUB]


def delivered(base: Numbers, departure: Numbers) -> Delivery:
    """The delivery at a departure from the norm; the last axis of both holds the five numbers.

    >>> round(float(delivered(np.array([40.0, 0.0, 0.4, 0.8, 0.2]), np.array([0.01, 0, 0, 0, 0])).club_speed), 3)
    40.402
    """
    attack = np.clip(base[..., 1] + departure[..., 1], -25 * DEGREE, 20 * DEGREE)
    return Delivery(
        base[..., 0] * np.exp(departure[..., 0]),
        attack,
        np.clip(base[..., 2] + departure[..., 2], attack + 1 * DEGREE, 75 * DEGREE),
        np.clip(base[..., 3] + departure[..., 3], 0.2, 0.99),
        np.clip(base[..., 4] + departure[..., 4], -0.9, 0.9),
    )


def struck(delivery: Delivery, head_mass: Numbers, face: Any = 0.0, path: Any = 0.0) -> Any:
    """The ball as it leaves, for deliveries of any shape; face and path + right."""
    return impact(
        club_speed=delivery.club_speed,
        head_mass=head_mass,
        restitution=delivery.restitution,
        attack_angle=delivery.attack,
        dynamic_loft=delivery.dynamic_loft,
        tangential_restitution=delivery.tangential_restitution,
        friction=float(norms()["contact"]["friction"]),
        club_path=path,
        face_angle=face,
    )


def flown(ball: Any, weather: Weather, drag: float = 1.0, lift: float = 1.0) -> Any:
    """The flight of balls that leave so, in this weather, with the house law times two factors; arrays only."""
    speed = np.asarray(ball.ball_speed)
    # Few shots are flown several times over: the spread of a set loads the compiled flight anyway, and it is quicker.
    over = np.ones((FEW // speed.size + 1, *(1 for _ in speed.shape)))
    flight = fly(
        ball.ball_speed * over,
        ball.launch_angle,
        ball.spin_rate,
        launch_direction=ball.launch_direction,
        spin_axis=ball.spin_axis,
        density=weather.density,
        viscosity=weather.viscosity,
        wind_along=weather.wind_along,
        wind_across=weather.wind_across,
        landing_height=weather.landing_height,
        drag_factor=drag,
        lift_factor=lift,
    )
    return type(flight)(*(each[0] for each in flight))


def prior_covariance(speed_band: float, clubs: int) -> Numbers:
    """How far the player may lie from the norm before any reading: covariance of the numbers of `Estimate`.

    `speed_band` is the half-width of the driver speed's 90 % band as a share of it.
    """
    table = norms()["spread_of_players"]
    shared, own = [], []
    for name in ("club_speed", "attack", "dynamic_loft", "restitution", "tangential_restitution"):
        scale = DEGREE if name in ("attack", "dynamic_loft") else 1.0
        shared.append(table[name]["player"] * scale)
        own.append(table[name]["club"] * scale)
    shared[0] = math.hypot(shared[0], speed_band / OF_90)
    size = clubs * _PER_CLUB
    found = np.zeros((size + 2, size + 2))
    found[:size, :size] = np.kron(np.ones((clubs, clubs)), np.diag(np.square(shared)))
    found[:size, :size] += np.kron(np.eye(clubs), np.diag(np.square(own)))
    found[size, size] = table["drag"]["player"] ** 2
    found[size + 1, size + 1] = table["lift"]["player"] ** 2
    return found


def reading_errors(values: Numbers) -> Numbers:
    """How far typical readings may be off however many shots there are, one standard deviation, SI."""
    found = np.zeros_like(values)
    for place, name in enumerate(READINGS):
        entry = norms()["readings"][name]
        if "relative" in entry:
            found[:, place] = entry["relative"] * np.abs(values[:, place])
        else:
            found[:, place] = entry["absolute"] * (1.0 if name == "apex" else DEGREE)
    return found


def estimate(base: Sequence[Norm], driver_speed: Figure, readings: Readings | None) -> Estimate:
    """The joint estimate of a player from his norms (a club each) and his readings; with none, the norm itself.

    >>> from asplayed.quantities import figure
    >>> seven = Norm(Delivery(40.0, -0.07, 0.4, 0.75, 0.25), 0.27, "")
    >>> values = np.full((1, 8), np.nan)
    >>> values[0, 0] = 42.0
    >>> readings = Readings(np.array([0]), values, np.zeros((1, 8)), Weather(*np.array([[1.2], [1.8e-5]])))
    >>> found = estimate([seven], figure(93, "mph", "stated", tolerance=5), readings)
    >>> round(40 * float(np.exp(found.mean[0])), 1)
    41.8
    """
    band = driver_speed.half_width or 0.03 * driver_speed.number
    covariance = prior_covariance(band / driver_speed.number, len(base))
    mean = np.zeros(len(covariance))
    if readings is None or not np.isfinite(readings.values).any():
        return Estimate(mean, covariance, np.zeros((0, len(READINGS))), False)
    read = np.isfinite(readings.values)
    values = np.where(_LOGARITHMIC, np.maximum(np.nan_to_num(readings.values), 1.0), np.nan_to_num(readings.values))
    error = np.hypot(np.nan_to_num(readings.errors), reading_errors(values))
    noise = np.where(_LOGARITHMIC, error / np.maximum(values, 1.0), error)[read]
    wanted = np.where(_LOGARITHMIC, np.log(np.maximum(values, 1.0)), values)
    farthest = _FARTHEST * np.sqrt(np.diag(covariance))
    prior = covariance
    for _ in range(_ROUNDS):
        middle, slopes = _linearised(base, mean, readings)
        jacobian = _spread_out(slopes, readings.club, len(base))[read]
        gap = (wanted - middle)[read] + jacobian @ mean
        gain = np.linalg.solve(jacobian @ prior @ jacobian.T + np.diag(np.square(noise)), jacobian @ prior).T
        mean = np.clip(gain @ gap, -farthest, farthest)
        covariance = prior - gain @ jacobian @ prior
    middle, _ = _linearised(base, mean, readings)
    left = np.where(_LOGARITHMIC, readings.values - np.exp(middle), readings.values - middle)
    launched = (
        read[:, READINGS.index("ball speed")] & read[:, READINGS.index("launch")] & read[:, READINGS.index("spin")]
    )
    return Estimate(mean, (covariance + covariance.T) / 2, left, bool((launched & read[:, FLOWN]).any()))


def _spread_out(slopes: Numbers, club: NDArray[np.int64], clubs: int) -> Numbers:
    """Slopes (row, reading, 7) as a matrix over all the numbers of an estimate: (row, reading, clubs · 5 + 2)."""
    found = np.zeros((*slopes.shape[:2], clubs * _PER_CLUB + 2))
    for row, place in enumerate(club.tolist()):
        found[row, :, place * _PER_CLUB : (place + 1) * _PER_CLUB] = slopes[row, :, :_PER_CLUB]
        found[row, :, -2:] = slopes[row, :, _PER_CLUB:]
    return found


def _linearised(base: Sequence[Norm], mean: Numbers, readings: Readings) -> tuple[Numbers, Numbers]:
    """The readings that the mean predicts (row, reading), and their slopes along five numbers and two factors."""
    rows = len(readings.club)
    usual = np.array([base[place].delivery for place in readings.club])
    heads = np.array([base[place].head_mass for place in readings.club])
    start = np.array([mean[place * _PER_CLUB : (place + 1) * _PER_CLUB] for place in readings.club])
    moved = np.repeat(start[:, None, :], _PER_CLUB + 1, axis=1)
    for number in range(_PER_CLUB):
        moved[:, number + 1, number] += STEPS[number]
    delivery = delivered(usual[:, None, :], moved)
    ball = struck(delivery, heads[:, None])
    predicted = np.zeros((rows, _PER_CLUB + 3, len(READINGS)))
    columns = (
        np.log(delivery.club_speed),
        delivery.attack,
        delivery.dynamic_loft,
        np.log(ball.ball_speed),
        ball.launch_angle,
        np.log(np.maximum(ball.spin_rate, 1e-6)),
    )
    for place, column in enumerate(columns):
        predicted[:, : _PER_CLUB + 1, place] = column
        predicted[:, _PER_CLUB + 1 :, place] = column[:, :1]
    if np.isfinite(readings.values[:, FLOWN:]).any():
        drag, lift = 1.0 + mean[-2], 1.0 + mean[-1]
        air = Weather(*(np.broadcast_to(each, rows)[:, None] for each in readings.weather))
        flights = [flown(ball, air, drag, lift)]
        first = type(ball)(*(np.asarray(each)[:, :1] for each in ball))
        flights.append(flown(first, air, drag + STEPS[5], lift))
        flights.append(flown(first, air, drag, lift + STEPS[6]))
        predicted[:, :, FLOWN] = np.log(np.maximum(np.hstack([each.carry for each in flights]), 1e-3))
        predicted[:, :, FLOWN + 1] = np.hstack([each.apex for each in flights])
    middle = predicted[:, 0, :]
    slopes = (predicted[:, 1:, :] - middle[:, None, :]) / STEPS[None, :, None]
    return middle, np.moveaxis(slopes, 1, 2)
