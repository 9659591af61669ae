"""The best settings of one club for one aim: loft, lie, length, head mass and moved mass together, and what is flat.

Settings are tried at the finest steps a bench sets (a position of the sleeve, a quarter of a degree, a quarter of an
inch, two grams), all of them with all others, so that the best of them is the best there is and no search can miss it.
Of settings that serve the aim alike the one with the fewest changes is taken. What is flat is said: over which range of
each setting, the others held, the aim is missed by no more than anybody would notice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.catalogue.sleeves import chart_of
from asplayed.choosing.candidates import sole_left
from asplayed.choosing.moved_mass import Moved, moved_masses, sideways
from asplayed.clubs import Club
from asplayed.clubs.records import Record
from asplayed.errors import BadInput, nearest
from asplayed.judgement.heads import bend_limit
from asplayed.players.records import Conditions
from asplayed.players.versions import Hands, Patterns, Versions, fly_versions, versions_of
from asplayed.quantities import Figure, Source, figure, read_quantity, unit_named

Numbers = NDArray[np.float64]
Aim = Literal["carry", "total", "descent", "line", "strokes"]

YARD, INCH, DEGREE = 0.9144, 0.0254, math.pi / 180.0
_WOODEN = ("driver", "fairway wood", "hybrid")
_ANGLE_STEP = 0.25  # degrees
_LENGTH_STEP = 0.25  # inches
_LENGTHS = 1.0  # inches either way: an extension takes no more, and a cut of more asks for another head
_HEAD_MASSES = (0.0, 2.0, 4.0, 6.0, 8.0)  # grams at the head: a tip takes no more
_FREE_LOFT = 8.0  # degrees either way that a loft is thought of at all
_LEAST_LOFT = 5.0
_LIES = 2.0  # degrees either way, as far as the head allows
# What nobody would notice of each aim, and its unit.
_UNNOTICED: dict[Aim, tuple[float, str]] = {
    "carry": (1.0, "yd"), "total": (1.0, "yd"), "descent": (0.5, "deg"), "line": (1.0, "yd"),
    "strokes": (0.01, "strokes"),
}  # fmt: skip
_WORDS: dict[str, Aim] = {
    "carry": "carry", "farthest": "carry", "longest": "total", "total": "total", "descent": "descent", "line": "line",
    "straight": "line", "start line": "line", "strokes": "strokes", "dispersion": "strokes",
}  # fmt: skip


class Target(NamedTuple):
    """What a setting is to serve: an aim, and the figure it is to reach (None: as far, or as few, as can be)."""

    aim: Aim
    value: float | None
    words: str


def read_target(text: str) -> Target:
    """A target in words: `longest`, `farthest`, `carry 150 yd`, `descent 45 deg`, `straight`, `strokes`.

    >>> read_target("carry 150yd"), read_target("longest").aim
    (Target(aim='carry', value=150.0, words='a carry of 150 yd'), 'total')
    """
    words = " ".join(text.casefold().split())
    name = next(
        (each for each in sorted(_WORDS, key=len, reverse=True) if words == each or words.startswith(f"{each} ")), None
    )
    if name is None:
        hint = nearest(words.split(" ")[0] if words else "", _WORDS)
        raise BadInput(
            f"{text[:60]!r} is no aim of a setting; give longest, farthest, carry 150yd, descent 45deg, straight or "
            f"strokes{hint}"
        )
    aim, rest = _WORDS[name], words[len(name) :].strip()
    told = {"carry": "the longest carry", "total": "the longest drive or shot", "descent": "the steepest descent",
            "line": "the straightest line", "strokes": "the fewest strokes"}  # fmt: skip
    if not rest:
        return Target(aim, 0.0 if aim == "line" else None, told[aim])
    if aim == "strokes" or name in ("farthest", "longest", "straight"):
        raise BadInput(f"{text[:60]!r}: {name} takes no figure; write it alone")
    quantity = read_quantity(rest)
    unit = _UNNOTICED[aim][1]
    if not quantity.unit or unit_named(quantity.unit).dimension != unit_named(unit).dimension:
        raise BadInput(
            f"{text[:60]!r} has no figure in {unit} or the like; write it as {name} {150 if unit == 'yd' else 45}{unit}"
        )
    value = figure(float(quantity.value), quantity.unit, Source.STATED).in_unit(unit).number
    return Target(aim, value, f"{'a line' if aim == 'line' else f'a {aim}'} of {value:g} {unit}".replace(" deg", "°"))


class Flat(Record, frozen=True, kw_only=True):
    """One setting: where it is best and over which range, the others held, the aim is served as well.

    `best`, `low` and `high` are figures of the club as it would be (loft as played, length as built, …); `matters` is
    False where the whole range tried is alike.
    """

    setting: str
    best: Figure
    low: Figure
    high: Figure
    matters: bool
    sentence: str


class Settings(Record, frozen=True, kw_only=True):
    """The best settings of one club: the changes that make them, what they bring, what is flat, and what was tried."""

    club: str
    target: str
    changes: tuple[str, ...]
    today: Figure
    best: Figure
    gain: Figure
    flat: tuple[Flat, ...]
    alternatives: tuple[tuple[str, ...], ...]
    tried: int
    remarks: tuple[str, ...]


class _Tried(NamedTuple):
    """All settings as arrays, place for place: words, how many changes, the knobs' values, and what flies."""

    words: list[tuple[str, ...]]
    knobs: dict[str, Numbers]
    units: dict[str, str]
    versions: Versions
    moved: list[Moved]


