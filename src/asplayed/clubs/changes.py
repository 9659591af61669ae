"""Changes to a set as records, and what a set is once they are made.

A `Change` says one thing about one club. `apply` gives the set as it would be: what was gauged of a club before the
change is carried through it (a wedge gauged at 55.3° and bent 1° weak plays at 56.3°), and what the change makes
untrue is dropped, so that `as_played` works it out anew.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Literal, NamedTuple

from msgspec.structs import replace

from asplayed.clubs import angles, assembly
from asplayed.clubs.as_played import as_played, from_parts
from asplayed.clubs.names import club_meant, labels
from asplayed.clubs.records import (
    AddedAt,
    AddedMass,
    AsPlayed,
    Ball,
    Bend,
    Club,
    GolfSet,
    Grip,
    Head,
    Record,
    Shaft,
    Sleeve,
    Stated,
    Weight,
)
from asplayed.clubs.usual import usual as usual_of
from asplayed.errors import BadInput
from asplayed.mechanics.balance import FULCRUM, POINT
from asplayed.quantities import Figure, Source, to_si

What = Literal[
    "sleeve", "weights", "loft", "lie", "length", "shaft", "grip", "head", "added mass", "swing weight",
    "butt inertia", "tip trim", "drop", "add", "ball",
]  # fmt: skip
IN_TURN: tuple[What, ...] = (
    "drop", "add", "ball", "head", "shaft", "tip trim", "length", "grip", "weights", "sleeve", "loft", "lie",
    "added mass", "swing weight", "butt inertia",
)  # fmt: skip
"""The order in which work is done, whatever order it was asked in: balance last, when all else is as it will be."""
MOST_ADDED = 40.0  # grams: past that the wrong head was chosen
_FROM_USUAL = 6.0  # inches off the usual length, or the club's own: past that it is no club of its kind (practice)
_WOODEN = ("driver", "fairway wood", "hybrid")


class Change(Record, frozen=True, kw_only=True):
    """One change to one club of a set; `club` is its label in the set, nothing for the ball and for a club added.

    `what` says which of the other fields counts. `by` makes `figure` a change of the club as it is (weak +, upright +,
    longer +); otherwise it is what the club is to become. Sleeve, weights, shaft, head and grip are as they will be.
    `text` keeps the words the change was given in.
    """

    club: str = ""
    what: What
    by: bool = False
    figure: Figure | None = None
    place: AddedAt | None = None  # of added mass, or of what brings a swing weight about
    sleeve: Sleeve | None = None
    weights: tuple[Weight, ...] = ()
    shaft: Shaft | None = None
    grip: Grip | None = None
    head: Head | None = None
    added: Club | None = None
    ball: Ball | None = None
    text: str = ""


def apply(golf_set: GolfSet, change: Change) -> GolfSet:
    """The set with the change made; a change that cannot be made is refused with its reason.

    Names of new parts are as the change gives them: settle the set against a catalogue afterwards.

    >>> from asplayed.quantities import figure
    >>> bag = GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=Head(loft=figure(56, "deg", "stated"))),))
    >>> weak = Change(club="sand wedge", what="loft", by=True, figure=figure(1, "deg", "stated"))
    >>> round(as_played(apply(apply(bag, weak), weak).clubs[0]).loft.value, 9)
    58.0
    """
    if change.what == "ball":
        if change.ball is None:
            raise BadInput("the change of ball names no ball; write ball: NAME")
        return replace(golf_set, ball=change.ball)
    if change.what == "add":
        if change.added is None:
            raise BadInput("the change adds no club; write add: CLUB AND ITS PARTS")
        return replace(golf_set, clubs=(*golf_set.clubs, change.added))
    place = place_of(golf_set, change.club)
    clubs = list(golf_set.clubs)
    if change.what == "drop":
        del clubs[place]
    else:
        clubs[place] = changed_club(clubs[place], change)
    return replace(golf_set, clubs=tuple(clubs))


def apply_all(golf_set: GolfSet, changes: Iterable[Change]) -> GolfSet:
    """The set with the changes made in their order."""
    for change in changes:
        golf_set = apply(golf_set, change)
    return golf_set


def in_turn(changes: Iterable[Change]) -> tuple[Change, ...]:
    """The changes in the order in which work is done; those of one kind in the order in which they were asked.

    >>> [each.what for each in in_turn([Change(what="swing weight"), Change(what="grip")])]
    ['grip', 'swing weight']
    """
    return tuple(sorted(changes, key=lambda change: IN_TURN.index(change.what)))


def place_of(golf_set: GolfSet, name: str) -> int:
    """The place in the set of the one club that a name means."""
    found = club_meant(name, golf_set.clubs)
    if len(found) == 1:
        return found[0]
    names = labels(golf_set.clubs)
    if found:
        raise BadInput(f"{name!r} may be {' or '.join(names[place] for place in found)}; name one of them")
    raise BadInput(f"there is no {name!r} in this set; its clubs are {', '.join(names) or 'none'}")


def changed_club(club: Club, change: Change) -> Club:
    """The club with one change made."""
    return _WAYS[change.what](club, change)


# ------------------------------------------------------------------------------------------------ what is carried on


def rebuilt(club: Club, **fields: Any) -> Club:
    """The club with other parts, what was read or stated of the whole carried through the change.

    A swing weight or total mass known of the whole settles what the head weighs in effect; a frequency is scaled as the
    parts' own would be. What the whole was before no longer stands.
    """
    # a weighed head in a new shaft is better known by its mass than by the balance it had in the old one
    weighed = "shaft" in fields and angles.gauged(club.head.mass) is not None
    kept = club if "head" in fields or weighed else _with_effective_head(club)
    known = angles.gauged(club.as_played.frequency) or club.stated.frequency
    played = {
        name: getattr(club.as_played, name)
        for name in (
            "loft",
            "lie",
            "face",
            "bounce",
            "offset",
            "toe_hang",
            *(() if "grip" in fields else ("grip_size",)),
        )
        if angles.gauged(getattr(club.as_played, name)) is not None
    }
    if "length" not in fields and (length := angles.gauged(club.as_played.length)) is not None:
        played["length"] = length
    if (lie := angles.said(club.as_played.lie)) is not None:
        played["lie"] = lie
    made = replace(kept, **{"stated": Stated(), "as_played": AsPlayed(**played), **fields})
    if known is None or not known.has_number or "shaft" in fields:
        return made
    old, new = from_parts(kept).frequency, from_parts(made).frequency
    if old is None or new is None:
        return made
    carried = Figure(
        value=round(known.number * new.number / old.number, 2),
        unit=known.unit,
        source=Source.COMPUTED,
        why=f"{known.number:g} {known.unit} before the change{f' ({known.why})' if known.why else ''}, scaled with it",
    )
    return replace(made, stated=replace(made.stated, frequency=carried.within(3.0)))


def _with_effective_head(club: Club) -> Club:
    """The club with the head mass that gives the swing weight read or stated of the whole, where there is one.

    A head that was weighed stands against a swing weight that was only stated.
    """
    read = club.as_played.swing_weight
    on_scale = read is not None and read.source is Source.MEASURED
    if not on_scale and angles.gauged(club.head.mass) is not None:
        return club
    known = read if on_scale else club.stated.swing_weight
    points = assembly.points_of(known)
    length = angles.length(club)
    assert length is not None  # every row of the usual figures carries a length
    others = assembly.parts_without_head(club, length)
    before = assembly.head_mass(club, others)
    if points is None:
        return club if club.head.mass is not None else replace(club, head=replace(club.head, mass=before))
    in_effect = assembly.head_for(points, others)
    if abs(in_effect.number - before.in_unit("g").number) > 15:
        return club
    assert known is not None
    why = f"the head that gives the {known.value} of the club before the change"
    mass = replace(in_effect, why=why)
    return replace(club, head=replace(club.head, mass=mass))


# ------------------------------------------------------------------------------------------------- one way for each


def _sleeve(club: Club, change: Change) -> Club:
    if club.sleeve is None and club.kind not in _WOODEN:
        raise BadInput(f"the {club.club} has no adjustable sleeve to turn; bend it, or name another head")
    if change.sleeve is None:
        raise BadInput(f"the change to the sleeve of the {club.club} names no position and no change of loft or lie")
    kept = {
        name: entry
        for name in AsPlayed.__struct_fields__
        if name not in ("loft", "lie", "face") and (entry := getattr(club.as_played, name)) is not None
    }
    return replace(club, sleeve=change.sleeve, as_played=AsPlayed(**kept))


def _weights(club: Club, change: Change) -> Club:
    if not change.weights:
        raise BadInput(f"the change to the movable weights of the {club.club} names no weight")
    before = sum(_grams(weight.mass) for weight in club.weights)
    after = sum(_grams(weight.mass) for weight in change.weights)
    fields: dict[str, Any] = {"weights": change.weights}
    if before and after and abs(after - before) > 1e-9:
        head = _with_effective_head(club).head
        mass = head.mass or assembly.head_mass(club, assembly.parts_without_head(club, _length(club)))
        fields["head"] = replace(head, mass=_shifted(mass.in_unit("g"), after - before, "with other movable masses"))
    return rebuilt(club, **fields)


def _grams(mass: Figure | None) -> float:
    return mass.in_unit("g").number if mass is not None and mass.has_number else 0.0


def _shifted(entry: Figure, by: float, why: str) -> Figure:
    low, high = (None if end is None else end + by for end in (entry.low, entry.high))
    return Figure(value=entry.number + by, unit=entry.unit, source=Source.COMPUTED, low=low, high=high, why=why)


def _angle(club: Club, change: Change) -> Club:
    about: Literal["loft", "lie"] = "loft" if change.what == "loft" else "lie"
    if club.kind in _WOODEN:
        turn = "turn its sleeve instead" if club.sleeve else "choose another head instead"
        raise BadInput(f"the {club.club} cannot be bent: woods and hybrids are not bent at all; {turn}")
    figure = _figure(club, change, "deg")
    now = as_played(club)
    before = getattr(now, about)
    assert before is not None  # every row of the usual figures carries loft and lie
    move = figure.number if change.by else figure.number - before.number
    bent = getattr(club.bend, about)
    known = angles.gauged(getattr(club.as_played, about)) or (
        angles.said(club.as_played.lie) if about == "lie" else None
    )
    bare = replace(club.as_played, **{about: None, **({"bounce": None, "offset": None} if about == "loft" else {})})
    unread = replace(club, as_played=bare)
    so_far = bent.number if bent is not None and bent.has_number else 0.0
    why = f"{so_far:+g}° before, {move:+g}° now" if so_far else None
    if known is not None:
        worked_out = getattr(as_played(unread), about)
        so_far += known.number - worked_out.number
        why = f"from the {known.number:g}° it was {known.source.value} at, {move:+g}°"
    total = Figure(value=round(so_far + move, 9), unit="deg", source=Source.STATED, why=why)
    bend: Bend = replace(club.bend, **{about: total})
    return replace(unread, bend=bend)


def _length(club: Club) -> Figure:
    length = angles.length(club)
    assert length is not None  # every row of the usual figures carries a length
    return length


def _buildable(club: Club, now: float) -> tuple[float, float]:
    """The shortest and the longest [in] that a club can be made: putters of any length, others near their kind's."""
    common = None if club.kind == "putter" else usual_of(club, "length")
    if common is None:
        return 18.0, 60.0
    kind = common.in_unit("in").number
    return max(18.0, min(kind, now) - _FROM_USUAL), min(60.0, max(kind, now) + _FROM_USUAL)


