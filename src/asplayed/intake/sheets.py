"""What a sheet, a form or a talker counts, asks, ticks, dates and prices: no figure and no name of a club."""

from __future__ import annotations

import datetime
import re
from itertools import pairwise

from asplayed.intake.phrases import CLUBS_NAMED, phrase_at, says
from asplayed.intake.scene import LEAD, Scene
from asplayed.intake.tokens import DASHES, Token, gap, line_end
from asplayed.intake.was_and_is import IS, WAS

_OF_HEIGHT = {"CM", "METRE", "INCH"}
_DATED = {"ordered", "ready", "date", "dated", "due", "fitted", "built", "collected", "collect", "sent", "booked"}
_MONEY = {"£", "$", "€", "¥", "gbp", "eur", "usd", "euro", "euros", "dollars", "quid"}
_WORTH = {"value", "valued", "worth", "price", "priced", "cost", "paid"}
_SERIALS = {"serial", "serials", "sku", "barcode"}
_SUMS = {"total", "sum", "subtotal", "net", "gross", "due", "balance"}
_PRICE = r"(?:[6-9]\d|\d{3,4})\.(?:00|50|95|99)"
_ASKED = {"LOFT", "SHAFTWORD", "HEADWORD", "LENGTH", "GRIPWORD", "FLEXWORD"}
_NUMBERED = {"WOOD", "HYBRID", "DIRON", "IRON"}  # kinds of club that a number tells apart
_COUNTING = {"number", "numbers", "num", "nr"}
_FEW = {"two", "three", "four", "2", "3", "4"}
_FINDING = {"find", "finds", "found", "hit", "hits", "miss", "missed", "misses", "hold", "held", "keep", "split"}
_HAVE = {"have", "has", "are", "were", "get", "got", "had"}
_COUNTABLE = {"DRIVER", "WOOD", "HYBRID", "IRON", "WEDGE", "NAMEDWEDGE", "PUTTER", "GRIPWORD", "SHAFTWORD", "BALLWORD"}
_MORE = {"more", "extra", "fewer", "less", "additional"}
_GAINED = {"fairways", "greens", "yards", "yds", "metres", "meters", "putts", "strokes", "shots", "rounds", "mph"}
_THINGS = {
    "likes", "views", "comments", "days", "hours", "minutes", "weeks", "months", "people", "items", "reviews", "rows",
    "followers", "replies", "ratings", "results", "photos", "posts", "shares", "watching", "gloves", "balls", "tees",
    "lessons", "rounds", "holes", "members", "pages", "songs", "offers", "bids", "bag", "bags", "trolley", "trolleys",
    "umbrella", "umbrellas", "towel", "towels", "headcovers", "pcs", "pc", "pieces",
}  # fmt: skip
_SPACED = {"apart", "gap", "gaps", "spacing", "spacings", "intervals", "separation"}
_BEEN = {"was", "is", "am", "turned"}
_SHEETS = {"spec", "specs", "sheet", "order", "chart", "specification", "specifications"}
_LABELS = {"WOOD", "HYBRID", "WEDGE", "DIRON"}


def carries(scene: Scene) -> None:
    """ "3w Wryneck 15 deg - 255", "PW Bryony - 136" down a list: how far each club goes."""
    tokens = scene.tokens
    marks = [
        at
        for at in range(2, len(tokens))
        if tokens[at - 1].text in DASHES
        and not tokens[at - 1].glued
        and tokens[at].text.isdigit()
        and 50 <= int(tokens[at].text) <= 350
        and (at + 1 == len(tokens) or tokens[at + 1].kind == "newline")
    ]
    if len(marks) < 4 or max(int(tokens[at].text) for at in marks) < 180:
        return
    for at in marks:
        no_figure(scene, at)


