"""Pages of a PDF as pictures, for a screen that shows what will be printed."""

from __future__ import annotations

import re

from asplayed.telling.typesetting import shown_page

_PAGE = re.compile(rb"/Type\s*/Page\b")


def page_pictures(pdf: bytes, *, most: int = 12) -> list[bytes]:
    """A PNG for every page of a PDF that this room has set, `most` at most.

    >>> from asplayed.telling.typesetting import typeset
    >>> [png[:4] for png in page_pictures(typeset("one #pagebreak() two", {"title": "two pages"}))]
    [b'\\x89PNG', b'\\x89PNG']
    """
    return [shown_page(pdf, number) for number in range(1, min(len(_PAGE.findall(pdf)), most) + 1)]
