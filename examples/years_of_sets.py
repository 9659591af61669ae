"""Keep sets over time and ask what changed, in Python: store, compare, count, prove.

Run it with `python examples/years_of_sets.py`. The store is made in a folder that is thrown away afterwards.
"""

import tempfile
from pathlib import Path

import asplayed
from asplayed.keeping import open_store
from asplayed.keeping.comparing import compare
from asplayed.keeping.proving import prove
from asplayed.keeping.seasons import shares

LISTS = {
    "ada-2025": "Ada Brandt, 3 March 2025\nDriver Kittiwake 2 10.5\n7 iron Gannet 5 34\nSand wedge Turnstone 56.10",
    "priya-2025": "Priya Lindqvist, 4 March 2025\nDriver Kittiwake 3 9\n7 iron Dunlin 33\nSand wedge Turnstone 54.10",
    "ada-2026": "Ada Brandt, 2 March 2026\nDriver Kittiwake 3 10.5\n7 iron Gannet 5 34\nSW Turnstone 56.10 bent 1 weak",
}

with tempfile.TemporaryDirectory() as folder:
    place = Path(folder, "years.db")
    with open_store(place) as store:
        for name, words in LISTS.items():
            store.save_set(name, asplayed.read(words), words, who="the keeper", why="as brought to the counter")

    print("What changed between two visits:")
    for each in compare("ada-2025", "ada-2026", place):
        print(f"- {each.club or 'the set'}: {each.field}: {each.before or 'nothing'} → {each.after or 'nothing'}")

    print("\nThe drivers, season by season:")
    for share in shares("model", place, kind="driver"):
        print(f"- {share.period}: {share.value}, {share.number} of {share.of}")

    proof = prove(place)
    print(
        f"\nThe store is {'whole' if not proof.faults else 'damaged'}: {proof.checked['versions']} versions looked at."
    )
