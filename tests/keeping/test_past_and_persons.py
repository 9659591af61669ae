"""Comparing, going forward again, taking out of use, files kept with a set, and the erasure a person may ask for."""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path

import pytest
import sqlalchemy
from msgspec.structs import replace

from asplayed.clubs import Club, GolfSet, Shaft
from asplayed.errors import BadInput
from asplayed.keeping import Store, read_set, set_history
from asplayed.keeping.attaching import attach, attachments, content_of, shown_name, write_new
from asplayed.keeping.comparing import compare
from asplayed.keeping.erasing import erase_player
from asplayed.keeping.exporting import export
from asplayed.keeping.importing import import_folder
from asplayed.keeping.places import Place
from asplayed.keeping.proving import prove
from asplayed.quantities import figure

from .conftest import golf_set, name_of


def test_two_versions_two_sets_and_two_days_are_compared(store: Store, place: Place) -> None:
    store.save_set("ada", golf_set(56), "56", who="tester")
    more = replace(golf_set(54), clubs=(*golf_set(54).clubs, Club(club="putter", kind="putter")))
    store.save_set("ada", more, "54", who="tester")
    store.save_set("jonas", golf_set(56, player="Jonas Tessler"), "56", who="tester")
    expected = [
        ("putter", "club", None, "putter"),
        ("sand wedge", "head.loft", "56 deg", "54 deg"),
    ]
    assert sorted(map(tuple, compare("ada@1", "ada", place))) == expected
    assert [tuple(each) for each in compare("ada@1", "jonas", place)] == [
        (None, "player", "Ada Brandt", "Jonas Tessler")
    ]
    day = set_history("ada", place)[0].at[:10]
    assert compare("ada@2", f"ada@{day}", place) == ()
    with pytest.raises(BadInput, match="not stored yet on 1999-01-01"):
        compare("ada@1999-01-01", "ada", place)
    with pytest.raises(BadInput, match="no version 9"):
        compare("ada@9", "ada", place)


def test_a_set_s_own_name_may_look_like_a_version(store: Store, place: Place) -> None:
    store.save_set("ada@2", golf_set(50), "50", who="tester")
    assert compare("ada@2", "ada@2", place) == ()


def test_every_kind_of_fact_is_compared(store: Store, place: Place) -> None:
    shafts = (Shaft(mass=figure(65, "g", "stated"), flex="S"), Shaft(mass=None, flex="X"))
    for name, shaft in zip(("one", "two"), shafts, strict=True):
        kept = GolfSet(clubs=(Club(club="7 iron", kind="iron", shaft=shaft, lines=(len(name),)),))
        store.save_set(name, kept, name, who="tester")
    told = {each.field: (each.before, each.after) for each in compare("one", "two", place)}
    assert told == {"shaft.mass": ("65 g", None), "shaft.flex": ("S", "X")}


def test_redo_takes_undo_back_one_by_one(store: Store) -> None:
    for loft in (50, 52, 54):
        store.save_set("ada", golf_set(loft), str(loft), who="tester")
    with pytest.raises(BadInput, match="nothing to redo"):
        store.redo_set("ada", who="tester")
    for _ in range(3):
        store.undo_set("ada", who="tester")
    for loft in (50, 52, 54):
        store.redo_set("ada", who="tester")
        assert store.load_set("ada").golf_set == golf_set(loft)
    with pytest.raises(BadInput, match="nothing to redo"):
        store.redo_set("ada", who="tester")
    store.undo_set("ada", who="tester")
    store.save_set("ada", golf_set(60), "60", who="tester")
    with pytest.raises(BadInput, match="nothing to redo"):
        store.redo_set("ada", who="tester")
    assert len(store.set_history("ada")) == 11


def test_a_hidden_set_is_out_of_use_and_undo_brings_it_back(store: Store) -> None:
    store.save_set("ada", golf_set(50), "50", who="tester")
    assert store.hide_set("ada", who="tester").hidden
    assert store.list_sets() == ()
    with pytest.raises(BadInput, match="out of use"):
        store.hide_set("ada", who="tester")
    assert not store.undo_set("ada", who="tester").hidden
    assert store.load_set("ada").golf_set == golf_set(50)
    assert prove(store.place).ok


NAMES = [
    "../../x", "/etc/passwd", "a\0b", "C:\\windows\\x.exe", "..", ".", "", " ", "CON", "nul.txt", "x" * 4096,
    "\u202egpj.exe", "\udcff", "a\nb", "-rf", "a" * 119 + "é", "﻿x", "con/../aux",
]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_an_attachment_is_stored_by_its_hash_whatever_it_is_called(store: Store, tmp_path: Path, name: str) -> None:
    store.save_set("ada", golf_set(), "", who="tester")
    done = attach(store, "ada", name, b"%PDF-1.7 x", who="tester")
    assert done.attachment.sha256 == sha256(b"%PDF-1.7 x").hexdigest()
    assert done.attachment.media == "application/pdf"
    assert not set(done.attachment.file) & set("/\\\0\n\u202e")
    assert 0 < len(done.attachment.file) <= 120
    assert attachments("ada", store.place) == (done.attachment,)
    assert content_of("ada", done.attachment.sha256[:8], store.place)[1] == b"%PDF-1.7 x"
    export(store.place, tmp_path / "out")
    assert done.attachment.sha256 in {path.name for path in (tmp_path / "out" / "originals").iterdir()}


