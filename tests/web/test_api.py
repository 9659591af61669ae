"""The JSON API: the shapes of the command line, described; nothing that is sent to it ends in a fault of the server."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis.strategies import booleans
from litestar.testing import TestClient
from tests.web.conftest import PORT, TOKEN, times

from asplayed.cli import main
from asplayed.demo import material
from asplayed.web.app import application
from asplayed.web.settings import Settings

TRIES = times(8, 300)
CALM = list(HealthCheck)
ENTRY = {"authorization": f"Bearer {TOKEN}", "host": f"127.0.0.1:{PORT}"}


@pytest.fixture(scope="module")
def described(demo_store: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """The API as it describes itself, over a store of this module's own."""
    place = tmp_path_factory.mktemp("api") / "store.db"
    shutil.copy(demo_store, place)
    app = application(place, Settings(PORT, token=TOKEN, who="tester"))
    yield schemathesis.openapi.from_asgi("/openapi.json", app, headers=ENTRY)


def test_nothing_that_is_sent_ends_in_a_fault_of_the_server(described: Any) -> None:
    """Every route of the API, tried several times with what its description allows."""
    tried = []
    for found in described.get_all_operations():
        operation = found.ok()

        @settings(max_examples=TRIES, derandomize=True, deadline=None, database=None, suppress_health_check=CALM)
        @given(case=operation.as_strategy(), known=booleans())
        def attempt(case: Any, known: bool) -> None:
            if known and "name" in (case.path_parameters or {}):
                case.path_parameters["name"] = "ada-brandt"
            answer = case.call(headers=ENTRY)
            assert answer.status_code < 500, (case.method, case.path, answer.text)

        attempt()
        tried.append(operation.label)
    assert "POST /api/sets/{name}/try" in tried


def answered(capsys: pytest.CaptureFixture[str], *verb: str) -> Any:
    """What the command line answers in JSON."""
    with pytest.raises(SystemExit) as left:
        main([*verb, "--json"])
    assert left.value.code == 0
    return json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("path", "verb"),
    [
        ("/api/sets/ada-brandt", ["show", "ada-brandt"]),
        ("/api/sets/ada-brandt/judge", ["judge", "ada-brandt"]),
        ("/api/sets/ada-brandt/why?club=driver&figure=loft", ["show", "ada-brandt", "--why", "driver.loft"]),
    ],
)
def test_the_api_answers_what_the_command_line_answers(
    client: TestClient[Any], store: Path, capsys: pytest.CaptureFixture[str], path: str, verb: list[str]
) -> None:
    assert client.get(path).json() == answered(capsys, *verb, "--store", str(store))


def test_a_list_is_read_as_by_the_command_line(
    client: TestClient[Any], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = material("lists/jonas-tessler.txt")
    (tmp_path / "list.txt").write_bytes(words)
    answer = client.post("/api/read", json={"text": words.decode()})
    assert answer.json() == answered(capsys, "read", str(tmp_path / "list.txt"))


def test_a_what_if_has_both_sides_and_what_differs(client: TestClient[Any]) -> None:
    answer = client.post("/api/sets/ada-brandt/try", json={"changes": ["7 iron: bend 1 weak", "wind: 10 mph head"]})
    assert answer.status_code == 200
    found = answer.json()
    assert set(found) == {"before", "after", "differences"}
    loft = next(each for each in found["differences"] if (each["club"], each["figure"]) == ("7 iron", "loft"))
    assert loft["change"]["value"] == pytest.approx(1)
    assert client.get("/api/sets/ada-brandt/history").json()["versions"][0]["version"] == 1


def test_an_edit_from_an_old_version_is_told_apart(client: TestClient[Any]) -> None:
    change = {"changes": ["7 iron: bend 1 weak"], "based_on": 1}
    assert client.post("/api/sets/ada-brandt/edit", json=change).json() == {
        "stored": {"name": "ada-brandt", "version": 2, "new": True}
    }
    late = client.post("/api/sets/ada-brandt/edit", json=change)
    assert late.status_code == 409
    assert "version 2" in late.json()["fault"]
    assert client.get("/api/sets/ada-brandt/since/1").json()["newer"] is True


@pytest.mark.parametrize(
    ("path", "sent", "status", "said"),
    [
        ("/api/sets/no-such-set/try", {"changes": ["7 iron: bend 1 weak"]}, 404, "no set"),
        ("/api/sets/ada-brandt/try", {"changes": ["7 iron: fly"]}, 400, "fly"),
        ("/api/sets/ada-brandt/try", {"changes": "7 iron"}, 400, "shape"),
        ("/api/sets/ada-brandt/try", {}, 400, "shape"),
        ("/api/sets/ada-brandt/try", {"changes": ["7 iron: " + "bend 1 weak and " * 1000]}, 400, "one change a line"),
        ("/api/sets/ada-brandt/try", {"changes": ["7 iron: bend 1 weak"] * 500}, 400, "more than"),
        ("/api/sets/ada-brandt/edit", {"changes": ["7 iron: bend 1 weak"] * 500}, 400, "more than"),
        ("/api/read", {"text": "driver", "answers": [{"club": "driver", "about": "none", "value": "1"}]}, 400, "about"),
        ("/api/read", {"text": "driver", "answers": [{"about": "length", "value": "4" * 900}]}, 400, "goes on"),
        ("/api/read", {"text": ""}, 400, "empty"),
        ("/api/read", {"text": "x" * 2_000_000}, 413, "larger"),
    ],
)
def test_a_fault_is_one_sentence(client: TestClient[Any], path: str, sent: Any, status: int, said: str) -> None:
    answer = client.post(path, json=sent)
    assert answer.status_code == status
    assert said in answer.json()["fault"]
    assert "\n" not in answer.json()["fault"]


def test_a_list_that_is_put_is_stored_once_and_never_over_a_newer_one(client: TestClient[Any]) -> None:
    put = {"text": "7 iron Dunlin\n8 iron Dunlin", "why": "as read over the telephone"}
    first = client.put("/api/sets/two-irons", json=put)
    assert first.status_code == 200
    assert first.json()["stored"] == {"name": "two-irons", "version": 1, "new": True}
    assert [club["club"] for club in first.json()["clubs"]] == ["7 iron", "8 iron"]
    assert client.put("/api/sets/two-irons", json=put).json()["stored"]["new"] is False
    more = {"text": put["text"] + "\n9 iron Dunlin", "based_on": 1}
    assert client.put("/api/sets/two-irons", json=more).json()["stored"]["version"] == 2
    late = client.put("/api/sets/two-irons", json={"text": "9 iron Dunlin", "based_on": 1})
    assert late.status_code == 409 and "version 2" in late.json()["fault"]
    assert client.put("/api/sets/two-irons", json={"text": "no word of a club"}).status_code == 400
