"""What pages carry: small, of one piece, and from nowhere else."""

from __future__ import annotations

import json
import re
from pathlib import Path

from asplayed.telling.palette import DARK, LIGHT
from asplayed.web.assets import Assets

ROOT = Path(__file__).resolve().parents[2]
SCRIPTS = 230  # lines of one script at most


def test_nothing_is_loaded_from_elsewhere() -> None:
    for name, asset in Assets().files.items():
        if name.endswith((".css", ".js", ".svg")):
            text = asset.content.decode("utf-8").replace("http://www.w3.org/2000/svg", "")
            assert not re.search(r"https?://|//[a-z0-9-]+\.[a-z]{2,}/|@import", text), name


def test_scripts_are_typed_and_short() -> None:
    for name, asset in Assets().files.items():
        if name.endswith(".js"):
            text = asset.content.decode("utf-8")
            assert text.startswith("// @ts-check\n"), name
            assert text.count("\n") <= SCRIPTS, name
            assert "innerHTML" not in text and "eval(" not in text, name


def test_colours_are_those_of_sheets_and_drawings() -> None:
    files = Assets().files
    made = files["colours.css"].content.decode("utf-8")
    assert all(colour in made for colour in (*LIGHT.values(), *DARK.values()))
    own = files["asplayed.css"].content.decode("utf-8")
    assert not re.search(r"#[0-9a-fA-F]{6}\b", own), "a colour of its own"


def test_the_checker_of_accessibility_is_the_one_in_the_lock() -> None:
    lock = json.loads((ROOT / "package-lock.json").read_text(encoding="utf-8"))
    version = lock["packages"]["node_modules/axe-core"]["version"]
    checker = (ROOT / "tests" / "web" / "browser" / "axe.min.js").read_text(encoding="utf-8")
    assert checker.startswith(f"/*! axe v{version}\n"), "run make vendored"
    assert "resolved" not in json.dumps(lock), "the lock names a registry"
