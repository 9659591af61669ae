"""The documents on paper: the player's sheet, the club cards with a card for the wallet, the presenter's cue sheet."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from asplayed import __version__
from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.quantities import Figure, Source, derive, figure, plain
from asplayed.telling import typesetting, words
from asplayed.telling.cautions import advice, cautions
from asplayed.telling.comparing import Compared
from asplayed.telling.cues import Brief, Cue, brief, clock, report_brief, spoken_help
from asplayed.telling.drawing_elements import Picture
from asplayed.telling.explaining import Explanation, explain
from asplayed.telling.house import PLAIN, House
from asplayed.telling.marks import MARKS, mark_of
from asplayed.telling.palette import PAPER
from asplayed.telling.phrases import Sentence
from asplayed.telling.pictures import pictures
from asplayed.telling.report import Report
from asplayed.telling.typesetting import typeset

if TYPE_CHECKING:
    from asplayed.judgement import Finding
    from asplayed.players.flown import FlownClub, FlownSet

_POINTS = "points above A0"  # how a swing weight's figure says that its number counts them
_CHANGES = 20  # on a player's sheet
_COLUMNS = ("loft", "lie", "bounce", "length", "swing_weight")
_ON_CARD = ("sleeve", "face", "bend", "lie-", "bounce", "weight", "hang", "length-", "shaft-tendency")
_CARD_NAME, _CARD_LINE, _CARD_ROOM = 40, 88, 240  # letters that a card has room for; the sheet has them all


def told_figure(found: Figure | None) -> dict[str, str]:
    """A figure as a document prints it: value, band, the mark of its source; a missing one is a dash without a mark.

    >>> told_figure(figure(56, "deg", "stated", tolerance=1))
    {'value': '56°', 'band': '±1°', 'mark': 'stated', 'why': ''}
    """
    if found is None or found.value is None:
        return {"value": words.MISSING, "band": words.band_text(found), "mark": "", "why": ""}
    return {
        "value": words.value_text(found),
        "band": words.band_text(found),
        "mark": mark_of(found).source,
        "why": words.clean(found.why or ""),
    }


def _distance(found: Figure | None) -> dict[str, str]:
    """A distance in whole yards with the band it was given."""
    if found is None or not found.has_number:
        return told_figure(None)
    ends = [None if end is None else float(round(end)) for end in (found.low, found.high)]
    whole = Figure(
        value=float(round(found.number)), unit=found.unit, source=found.source, low=ends[0], high=ends[1],
        parents=found.parents,
    )  # fmt: skip
    return told_figure(whole)


def _house_facts(house: House) -> dict[str, Any]:
    """What every document is told, whatever it is of."""
    legend = [{"source": mark.source, "meaning": mark.meaning} for mark in MARKS]
    return {**house.shared(), "version": __version__, "legend": legend}


def boxes_told(golf_set: GolfSet) -> str:
    """The sentence that says which letters of a set print as boxes, because no font carried here has them; or nothing.

    >>> boxes_told(GolfSet())
    ''
    """
    return _boxes(list(_texts(plain(golf_set))))


def report_boxes_told(report: Report) -> str:
    """The same of a report."""
    rows = (row for part in report.sections for table in part.tables for row in (table.columns, *table.rows))
    cells = (cell for row in rows for cell in row)
    return _boxes([report.title, report.about, *(said.text for said in report.sentences), *cells])


def _boxes(texts: Sequence[str]) -> str:
    letters = typesetting.without_shape("".join(texts))
    if not letters:
        return ""
    told = words.listed([f"{unicodedata.name(each, 'a letter').lower()} (U+{ord(each):04X})" for each in letters])
    where = words.shorten(words.contained(next(text for text in texts if set(text) & set(letters))), 60)
    return f"No font here has {told}, as in “{where}”: PDFs and pictures show a box there, web pages the letter itself."


def _texts(record: Any) -> Iterator[str]:
    """Every text in a record as JSON has it."""
    if isinstance(record, str):
        yield record
    elif isinstance(record, Mapping | list | tuple):
        for entry in record.values() if isinstance(record, Mapping) else record:
            yield from _texts(entry)


def _facts(golf_set: GolfSet, house: House) -> dict[str, Any]:
    """What heads every document of a set."""
    facts, ball = golf_set.set, golf_set.ball
    hand = f"{facts.hand}-handed" + (" (assumed: nobody said)" if facts.hand_source == "assumed" else "")
    return {
        **_house_facts(house),
        "warning": boxes_told(golf_set),
        "title": words.contained(words.title(golf_set)).strip() or "A set of clubs",
        "short_title": words.shorten(words.clean(words.title(golf_set)), 60),
        "player": facts.player or "not named",
        "hand": hand,
        "event": facts.event or "",
        "date": words.shorten(words.clean(facts.date or "no date given"), 20),
        "ball": ", ".join(part for part in (words.part_name(ball), ball.colour if ball else None) if part)
        or "not said",
    }


def _flown(flown: FlownSet | None) -> dict[str, FlownClub]:
    return {each.label: each for each in flown.clubs} if flown is not None else {}


def _club(name: str, club: Club, flown: FlownClub | None) -> dict[str, Any]:
    shaft = words.part_name(club.shaft)
    flex = f"flex {club.shaft.flex}" if club.shaft.flex else ""
    mass = words.value_text(club.shaft.mass) if club.shaft.mass and club.shaft.mass.value is not None else ""
    grip = words.part_name(club.grip) if club.grip else ""
    return {
        "name": name,
        "kind": club.kind,
        "head": words.part_name(club.head),
        "settings": "; ".join(words.settings(club)),
        "shaft": ", ".join(part for part in (shaft or "shaft not named", flex, mass) if part),
        "grip": grip,
        "cells": {key: told_figure(getattr(club.as_played, key)) for key in _COLUMNS},
        "carry": _distance(flown.carry if flown else None),
    }


def _gap(here: FlownClub | None, there: FlownClub | None) -> dict[str, str]:
    """From one club's carry to the next one's."""
    if here is None or there is None:
        return told_figure(None)
    width = (here.carry.half_width**2 + there.carry.half_width**2) ** 0.5
    step = figure(here.carry.number - there.carry.number, "yd", Source.COMPUTED, tolerance=width or None)
    return _distance(step)


def _loft_gap(here: Club, there: Club | None) -> dict[str, str]:
    """From one club's loft to the next one's; the putter is no step of the set."""
    one, other = here.as_played.loft, there.as_played.loft if there else None
    if one is None or other is None or there is None or "putter" in (here.kind, there.kind):
        return told_figure(None)
    if not (one.has_number and other.has_number):
        return told_figure(None)
    return told_figure(
        derive(lambda one, other: other - one, "deg", "loft of the next less its own", one=one, other=other)
    )


def _findings(findings: Sequence[Finding]) -> list[dict[str, Any]]:
    return [
        {
            "level": heading,
            "key": level,
            "clubs": words.listed(finding.clubs),
            "sentence": finding.sentence,
            "why": finding.why,
            "remedy": finding.remedy,
            "source": finding.source,
        }
        for level, heading in words.LEVELS.items()
        for finding in findings
        if finding.level == level
    ]


def player_sheet(
    golf_set: GolfSet,
    findings: Sequence[Finding],
    house: House = PLAIN,
    *,
    flown: FlownSet | None = None,
    changes: Compared | None = None,
) -> bytes:
    """The player's sheet as a PDF: every club as played, gaps, findings, changes, care, when to come again."""
    carries, names = _flown(flown), labels(golf_set.clubs)
    clubs = []
    for place, (name, club) in enumerate(zip(names, golf_set.clubs, strict=True)):
        after = place + 1 < len(names)
        clubs.append(
            _club(name, club, carries.get(name))
            | {
                "loft_gap": _loft_gap(club, golf_set.clubs[place + 1] if after else None),
                "carry_gap": _gap(carries.get(name), carries.get(names[place + 1]) if after else None),
            }
        )
    care, again = advice(golf_set)
    data = _facts(golf_set, house) | {
        "clubs": clubs,
        "flown": flown is not None,
        "assumed": [_tidied(line) for line in flown.assumed] if flown is not None else [],
        "findings": _findings(findings),
        "breach": any(finding.level == "breach" for finding in findings),
        "compared": changes.heading if changes else "",
        "changes": _first(changes.sentences) if changes else [],
        "care": care,
        "again": again,
        "cautions": cautions(golf_set),
        "questions": [{"club": question.club or "", "text": question.text} for question in golf_set.questions],
    }
    drawn = pictures(golf_set, flown, colours=PAPER)
    data["pictures"] = [{"file": each.name, "told": each.told, "width": each.width} for each in drawn]
    files = house.files() | {each.name: each.svg.encode("utf-8") for each in drawn}
    return typeset(house.template("player-sheet.typ"), data, paper=house.paper, files=files, accessible=True)


