"""What each phrase adds to the clubs in focus: figures, changes, settings, one each or all alike."""

from __future__ import annotations

import re

from asplayed.intake import facts as said
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.phrases import Amount, Phrase, phrase_at
from asplayed.intake.scene import Doubt
from asplayed.intake.series import Series
from asplayed.intake.sleeve_words import told_in_bracket
from asplayed.intake.tokens import Token, told_by_number

_AND_MORE = ("COMMA", "AND", "NECK", "FACEBALANCED", "HYPHEN")  # "a face-balanced, slant-neck putter"
_ROW = 60  # tokens of a line that tells each club's position
_POSITION = re.compile(r"[A-Z]{1,2}\d{1,2}[+-]?|\d[A-Z]")
_STRETCH = 8  # tokens: "length changed from 45.5 inches to 45"
_LABELS = {"LENGTH": "length", "LOFT": "head.loft"}
_DENIABLE = ("swing", "flex", "wraps", "change", "labelled")
_PERSONS = {"he", "she", "they", "it", "i", "we"}
_STRIKES = {"hit", "hits", "hitting", "off", "strike", "strikes", "striking", "catch", "catching", "miss", "missing"}
_OF_FLIGHT = {"yards", "yds", "yard", "yd", "mph", "kph", "rpm", "miles", "miles an hour", "miles per hour"}
_USUAL = {"normal", "usual", "they", "these", "stock", "off", "new"}  # what a change can be told against

# What a figure behind "not" was, where the club has another now.
_DENIED = {
    "flex": ("shaft.flex",), "swing": ("stated.swing_weight",), "change": ("bend.lie", "bend.loft", "length_change"),
}  # fmt: skip


