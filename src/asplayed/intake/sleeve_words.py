"""What a sleeve is said to do: "the sleeve adds half a degree", "I take three quarters off with the sleeve"."""

from __future__ import annotations

from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_ADDING = {"adds", "add", "adding", "added"}
_TAKING = {"takes", "take", "taking", "taken", "took", "knocks", "knocking", "taken off"}
_OFF = {"off", "away", "taken off"}
_NEAR = 8  # tokens between the sleeve and what it does
_LINKS = {"SILENT", "AT", "WITH", "IN", "BY"}


def read_sleeve_words(scene: Scene) -> None:
    """Give what a sleeve adds or takes off the way that "up" and "down" say."""
    tokens = scene.tokens
    for sleeve, token in enumerate(tokens):
        if token.terminal != "SLEEVE":
            continue
        for at in range(max(0, sleeve - _NEAR), min(len(tokens) - 1, sleeve + 2 * _NEAR)):
            if tokens[at].lower in _ADDING and _as_number(tokens, at + 1):
                tokens[at].terminal = "UP"
            elif tokens[at].lower in _TAKING:
                _taken_off(scene, at, sleeve)


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
