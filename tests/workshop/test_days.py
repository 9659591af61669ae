"""Several jobs at once: cuts, shared blanks, parts against stock, cost and time, and a stock whose books balance."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule
from msgspec.structs import replace

from asplayed.clubs import Club, GolfSet, Head
from asplayed.errors import BadInput
from asplayed.intake.changes import read_changes
from asplayed.quantities import figure
from asplayed.workshop import Order, PartNeeded, order
from asplayed.workshop.day import KERF, Cut, minutes_of, nested, plan_day
from asplayed.workshop.stock import StockLine, key, read_stock, reserve, take_in, to_order, use


def ordered(player: str, *texts: str) -> Order:
    clubs = tuple(
        Club(club=f"{n} iron", kind="iron", head=Head(mass=figure(262 + 7 * (n - 6), "g", "measured")))
        for n in (6, 7, 8)
    )
    bag = GolfSet(clubs=clubs)
    return order(bag, read_changes(texts, bag), set_name=player)


ADA = ordered("ada", "irons: shaft Brunholt S", "irons: grip Tessary")
PRIYA = ordered("priya", "7 iron: shaft Brunholt S, tip trim ½ in", "7 iron: grip Norrby")
WEDGE = ordered("jonas", "8 iron: bend 1 weak")
STOCK = take_in(
    {},
    [
        StockLine(part="shaft", name="Brunholt S", there=4, price=20.0),
        StockLine(part="grip", name="Tessary", there=5, again_at=2, price=8.5),
        StockLine(part="ferrule", name="ferrule", there=50, price=0.5),
    ],
)


def test_cuts_stand_shaft_by_shaft_longest_first_and_add_up() -> None:
    found = plan_day([ADA, PRIYA, WEDGE])
    assert [(cut.shaft, cut.order) for cut in found.cuts].count(("Brunholt S", ADA.order)) == 3
    assert all(one.left >= other.left for one, other in pairwise(found.cuts))
    for cut in found.cuts:
        assert cut.tip + cut.butt + cut.left == pytest.approx(cut.raw, abs=1e-3)
    assert [cut.tip for cut in found.cuts if cut.order == PRIYA.order] == [0.5]


def test_parts_are_summed_and_held_against_the_stock() -> None:
    parts = {(part.part, part.name): part for part in plan_day([ADA, PRIYA], STOCK).parts}
    shafts = parts["shaft", "Brunholt S"]
    assert (shafts.needed, shafts.free, shafts.short, shafts.cost) == (4, 4, 0, 80.0)
    assert (parts["grip", "Norrby"].short, parts["grip", "Norrby"].cost) == (1, None)
    # what the day's own orders have reserved is theirs to use
    held = reserve(STOCK, ADA)
    assert next(part for part in plan_day([ADA, PRIYA], held).parts if part.part == "shaft").short == 0
    assert next(part for part in plan_day([PRIYA], held).parts if part.part == "shaft").free == 1


def test_cost_and_time_are_those_of_the_steps() -> None:
    found = plan_day([ADA, WEDGE], STOCK, hour=90)
    ada, wedge = found.costs
    assert ada.minutes == pytest.approx(sum(minutes_of(club) for club in ADA.clubs))
    assert found.minutes == pytest.approx(ada.minutes + wedge.minutes)
    assert ada.work == pytest.approx(1.5 * ada.minutes, abs=0.01)
    assert (ada.cure_hours, wedge.cure_hours) == (24, 0)
    assert ada.parts == pytest.approx(3 * 20 + 3 * 8.5 + 3 * 0.5)
    assert (wedge.parts, plan_day([PRIYA], STOCK).costs[0].parts) == (0, None)


def cut(club: str, left: float) -> Cut:
    return Cut(order="o", club=club, shaft="Plumb", raw=left, tip=0, butt=0, left=left)


TUBE = {key("shaft", "Plumb"): StockLine(part="shaft", name="Plumb", length=figure(72, "in", "stated"), tube=True)}


@given(st.lists(st.floats(30, 37), min_size=1, max_size=12))
def test_nested_blanks_hold_every_club_once_and_never_more_than_their_length(lefts: list[float]) -> None:
    cuts = [cut(str(number), left) for number, left in enumerate(lefts)]
    blanks = nested(cuts, TUBE)
    assert sorted(club for blank in blanks for _, club, _ in blank.clubs) == sorted(str(n) for n in range(len(lefts)))
    for blank in blanks:
        taken = sum(left for _, _, left in blank.clubs) + KERF * (len(blank.clubs) - 1)
        assert taken + blank.waste == pytest.approx(72, abs=1e-3)
        assert len(blank.clubs) <= 2
    # two short ones always share: as many blanks as the longest-with-shortest pairing needs
    ranked, count = sorted(lefts), 0
    while ranked:
        longest = ranked.pop()
        count += 1
        if ranked and ranked[0] + longest + KERF <= 72:
            ranked.pop(0)
    assert len(blanks) <= 11 / 9 * count + 4


def test_only_tubes_are_nested_and_one_too_short_is_refused() -> None:
    assert nested([cut("putter", 33)], {}) == ()
    two = nested([cut("one", 35), cut("two", 36)], TUBE)
    assert len(two) == 1 and two[0].waste == pytest.approx(72 - 71 - KERF)
    with pytest.raises(BadInput, match="needs 80 in of Plumb"):
        nested([cut("putter", 80)], TUBE)
    shared = plan_day([ADA], take_in(STOCK, [replace(TUBE[key("shaft", "Plumb")], name="Brunholt S")]))
    assert next(part for part in shared.parts if part.part == "shaft").needed == 2


def test_a_day_without_orders_and_an_order_named_twice_are_refused() -> None:
    with pytest.raises(BadInput, match="no order"):
        plan_day([])
    with pytest.raises(BadInput, match="named twice"):
        plan_day([ADA, ADA])


# ------------------------------------------------------------------------------------------------------------- stock


def test_stock_that_is_not_there_is_refused_by_name_and_nothing_is_held() -> None:
    with pytest.raises(BadInput, match=r"(?s)grip: norrby: 1 needed, none is in stock"):
        reserve(STOCK, PRIYA)
    held = reserve(STOCK, ADA)
    assert reserve(held, ADA) == held
    more = ordered("halvard", "irons: shaft Brunholt S", "irons: grip Tessary")
    with pytest.raises(
        BadInput, match=r"(?s)shaft: brunholt s: 3 needed, 1 free of 4.*grip: tessary: 3 needed, 2 free of 5"
    ):
        reserve(held, more)
    with pytest.raises(BadInput, match="nothing is reserved for"):
        use(STOCK, ADA)


def test_used_parts_leave_the_stock_and_what_runs_low_is_ordered_again() -> None:
    after = use(reserve(STOCK, ADA), ADA)
    grips = after[key("grip", "Tessary")]
    assert (grips.there, grips.used, grips.free, grips.reserved) == (2, 3, 2, {})
    assert [line.name for line in to_order(after)] == ["Tessary"]
    assert to_order(STOCK) == ()


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ("name,count\nMoss,3\n", "no column part"),
        ("part,name,count\nwheel,Moss,3\n", "line 2: 'wheel' is no kind of part"),
        ("part,name,count\ngrip,,3\n", "has no name"),
        ("part,name,count\ngrip,Moss,some\n", "no number of parts"),
        ("part,name,count\ngrip,Moss,-1\n", "no number of parts"),
        ("part,name,count,price\ngrip,Moss,1,-2\n", "a price of '-2' cannot be"),
        ("part,name,count,length\nshaft,Plumb,1,4 ft 3\n", "is not a unit"),
        ("part,name,count,length\nshaft,Plumb,1,900\n", "between 2 and 120 in"),
    ],
)
def test_a_delivery_that_cannot_be_is_refused_by_line(table: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read_stock(table.encode(), "in.csv")


def test_a_delivery_is_read_with_its_prices_and_tubes() -> None:
    [line] = read_stock(
        b"part;name;count;reorder at;price;length [mm];tube\nshaft;Plumb;3;1;12,50;1829;yes\n", "in.csv"
    )
    assert (line.there, line.again_at, line.price, line.tube) == (3, 1, 12.5, True)
    assert line.length.value == pytest.approx(72, abs=0.02)


class Books(RuleBasedStateMachine):
    """Any run of deliveries, reservations and uses: the books balance and nothing is used that was not there."""

    def __init__(self) -> None:
        super().__init__()
        self.lines: dict[str, StockLine] = {}
        self.came = {"shaft": 0, "grip": 0}

    @rule(part=st.sampled_from(["shaft", "grip"]), count=st.integers(0, 4))
    def deliver(self, part: str, count: int) -> None:
        self.lines = take_in(self.lines, [StockLine(part=part, name="Tessary", there=count)])
        self.came[part] += count

    @rule(name=st.sampled_from("abc"), shafts=st.integers(1, 3), grips=st.integers(1, 3), using=st.booleans())
    def work(self, name: str, shafts: int, grips: int, using: bool) -> None:
        parts = tuple(
            PartNeeded(part=part, name="Tessary", clubs=(), count=count)  # type: ignore[arg-type]
            for part, count in (("shaft", shafts), ("grip", grips))
        )
        before = dict(self.lines)
        try:
            self.lines = (use if using else reserve)(self.lines, Order(order=name, parts=parts))
        except BadInput:
            assert self.lines == before

    @invariant()
    def balanced(self) -> None:
        for line in self.lines.values():
            assert line.there + line.used == self.came[line.part]
            assert line.free >= 0


Books.TestCase.settings = settings(max_examples=30, stateful_step_count=20, deadline=None)
TestBooks = Books.TestCase
