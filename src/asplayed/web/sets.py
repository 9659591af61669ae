"""The set: every club as played, every figure with its derivation; changed in place, undone, compared."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

import msgspec

from asplayed.clubs import GolfSet
from asplayed.errors import BadInput, Missing, Stale
from asplayed.judgement import Finding
from asplayed.quantities import Figure, plain
from asplayed.telling import words
from asplayed.web.faults import sentences_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, page, part_of_path, see_other, shown

if TYPE_CHECKING:
    from asplayed.clubs import Club
    from asplayed.web.known import Bag

set_tab = Tab("The set", "/sets/{name}", "s")

# The figures of a club in their two tables: how it meets the ball, and how it is built; with the words that begin a
# change to each, where it can be changed.
MEETS = {
    "loft": ("loft", "10 · 1 weak"),
    "lie": ("lie", "62 · 1 upright"),
    "face": ("", ""),
    "bounce": ("", ""),
    "offset": ("", ""),
    "toe_hang": ("", ""),
}
BUILT = {
    "length": ("length", "44¾ · ½ in shorter"),
    "mass": ("", ""),
    "balance_point": ("", ""),
    "swing_weight": ("swing weight", "D2 · D3 at tip"),
    "butt_inertia": ("inertia", "2700"),
    "frequency": ("", ""),
    "grip_size": ("", ""),
}


class Cell(NamedTuple):
    """One figure of one club: its field, the figure, the words that begin a change to it, an example of one."""

    field: str
    figure: Figure | None
    change: str
    example: str


class Row(NamedTuple):
    """One club: its name in the set, its parts in words, its figures."""

    label: str
    head: str
    shaft: str
    settings: str
    meets: tuple[Cell, ...]
    built: tuple[Cell, ...]


def rows_of(golf_set: GolfSet) -> list[Row]:
    """A set as played, as the rows of its tables; a figure that no club has is left out."""
    from asplayed.clubs.names import labels

    def cells(club: Club, figures: dict[str, tuple[str, str]]) -> tuple[Cell, ...]:
        return tuple(
            Cell(field, getattr(club.as_played, field), *change)
            for field, change in figures.items()
            if any(getattr(other.as_played, field) is not None for other in golf_set.clubs)
        )

    return [
        Row(
            label,
            words.part_name(club.head),
            " ".join(word for word in (words.part_name(club.shaft), club.shaft.flex) if word),
            ", ".join(words.settings(club)),
            cells(club, MEETS),
            cells(club, BUILT),
        )
        for label, club in zip(labels(golf_set.clubs), golf_set.clubs, strict=True)
    ]


# --------------------------------------------------------------------------------------------------------- looking


@shown("/sets/{name:str}")
def one(here: Here, name: str, beside: str | None = None, kept: int | None = None) -> Page:
    """The set as played today, or as it stood in another version, beside another where one is asked for."""
    return _one(here, name, beside=beside, kept=kept)


def _one(
    here: Here, name: str, *, beside: str | None = None, kept: int | None = None, fault: str = "", written: str = ""
) -> Page:
    """The set's page; with the fault of a change that cannot be made, and the change as it was written."""
    from asplayed.keeping import set_history
    from asplayed.telling.drawing import drawn_set

    bag = here.app.known.bag(name)
    golf_set = bag.seen.golf_set
    return page(
        here,
        "set.html",
        status=400 if fault else 200,
        fault=fault,
        written=written,
        set_name=bag.name,
        bag=bag,
        golf_set=golf_set,
        facts=golf_set.set,
        rows=rows_of(golf_set),
        findings=by_level(bag.seen.findings),
        history=set_history(bag.name, here.store),
        beside=_beside(here, bag, beside) if beside else None,
        kept=kept,
        drawing=drawn_set(golf_set, lengths="mm" if here.preferences.units == "metric" else "in"),
    )


def by_level(findings: Sequence[Finding]) -> list[Finding]:
    """Findings, the gravest first."""
    order = list(words.LEVELS)
    return sorted(findings, key=lambda finding: order.index(finding.level))


def _beside(here: Here, bag: Bag, called: str) -> dict[str, Any]:
    """What differs between this set and another, or itself at another version or date."""
    from asplayed.clubs import played_set
    from asplayed.keeping.comparing import find_at
    from asplayed.keeping.reading import reading
    from asplayed.telling.comparing import beside, differences

    called = called.strip()
    whole = f"{bag.name}@{called.removeprefix('@')}" if called.startswith("@") else called
    with reading(here.store) as read:
        other = find_at(read, whole)
    if not here.sees(other.golf_set.set.player):
        raise BadInput(f"there is no set {called!r}")
    before = played_set(other.golf_set)
    return {
        "called": f"{other.name}, version {other.version}",
        "sentences": differences(before, bag.seen.golf_set),
        "clubs": beside(before, bag.seen.golf_set),
    }


