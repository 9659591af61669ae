"""Wedges: found or made by name, by the loft stamped on them, by loft and bounce together."""

from __future__ import annotations

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.making import wedge_name
from asplayed.intake.phrases import CLUB_RULES, Amount, Phrase, phrase_at, stamp_fits, wedge_loft
from asplayed.intake.rows import Rows

_NEAR = 4  # tokens between a wedge's name and the loft that puts it right


class Wedges(Rows):
    """Finds or makes the wedges that phrases name."""

    def _loft_of(self, draft: Draft, amount: Amount | None, phrase: Phrase) -> None:
        if amount is None or amount.value == 1 or (amount.whole and amount.value <= 11 and draft.family != "driver"):
            return
        if amount.unit == "in":
            draft.put("length", Entry(amount.value, "in", phrase.line, amount.token.text))
        elif draft.family != "putter":
            draft.put("head.loft", Entry(amount.value, "deg", phrase.line, amount.token.text))
            self.scene.after_loft = phrase.end

    def _stamp_wanted(self, value: float) -> bool:
        """True while a wedge in focus waits for its loft and this can be it ("the set's gap wedge, 50°")."""
        focus, header = self.scene.focus, self.scene.header
        return any(
            (draft.family == "wedge" or (draft.name == "gap wedge" and len(focus) == 1))
            and not draft.has("head.loft")
            and draft is not header
            and stamp_fits(draft.name, value)
            for draft in focus
        )

    def _wedge_of_a_model(self, phrase: Phrase) -> bool:
        """True for the 54 of "… and a 54 degree Crake wedge": another club, told by its loft, model and kind."""
        tokens = self.scene.tokens
        before = tokens[phrase.start - 1].lower if phrase.start else ""
        name = tokens[phrase.end : phrase.end + 3]
        wedge = next((place for place, token in enumerate(name) if token.terminal == "WEDGE"), 0)
        return before in ("a", "one") and wedge > 0 and all(token.terminal == "WORD" for token in name[:wedge])

    def _wedge(self, name: str, amount: Amount | None, phrase: Phrase, pointed: bool) -> Draft:
        loft = amount.value if amount else None
        same = [draft for draft in self.scene.drafts if draft.name == name]
        if loft is None:
            following = self._loft_behind(phrase)
            put_right = not self.scene.replacing.isdisjoint(range(phrase.end, phrase.end + _NEAR))
            if (
                same
                and not put_right  # "the gap wedge is 52, not 50"
                and following is not None
                and all(draft.value("head.loft") not in (None, following) for draft in same)
            ):
                return self._new("wedge", phrase, name=name)
            if same:
                return same[-1]
            by_stamp = [
                draft for draft in self.scene.drafts
                if draft.family == "wedge" and draft.name is None and wedge_name(draft.value("head.loft") or 0) == name
            ]  # fmt: skip
            if len(by_stamp) == 1 and (pointed or not self.scene.line_start(phrase.start)):
                return by_stamp[0]
            if by_stamp and pointed:
                return by_stamp[-1]
        else:
            for draft in same:
                if draft.value("head.loft") in (None, loft):
                    self._loft_of(draft, amount, phrase)
                    return draft
        draft = self._new("wedge", phrase, name=name)
        self._loft_of(draft, amount, phrase)
        return draft

    def _loft_behind(self, phrase: Phrase) -> float | None:
        """The loft that stands right behind a wedge's name, if one does."""
        tokens = self.scene.tokens
        at = phrase.end
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "EQ"):
            at += 1
        following = phrase_at(tokens, at) if at < len(tokens) else None
        if following is not None and following.rule == "bare" and wedge_loft(following.amounts[0].value):
            return following.amounts[0].value
        if following is not None and following.rule == "code":
            value = following.tokens[0].value
            return value[0] if isinstance(value, tuple) else None
        return None

    def _by_loft(self, loft: float, phrase: Phrase) -> Draft:
        for draft in self.scene.drafts:
            if draft.family in ("wedge", "iron") and draft.value("head.loft") == loft and loft >= 40:
                return draft
        spoken = {id(draft) for draft in (*self.scene.clause_drafts, *self.scene.line_drafts)}
        for draft in self.scene.drafts:
            waits = draft.family == "wedge" and draft.name == wedge_name(loft) and not draft.has("head.loft")
            if waits and id(draft) in spoken:
                draft.put("head.loft", Entry(loft, "deg", phrase.line, f"{loft:g}"))
                return draft  # "a gap, a sand and a lob: fifty-two, fifty-six and sixty"
        draft = self._new("wedge", phrase)
        draft.put("head.loft", Entry(loft, "deg", phrase.line, f"{loft:g}"))
        self.scene.after_loft = phrase.end
        return draft

    def _code(self, phrase: Phrase) -> list[Draft] | None:
        value = phrase.tokens[0].value
        assert isinstance(value, tuple)
        return self._coded(value[0], value[1], phrase)

    def _coded(self, loft: float, bounce: float, phrase: Phrase) -> list[Draft]:
        focus = self.scene.focus
        draft: Draft | None = None
        spoken_of = len(focus) == 1 and (
            focus[0] in self.scene.clause_drafts or not self.scene.line_start(phrase.start)
        )
        if spoken_of and self.scene.name_waits and focus[0].has("head.name"):
            spoken_of = False  # "Turnstone 2 54.14" below "gap wedge Dunlin": another model, another club
        if spoken_of and focus[0].family == "wedge" and focus[0] in self.scene.drafts:
            known = focus[0].value("head.loft")
            if known in (None, loft) and not focus[0].has("head.bounce"):
                draft = focus[0]
        if draft is None:
            draft = self._by_loft(loft, phrase)
        draft.put("head.loft", Entry(loft, "deg", phrase.line, phrase.tokens[0].text))
        draft.put("head.bounce", Entry(bounce, "deg", phrase.line, phrase.tokens[0].text))
        drafts = self._focus([draft], phrase)
        self.scene.after_loft = phrase.end
        return drafts

    def _only_loft(self, phrase: Phrase) -> float:
        """The one wedge's loft on a line that the word opens; 0 for none and for several."""
        scene, at = self.scene, phrase.end
        if not scene.line_start(phrase.start) or self._pointed(phrase):
            return 0.0
        lofts: list[float] = []
        while at < len(scene.tokens) and scene.tokens[at].terminal != "NEWLINE":
            found = phrase_at(scene.tokens, at)
            if found is not None and found.rule in CLUB_RULES:
                return 0.0
            labelled = found is not None and found.rule == "labelled" and found.has("LOFT") and len(found.amounts) == 1
            if found is not None and (labelled or found.rule == "bare") and found.amounts[0].unit in ("", "deg"):
                lofts += [found.amounts[0].value] if wedge_loft(found.amounts[0].value) else []
            at = at + 1 if found is None else found.end
        return lofts[0] if len(lofts) == 1 else 0.0

    def _wedge_of_the_range(self, phrase: Phrase) -> bool:
        """True for the "Wedge: forty-six" that ends the figures of "four iron through wedge", told iron by iron."""
        scene = self.scene
        colon = phrase.end + 1 < len(scene.tokens) and scene.tokens[phrase.end].text == ":"
        behind = phrase_at(scene.tokens, phrase.end + 1) if colon else None
        own = any(draft.in_range and draft.name == "pitching wedge" for draft in scene.drafts)
        figure = behind is not None and behind.rule == "bare" and 42 <= behind.amounts[0].value < 50
        return own and figure and not any(draft.family == "wedge" for draft in scene.drafts)

    def _closes_irons(self, phrase: Phrase) -> bool:
        """True for "six to nine and the wedge", "7, 8, 9, wedge": the wedge that goes on where the irons end."""
        scene, at = self.scene, phrase.start - 1
        joined = False
        if self._wedge_of_the_range(phrase):
            return True
        while at >= 0 and (
            scene.tokens[at].terminal in ("AND", "COMMA", "SLASH") or scene.tokens[at].lower in ("the", "a", "plus")
        ):
            joined = joined or scene.tokens[at].terminal != "SILENT"
            at -= 1
        after = phrase_at(scene.tokens, phrase.end) if phrase.end < len(scene.tokens) else None
        lofted = after is not None and after.rule in ("bare", "code", "amounts")
        last = scene.focus[-1] if scene.focus else None
        nine = last is not None and last.family == "iron" and last.number == 9
        return joined and nine and scene.last_end == at + 1 and not lofted
