"""A name's shape changes nothing: the names in lists that are read without a fault are exchanged for others.

Models end in letters that flexes have too, in figures that lofts have too, in words of the trade. Each list keeps its
words and gets names of one shape; what is expected is then known without reading a list by hand.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from pathlib import Path
from random import Random

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import told_lists

LISTS = 24  # of each shape
# {a} and {b} are invented words, {c} is a capital letter.
SHAPES = {
    "head": (
        "{a} X", "{a} S", "{a} T", "{a} CB", "{a} MB", "{a} LS", "{a} G2", "{a} i5", "{a} 10K", "{c}X4", "{c}-4 {a}",
        "{a} 3", "{a} 7", "{a} 2.1", "{a} 790", "{a} II", "{a} Pro", "{a} Tour", "{a} Max D", "{a} HX Max",
        "{a} Forged", "{a} Speed", "{a} Raw", "{a} {b}", "{a}-{b}",
    ),
    "shaft": (
        "{a} X", "{a} HL", "{a} MR", "{a} V2", "{a} 3", "{a} 2.0", "{c}T-7", "{a} Blue", "{a} Pro White", "{a} Tour",
        "{a} Lite", "{a} Steel", "{a} Wedge", "{a} {b}", "{a}-{b}",
    ),
    "grip": (
        "{a} X", "{a} 360", "{a} 2.0", "{a} CP2", "{a} Cord", "{a} Wrap", "{a} Plus", "{a} Tour", "{a} Mid", "{a} {b}",
    ),
}  # fmt: skip
WORDS = (
    "Velmar", "Torrin", "Quassel", "Brannok", "Ondel", "Hestrid", "Kalvor", "Mirrent", "Solvane", "Tarkel",
    "Vasken", "Zorrin", "Yelda", "Ferran", "Gorvan", "Jorvel", "Karrin", "Lundel", "Morvane", "Nessel", "Orvik",
    "Perrel", "Ruskin", "Sorrane", "Tellan", "Umbrek", "Vorrel", "Wessan", "Xandel", "Bravik",
)  # fmt: skip


def _named(role: str, expected: str) -> set[str]:
    found = re.finditer(rf'\b{role}=(?:"([^"\n]+)"|([^\s"]+))', expected)
    return {match[1] or match[2] for match in found}


def _exchanged(role: str, shape: str, text: str, expected: str, random: Random) -> tuple[str, str] | None:
    """The list with each plain name of this part exchanged; None where no name can be told from other words."""
    if re.search(r"\S {3,}\S", text):
        return None  # columns set with blanks: a longer name would shift them
    words = random.sample(WORDS, len(WORDS))
    names = _named(role, expected)
    others = {name for part in SHAPES if part != role for name in _named(part, expected)}
    new: dict[str, str] = {}
    for name in sorted(names, key=len, reverse=True):
        first = name.split()[0]
        plain = len(first) > 3 and first.istitle() and first.isalpha()
        elsewhere = any(first in other for other in (others | names) - {name})
        whole = len(re.findall(rf"\b{re.escape(name)}(?!\w)", text))
        if plain and not elsewhere and whole and whole == len(re.findall(first, text)) and len(words) > 3:
            one, two = words.pop(), words.pop()
            new[name] = shape.format(a=one, b=two, c=one[0])
    if not new:
        return None
    text = re.sub(rf"\b({'|'.join(map(re.escape, new))})(?!\w)", lambda match: new[match[1]], text)

    def told(match: re.Match[str]) -> str:
        name = match[2] or match[3]
        return f'{match[1]}"{new.get(name, name)}"'

    return text, re.sub(rf'(\b{role}=)(?:"([^"\n]+)"|([^\s"]+))', told, expected)


@pytest.mark.parametrize("role", SHAPES)
def test_lists_are_read_alike_whatever_the_shape_of_their_names(role: str, capsys: pytest.CaptureFixture[str]) -> None:
    total: Counter[str] = Counter()
    poor = {}
    for number, shape in enumerate(SHAPES[role]):
        outcomes: Counter[str] = Counter()
        lists = 0
        for index in range(number, len(told_lists.lists()), 3):
            changed = _exchanged(role, shape, *told_lists.lists()[index], Random(index))
            if changed is not None and told_lists.faultless(index):
                outcomes += told_lists.score(*changed).outcomes
                lists += 1
            if lists == LISTS:
                break
        assert lists == LISTS, shape
        total += outcomes
        if outcomes["right"] < 0.965 * outcomes.total():
            poor[shape] = dict(outcomes)
    fields = total.total()
    with capsys.disabled():
        right, wrong = total["right"] / fields, total["wrong"] / fields
        print(f"\n{role}s of {len(SHAPES[role])} shapes: {fields} fields, {right:.2%} right, {wrong:.2%} wrong")
    assert not poor
    assert total["right"] > 0.99 * fields
    assert total["wrong"] < 0.006 * fields