@shown("/sets/{name:str}/why")
def why(here: Here, name: str, club: str, figure: str, part: bool = False) -> Page:
    """One figure's whole derivation, as a page or (with `part`) as the piece of one."""
    from asplayed.telling.tracing import find_club, find_figure

    bag = here.app.known.bag(name)
    label, found = find_club(bag.seen.golf_set, club)
    path, chosen = find_figure(found, label, figure)
    change, example = (MEETS | BUILT).get(path, ("", ""))
    return page(
        here,
        "set-why-part.html" if part else "set-why.html",
        set_name=bag.name,
        bag=bag,
        label=label,
        path=path,
        figure=chosen,
        change=change,
        example=example,
    )


@asked("/api/sets/{name:str}/since/{version:int}")
def since(here: Here, name: str, version: int) -> dict[str, Any]:
    """Whether somebody stored a newer version than this one; who, when, and what differs, in words."""
    from asplayed.clubs import played_set
    from asplayed.keeping import read_set, set_history
    from asplayed.telling.comparing import differences

    last = set_history(name, here.store)[0]
    if last.version <= version:
        return {"version": last.version, "newer": False}
    if last.hidden:
        return {"version": last.version, "newer": True, "who": last.who, "at": last.at, "hidden": True, "said": []}
    before, now = read_set(name, here.store, version), read_set(name, here.store)
    said = differences(played_set(before.golf_set), played_set(now.golf_set))
    return {
        "version": last.version,
        "newer": True,
        "who": last.who,
        "at": last.at,
        "hidden": False,
        "said": list(said) or ["Nothing differs in the figures entered."],
    }


# -------------------------------------------------------------------------------------------------------- changing


def edit(here: Here, name: str, texts: Sequence[str], based_on: int | None, why: str | None = None) -> dict[str, Any]:
    """Make changes to a set and store it as the next version; a newer one that came meanwhile refuses them."""
    from asplayed.catalogue.changes import apply_settled
    from asplayed.intake.changes import read_changes
    from asplayed.keeping import read_set

    stored = read_set(name, here.store)
    parts, catalogue = here.app.known.catalogue()
    changes = read_changes(texts, stored.golf_set, parts)
    if not changes:
        raise BadInput("nothing is to be changed; write a change such as 7 iron: bend 1 weak")
    changed = apply_settled(stored.golf_set, changes, catalogue)
    if not changed.clubs:
        raise BadInput("these changes leave no club in the set; keep one at least")
    saved = here.kept.save_set(
        stored.name,
        changed,
        stored.original,
        who=here.who,
        what="edit",
        why=why or "; ".join(texts),
        based_on=stored.version if based_on is None else based_on,
    )
    return {"name": saved.name, "version": saved.version, "new": saved.new}


def change_of(club: str, begins: str, typed: str) -> str:
    """What was typed into a figure's place, as a change: a figure alone is what it is to become.

    >>> change_of("7 iron", "loft", "31"), change_of("7 iron", "loft", "bend 1 weak")
    ('7 iron: loft 31', '7 iron: bend 1 weak')
    """
    typed = " ".join(typed.split())
    said = typed.lstrip("+-−").replace(".", "").replace("/", "").replace(" ", "")
    bare = bool(said) and (said[0].isnumeric() or begins == "swing weight") and not any(c.isalpha() for c in said[1:])
    return f"{club}: {begins} {typed}" if begins and bare else f"{club}: {typed}"


@done("/sets/{name:str}/edit")
def edited(here: Here, name: str, form: Form) -> Answer:
    """Make the changes that were typed; where somebody was quicker, show his change beside this one."""
    texts = [line.strip() for line in form.long_text("changes").splitlines() if line.strip()]
    if form.text("typed"):
        texts.append(change_of(form.text("club"), form.text("begins"), form.text("typed")))
    based_on = form.number("based_on")
    try:
        saved = edit(here, name, texts, based_on)
    except Stale as fault:
        return _both(here, name, texts, based_on or 0, str(fault))
    except BadInput as fault:
        if isinstance(fault, Missing):
            raise
        return _one(here, name, fault=" · ".join(sentences_of(fault)), written="\n".join(texts))
    where = f"#{part_of_path(form.text('club'))}" if form.text("club") else ""
    return see_other(f"/sets/{part_of_path(saved['name'])}?kept={saved['version']}{where}")


