"""The records of clubs and sets, and what each club is as played."""

from asplayed.clubs.as_played import as_played, as_read, from_parts, played_set
from asplayed.clubs.records import (
    AsPlayed,
    Ball,
    Bend,
    Club,
    Disagreement,
    GolfSet,
    Grip,
    Head,
    Passage,
    PutterParts,
    Question,
    SetFacts,
    Shaft,
    Sleeve,
    Stated,
    Weight,
)

__all__ = [
    "AsPlayed",
    "Ball",
    "Bend",
    "Club",
    "Disagreement",
    "GolfSet",
    "Grip",
    "Head",
    "Passage",
    "PutterParts",
    "Question",
    "SetFacts",
    "Shaft",
    "Sleeve",
    "Stated",
    "Weight",
    "as_played",
    "as_read",
    "from_parts",
    "played_set",
]
