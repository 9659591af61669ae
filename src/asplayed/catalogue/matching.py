"""Which published part somebody's words mean: by name, nickname, abbreviation, misspelling and generation.

A name is matched as words. Numbers in it (a generation, a class of mass, a loft) are compared exactly, never by
likeness: `Kittiwake 2` and `Kittiwake 3` differ in one letter and are two clubs.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from functools import cached_property
from typing import NamedTuple

from rapidfuzz import fuzz, process

from asplayed.catalogue.parts import Part, PartKind

ACCEPTED = 80.0
"""The score from which a match counts as found."""
TIE = 5.0
"""How far the next candidate must lie below for a match to be taken without asking."""

_REMEMBERED = 1_000  # names whose matches are kept in mind

_TOKEN = re.compile(r"[a-z]+|\d+(?:\.\d+)?|[+\-]+")
_ROMAN = {"ii": "2", "iii": "3", "iv": "4", "v": "5", "vi": "6"}
_SPELT = {
    word: str(number)
    for number, word in enumerate(("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), 1)
}
_NEWEST = frozenset({"new", "newest", "latest", "current"})
_OLDER = frozenset({"old", "older", "previous", "last", "earlier", "prior"})


def _set_of(words: str) -> frozenset[str]:
    return frozenset(words.split())


# Words for the kind of club or part: they weigh little, since most names are said without them.
_KIND_WORDS = _set_of(
    "driver drivers wood woods fairway fairways hybrid hybrids iron irons wedge wedges putter putters driving utility "
    "mini head heads shaft shafts grip grips ball balls sleeve"
)
# Words that say nothing about which part is meant, unless a name has them.
_FILLERS = (
    _NEWEST
    | _OLDER
    | _set_of(
        "a an the my his her their of in on with and to at is it its this that generation gen version mark mk model "
        "pitching gap sand lob set deg degree degrees g gram grams flex raw series class"
    )
)


class Name(NamedTuple):
    """A name taken apart: its words, and its numbers."""

    words: tuple[str, ...]
    numbers: tuple[str, ...]


def taken_apart(text: str) -> Name:
    """A name as lower-case words without accents, and its numbers, spelt-out and Roman ones among them.

    >>> taken_apart("Kittiwake III, 10.5°")
    Name(words=('kittiwake',), numbers=('3', '10.5'))
    """
    plain = unicodedata.normalize("NFKD", text[:400].casefold().replace("'", "").replace("’", ""))
    words: list[str] = []
    numbers: list[str] = []
    for token in _TOKEN.findall("".join(letter for letter in plain if not unicodedata.combining(letter))):
        number = _SPELT.get(token) or (_ROMAN.get(token) if words else None)
        if token[0].isdigit():
            number = f"{float(token):g}"
        if number:
            numbers.append(number)
        elif token[0].isalpha():
            words.append(token)
    return Name(tuple(words), tuple(numbers))


class Model(NamedTuple):
    """One maker's model: all its rows, and the names it goes by."""

    part: PartKind
    maker: str | None
    model: str
    rows: tuple[Part, ...]
    names: tuple[Name, ...]  # the model's own, then its nicknames
    made_by: tuple[str, ...]  # the maker's name as words
    extras: frozenset[str]  # words of its variants and clubs, which a list may add to the name
    numbers: frozenset[str]  # numbers of its variants, lofts and masses, which a list may add too

    @property
    def family(self) -> tuple[str, ...]:
        """Maker and model without the generation's number: what generations have in common."""
        return (self.part, *self.made_by, "/", *self.names[0].words)

    @property
    def generation(self) -> float:
        """The generation's number; a model without one is the first."""
        return float(self.names[0].numbers[0]) if self.names[0].numbers else 1.0


class Match(NamedTuple):
    """A candidate for some words: how sure (0 to 100) and why."""

    model: Model
    score: float
    reason: str


