"""The whole club from its parts: mass, balance point, swing weight, inertia about the butt, frequency, grip size.

Each figure is worked out from the same parts, those nobody named taken from common practice, so that a bare "7 iron"
still has figures, with bands as wide as the trade's habits.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache, lru_cache
from typing import Any

from asplayed.clubs.angles import carried, gauged, said
from asplayed.clubs.records import Club
from asplayed.clubs.usual import banded, common, parts, usual
from asplayed.errors import BadInput
from asplayed.mechanics.balance import (
    Build,
    build,
    matching_head_mass,
    swing_weight_moment,
    swing_weight_points,
    swing_weight_points_of,
    swing_weight_text,
)
from asplayed.mechanics.shaft import cut_shaft
from asplayed.mechanics.shaft import frequency as beam_frequency
from asplayed.quantities import Figure, Parent, Source, derive, to_si

_FLEXES = ("L", "A", "R", "S", "X", "TX")
_FAMILY = {"driver": "wood", "fairway wood": "wood", "hybrid": "hybrid"}


def shaft_material(club: Club) -> tuple[str, bool]:
    """`steel` or `graphite`, and whether the words say so: woods and hybrids are graphite, light iron shafts too.

    >>> shaft_material(Club(club="driver", kind="driver")), shaft_material(Club(club="7 iron", kind="iron"))
    (('graphite', True), ('steel', False))
    """
    if club.kind in ("driver", "fairway wood", "hybrid"):
        return "graphite", True
    words = f"{club.shaft.name or ''} {club.shaft.model or ''}".lower()
    for material in ("graphite", "steel"):
        if material in words:
            return material, True
    mass = club.shaft.mass
    if club.kind != "putter" and mass is not None and mass.has_number:
        return ("graphite" if mass.in_unit("g").number < 88 else "steel"), False
    return "steel", False


def shaft_mass(club: Club) -> Figure:
    """The mass of the uncut shaft: as known, else the usual one of its kind and material."""
    known = banded(club.shaft.mass, "shaft_mass")
    if known is not None:
        return known
    kind = {"driver": "wood", "fairway wood": "fairway", "driving iron": "iron"}.get(club.kind, club.kind)
    material, certain = shaft_material(club)
    table = parts()["shaft_mass"][kind]
    if material not in table:
        material = next(iter(table))
    guess = "" if certain else "; the material is a guess"
    found = common(table[material], f"usual for an uncut {material} shaft in this kind of club{guess}")
    place = _place_in_irons(club.club)
    if not club.shaft.ascending or place is None:
        return found
    return derive(
        lambda usual_mass, gain: usual_mass + place * gain,
        "g",
        "an ascending set: so much heavier a club, counted from the 7 iron",
        usual_mass=found,
        gain=common(parts()["ascending_gain"], "usual gain of an ascending set"),
    )


def _place_in_irons(name: str) -> int | None:
    """How many clubs below the 7 iron a club stands; None outside the irons and wedges."""
    wedges = {"pitching wedge": 3, "gap wedge": 4, "sand wedge": 5, "lob wedge": 6}
    if name.endswith(" iron") and name[:-5].isdigit():
        return int(name[:-5]) - 7
    return wedges.get(name)


def _shaft_balance(club: Club, length: Figure) -> Figure:
    known = banded(club.shaft.balance, "shaft_balance") if _is_percent(club.shaft.balance) else club.shaft.balance
    if known is not None and known.has_number and known.unit != "percent":
        known = derive(
            lambda balance_from_butt, shaft_length: 1 - balance_from_butt / shaft_length,
            "percent",
            "balance point from the butt, as a share of the length from the tip",
            balance_from_butt=known,
            shaft_length=length,
        )
    if known is not None and known.has_number and 36 < known.number < 64:
        return known
    family = "wood" if club.kind in _FAMILY else "iron"
    return common(parts()["shaft_balance"][family], "usual balance of an uncut shaft, from its tip")


def _is_percent(entry: Figure | None) -> bool:
    return entry is not None and entry.unit == "percent"


def _grip_mass(club: Club) -> Figure:
    known = banded(club.grip.mass, "grip_mass") if club.grip else None
    if known is not None:
        return known
    size = "putter" if club.kind == "putter" else "standard"
    if size == "standard" and _oversize(club)[1] > 0:
        size = "midsize"
    return common(parts()["grip_mass"][size], f"usual mass of a {size} grip")


def _oversize(club: Club) -> tuple[str, float]:
    words = f"{club.grip.name or ''} {club.grip.model or ''}".lower() if club.grip else ""
    found = [(word, extra) for word, extra in parts()["grip_oversize"].items() if word in words]
    return found[0] if found else ("standard", 0.0)


def _wraps(club: Club) -> float:
    return (club.grip.wraps or 0.0) if club.grip else 0.0


def parts_without_head(club: Club, length: Figure) -> dict[str, Figure]:
    """Every figure the build-up needs but the head's mass, under the names of `whole_club`."""
    table = parts()
    raw_length = banded(club.shaft.length, "shaft_length") or usual(club, "shaft_length")
    height = usual(club, "head_height")
    assert raw_length is not None and height is not None  # every row of the usual figures carries both
    fittings = common(table["fittings"], "usual epoxy and ferrule")
    found = {
        "length": length,
        "head_height": height,
        "shaft_mass": shaft_mass(club),
        "shaft_length": raw_length,
        "shaft_balance": _shaft_balance(club, raw_length),
        "shaft_reach": common(table["shaft_reach"], "usual height of the shaft's end above the sole, cap included"),
        "grip_mass": _grip_mass(club),
        "tape_mass": common(table["tape"], "usual tape under a grip"),
        "fittings_mass": fittings,
    }
    if wraps := _wraps(club):
        layer = common(table["wrap"]["mass"], "usual mass of a layer of tape")
        found["wraps_mass"] = derive(lambda layer: layer * wraps, "g", f"{wraps:g} extra layers of tape", layer=layer)
    if club.sleeve is not None:
        found["sleeve_mass"] = common(table["sleeve"], "usual mass of an adjustable sleeve")
    for entry in club.added:
        name = f"added_at_{entry.place}"
        mass = banded(entry.mass, "weight_mass")
        if mass is not None and mass.has_number:
            found[name] = mass
    if club.shaft.tip_trim is not None and club.shaft.tip_trim.has_number:
        found["tip_trim"] = club.shaft.tip_trim
    return found


