"""A page of a PDF as a picture, for a screen that shows what will be printed."""

from __future__ import annotations

import re
from typing import NamedTuple

from asplayed.telling.typesetting import shown_page

_PAGE = re.compile(rb"/Type\s*/Page\b")


class Leaf(NamedTuple):
    """One page as a PNG: which it is, and of how many."""

    number: int
    of: int
    png: bytes


def leaf(pdf: bytes, number: int) -> Leaf:
    """A page of a PDF that this room has set, the first being 1; the nearest there is for a number beyond.

    >>> from asplayed.telling.typesetting import typeset
    >>> found = leaf(typeset("one #pagebreak() two", {"title": "two pages"}), 3)
    >>> found[:2], found.png[:4]
    ((2, 2), b'\\x89PNG')
    """
    count = len(_PAGE.findall(pdf))
    number = min(max(number, 1), count)
    return Leaf(number, count, shown_page(pdf, number))
