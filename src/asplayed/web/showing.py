"""How records become words on a page: the templates' surroundings, figures in the reader's units, marks of sources."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

import msgspec

from asplayed import __version__
from asplayed.quantities import Figure
from asplayed.telling import words
from asplayed.telling.marks import MARKS, definitions, mark_of

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

    from asplayed.web.kit import Here, Units

# The unit a metric reader gets instead; degrees, grams, kg·cm² and cpm are everybody's.
METRIC = {"in": "mm", "yd": "m", "ft": "m", "mph": "m/s", "oz": "g", "degF": "degC"}


class Shown(NamedTuple):
    """A figure as a page shows it."""

    value: str
    band: str
    mark: str
    source: str
    why: str


def in_units(figure: Figure, units: Units) -> Figure:
    """A figure in the reader's units.

    >>> from asplayed.quantities import figure
    >>> in_units(figure(36, "in", "stated"), "metric").value, in_units(figure(37.00791, "in", "stated"), "metric").value
    (914.4, 940.0)
    """
    wanted = METRIC.get(figure.unit) if units == "metric" else None
    return _cut(figure.in_unit(wanted), 1) if wanted else figure


def _cut(figure: Figure, places: int) -> Figure:
    """A figure to so many places after the point."""

    def cut(number: Any) -> Any:
        return round(number, places) if isinstance(number, float | int) else number

    return msgspec.structs.replace(figure, value=cut(figure.value), low=cut(figure.low), high=cut(figure.high))


def figure_shown(figure: Figure | None, units: Units = "imperial") -> Shown:
    """A figure's value, band and the mark of its source, in the reader's units; a missing one as a dash.

    >>> from asplayed.quantities import figure
    >>> figure_shown(figure(56, "deg", "stated", tolerance=1))[:4]
    ('56°', '±1°', 'from-stated', 'stated')
    """
    if figure is None or (figure.value is None and figure.low is None):
        return Shown(words.MISSING, "", "", "not known", "")
    turned = in_units(figure, units)
    mark = mark_of(figure)
    return Shown(words.value_text(turned), words.band_text(turned), mark.id, mark.source, figure.why or "")


def rounded(figure: Figure, units: Units) -> Figure:
    """A flight's figure in the reader's units, to the digits that mean something.

    >>> from asplayed.quantities import figure
    >>> rounded(figure(2593.7, "rpm", "measured"), "imperial").value
    2590.0
    """
    turned = in_units(figure, units)
    return _cut(turned, -1 if turned.unit == "rpm" else 1)


def lined(text: str) -> Markup:
    """Text for a field of several lines: everything escaped, its lines kept.

    >>> lined("one <b>")
    Markup('one &lt;b&gt;')
    """
    from markupsafe import Markup, escape

    return Markup("\n").join(escape(words.clean(line)) for line in text.split("\n"))


@cache
def environment() -> Environment:
    """The templates' surroundings: everything escaped, undefined names refused, control characters dropped."""
    from jinja2 import Environment, PackageLoader, StrictUndefined
    from markupsafe import Markup

    def printable(found: Any) -> Any:
        return words.clean(found) if isinstance(found, str) and not isinstance(found, Markup) else found

    made = Environment(
        loader=PackageLoader("asplayed.web", "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=printable,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters |= {
        "lined": lined,
        "value": words.value_text,
        "band": words.band_text,
        "listed": words.listed,
        "trade_name": words.trade_name,
        "counted": words.counted,
        "part_name": words.part_name,
        "mark": mark_of,
    }
    made.globals |= {
        "markup": Markup,
        "version": __version__,
        "definitions": Markup(definitions()),
        "marks": MARKS,
        "levels": words.LEVELS,
    }
    return made


def filled(here: Here, template: str, given: Mapping[str, Any]) -> str:
    """A template filled for the one who asks."""
    from asplayed.web.tour import step_of

    app = here.app
    units = here.preferences.units
    return (
        environment()
        .get_template(template)
        .render(
            here=here,
            csrf=here.csrf,
            asset=app.assets.address,
            tabs=[tab for tab in app.tabs if here.may(f"GET {tab.path}")],
            set_tabs=[tab for tab in app.set_tabs if here.may(f"GET {tab.path}")],
            shop=app.settings.shop,
            tour=step_of(here),
            shown=lambda figure: figure_shown(figure, units),
            rounded=lambda figure: figure_shown(None if figure is None else rounded(figure, units), units),
            **given,
        )
    )
