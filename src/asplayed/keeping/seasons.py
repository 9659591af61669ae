"""What was in the bags week by week: tallies kept up with every save, so that questions are answered at once.

A set counts once, as its newest version stands, in the ISO week of its date. `tallies` counts, for each field of a
club and each kind of club, how often each value stood in a week and in a season (the year of the week), winners
apart; balls and sets count under no kind.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.keeping import searching
from asplayed.keeping.club_rows import ClubRow, club_rows
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import in_bulk, reading
from asplayed.keeping.versions import Version, storable

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.keeping.store import Action

OF_CLUBS = ("model", "shaft", "flex", "loft", "length", "sole", "grip")
OF_SETS = ("ball", "colour")
FIELDS = (*OF_CLUBS, *OF_SETS)
WINNER = 1

TALLY = ("span", "field", "kind", "value", "period", "won")
Tally = tuple[str, str, str, str, str, int]
"""week or season, field, kind (nothing for sets), value, period (nothing for undated), won."""


class Share(NamedTuple):
    """How often a value stood in a period, of how many clubs (or sets) there were, and that as a percentage."""

    period: str
    kind: str
    value: str
    number: int
    of: int
    percent: float


class Beside(NamedTuple):
    """A value's share among the winners' clubs beside that among all others', in percent."""

    kind: str
    value: str
    winners: int
    winners_percent: float
    field: int
    field_percent: float


class Seen(NamedTuple):
    """The weeks in which a value was first and last seen."""

    kind: str
    value: str
    first: str
    last: str
    number: int


class Unchanged(NamedTuple):
    """A club that stayed the same over some sets of a player, by date."""

    club: str
    model: str
    since: str
    until: str
    sets: int


def week_of(day: str | None) -> str:
    """The ISO 8601 week of a date; nothing where there is no date.

    >>> week_of("2026-01-01"), week_of("2027-01-01"), week_of(None), week_of("soon")
    ('2026-W01', '2026-W53', '', '')
    """
    try:
        year, week, _ = date.fromisoformat(day or "").isocalendar()
    except ValueError:
        return ""
    return f"{year}-W{week:02}"


def text_of(value: object) -> str:
    """A value as it is tallied: numbers without idle zeros."""
    return f"{value:g}" if isinstance(value, float) else str(value)


def counts(clubs: Iterable[ClubRow], week: str, ball: str | None, colour: str | None, won: int) -> Counter[Tally]:
    """The tallies of one set, once for its week and once for its season."""
    found: Counter[Tally] = Counter()
    for span, period in (("week", week), ("season", week[:4])):
        found[span, "set", "", "", period, won] += 1
        for field, value in (("ball", ball), ("colour", colour)):
            if value is not None:
                found[span, field, "", value, period, won] += 1
    for club in clubs:
        for span, period in (("week", week), ("season", week[:4])):
            found[span, "club", club.kind, club.club, period, won] += 1
            for field in OF_CLUBS:
                value = getattr(club, field)
                if value is not None:
                    found[span, field, club.kind, text_of(value), period, won] += 1
    return found


def tallied(read: Read, record_id: int) -> Counter[Tally]:
    """What a stored set counts for now; nothing while it is hidden, or not told of yet."""
    rows = read("SELECT week, ball, colour, result FROM sets WHERE record_id = :record", record=record_id)
    if not rows or rows[0][0] is None:
        return Counter()
    week, ball, colour, result = rows[0]
    clubs = read(f"SELECT {', '.join(ClubRow._fields)} FROM clubs WHERE record_id = :record", record=record_id)
    return counts(map(ClubRow._make, clubs), week, ball, colour, int(result == WINNER))


def count(action: Action, found: Counter[Tally], sign: int) -> None:
    """Add to the tallies, or take away."""
    import sqlalchemy

    if not found:
        return
    rows = [dict(zip(TALLY, tally, strict=True), number=sign * number) for tally, number in found.items()]
    names = ", ".join(TALLY)
    given = ", ".join(f":{name}" for name in TALLY)
    action.connection.execute(
        sqlalchemy.text(
            f"INSERT INTO tallies ({names}, number) VALUES ({given}, :number) "
            f"ON CONFLICT ({names}) DO UPDATE SET number = tallies.number + excluded.number"
        ),
        rows,
    )
    if sign < 0:
        same = " AND ".join(f"{name} = :{name}" for name in TALLY)
        action.connection.execute(sqlalchemy.text(f"DELETE FROM tallies WHERE {same} AND number = 0"), rows)


