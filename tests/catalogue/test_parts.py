"""Tables of parts: units, faults by their lines, duplicates and contradictions, and out again unchanged."""

from __future__ import annotations

import csv
import io
from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.catalogue.columns import known_columns
from asplayed.catalogue.parts import Part, club_names, merge, part_from, read_parts, same, write_parts
from asplayed.errors import BadInput, Refused
from asplayed.quantities import Source


def table(*rows: str) -> bytes:
    return "\n".join(rows).encode()


def faults(*rows: str, **options: object) -> tuple[str, ...]:
    with pytest.raises(Refused) as refused:
        read_parts(table(*rows), "specs.csv", **options)  # type: ignore[arg-type]
    return refused.value.faults


def alike(parts: tuple[Part, ...], others: tuple[Part, ...]) -> bool:
    return len(parts) == len(others) and all(same(one, other) for one, other in zip(parts, others, strict=True))


def test_a_figure_is_published_and_names_its_document_with_its_date() -> None:
    found = read_parts(table("part,model,loft,document,document date", "head,Dunlin,30.5,Irons,2024-02"))
    loft = found.parts[0].figures["loft"]
    assert (loft.value, loft.unit, loft.source) == (30.5, "deg", Source.PUBLISHED)
    assert loft.why == "published in Irons (2024-02)"


def test_columns_come_in_any_order_and_under_other_names() -> None:
    one = read_parts(table("part,maker,model,loft [deg],mass [g]", "head,Oskell,Dunlin,30.5,267"))
    other = read_parts(table("Weight [g];Brand;Loft angle;Model;Type", "267;Oskell;30,5°;Dunlin;heads"))
    assert alike(one.parts, other.parts)


@pytest.mark.parametrize(("inches", "millimetres"), [("40", "1016"), ("45 1/2", "1155.7"), ("37.5", "952.5")])
def test_inches_and_millimetres_are_one(inches: str, millimetres: str) -> None:
    # the inch is 25.4 mm by definition (NIST SP 811, appendix B.8)
    one = read_parts(table("part,model,length [in]", f"shaft,Ember,{inches}"))
    for header, cell in ((" [mm]", millimetres), ("", f"{millimetres} mm"), (" [in]", f"{millimetres}mm")):
        other = read_parts(table(f"part,model,length{header}", f"shaft,Ember,{cell}"))
        assert alike(one.parts, other.parts)


def test_a_balance_point_is_percent_from_the_tip_or_inches_from_the_butt() -> None:
    for header, unit in (("balance [%]", "percent"), ("balance [in]", "in")):
        found = read_parts(table(f"part,model,{header}", "shaft,Ember,20"))
        assert (found.parts[0].number("balance"), found.parts[0].figures["balance"].unit) == (20, unit)


def test_an_unknown_column_is_kept_as_a_note_with_its_unit() -> None:
    found = read_parts(table("part,model,hardness [HRC]", "head,Dunlin,38"))
    assert found.parts[0].notes == {"hardness [HRC]": "38"}
    assert found.notes == ("hardness [HRC]",)


def test_a_column_map_says_which_is_which() -> None:
    rows = ("Art,Bezeichnung,Gewicht,weight", "head,Dunlin,267,see list")
    mapping = {"Art": "part", "Bezeichnung": "model", "Gewicht": "mass", "weight": ""}
    part = read_parts(table(*rows), column_map=mapping).parts[0]
    assert (part.model, part.number("mass"), part.notes) == ("Dunlin", 267, {"weight": "see list"})


def test_a_column_map_that_leads_nowhere_is_refused_with_all_its_faults() -> None:
    found = faults("part,model", "head,Dunlin", column_map={"Wt": "mass", "model": "modell"})
    assert len(found) == 2
    assert "'Wt'" in found[0]
    assert "'modell'" in found[1]


