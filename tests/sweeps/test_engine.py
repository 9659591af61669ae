"""The same bits whatever the chunks and workers, and however often a sweep was stopped."""

from __future__ import annotations

import json
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import Any, ClassVar

import pytest

from asplayed.errors import BadInput
from asplayed.sweeps.engine import Outcome, Progress, sweep
from asplayed.sweeps.folder import ASKED, CHUNKS
from asplayed.sweeps.landings import Landings
from asplayed.sweeps.reducing import moments_of
from asplayed.sweeps.studies import Block, Study, seed_of
from asplayed.sweeps.workers import Here


class Counting(Study, frozen=True, kw_only=True):
    """Numbers from the chance of each block."""

    NAME: ClassVar[str] = "counting"
    COLUMNS: ClassVar[dict[str, type]] = {"block": int}
    size: int = 10
    bad: int | None = None

    def blocks(self) -> int:
        return self.size

    def block(self, number: int) -> Block:
        if number == self.bad:
            raise BadInput("this cannot be")
        value = seed_of(self.seed, number) / 2**64
        return Block({"x": moments_of([value, value**3])}, ({"block": number},))


def done(study: Study, folder: Path, **given: Any) -> Outcome:
    return sweep(study, folder, Here(), **given)


@pytest.fixture(scope="module")
def whole(landings: Landings, tmp_path_factory: pytest.TempPathFactory) -> Outcome:
    return done(landings, tmp_path_factory.mktemp("whole") / "s", chunk=12)


@pytest.mark.parametrize("chunk", [1, 5, 8])
def test_chunks_do_not_change_a_bit(landings: Landings, whole: Outcome, tmp_path: Path, chunk: int) -> None:
    found = done(landings, tmp_path / "s", chunk=chunk)
    assert found.tally == whole.tally
    assert list(found.rows()) == list(whole.rows())


def test_workers_do_not_change_a_bit(landings: Landings, whole: Outcome, tmp_path: Path) -> None:
    with ThreadPoolExecutor(3) as executor:
        found = sweep(landings, tmp_path / "s", executor, width=3, chunk=1)
    assert found.tally == whole.tally


def test_another_seed_is_another_sweep(whole: Outcome, landings: Landings, tmp_path: Path) -> None:
    import msgspec

    other = msgspec.structs.replace(landings, seed=8, loft_changes=(-2.0,))
    assert done(other, tmp_path / "s").tally["0"] != whole.tally["0"]


class Stopping(Here):
    """Is interrupted after so many chunks, as Ctrl-C interrupts."""

    def __init__(self, after: int) -> None:
        self.after = after

    def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
        if self.after == 0:
            raise KeyboardInterrupt
        self.after -= 1
        return super().submit(fn, *args, **kwargs)


def test_what_is_finished_is_not_done_again(tmp_path: Path) -> None:
    study = Counting(size=23)
    with pytest.raises(KeyboardInterrupt):
        sweep(study, tmp_path / "s", Stopping(3), chunk=4)
    first = {file.name: file.stat().st_mtime_ns for file in (tmp_path / "s" / CHUNKS).iterdir()}
    assert len(first) == 3
    told: list[Progress] = []
    found = done(study, tmp_path / "s", chunk=5, on_progress=told.append)  # other chunks, too
    assert found.before == 12 and told[0].before == 12 and told[-1].done == 23 and told[-1].left == 0
    now = {file.name: file.stat().st_mtime_ns for file in (tmp_path / "s" / CHUNKS).iterdir()}
    assert first.items() <= now.items()
    assert found.tally == done(study, tmp_path / "other").tally
    assert [row["block"] for row in found.rows()] == list(range(23))
    again = done(study, tmp_path / "s")
    assert again.before == 23 and again.tally == found.tally


def test_a_damaged_chunk_is_done_again(tmp_path: Path) -> None:
    found = done(Counting(), tmp_path / "s", chunk=3)
    file = sorted((tmp_path / "s" / CHUNKS).iterdir())[1]
    content = bytearray(file.read_bytes())
    content[60] ^= 1
    file.write_bytes(content)
    again = done(Counting(), tmp_path / "s", chunk=3)
    assert again.damaged == 1 and again.before == 7
    assert again.tally == found.tally


def test_a_half_written_chunk_is_no_chunk(tmp_path: Path) -> None:
    found = done(Counting(), tmp_path / "s", chunk=5)
    file = sorted((tmp_path / "s" / CHUNKS).iterdir())[0]
    file.rename(file.with_name(file.name + ".part"))
    assert done(Counting(), tmp_path / "s", chunk=5).tally == found.tally


@pytest.mark.parametrize(
    ("study", "words"),
    [(Counting(size=11), "also of counting, with other"), (Counting(seed=1), "also of counting, with other")],
)
def test_a_folder_of_another_sweep_is_refused_untouched(study: Study, words: str, tmp_path: Path) -> None:
    done(Counting(), tmp_path / "s")
    before = sorted((file, file.stat().st_mtime_ns) for file in (tmp_path / "s").rglob("*"))
    with pytest.raises(BadInput, match=words):
        done(study, tmp_path / "s")
    assert sorted((file, file.stat().st_mtime_ns) for file in (tmp_path / "s").rglob("*")) == before


def test_a_folder_of_another_study_or_version_is_refused(landings: Landings, tmp_path: Path) -> None:
    done(Counting(), tmp_path / "s")
    with pytest.raises(BadInput, match="of counting, not of landings"):
        done(landings, tmp_path / "s")
    asked = json.loads((tmp_path / "s" / ASKED).read_text())
    (tmp_path / "s" / ASKED).write_text(json.dumps({**asked, "asplayed": "0.0.1"}))
    with pytest.raises(BadInput, match=r"begun by version 0\.0\.1, this is"):
        done(Counting(), tmp_path / "s")
    (tmp_path / "s" / ASKED).write_text("{")
    with pytest.raises(BadInput, match="cannot be read as a sweep's"):
        done(Counting(), tmp_path / "s")


def test_somebody_elses_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(BadInput, match="holds other things"):
        done(Counting(), tmp_path)
    with pytest.raises(BadInput, match="is a file"):
        done(Counting(), tmp_path / "notes.txt")
    with pytest.raises(BadInput, match="cannot be used"):
        done(Counting(), tmp_path / "notes.txt" / "s")


def test_a_block_that_cannot_be_reckoned_is_named_and_the_rest_kept(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="block 7 of counting: this cannot be"):
        done(Counting(bad=7), tmp_path / "s")
    assert len(list((tmp_path / "s" / CHUNKS).iterdir())) == 7


def test_what_goes_wrong_in_a_worker_is_one_sentence(tmp_path: Path) -> None:
    class Lost(Here):
        def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
            future: Future[Any] = Future()
            future.set_exception(MemoryError("no room"))
            return future

    with pytest.raises(BadInput, match=r"blocks 0 to 0 of counting could not be done \(MemoryError: no room\)"):
        sweep(Counting(), tmp_path / "s", Lost())

    class Gone(Here):
        def submit(self, fn: Any, /, *args: Any, **kwargs: Any) -> Future[Any]:
            future: Future[Any] = Future()
            future.cancel()
            future.set_running_or_notify_cancel()
            return future

    with pytest.raises(BadInput, match="the scheduler went away"):
        sweep(Counting(), tmp_path / "s", Gone())


def test_no_blocks_a_chunk_are_refused(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="give at least 1"):
        done(Counting(), tmp_path / "s", chunk=0)
