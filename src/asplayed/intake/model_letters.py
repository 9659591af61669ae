"""What ends a model's name and is no flex, loft or club: "Burr X 65 S", "Gannet 790", "Burr Wedge 105 S"."""

from __future__ import annotations

import re
from collections import Counter

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import CLUB_RULES, flex_number, phrase_at
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tokens import DASHES, Token, gap
from asplayed.intake.wording import eligible

_BETWEEN = {"COMMA", "LPAR", "AT", "SILENT", "EQ"}
_UNITS = {"GRAM", "MM", "CM", "METRE", "INCH", "DEG", "CPM", "PCT"}
_DISTANCES = {"m", "metres", "meters", "y", "yd", "yds", "yard", "yards", "rpm", "mph", "km", "cc"}
_ARTICLES = {"a", "an", "the", "his", "her", "my"}
_FLEXES = {"FLEX", "FLEXCODE"}
_TO_FLEX = {"GRAM", "COMMA", "IN", "EQ", "FLEXWORD", "SILENT", "PIPE", "SLASH"}
_FEW = 12  # tokens of a row of lofts before their model
_KINDS = {"IRON", "HYBRID", "WOOD", "DIRON"}
_LABELS = {"HEADWORD", "SHAFTWORD", "GRIPWORD", "BALLWORD"}
_ENDS = {"NEWLINE", "STOP", "BREAK"}


def read_model_letters(scene: Scene) -> None:
    """Make each letter that is a model's part of its name; the same letter behind the same name is so everywhere."""
    tokens = scene.tokens
    places = [at for at in range(1, len(tokens)) if _behind_name(scene, at)]
    told = _flex_told_apart(tokens, set(places))
    labelled = any(token.terminal == "FLEXWORD" for token in tokens)
    theirs = {_pair(tokens, at) for at in places if _of_the_name(scene, at, told=told, labelled=labelled)}
    for at in places:
        if _pair(tokens, at) in theirs:
            join(tokens[at])
    for at in _letters_of_wedges(scene):
        join(tokens[at])
    for at in _flexes_of_models(scene):
        join(tokens[at])
    for at in _letters_before_masses(scene):
        join(tokens[at])
    for at in (*_kinds_in_names(scene), *_numbered_kinds(scene)):
        join(tokens[at])
    for at in _lettered_numbers(scene):
        join(tokens[at])
        join(tokens[at + 1])
    for at in range(2, len(tokens)):
        if _plural_of_number(scene, at):
            tokens[at].terminal, tokens[at].kind = "SILENT", "word"
    for at in _hands_in_names(scene):
        join(tokens[at])
    shafts = _wedge_shafts(scene)
    for at in _numbers_of_models(scene):
        join(tokens[at])
    for at in _falling_numbers(scene):
        for part in tokens[at : at + 3]:
            join(part)
    for at in range(1, len(tokens)):
        if _no_figure(scene, at) or (tokens[at].text == "Wedge" and _pair(tokens, at) in shafts):
            join(tokens[at])


def _letters_of_wedges(scene: Scene) -> list[int]:
    """Where a letter stands behind a model of wedges that several of them have, or before its loft: no sole's."""
    tokens = scene.tokens
    places = [at for at in range(1, len(tokens)) if tokens[at].terminal == "LETTER" and _close_behind(scene, at)]
    pairs = Counter(_pair(tokens, at) for at in places)
    names = Counter(name for name, _ in pairs)
    found = []
    for at in places:
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if names[_pair(tokens, at)[0]] > 1 or (after is not None and after.terminal in ("SOLEWORD", "DASH")):
            continue
        start = start_of(tokens, at)
        several = pairs[_pair(tokens, at)] > 1 or (start > 2 and _several_stamps(tokens, start))
        if several or (after is not None and not after.glued and _lofted(scene, at + 1)):
            found.append(at)
    return found


