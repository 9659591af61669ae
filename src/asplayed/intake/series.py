"""Figures in a row: one each for the clubs in focus ("lofts 24, 27.5, 31", "D2/D2/D3")."""

from __future__ import annotations

from asplayed.intake import facts as said
from asplayed.intake.again import Again
from asplayed.intake.bare import bare
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.phrases import Amount, Phrase, phrase_at, wedge_loft
from asplayed.intake.tokens import Token

_SEPARATORS = ("COMMA", "SLASH", "AND")
_OF_LOFT, _OF_LIE = {"WEAK", "STRONG"}, {"UPRIGHT", "FLAT", "UP", "DOWN"}
_NOUN_ZONES = {
    "LOFT": "loft", "LIE": "lie", "LENGTH": "length", "BOUNCE": "bounce", "SHAFTWORD": "shaft", "HEADWORD": "head.mass",
    "HEADMASS": "head.mass", "FREQUENCY": "frequency", "TOTALMASS": "total",
}  # fmt: skip
_OF_EACH = {
    "loft": "head.loft", "bounce": "head.bounce", "lie": "as_played.lie", "length": "length",
    "swing": "stated.swing_weight",
}  # fmt: skip
_FITTING = {"loft": (8, 66), "bounce": (1, 20), "lie": (50, 75), "length": (28, 1300), "swing": (0, 0)}
_LONG = {"in", "mm", "cm"}
_UNITS_OF_ROWS = {"DEG": "deg", "INCH": "in", "MM": "mm", "CM": "cm", "GRAM": "g"}
_EACH = {
    "head.loft", "head.bounce", "head.mass", "length", "as_played.lie", "shaft.mass", "stated.frequency", "stated.mass",
}  # fmt: skip


def _noun(phrase: Phrase) -> str:
    """The noun that says of what a figure is, before or behind it: "bounce 8", "eight bounce"."""
    return next((token.terminal for token in phrase.tokens if token.terminal in _NOUN_ZONES), "")


def _value(token: Token) -> float:
    return token.value if isinstance(token.value, float) else 0.0


