"""Two sets in words: what changed from one date to the next, or how one player's clubs differ from another's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.quantities import Figure, Source, clash
from asplayed.telling.aloud import cardinal
from asplayed.telling.phrases import Sentence, Spelling, Spoken, Words, plain_sentence
from asplayed.telling.report import Report, Section, Table
from asplayed.telling.words import MISSING, clean, counted, listed, number_text, part_name, settings, title, value_text

_SPOKEN = 8  # differences told in a talk

# What is compared: the figure, its trade name, and the words for less and for more of it.
_FIGURES: tuple[tuple[str, Callable[[Club], Figure | None], str, str], ...] = (
    ("loft", lambda club: club.as_played.loft, "stronger", "weaker"),
    ("lie", lambda club: club.as_played.lie, "flatter", "more upright"),
    ("bounce", lambda club: club.as_played.bounce, "less", "more"),
    ("length", lambda club: club.as_played.length, "shorter", "longer"),
    ("shaft mass", lambda club: club.shaft.mass, "lighter", "heavier"),
    ("mass", lambda club: club.as_played.mass, "lighter", "heavier"),
)
_PARTS: tuple[tuple[str, Callable[[Club], str]], ...] = (
    ("head", lambda club: part_name(club.head)),
    ("shaft", lambda club: " ".join(part for part in (part_name(club.shaft), club.shaft.flex or "") if part)),
    ("grip", lambda club: part_name(club.grip) if club.grip else ""),
    ("setting", lambda club: listed(settings(club))),
)


def pairs(before: GolfSet, now: GolfSet) -> list[tuple[str, Club | None, Club | None]]:
    """Every club by its name in either set, with its record before and now; None where a set lacks it.

    Clubs are paired by their full names, then what is left by the trade's names alone, in order.
    """
    old = dict(zip(labels(before.clubs), before.clubs, strict=True))
    new = dict(zip(labels(now.clubs), now.clubs, strict=True))
    found: list[tuple[str, Club | None, Club | None]] = []
    left = {name: club for name, club in old.items() if name not in new}
    for name, club in new.items():
        same = old.get(name)
        if same is None:
            near = next((other for other, candidate in left.items() if candidate.club == club.club), None)
            same = left.pop(near) if near is not None else None
        found.append((name, same, club))
    return [*found, *((name, club, None) for name, club in left.items())]


class Compared(NamedTuple):
    """Two sets compared: what the comparison is headed, its sentences (none where nothing differs), and what each of
    the two is called."""

    heading: str
    sentences: tuple[str, ...]
    names: tuple[str, str] = ("before", "now")


class _Wording(NamedTuple):
    """How differences are put: of one player's set over time, or of two players' sets."""

    changed: str
    gained: str
    lost: str


_OVER_TIME = _Wording("was {one} and is {other}", "The {name} is new.", "The {name} is no longer in the set.")
_OF_TWO = _Wording("is {other}, against {one}", "Only this set has a {name}.", "Only the other set has a {name}.")


def compared(before: GolfSet, now: GolfSet, *, two: bool = False) -> Compared:
    """The differences with their heading: since last time, or beside another's set, which `two` says it is."""
    two = two or not _same_player(before, now)
    if not two:
        names = [f"{word}, {clean(each.set.date)}" if each.set.date else word
                 for word, each in (("before", before), ("now", now))]  # fmt: skip
        return Compared("Changed since last time", tuple(differences(before, now)), (names[0], names[1]))
    names = [clean(each.set.player or title(each)) for each in (before, now)]
    if names[0] == names[1]:
        names = [f"{name}, {word}" for name, word in zip(names, ("the other set", "this set"), strict=True)]
    heading = clean(f"Beside {title(before).replace('The set of', 'the set of', 1)}")
    return Compared(heading, tuple(differences(before, now, two=True)), (names[0], names[1]))


def comparison(before: GolfSet, now: GolfSet, told: Compared, spelling: Spelling = "british") -> Report:
    """Two compared sets as a report: the differences in words, and a table of all that differs."""
    rows = tuple(row for pair in pairs(before, now) for row in _rows(*pair))
    sentences = spoken_changes(told, Words(spelling))
    opening = plain_sentence("line", f"{told.heading}: {counted(len(told.sentences), 'difference')}.", spelling)
    table = Table("What differs; a dash is not known", ("club", "what", *told.names), rows)
    parts = (Section("In words", sentences), Section("Club by club", (), (table,) if rows else ()))
    return Report(clean(title(now)), f"{told.names[0]} and {told.names[1]}", opening,
                  tuple(part for part in parts if part.sentences or part.tables), ())  # fmt: skip


