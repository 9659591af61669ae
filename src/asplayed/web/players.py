"""The player and the shots: who swings these clubs, what was struck with them, and what it says."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING, Any, NamedTuple

import msgspec

from asplayed.errors import BadInput, Refused
from asplayed.quantities import Figure
from asplayed.web.faults import sentences_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, asked, done, page, part_of_path, see_other, shown
from asplayed.web.tables import Laid, laid_out, remember, remembered, said_of, sent_of, table_of

if TYPE_CHECKING:
    from asplayed.players.records import Player
    from asplayed.players.shots import ImportedShots
    from asplayed.players.summaries import ClubSummary, Session
    from asplayed.web.known import Bag

set_tab = Tab("Player and shots", "/sets/{name}/shots", "h")

MEASURES = {
    "driver_speed": ("Driver speed", "105 mph"),
    "handicap": ("Handicap (+2 is better than scratch)", "8"),
    "height": ("Height", "71 in"),
    "wrist_to_floor": ("Wrist to floor", "34 in"),
    "hand_size": ("Hand, wrist to finger tip", "7.5 in"),
    "stroke_arc": ("Arc of the putting stroke", "6 deg"),
}
AIR = {
    "temperature": ("Temperature", "70 degF"),
    "humidity": ("Humidity", "50 percent"),
    "altitude": ("Height above the sea", "500 ft"),
    "pressure": ("Barometer there", "1013 hPa"),
    "wind_along": ("Wind along, tail +", "-10 mph"),
    "wind_across": ("Wind across, to the right +", "5 mph"),
}
_COLUMNS = ("carry", "total", "side", "club speed", "ball speed", "launch", "spin", "apex", "descent")
_SHOWN = 60


class Apart(NamedTuple):
    """A shot that stands apart from its club's others, and why."""

    session: int
    row: int
    club: str
    why: str


class Looked(NamedTuple):
    """A table of shots looked at before it is taken: how it is laid out, and what would come of it, or every fault."""

    laid: Laid
    imported: ImportedShots | None
    clubs: dict[str, int]
    faults: tuple[str, ...] = ()


def _apart(sessions: tuple[Session, ...]) -> list[Apart]:
    from asplayed.players.summaries import flag

    found = []
    for number, session in enumerate(sessions, 1):
        flagged, why = flag(session.shots)
        shots = session.shots
        found += [
            Apart(number, int(shots.row[place]), shots.clubs[int(shots.club[place])], why.get(place, ""))
            for place in range(len(shots.row))
            if flagged[place]
        ]
    return found


def _summaries(bag: Bag) -> tuple[ClubSummary, ...]:
    from asplayed.players.summaries import pooled

    return pooled(bag.sessions) if bag.sessions else ()


@shown("/sets/{name:str}/shots")
def shots_page(here: Here, name: str, taken: str = "") -> Page:
    """The player of this set, and what was struck with it."""
    from asplayed.players.records import LIMITS_CAUTION
    from asplayed.players.summaries import open_questions

    bag = here.app.known.bag(name)
    summaries = _summaries(bag)
    return page(
        here,
        "shots.html",
        set_name=bag.name,
        bag=bag,
        taken=taken,
        measures=[(field, *words, getattr(bag.player, field)) for field, words in MEASURES.items()],
        air=AIR,
        caution=LIMITS_CAUTION,
        summaries=summaries,
        headings=[column for column in _COLUMNS if any(each.typical(column) for each in summaries)],
        apart=_apart(bag.sessions)[:_SHOWN],
        questions=open_questions(summaries) if summaries else (),
    )


@done("/sets/{name:str}/player")
def keep_player(here: Here, name: str, form: Form) -> Answer:
    """Keep what is known of the player; a field left empty is forgotten."""
    from asplayed.keeping.shots import save_player
    from asplayed.players.records import player_figure

    bag = here.app.known.bag(name)
    faults: list[str] = []
    said: dict[str, Any] = {}
    for field in MEASURES:
        text = form.text(field)
        try:
            said[field] = player_figure(field, text, bare=True) if text else None
        except BadInput as fault:
            faults.append(str(fault))
    if faults:
        raise BadInput(faults[0]) if len(faults) == 1 else Refused("this player cannot be", faults)
    said["limits"] = form.long_text("limits").strip()[:1000] or None
    unchanged = {
        field: found
        for field in MEASURES
        if isinstance(found := getattr(bag.player, field), Figure) and _same(found, said[field])
    }
    save_player(here.kept, bag.name, msgspec.structs.replace(bag.player, **{**said, **unchanged}), who=here.who)
    return see_other(f"/sets/{part_of_path(bag.name)}/shots")


def _same(before: Figure, after: Figure | None) -> bool:
    """A figure that was only shown and sent back keeps its source and its band."""
    return after is not None and abs(before.in_unit(after.unit).number - after.number) < 0.051  # as a page rounds it


