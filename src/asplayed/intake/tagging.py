"""Tokens tagged with what their words mean in the place they stand in."""

from __future__ import annotations

import re
from itertools import islice, takewhile

from asplayed.intake.flex_codes import suffix_sign
from asplayed.intake.spellings import fits
from asplayed.intake.tokens import DASHES, Token, gap, spanning
from asplayed.intake.vocabulary import Vocabulary, plain_words
from asplayed.intake.wedge_words import (
    STAMPED,
    WEDGE_WORDS,
    for_sand,
    lettered_wedge,
    names_wedge,
    stamps_around,
)

_CLUB_SUFFIX = {
    "w": "WOOD", "wd": "WOOD", "wood": "WOOD", "fw": "WOOD", "fwy": "WOOD", "h": "HYBRID", "hy": "HYBRID",
    "hyb": "HYBRID", "hybrid": "HYBRID", "i": "IRON", "iron": "IRON", "irons": "IRON", "di": "DIRON", "ui": "DIRON",
    "u": "DIRON", "ir": "IRON", "hl": "WOOD",
}  # fmt: skip
# Words that a club's number may be written tight behind ("FW3", "HYB4").
_CODES = {
    "w": "WOOD", "wd": "WOOD", "wood": "WOOD", "fw": "WOOD", "fwy": "WOOD", "h": "HYBRID", "hy": "HYBRID",
    "hyb": "HYBRID", "hybrid": "HYBRID", "i": "IRON", "iron": "IRON", "ir": "IRON", "di": "DIRON", "ui": "DIRON",
    "ut": "DIRON",
}  # fmt: skip
_SEVERAL = {"clubs", "irons", "wedges", "woods", "hybrids", "fairways"}
_PLUS_CLUBS = {"pw", "gw", "aw", "uw", "sw", "lw", "pitching", "gap", "sand", "lob", "approach"}
_MARKS = {
    ",": "COMMA", "/": "SLASH", "|": "PIPE", "(": "LPAR", ")": "RPAR", "[": "LPAR", "]": "RPAR", ":": "EQ", "=": "EQ",
    "&": "AND", "@": "AT", "°": "DEG", "º": "DEG", '"': "INCH", "″": "INCH", "”": "INCH", "''": "INCH", "′′": "INCH",
    ";": "STOP", ".": "STOP", "!": "STOP", "?": "STOP", "…": "STOP", "~": "SILENT", "≈": "SILENT", "\t": "PIPE",
    "→": "SLASH", "->": "SLASH", "•": "STOP", "·": "COMMA", "“": "SILENT", "%": "PCT",
}  # fmt: skip
_SWING_WEIGHT = re.compile(r"([C-Fc-f](?=\d)|[Bb](?=[5-9]))(\d)([.,]\d+|[¼½¾])?$")  # B1 to B4 are places of sleeves
_TEXTED_BEFORE = {"a", "all", "both", "my", "the", "then"}
_FLEXES = {"extra", "ladies", "l", "r", "regular", "s", "senior", "stiff", "tx", "x"}
_QUOTES = {'"', "“", "”"}
_STEPS_BEHIND = {
    "degree", "degrees", "deg", "click", "clicks", "notch", "notches", "step", "steps", "up", "down", "flat", "upright",
}  # fmt: skip
_CORRECTS = {"CORRECTION", "COMMA", "RANGE", "SILENT", "AT", "IN", "TURNED", "CLICK", "STOP", "EQ"}
_CORRECTING = 8  # tokens from what was said to what corrects it
_POSITION = re.compile(r"[A-Za-z]{1,2}\d{1,2}$|[A-Z]$")
_CLUBS = {"WOOD", "HYBRID", "DIRON", "IRON", "WEDGE", "NAMEDWEDGE", "DRIVER", "PUTTER", "CHIPPER"}


