"""Marks that stand for others: dashes and "=" behind labels, units inside keys, rows of numbers without commas."""

from __future__ import annotations

from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import DASHES, Token, line_end
from asplayed.intake.wedge_words import LETTERED

# Words for a figure or a part that a dash may stand behind like a colon.
TOLD = {
    "LOFT", "LIE", "BOUNCE", "LENGTH", "TORQUE", "FREQUENCY", "TOTALMASS", "TOEHANG", "HEADMASS", "SHAFTWORD",
    "GRIPWORD", "HEADWORD", "SLEEVE", "SWINGWEIGHT", "FLEXWORD", "SOLEWORD", "NECKWORD", "WRAP", "BALLWORD",
    "PLAYERWORD",
}  # fmt: skip
_OF_THE_SET = {"the", "a", "its", "their", "set's", "set", "matching", "set’s"}
_OF_KEYS = {"deg", "degrees", "in", "inches", "g", "grams", "mm", "cm", "cpm", "mass", "weight", "change"}

_ITS_OWN = (["has", "its"], ["keeps", "its"], ["stays", "as"], ["kept", "its"], ["retains", "its"])
_METRIC = {"cm": "cm", "cms": "cm", "cent": "cm", "mm": "mm", "mill": "mm"}


def read_marks(scene: Scene) -> None:
    """Put the marks in their common form before anything is looked for."""
    _keys_in_columns(scene)
    _keys_apart(scene)
    _labels(scene)
    _abbreviated_units(scene)
    _put_back(scene)
    _hand_in_bracket(scene)
    _numbers_in_bracket(scene)
    _club_behind_loft(scene)
    _labels_apart(scene)
    _spaced_numbers(scene)
    _numbers_and_lofts(scene)
    _nine_and_pitching(scene)
    _not_of_the_irons(scene)
    _irons_to_p(scene)
    _rows_of_grips(scene)
    _not_the_putter(scene)


def _keys_in_columns(scene: Scene) -> None:
    """ "MODEL      Turnstone", and below it "SHAFT      Burdock 115": a key and a wide gap stand like "MODEL:"."""
    tokens = scene.tokens
    keys = []
    for at in range(len(tokens) - 1):
        opens = at == 0 or tokens[at - 1].kind == "newline"
        key, told = tokens[at], tokens[at + 1]
        if opens and key.kind == "word" and told.kind in ("word", "number") and told.start - key.end > 1:
            keys.append(at)
    if sum(tokens[at].terminal in TOLD for at in keys) < 4:
        return
    for at in reversed(keys):
        key, place = tokens[at], tokens[at + 1].start - 1
        if key.lower in ("model", "head"):
            key.terminal = "HEADWORD"  # a plain word where no colon stands behind it
        colon = Token(":", key.line, tokens[at + 1].column - 1, place, place, "mark", True)
        colon.terminal = "EQ"
        tokens.insert(at + 1, colon)
        scene.claims.insert(at + 1, "")


def _keys_apart(scene: Scene) -> None:
    """ "Head: Melick, all     Shaft: Tussock 115 S": keys that wide gaps part on a line are read as lines."""
    tokens = scene.tokens
    keys = [
        at
        for at in range(len(tokens) - 1)
        if tokens[at + 1].text == ":" and tokens[at + 1].glued and tokens[at].terminal in TOLD
    ]
    for at in reversed(keys):
        before, key = tokens[at - 1], tokens[at]
        if not at or before.line != key.line or before.kind == "newline" or key.start - before.end < 3:
            continue
        end = Token("\n", key.line, before.column + len(before.text), before.end, before.end, "newline", True)
        end.terminal = "NEWLINE"
        tokens.insert(at, end)
        scene.claims.insert(at, "")


def _abbreviated_units(scene: Scene) -> None:
    """ "½ in. short", "2 deg. flat": the dot of a shortened unit ends no sentence."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        unit, dot, after = tokens[at - 1 : at + 2]
        shortened = unit.lower in ("in", "ins", "deg", "gr", "approx") and unit.terminal in ("INCH", "DEG", "GRAM")
        if shortened and dot.text == "." and dot.glued and after.kind == "word" and after.text.islower():
            scene.hide(at, at + 1)
            dot.terminal = "SILENT"


def _put_back(scene: Scene) -> None:
    """ "Lies put back to standard": what was said before of them holds no more."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        back = tokens[at - 1].lower == "back" and tokens[at].lower == "to"
        if back and tokens[at + 1].terminal == "STD":
            scene.replacing.add(at + 1)
            tokens[at - 1].terminal = tokens[at].terminal = "SILENT"


def _hand_in_bracket(scene: Scene) -> None:
    """ "Plays (R/L): L": which hands there are is asked, and answered behind the colon."""
    tokens = scene.tokens
    for at in range(len(tokens) - 6):
        words = [token.lower for token in tokens[at + 1 : at + 7]]
        asked = words[:1] == ["("] and {words[1], words[3]} == {"r", "l"} and words[2] == "/" and words[4:] == [")", ":"]
        if asked and tokens[at].kind == "word":
            tokens[at].terminal = "HANDWORD"
            scene.hide(at + 1, at + 6)


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


