"""Run the long proofs: a million random shots over the whole domain, a hundred million reduced to a few numbers."""

from __future__ import annotations

import sys

from benchmarks import run, write

if __name__ == "__main__":
    found = run("prove", "Proven")
    if "--write" in sys.argv[1:]:
        write("proven", found)