def test_columns_that_lead_nowhere_are_one_fault_with_the_known_ones_told_once() -> None:
    found = faults("part,model,a,b,c", "head,Dunlin,1,2,3", column_map={"a": "aa", "b": "bb [g]", "c": "cc"})
    assert len(found) == 1 and all(word in found[0] for word in ("'aa'", "'bb'", "'cc'", "known columns are"))


def test_a_column_map_carries_the_unit_that_the_table_leaves_out() -> None:
    part = read_parts(table("part,model,Wt", "head,Dunlin,9.4"), column_map={"Wt": "mass [oz]"}).parts[0]
    assert part.number("mass") == pytest.approx(9.4 * 28.349523125)
    found = faults("part,model,Wt", "head,Dunlin,9.4", column_map={"Wt": "mass [deg]"})
    assert "not a unit of mass" in found[0]
    found = faults("part,model,Wt [g]", "head,Dunlin,267", column_map={"Wt [g]": "mass [oz]"})
    assert "'oz'" in found[0] and "'g'" in found[0]


def test_missing_columns_are_named_with_those_there_are() -> None:
    with pytest.raises(BadInput, match=r"no column 'part' and no column 'model'.*'loft', 'lie'"):
        read_parts(table("loft,lie", "30,62"))


def test_what_every_row_lacks_can_be_filled_in() -> None:
    part = read_parts(table("model,loft", "Dunlin,30"), fill={"part": "head", "maker": "Oskell"}).parts[0]
    assert (part.part, part.maker) == ("head", "Oskell")


def test_two_columns_for_one_thing_are_refused_unless_one_is_named_exactly() -> None:
    assert "columns 3 and 4" in faults("part,model,weight,head mass", "head,Dunlin,267,267")[0]
    assert read_parts(table("part,model,weight,mass", "head,Dunlin,1,267")).parts[0].number("mass") == 267


def test_a_unit_of_another_dimension_is_refused_by_its_column() -> None:
    assert "'mm' is not a unit of mass" in faults("part,model,mass [mm]", "head,Dunlin,267")[0]


@pytest.mark.parametrize(
    ("column", "cell", "wanted"),
    [
        ("loft", "400", "cannot be"),
        ("loft", "steep", "not a number"),
        ("loft", "1e999", "unit"),
        ("loft", "nan", "not a number"),
        ("length", "5 m", "cannot be"),
        ("mass", "20 g", "cannot be for a head"),
        ("mass", "12 in", "is not in g"),
        ("part", "wheel", "use head, shaft, grip, ball, sleeve"),
        ("launch", "skyward", "use low, low-mid"),
        ("offered from", "last spring", "write it as 2024-03"),
        ("offered from", "2024-13", "not a date"),
        ("document", "a\x07b", "cannot be shown"),
    ],
)
def test_a_bad_cell_is_named_by_line_and_column(column: str, cell: str, wanted: str) -> None:
    row = {"part": "head", "model": "Dunlin", column: cell}
    found = faults(",".join(row), ",".join({**row, column: ""} | {"part": "head"}), ",".join(row.values()))
    assert found[-1].startswith("line 3: ")
    assert column in found[-1]
    assert wanted in found[-1]


def test_all_bad_rows_come_at_once_the_first_twenty_and_a_count() -> None:
    rows = [f"head,Dunlin {n},{'x' if n % 2 else 30}" for n in range(60)]
    with pytest.raises(Refused) as refused:
        read_parts(table("part,model,loft", *rows), "specs.csv")
    assert len(refused.value.faults) == 30
    assert str(refused.value).count("line ") == 20
    assert "and 10 more" in str(refused.value)
    kept = read_parts(table("part,model,loft", *rows), keep_good_rows=True)
    assert (len(kept.parts), len(kept.refused)) == (30, 30)


def test_a_row_wider_than_the_header_is_a_fault() -> None:
    assert "4 cells where the first row names 2" in faults("part,model", "head,Dunlin,3,4")[0]


