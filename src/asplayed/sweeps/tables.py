"""The rows of a sweep as a file: CSV, or Parquet with its columns' kinds; written as they come, whole or not at all."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from pathlib import Path

from asplayed.errors import BadInput
from asplayed.sweeps.studies import Row

ROWS_A_GROUP = 65_536


def write_table(rows: Iterable[Row], columns: Mapping[str, type], place: Path) -> int:
    """Write the rows to a file ending in .csv or .parquet; how many there were. Only a few rows are held at a time.

    Refused with `BadInput`: another ending, a place that cannot be written, Parquet without pyarrow.
    """
    check_table(place)
    half = place.with_name(place.name + ".part")
    try:
        count = (_parquet if place.suffix.lower() == ".parquet" else _csv)(iter(rows), columns, half)
        half.replace(place)
    except OSError as fault:
        raise BadInput(f"{place} cannot be written ({fault.strerror}); name a place that can be") from fault
    finally:
        half.unlink(missing_ok=True)
    return count


def check_table(place: Path) -> None:
    """Refuse before the work what could not be written after it."""
    kind = place.suffix.lower()
    if kind not in (".csv", ".parquet"):
        raise BadInput(f"{place} ends in {kind or 'nothing'}; a table is written as .csv or .parquet")
    if not place.resolve().parent.is_dir():
        raise BadInput(f"{place}: there is no folder {place.parent}; make it first")
    if kind == ".parquet":
        try:
            import pyarrow  # noqa: F401
        except ImportError:
            raise BadInput(
                "Parquet needs pyarrow, which is not installed: pip install 'asplayed[parquet]', or name a .csv"
            ) from None


def _csv(rows: Iterator[Row], columns: Mapping[str, type], place: Path) -> int:
    count = 0
    with place.open("w", newline="", encoding="utf-8") as stream:
        writer = csv.writer(stream)
        writer.writerow(columns)
        for row in rows:
            writer.writerow([_harmless(row[name]) for name in columns])
            count += 1
    return count


def _harmless(value: object) -> object:
    """A text that a spreadsheet would take for a formula, with a mark before it that it does not."""
    return f"'{value}" if isinstance(value, str) and value[:1] in ("=", "+", "@", "\t", "\r") else value


def _parquet(rows: Iterator[Row], columns: Mapping[str, type], place: Path) -> int:
    import pyarrow as pa
    from pyarrow import parquet

    kinds = {str: pa.string(), int: pa.int64(), float: pa.float64()}
    schema = pa.schema([(name, kinds[kind]) for name, kind in columns.items()])
    count = 0
    with parquet.ParquetWriter(place, schema) as writer:
        while group := list(islice(rows, ROWS_A_GROUP)):
            writer.write_table(pa.Table.from_pylist(group, schema=schema))
            count += len(group)
    return count
