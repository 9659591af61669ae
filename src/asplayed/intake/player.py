"""Who the player is, where a list says it outright: "it's Ada Brandt here", "Whose bag? Ada Brandt's.", a mail's head.

Also who is not: whoever a sheet says has built, fitted, checked or signed it.
"""

from __future__ import annotations

import re
from itertools import pairwise

from asplayed.intake.groups import FAMILIES
from asplayed.intake.model_letters import join
from asplayed.intake.persons import OWNED, RELATED, clubs_of
from asplayed.intake.phrases import CLUB_RULES, says
from asplayed.intake.scene import TITLES, Scene
from asplayed.intake.tokens import Token, gap, line_end
from asplayed.intake.wording import KIN, ordinary_words, plain_word

_OWNERSHIP = re.compile(r"['’][sS]?$")
_STAFF = {
    "built", "made", "checked", "fitted", "assembled", "prepared", "signed", "approved", "entered", "taken", "booked",
    "inspected", "measured", "sent", "written", "done", "issued", "authorised",
}  # fmt: skip
_STAFF_ALONE = {"signed", "signature", "fitter", "builder", "technician", "operator", "author", "tech"}
_FETCHES = {"picks", "pick", "picked", "collects", "collect", "collected", "collecting", "collection", "fetches"}
_HERE = ("is", "are", "was", "were", "i", "in", "at", "on")  # "Ada Brandt here is …"
_HEAD = 60  # tokens of a mail's head
_ROLES = {
    "captain", "vice-captain", "president", "member", "player", "champion", "winner", "pro", "secretary", "guest",
    "juniors", "junior",
}  # fmt: skip
_GIVEN = {
    "Art", "Buddy", "Chip", "Guy", "Hope", "Lance", "Len", "Mark", "Miles", "Reg", "Rusty", "Sandy", "Van", "Will",
}  # fmt: skip
_PRESENT = {"final", "current", "winning", "present", "new", "latest", "whole"}  # … "fourteen"
_PLAYS = {"carries", "plays", "uses", "won", "games"}
_CARRIES = {"carries", "carry", "carrying", "caddies", "caddie", "caddying", "loops", "looping", "caddied"}
_GREETED = {"hi", "hey", "hello", "its", "it's", "im", "i'm", "this", "everyone", "everybody", "all", "g'day"}


def name_player(scene: Scene) -> None:
    """Take the player from where a list says outright whose clubs these are; leave out who only works on them."""
    _staff(scene)
    for told in (
        _whose,
        _of_the_bag,
        _all_of,
        _carried_for,
        _with_me,
        _role_bag,
        _regards,
        _sold_to,
        _fetched_by,
        _mail_head,
        _here,
    ):
        if "player" not in scene.facts:
            told(scene)


def free_given_names(scene: Scene) -> None:
    """The Len of "Len Ashwater", the L of "Mr L. Ashwater": no length and no flex, whatever the trade calls so."""
    tokens = scene.tokens
    for at in range(len(tokens) - 1):
        token, after = tokens[at : at + 2]
        if token.text in _GIVEN and not after.glued and after.line == token.line and _surname(after):
            join(token)
        initial = token.terminal == "FLEXCODE" and len(token.text) == 1 and after.text == "." and after.glued
        led = at == 0 or tokens[at - 1].kind == "newline" or tokens[at - 1].lower.rstrip(".") in TITLES
        if initial and led and at + 2 < len(tokens) and _surname(tokens[at + 2]):
            token.terminal, token.value = "LETTER", token.lower


def first_names(scene: Scene) -> None:
    """ "… with Ada Brandt, and Ada's driver is the Gannet": her first name before a club names no model."""
    tokens = scene.tokens
    named: dict[str, list[int]] = {}  # where each word stands before a surname
    for at in range(2, len(tokens) - 1):
        if _surname(tokens[at - 1]):
            named.setdefault(tokens[at - 2].text, []).append(at - 2)
        base = _OWNERSHIP.sub("", tokens[at].text)
        if base == tokens[at].text or tokens[at].terminal != "WORD" or tokens[at + 1].terminal not in FAMILIES:
            continue
        full = next((one for one in named.get(base, ()) if _surname(tokens[one + 1])), -1)
        if full >= 0 and tokens[full].terminal == "WORD":
            tokens[at].terminal = "SILENT"
            if "player" not in scene.facts:
                _take(scene, full, full + 2)