class Catalogue:
    """Parts arranged for looking up: by model, with every name each goes by.

    >>> parts = [Part(part="head", maker="Oskell", model="Dunlin"), Part(part="head", maker="Oskell", model="Gannet")]
    >>> Catalogue(parts).find("oskel dunlins")[0].model.model
    'Dunlin'
    """

    def __init__(self, parts: Iterable[Part]) -> None:
        grouped: dict[tuple[str, str, str], list[Part]] = {}
        for part in parts:
            key = (part.part, (part.maker or "").casefold(), part.model.casefold())
            grouped.setdefault(key, []).append(part)
        self.models = tuple(_model(rows) for rows in grouped.values())
        self._by_label: dict[str | None, dict[str, dict[int, Model]]] = {}
        for model in self.models:
            for name in model.names:
                label = " ".join((*model.made_by, *name.words)) or model.model.casefold()
                for kind in (None, model.part):
                    self._by_label.setdefault(kind, {}).setdefault(label, {})[id(model)] = model
        self._scored: dict[tuple[str, str | None, int], list[Match]] = {}

    @cached_property
    def families(self) -> dict[tuple[str, ...], tuple[Model, ...]]:
        """The models of each family, first generation first."""
        found: dict[tuple[str, ...], list[Model]] = {}
        for model in self.models:
            found.setdefault(model.family, []).append(model)
        return {family: tuple(sorted(models, key=lambda m: m.generation)) for family, models in found.items()}

    def kinds(self) -> frozenset[str]:
        """The kinds of part there is anything of."""
        return frozenset(model.part for model in self.models)

    def find(
        self,
        words: str,
        *,
        kind: PartKind | None = None,
        limit: int = 10,
        suits: Callable[[Model], bool] | None = None,
    ) -> tuple[Match, ...]:
        """The models that `words` may mean, surest first; those that `suits` denies come lower."""
        asked = taken_apart(words)
        if not asked.words and not asked.numbers:
            return ()
        found = list(self._scored_for(words, asked, kind, max(40, 4 * limit)))
        if suits is not None:
            found = [
                match
                if suits(match.model)
                else match._replace(score=match.score - 12, reason=f"{match.reason}; made for another club")
                for match in found
            ]
        found.sort(key=lambda match: (-match.score, match.model.model))
        return self._by_age(asked, found)[:limit]

    def _scored_for(self, words: str, asked: Name, kind: str | None, nearest: int) -> list[Match]:
        """Every model under the labels nearest to some words, with its score; remembered, since sets repeat names."""
        if (words, kind, nearest) in self._scored:
            return self._scored[words, kind, nearest]
        label = " ".join(asked.words) or " ".join(asked.numbers)
        labels = self._by_label.get(kind, {})
        near = process.extract(label, list(labels), scorer=fuzz.WRatio, limit=nearest, score_cutoff=40)
        candidates = {key: model for name, _, _ in near for key, model in labels[name].items()}
        found = []
        for model in candidates.values():
            score, reason = _score(asked, model)
            if score > 30:
                found.append(Match(model, round(min(score, 100.0), 1), reason))
        if len(self._scored) > _REMEMBERED:
            self._scored.clear()
        self._scored[words, kind, nearest] = found
        return found

    def _by_age(self, asked: Name, found: list[Match]) -> tuple[Match, ...]:
        """Candidates after words such as `new` and `older` have chosen between generations of one family."""
        newest, older = _NEWEST & set(asked.words), _OLDER & set(asked.words)
        if not found or asked.numbers or bool(newest) == bool(older):
            return tuple(found)
        line = self.families[found[0].model.family]
        if len(line) < 2:
            return tuple(found)
        meant = line[-1] if newest else line[-2]
        word = next(iter(newest or older))
        return tuple(
            sorted(
                (
                    match._replace(score=match.score + 3, reason=f"{match.reason}; {word!r} says which generation")
                    if match.model is meant
                    else match._replace(score=match.score - 12)
                    if match.model in line
                    else match
                    for match in found
                ),
                key=lambda match: -match.score,
            )
        )


def find(
    parts: Sequence[Part] | Catalogue, words: str, *, kind: PartKind | None = None, limit: int = 10
) -> tuple[Match, ...]:
    """The models that `words` may mean among `parts`, surest first.

    >>> parts = [Part(part="head", maker="Harrowmere", model=f"Kittiwake {n}") for n in (2, 3)]
    >>> [(match.model.model, match.score) for match in find(parts, "harrowmere kittywake 3", limit=1)]
    [('Kittiwake 3', 90.5)]
    """
    catalogue = parts if isinstance(parts, Catalogue) else Catalogue(parts)
    return catalogue.find(words, kind=kind, limit=limit)


class Hit(NamedTuple):
    """One row that a search found: how well it answers (0 to 100) and why."""

    part: Part
    score: float
    reason: str


def search(catalogue: Catalogue, words: str, *, kind: PartKind | None = None, limit: int = 20) -> tuple[Hit, ...]:
    """The rows that answer a search by anything: names, and words or numbers of any of their fields.

    >>> wedge = Part(part="head", model="Turnstone", variant="58.06", sole="crescent")
    >>> [hit.part.variant for hit in search(Catalogue([wedge]), "crescent 58.06")]
    ['58.06']
    """
    asked = taken_apart(words)
    tokens = {*(word for word in asked.words if word not in _FILLERS), *asked.numbers}
    by_name = {id(match.model): match for match in catalogue.find(words, kind=kind, limit=40)}
    hits = []
    for model in catalogue.models:
        if kind is not None and model.part != kind:
            continue
        match = by_name.get(id(model))
        called = {*model.made_by, *(word for name in model.names for word in name.words)} if match else set()
        by_likeness = {token: max((_likeness(token, word) for word in called), default=0.0) for token in tokens}
        for row in model.rows:
            own = _tokens(row)
            met = [1.0 if any(_answers(token, other) for other in own) else by_likeness[token] for token in tokens]
            share = sum(met) / max(1, len(tokens))
            named = match.score * (0.7 + 0.3 * share) if match else 0.0
            score = max(named, 85 * share)
            if match and named == score:
                hits.append(Hit(row, round(score, 1), match.reason))
            elif score >= 40:
                hits.append(Hit(row, round(score, 1), "by what is published of it"))
    hits.sort(key=lambda hit: (-hit.score, hit.part.model, hit.part.line or 0))
    return tuple(hits[:limit])


