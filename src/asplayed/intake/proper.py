"""Words of the trade that are written as proper names: "Open Sea 9", "Flat Holm 22"."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.ahead import numbered_club
from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import phrase_at, says
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import DASHES, Token, gap
from asplayed.intake.wording import plain_word

# Words that say a direction, a level or a shape, and that makers also take for names.
_VERBS = {
    "run", "runs", "running", "play", "plays", "one", "first", "second", "third", "top", "angle", "plus", "minus",
    "new", "fit", "build", "finish", "lot", "like", "up", "down", "around", "over", "under", "next", "go", "going",
    "end", "ends",
}  # fmt: skip
_SHAPES = {"mallet", "blade"}  # a putter's, and often the end of its name
_BEFORE_FLEX = {"GRAM", "COMMA", "PIPE", "SLASH", "FLEXWORD", "EQ"}
# The clubs that a letter alone may stand for.
_CLUB_LETTERS = {
    "D": {"DRIVER"}, "F": {"WOOD"}, "H": {"HYBRID"}, "I": {"IRON"}, "W": {"WOOD", "WEDGE"}, "P": {"PUTTER", "WEDGE"},
}  # fmt: skip
_CELLS = 12  # tokens of a line before its head
_LEADS = {"the", "a", "an", "called", "named", "is", "it's", "its", "are", "they're"}  # what a name stands behind
_ABBREVIATIONS = {
    "Bros", "Co", "Jr", "Sr", "Ltd", "Mk", "Nr", "Ser",
    "Benj", "Chas", "Danl", "Edw", "Fred", "Geo", "Hy", "Jas", "Jno", "Jos", "Robt", "Saml", "Theo", "Thos", "Wm",
}  # fmt: skip
_SIZES = {"little", "big", "small"}
_TAKEN = {"OPEN", "CLOSED", "FLAT", "UPRIGHT", "LONG", "SHORT", "STRONG", "LEVEL", "SOLE", "NECK", "PLACE", "TURNED"}
# Words of the trade that end a model's name before "heads".
_BEFORE_HEADS = {"FLEXCODE", "LETTER", "SOLEWORD", "SOLE", "SPIN", "LEVEL", "PLACE", "SIZE", "BENT", "NOTE", "COLOUR"}


def free_proper_names(scene: Scene) -> None:
    """Give back to names each capital word of the trade that stands before another capital word nobody knows."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        token, before, after = tokens[at], tokens[at - 1], tokens[at + 1]
        if token.terminal not in _TAKEN or scene.claims[at] or not _title_case(token) or not _title_case(after):
            continue
        if after.terminal != "WORD" or after.glued or plain_word(after) or len(after.text) < 3:
            continue
        spoken_of = before.terminal == "EQ" and before.text != ":"
        if (
            spoken_of
            or before.kind == "number"
            or before.terminal in ("DEG", "INCH", "MM", "CM", "AND", "NEWLINE", "STOP")
        ):
            continue
        token.terminal = "WORD"
        token.value = token.lower


