"""Numbers of clubs written in rows: "4-9, PW", "HYBRIDS (4, 5)", "a 4 of 22° and a 5 of 25°"."""

from __future__ import annotations

from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wedge_words import LETTERED

_OF_THE_SET = {"the", "a", "its", "their", "set's", "set", "matching", "set’s", "own", "same"}


def read_club_rows(scene: Scene) -> None:
    """Put rows of clubs' numbers in the form that phrases are found in."""
    _numbers_in_bracket(scene)
    _two_numbers(scene)
    _model_in_bracket(scene)
    _club_behind_loft(scene)
    _spaced_numbers(scene)
    _numbers_and_lofts(scene)
    _nine_and_pitching(scene)
    _set_wedges(scene)
    _falling_irons(scene)
    _irons_to_p(scene)


def _numbers_in_bracket(scene: Scene) -> None:
    """ "HYBRIDS (4, 5)": the numbers of a heading's clubs stand as without the bracket."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 4):
        if tokens[at].terminal != "LPAR" or tokens[at - 1].terminal not in ("HYBRID", "WOOD", "DIRON"):
            continue
        end = at + 1
        while end < len(tokens) and (_digit(tokens[end]) or tokens[end].terminal in ("COMMA", "AND", "SLASH")):
            end += 1
        if end > at + 3 and end < len(tokens) and tokens[end].terminal == "RPAR":
            tokens[at].terminal = tokens[end].terminal = "SILENT"


def _two_numbers(scene: Scene) -> None:
    """ "4, 5: Gannet" on a line below "Irons": two clubs, and no club with its loft; the comma stands like "and"."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 3):
        if not (scene.line_start(at) and _digit(tokens[at]) and tokens[at + 1].terminal == "COMMA"):
            continue
        rising = _digit(tokens[at + 2]) and 1 < int(tokens[at].text) < int(tokens[at + 2].text)
        named = tokens[at + 3].text == ":" or (tokens[at + 3].terminal == "WORD" and tokens[at + 3].text[:1].isupper())
        if rising and named:
            tokens[at + 1].terminal = "AND"


def _model_in_bracket(scene: Scene) -> None:
    """ "Woods (Gannet 15, 18): Reed 70 S": a heading's model and lofts in its bracket stand as without it."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 4):
        opens = tokens[at].terminal == "LPAR" and tokens[at - 1].terminal in ("WOOD", "HYBRID")
        if not opens or not tokens[at - 1].lower.endswith("s") or not scene.line_start(at - 1):
            continue
        end = at + 1
        while end < min(at + 16, len(tokens)) and tokens[end].terminal != "RPAR" and tokens[end].kind != "newline":
            end += 1
        named = tokens[at + 1].terminal == "WORD" and any(token.terminal == "NUM" for token in tokens[at:end])
        if named and end + 1 < len(tokens) and tokens[end].terminal == "RPAR" and tokens[end + 1].text == ":":
            tokens[at].terminal, tokens[end].terminal, tokens[end + 1].terminal = "EQ", "COMMA", "SILENT"
            tokens[at].text = ":"


def _club_behind_loft(scene: Scene) -> None:
    """ "Gannet F, 15° (3-wood) · …" on lines of their own: the club in the bracket is read before its model."""
    tokens = scene.tokens
    found = []
    for at in range(2, len(tokens) - 2):
        lofted = tokens[at].terminal == "LPAR" and (tokens[at - 1].terminal == "DEG" or tokens[at - 1].kind == "number")
        club = phrase_at(tokens, at + 1) if lofted else None
        if club is None or club.rule not in ("club", "named") or club.end >= len(tokens):
            continue
        if tokens[club.end].terminal != "RPAR":
            continue
        start = at
        while start and at - start < CLAUSE and tokens[start - 1].kind != "newline":
            start -= 1
        words = tokens[start : at - 1]
        plain = all(token.terminal in ("WORD", "COMMA", "NUM", "COLOUR", "LETTER", "FLEXCODE") for token in words)
        if plain and words and words[0].text[:1].isupper() and words[0].terminal == "WORD":
            found.append((start, at, club.end))
    for start, at, end in reversed(found):
        colon = Token(
            ":", tokens[start].line, tokens[start].column, tokens[start].start, tokens[start].start, "mark", True
        )
        colon.terminal = "EQ"
        moved = [*tokens[at + 1 : end], colon, *tokens[start:at]]
        tokens[start : end + 1] = moved
        scene.claims[start : end + 1] = [""] * len(moved)


def _spaced_numbers(scene: Scene) -> None:
    """ "5 7 and 9 iron": numbers with a blank between them, in a row that "and" ends, are parted by a comma."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3, 0, -1):
        if [tokens[at].terminal, tokens[at + 2].terminal] != ["AND", "IRON"] or not _digit(tokens[at + 1]):
            continue
        start = at
        while start and _digit(tokens[start - 1]) and (start == at or tokens[start - 1].text < tokens[start].text):
            start -= 1
        for before in range(at - 2, start - 1, -1):
            one = tokens[before]
            comma = Token(",", one.line, one.column + 1, one.end, one.end, "mark", True)
            comma.terminal = "COMMA"
            tokens.insert(before + 1, comma)
            scene.claims.insert(before + 1, "")


