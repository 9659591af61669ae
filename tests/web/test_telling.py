"""Sheets and pack on a page: looked at, taken along, and laid beside what was said."""

from __future__ import annotations

import io
import zipfile
from typing import Any

import pytest
from litestar.testing import TestClient

Client = TestClient[Any]
PAGE = "/sets/jonas-tessler/tell"
SAID = b"""WEBVTT

00:00:02.000 --> 00:00:09.000
The driver is stamped ten and a half and plays at nine and a half.

00:00:14.500 --> 00:00:21.000
The sand wedge is a fifty-four, bent a degree weak, so it plays at fifty-nine degrees.
"""


def test_the_page_lists_what_can_be_told_and_begins_it(client: Client) -> None:
    page = client.get(PAGE).text
    assert "14 clubs" in page
    for file in ("player-sheet.pdf", "cue-sheet.pdf", "captions.vtt"):
        assert f"{PAGE}/{file}?" in page


@pytest.mark.parametrize("file", ["player-sheet.pdf", "club-cards.pdf"])
def test_a_sheet_is_looked_at_and_taken_along(client: Client, file: str) -> None:
    looked = client.get(f"{PAGE}/look/{file}", params={"paper": "letter", "large": "true"}).text
    assert looked.count("data:image/png;base64,") >= 1
    taken = client.get(f"{PAGE}/{file}")
    assert taken.content[:5] == b"%PDF-"
    assert taken.headers["content-disposition"].startswith("attachment")


def test_the_whole_pack_goes_along(client: Client) -> None:
    packed = zipfile.ZipFile(io.BytesIO(client.get("/sets/ada-brandt/tell/pack.zip").content))
    assert {"player-sheet.pdf", "cue-sheet.pdf", "set-sheet.html", "captions.vtt"} <= set(packed.namelist())
    assert any(name.startswith("overlays/") and name.endswith(".png") for name in packed.namelist())


def test_beside_another_set_what_differs_is_told(client: Client) -> None:
    page = client.get(PAGE, params={"before": "ada-brandt"}).text
    assert "comparison.pdf" in page
    assert "comparison.pdf" not in client.get(PAGE).text
    assert client.get(PAGE, params={"before": "nobody"}).status_code == 200
    assert "nobody" in client.get(PAGE, params={"before": "nobody"}).text


def test_what_was_said_is_laid_beside_what_was_written(client: Client) -> None:
    found = client.post(f"{PAGE}/spoken", files={"spoken": ("talk.vtt", SAID, "text/vtt")})
    assert found.status_code == 200
    assert "fifty-nine" in found.text or "59" in found.text
    assert "00:00:02" in found.text


@pytest.mark.parametrize("file", ["../store.db", "manifest.json", "overlays/x.png", "no.pdf"])
def test_nothing_else_is_given_out(client: Client, file: str) -> None:
    assert client.get(f"{PAGE}/{file}").status_code in (400, 404)


def test_no_transcript_and_a_wrong_one_are_sentences(client: Client) -> None:
    assert client.post(f"{PAGE}/spoken", data={}).status_code == 400
    wrong = client.post(f"{PAGE}/spoken", files={"spoken": ("talk.vtt", b"\xff\xfe\x00", "text/vtt")})
    assert wrong.status_code == 400
    assert client.get(PAGE, params={"spelling": "welsh"}).status_code in (200, 400)