def spacings(scene: Scene) -> None:
    """ "Wedges four degrees apart", "with 4° gaps": how far apart lofts lie is no figure of a club."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        if tokens[at].lower not in _SPACED or tokens[at - 1].terminal != "DEG" or scene.claims[at]:
            continue
        start = at - 2 - (tokens[at - 2].terminal in ("SILENT", "HYPHEN"))
        run = any(token.terminal == "RANGE" for token in tokens[scene.clause_opening(at) : at])
        if tokens[start].terminal == "NUM" and not run:  # a run's steps tell the clubs between its ends
            for place in range(start, at + 1):
                no_figure(scene, place)


def heights(scene: Scene) -> None:
    """ "I'm 6'3"", "she's 5'2": feet and inches are a person's height and no club's length."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        feet, mark, inches = tokens[at : at + 3]
        if (
            feet.text not in ("4", "5", "6", "7")
            or mark.text not in ("'", "’", "′")
            or not (mark.glued and inches.glued)
        ):
            continue
        if not inches.text.isdigit() or int(inches.text) > 11:
            continue
        end = at + 3 + (at + 3 < len(tokens) and tokens[at + 3].text in ('"', "”", "″") and tokens[at + 3].glued)
        for index in range(at, end):
            no_figure(scene, index)
    for at in range(len(tokens) - 1):
        if tokens[at].kind == "number" and tokens[at + 1].lower in ("ft", "foot", "feet"):
            no_figure(scene, at)  # "he is 4 ft 7 tall", "five foot two"
            rest = tokens[at + 2] if at + 2 < len(tokens) else tokens[at]
            if rest.line == tokens[at].line and isinstance(rest.value, float) and rest.value < 12:
                no_figure(scene, min(at + 2, len(tokens) - 1))
    for at in range(2, len(tokens)):
        led = [token.lower for token in tokens[at - 2 : at]]
        off = led[1] == "the" and led[0] in ("off", "from", "on", "down", "hitting")
        found = led[1] in ("a", "the", "any", "no", "every", "more") and led[0] in _FINDING
        if tokens[at].lower in ("fairway", "fairways") and (off or found):
            tokens[at].terminal, tokens[at].value = "SILENT", tokens[at].lower  # "22 degrees off the fairway": a place
    for at in range(1, len(tokens) - 1):
        grown = tokens[at - 1].lower in ("grown", "grows", "grew", "grow") and tokens[at + 1].terminal == "INCH"
        tall = at + 2 < len(tokens) and tokens[at + 2].lower == "tall" and tokens[at + 1].terminal in _OF_HEIGHT
        if tokens[at].kind == "number" and not scene.claims[at] and (grown or tall):
            no_figure(scene, at)  # "142 cm tall", "when he has grown two inches"
            no_figure(scene, at + 1)