def best_settings(
    hands: Hands,
    label: str,
    target: Target,
    parts: Sequence[Part] | Catalogue = (),
    *,
    conditions: Conditions | None = None,
    strokes: Callable[[Patterns, Versions], Numbers] | None = None,
) -> Settings:
    """The best settings of today's club of this label for a target, and what of them is flat.

    `strokes` tells what a round costs with each version in the club's place; without it that aim is refused. Refused
    too: a club the set has not, and a putter, which no flight speaks of.

    >>> from asplayed.clubs import GolfSet, Head
    >>> from asplayed.players.versions import hands_of
    >>> head = Head(loft=figure(56, "deg", "stated"), construction="forged carbon steel")
    >>> hands = hands_of(GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=head),)), shots=100)
    >>> best_settings(hands, "sand wedge", read_target("farthest")).changes
    ('sand wedge: bend 4 strong', 'sand wedge: length 36.25 in')
    """
    bag = hands.known.asked
    if label not in hands.seats or label is None:
        own = [each.label for each in hands.flown.clubs]
        raise BadInput(
            f"no {label} flies in this set{nearest(label or '', own)}; its clubs are {', '.join(own) or 'none'}"
        )
    club = bag.clubs[bag.labels.index(label)]
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    tried = _tried(hands, label, club, catalogue)
    flown = fly_versions(hands, tried.versions, conditions)
    aside = sideways(hands, tried.versions, tried.moved)
    flown = flown._replace(side=flown.side + aside)
    values = _values(target, flown, tried.versions, strokes)
    worse = _worse(target, values)
    unnoticed, unit = _UNNOTICED[target.aim]
    counts = np.array([len(words) for words in tried.words])
    alike = np.flatnonzero(worse <= worse.min() + 0.5 * unnoticed)
    nearest_first = np.lexsort((_away(tried)[alike], np.round(worse[alike] / unnoticed, 2), counts[alike]))
    best = int(alike[nearest_first[0]])
    flat = [_flat(tried, worse, best, name, unnoticed) for name in tried.knobs]
    if (free := _any_loft(hands, label, target, conditions, strokes)) is not None:
        flat.insert(0, free)
    near = [place for place in np.argsort(worse, kind="stable").tolist() if worse[place] <= worse[best] + unnoticed]
    near.sort(key=lambda place: (counts[place], worse[place]))
    others = tuple(dict.fromkeys(tried.words[place] for place in near if place != best))[:5]
    today = figure(round(float(values[0]), 3), unit, Source.COMPUTED)
    then = figure(round(float(values[best]), 3), unit, Source.COMPUTED)
    gained = float(worse[0] - worse[best])
    gain = figure(
        round(gained, 3), unit, Source.COMPUTED, tolerance=round(0.25 * abs(gained), 3), why="nearer to the aim"
    )
    remarks = [*hands.flown.assumed, *_remarks(tried, best, label, hands)]
    if target.value is not None and worse[best] > unnoticed:
        remarks.insert(0, f"no setting tried reaches {target.words}; this is the nearest")
    return Settings(
        club=label,
        target=target.words,
        changes=tried.words[best],
        today=today,
        best=then,
        gain=gain,
        flat=tuple(flat),
        alternatives=others,
        tried=len(counts),
        remarks=tuple(remarks),
    )


def _values(
    target: Target, flown: Patterns, versions: Versions, strokes: Callable[[Patterns, Versions], Numbers] | None
) -> Numbers:
    if target.aim == "strokes":
        if strokes is None:
            raise BadInput("no shots to serve are known, so strokes cannot be the aim; give a course")
        return strokes(flown, versions)
    made: Numbers = {
        "carry": flown.carry / YARD,
        "total": (flown.carry + flown.run) / YARD,
        "descent": flown.descent / DEGREE,
        "line": flown.side / YARD,
    }[target.aim]
    return made


