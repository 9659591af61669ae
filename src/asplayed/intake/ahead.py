"""What stands behind a name: a shaft's mass or flex, the word "grip", a club, or nothing of a club."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.phrases import CLUB_RULES, CLUBS_NAMED, Phrase, flex_number, phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import gap
from asplayed.intake.wording import eligible

# Words of the trade that makers also end a model's name with ("Gannet Draw", "Oxbow Mid"), written with a capital.
TAILS = {
    "PLACE",
    "LEVEL",
    "FLAT",
    "LONG",
    "SHORT",
    "MINIDRIVER",
    "SOLE",
    "NECK",
    "ORDINAL",
    "SIZE",
    "UP",
    "DOWN",
    "STD",
}
_WHOSE = {"my", "the", "his", "her", "our", "your"}


def grip_ahead(scene: Scene, position: int) -> bool:
    tokens = scene.tokens
    at = position
    while at < len(tokens) and tokens[at].terminal in ("WITH", "SILENT", "COMMA", "AND", "LPAR"):
        at += 1
    weighed = [token.terminal for token in tokens[position : position + 3]] == ["NUM", "GRAM", "COMMA"]
    wraps = phrase_at(tokens, position + 3) if weighed and position + 3 < len(tokens) else None
    if wraps is not None and wraps.rule == "wraps":
        return True  # "Burlap 52 g, 1 extra wrap"
    wrapped = phrase_at(tokens, at) if at < len(tokens) else None
    if wrapped is not None and wrapped.rule == "wraps" and scene.focus and scene.focus[0].has("shaft.name"):
        return True  # "Norrby Cord with one extra wrap"
    for at in range(position, min(position + 4, len(tokens))):
        if at and gap(tokens[at - 1], tokens[at]) > 2 and tokens[at].line == tokens[at - 1].line:
            return False  # another column
        if tokens[at].terminal == "GRIPWORD":
            return True
        if tokens[at].terminal not in ("SILENT", "SIZE", "COLOUR", "NUM", "GRAM", *TAILS):
            return False
    return False


def shaft_ahead(scene: Scene, position: int, draft: Draft) -> bool:
    """True when a mass, a flex or the word "shaft" follows the run."""
    tokens = scene.tokens
    at = position
    while at < len(tokens) and tokens[at].terminal in ("SILENT", "HYPHEN"):
        at += 1
    if at >= len(tokens):
        return False
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.terminal == "SHAFTWORD":
        return not leads_in(scene, at)
    if token.terminal in ("FLEX", "ASCENDING", "FLEXWORD"):
        return True
    if token.terminal == "FLEXCODE":
        return draft.family != "wedge" or not (after is not None and after.terminal == "SOLEWORD")
    if token.terminal == "NUM" and isinstance(token.value, float):
        if after is not None and after.terminal in ("GRAM", "FLEX", "FLEXCODE"):
            return 30 <= token.value <= 160
        if after is not None and after.terminal in ("DASH", "RANGE") and token.value >= 70:
            return True
        if after is not None and after.terminal in ("DEG", "INCH", "MM", "CM"):
            return False
        if 44 <= token.value <= 64 and draft.family == "wedge" and not draft.has("head.loft"):
            return False
        if flex_number(token) and draft.family in ("iron", "wedge"):
            return draft.has("head.name")  # "Brunholt Rung 6.5"
        return token.value == int(token.value) and 50 <= token.value <= 150
    return False


def held(scene: Scene, start: int) -> bool:
    """True for what clubs have: "the irons have Sable Taper 120 X shafts", "the driver has a Gristle Red"."""
    tokens = scene.tokens
    at = start - 1 - (start > 1 and tokens[start - 1].lower in ("a", "an", "the"))
    had = tokens[at].lower.split()[:1] if at >= 0 else []
    return had in (["have"], ["has"], ["had"], ["get"], ["gets"], ["got"], ["wear"], ["wears"], ["wearing"])


def weighed_apart(scene: Scene, at: int) -> bool:
    """True where a mass in grams, or a mass and a flex, stands behind commas: "Gristle Red, 63 g", ", 110, stiff"."""
    told = scene.tokens[at : at + 4]
    kinds = [token.terminal for token in told]
    massive = kinds == ["COMMA", "NUM", "COMMA", "FLEX"] and isinstance(told[1].value, float) and told[1].value >= 40
    return massive or kinds[:3] == ["COMMA", "NUM", "GRAM"]


def leads_in(scene: Scene, at: int) -> bool:
    """True for a word "shaft" whose name stands behind it: "shafted with Reed", "shaft Thrift 100 S" with its mass."""
    tokens = scene.tokens
    if at < len(tokens) and tokens[at].terminal == "SHAFTWORD" and tokens[at].lower.startswith("shafted "):
        return True
    if at + 1 >= len(tokens) or tokens[at].terminal != "SHAFTWORD" or tokens[at + 1].terminal != "WORD":
        return False
    end = at + 1
    while end < len(tokens) and tokens[end].terminal in ("WORD", "COLOUR"):
        end += 1
    value = tokens[end].value if end < len(tokens) and tokens[end].terminal == "NUM" else None
    return isinstance(value, float) and 38 <= value <= 150 and eligible(scene, at + 1)


def flexed(scene: Scene, position: int) -> bool:
    """True when a flex or the word "shaft" stands within three tokens, in the same sentence."""
    for at, token in enumerate(scene.tokens[position : position + 3], position):
        if (token.terminal == "STOP" and token.text != ";") or leads_in(scene, at):
            return False
        if token.terminal in ("FLEX", "FLEXCODE", "FLEXWORD", "SHAFTWORD", "ASCENDING"):
            return True
    return False


def flexed_ahead(scene: Scene, position: int) -> bool:
    """True when a shaft's mass and flex are told in the clause before any other club than hybrids."""
    tokens = scene.tokens
    for at in range(position, scene.clause_end(position)):
        if tokens[at].terminal in ("IRON", "WEDGE", "NAMEDWEDGE", "PUTTER", "DRIVER"):
            return False
        massive = tokens[at - 2 if tokens[at - 1].terminal == "COMMA" else at - 1]  # "Reed, 60 g, regular"
        if tokens[at].terminal in ("FLEX", "FLEXCODE") and (massive.kind == "number" or massive.terminal == "GRAM"):
            return True
    return False


