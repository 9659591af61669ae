"""The sheet of a set: one self-contained page of HTML, for the screen and for paper, without script."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from asplayed import __version__
from asplayed.clubs import Club, GolfSet
from asplayed.clubs.names import labels
from asplayed.errors import BadInput
from asplayed.quantities import Figure
from asplayed.telling import words
from asplayed.telling.cautions import cautions
from asplayed.telling.comparing import Compared, beside, compared
from asplayed.telling.drawing import drawn_set
from asplayed.telling.drawing_elements import STYLE
from asplayed.telling.house import PLAIN, House
from asplayed.telling.marks import MARKS, definitions, mark_of
from asplayed.telling.palette import DARK, LIGHT, PAPER, declarations
from asplayed.telling.workings import Working, workings

if TYPE_CHECKING:
    from jinja2 import Environment

    from asplayed.judgement import Finding
    from asplayed.telling.drawing_elements import Picture
    from asplayed.telling.explaining import Explanation
    from asplayed.telling.report import Report


class Cell(NamedTuple):
    """One figure in the table: what is printed, the mark of its source, and the line of the workings behind it."""

    name: str
    value: str
    second: str
    band: str
    mark: str
    source: str
    link: str


class Row(NamedTuple):
    """One club in the table: its name, head, settings, figures, and its shaft with the shaft's own figures."""

    anchor: str
    name: str
    kind: str
    head: str
    settings: list[str]
    cells: list[Cell]
    shaft: str
    flex: str
    shaft_cells: list[Cell]
    lines: list[Working]


