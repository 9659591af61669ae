"""What stands in the place of a club set aside: "in its place the Gannet", "instead of it", "so it's a Gannet now"."""

from __future__ import annotations

from asplayed.intake.phrases import CLUBS_NAMED, phrase_at, says
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import ordinary

INSTEAD = ("instead of", "rather than", "in place of")
_WHO = {"i", "he", "she", "we", "they", "i'm", "he's", "she's", "we're", "that", "which", "in"}
SO = (["so", "it's"], ["so", "its"], ["so", "he's"], ["so", "she's"], ["so", "i'm"], ["so", "it"], ["so", "now"])
_SO_WHAT = {"we", "i", "they", "for", "at", "right", "the", "what"}
_BUT_WHAT = {"what", "for", "right"}


def turns_to_the_set(tokens: list[Token], at: int) -> bool:
    """True for "so right now it's a driver", "but what I've got is": a sentence comes back to what is carried."""
    words = [token.lower for token in tokens[at : at + 2]]
    so, but = words[:1] == ["so"], words[:1] == ["but"]
    return words in SO or (so and words[-1] in _SO_WHAT) or (but and words[-1] in _BUT_WHAT)


def put_in_place(scene: Scene) -> None:
    """ "The Lapwing driver is gone. In its place the Thistle, 10.5": what stands there is the club set aside.

    So too "Instead of it the Thistle" and "I started the year with an Avocet driver, so it's a Thistle now".
    """
    tokens = scene.tokens
    for at in range(1, len(tokens) - 3):
        words = [token.lower for token in tokens[at : at + 3]]
        placed = words[0] == "in" and words[1] in ("its", "their", "it's", "that") and words[2] == "place"
        instead = words[0] in INSTEAD and points_back(tokens, at + 1) and not scene.claims[at]
        so = words[:2] in SO and scene.claims[at - 2] == "aside"
        new = _new_one(tokens, at) if "aside" in scene.claims[max(0, at - 2) : at] else 0
        if not placed and not instead and not so and not new:
            continue
        end, behind = scene.clause_end(at), new or at + (3 if placed else 2)
        near = min(end, behind + 4) if so else end
        named = says(tokens, behind, near, CLUBS_NAMED)
        club = _last_aside(scene, at)
        scene.claims[at:behind] = ["silent"] * (behind - at)
        told = any(tokens[place].terminal == "WORD" and not ordinary(scene, place) for place in range(behind, end))
        if club is None or named or not told or any(scene.claims[behind:end]) or _club_in_clause(scene, at):
            continue
        for place, token in zip(range(behind - len(club), behind), club, strict=True):
            tokens[place].terminal, tokens[place].value, tokens[place].kind = token.terminal, token.value, token.kind
            tokens[place].lower = token.lower
            scene.claims[place] = ""


def _new_one(tokens: list[Token], at: int) -> int:
    """The place behind "the new one is", "the one I use now is"; 0 where nothing of the sort stands here."""
    start = at
    at += tokens[at].lower == "the"
    new = tokens[at].lower in ("new", "current", "newer")
    at += new
    if tokens[at].lower in ("one's", "one’s"):
        return at + 1 if new else 0
    if tokens[at].lower != "one" or not (new or at > start):
        return 0
    near = range(at + 1, min(at + 5, len(tokens)))
    end = next((place for place in near if tokens[place].terminal == "EQ" or tokens[place].lower == "is"), 0)
    used = end > at + 1 and tokens[at + 1].lower in _WHO
    return end + 1 if end and (used or (new and end == at + 1)) else 0


def points_back(tokens: list[Token], at: int) -> bool:
    """True for a word that points at what was told before and names no club: "it", "that, …", "those a 5 wood"."""
    alone = tokens[at + 1].terminal in ("SILENT", "COMMA", "WITH")
    return tokens[at].lower in ("it", "them", "which") or (
        tokens[at].lower in ("that", "this", "those", "these") and alone
    )


def _club_in_clause(scene: Scene, at: int) -> bool:
    """True for the 2 iron of "so a 2 iron in its place": the clause itself names the club that comes in."""
    places = (place for place in range(scene.clause_opening(at), at) if not scene.claims[place])
    found = (phrase_at(scene.tokens, place) for place in places)
    return any(phrase is not None and phrase.rule in CLUBS_NAMED for phrase in found)


def _last_aside(scene: Scene, before: int) -> list[Token] | None:
    """The tokens of the last club set aside before this place."""
    for at in range(before - 1, -1, -1):
        phrase = phrase_at(scene.tokens, at) if scene.claims[at] == "aside" else None
        if phrase is not None and phrase.rule == "club":
            start = at
            longer = phrase_at(scene.tokens, at - 1) if at else None
            if longer is not None and longer.rule == "club" and longer.end == phrase.end:
                start = at - 1
            return [token for token in scene.tokens[start : phrase.end] if token.terminal != "SILENT"][-2:]
    return None
