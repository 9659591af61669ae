"""Clubs while they are being read: what was said of each, of the club itself or of a group, and where."""

from __future__ import annotations

from typing import Literal, NamedTuple

Family = Literal["driver", "wood", "hybrid", "diron", "iron", "wedge", "putter"]

KINDS: dict[str, str] = {
    "driver": "driver", "wood": "fairway wood", "hybrid": "hybrid", "diron": "driving iron", "iron": "iron",
    "wedge": "wedge", "putter": "putter",
}  # fmt: skip


class Entry(NamedTuple):
    """One thing said: its value in the record's unit, and the words that said it."""

    value: float | str | bool | None
    unit: str
    line: int
    text: str
    low: float | None = None
    high: float | None = None
    source: str = "stated"
    why: str | None = None
    group: int = 0  # of how many clubs it was said at once; 0 of the club itself, 1 of a group of unknown size


def of_group(count: int) -> int:
    """What `Entry.group` says of words about so many clubs."""
    return count if count > 1 else 0


class Moved(NamedTuple):
    """One movable mass as said."""

    place: str | None
    step: int | None
    mass: float | None
    line: int


class Clash(NamedTuple):
    """Two things said of one place, the earlier and the later."""

    path: str
    earlier: Entry
    later: Entry


_OF_THE_SHAFT = ("shaft.mass", "shaft.flex", "shaft.torque", "shaft.launch", "shaft.spin")


def _the_same(one: Entry, other: Entry) -> bool:
    """True for "Reed" and "Reed Blue": one shaft told shorter."""
    short, long = sorted((str(one.value).casefold(), str(other.value).casefold()), key=len)
    return long.startswith(short)


class Draft:
    """A club being read."""

    def __init__(self, family: str, *, number: int | None = None, name: str | None = None, line: int = 0) -> None:
        self.family = family
        self.number = number
        self.name = name
        self.facts: dict[str, Entry] = {}
        self.weights: list[Moved] = []
        self.lines: set[int] = {line} if line else set()
        self.header: Draft | None = None
        self.word = ""  # the word that made it a heading: "woods", "fairway woods"
        self.clashes: list[Clash] = []
        self.corrected: list[Entry] = []  # what the list itself said and then put right
        self.inferred: str | None = None  # why this club's name had to be inferred
        self.in_range = False  # one of a range of irons
        self.row = 0  # the line or clause it was first mentioned in
        self.place = -1  # the token it was first mentioned at
        self.index = 0
        self.narrowed = False  # its shaft's mass was said of more clubs than are now spoken of

    @property
    def kind(self) -> str:
        """The record's kind."""
        return KINDS[self.family]

    @property
    def adjustable(self) -> bool:
        """True for the families that come with sleeves."""
        return self.family in ("driver", "wood", "hybrid")

    def has(self, path: str) -> bool:
        """True when something is known for this path."""
        return path in self.facts or (self.header is not None and path in self.header.facts)

    def said(self, path: str) -> Entry | None:
        """What was said at this path, of the club or of its heading."""
        return self.facts.get(path) or (self.header.facts.get(path) if self.header is not None else None)

    def value(self, path: str) -> float | None:
        """The number at this path, or None."""
        entry = self.facts.get(path)
        return float(entry.value) if entry and isinstance(entry.value, int | float) else None

    def put(self, path: str, entry: Entry, *, correcting: bool = False) -> None:
        """Take a statement: a correction replaces, a group's word yields to the club's own, a later one stands."""
        self.lines.add(entry.line)
        known = self.facts.get(path)
        if known is not None and correcting:
            self.corrected.append(known)
        elif known is not None:
            if known.group and not entry.group:
                self.facts[path] = entry
                return
            if entry.group and not known.group:
                return
            if known.group > entry.group > 1:
                self.facts[path] = entry  # "105 S, but 95 in the 5 and 6": the smaller group's word
                return
            if (known.value, known.low) == (entry.value, entry.low):
                return
            if known.value is not None and entry.value is not None:
                self.clashes.append(Clash(path, known, entry))
            if known.value is not None and entry.value is None and entry.low is None:
                return
            own = not entry.group and not known.group
            if path == "shaft.name" and own and entry.line > known.line and not _the_same(known, entry):
                self._forget_shaft(known.line)
        self.facts[path] = entry

    def _forget_shaft(self, line: int) -> None:
        """Another shaft is told of later: what the line of the old one said of it is the new one's no more."""
        for path in _OF_THE_SHAFT:
            if path in self.facts and self.facts[path].line == line:
                del self.facts[path]

    def move(self, moved: Moved, *, correcting: bool = False) -> None:
        """Take a movable mass; one place holds one mass."""
        self.lines.add(moved.line)
        self.weights = [known for known in self.weights if known.place != moved.place and not correcting]
        self.weights.append(moved)


_ORDER = {"driver": 0, "wood": 1, "hybrid": 2, "diron": 2, "iron": 3, "wedge": 4, "putter": 9}
_USUAL = {"pitching wedge": 46.0, "gap wedge": 50.0, "sand wedge": 55.0, "lob wedge": 59.0, "chipper": 35.0}


def _rank(draft: Draft) -> tuple[int, float]:
    """Where a club stands in its set, longest first."""
    loft = draft.value("head.loft")
    if draft.family == "wedge" or draft.name in _USUAL:
        return 4, loft if loft is not None else _USUAL.get(draft.name or "", 55.0)
    return _ORDER[draft.family], float(draft.number or 0) or (loft or 0.0)


def between(drafts: list[Draft], first: list[Draft] | None, last: list[Draft] | None) -> list[Draft]:
    """The clubs of a set from the longest of `first` to the shortest of `last`, without the putter."""
    ranks = [_rank(draft) for draft in drafts if draft.family != "putter"]
    low = min(map(_rank, first)) if first else min(ranks, default=(0, 0.0))
    high = max(map(_rank, last)) if last else max(ranks, default=(9, 0.0))
    return [draft for draft in drafts if draft.family != "putter" and low <= _rank(draft) <= high]
