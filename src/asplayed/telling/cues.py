"""What a presenter says, when, with which club in hand: an explanation laid out in time."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.quantities import Figure, Source
from asplayed.telling.explaining import Explanation, in_time, one_line
from asplayed.telling.house import House
from asplayed.telling.phrases import Sentence, plain_sentence
from asplayed.telling.report import Report
from asplayed.telling.words import counted, part_name, settings, value_text

_PAUSE = 1.0  # seconds between one club and the next


class Cue(NamedTuple):
    """One stretch of the talk: from `start` to `end` in seconds, what to hold up and what to check on camera."""

    name: str
    start: float
    end: float
    sentences: tuple[Sentence, ...]
    hold_up: tuple[str, ...] = ()
    check: tuple[str, ...] = ()

    @property
    def figures(self) -> tuple[tuple[str, Figure], ...]:
        """Every figure spoken of, once each, in the order it is said."""
        return tuple(dict.fromkeys(entry for said in self.sentences for entry in said.figures))


def seconds_of(said: Sentence, words_per_minute: float) -> float:
    """How long a sentence takes to say."""
    return len(said.said.split()) * 60 / words_per_minute


def cues(told: Explanation, golf_set: GolfSet, words_per_minute: float) -> tuple[Cue, ...]:
    """The talk laid out from the first word to the last: opening, driver to putter, the whole, the ball.

    >>> from asplayed.telling.explaining import explain
    >>> [cue.name for cue in cues(explain(GolfSet()), GolfSet(), 150)]
    ['Opening', 'Ball']
    """
    parts: list[tuple[str, tuple[Sentence, ...], Club | None]] = [("Opening", (told.opening,), None)]
    parts += [(club.name[:1].upper() + club.name[1:], club.talk, club.club) for club in told.clubs]
    if told.whole:
        parts.append(("The whole set", told.whole, None))
    if told.changes:
        parts.append((told.compared, told.changes, None))
    if told.field:
        parts.append(("Beside the field", told.field, None))
    parts.append(("Ball", (told.ball,), None))
    found = []
    for cue, (*_, club) in zip(_laid_out([part[:2] for part in parts], words_per_minute), parts, strict=True):
        hold = tuple(_hold_up(club)) if club else ()
        if cue.name == "Ball" and club is None and part_name(golf_set.ball):
            hold = ("the ball, its print to the camera",)
        found.append(cue._replace(hold_up=hold, check=tuple(_check(club)) if club else ()))
    return tuple(found)


def report_cues(report: Report, words_per_minute: float) -> tuple[Cue, ...]:
    """A report laid out in time: its opening, each section that has something to say, how far to trust it."""
    parts = [("Opening", (report.opening,)), *((part.heading, part.sentences) for part in report.sections)]
    parts.append(("How far to trust it", report.trust))
    return tuple(_laid_out([part for part in parts if part[1]], words_per_minute))


def _laid_out(parts: Sequence[tuple[str, tuple[Sentence, ...]]], words_per_minute: float) -> Iterator[Cue]:
    """Cues one after the other, with a breath between."""
    start = 0.0
    for name, sentences in parts:
        end = start + sum(seconds_of(said, words_per_minute) for said in sentences)
        yield Cue(name, start, end, sentences)
        start = end + _PAUSE


def _hold_up(club: Club) -> Iterator[str]:
    yield f"the {club.club}"
    if club.sleeve is not None:
        yield "its sleeve, close up"
    if club.weights:
        yield "its sole, to show the weights"
    if club.kind == "wedge":
        yield "its sole from the side, to show the bounce"
    if club.kind == "putter":
        yield "the putter laid across a finger, to show how the toe hangs"


def _check(club: Club) -> Iterator[str]:
    """What a camera can see and the record says."""
    if part_name(club.head):
        yield f"the head reads {part_name(club.head)}"
    if club.head.loft is not None and club.head.loft.value is not None and club.kind != "putter":
        if club.head.loft.source is Source.STATED:
            yield f"the stamp reads {value_text(club.head.loft)}"
        elif club.head.loft.source is Source.PUBLISHED:
            yield f"the published loft is {value_text(club.head.loft)}, and nobody has read the stamp"
    if club.sleeve is not None and club.sleeve.position:
        yield f"the sleeve is at {club.sleeve.position}"
    for weight in club.weights:
        if weight.place:
            yield f"a weight sits at {weight.place}"
    if club.shaft.flex:
        yield f"the shaft is marked {club.shaft.flex}"
    for setting in settings(club):
        if setting.startswith("bent"):
            yield f"{setting}: it cannot be seen, so show the gauge"


def clock(seconds: float) -> str:
    """Seconds as minutes and seconds.

    >>> clock(75.4)
    '1:15'
    """
    whole = int(seconds + 0.5)
    return f"{whole // 60}:{whole % 60:02d}"


def spoken_help(cue: Cue, house: House) -> list[tuple[str, str]]:
    """The words of a cue that the house has said how to speak."""
    text = " ".join(said.text for said in cue.sentences)
    return [
        (word, how) for word, how in house.say if re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text, re.IGNORECASE)
    ]


class Brief(NamedTuple):
    """The short versions of a talk: its title, its one line, and what fits a minute."""

    title: str
    line: Sentence
    minute: tuple[Sentence, ...]


def brief(told: Explanation, house: House) -> Brief:
    """The one-line and the 60-second version of an explanation."""
    line = plain_sentence("line", one_line(told), house.spelling)
    return Brief(told.title, line, in_time(told, 60, house.words_per_minute))


def report_brief(report: Report, house: House) -> Brief:
    """The one-line and the 60-second version of a report: as much as fits, in order, and how far to trust it."""
    last = report.trust[:1]
    room = 60.0 - sum(seconds_of(said, house.words_per_minute) for said in last)
    kept = []
    for said in (report.opening, *(said for part in report.sections for said in part.sentences)):
        lasts = seconds_of(said, house.words_per_minute)
        if lasts <= room:
            kept.append(said)
            room -= lasts
    return Brief(report.title, report.opening, (*kept, *last))


def summary(short: Brief, sentences: Sequence[Sentence], laid_out: Sequence[Cue]) -> str:
    """Title, one line, the minute version and the chapters, as plain text for a description."""
    minute = " ".join(said.text for said in short.minute)
    chapters = "\n".join(f"{clock(cue.start)} {cue.name}" for cue in laid_out)
    # a count of players or clubs is no figure that a gauge could settle
    spoken = [said for said in sentences if any(entry.unit != "1" for _, entry in said.figures)]
    sure = sum(said.verified for said in spoken)
    rest = f"{sure or 'none'} {'rest' if sure > 1 else 'rests'}"
    checked = f"Of {counted(len(spoken), 'sentence')} with figures, {rest} on gauged figures alone."
    return f"{short.title}\n\n{short.line.text}\n\n{minute}\n\n{chapters}\n\n{checked}\n"