def _flexes_of_models(scene: Scene) -> list[int]:
    """The "Lady" of "Ringdove Lady, 12.5°, shaft Reed 42 g, flex L": between a model and its loft, flex told apart."""
    tokens, found = scene.tokens, []
    for at in range(1, len(tokens) - 3):
        if tokens[at].terminal != "FLEX" or not tokens[at].text[:1].isupper() or tokens[at].text.isupper():
            continue
        closed = tokens[at + 1].terminal in ("COMMA", "NEWLINE", "LPAR", "STOP") and _close_behind(
            scene, at, capitals=False
        )
        if tokens[at].text == "Lady" and closed:
            found.append(at)  # "Sorrel Lady, 13 degrees": nobody's flex is called so in the single
            continue
        lofted = [token.terminal for token in tokens[at + 1 : at + 4]] == ["COMMA", "NUM", "DEG"]
        line = tokens[at + 4 : scene.clause_end(at + 4)] if lofted and _close_behind(scene, at, capitals=False) else []
        if any(token.terminal == "FLEXWORD" for token in line):
            found.append(at)
    return found


def _kinds_in_names(scene: Scene) -> list[int]:
    """The "Hy" of "4 hybrid: Smew Hy 22", the "Wedge" of "GW: Burr Wedge 52.08", the "Iron" of "Shaft: Reed Iron"."""
    tokens, found = scene.tokens, []
    for at in range(1, len(tokens)):
        token = tokens[at]
        if not _close_behind(scene, at, capitals=False, coloured=True):
            small = token.terminal in _KINDS and tokens[at - 1].terminal == "WORD" and not scene.claims[at]
            led = [one.terminal for one in tokens[max(0, at - 3) : at - 1]]
            if small and (led[-1:] == ["WITH"] or led == ["WITH", "SLASH"]) and _kind_of_shaft(scene, at, "WITH"):
                found.append(at)  # "w/ reed utility 100g x", in a list of small letters
            continue
        if not token.text[:1].isupper():
            if _of_shafts(tokens, at) and told_kind(tokens, start_of(tokens, at)) == token.terminal:
                token.terminal, token.kind = "SILENT", "word"  # "5 hybrid …, Burr hybrid shafts, 70 g"
            continue
        start = start_of(tokens, at)
        told = told_kind(tokens, start)
        short = token.terminal == "HYBRID" and len(token.text) <= 3
        wedge = token.text == "Wedge" and not _shaft_behind(scene, at)
        spin = token.terminal == "SPIN" and _lofted(scene, at + 1)
        colon = at + 1 < len(tokens) and tokens[at + 1].text == ":"
        spin = spin or (token.text == "Grind" and token.terminal == "SOLEWORD" and colon)  # "Wedges, Siskin Grind: …"
        ends = at + 1 == len(tokens) or tokens[at + 1].kind == "newline"
        keyed = start > 1 and tokens[start - 1].text == ":" and tokens[start - 2].terminal == "HEADWORD"
        if token.terminal == "HANDWORD" and ends and keyed:
            found.append(at)  # "Head: Wagtail Hand"
        if (short and told == "HYBRID") or ((wedge or spin) and told == "WEDGE"):
            found.append(at)
        kind = token.terminal in _KINDS and token.text == token.lower.capitalize() and token.text[-1] != "s"
        labelled = start > 1 and tokens[start - 1].text == ":" and tokens[start - 2].terminal == "SHAFTWORD"
        labelled = labelled or (tokens[start - 1].terminal == "SHAFTWORD" and not colon)  # "shaft Reed Iron with 75 g"
        if kind and (labelled or _kind_of_shaft(scene, at, told) or _kind_of_head(scene, at, start, told)):
            found.append(at)
    return found


def _numbered_kinds(scene: Scene) -> list[int]:
    """The "2H" of "4h is the Copperline 2H 21.5": the club and its number have been told, and no other follows."""
    tokens, found = scene.tokens, []
    for at in range(3, len(tokens)):
        name, number, kind = tokens[at - 2 : at + 1]
        short = kind.terminal in ("HYBRID", "WOOD", "DIRON") and kind.text.isupper() and kind.glued
        if not short or number.terminal != "NUM" or number.glued or name.terminal != "WORD":
            continue
        told = next((place for place in range(at - 3, 0, -1) if tokens[place].terminal == kind.terminal), 0)
        near = told > 0 and tokens[told].line == kind.line and tokens[told - 1].terminal == "NUM"
        near = near and all(one.terminal in ("SILENT", "EQ") or one.text == ":" for one in tokens[told + 1 : at - 2])
        if near and name.text[:1].isupper() and _lofted(scene, at + 1):
            found += [at - 1, at]
    return found