def tag(tokens: list[Token], vocabulary: Vocabulary) -> list[Token]:
    """The tokens with terminals and meanings; several words that mean one thing become one token."""
    for token in tokens:
        # "the shaft's a …": a word of the trade with "is" drawn into it
        if token.kind == "word" and token.lower.endswith("'s") and token.lower[:-2] in WEDGE_WORDS:
            token.terminal, token.value = "NAMEDWEDGE", WEDGE_WORDS[token.lower[:-2]]  # "the gap's a fifty"
            token.lower = token.lower[:-2]
        elif token.kind == "word" and token.lower.endswith("'s") and token.lower[:-2] in vocabulary.first:
            token.lower = token.lower[:-2]
            if token.text[:-2] in ("X", "S", "R", "L", "TX"):
                token.text = token.text[:-2]
    words = [plain_words(token.lower).strip() if token.kind == "word" else "" for token in tokens]
    tagged: list[Token] = []
    position = 0
    while position < len(tokens):
        token = tokens[position]
        if token.terminal:
            tagged.append(token)
            position += 1
        elif token.kind == "word":
            position = _tag_word(tokens, words, position, tagged, vocabulary)
        else:
            _tag_other(tokens, position, tagged)
            position += 1
    return tagged


def _weighs(letter: str, number: Token) -> bool:
    """True for "D two", "B nine": a letter and a figure that are a swing weight."""
    return letter in "CDE" or (letter == "B" and isinstance(number.value, float) and number.value >= 5)


def _tag_other(tokens: list[Token], position: int, tagged: list[Token]) -> None:
    token = tokens[position]
    tagged.append(token)
    if token.kind == "number":
        token.terminal = "SNUM" if token.sign else "NUM"
        letter = tagged[-2] if len(tagged) > 1 else None
        small = isinstance(token.value, float) and 0 <= token.value < 10 and token.text[:1].isalpha()
        if small and letter is not None and letter.terminal == "LETTER" and _weighs(letter.text, token):
            tagged.pop(-2)  # "D two"
            token.terminal, token.value = "SWV", f"{letter.text}{token.value:g}"
            token.text, token.start, token.column = f"{letter.text} {token.text}", letter.start, letter.column
            token.kind = "word"
            return
        match = re.fullmatch(r"(4[4-9]|5\d|6[0-4])[.,](0[1-9]|1\d)", token.text)
        if match:
            token.terminal = "CODE"
            token.value = (float(match[1]), float(match[2]))
    elif token.kind == "newline":
        token.terminal = "NEWLINE"
    elif token.text in DASHES:
        after = tokens[position + 1] if position + 1 < len(tokens) else None
        before = tokens[position - 1] if position else None
        token.terminal = "DASH"
        joined = token.glued and after is not None and after.glued
        if joined and before is not None and after is not None and after.text == "W" and _follows_on(before, tagged):
            after.terminal, after.value = "NAMEDWEDGE", "pitching wedge"  # "4-6 Dunlin 7-W Gannet"
            return
        if joined and after is not None and after.kind == "number" and before is not None and _model_letters(before):
            token.terminal = "HYPHEN"
        if joined and after is not None and after.kind == "word" and before is not None:
            if before.kind == "word" and tagged[-2].terminal not in _CLUBS:
                token.terminal = "HYPHEN"
            elif before.kind == "number" and _number_word(after):
                token.terminal = "SILENT"
                _club_letter(before, after)
    elif token.text in ("'", "′") and token.glued and tagged[-2:-1] and tagged[-2].kind == "number":
        token.terminal = "FOOT"
    elif token.text in ("'", "’") and token.glued and tagged[-2:-1] and tagged[-2].lower in ("thro", "tho", "wi", "o"):
        token.terminal = "SILENT"  # "6 thro' PW"
    else:
        token.terminal = _MARKS.get(token.text, "MARK")
        around = position + 1 < len(tokens) and not token.glued and not tokens[position + 1].glued
        if token.text == "+" and around and tokens[position + 1].kind in ("word", "number"):
            token.terminal = "AND"  # "Gannet 15° + Gannet 18°"
        if token.text == ";" and stamps_around(tokens, position):
            token.terminal = "COMMA"  # "50-08 F; 54-10 F"
        if token.text == "*" and token.glued and len(tagged) > 1 and tagged[-2].kind == "number":
            token.terminal = "DEG"  # "10.5*": a star typed for the sign of degrees
        behind = tokens[position + 1] if position + 1 < len(tokens) else None
        named = behind is not None and behind.lower in _PLUS_CLUBS
        if token.text == "#" and behind is not None and behind.glued and (named or behind.kind == "number"):
            token.terminal = "SILENT"  # "#5-#9 irons"
        measured = len(tagged) > 1 and tagged[-2].kind == "number"
        if token.terminal == "INCH" and (not measured or _closes_quote(tokens, position)):
            token.terminal = "SILENT"
        following = tokens[position + 1] if position + 1 < len(tokens) else None
        if (
            token.text == "."
            and following is not None
            and following.kind == "number"
            and [t.lower for t in tagged[-2:-1]] in (["no"], ["nos"], ["pos"])
        ):
            token.terminal = "SILENT"
        if token.text == "." and position + 1 < len(tokens) and tokens[position + 1].glued:
            token.terminal = "SILENT" if tokens[position + 1].kind != "newline" else "STOP"
        token.value = token.text


