"""A figure's band, source and chain."""

import math

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.quantities import Figure, Source, chain, clash, derive, figure, plain, stronger


def test_sources_are_ranked_as_the_design_says() -> None:
    order = ["measured", "stated", "published", "computed", "common practice", "assumed"]
    assert [source.value for source in sorted(Source, key=lambda s: s.rank)] == order


def test_the_stronger_source_wins_and_an_empty_figure_never_does() -> None:
    guess, said = figure(10, "deg", "assumed"), figure(9, "deg", "stated")
    assert stronger(guess, said) is said
    assert stronger(said, guess) is said
    assert stronger(None, guess) is guess
    assert stronger(said, None) is said
    assert stronger(figure(None, "deg", "measured"), guess) is guess


def test_a_clash_is_wider_than_both_bands() -> None:
    stated, published = figure(56, "deg", "stated", tolerance=1), figure(58.5, "deg", "published", tolerance=1)
    assert clash(stated, published)
    assert not clash(stated, figure(57.9, "deg", "published", tolerance=1))
    assert not clash(figure(1, "in", "stated"), figure(25.4, "mm", "stated"))
    assert clash(figure("D2", "1", "stated"), figure("D3", "1", "computed"))


@given(st.floats(0.01, 5), st.floats(0.01, 5))
def test_independent_bands_combine_in_quadrature(one: float, other: float) -> None:
    total = derive(
        lambda a, b: a + b,
        "g",
        "sum",
        a=figure(100, "g", "stated", tolerance=one),
        b=figure(50, "g", "stated", tolerance=other),
    )
    assert total.number == pytest.approx(150)
    assert total.half_width == pytest.approx(math.hypot(one, other), rel=1e-6)


def test_units_are_taken_off_at_the_door_and_put_on_again() -> None:
    made = derive(
        lambda mass, arm: mass * arm, "in*oz", "moment", mass=figure(200, "g", "stated"), arm=figure(30, "in", "stated")
    )
    assert made.number == pytest.approx(200 / 28.349523125 * 30)
    assert made.low is None


def test_the_chain_names_every_figure_behind_one() -> None:
    stamp = figure(56, "deg", "stated", tolerance=1)
    bend = figure(1, "deg", "assumed")
    loft = derive(lambda stamp, bend: stamp + bend, "deg", "stamp plus bend", stamp=stamp, bend=bend)
    assert [(depth, name) for depth, name, _ in chain(loft, "loft")] == [(0, "loft"), (1, "stamp"), (1, "bend")]
    assert loft.weakest is Source.ASSUMED


def test_json_carries_no_chain_and_nothing_that_is_not_strict_json() -> None:
    loft = derive(lambda stamp: stamp, "deg", "as stamped", stamp=figure(56, "deg", "stated", tolerance=1))
    assert set(plain(loft)) == {"value", "unit", "low", "high", "source", "why"}
    assert msgspec.json.decode(msgspec.json.encode(plain(loft)), type=Figure).low == pytest.approx(55)
    with pytest.raises(ValueError, match="cannot be nan"):
        figure(math.nan, "deg", "stated")


def test_a_band_is_not_put_over_one_that_is_known() -> None:
    gauged = figure(56, "deg", "measured", tolerance=0.25)
    assert gauged.within(1) is gauged
    assert gauged.in_unit("rad").number == pytest.approx(math.radians(56))


def test_a_text_is_no_number() -> None:
    with pytest.raises(TypeError, match="is not a number"):
        _ = figure("D2", "1", "stated").number