def _si(entry: dict[str, Any]) -> float:
    return to_si(float(entry["value"]), entry["unit"])


@cache
def _fixed() -> tuple[float, float, float, float]:
    table = parts()
    places = ("grip_balance", "grip_length", "fittings_height", "butt_weight")
    balance, length, fittings, butt = (_si(table[name]) for name in places)
    return balance, length, fittings, butt


def place_of_added(club: Club, length: float, place: str) -> float:
    """How far from the butt (m) mass added at the `head`, the `tip` or the `butt` of a club of this length sits.

    >>> round(place_of_added(Club(club="7 iron", kind="iron"), 37 * 0.0254, "tip") / 0.0254, 3)
    35.0
    """
    _, _, fittings_height, butt = _fixed()
    if place == "butt":
        return butt
    height = usual(club, "head_height")
    assert height is not None  # every row of the usual figures carries it
    return length - (fittings_height if place == "tip" else to_si(height.number, height.unit))


def _placed(
    length: float,
    shaft_mass: float,
    shaft_length: float,
    shaft_balance: float,
    shaft_reach: float,
    grip_mass: float,
    tape_mass: float,
    fittings_mass: float,
    wraps_mass: float = 0.0,
    sleeve_mass: float = 0.0,
    added_at_tip: float = 0.0,
    added_at_butt: float = 0.0,
    added_at_head: float = 0.0,
    head_height: float = 0.0,
    tip_trim: float = 0.0,
) -> dict[str, Any]:
    """The parts where they sit in the club, in the terms of `mechanics.balance.build`: the shaft cut at its butt."""
    grip_balance, grip_length, fittings_height, butt_weight_at = _fixed()
    end = length - shaft_reach
    # A club longer than its uncut shaft has been extended; the extension is taken to be like the shaft.
    raw_length = max(shaft_length, end + tip_trim)
    cut = cut_shaft(
        raw_mass=shaft_mass * raw_length / shaft_length,
        raw_length=raw_length,
        raw_balance=(1 - shaft_balance) * raw_length,
        tip_trim=tip_trim,
        butt_trim=raw_length - tip_trim - end,
    )
    low = length - fittings_height
    return {
        "length": length,
        "shaft_mass": cut.mass,
        "shaft_length": cut.length,
        "shaft_balance": end - cut.length + cut.balance,
        "grip_mass": grip_mass,
        "grip_balance": grip_balance,
        "grip_length": grip_length,
        "point_masses": (
            (tape_mass + wraps_mass, grip_balance),
            (fittings_mass + sleeve_mass + added_at_tip, low),
            *(((added_at_butt, butt_weight_at),) if added_at_butt else ()),
            *(((added_at_head, length - head_height),) if added_at_head else ()),
        ),
    }


