"""The colours of sheets and drawings, light and dark, and nothing said by colour alone.

Every ink is held against its ground by a test of contrast (WCAG 2.2, success criteria 1.4.3 and 1.4.11).
"""

from __future__ import annotations

LIGHT = {
    "ground": "#fffdf8",
    "ink": "#1d2326",
    "quiet": "#565f63",
    "line": "#7d8487",
    "faint": "#cfc9ba",
    "club": "#0b4f6c",
    "wash": "#dde7e8",
    "alarm": "#8a2a00",
}

DARK = {
    "ground": "#14191b",
    "ink": "#eceae3",
    "quiet": "#a9b2b4",
    "line": "#7f898c",
    "faint": "#3c474b",
    "club": "#8fd0e6",
    "wash": "#26393f",
    "alarm": "#ffb38a",
}

# On paper everything is black on white, with greys a black-and-white printer can hold apart.
PAPER = {
    "ground": "#ffffff",
    "ink": "#000000",
    "quiet": "#3d3d3d",
    "line": "#666666",
    "faint": "#bdbdbd",
    "club": "#000000",
    "wash": "#e6e6e6",
    "alarm": "#000000",
}


def declarations(colours: dict[str, str]) -> str:
    """One set of colours as CSS custom properties.

    >>> declarations({"ink": "#000000"})
    '--ink: #000000;'
    """
    return " ".join(f"--{name}: {colour};" for name, colour in colours.items())
