"""What the verbs share: options, reading what was given, strict JSON, tables that fit the terminal."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeVar

import click

from asplayed.errors import BadInput
from asplayed.quantities.texts import decode

if TYPE_CHECKING:
    from rich.console import Console

    from asplayed.clubs import GolfSet

Verb = TypeVar("Verb", bound=Callable[..., Any])

MEGABYTE = 1_000_000
_NARROWEST = 12  # letters to which a column of wrapped cells may shrink
MOST_PANELS = 3
"""How many tables one wide table may be cut into before its rows are told one by one instead."""


def store_option(verb: Verb) -> Verb:
    """`--store`: where the records are kept."""
    return click.option(
        "--store",
        envvar="ASPLAYED_STORE",
        show_envvar=True,
        metavar="PATH",
        help="The store: a file, or a postgresql:// address. Default: in your data folder.",
    )(verb)


def json_option(verb: Verb) -> Verb:
    """`--json`: answer in JSON on standard output."""
    return click.option("--json", "as_json", is_flag=True, help="Answer in JSON.")(verb)


def max_size_option(verb: Verb) -> Verb:
    """`--max-size`: the largest input taken, in megabytes."""
    return click.option(
        "--max-size",
        type=click.IntRange(min=1),
        default=64,
        show_default=True,
        metavar="MB",
        help="Refuse inputs larger than this many megabytes.",
    )(verb)


# ---------------------------------------------------------------------------------------------- what was given


class Given(NamedTuple):
    """What a LIST or a SET turned out to be: where it came from, and its bytes as they came."""

    called: str
    """What an error calls it: the file as given, `standard input`, or the stored set."""
    name: str
    """The file's name without its ending, the stored name, or nothing for standard input."""
    original: bytes
    stored: bool = False

    @property
    def text(self) -> str:
        """The words as text."""
        return decode(self.original, self.called)


def read_bytes(source: str, max_size: int = 64) -> bytes:
    """The bytes of a file, or of standard input for `-`; more than `max_size` megabytes are refused unread."""
    limit = max_size * MEGABYTE
    called = "standard input" if source == "-" else source
    if source == "-":
        found = sys.stdin.buffer.read(limit + 1)
    else:
        try:
            with Path(source).open("rb") as stream:
                found = stream.read(limit + 1)
        except FileNotFoundError:
            raise BadInput(f"there is no file {source}; check the name, or give - to read standard input") from None
        except IsADirectoryError:
            raise BadInput(f"{source} is a folder, not a file; name a file in it") from None
        except (OSError, ValueError) as fault:
            reason = fault.strerror if isinstance(fault, OSError) else "its name cannot be a file's"
            raise BadInput(f"{source} cannot be read: {reason}") from None
    if len(found) > limit:
        raise BadInput(f"{called} is larger than {max_size} MB; raise the limit with --max-size if it is meant")
    if not found.strip():
        raise BadInput(f"{called} is empty; there is nothing in it to read")
    return found


def read_text(source: str, max_size: int = 64) -> str:
    """The text of a file or of standard input; what is not text is refused."""
    return decode(read_bytes(source, max_size), "standard input" if source == "-" else source)


def find_words(source: str, store: str | None, max_size: int = 64) -> Given:
    """The words behind a LIST: of a file, of standard input, or the original of a stored set.

    A file of that name comes before a stored set.
    """
    if source == "-":
        return Given("standard input", "", read_bytes(source, max_size))
    if Path(source).is_file() or looks_like_path(source):
        return Given(source, Path(source).stem, read_bytes(source, max_size))
    from asplayed.keeping import read_set

    stored = read_set(source, store)
    return Given(f"the stored {stored.name}", stored.name, stored.original, stored=True)


def load_set(source: str, store: str | None, max_size: int = 64) -> GolfSet:
    """The set behind a SET: stored, or a file or standard input with a list's words or the JSON of `read`."""
    if source == "-" or Path(source).is_file() or looks_like_path(source):
        from asplayed.keeping.understanding import understand

        return understand(read_text(source, max_size), "standard input" if source == "-" else source, store)
    from asplayed.keeping import read_set

    return read_set(source, store).golf_set


def looks_like_path(source: str) -> bool:
    """True for what can only be meant as a file: it has a separator or a usual ending."""
    return os.sep in source or "/" in source or Path(source).suffix.lower() in {".txt", ".json", ".md", ".csv", ".tsv"}