class Taking(Series):
    """Puts what phrases say on the clubs in focus."""

    def _facts(self, phrase: Phrase) -> bool:
        scene = self.scene
        if not scene.focus:
            return False
        if self._weight_said(phrase) or self._core(phrase):
            return True
        behind = [token.lower for token in self.tokens[max(0, phrase.start - 2) : phrase.start]]
        onward = self.tokens[phrase.end].lower if phrase.end < len(self.tokens) else ""
        if phrase.rule == "bare" and behind[-1:] == ["the"] and onward in ("was", "were"):
            self.at = phrase.end  # "because the 9 was too low"
            return True
        before = onward in ("before", "originally", "previously", "earlier") and behind[-1:] == ["was"]
        told = phrase.rule == "bare" and phrase.amounts[0].unit == "in" and scene.focus[-1].has("length")
        if behind == ["(", "was"] or (behind == [",", "was"] and told) or before or behind[-1:] == ["formerly"]:
            self.at = phrase.end  # "(was 9)": what it was before
            return True
        small = phrase.rule == "bare" and not phrase.amounts[0].unit and phrase.amounts[0].value <= 5
        if small and behind[-1:] == ["at"] and self._told_of_before(phrase.start):
            self.at = phrase.end  # "he was catching the heel at two"
            return True
        if phrase.rule == "bare" and behind[-1:] == ["from"]:
            self.at = phrase.end  # "9 degrees, down from 10.5"
            return True
        if phrase.rule == "bare" and behind[-1:] in (["not"], ["of"]) and self._instead(phrase):
            return True
        than = phrase.rule == "change" and onward == "than" and phrase.end + 1 < len(self.tokens)
        usual = self.tokens[phrase.end : phrase.end + 4]
        if than and not any(token.terminal == "STD" or token.lower in _USUAL for token in usual):
            scene.leave(phrase.start, phrase.end)
            self.at = phrase.end  # "half an inch shorter than the one in the shop window"
            return True
        known = _DENIED.get(phrase.rule, ()) if behind[-1:] == ["not"] else ()
        if any(draft.has(path) for path in known for draft in scene.focus):
            scene.leave(phrase.start - 1, phrase.end)
            self.at = phrase.end  # "the same in S, not X", "D2, not D3"
            return True
        after = self.tokens[phrase.end] if phrase.end < len(self.tokens) else None
        if phrase.rule == "bare" and after is not None and self._counts_things(phrase, after):
            self.at = phrase.end  # "Two things put right: …"
            return True
        if phrase.rule == "bare" and after is not None and after.terminal == "NOTE" and after.lower == "handicap":
            self.at = phrase.end  # "5 handicap"
            return True
        if phrase.rule == "bare" and after is not None and after.lower in _OF_FLIGHT:
            self.at = phrase.end  # "a good ten yards past my old one", "7i 76mph"
            return True
        onward_words = [token.lower for token in self.tokens[phrase.end : phrase.end + 2]]
        if phrase.rule == "bare" and phrase.amounts[0].unit == "in" and onward_words == ["of", "the"]:
            self.at = phrase.end  # "two inches of the ferrule's paint"
            return True
        inches = phrase.rule == "bare" and phrase.amounts[0].unit == "in"
        if inches and phrase.amounts[0].value < 25 and after is not None and after.terminal == "GRIPWORD":
            self.at = phrase.end  # "17 inch grip"
            return True
        weighed = self.tokens[phrase.start - 1].lower in ("weighs", "weighing") if phrase.start else False
        gripped = bool(scene.clause_puts) and scene.clause_puts[-1][0] == "grip.name"
        if weighed and gripped and phrase.rule == "bare" and phrase.amounts[0].unit == "g":
            self.zone = "grip"  # "the grip on it is the Norrby, which weighs ninety grams"
        led = self.tokens[phrase.start - 1].terminal if phrase.start else ""
        named = bool(phrase.start) and scene.claims[phrase.start - 1] == "club"  # "Burr Spin 56°": of the model
        if phrase.rule == "bare" and led in ("LAUNCH", "SPIN") and not named:
            self.at = phrase.end  # "launch 14.2, spin 2450": of the ball's flight
            return True
        gripped = phrase.rule == "bare" and self.zone.startswith("grip") and phrase.amounts[0].unit == "in"
        if gripped and 5 < phrase.amounts[0].value < 20:
            self.at = phrase.end  # the grip's own length
            return True
        massive = phrase.rule == "bare" and phrase.amounts[0].unit in ("g", "cpm")
        noted = after is not None and after.terminal == "NOTE" and after.value == "tip trim"
        if phrase.rule == "bare" and noted and not massive and phrase.amounts[0].value < 15:
            self.at = phrase.end  # 'tip: -1"' is the workshop's, not the club's length
            return True
        if phrase.rule == "bare" and after is not None and after.lower in ("steps", "increments", "progression"):
            self.at = phrase.end  # "½ in steps": how lengths follow each other
            return True
        steps = phrase.rule == "bare" and phrase.tokens[-1].lower == "inches" and phrase.amounts[0].value < 1
        if steps and phrase.start and self.tokens[phrase.start - 1].lower in ("in", "by"):
            self.at = phrase.end  # "the rest follow in half inches"
            return True
        if phrase.rule == "change" and phrase.start and self.tokens[phrase.start - 1].terminal == "OR":
            return self._undecided(phrase)  # "up or down half"
        if phrase.rule == "bare" and self._spoken_half(phrase):
            return True
        if phrase.rule == "bare" and self._heavier(phrase):
            return True
        if phrase.rule == "bare" and (self._set_to(phrase) or self._numbers(phrase)):
            return True
        if scene.lost:
            scene.doubts.append(
                Doubt(phrase.line, None, "club", f"“{scene.line_words(phrase.start)}”: which club is this?")
            )
            scene.lost_line(phrase.start)
            self.at = phrase.end
            return True
        denied = phrase.start > 0 and self.tokens[phrase.start - 1].lower == "not"  # "110 S, not 105"
        if denied and scene.clause_puts and phrase.rule in _DENIABLE:
            scene.claims[phrase.start - 1 : phrase.end] = ["left"] * (len(phrase.tokens) + 1)
            self.at = phrase.end  # "D2, not D3"
            return True
        flexed = phrase.rule == "flex" and all(draft.has("shaft.flex") for draft in scene.focus)
        if flexed and phrase.tokens[0].lower == "firm" and not scene.correcting:
            self._claim(phrase, "left")
            return True  # "Dray 110 X (firm. …": of the ground
        if scene.correcting and len(scene.focus) > 1 and self._series(phrase):
            scene.correcting = 0  # "eighteen and twenty-two, no, eighteen and twenty-one"
            return True
        if scene.correcting and phrase.rule == "change" and self._other_way(phrase):
            return True
        signed = len(phrase.tokens) == 2 and phrase.tokens[0].lower == "plus"  # "half an inch, no, plus a quarter"
        if scene.correcting and (phrase.rule == "bare" or signed) and not denied and self._correct(phrase):
            return True
        if scene.replaced and phrase.rule == "bare" and self._replace(phrase):
            return True
        if phrase.rule == "bare" and (self._mass_before_flex(phrase) or self._same_but(phrase)):
            return True
        if phrase.rule == "plainly" and (self._standard_again(phrase) or self._built_to_standard(phrase)):
            return True
        if phrase.rule in ("flex", "sole") and self._letter(phrase):
            return True
        if phrase.rule == "bare" and self._alternative(phrase):
            return True
        taken = False
        self._row_of_all(phrase)
        focus = scene.focus
        if len(focus) > 1 and self._series(phrase):
            return True
        if scene.implicit and len(focus) > 1 and self._individual(phrase):
            focus = focus[-1:]
        for draft in focus:
            mass = draft.facts.get("shaft.mass")
            draft.narrowed = mass is not None and mass.group > len(focus) and self._near(phrase, mass)
        zone = self.zone.rstrip("~") if phrase.amounts and phrase.amounts[0].unit else self.zone
        for draft in focus:
            facts = said.facts_of(phrase, draft, zone, at=behind[-1:] in (["at"], ["@"]))
            if not facts or (len(focus) > 1 and self._only_one_can_have(facts[0][0], phrase)):
                continue
            taken = True
            for path, entry in facts:
                self.put([draft], path, entry)
            self._after(facts[0][0], phrase)
        if taken and phrase.rule == "bare" and len(focus) > 1 and self.zone.startswith("shaft"):
            self._mass_of_all(phrase, focus)
        if taken:
            if phrase.rule == "flex" and scene.all_said == phrase.start:
                self._all_flexed()
            self._claim(phrase, "club")
            return True
        return self._undecided(phrase)

    def _mass_of_all(self, phrase: Phrase, focus: list[Draft]) -> None:
        """ "… the same shaft, Stemlite 40": one shaft's mass is that of every club said to have it, however light."""
        named = [draft for draft in focus if draft.family != "putter" and "shaft.name" in draft.facts]
        entry = Entry(phrase.amounts[0].value, "g", phrase.line, phrase.amounts[0].token.text)
        given = [draft.facts.get("shaft.mass", entry._replace(line=0)) for draft in named]
        lacking = [draft for draft in named if "shaft.mass" not in draft.facts]
        if lacking and any((one.value, one.line) == (entry.value, entry.line) for one in given):
            self.put(lacking, "shaft.mass", entry)

    def _told_of_before(self, at: int) -> bool:
        """True where "he was", "it was" stands before, in the same stretch between marks."""
        tokens, start = self.tokens, at - 1
        while start > 0 and tokens[start].kind == "word" and tokens[start].lower not in ("was", "were"):
            start -= 1
        return start > 0 and tokens[start].lower in ("was", "were") and tokens[start - 1].lower in _PERSONS

    def _unit_behind_or(self, phrase: Phrase) -> str:
        """The unit of "45 or 55 grams", said once behind both."""
        tokens, at = self.tokens, phrase.end
        other = phrase_at(tokens, at + 1) if at + 1 < len(tokens) and tokens[at].terminal == "OR" else None
        return other.amounts[0].unit if other is not None and other.rule == "bare" else ""

    def _alternative(self, phrase: Phrase) -> bool:
        """ "Bounce 10 or 14": a second figure for the place of the first."""
        path, drafts = self.scene.choosing or ("", [])
        amount, old = phrase.amounts[0], drafts[0].facts.get(path) if drafts else None
        if old is None or not isinstance(old.value, float) or amount.signed:
            return False
        near = abs(amount.value - old.value) <= max(4.0, 0.3 * old.value)
        if not near or (amount.unit or old.unit) != old.unit:
            return False
        self.put(drafts, path, Entry(amount.value, old.unit, phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _counts_things(self, phrase: Phrase, after: Token) -> bool:
        """True for a number in a word before a plain plural: what it counts is no part of a club."""
        amount = phrase.amounts[0]
        plural = after.terminal in ("WORD", "SILENT") and after.text.islower() and after.lower.endswith("s")
        plural = plural and len(after.text) > 4  # not "seventy as well"
        return plural and self.scene.cased and not amount.unit and amount.token.text.isalpha()

    def _instead(self, phrase: Phrase) -> bool:
        """ "The driver is 10.5 not 9.5", "34 instead of 35": the figure that does not hold."""
        tokens, start = self.tokens, phrase.start - 1
        if tokens[start].lower == "of":
            start -= 1
        if start < 1 or tokens[start].lower not in ("not", "instead"):
            return False
        at = start - 1
        while at > 0 and tokens[at].terminal in ("COMMA", "SILENT", "DEG", "INCH", "GRAM", "AND"):
            at -= 1
        if tokens[at].kind != "number" or self.scene.claims[at] != "club":
            return False
        for index in range(start, phrase.end):
            self.scene.claims[index] = "left"
        self.at = phrase.end
        return True

    def _spoken_half(self, phrase: Phrase) -> bool:
        """ "A driver, ten five": a driver's loft as people say it, ten and a half."""
        draft, tokens = self.scene.focus[-1], self.tokens
        amount = phrase.amounts[0]
        half = tokens[phrase.end] if phrase.end < len(tokens) else None
        said = half is not None and (
            (half.text == "five" and amount.token.text.isalpha()) or (half.text == "5" and amount.token.text.isdigit())
        )
        if half is None or not said or draft.family != "driver" or half.glued:
            return False
        behind = tokens[phrase.end + 1].terminal if phrase.end + 1 < len(tokens) else "NEWLINE"
        closed = behind in ("COMMA", "STOP", "NEWLINE", "BREAK", "WITH", "DEG", "SILENT", "WORD")
        if not closed or draft.has("head.loft") or not 7 <= amount.value <= 13 or not amount.whole:
            return False
        self.put([draft], "head.loft", Entry(amount.value + 0.5, "deg", phrase.line, f"{amount.token.text} five"))
        for index in range(phrase.start, phrase.end + 1):
            self.scene.claims[index] = "club"
        self.at = phrase.end + 1
        return True

    def _heavier(self, phrase: Phrase) -> bool:
        """ "Same shaft, 10 g heavier": the mass of the club before it with that shaft and so much; else asked."""
        scene, tokens = self.scene, self.tokens
        word = tokens[phrase.end].lower if phrase.end < len(tokens) else ""
        amount = phrase.amounts[0]
        if word not in ("heavier", "lighter") or amount.unit not in ("g", "") or not 0 < amount.value <= 40:
            return False
        step = amount.value if word == "heavier" else -amount.value
        shafts = any(noun in ("", "WHOLE", "SHAFTWORD") for _targets, noun, _phrase in scene.same)
        for draft in scene.focus:
            earlier = scene.drafts[: scene.drafts.index(draft)] if draft in scene.drafts else []
            own = draft.facts.get("shaft.name")
            like = [
                other for other in earlier
                if other not in scene.focus and other.value("shaft.mass") is not None
                and (shafts or (own is not None and other.value("shaft.name") == own.value))
            ]  # fmt: skip
            told = f"{amount.token.text} g {word}"
            if not like or draft.has("shaft.mass"):
                scene.doubts.append(Doubt(phrase.line, draft, "shaft.mass", told))
                continue
            mass = (like[-1].value("shaft.mass") or 0.0) + step
            why = f"{told} than {like[-1].value('shaft.mass'):g} g"
            self.put([draft], "shaft.mass", Entry(mass, "g", phrase.line, told, why=why))
        for index in range(phrase.start, phrase.end + 1):
            scene.claims[index] = "club"
        self.at = phrase.end + 1
        return True

    def _all_flexed(self) -> None:
        """ "Driver …, 5 wood …, 7 iron …, all ladies flex": every club of the clause without a shaft of its own."""
        path, _drafts = self.scene.last_path
        entry = self.scene.focus[-1].facts.get(path)
        for draft in self.scene.clause_drafts if entry is not None else ():
            if draft.family != "putter" and not draft.has(path) and not draft.has("shaft.name"):
                draft.put(path, entry._replace(group=1))  # type: ignore[union-attr]

    def _numbers(self, phrase: Phrase) -> bool:
        """ "Hybrid: Tern 4, 22°": the number of a club named without one."""
        draft = self.scene.focus[-1]
        amount = phrase.amounts[0]
        bracket = self.tokens[phrase.end : phrase.end + 1]
        told = told_by_number(self.tokens, phrase.start)  # "one other wood, a number 5"
        bracketed = bool(bracket) and bracket[0].terminal == "LPAR" and not draft.facts
        fresh = draft.family == "wood" and (told or bracketed)
        unnumbered = (
            (draft.family in ("hybrid", "diron") or fresh) and draft.number is None and draft in self.scene.drafts
        )
        if not unnumbered or len(self.scene.focus) > 1 or self.zone.startswith(("shaft", "grip")):
            return False
        if not amount.whole or amount.signed or not 1 <= amount.value <= 9 or draft.has("head.loft"):
            return False
        draft.number = int(amount.value)
        self._claim(phrase, "club")
        return True

    def _core(self, phrase: Phrase) -> bool:
        """ "Grips: Corded (58R)": the size of a grip's core and its roundness, which have no field."""
        tokens, end = self.tokens, phrase.end
        if not self.zone.startswith("grip") or phrase.rule != "bare" or phrase.amounts[0].value not in (56, 58, 60, 62):
            return False
        if end >= len(tokens) or not tokens[end].glued or tokens[end].text.upper() not in ("R", "RD", "X", "RIB"):
            return False
        for at in (phrase.start, end):
            self.scene.claims[at] = "note"
        self.scene.add_note(phrase.start, end + 1, None)
        self.at = end + 1
        return True

    def _weight_said(self, phrase: Phrase) -> bool:
        """Grams behind "the weight's in the back": the mass of the weight just placed."""
        path, drafts = self.scene.last_path
        if path != "weights" or phrase.rule != "bare" or phrase.amounts[0].unit != "g" or phrase.amounts[0].value > 40:
            return False
        for draft in drafts:
            if not draft.weights or draft.weights[-1].mass is not None or draft.weights[-1].step is not None:
                return False
            draft.weights[-1] = draft.weights[-1]._replace(mass=phrase.amounts[0].value)
        self._each_weight(drafts, phrase.end)
        self._claim(phrase, "club")
        return True

    def _each_weight(self, drafts: list[Draft], end: int) -> None:
        """ "Heel and toe 15 g each": the weight placed before has the same mass."""
        if end >= len(self.tokens) or self.tokens[end].lower not in ("each", "apiece"):
            return
        for draft in drafts:
            first, last = draft.weights[-2:] if len(draft.weights) > 1 else (None, None)
            if first is not None and last is not None and first.mass is None and first.step is None:
                draft.weights[-2] = first._replace(mass=last.mass)

    def _weight(self, phrase: Phrase) -> bool:
        scene = self.scene
        targets = [draft for draft in scene.focus if draft.family in ("driver", "wood", "hybrid", "putter")]
        before = self.tokens[phrase.start - 2 : phrase.start]
        if any(token.lower in _STRIKES for token in before) and not phrase.amounts and not phrase.has("WEIGHT"):
            return False  # "I kept hitting the toe"
        if not targets or (not phrase.amounts and not phrase.has("WEIGHT", "TURNED", "CLICK") and self.zone == "shaft"):
            return False
        for draft in targets:
            draft.move(said.moved(phrase), correcting=scene.correcting > 0 and not draft.lines)
        self._each_weight(targets, phrase.end)
        scene.last_path = ("weights", targets)
        self._claim(phrase, "club")
        return True

    def _undecided(self, phrase: Phrase) -> bool:
        """A figure that could be several things: kept as a question, never guessed."""
        scene = self.scene
        if phrase.rule not in ("bare", "change", "turned", "sleeve", "bent") or not phrase.amounts:
            return False
        amount = phrase.amounts[0]
        if amount.whole and 1900 <= amount.value <= 2100:
            return False  # a year
        if any(entry.value == amount.value and entry.line != phrase.line for entry in scene.focus[0].facts.values()):
            self._claim(phrase, "club")  # said before, of this club
            return True
        about = "club"
        if amount.signed or phrase.rule in ("change", "turned", "sleeve", "bent"):
            about = "sleeve.loft_change" if scene.focus[0].adjustable else "bend.lie"
        elif amount.value > 30:
            about = "length" if amount.value < 50 else "shaft.mass"
        else:
            about = "head.loft"
        scene.doubts.append(Doubt(phrase.line, scene.focus[0], about, scene.words(phrase.start, phrase.end)))
        self._claim(phrase, "question")
        return True

    def _position(self, token: Token) -> bool:
        """A code alone between separators ("P6") on a club with a sleeve is its position; or one put right."""
        scene = self.scene
        after = scene.tokens[self.at + 1] if self.at + 1 < len(scene.tokens) else None
        if after is not None and after.kind == "mark" and not after.text:
            after = scene.tokens[self.at + 2] if self.at + 2 < len(scene.tokens) else None
        alone = after is None or after.terminal in ("COMMA", "NEWLINE", "STOP", "SLASH", "RPAR", "PIPE", "DASH")
        alone = alone or told_in_bracket(self.tokens, self.at + 1)
        focus = scene.focus
        lettered = scene.cell == "sleeve" and len(token.text) == 1 and token.text.isupper()
        alone = alone or (scene.cell == "sleeve" and after is not None and after.terminal == "LPAR")
        if not (alone and focus and focus[-1].adjustable):
            return False
        corrected = token.terminal == "POSCODE" and scene.correcting > 0 and focus[-1].has("sleeve.position")
        fresh = token.terminal == "WORD" and scene.chunk_opens(self.at) and focus[-1].has("head.name")
        fresh = fresh or (self.at == scene.last_end and self._of_sleeves())
        if not corrected and not (
            fresh and (lettered or _POSITION.fullmatch(token.text)) and not focus[-1].has("sleeve.position")
        ):
            return False
        self.put(focus, "sleeve.position", Entry(token.text, "1", token.line, token.text))
        scene.claims[self.at] = "club"
        self.at += 1
        return True

    def _of_sleeves(self) -> bool:
        """True in the line "Sleeves: Dr A2, 3w B1"."""
        at = self.at
        while at > 0 and self.at - at < _ROW and self.tokens[at - 1].terminal not in ("NEWLINE", "STOP"):
            at -= 1
        return self.tokens[at].terminal == "SLEEVE"

    def _of_putter_behind(self, phrase: Phrase) -> bool:
        """ "A slant-neck putter", "the face-balanced Stint putter": told of the putter that is named behind it."""
        scene, tokens, at = self.scene, self.tokens, phrase.end
        while at < len(tokens) and at - phrase.end < 4 and tokens[at].terminal in ("WORD", "SILENT", "NUM", *_AND_MORE):
            at += 1
        putter = phrase_at(tokens, at) if at < len(tokens) and tokens[at].terminal == "PUTTER" else None
        behind = tokens[at + 1].terminal if at + 1 < len(tokens) else "NEWLINE"
        if putter is None or scene.table is not None or behind in ("EQ", "DASH"):
            return False  # "flow neck, putter: Stint"
        drafts = self.mentions.take(putter, "") or []
        for draft in drafts:
            for path, entry in said.facts_of(phrase, draft, "") or []:
                draft.put(path, entry)
        self.names.attach_pending(drafts)
        self._claim(phrase, "club")
        return bool(drafts)

    def _letter(self, phrase: Phrase) -> bool:
        """A single letter: a wedge's sole right behind its loft, else a flex."""
        scene = self.scene
        token = phrase.tokens[0]
        draft = scene.focus[-1]
        if self._soles(phrase):
            return True
        short = len(token.text) <= 2 and len(phrase.tokens) == 1 and token.terminal in ("FLEXCODE", "LETTER")
        behind = scene.after_loft == self.at
        if scene.after_loft == self.at - 1 and self.tokens[self.at - 1].glued:
            behind = self.tokens[self.at - 1].terminal in ("SLASH", "DASH", "HYPHEN")  # "54/10/S"
        if short and draft.family == "wedge" and behind and not self.zone.startswith("shaft"):
            self.put([draft], "head.sole", Entry(token.text, "1", token.line, token.text))
            self._claim(phrase, "club")
            return True
        if phrase.rule == "sole" and token.terminal == "LETTER" and len(phrase.tokens) == 1:
            return self.zone == "sole" and self._put_word("head.sole", phrase)
        return False

    def _soles(self, phrase: Phrase) -> bool:
        """ "52/56/60 Crake F/S/C", "(F, S and C grinds)": as many letters as wedges, one sole each."""
        focus, tokens = self.scene.focus, self.tokens
        if len(focus) < 2 or any(draft.family != "wedge" or draft.has("head.sole") for draft in focus):
            return False
        end = phrase.start + 2 * len(focus) - 1
        letters, marks = tokens[phrase.start : end : 2], tokens[phrase.start + 1 : end : 2]
        if len(letters) < len(focus) or any(mark.terminal not in ("SLASH", "COMMA", "AND") for mark in marks):
            return False
        if any(token.terminal not in ("LETTER", "FLEXCODE") or len(token.text) > 1 for token in letters):
            return False
        for draft, token in zip(focus, letters, strict=True):
            draft.put("head.sole", Entry(token.text, "1", token.line, token.text))
        for index in range(phrase.start, end):
            self.scene.claims[index] = "club"
        self.at = end
        return True

    def _put_word(self, path: str, phrase: Phrase) -> bool:
        token = phrase.tokens[0]
        self.put(self.scene.focus, path, Entry(token.text, "1", token.line, token.text))
        self._claim(phrase, "club")
        return True

    def _other_way(self, phrase: Phrase) -> bool:
        """ "Two degrees flat, no, upright": the change told before, the other way round."""
        scene, (path, drafts) = self.scene, self.scene.last_path
        told = {"UPRIGHT": "bend.lie", "FLAT": "bend.lie", "WEAK": "bend.loft", "STRONG": "bend.loft"}
        told |= {"LONG": "length_change", "SHORT": "length_change"}
        if phrase.amounts or len(phrase.tokens) > 1 or told.get(phrase.tokens[0].terminal) != path or not drafts:
            return False
        sign = 1 if phrase.tokens[0].terminal in ("UPRIGHT", "WEAK", "LONG") else -1
        for draft in scene.focus:
            old = draft.facts.get(path)
            if old is not None and isinstance(old.value, float):
                text = f"{old.text}, {phrase.tokens[0].text}"
                draft.put(path, old._replace(value=sign * abs(old.value), text=text), correcting=True)
        self._claim(phrase, "club")
        scene.correcting = 0
        return True

    def _correct(self, phrase: Phrase) -> bool:
        """A bare number behind "sorry" or "no, make it": it takes the place of the last figure it can replace."""
        scene = self.scene
        amount = phrase.amounts[0]
        path, drafts = scene.last_number
        spoken = any(draft in scene.focus for draft in drafts)  # else another club has been named since
        if not spoken or not _in_place_of(amount, drafts[-1].value(path)):
            path, drafts = self._nearest(amount), scene.focus  # "fifty-six with fourteen. Sorry, fifty-four"
        drafts = [draft for draft in drafts if draft in scene.focus] or drafts  # "… 70 g. Sorry, 80 in the 7 wood"
        if len({draft.value(path) for draft in drafts}) > 1:
            drafts = drafts[-1:]  # "50, 56, sorry, 55": the last of them
        old = drafts[0].facts.get(path) if drafts else None
        if old is None or not isinstance(old.value, int | float):
            return False
        known = float(old.value)
        unit = {"deg": "deg", "in": "in", "g": "g"}.get(amount.unit, "")
        if unit and unit != old.unit:
            return False
        if not _in_place_of(amount, known):
            return False
        value = -amount.value if known < 0 and not amount.signed else amount.value
        for draft in drafts:
            draft.put(path, Entry(value, old.unit, phrase.line, amount.token.text), correcting=True)
        self._claim(phrase, "club")
        scene.correcting = 2 if scene.correcting_line else 0
        return True

    def _replace(self, phrase: Phrase) -> bool:
        """ "From Ostrane 60 S to Lindrake 65 X": a bare number that takes the place of the figure it is nearest to."""
        amount, focus = phrase.amounts[0], self.scene.focus
        if not focus or amount.signed:
            return False
        reach = {"length": 2.5, "head.loft": 4.0, "shaft.mass": 40.0}
        units = {"deg": ("head.loft",), "in": ("length",), "g": ("shaft.mass",)}
        known = {path: focus[0].value(path) for path in units.get(amount.unit, tuple(reach))}
        near = [path for path, old in known.items() if old is not None and abs(old - amount.value) <= reach[path]]
        stretch = self.tokens[max(self.scene.chunk_start, phrase.start - _STRETCH) : phrase.start]
        led = next((_LABELS[token.terminal] for token in reversed(stretch) if token.terminal in _LABELS), None)
        if led is not None and led in units.get(amount.unit, (led,)):
            near = [led]  # "length changed from 45.5 to 45"
        elif self.zone == "shaft" and not amount.unit and 38 <= amount.value <= 150:
            near = ["shaft.mass"]
        if not near:
            return False
        path = near[0]
        unit = {"head.loft": "deg", "length": "in", "shaft.mass": "g"}[path]
        self.put(focus, path, Entry(amount.value, unit, phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _nearest(self, amount: Amount) -> str:
        """The figure of the club in focus that a number behind "correction: the irons are …" can take the place of."""
        draft = self.scene.focus[-1]
        units = {"deg": ("head.loft",), "in": ("length",), "g": ("shaft.mass",)}
        reach = {"shaft.mass": 40.0, "length": 2.5, "head.loft": 4.0}
        apart = {
            path: abs(known - amount.value) / reach[path]
            for path in units.get(amount.unit, tuple(reach))
            if (known := draft.value(path)) is not None and not amount.signed
        }
        path = min(apart, key=lambda path: apart[path], default="")
        return path if path and apart[path] <= 1 else ""

    def _after(self, path: str, phrase: Phrase) -> None:
        scene = self.scene
        if path == "head.loft":
            scene.after_loft = phrase.end
        if path in ("shaft.flex", "shaft.mass", "shaft.mass_range") and not self.zone:
            self.zone = "shaft"
        spent = ("loft", "lie", "bounce", "length", "torque", "toe_hang", "sleeve", "bend", "wraps", "total")
        if self.zone in spent and scene.table is None:
            self.zone = ""


def _in_place_of(amount: Amount, known: float | None) -> bool:
    """True for a figure with its unit, and for one so near to the known one that it can put it right."""
    unit = amount.unit in ("deg", "in", "g")
    return known is not None and (unit or abs(amount.value - abs(known)) <= max(6.0, 0.5 * abs(known)))
