"""What was and what is: of "from Ostrane 60 S to Lindrake 65 X" the first is kept aside and the second read."""

from __future__ import annotations

from asplayed.clubs import Passage
from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import DASHES, Token
from asplayed.intake.wording import eligible

_LONGEST = 10  # tokens on either side
_CHANGED = {
    "went", "gone", "goes", "going", "changed", "change", "changes", "moved", "moves", "moving", "switched", "switch",
    "swapped", "dropped", "cut", "shortened", "lengthened", "lighter", "heavier", "stiffer", "softer", "up", "down",
}  # fmt: skip
_LEFT = {"went", "came", "coming", "moved", "switched", "up", "down", "on", "changed", "upgraded"}
_FORMER = {"old", "older", "previous", "former", "last", "earlier"}
_ENDS = {"STOP", "NEWLINE", "COMMA", "PIPE", "RPAR", "AND", "BREAK"}
_ARROWS = {">", "→", "➔", "➜", "⇒", "=>", "->", *DASHES}
_PARTS = {
    "LENGTH", "LOFT", "LIE", "BOUNCE", "SHAFTWORD", "GRIPWORD", "HEADWORD", "SLEEVE", "SWINGWEIGHT", "WRAP", "FLEXWORD",
}  # fmt: skip
_CLUBS = ("club", "named", "span", "dashed", "code", "family", "group", "date")


def set_old_aside(scene: Scene) -> None:
    """Keep aside what a part or a figure was, where the words say what it was and what it is."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if _changes_to(scene, at):
            scene.hide(at, at + 1)
            scene.claims[at + 1] = "silent"
            scene.replacing.add(at + 1)
            continue
        if token.lower != "from" or scene.claims[at] or at == 0 or tokens[at - 1].terminal == "BENT":
            continue
        to = _to(tokens, at)
        if to < 0 and (end := _old_club(tokens, at)):
            scene.set_aside(at - 1, end)
        if to < 0 or to - at < 2:
            continue
        end = to + 1
        while end < len(tokens) and end - to <= _LONGEST and tokens[end].terminal not in _ENDS:
            end += 1
        if not (_of_a_part(scene, at + 1, to) and _of_a_part(scene, to + 1, end)):
            continue
        named = _named(scene, at + 1, to)
        if not (named or _changed(tokens, at)) or (_named(scene, to + 1, end) and not named):
            continue
        start = at
        if named and not _named(scene, to + 1, end):
            scene.claims[at] = "silent"
            start = _behind_name(scene, at + 1)  # "from Ostrane 85 R to 95 S": the name stands for both
        if start < to:
            scene.aside.append(Passage(line=token.written, text=scene.words(start, to)))
            for index in range(start, to):
                scene.claims[index] = scene.claims[index] or "aside"
        scene.claims[to] = "silent"
        scene.replacing.add(to)


def _old_club(tokens: list[Token], at: int) -> int:
    """The end of "went from an old 46 inch driver", "up from 44 in my last driver": the club that was; 0 for none."""
    end = at + 1
    while end < len(tokens) and end - at <= _LONGEST and tokens[end].terminal not in _ENDS and tokens[end].text != ")":
        end += 1
    led = at > 0 and tokens[at - 1].lower in _LEFT
    former = any(token.lower in _FORMER for token in tokens[at + 1 : end])
    return end if led and former and any(token.kind == "number" for token in tokens[at + 1 : end]) else 0


def set_old_before_arrow(scene: Scene) -> None:
    """ "Length 45.75 > 45.25", "grip Lichen → Oakgall": what stands before an arrow was, what stands behind it is."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if scene.claims[at] or not _arrow(tokens, at):
            continue
        start, end = at, at + 1
        while start > 0 and at - start < _LONGEST and not _opens_part(tokens[start - 1]):
            start -= 1
        while end < len(tokens) and end - at <= _LONGEST and tokens[end].terminal not in _ENDS:
            end += 1
        told = start > 0 and tokens[start - 1].terminal in _PARTS
        if start == at or not (told or tokens[start - 1].text == ":") or not _says_a_part(scene, start, end, at, told):
            continue
        scene.aside.append(Passage(line=token.written, text=scene.words(start, at)))
        for index in range(start, at):
            scene.claims[index] = scene.claims[index] or "aside"
            tokens[index].terminal = "OLD"  # "sleeve standard > one up": no phrase of the sleeve and what it was
        for index in range(at, end):
            if tokens[index].text in _ARROWS:
                scene.claims[index] = "silent"
        scene.replacing.add(at)


