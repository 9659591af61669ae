"""Names kept whole where a word of the trade, a letter or a number is part of them: "Linter Spin", "QT-Mini"."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise

from asplayed.intake.ahead import TAILS
from asplayed.intake.groups import FAMILIES
from asplayed.intake.model_letters import join, start_of, told_kind
from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import LEAD, Scene
from asplayed.intake.tokens import DASHES, Token, gap
from asplayed.intake.wording import plain_word

# Words that makers end a model's name with, and that label no figure.
_TAILS = {"SPIN", "SOLEWORD", "SIZE", "LAUNCH"}
_KINDS = {"DRIVER", "HYBRID", "DIRON", "IRON", "WOOD", "WEDGE"}
# The kind of club told before a name, and the kinds whose word may end its head's or its shaft's name.
_KIN = {
    "DRIVER": {"WOOD", "DRIVER"}, "MINIDRIVER": {"WOOD"}, "WOOD": {"WOOD"}, "HYBRID": {"HYBRID", "IRON"},
    "DIRON": {"DIRON", "HYBRID", "IRON"}, "IRON": {"IRON", "DIRON"}, "WEDGE": {"WEDGE", "IRON"},
}  # fmt: skip
# What tells how the writer writes the trade's words in mid-line.
_TRADE = {
    *FAMILIES, "NAMEDWEDGE", "SPIN", "SOLEWORD", "LAUNCH", "FLEX", "GRIPWORD", "SHAFTWORD", "HEADWORD", "BALLWORD",
    "LENGTH", "LOFT", "LIE", "BOUNCE", "STD",
}  # fmt: skip
_BEHIND_NUMBER = {*_TAILS, *TAILS, "OPEN", "EVENTKIND"}  # "Chaffer 5 Long", "Tern 8 Low"
_QUOTES = {'"', "“", "”"}
_QUOTED = 6  # tokens of a name between them, and its opening mark
_SHADES = {"grey", "gray", "silver", "gold", "brown", "bronze", "copper", "navy"}
_ONE_CASE = {"SOLE", "LEVEL", "PLACE", "SPIN", "NOTE"}  # what may end a name where no capital tells it
_HOUSE = {"son", "sons", "daughter", "daughters", "brother", "brothers", "bros", "sisters", "co", "company", "partners"}
_EVENT = {"EVENTKIND", "OPEN"}
_DATED = {"MONTH", "DATE", "WORD", *_EVENT}
_APART = {"SILENT", "AND", "COMMA", "NAMEDWEDGE", *FAMILIES}  # what no name ends with
_OF_EVENTS = {"for", "at", "won", "win", "winning", "wins", "in", "after", "before", "week", "since", "the"}
_FIGURES = {"NUM", "SNUM", "GRAM", "FLEX", "FLEXCODE"}
_UNITS = {"DEG", "INCH", "MM", "CM", "METRE", "GRAM", "CPM", "PCT"}
_CLUBS_LETTERS = ("DIRON", "HYBRID", "WOOD", "NAMEDWEDGE")


def _coded_shafts(tokens: list[Token]) -> list[int]:
    """Where the UT of "UT-7, 58 g, R" stands: letters and a number before a shaft's mass are its name and no club."""
    found = []
    for at in range(len(tokens) - 4):
        letters, hyphen, number = tokens[at : at + 3]
        tied = hyphen.glued and number.glued and hyphen.text == "-" and number.text.isdigit()
        coded = tied and letters.terminal in _CLUBS_LETTERS and letters.text.isupper() and len(letters.text) == 2
        behind = tokens[at + 3 : at + 6]
        if coded and behind[0].terminal in ("COMMA", "PIPE"):
            behind = behind[1:]
        if coded and len(behind) > 1 and massive(behind) and behind[1].terminal in ("GRAM", "PIPE", "FLEX", "FLEXCODE"):
            found.append(at)
    return found


