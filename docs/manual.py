"""Write `docs/manual.md`, every verb with its options, and `packaging/asplayed.1`, the same as a man page.

Run `python docs/manual.py` from the project's folder after changing a verb's help.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

import click

from asplayed.cli import asplayed

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "docs" / "manual.md"
MAN = ROOT / "packaging" / "asplayed.1"
HEAD = """# asplayed: every verb

`asplayed VERB --help` tells the same as this page, which is written from it. SET and LIST may be a stored name, a
file, or `-` for standard input. The exit is 0; 1 for a finding asked to be fatal; 2 for bad input, said in one
sentence; 3 for a store that cannot be used.
"""


def told(command: click.Command, parent: click.Context | None, name: str, depth: int) -> list[str]:
    """One verb, and those below it."""
    context = click.Context(command, parent=parent, info_name=name)
    usage = " ".join(command.collect_usage_pieces(context))
    lines = (
        [] if parent is None else [f"{'#' * depth} {context.command_path}", "", f"`{context.command_path} {usage}`", ""]
    )
    if parent is not None:
        paragraphs = (command.help or "").replace("\b\n", "").strip().split("\n\n")
        lines += [line for text in paragraphs for line in (" ".join(text.split()), "")]
    rows = [
        record
        for parameter in command.get_params(context)
        if (record := parameter.get_help_record(context)) and record[1] and "--help" not in record[0]
    ]
    if rows and parent is not None:
        for option, about in rows:
            # a default that names a place on this machine is nobody else's
            lines += [f"`{option}`", f": {re.sub(r'/[^ ;]*/', '', about)}", ""]
    if isinstance(command, click.Group):
        for verb in command.list_commands(context):
            below = command.get_command(context, verb)
            if below is not None and not below.hidden:
                lines += told(below, context, verb, depth + 1)
    return lines


def page() -> str:
    """The page's text."""
    return HEAD + "\n" + "\n".join(told(asplayed, None, "asplayed", 1)).strip() + "\n"


def man() -> str:
    """The man page, made of the page by Sphinx."""
    with tempfile.TemporaryDirectory() as place:
        source = Path(place, "source")
        source.mkdir()
        (source / "index.md").write_text(page().replace("# asplayed: every verb", "# asplayed", 1), encoding="utf-8")
        (source / "conf.py").write_text(
            'extensions = ["myst_parser"]\nmyst_enable_extensions = ["deflist"]\n'
            'man_pages = [("index", "asplayed", "from a terse list of golf clubs to every club as played", [], 1)]\n'
            'today = " "\nproject = "asplayed"\n',
            encoding="utf-8",
        )
        subprocess.run(
            [sys.executable, "-W", "ignore", "-m", "sphinx", "-q", "-b", "man", str(source), place + "/made"],
            check=True,
        )
        return Path(place, "made", "asplayed.1").read_text(encoding="utf-8")


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    MAN.write_text(man(), encoding="utf-8")
    print(f"wrote {PAGE.relative_to(ROOT)} and {MAN.relative_to(ROOT)}")
