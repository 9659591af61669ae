"""Sentences from patterns: filled once as printed and once as said, and taken in turn so that none is worn out."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Mapping
from functools import cache
from importlib import resources
from string import Formatter
from typing import Any, Literal, NamedTuple

from asplayed.quantities import Figure, Source
from asplayed.telling.aloud import aloud, pieces_aloud
from asplayed.telling.words import clean, value_text

Spelling = Literal["british", "american"]
_FULLY = 2  # how often the same thing is told at length in one set, where there is a shorter way to say it again


@cache
def table() -> Mapping[str, Any]:
    """The patterns of `data/phrases.toml`."""
    return tomllib.loads(resources.files("asplayed.telling").joinpath("data/phrases.toml").read_text(encoding="utf-8"))


class Sentence(NamedTuple):
    """A sentence as printed and as said, what it tells, and the figures in it by their trade name."""

    topic: str
    text: str
    said: str
    figures: tuple[tuple[str, Figure], ...] = ()
    pieces: tuple[tuple[str, str], ...] = ()
    """The words to be said, in pieces, each with the figure it stands for or nothing."""

    @property
    def verified(self) -> bool:
        """True when every figure in it was gauged; a count of players has nothing to gauge."""
        return all(figure.weakest is Source.MEASURED or figure.unit == "1" for _, figure in self.figures)


def spelled(words: str, spelling: Spelling) -> str:
    """Our own words in the spelling asked for; they are written in the British one. The names of slots are kept.

    >>> spelled("The colour of the centre: {colour}", "american")
    'The color of the center: {colour}'
    """
    if spelling == "british":
        return words
    american: Mapping[str, str] = table()["spelling"]["american"]

    def change(found: re.Match[str]) -> str:
        word = found[0]
        other = american.get(word.lower(), word)
        return other[0].upper() + other[1:] if word[0].isupper() else other

    return re.sub(r"(?<!\{)\b[A-Za-z]+", change, words)


class Spoken(NamedTuple):
    """Words that are printed one way and said another."""

    printed: str
    said: str


def plain_sentence(topic: str, text: str, spelling: Spelling) -> Sentence:
    """A sentence that stands already, with its figures said aloud.

    >>> plain_sentence("changes", "It is 6.5° stronger.", "british").said
    'It is six and a half degrees stronger.'
    """
    pieces = tuple((spelled(said, spelling) if figure else said, figure) for said, figure in pieces_aloud(clean(text)))
    return Sentence(topic, clean(text), "".join(said for said, _ in pieces), (), pieces)


class Words:
    """The patterns taken in turn through one set: the n-th sentence about a topic takes the n-th way to say it.

    >>> words = Words("british")
    >>> one, other = words.say("what-nothing", club="driver"), words.say("what-nothing", club="3 wood")
    >>> one.text, other.text
    ('Nobody has named the head or the shaft of the driver.', 'The 3 wood is named without its head or its shaft.')
    """

    def __init__(self, spelling: Spelling) -> None:
        self.spelling = spelling
        self._taken: Counter[str] = Counter()

    def told(self, topic: str, group: str = "say") -> int:
        """How often a topic was told so far."""
        return self._taken[group + topic]

    def say(self, topic: str, group: str = "say", /, **slots: str | Spoken | tuple[str, Figure]) -> Sentence:
        """One sentence: a slot is text, or a figure with its trade name, printed with its unit and said aloud."""
        turn = self._taken[group + topic]
        self._taken[group + topic] += 1
        patterns = table()[group][topic]
        again = table()[group].get(f"{topic}-again")
        if again and turn >= _FULLY:
            patterns, turn = again, turn - _FULLY
        pattern = spelled(patterns[turn % len(patterns)], self.spelling)
        figures = tuple(slot for slot in slots.values() if not isinstance(slot, str | Spoken))
        pieces = _filled(pattern, {name: self._slot(slot) for name, slot in slots.items()})
        text, said = ("".join(each[way] for each in pieces) for way in (0, 1))
        return Sentence(topic, text, said, figures, tuple((words, figure) for _, words, figure in pieces))

    def _slot(self, slot: str | Spoken | tuple[str, Figure]) -> _Pieces:
        if isinstance(slot, Spoken):
            return ((clean(slot.printed), clean(slot.said), ""),)
        if isinstance(slot, str):
            return tuple(
                (figure or said, spelled(said, self.spelling) if figure else said, figure)
                for said, figure in pieces_aloud(clean(slot))
            )
        printed = value_text(slot[1])
        return ((printed, spelled(aloud(printed), self.spelling), printed if slot[1].unit != "1" else ""),)


_Pieces = tuple[tuple[str, str, str], ...]
"""Words in pieces: as printed, as said, and the figure they stand for or nothing."""


def _filled(pattern: str, slots: Mapping[str, _Pieces]) -> _Pieces:
    """The pattern with its slots filled; one that opens the sentence, or is written {Large}, begins large."""
    found: list[tuple[str, str, str]] = []
    for literal, field, _, _ in Formatter().parse(pattern):
        found.append((literal, literal, ""))
        if field:
            name = field[0].lower() + field[1:]
            found += slots[name] if name == field else _large(slots[name])
    return _large(tuple(piece for piece in found if piece[0]))


def _large(pieces: _Pieces) -> _Pieces:
    if not pieces:
        return ()
    printed, said, figure = pieces[0]
    return ((printed[:1].upper() + printed[1:], said[:1].upper() + said[1:], figure), *pieces[1:])


def hedge(figure: Figure) -> str:
    """How sure a figure is, in the words of its source.

    >>> from asplayed.quantities import figure
    >>> hedge(figure(56, "deg", "stated"))
    'stated, not gauged'
    """
    loosely = figure.source is Source.COMPUTED and figure.weakest.rank > Source.COMPUTED.rank
    words: str = table()["hedge"]["loosely" if loosely else figure.source.value]
    return words
