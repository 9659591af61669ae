"""Which part, person or event a run of names names."""

from __future__ import annotations

from asplayed.intake.ahead import (
    flexed,
    grip_ahead,
    held,
    leads_in,
    names_next,
    numbered_row,
    shaft_ahead,
    weighed_apart,
)
from asplayed.intake.balls import ball_ahead, ball_clause, last_line
from asplayed.intake.drafts import Draft, Entry, of_group
from asplayed.intake.groups import FAMILIES
from asplayed.intake.known import Known
from asplayed.intake.names import SUFFIXES, NameRun
from asplayed.intake.persons import is_addressed, is_person
from asplayed.intake.phrases import CLUB_RULES, names_clubs, phrase_at, wedge_loft
from asplayed.intake.plurals import Plurals
from asplayed.intake.scene import CLAUSE, TITLES, Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import cased, eligible, prose, terse

_ARTICLES = {"a", "an", "the"}
_POINTED = {"there", "it", "that", "them", "both", "all", "those", "these"}  # behind "in": clubs told of before
_ENDS_NAME = {"COMMA", "LPAR", "STOP", "NEWLINE", "SLASH", "PIPE", "WORD"}


# What tells of a club or its shaft in a sentence.
_OF_A_CLUB = {
    *FAMILIES,
    "CODE",
    "SHAFTWORD",
    "FLEX",
    "FLEXCODE",
    "FLEXWORD",
    "GRAM",
    "ALL",
    "THOSE",
    "SAME",
    "ASCENDING",
}


