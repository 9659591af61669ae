"""What an answer leaves of its question: a club that is denied, a guess that is put right, a choice that is made."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, TOLD, Phrase, phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_LONGEST = 40  # tokens of a question
_TURN = 8  # tokens between a question's mark and the first word of its answer
_NO = {"no", "nope", "none", "nah", "neither", "never"}
_YES = {
    "yes", "yeah", "yep", "yup", "aye", "correct", "right", "exactly", "indeed", "fine", "sure", "both", "also", "and",
    "it is", "they are", "that's right", "of course",
}  # fmt: skip
_FIGURED = {"FLEX", "FLEXCODE", "SWV", "STD", "SAME", "OR", "SIZE", "NOTE", "HAND", "WEIGHT"}
_PARTS = {"SHAFTWORD": "shaft", "BOUNCE": "bounce", "LENGTH": "length", "SLEEVE": "sleeve", "BALLWORD": "ball"}
_MADE_OF = {"steel", "graphite"}
_CLOSE = {"deg": 4, "in": 3, "g": 31}  # how far a figure that is put right can be from the one that was guessed


def answered(scene: Scene) -> None:
    """ "Irons from the six?" "From the seven.": what a question only guessed is no fact once its answer tells other."""
    tokens = scene.tokens
    for mark, token in enumerate(tokens):
        if token.text != "?" or scene.claims[mark]:
            continue
        start = scene.clause_opening(mark, within=_LONGEST)
        while start < mark and tokens[start].terminal == "BULLET":
            start += 1
        at = mark + 1
        while at < min(len(tokens), mark + _TURN) and (tokens[at].terminal in ("NEWLINE", "BULLET")):
            at += 1
        if at < len(tokens) and start < mark:
            _weigh(scene, start, mark, at)


def part_asked(scene: Scene, at: int, zone: str) -> str:
    """The part that the question before this mark asks after: its answer names no part ("Bounce on the 58?" "Ten.").

    An answer that says of what it is made ("Steel.") leaves the part to the sentence behind it; "" for any other mark.
    """
    tokens = scene.tokens
    asked = tokens[scene.clause_opening(at, within=_LONGEST) : at]
    said = [token for token in asked if token.terminal not in ("SILENT", "BULLET", "EQ", "WITH", "AND")]
    if tokens[at].text == ".":
        return zone if zone == "shaft" and said and all(token.lower in _MADE_OF for token in said) else ""
    if tokens[at].text != "?" or any(token.kind == "number" for token in said if token.terminal != "NUM"):
        return ""
    parts = {token.terminal for token in said if token.terminal in TOLD}
    parts |= {"SHAFTWORD" for token in said if token.lower in _MADE_OF}
    if "BALLWORD" in parts and any(token.terminal in FAMILIES for token in said):
        return ""  # "Putter and ball?"
    return _PARTS.get(parts.pop(), "") if len(parts) == 1 else ""


def _weigh(scene: Scene, start: int, mark: int, at: int) -> None:
    """Leave of the question from `start` to `mark` what its answer, at `at`, does away with."""
    tokens = scene.tokens
    asked, said = _phrases(tokens, start, mark), tokens[at].lower
    clubs = [phrase for phrase in asked if phrase.rule in CLUB_RULES]
    denied = said.partition(" ")[0] in _NO
    if denied and _nothing_more(scene, at + 1):
        # "The putter hasn't changed?" "No.": more than whether it is there is asked
        told = any(token.terminal in TOLD | _FIGURED | {"WORD"} for token in tokens[start:mark])
        if clubs and not told and all(phrase in clubs for phrase in asked):
            scene.set_aside(start, mark, yielding=True)
            scene.claims[at] = "silent"
        return
    if denied:
        for phrase in asked:  # "Irons, same shaft?" "No, Reed 60 S."
            if phrase.rule == "same":
                scene.leave(phrase.start, phrase.end)
    if said in _YES or " ".join(token.lower for token in tokens[at : at + 2]) in _YES:
        return
    first = at + denied
    led = ""
    while first < min(len(tokens), at + _TURN) and (
        tokens[first].terminal in ("SILENT", "COMMA", "CORRECTION", "AT", "IN", "BY")
    ):
        led, first = tokens[first].lower, first + 1
    answer = phrase_at(tokens, first) if first < len(tokens) else None
    if answer is None or not asked:
        return
    if any(token.terminal == "OR" for token in tokens[start:mark]):
        chosen = [phrase for phrase in clubs if not _chooses(answer, phrase)]
        for phrase in chosen if len(chosen) < len(clubs) else ():  # "Hybrid or driving iron?" "Hybrid, a three."
            scene.leave(phrase.start, phrase.end)
        return
    for guess in asked:
        ends = guess.rule == answer.rule and guess.rule in ("club", "span", "dashed") and _alike(guess, answer)
        other = [one.value for one in guess.amounts] != [one.value for one in answer.amounts]
        if (ends and other and answer.amounts and guess.amounts) or _put_right(scene, guess, answer, led):
            noun = guess.tokens[-1].terminal in TOLD  # "the fifty gram shaft?" "Sixty.": a shaft it is
            if denied and guess.rule == "club":
                scene.hide(at, at + 1)  # the club asked after is not there: none that was told before is put right
            scene.leave(
                guess.start, guess.end - noun
            )  # "Three wood?" "No, a four wood.", "Four to nine?" "Five to nine."


def _chooses(answer: Phrase, club: Phrase) -> bool:
    """True where an answer takes this club of those it was offered: "a hybrid", the "seven" of "six or seven iron?"."""
    if answer.rule == "bare" and answer.amounts[0].whole:
        return [one.value for one in club.amounts] == [answer.amounts[0].value]
    return answer.rule in CLUB_RULES and _alike(answer, club)


def _put_right(scene: Scene, guess: Phrase, answer: Phrase, led: str) -> bool:
    """True for "From the six?" "From the seven.", "Nine and a half degrees?" "Ten and a half": one guess, put right."""
    if (
        guess.rule not in ("bare", "labelled")
        or answer.rule not in ("bare", "club")
        or not guess.amounts
        or not answer.amounts
    ):
        return False
    before = [token.lower for token in scene.tokens[max(0, guess.start - 2) : guess.start]]
    if "from" in before:
        return led == "from" or "from" in [token.lower for token in scene.tokens[answer.start - 2 : answer.start]]
    guessed, said = guess.amounts[0], answer.amounts[0]
    fits = bool(guessed.unit) and said.unit in ("", guessed.unit)
    return answer.rule == "bare" and fits and 0 < abs(said.value - guessed.value) < _CLOSE.get(guessed.unit, 0)


def _phrases(tokens: list[Token], start: int, end: int) -> list[Phrase]:
    """The phrases of a question in order."""
    found: list[Phrase] = []
    at = start
    while at < end:
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.end <= end:
            found.append(phrase)
        at = phrase.end if phrase is not None else at + 1
    return found


def _alike(one: Phrase, other: Phrase) -> bool:
    """True for two phrases of one kind of club."""
    kinds = ("WOOD", "HYBRID", "DIRON", "IRON", "WEDGE", "NAMEDWEDGE", "DRIVER", "PUTTER", "CHIPPER", "MINIDRIVER")
    first, second = one.first(*kinds), other.first(*kinds)
    if first is None or second is None:
        return first is second
    return first.terminal == second.terminal


def _nothing_more(scene: Scene, at: int) -> bool:
    """True where "no" is all that is answered, or only talk stands behind it ("No, never liked one")."""
    tokens = scene.tokens
    return not any(
        token.kind == "number" or token.text[:1].isupper() or token.terminal in _FIGURED | {"WOOD", "IRON", "HYBRID"}
        for token in tokens[at : scene.clause_end(at)]
    )