def _worse(target: Target, values: Numbers) -> Numbers:
    """How far each value misses the target; least is best."""
    if target.value is not None:
        return np.abs(values - target.value)
    return values if target.aim == "strokes" else -values


def _away(tried: _Tried) -> Numbers:
    """How far settings lie from today's in all, to choose between alike ones."""
    return np.sum([np.abs(values - values[0]) for values in tried.knobs.values()], axis=0)  # type: ignore[no-any-return]


# --------------------------------------------------------------------------------------------------- what can be tried


def _tried(hands: Hands, label: str, club: Club, catalogue: Catalogue) -> _Tried:
    """Every setting with every other; today's first."""
    bag = hands.known.asked
    played = bag.played[bag.labels.index(label)]
    assert played.loft is not None and played.lie is not None and played.length is not None  # a bag's are filled
    loft, lie, length = (
        played.loft.in_unit("deg").number,
        played.lie.in_unit("deg").number,
        played.length.in_unit("in").number,
    )
    angles = _angles(club, label, catalogue, lie_known=label in hands.lines)
    lengths = [0.0, *(step for step in _steps(-_LENGTHS, _LENGTHS, _LENGTH_STEP) if step)]
    masses = _HEAD_MASSES if club.kind != "putter" else (0.0,)
    moved = moved_masses(club, label)
    words, rows, moves = [], [], []
    for by_loft, by_lie, said in angles:
        for step in lengths:
            longer = round(16 * (length + step)) / 16 - length if step else 0.0  # a builder reads sixteenths
            for grams in masses:
                for move in moved:
                    built = f"{label}: length {round(length + longer, 4):g} in"
                    added = f"{label}: {grams:g} g at the head"
                    words.append((
                        *said, *([built] if longer else []), *([added] if grams else []),
                        *([move.words] if move.words else []),
                    ))  # fmt: skip
                    rows.append((by_loft, by_lie, longer, grams, move.toeward))
                    moves.append(move)
    table = np.array(rows).T
    mass = bag.norms[bag.labels.index(label)].head_mass + table[3] / 1000
    versions = versions_of(
        hands, [label] * len(rows), loft_change=table[0] * DEGREE, lie_change=table[1] * DEGREE,
        length_change=table[2] * INCH, head_mass=mass,
    )  # fmt: skip
    knobs = {"loft": loft + table[0], "lie": lie + table[1], "length": length + table[2], "head mass": table[3]}
    units = {"loft": "deg", "lie": "deg", "length": "in", "head mass": "g", "moved mass": "g"}
    if len(moved) > 1:
        knobs["moved mass"] = table[4]
    kept = {name: values for name, values in knobs.items() if np.ptp(values) > 0}
    return _Tried(words, kept, units, versions, moves)


def _angles(
    club: Club, label: str, catalogue: Catalogue, *, lie_known: bool
) -> list[tuple[float, float, tuple[str, ...]]]:
    """What loft and lie can be changed to (deg against today), with the words; nothing first."""
    found: list[tuple[float, float, tuple[str, ...]]] = [(0.0, 0.0, ())]
    if club.kind in _WOODEN:
        now = club.sleeve
        loft, lie = (0.0, 0.0) if now is None else (_deg(now.loft_change), _deg(now.lie_change))
        for row in chart_of(club, catalogue):
            by_loft, by_lie = row.number("loft change"), row.number("lie change") or 0.0
            if row.variant and by_loft is not None and (by_loft, by_lie) != (loft, lie):
                found.append((by_loft - loft, by_lie - lie, (f"{label}: sleeve {row.variant}",)))
        return found
    most, bent = bend_limit(club).high, (_deg(club.bend.loft), _deg(club.bend.lie))
    lofts = _steps(-most - bent[0], most - bent[0], _ANGLE_STEP)
    # a lie that nobody watched is taken as fitted: bending it would answer nothing
    far = min(most, _LIES) if lie_known else 0.0
    lies = _steps(max(-far, -most - bent[1]), min(far, most - bent[1]), 2 * _ANGLE_STEP)
    for by_loft in (step for step in lofts if sole_left(club, step)):
        for by_lie in lies:
            if by_loft or by_lie:
                said = [
                    f"{label}: bend {abs(by):g} {(less, more)[by > 0]}"
                    for by, less, more in ((by_loft, "strong", "weak"), (by_lie, "flat", "upright"))
                    if by
                ]
                found.append((by_loft, by_lie, tuple(said)))
    return found


def _steps(low: float, high: float, step: float) -> list[float]:
    return [step * n for n in range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1)]


def _deg(entry: Figure | None) -> float:
    return entry.in_unit("deg").number if entry is not None and entry.has_number else 0.0


# ------------------------------------------------------------------------------------------------------- what is flat


