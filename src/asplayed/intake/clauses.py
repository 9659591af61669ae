"""What is settled before the walk: line breaks in speech, tables, and clubs that are not in the set."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.another import set_compared_aside
from asplayed.intake.asides import (
    set_instead_aside,
    set_none_aside,
    set_others_aside,
    set_quoted_aside,
    set_struck_aside,
    set_taken_out_aside,
)
from asplayed.intake.asked import answered
from asplayed.intake.club_rows import read_club_rows
from asplayed.intake.elsewhere import mark_elsewhere
from asplayed.intake.from_to import set_old_aside, set_old_before_arrow
from asplayed.intake.gaps import leave_gaps
from asplayed.intake.grips import read_grips
from asplayed.intake.in_place import put_in_place
from asplayed.intake.layout import entries_of_forms, lay_out
from asplayed.intake.left_out import set_captioned_aside, set_given_aside, set_had_aside
from asplayed.intake.makers import put_makers_before_models
from asplayed.intake.marks import read_marks, units_of_keys, units_of_lengths
from asplayed.intake.model_letters import read_model_letters
from asplayed.intake.others import set_others_clubs_aside
from asplayed.intake.passing_words import set_passing_words_aside
from asplayed.intake.phrases import CLUBS_NAMED, TOLD, phrase_at
from asplayed.intake.player import first_names, free_given_names
from asplayed.intake.proper import (
    free_before_heads,
    free_compounds,
    free_grips_of_heads,
    free_letters,
    free_proper_names,
    free_shafts,
    free_tails,
    join_abbreviations,
)
from asplayed.intake.put_right import put_right
from asplayed.intake.remarks import keep_remarks
from asplayed.intake.scene import LEAD, Scene
from asplayed.intake.sheets import (
    ages,
    answered_no,
    appointments,
    asked_in_brackets,
    carries,
    counted,
    counts,
    empty_cells,
    headed_sheets,
    heights,
    labels_of_lines,
    prices,
    serials,
    short_dates,
    spacings,
)
from asplayed.intake.sleeve_words import read_sleeve_words
from asplayed.intake.tables import find_tables
from asplayed.intake.talk import ask_and_answer
from asplayed.intake.tokens import DASHES, Token, gap
from asplayed.intake.voices import hide_handles, sign, title
from asplayed.intake.was_and_is import set_was_aside
from asplayed.intake.whole_names import keep_names_whole
from asplayed.intake.withdrawn import set_withdrawn_aside

_KINDS_BY_LETTER = {
    "D": ("DRIVER", "driver"), "F": ("WOOD", "fairway"), "H": ("HYBRID", "hybrid"), "I": ("IRON", "irons"),
    "W": ("WEDGE", "wedges"), "P": ("PUTTER", "putter"), "PUT": ("PUTTER", "putter"),
}  # fmt: skip
_KINDS_BY_CODE = {
    **_KINDS_BY_LETTER, "FW": ("WOOD", "fairway"), "HY": ("HYBRID", "hybrid"), "IR": ("IRON", "irons"),
    "WG": ("WEDGE", "wedges"), "PT": ("PUTTER", "putter"),
}  # fmt: skip
_LEAVES_OUT = {"not", "but", "except", "excl", "exc", "bar", "no"}
_LABELS = {"WOOD", "HYBRID", "WEDGE", "DIRON"}
_LETTER_WEDGES = {
    "P": (43, 49, "pitching wedge"), "G": (48, 53, "gap wedge"), "A": (48, 53, "gap wedge"),
    "S": (54, 57, "sand wedge"), "L": (58, 64, "lob wedge"),
}  # fmt: skip
_TELLERS = {"he", "she", "we", "they", "i", "you"}
_DID = {
    "did", "also", "tried", "had", "hit", "looked", "wanted", "used", "thought", "swung", "left", "sold", "took",
    "kept", "asked", "considered", "demoed", "dropped", "lost", "gave",
}  # fmt: skip
_POINTING = {"the", "his", "her", "my", "their", "your"}
_SHORT_WEDGES = {"pitching", "gap", "sand", "lob"}
_RANGED = {"IRON", "WOOD", "HYBRID", "DIRON"}


def prepare(scene: Scene, *, tables: bool = True) -> None:
    """Soften line breaks inside sentences, find tables, set aside clubs that are not in the set."""
    free_given_names(scene)
    first_names(scene)
    join_abbreviations(scene)
    hide_handles(scene)
    entries_of_forms(scene)
    read_marks(scene)
    read_club_rows(scene)
    free_letters(scene)
    title(scene)
    prices(scene)
    serials(scene)
    appointments(scene)
    heights(scene)
    ages(scene)
    short_dates(scene)
    _l_for_length(scene)
    _measuring(scene)
    empty_cells(scene)
    counts(scene)
    asked_in_brackets(scene)
    units_of_lengths(scene)
    units_of_keys(scene)
    carries(scene)
    spacings(scene)
    put_right(scene)
    _lofted_wedges(scene)
    _bent_clubs(scene)
    _bracketed(scene)
    _dashed(scene)
    _telegram(scene)
    _dotted(scene)
    ask_and_answer(scene)
    answered(scene)
    _lettered(scene)
    counted(scene)
    headed_sheets(scene)
    answered_no(scene)
    labels_of_lines(scene)
    _model_letters(scene)
    _lettered_driver(scene)
    _short_wedges(scene)
    _pieces(scene)
    lay_out(scene)
    _soften(scene)
    read_grips(scene)
    if tables:
        find_tables(scene)
    read_sleeve_words(scene)
    scene.club_last = scene.club_last and not scene.rows
    put_makers_before_models(scene)
    free_compounds(scene)
    free_grips_of_heads(scene)
    free_proper_names(scene)
    free_tails(scene)
    free_before_heads(scene)
    free_shafts(scene)
    keep_names_whole(scene)
    read_model_letters(scene)
    keep_remarks(scene)
    set_compared_aside(scene)
    set_passing_words_aside(scene)
    set_withdrawn_aside(scene)
    set_had_aside(scene)
    set_given_aside(scene)
    set_captioned_aside(scene)
    set_quoted_aside(scene)
    set_struck_aside(scene)
    set_was_aside(scene)
    set_taken_out_aside(scene)
    set_instead_aside(scene)
    set_old_aside(scene)
    set_old_before_arrow(scene)
    set_none_aside(scene)
    leave_gaps(scene)
    set_others_clubs_aside(scene)
    mark_elsewhere(scene)
    set_others_aside(scene)
    put_in_place(scene)
    sign(scene)
    scene.settle()


def _l_for_length(scene: Scene) -> None:
    """ "Reed 60 S | L 45.25 |", "std L": an L before a length, behind a mark, is no flex."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        if tokens[at].text != "L" or tokens[at].terminal not in ("LETTER", "FLEXCODE"):
            continue
        value = tokens[at + 1].value if tokens[at + 1].terminal == "NUM" else None
        long = isinstance(value, float) and 32 <= value <= 48 and tokens[at - 1].kind in ("mark", "newline")
        if long or (tokens[at - 1].terminal == "STD" and tokens[at + 1].kind in ("mark", "newline")):
            tokens[at].terminal, tokens[at].value = "LENGTH", "length"