@lru_cache(maxsize=4096)
def whole_club(head_mass: float, head_height: float, **others: float) -> Build:
    """A club from its parts as the trade gives them (SI): the uncut shaft, its balance from the tip as a share.

    >>> inch = 0.0254
    >>> iron = whole_club(0.27, 0.6 * inch, length=37 * inch, shaft_mass=0.115, shaft_length=35.5 * inch,
    ...     shaft_balance=1 - 17.4 / 35.5, shaft_reach=1.5 * inch, grip_mass=0.05, tape_mass=0.0, fittings_mass=0.0)
    >>> round(iron.mass, 3), swing_weight_text(iron.swing_weight_points, 1)
    (0.435, 'C8.0')
    """
    return build(head_mass=head_mass, head_height=head_height, **_placed(head_height=head_height, **others))


def head_mass(club: Club, others: dict[str, Figure]) -> Figure:
    """The head's mass: as known; else what a stated swing weight or total mass leaves for it; else the usual one."""
    known = banded(club.head.mass, "head_mass")
    if known is not None:
        return known
    common_head = usual(club, "head")
    assert common_head is not None  # every row of the usual figures carries a head
    found = None
    if (points := stated_points(club)) is not None:
        found = head_for(points, others)
    elif (total := banded(club.stated.mass, "mass")) is not None:
        found = derive(
            lambda total, **rest: total - (whole_club(0.2, **rest).mass - 0.2),
            "g",
            "what the other parts leave of the stated total mass",
            total=total,
            **others,
        )
    low, high = 0.85 * (common_head.low or 0.0), 1.15 * (common_head.high or 0.0)
    return found if found is not None and low < found.number < high else common_head


def head_for(points: Figure, others: dict[str, Figure]) -> Figure:
    """The mass of the head that brings these parts to a swing weight in points above A0."""
    return derive(_matching, "g", "the head that gives the stated swing weight", points=points, **others)


def _matching(points: float, head_height: float, **rest: float) -> float:
    placed = _placed(head_height=head_height, **rest)
    found: float = matching_head_mass(swing_weight_points=points, head_height=head_height, **placed)
    return found


def points_of(entry: Figure | None) -> Figure | None:
    """The points above A0 (with their band) behind a swing weight's text; None where there are none.

    >>> points_of(Figure(value="D2", unit="1", source=Source.STATED)).number
    32.0
    """
    if entry is None:
        return None
    for parent in entry.parents:
        if parent.name == "points":
            return parent.figure
    if isinstance(entry.value, str):
        try:
            points = swing_weight_points_of(entry.value)
        except BadInput:
            return None
        return banded(Figure(value=points, unit="1", source=entry.source, why="points above A0"), "swing_weight")
    return banded(entry, "swing_weight")


def stated_points(club: Club) -> Figure | None:
    """The stated swing weight of a club in points above A0, or None."""
    return points_of(club.stated.swing_weight)


