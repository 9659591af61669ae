"""Which language a list is in, as far as it takes to say plainly that lists are read in English."""

from __future__ import annotations

import re
from functools import cache

from asplayed.intake.own_tables import own_table

_WORD = re.compile(r"[^\W\d_]+")
_ENOUGH = 5  # small words of another language that a list must have before it is called foreign …
_SHARE = 0.15  # … and the share of all its words that they must be


@cache
def _small_words() -> dict[str, frozenset[str]]:
    return {language: frozenset(words.split()) for language, words in own_table("other_languages").items()}


def other_language(text: str) -> str | None:
    """The language a text is in when that is plainly not English, by its small words or its script; else None.

    >>> other_language("Hier ist die Liste von Ada: Driver mit 10,5 Grad, die Eisen mit dem Schaft und der Putter")
    'German'
    >>> other_language("driver 10.5, Ember 60 X, the irons are standard") is None
    True
    """
    words = [word.casefold() for word in _WORD.findall(text[:20_000])]
    if len(words) < _ENOUGH:
        return None
    # Greek letters stand in English text as signs (µ, Δ); other scripts do not stand for an English word.
    strange = sum(ord(word[0]) > 0x3FF and not 0x1E00 <= ord(word[0]) <= 0x2FFF for word in words)
    if strange > len(words) / 2:
        return "another script"
    counts = {language: sum(word in small for word in words) for language, small in _small_words().items()}
    language, count = max(counts.items(), key=lambda item: item[1])
    return language if count >= _ENOUGH and count >= _SHARE * len(words) else None