def _few_degrees(number: Token) -> bool:
    """True for a number that can say how far a lie is bent."""
    return number.kind == "number" and isinstance(number.value, float) and 0 < number.value <= 4


def _numbered(tokens: list[Token], at: int) -> bool:
    """True for a number of one digit: "set: 5-PW" tells the clubs, no title."""
    return at < len(tokens) and tokens[at].text.isdigit() and len(tokens[at].text) == 1


def _follows_on(number: Token, tagged: list[Token]) -> bool:
    """True for an iron's number right behind the end of a range on the same line."""
    for at in range(len(tagged) - 3, 0, -1):
        if tagged[at].line != number.line:
            return False
        if tagged[at].kind == "number" and tagged[at - 1].terminal == "DASH" and isinstance(number.value, float):
            return tagged[at].value == number.value - 1
    return False


def _model_letters(token: Token) -> bool:
    """True for the capitals of a model's name ("T-100")."""
    return (
        token.kind == "word"
        and token.text.isupper()
        and len(token.text) <= 3
        and token.terminal in ("", "LETTER", "WORD")
    )


def _club_letter(number: Token, letter: Token) -> None:
    """Take the letter of "3-W", "4-h", "7-I" for the club that it stands for."""
    family, value = _CLUB_SUFFIX.get(letter.lower), number.value
    if family and len(letter.text) < 3 and isinstance(value, float) and value == int(value) and 1 <= value <= 9:
        letter.terminal, letter.value = family, family.lower()


def _number_word(token: Token) -> bool:
    """True for a word that a hyphen ties to its number ("3-wood", "52-degree", "65-gram")."""
    word = token.lower
    return (
        word in _CLUB_SUFFIX
        or word in ("g", "mm", "cm", "in", "deg")
        or word.startswith(("degree", "inch", "gram", "metre", "meter"))
    )


def _ends_model(before: Token, letter: Token, behind: list[Token]) -> bool:
    """True for the N of "Gannet N." and "Gannet N with": it joins no two names, which are written alike."""
    name = before.terminal == "WORD" and before.text[:1].isupper() and not before.text.isupper()
    alike = bool(behind) and behind[0].kind == "word" and behind[0].text[:1].isupper()
    return name and gap(before, letter) == 1 and not alike


def _small_pitching_wedge(tokens: list[Token], position: int) -> bool:
    """True for the p of "irons 4-p gannet": written small and tight behind the irons' first number."""
    if tokens[position].text != "p" or position < 2 or not tokens[position].glued:
        return False
    number, dash = tokens[position - 2 : position]
    tight = number.text.isdigit() and int(number.text) < 10 and dash.text in DASHES and dash.glued
    return tight and not (
        position + 1 < len(tokens) and tokens[position + 1].glued and tokens[position + 1].kind != "mark"
    )


