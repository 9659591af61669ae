"""A list in anybody's words as records with questions; every word is accounted for."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from pathlib import Path
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput
from asplayed.intake.assemble import assemble
from asplayed.intake.beforehand import heard_last
from asplayed.intake.bench_rows import columns_told
from asplayed.intake.beside_runs import kind_behind_each
from asplayed.intake.blocks import in_blocks
from asplayed.intake.boxes import chosen
from asplayed.intake.breath import parted
from asplayed.intake.clauses import prepare
from asplayed.intake.clubs_first import clubs_first
from asplayed.intake.counted_lines import items_on_lines, named_where_pointed
from asplayed.intake.downwards import runs_downwards
from asplayed.intake.footnotes import where_marked, without_marks
from asplayed.intake.grid_columns import with_settled_columns
from asplayed.intake.grids import laid_out
from asplayed.intake.groups import FAMILIES
from asplayed.intake.known import Known
from asplayed.intake.likewise import likewise
from asplayed.intake.mails import oldest_first
from asplayed.intake.named_in_rows import named_in_rows
from asplayed.intake.numbers import fold, join_lines
from asplayed.intake.plain_text import LONGEST, plain_text, unwrapped
from asplayed.intake.reckoned import told_straight
from asplayed.intake.said_otherwise import said_plainly
from asplayed.intake.scene import Scene, Word
from asplayed.intake.slashed import parted_by_slashes
from asplayed.intake.speakers import speakers_before
from asplayed.intake.stamped_wedges import stamped_wedges
from asplayed.intake.tagging import tag
from asplayed.intake.tokens import Source, Token, single_spaced, tokens_of, without_runs
from asplayed.intake.vocabulary import load_vocabulary
from asplayed.intake.walk import Walk
from asplayed.intake.wedge_words import undotted

if TYPE_CHECKING:
    from asplayed.catalogue import Part

__all__ = ["LONGEST", "ledger", "marked", "read"]


def read(text: str, *, vocabulary: Path | None = None, parts: Sequence[Part] = ()) -> GolfSet:
    """The set that a list's words tell of, with questions for what they leave open.

    `vocabulary` is a TOML file of words added to the trade's own; `parts` are catalogue parts whose names are then
    known. Text that is no list is refused with a sentence (BadInput); figures no club can have are refused together.

    >>> golf_set = read("driver Kittiwake 10.5, Lindrake 65 TX, 44¾")
    >>> club = golf_set.clubs[0]
    >>> club.head.name, club.head.loft.value, club.shaft.flex, club.length.value
    ('Kittiwake', 10.5, 'TX', 44.75)
    """
    return assemble(_walked(text, vocabulary, parts))


def ledger(text: str) -> list[tuple[str, str]]:
    """Every word and number of a list with who took it: club, set, ball, aside, note, question, phrase, not understood.

    "phrase" are the function words inside what was understood; the rest of a list's words lie in a record or are kept
    word for word.

    >>> [taker for word, taker in ledger("the driver is lovely, 44¾")]
    ['phrase', 'club', 'phrase', 'not understood', 'club']
    """
    return _walked(text, None, ()).ledger()


def marked(text: str, *, parts: Sequence[Part] = ()) -> tuple[str, list[Word]]:
    """The text as it is read, and every word and number in it with its place and who took it (as in `ledger`).

    >>> text, words = marked("driver 10.5, lovely")
    >>> [(text[word.start : word.end], word.taker) for word in words]
    [('driver', 'club'), ('10.5', 'club'), ('lovely', 'not understood')]
    """
    scene = _walked(text, None, parts)
    return scene.source.text, scene.placed()


# What is told in a roundabout way becomes what the rooms behind know, one way of telling after the other.
_AS_USUAL = (
    items_on_lines, named_where_pointed, kind_behind_each, runs_downwards, stamped_wedges, likewise, told_straight,
)  # fmt: skip
_MOST = 1_500  # figures, or mentions of clubs: a sheet of sixty clubs with twenty-five columns has no more
_WORDS = 5_000  # words and marks: half an hour of talk
_CLUBS = {*FAMILIES, "CODE"}
_LONG = 4_000  # characters in which a list names some club
_NO_CLUB = "line 1, column 1: no golf club was found in this text; write one club a line, such as “driver 10.5° 44¾”"


def _check_size(tokens: list[Token], characters: int) -> None:
    """Refuse at once a text that is no list of one set: thousands of words, figures or clubs, or pages without any."""
    figures = [token for token in tokens if token.kind == "number"]
    clubs = [token for token in tokens if token.terminal in _CLUBS]
    words = [token for token in tokens if token.kind != "newline"]
    for found, most, what in (
        (figures, _MOST, f"more than {_MOST:,} figures"),
        (clubs, _MOST, f"clubs are named more than {_MOST:,} times"),
        (words, _WORDS, f"more than {_WORDS:,} words and marks"),
    ):
        if len(found) > most:
            first = found[most]
            raise BadInput(
                f"line {first.written}, column {first.column}: {what}; "
                "a list is of one set, so give each set a list of its own"
            )
    if characters > _LONG and not figures and not clubs:
        raise BadInput(_NO_CLUB)


def _walked(text: str, vocabulary: Path | None, parts: Sequence[Part]) -> Scene:
    plain, notes = without_marks(plain_text(text))
    source = Source(plain)
    tokens = parted(where_marked(unwrapped(source, undotted(single_spaced(without_runs(tokens_of(source))))), notes))
    words = load_vocabulary(vocabulary)
    said = said_plainly(join_lines(tokens, source.captions) if source.spoken else tokens)
    tagged = speakers_before(tag(fold(said), words))
    _check_size(tagged, len(text))
    tagged = oldest_first(tagged)
    for said_as_usual in _AS_USUAL:
        tagged = said_as_usual(tagged)
    rows = with_settled_columns(laid_out(chosen(tagged)))
    tagged, blocks = in_blocks(columns_told(clubs_first(parted_by_slashes(rows))))
    tagged, beforehand = heard_last(named_in_rows(tagged))
    known = Known()
    known.learn_parts(parts)

    def settled(*, tables: bool) -> Scene:
        scene = Scene(source, [copy(token) for token in tagged], beforehand)  # what is settled changes tokens
        scene.tell_of(blocks)
        prepare(scene, tables=tables)
        return scene

    def walked(settled: Scene) -> Scene:
        scene = settled.anew()
        Walk(scene, known).run()
        return scene

    scene = settled(tables=True)
    first = walked(scene)
    if not first.drafts:
        scene = settled(tables=False)
        if first.rows:
            first = walked(scene)  # what was taken for a table names no club: its rows are read as lines
    if not (first.drafts or first.headers or first.aside):
        raise BadInput(_NO_CLUB)
    known.learn(first)
    return walked(scene)