def environment(house: House = PLAIN) -> Environment:
    """The templates' surroundings: everything escaped, undefined names refused, control characters dropped.

    They are sandboxed: a template of the house's own reads what it is given and runs nothing.
    """
    from jinja2 import ChoiceLoader, FileSystemLoader, PackageLoader, StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment
    from markupsafe import Markup

    def printable(found: Any) -> Any:
        return words.clean(found) if isinstance(found, str) and not isinstance(found, Markup) else found

    own = [FileSystemLoader(house.templates)] if house.templates is not None else []
    made = ImmutableSandboxedEnvironment(
        loader=ChoiceLoader([*own, PackageLoader("asplayed.telling")]),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=printable,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters |= {
        "value": words.value_text,
        "band": words.band_text,
        "listed": words.listed,
        "mark": mark_of,
        "trade_name": words.trade_name,
    }
    made.tests["overlay"] = lambda name: name.startswith("overlays/")
    made.globals |= {
        "markup": Markup,
        "version": __version__,
        "colours": {name: declarations(entry) for name, entry in _COLOURS.items()},
        "drawing_style": STYLE,
        "definitions": definitions(),
        "marks": MARKS,
    }
    return made


_COLOURS: Mapping[str, dict[str, str]] = {"light": LIGHT, "dark": DARK, "paper": PAPER}


def _cell(name: str, figure: Figure | None, lines: list[Working], anchor: str, unit: str = "") -> Cell:
    """A figure as a cell; where the heading names its `unit`, the cell leaves it out."""
    if figure is None:
        return Cell(name, words.MISSING, "", "", "", "not known", "")
    mark = mark_of(figure)
    number = next((line.number for line in lines if line.figure == figure), None)
    shown = figure.in_unit(unit) if unit else figure
    texts = [words.value_text(shown), words.band_text(shown)]
    if unit:
        texts = [text.removesuffix(f" {words.UNIT_WORDS.get(unit, unit)}") for text in texts]
    return Cell(
        name=name,
        value=texts[0],
        second=words.millimetres(figure) if figure.unit == "in" and figure.has_number else "",
        band=texts[1],
        mark=mark.id,
        source=mark.source,
        link=f"{anchor}-{number}" if number else "",
    )


def _row(place: int, club: Club, name: str) -> Row:
    anchor = f"club-{place}"
    lines = workings(club)
    return Row(
        anchor=anchor,
        name=name,
        kind=club.kind,
        head=words.part_name(club.head),
        settings=words.settings(club),
        cells=[
            _cell(measure.key, getattr(club.as_played, measure.key), lines, anchor, measure.unit)
            for measure in words.MEASURES
        ],
        shaft=words.part_name(club.shaft),
        flex=club.shaft.flex or "",
        shaft_cells=[
            _cell("", club.shaft.mass, lines, anchor),
            *([_cell("torque", club.shaft.torque, lines, anchor)] if club.shaft.torque else []),
        ],
        lines=lines,
    )


def _by_level(findings: Sequence[Finding]) -> list[tuple[str, list[Finding]]]:
    """Findings under their level's heading, gravest first; those of one level keep their order."""
    found = [
        (heading, [finding for finding in findings if finding.level == level])
        for level, heading in words.LEVELS.items()
    ]
    return [(heading, group) for heading, group in found if group]


def _behind(rows: Sequence[Row], golf_set: GolfSet, finding: Finding, figure: Figure) -> str:
    """The line of the workings behind a finding's figure, sought in the clubs it speaks of; empty where none is."""
    for row, club in zip(rows, golf_set.clubs, strict=True):
        if club.club in finding.clubs:
            for line in row.lines:
                if line.figure == figure:
                    return f"{row.anchor}-{line.number}"
    return ""


def set_sheet(golf_set: GolfSet, findings: Sequence[Finding], house: House = PLAIN) -> str:
    """The sheet of a set as HTML, from a set with every club worked out as played, and its findings.

    The same input gives the same text. Figures that are missing are shown as missing.

    >>> set_sheet(GolfSet(), ()).startswith("<!doctype html>")
    True
    """
    rows = [
        _row(place, club, name)
        for place, (club, name) in enumerate(zip(golf_set.clubs, labels(golf_set.clubs), strict=True), start=1)
    ]
    return _page(
        "set-sheet.html",
        house,
        golf_set,
        rows=rows,
        measures=words.MEASURES,
        levels=_by_level(findings),
        behind=partial(_behind, rows, golf_set),
        breaches=any(finding.level == "breach" for finding in findings),
        drawing=drawn_set(golf_set),
        cautions=cautions(golf_set),
    )


def _page(name: str, house: House, golf_set: GolfSet, **given: Any) -> str:
    """A page about a set from its template."""
    facts = {"golf_set": golf_set, "facts": golf_set.set, "title": words.title(golf_set), "house": house.name}
    return _filled(name, house, **facts, **given)


def _filled(name: str, style: House, /, **given: Any) -> str:
    """A page from its template; a fault in a template of the house's own is the user's to mend."""
    from jinja2 import TemplateError

    try:
        return environment(style).get_template(name).render(**given)
    except (TemplateError, UnicodeDecodeError, OSError, TypeError, ValueError) as fault:
        if style.templates is None:
            raise
        place = f", line {fault.lineno}" if hasattr(fault, "lineno") else ""
        raise BadInput(f"the template {name} in {style.templates}{place} cannot be filled: {fault}") from None


def explanation_page(
    golf_set: GolfSet,
    told: Explanation,
    pictures: Sequence[Picture] = (),
    house: House = PLAIN,
    *,
    changes: Compared | None = None,
) -> str:
    """The set explained at three depths with its pictures, as HTML; with what differs from another.

    >>> from asplayed.telling.explaining import explain
    >>> explanation_page(GolfSet(), explain(GolfSet())).startswith("<!doctype html>")
    True
    """
    return _page("explanation.html", house, golf_set, told=told, pictures=pictures, changes=changes)


def report_page(report: Report, pictures: Sequence[Picture] = (), house: House = PLAIN) -> str:
    """A report as HTML: its sentences, tables and pictures, and how far to trust it.

    >>> from asplayed.telling.phrases import Sentence
    >>> from asplayed.telling.report import Report
    >>> report_page(Report("A season", "", Sentence("", "Two winners.", "Two winners."), (), ())).startswith("<!doc")
    True
    """
    return _filled("report.html", house, title=report.title, house=house.name, report=report, pictures=pictures)


def comparison_page(
    before: GolfSet,
    now: GolfSet,
    house: House = PLAIN,
    *,
    pictures: Sequence[Picture] = (),
    told: Compared | None = None,
) -> str:
    """Two sets, or one at two dates, side by side as HTML: the differences in words, then every club.

    >>> comparison_page(GolfSet(), GolfSet()).startswith("<!doctype html>")
    True
    """
    return _page(
        "comparison.html",
        house,
        now,
        earlier=before.set,
        earlier_title=words.title(before),
        told=told or compared(before, now),
        clubs=beside(before, now),
        pictures=pictures,
    )


def index_page(golf_set: GolfSet, files: Sequence[tuple[str, str]], house: House = PLAIN) -> str:
    """The page that links everything written beside it: `files` are (file, what it is).

    >>> "set-sheet.html" in index_page(GolfSet(), [("set-sheet.html", "the sheet of the set")])
    True
    """
    return _page("index.html", house, golf_set, files=files)