def _tag_word(tokens: list[Token], words: list[str], position: int, tagged: list[Token], vocabulary: Vocabulary) -> int:
    token = tokens[position]
    before = tagged[-1] if tagged else None
    pointed = position + 1 < len(tokens) and tokens[position + 1].lower in _TEXTED_BEFORE
    if pointed and token.text in ("r", "n") and not token.glued:
        # as texted: "7 8 9 r the Gannet", "n the putter is …"
        token.terminal, token.value = ("SILENT", "are") if token.text == "r" else ("AND", "and")
        tagged.append(token)
        return position + 1
    if token.text == "N" and before is not None and _ends_model(before, token, tokens[position + 1 : position + 2]):
        token.terminal = "LETTER"
        tagged.append(token)
        return position + 1
    if _small_pitching_wedge(tokens, position):
        token.terminal, token.value = "NAMEDWEDGE", "pitching wedge"
        tagged.append(token)
        return position + 1
    if (before is None or before.terminal in ("NEWLINE", "BULLET")) and (wedge := lettered_wedge(tokens, position)):
        token.terminal, token.value = "NAMEDWEDGE", wedge
        tagged.append(token)
        return position + 1
    after_number = before is not None and before.kind == "number"
    near = [entry.terminal for entry in tagged[-3:] if entry.kind != "number"]
    led = ("SLEEVE" in near and len(near) == len(tagged[-3:])) or (before is not None and before.terminal == "SLEEVE")
    led = led or _position_corrected(tagged)
    if led and token.text.isupper() and (len(token.text) == 1 or _POSITION.fullmatch(token.text)):
        token.terminal, token.value = "POSCODE", token.text
        tagged.append(token)
        return _with_signs(tokens, position, tagged)
    if _figure_of_position(tokens, position, tagged):
        joined = _joined(tokens, position - 1, position + 1)  # "sleeve 2H"
        joined.terminal, joined.value = "POSCODE", joined.text
        tagged[-1] = joined
        return position + 1
    ends = position + 1 >= len(tokens) or tokens[position + 1].kind in ("mark", "newline")
    listed = len(tagged) > 2 and tagged[-2].terminal in ("COMMA", "SLASH", "PIPE")
    if token.text == "U" and token.glued and before is not None and _few_degrees(before) and ends and listed:
        token.terminal, token.value = "UPRIGHT", "upright"  # "+0.5, 2U"
        tagged.append(token)
        return position + 1
    if after_number and before is not None and token.glued and _after_number(token, before, tagged):
        return position + 1
    colon = position + 1 < len(tokens) and tokens[position + 1].text == ":"
    ranged = position + 2 < len(tokens) and tokens[position + 2].text in DASHES and tokens[position + 2].glued
    headed = colon and (before is None or before.terminal == "NEWLINE")
    clubs = (ranged and _numbered(tokens, position + 1)) or (headed and _numbered(tokens, position + 2))
    if words[position] == "set" and (clubs or headed):
        # "set 5-PW", "set: 5-PW" tell the clubs, "set: Winter" a title
        token.terminal, token.value = ("SILENT", "set") if clubs else ("TITLEWORD", "title")
        tagged.append(token)
        return position + 1
    for candidate, terminal, meaning in vocabulary.first.get(words[position], ()):
        end = _match(tokens, words, position, candidate)
        tied = before is not None and before.text in DASHES and before.terminal == "SILENT" and terminal == "DEG"
        if end and fits(tokens, position, end, terminal, meaning, before, after_number or tied):
            joined = token if end == position + 1 else _joined(tokens, position, end)
            joined.terminal, joined.value = terminal, meaning
            end = suffix_sign(tokens, joined, end)
            _context(tokens, end, joined, tagged)
            tagged.append(joined)
            return end
    tagged.append(token)
    word = words[position]
    ahead = tokens[position + 1].lower if position + 1 < len(tokens) else ""
    if word in ("left", "right") and ahead in (")", "]") and before is not None and before.terminal == "LPAR":
        token.terminal, token.value = "HAND", word
        return position + 1
    if ahead in ("setting", "position", "slot") and _POSITION.fullmatch(token.text) and token.text.isupper():
        token.terminal, token.value = "POSCODE", token.text
        return position + 1
    if (
        before is not None
        and before.terminal in ("SLEEVE", "EQ", "AT", "RANGE", "IN", "TURNED", "CLICK", "SILENT")
        and _position_name(token, tagged)
    ):
        token.terminal, token.value = "POSCODE", token.text
        return _with_signs(tokens, position, tagged)
    opens = before is None or before.terminal in ("NEWLINE", "BULLET", "STOP")
    ranged = before is not None and before.terminal in ("DASH", "RANGE", "HYPHEN") and len(tagged) > 2
    lettered_iron = [entry.terminal for entry in tagged[-4:-2]] == ["IRON", "NUM"]
    if ranged and lettered_iron and re.fullmatch(r"(?:i|ir|iron)\d", token.lower):
        before.terminal = "RANGE"  # type: ignore[union-attr]
        opens = True  # "I5-I9"
    listed = opens or (before is not None and before.terminal in ("COMMA", "PIPE", "AND", "SLASH"))
    long = listed and (code := re.fullmatch(r"([A-Za-z]{2,6})(1[01]|\d)", token.text)) and code[1].lower() in _CODES
    if opens and (stamp := re.fullmatch(r"[Ww](4[4-9]|5\d|6[0-4])", token.text)):
        number = Token(stamp[1], token.line, token.column + 1, token.start + 1, token.end, "number", False)
        number.terminal, number.value = "NUM", float(stamp[1])
        token.terminal, token.value = "WEDGE", "wedge"  # "W52 Crake"
        tagged.append(number)
        return position + 1
    if long or (opens and (code := re.fullmatch(r"([WHIwhi])(\d)", token.text))):
        assert code is not None
        wide = len(code[1])
        number = Token(code[2], token.line, token.column + wide, token.start + wide, token.end, "number", False)
        number.terminal, number.value = "NUM", float(code[2])
        token.terminal = _CODES[code[1].lower()]
        token.value = token.terminal.lower()
        if ranged and before is not None and before.terminal == "RANGE":
            number.end = token.end
            tagged[-1] = number
            return position + 1
        tagged.append(number)
    elif word in ("bunkers", "bunker") and for_sand(tokens, position):
        token.terminal, token.value = "NAMEDWEDGE", "sand wedge"
    elif word in WEDGE_WORDS and names_wedge(tokens, words, position, tagged):
        token.terminal, token.value = "NAMEDWEDGE", WEDGE_WORDS[word]
    elif match := _SWING_WEIGHT.fullmatch(token.text):
        token.terminal = "SWV"
        token.value = match[1].upper() + match[2] + _decimal(match[3])
        label = len(tagged) - 2
        while (
            label > 0
            and tagged[label].line == token.line
            and (tagged[label].terminal in ("SILENT", "EQ") or tagged[label].lower in _SEVERAL)
        ):
            label -= 1  # "SW now C8", "SW irons: D2"
        if label >= 0 and tagged[label].terminal == "NAMEDWEDGE" and tagged[label].lower == "sw":
            tagged[label].terminal, tagged[label].value = "SWINGWEIGHT", "swing weight"
    elif word in vocabulary.silent:
        token.terminal, token.value = "SILENT", word
    elif word in ("th", "st", "nd", "rd") and after_number and token.glued:
        token.terminal = "SILENT"
    elif token.text in ("U", "F") and token.glued and before is not None and _few_degrees(before):
        token.terminal = "UPRIGHT" if token.text == "U" else "FLAT"  # "-1/2 / 1F"
    elif token.text.isupper() and len(token.text) == 1:
        opens = before is None or before.terminal in ("NEWLINE", "BULLET")
        if before is not None and before.terminal == "LPAR" and ahead in (")", "]"):
            opens = len(tagged) < 3 or before.text == "[" or tagged[-3].terminal in ("NEWLINE", "BULLET")
        token.terminal, token.value = ("DRIVER", "driver") if opens and token.text == "D" else ("LETTER", token.text)
        behind = tokens[position + 1] if position + 1 < len(tokens) else None
        lofted = behind is not None and behind.kind == "number" and not behind.sign and not behind.glued
        if token.text == "D" and lofted and isinstance(behind.value, float) and 7 <= behind.value <= 13:  # type: ignore[union-attr]
            whole = behind.value == int(behind.value) and behind.text.isdigit()  # type: ignore[union-attr]
            if not whole or not any(entry.terminal == "DRIVER" for entry in tagged):
                token.terminal, token.value = "DRIVER", "driver"  # "D 10.5"
        lettered = token.text == "P" and any(
            entry.terminal in ("DRIVER", "WOOD") and entry.text in ("D", "W1") for entry in tagged[:1000]
        )
        capital = behind is not None and behind.kind == "word" and behind.text[:1].isupper() and len(behind.text) > 2
        cell = before is not None and before.terminal == "PIPE"
        if (opens or cell) and token.text == "P" and lettered and capital:
            token.terminal, token.value = "PUTTER", "putter"  # "P Smew 35" where the driver is "D"
        if opens and token.text == "P" and ahead in (":", "=", ")", "]") and not {"putter", "pt", "ptr"} & set(words):
            token.terminal, token.value = "PUTTER", "putter"
        if token.text == "P" and before is not None and before.lower in ("not", "but", "except", "excl", "bar"):
            token.terminal, token.value = "PUTTER", "putter"  # "Grips Norrby, not P", "All but P: new grips"
        named = position + 2 < len(tokens) and tokens[position + 2].kind == "word"
        dashed = ahead in ("-", "–", "—") and named and not tokens[position + 1].glued
        if dashed and token.text in "DP" and before is not None and before.terminal in ("EQ", "COMMA", "STOP"):
            club = "driver" if token.text == "D" else "putter"  # "D - Gannet 9 (…), 3W - Gannet 15 (…), P - Stint"
            token.terminal, token.value = club.upper(), club
        if (
            opens
            and token.text == "P"
            and ahead in ("/", "|", "-", "–", "—")
            and named
            and (lettered or not tokens[position + 1].glued)
        ):
            token.terminal, token.value = "PUTTER", "putter"
    elif ahead in ("wedge", "wedges") and (wedge := _nearly(token, word, WEDGE_WORDS)):
        token.terminal, token.value = "NAMEDWEDGE", wedge  # "san wedge"
    elif token.text == "n" and before is not None and (before.kind == "number" or before.terminal in _CLUBS):
        token.terminal, token.value = "AND", "and"  # "5-9 n PW"
    elif after_number and (mistyped := _mistyped(before, token, word)):
        token.terminal, token.value = mistyped, mistyped.lower()
    else:
        opens = before is None or before.terminal in ("NEWLINE", "BULLET", "STOP")
        again = (entry for entry in islice(tokens, 4000) if entry.text == token.text)
        named = token.text[:1].isupper() and next(islice(again, 1, None), None) is not None
        ahead_at = position + 1
        ahead_at += ahead_at < len(tokens) and tokens[ahead_at].kind == "word" and tokens[ahead_at].text[:1].isupper()
        figure = tokens[ahead_at].value if ahead_at < len(tokens) else None
        named = named or (isinstance(figure, float) and 38 <= figure <= 150)  # "Millet Red 70 X" is no mallet
        mended = vocabulary.mend(word) if not token.text[:1].isupper() or (opens and not named) else None
        after_mass = tokens[ahead_at + 1].lower if ahead_at + 1 < len(tokens) else ""
        clubbed = before is not None and before.terminal in (*_CLUBS, "NAMEDWEDGE")
        if mended and clubbed and mended[0] in _CLUBS:
            mended = None  # "6-PW millet" tells of no mallet
        if mended and named and after_mass in _FLEXES and mended[0] not in ("SHAFTWORD", "FLEX"):
            mended = None  # "scree 105 stiff" is no screw
        if mended:
            token.terminal, token.value = mended
            if mended[0] == "WEDGE" and before is not None and before.lower in WEDGE_WORDS:
                tagged.pop(-2)
                token.terminal, token.value = "NAMEDWEDGE", WEDGE_WORDS[before.lower]
                token.text, token.start, token.column = f"{before.text} {token.text}", before.start, before.column
            return position + 1
        token.terminal, token.value = "WORD", word
    return position + 1


