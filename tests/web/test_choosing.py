"""Choose on a page: a search begun, asked, stopped; its answer with proof, alternatives and changes to send on."""

from __future__ import annotations

import re
import time
from typing import Any

import pytest
from litestar.testing import TestClient

from asplayed.web.searches import RUNNING, Search, Searches

Client = TestClient[Any]
PAGE = "/sets/ada-brandt/choose"


def answer_of(client: Client, **asked: str) -> str:
    """The page once the search is done."""
    begun = client.post(PAGE, data=asked, follow_redirects=False)
    assert begun.status_code == 303, begun.text
    key = re.sub(r".*search=", "", begun.headers["location"])
    for _ in range(3000):
        page = client.get(f"{PAGE}/{key}").text
        if 'id="waiting"' not in page:
            return str(client.get(PAGE, params={"search": key}).text)
        time.sleep(0.1)
    raise AssertionError("the search does not end")


def test_the_best_settings_of_a_club_with_what_is_flat(client: Client) -> None:
    page = answer_of(client, club="driver", aim="farthest")
    assert "settings tried" in page and "Order it" in page
    assert re.search(r"/sets/ada-brandt/order\?changes=driver", page)


@pytest.mark.slow
def test_the_best_set_comes_with_proof_and_goes_on_to_the_order(client: Client) -> None:
    page = answer_of(client, changes="1")
    assert "that is proven" in page
    assert "What the first changes bring" in page and "Other sets" in page
    changes = re.search(r'href="(/sets/ada-brandt/order\?changes=[^"]+)"', page)
    assert changes and "Keep it for the bench" in client.get(changes[1].replace("&amp;", "&")).text


def test_limits_that_cannot_be_are_a_sentence(client: Client) -> None:
    assert "no distance with a unit" in answer_of(client, least_gap="8")
    assert "no price is known" in answer_of(client, price="100 EUR")
    assert "1 to 14" in answer_of(client, clubs="40")
    assert client.post("/api/sets/ada-brandt/choose", json={"club": "driver", "aim": "magic"}).status_code == 400
    assert client.post("/sets/nobody/choose", data={}).status_code == 404
    assert client.get(f"{PAGE}/nothing").status_code == 400


def test_the_api_answers_the_settings_of_a_club(client: Client) -> None:
    found = client.post("/api/sets/ada-brandt/choose", json={"club": "driver", "aim": "farthest"}).json()
    assert found["club"] == "driver" and found["best"]["value"] >= found["today"]["value"]


def test_a_search_is_stopped_with_what_it_has_and_only_so_many_run() -> None:
    searches = Searches()
    release: list[bool] = []

    def work(search: Search) -> str:
        while not release:
            try:
                search.tell("looking")
            except KeyboardInterrupt:
                return "the best so far"
            time.sleep(0.01)
        return "the best"

    keys = [searches.begin("ada", f"{n}", work) for n in range(RUNNING)]
    with pytest.raises(Exception, match="under way"):
        searches.begin("ada", "one more", work)
    searches.get(keys[0], "ada").stopping = True
    while not searches.get(keys[0], "ada").done:
        time.sleep(0.01)
    assert searches.get(keys[0], "ada").answer == "the best so far"
    with pytest.raises(Exception, match="not at hand"):
        searches.get(keys[1], "jonas")
    release.append(True)
    while not searches.get(keys[1], "ada").done:
        time.sleep(0.01)
    assert searches.get(keys[1], "ada").answer == "the best"
