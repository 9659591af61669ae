"""Who writes, who speaks, who is asked and who signs: the people around a list, before its clubs are read."""

from __future__ import annotations

import re
from itertools import pairwise

from asplayed.intake.groups import FAMILIES
from asplayed.intake.persons import HELLOS, RELATED, clubs_of, of_the_writer
from asplayed.intake.phrases import CLUB_RULES, phrase_at, says
from asplayed.intake.player import for_somebody, name_player
from asplayed.intake.scene import TITLES, Scene
from asplayed.intake.tokens import DASHES, Token
from asplayed.intake.wording import KIN, ordinary_words, plain_word

_SIGN_OFFS = {
    "thanks", "thank", "you", "cheers", "regards", "best", "wishes", "sincerely", "faithfully", "truly", "ta", "yours",
    "greetings", "hälsningar", "hälsning", "mvh", "hilsen", "grüße", "gruß", "groeten", "groetjes", "saludos",
    "cordialement", "salutations", "terveisin", "bye", "goodbye", "cheerio",
    "pozdrawiam", "love", "advance", "signed", "warmly", "ever", "cordially", "respectfully", "gratefully", "kindly",
}  # fmt: skip
_THANKS = {"thanks", "thank", "cheers", "regards", "wishes", "greetings"}
_LEAVES = {"see", "speak", "talk", "until", "till", "catch", "looking"}  # first words of a last line
_PLAYED_IN = {"play", "playing", "plays", "played", "to", "at", "for", "in"}  # … "the Ferrydown Cup on 14 June"
_OFFICES = {"captain", "secretary", "manager", "professional", "office", "shop", "club", "society", "workshop"}
_NAME_IS = re.compile(r"\bname(?:'s| is| (?:for|on) (?:the |my |your )?\w+ is)$")  # "name for the ticket is"
_NAME_FOR = 5  # words of it
_OWNERSHIP = re.compile(r"['’][sS]$")
_SUBJECTS = {"subject", "subj", "re", "betreff", "about", "regarding"}
_HEAD = 60  # tokens of a mail's head
_SIGNING = ("WORD", "LETTER", "MONTH", "FLEX", "FLEXCODE", "SILENT")


def title(scene: Scene) -> None:
    """What is won, what is an event's name, and titles before people's names."""
    _winning_clubs(scene)
    _won(scene)
    _events(scene)
    _titled(scene)
    _named(scene)
    name_player(scene)
    _subject(scene)


def hide_handles(scene: Scene) -> None:
    """The "merle_77:" that several lines begin with says who writes, and names nothing."""
    tokens = scene.tokens
    found: dict[str, list[tuple[int, int]]] = {}
    for start in range(len(tokens)):
        if start and tokens[start - 1].kind != "newline":
            continue
        colon = next((at for at in range(start + 1, min(start + 6, len(tokens))) if tokens[at].text == ":"), 0)
        if not colon or not all(token.glued for token in tokens[start + 1 : colon + 1]):
            continue
        handle = "".join(token.lower for token in tokens[start:colon])
        if handle[:1].isalpha() and any(character.isdigit() or character == "_" for character in handle):
            found.setdefault(handle, []).append((start, colon + 1))
    for spans in found.values():
        for start, end in spans if len(spans) > 1 else ():
            scene.hide(start, end)
            for token in tokens[start:end]:
                token.kind = "mark"


def _subject(scene: Scene) -> None:
    """The "Subject: re-shaft, 4 iron to sand wedge" over a mail that tells its clubs: what it is about, and no club.

    A subject with a name or a figure of its own is read, as it may be all that the mail tells of a club.
    """
    tokens = scene.tokens
    for at in range(min(_HEAD, len(tokens) - 2)):
        opens = at == 0 or tokens[at - 1].kind == "newline"
        if not (opens and tokens[at].lower in _SUBJECTS and tokens[at + 1].text == ":"):
            continue
        end = scene.clause_end(at)
        named = any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[at + 3 : end])
        phrases = [phrase for place in range(at + 2, end) if (phrase := phrase_at(tokens, place)) is not None]
        clubs = {place for one in phrases if one.rule in CLUB_RULES for place in range(one.start, one.end)}
        figured = any(tokens[place].kind == "number" for place in set(range(at + 2, end)) - clubs)
        told = any(token.terminal in FAMILIES or token.terminal == "CODE" for token in tokens[end:])
        if clubs and told and not (named or figured):
            scene.leave(at, end)
            for token in tokens[at:end]:
                token.terminal = "BULLET"
        return


