"""Take in: a list in anybody's words, read as it is typed, its questions answered in place, then kept.

The page is one form. Its reading is filled by the server, with or without a script: every answer given stands in it as
a hidden field, so that what is sent is always the words and all the answers.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import msgspec

from asplayed.clubs import Club, GolfSet
from asplayed.errors import BadInput
from asplayed.intake.answers import Answer
from asplayed.quantities import plain
from asplayed.quantities.texts import decode
from asplayed.web import kit
from asplayed.web.kit import Form, Here, Page, Tab, asked, done, page, part_of_path, see_other, shown

tab = Tab("Take in", "/take", "g t")
BEFORE = "answer:"
"""What the name of a field with an answer begins with; the club and the field it answers follow, `|` between."""

# What a word became, as the page names it; a figure of a club is told apart from its words.
BECAME = {
    "club": "part of a club",
    "figure": "figure of a club",
    "set": "about the set",
    "ball": "the ball",
    "aside": "put aside",
    "note": "kept as a note",
    "question": "asked about",
    "phrase": "joining words",
    "not understood": "not understood",
}


class Piece(NamedTuple):
    """A stretch of a line: its text, and what it became; nothing for the white space and marks between words."""

    text: str
    became: str


class Line(NamedTuple):
    """One line of the list as it was read, and the clubs it told of."""

    number: int
    pieces: tuple[Piece, ...]
    clubs: tuple[str, ...]


class Told(NamedTuple):
    """A club as it was understood, in the words of a table."""

    name: str
    head: str
    settled: bool
    loft: Any
    settings: str
    shaft: str
    shaft_settled: bool
    length: Any


class Reading(NamedTuple):
    """A list as it was read: the set, its words with what they became, and the answers given."""

    golf_set: GolfSet
    lines: tuple[Line, ...]
    clubs: tuple[Told, ...]
    answers: tuple[Answer, ...]
    name: str
    """The name it would be kept under."""
    version: int
    """The version that stands under that name; 0: none."""


def answers_of(form: Form) -> tuple[Answer, ...]:
    """The answers in a form, each once: the last that was given; one that was taken back is none."""
    found: dict[tuple[str | None, str], str] = {}
    for field, value in form.pairs():
        club, mark, about = field.removeprefix(BEFORE).partition("|")
        if field.startswith(BEFORE) and mark and value.strip():
            found[club or None, about] = value.strip()
    for back in form.texts("back"):
        club, _, about = back.partition("|")
        found.pop((club or None, about), None)
    return tuple(Answer(club, about, value) for (club, about), value in found.items())


def answered(here: Here, words: str, answers: Sequence[Answer]) -> tuple[GolfSet, tuple[Answer, ...]]:
    """A list with these answers in their places; those to what the list no longer asks are let go."""
    from asplayed.keeping.understanding import understand

    try:
        return understand(words, "the list", here.store, answers), tuple(answers)
    except BadInput:
        golf_set = understand(words, "the list", here.store)
        left: list[Answer] = []
        while more := [
            each
            for each in answers
            if each not in left and any((each.club, each.about) == (one.club, one.about) for one in golf_set.questions)
        ]:
            left += more
            golf_set = understand(words, "the list", here.store, left)
        return golf_set, tuple(left)


def reading_of(here: Here, words: str, given: Sequence[Answer], name: str) -> Reading:
    """A list as it is read now, with these answers in their places."""
    from asplayed.clubs.names import labels
    from asplayed.intake.reader import marked
    from asplayed.keeping import list_sets, stored_parts
    from asplayed.keeping.understanding import usual_name

    golf_set, answers = answered(here, words, given)
    stored = {entry.name: entry for entry in list_sets(here.store)}
    try:
        known_as = name or usual_name(golf_set, "", stored)
    except BadInput:
        known_as = ""
    lines: tuple[Line, ...] = ()
    if not words.lstrip().startswith("{"):
        text, found = marked(words, parts=stored_parts(here.store))
        named = list(zip(labels(golf_set.clubs), golf_set.clubs, strict=True))
        lines = _lines(text, [(word.start, word.end, _became(word.kind, word.taker)) for word in found], named)
    clubs = tuple(_told(label, club) for label, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True))
    return Reading(golf_set, lines, clubs, answers, known_as, stored[known_as].version if known_as in stored else 0)


def _became(kind: str, taker: str) -> str:
    return "figure" if taker == "club" and kind == "number" else taker if taker in BECAME else "phrase"


def _lines(text: str, words: Sequence[tuple[int, int, str]], clubs: Sequence[tuple[str, Club]]) -> tuple[Line, ...]:
    found = []
    start = 0
    waiting = iter(words)
    word = next(waiting, None)
    for number, line in enumerate(text.split("\n"), 1):
        end = start + len(line)
        at = start
        pieces: list[Piece] = []
        while word is not None and word[0] < end:
            if word[0] > at:
                pieces.append(Piece(text[at : word[0]], ""))
            pieces.append(Piece(text[word[0] : word[1]], word[2]))
            at = max(at, word[1])
            word = next(waiting, None)
        if at < end:
            pieces.append(Piece(text[at:end], ""))
        found.append(Line(number, tuple(pieces), tuple(name for name, club in clubs if number in club.lines)))
        start = end + 1
    return tuple(found)


def _told(label: str, club: Club) -> Told:
    from asplayed.telling.words import part_name, settings

    return Told(
        name=label,
        head=part_name(club.head),
        settled=club.head.model is not None,
        loft=club.head.loft,
        settings=", ".join(settings(club)),
        shaft=" ".join(word for word in (part_name(club.shaft), club.shaft.flex) if word),
        shaft_settled=club.shaft.model is not None,
        length=club.as_played.length or club.length,
    )


# --------------------------------------------------------------------------------------------------------- pages


@shown("/take")
def take(here: Here, again: str | None = None) -> Page:
    """The empty page; with `again`, the words of a stored set to be read afresh."""
    words, name = "", ""
    if again is not None:
        from asplayed.keeping import read_set

        stored = read_set(again, here.store)
        words, name = decode(stored.original, again), stored.name
    return _page(here, words, (), name)


@done("/take", upload=True)
def taken(here: Here, form: Form) -> kit.Answer:
    """Read what was sent; keep it where that was asked for, and go to the set."""
    words, answers, name = _words(form), answers_of(form), form.text("as")
    if form.text("do") != "keep":
        return _page(here, words, answers, name)
    _, answers = answered(here, words, answers)
    stored = keep(here, words, answers, name, form.text("why") or None)
    return see_other(f"/sets/{part_of_path(stored['name'])}?kept={stored['version']}")


@done("/take/reading")
def reading(here: Here, form: Form) -> Page:
    """The reading alone, for the page that is being typed into."""
    words = form.long_text("text")
    if not words.strip():
        return page(here, "taking-reading.html", reading=None, fault="", became=BECAME, before=BEFORE)
    return page(here, "taking-reading.html", **_read(here, words, answers_of(form), form.text("as")))


def _page(here: Here, words: str, answers: Sequence[Answer], name: str) -> Page:
    given = _read(here, words, answers, name) if words.strip() else {"reading": None, "fault": ""}
    return page(here, "taking.html", words=words, name=name, **(given | {"became": BECAME, "before": BEFORE}))


def _read(here: Here, words: str, answers: Sequence[Answer], name: str) -> dict[str, Any]:
    """What the reading is filled with: the reading, or the sentence that says why there is none."""
    found, fault = None, ""
    try:
        found = reading_of(here, words, answers, name)
    except BadInput as said:
        fault = str(said)
    return {"reading": found, "fault": fault, "became": BECAME, "before": BEFORE}


def _words(form: Form) -> str:
    """The words of the form, or of the file that came with it: a list, a transcript, or a table turned into lines."""
    upload = form.file("list")
    if upload is None:
        return form.long_text("text")
    if upload.content.startswith(b"PK\x03\x04"):
        from asplayed.catalogue.tables import read_table

        table = read_table(upload.content, upload.name)
        units = [f"{name} [{unit}]" if unit else name for name, unit in zip(table.columns, table.units, strict=True)]
        return "\n".join(" | ".join(cells) for cells in (units, *(row.cells for row in table.rows)))
    return decode(upload.content, "the file")


def keep(
    here: Here, words: str, answers: Sequence[Answer], name: str, why: str | None, based_on: int | None = None
) -> dict[str, Any]:
    """Store a list as it was read and answered; what was answered about parts holds for other lists too.

    `based_on` is the version it was made from, where that is known: a newer one refuses it.
    """
    from asplayed.keeping import list_sets
    from asplayed.keeping.understanding import about_parts, understand, usual_name

    golf_set = understand(words, "the list", here.store, answers)
    if not golf_set.clubs:
        raise BadInput("no club was found in the list; nothing was stored: give one club a line")
    asked_before = understand(words, "the list", here.store) if answers else golf_set
    stored = {entry.name: entry for entry in list_sets(here.store)}
    name = name or usual_name(golf_set, "", stored)
    saved = here.kept.save_set(
        name,
        golf_set,
        words,
        who=here.who,
        why=why,
        based_on=based_on if based_on is not None else stored[name].version if name in stored else None,
        answered=about_parts(asked_before, answers),
    )
    return {"name": saved.name, "version": saved.version, "new": saved.new}


# ----------------------------------------------------------------------------------------------------------- API


class GivenAnswer(msgspec.Struct, frozen=True):
    """One answer: the club it is about (none: the set), the field, the value as it would be written."""

    about: str
    value: str
    club: str | None = None


class Given(msgspec.Struct, frozen=True):
    """A list's words, and answers to what they leave open."""

    text: str
    answers: tuple[GivenAnswer, ...] = ()
    name: str | None = None
    why: str | None = None


