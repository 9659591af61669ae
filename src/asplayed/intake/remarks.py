"""Facts that no record has a field for: how the player swings, how far a club goes, what it has gone through."""

from __future__ import annotations

from asplayed.intake.groups import FAMILIES
from asplayed.intake.own_tables import own_words
from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tables import cells_of_row
from asplayed.intake.tokens import Token

_SPEEDS = ("mph", "miles an", "miles per", "kph", "kmh", "km / h")
_STRIKES = {"hits", "hit", "hitting", "strikes", "striking", "attacks", "attacking", "attack", "swings", "swinging"}
_FLIES = {"goes", "go", "went", "flies", "flew", "travels", "reaches"}
_SENDS = _STRIKES | {"carries", "carry", "flies", "fly"}
_MEASURES = {"GRAM", "DEG", "INCH", "CM", "MM", "CPM", "FLEX", "FLEXCODE"}  # what is no distance
_POINTING = {"it", "one", "that", "this"}
_WHO = {"her", "him", "me", "you", "them", "us"}
_FARTHEST = 350.0  # yards or metres with any club
_SAID, _BARE = 60.0, 100.0  # the least that is a distance: behind "goes", "carries"; as a bare number
_UNITS = {"yards", "yds", "yd", "y", "m", "metres", "meters", "carry"}
_STEEP = {"UP", "DOWN"}
_THEY = {"i", "he", "she", "they", "we"}
_SLOWEST = 40.0  # mph with any club
_LINKS = {*FAMILIES, "SILENT", "AT", "EQ", "IN", "WITH", "BY"}
_SWUNG = {*_LINKS, "NUM", "UNSURE", "THOSE"}
_OF_SPEED = {
    *FAMILIES, "NUM", "SILENT", "WITH", "COMMA", "AND", "SLASH", "DASH", "EQ", "IN", "AT", "BULLET", "NOTE", "BY",
    "UP", "DOWN", "DEG", "LPAR", "RPAR",
}  # fmt: skip
_OF_WEAR = {"WORD", "SILENT", "PLACE", "SOLEWORD", "HEADWORD", "AT", "IN", "EQ", "ROUGH", "NOTE", "WEIGHT", "HYPHEN"}
_PLACED = ("on", "of", "in")


def _words(sort: str) -> frozenset[str]:
    return own_words("remarks", sort)


def keep_remarks(scene: Scene) -> None:
    """Keep as notes what is told of the player's swing and of a club's wear, before it is taken for a club's figure."""
    tokens, start = scene.tokens, 0
    while start < len(tokens):
        end = scene.clause_end(start)
        if end > start and start not in scene.rows and not any(scene.claims[start:end]):
            if _of_speeds(tokens[start:end]) or _of_distances(tokens, start, end):
                _note(scene, start, end)
            else:
                _steepness(scene, start, end)
                _speed(scene, start, end)
                _wear(scene, start, end)
        _distance(scene, start, end)
        start = end + 1


def keep_remarks_of_rows(scene: Scene) -> None:
    """Keep as notes the words of a column of remarks that nothing was made of ("insert chipped")."""
    for start, columns in scene.rows.items():
        club = next((draft for draft in scene.drafts if start <= draft.place < scene.clause_end(start)), None)
        for zone, (low, high) in zip(columns, cells_of_row(scene, start), strict=False):
            untold = all(scene.claims[at] in ("", "left", "silent") for at in range(low, high))
            if not zone and untold and any(token.kind == "word" for token in scene.tokens[low:high]):
                scene.claims[low:high] = ["note"] * (high - low)
                scene.add_note(low, high, club)


