"""From what was said to records: names of clubs, order, ranges, settings, questions."""

from __future__ import annotations

import re
from collections.abc import Mapping
from operator import attrgetter
from typing import Any

import msgspec

from asplayed.clubs import (
    AsPlayed,
    Ball,
    Bend,
    Club,
    GolfSet,
    Grip,
    Head,
    Passage,
    PutterParts,
    Question,
    SetFacts,
    Shaft,
    Sleeve,
    Stated,
    Weight,
)
from asplayed.errors import Refused
from asplayed.intake.accounting import unplaced
from asplayed.intake.bare import limits
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.kept_behind import leave_out_kept_behind
from asplayed.intake.making import number_by_loft, wedge_name
from asplayed.intake.only_named import ask_for_only_named
from asplayed.intake.reach import give_to_everyone, whose
from asplayed.intake.scene import Doubt, Note, Scene
from asplayed.intake.unlikely import ask_for_unlikely
from asplayed.quantities import Figure, Source

_LENGTH_RANK = {"driver": 45.5, "mini driver": 43.75, "putter": 0.0, "chipper": 34.0}
_WEDGE_RANK = {"pitching wedge": 35.7, "gap wedge": 35.5, "sand wedge": 35.25, "lob wedge": 35.0, "chipper": 34.0}


def club_name(draft: Draft) -> str:
    """The trade's name of the club, by its number, its words or its stamp."""
    loft = draft.value("head.loft")
    if draft.family in ("driver", "putter"):
        return draft.name or draft.family
    if draft.family == "wedge" or draft.name:
        return draft.name or (wedge_name(loft) if loft is not None else "wedge")
    word = {"wood": "wood", "hybrid": "hybrid", "diron": "driving iron", "iron": "iron"}[draft.family]
    number = draft.number
    if number is None and loft is not None:
        number = number_by_loft(draft.family, loft)
    return f"{number} {word}" if number else word


def distribute(scene: Scene) -> None:
    """Facts said under a header go to the clubs named under it, or to the family when none was."""
    for header in scene.headers:
        members = [draft for draft in scene.drafts if draft.header is header and draft.name != "chipper"]
        if not members:
            members = [
                draft
                for draft in scene.drafts
                if draft.family == header.family or (header.family == "iron" and draft.in_range)
            ]
            if header.word == "woods" and "shaft.name" in header.facts:
                # "Woods: Ostrane 60 S" below a driver that has no shaft
                members += [draft for draft in scene.drafts if draft.family == "driver" and not draft.has("shaft.name")]
        if _one_more(header, members):
            scene.drafts.append(header)
            continue
        model = header.facts.get("head.name")
        for draft in members:
            own = draft.facts.get("head.name")
            if draft.family == "wedge" and header.family == "iron" and own and model and own.value != model.value:
                draft.header = None
                continue
            for path, entry in header.facts.items():
                if path not in draft.facts:
                    draft.facts[path] = entry._replace(group=1)
                    draft.lines.add(entry.line)
            draft.header = None
        if not members and _club_itself(header):
            scene.drafts.append(header)
            continue
        if not members and (header.facts or header.lines):
            line = min(header.lines)
            told = scene.source.lines[line - 1].strip()
            scene.doubts.append(Doubt(line, None, "club", f"“{told}”: which {_plural(header.family)} are in the set?"))


def _one_more(header: Draft, members: list[Draft]) -> bool:
    """True for a family's word that heads no clubs and has a loft that none of the family has: it is one itself."""
    lofts = [draft.value("head.loft") for draft in members]
    own = header.value("head.loft")
    return own is not None and bool(lofts) and None not in lofts and own not in lofts and not header.word.endswith("s")


def _club_itself(header: Draft) -> bool:
    """True for a heading that no club followed and that has a loft of its own: "hybrid:", and below it "loft: 19"."""
    single = header.family in ("hybrid", "diron", "wood") and not header.word.endswith("s")
    return single and header.value("head.loft") is not None


def _plural(family: str) -> str:
    return {"wood": "fairway woods", "diron": "driving irons"}.get(family, f"{family}s")


