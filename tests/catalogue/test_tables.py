"""Tables come in whatever their encoding, delimiter or wrapping; what cannot be a table is refused in a sentence."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from asplayed.catalogue.tables import load, read_table
from asplayed.errors import BadInput

HEADER = ["part", "model", "loft [deg]"]
ROWS = [HEADER, ["head", "Dunlin ½", "30.5"], ["head", "Gannet 5", "33.5"]]
WANTED = [(2, ("head", "Dunlin ½", "30.5")), (3, ("head", "Gannet 5", "33.5"))]


def workbook(rows: list[list[object]], **sheets: list[list[object]]) -> bytes:
    data = io.BytesIO()
    book = xlsxwriter.Workbook(data, {"in_memory": True})
    for title, content in {"Parts": rows, **sheets}.items():
        sheet = book.add_worksheet(title)
        for number, row in enumerate(content):
            sheet.write_row(number, 0, row)
    book.close()
    return data.getvalue()


def changed(data: bytes, change: Callable[[bytes], bytes], part: str = "xl/worksheets/sheet1.xml") -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        for member in old.infolist():
            content = old.read(member)
            new.writestr(member.filename, change(content) if member.filename == part else content)
    return made.getvalue()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_every_writing_of_a_table_reads_alike(encoding: str, delimiter: str, ending: str) -> None:
    text = ending.join(delimiter.join(row) for row in ROWS) + ending
    table = read_table(text.encode(encoding))
    assert (table.columns, table.units) == (("part", "model", "loft"), ("", "", "deg"))
    assert [tuple(row) for row in table.rows] == WANTED


def test_a_table_pasted_from_a_page_reads_by_its_pipes_or_its_gaps() -> None:
    piped = "\n| part | model | loft [deg] |\n|---|:--|--:|\n| head | Dunlin | 30.5 |\n"
    assert [row.cells[1].strip() for row in read_table(piped.encode()).rows] == ["Dunlin"]
    spaced = "part   model     loft [deg]\nhead   Dunlin 2  30.5\n"
    assert next(read_table(spaced.encode()).rows).cells == ("head", "Dunlin 2", "30.5")


def test_titles_above_the_columns_are_said_and_passed_over() -> None:
    table = read_table(b"Oskell irons, 2025\n\nmodel\tloft\tmass\nDunlin\t30\t267\n")
    assert table.columns == ("model", "loft", "mass")
    assert table.remarks == ("line 1 was taken for a title: Oskell irons, 2025",)
    assert [row.line for row in table.rows] == [4]
    assert read_table(b"model\nDunlin\n").columns == ("model",)


def test_units_may_stand_in_a_second_row() -> None:
    table = read_table(b"model,loft,mass\n,deg,[g]\nDunlin,30,260\n")
    assert table.units == ("", "deg", "g")
    assert [row.line for row in table.rows] == [3]


def test_lines_are_those_of_the_file_when_cells_span_lines_and_lines_are_blank() -> None:
    table = read_table(b'model,note\n\n"Dunlin","two\nlines"\n\nGannet,one\n')
    assert [row.line for row in table.rows] == [3, 6]


def test_a_workbook_reads_like_its_text() -> None:
    table = read_table(workbook([HEADER, ["head", "Dunlin ½", 30.5], ["head", "Gannet 5", 33.5]]))
    assert [tuple(row) for row in table.rows] == WANTED


def test_of_several_sheets_the_first_with_anything_is_read_and_the_rest_are_named() -> None:
    data = workbook([], Irons=ROWS, Wedges=ROWS)
    table = read_table(data)
    assert len(list(table.rows)) == 2
    assert "Irons" in table.remarks[0]
    assert "Wedges" in table.remarks[0]
    assert len(list(read_table(data, sheet="Wedges").rows)) == 2
    with pytest.raises(BadInput, match="no sheet 'Woods'"):
        read_table(data, sheet="Woods")


def test_a_formula_counts_by_its_saved_result_and_without_one_is_refused_by_its_cell() -> None:
    data = io.BytesIO()
    book = xlsxwriter.Workbook(data, {"in_memory": True})
    sheet = book.add_worksheet()
    sheet.write_row(0, 0, HEADER)
    sheet.write_row(1, 0, ["head", "Dunlin"])
    sheet.write_formula(1, 2, "=30+0.5", None, 30.5)
    book.close()
    table = read_table(data.getvalue())
    assert next(table.rows).cells[2] == "30.5"
    assert "1 formulas" in table.remarks[0]
    with pytest.raises(BadInput, match="cell C2: it holds a formula"):
        read_table(changed(data.getvalue(), lambda xml: xml.replace(b"<v>30.5</v>", b"")))


GOOD = workbook(ROWS)
FAR = b'<row r="1048576"><c r="XFD1048576"><v>1</v></c></row></sheetData>'
HOSTILE = {
    "nothing": (b"", "empty"),
    "blank lines": (b"\n \n\t\n", "empty"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(32)) * 9, "picture"),
    "noise": (bytes(range(256)) * 50, "not text"),
    "damaged UTF-16": ("part,model\nhead,x".encode("utf-16")[:-1], "damaged"),
    "a line of 30 MB": (b"part,model\n" + b"x" * 30_000_000, "line 2: the line is longer"),
    "a million columns": (b"c," * 1_000_000 + b"\n1\n", "line 1: the line is longer"),
    "many columns": (b",".join(b"%d" % n for n in range(1500)) + b"\n1\n", "names 1,500 columns"),
    "an open quotation mark": (b'part,model\nhead,"open\n' + b"a,b\n" * 9, "line 2: a quotation mark"),
    "quotation marks over every line": (b'part,model\n"' + b'\n","' * 150_000, "quotation mark"),
    "text behind a quotation mark": (b'part,model\nhead,"a"b\n', "line 2: text follows"),
    "very many rows": (b"part,model\n" + b"head,x\n" * 300_000, "300,001 rows"),
    "very many empty rows": (b"part,model\n" + b",\n" * 120_000, "empty rows"),
    "a packed file": (changed(GOOD, lambda _: b"", "none")[:60], "damaged"),
    "half a workbook": (GOOD[: len(GOOD) // 2], "damaged"),
    "a workbook that unpacks to 200 MB": (
        changed(GOOD, lambda xml: xml.replace(b"<sheetData>", b"<sheetData>" + b" " * 200_000_000)),
        "unpack to 200 MB",
    ),
    "a cell far away": (changed(GOOD, lambda xml: xml.replace(b"</sheetData>", FAR)), "spans 1,048,576 rows"),
    "a cell nowhere": (changed(GOOD, lambda xml: xml.replace(b'"A2"', b'"ZZZZZZ99999999999"')), "damaged"),
    "XML entities": (
        changed(GOOD, lambda xml: xml.replace(b"?>", b'?><!DOCTYPE a [<!ENTITY b "c">]>', 1)),
        "XML entities",
    ),
    "broken XML": (changed(GOOD, lambda xml: xml[:-60]), "cannot|can be read|damaged"),
    "broken workbook": (changed(GOOD, lambda _: b"<x", "xl/workbook.xml"), "can be read|damaged|nothing"),
    "a shared text that is not there": (changed(GOOD, lambda xml: xml.replace(b"<v>1</v>", b"<v>99</v>")), "read"),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_what_is_no_table_is_refused_in_one_sentence(name: str) -> None:
    data, wanted = HOSTILE[name]
    with pytest.raises(BadInput, match=wanted) as refused:
        list(read_table(data, "specs").rows)
    assert len(str(refused.value)) < 300
    assert "\n" not in str(refused.value)


def test_a_file_that_is_missing_a_folder_or_too_large_is_named(tmp_path: Path) -> None:
    folder = tmp_path
    (folder / "large.csv").write_bytes(b"x" * 1001)
    with pytest.raises(BadInput, match="no file"):
        load(folder / "none.csv")
    with pytest.raises(BadInput, match="folder"):
        load(folder)
    with pytest.raises(BadInput, match=r"more than 0\.001 MB"):
        load(folder / "large.csv", max_size=1000)


@given(st.binary(max_size=300))
def test_any_bytes_are_a_table_or_refused(data: bytes) -> None:
    try:
        table = read_table(data)
        for row in table.rows:
            assert any(cell.strip() for cell in row.cells)
    except BadInput as fault:
        assert str(fault)


@given(st.integers(0, len(GOOD) - 1), st.binary(min_size=1, max_size=8))
def test_a_workbook_with_changed_bytes_is_a_table_or_refused(place: int, bytes_there: bytes) -> None:
    data = GOOD[:place] + bytes_there + GOOD[place + len(bytes_there) :]
    try:
        list(read_table(data).rows)
    except BadInput as fault:
        assert str(fault)
