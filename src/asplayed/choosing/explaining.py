"""Why a set was chosen, in words a fitter would sign: what each change does, replaces and costs, and how sure it is.

Every sentence is made from figures of the answer. Of each kind there are several, taken in turn, so that fourteen
clubs do not read as one sentence told fourteen times.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from asplayed.choosing.candidates import Candidate
from asplayed.choosing.choice_model import Choice
from asplayed.choosing.demand import Situation
from asplayed.choosing.sureness import Sure
from asplayed.players.versions import Hands, Patterns

Numbers = NDArray[np.float64]

YARD = 0.9144
_TOLD = 0.005  # strokes a round: less is not worth a sentence
_NEAR = 60.0 * YARD  # m: up to here a shot is a pitch or chip
_LIES = {"tee": "from the tee", "fairway": "from the fairway", "rough": "from the rough", "sand": "from sand"}


class Told(NamedTuple):
    """What there is to tell of: candidates as flown, the set before and after by places among them, shot by shot.

    `before` and `after` are strokes a round in each situation with today's set and the chosen one; `served` says which
    situations each chosen club plays, `worth` what it is worth (strokes a round).
    """

    hands: Hands
    entries: Sequence[Candidate]
    flown: Patterns
    situations: Sequence[Situation]
    before: Numbers
    after: Numbers
    today: tuple[int, ...]
    chosen: tuple[int, ...]
    labels: Mapping[int, str]
    dropped: tuple[str, ...]
    served: Mapping[int, Sequence[int]]
    worth: Mapping[int, float]

    def yards(self, place: int) -> float:
        """The carry of a candidate, yd."""
        return float(self.flown.carry[place]) / YARD

    def replaces(self) -> dict[int, str]:
        """Which of today's clubs each new one takes the place of: the one left at home whose carry is nearest."""
        carries = {each: self.yards(place) for place in self.today if (each := self.entries[place].label) is not None}
        free = [name for name in self.dropped if name in carries]
        new = [place for place in self.chosen if self.entries[place].label is None]
        pairs = sorted((abs(self.yards(place) - carries[name]), place, name) for place in new for name in free)
        found: dict[int, str] = {}
        for _, place, name in pairs:
            if place not in found and name not in found.values():
                found[place] = name
        return found


def served_words(situations: Sequence[Situation]) -> str | None:
    """The shots that a club plays, in words: drives, approaches with their distances, pitches.

    >>> served_words([Situation("fairway", 100.0, 1.0), Situation("rough", 120.0, 1.0), Situation("sand", 10.0, 1.0)])
    'approaches from 109 to 131 yd, short shots'
    """
    if not situations:
        return None
    told = []
    tees = [each.distance / YARD for each in situations if each.lie == "tee"]
    far = [each.distance / YARD for each in situations if each.lie != "tee" and each.distance > _NEAR]
    if tees:
        long = [yards for yards in tees if yards > 260]
        short = [yards for yards in tees if yards <= 260]
        told += ["drives"] if long else []
        told += [f"tee shots of {_range(short)} yd"] if short else []
    if far:
        told.append(f"approaches from {_range(far)} yd")
    if any(each.distance <= _NEAR and each.lie != "tee" for each in situations):
        told.append("short shots")
    return ", ".join(told)


def _range(values: Sequence[float]) -> str:
    low, high = round(min(values)), round(max(values))
    return f"{low}" if high - low < 1 else f"{low} to {high}"


class _Turns:
    """Ways of saying one thing, taken in turn."""

    def __init__(self) -> None:
        self.taken: dict[str, int] = {}

    def say(self, kind: str, **values: Any) -> str:
        ways = _WAYS[kind]
        number = self.taken.get(kind, 0)
        self.taken[kind] = number + 1
        return ways[number % len(ways)].format(**values)


