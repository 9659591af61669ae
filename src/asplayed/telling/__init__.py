"""Telling: a set and its findings as words, drawings and sheets. It reads records and computes none of them."""

from asplayed.telling.folder import tell
from asplayed.telling.sheet import set_sheet

__all__ = ["set_sheet", "tell"]
