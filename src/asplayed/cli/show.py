"""`asplayed show`: every club as played, and the chain of figures behind any one of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import click

from asplayed.cli.common import console, json_option, load_set, max_size_option, print_json, print_table, store_option
from asplayed.errors import BadInput

if TYPE_CHECKING:
    from rich.console import Console

    from asplayed.clubs import GolfSet
    from asplayed.quantities import Figure

# The figures as played, in two tables: how the club meets the ball, and how it is built.
MEETS = ("loft", "lie", "face", "bounce", "offset", "toe_hang")
BUILT = ("length", "mass", "balance_point", "swing_weight", "butt_inertia", "frequency", "grip_size")

LETTERS = {
    "measured": "m",
    "stated": "s",
    "published": "p",
    "computed": "c",
    "common practice": "u",
    "assumed": "a",
}
LEGEND = (
    "m measured, s stated, p published, c computed, u usual in the trade, a assumed; "
    "a second letter is the weakest figure a computed one rests on"
)


@click.command("show")
@click.argument("source", metavar="SET")
@click.option("--why", metavar="CLUB.FIGURE", help="Trace one figure, such as wedge.bounce or '7 iron.loft'.")
@store_option
@json_option
@max_size_option
def command(source: str, why: str | None, store: str | None, as_json: bool, max_size: int) -> None:
    """Show every club of SET as it is really played, with the source and the band of each figure.

    SET is a stored name, a file with a list or with the JSON of `read`, or - for standard input. A file comes before a
    stored set of the same name.
    """
    from asplayed.clubs import played_set

    golf_set = played_set(load_set(source, store, max_size))
    if why is not None:
        explain(golf_set, why, as_json)
    elif as_json:
        from asplayed.quantities import plain

        print_json(plain(golf_set))
    else:
        show(golf_set, console())


def show(golf_set: GolfSet, page: Console) -> None:
    """The set as two tables, with what goes with it before and after."""
    from asplayed.clubs.names import labels
    from asplayed.telling.words import settings

    say(page, heading(golf_set), style="bold")
    names = labels(golf_set.clubs)
    for caption, figures in (("As the ball meets it", MEETS), ("As it is built", BUILT)):
        shown = [name for name in figures if any(getattr(club.as_played, name) for club in golf_set.clubs)]
        units = {name: common_unit(getattr(club.as_played, name) for club in golf_set.clubs) for name in shown}
        say(page, f"\n{caption}")
        rows = [
            [name, *(cell(getattr(club.as_played, figure), units[figure]) for figure in shown)]
            for name, club in zip(names, golf_set.clubs, strict=True)
        ]
        headings = [
            f"{name.replace('_', ' ')}\n[{units[name]}]" if units[name] else name.replace("_", " ") for name in shown
        ]
        print_table(["club", *headings], rows, page=page)
    say(page, LEGEND, style="dim")
    altered = [(name, ", ".join(settings(club))) for name, club in zip(names, golf_set.clubs, strict=True)]
    if any(phrase for _, phrase in altered):
        say(page, "\nSet and altered")
        for name, phrase in altered:
            if phrase:
                say(page, f"  {name}: {phrase}")
    remainder(golf_set, page)


def heading(golf_set: GolfSet) -> str:
    """Whose set it is, for which hand, when."""
    from asplayed.telling.words import counted, title

    facts = golf_set.set
    hand = f"{facts.hand}-handed{'' if facts.hand_source == 'stated' else ' (assumed)'}"
    player = facts.player if facts.player and facts.player not in title(golf_set) else None
    ball = golf_set.ball and " ".join(word for word in (golf_set.ball.name, golf_set.ball.colour) if word)
    words = [title(golf_set), player, hand, facts.event, facts.date, counted(len(golf_set.clubs), "club")]
    return ", ".join(word for word in (*words, f"ball {ball}" if ball else None) if word)


def common_unit(figures: Iterable[Figure | None]) -> str:
    """The unit to head a column with, where its numbers share one that is not a mere sign; else nothing."""
    from asplayed.telling.words import UNIT_WORDS

    units = {figure.unit for figure in figures if figure is not None and figure.has_number}
    return UNIT_WORDS.get(unit, unit) if len(units) == 1 and (unit := units.pop()) not in {"deg", "1"} else ""


def cell(figure: Figure | None, headed: str = "") -> str:
    """A figure for a table: value and source, and its band on a line of its own; the unit unless it is `headed`."""
    from asplayed.telling.words import band_text, value_text

    if figure is None or (figure.value is None and figure.low is None):
        return "—"
    own, weakest = LETTERS[figure.source.value], LETTERS[figure.weakest.value]
    mark = own if own != "c" or weakest == "c" else own + weakest
    value, band = (text.removesuffix(f" {headed}") for text in (value_text(figure), band_text(figure)))
    return f"{value} {mark}" + (f"\n{band}" if band else "")


def remainder(golf_set: GolfSet, page: Console) -> None:
    """The words that found no place in a club, and the questions that are open."""
    for caption, passages in (
        ("Aside", golf_set.aside),
        ("Notes", golf_set.notes),
        ("Not understood", golf_set.not_understood),
    ):
        if passages:
            say(page, f"\n{caption}")
            for passage in passages:
                say(page, f"  line {passage.line}: {passage.text}")
    if golf_set.questions:
        say(page, "\nQuestions")
        for question in golf_set.questions:
            answers = f" ({', '.join(question.answers)})" if question.answers else ""
            club = "" if not question.club or question.text.startswith(question.club) else question.club
            where = ", ".join(word for word in (club, f"line {question.line}" if question.line else "") if word)
            say(page, f"  {f'{where}: ' if where else ''}{question.text}{answers}")


def say(page: Console, words: str, style: str | None = None) -> None:
    """Plain words on the page, whatever marks they hold."""
    from rich.text import Text

    page.print(Text(words, style=style or ""))


# ------------------------------------------------------------------------------------------------------- --why


def explain(golf_set: GolfSet, why: str, as_json: bool) -> None:
    """The chain of figures behind one: a tree, or nested JSON."""
    from asplayed.telling.tracing import find_club, find_figure, nested

    club_words, dot, figure_words = why.partition(".")
    if not dot or not figure_words.strip():
        raise BadInput(f"--why {why!r} names no figure; write club.figure, such as wedge.bounce or '7 iron.loft'")
    name, club = find_club(golf_set, club_words)
    path, figure = find_figure(club, name, figure_words)
    if as_json:
        print_json({"club": name, "figure": path, "chain": nested(path, figure) if figure else None})
    elif figure is None:
        click.echo(f"Nothing is known about the {path.replace('_', ' ')} of the {name}.")
    else:
        from rich.tree import Tree

        tree = Tree(branch(f"{path} of the {name}", figure))
        grow(tree, figure)
        console().print(tree)


def branch(name: str, figure: Figure) -> Any:
    """One line of the tree: name, value, band, source, reason."""
    from rich.text import Text

    from asplayed.telling.words import band_text, value_text

    line = Text(name.replace("_", " "), style="bold")
    line.append(f" {value_text(figure)}", style="none")
    if band := band_text(figure):
        line.append(f" {band}", style="none")
    line.append(f" {figure.source.value}", style="italic")
    if figure.why:
        line.append(f": {figure.why}", style="none")
    return line


def grow(tree: Any, figure: Figure) -> None:
    """The figures that this one was worked out from, each with its own below it."""
    for parent in figure.parents:
        grow(tree.add(branch(parent.name, parent.figure)), parent.figure)
