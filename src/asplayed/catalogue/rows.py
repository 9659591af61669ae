"""Which rows of a model a club has, and whether they were on offer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from asplayed.catalogue.parts import Part, which
from asplayed.clubs.records import Club

WEDGES = frozenset({"pitching wedge", "gap wedge", "sand wedge", "lob wedge", "wedge", "chipper"})
Rows = tuple[Part, ...]


def suits(part: Part, club: Club) -> bool:
    """True when a part is made for such a club: for this very one, for its kind, or for any.

    >>> ember = Part(part="shaft", model="Ember", club=("driver", "fairway wood"))
    >>> suits(ember, Club(club="3 wood", kind="fairway wood"))
    True
    """
    if not part.club or club.club in part.club or club.kind in part.club:
        return True
    if club.kind == "wedge":
        return any(name in WEDGES for name in part.club)
    if club.club in WEDGES:  # the set's own wedge goes with the irons
        return "wedge" in part.club or "iron" in part.club
    if club.kind == "iron" or part.part != "head":
        return False
    family = {"fairway wood": " wood", "hybrid": " hybrid", "driving iron": " driving iron"}.get(club.kind)
    return family is not None and any(name.endswith(family) for name in part.club)


def made_for(rows: Iterable[Part], club: Club) -> Rows:
    """The rows made for a club: those for this very club where there are any, else those for its kind."""
    fitting = tuple(row for row in rows if suits(row, club))
    exact = tuple(row for row in fitting if club.club in row.club)
    return exact or fitting


def told_last(rows: Iterable[Part]) -> tuple[Rows, tuple[tuple[Part, Part], ...]]:
    """Each row once, as the latest document tells it, and the pairs (older, newer) that documents tell differently."""
    newest: dict[tuple[object, ...], Part] = {}
    differing = []
    for row in sorted(rows, key=lambda part: part.document_date or ""):
        key = which(row)
        if key in newest and _figures(newest[key]) != _figures(row):
            differing.append((newest[key], row))
        newest[key] = row
    return tuple(newest.values()), tuple(differing)


def _figures(part: Part) -> dict[str, object]:
    return {name: figure.value for name, figure in part.figures.items()}


def with_number(rows: Sequence[Part], name: str, value: float, within: float = 0.05) -> Rows:
    """The rows whose published figure is `value`, to within a little."""
    return tuple(row for row in rows if (told := row.number(name)) is not None and abs(told - value) <= within)


def with_words(rows: Sequence[Part], of: Callable[[Part], str | None], words: str) -> Rows:
    """The rows whose word for something is `words`, letter case and filling words aside."""
    return tuple(row for row in rows if (told := of(row)) is not None and bare(told) == bare(words))


def bare(words: str) -> str:
    """Words for comparing: lower case, without hyphens and the words that say only what is described.

    >>> bare("Heel-and-Toe relief sole"), bare("plumber's neck")
    ('heel toe', 'plumbers')
    """
    plain = words.casefold().replace("'", "").replace("’", "").replace("-", " ").replace("&", " ")
    return " ".join(word for word in plain.split() if word not in {"sole", "grind", "relief", "and", "neck", "the"})


def begins_by(row: Part, date: str) -> bool:
    """True when a part was on offer on or before a date; a date is as precise as it is written."""
    return row.offered_from is None or row.offered_from <= date[: len(row.offered_from)]


def ended_before(row: Part, date: str) -> bool:
    """True when a part was last offered before a date.

    >>> ended_before(Part(part="head", model="Dunlin", offered_until="2024-09"), "2024-09-30")
    False
    """
    return row.offered_until is not None and row.offered_until < date[: len(row.offered_until)]


def offered(row: Part, date: str) -> bool:
    """True when a part was on offer on a date."""
    return begins_by(row, date) and not ended_before(row, date)


def numbers_of(rows: Iterable[Part], name: str) -> tuple[float, ...]:
    """The published values of one figure over some rows, each once, in order."""
    return tuple(sorted({value for row in rows if (value := row.number(name)) is not None}))


def listed(values: Iterable[float | str]) -> str:
    """Values as a phrase: "9, 10.5 and 12".

    >>> listed([9.0, 10.5, 12.0])
    '9, 10.5 and 12'
    """
    words = [value if isinstance(value, str) else f"{value:g}" for value in values]
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)
