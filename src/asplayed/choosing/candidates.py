"""The clubs a player could have: today's, each with every allowed setting, and the catalogue's heads as his own.

Every candidate says in the words that `try` and `order` read how it comes about, and stands in arrays that the players'
room flies all at once. What a workshop would refuse is not among them: woods are not bent, other heads only within
their limit and with sole left, and no club is made longer than it is or usually is, since what length does to the
strike nobody has published. Steps are those a bench can hold: half a degree, half an inch.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from asplayed.catalogue.matching import Catalogue
from asplayed.catalogue.parts import Part
from asplayed.catalogue.rows import WEDGES, offered, suits, told_last
from asplayed.catalogue.sleeves import chart_of
from asplayed.choosing.prices import Prices
from asplayed.clubs import Club, Head, angles
from asplayed.clubs.records import Kind
from asplayed.clubs.usual import usual
from asplayed.judgement.findings import limit
from asplayed.judgement.heads import bend_limit
from asplayed.players.versions import Hands, Versions
from asplayed.quantities import Figure

What = str  # sleeves, bends, lengths, heads, clubs
EVERYTHING: tuple[What, ...] = ("sleeves", "bends", "lengths", "heads", "clubs")
"""What may be tried: today's clubs at other settings, with other heads, and clubs of the catalogue."""

_WOODEN = ("driver", "fairway wood", "hybrid")
_BEND_STEP = 0.5  # degrees: what the workshop holds
_LENGTH_STEP = 0.5  # inches
_SHORTEST = -1.0  # inches against today: past that the balance asks for another head
_NEXT_STAMP = 2.0  # degrees a new head is bent at most: past that the next stamp is nearer
_LIE_NEARLY = 0.3  # degrees by which the lie of a new head may differ from the old one's unbent
_LIE_STEPS = (-2.0, -1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.0)


class Candidate(NamedTuple):
    """One club the player could have, and how it comes about.

    `label` is today's club it is a version of, None for a club of the catalogue; `place` is what only one version of
    can be carried; `words` are the changes, none for today's club as it is. `price` is None where it is not known.
    """

    label: str | None
    club: str
    kind: Kind
    place: str
    words: tuple[str, ...]
    parts: str
    """What is bought for it: the head in the catalogue's words, nothing for a setting."""
    model: str
    """Maker and model, by which irons are told to be of one set."""
    loft: float
    """As played, in degrees."""
    price: float | None

    @property
    def called(self) -> str:
        """What it is called where several are told apart: today's club, or the new one with its head."""
        return self.label or f"{self.club} ({self.parts})"


class Candidates(NamedTuple):
    """Candidates and, place for place, what of them flies; what was left out and why."""

    entries: tuple[Candidate, ...]
    versions: Versions
    remarks: tuple[str, ...]


class _Row(NamedTuple):
    """A candidate with the figures it flies with: loft and lie change in degrees, length in inches, head in grams."""

    candidate: Candidate
    loft: float
    length: float
    head: float
    lie_change: float


def candidates(
    hands: Hands,
    parts: Sequence[Part] | Catalogue = (),
    *,
    tried: Collection[What] = EVERYTHING,
    prices: Prices | None = None,
    on: str | None = None,
) -> Candidates:
    """Every club this player could have, today's first; a club on offer on the date `on` (else the set's, else today).

    >>> from asplayed.clubs import GolfSet
    >>> from asplayed.players.versions import hands_of
    >>> from asplayed.quantities import figure
    >>> head = Head(loft=figure(56, "deg", "stated"), bend_limit=figure(1, "deg", "published"))
    >>> bag = GolfSet(clubs=(Club(club="sand wedge", kind="wedge", head=head),))
    >>> found = candidates(hands_of(bag, shots=50), tried=("bends",))
    >>> [" ".join(each.words).removeprefix("sand wedge: ") for each in found.entries]
    ['', 'bend 1 strong', 'bend 0.5 strong', 'bend 0.5 weak', 'bend 1 weak']
    """
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    date = on or hands.golf_set.set.date or datetime.date.today().isoformat()
    view = _View(hands, catalogue, tried, prices or Prices(), date, *_heads(catalogue, date, _digs(hands)))
    rows: list[_Row] = []
    for label in (each.label for each in hands.flown.clubs):
        rows += _versions_of_today(view, label)
    remarks: list[str] = []
    if "clubs" in tried:
        rows += _clubs_to_add(view, remarks)
    if hands.golf_set.set.hand == "left" and any(row.candidate.parts for row in rows):
        remarks.append("whether these heads are made left-handed the catalogue does not say: ask before ordering")
    return Candidates(tuple(row.candidate for row in rows), _as_versions(rows), tuple(remarks))