def _with_signs(tokens: list[Token], position: int, tagged: list[Token]) -> int:
    """Join the signs behind a sleeve's position ("N+", "N+1") or its figure in words; the place behind them."""
    end = position + 1
    if figure := _said_after_letter(tokens, position):
        joined = _joined(tokens, position, end + 1)  # "sleeve at C two"
        joined.terminal, joined.text = "POSCODE", f"{tokens[position].text}{figure}"
        joined.value, tagged[-1] = joined.text, joined
        return end + 1
    while end < len(tokens) and tokens[end].kind == "mark" and tokens[end].glued and tokens[end].text in ("+", *DASHES):
        end += 1
    signed = end > position + 1
    if signed and end < len(tokens) and tokens[end].glued and tokens[end].text.isdigit():
        end += 1
    if signed:
        joined = _joined(tokens, position, end)
        joined.terminal, joined.value = "POSCODE", joined.text
        tagged[-1] = joined
    return end


def _figure_of_position(tokens: list[Token], position: int, tagged: list[Token]) -> bool:
    """True at the H of "sleeve 2H", "sleeve at 1L": a figure right behind the sleeve and a capital tied to it."""
    token, led = tokens[position], [entry.terminal for entry in tagged[-3:-1]]
    tied = token.glued and len(token.text) == 1 and token.text.isupper() and bool(tagged) and tagged[-1].text.isdigit()
    behind = led[-1:] == ["SLEEVE"] or (led[:1] == ["SLEEVE"] and led[1] in ("AT", "IN", "EQ", "RANGE"))
    return tied and behind and tagged[-1] is tokens[position - 1]