def keep_names_whole(scene: Scene) -> None:
    """Make each word of the trade that ends a name a word of it."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        if _tied(scene, at):
            _hyphened(tokens, at)
        elif _saint(tokens, at):
            tokens[at + 1].terminal = "HYPHEN"
    for at in _coded_shafts(tokens):
        _hyphened(tokens, at)
    for at in _partners(tokens):
        tokens[at].terminal = "HYPHEN"
        join(tokens[at + 1])
    for start, end in _quoted(tokens):
        for part in range(start, end):
            join(tokens[part])
    if scene.source.text.isupper() or scene.source.text.islower():
        for at in [at for at in range(1, len(tokens)) if _tail_of_one_case(tokens, at)]:
            join(tokens[at])
    for at in range(3, len(tokens) - 1):
        if _named_as_a_neck(scene, at):
            join(tokens[at])
    small = _writes_small(tokens)
    numbered = _numbered(tokens)
    for at in range(1, len(tokens)):
        for part in range(at, at - _words_of_name(scene, at, small, numbered), -1):
            join(tokens[part])
    events = {at for at in range(1, len(tokens)) if tokens[at].terminal in _EVENT and _behind_name(tokens, at)}
    models = {(tokens[at - 1].text, tokens[at].text) for at in events if _no_event(scene, at)}
    models |= {
        (one.text, two.text[:-1]) for one, two in pairwise(tokens) if two.text[-1:] == "s"
    }  # "all four Tamber Plates"
    models |= {(one.text, two.text) for one, two in pairwise(tokens) if one.terminal == two.terminal == "WORD"}
    for at in events:
        if (tokens[at - 1].text, tokens[at].text) in models:
            join(tokens[at])


def _hyphened(tokens: list[Token], at: int) -> None:
    """Make one name of two words and the hyphen between them."""
    tokens[at + 1].terminal = "HYPHEN"
    for part in (at, at + 2):
        join(tokens[part])


def _words_of_name(scene: Scene, at: int, small: bool, numbered: Counter[tuple[str, str]]) -> int:
    """How many tokens up to this one end a name although they say something of their own: 0, 1 or 2."""
    tokens = scene.tokens
    if _number_word(tokens, at) or _labelled(tokens, at) or _flex_told_later(scene, at) or _small_tail(tokens, at):
        return 1
    if small and (_tail(tokens, at) or _kind(tokens, at)):
        return 1
    if small and at > 1 and _of_two_words(tokens, at):
        return 2
    return 2 if _shade(tokens, at) or (small and at > 1 and _behind_number(tokens, at, numbered)) else 0


def massive(tokens: list[Token]) -> bool:
    """True where a number stands that can be a shaft's mass."""
    value = tokens[0].value if tokens and tokens[0].terminal == "NUM" else None
    return isinstance(value, float) and 38 <= value <= 150


def _title(token: Token) -> bool:
    return token.text[:1].isupper() and not token.text.isupper() and " " not in token.text


def _behind_name(tokens: list[Token], at: int) -> bool:
    """True for a capital word one blank behind a name's, on its line."""
    before, token = tokens[at - 1 : at + 1]
    named = before.terminal in ("WORD", "COLOUR") and before.text[:1].isupper()
    close = token.line == before.line and gap(before, token) == 1
    return named and close and _title(token) and not plain_word(before)


def _writes_small(tokens: list[Token]) -> bool:
    """True where no word of the trade has a capital in mid-line but behind a name: there the capital is a name's."""
    for at in range(1, len(tokens)):
        before, token = tokens[at - 1 : at + 1]
        if token.terminal not in _TRADE or not _title(token) or token.line != before.line:
            continue
        model = at > 1 and before.kind == "number" and _title(tokens[at - 2])  # "Skerret 2 Rescue" tells neither
        if (before.kind == "number" and not model) or before.terminal in _APART:
            return False
    return True


def _saint(tokens: list[Token], at: int) -> bool:
    """True for the "St" of "St. Orm 60 S": its dot ends nothing."""
    saint, dot, name = tokens[at : at + 3]
    return saint.text == "St" and dot.text == "." and dot.glued and name.line == saint.line and _title(name)


def _quoted(tokens: list[Token]) -> list[tuple[int, int]]:
    """Where a name stands between quotation marks: the "Short Straw" of irons that are so called."""
    found = []
    for at in range(len(tokens) - 2):
        if tokens[at].text not in _QUOTES or tokens[at].terminal != "SILENT":
            continue
        end = at + 1
        while end < min(len(tokens), at + _QUOTED) and _title(tokens[end]) and tokens[end].text.isalpha():
            end += 1
        closed = end < len(tokens) and tokens[end].text in _QUOTES and tokens[end].glued
        if closed and any(token.terminal == "WORD" for token in tokens[at + 1 : end]):
            found.append((at + 1, end))
    return found


