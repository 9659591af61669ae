"""Names as people write them find the part they mean; what is too near to tell apart is never told apart."""

from __future__ import annotations

from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st

from asplayed.catalogue.matching import ACCEPTED, TIE, Catalogue, find, search
from asplayed.catalogue.parts import Part, PartKind, read_parts

PARTS = read_parts(resources.files("asplayed.demo").joinpath("catalogue.csv").read_bytes()).parts
CATALOGUE = Catalogue(PARTS)


def accepted(words: str, kind: PartKind) -> str | None:
    """The model that may be taken without asking."""
    matches = CATALOGUE.find(words, kind=kind)
    if not matches or matches[0].score < ACCEPTED:
        return None
    if len(matches) > 1 and matches[1].score > matches[0].score - TIE:
        return None
    return matches[0].model.model


@pytest.mark.parametrize(
    ("words", "kind", "model"),
    [
        ("Harrowmere Kittiwake 3", "head", "Kittiwake 3"),
        ("kittiwake 2 driver", "head", "Kittiwake 2"),
        ("Kittiwake III", "head", "Kittiwake 3"),
        ("kittiwake three", "head", "Kittiwake 3"),
        ("kittywake 3", "head", "Kittiwake 3"),
        ("harromere kittiwake3", "head", "Kittiwake 3"),
        ("ktwk 3", "head", "Kittiwake 3"),
        ("kitti 3", "head", "Kittiwake 3"),
        ("K3", "head", "Kittiwake 3"),
        ("the new kittiwake", "head", "Kittiwake 3"),
        ("last year's Kittiwake", "head", "Kittiwake 2"),
        ("Kittiwake 3 Deep", "head", "Kittiwake 3 Deep"),
        ("gannet 5 irons", "head", "Gannet 5"),
        ("Turn stone 2", "head", "Turnstone 2"),
        ("whimbrel", "head", "Whimbrel"),
        ("the lap", "head", "Lapwing"),
        ("ember 60", "shaft", "Ember"),
        ("Lindrake Ember 6", "shaft", "Ember"),
        ("strand iron 70", "shaft", "Strand Iron"),
        ("rungs", "shaft", "Rung"),
        ("corded midsize", "grip", "Corded"),
        ("Crest Soft", "ball", "Crest Soft"),
        # two generations and nothing that says which
        ("kittiwake", "head", None),
        ("Gannet", "head", None),
        # the bare name belongs to the first generation, but people call the second so too
        ("turnstone", "head", None),
        # a generation that nobody has published is no other one
        ("Kittiwake 4", "head", None),
        ("Ember 3", "shaft", None),
        ("Zorb", "head", None),
        ("", "head", None),
        ("10.5", "head", None),
    ],
)
def test_a_name_means_a_model_or_is_asked_about(words: str, kind: PartKind, model: str | None) -> None:
    assert accepted(words, kind) == model


def test_scores_lie_within_a_hundred_and_come_with_a_reason_best_first() -> None:
    matches = find(PARTS, "kittiwake 3 deep", kind="head")
    scores = [match.score for match in matches]
    assert scores == sorted(scores, reverse=True)
    assert all(0 <= score <= 100 and match.reason for score, match in zip(scores, matches, strict=True))


def test_a_longer_name_never_takes_the_place_of_the_very_one() -> None:
    for model in CATALOGUE.models:
        words = f"{model.maker} {model.model}"
        assert CATALOGUE.find(words, kind=model.part)[0].model is model


def test_a_part_made_for_another_club_comes_lower() -> None:
    for club in ("hybrid", "driver"):
        matches = CATALOGUE.find(
            "ember",
            kind="shaft",
            suits=lambda m, club=club: any(club in row.club for row in m.rows),  # type: ignore[misc]
        )
        assert any(club in row.club for row in matches[0].model.rows)


@pytest.mark.parametrize(
    ("words", "variant", "model"),
    [
        ("crescent 58", "58.06", "Turnstone 2"),
        ("Ember 60 X", "60", "Ember"),
        ("T2 60 narrow", "60.04", "Turnstone 2"),
        ("plumber's", "plumber's neck", "Avocet"),
        ("wedge chart 2021 52", "52.08", "Turnstone"),
    ],
)
def test_a_search_by_anything_finds_the_row(words: str, variant: str, model: str) -> None:
    best = search(CATALOGUE, words)[0].part
    assert (best.variant, best.model) == (variant, model)


def test_a_search_of_an_empty_catalogue_finds_nothing() -> None:
    assert search(Catalogue([]), "ember") == ()
    assert find([Part(part="head", model="Dunlin")], "ember") == ()


def test_the_very_generation_is_found_among_very_many_of_one_family() -> None:
    many = Catalogue(Part(part="head", maker="Harrowmere", model=f"Kittiwake {n}") for n in range(2, 300))
    assert [match.model.model for match in many.find("harrowmere kittywake 271", limit=1)] == ["Kittiwake 271"]


@given(st.text(max_size=60), st.sampled_from(["head", "shaft", "grip", "ball", "sleeve", None]))
def test_any_words_are_looked_up(words: str, kind: PartKind | None) -> None:
    for match in CATALOGUE.find(words, kind=kind):
        assert 0 <= match.score <= 100
        assert kind in {None, match.model.part}
    for hit in search(CATALOGUE, words, kind=kind):
        assert 0 <= hit.score <= 100
