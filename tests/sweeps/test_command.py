"""The verb: studies in tables and JSON, bad input in sentences, a stop that leaves a folder to go on with."""

from __future__ import annotations

import csv
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import click.testing
import pytest

from asplayed.cli import asplayed
from asplayed.errors import AsplayedError, BadInput
from asplayed.sweeps.tables import write_table

LIST = "driver 10.5\n7 iron 34\nsand wedge 56.10\nputter\nhandicap 12, driver speed 95mph\n"
Run = Callable[..., tuple[int, str]]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("ASPLAYED_STORE", str(tmp_path / "store.db"))
    monkeypatch.setenv("NO_COLOR", "1")
    monkeypatch.setenv("COLUMNS", "240")
    (tmp_path / "bag.txt").write_text(LIST)

    def ran(*words: str) -> tuple[int, str]:
        result = click.testing.CliRunner().invoke(asplayed, ["sweep", *words], standalone_mode=False)
        if isinstance(result.exception, AsplayedError):
            return result.exception.exit_code, str(result.exception)
        if result.exception is not None:
            raise result.exception
        return (result.return_value if isinstance(result.return_value, int) else 0), result.stdout

    return ran


FEW = ("bag.txt", "--shots", "200", "--workers", "0")


def test_landings_as_a_table_in_json_and_in_files(run: Run, tmp_path: Path) -> None:
    asked = ("landings", *FEW, "--speeds", "80,100mph", "--winds=-10,10mph")
    code, said = run(*asked, "--table", "rows.csv")
    assert code == 0 and "12 rows in rows.csv" in said
    with (tmp_path / "rows.csv").open(newline="") as stream:
        rows = list(csv.DictReader(stream))
    assert len(rows) == 12 and {row["club"] for row in rows} == {"driver", "7 iron", "sand wedge"}
    code, said = run(*asked, "--table", "rows.parquet", "--json")
    found = json.loads(said)
    assert found["study"] == "landings" and len(found["rows"]) == 12
    assert [str(row["carry [yd]"]) for row in found["rows"]] == [row["carry [yd]"] for row in rows]
    from pyarrow import parquet

    table = parquet.read_table(tmp_path / "rows.parquet")
    assert table.to_pylist() == found["rows"]
    assert str(table.schema.field("shots").type) == "int64"


def test_a_spreadsheet_takes_no_text_for_a_formula(tmp_path: Path) -> None:
    write_table([{"set": "=1+1", "n": -1}], {"set": str, "n": int}, tmp_path / "t.csv")
    assert (tmp_path / "t.csv").read_text().splitlines() == ["set,n", "'=1+1,-1"]


def test_tolerances_and_soles_answer_on_the_command_line(run: Run) -> None:
    code, said = run("tolerances", "bag.txt", "--workers", "0", "--json")
    assert code == 0 and {row["club"] for row in json.loads(said)["rows"]} >= {"driver", "putter"}
    code, said = run("soles", "bag.txt", "--workers", "0", "--attacks=-4.5deg")
    assert code == 0 and "and 212 rows more; --table writes them all" in said


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("landing", "bag.txt"), "there is no study 'landing'; did you mean landings?"),
        (("everything", "bag.txt"), "there is no study 'everything'; there are best-sets, landings, soles"),
        (("landings", "nobody", "--workers", "0"), "no set 'nobody'"),
        (("landings", "bag.txt", "bag.txt"), "bag is named twice"),
        (("landings", *FEW, "--club", "4 wood"), "none of 4 wood"),
        (("landings", *FEW, "--speeds", "80,fast"), "--speeds '80,fast': "),
        (("landings", *FEW, "--speeds", "80,100"), "write it as 5,10mph"),
        (("landings", *FEW, "--speeds", "80,100deg"), "write it as 5,10mph"),
        (("landings", *FEW, "--speeds", "80,80mph"), "names 80 twice"),
        (("landings", *FEW, "--speeds", "500mph"), "500"),
        (("landings", *FEW, "--handicaps", "10,20yd"), "write it as 0,10,20"),
        (("landings", *FEW, "--table", "rows.xlsx"), "a table is written as .csv or .parquet"),
        (("landings", *FEW, "--table", "no/rows.csv"), "there is no folder no"),
        (("landings", *FEW, "--into", "bag.txt"), "bag.txt is a file"),
        (("landings", *FEW, "--cluster", "tcp://127.0.0.1:1"), "give one of the two"),
        (("soles", "bag.txt", "--speeds", "80,90mph"), "weighed for one player"),
        (("soles", "bag.txt", "--club", "lob wedge", "--workers", "0"), "bag holds no lob wedge"),
    ],
)
def test_bad_input_is_told_in_a_sentence(run: Run, words: tuple[str, ...], sentence: str) -> None:
    code, said = run(*words)
    assert code == 2 and sentence in said and "\n" not in said.strip()


def test_a_folder_of_another_sweep_is_told(run: Run) -> None:
    assert run("landings", *FEW)[0] == 0
    code, said = run("landings", *FEW, "--seed", "1")
    assert code == 2 and "holds another sweep" in said and "sweep-landings" in said


def test_parquet_without_its_library_is_told(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    code, said = run("landings", *FEW, "--table", "rows.parquet")
    assert code == 2 and "asplayed[parquet]" in said


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "t.csv").mkdir()
    with pytest.raises(BadInput, match=r"t\.csv cannot be written"):
        write_table([], {"a": int}, tmp_path / "t.csv")
    assert [file.name for file in tmp_path.iterdir()] == ["t.csv"]


@pytest.mark.slow
@pytest.mark.parametrize(("how", "code"), [(signal.SIGINT, 130), (signal.SIGKILL, -9)])
def test_what_is_stopped_goes_on(tmp_path: Path, how: signal.Signals, code: int) -> None:
    """Ctrl-C, and a kill: the same command goes on, and comes to the same as one that was never stopped."""
    (tmp_path / "bag.txt").write_text(LIST)
    env = {**os.environ, "ASPLAYED_STORE": str(tmp_path / "store.db")}
    # A shell that runs the tests in its background lets nobody below hear Ctrl-C; at a terminal it is heard.
    heard = "import signal; signal.signal(signal.SIGINT, signal.default_int_handler); "
    begin = heard + "from asplayed.cli import main; main()"
    command = [sys.executable, "-c", begin, "sweep", "landings", "bag.txt", "--shots", "40000", "--workers", "0",
               "--chunk", "1", "--json", "--loft-changes=-3,-2,-1,0,1,2,3deg"]  # fmt: skip
    folder = tmp_path / "sweep-landings" / "chunks"
    running = subprocess.Popen(command, cwd=tmp_path, env=env, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    try:
        until = time.monotonic() + 90
        while len(list(folder.glob("*.json"))) < 2 and time.monotonic() < until and running.poll() is None:
            time.sleep(0.01)
        running.send_signal(how)
        _, said = running.communicate(timeout=60)
    finally:
        running.kill()
    kept = {file.name: file.stat().st_mtime_ns for file in folder.glob("*.json")}
    assert running.returncode == code, said
    assert 2 <= len(kept) < 21
    if how is signal.SIGINT:
        assert b"the same command goes on from there" in said and b"Traceback" not in said

    def done(*more: str) -> object:
        ran = subprocess.run([*command, *more], cwd=tmp_path, env=env, capture_output=True, check=True, timeout=120)
        return json.loads(ran.stdout)

    again = done()
    assert kept.items() <= {file.name: file.stat().st_mtime_ns for file in folder.glob("*.json")}.items()
    assert again == done("--into", "whole", "--chunk", "21")
