"""The rules of golf and of equipment, item by item: `data/rules.toml` holds the limits, this module holds them up.

The strongest thing ever said is that no breach was found in the figures entered. What the rules leave to the eye
(plain shape, shafts that bend alike every way, parts that stay fixed, balls that fly alike) no figure can settle.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from functools import cache
from importlib import resources
from typing import Literal

import msgspec

from asplayed.clubs.records import Record
from asplayed.errors import BadInput
from asplayed.quantities import Figure, convert, write_quantity
from asplayed.quantities.units import unit_named

Judged = Literal["ok", "within tolerance", "breach", "not measured"]
Entered = Figure | Sequence[Figure]

LOCAL_RULES = ("G-2", "G-10")
# Keys that say what is judged, and are judged by nothing themselves.
CONTEXT = ("kind", "face_radius", "model_year")
_WORST: tuple[Judged, ...] = ("breach", "not measured", "within tolerance", "ok")
_SLACK = 1e-9


class Rule(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One limit, as `data/rules.toml` explains it."""

    item: str
    group: Literal["club", "grooves", "set", "ball"]
    section: str
    says: str
    met: Literal["published", "remembered"]
    unit: str = "1"
    kinds: tuple[Literal["wood", "iron", "putter"], ...] = ("wood", "iron", "putter")
    at_most: float | None = None
    at_least: float | None = None
    tolerance: float = 0.0
    single: float | None = None
    widths: float | None = None
    single_slack: float = 0.0
    from_loft: float | None = None
    local: str | None = None
    local_for_older: str | None = None
    medical: bool = False
    only_if_entered: bool = False
    beyond: Judged = "breach"


class Verdict(Record, frozen=True, kw_only=True):
    """What one rule says of one item: the item's key, the verdict, the section, and the rule in plain words."""

    item: str
    verdict: Judged
    section: str
    sentence: str


@cache
def rules() -> tuple[Rule, ...]:
    """Every limit in the table.

    >>> rules()[0].item, rules()[0].at_most
    ('clubs', 14.0)
    """
    text = resources.files("asplayed.judgement").joinpath("data/rules.toml").read_text(encoding="utf-8")
    return msgspec.convert(tomllib.loads(text)["rule"], tuple[Rule, ...])


@cache
def _by_item() -> dict[str, list[Rule]]:
    return {item: [rule for rule in rules() if rule.item == item] for item in dict.fromkeys(r.item for r in rules())}


@cache
def keys() -> tuple[str, ...]:
    """The names a figure may be entered under, items first, in the order of the table."""
    return (*dict.fromkeys(rule.item for rule in rules()), *CONTEXT)


def class_of(kind: str) -> Literal["wood", "iron", "putter"]:
    """The rules' class of a kind or a club's name: hybrids count as woods, wedges as irons.

    >>> class_of("driving iron"), class_of("3 wood"), class_of("mallet putter")
    ('iron', 'wood', 'putter')
    """
    words = kind.lower()
    if "putter" in words:
        return "putter"
    if any(word in words for word in ("iron", "wedge", "chipper")):
        return "iron"
    if any(word in words for word in ("wood", "driver", "hybrid")):
        return "wood"
    raise BadInput(
        f"{kind!r} is no kind of club; use driver, fairway wood, hybrid, driving iron, iron, wedge or putter"
    )


def spring_effect_route(kind: str, loft: float | None, depth: float | None, face_radius: float | None) -> str:
    """How the spring effect is tested: `not tested`, `characteristic time, then cannon` or `characteristic time`.

    Loft in degrees, depth (face to back) and radius of the face in inches; None where not known. Loft above 35° and
    putters are not tested; at 35° or less, a shallow head (1.5 in at most) with a flat face (radius above 30 in) that
    passes the screen of 239 + 18 µs goes on to a cannon test. Source: notice of the governing bodies, 21 January 2016.

    >>> spring_effect_route("iron", 36, None, None), spring_effect_route("iron", 30, 1.0, 40)
    ('not tested', 'characteristic time, then cannon')
    """
    if class_of(kind) == "putter" or (loft is not None and loft > 35):
        return "not tested"
    if loft is not None and depth is not None and depth <= 1.5 and face_radius is not None and face_radius > 30:
        return "characteristic time, then cannon"
    return "characteristic time"


def short_groove_test(widths: Sequence[float], separation: float) -> bool:
    """True when the abbreviated test of grooves (all in mm) is passed and no full measurement is needed.

    The greatest width plus 0.05 mm must stay below 0.9 mm and below a quarter of the pitch, and the pitch less it above
    1.9 mm. Source: Equipment Rules 2019, Part 10 rule 10.

    >>> short_groove_test([0.75, 0.80, 0.75], 2.8)
    True
    """
    widest = max(widths) + 0.05
    pitch = max(widths) + separation
    return widest < 0.9 and widest < pitch / 4 and pitch - widest > 1.9


