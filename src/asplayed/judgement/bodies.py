"""Clubs against their player: speed, build, hand, stroke, attack and ground."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from asplayed.clubs.records import Club, GolfSet
from asplayed.clubs.usual import usual
from asplayed.judgement.findings import Finding, degrees, graded, inches, limit, table, weigh
from asplayed.judgement.gaps import number_of
from asplayed.quantities import Figure, Source, figure

if TYPE_CHECKING:
    from asplayed.players.flown import FlownSet
    from asplayed.players.records import Player

_FLEXES = ("L", "A", "R", "S", "X", "TX")
_WEAK = (Source.COMMON_PRACTICE, Source.ASSUMED)


def judge_player(golf_set: GolfSet, answer: FlownSet) -> list[Finding]:
    """Findings about fit: `flex-against-speed`, `length-against-build`, `grip-against-hand`, `toe-hang-against-arc`,
    `soles-against-turf`."""
    clubs, player = golf_set.clubs, answer.player
    return (
        _flex(clubs, answer)
        + _length(clubs, player)
        + _grips(clubs, player)
        + _stroke(clubs, player)
        + _soles(clubs, answer)
    )


def _flex(clubs: Sequence[Club], answer: FlownSet) -> list[Finding]:
    speed = answer.skill.driver_speed
    if speed.source in _WEAK:
        return []
    entry = table()["flex_speed"]
    fits = sum(speed.in_unit("mph").number >= step for step in entry["steps"])
    found: list[Finding] = []
    for club in clubs:
        letter = (club.shaft.flex or "").strip().upper().rstrip("+-")
        if club.kind != "driver" or letter not in _FLEXES:
            continue
        built = _FLEXES.index(letter)
        if min(built, 4) - fits in (-1, 0, 1):
            continue
        found += graded(
            "unusual",
            code="flex-against-speed",
            clubs=(club,),
            sentence=(
                f"At {speed.in_unit('mph').number:.0f} mph the {club.club}'s shaft is of flex {letter}; "
                f"{_FLEXES[fits]} is usual for that speed."
            ),
            why="A shaft far from the speed leads or lags where the player does not expect it: launch and face vary.",
            remedy="Measure its frequency, since letters differ by maker, then hit it beside one a step or two nearer.",
            figures={"driver_speed": speed},
            source=entry["source"],
        )
    return found


def _length(clubs: Sequence[Club], player: Player) -> list[Finding]:
    wrist = player.wrist_to_floor
    irons = [
        (club, club.as_played.length, common)
        for club in clubs
        if number_of(club) is not None
        and club.as_played.length is not None
        and club.as_played.length.source is not Source.COMMON_PRACTICE
        and (common := usual(club, "length")) is not None
    ]
    if wrist is None or len(irons) < 3:
        return []
    bound = limit("length_for_build")
    longer = sum(
        length.in_unit("in").number - common.number for _, length, common in irons if length is not None
    ) / len(irons)
    wanted = (wrist.in_unit("in").number - 34.0) / 1.75 * 0.5
    off = figure(longer - wanted, "in", Source.COMPUTED, why="irons against the usual, less what the build asks for")
    weighed = weigh(off, bound)
    if weighed is None:
        return []
    size = Figure(value=abs(off.number), unit="in", source=off.source)
    return graded(
        "unusual",
        code="length-against-build",
        clubs=[club for club, _, _ in irons],
        sentence=(
            f"With {inches(wrist)} from wrist to floor the irons are about {inches(size)} "
            f"{'longer' if off.number > 0 else 'shorter'} than is usual."
        ),
        why="Length sets the posture; the wrong one is paid for with strikes off the middle.",
        remedy="Look at the strikes first; half an inch of length asks for about 1° of lie and 7 g of head.",
        figures={"wrist_to_floor": wrist, "off": off},
        source=bound.source,
    )


def _grips(clubs: Sequence[Club], player: Player) -> list[Finding]:
    hand = player.hand_size
    if hand is None:
        return []
    entry, bound = table()["grip_sizes"], limit("grip_for_hand")
    at = hand.in_unit("in").number
    hands, sizes = entry["hands"], entry["sizes"]
    wanted = sizes[0] if at <= hands[0] else sizes[-1]
    for i in range(1, len(hands)):
        if hands[i - 1] < at <= hands[i]:
            wanted = sizes[i - 1] + (sizes[i] - sizes[i - 1]) * (at - hands[i - 1]) / (hands[i] - hands[i - 1])
    odd = []
    for club in clubs:
        size = club.as_played.grip_size
        if club.kind == "putter" or club.grip is None or size is None:
            continue
        off = size.in_unit("in").number - wanted
        if not bound.low <= off <= bound.high:
            odd.append((club, size, off))
    if not odd:
        return []
    club, size, off = odd[0]
    return graded(
        "unusual",
        code="grip-against-hand",
        clubs=[c for c, _, _ in odd],
        sentence=(
            f"For a hand of {inches(hand)} a grip of about {wanted:.3f} in is usual; the {club.club} has "
            f"{size.in_unit('in').number:.3f} in."
        ),
        why=f"A grip too {'thick slows' if off > 0 else 'thin hurries'} the hands as the face closes.",
        remedy="Change the layers of tape, about 1/64 in each, or the size of grip, and let the player feel both.",
        figures={"hand_size": hand, "grip_size": size},
        source=entry["source"],
    )


def _stroke(clubs: Sequence[Club], player: Player) -> list[Finding]:
    arc = player.stroke_arc
    if arc is None:
        return []
    bound = limit("stroke_arc")
    turned = arc.in_unit("deg").number
    stroke = 0 if turned < bound.low else 1 if turned <= bound.high else 2
    words = ("straight-back", "moderate", "strong")
    found: list[Finding] = []
    for club in clubs:
        hang = club.as_played.toe_hang
        if club.kind != "putter" or hang is None:
            continue
        edges = (limit("toe_hang.straight").high, limit("toe_hang.moderate").high)

        def suits(value: float, edges: tuple[float, float] = edges) -> int:
            return 0 if value < edges[0] else 1 if value <= edges[1] else 2

        here = suits(hang.number)
        if here == stroke:
            continue
        ends = [hang.number if end is None else end for end in (hang.low, hang.high)]
        found += graded(
            "unusual",
            code="toe-hang-against-arc",
            clubs=(club,),
            sentence=(
                f"The stroke turns the face {degrees(arc, 0)}, a {words[stroke]} arc; the putter's toe hang of "
                f"{degrees(hang, 0)} suits a {words[here]} one."
            ),
            why="A toe that hangs against the stroke is held open or flipped shut under pressure.",
            remedy="Try another neck before another head.",
            figures={"stroke_arc": arc, "toe_hang": hang},
            source=f"{limit('toe_hang.straight').source}; {bound.source}",
            sure=all(suits(end) != stroke for end in ends),
        )
    return found


def _soles(clubs: Sequence[Club], answer: FlownSet) -> list[Finding]:
    """The high wedges' soles against how steeply they are swung and on what ground."""
    wedges = [
        (club, club.as_played.bounce)
        for club in clubs
        if club.club in ("sand wedge", "lob wedge") and club.as_played.bounce is not None
    ]
    if not wedges:
        return []
    known = [
        each.attack
        for each in answer.clubs
        if each.club in ("sand wedge", "lob wedge", "gap wedge")
        and (each.shots or any(said.kind == "wedge" and said.attack for said in answer.player.delivery))
    ]
    bound = limit("wedge_attack")
    digging = {"soft": 1, "firm": -1}.get(answer.place.conditions.ground or "", 0)
    figures: dict[str, Figure] = {}
    if known:
        attack = min(known, key=lambda entry: entry.number)
        weighed = weigh(attack, bound)
        if weighed is not None and weighed.sure:
            digging += 1 if weighed.side == "under" else -1
            figures["attack"] = attack
    if digging == 0:
        return []
    name = "bounce_when_digging" if digging > 0 else "bounce_when_shallow"
    picked = (max if digging > 0 else min)(wedges, key=lambda pair: pair[1].number if pair[1] else 0.0)
    bounce = picked[1]
    assert bounce is not None  # wedges without a bounce were left out
    weighed = weigh(bounce, limit(name))
    if weighed is None:
        return []
    what = "soft ground or a steep attack" if digging > 0 else "firm ground or a shallow attack"
    return graded(
        "unusual",
        code="soles-against-turf",
        clubs=[club for club, _ in wedges],
        sentence=(
            f"For {what} the {'fullest' if digging > 0 else 'leanest'} sole of the high wedges has "
            f"{degrees(bounce)} of bounce as played."
        ),
        why=(
            "Without bounce the leading edge digs."
            if digging > 0
            else "With so much sole the leading edge is bounced into the ball."
        ),
        remedy=(
            "Give one high wedge 10° of bounce or more, or a wide sole."
            if digging > 0
            else "Give one high wedge 4 to 8° of bounce, or heel and toe relief."
        ),
        figures={"bounce": bounce, **figures},
        source=limit(name).source,
        sure=weighed.sure,
    )
