"""What is settled before the walk: line breaks in speech, tables, and clubs that are not in the set."""

from __future__ import annotations

from itertools import pairwise

from asplayed.clubs import Passage
from asplayed.intake.from_to import set_old_aside, set_old_before_arrow
from asplayed.intake.layout import lay_out
from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import phrase_at
from asplayed.intake.proper import free_proper_names, free_tails
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tables import find_tables
from asplayed.intake.tokens import DASHES, Token

_SIGN_OFFS = {
    "thanks", "thank", "you", "cheers", "regards", "best", "wishes", "sincerely", "faithfully", "truly", "ta", "yours",
    "greetings", "love", "advance", "signed",
}  # fmt: skip
_SWAPS = {"swapped", "swap", "traded", "switched", "replaced", "changed", "exchanged"}
_KINDS_BY_LETTER = {
    "D": ("DRIVER", "driver"), "F": ("WOOD", "fairway"), "H": ("HYBRID", "hybrid"), "I": ("IRON", "irons"),
    "W": ("WEDGE", "wedges"), "P": ("PUTTER", "putter"), "PUT": ("PUTTER", "putter"),
}  # fmt: skip
# Words for a figure or a part that a dash may stand behind like a colon.
_TOLD = {
    "LOFT", "LIE", "BOUNCE", "LENGTH", "TORQUE", "FREQUENCY", "TOTALMASS", "TOEHANG", "HEADMASS", "SHAFTWORD",
    "GRIPWORD", "HEADWORD", "SLEEVE", "SWINGWEIGHT", "FLEXWORD", "SOLEWORD", "NECKWORD", "WRAP", "BALLWORD",
    "PLAYERWORD",
}  # fmt: skip
_LABELS = {"WOOD", "HYBRID", "WEDGE", "DIRON"}
_ASKING = {"me", "fitter", "host", "interviewer", "coach", "pro", "shop", "us", "you", "caddie", "builder"}
_MONEY = {"£", "$", "€", "¥", "gbp", "eur", "usd", "euro", "euros", "dollars", "quid"}
_RANGED = {"IRON", "WOOD", "HYBRID", "DIRON"}
_PLAYERS = {"player", "client", "customer", "golfer"}
_NOT_DONE = {"nearly", "almost", "never", "not", "wasn't", "isn't", "hasn't", "haven't", "thinking", "considering"}
_NAMING = ("club", "named", "span", "dashed", "amounts", "code")


def prepare(scene: Scene) -> None:
    """Soften line breaks inside sentences, find tables, set aside clubs that are not in the set."""
    _prices(scene)
    _bracketed(scene)
    _dashed(scene)
    _telegram(scene)
    _dotted(scene)
    _speakers(scene)
    _lettered(scene)
    _counted(scene)
    _model_letters(scene)
    lay_out(scene)
    _soften(scene)
    find_tables(scene)
    scene.club_last = scene.club_last and not scene.rows
    free_proper_names(scene)
    free_tails(scene)
    _taken_out(scene)
    set_old_aside(scene)
    set_old_before_arrow(scene)
    _none(scene)
    _set_aside(scene)
    _signed(scene)


