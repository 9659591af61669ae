"""The best set, end to end: against every set there is, its words through the workshop, its doubts and refusals."""

from __future__ import annotations

import json
from functools import cache
from itertools import product

import numpy as np
import pytest
from msgspec.structs import replace

import asplayed
from asplayed.catalogue import Part
from asplayed.choosing.candidates import candidates
from asplayed.choosing.choice_model import Limits, Progress
from asplayed.choosing.choose import CHANGE_WORTH, Chosen, choose, pattern_of
from asplayed.choosing.cost import expected_strokes
from asplayed.choosing.demand import Situation, course_of
from asplayed.choosing.prices import Prices
from asplayed.clubs import Club, GolfSet
from asplayed.errors import BadInput
from asplayed.intake.changes import read_changes
from asplayed.players.records import Conditions, Player
from asplayed.players.versions import fly_versions, hands_of
from asplayed.quantities import figure, plain
from asplayed.workshop import order

from .conftest import catalogue, demo_player, demo_set, small

YARD = 0.9144
PLAYER = Player(driver_speed=figure(100, "mph", "stated"), handicap=figure(8, "1", "stated"))
SHOTS = tuple(
    Situation(lie, yards * YARD, often)  # type: ignore[arg-type]
    for lie, yards, often in (
        ("tee", 400, 10), ("fairway", 150, 4), ("rough", 130, 3), ("fairway", 96, 3), ("rough", 80, 2)
    )
)  # fmt: skip


@cache
def small_choice(clubs: int = 14, worth: float = 0.0, tried: tuple[str, ...] = ("bends",)) -> Chosen:
    limits = Limits(clubs=clubs, change_worth=worth)
    return choose(small(), player=PLAYER, limits=limits, situations=SHOTS, tried=tried, worlds=30)


@pytest.mark.parametrize(("clubs", "worth"), [(14, 0.0), (4, 0.0), (3, 0.002), (14, 0.01)])
def test_no_set_is_better(clubs: int, worth: float) -> None:
    """Every set there is, each club at every setting or left out, reckoned without any solver."""
    hands = hands_of(small(), PLAYER)
    found = candidates(hands, tried=("bends",))
    strokes = expected_strokes(pattern_of(fly_versions(hands, found.versions), found.versions), SHOTS).strokes
    weights = np.array([each.weight for each in SHOTS])
    places: dict[str, list[int | None]] = {}
    for place, each in enumerate(found.entries):
        places.setdefault(each.place, [None]).append(place)
    least = np.inf
    for chosen in product(*places.values()):
        kept = [place for place in chosen if place is not None]
        if 0 < len(kept) <= clubs - 1:  # one of them is the putter
            cost = float(strokes[kept].min(axis=0) @ weights)
            least = min(least, cost + worth * sum(len(found.entries[place].words) for place in kept))
    answer = small_choice(clubs, worth)
    changes = sum(len(each.changes) for each in answer.chosen)
    assert answer.proven and answer.proof_gap.number == 0
    assert answer.objective.number + worth * changes == pytest.approx(least, abs=1e-4)
    assert len(answer.chosen) <= clubs and answer.chosen[-1].kind == "putter"


def test_more_to_choose_from_is_never_worse() -> None:
    nothing, bends, both = (small_choice(14, 0.0, tried) for tried in ((), ("bends",), ("bends", "lengths")))
    assert nothing.objective.number == nothing.today.number and nothing.changes == ()
    assert both.objective.number <= bends.objective.number + 1e-9 <= nothing.objective.number + 2e-9
    assert nothing.candidates < bends.candidates < both.candidates


def test_the_order_of_the_list_does_not_matter() -> None:
    turned = replace(small(), clubs=small().clubs[::-1])
    other = choose(
        turned, player=PLAYER, limits=Limits(change_worth=0.0), situations=SHOTS[::-1], tried=("bends",), worlds=0
    )
    one = small_choice()
    assert other.objective.number == pytest.approx(one.objective.number, abs=1e-4)
    assert set(other.changes) == set(one.changes)


def test_changes_that_bring_too_little_are_not_made() -> None:
    assert small_choice(14, 5.0).changes == ()
    assert "today's set is the best there is" in small_choice(14, 5.0).words[0]


def test_a_seed_repeats_the_doubt_and_is_recorded() -> None:
    free = Limits(change_worth=0.0)
    one, again, other = (
        choose(small(), player=PLAYER, limits=free, situations=SHOTS, tried=("bends",), worlds=40, seed=seed)
        for seed in (3, 3, 4)
    )  # fmt: skip
    assert one == again and one.seed == 3 and one.sure is not None and one.sure.seed == 3
    assert other.sure is not None and other.sure.saved != one.sure.saved
    assert 0 <= one.sure.better.number <= 100 and one.sure.saved.low is not None
    assert one.sure.saved.low <= one.sure.saved.number <= (one.sure.saved.high or 0)


def test_an_interrupt_ends_with_the_best_so_far() -> None:
    def interrupt(progress: Progress) -> None:
        raise KeyboardInterrupt

    answer = choose(small(), player=PLAYER, situations=SHOTS, tried=("bends",), worlds=0, on_progress=interrupt)
    assert answer.stopped and answer.chosen and answer.proof_gap.number >= 0


