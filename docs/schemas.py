"""Write `docs/schemas/`: the JSON Schema of what is stored and answered, one file a record.

Run `python docs/schemas.py` from the project's folder after changing a record. A shape that callers rely on changes
only by what is added: raise VERSION when something else changes, and say so in the changelog.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec

from asplayed.catalogue.parts import Part
from asplayed.clubs import GolfSet
from asplayed.judgement import Finding
from asplayed.judgement.rules import Verdict
from asplayed.players.flown import FlownClub
from asplayed.players.records import Player
from asplayed.quantities import Figure
from asplayed.workshop.records import Check, Order

FOLDER = Path(__file__).resolve().parent / "schemas"
VERSION = 1
RECORDS: dict[str, Any] = {
    "figure": Figure,
    "set": GolfSet,
    "part": Part,
    "player": Player,
    "finding": Finding,
    "verdict": Verdict,
    "flown-club": FlownClub,
    "order": Order,
    "check": Check,
}


def schemas() -> dict[str, bytes]:
    """Each schema's file as it should stand, by name."""
    made = {}
    for name, record in RECORDS.items():
        schema = {
            "$schema": "https://json-schema.org/draft/2020-12/schema",
            "$id": f"urn:asplayed:{name}:{VERSION}",
            **msgspec.json.schema(record),
        }
        made[f"{name}.json"] = msgspec.json.format(msgspec.json.encode(schema), indent=2) + b"\n"
    return made


def main() -> None:
    """Write them all."""
    FOLDER.mkdir(exist_ok=True)
    for name, content in schemas().items():
        (FOLDER / name).write_bytes(content)
    print(f"wrote {len(RECORDS)} schemas into {FOLDER.relative_to(Path.cwd())}")


if __name__ == "__main__":
    main()