def tell(action: Action, version: Version, name: str, golf_set: GolfSet, words: bytes) -> None:
    """Tell the newest version of a set in `sets`, `clubs`, `tallies` and `search`, instead of what was told before."""
    from asplayed.keeping import schema

    write, record_id = action.connection.execute, version.record_id
    rows = action.read("SELECT result FROM sets WHERE record_id = :record", record=record_id)
    count(action, tallied(action.read, record_id), -1)
    for table in (schema.clubs, schema.sets):
        write(table.delete().where(table.c.record_id == record_id))
    searching.take_away(action, record_id)
    count(action, tell_new(action, version, name, golf_set, words, rows[0][0] if rows else None), 1)


def tell_new(
    action: Action, version: Version, name: str, golf_set: GolfSet, words: bytes, result: int | None
) -> Counter[Tally]:
    """Tell a version of a set of which nothing is told yet; what it adds to the tallies is left to be counted."""
    from asplayed.keeping import schema

    write, facts, ball = action.connection.execute, golf_set.set, golf_set.ball
    clubs = club_rows(golf_set)
    row: dict[str, Any] = {
        "player": facts.player,
        "date": facts.date,
        "event": facts.event,
        "ball": ball and (ball.model or ball.name),
        "colour": ball and ball.colour,
    }
    told = [facts.title, *row.values(), None if version.hidden else week_of(facts.date)]
    told += [value for club in clubs for value in (club.club, club.maker, club.model, club.shaft, club.sole, club.grip)]
    text = "\n".join([*dict.fromkeys(str(each) for each in told if each), words.decode("utf-8", "replace")])
    text = text.replace("\0", " ")
    row = {key: value and storable(value) for key, value in row.items()}
    row |= {"record_id": version.record_id, "clubs": len(golf_set.clubs), "version": version.version, "result": result}
    if version.hidden:
        write(schema.sets.insert().values(**row))
        return Counter()
    row |= {"name": name, "week": week_of(facts.date), "search_sha256": searching.search_hash(name, text)}
    write(schema.sets.insert().values(**row))
    if clubs:
        write(schema.clubs.insert(), [{"record_id": version.record_id, **club._asdict()} for club in clubs])
    searching.put(action, version.record_id, name, text)
    return counts(clubs, row["week"], row["ball"], row["colour"], int(result == WINNER))


def note_result(action: Action, record_id: int, place: int | None) -> None:
    """Note a set's place in its event, and count it anew."""
    from asplayed.keeping import schema

    count(action, tallied(action.read, record_id), -1)
    action.connection.execute(schema.sets.update().where(schema.sets.c.record_id == record_id).values(result=place))
    count(action, tallied(action.read, record_id), 1)


def wrong_tallies(read: Read) -> list[str]:
    """Where the tallies are not what the told sets and clubs come to, one sentence each."""
    clubs: dict[int, list[ClubRow]] = {}
    for row in read(f"SELECT record_id, {', '.join(ClubRow._fields)} FROM clubs"):
        clubs.setdefault(row[0], []).append(ClubRow._make(row[1:]))
    wanted: Counter[Tally] = Counter()
    for record_id, week, ball, colour, result in read(
        "SELECT record_id, week, ball, colour, result FROM sets WHERE week IS NOT NULL"
    ):
        wanted.update(counts(clubs.get(record_id, []), week, ball, colour, int(result == WINNER)))
    found = {tuple(row[:-1]): row[-1] for row in read(f"SELECT {', '.join(TALLY)}, number FROM tallies")}
    wrong = [key for key in {*found, *wanted} if found.get(key, 0) != wanted.get(key, 0)]
    return [
        f"the tally of {field} {value} of {kind or 'sets'} in {period or f'no {span}'} is not what the sets come to"
        for span, field, kind, value, period, _ in sorted(wrong)
    ]


# ------------------------------------------------------------------------------------------------- the questions


def known(field: str, season: str | None = None) -> None:
    """Refuse a field that is not tallied, and a season that is no year."""
    if field not in FIELDS:
        raise BadInput(f"{field[:40]!r} is not counted; counted are {', '.join(FIELDS)}")
    if season is not None and not re.fullmatch(r"\d{4}", season):
        raise BadInput(f"a season is a year, such as 2026, not {season[:40]!r}")


PERIODS = """
SELECT period, kind, {}SUM(number) FROM tallies WHERE span = :span AND field = :field
AND (CAST(:kind AS TEXT) IS NULL OR kind = :kind) AND (CAST(:season AS TEXT) IS NULL OR substr(period, 1, 4) = :season)
GROUP BY {}
"""

SIDES = """
SELECT kind, {}won, SUM(number) FROM tallies WHERE span = 'season' AND field = :field
AND (CAST(:kind AS TEXT) IS NULL OR kind = :kind) AND (CAST(:season AS TEXT) IS NULL OR period = :season)
GROUP BY {}
"""

