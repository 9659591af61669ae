"""The words of the trade as data: spellings, what they mean, and which misspellings are safe to mend."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib import resources
from itertools import product
from pathlib import Path
from typing import Any

from asplayed.errors import BadInput
from asplayed.intake.own_tables import own_table

_SAFE_TO_MEND = {
    "DRIVER", "MINIDRIVER", "HYBRID", "IRON", "WEDGE", "PUTTER", "CHIPPER", "DEG", "INCH", "GRAM", "WEAK", "UPRIGHT",
    "SLEEVE", "BOUNCE", "LENGTH", "TORQUE", "FLEX", "SHAFTWORD", "ASCENDING", "STD", "NECK", "NEUTRAL", "WEIGHT",
    "STRONG", "FREQUENCY", "LAUNCH", "TURNED",
}  # fmt: skip
_CHOICE = re.compile(r"\(([^()]*\|[^()]*)\)")
_LONG_RUN = re.compile(r"(.)\1{2,}")
_NOT_MENDED = {"chipped", "stuff", "stuffed",
    "weird", "bounced", "stack", "longest", "shirt", "stick", "flag", "paper", "moved", "week", "weeks",
    "grass", "ferry", "drover", "stork", "potter",
}  # fmt: skip
# Words of other languages, which an English name is sooner like ("Ferrow") than a slip of the pen.
_FOREIGN = {
    "legno", "legni", "madera", "maderas", "ibrido", "ibridi", "hibrido", "hibridos", "eisen", "eisensatz", "ferro",
    "ferri", "hierro", "hierros", "ijzer", "ijzers",
}  # fmt: skip

Ways = dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]]


class Vocabulary:
    """Spellings of one or more words, each with its terminal and its meaning."""

    def __init__(self, tables: list[dict[str, Any]], silent: frozenset[str]) -> None:
        self.silent = silent
        self.first: dict[str, list[tuple[tuple[str, ...], str, str]]] = {}
        entries: list[tuple[tuple[str, ...], str, str]] = []
        for table in reversed(tables):  # the user's own words come before the trade's
            for terminal, meanings in table.items():
                for meaning, spellings in meanings.items():
                    for spelling in (each for written in spellings for each in spelled_out(written)):
                        words = tuple(plain_words(spelling).split())
                        if words:
                            entries.append((words, terminal, meaning))
        for words, terminal, meaning in entries:
            self.first.setdefault(words[0], []).append((words, terminal, meaning))
        for group in self.first.values():
            group.sort(key=lambda entry: -len(entry[0]))
        self.mendable = {
            words[0]: (terminal, meaning)
            for words, terminal, meaning in entries
            if len(words) == 1 and len(words[0]) >= 5 and terminal in _SAFE_TO_MEND and words[0] not in _FOREIGN
        }
        self.bones: dict[str, tuple[str, str]] = {}
        for word, meaning in self.mendable.items():
            self.bones.setdefault(_bones(word), meaning)
        for words, terminal, meaning in entries:
            if len(words) == 1 and len(words[0]) == 4 and terminal in ("IRON", "GRIPWORD", "LOFT"):
                self.bones.setdefault(_bones(words[0]), (terminal, meaning))
        self.mend = lru_cache(maxsize=4096)(self._mend)

    def _mend(self, word: str) -> tuple[str, str] | None:
        if word in _NOT_MENDED or word in self.silent or word in self.mendable or not 3 <= len(word) <= 14:
            return None
        if word == _bones(word):
            return self.bones.get(word)  # "drvr", "wdg": a word of the trade without its vowels
        if _LONG_RUN.search(word):
            squeezed = _LONG_RUN.sub(r"\1\1", word)
            found = [entry for entry in self.first.get(squeezed, ()) if entry[0] == (squeezed,)]
            return (found[0][1], found[0][2]) if found else None  # "woood"
        if len(word) < 5:
            return None
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        alike = [known for known in self.mendable if known[0] == word[0]]  # nobody mistypes the first letter
        best = process.extractOne(word, alike, scorer=OSA.distance, score_cutoff=1)
        return self.mendable[best[0]] if best else None


def spelled_out(spelling: str) -> list[str]:
    """Every spelling that "(in|under) the (shed|bed)" stands for: each choice in each bracket."""
    choices = [part.split("|") if at % 2 else [part] for at, part in enumerate(_CHOICE.split(spelling))]
    return ["".join(parts) for parts in product(*choices)]


def by_first_word(told: Iterable[tuple[str, str]]) -> Ways:
    """Spellings with what they are read as, both word by word, by their first word; the longest first."""
    found: Ways = {}
    for spelling, plain in told:
        for way in (tuple(one.split()) for one in spelled_out(spelling)):
            found.setdefault(way[0], []).append((way, tuple(plain.split())))
    for ways in found.values():
        ways.sort(key=lambda entry: -len(entry[0]))
    return found


def _bones(word: str) -> str:
    """A word without its vowels but the first letter's own, and without doubled letters."""
    return re.sub(r"(.)\1", r"\1", word[:1] + re.sub("[aeiou]", "", word[1:]))


def plain_words(text: str) -> str:
    """A spelling as it is compared: small letters, no hyphens, no apostrophes."""
    return re.sub(r"[-‐–]", " ", text.lower().replace("’", "").replace("'", "") if text not in ("''",) else text)


@cache
def _own() -> tuple[dict[str, Any], frozenset[str]]:
    data = resources.files("asplayed.intake").joinpath("data")
    lines = data.joinpath("common_words.txt").read_text(encoding="utf-8").splitlines()
    words = " ".join(line for line in lines if not line.startswith(("#", "[")))
    return own_table("vocabulary"), frozenset(words.replace("'", "").split())


@cache
def own_vocabulary() -> Vocabulary:
    """The vocabulary that comes with asplayed."""
    table, silent = _own()
    return Vocabulary([table], silent)


def load_vocabulary(path: Path | None) -> Vocabulary:
    """The vocabulary that comes with asplayed, with the user's file added on top of it.

    The file has the shape of `data/vocabulary.toml`: `[TERMINAL]`, then `"meaning" = ["spelling", …]`.
    """
    if path is None:
        return own_vocabulary()
    table, silent = _own()
    try:
        added = tomllib.loads(Path(path).read_text(encoding="utf-8"))
    except OSError as fault:
        raise BadInput(f"the vocabulary {path} cannot be read: {fault.strerror}; name a readable TOML file") from None
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        raise BadInput(f"the vocabulary {path} is not TOML: {fault}; see docs/reading.md for its shape") from None
    for terminal, meanings in added.items():
        if terminal not in table:
            raise BadInput(
                f"the vocabulary {path} names a group {terminal!r} that does not exist; use one of {', '.join(table)}"
            )
        if not isinstance(meanings, dict) or not all(
            isinstance(spellings, list) and all(isinstance(entry, str) for entry in spellings)
            for spellings in meanings.values()
        ):
            raise BadInput(
                f'the vocabulary {path}, group {terminal}, should hold lines like "meaning" = ["spelling", "another"]'
            )
    return Vocabulary([table, added], silent)