def _kind_of_shaft(scene: Scene, at: int, told: str) -> bool:
    """True for "with the Burr Hybrid, 85 grams" of a hybrid, for "a Burr Iron shaft": what the shaft is made for."""
    tokens = scene.tokens
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if after is not None and after.terminal == "SHAFTWORD":
        return tokens[min(at + 2, len(tokens) - 1)].text != ":"
    behind = [token for token in tokens[at + 1 : at + 6] if token.terminal not in (*_BETWEEN, "IN", *_FLEXES)][:2]
    weighed = len(behind) > 1 and _massive(behind[0]) and behind[1].terminal == "GRAM"
    word = tokens[at].terminal
    kin = told in ("WITH", word) or (told, word) in (("WEDGE", "IRON"), ("DIRON", "HYBRID"))
    led = start_of(tokens, at) - 1
    while led > 0 and tokens[led].terminal == "SILENT":
        led -= 1
    return weighed and (kin or (led > 0 and tokens[led].terminal == "WITH"))  # "That one has a Burr Hybrid, 85 grams"


def _of_shafts(tokens: list[Token], at: int) -> bool:
    """True for the hybrid of "Burr hybrid shafts, 70 g": what those shafts are made for, and no club."""
    behind = tokens[at + 1 : at + 3]
    shafts = bool(behind) and behind[0].terminal == "SHAFTWORD" and all(token.terminal != "EQ" for token in behind)
    return shafts and tokens[at].terminal in _KINDS


def _kind_of_head(scene: Scene, at: int, start: int, told: str) -> bool:
    """True for "7 iron, Gannet Iron, regular", "Sand wedge, Gannet Iron, 56°": the club is told, and then its model."""
    tokens, led = scene.tokens, start - 1
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closed = after is None or after.terminal in ("COMMA", "NEWLINE", "STOP", "LPAR", "PIPE")
    kin = told == tokens[at].terminal or (told == "WEDGE" and tokens[at].terminal == "IRON")
    while led > max(0, start - _FEW) and tokens[led].terminal in ("COMMA", "EQ", "SILENT", "DASH"):
        led -= 1
    named = led >= 0 and (tokens[led].terminal in FAMILIES or tokens[led].terminal == "NAMEDWEDGE")
    return closed and kin and named and led < start - 1


def _hands_in_names(scene: Scene) -> list[int]:
    """The "LH" of "Hoopoe LH" beside "Hoopoe LX" and "Hoopoe LI": a model's letters, and nobody's hand."""
    tokens = scene.tokens
    lettered = Counter(
        tokens[at - 1].lower
        for at in range(1, len(tokens))
        if len(tokens[at].text) == 2 and tokens[at].text.isupper() and _close_behind(scene, at)
    )
    return [
        at
        for at in range(1, len(tokens))
        if tokens[at].terminal == "HAND"
        and tokens[at].text in ("LH", "RH")
        and _close_behind(scene, at)
        and lettered[tokens[at - 1].lower] > 2
    ]


def _lettered_numbers(scene: Scene) -> list[int]:
    """The "88F" of "Tormentil 88F", the "3H" of "4 hybrid: Reedling 3H": a number and its letter end a name."""
    tokens, found = scene.tokens, []
    for at in range(1, len(tokens) - 2):
        number, letter = tokens[at : at + 2]
        tied = number.text.isdigit() and letter.glued and len(letter.text) == 1 and letter.text.isupper()
        if not tied or letter.text in "IP" or not _close_behind(scene, at, capitals=False):
            continue
        start = start_of(tokens, at)
        told = told_kind(tokens, start)
        if letter.text in "SRXALT":  # no head's model in "Ostrane 6S", which is a shaft and its flex
            if int(number.text) < 10 and told in ("WEDGE", "IRON", "PUTTER") and _heads(scene, start):
                found.append(at)  # "Sand wedge: Tormentil 2S, 55 degrees"
            continue
        grams = letter.text == "G" and 38 <= int(number.text) <= 150
        if grams and (not _heads(scene, start) or tokens[at + 2].terminal in _FLEXES):
            continue  # "SHUTTLE 70G REG"
        large = int(number.text) > (11 if told == "IRON" else 64) and told in ("IRON", "DRIVER", "WOOD", "HYBRID")
        other = {"W": "WOOD", "F": "WOOD", "H": "HYBRID"}.get(letter.text, "")
        labelled = start > 0 and tokens[start - 1].text == ":" and told == "PUTTER"
        if labelled and other and tokens[at + 2 : at + 3] and tokens[at + 2].kind in ("mark", "newline"):
            found.append(at)  # "Putter: Avocet 2W, slant neck"
        elif large or (letter.text == "H" and told == "HYBRID" and _numbered_before(tokens, start)):
            found.append(at)
    return found


