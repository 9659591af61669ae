"""A club's name where it stands alone, in anybody's short writing, and which club of a set it means."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources

from asplayed.clubs.records import Club

_LOFT = re.compile(r"(\d{2}(?:[.,]\d{1,2})?)\s*(?:°|deg|degrees?)?\s*(?:wedge|w)?")
_NUMBERED = re.compile(r"(?:(\d{1,2})\s*([a-z ]+)|([a-z ]+?)\s*(\d{1,2}))")
_LOWEST_WEDGE = 40.0  # a bare number from here on is a loft


@cache
def _words() -> tuple[Mapping[str, str], Mapping[str, str]]:
    text = resources.files("asplayed.clubs").joinpath("data/club_names.toml").read_text(encoding="utf-8")
    table = tomllib.loads(text)
    numbered, named = (
        {spelling: name for name, spellings in table[part].items() for spelling in spellings}
        for part in ("numbered", "named")
    )
    return numbered, named


@cache
def club_name(text: str) -> str | None:
    """The trade's name of a club written short, or None; a wedge given by its loft alone is `"56 deg"`.

    >>> club_name("7i"), club_name("Iron-7"), club_name("3W"), club_name("PW"), club_name("56°"), club_name("tee")
    ('7 iron', '7 iron', '3 wood', 'pitching wedge', '56 deg', None)
    """
    bare = " ".join(re.sub(r"[-_./]+(?!\d)|[-_/]+", " ", text.casefold()).split())
    numbered, named = _words()
    if bare in named:
        return named[bare]
    loft = _LOFT.fullmatch(bare)
    if loft and float(loft[1].replace(",", ".")) >= _LOWEST_WEDGE:
        return f"{float(loft[1].replace(',', '.')):g} deg"
    found = _NUMBERED.fullmatch(bare)
    if found is None:
        return None
    number, word = found[1] or found[4], (found[2] or found[3]).strip()
    return f"{int(number)} {numbered[word]}" if word in numbered else None


def labels(clubs: Sequence[Club]) -> tuple[str, ...]:
    """A name for every club that no other club of the set has: the trade's, with loft or place where two share it.

    >>> labels([Club(club="7 iron", kind="iron"), Club(club="sand wedge", kind="wedge"),
    ...         Club(club="sand wedge", kind="wedge")])
    ('7 iron', 'sand wedge', 'sand wedge (2)')
    """
    names = [club.club for club in clubs]
    made = []
    for place, club in enumerate(clubs):
        label = club.club
        if names.count(label) > 1 and (loft := _loft(club)) is not None:
            label = f"{label} {loft:g}°"
        if label in made:
            label = f"{label} ({1 + names[:place].count(club.club)})"
        made.append(label)
    return tuple(made)


def _loft(club: Club) -> float | None:
    stamp = club.head.loft
    return stamp.number if stamp is not None and stamp.has_number else None


def club_meant(text: str, clubs: Sequence[Club]) -> tuple[int, ...]:
    """The places in the set of the clubs that a short name can mean: none, one, or several that share it.

    >>> bag = [Club(club="2 driving iron", kind="driving iron"), Club(club="7 iron", kind="iron")]
    >>> club_meant("7i", bag), club_meant("2 iron", bag), club_meant("5i", bag)
    ((1,), (0,), ())
    """
    wanted = text.casefold().strip()
    exact = tuple(place for place, label in enumerate(labels(clubs)) if label.casefold() == wanted)
    if exact:
        return exact
    name = club_name(text)
    if name is None:
        return ()
    if name.endswith(" deg"):
        loft = float(name.removesuffix(" deg"))
        wedges = [place for place, club in enumerate(clubs) if club.kind in ("wedge", "iron")]
        return tuple(place for place in wedges if _loft(clubs[place]) == loft)
    for candidate in (name, name.replace(" iron", " driving iron") if name.endswith(" iron") else ""):
        found = tuple(place for place, club in enumerate(clubs) if club.club == candidate)
        if found:
            return found
    return ()