def _prices(scene: Scene) -> None:
    """ "£310", "420 EUR": what a thing costs is no figure of a club."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        before, after = tokens[at - 1] if at else None, tokens[at + 1] if at + 1 < len(tokens) else None
        marked = before is not None and before.text in _MONEY and token.glued
        told = after is not None and after.lower in _MONEY
        if (token.kind == "number" or token.terminal == "PRICE") and (marked or told):
            token.terminal, token.kind = "PRICE", "word"
            scene.claims[at] = "left"


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
        if spaced and before.terminal in _TOLD and (at < 2 or scene.line_start(at - 1)):
            token.terminal, token.text = "EQ", ":"  # "toe hang - 20" on a line of its own
            continue
        plural = before.terminal in _LABELS | {"IRON"} and before.lower.endswith("s")
        if spaced and plural and after.kind == "number" and (at < 2 or scene.tokens[at - 2].kind != "word"):
            token.terminal, token.text = "EQ", ":"  # "2 hybrids - 19 and 23"
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
        named = club is not None and club.rule in _NAMING and club.end - at <= 3
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


def _speakers(scene: Scene) -> None:
    """ "Q:" and "A:" before the lines of an interview say who speaks."""
    _voices(scene)
    tokens = scene.tokens
    marks = [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text in ("Q", "A") and tokens[at + 1].text in (":", ".") and scene.line_start(at)
    ]
    if len({tokens[at].text for at in marks}) < 2:
        return
    for at in marks:
        for index in (at, at + 1):
            tokens[index].terminal = "BULLET"
            scene.claims[index] = "silent"
        if tokens[at].text == "Q":
            _addressed(scene, at)


def _voices(scene: Scene) -> None:
    """ "Me: what do you play?", "Ada: a Gannet driver": names before the lines of a talk say who speaks.

    Whoever speaks most often, and not as a fitter or as the one who asks, is the player.
    """
    tokens = scene.tokens
    labels: dict[str, list[int]] = {}
    for at in range(len(tokens) - 2):
        if tokens[at].kind != "word" or tokens[at + 1].text != ":" or not scene.line_start(at):
            continue
        unknown = tokens[at].terminal == "WORD" or scene.claims[at] or tokens[at].lower in _ASKING | _PLAYERS
        if len(tokens[at].text) > 1 and (unknown or tokens[at].terminal == "BULLET"):
            labels.setdefault(tokens[at].lower, []).append(at)
    if len(labels) < 2 or sum(len(places) for places in labels.values()) < 3:
        return
    lines = sum(token.terminal == "NEWLINE" for token in tokens)
    if 2 * sum(len(places) for places in labels.values()) < lines - 1:
        return
    answering = [name for name in labels if name not in _ASKING | _PLAYERS]
    if not set(labels) & (_ASKING | _PLAYERS):
        asks = [name for name in answering if any(tokens[scene.clause_end(at)].text == "?" for at in labels[name])]
        if not asks:
            return
        answering = [name for name in answering if name not in asks]
    for places in labels.values():
        for at in places:
            for index in (at, at + 1):
                tokens[index].terminal = "BULLET"
                scene.claims[index] = "silent"
    if len(answering) == 1 and "player" not in scene.facts:
        first = labels[answering[0]][0]
        scene.facts["player"] = tokens[first].text
        scene.claims[first] = "set"


def _addressed(scene: Scene, at: int) -> None:
    """ "Q: And what do you play, Ada?": whom an interviewer asks is the player."""
    tokens = scene.tokens
    end = scene.clause_end(at)
    asked = {token.lower for token in tokens[at:end]} & {"you", "your", "bag", "you're", "you've"}
    name = tokens[end - 1] if end < len(tokens) and tokens[end].text == "?" else None
    if name is None or not asked or tokens[end - 2].text != "," or name.terminal != "WORD":
        return
    if name.text[:1].isupper() and "player" not in scene.facts:
        scene.facts["player"] = name.text
        scene.claims[end - 1] = "set"


def _lettered(scene: Scene) -> None:
    """ "D:", "F:", "h -", "I:", "W:", "p -" down the left of a list: each letter is a kind of club."""
    tokens = scene.tokens
    marks = [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text.upper() in _KINDS_BY_LETTER and _parted(tokens[at + 1]) and scene.line_start(at)
    ]
    marks = marks or [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text in _KINDS_BY_LETTER and scene.line_start(at) and _model_behind(tokens[at + 1])
    ]
    small = any(tokens[at].text.islower() for at in marks)
    found = {tokens[at].text.upper() for at in marks}
    if "PUT" not in found and len(found & (set("DFHIWP") if small else set("FHIW"))) < 2 and len(found) < 3:
        return
    for at in marks:
        tokens[at].terminal, tokens[at].lower = _KINDS_BY_LETTER[tokens[at].text.upper()]
        tokens[at].value = tokens[at].lower


def _model_behind(token: Token) -> bool:
    """True for the "Pochard" of "D Pochard 9": a capital word of nobody's."""
    return token.terminal == "WORD" and token.text[:1].isupper() and not token.glued


def _parted(token: Token) -> bool:
    """True for a colon, and for a dash with a blank before it."""
    return token.text == ":" or (token.text in DASHES and not token.glued)


def _model_letters(scene: Scene) -> None:
    """The D of "Driver Swiftlet D 10.5", the I of "irons Swiftlet I": a letter behind a model's name is the model's."""
    for before, token in pairwise(scene.tokens):
        kind = token.text in _KINDS_BY_LETTER and token.terminal in ("DRIVER", "IRON", "PUTTER", "HYBRID", "WOOD")
        if kind and before.terminal == "WORD" and before.text[:1].isupper() and before.line == token.line:
            token.terminal = "LETTER"