def check(figures: Mapping[str, Entered], local_rules: Sequence[str] = ()) -> tuple[Verdict, ...]:
    """A verdict for every item the entered figures call for, in the order of the rules' table.

    `figures` are those of a club (`kind` names it; without one a club other than a putter is taken), of a set or of
    a ball; groove figures may be lists. `local_rules` may hold `G-2` and `G-10`. Items of the same club, set or ball
    that were not entered are `not measured`. An unknown name, a text for a number or a wrong unit raises `BadInput`.

    >>> from asplayed.quantities import figure
    >>> found = check({"kind": figure("driver", "1", "stated"), "length": figure(48.01, "in", "measured")})
    >>> [(v.verdict, v.section) for v in found if v.item == "length"]
    [('breach', 'Equipment Rules, Part 2 section 1c')]
    """
    case = _Case(figures, tuple(local_rules))
    found = []
    for item, applying in _by_item().items():
        if item in figures or (applying[0].group in case.groups and not applying[0].only_if_entered):
            verdict = case.judge(item, applying)
            if verdict is not None:
                found.append(verdict)
    return tuple(found)


class _Case:
    """One set of entered figures, with everything the rules ask of it worked out once."""

    def __init__(self, figures: Mapping[str, Entered], local_rules: tuple[str, ...]) -> None:
        unknown = [name for name in figures if name not in keys()]
        if unknown:
            raise BadInput(f"{', '.join(unknown)}: no rule asks for that; the figures known are {', '.join(keys())}")
        strange = [name for name in local_rules if name not in LOCAL_RULES]
        if strange:
            raise BadInput(f"{', '.join(strange)}: no such local rule here; use {' or '.join(LOCAL_RULES)}")
        self.figures = figures
        self.local_rules = local_rules
        kind = figures.get("kind")
        self.kind = str(kind.value) if isinstance(kind, Figure) else ""
        self.club_class = class_of(self.kind) if self.kind else None
        groups = {rule.group for rule in rules() if rule.item in figures}
        if self.kind:
            groups.add("club")
        if "club" in groups and self.club_class == "iron":
            groups.add("grooves")
        self.groups = groups

    def numbers(self, item: str, unit: str) -> list[float]:
        """The entered figures of an item in one unit; refused when they are no numbers or of another dimension."""
        entered = self.figures.get(item)
        if entered is None:
            return []
        found = []
        for entry in [entered] if isinstance(entered, Figure) else entered:
            if not entry.has_number:
                wanted = "" if unit == "1" else f" ({unit})"
                raise BadInput(f"{item} is {entry.value!r}; give a number{wanted}")
            if unit_named(entry.unit).dimension != unit_named(unit).dimension:
                raise BadInput(f"{item} is given in {entry.unit}; the unit wanted is {unit} or another of its kind")
            found.append(convert(entry.number, entry.unit, unit))
        if not found:
            raise BadInput(f"{item} is empty; give at least one figure in {unit}")
        return found

    def number(self, item: str, unit: str) -> float | None:
        """The one entered figure of an item, or None."""
        found = self.numbers(item, unit)
        if len(found) > 1:
            raise BadInput(f"{item} takes one figure, not {len(found)}")
        return found[0] if found else None

    @property
    def medical(self) -> bool:
        entered = self.figures.get("medical")
        if not isinstance(entered, Figure):
            return False
        word = str(entered.value).strip().lower()
        if word in ("yes", "true", "1", "1.0"):
            return True
        if word in ("no", "false", "0", "0.0", "none"):
            return False
        raise BadInput(f"medical is {entered.value!r}; say yes or no")

    def judge(self, item: str, applying: Sequence[Rule]) -> Verdict | None:
        """The worst verdict of the rules on one item; None where no rule of it applies and nothing was entered."""
        kept = [rule for rule in applying if self._applies(rule)]
        entered = item in self.figures
        if not kept:
            if not entered:
                return None
            self.numbers(item, applying[0].unit)
            where = f"a {self.club_class}" if self.club_class else "this club"
            return Verdict(item=item, verdict="ok", section=applying[0].section, sentence=f"no limit for {where}")
        found = [self._one(item, rule) for rule in kept]
        return min(found, key=lambda verdict: _WORST.index(verdict.verdict))

    def _applies(self, rule: Rule) -> bool:
        if rule.local is not None and rule.local not in self.local_rules:
            return False
        if rule.group in ("set", "ball"):
            return True
        # Without a kind the stricter reading for clubs other than putters is taken.
        club_class = self.club_class or ("iron" if rule.kinds == ("iron",) else None)
        if club_class is None:
            return rule.kinds != ("putter",)
        return club_class in rule.kinds

    def _one(self, item: str, rule: Rule) -> Verdict:
        special = {
            "face_back": self._face_back,
            "heel_toe": self._heel_toe,
            "face_width": self._face_width,
            "medical": self._medical,
            "characteristic_time": self._characteristic_time,
            "groove_area": self._groove_area,
            "groove_radius": self._groove_radius,
            "groove_separation": self._groove_separation,
            "groove_width": self._groove_list,
            "groove_depth": self._groove_list,
        }.get(item, self._limit)
        if item not in self.figures:
            return self._verdict(rule, "not measured")
        return special(rule)

    def _verdict(self, rule: Rule, verdict: Judged, more: str = "") -> Verdict:
        words = f"{rule.says}; {more}" if more else rule.says
        if rule.local_for_older in self.local_rules:
            words += f"; with {rule.local_for_older} in force it binds models of before 2010 too"
        elif rule.local_for_older and not more:
            words += f"; models of before 2010 are bound by it only where {rule.local_for_older} is in force"
        if rule.met == "remembered":
            words += " (the figure is from memory: look it up before relying on it)"
        return Verdict(item=rule.item, verdict=verdict, section=rule.section, sentence=words)

    def _limit(self, rule: Rule) -> Verdict:
        value = self.number(rule.item, rule.unit)
        assert value is not None  # called only for what was entered
        over = value - rule.at_most if rule.at_most is not None else float("-inf")
        under = rule.at_least - value if rule.at_least is not None else float("-inf")
        beyond = max(over, under)
        slack = _SLACK * max(1.0, abs(value))
        entered = f"entered is {write_quantity(value, rule.unit, places=3)}"
        if beyond <= slack:
            return self._verdict(rule, "ok", entered)
        if beyond <= rule.tolerance + slack:
            return self._verdict(rule, "within tolerance", entered)
        if rule.at_most is not None and rule.medical and self.medical:
            return self._medical_length(rule, value, entered)
        if rule.local == "G-10" and self.medical:
            return self._verdict(rule, "not measured", f"{entered}; a medical exception is for the committee to settle")
        return self._verdict(rule, rule.beyond, entered)

    def _medical_length(self, rule: Rule, value: float, entered: str) -> Verdict:
        longest = self.number("longest", "in") or value
        shortest = self.number("shortest", "in")
        if shortest is None:
            return self._verdict(rule, "not measured", f"{entered}; the medical exception needs the shortest club too")
        if longest - shortest <= 10 + _SLACK * longest:
            return self._verdict(rule, "ok", f"{entered}, under the medical exception if the committee approves")
        return self._verdict(rule, "breach", f"{entered}; the shortest club is more than 10 in shorter")

    def _medical(self, rule: Rule) -> Verdict:
        longest, shortest = self.number("longest", "in"), self.number("shortest", "in")
        longest = self.number("length", "in") if longest is None else longest
        if not self.medical:
            return self._verdict(rule, "ok", "no exception is asked for")
        if longest is None or (shortest is None and longest > 48):
            return self._verdict(rule, "not measured", "the longest and the shortest club are needed")
        if longest <= 48 or shortest is None or longest - shortest <= 10 + _SLACK * longest:
            return self._verdict(rule, "ok", "the committee's approval is still needed")
        return self._verdict(rule, "breach", "the shortest club is more than 10 in shorter than the longest")

    def _broader(self, rule: Rule) -> Verdict | None:
        heel_toe, face_back = self.number("heel_toe", "mm"), self.number("face_back", "mm")
        if heel_toe is None or face_back is None or heel_toe > face_back:
            return None
        more = f"from heel to toe {heel_toe:.4g} mm, from face to back {face_back:.4g} mm"
        said = "the head measures more from heel to toe than from face to back"
        return Verdict(item=rule.item, verdict="breach", section=rule.section, sentence=f"{said}; {more}")

    def _heel_toe(self, rule: Rule) -> Verdict:
        return self._broader(rule) or self._limit(rule)

    def _face_back(self, rule: Rule) -> Verdict:
        if "heel_toe" not in self.figures:
            self.number(rule.item, "mm")
            return self._verdict(rule, "not measured", "the measure from heel to toe is needed beside it")
        return self._broader(rule) or self._verdict(rule, "ok")

    def _face_width(self, rule: Rule) -> Verdict:
        width = self.number(rule.item, rule.unit)
        heel_toe, face_back = self.number("heel_toe", rule.unit), self.number("face_back", rule.unit)
        if width is None or heel_toe is None or face_back is None:
            return self._verdict(rule, "not measured", "the head's heel to toe and face to back are needed beside it")
        least = max(2 / 3 * face_back, heel_toe / 2)
        return self._verdict(rule, "ok" if width >= least * (1 - _SLACK) else "breach", f"here at least {least:.4g} mm")

    def _characteristic_time(self, rule: Rule) -> Verdict:
        route = spring_effect_route(
            self.kind or "wood",
            self.number("loft", "deg"),
            self.number("face_back", "in"),
            self.number("face_radius", "in"),
        )
        if route == "not tested":
            return self._verdict(rule, "ok", "above 35° of loft it is not tested")
        found = self._limit(rule)
        if found.verdict == "breach" and route.endswith("cannon"):
            return self._verdict(
                rule, "not measured", "a shallow flat-faced head past the screen goes to a cannon test"
            )
        return found

    def _by_halves(self, rule: Rule, beyond: Sequence[bool], alone: bool, more: str = "") -> Verdict:
        """The groove rule: a breach when half are beyond the limit or any single one is far beyond it."""
        if alone or 2 * sum(beyond) >= len(beyond) > 0:
            return self._verdict(rule, "breach", more)
        return self._verdict(rule, "within tolerance" if any(beyond) else "ok", more)

    def _groove_list(self, rule: Rule) -> Verdict:
        values = self.numbers(rule.item, rule.unit)
        assert rule.at_most is not None and rule.single is not None  # both stand in the table
        more = ""
        separations = self.numbers("groove_separation", "mm")
        if rule.item == "groove_width" and separations:
            passed = short_groove_test(self.numbers(rule.item, "mm"), min(separations))
            more = "the short test of grooves is passed" if passed else "the short test is not passed: measure in full"
        beyond = [value > rule.at_most + _SLACK for value in values]
        return self._by_halves(rule, beyond, any(value > rule.single + _SLACK for value in values), more)

    def _paired(self) -> list[tuple[float, float]]:
        """Every separation (in) with the greater of the widths beside it."""
        widths = self.numbers("groove_width", "in")
        separations = self.numbers("groove_separation", "in")
        if not widths:
            return []
        if len(separations) == len(widths) - 1:
            return [(s, max(widths[i], widths[i + 1])) for i, s in enumerate(separations)]
        return [(s, max(widths)) for s in separations]

    def _groove_separation(self, rule: Rule) -> Verdict:
        separations = self.numbers(rule.item, rule.unit)
        assert rule.at_least is not None and rule.widths is not None  # both stand in the table
        pairs = self._paired()
        close = [s < rule.at_least - _SLACK for s in separations]
        if not pairs:
            found = self._by_halves(rule, close, False)
            return found if found.verdict == "breach" else self._verdict(rule, "not measured", "widths are needed too")
        narrow = [near or s < rule.widths * w - _SLACK for near, (s, w) in zip(close, pairs, strict=True)]
        alone = any(s < rule.widths * w - rule.single_slack - _SLACK for s, w in pairs)
        return self._by_halves(rule, narrow, alone)

    def _older(self, rule: Rule) -> bool:
        year = self.number("model_year", "1")
        return year is not None and year < 2010 and rule.local_for_older not in self.local_rules

    def _groove_area(self, rule: Rule) -> Verdict:
        areas = self.numbers(rule.item, "in2")
        widths, separations = self.numbers("groove_width", "in"), self.numbers("groove_separation", "in")
        if self._older(rule):
            return self._verdict(rule, "ok", "a model of before 2010 is bound by it only where G-2 is in force")
        if not widths or not separations:
            return self._verdict(rule, "not measured", "width and separation are needed for the pitch")
        assert rule.at_most is not None and rule.single is not None  # both stand in the table
        ratios = [
            area / (widths[min(i, len(widths) - 1)] + separations[min(i, len(separations) - 1)])
            for i, area in enumerate(areas)
        ]
        beyond = [ratio > rule.at_most + _SLACK for ratio in ratios]
        alone = any(ratio > rule.single + _SLACK for ratio in ratios)
        return self._by_halves(rule, beyond, alone, f"greatest here {max(ratios):.6f} in²/in")

    def _groove_radius(self, rule: Rule) -> Verdict:
        radii = self.numbers(rule.item, rule.unit)
        assert rule.at_most is not None and rule.at_least is not None and rule.from_loft is not None
        loft = self.number("loft", "deg")
        if loft is not None and loft < rule.from_loft:
            return self._verdict(rule, "ok", f"at {loft:g}° of loft it does not apply")
        if self._older(rule):
            return self._verdict(rule, "ok", "a model of before 2010 is bound by it only where G-2 is in force")
        beyond = [not rule.at_least - _SLACK <= radius <= rule.at_most + _SLACK for radius in radii]
        return self._by_halves(rule, beyond, False)