def _tidied(line: str) -> str:
    """What was assumed, with its units as a reader expects them."""
    return line.replace(" degF", " °F").replace(" degC", " °C").replace(" percent", " %")


def _first(changes: Sequence[str]) -> list[str]:
    """As many differences as a player's sheet has room for, and how many more there are."""
    rest = len(changes) - _CHANGES
    if rest < 2:
        return list(changes)
    return [*changes[:_CHANGES], f"There are {rest} more differences; the comparison has them all."]


def _about(golf_set: GolfSet, club: Club, house: House) -> str:
    """What the settings of one club do, for a card that stands alone: as many whole sentences as it has room for."""
    alone = explain(replace(golf_set, clubs=(club,)), spelling=house.spelling).clubs[0]
    found = ""
    for said in alone.talk:
        if said.topic.startswith(_ON_CARD) and len(found) + len(said.text) < _CARD_ROOM:
            found = f"{found} {said.text}".strip()
    return found


def club_cards(
    golf_set: GolfSet,
    told: Explanation,
    house: House = PLAIN,
    *,
    flown: FlownSet | None = None,
) -> bytes:
    """A card a club to cut out, and a card of the whole set for the wallet, as a PDF."""
    carries = _flown(flown)
    cards = []
    for club in told.clubs:
        card = _club(club.name, club.club, carries.get(club.name))
        for key in ("head", "shaft", "settings", "grip"):
            card[key] = words.shorten(words.clean(card[key]), _CARD_LINE)
        card["about"] = _about(golf_set, club.club, house)
        card["name"] = words.shorten(words.clean(card["name"]), _CARD_NAME)
        cards.append(card)
    data = _facts(golf_set, house) | {"cards": cards, "flown": flown is not None}
    data["title"] = words.shorten(words.clean(data["title"]), _CARD_NAME)
    for key in ("player", "ball", "event"):
        data[key] = words.shorten(words.clean(data[key]), _CARD_NAME)
    return typeset(
        house.template("club-cards.typ"),
        data,
        paper=house.paper,
        files=house.files(),
        accessible=True,
    )