def _counted(scene: Scene) -> None:
    """ "Hybrid 1: …", "Hybrid 2: …" and "8 x Irons": numbers that count lines or clubs and name none."""
    tokens = scene.tokens
    labels: dict[str, list[int]] = {}
    for at in range(len(tokens) - 2):
        if tokens[at].terminal in _LABELS and tokens[at + 1].terminal == "NUM" and scene.line_start(at):
            if tokens[at + 2].text in (":", ")", "-", "–", "—"):
                labels.setdefault(tokens[at].terminal, []).append(at + 1)
        elif tokens[at].text.isdigit() and tokens[at + 1].lower in ("x", "×") and scene.line_start(at):
            if phrase_at(tokens, at + 2) is None:
                continue
            scene.claims[at] = scene.claims[at + 1] = "silent"
            tokens[at].terminal = tokens[at + 1].terminal = "BULLET"
            several = tokens[at].text != "1" and tokens[at + 2].terminal in _LABELS
            tokens[at + 2].lower = tokens[at + 2].lower.removesuffix("s") + "s" * several  # "2x fairway": two of them
    for places in labels.values():
        if len(places) > 1 and [tokens[at].value for at in places] == [float(n + 1) for n in range(len(places))]:
            for at in places:
                scene.claims[at] = "silent"
                tokens[at].terminal = "SILENT"


def _soften(scene: Scene) -> None:
    """In speech and wrapped prose a line's end is no sentence's end."""
    tokens = scene.tokens
    prose = scene.source.spoken or _is_prose(scene)
    if not prose:
        return
    small = scene.source.text.islower()
    for at, token in enumerate(tokens):
        if token.terminal != "NEWLINE" or at == 0 or at + 1 >= len(tokens):
            continue
        before, after = tokens[at - 1], tokens[at + 1]
        if before.terminal in ("NEWLINE", "STOP") or after.terminal in ("NEWLINE", "BULLET"):
            continue
        if not scene.source.spoken and (_labelled(tokens, at + 1) or (small and _opens_club(tokens, at + 1))):
            continue
        if (
            (after.kind == "word" and after.text[:1].islower())
            or before.terminal in ("COMMA", "AND", "WITH", "IN", "AT")
            or (after.kind == "number" and before.kind == "word" and not after.text[:1].isupper())
        ):
            token.terminal = "SILENT"
        elif scene.source.spoken:
            token.terminal = "STOP" if after.text[:1].isupper() else "BREAK"


def _opens_club(tokens: list[Token], at: int) -> bool:
    """True for a line that begins with its club: where nobody writes capitals, a small letter is no running on."""
    phrase = phrase_at(tokens, at)
    return phrase is not None and phrase.rule in ("club", "named", "family", "span")


def _labelled(tokens: list[Token], at: int) -> bool:
    """True for a line that begins with its club and a colon or a dash: "putter - stint, 34"."""
    phrase = phrase_at(tokens, at)
    if phrase is None or phrase.rule not in ("club", "named", "family") or phrase.end >= len(tokens):
        return False
    after = tokens[phrase.end]
    return after.text == ":" or (after.terminal == "DASH" and not after.glued)


def _signed(scene: Scene) -> None:
    """ "Thanks, Ada", "Kind regards," and a name below it: who signs a list is its player."""
    tokens = [token for token in scene.tokens if token.kind != "newline"]
    names: list[Token] = []
    small = scene.source.text.islower()
    while tokens and len(names) < 4 and tokens[-1].kind == "word" and (small or tokens[-1].text[:1].isupper()):
        names.append(tokens.pop())
        if names[-1].lower in _SIGN_OFFS:
            tokens.append(names.pop())
            break
    while tokens and tokens[-1].text in (",", "!", ".", "-", "–", "—"):
        tokens.pop()
    if not tokens or tokens[-1].lower not in _SIGN_OFFS:
        return
    names = [token for token in names if token.line == names[-1].line or len(names) < 3]  # below the name: an office
    if not 1 <= len(names) <= 3:
        return
    if any(token.terminal not in ("WORD", "LETTER", "MONTH") for token in names):
        return
    said = {token.lower for token in scene.tokens}
    if said & {"he", "she", "his", "her"} and not said & {"i", "my", "me", "i'm", "i've", "mine"}:
        return  # a fitter writes of somebody else
    words = [token.lower for token in scene.tokens]
    if said & {"he", "she"} and any(one == "my" and other in RELATED for one, other in pairwise(words)):
        return  # "My daughter Ada is thirteen … Yours, Mrs Brandt"
    start, end = scene.tokens.index(names[-1]), scene.tokens.index(names[0]) + 1
    scene.facts["player"] = scene.words(start, end)
    for at in range(start, end):
        scene.claims[at] = "set"


