"""How the lines of a list are laid out: boxes to tick, words that only count lines, clubs named at their lines' end."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.phrases import TOLD, UNITS, phrase_at
from asplayed.intake.scene import LEAD, Scene
from asplayed.intake.tokens import DASHES, Token, line_end

_TICKS = {"x", "✓", "✔", "✗", "✘", "v", "ok", "done"}
_BOXES = {"☐", "☑", "☒", "✓", "✔", "□", "■"}
_EMPTY = {"☐", "□"}
_OF_TICKED = {"tick", "ticked", "ticks", "checked", "crossed"}
_OF_UNTICKED = {"unticked", "unchecked", "uncrossed", "untick"}
_IN_BAG = {"bag", "play", "in", "carried"}
_NOT_IN_BAG = {"out", "not", "home", "spare", "spares", "left", "dropped", "stay", "stays"}
_CLUBS = ("club", "named", "family", "span", "dashed")
_NUMBERED = {"number", "numbers", "no", "nos", "#", "nr", "num", "which", "club", "clubs"}  # labels of a club's number
_COUNTED = {"WORD", "SILENT"}
_ORDINALS = {"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "last"}
_ITEMS = {"item", "position", "pos", "line"}  # words that count lines whatever stands behind their colon
_ROW_LABELS = {"LOFT", "LIE", "LENGTH", "SWINGWEIGHT", "BOUNCE"}
_COUNTING = {"again", "also", "starting", "counting", "reading", "going", "the", "from", "on", "down", "up"}


def lay_out(scene: Scene) -> None:
    """Step over what counts or ticks lines, and see whether clubs are named behind what is said of them."""
    _second_thoughts(scene)
    _row_from(scene)
    _boxes(scene)
    _counted_lines(scene)
    _quantities(scene)
    _hashed_lines(scene)
    _items_meant(scene)
    _numbered_lines(scene)
    _numbered_clubs(scene)
    _keyed_items(scene)
    scene.club_last = _club_last(scene)


def _row_from(scene: Scene) -> None:
    """The ", again from the four" of "Lies, again from the four: 60.5, 61, …": where a row of figures begins."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        if tokens[at].terminal not in _ROW_LABELS:
            continue
        end, numbers, led = at + 1, 0, False
        while end < len(tokens) and end - at < 9 and tokens[end].text != ":":
            token = tokens[end]
            led = led or token.lower == "from"
            numbers += token.kind == "number"
            if token.terminal not in ("COMMA", "IRON", "NUM") and token.lower not in _COUNTING:
                break
            end += 1
        row = tokens[end : scene.clause_end(end)] if end < len(tokens) else []
        if not led or numbers != 1 or not row or row[0].text != ":":
            continue
        if any(token.terminal in FAMILIES for token in row):
            scene.hide(at + 1, end)
        else:
            tokens.insert(end - 1, tokens.pop(at))  # right before the colon, as in "Lies: 60.5, 61, …"
            scene.hide(at, end - 1)


def entries_of_forms(scene: Scene) -> None:
    """ "Hybrid - number: 4", "Hybrid - head: Gannet", "Hybrid - loft: 22": the lines of a form that tell one club.

    They are read like one entry: its club is heard once, its number first, and below it "head: Gannet", "loft: 22".
    """
    tokens = scene.tokens
    for start, end in reversed(_entries(tokens)):
        lines = [at for at in range(start, end) if at == start or tokens[at - 1].kind == "newline"]
        keys = [_form_key(tokens, at) for at in lines]
        entitled = _entitled(tokens, start, keys[0][0])
        numbered = entitled or any(token.kind == "number" for token in tokens[start : keys[0][0]])
        numbering = [not numbered and tokens[label].lower in _NUMBERED for _, label, _ in keys]
        heard = entitled or any(numbering)
        order: list[int] = []  # the places of the stretch as they are read
        for at, stop, (club, label, colon), number in zip(lines, [*lines[1:], end], keys, numbering, strict=True):
            if number:  # "Hybrid 4" without what stood between, before all else
                scene.hide(club, colon + 1)
                order = [*range(club, colon + 1), *range(at, club), *range(colon + 1, stop), *order]
                continue
            scene.hide(at if heard else club, label)
            heard = True
            order += range(at, stop)
        tokens[start:end] = [tokens[at] for at in order]
        scene.claims[start:end] = [scene.claims[at] for at in order]


