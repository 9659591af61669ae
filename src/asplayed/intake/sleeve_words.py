"""What a sleeve is said to do: "the sleeve adds half a degree", "I take three quarters off with the sleeve"."""

from __future__ import annotations

from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_ADDING = {"adds", "add", "adding", "added"}
_TAKING = {"takes", "take", "taking", "taken", "took", "knocks", "knocking", "taken off"}
_RAISING = {"raised", "raises", "raise", "raising", "increased", "increases", "lifted"}
_LOWERING = {
    "lowered",
    "lowers",
    "lower",
    "lowering",
    "reduced",
    "reduces",
    "decreased",
    "decreases",
    "dropped",
    "drops",
}
_ITS_LOFT = {"it", "the", "its", "loft", "by"}
_STANDS = {"sits", "sat", "set", "stands", "stays", "rests", "goes", "lives", "left", "turned", "is"}
_OFF = {"off", "away", "taken off"}
_MOST = 4  # degrees that a sleeve can add
_NEAR = 8  # tokens between the sleeve and what it does
_LINKS = {"SILENT", "AT", "WITH", "IN", "BY"}


def read_sleeve_words(scene: Scene) -> None:
    """Give what a sleeve adds or takes off the way that "up" and "down" say."""
    tokens = scene.tokens
    _codes_of_positions(tokens)
    for sleeve, token in enumerate(tokens):
        if token.terminal != "SLEEVE":
            continue
        _stands_at(tokens, sleeve)
        for at in range(max(0, sleeve - _NEAR), min(len(tokens) - 1, sleeve + 2 * _NEAR)):
            if tokens[at].lower in _ADDING and _as_number(tokens, at + 1):
                tokens[at].terminal = "UP"
            elif tokens[at].lower in _RAISING | _LOWERING:
                _raised(tokens, at)
            elif tokens[at].lower in (*_ADDING, "on", "more") and _loft_told(tokens, at):
                tokens[at].terminal = "UP"  # "one degree of loft added on the sleeve", "put on with the sleeve"
            elif tokens[at].lower in _TAKING:
                _taken_off(scene, at, sleeve)


def _raised(tokens: list[Token], at: int) -> None:
    """ "Sleeve raised half a degree", "the sleeve lowers the loft by one": up or down by so much."""
    number = at + 1
    while number < len(tokens) and tokens[number].lower in _ITS_LOFT:
        number += 1
    if _as_number(tokens, number):
        tokens[at].terminal = "UP" if tokens[at].lower in _RAISING else "DOWN"
        for between in tokens[at + 1 : number]:
            between.terminal = "SILENT"


def _stands_at(tokens: list[Token], sleeve: int) -> None:
    """ "The sleeve sits on D1", "is set in B2": where it stands."""
    for at in range(sleeve + 1, min(sleeve + 4, len(tokens) - 2)):
        if tokens[at].lower not in _STANDS:
            continue
        led = tokens[at + 1].terminal in ("AT", "IN", "EQ")
        if led and tokens[at + 2].terminal in ("SWV", "POSCODE"):
            tokens[at].terminal = "SILENT"
        return


def _loft_told(tokens: list[Token], at: int) -> bool:
    """True behind "one degree of loft", which then is how much is added and not the club's loft."""
    noun = at - 1
    if noun < 1 or tokens[noun].terminal != "LOFT" or not tokens[noun].lower.startswith("degree"):
        return False
    number = tokens[noun - 1].value if tokens[noun - 1].terminal == "NUM" else None
    if not isinstance(number, float) or number > _MOST:
        return False
    tokens[noun].terminal = "DEG"
    return True


def told_in_bracket(tokens: list[Token], at: int) -> bool:
    """True at the bracket of "B1 (+1 loft)", "P3 (half a degree up)": what the position before it changes."""
    inside = tokens[at + 1 : at + 5] if at < len(tokens) and tokens[at].terminal == "LPAR" else []
    if inside and inside[0].terminal == "ALL":
        return False  # "D3 (all 1 up)" is a swing weight
    signed = bool(inside) and inside[0].kind == "number" and bool(inside[0].sign)
    return signed or any(token.terminal in ("UP", "DOWN", "UPRIGHT", "FLAT") for token in inside)


def _codes_of_positions(tokens: list[Token]) -> None:
    """A letter and a figure before such a bracket is no swing weight, and "+1" behind the sleeve no change."""
    for at in range(1, len(tokens) - 1):
        led = tokens[at - 1 - (at > 1 and tokens[at - 1].terminal == "EQ")]  # "Sleeve: +1"
        counted = any(token.kind == "number" for token in tokens[at + 2 : at + 6])  # "+1 (more loft)" is the change
        signed = tokens[at].terminal == "SNUM" and led.terminal == "SLEEVE" and counted
        named = tokens[at].terminal == "SWV" or signed
        if not named or not told_in_bracket(tokens, at + 1):
            continue
        code = "WORD" if tokens[at].terminal == "SWV" else "POSCODE"
        tokens[at].terminal, tokens[at].kind, tokens[at].value = code, "word", tokens[at].lower


def _taken_off(scene: Scene, at: int, sleeve: int) -> None:
    """ "Takes one degree off", "half a degree taken off at the sleeve": the "off" says down."""
    tokens = scene.tokens
    for off in range(at, min(at + 7, len(tokens))):
        if tokens[off].terminal in ("STOP", "NEWLINE", "COMMA"):
            return
        if tokens[off].lower not in _OFF:
            continue
        before = any(tokens[place].terminal == "NUM" for place in range(max(0, at - 3), off))
        before = before or (off > at and _as_number(tokens, off - 1))
        if before or _as_number(tokens, off + 1):
            tokens[off].terminal = "DOWN"
            for noun in range(at + 1, off):
                if tokens[noun].terminal == "LOFT":
                    tokens[noun].terminal = "SILENT"  # "takes a degree of loft off"
            if tokens[at].terminal == "WORD":
                tokens[at].terminal = "SILENT"
            between = range(off + 1, sleeve)
            if all(tokens[place].terminal in _LINKS for place in between):
                for place in between:
                    tokens[place].terminal = "SILENT"
        return


def _as_number(tokens: list[Token], at: int) -> bool:
    """True at a number; "one" without its noun, which is else a word, is made one."""
    if at < len(tokens) and tokens[at].lower == "one":
        tokens[at].kind, tokens[at].terminal, tokens[at].value = "number", "NUM", 1.0
    return at < len(tokens) and tokens[at].terminal == "NUM"
