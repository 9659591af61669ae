"""Two lofts of one club: the stamp, and what it is set, bent or played at."""

from __future__ import annotations

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.phrases import Amount, Phrase, phrase_at
from asplayed.intake.stride import Stride


class Stamps(Stride):
    """Settles which of two lofts is the stamp."""

    def _set_to(self, phrase: Phrase) -> bool:
        """ "9 degrees at 8¼": a second loft of a club with a sleeve, led in by "at", is the one it is set to."""
        scene = self.scene
        draft = scene.focus[-1]
        amount = phrase.amounts[0]
        at, played = phrase.start - 1, False
        while at > 0 and self.tokens[at].terminal == "SILENT":
            played = played or self.tokens[at].lower in ("playing", "plays", "play", "now")
            at -= 1
        before = self.tokens[at] if phrase.start else None
        stamp = draft.facts.get("head.loft")
        moved = draft.value("sleeve.loft_change") or draft.value("bend.loft")
        set_to = (draft.value("head.loft") or 0.0) + (moved or 0.0)
        said_again = moved is not None and moved != 0 and abs(set_to - amount.value) < 1e-6
        if said_again and len(scene.focus) == 1 and amount.unit in ("", "deg") and not amount.signed:
            self._claim(phrase, "club")  # "set to minus one, so eight": what was just said, worked out
            return True
        turned = draft.facts.get("sleeve.loft_change")
        played = played or (turned is not None and turned.value is None and turned.line == phrase.line)
        leads = played or ((before is not None) and (before.terminal in ("AT", "LPAR") or before.text in ("→", "->")))
        if len(scene.focus) > 1 or not draft.adjustable or stamp is None or not leads:
            return False
        if (
            (stamp.line != phrase.line and not played)
            or amount.unit not in ("", "deg")
            or not isinstance(stamp.value, int | float)
        ):
            return False
        if not 0 < abs(amount.value - stamp.value) <= 2.5 or amount.signed:
            return False
        self.put([draft], "target.loft", Entry(amount.value, "deg", phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _worked_out(self, phrase: Phrase) -> bool:
        """ "Bent a degree strong, so it's fifty-seven": what stamp and change make together, said once more."""
        draft = self.scene.focus[-1] if self.scene.focus else None
        amount = phrase.amounts[0]
        if draft is None or len(self.scene.focus) > 1 or amount.unit not in ("", "deg") or amount.signed:
            return False
        stamp = draft.value("head.loft")
        moved = draft.value("sleeve.loft_change") or draft.value("bend.loft")
        if stamp is None or not moved or abs(stamp + moved - amount.value) > 1e-6 or draft.family == "putter":
            return False
        self._claim(phrase, "club")
        return True

    def _bent_at(self, phrase: Phrase) -> bool:
        """ "54/10 @55": a second loft behind the sign "@" of an iron or a wedge is the one it is bent to."""
        draft = self.scene.focus[-1] if self.scene.focus else None
        sign = self.tokens[phrase.start - 1].text if phrase.start else ""
        if draft is None or len(self.scene.focus) > 1 or draft.family not in ("iron", "wedge"):
            return False
        if sign != "@" and not self._now_at(phrase):
            return False
        stamp, amount = draft.value("head.loft"), phrase.amounts[0]
        if stamp is None or amount.unit not in ("", "deg") or amount.signed or abs(amount.value - stamp) > 3:
            return False
        self.put([draft], "target.loft", Entry(amount.value, "deg", phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _bends_the(self, phrase: Phrase) -> bool:
        """ "He bends the fifty two to fifty one", "I bent the 54 one weak": the wedge of that stamp, and its bend."""
        scene, tokens = self.scene, self.tokens
        lofts = [amount.value for amount in phrase.amounts if not amount.signed]
        pointed = any(token.lower in ("the", "his", "her", "my") for token in tokens[phrase.start : phrase.end])
        meant = [draft for draft in scene.drafts if lofts and draft.value("head.loft") == lofts[0] >= 40]
        also = bool(scene.clause_puts) and scene.clause_puts[-1][0] in ("bend.loft", "target.loft")
        led = tokens[phrase.start - 1] if phrase.start else None
        if phrase.rule != "bent" and also and led is not None:
            pointed = led.lower in ("the", "his", "her", "my")  # "The 50 is bent to 49, the 56 to 55"
            pointed = pointed or led.terminal in ("AND", "COMMA")  # "54 bent to 55, 58 to 59"
        if phrase.directions or not pointed or len(meant) != 1:
            return False
        end = phrase.end
        if len(lofts) == 1:  # "bends the 52", and "to 51" behind it
            change = phrase_at(tokens, end) if end < len(tokens) else None
            if change is not None and change.rule == "change" and change.has("WEAK", "STRONG"):
                scene.focus, scene.grouped = meant, False
                scene.take(phrase.start, end)
                self.at = end  # how far follows
                return True
            onward = phrase_at(tokens, end + 1) if end + 1 < len(tokens) and tokens[end].terminal == "RANGE" else None
            if onward is None or onward.rule != "bare":
                return False
            lofts, end = [lofts[0], onward.amounts[0].value], onward.end
        if abs(lofts[1] - lofts[0]) > 5:
            return False
        scene.focus, scene.grouped = meant, False
        self.put(meant, "target.loft", Entry(lofts[1], "deg", phrase.line, scene.words(phrase.start, end)))
        for index in range(phrase.start, end):
            scene.claims[index] = "club"
        self.at = end
        return True

    def _now_at(self, phrase: Phrase) -> bool:
        """True in "the sixty is at sixty-one": the club is pointed to, and what it is at follows."""
        last = self.scene.last_end
        between = self.tokens[last : phrase.start] if 0 < last < phrase.start else []
        linking = all(token.terminal in ("EQ", "AT", "SILENT") for token in between)
        return linking and any(token.terminal == "EQ" for token in between) and between[-1].lower == "at"

    def _really(self, phrase: Phrase) -> bool:
        """ "The fifty-five is actually a fifty-four": the stamp of the wedge just pointed to."""
        scene, tokens = self.scene, self.tokens
        draft = scene.focus[-1] if scene.focus else None
        if draft is None or len(scene.focus) > 1 or draft.family != "wedge" or not 0 <= scene.last_end <= phrase.start:
            return False
        if phrase.rule not in ("bare", "playing"):
            return False
        between = tokens[scene.last_end : phrase.start]
        number = self.tokens.index(phrase.amounts[0].token, phrase.start)
        linked = any(token.terminal == "EQ" for token in between) and tokens[number - 1].lower in ("a", "an")
        stamp, amount = draft.facts.get("head.loft"), phrase.amounts[0]
        if not linked or stamp is None or not isinstance(stamp.value, float) or amount.unit not in ("", "deg"):
            return False
        if not 0 < abs(amount.value - stamp.value) <= 4 or any(token.kind == "number" for token in between):
            return False
        self._stamped(draft, amount, phrase)
        scene.last_end = phrase.end
        self._claim(phrase, "club")
        return True

    def _stamped(self, draft: Draft, amount: Amount, phrase: Phrase) -> None:
        """The stamp of a wedge that was named by the loft it is bent to; a wedge of that stamp named before is it."""
        scene = self.scene
        spoken = draft.facts["head.loft"]
        known = [
            other for other in scene.drafts if other.family == "wedge" and other.value("head.loft") == amount.value
        ]
        if known and set(draft.facts) == {"head.loft"} and not scene.correcting:
            for group in (scene.drafts, scene.clause_drafts, scene.line_drafts):
                if draft in group:
                    group.remove(draft)
            scene.focus = [known[0] if one is draft else one for one in scene.focus]
            draft = known[0]
        draft.put("head.loft", Entry(amount.value, "deg", phrase.line, amount.token.text), correcting=True)
        if scene.correcting:
            scene.correcting = 1  # "correction: the 54 is a 55": the stamp itself was misread
        else:
            draft.facts["target.loft"] = spoken._replace(line=phrase.line, group=0)

    def _really_several(self, phrase: Phrase) -> bool:
        """ "The 51 and 55 are both a 50 and a 54 bent weak": the stamps of the wedges just pointed to, in order."""
        scene, tokens = self.scene, self.tokens
        focus = scene.focus
        if phrase.rule == "playing":
            inner = phrase_at(tokens, tokens.index(phrase.amounts[0].token, phrase.start))
            if inner is None or inner.rule != "amounts":
                return False
            phrase = inner
        if len(focus) < 2 or len(phrase.amounts) != len(focus) or any(draft.family != "wedge" for draft in focus):
            return False
        between = tokens[max(0, scene.last_end) : phrase.start]
        if scene.last_end < 0 or not 0 < len(between) < 6 or not any(token.terminal == "EQ" for token in between):
            return False
        pairs = list(zip(list(focus), phrase.amounts, strict=True))
        for draft, amount in pairs:
            stamp = draft.value("head.loft")
            if stamp is None or amount.unit not in ("", "deg") or not 0 < abs(amount.value - stamp) <= 4:
                return False
        for draft, amount in pairs:
            self._stamped(draft, amount, phrase)
        scene.last_end = phrase.end
        scene.grouped = True
        self._claim(phrase, "club")
        return True