def _plural_of_number(scene: Scene, at: int) -> bool:
    """True for the s of "Tormentil 300s": behind a number that is no shaft's mass it is a plural's and no flex."""
    tokens = scene.tokens
    number = tokens[at - 1]
    if tokens[at].text != "s" or not tokens[at].glued or not number.text.isdigit():
        return False
    if not _close_behind(scene, at - 1, capitals=False):
        return False
    start = start_of(tokens, at - 1)
    told = int(number.text) < 10 and told_kind(tokens, start) in ("IRON", "WEDGE") and _heads(scene, start)
    return int(number.text) > 160 or told


def _numbered_before(tokens: list[Token], start: int) -> bool:
    """True behind "4 hybrid:", "4 hybrid since 2021:": the club has its number, and a name follows a colon."""
    line = [token for token in tokens[max(0, start - 8) : start] if token.line == tokens[start].line]
    kinds = [at for at, token in enumerate(line) if token.terminal == "HYBRID"]
    return bool(kinds) and line[-1].text == ":" and kinds[0] > 0 and line[kinds[0] - 1].kind == "number"


def told_kind(tokens: list[Token], start: int) -> str:
    """The kind of club last told before a name in its line, or in the sentence before it; "" for none."""
    stops = 0
    for at in range(start - 1, max(-1, start - CLAUSE), -1):
        terminal = tokens[at].terminal
        if terminal == "NAMEDWEDGE" and at and tokens[at - 1].terminal in ("DASH", "RANGE"):
            return "IRON"  # "5-PW Dunlin"
        if terminal in ("NAMEDWEDGE", "WEDGE", "CODE"):
            return "WEDGE"
        if terminal in FAMILIES:
            return terminal
        stops += terminal == "STOP"
        if terminal == "NEWLINE" or stops > 2:
            return "WEDGE" if _only_stamps(tokens, at + 1, start) else ""
    return "WEDGE" if _only_stamps(tokens, 0, start) else ""


def _only_stamps(tokens: list[Token], low: int, high: int) -> bool:
    """True for the "50° and 56° -" before a model: a line that opens with wedges' lofts alone."""
    if high - low >= _FEW:
        return False
    line = [at for at in range(low, high) if tokens[at].kind == "number"]
    rest = {tokens[at].terminal for at in range(low, high)} - {"NUM", "DEG", "AND", "COMMA", "SLASH", "EQ", "BULLET"}
    return bool(line) and not rest and all(_stamp(tokens, at) for at in line)


def _letters_before_masses(scene: Scene) -> list[int]:
    """Where a letter that is no flex stands between a name, a mass and a flex: "Burr W 132 S"."""
    tokens = scene.tokens
    return [
        at
        for at in range(1, len(tokens) - 2)
        if tokens[at].terminal == "LETTER"
        and _close_behind(scene, at)
        and _massive(tokens[at + 1])
        and tokens[at + 2].terminal in _FLEXES
    ]


def _several_stamps(tokens: list[Token], end: int) -> bool:
    """True where two lofts of wedges stand before `end`, or one and "all three are", "both"."""
    near = [at for at in range(max(0, end - 7), end) if tokens[at].line == tokens[end].line]
    stamps = sum(_stamp(tokens, at) for at in near)
    return stamps > 1 or (stamps == 1 and any(tokens[at].terminal == "ALL" for at in near))


def join(token: Token) -> None:
    """Make a token a word of the name before it."""
    token.terminal, token.kind, token.value, token.named = "WORD", "word", token.lower, True