def _new_length(club: Club, change: Change) -> Club:
    figure = _figure(club, change, "in")
    before = _length(club).in_unit("in").number
    after = before + figure.number if change.by else figure.number
    low, high = _buildable(club, before)
    if not low <= after <= high:
        raise BadInput(f"a {club.club} of {after:g} in cannot be built; give a length between {low:g} and {high:g} in")
    length = Figure(value=after, unit="in", source=Source.STATED, why=change.text or None)
    return rebuilt(club, length=length, length_change=None)


def _shaft(club: Club, change: Change) -> Club:
    if change.shaft is None:
        raise BadInput(f"the change of shaft of the {club.club} names no shaft")
    return rebuilt(club, shaft=change.shaft)


def _grip(club: Club, change: Change) -> Club:
    if change.grip is None:
        raise BadInput(f"the change of grip of the {club.club} names no grip and no wraps")
    grip = change.grip
    if grip.name is None and club.grip is not None:
        grip = replace(club.grip, wraps=grip.wraps, mass=grip.mass or club.grip.mass)
    return rebuilt(club, grip=grip)


def _head(club: Club, change: Change) -> Club:
    if change.head is None:
        raise BadInput(f"the change of head of the {club.club} names no head")
    made = rebuilt(club, head=change.head, bend=Bend(), weights=(), length=_length(club), length_change=None)
    kept = {"length": made.as_played.length, "grip_size": made.as_played.grip_size}
    return replace(made, sleeve=None if club.sleeve is None else Sleeve(), as_played=AsPlayed(**kept))


