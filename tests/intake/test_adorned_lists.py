"""What only adorns a list changes nothing: bold type, pictures, quotes, a mail's width, blanks, an HTML page's tags."""

from __future__ import annotations

import html
import re
import sys
import textwrap
from collections.abc import Callable
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import told_lists

LISTS = 30  # of each sort


def _lines(change: Callable[[str], str]) -> Callable[[str], str]:
    return lambda text: "\n".join(change(line) if line.strip() else line for line in text.split("\n"))


def _labels(form: str) -> Callable[[str], str]:
    return lambda text: re.sub(r"(?m)^([A-Z][\w ]{1,18}):", form, text)


def _wrapped(width: int) -> Callable[[str], str]:
    """Paragraphs of talk wrapped by the mail that carried them; hyphenated words stay whole."""

    def wrap(line: str) -> str:
        talk = len(line) > 2.5 * width and len(re.findall(r"[.!?] ", line)) > 1
        return textwrap.fill(line, width, break_on_hyphens=False) if talk else line

    return _lines(wrap)


ADORNED: dict[str, Callable[[str], str]] = {
    "bold labels": _labels(r"**\1:**"),
    "bold labels, colon outside": _labels(r"**\1**:"),
    "leaning labels": _labels(r"_\1_:"),
    "starred labels": _labels(r"*\1:*"),
    "pictures": _lines("\u26f3 {}".format),
    "coloured pictures": _lines("\U0001f3cc\ufe0f\u200d {}".format),
    "green ticks": _lines("\u2705{}".format),
    "quoted": _lines("> {}".format),
    "indented": _lines("    {}".format),
    "blanks behind": _lines("{}  ".format),
    "blank lines between": lambda text: text.replace("\n", "\n\n"),
    "blanks that no line ends at": lambda text: text.replace(" ", "\u00a0"),
    "rings for degrees": lambda text: text.replace("\u00b0", "\u02da"),
    "items of a page": _lines("<li>{}</li>".format),
    "a page's source": lambda text: html.escape(text).replace("\n", "<br>\n"),
    "other line ends": lambda text: text.replace("\n", "\r\n"),
    "mail of 72": _wrapped(72),
    "mail of 60": _wrapped(60),
}


@pytest.mark.parametrize("sort", ADORNED)
def test_an_adorned_list_is_read_like_the_plain_one(sort: str) -> None:
    outcomes, lists = told_lists.read_changed(ADORNED[sort], LISTS)
    assert lists == LISTS
    assert outcomes["right"] >= LEAST.get(sort, 0.995) * outcomes.total(), outcomes


# Where talk is wrapped its sentences are told apart less surely.
LEAST = {"mail of 72": 0.974, "mail of 60": 0.985, "blank lines between": 0.985}
