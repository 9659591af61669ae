"""The mark of a figure's source: told apart by shape, so that it holds in black and white.

Squares are figures somebody vouches for (full: gauged; half: said; ruled: a document), rings are arithmetic
(broken where it rests on a usual or guessed figure), a triangle is the trade's usual figure, and a question mark
is a guess.
"""

from __future__ import annotations

from typing import NamedTuple

from asplayed.quantities import Figure, Source
from asplayed.telling.words import SOURCES


class Mark(NamedTuple):
    """A mark: its id on the page, the source it stands for, what that means, and its shape in a 12 by 12 box."""

    id: str
    source: str
    meaning: str
    shape: str


_SQUARE = '<rect x="1.5" y="1.5" width="9" height="9" fill="none" stroke="currentColor" stroke-width="1.2"/>'
_RING = '<circle cx="6" cy="6" r="4.4" fill="none" stroke="currentColor" stroke-width="1.5"{}/>'

MARKS = (
    Mark("from-measured", "measured", SOURCES[Source.MEASURED],
         '<rect x="0.9" y="0.9" width="10.2" height="10.2" fill="currentColor"/>'),
    Mark("from-stated", "stated", SOURCES[Source.STATED],
         _SQUARE + '<path d="M1.5 1.5V10.5H10.5Z" fill="currentColor"/>'),
    Mark("from-published", "published", SOURCES[Source.PUBLISHED],
         _SQUARE + '<path d="M3.4 4.3H8.6M3.4 7.7H8.6" stroke="currentColor" stroke-width="1.3"/>'),
    Mark("from-computed", "computed", SOURCES[Source.COMPUTED], _RING.format("")),
    Mark("from-computed-loosely", "computed on weak ground",
         "something behind it is a usual figure or a guess",
         _RING.format(' stroke-dasharray="2.9 1.71"')),
    Mark("from-common-practice", "common practice", SOURCES[Source.COMMON_PRACTICE],
         '<path d="M6 1.6L11 10.4H1Z" fill="none" stroke="currentColor" stroke-width="1.3" stroke-linejoin="round"/>'),
    Mark("from-assumed", "assumed", SOURCES[Source.ASSUMED],
         '<path d="M3 4.1C3 0.3 9.2 0.3 9.2 3.9C9.2 6.1 6.1 5.8 6.1 8.2" fill="none" stroke="currentColor" '
         'stroke-width="1.7"/><rect x="5.1" y="9.5" width="2" height="2" fill="currentColor"/>'),
)  # fmt: skip

_BY_SOURCE = {mark.source: mark for mark in MARKS}
_LOOSELY = MARKS[4]


def mark_of(figure: Figure) -> Mark:
    """The mark of a figure: its source's, and for a computed one whether it rests on weaker ground.

    >>> from asplayed.quantities import figure
    >>> mark_of(figure(56, "deg", "stated")).id
    'from-stated'
    """
    if figure.source is Source.COMPUTED and figure.weakest.rank > Source.COMPUTED.rank:
        return _LOOSELY
    return _BY_SOURCE[figure.source.value]


def definitions() -> str:
    """The marks as SVG symbols, to stand once on a page; `<use href="#from-measured">` draws one."""
    symbols = "".join(f'<symbol id="{mark.id}" viewBox="0 0 12 12">{mark.shape}</symbol>' for mark in MARKS)
    return f'<svg class="definitions" width="0" height="0" aria-hidden="true">{symbols}</svg>'
