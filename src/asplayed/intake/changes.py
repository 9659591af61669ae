"""Changes to a set in trade notation: “sand wedge: bend 1 weak”, “irons: shaft Lindrake 120 S”, “7 iron: D2”.

A change is written CLUBS: WORDS, several after one another with a comma or a semicolon between. Numbers are read as in
a list, in figures or in words. Directions are relative to the club as it is now, not to a standard.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING, Any

from asplayed.clubs import Ball, Change, GolfSet, Grip, Head, Shaft, Sleeve, Weight
from asplayed.clubs.names import club_meant, labels
from asplayed.errors import BadInput, Refused
from asplayed.intake.numbers import fold
from asplayed.intake.tokens import Source as Text
from asplayed.intake.tokens import tokens_of
from asplayed.quantities import Figure, Source, find_unit

if TYPE_CHECKING:
    from asplayed.catalogue import Part

_NUMBER = r"(?P<n>[+-]?\d+(?:\.\d+)?|[+-]?\.\d+)"
_INCHES = r"(?P<unit>in|inch|inches|\"|″|”|''|mm|cm)"
_DEGREES = r"(?:°|º|deg|degree|degrees)"
_GRAMS = r"(?:g|gram|grams|gr)"
_WAYS = {
    "weak": ("loft", 1), "weaker": ("loft", 1), "strong": ("loft", -1), "stronger": ("loft", -1),
    "upright": ("lie", 1), "up": ("lie", 1), "flat": ("lie", -1), "flatter": ("lie", -1), "down": ("lie", -1),
}  # fmt: skip
_SLEEVE_WAYS = {**_WAYS, "up": ("loft", 1), "down": ("loft", -1)}
_LONGER = {"long": 1, "longer": 1, "over": 1, "short": -1, "shorter": -1, "under": -1, "off": -1}
_KINDS = {
    "irons": ("iron",), "wedges": ("wedge",), "hybrids": ("hybrid",), "fairway woods": ("fairway wood",),
    "fairways": ("fairway wood",), "woods": ("driver", "fairway wood"), "driving irons": ("driving iron",),
}  # fmt: skip
_SPAN = re.compile(r"(\d{1,2})\s*(?:i|iron)?\s*(?:-|–|to|through)\s*(\d|[a-z]{1,2}|[a-z]+ wedge)(?:\s*irons?)?")
_TURN = re.compile(r"\s*(?:turn\s+)?(?:the\s+)?sleeve\s*(?:to|at|=)?\s+(?P<words>.+?)\s*", re.IGNORECASE)
_FLEX = re.compile(r"(?:tx|[larsx])[+-]*", re.IGNORECASE)
_MOST = 200  # characters of a change that an error shows
LONGEST = 600  # characters of a change, several times the longest that says something
MOST_CHANGES = 200  # at once: many times what a bench does to one set
_ACCEPTED = (
    "bend 1 weak, lie 62, length 44.5, ½ in longer, shaft NAME FLEX, grip NAME +1 wrap, head NAME, sleeve POSITION, "
    "weights 8 g heel 4 g toe, tip mass 4 g, tip trim ½ in, swing weight D2, inertia 2700, drop"
)


def read_changes(texts: Iterable[str], golf_set: GolfSet, parts: Sequence[Part] = ()) -> tuple[Change, ...]:
    """The changes that these texts tell of, in their order; those that cannot be read are refused together.

    `add: …` reads the new club as a line of a list, in which `parts` of the catalogue are known by name.

    >>> from asplayed.clubs import Club
    >>> bag = GolfSet(clubs=(Club(club="sand wedge", kind="wedge"), Club(club="7 iron", kind="iron")))
    >>> [(change.club, change.what, change.figure.value) for change in read_changes(["SW: bend a degree weak"], bag)]
    [('sand wedge', 'loft', 1.0)]
    """
    found: list[Change] = []
    faults = []
    texts = list(texts)
    if len(texts) > MOST_CHANGES:
        raise BadInput(f"{len(texts)} changes at once are more than are taken; give {MOST_CHANGES} at most")
    for text in texts:
        if len(text) > LONGEST:
            faults.append(f"the change {text[:60]!r} … goes on for {len(text)} characters; write one change a line")
            continue
        try:
            found += _read(text, golf_set, parts)
        except BadInput as fault:
            faults.append(str(fault))
    if len(faults) == 1:
        raise BadInput(faults[0])
    if faults:
        raise Refused("these changes cannot be read", faults)
    return tuple(found)


def _read(text: str, golf_set: GolfSet, parts: Sequence[Part]) -> list[Change]:
    shown = " ".join(text.split())[:_MOST]
    clubs, mark, words = text.partition(":")
    clubs, words = clubs.strip(), words.strip()
    if not mark:
        first, _, rest = text.strip().partition(" ")
        if first.casefold() in ("drop", "remove", "add", "ball") and rest.strip():
            clubs, words = (first, rest.strip()) if first.casefold() in ("add", "ball") else (rest.strip(), "drop")
        elif (left_out := re.fullmatch(r"(.+?)\s+out", text.strip(), re.IGNORECASE)) is not None:
            clubs, words = left_out[1], "drop"
        else:
            raise BadInput(
                f"the change {shown!r} does not say of which club; write CLUB: WORDS, as in 7 iron: bend 1 weak"
            )
    if not words:
        raise BadInput(f"the change {shown!r} says nothing about the club; write one of {_ACCEPTED}")
    if clubs.casefold() == "ball":
        return [Change(what="ball", ball=Ball(name=words), text=shown)]
    if clubs.casefold() == "add":
        return _to_add(words, shown, parts)
    names = clubs_named(clubs, golf_set)
    if (moved := _MOVED.fullmatch(_canonical(words))) is not None:
        return [_moved(name, moved, golf_set, shown) for name in names]
    if (steps := _STEPS.fullmatch(_canonical(words))) is not None:
        return [_turned(name, steps, golf_set, parts, shown) for name in names]
    fields = _pieces(words, shown)
    return [Change(club=name, text=shown, **entry) for name in names for entry in fields]


def _to_add(words: str, shown: str, parts: Sequence[Part]) -> list[Change]:
    from asplayed.intake import read

    clubs = read(words, parts=parts).clubs
    if len(clubs) != 1:
        raise BadInput(f"the change {shown!r} adds {len(clubs)} clubs; add one at a time, written as in a list")
    return [Change(what="add", added=clubs[0], text=shown)]


def clubs_named(words: str, golf_set: GolfSet) -> tuple[str, ...]:
    """The labels of the clubs that words mean: a club, several, a span (`5-PW`), a kind (`irons`), or `all`.

    >>> from asplayed.clubs import Club
    >>> bag = GolfSet(clubs=tuple(Club(club=f"{n} iron", kind="iron") for n in (5, 6, 7)))
    >>> clubs_named("5-6", bag), clubs_named("irons", bag), clubs_named("7i", bag)
    (('5 iron', '6 iron'), ('5 iron', '6 iron', '7 iron'), ('7 iron',))
    """
    names = labels(golf_set.clubs)
    found: list[str] = []
    for part in re.split(r"\s*(?:,|\+|&|\band\b)\s*", words):
        plain = " ".join(part.casefold().split())
        if plain in ("all", "every club", "set", "all clubs"):
            found += names
        elif plain in _KINDS:
            places = [place for place, club in enumerate(golf_set.clubs) if club.kind in _KINDS[plain]]
            if not places:
                raise BadInput(f"there are no {plain} in this set; its clubs are {', '.join(names)}")
            found += [names[place] for place in places]
        elif span := _SPAN.fullmatch(plain):
            last = f"{span[2]} iron" if span[2].isdigit() else span[2]
            start, end = _place(f"{span[1]} iron", golf_set, names), _place(last, golf_set, names)
            if end < start:
                raise BadInput(f"{part.strip()!r} runs backwards in this set; write the longer club first")
            found += names[start : end + 1]
        else:
            found.append(names[_place(part.strip(), golf_set, names)])
    return tuple(dict.fromkeys(found))


def _place(name: str, golf_set: GolfSet, names: Sequence[str]) -> int:
    found = club_meant(name, golf_set.clubs)
    if len(found) == 1:
        return found[0]
    if found:
        raise BadInput(f"{name!r} may be {' or '.join(names[place] for place in found)}; name one of them")
    raise BadInput(f"there is no {name[:_MOST]!r} in this set; its clubs are {', '.join(names) or 'none'}")


# --------------------------------------------------------------------------------------------------------- the words


def _pieces(words: str, shown: str) -> list[dict[str, Any]]:
    """What the words say, one entry a change."""
    if (weights := _weights(_canonical(words))) is not None:
        return [weights]
    found: list[dict[str, Any]] = []
    named: tuple[str, str] | None = None  # the part whose name is being told, and its words so far
    for piece in re.split(r"\s*;\s*|,\s+|,$", words):
        if not piece.strip():
            continue
        entries = _one(piece)
        if entries is None and named is not None:
            named = (named[0], f"{named[1]}, {piece}")
            found[-1] = _part(*named)
            continue
        if entries is None:
            raise BadInput(f"the change {shown!r}: {piece[:_MOST]!r} is not understood; write one of {_ACCEPTED}")
        named = None
        match = _PART.match(piece.strip())
        if match and entries[-1]["what"] == match["part"].casefold():
            named = (match["part"].casefold(), match["words"])
        found += entries
    if not found:
        raise BadInput(f"the change {shown!r} says nothing about the club; write one of {_ACCEPTED}")
    return found


def _canonical(words: str) -> str:
    """The words in small letters, every number (in figures, fractions or words) as a decimal."""
    kept = []
    for token in fold(tokens_of(Text(words))):
        if token.kind == "number" and isinstance(token.value, int | float):
            kept.append(f"{'+' if token.sign > 0 else ''}{token.value:.6g}")
        elif token.kind != "newline":
            kept.append(token.lower)
    return " ".join(kept).strip()


_PART = re.compile(
    r"(?:new\s+|re)?(?P<part>shaft|grip|head)(?:ed)?\s*(?:to|with|=|:)?\s+(?P<words>.+)", re.IGNORECASE | re.DOTALL
)


def _one(piece: str) -> list[dict[str, Any]] | None:
    match = _PART.match(piece.strip())
    if match and not re.match(r"(?:mass|weight|at|the)\b", match["words"]):
        return [_part(match["part"].casefold(), match["words"])]
    if sleeve := _TURN.fullmatch(piece):
        return [_sleeve(sleeve["words"])]
    plain = _canonical(piece)
    for reader in _READERS:
        if (entry := reader(plain)) is not None:
            return [entry]
    halves = re.split(r"\s+and\s+", piece, maxsplit=1)
    if len(halves) == 2 and (first := _one(halves[0])) and (second := _one(halves[1])):
        return first + second
    return None


def _given(value: float, unit: str) -> Figure:
    return Figure(value=value, unit=unit, source=Source.STATED)


def _part(part: str, words: str) -> dict[str, Any]:
    name: list[str] = []
    mass = wraps = loft = flex = None
    tokens = words.replace(",", " ").split()
    place = 0
    while place < len(tokens):
        word = tokens[place]
        here, pair = _canonical(word), _canonical(" ".join(tokens[place : place + 2]))
        if grams := re.fullmatch(rf"{_NUMBER} ?{_GRAMS}", here) or re.fullmatch(rf"{_NUMBER} {_GRAMS}", pair):
            mass = _given(float(grams["n"]), "g")
            place += 1 if re.fullmatch(rf"{_NUMBER} ?{_GRAMS}", here) else 2
        elif part == "grip" and (more := re.fullmatch(rf"{_NUMBER} (?:extra )?(?:wraps?|layers?)", pair)):
            wraps = float(more["n"])
            place += 2
        elif part == "head" and (stamp := re.fullmatch(rf"{_NUMBER} {_DEGREES}", here)):
            loft = _given(float(stamp["n"]), "deg")
            place += 1
        elif part == "shaft" and name and _FLEX.fullmatch(word):
            flex = word.upper()
            place += 1
        else:
            name.append(word)
            place += 1
    called = " ".join(name) or None
    if part == "shaft":
        return {"what": "shaft", "shaft": Shaft(name=called, flex=flex, mass=mass)}
    if part == "grip":
        return {"what": "grip", "grip": Grip(name=called, mass=mass, wraps=wraps)}
    return {"what": "head", "head": Head(name=called, loft=loft, mass=mass)}


def _sleeve(words: str) -> dict[str, Any]:
    plain = _canonical(words)
    ways = "|".join(_SLEEVE_WAYS)
    found: dict[str, Figure] = {}
    for match in re.finditer(rf"{_NUMBER} ?{_DEGREES}? ?({ways})(?: and ({ways}))?\b", plain):
        for way in (word for word in match.groups()[1:] if word):
            about, sign = _SLEEVE_WAYS[way]
            found[about] = _given(sign * abs(float(match["n"])), "deg")
    if found:
        return {"what": "sleeve", "sleeve": Sleeve(loft_change=found.get("loft"), lie_change=found.get("lie"))}
    return {"what": "sleeve", "sleeve": Sleeve(position=words.strip())}


_PLACES = "toe|heel|front|back|neutral|draw|fade"
_WEIGHT = re.compile(
    rf"(?P<before>\d+(?:\.\d+)?) ?{_GRAMS} (?:(?:at|in|to) )?(?:the )?(?P<place>{_PLACES})"
    rf"|(?:the )?(?P<first>{_PLACES})(?: (?P<after>\d+(?:\.\d+)?) ?{_GRAMS})?"
)


def _weights(plain: str) -> dict[str, Any] | None:
    bare = re.sub(r"^(?:move )?(?:the )?weights? ?(?:to |:)?", "", plain)
    found = []
    rest = bare
    for match in _WEIGHT.finditer(bare):
        mass = match["before"] or match["after"]
        found.append(Weight(place=match["place"] or match["first"], mass=_given(float(mass), "g") if mass else None))  # type: ignore[arg-type]
        rest = rest.replace(match[0], "", 1)
    if not found or re.sub(r"[\s,;/]|and", "", rest):
        return None
    return {"what": "weights", "weights": tuple(found)}


_MOVED = re.compile(
    rf"(?:move )?{_NUMBER} ?{_GRAMS} (?:from )?(?:the )?(?P<origin>{_PLACES}) to (?:the )?(?P<goal>{_PLACES})"
)


_STEPS = re.compile(
    r"(?:turn )?(?:the )?sleeve (?P<n>[+-]?\d+) (?:positions?|settings?|notch(?:es)?|clicks?|steps?) (?P<way>up|down)"
)


def _turned(name: str, words: re.Match[str], golf_set: GolfSet, parts: Sequence[Part], shown: str) -> Change:
    """A sleeve turned by positions of its chart, from where it is."""
    from asplayed.catalogue.matching import Catalogue
    from asplayed.catalogue.sleeves import turned

    club = golf_set.clubs[_place(name, golf_set, labels(golf_set.clubs))]
    steps = abs(int(words["n"])) * (1 if words["way"] == "up" else -1)
    return Change(club=name, what="sleeve", sleeve=turned(club, steps, Catalogue(parts)), text=shown)


def _moved(name: str, words: re.Match[str], golf_set: GolfSet, shown: str) -> Change:
    """Mass moved from one place of a head to another; what the club's record says sits there is reckoned with."""
    grams, origin, goal = float(words["n"]), words["origin"], words["goal"]
    club = golf_set.clubs[_place(name, golf_set, labels(golf_set.clubs))]
    known = [(weight.place, weight.mass) for weight in club.weights]
    masses: dict[str, float] = {place: mass.in_unit("g").number for place, mass in known if place and mass}
    if masses.get(origin, grams) < grams - 1e-9:
        raise BadInput(f"the change {shown!r}: only {masses[origin]:g} g sit at the {origin} of the {club.club}")
    masses[origin] = masses.get(origin, grams) - grams
    masses[goal] = masses.get(goal, 0.0) + grams
    weights = tuple(Weight(place=place, mass=_given(mass, "g")) for place, mass in masses.items() if mass > 1e-9)  # type: ignore[arg-type]
    return Change(club=name, what="weights", weights=weights, text=shown)


