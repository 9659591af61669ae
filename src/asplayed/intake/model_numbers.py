"""Small numbers and kinds of club inside a name: "Gannet 2", "Ostrane 3 Black", "Ember Hybrid 95 X"."""

from __future__ import annotations

import re
from typing import cast

from asplayed.intake.ahead import another_model, numbered_club
from asplayed.intake.bare import loft_fits
from asplayed.intake.groups import FAMILIES
from asplayed.intake.known import Known
from asplayed.intake.phrases import flex_number, phrase_at, wedge_loft
from asplayed.intake.proper import flexed_mass
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token, gap
from asplayed.intake.wording import eligible, terse

# What may stand between a model's number and its loft.
_BEFORE_LOFT = {
    "WITH",
    "COMMA",
    "LPAR",
    "SLASH",
    "AT",
    "SILENT",
    "EQ",
    "AND",
    "IN",
    "NEWLINE",
    "LOFT",
    "DRIVER",
    "NOTE",
    "STOP",
    "HEADWORD",
}
_SHEET = 60  # tokens in which the other lines of one club's sheet stand


def number_inside(scene: Scene, known: Known, start: int, at: int, after: Token | None) -> int:
    """A small number in a model's name ("Gannet 2", "Ostrane 3 Black")."""
    tokens = scene.tokens
    token = tokens[at]
    if token.sign or not isinstance(token.value, float) or token.kind != "number" or token.unit == "g":
        return 0
    if gap(tokens[at - 1], token) > 1:
        return 0  # wide apart: another column
    phrase = phrase_at(tokens, at)
    ranged = len(scene.focus) > 1 and not scene.focus[-1].has("head.name")
    if ranged and after is not None and after.terminal == "IRON" and after.lower.endswith("s"):
        return 1  # "5-PW Gannet 5 irons"
    behind = tokens[at + 2] if at + 2 < len(tokens) else None
    pointed = [token.lower for token in tokens[at + 1 : at + 3]]
    family = tokens[at + 3].terminal if at + 3 < len(tokens) else ""
    if pointed[:1] == ["in"] and pointed[1:] in (["the"], ["my"], ["his"], ["her"]) and family in ("IRON", "WEDGE"):
        return 1  # "we've gone for the Gannet 2 in the irons"
    plural = after is not None and after.terminal == "IRON" and after.lower.endswith("s")
    if plural and token.text.isdigit() and token.value > 14:
        return 1  # "Bolder 33 irons 4-PW": nobody has so many
    plural = plural and 2 <= token.value <= 9
    onward = at + 2 + (behind is not None and behind.terminal == "COMMA")
    if plural and onward < len(tokens) and tokens[onward].terminal == "NUM" and numbered_club(scene, onward):
        return 1  # "Lapwing 2 irons 5 to PW", "Lapwing 2 irons, 5 to PW"
    kind = after is not None and (after.lower.startswith("fairway") or after.lower == "hybrids")
    if kind and 2 <= token.value <= 9 and scene.words(start, at + 1).casefold() in known.heads:
        return 1  # "Grebe 2 fairway" beside a "Grebe 2 driver"
    name = scene.words(start, at).casefold()
    unnamed = bool(scene.focus) and not scene.focus[-1].has("head.name")
    no_loft = (
        unnamed and token.value >= 10 and not (after is not None and after.terminal in ("DEG", "INCH", "CM", "MM"))
    )
    if no_loft and scene.focus[-1].name == "pitching wedge":
        no_loft = not 41 <= token.value <= 50
    elif no_loft and scene.focus[-1].family == "wedge" and scene.focus[-1].name not in (None, "chipper"):
        no_loft = not wedge_loft(token.value)  # "gap wedge: also Gannet 33"
    elif no_loft:
        no_loft = not loft_fits(token.value, scene.focus[-1])
    lofted = no_loft or (unnamed and scene.focus[-1].has("head.loft"))
    if lofted and token.text.isdigit() and scene.words(start, at + 1).casefold() in known.heads:
        return 1  # "PW 44 - Gannet 25" below "6-9 - Gannet 25", "PW: Gannet 20" below "7-9: Gannet 20"
    again = after is not None and after.lower in ("as", "again", "too", "also", "as well")
    if again and scene.words(start, at + 1).casefold() in known.heads:
        return 1  # "Gannet 10 as well, seventeen degrees"
    numbered = token.value == 1 and any(re.fullmatch(rf"{re.escape(name)} \d", head) for head in known.heads)
    whole = (2 <= token.value <= 6 or numbered) and token.value == int(token.value) and "." not in token.text
    if whole and after is not None and after.terminal in ("DRIVER", "PUTTER", "MINIDRIVER"):
        return 1  # "kittiwake three driver": no driver has such a loft
    if after is not None and after.terminal == "DRIVER" and token.value <= 12 and _loft_later(scene, at):
        return 1  # "the Mirrent 7 driver, nine degrees"
    worded = after is not None and after.terminal == "WORD" and after.text[:1].isupper()
    if worded and behind is not None and behind.terminal == "DRIVER" and _loft_later(scene, at, words=1):
        return 1  # "Tamarack 8 Max driver @ 10.5"
    gripped = start > 0 and tokens[start - 1].terminal == "GRIPWORD" and 160 < token.value < 900
    if gripped and (after is None or after.terminal not in ("GRAM", "MM")):
        return 1  # "grip Norrby 360"
    if token.text.isdigit() and _closes_labelled_head(scene, start, at):
        return 1  # "Model: Gannet 44", and below it "Loft: 9"
    if token.text.isdigit() and token.value >= 10 and after is not None and after.terminal == "LPAR":
        inside = phrase_at(tokens, at + 2) if at + 2 < len(tokens) else None
        if inside is not None and inside.rule in ("span", "dashed") and inside.amounts[0].value <= 9:
            return 1  # "Irons: Gannet 41 (4-6), Gannet 42 (7-PW)": no loft is that of several irons
    if phrase is not None and phrase.rule == "span" and _model_before_range(scene, at, phrase.end):
        return 1
    if _lofted_in_next_cell(scene, at):
        return 1  # "3 wood / Ostrey 11 / 15.0 /"
    if _bracketed_model(scene, start, at):
        return 1  # "Driver (Tollard 9) 9.5 degrees"
    if _loft_behind_comma(scene, at):
        return 1  # "3 wood Gannet 14, fourteen and a half degrees"
    if after is not None and after.terminal == "LOFT" and _loft_labelled(scene, at + 1):
        return 1  # "a Gannet 8 stamped 10.5"
    if token.text.isdigit() and (_figure_labelled(scene, at) or _lofts_of_each(scene, at)):
        return 1
    if phrase is None or phrase.rule != "bare" or phrase.end != at + 1:
        return 0
    if after is not None and after.terminal == "GRIPWORD":
        return 1
    if not token.text[0].isdigit() and token.text.islower() and _spoken_number(scene, start, at):
        return 1
    if token.text.isalpha() and 2 <= token.value <= 12 and _model_in_words(scene, at, after):
        return 1
    lofted = after is not None and after.terminal == "NUM" and isinstance(after.value, float) and after.value <= 64
    if token.text.isdigit() and 100 <= token.value <= 999 and lofted and scene.focus and not scene.focus[-1].facts:
        return 1  # "Driver Gannet 921 9.5"
    if (token.text.isdigit() or (token.text.isalpha() and token.value <= 12)) and _degrees_behind(scene, at):
        return 1  # "7 wood: Gannet 10 21.5°", "Driver: Gannet 10 LS 9°", "gannet two ten and a half degrees"
    if not token.text[0].isdigit():
        return 1 if token.text[0].isupper() and not token.text.isupper() else 0
    between = after is not None and after.terminal == "WORD" and eligible(scene, at + 1) and not after.glued
    focus = scene.focus
    puttered = bool(focus) and focus[-1].family == "putter" and not focus[-1].has("head.name")
    small = token.value == int(token.value) and 1 <= token.value <= (12 if puttered else 9)
    header = scene.header
    counted = header is not None and header.family in ("hybrid", "wood")
    if (
        small
        and counted
        and after is not None
        and after.terminal == "LPAR"
        and not model_number(scene, known, start, at)
    ):
        return 0
    unnumbered = bool(focus) and focus[-1].family in ("hybrid", "diron") and focus[-1].number is None
    # "Hybrid: Tern 4, 22°" where other clubs are plain Terns: the number is the club's
    plain = unnumbered and not between and scene.words(start, at).casefold() in known.heads
    if small and plain and not focus[-1].has("head.loft"):
        return 0
    coloured = after is not None and after.terminal == "COLOUR" and after.text[:1].isupper()
    if focus and focus[0].has("head.name") and flex_number(token):
        return 1 if coloured and flexed_mass(scene, at + 2) else 0  # "Skein 6.5 Red 65 g TX"
    if between and small and token.value >= 7 and _loft_of_driver(scene, at) and not _lofted_apart(scene, start, at):
        return 0  # "Driver Gannet 9 Alder 60 S"
    version = token.text.endswith(".0") and token.value < 7
    decimal = re.fullmatch(r"[1-6]\.\d", token.text) and not flex_number(token)
    plain = token.text.endswith(".5") and bool(focus) and focus[-1].family == "putter"
    if decimal and not plain and focus and not focus[-1].has("head.name"):
        return 1  # "Gannet 2.1 10.5": no figure of a club stands so behind its model
    wanted = bool(focus) and not focus[-1].has("head.name") and focus[-1].family != "putter"
    if (
        (wanted or scene.line_start(start))
        and 160 < token.value < 901 - 2 * (not focus or focus[-1].family in ("wedge", "putter"))
        and token.text.isdigit()
        and not phrase.amounts[0].unit
    ):
        return 1  # "Plover 300": no figure of a club without a unit is of that size
    if wanted and token.text.isdigit() and _closes_model(scene, known, start, at, after):
        return 1
    if token.text.isdigit() and 100 <= token.value <= 999 and scene.line_start(start) and numbered_club(scene, at + 1):
        return 1  # "Vetchling 100 4-PW": no mass stands before its club
    irons = len(focus) > 2 and not focus[0].has("head.name")
    irons = irons and all(draft.family == "iron" or draft.name == "pitching wedge" for draft in focus)
    closed = after is None or after.terminal in ("COMMA", "NEWLINE", "STOP")
    if irons and closed and token.text.isdigit() and 10 <= token.value < 50:
        return 1  # "irons 4 to 9, Harebell 20, Scree 90 regular": no loft is that of several irons
    mixed = len({draft.family for draft in focus}) > 1 and not any(draft.has("head.name") for draft in focus)
    alone = closed or (after is not None and after.lower == "but")
    if mixed and alone and token.text.isdigit() and token.value >= 10 and not scene.terminals & {"FLEX", "FLEXCODE"}:
        return 1  # "driver, 5 wood, 7 iron: all Gannet 54": no figure is that of them all, and no shaft is told
    if small and header is not None and header.family == "iron" and another_model(scene, at):
        return 0  # "Irons: Gannet U 4, Gannet CB 5-7": the club of this model
    if not (small or version):
        return 1 if between and 100 <= token.value <= 999 and scene.focus == [] else 0
    if between or version:
        return 1
    if after is not None and after.glued and after.kind == "word" and after.terminal not in ("FLEX", "FLEXCODE"):
        return 1
    focus = scene.focus
    if scene.cell == "head":
        return 0 if _lofts_in_column(scene, known, name, token.value) else 1
    family = focus[0].family if focus else ""
    loft_open = bool(focus) and not focus[0].has("head.loft")
    if family == "driver" and loft_open and token.value >= 7 and not _lofted_apart(scene, start, at):
        told = [each.terminal for each in tokens[at + 1 : at + 4]]
        lofted = told[1:] == ["NUM", "DEG"] and told[0] in ("COMMA", "LPAR", "PIPE", "SLASH")
        return 1 if lofted or _loft_later(scene, at) else 0  # "Driver Bullfinch 7, 10.5°", "Virga 7 (9 degrees)"
    if family == "putter" and loft_open and after is not None and after.terminal in ("DEG", "LOFT", "LIE", "INCH"):
        figured = behind is not None and behind.terminal in ("NUM", "EQ")
        return 1 if after.terminal in ("LOFT", "LIE") and figured else 0  # "Vole 5  loft 3°  lie 70°"
    return 1


