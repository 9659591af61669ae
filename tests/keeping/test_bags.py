"""The stored sets as rows to tell a season from: what is hidden is left out, a season is a year."""

from __future__ import annotations

import pytest
from tests.keeping.conftest import golf_set

from asplayed.errors import BadInput
from asplayed.keeping.bags import stored_bags
from asplayed.keeping.results import save_result


def test_every_set_in_use_is_a_bag_as_its_newest_version_stands(store, place):
    store.save_set("ada", golf_set(56), b"one", who="t")
    store.save_set("ada", golf_set(58), b"two", who="t")
    store.save_set("gone", golf_set(54, "Jonas Tessler"), b"three", who="t")
    store.hide_set("gone", who="t")
    save_result(store, "ada", 1, who="t")
    [bag] = stored_bags(place, season="2025")
    assert (bag.name, bag.player, bag.date, bag.place) == ("ada", "Ada Brandt", "2025-10-20", 1)
    [club] = bag.clubs
    assert (club.club, club.kind, club.head, club.loft) == ("sand wedge", "wedge", "Turnstone", 59.0)
    assert stored_bags(place, season="2024") == ()
    assert stored_bags(place) == (bag,)


def test_a_store_that_is_not_there_has_no_bags_and_a_season_is_a_year(tmp_path):
    assert stored_bags(tmp_path / "none.db") == ()
    with pytest.raises(BadInput, match="a season is a year"):
        stored_bags(tmp_path / "none.db", season="last")