def _measuring(scene: Scene) -> None:
    """ "Measuring 38 1/2, 37 1/2 and 36 1/2", "38, 37 and 36 long": a row of figures that are lengths."""
    tokens, at = scene.tokens, 0
    while at < len(tokens):
        row = at
        while row < len(tokens) and tokens[row].terminal in ("NUM", "INCH", "COMMA", "AND", "SLASH"):
            row += 1
        lengths = [token.value for token in tokens[at:row] if token.terminal == "NUM"]
        if len(lengths) > 1 and all(isinstance(one, float) and 32 <= one <= 48 for one in lengths):
            label, behind = tokens[at - 1] if at else None, tokens[row].terminal if row < len(tokens) else "NEWLINE"
            if label is not None and label.lower.startswith("measur") and behind not in ("DEG", "GRAM", "MM", "CM"):
                label.terminal, label.value = "LENGTH", "length"
            elif behind == "LONG":
                tokens[row].terminal = "SILENT" if tokens[row - 1].terminal == "INCH" else "INCH"
        at = max(row, at + 1)


def _bent_clubs(scene: Scene) -> None:
    """ "Bend the 8 and the 9 a degree strong" is heard as "the 8 and the 9 bent a degree strong": 8 is no loft."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        if tokens[at].terminal == "BENT" and tokens[at + 1].lower in _POINTING and (end := _clubs_bent(tokens, at + 2)):
            tokens[at:end] = [*tokens[at + 1 : end], tokens[at]]


def _clubs_bent(tokens: list[Token], at: int) -> int:
    """Where the clubs end that are told by their numbers or stamps, before how far they are bent; 0 for any other."""
    told = numbered = False
    last = min(len(tokens) - 2, at + LEAD)
    while at < last:
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule == "change":
            return at if numbered and phrase.directions else 0
        if told and tokens[at].terminal in ("AND", "COMMA", "SILENT"):
            at += 1
            continue
        if phrase is None or phrase.rule not in (*CLUBS_NAMED, "bare"):
            return 0
        values = [amount.value for amount in phrase.amounts]
        if any(amount.unit or amount.signed for amount in phrase.amounts) or (values and values[0] < 10 < values[-1]):
            return 0  # "bend the 8 to 37" tells the loft
        told = True
        numbered = numbered or (bool(phrase.amounts) and not phrase.has("IRON", "WOOD", "HYBRID", "WEDGE"))
        at = phrase.end
    return 0


def _lofted_wedges(scene: Scene) -> None:
    """ "WD Heath 46 52 56" down a list: no wood has such lofts."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        behind = tokens[at + 1] if at + 1 < len(tokens) else None
        apart = token.lower == "w" and behind is not None and not behind.glued
        small = apart and behind is not None and (behind.terminal == "WORD" or _stamp(behind))
        if (token.text == "WD" or small) and scene.line_start(at):
            line = [each for each in tokens[at + 1 : at + 12] if each.line == token.line]
            if any(_stamp(each) for each in line[:4]):
                token.terminal, token.lower, token.value = "WEDGE", "wedges", "wedge"


