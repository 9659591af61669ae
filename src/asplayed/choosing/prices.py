"""What changes cost: a table of prices of parts and of work, in one currency, and a purse in the same one."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from asplayed.catalogue.parts import Part
from asplayed.errors import BadInput

WORK = ("sleeve", "bend", "length", "head", "club")
"""Work that a table may price: turning a sleeve, bending, a new length, fitting a head, building a club."""

_MONEY = re.compile(
    r"(?P<before>[A-Za-z]{3}|[€$£¥])?\s*(?P<value>\d+(?:[.,]\d{1,2})?)\s*(?P<after>[A-Za-z]{3}|[€$£¥])?"
)
_SIGNS = {"€": "EUR", "£": "GBP"}
_HOW = "write it as 400 EUR"


class Money(NamedTuple):
    """An amount and its currency by its three letters; `$` and `¥` stand as they are, for they name several."""

    value: float
    currency: str


def money(text: str) -> Money:
    """An amount with its currency; one without is refused.

    >>> money("400 EUR"), money("£12.50")
    (Money(value=400.0, currency='EUR'), Money(value=12.5, currency='GBP'))
    """
    shown = text.strip()[:60]
    match = _MONEY.fullmatch(text.strip())
    if match is None:
        raise BadInput(f"{shown!r} is no amount of money; {_HOW}")
    currency = match["before"] or match["after"]
    if currency is None or (match["before"] and match["after"]):
        raise BadInput(f"a purse of {shown!r} names no currency, or two; {_HOW}")
    return Money(float(match["value"].replace(",", ".")), _SIGNS.get(currency, currency.upper()))


class Prices(NamedTuple):
    """Prices by lower-case name, all in one currency; without any, nothing has a price that is known."""

    by_name: Mapping[str, float] = {}
    currency: str | None = None

    def of(self, words: Sequence[str], parts: Iterable[Part]) -> float | None:
        """What changes cost, with the parts they take; None where a part's price is not known.

        Work that the table gives no price for costs nothing: a workshop that charges for it says so there.

        >>> Prices({"oskell dunlin": 90.0, "bend": 8.0}, "EUR").of(("7 iron: bend 1 weak",), ())
        8.0
        """
        if not words:
            return 0.0
        found = [self._of_part(part) for part in parts]
        if None in found or self.currency is None:
            return None
        return sum(price for price in found if price) + sum(self.by_name.get(_work(each), 0.0) for each in words)

    def _of_part(self, part: Part) -> float | None:
        title = f"{part.maker or ''} {part.model}".strip()
        names = (part.named, f"{title} {part.club[0]}" if len(part.club) == 1 else title, title, part.model)
        return next((self.by_name[name.casefold()] for name in names if name.casefold() in self.by_name), None)


def _work(words: str) -> str:
    if words.startswith("add:"):
        return "club"
    said = words.partition(": ")[2].split()
    first = said[0] if said else ""
    return "bend" if first == "lie" else first


def read_prices(text: str, name: str = "the table of prices") -> Prices:
    """The prices in a table of two columns, `item` and `price [EUR]`, or with each price as `90 EUR`.

    An item is a part by its name (`Oskell Dunlin`, `Oskell Dunlin 7 iron`) or work: sleeve, bend, length, head, club.

    >>> read_prices("item,price [EUR]\\nOskell Dunlin,90\\nbend,8\\n").by_name["bend"]
    8.0
    """
    rows = [row for row in csv.reader(io.StringIO(text)) if any(cell.strip() for cell in row)]
    heading = [cell.strip().casefold() for cell in rows[0]] if rows else []
    column = next((place for place, cell in enumerate(heading) if cell.startswith("price")), None)
    if "item" not in heading or column is None:
        raise BadInput(f"{name}, line 1: its columns are item and price [EUR]; name them so in the first row")
    unit = re.fullmatch(r"price\s*[\[(]\s*(.+?)\s*[\])]", heading[column])
    found: dict[str, float] = {}
    currencies: set[str] = set()
    for number, row in enumerate(rows[1:], 2):
        if len(row) <= max(column, heading.index("item")):
            raise BadInput(f"{name}, row {number}: it has no price; write an item and its price in every row")
        cell = row[column].strip()
        try:
            amount = money(f"{cell} {unit[1]}" if unit else cell)
        except BadInput:
            raise BadInput(
                f"{name}, row {number}: {cell[:40]!r} is no price; write 90 below price [EUR], or 90 EUR"
            ) from None
        item = " ".join(row[heading.index("item")].split()).casefold()
        if item in found and found[item] != amount.value:
            raise BadInput(f"{name}, row {number}: {item!r} has another price further up; keep one")
        found[item] = amount.value
        currencies.add(amount.currency)
    if len(currencies) > 1:
        raise BadInput(f"{name} holds prices in {' and '.join(sorted(currencies))}; give all in one currency")
    if not found:
        raise BadInput(f"{name} names columns but has no price; add a row for each part and each kind of work")
    return Prices(found, currencies.pop())
