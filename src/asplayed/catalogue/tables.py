"""Tables that come in: bytes of CSV, TSV, XLSX or pasted text become a header and numbered rows of text.

Knows nothing of what the columns mean. Rows are handed out one by one, so that a large table is never held twice.
Limits guard against files made to exhaust the machine: lines, rows and unpacked sizes are bounded before use.
"""

from __future__ import annotations

import codecs
import csv
import datetime
import io
import itertools
import re
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from asplayed.errors import BadInput
from asplayed.quantities import find_unit

MAX_SIZE = 64_000_000  # bytes of one input
MAX_COLUMNS = 1_000
_LONGEST_LINE = 500_000  # characters of one line, and of one row that spans lines
_MOST_ROWS = 250_000
_LARGEST_SHEET = 3_500_000  # cells in the rectangle that a sheet spans
_LARGEST_UNPACKED = 120_000_000  # bytes of a workbook once unpacked
_TIGHTEST_PACKING = 400  # unpacked bytes per packed byte that ordinary sheets stay under
_EMPTY_ROWS = 100_000  # rows without anything in them, one after another, after which a table has ended
_TITLES = 4  # lines that may stand above the columns, having at most a third of their cells
_SAMPLE = 65_536

_UNIT_IN_BRACKETS = re.compile(r"^(?P<name>.*?)\s*[\[(](?P<unit>[^\[\]()]*)[\])]\s*$", re.DOTALL)
_RULE_LINE = re.compile(r"^[\s|:+=_–—-]+$")
_GAP = re.compile(r"\s{2,}")


class Row(NamedTuple):
    """One row: its line in the file (its row in a sheet) and its cells."""

    line: int
    cells: tuple[str, ...]


class Table(NamedTuple):
    """A table with its column names, the unit of each column ("" where none stands), and its rows, read once."""

    name: str
    columns: tuple[str, ...]
    units: tuple[str, ...]
    rows: Iterator[Row]
    expected: int  # about how many rows there are
    remarks: tuple[str, ...] = ()


def load(path: str | Path, *, max_size: int = MAX_SIZE) -> bytes:
    """The bytes of a file of at most `max_size` bytes."""
    path = Path(path)
    try:
        with path.open("rb") as stream:
            return read_bytes(stream, str(path), max_size=max_size)
    except BadInput:
        raise
    except FileNotFoundError:
        raise BadInput(f"there is no file {str(path)!r}; give the path of a CSV, TSV or XLSX file") from None
    except IsADirectoryError:
        raise BadInput(f"{str(path)!r} is a folder; give the path of a CSV, TSV or XLSX file in it") from None
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "its name cannot be used"
        raise BadInput(f"{str(path)[:200]!r} cannot be read: {reason}") from None


def read_bytes(stream: Any, name: str, *, max_size: int = MAX_SIZE) -> bytes:
    """All of a binary stream, refused when it holds more than `max_size` bytes."""
    data: bytes = stream.read(max_size + 1)
    if len(data) > max_size:
        raise BadInput(
            f"{name} holds more than {max_size / 1e6:g} MB; split it, or allow more with --max-size if it is meant"
        )
    return data


def read_table(data: bytes, name: str = "the table", *, sheet: str | None = None) -> Table:
    """The table in `data`: an XLSX workbook, or text in any common encoding and with any common delimiter.

    >>> table = read_table("model;loft [deg]\\nDunlin;30,5\\n".encode())
    >>> table.columns, table.units, list(table.rows)
    (('model', 'loft'), ('', 'deg'), [Row(line=2, cells=('Dunlin', '30,5'))])
    """
    if not data.strip(b"\x00 \t\r\n\xef\xbb\xbf\xff\xfe"):
        raise BadInput(f"{name} is empty; its first row should name the columns and a row should follow for each part")
    if data[:4] == b"PK\x03\x04":
        return _from_workbook(data, name, sheet)
    if sheet is not None:
        raise BadInput(f"{name} is not a workbook, so it has no sheet {sheet!r}; leave the sheet out")
    return _from_text(data, name)


# --- text ---------------------------------------------------------------------------------------------------------