def _winning_clubs(scene: Scene) -> None:
    """ "Ada Brandt's winning clubs: Ferrydown Shield, 12 July 2026": who won, and behind the colon what."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        won = tokens[at].terminal == "PLAYERWORD" and tokens[at].lower.startswith(("winning", "winners", "winner"))
        if not won or not tokens[at - 1].lower.endswith(("'s", "’s")) or "player" in scene.facts:
            continue
        start = at
        while start and tokens[start - 1].terminal == "WORD" and tokens[start - 1].text[:1].isupper():
            start -= 1
        end = at + 1 + (tokens[at + 1].text == ":")
        stop = end
        while stop < len(tokens) and tokens[stop].kind == "word" and tokens[stop].text[:1].isupper():
            stop += 1
        if at - start < 2:
            continue
        scene.facts["player"] = _OWNERSHIP.sub("", scene.words(start, at))
        scene.claims[start:end] = ["set"] * (end - start)
        if stop - end > 1 and "event" not in scene.facts:
            scene.facts["event"] = scene.words(end, stop)
            scene.claims[end:stop] = ["set"] * (stop - end)


def _won(scene: Scene) -> None:
    """ "He won the Ferrydown Amateur by two": what is won, written with capitals, is the event.

    So is what is played on a day: "I play the Ferrydown Under 16s on 14 June".
    """
    tokens = scene.tokens
    for at in range(2, len(tokens) - 1):
        won = tokens[at - 2].lower in ("won", "win", "wins", "winning")
        if tokens[at - 1].lower != "the" or not (won or tokens[at - 2].lower in _PLAYED_IN):
            continue
        end = at
        while end < len(tokens) and (
            (tokens[end].kind == "word" and tokens[end].text[:1].isupper()) or (end > at and _of_an_age(tokens, end))
        ):
            end += 1 + _of_an_age(tokens, end)
        if not won and not _on_a_day(tokens, end):
            continue
        if end - at > 1 and "event" not in scene.facts:
            scene.facts["event"] = scene.words(at, end)
            scene.claims[at:end] = ["set"] * (end - at)


def _of_an_age(tokens: list[Token], at: int) -> bool:
    """True for the "16s" of "Under 16s"."""
    return tokens[at].text.isdigit() and at + 1 < len(tokens) and tokens[at + 1].glued and tokens[at + 1].lower == "s"


def _on_a_day(tokens: list[Token], at: int) -> bool:
    """True for "on 14 June", "in May 2025"."""
    told = tokens[at : at + 4]
    dated = any(token.terminal in ("DATE", "MONTH") for token in told[1:])
    return dated and told[0].lower in ("on", "in", "this", "next")


def _events(scene: Scene) -> None:
    """The "Ladies" of "Cloudmoor Ladies Championship", of "Ladies Spring Cup": part of an event's name and no flex."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.terminal != "FLEX" or not token.text[:1].isupper():
            continue
        end = at + 1
        while end < min(at + 4, len(tokens)) and _of_a_name(tokens[end]):
            end += 1
        kind = tokens[end] if end < len(tokens) else token
        named = kind.terminal == "EVENTKIND" or (kind.terminal == "OPEN" and kind.text[:1].isupper())
        if named and (end > at + 1 or (at > 0 and tokens[at - 1].text[:1].isupper())):
            token.terminal, token.value = "WORD", token.lower


def _titled(scene: Scene) -> None:
    """ "Mrs. Ada Brandt": the title, its dot if any, stands before a name of two words and is no part of it."""
    tokens = scene.tokens
    for at in range(len(tokens) - 2):
        dotted = tokens[at + 1].text == "." and tokens[at + 1].glued
        if tokens[at].lower not in TITLES or (tokens[at].lower == "dr" and not dotted):
            continue  # "DR Gannet LS": a driver
        names = tokens[at + 1 + dotted : at + 3 + dotted]
        if len(names) == 2 and all(_of_a_name(token) for token in names):
            for token in tokens[at : at + 1 + dotted]:
                token.terminal = "SILENT"