def _no_figure(scene: Scene, at: int) -> bool:
    """True for the 360 of "Norrby 360", the 790 of "Gannet 790", the "Wrap" of "Norrby Wrap": no figure of a club."""
    tokens = scene.tokens
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.text == "mini" and token.terminal == "MINIDRIVER" and tokens[at - 1].terminal == "WORD":
        opened = any(each.terminal == "MINIDRIVER" for each in tokens[max(0, at - 5) : at])
        return opened and after is not None and after.terminal == "NUM"  # "mini driver the gannet mini thirteen"
    if token.terminal not in ("WRAP", "MINIDRIVER", "NUM") or not _close_behind(scene, at, capitals=False):
        return False
    wrap = token.terminal == "WRAP" and token.text[:1].isupper() and not token.text.isupper()
    if token.text == "Mini" and token.terminal == "MINIDRIVER" and (after is None or after.terminal != "DRIVER"):
        line = [each for each in tokens[:at] if each.line >= token.line - 1]
        return any(each.terminal == "MINIDRIVER" for each in line)  # below "Mini driver"
    large = token.text.isdigit() and isinstance(token.value, float) and 160 < token.value < 800
    year = token.text.isdigit() and len(token.text) == 4 and bool(told_kind(tokens, start_of(tokens, at)))
    large = large or year  # "Irons: Salter 2024"
    large = large and not (after is not None and (after.terminal in _UNITS or after.lower in _DISTANCES))
    decimal = re.fullmatch(r"[1-9]\.\d", token.text) and not flex_number(token)
    version = decimal is not None and _clubbed(scene, at + 1)  # "Solvane 2.1 4-9", "Solvane 2.1 50/54/58"
    return wrap or large or version


def _numbers_of_models(scene: Scene) -> list[int]:
    """The 48 of "Driver, Froglet 48", "7 iron, Froglet 48", …: clubs of one model have no loft and no length alike."""
    tokens = scene.tokens
    places = []
    for at in range(1, len(tokens)):
        token, after = tokens[at], tokens[at + 1] if at + 1 < len(tokens) else None
        whole = token.terminal == "NUM" and token.text.isdigit() and _close_behind(scene, at, capitals=False)
        whole = whole and not token.unit
        bare = after is None or after.terminal not in (*_UNITS, *_FLEXES, "HYPHEN", "DASH", "RANGE")
        if whole and bare and _heads(scene, start_of(tokens, at)):
            places.append(at)
    counts = Counter(_pair(tokens, at) for at in places)
    return [at for at in places if counts[_pair(tokens, at)] > 2]


def _falling_numbers(scene: Scene) -> list[int]:
    """The "7-2" of "Froglet 7-2, 4-PW", "Head: Froglet 7-2": tied behind a model and falling, irons told apart from it.

    The "9-7" of "irons Froglet 9-7" counts the irons: nothing else there does.
    """
    tokens, found = scene.tokens, []
    for at in range(1, len(tokens) - 2):
        first, dash, last = tokens[at : at + 3]
        tied = dash.text in DASHES and dash.glued and last.glued and first.text.isdigit() and last.text.isdigit()
        behind = tokens[at + 3] if at + 3 < len(tokens) else None
        goes_on = behind is not None and behind.glued and behind.kind != "mark"
        figure = behind is not None and behind.terminal in ("IRON", *_UNITS)
        if not tied or goes_on or figure:
            continue
        falling = int(last.text) < int(first.text) < 10 and _close_behind(scene, at, capitals=False)
        other = falling and told_kind(tokens, start_of(tokens, at)) not in ("IRON", "")  # "driver Froglet 4-1 10.5"
        if falling and (other or _led_by_part(tokens, at) or _counted_apart(scene, at)):
            found.append(at)
    return found


def _led_by_part(tokens: list[Token], at: int) -> bool:
    """True behind "Heads: Froglet", "Shaft: Froglet", "Ball: Froglet"."""
    start = start_of(tokens, at)
    return start > 1 and tokens[start - 1].text == ":" and tokens[start - 2].terminal in _LABELS


def _counted_apart(scene: Scene, at: int) -> bool:
    """True where the line counts its irons in another place: "4-PW", "8 and 9", "the 4 iron to the gap wedge"."""
    tokens, low = scene.tokens, at
    while low > max(0, at - CLAUSE) and tokens[low - 1].terminal not in _ENDS:
        low -= 1
    places = [*range(low, at), *range(at + 3, scene.clause_end(at))]
    found = [phrase_at(tokens, place) for place in places]
    return any(one is not None and one.rule in ("span", "dashed", "amounts", "club", "named") for one in found)


def _wedge_shafts(scene: Scene) -> set[tuple[str, str]]:
    """The "Burr Wedge" of "with a Burr Wedge 105 stiff": behind a capital name, before a shaft's mass and flex."""
    found = set()
    for at in range(1, len(scene.tokens)):
        if scene.tokens[at].text == "Wedge" and _close_behind(scene, at, capitals=False) and _shaft_behind(scene, at):
            found.add(_pair(scene.tokens, at))
    return found