def _encoding(data: bytes, name: str) -> str:
    for mark, encoding in (
        (codecs.BOM_UTF8, "utf-8-sig"),
        (codecs.BOM_UTF32_LE, "utf-32"),
        (codecs.BOM_UTF32_BE, "utf-32"),
        (codecs.BOM_UTF16_LE, "utf-16"),
        (codecs.BOM_UTF16_BE, "utf-16"),
    ):
        if data.startswith(mark):
            return _checked(data, encoding, name)
    sample = data[:_SAMPLE]
    if b"\x00" in sample:
        half = max(1, len(sample) // 2)
        for encoding, offset in (("utf-16-le", 1), ("utf-16-be", 0)):
            if sample[offset::2].count(0) > 0.6 * half and sample[1 - offset :: 2].count(0) < 0.01 * half + 1:
                return _checked(data, encoding, name)
        if sample.count(0) > max(3, 0.001 * len(sample)):
            raise BadInput(_not_text(data, name))
    if sum(sample.count(byte) for byte in (*range(1, 9), *range(14, 32), 127)) > max(3, 0.01 * len(sample)):
        raise BadInput(_not_text(data, name))
    return "utf-8" if _decodes(data, "utf-8") else "cp1252" if _decodes(data, "cp1252") else "latin-1"


def _checked(data: bytes, encoding: str, name: str) -> str:
    if not _decodes(data, encoding):
        raise BadInput(f"{name} begins like {encoding.upper()} text but is damaged; save it again as UTF-8 CSV")
    return encoding


def _decodes(data: bytes, encoding: str) -> bool:
    decoder = codecs.getincrementaldecoder(encoding)()
    try:
        for start in range(0, len(data), 1 << 20):
            decoder.decode(data[start : start + (1 << 20)])
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        return False
    return True


def _not_text(data: bytes, name: str) -> str:
    known = {
        b"%PDF": "a PDF",
        b"\x89PNG": "a picture",
        b"\xff\xd8\xff": "a picture",
        b"\x1f\x8b": "a packed file (gzip)",
        b"\xd0\xcf\x11\xe0": "a workbook of the old binary kind (.xls) or a locked one",
        b"SQLi": "a database",
    }
    kind = next((words for mark, words in known.items() if data.startswith(mark)), "not text")
    return f"{name} is {kind}; a table is needed: save it as CSV or XLSX and import that"


def _lines(data: bytes, encoding: str, name: str) -> Iterator[str]:
    stream = io.TextIOWrapper(io.BytesIO(data), encoding=encoding, newline="")
    number = 0
    while line := stream.readline(_LONGEST_LINE + 1):
        number += 1
        if len(line) > _LONGEST_LINE:
            raise BadInput(
                f"{name}, line {number}: the line is longer than {_LONGEST_LINE:,} characters; "
                "a table has one part a line, so check that this is the right file"
            )
        yield line


class _Counted:
    """Lines for the CSV reader, counted, and bounded for rows that a stray quotation mark stretches over many."""

    def __init__(self, lines: Iterator[str], name: str) -> None:
        self._lines, self._name = lines, name
        self.taken = self.size = 0

    def __iter__(self) -> _Counted:
        return self

    def __next__(self) -> str:
        line = next(self._lines)
        self.taken += 1
        self.size += len(line)
        if self.size > _LONGEST_LINE:
            raise BadInput(
                f"{self._name}, line {self.taken}: a quotation mark opened before this line is never closed; "
                'close it, or write a double quotation mark as ""'
            )
        return line


def _split_rows(lines: Iterator[str], delimiter: str, name: str) -> Iterator[Row]:
    if delimiter in {"|", ""}:
        for number, line in enumerate(lines, 1):
            text = line.strip("\r\n")
            if delimiter == "|":
                if _RULE_LINE.match(text):
                    continue
                text = text.strip()
                cells = text.removeprefix("|").removesuffix("|").split("|")
            else:
                cells = _GAP.split(text.strip()) if text.strip() else []
            yield Row(number, tuple(cells))
        return
    counted = _Counted(lines, name)
    reader = csv.reader(counted, delimiter=delimiter, strict=True)
    start = 1
    try:
        for cells in reader:
            counted.size = 0
            yield Row(start, tuple(cells))
            start = counted.taken + 1
    except csv.Error as fault:
        if "field larger" in str(fault):
            fault = csv.Error("one cell holds more than 131,072 characters")
        elif "unexpected end" in str(fault):
            fault = csv.Error("a quotation mark is opened and never closed")
        elif "expected after" in str(fault):
            fault = csv.Error('text follows a closing quotation mark; write a mark inside a cell as ""')
        raise BadInput(f"{name}, line {start}: {fault}; correct that line") from None


def _delimiter(lines: list[str]) -> str:
    """The mark that splits the line with most cells; a title above the columns has few."""
    counts = {"": 0}
    for line in lines:
        bare = re.sub(r'"[^"]*"', "", line)
        for mark in ("\t", "|", ";", ","):
            counts[mark] = max(counts.get(mark, 0), bare.count(mark))
    return max(counts, key=lambda mark: counts[mark])


def _from_text(data: bytes, name: str) -> Table:
    expected = data.count(b"\n") or data.count(b"\r")
    _refuse_many(expected, name)
    encoding = _encoding(data, name)
    worded = (line for line in _lines(data, encoding, name) if line.strip() and not _RULE_LINE.match(line))
    first = list(itertools.islice(worded, 1 + _TITLES))
    rows = _ended(_split_rows(_lines(data, encoding, name), _delimiter(first), name), name)
    return _with_header(name, rows, expected)


# --- workbooks ----------------------------------------------------------------------------------------------------

_CELL_PLACE = re.compile(rb"""\sr\s*=\s*["']([A-Z]{0,3})(\d{1,7})["']""")
_NO_PLACE = re.compile(rb"""\sr\s*=\s*["'](?![A-Z]{0,3}[1-9]\d{0,6}["'])""")
_UNSAVED_FORMULA = re.compile(
    rb"""<(?:\w+:)?c\b([^<>]*)>\s*<(?:\w+:)?f\b(?:[^<>]*/>|[^<>]*>[^<]*</(?:\w+:)?f>)\s*(?:<(?:\w+:)?v\s*/>\s*)?</(?:\w+:)?c>"""
)


_BLOCK = 1 << 20


def _refuse_many(rows: int, name: str) -> None:
    if rows > _MOST_ROWS:
        raise BadInput(f"{name} has about {rows:,} rows; at most {_MOST_ROWS:,} are taken at once, so split it")


def _from_workbook(data: bytes, name: str, sheet: str | None) -> Table:
    faults = (zipfile.BadZipFile, RuntimeError, NotImplementedError, OSError, EOFError, ValueError, zlib.error)
    try:
        formulas = _inspect(data, name)
    except BadInput:
        raise
    except faults:
        raise BadInput(f"{name} is a damaged or locked workbook; open it, save it anew as XLSX and try again") from None
    import python_calamine

    try:
        book = python_calamine.CalamineWorkbook.from_filelike(io.BytesIO(data))
        names = book.sheet_names
        if sheet is not None and sheet not in names:
            raise BadInput(f"{name} has no sheet {sheet[:80]!r}; its sheets are {', '.join(names[:10])}")
        for title in (sheet,) if sheet is not None else names:
            page = book.get_sheet_by_name(title)
            if page.total_height:
                break
        else:
            raise BadInput(f"{name} has no sheet with anything in it")
        others = [other for other in names if other != title]
    except BadInput:
        raise
    except BaseException as fault:  # a fault inside the compiled reader arrives as a bare BaseException
        if isinstance(fault, KeyboardInterrupt | SystemExit | MemoryError):
            raise
        raise BadInput(f"{name} is not an XLSX workbook that can be read; save it anew as XLSX or CSV") from None
    _refuse_many(page.total_height, name)
    remarks = []
    if others and sheet is None:
        remarks.append(f"read from the sheet {title!r}; left aside: {', '.join(others)[:400]}")
    if formulas:
        remarks.append(f"{name} holds {formulas} formulas; the results saved with them were taken")
    rows = (Row(number, tuple(map(_cell_text, cells))) for number, cells in enumerate(page.iter_rows(), 1))
    table = _with_header(name, _ended(rows, name), page.total_height)
    return table._replace(remarks=(*remarks, *table.remarks))


def _inspect(data: bytes, name: str) -> int:
    """Refuse a workbook that would unpack or spread to more than the machine should bear; count its formulas."""
    formulas = 0
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        members = archive.infolist()
        unpacked = sum(member.file_size for member in members)
        if unpacked > _LARGEST_UNPACKED or (unpacked > 10_000_000 and unpacked > _TIGHTEST_PACKING * len(data)):
            raise BadInput(
                f"{name} would unpack to {unpacked / 1e6:,.0f} MB, more than a table of parts needs; save it as CSV"
            )
        if not any(member.filename.lower().startswith("xl/") for member in members):
            raise BadInput(f"{name} is a packed file but not an XLSX workbook; save the table as CSV or XLSX")
        if len({member.filename for member in members}) != len(members):
            raise BadInput(f"{name} holds two files of one name; save it anew as XLSX")
        for member in members:
            if member.filename.lower().endswith((".xml", ".rels")):
                with archive.open(member) as stream:
                    formulas += _inspect_part(stream, member.filename, name)
    return formulas


def _inspect_part(stream: Any, part: str, name: str) -> int:
    formulas = cells = starts = 0
    rows: list[int] = []
    widest = (1 << 30, 0)
    tail = b""
    is_sheet = "sheet" in part.lower() and not part.lower().endswith(".rels")
    while block := stream.read(_BLOCK):
        text = tail + block
        if b"<!DOCTYPE" in text or b"<!ENTITY" in text:
            raise BadInput(f"{name} declares XML entities, which a workbook never needs; save it anew as XLSX")
        if is_sheet:
            if unsaved := _UNSAVED_FORMULA.search(text):
                place = re.search(rb"""r\s*=\s*["'](\w+)""", unsaved[1])
                where = place[1].decode() if place else "a cell"
                raise BadInput(
                    f"{name}, cell {where}: it holds a formula whose result was never saved; "
                    "open and save the workbook in a spreadsheet program, or type the value"
                )
            nowhere = _NO_PLACE.search(text)
            if nowhere and (len(block) < _BLOCK or nowhere.start() < len(text) - 40):
                raise zipfile.BadZipFile("a cell without a place")
            cells += block.count(b"<c ") + block.count(b"<c>")
            starts += block.count(b"<row")
            _refuse_many(starts, name)
            if cells > _LARGEST_SHEET or cells > MAX_COLUMNS * (starts + 1):
                raise BadInput(f"{name} has a sheet with more cells than a table of parts needs; save it as CSV")
            found = _CELL_PLACE.findall(text)
            if found:
                numbers = [int(row) for _, row in found]
                rows = [min(numbers + rows[:1]), max(numbers + rows[1:])]
                letters = {column.upper() for column, _ in found if column}
                columns = [_column_number(column) for column in letters]
                if columns:
                    widest = min(widest[0], *columns), max(widest[1], *columns)
            formulas += block.count(b"<f>") + block.count(b"<f ")
        tail = text[-400:]
    if rows and (widest[1] > MAX_COLUMNS or (rows[1] - rows[0] + 1) * max(1, widest[1]) > _LARGEST_SHEET):
        raise BadInput(
            f"{name} has a sheet that spans {rows[1]:,} rows and {widest[1]:,} columns, "
            f"more than {_LARGEST_SHEET:,} cells; delete what lies outside the table, or save it as CSV"
        )
    return formulas


def _column_number(letters: bytes) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + letter - 64
    return number


def _cell_text(value: Any) -> str:
    if isinstance(value, str):
        return value
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{value:.12g}" if abs(value) < 1e12 else str(value)
    if isinstance(value, datetime.datetime):
        return value.date().isoformat()
    return str(value)


# --- header -------------------------------------------------------------------------------------------------------


def _ended(rows: Iterator[Row], name: str) -> Iterator[Row]:
    """The rows with something in them, refused when very many empty ones follow one another."""
    empty = 0
    for row in rows:
        if any(cell and not cell.isspace() for cell in row.cells):
            empty = 0
            yield row
            continue
        empty += 1
        if empty > _EMPTY_ROWS:
            raise BadInput(
                f"{name}, line {row.line}: more than {_EMPTY_ROWS:,} empty rows stand before it; delete the empty rows"
            )


def split_unit(cell: str) -> tuple[str, str]:
    """A column's name and the unit in brackets behind it, "" where none stands.

    >>> split_unit("carry [yd]"), split_unit("flex (as written)")
    (('carry', 'yd'), ('flex (as written)', ''))
    """
    bracketed = _UNIT_IN_BRACKETS.match(cell)
    if bracketed and (find_unit(bracketed["unit"]) or cell.endswith("]")):
        return bracketed["name"].strip(), bracketed["unit"].strip()
    return cell, ""


def _with_header(name: str, rows: Iterator[Row], expected: int) -> Table:
    beginning = list(itertools.islice(rows, 1 + _TITLES))
    if not beginning:
        raise BadInput(f"{name} has no row that names the columns")
    widest = max(map(_filled, beginning))
    place = next(place for place, row in enumerate(beginning) if 3 * _filled(row) > widest)
    titles = tuple(f"line {row.line} was taken for a title: {_first(row)[:80]}" for row in beginning[:place])
    header = beginning[place]
    rows = itertools.chain(beginning[place + 1 :], rows)
    cells = list(header.cells)
    while cells and not cells[-1].strip():
        cells.pop()
    if len(cells) > MAX_COLUMNS:
        raise BadInput(
            f"{name}, line {header.line}: the first row names {len(cells):,} columns; "
            f"a table has at most {MAX_COLUMNS:,}, so check that this is the right file"
        )
    columns, units = [], []
    for written in cells:
        cell = " ".join(written.split())
        column, unit = split_unit(cell)
        columns.append(column)
        units.append(unit)
    second = next(rows, None)
    below = [] if second is None else [cell.strip().strip("[]()").strip() for cell in second.cells]
    if any(below) and all(not unit or (unit != "1" and find_unit(unit)) for unit in below):
        units = [unit or (below[i] if i < len(below) else "") for i, unit in enumerate(units)]
        second = None
    rest = rows if second is None else itertools.chain((second,), rows)
    return Table(name, tuple(columns), tuple(units), rest, expected, titles)


def _filled(row: Row) -> int:
    return sum(bool(cell and not cell.isspace()) for cell in row.cells)


def _first(row: Row) -> str:
    return next(cell.strip() for cell in row.cells if cell and not cell.isspace())


csv.field_size_limit(131_072)
