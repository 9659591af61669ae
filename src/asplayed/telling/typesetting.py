"""Documents and pictures set by typst: from a template's text and plain data, with fonts of our own.

Data reaches a template as values and never as markup, so a name full of code prints as that name. Nothing is fetched:
templates see only the files handed to them, no package, no network, no font of the machine. The same input gives the
same bytes.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Mapping, Sequence
from functools import cache, lru_cache
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from asplayed.errors import BadInput
from asplayed.telling.words import contained

if TYPE_CHECKING:
    from typst import Fonts

Paper = Literal["a4", "letter"]
PAPERS: Mapping[str, str] = {"a4": "a4", "letter": "us-letter"}

# What could read, fetch or run something that was not handed over. `std` holds them all under other names.
_BARRED = re.compile(r"\b(import|include|eval|plugin|std)\b")


@cache
def _fonts() -> Fonts:
    import typst

    with resources.as_file(resources.files("asplayed.telling").joinpath("fonts")) as folder:
        return typst.Fonts(include_system_fonts=False, font_paths=[str(folder)])


@cache
def _prelude() -> str:
    return resources.files("asplayed.telling").joinpath("templates/common.typ").read_text(encoding="utf-8")


def _plain(value: Any) -> Any:
    """Data without the characters that no page may hold."""
    if isinstance(value, str):
        return contained(value)
    if isinstance(value, Mapping):
        return {contained(str(key)): _plain(entry) for key, entry in value.items()}
    if isinstance(value, Sequence):
        return [_plain(entry) for entry in value]
    return value


def _compile(source: str, data: Mapping[str, Any], files: Mapping[str, bytes], **how: Any) -> Any:
    import typst

    barred = _BARRED.search(source)
    if barred is not None:
        line = source.count("\n", 0, barred.start()) + 1
        raise BadInput(
            f"line {line} of the template has the word {barred[0]!r}, and a template may read, fetch and run nothing; "
            "leave it out: the data are at hand as `data`, what was handed over as files by name"
        )
    given = {
        **files,
        "main.typ": (_prelude() + source).encode("utf-8"),
        "data.json": json.dumps(_plain(data), ensure_ascii=False, allow_nan=False).encode("utf-8"),
    }
    with tempfile.TemporaryDirectory() as root:
        for name, content in given.items():
            Path(root, name).write_bytes(content)
        try:
            return typst.compile(
                str(Path(root, "main.typ")), root=root, font_paths=_fonts(), ignore_system_fonts=True, **how
            )
        except typst.TypstError as fault:
            hints = " ".join(fault.hints)
            told = f"{fault.message}. {hints}".replace(root, "").strip()
            raise BadInput(f"the template cannot be set: {told}") from None


def typeset(
    source: str,
    data: Mapping[str, Any],
    *,
    paper: Paper = "a4",
    files: Mapping[str, bytes] | None = None,
    accessible: bool = False,
) -> bytes:
    """A PDF from a template: its text, the values it may use as `data`, and files it may show by their names.

    `common.typ` stands before the template: it sets the page to `paper`, the font, and has the helpers all share.
    `accessible` holds it to PDF/UA-1 (ISO 14289-1): a title, words for every picture, a glyph for every letter. What
    cannot keep to it, such as a name with a letter the fonts lack, is set without that claim. Raises BadInput for a
    template that reaches outside or cannot be set.

    >>> typeset("#data.title", {"title": "#panic() *stays text*"})[:5]
    b'%PDF-'
    """
    given = {**data, "paper": PAPERS[paper]}
    how: dict[str, Any] = {"format": "pdf", "timestamp": 0}
    made: bytes
    if accessible:
        try:
            made = _compile(source, given, files or {}, pdf_standards=["ua-1"], **how)
        except BadInput as fault:
            if "PDF/UA-1 error" not in str(fault):
                raise
        else:
            return made
    made = _compile(source, given, files or {}, **how)
    return made


_AT_ONCE = 40  # letters without a shape that are looked for, one after the other
_WITHOUT = re.compile(r"the text `\"(.+?)\"` could not be displayed")


@lru_cache(maxsize=64)
def _without_shape(rare: str) -> str:
    found = ""
    while rare and len(found) < _AT_ONCE:
        try:
            _compile("#data.word", {"word": rare, "title": "letters", "paper": "a4"}, {}, pdf_standards=["ua-1"],
                     format="pdf")  # fmt: skip
        except BadInput as fault:
            letters = _WITHOUT.search(str(fault))
            if letters is None or not set(letters[1]) & set(rare):
                break
            found += "".join(letter for letter in letters[1] if letter in rare)
            rare = "".join(letter for letter in rare if letter not in letters[1])
        else:
            break
    return found


def without_shape(text: str) -> str:
    """The letters of a text that no font carried here has a shape for, each once: they would print as boxes.

    >>> without_shape("Ada Brandt, 14 clubs, さくら"), without_shape("a\U0001f3cc")
    ('', '\U0001f3cc')
    """
    return _without_shape(contained("".join(sorted(letter for letter in set(text) if ord(letter) > 0x24F))))


def pictures(source: str, data: Mapping[str, Any], *, files: Mapping[str, bytes] | None = None) -> list[bytes]:
    """A PNG for every page of a template, one pixel a point; a page without a fill is transparent.

    >>> [png[:4] for png in pictures("#set page(width: 40pt, height: 20pt, margin: 2pt)\\n#data.word", {"word": "a"})]
    [b'\\x89PNG']
    """
    made: bytes | list[bytes] = _compile(source, {**data, "paper": "a4"}, files or {}, format="png", ppi=72)
    return [made] if isinstance(made, bytes) else made


def shown_page(pdf: bytes, number: int, *, width: str = "210mm") -> bytes:
    """A PNG of one page of a PDF, the first being 1."""
    source = f'#set page(width: auto, height: auto, margin: 0pt)\n#image("given.pdf", page: {number}, width: {width})'
    found: bytes | list[bytes] = _compile(
        source, {"title": "a page", "paper": "a4"}, {"given.pdf": pdf}, format="png", ppi=72
    )
    return found if isinstance(found, bytes) else found[0]