def test_the_same_file_again_changes_nothing_and_another_set_keeps_its_own(store: Store, place: Place) -> None:
    for name in ("ada", "jonas"):
        store.save_set(name, golf_set(), "", who="tester")
    told = [attach(store, name, "p.png", b"\x89PNG\r\n\x1a\n", who="tester").new for name in ("ada", "ada", "jonas")]
    assert told == [True, False, True]
    assert len(attachments("ada", place)) == len(attachments("jonas", place)) == 1
    with pytest.raises(BadInput, match="no set"):
        attach(store, "priya", "p", b"x", who="tester")
    with pytest.raises(BadInput, match="no attachment"):
        content_of("ada", "0000", place)
    with pytest.raises(BadInput, match="no attachment"):
        content_of("ada", "", place)


def test_a_fetched_file_replaces_nothing_and_cannot_be_run(tmp_path: Path) -> None:
    write_new(tmp_path / "new", b"x")
    assert ((tmp_path / "new").stat().st_mode & 0o777, (tmp_path / "new").read_bytes()) == (0o600, b"x")
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    for target in (tmp_path / "new", tmp_path / "link"):
        with pytest.raises(BadInput, match="there already"):
            write_new(target, b"y")
    assert not (tmp_path / "elsewhere").exists()


def test_erasure_leaves_nothing_of_a_person_and_the_chain_holds(
    store: Store, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    from asplayed.keeping.shots import save_player
    from asplayed.players.records import Player

    private = golf_set(56, player="Mireille Okafor")
    store.save_set("mireille", private, "words of Mireille 0123456789", who="Halvard", why="Okafor's first visit")
    store.save_set("mireille", golf_set(54, player="mireille  okafor"), "shared words", who="Halvard")
    store.save_set("ada", golf_set(56), "shared words", who="Priya", why="her visit")
    attach(store, "mireille", "okafor.png", b"\x89PNG\r\n\x1a\nMireille", who="Halvard")
    save_player(store, "mireille", Player(name="Mireille Okafor", hand="left"), who="Halvard")
    with pytest.raises(BadInput, match="no set of a player 'Jonas"):
        erase_player(store, "Jonas Tessler", who="Priya")
    found = erase_player(store, "mireille OKAFOR", who="Priya", why="on request")
    assert sorted(each.kind for each in found) == ["attachment", "player", "set"]
    store.close()
    if isinstance(store.place, Path):
        files = list(tmp_path.glob("store.db*"))
    else:
        server = request.getfixturevalue("shop")
        server.run("CHECKPOINT")
        [(number,)] = server.keeper.execute("SELECT oid FROM pg_database WHERE datname = %s", [name_of(store.place)])
        files = list(Path(server.host, "data", "base", str(number)).iterdir())
    assert files
    for file in files:
        assert b"ireille" not in file.read_bytes() and b"kafor" not in file.read_bytes()
    proof = prove(store.place)
    assert (proof.faults, proof.checked["erased"]) == ((), 7)
    assert [entry.name for entry in store.list_sets()] == ["ada"]
    assert read_set("ada", store.place).original == b"shared words"
    with pytest.raises(BadInput, match="there is no set 'mireille'"):
        read_set("mireille", store.place)
    with pytest.raises(BadInput, match="was erased"):
        store.load_set("erased 1", 1)
    export(store.place, tmp_path / "out")
    import_folder(tmp_path / "out", tmp_path / "again.db")
    assert prove(tmp_path / "again.db").checked == proof.checked
    assert store.save_set("mireille", private, "new", who="Halvard").version == 1


def test_what_was_not_lawfully_erased_may_not_be_missing(store: Store) -> None:
    store.save_set("ada", golf_set(56), "56", who="tester")
    with store.acting("test", who="tester") as action:
        action.connection.exec_driver_sql("UPDATE versions SET content = ''")
        action.connection.execute(sqlalchemy.text("UPDATE originals SET words = :nothing"), {"nothing": b""})
        action.connection.exec_driver_sql("UPDATE links SET salt = ''")
    told = " | ".join(prove(store.place).faults)
    assert "version 1 of the set ada is not what was written" in told
    assert "the original" in told and "who, when, what or why was altered" in told


def test_a_name_is_shown_without_its_folders() -> None:
    assert shown_name("/home/x/bag photo.jpg") == "bag photo.jpg"