def _as_text(points: Figure, source: Source, why: str) -> Figure:
    band = ""
    if points.low is not None and points.high is not None:
        band = f"; between {swing_weight_text(points.low, 1)} and {swing_weight_text(points.high, 1)}"
    text = swing_weight_text(points.number)
    return Figure(value=text, unit="1", source=source, why=why + band, parents=(Parent("points", points),))


def swing_weight(club: Club, everything: dict[str, Figure]) -> Figure:
    """The swing weight as text, its points and their band behind it: read off a scale, stated, or worked out."""
    measured = club.as_played.swing_weight
    if measured is not None and measured.source is Source.MEASURED and (points := points_of(measured)) is not None:
        return Figure(
            value=measured.value,
            unit="1",
            source=Source.MEASURED,
            why=measured.why or "read off the balance scale",
            parents=(Parent("points", points),),
        )
    stated = club.stated.swing_weight
    if stated is not None and (points := stated_points(club)) is not None:
        words = stated.why or "as stated"
        return Figure(
            value=stated.value, unit="1", source=stated.source, why=words, parents=(Parent("points", points),)
        )
    mass, balance = gauged(club.as_played.mass), said(club.as_played.balance_point)
    if mass is not None and balance is not None:
        points = derive(
            lambda mass, balance_point: swing_weight_points(swing_weight_moment(mass, balance_point)),
            "1",
            "points above A0 from mass and balance point",
            mass=banded(mass, "mass") or mass,
            balance_point=balance,
        )
    else:
        points = _of(everything, lambda made: made.swing_weight_points, "1", "points above A0 from the parts")
    return _as_text(points, Source.COMPUTED, "moment about the 14 inch fulcrum")


def _of(everything: dict[str, Figure], pick: Callable[[Build], float], unit: str, why: str) -> Figure:
    return derive(lambda **values: pick(whole_club(**values)), unit, why, **everything)


def mass(club: Club, everything: dict[str, Figure]) -> Figure:
    """The total mass: weighed, stated, or the sum of the parts."""
    known = banded(gauged(club.as_played.mass) or club.stated.mass, "mass")
    if known is not None:
        return carried(known, "of the whole club", ())
    return _of(everything, lambda made: made.mass, "g", "sum of the parts, the shaft cut to length")


def balance_point(club: Club, everything: dict[str, Figure]) -> Figure:
    """The balance point from the butt: found on the bench, else worked out from the parts."""
    known = banded(said(club.as_played.balance_point), "balance_point")
    if known is not None:
        return carried(known, "of the whole club", ())
    return _of(everything, lambda made: made.balance_point, "in", "from the butt, by the parts")


def butt_inertia(club: Club, everything: dict[str, Figure]) -> Figure:
    """The moment of inertia about the butt: found on the bench, else worked out from the parts."""
    known = banded(said(club.as_played.butt_inertia), "butt_inertia")
    if known is not None:
        return carried(known, "of the whole club", ())
    return _of(everything, lambda made: made.butt_inertia, "kg*cm2", "about the butt, by the parts")


@cache
def _period_shape(step: int) -> float:
    """EI / (f² M L³) of a uniform beam whose mass is `step` tenths of the mass M at its tip."""
    found = beam_frequency(
        beam_length=1.0, tip_mass=0.2, mass_per_length=0.02 * step + 1e-3, stiffness_clamp=50.0, stiffness_tip=50.0
    )
    shape: float = 50.0 / (found.frequency**2 * 0.2)
    return shape


def uniform_frequency(beam_length: float, tip_mass: float, beam_mass: float, stiffness: float) -> float:
    """Frequency (Hz) of a uniform clamped beam with a mass at its tip, SI; the beam solved only a few times in all.

    EI / (f² M L³) depends on the one ratio of the masses and is all but a straight line in it, so it is solved at every
    tenth and read off between: within 0.001 % of the beam itself.

    >>> inch = 0.0254
    >>> round(60 * uniform_frequency(40 * inch, 0.2, 0.06 * 40 / 46, 50.0), 2)
    247.85
    """
    ratio = 10 * (beam_mass / tip_mass - 0.005)
    step = max(0, int(ratio))
    shape = _period_shape(step) + (ratio - step) * (_period_shape(step + 1) - _period_shape(step))
    return math.sqrt(stiffness / (tip_mass * beam_length**3 * shape))


