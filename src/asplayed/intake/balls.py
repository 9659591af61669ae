"""Names of balls: behind the word, beside a colour, behind a verb of play, on the last line."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.names import NameRun
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import VERBS

_BALL_VERBS = {"plays", "play", "uses", "use", "used", "games", "gamed", "played", "playing", "using", "gaming"}
_BALL_NAME = {"WORD", "LETTER", "NUM", "FLEX", "FLEXCODE", "POSCODE", "HYPHEN", "SWV"}
_ON = {
    "if",
    "when",
    "because",
    "cos",
    "lol",
    "though",
    "tho",
    "anyway",
    "but",
    "so",
}  # where talk goes on behind a ball
_OF_CLUBS = {"SHAFTWORD", "GRIPWORD", "HEADWORD", "BALLWORD", "PLAYERWORD", "EVENTWORD", "COLOUR"}
_WHO = {"he", "she", "i", "they", "we"}
_NUMBERS = {"one", "two", "three", "four", "five", "six", "seven", "x"}


def ball_ahead(scene: Scene, position: int) -> bool:
    """True when the word "ball" stands close behind, in the same stretch."""
    tokens = scene.tokens
    for at in range(position, min(position + 8, len(tokens))):
        if tokens[at].terminal == "BALLWORD":
            return True
        linked = any(token.terminal == "COLOUR" for token in tokens[position:at]) or tokens[at].terminal == "IN"
        if tokens[at].terminal in ("IN", "EQ", "FLEX") and linked and at > position:
            continue  # "Pellan Dart in yellow is the ball"
        if tokens[at].terminal not in ("WORD", "COLOUR", "SILENT", "LETTER", "NUM"):
            return False
    return False


def ball_run(scene: Scene, run: NameRun) -> NameRun:
    """The ball's name up to the next separator or its colour ("Pellan Tour X")."""
    tokens = scene.tokens
    end = run.end
    while end < len(tokens) and not scene.claims[end]:
        lettered = tokens[end].glued and len(tokens[end].text) == 1 and tokens[end].text.isupper()  # "Merle 4U"
        if tokens[end].terminal not in _BALL_NAME and not lettered and not _closes_name(scene, end):
            break
        if tokens[end].lower in _ON or (tokens[end].text.islower() and "'" in tokens[end].lower):
            break  # "a pink puffcap if it matters", "any Dart you've got"
        end += 1
    coloured = [token.terminal for token in tokens[end : end + 2]] == ["COMMA", "COLOUR"]  # "Flint Red, white"
    while end - 1 > run.start and tokens[end - 1].terminal == "COLOUR" and not coloured:
        end -= 1
    return NameRun(run.start, end, scene.words(run.start, end), run.line)


def _closes_name(scene: Scene, at: int) -> bool:
    """True for the Bounce of "the Pellan Bounce.": a capital word of the trade that ends a name and what is said."""
    token, behind = scene.tokens[at], scene.tokens[at + 1 : at + 2]
    closed = not behind or behind[0].kind in ("mark", "newline") or behind[0].terminal in ("COLOUR", "IN", "BALLWORD")
    own = token.kind == "word" and token.terminal not in {*FAMILIES, *_OF_CLUBS}
    return own and closed and token.text[:1].isupper() and token.text[1:].islower()