class Series(Again):
    """Gives each club its own of several figures."""

    def _row_of_those(self) -> bool:
        """ "Gap wedge 51, sand wedge 56, ten and twelve of bounce": as many figures as clubs in the clause, one each.

        So too of lengths, lies and swing weights; none of the clubs may have been told its own.
        """
        scene = self.scene
        last = scene.focus[-1] if scene.focus else None
        clubs = [draft for draft in scene.clause_drafts if last is not None and draft.family == last.family]
        those = len(clubs) > 1 and all(draft in clubs for draft in scene.focus)
        zone, figures, end = self._row(len(clubs)) if those else ("", [], self.at)
        path = _OF_EACH.get(zone, "")
        if not path or len(figures) != len(clubs) or any(draft.has(path) for draft in clubs):
            return False
        start, before, scene.focus = self.at, scene.focus, clubs
        row = [(figure, Phrase("bare", [figure.token], start, end)) for figure in figures]
        first = phrase_at(self.tokens, start)
        told = self._swings(first) if zone == "swing" and first is not None else self._each(row, end, zone)
        if not told:
            scene.focus = before
            return False
        scene.take(start, end)
        self.at = end
        return True

    def _row(self, count: int) -> tuple[str, list[Amount], int]:
        """So many figures in a row from here, what they are of by their noun or unit, and where the row ends."""
        tokens, at = self.tokens, self.at
        nouns = {tokens[at].terminal} & {*_NOUN_ZONES, "SWINGWEIGHT"}
        at += len(nouns)
        while nouns and at < len(tokens) and tokens[at].terminal in ("EQ", "SILENT"):
            at += 1
        figures: list[Amount] = []
        end = at
        sort = tokens[at].terminal if at < len(tokens) else ""
        while at < len(tokens) and sort == tokens[at].terminal in ("NUM", "SWV"):
            unit = _UNITS_OF_ROWS.get(tokens[at + 1].terminal, "") if at + 1 < len(tokens) else ""
            if len(figures) == count and figures[-1].unit and unit != figures[-1].unit:
                break  # "40½ and 40 inches, 85 g"
            figures.append(Amount(tokens[at], unit))
            nouns |= {"SWINGWEIGHT"} if tokens[at].terminal == "SWV" else set()
            end = at + 1 + bool(unit)
            noun = end + (end < len(tokens) and tokens[end].terminal == "SILENT")
            if noun < len(tokens) and tokens[noun].terminal in _NOUN_ZONES:
                nouns.add(tokens[noun].terminal)
                end = noun + 1
            at = end
            if noun < end and len(figures) == count:
                break  # "8 and 12 bounce, 35.5 and 35 inches"
            while at < len(tokens) and tokens[at].terminal in _SEPARATORS:
                at += 1
            if at == end:
                break
        units = {figure.unit for figure in figures} - {""}
        if len(nouns) > 1 or len(units) > 1 or len(figures) < 2:
            return "", [], end
        unsaid = "length" if units & _LONG else "loft" if units else ""
        zone = {**_NOUN_ZONES, "SWINGWEIGHT": "swing"}[next(iter(nouns))] if nouns else unsaid
        low, high = _FITTING.get(zone, (0.0, 0.0))
        fits = all(low <= figure.value <= high for figure in figures) and units <= (
            _LONG if zone == "length" else {"deg"}
        )
        return (zone if fits else ""), figures, end

    def _row_of_all(self, phrase: Phrase) -> None:
        """ "… The 52 is bent 1 strong. Bounces 10, 8, 12 and 6": as many as there are wedges are of all of them."""
        scene, tokens = self.scene, self.tokens
        plural = phrase.rule == "labelled" and phrase.tokens[0].lower.endswith("s") and bool(phrase.amounts)
        if not plural or len(scene.focus) != 1 or not scene.line_start(phrase.start):
            return
        row = tokens[phrase.start + 1 : scene.clause_end(phrase.start)]
        if any(token.terminal not in (*_SEPARATORS, "NUM", "EQ", "DEG", "INCH") for token in row):
            return
        kin = [draft for draft in scene.drafts if draft.family == scene.focus[0].family]
        if len(kin) == sum(token.terminal == "NUM" for token in row) > 1:
            scene.focus, scene.grouped = kin, True

    def _shafts_each(self) -> bool:
        """ "Lindrake 70 TX and 80 TX" said of two woods: as many masses with a flex as there are clubs, one each."""
        scene, tokens, at = self.scene, self.tokens, self.at
        pairs: list[tuple[Token, Token]] = []
        while len(pairs) < len(scene.focus) and at + 1 < len(tokens):
            mass, at = tokens[at], at + 1
            at += tokens[at].terminal == "GRAM"
            flex = tokens[at] if at < len(tokens) else mass
            if not isinstance(mass.value, float) or not 38 <= mass.value <= 150 or mass.terminal != "NUM":
                return False
            if flex.terminal not in ("FLEX", "FLEXCODE"):
                return False
            pairs.append((mass, flex))
            at += 1
            while len(pairs) < len(scene.focus) and at < len(tokens) and tokens[at].terminal in _SEPARATORS:
                at += 1
        more = at + 1 < len(tokens) and tokens[at].terminal in _SEPARATORS and tokens[at + 1].terminal == "NUM"
        if len(pairs) != len(scene.focus) or more or any(draft.has("shaft.mass") for draft in scene.focus):
            return False
        for draft, (mass, flex) in zip(scene.focus, pairs, strict=True):
            draft.put("shaft.mass", Entry(mass.value, "g", mass.line, mass.text))  # type: ignore[arg-type]
            draft.put("shaft.flex", Entry(str(flex.value), "1", flex.line, flex.text))
        scene.take(self.at, at)
        self.at = at
        return True

    def _masses_each(self) -> bool:
        """ "Reed 50/60 70 S", "Shafts 60, 70 and 75 g in that order": as many masses as clubs, one each."""
        scene, tokens, at = self.scene, self.tokens, self.at
        masses: list[Token] = []
        while at < len(tokens) and tokens[at].terminal == "NUM" and len(masses) <= len(scene.focus):
            masses.append(tokens[at])
            at += 1
            onward = at
            while onward < len(tokens) and tokens[onward].terminal in ("COMMA", "AND", "SLASH"):
                onward += 1
            if onward < len(tokens) and tokens[onward].terminal == "NUM":
                at = onward
        massive = all(isinstance(mass.value, float) and 38 <= mass.value <= 150 for mass in masses)
        told = at < len(tokens) and tokens[at].terminal in ("FLEX", "FLEXCODE", "GRAM")
        several = len(masses) == len(scene.focus) > 1 and self.zone == "shaft"
        if not (several and massive and told) or any(draft.has("shaft.mass") for draft in scene.focus):
            return False
        at += tokens[at].terminal == "GRAM"
        for draft, mass in zip(scene.focus, masses, strict=True):
            draft.put("shaft.mass", Entry(mass.value, "g", mass.line, mass.text))  # type: ignore[arg-type]
        scene.take(self.at, at)
        self.at = at
        return True

    def _lofts_with_bounces(self) -> bool:
        """ "Fifty-five with twelve of bounce and fifty-nine with eight" said of two wedges: a pair each, in order."""
        scene, tokens, at = self.scene, self.tokens, self.at
        focus = scene.focus
        pairs: list[tuple[Token, Token]] = []
        if len(focus) < 2 or any(draft.family != "wedge" or draft.has("head.loft") for draft in focus):
            return False
        while at < len(tokens) and tokens[at].terminal == "NUM" and len(pairs) < len(focus):
            loft, at = tokens[at], at + 1 + (tokens[at + 1].terminal == "DEG")
            if at + 1 >= len(tokens) or tokens[at].terminal != "WITH" or tokens[at + 1].terminal != "NUM":
                return False
            pairs.append((loft, tokens[at + 1]))
            end = at = at + 2
            while at < len(tokens) and tokens[at].terminal in ("DEG", "SILENT", "BOUNCE", "BY"):
                end = at = at + 1
            while at < len(tokens) and tokens[at].terminal in ("COMMA", "AND"):
                at += 1
        if len(pairs) != len(focus) or not all(wedge_loft(_value(loft)) for loft, _bounce in pairs):
            return False
        for draft, (loft, bounce) in zip(focus, pairs, strict=True):
            draft.put("head.loft", Entry(_value(loft), "deg", loft.line, loft.text))
            draft.put("head.bounce", Entry(_value(bounce), "deg", bounce.line, bounce.text))
        scene.take(self.at, end)
        self.at = end
        return True

    def _soles_each(self) -> bool:
        """ "Grinds F, S, T", "F/S/T soles" said of three wedges: a letter each."""
        scene, tokens, at = self.scene, self.tokens, self.at
        focus = scene.focus
        if len(focus) < 2 or any(draft.family != "wedge" or draft.has("head.sole") for draft in focus):
            return False
        led = tokens[at].terminal == "SOLEWORD"
        at += led
        while led and at < len(tokens) and tokens[at].terminal in ("EQ", "SILENT"):
            at += 1
        letters: list[Token] = []
        while at < len(tokens) and len(tokens[at].text) == 1 and tokens[at].text.isupper():
            letters.append(tokens[at])
            at += 1
            onward = at
            while onward < len(tokens) and tokens[onward].terminal in ("COMMA", "AND", "SLASH"):
                onward += 1
            letter = onward < len(tokens) and len(tokens[onward].text) == 1 and tokens[onward].text.isupper()
            at = onward if letter else at
        behind = at < len(tokens) and tokens[at].terminal == "SOLEWORD"
        if len(letters) != len(focus) or not (led or behind):
            return False
        for draft, letter_token in zip(focus, letters, strict=True):
            draft.put("head.sole", Entry(letter_token.text, "1", letter_token.line, letter_token.text))
        at += behind and not led
        scene.take(self.at, at)
        self.at = at
        return True

    def _series(self, phrase: Phrase) -> bool:
        """As many figures in a row as there are clubs in focus: one each, in order."""
        scene, tokens = self.scene, self.tokens
        focus = scene.focus
        if phrase.rule == "swing":
            return self._swings(phrase)
        if phrase.rule in ("amounts", "dashed") and len(phrase.amounts) == len(focus):
            return self._each([(amount, phrase) for amount in phrase.amounts], phrase.end)
        if phrase.rule == "bare" and self._shafts_each():
            return True
        label = phrase.rule == "labelled" and not phrase.directions
        if phrase.rule != "bare" and not label:
            return False
        noun = _noun(phrase) if label else ""
        led = phrase.tokens[0].terminal in _NOUN_ZONES  # "bounce 8, 10, 6"
        found = [(phrase.amounts[0], phrase)]
        at = phrase.end
        rowed = not any(draft.has("head.loft") for draft in focus)  # "46 50 54 58", "24° 31° 39°"
        longs = found[0][0].value
        lengths = 30 <= longs <= 48 and not any(draft.has("length") for draft in focus)  # "35.5 35.25 35"
        rowed = rowed or label or lengths  # "lofts 24 27.5 31"
        rowed = rowed or self._row_before_noun(phrase.end)
        while (
            len(found) < len(focus)
            and at + 1 < len(tokens)
            and (tokens[at].terminal in (*_SEPARATORS, "DASH") or (rowed and tokens[at].terminal == "NUM"))
        ):
            at += tokens[at].terminal != "NUM"
            while at < len(tokens) and tokens[at].terminal in ("AND", "SILENT"):
                at += 1
            following = phrase_at(tokens, at) if at < len(tokens) else None
            changed = following is not None and following.rule == "change" and bool(following.amounts)
            if changed and following is not None and lengths and following.amounts[0].unit == "in":
                following = Phrase("bare", following.tokens, following.start, following.end)  # "43 and 41 inches long"
            named = following is not None and following.rule == "labelled" and not following.directions
            if following is None or not (named or following.rule in ("bare", "amounts", "dashed")):
                return False
            if noun and not (named or led):
                return False  # "the 52 with ten bounce and the 56 with 14"
            found += [(amount, following) for amount in following.amounts]
            at = following.end
            if named and noun and _noun(following) == noun and len(found) < len(focus):
                continue  # "eight bounce, ten bounce, six bounce"
            if named:
                # "ten, fourteen and six degrees of bounce": the noun behind the last is the noun of all
                if len(found) != len(focus):
                    return False
                return self._each(found, at, _NOUN_ZONES.get(_noun(following), "none"))
        more = at < len(tokens) and tokens[at].terminal in _SEPARATORS
        after = phrase_at(tokens, at + 1) if more and at + 1 < len(tokens) else None
        goes_on = after is not None and after.rule == "bare" and after.amounts[0].unit == found[0][0].unit
        if len(found) != len(focus) or (goes_on and self._figures_from(at + 1) != len(focus)):
            return False  # what goes on as long again is another row: "22 and 25, forty and 39½ inches"
        if label and not noun:
            return False
        return self._each(found, at, _NOUN_ZONES.get(noun, ""))

    def _figures_from(self, at: int) -> int:
        """How many figures stand in a row from here."""
        tokens, count = self.tokens, 0
        while at < len(tokens) and tokens[at].terminal == "NUM":
            count += 1
            at += 1 + (at + 1 < len(tokens) and tokens[at + 1].terminal in _UNITS_OF_ROWS)
            while at < len(tokens) and tokens[at].terminal in _SEPARATORS:
                at += 1
        return count

    def _row_before_noun(self, at: int) -> bool:
        """True for the rest of "10 8 6 bounce" said of three clubs: numbers alone, and the noun behind them all."""
        tokens, count = self.tokens, len(self.scene.focus)
        row = [token.terminal for token in tokens[at : at + count]]
        return row == ["NUM"] * (count - 1) + ["BOUNCE"]

    def _bends_each(self) -> bool:
        """ "Bent 1, 1 and 2 weak", "1 weak and 2 strong" said of as many clubs: a bend each, in order."""
        scene, tokens, count = self.scene, self.tokens, len(self.scene.focus)
        told: list[list[Token]] = []  # each figure, with the word behind it that says which way
        at = self.at + (tokens[self.at].terminal == "BENT")
        while count > 1 and at < len(tokens) and tokens[at].terminal == "NUM" and len(told) <= count:
            figure, at = tokens[at], at + 1
            at += at < len(tokens) and tokens[at].terminal == "DEG"
            way = at < len(tokens) and tokens[at].terminal in (*_OF_LOFT, *_OF_LIE)
            told.append([figure, tokens[at]] if way else [figure])
            end = at = at + way
            while at < len(tokens) and tokens[at].terminal in _SEPARATORS:
                at += 1
        if len(told) != count or count < 2 or len(told[-1]) == 1:
            return False
        changes = [Phrase("change", [one[0], (one if len(one) > 1 else told[-1])[-1]], self.at, end) for one in told]
        ways = {change.tokens[1].terminal for change in changes}
        if not (ways <= _OF_LOFT or ways <= _OF_LIE) or any(change.amounts[0].value > 5 for change in changes):
            return False
        for draft, change in zip(scene.focus, changes, strict=True):
            for path, entry in said.facts_of(change, draft, "") or []:
                draft.put(path, entry, correcting=scene.correcting > 0)
        scene.take(self.at, end)
        self.at = end
        return True

    def _swings(self, phrase: Phrase) -> bool:
        """One swing weight a club, in order ("D4/D4/D5", "swing weights D4 D4 D5")."""
        scene, tokens = self.scene, self.tokens
        found = [phrase]
        while len(found) <= len(scene.focus):
            at = found[-1].end
            while at < len(tokens) and tokens[at].terminal in _SEPARATORS:
                at += 1
            following = phrase_at(tokens, at)
            if following is None or following.rule != "swing":
                break
            found.append(following)
        if len(found) != len(scene.focus):
            return False
        for draft, one in zip(scene.focus, found, strict=True):
            for path, entry in said.facts_of(one, draft, "") or []:
                draft.put(path, entry)
            self._claim(one, "club")
        scene.take(phrase.start, found[-1].end)
        return True

    def _each(self, found: list[tuple[Amount, Phrase]], end: int, zone: str = "") -> bool:
        scene = self.scene
        start = self.at
        entries = []
        unit = found[-1][0].unit  # "35 and 34 inches": the last one's unit is that of all
        if scene.correcting and not zone and (corrected := self._each_corrected(found)):
            entries = corrected
            found = []
        for draft, (amount, phrase) in zip(scene.focus, found, strict=not entries):
            told = amount if amount.unit or not unit else Amount(amount.token, unit)
            facts = bare(told, phrase, draft, zone or self.zone)
            if not facts:
                return False
            entries.append((draft, *facts[0]))
        paths = {path for _draft, path, _entry in entries}
        if len(paths) != 1 or not paths & _EACH:
            return False
        if paths == {"head.loft"} and found and any("head.loft" in draft.facts for draft in scene.focus):
            return False
        for draft, path, entry in entries:
            draft.put(path, entry, correcting=scene.correcting > 0)
        scene.last_number = (entries[-1][1], list(scene.focus))
        for index in range(start, end):
            scene.claims[index] = scene.claims[index] or "club"
        self.at = end
        return True

    def _each_corrected(self, found: list[tuple[Amount, Phrase]]) -> list[tuple[Draft, str, Entry]]:
        """ "18 and 22, sorry, 18 and 21": each club's figure in the place of the one it had."""
        path, entries = self.scene.last_number[0], []
        for draft, (amount, phrase) in zip(self.scene.focus, found, strict=True):
            old = draft.facts.get(path)
            if old is None or not isinstance(old.value, float) or abs(old.value - amount.value) > 6:
                return []
            entries.append((draft, path, Entry(amount.value, old.unit, phrase.line, amount.token.text)))
        return entries

    def _only_one_can_have(self, path: str, phrase: Phrase) -> bool:
        """True for a bare number that several irons of one range cannot share: a loft, a lie, a length."""
        focus = self.scene.focus
        if phrase.rule != "bare" or all(draft.family != "iron" for draft in focus):
            return False
        led = [token.terminal for token in self.tokens[max(0, phrase.start - 2) : phrase.start]]
        if led[-1:] == ["ALL"] or led == ["ALL", "THOSE"]:
            return False  # "one length, all 37½", "every one of them 37½"
        return path in ("head.loft", "head.bounce", "as_played.lie", "length", "target.loft") and not self.zone

    def _individual(self, phrase: Phrase) -> bool:
        """True for what is said of one club of a comma list: its loft, bounce, bend, sole, length."""
        facts = said.facts_of(phrase, self.scene.focus[-1], self.zone)
        if (
            facts
            and facts[0][0] in ("length", "bend.lie")
            and any(path.startswith("shaft.") for path, _entry in self.scene.clause_puts)
        ):
            return False  # "52 56 60, Nent 125 S, 35¼": behind what all have, a length is all the clubs'
        return (
            bool(facts)
            and facts is not None
            and facts[0][0].startswith(
                ("head.loft", "head.bounce", "head.sole", "bend", "target", "sleeve", "as_played", "length")
            )
            and facts[0][0] != "length_change"
        )