def _entitled(tokens: list[Token], start: int, end: int) -> bool:
    """True for the line "3 hybrid", "Utility: 3" over "Hybrid - head:", "Utility - head:": it names their club."""
    first = start - 1
    while first > max(0, start - LEAD) and tokens[first - 1].kind != "newline":
        first -= 1
    line = [token for token in tokens[max(0, first) : start] if token.kind != "newline"]
    kinds = {token.terminal for token in line if token.kind == "word"}
    club = {token.terminal for token in tokens[start:end]}
    return kinds == club and any(token.kind == "number" for token in line) and len(line) <= 4


def _entries(tokens: list[Token]) -> list[tuple[int, int]]:
    """The stretches of lines that name one club each time and another part of it."""
    found: list[tuple[int, int]] = []
    start, club, parts = 0, "", set[str]()
    lines, at = 0, 0
    while at < len(tokens):
        end = line_end(tokens, at)
        named, label, _ = _form_key(tokens, at)
        name = " ".join(token.lower for token in tokens[at:named])
        part = tokens[label].lower if name else ""
        if not name or name != club or part in parts:
            if lines > 1:
                found.append((start, at))
            start, club, parts, lines = at, name, set(), 0
        parts.add(part)
        lines += bool(name)
        at = end + 1
    if lines > 1:
        found.append((start, len(tokens)))
    return found


def _form_key(tokens: list[Token], at: int) -> tuple[int, int, int]:
    """Where the club of "Hybrid - head:" ends, its label and its colon stand; (at, at, at) for any other line."""
    phrase = phrase_at(tokens, at)
    if phrase is None or phrase.rule not in ("club", "family"):
        return at, at, at
    label = phrase.end + (phrase.end < len(tokens) and tokens[phrase.end].text in (*DASHES, "_", ".", "/", ">", ":"))
    for colon in range(label + 1, min(label + 4, len(tokens))):
        if tokens[colon].kind == "newline":
            break
        if tokens[colon].text in (":", "="):
            alone = colon - label - (tokens[colon - 1].text == ".") == 1  # "no.:"
            told = tokens[label].terminal in TOLD or (alone and tokens[label].lower in _NUMBERED)
            return (phrase.end, label, colon) if told else (at, at, at)
    return at, at, at


def _keyed_items(scene: Scene) -> None:
    """Under "wedges:" an item by its keys ("- head: Gannet", "loft: 50"): its loft, which names it, is heard first."""
    tokens = scene.tokens
    several = False
    for at in range(len(tokens) - 3):
        opens = not at or tokens[at - 1].terminal == "NEWLINE"
        if opens and [token.terminal for token in tokens[at + 1 : at + 3]] == ["EQ", "NEWLINE"]:
            phrase = phrase_at(tokens, at)
            several = phrase is not None and phrase.rule in ("family", "club") and tokens[at].lower.endswith("s")
        item = opens and tokens[at].terminal == "BULLET" and tokens[at + 1].terminal in ("HEADWORD", "LOFT")
        if not (several and item and _key(tokens, at + 1)):
            continue
        end = at + 1
        while end < len(tokens) and not (tokens[end].terminal == "NEWLINE" and _closes_item(tokens, end)):
            end += 1
        loft = next((each for each in range(at, end) if tokens[each].terminal == "LOFT" and _key(tokens, each)), None)
        if loft is None or loft + 2 >= len(tokens) or tokens[loft + 2].terminal != "NUM":
            continue
        first = at + 1
        stop = loft + 4 if loft > first else loft + 2  # with its line's end
        if loft > first and (
            stop > len(tokens) or tokens[stop - 1].terminal != "NEWLINE" or any(scene.claims[at:stop])
        ):
            continue
        scene.hide(loft, loft + 2)
        tokens[first:stop] = tokens[loft:stop] + tokens[first:loft]
        scene.claims[first:stop] = scene.claims[loft:stop] + scene.claims[first:loft]


