"""The walk through the tokens: which club is being spoken of, which part of it, and what each phrase adds to it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from asplayed.intake import facts as said
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.known import Known
from asplayed.intake.mentions import Mentions
from asplayed.intake.names import NameRun, Names
from asplayed.intake.phrases import Amount, Phrase, phrase_at
from asplayed.intake.scene import Doubt, Scene
from asplayed.intake.tokens import Token

_ZONES = {
    "LOFT": "loft", "LIE": "lie", "BOUNCE": "bounce", "LENGTH": "length", "TORQUE": "torque",
    "FREQUENCY": "frequency", "TOTALMASS": "total", "TOEHANG": "toe_hang", "HEADMASS": "head.mass",
    "SHAFTWORD": "shaft", "GRIPWORD": "grip", "HEADWORD": "head", "SLEEVE": "sleeve", "WEIGHT": "weight",
    "WRAP": "wraps", "SOLEWORD": "sole", "NECKWORD": "neck", "FLEXWORD": "shaft", "BENT": "bend",
}  # fmt: skip
_CLUB_RULES = {"club", "named", "span", "dashed", "amounts", "code", "family"}
SHARED = (
    "head.name", "shaft.name", "shaft.flex", "shaft.mass", "shaft.mass_range", "shaft.ascending", "shaft.torque",
    "shaft.launch", "shaft.spin", "grip.name", "grip.mass", "grip.wraps", "stated.swing_weight",
)  # fmt: skip
_COPIES = {
    "SHAFTWORD": ("shaft.name", "shaft.flex", "shaft.mass", "shaft.torque", "shaft.launch", "shaft.spin"),
    "GRIPWORD": ("grip.name", "grip.mass", "grip.wraps"),
    "LENGTH": ("length", "length_change"),
    "FLEXWORD": ("shaft.flex",),
    "SWINGWEIGHT": ("stated.swing_weight",),
    "HEADWORD": ("head.name",),
    "LOFT": ("head.loft",),
    "LIE": ("as_played.lie", "bend.lie"),
}  # fmt: skip


_POSITION = re.compile(r"[A-Z]{1,2}\d{1,2}[+-]?")


_CHUNK_ENDS = {"COMMA", "STOP", "NEWLINE", "PIPE", "LPAR", "RPAR", "SLASH", "BREAK", "SAME", "EVENTKIND", "ASIDE"}


class Walk:
    """One walk over a list's tokens; its outcome is in `scene`."""

    def __init__(self, scene: Scene, known: Known) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.mentions = Mentions(scene)
        self.names = Names(scene, known)
        self.at = 0
        self.zone = ""
        self.column = -1

    def run(self) -> None:
        """Walk all tokens."""
        scene, tokens = self.scene, self.tokens
        while self.at < len(tokens):
            token = tokens[self.at]
            if self.at in scene.rows:
                scene.table = scene.rows[self.at]
                self.column = 0
                self._enter_column()
            if scene.claims[self.at]:
                self.at += 1
                continue
            handler = _HANDLERS.get(token.terminal)
            if handler is not None and handler(self, token):
                continue
            if scene.comparing:
                scene.claims[self.at] = "left"
                self.at += 1
                continue
            if token.kind == "number" and self._counts(token):
                continue
            self._unnamed_putter()
            self._lead_in()
            phrase = phrase_at(tokens, self.at)
            if phrase is not None and self._phrase(phrase):
                continue
            if token.terminal == "WORD" and self._position(token):
                continue
            if token.terminal not in ("WORD", "LETTER", "COLOUR") or not self._name():
                if token.terminal in (
                    "AND",
                    "AT",
                    "BY",
                    "IN",
                    "WITH",
                    "EQ",
                    "RANGE",
                    "DASH",
                    "UP",
                    "DOWN",
                    "OPEN",
                    "SHORT",
                    "LONG",
                    "FOOT",
                    "OR",
                ):
                    scene.claims[self.at] = scene.claims[self.at] or "silent"
                self.at += 1
        self._end_clause(True)

    def _unnamed_putter(self) -> None:
        """A clause that speaks of a neck or of toe hang and names no club is the putter's."""
        scene, tokens = self.scene, self.tokens
        if not scene.line_start(self.at) or scene.table is not None or scene.focus and scene.focus[-1].family == "putter":
            return
        end = scene.clause_end(self.at)
        telling = False
        at = self.at
        while at < end:
            phrase = phrase_at(tokens, at)
            if phrase is not None and (phrase.rule in _CLUB_RULES or phrase.rule == "date"):
                return
            if phrase is not None and (
                phrase.rule == "hang" or phrase.has("TOEHANG") or phrase.rule == "neck" and phrase.has("NECKWORD", "NECK")
                and ("neck" in phrase.tokens[-1].lower or "double" in phrase.tokens[0].lower or "plumber" in phrase.tokens[0].lower)
            ):
                telling = True
            at = at + 1 if phrase is None else phrase.end
        if telling and not any(draft.family == "putter" for draft in scene.drafts):
            draft = Draft("putter", name="putter", line=tokens[self.at].line)
            scene.drafts.append(draft)
            scene.focus = [draft]
            scene.clause_drafts.append(draft)

    def _lead_in(self) -> None:
        """What opens a line before its club is named ("45 in Lindrake 60 S driver") waits for that club."""
        scene, tokens = self.scene, self.tokens
        if scene.table is not None or not scene.line_start(self.at) or tokens[self.at].terminal not in ("WORD", "NUM"):
            return
        here = phrase_at(tokens, self.at)
        if here is not None and here.rule != "bare":
            return
        at = self.at + 1 if here is None else here.end
        limit = min(len(tokens), self.at + 14)
        while at < limit and tokens[at].terminal not in _CHUNK_ENDS:
            phrase = phrase_at(tokens, at)
            if phrase is not None and phrase.rule in ("club", "named"):
                family = self.mentions.family_of(phrase)
                if family is not None and tokens[at - 1].terminal != "EQ":
                    self.names.waiting = Draft(family)
                    scene.focus = [self.names.waiting]
                return
            if phrase is not None and phrase.rule in ("code", "span", "dashed", "amounts", "family", "same", "group", "date"):
                return
            at = at + 1 if phrase is None else phrase.end

    def _counts(self, token: Token) -> bool:
        """Step over a number that only counts ("three of them", "for two years")."""
        tokens = self.tokens
        after = tokens[self.at + 1] if self.at + 1 < len(tokens) else None
        if after is None or token.terminal != "NUM":
            return False
        before = tokens[self.at - 1] if self.at else None
        if after.text == ":" and before is not None and before.lower in ("club", "item", "no", "number"):
            self.scene.claims[self.at] = "silent"
            self.at += 1
            return True
        if token.value == 1.0 and token.text.isdigit() and self.scene.line_start(self.at):
            club = phrase_at(tokens, self.at + 1)
            if phrase_at(tokens, self.at).rule == "bare" and club is not None and club.rule in ("club", "named"):  # type: ignore[union-attr]
                self.scene.claims[self.at] = "silent"
                self.at += 1
                return True
        if after.glued:
            return False
        behind = tokens[self.at + 2] if self.at + 2 < len(tokens) else None
        if after.lower == "of" and behind is not None and behind.terminal == "THOSE":
            self.scene.claims[self.at] = "silent"
        elif not (after.terminal == "WORD" and after.text.islower() and self.names.ordinary(self.at + 1)):
            return False
        self.at += 1
        return True

    # ------------------------------------------------------------------------------------- separators and cues

    def _newline(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self._end_clause(True)
        self.at += 1
        return True

    def _stop(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self._end_clause(False)
        self.at += 1
        return True

    def _end_clause(self, line: bool) -> None:
        scene = self.scene
        self._settle_same()
        self._share()
        scene.end_clause(line)
        if line:
            self.names.pending = self.names.pending_loft = self.names.waiting = None
        self.zone = ""
        self.column = -1
        if line:
            scene.table = None

    def _comma(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        scene = self.scene
        scene.comparing = scene.comparing and token.terminal == "LPAR"
        if self.zone in ("shaft", "grip"):
            self.zone += "~"
        elif self.zone not in ("ball", "shaft~", "grip~", "player", "event"):
            self.zone = ""
        scene.unsure = None
        scene.chunk_start = self.at + 1
        self.at += 1
        return True

    def _pipe(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self.scene.chunk_start = self.at + 1
        self.at += 1
        if self.scene.table is not None:
            self.column += 1
            self._enter_column()
        else:
            self.zone = ""
        return True

    def _enter_column(self) -> None:
        table = self.scene.table
        self.zone = ""
        if table and 0 <= self.column < len(table):
            self.zone = table[self.column]
        if self.zone in ("iron", "wedge"):
            header = self.scene.header
            if header is None or header.family != self.zone:
                self.scene.header = Draft(self.zone)
                self.scene.headers.append(self.scene.header)
            self.scene.focus = [self.scene.header]  # type: ignore[list-item]
            self.zone = "first"

    def _bullet(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self.at += 1
        if token.text == "#" and "title" not in self.scene.facts and not self.scene.drafts:
            self.at = self.scene.take_heading(self.at)
        return True

    def _correction(self, token: Token) -> bool:
        scene = self.scene
        scene.claims[self.at] = "silent"
        scene.correcting = 2
        self.at += 1
        return True

    def _unsure(self, token: Token) -> bool:
        self.scene.unsure = token
        self.scene.unsure_at = self.at
        self.at += 1
        return True

    def _or(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self.scene.either = True
        self.scene.choosing = self.scene.last_path
        self.at += 1
        return True

    def _than(self, token: Token) -> bool:
        self.scene.comparing = True
        self.scene.claims[self.at] = "left"
        self.at += 1
        return True

    def _hand_label(self, token: Token) -> bool:
        """ "Hand: left"."""
        scene, at = self.scene, self.at + 1
        while at < len(self.tokens) and self.tokens[at].terminal in ("EQ", "SILENT"):
            at += 1
        word = self.tokens[at].lower if at < len(self.tokens) else ""
        if word not in ("left", "right", "l", "r"):
            return False
        scene.facts["hand"] = "left" if word[0] == "l" else "right"
        for index in range(self.at, at + 1):
            scene.claims[index] = "set"
        self.at = at + 1
        return True

    def _hand(self, token: Token) -> bool:
        self.scene.facts["hand"] = str(token.value)
        self.scene.hand_clause = self.scene.clause
        self.scene.claims[self.at] = "set"
        self.at += 1
        return True

    def _ball(self, token: Token) -> bool:
        self.scene.claims[self.at] = "ball"
        self.zone = "ball"
        self.at += 1
        return True

    def _colour(self, token: Token) -> bool:
        if self.zone == "ball" or self.names.ball_ahead(self.at) or self.names.ball_clause(self.at):
            self.zone = "ball"
            self.scene.ball["colour"] = str(token.value)
            self.scene.claims[self.at] = "ball"
            self.at += 1
            return True
        return False

    def _label(self, token: Token) -> bool:
        """A word for the player, the event or the title: what follows it is that."""
        zone = {"PLAYERWORD": "player", "EVENTWORD": "event", "TITLEWORD": "title"}[token.terminal]
        self.scene.claims[self.at] = "set"
        self.zone = zone
        self.at += 1
        after = self.tokens[self.at] if self.at < len(self.tokens) else None
        if zone == "title" or (after is not None and after.text == ":"):
            self.at = self.scene.take_text(zone, self.at, whole=zone == "title")
            self.zone = ""
        return True

    def _date_label(self, token: Token) -> bool:
        self.scene.claims[self.at] = "set"
        self.at += 1
        return True

    def _note(self, token: Token) -> bool:
        self.at = self.scene.take_note(self.at)
        return True

    def _lead(self, token: Token) -> bool:
        """ "with", "in": a name behind it is a shaft's (or what the next words say)."""
        self.scene.claims[self.at] = "silent"
        self.scene.lead = self.at
        self.at += 1
        return True

    # ------------------------------------------------------------------------------------------------- phrases

    def _claim(self, phrase: Phrase, kind: str) -> None:
        for index in range(phrase.start, phrase.end):
            if not self.scene.claims[index]:
                self.scene.claims[index] = kind
        self.at = phrase.end

    def _phrase(self, phrase: Phrase) -> bool:
        scene = self.scene
        rule = phrase.rule
        if rule == "date":
            return self._date(phrase)
        if rule == "named" and phrase.amounts and scene.last_end == phrase.start and self._wants_loft():
            # "GW 52 SW 56": the number belongs to the wedge before it
            end = phrase.start + len(phrase.tokens) - 1
            phrase = Phrase("bare", phrase.tokens[:-1], phrase.start, end)
            rule = "bare"
        if self.zone in ("player", "event") and rule not in _CLUB_RULES:
            return False
        if scene.referring and rule in _CLUB_RULES and self._compared(phrase) and self.mentions.find(phrase):
            return self._reference(phrase)
        if rule in ("amounts", "dashed") and self._lofts_wanted(phrase) and self._series(phrase):
            return True
        if rule == "bare" and self._for_next_club(phrase):
            return True
        if rule in _CLUB_RULES or rule == "bare":
            before = len(scene.drafts)
            drafts = self.mentions.take(phrase, self.zone)
            if drafts is not None:
                if scene.either and len(scene.drafts) > before and len(scene.drafts) > 1:
                    self._candidates(phrase)
                scene.lost = False
                self._claim(phrase, "club")
                if self.zone not in ("first",):
                    self.zone = ""
                self.names.attach_pending(drafts)
                return True
        if rule == "group":
            return self._group(phrase)
        if rule == "same":
            noun = phrase.tokens[-1].terminal
            if noun == "SAME" and not self._same_alone(phrase):
                return False
            scene.same.append((list(scene.focus), noun if noun != "SAME" else "", phrase))
            scene.referring = True
            self._claim(phrase, "club")
            return True
        if rule == "label":
            return self._take_label(phrase)
        if rule == "weight":
            return self._weight(phrase)
        return self._facts(phrase)

    def _for_next_club(self, phrase: Phrase) -> bool:
        """A loft written before its club ("Gannet 15 3w"): it waits for the club."""
        at = phrase.end
        tokens = self.tokens
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "HYPHEN"):
            at += 1
        club = phrase_at(tokens, at) if at < len(tokens) else None
        if club is not None and club.rule == "club" and phrase.amounts[0].unit in ("in", "mm", "cm"):
            if len(self.scene.focus) < 2:
                return False
            facts = said.bare(phrase.amounts[0], phrase, self.scene.focus[0], "")
            self.names.waiting = Draft("iron")
            for path, entry in facts or []:
                self.names.waiting.put(path, entry)
            self._claim(phrase, "club")
            return True
        if club is None or club.rule != "club" or phrase.amounts[0].unit not in ("", "deg") or phrase.amounts[0].signed:
            return False
        word = club.first("WOOD", "HYBRID", "DIRON", "DRIVER", "MINIDRIVER")
        value = phrase.amounts[0].value
        if word is None or not said.loft_of_family(word.terminal, value) or self.scene.same:
            return False
        if self.scene.focus and not self.names.pending and not self.scene.focus[-1].has("head.loft"):
            return False
        self.names.pending_loft = Entry(value, "deg", phrase.line, phrase.amounts[0].token.text)
        self._claim(phrase, "club")
        return True

    def _compared(self, phrase: Phrase) -> bool:
        """True when "as", "like" stand before the phrase: the club is only pointed at ("same shaft as the 3 wood")."""
        at = phrase.start - 1
        while at >= 0 and self.tokens[at].terminal == "SILENT":
            if self.tokens[at].lower in ("as", "like"):
                return True
            at -= 1
        return False

    def _wants_loft(self) -> bool:
        """True when the wedge just named has no loft yet."""
        focus = self.scene.focus
        return bool(focus) and focus[-1].family == "wedge" and not focus[-1].has("head.loft")

    def _lofts_wanted(self, phrase: Phrase) -> bool:
        """True when as many wedges in focus lack a loft as the phrase has numbers."""
        focus = self.scene.focus
        return len(focus) == len(phrase.amounts) > 1 and all(
            draft.family == "wedge" and not draft.has("head.loft") for draft in focus
        )

    def _candidates(self, phrase: Phrase) -> None:
        """Two clubs for one place: both are kept, and which it is is asked."""
        scene = self.scene
        first, second = scene.drafts[-2], scene.drafts[-1]
        if first.row != second.row:
            return
        scene.either = False
        scene.doubts.append(
            Doubt(phrase.line, second, "club", "either this club or the one before it: which is in the set?")
        )

    def _same_alone(self, phrase: Phrase) -> bool:
        """False where "same" speaks of a thing that is no part of a club ("same make", "same idea")."""
        after = self.tokens[phrase.end] if phrase.end < len(self.tokens) else None
        return after is None or after.terminal in ("COMMA", "STOP", "NEWLINE", "RPAR", "PIPE", "AND", "SILENT", "NUM", "IN", "AT")

    def _reference(self, phrase: Phrase) -> bool:
        drafts = self.mentions.find(phrase)
        self._claim(phrase, "club")
        if drafts and self.scene.same:
            targets, noun, origin = self.scene.same[-1]
            self.scene.same[-1] = (targets, noun, origin)
            self.scene.same_from = next((draft for draft in drafts if draft.in_range), drafts[0])
        return True

    def _date(self, phrase: Phrase) -> bool:
        date = self.scene.read_date(phrase)
        if date is None:
            return False
        self.scene.facts["date"] = date
        self._claim(phrase, "set")
        return True

    def _group(self, phrase: Phrase) -> bool:
        drafts = self.mentions.group(phrase)
        if drafts:
            self.scene.focus = drafts
            self.scene.implicit = False
            if self.scene.same and phrase.start - self.scene.same[-1][2].end < 9:
                _targets, noun, origin = self.scene.same[-1]
                self.scene.same[-1] = (drafts, noun, origin)
            self.scene.lost = False
            self.scene.grouped = len(drafts) > 1
            self.zone = self.zone if self.zone in ("shaft", "grip") else ""
            self._claim(phrase, "club")
            return True
        if all(token.terminal in ("ALL", "THOSE") for token in phrase.tokens):
            self._claim(phrase, "silent")
            return True
        return False

    def _take_label(self, phrase: Phrase) -> bool:
        token = phrase.tokens[0]
        self.zone = _ZONES.get(token.terminal, self.zone)
        self._claim(phrase, "silent" if not self.scene.focus else "club")
        if token.terminal in ("GRIPWORD", "SHAFTWORD"):
            self.names.claim_last(self.zone)
        return True

    def _weight(self, phrase: Phrase) -> bool:
        scene = self.scene
        targets = [draft for draft in scene.focus if draft.family in ("driver", "wood", "hybrid", "putter")]
        if not targets or (not phrase.amounts and not phrase.has("WEIGHT", "TURNED", "CLICK") and self.zone == "shaft"):
            return False
        for draft in targets:
            draft.move(said.moved(phrase), correcting=scene.correcting > 0 and not draft.lines)
        scene.last_path = ("weights", targets)
        self._claim(phrase, "club")
        return True

    def _set_to(self, phrase: Phrase) -> bool:
        """ "9 degrees at 8¼": a second loft of a club with a sleeve, led in by "at", is the one it is set to."""
        scene = self.scene
        draft = scene.focus[-1]
        amount = phrase.amounts[0]
        before = self.tokens[phrase.start - 1] if phrase.start else None
        stamp = draft.facts.get("head.loft")
        if len(scene.focus) > 1 or not draft.adjustable or stamp is None or before is None or before.terminal != "AT":
            return False
        if stamp.line != phrase.line or amount.unit not in ("", "deg") or not isinstance(stamp.value, int | float):
            return False
        if not 0 < abs(amount.value - stamp.value) <= 2.5 or amount.signed:
            return False
        self.put([draft], "target.loft", Entry(amount.value, "deg", phrase.line, amount.token.text))
        self._claim(phrase, "club")
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
        self._claim(phrase, "club")
        return True

    def _facts(self, phrase: Phrase) -> bool:
        scene = self.scene
        if not scene.focus:
            return False
        if self._weight_said(phrase):
            return True
        if phrase.rule == "bare" and self._set_to(phrase):
            return True
        if scene.lost:
            scene.doubts.append(
                Doubt(phrase.line, None, "club", f"“{scene.line_words(phrase.start)}”: which club is this?")
            )
            scene.lost_line(phrase.start)
            self.at = phrase.end
            return True
        if scene.correcting and phrase.rule == "bare" and self._correct(phrase):
            return True
        if phrase.rule in ("flex", "sole") and self._letter(phrase):
            return True
        taken = False
        focus = scene.focus
        if len(focus) > 1 and self._series(phrase):
            return True
        if scene.implicit and len(focus) > 1 and self._individual(phrase):
            focus = focus[-1:]
        for draft in focus:
            facts = said.facts_of(
                phrase, draft, self.zone.rstrip("~") if phrase.amounts and phrase.amounts[0].unit else self.zone
            )
            if not facts or (len(focus) > 1 and self._only_one_can_have(facts[0][0], phrase)):
                continue
            taken = True
            for path, entry in facts:
                self.put([draft], path, entry)
            self._after(facts[0][0], phrase)
        if taken:
            self._claim(phrase, "club")
            return True
        return self._undecided(phrase)

    def _series(self, phrase: Phrase) -> bool:
        """As many figures in a row as there are clubs in focus: one each, in order."""
        scene, tokens = self.scene, self.tokens
        focus = scene.focus
        if phrase.rule in ("amounts", "dashed") and len(phrase.amounts) == len(focus):
            return self._each([(amount, phrase) for amount in phrase.amounts], phrase.end)
        label = phrase.rule == "labelled" and not phrase.directions
        if phrase.rule != "bare" and not label:
            return False
        found = [(phrase.amounts[0], phrase)]
        at = phrase.end
        while (
            len(found) < len(focus)
            and at + 1 < len(tokens)
            and tokens[at].terminal in ("COMMA", "SLASH", "AND", "DASH")
        ):
            at += 1
            while at < len(tokens) and tokens[at].terminal in ("AND", "SILENT"):
                at += 1
            following = phrase_at(tokens, at) if at < len(tokens) else None
            if following is None or following.rule not in ("bare", "amounts", "dashed"):
                return False
            found += [(amount, following) for amount in following.amounts]
            at = following.end
        more = at < len(tokens) and tokens[at].terminal in ("COMMA", "SLASH", "AND")
        after = phrase_at(tokens, at + 1) if more and at + 1 < len(tokens) else None
        if (
            len(found) != len(focus)
            or (after is not None
            and after.rule == "bare"
            and after.amounts[0].unit == found[0][0].unit)
        ):
            return False
        zone = {"LOFT": "loft", "LIE": "lie", "LENGTH": "length", "BOUNCE": "bounce"}.get(phrase.tokens[0].terminal, "")
        if label and not zone:
            return False
        return self._each(found, at, zone)

    def _each(self, found: list[tuple[Amount, Phrase]], end: int, zone: str = "") -> bool:
        scene = self.scene
        start = self.at
        entries = []
        for draft, (amount, phrase) in zip(scene.focus, found, strict=True):
            facts = said.bare(amount, phrase, draft, zone or self.zone)
            if not facts:
                return False
            entries.append((draft, *facts[0]))
        paths = {path for _draft, path, _entry in entries}
        if len(paths) != 1 or not paths & {"head.loft", "head.bounce", "length", "as_played.lie", "shaft.mass"}:
            return False
        if paths == {"head.loft"} and any("head.loft" in draft.facts for draft in scene.focus):
            return False
        for draft, path, entry in entries:
            draft.put(path, entry, correcting=scene.correcting > 0)
        for index in range(start, end):
            scene.claims[index] = scene.claims[index] or "club"
        self.at = end
        return True

    def _only_one_can_have(self, path: str, phrase: Phrase) -> bool:
        """True for a bare number that several irons of one range cannot share: a loft, a lie, a length."""
        focus = self.scene.focus
        if phrase.rule != "bare" or all(draft.family != "iron" for draft in focus):
            return False
        return path in ("head.loft", "head.bounce", "as_played.lie", "length", "target.loft") and not self.zone

    def _individual(self, phrase: Phrase) -> bool:
        """True for what is said of one club of a comma list: its loft, bounce, bend, sole, length."""
        facts = said.facts_of(phrase, self.scene.focus[-1], self.zone)
        return (
            bool(facts)
            and facts is not None
            and facts[0][0].startswith(
                ("head.loft", "head.bounce", "head.sole", "bend", "target", "sleeve", "as_played", "length")
            )
            and facts[0][0] != "length_change"
        )

    def _undecided(self, phrase: Phrase) -> bool:
        """A figure that could be several things: kept as a question, never guessed."""
        scene = self.scene
        if phrase.rule not in ("bare", "change", "turned", "sleeve", "bent") or not phrase.amounts:
            return False
        amount = phrase.amounts[0]
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
        """A code alone between separators ("P6") on a club with a sleeve is the sleeve's position."""
        scene = self.scene
        after = scene.tokens[self.at + 1] if self.at + 1 < len(scene.tokens) else None
        alone = after is None or after.terminal in ("COMMA", "NEWLINE", "STOP", "SLASH", "RPAR", "PIPE", "DASH")
        focus = scene.focus
        if not (alone and scene.chunk_opens(self.at) and focus and focus[-1].adjustable and focus[-1].has("head.name")):
            return False
        if not _POSITION.fullmatch(token.text) or focus[-1].has("sleeve.position"):
            return False
        self.put(focus, "sleeve.position", Entry(token.text, "1", token.line, token.text))
        scene.claims[self.at] = "club"
        self.at += 1
        return True

    def _letter(self, phrase: Phrase) -> bool:
        """A single letter: a wedge's sole right behind its loft, else a flex."""
        scene = self.scene
        token = phrase.tokens[0]
        draft = scene.focus[-1]
        short = len(token.text) <= 2 and len(phrase.tokens) == 1 and token.terminal in ("FLEXCODE", "LETTER")
        if short and draft.family == "wedge" and scene.after_loft == self.at and not self.zone.startswith("shaft"):
            self.put([draft], "head.sole", Entry(token.text, "1", token.line, token.text))
            self._claim(phrase, "club")
            return True
        if phrase.rule == "sole" and token.terminal == "LETTER" and len(phrase.tokens) == 1:
            return self.zone == "sole" and self._put_word("head.sole", phrase)
        return False

    def _put_word(self, path: str, phrase: Phrase) -> bool:
        token = phrase.tokens[0]
        self.put(self.scene.focus, path, Entry(token.text, "1", token.line, token.text))
        self._claim(phrase, "club")
        return True

    def _correct(self, phrase: Phrase) -> bool:
        """A bare number behind "sorry" or "no, make it": it takes the place of the last figure it can replace."""
        scene = self.scene
        amount = phrase.amounts[0]
        path, drafts = scene.last_number
        if not path or not drafts:
            return False
        old = drafts[0].facts.get(path)
        if old is None or not isinstance(old.value, int | float):
            return False
        unit = {"deg": "deg", "in": "in", "g": "g"}.get(amount.unit, "")
        if unit and unit != old.unit:
            return False
        if not unit and abs(amount.value - abs(old.value)) > max(6.0, 0.5 * abs(old.value)):
            return False
        value = amount.value
        if old.value < 0 and not amount.signed:
            value = -value
        for draft in drafts:
            draft.put(path, Entry(value, old.unit, phrase.line, amount.token.text), correcting=True)
        self._claim(phrase, "club")
        scene.correcting = 0
        return True

    def _after(self, path: str, phrase: Phrase) -> None:
        scene = self.scene
        if path == "head.loft":
            scene.after_loft = phrase.end
        if path in ("shaft.flex", "shaft.mass", "shaft.mass_range") and not self.zone:
            self.zone = "shaft"
        if self.zone in ("loft", "lie", "bounce", "length", "torque", "toe_hang", "sleeve", "bend", "wraps", "total"):
            if scene.table is None:
                self.zone = ""

    def put(self, drafts: Iterable[Draft], path: str, entry: Entry) -> None:
        """Put a statement on clubs, as part of a group when there are several."""
        scene = self.scene
        drafts = list(drafts)
        chosen = scene.choosing
        entry = entry._replace(group=scene.grouped or len(scene.focus) > 1)
        for draft in drafts:
            if draft.family == "putter" and len(scene.focus) > 1 and path.startswith("shaft."):
                continue
            if chosen and chosen[0] == path and draft in chosen[1] and draft.has(path):
                old = draft.facts[path]
                draft.facts[path] = Entry(None, entry.unit, entry.line, f"{old.text} or {entry.text}")
                scene.doubts.append(
                    Doubt(entry.line, draft, path, f"{old.text} or {entry.text}", (old.text, entry.text))
                )
                continue
            if path == "shaft.mass" and "g" in entry.text and self._number_in_name(draft, entry):
                continue
            draft.put(path, entry, correcting=scene.correcting > 0)
            if scene.unsure is not None:
                scene.claims[scene.unsure_at] = "question"
                scene.doubts.append(Doubt(entry.line, draft, path, f"{scene.unsure.text} {entry.text}", (entry.text,)))
        scene.choosing = None
        scene.last_path = (path, drafts)
        if isinstance(entry.value, int | float) and not isinstance(entry.value, bool):
            if scene.last_number[0] == path and scene.last_number[1] and drafts and drafts[0] in scene.focus:
                scene.last_number = (path, list(scene.focus))
            else:
                scene.last_number = (path, drafts)
        if scene.correcting:
            scene.correcting = 1

    def _number_in_name(self, draft: Draft, entry: Entry) -> bool:
        """A mass in grams behind a bare number: that number then was part of the shaft's name ("Ember 50, 55 g")."""
        old, name = draft.facts.get("shaft.mass"), draft.facts.get("shaft.name")
        if old is None or name is None or not old.text.isdigit() or old.line != entry.line:
            return False
        draft.facts["shaft.name"] = name._replace(value=f"{name.value} {old.text}")
        draft.facts["shaft.mass"] = entry
        return True

    # ------------------------------------------------------------------------------------- names, "same", sharing

    def _name(self) -> bool:
        run = self.names.run_at(self.at)
        if run is None:
            return False
        role = self.names.role(run, self.zone)
        if role is None:
            if self.scene.line_start(run.start) and self.scene.focus and not self.names.prose(run.start):
                self.scene.lost = True
            self.at = run.end
            return True
        self._take_name(run, role)
        return True

    def _take_name(self, run: NameRun, role: str) -> None:
        scene = self.scene
        self.names.weigh(run, role, self.zone)
        if role in ("player", "event"):
            run = run._replace(text=re.sub(r"['’]s?$", "", run.text))
            scene.facts[role] = (
                f"{scene.facts[role]} {run.text}" if role in scene.facts and self.zone == role else run.text
            )
            kind = "set"
        elif role == "ball":
            run = self.names.ball_run(run)
            known = scene.ball.get("name")
            scene.ball["name"] = f"{known} {run.text}" if known else run.text
            self.zone = "ball"
            kind = "ball"
        elif role == "maker":
            for draft in scene.focus:
                draft.put("head.maker", Entry(run.text, "1", run.line, run.text))
            kind = "club"
        elif role == "waiting":
            self.names.waiting = Draft("iron")
            scene.focus = [self.names.waiting]
            self.put(scene.focus, "shaft.name", Entry(self.names.tidy(run, 1), "1", run.line, run.text))
            self.zone = "shaft"
            kind = "club"
        elif role == "pending":
            self.names.pending = run
            kind = "club"
        else:
            self.put(scene.focus, f"{role}.name", Entry(self.names.tidy(run, self._count()), "1", run.line, run.text))
            if role in ("shaft", "grip"):
                self.zone = role
            elif self.zone in ("shaft", "grip", "shaft~", "grip~") or role == "head":
                self.zone = ""
            self.names.last = (role, run, list(scene.focus))
            kind = "club"
        for index in range(run.start, run.end):
            scene.claims[index] = scene.claims[index] or kind
        self.at = run.end

    def _count(self) -> int:
        """How many clubs are in focus; a family's header stands for several."""
        focus = self.scene.focus
        return 2 if focus and focus[0] not in self.scene.drafts else len(focus)

    def _settle_same(self) -> None:
        scene = self.scene
        for targets, noun, _phrase in scene.same:
            for draft in targets or scene.focus:
                source = scene.same_from
                paths = _COPIES.get(noun)
                if paths is None:
                    shaft_only = draft.has("head.name") or draft.has("shaft.name")
                    paths = _COPIES["SHAFTWORD"] + (() if shaft_only else ("head.name", "grip.name"))
                if source is None:
                    source = self._before(draft, paths[0], targets)
                if source is None or source is draft:
                    continue
                for path in paths:
                    entry = source.facts.get(path)
                    if entry is not None and not draft.has(path):
                        draft.facts[path] = entry._replace(line=_phrase.line, why=entry.why, group=True)
                        draft.lines.add(_phrase.line)
        scene.same = []
        scene.same_from = None
        scene.referring = False

    def _before(self, draft: Draft, path: str, targets: list[Draft]) -> Draft | None:
        drafts = self.scene.drafts
        end = drafts.index(draft) if draft in drafts else len(drafts)
        for other in reversed(drafts[:end]):
            if other.has(path) and other not in targets:
                return other
        return None

    def _share(self) -> None:
        """Several irons or wedges named in one clause: a part named once there belongs to all of them."""
        drafts = [draft for draft in self.scene.clause_drafts if draft.family not in ("driver", "putter")]
        irons = any(draft.family == "iron" for draft in drafts)

        def sort(draft: Draft) -> str:
            own = irons and draft.name in ("pitching wedge", "gap wedge") and "head.name" not in draft.facts
            return "iron" if own else draft.family

        if len(drafts) < 2 or len({sort(draft) for draft in drafts}) > 1:
            return
        for path in SHARED:
            holders = [draft for draft in drafts if path in draft.facts]
            values = {(draft.facts[path].value, draft.facts[path].low) for draft in holders}
            if len(values) != 1 or len(holders) == len(drafts):
                continue
            first, last = drafts[0], drafts[-1]
            if path in last.facts or (path in first.facts and drafts[0].family in ("wedge", "iron")):
                for draft in drafts:
                    if not draft.has(path):
                        draft.facts[path] = holders[0].facts[path]._replace(group=True)
                        draft.lines.add(holders[0].facts[path].line)


_HANDLERS = {
    "NEWLINE": Walk._newline,
    "STOP": Walk._stop,
    "BREAK": Walk._comma,
    "COMMA": Walk._comma,
    "SLASH": Walk._comma,
    "LPAR": Walk._comma,
    "RPAR": Walk._comma,
    "PIPE": Walk._pipe,
    "BULLET": Walk._bullet,
    "CORRECTION": Walk._correction,
    "UNSURE": Walk._unsure,
    "OR": Walk._or,
    "THAN": Walk._than,
    "HAND": Walk._hand,
    "HANDWORD": Walk._hand_label,
    "BALLWORD": Walk._ball,
    "COLOUR": Walk._colour,
    "PLAYERWORD": Walk._label,
    "EVENTWORD": Walk._label,
    "TITLEWORD": Walk._label,
    "DATEWORD": Walk._date_label,
    "NOTE": Walk._note,
    "SIZE": Walk._note,
    "WITH": Walk._lead,
    "IN": Walk._lead,
}
