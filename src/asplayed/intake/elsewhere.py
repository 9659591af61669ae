"""Sentences that tell of a club outside the set: it lies elsewhere, somebody else has it, it broke, it was before.

What says so is put together from the words of `data/elsewhere.toml`; the word that tells it is marked, and what is
kept aside with it is settled as for every other such word (`asides`).
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.in_place import turns_to_the_set
from asplayed.intake.own_tables import own_table, own_words
from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import phrase_at, says
from asplayed.intake.scene import CLAUSE, TITLES, Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import KIN

_NAMES = ("club", "named", "span", "family", "dashed")
_OWNERS = {"my", "his", "her", "our", "their", "the", "a", "your", "of"}
_PARTS = {"SHAFTWORD", "GRIPWORD", "SLEEVE", "WEIGHT", "LENGTH", "LOFT", "LIE"}
_FIGURES = {"DEG", "GRAM", "INCH", "FLEX", "FLEXCODE", "SWV", "MM", "CM"}
_NAMING = ("WORD", "LETTER", "SWV", "NUM")
_IN = {"in", "at", "on", "under", "behind", "inside", "by", "at the", "into", "over", "above"}
_STANDS = {"is", "are", "now", "stays", "lives", "rests"}
_THEY = {"he", "she", "i", "they", "we", "it", "you"}
_POINTING = {"the", "my", "his", "her", "our", "their", "your", "that", "this", "those", "these"}
_HIS = {"mine", "his", "hers", "ours", "yours", "theirs"}
_ITS = {"is", "are", "its", "it's", "that's", "thats", "they're"}  # "it was my grandfather's" tells who had it before
_OLD = {"old", "older", "previous", "former", "last", "first"}
_ONES = {"one", "ones", "set", "clubs", "bag", "lot"}
_NOT_YET = (
    ["on", "its", "way"], ["on", "their", "way"], ["on", "the", "way"], ["here", "yet"], ["come", "yet"],
    ["arrived", "yet"], ["comes", "later"], ["come", "later"], ["coming", "later"], ["follows", "later"],
    ["comes", "soon"], ["coming", "soon"],
)  # fmt: skip
_MORE = {"more", "less"}
_NEXT = (["comes", "next"], ["coming", "next"], ["arrives", "next"])  # and a time: "comes next" alone goes on
_WENT = {"was", "were", "had", "went", "spun", "flew", "felt", "hit", "ran", "fell", "rose", "kept", "came"}
_TIMES = {"week", "month", "year", "season", "time", "spring", "summer", "autumn", "fall", "winter"}


class _Sentence(NamedTuple):
    """Where a sentence begins and ends, the clubs told of in it but for those that label a line, if any is named."""

    start: int
    end: int
    clubs: list[tuple[int, int]]
    named: bool
    numbers: list[tuple[int, int]]  # "the three and the four": clubs by their numbers alone


def words_of(sort: str) -> frozenset[str]:
    """The words of one sort."""
    return own_words("elsewhere", sort)


@cache
def _phrases(sort: str) -> dict[str, list[list[str]]]:
    """The phrases of one sort, by their first word."""
    found: dict[str, list[list[str]]] = {}
    for words in map(str.split, own_table("elsewhere")[sort]):
        found.setdefault(words[0], []).append(words)
    return found


def mark_elsewhere(scene: Scene) -> None:
    """Mark the word by which a sentence tells of a club outside the set, where another sentence names one of it."""
    tokens, known = scene.tokens, False
    sentences = [part for sentence in _sentences(scene) for part in _halves(tokens, sentence)]
    for index, sentence in enumerate(sentences):
        others = known or any(other.named for other in sentences[index + 1 :])
        if others or sentence.named:
            at = _told_at(tokens, sentence) if others else _lent(tokens, sentence)
            if at >= 0 and not any(token.terminal == "ASIDE" for token in tokens[sentence.start : sentence.end]):
                tokens[at].terminal = "ASIDE"
        known = known or sentence.named


def _sentences(scene: Scene) -> Iterator[_Sentence]:
    """The sentences of the list, with the clubs of which nothing is settled yet."""
    tokens, start = scene.tokens, 0
    while start < len(tokens):
        end = scene.clause_end(start)
        clubs: list[tuple[int, int]] = []
        at, named = start, False
        while at < end:
            if clubs and turns_to_the_set(tokens, at) and says(tokens, at, end, _NAMES):
                end = at  # "my 3 wood's at the shop so right now it's …": the rest is a sentence of its own
                break
            phrase = phrase_at(tokens, at) if not scene.claims[at] else None
            several = phrase is not None and phrase.rule == "amounts" and phrase.has("IRON", "WOOD", "HYBRID", "WEDGE")
            if phrase is not None and (phrase.rule in _NAMES or several):
                named = True
                if phrase.end >= end or tokens[phrase.end].text != ":":
                    clubs.append((at, phrase.end))
            at = at + 1 if phrase is None else phrase.end
        yield _Sentence(start, end, clubs, named, _by_number(tokens, start, end))
        start = end + 1


def _halves(tokens: list[Token], sentence: _Sentence) -> list[_Sentence]:
    """ "The old driver lies in a drawer, and the two iron was lost": each half that tells it is a sentence."""
    for club in sentence.clubs[1:]:
        led = club[0] - (tokens[club[0] - 1].lower in _POINTING)
        if [token.terminal for token in tokens[led - 2 : led]] != ["COMMA", "AND"]:
            continue
        first = sentence._replace(end=led - 2, clubs=[one for one in sentence.clubs if one[1] < led])
        second = sentence._replace(start=led, clubs=[one for one in sentence.clubs if one[0] >= led])
        if _told_at(tokens, first) >= 0 and _told_at(tokens, second) >= 0:
            return [first, second]
    return [sentence]


def _told_at(tokens: list[Token], sentence: _Sentence) -> int:
    """The place of the word that tells it; -1 where the sentence tells of no club outside the set."""
    if not sentence.clubs:
        tests = (_newer_one, _last_years, _given_to, _was_old, _let_be, _for_show)
        return next((at for test in tests if (at := test(tokens, sentence)) >= 0), -1)
    for test in (
        _odd_or_even,
        _second_of_one,
        _last_years,
        _lies_elsewhere,
        _broke,
        _asked_to_try,
        _owned_before,
        _not_yet,
        _tried_but,
        _had_but,
        _was_old,
        _given_to,
        _for_another,
        _let_be,
        _lent,
        _phrased,
    ):
        at = test(tokens, sentence)
        if at >= 0:
            return at
    return -1


def _odd_or_even(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The odd irons (3, 5, 7, 9) are back at the depot": the other half of a half set, and nothing told of it."""
    at = sentence.start + (tokens[sentence.start].lower in _POINTING)
    if at + 2 >= sentence.end or tokens[at].lower not in ("odd", "even", "missing"):
        return -1
    behind = at + 2
    if tokens[behind].terminal == "LPAR":
        while behind < sentence.end and tokens[behind].terminal != "RPAR":
            behind += 1
    said = tokens[behind : sentence.end]
    told = any(token.kind == "number" or token.terminal in (*_PARTS, *_FIGURES) for token in said)
    named = any(token.terminal == "WORD" and token.text[:1].isupper() for token in said)
    return at if tokens[at + 1].terminal == "IRON" and len(said) > 2 and not (told or named) else -1