def spread_masses(scene: Scene) -> None:
    """A range of masses over a set of irons: even steps when ascending, ends only when not."""
    groups: dict[tuple[float | None, float | None, int], list[Draft]] = {}
    for draft in scene.drafts:
        entry = draft.facts.get("shaft.mass_range")
        if entry is not None:
            groups.setdefault((entry.low, entry.high, entry.line), []).append(draft)
    for (low, high, line), drafts in groups.items():
        assert low is not None and high is not None
        drafts.sort(key=rank)
        ascending = any(draft.facts.get("shaft.ascending") and draft.facts["shaft.ascending"].value for draft in drafts)
        for index, draft in enumerate(drafts):
            entry = draft.facts.pop("shaft.mass_range")
            if draft.has("shaft.mass"):
                continue
            last = len(drafts) - 1
            if ascending and last:
                value = round(low + (high - low) * index / last, 4)
                draft.facts["shaft.mass"] = Entry(
                    value, "g", line, entry.text, low=low, high=high, source="computed",
                    why=f"{low:g}–{high:g} g spread evenly over {len(drafts)} clubs", group=1,
                )  # fmt: skip
            elif index in (0, last) and last:
                draft.facts["shaft.mass"] = Entry(low if index == 0 else high, "g", line, entry.text, group=1)
            else:
                draft.facts["shaft.mass"] = Entry(None, "g", line, entry.text, low=low, high=high, group=1)
        if ascending:
            scene.doubts.append(
                Doubt(line, drafts[0], "shaft.mass", f"the shafts' mass by club between {low:g} and {high:g} g")
            )


def settle_targets(draft: Draft) -> None:
    """ "Bent to 57", "turned down to 9": the change that makes the stamp the loft it is played at."""
    target = draft.facts.pop("target.loft", None)
    if target is None or not isinstance(target.value, int | float):
        return
    stamp = draft.value("head.loft")
    if stamp is None:
        draft.facts["as_played.loft"] = target
        return
    path = "sleeve.loft_change" if draft.adjustable else "bend.loft"
    change = round(target.value - stamp, 6)
    known = draft.value(path)
    if known is None or bool(target.group) <= bool(draft.facts[path].group):
        why = f"from {stamp:g}° to {target.value:g}°"
        draft.facts[path] = Entry(change, "deg", target.line, target.text, why=why, group=target.group)


def rank(draft: Draft) -> tuple[float, float]:
    """Sorts longest to shortest, putter last; by the usual lengths, which the numbers follow."""
    name = club_name(draft)
    loft = draft.value("head.loft") or 0.0
    if draft.family == "putter":
        return (99.0, 0.0)
    if draft.family == "driver":
        return (-_LENGTH_RANK[name], loft)
    number = int(name.split()[0]) if name[0].isdigit() else 4
    usual = {
        "wood": 43.75 - 0.25 * number, "hybrid": 42.0 - 0.5 * number, "diron": 40.45 - 0.5 * number,
        "iron": 40.5 - 0.5 * number,
    }  # fmt: skip
    if draft.family in usual and name not in _WEDGE_RANK:
        return (-usual[draft.family], loft)
    return (-_WEDGE_RANK.get(name, 35.4), loft)


def _figure(draft: Draft, path: str) -> Figure | None:
    entry = draft.facts.get(path)
    if entry is None:
        return None
    value = entry.value
    if isinstance(value, bool):
        value = None
    if isinstance(value, float) and value == int(value):
        value = int(value)
    return Figure(
        value=value, unit=entry.unit, source=Source(entry.source), low=entry.low, high=entry.high, why=entry.why
    )


def _text(draft: Draft, path: str) -> str | None:
    entry = draft.facts.get(path)
    return str(entry.value) if entry is not None and entry.value is not None else None


