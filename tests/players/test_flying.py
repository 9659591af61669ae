"""A set flown: measured before flown, the club as played matters, chance is numbered, bands are honest."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from asplayed.clubs import Bend, GolfSet, as_played
from asplayed.players.delivery import MPH, norm, skill_of
from asplayed.players.flown import FlownClub, FlownSet
from asplayed.players.flying import fly_set
from asplayed.players.inference import Weather, delivered, flown, prior_covariance, struck
from asplayed.players.records import Conditions, Player, UsualDelivery
from asplayed.quantities import Source, chain, figure

YARD = 0.9144


def one(answer: FlownSet, name: str) -> FlownClub:
    return next(each for each in answer.clubs if each.label == name)


def struck_iron(make, carry: float = 150.0, shots: int = 12, conditions: Conditions | None = None):
    rng = np.random.default_rng(8)
    carries = rng.normal(carry, 4, shots) * YARD
    return make.session(["7 iron"], [0] * shots, conditions, carry=carries, side=rng.normal(3, 5, shots))


def test_every_club_but_the_putter_flies_with_bands(make) -> None:
    answer = fly_set(make.bag(*make.fourteen), make.player(), shots=50)
    assert [each.club for each in answer.clubs] == list(make.fourteen[:-1])
    for each in answer.clubs:
        for entry in (each.carry, each.total, each.apex, each.descent, each.time, each.ball_speed, each.spin):
            assert entry.low < entry.value < entry.high
        assert each.depth.value > 0 and each.width.value > 0
        assert each.ellipse.long.value >= each.ellipse.short.value > 0
    carries = [each.carry.value for each in answer.clubs]
    assert carries == sorted(carries, reverse=True)
    assert [swing.swing for swing in one(answer, "sand wedge").part_swings] == ["half", "three-quarter"]
    assert not one(answer, "9 iron").part_swings


def test_every_carry_can_say_what_it_was_worked_out_from(make) -> None:
    answer = fly_set(make.bag("7 iron"), make.player(), shots=20)
    names = {name for _, name, _ in chain(answer.clubs[0].carry)}
    assert {"ball_speed", "club_speed", "dynamic_loft", "loft", "driver_speed"} <= names


def test_nobody_known_is_the_average_man_and_says_so(make) -> None:
    answer = fly_set(make.bag("driver"), shots=20)
    assert answer.skill.driver_speed.value == 93
    assert any("driver speed" in sentence for sentence in answer.assumed)
    assert any("70 °F" in sentence for sentence in answer.assumed)


def test_a_measured_carry_stands_before_a_flown_one(make) -> None:
    session = struck_iron(make)
    answer = fly_set(make.bag("6 iron", "7 iron"), make.player(), [session], shots=50)
    iron = one(answer, "7 iron")
    assert iron.carry.source is Source.MEASURED and iron.shots == 12
    assert iron.carry.value == pytest.approx(np.median(session.shots.columns["carry"]) / YARD)
    assert iron.carry.high - iron.carry.low < 10 < one(answer, "6 iron").carry.high - one(answer, "6 iron").carry.low
    assert iron.side.source is Source.MEASURED
    assert one(answer, "6 iron").carry.source is Source.COMPUTED


def test_flagged_mishits_do_not_move_the_typical_carry(make) -> None:
    clean = struck_iron(make)
    bad = np.append(clean.shots.columns["carry"], [70.0, 62.0])
    dirty = make.session(["7 iron"], [0] * 14, carry=bad, side=np.append(clean.shots.columns["side"], [0, 0]))
    iron = fly_set(make.bag("7 iron"), make.player(), [dirty], shots=50).clubs[0]
    assert iron.flagged == 2 and iron.shots == 14
    assert iron.carry.value == fly_set(make.bag("7 iron"), make.player(), [clean], shots=50).clubs[0].carry.value


def test_a_measured_carry_moves_with_the_air_as_the_flown_one_does(make) -> None:
    session = struck_iron(make, conditions=Conditions(temperature=figure(50, "degF", "stated")))
    here = fly_set(make.bag("7 iron"), make.player(), [session], shots=50)
    assert here.place.conditions.temperature.value == 50
    hot = Conditions(temperature=figure(90, "degF", "stated"))
    there = fly_set(make.bag("7 iron"), make.player(), [session], conditions=hot, shots=50)
    assert here.clubs[0].carry.source is Source.MEASURED
    carry = there.clubs[0].carry
    assert carry.source is Source.COMPUTED and 3 < carry.value - here.clubs[0].carry.value < 11
    assert "measured" in {parent.name for parent in carry.parents}


def test_an_altered_club_flies_from_the_shots_of_the_old_one(make) -> None:
    bag = make.bag("6 iron", "7 iron")
    bent = msgspec.structs.replace(
        bag,
        clubs=(bag.clubs[0], msgspec.structs.replace(bag.clubs[1], bend=Bend(loft=figure(2, "deg", "stated")))),
    )
    session = make.session(["6 iron", "7 iron"], [1] * 8, carry=np.linspace(148, 152, 8) * YARD)
    today = fly_set(bag, make.player(), [session], shots=50)
    tomorrow = fly_set(bent, make.player(), [session], struck_with=bag, shots=50)
    fewer = one(today, "7 iron").carry.value - one(tomorrow, "7 iron").carry.value
    assert 3 < fewer < 9
    assert one(today, "6 iron") == one(tomorrow, "6 iron")


def test_a_club_that_is_new_flies_by_what_the_others_showed(make) -> None:
    quick = make.session(["7 iron"], [0] * 6, club_speed=np.full(6, 95 * MPH) + np.arange(6) * 0.1)
    slow = make.session(["7 iron"], [0] * 6, club_speed=np.full(6, 75 * MPH) + np.arange(6) * 0.1)
    carries = [
        one(
            fly_set(make.bag("4 hybrid"), make.player(), [each], struck_with=make.bag("7 iron"), shots=20), "4 hybrid"
        ).carry.value
        for each in (quick, slow)
    ]
    assert carries[0] > carries[1] + 15


def test_shots_alone_say_how_fast_the_player_swings(make) -> None:
    fast = make.session(["driver"], [0] * 6, ball_speed=np.full(6, 165 * MPH) + np.arange(6) * 0.1)
    answer = fly_set(make.bag("driver", "7 iron"), None, [fast], shots=20)
    assert 105 < answer.skill.driver_speed.value < 117
    assert answer.skill.handicap.value < 2


def test_shots_with_a_club_no_longer_in_the_set_are_said_to_be_left_out(make) -> None:
    answer = fly_set(make.bag("driver"), make.player(), [struck_iron(make)], shots=20)
    assert any("7 iron" in sentence and "left out" in sentence for sentence in answer.assumed)


def test_ball_and_carry_together_fit_the_flight_and_say_what_is_left(make) -> None:
    bag = make.bag("driver", "7 iron")
    n = 10
    session = make.session(
        ["driver", "7 iron"],
        [0] * n + [1] * n,
        ball_speed=np.r_[np.full(n, 150 * MPH), np.full(n, 112 * MPH)],
        launch=np.radians(np.r_[np.full(n, 12.0), np.full(n, 17.5)]),
        spin=np.r_[np.full(n, 2700.0), np.full(n, 6700.0)] * np.pi / 30,
        carry=np.r_[np.full(n, 225.0), np.full(n, 150.0)] * YARD,
    )
    answer = fly_set(bag, make.player(), [session], shots=20)
    assert answer.fit is not None
    assert answer.fit.drag.value > 1 and answer.fit.drag.low < answer.fit.drag.value
    assert 0 <= answer.fit.unexplained.value < 10
    assert fly_set(bag, make.player(), [struck_iron(make)], shots=20).fit is None


def test_the_player_s_usual_delivery_counts(make) -> None:
    steep = UsualDelivery(kind="iron", attack=figure(-7, "deg", "stated"), added_loft=figure(-14, "deg", "stated"))
    plain = fly_set(make.bag("7 iron"), make.player(), shots=20).clubs[0]
    told = fly_set(make.bag("7 iron"), msgspec.structs.replace(make.player(), delivery=(steep,)), shots=20).clubs[0]
    assert told.attack.value < plain.attack.value - 1.5
    assert told.dynamic_loft.value < plain.dynamic_loft.value - 2
    curving = UsualDelivery(kind="iron", face=figure(0, "deg", "stated"), path=figure(4, "deg", "stated"))
    left = fly_set(make.bag("7 iron"), msgspec.structs.replace(make.player(), delivery=(curving,)), shots=20).clubs[0]
    assert left.side.value < -3


@pytest.mark.parametrize(("hand", "sign"), [("right", -1), ("left", 1)])
def test_an_upright_lie_starts_the_ball_to_the_player_s_own_side(make, hand: str, sign: int) -> None:
    upright = GolfSet(clubs=(make.club("pitching wedge", lie=66.75),))
    player = msgspec.structs.replace(make.player(), hand=hand)
    assert sign * fly_set(upright, player, shots=20).clubs[0].side.value > 2


def test_chance_is_numbered(make) -> None:
    bag, player = make.bag("driver", "7 iron"), make.player()
    first, again, other = (fly_set(bag, player, shots=80, seed=seed) for seed in (3, 3, 4))
    assert first.clubs == again.clubs
    assert one(first, "driver").depth != one(other, "driver").depth
    assert one(first, "driver").carry == one(other, "driver").carry
    assert (first.landings["7 iron"] == again.landings["7 iron"]).all()


def test_landings_lie_around_the_club_s_own_shot(make) -> None:
    answer = fly_set(make.bag("7 iron"), make.player(), [struck_iron(make)], shots=400)
    iron, landings = answer.clubs[0], answer.landings["7 iron"]
    assert landings.shape == (400, 2)
    assert landings[:, 0].mean() / YARD == pytest.approx(iron.carry.value)
    assert landings.std(axis=0) / YARD == pytest.approx([iron.depth.value, iron.width.value])


def test_a_set_of_a_putter_alone_flies_nothing(make) -> None:
    assert fly_set(make.bag("putter"), make.player()).clubs == ()


def drawn(make, names: tuple[str, ...]):
    """A player whose truth is drawn from the spread of players: his norms, and how to draw from them."""
    told = Player(driver_speed=figure(100, "mph", "stated", tolerance=4), handicap=figure(5, "1", "stated"))
    clubs = [make.club(name) for name in names]
    base = [norm(one, as_played(one), skill_of(told)) for one in clubs]
    usual, heads = np.array([each.delivery for each in base]), np.array([each.head_mass for each in base])
    spread = prior_covariance(0.04, len(names))

    def truth(rng: np.random.Generator):
        """The ball as it leaves each club, and the typical carry (m), off the law of flight as far as that is known."""
        departure = rng.multivariate_normal(np.zeros(len(spread)), spread, method="eigh")
        ball = struck(delivered(usual, departure[:-2].reshape(len(names), 5)), heads)
        carry = flown(ball, Weather(1.19443, 1.82e-5), 1 + departure[-2], 1 + departure[-1]).carry
        off = [0.03 if name == "driver" else 0.02 for name in names]
        return ball, carry * (1 + np.array(off) * rng.standard_normal(len(names)))

    return told, GolfSet(clubs=tuple(clubs)), truth


@pytest.mark.slow
def test_nine_bands_of_carry_in_ten_hold_the_truth(make) -> None:
    names = ("driver", "9 iron")
    told, bag, truth = drawn(make, names)
    rng = np.random.default_rng(12)
    nothing = {each.club: each.carry for each in fly_set(bag, told, shots=4).clubs}
    held = np.zeros(4)
    for _ in range(1000):
        ball, carry = truth(rng)
        # twelve drives, read as readings go, one in seventeen mis-hit; the 9 iron is not struck
        speed, launch, spin = (float(x[0]) for x in (ball.ball_speed, ball.launch_angle, ball.spin_rate))
        speed, launch, spin = (
            speed * (1 + 0.005 * rng.standard_normal()),
            launch + np.radians(0.3) * rng.standard_normal(),
            spin * (1 + 0.03 * rng.standard_normal()),
        )
        drives = carry[0] * (1 + 0.04 * rng.standard_normal(12))
        drives[rng.random(12) < 1 / 17] *= 0.72
        session = make.session(
            names,
            [0] * 12,
            carry=drives,
            ball_speed=speed * (1 + 0.02 * rng.standard_normal(12)),
            launch=launch + 0.02 * rng.standard_normal(12),
            spin=spin * (1 + 0.06 * rng.standard_normal(12)),
        )
        answer = {each.club: each.carry for each in fly_set(bag, told, [session], shots=4).clubs}
        bands = [answer["driver"], answer["9 iron"], nothing["driver"], nothing["9 iron"]]
        held += [
            band.low * YARD <= there <= band.high * YARD for band, there in zip(bands, [*carry, *carry], strict=True)
        ]
    assert ((held >= 870) & (held <= 930)).all(), held


# Seven metres of spin-back were measured and any run is unsure by 30 %: ten yards. At 140 mph into the strongest wind a
# wedge launched with 14,000 rpm lands turning faster than any that was measured, and passes that by a yard.
@settings(max_examples=15, deadline=None)
@given(
    st.lists(st.sampled_from(["driver", "3 wood", "7 iron", "sand wedge", "putter", "chipper"]), max_size=4),
    st.floats(40, 140),
    st.floats(-5, 40),
    st.floats(-30, 30),
    st.floats(0, 10000),
)
def test_any_player_in_any_weather_is_flown(make, names, speed, handicap, wind, altitude) -> None:
    place = Conditions(wind_along=figure(wind, "mph", "stated"), altitude=figure(altitude, "ft", "stated"))
    for each in fly_set(make.bag(*names), make.player(speed, handicap), conditions=place, shots=8).clubs:
        assert 5 < each.carry.value < 450
        assert each.total.value > each.carry.value - 12


COLUMNS = st.fixed_dictionaries(
    {},
    optional={
        "club_speed": st.floats(10, 60),
        "ball_speed": st.floats(3, 100),
        "attack": st.floats(-0.4, 0.3),
        "dynamic_loft": st.floats(-0.15, 1.3),
        "launch": st.floats(-0.15, 1.3),
        "spin": st.floats(0, 1600),
        "carry": st.floats(1, 380),
        "total": st.floats(1, 400),
        "side": st.floats(-150, 150),
        "apex": st.floats(0, 90),
        "launch_direction": st.floats(-1, 1),
        "face": st.floats(-0.6, 0.6),
        "path": st.floats(-0.6, 0.6),
    },
)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(["driver", "7 iron", "sand wedge"]), COLUMNS, st.integers(1, 7), st.floats(0, 0.2))
def test_any_session_however_odd_is_flown(make, name, figures, shots: int, scatter: float) -> None:
    wobble = 1 + scatter * np.linspace(-1, 1, shots) if shots > 1 else np.ones(1)
    session = make.session([name], [0] * shots, **{column: value * wobble for column, value in figures.items()})
    for each in fly_set(make.bag(name, "5 iron"), make.player(), [session], shots=8).clubs:
        for entry in (each.carry, each.total, each.apex, each.side, each.depth, each.width, each.ball_speed, each.spin):
            assert np.isfinite(entry.number)
            assert entry.low is None or np.isfinite(entry.low)


def ball_read(make, conditions: Conditions | None = None, names=("6 iron", "7 iron"), at: int = 1, shots: int = 9):
    """A club read whole: a higher, softer, slower-spinning flight than the model's."""
    step = np.linspace(-1, 1, shots)
    return make.session(
        names,
        [at] * shots,
        conditions,
        ball_speed=(108 + 0.5 * step) * MPH,
        launch=np.radians(18.6 + 0.3 * step),
        spin=(5600 + 40 * step) * np.pi / 30,
        carry=(148 + step) * YARD,
        apex=(78 + step) * 0.3048,
    )