def _by_number(tokens: list[Token], start: int, end: int) -> list[tuple[int, int]]:
    """The clubs of "the three and the four went to the scrap man": numbers behind "the", with no unit behind."""
    found: list[tuple[int, int]] = []
    for at in range(start + 1, end - 1):
        value = tokens[at].value if tokens[at].terminal == "NUM" else None
        led = tokens[at - 1].lower in _POINTING
        joined = bool(found) and tokens[at - 1].terminal in ("AND", "COMMA") and at - found[-1][1] <= 1
        number = isinstance(value, float) and (value in range(2, 10) or 46 <= value <= 64)
        led = led or (tokens[at - 1].lower in _OLD and tokens[at - 2].lower in _POINTING)
        if isinstance(value, float) and led and tokens[at + 1].lower == "degree" and value > 45:
            found.append((at, at + 2))  # "the old sixty degree"
            continue
        if number and (led or joined) and tokens[at + 1].terminal in ("AND", "COMMA", "WORD", "SILENT", "EQ", "ASIDE"):
            found.append((at, at + 1))
    return found


def _was_old(tokens: list[Token], sentence: _Sentence) -> int:
    """ "My old driver was forty-six", "the old ones were 52", "the demo driver was 46": told in the past."""
    for at in range(sentence.start + 1, sentence.end - 2):
        if tokens[at].lower not in _OLD | words_of("lent") or tokens[at - 1].lower not in _OWNERS - {"a", "of"}:
            continue
        club = next((end for start, end in sentence.clubs if 0 < start - at <= 3), 0)
        club = club or (at + 2 if tokens[at + 1].lower in _ONES else 0)
        if club and any(token.lower in ("was", "were", "had") for token in tokens[club : min(club + 5, sentence.end)]):
            return at
    return -1


