"""What a page, a PDF and a talk tell alike: an opening, sections of sentences and tables, and how far to trust it."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.quantities import Figure, Source
from asplayed.telling.phrases import Sentence


class Table(NamedTuple):
    """A table: what it shows, its columns and its rows, all as printed."""

    caption: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Section(NamedTuple):
    """A stretch of a report with one heading."""

    heading: str
    sentences: tuple[Sentence, ...]
    tables: tuple[Table, ...] = ()


class Report(NamedTuple):
    """A report: its title, its first sentence, its sections, and what is said of how far to trust it."""

    title: str
    about: str
    opening: Sentence
    sections: tuple[Section, ...]
    trust: tuple[Sentence, ...]

    @property
    def sentences(self) -> tuple[Sentence, ...]:
        """Everything that is said, in order."""
        return (self.opening, *(said for part in self.sections for said in part.sentences), *self.trust)


def count(name: str, number: int, of: str) -> tuple[str, Figure]:
    """A number of players as a figure that says what it was counted among."""
    return name, Figure(value=float(number), unit="1", source=Source.COMPUTED, why=f"counted among {of}")
