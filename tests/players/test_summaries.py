"""The typical shot, its band and the shots that stand apart."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.mechanics.statistics import median_interval, spread
from asplayed.players.summaries import flag, open_questions, pooled, stands_apart, summarise, typical
from asplayed.quantities import Source

SHOTS = st.lists(st.floats(1, 400).map(lambda x: round(x, 1)), min_size=1, max_size=40)


@given(SHOTS)
def test_the_shots_that_stand_apart_are_those_of_the_bench(shots: list[float]) -> None:
    # ties at the 60 % limit may fall either way, so only how many
    ours, bench = stands_apart(np.array(shots)), spread(shots).flagged
    assert int(ours.sum()) == len(bench)
    if len(bench) < int(0.4 * len(shots)):
        assert np.flatnonzero(ours).tolist() == list(bench)


@given(SHOTS)
def test_the_band_holds_the_median_and_no_shot_that_was_not_read_counts(shots: list[float]) -> None:
    found = typical(np.array([*shots, np.nan]), "carry")
    assert found is not None and found.shots == len(shots)
    assert found.low <= found.value <= found.high
    assert found.value == pytest.approx(float(np.median(shots)))


def test_the_interpolated_band_lies_between_the_plain_ones() -> None:
    values = np.arange(1.0, 21.0)
    found = typical(values, "carry")
    assert found is not None
    wide, narrow = median_interval(values.tolist(), 0.95), median_interval(values.tolist(), 0.80)
    assert wide.low <= found.low <= narrow.low and narrow.high <= found.high <= wide.high


def test_a_flagged_shot_is_shown_kept_aside_and_never_lost(make) -> None:
    shots = make.session(["7 iron"], [0] * 6, carry=[138, 139, 137, 140, 138, 95], side=[0, 1, -1, 2, 0, -1]).shots
    flagged, why = flag(shots)
    assert flagged.tolist() == [False] * 5 + [True]
    assert "carry" in why[5] and "yd" in why[5]
    [club] = summarise(shots)
    assert (club.shots, club.flagged, len(club.good.row)) == (6, 1, 5)
    carry = club.figure("carry")
    assert carry is not None and carry.source is Source.MEASURED and carry.value == pytest.approx(138 / 0.9144)


def test_a_wild_direction_is_flagged_too(make) -> None:
    shots = make.session(["7 iron"], [0] * 7, carry=[138.0] * 6 + [137.0], side=[0, 1, -1, 2, 0, -1, 45]).shots
    assert flag(shots)[0].tolist() == [False] * 6 + [True]


def test_ordinary_dispersion_is_no_mishit(make) -> None:
    # eight yards of scatter about the line, two shots twice that off it
    yards = [-15.4, 4.6, 0.7, 0.2, -16.4, 1.5, -1.0, 3.2, 0.9, -2.1]
    carry = [209, 213.4, 219.8, 210.8, 214, 216, 212, 211, 215, 213]
    shots = make.session(["driver"], [0] * 10, carry=np.array(carry) * 0.9144, side=np.array(yards) * 0.9144).shots
    assert not flag(shots)[0].any()


def test_a_direction_flagged_does_not_narrow_the_spread_across_the_line(make) -> None:
    side = [0.0, 6, -7, 9, -4, 3, -8, 60]
    shots = make.session(["7 iron"], [0] * 8, carry=[138.0, 139, 137, 140, 138, 136, 139, 138], side=side).shots
    [club] = summarise(shots)
    across = club.typical("side")
    assert club.flagged == 1 and club.typical("carry").shots == 7
    assert across.shots == 8 and across.spread == pytest.approx(spread(side).scale)


def test_without_carry_the_ball_speed_tells_a_mishit(make) -> None:
    shots = make.session(["driver"], [0] * 6, ball_speed=[67, 66.5, 67.2, 66.8, 67.1, 51]).shots
    assert flag(shots)[0].tolist() == [False] * 5 + [True]


def test_few_shots_have_a_wide_band(make) -> None:
    one, two, many = (typical(np.full(n, 140.0) + np.arange(n) * 0.01, "carry") for n in (1, 2, 30))
    assert one and two and many
    assert one.high - one.low > two.high - two.low > many.high - many.low


def test_sessions_pool_by_club_whatever_columns_they_have(make) -> None:
    names = ["driver", "7 iron"]
    first = make.session(names, [0, 1], carry=[230.0, 140.0])
    second = make.session(names, [1], side=[3.0])
    clubs = {each.club: each for each in pooled([first, second])}
    assert clubs["7 iron"].shots == 2 and clubs["driver"].shots == 1
    assert clubs["7 iron"].typical("side").value == 3.0 and clubs["7 iron"].typical("carry").shots == 1


def test_how_many_more_shots_would_settle_a_question(make) -> None:
    rng = np.random.default_rng(4)
    carries = np.hstack([rng.normal(140, 7, 8), rng.normal(136, 7, 8)])
    [question] = open_questions(summarise(make.session(["6 iron", "7 iron"], [0] * 8 + [1] * 8, carry=carries).shots))
    assert question.clubs == ("6 iron", "7 iron")
    assert question.more == question.needed - 8 > 0
    assert "more shots" in question.sentence


@pytest.mark.parametrize("shots", [6, 9, 14, 25])
def test_nine_bands_in_ten_hold_the_truth_mishits_or_not(make, shots: int) -> None:
    rng = np.random.default_rng(shots)
    held = 0
    for _ in range(1000):
        carry = rng.normal(140, rng.uniform(3, 9), shots)
        mishit = rng.random(shots) < 0.06
        carry[mishit] -= np.abs(rng.normal(32, 10, int(mishit.sum())))
        found = summarise(make.session(["7 iron"], [0] * shots, carry=carry).shots)[0].typical("carry")
        held += found.low <= 140 <= found.high
    assert 870 <= held <= 930