class Names(Plurals):
    """Says what each run of names names, and keeps what waits for its club."""

    def __init__(self, scene: Scene, known: Known) -> None:
        super().__init__(scene, known)
        self.pending: NameRun | None = None
        self.pending_loft: Entry | None = None
        self.labelled: NameRun | None = None  # a model before a colon: that of every club of its clause
        self.waiting: Draft | None = None  # what was said of a shaft before its club was named
        self.given: tuple[NameRun, int, Draft] | None = None  # the model given to the club named behind it
        self.head_behind = False  # behind the club that is waited for stands its model
        self.last: tuple[str, NameRun, list[Draft]] | None = None
        scene.cased = cased(scene)

    def role(self, run: NameRun, zone: str) -> str | None:
        """What the run names: head, shaft, grip, ball, player, event, "pending" for the next club, None for nothing."""
        scene, tokens = self.scene, self.scene.tokens
        before = tokens[run.start - 1] if run.start else None
        after = tokens[run.end] if run.end < len(tokens) else None
        if after is not None and self._event_kind(after) and zone not in ("head", "grip", "shaft"):
            return "event" if self._event(run) else None
        if zone in ("player", "event", "ball") or (zone == "maker" and scene.focus):
            return zone
        if ball_ahead(self.scene, run.start) or ball_clause(self.scene, run.start):
            return "ball"
        if last_line(self.scene, run):
            return "ball"
        if run.text.lower().rstrip(".") in TITLES:
            return None
        if scene.everyone_headed and scene.everyone is not None and not scene.everyone.has("head.name"):
            return "head"  # "She has seven clubs, all of them Gannet Jr"
        if not (zone in ("head", "shaft", "grip") and scene.focus) and is_person(self.scene, self.known, run):
            return "player"
        if is_addressed(scene, run):
            return None
        if scene.club_last and self.waiting is not None and scene.focus == [self.waiting]:
            return self._before_its_club(run, self.waiting)
        if self.waiting is not None and names_next(self.scene, run.end):
            return "pending"
        if scene.everyone is not None and scene.focus == [scene.everyone] and not zone:
            return "grip" if grip_ahead(scene, run.end) else "shaft"
        if (part := self._put_right(run)) is not None:
            return part
        if scene.focus and after is not None and after.terminal == "HEADWORD" and after.lower in ("head", "clubhead"):
            return "head"  # "a Lindrake 75 X and a Kittiwake head"
        if zone in ("head", "shaft", "grip") and scene.focus:
            if zone == "shaft" and (grip_ahead(self.scene, run.end) or self._grip_by_mass(run, scene.focus[-1])):
                return "grip"
            apart = before is not None and before.terminal == "DASH" and not before.glued
            if zone == "shaft" and apart and scene.focus[-1].has("shaft.name") and not scene.focus[-1].has("head.name"):
                return "head"  # "driver - Ostrane 60 S - Kittiwake 9"
            if zone == "shaft" and self._carried_by(run):
                return "head"
            article = before is not None and before.lower in ("a", "an", "my", "his", "her")
            if zone == "shaft" and article and scene.focus[-1].has("shaft.name") and names_next(scene, run.end):
                return "pending"  # "… ninety regular then a crake gap wedge fifty"
            return self._free(zone, run, explicit=True)
        if (
            before is not None
            and before.lower == "for"
            and not scene.focus
            and not tokens[run.start].text[:1].isupper()
        ):
            return None  # "half set for evenings: …"
        if self._shaft_of_heading(run):
            return "shaft"
        if not zone and self._model_again(run):
            return "head"
        if self._model_of_some(run) or self._model_in_full(run):
            for draft in scene.focus:
                draft.facts.pop("head.name", None)
            return "head"
        if run.end - run.start == 1 and tokens[run.start].lower in SUFFIXES and tokens[run.start].text.isupper():
            return None if scene.focus and scene.focus[-1].has("head.name") else "head"  # "Gannet 15 HL"
        if scene.focus and not scene.focus[-1].has("head.name") and self._called(run):
            return "head"
        if self._one_of_several(run):
            return "pending"
        if self._numbered_next(run) or self._wedge_next(run) or self._another_of_it(run) or self._in_apposition(run):
            return "pending"
        if self._one_besides(run):
            return "pending"
        if self._shaft_first(run):
            return "waiting"
        if self.in_the_family(run):
            return "pending"
        if self._shaft_of_those(after, tokens[run.end + 1 : run.end + 2]):
            return "shaft"
        if scene.focus and names_next(self.scene, run.end) and self._clubs_first(run):
            return "head"
        if not scene.focus or names_next(self.scene, run.end):
            return self._before_club(run)
        if scene.line_start(run.start) and scene.table is None and scene.focus[0] is not self.waiting:
            ahead = self._before_club(run, listed=True)
            bracketed = tokens[run.end].terminal == "LPAR"
            if ahead is None and bracketed and not any(draft.facts for draft in scene.focus):
                return "head"  # "Driver" on a line of its own, and below it "Crossbill LS (9 degrees)"
            if ahead is not None or bracketed:
                return ahead
        if scene.regripped and scene.focus[-1].has("head.name") and not flexed(scene, run.end):
            return "grip"
        known = self.known.role_of_name(run.text)
        if known not in ("shaft", "grip") and self._out_of_the_blue(run, zone):
            return None
        if known in ("shaft", "grip") and self._first_of_club(run):
            return "head"
        if known in ("shaft", "grip") and not grip_ahead(self.scene, run.end):
            return self._free(known, run, explicit=True)
        told = run.start > 1 and tokens[run.start - 1].lower in ("a", "an") and tokens[run.start - 2].lower == "it's"
        if told and not scene.focus[-1].has("head.name") and not grip_ahead(self.scene, run.end):
            return "shaft" if flexed(self.scene, run.end) else "head"
        if grip_ahead(self.scene, run.end) or (zone == "grip~" and not scene.focus[0].has("grip.name")):
            return "grip"
        focus = scene.focus[-1]
        if self._wrapped(run, focus):
            return "grip"
        led = scene.lead >= 0 and scene.lead >= scene.chunk_start and self._only_silent(scene.lead + 1, run.start)
        flexing = shaft_ahead(self.scene, run.end, focus)
        if before is not None and before.terminal == "BY" and focus.has("head.name"):
            return "maker" if not focus.has("head.maker") and not zone.startswith(("shaft", "grip")) else None
        if zone == "shaft~" and not focus.has("shaft.name"):
            return "shaft"
        if not focus.has("head.name"):
            weighed = (flexing and flexed(scene, run.end)) or weighed_apart(scene, run.end)
            if held(scene, run.start) and weighed and not focus.has("shaft.name"):
                return "shaft"  # "both have Sedge 75 S", "the driver has a Gristle Red, 63 g"
            if (
                led
                and tokens[scene.lead].terminal in ("WITH", "IN")
                and focus.lines
                and (flexing or (not self._fresh(focus) and tokens[scene.lead].terminal == "WITH"))
            ):
                return "shaft"
            if tokens[run.end - 1].lower in SUFFIXES and after is not None and after.terminal == "FLEX":
                return "head"  # "12° Bluet Lite ladies flex"
            massless = after is not None and after.terminal in ("FLEX", "FLEXCODE") and known != "shaft"
            if massless and not self._mass_near(run.end):
                return "head"  # "6H 27 Teal, L flex": a model is told before a shaft's name, a shaft with its mass
            if flexing and (focus.has("head.loft") or self._weighed(run, focus)):
                return "shaft"
            if focus.facts and flexing and focus.family != "wedge" and not self._fresh(focus):
                return "shaft"
            return "head"
        if not led and self._grip_by_mass(run, focus):
            return "grip"
        gripped = any(path == "grip.name" for path, _entry in scene.clause_puts)
        ellipsis = scene.last_end == run.start  # "the irons have Norrby grips, the wedges Tessary"
        if gripped and ellipsis and not flexing and not focus.has("grip.name"):
            return "grip"
        if focus.family == "putter" and focus.has("length") and not led and not flexing and self._third(run, focus):
            return "grip"
        if focus.family == "putter":
            return "shaft" if flexing or led else None
        if not led and not flexing and self._last_of_many(run):
            return None
        between = range(scene.last_end, run.start) if 0 <= scene.last_end <= run.start else [run.start]
        behind = focus in scene.clause_drafts and all(tokens[at].terminal in ("EQ", "SILENT") for at in between)
        own = behind and "head.name" not in focus.facts
        if own and not led and not flexing:
            return "head"  # "a 62 Wigeon" among Dabchicks
        if not led and not flexing and self._third(run, focus):
            return "grip"
        if not led and not flexing and known != "shaft" and self._said_in_passing(run):
            return None
        return self._free("shaft", run, explicit=led or flexing)

    def _said_in_passing(self, run: NameRun) -> bool:
        """True for the "Burr" of "Everybody told me to try the Burr.": a sentence of talk that tells of no club."""
        scene, tokens = self.scene, self.scene.tokens
        start, end = scene.clause_opening(run.start), scene.clause_end(run.end)
        if scene.table is not None or not prose(scene, run.start) or scene.correcting:
            return False
        told = [*tokens[start : run.start], *tokens[run.end : end]]
        if any(token.kind == "number" or token.terminal in _OF_A_CLUB for token in told):
            return False
        return any(token.terminal == "WORD" and token.text.islower() for token in told)

    def _shaft_of_those(self, after: Token | None, behind: list[Token]) -> bool:
        """True for the "Reed" of "Reed shafts, stiff, 55 g in the driver …" behind clubs that have their heads only."""
        focus = self.scene.focus
        told = after is not None and after.terminal == "SHAFTWORD" and self.scene.table is None
        apart = bool(behind) and behind[0].terminal == "COMMA" and bool(focus)
        return told and apart and all(one.has("head.name") and not one.has("shaft.name") for one in focus)

    def _called(self, run: NameRun) -> bool:
        """True for the "Gannet" of "a five hybrid called a Gannet"."""
        words = [token.lower for token in self.scene.tokens[max(0, run.start - 2) : run.start]]
        return words[-1:] in (["called"], ["named"]) or (words[:1] in (["called"], ["named"]) and words[1] in _ARTICLES)

    def _in_clubs(self, end: int) -> int:
        """The place behind the "in" of "Reed in the wedges", "Reed again in the wedges"; 0 for none."""
        tokens = self.scene.tokens
        while end < len(tokens) and tokens[end].lower in ("again", "too"):
            end += 1
        return end + 1 if end < len(tokens) and tokens[end].lower == "in" else 0

    def in_the_family(self, run: NameRun) -> bool:
        """True for "we've gone for the Gannet in the irons": the model of clubs that are only named behind it."""
        tokens, at = self.scene.tokens, self._in_clubs(run.end)
        if not at or self.known.role(tokens[run.start].text) == "shaft":
            return False
        start = at
        while at < len(tokens) and tokens[at].lower in ("the", "my", "his", "her"):
            at += 1
        phrase = phrase_at(tokens, at) if at < len(tokens) else None
        if phrase is not None and phrase.rule == "amounts" and all(wedge_loft(one.value) for one in phrase.amounts):
            return True  # "then the Gannet again in fifty-two and fifty-six"
        if phrase is None or at == start or phrase.rule != "family" or not phrase.tokens[0].lower.endswith("s"):
            return False
        word = phrase.first("WOOD", "HYBRID", "IRON", "WEDGE")
        return word is not None and not any(draft.family == word.terminal.lower() for draft in self.scene.drafts)

    def _put_right(self, run: NameRun) -> str | None:
        """The part whose name this one takes the place of: "the Foo, no wait, the Bar"; None for none."""
        path, drafts = self.scene.last_path
        part, _, told = path.partition(".")
        if not self.scene.correcting or told != "name" or not drafts or drafts != self.scene.focus:
            return None
        if part == "head" and flexed(self.scene, run.end):
            return None
        return part

    def _grip_by_mass(self, run: NameRun, focus: Draft) -> bool:
        """True for "Marram Ash 55 S, 44½, D1, Tessary Line 46 g": the shaft and its mass are told."""
        tokens = self.scene.tokens
        grams = [token.terminal for token in tokens[run.end : run.end + 2]] == ["NUM", "GRAM"]
        if not grams or focus.has("grip.name") or flexed(self.scene, run.end):
            return False
        if focus.family == "putter":
            return focus.has("head.name")
        mass = tokens[run.end].value
        return focus.has("shaft.name") and focus.has("shaft.mass") and isinstance(mass, float) and mass <= 75

    def _model_of_some(self, run: NameRun) -> bool:
        """True for the "Dunlin U" of "4-PW Dunlin, four and five are the Dunlin U": some of the group have another."""
        scene = self.scene
        told = [draft.facts.get("head.name") for draft in scene.focus]
        words = {word for name in self.known.heads for word in name.split()}
        if not told or any(entry is None or not entry.group for entry in told) or flexed(scene, run.end):
            return False
        group = [draft for draft in scene.drafts if draft.facts.get("head.name") in told]
        near = 0 <= run.start - scene.last_end <= CLAUSE and scene.last_end >= 0
        between = scene.tokens[scene.last_end : run.start] if near else None
        pointed = between is not None and any(token.lower in ("are", "is", "=", ":") for token in between)
        return pointed and len(scene.focus) < len(group) and scene.tokens[run.start].lower in words

    def _model_in_full(self, run: NameRun) -> bool:
        """True for "the Gannet 9, no, ten and a half, that's the Gannet Max": the model said before, and more of it.

        Where the maker alone was told, an article leads to the model: "a driver from Gannet, the Gannet Tour".
        """
        focus = self.scene.focus[-1] if self.scene.focus else None
        told = focus.facts.get("head.name") if focus is not None else None
        led = [token.lower for token in self.scene.tokens[max(0, run.start - 2) : run.start]]
        pointed = any(word.replace("'", "") in ("thats", "its", "is") for word in led)
        more = told is not None and run.text.casefold().startswith(f"{str(told.value).casefold()} ")
        if focus is None or not more or flexed(self.scene, run.end):
            return False
        known = focus.has("shaft.name") or focus.has("head.loft") or shaft_ahead(self.scene, run.end, focus)
        return pointed or (led[-1:] in (["the"], ["an"], ["a"], ["both"], ["all"]) and not known)

    def _model_again(self, run: NameRun) -> bool:
        """True for "the pitching wedge of the same irons, Gannet Pro": the model that the clubs have already."""
        told = [draft.facts.get("head.name") for draft in self.scene.focus]
        lent = told and all(entry is not None and entry.group and str(entry.value) == run.text for entry in told)
        after = self.scene.tokens[run.end].terminal if run.end < len(self.scene.tokens) else "NEWLINE"
        return bool(lent) and after not in ("NUM", "FLEX", "FLEXCODE")

    def _shaft_of_heading(self, run: NameRun) -> bool:
        """True for the "Ostrane Black" of the heading "WOODS (all Ostrane Black X)"."""
        scene, tokens = self.scene, self.scene.tokens
        headed = scene.header is not None and scene.focus == [scene.header] and not scene.header.facts
        at = run.start - 1
        while at > 0 and tokens[at].terminal in ("ALL", "SILENT"):
            at -= 1
        return headed and tokens[at].terminal == "LPAR" and flexed(scene, run.end)

    def _before_its_club(self, run: NameRun, club: Draft) -> str | None:
        """The part that a name before its club names, on a line that names the club last."""
        if grip_ahead(self.scene, run.end):
            return "grip"
        if flexed(self.scene, run.end) or shaft_ahead(self.scene, run.end, club):
            return "shaft"
        after = self.scene.tokens[run.end] if run.end < len(self.scene.tokens) else None
        figured = after is not None and (after.kind == "number" or after.terminal in ("CODE", "LPAR"))
        weighed = club.has("shaft.mass") or club.has("shaft.flex")
        order = ["shaft", "grip"] if self.head_behind else ["head", "shaft", "grip"]
        if not self.head_behind and weighed and not figured and not club.has("shaft.name"):
            order = ["shaft", "head", "grip"]  # "60 g / X / Larchen / Fellside 9 / driver"
        return next((part for part in order if not club.has(f"{part}.name")), None)

    def _carried_by(self, run: NameRun) -> bool:
        """True for the "Kittiwake" of "driver: Ostrane 60 S in a Kittiwake 9": the shaft is told, the head holds it."""
        scene, tokens = self.scene, self.scene.tokens
        focus, at = scene.focus[-1], run.start - 1
        while at >= 0 and tokens[at].lower in ("a", "an", "the", "my", "his", "her"):
            at -= 1
        led = at >= 0 and tokens[at].terminal in ("IN", "INTO") and tokens[at].lower != "with"
        told = "shaft.name" in focus.facts and focus.facts["shaft.name"].line == run.line
        return led and told and not focus.has("head.name") and not flexed(scene, run.end)

    def _third(self, run: NameRun, focus: Draft) -> bool:
        """True for the "Tessary Cord" of "Driver: Gannet, Ostrane 60 S, Tessary Cord": head and shaft are told."""
        scene, tokens = self.scene, self.scene.tokens
        if prose(self.scene, run.start) or not scene.chunk_opens(run.start) or scene.line_start(run.start):
            return False
        shaft = focus.facts.get("head.name" if focus.family == "putter" else "shaft.name")
        behind = tokens[run.end].terminal if run.end < len(tokens) else "NEWLINE"
        told = shaft is not None and shaft.line == run.line and not focus.has("grip.name")
        words = [token for token in tokens[run.start : run.end] if token.kind == "word"]
        capital = all(token.text[:1].isupper() for token in (words[:1] if focus.family == "putter" else words))
        return told and capital and behind in ("COMMA", "STOP", "NEWLINE", "SLASH", "PIPE", "RPAR")

    def _weighed(self, run: NameRun, focus: Draft) -> bool:
        """True for "Ostrane Gold 55 R" right behind a club: a mass and a flex are a shaft's, told before the head."""
        tokens = self.scene.tokens
        number = tokens[run.end] if run.end < len(tokens) else None
        value = number.value if number is not None and number.terminal == "NUM" else None
        low = 66 if focus.family in ("wedge", "iron") else 38
        if not self.scene.cased and run.end - run.start > 1:
            return False  # "dunlin ostrane 110 stiff": head and shaft in one breath
        massive = isinstance(value, float) and low <= value <= 150 and value == int(value)
        return massive and flexed(self.scene, run.end + 1) and not grip_ahead(self.scene, run.end)

    def _mass_near(self, position: int) -> bool:
        """True when a shaft's mass stands in the same stretch behind this place."""
        tokens = self.scene.tokens
        for at in range(position, min(position + 5, len(tokens))):
            if tokens[at].terminal in ("COMMA", "STOP", "NEWLINE", "SLASH", "PIPE", "RPAR", "DASH"):
                return False
            value = tokens[at].value
            inches = at + 1 < len(tokens) and tokens[at + 1].terminal in ("INCH", "DEG", "CM")
            if tokens[at].terminal == "NUM" and isinstance(value, float) and 38 <= value <= 150 and not inches:
                return True
        return False

    def _last_of_many(self, run: NameRun) -> bool:
        """True for a lone name that ends a line of many clubs without a shaft: it may be a putter's."""
        scene, tokens = self.scene, self.scene.tokens
        ends = run.end >= len(tokens) or tokens[run.end].terminal in ("NEWLINE", "STOP")
        if not ends or scene.table is not None or "PUTTER" in scene.terminals:
            return False
        families = {draft.family for draft in scene.line_drafts}
        return len(families) > 2 and not any(draft.has("shaft.name") for draft in scene.line_drafts)

    def _clubs_first(self, run: NameRun) -> bool:
        """True for the "Dunlin" of "4-6 Dunlin 7-PW Gannet 5": this line says each club before its model."""
        scene, tokens = self.scene, self.scene.tokens
        fresh = not scene.focus[-1].has("head.name") and scene.focus[-1] in scene.drafts
        if not fresh or scene.last_end != run.start or scene.table is not None:
            return False
        start = run.start
        while start > 0 and tokens[start - 1].terminal not in ("NEWLINE", "STOP", "BULLET", "COMMA"):
            start -= 1
        first = phrase_at(tokens, start)
        if first is None or first.rule not in ("span", "dashed", "amounts", "club", "named") or first.end != run.start:
            return False
        behind = run.end
        while behind < len(tokens) and (found := phrase_at(tokens, behind)) is not None and found.rule in CLUB_RULES:
            behind = found.end
        return behind < len(tokens) and tokens[behind].terminal == "WORD" and eligible(self.scene, behind)

    def _out_of_the_blue(self, run: NameRun, zone: str) -> bool:
        """True for a name that opens a line of a list although the club before it has its head and its shaft."""
        scene = self.scene
        if zone or scene.table is not None or not scene.line_start(run.start) or prose(self.scene, run.start):
            return False
        if scene.correcting or scene.choosing or grip_ahead(self.scene, run.end):
            return False
        if self._lofted_again(run):
            return True
        return all(draft.has("head.name") and draft.has("shaft.name") for draft in scene.focus)

    def _lofted_again(self, run: NameRun) -> bool:
        """True for the "Plover 22" behind "3w Gannet 15;": a model and a loft, and the club before has both."""
        tokens, scene = self.scene.tokens, self.scene
        value = tokens[run.end].value if run.end < len(tokens) and tokens[run.end].terminal == "NUM" else None
        after = tokens[run.end + 1].terminal if run.end + 1 < len(tokens) else "NEWLINE"
        lofted = isinstance(value, float) and 7 <= value <= 30 and after not in ("FLEX", "FLEXCODE", "GRAM", "INCH")
        told = len(scene.focus) == 1 and scene.focus[0].has("head.name") and scene.focus[0].has("head.loft")
        return lofted and told and scene.focus[0].family in ("driver", "wood", "hybrid")

    def _wrapped(self, run: NameRun, focus: Draft) -> bool:
        """True for "Tessary +1" behind a club's head and shaft, "Tessary with 2 extra wraps": a grip and its tape."""
        tokens = self.scene.tokens
        near = tokens[run.end : run.end + 6]
        wrap = next((at for at, token in enumerate(near) if token.terminal == "WRAP"), 0)
        if wrap and focus.has("head.name") and not any(token.kind in ("mark", "newline") for token in near[:wrap]):
            return not focus.has("grip.name") and not flexed(self.scene, run.end)
        count = tokens[run.end] if run.end < len(tokens) else None
        if count is None or count.terminal != "SNUM" or not isinstance(count.value, float):
            return False
        after = tokens[run.end + 1].terminal if run.end + 1 < len(tokens) else "NEWLINE"
        complete = focus.has("head.name") and focus.has("shaft.name") and not focus.has("grip.name")
        whole = count.value in (1.0, 2.0, 3.0, 4.0) and count.text.lstrip("+").isdigit()
        return complete and whole and after in ("NEWLINE", "COMMA", "SLASH", "STOP", "PIPE", "RPAR")

    def _fresh(self, draft: Draft) -> bool:
        return not draft.facts

    def _only_silent(self, start: int, end: int) -> bool:
        return all(
            self.scene.tokens[at].terminal in ("SILENT", "HYPHEN", "NUM", "GRAM", "FLEX", "FLEXCODE", "FLEXWORD")
            for at in range(start, end)
        )

    def _free(self, part: str, run: NameRun, *, explicit: bool) -> str | None:
        """The part when it has no name yet; else, for words out of the blue, nothing."""
        focus = self.scene.focus[-1]
        if not focus.has(f"{part}.name") or self.scene.correcting or self.scene.choosing:
            return part
        if explicit:
            return part
        return None

    def _event_kind(self, token: Token) -> bool:
        """True for the word that makes a name an event's: cup, trophy, Open."""
        return token.terminal == "EVENTKIND" or (token.terminal == "OPEN" and token.text[:1].isupper())

    def _event(self, run: NameRun) -> bool:
        """Take "Ravelin Cup" as the event, kind and all."""
        scene = self.scene
        end = run.end
        while end < len(scene.tokens) and self._event_kind(scene.tokens[end]):
            scene.claims[end] = "set"
            end += 1
        if "event" not in scene.facts:
            start = run.start + (scene.tokens[run.start].lower == "event" and end > run.start + 1)
            scene.facts["event"] = scene.words(start, end)
            for at in range(run.start, end):
                scene.claims[at] = "set"
            return False
        return False

    def _shaft_first(self, run: NameRun) -> bool:
        """True for "Lindrake 65 TX in a Kittiwake driver": a shaft at the clause's start, its club behind "in"."""
        scene, tokens = self.scene, self.scene.tokens
        if not scene.line_start(run.start) or scene.table is not None or not flexed(self.scene, run.end):
            return False
        end = scene.clause_end(run.start)
        leads = [
            at
            for at in range(run.end, min(end, run.end + 6))
            if tokens[at].terminal in ("IN", "AT") and tokens[at + 1].lower not in _POINTED
        ]
        for at in range(run.end, leads[0] if leads else end):
            phrase = phrase_at(tokens, at)
            if (
                phrase is not None
                and phrase.rule in CLUB_RULES
                and not (phrase.amounts and phrase.amounts[0].value >= 40)
            ):
                return False
        if not leads:
            return False
        for at in range(leads[0], min(end, leads[0] + 8)):
            phrase = phrase_at(tokens, at)
            if phrase is not None and phrase.rule in CLUB_RULES:
                return True
        return False

    def _before_club(self, run: NameRun, *, listed: bool = False) -> str | None:
        """The name waits for the club named behind it in the same clause."""
        scene, tokens = self.scene, self.scene.tokens
        end = scene.clause_end(run.start)
        for at in range(run.end, min(end, run.end + 16)):
            if tokens[at].terminal == "LPAR" and at == run.end:
                return "pending" if self._club_in_bracket(run) else None
            if scene.claims[at] == "club":
                return None  # the clubs behind "in" or "from", which are spoken of already
            if (
                tokens[at].terminal == "SAME" or tokens[at].lower == "like"
            ):  # "Gannet, both of them, with the same shaft as the irons"
                waits = bool(scene.focus) and not any(draft.has("head.name") for draft in scene.focus)
                return "head" if waits else None
            if tokens[at].lower == "there" and tokens[at - 1].terminal == "IN":
                return None  # "Foehn 75 X in there" is of the club before
            if tokens[at].terminal == "COMMA" and (scene.source.spoken or not terse(self.scene, run.start)):
                opens = at == run.end and scene.line_start(run.start)
                return "pending" if opens and numbered_row(scene, at + 1) else None
            phrase = phrase_at(tokens, at)
            each = phrase is not None and phrase.rule == "amounts" and len(scene.focus) == len(phrase.amounts) > 1
            if each and not any(draft.facts for draft in scene.focus):
                return None  # "Five and six. Gannet, twenty-six and twenty-nine degrees": their lofts
            if phrase is not None and phrase.has("PUTTER") and flexed(scene, run.end) and self._mass_near(run.end):
                return None  # "Reed 120 stiff", and on the next line "putter": a shaft, and of no putter
            if phrase is not None and (
                names_clubs(phrase) or (phrase.rule == "bare" and not listed and 44 <= phrase.amounts[0].value <= 64)
            ):
                return "pending"
        return None

    def _club_in_bracket(self, run: NameRun) -> bool:
        """True for a line "Gannet Pro (5-PW), …": the bracket behind the model names its clubs."""
        scene = self.scene
        waits = bool(scene.focus) and not scene.focus[-1].has("head.name")
        inside = phrase_at(scene.tokens, run.end + 1) if run.end + 1 < len(scene.tokens) else None
        behind = scene.tokens[inside.end : inside.end + 4] if inside is not None else []
        named = [token.text for token in behind[:2]] == [")", ","] and behind[-1].kind in ("mark", "newline")
        if named or [token.text for token in behind[:2]] == [")", ":"]:
            return False  # "Spoon (3 wood), Gannet, 42 in", "Spoon (3 wood): Gannet 15"
        return scene.line_start(run.start) and not waits and inside is not None and inside.rule in CLUB_RULES

    def attach_pending(self, drafts: list[Draft]) -> None:
        """Give the name that stood before its club to the clubs just named."""
        if self.pending_loft is not None:
            for draft in drafts:
                if "head.loft" not in draft.facts:
                    draft.put("head.loft", self.pending_loft)
            self.pending_loft = None
        if self.waiting is not None:
            for draft in drafts:
                for path, entry in self.waiting.facts.items():
                    draft.put(path, entry._replace(group=of_group(len(drafts))))
            self.waiting = None
        if self.pending is None:
            self._give_again(drafts)
            for draft in drafts if self.labelled is not None else ():
                assert self.labelled is not None
                text = self.tidy(self.labelled, 2)
                draft.put("head.name", Entry(text, "1", self.labelled.line, self.labelled.text, group=1))
            return
        run, self.pending = self.pending, None
        self.given = (run, self.scene.clause, drafts[-1])
        colon = self.scene.tokens[run.end] if run.end < len(self.scene.tokens) else None
        self.labelled = run if colon is not None and colon.text == ":" else None
        self.scene.name_waits = False
        lacking = [draft for draft in drafts if "head.name" not in draft.facts]
        held = self._in_clubs(run.end) and all(draft.facts and draft.has("head.name") for draft in lacking)
        part = "shaft" if held and not any(draft.has("shaft.name") for draft in lacking) else "head"
        for draft in lacking:
            text, group = self.tidy(run, len(drafts)), of_group(len(drafts))
            draft.put(f"{part}.name", Entry(text, "1", run.line, run.text, group=group))
        if not lacking and not any(str(draft.facts["head.name"].value) in run.text for draft in drafts):
            self.scene.leave(run.start, run.end)  # the clubs have another model

    def _give_again(self, drafts: list[Draft]) -> None:
        """ "Dunlin 4h, 5h": the model that stands before a row of clubs is that of each."""
        if self.given is None or self.given[1] != self.scene.clause or self.given[2] not in drafts:
            return
        run, end, tokens = self.given[0], self.scene.last_end, self.scene.tokens
        if end < len(tokens) and tokens[end].terminal == "WORD":
            return  # "Gannet 3 wood, 5 wood Dunlin"
        for draft in drafts if {draft.family for draft in drafts} <= {"hybrid", "wood"} else ():
            if "head.name" not in draft.facts and "shaft.name" not in draft.facts:
                draft.put("head.name", Entry(self.tidy(run, len(drafts)), "1", run.line, run.text, group=1))

    def weigh(self, run: NameRun, role: str, zone: str) -> None:
        """Note how surely the run named its part: by a word beside it, by what follows it, or by its place alone."""
        tokens = self.scene.tokens
        part = "head" if role == "pending" else role
        if part not in ("head", "shaft", "grip"):
            return
        after = tokens[run.end] if run.end < len(tokens) else None
        if zone == part or (part == "grip" and grip_ahead(self.scene, run.end)):
            weight = 4
        elif role == "pending" or (part == "shaft" and after is not None and flexed(self.scene, run.end)):
            weight = 3
        else:
            weight = 1
        joined = after is not None and after.terminal not in _ENDS_NAME
        headed = part == "shaft" and all(draft.has("head.name") for draft in self.scene.focus)
        if (
            run.end - run.start > 1
            and not headed
            and joined
            and flexed(self.scene, run.end)
            and tokens[run.end - 1].terminal == "WORD"
        ):
            self.scene.tails.append((tokens[run.start].text, tokens[run.end - 1].text))
        self.scene.evidence += [(name, part, weight) for name in {tokens[run.start].text, run.text}]

    def claim_last(self, zone: str) -> None:
        """ "Lindrake shaft", "Tessary grip": the word behind the name says what the name was."""
        if self.last is None or zone not in ("shaft", "grip"):
            return
        role, run, drafts = self.last
        if role == zone or run.end < self.scene.clause_start:
            return
        at = run.end
        tokens = self.scene.tokens
        while at < len(tokens) and tokens[at].terminal in (
            "SILENT",
            "NUM",
            "GRAM",
            "FLEX",
            "FLEXCODE",
            "SIZE",
            "COLOUR",
        ):
            if zone == "grip" and role == "shaft" and tokens[at].terminal in ("FLEX", "FLEXCODE"):
                return  # "Ostrane 65 X   45   grip Tessary": no grip has a flex
            if (
                role == "head"
                and isinstance(value := tokens[at].value, float)
                and tokens[at].kind == "number"
                and value < 38
            ):
                return  # "Gannet 15 shaft Lindrake blue": a head and its loft
            at += 1
        if leads_in(self.scene, at):
            return  # "Dunlin shaft Thrift 100 S"
        if at < len(tokens) and tokens[at].terminal == f"{zone.upper()}WORD":  # not the shaft's own word before a grip
            for draft in drafts:
                entry = draft.facts.get(f"{role}.name")
                if entry is not None and entry.text == run.text and not draft.has(f"{zone}.name"):
                    del draft.facts[f"{role}.name"]
                    draft.put(f"{zone}.name", entry)
