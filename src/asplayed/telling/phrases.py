"""Sentences from patterns: filled once as printed and once as said, and taken in turn so that none is worn out."""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any, Literal, NamedTuple

from asplayed.quantities import Figure, Source
from asplayed.telling.aloud import aloud
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

    @property
    def verified(self) -> bool:
        """True when every figure in it was gauged."""
        return all(figure.weakest is Source.MEASURED for _, figure in self.figures)


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

    def say(self, topic: str, group: str = "say", /, **slots: str | tuple[str, Figure]) -> Sentence:
        """One sentence: a slot is text, or a figure with its trade name, printed with its unit and said aloud."""
        turn = self._taken[group + topic]
        self._taken[group + topic] += 1
        patterns = table()[group][topic]
        again = table()[group].get(f"{topic}-again")
        if again and turn >= _FULLY:
            patterns, turn = again, turn - _FULLY
        pattern = spelled(patterns[turn % len(patterns)], self.spelling)
        printed: dict[str, str] = {}
        said: dict[str, str] = {}
        figures = []
        for name, slot in slots.items():
            if isinstance(slot, str):
                printed[name] = said[name] = clean(slot)
                continue
            figures.append(slot)
            printed[name] = value_text(slot[1])
            said[name] = spelled(aloud(printed[name]), self.spelling)
        return Sentence(topic, _filled(pattern, printed), _filled(pattern, said), tuple(figures))


def _filled(pattern: str, slots: Mapping[str, str]) -> str:
    """The pattern with its slots filled; one that opens the sentence, or is written {Large}, begins large."""
    full = {**slots, **{name.capitalize(): _large(value) for name, value in slots.items()}}
    return _large(pattern.format_map(full))


def _large(words: str) -> str:
    return words[:1].upper() + words[1:]


def hedge(figure: Figure) -> str:
    """How sure a figure is, in the words of its source.

    >>> from asplayed.quantities import figure
    >>> hedge(figure(56, "deg", "stated"))
    'stated, not gauged'
    """
    loosely = figure.source is Source.COMPUTED and figure.weakest.rank > Source.COMPUTED.rank
    words: str = table()["hedge"]["loosely" if loosely else figure.source.value]
    return words
