"""Stock of parts: what came in, what is reserved for which order, what was used, and what to order again.

A line changes only by movements, each a new line: nothing is reserved that is not there, nothing used that was not
reserved for its order.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

import msgspec
from msgspec.structs import replace

from asplayed.catalogue.tables import read_table
from asplayed.clubs.records import Record
from asplayed.errors import BadInput, Refused
from asplayed.quantities import Figure, Source, read_quantity
from asplayed.workshop.records import Order

KINDS = ("head", "shaft", "grip", "sleeve", "weight", "ferrule", "tape")


class StockLine(Record, frozen=True, kw_only=True):
    """One part in stock: how many there are, for which orders some are reserved, how many were used so far.

    `again_at` is the free number at which more are ordered; `price` is in the shop's own currency; a `tube` is a shaft
    of one section throughout, `length` long, from which several clubs may be cut.
    """

    part: str
    name: str
    there: int = 0
    reserved: dict[str, int] = msgspec.field(default_factory=dict)
    used: int = 0
    again_at: int = 0
    price: float | None = None
    length: Figure | None = None
    tube: bool = False

    @property
    def free(self) -> int:
        """How many are there and reserved for nobody."""
        return self.there - sum(self.reserved.values())


def key(part: str, name: str) -> str:
    """What tells a part in stock from every other: its kind and its name, letter case and blanks aside.

    >>> key("Shaft", " Brunholt  Level S ")
    'shaft: brunholt level s'
    """
    return f"{part.casefold().strip()}: {' '.join(name.split()).casefold()}"


def needs(order: Order) -> dict[str, int]:
    """How many of each part an order takes, by key."""
    found: dict[str, int] = {}
    for part in order.parts:
        name = key(part.part, part.name)
        found[name] = found.get(name, 0) + part.count
    return found


def take_in(lines: Mapping[str, StockLine], delivered: Sequence[StockLine]) -> dict[str, StockLine]:
    """The lines with a delivery added: counts add up, price, length and reorder point are the delivery's where given.

    >>> moss = StockLine(part="grip", name="Norrby Moss", there=3)
    >>> take_in(take_in({}, [moss]), [moss])["grip: norrby moss"].there
    6
    """
    found = dict(lines)
    for new in delivered:
        name = key(new.part, new.name)
        old = found.get(name)
        if old is None:
            found[name] = new
            continue
        found[name] = replace(
            old,
            there=old.there + new.there,
            again_at=new.again_at or old.again_at,
            price=old.price if new.price is None else new.price,
            length=new.length or old.length,
            tube=new.tube or old.tube,
        )
    return found


def reserve(lines: Mapping[str, StockLine], order: Order) -> dict[str, StockLine]:
    """The lines with the order's parts reserved; parts that are not there are refused, every one by name.

    Reserving the same order again changes nothing.
    """
    found = dict(lines)
    faults = []
    for name, count in needs(order).items():
        line = found.get(name)
        free = 0 if line is None else line.free + line.reserved.get(order.order, 0)
        if line is None or free < count:
            there = "none is in stock" if line is None else f"{free} free of {line.there}"
            faults.append(f"{name}: {count} needed, {there}; take some in, or order them")
            continue
        found[name] = replace(line, reserved={**line.reserved, order.order: count})
    if faults:
        raise Refused(f"the parts of {order.order} cannot be reserved", faults)
    return found


def use(lines: Mapping[str, StockLine], order: Order) -> dict[str, StockLine]:
    """The lines with the order's reserved parts taken out for good; an order that reserved nothing is refused."""
    held = [name for name, line in lines.items() if order.order in line.reserved]
    if not held:
        raise BadInput(f"nothing is reserved for {order.order}; reserve its parts before they are used")
    found = dict(lines)
    for name in held:
        line = found[name]
        count = line.reserved[order.order]
        rest = {other: number for other, number in line.reserved.items() if other != order.order}
        found[name] = replace(line, there=line.there - count, used=line.used + count, reserved=rest)
    return found


def to_order(lines: Mapping[str, StockLine]) -> tuple[StockLine, ...]:
    """The lines of which no more than their reorder point is free."""
    return tuple(line for line in lines.values() if line.free <= line.again_at)


_COLUMNS = {
    "part": "part", "name": "name", "count": "there", "in": "there", "reorder at": "again_at", "price": "price",
    "length": "length", "tube": "tube",
}  # fmt: skip


def read_stock(data: bytes, called: str) -> tuple[StockLine, ...]:
    """A delivery as a table: part, name, count, and where known reorder at, price, length, tube (yes or no).

    >>> [line] = read_stock(b"part,name,count,price\\ngrip,Norrby Moss,12,9.50\\n", "in.csv")
    >>> line.there, line.price
    (12, 9.5)
    """
    table = read_table(data, called)
    columns = [_COLUMNS.get(" ".join(name.casefold().split())) for name in table.columns]
    missing = [name for name in ("part", "name", "there") if name not in columns]
    if missing:
        wanted = ", ".join("count" if name == "there" else name for name in missing)
        raise BadInput(f"{called} has no column {wanted}; its first row should name part, name and count")
    lines = []
    faults = []
    for row in table.rows:
        cells = {name: cell.strip() for name, cell in zip(columns, row.cells, strict=False) if name}
        if not any(cells.values()):
            continue
        units = {name: unit for name, unit in zip(columns, table.units, strict=True) if name}
        try:
            lines.append(_line(cells, units.get("length", "")))
        except BadInput as fault:
            faults.append(f"line {row.line}: {fault}")
    if faults:
        raise Refused(f"{called} cannot be used", faults)
    if not lines:
        raise BadInput(f"{called} holds no part; give a row for each below the names of the columns")
    return tuple(lines)


def _line(cells: Mapping[str, str], length_unit: str) -> StockLine:
    part = cells.get("part", "").casefold()
    if part not in KINDS:
        raise BadInput(f"{cells.get('part', '')!r} is no kind of part; it should be one of {', '.join(KINDS)}")
    name = " ".join(cells.get("name", "").split())
    if not name:
        raise BadInput("the part has no name")
    length = None
    if cells.get("length"):
        quantity = read_quantity(cells["length"])
        length = Figure(float(quantity.value), quantity.unit or length_unit or "in", Source.STATED).in_unit("in")
        if not 2 <= length.number <= 120:
            raise BadInput(f"a length of {cells['length']} cannot be; it lies between 2 and 120 in")
    return StockLine(
        part=part,
        name=name,
        there=_count(cells.get("there", ""), "count"),
        again_at=_count(cells.get("again_at", "") or "0", "reorder at"),
        price=_price(cells.get("price", "")),
        length=length,
        tube=cells.get("tube", "").casefold() in ("yes", "y", "true", "1", "x"),
    )


def _count(text: str, what: str) -> int:
    if not re.fullmatch(r"\d{1,6}", text):
        raise BadInput(f"{what} {text!r} is no number of parts; write a whole number from 0 on")
    return int(text)


def _price(text: str) -> float | None:
    if not text:
        return None
    price = read_quantity(text)
    if price.unit or price.value < 0:
        raise BadInput(f"a price of {text!r} cannot be; write a bare number from 0 on")
    return float(price.value)
