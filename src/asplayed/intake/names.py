"""Names of parts and people: runs of words that the vocabulary does not know."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.ahead import (
    TAILS,
    club_at,
    flexed,
    flexed_later,
    grip_ahead,
    held,
    names_next,
    shaft_ahead,
    shaft_later,
    speaks_of_no_club,
)
from asplayed.intake.known import Known
from asplayed.intake.model_numbers import club_word_inside, number_inside
from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import DASHES, Token, gap, told_by_number
from asplayed.intake.wording import eligible, goes_on, opens_sentence, prose, terse

_MASS_CLUB = {"IRON", "HYBRID", "WEDGE", "WOOD", "DRIVER", "PUTTER", "DIRON"}
# Words of English that makers set behind a model's name: they name no shaft of their own.
SUFFIXES = {
    "lite",
    "light",
    "max",
    "pro",
    "tour",
    "plus",
    "forged",
    "ls",
    "hl",
    "mb",
    "cb",
    "fast",
    "hd",
    "xl",
    "hollow",
}
_ARTICLES = {
    "to",
    "about",
    "on",
    "from",
    "the",
    "a",
    "an",
    "my",
    "his",
    "her",
    "your",
    "their",
    "it",
    "them",
    "me",
    "us",
}

_MADE_OF = {"steel", "graphite", "step"}  # words of the trade that shafts are called by


class NameRun(NamedTuple):
    """A run of words that name something: its tokens, and the user's writing."""

    start: int
    end: int
    text: str
    line: int


def run_at(scene: Scene, known: Known, position: int) -> NameRun | None:
    """The run of names that begins at `position`, or None."""
    tokens = scene.tokens
    first = tokens[position]
    if first.terminal == "WORD":
        if not eligible(scene, position):
            return None
    elif not (
        (first.terminal in ("COLOUR", "LETTER") or (first.terminal in TAILS and _proper(scene, position)))
        and position + 1 < len(tokens)
        and first.text[:1].isupper()
        and eligible(scene, position + 1)
    ):
        return None
    at = position + 1
    focus = scene.focus
    start_role = None if focus and not focus[-1].has("head.name") else known.role(first.text)
    while at < len(tokens) and not _apart(tokens, at) and (step := _extends(scene, known, position, at)):
        if _shaft_of_another(scene, position, at):
            break
        if known.splits(tokens[at].text, start_role) and _another_part(scene, known, position, at):
            break
        at += step
    while at - 1 > position and tokens[at - 1].terminal in ("HYPHEN", "SILENT"):
        if tokens[at - 1].text == "I" and _lettered(scene, at - 1):
            break
        at -= 1
    at = _before_shaft(scene, known, position, at)
    behind = tokens[at].lower if at < len(tokens) else ""
    if at == position + 1 and behind in _ARTICLES and prose(scene, position) and opens_sentence(scene, position):
        return None  # "Order the 58 with the low bounce": a verb
    return NameRun(position, at, scene.words(position, at), first.line)


def _another_part(scene: Scene, known: Known, start: int, at: int) -> bool:
    """True unless a word of another part is the model's letter, of the same part ("Tessary Corded") or a person's."""
    tokens = scene.tokens
    lettered = len(tokens[at].text) < 3 and tokens[at].text.isupper()
    same_part = known.role(tokens[at].text) == known.role(tokens[start].text)
    return not lettered and not same_part and not _person_heads(scene, known, start)


def _apart(tokens: list[Token], at: int) -> bool:
    """True where three blanks or more stand before a word: another column."""
    return tokens[at].line == tokens[at - 1].line and gap(tokens[at - 1], tokens[at]) > 2


def _shaft_of_another(scene: Scene, start: int, at: int) -> bool:
    """True for the "Ostrane" of "a Dunlin Ostrane 80 S" where an earlier club's shaft is an Ostrane."""
    if not scene.focus or scene.focus[-1].has("head.name"):
        return False
    shafts = {word for word, part, weight in scene.evidence if part == "shaft" and weight >= 3}
    return scene.tokens[at].text in shafts and scene.tokens[start].text not in shafts