def _shaft_behind(scene: Scene, at: int) -> bool:
    tokens = scene.tokens
    start = start_of(tokens, at)
    led = [token for token in tokens[max(0, start - 3) : start] if token.lower not in _ARTICLES]
    before = led[-1].terminal if led else ""
    behind = [token for token in tokens[at + 1 : at + 6] if token.terminal not in _TO_FLEX]
    if not behind or behind[0].terminal == "SHAFTWORD" or before in ("GRAM", *_FLEXES):
        return bool(behind)  # "seventy-gram Burr Wedge shafts", "a regular Burr Wedge 50"
    given = before in ("WITH", "IN", "EQ") or (bool(led) and led[-1].lower in ("on", "same"))
    heavy = isinstance(behind[0].value, float) and behind[0].value >= 65
    flexed = len(behind) > 1 and behind[1].terminal in _FLEXES
    return _massive(behind[0]) and flexed and (given or heavy)


def _pair(tokens: list[Token], at: int) -> tuple[str, str]:
    return tokens[at - 1].lower, tokens[at].text


def _behind_name(scene: Scene, at: int) -> bool:
    """True for capital letters of a flex one blank behind a capital word, on its line."""
    token = scene.tokens[at]
    return token.terminal == "FLEXCODE" and len(token.text) < 3 and token.text.isupper() and _close_behind(scene, at)


def _close_behind(scene: Scene, at: int, *, capitals: bool = True, coloured: bool = False) -> bool:
    before, token = scene.tokens[at - 1 : at + 1]
    if scene.claims[at] or (capitals and not token.text.isupper()):
        return False
    named = before.terminal in ("WORD", "COLOUR") and before.text[:1].isupper()
    word = at - 2 if coloured and before.terminal == "COLOUR" and at > 1 else at - 1  # "Reed Black Hybrid"
    return named and token.line == before.line and gap(before, token) == 1 and eligible(scene, word)


def _flex_told_apart(tokens: list[Token], places: set[int]) -> bool:
    """True where the list tells some flex in a word, behind a mass or behind a label: where its flexes are told."""
    for at, token in enumerate(tokens):
        if token.terminal not in _FLEXES or at in places:
            continue
        before = tokens[at - 1] if at else None
        massive = before is not None and (before.terminal in ("GRAM", "EQ", "FLEXWORD") or _massive(before))
        if token.terminal == "FLEX" or massive:
            return True
    return False


def _massive(token: Token) -> bool:
    return token.terminal == "NUM" and isinstance(token.value, float) and 38 <= token.value <= 160


def _of_the_name(scene: Scene, at: int, *, told: bool, labelled: bool) -> bool:
    tokens = scene.tokens
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if (
        after is None
        or after.terminal == "FLEXWORD"
        or (after.glued and (after.kind != "mark" or after.text in DASHES))
    ):
        return False
    if _massive(after) and (labelled or _mass_and_flex(tokens, at + 1)):
        return True  # "Burr X 65 S", "Burr X 65, flex: S"
    if flex_number(after) or _flexed_elsewhere(scene, at):
        return True  # "Burr X 6.0", "stiff 60 g Burr X"
    start = start_of(tokens, at)
    if after.terminal == "GRIPWORD" or _gripped(tokens, start):
        return True
    clubbed = _clubbed(scene, at + 1)
    if not _heads(scene, start):
        return clubbed and after.terminal in FAMILIES and tokens[start - 1].lower in _ARTICLES
    stamped = _stamp(tokens, start - 1) and after.kind in ("mark", "newline")  # "50, 54, 58 Gannet X;"
    return told or clubbed or stamped or after.text == ":" or _lofted(scene, at + 1)


def start_of(tokens: list[Token], at: int) -> int:
    """Where the capital words begin that end before `at`."""
    start = at - 1
    while (
        start > max(0, at - CLAUSE)
        and tokens[start - 1].terminal in ("WORD", "COLOUR", "HYPHEN")
        and tokens[start - 1].text[:1].isupper()
    ):
        start -= 1
    return start


def _mass_and_flex(tokens: list[Token], at: int) -> bool:
    """True where a shaft's mass and its flex stand."""
    kinds = [token for token in tokens[at : at + 4] if token.terminal not in ("GRAM", "COMMA")]
    return len(kinds) > 1 and _massive(kinds[0]) and kinds[1].terminal in _FLEXES