# The index of the tallies answers the first and the last week of each value at once.
SEEN = """
SELECT every.kind, every.value,
    (SELECT MIN(t.period) FROM tallies AS t WHERE t.span = 'week' AND t.field = :field AND t.kind = every.kind
     AND t.value = every.value AND t.period >= :first AND t.period <= :last),
    (SELECT MAX(t.period) FROM tallies AS t WHERE t.span = 'week' AND t.field = :field AND t.kind = every.kind
     AND t.value = every.value AND t.period >= :first AND t.period <= :last),
    every.number
FROM (
    SELECT kind, value, SUM(number) AS number FROM tallies WHERE span = 'season' AND field = :field AND period <> ''
    AND (CAST(:kind AS TEXT) IS NULL OR kind = :kind) AND (CAST(:season AS TEXT) IS NULL OR period = :season)
    GROUP BY kind, value
) AS every
"""


def shares(
    field: str, where: Where = None, *, kind: str | None = None, season: str | None = None, weeks: bool = False
) -> tuple[Share, ...]:
    """The share of each value of a field, season by season or week by week; of all clubs of its kind, or all sets."""
    known(field, season)
    base = "set" if field in OF_SETS else "club"
    asked = {"kind": None if base == "set" else kind, "season": season, "span": "week" if weeks else "season"}
    with in_bulk(), reading(where) as read:
        totals = {(row[0], row[1]): row[2] for row in read(PERIODS.format("", "1, 2"), field=base, **asked)}
        rows = read(PERIODS.format("value, ", "1, 2, 3"), field=field, **asked)
        found = []
        for shown, of_kind, value, number in sorted(rows, key=lambda row: (row[0], row[1], -row[3], row[2])):
            of = totals[shown, of_kind]
            found.append(Share(shown, of_kind, value, number, of, round(100 * number / of, 2)))
    return tuple(found)


def winners(
    field: str, where: Where = None, *, kind: str | None = None, season: str | None = None
) -> tuple[Beside, ...]:
    """The share of each value among the winners beside that among all others."""
    known(field, season)
    base = "set" if field in OF_SETS else "club"
    asked = {"kind": None if base == "set" else kind, "season": season}
    with reading(where) as read:
        totals = {(row[0], row[1]): row[2] for row in read(SIDES.format("", "1, 2"), field=base, **asked)}
        rows = read(SIDES.format("value, ", "1, 2, 3"), field=field, **asked)
    numbers: dict[tuple[str, str], list[int]] = {}
    for of_kind, value, won, number in rows:
        numbers.setdefault((of_kind, value), [0, 0])[won] = number
    found = []
    for (of_kind, value), (others, won) in numbers.items():
        part = [round(100 * n / max(totals.get((of_kind, side), 0), 1), 2) for side, n in enumerate((others, won))]
        found.append(Beside(of_kind, value, won, part[1], others, part[0]))
    return tuple(sorted(found, key=lambda each: (each.kind, -each.winners, -each.field, each.value)))


def seen(field: str, where: Where = None, *, kind: str | None = None, season: str | None = None) -> tuple[Seen, ...]:
    """The weeks in which each value was first and last seen; undated sets tell nothing here."""
    known(field, season)
    with reading(where) as read:
        rows = read(
            SEEN, field=field, kind=None if field in OF_SETS else kind, season=season,
            first=season or "0", last=f"{season or '9999'}-W99",
        )  # fmt: skip
    return tuple(sorted(map(Seen._make, rows), key=lambda each: (each.kind, each.first, each.value)))


def longest_unchanged(player: str, where: Where = None) -> tuple[Unchanged, ...]:
    """For each club of a player, the longest run of dated sets over which nothing told of it changed; longest first."""
    fields = [f"c.{field}" for field in ClubRow._fields if field != "position"]
    with reading(where) as read:
        rows = read(
            f"SELECT s.date, s.record_id, {', '.join(fields)} FROM sets AS s JOIN clubs AS c "
            "ON c.record_id = s.record_id WHERE s.player = :player AND s.week <> '' "
            "ORDER BY s.date, s.record_id, c.position",
            player=player,
        )
    if not rows:
        raise BadInput(f"no dated set of a player {player!r} is stored; asplayed keep list shows the players")
    order = {record: place for place, record in enumerate(dict.fromkeys(row[1] for row in rows))}
    standing: dict[str, tuple[tuple[object, ...], str, str, int, int]] = {}
    best: dict[str, Unchanged] = {}
    for day, record, club, *told in rows:
        now = (club, *told)
        before = standing.get(club)
        if before and before[0] == now and order[record] - before[4] == 1:
            standing[club] = (now, before[1], day, before[3] + 1, order[record])
        elif before is None or before[4] != order[record]:
            standing[club] = (now, day, day, 1, order[record])
        _, since, until, number, _ = standing[club]
        if club not in best or number > best[club].sets:
            best[club] = Unchanged(club, str(told[2] or ""), since, until, number)
    return tuple(sorted(best.values(), key=lambda each: -each.sets))
