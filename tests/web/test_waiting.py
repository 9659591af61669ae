"""What waits for its sender's word waits within bounds, and in the app it was sent to."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from asplayed.errors import BadInput
from asplayed.web import Settings
from asplayed.web.app import App
from asplayed.web.searches import MOST as MOST_SEARCHES
from asplayed.web.searches import Searches
from asplayed.web.waiting import LONGEST, MOST, Sent, Waiting


class Clock:
    """A clock that is set by hand."""

    now = 0.0

    def __call__(self) -> float:
        return self.now


def test_a_file_waits_a_working_day_and_no_longer() -> None:
    clock = Clock()
    waiting = Waiting(clock)
    key = waiting.put(Sent("ada", "heads.csv", b"part"))
    clock.now = LONGEST
    assert waiting.get(key, "ada").name == "heads.csv"
    clock.now = LONGEST + 1
    with pytest.raises(BadInput, match="choose it once more"):
        waiting.get(key, "ada")


def test_the_oldest_of_too_many_files_makes_room() -> None:
    waiting = Waiting()
    keys = [waiting.put(Sent("ada", f"{n}.csv", b"part")) for n in range(MOST + 1)]
    with pytest.raises(BadInput):
        waiting.get(keys[0], "ada")
    assert waiting.get(keys[1], "ada").name == "1.csv"


def test_an_answer_is_kept_a_working_day_and_one_of_a_few() -> None:
    clock = Clock()
    searches = Searches(clock)

    def ended(what: str) -> str:
        key = searches.begin("ada", what, lambda search: what)
        while not searches.get(key, "ada").done:
            time.sleep(0.001)
        return key

    keys = [ended(f"{n}") for n in range(MOST_SEARCHES + 1)]
    with pytest.raises(BadInput):
        searches.get(keys[0], "ada")
    assert searches.get(keys[-1], "ada").answer == f"{MOST_SEARCHES}"
    clock.now = LONGEST + 1
    with pytest.raises(BadInput, match="begin it once more"):
        searches.get(keys[-1], "ada")


def test_two_apps_share_nothing_that_waits(tmp_path: Path) -> None:
    one, other = (App(tmp_path / f"{n}.db", Settings(8000 + n, token="t", who="ada")) for n in (1, 2))
    try:
        key = one.waiting.put(Sent("ada", "heads.csv", b"part"))
        with pytest.raises(BadInput):
            other.waiting.get(key, "ada")
    finally:
        one.kept.close()
        other.kept.close()