def _key(tokens: list[Token], at: int) -> bool:
    """True for a word with a colon behind it."""
    return at + 1 < len(tokens) and tokens[at].kind == "word" and tokens[at + 1].text == ":"


def _closes_item(tokens: list[Token], at: int) -> bool:
    """True for the end of a line behind which no further key of the item stands."""
    return not _key(tokens, at + 1) or at + 3 >= len(tokens) or tokens[at + 3].terminal == "NEWLINE"


def _second_thoughts(scene: Scene) -> None:
    """ "45 inches, 45.25 actually": a figure that takes the place of the one before the comma."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.lower != "actually" or at < 3:
            continue
        number = at - 1 if tokens[at - 1].kind == "number" else at - 2
        comma = number - 1
        before = comma - 1
        while before > 0 and tokens[before].terminal in ("SILENT", "COMMA") and tokens[before].kind != "number":
            before -= 1  # "45 inches, er, 45.25 actually"
        if comma < 1 or tokens[comma].text != "," or tokens[number].kind != "number":
            continue
        if number == at - 2 and tokens[at - 1].terminal not in UNITS:
            continue
        told = tokens[before].kind == "number" or tokens[before].terminal in UNITS
        if told:
            tokens[comma].terminal = "CORRECTION"
        if told or tokens[before].terminal == "CORRECTION":  # "45 inches, no, 45.25 actually"
            scene.hide(at, at + 1)


def _boxes(scene: Scene) -> None:
    """ "[x] DRV …", "[ ] SW …", "☑ 3 wood": a box before a line, ticked or not.

    Where the list says what a tick means ("ticked = in the bag"), the unticked clubs are kept aside.
    """
    tokens = scene.tokens
    unticked_out = _says_what_ticks_mean(scene)
    for at, token in enumerate(tokens):
        if at and tokens[at - 1].terminal not in ("NEWLINE", "BULLET"):
            continue
        if token.text in _BOXES:
            scene.hide(at, at + 1)
            if unticked_out and token.text in _EMPTY:
                scene.set_aside(at + 1, line_end(tokens, at))
        elif token.text in ("[", "(") and at + 2 < len(tokens):
            ticked = tokens[at + 1].lower in _TICKS
            closing = at + 1 + ticked
            if tokens[closing].text in ("]", ")") and tokens[closing].line == token.line:
                scene.hide(at, closing + 1)
                if unticked_out and not ticked:
                    scene.set_aside(closing + 1, line_end(tokens, closing))
            elif token.text == "[":
                _bracketed_label(scene, at)


def _says_what_ticks_mean(scene: Scene) -> bool:
    """True where a list says "ticked = in the bag", "unticked clubs stay at home"; the sentence itself is left."""
    tokens, found, at = scene.tokens, False, 0
    while at < len(tokens):
        end = scene.clause_end(at)
        said = tokens[at:end]
        words = {token.lower for token in said}
        opening = {token.lower for token in said[:3]}
        out = bool(words & _NOT_IN_BAG) or any(token.terminal == "ASIDE" for token in said)
        means = (opening & _OF_TICKED and words & _IN_BAG) or (opening & _OF_UNTICKED and out)
        equal = out or "means" in words or any(token.terminal == "EQ" for token in said)
        if means and equal and not any(token.kind == "number" for token in said):
            found = True
            for token in said:
                token.terminal = "BULLET"
            scene.leave(at, end)
        at = end + 1
    return found


def _bracketed_label(scene: Scene, at: int) -> None:
    """ "[56] Dunlin, 10 bounce": the club of a line in brackets before it is told like one before a colon."""
    tokens = scene.tokens
    phrase = phrase_at(tokens, at + 1)
    if phrase is None or phrase.end >= len(tokens) or tokens[phrase.end].text != "]":
        return
    if phrase.rule in (*_CLUBS, "bare"):
        scene.hide(at, at + 1)
        tokens[phrase.end].terminal, tokens[phrase.end].text = "EQ", ":"


def _counted_lines(scene: Scene) -> None:
    """ "Item 1 Driver …", "Item 2 3 wood …": a word and a number before each line that only count the lines."""
    tokens = scene.tokens
    places: dict[str, list[int]] = {}
    for at in range(len(tokens) - 2):
        if at and tokens[at - 1].terminal not in ("NEWLINE", "BULLET"):
            continue
        word, number = tokens[at], tokens[_behind_dot(tokens, at + 1)]
        if word.kind == "word" and word.terminal in _COUNTED and number.text.isdigit() and number.line == word.line:
            places.setdefault(word.lower, []).append(at)
        if word.lower in _ITEMS:
            end = at + 1 + (number.lower == "the")
            if tokens[end].lower in _ORDINALS and end + 1 < len(tokens) and tokens[end + 1].text in (",", ":"):
                scene.hide(at, end + 2)  # "Item the third, the irons …"
    for label, found in places.items():
        values = [tokens[_behind_dot(tokens, at + 1)].value for at in found]
        counted = len(found) > 2 and values == [float(count + 1) for count in range(len(found))]
        for at in found:
            if not counted and not (label in _ITEMS and tokens[at + 2].text == ":"):
                continue
            end = _behind_dot(tokens, at + 1) + 1
            scene.hide(at, end + (end < len(tokens) and tokens[end].text in (":", ".", ")", "-")))


def _behind_dot(tokens: list[Token], at: int) -> int:
    """The place behind the dot of "No. 1", "Pos. 1"."""
    return at + (tokens[at].text == "." and at + 1 < len(tokens))


def _items_meant(scene: Scene) -> None:
    """ "Grips: Toadflax on items 1 to 5": lines of the list, and no irons."""
    tokens = scene.tokens
    for at in range(len(tokens) - 1):
        if tokens[at].lower not in ("items", "lines") or not tokens[at + 1].text.isdigit():
            continue
        end = at + 1
        while end < len(tokens) and (tokens[end].text.isdigit() or tokens[end].terminal in ("RANGE", "DASH", "AND")):
            tokens[end].terminal, tokens[end].kind = "OTHER", "word"
            end += 1
        scene.leave(at, end)


def _quantities(scene: Scene) -> None:
    """ "Qty 1  Driver …", "Qty: 5 irons": how many are ordered counts no club's figure."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        opens = at == 0 or tokens[at - 1].terminal in ("NEWLINE", "BULLET")
        if opens and tokens[at].text.isdigit() and tokens[at + 1].lower in ("doz", "dozen", "sleeve", "sleeves"):
            scene.hide(at, at + 2)  # "1 doz balls Snowmelt"
        if tokens[at].lower not in ("qty", "quantity", "pcs") or not opens:
            continue
        number = at + 1 + (tokens[at + 1].text in (":", "."))
        if tokens[number].text.isdigit() and tokens[number].line == tokens[at].line:
            scene.hide(at, number + 1)