def free_compounds(scene: Scene) -> None:
    """The "Grip-On" of "Sorrel Grip-On": two capital words and a hyphen behind a name go on with it."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        name, word, hyphen, last = tokens[at - 1 : at + 3]
        tied = hyphen.text in DASHES and hyphen.glued and last.glued and last.kind == "word"
        written = tied and all(_title_case(token) for token in (name, word, last)) and name.terminal == "WORD"
        if written and word.terminal in ("GRIPWORD", "SHAFTWORD", "HEADWORD", "BALLWORD") and not word.glued:
            word.terminal = last.terminal = "WORD"
            hyphen.terminal = "HYPHEN"


def free_grips_of_heads(scene: Scene) -> None:
    """The "Gannet Grip" of "GW 50 · Gannet Grip · Reed 130 g X": a model, behind its club and before its shaft."""
    tokens = scene.tokens
    for at in range(2, len(tokens) - 1):
        opens, name, word, after = tokens[at - 2 : at + 2]
        marked = opens.text in ("·", "|", "/", "\t") and after.text in (opens.text, ",") and not opens.glued
        if word.terminal != "GRIPWORD" or word.text != "Grip" or not marked or name.terminal != "WORD":
            continue
        first = at - 2
        while first > 0 and tokens[first - 1].kind != "newline" and at - first < _CELLS:
            first -= 1
        alone = not any(token.text == opens.text and not token.glued for token in tokens[first : at - 2])
        rest = [token.terminal for token in tokens[at : scene.clause_end(at)]]
        if alone and _title_case(name) and ("FLEXCODE" in rest or "FLEX" in rest):
            word.terminal, word.value = "WORD", word.lower


def free_letters(scene: Scene) -> None:
    """ "Driver: K-7 Dunlark", "irons 6-PW P-21 Dunlark": a letter and a number before a model belong to its name."""
    tokens = scene.tokens
    small = any(token.kind == "number" and token.text.isalpha() and token.text.islower() for token in tokens)
    for at in range(1, len(tokens)):
        if _number_of_name(scene, at, small=small) or _number_before_name(scene, at):
            tokens[at].terminal, tokens[at].kind = "WORD", "word"  # "Larch Seven Driver", "the Seven Larch"
    coded = {(tokens[at].text, tokens[at + 2].text) for at in range(len(tokens) - 3) if _coded_name(scene, at)}
    for at in range(len(tokens) - 2):
        letters, dash, number = tokens[at : at + 3]
        if _tight(letters, dash, number) and (letters.text, number.text) in coded:
            letters.terminal = number.terminal = "WORD"
            letters.kind = number.kind = "word"
            dash.terminal = "HYPHEN"


def _tight(letters: Token, dash: Token, number: Token) -> bool:
    """True for one to three capital letters, a hyphen and a number, written as one."""
    tight = dash.text in ("-", "‑") and dash.glued and number.glued
    return tight and len(letters.text) <= 3 and letters.text.isupper() and number.text.isdigit()


def _coded_name(scene: Scene, at: int) -> bool:
    """True where "K-7" stands before a model's word, or "PT-7" before a shaft's mass and flex or behind its mass."""
    tokens = scene.tokens
    letters, dash, number, model = tokens[at : at + 4]
    if not _tight(letters, dash, number) or (model.glued and model.kind != "mark") or scene.claims[at]:
        return False
    before = [token.terminal for token in tokens[max(0, at - 2) : at]]
    if model.terminal == "SHAFTWORD" or flexed_mass(scene, at + 3) or before[-1:] == ["GRAM"]:
        return True  # "PT-7 45 senior", "seventy-gram PT-7 shafts"
    if "SHAFTWORD" in before and not any(token.kind == "newline" for token in tokens[max(0, at - 2) : at]):
        return True  # "shafts from PT-7"
    if model.terminal != "WORD" or not model.text[:1].isupper() or len(letters.text) > 1:
        return False
    if letters.text not in _CLUB_LETTERS or (at and (tokens[at - 1].terminal == "EQ" or tokens[at - 1].lower == "the")):
        return True  # "Model: H-3 Dunlark"
    line = [token for token in tokens[max(0, at - 12) : at + 8] if token.line == letters.line]
    clubs = [token.terminal for token in line if token.terminal in FAMILIES]
    named = any(token.terminal in FAMILIES and token.start < letters.start for token in line)
    return named or (bool(clubs) and clubs[0] not in _CLUB_LETTERS[letters.text])  # not "H-3 Dunlark 19": the club


def free_shafts(scene: Scene) -> None:
    """ "Ferrule Green 90 regular", "Down 45 senior": a capital word of the trade before a mass and a flex is a name."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        if tokens[at].text == "A" and (_closed_letter(tokens, at) or (at + 1 < len(tokens) and _senior(tokens, at))):
            tokens[at].terminal, tokens[at].value = "FLEXCODE", "A"
    for at in range(1, len(tokens) - 2):
        token = tokens[at]
        said = token.terminal == "NOTE" or token.terminal in _TAKEN | {"DOWN", "UP"}
        if not said or not _title_case(token) or tokens[at - 1].terminal in ("NEWLINE", "STOP"):
            continue
        end = at + 1
        while end < len(tokens) and tokens[end].terminal in ("WORD", "COLOUR") and _title_case(tokens[end]):
            end += 1
        behind = [each for each in tokens[end : end + 3] if each.terminal != "GRAM"]
        mass = behind[0].value if behind and behind[0].terminal == "NUM" else None
        massive = isinstance(mass, float) and 38 <= mass <= 150
        if massive and len(behind) > 1 and behind[1].terminal in ("FLEX", "FLEXCODE"):
            token.terminal, token.value = "WORD", token.lower