def _named(scene: Scene) -> None:
    """ "Name's Brandt, Ada Brandt.", "my name is Ada Brandt": wherever it is said, it is the player's."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        lead = " ".join(token.text.lower().replace("’", "'") for token in tokens[max(0, at - _NAME_FOR) : at])
        if not _NAME_IS.search(lead) or "player" in scene.facts:
            continue
        start = end = at
        while end < len(tokens) and (_of_a_name(tokens[end]) or (end > start and _hyphened(tokens, end))):
            end += 1
        if end < len(tokens) - 2 and tokens[end].text == "," and end - start == 1:
            again = end + 1
            while again < len(tokens) and _of_a_name(tokens[again]):
                again += 1
            if again - end > 2 and tokens[again - 1].lower == tokens[start].lower:
                start, end = end + 1, again  # "Name's Brandt, Ada Brandt."
        if end > start:
            _sign_as(scene, start, end)


def _hyphened(tokens: list[Token], at: int) -> bool:
    """True for the hyphen of "Ada Brandt-Osk"."""
    return tokens[at].text in DASHES and tokens[at].glued and at + 1 < len(tokens) and tokens[at + 1].glued


def _of_a_name(token: Token) -> bool:
    return token.terminal == "WORD" and token.text[:1].isupper()


def _sign_as(scene: Scene, start: int, end: int) -> None:
    """Take the words from `start` up to `end` as the player's name."""
    scene.facts["player"] = scene.words(start, end)
    for at in range(start, end):
        scene.claims[at] = "set"


def sign(scene: Scene) -> None:
    """ "Thanks, Ada", "Kind regards," and a name below it: who signs a list is its player."""
    span = _signature(scene)
    tokens = scene.tokens
    if span is None or all(token.lower in ordinary_words() for token in tokens[slice(*span)]):
        return  # "See you Thursday!"
    labelled = any(
        (tokens[at].terminal == "PLAYERWORD" and tokens[at + 1].terminal == "EQ" and scene.line_start(at))
        or for_somebody(scene, at)
        for at in range(len(tokens) - 1)
    )
    if "player" not in scene.facts and not labelled and _own_clubs(scene, scene.tokens[span[0] : span[1]]):
        _sign_as(scene, *span)
    for at in range(*span):
        scene.claims[at] = scene.claims[at] or "left"


def _own_clubs(scene: Scene, names: list[Token]) -> bool:
    """True when whoever signs tells of his or her own clubs, and signs with a name."""
    if any(token.lower in KIN for token in names):
        return False  # "Love, Granny" names nobody
    said = {token.lower for token in scene.tokens}
    if said & {"he", "she", "his", "her"} and not said & {"i", "my", "me", "i'm", "i've", "mine"}:
        return False  # a fitter writes of somebody else
    mine = of_the_writer(scene) or "mine" in said
    if clubs_of(scene, {"his", "her"}) and not mine:
        return False  # "these are her clubs … kind regards, Philippa"
    if clubs_of(scene, {"your"}) and not mine:
        return False  # "Your new driver is ready … Philippa, Brandt's Golf Shop"
    words = [token.lower for token in scene.tokens]
    if any(pair == ("for", "you") for pair in pairwise(words)) and not said & {"my", "mine"}:
        return False  # "This is the set I would build for you … T. Brandt"
    if said & {"your", "yours"} and said & {"we", "our"} and not said & {"my", "mine"}:
        return False  # "Here is what we agreed … your own Curlew … Best, Philippa"
    owned = [token for token in scene.tokens if token.lower.endswith(("'s", "’s")) and token.text[:1].isupper()]
    others = {token.lower[:-2] for token in owned} - {token.lower for token in names}
    if others and said & {"he", "she", "her"} and not clubs_of(scene, {"my", "mine"}):
        return False  # "Away match, Ada's clubs … Best wishes, Philippa"
    related = any(one in ("my", "our") and other in RELATED for one, other in pairwise(words))
    about = said & {"he", "she"} or (not mine and (said & {"his", "her"} or _kin_by_name(scene)))
    return not (about and related)  # "My daughter Ada is thirteen … Yours, Mrs Brandt"


def _kin_by_name(scene: Scene) -> bool:
    """True where a relative or a client is told of by name: "my son Jonas plays …", "our client Ada Brandt"."""
    return any(one.lower in RELATED and _of_a_name(other) for one, other in pairwise(scene.tokens))


