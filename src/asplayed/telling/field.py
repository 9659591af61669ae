"""A player beside a field of others: what is rare in this bag, what it lacks, and where its figures stand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.errors import BadInput
from asplayed.quantities import Figure, Source
from asplayed.telling.bags import Bag, Spread, newest, sizes, spread, with_article
from asplayed.telling.phrases import Sentence, Spelling, Words
from asplayed.telling.report import Report, Section, Table, count
from asplayed.telling.words import MISSING, clean, part_name, title, value_text

_RARE, _USUAL = 0.2, 0.6  # of the field: a club that few carry, and one that most do
_FEWEST = 5  # others, before a figure is said to stand above or below most of them
_SPOKEN = 4  # sentences of a kind
_MEASURES = (("loft", "deg"), ("length", "in"))


class Stands(NamedTuple):
    """One figure of one club beside the field's: the club, its own figure, the field's numbers and their spread."""

    club: str
    field: str
    own: Figure
    numbers: tuple[float, ...]
    spread: Spread

    @property
    def value(self) -> float:
        """The club's own figure in the field's unit."""
        return self.own.in_unit(dict(_MEASURES)[self.field]).number

    @property
    def outside(self) -> bool:
        """True where it stands outside the field's middle half, and the field is large enough to say so."""
        return self.spread.number >= _FEWEST and not self.spread.lower <= self.value <= self.spread.upper

    @property
    def unsure(self) -> bool:
        """True where its band reaches the field's middle."""
        own = self.own.in_unit(dict(_MEASURES)[self.field])
        return (
            (own.low if own.low is not None else self.value)
            <= self.spread.middle
            <= (own.high if own.high is not None else self.value)
        )


class Field(NamedTuple):
    """A set and the bags of the others it stands among."""

    golf_set: GolfSet
    others: tuple[Bag, ...]
    name: str
    stands: tuple[Stands, ...]

    def carrying(self, club: str) -> int:
        """How many of the others carry a club of this name."""
        return sum(any(each.club == club for each in bag.clubs) for bag in self.others)

    def sharing(self, club: Club) -> int:
        """How many of the others have the same head on a club of the same kind."""
        head = part_name(club.head).casefold()
        return sum(any(each.kind == club.kind and each.head.casefold() == head for each in bag.clubs)
                   for bag in self.others)  # fmt: skip


def among(golf_set: GolfSet, bags: Sequence[Bag], name: str) -> Field:
    """A set among others' bags, each player once with the newest; the set's own player is none of the field.

    `name` is what the field is called, such as 2026. Raises BadInput where nobody else is there.
    """
    own = (golf_set.set.player or "").casefold()
    others = newest(bag for bag in bags if not own or bag.player.casefold() != own)
    if not others:
        raise BadInput(f"no set of another player is stored for {name}; asplayed take LIST stores one")
    stands = []
    for label, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True):
        for field, _ in _MEASURES:
            figure = getattr(club.as_played, field)
            numbers = sizes(others, club.club, field)
            if figure is not None and figure.has_number and numbers and figure.source.rank <= Source.COMPUTED.rank:
                stands.append(Stands(label, field, figure, tuple(numbers), spread(numbers)))
    return Field(golf_set, tuple(others), name, tuple(stands))


def beside_field(field: Field, spelling: Spelling = "british") -> Report:
    """A set beside its field, as sentences and a table."""
    words = Words(spelling)
    number = len(field.others)
    others = count("others in the field", number, f"the players of {field.name}, each with the newest set stored")
    small = "-small" if number < _FEWEST else ""
    opening = words.say(f"field-opening{small}", field=field.name, others=others)
    sections = (
        Section("Clubs carried", tuple(_carried(words, field, others))),
        Section("Lofts and lengths", tuple(_standing(words, field))),
        Section("Heads and ball", tuple(_parts(words, field, others)), (_table(field),)),
    )
    return Report(
        f"{clean(title(field.golf_set))} beside the field",
        f"{number} other player{'' if number == 1 else 's'}, {field.name}, each with the newest set stored",
        opening,
        tuple(section for section in sections if section.sentences or section.tables),
        (words.say("field-lists"),),
    )


def _of(field: Field, number: int, what: str) -> tuple[str, Figure]:
    return count(what, number, f"the {len(field.others)} others of {field.name}")