def _is_prose(scene: Scene) -> bool:
    """True for running text: long lines whose sentences run on into the next line."""
    lines = [line for line in scene.source.lines if line.strip()]
    if len(lines) < 2:
        return False
    runs = sum(
        one.rstrip()[-1:] not in ".;:!?|"
        and other.lstrip()[:1].islower()
        and len(one) >= 50
        and sum(word.strip(",.()").isalpha() for word in one.split()) * 4 >= 3 * len(one.split())
        for one, other in pairwise(lines)
    )
    return runs * 3 >= len(lines) - 1


# ----------------------------------------------------------------------------------------------------------- asides


def _taken_out(scene: Scene) -> None:
    """ "3 wood out, 5 wood in", "swapped the 60 for a 58": the club that went is kept aside, the other one read."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if scene.claims[at]:
            continue
        start = end = at
        if token.lower in _SWAPS:
            club = at + 1
            while club < len(tokens) and tokens[club].terminal == "SILENT":
                club += 1
            if _doubted(tokens, at) and club < len(tokens) and tokens[club].lower in ("for", "to"):
                club += 1 + (club + 1 < len(tokens) and tokens[club + 1].terminal == "SILENT")
                phrase = phrase_at(tokens, club) if club < len(tokens) else None
                if phrase is not None and phrase.rule in _NAMING:
                    scene.aside.append(Passage(line=token.line, text=scene.words(at, phrase.end)))
                    scene.claims[at : phrase.end] = ["aside"] * (phrase.end - at)
                continue
            phrase = phrase_at(tokens, club) if club < len(tokens) else None
            if phrase is None or phrase.rule not in (*_NAMING, "bare") or phrase.end >= len(tokens):
                continue
            if tokens[phrase.end].lower not in ("for", "with", "to"):
                continue
            new = phrase.end + 1
            while new < len(tokens) and tokens[new].terminal == "SILENT":
                new += 1
            if new < len(tokens) and tokens[new].terminal == "WORD":
                continue  # "I changed my driver to a Wigeon": the driver is told of
            end = phrase.end
        elif token.lower == "out" and at and _gone(tokens, at):
            start = max(0, at - 3)
            stop = at - 1 if tokens[at - 1].terminal == "EQ" and tokens[at - 1].kind == "word" else at
            while start < at and not _ends_at(tokens, start, stop):
                start += 1
            end = at + 1
        if end - start < 2:
            continue
        scene.aside.append(Passage(line=tokens[start].line, text=scene.words(start, end)))
        scene.claims[start:end] = ["aside"] * (end - start)


def _gone(tokens: list[Token], at: int) -> bool:
    """True where "out" ends what is told of a club: before a mark, or in "took the 3 wood out and put …"."""
    if at + 1 == len(tokens) or tokens[at + 1].kind in ("mark", "newline"):
        return True
    taken = any(token.lower in ("took", "take", "taken", "takes", "pulled", "left") for token in tokens[at - 6 : at])
    return taken and tokens[at + 1].lower in ("and", "for", "to", "so", "but")


def _none(scene: Scene) -> None:
    """ "Hybrid: none", "3 wood - n/a": a place that nothing fills."""
    tokens = scene.tokens
    for at in range(len(tokens)):
        if scene.claims[at] or not scene.line_start(at):
            continue
        phrase = phrase_at(tokens, at)
        if phrase is None or phrase.rule not in ("club", "named", "family") or "old" in scene.rows.get(at, ()):
            continue
        end = scene.clause_end(phrase.end)
        rest = [token for token in tokens[phrase.end : end] if token.text not in (":", "-", "–", "—", "|", "=", "/")]
        said = " ".join(token.lower for token in rest)
        if said.startswith("none") or said in ("nil", "n a", "no", "not carried", "empty", "nothing"):
            scene.aside.append(Passage(line=tokens[at].line, text=scene.words(at, end)))
            scene.claims[at:end] = ["aside"] * (end - at)


def _doubted(tokens: list[Token], at: int) -> bool:
    """True behind "might", "may", "thinking": what follows has not been done."""
    return any(
        token.lower in ("might", "may", "could", "thinking", "wants", "want") for token in tokens[max(0, at - 3) : at]
    )


def _ends_at(tokens: list[Token], start: int, end: int) -> bool:
    """True when a club is named from `start` up to `end`."""
    phrase = phrase_at(tokens, start)
    return phrase is not None and phrase.rule in ("club", "named") and phrase.end == end


def _set_aside(scene: Scene) -> None:
    """Clubs said to be spare, sold, tried or in reserve are kept word for word, outside the set."""
    tokens = scene.tokens
    at = 0
    while at < len(tokens):
        if tokens[at].lower == "no" and at + 1 < len(tokens) and tokens[at].terminal == "SILENT":
            # "No three wood.": a club said not to be there
            phrase = phrase_at(tokens, at + 1)
            if phrase is not None and phrase.rule in ("club", "named", "family") and not scene.claims[at]:
                end = phrase.end
                scene.aside.append(Passage(line=tokens[at].line, text=scene.words(at, end)))
                for index in range(at, end):
                    scene.claims[index] = "aside"
                at = end
                continue
        if tokens[at].lower in ("testing", "trying out", "trying") and _either(scene, at):
            scene.claims[at] = "silent"  # two clubs for one place: both are in play
            at += 1
            continue
        if tokens[at].terminal != "ASIDE" or scene.claims[at] or _likened_to(tokens, at) or _still_in(scene, at):
            at += 1
            continue
        start, end = _aside_span(scene, at)
        if tokens[at].lower in ("at home", "in the car", "outgrown", "outgrew") and not _speaks_of_a_club(scene, start, end):
            at += 1
            continue
        while (
            start < end
            and tokens[start].terminal in ("BULLET", "AND", "COMMA", "SILENT")
            and tokens[start].kind != "word"
        ):
            start += 1
        text_end = end
        while text_end > start and tokens[text_end - 1].kind == "newline":
            text_end -= 1
        scene.aside.append(Passage(line=tokens[start].line, text=scene.words(start, text_end)))
        for index in range(start, end):
            scene.claims[index] = scene.claims[index] or "aside"
        if other := _under_heading(scene, at, end):
            scene.aside.append(Passage(line=tokens[end + 1].line, text=scene.words(end + 1, other)))
            scene.claims[end + 1 : other] = [claim or "aside" for claim in scene.claims[end + 1 : other]]
            end = other
        at = max(end, at + 1)


def _under_heading(scene: Scene, at: int, end: int) -> int:
    """Where the lines below "For sale:", "Spare:" end, at the next blank line; 0 for no heading."""
    tokens = scene.tokens
    last = tokens[end - 1].text if end > at else tokens[at].text
    headed = last.endswith(":") and end + 1 < len(tokens) and tokens[end].terminal == "NEWLINE"
    if not headed or tokens[end + 1].terminal in ("NEWLINE", "BULLET"):
        return 0
    stop = end + 1
    while stop < len(tokens) and not (tokens[stop].terminal == "NEWLINE" and tokens[stop - 1].terminal == "NEWLINE"):
        stop += 1
    return min(stop, len(tokens)) - (stop < len(tokens))


def _speaks_of_a_club(scene: Scene, start: int, end: int) -> bool:
    """True when a club is named or a figure stands between two places."""
    found = [phrase_at(scene.tokens, at) for at in range(start, end)]
    return any(one is not None and one.rule in (*_NAMING, "bare", "same", "group") for one in found)


def _likened_to(tokens: list[Token], at: int) -> bool:
    """True for the "last year" of "the new one, not the one from last year": only compared with."""
    words = tokens[max(0, at - 4) : at]
    return tokens[at].lower.startswith("last ") and any(token.terminal == "THAN" for token in words)


def _still_in(scene: Scene, at: int) -> bool:
    """True for "nearly sold", "since last season", "the blades from last year": the club is not said to be out."""
    tokens = scene.tokens
    if tokens[at].lower in ("last year", "last season"):
        told = scene.line_start(at) or (at > 0 and tokens[at - 1].terminal in ("LPAR", "BREAK"))
        return not told
    if any(token.lower in ("clubs", "bag", "set") for token in tokens[max(0, at - 2) : at]):
        return True  # "the clubs are in the car": where the set is, not what is out of it
    return any(token.lower in _NOT_DONE for token in tokens[max(0, at - 3) : at] if token.line == tokens[at].line)


def _either(scene: Scene, at: int) -> bool:
    """True when "or" stands before this place in its sentence."""
    tokens = scene.tokens
    start = at
    while start > max(0, at - CLAUSE) and tokens[start - 1].terminal not in ("NEWLINE",):
        start -= 1
    return any(token.terminal == "OR" for token in tokens[start:at])


def _back_to(tokens: list[Token], at: int) -> bool:
    """True for "but went back to the Garganey": another head is named for the same place."""
    words = [token.lower for token in tokens[at : at + 8]]
    return "back" in words and words[words.index("back") + 1 :][:1] == ["to"]


def _put_in(tokens: list[Token], at: int, end: int) -> int:
    """Where "and put in", "and added", "and now carries" begins; -1 where nothing came in."""
    for index in range(at, end - 1):
        joined = tokens[index].terminal in ("AND", "COMMA") or tokens[index].lower in ("then", "so")
        words = [token.lower for token in tokens[index + 1 : index + 3]]
        if joined and (words[0] in ("added", "adds", "adding") or words in (["put", "in"], ["puts", "in"])):
            return index
    return -1


def _aside_span(scene: Scene, at: int) -> tuple[int, int]:
    """The stretch of tokens that the aside covers: its sentence or line, or its club's part of it."""
    tokens = scene.tokens
    start, end = at, at
    while start > max(0, at - CLAUSE // 2) and tokens[start - 1].terminal not in ("STOP", "NEWLINE"):
        start -= 1
    while end < min(len(tokens), at + CLAUSE // 2) and tokens[end].terminal not in ("STOP", "NEWLINE"):
        end += 1
    clubs = []
    position = start
    while position < end:
        phrase = phrase_at(tokens, position)
        if phrase is not None and phrase.rule in _NAMING and not (phrase.amounts and phrase.amounts[0].value >= 70):
            clubs.append(position)
            position = phrase.end
        else:
            position = position + 1 if phrase is None else phrase.end
    for comma in range(at, end):
        if tokens[comma].terminal == "COMMA" and any(token.lower == "now" for token in tokens[comma + 1 : comma + 4]):
            return start, comma  # "he used to have the old one, now it's the new one"
    if tokens[at].text.endswith(":") or tokens[at].lower.startswith("lost "):
        return start, end
    new = _put_in(tokens, at, end)
    if new > 0 and any(club < new for club in clubs) and any(club > new for club in clubs):
        return start, new  # "he dropped the 5 wood and put in a 7 wood": the new one is in the set
    low = at
    while low > start and tokens[low - 1].terminal == "SILENT":
        low -= 1
    other = tokens[at].lower in ("backup", "spare", "back-up", "reserve", "alternate", "standby")
    if other and low > start and tokens[low - 1].terminal == "AND" and any(club < low for club in clubs):
        return low, end  # "my gamer is a Wigeon 9 and my backup is a Wigeon 10.5"
    turn = next((index for index in range(at, end) if tokens[index].lower == "but"), -1)
    if turn > 0 and len(clubs) == 1 and at < clubs[0] < turn and _back_to(tokens, turn):
        return start, clubs[0]  # "he tried the Twite three wood but went back to the Garganey": the club stays
    if len(clubs) <= 1 or all(tokens[club].terminal == "PUTTER" for club in clubs):
        return start, end
    low = at
    while low > start and tokens[low - 1].terminal not in ("COMMA", "LPAR", "PIPE", "BREAK"):
        low -= 1
    behind = [club for club in clubs if club >= low]
    opened = tokens[low - 1].terminal == "LPAR" if low > start else False
    if (not behind or opened) and clubs and low > start:
        before = [club for club in clubs if club < at]
        low = before[-1] if before else low
        while low > start and tokens[low - 1].terminal in ("WORD", "LETTER", "SILENT"):
            low -= 1
    high = at
    while high < end and tokens[high].terminal not in ("COMMA", "RPAR", "PIPE", "BREAK"):
        high += 1
    return low, high