def _of_speeds(told: list[Token]) -> bool:
    """True for "98 mph with the driver, 84 with the 6 iron, hits down 3 degrees": speeds and whose they are."""
    speeds = any(token.terminal == "NOTE" and token.lower.startswith(_SPEEDS) for token in told)
    numbers = [at for at, token in enumerate(told) if token.terminal == "NUM"]
    behind = {at: told[at + 1].terminal if at + 1 < len(told) else "" for at in numbers}
    own = [at for at in numbers if behind[at] not in (*FAMILIES, "DEG")]  # no club's number, and no steepness
    swings = [told[at].value for at in own]
    fast = bool(own) and all(isinstance(speed, float) and speed >= _SLOWEST for speed in swings)
    clubs = any(token.terminal in FAMILIES for token in told) or any("driver" in token.lower for token in told)
    plain = all(token.terminal in _OF_SPEED or token.lower in _STRIKES for token in told)
    return speeds and len(numbers) > 1 and fast and clubs and plain  # not "7 iron 34, driver speed 95 mph"


def _steepness(scene: Scene, start: int, end: int) -> None:
    """ "hits down 3 degrees", "attacks 2 up": how steeply the player comes to the ball is no bend of a club."""
    tokens = scene.tokens
    for at in range(start, end - 2):
        if tokens[at].lower not in _STRIKES:
            continue
        behind = [place for place in range(at + 1, min(at + 6, end)) if tokens[place].terminal not in _LINKS]
        said = [tokens[place].terminal for place in behind[:3]]
        told = set(said[:1]) & _STEEP and "NUM" in said[1:]
        if told or said[:2] in (["NUM", "UP"], ["NUM", "DOWN"]) or said in (["NUM", "DEG", way] for way in _STEEP):
            stop = next((place for place in range(at, end) if tokens[place].terminal == "COMMA"), end)
            _note(scene, at, stop)
            return


def _speed(scene: Scene, start: int, end: int) -> None:
    """ "Swings it at 98 miles an hour", "swings the driver at about 85 mph", "6i speed 68": how fast, as it is said."""
    tokens = scene.tokens
    for at in range(start, end - 2):
        club = phrase_at(tokens, at) if tokens[at].kind in ("number", "word") else None
        if club is not None and club.rule in ("club", "named") and club.end + 1 < end and not scene.claims[at]:
            told = [one.lower if one.kind == "word" else one.kind for one in tokens[club.end : club.end + 2]]
            if told in (["speed", "number"], ["speed", "about"]):
                _note(scene, at, club.end + 2 + (told[1] == "about"))
    for at in range(start, end - 2):
        if tokens[at].lower not in _STRIKES or scene.claims[at]:
            continue
        stop = next((place for place in range(at + 1, end) if tokens[place].terminal not in _SWUNG), end)
        if stop < end and tokens[stop].terminal == "NOTE" and tokens[stop].lower.startswith(_SPEEDS):
            if tokens[stop - 1].kind == "number":
                _note(scene, at, stop + 1)
            return


def _of_distances(tokens: list[Token], start: int, end: int) -> bool:
    """True for "7i 188 / 8i 174 / pw 147", "add 5 a club in this heat": how far clubs go, in nothing but numbers."""
    words = [token.lower for token in tokens[start : start + 4]]
    if words[:1] == ["add"] and words[2:4] in (["a", "club"], ["per", "club"]):
        return True
    at, pairs = start, 0
    while at < end:
        club = phrase_at(tokens, at)
        far = tokens[club.end] if club is not None and club.rule in ("club", "named") and club.end < end else None
        if club is None or far is None or not _far(far) or (club.end + 1 < end and tokens[club.end + 1].kind == "word"):
            return False
        at, pairs = club.end + 1, pairs + 1
        while at < end and tokens[at].terminal in ("SLASH", "COMMA", "PIPE", "AND", "DASH"):
            at += 1
    return pairs > 2


def _far(token: Token) -> bool:
    """True for a number that can only be yards or metres, of a club of the set."""
    return token.terminal == "NUM" and isinstance(token.value, float) and _BARE <= token.value <= _FARTHEST


