"""Marks that stand for others: dashes and "=" behind labels, units inside keys, rows of numbers without commas."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, TOLD, says
from asplayed.intake.scene import LEAD, Scene
from asplayed.intake.tokens import DASHES, Token, gap, line_end

_OF_KEYS = {"deg", "degrees", "in", "inches", "g", "grams", "mm", "cm", "cpm", "mass", "weight", "change"}

_ITS_OWN = (["has", "its"], ["keeps", "its"], ["stays", "as"], ["kept", "its"], ["retains", "its"])
_LETTERS = {"w": ("WOOD", "wood"), "W": ("WOOD", "wood"), "h": ("HYBRID", "hybrid"), "H": ("HYBRID", "hybrid")}
_NONE = {"no", "without", "w/o", "nil"}  # before "extra wraps"
_WAYS = {"LONG", "SHORT", "UPRIGHT", "FLAT", "WEAK", "STRONG"}
_METRIC = {"cm": "cm", "cms": "cm", "cent": "cm", "mm": "mm", "mill": "mm"}


def read_marks(scene: Scene) -> None:
    """Put the marks in their common form before anything is looked for."""
    _tabs_of_labels(scene)
    _keys_in_columns(scene)
    _keys_apart(scene)
    _labels(scene)
    _abbreviated_units(scene)
    _initials(scene)
    _than_standard(scene)
    _short_with(scene)
    _short_woods(scene)
    _put_back(scene)
    _hand_in_bracket(scene)
    _hand_between_marks(scene)
    _labels_apart(scene)
    _not_of_the_irons(scene)
    _not_the_putter(scene)
    _no_wraps(scene)
    _nothing_on(scene)
    _by_one(scene)


def _tabs_of_labels(scene: Scene) -> None:
    """ "Heads:", a tab and "Ludlam CB": the one tab of a line, behind a label's colon, parts no columns."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        if tokens[at].text != "\t" or tokens[at - 1].text != ":" or tokens[at - 2].terminal not in TOLD:
            continue
        line = [token for token in tokens[max(0, at - LEAD) : at + LEAD] if token.line == tokens[at].line]
        if [token.text for token in line].count("\t") == 1:
            tokens[at].terminal = "SILENT"


def _than_standard(scene: Scene) -> None:
    """ "Longer than standard by half an inch", "flatter than the standard, 2 degrees": a change from the standard."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 3):
        if tokens[at].terminal != "THAN" or tokens[at - 1].terminal not in _WAYS:
            continue
        if at > 1 and tokens[at - 2].terminal in ("NUM", "INCH", "CM", "MM", "DEG"):
            continue  # "1 cm longer than standard": the amount is told already
        standard = at + 1 + (tokens[at + 1].lower == "the")
        behind = standard + 1
        while behind < len(tokens) and (tokens[behind].terminal in ("BY", "COMMA") or tokens[behind].lower == "of"):
            behind += 1
        told = tokens[standard].terminal == "STD" and behind < len(tokens) and tokens[behind].terminal == "NUM"
        for place in range(at, behind) if told else ():
            joins = tokens[place].terminal == "BY" or tokens[place].lower == "of"
            tokens[place].terminal = "BY" if joins else "SILENT"


def _short_with(scene: Scene) -> None:
    """ "Gannet w Reed 60 S", "15 w Reed 60 S": a small w alone before a shaft's name and its mass is "with"."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 3):
        before, token = tokens[at - 1], tokens[at]
        if token.text != "w" or token.glued or tokens[at + 1].glued or tokens[at + 1].terminal != "WORD":
            continue
        wood = before.terminal == "NUM" and isinstance(before.value, float) and before.value < 12
        wood = wood and (at < 2 or tokens[at - 2].kind in ("newline", "mark"))
        opens = before.kind in ("newline", "mark") and before.text != ")"
        near = tokens[at + 2 : at + 5]
        weighed = any(isinstance(each.value, float) and 38 <= each.value <= 150 for each in near)
        if weighed and not wood and not opens:
            token.terminal, token.value = "WITH", "with"


def _short_woods(scene: Scene) -> None:
    """ "3 w Gannet 15", "4 h Gannet 22": a number, a blank and the letter of its kind open a line or a stretch."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        number, letter, name = tokens[at - 1 : at + 2]
        told = letter.text in _LETTERS and not letter.glued and name.terminal == "WORD" and not name.glued
        if not told or number.terminal != "NUM" or not number.text.isdigit() or not 2 <= int(number.text) <= 11:
            continue
        before = tokens[at - 2] if at > 1 else None
        if before is None or before.kind in ("newline", "mark") or before.terminal in ("AND", "BULLET"):
            letter.terminal, letter.value = _LETTERS[letter.text]


def _initials(scene: Scene) -> None:
    """ "Order for T. Wragby", "for J.P. Strand": the dot behind the initial of a person ends no sentence."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        initial, dot, surname = tokens[at : at + 3]
        tight = len(initial.text) == 1 and initial.text.isupper() and dot.text == "." and dot.glued
        chained = (
            at + 3 < len(tokens) and len(surname.text) == 1 and surname.text.isupper() and tokens[at + 3].text == "."
        )
        named = surname.terminal == "WORD" and surname.text[:1].isupper() and len(surname.text) > 2
        if not (tight and (named or chained)):
            continue
        led = tokens[at - 1] if at else None
        behind = led is not None and (led.terminal == "PLAYERWORD" or led.lower == "for")
        after = tokens[at + 3] if at + 3 < len(tokens) else None
        closed = after is None or after.terminal in ("COMMA", "NEWLINE", "DASH")
        behind = behind or (initial.line == 1 and led is not None and led.terminal == "COMMA" and closed)
        goes_on = led is not None and led.text == "." and led.terminal == "SILENT"
        if behind or goes_on:
            dot.terminal = "SILENT"