def _carried(words: Words, field: Field, others: tuple[str, Figure]) -> Iterator[Sentence]:
    own = dict.fromkeys(club.club for club in field.golf_set.clubs)
    many = len(field.others)
    rare = sorted((field.carrying(club), place, club) for place, club in enumerate(own))
    for number, _, club in rare[:_SPOKEN]:
        if number / many <= _RARE:
            what = _of(field, number, f"others with {with_article(club)}")
            topic = "field-rare" if number else "field-rare-none"
            yield words.say(topic, a_club=with_article(clean(club)), number=what, others=others)
    theirs = dict.fromkeys(each.club for bag in field.others for each in bag.clubs if each.club not in own)
    lacking = sorted((-field.carrying(club), club) for club in theirs)
    for less, club in lacking[:_SPOKEN]:
        if -less / many >= _USUAL and many >= _FEWEST:
            what = _of(field, -less, f"others with {with_article(club)}")
            yield words.say("field-lacks", a_club=with_article(clean(club)), number=what, others=others)


def _standing(words: Words, field: Field) -> Iterator[Sentence]:
    for measure, unit in _MEASURES:
        outside = [each for each in field.stands if each.field == measure and each.outside]
        outside.sort(key=lambda each: -abs(each.value - each.spread.middle))
        for each in outside[:_SPOKEN]:
            less = each.value < each.spread.middle
            beyond = sum(number > each.value if less else number < each.value for number in each.numbers)
            all_of_them = "-all" if beyond == each.spread.number and not each.unsure else ""
            middle = Figure(value=each.spread.middle, unit=unit, source=Source.COMPUTED,
                            why=f"the middle one of {each.spread.number} lists stored")  # fmt: skip
            yield words.say(
                f"field-{measure}-{'less' if less else 'more'}{'-unsure' if each.unsure else all_of_them}",
                club=each.club,
                own=(measure, each.own),
                number=_of(field, beyond, f"others with {'more' if less else 'less'} {measure}, {each.club}"),
                others=_of(field, each.spread.number, f"others whose {each.club} {measure} is known"),
                middle=(f"the field’s middle {measure}, {each.club}", middle),
            )
    if not any(each.outside for each in field.stands) and len(field.others) >= _FEWEST and field.stands:
        yield words.say("field-alike")


def _parts(words: Words, field: Field, others: tuple[str, Figure]) -> Iterator[Sentence]:
    told: set[str] = set()
    for club in field.golf_set.clubs:
        if club.kind in told or not part_name(club.head) or club.kind not in ("driver", "iron", "wedge", "putter"):
            continue
        told.add(club.kind)
        number = field.sharing(club)
        topic = f"field-head{'-none' if not number else '-all' if number == len(field.others) else ''}"
        yield words.say(topic, club=club.club, head=part_name(club.head), others=others,
                        number=_of(field, number, f"others with the same {club.kind} head"))  # fmt: skip
    ball = part_name(field.golf_set.ball)
    if ball:
        number = sum(bag.ball.casefold() in (ball.casefold(), _model(field.golf_set)) for bag in field.others)
        topic = f"field-ball{'' if number else '-none'}"
        yield words.say(topic, ball=ball, number=_of(field, number, "others with the same ball"), others=others)


def _model(golf_set: GolfSet) -> str:
    return (golf_set.ball.model or "").casefold() if golf_set.ball else ""


def _table(field: Field) -> Table:
    rows = []
    by_club = {(each.club, each.field): each for each in field.stands}
    for label, club in zip(labels(field.golf_set.clubs), field.golf_set.clubs, strict=True):
        cells = [clean(label)]
        for measure, unit in _MEASURES:
            found = by_club.get((label, measure))
            cells.append(value_text(getattr(club.as_played, measure)))
            cells.append(_half(found.spread, unit) if found else MISSING)
        head = part_name(club.head)
        cells += [str(field.carrying(club.club)), str(field.sharing(club)) if head else MISSING]
        rows.append(tuple(cells))
    columns = ("club", "loft", "the field", "length", "the field", "others who carry one", "with the same head")
    return Table("Of the field: the middle one, and the half about it", columns, tuple(rows))


def _half(found: Spread, unit: str) -> str:
    middle, low, high = (
        value_text(Figure(value=each, unit=unit, source=Source.COMPUTED))
        for each in (found.middle, found.lower, found.upper)
    )
    return middle if low == high else f"{middle} ({low} to {high})"
