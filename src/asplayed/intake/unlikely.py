"""Clubs that hardly any set has, made of a number or a word that meant something else ("one more wedge").

A first walk that brings one is told so: the second passes over the words that made it, and what stands behind them is
then said of the club before. One that comes back all the same is asked for, not taken.
"""

from __future__ import annotations

from asplayed.intake.bare import limits, loft_fits
from asplayed.intake.drafts import Draft
from asplayed.intake.groups import FAMILIES
from asplayed.intake.scene import Doubt, Scene

_LONG_IRONS = 4  # no set's irons begin later than at the 5 iron without a gap, half sets aside
_ROW = 4  # irons one after the other, to know that the set is no half set


def unlikely(scene: Scene) -> list[Draft]:
    """The clubs of a walk that are likely none: of a number nobody makes, far from the irons, or without any number."""
    rare = limits()["rare"]
    found = []
    for draft in scene.drafts:
        others = [one for one in scene.drafts if one is not draft and one.family == draft.family]
        nobodys = draft.number in rare.get(draft.family, ()) and not (in_words(scene, draft) and _told_of(draft))
        if draft.place >= 0 and (nobodys or _apart(scene, draft, others) or _one_of(draft, others)):
            found.append(draft)
    return found


def in_words(scene: Scene, draft: Draft) -> bool:
    """True for a club that its kind's word named ("2 iron"), not a number alone."""
    return any(token.terminal in FAMILIES for token in scene.tokens[draft.place : draft.place + 2])


def ask_for_unlikely(scene: Scene) -> None:
    """Take out the unlikely clubs and ask whether they are in the set."""
    for draft in unlikely(scene):
        scene.drafts.remove(draft)
        told = scene.line_words(draft.place)
        question = f"“{told}”: is a {draft.number or ''} {draft.kind} meant?".replace("  ", " ")
        scene.doubts.append(Doubt(scene.tokens[draft.place].line, None, "club", question))


def _told_of(draft: Draft) -> bool:
    """True for a club that the list tells a model or a loft of, itself and not with others."""
    own = (draft.facts.get("head.name"), draft.facts.get("head.loft"))
    return any(entry is not None and not entry.group for entry in own)


def _apart(scene: Scene, draft: Draft, others: list[Draft]) -> bool:
    """True for the iron of "two more clubs" before a row of irons that begins two numbers or more behind it."""
    if draft.family != "iron" or draft.number is None or draft.number > _LONG_IRONS or draft.in_range:
        return False
    if in_words(scene, draft) or any(
        token.terminal in ("HYPHEN", "DASH") for token in scene.tokens[draft.place + 1 : draft.place + 2]
    ):
        return False  # "2-iron", "2 – Fulmar, 17°"
    loft = draft.value("head.loft")
    if _told_of(draft) and (loft is None or loft_fits(loft, draft)):
        return False
    numbers = sorted(one.number for one in others if one.number is not None and one.number > draft.number)
    row = len(numbers) >= _ROW and numbers == list(range(numbers[0], numbers[0] + len(numbers)))
    return row and numbers[0] > draft.number + 1


def _one_of(draft: Draft, others: list[Draft]) -> bool:
    """True for a club without a number, a name or a loft beside those of its kind: they are spoken of, or one is."""
    if draft.family not in ("wood", "hybrid", "diron", "iron") or draft.number is not None or draft.name is not None:
        return False
    return draft.value("head.loft") is None and bool(others)
