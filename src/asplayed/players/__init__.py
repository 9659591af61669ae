"""The player: what he delivers, what his shots were, and what the set does in his hands."""

from importlib import import_module
from typing import Any

_WHERE = {
    "Conditions": "records",
    "Player": "records",
    "Session": "summaries",
    "SessionFacts": "records",
    "player_of": "records",
    "shots_of": "shots",
    "summarise": "summaries",
    "fly_set": "flying",
}

__all__ = sorted(_WHERE)  # noqa: PLE0605


def __getattr__(name: str) -> Any:
    """The functions of this room, each brought in with its module when first asked for."""
    if name in _WHERE:
        return getattr(import_module(f"asplayed.players.{_WHERE[name]}"), name)
    raise AttributeError(f"module 'asplayed.players' has no attribute {name!r}")
