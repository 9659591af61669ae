"""`asplayed read`: words → records, with questions; stores nothing."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from asplayed.cli.common import console, json_option, max_size_option, print_json, print_table, read_bytes
from asplayed.quantities.texts import decode

if TYPE_CHECKING:
    from asplayed.clubs import Club, GolfSet
    from asplayed.quantities import Figure


@click.command("read")
@click.argument("words_file", metavar="LIST")
@json_option
@click.option(
    "--vocabulary",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="A TOML file of words of yours, added to the trade's.",
)
@click.option(
    "--answer",
    "answers",
    multiple=True,
    metavar="CLUB.FIELD=VALUE",
    help="Answer a question, such as --answer 'driver.sleeve.loft_change=-0.75'.",
)
@click.option(
    "--answers",
    "answers_file",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="A file of answers, one CLUB.FIELD=VALUE a line.",
)
@max_size_option
def command(
    words_file: str,
    as_json: bool,
    vocabulary: Path | None,
    answers: tuple[str, ...],
    answers_file: Path | None,
    max_size: int,
) -> None:
    """Read a LIST (a file, or - for standard input) and show every club, with what is left open."""
    from asplayed.intake import read
    from asplayed.intake.answers import answer, parse_answers

    golf_set = read(_words(words_file, max_size), vocabulary=vocabulary)
    given = parse_answers(answers, answers_file)
    if given:
        golf_set = answer(golf_set, given)
    if as_json:
        from asplayed.quantities import plain

        print_json(plain(golf_set))
        return
    _show(golf_set)


def _words(source: str, max_size: int) -> str:
    """The list's text; of what is far too long for a list only the beginning, enough to say where it becomes so."""
    from asplayed.intake.reader import LONGEST

    found = read_bytes(source, max_size)[: LONGEST * 4 + 4]
    while found and len(found) > LONGEST * 4 and found[-1] & 0xC0 == 0x80:
        found = found[:-1]
    return decode(found[:-1] if len(found) > LONGEST * 4 else found, "standard input" if source == "-" else source)


def _show(golf_set: GolfSet) -> None:
    page = console()
    facts = golf_set.set
    heading = [
        facts.title,
        facts.player,
        f"{facts.hand}-handed" if facts.hand_source == "stated" else None,
        facts.event,
        facts.date,
    ]
    if any(heading):
        page.print(" · ".join(part for part in heading if part))
    columns = ["club", "head", "loft", "bounce", "setting", "shaft", "flex", "mass", "length", "more", "lines"]
    rows = [_row(club) for club in golf_set.clubs]
    used = [index for index, _ in enumerate(columns) if any(row[index] for row in rows)]
    right = {"loft", "bounce", "mass", "length"}
    if rows:
        print_table([columns[i] for i in used], [[row[i] for i in used] for row in rows], right=right, page=page)
    if golf_set.ball is not None:
        page.print("Ball: " + " ".join(part for part in (golf_set.ball.name, golf_set.ball.colour) if part))
    _passages(page.print, "Not in the set", ((p.line, p.text, None) for p in golf_set.aside))
    _passages(page.print, "Notes", ((p.line, p.text, p.club) for p in golf_set.notes))
    _passages(page.print, "Questions", ((q.line, _asked(q.text, q.answers), q.club) for q in golf_set.questions))
    _passages(page.print, "Not understood", ((p.line, p.text, None) for p in golf_set.not_understood))


def _asked(text: str, answers: tuple[str, ...]) -> str:
    return f"{text} [{' | '.join(answers)}]" if answers else text


def _passages(show: object, title: str, entries: Iterable[tuple[int | None, str, str | None]]) -> None:
    lines = list(entries)
    if not lines or not callable(show):
        return
    show("")
    show(f"{title}:")
    for line, text, club in lines:
        where = f"line {line}" if line is not None else "the list"
        named = f"{club}: " if club and not text.startswith(club) else ""
        show(f"  {where}: {named}{text}")


def _row(club: Club) -> list[str]:
    settings = []
    if club.sleeve is not None:
        settings += [
            club.sleeve.position or "",
            _change(club.sleeve.loft_change, "loft"),
            _change(club.sleeve.lie_change, "lie"),
        ]
    settings += [_change(club.bend.loft, "bent"), _change(club.bend.lie, "lie bent")]
    settings += [_weight(weight.place, weight.step, weight.mass) for weight in club.weights]
    more = []
    if club.head.sole:
        more.append(club.head.sole)
    if club.stated.swing_weight is not None:
        more.append(str(club.stated.swing_weight.value))
    if club.putter is not None:
        more += [club.putter.neck or "", _number(club.putter.toe_hang, "toe hang ")]
    if club.grip is not None:
        count = club.grip.wraps
        wraps = f"{count:g} wrap{'' if count == 1 else 's'}" if count is not None else ""
        more += [club.grip.name or "", _number(club.grip.mass), wraps]
    return [
        club.club,
        club.head.name or "",
        _number(club.head.loft),
        _number(club.head.bounce),
        ", ".join(part for part in settings if part),
        club.shaft.name or "",
        club.shaft.flex or "",
        _number(club.shaft.mass),
        _number(club.length),
        ", ".join(part for part in more if part),
        ",".join(str(line) for line in club.lines),
    ]


def _weight(place: str | None, step: int | None, mass: Figure | None) -> str:
    return " ".join(part for part in (place or "weight", str(step) if step is not None else "", _number(mass)) if part)


def _number(figure: Figure | None, before: str = "") -> str:
    from asplayed.quantities import write_fraction, write_quantity

    if figure is None:
        return ""
    if figure.has_number:
        if figure.unit == "in" and abs(figure.number * 16 - round(figure.number * 16)) < 1e-6:
            return f"{before}{write_fraction(figure.number)} in"
        return before + write_quantity(figure.number, figure.unit)
    if figure.low is not None and figure.high is not None:
        return f"{before}{figure.low:g}–{figure.high:g} {figure.unit}"
    return f"{before}?" if figure.value is None else f"{before}{figure.value}"


def _change(figure: Figure | None, what: str) -> str:
    if figure is None:
        return ""
    if not figure.has_number:
        return f"{what} ?"
    text = _number(figure)
    return f"{what} {'+' if figure.number > 0 else ''}{text}"