class _View(NamedTuple):
    """What every kind of candidate is made from."""

    hands: Hands
    catalogue: Catalogue
    tried: Collection[What]
    prices: Prices
    date: str
    heads: tuple[Part, ...]
    soles: dict[str, int]


def _as_versions(rows: Sequence[_Row]) -> Versions:
    degree, inch = math.pi / 180.0, 0.0254
    columns = np.array([[row.loft, row.length, row.head, row.lie_change] for row in rows]).reshape(-1, 4).T
    return Versions(
        tuple(row.candidate.label for row in rows),
        tuple(row.candidate.club for row in rows),
        tuple(row.candidate.kind for row in rows),
        columns[0] * degree,
        columns[1] * inch,
        columns[2] / 1000.0,
        columns[3] * degree,
    )


def _heads(catalogue: Catalogue, date: str, digs: float) -> tuple[tuple[Part, ...], dict[str, int]]:
    """The heads on offer, each as its latest document tells it, of several soles the one that suits; and of how many.

    Putters are chosen by eye and stroke, not here. No published figure says what a sole costs in strokes, so that soles
    of one loft fly alike: `digs` (1: soft ground or a steep attack, −1: firm or shallow) decides between them.
    """
    rows = (row for model in catalogue.models if model.part == "head" for row in model.rows)
    kept = told_last(row for row in rows if offered(row, date) and row.number("loft") is not None)[0]
    by_stamp: dict[tuple[object, ...], list[Part]] = {}
    for row in kept:
        if len(row.club) == 1 and row.club[0] != "putter":
            by_stamp.setdefault((row.maker, row.model, row.club, row.number("loft")), []).append(row)
    found = []
    soles = {}
    for group in by_stamp.values():
        ranked = sorted(group, key=lambda row: row.number("bounce") or 0.0)
        chosen = ranked[-1] if digs > 0 else ranked[0] if digs < 0 else ranked[len(ranked) // 2]
        found.append(chosen)
        soles[chosen.named] = len(group)
    return tuple(found), soles


def _digs(hands: Hands) -> float:
    """1 where wedges want bounce (soft ground or a steep attack), −1 where they want little, else 0."""
    ground = hands.flown.place.conditions.ground
    if ground in ("soft", "firm"):
        return 1.0 if ground == "soft" else -1.0
    attacks = [
        each.attack.number
        for each in hands.flown.clubs
        if each.loft is not None and each.loft.in_unit("deg").number > 45
    ]
    usual_ones = limit("wedge_attack")
    steep = float(np.mean(attacks)) if attacks else 0.5 * (usual_ones.low + usual_ones.high)
    return 1.0 if steep < usual_ones.low else -1.0 if steep > usual_ones.high else 0.0


# ------------------------------------------------------------------------------------------- versions of today's clubs


def _versions_of_today(view: _View, label: str) -> Iterator[_Row]:
    hands = view.hands
    place = hands.known.asked.labels.index(label)
    club, played = hands.known.asked.clubs[place], hands.known.asked.played[place]
    loft, lie, length = (
        _in(getattr(played, name), unit) for name, unit in (("loft", "deg"), ("lie", "deg"), ("length", "in"))
    )
    head = hands.known.asked.norms[place].head_mass * 1000
    own = _title(club.head.maker, club.head.model) or (club.head.name or "")

    def row(loft: float, length: float, head: float, lie_change: float, *words: str, parts: Part | None = None) -> _Row:
        model = own if parts is None else _title(parts.maker, parts.model)
        price = view.prices.of(words, () if parts is None else (parts,))
        bought = "" if parts is None else _head_words(parts)
        made = Candidate(label, club.club, club.kind, label, words, bought, model, round(loft, 3), price)
        return _Row(made, loft, length, head, lie_change)

    yield row(loft, length, head, 0.0)
    lengths = _lengths(club, length) if "lengths" in view.tried else [length]
    for change, lie_change, said in _settings(view, club, label, watched=label in hands.lines):
        for built in lengths:
            words = (*said, *([f"{label}: length {_short(built)} in"] if built != length else []))
            if words:
                yield row(loft + change, built, head, lie_change, *words)
    if "heads" not in view.tried:
        return
    for part in view.heads:
        if club.club not in part.club or _is_todays(part, club) or _several_soles(part, view):
            continue
        told = part.number("loft")
        assert told is not None  # of the heads only those with a loft are kept
        swap = f"{label}: head {_title(part.maker, part.model)}{'' if _numbered_iron(club) else f' {told:g}°'}"
        mass = part.number("mass") or _usual(club, "head")
        made = replace(club, head=_head(part), sleeve=None, bend=replace(club.bend, loft=None, lie=None))
        off = (part.number("lie") or lie) - lie
        squared: tuple[str, ...] = ()
        if abs(off) > _LIE_NEARLY and bend_limit(made).high >= abs(off):
            squared, off = (f"{label}: lie {_short(lie)}",), 0.0
        for change, lie_change, said in _settings(view, made, label, watched=False):
            yield row(told + change, length, mass, off + lie_change, swap, *said, *squared, parts=part)


def _settings(
    view: _View, club: Club, label: str, *, watched: bool, most: float = 90.0
) -> Iterator[tuple[float, float, tuple[str, ...]]]:
    """What a club may be set to: the change of loft and of lie against today (deg), and its words; nothing first."""
    yield 0.0, 0.0, ()
    if club.kind in _WOODEN:
        if "sleeves" in view.tried:
            yield from _positions(view, club, label)
        return
    if "bends" not in view.tried:
        return
    most, bent = min(most, bend_limit(club).high), _number(club.bend.loft, "deg")
    lies = _LIE_STEPS if watched else (0.0,)
    lie_so_far = _number(club.bend.lie, "deg")
    for loft in _steps(-most - bent, most - bent, _BEND_STEP):
        if not sole_left(club, loft):
            continue
        for lie in lies:
            if (loft or lie) and abs(lie_so_far + lie) <= most + 1e-9:
                words = [
                    f"{label}: bend {abs(by):g} {(less, more)[by > 0]}"
                    for by, less, more in ((loft, "strong", "weak"), (lie, "flat", "upright"))
                    if by
                ]
                yield loft, lie, tuple(words)


def _positions(view: _View, club: Club, label: str) -> Iterator[tuple[float, float, tuple[str, ...]]]:
    now = club.sleeve
    loft, lie = (0.0, 0.0) if now is None else (_number(now.loft_change, "deg"), _number(now.lie_change, "deg"))
    for row in chart_of(club, view.catalogue):
        by_loft, by_lie = (row.number("loft change"), row.number("lie change"))
        same = by_loft == loft and (by_lie or 0.0) == lie
        if row.variant and by_loft is not None and not same:
            yield by_loft - loft, (by_lie or 0.0) - lie, (f"{label}: sleeve {row.variant}",)


def sole_left(club: Club, bend: float) -> bool:
    """False where a bend strong would leave a wedge less bounce than any sole is made with.

    >>> from asplayed.quantities import figure
    >>> lean = Club(club="lob wedge", kind="wedge", head=Head(bounce=figure(6, "deg", "stated")))
    >>> sole_left(lean, -2), sole_left(lean, -3)
    (True, False)
    """
    bounce = angles.bounce(club)
    if club.kind != "wedge" or bounce is None or bend >= 0:
        return True
    return bounce.in_unit("deg").number + bend >= limit("bounce").low - 1e-9


def _lengths(club: Club, length: float) -> list[float]:
    """Lengths a builder would make of a club: down to an inch shorter, never longer than it is or usually is."""
    longest = max(length, _usual(club, "length"))
    steps = _steps(_SHORTEST, longest - length, _LENGTH_STEP)
    return [round(16 * (length + step)) / 16 if step else length for step in steps]  # a builder reads sixteenths


def _steps(low: float, high: float, step: float) -> list[float]:
    """Whole steps from `low` to `high`, 0 among them.

    >>> _steps(-1.2, 0.6, 0.5)
    [-1.0, -0.5, 0.0, 0.5]
    """
    return [step * n for n in range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1)]


