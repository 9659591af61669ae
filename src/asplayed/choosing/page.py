"""The set chosen as lines of text: the clubs, the reasons, the other sets, and what the first changes bring."""

from __future__ import annotations

from collections.abc import Sequence

from asplayed.choosing.choose import Alternative, Chosen
from asplayed.quantities import Figure


def as_text(chosen: Chosen) -> str:
    """The whole answer as one text, for a file or a screen without colours."""
    clubs = [
        (each.label, how(each.changes), _yards(each.carry), "" if each.worth is None else f"{each.worth.number:.2f}")
        for each in chosen.chosen
    ]
    head = ("club", "set how", "carry [yd]", "worth [strokes]")
    width = [max(len(row[column]) for row in (head, *clubs)) for column in range(len(head))]
    rows = ["  ".join(cell.ljust(width[n]) for n, cell in enumerate(row)).rstrip() for row in (head, *clubs)]
    others = [f"  {line}" for line in other_sets(chosen)]
    if others:
        others = ["", "Other sets, and what they cost more a round:", *others]
    brought = [line for words in fronts(chosen) for line in ("", words)]
    assumed = [f"Assumed: {sentence}" for sentence in dict.fromkeys(chosen.assumed)]
    return "\n".join([*rows, "", *chosen.words, *others, *brought, "", *assumed]).strip() + "\n"


def how(changes: Sequence[str]) -> str:
    """What is done to a club, without its name.

    >>> how(("driver: sleeve P8", "driver: length 45.25 in")), how(())
    ('sleeve P8; length 45.25 in', 'as it is')
    """
    return "; ".join("new" if each.startswith("add:") else each.partition(": ")[2] for each in changes) or "as it is"


def other_sets(chosen: Chosen) -> list[str]:
    """A line for every other set: what it costs more or less, what differs, and how sure the chosen one is better."""
    return [f"{_signed(each.more.number)}  {each.differs}{_but(each)}{_sure(each)}" for each in chosen.alternatives]


def _signed(strokes: float) -> str:
    return f"{strokes:+.3f}".replace("-", "−")


def _but(each: Alternative) -> str:
    """What is said of a set that costs fewer strokes than the one chosen."""
    return f"; {each.remark}" if each.remark else ""


def _sure(each: Alternative) -> str:
    return "" if each.sure is None else f"; the set above is better in {each.sure.better.number:.0f} % of worlds"


def fronts(chosen: Chosen) -> list[str]:
    """Strokes saved against changes and against what is spent, a line each where there is more than one point."""
    return [
        f"Strokes saved a round by {words}: {', '.join(f'{p.limit.number:g}: {p.saved.number:.3f}' for p in points)}"
        for points, words in ((chosen.front_by_changes, "changes"), (chosen.front_by_price, "spent"))
        if len(points) > 1
    ]


def _yards(entry: Figure | None) -> str:
    return "" if entry is None else f"{entry.number:.0f}"