def _club_behind_loft(scene: Scene) -> None:
    """ "Gannet F, 15° (3-wood) · …" on lines of their own: the club in the bracket is read before its model."""
    tokens = scene.tokens
    found = []
    for at in range(2, len(tokens) - 2):
        lofted = tokens[at].terminal == "LPAR" and (tokens[at - 1].terminal == "DEG" or tokens[at - 1].kind == "number")
        club = phrase_at(tokens, at + 1) if lofted else None
        if club is None or club.rule not in ("club", "named") or not _closed(tokens, club.end):
            continue
        start = at
        while start and tokens[start - 1].kind != "newline":
            start -= 1
        words = tokens[start : at - 1]
        plain = all(token.terminal in ("WORD", "COMMA", "NUM", "COLOUR", "LETTER", "FLEXCODE") for token in words)
        if plain and words and words[0].text[:1].isupper() and words[0].terminal == "WORD":
            found.append((start, at, club.end))
    for start, at, end in reversed(found):
        colon = Token(":", tokens[start].line, tokens[start].column, tokens[start].start, tokens[start].start, "mark", True)
        colon.terminal = "EQ"
        moved = [*tokens[at + 1 : end], colon, *tokens[start:at]]
        tokens[start : end + 1] = moved
        scene.claims[start : end + 1] = [""] * len(moved)


def _closed(tokens: list[Token], at: int) -> bool:
    return at < len(tokens) and tokens[at].terminal == "RPAR"


def _labels_apart(scene: Scene) -> None:
    """ "4   23   lie 60.5   38.5": a label between two figures is of the one it stands close to."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2, 0, -1):
        before, label, after = tokens[at - 1 : at + 2]
        figures = before.kind == after.kind == "number" or (before.terminal == "DEG" and after.kind == "number")
        wide = label.start - before.end > 1 >= after.start - label.end
        if label.terminal in TOLD and figures and wide and before.line == label.line:
            comma = Token(",", label.line, label.column - 1, before.end, before.end, "mark", True)
            comma.terminal = "COMMA"
            tokens.insert(at, comma)
            scene.claims.insert(at, "")


def _labels(scene: Scene) -> None:
    """ "Driver - Gannet 10", "Driver = Gannet 10": where most lines are labelled so, the mark stands like a colon."""
    tokens = scene.tokens
    marks, lines = [], 0
    for at, token in enumerate(tokens):
        if token.text == "=":
            token.text = token.lower = ":"
        opens = token.kind != "newline" and (at == 0 or tokens[at - 1].kind == "newline")
        lines += opens
        if opens and (mark := _mark_of_label(tokens, at + (token.terminal == "BULLET"))):
            marks.append(mark)
    if len(marks) > 3 and len(marks) * 5 >= lines * 3:
        for mark in marks:
            tokens[mark].terminal = "EQ"
            tokens[mark].text = tokens[mark].lower = ":"


def _mark_of_label(tokens: list[Token], at: int) -> int:
    """Where the dash stands that ends a label of a few words or a club; 0 for none."""
    for mark in range(at + 1, min(at + 5, len(tokens) - 1)):
        before, token, after = tokens[mark - 1 : mark + 2]
        if token.kind == "newline" or token.terminal in ("EQ", "COMMA", "PIPE", "SLASH"):
            return 0
        spaced = token.text in DASHES and not token.glued and not after.glued and after.kind != "newline"
        ends = line_end(tokens, mark) == mark + 2
        far = isinstance(after.value, float) and after.value >= 50 and ends  # "PW Gannet - 136"
        if spaced and not far and not (before.kind == "number" and after.kind == "number"):
            return mark
    return 0


def _not_of_the_irons(scene: Scene) -> None:
    """ "The pitching wedge is not from the irons, it's a Gannet": what a club does not belong to is said of no iron."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        words = [token.lower for token in tokens[at : at + 3]]
        if words[0] == "not" and words[1] in ("from", "of") and words[2] in ("the", "my", "his", "her"):
            end = at + 4 + (at + 4 < len(tokens) and tokens[at + 4].lower == "set")
            if tokens[at + 3].terminal == "IRON" or tokens[at + 3].lower == "set":
                scene.hide(at, end)


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
    """ "4-9, PW Gannet", "five through nine and pitching wedge": one range, which the wedge ends."""
    tokens = scene.tokens
    for at in range(2, len(tokens) - 2):
        nine, joint, wedge = tokens[at], tokens[at + 1], tokens[at + 2]
        plus = joint.lower == "plus"
        behind = at + 2
        while (plus or joint.terminal == "AND") and behind < len(tokens) - 1 and tokens[behind].lower in _OF_THE_SET:
            behind += 1
        wedge = tokens[behind]
        if nine.value != 9.0 or not _digit(tokens[at - 2]) or tokens[at - 1].terminal not in ("DASH", "RANGE"):
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