def _partners(tokens: list[Token]) -> list[int]:
    """Where "and" ties words of one maker: "Lathe and Sons", or "Finch and Crole" told twice and neither word alone."""
    houses = [at for at in range(1, len(tokens) - 1) if _house(tokens, at)]
    places = [
        at
        for at in range(1, len(tokens) - 1)
        if tokens[at].lower == "and"
        and tokens[at - 1].terminal == tokens[at + 1].terminal == "WORD"
        and all(_title(word) and word.line == tokens[at].line for word in (tokens[at - 1], tokens[at + 1]))
        and not plain_word(tokens[at - 1])
        and not plain_word(tokens[at + 1])
    ]
    pairs = Counter((tokens[at - 1].text, tokens[at + 1].text) for at in places)
    words = Counter(token.text for token in tokens)
    found = []
    for at in places:
        first, last = tokens[at - 1].text, tokens[at + 1].text
        if pairs[first, last] > 1 and words[first] == words[last] == pairs[first, last]:
            found.append(at)
    return found + houses


def _house(tokens: list[Token], at: int) -> bool:
    """True for the "and" of "Lathe and Sons", "REED & CO": behind it stands who else the house belongs to."""
    name, joint, house = tokens[at - 1 : at + 2]
    alike = (name.text.istitle(), name.text.isupper()) == (house.text.istitle(), house.text.isupper())
    named = joint.lower == "and" and name.terminal == "WORD" and not plain_word(name)
    return named and alike and house.lower in _HOUSE and house.line == name.line


def _numbered(tokens: list[Token]) -> Counter[tuple[str, str]]:
    """How often each name stands before each small number: "Skerret 2" three times."""
    return Counter(
        (tokens[at - 1].lower, tokens[at].text)
        for at in range(1, len(tokens))
        if tokens[at].text.isdigit() and tokens[at - 1].terminal == "WORD" and _title(tokens[at - 1])
    )


def _behind_number(tokens: list[Token], at: int, numbered: Counter[tuple[str, str]]) -> bool:
    """True for the "Rescue" of "Skerret 2 Rescue" beside a "Skerret 2", the "Long" of "Chaffer 5 Long"."""
    name, number, token = tokens[at - 2 : at + 1]
    close = gap(name, number) == 1 and gap(number, token) == 1 and token.line == name.line
    named = name.terminal == "WORD" and _title(name) and not plain_word(name)
    if not (close and named and _title(token) and number.text.isdigit() and int(number.text) < 100):
        return False
    if token.terminal in _KINDS and not token.lower.endswith("s"):
        kin = token.terminal in _KIN.get(told_kind(tokens, start_of(tokens, at - 1)), ())
        return kin and (numbered[name.lower, number.text] > 1 or massive(tokens[at + 1 : at + 2]))
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closed = after is None or after.kind in ("mark", "newline", "number")
    return token.terminal in _BEHIND_NUMBER and closed and int(number.text) < 13


