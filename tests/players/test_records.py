"""What a list says of its player, and what a player's figure may be."""

from __future__ import annotations

import msgspec
import pytest

from asplayed.clubs import Club, GolfSet, Passage, SetFacts
from asplayed.errors import BadInput
from asplayed.players.records import Player, player_figure, player_of, with_usual


def said(*notes: str) -> GolfSet:
    passages = tuple(Passage(line=number, text=text) for number, text in enumerate(notes, 1))
    return GolfSet(set=SetFacts(player="Priya Lindqvist", hand="left"), notes=passages)


@pytest.mark.parametrize(
    ("note", "field", "value"),
    [
        ("swing speed around 98 mph", "driver_speed", 98),
        ("driver speed: 45 m/s", "driver_speed", 45 / 0.44704),
        ("clubhead speed 101", "driver_speed", 101),
        ("handicap 12.4", "handicap", 12.4),
        ("hcp: +2", "handicap", -2),
        ("a 7-handicap", "handicap", 7),
        ("scratch player", "handicap", 0),
        ("wrist to floor 34½ in", "wrist_to_floor", 34.5),
        ("wrist-to-floor 89 cm", "wrist_to_floor", 89 / 2.54),
    ],
)
def test_a_list_s_notes_speak_of_the_player(note: str, field: str, value: float) -> None:
    found = getattr(player_of(said("tip trimmed an inch", note)), field)
    assert found.value == pytest.approx(value)
    assert found.source.value == "stated" and "line 2" in found.why


def test_a_list_that_says_nothing_leaves_the_player_unknown() -> None:
    player = player_of(said("the old driver at 45 inches", "handicapped by the wind", "ball speed 150"))
    assert (player.name, player.hand) == ("Priya Lindqvist", "left")
    assert player.driver_speed is None and player.handicap is None


def test_the_speed_in_another_club_s_line_is_not_the_driver_s() -> None:
    iron = Club(club="7 iron", kind="iron", lines=(1,))
    note = Passage(line=1, text="club speed 84 mph", club="7 iron")
    assert player_of(GolfSet(clubs=(iron,), notes=(note,))).driver_speed is None
    below = msgspec.structs.replace(note, line=2)
    assert player_of(GolfSet(clubs=(iron,), notes=(below,))).driver_speed.value == 84


def test_a_speed_nobody_swings_stays_a_note() -> None:
    assert player_of(said("swing speed 999 mph")).driver_speed is None


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("driver_speed", "400mph"),
        ("height", "2in"),
        ("driver_speed", "40in"),
        ("handicap", "x"),
        ("driver_speed", "105"),
        ("handicap", "9mph"),
    ],
)
def test_what_no_person_can_be_is_refused(name: str, text: str) -> None:
    with pytest.raises(BadInput):
        player_figure(name, text)


@pytest.mark.parametrize(
    "text", ["iron.attack=99deg", "iron.attack=9rad", "iron.attack=4yd", "putter.attack=1", "iron", "x.y=1"]
)
def test_a_delivery_nobody_has_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        with_usual(Player(), [text])


def test_what_is_usual_adds_up_and_the_new_replaces_the_old() -> None:
    first = with_usual(Player(), ["iron.attack=-4", "fairway_wood.path=3deg"])
    again = {each.kind: each for each in with_usual(Player(delivery=first), ["iron.attack=-5", "iron.face=1"])}
    assert (again["iron"].attack.value, again["iron"].face.value, again["fairway wood"].path.value) == (-5, 1, 3)