def _person_heads(scene: Scene, known: Known, position: int) -> bool:
    """True for the "Milo" of a first line "Milo Strand, handicap 9": a person, though a shaft is a Strand too."""
    tokens = scene.tokens
    if scene.drafts or scene.headers or "player" in scene.facts or not scene.line_start(position):
        return False
    if scene.table is not None or scene.source.spoken or known.role(tokens[position].text) is not None:
        return False
    end = position
    while end < len(tokens) and tokens[end].terminal == "WORD" and tokens[end].text[:1].isupper():
        end += 1
    after = tokens[end].terminal if end < len(tokens) else "NEWLINE"
    closed = after in ("COMMA", "STOP", "NEWLINE", "DASH", "LPAR", "HAND", "PIPE", "SLASH")
    return closed and 2 <= end - position <= 3 and speaks_of_no_club(scene, end)


def _proper(scene: Scene, position: int) -> bool:
    """True for a capital word of the trade that begins a name of two words ("High Water 110 S")."""
    tokens = scene.tokens
    token, after = tokens[position], tokens[position + 1 : position + 2]
    written = not token.text.isupper() and " " not in token.text and not opens_sentence(scene, position)
    return written and bool(after) and after[0].text[:1].isupper() and not after[0].glued


def _before_shaft(scene: Scene, known: Known, start: int, end: int) -> int:
    """Where a run right behind its club ends when a mass or flex follows: its last word then names the shaft."""
    tokens = scene.tokens
    focus = scene.focus
    words = [at for at in range(start, end) if tokens[at].terminal == "WORD" and not _coded(scene, at)]
    if (
        len(words) < 2
        or not focus
        or focus[-1].has("head.name")
        or (scene.chunk_opens(start) and tokens[start - 1].terminal != "RPAR")
    ):
        return end
    if scene.lead >= scene.chunk_start or scene.table is not None or not shaft_ahead(scene, end, focus[-1]):
        return end
    if names_next(scene, end) or not flexed(scene, end) or known.role(tokens[start].text) == "shaft":
        return end
    if held(scene, start):
        return end  # "the irons have Sable Taper 120 X shafts"
    return end if tokens[words[-1]].lower in SUFFIXES else words[-1]


def _coded(scene: Scene, at: int) -> bool:
    """True for a letter or figure of a model ("Burr X 65 S", "Plover 300", "K-7 Dunlark"): it names no part.

    A list without capitals writes them small: "irons plover tb regular".
    """
    tokens, text = scene.tokens, scene.tokens[at].text
    letters = len(text) < 3 and (text.isupper() or not scene.cased)
    behind = tokens[at + 1].terminal if at + 1 < len(tokens) else ""
    return letters or text.isdigit() or (at > 0 and "HYPHEN" in (tokens[at - 1].terminal, behind) and len(text) < 3)


