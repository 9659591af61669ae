"""Settling shafts: flex and mass as fields, class and club by club, and what is published of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

import msgspec

from asplayed.catalogue.columns import known_columns
from asplayed.catalogue.disputes import (
    Fields,
    Notes,
    compare_dates,
    compare_documents,
    differs,
    documents_of,
    fill,
    identify,
    shared_figure,
    shared_word,
    shown,
    title_of,
)
from asplayed.catalogue.matching import Catalogue, Model, taken_apart, variant_numbers
from asplayed.catalogue.parts import Part
from asplayed.catalogue.rows import Rows, ended_before, listed, made_for, numbers_of, offered, suits, with_number
from asplayed.clubs.records import Club, Shaft
from asplayed.clubs.usual import banded
from asplayed.quantities import Figure, Source, derive

_NOMINAL = 2.5  # grams by which a shaft's mass as people say it may differ from the published one

_SHAFT_FIGURES: Mapping[str, tuple[str, str | None]] = {
    "mass": ("mass", "shaft_mass"),
    "torque": ("torque", None),
    "length": ("length", "shaft_length"),
    "tip": ("tip", None),
    "butt": ("butt", None),
}


def settle_shaft(club: Club, catalogue: Catalogue, notes: Notes) -> Shaft:
    shaft = club.shaft
    flex = _short_flex(shaft.flex)
    name = shaft.name or ""

    def possible(model: Model) -> bool:
        rows = tuple(row for row in model.rows if suits(row, club))
        flexes = tuple(row for row in rows if flex is None or row.flex is None or row.flex == flex)
        return bool(flexes) and (shaft.mass is None or bool(_of_mass(flexes, shaft.mass)))

    model = identify(name, "shaft", "shaft.name", club, catalogue, notes, possible).model
    if model is None:
        return shaft
    notes.answered.add("shaft.name")
    title = title_of(model)
    settled: Fields = {"maker": model.maker, "model": model.model}
    suited = tuple(row for row in model.rows if suits(row, club)) or model.rows
    if not suits(suited[0], club):
        others = listed(dict.fromkeys(name for row in suited for name in row.club))
        notes.disagree(
            "made-for-another-club",
            "shaft.name",
            f"{title} is made for the {others}, not for a {club.club}",
            documents_of(suited),
        )
    everything = compare_documents(suited, "shaft.name", notes)
    classes = set(taken_apart(name).numbers)
    named = tuple(row for row in everything if variant_numbers(row) & classes)
    rows = named or everything
    if flex is None:
        flex = _flex_from(rows, name, shaft.mass)
        if flex is not None:
            settled["flex"] = flex
            notes.answered.add("shaft.flex")
    of_flex = tuple(row for row in rows if row.flex == flex) if flex else rows
    if flex and not of_flex and any(row.flex for row in rows):
        of_flex = _flex_not_made(flex, rows, everything, title, notes)
    narrowed = of_flex
    if shaft.mass is not None and of_flex:
        narrowed = _of_mass(of_flex, shaft.mass) or of_flex
        if flex:
            _compare_mass(club, shaft.mass, flex, of_flex, rows, title, notes)
    dated = compare_dates(model, everything, "shaft.name", catalogue, notes)
    if flex and narrowed and not dated and all(ended_before(row, notes.date) for row in narrowed):
        until = max(row.offered_until or "" for row in narrowed)
        classes_left = {row.variant for row in narrowed}
        remaining = (row for row in everything if row.variant in classes_left and row.flex != flex)
        notes.disagree(
            "flex-withdrawn",
            "shaft.flex",
            f"{title}{_class_of(narrowed)} has not been offered in {flex} since {until}; "
            f"it still is in {_flexes(remaining, notes.date)}",
            documents_of(narrowed),
        )
    settled |= _shaft_figures(club, narrowed, title, notes)
    settled |= _whole_set(shaft, tuple(row for row in model.rows if flex in {None, row.flex}), title, notes)
    if flex is None and len({row.flex for row in narrowed}) > 1:
        answers = tuple(dict.fromkeys(row.flex for row in narrowed if row.flex))
        notes.ask("shaft.flex", f"which flex is the {title}? it is made in {listed(answers)}", answers)
    return msgspec.structs.replace(shaft, **settled)


def _short_flex(written: str | None) -> str | None:
    if written is None:
        return None
    return known_columns("parts")["flex"].choices.get(written.casefold(), written)


def _flexes(rows: Iterable[Part], date: str | None = None) -> str:
    made = dict.fromkeys(row.flex for row in rows if row.flex and (date is None or offered(row, date)))
    return listed(made) if made else "no flex"


def _class_of(rows: Rows) -> str:
    variant = shared_word(rows, "variant")
    return f" ({variant})" if variant else ""


def _flex_from(rows: Rows, name: str, mass: Figure | None) -> str | None:
    """The flex that is settled without being said: the only one made in that mass, or one named with the shaft."""
    words = re.findall(r"[A-Za-z]+", name)
    spoken = {row.flex for row in rows if row.flex and row.flex in words}
    if len(spoken) == 1:
        return spoken.pop()
    if mass is not None:
        rows = _of_mass(rows, mass)
    flexes = {row.flex for row in rows}
    return flexes.pop() if len(flexes) == 1 else None


def _of_mass(rows: Rows, mass: Figure) -> Rows:
    """The rows that a stated mass means: by their class as people say it, else by their published mass."""
    if mass.has_number:
        grams = mass.in_unit("g").number
        by_class = tuple(row for row in rows if f"{grams:g}" in taken_apart(row.variant or "").numbers)
        near = with_number(rows, "mass", grams, _NOMINAL)
        nearest = min((abs((row.number("mass") or 0) - grams) for row in near), default=0)
        return by_class or tuple(row for row in near if abs((row.number("mass") or 0) - grams) <= nearest + 1e-9)
    if mass.low is not None and mass.high is not None:
        low, high = (mass.in_unit("g").low or mass.low, mass.in_unit("g").high or mass.high)
        return tuple(row for row in rows if low - _NOMINAL <= (row.number("mass") or 0) <= high + _NOMINAL)
    return rows


def _flex_not_made(flex: str, rows: Rows, everything: Rows, title: str, notes: Notes) -> Rows:
    """Say that a flex was never offered in what the list names; nothing is left to take figures from."""
    elsewhere = tuple(row for row in everything if row.flex == flex)
    in_class = _class_of(rows) if elsewhere else ""
    others = dict.fromkeys(row.variant for row in elsewhere if row.variant)
    instead = f"; {flex} is made in {listed(others)}" if others else ""
    notes.disagree(
        "flex-never-offered",
        "shaft.flex",
        f"{title}{in_class} was never offered in {flex}; it is made in {_flexes(rows)}{instead}",
        documents_of(rows),
    )
    return ()


def _compare_mass(club: Club, mass: Figure, flex: str, of_flex: Rows, rows: Rows, title: str, notes: Notes) -> None:
    """Say when a stated mass belongs to another flex, or to none of this one."""
    if not mass.has_number or mass.source.rank > Source.STATED.rank:
        return
    own = made_for(of_flex, club)
    if _of_mass(own, mass) and _agreed_class(own, mass):
        return
    grams = mass.in_unit("g").number
    gap = min((abs((row.number("mass") or grams) - grams) for row in own), default=0.0)
    rivals = tuple(row for row in made_for(rows, club) if row.flex != flex and row.number("mass") is not None)
    theirs = tuple(row for row in rivals if abs((row.number("mass") or 0) - grams) <= 0.5)
    if theirs and gap >= 1.5:
        notes.disagree(
            "mass-of-another-flex",
            "shaft.mass",
            f"{shown(mass)} is the mass of {title} in {_flexes(theirs)}; "
            f"in {flex} it is published with {listed(numbers_of(own, 'mass'))} g",
            documents_of((*own, *theirs)),
            stated=mass,
            published=min(
                (row.figures["mass"] for row in own if "mass" in row.figures),
                key=lambda figure: abs(figure.number - grams),
                default=None,
            ),
        )
    elif gap > _NOMINAL and len(own) > 1:
        notes.disagree(
            "figures-differ",
            "shaft.mass",
            f"the list says {shown(mass)} for the mass, but {title} in {flex} is published with "
            f"{listed(numbers_of(own, 'mass'))} g",
            documents_of(own),
            stated=mass,
        )


def _agreed_class(rows: Rows, mass: Figure) -> bool:
    """True when a stated mass is the name of a class rather than a weighing."""
    grams = f"{mass.in_unit('g').number:g}"
    return any(grams in taken_apart(row.variant or "").numbers for row in rows)


def _shaft_figures(club: Club, rows: Rows, title: str, notes: Notes) -> Fields:
    shaft = club.shaft
    settled: Fields = {}
    own = made_for(rows, club) or rows
    if not own:
        return settled
    figures = dict(_SHAFT_FIGURES)
    if shaft.mass is not None and shaft.mass.has_number and shaft.mass.source.rank <= Source.STATED.rank:
        told = shared_figure(own, "mass")
        differ = any(entry.about == "shaft.mass" for entry in notes.disagreements)
        if told is not None and _agreed_class(own, shaft.mass) and differs(shaft.mass, told, "shaft_mass"):
            del figures["mass"]
            banded_mass = _class_and_mass(shaft.mass, told)
            if banded_mass != shaft.mass:  # else it was said when this set was settled before
                settled["mass"] = banded_mass
                notes.disagree(
                    "mass-is-class",
                    "shaft.mass",
                    f"{shown(shaft.mass)} is the class of {title}; the shaft itself is published with {shown(told)}",
                    documents_of(own),
                    stated=shaft.mass,
                    published=told,
                )
        elif differ:
            del figures["mass"]
    settled |= fill(shaft, own, figures, "shaft", notes, title)
    settled |= _balance(shaft, own, notes)
    for field in ("launch", "spin"):
        if getattr(shaft, field) is None and (word := shared_word(own, field)):
            settled[field] = word
            notes.answered.add(f"shaft.{field}")
    settled["documents"] = tuple(dict.fromkeys(row.source for row in own))
    return settled


def _class_and_mass(stated: Figure, told: Figure) -> Figure:
    """A mass stated by the name of its class, with a band that holds what is published of the class."""
    published = banded(told, "shaft_mass") or told
    ends = [stated.in_unit(told.unit).number, published.low or told.number, published.high or told.number]
    return msgspec.structs.replace(
        stated.in_unit(told.unit),
        low=min(ends),
        high=max(ends),
        why=f"as stated, which is the name of the class; {shown(told)} is {told.why}",
    )


def _whole_set(shaft: Shaft, rows: Rows, title: str, notes: Notes) -> Fields:
    """Whether the shafts of a set gain mass from club to club, where that is published."""
    ascending = _ascending(rows)
    if ascending is not None:
        if shaft.ascending is None:
            notes.answered.add("shaft.ascending")
            return {"ascending": ascending}
        if shaft.ascending != ascending:
            kind = "an ascending" if ascending else "a constant"
            notes.disagree(
                "ascending-differs",
                "shaft.ascending",
                f"{title} is {kind} mass set, which the list denies",
                documents_of(rows),
            )
    return {}


def _balance(shaft: Shaft, rows: Rows, notes: Notes) -> Fields:
    """The balance point as percent of the length from the tip, whichever way it is published."""
    told = shared_figure(rows, "balance")
    if told is None or (shaft.balance is not None and shaft.balance.source.rank <= Source.PUBLISHED.rank):
        return {}
    notes.answered.add("shaft.balance")
    if told.unit == "percent":
        return {"balance": told}
    length = shared_figure(rows, "length")
    if length is None:
        return {}
    percent = derive(
        lambda balance_from_the_butt, length: 1 - balance_from_the_butt / length,
        "percent",
        f"{told.why}, from the butt",
        balance_from_the_butt=told,
        length=length,
    )
    return {"balance": percent}


def _ascending(rows: Rows) -> bool | None:
    """True for a set whose shafts differ in mass from club to club, False for one said to be constant."""
    by_flex: dict[tuple[str | None, str | None], set[float]] = {}
    for row in rows:
        if len(row.club) == 1 and (mass := row.number("mass")) is not None:
            by_flex.setdefault((row.flex, row.variant), set()).add(mass)
    if any(len(masses) > 2 for masses in by_flex.values()):
        return True
    constructions = {row.construction or "" for row in rows}
    return False if constructions and all("constant mass" in words.casefold() for words in constructions) else None
