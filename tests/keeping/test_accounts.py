"""A shop's accounts in its store: a backup holds them and nobody's session; an export and a question see nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
import sqlalchemy

from asplayed.errors import BadInput
from asplayed.keeping import Store, open_store, schema
from asplayed.keeping.backups import back_up, restore
from asplayed.keeping.curious import ask
from asplayed.keeping.exporting import export
from asplayed.keeping.places import Place, Server, looking
from asplayed.keeping.proving import prove

from .conftest import golf_set

HASH = "$argon2id$v=19$m=8,t=1,p=1$c2FsdHNhbHQ$canary"
CODES = "CANARYCODES"


@pytest.fixture
def served(store: Store) -> Place:
    """A store with a set, two accounts, one of them signed in, and a line of their trail."""
    store.save_set("ada", golf_set(), "56", who="tester")
    with store.remaking() as action:
        for name in ("ada", "priya"):
            add(action.connection, name)
        action.connection.execute(schema.sessions.insert().values(key="k", account_id=1, made="now", seen="now"))
        action.connection.execute(schema.trail.insert().values(at="now", who="ada", what="signed in", about=""))
    return store.place


def add(connection: sqlalchemy.Connection, name: str) -> int:
    """An account; its number."""
    row = {
        "name": name, "known_as": name, "role": "keeper", "password": HASH, "codes": CODES, "codes_used": 0,
        "disabled": 0, "failures": 0, "made": "now",
    }  # fmt: skip
    made = schema.accounts.insert().values(**row).returning(schema.accounts.c.id)
    return int(connection.execute(made).scalar_one())


def told(place: Place) -> tuple[object, ...]:
    """The accounts, their trail, and how many are signed in."""
    with looking(place) as read:
        people = read("SELECT id, name, password, codes FROM web_accounts ORDER BY id")
        trail = read("SELECT id, at, who, what, about FROM web_trail")
        return [*map(tuple, people)], [*map(tuple, trail)], read("SELECT COUNT(*) FROM web_sessions")[0][0]


WHOLE = ([(1, "ada", HASH, CODES), (2, "priya", HASH, CODES)], [(1, "now", "ada", "signed in", "")])


def test_a_backup_holds_the_accounts_and_nobody_s_session(served: Place, tmp_path: Path) -> None:
    assert told(served) == (*WHOLE, 1)
    backup = back_up(served, tmp_path / "safe").file
    assert told(backup) == (*WHOLE, 0)
    assert prove(backup).ok


def test_a_restore_brings_the_accounts_back_to_either_engine(
    served: Place, tmp_path: Path, server_place: Server
) -> None:
    backup = back_up(served, tmp_path / "safe").file
    for place in (tmp_path / "restored.db", server_place):
        restore(backup, place)
        assert told(place) == (*WHOLE, 0)
        with open_store(place) as store, store.remaking() as action:
            assert add(action.connection, "jonas") == 3


def test_an_export_holds_no_account(served: Place, tmp_path: Path) -> None:
    export(served, tmp_path / "out")
    written = b"".join(file.read_bytes() for file in (tmp_path / "out").rglob("*") if file.is_file())
    assert b"ada" in written
    assert HASH.encode() not in written and CODES.encode() not in written and b"priya" not in written


@pytest.mark.parametrize(
    "question",
    [
        "SELECT password FROM web_accounts",
        "SELECT COUNT(*) FROM WEB_ACCOUNTS",
        'SELECT * FROM "web_sessions"',
        "SELECT (SELECT about FROM web_trail LIMIT 1)",
        "WITH a AS (SELECT codes FROM web_accounts) SELECT * FROM a",
        "SELECT name FROM records UNION ALL SELECT password FROM web_accounts",
    ],
)
def test_no_question_looks_into_the_accounts(served: Place, question: str) -> None:
    assert ask("SELECT name FROM records", served).rows == (("ada",),)
    with pytest.raises(BadInput, match="looks into no account") as fault:
        ask(question, served)
    assert HASH not in str(fault.value)
