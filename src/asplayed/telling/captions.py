"""Captions and chapters from a talk laid out in time: WebVTT (W3C, 2019) and SubRip."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import NamedTuple

from asplayed.telling.cues import Cue, seconds_of
from asplayed.telling.words import contained

_WIDTH = 42  # letters a line, two lines a caption: common practice of broadcasters, no single source
_LINES = 2


class Caption(NamedTuple):
    """Words on screen from `start` to `end`, in seconds."""

    start: float
    end: float
    text: str


def captions(laid_out: Sequence[Cue], words_per_minute: float) -> list[Caption]:
    """The talk in captions of at most two lines, each on screen while it is said."""
    found = []
    for cue in laid_out:
        start = cue.start
        for said in cue.sentences:
            lasts = seconds_of(said, words_per_minute)
            found += spread(said.text, start, lasts)
            start += lasts
    return found


def spread(text: str, start: float, lasts: float) -> list[Caption]:
    """A sentence in captions over its time, each on screen for its share of the letters.

    >>> [caption.text for caption in spread("The driver is bent.", 0, 2)]
    ['The driver is bent.']
    """
    lines = textwrap.wrap(contained(text), _WIDTH, break_on_hyphens=False)
    pieces = ["\n".join(lines[place : place + _LINES]) for place in range(0, len(lines), _LINES)]
    letters = sum(map(len, pieces))
    found = []
    for piece in pieces:
        end = start + lasts * len(piece) / letters
        found.append(Caption(start, end, piece))
        start = end
    return found


def timestamp(seconds: float, mark: str = ".") -> str:
    """A time as hours, minutes, seconds and thousandths.

    >>> timestamp(3661.5), timestamp(0.0625, ",")
    ('01:01:01.500', '00:00:00,062')
    """
    thousandths = round(seconds * 1000)
    whole, rest = divmod(thousandths, 1000)
    return f"{whole // 3600:02d}:{whole // 60 % 60:02d}:{whole % 60:02d}{mark}{rest:03d}"


def _escaped(text: str) -> str:
    """Text that a player can take for nothing but text."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def webvtt(found: Sequence[Caption]) -> str:
    """Captions as WebVTT.

    >>> print(webvtt([Caption(0, 1.5, "57° & more")]))
    WEBVTT
    <BLANKLINE>
    1
    00:00:00.000 --> 00:00:01.500
    57° &amp; more
    <BLANKLINE>
    """
    blocks = [
        f"{number}\n{timestamp(each.start)} --> {timestamp(each.end)}\n{_escaped(each.text)}\n"
        for number, each in enumerate(found, start=1)
    ]
    return "\n".join(["WEBVTT\n", *blocks])


def subrip(found: Sequence[Caption]) -> str:
    """Captions as SubRip, whose players take < and > for tags: they are shown as ‹ and ›."""
    return "\n".join(
        f"{number}\n{timestamp(each.start, ',')} --> {timestamp(each.end, ',')}\n"
        f"{each.text.replace('<', '‹').replace('>', '›')}\n"
        for number, each in enumerate(found, start=1)
    )


def chapters(laid_out: Sequence[Cue]) -> list[Caption]:
    """A chapter for every cue, each lasting until the next begins."""
    ends = [*(cue.start for cue in laid_out[1:]), *(cue.end for cue in laid_out[-1:])]
    return [Caption(cue.start, end, contained(cue.name)) for cue, end in zip(laid_out, ends, strict=True)]
