"""Run all benchmarks and print their table."""

from __future__ import annotations

import sys

from benchmarks import run, write

if __name__ == "__main__":
    found = run("measure", "Measured")
    if "--write" in sys.argv[1:]:
        write("measured", found)
