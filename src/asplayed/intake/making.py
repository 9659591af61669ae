"""Clubs found again or made, the focus moved to them, and the groups that neighbours make."""

from __future__ import annotations

from asplayed.errors import BadInput
from asplayed.intake.ahead import flexed_ahead
from asplayed.intake.drafts import Draft
from asplayed.intake.groups import FAMILIES, RESTING, Groups
from asplayed.intake.phrases import Phrase, phrase_at, wedge_loft
from asplayed.intake.wedge_words import SET_WORDS
from asplayed.intake.wording import EXCEPT

MOST_CLUBS = 60
MOST_NAMED = 1_500  # times in one list, each club of a range counted: many times an hour's talk of one set
_BROAD = {"driver": "wood", "hybrid": "wood", "diron": "wood"}
_WEDGE_NAMES = {"P": "pitching wedge", "W": "pitching wedge", "G": "gap wedge", "A": "gap wedge", "S": "sand wedge"}
_WEDGE_RUN = ("pitching wedge", "gap wedge", "sand wedge", "lob wedge")
_OWN = SET_WORDS | {"own", "same"}
POINTERS = {"the", "his", "her", "my", "that", "this", "their", "its", "your", "our", "those", "these"}


def wedge_name(loft: float) -> str:
    """The trade's name of a wedge known by its stamp alone."""
    if loft < 49.5:
        return "pitching wedge"
    if loft < 53.5:
        return "gap wedge"
    return "sand wedge" if loft < 57.5 else "lob wedge"


def wedges_to(end: object) -> tuple[str, ...]:
    """The wedges that a range of irons ends with: up to the one named."""
    if end is None:
        return ()
    last = _WEDGE_NAMES.get(str(end), "pitching wedge" if end == "wedge" else str(end))
    return _WEDGE_RUN[: (_WEDGE_RUN.index(last) if last in _WEDGE_RUN else 0) + 1]


def number_by_loft(family: str, loft: float) -> int:
    """The number that a wood, a hybrid or a driving iron of this loft goes by."""
    if family == "wood":
        for top, number in ((12.9, 2), (16.4, 3), (16.9, 4), (19.5, 5), (22.5, 7), (25.5, 9)):
            if loft <= top:
                return number
        return 11
    for top, number in ((17.5, 2), (20.5, 3), (23.5, 4), (27.5, 5)):
        if loft <= top:
            return number
    return 6


