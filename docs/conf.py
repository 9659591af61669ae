"""How the site is built: the pages beside this file, with MyST and furo, and nothing fetched from elsewhere."""

from __future__ import annotations

import asplayed

project = "asplayed"
author = "the asplayed authors"
copyright = author
release = version = asplayed.__version__
html_title = f"asplayed {release}"

extensions = ["myst_parser"]
myst_enable_extensions = ["colon_fence", "deflist"]
myst_heading_anchors = 4
source_suffix = {".md": "markdown"}
exclude_patterns = ["samples", "_build"]

html_theme = "furo"
html_show_sphinx = False
html_copy_source = False
html_show_sourcelink = False
html_static_path: list[str] = []


nitpicky = True