class Put(msgspec.Struct, frozen=True):
    """A list's words for a name, answers to what they leave open, and the version that they were made from."""

    text: str
    answers: tuple[GivenAnswer, ...] = ()
    why: str | None = None
    based_on: int | None = None


def _answers(data: Given | Put) -> list[Answer]:
    return [Answer(each.club, each.about, each.value) for each in data.answers]


@asked("/api/read", method="POST", answers=GolfSet)
def api_read(data: Given) -> dict[str, Any]:
    """Read a list: every club as the words alone tell it, with what is left open. Nothing is stored."""
    from asplayed.intake import read
    from asplayed.intake.answers import answer

    found: dict[str, Any] = plain(answer(read(data.text), _answers(data)))
    return found


@asked("/api/take", method="POST", answers=GolfSet)
def api_take(here: Here, data: Given) -> dict[str, Any]:
    """Read a list, settle its parts against the catalogue, and store it."""
    from asplayed.keeping import read_set

    stored = keep(here, data.text, _answers(data), data.name or "", data.why)
    return {"stored": stored, **plain(read_set(stored["name"], here.store).golf_set)}


@asked("/api/sets/{name:str}", method="PUT", answers=GolfSet)
def api_put(here: Here, name: str, data: Put) -> dict[str, Any]:
    """Store a list under this name, as its next version where there is one; sent twice it is stored once."""
    from asplayed.keeping import read_set

    stored = keep(here, data.text, _answers(data), name, data.why, data.based_on)
    return {"stored": stored, **plain(read_set(stored["name"], here.store).golf_set)}


routes = (take, taken, reading, api_read, api_take, api_put)