def _changes_to(scene: Scene, at: int) -> bool:
    """True for the "changed" of "Burr 50 S, changed to Burr 60 S": what stands before it on the line was."""
    tokens = scene.tokens
    if tokens[at].lower not in ("changed", "swapped", "switched") or at + 2 >= len(tokens) or at < 2:
        return False
    to = tokens[at + 1].lower == "to" and tokens[at].line == tokens[at - 1].line
    told = tokens[at - 1].terminal in ("COMMA", "FLEX", "FLEXCODE") or tokens[at - 1].kind == "number"
    return to and told and not scene.claims[at] and _of_a_part(scene, at + 2, min(at + 5, scene.clause_end(at + 2)))


def _arrow(tokens: list[Token], at: int) -> bool:
    """True for "→", ">" and "->" between two things."""
    text = tokens[at].text if tokens[at].terminal not in ("BENT", "RANGE", "SILENT") else ""
    return text in _ARROWS and text not in DASHES and 0 < at < len(tokens) - 1 and tokens[at - 1].kind != "newline"


def _opens_part(token: Token) -> bool:
    """True for what a part's old and new state stand behind: its label, a comma, a colon."""
    return token.terminal in (*_ENDS, *_PARTS) or token.text in (":", ";")


def _says_a_part(scene: Scene, start: int, end: int, arrow: int, told: bool) -> bool:
    """True when figures, names or "standard" stand on both sides and, behind a part's label (told), no club does."""
    if scene.tokens[start].terminal == "OLD":
        return True  # the list is walked twice
    sides = ((start, arrow), (arrow + 1, end))
    found = [[phrase_at(scene.tokens, at) for at in range(*side)] for side in sides]
    named = any(one is not None and one.rule in _CLUBS for side in found for one in side)
    both = all(any(side) or _named(scene, *place) for side, place in zip(found, sides, strict=True))
    return both and not (named and told)


def _to(tokens: list[Token], at: int) -> int:
    """Where the "to" of a "from" stands; -1 for none."""
    for index in range(at + 1, min(at + 1 + _LONGEST, len(tokens))):
        if tokens[index].terminal == "RANGE" and tokens[index].lower == "to":
            return index
        if tokens[index].terminal in _ENDS:
            return -1
    return -1


def _of_a_part(scene: Scene, start: int, end: int) -> bool:
    """True for a name or figures that name no club."""
    tokens, at = scene.tokens, start
    told = False
    while at < end:
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule in _CLUBS:
            return False
        figure = phrase is not None and phrase.rule in ("bare", "flex", "swing", "labelled")
        if figure and phrase is not None and phrase.amounts and _may_be_a_club(phrase.amounts[0].value, at, tokens):
            return False
        told = told or figure or (tokens[at].terminal == "WORD" and eligible(scene, at))
        at = at + 1 if phrase is None else phrase.end
    return told


def _may_be_a_club(value: float, at: int, tokens: list[Token]) -> bool:
    """True for a small whole number alone: the number of a club."""
    return value == int(value) and value <= 9 and tokens[at - 1].terminal in ("BY", "RANGE", "SILENT")


def _named(scene: Scene, start: int, end: int) -> bool:
    """True when a name stands between two places."""
    tokens = scene.tokens
    return any(tokens[at].terminal == "WORD" and eligible(scene, at) for at in range(start, end))


def _behind_name(scene: Scene, at: int) -> int:
    """Where a name that begins here ends."""
    tokens = scene.tokens
    while tokens[at].terminal in ("WORD", "SILENT", "COLOUR"):
        at += 1
    return at


def _changed(tokens: list[Token], at: int) -> bool:
    """True where a word of change stands before the "from" in its sentence."""
    for index in range(at - 1, max(at - 8, -1), -1):
        if tokens[index].terminal in ("STOP", "NEWLINE"):
            return False
        if tokens[index].lower in _CHANGED:
            return True
    return False