def _lofted_in_next_cell(scene: Scene, at: int) -> bool:
    """True for a whole number that ends its cell of a row, with a letter or none, before a cell of a loft alone."""
    tokens, focus = scene.tokens, scene.focus
    end = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].text.isupper() and len(tokens[at + 1].text) < 3)
    kinds = [token.terminal for token in tokens[end : end + 3]]
    if kinds not in (["SLASH", "NUM", "SLASH"], ["PIPE", "NUM", "PIPE"]) or not tokens[at].text.isdigit():
        return False
    loft = tokens[end + 1].value
    open_ = len(focus) == 1 and not focus[0].has("head.loft") and focus[0].family in ("driver", "wood", "hybrid")
    return open_ and isinstance(loft, float) and loft_fits(loft, focus[0]) and not tokens[end].glued


def _bracketed_model(scene: Scene, start: int, at: int) -> bool:
    """True for a bracket that holds a name and a number alone, behind its club and before its loft."""
    tokens = scene.tokens
    bracketed = start > 0 and [tokens[start - 1].terminal, *[each.terminal for each in tokens[at + 1 : at + 3]]]
    if bracketed != ["LPAR", "RPAR", "NUM"] or not scene.focus or scene.focus[-1].has("head.loft"):
        return False
    loft = tokens[at + 2].value
    return isinstance(loft, float) and loft_fits(loft, scene.focus[-1])