def flexed_later(scene: Scene, start: int) -> bool:
    """True when the shaft's mass and flex are told later, on the next line or behind a comma, before another club."""
    tokens, position = scene.tokens, start
    while position + 1 < len(tokens) and tokens[position].terminal in ("NUM", "DEG") and position - start < 2:
        position += 1  # "Snipe R 9, Ostrane 60 X"
    while position < len(tokens) - 1 and tokens[position].terminal == tokens[position + 1].terminal == "SLASH":
        position += 1  # "Snipe X // Ostrane 60 S"
    parted = position < len(tokens) and (
        tokens[position].terminal in ("NEWLINE", "COMMA", "SLASH") or tokens[position].text == ";"
    )
    if not parted:
        return False
    at, end = position + 1, scene.clause_end(position + 1)
    told = False
    while at < end:
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule in ("club", "named", "family", "span", "dashed", "code"):
            return told and tokens[position].terminal != "NEWLINE"
        number = tokens[at - 2 if tokens[at - 1].terminal == "COMMA" else at - 1]
        massive = number.terminal == "GRAM" or (isinstance(number.value, float) and 38 <= number.value <= 150)
        told = told or (tokens[at].terminal in ("FLEX", "FLEXCODE") and massive)
        at = at + 1 if phrase is None else phrase.end
    return told


def shaft_later(scene: Scene, start: int) -> bool:
    """True where a shaft's name with its mass stands behind a comma or a loft in brackets: no flex stands before it."""
    tokens, at = scene.tokens, start
    lofted = [token.terminal for token in tokens[at : at + 4]] == ["LPAR", "NUM", "DEG", "RPAR"]
    at += 4 * lofted
    if at + 2 >= len(tokens) or tokens[at].terminal not in ("COMMA", "DASH", "SLASH") or (tokens[at].glued and lofted):
        return False
    at += 1
    name = at
    while at < len(tokens) and tokens[at].terminal in ("WORD", "COLOUR", "LETTER") and tokens[at].text[:1].isupper():
        at += 1
    mass = tokens[at].value if at < len(tokens) and tokens[at].terminal == "NUM" else None
    unit = tokens[at + 1].terminal if at + 1 < len(tokens) else ""
    return at > name and isinstance(mass, float) and 38 <= mass <= 150 and unit not in ("DEG", "INCH", "CM", "MM")


