"""Choose: the best set within limits, proven, with its reasons; or the best settings of one club."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

import msgspec

from asplayed.errors import BadInput
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, page, part_of_path, see_other, shown
from asplayed.web.searches import Search

if TYPE_CHECKING:
    from asplayed.choosing.choose import Chosen
    from asplayed.choosing.settings import Settings

set_tab = Tab("Choose", "/sets/{name}/choose", "b")
AIMS = ("strokes", "longest", "farthest", "straight", "carry 150yd", "descent 45deg")
_SECONDS = 20.0


class Wanted(msgspec.Struct, frozen=True):
    """What is asked of a choice, in words; what is left empty is not asked. `club` alone asks for its best settings,
    `aim` says what for. `prices` is a table of prices as text."""

    club: str = ""
    aim: str = "strokes"
    course: str = ""
    clubs: int = 14
    changes: int | None = None
    price: str = ""
    prices: str = ""
    require: tuple[str, ...] = ()
    forbid: tuple[str, ...] = ()
    least_gap: str = ""
    most_gap: str = ""
    same_irons: str = ""
    worst: bool = False
    seconds: float = _SECONDS
    seed: int = 0


def wanted_of(form: Form) -> Wanted:
    """What a form asks for."""

    def several(name: str) -> tuple[str, ...]:
        return tuple(word.strip() for word in form.text(name).replace(";", ",").split(",") if word.strip())

    count = form.number("clubs")
    return Wanted(
        club=form.text("club"),
        aim=form.text("aim") or "strokes",
        course=form.text("course"),
        clubs=14 if count is None else count,
        changes=form.number("changes"),
        price=form.text("price"),
        prices=form.long_text("prices"),
        require=several("require"),
        forbid=several("forbid"),
        least_gap=form.text("least_gap"),
        most_gap=form.text("most_gap"),
        same_irons=form.text("same_irons"),
        worst=bool(form.text("worst")),
    )


def chosen(here: Here, name: str, wanted: Wanted, search: Search | None = None) -> Chosen | Settings:
    """The set chosen, or the settings of the club asked for; nothing is stored."""
    from asplayed.choosing.asked import limits_asked
    from asplayed.choosing.choice_model import Progress
    from asplayed.choosing.choose import choose
    from asplayed.choosing.demand import course_named
    from asplayed.choosing.one_club import settings_of
    from asplayed.choosing.prices import read_prices
    from asplayed.choosing.settings import read_target

    if not 1 <= wanted.clubs <= 14:
        raise BadInput(f"{wanted.clubs} clubs cannot be; a set has 1 to 14")
    if not 0.1 <= wanted.seconds <= 120:
        raise BadInput("a search may take 0.1 to 120 seconds")
    bag = here.app.known.bag(name)
    course = course_named(wanted.course) if wanted.course else None
    if wanted.club:
        return settings_of(
            bag.golf_set,
            wanted.club,
            read_target(wanted.aim),
            player=bag.player,
            sessions=bag.sessions,
            parts=bag.parts,
            course=course,
            seed=wanted.seed,
        )
    prices = read_prices(wanted.prices, "the prices") if wanted.prices.strip() else None

    def tell(progress: Progress) -> None:
        if search is not None:
            gap = max(0.0, progress.strokes - progress.bound)
            near = f", at most {gap:.3f} above the best" if gap < 10 else ""
            search.tell(f"{progress.words}: {progress.strokes:.3f} strokes a round so far{near}")

    return choose(
        bag.golf_set,
        player=bag.player,
        sessions=bag.sessions,
        parts=bag.catalogue,
        limits=limits_asked(
            bag.golf_set,
            clubs=wanted.clubs,
            changes=wanted.changes,
            price=wanted.price,
            prices=prices,
            require=wanted.require,
            forbid=wanted.forbid,
            least_gap=wanted.least_gap,
            most_gap=wanted.most_gap,
            same_irons=wanted.same_irons,
        ),
        course=course,
        prices=prices,
        against="worst" if wanted.worst else "average",
        seconds=wanted.seconds,
        seed=wanted.seed,
        on_progress=tell,
    )


class OnFront(NamedTuple):
    """A point of the front: how many changes, what they save, and how wide its bar is."""

    limit: str
    saved: str
    share: float
    changes: tuple[str, ...]


def _front(found: Chosen) -> list[OnFront]:
    most = max((each.saved.number for each in found.front_by_changes), default=0.0)
    return [
        OnFront(
            f"{each.limit.number:g}",
            f"{each.saved.number:.3f}",
            each.saved.number / most if most > 0 else 0.0,
            each.changes,
        )
        for each in found.front_by_changes
    ]


@shown("/sets/{name:str}/choose")
def choose_page(here: Here, name: str, search: str = "") -> Page:
    """What can be asked, and the search that was begun."""
    from asplayed.choosing.demand import course_names
    from asplayed.clubs.names import labels

    bag = here.app.known.bag(name)
    return page(
        here,
        "choosing.html",
        set_name=bag.name,
        clubs=labels(bag.golf_set.clubs),
        whose=bag.golf_set.set.player or bag.name,
        courses=tuple(course_names()),
        aims=AIMS,
        key=search,
        **(filled := _filled(here, search)),
        wanted=filled["found"].wanted if filled["found"] else Wanted(),
    )


def _filled(here: Here, key: str) -> dict[str, Any]:
    from asplayed.choosing.choose import Chosen
    from asplayed.choosing.settings import Settings

    found = here.app.searches.get(key, here.who) if key else None
    answer = found.answer if found else None
    return {
        "found": found,
        "chosen": answer if isinstance(answer, Chosen) else None,
        "settings": answer if isinstance(answer, Settings) else None,
        "front": _front(answer) if isinstance(answer, Chosen) else [],
    }


@done("/sets/{name:str}/choose")
def begin(here: Here, name: str, form: Form) -> Answer:
    """Begin a search."""
    wanted = wanted_of(form)
    here.app.known.bag(name)  # a missing set is said at once
    what = f"{name}: {wanted.club or 'the set'}"
    key = here.app.searches.begin(here.who, what, lambda on: chosen(here, name, wanted, on), wanted)
    return see_other(f"/sets/{part_of_path(name)}/choose?search={key}")


@shown("/sets/{name:str}/choose/{search:str}")
def how_far(here: Here, name: str, search: str) -> Page:
    """How far a search is, or its answer, for the page that waits."""
    return page(here, "choosing-answer.html", set_name=name, key=search, **_filled(here, search))


@done("/sets/{name:str}/choose/{search:str}/stop")
def stop(here: Here, name: str, search: str) -> Answer:
    """Let a search answer with the best it has."""
    here.app.searches.get(search, here.who).stopping = True
    return see_other(f"/sets/{part_of_path(name)}/choose?search={search}")


@asked("/api/sets/{name:str}/choose", method="POST")
def api_choose(here: Here, name: str, data: Wanted) -> dict[str, Any]:
    """The best set within these limits, with its proof, alternatives and reasons; or one club's best settings."""
    from asplayed.quantities import plain

    told: dict[str, Any] = plain(chosen(here, name, data))
    return told


routes = (choose_page, begin, how_far, stop, api_choose)