def ages(scene: Scene) -> None:
    """ "When I was sixteen", "she is seventy-one now", "he's 11 and hits it far": how old somebody is."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        led = tokens[at - 1].lower in ("he's", "she's", "i'm") and tokens[at].terminal == "NUM"
        goes_on = tokens[at + 1].terminal == "AND" and tokens[at + 2].kind == "word"
        if led and goes_on and tokens[at].text.isalnum() and phrase_at(tokens, at + 2) is None:
            no_figure(scene, at)
    for at in range(2, len(tokens) - 1):
        told = (
            tokens[at - 1].lower in _BEEN and tokens[at - 2].lower in ("i", "he", "she") and tokens[at].kind == "number"
        )
        alone = tokens[at + 1].kind != "word" or tokens[at + 1].lower in ("years", "and", "or", "then", "now", "last")
        if told and alone and tokens[at].terminal == "NUM" and not scene.claims[at]:
            no_figure(scene, at)


def short_dates(scene: Scene) -> None:
    """ "Ordered 12/6/26": a day without its century is of no club, and which month it is stays open.

    In the first line, where no club is named, "14/3/26" is the list's own date: there is no fourteenth month.
    """
    tokens = scene.tokens
    for at in range(1, len(tokens) - 4):
        day, one, month, two, year = tokens[at : at + 5]
        tight = (
            one.text == two.text and one.text in ("/", "-") and one.glued and month.glued and two.glued and year.glued
        )
        if not (tight and all(part.text.isdigit() for part in (day, month, year))):
            continue
        led = tokens[at - 1].lower in _DATED or (at > 1 and tokens[at - 2].lower in _DATED)
        date = None if led else _date_of_heading(scene, at)
        if date is not None:
            scene.facts["date"] = date
            scene.claims[at : at + 5] = ["set"] * 5
            for piece in (day, one, month, two, year):
                piece.terminal = "DATE" if piece is day else "SILENT"  # who or what stands before it is named there
            continue
        if not led:
            continue
        for part in (at, at + 2, at + 4):
            no_figure(scene, part)
        scene.claims[at + 1] = scene.claims[at + 3] = "left"


def _date_of_heading(scene: Scene, at: int) -> str | None:
    """The date of "14/3/26" that ends a first line without a club; None where the month stays open."""
    day, month, year = (int(scene.tokens[at + step].text) for step in (0, 2, 4))
    ends = at == 0 or (
        at + 5 >= len(scene.tokens) or scene.tokens[at + 5].kind == "newline" or scene.tokens[at + 5].terminal == "HAND"
    )
    heads = (
        at < LEAD
        and all(token.kind != "newline" for token in scene.tokens[:at])
        and not says(scene.tokens, 0, at, CLUBS_NAMED)
    )
    if not (ends and heads and 15 <= year <= 99 and 1 <= month <= 12 < day <= 31 and "date" not in scene.facts):
        return None
    try:
        return datetime.date(2000 + year, month, day).isoformat()
    except ValueError:
        return None


def prices(scene: Scene) -> None:
    """ "£310", "420 EUR": what a thing costs is no figure of a club."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        before, after = tokens[at - 1] if at else None, tokens[at + 1] if at + 1 < len(tokens) else None
        marked = before is not None and ((before.text in _MONEY and token.glued) or before.lower in _WORTH)
        told = after is not None and after.lower in (*_MONEY, "ea")
        unit = after is not None and after.terminal in ("MM", "CM", "GRAM", "CPM")
        at_price = before is not None and before.text == "@" and not unit
        told = told or (at_price and isinstance(token.value, float) and token.value >= 100)
        ends = after is None or after.kind == "newline"
        apart = before is not None and (before.text in (",", "-", "–") or gap(before, token) > 1)
        listed = ends and apart and re.fullmatch(_PRICE, token.text)
        summed = re.fullmatch(r"\d{3,6}\.\d\d", token.text) and before is not None and before.lower in _SUMS
        led = ends and at > 2 and re.fullmatch(r"\d{2,6}\.\d\d", token.text) and _leaders(tokens[at - 3 : at])
        if (token.kind == "number" or token.terminal == "OTHER") and (marked or told or listed or summed or led):
            no_figure(scene, at)


def appointments(scene: Scene) -> None:
    """ "See you at 6", "pick up after 5": an hour of the day."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        hour = tokens[at].terminal == "NUM" and tokens[at].text.isdigit() and int(tokens[at].text) <= 12
        words = [token.lower for token in tokens[max(0, at - 5) : at]]
        met = any(pair in (("see", "you"), ("pick", "up"), ("see", "u")) for pair in pairwise(words))
        ends = at + 1 >= len(tokens) or tokens[at + 1].kind in ("newline", "mark")
        if hour and met and ends and words[-1] in ("at", "after", "before", "by", "till", "until"):
            no_figure(scene, at)


def serials(scene: Scene) -> None:
    """ "Serial CM-40921", "serials CF-1180 and CF-1181": what is stamped on one piece is no name and no figure."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.lower not in _SERIALS:
            continue
        end = at + 1
        most = min(len(tokens), at + 2 * LEAD)
        while end < most and tokens[end].terminal not in ("COMMA", "STOP", "NEWLINE", "PIPE", "RPAR"):
            end += 1
        if any(each.text[-1:].isdigit() for each in tokens[at:end]) and not says(tokens, at, end, CLUBS_NAMED):
            scene.leave(at, end)


def _leaders(tokens: list[Token]) -> bool:
    """True for the dots that lead to a figure at a line's end."""
    return all(token.text == "." or set(token.text) <= {".", "…", "_"} for token in tokens)