def _signature(scene: Scene) -> tuple[int, int] | None:
    """Where the name under the list stands: behind a word of leave, or alone behind the last question."""
    tokens = scene.tokens
    ends = (at for at in range(1, len(tokens) - 1) if tokens[at].lower in ("ps", "p.s", "pps") and scene.line_start(at))
    ends = (at for at in ends if tokens[at + 1].kind == "mark" or "." in tokens[at].text)
    end = next(ends, _foot(scene))  # a signature stands before its PS
    while end and (tokens[end - 1].kind == "newline" or tokens[end - 1].text in (".", "!")):
        end -= 1
    end = _before_bracket(scene, end)
    alone = end > 3 and tokens[end - 3].kind == "newline" and _full_name_at(tokens, end - 2)
    if alone and (_is_mail(scene) or _takes_leave(tokens[: end - 3])):
        return (end - 2, end)  # "Ada Brandt" alone under a mail, or under "See you in the spring"
    small = scene.source.text.islower()
    start = end
    while start and end - start < 6 and _signs(tokens[start - 1], small):
        initial = start > 1 and len(tokens[start - 2].text) == 1 and tokens[start - 2].text.isupper()
        if tokens[start - 1].text == "." and not initial:
            break
        if tokens[start - 1].lower in _SIGN_OFFS or _full_name_behind(tokens, start, end):
            break
        start -= 1
    while start < end and (tokens[start].kind == "newline" or tokens[start].text in (",", "-", "'", "’")):
        start += 1
    led = start - 1
    while led >= 0 and (tokens[led].kind == "newline" or tokens[led].text in (",", "!", ".", "-", "–", "—")):
        led -= 1
    if led < 0 or start == end:
        return None
    comma = any(token.text == "," for token in tokens[led + 1 : start])
    kin = tokens[led].lower in RELATED | KIN and "your" in [token.lower for token in tokens[max(0, led - 3) : led]]
    leave = tokens[led].lower in _SIGN_OFFS or kin or (comma and _takes_leave(tokens[: led + 1]))
    dashed = tokens[start - 1].text in DASHES and (start < 2 or tokens[start - 2].kind == "newline")
    if dashed and end - start == 2 and _full_name_at(tokens, start):
        return (start, end)  # "- Ada Brandt" under the list
    if dashed and _of_a_name(tokens[start]) and all(set(token.lower) == {"x"} for token in tokens[start + 1 : end]):
        return (start, start + 1)  # "- Ada x"
    if _initialled(tokens[start:end]) and tokens[start - 1].kind == "newline":
        return (start, end)  # "E. V. Brandt" under the list
    parting = [token for token in tokens[:start] if token.line == tokens[led].line]
    plain = all(
        token.terminal in ("WORD", "SILENT", "STOP", "NEWLINE", "COMMA", "EQ", "AT", "IN", "ALL", "PLACE")
        for token in parting
    )
    if plain and len(parting) > 2 and end - start == 2 and tokens[start - 1].kind == "newline":
        below = tokens[start].line > tokens[led].line and tokens[led + 1].text in (".", "!")
        if below and _full_name_at(tokens, start):
            return (start, end)  # "Hope that's everything." and on the last line "Ada Brandt"
    if _alone_under_letter(scene, led, start, end):
        return (start, end)  # "I swing at 80 mph.", and below an empty line "Ada Brandt-Iles"
    asked = {token.lower for token in tokens[max(0, led - 12) : led]} & {"i", "you", "we"}
    answered = tokens[led].text == "?" and bool(asked) and end - start in (2, 3)
    if not (leave or (answered and not scene.source.voices)):
        return None
    first = tokens[start].line
    stop = start
    while stop < end and tokens[stop].line == first and tokens[stop].text != ",":
        stop += 1
    for at in range(stop, end):
        scene.claims[at] = scene.claims[at] or "left"  # below or behind the name: an office
    return (start, stop) if 1 <= stop - start <= 4 else None


def _alone_under_letter(scene: Scene, led: int, start: int, end: int) -> bool:
    """True for a name in full that is told nowhere else, under a letter or an empty line, where "I" or "my" is said."""
    tokens = scene.tokens
    names = [token for token in tokens[start:end] if token.text not in DASHES]
    apart = tokens[start].line - tokens[led].line > (0 if tokens[0].lower == "dear" else 1)
    apart = apart and tokens[led + 1].text in (".", "!", "?")
    plain = 2 <= len(names) <= 3 and all(_of_a_name(token) and not plain_word(token) for token in names)
    if not (apart and plain) or tokens[start].line != tokens[end - 1].line:
        return False
    said = {token.text for token in tokens[:start]}
    return bool({"I", "My", "my", "I'm", "I've"} & said) and not any(token.text in said for token in names)


