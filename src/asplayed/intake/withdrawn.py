"""Clubs that a list tells of and then takes out: "3-hybrid comes out, a 7-wood goes in", "he took the 4 iron out"."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import Phrase, phrase_at, wedge_loft
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_OUT = (
    ["comes", "out"], ["came", "out"], ["goes", "out"], ["gone", "out"], ["coming", "out"], ["crossed", "out"],
    ["is", "out"], ["come", "out"], ["taken", "out"], ["struck", "out"], ["scratched"],
)  # fmt: skip
_OUT_OF = ("out of the bag", "is out", "out of play", "taken out", "struck off")
_ANOTHER = {"old", "other", "previous", "spare", "former", "second", "another", "older", "backup"}
_TAKES = {"took", "takes", "take", "taking", "pulled", "pulls", "taken"}
Opened = tuple[dict[tuple[str, float | str], int], list[tuple[int, float, float]]]
_WHEN = {"this", "today", "now", "until", "tomorrow"}
_NEAR = 4  # tokens between a club and what is said of it


def set_withdrawn_aside(scene: Scene) -> None:
    """Keep aside the line of each club that a later line takes out of the set, and the words that say so."""
    tokens = scene.tokens
    opened: Opened | None = None
    at = 0
    while at < len(tokens):
        phrase = phrase_at(tokens, at) if not scene.claims[at] and tokens[at].kind != "mark" else None
        led = tokens[at - 1].lower if at else ""
        stamped = phrase is not None and phrase.rule == "bare" and led == "the" and wedge_loft(phrase.amounts[0].value)
        if phrase is None or not (stamped or phrase.rule in ("club", "named")):
            at += 1
            continue
        end = 0 if led in _ANOTHER else _out_behind(tokens, phrase) or _taken_out(tokens, phrase)
        if end:
            opened = opened or _opened(scene)
            crossed = tokens[end - 2].lower in ("crossed", "struck")
            behind = tokens[end] if end < len(tokens) else None  # "…, the 4 iron came out.", "the 60 is out this week"
            closes = behind is None or behind.kind in ("mark", "newline") or behind.lower in _WHEN
            if _withdrawn(scene, phrase, opened) or crossed or closes:
                scene.set_aside(phrase.start, end)
        at = max(phrase.end, end)


def _out_behind(tokens: list[Token], phrase: Phrase) -> int:
    """The place behind "comes out", "is out of the bag" that a club stands before; 0 for none."""
    for at in range(phrase.end, min(phrase.end + _NEAR, len(tokens))):
        words = [token.lower for token in tokens[at : at + 2]]
        if words in _OUT or words[:1] in _OUT:
            return at + len(words if words in _OUT else words[:1])
        if words[0] in _OUT_OF:
            return at + 1
        if tokens[at].kind == "newline" or (tokens[at].kind == "mark" and tokens[at].text not in "-–—:"):
            return 0
    return 0


def _taken_out(tokens: list[Token], phrase: Phrase) -> int:
    """The place behind the "out" of "took the 4 iron out"; 0 for none."""
    led = {token.lower for token in tokens[max(0, phrase.start - 3) : phrase.start]}
    out = phrase.end < len(tokens) and tokens[phrase.end].lower == "out"
    return phrase.end + 1 if out and led & _TAKES else 0


def _key(phrase: Phrase) -> tuple[str, float | str]:
    """The kind of a club and its number or name."""
    word = phrase.first(*FAMILIES)
    named = word is not None and word.terminal == "NAMEDWEDGE"
    if word is None:
        return "", ""
    return word.terminal, str(word.value) if named else (phrase.amounts[0].value if phrase.amounts else "")


def _opened(scene: Scene) -> Opened:
    """Where each club first opens a line, and the ranges of irons with their places."""
    tokens = scene.tokens
    clubs: dict[tuple[str, float | str], int] = {}
    ranges: list[tuple[int, float, float]] = []
    for at, token in enumerate(tokens):
        opens = scene.line_start(at) and token.terminal not in ("SILENT", "BULLET", "AND")
        phrase = phrase_at(tokens, at) if not scene.claims[at] and (opens or token.kind == "number") else None
        if phrase is None:
            continue
        if opens and phrase.rule in ("club", "named"):
            clubs.setdefault(_key(phrase), at)
        elif phrase.rule in ("span", "dashed") and not phrase.has("WOOD", "HYBRID", "DIRON"):
            values = [amount.value for amount in phrase.amounts]
            high = values[1] if len(values) > 1 else 9.0
            if values and high <= 9:
                ranges.append((at, values[0], high))
    return clubs, ranges


def _withdrawn(scene: Scene, club: Phrase, opened: Opened) -> bool:
    """Set aside the earlier line that this club opens, or leave its number out of a range; False for neither."""
    clubs, ranges = opened
    kind, number = key = _key(club)
    at = clubs.get(key, club.start)
    if at < club.start and scene.tokens[at].line < scene.tokens[club.start].line:
        if not scene.claims[at]:
            scene.set_aside(at, scene.clause_end(at))
        return True
    inside = isinstance(number, float) and any(at < club.start and low <= number <= high for at, low, high in ranges)
    if kind == "IRON" and isinstance(number, float) and inside:
        scene.gaps.add(int(number))
        return True
    return False
