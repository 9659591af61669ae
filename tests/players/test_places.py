"""Air, wind and ground: what was asked for, what is filled in, what no air can be."""

from __future__ import annotations

import pytest

from asplayed.errors import BadInput
from asplayed.players.places import place_of
from asplayed.players.records import Conditions
from asplayed.quantities import figure


def conditions(**given: tuple[float, str]) -> Conditions:
    return Conditions(**{name: figure(*value, "stated") for name, value in given.items()})


def test_nothing_said_is_the_usual_air_and_says_so() -> None:
    place = place_of(None, [])
    assert place.weather.density == pytest.approx(1.1944, abs=2e-4)
    assert len(place.assumed) == 3 and "70 °F" in place.assumed[0]


def test_what_is_asked_goes_before_the_session_and_the_session_before_home() -> None:
    home = conditions(temperature=(90, "degF"), humidity=(20, "percent"), altitude=(3000, "ft"))
    session = conditions(temperature=(60, "degF"), humidity=(70, "percent"))
    place = place_of(conditions(temperature=(40, "degF")), [conditions(temperature=(0, "degC")), session], home)
    assert place.conditions.temperature.value == 40
    assert place.conditions.humidity.value == 70
    assert place.conditions.altitude.value == 3000
    assert place.assumed == ()


def test_the_nearer_record_s_pressure_stands_before_the_farther_one_s_altitude() -> None:
    place = place_of(conditions(pressure=(900, "hPa")), [], conditions(altitude=(0, "ft")))
    assert place.conditions.altitude is None and place.weather.density < 1.1


def test_signs_of_wind_and_height() -> None:
    place = place_of(conditions(wind_along=(-10, "mph"), wind_across=(5, "mph"), landing_height=(-10, "yd")), [])
    assert place.weather.wind_along == pytest.approx(-4.4704)
    assert place.weather.wind_across == pytest.approx(2.2352)
    assert place.weather.landing_height == pytest.approx(-9.144)


def test_firmer_ground_rolls_more() -> None:
    soft, firm = (place_of(Conditions(ground=ground), []).rolling_resistance for ground in ("soft", "firm"))
    assert firm < place_of(None, []).rolling_resistance < soft


@pytest.mark.parametrize(
    ("name", "value", "unit"),
    [("temperature", 300, "degF"), ("altitude", 90000, "ft"), ("humidity", 140, "percent"), ("wind_along", 200, "mph")],
)
def test_what_no_air_can_be_is_refused_with_its_range(name: str, value: float, unit: str) -> None:
    with pytest.raises(BadInput, match=f"{name.replace('_', ' ')}.*give"):
        place_of(conditions(**{name: (value, unit)}), [])


def test_a_unit_of_something_else_is_refused() -> None:
    with pytest.raises(BadInput, match="temperature is given in yd"):
        place_of(conditions(temperature=(70, "yd")), [])