def _stamp(token: Token) -> bool:
    """True for a wedge's loft, with or without its bounce: "52", "50.10"."""
    value = token.value[0] if isinstance(token.value, tuple) else token.value
    return isinstance(value, int | float) and 44 <= value <= 64 and token.kind != "word"


def _bracketed(scene: Scene) -> None:
    """A semicolon inside brackets parts like a comma: "hybrids 4, 5 (Gannet; Ostrane 60 R)"."""
    inside = 0
    for token in scene.tokens:
        inside += (token.terminal == "LPAR") - (token.terminal == "RPAR")
        if token.terminal == "NEWLINE":
            inside = 0
        if inside > 0 and token.text == ";":
            token.terminal = "COMMA"


def _dashed(scene: Scene) -> None:
    """A dash with blanks around it parts like a comma, unless it stands between numbers: "Gannet - Ostrane 60 S"."""
    for at in range(1, len(scene.tokens) - 1):
        before, token, after = scene.tokens[at - 1 : at + 2]
        spaced = token.terminal == "DASH" and not token.glued and not after.glued
        if spaced and before.terminal in TOLD and (at < 2 or scene.line_start(at - 1)):
            token.terminal, token.text = "EQ", ":"  # "toe hang - 20" on a line of its own
            continue
        plural = before.terminal in _LABELS | {"IRON"} and before.lower.endswith("s")
        headed = after.kind == "number" or (after.terminal == "WORD" and before.terminal != "IRON")
        if spaced and plural and headed and (at < 2 or scene.tokens[at - 2].kind != "word"):
            token.terminal, token.text = "EQ", ":"  # "2 hybrids - 19 and 23", "hybrids - Siskin 21 + 24"
            continue
        if spaced and before.kind == "number" and _club_behind(scene, at):
            token.terminal = "COMMA"  # "driver Gannet 9 - 3 wood Dunlin 15"
            continue
        if spaced and before.kind == "number" and after.kind == "number" and _of_a_model(scene, at - 1):
            token.terminal = "COMMA"  # "driver - Gannet 5 - 9"
            continue
        numbers = after.kind == "number" and (before.kind == "number" or before.terminal in _RANGED)
        if spaced and not numbers and after.terminal not in ("NAMEDWEDGE", "LETTER") and after.text != "#":
            token.terminal = "COMMA"


