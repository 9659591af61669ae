"""Answers to the questions a list leaves: put into the record, as stated, the question gone."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import msgspec

from asplayed.clubs import Club, GolfSet, Grip, PutterParts, Sleeve, as_read
from asplayed.errors import BadInput
from asplayed.intake.bare import limits
from asplayed.quantities import Figure, Source, read_quantity

_UNITS = {
    "head.loft": "deg", "head.bounce": "deg", "head.lie": "deg", "head.mass": "g", "sleeve.loft_change": "deg",
    "sleeve.lie_change": "deg", "bend.loft": "deg", "bend.lie": "deg", "shaft.mass": "g", "shaft.torque": "deg",
    "length": "in", "length_change": "in", "putter.toe_hang": "deg", "grip.mass": "g",
}  # fmt: skip
_TEXTS = {"head.name", "head.sole", "sleeve.position", "shaft.name", "shaft.flex", "putter.neck", "grip.name"}

_FIELDS = frozenset({*_UNITS, *_TEXTS, "hand", "grip.wraps"})
_LONGEST = 200  # characters of an answer


class Answer(NamedTuple):
    """One answer: the club it is about (None for the set), the field, and the value as given."""

    club: str | None
    about: str
    value: str


def parse_answers(given: Iterable[str], path: Path | None) -> list[Answer]:
    """Answers written as CLUB.FIELD=VALUE, from the command line and from a file of one a line (# begins a remark)."""
    lines = [(f"--answer {text!r}", text) for text in given]
    if path is not None:
        try:
            text = path.read_text(encoding="utf-8-sig")
        except (OSError, UnicodeDecodeError) as fault:
            raise BadInput(
                f"the answers in {path} cannot be read ({fault}); name a text file of CLUB.FIELD=VALUE lines"
            ) from None
        for number, line in enumerate(text.splitlines(), 1):
            if line.strip() and not line.lstrip().startswith("#"):
                lines.append((f"{path}, line {number}", line.strip()))
    return [_parse(where, text) for where, text in lines]


def _parse(where: str, text: str) -> Answer:
    left, mark, value = text.partition("=")
    left, value = left.strip(), value.strip()
    fields = sorted(_FIELDS, key=len, reverse=True)
    field = next((name for name in fields if left == name or left.endswith("." + name)), None)
    if not mark or not value or field is None:
        raise BadInput(
            f"{where}: {text!r} is no answer; write CLUB.FIELD=VALUE, FIELD being one of {', '.join(sorted(fields))}"
        )
    club = left[: -len(field)].rstrip(".").strip() or None
    return Answer(club, field, value)


def answer(golf_set: GolfSet, answers: Iterable[Answer]) -> GolfSet:
    """The set with these answers in their places and their questions gone.

    A number without a unit is in the field's own unit. An unknown club or an impossible value is refused.

    >>> from asplayed.intake import read
    >>> asked = read("driver Kittiwake 10.5, sleeve B3, 44.75")
    >>> done = answer(asked, [Answer("driver", "sleeve.loft_change", "-0.75")])
    >>> done.clubs[0].as_played.loft.value, len(done.questions)
    (9.75, 0)
    """
    clubs = list(golf_set.clubs)
    questions = list(golf_set.questions)
    facts = golf_set.set
    for given in answers:
        _check(given)
        if given.about == "hand":
            if given.value not in ("right", "left"):
                raise BadInput(f"the answer hand={given.value} should be right or left")
            facts = msgspec.structs.replace(facts, hand=given.value, hand_source="stated")
        else:
            meant = _meant(given.club, golf_set)
            named = [index for index, club in enumerate(clubs) if meant is None or club.club in meant]
            asked = [question.club for question in questions if question.about == given.about]
            if given.club is None:
                named = [index for index in named if clubs[index].club in asked]
            if not named:
                known = ", ".join(dict.fromkeys(club.club for club in clubs))
                raise BadInput(f"the answer to {given.about} names no club of the list; write one of {known} before it")
            for index in named:
                clubs[index] = _answered(clubs[index], given)
        questions = [
            question for question in questions
            if not (question.about == given.about and _answers(given.club, question.club, golf_set))
        ]  # fmt: skip
    return msgspec.structs.replace(golf_set, set=facts, clubs=tuple(clubs), questions=tuple(questions))


def _meant(club: str | None, golf_set: GolfSet) -> tuple[str, ...] | None:
    """The clubs that an answer names: one by its label, or several as a change names them ("irons", "5-PW")."""
    if club is None or any(each.club == club for each in golf_set.clubs):
        return None if club is None else (club,)
    from asplayed.intake.changes import clubs_named

    try:
        return clubs_named(club, golf_set)
    except BadInput:
        return ()


def _answers(club: str | None, asked: str | None, golf_set: GolfSet) -> bool:
    meant = _meant(club, golf_set)
    return meant is None or club == asked or asked in meant


def _check(given: Answer) -> None:
    """Refuse an answer about what no club has, or one that is longer than any answer."""
    if given.about not in _FIELDS:
        fields = ", ".join(sorted(_FIELDS))
        raise BadInput(f"{given.about[:60]!r} is nothing that an answer can be about; it can be one of {fields}")
    if len(given.value) > _LONGEST:
        raise BadInput(f"the answer to {given.about} goes on for {len(given.value)} characters; give the value alone")


def _answered(club: Club, given: Answer) -> Club:
    value: object
    if given.about in _UNITS:
        value = _figure(given)
    elif given.about == "grip.wraps":
        value = _figure(given).number
    else:
        value = given.value
    owner, _, name = given.about.rpartition(".")
    if not owner:
        club = msgspec.structs.replace(club, **{name: value})
    else:
        makers = {"sleeve": Sleeve, "grip": Grip, "putter": PutterParts}
        part = getattr(club, owner)
        part = makers[owner]() if part is None else part
        club = msgspec.structs.replace(club, **{owner: msgspec.structs.replace(part, **{name: value})})
    return msgspec.structs.replace(club, as_played=as_read(club))


def _figure(given: Answer) -> Figure:
    unit = _UNITS.get(given.about, "1")
    quantity = read_quantity(given.value)
    figure = Figure(value=float(quantity.value), unit=quantity.unit or unit, source=Source.STATED).in_unit(unit)
    bound = limits()["possible"].get(given.about)
    if bound and not bound["low"] <= figure.number <= bound["high"]:
        raise BadInput(
            f"the answer {given.about}={given.value} is not possible; "
            f"it should lie between {bound['low']} and {bound['high']} {unit}"
        )
    return figure
