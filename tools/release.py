"""Make a release: `make release VERSION=0.2.0`, or `python tools/release.py 0.2.0`.

Writes the version and the changelog's heading, runs the tests, builds wheel and sdist, installs each into a new
environment and runs the demo there, then commits and tags. Where anything fails, everything stands as it was before.
Nothing is uploaded.
"""

from __future__ import annotations

import argparse
import datetime
import os
import re
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
VERSION = re.compile(r'^__version__ = "([^"]+)"$', re.MULTILINE)
UNRELEASED = re.compile(r"^## Unreleased\n(.*?)(?=^## |\Z)", re.MULTILINE | re.DOTALL)
MUST_HOLD = ("asplayed/demo/catalogue.csv", "asplayed/telling/templates/common.typ", "asplayed/web/pages/base.html")


class CannotRelease(Exception):
    """Why there is no release, in one sentence."""


def run(*command: str | Path, where: Path, **environment: str) -> str:
    """A command's output; a failure is told with its last lines."""
    words = [str(word) for word in command]
    done = subprocess.run(
        words, cwd=where, env={**os.environ, **environment}, capture_output=True, text=True, check=False
    )
    if done.returncode:
        last = "\n".join((done.stdout + done.stderr).strip().splitlines()[-15:])
        raise CannotRelease(f"{' '.join(words)} failed:\n{last}")
    return done.stdout


def numbered(version: str) -> tuple[int, ...]:
    """A version's numbers; anything but three of them is refused."""
    if not re.fullmatch(r"\d+\.\d+\.\d+", version):
        raise CannotRelease(f"{version!r} is not a version; write it as 0.2.0")
    return tuple(int(part) for part in version.split("."))


def written(root: Path, version: str, day: str) -> dict[Path, str]:
    """The files that carry the version, as they should stand."""
    home, log = root / "src/asplayed/__init__.py", root / "CHANGELOG.md"
    code, told = home.read_text("utf-8"), log.read_text("utf-8")
    now = VERSION.search(code)
    if now is None:
        raise CannotRelease(f"{home} names no version")
    released = f"## {now[1]} " in told
    if numbered(version) < numbered(now[1]) or (numbered(version) == numbered(now[1]) and released):
        raise CannotRelease(f"{version} does not come after {now[1]}")
    new = UNRELEASED.search(told)
    if new is None or not new[1].strip():
        raise CannotRelease("the changelog tells nothing under Unreleased; say what changed first")
    return {
        home: VERSION.sub(f'__version__ = "{version}"', code),
        log: told.replace("## Unreleased\n", f"## Unreleased\n\n## {version} · {day}\n", 1),
    }


def build(root: Path, into: Path) -> list[Path]:
    """The wheel and the sdist, built without the network."""
    run(sys.executable, "-m", "hatchling", "build", "-d", into, where=root)
    made = sorted(into.glob("asplayed-*"))
    held = set()
    for path in made:
        if path.suffix == ".whl":
            held = set(zipfile.ZipFile(path).namelist())
        else:
            with tarfile.open(path) as archive:
                strange = [name for name in archive.getnames() if re.search(r"\.(db|sqlite|pyc)$|/\.", name)]
            if any("__pycache__" in name or name.endswith(".pyc") for name in strange):
                raise CannotRelease(f"{path.name} holds compiled files")
    missing = [name for name in MUST_HOLD if name not in held and (root / "src" / name).exists()]
    if len(made) != 2 or missing:
        raise CannotRelease(f"built were {[path.name for path in made]}, without {missing}")
    return made


def prove(artifact: Path, root: Path, *, python: str = sys.executable) -> str:
    """Install one artifact into a new environment with an empty home and run the demo there; what it printed."""
    with tempfile.TemporaryDirectory() as place:
        home = Path(place, "home")
        home.mkdir()
        environment = {"HOME": str(home), "UV_PYTHON_DOWNLOADS": "never", "PYTHONPATH": "", "UV_SYSTEM_CERTS": "true"}
        uv = Path(python).parent / "uv"
        inside = Path(place, "venv", "bin")
        run(uv, "venv", "-q", "--python", python, Path(place, "venv"), where=home, **environment)
        install = (uv, "pip", "install", "-q", "--python", inside / "python")
        run(*install, "--require-hashes", "-r", root / "requirements.lock", where=home, **environment)
        run(*install, "--no-deps", "--no-build-isolation", artifact, where=home, **environment)
        said = run(inside / "asplayed", "demo", Path(place, "week"), where=home, **environment)
        if not Path(place, "week", "jonas-tessler", "index.html").exists():
            raise CannotRelease(f"the demo of {artifact.name} wrote no sheets")
        return said


def release(version: str, *, root: Path = ROOT, tests: bool = True) -> list[Path]:
    """The whole of it; what was built, in `dist`."""
    if run("git", "status", "--porcelain", where=root).strip():
        raise CannotRelease("there are changes that nobody committed; commit or drop them first")
    if version in run("git", "tag", where=root).replace("v", "").split():
        raise CannotRelease(f"v{version} exists already")
    files = written(root, version, datetime.datetime.now(datetime.UTC).date().isoformat())
    before = {path: path.read_text("utf-8") for path in files}
    kept = False
    try:
        for path, text in files.items():
            path.write_text(text, encoding="utf-8")
        if tests:
            run("make", "test", where=root)
        with tempfile.TemporaryDirectory() as place:
            made = build(root, Path(place))
            for artifact in made:
                prove(artifact, root)
            target = root / "dist"
            target.mkdir(exist_ok=True)
            final = [target / path.name for path in made]
            for path, goal in zip(made, final, strict=True):
                goal.write_bytes(path.read_bytes())
        run("git", "commit", "-q", "-m", f"Release {version}", "--", *files, where=root)
        run("git", "tag", "-a", f"v{version}", "-m", f"asplayed {version}", where=root)
        kept = True
        return final
    finally:
        if not kept:
            for path, text in before.items():
                path.write_text(text, encoding="utf-8")


def main() -> int:
    """Release the version named on the command line."""
    parser = argparse.ArgumentParser(description="Make a release.")
    parser.add_argument("version")
    try:
        made = release(parser.parse_args().version)
    except CannotRelease as fault:
        print(f"no release: {fault}", file=sys.stderr)
        return 1
    print("\n".join(str(path.relative_to(ROOT)) for path in made))
    return 0


if __name__ == "__main__":
    sys.exit(main())
