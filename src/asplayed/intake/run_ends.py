"""Figures told of both ends of a run of clubs: "95 g in the 5 iron up to 105 g in the PW", "5 iron 38 to PW 35.75"."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.bare import bare
from asplayed.intake.drafts import Draft, Entry, between
from asplayed.intake.facts import facts_of
from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.through import Run, Through
from asplayed.intake.tokens import Token

_GOING = {
    "rising", "climbing", "going", "growing", "increasing", "building", "dropping", "falling", "running", "stepping",
    "goes", "rises", "climbs", "grows", "drops", "falls", "runs", "getting", "then", "all", "right", "decreasing",
}  # fmt: skip
_LABELS = {
    "SHAFTWORD": "", "WEIGHT": "shaft.mass", "LENGTH": "length", "LOFT": "loft", "LIE": "lie", "SWINGWEIGHT": "",
}  # fmt: skip
_JOINTS = ("AT", "IN", "EQ", "LPAR", "SILENT")
_LEADING = {"from", "run", "runs", "go", "goes", "going", "range", "start", "starting"}
_ZONES = {"length": "length", "as_played.lie": "lie", "head.loft": "loft"}
_STEPS = ("steps", "step", "increments", "apart")
_NEAR = 0.01  # how far a step told may be from the one worked out of both ends
_LONGEST = 6  # words between the two ends
_ENDED = ("head.loft", "length", "as_played.lie", "shaft.mass", "stated.swing_weight")


class End(NamedTuple):
    """One end of a run: its club, what is told of it, and the place behind both."""

    club: Draft
    path: str
    entry: Entry
    end: int


class RunEnds(Through):
    """Gives the ends of a run what is told of them; clubs between them get no figure that nobody told."""

    def _at_both_ends(self, token: Token) -> bool:
        """Take two figures with the clubs they hold for, a "to" between them; False where they are not told so."""
        scene = self.scene
        label = _LABELS.get(token.terminal)
        figured = token.kind == "number" or token.terminal == "SWV" or label is not None
        if not figured or scene.table is not None or len(scene.drafts) < 2:
            return False
        start = self.at if label is None else self._behind_joint(self.at + 1)
        first = self._one_end(start, label or self.zone)
        at = self._behind_to(first.end) if first is not None else 0
        alike = _ZONES.get(first.path, "") if first is not None else ""
        last = self._one_end(at, label or alike or self.zone) if at else None
        if first is None or last is None or first.path != last.path or first.club is last.club:
            return False
        ranged = first.club.in_range and last.club.in_range
        run = [draft for draft in between(self.scene.drafts, [first.club], [last.club]) if draft.in_range or not ranged]
        low, high = first.entry.value, last.entry.value
        if first.path == "shaft.mass" and isinstance(low, float) and isinstance(high, float) and low < high:
            for draft in run:
                draft.put("shaft.mass_range", first.entry._replace(value=None, low=low, high=high, group=len(run)))
        else:
            for end in (first, last):
                end.club.put(end.path, end.entry, correcting=scene.correcting > 0)
            self._steps_between(run, first, last)
        scene.take(self.at, last.end)
        scene.focus, scene.implicit, scene.last_end = run, False, last.end
        self.at, self.zone = last.end, ""
        if self.names.waiting is not None:
            self.names.attach_pending(run)  # "Reed shafts go from 90 g in the 6 iron to 98 g in the PW"
        return True

    def _steps_between(self, run: list[Draft], first: End, last: End) -> None:
        """ "38 inches in the 5 down to 36 in the 9, half inch steps": what lies between is told where the steps fit."""
        at = last.end + (last.end < len(self.tokens) and self.tokens[last.end].terminal == "COMMA")
        while at < len(self.tokens) and self.tokens[at].terminal in ("IN", "SILENT", "BY"):
            at += 1
        step = phrase_at(self.tokens, at) if at < len(self.tokens) else None
        low, high = first.entry.value, last.entry.value
        if step is None or step.rule != "bare" or step.end >= len(self.tokens) or len(run) < 3:
            return
        if self.tokens[step.end].lower not in _STEPS or not isinstance(low, float) or not isinstance(high, float):
            return
        each = (high - low) / (len(run) - 1)
        if abs(abs(each) - step.amounts[0].value) > _NEAR:
            return
        ordered = run if run[0] is first.club else run[::-1]
        for place, draft in enumerate(ordered[1:-1], 1):
            why = f"{first.entry.text} to {last.entry.text} in steps of {abs(each):g}"
            told = first.entry._replace(value=round(low + each * place, 4), source="computed", why=why, group=len(run))
            draft.put(first.path, told)

    def _one_end(self, at: int, zone: str) -> End | None:
        """The figure told here with its club, whichever of the two stands first."""
        said = phrase_at(self.tokens, at) if at < len(self.tokens) else None
        if said is None:
            return None
        if said.rule in ("bare", "swing"):
            place = self._behind_joint(said.end)
            club = self._club_told(place) if place > said.end or said.tokens[-1].text == "in" else None
            return None if club is None or len(club.clubs) != 1 else self._end(said, club.clubs[0], club.end, zone)
        club = self._club_told(at) if said.rule in ("club", "named") else None
        figure = phrase_at(self.tokens, self._behind_joint(club.end)) if club is not None else None
        if club is None or figure is None or figure.rule not in ("bare", "swing") or len(club.clubs) != 1:
            return None
        return self._end(figure, club.clubs[0], figure.end, zone)

    def _club_told(self, at: int) -> Run | None:
        """The club named here: "the 5 iron", "the five going …", "the wedge" of the irons' own set."""
        found = self._end_club(at)
        token = self.tokens[at] if at < len(self.tokens) else None
        if found is not None or token is None:
            return found
        ranged = [draft for draft in self.scene.drafts if draft.in_range and draft.family == "iron"]
        if token.terminal == "WEDGE":
            clubs = [draft for draft in ranged if draft.name is not None and draft.number is None][-1:]
        else:
            clubs = [draft for draft in ranged if token.terminal == "NUM" and draft.number == token.value]
            behind = [one.lower for one in self.tokens[at + 1 : at + 3]]
            at += clubs != [] and behind == ["up", "to"]  # "in the 4 up to"
        return Run(clubs, at + 1) if clubs else None

    def _end(self, figure: Phrase, club: Draft, end: int, zone: str) -> End | None:
        """This figure as the club's; None for one that a run is not told by."""
        told = facts_of(figure, club, zone) if figure.rule == "swing" else None
        if figure.rule == "bare":
            amount = figure.amounts[0]
            massive = amount.unit == "g" or (not amount.unit and 50 < amount.value <= 150)
            told = bare(amount, figure, club, "shaft.mass" if massive else zone)
        if not told or told[0][0] not in _ENDED:
            return None
        closed = end < len(self.tokens) and self.tokens[end].terminal == "RPAR"
        return End(club, *told[0], end + closed)

    def _behind_joint(self, at: int) -> int:
        """The place behind the "in the" of "95 g in the 5 iron"."""
        while at < len(self.tokens) and (self.tokens[at].terminal in _JOINTS or self.tokens[at].lower in _LEADING):
            at += 1
        return at

    def _behind_to(self, start: int) -> int:
        """The place behind the "going up to" between two ends; 0 where none stands here."""
        at = start
        while at < len(self.tokens) and at - start < _LONGEST:
            token = self.tokens[at]
            if token.terminal == "RANGE":
                while at < len(self.tokens) and self.tokens[at].terminal in ("RANGE", "SILENT"):
                    at += 1
                return at
            if token.terminal not in ("UP", "DOWN", "COMMA", "SILENT", "AND") and token.lower not in _GOING:
                return 0
            at += 1
        return 0
