"""What is put right by saying it anew: "50, 54 and 60. Sorry, 58, not 60", "white, no, yellow"."""

from __future__ import annotations

from asplayed.intake.phrases import phrase_at, wedge_loft
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tokens import Token

_NOT = ("not", "not the", "not a", "not an", "instead of", "rather than")
_LEADS = ("SILENT", "COMMA", "CORRECTION", "EQ", "AT", "IN")
_UNITS = ("DEG", "GRAM", "INCH")
_DIRECTIONS = ("UPRIGHT", "FLAT", "WEAK", "STRONG", "UP", "DOWN", "LONG", "SHORT")
_GOES_ON = ("COMMA", "AND", "NUM", "DEG")
_JOINS = ("COMMA", "AND", "SLASH")
_STEP = 6  # degrees between two woods that follow each other
_NEAR = 4  # tokens between a colour and the one in its place


def put_right(scene: Scene) -> None:
    """Write the right figure or colour where the wrong one stands, and pass over the words that say so."""
    told: dict[object, int] = {}  # each figure with the first place that tells it
    for at, token in enumerate(scene.tokens):
        if token.kind == "number":
            told.setdefault(token.value, at)
        if token.lower == "actually" and scene.line_start(at) and _tells_anew(scene, _onward(scene.tokens, at + 1)):
            token.terminal = "CORRECTION"  # "Irons are four to pitching wedge. Actually five to pitching wedge"
        if token.lower == "not" and at and scene.tokens[at - 1].terminal == "LPAR":
            _not_so(scene, at)
        elif token.lower in _NOT[:4] and at:
            _not_as_before(scene, at, told)
        if token.terminal == "CORRECTION" and not scene.claims[at]:
            _figure_put_right(scene, at)
            _colour_put_right(scene, at)


def _tells_anew(scene: Scene, at: int) -> bool:
    """True where a figure or a range of clubs stands."""
    phrase = phrase_at(scene.tokens, at)
    return phrase is not None and phrase.rule in ("span", "dashed", "bare", "change", "flex", "swing")


def _not_so(scene: Scene, at: int) -> None:
    """Leave the bracket of "Gannet 10.5 (not 9 as I wrote)": the figure in it does not hold."""
    tokens = scene.tokens
    if at < 2 or not _figure(tokens, _onward(tokens, at + 1)) or tokens[at - 2].kind == "newline":
        return
    end = next((place for place in range(at, min(at + CLAUSE, len(tokens))) if tokens[place].terminal == "RPAR"), 0)
    if end and not scene.claims[at]:
        for place in range(at - 1, end + 1):
            tokens[place].terminal = "BULLET"
        scene.leave(at, end)


def _not_as_before(scene: Scene, at: int, told: dict[object, int]) -> None:
    """Let "44.75 long, not 45" take the place of the 45 told before, "1 up, not flat" that of what was told.

    The words that say what does not hold are passed over.
    """
    tokens, wrong, start = scene.tokens, _onward(scene.tokens, at + 1), scene.clause_opening(at)
    if scene.claims[at] or wrong >= len(tokens):
        return
    figure = _figure(tokens, wrong) and told.get(tokens[wrong].value, start) < start
    if not figure and tokens[wrong].terminal not in _DIRECTIONS:
        return
    end = wrong + 1
    while figure and end < len(tokens) and tokens[end].terminal in (*_UNITS, "LONG"):
        end += 1
    near = range(at - 1, max(start, at - _NEAR) - 1, -1)
    right = next((place for place in near if tokens[place].terminal in (("NUM",) if figure else _DIRECTIONS)), -1)
    if right < 0 or tokens[right].value == tokens[wrong].value:
        return
    if end == len(tokens) or tokens[end].kind in ("mark", "newline") or tokens[end].terminal == "AND":
        scene.replacing.update({right} if figure else near)
        scene.take(at, end)
        for token in tokens[at:end]:
            token.terminal = "BULLET"


