"""asplayed: from a terse list of golf clubs to every club as it is really played."""

from typing import Any

__version__ = "0.1.0"

_VERBS = {
    "read": "asplayed.intake",
    "as_played": "asplayed.clubs",
    "judge": "asplayed.judgement",
    "choose": "asplayed.choosing.choose",
}

__all__ = ["__version__", "as_played", "choose", "judge", "read"]


def __getattr__(name: str) -> Any:
    """The verbs, brought in when first asked for, so that starting up stays quick."""
    if name in _VERBS:
        from importlib import import_module

        return getattr(import_module(_VERBS[name]), name)
    raise AttributeError(f"module 'asplayed' has no attribute {name!r}")
