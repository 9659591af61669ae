"""Settling a set: every part looked up, its published figures filled in, every disagreement kept with both sides.

The user's words stay in `name`; a stronger figure of the user's stays in place, and what the specification says
goes into the disagreement. What only the user can decide becomes a question; what the catalogue answers is asked
no longer.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Sequence

import msgspec

from asplayed.catalogue.disputes import (
    Fields,
    Notes,
    compare_dates,
    compare_documents,
    documents_of,
    fill,
    identify,
    title_of,
)
from asplayed.catalogue.heads import settle_head
from asplayed.catalogue.matching import Catalogue, taken_apart
from asplayed.catalogue.parts import Part
from asplayed.catalogue.rows import listed, made_for, with_number, with_words
from asplayed.catalogue.shafts import settle_shaft
from asplayed.catalogue.sleeves import settle_sleeve
from asplayed.clubs.records import Ball, Club, GolfSet, Grip, Question


def settle(golf_set: GolfSet, parts: Sequence[Part] | Catalogue, on: str | None = None) -> GolfSet:
    """The set with every part settled against the catalogue as it was on a date (else the set's date, else today).

    >>> from asplayed.clubs import Head
    >>> from asplayed.quantities import figure
    >>> wedge = Part(part="head", maker="Tidewright", model="Turnstone", club=("sand wedge",),
    ...     figures={"loft": figure(56, "deg", "published"), "bounce": figure(12, "deg", "published")})
    >>> club = Club(club="sand wedge", kind="wedge", head=Head(name="turnstone", loft=figure(56, "deg", "stated")))
    >>> settle(GolfSet(clubs=(club,)), [wedge]).clubs[0].head.bounce.value
    12
    """
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    if not catalogue.models:
        return golf_set
    date = on or golf_set.set.date or datetime.date.today().isoformat()
    clubs: list[Club] = []
    gathered: list[Notes] = []
    for club in golf_set.clubs:
        notes = Notes(club, date)
        notes.beside = _beside(golf_set, club)
        clubs.append(_settle_club(club, catalogue, notes))
        gathered.append(notes)
    ball_notes = Notes(None, date)
    ball = _settle_ball(golf_set.ball, catalogue, ball_notes) if golf_set.ball else None
    gathered.append(ball_notes)
    answered = {(notes.club, about) for notes in gathered for about in notes.answered}
    asked = _asked_once(question for notes in gathered for question in notes.questions)
    replaced = {(question.club, question.about) for question in asked}
    now = {before.club: club.club for before, club in zip(golf_set.clubs, clubs, strict=True)}
    questions = (
        msgspec.structs.replace(question, club=now.get(question.club or "", question.club))
        for question in golf_set.questions
    )
    still_open = tuple(entry for entry in questions if (entry.club, entry.about) not in answered | replaced)
    found = tuple(disagreement for notes in gathered for disagreement in notes.disagreements)
    return msgspec.structs.replace(
        golf_set,
        clubs=tuple(clubs),
        ball=ball,
        questions=still_open + asked,
        disagreements=golf_set.disagreements + tuple(new for new in found if new not in golf_set.disagreements),
    )


def _asked_once(questions: Iterable[Question]) -> tuple[Question, ...]:
    """The questions, one that several clubs share asked for the first of them only."""
    seen: dict[tuple[str, str], Question] = {}
    for question in questions:
        seen.setdefault((question.about, question.text), question)
    return tuple(seen.values())


def _beside(golf_set: GolfSet, club: Club) -> str:
    """What the list says of a club beyond its fields."""
    alone = {line for line in club.lines if sum(line in other.lines for other in golf_set.clubs) == 1}
    passages = (*golf_set.notes, *golf_set.not_understood)
    return "; ".join(
        passage.text
        for passage in passages
        if (passage.club is None and passage.line in alone) or passage.club == club.club
    )


def _settle_club(club: Club, catalogue: Catalogue, notes: Notes) -> Club:
    club = settle_head(club, catalogue, notes)
    changed: Fields = {}
    if club.shaft.name:
        changed["shaft"] = settle_shaft(club, catalogue, notes)
    if club.sleeve is not None:
        changed["sleeve"] = settle_sleeve(club, catalogue, notes)
    if club.grip is not None and club.grip.name:
        changed["grip"] = _settle_grip(club, club.grip, catalogue, notes)
    return msgspec.structs.replace(club, **changed)


def _settle_grip(club: Club, grip: Grip, catalogue: Catalogue, notes: Notes) -> Grip:
    name = grip.name or ""
    model = identify(name, "grip", "grip.name", club, catalogue, notes, lambda _: True).model
    if model is None:
        return grip
    title = title_of(model)
    everything = compare_documents(made_for(model.rows, club) or model.rows, "grip.name", notes)
    said = set(taken_apart(f"{name} {notes.beside}").words)
    rows = tuple(row for row in everything if set(taken_apart(row.variant or "").words) & said)
    if not rows and grip.mass is not None and grip.mass.has_number:
        rows = with_number(everything, "mass", grip.mass.in_unit("g").number, 2.0)
    rows = rows or with_words(everything, lambda row: row.variant, "standard") or everything
    compare_dates(model, everything, "grip.name", catalogue, notes)
    filled = fill(grip, rows, {"mass": ("mass", "grip_mass")}, "grip", notes, title)
    return msgspec.structs.replace(grip, maker=model.maker, model=model.model, **filled)


def _settle_ball(ball: Ball, catalogue: Catalogue, notes: Notes) -> Ball:
    if not ball.name:
        return ball
    model = identify(ball.name, "ball", "ball", None, catalogue, notes, lambda _: True).model
    if model is None:
        return ball
    colours = tuple(dict.fromkeys(row.colour for row in model.rows if row.colour))
    rows = model.rows
    if ball.colour and colours:
        rows = with_words(model.rows, lambda row: row.colour, ball.colour)
        if not rows:
            notes.disagree(
                "colour-not-made",
                "ball",
                f"{title_of(model)} is not made in {ball.colour}; it is in {listed(colours)}",
                documents_of(model.rows),
            )
            rows = model.rows
    compare_dates(model, rows, "ball", catalogue, notes)
    return msgspec.structs.replace(ball, maker=model.maker, model=model.model)