def _figure_put_right(scene: Scene, at: int) -> None:
    tokens = scene.tokens
    first = _onward(tokens, at + 1)
    if first < len(tokens) and tokens[first].lower in _NOT:  # "no, not 58, 60"
        wrong = _onward(tokens, first + 1)
        right = _onward(tokens, wrong + 1)
        end = right + 1 if _figure(tokens, wrong) else 0
    else:
        right = first
        end, wrong = _denied(tokens, right)
    if not _figure(tokens, right):
        return
    place = _said_before(tokens, at, wrong) if end else _last_of_row(tokens, at, right)
    if place >= 0:
        tokens[place].value, tokens[place].lower = tokens[right].value, tokens[right].lower
        behind = right + 1
        while not end and behind < len(tokens) and tokens[behind].terminal in _GOES_ON:
            behind += 1
        if not end and behind > right + 1:  # "eighteen, twenty-two, no, 21, and 24": the row goes on
            start = at - (tokens[at - 1].terminal == "COMMA")
            tokens[start:behind] = [*tokens[right + 1 : behind], *tokens[start : right + 1]]
            scene.take(start + behind - right - 1, behind)
            return
        scene.take(at, end or right + 1)
        if end:
            scene.claims[wrong] = "silent"  # the list itself says that it does not hold


def _colour_put_right(scene: Scene, at: int) -> None:
    tokens = scene.tokens
    right = _onward(tokens, at + 1)
    if right >= len(tokens) or tokens[right].terminal != "COLOUR":
        return
    near = range(at - 1, max(-1, at - 1 - _NEAR), -1)
    wrong = next((place for place in near if tokens[place].terminal == "COLOUR"), -1)
    if wrong >= 0:
        tokens[wrong].text, tokens[wrong].lower = tokens[right].text, tokens[right].lower
        tokens[wrong].value = tokens[right].value
        scene.take(at, right + 1)


def _onward(tokens: list[Token], at: int) -> int:
    """The place of the first telling token from here on, behind a correction's opening words."""
    while at < len(tokens) and tokens[at].lower not in _NOT:
        if tokens[at].terminal not in _LEADS and tokens[at].lower not in ("it's", "that's", "is", "but"):
            break
        at += 1
    return at


def _figure(tokens: list[Token], at: int) -> bool:
    return at < len(tokens) and tokens[at].terminal == "NUM" and isinstance(tokens[at].value, float)


def _denied(tokens: list[Token], right: int) -> tuple[int, int]:
    """The place behind the wrong figure of "58, not 60" and the figure's own; 0 where none is named."""
    at = right + 1
    while at < len(tokens) and tokens[at].terminal in (*_UNITS, "COMMA"):
        at += 1
    if at >= len(tokens) or tokens[at].lower not in _NOT:
        return 0, 0
    wrong = _onward(tokens, at + 1)
    unit = wrong + 1 < len(tokens) and tokens[wrong + 1].terminal in _UNITS
    return (wrong + 1 + unit, wrong) if _figure(tokens, wrong) else (0, 0)


def _said_before(tokens: list[Token], at: int, wrong: int) -> int:
    """The nearest place before the correction where the wrong figure stands; -1 for none."""
    near = range(at - 1, max(-1, at - 1 - CLAUSE), -1)
    return next((place for place in near if tokens[place].value == tokens[wrong].value and _figure(tokens, place)), -1)


def _last_of_row(tokens: list[Token], at: int, right: int) -> int:
    """The last stamp of the row of wedges that a sentence "Sorry, 58." stands right behind; -1 for none."""
    closed = right + 1 >= len(tokens) or tokens[right + 1].terminal in ("STOP", "NEWLINE", "COMMA", "AND")
    last = at - 1
    while last > 0 and tokens[last].terminal in ("STOP", "COMMA", "DEG", "NEWLINE"):
        last -= 1
    row = last > 1 and tokens[last - 1].terminal in _JOINS and _alike(tokens[last], tokens[last - 2])
    goes_on = _stamp(tokens[last]) or tokens[last - 2].value < tokens[right].value if row else False  # type: ignore[operator]
    return last if closed and row and goes_on and _alike(tokens[last], tokens[right]) else -1


def _alike(one: Token, other: Token) -> bool:
    """True for two stamps of wedges, and for two lofts of woods or hybrids near each other."""
    if _stamp(one) and _stamp(other):
        return True
    values = [token.value for token in (one, other) if token.terminal == "NUM" and isinstance(token.value, float)]
    return len(values) == 2 and all(12 <= value <= 34 for value in values) and abs(values[0] - values[1]) <= _STEP


def _stamp(token: Token) -> bool:
    value = token.value
    return token.terminal == "NUM" and isinstance(value, float) and wedge_loft(value)