def _extends(scene: Scene, known: Known, start: int, at: int) -> int:
    """How many tokens from `at` on belong to the run begun at `start`; 0 when it ends here."""
    tokens = scene.tokens
    token = tokens[at]
    if scene.claims[at]:
        return 0
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    focus = scene.focus
    if focus and focus[-1].family in ("wood", "hybrid", "diron") and focus[-1].number is None and _counts(tokens, at):
        return 0  # "Hybrid: Gannet no. 3": the number of the club
    short = token.terminal in ("DIRON", "HYBRID") and len(token.text) <= 3 and token.text.isupper()
    if short and scene.focus and not scene.line_start(start):
        return 1
    if token.terminal == "WORD" and token.lower in SUFFIXES and not scene.cased:
        plain = token.lower not in ("fast", "light", "lite", "hollow") and tokens[at - 1].terminal == "WORD"
        if plain or terse(scene, at):
            return 1  # "plover pro"
    if token.text == "No" and after is not None and after.text.isdigit() and tokens[at - 1].terminal == "WORD":
        return 2  # "Gannet No 3"
    if token.lower == "no" and after is not None and after.text == "." and at + 2 < len(tokens):
        return 3 if tokens[at + 2].kind == "number" and tokens[at + 2].value is not None else 0
    made = token.lower in _MADE_OF and token.text.islower() and not scene.cased and tokens[at - 1].terminal == "WORD"
    if made and after is not None and after.terminal == "NUM" and flexed(scene, at + 1):
        return 1  # "marl steel one ten stiff", where nobody writes capitals
    if token.terminal == "WORD":
        return 1 if eligible(scene, at) or goes_on(scene, at) else 0
    if token.terminal == "HYPHEN" and after is not None and after.terminal in ("WORD", "LETTER", "NUM"):
        return 2
    if token.text == "#" and after is not None and after.glued and after.kind == "number":
        return 2  # "Twite #7"
    if token.terminal == "MARK" and token.text in ("'", "’", "+", "#", "&") and token.glued:
        return 1
    if (
        token.terminal == "AND"
        and token.text == "&"
        and after is not None
        and after.terminal == "WORD"
        and after.text[:1].isupper()
    ):
        return 2
    if token.terminal == "COLOUR":
        return 1 if token.text[:1].isupper() or (after is not None and after.kind == "number") else 0
    written = token.text[:1].isupper() and not token.text.isupper() and " " not in token.text
    if token.terminal in TAILS and written and _ends_name(scene, at):
        return 1
    wanted = bool(scene.focus) and not scene.focus[-1].has("head.name")
    if token.terminal == "SWV" and wanted and after is not None and after.terminal in ("LPAR", "NUM", "WORD", "PIPE"):
        return 1
    lofted = [each.terminal for each in tokens[at + 1 : at + 4]] == ["COMMA", "NUM", "DEG"]
    if token.terminal == "SWV" and wanted and lofted and not focus[-1].has("head.loft"):
        return 1  # "Gannet D2, 10.5°"
    if token.terminal == "SWV" and wanted and _lettered_model(scene, at):
        return 1  # "Gannet C2, Ostrane 110 S"
    closed = after is None or after.terminal in ("LPAR", "NUM", "AT", "SLASH", "NEWLINE", "COMMA", "STOP", "PIPE")
    followed = wanted and written and closed
    utility = token.terminal == "DIRON" and wanted and focus[-1].family in ("iron", "hybrid")
    if written and closed and token.terminal == "LAUNCH":
        return 1  # "Gannet irons in the Reed Flight, 85 grams": a launch is told by how high it is
    if followed and (token.terminal in ("SPIN", "SOLEWORD") or utility):
        return 1  # "Ousel Spin (50°, 54°)"; the "Hobby Utility" of "3 iron is a Hobby Utility at 20"
    lettered = token.terminal in ("LETTER", "FLEX", "FLEXCODE") and token.text.isupper() and wanted
    lettered = lettered and len(token.text) < 3
    if lettered and (flexed_later(scene, at + 1) or shaft_later(scene, at + 1)):
        return 1  # "Cloudberry X", and below it "Withen 55 S": the flex is told with the shaft
    labelled = start > 1 and tokens[start - 1].terminal == "EQ" and tokens[start - 2].terminal == "HEADWORD"
    alone = after is None or after.kind == "newline"
    coded = token.terminal in ("LETTER", "FLEXCODE", "SWV") and token.text.isupper()
    if coded and ((labelled and alone) or scene.cell in ("head", "grip")):
        return 1  # "Head: Pintail X" on a line of its own, "Gannet D1" in a column of models or of grips
    levelled = wanted and focus[-1].family == "putter" and token.terminal == "LEVEL"
    if levelled and (after is None or after.terminal not in ("LAUNCH", "SPIN")):
        return 1  # "a kingfisher mid, 34 inches": no putter has a launch
    if token.text == "I" and wanted and _lettered(scene, at):
        return 1
    if token.terminal == "FLEXCODE" and wanted and focus[-1].family == "putter" and token.text.isupper():
        return 1  # "Wrenlock S": no putter has a flex
    if token.terminal == "LETTER" and wanted and (scene.focus[-1].family != "wedge" or token.text == "W"):
        return 1  # the W of a wedge's model says "wedge"; no sole is called so
    if _tail_letter(scene, start, at):
        return 1
    gripped = any(each.terminal == "GRIPWORD" for each in tokens[max(0, start - 3) : start])
    if gripped and token.terminal == "EVENTKIND" and written:
        return 1  # "Grips: Baize Classic": no event
    on = after is not None and after.lower == "on"
    if gripped and token.terminal in TAILS and token.text.islower() and not scene.cased and (alone or on):
        return 1  # "ropewalk flat grip", "grip ropewalk flat"
    if gripped and token.terminal == "FLEX" and written:
        return 1  # "Grips: Toadflax Ladies": no grip has a flex
    if token.terminal == "LETTER" and token.glued and tokens[at - 1].kind == "number" and gripped:
        return 1  # "Grips: Norrby 2G"
    if token.terminal == "LETTER" and token.text.isupper() and after is not None and after.terminal == "LPAR":
        return 1  # "Irons: Brackwell U (3), Brackwell P (4-9)"
    hyphened = after is not None and after.text in DASHES and after.glued and at + 2 < len(tokens)
    if token.terminal == "FLEXCODE" and wanted and hyphened and tokens[at + 2].kind == "number":
        return 3  # "Whinchat SR-2"
    tight = token.terminal == "HYPHEN" and token.glued and after is not None and after.glued
    if tight and after is not None and len(after.text) == 1 and after.terminal == "FLEXCODE" and after.text.isupper():
        return 2  # "Hobby-X 2"
    if token.terminal == "LETTER" and after is not None and after.terminal == "HYPHEN":
        soled = at + 2 < len(tokens) and tokens[at + 2].terminal == "SOLEWORD"
        return 0 if soled else 3  # "Marl T-grind": the sole
    if (
        token.terminal == "LETTER"
        and token.text.isupper()
        and club_at(scene, at + 1)
        and gap(tokens[at - 1], token) == 1
    ):
        return 1  # "Orrin K driver"
    if token.terminal == "LETTER":
        return 1 if after is not None and after.terminal in ("WORD", "NUM") and not _wedge_code(scene, at) else 0
    if token.terminal in ("FLEXCODE", "FLEX", "PLACE", "LEVEL", "ORDINAL", "SOLE", "NECK") and token.text[:1].isupper():
        return (
            1 if after is not None and after.terminal == "WORD" and eligible(scene, at + 1) and not after.glued else 0
        )
    if token.terminal == "SILENT" and token.text == ".":
        return 0
    if token.terminal == "NUM" and _lettered_number(token, after):
        return 2  # "Gannet 10K"
    if token.terminal in ("NUM", "SNUM"):
        return number_inside(scene, known, start, at, after)
    puttered = after is not None and after.terminal == "PUTTER"
    if token.terminal == "PUTTER" and token.lower in ("mallet", "blade") and written and puttered:
        return 1  # "Campion Mallet putter"
    if token.terminal == "PUTTER" and (wanted or scene.either) and token.lower in ("mallet", "blade") and written:
        return 1 if focus[-1].family == "putter" else 0  # "Stint Mallet"
    if token.terminal in _MASS_CLUB and after is not None:
        return club_word_inside(scene, at, after)
    return 0


