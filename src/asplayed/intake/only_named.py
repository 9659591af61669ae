"""Clubs that talk names once and says nothing of ("he had a 9 iron as well but it snapped"): asked for, not taken."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.scene import Doubt, Scene
from asplayed.intake.wording import prose

_MOST = 0.25  # of a set's clubs that may be without a model, where the models are told
_FEWEST = 4  # clubs with a model, to know that the list tells them


def ask_for_only_named(scene: Scene) -> None:
    """Take out a club that one sentence names, alone and with nothing told of it, and ask whether it is in the set.

    Only where the list tells the models of the other clubs; a putter is in every set.
    """
    drafts = scene.drafts
    modelled = [draft for draft in drafts if draft.has("head.name")]
    if len(modelled) < _FEWEST or len(modelled) < (1 - _MOST) * len(drafts):
        return
    clauses = [draft.row for draft in drafts]
    for draft in [one for one in drafts if clauses.count(one.row) == 1 and _only_named(scene, one)]:
        drafts.remove(draft)
        told = scene.line_words(draft.place)
        question = f"“{told}”: is this club in the set? nothing is said of it"
        scene.doubts.append(Doubt(scene.tokens[draft.place].line, None, "club", question))


def untold(draft: Draft) -> bool:
    """True for a club by itself of which no fact, mass or heading is known."""
    if draft.family == "putter" or draft.in_range or draft.header is not None or draft.place < 0:
        return False
    told = "head.name" in draft.facts or any(not entry.group for entry in draft.facts.values())
    return not told and not draft.weights


def _only_named(scene: Scene, draft: Draft) -> bool:
    return untold(draft) and prose(scene, draft.place)