def _said_after_letter(tokens: list[Token], at: int) -> int:
    """The small figure in words of "C two", a letter at this place; 0 for none and for "A one degree up"."""
    letter, figure = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else tokens[at]
    value = 1.0 if figure.lower == "one" else figure.value
    after = tokens[at + 2].lower if at + 2 < len(tokens) else ""
    said = len(letter.text) == 1 and letter.text.isupper() and figure.text.isalpha() and after not in _STEPS_BEHIND
    return int(value) if said and isinstance(value, float) and value in range(1, 10) else 0


def _position_corrected(tagged: list[Token]) -> bool:
    """True behind the "no, sorry, to" of "sleeve to B1, no, sorry, to C2": another position follows."""
    between = list(takewhile(lambda entry: entry.terminal != "POSCODE", reversed(tagged[-_CORRECTING:])))
    told = len(between) < min(len(tagged), _CORRECTING) and any(entry.terminal == "CORRECTION" for entry in between)
    return told and all(entry.terminal in _CORRECTS for entry in between)


def _mistyped(number: Token | None, token: Token, word: str) -> str:
    """ "3 wodo", "7 iorn": a kind of club with one letter amiss behind a club's number; "" for any other word."""
    value = number.value if number is not None and not number.sign else None
    if not isinstance(value, float) or value not in range(1, 12) or word in ("word", "words"):
        return ""
    return _nearly(token, word, {"wood": "WOOD", "iron": "IRON"})


