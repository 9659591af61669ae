"""Stretches that say at their end whose they are: "60 S in the driver, 70 S in both fairways"."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.figure_rows import ROWS, figures_at, of_each
from asplayed.intake.groups import RESTING
from asplayed.intake.names import run_at
from asplayed.intake.phrases import CLUB_RULES, Phrase, phrase_at
from asplayed.intake.scene import CLAUSE
from asplayed.intake.through import Run, Through
from asplayed.intake.tokens import Token
from asplayed.intake.wording import EXCEPT

_ENDS = ("COMMA", "STOP", "NEWLINE", "LPAR", "BREAK", "AND")
_JOINS = ("COMMA", "AND", "SILENT")
_LABELS = ("SHAFTWORD", "GRIPWORD", "WITH", "SWINGWEIGHT", "LENGTH", "LIE", "CORRECTION")
_OPENING = ("WORD", "NUM", "SNUM", "FLEX", "FLEXCODE", "SWV", "SWINGWEIGHT", "BOUNCE", "STD", "LIE", "LENGTH")
_OTHERS = ("other", "others")
_AGAIN = ("again", "too", "also", "as well")
_UNLIKE = ("THAN", "SAME", "ASIDE", "OR", "UNSURE", "CORRECTION", "NOTE")


class Owners(NamedTuple):
    """The clubs that a stretch says it is of, and where they are named."""

    led: int
    first: int
    end: int
    clubs: list[Draft]


class Whose(Through):
    """Finds, behind what is said of a part, the clubs it is said of."""

    def _said_of(self) -> bool:
        """ "Shafts: Sedge 60 S in the driver, 70 S in the fairways": each stretch says at its end whose it is.

        True where it does.
        """
        scene, tokens = self.scene, self.tokens
        self._together_again()
        if tokens[self.at].terminal not in _OPENING:
            return False
        part = "shaft" if scene.shaft_line else ""
        owners = None
        if not part:
            owners = self._shaft_by_club()
            if owners is not None:
                part, scene.shaft_line = "shaft", True
            else:
                owners = self._owners_behind()
        elif self._stretch_opens():
            owners = self._owners(self.at)
        if owners is None:
            return False
        labelled = bool(part)
        stretch = {token.terminal for token in tokens[self.at : owners.led]}
        part = part or ("shaft" if "SHAFTWORD" in stretch or self._weight_and_flex() else "")
        path = f"{part}.name" if part else ""
        name = next((draft.facts[path] for draft in scene.focus if path in draft.facts), None)
        flexes = [draft.facts["shaft.flex"] for draft in scene.focus if path and "shaft.flex" in draft.facts]
        flex = flexes[0] if flexes else None
        if not labelled:
            self._told_apart(owners)
        scene.focus = owners.clubs
        scene.grouped = len(owners.clubs) > 1
        gripped = bool(scene.clause_puts) and scene.clause_puts[-1][0].startswith("grip.")
        self.zone = part or ("grip" if gripped else "")  # "grips Norrby, 1 extra wrap, 2 on the 3 wood"
        if name is not None and tokens[self.at].kind == "number" and name.line == tokens[self.at].line:
            self.put(owners.clubs if labelled else [club for club in owners.clubs if not club.has(path)], path, name)
            if flex is not None and flex.line == name.line and not stretch & {"FLEX", "FLEXCODE"}:
                self.put(owners.clubs, "shaft.flex", flex)  # "Shafts: Reed S, 60 driver, 70 3 wood"
        for index in range(owners.led, owners.end):
            scene.claims[index] = "club" if tokens[index].kind != "mark" and index >= owners.first else "silent"
        return True

    def _weight_and_flex(self) -> bool:
        """True for "60 S", "60 g stiff": nothing but a shaft is told so."""
        kinds = [token.terminal for token in self.tokens[self.at : self.at + 3] if token.terminal != "GRAM"]
        return kinds[0] == "NUM" and kinds[1:2] in (["FLEX"], ["FLEXCODE"]) and _of_a_shaft(self.tokens[self.at])

    def _told_apart(self, owners: Owners) -> None:
        """Keep in mind of which clubs spoken of together these have a figure of their own."""
        group = self.parted or self.scene.focus
        if len(owners.clubs) < len(group) and all(draft in group for draft in owners.clubs):
            told = self.told_apart if self.parted else []
            self.parted, self.told_apart = group, [*told, *owners.clubs]
            self.apart_end = owners.end
        else:
            self.parted = []

    def _together_again(self) -> None:
        """ "Both Gannet, 10 bounce on the gap and 12 on the sand, Reed 120 S": the shaft is of both again."""
        if not self.parted or self.at < self.apart_end:
            return
        if not all(draft in self.told_apart for draft in self.parted):
            return  # the others' figures follow
        if all(draft in self.told_apart for draft in self.scene.focus):
            self.scene.focus, self.scene.grouped = self.parted, True
        self.parted = []

    def _stretch_opens(self) -> bool:
        """True behind a mark, behind the word "shafts" or "grips", and behind "… in the irons and"."""
        scene, tokens = self.scene, self.tokens
        label = self.at - 1
        while label > 0 and (tokens[label].terminal in ("EQ", "SILENT") or tokens[label].text == ":"):
            label -= 1
        joined = tokens[label].terminal == "AND" and scene.claims[label - 1] == "club"
        joined = joined or "but" in [token.lower for token in tokens[label + 1 : self.at]]
        told = self.at > 0 and tokens[self.at - 1].text == ":"  # "The woods have Reed: 60 S in the driver, 70 S in …"
        return joined or told or scene.chunk_opens(self.at) or tokens[label].terminal in _LABELS

    def _owners(self, start: int) -> Owners | None:
        """The clubs behind "in" or "for" at the end of the stretch that begins here."""
        tokens = self.tokens
        at, end = start, min(len(tokens), start + CLAUSE)
        while at < end and tokens[at].terminal not in _ENDS and tokens[at].lower != "but":
            if tokens[at].lower in EXCEPT and at > start:
                return None  # "Tessary Cord except on the putter"
            if tokens[at].terminal in ("IN", "AT") and at > start:
                return self._row_of_clubs(at)
            if at == start + 1 and (told := self._weight_and_club(start)) is not None:
                return told
            if tokens[at].lower == "from" and at > start and (run := self._run_of_set(at)) is not None:
                return Owners(at, at, run.end, run.clubs)
            at += 1
        return None

    def _weight_and_club(self, at: int) -> Owners | None:
        """ "60 driver, 70 3 wood" on a line of shafts: a mass and, right behind it, a known club and a mark."""
        tokens = self.tokens
        if not self.scene.shaft_line or tokens[at].terminal != "NUM" or not _of_a_shaft(tokens[at]):
            return None
        club = phrase_at(tokens, at + 1)
        clubs = self.mentions.find(club) if club is not None and club.rule in ("club", "named") else []
        if club is None or not clubs or (club.end < len(tokens) and tokens[club.end].terminal not in _ENDS):
            return None
        return Owners(at + 1, at + 1, club.end, clubs)

    def _owners_behind(self) -> Owners | None:
        """ "2° up in the 4 to 6, 1° up in the 7 to 9": figures and the known clubs they are of, up to a mark."""
        scene, tokens = self.scene, self.tokens
        if len(scene.drafts) < 2 or scene.table is not None or not self._stretch_opens():
            return None
        owners = self._owners(self.at)
        behind = tokens[owners.end] if owners is not None and owners.end < len(tokens) else None
        closed = behind is None or behind.terminal in (*_ENDS, "RPAR", "PIPE") or behind.lower in ("only", "alone")
        if owners is None or not closed:
            return None
        told, at = False, self.at
        while at < owners.led:
            another = at > self.at and tokens[at].terminal in ROWS and tokens[at + 1].terminal == "EQ"
            if tokens[at].terminal in _UNLIKE or (another and scene.source.spoken):
                return None  # "… bent to fifty-five", and in the next line "bounce is eight on the fifty"
            phrase = phrase_at(tokens, at)
            if phrase is not None and (phrase.rule in CLUB_RULES or phrase.rule in ("same", "group")):
                return None
            told = told or phrase is not None
            at = at + 1 if phrase is None else phrase.end
        return owners if told else None

    def _figures_and_clubs(self, token: Token) -> bool:
        """ "Bounce is 12 on the 56, 8 on the 60", "lengths: 45 for the driver, 43 for the 3 wood"."""
        scene, tokens = self.scene, self.tokens
        zone = ROWS.get(token.terminal, "")
        opens = scene.chunk_opens(self.at) or tokens[self.at - 1].text == ":"  # "Note: swing weight D0 on …"
        opens = opens or (scene.source.spoken and tokens[self.at - 1].line < token.line)  # another line of a talk
        if not zone or len(scene.drafts) < 2 or scene.table is not None or not opens:
            return False
        starts, at, end = [], self.at + 1, scene.clause_end(self.at)
        while at < end and tokens[at].terminal in ("EQ", "SILENT", "BULLET"):
            at += 1
        while at < end and (figures := self._figures_in(at)):
            starts.append((at, figures))
            ahead = range(figures[-1].end + 1, min(end, figures[-1].end + CLAUSE))
            behind = (place + 1 for place in ahead if tokens[place].terminal in _JOINS[:2] and place + 1 < end)
            at = next((place for place in behind if self._figures_in(place)), end)
        if len(starts) < 2:
            return False
        found: list[tuple[Draft, str, Entry]] = []
        last, whole = self.at, end
        end, turned = self._clubs_that_have(starts[-1][1][-1].end, whole, zone)
        for (_at, figures), stop in zip(starts, [*(place for place, _figures in starts[1:]), end], strict=True):
            owners = self._row_of_clubs(figures[-1].end, stop)
            told = of_each(figures, zone, owners.clubs) if owners is not None else []
            if owners is None or not told:
                return False
            found, last = found + told, owners.end
        if turned:
            found, last = found + turned, whole
        for draft, path, entry in found:
            draft.put(path, entry, correcting=scene.correcting > 0)
        told_of = dict.fromkeys(draft for draft, _path, _entry in found)
        scene.clause_drafts += [draft for draft in told_of if draft not in scene.clause_drafts]
        scene.take(self.at, last)
        self.at = last
        return True

    def _clubs_that_have(self, at: int, end: int, zone: str) -> tuple[int, list[tuple[Draft, str, Entry]]]:
        """Where "…, and the 60 has six" begins behind "8 on the 50, 10 on the 54", and what it tells."""
        tokens = self.tokens
        for joint in range(at, end - 2):
            verb = next((to for to in range(joint, end) if tokens[to].lower in ("has", "have", "gets")), end)
            owners = self._row_of_clubs(joint, verb) if tokens[joint].terminal in ("COMMA", "AND") else None
            if verb == end or owners is None or owners.end != verb:
                continue
            figures = figures_at(tokens, verb + 1, end)
            told = of_each(figures, zone, owners.clubs) if figures and figures[-1].end == end else []
            return (joint, told) if told else (end, [])
        return end, []

    def _soles_by_club(self) -> bool:
        """ "F grind on the 50, S on the 54 and L on the 58": letters, each with the wedges it is the sole of."""
        scene, tokens = self.scene, self.tokens
        at, end, worded = self.at, self.scene.clause_end(self.at), tokens[self.at].terminal == "SOLEWORD"
        at += worded
        found: list[tuple[Draft, Token]] = []
        last = at
        while at < end:
            while at < end and tokens[at].terminal in (*_JOINS, "EQ"):
                at += 1
            letter = tokens[at] if at < end and len(tokens[at].text) == 1 and tokens[at].text.isupper() else None
            noun = at + 1 < end and tokens[at + 1].terminal == "SOLEWORD"
            led = at + 1 + noun
            owners = self._row_of_clubs(led, end) if led < end and tokens[led].terminal in ("IN", "AT") else None
            if letter is None or owners is None or any(club.family != "wedge" for club in owners.clubs):
                break
            worded = worded or noun
            found += [(club, letter) for club in owners.clubs]
            at = last = owners.end
        if len(found) < 2 or not worded:
            return False
        for club, letter in found:
            club.put("head.sole", Entry(letter.text, "1", letter.line, letter.text))
        scene.take(self.at, last)
        self.at = last
        return True

    def _figures_in(self, at: int) -> list[Phrase]:
        """The figures at this place that "in", "on" or "for" follows ("D4 and D5 in …"); [] for any other words."""
        figures = figures_at(self.tokens, at, self.scene.clause_end(at))
        behind = figures[-1].end if figures and figures[0].rule != "plainly" else len(self.tokens)
        return figures if behind < len(self.tokens) and self.tokens[behind].terminal in ("IN", "AT") else []

    def _row_of_clubs(self, led: int, stop: int = 0) -> Owners | None:
        """The known clubs in a row behind "in": "the driver, 3 wood and hybrid", "both fairways"."""
        tokens, size = self.tokens, stop or len(self.tokens)
        at = led + 1
        found: list[Draft] = []
        first = end = -1
        while at < size:
            while at < size and tokens[at].terminal in (_JOINS if found else ("SILENT",)):
                if tokens[at].lower in _OTHERS:
                    break
                at += 1
            phrase = phrase_at(tokens, at) if at < size else None
            if at < size and (others := self._others(at, found)) is not None:
                first = at if first < 0 else first
                found += others.clubs
                at = end = others.end
                continue
            if phrase is None or phrase.rule not in (*CLUB_RULES, "group", "bare"):
                break
            if phrase.rule in ("bare", "span", "dashed", "amounts"):
                clubs = self._meant(phrase)
            elif phrase.rule == "group":
                resting = any(token.lower in RESTING for token in phrase.tokens)
                told = phrase.has("WOOD", "HYBRID", "IRON", "WEDGE") or resting
                left = [draft for draft in self.parted if draft not in self.told_apart] if resting else []
                clubs = left or (self.mentions.group(phrase) if told else self._first_or_last(phrase))
            else:
                clubs = self._counted(phrase) or self.mentions.with_driver(phrase, self.mentions.find(phrase))
            if not clubs:
                break
            first = at if first < 0 else first
            found += [club for club in clubs if club not in found]
            at = end = phrase.end
        return Owners(led, first, end, found) if found else None

    def _counted(self, phrase: Phrase) -> list[Draft]:
        """ "The two wedges": all of a family, where there are as many."""
        family = self.mentions.family_of(phrase)
        members = [draft for draft in self.scene.drafts if draft.family == family]
        plural = phrase.tokens[-1].lower.endswith("s") and bool(phrase.amounts)
        return members if plural and phrase.amounts[0].value == len(members) > 1 else []

    def _first_or_last(self, phrase: Phrase) -> list[Draft]:
        """ "The first two", "the last" of the clubs spoken of together."""
        order, group = phrase.first("ORDINAL"), self.parted or self.scene.focus
        count = int(phrase.amounts[0].value) if phrase.amounts else 1
        if order is None or order.value not in ("first", "last") or not 0 < count < len(group):
            return []
        return group[:count] if order.value == "first" else group[-count:]

    def _others(self, at: int, found: list[Draft]) -> Run | None:
        """ "The other two" behind a stretch that was of some of the clubs just spoken of."""
        tokens, scene = self.tokens, self.scene
        counted = at + 1 < len(tokens) and tokens[at + 1].kind == "number"
        if tokens[at].lower not in _OTHERS or found or not scene.focus:
            return None
        told = scene.focus
        rest = [draft for draft in self.parted if draft not in self.told_apart]
        if counted and rest and tokens[at + 1].value == len(rest):
            return Run(rest, at + 2)  # "55 g in the driver and 65 g in the other two"
        kin = [draft for draft in scene.drafts if draft.family == told[-1].family and draft not in told]
        count = int(tokens[at + 1].value) if counted and isinstance(tokens[at + 1].value, float) else len(kin)  # type: ignore[arg-type]
        return Run(kin, at + 1 + counted) if kin and count == len(kin) else None

    def _shaft_by_club(self) -> Owners | None:
        """ "Quellon 60 S in the driver, 70 S in the fairways" of clubs named before: it begins with a shaft.

        So too "Quellon in the 3 wood and the 7 wood, 70 grams, stiff", "Quellon again in the wedges, but 115 grams".
        """
        scene, tokens = self.scene, self.tokens
        if not scene.drafts or scene.table is not None or not scene.line_start(self.at):
            return None
        run = run_at(scene, self.names.known, self.at)
        if run is None or run.end >= len(tokens):
            return None
        led = run.end + (tokens[run.end].lower in _AGAIN)
        if led < len(tokens) and tokens[led].terminal == "IN":
            owners = self._row_of_clubs(led)
            told = owners is not None and self._weighed_behind(owners.end, run.text)
            return owners if told else None
        if not _of_a_shaft(tokens[run.end]):
            return None
        at = run.end
        while at < len(tokens) and (tokens[at].kind == "number" or tokens[at].terminal in _FIGURES):
            at += 1
        if at >= len(tokens) or tokens[at].terminal != "IN":
            return None
        owners = self._row_of_clubs(at)
        closed = owners is not None and (owners.end >= len(tokens) or tokens[owners.end].terminal in _ENDS)
        return owners if closed else None

    def _weighed_behind(self, at: int, name: str) -> bool:
        """True where a mass in grams stands behind a comma: of a shaft, with its flex behind or of a name known so."""
        behind = self.tokens[at : at + 8]
        told = [token for token in behind if token.terminal not in ("COMMA", "SILENT") and token.lower not in _AGAIN]
        kinds = [token.terminal for token in told]
        known = any(entry.value == name for draft in self.scene.drafts if (entry := draft.facts.get("shaft.name")))
        united = kinds[1:2] == ["GRAM"]
        flexed = kinds[1 + united : 2 + united] in (["FLEX"], ["FLEXCODE"]) or (known and united)
        apart = "COMMA" in [token.terminal for token in behind[:3]]
        return apart and kinds[:1] == ["NUM"] and flexed and _of_a_shaft(told[0])


_FIGURES = ("FLEX", "FLEXCODE", "FLEXWORD", "GRAM", "SLASH", "SHAFTWORD")


def _of_a_shaft(token: Token) -> bool:
    """True for a flex, and for a number that can be a shaft's mass."""
    massive = isinstance(token.value, float) and 38 <= token.value <= 150 and token.kind == "number"
    return massive or token.terminal in ("FLEX", "FLEXCODE")
