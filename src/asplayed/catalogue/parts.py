"""Published parts: the record, the tables they come in by and go out by, and what two tables have in common."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import Literal, NamedTuple

import msgspec

from asplayed.catalogue.columns import MOST_FAULTS, Entry, Measure, guard, known_columns, ranges, understand
from asplayed.catalogue.tables import Table, load, read_table
from asplayed.clubs.names import club_name
from asplayed.clubs.records import Record
from asplayed.errors import BadInput, Refused
from asplayed.quantities import Figure, Source

PartKind = Literal["head", "shaft", "grip", "ball", "sleeve"]


class Part(Record, frozen=True, kw_only=True):
    """One published part, as one document gives it: a row of a specification.

    `figures` holds the published figures by the name of their column (`loft`, `mass`, `toe hang`, …). Dates are as
    precise as the document: `2024`, `2024-03` or `2024-03-15`. `line` is the row's line in the file it came from.
    """

    part: PartKind
    maker: str | None = None
    model: str
    variant: str | None = None
    club: tuple[str, ...] = ()
    flex: str | None = None
    sole: str | None = None
    neck: str | None = None
    colour: str | None = None
    launch: str | None = None
    spin: str | None = None
    construction: str | None = None
    fits: tuple[str, ...] = ()
    nickname: tuple[str, ...] = ()
    offered_from: str | None = None
    offered_until: str | None = None
    document: str | None = None
    document_date: str | None = None
    figures: dict[str, Figure] = msgspec.field(default_factory=dict)
    notes: dict[str, str] = msgspec.field(default_factory=dict)
    line: int | None = None

    def number(self, name: str) -> float | None:
        """The value of a published figure in its house unit, or None."""
        entry = self.figures.get(name)
        return entry.number if entry is not None and entry.has_number else None

    @property
    def named(self) -> str:
        """Maker, model, variant and flex in one phrase.

        >>> Part(part="head", maker="Oskell", model="Dunlin").named
        'Oskell Dunlin'
        """
        words = [self.maker, self.model, self.variant, self.flex]
        return " ".join(word for i, word in enumerate(words) if word and word not in words[:i])

    @property
    def source(self) -> str:
        """The document and its date in one phrase.

        >>> Part(part="head", model="Dunlin", document="Irons", document_date="2024-02").source
        'Irons (2024-02)'
        """
        document = self.document or "an unnamed document"
        return f"{document} ({self.document_date})" if self.document_date else document


class ImportedParts(NamedTuple):
    """What a table of parts gave.

    `merged` names rows that repeat others, `questions` rows with unusual figures, `differences` rows that two
    documents tell differently, `refused` the rows left out when good rows were kept, `notes` the columns nobody
    knows, `remarks` which sheet was read.
    """

    parts: tuple[Part, ...]
    merged: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    differences: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()


# --- clubs by their trade names -----------------------------------------------------------------------------------

_SPAN = re.compile(r"^(\d{1,2})\s*(?:-|–|to|through)\s*(pw|gw|aw|sw|\d{1,2})(?:\s*irons?)?$")
# A table of parts also names whole kinds of clubs.
_KINDS = {
    "driving iron": ("driving irons", "utility iron", "utility irons", "utility"),
    "fairway wood": ("fairway woods", "fairway", "fairways", "wood", "woods", "fw"),
    "hybrid": ("hybrids", "hy"),
    "iron": ("irons",),
    "wedge": ("wedges",),
    "driver": ("drivers",),
    "putter": ("putters",),
}
_KIND_OF = {word: kind for kind, words in _KINDS.items() for word in (kind, *words)}


@cache
def club_names(written: str) -> tuple[str, ...]:
    """The trade's names for a club, a kind or a span of clubs as a table writes it; unknown words stay as written.

    >>> club_names("7i"), club_names("8-PW"), club_names("Irons")
    (('7 iron',), ('8 iron', '9 iron', 'pitching wedge'), ('iron',))
    """
    text = " ".join(written.casefold().split())
    if text in _KIND_OF:
        return (_KIND_OF[text],)
    if span := _SPAN.match(text):
        first, last = int(span[1]), span[2]
        irons = tuple(f"{number} iron" for number in range(first, int(last) + 1 if last.isdigit() else 10))
        wedges = ("pitching wedge", "gap wedge", "sand wedge")
        return irons + wedges[: 0 if last.isdigit() else ("pw", "gw", "sw").index(last.replace("aw", "gw")) + 1]
    name = club_name(written)
    return (name if name and not name.endswith(" deg") else written,)


# --- in -----------------------------------------------------------------------------------------------------------

_WORDS = tuple(
    name.replace("_", " ")
    for name in Part.__struct_fields__
    if name not in {"part", "model", "club", "figures", "notes", "line"}
)


def _part(entry: Entry, figures: dict[tuple[str, Measure, str], Figure]) -> Part:
    values = entry.values
    words = {name.replace(" ", "_"): values[name] for name in _WORDS if name in values}
    clubs = dict.fromkeys(club for written in _texts(values.get("club")) for club in club_names(written))
    part = Part(
        part=values["part"],  # type: ignore[arg-type]
        model=values["model"],  # type: ignore[arg-type]
        club=tuple(clubs),
        notes=entry.notes,
        line=entry.line,
        **words,  # type: ignore[arg-type]
    )
    why = f"published in {part.source}"
    found = {}
    for name, value in values.items():
        if isinstance(value, Measure):
            key = (name, value, why)
            if key not in figures:
                figures[key] = Figure(value=value.value, unit=value.unit, source=Source.PUBLISHED, why=why)
            found[name] = figures[key]
    return msgspec.structs.replace(part, figures=found)


def _texts(value: object) -> tuple[str, ...]:
    return value if isinstance(value, tuple) and not isinstance(value, Measure) else ()


def _out_of_range(part: Part) -> tuple[list[str], list[str]]:
    """What cannot be for such a part, and what is only unusual."""
    wrong: list[str] = []
    unusual: list[str] = []
    for name, entry in part.figures.items():
        cannot_be, sentence = _judged(part.part, name, entry.number, entry.unit)
        if sentence:
            (wrong if cannot_be else unusual).append(sentence)
    return wrong, unusual


@lru_cache(maxsize=20_000)
def _judged(part: str, name: str, value: float, unit: str) -> tuple[bool, str]:
    """Whether a figure cannot be, and the sentence about it; no sentence for an ordinary one."""
    limits = ranges().get(part, {}).get(name, {})
    for kind, words in (("possible", "cannot be for a {}; it lies from"), ("usual", "is unusual for a {}; usual are")):
        if kind in limits and not limits[kind][0] <= value <= limits[kind][1]:
            low, high = limits[kind]
            return kind == "possible", f"{name}: {value:g} {unit} {words.format(part)} {low:g} to {high:g}"
    return False, ""


def which(part: Part) -> tuple[object, ...]:
    """What tells one published part from another, whoever documents it.

    The variant does; without one, the loft of a club made in several lofts, and the sole and the size go for it.
    """
    variant = part.variant.casefold() if part.variant else None
    if variant is None and part.part == "head" and not any(name.endswith(" iron") for name in part.club):
        variant = part.number("loft")  # type: ignore[assignment]
    return (
        part.part,
        (part.maker or "").casefold(),
        part.model.casefold(),
        variant,
        part.club,
        part.flex,
        (part.sole or "").casefold(),
        (part.neck or "").casefold(),
        (part.colour or "").casefold(),
    )


def _sheet(part: Part) -> tuple[object, ...]:
    """The document and dates under which a part is told."""
    return (part.document, part.document_date, part.offered_from, part.offered_until)


def same(one: Part, other: Part) -> bool:
    """True when two parts are told alike, wherever they stood in their files."""
    return msgspec.structs.replace(one, line=None) == msgspec.structs.replace(other, line=None)


def _difference(one: Part, other: Part) -> str:
    """The first figure or word in which two tellings of a part differ, as a phrase."""
    for name in dict.fromkeys((*one.figures, *other.figures)):
        here, there = one.figures.get(name), other.figures.get(name)
        if here is None or there is None or (here.value, here.unit) != (there.value, there.unit):
            told = ["nothing" if f is None else f"{f.value:g} {f.unit}" for f in (here, there)]
            return f"{name} {told[0]} and {told[1]}"
    for field in one.__struct_fields__:
        if field not in {"figures", "line", "document", "document_date"} and getattr(one, field) != getattr(
            other, field
        ):
            told = [str(getattr(part, field) or "nothing")[:60] for part in (one, other)]
            return f"{field.replace('_', ' ')} {told[0]} and {told[1]}"
    return "their documents"


def read_parts(
    source: Path | bytes,
    name: str | None = None,
    *,
    column_map: Mapping[str, str] | None = None,
    fill: Mapping[str, str] | None = None,
    sheet: str | None = None,
    keep_good_rows: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> ImportedParts:
    """The parts in a table: CSV, TSV, XLSX or text pasted from a page, as a file or its bytes.

    Every fault is named by its line in the file, all at once; a table with a bad row is refused whole unless
    `keep_good_rows`. `progress` is called with rows read and rows expected, about.

    >>> found = read_parts(b"part,model,loft [deg]\\nhead,Dunlin,30.5\\n", "irons.csv")
    >>> found.parts[0].model, found.parts[0].figures["loft"].value
    ('Dunlin', 30.5)
    """
    data = source if isinstance(source, bytes) else load(source)
    return parts_of(
        read_table(data, name or ("the table" if isinstance(source, bytes) else str(source)), sheet=sheet),
        column_map=column_map,
        fill=fill,
        keep_good_rows=keep_good_rows,
        progress=progress,
    )


def parts_of(
    table: Table,
    *,
    column_map: Mapping[str, str] | None = None,
    fill: Mapping[str, str] | None = None,
    keep_good_rows: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> ImportedParts:
    """The parts in a table that is read already; see `read_parts`."""
    entries = understand(table, known_columns("parts"), column_map=column_map, needed=("part", "model"), fill=fill)
    shared: dict[tuple[str, Measure, str], Figure] = {}
    parts: dict[tuple[object, ...], Part] = {}
    twice: set[tuple[object, ...]] = set()
    merged: list[str] = []
    questions: list[str] = []
    faults: list[str] = []
    notes: dict[str, None] = {}
    done = 0
    for entry in entries:
        done += 1
        if progress is not None and done % 1000 == 0:
            progress(done, max(table.expected, done))
        wrong, unusual = entry.faults, list[str]()
        if not wrong:
            part = _part(entry, shared)
            wrong, unusual = _out_of_range(part)
        if not wrong:
            key = (which(part), _sheet(part))
            earlier = parts.get(key)
            if earlier is None:
                parts[key] = part
            elif same(earlier, part):
                merged.append(f"line {part.line} repeats line {earlier.line} ({part.named})")
            else:
                twice.add(key)
                wrong = [f"it contradicts line {earlier.line} about {part.named}: {_difference(earlier, part)}"]
        if wrong:
            faults.append(f"line {entry.line}: {'; '.join(wrong)[:400]}")
            if len(faults) >= MOST_FAULTS and not keep_good_rows:
                faults.append("more rows were not looked at")
                break
        questions.extend(f"line {entry.line}: {sentence}" for sentence in unusual)
        notes.update(dict.fromkeys(entry.notes))
    if not done:
        raise BadInput(f"{table.name} names columns but has no row; add one for each part")
    if faults and not keep_good_rows:
        raise Refused(f"{table.name}: nothing was taken, because of {_rows(len(faults))} at fault", faults)
    kept = tuple(part for key, part in parts.items() if key not in twice)
    if not kept:
        raise Refused(f"{table.name}: no row can be used", faults)
    if progress is not None:
        progress(done, done)
    return ImportedParts(
        parts=kept,
        merged=tuple(merged),
        questions=tuple(questions),
        differences=differences(kept),
        refused=tuple(faults),
        notes=tuple(notes),
        remarks=table.remarks,
    )


def _rows(count: int) -> str:
    return "one row" if count == 1 else f"{count} rows"


def differences(parts: Iterable[Part]) -> tuple[str, ...]:
    """Where two documents tell one part differently: a sentence for each, naming both."""
    by_part: dict[tuple[object, ...], Part] = {}
    found = []
    for part in parts:
        earlier = by_part.setdefault(which(part), part)
        if earlier is not part and {k: v.value for k, v in earlier.figures.items()} != {
            k: v.value for k, v in part.figures.items()
        }:
            found.append(f"{part.named}: {earlier.source} and {part.source} give {_difference(earlier, part)}")
    return tuple(found)


class Merged(NamedTuple):
    """A catalogue with new parts added: the whole, what is new or told anew, how many were there already."""

    parts: tuple[Part, ...]
    added: tuple[Part, ...]
    changed: tuple[Part, ...]
    unchanged: int


def merge(known: Sequence[Part], new: Sequence[Part], *, replace: bool = False) -> Merged:
    """The catalogue `known` with `new` parts added; a part told alike already changes nothing.

    A new row that contradicts a known one under the same document and dates is refused, unless `replace`.

    >>> dunlin = Part(part="head", model="Dunlin")
    >>> merge([dunlin], [dunlin]).unchanged
    1
    """
    whole = {(which(part), _sheet(part)): part for part in known}
    added: list[Part] = []
    changed: list[Part] = []
    faults: list[str] = []
    unchanged = 0
    for part in new:
        key = (which(part), _sheet(part))
        earlier = whole.get(key)
        if earlier is not None and same(earlier, part):
            unchanged += 1
        elif earlier is not None and not replace:
            faults.append(
                f"line {part.line}: the catalogue has {part.named} from {earlier.source} already "
                f"(its line {earlier.line}): {_difference(earlier, part)}"
            )
        else:
            whole[key] = part
            (added if earlier is None else changed).append(part)
    if faults:
        raise Refused(
            "nothing was taken, because rows contradict the catalogue under one document and date "
            "(name a newer document date, or replace the old rows)",
            faults,
        )
    return Merged(tuple(whole.values()), tuple(added), tuple(changed), unchanged)


BY_HAND = "entered by hand"


def part_by_hand(fields: Sequence[str]) -> Part:
    """A part from `column=value` fields; where they name no document, it was entered by hand.

    >>> part_by_hand(["part=head", "model=Dunlin"]).document
    'entered by hand'
    """
    named = any(field.partition("=")[0].strip() == "document" for field in fields)
    return part_from(fields if named else (*fields, f"document={BY_HAND}"))


def part_from(fields: Sequence[str]) -> Part:
    """A part typed by hand as `column=value` words.

    >>> part_from(["part=shaft", "model=Ember", "flex=stiff", "mass=64g"]).flex
    'S'
    """
    names, values = [], []
    for field in fields:
        name, equals, value = field.partition("=")
        if not equals:
            raise BadInput(f"{field[:60]!r} has no =; write column=value, such as model=Ember or mass=64g")
        names.append(name.strip().replace("_", " "))
        values.append(value)
    unknown = [name for name in names if name not in known_columns("parts")]
    if unknown:
        raise BadInput(f"there is no column {unknown[0][:60]!r}; known columns are {', '.join(known_columns('parts'))}")
    sheet = io.StringIO()
    csv.writer(sheet).writerows([names, values])
    return read_parts(sheet.getvalue().encode(), "the part").parts[0]


# --- out ----------------------------------------------------------------------------------------------------------


def write_parts(parts: Sequence[Part]) -> str:
    """The parts as CSV that reads back to the same parts and that no spreadsheet runs.

    >>> print(write_parts([Part(part="head", model="Dunlin", maker="=Oskell")]), end="")
    part,maker,model
    head,'=Oskell,Dunlin
    """
    columns = known_columns("parts")
    filled = [name for name in columns if any(_written(part, name, "") for part in parts)]
    units: list[tuple[str, str]] = []
    for name in filled:
        column = columns[name]
        kept = {part.figures[name].unit for part in parts if name in part.figures}
        units.append((name, (kept.pop() if len(kept) == 1 else column.units[0]) if column.units else ""))
    notes = list(dict.fromkeys(name for part in parts for name in part.notes))
    sheet = io.StringIO()
    out = csv.writer(sheet, lineterminator="\n")
    out.writerow([f"{name} [{unit}]" if unit else name for name, unit in units] + [guard(name) for name in notes])
    for part in parts:
        cells = [_written(part, name, unit) for name, unit in units]
        out.writerow([guard(cell) for cell in (*cells, *(part.notes.get(name, "") for name in notes))])
    return sheet.getvalue()


def _written(part: Part, name: str, unit: str) -> str:
    """A part's cell in one column; a figure in another unit than the column's carries its own."""
    if known_columns("parts")[name].kind == "number":
        entry = part.figures.get(name)
        if entry is None:
            return ""
        number = f"{entry.number:.9f}".rstrip("0").rstrip(".")
        return f"{number} {entry.unit}" if unit and entry.unit != unit else number
    value = getattr(part, name.replace(" ", "_"))
    return "; ".join(value) if isinstance(value, tuple) else str(value or "")