@pytest.mark.parametrize("rows", [("part,model",), ("part,model", ",", ""), ("",)])
def test_a_table_without_rows_is_bad_input(rows: tuple[str, ...]) -> None:
    with pytest.raises(BadInput):
        read_parts(table(*rows))


def test_an_unusual_figure_is_kept_and_questioned() -> None:
    found = read_parts(table("part,model,mass", "shaft,Ember,30"))
    assert found.parts[0].number("mass") == 30
    assert found.questions == ("line 2: mass: 30 g is unusual for a shaft; usual are 35 to 145",)


def test_identical_rows_are_merged_and_said() -> None:
    found = read_parts(table("part,model,loft", "head,Dunlin,30", "head,Dunlin,30.0"))
    assert len(found.parts) == 1
    assert "line 3 repeats line 2" in found.merged[0]


CONTRADICTION = ("part,model,club,loft,document,document date", "head,Dunlin,7 iron,30,A,2024", "head,Dunlin,7i,31,")


def test_contradicting_rows_are_refused_with_both_lines() -> None:
    found = faults(*CONTRADICTION[:2], CONTRADICTION[2] + "A,2024")
    assert len(found) == 1
    assert "line 3" in found[0]
    assert "line 2" in found[0]
    assert "loft 30 deg and 31 deg" in found[0]


@pytest.mark.parametrize("sheet", ["B,2024", "A,2025"])
def test_documents_or_dates_that_differ_may_contradict_and_are_shown(sheet: str) -> None:
    found = read_parts(table(*CONTRADICTION[:2], CONTRADICTION[2] + sheet))
    assert len(found.parts) == 2
    assert len(found.differences) == 1
    assert "loft 30 deg and 31 deg" in found.differences[0]


def test_with_good_rows_kept_neither_of_two_contradicting_rows_is() -> None:
    rows = (*CONTRADICTION[:2], CONTRADICTION[2] + "A,2024", "head,Dunlin,8 iron,35,A,2024")
    assert [part.club for part in read_parts(table(*rows), keep_good_rows=True).parts] == [("8 iron",)]


def test_the_same_file_again_changes_nothing() -> None:
    parts = read_parts(catalogue()).parts
    again = merge(parts, read_parts(catalogue()).parts)
    assert (again.added, again.changed, again.unchanged) == ((), (), len(parts))
    assert again.parts == parts


def test_a_new_row_that_contradicts_the_catalogue_is_refused_unless_it_may_replace() -> None:
    one = part_from(["part=head", "model=Dunlin", "variant=30", "mass=267g", "document=A"])
    other = part_from(["part=head", "model=Dunlin", "variant=30", "mass=269g", "document=A"])
    with pytest.raises(Refused, match="267 g and 269 g"):
        merge([one], [other])
    assert merge([one], [other], replace=True).parts == (other,)


@pytest.mark.parametrize(
    ("fields", "wanted"),
    [
        (["model"], "no ="),
        (["modell=x"], "no column 'modell'"),
        (["model=x"], "'part'"),
        (["part=head", "model="], "model"),
    ],
)
def test_a_part_by_hand_that_cannot_be_used_is_refused(fields: list[str], wanted: str) -> None:
    with pytest.raises(BadInput, match=wanted):
        part_from(fields)


@pytest.mark.parametrize(
    ("written", "names"),
    [
        ("7i", ("7 iron",)),
        ("3 Wood", ("3 wood",)),
        ("Hybrids", ("hybrid",)),
        ("4-6", ("4 iron", "5 iron", "6 iron")),
        ("8-GW", ("8 iron", "9 iron", "pitching wedge", "gap wedge")),
        ("something", ("something",)),
    ],
)
def test_clubs_by_their_trade_names(written: str, names: tuple[str, ...]) -> None:
    assert club_names(written) == names


# --- out and in again ---------------------------------------------------------------------------------------------


def catalogue() -> bytes:
    return resources.files("asplayed.demo").joinpath("catalogue.csv").read_bytes()


