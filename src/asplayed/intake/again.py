"""Figures that go by what was just said: a mass between a name and a flex, "standard" after a change of the others."""

from __future__ import annotations

from asplayed.intake.drafts import Entry
from asplayed.intake.facts import AS_IT_WAS
from asplayed.intake.phrases import Phrase
from asplayed.intake.stamps import Stamps

_NAMING = ("WORD", "COLOUR", "LETTER")  # what a shaft's name ends with


class Again(Stamps):
    """Takes a figure for what the words before it were about."""

    def _mass_before_flex(self, phrase: Phrase) -> bool:
        """ "Dapple 40 ladies", "Anvil 125 X" right behind a shaft's name: a mass, however light or heavy."""
        scene, amount = self.scene, phrase.amounts[0]
        after = self.tokens[phrase.end].terminal if phrase.end < len(self.tokens) else ""
        named = self.zone == "shaft" and phrase.start > 0 and self.tokens[phrase.start - 1].terminal in _NAMING
        focus = [draft for draft in scene.focus if draft.family != "putter"]
        heavy = 95 < amount.value <= 150 and all(draft.family in ("driver", "wood") for draft in focus)
        massive = amount.whole and not amount.signed and (30 <= amount.value < 50 or heavy)
        if not (named and massive and after in ("FLEX", "FLEXCODE")) or any(d.has("shaft.mass") for d in focus):
            return False
        self.put(focus, "shaft.mass", Entry(amount.value, "g", phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _same_but(self, phrase: Phrase) -> bool:
        """ "Same but the 75", "same shaft, only in the 70": another mass of the shaft that another club has."""
        scene, amount = self.scene, phrase.amounts[0]
        led = [token.lower for token in self.tokens[max(0, phrase.start - 4) : phrase.start]]
        massive = amount.whole and not amount.signed and 38 <= amount.value <= 150
        parts = {noun for _drafts, noun, _phrase in scene.same}
        if (
            not massive
            or led[-1:] != ["the"]
            or not {"but", "only"} & set(led)
            or not parts & {"", "WHOLE", "SHAFTWORD", "SHAFTAGAIN"}
        ):
            return False
        self.put(scene.focus, "shaft.mass", Entry(amount.value, "g", phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _standard_again(self, phrase: Phrase) -> bool:
        """ "All 2 up except the PW, which is standard": standard in what was just said of the others."""
        scene = self.scene
        path, drafts = scene.last_path
        changed = path in ("bend.lie", "bend.loft", "length_change")
        others = changed and bool(drafts) and not any(draft.has(path) for draft in scene.focus)
        if not others or len(phrase.tokens) > 1 or self.zone or path not in [told for told, _ in scene.clause_puts]:
            return False
        unit = "in" if path == "length_change" else "deg"
        self.put(scene.focus, path, Entry(0.0, unit, phrase.line, phrase.tokens[0].text))
        self._claim(phrase, "club")
        return True

    def _built_to_standard(self, phrase: Phrase) -> bool:
        """ "The two fairway woods are standard", in a list that speaks of no sleeve: of their length."""
        scene = self.scene
        told = phrase.start > 0 and self.tokens[phrase.start - 1].lower in ("is", "are", "they're", "it's")
        if phrase.tokens[0].lower in AS_IT_WAS - {"stock"}:
            return False  # "The driver is unchanged": it is the old one
        if not told or self.zone or len(phrase.tokens) > 1 or scene.terminals & {"SLEEVE", "POSCODE"}:
            return False
        if not all(draft.adjustable for draft in scene.focus):
            return False
        self.put(scene.focus, "length_change", Entry(0.0, "in", phrase.line, phrase.tokens[0].text))
        self._claim(phrase, "club")
        return True

    def _near(self, phrase: Phrase, mass: Entry) -> bool:
        """True for a number that can be another mass of the same shaft: "105 S, but 95 in the 5 and 6"."""
        amount = phrase.amounts[0] if phrase.amounts else None
        known = mass.value if isinstance(mass.value, float) else None
        return amount is not None and known is not None and abs(amount.value - known) <= 25