def _counts(tokens: list[Token], at: int) -> bool:
    """True for the "no." of "no. 3", the "nr" of "nr 3" and the "#" of "#3" before the number of a club."""
    number = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].text == ".")
    if number >= len(tokens) or tokens[number].kind != "number" or len(tokens[number].text) > 1:
        return False
    return told_by_number(tokens, number)


def _tail_letter(scene: Scene, start: int, at: int) -> bool:
    """True for the letter of "Burdock T 52/08", "Alderwick V 65 S": right behind a capital name, no flex."""
    tokens = scene.tokens
    token, before = tokens[at], tokens[at - 1]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    close = gap(before, token) == 1 and before.terminal == "WORD" and before.text[:1].isupper()
    if not close or len(token.text) != 1 or not token.text.isupper() or not scene.focus:
        return False
    wanted = not scene.focus[-1].has("head.name") or scene.line_start(start)
    if token.terminal == "LETTER" and (after is None or after.terminal not in ("SLASH", "DASH", "SOLEWORD")):
        return not (scene.focus[-1].family == "wedge" and scene.focus[-1].has("head.loft"))
    if token.terminal != "FLEXCODE" or not wanted:
        return False
    return after is not None and after.terminal == "LPAR" and _stamps_inside(scene, at + 2)


def _lettered_model(scene: Scene, at: int) -> bool:
    """True for a letter and a figure right behind a capital word that are no swing weight.

    Nobody builds a club to C0 to C5; and a clause that tells its swing weight later does not tell it here, nor one
    that goes on with the irons' shaft: they are balanced with it.
    """
    tokens = scene.tokens
    token, before = tokens[at], tokens[at - 1]
    close = before.terminal == "WORD" and before.text[:1].isupper() and gap(before, token) == 1
    light = str(token.value)[:1] == "C" and float(str(token.value)[1:]) < 6
    later = any(other.terminal == "SWV" for other in tokens[at + 1 : scene.clause_end(at)])
    irons = scene.focus[-1].family == "iron" and [one.terminal for one in tokens[at + 1 : at + 3]] == ["COMMA", "WORD"]
    shafted = irons and flexed_later(scene, at + 1)  # "5-PW Gannet C7, Reed 95 R"
    return close and token.text.isupper() and (light or later or shafted)