def _loft_behind_comma(scene: Scene, at: int) -> bool:
    """True for a plain number behind the model of one wood or hybrid, before a comma and a loft told in degrees."""
    focus = scene.focus
    one = len(focus) == 1 and focus[0] in scene.drafts and focus[0].family in ("driver", "wood", "hybrid", "diron")
    onward = scene.tokens[at + 1 : at + 4]
    told = [each.terminal for each in onward] == ["COMMA", "NUM", "DEG"] and scene.tokens[at].text.isdigit()
    loft = onward[1].value if told else None
    if not isinstance(loft, float) or not 7 <= loft <= 36 or int(scene.tokens[at].text) < 10:
        return False
    return one and not focus[0].has("head.loft") and not focus[0].has("head.name")


def _lofts_of_each(scene: Scene, at: int) -> bool:
    """True for the 22 of "3 and 5 woods: Gannet 22, 15° and 18°": behind it stands a loft for each of the clubs.

    Woods or hybrids without numbers are as many as there are lofts in degrees, of which the number is none.
    """
    tokens, focus, start = scene.tokens, scene.focus, at + 1
    start += start < len(tokens) and (tokens[start].terminal in ("COMMA", "LPAR", "SLASH", "DASH", "EQ", "AT"))
    phrase = phrase_at(tokens, start) if start < len(tokens) else None
    if phrase is None or phrase.rule != "amounts" or any(draft.has("head.name") for draft in focus):
        return False
    if not focus or any(draft.family not in ("wood", "hybrid", "diron") or draft.has("head.loft") for draft in focus):
        return False
    values = [amount.value for amount in phrase.amounts]
    if values != sorted(set(values)) or not all(loft_fits(value, focus[0]) for value in values):
        return False
    return len(values) == len(focus) or (len(focus) == 1 and int(tokens[at].text) >= values[0])


