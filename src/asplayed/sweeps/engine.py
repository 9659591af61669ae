"""Chunks of a study to workers, back in any order, kept, and added up in the blocks' own order.

Anything that is a `concurrent.futures.Executor` can do the work; where the workers come from is `workers.py`.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, CancelledError, Executor, Future, wait
from pathlib import Path
from typing import NamedTuple

from asplayed.errors import AsplayedError, BadInput
from asplayed.sweeps.folder import Chunk, Kept, chunks_of, encoded, finished, gaps, keep, open_folder
from asplayed.sweeps.reducing import Node, Tally, grow, whole
from asplayed.sweeps.studies import Row, Study


class Progress(NamedTuple):
    """Blocks done of all, those taken over from an earlier go, seconds so far, and about how many are left."""

    done: int
    blocks: int
    before: int
    seconds: float
    left: float | None


class Outcome(NamedTuple):
    """What a sweep came to: the tally, the finished chunks with their rows, and how it went."""

    study: Study
    tally: Tally
    kept: tuple[Kept, ...]
    blocks: int
    before: int
    damaged: int
    seconds: float

    def rows(self) -> Iterator[Row]:
        """The rows of the table in the order of the blocks, read one chunk at a time, then those of the whole."""
        for chunk in chunks_of(self.kept):
            yield from chunk.rows
        yield from self.study.summary(self.tally)


def work(study: Study, start: int, stop: int) -> bytes:
    """Reckon the blocks `start` to `stop`: what a worker does. Faults come back as one sentence with their block."""
    nodes: list[Node] = []
    rows: list[Row] = []
    for number in range(start, stop):
        try:
            found = study.block(number)
        except AsplayedError as fault:
            raise BadInput(f"block {number} of {study.NAME}: {fault}") from None
        grow(nodes, [Node(0, number, found.tally)])
        rows += found.rows
    return encoded(Chunk(start, stop, tuple(nodes), tuple(rows)))


def sweep(
    study: Study,
    folder: Path,
    executor: Executor,
    *,
    width: int = 1,
    chunk: int | None = None,
    on_progress: Callable[[Progress], None] | None = None,
) -> Outcome:
    """Do what of the study is not finished in the folder, with `width` chunks at work: none waits behind another, so
    that a worker lost costs only its own.

    `chunk` is how many blocks are handed out at once; the result is the same to the last bit whatever it is, however
    many workers there are, and however often the sweep was stopped. Refused with `BadInput`: a folder of another sweep,
    a chunk whose worker was lost again and again, a block that cannot be reckoned.
    """
    size = study.CHUNK if chunk is None else chunk
    if size < 1:
        raise BadInput(f"{size} blocks a chunk are none; give at least 1")
    blocks = study.blocks()
    open_folder(folder, study)
    kept, damaged = finished(folder)
    missing = gaps(kept, blocks)
    before = done = blocks - sum(stop - start for start, stop in missing)
    begun = time.monotonic()
    ahead = iter([(at, min(at + size, stop)) for start, stop in missing for at in range(start, stop, size)])
    running: dict[Future[bytes], tuple[int, int]] = {}
    try:
        while True:
            while len(running) < width and (following := next(ahead, None)) is not None:
                running[executor.submit(work, study, *following)] = following
            if not running:
                break
            for future in wait(running, return_when=FIRST_COMPLETED).done:
                start, stop = running.pop(future)
                kept.append(keep(folder, start, stop, _answer(future, study, start, stop)))
                done += stop - start
                if on_progress is not None:
                    spent = time.monotonic() - begun
                    left = spent / (done - before) * (blocks - done)
                    on_progress(Progress(done, blocks, before, spent, left))
    finally:
        for future in running:
            future.cancel()
    nodes: list[Node] = []
    kept.sort()
    for each in chunks_of(kept):
        grow(nodes, each.nodes)
    return Outcome(study, whole(nodes), tuple(kept), blocks, before, damaged, time.monotonic() - begun)


def _answer(future: Future[bytes], study: Study, start: int, stop: int) -> bytes:
    try:
        return future.result()
    except AsplayedError:
        raise
    except CancelledError:
        raise BadInput(
            "the scheduler went away; what is finished is kept, so give the same command again once it is back"
        ) from None
    except Exception as fault:
        raise BadInput(
            f"blocks {start} to {stop - 1} of {study.NAME} could not be done ({type(fault).__name__}: {fault}); what "
            "is finished is kept; fewer blocks a chunk need less memory"
        ) from fault