def spoken_changes(told: Compared, words: Words) -> tuple[Sentence, ...]:
    """The first differences, and how many more there are; that nothing differs, where nothing does."""
    if not told.sentences:
        return (words.say("changes-none"),)
    found = [plain_sentence("changes", text, words.spelling) for text in told.sentences[:_SPOKEN]]
    rest = len(told.sentences) - len(found)
    return (*found, words.say("changes-more", count=Spoken(str(rest), cardinal(rest)))) if rest > 1 else tuple(found)


def _rows(name: str, old: Club | None, new: Club | None) -> Iterator[tuple[str, str, str, str]]:
    """What differs of one club, a row each; a club that one of them lacks is one row."""
    if old is not None and new is not None:
        yield from ((name, row.what, row.before, row.now) for row in _of_both(old, new) if not row.same)
        return
    cells = [
        ", ".join([part_name(each.head) or "head not named", value_text(each.as_played.loft)]) if each
        else "not in the set"
        for each in (old, new)
    ]  # fmt: skip
    yield name, "the club", cells[0], cells[1]


def _same_player(before: GolfSet, now: GolfSet) -> bool:
    one, other = before.set.player, now.set.player
    return one is None or other is None or one.casefold() == other.casefold()


def differences(before: GolfSet, now: GolfSet, *, two: bool = False) -> list[str]:
    """What differs from one set to the other, a sentence each, in the order of the clubs; nothing where nothing does.

    It is told as a change over time, or as of two players' sets where their names differ or `two` says so.

    >>> driver = Club(club="driver", kind="driver")
    >>> differences(GolfSet(), GolfSet(clubs=(driver,)))
    ['The driver is new.']
    """
    wording = _OF_TWO if two or not _same_player(before, now) else _OVER_TIME
    found: list[str] = []
    for name, old, new in pairs(before, now):
        if old is None:
            found.append(clean(wording.gained.format(name=name)))
        elif new is None:
            found.append(clean(wording.lost.format(name=name)))
        else:
            found += [clean(sentence) for sentence in _of_club(name, old, new, wording.changed)]
    one, other = (part_name(each.ball) for each in (before, now))
    if one != other:
        words = wording.changed.format(one=one or "not named", other=other or "not named")
        found.append(clean(f"The ball {words}."))
    return found


def _of_club(name: str, old: Club, new: Club, wording: str) -> Iterator[str]:
    for part, words in _PARTS:
        one, other = words(old), words(new)
        if one != other:
            yield f"The {name}’s {part} {wording.format(one=one or MISSING, other=other or MISSING)}."
    for what, read, less, more in _FIGURES:
        one_figure, other_figure = read(old), read(new)
        printed = value_text(one_figure), value_text(other_figure)
        if printed[0] == printed[1]:
            continue
        sentence = f"The {name}’s {what} {wording.format(one=printed[0], other=printed[1])}"
        if one_figure is None or other_figure is None or not (one_figure.has_number and other_figure.has_number):
            yield f"{sentence}."
            continue
        unit = other_figure.unit
        step = _as_printed(other_figure) - _as_printed(one_figure.in_unit(unit))
        size = value_text(Figure(value=round(abs(step), 6), unit=unit, source=other_figure.source))
        unsure = "" if clash(one_figure, other_figure) else ", less than the figures are sure of"
        yield f"{sentence}: {size} {more if step > 0 else less}{unsure}."


def _as_printed(found: Figure) -> float:
    """A figure to the place it is printed to, so that a printed step is that of the printed figures."""
    if found.unit == "in":
        return round(found.number * 16) / 16
    text = number_text(found.number, found.unit, computed=found.source is Source.COMPUTED)
    return float(text.replace("−", "-"))


class Beside(NamedTuple):
    """One figure or part of a club in both sets, as printed."""

    what: str
    before: str
    now: str

    @property
    def same(self) -> bool:
        """True where both read alike."""
        return self.before == self.now


def beside(before: GolfSet, now: GolfSet) -> list[tuple[str, list[Beside]]]:
    """Every club of either set with its parts and figures in both; a dash for what is missing.

    >>> beside(GolfSet(), GolfSet(clubs=(Club(club="driver", kind="driver"),)))[0][1][0]
    Beside(what='head', before='—', now='—')
    """
    return [(name, _of_both(old, new)) for name, old, new in pairs(before, now)]


def _of_both(old: Club | None, new: Club | None) -> list[Beside]:
    rows = [Beside(part, *(words(club) or MISSING if club else MISSING for club in (old, new)))
            for part, words in _PARTS]  # fmt: skip
    return [*rows, *(Beside(what, *(value_text(read(club)) if club else MISSING for club in (old, new)))
                     for what, read, _, _ in _FIGURES)]  # fmt: skip
