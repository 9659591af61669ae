"""The words that name a part of a club: the zone they open, and the clubs a line of shafts is said of."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.excepting import Excepting
from asplayed.intake.otherwise import Otherwise
from asplayed.intake.phrases import TOLD, Phrase
from asplayed.intake.reach import Reach

_ZONES = {
    "LOFT": "loft", "LIE": "lie", "BOUNCE": "bounce", "LENGTH": "length", "TORQUE": "torque",
    "FREQUENCY": "frequency", "TOTALMASS": "total", "TOEHANG": "toe_hang", "HEADMASS": "head.mass",
    "SHAFTWORD": "shaft", "GRIPWORD": "grip", "HEADWORD": "head", "SLEEVE": "sleeve", "WEIGHT": "weight",
    "WRAP": "wraps", "SOLEWORD": "sole", "NECKWORD": "neck", "FLEXWORD": "shaft", "BENT": "bend",
}  # fmt: skip


class PartLabels(Reach, Excepting, Otherwise):
    """The part of the walk that takes "shaft", "grips", "loft": a part or a figure the next words belong to."""

    def _take_label(self, phrase: Phrase) -> bool:
        token = phrase.tokens[0]
        self.zone = _ZONES.get(token.terminal, self.zone)
        if token.terminal == "HEADWORD" and self._closes_head(phrase):
            self.zone = ""
            self._claim(phrase, "club")
            return True
        if self._everyone(phrase):
            self._claim(phrase, "club")
            return True
        owner = self.tokens[phrase.start - 1].lower if phrase.start else ""
        if owner == "their" and token.lower in ("shafts", "grips") and len(self.scene.focus) == 1:
            self.scene.focus = self.mentions.recent() or self.scene.focus
            self.scene.grouped = len(self.scene.focus) > 1
        self._shafts_of_line(phrase)
        if self._shafts_of_all(phrase):
            return True
        self._claim(phrase, "silent" if not self.scene.focus else "club")
        if token.terminal in ("GRIPWORD", "SHAFTWORD"):
            self.names.claim_last(self.zone)
        return True

    def _labelled_line(self, at: int) -> bool:
        """True where a line opens with a part and a colon: "Swing weight: D2"."""
        while at < len(self.tokens) and self.tokens[at].terminal == "BULLET":
            at += 1
        label, colon = [*self.tokens[at : at + 2], None, None][:2]
        return label is not None and colon is not None and label.terminal in TOLD and colon.text == ":"

    def _of_the_entry(self, entry: list[Draft]) -> None:
        """ "Loft: PW 1 weak", and below it "Lie: 1 up": the next line of a form tells of all of `entry` again."""
        scene = self.scene
        apart = scene.focus and len(scene.focus) < len(entry) and all(draft in entry for draft in scene.focus)
        if apart and scene.table is None:
            scene.focus, scene.grouped = list(entry), True

    def _below_heads(self, row: list[Draft], opened: int) -> None:
        """ "Heads: Gannet 4 wood 17°, 7 wood 21°", and below it "Shaft: Reed 65 S": the shaft is that of the whole row.

        `opened` is where the line above begins.
        """
        scene, at = self.scene, opened
        at += at < len(self.tokens) and self.tokens[at].terminal == "BULLET"
        heads = self._labelled_line(at) and self.tokens[at].terminal == "HEADWORD"
        alike = len(row) > 1 and len({draft.family for draft in row}) == 1
        if heads and alike and self._labelled_line(self.at) and scene.focus == row[-1:]:
            scene.focus, scene.grouped = row, True

    def _lie_of_one(self, phrase: Phrase) -> bool:
        """ "Lie: 58 1 flat, 52 std": of several wedges each is told by its stamp, before how its lie is bent."""
        lies = phrase.rule == "labelled" and phrase.tokens[0].terminal == "LIE"
        if not phrase.amounts or not (lies or (phrase.rule == "bare" and self.zone == "lie")):
            return False  # "Lie: standard, 1 up" tells no stamp
        tokens, at = self.tokens, phrase.end
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "EQ"):
            at += 1
        told = tokens[at : at + 3] if at < len(tokens) and tokens[at].line == phrase.line else []
        bent = any(token.terminal in ("UP", "UPRIGHT", "FLAT", "STD") for token in told)
        stamp = phrase.amounts[0].value
        stamped = [draft for draft in self.entry if draft.family == "wedge" and draft.value("head.loft") == stamp]
        if not bent or len(stamped) != 1 or len(self.entry) < 2:
            return False
        self.zone, self.scene.focus, self.scene.grouped = "lie", stamped, False
        self._claim(phrase, "club")
        return True

    def _shafts_of_line(self, phrase: Phrase) -> None:
        """Let "Shafts: …" below the clubs speak of the whole family before it."""
        token = phrase.tokens[0]
        before = self.scene.before_drafts
        colon = phrase.end < len(self.tokens) and self.tokens[phrase.end].text == ":"
        bare = colon and not any(draft.has("shaft.name") for draft in before)  # "Shaft: …" below a row of wedges
        wedges = bool(before) and all(draft.family == "wedge" for draft in before)
        told = token.lower == "shafts" or (token.lower == "shaft" and bare and wedges)
        if told and self.scene.line_start(phrase.start):
            self.scene.shaft_line = True
            if len(before) > len(self.scene.focus) and all(draft in before for draft in self.scene.focus):
                last = self.scene.focus[-1].family if self.scene.focus else ""
                self.scene.focus = [draft for draft in before if draft.family == last]
                self.scene.grouped = len(self.scene.focus) > 1

    def _shafts_of_all(self, phrase: Phrase) -> bool:
        """ "All the shafts but the putter's are …": said of the clubs that are not left out."""
        lead = phrase.start
        while lead > 0 and self.tokens[lead - 1].lower in ("the", "of", "his", "her", "my"):
            lead -= 1
        every = lead > 0 and self.tokens[lead - 1].terminal == "ALL"
        opens = every and phrase.tokens[0].terminal == "SHAFTWORD" and self.scene.line_start(lead - 1)
        but = self._shafts_but(phrase.end) if opens else None
        if but is None:
            return False
        self.scene.focus, self.scene.grouped = but, True
        self._claim(phrase, "club")
        return True