def cue_sheet(golf_set: GolfSet, told: Explanation, laid_out: Sequence[Cue], house: House = PLAIN) -> bytes:
    """The presenter's cue sheet as a PDF: what to say and when, what to hold up and check, every figure's source."""
    questions = [{"club": question.club or "", "text": question.text} for question in golf_set.questions]
    return _cue_sheet(_facts(golf_set, house) | {"questions": questions}, brief(told, house), laid_out, house)


def report_cue_sheet(report: Report, laid_out: Sequence[Cue], house: House = PLAIN) -> bytes:
    """A report's cue sheet as a PDF."""
    return _cue_sheet(_report_facts(report, house), report_brief(report, house), laid_out, house)


def _report_facts(report: Report, house: House) -> dict[str, Any]:
    return _house_facts(house) | {
        "warning": report_boxes_told(report),
        "title": words.contained(report.title),
        "short_title": words.shorten(words.clean(report.title), 60),
        "player": report.about,
        "hand": "",
        "event": "",
        "date": "",
        "questions": [],
    }


def report_sheet(report: Report, pictures: Sequence[Picture], house: House = PLAIN) -> bytes:
    """A report as a PDF: its sentences, tables and pictures, and how far to trust it."""
    data = _report_facts(report, house) | {
        "about": report.about,
        "opening": report.opening.text,
        "sections": [
            {
                "heading": part.heading,
                "sentences": [said.text for said in part.sentences],
                "tables": [table._asdict() for table in part.tables],
            }
            for part in report.sections
        ],
        "trust": [said.text for said in report.trust],
        "pictures": [
            {"file": each.name, "told": each.told, "width": each.width} for each in pictures
        ],
    }  # fmt: skip
    files = house.files() | {each.name: each.svg.encode("utf-8") for each in pictures}
    return typeset(house.template("report.typ"), data, paper=house.paper, files=files, accessible=True)


def _cue_sheet(facts: dict[str, Any], short: Brief, laid_out: Sequence[Cue], house: House) -> bytes:
    data = facts | {
        "running": clock(laid_out[-1].end),
        "speed": f"{house.words_per_minute:g}",
        "line": _said(short.line),
        "minute": [_said(said) for said in short.minute],
        "cues": [
            {
                "name": cue.name,
                "start": clock(cue.start),
                "length": f"{max(round(cue.end - cue.start), 1)} s",
                "hold_up": list(cue.hold_up),
                "check": list(cue.check),
                "say": [_said(said) for said in cue.sentences],
                "help": [{"word": word, "how": how} for word, how in spoken_help(cue, house)],
                "figures": [_traced(name, found) for name, found in cue.figures],
            }
            for cue in laid_out
        ],
    }
    return typeset(house.template("cue-sheet.typ"), data, paper=house.paper, files=house.files(), accessible=True)


def _said(said: Sentence) -> dict[str, Any]:
    """A sentence as it is read out: its words in pieces, each with the figure it stands for; and whether it is sure."""
    pieces = said.pieces or ((said.said, ""),)
    return {
        "pieces": [{"words": piece, "figure": figure} for piece, figure in pieces],
        "sure": said.verified or not said.figures,
    }


def _traced(name: str, found: Figure) -> dict[str, str]:
    """A figure with its name and its source, distances in whole yards as they are said."""
    shown = _distance(found) if found.unit == "yd" else told_figure(found)
    why = found.why or words.SOURCES[found.source]
    if why == "flown":
        why = "flown by computation in this player’s hands; the player’s sheet says what was assumed"
    if why.startswith(_POINTS) and found.has_number:
        from asplayed.mechanics.balance import swing_weight_text

        ends = [swing_weight_text(end, 1) for end in (found.low, found.high) if end is not None]
        shown |= {"value": swing_weight_text(found.number, 1), "band": " to ".join(ends)}
    return shown | {"name": name, "why": words.clean(why)}