def _lettered_number(token: Token, after: Token | None) -> bool:
    """True for the 10 of "Gannet 10K": a letter is written tight behind it that is no unit and no club."""
    tight = after is not None and after.glued and after.terminal == "LETTER" and after.text in "BEKMNPQTVYZ"
    return tight and not token.glued and token.text.isdigit() and len(token.text) <= 3


def _stamps_inside(scene: Scene, at: int) -> bool:
    """True where a bracket tells wedges by their lofts: a flex has no such bracket."""
    phrase = phrase_at(scene.tokens, at) if at < len(scene.tokens) else None
    return phrase is not None and phrase.rule in ("code", "dashed") and not phrase.has("IRON")


def _lettered(scene: Scene, at: int) -> bool:
    """True for the I of "Gannet I 50" and "Gannet I   Ostrane 70 R": a model's letter, and nobody who speaks."""
    tokens = scene.tokens
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    close = gap(tokens[at - 1], tokens[at]) == 1 and tokens[at - 1].text[:1].isupper()
    closed = after is None or after.terminal in ("NUM", "NEWLINE", "PIPE", "COMMA", "SLASH", "LPAR")
    apart = after is not None and gap(tokens[at], after) > 1
    return close and (closed or apart) and terse(scene, at)


def _ends_name(scene: Scene, at: int) -> bool:
    """True when a capital word of the trade behind a name says nothing of its own there."""
    tokens = scene.tokens
    here = phrase_at(tokens, at)
    if here is not None and len(here.tokens) > 1 and not (here.rule == "weight" and not here.has("WEIGHT", "GRAM")):
        return grip_ahead(scene, at)
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if tokens[at].terminal == "MINIDRIVER" and after is not None and after.terminal == "DRIVER":
        return False
    return after is None or after.terminal not in (
        "NECKWORD",
        "SOLEWORD",
        "LAUNCH",
        "SPIN",
        "WEIGHT",
        "TURNED",
        "LENGTH",
        "LIE",
    )


def _wedge_code(scene: Scene, at: int) -> bool:
    after = scene.tokens[at + 1]
    return after.kind == "number" and isinstance(after.value, float) and after.value > 20