def _numbered_iron(club: Club) -> bool:
    return club.kind == "iron" and club.club not in WEDGES


def _is_todays(part: Part, club: Club) -> bool:
    stamp = club.head.loft
    same = (part.maker, part.model) == (club.head.maker, club.head.model)
    return same and (stamp is None or not stamp.has_number or abs(stamp.number - (part.number("loft") or 0)) < 0.05)


def _several_soles(part: Part, view: _View) -> bool:
    """True where maker, model and loft do not name one head: the sole has to be said, which only a whole club can."""
    return view.soles[part.named] > 1


# ----------------------------------------------------------------------------------------------- clubs of the catalogue


def _clubs_to_add(view: _View, remarks: list[str]) -> Iterator[_Row]:
    """Clubs that today's set has none of, built as the player's others of their kind are: his shaft, his length."""
    today = view.hands.golf_set.clubs
    have = {club.club for club in today}
    many = 0
    for part in view.heads:
        name = part.club[0]
        kind = _kind_of(part, view.catalogue)
        if kind is None or (name in have and not _several_soles(part, view) and kind != "wedge"):
            continue
        like = _nearest(name, kind, today)
        if like is None or any(_is_todays(part, club) and club.club == name for club in today):
            continue
        head = _head(part)
        club = Club(club=name, kind=kind, head=head)
        shaft = _shaft_for(view, club, like)
        if shaft is None:
            many += 1
            continue
        yield from _built(view, club, part, like, shaft)
    if many:
        remarks.append(f"{many} heads were left out: no shaft in the set or the catalogue goes with them")


