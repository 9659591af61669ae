"""The two-minute tour: a strip at the foot of the pages it leads through, one step a page."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from asplayed.web.kit import Here


class Step(NamedTuple):
    """One step as its page shows it: what to look at, where it stands among the others, and the ways on."""

    heading: str
    say: str
    number: int
    of: int
    here: str
    before: str | None
    next: str | None


@cache
def _written() -> tuple[dict[str, str], ...]:
    text = resources.files("asplayed.web").joinpath("data", "tour.toml").read_text(encoding="utf-8")
    return tuple(tomllib.loads(text)["step"])


def step_of(here: Here) -> Step | None:
    """The step that the address asks for (`?tour=3`); None where no tour is on.

    Pages that the visitor may not see, or that need a set where there is none, are no steps of his tour.
    """
    asked = here.request.query_params.get("tour", "")
    if not (asked.isascii() and asked.isdecimal() and len(asked) < 4):
        return None
    name = _shown_set(here)
    steps = [
        step for step in _written() if here.may(f"GET {step['path']}") and (name is not None or "{" not in step["path"])
    ]
    number = int(asked)
    if not 1 <= number <= len(steps):
        return None

    def address(place: int) -> str | None:
        from asplayed.web.kit import part_of_path

        if not 1 <= place <= len(steps):
            return None
        return f"{steps[place - 1]['path'].replace('{name}', part_of_path(name or ''))}?tour={place}"

    step = steps[number - 1]
    here_path = here.request.url.path
    return Step(step["heading"], step["say"], number, len(steps), here_path, address(number - 1), address(number + 1))


def _shown_set(here: Here) -> str | None:
    """The set the tour shows: the one on the page, else the demo's first, else the first there is."""
    from asplayed.demo import LISTS
    from asplayed.keeping import list_sets

    if name := here.request.path_params.get("name"):
        return str(name)
    names = [entry.name for entry in list_sets(here.store) if here.sees(entry.player)]
    return next((name for name in (*LISTS, *names) if name in names), None)
