"""The site is built whole, every link inside it leads somewhere, and nothing in it comes from elsewhere."""

from __future__ import annotations

import importlib
import re
import subprocess
import sys
from pathlib import Path
from urllib.parse import unquote, urlparse

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The built site; a warning is a fault."""
    folder = tmp_path_factory.mktemp("site")
    done = subprocess.run(
        [sys.executable, "-W", "ignore", "-m", "sphinx", "-W", "--keep-going", "-q", "-b", "html", "docs", str(folder)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return folder


def test_every_page_of_the_folder_is_in_the_site(site: Path) -> None:
    written = {path.relative_to(ROOT / "docs").with_suffix(".html") for path in (ROOT / "docs").rglob("*.md")}
    pages = {path.relative_to(site) for path in site.rglob("*.html")}
    assert written <= pages


def test_every_link_leads_somewhere(site: Path) -> None:
    ids = {path: set(re.findall(r'\bid="([^"]+)"', path.read_text("utf-8"))) for path in site.rglob("*.html")}
    lost = []
    for page in ids:
        for link in re.findall(
            r'<(?:a|img|link|script|source)\b[^>]*?\b(?:href|src)="([^"]+)"', page.read_text("utf-8")
        ):
            parts = urlparse(link)
            if parts.scheme or parts.netloc or not (parts.path or parts.fragment):
                continue
            target = (page.parent / unquote(parts.path)).resolve() if parts.path else page
            if not target.exists() or (parts.fragment and target in ids and unquote(parts.fragment) not in ids[target]):
                lost.append(f"{page.relative_to(site)}: {link}")
    assert not lost, "\n".join(sorted(set(lost)))


def test_nothing_is_loaded_from_elsewhere(site: Path) -> None:
    loaded = []
    for page in site.rglob("*.html"):
        text = page.read_text("utf-8")
        loaded += re.findall(r'<(?:img|script|source|iframe)\b[^>]*\bsrc="((?:https?:)?//[^"]+)"', text)
        loaded += re.findall(r'<link\b[^>]*rel="stylesheet"[^>]*href="((?:https?:)?//[^"]+)"', text)
    for sheet in site.rglob("*.css"):
        loaded += re.findall(r"url\((['\"]?(?:https?:)?//[^)]+)\)", sheet.read_text("utf-8"))
    assert not loaded


@pytest.mark.parametrize("writer", ["schemas", "manual"])
def test_pages_written_from_the_code_stand_as_they_would_be_written(
    writer: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.syspath_prepend(str(ROOT / "docs"))
    module = importlib.import_module(writer)
    if writer == "schemas":
        assert {path.name: path.read_bytes() for path in module.FOLDER.iterdir()} == module.schemas()
    else:
        assert module.PAGE.read_text("utf-8") == module.page()
        assert module.MAN.read_text("utf-8") == module.man()