def test_the_demo_catalogue_goes_out_and_in_again_unchanged() -> None:
    parts = read_parts(catalogue()).parts
    assert len(parts) == 168
    assert alike(parts, read_parts(write_parts(parts).encode()).parts)


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1, max_size=12).filter(
    lambda text: ";" not in text and text.isprintable()
)
RISKY = st.builds(str.__add__, st.sampled_from(["=", "+", "-", "@", "'", "'=", "-1", "+cmd|"]), WORDS)
TEXTS = st.one_of(WORDS, RISKY)
CELLS = {
    "part": st.sampled_from(["head", "shaft"]),
    "model": TEXTS,
    "maker": TEXTS,
    "variant": TEXTS,
    "sole": TEXTS,
    "club": st.sampled_from(["7 iron", "driver", "4-6", "wedge; iron"]),
    "fits": st.lists(TEXTS, min_size=1, max_size=3).map("; ".join),
    "nickname": st.lists(TEXTS, min_size=1, max_size=3).map("; ".join),
    "flex": st.sampled_from(["stiff", "X", "TX", "S+", "6.0"]),
    "offered from": st.sampled_from(["2024", "2024-3", "2024-03-15"]),
    "document": TEXTS,
    "colour of the box": TEXTS,
    "loft": st.decimals(-10, 66, places=3).map(str),
    "mass": st.sampled_from(["200", "199.5 g", "0.21 kg", "7 oz"]),
    "length": st.sampled_from(["44 3/4", "1130 mm", "39", "99,1 cm"]),
    "balance": st.sampled_from(["52", "51.25 %", "22 in"]),
    "lie change": st.sampled_from(["-0.75", "−1", "+2", "0"]),
}
ROW = st.fixed_dictionaries(
    {"part": CELLS["part"], "model": CELLS["model"]},
    optional={name: cells for name, cells in CELLS.items() if name not in {"part", "model"}},
)


def sheet(columns: list[str], rows: list[dict[str, str]]) -> bytes:
    out = io.StringIO()
    writer = csv.DictWriter(out, columns, restval="")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue().encode()


@given(st.lists(ROW, min_size=1, max_size=4), st.randoms(use_true_random=False))
def test_export_then_import_is_the_identity_and_order_does_not_matter(
    rows: list[dict[str, str]], chance: object
) -> None:
    rows = [{**row, "document": f"sheet {number}"} for number, row in enumerate(rows)]
    columns = [*CELLS]
    parts = read_parts(sheet(columns, rows)).parts
    assert alike(parts, read_parts(write_parts(parts).encode()).parts)
    chance.shuffle(columns)  # type: ignore[attr-defined]
    order = list(range(len(rows)))
    chance.shuffle(order)  # type: ignore[attr-defined]
    shuffled = read_parts(sheet(columns, [rows[place] for place in order])).parts
    assert alike(tuple(parts[place] for place in order), shuffled)


@given(st.lists(ROW, min_size=1, max_size=4))
def test_no_cell_of_an_export_is_run_by_a_spreadsheet(rows: list[dict[str, str]]) -> None:
    parts = read_parts(sheet([*CELLS], [{**row, "document": f"{n}"} for n, row in enumerate(rows)])).parts
    for cells in csv.reader(io.StringIO(write_parts(parts))):
        for cell in cells:
            if cell[:1] in {"=", "+", "-", "@", "\t", "\r", "\0"}:
                float(cell)  # only a number may begin so, and stays one


LINES = st.lists(st.lists(st.text(max_size=8), max_size=5).map(",".join), max_size=6)


@given(LINES)
def test_any_table_of_parts_is_taken_or_refused_in_words(lines: list[str]) -> None:
    try:
        found = read_parts("\n".join(["part,model,loft [deg],mass,", *lines]).encode("utf-8", "replace"))
    except BadInput as fault:
        assert str(fault)
        return
    for part in found.parts:
        assert part.part in known_columns("parts")["part"].choices.values()
