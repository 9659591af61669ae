"""A house style: whose sheets these are, their colour and logo, spelling, speed of speech, and their own templates."""

from __future__ import annotations

import re
import tomllib
from importlib import resources
from pathlib import Path
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.telling.palette import PAPER
from asplayed.telling.phrases import Spelling
from asplayed.telling.typesetting import PAPERS, Paper

_LOGO_LIMIT = 4_000_000  # bytes
_STYLE_LIMIT = 100_000
_TEMPLATE_LIMIT = 1_000_000
_CONTRAST = 4.5  # of text against its ground, WCAG 2.2 success criterion 1.4.3


class House(NamedTuple):
    """What a house may choose. `say` is how words are spoken; `logo` is a file's name and bytes."""

    name: str = ""
    accent: str = PAPER["ink"]
    logo: tuple[str, bytes] | None = None
    spelling: Spelling = "british"
    words_per_minute: float = 150.0
    paper: Paper = "a4"
    large_print: bool = False
    say: tuple[tuple[str, str], ...] = ()
    templates: Path | None = None

    def template(self, name: str) -> str:
        """A template's text: from the house's own folder where it has one of that name, else the packaged one."""
        if self.templates is not None and (path := self.templates / name).is_file():
            if path.stat().st_size > _TEMPLATE_LIMIT:
                raise BadInput(f"{path} is larger than a template may be ({_TEMPLATE_LIMIT // 1000} kB)")
            try:
                return path.read_text(encoding="utf-8")
            except (OSError, UnicodeDecodeError) as fault:
                raise BadInput(f"{path} cannot be read as text in UTF-8: {fault}") from None
        return resources.files("asplayed.telling").joinpath("templates", name).read_text(encoding="utf-8")

    def shared(self) -> dict[str, Any]:
        """What every document is told of the house."""
        return {
            "house": self.name,
            "accent": self.accent,
            "large": self.large_print,
            "region": "us" if self.spelling == "american" else "gb",
            "logo": self.logo[0] if self.logo else "",
        }

    def files(self) -> dict[str, bytes]:
        """The files a document may show."""
        return {self.logo[0]: self.logo[1]} if self.logo else {}


def copy_templates(folder: str | Path) -> list[str]:
    """Write the packaged templates into a folder, to be changed there; none that is there already is overwritten.

    `common.typ` and the styles that pages include are among them for reading; a page may include its own copy.
    """
    folder = Path(folder)
    packaged = sorted(
        entry.name
        for entry in resources.files("asplayed.telling").joinpath("templates").iterdir()
        if entry.name.endswith((".typ", ".html", ".css"))
    )
    try:
        folder.mkdir(parents=True, exist_ok=True)
        there = [name for name in packaged if (folder / name).exists()]
        if there:
            raise BadInput(f"{folder} holds {there[0]} already; name an empty folder, so that none of yours is lost")
        for name in packaged:
            text = resources.files("asplayed.telling").joinpath("templates", name).read_text(encoding="utf-8")
            (folder / name).write_text(text, encoding="utf-8")
    except OSError as fault:
        raise BadInput(f"{folder} cannot be written ({fault.strerror}); name a folder that can be") from None
    return packaged


PLAIN = House()
"""No house in particular."""


def contrast(one: str, other: str) -> float:
    """The contrast of two colours written #rrggbb, 1 to 21 (WCAG 2.2, relative luminance).

    >>> round(contrast("#000000", "#ffffff"), 1)
    21.0
    """

    def luminance(colour: str) -> float:
        parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


_KEYS: dict[str, Any] = {
    "name": str, "accent": str, "logo": str, "spelling": str, "words_per_minute": (int, float), "paper": str,
    "large_print": bool, "say": dict,
}  # fmt: skip


def house_style(path: str | Path) -> House:
    """The house style in a TOML file: `name, accent, logo, spelling, words_per_minute, paper, large_print, [say]`.

    `logo` is a PNG or JPEG beside the file. Raises BadInput, naming the key, for what cannot be.
    """
    path = Path(path)
    try:
        with path.open("rb") as stream:
            content = stream.read(_STYLE_LIMIT + 1)
        if len(content) > _STYLE_LIMIT:
            raise BadInput(f"{path} is larger than a house style may be ({_STYLE_LIMIT // 1000} kB)")
        found = tomllib.loads(content.decode("utf-8"))
    except FileNotFoundError:
        raise BadInput(f"there is no house style {path}; check the name") from None
    except (OSError, UnicodeDecodeError, RecursionError, tomllib.TOMLDecodeError) as fault:
        raise BadInput(f"{path} cannot be read as a house style in TOML: {fault}") from None
    for key, value in found.items():
        if key not in _KEYS:
            raise BadInput(f"{path}: a house style has no {key!r}; it has {', '.join(_KEYS)}")
        if not isinstance(value, _KEYS[key]) or (isinstance(value, bool) and _KEYS[key] is not bool):
            raise BadInput(f"{path}: {key} cannot be {value!r}; see the example in the documentation of tell")
    return _made(path, found)


def _made(path: Path, found: dict[str, Any]) -> House:
    accent = found.get("accent", PAPER["ink"])
    if not re.fullmatch(r"#[0-9a-fA-F]{6}", accent):
        raise BadInput(f"{path}: accent {accent!r} is not a colour; write it as #0b4f6c")
    if contrast(accent, PAPER["ground"]) < _CONTRAST:
        raise BadInput(
            f"{path}: accent {accent} stands out from white paper only {contrast(accent, PAPER['ground']):.1f} to 1; "
            f"choose a darker one, at least {_CONTRAST} to 1"
        )
    for key, choices in (("spelling", ("british", "american")), ("paper", tuple(PAPERS))):
        if found.get(key, choices[0]) not in choices:
            raise BadInput(f"{path}: {key} is {found[key]!r}; it can be {' or '.join(choices)}")
    speed = found.get("words_per_minute", 150)
    if not 60 <= speed <= 300:
        raise BadInput(f"{path}: words_per_minute is {speed}; nobody speaks so: it lies from 60 to 300")
    say = found.get("say", {})
    for word, how in say.items():
        if not isinstance(how, str):
            raise BadInput(f"{path}: say.{word} is {how!r}; write how it is spoken, as text")
    return House(
        name=found.get("name", ""),
        accent=accent.lower(),
        logo=_logo(path, found["logo"]) if "logo" in found else None,
        spelling=found.get("spelling", "british"),
        words_per_minute=float(speed),
        paper=found.get("paper", "a4"),
        large_print=found.get("large_print", False),
        say=tuple(say.items()),
    )


def _logo(path: Path, name: str) -> tuple[str, bytes]:
    """The picture beside the style; its kind is told by its first bytes, not by its name."""
    place = path.parent / name
    try:
        if place.resolve().parent != path.parent.resolve():
            raise BadInput(f"{path}: the logo must lie beside the house style; {name!r} does not")
        with place.open("rb") as stream:
            content = stream.read(_LOGO_LIMIT + 1)
    except (OSError, ValueError) as fault:
        raise BadInput(f"{path}: the logo {name!r} cannot be read: {fault}") from None
    if len(content) > _LOGO_LIMIT:
        raise BadInput(f"{path}: the logo {name!r} is larger than {_LOGO_LIMIT // 1_000_000} MB; save a smaller one")
    for start, kind in ((b"\x89PNG\r\n\x1a\n", "png"), (b"\xff\xd8\xff", "jpg")):
        if content.startswith(start):
            return f"logo.{kind}", content
    raise BadInput(f"{path}: the logo {name!r} is neither PNG nor JPEG; save it as one of them")
