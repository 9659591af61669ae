"""Talk of two or more: who asks, who tells of the clubs, and what the one who asks has in his own bag."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import CLUB_RULES, phrase_at, says
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import KIN

_UNNAMED = {"guest", "caller", "member", "him", "her", "visitor", "answer", "reply"}  # who speaks, and no name
_ASKING = {
    "q", "me", "them", "fitter", "host", "interviewer", "coach", "pro", "shop", "us", "you", "caddie", "builder",
    "reporter", "presenter", "announcer", "moderator", "commentator", "journalist", "magazine",
}  # fmt: skip
_PLAYERS = {"player", "client", "customer", "golfer", "pupil", "student", "junior", "owner", "buyer"}
_LABELS = {"in", "out", "was", "now", "old", "new", "from", "to"}  # "Out: Reed 55 S. In: Reed 65 X"
_NAMES_TOO = ("SILENT", "WITH", "MONTH", "COLOUR", "FLEX", "LETTER")  # "Will:", "Con:", "April:", said again
_ASKS = {
    "what", "whats", "what's", "which", "how", "how's", "hows", "where", "whose", "why",
}  # fmt: skip
_PAST = {"before", "previously", "formerly", "used"}
_OWNERSHIP = re.compile(r"['’][sS]$")
_SETS_NO_CLUB = ("UP", "DOWN", "LONG", "SHORT", "OPEN", "CLOSED", "STD")


class Turn(NamedTuple):
    """What one of them says at a time, its label left out, and who it is."""

    speaker: str
    start: int
    end: int


def ask_and_answer(scene: Scene) -> None:
    """ "Q:" and "A:" before the lines of an interview, names before the lines of a talk say who speaks."""
    _voices(scene)
    answering = [voice for voice in scene.source.voices if voice.lower() not in _ASKING | _PLAYERS | _UNNAMED]
    if len(set(answering)) == 1 and len(set(scene.source.voices)) > 1:
        scene.facts.setdefault("player", answering[0])
    tokens = scene.tokens
    marks = [
        at
        for at in range(len(tokens) - 1)
        if tokens[at].text in ("Q", "A") and tokens[at + 1].text in (":", ".") and scene.line_start(at)
    ]
    if len({tokens[at].text for at in marks}) < 2:
        return
    turns = _turns(scene, {letter: [(at, at + 2) for at in marks if tokens[at].text == letter] for letter in "QA"})
    for at in marks:
        scene.hide(at, at + 2)
        if tokens[at].text == "Q":
            _addressed(scene, at)
    _set_aside_of(scene, turns, {"Q"})


def _voices(scene: Scene) -> None:
    """ "Me: what do you play?", "Ada Brandt: a Gannet driver": names before the lines of a talk say who speaks.

    Whoever speaks most often, and not as a fitter or as the one who asks, is the player.
    """
    tokens = scene.tokens
    labels = _speakers(scene)
    short = sum(len(places) for places in labels.values()) < 3
    if len(labels) < 2 or (short and not _asks_first(scene, labels)):
        return
    lines = sum(token.terminal == "NEWLINE" and before.terminal != "NEWLINE" for before, token in pairwise(tokens))
    if 2 * sum(len(places) for places in labels.values()) < lines - 1:
        return
    for name in set(labels) & _ASKING:
        for at, _end in labels[name]:
            _only_asked(scene, at)
    turns = _turns(scene, labels)
    asks = _who_asks(scene, turns, labels)
    if not asks and not set(labels) & (_ASKING | _PLAYERS):
        return
    answering = [name for name in labels if name not in asks | _ASKING | _PLAYERS]
    told = {name: sum(_tells(scene, turn) for turn in turns if turn.speaker == name) for name in answering}
    most = [name for name in answering if told[name] == max(told.values())]
    if len(most) == 1 < len(answering) and told[most[0]] > 1 and not set(labels) & _PLAYERS:
        asks, answering = asks | set(answering) - set(most), most  # a third one tells of his own club
    for places in labels.values():
        for start, end in places:
            scene.hide(start, end)
    _called_by_name(scene, set(labels))
    named = [name for name in answering if labels[name][0][1] - labels[name][0][0] > 1]
    if len(answering) == len(named) == 1 and not short and "player" not in scene.facts and _names(named[0]):
        start, end = labels[answering[0]][0]
        scene.facts["player"] = _in_full(scene, tokens[start]) if end - start == 2 else scene.words(start, end - 1)
        scene.claims[start : end - 1] = ["set"] * (end - 1 - start)
    if answering or set(labels) & _PLAYERS:
        _set_aside_of(scene, turns, (asks | set(labels) & _ASKING) - _PLAYERS)


def _speakers(scene: Scene) -> dict[str, list[tuple[int, int]]]:
    """The labels before the lines of a talk, and where each stands: a word, or a name of two or three said again."""
    tokens = scene.tokens
    found: dict[str, list[tuple[int, int]]] = {}
    unsure: dict[str, list[tuple[int, int]]] = {}
    for at in range(len(tokens) - 2):
        if tokens[at].kind != "word" or not (at == 0 or scene.line_start(at)):
            continue
        if tokens[at].text == "Q" and tokens[at + 1].text in (".", ":"):
            found.setdefault("q", []).append((at, at + 2))
            continue
        if tokens[at].terminal == "PLAYERWORD" and tokens[at].text.endswith(":"):
            found.setdefault(tokens[at].lower.rstrip(" :"), []).append((at, at + 1))  # "PUPIL:", a form's word too
            continue
        end = at
        while end < at + 3 and end < len(tokens) and _of_a_name(tokens[end]):
            end += 1
        if end > at + 1 and end < len(tokens) and tokens[end].text == ":":
            name = " ".join(token.lower for token in tokens[at:end])
            found.setdefault(name, []).append((at, end + 1))
        elif tokens[at + 1].text == ":" and tokens[at].lower not in _LABELS:
            unknown = tokens[at].terminal in ("WORD", "PLAYERWORD", "LETTER") or bool(scene.claims[at])
            unknown = unknown or tokens[at].lower in _ASKING | _PLAYERS or len(tokens[at].text) == 1
            if unknown or tokens[at].terminal == "BULLET":
                found.setdefault(tokens[at].lower, []).append((at, at + 2))
            elif tokens[at].terminal in _NAMES_TOO and tokens[at].text[:1].isupper():
                unsure.setdefault(tokens[at].lower, []).append((at, at + 2))
    found = {
        name: places
        for name, places in found.items()
        if len(places) > 1 or not (" " in name or len(name) == 1 or tokens[places[0][0]].terminal == "PLAYERWORD")
    }
    return {**found, **{name: places for name, places in unsure.items() if found and len(places) > 1}}


def _turns(scene: Scene, labels: dict[str, list[tuple[int, int]]]) -> list[Turn]:
    """What each says at a time, in order: from behind a label to the next one."""
    places = sorted((start, end, name) for name, spans in labels.items() for start, end in spans)
    ends = [start for start, _end, _name in places[1:]] + [len(scene.tokens)]
    return [Turn(name, end, stop) for (_start, end, name), stop in zip(places, ends, strict=True)]


def _who_asks(scene: Scene, turns: list[Turn], labels: dict[str, list[tuple[int, int]]]) -> set[str]:
    """Those who ask: by a question that opens a turn, or by most of their turns; never the one who tells most."""
    opens = {turn.speaker for turn in turns if _ends_with_question(scene, turn.start)}
    asks = opens - _PLAYERS
    if not set(labels) - asks - _ASKING - _PLAYERS or not asks:
        asked = {name: sum(_asks(scene, turn) for turn in turns if turn.speaker == name) for name in labels}
        told = {name: sum(_tells(scene, turn) for turn in turns if turn.speaker == name) for name in labels}
        most = max(told.values())
        silent = any(told[name] and not asked[name] for name in labels)  # one who only tells
        asks = {name for name in labels if asked[name] and (silent or told[name] < most)} - _PLAYERS
    often = {name for name in labels if _mostly_asks(scene, [turn for turn in turns if turn.speaker == name])}
    return asks | (often - _PLAYERS if asks or set(labels) & (_ASKING | _PLAYERS) else set())


def _ends_with_question(scene: Scene, at: int) -> bool:
    """True where the sentence at this place ends with a question mark."""
    end = scene.clause_end(at)
    return end < len(scene.tokens) and scene.tokens[end].text == "?"


def _asks(scene: Scene, turn: Turn) -> bool:
    """True for a turn that asks and tells no figure: "what wedges do you play these days"."""
    told = scene.tokens[turn.start : turn.end]
    first = [token.lower for token in told if token.kind == "word"][:4]
    asked = any(token.text == "?" for token in told) or first[:1] == ["and"] or bool(_ASKS & set(first))
    return asked and not any(token.kind == "number" for token in told)


def _tells(scene: Scene, turn: Turn) -> bool:
    """True for a turn that tells a figure or a name and does not ask."""
    told = scene.tokens[turn.start : turn.end]
    figure = any(token.kind == "number" for token in told)
    return figure and not _asks(scene, turn)


def _names(label: str) -> bool:
    """True for a label that names who speaks: no letter, no "Speaker 2", and no "Dad", who speaks for another."""
    return label not in _UNNAMED | KIN | RELATED and len(label) > 1 and not label[-1].isdigit()


def _asks_first(scene: Scene, labels: dict[str, list[tuple[int, int]]]) -> bool:
    """True where one asks and another answers, once each: "WREN: And the irons?", "OTIS: Dunlin, 5 to PW."."""
    return _ends_with_question(scene, min(places[0][0] for places in labels.values()))


def _mostly_asks(scene: Scene, turns: list[Turn]) -> bool:
    """True for who asks in more than half of what he says."""
    return 2 * sum(_ends_with_question(scene, turn.start) for turn in turns) > len(turns) > 0


_OWN = {"mine", "mine's", "mines", "my"}
_I = {"i", "i've", "i'd", "ive"}
_HAVE = {
    "have", "had", "got", "play", "played", "use", "used", "swing", "carry", "carried", "hit", "game", "gamed", "own",
    "tried", "love", "hate", "ordered", "bought",
}  # fmt: skip
_YOU = {"you", "your", "yours", "you're", "you've", "him", "her", "his"}
_FILLING = {"also", "still", "just", "once", "only", "used", "to", "always", "really", "actually", "got", "even"}


def _set_aside_of(scene: Scene, turns: list[Turn], asking: set[str]) -> None:
    """Keep aside what those who ask tell of clubs of their own, and the answers to what somebody had before."""
    scene.talk, before = True, False
    for place, turn in enumerate(turns):
        if turn.speaker in asking:
            before = _asks_of_before(scene.tokens[turn.start : turn.end])
            at = turn.start
            while at < turn.end:
                end = min(scene.clause_end(at), turn.end)
                if _of_his_own(scene, at, end):
                    scene.set_aside(at, end)
                at = end + 1
        elif before and _tells(scene, turn):
            end = turn.end
            while end > turn.start and scene.tokens[end - 1].kind in ("newline", "mark"):
                end -= 1
            scene.set_aside(turn.start, end)
            before = False
            later = next((one for one in turns[place + 1 :] if one.speaker not in asking), None)
            if later is not None and not says(scene.tokens, later.start, later.end, CLUB_RULES):
                _still_of(scene, turn.start, end)


def _still_of(scene: Scene, start: int, end: int) -> None:
    """ "A Brindle 1 driver, 9 degrees." and then "Cotter 4, 10.5": the club that was named is still spoken of."""
    for at in range(start, end):
        club = phrase_at(scene.tokens, at)
        if club is not None and club.rule in ("club", "named"):
            scene.claims[at : club.end] = [""] * (club.end - at)
            return


def _asks_of_before(told: list[Token]) -> bool:
    """True for "What did you have before?", and not for "before we start, what's the driver?"."""
    said = [token.lower for token in told]
    marked = "?" in said and bool(_PAST & set(said[-4:]))
    return marked and bool({"did", "had", "were", "was"} & set(said)) and "now" not in said


def _of_his_own(scene: Scene, start: int, end: int) -> bool:
    """True for "I've got a ten degree Tamber myself", "mine's 45.5", "I use eleven degrees!", and no question."""
    tokens = scene.tokens
    said = tokens[start:end]
    lower = [token.lower for token in said]
    figure = any(token.kind == "number" for token in said)
    named = any(token.terminal == "WORD" and token.text[:1].isupper() for token in said[1:])
    if not (figure or named or says(tokens, start, end, CLUB_RULES)) or _YOU & set(lower):
        return False
    if _OWN & set(lower):
        return not _ends_with_question(scene, start)
    for at, word in enumerate(lower):
        if word in _I:
            verb = at + 1
            while verb < len(lower) and lower[verb] in _FILLING - {"got", "used"}:
                verb += 1
            owned = word in ("i've", "ive") and lower[at + 1 : at + 2] in (["a"], ["an"], ["the"])
            if owned or (verb < len(lower) and lower[verb] in _HAVE | {"used", "got"}):
                return not _ends_with_question(scene, start)
    return False


def _called_by_name(scene: Scene, names: set[str]) -> None:
    """ "Ada, what's the driver?", "And the wedges, Ada?": who is spoken to is no model."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 1):
        around = {tokens[at - 1].text, tokens[at + 1].text}
        called = tokens[at + 1].text == "," or (tokens[at - 1].text == "," and tokens[at + 1].text in "?!.")
        if tokens[at].lower in names and tokens[at].terminal == "WORD" and called and ":" not in around:
            scene.hide(at, at + 1)


def _only_asked(scene: Scene, at: int) -> None:
    """ "HOST: Next one down?", "SHOP: Standard length?": a question sets no club up or down."""
    if _ends_with_question(scene, at):
        for token in scene.tokens[at : scene.clause_end(at)]:
            if token.terminal in _SETS_NO_CLUB:
                token.terminal = "SILENT"


def _in_full(scene: Scene, label: Token) -> str:
    """The name of who speaks as "TEALBY": in full where a heading says it ("A chat with Brannoc Tealby")."""
    for first, last in pairwise(scene.tokens):
        if first.lower == label.lower and first is not label and _of_a_name(last) and first.line == last.line:
            return f"{first.text} {_OWNERSHIP.sub('', last.text)}"
        if last.lower == label.lower and last is not label and first.terminal == "WORD" and first.text[:1].isupper():
            return f"{first.text} {last.text}"
    return label.text


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


def _of_a_name(token: Token) -> bool:
    return token.terminal == "WORD" and token.text[:1].isupper()