def _built(view: _View, club: Club, part: Part, like: Club, shaft: _ShaftWords) -> Iterator[_Row]:
    loft, head = part.number("loft"), part.number("mass") or _usual(club, "head")
    assert loft is not None
    off = _length(like) - _usual(like, "length")
    length = round(4 * ((part.number("length") or _usual(club, "length")) + off)) / 4
    tilt = _number(like.bend.lie, "deg") if club.kind in ("iron", "wedge") and like.kind in ("iron", "wedge") else 0.0
    tilt = tilt if abs(tilt) <= bend_limit(club).high else 0.0
    upright = f", {abs(tilt):g} {'up' if tilt > 0 else 'flat'}" if tilt else ""
    # one new club of a number is enough, of wedges one of a stamp
    place = f"new {club.club} {loft:g}°" if club.kind == "wedge" else f"new {club.club}"
    for change, lie, said in _settings(view, club, club.club, watched=False, most=_NEXT_STAMP):
        if any(words.endswith(("++", "--")) for words in said):
            continue  # a list tells such positions from those of one sign only where the sleeve is turned by itself
        setting = "".join(f", {_as_listed(words)}" for words in said)
        words = f"add: {club.club} {_head_words(part)}{setting}{upright}, {shaft.words}, {_short(length)} in"
        price = view.prices.of((words,), (part,) if shaft.part is None else (part, shaft.part))
        made = Candidate(
            None, club.club, club.kind, place, (words,), _head_words(part),
            _title(part.maker, part.model), round(loft + change, 3), price,
        )  # fmt: skip
        yield _Row(made, loft + change, length, head, lie)


def _as_listed(words: str) -> str:
    """A setting as a list writes it: `bent 1 weak` for `sand wedge: bend 1 weak`."""
    said = words.partition(": ")[2]
    return said.replace("bend ", "bent ", 1)


class _ShaftWords(NamedTuple):
    """A shaft in the words of a list, and its row in the catalogue where it is bought by one."""

    words: str
    part: Part | None