def record(draft: Draft) -> Club:
    """The record of one club."""
    facts = draft.facts
    sleeve = None
    if any(path.startswith("sleeve.") for path in facts):
        sleeve = Sleeve(
            position=_text(draft, "sleeve.position"),
            loft_change=_figure(draft, "sleeve.loft_change"),
            lie_change=_figure(draft, "sleeve.lie_change"),
        )
    grip = None
    if any(path.startswith("grip.") for path in facts):
        wraps = draft.value("grip.wraps")
        grip = Grip(name=_text(draft, "grip.name"), mass=_figure(draft, "grip.mass"), wraps=_whole(wraps))
    putter = None
    if draft.family == "putter" and any(path.startswith("putter.") for path in facts):
        putter = PutterParts(neck=_text(draft, "putter.neck"), toe_hang=_figure(draft, "putter.toe_hang"))
    ascending = facts.get("shaft.ascending")
    return Club(
        lines=tuple(sorted(draft.lines)),
        club=club_name(draft),
        kind=draft.kind,  # type: ignore[arg-type]
        head=Head(
            name=_text(draft, "head.name"),
            maker=_text(draft, "head.maker"),
            loft=_figure(draft, "head.loft"),
            lie=None,
            bounce=_figure(draft, "head.bounce"),
            sole=_text(draft, "head.sole"),
            mass=_figure(draft, "head.mass"),
        ),
        sleeve=sleeve,
        weights=_weights(draft),
        bend=Bend(loft=_figure(draft, "bend.loft"), lie=_figure(draft, "bend.lie")),
        shaft=Shaft(
            name=_text(draft, "shaft.name"),
            flex=_text(draft, "shaft.flex"),
            mass=_figure(draft, "shaft.mass"),
            torque=_figure(draft, "shaft.torque"),
            launch=_text(draft, "shaft.launch"),  # type: ignore[arg-type]
            spin=_text(draft, "shaft.spin"),  # type: ignore[arg-type]
            ascending=None if ascending is None else bool(ascending.value),
        ),
        grip=grip,
        length=_figure(draft, "length"),
        length_change=_figure(draft, "length_change"),
        stated=Stated(
            swing_weight=_figure(draft, "stated.swing_weight"),
            frequency=_figure(draft, "stated.frequency"),
            mass=_figure(draft, "stated.mass"),
        ),
        putter=putter,
        as_played=AsPlayed(loft=_figure(draft, "as_played.loft"), lie=_figure(draft, "as_played.lie")),
    )


def _whole(value: float | None) -> float | None:
    return int(value) if value is not None and value == int(value) else value


def _weights(draft: Draft) -> tuple[Weight, ...]:
    heavy = (
        any(moved.mass is not None for moved in draft.weights)
        or sum(moved.step is not None for moved in draft.weights) > 1
    )
    found = []
    for moved in draft.weights:
        mass, step = moved.mass, moved.step
        if heavy and step is not None and mass is None:
            mass, step = float(step), None
        figure = None if mass is None else Figure(value=_whole(mass), unit="g", source=Source.STATED)
        found.append(Weight(place=moved.place, step=step, mass=figure))  # type: ignore[arg-type]
    return tuple(found)


def built_length(club: Club) -> Club:
    """A length given only relative to standard: the usual length plus the change."""
    if club.length is not None or club.length_change is None or not club.length_change.has_number:
        return club
    from asplayed.clubs.usual import usual

    standard = usual(club, "length")
    if standard is None or not standard.has_number:
        return club
    change = club.length_change.number
    low = None if standard.low is None or standard.low == standard.high else standard.low + change
    high = None if standard.high is None or standard.low == standard.high else standard.high + change
    length = Figure(
        value=standard.number + change, unit="in", source=Source.COMPUTED, low=low, high=high,
        why=f"usual {standard.number:g} in for a {club.club}, {change:+g} in as stated",
    )  # fmt: skip
    return msgspec.structs.replace(club, length=length)


def belongs_to_irons(scene: Scene) -> None:
    """The set's own pitching or gap wedge is an iron; one of a specialty model is a wedge."""
    irons = [draft for draft in scene.drafts if draft.family == "iron" and draft.name is None]
    models = {draft.facts["head.name"].value for draft in irons if "head.name" in draft.facts}
    wedges = [draft for draft in scene.drafts if draft.family == "wedge"]
    for draft in wedges:
        name = club_name(draft)
        if name not in ("pitching wedge", "gap wedge") or not irons:
            continue
        model = draft.facts.get("head.name")
        if model is not None and model.value in models:
            draft.family, draft.name, draft.in_range = "iron", name, True
        elif model is None and draft.name == "pitching wedge" and not draft.has("head.bounce") and draft.header is None:
            others = [other for other in wedges if other is not draft and other.row == draft.row]
            if not others:
                draft.family, draft.in_range = "iron", True
    for draft in [d for d in scene.drafts if d.family == "iron" and d.name]:
        model = draft.facts.get("head.name")
        specialty = {d.facts["head.name"].value for d in wedges if d.family == "wedge" and "head.name" in d.facts}
        if model is not None and models and model.value not in models and model.value in specialty:
            draft.family = "wedge"


