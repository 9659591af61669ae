"""Hostile lists, tables, workbooks, records and exports: each is read, or refused in a sentence, in bounds.

Every beginning of a file meets every reader; the long run changes them by chance. What is tried follows
https://owasp.org/www-community/vulnerabilities/ (expansion of entities and archives, paths out of an archive, slow
patterns, formulas) and the usual accidents of text.
"""

from __future__ import annotations

import gzip
import io
import json
import os
import random
import resource
import shutil
import signal
import time
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import xlsxwriter

from asplayed.catalogue import read_parts
from asplayed.catalogue.tables import read_table
from asplayed.clubs import Club
from asplayed.errors import AsplayedError
from asplayed.intake import read
from asplayed.keeping import open_store
from asplayed.keeping.exporting import export
from asplayed.keeping.importing import import_folder
from asplayed.keeping.understanding import set_from_json
from asplayed.players.shots import shots_of
from asplayed.quantities.texts import decode
from asplayed.workshop.gauges import read_measures
from asplayed.workshop.stock import read_stock

from .conftest import golf_set, times

MEMORY = 300_000_000
"""The most that a reader may take beyond what stands already [bytes]."""
LONGEST = 2.0
"""The most of a processor's time that one file may take [s]; asserted in the long run alone."""
HANGS = 60
"""How long a file may take before the test says that it hangs [s]."""

IRON = Club(club="7 iron", kind="iron")

Reader = Callable[[bytes], object]
READERS: dict[str, Reader] = {
    "list": lambda data: read(decode(data, "the list")),
    "record": lambda data: set_from_json(decode(data, "the set"), "the set"),
    "table": lambda data: list(read_table(data).rows),
    "parts": read_parts,
    "measures": lambda data: read_measures(data, "the measures", [IRON], lambda given: decode(given, "the measures")),
    "stock": lambda data: read_stock(data, "the stock"),
    "shots": lambda data: shots_of(read_table(data, "the shots"), [IRON]),
}

GOOD: dict[str, str] = {
    "list": "Ada Brandt\ndriver Kittiwake 10.5, Lindrake 60 S, 45 in\n56 Turnstone bent 1 weak {}\nputter\n",
    "record": '{{"set": {{"player": "{}"}}, "clubs": [{{"club": "driver", "kind": "driver"}}]}}',
    "table": "part,model,loft [deg]\nhead,{},30\n",
    "parts": "part,model,loft [deg]\nhead,{},30\nshaft,Lindrake,\n",
    "measures": "club,loft [deg],note\n7 iron,30,{}\n",
    "stock": "part,name,count\nhead,{},3\n",
    "shots": "club,carry [yd],note\n7 iron,151,{}\n7 iron,148,\n",
}


