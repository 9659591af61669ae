"""What was in the bags week by week: tallies kept up with every save, so that questions are answered at once.

A set counts once, as its newest version stands, in the ISO week of its date. `tallies` counts, for each field of a
club and each kind of club, how often each value stood in a week, winners apart; balls and sets count under no kind.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput
from asplayed.keeping.club_rows import ClubRow, club_rows
from asplayed.keeping.reading import Read, reading
from asplayed.keeping.versions import fingerprint

if TYPE_CHECKING:
    from asplayed.clubs import GolfSet
    from asplayed.keeping.store import Action

OF_CLUBS = ("model", "shaft", "flex", "loft", "length", "sole", "grip")
OF_SETS = ("ball", "colour")
FIELDS = (*OF_CLUBS, *OF_SETS)
WINNER = 1

Tally = tuple[str, str, str, str, int]
"""field, kind (nothing for sets), week (nothing for undated), value, won."""


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
    """The tallies of one set."""
    found: Counter[Tally] = Counter()
    found["set", "", week, "", won] += 1
    for field, value in (("ball", ball), ("colour", colour)):
        if value is not None:
            found[field, "", week, value, won] += 1
    for club in clubs:
        found["club", club.kind, week, club.club, won] += 1
        for field in OF_CLUBS:
            value = getattr(club, field)
            if value is not None:
                found[field, club.kind, week, text_of(value), won] += 1
    return found


def tallied(read: Read, record_id: int) -> Counter[Tally]:
    """What a stored set counts for now; nothing while it is hidden."""
    [(week, ball, colour, result)] = read(
        "SELECT week, ball, colour, result FROM sets WHERE record_id = :record", record=record_id
    )
    if week is None:
        return Counter()
    rows = read(f"SELECT {', '.join(ClubRow._fields)} FROM clubs WHERE record_id = :record", record=record_id)
    return counts(map(ClubRow._make, rows), week, ball, colour, int(result == WINNER))


def count(action: Action, found: Counter[Tally], sign: int) -> None:
    """Add to the tallies, or take away."""
    import sqlalchemy

    if not found:
        return
    rows = [
        {"field": field, "kind": kind, "week": week, "value": value, "won": won, "number": sign * number}
        for (field, kind, week, value, won), number in found.items()
    ]
    action.connection.execute(
        sqlalchemy.text(
            "INSERT INTO tallies (field, kind, week, value, won, number) "
            "VALUES (:field, :kind, :week, :value, :won, :number) "
            "ON CONFLICT (field, kind, week, value, won) DO UPDATE SET number = number + excluded.number"
        ),
        rows,
    )
    if sign < 0:
        action.connection.execute(
            sqlalchemy.text(
                "DELETE FROM tallies WHERE field = :field AND kind = :kind AND week = :week AND value = :value "
                "AND won = :won AND number = 0"
            ),
            rows,
        )


def tell(action: Action, record_id: int, name: str, golf_set: GolfSet, words: bytes, *, hidden: bool) -> None:
    """Tell the newest version of a set in `clubs`, `tallies` and `search`, instead of what was told before."""
    import sqlalchemy

    from asplayed.keeping import schema

    write = action.connection.execute
    count(action, tallied(action.read, record_id), -1)
    write(schema.clubs.delete().where(schema.clubs.c.record_id == record_id))
    write(sqlalchemy.text("DELETE FROM search WHERE rowid = :record"), {"record": record_id})
    ball = golf_set.ball
    facts = {
        "event": golf_set.set.event,
        "ball": ball and (ball.model or ball.name),
        "colour": ball and ball.colour,
        "week": None if hidden else week_of(golf_set.set.date),
    }
    clubs = club_rows(golf_set)
    told = [golf_set.set.player, golf_set.set.event, golf_set.set.title, golf_set.set.date, *facts.values()]
    told += [value for club in clubs for value in (club.club, club.maker, club.model, club.shaft, club.sole, club.grip)]
    text = "\n".join([*dict.fromkeys(str(each) for each in told if each), words.decode("utf-8", "replace")])
    text = text.replace("\0", " ")
    facts["search_sha256"] = None if hidden else search_hash(name, text)
    write(schema.sets.update().where(schema.sets.c.record_id == record_id).values(**facts))
    if hidden:
        return
    if clubs:
        write(schema.clubs.insert(), [{"record_id": record_id, **club._asdict()} for club in clubs])
    count(action, tallied(action.read, record_id), 1)
    write(
        sqlalchemy.text("INSERT INTO search (rowid, name, words) VALUES (:record, :name, :words)"),
        {"record": record_id, "name": name, "words": text},
    )


def search_hash(name: str, words: str) -> str:
    """The hash by which a row of `search` is known to be as it was written."""
    return fingerprint(f"{name}\n{words}")


def wrong_words(read: Read) -> list[str]:
    """The sets whose row of `search` is not what was written, one sentence each."""
    rows = {row[0]: (row[1], row[2]) for row in read("SELECT rowid, name, words FROM search")}
    wanted = dict(read("SELECT record_id, search_sha256 FROM sets WHERE search_sha256 IS NOT NULL"))
    return [
        f"what is searched of record {record} is not what was written"
        for record in sorted({*rows, *wanted})
        if record not in rows or record not in wanted or search_hash(*rows[record]) != wanted[record]
    ]


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
    found = {tuple(row[:5]): row[5] for row in read("SELECT field, kind, week, value, won, number FROM tallies")}
    wrong = [key for key in {*found, *wanted} if found.get(key, 0) != wanted.get(key, 0)]
    return [
        f"the tally of {field} {value} of {kind or 'sets'} in {week or 'no week'} is not what the sets come to"
        for field, kind, week, value, _ in sorted(wrong)
    ]


# ------------------------------------------------------------------------------------------------- the questions


def known(field: str, season: str | None = None) -> None:
    """Refuse a field that is not tallied, and a season that is no year."""
    if field not in FIELDS:
        raise BadInput(f"{field[:40]!r} is not counted; counted are {', '.join(FIELDS)}")
    if season is not None and not re.fullmatch(r"\d{4}", season):
        raise BadInput(f"a season is a year, such as 2026, not {season[:40]!r}")


WHERE = "(:kind IS NULL OR kind = :kind) AND (:season IS NULL OR substr(week, 1, 4) = :season)"


def shares(
    field: str, where: str | Path | None = None, *, kind: str | None = None, season: str | None = None,
    weeks: bool = False,
) -> tuple[Share, ...]:  # fmt: skip
    """The share of each value of a field, season by season or week by week; of all clubs of its kind, or all sets."""
    known(field, season)
    period = "week" if weeks else "substr(week, 1, 4)"
    base = "set" if field in OF_SETS else "club"
    if base == "set":
        kind = None
    ask = f"SELECT {period}, kind, {{}}SUM(number) FROM tallies WHERE field = :field AND {WHERE} GROUP BY {{}}"
    with reading(where) as read:
        totals = {
            (row[0], row[1]): row[2] for row in read(ask.format("", "1, 2"), field=base, kind=kind, season=season)
        }
        rows = read(ask.format("value, ", "1, 2, 3"), field=field, kind=kind, season=season)
    found = []
    for shown, of_kind, value, number in rows:
        of = totals[shown, of_kind]
        found.append(Share(shown, of_kind, value, number, of, round(100 * number / of, 2)))
    return tuple(sorted(found, key=lambda each: (each.period, each.kind, -each.number, each.value)))


def winners(
    field: str, where: str | Path | None = None, *, kind: str | None = None, season: str | None = None
) -> tuple[Beside, ...]:
    """The share of each value among the winners beside that among all others."""
    known(field, season)
    base = "set" if field in OF_SETS else "club"
    if base == "set":
        kind = None
    ask = f"SELECT kind, {{}}won, SUM(number) FROM tallies WHERE field = :field AND {WHERE} GROUP BY {{}}"
    with reading(where) as read:
        totals = {
            (row[0], row[1]): row[2] for row in read(ask.format("", "1, 2"), field=base, kind=kind, season=season)
        }
        rows = read(ask.format("value, ", "1, 2, 3"), field=field, kind=kind, season=season)
    numbers: dict[tuple[str, str], list[int]] = {}
    for of_kind, value, won, number in rows:
        numbers.setdefault((of_kind, value), [0, 0])[won] = number
    found = []
    for (of_kind, value), (others, won) in numbers.items():
        part = [round(100 * n / max(totals.get((of_kind, side), 0), 1), 2) for side, n in enumerate((others, won))]
        found.append(Beside(of_kind, value, won, part[1], others, part[0]))
    return tuple(sorted(found, key=lambda each: (each.kind, -each.winners, -each.field, each.value)))


def seen(
    field: str, where: str | Path | None = None, *, kind: str | None = None, season: str | None = None
) -> tuple[Seen, ...]:
    """The weeks in which each value was first and last seen; undated sets tell nothing here."""
    known(field, season)
    with reading(where) as read:
        rows = read(
            f"SELECT kind, value, MIN(week), MAX(week), SUM(number) FROM tallies WHERE field = :field AND week <> '' "
            f"AND {WHERE} GROUP BY kind, value ORDER BY kind, MIN(week), value",
            field=field, kind=None if field in OF_SETS else kind, season=season,
        )  # fmt: skip
    return tuple(Seen._make(row) for row in rows)


def longest_unchanged(player: str, where: str | Path | None = None) -> tuple[Unchanged, ...]:
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


class Found(NamedTuple):
    """A set in which the words looked for stand, and a stretch of text around them."""

    name: str
    player: str | None
    date: str | None
    text: str


def search(words: str, where: str | Path | None = None, *, most: int = 50) -> tuple[Found, ...]:
    """The newest sets in which every one of the words stands, or begins a word; marks and letter case aside."""
    asked = " ".join(f'"{word}"*' for word in re.findall(r"\w+(?:[.,/]\w+)*", words))
    if not asked:
        raise BadInput("there is no word to look for; give one or several")
    with reading(where) as read:
        rows = read(
            "SELECT search.name, s.player, s.date, snippet(search, 1, '', '', ' … ', 12) FROM search JOIN sets AS s "
            "ON s.record_id = search.rowid WHERE search MATCH :asked ORDER BY search.rowid DESC LIMIT :most",
            asked=asked, most=most,
        )  # fmt: skip
    return tuple(Found(row[0], row[1], row[2], " ".join(row[3].split())) for row in rows)