def _tail(tokens: list[Token], at: int) -> bool:
    """True for the "Spin" of "Linter Spin 120 S", the "Steel" of "Cotter Steel, 110 g": it labels nothing there."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if tokens[at].terminal not in _TAILS or (after is not None and after.terminal in ("LEVEL", "SOLEWORD", "EQ")):
        return False
    before, token = tokens[at - 1 : at + 1]
    shouted = before.terminal in ("WORD", "COLOUR") and before.text.isupper() and token.text.isupper()
    weighed = gap(before, token) == 1 and token.line == before.line and massive(tokens[at + 1 : at + 2])
    return _behind_name(tokens, at) or (shouted and weighed)


def _small_tail(tokens: list[Token], at: int) -> bool:
    """True for the "spin" of "52 56 60, all vole spin.", the "grind" of "52: dray grind": a list without capitals."""
    before, token = tokens[at - 1 : at + 1]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closed = after is None or (after.kind in ("mark", "newline") and after.text not in (":", "-"))
    unknown = before.terminal == "WORD" and before.text.islower() and len(before.text) > 2
    unknown = unknown and not plain_word(before) and gap(before, token) == 1
    if token.lower == "steel":
        return unknown and _weighed(tokens, at + 1)  # "w the cobnut steel 95 r"
    return token.terminal in ("SPIN", "SOLEWORD") and token.text.islower() and closed and unknown


def _tail_of_one_case(tokens: list[Token], at: int) -> bool:
    """True for the "WIDE" of "DRIVER, BASTION WIDE, 10.5 DEG", where all is written alike: between name and mark."""
    before, token = tokens[at - 1 : at + 1]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closed = after is None or (after.kind in ("mark", "newline") and after.text not in (":", "="))
    lofted = after is not None and after.kind == "number" and token.terminal in ("SOLE", "LEVEL")
    unknown = before.terminal == "WORD" and len(before.text) > 2 and not plain_word(before)
    close = gap(before, token) == 1 and token.line == before.line and token.text.isalpha()
    if token.terminal not in _ONE_CASE or not (unknown and close and (closed or lofted)):
        return False
    return told_kind(tokens, start_of(tokens, at)) in ("DRIVER", "WOOD", "HYBRID", "DIRON", "IRON")


def _named_as_a_neck(scene: Scene, at: int) -> bool:
    """True for the "spud" of "putter the spud, 34in, centre shaft": its neck is told behind it."""
    tokens = scene.tokens
    led = [token.lower for token in tokens[at - 1 : at]]
    putter = any(token.terminal == "PUTTER" for token in tokens[max(0, at - 3) : at])
    closed = tokens[at + 1].kind in ("mark", "newline")
    if tokens[at].terminal != "NECK" or led not in (["the"], ["a"], ["an"]) or not (putter and closed):
        return False
    return any(token.terminal == "NECK" for token in tokens[at + 1 : scene.clause_end(at)])


def _shade(tokens: list[Token], at: int) -> bool:
    """True for the "blue" of "mink blue 60g S", the "grey" of "Wickham steel grey 95 R": a shade ends a name."""
    before, token = tokens[at - 1 : at + 1]
    if not (token.terminal == "COLOUR" or token.lower in _SHADES) or not token.text.islower():
        return False
    led = tokens[at - 2] if at > 1 else None
    named = led is not None and led.terminal == "WORD" and led.text[:1].isupper() and gap(led, before) == 1
    tinted = before.terminal == "WORD" and before.text.islower() and not plain_word(before)
    if gap(before, token) != 1 or before.line != token.line or not (tinted or (named and before.lower == "steel")):
        return False
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    flexed = after is not None and after.terminal in ("SHAFTWORD", "FLEX", "FLEXCODE")
    gripped = named and any(
        one.terminal == "GRIPWORD" and one.line == token.line for one in tokens[max(0, at - 6) : at]
    )
    return flexed or massive(tokens[at + 1 : at + 2]) or gripped


def _of_two_words(tokens: list[Token], at: int) -> bool:
    """True for the "Low Spin" of "Wexcombe Low Spin 56": both behind a wedge's model and before its loft."""
    level, after = tokens[at - 1], tokens[at + 1] if at + 1 < len(tokens) else None
    told = tokens[at].terminal in ("SPIN", "LAUNCH") and level.terminal == "LEVEL" and _behind_name(tokens, at - 1)
    lofted = after is not None and after.terminal == "NUM" and isinstance(after.value, float) and after.value >= 44
    return told and _title(tokens[at]) and lofted and told_kind(tokens, start_of(tokens, at - 1)) == "WEDGE"


def _kind(tokens: list[Token], at: int) -> bool:
    """True for the "Hybrid" of "5 hybrid: Gimlet Hybrid 25": the club is told before, and then its model."""
    token = tokens[at]
    if token.terminal not in _KINDS or token.lower.endswith("s") or not _behind_name(tokens, at):
        return False
    return _weighed(tokens, at + 1) or token.terminal in _KIN.get(told_kind(tokens, start_of(tokens, at)), ())