def column_map_of(path: str) -> dict[str, str]:
    """The user's column map: names of the table's columns to known ones, to "" or null for a note."""
    import json

    example = 'write it as {"Head wt": "mass", "Our code": null}'
    try:
        found = json.loads(read_bytes(path, 1).decode("utf-8-sig"))
    except (UnicodeDecodeError, json.JSONDecodeError, RecursionError):
        raise BadInput(f"{path} is not a column map in JSON; {example}") from None
    if not isinstance(found, dict) or not all(isinstance(v, str | None) for v in found.values()):
        raise BadInput(f"{path} is not a map of names to names; {example}")
    return {theirs: ours or "" for theirs, ours in found.items()}


def remembered_columns(header: tuple[str, ...], store: str | None) -> dict[str, str]:
    """What the user once said the columns of a table with this header mean."""
    from asplayed.keeping.columns import recall
    from asplayed.keeping.reading import reading

    with reading(store) as read:
        return recall(read, header) or {}


# ------------------------------------------------------------------------------------------------ what is shown


def print_json(value: Any) -> None:
    """`value` as strict JSON on standard output, in UTF-8 whatever the locale: no NaN, no infinity."""
    import json

    click.echo(json.dumps(value, ensure_ascii=False, allow_nan=False, indent=2).encode())


def console() -> Console:
    """Standard output as a rich console: colour on terminals only, full width where nobody looks at a width."""
    from rich.console import Console

    width = None if sys.stdout.isatty() or "COLUMNS" in os.environ else 200
    return Console(file=sys.stdout, width=width, highlight=False, emoji=False, markup=False, soft_wrap=False)


def print_table(
    columns: Sequence[str],
    rows: Iterable[Sequence[str]],
    *,
    right: Iterable[str] = (),
    wrap: Iterable[str] = (),
    page: Console | None = None,
) -> None:
    """Rows under their columns; what is too wide for the terminal goes on below, in as many tables as it takes.

    `right` names the columns set to the right, `wrap` those whose cells may take several lines. A row's first cell
    names it. Where a single column is too wide, the rows follow one another, each column on a line of its own.
    """
    from rich import box
    from rich.cells import cell_len
    from rich.table import Table
    from rich.text import Text

    page = page or console()
    rows = [[str(cell) for cell in row] for row in rows]
    widths = [
        max(cell_len(line) for cell in cells for line in cell.splitlines() or [""])
        for cells in zip(columns, *rows, strict=True)
    ]
    folding = [place for place, name in enumerate(columns) if name in wrap]
    if folding:
        left = page.width - 2 * len(columns) - 2 - sum(widths) + sum(widths[place] for place in folding)
        for place in folding:
            widths[place] = min(widths[place], max(left // len(folding), _NARROWEST))
    found = panels(widths, page.width)
    if len(found) > MOST_PANELS or max(widths[1:], default=0) + widths[0] + 4 > page.width:
        for row in rows:
            print_row(columns, row, page)
        return
    for panel in found:
        table = Table(box=box.SIMPLE_HEAD, pad_edge=False, padding=(0, 1, 0, 0))
        for place in panel:
            justify: Literal["left", "right"] = "right" if columns[place] in right else "left"
            table.add_column(Text(columns[place]), justify=justify, no_wrap=place not in folding, overflow="fold")
        for row in rows:
            table.add_row(*(Text(row[place]) for place in panel))
        page.print(table)


def panels(widths: Sequence[int], width: int) -> list[list[int]]:
    """Which columns stand in which table, so that none is wider than `width`; the first stands in each.

    >>> panels([6, 8, 8, 8], 30)
    [[0, 1, 2], [0, 3]]
    """
    found = [[0]]
    for place in range(1, len(widths)):
        if sum(widths[other] + 2 for other in (*found[-1], place)) + 2 > width and found[-1] != [0]:
            found.append([0])
        found[-1].append(place)
    return found


def print_row(columns: Sequence[str], row: Sequence[str], page: Console) -> None:
    """One row as lines: its name, then each filled column with its heading."""
    from rich.text import Text

    headings = [" ".join(title.split()) for title in columns[1:]]
    label = max((len(title) for title in headings), default=0)
    page.print(Text(row[0], style="bold"))
    for title, cell in zip(headings, row[1:], strict=True):
        if cell:
            page.print(Text(f"  {title.ljust(label)}  {' '.join(cell.splitlines())}"))


def who() -> str:
    """The name under which what is stored is signed: that of the user of this machine."""
    import getpass

    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "unknown"