def _bend(plain: str) -> dict[str, Any] | None:
    ways = "|".join(_WAYS)
    by = re.fullmatch(
        rf"(?:bend|bent)? ?(?:the )?(?:loft|lie)? ?(?:by )?{_NUMBER} ?{_DEGREES}? ?(?P<way>{ways})", plain
    )
    by = by or re.fullmatch(rf"(?:bend|bent)? ?(?:loft|lie)? ?(?P<way>{ways}) (?:by )?{_NUMBER} ?{_DEGREES}?", plain)
    if by:
        what, sign = _WAYS[by["way"]]
        return {"what": what, "by": True, "figure": _given(sign * abs(float(by["n"])), "deg")}
    to = re.fullmatch(rf"(?:bend|bent)? ?(?:the )?(?P<what>loft|lie) ?(?:to|=|at|by)? ?{_NUMBER} ?{_DEGREES}?", plain)
    to = to or re.fullmatch(rf"(?:bend|bent) (?P<what>)(?:to|at) {_NUMBER} ?{_DEGREES}?", plain)
    if to:
        by_amount = to["n"][0] in "+-" or " by " in plain
        return {"what": to["what"] or "loft", "by": by_amount, "figure": _given(float(to["n"]), "deg")}
    return None


def _length(plain: str) -> dict[str, Any] | None:
    ways = "|".join(_LONGER)
    by = re.fullmatch(rf"(?:length )?(?:an? )?{_NUMBER} ?(?:an )?{_INCHES}? ?(?P<way>{ways})", plain)
    if by:
        return {"what": "length", "by": True, "figure": _in(_LONGER[by["way"]] * abs(float(by["n"])), by["unit"])}
    by = re.fullmatch(rf"(?P<way>lengthen|extend|shorten|cut)(?: by)? {_NUMBER} ?(?:an )?{_INCHES}?", plain)
    if by:
        sign = -1 if by["way"] in ("shorten", "cut") else 1
        return {"what": "length", "by": True, "figure": _in(sign * abs(float(by["n"])), by["unit"])}
    to = re.fullmatch(rf"(?:length|cut to|build to|built to) ?(?:to|=|at)? ?{_NUMBER} ?{_INCHES}?", plain)
    to = to or re.fullmatch(rf"{_NUMBER} ?{_INCHES}", plain) or re.fullmatch(rf"{_NUMBER}(?P<unit>)", plain)
    if to is None or (plain == to["n"] and not 30 <= float(to["n"]) <= 50):
        return None  # a bare number is a length only where it can be nothing else
    return {"what": "length", "by": to["n"][0] in "+-", "figure": _in(float(to["n"]), to["unit"])}


