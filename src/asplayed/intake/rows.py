"""Numbers in rows: which of them name clubs, by the numbers and clubs beside them."""

from __future__ import annotations

from asplayed.intake.bare import loft_of_family
from asplayed.intake.drafts import Draft
from asplayed.intake.making import Making
from asplayed.intake.next_club import lofts_under
from asplayed.intake.phrases import Amount, Phrase, phrase_at, wedge_loft
from asplayed.intake.tokens import Token


def _figure(token: Token) -> float:
    return token.value if isinstance(token.value, float) else 0.0


class Rows(Making):
    """Looks at what stands around a number."""

    def _counted_lofts(self, phrase: Phrase, header: Draft) -> bool:
        """True for each of "2 hybrids, 19 and 23": lofts under a header that counts its clubs, one club each."""
        low, high = lofts_under(self.scene, header)
        tokens = self.scene.tokens
        if not low <= phrase.amounts[0].value <= high or phrase.start < 2:
            return False
        behind = phrase_at(tokens, phrase.end) if phrase.end < len(tokens) else None
        if behind is not None and behind.rule == "club" and behind.amounts:
            return False  # "then a 22-degree 4 hybrid": the loft of the club named behind it
        if self.scene.name_waits and header.word.endswith("s") and not header.facts:
            return True  # "two fairways: Gannet 15, Dunlin 18"
        members = [draft for draft in self.scene.drafts if draft.header is header]
        if self.scene.line_start(phrase.start) and header.word.endswith("s") and phrase.amounts[0].value > 11:
            return True  # "Woods: Gannet", and below it "9, Burr 60 X", "15, Burr 70 X"
        at = phrase.start - 1
        while at > 0 and tokens[at].terminal in ("COMMA", "EQ", "AND", "SILENT", "SLASH", "LPAR", "AT", "IN"):
            at -= 1
        while not members and at > 0 and tokens[at].terminal in ("WORD", "LETTER", "EQ", "SILENT", "COMMA"):
            at -= 1  # "two hybrids: Gannet 19 and 22", "the hybrids are the Gannet, in 19 and 22"
        if not members:
            after = tokens[phrase.end].terminal if phrase.end < len(tokens) else "NEWLINE"
            counted = at > 0 and tokens[at - 1].kind == "number" and tokens[at].terminal in ("HYBRID", "WOOD", "DIRON")
            plural = phrase.amounts[0].value > 11 and at >= 0 and tokens[at].lower.endswith("s")
            plural = plural and tokens[at].terminal in ("HYBRID", "WOOD", "DIRON")
            onward = after in ("COMMA", "AND", "SLASH") and self._loft_next(phrase.end + 1, low, high)
            return self.scene.focus == [header] and (
                (counted and after in ("COMMA", "AND", "SLASH")) or (plural and onward)
            )
        bare = all(set(draft.facts) == {"head.loft"} and draft.number == header.number for draft in members)
        return bare and self.scene.last_end == at + 1 and at + 1 < phrase.start

    def _opens_woods(self, header: Draft, amount: Amount) -> bool:
        """True under "Woods" for the first of "Gannet 9", "Gannet 15": a driver by its loft, before any other wood."""
        told = any(draft.header is header or draft.family == "driver" for draft in self.scene.drafts)
        return header.word == "woods" and not told and amount.unit in ("", "deg") and 8 <= amount.value <= 13

    def _loft_next(self, at: int, low: float, high: float) -> bool:
        """True when another loft of the family stands here."""
        tokens = self.scene.tokens
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "AND"):
            at += 1
        value = tokens[at].value if at < len(tokens) and tokens[at].terminal == "NUM" else None
        return isinstance(value, float) and low <= value <= high

    def _next_numbered(self, phrase: Phrase) -> Draft | None:
        """ "Hybrid 3 (19°) and 4 (22°)", "a 3 at 19 and a 4 at 22": another club of the family just named, by its loft.

        So too "The hybrid is a five" behind a four that has been told of.
        """
        scene, tokens = self.scene, self.scene.tokens
        amount, last = phrase.amounts[0], scene.focus[-1] if scene.focus else None
        if last is None or last.family not in ("hybrid", "wood", "diron") or last.number is None:
            return None
        behind = [token.terminal for token in tokens[phrase.end : phrase.end + 4]]
        bracketed = behind[:2] == ["LPAR", "NUM"] and "RPAR" in behind[2:]
        start = phrase.start - (phrase.start > 0 and tokens[phrase.start - 1].lower in ("a", "an", "the"))
        told = behind[:2] in (["AT", "NUM"], ["EQ", "NUM"])
        lofted = told and loft_of_family(last.family.upper(), _figure(tokens[phrase.end + 1]))
        joined = start > 0 and tokens[start - 1].terminal in ("AND", "COMMA", "SLASH")
        led = 0 < start < phrase.start and scene.last_end == start - 1 and tokens[start - 1].terminal in ("EQ", "COMMA")
        another = led and last.has("head.loft") and behind[:1] in (["COMMA"], ["STOP"], ["AT"])
        if not amount.whole or not last.number < amount.value <= 11:
            return None
        if not (another or ((bracketed or lofted) and joined)):
            return None
        return self._find(last.family, int(amount.value), None) or self._new(
            last.family, phrase, number=int(amount.value)
        )

    def _alone_in_row(self, phrase: Phrase) -> bool:
        """True for a number between two commas, right behind the clubs named before it."""
        tokens = self.scene.tokens
        before, after = tokens[phrase.start - 1], tokens[phrase.end : phrase.end + 1]
        closed = not after or after[0].terminal in ("COMMA", "STOP", "NEWLINE", "AND")
        return before.terminal == "COMMA" and closed and self.scene.last_end == phrase.start - 1

    def _row(self, phrase: Phrase) -> bool:
        """True when a higher loft of a wedge stands right behind the number ("52 56 60")."""
        after = phrase_at(self.scene.tokens, phrase.end) if phrase.end < len(self.scene.tokens) else None
        return (
            after is not None
            and after.rule == "bare"
            and wedge_loft(value := after.amounts[0].value)
            and (value > phrase.amounts[0].value)
        )

    def _wedge_follows(self, phrase: Phrase) -> bool:
        """True when a bounce or a name stands right behind the number."""
        tokens = self.scene.tokens
        at = phrase.end
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "WITH"):
            at += 1
        if at >= len(tokens):
            return False
        after = phrase_at(tokens, at)
        return tokens[at].terminal == "WORD" or (after is not None and after.has("BOUNCE"))

    def _bent_next(self, phrase: Phrase) -> bool:
        """True when a bend or a bounce stands right behind the number."""
        after = phrase_at(self.scene.tokens, phrase.end) if phrase.end < len(self.scene.tokens) else None
        return after is not None and (after.rule == "bent" or after.has("WEAK", "STRONG", "BOUNCE"))

    def _by_number_and_colon(self, phrase: Phrase) -> Draft | None:
        """The six iron of "Four iron through wedge. …  Six: twenty-nine degrees": a sentence opens with its number."""
        scene, amount = self.scene, phrase.amounts[0]
        colon = phrase.end < len(scene.tokens) and scene.tokens[phrase.end].text == ":"
        if not colon or not amount.whole or amount.unit or not scene.line_start(phrase.start):
            return None
        numbered = [draft for draft in scene.drafts if draft.number == int(amount.value)]
        return numbered[0] if len(numbered) == 1 and numbered[0].in_range else None

    def _starts_member(self, phrase: Phrase, header: Draft) -> bool:
        """True when a number behind a comma goes on counting the header's clubs ("3 Gannet 15°, 5 Gannet 18°")."""
        if self._loft_in_bracket(phrase, header):
            return True
        members = [draft for draft in self.scene.drafts if draft.header is header and draft.number]
        return bool(members) and phrase.amounts[0].value > (members[-1].number or 0) and members[-1].has("head.loft")

    def _loft_in_bracket(self, phrase: Phrase, header: Draft) -> bool:
        """True for the 3 of "Woods: Gannet driver (9), 3 (15) and 7 (21)": a loft in brackets, and no loft itself."""
        inside = self.scene.tokens[phrase.end : phrase.end + 2]
        lofted = [token.terminal for token in inside] == ["LPAR", "NUM"] and isinstance(inside[1].value, float)
        return lofted and header.family in ("wood", "hybrid") and 12 <= float(inside[1].value) <= 36  # type: ignore[arg-type]