def _flat(tried: _Tried, worse: Numbers, best: int, name: str, unnoticed: float) -> Flat:
    """The range of one setting around its best, the others held as they are there, that nobody would notice."""
    values = tried.knobs[name]
    held = np.ones(len(worse), dtype=bool)
    for other, column in tried.knobs.items():
        if other != name and not (name in ("loft", "lie") and other in ("loft", "lie") and _by_sleeve(tried)):
            held &= np.abs(column - column[best]) < 1e-9
    places = np.flatnonzero(held)
    places = places[np.argsort(values[places], kind="stable")]
    fine = worse[places] <= worse[best] + unnoticed
    middle = int(np.flatnonzero(places == best)[0])
    first = last = middle
    while first > 0 and fine[first - 1]:
        first -= 1
    while last < len(places) - 1 and fine[last + 1]:
        last += 1
    unit = tried.units[name]
    low, high = float(values[places[first]]), float(values[places[last]])
    matters = not bool(fine.all())
    made = [figure(round(each, 3), unit, Source.COMPUTED) for each in (float(values[best]), low, high)]
    return Flat(
        setting=name, best=made[0], low=made[1], high=made[2], matters=matters,
        sentence=_flat_words(name, made, matters),
    )  # fmt: skip


def _any_loft(
    hands: Hands,
    label: str,
    target: Target,
    conditions: Conditions | None,
    strokes: Callable[[Patterns, Versions], Numbers] | None,
) -> Flat | None:
    """The loft that would serve best could it be anything, all else as today, and how flat that optimum is."""
    if target.aim == "line":
        return None
    steps = np.round(np.arange(-_FREE_LOFT, _FREE_LOFT + 0.05, 0.1), 1)
    now = float(versions_of(hands, [label]).loft[0]) / DEGREE
    steps = steps[now + steps >= _LEAST_LOFT]
    versions = versions_of(hands, [label] * len(steps), loft_change=steps * DEGREE)
    lofts = versions.loft / DEGREE
    worse = _worse(target, _values(target, fly_versions(hands, versions, conditions), versions, strokes))
    best = int(np.argmin(worse))
    unnoticed = _UNNOTICED[target.aim][0]
    first = last = best
    while first > 0 and worse[first - 1] <= worse[best] + unnoticed:
        first -= 1
    while last < len(steps) - 1 and worse[last + 1] <= worse[best] + unnoticed:
        last += 1
    made = [figure(round(float(lofts[place]), 1), "deg", Source.COMPUTED) for place in (best, first, last)]
    within = f"{unnoticed:g} {_UNNOTICED[target.aim][1]}".replace(" deg", "°").replace("1 yd", "a yard")
    ends = [_shown("loft", each) for each in made]
    words = (
        f"Could the loft be anything, {ends[0]} would be best; anything from {ends[1]} to {ends[2]} is within {within}."
    )
    if best in (0, len(steps) - 1):
        more = "less and less" if best == 0 else "more and more"
        words = f"As far as it was tried, to {ends[0]}, {more} loft would serve."
    return Flat(setting="any loft", best=made[0], low=made[1], high=made[2], matters=True, sentence=words)


def _by_sleeve(tried: _Tried) -> bool:
    return any("sleeve" in words[0] for words in tried.words if words)


def _flat_words(name: str, made: Sequence[Figure], matters: bool) -> str:
    best, low, high = (_shown(name, each) for each in made)
    if not matters:
        return f"{name.capitalize()} does not matter here: nothing tried, from {low} to {high}, is noticed."
    if low == high:
        return f"{name.capitalize()} {best}, and no step beside it serves as well."
    return f"{name.capitalize()} {best}; anything from {low} to {high} serves as well."


def _shown(name: str, entry: Figure) -> str:
    if entry.unit == "deg":
        return f"{entry.number:.2f}".rstrip("0").rstrip(".") + "°"
    if name == "moved mass":
        return "none" if not entry.number else f"{abs(entry.number):g} g to the {'toe' if entry.number > 0 else 'heel'}"
    return f"{entry.number:.2f}".rstrip("0").rstrip(".") + f" {entry.unit}"


def _remarks(tried: _Tried, best: int, label: str, hands: Hands) -> list[str]:
    found = []
    said = " ".join(tried.words[best])
    if label not in hands.lines:
        found.append("the lie is taken as fitted, since nobody watched the start line; import shots with path and face")
    if "length" in said:
        found.append("what length does to the strike nobody has published: hit it before it is cut")
    if " g " in said or "length" in said:
        found.append("length and head mass move the swing weight; order the balance with them, such as D2")
    if tried.moved[best].words:
        found.append("what moved mass does is reckoned on a published reference head, not on this one: hit it")
    return found