def _numbers_and_lofts(scene: Scene) -> None:
    """ "A 4 of 22 degrees and a 5 of 25", "#4 21° and #5 24°": the "and" stands like a comma."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.terminal == "AND" and _number_and_loft(tokens, at - 1, -1) and _number_and_loft(tokens, at + 1, 1):
            token.terminal = "COMMA"


def _number_and_loft(tokens: list[Token], at: int, step: int) -> bool:
    """True where a club's number and its loft stand, read from `at` onward or back."""
    values = []
    for place in range(at, at + 6 * step, step):
        token = tokens[place] if 0 <= place < len(tokens) else None
        if token is not None and token.terminal == "NUM" and isinstance(token.value, float):
            values.append(token.value)
        elif token is None or not (token.terminal in ("SILENT", "DEG") or token.text == "#"):
            break
        if len(values) == 2:
            break
    number, loft = (values if step > 0 else values[::-1]) if len(values) == 2 else (0.0, 0.0)
    return 1 <= number <= 11 and number == int(number) and 13 <= loft <= 36


def _nine_and_pitching(scene: Scene) -> None:
    """ "4-9, PW Gannet", "five through nine with the set's pitching wedge": one range, which the wedge ends."""
    tokens = scene.tokens
    for at in range(2, len(tokens) - 2):
        nine, joint = tokens[at], tokens[at + 1]
        plus = joint.lower in ("plus", "with")
        behind = at + 2
        while (plus or joint.terminal == "AND") and behind < len(tokens) - 1 and tokens[behind].lower in _OF_THE_SET:
            behind += 1
        wedge = tokens[behind]
        if nine.value != 9.0 or not _number(tokens[at - 2]) or tokens[at - 1].terminal not in ("DASH", "RANGE"):
            continue
        apart = at + 3 < len(tokens) and tokens[at + 3].text in (":", "=")
        if (joint.terminal in ("COMMA", "AND", "SLASH") or plus) and wedge.value == "pitching wedge" and not apart:
            far = behind > at + 2  # "9 plus the set's pitching wedge": too far apart for one phrase
            if far:
                nine.terminal, nine.value, nine.kind = wedge.terminal, wedge.value, "word"
            start, end = (at + 1, behind + 1) if far else (at, behind)
            scene.hide(start, end)
            for hidden in tokens[start:end]:
                hidden.terminal = "SILENT"


def _set_wedges(scene: Scene) -> None:
    """ "7-PW plus the set gap wedge", "PW and matching GW": the wedge goes on where the irons end."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        if tokens[at].terminal != "NAMEDWEDGE":
            continue
        start = at
        while start > 1 and tokens[start - 1].lower in _OF_THE_SET:
            start -= 1
        joined = tokens[start - 1].terminal == "AND" or tokens[start - 1].lower in ("plus", "with", "+")
        if start < at and joined and tokens[start - 2].terminal == "NAMEDWEDGE":
            tokens[start - 1].terminal = "AND"
            scene.hide(start, at)
            for hidden in tokens[start:at]:
                hidden.terminal = "SILENT"


def _falling_irons(scene: Scene) -> None:
    """ "Irons nine down to five": the range told from its short end."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 3):
        first, down, to, last = tokens[at : at + 4]
        numbers = first.value, last.value
        falling = all(isinstance(one, float) and 1 <= one <= 9 and one == int(one) for one in numbers)
        irons = any(token.terminal == "IRON" for token in tokens[max(0, at - 2) : at])
        if falling and irons and down.terminal == "DOWN" and to.terminal == "RANGE":
            down.terminal = "SILENT"


def _irons_to_p(scene: Scene) -> None:
    """ "My irons are 7, 8, 9 and P", "5 to 9 plus a P": the wedge that the row of irons ends with."""
    tokens, found = scene.tokens, False
    for at in range(2, len(tokens)):
        if tokens[at].text not in LETTERED:
            continue
        joint = at - 1 - (tokens[at - 1].lower in ("a", "the"))
        if tokens[joint].lower == "plus":
            tokens[joint].terminal = "AND"
        joined = tokens[joint].terminal in ("AND", "COMMA") and tokens[joint - 1].text in ("9", "nine")
        ends = joined and tokens[at].text == "P"
        labelled = at + 1 < len(tokens) and scene.line_start(at) and tokens[at + 1].text == ":"
        told = at + 1 < len(tokens) and tokens[at - 1].lower == "the"
        if ends or (found and (labelled or told)):  # "S : Bulrush 56°" below the row, "The P has 44°"
            tokens[at].terminal, tokens[at].value = "NAMEDWEDGE", LETTERED[tokens[at].text]
        found = found or ends


def _number(token: Token) -> bool:
    """True for the number of an iron, in digits or in words."""
    return token.terminal == "NUM" and token.value in (1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0)


def _digit(token: Token) -> bool:
    return token.terminal == "NUM" and len(token.text) == 1 and token.text.isdigit()