def _club_behind(scene: Scene, dash: int) -> bool:
    """True when a club begins behind a dash and the number before it cannot be the lower end of its range."""
    before, club = scene.tokens[dash - 1], phrase_at(scene.tokens, dash + 1)
    if club is None or club.rule not in ("club", "span") or not club.amounts:
        return False
    low = before.value if isinstance(before.value, float) else 0.0
    return low > 9 or low != int(low) or low >= club.amounts[0].value


def _of_a_model(scene: Scene, at: int) -> bool:
    """True for the number that ends a model's name: "Goldeneye Five", or "Gannet 5" on the line of a wood."""
    tokens, start = scene.tokens, at
    if at == 0 or tokens[at - 1].terminal != "WORD":
        return False
    if tokens[at].text.isalpha() and tokens[at].text[:1].isupper():
        return True
    while start > 0 and tokens[start - 1].terminal not in ("NEWLINE", "BULLET"):
        start -= 1
    club = phrase_at(tokens, start)
    return club is not None and club.rule == "club" and not club.has("IRON") and club.end < at


def _dotted(scene: Scene) -> None:
    """ "D. Redshank 10", "3W. Redshank 16", "5-9. Wigeon" down a list: a dot behind its club stands like a colon."""
    tokens, marks = scene.tokens, []
    for at in range(len(tokens) - 2):
        if not scene.line_start(at):
            continue
        club = phrase_at(tokens, at)
        named = club is not None and club.rule in CLUBS_NAMED and club.end - at <= 3
        stamped = _stamp(tokens[at]) and tokens[at + 1].text == "." and not tokens[at + 2].glued
        named = named or stamped  # "54. Wigeon"
        dot = club.end if club is not None and named else at + 1
        label = named or tokens[at].text.upper() in _KINDS_BY_LETTER
        if label and dot + 1 < len(tokens) and tokens[dot].text == "." and tokens[dot].glued:
            marks += [dot] if tokens[dot + 1].kind != "newline" else []
    for at in marks if len(marks) > 2 else ():
        tokens[at].terminal, tokens[at].text = "EQ", ":"


def _telegram(scene: Scene) -> None:
    """ "DRIVER … STOP 3 WOOD … STOP": a telegram's word between its sentences."""
    marks = [token for token in scene.tokens if token.text == "STOP"]
    if len(marks) > 1:
        for token in marks:
            token.terminal = "STOP"