def _figure_labelled(scene: Scene, at: int) -> bool:
    """True for "Gannet 10, loft 10.5" and the putter's "Stint 4 but cut to 33.5": the figure comes with its label."""
    tokens, focus, label = scene.tokens, scene.focus, at + 1
    if len(focus) != 1 or focus[0].has("head.name") or focus[0].has("head.loft") or scene.table is not None:
        return False
    while label < len(tokens) and label - at < 3 and (tokens[label].text == "," or tokens[label].lower == "but"):
        label += 1
    wanted = "LENGTH" if focus[0].family == "putter" else "LOFT"
    told = phrase_at(tokens, label) if label < len(tokens) and tokens[label].terminal == wanted else None
    return told is not None and told.rule == "labelled" and bool(told.amounts) and not told.directions


def _degrees_behind(scene: Scene, at: int) -> bool:
    """True where a loft in degrees follows right behind, but for letters of the model, and no loft stands before."""
    tokens, focus, start = scene.tokens, scene.focus, at + 1
    if focus and focus[-1].family == "putter" and tokens[at].text.isalpha() and not focus[-1].has("head.loft"):
        told = [token.terminal for token in tokens[start : start + 2]]
        return told == ["NUM", "INCH"]  # "putter stint four thirty-four inches"
    if not focus or focus[-1].has("head.loft") or focus[-1].family not in ("driver", "wood", "hybrid", "diron"):
        return False
    while start < len(tokens) and start - at < 3 and tokens[start].kind == "word" and tokens[start].text.isupper():
        start += 1
    start += start < len(tokens) and tokens[start].lower == "of"  # "a Ferry 8 of 9.5 degrees"
    number = tokens[at].value
    none = focus[-1].family == "driver" and isinstance(number, float) and 14 < number < 42  # no driver's loft or length
    start += none and start < len(tokens) and tokens[start].terminal == "COMMA"
    lofted = start + 1 < len(tokens) and tokens[start].terminal == "NUM" and tokens[start + 1].terminal == "DEG"
    value = tokens[start].value if lofted else None
    return isinstance(value, float) and 7 <= value <= 35 and tokens[start].line == tokens[at].line


