"""Real workers: one is killed for real, a scheduler's address leads there, a wrong one is told in a sentence."""

from __future__ import annotations

import os
import signal
import socket
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from asplayed.errors import BadInput
from asplayed.sweeps.engine import Progress, sweep
from asplayed.sweeps.landings import Landings
from asplayed.sweeps.workers import ONE_THREAD, Here, pool

pytestmark = [
    pytest.mark.slow,
    # the engine's own loops and sockets close when the collector comes to them
    pytest.mark.filterwarnings("ignore::ResourceWarning"),
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]


@pytest.fixture(scope="module")
def cluster() -> Iterator[Any]:
    """A scheduler and two workers, as `pool` sets them up."""
    with pool(2) as found:
        yield found.executor._client.cluster  # type: ignore[attr-defined]


def test_threads_are_limited_before_a_worker_starts(cluster: Any) -> None:
    from distributed import Client

    with Client(cluster) as client:
        found = client.run(lambda: dict(os.environ))
    assert len(found) == 2
    assert all(each.items() >= ONE_THREAD.items() for each in found.values())


def test_a_running_scheduler_gives_the_same_bits(cluster: Any, landings: Landings, tmp_path: Path) -> None:
    import dask

    plain = sweep(landings, tmp_path / "plain", Here())
    keys = cluster.security.get_tls_config_for_role("client")
    names = {"ca-file": "ca_file", "client.cert": "cert", "client.key": "key"}
    tls = {f"distributed.comm.tls.{name}": keys[each] for name, each in names.items()}
    address = cluster.scheduler_address
    with dask.config.set(tls), pool(cluster=address) as (there, width):
        assert width == 2
        assert sweep(landings, tmp_path / "there", there, width=width, chunk=5).tally == plain.tally


def test_a_worker_killed_midway_costs_its_chunk_alone(cluster: Any, landings: Landings, tmp_path: Path) -> None:
    from distributed import Client
    from distributed.diagnostics.plugin import WorkerPlugin

    begun = tmp_path / "begun"

    # defined here so that it travels to the workers by value: they do not import the tests
    class Begun(WorkerPlugin):
        """Writes down each chunk a worker begins; what was only given to it, and never begun, costs nothing."""

        name = "begun"

        def transition(self, key: Any, start: str, finish: str, **kwargs: Any) -> None:
            if finish == "executing" and str(key).startswith("work"):
                written = os.open(begun, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
                os.write(written, f"{key}\n".encode())
                os.close(written)

    study = replace(landings, shots=20_000)
    plain = sweep(study, tmp_path / "plain", Here())
    with Client(cluster) as client:
        client.register_plugin(Begun())
        pids = client.run(os.getpid)
        killed: list[str] = []

        def kill_one(progress: Progress) -> None:
            if progress.done < 3 or killed:
                return
            for address, worker in cluster.scheduler.workers.items():
                # stopped first: what the scheduler has given it is then the most it can have begun
                os.kill(pids[address], signal.SIGSTOP)
                if len(worker.processing) + len(worker.has_what) == 1:
                    os.kill(pids[address], signal.SIGKILL)
                    killed.append(address)
                    return
                os.kill(pids[address], signal.SIGCONT)

        found = sweep(study, tmp_path / "killed", client.get_executor(), width=2, chunk=1, on_progress=kill_one)
        client.unregister_worker_plugin("begun")
    assert len(killed) == 1
    assert found.tally == plain.tally
    assert list(found.rows()) == list(plain.rows())
    times = Counter(begun.read_text().split())
    assert len(times) == study.blocks()
    assert times.total() - len(times) <= 1, "more than one chunk was done twice"


def test_an_address_nobody_answers_at_is_told_within_seconds() -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    begun = time.monotonic()
    with pytest.raises(BadInput, match="no scheduler answers at"), pool(cluster=f"tcp://127.0.0.1:{port}"):
        pass
    assert time.monotonic() - begun < 60  # the limit is 4 s; the machine may be busy


@pytest.mark.parametrize("address", ["not an address", "http://127.0.0.1:1", "", "tcp://nowhere.invalid:8786"])
def test_what_is_no_address_is_told(address: str) -> None:
    with pytest.raises(BadInput, match="no scheduler answers at"), pool(cluster=address):
        pass