def empty_cells(scene: Scene) -> None:
    """The "-" wide apart on both sides is an empty cell; "3 / 7" alone on a line counts pages."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        before, token, after = tokens[at - 1 : at + 2]
        wide = before.line == token.line == after.line
        wide = wide and gap(before, token) > 1 and gap(token, after) > 1
        if token.text in ("-", "–", "—") and wide and after.kind != "newline":
            token.terminal = "COMMA"
    for at in range(len(tokens) - 3):
        if at and tokens[at - 1].kind != "newline":
            continue
        page = tokens[at].text.isdigit() and tokens[at + 1].lower in ("/", "of") and tokens[at + 2].text.isdigit()
        if page and tokens[at + 3].kind == "newline" and int(tokens[at].text) <= int(tokens[at + 2].text):
            scene.hide(at, at + 3)


def counts(scene: Scene) -> None:
    """ "214 likes", "2 days ago", "count 14", "other items (12)", "six more fairways": what is counted is no club's."""
    tokens = scene.tokens
    for at in range(len(tokens) - 1):
        if tokens[at].terminal != "NUM" or scene.claims[at]:
            continue
        if at + 2 < len(tokens) and tokens[at + 1].lower in _MORE and tokens[at + 2].lower in _GAINED:
            for place in range(at, at + 3):
                no_figure(scene, place)
        if tokens[at + 1].lower in _THINGS or (at and tokens[at - 1].lower in ("count", "counted")):
            no_figure(scene, at)
        lone = at > 2 and tokens[at - 1].terminal == "LPAR" and tokens[at + 1].terminal == "RPAR"
        ends = at + 2 >= len(tokens) or tokens[at + 2].kind == "newline"
        if not (lone and ends):
            continue
        start = at
        while start > 0 and tokens[start - 1].kind != "newline":
            start -= 1
        words = [token for token in tokens[start : at - 1] if token.terminal in ("WORD", "SILENT")]
        if len(words) > 2 and len(words) == at - 1 - start and words[0].text[:1].isupper():
            no_figure(scene, at)


