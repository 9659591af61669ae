"""The stored sets as the plain rows that telling draws a season and a field from."""

from __future__ import annotations

from asplayed.keeping.places import Where
from asplayed.keeping.reading import reading
from asplayed.keeping.seasons import known
from asplayed.telling.bags import Bag, Carried

_COLUMNS = "c.club, c.kind, c.maker, c.model, c.shaft, c.flex, c.loft, c.length, c.sole, c.grip"


def stored_bags(where: Where = None, *, season: str | None = None) -> tuple[Bag, ...]:
    """Every stored set that is not hidden, as its newest version stands; of one year, by the ISO weeks of its dates.

    Raises BadInput for a season that is no year.
    """
    known("model", season)
    with reading(where) as read:
        sets = read(
            "SELECT s.record_id, r.name, s.player, s.date, s.event, s.result, s.ball, s.colour FROM sets AS s "
            "JOIN records AS r ON r.id = s.record_id WHERE s.week IS NOT NULL "
            "AND (CAST(:season AS TEXT) IS NULL OR substr(s.week, 1, 4) = :season) ORDER BY s.record_id",
            season=season,
        )  # fmt: skip
        rows = read(f"SELECT c.record_id, {_COLUMNS} FROM clubs AS c ORDER BY c.record_id, c.position")
    clubs: dict[int, list[Carried]] = {}
    for record, club, kind, maker, model, shaft, flex, loft, length, sole, grip in rows:
        head = " ".join(word for word in (maker, model) if word)
        clubs.setdefault(record, []).append(
            Carried(club, kind, head, shaft or "", flex or "", loft, length, sole or "", grip or "")
        )
    return tuple(
        Bag(name, player or "", date or "", event or "", place, tuple(clubs.get(record, ())), ball or "", colour or "")
        for record, name, player, date, event, place, ball, colour in sets
    )