def _surname(token: Token) -> bool:
    plain = token.lower.removesuffix("'s") not in ordinary_words()
    return token.terminal == "WORD" and token.text[:1].isupper() and not token.text.isupper() and plain


def _name_at(scene: Scene, at: int) -> int:
    """The end of a person's name of two or three words, with initials and title; `at` where none stands."""
    tokens, end, words = scene.tokens, at, 0
    while end < len(tokens) and words < 3:
        token = tokens[end]
        titled = token.lower.rstrip(".") in TITLES and end == at
        initial = len(token.text) == 1 and token.text.isupper() and end + 1 < len(tokens)
        if titled or initial:
            end += 1
            end += end < len(tokens) and tokens[end].text == "."
            words += initial
            continue
        if not _of_a_name(token):
            break
        end, words = end + 1, words + 1
        if _OWNERSHIP.search(token.text):
            break
        if end + 1 < len(tokens) and tokens[end].text == "-" and _of_a_name(tokens[end + 1]):
            end += 2  # "Ada Brandt-Holm"
    titled = end > at and tokens[at].lower.rstrip(".") in TITLES
    return end if words > 1 or (titled and words) else at


def _of_a_name(token: Token) -> bool:
    return token.terminal == "WORD" and token.text[:1].isupper() and not plain_word(token)


def _take(scene: Scene, start: int, end: int) -> None:
    scene.facts["player"] = _OWNERSHIP.sub("", scene.words(start, end))
    scene.claims[start:end] = ["set"] * (end - start)
    for token in scene.tokens[start:end]:
        token.terminal = "SILENT"  # no model is called so


def _whose(scene: Scene) -> None:
    """ "So, whose bag is it? Rhys Callister's, of course.", "Whose are these? - Ada Brandt's"."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.lower not in ("whose", "who's", "who") or not _asked(scene, at):
            continue
        for place in range(scene.clause_end(at) + 1, min(scene.clause_end(at) + 8, len(tokens))):
            end = _name_at(scene, place)
            if end > place and _closes(tokens, end):
                _take(scene, place, end)
                return


def _asked(scene: Scene, at: int) -> bool:
    end = scene.clause_end(at)
    said = {token.lower for token in scene.tokens[at:end]}
    things = {"bag", "set", "clubs", "sticks", "these", "those", "this", "it", "kit", "gear"}
    return end < len(scene.tokens) and scene.tokens[end].text == "?" and bool(said & things)


def _closes(tokens: list[Token], at: int) -> bool:
    """True behind a name that ends what is said: a mark, a line's end."""
    return at >= len(tokens) or tokens[at].kind in ("mark", "newline")


