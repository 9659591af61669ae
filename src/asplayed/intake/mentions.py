"""Which clubs a phrase names: new ones, ones named before, ranges, groups."""

from __future__ import annotations

from asplayed.intake.bare import WOOD_LOFTS
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.groups import FAMILIES
from asplayed.intake.making import POINTERS, number_by_loft, wedges_to
from asplayed.intake.phrases import CLUB_RULES, Amount, Phrase, phrase_at, wedge_loft
from asplayed.intake.tables import cells_of_row
from asplayed.intake.tokens import Token, told_by_number
from asplayed.intake.wedges import Wedges


class Mentions(Wedges):
    """Finds or makes the clubs that phrases name, and keeps the focus."""

    # -------------------------------------------------------------------------------------------- taking a phrase

    def take(self, phrase: Phrase, zone: str) -> list[Draft] | None:
        """The clubs this phrase names, put into focus; None when it names none here."""
        rule = phrase.rule
        if rule == "bare":
            return self._bare(phrase, zone)
        if rule == "code":
            return self._code(phrase)
        if rule == "family":
            return self._family(phrase)
        led = self.scene.tokens[phrase.start - 1].lower if phrase.start else ""
        near = self.scene.tokens[max(0, phrase.start - 5) : phrase.start]
        irons = led in ("numbers", "nos") and any(token.terminal == "IRON" for token in near)
        rows = led in ("numbers", "rows", "lines", "items", "nos") and not irons
        if rule in ("dashed", "span") and rows:
            return None  # "… on numbers 1 to 7": rows of the sheet
        if rule == "amounts" and (one := self._counted_before(phrase)) is not None:
            return self._one(one)
        if rule in ("span", "dashed", "amounts"):
            return self._several(phrase)
        return self._one(phrase)

    def _one(self, phrase: Phrase) -> list[Draft] | None:
        scene = self.scene
        word = phrase.first("DIRON") or phrase.first(*FAMILIES)  # "3i utility"
        assert word is not None
        family = FAMILIES[word.terminal]
        amount = phrase.amounts[0] if phrase.amounts else None
        pointed = self._pointed(phrase)
        last = scene.focus[-1] if scene.focus else None
        spoken = last is not None and (last in scene.clause_drafts or (last in scene.asked and not last.facts))
        own = last is not None and spoken and last.family == "iron" and not last.in_range
        driving = word.terminal == "DIRON" and not phrase.has("IRON") and (amount is None or amount.value > 11)
        if last is not None and own and driving and (last.number or 9) <= 4:
            last.family = "diron"  # "2i: Knot driving iron 18"
            self._loft_of(last, amount, phrase)
            return self._focus([last], phrase)
        fresh = last is not None and last in scene.clause_drafts and last.family == "diron" and not last.facts
        whole = amount is None or (amount.whole and amount.value <= 9)
        if last is not None and fresh and word.terminal == "HYBRID" and whole and last.number is None:
            last.family = "hybrid"  # "Utility, well, it's a hybrid", "Util: Thornback 3 hybrid 19"
            last.number = int(amount.value) if amount is not None else None
            return self._focus([last], phrase)
        if word.terminal in ("HYBRID", "DIRON") and amount is None and (members := self._all_of(family, phrase)):
            return members
        if word.terminal == "NAMEDWEDGE":
            return self._focus([self._wedge(str(word.value), amount, phrase, pointed)], phrase)
        if word.terminal == "WEDGE":
            assert amount is not None
            if amount.value < 10:
                return self._family(phrase)
            return self._focus([self._by_loft(amount.value, phrase)], phrase)
        if family == "wood" and amount is not None and amount.value == 1:
            return self._focus(
                [self._find("driver", None, "driver") or self._new("driver", phrase, name="driver")], phrase
            )
        if word.terminal == "CHIPPER":
            draft = self._find("wedge", None, "chipper") or self._new("wedge", phrase, name="chipper")
        elif family in ("driver", "putter"):
            name = "mini driver" if word.terminal == "MINIDRIVER" else family
            draft = self._find(family, None, name) or self._new(family, phrase, name=name)
            woods = scene.header is not None and scene.focus == [scene.header] and scene.header.word == "woods"
            if woods and family == "driver" and scene.header is not None and not draft.facts and scene.header.facts:
                draft.header = scene.header  # "The woods are both Gannet, a driver of 43 inches and a 3 wood of 42"
        else:
            found = self._numbered(family, amount, phrase, pointed)
            if found is None:
                return None
            draft = found
        self._loft_of(draft, amount, phrase)
        return self._focus([draft], phrase, scene.header)

    def _numbered(self, family: str, amount: Amount | None, phrase: Phrase, pointed: bool) -> Draft | None:
        """A wood, hybrid or iron by its number or its loft."""
        last = self.scene.focus[-1] if self.scene.focus else None
        at = phrase.start - 1
        while at > 0 and self.scene.tokens[at].lower in POINTERS:
            at -= 1
        explained = at > 0 and self.scene.tokens[at].lower in ("that's", "it's", "thats", "is")
        nameless = last is not None and last.family == "diron" and last.number is None
        nameless = nameless and last is not None and (explained or not last.has("head.loft"))
        if family == "iron" and amount is not None and amount.whole and nameless and last in self.scene.clause_drafts:
            assert last is not None
            last.number = int(amount.value)  # "a driving iron, the two iron"
            return last
        entry = last is not None and last.family == family and last.number is None and self._entry(phrase)
        if last is not None and entry and amount is not None and amount.whole and amount.value <= 11:
            last.number = int(amount.value)  # "FAIRWAY", and below it "Model: Serin", "Club: 3 wood"
            if last in self.scene.headers:
                self.scene.headers.remove(last)
            if last not in self.scene.drafts:
                self.scene.drafts.append(last)
            return last
        titled = last is not None and set(last.facts) <= {"head.name"} and self._behind_dash(phrase)
        titled = titled or (last is not None and amount is not None and self._of_its_loft(last, amount.value))
        unsaid = last is not None and last.family == family and last.number is None and (not last.facts or titled)
        between = self.scene.tokens[self.scene.last_end : phrase.start] if self.scene.last_end >= 0 else []
        asked = last in self.scene.drafts and not last.facts and any(token.text == "?" for token in between)
        spoken = unsaid and (last in self.scene.clause_drafts or asked)  # "And a hybrid?", "Four hybrid, the Gannet"
        if spoken and amount is not None and amount.whole and amount.value <= 11:
            assert last is not None
            last.number = int(amount.value)  # "there's a hybrid, four hybrid"
            return last
        counted = phrase.tokens[-1].kind == "word" and phrase.tokens[-1].lower.endswith("s")
        if amount is not None and amount.whole and amount.value <= 8 and counted and phrase.tokens[0].kind == "number":
            return self.header(family, phrase)
        if amount is not None and amount.whole and amount.value <= 11:
            number = int(amount.value)
            existing = self._find(family, number, None) or self._told_by_loft(family, number, phrase)
            if existing is None:
                unnamed = [d for d in self.scene.drafts if d.family == family and d.number is None and pointed]
                one = len(unnamed) == 1 and family != "wood" and not self._lofted_otherwise(unnamed[0], phrase)
                existing = unnamed[0] if one else None
            return existing or self._new(family, phrase, number=number)
        same = [draft for draft in self.scene.drafts if draft.family == family]
        if amount is not None:
            stamped = [draft for draft in same if draft.value("head.loft") == amount.value]
            return stamped[0] if stamped else self._new(family, phrase)
        plural = phrase.tokens[0].lower.endswith("s") or self._followed_by_eq(phrase)
        after = self.scene.tokens[phrase.end] if phrase.end < len(self.scene.tokens) else None
        heads = after is not None and after.text == ":" and self._named_next(phrase, family)
        if (plural or heads) and not same:
            return self.header(family, phrase)
        near = self.scene.correcting or not self.scene.line_start(phrase.start)
        if same and (pointed or (len(same) == 1 and near)):
            return same[-1] if len(same) == 1 or not plural else None
        return self._new(family, phrase)

    def _told_by_loft(self, family: str, number: int, phrase: Phrase) -> Draft | None:
        """The 15 of "Rimefall, 15 and 21 degrees, a 3 wood and a 7 wood": told by its loft, then by its number."""
        for draft in self.scene.drafts if self._pointed(phrase) else self.scene.clause_drafts:
            loft = draft.value("head.loft") if draft.family == family and draft.number is None else None
            told = loft is not None and number_by_loft(family, loft) == number
            if told and not self._lofted_otherwise(draft, phrase):
                draft.number = number
                return draft
        return None

    def _another_stamp(self, phrase: Phrase, last: Draft) -> bool:
        """True for the 60 of "a 54 with a full sole and a 60 with heel relief": a higher loft behind "and a"."""
        before = [token.lower for token in self.scene.tokens[max(0, phrase.start - 2) : phrase.start]]
        higher = phrase.amounts[0].value > float(last.value("head.loft") or 90)
        return higher and before in (["and", "a"], ["plus", "a"], ["and", "one"])

    def _lofted_otherwise(self, draft: Draft, phrase: Phrase) -> bool:
        """True for the five of "a 22-degree hybrid …. The 5 hybrid is a Gannet, 25 degrees": of another loft."""
        loft, tokens = draft.value("head.loft"), self.scene.tokens
        for at in range(phrase.end, self.scene.clause_end(phrase.end) if loft is not None else phrase.end):
            found = phrase_at(tokens, at)
            if found is not None and found.rule == "bare" and found.amounts[0].unit == "deg":
                return found.amounts[0].value != loft
        return False

    def _all_of(self, family: str, phrase: Phrase) -> list[Draft]:
        """The known clubs of a family that a plural points to ("Shafts: hybrids Ostrane 80 S"); [] for a header."""
        members = [draft for draft in self.scene.drafts if draft.family == family]
        plural = phrase.tokens[-1].lower.endswith("s")
        headed = self.scene.line_start(phrase.start) and self._members_follow(phrase, family)
        if not plural or len(members) < 2 or headed or self._named_next(phrase, family):
            return []
        at = phrase.start - 1
        if at > 0 and self.scene.tokens[at].terminal == "AND" and self.scene.last_end == at:
            members = [*self.scene.focus, *(draft for draft in members if draft not in self.scene.focus)]
        self.scene.focus = members
        self.scene.grouped = True
        self.scene.last_end = phrase.end
        return members

    def _followed_by_eq(self, phrase: Phrase) -> bool:
        after = self.scene.tokens[phrase.end] if phrase.end < len(self.scene.tokens) else None
        return after is not None and after.text == ":" and self._numbers_follow(phrase.end + 1)

    def _numbers_follow(self, position: int) -> bool:
        tokens = self.scene.tokens
        first = phrase_at(tokens, position) if position < len(tokens) else None
        if (
            first is not None
            and first.rule == "bare"
            and first.amounts[0].unit == "deg"
            and first.amounts[0].value > 11
        ):
            return False  # "Hybrid: 20 deg" is one club
        return position < len(tokens) and tokens[position].terminal in ("NUM", "NEWLINE")

    def _bare(self, phrase: Phrase, zone: str) -> list[Draft] | None:
        """A number alone that names a club: a wedge by its loft, or a number under its header."""
        scene = self.scene
        amount = phrase.amounts[0]
        value = amount.value
        if scene.correcting and self._pointed(phrase) and wedge_loft(value):
            stamped = [d for d in scene.drafts if d.family == "wedge" and d.value("head.loft") == value]
            after = scene.tokens[phrase.end] if phrase.end < len(scene.tokens) else None
            if len(stamped) == 1 and after is not None and after.terminal in ("EQ", "SILENT", "BENT"):
                return self._focus(stamped, phrase)  # "correction: the 54 is a 55"
        if scene.correcting and (other := self._number_corrected(phrase)) is not None:
            return self._focus([other], phrase)
        if scene.correcting and self._length_behind(phrase.end + 1) and (one := self._pointed_number(phrase, zone)):
            return self._focus([one], phrase)  # "No, sorry, the nine is thirty-three"
        if amount.signed or amount.unit not in ("", "deg") or scene.correcting:
            return None
        header = scene.header
        cell = zone == "first" and scene.cell == "first" and not scene.focus
        if cell and wedge_loft(value):
            return self._focus([self._by_loft(value, phrase)], phrase)  # a table's row of a wedge by its loft
        if cell and amount.whole and 1 <= value <= 9 and (header is None or header.family == "iron"):
            if self._wood_of_row(phrase):
                return self._focus([self.numbered("WOOD", int(value), phrase)], phrase)
            return self._focus(self.irons([int(value)], phrase), phrase)
        opens = scene.chunk_opens(phrase.start) or (header is not None and scene.focus == [header] and not header.facts)
        if (known := self._pointed_number(phrase, zone)) is not None:
            return self._focus([known], phrase)
        if (named := self._by_number_and_colon(phrase)) is not None:
            return self._focus([named], phrase)
        if (another := self._next_numbered(phrase)) is not None:
            scene.last_end = phrase.start - 1
            return self._focus([another], phrase)
        if zone and zone not in ("first", "shaft~", "grip~", "shaft", "grip"):
            return None
        if zone in ("shaft", "grip") and not self._pointed(phrase):
            return None
        numbered = amount.whole and header is not None and header.family in ("iron", "wood", "hybrid", "diron")
        led = phrase.start - 1 - (phrase.start > 1 and scene.tokens[phrase.start - 1].lower == "the")
        joined = led >= 0 and scene.tokens[led].terminal == "AND"  # "… and the four is a Dunlin at twenty-two"
        colon = scene.focus == [header] and self._behind_colon(phrase.start)
        opens = opens or scene.name_waits or joined or colon  # "hybrids Dunlin: 5 (25°) and 6 (29°)"
        if header is not None and opens and self._opens_woods(header, amount):
            draft = self._new("driver", phrase)
            draft.header = header
            draft.put("head.loft", Entry(value, "deg", phrase.line, amount.token.text))
            return self._focus([draft], phrase)
        if header is not None and numbered and opens and 1 <= value <= (11 if header.family == "wood" else 9):
            begins = scene.line_start(phrase.start) or scene.focus == [header] or scene.name_waits
            known = self._find(header.family, int(value), None)
            if begins or self._starts_member(phrase, header):
                return self._focus([known or self._new(header.family, phrase, number=int(value))], phrase)
        if header is not None and self._counted_lofts(phrase, header):
            draft = self._new(header.family, phrase)
            draft.put("head.loft", Entry(value, "deg", phrase.line, amount.token.text))
            return self._focus([draft], phrase)
        family = scene.focus[-1].family if scene.focus else ""
        if scene.name_waits and scene.wedge_waits and family != "wedge" and not wedge_loft(value):
            scene.wedge_waits = False  # "also a Toadflax of 25 degrees" behind a hybrid
            draft = self._new(family, phrase)
            draft.put("head.loft", Entry(value, "deg", phrase.line, amount.token.text))
            return self._focus([draft], phrase)
        if not wedge_loft(value) or (value > 62 and value != 64):
            return None
        if scene.name_waits and (scene.wedge_waits or self._row(phrase)):
            scene.wedge_waits = False
            scene.focus = []
            return self._focus([self._by_loft(value, phrase)], phrase)  # "Crake 50 54 58"
        existing = [
            draft for draft in scene.drafts if draft.value("head.loft") == value and draft.family in ("wedge", "iron")
        ]
        if existing and (self._pointed(phrase) or scene.grouped or opens):
            return self._focus(existing[:1], phrase)
        focus = scene.focus
        lacking = self._stamp_wanted(value) and not self._wedge_of_a_model(phrase)
        if lacking and not (scene.last_end == phrase.start - 1 and scene.tokens[phrase.start - 1].terminal == "AND"):
            return None
        after_wedge = bool(focus) and focus[-1].family == "wedge" and scene.last_end == phrase.start
        if after_wedge and value > (focus[-1].value("head.loft") or 90):
            return self._focus([self._by_loft(value, phrase)], phrase)  # "5-PW, 50 56 60"
        wedges = bool(focus) and all(draft.family == "wedge" for draft in focus)
        if focus and focus[-1].family in ("iron", "wedge") and self._in_bracket_next(phrase):
            return self._focus([self._by_loft(value, phrase)], phrase)  # "7 iron (Gannet, Reed 95 S), 54 (Burr, 12)"
        clubs = bool(focus) and all(draft.family in ("iron", "wedge") and draft is not header for draft in focus)
        if clubs and value >= 46 and (self._alone_in_row(phrase) or self._wedge_of_a_model(phrase)):
            return self._focus([self._by_loft(value, phrase)], phrase)  # "6i, 8i, PW, 54, putter"
        irons = len(focus) > 1 and all(draft.family == "iron" for draft in focus)
        if irons and 46 <= value <= 62 and (amount.unit == "deg" or self._wedge_follows(phrase) or self._row(phrase)):
            return self._focus([self._by_loft(value, phrase)], phrase)
        if header is not None and header.family == "wedge" and (wedges or not focus or focus == [header]):
            return self._focus([self._by_loft(value, phrase)], phrase)
        if wedges and (opens or self._pointed(phrase) or self._another_stamp(phrase, focus[-1])):
            return self._focus([self._by_loft(value, phrase)], phrase)
        listed = not focus or focus[-1].family in ("iron", "wedge", "wood", "hybrid", "diron")
        labelled = phrase.end < len(scene.tokens) and scene.tokens[phrase.end].text == ":"
        below = bool(focus) and focus[-1].family == "putter" and amount.unit == "deg" and scene.source.spoken
        if scene.line_start(phrase.start) and below and value >= 46:
            return self._focus(
                [self._by_loft(value, phrase)], phrase
            )  # "Sixty degree, that's the Burr", a putter before
        if scene.line_start(phrase.start) and labelled and value >= 46 and focus and focus[-1].family == "putter":
            return self._focus([self._by_loft(value, phrase)], phrase)  # "60: Medlar" in a list from the putter up
        if scene.line_start(phrase.start) and value >= 46 and self._bent_next(phrase):
            return self._focus([self._by_loft(value, phrase)], phrase)  # "56 bent to 55" below a driver
        if (
            scene.line_start(phrase.start)
            and listed
            and (amount.unit == "deg" or (value == int(value) and value >= 46))
        ):
            return self._focus([self._by_loft(value, phrase)], phrase)
        return None

    def _in_bracket_next(self, phrase: Phrase) -> bool:
        """True for the 54 of ", 54 (Burr, 12 bounce)" behind a bracket: the next club of such a row."""
        tokens = self.scene.tokens
        led = tokens[max(0, phrase.start - 2) : phrase.start]
        behind = tokens[phrase.end : phrase.end + 2]
        closed = [token.terminal for token in led] in (["RPAR", "COMMA"], ["RPAR", "AND"])
        opened = len(behind) == 2 and behind[0].terminal == "LPAR" and behind[1].text[:1].isupper()
        return closed and opened and phrase.amounts[0].value >= 46

    def _wood_of_row(self, phrase: Phrase) -> bool:
        """True for the "3" of a table's row below the driver's, with the loft that a wood of this number has."""
        scene = self.scene
        low, high = WOOD_LOFTS.get(phrase.amounts[0].token.text, (0.0, 0.0))
        if scene.table is None or not scene.drafts or scene.drafts[-1].family not in ("driver", "wood"):
            return False
        row = zip(scene.table, cells_of_row(scene, phrase.start), strict=False)
        told = [scene.tokens[at].value for zone, cell in row if zone == "loft" for at in range(*cell)]
        return any(isinstance(loft, float) and low <= loft <= high for loft in told)

    def _pointed_number(self, phrase: Phrase, zone: str) -> Draft | None:
        """ "The nine is a quarter inch long": the one club of that number, when it is pointed to."""
        value, tokens = phrase.amounts[0].value, self.scene.tokens
        after = tokens[phrase.end] if phrase.end < len(tokens) else None
        at = phrase.start - 2
        beside = at > 0 and tokens[at].terminal == "AND" and after is not None and after.lower in ("the", "a", "has")
        free = not zone or zone.endswith("~") or beside  # "the 4 has the Reed 80 S and the 5 the Reed 85 S"
        plain = phrase.amounts[0].whole and 1 <= value <= 11 and free
        if not plain or not self._pointed(phrase) or after is None:
            return None
        told = after.terminal in ("EQ", "SILENT", "BENT", "NUM", "WITH", "TURNED", "LENGTH")
        long = after.lower in ("at", "to") and self._length_behind(phrase.end + 1)  # "the 3 at 43 and the 5 to 42"
        if not (told or long) or after.lower in ("are", "were", "of"):
            return None
        found = [draft for draft in self.scene.drafts if draft.number == value]
        if len(found) > 1:
            found = [draft for draft in found if draft in self.scene.focus]  # the 7 of the irons beside a 7 wood
        return found[0] if len(found) == 1 else None

    # ------------------------------------------------------------------------------------- several at once

    def family_of(self, phrase: Phrase) -> str | None:
        """The family of the clubs a phrase names, as far as its words say."""
        word = phrase.first(*FAMILIES)
        if word is not None:
            return FAMILIES[word.terminal]
        return {"code": "wedge", "span": "iron", "dashed": "iron"}.get(phrase.rule)

    def _several(self, phrase: Phrase) -> list[Draft] | None:
        amounts = phrase.amounts
        values = [amount.value for amount in amounts]
        word = phrase.first("WOOD", "HYBRID", "IRON", "DIRON", "WEDGE")
        if phrase.rule == "amounts" and phrase.has("NAMEDWEDGE"):
            pitching = self._find("iron", None, "pitching wedge") or self._new("iron", phrase, name="pitching wedge")
            pitching.in_range = True
            return self._focus([*self.irons([int(value) for value in values], phrase), pitching], phrase)
        if phrase.rule == "dashed" and len(values) == 3 and values[0] > 1000:
            return None
        if word is None and len(values) == 2 and wedge_loft(values[0]) and values[1] <= 18:
            return self._coded(values[0], values[1], phrase)
        if (amounts and amounts[0].unit == "g") or (values and values[0] >= 70):
            return None
        end = phrase.first("NAMEDWEDGE", "LETTER")
        if phrase.rule == "span" and len(values) == 1 and end is None:
            end = phrase.tokens[-1]  # "6 iron to wedge"
        if phrase.rule == "span" and (end is not None or word is None or word.terminal == "IRON"):
            return self._irons(values, end.value if end else None, phrase)
        family = (
            FAMILIES[word.terminal] if word else ("wedge" if all(wedge_loft(v) for v in values) else self._expected())
        )
        if family is None:
            return None
        small = word is None and max(values, default=99) <= 9
        wide = small and phrase.rule == "dashed" and len(values) == 2 and values[1] - values[0] > 2
        if (wide and family in ("diron", "hybrid", "wood")) or (small and family == "wedge"):
            family = "iron"  # "Driving iron: Gannet 18 | 4-9: Dunlin", and "the 8 and 9" behind the wedges
        if family == "wedge":
            corrected = self._lofts_corrected(values, phrase)
            if corrected:
                return corrected
            focus = self._focus([self._by_loft(value, phrase) for value in values], phrase)
            self.scene.implicit = self.scene.implicit or self._each_by_itself(phrase)
            return focus
        if phrase.rule == "dashed" and family == "iron" and len(values) == 2:
            return self._irons(values, None, phrase)
        if phrase.rule == "amounts" and (corrected := self._lofts_corrected(values, phrase)):
            return corrected
        if phrase.rule == "span":
            values = [float(number) for number in range(int(values[0]), int(values[1]) + 1)]
        drafts = []
        for value in values:
            if value <= 11:
                number = int(value)
                known = self._find(family, number, None) or self._told_by_loft(family, number, phrase)
                drafts.append(known or self._new(family, phrase, number=number))
            else:
                draft = self._new(family, phrase)
                draft.put("head.loft", Entry(value, "deg", phrase.line, f"{value:g}"))
                drafts.append(draft)
        return self._focus(drafts, phrase)

    def _number_corrected(self, phrase: Phrase) -> Draft | None:
        """ "Then a three hybrid, no, it's a four", "number five. No, number four": the club just named, renumbered."""
        scene, amount = self.scene, phrase.amounts[0]
        draft = scene.focus[-1] if len(scene.focus) == 1 else None
        led = scene.tokens[phrase.start - 1].lower if phrase.start else ""
        after = scene.tokens[phrase.end].terminal if phrase.end < len(scene.tokens) else "NEWLINE"
        if draft is None or draft not in scene.drafts or draft.number is None or after in ("DEG", "INCH", "GRAM"):
            return None
        told = told_by_number(scene.tokens, phrase.start) and "head.loft" not in draft.facts
        small = amount.whole and not amount.signed and 2 <= amount.value <= 9
        if not small or not (told or (led in ("a", "the") and not draft.facts)):
            return None
        draft.number = int(amount.value)
        scene.correcting = 0
        return draft

    def _behind_dash(self, phrase: Phrase) -> bool:
        """True for the second of "Larch Hybrid - 4 Hybrid 21": a page's title and then the club itself."""
        tokens, at = self.scene.tokens, phrase.start - 1
        return at > 0 and tokens[at].text in ("-", "–", "—") and self.scene.last_end == at

    def _each_by_itself(self, phrase: Phrase) -> bool:
        """True for "46, 50 and a 58 I had bent", "one of 48, one of 54 with …": what follows is said of the last."""
        at = self.scene.tokens.index(phrase.amounts[-1].token, phrase.start) - 1
        return at >= 0 and self.scene.tokens[at].lower in ("a", "an", "of")

    def _counted_before(self, phrase: Phrase) -> Phrase | None:
        """The "a 4 hybrid" of "I have two, a 4 hybrid and a 4 iron", where "two" counts; None for any other row."""
        word = phrase.first("WOOD", "HYBRID", "IRON")
        counted = len(phrase.amounts) == 2 and phrase.amounts[0].token.text.isalpha() and phrase.amounts[0].value == 2
        digits = len(phrase.amounts) == 2 and phrase.amounts[1].token.text.isdigit()
        if word is None or not (counted and digits) or not self._each_by_itself(phrase):
            return None
        return Phrase("club", [phrase.amounts[1].token, word], phrase.start, phrase.end)

    def _expected(self) -> str | None:
        """The family that bare numbers of clubs belong to here."""
        header = self.scene.header
        return header.family if header is not None else "iron"

    def note(self, drafts: list[Draft], phrase: Phrase) -> None:
        """Count clubs among those named on this line and in this clause."""
        for draft in drafts:
            draft.lines.add(phrase.line)
            for named in (self.scene.clause_drafts, self.scene.line_drafts):
                if draft not in named:
                    named.append(draft)

    def irons(self, numbers: list[int], phrase: Phrase) -> list[Draft]:
        """The irons of these numbers, found or made, without moving the focus."""
        return [self._find("iron", number, None) or self._new("iron", phrase, number=number) for number in numbers]

    def numbered(self, word: str, number: int, phrase: Phrase) -> Draft:
        """The wood, hybrid or driving iron of this number, found or made."""
        family = FAMILIES[word]
        return self._find(family, number, None) or self._new(family, phrase, number=number)

    def iron_wedge(self, name: str, phrase: Phrase) -> Draft:
        """The wedge of this name that goes on where the irons end, found or made."""
        return self._find("iron", None, name) or self._new("iron", phrase, name=name)

    def _irons(self, values: list[float], end: object, phrase: Phrase) -> list[Draft]:
        low = int(min(values))
        high = 9 if end is not None else int(max(values))
        self._unsay(low, high, end)
        drafts: list[Draft] = []
        numbers = [number for number in range(low, high + 1) if number not in self.scene.gaps]
        pointed = all(self._find("iron", number, None) for number in numbers)
        known = next((draft for draft in self.scene.drafts if draft.in_range), None)
        for number in numbers:
            existing = self._find("iron", number, None)
            draft = existing or self._new("iron", phrase, number=number)
            if existing is None and known is not None and self.scene.correcting:
                for path, entry in known.facts.items():  # "6-PW Dunlin … no wait, 5-PW": the 5 iron is like the others
                    draft.put(path, entry._replace(group=1))
            drafts.append(draft)
        if end is not None:
            for name in (name for name in wedges_to(end) if name not in self.scene.denied):
                known = self._find("wedge", None, name) if pointed else None  # "4-9 …, PW …, the 4 to PW are 1 flat"
                drafts.append(known or self.iron_wedge(name, phrase))
        for draft in drafts:
            draft.in_range = draft.in_range or draft.family == "iron"
        return self._focus(drafts, phrase)

    def through(self, first: int, end: Token, phrase: Phrase) -> list[Draft]:
        """The irons from a number to another number or to a wedge, put into focus."""
        if end.terminal == "NAMEDWEDGE":
            return self._irons([float(first)], end.value, phrase)
        assert isinstance(end.value, float)
        return self._irons([float(first), end.value], None, phrase)

    def _unsay(self, low: int, high: int, end: object) -> None:
        """ "4-PW, sorry, 5-PW": irons of the corrected range, of which nothing has been said, are no clubs."""
        scene = self.scene
        if not scene.correcting or not scene.focus or not all(draft.in_range for draft in scene.focus):
            return
        for draft in list(scene.focus):
            inside = low <= draft.number <= high if draft.number is not None else draft.name in wedges_to(end)
            if not inside and not draft.facts and draft in scene.drafts:
                for group in (scene.drafts, scene.clause_drafts, scene.line_drafts, scene.focus):
                    if draft in group:
                        group.remove(draft)
        scene.correcting = 0

    def _lofts_corrected(self, values: list[float], phrase: Phrase) -> list[Draft] | None:
        """ "50, 54, 60. I mean 50, 55, 60": as many wedges as before, with the lofts said last.

        "50, 54, I mean 55, and 60" puts only the last right and goes on.
        """
        scene, focus = self.scene, self.scene.focus
        told = [draft.value("head.loft") or 0.0 for draft in focus]
        if not scene.correcting or min(told, default=0.0) == 0.0 or min(values) <= 11:
            return None
        onward = focus[-1].family == "wedge" and abs(values[0] - told[-1]) < abs(values[0] - told[0])
        if not onward and len(told) != len(values):
            return None
        for draft, value in zip(focus[-1:] if onward else focus, values, strict=False):
            draft.put("head.loft", Entry(value, "deg", phrase.line, f"{value:g}"), correcting=True)
        scene.correcting = 0
        more = [self._by_loft(value, phrase) for value in values[1:]] if onward else []
        return self._focus([*focus, *more], phrase) if more else focus

    # ------------------------------------------------------------------------------------- headers and groups

    def _family(self, phrase: Phrase) -> list[Draft] | None:
        scene = self.scene
        word = phrase.first("WOOD", "IRON", "WEDGE")
        assert word is not None
        family = FAMILIES[word.terminal]
        if scene.table is not None and family == "wedge" and not word.lower.endswith("s"):
            return self._focus([self._new("wedge", phrase)], phrase)  # a row of its own
        if self._entry(phrase) and not word.lower.endswith("s") and family in ("wedge", "wood"):
            return self._focus([self._new(family, phrase)], phrase)  # "club: wedge", and below it another
        owner = scene.tokens[phrase.start - 1].lower if phrase.start else ""
        if word.lower == "wedge" and owner == "set" and len(scene.focus) == 1 and scene.focus[0] in scene.drafts:
            return scene.focus  # "PW 46 set wedge"
        if family == "wedge" and word.lower == "wedge" and self._closes_irons(phrase):
            draft = self._find("iron", None, "pitching wedge") or self._new("iron", phrase, name="pitching wedge")
            draft.in_range = True
            return self._focus([draft], phrase)
        if family == "wedge" and word.lower == "wedge" and (loft := self._only_loft(phrase)):
            known = [draft for draft in scene.drafts if draft.family == "wedge" and draft.value("head.loft") == loft]
            return self._focus(known[-1:] or [self._new("wedge", phrase)], phrase)  # "Wedge: Crake, 52°"
        if told := self._told_to_be(phrase, family):
            return told
        members = [draft for draft in scene.drafts if draft.family == family or (family == "iron" and draft.in_range)]
        if family == "iron" and not any(draft.in_range and draft.family != "iron" for draft in members):
            members += [draft for draft in scene.drafts if draft not in members and self._of_the_irons(draft)]
        if family == "wedge":
            own = [draft for draft in members if self._of_the_irons(draft, ("pitching wedge",))]
            members = [draft for draft in members if draft not in own] or members
        named_next = self._named_next(phrase, family)
        if members and (scene.shaft_line or self._shafts_of_woods(phrase)):
            members = self.with_driver(phrase, members)
        if members and not word.lower.endswith("s") and self._another(phrase, members):
            return self._focus([self._new(family, phrase)], phrase)  # "Fairway, 15°", and below it "Fairway, 19°"
        if (
            members
            and not named_next
            and not self._stamps_below(phrase, members)
            and not self._stamps_behind(phrase, members)
            and (
                self._pointed(phrase)
                or not scene.line_start(phrase.start)
                or not self._members_follow(phrase, family)
                or self._told_more(phrase, members)
            )
        ):
            joint = phrase.start - 1
            while joint > 0 and scene.tokens[joint].lower in ("that", "the", "this", "those"):
                joint -= 1  # "all the irons and that wedge"
            if joint >= 0 and scene.tokens[joint].terminal == "AND" and scene.last_end == joint:
                members = [*scene.focus, *(draft for draft in members if draft not in scene.focus)]
            scene.grouped = len(members) > 1
            scene.focus = members
            scene.last_end = phrase.end
            return members
        if not word.lower.endswith("s") and not members and not named_next:
            lofted = self._another(phrase, [])
            if family == "wood" and (lofted or not self._pointed(phrase)):
                draft = self._new("wood", phrase)
                return self._focus([draft], phrase)
            if family == "wedge" and word.lower == "wedge":
                draft = self._new("wedge", phrase)
                return self._focus([draft], phrase)
        draft = self.header(family, phrase)
        scene.focus = [draft]
        return scene.focus

    def _entry(self, phrase: Phrase) -> bool:
        """True behind the label "club:" that opens a line."""
        label = self.scene.tokens[max(0, phrase.start - 2) : phrase.start]
        told = [token.lower for token in label] in (["club", ":"], ["type", ":"], ["kind", ":"])
        return told and self.scene.line_start(phrase.start - 2)

    def _stamps_below(self, phrase: Phrase, members: list[Draft]) -> bool:
        """True for "Wedges Comfrey, Scree 130 S" above a line that begins with the loft of another wedge."""
        scene = self.scene
        below = scene.clause_end(phrase.end) + 1
        if not phrase.has("WEDGE") or not scene.line_start(phrase.start) or below >= len(scene.tokens):
            return False
        found = phrase_at(scene.tokens, below)
        if scene.tokens[below - 1].terminal != "NEWLINE" or found is None or found.rule not in ("code", "bare"):
            return False
        value = found.tokens[0].value
        loft = value[0] if isinstance(value, tuple) else value
        known = [draft.value("head.loft") for draft in members]
        return isinstance(loft, float) and wedge_loft(loft) and loft not in known

    def _stamps_behind(self, phrase: Phrase, members: list[Draft]) -> bool:
        """True for "Wedges, Comfrey. 51, 55, 59" where only the pitching wedge is known: the stamps are of others."""
        scene = self.scene
        if not phrase.has("WEDGE") or len(members) > 1 or not phrase.tokens[-1].lower.endswith("s"):
            return False
        stop = scene.clause_end(phrase.end)
        ends = (stop, scene.clause_end(stop + 1)) if scene.line_start(phrase.start) else (stop,)
        for at in range(phrase.end, ends[-1]):
            found = phrase_at(scene.tokens, at)
            if found is not None and found.rule in CLUB_RULES and found.rule not in ("amounts", "code"):
                return False
            if found is not None and found.rule == "amounts":
                return all(wedge_loft(amount.value) for amount in found.amounts)
        return False

    def _another(self, phrase: Phrase, members: list[Draft]) -> bool:
        """True when a line begins with the family's word and a loft that none of its clubs has."""
        scene = self.scene
        if members and not scene.line_start(phrase.start):
            return False
        at, end = phrase.end, scene.clause_end(phrase.end)
        while at < end:
            found = phrase_at(scene.tokens, at)
            if found is not None and found.rule == "bare" and not members and self._said_loft(found):
                return True
            lofted = found is not None and found.rule == "bare"
            if found is not None and lofted and (found.amounts[0].unit == "deg" or self._lofted_behind(phrase, found)):
                if not members:
                    return False
                lofts = [draft.value("head.loft") for draft in members]
                return None not in lofts and found.amounts[0].value not in lofts and found.amounts[0].value < 66
            at = at + 1 if found is None else found.end
        return False

    def _lofted_behind(self, phrase: Phrase, found: Phrase) -> bool:
        """True for the 21 of "Fairway: Gannet 21", "Fairway Gannet 21": a loft without its unit behind the model."""
        after = self.scene.tokens[phrase.end] if phrase.end < len(self.scene.tokens) else None
        told = after is not None and (after.text == ":" or after.terminal in ("WORD", "COMMA", "SLASH", "PIPE", "DASH"))
        return told and phrase.has("WOOD") and not found.amounts[0].unit and 12 <= found.amounts[0].value <= 30

    def _said_loft(self, phrase: Phrase) -> bool:
        """True for the loft of "the fairway is a Gannet 2 at fifteen": with its unit, after "at", or with a half."""
        amount, before = phrase.amounts[0], self.scene.tokens[phrase.start - 1]
        told = amount.unit == "deg" or (amount.unit == "" and (before.terminal == "AT" or not amount.whole))
        return told and 12 <= amount.value <= 30

    def _members_follow(self, phrase: Phrase, family: str) -> bool:
        """True when the family's word stands as a header: alone on its line, or with a colon."""
        scene = self.scene
        after = scene.tokens[phrase.end] if phrase.end < len(scene.tokens) else None
        return after is None or after.terminal == "NEWLINE" or after.text == ":"

    def header(self, family: str, phrase: Phrase) -> Draft:
        """A header that the clubs named next belong to."""
        header = Draft(family, line=phrase.line)
        header.word = phrase.tokens[-1].lower
        self.scene.headers.append(header)
        self.scene.header = header
        return header