def _before_bracket(scene: Scene, end: int) -> int:
    """The place before the bracket of "Cheers, Ada (Brandt's Shed)", which tells of no club and is left."""
    tokens = scene.tokens
    if not end or tokens[end - 1].terminal != "RPAR":
        return end
    low = next((at for at in range(end - 1, max(0, end - 8), -1) if tokens[at].terminal == "LPAR"), 0)
    plain = low and all(token.terminal in ("WORD", "SILENT", "AND") for token in tokens[low + 1 : end - 1])
    led = [token.lower for token in tokens[max(0, low - 4) : low]]
    if not plain or not _SIGN_OFFS & set(led):
        return end
    scene.leave(low, end)
    for token in tokens[low:end]:
        token.terminal = "BULLET"
    return low


def _is_mail(scene: Scene) -> bool:
    """True for a list under a mail's head, "Subject: order", and for a letter: "Dear Mr Brandt,"."""
    tokens = scene.tokens
    return tokens[0].lower in HELLOS or any(
        tokens[at].lower in _SUBJECTS and tokens[at + 1].text == ":" for at in range(min(_HEAD, len(tokens) - 1))
    )


def _foot(scene: Scene) -> int:
    """Where the text as written ends: what opened it about groups of clubs is heard behind its end."""
    tokens = scene.tokens
    moved = (at for at in range(1, len(tokens)) if tokens[at].line < tokens[at - 1].line)
    return next(moved, len(tokens)) if scene.beforehand < len(tokens) else len(tokens)


def _initialled(names: list[Token]) -> bool:
    """True for "A. Brandt", "A. B. Brandt" and nothing else: initials with their dots, and a surname."""
    letters, dots = names[:-1:2], names[1::2]
    plain = all(len(token.text) == 1 and token.text.isupper() for token in letters)
    return len(names) in (3, 5) and plain and all(token.text == "." for token in dots) and _of_a_name(names[-1])


def _full_name_at(tokens: list[Token], start: int) -> bool:
    """True for two capital words of nobody's on one line."""
    names = tokens[start : start + 2]
    plain = all(_of_a_name(token) and not plain_word(token) for token in names)
    return plain and len(names) == 2 and names[0].line == names[1].line


def _full_name_behind(tokens: list[Token], start: int, end: int) -> bool:
    """True at the comma of "See you Saturday, Ada Brandt": two names stand behind it."""
    names = [token for token in tokens[start:end] if token.kind != "newline"]
    plain = all(token.terminal == "WORD" and token.lower not in _OFFICES for token in names)
    return len(names) > 1 and plain and tokens[start - 1].text == ","


def _signs(token: Token, small: bool) -> bool:
    """True for a word of a signature: a capital word, an initial, a hyphen, a comma before an office."""
    if token.kind == "newline" or token.text in (",", "-", "'", "’", "."):
        return True
    return token.kind == "word" and token.terminal in _SIGNING and (small or token.text[:1].isupper())


def _takes_leave(tokens: list[Token]) -> bool:
    """True for a last line "See you Saturday, Ada Brandt", "Many thanks to you all,": it says nothing of clubs."""
    last = [token for token in tokens if token.line == tokens[-1].line and token.kind != "newline"]
    thanked = bool({token.lower for token in last[:3]} & _THANKS) and not says(last, 0, len(last), CLUB_RULES)
    return len(last) > 1 and (last[0].lower in _LEAVES or thanked)


def name_in_full(scene: Scene) -> None:
    """The player known by one name, in full where the list says it: "Hester's clubs", later "Hester Plumbridge"."""
    player = scene.facts.get("player", "")
    titled = player.split()[0].lower().rstrip(".") in TITLES if " " in player else False
    if not player or (" " in player and not titled):
        return
    known = player.split()[-1]
    for first, last in pairwise(scene.tokens):
        names = first.terminal == last.terminal == "WORD" and last.text[:1].isupper() and not last.glued
        if not names or first.line != last.line or {first.lower, last.lower} & ordinary_words():
            continue
        if titled and last.text == known and first.text[:1].isupper() and first.lower not in TITLES:
            scene.facts["player"] = f"{first.text} {last.text}"  # "Mr Brandt's clubs", later "Adam Brandt"
            return
        if not titled and first.text == known:
            whole = last.text[:-2] if last.lower.endswith("'s") else last.text
            scene.facts["player"] = f"{first.text} {whole}"
            return
