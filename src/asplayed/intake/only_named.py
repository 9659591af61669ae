"""Clubs that talk names once and says nothing of ("he had a 9 iron as well but it snapped"): asked for, not taken."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import phrase_at
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


def leave_out_told_aside(scene: Scene) -> None:
    """Take out a club of which nothing is told but that it stays behind: "5w or 3h? … The 3h is in the car".

    The sentence that says so is kept aside already.
    """
    aside = {_club(scene, at) for at, claim in enumerate(scene.claims) if claim == "aside"}
    for draft in list(scene.drafts):
        if (draft.family, draft.number or draft.name) in aside and _untold(draft):
            scene.drafts.remove(draft)
            scene.doubts = [doubt for doubt in scene.doubts if doubt.draft is not draft]


def _club(scene: Scene, at: int) -> tuple[str, int | str | None]:
    """The family and the number or name of the club that is named at this place."""
    phrase = phrase_at(scene.tokens, at)
    word = phrase.first(*FAMILIES) if phrase is not None and phrase.rule in ("club", "named") else None
    if phrase is None or word is None:
        return "", None
    if word.terminal == "NAMEDWEDGE":
        return "wedge", str(word.value)
    return FAMILIES[word.terminal], int(phrase.amounts[0].value) if phrase.amounts else None


def _untold(draft: Draft) -> bool:
    """True for a club by itself of which no fact, mass or heading is known."""
    if draft.family == "putter" or draft.in_range or draft.header is not None or draft.place < 0:
        return False
    told = "head.name" in draft.facts or any(not entry.group for entry in draft.facts.values())
    return not told and not draft.weights


def _only_named(scene: Scene, draft: Draft) -> bool:
    return _untold(draft) and prose(scene, draft.place)