def asked_in_brackets(scene: Scene) -> None:
    """The "(model, loft, shaft)" of a form's "Driver (model, loft, shaft): Gannet": what is asked, before its colon."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        if tokens[at].terminal != "LPAR":
            continue
        end = at + 1
        while end < min(at + 16, len(tokens)) and tokens[end].terminal != "RPAR" and tokens[end].kind != "number":
            end += 1
        asked = any(token.terminal in _ASKED for token in tokens[at + 1 : end])
        if end + 1 < len(tokens) and asked and tokens[end].terminal == "RPAR" and tokens[end + 1].text in ":?":
            scene.hide(at, end + 1)


def counted(scene: Scene) -> None:
    """ "Hybrid 1: …", "Hybrid 2: …" and "8 x Irons": numbers that count lines or clubs and name none."""
    tokens = scene.tokens
    labels: dict[str, list[int]] = {}
    for at in range(1, len(tokens) - 2):
        alone = tokens[at].terminal == "NUM" and tokens[at].text.isalpha() and tokens[at + 1].text == "."
        if alone and tokens[at - 1].kind == "newline" and tokens[at + 2].line == tokens[at].line:
            asked = {token.lower for token in tokens[max(0, at - 14) : at] if token.line >= tokens[at].line - 2}
            if asked & {"anything", "many", "else"} and "?" in asked:
                scene.hide(at, at + 1)  # "Anything between driver and irons?", and below it "Two. A 5 wood …"
    for at in range(len(tokens) - 3):
        number, mark, again, close = tokens[at : at + 4]
        told = number.terminal in ("NUM", "SILENT") and number.text.isalpha() and again.text.isdigit()
        if told and mark.terminal == "LPAR" and close.terminal == "RPAR" and _said_twice(number, again):
            scene.hide(at, at + 4)  # "Six (6) irons"
        had = number.text in _FEW and tokens[at - 1].lower in _HAVE and mark.terminal == "COMMA"
        if had and _as_many_numbers(tokens, at + 2) == number.value:
            scene.hide(at, at + 2)  # "the hybrids, she has two, a four and a five"
    for at in range(1, len(tokens) - 2):
        several = tokens[at - 1].terminal in _LABELS and tokens[at - 1].lower.endswith("s")
        alone = tokens[at - 1].terminal in ("DRIVER", "PUTTER") and tokens[at + 1].text in ("1", "2", "one", "two")
        bracketed = [token.terminal for token in tokens[at : at + 3]] == ["LPAR", "NUM", "RPAR"]
        few = tokens[at + 1].text.isalpha() or tokens[at + 1].text in {"1", *_FEW} - {"4"}
        if bracketed and (alone or (several and few)):
            scene.hide(at, at + 3)  # "Fairway woods (two)", "Hybrids (1)", "Putter (1)"
    for at in range(len(tokens) - 2):
        others = tokens[at].lower == "other" and tokens[at].terminal == "SILENT" and tokens[at + 1].text in _FEW
        counted = tokens[at + 1].terminal == "NUM" and tokens[at].lower in _COUNTING and at > 0
        if counted and (
            tokens[at].lower == "numbers"
            or tokens[at - 1].terminal in ("COMMA", "AND", "SILENT")
            or tokens[at - 1].terminal in _NUMBERED
            or tokens[at - 1].kind == "newline"
        ):
            tokens[at].terminal = "SILENT"  # "hybrids, number four and number five", "wood number 3"
        if others and tokens[at - 1].lower == "the" and tokens[at + 2].terminal not in ("IRON", "WOOD", "DEG", "INCH"):
            tokens[at].terminal, tokens[at].value, tokens[at].lower = "THOSE", "those", "others"
            tokens[at + 1].terminal = "SILENT"  # "the first two …, the other two …"
        if tokens[at].terminal in _LABELS and tokens[at + 1].terminal == "NUM" and scene.line_start(at):
            if tokens[at + 2].text in (":", ")", "-", "–", "—"):
                labels.setdefault(tokens[at].terminal, []).append(at + 1)
        elif tokens[at].text.isdigit() and tokens[at + 1].lower in ("no", "off", "pcs", "pc") and scene.line_start(at):
            behind = at + 2 + (tokens[at + 2].text == ".")  # "1 no. driver", "6 off irons"
            if behind < len(tokens) and tokens[behind].terminal in (*_LABELS, "DRIVER", "PUTTER", "NUM", "NAMEDWEDGE"):
                scene.hide(at, behind)
        elif tokens[at].terminal == "NUM" and tokens[at + 1].lower == "clubs":
            if scene.line_start(at):
                scene.hide(at, at + 1)  # "Eight clubs, all Gannet: …"
            else:
                no_figure(scene, at)  # "the 6 is missing, so four clubs"
        elif tokens[at].text.isdigit() and tokens[at + 1].lower in ("x", "×") and scene.line_start(at):
            if phrase_at(tokens, at + 2) is None and not tokens[at + 2].text[:1].isupper():
                continue
            scene.hide(at, at + 2)
            if tokens[at + 2].terminal in _LABELS:  # "2x fairway": two of them
                tokens[at + 2].lower = tokens[at + 2].lower.removesuffix("s") + "s" * (tokens[at].text != "1")
    _few_together(scene)
    _several_counted(scene)
    _numbered_entries(scene)
    for places in labels.values():
        if len(places) > 1 and [tokens[at].value for at in places] == [float(n + 1) for n in range(len(places))]:
            for at in places:
                scene.claims[at] = "silent"
                tokens[at].terminal = "SILENT"


def _few_together(scene: Scene) -> None:
    """ "The two have bounce 10", "the three have Reed 120 S": all the clubs just told, counted."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        article, few, verb = tokens[at : at + 3]
        if article.lower == "the" and few.terminal == "NUM" and few.text in _FEW and verb.lower in _HAVE - {"has"}:
            pair = few.value == 2.0
            one = few if pair else article
            one.terminal, one.value, one.kind, one.lower = "ALL", "both" if pair else "all", "word", "all"


def _as_many_numbers(tokens: list[Token], at: int) -> int:
    """How many numbers of clubs stand in a row from here to its "and": 2 for "a four and a five"."""
    count, last = 0, False
    while at < len(tokens):
        at += tokens[at].lower in ("a", "an", "the") and at + 1 < len(tokens)
        number = tokens[at].value if tokens[at].terminal == "NUM" else None
        if not isinstance(number, float) or not 2 <= number <= 11:
            return 0
        count += 1
        if last or at + 1 == len(tokens) or tokens[at + 1].terminal not in ("COMMA", "AND"):
            return count if last else 0
        last = tokens[at + 1].terminal == "AND"
        at += 2
    return 0