def _loft_later(scene: Scene, at: int, *, words: int = 0) -> bool:
    """True where another loft of a driver stands behind the number at `at`, or behind so many `words` more."""
    tokens, start = scene.tokens, at + 1 + words
    number = cast(float, tokens[at].value)
    while start < len(tokens) and start - at < 6 and tokens[start].terminal in _BEFORE_LOFT:
        start += 1
    phrase = phrase_at(tokens, start) if start < len(tokens) else None
    if phrase is None or not phrase.amounts or phrase.rule not in ("bare", "labelled"):
        return False
    amount = phrase.amounts[0]
    behind = tokens[phrase.end].terminal if phrase.end < len(tokens) else "NEWLINE"
    lofty = 7 <= amount.value <= 13.5 and amount.unit in ("", "deg") and behind not in ("GRAM", "INCH", "CM", "MM")
    between = {token.terminal for token in tokens[at + 1 : start]}
    stamped = behind == "HEADWORD" or {"STOP", "HEADWORD"} <= between  # "… 8. It's a nine degree head"
    played = bool(between & {"AT", "LPAR", "NOTE", "SILENT"}) and abs(amount.value - number) <= 1.5  # "9 playing 9.5"
    told = {"DRIVER", "LPAR"} <= between and (amount.value == number or behind == "COMMA")  # "Cairn 9 driver (9°)"
    played = played and not (stamped or told or words or phrase.has("LOFT"))
    if "WITH" in between and not phrase.has("LOFT"):
        return False  # "Gannet 8 with 10.5 stamped on it"
    if "AND" in between and not (stamped or phrase.has("LOFT")):
        return False  # "Gannet 9 and 10.5"
    return lofty and not played and ("NEWLINE" not in between or amount.unit == "deg")


def _loft_labelled(scene: Scene, at: int) -> bool:
    """True where a loft that the club in focus can have, and has not yet, stands right behind its label."""
    phrase, focus = phrase_at(scene.tokens, at), scene.focus
    if phrase is None or phrase.rule != "labelled" or not phrase.amounts or not focus or focus[-1].has("head.loft"):
        return False  # "3 wood Gannet 10, loft standard"
    return phrase.tokens[0].terminal == "LOFT" and loft_fits(phrase.amounts[0].value, focus[-1])