def _given_to(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The three and the four went to the scrap man", "the 5 wood I gave to a friend": a club that somebody gets."""
    clubs = (*sentence.clubs, *sentence.numbers)
    for at in range(sentence.start + 1, sentence.end - 2):
        verb = tokens[at].lower.split(" ")
        if verb[0] not in words_of("given"):
            continue
        if any(0 < club[0] - at <= 3 and tokens[club[1]].lower == "to" for club in sentence.clubs):
            club = next(club for club in sentence.clubs if club[0] > at)
            if verb[0] in words_of("gave") and _somebody(tokens, club[1] + 1):
                return at  # "I gave the 5 wood to my nephew"
        if not (verb[1:] == ["to"] or tokens[at + 1].lower == "to"):
            continue
        who = at + 2 - (verb[1:] == ["to"])
        if who + 1 >= sentence.end or tokens[who].lower not in _OWNERS - {"of"}:
            continue
        got = tokens[who + 1 : min(who + 3, sentence.end)]
        plain = all(token.terminal in ("WORD", "SILENT", "HYPHEN") and not token.text[:1].isupper() for token in got)
        told = [club for club in clubs if club[1] <= at]
        between = tokens[told[-1][1] : at] if told else []
        theirs = _THEY if verb[0] not in words_of("gave") else set()  # "the 5 wood I have given to": the club is given
        parted = any(token.kind == "number" or token.terminal in _PARTS or token.lower in theirs for token in between)
        if (plain or _somebody(tokens, who)) and told and not parted:
            return at
    return -1


def _for_another(tokens: list[Token], sentence: _Sentence) -> int:
    """ "That seven wood's for the coach", "the 9 wood on the bench belongs to Mrs Creel", "the 60 isn't his"."""
    for at in range(sentence.start + 1, sentence.end):
        word = tokens[at].lower
        clubs = [club for club in sentence.clubs if club[1] <= at]
        if not clubs:
            continue
        near = at - clubs[-1][1] <= 6 and not any(
            token.kind == "number" or token.terminal in _PARTS for token in tokens[clubs[-1][1] : at]
        )
        that = tokens[sentence.start].lower in _ITS or [
            token.lower for token in tokens[sentence.start : sentence.start + 2]
        ] == ["that", "is"]
        linked = that or tokens[at - 1].lower in _STANDS or tokens[at - 1].text.endswith(("'s", "’s"))
        given = word == "for" and linked and near and at + 2 < sentence.end
        if given and _somebody(tokens, at + 1):
            return at
        if word.startswith("belong") and near and _somebody(tokens, at + 1 + (word.split(" ")[1:] != ["to"])):
            return at
        owned = tokens[at].text.replace("’", "'").lower()
        kin = owned.removesuffix("'s") if owned.endswith("'s") else owned.removesuffix("s")
        closed = (
            at + 1 >= sentence.end
            or tokens[at + 1].kind in ("mark", "newline")
            or tokens[at + 1].lower in ("so", "and")
        )
        whose = kin != owned and tokens[at - 1].lower in _OWNERS and tokens[at - 2].lower in _ITS
        if whose and closed and kin in RELATED | KIN | words_of("others"):
            return at  # "the 9 wood is her sister's", "its my cousins"
        if word == "with" and (linked or tokens[at - 1].lower in _ITS) and near and _somebody(tokens, at + 1):
            return at  # "the Burr 3 wood is with my brother now"
        came = word in ("from", "borrowed") and linked and near
        if came and _somebody(tokens, at + 1 + (word == "borrowed")):
            return at  # "the nine wood in here is from her husband"
        mine = at + 1 < sentence.end and tokens[at + 1].lower in _HIS
        if word in ("not", "isn't", "isnt", "aren't", "arent") and mine and (near or tokens[at - 1].lower == "so"):
            return at
    return -1


def _somebody(tokens: list[Token], at: int) -> bool:
    """True for "Mrs Creel", "my brother": a title, or a person told by what he is to somebody."""
    who = [token.lower.removesuffix("'s") for token in tokens[at : at + 2]]
    others = RELATED | KIN | words_of("others")
    return bool(who) and (who[0] in TITLES | KIN or (who[0] in _OWNERS and who[-1] in others))


def _let_be(tokens: list[Token], sentence: _Sentence) -> int:
    """ "Don't bother with the old sixty degree", "no need to count the 7 wood", "ignore the demo 5 hybrid"."""
    for at in range(sentence.start, sentence.end - 1):
        words = [token.lower.replace("’", "'") for token in tokens[at : at + 3]]
        told = words[0] in ("don't", "dont", "never") or words[:2] in (["do", "not"], ["no", "need"])
        verb = at + 1 + (words[1] in ("not", "need")) + (words[1:3] in (["need", "to"], ["not", "to"]))
        refused = told and verb < sentence.end and tokens[verb].lower.split(" ")[0] in words_of("counted")
        if not refused and words[0] not in words_of("ignored"):
            continue
        first = verb if refused else at
        pointed = first + 1 < sentence.end and tokens[first + 1].lower in ("that", "it", "those", "them", "this")
        if pointed and any(club[1] <= at for club in sentence.clubs):
            return at  # "the nine wood is in here too so skip that"
        if any(0 < club[0] - first <= 5 for club in (*sentence.clubs, *sentence.numbers)):
            return at
    return -1


def _lent(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The demo 7 wood you borrowed can come back whenever", "the loaner 58 goes back": a club of the shop's."""
    back = words_of("back")
    for at in range(sentence.start + 1, sentence.end - 1):
        me = tokens[at].lower in ("lending", "lent", "lend") and tokens[at + 1].lower in ("me", "us", "him", "her")
        if me and any(0 < club[0] - at <= 5 for club in sentence.clubs):
            return at  # "thanks for lending me your Burr driver"
        lent = tokens[at].lower in words_of("lent") and tokens[at - 1].lower in (*_POINTING, "a")
        near = any(0 < club[0] - at <= 3 for club in (*sentence.clubs, *sentence.numbers))
        near = near or tokens[at + 1].kind == "number"
        if lent and near and any(token.lower in back for token in tokens[at + 1 : sentence.end]):
            return at
    return -1


def _for_show(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The old brassie over the fireplace is for show": a thing without a figure, where no club is played from."""
    told = tokens[sentence.start : sentence.end]
    if any(token.kind == "number" or token.terminal in _FIGURES for token in told):
        return -1
    for at in range(sentence.start + 1, sentence.end - 3):
        named = tokens[at].lower in _OLD and tokens[at - 1].lower in _OWNERS and tokens[at + 1].terminal == "WORD"
        put = [place for place in range(at + 2, min(at + 5, sentence.end)) if tokens[place].lower in _IN]
        if named and put and any(token.lower in words_of("places") for token in tokens[put[0] : put[0] + 4]):
            return at
    return -1


def _second_of_one(tokens: list[Token], sentence: _Sentence) -> int:
    """ "A second putter, 33 in., came in the same bag": a set has one driver and one putter, and it is told besides."""
    for at, _end in sentence.clubs:
        kind = tokens[at].terminal
        second = kind in ("PUTTER", "DRIVER") and tokens[at - 1].lower in ("second", "another")
        near = (
            *tokens[max(0, sentence.start - CLAUSE) : sentence.start],
            *tokens[sentence.end : sentence.end + CLAUSE],
        )
        if second and any(token.terminal == kind for token in near):
            return at - 1
    return -1


def _subject_before(tokens: list[Token], sentence: _Sentence, at: int) -> bool:
    """True where a club, and none of its parts, is what the word at `at` is said of."""
    before = [club for club in sentence.clubs if club[1] <= at]
    return bool(before) and not any(token.terminal in _PARTS for token in tokens[before[-1][1] : at])


def _lies_elsewhere(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The 3 wood sits in a box in the office", "leave the old putter in the rack"."""
    for at in range(sentence.start, sentence.end - 1):
        if tokens[at].lower not in _IN or tokens[at].terminal == "ASIDE":
            continue
        near = tokens[at + 1 : min(at + 7, sentence.end)]
        stop = next((at for at, token in enumerate(near) if token.kind != "word" and token.text != "-"), len(near))
        if not any(token.lower in words_of("places") for token in near[:stop]) and not _in_anothers_bag(near[:stop]):
            continue
        lies = [place for place in range(sentence.start, at) if tokens[place].lower in words_of("lies")]
        lies = [place for place in lies if at - place <= 6]
        for place in reversed(lies):
            led = any(place < club[0] and club[1] <= at for club in sentence.clubs)
            linking = tokens[place].lower in ("is", "are", "was", "were")
            if (led and not linking) or (at - place <= 2 and _subject_before(tokens, sentence, place)):
                return place
        if any(club[1] == at for club in sentence.clubs) and tokens[at - 1].text.endswith(("'s", "’s")):
            return at  # "my 3 wood's at the shop"
    return -1


def _in_anothers_bag(near: list[Token]) -> bool:
    """True for "her brother's bag", "my dads set"."""
    for owner, owned in pairwise(near):
        who = owner.lower.replace("’", "'")
        if owned.lower in ("bag", "set", "car") and (who[:-2] if who.endswith("'s") else who[:-1]) in RELATED | KIN:
            return True
    return False


def _broke(tokens: list[Token], sentence: _Sentence) -> int:
    """ "He had a 9 iron but it snapped in March", "the 60 got stolen", "snapped my old 3 wood"."""
    for at in range(sentence.start, sentence.end - 1):
        if tokens[at].lower not in words_of("broke"):
            continue
        owned = tokens[at + 1].lower in _POINTING and any(0 < club[0] - at <= 5 for club in sentence.clubs)
        if owned or _subject_before(tokens, sentence, at):
            return at
    return -1


def _asked_to_try(tokens: list[Token], sentence: _Sentence) -> int:
    """ "My caddie keeps asking me to try her Chough 3 wood"."""
    for at in range(sentence.start, sentence.end - 3):
        words = [token.lower for token in tokens[at : at + 4]]
        asked = words[0] in words_of("wishes") and words[2] == "to" and words[3] in words_of("tries")
        if asked and any(club[0] > at for club in sentence.clubs):
            return at
    return -1


def _owned_before(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The Merlin 3 wood he came in with", "irons he had before", "had a 7 wood once", "before I had a 7 wood"."""
    opening = [token.lower for token in tokens[sentence.start : sentence.start + 5] if token.terminal == "SILENT"]
    if opening[:1] == ["before"] and (had := next((step for step, word in enumerate(opening) if word == "had"), 0)):
        place = next(at for at in range(sentence.start, sentence.end) if tokens[at].lower == "had")
        if opening[had - 1] in _THEY and any(0 < club[0] - place <= 4 for club in sentence.clubs):
            return place
    for at in range(sentence.start, sentence.end - 1):
        if tokens[at].lower not in words_of("owned"):
            continue
        close = next((end for start, end in sentence.clubs if 0 < start - at <= 4), sentence.end)
        once = [token.lower for token in tokens[close : min(close + 2, sentence.end + 1)]]
        ends = once[:1] == ["once"] and tokens[close + 1].kind in ("mark", "newline")
        if ends and tokens[at].lower in ("had", "owned", "played"):
            return at
        behind = [token.lower for token in tokens[at + 1 : at + 4]]
        told = bool(set(behind[:1]) & words_of("earlier")) or behind[:2] == ["in", "with"] or behind[:1] == ["with"]
        led = tokens[at - 1].lower in _THEY and any(0 <= at - 1 - club[1] <= 4 for club in sentence.clubs)
        if told and led and (behind[:1] != ["with"] or tokens[at].lower in ("came", "arrived")):
            return at
    return -1


def _not_yet(tokens: list[Token], sentence: _Sentence) -> int:
    """ "A Kestrel 7 wood is on its way", "the 4 iron comes later"."""
    for at in range(sentence.start, sentence.end - 1):
        words = [token.lower for token in tokens[at : min(at + 3, sentence.end)]]
        gone = words[:1] == ["went"] and words[1:2] in ([","], [";"], ["and"], ["away"], ["out"])
        if gone and any(club[1] == at for club in sentence.clubs):
            return at  # "the 5w went, I now have a 4w"
        later = words[:2] in _NEXT and words[2:] and words[2] in _TIMES
        if (later or words in _NOT_YET or words[:2] in _NOT_YET) and _subject_before(tokens, sentence, at):
            return at + 1
    return -1


def _tried_but(tokens: list[Token], sentence: _Sentence) -> int:
    """ "We hit a Merlin 3 wood too but it spun too much"."""
    opened = next((at for at in range(sentence.start, sentence.end) if tokens[at].lower in ("hit", "swung")), -1)
    if opened < 1 or tokens[opened - 1].lower not in (*_THEY, "also", "did"):
        return -1
    clubs = [club for club in sentence.clubs if club[0] > opened]
    but = next((at for at in range(opened, sentence.end) if tokens[at].lower == "but"), -1)
    return opened if but > 0 and clubs and clubs[-1][1] <= but else -1


def _had_but(tokens: list[Token], sentence: _Sentence) -> int:
    """ "I had a 5 hybrid there, a Plover, but it hooked"."""
    for at in range(sentence.start + 1, sentence.end):
        had = tokens[at].lower == "had" and tokens[at - 1].lower in ("i", "he", "she", "we", "they")
        clubs = [club for club in sentence.clubs if at < club[0] <= at + 5] if had else []
        if clubs and any(tokens[place].lower == "but" for place in range(clubs[-1][1], sentence.end)):
            return at
    return -1


def _phrased(tokens: list[Token], sentence: _Sentence) -> int:
    """ "She has her eye on a Merlin 7 wood", "the 5 wood had to go": a phrase close before the club, or behind it."""
    lower = [token.lower for token in tokens[sentence.start : sentence.end]]
    first, last = sentence.clubs[0][1], sentence.clubs[-1][0]
    for step, word in enumerate(lower):
        at = sentence.start + step
        for phrase in _phrases("before").get(word, ()) if at < last else ():
            end = at + len(phrase)
            told = lower[step : step + len(phrase)] == phrase
            if told and any(0 <= club[0] - end <= 3 for club in sentence.clubs):
                return at
        for phrase in _phrases("behind").get(word, ()) if at >= first else ():
            if lower[step : step + len(phrase)] == phrase:
                return at
    return -1


def _newer_one(tokens: list[Token], sentence: _Sentence) -> int:
    """ "The newer Redpoll launches higher", "the newer one launches higher": not carried, told only to compare it."""
    start = sentence.start + (tokens[sentence.start].lower in ("now", "but", "and", "so"))
    opens = (at for at in range(start, sentence.end) if at == start or tokens[at - 1].terminal == "COMMA")
    newer = (["the", "newer"], ["the", "latest"], ["the", "new"], ["the", "next"])
    at = next((at for at in opens if [token.lower for token in tokens[at : at + 2]] in newer), -1)
    name = at + 2
    if at < 0:
        at, name = sentence.start - 1, sentence.start + 1
        named = name < sentence.end and tokens[name].terminal == "WORD" and tokens[name].text[:1].isupper()
        if not named or tokens[name - 1].lower != "the" or sum(one.text == tokens[name].text for one in tokens) > 1:
            return -1  # "the Redpoll launches higher", of which the list tells nothing else
    while name < sentence.end and tokens[name].terminal in _NAMING and not tokens[name].text[:1].islower():
        name += 1
    name += name == at + 2 and name < sentence.end and tokens[name].lower in ("one", "model", "version")
    said = tokens[name : min(name + 5, sentence.end)]
    more = any((len(token.text) > 4 and token.lower.endswith("er")) or token.lower in _MORE for token in said)
    figured = any(
        (token.kind == "number" and not token.text.istitle()) or token.terminal in _FIGURES
        for token in tokens[name : sentence.end]
    )
    verb = said[0].lower if said else ""
    return at + 1 if name > at + 2 and more and not figured and verb.endswith("s") else -1


def _last_years(tokens: list[Token], sentence: _Sentence) -> int:
    """ "Last year's Redpoll spun four hundred more": a model told of as it was, by its name alone."""
    words = " ".join(token.lower.replace("’", "'") for token in tokens[sentence.start : sentence.start + 2])
    name = sentence.start + (2 if tokens[sentence.start].lower == "last" else 1)
    led = words.startswith(("last year's", "last season's")) and name + 1 < sentence.end
    if not led or not tokens[name].text[:1].isupper():
        return -1
    verb = next((at for at in range(name, sentence.end) if tokens[at].text.islower()), sentence.end - 1)
    past = tokens[verb].lower.endswith("ed") or tokens[verb].lower in _WENT
    return sentence.start if past else -1