def _closed_letter(tokens: list[Token], at: int) -> bool:
    """True for the A of "a Reed shaft in A": behind "in", and no article before a mark or the line's end."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closed = after is None or after.kind == "newline" or after.text in (",", ".", ";", ")")
    return tokens[at].terminal == "SILENT" and tokens[at - 1].lower == "in" and closed


def _senior(tokens: list[Token], at: int) -> bool:
    """True for the A of "with the Sallow 40 A in it": behind a shaft's name and mass, in the middle of a sentence."""
    name, mass, letter, after = tokens[at - 2 : at + 2]
    massive = mass.terminal == "NUM" and isinstance(mass.value, float) and 38 <= mass.value <= 110
    named = name.terminal in ("WORD", "COLOUR") and name.text[:1].isupper()
    return letter.text == "A" and named and massive and after.terminal in ("IN", "AT", "WITH", "AND", "SHAFTWORD")


def flexed_mass(scene: Scene, at: int) -> bool:
    """True where a shaft's mass and a flex stand: "Mistral HY 85 S"."""
    tokens = scene.tokens[at : at + 6]
    value = tokens[0].value if tokens and tokens[0].terminal == "NUM" else None
    behind = [token.terminal for token in tokens[1:] if token.terminal not in _BEFORE_FLEX]
    return isinstance(value, float) and 40 <= value <= 150 and behind[:1] in (["FLEX"], ["FLEXCODE"])