def _added(club: Club, change: Change) -> Club:
    figure = _figure(club, change, "g")
    place = change.place or "tip"
    there = sum(entry.mass.number for entry in club.added if entry.place == place)
    total = there + figure.number if change.by else figure.number
    if not 0 <= total <= MOST_ADDED:
        raise BadInput(
            f"{total:g} g at the {place} of the {club.club} cannot be; added mass lies between 0 and {MOST_ADDED:g} g"
        )
    return _with_added(club, place, total, figure.source, change.text or None)


def _with_added(
    club: Club, place: Literal["head", "tip", "butt"], grams: float, source: Source, why: str | None
) -> Club:
    mass = Figure(value=round(grams, 3), unit="g", source=source, why=why)
    rest = tuple(entry for entry in club.added if entry.place != place)
    return rebuilt(club, added=(*rest, AddedMass(place=place, mass=mass)) if grams > 0 else rest)


class Missing(NamedTuple):
    """The mass a club lacks to come to a target, where it would be added; less than nothing where it has too much."""

    grams: float
    place: AddedAt


def missing_mass(club: Club, target: Figure, place: AddedAt | None = None) -> Missing:
    """The mass (g) that brings the club, by its parts alone, to a swing weight (text) or a butt inertia (kg·cm²).

    Without a place it is the head, where the least is needed; a swing weight passed already is brought back at the
    butt.

    >>> from asplayed.quantities import figure
    >>> iron = Club(club="7 iron", kind="iron", head=Head(mass=figure(269, "g", "measured")))
    >>> lacking = missing_mass(iron, figure("D2", "1", "stated"))
    >>> lacking.place, lacking.grams > 0
    ('head', True)
    """
    played = from_parts(club)
    if target.unit == "1":
        wanted, now = assembly.points_of(target), assembly.points_of(played.swing_weight)
        if wanted is None:
            raise BadInput(f"{target.value!r} is not a swing weight; write a letter and points, such as D2")
    else:
        wanted, now = target.in_unit("kg*cm2"), played.butt_inertia
    assert now is not None  # a club from its parts always has both
    missing = wanted.number - now.number
    by_scale = target.unit == "1"
    where: AddedAt = place or ("butt" if missing < 0 and by_scale else "head")
    at = assembly.place_of_added(club, to_si(_length(club).number, _length(club).unit), where)
    per_gram = (at - FULCRUM) / (0.0254 * 28.349523125 * POINT) if by_scale else at * at * 10
    return Missing(missing / per_gram, where)