def _in(value: float, unit: str | None) -> Figure:
    known = find_unit(unit) if unit else None
    return _given(value, known.name if known else "in").in_unit("in")


def _mass(plain: str) -> dict[str, Any] | None:
    add = re.fullmatch(
        rf"(?:add )?{_NUMBER} ?{_GRAMS} (?:at|in|to|on|under)? ?(?:the )?(?P<place>tip|butt|head)(?: end)?", plain
    )
    if add:
        return {"what": "added mass", "by": True, "place": add["place"], "figure": _given(float(add["n"]), "g")}
    to = re.fullmatch(rf"(?P<place>tip|butt|head) (?:mass|weight) ?(?:to|=)? ?{_NUMBER} ?{_GRAMS}?", plain)
    if to:
        by = to["n"][0] in "+-"
        return {"what": "added mass", "by": by, "place": to["place"], "figure": _given(float(to["n"]), "g")}
    counter = re.fullmatch(rf"counter ?-? ?weight ?(?:of )?{_NUMBER} ?{_GRAMS}?", plain)
    if counter:
        return {"what": "added mass", "place": "butt", "figure": _given(float(counter["n"]), "g")}
    return None


def _balance(plain: str) -> dict[str, Any] | None:
    match = re.fullmatch(
        r"(?:swing ?-? ?weight|balance|sw)? ?(?:to|=)? ?(?P<text>[a-h] ?\d{1,2}(?:\.\d{1,2})?)"
        r"(?: (?:at|in|with mass at|by) (?:the )?(?P<place>head|tip|butt))?",
        plain,
    )
    if match:
        text = match["text"].replace(" ", "").upper()
        return {
            "what": "swing weight",
            "figure": Figure(value=text, unit="1", source=Source.STATED),
            "place": match["place"],
        }
    match = re.fullmatch(
        rf"(?:butt )?(?:inertia|moi) ?(?:to|=|of)? ?{_NUMBER} ?(?:kg ?[·*]? ?cm ?(?:²|\^ ?2|2)?)?"
        r"(?: (?:at|in) (?:the )?(?P<place>head|tip))?",
        plain,
    )
    if match:
        return {"what": "butt inertia", "figure": _given(float(match["n"]), "kg*cm2"), "place": match["place"]}
    return None


def _trim(plain: str) -> dict[str, Any] | None:
    match = re.fullmatch(rf"tip ?-? ?trim ?(?:to|=)? ?{_NUMBER} ?(?:an )?{_INCHES}?", plain)
    if match is None:
        return None
    return {"what": "tip trim", "by": match["n"][0] in "+-", "figure": _in(float(match["n"]), match["unit"])}


def _wraps(plain: str) -> dict[str, Any] | None:
    match = re.fullmatch(rf"{_NUMBER} (?:extra )?(?:wraps?|layers?)(?: of tape)?", plain)
    return None if match is None else {"what": "grip", "grip": Grip(wraps=float(match["n"]))}


def _drop(plain: str) -> dict[str, Any] | None:
    return {"what": "drop"} if plain in ("drop", "remove", "leave out", "out", "take out") else None


_READERS: tuple[Callable[[str], dict[str, Any] | None], ...] = (
    _bend, _length, _mass, _balance, _trim, _wraps, _drop,
)  # fmt: skip
