"""A season's questions, the words of every set, a place in an event, and SQL that can only look."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from asplayed.clubs import Ball, Club, GolfSet, Head, SetFacts, Shaft
from asplayed.errors import BadInput
from asplayed.keeping import Store, open_store, seasons
from asplayed.keeping.curious import ask
from asplayed.keeping.places import Server
from asplayed.keeping.proving import prove
from asplayed.keeping.results import save_result
from asplayed.keeping.searching import search
from asplayed.quantities import figure

from .conftest import Shop, rows


def bag(model: str, day: str | None, *, player: str = "Ada Brandt", flex: str = "S", colour: str = "white") -> GolfSet:
    driver = Club(
        club="driver", kind="driver", head=Head(model=model, loft=figure(10.5, "deg", "stated")),
        shaft=Shaft(model="Lindrake", flex=flex), length=figure(45, "in", "stated"),
    )  # fmt: skip
    putter = Club(club="putter", kind="putter", head=Head(name="Fulmar"))
    return GolfSet(
        set=SetFacts(player=player, date=day, event="Ravelin Cup"), clubs=(driver, putter),
        ball=Ball(name="Pellan", colour=colour),
    )  # fmt: skip


@pytest.fixture
def season(store: Store) -> Store:
    """Four bags in three weeks of two years, one undated."""
    for name, kept in {
        "a": bag("Kittiwake", "2026-01-01"),
        "b": bag("Gannet", "2026-01-02", player="Jonas Tessler", colour="yellow"),
        "c": bag("Kittiwake", "2026-03-16", flex="X"),
        "d": bag("Kittiwake", "2025-12-28", player="Jonas Tessler"),
        "e": bag("Dunlin", None),
    }.items():
        store.save_set(name, kept, f"words of {name}: Estow, ½ in long, naïve", who="tester")
    return store


def test_shares_by_season_and_by_week(season: Store) -> None:
    told = [tuple(each) for each in seasons.shares("model", season.place, kind="driver", season="2026")]
    assert told == [("2026", "driver", "Kittiwake", 2, 3, 66.67), ("2026", "driver", "Gannet", 1, 3, 33.33)]
    # ISO 8601: 1 January 2026 is a Thursday, so it lies in week 1; 16 March in week 12; 28 December 2025 in week 52.
    weeks = [(each.period, each.value) for each in seasons.shares("model", season.place, kind="driver", weeks=True)]
    assert weeks == [
        ("", "Dunlin"), ("2025-W52", "Kittiwake"), ("2026-W01", "Gannet"), ("2026-W01", "Kittiwake"),
        ("2026-W12", "Kittiwake"),
    ]  # fmt: skip
    assert [(e.value, e.percent) for e in seasons.shares("colour", season.place, season="2026")] == [
        ("white", 66.67), ("yellow", 33.33)
    ]  # fmt: skip
    for field, value in (("loft", "10.5"), ("length", "45"), ("shaft", "Lindrake")):
        assert [e.value for e in seasons.shares(field, season.place, season="2026")] == [value]
    assert seasons.shares("sole", season.place) == ()


def test_a_changed_hidden_or_undone_set_counts_as_it_now_stands(season: Store) -> None:
    def gannets() -> int:
        return sum(each.number for each in seasons.shares("model", season.place) if each.value == "Gannet")

    season.save_set("a", bag("Gannet", "2026-01-01"), "", who="tester")
    assert gannets() == 2
    season.hide_set("b", who="tester")
    assert gannets() == 1
    season.undo_set("a", who="tester")
    season.undo_set("b", who="tester")
    assert gannets() == 1
    assert prove(season.place).faults == ()


def test_winners_beside_the_field(season: Store) -> None:
    assert save_result(season, "b", 1, who="tester")
    assert not save_result(season, "b", 1, who="tester")
    save_result(season, "a", 2, who="tester")
    told = [tuple(each) for each in seasons.winners("model", season.place, kind="driver", season="2026")]
    assert told == [("driver", "Gannet", 1, 100.0, 0, 0.0), ("driver", "Kittiwake", 0, 0.0, 2, 100.0)]
    save_result(season, "b", 3, who="tester")
    assert all(each.winners == 0 for each in seasons.winners("model", season.place))
    season.save_set("b", bag("Dunlin", "2026-01-02"), "", who="tester")  # a result stays with its set
    save_result(season, "b", 1, who="tester")
    assert [e.value for e in seasons.winners("model", season.place, kind="driver") if e.winners] == ["Dunlin"]
    assert prove(season.place).faults == ()
    with pytest.raises(BadInput, match="no set"):
        save_result(season, "priya", 1, who="tester")
    with pytest.raises(BadInput, match="from 1"):
        save_result(season, "a", 0, who="tester")


def test_first_and_last_seen(season: Store) -> None:
    told = [tuple(each) for each in seasons.seen("model", season.place, kind="driver")]
    assert told == [
        ("driver", "Kittiwake", "2025-W52", "2026-W12", 3), ("driver", "Gannet", "2026-W01", "2026-W01", 1)
    ]  # fmt: skip


def test_the_longest_unchanged_club_of_a_player(season: Store) -> None:
    season.save_set("f", bag("Kittiwake", "2026-04-01", flex="X"), "", who="tester")
    season.save_set("g", bag("Gannet", "2026-05-01", flex="X"), "", who="tester")
    told = [tuple(each) for each in seasons.longest_unchanged("Ada Brandt", season.place)]
    assert told == [
        ("putter", "Fulmar", "2026-01-01", "2026-05-01", 4), ("driver", "Kittiwake", "2026-03-16", "2026-04-01", 2)
    ]  # fmt: skip
    with pytest.raises(BadInput, match="no dated set"):
        seasons.longest_unchanged("Priya Lindqvist", season.place)


def test_words_are_found_wherever_they_stand(season: Store) -> None:
    assert [each.name for each in search("kitti", season.place)] == ["d", "c", "a"]
    assert [each.name for each in search("jonas gannet", season.place)] == ["b"]
    assert len(search("NAIVE estow", season.place)) == 5
    assert search("nowhere", season.place) == ()
    assert len(search("ravelin", season.place, most=2)) == 2
    season.hide_set("b", who="tester")
    assert search("gannet", season.place) == ()


@pytest.mark.parametrize(
    "words", ['"', "NEAR(", "a OR", "words:", "*", "x' OR 1=1 --", "^a", "{a}", "-a", "\0", "a\0b"]
)
def test_whatever_is_looked_for_is_only_words(season: Store, words: str) -> None:
    try:
        search(words, season.place)
    except BadInput as fault:
        assert "no word to look for" in str(fault)


def test_what_is_not_counted_is_refused(store: Store) -> None:
    for look in (seasons.shares, seasons.winners, seasons.seen):
        with pytest.raises(BadInput, match="counted are model"):
            look("torque", store.place)
        with pytest.raises(BadInput, match="a season is a year"):
            look("model", store.place, season="26")


days = st.sampled_from([None, "2026-01-01", "2026-06-01", "2025-02-30"])
bags = st.builds(bag, st.sampled_from(["Gannet", "Dunlin"]), days, flex=st.sampled_from("SX"))
doings = st.tuples(st.sampled_from(["save", "undo", "redo", "hide", "win", "lose"]), st.sampled_from("ab"), bags)


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(done=st.lists(doings, max_size=10))
def test_the_tallies_are_what_the_sets_come_to_whatever_is_done(
    store: Store, done: list[tuple[str, str, GolfSet]]
) -> None:
    for what, name, kept in done:
        try:
            match what:
                case "save":
                    store.save_set(name, kept, "", who="tester")
                case "win" | "lose":
                    save_result(store, name, 1 if what == "win" else 2, who="tester")
                case _:
                    getattr(store, f"{what}_set")(name, who="tester")
        except BadInput:
            continue  # nothing to undo, redo, hide
    shown = [store.load_set(entry.name).golf_set for entry in store.list_sets()]
    for model in ("Gannet", "Dunlin"):
        counted = sum(e.number for e in seasons.shares("model", store.place) if e.value == model)
        assert counted == sum(club.head.model == model for kept in shown for club in kept.clubs)
    with store.reading() as read:
        assert seasons.wrong_tallies(read) == []


@pytest.mark.parametrize("length", [-0.0, -0.00001])
def test_a_length_of_minus_nothing_is_counted_as_nothing(store: Store, length: float) -> None:
    club = Club(club="19 hybrid", kind="hybrid", length=figure(length, "in", "stated"))
    store.save_set("ada", GolfSet(clubs=(club,)), "words", who="tester")
    assert [each.value for each in seasons.shares("length", store.place)] == ["0"]
    assert prove(store.place, figures=False).faults == ()
    store.save_set("ada", GolfSet(), "other words", who="tester")
    assert seasons.shares("length", store.place) == ()
    assert prove(store.place, figures=False).faults == ()


def test_a_wrong_tally_is_a_fault(season: Store) -> None:
    with season.acting("test", who="tester") as action:
        action.connection.exec_driver_sql("UPDATE tallies SET number = 9 WHERE value = 'Gannet'")
    assert prove(season.place).faults == (
        "the tally of model Gannet of driver in 2026 is not what the sets come to",
        "the tally of model Gannet of driver in 2026-W01 is not what the sets come to",
    )


# ----------------------------------------------------------------------------------------------------------- SQL


def test_a_question_in_sql_is_answered(season: Store) -> None:
    told = ask("SELECT club, COUNT(*) AS n FROM clubs GROUP BY club ORDER BY club", season.place)
    assert told == (("club", "n"), (("driver", 5), ("putter", 5)), False)
    assert ask("SELECT * FROM clubs", season.place, most=3).cut


@pytest.mark.parametrize(
    "question",
    [
        "DELETE FROM clubs", "DROP TABLE clubs", "UPDATE sets SET player = 'x'", "PRAGMA query_only = OFF",
        "ATTACH '/tmp/x.db' AS x", "CREATE TEMP TABLE t (a)", "VACUUM INTO '/tmp/x.db'", "BEGIN", "SELECT 1; SELECT 2",
        "INSERT INTO search (search) VALUES ('rebuild')", "SELECT load_extension('x')", "", "nonsense", "SELECT '\0'",
        "SELECT zeroblob(1000000000)", "EXPLAIN DELETE FROM clubs",
    ],
)  # fmt: skip
def test_sql_can_only_look(season: Store, question: str) -> None:
    season.close()
    before = rows(season.place)
    try:
        ask(question, season.place)
    except BadInput as fault:
        assert "\n" not in str(fault)
    else:
        assert question in ("", "SELECT '\0'")
    assert rows(season.place) == before


@pytest.mark.parametrize(
    "question",
    [
        "SELECT 1; COMMIT; BEGIN READ WRITE; DELETE FROM clubs; COMMIT",
        "SELECT 1; RESET ALL",
        "SELECT nextval('records_id_seq')",
        "WITH gone AS (DELETE FROM clubs RETURNING 1) SELECT * FROM gone",
        "SELECT pg_read_file('/etc/passwd')",
        "COPY clubs TO PROGRAM 'cat'",
        "SELECT * FROM clubs FOR UPDATE",
        "SELECT * INTO x FROM clubs",
        "SELECT setval('records_id_seq', 1)",
        "SELECT set_config('transaction_read_only', 'off', false), nextval('records_id_seq')",
        "SELECT lo_import('/etc/passwd')",
        "SELECT pg_terminate_backend(pid) FROM pg_stat_activity",
        'SELECT pg_catalog."pg_sleep" (1)',
        'SELECT U&"pg\\005fsleep"(1)',
        "DO $$ BEGIN DELETE FROM clubs; END $$",
        "SELECT query_to_xml('DELETE FROM clubs', true, true, '')",
        'SELECT 1 AS "%s" WHERE 1 %% 1 = 1',
    ],
)
def test_sql_on_a_server_can_only_look(server_place: Server, question: str) -> None:
    with open_store(server_place) as store:
        store.save_set("a", bag("Gannet", "2026-01-01"), "", who="tester")
    before = rows(server_place)
    with pytest.raises(BadInput) as fault:
        ask(question, server_place)
    assert "\n" not in str(fault.value)
    assert rows(server_place) == before


def test_sql_is_not_asked_of_a_server_by_who_may_read_its_files(shop: Shop, server_place: Server) -> None:
    almighty = Server(server_place.url.replace("shop@", "keeper@"), server_place.schema)
    with pytest.raises(BadInput, match="ask as a user with fewer rights"):
        ask("SELECT 1", almighty)
    assert ask("SELECT 1.5 AS x, NULL, 'a' || '%s'", server_place) == (
        ("x", "?column?", "?column?"),
        ((1.5, None, "a%s"),),
        False,
    )


def test_a_question_that_does_not_end_is_ended(season: Store) -> None:
    endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT COUNT(*) FROM n"
    with pytest.raises(BadInput, match="took longer"):
        ask(endless, season.place, longest=0.05)


def test_where_nothing_is_stored_nothing_is_found(tmp_path: Path) -> None:
    place = tmp_path / "none.db"
    assert seasons.shares("model", place) == search("ada", place) == ()
    with pytest.raises(BadInput, match="no store"):
        ask("SELECT 1", place)
    assert not place.exists()


def test_a_set_without_clubs_or_words_counts_as_a_set(store: Store) -> None:
    store.save_set("a", replace(bag("Gannet", "2026-01-01"), clubs=(), ball=None), b"\xff\0", who="tester")
    assert seasons.shares("model", store.place) == ()
    assert prove(store.place).ok
