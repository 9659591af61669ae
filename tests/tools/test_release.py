"""A release is built, installed and run in a clean environment, or leaves everything as it was."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "tools"))

import release as releasing  # noqa: E402

CARRIES_THE_VERSION = ("src/asplayed/__init__.py", "CHANGELOG.md", "README.md")


def git(*words: str, where: Path) -> str:
    return subprocess.run(["git", *words], cwd=where, check=True, capture_output=True, text=True).stdout


def repository(here: Path, names: tuple[str, ...]) -> Path:
    """A repository of these files of the project, with one entry in its changelog."""
    for name in names:
        (here / name).parent.mkdir(parents=True, exist_ok=True)
        (here / name).write_bytes((ROOT / name).read_bytes())
    (here / "CHANGELOG.md").write_text("# Changelog\n\n## Unreleased\n\n- Something.\n", encoding="utf-8")
    git("init", "-q", "-b", "main", where=here)
    git("config", "user.name", "a builder", where=here)
    git("config", "user.email", "builder@example.org", where=here)
    git("add", "-A", where=here)
    git("commit", "-q", "-m", "all", where=here)
    return here


def files(root: Path) -> dict[Path, bytes]:
    """All that stands in a tree, git's own files left out."""
    return {path: path.read_bytes() for path in root.rglob("*") if path.is_file() and ".git" not in path.parts}


@pytest.mark.slow
def test_wheel_and_sdist_run_the_demo_in_a_clean_environment(tmp_path: Path) -> None:
    listed = git("ls-files", where=ROOT).split()
    wanted = [name for name in listed if name.startswith(("src/", "examples/", "packaging/")) or "/" not in name]
    tree = repository(tmp_path, tuple(name for name in wanted if (ROOT / name).is_file()))
    made = releasing.release("9.9.9", root=tree, tests=False)
    assert sorted(path.suffix for path in made) == [".gz", ".whl"]
    assert git("tag", where=tree).split() == ["v9.9.9"]
    assert '__version__ = "9.9.9"' in (tree / "src/asplayed/__init__.py").read_text("utf-8")
    assert "## 9.9.9 · 20" in (tree / "CHANGELOG.md").read_text("utf-8")
    assert not git("status", "--porcelain", where=tree).strip()


@pytest.mark.parametrize(
    ("version", "spoil", "said"),
    [
        ("2", None, "is not a version"),
        ("0.0.1", None, "does not come after"),
        ("9.9.9", "CHANGELOG.md", "tells nothing under Unreleased"),
        ("9.9.9", "dirty", "nobody committed"),
        ("9.9.9", "src/asplayed/__init__.py", "names no version"),
        ("9.9.9", None, "failed"),  # nothing there to build from
    ],
)
def test_what_is_not_ready_is_refused_and_left_alone(
    tmp_path: Path, version: str, spoil: str | None, said: str
) -> None:
    tree = repository(tmp_path, CARRIES_THE_VERSION)
    if spoil == "dirty":
        (tree / "README.md").write_text("half a thought", encoding="utf-8")
    elif spoil:
        (tree / spoil).write_text("# Changelog\n\n## Unreleased\n\n", encoding="utf-8")
        git("commit", "-q", "-am", "spoil", where=tree)
    before = files(tree)
    with pytest.raises(releasing.CannotRelease, match=said):
        releasing.release(version, root=tree, tests=False)
    assert files(tree) == before
    assert not git("tag", where=tree)
