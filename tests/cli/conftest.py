"""The command line run in this process: what it printed, said and left with."""

from __future__ import annotations

import io
import shutil
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from asplayed.cli import main
from asplayed.clubs import Bend, Club, GolfSet, Head, SetFacts, Sleeve
from asplayed.keeping import open_store
from asplayed.quantities import figure


class Ran(NamedTuple):
    """One run: its exit code, standard output and standard error."""

    code: int
    out: str
    err: str


Run = Callable[..., Ran]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Runs the command line on a store of its own."""
    monkeypatch.setenv("ASPLAYED_STORE", str(tmp_path / "store.db"))
    monkeypatch.setenv("COLUMNS", "140")
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("ASPLAYED_TRACEBACK", "1")  # a fault nobody foresaw fails the test

    def ran(*argv: str, given: bytes = b"") -> Ran:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given)))
        with pytest.raises(SystemExit) as left:
            main(list(argv))
        out, err = capsys.readouterr()
        return Ran(int(left.value.code or 0), out, err)

    return ran


@pytest.fixture(scope="session")
def ada_s_store(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with one set, made once: making one takes a while."""
    place = tmp_path_factory.mktemp("made") / "store.db"
    with open_store(place) as store:
        store.save_set("ada", ada(), b"Ada Brandt\r\nSW 54\xb0", who="tester", why="first visit")
    return place


def ada() -> GolfSet:
    """A small set: a turned driver, an iron nobody knows more of, two bent wedges, a putter."""
    wedges = [
        Club(
            club=name,
            kind="wedge",
            head=Head(name="Turnstone", loft=figure(loft, "deg", "stated"), bounce=figure(10, "deg", "stated")),
            bend=Bend(loft=figure(bend, "deg", "stated")),
        )
        for name, loft, bend in (("sand wedge", 54, 1), ("lob wedge", 60, -1))
    ]
    driver = Club(
        club="driver",
        kind="driver",
        head=Head(name="Kittiwake", loft=figure(10.5, "deg", "stated")),
        sleeve=Sleeve(position="P2", loft_change=figure(-1, "deg", "stated")),
        length=figure(44.75, "in", "stated"),
    )
    return GolfSet(
        set=SetFacts(player="Ada Brandt", hand="left", hand_source="stated", date="2025-10-20"),
        clubs=(driver, Club(club="7 iron", kind="iron"), *wedges, Club(club="putter", kind="putter")),
    )


@pytest.fixture
def stored(ada_s_store: Path, tmp_path: Path) -> str:
    """The name of a set that is stored."""
    shutil.copy(ada_s_store, tmp_path / "store.db")
    return "ada"
