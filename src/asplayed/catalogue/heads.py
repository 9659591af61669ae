"""Settling heads: the stamp, bounce, sole and neck that a model is made in, and what is published of them."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from asplayed.catalogue.disputes import (
    Fields,
    Notes,
    compare_dates,
    compare_documents,
    documents_of,
    fill,
    identify,
    shared_figure,
    shared_word,
    title_of,
)
from asplayed.catalogue.matching import Catalogue, Model, taken_apart
from asplayed.catalogue.rows import WEDGES, Rows, listed, made_for, numbers_of, suits, with_number, with_words
from asplayed.clubs.records import Club, PutterParts
from asplayed.clubs.usual import banded
from asplayed.quantities import Source, derive

_HEAD_FIGURES: Mapping[str, tuple[str, str | None]] = {
    "loft": ("loft", "loft"),
    "lie": ("lie", "lie"),
    "bounce": ("bounce", "bounce"),
    "face": ("face", "face"),
    "offset": ("offset", "offset"),
    "mass": ("mass", "head_mass"),
    "volume": ("volume", None),
    "bend_limit": ("bend limit", None),
}


def settle_head(club: Club, catalogue: Catalogue, notes: Notes) -> Club:
    head = club.head
    if not head.name:
        return club
    loft = head.loft.in_unit("deg").number if head.loft is not None and head.loft.has_number else None

    def possible(model: Model) -> bool:
        rows = made_for(model.rows, club)
        return bool(rows) and (loft is None or club.kind in {"iron", "putter"} or bool(with_number(rows, "loft", loft)))

    model = identify(head.name, "head", "head.name", club, catalogue, notes, possible).model
    if model is None:
        return club
    notes.answered.add("head.name")
    title = title_of(model)
    club = _as_the_model_is(club, model)
    notes.club = club.club
    rows = made_for(model.rows, club)
    settled: Fields = {"maker": model.maker, "model": model.model}
    if not rows:
        others = listed(dict.fromkeys(name for row in model.rows for name in row.club))
        notes.disagree(
            "club-not-made",
            "head.name",
            f"{title} is not made as a {club.club}; it is as {others}",
            documents_of(model.rows),
        )
        return msgspec.structs.replace(club, head=msgspec.structs.replace(head, **settled))
    everything = rows
    if loft is not None and club.kind not in {"iron", "putter"}:
        # A stamp names the head, whatever the list calls the club.
        rows = tuple(row for row in model.rows if suits(row, club))
        everything = rows
        lofts = numbers_of(rows, "loft")
        stamped = with_number(rows, "loft", loft)
        if lofts and not stamped:
            notes.disagree(
                "loft-not-made",
                "head.loft",
                f"{title} is not made in {loft:g}°; it is in {listed(lofts)}°",
                documents_of(rows),
                stated=head.loft,
            )
        rows = stamped or rows
    rows = _narrow_head(club, rows, title, notes)
    told = compare_documents(rows, "head.name", notes)
    if not compare_dates(model, everything, "head.name", catalogue, notes):
        compare_dates(model, told, "head.name", catalogue, notes)
    figures = dict(_HEAD_FIGURES)
    if loft is not None and club.kind not in {"iron", "putter"}:
        del figures["loft"]  # compared as a stamp above
    settled |= fill(head, told, figures, "head", notes, title)
    if head.sole is None and (sole := shared_word(told, "sole")):
        settled["sole"] = sole
        notes.answered.add("head.sole")
    if head.construction is None:
        settled["construction"] = shared_word(told, "construction")
    settled["documents"] = tuple(dict.fromkeys(row.source for row in told))
    _ask_head(club, told, title, notes)
    changed: Fields = {"head": msgspec.structs.replace(head, **settled)}
    if club.kind == "putter":
        changed["putter"] = _settle_putter(club.putter or PutterParts(), told, title, notes)
    changed |= _standard_length(club, told, title, notes)
    return msgspec.structs.replace(club, **changed)


def _as_the_model_is(club: Club, model: Model) -> Club:
    """The club with the kind its model has: a "2 iron" may be a driving iron, a pitching wedge part of the irons."""
    names = {name for row in model.rows for name in row.club}
    irons = any(name == "iron" or (name.endswith(" iron") and not name.endswith("driving iron")) for name in names)
    if club.club in WEDGES and club.kind in {"iron", "wedge"} and names:
        return msgspec.structs.replace(club, kind="iron" if irons else "wedge")
    driving = club.club.replace(" iron", " driving iron")
    if club.kind == "iron" and not irons and driving in names:
        return msgspec.structs.replace(club, kind="driving iron", club=driving)
    return club


def _narrow_head(club: Club, rows: Rows, title: str, notes: Notes) -> Rows:
    """The rows that what else is stated of the head leaves: its bounce, its sole, its neck, words in its name."""
    head = club.head
    if head.bounce is not None and head.bounce.has_number and (made := numbers_of(rows, "bounce")):
        bounce = head.bounce.in_unit("deg").number
        matching = with_number(rows, "bounce", bounce)
        if not matching and len(rows) > 1:
            loft = listed(numbers_of(rows, "loft"))
            notes.disagree(
                "bounce-not-made",
                "head.bounce",
                f"{title} in {loft}° is not made with {bounce:g}° of bounce; it is with {listed(made)}°",
                documents_of(rows),
                stated=head.bounce,
            )
        rows = matching or rows
    words = club.putter.neck if club.kind == "putter" and club.putter else head.sole
    field = "neck" if club.kind == "putter" else "sole"
    if words and any(getattr(row, field) for row in rows):
        matching = with_words(rows, lambda row: getattr(row, field), words)
        if not matching:
            made_as = listed(dict.fromkeys(str(getattr(row, field)) for row in rows if getattr(row, field)))
            notes.disagree(
                f"{field}-not-made",
                "putter.neck" if field == "neck" else "head.sole",
                f"{title} is not made with {words!r} for its {field}; it is with {made_as}",
                documents_of(rows),
            )
        rows = matching or rows
    if len(rows) > 1:
        said = set(taken_apart(head.name or "").words)
        hinted = tuple(
            row
            for row in rows
            if (own := set(taken_apart(f"{row.variant or ''} {row.neck or ''}").words)) and own <= said | {"neck"}
        )
        rows = hinted or rows
    return rows


def _ask_head(club: Club, rows: Rows, title: str, notes: Notes) -> None:
    """Ask for what tells the remaining rows apart, with the published choices as answers."""
    if len(rows) < 2:
        return
    lofts, bounces = numbers_of(rows, "loft"), numbers_of(rows, "bounce")
    if club.head.loft is None and len(lofts) > 1:
        notes.ask("head.loft", f"which loft is the {title}? it is made in {listed(lofts)}°", (f"{x:g}°" for x in lofts))
    elif club.head.bounce is None and len(bounces) > 1 and len(lofts) == 1:
        answers = [f"{row.number('bounce'):g}°{f', {row.sole}' if row.sole else ''}" for row in rows]
        notes.ask("head.bounce", f"which bounce has the {title} {lofts[0]:g}°?", answers)
    elif club.kind == "putter":
        necks = tuple(dict.fromkeys(row.neck for row in rows if row.neck))
        if len(necks) > 1 and (club.putter is None or club.putter.neck is None):
            notes.ask("putter.neck", f"which neck has the {title}? it is made with {listed(necks)}", necks)


def _settle_putter(putter: PutterParts, rows: Rows, title: str, notes: Notes) -> PutterParts:
    filled = fill(putter, rows, {"toe_hang": ("toe hang", "toe_hang")}, "putter", notes, title)
    if putter.neck is None and (neck := shared_word(rows, "neck")):
        filled["neck"] = neck
        notes.answered.add("putter.neck")
    return msgspec.structs.replace(putter, **filled)


def _standard_length(club: Club, rows: Rows, title: str, notes: Notes) -> Fields:
    """The published length of the club where none is stated, with the change from standard that is."""
    told = shared_figure(rows, "length")
    own = club.length
    if told is None or (own is not None and own.value is not None and own.source.rank <= Source.PUBLISHED.rank):
        return {}
    notes.answered.add("length")
    change = club.length_change
    if change is None or not change.has_number:
        return {"length": told}
    built = derive(
        lambda published_length, change: published_length + change,
        told.unit,
        f"published length of {title} plus the change stated",
        published_length=banded(told, "length") or told,
        change=change,
    )
    rounded = {end: round(x, 9) for end in ("value", "low", "high") if isinstance(x := getattr(built, end), float)}
    return {"length": msgspec.structs.replace(built, **rounded)}