def _flexed_elsewhere(scene: Scene, at: int) -> bool:
    """True where the same club's clause tells a flex in a word or behind a mass: a club has one."""
    tokens = scene.tokens
    for step in (1, -1):
        here = at + step
        while 0 <= here < len(tokens) and abs(here - at) < CLAUSE and tokens[here].terminal not in _ENDS:
            token = tokens[here]
            if token.terminal in FAMILIES or token.terminal == "NAMEDWEDGE" or token.text == ";":
                break
            if step > 0 and token.terminal == "WORD" and token.text[:1].isupper():
                break  # another part's name
            if token.terminal == "FLEX" and len(token.text) > 2:
                return True
            if token.terminal in _FLEXES and (_massive(tokens[here - 1]) or tokens[here - 1].terminal == "GRAM"):
                return True
            here += step
    return False


def _gripped(tokens: list[Token], start: int) -> bool:
    """True behind "grip", "grips:", "grips are", "grip on everything but the putter:"."""
    at = start - 1
    while at >= 0 and tokens[at].terminal not in (*_ENDS, "COMMA", "SLASH", "PIPE", "NUM", "GRIPWORD", "SHAFTWORD"):
        if tokens[at].terminal == "WORD" and tokens[at].text[:1].isupper() and tokens[at - 1].terminal not in _ENDS:
            return False
        at -= 1
    return at >= 0 and tokens[at].terminal == "GRIPWORD"


def _heads(scene: Scene, start: int) -> bool:
    """True for the first name of its line or sentence, or the first behind its club: a head's, not a shaft's."""
    tokens, at = scene.tokens, start - 1
    while at >= max(0, start - CLAUSE) and tokens[at].terminal not in _ENDS:
        token = tokens[at]
        if token.terminal in FAMILIES or token.terminal in ("NAMEDWEDGE", "CORRECTION"):
            return True
        if _stamp(tokens, at) and all(each.terminal == "SILENT" for each in tokens[at + 1 : start]):
            return True  # "fifty and fifty-six Gannet X"
        if token.terminal in ("SHAFTWORD", "GRIPWORD", "BALLWORD", "WITH"):
            return False
        if token.terminal == "WORD" and token.text[:1].isupper() and eligible(scene, at):
            return False
        at -= 1
    return start == 0 or tokens[start - 1].terminal != "ALL"


def _stamp(tokens: list[Token], at: int) -> bool:
    """True for a number that is a wedge's loft."""
    token = tokens[max(at, 0)]
    behind = tokens[at + 1].terminal if at + 1 < len(tokens) else ""
    lofty = token.terminal == "NUM" and isinstance(token.value, float) and 44 <= token.value <= 64
    return lofty and behind not in ("GRAM", "INCH", "CM", "MM")


def _clubbed(scene: Scene, at: int) -> bool:
    """True where a club is named right behind: "Gannet X driver", "Gannet X 5-PW"."""
    tokens = scene.tokens
    phrase = phrase_at(tokens, at)
    if phrase is None or phrase.rule not in CLUB_RULES:
        return False
    if phrase.rule in ("amounts", "dashed", "span") and not phrase.has(*FAMILIES):
        return bool(phrase.amounts) and all(amount.value <= 64 for amount in phrase.amounts)
    return True


def _lofted(scene: Scene, at: int) -> bool:
    """True where a loft is told right behind, or behind a comma, a bracket or "at"."""
    tokens = scene.tokens
    while at < len(tokens) and tokens[at].terminal in _BETWEEN:
        at += 1
    phrase = phrase_at(tokens, at) if at < len(tokens) else None
    if phrase is not None and phrase.rule == "code":
        return True
    if phrase is None or not phrase.amounts:
        return False
    if phrase.rule in CLUB_RULES:
        return all(amount.value <= 64 and amount.unit in ("", "deg") for amount in phrase.amounts)
    first = phrase.amounts[0]
    behind = tokens[phrase.end].terminal if phrase.end < len(tokens) else "NEWLINE"
    if phrase.rule != "bare" or behind in ("GRAM", "INCH", "MM", "CM", *_FLEXES):
        return False
    if first.unit == "deg":
        return True
    return not first.unit and (7 <= first.value <= 30.5 or 43 <= first.value <= 64)
