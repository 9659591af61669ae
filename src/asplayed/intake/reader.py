"""A list in anybody's words as records with questions; every word is accounted for."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput
from asplayed.intake.assemble import assemble
from asplayed.intake.clauses import prepare
from asplayed.intake.known import Known
from asplayed.intake.numbers import fold
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Source, tokens_of
from asplayed.intake.vocabulary import load_vocabulary, tag
from asplayed.intake.walk import Walk

if TYPE_CHECKING:
    from asplayed.catalogue import Part


def read(text: str, *, vocabulary: Path | None = None, parts: Sequence[Part] = ()) -> GolfSet:
    """The set that a list's words tell of, with questions for what they leave open.

    `vocabulary` is a TOML file of words added to the trade's own; `parts` are catalogue parts whose names are then
    known. Text that is no list is refused with a sentence (BadInput); figures no club can have are refused together.

    >>> golf_set = read("driver Kittiwake 10.5, Lindrake 65 TX, 44¾")
    >>> club = golf_set.clubs[0]
    >>> club.head.name, club.head.loft.value, club.shaft.flex, club.length.value
    ('Kittiwake', 10.5, 'TX', 44.75)
    """
    source = Source(text.replace("\r\n", "\n").replace("\r", "\n"))
    tokens = tokens_of(source)
    words = load_vocabulary(vocabulary)
    tagged = tag(fold(tokens), words)
    known = Known()
    known.learn_parts(parts)
    first = Scene(source, tagged)
    prepare(first)
    Walk(first, known).run()
    known.learn(first)
    scene = Scene(source, tagged)
    prepare(scene)
    Walk(scene, known).run()
    if not scene.drafts and not scene.headers:
        raise BadInput(
            "line 1, column 1: no golf club was found in this text; write one club a line, such as “driver 10.5° 44¾”"
        )
    return assemble(scene)
