"""A season's winners beside everybody else: what they had in common, and whether luck alone would give as much."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from asplayed.errors import BadInput
from asplayed.quantities import Figure, Source
from asplayed.telling.bags import ABOUT, WINNER, Bag, Spread, Trait, chance, newest, sizes, spread, traits
from asplayed.telling.phrases import Sentence, Spelling, Words
from asplayed.telling.report import Report, Section, Table, count
from asplayed.telling.words import MISSING, clean, listed, value_text

_HALF = 0.5  # of the winners have what is told of them in words
_AHEAD = 0.15  # and at least so much more often than the others
_SPOKEN = 3  # sentences a section
_ROWS = 14  # of a table
_LEFT_OUT = "What everybody had is left out"
_IN_BRACKETS = "The middle one; in brackets the lowest and the highest, and how many are known"
_SURE = 0.05  # a chance below this, counted over everything looked at, is not put down to luck
_FEWEST = 3  # lofts or lengths on either side before their middles are compared
_MEASURES = (("loft", "deg", 0.5), ("length", "in", 0.25))  # and the least difference that is told


class Shared(NamedTuple):
    """A trait: how many of the winners had it, how many of the others, and how likely that is by lot; `first` where no
    trait before it was had by the very same players, which would tell the same thing twice."""

    trait: Trait
    won: int
    lost: int
    chance: float
    first: bool = True


class Sized(NamedTuple):
    """The lofts or lengths of one club, the winners' and the others'."""

    club: str
    field: str
    unit: str
    winners: Spread
    others: Spread


class Season(NamedTuple):
    """A season counted: the winners' bags, the others', what was found in them, and what was laid side by side."""

    year: str
    winners: tuple[Bag, ...]
    others: tuple[Bag, ...]
    shared: tuple[Shared, ...]
    sized: tuple[Sized, ...]
    looked_at: int
    """How many different things were counted, those that no winner had among them."""

    @property
    def hard_to_draw(self) -> tuple[Shared, ...]:
        """What luck would hardly give, in view of how many things were counted (Bonferroni's correction)."""
        return tuple(each for each in self.shared if each.first and each.chance * self.looked_at < _SURE)


def counted_season(bags: Sequence[Bag], year: str) -> Season:
    """Winners and others of a season, each player once, with everything they share, most telling first.

    A winner counts with the newest of the bags that won. Raises BadInput where fewer than two winners are known.
    """
    winners = newest(bag for bag in bags if bag.place == WINNER)
    names = {bag.player.casefold() for bag in winners if bag.player}
    others = newest(bag for bag in bags if bag.place != WINNER and bag.player.casefold() not in names)
    if len(winners) < 2:
        known = "only one winner’s set" if winners else "no winner’s set"
        raise BadInput(
            f"{known} of {year} is stored, and what winners share takes two; asplayed keep result SET 1 says who won"
        )
    had: dict[Trait, set[int]] = {}
    everybody = (*winners, *others)
    for place, bag in enumerate(everybody):
        for trait in traits(bag):
            had.setdefault(trait, set()).add(place)
    shared, seen = [], set()
    for trait, players in had.items():
        won = sum(place < len(winners) for place in players)
        key = frozenset(players)
        if others and len(players) == len(everybody):
            continue  # what everybody has tells nobody apart
        if not won:
            seen.add(key)
            continue
        by_lot = chance(won, len(winners), len(players), len(everybody))
        shared.append(Shared(trait, won, len(players) - won, by_lot, key not in seen))
        seen.add(key)
    share = max(len(others), 1)
    shared.sort(key=lambda each: (each.lost / share - each.won / len(winners), -each.won, each.trait))
    return Season(year, tuple(winners), tuple(others), tuple(shared), tuple(_sized(winners, others)), len(seen))


def _sized(winners: Sequence[Bag], others: Sequence[Bag]) -> Iterator[Sized]:
    for club in dict.fromkeys(each.club for bag in winners for each in bag.clubs):
        for field, unit, _ in _MEASURES:
            here, there = sizes(winners, club, field), sizes(others, club, field)
            if min(len(here), len(there)) >= _FEWEST:
                yield Sized(club, field, unit, spread(here), spread(there))


def round_up(season: Season, spelling: Spelling = "british") -> Report:
    """What a season's winners have in common, as sentences and tables."""
    words = Words(spelling)
    sides = (f"the {len(season.winners)} winners of {season.year}", f"the {len(season.others)} others of {season.year}")
    slots = {
        "winners": count("winners", len(season.winners), f"the players of {season.year}"),
        "others": count("others", len(season.others), f"the players of {season.year}"),
    }
    topic = "season-opening" if season.others else "season-opening-alone"
    opening = words.say(topic, year=season.year, **slots)
    sections = [Section("The winners", (), (_winners(season),))]
    for about in ABOUT:
        here = [each for each in season.shared if each.trait.about == about]
        told = tuple(_told(words, each, season, slots, sides) for each in _telling(here, season)[:_SPOKEN])
        rows = tuple(_row(each, season) for each in here if each.won > 1)[:_ROWS]
        if rows:
            sections.append(
                Section(
                    about[:1].upper() + about[1:],
                    told,
                    (Table(_LEFT_OUT, _columns(season), rows),),
                )
            )
    if season.sized:
        sections.append(_lofts_and_lengths(words, season))
    return Report(
        f"What the winners of {season.year} have in common",
        f"{len(season.winners)} winners, {len(season.others)} others, each player once",
        opening, tuple(sections), tuple(_trust(words, season, slots)),
    )  # fmt: skip


def _telling(shared: Sequence[Shared], season: Season) -> list[Shared]:
    """What is worth saying: most winners have it, and clearly fewer of the others."""
    winners, others = len(season.winners), max(len(season.others), 1)
    return [
        each
        for each in shared
        if each.first
        and each.won >= 2
        and each.won / winners >= _HALF
        and each.won / winners - each.lost / others >= _AHEAD
    ]


def _told(
    words: Words,
    each: Shared,
    season: Season,
    slots: dict[str, tuple[str, Figure]],
    sides: tuple[str, str],
) -> Sentence:
    all_of_them = each.won == len(season.winners)
    kind = "season-all" if all_of_them else "season-most"
    kind += "" if season.others and each.lost else "-alone" if not season.others else "-only"
    return words.say(
        kind,
        did=each.trait.did,
        won=count(f"winners who {each.trait.did}", each.won, sides[0]),
        lost=count(f"others who {each.trait.did}", each.lost, sides[1]),
        **slots,
    )


def _columns(season: Season) -> tuple[str, ...]:
    return ("what they did", "winners", "others", "by luck") if season.others else ("what they did", "winners")


def _row(each: Shared, season: Season) -> tuple[str, ...]:
    row = (each.trait.did, f"{each.won} of {len(season.winners)}")
    if not season.others:
        return row
    return (*row, f"{each.lost} of {len(season.others)}", odds(each.chance))


def odds(chance_of: float) -> str:
    """How often luck alone would give as much.

    >>> odds(0.012), odds(0.31), odds(0.8), odds(0.000001)
    ('1 in 83', '1 in 3', 'easily', 'under 1 in 10,000')
    """
    if chance_of > 0.5:
        return "easily"
    return "under 1 in 10,000" if chance_of < 1e-4 else f"1 in {round(1 / chance_of):,}"


def _winners(season: Season) -> Table:
    rows = ((bag.player or bag.name, bag.event or MISSING, bag.date or MISSING) for bag in season.winners)
    return Table(
        "Each with the newest set that won",
        ("player", "event", "date"),
        tuple(tuple(map(clean, row)) for row in rows),
    )


def _size(number: float, unit: str) -> Figure:
    return Figure(value=number, unit=unit, source=Source.COMPUTED, why="the middle one of the lists stored")


def _lofts_and_lengths(words: Words, season: Season) -> Section:
    least = {field: step for field, _, step in _MEASURES}
    apart = [
        each
        for each in season.sized
        if abs(each.winners.middle - each.others.middle) >= least[each.field]
        and not each.others.lower <= each.winners.middle <= each.others.upper
    ]
    apart.sort(key=lambda each: -abs(each.winners.middle - each.others.middle) / least[each.field])
    told = tuple(
        words.say(
            f"season-{each.field}",
            club=each.club,
            won=(f"the winners’ middle {each.field}, {each.club}", _size(each.winners.middle, each.unit)),
            lost=(f"the others’ middle {each.field}, {each.club}", _size(each.others.middle, each.unit)),
        )
        for each in apart[:_SPOKEN]
    )
    rows = tuple(
        (each.club, each.field, _spread(each.winners, each.unit), _spread(each.others, each.unit))
        for each in season.sized
    )
    table = Table(_IN_BRACKETS, ("club", "", "winners", "others"), rows)
    return Section("Lofts and lengths", told or (words.say("season-alike"),), (table,))


def _spread(found: Spread, unit: str) -> str:
    middle, low, high = (value_text(_size(each, unit)) for each in (found.middle, found.low, found.high))
    return f"{middle} ({found.number})" if low == high else f"{middle} ({low} to {high}; {found.number})"


def _trust(words: Words, season: Season, slots: dict[str, tuple[str, Figure]]) -> Iterator[Sentence]:
    """How far to trust it."""
    if season.others:
        hard = season.hard_to_draw
        counted = count("things counted", season.looked_at, f"the sets of {season.year}")
        if hard:
            yield words.say("season-sure", did=listed([each.trait.did for each in hard[:_SPOKEN]]), number=counted)
        else:
            yield words.say("season-luck", number=counted, winners=slots["winners"])
    yield words.say("season-cause")
    yield words.say("season-lists")