def _nearly(token: Token, word: str, meanings: dict[str, str]) -> str:
    """The meaning of the word of the trade that this small word is one letter away from; "" for none."""
    if not token.text.islower() or len(word) < 3:
        return ""
    from rapidfuzz.distance import OSA

    near = [right for right in meanings if right[0] == word[0] and OSA.distance(word, right) == 1]
    return meanings[near[0]] if near else ""


def _position_name(token: Token, tagged: list[Token]) -> bool:
    """True for a sleeve position's name ("B3", "N", "U") close behind the word sleeve."""
    recent = [entry.terminal for entry in tagged[-4:-1]]
    if len(tagged) > 1 and tagged[-2].lower in ("position", "setting") and _POSITION.fullmatch(token.text):
        return token.text.isupper()
    if "TURNED" in recent and re.fullmatch(r"[A-Z]{1,2}\d{1,2}", token.text):
        return True
    return "SLEEVE" in recent and bool(_POSITION.fullmatch(token.text)) and not token.text.islower()


def _decimal(part: str | None) -> str:
    if not part:
        return ""
    return {"¼": ".25", "½": ".5", "¾": ".75"}.get(part, part.replace(",", "."))


def _after_number(token: Token, number: Token, tagged: list[Token]) -> bool:
    """Take a word glued to a number: 3w, 5h, 65TX, 56S, 44in."""
    family = _CLUB_SUFFIX.get(token.lower)
    value = number.value
    if token.lower in ("w", "wdg") and isinstance(value, float) and 44 <= value <= 64:
        token.terminal, token.value = "WEDGE", "wedge"
        tagged.append(token)
        return True
    opens = len(tagged) == 1 or tagged[-2].terminal in ("NEWLINE", "BULLET")
    most = {"HYBRID": 33, "WOOD": 26}.get(family or "", 15) if opens and token.text.isupper() else 15  # "19H Gannet"
    if family and number.terminal != "CODE" and isinstance(value, float) and value == int(value) and 1 <= value <= most:
        if number.sign and value:
            return False
        if token.lower in ("i", "ir") and value > 9:
            return False
        token.terminal, token.value = family, family.lower()
        tagged.append(token)
        return True
    return False