def _flex_family(club: Club) -> str:
    return _FAMILY.get(club.kind, "iron")


def flex_frequency(club: Club) -> Figure:
    """The usual frequency of the reference club in this flex: what its letter means, as far as it does.

    >>> from asplayed.clubs import Shaft
    >>> flex_frequency(Club(club="driver", kind="driver", shaft=Shaft(flex="S"))).value
    258.5
    """
    table = parts()["flex"][_flex_family(club)]
    written = (club.shaft.flex or "").strip().upper().replace("−", "-")
    letter = written.rstrip("+-")
    if letter in table["cpm"]:
        steps = written.count("+") - written.count("-")
        value = table["cpm"][letter] + steps * table["step"] / 3
        words = f"usual frequency of flex {written} in a reference club; no standard defines a flex"
        return Figure(value=value, unit="cpm", source=Source.COMMON_PRACTICE, why=words).within(table["half_width"])
    regular, stiff = table["cpm"]["R"], table["cpm"]["S"]
    words = f"flex {club.shaft.flex} has no usual figure" if club.shaft.flex else "no flex is known"
    return Figure(
        value=(regular + stiff) / 2,
        unit="cpm",
        source=Source.ASSUMED,
        low=table["cpm"]["A"],
        high=table["cpm"]["X"],
        why=f"{words}; taken between R and S",
    )


def frequency(club: Club, everything: dict[str, Figure]) -> Figure | None:
    """The frequency with the butt clamped 5 in: read, stated, or of a uniform beam of the flex's stiffness.

    The stiffness is the one that gives the flex's usual frequency in the reference club. Putters have none.
    """
    table = parts()
    clamp = f"butt clamped {table['clamp']['value']} in"
    known = banded(gauged(club.as_played.frequency) or club.stated.frequency, "frequency")
    if known is not None:
        words = known.why or f"clamp length not given; taken as {clamp}"
        return Figure(known.value, known.unit, known.source, known.low, known.high, words, known.parents)
    if club.kind == "putter":
        return None
    held = _si(table["clamp"])
    reference = table["flex"][_flex_family(club)]
    length, tip = _si(reference["beam_length"]), _si(reference["tip_mass"])
    beam = _si(reference["shaft_mass"]) * length / _si(reference["shaft_length"])
    unit_stiffness = uniform_frequency(length, tip, beam, 1.0)

    def cycles(flex_frequency: float, length: float, head_mass: float, shaft_mass: float, shaft_length: float) -> float:
        free = length - held
        stiffness = (flex_frequency / unit_stiffness) ** 2
        return uniform_frequency(free, head_mass, shaft_mass * free / shaft_length, stiffness)

    used = {name: everything[name] for name in ("length", "head_mass", "shaft_mass", "shaft_length")}
    return derive(
        cycles,
        "cpm",
        f"{clamp}; a uniform beam of the flex's usual stiffness with the head at its tip",
        flex_frequency=flex_frequency(club),
        **used,
    )


def grip_size(club: Club) -> Figure | None:
    """The grip's diameter 2 in below its cap: the usual one of its size plus the layers of tape; not for putters."""
    if given := banded(said(club.as_played.grip_size), "grip_size"):
        return carried(given, "by calipers", ())
    if club.kind == "putter":
        return None
    table = parts()
    word, extra = _oversize(club)
    diameter = common(table["grip_diameter"], f"usual outer diameter of a {word} grip on its own core")
    if extra:
        low, high = diameter.low or 0.0, diameter.high or 0.0
        diameter = Figure(
            diameter.number + extra, "in", diameter.source, low + extra - 0.01, high + extra + 0.01, diameter.why
        )
    wraps = _wraps(club)
    if not wraps:
        return diameter
    return derive(
        lambda diameter, wrap: diameter + wraps * wrap,
        "in",
        f"grip over {wraps:g} extra layers of tape",
        diameter=diameter,
        wrap=common(table["wrap"]["diameter"], "usual growth by a layer of tape"),
    )
