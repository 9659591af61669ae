"""Small turns of phrase, one a line: what each is read to say."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from told import told


@pytest.mark.parametrize(
    ("text", "path", "expected"),
    [
        ("irons 7-9 Gannet w Reed 60 S", "shaft.name", {"7 iron": "Reed", "8 iron": "Reed", "9 iron": "Reed"}),
        ("driver Gannet 10\n3 w Gannet 15\n4 h Gannet 22", "head.loft", {"driver": 10, "3 wood": 15, "4 hybrid": 22}),
        (
            "3 wood Gannet 16, and with that I drive. Putter Stint 35",
            "kind",
            {"3 wood": "fairway wood", "putter": "putter"},
        ),
        ("putter Stint 33 inches, she is five foot two", "head.loft", {}),
        ("putter Stint 33 inches. He is 4 ft 7 tall.", "head.loft", {}),
        ("54 wedge Burr, bounce 12  sole full     lie 1 up", "head.sole", {"sand wedge": "full sole"}),
        ("54 wedge Burr, grip Sorrel Grip-On, +3 wraps", "grip.name", {"sand wedge": "Sorrel Grip-On"}),
        (
            "The wedges are a Swale Three, fifty and fifty-six",
            "head.name",
            {"gap wedge": "Swale Three", "sand wedge": "Swale Three"},
        ),
        ("driver: Gannet, loft 9, lie std", "bend.lie", {"driver": 0}),
    ],
)
def test_small_turns_of_phrase(text: str, path: str, expected: dict[str, object]) -> None:
    assert told(text, path) == expected