def _closes_model(scene: Scene, known: Known, start: int, at: int, after: Token | None) -> bool:
    """True for the 60 of "Driver: Gannet 60, 10.5°": right behind the model, before a mark, and no loft or length."""
    tokens, focus = scene.tokens, scene.focus
    value = tokens[at].value
    assert isinstance(value, float)
    closed = after is None or after.terminal in ("COMMA", "NEWLINE", "STOP", "LPAR")
    led = start > 0 and (
        scene.lead >= scene.chunk_start
        or any(token.terminal == "SHAFTWORD" for token in tokens[max(0, start - 3) : start])
    )
    if not (closed and 50 <= value <= 160) or led or scene.table is not None or focus[-1] not in scene.drafts:
        return False
    heading = focus[-1].header or scene.header
    if known.role(tokens[start].text) in ("shaft", "grip") or (heading is not None and heading.has("head.name")):
        return False  # "Sand and lob wedges: Gannet, 55/12 and 59/8, Reed 115, R"
    if focus[-1].family == "wedge" and wedge_loft(value):
        onward = phrase_at(tokens, at + 2) if at + 2 < len(tokens) else None
        if onward is None or onward.rule != "bare" or focus[-1].has("head.loft"):
            return False
        return onward.amounts[0].unit == "deg" and wedge_loft(onward.amounts[0].value)
    return focus[-1].family != "putter"


def _model_in_words(scene: Scene, at: int, after: Token | None) -> bool:
    """True for "gannet two 10.5" and "putter stint seven": a number in words between a model and its loft, or alone."""
    focus = scene.focus
    if len(focus) != 1 or focus[0].has("head.name") or scene.source.spoken or not terse(scene, at):
        return False
    figure = after.value if after is not None and after.terminal == "NUM" and after.text[:1].isdigit() else None
    value = figure if isinstance(figure, float) else 0.0
    if focus[0].family == "putter":
        return after is None or after.kind == "newline" or 28 <= value <= 40
    return focus[0].family in ("driver", "wood", "hybrid") and 7 <= value <= 30


def _lofts_in_column(scene: Scene, known: Known, name: str, value: float) -> bool:
    """True for the 9 of "Guillemot 9" above a "Guillemot 18": no column tells lofts, the one of heads does."""
    focus, columns = scene.focus, scene.table or []
    driver = bool(focus) and focus[0].family == "driver" and not focus[0].has("head.loft")
    return driver and value >= 7 and name in known.heads and not {"loft", "target"} & set(columns)


def _model_before_range(scene: Scene, at: int, end: int) -> bool:
    """True for the 5 of "4 iron Gannet 5 thru PW": an iron, its model, and where the irons end."""
    tokens, focus = scene.tokens, scene.focus
    one = len(focus) == 1 and focus[0].family == "iron" and focus[0].number is not None
    if not one or focus[0].has("head.name") or focus[0] not in scene.clause_drafts:
        return False
    after = tokens[end] if end < len(tokens) else None
    closed = after is None or after.kind in ("mark", "newline")
    return closed and tokens[at + 1].terminal == "RANGE"


def _spoken_number(scene: Scene, start: int, at: int) -> bool:
    """True for "the Ousel three, eleven and a half": a small number said with the model, before a pause."""
    tokens = scene.tokens
    focus = scene.focus
    after = tokens[at + 1].terminal if at + 1 < len(tokens) else "NEWLINE"
    value = tokens[at].value
    small = isinstance(value, float) and 2 <= value <= 6 and value == int(value)
    wanted = len(focus) == 1 and not focus[0].has("head.name") and focus[0].family in ("driver", "putter", "wood")
    pointed = start > 0 and tokens[start - 1].lower in ("the", "a", "an") and tokens[at - 1].text[:1].isupper()
    onward = tokens[at + 2] if after == "COMMA" and at + 2 < len(tokens) else None
    lofted = onward is not None and isinstance(onward.value, float) and 7 <= onward.value <= 30
    pointed = pointed or (lofted and not scene.cased and focus[0].family != "putter")  # "gannet two, ten and a half"
    return small and wanted and pointed and after in ("COMMA", "STOP", "NEWLINE", "BREAK", "FLEX")


def model_number(scene: Scene, known: Known, start: int, at: int) -> bool:
    """True for the 4 of "Wigeon 4 (15°, 18°)": the bracket's several lofts are clubs of one model."""
    tokens = scene.tokens
    closing = at + 2
    while closing < len(tokens) and tokens[closing].terminal not in ("RPAR", "NEWLINE", "STOP"):
        closing += 1
    inside = [token for token in tokens[at + 2 : closing] if token.kind == "number"]
    return len(inside) > 1 or scene.words(start, at + 1).casefold() in known.heads


