"""The command as it is installed, in processes of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ASPLAYED = [str(Path(sys.executable).with_name("asplayed"))]


def asplayed(*argv: str, store: Path, given: bytes = b"", **more: str) -> subprocess.CompletedProcess[bytes]:
    environment = {**os.environ, "ASPLAYED_STORE": str(store), "PYTHONWARNINGS": "error", **more}
    return subprocess.run([*ASPLAYED, *argv], input=given, capture_output=True, env=environment, check=False)


def test_reading_a_stored_set_brings_in_no_heavy_library(stored: str, tmp_path: Path) -> None:
    script = (
        "import sys\nfrom asplayed.cli import main\ntry:\n    main(['show', 'ada'])\nexcept SystemExit as left:\n"
        "    heavy = {'sqlalchemy', 'alembic', 'numpy', 'numba', 'scipy', 'lark', 'rapidfuzz', 'jinja2'}\n"
        "    sys.exit(left.code or ', '.join(sorted(heavy & set(sys.modules))) or None)\n"
    )
    environment = {**os.environ, "ASPLAYED_STORE": str(tmp_path / "store.db")}
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, env=environment, check=False)
    assert (found.returncode, found.stderr) == (0, "")


def test_a_reader_that_goes_away_is_no_fault(stored: str, tmp_path: Path) -> None:
    environment = {**os.environ, "ASPLAYED_STORE": str(tmp_path / "store.db")}
    hear, speak = os.pipe()
    os.close(hear)
    with subprocess.Popen(
        [*ASPLAYED, "show", "ada", "--json"], stdout=speak, stderr=subprocess.PIPE, env=environment
    ) as command:
        os.close(speak)
        _, said = command.communicate(timeout=60)
    assert (command.returncode, said) == (0, b"")


def test_words_come_out_byte_for_byte(stored: str, tmp_path: Path) -> None:
    found = asplayed("keep", "show", "ada", "--words", store=tmp_path / "store.db")
    assert found.stdout == b"Ada Brandt\r\nSW 54\xb0"


@pytest.mark.parametrize("locale", ["C", "C.UTF-8"])
def test_any_locale_will_do(stored: str, tmp_path: Path, locale: str) -> None:
    found = asplayed("show", "ada", store=tmp_path / "store.db", LC_ALL=locale, PYTHONIOENCODING="ascii")
    assert found.returncode == 0, found.stderr
    assert b"sand wedge" in found.stdout


def test_faults_are_short_whatever_was_given(tmp_path: Path) -> None:
    for argv in (["show", "x" * 100_000], ["show", "\udcff"], ["show", "a", "--why", "é" * 5000 + ".loft"], ["shwo"]):
        found = asplayed(*argv, store=tmp_path / "store.db")
        assert found.returncode == 2
        assert 0 < len(found.stderr) <= 2000
        assert b"Traceback" not in found.stderr
        assert found.stdout == b""


def test_help_brings_in_no_heavy_library() -> None:
    script = (
        "import sys\nfrom asplayed.cli import main\ntry:\n    main(['--help'])\nexcept SystemExit as left:\n"
        "    heavy = {'sqlalchemy', 'numpy', 'numba', 'scipy', 'lark', 'rapidfuzz', 'jinja2', 'rich'}\n"
        "    sys.exit(left.code or ', '.join(sorted(heavy & set(sys.modules))) or None)\n"
    )
    found = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert (found.returncode, found.stderr) == (0, "")


def test_a_verb_or_an_option_that_is_not_there_is_answered_with_the_nearest(tmp_path: Path) -> None:
    for argv, words in (
        (["jugde"], "did you mean judge?"),
        (["show"], "asplayed show --help"),
        (["keep", "lits"], "list"),
        (["show", "a", "--jso"], "--json"),
    ):
        found = asplayed(*argv, store=tmp_path / "store.db")
        assert (found.returncode, found.stdout) == (2, b"")
        assert words in found.stderr.decode()
        assert found.stderr.count(b"\n") == 1
