"""What settling brings up: which model a name means, what its specification fills in, where the list differs."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from asplayed.catalogue.matching import ACCEPTED, TIE, Catalogue, Match, Model
from asplayed.catalogue.parts import Part, PartKind
from asplayed.catalogue.rows import Rows, begins_by, ended_before, listed, offered, suits, told_last
from asplayed.clubs.records import Club, Disagreement, Question
from asplayed.clubs.usual import banded
from asplayed.quantities import Figure, Source, clash

_WORTH_ASKING = 65.0  # the score from which a name too unlike to be taken is still offered as an answer

_KEPT = re.compile(r"\bkept\b|\b(keeps?|keeping|earlier|older|previous|last)\b.*\b(generation|model|version)\b")

Fields = dict[str, Any]


class Found(NamedTuple):
    """What a name turned out to be: one model, or the candidates that are too near to choose between."""

    model: Model | None
    candidates: tuple[Match, ...]


class Notes:
    """What settling one club brings up, gathered as it goes."""

    def __init__(self, club: Club | None, date: str) -> None:
        self.club = club.club if club else None
        self.line = club.lines[0] if club and club.lines else None
        self.date = date
        self.disagreements: list[Disagreement] = []
        self.questions: list[Question] = []
        self.answered: set[str] = set()
        self.beside = ""  # what else the list says of this club, in its own words

    def disagree(self, code: str, about: str, sentence: str, source: str, **figures: Figure | None) -> None:
        """Keep both sides of a disagreement."""
        told = {name: figure for name, figure in figures.items() if figure is not None}
        self.disagreements.append(
            Disagreement(code=code, club=self.club, about=about, sentence=sentence, figures=told, source=source)
        )

    def ask(self, about: str, text: str, answers: Iterable[str]) -> None:
        """Ask what only the user can decide."""
        self.questions.append(Question(line=self.line, club=self.club, about=about, text=text, answers=tuple(answers)))


def identify(
    words: str, kind: PartKind, about: str, club: Club | None, catalogue: Catalogue, notes: Notes, possible: Any
) -> Found:
    """The model that some words mean, asked about when candidates are too near one another.

    Candidates that were not yet offered on the date, or that `possible` denies because of what else is stated of
    the part, give way to the others.
    """
    if kind not in catalogue.kinds():
        return Found(None, ())
    fitting = (lambda model: any(suits(row, club) for row in model.rows)) if club is not None else None
    matches = catalogue.find(words, kind=kind, limit=8, suits=fitting)
    if not matches or matches[0].score < ACCEPTED:
        likely = tuple(match for match in matches if match.score >= _WORTH_ASKING)[:4]
        sentence = f"no specification entered tells of a {kind} {words!r}; its figures are those of the list alone"
        if likely:
            names = [title_of(match.model) for match in likely]
            notes.ask(about, f"which {kind} is {words!r}? no specification entered has that name", names)
            sentence += f" (names nearest to it: {listed(names)})"
        else:
            sentence += "; it may be too old, too new, or made for one customer only"
        notes.disagree("part-unknown", about, sentence, "the catalogue entered")
        return Found(None, likely)
    near = tuple(match for match in matches if match.score > matches[0].score - TIE and match.score >= ACCEPTED)
    for test in (lambda model: any(begins_by(row, notes.date) for row in model.rows), possible):
        passing = tuple(match for match in near if test(match.model))
        near = passing or near
    if len(near) == 1:
        return Found(near[0].model, near)
    ranked = sorted(near, key=lambda match: not any(offered(row, notes.date) for row in match.model.rows))
    names = [title_of(match.model) for match in ranked]
    reasons = dict.fromkeys(match.reason for match in ranked)
    notes.ask(about, f"which {kind} is {words!r}: {' or '.join(names)}?", names)
    notes.disagree(
        "several-candidates",
        about,
        f"{words!r} may be the {kind} {' or '.join(names)} ({'; '.join(reasons)}); none was taken",
        documents_of(row for match in ranked for row in match.model.rows),
    )
    return Found(None, tuple(ranked))


def title_of(model: Model) -> str:
    return f"{model.maker} {model.model}" if model.maker else model.model


def documents_of(rows: Iterable[Part]) -> str:
    return "; ".join(dict.fromkeys(row.source for row in rows))


def shared_figure(rows: Rows, column: str) -> Figure | None:
    """The published figure that all rows share, or None."""
    told = [row.figures[column] for row in rows if column in row.figures]
    if len(told) != len(rows) or not told or any(figure.value != told[0].value for figure in told):
        return None
    return told[0]


def shared_word(rows: Rows, field: str) -> Any:
    told = {getattr(row, field) for row in rows}
    return told.pop() if len(told) == 1 else None


def fill(
    record: Any, rows: Rows, fields: Mapping[str, tuple[str, str | None]], path: str, notes: Notes, title: str
) -> Fields:
    """Fields of a record with the published figures that `rows` share; a stronger figure stays and is compared.

    `fields` leads from a field to its column and to the tolerance it is compared by.
    """
    filled: Fields = {}
    for field, (column, tolerance) in fields.items():
        told = shared_figure(rows, column)
        if told is None:
            continue
        own: Figure | None = getattr(record, field)
        about = f"{path}.{field}"
        if differs(own, told, tolerance):
            notes.disagree(
                "figures-differ",
                about,
                f"the list says {shown(own)} for the {field.replace('_', ' ')}, but {title} is published with "
                f"{shown(told)}",
                documents_of(rows),
                stated=own,
                published=told,
            )
        if (
            own is None
            or (own.value is None and not differs(own, told, tolerance))
            or own.source.rank > Source.PUBLISHED.rank
        ):
            filled[field] = told
            notes.answered.add(about)
    return filled


def differs(own: Figure | None, told: Figure, tolerance: str | None) -> bool:
    """True when a figure of the user's lies outside what the published one and its tolerance allow."""
    if own is None or own.source.rank > Source.COMPUTED.rank:
        return False
    made = banded(told, tolerance) if tolerance else told
    if made is None:
        return False
    if own.has_number:
        return clash(own, made)
    if own.low is None or own.high is None:
        return False
    here = made.in_unit(own.unit)
    return here.number + here.half_width < own.low or here.number - here.half_width > own.high


