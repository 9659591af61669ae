"""The catalogue and the column maps come back as they were given."""

from __future__ import annotations

from pathlib import Path

from hypothesis import HealthCheck, given, settings
from msgspec.structs import replace

from asplayed.catalogue.parts import Part
from asplayed.keeping import Store, columns, stored_parts
from asplayed.quantities import figure

from .conftest import any_of

FILE = b"part,model\nhead,Dunlin\n"

loft = figure(30.5, "deg", "published", why="published in Irons (2024-02)")
dunlin = Part(part="head", maker="Oskell", model="Dunlin", document="Irons", figures={"loft": loft}, line=2)
ember = Part(part="shaft", maker="Brunholt", model="Ember", variant="60", flex="S", document="Shafts", line=3)


def save(store: Store, *parts: Part) -> tuple[int, int, int]:
    return tuple(store.save_parts(parts, file="/some/where/specs.csv", content=FILE, who="tester"))


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
@given(part=any_of(Part))
def test_any_part_comes_back_exactly(store: Store, part: Part) -> None:
    save(store, part)
    found = [kept for kept in stored_parts(store.place) if replace(kept, line=None) == replace(part, line=None)]
    assert len(found) == 1


def test_parts_keep_their_order_and_the_same_file_again_changes_nothing(store: Store) -> None:
    assert save(store, ember, dunlin) == (2, 0, 0)
    assert save(store, ember, dunlin) == (0, 0, 2)
    assert save(store, replace(dunlin, line=40)) == (0, 0, 1)  # the same part on another line
    assert store.parts() == stored_parts(store.place) == (ember, dunlin)
    with store.reading() as read:
        assert len(read("SELECT * FROM imports")) == 1
        assert len(read("SELECT * FROM actions")) == 1


def test_an_import_names_its_file_and_the_hash_of_its_bytes(store: Store) -> None:
    save(store, dunlin)
    with store.reading() as read:
        rows = read("SELECT i.file, i.sha256, i.size, a.who FROM imports AS i JOIN actions AS a ON a.id = i.action_id")
    # The hash is that of `printf 'part,model\nhead,Dunlin\n' | sha256sum`.
    digest = "e8075d13b481a0cde25763bb6062cb9aca378596f9d3a3d1545b603613d8ce4c"
    assert [tuple(row) for row in rows] == [("specs.csv", digest, len(FILE), "tester")]


def test_a_corrected_part_gets_a_version_and_the_old_one_stays(store: Store) -> None:
    save(store, dunlin, ember)
    corrected = replace(dunlin, club=("7 iron",), figures={"loft": loft, "mass": figure(270, "g", "published")})
    save(store, replace(corrected, figures={"loft": loft}))
    assert save(store, corrected, ember) == (0, 1, 1)
    assert store.parts() == (dunlin, ember, corrected)  # one for all irons, and one for the 7 iron alone
    with store.reading() as read:
        assert read("SELECT COUNT(*) FROM versions")[0][0] == 4


def test_another_document_on_the_same_part_stands_beside_it(store: Store) -> None:
    save(store, dunlin)
    later = replace(dunlin, document_date="2025-01", figures={"loft": replace(loft, value=31.0)})
    assert save(store, later) == (1, 0, 0)
    assert store.parts() == (dunlin, later)


def test_where_nothing_is_stored_there_are_no_parts_and_no_file_is_made(tmp_path: Path) -> None:
    place = tmp_path / "none.db"
    assert stored_parts(place) == ()
    assert not place.exists()


def recalled(store: Store, header: list[str]) -> dict[str, str] | None:
    with store.reading() as read:
        return columns.recall(read, header)


def test_a_column_map_is_remembered_for_its_header(store: Store) -> None:
    header = ["Modell", "Loft °"]
    assert recalled(store, header) is None
    store.remember_columns(header, {"Modell": "model"}, who="tester")
    store.remember_columns(header, {"Modell": "model"}, who="tester")
    assert recalled(store, [" modell ", "LOFT °"]) == {"Modell": "model"}
    assert recalled(store, ["Loft °", "Modell"]) is None
    store.remember_columns(header, {"Modell": "model", "Loft °": "loft"}, who="tester")
    assert recalled(store, header) == {"Modell": "model", "Loft °": "loft"}
    with store.reading() as read:
        assert read("SELECT COUNT(*) FROM versions")[0][0] == 2