def test_every_figure_read_of_a_club_stands_in_its_own_air(make) -> None:
    answer = fly_set(make.bag("6 iron", "7 iron"), make.player(), [ball_read(make)], shots=20)
    iron = one(answer, "7 iron")
    for name, value in (("ball_speed", 108), ("launch", 18.6), ("spin", 5600), ("apex", 78)):
        entry = getattr(iron, name)
        assert entry.source is Source.MEASURED and entry.value == pytest.approx(value, rel=1e-6), name
        assert getattr(one(answer, "6 iron"), name).source is Source.COMPUTED
    assert iron.apex.half_width < 2


def test_a_figure_read_moves_with_the_air_and_the_ball_still_leaves_as_read(make) -> None:
    hot = Conditions(temperature=figure(100, "degF", "stated"), altitude=figure(5000, "ft", "stated"))
    session = ball_read(make)
    there = one(fly_set(make.bag("6 iron", "7 iron"), make.player(), [session], conditions=hot, shots=20), "7 iron")
    assert there.launch.source is Source.MEASURED and there.launch.value == pytest.approx(18.6)
    assert there.apex.source is Source.COMPUTED and there.apex.value < 77
    assert {parent.name for parent in there.apex.parents} == {"measured", "flown"}


def test_a_line_that_measured_clubs_share_is_taken_for_those_between_them(make) -> None:
    names = ("5 iron", "7 iron", "9 iron")
    n = 9
    carry = np.r_[np.full(n, 170.0), np.full(n, 130.0)] + np.tile(np.linspace(-2, 2, n), 2)
    side = carry * -0.06 + np.tile(np.linspace(-3, 3, n), 2)
    session = make.session(names, [0] * n + [2] * n, carry=carry * YARD, side=side * YARD)
    answer = fly_set(make.bag(*names, "sand wedge"), make.player(), [session], shots=20)
    between, beyond = one(answer, "7 iron").side, one(answer, "sand wedge").side
    assert between.source is Source.COMPUTED and between.value == pytest.approx(-0.06 * 150, abs=1.5)
    alone = one(fly_set(make.bag("sand wedge"), make.player(), shots=20), "sand wedge").side
    assert beyond.value == pytest.approx(alone.value) and beyond.half_width > alone.half_width + 1
    assert beyond.low < -0.06 * one(answer, "sand wedge").carry.value < beyond.high
