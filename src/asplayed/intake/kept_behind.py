"""Clubs that a list names and then keeps behind: "5w or 3h? … The 3h rides in the car", "the 4 iron stays at home"."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.groups import FAMILIES
from asplayed.intake.only_named import untold
from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.scene import Scene

_POINTING = {"the", "his", "her", "my", "their", "your", "no", "that", "this"}
_STAYS = {"is", "has", "isn't", "stays", "stayed", "went", "goes", "lives", "sits", "got"}
_MARKS = {".", ":", ";", ",", "(", "-", "–", "—", "\n"}
_ANOTHER = {"a", "an", "one", "any", "was", "were", "as", "like", "than"}


def leave_out_kept_behind(scene: Scene) -> None:
    """Take out each club of which a sentence that is kept aside says that it stays behind, is sold, is a spare.

    Where another club of the same name may be meant ("his old 4 iron", "a 4 iron, the Knot, in the boot"), it stays.
    """
    aside = [at for at, claim in enumerate(scene.claims) if claim == "aside"]
    for at in aside:
        if (stamped := _told_by_stamp(scene, at)) is not None:
            _leave_out(scene, stamped)
            continue
        phrase = phrase_at(scene.tokens, at)
        word = phrase.first(*FAMILIES) if phrase is not None and phrase.rule in ("club", "named") else None
        if phrase is None or word is None:
            continue
        name = str(word.value) if word.terminal == "NAMEDWEDGE" else None
        number = int(phrase.amounts[0].value) if phrase.amounts and name is None else None
        meant = [
            draft
            for draft in scene.drafts
            if draft.place < at and draft.family == FAMILIES[word.terminal] and draft.number == number
            if draft.name in (name, None) and (name or number) is not None
        ]
        if len(meant) == 1 and (_pointed_at(scene, phrase) or untold(meant[0])) and meant[0].family != "putter":
            _leave_out(scene, meant[0])


def _told_by_stamp(scene: Scene, at: int) -> Draft | None:
    """The wedge of "the 60 is no longer in the bag", "I sold the 60."; None for any other word."""
    tokens = scene.tokens
    stamp, after = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else None
    if stamp.terminal != "NUM" or not isinstance(stamp.value, float) or not at or tokens[at - 1].lower not in _POINTING:
        return None
    closed = after is None or after.terminal in ("ASIDE", "STOP", "NEWLINE") or after.lower in _STAYS
    meant = [
        draft
        for draft in scene.drafts
        if draft.place < at and draft.family == "wedge" and draft.value("head.loft") == stamp.value
    ]
    onward = range(at + 1, scene.clause_end(at))
    another = any(tokens[place].kind == "number" for place in onward)
    return meant[0] if closed and len(meant) == 1 and not another else None  # "the 60 is gone, it's a 58 now"


def _pointed_at(scene: Scene, club: Phrase) -> bool:
    """True for "the four iron stays in the garage": the club that was told of, and no model or figure of another."""
    tokens, start = scene.tokens, club.start
    opens = start == 0 or scene.claims[start - 1] != "aside" or tokens[start - 1].text in _MARKS
    first = end = club.end
    while end < len(tokens) and scene.claims[end] == "aside":
        end += 1
    while first > 0 and scene.claims[first - 1] == "aside":
        first -= 1
    clubs = sum(token.terminal in FAMILIES for token in tokens[first:end])
    if clubs > 1 or not (opens or tokens[start - 1].lower in _POINTING):
        return False
    named = any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[start:end])
    told = any(token.kind == "number" for token in tokens[club.end : end])
    behind = [token.lower for token in tokens[club.end : club.end + 2]]
    another = behind[:1] != [] and behind[0] in ("was", "were") and set(behind[1:]) <= _ANOTHER
    return not (named or told or another)


def _leave_out(scene: Scene, draft: Draft) -> None:
    """Take the club out; the sentence that told of nothing else goes aside with it."""
    alone = [one for one in scene.drafts if one.row == draft.row] == [draft]
    scene.drafts.remove(draft)
    if alone and any(not entry.group for entry in draft.facts.values()):
        scene.set_aside(draft.place, scene.clause_end(draft.place))
    scene.doubts = [doubt for doubt in scene.doubts if doubt.draft is not draft]
