"""Sentences that tell of no club of the set: they compare, remember, or say of another club what becomes of it.

Each is a pattern of `data/elsewhere.toml`: words, `(one|or another)`, `[if it stands]`, and in capitals NAME, CLUB,
KIN (what is a relative's or a friend's), PLACE, WHO; `~` passes over up to six words, `$` is the sentence's end. What
stands behind a pattern is taken too.
"""

from __future__ import annotations

from functools import cache
from itertools import pairwise
from typing import NamedTuple

from asplayed.intake.elsewhere import words_of
from asplayed.intake.groups import FAMILIES
from asplayed.intake.own_tables import own_table
from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import CLUBS_NAMED, Phrase, phrase_at, says
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import KIN

_FIGURES = {"DEG", "GRAM", "INCH", "FLEX", "FLEXCODE", "SWV", "MM", "CM"}
_PASSED_OVER = 6
_LONGEST = 60  # tokens of such a sentence that are looked at
_LONGEST_NAME = 4
_PARTING = ("COMMA", "LPAR", "DASH")
_SINCE = {"since", "from", "in", "until", "from about"}
_TURNS = {"but", "so", "and", "now"}
_WHO = {"i", "he", "she", "we", "they", "you", "i've", "he's", "she's", "we've"}

Pattern = tuple[tuple[str, ...], ...]


class _Said(NamedTuple):
    """The words of a sentence, each with the place of its token."""

    tokens: list[Token]
    words: list[tuple[str, int]]


def set_passing_words_aside(scene: Scene) -> None:
    """Keep aside each such sentence of a list that names clubs in other sentences."""
    tokens = scene.tokens
    ends = [-1, *(at for at, token in enumerate(tokens) if token.terminal in ("STOP", "NEWLINE")), len(tokens)]
    spans = [(start + 1, end) for start, end in pairwise(ends) if end > start + 3]
    naming = [span for span in spans if says(tokens, *span, CLUBS_NAMED)]
    for start, end in spans if naming else ():
        if naming == [(start, end)]:
            continue
        for opening in _openings(tokens, start, end):
            close = min(end, opening + _LONGEST)
            behind = _behind(tokens, opening, close) if not scene.claims[opening] else 0
            stop = _turn(tokens, opening, behind, close) if behind else opening
            if behind and not any(token.terminal in _FIGURES for token in tokens[behind:stop]):
                scene.set_aside(opening, end if stop == close else stop, yielding=True)
                break


def _openings(tokens: list[Token], start: int, end: int) -> list[int]:
    """Where in a sentence such words can begin: at its head, behind its first words, behind a comma."""
    parted = [at + 1 for at in range(start, end) if tokens[at].terminal in _PARTING or tokens[at].text == ":"]
    behind = [at + (at < end and tokens[at].lower in _TURNS) for at in parted]  # "…, and the blade stays at home"
    led = start
    while led < end and (tokens[led].kind == "mark" or tokens[led].lower in _TURNS):
        led += 1
    if led + 1 < end and tokens[led].lower in _SINCE and tokens[led + 1].text[:1].isupper():
        led += 2  # "Since July the 5 wood has gone out"
    return [place for place in dict.fromkeys((start, led, *behind)) if place < end]


def _behind(tokens: list[Token], at: int, end: int) -> int:
    """The place behind the words of the first pattern that is read at `at`; 0 for none."""
    first = tokens[at].lower.split(" ")[0]
    patterns = _patterns().get(first, ())
    if not patterns:
        return 0
    said = [(word, place) for place in range(at, end) for word in tokens[place].lower.split()]
    matched = (_matched(pattern, _Said(tokens, said), 0) for pattern in patterns)
    last = next((words for words in matched if words > 0), 0)
    return said[last - 1][1] + 1 if last else 0


def _turn(tokens: list[Token], at: int, behind: int, end: int) -> int:
    """Where what is said in passing ends: with its bracket, or before what tells of a club again behind a comma.

    "The new one launches higher, but this is the Gannet in thirteen and a half": the comma.
    """
    inside = 0
    for place in range(behind, end):
        inside += (tokens[place].terminal == "LPAR") - (tokens[place].terminal == "RPAR")
        if inside < 0 and tokens[at - 1].terminal == "LPAR":
            return place
        if tokens[place].text == "," and inside < 1 and any(map(_tells, tokens[place:end])):
            named = any(token.terminal in FAMILIES for token in tokens[at:place])
            other = any(token.terminal in FAMILIES for token in tokens[place:end])
            return place if other or not named else end  # what stands behind is of the club named before the comma
    return end


def _tells(token: Token) -> bool:
    return token.kind == "number" or token.terminal in _FIGURES | FAMILIES.keys()


@cache
def _patterns() -> dict[str, list[Pattern]]:
    """The patterns by the words that each can begin with."""
    found: dict[str, list[Pattern]] = {}
    for way in own_table("elsewhere")["sentences"]:
        parts = [
            part.strip("()").split("|") if part[0] != "[" else ["", *part[1:-1].split("|")] for part in way.split()
        ]
        for first in parts[0]:
            for word in _WHO if first == "WHO" else (first,):
                found.setdefault(word, []).append(tuple(map(tuple, parts)))
    return found


def _matched(pattern: Pattern, said: _Said, at: int) -> int:
    """Behind which word what is said from `at` on has read as the pattern says; -1 where it reads otherwise."""
    if not pattern:
        return at
    head, rest = pattern[0], pattern[1:]
    if head == ("$",):
        return at if at == len(said.words) else -1
    if head == ("~",):
        places = list(range(at, min(at + _PASSED_OVER + 1, len(said.words))))
        figure = next((place for place in places if _figure(said.tokens[said.words[place][1]])), len(said.words))
        places = [place for place in places if place <= figure]  # "my driver is a Gannet 9 and I never change it"
    else:
        ends = {end for word in head if word for end in _ends(word, said, at)} if at < len(said.words) else set()
        places = sorted(ends, reverse=True) + [at] * ("" in head)
    return next((end for place in places if (end := _matched(rest, said, place)) >= 0), -1)


def _ends(word: str, said: _Said, at: int) -> list[int]:
    """Where this word of a pattern can end, in the words said from `at` on."""
    text, place = said.words[at]
    if word == "NAME":
        end = at
        while end < min(at + _LONGEST_NAME, len(said.words)) and _of_a_name(said.tokens[said.words[end][1]], end > at):
            end += 1
        return list(range(at + 1, end + 1))
    if word == "CLUB":
        phrase = phrase_at(said.tokens, place)
        if phrase is None or not (phrase.rule in CLUBS_NAMED or (phrase.rule == "bare" and _numbers(phrase))):
            return []
        return [next((index for index, (_, one) in enumerate(said.words) if one >= phrase.end), len(said.words))]
    if word == "KIN":
        owner = text.removesuffix("'s")
        return [at + 1] if owner != text and owner in RELATED | KIN | words_of("others") else []
    found = text in words_of("places") if word == "PLACE" else text in _WHO if word == "WHO" else text == word
    return [at + 1] if found else []


def _figure(token: Token) -> bool:
    """True for a number that can be a club's figure, and not for the half of "half an inch"."""
    return token.kind == "number" and isinstance(token.value, float) and token.value >= 2


def _of_a_name(token: Token, onward: bool) -> bool:
    """True for a capital word, and behind one for a number: "the Mistle 4"."""
    return token.text[:1].isupper() or (onward and token.text.isdigit())


def _numbers(phrase: Phrase) -> bool:
    """True for "the eight", "the sixty": a club by its number or its stamp."""
    return phrase.amounts[0].unit in ("", "deg") and not phrase.amounts[0].signed
