"""Pages without a script: a list is read, kept, changed and tried by forms alone, and nothing written is lost."""

from __future__ import annotations

import html
import re
from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient

from asplayed.demo import LISTS, material
from asplayed.errors import Missing
from asplayed.keeping import read_set, set_history
from asplayed.web.showing import lined

WORDS = "Player: Halvard Strand\ndriver Whimbrel 10.5, sleeve B3, <b>lovely</b>, 44.75\n7 iron Dunlin bent 1 weak"


def field(page: str, name: str) -> str:
    """What stands in a page's field of several lines."""
    found = re.search(rf'<textarea[^>]* name="{name}"[^>]*>\n?(.*?)</textarea>', page, re.DOTALL)
    assert found is not None
    return html.unescape(found[1])


@pytest.mark.parametrize("name", LISTS)
def test_a_stored_list_is_read_again_word_for_word(client: TestClient[Any], name: str) -> None:
    page = client.get("/take", params={"again": name}).text
    assert field(page, "text") == material(f"lists/{name}.txt").decode()


def test_lines_stay_lines_and_nothing_in_them_is_markup() -> None:
    assert lined("a\n<script>\n\x00b\u202e") == "a\n&lt;script&gt;\nb\u202e"


def test_without_a_script_a_list_is_read_answered_and_kept(client: TestClient[Any], store: Path) -> None:
    read = client.post("/take", data={"text": WORDS, "do": "read"}).text
    assert field(read, "text") == WORDS
    assert "<b>lovely</b>" not in read
    assert "2 clubs" in read
    asked = re.findall(r'<button class="tool answer" name="([^"]+)" value="([^"]+)"', read)
    assert asked
    answers = {html.unescape(asked[0][0]): html.unescape(asked[0][1]), "answer:driver|sleeve.loft_change": "-0.75"}
    answered = client.post("/take", data={"text": WORDS, **answers}).text
    assert "0 questions" in answered
    kept = client.post("/take", data={"text": WORDS, "do": "keep", **answers}, follow_redirects=False)
    assert kept.headers["location"] == "/sets/halvard-strand?kept=1"
    stored = read_set("halvard-strand", store)
    assert stored.original.decode() == WORDS
    assert stored.golf_set.questions == ()


def test_an_answer_taken_back_is_asked_again(client: TestClient[Any]) -> None:
    answer = {"answer:driver|sleeve.loft_change": "-0.75"}
    asked = client.post("/take", data={"text": WORDS, **answer}).text
    again = client.post("/take", data={"text": WORDS, **answer, "back": "driver|sleeve.loft_change"}).text
    assert asked.count('class="question"') + 1 == again.count('class="question"')


@pytest.mark.parametrize(
    ("name", "content"),
    [("list.txt", WORDS.encode()), ("list.txt", WORDS.encode("utf-16")), ("list.txt", "driver 10½°".encode("cp1252"))],
)
def test_a_file_is_read_in_any_common_writing(client: TestClient[Any], name: str, content: bytes) -> None:
    page = client.post("/take", files={"list": (name, content)}).text
    assert "driver" in field(page, "text")


def test_a_workbook_is_read_as_the_rows_it_holds(client: TestClient[Any], tmp_path: Path) -> None:
    import xlsxwriter

    with xlsxwriter.Workbook(tmp_path / "list.xlsx") as book:
        sheet = book.add_worksheet()
        for number, row in enumerate((("club", "loft", "flex"), ("7 iron", "33", "S"), ("8 iron", "37", "S"))):
            sheet.write_row(number, 0, row)
    page = client.post("/take", files={"list": ("list.xlsx", (tmp_path / "list.xlsx").read_bytes())}).text
    assert "2 clubs" in page


@pytest.mark.parametrize("content", [b"PK\x03\x04 not a workbook", b"\x00\x01\x02\x03" * 100, b"MZ\x90\x00" * 50])
def test_what_is_no_list_is_refused_in_one_sentence(client: TestClient[Any], content: bytes) -> None:
    answer = client.post("/take", files={"list": ("list.xlsx", content)}, headers={"accept": "text/html"})
    assert answer.status_code == 400
    assert 'role="alert"' in answer.text


def test_a_change_that_was_typed_where_the_figure_stands(client: TestClient[Any], store: Path) -> None:
    sent = {"club": "7 iron", "begins": "loft", "typed": "+1", "based_on": "1"}
    answer = client.post("/sets/ada-brandt/edit", data=sent, follow_redirects=False)
    assert answer.headers["location"] == "/sets/ada-brandt?kept=2#7%20iron"
    assert set_history("ada-brandt", store)[0].why == "7 iron: loft +1"


def test_a_late_change_shows_both_and_stores_nothing(client: TestClient[Any], store: Path) -> None:
    client.post("/sets/ada-brandt/edit", data={"changes": "7 iron: bend 1 weak", "based_on": "1"})
    late = client.post(
        "/sets/ada-brandt/edit", data={"changes": "7 iron: bend 2 weak\ndriver: +1 wrap", "based_on": "1"}
    )
    assert late.status_code == 409
    assert field(late.text, "changes") == "7 iron: bend 2 weak\ndriver: +1 wrap"
    assert read_set("ada-brandt", store).version == 2