def _lettered(scene: Scene) -> None:
    """ "D:", "F:", "h -", "I:", "W:", "p -" down the left of a list: each letter is a kind of club."""
    tokens = scene.tokens
    marks = [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text.upper() in _KINDS_BY_CODE
        and _parted(tokens[at + 1])
        and (scene.line_start(at) or _opens_cell(tokens, at))
    ]
    marks = marks or [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text in _KINDS_BY_CODE
        and (scene.line_start(at) or _opens_cell(tokens, at))
        and _model_behind(tokens[at + 1])
    ]
    if not marks and scene.source.text.islower():
        marks = [
            at
            for at in range(len(tokens) - 1)
            if tokens[at].text.upper() in _KINDS_BY_CODE
            and scene.line_start(at)
            and tokens[at + 1].terminal == "WORD"
            and not tokens[at + 1].glued
        ]
        if not {"d", "p"} <= {tokens[at].text for at in marks}:
            return
    if [tokens[at].text for at in marks] == ["P"] and _putter_of_list(scene, marks[0]):
        for at in range(marks[0], len(tokens)):
            if at == marks[0] or (tokens[at].text == "P" and tokens[at - 1].lower in _LEAVES_OUT):
                _name_by_letter(tokens[at])  # "Grips (not P) …"
        return
    small = any(tokens[at].text.islower() for at in marks)
    found = {tokens[at].text.upper() for at in marks}
    ends = "P" in found and len(found) > 1 and all(_parted(tokens[at + 1]) for at in marks)
    ends = ends and not any(token.terminal == "PUTTER" for token in tokens)  # "D: …, 3W: …, 4-9: …, P: …"
    if (
        "PUT" not in found
        and len(found & (set("DFHIWP") if small else set("FHIW"))) < 2
        and len(found) < 3
        and not ends
    ):
        return
    for at in marks:
        _name_by_letter(tokens[at])


def _opens_cell(tokens: list[Token], at: int) -> bool:
    """True behind the mark that parts clubs on one line: "D: Gannet 9 | I: Dunlin 4-PW", "…, P: Burr"."""
    before = tokens[at - 1] if at else None
    parts = before is not None and (before.terminal in ("PIPE", "COMMA", "SLASH") or before.text in ("·", "•", "~"))
    return parts and tokens[at].text.isupper() and not tokens[at].glued


def _name_by_letter(token: Token) -> None:
    token.terminal, token.lower = _KINDS_BY_CODE[token.text.upper()]
    token.value = token.lower


def _putter_of_list(scene: Scene, at: int) -> bool:
    """True for the P of "P  Gannet 35\"" where the lines before it begin with other clubs and no putter is named."""
    tokens = scene.tokens
    if any(token.terminal == "PUTTER" and token.text != "P" for token in tokens):
        return False
    opens = [place for place in range(at) if place == 0 or tokens[place - 1].kind == "newline"]
    return sum(_opens_club(tokens, place) for place in opens) >= 3


def _model_behind(token: Token) -> bool:
    """True for the "Pochard" of "D Pochard 9": a capital word of nobody's."""
    return token.terminal == "WORD" and token.text[:1].isupper() and not token.glued


def _parted(token: Token) -> bool:
    """True for a colon, and for a dash with a blank before it."""
    return token.text == ":" or (token.text in DASHES and not token.glued)


def _pieces(scene: Scene) -> None:
    """ "1 Siskin driver", "7 Redshank irons", "3 Heath wedges" down a list: how many there are of each."""
    tokens = scene.tokens
    marks = [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text.isdigit()
        and scene.line_start(at)
        and len(tokens[at].text) == 1
        and _model_behind(tokens[at + 1])
    ]
    for at in range(len(tokens) - 4):
        kind = tokens[at + 1].terminal in ("WOOD", "HYBRID") and tokens[at].text == "1" and scene.line_start(at)
        told = [token.kind for token in tokens[at + 2 : at + 5] if token.lower not in ("no", ".", "number")][:1]
        if kind and told == ["number"]:
            scene.hide(at, at + 1)  # "1 fairway wood no. 3"
    if sum(tokens[at].text == "1" for at in marks) < 2:
        return
    for at in marks:
        scene.hide(at, at + 1)