def _said_twice(number: Token, again: Token) -> bool:
    """True for the six of "six (6)", the one of "One (1)"."""
    value = 1.0 if number.lower == "one" else number.value
    return isinstance(value, float) and value == float(again.text)


def _numbered_entries(scene: Scene) -> None:
    """ "No. 14. Driver …", "No. 15. 4 wood …" down a list: numbers of entries, and of no club."""
    tokens = scene.tokens
    spans = []
    for at in range(len(tokens) - 3):
        lettered = len(tokens[at].text) == 1 and tokens[at].text.isupper() and tokens[at + 1].text == "."
        if lettered and (at == 0 or tokens[at - 1].kind == "newline") and tokens[at + 2].text.isdigit():
            spans.append((at, at + 3))  # "A.1  Driver"
            continue
        named = tokens[at].lower in ("no", "nr", "item", "clue", "entry")
        if not (named or tokens[at].text == "[") or not (at == 0 or tokens[at - 1].kind == "newline"):
            continue
        number = at + 1 + (tokens[at + 1].text == ".")
        closed = number + 1 < len(tokens) and tokens[number + 1].text in ((".", ":", ")") if named else ("]",))
        if tokens[number].kind == "number" and tokens[number].text.isdigit() and closed:
            spans.append((at, number + 2))
    spans = spans or _codes_of_lines(tokens)
    spans = spans if len(spans) > 1 else _pieces_counted(tokens)
    if len(spans) < 2:
        return
    counts = {tokens[end - 2].text for start, end in spans if end - start > 2}  # none where one token is the code
    for start, end in spans:
        scene.hide(start, end)
    for at in range(2, len(tokens)):
        if tokens[at].text in counts and tokens[at - 1].text == "." and tokens[at - 2].lower in ("no", "nr"):
            no_figure(scene, at)  # "bought with No. 14"


def _several_counted(scene: Scene) -> None:
    """ "3-8) 5-PW Dunlin" among lines counted "1)", "2)": the count of several clubs."""
    tokens = scene.tokens
    counted = sum(token.terminal == "BULLET" and token.text[:1].isdigit() for token in tokens)
    for at in range(len(tokens) - 3) if counted > 1 else ():
        if (end := _counted_together(tokens, at)) > 0:
            scene.hide(at, end)


def _counted_together(tokens: list[Token], at: int) -> int:
    """The place behind the "3-8)" or "4.–9." that counts the clubs of a line; 0 for any other."""
    if not (at == 0 or tokens[at - 1].kind == "newline") or not tokens[at].text.isdigit():
        return 0
    dash = at + 1 + (tokens[at + 1].text == ".")
    last = dash + 1
    if last + 2 >= len(tokens) or tokens[dash].text not in DASHES or not tokens[last].text.isdigit():
        return 0
    closed = tokens[last + 1].text in (")", ".") and tokens[last + 1].glued and tokens[last + 2].line == tokens[at].line
    return last + 2 if closed and int(tokens[at].text) < int(tokens[last].text) <= 14 else 0


def _codes_of_lines(tokens: list[Token]) -> list[tuple[int, int]]:
    """The "B1", "B2" of a form: a letter and a rising number before the clubs of three lines or more."""
    begins = [at for at in range(len(tokens) - 1) if at == 0 or tokens[at - 1].kind == "newline"]
    coded = [at for at in begins if re.fullmatch(r"[A-Z]\d{1,2}", tokens[at].text) and not tokens[at + 1].glued]
    clubs = [at for at in coded if tokens[at + 1].terminal in _COUNTABLE or _club_numbered(tokens, at + 1)]
    one_letter = len({tokens[at].text[0] for at in coded}) == 1
    rising = all(int(tokens[one].text[1:]) < int(tokens[two].text[1:]) for one, two in pairwise(coded))
    return [(at, at + 1) for at in coded] if len(clubs) > 2 and one_letter and rising else []


def _club_numbered(tokens: list[Token], at: int) -> bool:
    """True for "3 wood", "5-PW"."""
    phrase = phrase_at(tokens, at) if at < len(tokens) else None
    return phrase is not None and phrase.rule in (*CLUBS_NAMED, "span", "dashed")