def shown(figure: Figure | None) -> str:
    if figure is None:
        return "nothing"
    unit = {"deg": "°", "percent": " %", "1": ""}.get(figure.unit, f" {figure.unit}")
    if figure.has_number:
        return f"{figure.number:g}{unit}".replace("-", "−")
    if figure.low is not None and figure.high is not None:
        return f"{figure.low:g} to {figure.high:g}{unit}".replace("-", "−")
    return str(figure.value)


def _said_kept(notes: Notes) -> bool:
    return bool(_KEPT.search(notes.beside.casefold()))


def compare_dates(model: Model, rows: Rows, about: str, catalogue: Catalogue, notes: Notes) -> bool:
    """Say when a part was not on offer on the set's date, or has a successor; True when something was said."""
    title = title_of(model)
    if not any(begins_by(row, notes.date) for row in rows):
        first = min(row.offered_from or "" for row in rows)
        notes.disagree(
            "part-not-yet-offered",
            about,
            f"{title} was first offered in {first}, after {notes.date}; it may be an early sample or another model",
            documents_of(rows),
        )
        return True
    followers = [
        later
        for later in catalogue.families[model.family]
        if later.generation > model.generation and any(begins_by(row, notes.date) for row in later.rows)
    ]
    followed = f"; {title_of(followers[-1])} has followed it" if followers else ""
    withdrawn = all(ended_before(row, notes.date) for row in rows)
    until = max((row.offered_until or "" for row in rows), default="")
    if followers and (_said_kept(notes) or not withdrawn):
        kept = "kept from an earlier generation, as the list says" if _said_kept(notes) else "of an earlier generation"
        ended = f", offered until {until}" if withdrawn else ""
        notes.disagree("earlier-generation", about, f"{title} is {kept}{ended}{followed}", documents_of(rows))
        return True
    if withdrawn:
        notes.disagree(
            "part-withdrawn", about, f"{title} has not been offered since {until}{followed}", documents_of(rows)
        )
        return True
    return False


def compare_documents(rows: Iterable[Part], about: str, notes: Notes) -> Rows:
    """The rows as the latest document tells them; documents that differ are named."""
    newest, differing = told_last(rows)
    for older, newer in differing:
        for column in (c for c in newer.figures if c in older.figures):
            if newer.figures[column].value != older.figures[column].value:
                notes.disagree(
                    "documents-differ",
                    about,
                    f"{older.source} gives {newer.named} a {column} of {shown(older.figures[column])}, "
                    f"{newer.source} one of {shown(newer.figures[column])}; the later was taken",
                    f"{older.source}; {newer.source}",
                    earlier=older.figures[column],
                    later=newer.figures[column],
                )
    return newest
