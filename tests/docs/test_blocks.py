"""Every code block of the documentation runs as printed.

Python blocks run, console blocks are typed: in a copy of the demo's folder, with its store, page by page and in
order. What a command printed is compared where the page shows it; a line of … stands for lines left out, … within a
line for a stretch of it, and what the page shows may end before the output does only with a line of …. A command that
is meant to end otherwise than well says so behind it: `# exit 1`. Commands of the shell itself are not run here.
"""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path
from typing import Any

import click.testing
import pytest
from sybil import Example, Sybil
from sybil.parsers.myst import CodeBlockParser, PythonCodeBlockParser

from asplayed import demo
from asplayed.cli import asplayed
from asplayed.errors import AsplayedError

ROOT = Path(__file__).parents[2]
PAGES = sorted([ROOT / "README.md", *(ROOT / "docs").rglob("*.md")])
NOT_OURS = {"make", "python", ".venv/bin/python", "man", "pip", "kill", "export", "git", "cd", "$EDITOR"}


@pytest.fixture(scope="session")
def week(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's folder, made once."""
    folder = tmp_path_factory.mktemp("week") / "demo-output"
    demo.run(folder)
    return folder


def type_in(example: Example) -> None:
    """Run the commands of one console block and compare what they print with what the page shows."""
    lines = str(example.parsed).splitlines()
    commands = [place for place, line in enumerate(lines) if line.startswith("$ ")]
    for number, start in enumerate(commands):
        end = commands[number + 1] if number + 1 < len(commands) else len(lines)
        shown = [line.rstrip() for line in lines[start + 1 : end]]
        while shown and not shown[-1]:
            shown.pop()
        command, _, remark = lines[start][2:].partition("  #")
        words = shlex.split(command, comments=True)
        if not words or words[0] in NOT_OURS:
            continue
        assert words[0] == "asplayed", f"{lines[start]!r}: only asplayed's commands are run"
        wanted = int(found[1]) if (found := re.search(r"exit (\d)", remark)) else 0
        code, said = run(words[1:])
        assert code == wanted, f"{lines[start]!r} ended with {code}, not {wanted}:\n{said}"
        if shown:
            printed = "\n".join(line.rstrip() for line in said.splitlines()).strip()
            assert re.fullmatch(pattern(shown), printed), f"{lines[start]!r} printed\n{printed}\n\nthe page shows\n" + (
                "\n".join(shown)
            )


def run(words: list[str]) -> tuple[int, str]:
    """One command's exit and all that it printed."""
    result = click.testing.CliRunner(env={"COLUMNS": "110", "NO_COLOR": "1"}).invoke(
        asplayed, words, standalone_mode=False, prog_name="asplayed"
    )
    if isinstance(result.exception, AsplayedError):
        return result.exception.exit_code, f"{result.output}asplayed: {result.exception}"
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return (result.return_value if isinstance(result.return_value, int) else 0), result.output


def pattern(shown: list[str]) -> str:
    """The lines of a page as a pattern, … standing for anything."""
    made = []
    for line in shown:
        if line.strip() == "…":
            made.append(r"(?:.*\n)*?")
        else:
            made.append(re.escape(line.strip()).replace("…", ".*?") + r"\s*?\n?")
    text = "".join(r"[ \t]*" + part for part in made)
    return text + (r"(?:.*\n?)*" if shown[-1].strip() == "…" else "")


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_the_blocks_of_a_page_run(page: Path, week: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    document = Sybil(parsers=[PythonCodeBlockParser(), CodeBlockParser(language="console", evaluator=type_in)]).parse(
        page
    )
    examples: list[Any] = list(document.examples())
    if not examples:
        return
    folder = tmp_path / "demo-output"
    shutil.copytree(week, folder)
    for sample in (ROOT / "docs" / "samples").iterdir():
        shutil.copy(sample, tmp_path)
    for name in ("order.json", "measures.csv"):
        shutil.copy(folder / "workshop" / name, tmp_path)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("ASPLAYED_STORE", str(folder / demo.STORE))
    for example in examples:
        example.evaluate()