def _pieces_counted(tokens: list[Token]) -> list[tuple[int, int]]:
    """The counts of an order's lines: "1    Driver, Gannet", "6    Irons, Burr", "11   Grips, Norrby"."""
    begins = [at for at in range(len(tokens) - 1) if at == 0 or tokens[at - 1].kind == "newline"]
    places = [
        at
        for at in begins
        if tokens[at].text.isdigit() and tokens[at + 1].line == tokens[at].line and gap(tokens[at], tokens[at + 1]) > 1
    ]
    counts = [at for at in places if tokens[at + 1].terminal in _COUNTABLE or _club_numbered(tokens, at + 1)]
    rising = all(int(tokens[one].text) + 1 == int(tokens[two].text) for one, two in pairwise(places))
    return [(at, at + 1) for at in places] if len(counts) > 2 and len(counts) == len(places) and not rising else []


def headed_sheets(scene: Scene) -> None:
    """ "Wedge specs for Ada Brandt" over a list: what the sheet is of, no club of its own."""
    tokens = scene.tokens
    end = line_end(tokens, 0)
    if any(token.kind == "number" for token in tokens[:end]):
        return
    for at in range(end - 1):
        kind, sheet = tokens[at : at + 2]
        if kind.terminal in (*_LABELS, "IRON") and sheet.lower.split(" ")[0] in _SHEETS:
            kind.lower = kind.lower.removesuffix("s") + "s"  # it heads the clubs below it


def answered_no(scene: Scene) -> None:
    """ "Counterweight in the putter: no": what a form asks after and the club has not."""
    tokens = scene.tokens
    for at in range(2, len(tokens)):
        ends = at + 1 == len(tokens) or tokens[at + 1].kind == "newline"
        if ends and tokens[at].lower == "yes" and tokens[at - 1].text == ":":
            scene.hide(at - 1, at + 1)
        if not (ends and tokens[at].lower == "no" and tokens[at - 1].text in (":", "?")):
            continue
        start = at
        while start and tokens[start - 1].kind != "newline":
            start -= 1
        if not any(token.terminal in ("HAND", "HANDWORD", "WRAP") for token in tokens[start:at]):
            scene.leave(start, at + 1)


def labels_of_lines(scene: Scene) -> None:
    """ "CHANGED: putter, the Gannet", "Opener: driver, Gannet 9": what a line is headed with, before its club.

    A label in capitals is none of the club's; any other is none where two lines so headed tell their models behind.
    """
    tokens, found = scene.tokens, []
    for at in range(len(tokens) - 2):
        label = tokens[at]
        if label.terminal != "WORD" or len(label.text) < 3 or tokens[at + 1].text != ":" or not scene.line_start(at):
            continue
        if label.lower in WAS | IS:
            continue  # "Current: driver Knot 9.5", "Proposed: driver Gannet 10.5"
        club = at + 2
        while club < len(tokens) and tokens[club].terminal == "SILENT":
            club += 1
        phrase = phrase_at(tokens, club) if club < len(tokens) else None
        if phrase is None or phrase.rule not in (*CLUBS_NAMED, "amounts", "code") or phrase.has("BULLET"):
            continue
        if label.text.isupper():
            scene.claims[at] = "left"
        elif _named_behind(tokens, phrase.end):
            found.append(at)
    for at in found if len(found) > 1 else ():
        scene.claims[at] = "left"


def _named_behind(tokens: list[Token], at: int) -> bool:
    """True where a name stands behind a club, before any flex."""
    while at < len(tokens) and tokens[at].terminal in ("COMMA", "EQ", "SILENT", "ALL", "NUM", "NAMEDWEDGE", "AND"):
        at += 1
    named = at < len(tokens) and tokens[at].terminal == "WORD" and tokens[at].text[:1].isupper()
    return named and not any(token.terminal in ("FLEX", "FLEXCODE", "SHAFTWORD") for token in tokens[at : at + 3])


def no_figure(scene: Scene, at: int) -> None:
    """Leave a number that no club can take to what is not understood."""
    scene.tokens[at].terminal, scene.tokens[at].kind = "OTHER", "word"
    scene.claims[at] = "left"