def _shaft_for(view: _View, club: Club, like: Club) -> _ShaftWords | None:
    """The shaft a new club is built with: the player's own model where it is offered for it, his flex, his mass."""
    shaft = like.shaft
    rows = [
        row
        for model in view.catalogue.models
        if model.part == "shaft"
        for row in model.rows
        if offered(row, view.date) and suits(row, club) and row.number("mass") is not None
    ]
    if not rows:
        words = " ".join(word for word in (shaft.name, shaft.flex) if word)
        return _ShaftWords(words, None) if words else None
    mass = _number(shaft.mass, "g") or 0.0
    flex = (shaft.flex or "").upper()
    own = [row for row in rows if (row.maker, row.model) == (shaft.maker, shaft.model)]
    of_flex = [row for row in own or rows if row.flex == flex] or own or rows
    best = min(of_flex, key=lambda row: (abs((row.number("mass") or 0.0) - mass), row.named))
    return _ShaftWords(best.named, best)


_NEAR: dict[str, tuple[str, ...]] = {
    "driver": ("driver", "fairway wood"),
    "fairway wood": ("fairway wood", "driver", "hybrid"),
    "hybrid": ("hybrid", "driving iron", "fairway wood"),
    "driving iron": ("driving iron", "hybrid", "iron"),
    "iron": ("iron", "wedge"),
    "wedge": ("wedge", "iron"),
}


_NUMBERED: dict[str, Kind] = {
    "wood": "fairway wood", "hybrid": "hybrid", "driving iron": "driving iron", "iron": "iron",
}  # fmt: skip


def _nearest(name: str, kind: Kind, clubs: Sequence[Club]) -> Club | None:
    """The club of the set that is most like one of this name: of its kind or the next one to it, nearest in loft."""
    for near in _NEAR[kind]:
        found = [club for club in clubs if club.kind == near]
        if found:
            goal = _usual(Club(club=name, kind=kind), "loft")
            return min(found, key=lambda club: abs(_usual(club, "loft") - goal))
    return None


def _kind_of(part: Part, catalogue: Catalogue) -> Kind | None:
    """The kind of club a head makes; nothing for a row that names a whole kind or several clubs: none has that name.

    A pitching or gap wedge of a model that has irons is one of them.
    """
    if len(part.club) != 1:
        return None
    name = part.club[0]
    if name in WEDGES:
        rows = (row for model in catalogue.models if model.part == "head" for row in model.rows)
        mates = {club for row in rows if (row.maker, row.model) == (part.maker, part.model) for club in row.club}
        return "iron" if any(club[0].isdigit() and club.endswith(" iron") for club in mates) else "wedge"
    if name in ("driver", "mini driver"):
        return "driver"
    number, _, word = name.partition(" ")
    return _NUMBERED.get(word) if number.isdigit() else None


# -------------------------------------------------------------------------------------------------------------- figures


def _head(part: Part) -> Head:
    told = part.figures
    return Head(
        name=part.named,
        maker=part.maker,
        model=part.model,
        loft=told.get("loft"),
        lie=told.get("lie"),
        bounce=told.get("bounce"),
        mass=told.get("mass"),
        bend_limit=told.get("bend limit"),
        sole=part.sole,
        construction=part.construction,
    )


def _head_words(part: Part) -> str:
    """A head in the words of a list: maker, model, its loft with its bounce where it has one, its sole."""
    loft, bounce = part.number("loft"), part.number("bounce")
    stamp = (
        f"{loft:g}.{bounce:02.0f}"
        if part.club[0] in WEDGES and bounce is not None and loft == int(loft or 0)
        else f"{loft:g}°"
    )
    sole = f" {part.sole}" if part.sole else ""
    return f"{_title(part.maker, part.model)} {stamp}{sole}"


def _title(maker: str | None, model: str | None) -> str:
    return " ".join(word for word in (maker, model) if word)


def _in(entry: Figure | None, unit: str) -> float:
    assert entry is not None  # a bag's figures as played are always filled
    return entry.in_unit(unit).number


def _number(entry: Figure | None, unit: str) -> float:
    return entry.in_unit(unit).number if entry is not None and entry.has_number else 0.0


def _length(club: Club) -> float:
    return _in(angles.length(club), "in")


def _usual(club: Club, what: str) -> float:
    """The usual loft (deg), length (in) or head (g) of a club's name."""
    return _usual_of(club.club, club.kind, what)


@lru_cache(maxsize=1024)
def _usual_of(name: str, kind: Kind, what: str) -> float:
    found = usual(Club(club=name, kind=kind), what)
    assert found is not None  # every row of the usual figures has loft, length and head
    return found.number


def _short(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