def _hashed_lines(scene: Scene) -> None:
    """ "#1 Driver …", "#2 5 wood …": a hash and a count from one upwards before each line."""
    tokens = scene.tokens
    places = [
        at
        for at in range(len(tokens) - 2)
        if tokens[at].text == "#" and tokens[at + 1].text.isdigit() and (at == 0 or tokens[at - 1].kind == "newline")
    ]
    counts = [int(tokens[at + 1].text) for at in places]
    if len(places) > 2 and counts == list(range(counts[0], counts[0] + len(counts))) and counts[0] == 1:
        for at in places:
            scene.hide(at, at + 2)


def _numbered_lines(scene: Scene) -> None:
    """ "1; driver; …", "2; 3 wood; …": lines counted from one upwards, each count parted from its club by a mark."""
    tokens = scene.tokens
    places: list[int] = []
    for at in range(len(tokens) - 2):
        if at and tokens[at - 1].terminal not in ("NEWLINE", "BULLET"):
            continue
        marked = tokens[at + 1].text in (";", ",", "|", ":", "/") and tokens[at + 2].terminal not in (
            "NEWLINE",
            "BULLET",
        )
        if not tokens[at].text.isdigit() or not marked:
            continue
        if float(tokens[at].text) == len(places) + 1:
            places.append(at)
        elif places:
            return  # other figures than a count stand before lines
    if len(places) > 2:
        for at in places:  # a comma or a bar stays: a table's columns are counted by them
            scene.hide(at, at + 1 + (tokens[at + 1].text not in ",|"))


