"""Write `docs/calculations.md`: every bench calculation with its keys, results, formula, source and example.

Run `python docs/calculations.py` from the project's folder after changing `calculations.toml`.
"""

from __future__ import annotations

from pathlib import Path

from asplayed.calc import Calculation, calculations

PAGE = Path(__file__).resolve().parent / "calculations.md"

HEAD = """# Bench calculations

`asplayed calc` lists them; `asplayed calc NAME --help` tells the same as this page; `--json` answers in figures, each
with value, unit and source. Values carry units (`ball_speed=145mph`, `head_mass=200g`, `humidity=50percent`), lists are
comma-separated, pure numbers bare. A missing unit, an unknown key or a value that cannot be is refused in one sentence
that names what is accepted. This page is written from the table the command runs on.
"""


def keys(calculation: Calculation) -> list[str]:
    """The table of a calculation's keys."""
    if calculation.free:
        return ["Any figure of a club, a ball or a set; `asplayed calc rules --help` names them.", ""]
    rows = ["| key | what | value | when not given |", "|---|---|---|---|"]
    for key in calculation.keys:
        grouped = any(key.name in group for group in calculation.either) and not key.default
        missing = "needed" if key.default is None else "see below" if grouped else key.default or "left out"
        rows.append(f"| `{key.name}` | {key.about} | {key.accepted} | {missing} |")
    rows.append("")
    groups = [" and ".join(f"`{name}`" for name in group) for group in calculation.either if group]
    if groups:
        rows += [f"Give {', or '.join(groups)}.", ""]
    return rows


def write() -> str:
    """The page's text."""
    parts = [HEAD]
    for name, calculation in calculations().items():
        parts += [f"## {name}", "", calculation.does, ""]
        parts += keys(calculation)
        parts += ["| result | what | unit |", "|---|---|---|"]
        parts += [f"| `{found.name}` | {found.about} | {found.unit} |" for found in calculation.results]
        parts += ["", f"Formula: {calculation.formula}", "", f"Source: {calculation.source}", ""]
        parts += ["```", f"asplayed calc {name} {calculation.example}", "```", ""]
    return "\n".join(parts).rstrip() + "\n"


if __name__ == "__main__":
    PAGE.write_text(write(), encoding="utf-8")
    print(f"wrote docs/{PAGE.name}")