@pytest.mark.parametrize(
    ("limits", "words"),
    [
        (Limits(clubs=2, required=("driver", "7 iron")), "driver"),
        (Limits(required=("3 wood",)), "there is no club '3 wood' to require"),
        (Limits(forbidden=("drivr",)), "did you mean driver"),
        (Limits(forbidden=("driver",), required=("driver",)), "driver"),
        (Limits(most_price=100.0), "no currency"),
        (Limits(clubs=15), "Rule 4.1b"),
        (Limits(least_gap=400.0, required=("7 iron", "9 iron")), "gap"),
    ],
)
def test_limits_that_clash_are_named(limits: Limits, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        choose(small(), player=PLAYER, limits=limits, situations=SHOTS, tried=("bends",), worlds=0)


def test_a_set_without_clubs_is_refused() -> None:
    with pytest.raises(BadInput, match="no club that is swung in full"):
        choose(GolfSet(clubs=(Club(club="putter", kind="putter"),)))


def test_without_a_putter_a_place_is_kept_for_one() -> None:
    bag = replace(small(), clubs=small().clubs[:-1])
    answer = choose(bag, player=PLAYER, limits=Limits(clubs=3), situations=SHOTS, tried=(), worlds=0)
    assert len(answer.chosen) == 2 and any("no putter" in words for words in answer.assumed)


def test_a_course_brings_its_height_and_winds() -> None:
    text = 'title = "One"\n[[hole]]\npar = 4\nlength = "380 yd"\n{winds}'
    calm = course_of(text.format(winds=""))
    windy = course_of(
        text.format(winds='[[wind]]\nblows = "20 mph head"\nshare = 1\n[[wind]]\nblows = "20 mph tail"\nshare = 1')
    )
    answers = {
        (title, against): choose(
            small(), player=PLAYER, course=course, situations=SHOTS, tried=(), worlds=0, against=against  # type: ignore[arg-type]
        ).today.number
        for title, course in (("calm", calm), ("windy", windy))
        for against in ("average", "worst")
    }  # fmt: skip
    assert answers["calm", "average"] == answers["calm", "worst"] != answers["windy", "average"]
    still = choose(
        small(), player=PLAYER, course=windy, situations=SHOTS, tried=(), worlds=0,
        conditions=Conditions(wind_along=figure(0, "mph", "stated")),
    )  # fmt: skip
    assert still.today.number == pytest.approx(answers["calm", "average"], abs=1e-4)


# --- the demo players -------------------------------------------------------------------------------------------------


@cache
def demo(name: str) -> Chosen:
    player = demo_player(name)
    limits = Limits(change_worth=CHANGE_WORTH, most_changes=4)
    shots = [Situation("fairway", yards * YARD, 1.0) for yards in range(70, 210, 20)]
    shots += [Situation("rough", yards * YARD, 0.7) for yards in (90, 130, 170)]
    shots += [Situation("tee", yards * YARD, 5.0) for yards in (160, 380)]
    return choose(demo_set(name), player=player, parts=catalogue(), limits=limits, situations=shots, worlds=60)


def test_a_demo_player_s_answer_is_whole(parts: tuple[Part, ...]) -> None:
    """A proof, ten alternatives, the worth of every club, the front by changes, and changes that a workshop takes."""
    answer = demo("mireille-okafor")
    assert answer.proven and answer.saved.number > 0 and len(answer.chosen) <= 14
    assert len(answer.alternatives) == 10 and all(each.more.number >= -1e-9 for each in answer.alternatives[:1])
    assert [each.limit.number for each in answer.front_by_changes] == sorted(
        {each.limit.number for each in answer.front_by_changes}
    )
    saved = [each.saved.number for each in answer.front_by_changes]
    assert saved == sorted(saved) and saved[0] == 0
    assert 0 < sum(len(each.changes) for each in answer.chosen) <= 4
    for each in answer.chosen[:-1]:
        assert each.carry is not None and each.why and each.label
    read = read_changes(answer.changes, demo_set("mireille-okafor"), parts)
    made = order(demo_set("mireille-okafor"), read, parts=parts)
    assert {each.club for each in answer.chosen if each.changes} <= {club.club.split(" ", 0)[0] for club in made.clubs}
    assert made.outcome is not None and len(made.outcome.clubs) == len(answer.chosen)


def test_the_words_are_no_one_sentence_told_many_times() -> None:
    answer = demo("mireille-okafor")
    assert len(set(answer.words)) == len(answer.words) >= 5
    reasons = [each.why or "" for each in answer.chosen]
    assert len(set(reasons)) == len(reasons)
    told = " ".join(answer.words)
    assert "worlds we believe in" in told and "proven" in told and "conforms" not in told
    assert "  " not in told and ".." not in told


def test_the_answer_is_strict_json_of_the_contract_s_shape() -> None:
    answer = json.loads(json.dumps(plain(demo("mireille-okafor")), allow_nan=False))
    assert {"objective", "proof_gap", "candidates", "chosen", "alternatives"} <= set(answer)
    assert answer["objective"]["unit"] == "strokes" and isinstance(answer["candidates"], int)
    assert all({"club", "changes"} <= set(each) for each in answer["chosen"])


def test_a_purse_bounds_what_is_bought(parts: tuple[Part, ...]) -> None:
    names = {f"{part.maker} {part.model}".casefold(): 200.0 for part in parts if part.part == "head"}
    prices = Prices({**names, "bend": 10.0}, "EUR")
    limits = Limits(change_worth=0.0, most_price=25.0, currency="EUR")
    answer = choose(
        demo_set("mireille-okafor"), player=demo_player("mireille-okafor"), parts=parts, limits=limits,
        tried=("bends", "heads"), prices=prices, situations=SHOTS, worlds=0,
    )  # fmt: skip
    assert answer.price is not None and answer.price.number <= 25.0 and answer.price.why == "EUR"
    assert not any(each.parts for each in answer.chosen)
    assert sum("bend" in words for words in answer.changes) * 10 == answer.price.number


def test_the_package_s_own_name_for_it() -> None:
    assert asplayed.choose is choose