def _lettered_driver(scene: Scene) -> None:
    """ "Reshaft D Siskin 9.5", "D (Siskin 10.5)", "D: Siskin Tour 10.5 | …": the letter before a driver's loft."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        if tokens[at].text != "D":
            continue
        colon = tokens[at + 1].text == ":" and (scene.line_start(at) or _opens_cell(tokens, at))
        bracket = tokens[at + 1].terminal == "LPAR"
        start = model = at + 1 + (colon or bracket)
        while model + 1 < len(tokens) and model - start < 3 and _model_goes_on(tokens[model]):
            model += 1
        name, loft = tokens[start], tokens[model]
        told = model > start and name.terminal == "WORD" and (not name.glued or bracket)
        if told and isinstance(loft.value, float) and 7 <= loft.value <= 13:
            tokens[at].terminal, tokens[at].lower, tokens[at].value = "DRIVER", "driver", "driver"


def _model_goes_on(token: Token) -> bool:
    """True for a word or a letter of a model."""
    return token.terminal in ("WORD", "LETTER") and token.text[:1].isupper()


def _short_wedges(scene: Scene) -> None:
    """ "Gap Ruff 50, Sand Ruff 54, Lob Ruff 58": a wedge's short name before a model and its loft."""
    tokens = scene.tokens
    _pointed_wedges(tokens)
    for at in range(len(tokens) - 2):
        name, stop = tokens[at + 1], at + 2
        while stop < min(at + 4, len(tokens) - 1) and tokens[stop].terminal == "WORD":
            stop += 1  # "GAP Bryony Tour 50"
        loft = tokens[stop].value
        told = isinstance(loft, float) and 44 <= loft <= 64 and name.terminal == "WORD" and name.text[:1].isupper()
        opens = at == 0 or tokens[at - 1].kind in ("newline", "mark")
        if tokens[at].lower in _SHORT_WEDGES and told and opens and tokens[at].terminal != "NAMEDWEDGE":
            tokens[at].terminal, tokens[at].value = "NAMEDWEDGE", f"{tokens[at].lower} wedge"
        row = tokens[at + 1].text in (",", "/") and at + 2 < len(tokens) and _stamp(tokens[at + 2])
        apart = name.kind == "word" and name.line == tokens[at].line and gap(tokens[at], name) > 1
        if tokens[at].lower in _SHORT_WEDGES and apart and opens and tokens[at].terminal != "NAMEDWEDGE":
            tokens[at].terminal, tokens[at].value = "NAMEDWEDGE", f"{tokens[at].lower} wedge"  # "Sand   Burr 56"
        if row and opens and tokens[at].text == "P" and tokens[max(0, at - 2)].terminal == "WEDGE":
            tokens[at].terminal, tokens[at].value = "NAMEDWEDGE", "pitching wedge"  # "Wedges: P, 50, 55"
        low, high, wedge = _LETTER_WEDGES.get(tokens[at].text, (0, 0, ""))
        stamp = name.value if name.terminal == "NUM" and tokens[at + 2].terminal != "GRAM" else None
        if wedge and opens and isinstance(stamp, float) and low <= stamp <= high and not name.glued:
            tokens[at].terminal, tokens[at].value = "NAMEDWEDGE", wedge  # "9i 41 / P 46"


def _pointed_wedges(tokens: list[Token]) -> None:
    """ "10 of bounce on the gap and 12 on the sand", where the list names its gap wedge and its sand wedge in full."""
    named = {token.value for token in tokens if token.terminal == "NAMEDWEDGE"}
    for at in range(2, len(tokens)):
        token, after = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else None
        pointed = tokens[at - 1].lower in _POINTING and tokens[at - 2].lower in ("on", "in", "for", "of")
        joined = tokens[at - 1].terminal == "AND" and tokens[at - 2].terminal == "NAMEDWEDGE"
        closed = after is None or after.kind in ("mark", "newline", "number") or after.terminal == "AND"
        wedge = f"{token.lower} wedge"
        if token.lower in _SHORT_WEDGES and wedge in named and closed and (pointed or joined):
            token.terminal, token.value = "NAMEDWEDGE", wedge


def _model_letters(scene: Scene) -> None:
    """The D of "Driver Swiftlet D 10.5", the I of "irons Swiftlet I": a letter behind a model's name is the model's."""
    for before, token in pairwise(scene.tokens):
        kind = token.text in _KINDS_BY_LETTER and token.terminal in ("DRIVER", "IRON", "PUTTER", "HYBRID", "WOOD")
        if kind and before.terminal == "WORD" and before.text[:1].isupper() and before.line == token.line:
            token.terminal = "LETTER"