def questions(scene: Scene, names: dict[int, str]) -> list[Question]:
    """What the words leave open, each once."""
    found: dict[Question, None] = {}
    doubts = list(scene.doubts)
    for draft in scene.drafts:
        for clash in draft.clashes:
            entry, later = clash.earlier, clash.later
            shown = (_shown(later), _shown(entry))
            doubts.append(
                Doubt(later.line, draft, clash.path, f"{shown[0]} was said after {shown[1]}: which holds?", shown)
            )
        doubts += _setting_doubts(draft)
    for doubt in doubts:
        club = names.get(id(doubt.draft)) if doubt.draft is not None else None
        asks = "? " in f"{doubt.text} "  # a second sentence may say what holds until it is answered
        text = doubt.text if asks else _asked(doubt, club)
        question = Question(line=doubt.line, club=club, about=_about(doubt.about), text=text, answers=doubt.answers)
        found.setdefault(question)
    return list(found)


def _about(path: str) -> str:
    return {"target.loft": "head.loft", "weights.mass": "weights", "shaft.mass_range": "shaft.mass"}.get(path, path)


def _asked(doubt: Doubt, club: str | None) -> str:
    owner = f"{club}: " if club else ""
    return f"{owner}“{doubt.text}”: what is it, as {_about(doubt.about).replace('_', ' ').replace('.', ' ')}?"


def _shown(entry: Entry) -> str:
    return f"{entry.value:g}" if isinstance(entry.value, float) else str(entry.value)


def _setting_doubts(draft: Draft) -> list[Doubt]:
    doubts = []
    position = draft.facts.get("sleeve.position")
    if position is not None and draft.value("sleeve.loft_change") is None:
        stamp = draft.value("head.loft")
        until = f" Loft as played is {stamp:g}° ± 1.5° until then." if stamp is not None else ""
        doubts.append(
            Doubt(position.line, draft, "sleeve.loft_change", f"sleeve position {position.value}: which chart?{until}")
        )
    for path, word in (
        ("sleeve.lie_change", "lie"),
        ("sleeve.loft_change", "loft"),
        ("bend.loft", "bend"),
        ("bend.lie", "lie"),
    ):
        entry = draft.facts.get(path)
        if entry is not None and entry.value is None and position is None:
            doubts.append(Doubt(entry.line, draft, path, f"“{entry.text}”: by how many degrees is the {word} changed?"))
    shaft = draft.facts.get("shaft.name")
    if (
        shaft is not None
        and "shaft.mass" not in draft.facts
        and (grade := re.search(r" ([4-9]|1[0-3])$", str(shaft.value)))
    ):
        text = f"the shaft {shaft.value}: does its {grade[1]} stand for about {grade[1]}0 g?"
        doubts.append(Doubt(shaft.line, draft, "shaft.mass", text, (f"{grade[1]}0 g", f"{grade[1]}5 g")))
    length = draft.facts.get("length_change")
    if length is not None and length.value is None:
        doubts.append(Doubt(length.line, draft, "length", f"“{length.text}”: by how much?"))
    if draft.inferred:
        doubts.append(Doubt(min(draft.lines), draft, "club", draft.inferred))
    return doubts