def _matched(club: Club, change: Change) -> Club:
    """The club with the mass added that brings its swing weight or butt inertia to the target."""
    target = change.figure
    if target is None:
        raise BadInput(f"the change of {change.what} of the {club.club} names no target")
    kept = rebuilt(club)
    missing, place = missing_mass(kept, target, change.place)
    grams = missing + sum(entry.mass.number for entry in kept.added if entry.place == place)
    if grams < 0:
        raise BadInput(
            f"the {club.club} would have to lose {-grams:.1f} g at its {place} to come to {_shown(target)}; "
            "choose a lighter head or counterweight its butt"
        )
    if grams > MOST_ADDED:
        raise BadInput(
            f"the {club.club} would need {grams:.0f} g at its {place} to come to {_shown(target)}; "
            f"past {MOST_ADDED:g} g choose a {'heavier' if place != 'butt' else 'lighter'} head instead"
        )
    return _with_added(kept, place, grams, Source.COMPUTED, f"brings the club to {_shown(target)}")


def _shown(target: Figure) -> str:
    return str(target.value) if isinstance(target.value, str) else f"{target.number:g} {target.unit}"


def _tip_trim(club: Club, change: Change) -> Club:
    figure = _figure(club, change, "in")
    trim = club.shaft.tip_trim
    total = figure.number + (trim.in_unit("in").number if change.by and trim is not None else 0.0)
    if not 0 <= total <= 6:
        raise BadInput(f"a tip trim of {total:g} in on the {club.club} cannot be; it lies between 0 and 6 in")
    after = Figure(value=total, unit="in", source=figure.source) if total else None
    return rebuilt(club, shaft=replace(club.shaft, tip_trim=after))


def _figure(club: Club, change: Change, unit: str) -> Figure:
    if change.figure is None or not change.figure.has_number:
        raise BadInput(f"the change of {change.what} of the {club.club} names no figure; give one in {unit}")
    return change.figure.in_unit(unit)


_WAYS = {
    "sleeve": _sleeve,
    "weights": _weights,
    "loft": _angle,
    "lie": _angle,
    "length": _new_length,
    "shaft": _shaft,
    "grip": _grip,
    "head": _head,
    "added mass": _added,
    "swing weight": _matched,
    "butt inertia": _matched,
    "tip trim": _tip_trim,
}