def _soften(scene: Scene) -> None:
    """In speech and wrapped prose a line's end is no sentence's end."""
    tokens = scene.tokens
    prose = scene.source.spoken or _is_prose(scene)
    if not prose:
        return
    small = scene.source.text.islower() or _lines_open_clubs(tokens)
    timed = scene.source.spoken and not scene.source.captions
    for at, token in enumerate(tokens):
        if token.terminal != "NEWLINE" or at == 0 or at + 1 >= len(tokens):
            continue
        before, after = tokens[at - 1], tokens[at + 1]
        if before.terminal in ("NEWLINE", "STOP") or after.terminal in ("NEWLINE", "BULLET"):
            continue
        if not scene.source.spoken and (_labelled(tokens, at + 1) or (small and _opens_club(tokens, at + 1))):
            continue
        begun = _new_sentence(tokens, at + 1) or (timed and _club_begun(tokens, at + 1))
        if scene.source.spoken and begun and before.kind != "mark":
            token.terminal = "STOP"
        elif (
            (after.kind == "word" and after.text[:1].islower())
            or before.terminal in ("COMMA", "AND", "WITH", "IN", "AT")
            or (after.kind == "number" and before.kind == "word" and not after.text[:1].isupper())
        ):
            token.terminal = "SILENT"
        elif scene.source.spoken:
            token.terminal = "STOP" if after.text[:1].isupper() else "BREAK"


def _new_sentence(tokens: list[Token], at: int) -> bool:
    """True for a line of speech that tells what somebody did: "he did try a seven wood", "we also saw a 3 iron"."""
    said = [token.lower for token in tokens[at : at + 2]]
    told = len(said) == 2 and (said[1] in _DID or tokens[at + 1].terminal == "ASIDE")
    return told and said[0] in _TELLERS


def _club_begun(tokens: list[Token], at: int) -> bool:
    """True for a timed line that begins with a club: "then a seven wood …", "one hybrid, the Gannet"."""
    while at < len(tokens) and tokens[at].terminal == "SILENT":
        at += 1
    return at < len(tokens) and _opens_club(tokens, at)


def _opens_club(tokens: list[Token], at: int) -> bool:
    """True for a line that begins with its club: where nobody writes capitals, a small letter is no running on."""
    phrase = phrase_at(tokens, at)
    return phrase is not None and phrase.rule in ("club", "named", "family", "span", "dashed", "code")


def _lines_open_clubs(tokens: list[Token]) -> bool:
    """True for a list told line by line: half of its lines, and three at least, begin with a club."""
    begins = (at for at in range(len(tokens)) if at == 0 or tokens[at - 1].kind == "newline")
    opens = [at for at in begins if tokens[at].kind != "newline"]
    clubs = sum(_opens_club(tokens, at) for at in opens)
    return clubs >= 3 and 2 * clubs >= len(opens)


def _labelled(tokens: list[Token], at: int) -> bool:
    """True for a line that begins with its club and a colon or a dash: "putter - stint, 34"."""
    phrase = phrase_at(tokens, at)
    if phrase is None or phrase.rule not in ("club", "named", "family") or phrase.end >= len(tokens):
        return False
    after = tokens[phrase.end]
    return after.text == ":" or (after.terminal == "DASH" and not after.glued)


def _is_prose(scene: Scene) -> bool:
    """True for running text: long lines whose sentences run on into the next line."""
    lines = [line for line in scene.source.lines if line.strip()]
    if len(lines) < 2:
        return False
    width = max(len(line.rstrip()) for line in lines)
    runs = sum(
        len(one.rstrip()) + 1 + len(other.split()[0]) > width - 2
        and one.rstrip()[-1:] not in ".;:!?|"
        and other.lstrip()[:1].islower()
        and len(one) >= 50
        and sum(word.strip(",.()").isalpha() for word in one.split()) * 4 >= 3 * len(one.split())
        for one, other in pairwise(lines)
    )
    return runs * 3 >= len(lines) - 1