def free_before_heads(scene: Scene) -> None:
    """The X of "All Tranter X heads", the Grind of "Dray Grind heads": what stands before the word is the model."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        name, tail, heads = tokens[at - 2 : at + 1]
        if heads.lower != "heads" or name.terminal != "WORD" or not name.text[:1].isupper() or tail.glued:
            continue
        if tail.terminal in _BEFORE_HEADS and tail.text[:1].isupper() and not scene.claims[at - 1]:
            tail.terminal, tail.kind, tail.value = "WORD", "word", tail.lower


def join_abbreviations(scene: Scene) -> None:
    """The full stop of "Hartwell Bros. Persimmon", "Reed & Co. Blue": it ends no sentence."""
    for at in range(1, len(scene.tokens) - 1):
        before, stop, after = scene.tokens[at - 1 : at + 2]
        short = stop.text == "." and stop.glued and before.text in _ABBREVIATIONS
        if short and after.terminal == "WORD" and after.text[:1].isupper() and after.line == stop.line:
            stop.terminal = "HYPHEN"


def free_tails(scene: Scene) -> None:
    """ "Dunlin Speed 11°": a capital word of the trade's notes right behind a model's name belongs to the name."""
    for at, (token, after) in enumerate(pairwise(scene.tokens)):
        sized = token.lower in _SIZES or (token.lower == "new" and _capital_in_mid_sentence(scene, at))
        if token.terminal == "SILENT" and sized and _title_case(token) and _unknown_name(after):
            token.terminal, token.value = "WORD", token.lower  # "My putter is a Little Stint", "the New Gate putter"
    for at in range(1, len(scene.tokens)):
        before, token = scene.tokens[at - 1 : at + 1]
        plus = token.lower == "plus" and _title_case(token) and before.terminal == "WORD" and before.text[:1].isupper()
        if plus and numbered_club(scene, at + 1):
            token.terminal, token.value = "WORD", "plus"  # "Knot Forged Plus 5-PW"
        if _word_of_two(scene, at):
            token.terminal, token.kind = "WORD", "word"
            scene.tokens[at + 1].terminal = "HYPHEN"
        kind = token.terminal in ("HYBRID", "DIRON", "IRON", "WOOD") and len(token.text) <= 3 and token.text.isupper()
        if kind and _unknown_name(before) and flexed_mass(scene, at + 1):
            token.terminal, token.value = "WORD", token.lower  # "Mistral HY 85 S"
    models = {
        token.text
        for before, token in pairwise(scene.tokens)
        if token.value == "finish" and (before.terminal == "ALL" or before.lower in ("a", "an"))
    }
    putters = sum(token.terminal == "PUTTER" and token.lower not in _SHAPES for token in scene.tokens)
    for before, token in pairwise(scene.tokens):
        named = _unknown_name(before)
        if putters and token.terminal == "PUTTER" and token.lower in _SHAPES and named and _title_case(token):
            token.terminal, token.value = "WORD", token.lower  # "Putter", and below it "Stint Mallet"
        if before.terminal == "DATEWORD" and _title_case(before) and _unknown_name(token):
            before.terminal, before.value = "WORD", before.lower  # "Datum Block"
        if token.terminal == "NOTE" and _title_case(token) and token.text in models:
            token.terminal, token.value = "WORD", token.lower  # "both Ferrule, 25 and 28 degrees"
        noted = (
            token.terminal == "CLICK"
            or _names_hand(scene, token)
            or (token.terminal == "NOTE" and token.value == "figures")
        )
        if noted and named and _title_case(token):
            token.terminal, token.value = "WORD", token.lower
        event = token.terminal == "EVENTKIND" or (token.terminal == "OPEN" and token.value != "open face")
        kind = event and named and _title_case(token)
        if kind and (_head_line(scene, token) or _clubs_before(scene, before) or _heads_figures(scene, token)):
            token.terminal, token.value = "WORD", token.lower  # "3-SW Dunlin Classic"
        if (
            token.terminal == "SILENT"
            and named
            and _title_case(token)
            and (token.lower in _VERBS or _close(before, token))
        ):
            token.terminal, token.value = "WORD", token.lower  # "Whimbrel Run 36°"


def _number_of_name(scene: Scene, at: int, *, small: bool) -> bool:
    """True for the "Seven" of "Larch Seven Driver": capital, behind a name, before its club.

    Where figures are told in `small` words the capital alone tells it: "a Larch Seven, fifteen and eighteen degrees".
    """
    before, token = scene.tokens[at - 1 : at + 1]
    after = scene.tokens[at + 1] if at + 1 < len(scene.tokens) else None
    capital = token.kind == "number" and token.text.isalpha() and token.text[:1].isupper() and not token.text.isupper()
    clubbed = after is not None and after.terminal in FAMILIES and after.text[:1].isupper()
    if after is not None and after.glued and after.text in DASHES:
        return False  # "Burnet Three-Line": the word goes on
    return capital and (clubbed or small) and _unknown_name(before) and before.line == token.line


def _number_before_name(scene: Scene, at: int) -> bool:
    """True for the "Seven" of "the Seven Larch", "called Seven Larch": capital in mid-sentence, before a name."""
    before, token, *behind = scene.tokens[at - 1 : at + 2]
    capital = token.kind == "number" and token.text.isalpha() and token.text[:1].isupper() and not token.text.isupper()
    led = before.lower in _LEADS and (before.text.islower() or scene.line_start(at - 1))
    named = bool(behind) and _unknown_name(behind[0]) and not behind[0].glued and behind[0].line == token.line
    if capital and named and before.terminal in ("COMMA", "EQ", "LPAR"):
        pair = (token.text, behind[0].text)
        return [(one.text, two.text) for one, two in pairwise(scene.tokens)].count(pair) > 1  # ", Two Rivers Blue 55"
    return capital and led and named


def _word_of_two(scene: Scene, at: int) -> bool:
    """True for the "Two" of "Stint Two-Ball": a number in words tied to a capital word, behind a name."""
    before, token = scene.tokens[at - 1 : at + 1]
    dash, word = [*scene.tokens[at + 1 : at + 3], None, None][:2]
    if dash is None or word is None or not (dash.glued and word.glued and dash.text in DASHES):
        return False
    named = before.terminal == "WORD" and token.text[:1].isupper() and word.text[:1].isupper()
    return named and token.kind == "number" and token.text.isalpha()


def _head_line(scene: Scene, token: Token) -> bool:
    """True on a line that opens with the word "head" and a mark: "Head: Ringouzel Cup"."""
    line = [each for each in scene.tokens if each.line == token.line and each.terminal != "BULLET"]
    return len(line) > 2 and line[0].terminal == "HEADWORD" and line[1].terminal == "EQ"


def _heads_figures(scene: Scene, token: Token) -> bool:
    """True for "Tamber Plate, 9 degrees", "Tamber Trophy irons", "mine is a Cresswell Open": no event has a loft."""
    tokens = scene.tokens
    at = tokens.index(token)
    behind = [each.terminal for each in tokens[at + 1 : at + 4]]
    if behind[:1] == ["COMMA"]:
        behind = behind[1:]
    elif at + 1 < len(tokens) and tokens[at + 1].line == token.line:
        club = phrase_at(tokens, at + 1)
        labels = club is not None and club.end < len(tokens) and tokens[club.end].text == ":"
        if club is not None and club.rule in ("club", "named", "family", "span") and not labels:
            return True
    start = at
    while start > 0 and tokens[start - 1].terminal == "WORD" and _title_case(tokens[start - 1]):
        start -= 1
    told = [each.lower for each in tokens[max(0, start - 2) : start]]
    called = told[-1:] in (["a"], ["an"]) and told[0] in ("is", "it's", "mine's")
    return behind[:2] == ["NUM", "DEG"] or called


def _clubs_before(scene: Scene, token: Token) -> bool:
    """True when a club is named before this word in its line and no event is announced there."""
    at = scene.tokens.index(token)
    start = scene.clause_opening(at, within=at)
    while at > start and scene.tokens[at - 1].terminal == "WORD" and _title_case(scene.tokens[at - 1]):
        at -= 1
    words = scene.tokens[max(start, at - 3) : at]
    told = [word for word in words if word.lower not in ("the", "a", "an")]
    if told and told[-1].terminal == "ALL":
        return True  # "fifty-two, fifty-six and sixty, all Burr Open"
    if told and told[-1].terminal == "EQ" and told[-1].kind == "word":
        words = []  # "The putter is a Wren Classic"
    if any(word.terminal in ("EVENTWORD", "DATE", "MONTH") or word.lower in ("for", "at", "the") for word in words):
        return False
    return says(scene.tokens, start, at, ("club", "named", "span", "dashed", "code"))


def _names_hand(scene: Scene, token: Token) -> bool:
    """True for the "Hand" of "the Dab Hand, thirty-seven degrees", which labels nobody's."""
    at = scene.tokens.index(token) if token.terminal == "HANDWORD" else -1
    return at >= 0 and at + 1 < len(scene.tokens) and scene.tokens[at + 1].terminal in ("COMMA", "STOP", "NUM")


def _close(before: Token, token: Token) -> bool:
    """True for a long word one blank behind another on its line: in the middle of a sentence a capital is a name's."""
    return len(token.text) > 3 and token.line == before.line and gap(before, token) == 1


def _capital_in_mid_sentence(scene: Scene, at: int) -> bool:
    """True where a capital is no sentence's nor a heading's: behind a small word, a club or a semicolon."""
    before = scene.tokens[at - 1] if at else None
    small = before is not None and before.kind == "word" and before.line == scene.tokens[at].line
    return before is not None and (before.text == ";" or (small and before.text.islower()))


def _unknown_name(token: Token) -> bool:
    return token.terminal == "WORD" and _title_case(token) and not plain_word(token)


def _title_case(token: Token) -> bool:
    return token.text[:1].isupper() and not token.text.isupper() and " " not in token.text
