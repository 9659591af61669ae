"""Sentences that tell of a club outside the set: it lies elsewhere, somebody else has it, it broke, it was before.

What says so is put together from the words of `data/elsewhere.toml`; the word that tells it is marked, and what is
kept aside with it is settled as for every other such word (`asides`).
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from importlib import resources
from typing import NamedTuple

from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import phrase_at
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import KIN

_NAMES = ("club", "named", "span", "family", "dashed")
_OWNERS = {"my", "his", "her", "our", "their", "the", "a", "your", "of"}
_PARTS = {"SHAFTWORD", "GRIPWORD", "SLEEVE", "WEIGHT", "LENGTH", "LOFT", "LIE"}
_FIGURES = {"DEG", "GRAM", "INCH", "FLEX", "FLEXCODE", "SWV", "MM", "CM"}
_NAMING = ("WORD", "LETTER", "SWV")
_IN = {"in", "at", "on", "under", "behind", "inside", "by", "at the", "into", "over", "above"}
_STANDS = {"is", "are", "now", "stays", "lives", "rests"}
_THEY = {"he", "she", "i", "they", "we", "it", "you"}
_NOT_YET = (
    ["on", "its", "way"], ["on", "their", "way"], ["on", "the", "way"], ["here", "yet"], ["come", "yet"],
    ["arrived", "yet"], ["comes", "later"], ["come", "later"], ["coming", "later"], ["follows", "later"],
    ["comes", "soon"], ["coming", "soon"],
)  # fmt: skip
_NEXT = (["comes", "next"], ["coming", "next"], ["arrives", "next"])  # and a time: "comes next" alone goes on
_TIMES = {"week", "month", "year", "season", "time", "spring", "summer", "autumn", "fall", "winter"}


class _Sentence(NamedTuple):
    """Where a sentence begins and ends, the clubs told of in it but for those that label a line, if any is named."""

    start: int
    end: int
    clubs: list[tuple[int, int]]
    named: bool


@cache
def _tables() -> dict[str, str | list[str]]:
    text = resources.files("asplayed.intake").joinpath("data/elsewhere.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


@cache
def words_of(sort: str) -> frozenset[str]:
    """The words of one sort."""
    return frozenset(str(_tables()[sort]).split())


@cache
def _phrases(sort: str) -> dict[str, list[list[str]]]:
    """The phrases of one sort, by their first word."""
    found: dict[str, list[list[str]]] = {}
    for words in map(str.split, _tables()[sort]):
        found.setdefault(words[0], []).append(words)
    return found


def mark_elsewhere(scene: Scene) -> None:
    """Mark the word by which a sentence tells of a club outside the set, behind the first sentence that names one."""
    tokens, known = scene.tokens, False
    for sentence in _sentences(scene):
        if known:
            at = _told_at(tokens, sentence)
            if at >= 0 and not any(token.terminal == "ASIDE" for token in tokens[sentence.start : sentence.end]):
                tokens[at].terminal = "ASIDE"
        known = known or sentence.named


def _sentences(scene: Scene) -> Iterator[_Sentence]:
    """The sentences of the list, with the clubs of which nothing is settled yet."""
    tokens, start = scene.tokens, 0
    while start < len(tokens):
        end = scene.clause_end(start)
        clubs, at, named = [], start, False
        while at < end:
            phrase = phrase_at(tokens, at) if not scene.claims[at] else None
            if phrase is not None and phrase.rule in _NAMES:
                named = True
                if phrase.end >= end or tokens[phrase.end].text != ":":
                    clubs.append((at, phrase.end))
            at = at + 1 if phrase is None else phrase.end
        yield _Sentence(start, end, clubs, named)
        start = end + 1


def _told_at(tokens: list[Token], sentence: _Sentence) -> int:
    """The place of the word that tells it; -1 where the sentence tells of no club outside the set."""
    if not sentence.clubs:
        return _newer_one(tokens, sentence)
    for test in (
        _second_putter,
        _lies_elsewhere,
        _broke,
        _asked_to_try,
        _owned_before,
        _not_yet,
        _tried_but,
        _had_but,
        _phrased,
    ):
        at = test(tokens, sentence)
        if at >= 0:
            return at
    return -1


def _second_putter(tokens: list[Token], sentence: _Sentence) -> int:
    """ "A second putter, 33 in., came in the same bag": a set has one, and it is told before."""
    for at, _end in sentence.clubs:
        second = tokens[at].terminal == "PUTTER" and tokens[at - 1].lower in ("second", "another")
        if second and any(token.terminal == "PUTTER" for token in tokens[max(0, sentence.start - CLAUSE) : at]):
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
        stop = next((step for step, token in enumerate(near) if token.kind != "word"), len(near))
        if not any(token.lower in words_of("places") for token in near[:stop]):
            continue
        lies = [place for place in range(sentence.start, at) if tokens[place].lower in words_of("lies")]
        lies = [place for place in lies if at - place <= 6]
        for place in reversed(lies):
            led = any(place < club[0] and club[1] <= at for club in sentence.clubs)
            linking = tokens[place].lower in ("is", "are", "was", "were")
            if (led and not linking) or (at - place <= 2 and _subject_before(tokens, sentence, place)):
                return place
    return -1


def _broke(tokens: list[Token], sentence: _Sentence) -> int:
    """ "He had a 9 iron but it snapped in March", "the 60 got stolen"."""
    for at in range(sentence.start, sentence.end):
        if tokens[at].lower in words_of("broke") and _subject_before(tokens, sentence, at):
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
        gone = words[:1] == ["went"] and words[1:2] in ([","], [";"], ["and"], ["away"])
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
    """ "The newer Redpoll launches higher but it is loud": a model not carried, told only to compare it."""
    at = sentence.start
    led = [token.lower for token in tokens[at : at + 2]]
    if led[:1] != ["the"] or led[1:] not in (["newer"], ["latest"], ["new"], ["next"]):
        return -1
    name = at + 2
    while (
        name < sentence.end and tokens[name].terminal in ("WORD", "LETTER", "SWV") and tokens[name].text[:1].isupper()
    ):
        name += 1
    said = tokens[name : min(name + 5, sentence.end)]
    more = any(len(token.text) > 4 and token.lower.endswith("er") for token in said)
    figured = any(token.kind == "number" or token.terminal in _FIGURES for token in tokens[name : sentence.end])
    verb = said[0].lower if said else ""
    return at + 1 if name > at + 2 and more and not figured and verb.endswith("s") else -1