def _weighed(tokens: list[Token], at: int) -> bool:
    """True where a shaft's mass stands in grams or before a flex: "have Cirrel Rose Iron, 55 g"."""
    at += at < len(tokens) and tokens[at].terminal == "COMMA"
    return massive(tokens[at : at + 1]) and any(
        token.terminal in ("GRAM", "FLEX", "FLEXCODE") for token in tokens[at + 1 : at + 2]
    )


def _labelled(tokens: list[Token], at: int) -> bool:
    """True for the "Tempo" of "Model: Tempo 8": behind its label a capital word opens the name."""
    label = at > 1 and tokens[at - 1].text == ":" and tokens[at - 2].terminal == "HEADWORD"
    opens = tokens[at].terminal in {"NOTE", "SPIN", "LAUNCH", "CLICK", *_EVENT, *TAILS}
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return label and opens and _title(tokens[at]) and (after is None or after.text != ":")


def _flex_told_later(scene: Scene, at: int) -> bool:
    """True for the "Ladies" of "Elderby Ladies 12°, Pippin 45 L": behind a model, and the shaft's flex is told too."""
    tokens = scene.tokens
    if tokens[at].terminal != "FLEX" or len(tokens[at].text) < 4 or not _behind_name(tokens, at):
        return False
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    loft = after.value if after is not None and after.terminal == "NUM" else None
    lofted = isinstance(loft, float) and 7 <= loft <= 36
    kind = after is not None and after.terminal in _KINDS and _title(after)
    told = told_kind(tokens, start_of(tokens, at))
    return (
        bool(told)
        and (lofted or kind)
        and any(
            _weighed(tokens, place) and tokens[place + 1].terminal in ("FLEX", "FLEXCODE")
            for place in range(at + 2, scene.clause_end(at) - 1)
        )
    )


def _number_word(tokens: list[Token], at: int) -> bool:
    """True for the "Nine" of "a Spindle Nine driver": a number in words with a capital, behind a name."""
    token, after = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else None
    if token.kind != "number" or not token.text.isalpha() or not _behind_name(tokens, at):
        return False
    return after is None or not (after.terminal in _UNITS or (after.glued and after.text in DASHES))


def _tied(scene: Scene, at: int) -> bool:
    """True for "QT-Mini", the "X-Blade" of "Latch X-Blade": capital letters tied to a capital word that is no flex."""
    letters, dash, word = scene.tokens[at : at + 3]
    tight = dash.text in DASHES and dash.glued and word.glued and word.kind == "word"
    if not tight or not letters.text.isupper() or len(letters.text) > 3 or not _title(word) or len(word.text) < 3:
        return False
    before = scene.tokens[at - 1]
    behind = before.terminal == "WORD" and before.text[:1].isupper() and gap(before, letters) == 1
    return behind and word.terminal != "FLEX" and letters.terminal in ("WORD", "LETTER", "FLEXCODE")


def _no_event(scene: Scene, at: int) -> bool:
    """True for "a Cresswell Open, ten degrees", "Irons: Fescue Open": behind its club, or behind "a"."""
    tokens, start = scene.tokens, start_of(scene.tokens, at)
    if start == 0:
        return False
    if tokens[start - 1].lower in ("a", "an"):
        return True
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if after is not None and after.terminal in ("SHAFTWORD", "GRIPWORD"):
        return True
    if after is not None and _title(after) and after.line == tokens[at].line and after.terminal not in _DATED:
        return True  # "Calder Open Blades from 4 to PW"
    behind = [token.terminal for token in tokens[at + 1 : at + 4]]
    if behind[:1] == ["COMMA"] and behind[1:] in (["NUM", "DEG"], ["NUM", "GRAM"], ["NUM", "INCH"]):
        return True  # "the Teasdale Cup, fifty-five degrees"
    low = start
    while low > max(0, start - LEAD) and tokens[low - 1].terminal not in ("NEWLINE", "STOP"):
        low -= 1
    words = tokens[low:start]
    if any(word.lower in _OF_EVENTS or word.terminal in ("EVENTWORD", "DATE", "MONTH") for word in words):
        return False
    return any(
        (phrase := phrase_at(tokens, place)) is not None and phrase.has(*FAMILIES) for place in range(low, start)
    )