def _wear(scene: Scene, start: int, end: int) -> None:
    """ "Small ding on the toe", "heel repaired", "sole of the 3 wood re-screwed": and no weight in the toe or heel."""
    tokens = scene.tokens
    for at in range(start, end):
        small = at == start and at + 1 < end and tokens[at + 1].text.islower()  # "Scratch on the heel."
        word = tokens[at].lower if small else tokens[at].text
        told = tokens[at].terminal == "WORD" and word in _words("wear")
        joined = at > start and tokens[at - 1].text == "-" and f"re{tokens[at].text}" in _words("wear")
        if not (told or joined) or scene.claims[at]:
            continue
        first, last = at, at + 1
        while first > start and _said_of_wear(tokens, first - 1):
            first -= 1
        while last < end and _said_of_wear(tokens, last):
            last += 1
        parts = {token.terminal for token in tokens[first:last]}
        if parts & {"PLACE", "SOLEWORD"} or ("NOTE" in parts and last == end):
            _note(scene, first, last)


def _said_of_wear(tokens: list[Token], at: int) -> bool:
    """True for a plain word beside one of wear, a part of the head, the club of "on the 3 wood"."""
    token = tokens[at]
    small = token.text.islower() or token.terminal in ("PLACE", "SOLEWORD") or token.kind == "mark"
    begin = at - (token.terminal in FAMILIES and tokens[at - 1].terminal == "NUM")
    club = (
        token.terminal in ("NUM", *FAMILIES) and tokens[begin - 1].lower == "the" and tokens[begin - 2].lower in _PLACED
    )
    return club or (token.terminal in _OF_WEAR and small)


def _distance(scene: Scene, start: int, end: int) -> None:
    """ "The driver goes two thirty-five", "hits the 7 iron 150", "seven iron's 155 for her": how far, and no mass."""
    tokens = scene.tokens
    for at in range(start, end):
        if scene.claims[at] or not (verb := _behind_club(scene, at)):
            continue
        stated = tokens[verb - 1].kind == "word"  # "the 7 goes 150", and not "hits 7, 150"
        first = at - (at > start and tokens[at - 1].terminal == "SILENT" and tokens[at - 1].lower not in _SENDS)
        flies = verb < end and tokens[verb].lower in _FLIES
        sent = first > start and tokens[first - 1].lower in _SENDS and stated
        onward = (
            first > start + 1 and tokens[first - 1].terminal in ("AND", "COMMA") and scene.claims[first - 2] == "note"
        )
        drawn = tokens[verb - 1].text.endswith(("'s", "’s"))  # "the seven iron's 155"
        verbal = verb < end and tokens[verb].terminal == "EQ"
        far = verb + (flies or verbal)
        while far < end and tokens[far].terminal in ("SILENT", "UNSURE", "AT"):
            far += 1
        value = tokens[far].value if far < end and tokens[far].terminal == "NUM" else None
        if not isinstance(value, float) or not _SAID <= value <= _FARTHEST or value != int(value):
            continue
        stop = far + 1 + (far + 1 < end and tokens[far + 1].lower in _UNITS)
        measured = stop < end and tokens[stop].terminal in _MEASURES
        whose = [token.lower for token in tokens[stop : stop + 2]]
        named = stated and tokens[at].lower not in _POINTING  # not "it is 60 for him"
        told = (verbal or drawn) and named and whose[:1] == ["for"] and bool(set(whose[1:]) & _WHO)
        if (flies or sent or told or onward) and not measured:
            who = sent and first - 1 > start and tokens[first - 2].lower in ("i", "he", "she", "we")
            _note(scene, first - sent - who, stop + 2 * told)


def _behind_club(scene: Scene, at: int) -> int:
    """The place behind a club, its number alone, or a word that points to one; 0 where none stands."""
    club = phrase_at(scene.tokens, at)
    if club is not None and club.rule in ("club", "named", "bare"):
        return 0 if club.rule == "bare" and club.amounts[0].unit else club.end
    return at + 1 if scene.tokens[at].lower in _POINTING else 0


def _note(scene: Scene, start: int, end: int) -> None:
    scene.claims[start:end] = ["note"] * (end - start)
    scene.add_note(start, end, None)