def _of_the_bag(scene: Scene) -> None:
    """ "COL: Right, this is Isla Merrow's bag", "Isla Merrow's final fourteen": who speaks is not the player."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        led = [token.lower for token in tokens[max(0, at - 2) : at]]
        told = led in (["this", "is"], ["these", "are"], ["it", "is"]) or led[-1:] in (["for"], ["at"])
        end = _name_at(scene, at) if told or scene.line_start(at) else at
        owned = end > at and _OWNERSHIP.search(tokens[end - 1].text) and end < len(tokens)
        thing = end + (end + 1 < len(tokens) and tokens[end].lower in _PRESENT)
        if owned and (tokens[thing].lower in OWNED | {"locker"} or (thing > end and tokens[thing].value == 14)):
            _take(scene, at, end)
            return


def _all_of(scene: Scene) -> None:
    """ "All Aksel Brandvold's.": a sentence that says no more than whose they are."""
    tokens, at = scene.tokens, 0
    while at < len(tokens):
        end = scene.clause_end(at)
        start = at
        while start < end and tokens[start].lower in (
            "all",
            "these",
            "are",
            "they're",
            "they",
            "everything",
            "is",
            "it's",
        ):
            start += 1
        stop = _name_at(scene, start) if start > at else start
        if start < stop == end and tokens[stop - 1].text.replace("’", "'").endswith(("'s", "s'")):
            _take(scene, start, stop)
            return
        at = end + 1


def _carried_for(scene: Scene) -> None:
    """ "Wim here, who carries for Ada Brandt": a caddie talks, and it is her bag."""
    tokens = scene.tokens
    for at in range(min(_HEAD, len(tokens) - 2)):
        if tokens[at].lower in _CARRIES and tokens[at + 1].lower == "for":
            end = _name_at(scene, at + 2)
            if end > at + 2:
                _take(scene, at + 2, end)
                return


def _with_me(scene: Scene) -> None:
    """ "Lotta Fries is with me.", "with which Ada Brandt won the …": a host or a label says who it is."""
    tokens = scene.tokens
    for at in range(min(_HEAD, len(tokens))):
        end = _name_at(scene, at)
        behind = [token.lower for token in tokens[end : end + 3]]
        if end > at and behind in (
            ["is", "with", "me"],
            ["is", "with", "us"],
            ["joins", "me", "now"],
            ["is", "here", "with"],
        ):
            _take(scene, at, end)
            return
        if end > at and behind[:2] == [",", "who"] and behind[2:] and behind[2] in _PLAYS:
            _take(scene, at, end)
            return
        if end > at and (
            behind[:2] in (["joins", "me"], ["joins", "us"]) or behind[:2] in (["won", "the"], ["wins", "the"])
        ):
            _take(scene, at, end)
            return


def _role_bag(scene: Scene) -> None:
    """ "Captain's bag: Wilf Aldermaston": what he is to the club, and behind the colon who he is."""
    tokens = scene.tokens
    for at in range(min(_HEAD, len(tokens) - 3)):
        owner = tokens[at].text.replace("’", "'").lower()
        role = owner.removesuffix("'s")
        if role == owner or role not in _ROLES or not scene.line_start(at):
            continue
        if tokens[at + 1].lower in OWNED and tokens[at + 2].text == ":" and (end := _name_at(scene, at + 3)) > at + 3:
            _take(scene, at + 3, end)
            scene.hide(at, at + 3)
            return


def _regards(scene: Scene) -> None:
    """ "Hi Osk, my answers under your lines. Regards, Mairead Tolland": who signs at the head of what he quotes."""
    tokens = scene.tokens
    for at in range(1, min(_HEAD, len(tokens) - 3)):
        if tokens[at].lower not in ("regards", "cheers", "thanks", "best") or tokens[at + 1].text != ",":
            continue
        end = _name_at(scene, at + 2)
        closed = end < len(tokens) - 1 and tokens[end].kind == "newline"
        if (
            end > at + 2
            and closed
            and "my" in scene.lowers
            and says(tokens, end, min(end + _HEAD, len(tokens)), CLUB_RULES)
        ):
            _take(scene, at + 2, end)
        return


def _sold_to(scene: Scene) -> None:
    """ "Sold to Rufina Castell 2/5/2025: driver …" at the head of a list: whose clubs they are now."""
    tokens = scene.tokens
    for at in range(min(_HEAD, len(tokens) - 3)):
        led = [token.lower for token in tokens[at : at + 2]]
        if led not in (["sold", "to"], ["supplied", "to"], ["delivered", "to"]) or not scene.line_start(at):
            continue
        end = _name_at(scene, at + 2)
        if end > at + 2 and not says(tokens, 0, at, CLUB_RULES):
            _take(scene, at + 2, end)
            scene.hide(at, at + 2)
        return


def _fetched_by(scene: Scene) -> None:
    """ "picks up Fri: Mr Gilroy Stamm", "Collected by: Ada Brandt": whoever fetches the clubs is their player."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        if tokens[at].lower.split(" ")[0] not in _FETCHES:
            continue
        start = at
        while start and at - start < 5 and tokens[start - 1].kind == "word" and tokens[start - 1].text[:1].isupper():
            start -= 1
        if start < at and _name_at(scene, start) == at:
            _take(scene, start, at)  # "Mr Gilroy Stamm picks up Fri."
            return
        if not scene.line_start(at):
            continue
        end = line_end(tokens, at)
        colon = next((place for place in range(at, end) if tokens[place].text == ":"), 0)
        start = (
            colon + 1 if colon else next((place for place in range(at, end) if tokens[place].lower == "by"), end) + 1
        )
        if start < end and (stop := _name_at(scene, start)) > start and _closes(tokens, stop):
            _take(scene, start, stop)
            return


