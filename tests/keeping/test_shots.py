"""Sessions and players kept with a set: the same comes back, the same again changes nothing, damage is noticed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping import Store
from asplayed.keeping.places import Place
from asplayed.keeping.shots import hide_session, save_player, save_session, stored_player, stored_sessions
from asplayed.players.records import Conditions, Player, SessionFacts
from asplayed.players.shots import Shots
from asplayed.players.summaries import Session
from asplayed.quantities import figure


def session(first: float = 140.123456789, day: str = "2026-03-15") -> Session:
    columns = {"carry": np.array([first, np.nan, 133.0]), "spin": np.array([700.0, 690.5, np.nan])}
    shots = Shots(np.array([2, 3, 5]), np.array([0, 1, 1]), ("driver", "7 iron"), columns)
    conditions = Conditions(temperature=figure(60, "degF", "stated"), ground="firm")
    return Session(SessionFacts(file="s.csv", date=day, ball="Pellan", surface="mat", conditions=conditions), shots)


def test_a_session_comes_back_as_it_was(store: Store, place: Place) -> None:
    saved = save_session(store, "ada", session(), b"the file", who="tester", notes=((2, "mood", "fine"),))
    assert saved.new
    [found] = stored_sessions("ada", place)
    assert found.facts == session().facts
    assert found.shots.clubs == ("driver", "7 iron")
    assert found.shots.row.tolist() == [2, 3, 5] and found.shots.club.tolist() == [0, 1, 1]
    for name, column in session().shots.columns.items():
        np.testing.assert_array_equal(found.shots.columns[name], column)


def test_the_same_session_again_changes_nothing_and_another_day_is_another(store: Store, place: Place) -> None:
    answers = [
        save_session(store, "ada", each, b"the file", who="tester").new
        for each in (session(), session(), session(day="2026-04-01"))
    ]
    assert answers == [True, False, True]
    assert [each.facts.date for each in stored_sessions("ada", place)] == ["2026-03-15", "2026-04-01"]


def test_sets_with_like_names_keep_their_own_sessions(store: Store, place: Place) -> None:
    save_session(store, "ada", session(), b"", who="tester")
    save_session(store, "ada 2", session(120.0), b"", who="tester")
    assert len(stored_sessions("ada", place)) == len(stored_sessions("ada 2", place)) == 1
    assert stored_sessions("ad", place) == stored_sessions("a%", place) == ()


def test_a_player_comes_back_as_he_was(store: Store, place: Place) -> None:
    assert stored_player("ada", place) is None
    ada = Player(name="Ada Brandt", hand="left", driver_speed=figure(88, "mph", "measured", tolerance=1), limits="knee")
    assert save_player(store, "ada", ada, who="tester") and not save_player(store, "ada", ada, who="tester")
    assert stored_player("ada", place) == ada
    older = Player(name="Ada Brandt", handicap=figure(11, "1", "stated"))
    assert save_player(store, "ada", older, who="tester")
    assert stored_player("ada", place) == older


def test_no_store_has_no_sessions(tmp_path: Path) -> None:
    assert stored_sessions("ada", tmp_path / "none.db") == ()


def test_altered_shots_are_noticed(store: Store, place: Place, harm: Callable[[str], None]) -> None:
    save_session(store, "ada", session(), b"", who="tester")
    store.close()
    harm("UPDATE versions SET content = replace(content, '133.0', '233.0')")
    with pytest.raises(StoreUnusable, match="not what was written"):
        stored_sessions("ada", place)


def test_a_hidden_session_is_kept_and_its_file_brings_it_back(store: Store, place: Place) -> None:
    save_session(store, "ada", session(), b"the file", who="tester")
    hide_session(store, "ada", 1, who="tester")
    assert stored_sessions("ada", place) == ()
    with pytest.raises(BadInput, match="no session 1"):
        hide_session(store, "ada", 1, who="tester")
    assert save_session(store, "ada", session(), b"the file", who="tester").new
    assert len(stored_sessions("ada", place)) == 1
