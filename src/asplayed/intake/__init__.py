"""A list in anybody's words → records, with questions; every word is kept or understood."""

from asplayed.intake.reader import read

__all__ = ["read"]