# -------------------------------------------------------------------------------------------------- a table of shots


def looked_at(here: Here, bag: Bag, key: str, said: dict[str, str], *, keep_good_rows: bool) -> Looked:
    """A table of shots that waits, as it would be taken."""
    from asplayed.players.shots import shot_columns, shots_of

    sent = here.app.waiting.get(key, here.who)
    laid = laid_out(key, sent, shot_columns(), said)
    try:
        found = shots_of(table_of(sent), bag.golf_set.clubs, column_map=said, keep_good_rows=keep_good_rows)
    except BadInput as fault:
        return Looked(laid, None, {}, sentences_of(fault))
    counts = {each: int((found.shots.club == place).sum()) for place, each in enumerate(found.shots.clubs)}
    return Looked(laid, found, {each: count for each, count in counts.items() if count})


def _looked_page(here: Here, bag: Bag, found: Looked, form: Form) -> Page:
    from asplayed.players.shots import shot_columns

    return page(
        here,
        "shots-table.html",
        set_name=bag.name,
        found=found,
        columns=shot_columns(),
        air=AIR,
        given={field: form.text(field) for field in (*AIR, "date", "ball", "surface")},
        keep_good_rows=bool(form.text("keep_good_rows")),
    )


@done("/sets/{name:str}/shots/table", upload=True)
def look_at_shots(here: Here, name: str, form: Form) -> Page:
    """A table that was sent or pasted, looked at: nothing is stored."""
    bag = here.app.known.bag(name)
    sent = sent_of(here, form, "no shots were given; choose a CSV, TSV or XLSX file, or paste a table")
    found = looked_at(here, bag, here.app.waiting.put(sent), remembered(here, sent), keep_good_rows=False)
    return _looked_page(here, bag, found, form)


@done("/sets/{name:str}/shots/table/{key:str}")
def take_shots(here: Here, name: str, key: str, form: Form) -> Answer | Page:
    """The shots that wait, with their columns as said: looked at once more, or taken as a session."""
    from asplayed.keeping.shots import save_session
    from asplayed.players.places import conditions_said
    from asplayed.players.records import SessionFacts
    from asplayed.players.summaries import Session

    bag = here.app.known.bag(name)
    sent = here.app.waiting.get(key, here.who)
    said = said_of(form, sent)
    found = looked_at(here, bag, key, said, keep_good_rows=bool(form.text("keep_good_rows")))
    if form.text("then") != "take" or found.imported is None:
        return _looked_page(here, bag, found, form)
    surface = form.text("surface")
    facts = SessionFacts(
        file=sent.name,
        date=_day(form.text("date")),
        ball=form.text("ball") or None,
        surface="mat" if surface == "mat" else "turf" if surface == "turf" else None,
        conditions=conditions_said({field: form.text(field) or None for field in AIR}, AIR),
    )
    saved = save_session(
        here.kept, bag.name, Session(facts, found.imported.shots), sent.content, who=here.who,
        notes=found.imported.notes,
    )  # fmt: skip
    remember(here, sent, said)
    here.app.waiting.drop(key)
    told = f"{len(found.imported.shots.row)} shots" if saved.new else "nothing: these shots were there already"
    return see_other(f"/sets/{part_of_path(bag.name)}/shots?taken={told}")


@done("/sets/{name:str}/shots/hide")
def hide(here: Here, name: str, form: Form) -> Answer:
    """Take a session out of use; its shots are kept."""
    from asplayed.keeping.shots import hide_session

    hide_session(here.kept, name, form.number("session") or 0, who=here.who)
    return see_other(f"/sets/{part_of_path(name)}/shots")


def _day(text: str) -> str | None:
    try:
        return datetime.date.fromisoformat(text).isoformat() if text else None
    except ValueError:
        raise BadInput(f"{text[:40]!r} is not a day; write it as 2026-03-15") from None


# --------------------------------------------------------------------------------------------------------------- API


@asked("/api/sets/{name:str}/shots")
def api_shots(here: Here, name: str) -> dict[str, Any]:
    """What the shots of a set say, club by club, and those that stand apart."""
    from asplayed.players.summaries import open_questions, summary_as_plain
    from asplayed.quantities import plain

    bag = here.app.known.bag(name)
    summaries = _summaries(bag)
    return {
        "clubs": [summary_as_plain(each) for each in summaries],
        "flagged": [each._asdict() for each in _apart(bag.sessions)],
        "questions": plain(open_questions(summaries)) if summaries else [],
    }


@asked("/api/sets/{name:str}/player")
def api_player(here: Here, name: str) -> dict[str, Any]:
    """What is known of the player of a set."""
    from asplayed.quantities import plain

    player: Player = here.app.known.bag(name).player
    told: dict[str, Any] = plain(player)
    return told


routes = (shots_page, keep_player, look_at_shots, take_shots, hide, api_shots, api_player)
