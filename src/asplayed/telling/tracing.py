"""Which club and which figure somebody means, and the chain of figures behind it."""

from __future__ import annotations

from typing import Any

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import club_meant, labels
from asplayed.errors import BadInput, nearest
from asplayed.quantities import Figure, plain
from asplayed.telling.workings import record_figures


def find_club(golf_set: GolfSet, words: str) -> tuple[str, Club]:
    """The one club that these words name, and its name in the set."""
    names = labels(golf_set.clubs)
    if not names:
        raise BadInput("there is no club in this set")
    wanted = simple(words)
    for found in (
        [place for place, name in enumerate(names) if simple(name) == wanted],
        club_meant(words, golf_set.clubs),
        [place for place, club in enumerate(golf_set.clubs) if club.kind == wanted],
        [place for place, name in enumerate(names) if wanted in simple(name).split()],
    ):
        if len(found) == 1:
            return names[found[0]], golf_set.clubs[found[0]]
        if found:
            raise BadInput(f"{words.strip()!r} may be {' or '.join(names[place] for place in found)}; name one of them")
    hint = nearest(wanted, names) or f"; its clubs are {', '.join(names)}"
    raise BadInput(f"there is no {words.strip()!r} in this set{hint}")


def find_figure(club: Club, name: str, words: str) -> tuple[str, Figure | None]:
    """The figure that these words name: one as played, or one of a part by its path (`shaft.mass`)."""
    wanted = simple(words).replace(" ", "_")
    own = {field: getattr(club.as_played, field) for field in club.as_played.__struct_fields__}
    if wanted in own:
        return wanted, own[wanted]
    parts = {path: figure for path, figure in record_figures(club) if not path.startswith("as_played.")}
    if wanted in parts:
        return wanted, parts[wanted]
    within = [field for field in own if wanted in field.split("_")]
    if len(within) == 1:
        return within[0], own[within[0]]
    known = [field.replace("_", " ") for field in own]
    hint = nearest(simple(words), [*known, *parts]) or f"; there are {', '.join((*known, *parts))}"
    raise BadInput(f"there is no figure {words.strip()!r} of the {name}{hint}")


def simple(words: str) -> str:
    """A club's or figure's name without the marks that people write differently.

    >>> simple("7-Iron"), simple("lob wedge (2)"), simple("swing_weight")
    ('7 iron', 'lob wedge 2', 'swing weight')
    """
    return " ".join(words.casefold().translate(str.maketrans("-_()", "    ")).split())


def nested(name: str, figure: Figure) -> dict[str, Any]:
    """A figure and the figures it was worked out from, as JSON."""
    return {"name": name, **plain(figure), "from": [nested(parent.name, parent.figure) for parent in figure.parents]}