def _lofted_apart(scene: Scene, start: int, at: int) -> bool:
    """True in "head: Knot 9, loft: 10.5": name and loft each have a label of their own."""
    tokens = scene.tokens
    labelled = start > 1 and tokens[start - 1].terminal == "EQ" and tokens[start - 2].terminal == "HEADWORD"
    behind = [token for token in tokens[at + 1 : at + 5] if token.terminal not in ("COMMA", "NEWLINE", "STOP")]
    return labelled and [token.terminal for token in behind[:2]] == ["LOFT", "EQ"]


def _closes_labelled_head(scene: Scene, start: int, at: int) -> bool:
    """True for the 44 of "Model: Gannet 44" where the line ends and the loft or the length has a label of its own."""
    tokens, focus = scene.tokens, scene.focus
    label = start - 1 - (start > 1 and tokens[start - 1].terminal == "EQ")
    if label < 0 or tokens[label].terminal != "HEADWORD" or not focus or focus[-1].has("head.name"):
        return False
    if at + 1 < len(tokens) and tokens[at + 1].terminal not in ("COMMA", "NEWLINE", "STOP", "SLASH", "PIPE"):
        return False
    value = tokens[at].value
    assert isinstance(value, float)
    labels = _labels_behind(scene, at + 1)
    wanted = {"LOFT"} if loft_fits(value, focus[-1]) else {"LOFT", "LENGTH", "SHAFTWORD"}
    return bool(labels & wanted)


def _labels_behind(scene: Scene, at: int) -> set[str]:
    """The labels that open the next lines and stretches of the same club: LOFT, LENGTH, SHAFTWORD …"""
    tokens, labels = scene.tokens, set()
    for index in range(at + 1, min(at + _SHEET, len(tokens))):
        opens = tokens[index - 1].kind in ("newline", "mark") and tokens[index].kind == "word"
        if opens and (tokens[index].terminal == "HEADWORD" or tokens[index].terminal in FAMILIES):
            break
        if opens:
            labels.add(tokens[index].terminal)
    return labels


def _loft_of_driver(scene: Scene, at: int) -> bool:
    """True for a number behind a driver's name where no other number of the clause can be its loft."""
    tokens = scene.tokens
    focus = scene.focus
    if not focus or focus[-1].family != "driver" or focus[-1].has("head.loft") or focus[-1].has("head.name"):
        return False
    for index in range(at + 1, scene.clause_end(at)):
        token, club = tokens[index], phrase_at(tokens, index)
        if club is not None and club.rule == "club":
            break
        if token.kind == "number" and isinstance(token.value, float) and 7 <= token.value <= 14 and not token.sign:
            return False
    return True


def club_word_inside(scene: Scene, at: int, after: Token) -> int:
    """ "Ember Hybrid 95 X", "Strand Iron 60": a kind of club in a shaft's name, before a mass or a flex."""
    focus = scene.focus
    if not focus or (focus[0] not in scene.drafts and not focus[0].facts):
        return 0
    token = scene.tokens[at]
    if scene.cell == "shaft" and after.terminal == "NUM" and token.text[:1].isupper():
        return 1  # "| Carr Wedge 125 | S |"
    own = {"IRON": ("iron", "wedge"), "WEDGE": ("wedge",)}.get(token.terminal, ())
    lofted = after.terminal == "NUM" and isinstance(after.value, float) and after.value >= 15
    if scene.table is not None and token.text[:1].isupper() and lofted and focus[-1].family in own:
        return 0 if focus[-1].has("head.name") else 1  # "| 7 iron | Hobnail Iron 30° |"
    if not (token.text[:1].isupper() or focus[0].has("head.name")) or token.lower.endswith("s"):
        return 0
    if scene.cell == "shaft" and after.terminal in ("PIPE", "NEWLINE"):
        return 1
    if after.terminal in ("FLEX", "FLEXCODE"):
        return 1
    if after.terminal == "NUM" and isinstance(after.value, float) and 40 <= after.value <= 150:
        behind = scene.tokens[at + 2] if at + 2 < len(scene.tokens) else None
        flexed = behind is not None and behind.terminal in ("FLEX", "FLEXCODE", "GRAM")
        return 1 if flexed or (after.value >= 66) else 0
    return 0