def _answers(token: str, other: str) -> bool:
    return token == other or (len(token) >= 3 and token.isalpha() and other.startswith(token.removesuffix("s")))


def _tokens(row: Part) -> set[str]:
    """Every word and number of a row."""
    texts = [row.part, row.maker, row.model, row.variant, row.flex, row.sole, row.neck, row.colour, row.construction]
    texts += [row.document, *row.club, *row.nickname, *row.fits, *row.notes.values()]
    found = taken_apart(" / ".join(filter(None, texts)))
    figures = {f"{figure.number:g}" for figure in row.figures.values() if figure.has_number}
    return {*found.words, *found.numbers, *figures, *variant_numbers(row)}


def _model(rows: list[Part]) -> Model:
    first = rows[0]
    nicknames = dict.fromkeys(nickname for row in rows for nickname in row.nickname)
    extras: set[str] = set()
    numbers: set[str] = set()
    for row in rows:
        for text in (row.variant, row.sole, row.neck, row.colour, row.flex, row.part, *row.club):
            extras.update(taken_apart(text or "").words)
        numbers.update(variant_numbers(row))
        numbers.update(f"{value:g}" for name in ("loft", "mass") if (value := row.number(name)) is not None)
    return Model(
        part=first.part,
        maker=first.maker,
        model=first.model,
        rows=tuple(rows),
        names=(taken_apart(first.model), *map(taken_apart, nicknames)),
        made_by=taken_apart(first.maker or "").words,
        extras=frozenset(extras),
        numbers=frozenset(numbers),
    )


def variant_numbers(row: Part) -> frozenset[str]:
    """The numbers that name a row's variant; a class of shaft mass goes by its first figure too.

    >>> sorted(variant_numbers(Part(part="shaft", model="Ember", variant="60")))
    ['6', '60']
    """
    numbers = taken_apart(row.variant or "").numbers
    short = [number[:-1] for number in numbers if row.part == "shaft" and len(number) == 2 and number.isdigit()]
    return frozenset((*numbers, *short))


def _likeness(asked: str, known: str) -> float:
    """How alike two words are, 0 to 1: the same, cut short, without its vowels, or misspelt."""
    if asked == known:
        return 1.0
    shorter = min(len(asked), len(known))
    if shorter < 3:
        return 0.0
    if asked.removesuffix("s") == known.removesuffix("s"):
        return 0.98
    if known.startswith(asked):
        return 0.9
    if not re.search("[aeiou]", asked) and asked[0] == known[0] and _skims(asked, known):
        return 0.85
    ratio = fuzz.ratio(asked, known) / 100
    return ratio * 0.98 if ratio >= 0.72 else 0.0


def _skims(short: str, full: str) -> bool:
    letters = iter(full)
    return all(letter in letters for letter in short)


def _score(asked: Name, model: Model) -> tuple[float, str]:
    best = (-1.0, "")
    for index, name in enumerate(model.names):
        best = max(best, _score_name(asked, model, name, nickname=index > 0))
    return best


def _weight(word: str) -> float:
    return len(word) * (0.25 if word in _KIND_WORDS else 1.0)


def _score_name(asked: Name, model: Model, name: Name, *, nickname: bool) -> tuple[float, str]:
    own = name.words
    known = {*own, *model.made_by, *model.extras}
    spoken = [word for word in asked.words if word in known or word not in _FILLERS]
    reason = "by nickname" if nickname else "by name"
    if own and spoken:
        said = sum(_weight(word) * max(_likeness(word, other) for other in known) for word in spoken)
        said /= sum(map(_weight, spoken))
        met = {other: max(_likeness(word, other) for word in spoken) for other in own}
        covered = sum(_weight(word) * likeness for word, likeness in met.items()) / sum(map(_weight, met))
        joined = fuzz.ratio("".join(spoken), "".join(own)) / 100
        alike = max(0.5 * said + 0.5 * covered, 0.95 * joined if joined >= 0.8 else 0.0)
        if min(met.values()) < 0.6 or said < 0.8:
            reason += ", in part"
        elif alike < 0.99:
            reason += ", written otherwise"
    else:
        alike = 0.0 if own or spoken else 1.0
    score = 100 * alike
    mine, told = set(name.numbers), set(asked.numbers)
    if mine <= told and mine:
        return score, reason
    if mine:
        strange = {number for number in told if len(number) == 1 or number not in model.numbers}
        return (
            (score - 25, f"{reason}; another generation") if strange else (score - 4, f"{reason}; generation not said")
        )
    strange = {number for number in told - model.numbers if len(number) == 1}
    return (score - 25, f"{reason}; another generation") if strange else (score, reason)