def ball_clause(scene: Scene, position: int) -> bool:
    """True in "she plays a yellow Velloran": a verb, a colour and a name, and no club or figure in the clause."""
    tokens = scene.tokens
    start = position
    while start > max(0, position - 12) and tokens[start - 1].terminal not in ("STOP", "NEWLINE", "BREAK"):
        start -= 1
        if tokens[start].lower in _WHO and tokens[start + 1].lower in _BALL_VERBS:
            break  # speech makes no stops: "putter is a Stint … and he plays the Velloran, the yellow one"
    end = min(scene.clause_end(position), start + 16)
    words = [
        token
        for at, token in enumerate(tokens[start:end], start)
        if token.lower not in ("one", "ones") or tokens[at - 1].terminal != "COLOUR"  # "the Velloran, the yellow one"
    ]
    if _ball_open(scene) and _name_and_colour(words):
        return True  # "Pellan Dart, yellow."
    if not any(token.lower in VERBS for token in words):
        return False
    named = position - (tokens[position - 1].lower in ("a", "an", "the")) if position else 0
    coloured = any(token.terminal == "COLOUR" for token in words)
    if not coloured and not (_ball_open(scene, named) and any(token.lower in _BALL_VERBS for token in words)):
        return False
    told = coloured and _ball_open(scene, named) and any(token.lower in _BALL_VERBS for token in words)
    if told and any(token.terminal == "FLEX" and token.text[:1].isupper() for token in words):
        words = [token for token in words if token.terminal != "FLEX"]  # "I play the Pellan Lady in pink"
    if coloured and any(token.lower in _BALL_VERBS for token in words) and len(words) > 2 and _numbered(words):
        words = words[:-1]  # "been playing the yellow Velloran 3"
    return not any(
        (token.kind == "number" and not (token.text.isalpha() and token.text[:1].isupper()))  # "Hailstone Four"
        or token.terminal in FAMILIES.keys() | {"FLEX", "FLEXCODE", "SHAFTWORD", "GRIPWORD", "HEADWORD"}
        for token in words
    )


def _numbered(words: list[Token]) -> bool:
    """True where a clause ends with a capital word and a small number."""
    name, number = words[-2:]
    return name.terminal == "WORD" and name.text[:1].isupper() and number.text.isdigit() and len(number.text) == 1


def last_line(scene: Scene, run: NameRun) -> bool:
    """True for a name alone on the last line, behind the putter, that is no person's: "Velloran Three"."""
    tokens = scene.tokens
    before = tokens[run.start - 1].terminal if run.start else ""
    if before not in ("NEWLINE", "BULLET") or not _ball_open(scene) or scene.focus[-1].family != "putter":
        return False
    rest = [token for token in tokens[run.start :] if token.terminal != "NEWLINE"]
    numbered = any(token.kind == "number" for token in rest) or rest[-1].lower in _NUMBERS
    if len(rest) > 4 or any(token.terminal not in _BALL_NAME for token in rest) or not rest[0].text[:1].isupper():
        return False
    return numbered and rest[0].kind == "word"


def _ball_open(scene: Scene, position: int = 0) -> bool:
    """True when all clubs have been told, as far as can be seen, and no ball has: "I play the Velloran Tour"."""
    if scene.ball or not scene.focus or not any(draft.family == "putter" for draft in scene.drafts):
        return False
    anew = position > 1 and scene.tokens[position - 1].lower in _BALL_VERBS and scene.tokens[position - 2].lower in _WHO
    return scene.focus[-1].has("head.name") and (anew or scene.focus[-1] not in scene.clause_drafts)


def ball_colour(scene: Scene, position: int) -> bool:
    """True in "and used a white Velloran": a verb of use, a colour, a name, and nothing behind it."""
    tokens = scene.tokens
    at = position - 1
    while at >= 0 and tokens[at].lower in ("a", "an", "the"):
        at -= 1
    if at < 0 or tokens[at].lower not in _BALL_VERBS:
        return False
    end = position + 1
    while end < len(tokens) and tokens[end].terminal == "WORD" and tokens[end].text[:1].isupper():
        end += 1
    return end > position + 1 and (end >= len(tokens) or tokens[end].terminal in ("STOP", "NEWLINE", "COMMA"))


def _name_and_colour(words: list[Token]) -> bool:
    """True for a capital name of a word or two, a comma, a colour, and nothing else."""
    kinds = [token.terminal for token in words if token.terminal not in ("RPAR", "LPAR", "COMMA")]
    parted = len(words) > len(kinds)
    return parted and kinds in (["WORD", "COLOUR"], ["WORD", "WORD", "COLOUR"]) and words[0].text[:1].isupper()
