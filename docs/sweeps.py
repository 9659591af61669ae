"""Write `docs/images/soles.svg` from the table that `asplayed sweep soles … --table soles.csv` wrote.

Run `python docs/sweeps.py soles.csv` from the project's folder.
"""

from __future__ import annotations

import csv
import sys
from pathlib import Path

from asplayed.telling.drawing_elements import box, disc, drawing, label, line, written

PLACE = Path(__file__).resolve().parent / "images" / "soles.svg"
SHARE = 0.05
PANEL, GAP, LEFT, TOP = 170.0, 34.0, 70.0, 64.0
MOST = 0.05


def picture(rows: list[dict[str, str]]) -> str:
    """Nine panels: strokes lost a round by bounce, on each ground (down the page) for each attack (across it)."""
    rows = [row for row in rows if row["shape"] == "full" and float(row["wider a degree"]) == SHARE]
    grounds = list(dict.fromkeys(row["ground"] for row in rows))
    attacks = list(dict.fromkeys(row["attack [deg]"] for row in rows))
    width = LEFT + len(attacks) * (PANEL + GAP)
    height = TOP + len(grounds) * (PANEL / 2 + GAP) + 14
    told = f"Strokes a round that a wedge's bounce loses, by ground and attack, at {SHARE:.0%} a degree."
    root = drawing(width, height, "soles", "What a sole is worth", told, alone=True)
    label(root, LEFT, 20, f"Strokes lost a round by bounce, if each unsuited degree widens shots by {SHARE:.0%}",
          size=13, anchor="start", kind="strong")  # fmt: skip
    for column, attack in enumerate(attacks):
        left = LEFT + column * (PANEL + GAP)
        label(root, left, TOP - 14, f"attack {float(attack):g}°".replace("-", "−"), anchor="start")
        for number, ground in enumerate(grounds):
            top = TOP + number * (PANEL / 2 + GAP)
            if column == 0:
                label(root, LEFT - 14, top + PANEL / 4, ground, anchor="end")
            box(root, "band", left, top, PANEL, PANEL / 2)
            those = [row for row in rows if row["ground"] == ground and row["attack [deg]"] == attack]
            bounces = [float(row["bounce [deg]"]) for row in those]
            low, high = min(bounces), max(bounces)
            points = [
                (
                    left + 10 + (PANEL - 20) * (bounce - low) / (high - low),
                    top + PANEL / 2 - 6 - (PANEL / 2 - 18) * float(row["strokes lost a round"]) / MOST,
                )
                for bounce, row in zip(bounces, those, strict=True)
            ]
            line(root, "flight", *points)
            for (x, y), bounce in zip(points, bounces, strict=True):
                disc(root, "dot", x, y, 3)
                label(root, x, top + PANEL / 2 + 12, f"{bounce:g}°", size=9, kind="caption")
            worst = max(float(row["strokes lost a round"]) for row in those)
            label(root, left + PANEL - 4, top + 11, f"worst {worst:.3f}", size=9, anchor="end", kind="caption")
    return written(root)


if __name__ == "__main__":
    with Path(sys.argv[1]).open(newline="", encoding="utf-8") as stream:
        PLACE.write_text(picture(list(csv.DictReader(stream))) + "\n", encoding="utf-8")
    print(f"wrote {PLACE}")