def _irons_to_p(scene: Scene) -> None:
    """ "My irons are 7, 8, 9 and P": the wedge that the row of irons ends with."""
    tokens, found = scene.tokens, False
    for at in range(2, len(tokens)):
        if tokens[at].text not in LETTERED:
            continue
        joined = tokens[at - 1].terminal in ("AND", "COMMA") and _digit(tokens[at - 2]) and tokens[at - 2].text == "9"
        ends = joined and tokens[at].text == "P"
        labelled = at + 1 < len(tokens) and scene.line_start(at) and tokens[at + 1].text == ":"
        told = at + 1 < len(tokens) and tokens[at - 1].lower == "the"
        if ends or (found and (labelled or told)):  # "S : Bulrush 56°" below the row, "The P has 44°"
            tokens[at].terminal, tokens[at].value = "NAMEDWEDGE", LETTERED[tokens[at].text]
        found = found or ends


def _rows_of_grips(scene: Scene) -> None:
    """ "Grips - Norrby Cord on 1 to 13": the rows of a counted list, which are all of it."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        first, joint, last = tokens[at : at + 3]
        whole = first.text == "1" and joint.terminal in ("RANGE", "DASH") and last.text in ("12", "13", "14")
        if not whole or tokens[at - 1].terminal not in ("AT", "IN", "EQ"):
            continue
        behind = int(last.text) + 1
        for row in range(at + 3, min(at + 16, len(tokens) - 1)):
            opens = tokens[row - 1].terminal in ("STOP", "COMMA") and tokens[row + 1].text[:1].isupper()
            if tokens[row].text == str(behind) and opens:  # "Grips: 1-13 Norrby Cord. 14 Norrby Fat."
                tokens[row].terminal, tokens[row].value, tokens[row].kind = "PUTTER", "putter", "word"
        if any(token.terminal == "GRIPWORD" and token.line == first.line for token in tokens[max(0, at - 12) : at]):
            first.terminal, first.value, first.kind, first.lower = "ALL", "all", "word", "all"
            joint.terminal = last.terminal = "SILENT"
            last.kind = "word"


def _not_the_putter(scene: Scene) -> None:
    """ "… throughout, not putter", "… but the putter has its own": both leave the putter out of what was said."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        if tokens[at].lower == "not" and tokens[at + 1].terminal == "PUTTER":
            tokens[at].terminal = "THAN"
        own = [token.lower for token in tokens[at + 1 : at + 5]]
        if tokens[at].lower in ("but", "though") and own[:2] == ["the", "putter"] and own[2:] in _ITS_OWN:
            tokens[at].terminal, tokens[at].lower = "THAN", "not the"
            end = scene.clause_end(at)
            scene.claims[at + 3 : end] = ["silent"] * (end - at - 3)


def _digit(token: Token) -> bool:
    return token.terminal == "NUM" and len(token.text) == 1 and token.text.isdigit()


def units_of_keys(scene: Scene) -> None:
    """ "loft_deg: 9", "Length (in): 45", "shaft_mass_g = 64": the unit in a key is that of the figure behind it."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        if tokens[at].terminal not in TOLD or not (at == 0 or tokens[at - 1].text in ("\n", ".", ";", ",", "{")):
            continue
        end = at + 1
        while end < min(at + 6, len(tokens)) and (tokens[end].text in ("_", "(", ")") or tokens[end].lower in _OF_KEYS):
            end += 1
        if end == at + 1 or end >= len(tokens) - 1 or tokens[end].text not in (":", "="):
            continue
        units = [token.lower for token in tokens[at + 1 : end] if token.lower in ("mm", "cm")]
        if units:
            tokens[end + 1].unit = units[-1]
        tokens[at:end] = [*tokens[at + 1 : end], tokens[at]]  # the label stands right before its colon
        scene.hide(at, end - 1)


def units_of_lengths(scene: Scene) -> None:
    """ "All lengths in centimetres.": the unit of every figure of the list that stands alone and can be a length."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        if tokens[at].lower not in ("length", "lengths") or scene.claims[at]:
            continue
        end = at + 1
        while end < at + 7 and end < len(tokens) - 1 and tokens[end].kind == "word" and tokens[end].lower != "in":
            end += 1
        unit = _METRIC.get(tokens[end + 1].lower[:4]) if tokens[end].lower == "in" else None
        if unit is None or (end + 2 < len(tokens) and tokens[end + 2].kind == "number"):
            continue
        scene.hide(at, end + 2)
        for place in range(1, len(tokens)):
            if tokens[place].kind == "number" and _alone(tokens, place) and _is_length(tokens[place], unit):
                tokens[place].unit = unit
        return


def _alone(tokens: list[Token], at: int) -> bool:
    """True for the figure of "; 113.5" and of "90 and 87.5": a mark or "and" before it, nothing of it behind."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    before = tokens[at - 1]
    opened = before.kind == "mark" or before.terminal in ("AND", "PIPE") or before.lower in ("standard", "std")
    return opened and (after is None or after.kind in ("mark", "newline") or after.terminal == "AND")


def _is_length(token: Token, unit: str) -> bool:
    """True where the figure can be a club's length, or with its sign a change of length, in this unit."""
    value, scale = token.value, 10.0 if unit == "mm" else 1.0
    if not isinstance(value, float):
        return False
    return 0 < abs(value) <= 8 * scale if token.sign else 66 * scale <= value <= 130 * scale
