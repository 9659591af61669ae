"""Sentences that tell one grip of the whole set, with or without an exception, in whatever order they say it.

"All thirteen clubs: grip Norrby Cord, one extra wrap", "Norrby grips on all but the putter", "fat grips everywhere but
on the putter: Norrby".
"""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.excepting import Excepting
from asplayed.intake.groups import FAMILIES
from asplayed.intake.names import NameRun, run_at
from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.scene import CLAUSE
from asplayed.intake.tokens import Token
from asplayed.intake.wording import EXCEPT, ordinary

_ENDS = {"STOP", "NEWLINE", "PIPE"}
_BETWEEN = {"COMMA", "LPAR", "RPAR", "EQ", "AT", "IN", "WITH", "AND", "SILENT", "BULLET", "DASH", "SIZE", "COLOUR"}
_CLUBS = {"club", "clubs", "everything", "everywhere"}
_LEAVES_OUT = (*EXCEPT, "but", "not", "save", "other than", "not the")
_PLAIN = {
    "new", "below", "above", "whole", "set", "thing", "tape", "underneath", "under", "here", "now", "fitted", "fat",
    "thin", "soft", "same", "listed", "named",
}  # fmt: skip


class _Told(NamedTuple):
    """What such a sentence says: its end, the grip, its figures, and the clubs it leaves out."""

    end: int
    name: NameRun
    figures: list[tuple[str, float, int]]
    but: list[Phrase]


class GripsOfAll(Excepting):
    """Takes a whole sentence at once where it tells nothing but the grip of all clubs."""

    def _one_grip_for_all(self) -> bool:
        """True where such a sentence stands here and is taken."""
        scene = self.scene
        if scene.table is not None or not (scene.line_start(self.at) or self._cell_opens()):
            return False
        told = self._sentence_of_grips(self.at)
        if told is None:
            return False
        drafts = scene.drafts or [self._everyone_to_come(told.but)]
        out = [draft for phrase in told.but for draft in self.mentions.find(phrase)]
        goes_on = self.tokens[told.end].text == ";"  # "… on the lot; the putter is the exception, it gets a Norrby"
        if len(scene.drafts) == 1 or goes_on:
            return False
        gripped = any("gripped" in token.lower for token in self.tokens[self.at : told.end])
        # "All gripped with Norrby": what is done at a bench, and a putter comes with a grip of its own
        drafts = [draft for draft in drafts if draft not in out and not (gripped and draft.family == "putter")]
        line = told.name.line
        scene.focus, scene.grouped = drafts, True
        self.put(drafts, "grip.name", Entry(self.names.tidy(told.name, 1), "1", line, told.name.text))
        for path, value, at in told.figures:
            unit = "g" if path == "grip.mass" else "1"
            self.put(drafts, path, Entry(value, unit, line, self.tokens[at].text))
        scene.take(self.at, told.end)
        scene.grip_line, self.zone, self.at = True, "grip", told.end
        self._go_on_about(out)
        return True

    def _cell_opens(self) -> bool:
        """True behind a bar of a line that tells a whole set."""
        return self.at > 0 and self.tokens[self.at - 1].terminal == "PIPE"

    def _everyone_to_come(self, but: list[Phrase]) -> Draft:
        """The club that stands for all that a list names below."""
        scene = self.scene
        scene.everyone = scene.everyone or Draft("iron")
        words = [token.terminal for phrase in but for token in phrase.tokens]
        scene.everyone_but |= {FAMILIES[word] for word in words if word in FAMILIES}
        return scene.everyone

    def _sentence_of_grips(self, start: int) -> _Told | None:
        """What the sentence from here says, or None where it tells of anything but the grip of all."""
        tokens = self.tokens
        names: list[NameRun] = []
        figures: list[tuple[str, float, int]] = []
        but: list[Phrase] = []
        gripped = every = leaving = False
        end = min(len(tokens), start + CLAUSE)
        at = start
        while at < end and tokens[at].terminal not in _ENDS:
            token = tokens[at]
            if token.lower in _LEAVES_OUT:
                leaving, at = True, at + 1
            elif leaving and (club := phrase_at(tokens, at)) is not None and club.rule in ("club", "named", "family"):
                but.append(club)
                at = club.end
                if at < end and tokens[at].terminal in ("COMMA", "LPAR") and not self._another_club(at + 1):
                    if self._of_the_excepted(at + 1):
                        break
                    leaving = False
            elif token.terminal == "GRIPWORD":
                gripped, at = True, at + 1
            elif token.terminal == "ALL" and token.text.isdigit():
                return None  # "1-13 Norrby Cord. 14 Norrby Fat": rows of a counted list
            elif token.terminal == "ALL" or token.lower in _CLUBS:
                every, at = every or token.terminal == "ALL" or token.lower != "clubs", at + 1
            elif (figure := self._grips_figure(at)) is not None:
                figures.append((figure[0], figure[1], at))
                at = figure[2]
            elif token.terminal in ("NUM", "OTHER") and every and at + 1 < end and tokens[at + 1].lower == "clubs":
                at += 1  # "all thirteen clubs"
            elif token.terminal in _BETWEEN or token.lower in _PLAIN:
                at += 1
            elif (run := self._grips_name(at)) is not None:
                names.append(run)
                at = run.end
            else:
                return None
        if not (gripped and every and len(names) == 1) or at >= end or (leaving and not but):
            return None
        return _Told(at, names[0], figures, but)

    def _grips_name(self, at: int) -> NameRun | None:
        """The name that begins at a capital word of nobody's."""
        token = self.tokens[at]
        if token.terminal != "WORD" or not token.text[:1].isupper() or (ordinary(self.scene, at) and at == self.at):
            return None
        return run_at(self.scene, self.names.known, at)

    def _grips_figure(self, at: int) -> tuple[str, float, int] | None:
        """A grip's mass or its wraps: the field, the value, and the place behind."""
        tokens = self.tokens
        phrase = phrase_at(tokens, at)
        if phrase is not None and phrase.rule == "wraps":
            return "grip.wraps", phrase.amounts[0].value, phrase.end
        massive = phrase is not None and phrase.rule == "bare" and phrase.amounts[0].unit == "g"
        if phrase is not None and massive and 20 <= phrase.amounts[0].value <= 140:
            return "grip.mass", phrase.amounts[0].value, phrase.end
        return None

    def _another_club(self, at: int) -> bool:
        """True where the exception goes on with another club: "the putter, the wedges"."""
        tokens = self.tokens
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "AND", "COMMA"):
            at += 1
        club = phrase_at(tokens, at) if at < len(tokens) else None
        return club is not None and club.rule in ("club", "named", "family")

    def _of_the_excepted(self, at: int) -> bool:
        """True for "…, which has a Norrby Fat", "… (Norrby Fat)": what follows is of the excepted club."""
        token: Token | None = self.tokens[at] if at < len(self.tokens) else None
        capital = token is not None and token.terminal == "WORD" and token.text[:1].isupper()
        return token is not None and (token.lower in ("which", "that", "where", "has", "with", "it", "who") or capital)
