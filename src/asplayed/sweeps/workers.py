"""Where the workers come from: this process, processes of this machine, or a running scheduler's machines."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from typing import Any, NamedTuple

from asplayed import __version__
from asplayed.errors import BadInput

CONNECT = 4.0  # s to wait for a scheduler to answer
# A worker is one core's: what would start threads of its own in it is held to one before it starts.
ONE_THREAD = dict.fromkeys(("NUMBA_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "OPENBLAS_NUM_THREADS"), "1")

# A lost worker is made good and told by nobody; what cannot be made good comes back as a fault.
_QUIET = ("distributed", "distributed.client", "distributed.nanny", "bokeh", "tornado", "tornado.application")


class Pool(NamedTuple):
    """An executor and how many chunks it works on at once."""

    executor: Executor
    width: int


class Here(Executor):
    """Does each task in this very process as it is handed over."""

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Do the task; an interrupt goes through, what else goes wrong is the future's."""
        future: Future[Any] = Future()
        try:
            future.set_result(fn(*args, **kwargs))
        except Exception as fault:
            future.set_exception(fault)
        return future


@contextmanager
def pool(workers: int | None = None, cluster: str | None = None) -> Iterator[Pool]:
    """Workers for a sweep: as many processes of this machine (None: one a core; 0: none, this process does it all), or
    those of the scheduler at the address `cluster`. Refused with `BadInput`: an address nobody answers at, a cluster
    without workers or with another version.
    """
    if cluster is not None:
        with _running(cluster) as found:
            yield found
    elif workers == 0:
        yield Pool(Here(), 1)
    else:
        with _embedded(workers or len(os.sched_getaffinity(0))) as found:
            yield found


@contextmanager
def _embedded(workers: int) -> Iterator[Pool]:
    import dask

    with dask.config.set(
        {
            "distributed.nanny.pre-spawn-environ": dict(ONE_THREAD),
            "logging": dict.fromkeys(_QUIET, "critical"),
            # The engine's watch on itself, a hundred times a second, is a tenth of the work of a worker.
            "distributed.worker.profile.enabled": False,
            "distributed.admin.tick.interval": "1s",
            "distributed.admin.system-monitor.interval": "10s",
            "distributed.worker.memory.monitor-interval": "1s",
            "distributed.scheduler.work-stealing": False,
        }
    ):
        from distributed import Client, LocalCluster

        with (
            # Whoever can speak to a scheduler can run anything as its user: keys of this run alone keep others out.
            LocalCluster(
                n_workers=workers,
                threads_per_worker=1,
                host="127.0.0.1",
                security=True,
                dashboard_address="127.0.0.1:0",
                worker_dashboard_address="127.0.0.1:0",
                preload="asplayed.sweeps.worker_setup",
            ) as cluster,
            Client(cluster) as client,
        ):
            yield Pool(client.get_executor(), workers)


@contextmanager
def _running(address: str) -> Iterator[Pool]:
    nobody = BadInput(
        f"no scheduler answers at {address[:200]!r}; give the address that dask scheduler prints, such as "
        "tcp://10.0.0.5:8786"
    )
    if not re.fullmatch(r"((tcp|tls)://)?[\w.:\[\]-]+:\d{1,5}", address):
        raise nobody
    from distributed import Client

    try:
        client = Client(address, timeout=CONNECT)
    except Exception as fault:
        raise nobody from fault
    with client:
        versions = _versions(client, address)
        if not versions:
            raise BadInput(f"the scheduler at {address} has no workers; start some with: dask worker {address}")
        others = {name: version for name, version in versions.items() if version != __version__}
        if others:
            name, version = next(iter(others.items()))
            raise BadInput(
                f"the worker {name} has asplayed {version}, this is {__version__}; install the same version on all"
            )
        yield Pool(client.get_executor(), sum(client.nthreads().values()))


def version() -> str:
    """The version a worker has."""
    return __version__


def _versions(client: Any, address: str) -> dict[str, str]:
    try:
        found: dict[str, str] = client.run(version)
    except Exception as fault:
        raise BadInput(
            f"the workers of {address} cannot run asplayed ({type(fault).__name__}: {fault}); install it there"
        ) from fault
    return found