_WAYS: dict[str, tuple[str, ...]] = {
    "shorter": (
        "It then carries {now} yd, {by} shorter than today",
        "That takes {by} yd off its carry, to {now}",
        "Its carry comes down from {was} to {now} yd",
    ),
    "longer": (
        "It then carries {now} yd, {by} longer than today",
        "That adds {by} yd of carry, to {now}",
        "Its carry goes up from {was} to {now} yd",
    ),
    "same": (
        "Its carry stays at {now} yd",
        "It goes as far as before, {now} yd",
    ),
    "gaps": (
        ", which leaves {above} to the {longer} and {below} to the {shorter}",
        "; the {longer} is then {above} away and the {shorter} {below}",
        ", so the steps beside it are {above} ({longer}) and {below} ({shorter})",
    ),
    "gap_below": (", {below} above the {shorter}", " and stands {below} before the {shorter}"),
    "gap_above": (", {above} below the {longer}", " and stands {above} behind the {longer}"),
    "descends": (
        "It comes down at {now}° instead of {was}°",
        "The ball lands at {now}°, where it was {was}°",
    ),
    "comes_in": (
        "The {name} comes in for the {old}: {now} yd of carry where {was} were",
        "In the place of the {old} goes the {name}, which carries {now} yd (the {old} {was})",
        "The {name}, at {now} yd, does more than the {old} at {was} yd",
    ),
    "comes_new": (
        "The {name} comes in: nothing carried {now} yd",
        "A place was free for the {name}, which carries {now} yd",
    ),
    "brings": (
        "Where it plays, a round costs {saves} strokes less.",
        "On its shots that is {saves} strokes a round.",
        "It gains {saves} strokes on the shots that fall to it.",
    ),
    "worth": (
        "Without it the best set would cost {worth} strokes more.",
        "Left at home, it would be missed by {worth} strokes a round.",
        "The bag would be {worth} strokes worse for want of it.",
    ),
    "stays": (
        "It stays as it is and plays {serves}; without it a round costs {worth} strokes more.",
        "Nothing tried served better than leaving it: {serves}, worth {worth} strokes a round.",
        "As it is, it is worth {worth} strokes a round ({serves}).",
        "Left alone. It has {serves} to play, and {worth} strokes a round hang on it.",
    ),
    "idle": (
        "It stays and costs nothing; of the shots reckoned with none is better played with it than with another.",
        "None of the shots reckoned with needs its {carry}; it fills a place that nothing else used better.",
        "There is room for it, and its {carry} may be wanted in a wind or a lie that was not reckoned with.",
        "What it does, others do as well for these shots; nothing is won by leaving its {carry} at home.",
    ),
    "home": (
        "The {name} stays at home: {others} now does its work.",
        "Nothing is left for the {name} that {others} does not do as well.",
        "The {name} makes room; its shots fall to {others}.",
    ),
}  # fmt: skip


def explain(
    told: Told, saved: float, sure: Sure | None, choice: Choice, front: Sequence[Any], many: int
) -> tuple[tuple[str, ...], dict[int, str]]:
    """The answer as sentences, and the reason of every chosen club by its place."""
    turns = _Turns()
    replaces = told.replaces()
    today = {told.entries[place].label: place for place in told.today}
    order = sorted(told.chosen, key=lambda place: -told.yards(place))
    reasons = {place: _why(told, turns, place, today, replaces, order) for place in order}
    changed = [place for place in order if told.entries[place].words]
    words = [_opening(saved, changed, told)]
    words += [f"{_heading(told, place)} {reasons[place]}" for place in changed]
    words += _left_at_home(told, turns, replaces, order)
    kept = [told.labels[place] for place in order if not told.entries[place].words]
    if kept and changed:
        words.append(f"The rest stay as they are: {_listed(kept)}.")
    words += _given_up(told, saved)
    words += _sure_words(sure)
    words.append(_proof_words(choice, many))
    words += _front_words(front, len([each for place in changed for each in told.entries[place].words]))
    return tuple(words), reasons


def _opening(saved: float, changed: Sequence[int], told: Told) -> str:
    if not changed and not told.dropped:
        return "Nothing tried is worth a change: today's set is the best there is among them."
    many = sum(len(told.entries[place].words) for place in changed)
    what = "One change saves" if many == 1 else f"{_number(many)} changes save" if many else "Leaving clubs out saves"
    return f"{what} {saved:.2f} strokes a round on the shots this player is asked for."


def _heading(told: Told, place: int) -> str:
    """What is done to the club, as it would be said at the bench."""
    entry = told.entries[place]
    if entry.label is None:
        return f"New {told.labels[place]} ({entry.parts}):"
    done = [words.partition(": ")[2] for words in entry.words]
    return f"{told.labels[place].capitalize()}, {_listed(done)}:"


def _why(
    told: Told,
    turns: _Turns,
    place: int,
    today: Mapping[str | None, int],
    replaces: Mapping[int, str],
    order: Sequence[int],
) -> str:
    entry = told.entries[place]
    shots = list(told.served[place])
    worth = told.worth.get(place)
    if not entry.words:
        serves = served_words([told.situations[shot] for shot in shots])
        if serves is None or worth is None:
            carry = f"{float(told.flown.carry[place]) / YARD:.0f} yd"
            return turns.say("idle", carry=carry) if serves is None else "It must be in the bag."
        return turns.say("stays", serves=serves, worth=_strokes(worth))
    said = [_what_it_does(told, turns, place, today, replaces) + _beside(told, turns, place, order) + "."]
    if entry.label is not None:
        was, now = (float(told.flown.descent[each]) * 180 / np.pi for each in (today[entry.label], place))
        if abs(now - was) >= 1.0:
            said.append(turns.say("descends", now=f"{now:.0f}", was=f"{was:.0f}") + ".")
    saves = float((told.before[shots] - told.after[shots]).sum()) if shots else 0.0
    if saves >= _TOLD:
        said.append(turns.say("brings", saves=_strokes(saves)))
    if worth is not None and worth >= _TOLD:
        said.append(turns.say("worth", worth=_strokes(worth)))
    return " ".join(said)