def _match(tokens: list[Token], words: list[str], position: int, candidate: tuple[str, ...]) -> int:
    """The end of `candidate` when it stands at `position` (hyphens, low lines between its words allowed), else 0."""
    at = position
    for index, word in enumerate(candidate):
        if index:
            while at < len(tokens) and tokens[at].kind == "mark" and tokens[at].text in "-‐–_" and tokens[at].glued:
                at += 1
        if at >= len(tokens):
            return 0
        here = words[at] if tokens[at].kind == "word" else tokens[at].text
        apart = index and gap(tokens[at - 1], tokens[at]) > 1 and tokens[at - 1].lower == "club"
        if here != word or apart:  # "Club   Head   Loft": two columns
            return 0
        at += 1
    return at


def _joined(tokens: list[Token], position: int, end: int) -> Token:
    first, last = tokens[position], tokens[end - 1]
    text = first.text
    for token in tokens[position + 1 : end]:
        text += ("" if token.glued else " ") + token.text
    return spanning(text, "word", first, last)


def _closes_quote(tokens: list[Token], position: int) -> bool:
    """True for the second mark of 'he says it's "about nine"': a quotation was opened before it on the line."""
    opened = False
    for at in range(max(0, position - 40), position):
        if tokens[at].line == tokens[position].line and tokens[at].text in _QUOTES:
            opened = not opened and (at == 0 or tokens[at - 1].kind != "number")
    return opened and tokens[position].text in _QUOTES


def _context(tokens: list[Token], end: int, token: Token, tagged: list[Token]) -> None:
    """Settle words whose meaning hangs on their neighbours."""
    before = tagged[-1] if tagged else None
    if token.terminal == "NAMEDWEDGE" and token.lower == "sw":
        at = end
        while at < len(tokens) and (tokens[at].text in ":=@" or tokens[at].lower in ("is", "at")):
            at += 1
        if (at < len(tokens) and _SWING_WEIGHT.fullmatch(tokens[at].text)) or (
            before is not None and before.terminal == "SWV"
        ):
            token.terminal, token.value = "SWINGWEIGHT", "swing weight"
    if token.terminal == "UP" and token.lower == "plus" and end < len(tokens) and tokens[end].lower in _PLUS_CLUBS:
        token.terminal = "AND"
    if token.terminal == "NAMEDWEDGE" and before is not None and len(tagged) > 1:
        added = tagged[-2] if before.lower in ("the", "a", "my") else before
        if added.text in ("+", "plus"):
            added.terminal = "AND"
    puttered = any(each.terminal == "PUTTER" and each.line == token.line for each in tagged[-4:])
    if token.lower == "mini" and puttered and before is not None and before.terminal == "WORD":
        token.terminal = "WORD"  # "putter stint mini 33 in"
    if token.terminal == "WEDGE" and before is not None and before.terminal == "WORD" and before.lower in STAMPED:
        tagged.pop()
        token.terminal, token.value = "NAMEDWEDGE", WEDGE_WORDS[before.lower]  # "GAP WDG"
        token.text, token.start, token.column = f"{before.text} {token.text}", before.start, before.column
    if token.terminal == "FLEXCODE":
        token.value = token.text.upper()
    if token.terminal == "WEDGE" and before is not None and before.terminal == "LETTER" and before.text in "PGASLU":
        tagged.pop()
        token.terminal = "NAMEDWEDGE"
        token.value = {"P": "pitching wedge", "S": "sand wedge", "L": "lob wedge"}.get(before.text, "gap wedge")
        token.text, token.start, token.column = f"{before.text} {token.text}", before.start, before.column