def names_next(scene: Scene, position: int) -> bool:
    """True when a club is named at `position`, right behind a run: the run then is that club's head."""
    tokens = scene.tokens
    at = position
    if [token.lower for token in tokens[at : at + 1]] == ["is"] and club_at(scene, at + 2):
        return tokens[at + 1].lower in _WHOSE  # "the Quarle 5 Light is my seven wood"
    if at < len(tokens) and tokens[at].terminal in ("IN", "BY") and not scene.table:
        club = at + 1
        while club < len(tokens) and tokens[club].terminal == "SILENT":
            club += 1
        phrase = phrase_at(tokens, club) if club < len(tokens) else None
        header = scene.header is not None and scene.header.family == "iron"
        one = phrase is not None and phrase.rule == "bare" and header and phrase.amounts[0].whole
        several = phrase is not None and phrase.rule in ("span", "amounts", "dashed")
        if phrase is not None and (several or one) and 1 <= phrase.amounts[0].value <= 9:
            return True  # "Siskin CBs in the four and five, Siskin MBs from six to nine"
    for _ in range(3):
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "HYPHEN"):
            at += 1
        if at >= len(tokens):
            return False
        phrase = phrase_at(tokens, at)
        if phrase is None:
            return False
        if phrase.rule in CLUB_RULES:
            if phrase.rule in ("amounts", "dashed") and len(scene.focus) == len(phrase.amounts):
                return any(draft.has("head.loft") for draft in scene.focus)
            if phrase.rule == "code":
                return not scene.focus or scene.focus[0].family != "wedge" or scene.focus[0].has("head.loft")
            if (
                phrase.rule in ("dashed", "span", "amounts")
                and phrase.amounts
                and (phrase.amounts[0].value >= 70 or phrase.amounts[0].unit == "g")
            ):
                return False
            if (
                phrase.rule == "dashed"
                and phrase.first("IRON") is None
                and len(phrase.amounts) == 2
                and phrase.amounts[0].value >= 44
                and phrase.amounts[1].value <= 20
            ):
                return not scene.focus or scene.focus[0].family != "wedge" or scene.focus[0].has("head.loft")
            if (
                scene.focus
                and not scene.focus[-1].has("head.name")
                and not phrase.amounts
                and scene.focus[-1].family == "putter"
            ):
                return True
            return True
        if phrase.rule != "bare" or phrase.amounts[0].unit not in ("", "deg"):
            return False
        if scene.header is not None and scene.header.family == "iron" and another_model(scene, at):
            return True
        if phrase.amounts[0].unit == "" and not club_at(scene, phrase.end):
            return False
        at = phrase.end
    return False


def another_model(scene: Scene, at: int) -> bool:
    """True where behind a number and a mark another model and its clubs stand."""
    tokens = scene.tokens
    name = at + 2
    if name >= len(tokens) or tokens[at + 1].terminal not in ("COMMA", "SLASH", "STOP"):
        return False
    while name < len(tokens) and tokens[name].terminal in ("WORD", "LETTER") and tokens[name].text[:1].isupper():
        name += 1
    return name > at + 2 and numbered_club(scene, name)


def numbered_club(scene: Scene, at: int) -> bool:
    """True where clubs are named by their numbers."""
    club = phrase_at(scene.tokens, at) if at < len(scene.tokens) else None
    named = club is not None and club.rule in CLUBS_NAMED and club.rule != "code"
    return named and club is not None and bool(club.amounts) and club.amounts[0].value <= 9


def numbered_row(scene: Scene, at: int) -> bool:
    """True where a run of irons stands that is told by its ends: "four to nine", "5-PW"."""
    phrase = phrase_at(scene.tokens, at)
    return (
        phrase is not None
        and phrase.rule in ("span", "dashed")
        and bool(phrase.amounts)
        and all(amount.whole and amount.unit == "" and amount.value <= 9 for amount in phrase.amounts)
    )


def club_at(scene: Scene, position: int) -> bool:
    """True when a club is named at `position`."""
    phrase = phrase_at(scene.tokens, position) if position < len(scene.tokens) else None
    return phrase is not None and phrase.rule in ("club", "named")


def speaks_of_no_club(scene: Scene, at: int) -> bool:
    """True when the rest of the clause names no club and has no figure of one; a player's own figures may stand."""
    tokens, end = scene.tokens, scene.clause_end(at)
    while at < end:
        if tokens[at].terminal == "NOTE":  # "handicap 9"
            at += 1
            while at < end and tokens[at].terminal in ("EQ", "SILENT", "NUM"):
                at += 1
            continue
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule in CLUB_RULES and not phrase.has("IRON", "WEDGE", "WOOD"):
            return False
        led = at > 0 and tokens[at - 1].lower in ("by", "after") and tokens[at].text.isalpha()
        if led and phrase is not None and phrase.rule == "bare" and not phrase.amounts[0].unit:
            at = phrase.end  # "leading by two"
            continue
        noted = phrase is not None and phrase.end < len(tokens) and tokens[phrase.end].terminal == "NOTE"
        figured = phrase is not None and phrase.rule in ("bare", "span", "code", "amounts", "flex", "labelled")
        if figured and not noted:
            return False
        at = at + 1 if phrase is None else phrase.end
    return True


def unnamed(scene: Scene, phrase: Phrase, drafts: list[Draft]) -> list[Draft]:
    """The woods of "Driver Petrel 10.5, a 3 wood and a 7 wood, all Gannet": those whose model is told now."""
    if len(phrase.tokens) > 1 or phrase.end >= len(scene.tokens) or not eligible(scene, phrase.end):
        return drafts
    without = [draft for draft in drafts if not draft.has("head.name")]
    return without if len(without) > 1 and without == drafts[-len(without) :] else drafts