def _what_it_does(
    told: Told, turns: _Turns, place: int, today: Mapping[str | None, int], replaces: Mapping[int, str]
) -> str:
    entry, now = told.entries[place], told.yards(place)
    if entry.label is None:
        if place in replaces:
            old = replaces[place]
            return turns.say(
                "comes_in", name=told.labels[place], old=old, now=f"{now:.0f}", was=f"{told.yards(today[old]):.0f}"
            )
        return turns.say("comes_new", name=told.labels[place], now=f"{now:.0f}")
    was = told.yards(today[entry.label])
    by = abs(now - was)
    kind = "same" if by < 0.5 else "shorter" if now < was else "longer"
    return turns.say(kind, now=f"{now:.0f}", was=f"{was:.0f}", by=f"{by:.0f}" if by >= 0.95 else f"{by:.1f}")


def _beside(told: Told, turns: _Turns, place: int, order: Sequence[int]) -> str:
    """The steps to the clubs above and below it in the chosen set."""
    at = list(order).index(place)
    above, below = order[at - 1] if at else None, order[at + 1] if at + 1 < len(order) else None
    values: dict[str, str] = {}
    if above is not None:
        values |= {"longer": told.labels[above], "above": f"{told.yards(above) - told.yards(place):.0f} yd"}
    if below is not None:
        values |= {"shorter": told.labels[below], "below": f"{told.yards(place) - told.yards(below):.0f} yd"}
    if not values:
        return ""
    return turns.say("gaps" if len(values) == 4 else "gap_below" if below is not None else "gap_above", **values)


def _left_at_home(told: Told, turns: _Turns, replaces: Mapping[int, str], order: Sequence[int]) -> list[str]:
    """Today's clubs that nothing takes the place of, and who does their work."""
    carries = {told.entries[place].label: told.yards(place) for place in told.today}
    found = []
    for name in told.dropped:
        if name in replaces.values():
            continue
        if name not in carries:
            found.append(f"The {name} stays at home: a set has one putter.")
            continue
        near = sorted(order, key=lambda place: abs(told.yards(place) - carries[name]))[:1]
        found.append(turns.say("home", name=name, others=f"the {told.labels[near[0]]}"))
    return found


def _given_up(told: Told, saved: float) -> list[str]:
    """The shots that cost more than they do today, the dearest first."""
    lost = told.after - told.before
    found: dict[tuple[str, int], float] = {}
    for place, each in enumerate(told.situations):
        if lost[place] > 0:
            band = round(each.distance / YARD / 20) * 20
            found[each.lie, band] = found.get((each.lie, band), 0.0) + float(lost[place])
    worst = sorted(((cost, key) for key, cost in found.items() if cost >= _TOLD), reverse=True)[:2]
    if not worst:
        return ["No kind of shot is given up for it."] if saved >= _TOLD else []
    said = _listed([f"{_LIES[lie]} at about {band} yd ({_strokes(cost)} a round)" for cost, (lie, band) in worst])
    return [f"What is given up: a little {said}."]


def _sure_words(sure: Sure | None) -> list[str]:
    if sure is None:
        return []
    low, high = sure.saved.low or 0.0, sure.saved.high or 0.0
    band = f"{low:.2f} to {high:.2f}".replace("-", "−")
    share = sure.better.number
    doubt = (
        "that is as sure as these figures allow" if share >= 95
        else "it is likely, and a session of shots would make it surer" if share >= 75
        else "that is little more than a guess: bring shots before anything is cut or bent"
    )  # fmt: skip
    return [
        f"It is better in {share:.0f} % of the worlds we believe in, "
        f"saving {band} strokes a round in nine of ten; {doubt}."
    ]


def _proof_words(choice: Choice, many: int) -> str:
    if choice.optimal:
        return f"Among {many:,} candidates no set within the limits does better: that is proven, not searched for."
    stopped = "The search was stopped" if choice.stopped else "Time ran out"
    return f"{stopped}: among {many:,} candidates some set may be up to {choice.gap:.3f} strokes a round better."


def _front_words(front: Sequence[Any], taken: int) -> list[str]:
    """How much of it the first changes bring."""
    points = [(int(each.limit.number), each.saved.number) for each in front if each.limit.number]
    if len(points) < 3 or taken < 3:
        return []
    one = points[0]
    half = next((each for each in points if each[1] >= 0.5 * max(saved for _, saved in points)), one)
    said = f"Taken alone, {_number(one[0]).lower()} change would save {one[1]:.2f} strokes"
    if half[0] > one[0]:
        said += f", and {_number(half[0]).lower()} would already save {half[1]:.2f}"
    return [said + "."]


_NUMBERS = ("No", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve")


def _number(count: int) -> str:
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def _strokes(value: float) -> str:
    return f"{value:.2f}" if value >= 0.095 else f"{value:.3f}"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
