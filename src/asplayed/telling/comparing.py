"""Two sets in words: what changed from one date to the next, or how one player's clubs differ from another's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.quantities import Figure, clash
from asplayed.telling.words import MISSING, clean, listed, part_name, settings, value_text

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


def differences(before: GolfSet, now: GolfSet) -> list[str]:
    """What differs from one set to the other, a sentence each, in the order of the clubs; nothing where nothing does.

    >>> driver = Club(club="driver", kind="driver")
    >>> differences(GolfSet(), GolfSet(clubs=(driver,)))
    ['The driver is new.']
    """
    found: list[str] = []
    for name, old, new in pairs(before, now):
        if old is None:
            found.append(clean(f"The {name} is new."))
        elif new is None:
            found.append(clean(f"The {name} is no longer in the set."))
        else:
            found += [clean(sentence) for sentence in _of_club(name, old, new)]
    one, other = (part_name(each.ball) for each in (before, now))
    if one != other:
        found.append(clean(f"The ball was {one or 'not named'} and is {other or 'not named'}."))
    return found


def _of_club(name: str, old: Club, new: Club) -> Iterator[str]:
    for part, words in _PARTS:
        one, other = words(old), words(new)
        if one != other:
            yield f"The {name}’s {part} was {one or MISSING} and is {other or MISSING}."
    for what, read, less, more in _FIGURES:
        one_figure, other_figure = read(old), read(new)
        printed = value_text(one_figure), value_text(other_figure)
        if printed[0] == printed[1]:
            continue
        sentence = f"The {name}’s {what} was {printed[0]} and is {printed[1]}"
        if one_figure is None or other_figure is None or not (one_figure.has_number and other_figure.has_number):
            yield f"{sentence}."
            continue
        unit = other_figure.unit
        step = other_figure.number - one_figure.in_unit(unit).number
        size = value_text(Figure(value=round(abs(step), 6), unit=unit, source=other_figure.source))
        unsure = "" if clash(one_figure, other_figure) else ", less than the figures are sure of"
        yield f"{sentence}: {size} {more if step > 0 else less}{unsure}."


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
    found = []
    for name, old, new in pairs(before, now):
        rows = [Beside(part, *(words(club) or MISSING if club else MISSING for club in (old, new)))
                for part, words in _PARTS]  # fmt: skip
        rows += [Beside(what, *(value_text(read(club)) if club else MISSING for club in (old, new)))
                 for what, read, _, _ in _FIGURES]  # fmt: skip
        found.append((name, rows))
    return found
