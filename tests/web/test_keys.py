"""No two things on one page answer to the same key."""

from __future__ import annotations

import re
from importlib import resources
from pathlib import Path
from typing import Any

from asplayed.web.doors import Doors

ASSETS = Path(str(resources.files("asplayed.web").joinpath("assets")))
PAGES = Path(str(resources.files("asplayed.web").joinpath("pages")))
SHORTCUT = re.compile(r'shortcut\("([^"]+)"')


def test_no_key_means_two_things(app: Doors) -> None:
    inside: Any = app.inside
    shared = inside.state.asplayed
    everywhere = [tab.keys for tab in (*shared.tabs, *shared.set_tabs)]
    everywhere += SHORTCUT.findall((ASSETS / "page.js").read_text(encoding="utf-8"))
    assert len(set(everywhere)) == len(everywhere), sorted(everywhere)
    for script in sorted(ASSETS.glob("*.js")):
        if script.name in ("common.js", "page.js"):
            continue
        own = SHORTCUT.findall(script.read_text(encoding="utf-8"))
        assert len(set(own)) == len(own), script.name
        # g begins the ways to other pages; any other first key of a page's own must be nobody else's
        assert not set(own) & set(everywhere), (script.name, set(own) & set(everywhere))
