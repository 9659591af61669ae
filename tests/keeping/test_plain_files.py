"""Export, then import, gives an identical store; what is no export is refused in a sentence and stores nothing."""

from __future__ import annotations

import csv
import io
import json
import os
import random
import shutil
import tempfile
from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

import pytest
import sqlalchemy
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from asplayed.catalogue.parts import Part
from asplayed.clubs import GolfSet, SetFacts
from asplayed.errors import AsplayedError, BadInput, StoreUnusable
from asplayed.keeping import Store, open_store, read_set
from asplayed.keeping.backups import back_up, restore
from asplayed.keeping.exporting import export
from asplayed.keeping.importing import import_folder
from asplayed.keeping.places import Place, schema_of
from asplayed.keeping.plain_files import csv_text
from asplayed.keeping.proving import prove

from .conftest import Shop, failure, golf_set, golf_sets, rows, times

names = st.sampled_from(["ada", "jonas", "Ñ 1", "=1+1"])
texts = st.text(max_size=12)
steps = st.one_of(
    st.tuples(st.just("save"), names, golf_sets, st.binary(max_size=40) | texts, texts),
    st.tuples(st.just("undo"), names),
    st.tuples(st.just("parts"), st.lists(st.builds(Part, part=st.just("head"), model=texts), max_size=3)),
    st.tuples(st.just("columns"), st.dictionaries(texts, texts, max_size=2)),
    st.tuples(st.just("answer"), texts.map(json.dumps), texts),
)


def do(store: Store, step: tuple[object, ...]) -> None:
    match step:
        case ("save", str(name), GolfSet() as kept, (bytes() | str()) as words, str(why)):
            store.save_set(name, kept, words, who=why or "tester", why=why)
        case ("undo", str(name)):
            with suppress(BadInput):  # nothing left to undo
                store.undo_set(name, who="tester")
        case ("parts", list(found)):
            store.save_parts(found, file="p.csv", content=repr(found).encode(), who="tester")
        case ("columns", dict(mapping)):
            store.remember_columns(list(mapping), mapping, who="tester")
        case ("answer", str(about), str(value)):
            store.save_set("answers", GolfSet(), value, who="tester", answered={about: value})


def made(store: Store, done: list[tuple[object, ...]]) -> None:
    """Do all the steps in a store, and let go of it."""
    with store:
        for step in done:
            do(store, step)


BY_ROUND_TRIP = {"deadline": None, "suppress_health_check": [HealthCheck.function_scoped_fixture, HealthCheck.too_slow]}