def zipped(names: dict[str, bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in names.items():
            archive.writestr(name, content)
    return packed.getvalue()


def workbook(cell: str = "Dunlin") -> bytes:
    data = io.BytesIO()
    book = xlsxwriter.Workbook(data, {"in_memory": True})
    sheet = book.add_worksheet()
    sheet.write_row(0, 0, ["part", "model"])
    sheet.write_string(1, 0, "head")
    sheet.write_string(1, 1, cell)
    book.close()
    return data.getvalue()


def linked() -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        link = zipfile.ZipInfo("xl/workbook.xml")
        link.external_attr = 0o120777 << 16
        archive.writestr(link, "/etc/passwd")
    return packed.getvalue()


ENTITIES = '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "bbbbbbbb">' + "".join(
    f'<!ENTITY {chr(99 + n)} "{f"&{chr(98 + n)};" * 20}">' for n in range(9)
) + "]><a>&k;</a>"  # fmt: skip

WHOLE: dict[str, bytes] = {
    "nothing": b"",
    "blanks": b" \n\t\r\n" * 1000,
    "a NUL": b"\0",
    "many NULs": b"\0" * 100_000,
    "no UTF-8": b"\xff\xfe\xfd\xc3\x28" * 500,
    "half a UTF-16": "driver 10.5\n".encode("utf-16")[:-1],
    "a picture": b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 40,
    "a document": b"%PDF-1.7\n" + b"1 0 obj << >> endobj\n" * 500,
    "a program": b"\x7fELF" + bytes(4000),
    "a database": b"SQLite format 3\0" + bytes(4000),
    "a packed text": gzip.compress(b"driver 10.5\n" * 1000),
    "a million columns": b"c," * 500_000 + b"\n1\n",
    "a million lines": b"\n" * 1_000_000,
    "a line without an end": b"x" * 3_000_000,
    "open quotation": b'part,model\nhead,"' + b"x,y\n" * 20_000,
    "only quotation marks": b'"' * 200_000,
    "deep JSON": b"[" * 100_000,
    "deeper JSON": b'{"set":' * 50_000,
    "a number of many digits": b'{"clubs": [{"lines": [' + b"9" * 200_000 + b"]}]}",
    "not a number": b'{"clubs": [{"length": {"value": NaN}}]}',
    "the same key often": b"{" + b'"set": {}, ' * 20_000 + b'"x": 1}',
    "entities": ENTITIES.encode(),
    "a bomb": zipped({"xl/workbook.xml": b" " * 60_000_000}),
    "a bomb in a bomb": zipped({"a.zip": zipped({"b": b"0" * 10_000_000}), "xl/workbook.xml": b"<x/>"}),
    "a path out": zipped({"../../../../tmp/asplayed-out": b"x", "xl/workbook.xml": b"<workbook/>"}),
    "a path from the root": zipped({"/tmp/asplayed-out": b"x", "xl/worksheets/sheet1.xml": b"<x/>"}),
    "a link": linked(),
    "many names": zipped({f"xl/{number}": b"" for number in range(3000)}),
    "entities in a workbook": zipped({"xl/workbook.xml": ENTITIES.encode(), "[Content_Types].xml": ENTITIES.encode()}),
    "half a workbook": workbook()[:900],
    "a workbook with a tail": workbook() + b"x" * 10_000,
    "a workbook": workbook("=cmd|' /C calc'!A0"),
}

INSIDE: dict[str, str] = {
    "formula": "=1+1",
    "command": "=cmd|' /C calc'!A0",
    "at": "@SUM(1,2)",
    "minus": "-2+3+cmd|' /C calc'!A0",
    "script": "<script>alert(1)</script>",
    "image": "<img src=x onerror=alert(1)>",
    "query": "'; DROP TABLE sets; --",
    "template": "{{7*7}} ${7*7} #{7*7} <%= 7*7 %>",
    "format": "%s%n%x {0.__class__} {}",
    "path": "../../../../etc/passwd",
    "escape": "\x1b[2J\x1b]0;x\x07",
    "bell and back": "\x07\x08\x7f",
    "turned round": "\u202egnp.exe\u202c",
    "invisible": "\u200b\u200d\ufeff\u2060" * 50,
    "marks": "Z" + "\u0301" * 5000,
    "ligatures": "\ufdfa" * 2000,
    "wide digits": "\uff11\uff10\uff0e\uff15",
    "other digits": "\u0661\u0660.\u0665 deg",
    "fractions": "½¼¾⅛" * 500,
    "slashes": "1/" * 3000,
    "degrees and slashes": "22°/" * 2000,
    "dashes": "-" * 5000,
    "dots": "10." * 3000,
    "brackets": "(" * 3000,
    "closed brackets": "(" * 1500 + ")" * 1500,
    "quotes": "\\\"" * 1000,
    "semicolons": "; " * 3000,
    "a long word": "a" * 20_000 + "!",
    "many words": "bent weak " * 3000,
    "many numbers": "10.5 " * 3000,
    "a slow pattern": "a" * 3000 + "b" * 3000 + "\t" * 3000 + "x",
    "blanks inside": "bent" + " " * 5000 + "weak",
    "a huge number": "9" * 5000 + " deg",
    "an exponent": "1e999 deg",
    "no number": "NaN deg, inf in, -inf g",
    "minus nothing": "-0.0 deg",
    "a date of nowhere": "2026-99-99, 0000-00-00",
    "a unit of nowhere": "10 furlongs, 3 °R",
    "ranges": "1-2-3-4-5-" * 500,
    "names of devices": "CON NUL COM1 LPT1",
    "a half character": "x\\ud800x",
    "a line end in it": "a\\nb\\rc\\u2028d",
    "nothing said": "",
}  # fmt: skip


def seeds() -> Iterator[tuple[str, str, bytes]]:
    """Every hostile file: its reader, a name and its bytes."""
    for reader in READERS:
        for name, content in WHOLE.items():
            yield reader, name, content
        for name, text in INSIDE.items():
            said = json.dumps(text)[1:-1] if reader == "record" else text
            yield reader, f"{name} inside", GOOD[reader].format(said).encode("utf-8", "surrogatepass")


SEEDS = list(seeds())


@contextmanager
def bounded(what: str) -> Iterator[None]:
    """Little memory, no hang, and in the long run no more than so much of the processor."""

    def hangs(*_: object) -> None:
        raise TimeoutError(f"{what} hangs")

    used = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
    before = resource.getrlimit(resource.RLIMIT_AS)
    was = signal.signal(signal.SIGALRM, hangs)
    began = time.process_time()
    signal.alarm(HANGS)
    resource.setrlimit(resource.RLIMIT_AS, (used + MEMORY, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, before)
        signal.alarm(0)
        signal.signal(signal.SIGALRM, was)
    if os.environ.get("ASPLAYED_LONG"):
        assert time.process_time() - began < LONGEST, what


def tried(reader: str, name: str, content: bytes) -> bool:
    """True when the file was read; a refusal is one sentence, or a head and a line for each fault."""
    try:
        with bounded(f"{name}, read as {reader}"):
            READERS[reader](content)
    except AsplayedError as fault:
        assert 10 < len(str(fault).encode("utf-8", "replace")) <= 20_000, (reader, name)
        assert "Traceback" not in str(fault)
        return False
    return True


def test_there_are_at_least_four_hundred_of_them() -> None:
    assert len(SEEDS) >= 400


@pytest.mark.parametrize("reader", READERS)
def test_every_hostile_file_is_read_or_refused(reader: str) -> None:
    told = [tried(of, name, content) for of, name, content in SEEDS if of == reader]
    assert any(told) and not all(told)
    assert not Path("/tmp/asplayed-out").exists()


def changed(content: bytes, chance: random.Random) -> bytes:
    """A file with a few bytes flipped, cut, doubled, or something put in."""
    found = bytearray(content[:200_000])
    for _ in range(chance.choice([1, 2, 5])):
        start = chance.randrange(len(found) + 1)
        match chance.choice(["flip", "cut", "double", "put", "swap"]):
            case "flip" if start < len(found):
                found[start] ^= 1 << chance.randrange(8)
            case "cut":
                del found[start : start + chance.choice([1, 10, 1000])]
            case "double":
                found[start:start] = found[start : start + chance.choice([10, 1000])]
            case "put":
                found[start:start] = chance.choice(list(INSIDE.values())).encode("utf-8", "surrogatepass")[:2000]
            case _:
                end = chance.randrange(len(found) + 1)
                found[start:end] = found[start:end][::-1]
    return bytes(found)


def test_what_is_changed_by_chance_is_read_or_refused() -> None:
    chance = random.Random(15)
    told = []
    for number in range(times(300, 10_000)):
        reader, name, content = chance.choice(SEEDS)
        told.append(tried(reader, f"{name}, changed ({number})", changed(content, chance)))
    assert any(told) and not all(told)


@pytest.mark.parametrize("name", WHOLE)
def test_a_hostile_export_is_refused(name: str, file_place: Path, tmp_path: Path) -> None:
    with open_store(file_place) as store:
        store.save_set("ada", golf_set(), "56", who="tester")
    export(file_place, tmp_path / "out")
    for file in ("export.json", "history.jsonl"):
        shutil.copytree(tmp_path / "out", tmp_path / file)
        (tmp_path / file / file).write_bytes(WHOLE[name])
        with bounded(name), pytest.raises(AsplayedError) as fault:
            import_folder(tmp_path / file, tmp_path / "new.db")
        assert "\n" not in str(fault.value)
        assert not (tmp_path / "new.db").exists()
