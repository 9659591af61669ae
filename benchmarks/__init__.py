"""How fast it is, beside what a user would otherwise pick, in the same run on the same core.

`python -m benchmarks` runs every module of this folder that has a `measure()` and prints one table; `--write` puts it
into `docs/performance.md`. `python -m benchmarks.prove` runs every `prove()`, which takes minutes. A new benchmark is a
module with a `TITLE` and one or both of these functions, each answering a list of `Line`; or a module with a `main()`
that prints a table of its own.
"""

from __future__ import annotations

import contextlib
import importlib
import io
import os
import pkgutil
import platform
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any, NamedTuple

PAGE = Path(__file__).resolve().parent.parent / "docs" / "performance.md"


class Line(NamedTuple):
    """One figure: what was measured, how much, the goal if there is one, and whether it was met."""

    what: str
    value: float
    unit: str
    goal: str = ""
    met: bool | None = None
    note: str = ""


def modules() -> Iterator[ModuleType]:
    """The benchmarks of this folder."""
    for found in pkgutil.iter_modules([str(Path(__file__).parent)]):
        if found.name not in ("__main__", "prove"):
            module = importlib.import_module(f"benchmarks.{found.name}")
            if hasattr(module, "TITLE") or hasattr(module, "main"):
                yield module


def best_time(work: Callable[[], Any], times: int = 5) -> float:
    """The shortest of several timings in seconds: what the machine can do when nothing else asks for it."""
    shortest = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        shortest = min(shortest, time.perf_counter() - start)
    return shortest


def on_one_core() -> None:
    """Keep this process on one core, so that figures are per core."""
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})


def machine() -> str:
    """The processor and what the figures were made with."""
    import numba
    import numpy
    import scipy

    name = platform.processor() or platform.machine()
    try:
        for line in Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines():
            if line.startswith("model name"):
                name = line.split(":", 1)[1].strip()
                break
    except OSError:
        pass
    return (
        f"{name}, {os.cpu_count()} cores, Python {platform.python_version()}, NumPy {numpy.__version__}, "
        f"SciPy {scipy.__version__}, numba {numba.__version__}"
    )


def table(title: str, lines: list[Line]) -> str:
    """The lines as a Markdown table."""
    rows = [f"### {title}", "", "| | figure | unit | goal | met | |", "|---|---|---|---|---|---|"]
    for line in lines:
        met = "" if line.met is None else "yes" if line.met else "**no**"
        rows.append(f"| {line.what} | {line.value:,.4g} | {line.unit} | {line.goal} | {met} | {line.note} |")
    return "\n".join([*rows, ""])


def run(which: str, heading: str) -> str:
    """All benchmarks' tables of one kind, under a heading with machine and date; each is printed as it is done."""
    on_one_core()
    parts = [f"## {heading}", "", f"{time.strftime('%d %B %Y')}; {machine()}; one core.", ""]
    print("\n".join(parts))
    for module in modules():
        if hasattr(module, "TITLE") and hasattr(module, which):
            parts.append(table(module.TITLE, getattr(module, which)()))
        elif not hasattr(module, "TITLE") and which == "measure":
            parts.append(_printed(module))
        else:
            continue
        print(parts[-1], flush=True)
    return "\n".join(parts)


def _printed(module: ModuleType) -> str:
    """The table a module prints itself, under the first sentence of its own account."""
    caught = io.StringIO()
    with contextlib.redirect_stdout(caught):
        module.main()
    title = (module.__doc__ or module.__name__).split(":")[0].split(".")[0]
    return f"### {title}\n\n```\n{caught.getvalue().rstrip()}\n```\n"


def write(section: str, text: str) -> None:
    """Put a section into the docs page, between its marks."""
    page = PAGE.read_text(encoding="utf-8")
    start, end = f"<!-- {section} -->", f"<!-- end of {section} -->"
    before, rest = page.split(start)
    PAGE.write_text(f"{before}{start}\n{text.rstrip()}\n{end}{rest.split(end)[1]}", encoding="utf-8")