@settings(max_examples=times(12, 1000), **BY_ROUND_TRIP)  # type: ignore[arg-type]
@given(done=st.lists(steps, max_size=5))
def test_any_store_comes_back_identical(made_store: Path, done: list[tuple[object, ...]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        place, copy, out = Path(folder) / "store.db", Path(folder) / "copy.db", Path(folder) / "out"
        shutil.copy(made_store, place)
        shutil.copy(made_store, copy)
        made(open_store(place), done)
        export(place, out)
        import_folder(out, copy)
        assert rows(copy) == rows(place)
        assert prove(copy).checked == prove(place).checked


@settings(max_examples=times(6, 1000), **BY_ROUND_TRIP)  # type: ignore[arg-type]
@given(done=st.lists(steps, max_size=5), back=st.booleans())
def test_any_shop_is_the_same_on_either_engine(
    made_store: Path, shop: Shop, done: list[tuple[object, ...]], back: bool
) -> None:
    """Exported from one engine, imported into the other: row for row the same; and a backup brings it back again."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(shutil.copy(made_store, Path(folder) / "store.db"))
        server, third = shop.fresh(), shop.fresh()
        try:
            begin, end = (server, file) if back else (file, server)
            made(open_store(begin), done)
            export(begin, Path(folder) / "out")
            import_folder(Path(folder) / "out", end)
            assert rows(end) == rows(begin)
            assert prove(end).checked == prove(begin).checked
            restore(back_up(server, Path(folder) / "safe").file, third)
            assert rows(third) == rows(begin)
        finally:
            shop.drop(server)
            shop.drop(third)


@pytest.fixture
def exported(file_store: Store, tmp_path: Path) -> Path:
    file_store.save_set("ada", golf_set(56), b"56 \xb0", who="Halvard", why="first")
    file_store.save_set("ada", golf_set(54), "54", who="Priya")
    export(file_store.place, tmp_path / "out")
    return tmp_path / "out"


def test_a_new_store_is_made_from_an_export_and_holds_its_past(exported: Path, new_place: Callable[[], Place]) -> None:
    place = new_place()
    made = import_folder(exported, place)
    assert (made.actions, made.records, made.versions) == (2, 1, 2)
    assert read_set("ada", place, 1).original == b"56 \xb0"
    with open_store(place) as store:
        assert store.save_set("ada", golf_set(50), "50", who="Halvard").version == 3
    assert prove(place, head=made.head).ok


def test_the_export_follows_the_schema_it_publishes(exported: Path) -> None:
    schema = json.loads((exported / "history.schema.json").read_text())
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    line = schema["$defs"]["ActionLine"]
    [first, _] = (exported / "history.jsonl").read_text().splitlines()
    told = json.loads(first)
    assert set(told) == set(line["properties"]) and set(line["required"]) <= set(told)
    version = schema["$defs"]["VersionLine"]
    assert set(told["versions"][0]) == set(version["properties"])
    content = told["versions"][0]["content"]
    assert set(content) == set(schema["$defs"]["GolfSet"]["properties"])
    assert set(content["clubs"][0]) == set(schema["$defs"]["Club"]["properties"])


def test_an_export_appears_whole_or_not_at_all(
    file_store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = file_store
    store.save_set("ada", golf_set(), "words", who="tester")
    (tmp_path / "there").mkdir()
    (tmp_path / "there" / "mine.txt").write_text("mine")
    with pytest.raises(BadInput, match="not empty"):
        export(store.place, tmp_path / "there")
    before = sorted(tmp_path.rglob("*"))

    def no_room(path: Path, *given: object, **named: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "write_text", no_room)
        with pytest.raises(Exception, match="No space left"):
            export(store.place, tmp_path / "out")
    assert sorted(tmp_path.rglob("*")) == before
    with pytest.raises(BadInput, match="no store"):
        export(tmp_path / "none.db", tmp_path / "out")


def test_nothing_is_imported_over_what_is_stored(exported: Path, store: Store) -> None:
    store.save_set("jonas", golf_set(), "words", who="tester")
    before = rows(store.place)
    with pytest.raises(BadInput, match="holds something already"):
        import_folder(exported, store.place)
    assert rows(store.place) == before


def rewritten(folder: Path, change: object) -> None:
    """The history changed, and its hash in the manifest with it."""
    lines = [json.loads(line) for line in (folder / "history.jsonl").read_text().splitlines()]
    change(lines)  # type: ignore[operator]
    text = "".join(json.dumps(line, separators=(",", ":"), ensure_ascii=False) + "\n" for line in lines)
    (folder / "history.jsonl").write_text(text)
    manifest = json.loads((folder / "export.json").read_text())
    manifest["files"]["history.jsonl"] = sha256(text.encode()).hexdigest()
    (folder / "export.json").write_text(json.dumps(manifest))


@pytest.mark.parametrize(
    ("name", "because"),
    [
        ("../../secret", "no SHA-256"),
        ("/etc/passwd", "no SHA-256"),
        ("a\0b", "no SHA-256"),
        ("0" * 64, "cannot be read"),
    ],
)
def test_an_original_is_only_ever_opened_by_its_hash(exported: Path, tmp_path: Path, name: str, because: str) -> None:
    (tmp_path / "secret").write_text("secret")
    rewritten(exported, lambda lines: lines[0]["versions"][0].update(original=name))
    with pytest.raises(BadInput, match=because):
        import_folder(exported, tmp_path / "new.db")
    assert not (tmp_path / "new.db").exists()


@pytest.mark.parametrize(
    ("change", "because"),
    [
        (lambda lines: lines[1].update(who="Jonas"), "was altered"),
        (lambda lines: lines[0]["versions"][0]["content"]["clubs"].clear(), "not what was written"),
        (lambda lines: lines.pop(), "does not end as export.json says"),
        (lambda lines: lines.reverse(), "should have versions"),
        (lambda lines: lines[0].update(id=2**70), "not what keep export writes|holds what no store does|out of range"),
        (lambda lines: lines[0].update(surprise=1), "unknown field"),
    ],
)
def test_an_altered_history_is_refused(
    exported: Path, new_place: Callable[[], Place], change: object, because: str
) -> None:
    rewritten(exported, change)
    place = new_place()
    with pytest.raises(AsplayedError, match=because) as fault:
        import_folder(exported, place)
    assert fault.value.exit_code in (2, 3)
    assert schema_of(place) is None


def test_links_pipes_and_folders_are_not_followed(exported: Path, tmp_path: Path) -> None:
    history = exported / "history.jsonl"
    history.rename(tmp_path / "elsewhere")
    for make in (lambda: history.symlink_to(tmp_path / "elsewhere"), lambda: os.mkfifo(history), history.mkdir):
        make()
        with pytest.raises(BadInput, match=r"cannot be read|not a plain file"):
            import_folder(exported, tmp_path / "new.db")
        history.rmdir() if history.is_dir() and not history.is_symlink() else history.unlink()


def test_more_than_was_allowed_is_not_read(exported: Path, tmp_path: Path) -> None:
    with (exported / "history.jsonl").open("ab") as history:
        history.truncate(3_000_000)
    with pytest.raises(BadInput, match="more than 2 MB"):
        import_folder(exported, tmp_path / "new.db", max_size=2)


@pytest.mark.parametrize("content", ["", "[]", '{"format": 1}', "[" * 100_000, "\udcff"])
def test_what_is_no_export_is_said_in_a_sentence(exported: Path, tmp_path: Path, content: str) -> None:
    (exported / "export.json").write_bytes(content.encode("utf-8", "surrogateescape"))
    with pytest.raises(BadInput, match="not what keep export writes") as fault:
        import_folder(exported, tmp_path / "new.db")
    assert "\n" not in str(fault.value)


def test_an_export_of_the_future_is_refused_with_both_numbers(exported: Path, tmp_path: Path) -> None:
    told = json.loads((exported / "export.json").read_text())
    (exported / "export.json").write_text(json.dumps({**told, "format": 417}))
    with pytest.raises(BadInput, match=r"format 417.*format 1"):
        import_folder(exported, tmp_path / "new.db")


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", "\r=", "\0=", "\n="])
def test_no_text_runs_as_a_formula_and_numbers_stay_numbers(file_store: Store, tmp_path: Path, start: str) -> None:
    """https://owasp.org/www-community/attacks/CSV_Injection names the leading characters."""
    kept = GolfSet(set=SetFacts(player=f"{start}cmd|' /C calc'!A0"), clubs=golf_set().clubs)
    file_store.save_set("ada", kept, "", who="tester")
    export(file_store.place, tmp_path / "out")
    with (tmp_path / "out" / "sets.csv").open(encoding="utf-8", newline="") as stream:
        text = stream.read()
    [_, row] = csv.reader(io.StringIO(text, newline=""))
    assert row[1][0] in "'\N{REPLACEMENT CHARACTER}"
    assert "\0" not in text
    assert csv_text(["loft"], [[-1.5], [2]]) == "loft\r\n-1.5\r\n2\r\n"


def test_an_import_that_fails_at_any_statement_leaves_nothing(
    exported: Path, request: pytest.FixtureRequest, engine: str, made_store: Path, tmp_path: Path
) -> None:
    copy = (
        Path(shutil.copy(made_store, tmp_path / "copy.db"))
        if engine == "sqlite"
        else request.getfixturevalue("server_place")
    )
    before, left, failures = rows(copy), 0, 0

    def fail(conn: object, cursor: object, statement: str, *rest: object) -> None:
        nonlocal left
        left -= 1
        if left == 0:
            raise failure(statement, copy)

    sqlalchemy.event.listen(sqlalchemy.Engine, "before_cursor_execute", fail)
    try:
        for step in range(1, 200, 1 if engine == "sqlite" else 8):
            left = step
            try:
                import_folder(exported, copy)
                break
            except StoreUnusable:
                failures += 1
                assert rows(copy) == before
    finally:
        sqlalchemy.event.remove(sqlalchemy.Engine, "before_cursor_execute", fail)
    assert failures > (20 if engine == "sqlite" else 5)
    assert read_set("ada", copy).golf_set == golf_set(54)


def test_an_export_changed_anywhere_is_refused_or_harmless(exported: Path, made_store: Path, tmp_path: Path) -> None:
    """Bytes changed, cut or doubled, with a hash to fit: one sentence and nothing stored, or the very same store."""
    history, chance = (exported / "history.jsonl").read_bytes(), random.Random(5)
    told = json.loads((exported / "export.json").read_text())
    copy, refused = tmp_path / "copy.db", 0
    shutil.copy(made_store, copy)
    import_folder(exported, copy)
    whole, empty = rows(copy), rows(made_store)
    trials = times(120, 2000)
    for _ in range(trials):
        changed = bytearray(history)
        start = chance.randrange(len(changed))
        match chance.choice(["flip", "cut", "double", "word"]):
            case "flip":
                changed[start] ^= 1 << chance.randrange(8)
            case "cut":
                del changed[start : start + chance.choice([1, 20, 100_000])]
            case "double":
                changed[start:start] = changed[start : start + 200]
            case _:
                changed[start:start] = chance.choice([b"null", b"-1", b"1e999", b"[" * 5000, b"\xff", b"\0", b'"'])
        (exported / "history.jsonl").write_bytes(changed)
        told["files"]["history.jsonl"] = sha256(changed).hexdigest()
        (exported / "export.json").write_text(json.dumps(told))
        shutil.copy(made_store, copy)
        try:
            import_folder(exported, copy)
        except (BadInput, StoreUnusable):
            refused += 1
            assert rows(copy) == empty
        else:
            assert rows(copy) == whole
    assert refused > 0.8 * trials
