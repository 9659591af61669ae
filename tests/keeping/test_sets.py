"""Sets come back as they went in, with their words, and every version stays."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule, run_state_machine_as_test

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput, Stale
from asplayed.keeping import Store, list_sets, open_store, read_set, set_history
from asplayed.keeping.backups import back_up, restore
from asplayed.keeping.places import Place
from asplayed.keeping.proving import prove

from .conftest import Shop, golf_set, golf_sets, times

ANY_STORE = settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)


@ANY_STORE
@given(kept=golf_sets, words=st.binary(max_size=200) | st.text(max_size=100))
def test_any_set_and_its_words_come_back_exactly(store: Store, kept: GolfSet, words: bytes | str) -> None:
    store.save_set("any", kept, words, who="tester")
    found = read_set("any", store.place)
    assert found.golf_set == kept
    assert found.original == (words.encode() if isinstance(words, str) else words)
    assert store.load_set("any") == found


def test_words_are_kept_byte_for_byte(store: Store) -> None:
    words = b"\xef\xbb\xbfdriver 10.5\xb0\r\n\r\n  3 wood\t15 \xbd \x00"
    store.save_set("ada", golf_set(), words, who="tester")
    assert store.load_set("ada").original == words


def test_a_change_adds_a_version_and_the_old_one_stays(store: Store) -> None:
    store.save_set("ada", golf_set(56), "56", who="Halvard", why="first visit")
    saved = store.save_set("ada", golf_set(54), "54", who="Priya", why="changed her mind")
    assert (saved.version, saved.new) == (2, True)
    assert store.load_set("ada").golf_set == golf_set(54)
    old = store.load_set("ada", 1)
    assert (old.golf_set, old.original) == (golf_set(56), b"56")
    told = [(entry.version, entry.who, entry.why) for entry in set_history("ada", store.place)]
    assert told == [(2, "Priya", "changed her mind"), (1, "Halvard", "first visit")]


def test_the_same_again_makes_no_version(store: Store) -> None:
    store.save_set("ada", golf_set(), "words", who="tester")
    saved = store.save_set("ada", golf_set(), "words", who="tester")
    assert (saved.version, saved.new) == (1, False)
    assert store.save_set("ada", golf_set(), "other words", who="tester").version == 2


def test_the_list_tells_player_date_and_clubs_of_the_newest_version(store: Store) -> None:
    store.save_set("b", golf_set(player="Jonas Tessler"), "", who="tester")
    store.save_set("a", golf_set(player="Ada Brandt"), "", who="tester")
    store.save_set("a", GolfSet(), "nothing", who="tester")
    assert [tuple(entry) for entry in list_sets(store.place)] == [
        ("a", None, None, 0, 2),
        ("b", "Jonas Tessler", "2025-10-20", 1, 1),
    ]


def test_a_save_from_an_older_version_is_refused_naming_both(store: Store) -> None:
    store.save_set("ada", golf_set(56), "56", who="Halvard")
    store.save_set("ada", golf_set(54), "54", who="Priya", based_on=1)
    with pytest.raises(Stale, match=r"version 1.*Priya stored version 2"):
        store.save_set("ada", golf_set(52), "52", who="Halvard", based_on=1)
    with pytest.raises(Stale):
        store.save_set("ada", golf_set(52), "52", who="Halvard", based_on=0)
    assert store.load_set("ada").golf_set == golf_set(54)
    assert [entry.version for entry in store.set_history("ada")] == [2, 1]


def test_undo_walks_back_and_before_the_first_version_the_set_is_hidden(store: Store) -> None:
    for loft in (56, 54, 52):
        store.save_set("ada", golf_set(loft), str(loft), who="tester")
    store.undo_set("ada", who="tester")
    assert (store.load_set("ada").golf_set, store.load_set("ada").original) == (golf_set(54), b"54")
    store.undo_set("ada", who="tester")
    assert store.load_set("ada").golf_set == golf_set(56)
    assert store.undo_set("ada", who="tester").hidden
    assert store.list_sets() == ()
    with pytest.raises(BadInput, match="out of use"):
        store.load_set("ada")
    with pytest.raises(BadInput, match="nothing left to undo"):
        store.undo_set("ada", who="tester")
    assert store.load_set("ada", 3).golf_set == golf_set(52)
    assert len(store.set_history("ada")) == 6
    store.save_set("ada", golf_set(50), "50", who="tester")
    assert store.load_set("ada").version == 7
    store.undo_set("ada", who="tester")
    assert store.list_sets() == ()  # as it stood before that save


def test_a_missing_name_is_answered_with_the_nearest(store: Store) -> None:
    with pytest.raises(BadInput, match="nothing is stored yet"):
        store.load_set("ada")
    store.save_set("ada-brandt", golf_set(), "", who="tester")
    with pytest.raises(BadInput, match="did you mean ada-brandt"):
        read_set("Ada Brand", store.place)
    with pytest.raises(BadInput, match="has no version 9"):
        store.load_set("ada-brandt", 9)


@pytest.mark.parametrize("name", ["", "   ", "-x", "a/b", "a\\b", "x" * 101, "a\0b", "\ud800"])
def test_a_name_that_could_not_be_typed_back_is_refused(store: Store, name: str) -> None:
    with pytest.raises(BadInput, match="name"):
        store.save_set(name, golf_set(), "", who="tester")
    assert store.list_sets() == ()


def test_names_that_look_the_same_are_the_same(store: Store) -> None:
    store.save_set("Zoe\u0308  1", golf_set(56), "56", who="tester")
    assert store.save_set("Zo\u00eb 1", golf_set(54), "54", who="tester").version == 2
    assert read_set("Zoe\u0308 1", store.place).version == 2


class Bookkeeping(RuleBasedStateMachine):
    """A store beside a model of it: for each name, where it stands after every version."""

    fresh: Callable[[], Place]
    drop: Callable[[Place], object]

    names = st.sampled_from(["ada", "jonas", "priya"])
    lofts = st.sampled_from([50, 54, 56, 60])

    @initialize()
    def begin(self) -> None:
        self.place = type(self).fresh()
        self.store = open_store(self.place)
        self.standing: dict[str, list[float | None]] = {}
        self.undone_to: dict[str, list[int]] = {}
        self.own: dict[str, list[int]] = {}  # the versions that no undo or redo made

    def teardown(self) -> None:
        if hasattr(self, "store"):
            self.store.close()
            type(self).drop(self.place)

    @rule(name=names, loft=lofts)
    def save(self, name: str, loft: float) -> None:
        past = self.standing.setdefault(name, [])
        steps = self.undone_to.setdefault(name, [])
        saved = self.store.save_set(name, golf_set(loft), str(loft), who="tester")
        if not past or past[-1] != loft:
            past.append(loft)
            steps.append(len(past))
            self.own.setdefault(name, []).append(len(past))
            assert saved.new
        assert saved.version == len(past)

    @precondition(lambda self: self.standing)
    @rule(name=names)
    def undo(self, name: str) -> None:
        past, steps = self.standing.get(name, []), self.undone_to.get(name, [])
        target = steps[-1] - 1 if steps else -1
        if target < 0:
            with pytest.raises(BadInput):
                self.store.undo_set(name, who="tester")
            return
        self.store.undo_set(name, who="tester")
        past.append(past[target - 1] if target else None)
        steps.append(target)

    @precondition(lambda self: self.standing)
    @rule(name=names)
    def redo(self, name: str) -> None:
        past, steps, own = (book.get(name, []) for book in (self.standing, self.undone_to, self.own))
        if not steps or steps[-1] >= own[-1]:
            with pytest.raises(BadInput):
                self.store.redo_set(name, who="tester")
            return
        self.store.redo_set(name, who="tester")
        target = steps[-1] + 1
        past.append(past[target - 1])
        steps.append(target)

    @precondition(lambda self: self.standing)
    @rule(name=names)
    def hide(self, name: str) -> None:
        past = self.standing.get(name, [])
        if not past or past[-1] is None:
            with pytest.raises(BadInput):
                self.store.hide_set(name, who="tester")
            return
        self.store.hide_set(name, who="tester")
        past.append(None)
        self.undone_to[name].append(len(past))
        self.own[name].append(len(past))

    @rule()
    def prove(self) -> None:
        proof = prove(self.place, figures=False)
        assert proof.faults == ()
        assert proof.checked["versions"] == sum(map(len, self.standing.values()))

    @rule()
    def restore_a_backup(self) -> None:
        """What is restored of a backup is the store."""
        made = back_up(self.place)
        self.store.close()
        kept = restore(made.file, self.place).kept
        assert kept is not None
        if isinstance(kept, Path):
            kept.unlink()
        made.file.unlink()
        self.store = open_store(self.place)

    @rule(name=names)
    def look(self, name: str) -> None:
        past = self.standing.get(name, [])
        if past and past[-1] is not None:
            assert read_set(name, self.place).golf_set == golf_set(past[-1])
        else:
            with pytest.raises(BadInput):
                read_set(name, self.place)
        shown = {name for name, past in self.standing.items() if past and past[-1] is not None}
        assert {entry.name for entry in self.store.list_sets()} == shown
        if past:
            assert [entry.version for entry in self.store.set_history(name)] == list(range(len(past), 0, -1))

    @rule()
    def reopen(self) -> None:
        self.store.close()
        self.store = open_store(self.place)


def run_books(fresh: Callable[[], Place], drop: Callable[[Place], object], short: int, steps: int) -> None:
    """Run the machine on stores that are made and dropped so."""
    Bookkeeping.fresh, Bookkeeping.drop = staticmethod(fresh), staticmethod(drop)
    long = settings(
        max_examples=times(short, 2000),
        stateful_step_count=50 if os.environ.get("ASPLAYED_LONG") else steps,
        deadline=None,
    )
    run_state_machine_as_test(Bookkeeping, settings=long)


def test_any_sequence_of_actions_keeps_the_books(made_store: Path, tmp_path: Path) -> None:
    run_books(lambda: Path(shutil.copy(made_store, tmp_path / "books.db")), lambda place: None, 25, 15)


def test_any_sequence_of_actions_keeps_the_books_of_a_server(shop: Shop) -> None:
    run_books(shop.fresh, shop.drop, 6, 15)