def _numbered_clubs(scene: Scene) -> None:
    """ "1  Driver …", "2  3-wood …", "3  4-hybrid …": numbers before each line's club that only count the lines."""
    tokens = scene.tokens
    found: list[tuple[int, int]] = []
    expected = 1.0
    for at in range(len(tokens) - 3):
        led = tokens[at - 1]
        opens = not at or led.terminal == "NEWLINE" or (led.terminal == "BULLET" and not led.text.isdigit())
        if not (opens and tokens[at].text.isdigit() and tokens[at].value == expected):
            continue
        ranged = tokens[at + 1].text in DASHES and tokens[at + 2].text.isdigit()
        end = at + (3 if ranged else 1)  # "5-11  5I-PW …": seven clubs on a line
        club = phrase_at(tokens, end) if tokens[end].line == tokens[at].line and not tokens[end].glued else None
        if club is not None and club.rule in _CLUBS:
            found.append((at, end))
            last = tokens[end - 1].value
            expected = last + 1 if isinstance(last, float) else expected
    if len(found) > 3:
        for at, end in found:
            scene.hide(at, end)


def _club_last(scene: Scene) -> bool:
    """True where nearly every line has figures and names parted by marks, and its one club behind them."""
    last = lines = 0
    start = 0
    for at, token in enumerate(scene.tokens):
        if token.terminal != "NEWLINE":
            continue
        where = _club_places(scene.tokens, start, at)
        if where:
            lines += 1
            last += len(where) == 1 and _said_before(scene.tokens, start, where[0])
        start = at + 1
    return last >= 2 and last * 4 >= lines * 3


def _club_places(tokens: list[Token], start: int, end: int) -> list[int]:
    """Where clubs are named between two places."""
    found: list[int] = []
    coded: list[int] = []
    ended = -1
    at = start
    while at < end:
        phrase = phrase_at(tokens, at)
        if phrase is None:
            at += 1
            continue
        masses = bool(phrase.amounts) and (phrase.amounts[0].value >= 66 or phrase.amounts[0].unit not in ("", "deg"))
        if phrase.rule in _CLUBS and not masses:
            if at != ended:  # "irons 5-PW" names its clubs once
                found.append(at)
            ended = phrase.end
        elif phrase.rule == "code":
            coded.append(at)
        at = phrase.end
    return found or coded  # "56.12 | Brunholt 110 S | sand wedge": the stamp of the club that is named


def _said_before(tokens: list[Token], start: int, club: int) -> bool:
    """True when a figure and a mark that parts stand before the club on its line."""
    before = tokens[start:club]
    parted = any(token.terminal in ("COMMA", "SLASH", "PIPE", "DASH", "STOP") for token in before)
    return parted and any(token.kind == "number" for token in before)