def test_undo_to_before_the_first_version_leaves_the_set_hidden_and_its_history(
    client: TestClient[Any], store: Path
) -> None:
    answer = client.post("/sets/ada-brandt/undo", follow_redirects=False)
    assert answer.headers["location"] == "/"
    with pytest.raises(Missing):
        read_set("ada-brandt", store)
    assert client.get("/sets/ada-brandt").status_code == 404
    assert client.post("/sets/ada-brandt/redo", follow_redirects=False).status_code == 303
    assert client.get("/sets/ada-brandt").status_code == 200


def test_nobody_undoes_what_he_has_not_seen(client: TestClient[Any], store: Path) -> None:
    client.post("/sets/ada-brandt/edit", data={"changes": "7 iron: bend 1 weak", "based_on": "1"})
    late = client.post("/sets/ada-brandt/undo", data={"based_on": "1"}, headers={"accept": "text/html"})
    assert late.status_code == 409
    assert "version 2" in late.text
    assert read_set("ada-brandt", store).version == 2


def test_the_what_if_stands_in_its_address(client: TestClient[Any]) -> None:
    asked = {"changes": "sand wedge: bend 2 weak\nwind: 10 mph head", "pin": ["7 iron: bend 1 weak\nair: 95 degF", ""]}
    page = client.get("/sets/jonas-tessler/try", params=asked).text
    assert field(page, "changes") == asked["changes"]
    assert page.count('class="card pin"') == 2
    assert page.count('class="changed"') > 20
    other = client.get("/sets/jonas-tessler/try", params={"changes": "driver: bend 2 weak"}).text
    assert 'class="fault" role="alert"' in other


def test_metric_pages_show_metres_and_millimetres(client: TestClient[Any]) -> None:
    client.post("/look", data={"units": "metric", "back": "/"})
    assert " mm" in client.get("/sets/ada-brandt").text
    assert " m/s" in client.get("/sets/ada-brandt/try").text


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/sets/none", 404),
        ("/sets/ada-brandt/why?club=driver&figure=none", 400),
        ("/sets/ada-brandt/why?club=none&figure=loft", 400),
        ("/sets/ada-brandt/why", 400),
        ("/sets/ada-brandt?beside=none", 404),
        ("/sets/ada-brandt?beside=@99", 404),
        ("/sets/ada-brandt?kept=x", 400),
        ("/none", 404),
    ],
)
def test_a_fault_is_a_page_with_one_sentence(client: TestClient[Any], path: str, status: int) -> None:
    answer = client.get(path, headers={"accept": "text/html"})
    assert answer.status_code == status
    assert answer.text.count('role="alert"') == 1


def test_a_what_if_knows_at_once_what_was_learned_of_the_player(client: TestClient[Any], store: Path) -> None:
    from asplayed.keeping import open_store
    from asplayed.keeping.shots import save_player
    from asplayed.players import Player
    from asplayed.quantities import figure

    def carries() -> str:
        return client.post("/sets/jonas-tessler/try/seen", data={"changes": "putter: 1 in longer"}).text

    before = carries()
    with open_store(store) as kept:
        save_player(kept, "jonas-tessler", Player(driver_speed=figure(80.0, "mph", "stated")), who="tester")
    assert carries() != before


def test_an_answer_to_what_the_list_no_longer_asks_is_let_go(client: TestClient[Any], store: Path) -> None:
    given = {"text": "7 iron Dunlin\n8 iron Dunlin", "answer:driver|sleeve.loft_change": "-0.75", "as": "two-irons"}
    seen = client.post("/take/reading", data=given).text
    assert "<b>2 clubs</b>" in seen and "sleeve.loft_change" not in seen
    # also where the club is there, but has nothing of the kind any more
    bare = client.post("/take/reading", data={**given, "text": "driver 10.5, length 45\n7 iron Dunlin"}).text
    assert "<b>2 clubs</b>" in bare and 'role="alert"' not in bare
    # what is asked and answered so that it cannot be is a fault all the same
    asked = {**given, "text": "driver Whimbrel 10.5, sleeve B3", "answer:driver|sleeve.loft_change": "a lot"}
    assert 'role="alert"' in client.post("/take/reading", data=asked).text
    assert client.post("/take", data={**given, "do": "keep"}, follow_redirects=False).status_code == 303
    assert len(read_set("two-irons", store).golf_set.clubs) == 2
    # a script that answers what nobody asked is told so
    answer = {"club": "driver", "about": "sleeve.loft_change", "value": "-0.75"}
    assert client.post("/api/take", json={"text": given["text"], "answers": [answer]}).status_code == 400


def test_metric_pictures_are_ruled_in_metres(client: TestClient[Any]) -> None:
    yards = client.get("/sets/mireille-okafor/pictures").text
    client.post("/look", data={"units": "metric"})
    metres = client.get("/sets/mireille-okafor/pictures").text
    assert "Carry in yards" in yards and "Carry in metres" not in yards
    assert "Carry in metres" in metres and "Flights in metres" in metres and "Carry in yards" not in metres
    beside = client.post("/sets/mireille-okafor/try/pictures", data={"changes": "7 iron: bend 1 weak"}).text
    assert "Carry in metres" in beside and "Carry in yards" not in beside
    for page in (metres, beside, client.get("/sets/mireille-okafor").text):
        assert "Length beside the usual, mm" in page and "Length beside the usual, in" not in page