class Making(Groups):
    """Finds clubs, makes them, and keeps the focus."""

    def find(self, phrase: Phrase) -> list[Draft]:
        """Clubs named before that this phrase points to, making none."""
        word = phrase.first(*FAMILIES)
        if phrase.rule in ("span", "dashed") and (word is None or FAMILIES[word.terminal] in ("iron", "wedge")):
            return self._in_range(phrase)
        if word is None:
            loft = phrase.amounts[0].value if phrase.amounts else None
            return [draft for draft in self.scene.drafts if loft is not None and draft.value("head.loft") == loft]
        family = FAMILIES[word.terminal]
        if word.terminal == "NAMEDWEDGE":
            name = str(word.value)
            return [
                d
                for d in self.scene.drafts
                if d.name == name
                or (d.family == "wedge" and d.name is None and wedge_name(d.value("head.loft") or 0) == name)
            ]
        number = int(phrase.amounts[0].value) if phrase.amounts else None
        found = [
            draft for draft in self.scene.drafts
            if draft.family == family and (number is None or number in (draft.number, draft.value("head.loft")))
        ]  # fmt: skip
        if family == "wedge" and number is None:
            found = [draft for draft in found if not self._of_the_irons(draft)] or found
        return found

    def _in_range(self, phrase: Phrase) -> list[Draft]:
        """The irons that a range names, and the wedge that ends it."""
        numbers = [amount.value for amount in phrase.amounts]
        end = phrase.first("NAMEDWEDGE")
        low, high = min(numbers, default=1), 9.0 if end is not None else max(numbers, default=0)
        return [
            draft
            for draft in self.scene.drafts
            if draft.family == "iron"
            and (
                (draft.number is not None and low <= draft.number <= high)
                or (end is not None and draft.name in wedges_to(end.value))
            )
        ]

    def with_driver(self, phrase: Phrase, members: list[Draft]) -> list[Draft]:
        """ "Shafts: woods Ostrane 60 S, hybrids …": on such a line the woods are the driver too, unless it is named."""
        scene = self.scene
        start = scene.clause_opening(phrase.start, within=phrase.start)
        said = scene.tokens[start : scene.clause_end(phrase.start)]
        every = (
            phrase.tokens[-1].lower == "wood" and phrase.start > 0 and scene.tokens[phrase.start - 1].lower == "every"
        )
        woods = phrase.tokens[-1].lower.endswith(("woods", "wood head", "wood heads")) or every
        if not woods or any(token.terminal == "DRIVER" for token in said):
            return members
        return [draft for draft in scene.drafts if draft.family == "driver"] + members

    def _told_to_be(self, phrase: Phrase, family: str) -> list[Draft]:
        """The clubs of "the 46, the 50 and the 56 are wedges, the Gannet, … and the 60's a Gannet too"; else []."""
        scene = self.scene
        linked = phrase.start > 0 and scene.tokens[phrase.start - 1].lower in ("are", "were", "all")
        told = list(scene.clause_drafts) if linked and scene.last_end == phrase.start - 1 else []
        if not told or any(draft.family != family for draft in told):
            return []
        scene.focus, scene.grouped, scene.last_end = told, len(told) > 1, phrase.end
        return told

    def _shafts_of_woods(self, phrase: Phrase) -> bool:
        """True for "Woods and hybrids are all on Ostrane 60 stiff" below a driver that has no shaft yet."""
        drafts = self.scene.drafts
        lacking = [draft for draft in drafts if draft.family == "driver" and not draft.has("shaft.name")]
        return bool(lacking) and self.scene.line_start(phrase.start) and flexed_ahead(self.scene, phrase.end)

    def _told_more(self, phrase: Phrase, members: list[Draft]) -> bool:
        """True for "Irons: Ostrane 105 S", "Irons: +1/2, 1 up" below irons that have their heads."""
        tokens, at = self.scene.tokens, phrase.end + 1
        colon = at < len(tokens) and tokens[at - 1].text == ":"
        if not colon or not all(draft.has("head.name") for draft in members):
            return False
        change = phrase_at(tokens, at)
        if change is not None and change.rule in ("change", "plainly", "swing", "bent", "labelled"):
            return not change.has("LOFT", "HEADWORD")
        if change is not None and change.rule == "bare":
            return change.amounts[0].signed
        shaftless = not any(draft.has("shaft.name") for draft in members)
        return tokens[at].terminal == "WORD" and shaftless and flexed_ahead(self.scene, at)

    def _find(self, family: str, number: int | None, name: str | None) -> Draft | None:
        for draft in self.scene.drafts:
            if draft.family == family and draft.number == number and draft.name == name:
                return draft
            if family == "iron" and name and draft.name == name and draft.in_range:
                return draft
        return None

    def _new(self, family: str, phrase: Phrase, *, number: int | None = None, name: str | None = None) -> Draft:
        if family == "wood" and number == 1:
            return self._find("driver", None, "driver") or self._new("driver", phrase, name="driver")
        scene = self.scene
        if (
            scene.correcting
            and scene.focus
            and scene.focus[-1] in scene.drafts
            and (self._just_named() or self._corrects(family, phrase))
        ):
            draft = scene.focus[-1]
            draft.family, draft.number, draft.name = family, number, name
            loft = draft.value("head.loft")
            if loft is None or number is None or number_by_loft(family, loft) != number:
                draft.facts.pop("head.loft", None)
            scene.correcting = 0
            return draft
        header = scene.header
        if header is not None and header.family == family and number is None:
            number = header.number  # "two three woods: 13.5 and 15"
        draft = Draft(family, number=number, name=name, line=phrase.line)
        draft.row = scene.clause
        draft.place = phrase.start
        if header is not None:
            if family == "driver" and header.family == "wood":
                told = scene.tokens[phrase.start - 1].text in (":", "(") and scene.focus == [header]
                if header.word == "woods" and (told or "head.name" not in header.facts):
                    draft.header = (
                        header  # "WOODS (all Ostrane Black X)", and below it the driver; "Woods Gannet: driver"
                    )
            elif header.family == family or (
                header.family == "iron"
                and family == "wedge"
                and (name in ("pitching wedge", "gap wedge") or self._goes_on(header, phrase))
            ):
                draft.header = header
            else:
                scene.header = None
        scene.drafts.append(draft)
        if len(scene.drafts) > MOST_CLUBS:
            raise BadInput(
                f"line {phrase.tokens[0].written}, column {phrase.tokens[0].column}: more than {MOST_CLUBS} clubs; "
                "a list is of one set, so give each set a list of its own"
            )
        return draft

    def _goes_on(self, header: Draft, phrase: Phrase) -> bool:
        """True for the SW of "Wren irons 7,8,9,PW,SW": it stands in the row of the irons that the model is told of."""
        at = phrase.start - 1
        joined = at > 0 and self.scene.tokens[at].terminal in ("COMMA", "SLASH", "AND") and self.scene.last_end == at
        return joined and "head.name" in header.facts and phrase.rule == "named" and not phrase.amounts

    def _corrects(self, family: str, phrase: Phrase) -> bool:
        """ "Three wood, fifteen, same shaft, no wait, five wood": another of the family right behind the correction.

        "No wait, that's a five wood" opens a sentence of its own about the club of the last one.
        """
        at = phrase.start - 1
        while at >= 0 and self.scene.tokens[at].terminal in ("COMMA", "SILENT", "EQ"):
            at -= 1
        draft = self.scene.focus[-1]
        led = {token.lower for token in self.scene.tokens[at + 1 : phrase.start]}
        led |= set(self.scene.tokens[at].lower.split()) if at >= 0 else set()  # "make that a 7 wood"
        meant = led & {"that", "thats", "that's", "it's", "it"}
        near = self.scene.before_drafts if meant and not self.scene.clause_drafts else self.scene.clause_drafts
        spoken = len(self.scene.focus) == 1 and draft.family == family and draft in near
        return spoken and at >= 0 and self.scene.tokens[at].terminal == "CORRECTION"

    def _of_its_loft(self, draft: Draft, number: float) -> bool:
        """True for the three of "Hybrid, 19 degrees, three hybrid if you like": of it only its own loft is told."""
        loft = draft.value("head.loft")
        return set(draft.facts) == {"head.loft"} and loft is not None and number_by_loft(draft.family, loft) == number

    def _length_behind(self, at: int) -> bool:
        """True for a number that only a club's length is so great as."""
        length = self.scene.tokens[at].value if at < len(self.scene.tokens) else None
        return isinstance(length, float) and 30 < length < 50

    def _just_named(self) -> bool:
        """True when nothing but its name was said of the club in focus: a correction then corrects the name."""
        draft = self.scene.focus[-1]
        return not draft.facts and not draft.weights

    def _focus(self, drafts: list[Draft], phrase: Phrase, header: Draft | None = None) -> list[Draft]:
        scene = self.scene
        real = [draft for draft in drafts if draft in scene.drafts]
        scene.named += len(real)
        if scene.named > MOST_NAMED:
            raise BadInput(
                f"line {phrase.tokens[0].written}, column {phrase.tokens[0].column}: clubs are named more than "
                f"{MOST_NAMED:,} times; a list is of one set, so give each set a list of its own"
            )
        if not real:
            scene.focus = drafts
            return drafts
        if scene.correcting:
            scene.last_number = ("", [])  # "correction: the driver is …": what is corrected is said of the club named
        joined = self._joined(phrase, real)
        for draft in real:
            draft.lines.add(phrase.line)
            if draft not in scene.clause_drafts:
                scene.clause_drafts.append(draft)
            if draft not in scene.line_drafts:
                scene.line_drafts.append(draft)
        scene.focus = joined + real if joined else real
        scene.grouped = False
        scene.last_end = phrase.end
        return scene.focus if joined else real

    def _joined(self, phrase: Phrase, drafts: list[Draft]) -> list[Draft]:
        """The clubs before it that a club named right behind "and", a comma or a slash makes a group with."""
        scene = self.scene
        at = phrase.start - 1
        seps: set[str] = set()
        own = phrase.rule == "named" and at >= 0 and scene.tokens[at].lower in _OWN
        while own and at >= 0 and scene.tokens[at].lower in _OWN:
            at -= 1  # "irons 6, 7, 8, 9 and the matching pitching wedge", "… and the set's own pitching wedge"
        while at >= 0 and scene.tokens[at].terminal in ("SILENT", "AND", "COMMA", "SLASH", "HYPHEN"):
            seps.add(scene.tokens[at].terminal)
            at -= 1
        if own and "AND" not in seps:
            return []  # "the set PW, the set gap wedge, 50°"
        scene.implicit = False
        if at < 0 or not scene.focus or scene.focus[-1] not in scene.drafts:
            return []
        lofted = scene.last_end != at + 1
        if lofted and not ("AND" in seps and self._only_its_loft(at + 1)):
            return []
        adjacent = scene.last_end == phrase.start and phrase.rule in ("club", "named")
        if not seps & {"AND", "COMMA", "SLASH"} and phrase.rule not in ("bare", "code", "amounts") and not adjacent:
            return []
        inside = len(drafts) < len(scene.focus) and all(draft in scene.focus for draft in drafts)
        if inside:
            later = scene.tokens[phrase.end : scene.clause_end(phrase.end)]
            parted = any(token.lower in RESTING for token in later)
            parted = parted or (phrase.rule in ("span", "dashed") and self._named_next(phrase, "iron"))
            with_wedge = phrase.has("NAMEDWEDGE") and "AND" in seps  # "the irons and the PW": PW is one of them
            if parted or (self._pointed(phrase) and not with_wedge):
                return []  # "4-PW, 4-6 with the …": a part of those just named
        broad = {
            "iron" if draft.in_range else _BROAD.get(draft.family, draft.family) for draft in [*scene.focus, *drafts]
        }
        if len(broad) > 1 and broad != {"iron", "wedge"}:
            return []
        scene.implicit = "AND" not in seps or lofted  # "GW 50 and SW 56": the 56 is the last one's
        return [draft for draft in scene.focus if draft not in drafts]

    def _only_its_loft(self, end: int) -> bool:
        """True for "GW 50 and SW 56": between the club before and "and" stands nothing but its loft."""
        between = self.scene.tokens[self.scene.last_end : end] if self.scene.last_end >= 0 else []
        lofted = bool(between) and all(token.terminal in ("NUM", "DEG", "AT") for token in between)
        return lofted and len(between) <= 3 and self.scene.focus[-1].value("head.loft") in [t.value for t in between]

    def _named_next(self, phrase: Phrase, family: str) -> bool:
        """True when clubs of this family are named later in the same clause."""
        scene = self.scene
        end = scene.clause_end(phrase.end)
        for position in range(phrase.end, min(end, phrase.end + 24)):
            found = phrase_at(scene.tokens, position)
            if scene.tokens[position].lower in EXCEPT:
                return False  # "all the irons and wedges go 1 up, except the lob wedge": known already
            if scene.tokens[position].terminal == "PIPE" and self._club_behind(position):
                return False  # "Hybrid: Gannet 22 | Irons: Dunlin 5-PW"
            if found is None:
                continue
            if found.rule == "family" and scene.shaft_line:
                return False  # "Shafts: woods Ostrane 60 S, irons 4-PW Ostrane 115 S"
            if found.rule == "dashed" and found.amounts[0].value >= 70:
                continue  # "90-102": the masses of their shafts
            if found.rule in ("span", "dashed", "amounts", "code"):
                return True
            if found.rule in ("club", "named") and family == "wedge" and found.has("WEDGE", "NAMEDWEDGE"):
                return True
            if (
                family == "wedge"
                and found.rule == "bare"
                and wedge_loft(found.amounts[0].value)
                and found.amounts[0].unit != "in"
            ):
                return True
            word = {"iron": "IRON", "wood": "WOOD", "hybrid": "HYBRID", "diron": "DIRON"}.get(family, "WOOD")
            if found.rule == "club" and found.has(word) and found.tokens[0].kind == "number":
                if any(draft.family == family and draft.number == found.amounts[0].value for draft in scene.drafts):
                    continue  # "the shafts in the irons …, from 90 g in the six iron …": known already
                return True
        return False

    def _club_behind(self, at: int) -> bool:
        """True when a club or a family is named right behind this place."""
        tokens = self.scene.tokens
        phrase = phrase_at(tokens, at + 1) if at + 1 < len(tokens) else None
        return phrase is not None and phrase.rule in ("club", "named", "family")

    def _pointed(self, phrase: Phrase) -> bool:
        """True when "the", "his" … stand before the phrase."""
        at = phrase.start - 1
        return at >= 0 and self.scene.tokens[at].lower in POINTERS

    def _behind_colon(self, at: int) -> bool:
        """True for the three of "two hybrids, both Dunlin: a three at nineteen", also on the next line of captions."""
        tokens, first = self.scene.tokens, at - 2
        while at > max(1, first) and tokens[at - 1].terminal == "SILENT":
            at -= 1
        return at > 0 and tokens[at - 1].text == ":"