def check_limits(scene: Scene) -> list[Doubt]:
    """Impossible figures are refused with their places; unusual ones are kept and questioned.

    A figure that its unit allows for another quantity (a bounce of 60°) or that was put together from spoken words
    may be misread: it is left out and asked. One that no quantity can have (400°) refuses the list.
    """
    table = limits()
    faults: list[str] = []
    doubts: list[Doubt] = []
    for draft in [*scene.drafts, *scene.headers]:
        usual = {**table["usual"]["any"], **table["usual"].get(draft.kind, {})}
        never = {**table["never"]["any"], **table["never"][draft.kind]}
        for path, entry in list(draft.facts.items()):
            if not isinstance(entry.value, int | float) or isinstance(entry.value, bool):
                continue
            bound = table["possible"].get(path)
            if bound and not bound["low"] <= entry.value <= bound["high"]:
                fault = (
                    f"a {bound['name']} of {entry.value:g} {bound['unit']} ({entry.text}) is not possible; "
                    f"it should lie between {bound['low']} and {bound['high']} {bound['unit']}"
                )
                if _may_be_misread(entry, table["possible"], bound["unit"]):
                    del draft.facts[path]
                    doubts.append(Doubt(entry.line, draft, path, f"{fault}: what is it? "))
                else:
                    faults.append(f"{scene.place_of(entry.line, entry.text)}: {fault}")
            elif path in never and not never[path][0] <= entry.value <= never[path][1]:
                low, high = never[path]
                del draft.facts[path]
                name, unit = table["possible"][path]["name"], table["possible"][path]["unit"]
                text = (
                    f"a {name} of {entry.value:g} {unit} ({entry.text}) is not a {draft.kind}'s; "
                    f"it should lie between {low:g} and {high:g} {unit}: what is it?"
                )
                doubts.append(Doubt(entry.line, draft, path, text))
            elif path in usual and not usual[path][0] <= entry.value <= usual[path][1] and draft in scene.drafts:
                low, high = usual[path]
                text = f"{entry.text} is unusual for a {draft.kind} (usually {low:g} to {high:g}): is it right?"
                doubts.append(Doubt(entry.line, draft, path, text, (f"{entry.value:g}",)))
    if faults:
        raise Refused("the list has figures that no club can have", sorted(set(faults)))
    return doubts


def _may_be_misread(entry: Entry, possible: Mapping[str, Mapping[str, Any]], unit: str) -> bool:
    """True for a figure in words, and for one that another quantity of its unit can have."""
    spoken = not any(letter.isdigit() for letter in entry.text)
    value = float(entry.value)  # type: ignore[arg-type]  # asked only of numbers
    return spoken or any(one["low"] <= value <= one["high"] for one in possible.values() if one["unit"] == unit)


def assemble(scene: Scene) -> GolfSet:
    """The set in records."""
    for draft in [one for one in scene.asked if not one.facts and one.number is None and one.name is None]:
        if draft in scene.drafts:
            scene.drafts.remove(draft)  # "Hybrid?", "No, a driving iron": asked for, and not there
    distribute(scene)
    leave_out_kept_behind(scene)
    ask_for_only_named(scene)
    ask_for_unlikely(scene)
    give_to_everyone(scene.everyone, scene.drafts, scene.everyone_but, headed=scene.everyone_headed)
    scene.doubts += whose(scene.everyone)
    belongs_to_irons(scene)
    spread_masses(scene)
    for draft in scene.drafts:
        if draft.family == "putter" and "shaft.flex" in draft.facts and not draft.has("shaft.name"):
            flex = draft.facts.pop("shaft.flex")  # a putter's shaft is sold by no flex
            if not flex.group:
                scene.doubts.append(Doubt(flex.line, draft, "shaft.flex", flex.text))
        settle_targets(draft)
        if draft.family == "wood" and draft.number is None:
            draft.inferred = "a fairway wood without a number: named by its loft; which is it?"
    scene.doubts += check_limits(scene)
    ordered = sorted(scene.drafts, key=rank)
    names = {id(draft): club_name(draft) for draft in scene.drafts}
    from asplayed.clubs import as_read

    clubs = []
    for draft in ordered:
        club = built_length(record(draft))
        played = as_read(club)
        if played.loft is None and club.as_played.loft is not None:
            played = msgspec.structs.replace(played, loft=club.as_played.loft)
        clubs.append(msgspec.structs.replace(club, as_played=played))
    notes = tuple(_named(note, names) for note in scene.notes)
    facts = scene.facts
    asked = tuple(questions(scene, names))
    hand = facts.get("hand")
    ball = Ball(name=scene.ball.get("name"), colour=scene.ball.get("colour")) if scene.ball else None
    lost = unplaced(scene, (clubs, asked, ball, facts, notes, scene.aside))
    return GolfSet(
        set=SetFacts(
            title=facts.get("title"), player=facts.get("player"), event=facts.get("event"), date=facts.get("date"),
            hand="left" if hand == "left" else "right", hand_source="stated" if hand else "assumed",
        ),
        clubs=tuple(clubs),
        ball=ball,
        aside=tuple(scene.aside),
        notes=notes,
        not_understood=tuple(sorted([*scene.left_over(), *lost], key=attrgetter("line"))),
        questions=asked,
    )  # fmt: skip


def _named(note: Note, names: dict[int, str]) -> Passage:
    return msgspec.structs.replace(note.passage, club=names.get(id(note.draft)))
