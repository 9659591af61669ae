"""What an answer leaves of its question: a club that is denied, a guess that is put right, a choice that is made."""

from __future__ import annotations

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
_CLOSE = 4  # how far a figure that is put right can be from the one that was guessed


def answered(scene: Scene) -> None:
    """ "Irons from the six?" "From the seven.": what a question only guessed is no fact once its answer tells other."""
    tokens = scene.tokens
    for mark, token in enumerate(tokens):
        if token.text != "?" or scene.claims[mark]:
            continue
        start = mark
        while start > max(0, mark - _LONGEST) and tokens[start - 1].terminal not in ("STOP", "NEWLINE"):
            start -= 1
        while start < mark and tokens[start].terminal == "BULLET":
            start += 1
        at = mark + 1
        while at < min(len(tokens), mark + _TURN) and (tokens[at].terminal in ("NEWLINE", "BULLET")):
            at += 1
        if at < len(tokens) and start < mark:
            _weigh(scene, start, mark, at)


def _weigh(scene: Scene, start: int, mark: int, at: int) -> None:
    """Leave of the question from `start` to `mark` what its answer, at `at`, does away with."""
    tokens = scene.tokens
    asked, said = _phrases(tokens, start, mark), tokens[at].lower
    clubs = [phrase for phrase in asked if phrase.rule in CLUB_RULES]
    denied = said.split()[0] in _NO
    if denied and _nothing_more(scene, at + 1):
        told = any(token.terminal in TOLD | _FIGURED for token in tokens[start:mark])
        if clubs and not told and all(phrase in clubs for phrase in asked):
            scene.set_aside(start, mark, yielding=True)
            scene.claims[at] = "silent"
        return
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
    chosen = [phrase for phrase in clubs if not _alike(phrase, answer)]
    choice = any(token.terminal == "OR" for token in tokens[start:mark])
    guess = asked[-1]
    if choice and answer.rule in CLUB_RULES and 0 < len(chosen) < len(clubs):
        for phrase in chosen:  # "Hybrid or driving iron?" "Hybrid, a three."
            scene.leave(phrase.start, phrase.end)
    elif guess.rule == answer.rule == "club" and _alike(guess, answer) and guess.amounts and answer.amounts:
        if guess.amounts[0].value != answer.amounts[0].value and not answer.has("IRON"):
            scene.leave(guess.start, guess.end)  # "Three wood?" "No, a four wood."
    elif _ends_alike(scene, guess, answer, led):
        scene.leave(guess.start, guess.end)


def _ends_alike(scene: Scene, guess: Phrase, answer: Phrase, led: str) -> bool:
    """True for "From the six?" "From the seven.", "Nine and a half degrees?" "Ten and a half": one guess, put right."""
    if guess.rule != "bare" or answer.rule not in ("bare", "club") or not guess.amounts or not answer.amounts:
        return False
    before = [token.lower for token in scene.tokens[max(0, guess.start - 2) : guess.start]]
    if "from" in before:
        return led == "from" or "from" in [token.lower for token in scene.tokens[answer.start - 2 : answer.start]]
    guessed, said = guess.amounts[0], answer.amounts[0]
    fits = said.unit == guessed.unit or (not said.unit and guessed.unit == "deg")
    return answer.rule == "bare" and fits and bool(guessed.unit) and 0 < abs(said.value - guessed.value) < _CLOSE


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
    return first is not None and second is not None and first.terminal == second.terminal


def _nothing_more(scene: Scene, at: int) -> bool:
    """True where "no" is all that is answered, or only talk stands behind it ("No, never liked one")."""
    tokens = scene.tokens
    return not any(
        token.kind == "number" or token.text[:1].isupper() or token.terminal in _FIGURED | {"WOOD", "IRON", "HYBRID"}
        for token in tokens[at : scene.clause_end(at)]
    )
