"""The words of every set, found wherever they stand: SQLite's full-text table, or PostgreSQL's text search.

`search` holds, for each set that is in use, its name and all words told of it. Letter case and marks do not count, and
a word is found by its beginning. What a word is, is the same on both: letters and digits in a row.
"""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.versions import fingerprint

if TYPE_CHECKING:
    from asplayed.keeping.store import Action

AROUND = 6
"""How many words are shown on each side of the first one found."""

LONGEST_WORD = 500
MOST_PLACES = 16_000
"""The most places of words that PostgreSQL keeps of one text.
https://www.postgresql.org/docs/15/textsearch-limitations.html"""

WORD = re.compile(r"[^\W_]+")

SQLITE = """
SELECT search.name, s.player, s.date, search.words FROM search JOIN sets AS s ON s.record_id = search.rowid
WHERE search MATCH :asked ORDER BY search.rowid DESC LIMIT :most
"""

POSTGRESQL = """
SELECT search.name, s.player, s.date, search.words FROM search JOIN sets AS s ON s.record_id = search.rowid
WHERE search.places @@ CAST(:asked AS tsquery) ORDER BY search.rowid DESC LIMIT :most
"""


class Found(NamedTuple):
    """A set in which the words looked for stand, and a stretch of text around them."""

    name: str
    player: str | None
    date: str | None
    text: str


def put(action: Action, record_id: int, name: str, words: str) -> None:
    """Let a set be found by these words, and by its name."""
    import sqlalchemy

    values: dict[str, object] = {"record": record_id, "name": name, "words": words}
    if action.read.engine == "sqlite":
        command = "INSERT INTO search (rowid, name, words) VALUES (:record, :name, :words)"
    else:
        command = (
            "INSERT INTO search (rowid, name, words, places) VALUES (:record, :name, :words, CAST(:places AS tsvector))"
        )
        values["places"] = places_of(f"{name}\n{words}")
    action.connection.execute(sqlalchemy.text(command), values)


def take_away(action: Action, record_id: int) -> None:
    """Let a set be found no more."""
    import sqlalchemy

    action.connection.execute(sqlalchemy.text("DELETE FROM search WHERE rowid = :record"), {"record": record_id})


def forget(action: Action) -> None:
    """Let no word that was taken away stay in the index of words."""
    if action.read.engine == "sqlite":
        action.connection.exec_driver_sql("INSERT INTO search (search) VALUES ('optimize')")


def folded(text: str) -> str:
    """A text without marks and letter case.

    >>> folded("Naïve ÉTÉ")
    'naive ete'
    """
    apart = unicodedata.normalize("NFD", text.casefold())
    return unicodedata.normalize("NFC", "".join(each for each in apart if not unicodedata.combining(each)))


def places_of(text: str) -> str:
    """Where each word stands, as PostgreSQL writes it.

    >>> places_of("bent ½, Bent")
    "'bent':1,3 '½':2"
    """
    standing: dict[str, list[int]] = {}
    for place, word in enumerate(WORD.findall(folded(text))[:MOST_PLACES], start=1):
        standing.setdefault(word[:LONGEST_WORD], []).append(place)
    return " ".join(f"'{word}':{','.join(map(str, places[:255]))}" for word, places in standing.items())


def asked_for(words: str, engine: str) -> str:
    """What is looked for, as the engine takes it: every word, or what it begins; joined ones in their order.

    >>> asked_for("Bent 10.5", "sqlite"), asked_for("Bent 10.5", "postgresql")
    ('"Bent"* "10.5"*', "'bent':* & ('10':* <-> '5':*)")
    """
    asked = re.findall(r"\w+(?:[.,/]\w+)*", words)
    if engine == "sqlite":
        return " ".join(f'"{word}"*' for word in asked)
    found = []
    for word in asked:
        parts = [f"'{part[:LONGEST_WORD]}':*" for part in WORD.findall(folded(word))]
        if parts:
            found.append(f"({' <-> '.join(parts)})" if len(parts) > 1 else parts[0])
    return " & ".join(found)


def search(words: str, where: Where = None, *, most: int = 50) -> tuple[Found, ...]:
    """The newest sets in which every one of the words stands, or begins a word; marks and letter case aside."""
    if not WORD.search(words):
        raise BadInput("there is no word to look for; give one or several")
    with reading(where) as read:
        asked = asked_for(words, read.engine)
        rows = read(SQLITE if read.engine == "sqlite" else POSTGRESQL, asked=asked, most=most)
    wanted = WORD.findall(folded(words))
    return tuple(Found(name, player, day, around(text, wanted)) for name, player, day, text in rows)


def around(text: str, wanted: list[str]) -> str:
    """The stretch of a text around the first of its words that begins with one of those looked for.

    >>> around("driver Kittiwake 10.5\\nshaft Lindrake 60 S, tipped an inch", ["lind"])
    'driver Kittiwake 10.5 shaft Lindrake 60 S, tipped an inch'
    """
    words = text.split()
    first = next(
        (
            place
            for place, word in enumerate(words)
            if any(part.startswith(sought) for part in WORD.findall(folded(word)) for sought in wanted)
        ),
        0,
    )
    start, end = max(first - AROUND, 0), first + AROUND + 1
    return f"{'… ' * (start > 0)}{' '.join(words[start:end])}{' …' * (end < len(words))}"


def search_hash(name: str, words: str) -> str:
    """The hash by which a row of `search` is known to be as it was written."""
    return fingerprint(f"{name}\n{words}")


def wrong_words(read: Read) -> list[str]:
    """The sets whose row of `search` is not what was written, one sentence each."""
    rows = {row[0]: (row[1], row[2]) for row in read("SELECT rowid, name, words FROM search")}
    wanted = {
        row[0]: row[1] for row in read("SELECT record_id, search_sha256 FROM sets WHERE search_sha256 IS NOT NULL")
    }
    return [
        f"what is searched of record {record} is not what was written"
        for record in sorted({*rows, *wanted})
        if record not in rows or record not in wanted or search_hash(*rows[record]) != wanted[record]
    ]
