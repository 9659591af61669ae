"""The errors a user can meet, drawn once.

    AsplayedError                 anything with a sentence for the user
    ├── BadInput                  what was given cannot be used              exit 2
    │   ├── Refused               several faults of one input, all at once   exit 2
    │   ├── Missing               nothing is stored under that name          exit 2
    │   └── Stale                 somebody else stored a newer version       exit 2
    └── StoreUnusable             the store cannot be opened or written      exit 3

Every message is one sentence: what is wrong, where, what would have been right, what to do next.
"""

from __future__ import annotations

from collections.abc import Iterable


class AsplayedError(Exception):
    """A fault with a sentence for the user and the exit code that tells a script about it."""

    exit_code = 1


class BadInput(AsplayedError, ValueError):
    """What was given cannot be used; nothing was stored."""

    exit_code = 2


class Refused(BadInput):
    """Several faults of one input, named together: the first twenty, and how many there are."""

    shown = 20

    def __init__(self, what: str, faults: Iterable[str]) -> None:
        self.what = what
        self.faults = tuple(faults)
        lines = [f"{what}:", *(f"  {fault}" for fault in self.faults[: self.shown])]
        if len(self.faults) > self.shown:
            lines.append(f"  … and {len(self.faults) - self.shown} more")
        super().__init__("\n".join(lines))


class Missing(BadInput):
    """Nothing is stored under the name that was given, or not any more."""


class Stale(BadInput):
    """What was to be stored was made from a version that is no longer the newest; nothing was stored."""


class StoreUnusable(AsplayedError):
    """The store cannot be opened, read or written."""

    exit_code = 3


def nearest(word: str, known: Iterable[str], *, most: int = 3) -> str:
    """`; did you mean …?` with the known words nearest to `word`, or nothing.

    >>> nearest("bounse", ["loft", "bounce"])
    '; did you mean bounce?'
    """
    import difflib

    folded = {entry.casefold(): entry for entry in known}
    near = difflib.get_close_matches(word.casefold(), folded, n=most, cutoff=0.5)
    return f"; did you mean {' or '.join(folded[entry] for entry in near)}?" if near else ""
