"""What a list is read to say at one place of the record, club by club."""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from scoring import _find, _value

from asplayed.intake import read
from asplayed.quantities import plain


def told(text: str, path: str) -> dict[str, object]:
    """The figure or the name at `path` for each club of the list that has one."""
    found = {club["club"]: _value(_find(club, path)) for club in plain(read(text))["clubs"]}
    return {club: value for club, value in found.items() if value is not None}


def set_aside(text: str) -> list[str]:
    """The stretches of the list that are kept aside."""
    return [passage["text"] for passage in plain(read(text))["aside"]]