def _mail_head(scene: Scene) -> None:
    """ "From: Studio <…>", "To: Ada Brandt": the player is who wrote of clubs of his own, else who is written to."""
    tokens = scene.tokens
    heads: dict[str, tuple[int, int]] = {}
    for at in range(min(_HEAD, len(tokens) - 2)):
        opens = at == 0 or tokens[at - 1].kind == "newline"
        label = tokens[at].lower.rstrip(" :")
        if opens and label in ("from", "to") and ":" in (tokens[at + 1].text, tokens[at].lower[-1:]):
            heads[label] = (at, line_end(tokens, at))
    if set(heads) == {"from"} and any(for_somebody(scene, at) for at in range(heads["from"][1], len(tokens) - 2)):
        scene.leave(*heads["from"])
        for token in tokens[slice(*heads["from"])]:
            token.terminal = "BULLET"  # "From: Ferrers Fitting", and below it "spec for Ada Brandt"
    if len(heads) < 2:
        return
    yours = clubs_of(scene, {"your", "yours"}) or any(
        one.lower == "your" and other.lower in OWNED for one, other in pairwise(tokens)
    )
    own = clubs_of(scene, {"my", "mine"}) or "my" in scene.lowers
    at, stop = heads["to" if yours and not own else "from"]
    start = next((place for place in range(at, stop) if tokens[place].text == ":"), at) + 1
    end = _name_at(scene, start)
    for low, high in heads.values():
        scene.leave(low, high)
        for token in tokens[low:high]:
            token.terminal = "BULLET"
    if end > start:
        scene.facts["player"] = scene.words(start, end)
        scene.claims[start:end] = ["set"] * (end - start)


def for_somebody(scene: Scene, at: int) -> bool:
    """True for "spec for Ada Brandt", "customer: Ada Brandt"."""
    token = scene.tokens[at]
    if at + 2 >= len(scene.tokens):
        return False
    start = at + 1 + (scene.tokens[at + 1].text == ":")
    return token.terminal == "PLAYERWORD" and _name_at(scene, start) > start


def _here(scene: Scene) -> None:
    """ "hi Deke Pomfrey here", "hey everybody it's Tobin Ashgrave here and this is my bag"."""
    tokens = scene.tokens
    for at in range(1, min(_HEAD, len(tokens) - 1)):
        if tokens[at].lower != "here":
            continue
        start = at
        while start and at - start < 3 and tokens[start - 1].terminal == "WORD":
            start -= 1
        names = tokens[start:at]
        if names and names[0].lower in _GREETED:
            start, names = start + 1, names[1:]
        led = tokens[start - 1] if start else None
        capital = all(_of_a_name(token) for token in names) or (
            not scene.cased and not any(plain_word(token) for token in names)
        )
        opens = led is None or led.lower in _GREETED or led.kind in ("mark", "newline")
        onward = tokens[at + 1] if at + 1 < len(tokens) else None
        kin = any(_OWNERSHIP.sub("", token.lower) in KIN | RELATED for token in names)
        writes = led is not None and led.text == "," and bool({"my", "i've", "i'm", "mine"} & scene.lowers)
        single = len(names) == 1 and writes and _of_a_name(names[0])  # "Hi Osk, Ada here."
        onward_to = onward is None or onward.lower not in _HERE
        if (len(names) == 2 or single) and capital and opens and not kin and onward_to:
            _take(scene, start, at)
        return


def _staff(scene: Scene) -> None:
    """ "Built by: S. Harker", "Signed: L. Teague", "Fitter - Ada Brandt": who works on the clubs does not play them."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        words = tokens[at].lower.split(" ")
        by = words[1:] == ["by"] or (words[0] in _STAFF and tokens[at + 1].lower == "by")
        apart = at > 0 and (tokens[at - 1].terminal in ("PIPE", "BREAK") or gap(tokens[at - 1], tokens[at]) > 2)
        if not ((words[0] in _STAFF and by) or words[0] in _STAFF_ALONE) or not (apart or scene.line_start(at)):
            continue
        start = at + 1 + (by and words[1:] != ["by"])
        marked = tokens[start].text in (":", "-", "–", "—", ".")
        start += marked
        end = start
        while end < len(tokens) and end - start < 6 and _of_a_person(tokens[end]):
            end += 1
        full = by and sum(token.kind == "word" for token in tokens[start:end]) > 1
        if (full or marked) and end > start and _closes(tokens, end) and tokens[end - 1].kind == "word":
            scene.leave(at, end)
            for token in tokens[at:end]:
                token.terminal = "BULLET"


def _of_a_person(token: Token) -> bool:
    """True for a name, an initial and its dot."""
    if token.kind == "mark":
        return token.text in (".", "&")
    letter = len(token.text) == 1 and token.text.isupper()
    return token.kind == "word" and (letter or (token.terminal == "WORD" and token.text[:1].isupper()))
