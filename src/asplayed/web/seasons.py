"""Seasons: a question of years of sets, answered at once as a table and a picture, and to take along as CSV."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, get_args

from asplayed.errors import BadInput
from asplayed.web.faults import sentences_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, download, page, see_other, shown

if TYPE_CHECKING:
    from asplayed.telling.drawing_elements import Picture

tab = Tab("Seasons", "/seasons", "g y")

About = Literal["shares", "weeks", "winners", "seen", "round-up", "unchanged", "search"]
QUESTIONS: dict[About, str] = {
    "shares": "How often, season by season",
    "weeks": "How often, week by week",
    "winners": "Winners beside the field",
    "seen": "First and last seen",
    "round-up": "What a season’s winners have in common",
    "unchanged": "A player’s longest unchanged clubs",
    "search": "Sets in which these words stand",
}


class Asked(NamedTuple):
    """A question as its address tells it."""

    about: About = "shares"
    field: str = "model"
    kind: str = ""
    season: str = ""
    words: str = ""


class Answered(NamedTuple):
    """The answer: the headings, the rows, and a picture of it where it has one."""

    headings: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]
    pictures: tuple[Picture, ...] = ()
    sentences: tuple[str, ...] = ()


def answered(here: Here, question: Asked) -> Answered | str:
    """The answer to a question; a sentence where it cannot be asked so."""
    try:
        return _answers[question.about](here, question)
    except BadInput as fault:
        return " ".join(sentences_of(fault))


def _table(shape: tuple[str, ...], rows: Any, *, without: tuple[str, ...] = ()) -> Answered:
    kept = [place for place, name in enumerate(shape) if name not in without]
    return Answered(
        tuple(shape[place].replace("_", " ") for place in kept),
        tuple(tuple(row[place] for place in kept) for row in rows),
    )


def _shares(here: Here, question: Asked) -> Answered:
    from asplayed.keeping import seasons
    from asplayed.telling.share_pictures import ShareRow, shares_picture

    weeks = question.about == "weeks"
    rows = seasons.shares(
        question.field, here.store, kind=question.kind or None, season=question.season or None, weeks=weeks
    )
    drawn = shares_picture(
        (ShareRow(row.period, row.kind, row.value, row.number, row.of) for row in rows),
        f"{question.field.capitalize()}, {'week by week' if weeks else 'season by season'}",
        colours={},
    )
    return _table(seasons.Share._fields, rows)._replace(pictures=(drawn,) if drawn else ())


def _winners(here: Here, question: Asked) -> Answered:
    from asplayed.keeping import seasons

    rows = seasons.winners(question.field, here.store, kind=question.kind or None, season=question.season or None)
    return _table(seasons.Beside._fields, rows)


def _seen(here: Here, question: Asked) -> Answered:
    from asplayed.keeping import seasons

    rows = seasons.seen(question.field, here.store, kind=question.kind or None, season=question.season or None)
    return _table(seasons.Seen._fields, rows)


def _round_up(here: Here, question: Asked) -> Answered:
    from asplayed.keeping.bags import stored_bags
    from asplayed.telling.field_pictures import season_pictures
    from asplayed.telling.season import counted_season

    year = question.season or str(datetime.datetime.now(datetime.UTC).year)
    found = counted_season(stored_bags(here.store, season=year), year)
    rows = [
        (each.trait.did, f"{each.won} of {len(found.winners)}", f"{each.lost} of {len(found.others)}")
        for each in found.shared
        if each.first
    ]
    hard = [
        f"{each.trait.did}: {each.won} of {len(found.winners)} winners, {each.lost} of {len(found.others)} others; "
        "luck alone would hardly give this"
        for each in found.hard_to_draw
    ]
    return _table(("the player", "winners", "others"), rows)._replace(
        pictures=tuple(season_pictures(found, colours={})),
        sentences=tuple(hard) or ("Nothing here is more than luck would give among so many things counted.",),
    )


def _unchanged(here: Here, question: Asked) -> Answered:
    from asplayed.keeping import seasons

    if not question.words:
        raise BadInput("whose clubs? write the player’s name")
    return _table(seasons.Unchanged._fields, seasons.longest_unchanged(question.words, here.store))


def _search(here: Here, question: Asked) -> Answered:
    from asplayed.keeping import searching

    if not question.words:
        raise BadInput("write the words to look for, such as a model, a player or a month")
    return _table(searching.Found._fields, searching.search(question.words, here.store))


_answers = {
    "shares": _shares,
    "weeks": _shares,
    "winners": _winners,
    "seen": _seen,
    "round-up": _round_up,
    "unchanged": _unchanged,
    "search": _search,
}


def _question(about: str, field: str, kind: str, season: str, words: str) -> Asked:
    if about not in QUESTIONS:
        raise BadInput(f"{about[:40]!r} is no question of seasons; ask for {', '.join(QUESTIONS)}")
    return Asked(about, field, kind, season.strip(), words.strip()[:200])


@shown("/seasons")
def seasons_page(
    here: Here, about: str = "shares", field: str = "model", kind: str = "", season: str = "", words: str = ""
) -> Page:
    """A question and its answer."""
    from asplayed.clubs.records import Kind
    from asplayed.keeping import list_sets
    from asplayed.keeping.seasons import FIELDS

    question = _question(about, field, kind, season, words)
    found = answered(here, question)
    return page(
        here,
        "seasons.html",
        question=question,
        questions=QUESTIONS,
        fields=FIELDS,
        kinds=get_args(Kind),
        answer=None if isinstance(found, str) else found,
        fault=found if isinstance(found, str) else "",
        sets=[entry.name for entry in list_sets(here.store)],
        names_sets=question.about == "search",
    )


@shown("/seasons/table")
def seasons_table(
    here: Here, about: str = "shares", field: str = "model", kind: str = "", season: str = "", words: str = ""
) -> Answer:
    """The same answer as CSV, cells a spreadsheet would run made safe."""
    from asplayed.keeping.plain_files import csv_text

    question = _question(about, field, kind, season, words)
    found = _answers[question.about](here, question)
    return download(csv_text(found.headings, found.rows).encode(), f"{about}-{field}.csv", "text/csv; charset=utf-8")


@done("/seasons/result")
def keep_result(here: Here, form: Form) -> Answer:
    """Keep the place that a set's player took in its event."""
    from asplayed.keeping.results import read_place, save_result

    place = read_place(form.text("place"))
    if place is None:
        raise BadInput(f"{form.text('place')[:40]!r} is no place; 1 is the winner’s, T3 a third that was shared")
    save_result(here.kept, form.text("set"), place.number, who=here.who, tied=place.tied)
    return see_other("/seasons?about=winners")


@asked("/api/seasons")
def api_seasons(
    here: Here, about: str = "shares", field: str = "model", kind: str = "", season: str = "", words: str = ""
) -> dict[str, Any]:
    """The answer to a question of seasons, as rows."""
    question = _question(about, field, kind, season, words)
    found = _answers[question.about](here, question)
    return {"about": about, "rows": [dict(zip(found.headings, row, strict=True)) for row in found.rows]}


routes = (seasons_page, seasons_table, keep_result, api_seasons)