def _keys_in_columns(scene: Scene) -> None:
    """ "MODEL      Turnstone", and below it "SHAFT      Burdock 115": a key and a wide gap stand like "MODEL:"."""
    tokens = scene.tokens
    keys = []
    for at in range(len(tokens) - 1):
        opens = at == 0 or tokens[at - 1].kind == "newline"
        key, told = tokens[at], tokens[at + 1]
        if opens and key.kind == "word" and told.kind in ("word", "number") and gap(key, told) > 1:
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
        if not at or before.line != key.line or before.kind == "newline" or gap(before, key) < 3:
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
        onward = dot.text == "." and dot.glued and after.kind == "word" and after.text.islower()
        if shortened and onward and not _next_clubs(tokens, at + 1):
            scene.hide(at, at + 1)
            dot.terminal = "SILENT"


def _next_clubs(tokens: list[Token], at: int) -> bool:
    """True for the irons of "3 hybrid Gannet 20 deg. irons 5-PW Burr": a stretch that told of a club is over."""
    if tokens[at].terminal not in FAMILIES:
        return False
    told = at - 1
    while told > max(0, at - LEAD) and tokens[told - 1].kind in ("word", "number"):
        told -= 1
        if tokens[told].terminal in FAMILIES:
            return True
    return tokens[at].lower.endswith("s")  # no loft is that of several clubs


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
        asked = (
            words[:1] == ["("] and {words[1], words[3]} == {"r", "l"} and words[2] == "/" and words[4:] == [")", ":"]
        )
        if asked and tokens[at].kind == "word":
            tokens[at].terminal = "HANDWORD"
            scene.hide(at + 1, at + 6)


def _hand_between_marks(scene: Scene) -> None:
    """ "Player: Ada Brandt / left / Quarry Cup": a side alone between two marks of the first line is the hand."""
    tokens = scene.tokens
    for at in range(2, min(scene.first_line_end, len(tokens) - 1, 2 * LEAD)):
        before, token, after = tokens[at - 1 : at + 2]
        parted = before.text in ("/", "|", ",", "·", ";") and after.text in ("/", "|", ",", "·", ";")
        if token.lower in ("left", "right") and parted and not says(tokens, 0, at, CLUB_RULES):
            token.terminal, token.value = "HAND", token.lower


def _labels_apart(scene: Scene) -> None:
    """ "4   23   lie 60.5   38.5": a label between two figures is of the one it stands close to."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2, 0, -1):
        before, label, after = tokens[at - 1 : at + 2]
        figures = before.kind == after.kind == "number" or (before.terminal == "DEG" and after.kind == "number")
        wide = gap(before, label) > 1 >= gap(label, after)
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


def _no_wraps(scene: Scene) -> None:
    """ "No extra wraps", "without the extra tape": none is a number too."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.lower not in _NONE or token.kind != "word":
            continue
        wrap = at + 1
        while wrap < min(at + 4, len(tokens)) and tokens[wrap].lower in ("the", "any", "extra", "additional"):
            wrap += 1
        if wrap < len(tokens) and tokens[wrap].terminal == "WRAP":
            token.kind, token.terminal, token.value = "number", "NUM", 0.0
            scene.hide(at + 1, wrap)


def _nothing_on(scene: Scene) -> None:
    """ "Nothing on the length", "no change to the lie": the figure is the standard one."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        size = 1 if tokens[at].lower == "nothing" else 2
        noun = at + size
        if size == 2 and (tokens[at].lower != "no" or tokens[at + 1].lower not in ("change", "changes")):
            continue
        while noun < len(tokens) and (tokens[noun].terminal in ("AT", "RANGE", "IN") or tokens[noun].lower == "the"):
            noun += 1
        if noun > at + size and noun < len(tokens) and tokens[noun].terminal in ("LENGTH", "LIE", "LOFT"):
            tokens[at].terminal, tokens[at].kind = "STD", "word"
            for place in range(at + 1, noun):
                tokens[place].terminal = "SILENT"


def _by_one(scene: Scene) -> None:
    """ "Lie flat one", "bent weak one,": the word is the figure where nothing but a mark follows."""
    tokens = scene.tokens
    for at in range(1, len(tokens)):
        way = tokens[at - 1].terminal in _WAYS - {"LONG", "SHORT"}  # "a long one" is a club
        told = tokens[at].lower == "one" and tokens[at].terminal != "NUM" and way
        if told and (at + 1 == len(tokens) or tokens[at + 1].kind in ("mark", "newline")):
            tokens[at].kind, tokens[at].terminal, tokens[at].value = "number", "NUM", 1.0


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