def _both(here: Here, name: str, texts: Sequence[str], based_on: int, sentence: str) -> Page:
    """Both sides of a change that came too late: what the other stored meanwhile, and what is still to be made."""
    from asplayed.clubs import played_set
    from asplayed.keeping import read_set, set_history
    from asplayed.telling.comparing import differences

    now = read_set(name, here.store)
    before = read_set(name, here.store, based_on) if based_on else now
    return page(
        here,
        "set-both.html",
        status=409,
        set_name=now.name,
        sentence=sentence,
        texts=texts,
        theirs=differences(played_set(before.golf_set), played_set(now.golf_set)),
        last=set_history(now.name, here.store)[0],
    )


@done("/sets/{name:str}/hand")
def handed(here: Here, name: str, form: Form) -> Answer:
    """Say which way the player stands: what is left and right of him follows."""
    from asplayed.keeping import read_set

    hand = form.text("hand")
    if hand not in ("left", "right"):
        raise BadInput("a player stands left-handed or right-handed")
    stored = read_set(name, here.store)
    facts = msgspec.structs.replace(stored.golf_set.set, hand=hand, hand_source="stated")
    changed = msgspec.structs.replace(stored.golf_set, set=facts)
    here.kept.save_set(
        stored.name,
        changed,
        stored.original,
        who=here.who,
        what="edit",
        why=f"{hand}-handed",
        based_on=form.number("based_on"),
    )
    return see_other(f"/sets/{part_of_path(stored.name)}")


@done("/sets/{name:str}/undo")
def undone(here: Here, name: str, form: Form) -> Answer:
    """Go one version back from the one that was seen: nobody undoes what he has not seen."""
    saved = here.kept.undo_set(name, who=here.who, based_on=form.number("based_on"))
    return see_other("/" if saved.hidden else f"/sets/{part_of_path(saved.name)}?kept={saved.version}")


@done("/sets/{name:str}/redo")
def redone(here: Here, name: str, form: Form) -> Answer:
    """Take the last undo back."""
    saved = here.kept.redo_set(name, who=here.who, based_on=form.number("based_on"))
    return see_other(f"/sets/{part_of_path(saved.name)}?kept={saved.version}")


# ------------------------------------------------------------------------------------------------------------- API


class Edit(msgspec.Struct, frozen=True):
    """Changes in trade notation, and the version they were made from."""

    changes: tuple[str, ...]
    based_on: int | None = None
    why: str | None = None


class Findings(msgspec.Struct, frozen=True):
    """What is wrong, unusual or worth knowing."""

    findings: tuple[Finding, ...]


@asked("/api/sets/{name:str}", answers=GolfSet)
def api_show(here: Here, name: str) -> dict[str, Any]:
    """Every club as played, as `asplayed show --json` answers it."""
    found: dict[str, Any] = plain(here.app.known.bag(name).seen.golf_set)
    return found


@asked("/api/sets/{name:str}/why")
def api_why(here: Here, name: str, club: str, figure: str) -> dict[str, Any]:
    """One figure and all that it was worked out from."""
    from asplayed.telling.tracing import find_club, find_figure, nested

    label, found = find_club(here.app.known.bag(name).seen.golf_set, club)
    path, chosen = find_figure(found, label, figure)
    return {"club": label, "figure": path, "chain": nested(path, chosen) if chosen else None}


@asked("/api/sets/{name:str}/judge", answers=Findings)
def api_judge(here: Here, name: str) -> dict[str, Any]:
    """What is wrong, unusual or worth knowing about the set."""
    return {"findings": [plain(finding) for finding in here.app.known.bag(name).seen.findings]}


@asked("/api/sets/{name:str}/fly")
def api_fly(here: Here, name: str) -> dict[str, Any]:
    """What every club does in its player's hands."""
    from asplayed.players.flown import as_plain

    return as_plain(here.app.known.bag(name).seen.flown)


@asked("/api/sets/{name:str}/history")
def api_history(here: Here, name: str) -> dict[str, Any]:
    """Every version there has been, newest first."""
    from asplayed.keeping import set_history

    return {"versions": [entry._asdict() for entry in set_history(name, here.store)]}


@asked("/api/sets/{name:str}/edit", method="POST")
def api_edit(here: Here, name: str, data: Edit) -> dict[str, Any]:
    """Make changes and store the set as its next version."""
    return {"stored": edit(here, name, data.changes, data.based_on, data.why)}


@asked("/api/sets/{name:str}/undo", method="POST")
def api_undo(here: Here, name: str) -> dict[str, Any]:
    """Go one version back."""
    return {"stored": here.kept.undo_set(name, who=here.who)._asdict()}


@asked("/api/sets/{name:str}/redo", method="POST")
def api_redo(here: Here, name: str) -> dict[str, Any]:
    """Take the last undo back."""
    return {"stored": here.kept.redo_set(name, who=here.who)._asdict()}


routes = (
    one, why, since, edited, handed, undone, redone,
    api_show, api_why, api_judge, api_fly, api_history, api_edit, api_undo, api_redo,
)  # fmt: skip
