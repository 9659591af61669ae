"""The walk through the tokens: which club is being spoken of, which part of it, and what each phrase adds to it."""

from __future__ import annotations

from asplayed.intake.ahead import TAILS, unnamed
from asplayed.intake.asked import part_asked
from asplayed.intake.by_model import ByModel
from asplayed.intake.cells import Cells
from asplayed.intake.drafts import Draft
from asplayed.intake.figure_rows import FigureRows
from asplayed.intake.groups import FAMILIES, RESTING
from asplayed.intake.labels import Labels
from asplayed.intake.likened import PARTS, parts_alike
from asplayed.intake.making import wedge_name
from asplayed.intake.naming import Naming
from asplayed.intake.opening import Opening
from asplayed.intake.part_labels import PartLabels
from asplayed.intake.phrases import CLUB_RULES, Phrase, phrase_at
from asplayed.intake.remarks import keep_remarks_of_rows
from asplayed.intake.run_ends import RunEnds
from asplayed.intake.scene import Doubt
from asplayed.intake.sharing import Sharing
from asplayed.intake.steps import Steps
from asplayed.intake.taking import Taking
from asplayed.intake.tokens import Token
from asplayed.intake.voices import name_in_full

_JOINING = {
    "AND", "AT", "BY", "IN", "WITH", "EQ", "RANGE", "DASH", "UP", "DOWN", "OPEN", "SHORT", "LONG", "FOOT", "OR",
}  # fmt: skip
_OF_THEM = (["of", "them"], ["of", "these"], ["of", "those"])
_VOICE = 8  # tokens between a question and its answer: the line's end and who speaks
_OTHER_DATES = {
    "due",
    "collect",
    "collection",
    "deadline",
    "pickup",
    "needed",
    "wanted",
    "until",
    "regripped",
    "renewed",
}  # not the list's


class Walk(Steps, Cells, Taking, Opening, Sharing, PartLabels, Naming, Labels, FigureRows, RunEnds, ByModel):
    """One walk over a list's tokens; its outcome is in `scene`."""

    def run(self) -> None:
        """Walk all tokens."""
        scene, tokens = self.scene, self.tokens
        grips = {id(token): statement for token, statement in scene.grips}
        while self.at < len(tokens):
            token = tokens[self.at]
            if id(token) in grips:
                self.grips.meet(grips.pop(id(token)))
            scene.replaced = scene.replaced or self.at in scene.replacing
            if self.at in scene.rows:
                scene.table = scene.rows[self.at]
                scene.focus = []  # a row whose club is not understood must not speak of the row above
                self.column = 0
                self._enter_column()
            if scene.claims[self.at]:
                self.at += 1
                continue
            handler = _HANDLERS.get(token.terminal)
            if handler is not None and handler(self, token):
                continue
            if token.text == ":":
                self._over_colon()
                if self.zone in scene.facts:
                    self.zone = ""  # "wedges built for Ada Brandt: Gannet": behind the colon stands no person
            if scene.comparing:
                scene.claims[self.at] = "left"
                self.at += 1
                continue
            if (
                self._steps()
                or self._length_by_another()
                or self._figure_row(token)
                or self._clubs_with_figures()
                or self._lofts_of_heading(token)
                or self._through_the_set()
            ):
                continue
            if self._figures_and_clubs(token) or self._clubs_by_model(token):
                continue
            if self._so_too(token) or (token.kind == "number" and self._number_excepted()):
                continue
            if self._parts_likened() or self._goes_with_the_set(token) or self._at_both_ends(token):
                continue
            if (token.terminal == "SOLEWORD" or len(token.text) == 1) and (self._soles_each() or self._soles_by_club()):
                continue
            if token.kind == "number" and (self._of_the_round(token) or self._masses_each()):
                continue
            if token.kind == "number" and self._lofts_with_bounces():
                continue
            if token.kind == "number" and self._figures_first():
                continue
            if token.kind == "number" and (self._digits(token) or self._wood_by_number(token) or self._counts(token)):
                continue
            self._opens_of_everyone()
            self._unnamed_putter()
            self._up_top()
            self._unnamed_driver()
            self._wood_of_the_driver()
            self._putter_by_length()
            if not self._said_of():
                self._lead_in()
            if self._unknown_label(token):
                continue
            phrase = phrase_at(tokens, self.at)
            if phrase is not None and self._phrase(phrase):
                continue
            worded = token.terminal in ("WORD", "POSCODE") or token.lower == "but"
            if worded and (self._position_explained(token) or self._position(token) or self._except(token)):
                continue
            if not self._opens_name(token) or not self._name():
                if token.terminal in _JOINING:
                    scene.claims[self.at] = scene.claims[self.at] or "silent"
                self.at += 1
        self._end_clause(True)
        self.grips.give()
        name_in_full(scene)
        keep_remarks_of_rows(scene)

    def _opens_name(self, token: Token) -> bool:
        """True where a name can begin: at a word of nobody's, or at a capital word of the trade before one."""
        return token.terminal in ("WORD", "LETTER", "COLOUR") or token.terminal in TAILS

    def _newline(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        block = self.scene.naming.get(token.line, -1)
        members = self.scene.members.setdefault(block, []) if block >= 0 else []
        members += [draft for draft in self.scene.line_drafts if draft not in members]
        labelled = self._labelled_line(self.line_at) and self._labelled_line(self.at + 1)
        asked, self.asked = self.asked, ""
        row = list(self.scene.line_drafts)
        self._end_clause(True)
        self.zone = asked or self.zone
        if labelled:
            self._of_the_entry(self.entry)
        self.at += 1
        if self.at < len(self.tokens) and self.tokens[self.at].kind == "newline":
            self.scene.correcting_block = self.scene.correcting_line = False
        self._of_the_block()
        self._shaft_below(row)
        self._below_heads(row, self.line_at)
        self.line_at, self.entry = self.at, list(self.scene.focus)
        return True

    def _of_the_block(self) -> None:
        """A line of a form, or beside a table, tells of all the clubs of its block."""
        scene, token = self.scene, self.tokens[self.at] if self.at < len(self.tokens) else None
        if token is None or token.kind == "newline":
            return
        model = token.again and token.terminal == "HEADWORD"  # the model of a heading, told below its clubs
        block = scene.naming.get(token.line, -1) if model else scene.telling.get(token.line, -1)
        if members := scene.members.get(block):
            scene.focus, scene.grouped = list(members), len(members) > 1

    def _stop(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        if token.text == "?":
            self.scene.asked += self.scene.clause_drafts
        self.asked = part_asked(self.scene, self.at, self.zone)
        self._end_clause(False)
        self.zone = self.asked or self.zone
        if token.text in (";", "•"):
            self._over_semicolon()
        elif token.text == ".":
            self._over_stop()
        self.at += 1
        return True

    def _end_clause(self, line: bool) -> None:
        scene = self.scene
        if line and scene.table is not None:
            self._name_by_maker()
        self._settle_same()
        self._share()
        self.names.labelled = None
        grouped = scene.grouped
        alone = line and self.zone in ("shaft", "grip", "head") and self._label_alone()
        scene.end_clause(line)
        if line:
            self._settle_steps()
            if grouped and not alone and len({draft.family for draft in scene.focus}) > 2:
                scene.focus = []  # what was said of the whole set ends with its line
            scene.name_waits = scene.implicit = False
            self._ask_whose()
            if (run := self.names.pending) is not None:
                scene.leave(run.start, run.end)  # no club came to bear the name
            self.names.pending = self.names.pending_loft = self.names.waiting = None
        asked = self.zone == "ball" and not scene.ball.get("name") and (not line or self._ball_alone())
        self.zone = "ball" if asked else self.zone if alone else ""
        self.column = -1
        if line:
            scene.table = None
            scene.cell = ""

    def _name_by_maker(self) -> None:
        """Of a table with a column of makers: the maker stands before the model in the head's name."""
        for draft in self.scene.focus if "maker" in (self.scene.table or ()) else ():
            maker, name = draft.facts.get("head.maker"), draft.facts.get("head.name")
            if maker is not None and name is not None and not str(name.value).startswith(str(maker.value)):
                draft.facts["head.name"] = name._replace(value=f"{maker.value} {name.value}")

    def _ask_whose(self) -> None:
        """What waited for a club that the line did not name is asked, word for word."""
        scene, waiting = self.scene, self.names.waiting
        if waiting is None or not waiting.facts or self.at == 0 or scene.focus != [waiting]:
            return
        told = scene.line_words(self.at - 1)
        scene.doubts.append(Doubt(self.tokens[self.at - 1].line, None, "club", f"“{told}”: which club is this?"))

    def _ball_alone(self) -> bool:
        """True behind "Ball?": the word was all that was said, and the next line tells which."""
        at = self.at - 1
        while at >= 0 and self.tokens[at].terminal in ("STOP", "EQ", "BALLWORD", "BULLET", "SILENT", "AND"):
            at -= 1
        return at < 0 or self.tokens[at].terminal == "NEWLINE"

    def _label_alone(self) -> bool:
        """True when "Shafts" or "Grips" was all that stood on the line: the next line tells which."""
        at = self.at - 1
        while at >= 0 and self.tokens[at].terminal in ("EQ", "BULLET"):
            at -= 1
        label = at >= 0 and self.tokens[at].terminal in ("SHAFTWORD", "GRIPWORD", "HEADWORD")
        return label and (at == 0 or self.tokens[at - 1].terminal in ("NEWLINE", "BULLET"))

    def _comma(self, token: Token) -> bool:
        if token.text == "(" and self._position_told():
            return True
        self.scene.claims[self.at] = "silent"
        scene = self.scene
        apart = token.text == "/" and not token.glued and self.at + 1 < len(self.tokens)
        if apart and scene.same and scene.same_from is None and phrase_at(self.tokens, self.at + 1) is not None:
            self._settle_same()  # "5w Gannet 18, same shaft / 4h …": before the next club of the line is told
        scene.comparing = scene.comparing and token.terminal == "LPAR"
        scene.replaced = False
        if self.zone in ("shaft", "grip"):
            self.zone += "~"
        elif token.terminal == "LPAR" and scene.cell == self.zone == "sleeve":
            pass  # "B1 (+1 loft)": the bracket says what the position does
        elif self.zone not in ("ball", "shaft~", "grip~", "player", "event") or self.zone in scene.facts:
            self.zone = ""
        ranged = all(draft.in_range for draft in scene.focus)  # "7-PW (Gannet): 1 flat" is of all of them
        if token.terminal == "LPAR" and len(scene.focus) > 1 and scene.last_end == self.at and not ranged:
            scene.implicit = True  # "50, 55 (12 bounce), 60": a bracket speaks of the last
        scene.unsure = None
        scene.chunk_start = self.at + 1
        self.at += 1
        return True

    def _bullet(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self.at += 1
        if token.text == "#" and "title" not in self.scene.facts and not self.scene.drafts:
            self.at = self.scene.take_heading(self.at)
        return True

    def _correction(self, token: Token) -> bool:
        scene = self.scene
        scene.claims[self.at] = "silent"
        if token.lower.startswith("no") and self._answers():
            self.at += 1
            return True  # "Four wedges?", "No, three.": nothing said before is put right
        colon = self.at + 1 < len(self.tokens) and self.tokens[self.at + 1].text == ":"
        onward = self.tokens[self.at : scene.clause_end(self.at)] if token.lower.startswith("corrections") else []
        scene.correcting_line = token.text.endswith(":") or colon or any(each.text == ":" for each in onward)
        behind = self.at + 1 + colon
        ends = behind < len(self.tokens) and self.tokens[behind].kind == "newline"
        scene.correcting_block = scene.correcting_line and ends and bool(scene.drafts)  # "Corrections:" alone
        scene.correcting = 2 if scene.drafts or scene.headers else 0  # "Sorry, I'm writing this at work": of no club
        self.at += 1
        return True

    def _answers(self) -> bool:
        """True for what opens the sentence behind a question, who speaks aside."""
        at = self.at - 1
        while at >= 0 and at > self.at - _VOICE and self.tokens[at].text != "?":
            if self.tokens[at].kind == "mark" and self.tokens[at].text not in (":", "-", "–", "—", ">"):
                return False
            at -= 1
        lines = any(token.kind == "newline" for token in self.tokens[max(at, 0) : self.at])
        return lines and self.tokens[at].text == "?"

    def _unsure(self, token: Token) -> bool:
        if token.value == "rough":
            self.scene.claims[self.at] = "silent"
            self.at += 1
            return True
        self.scene.unsure = token
        self.scene.unsure_at = self.at
        self.at += 1
        return True

    def _or(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self.scene.either = True
        self.scene.choosing = self.scene.last_path
        wedge = self.scene.focus[-1] if self.scene.focus else None
        if wedge is not None and wedge.family == "wedge" and self.scene.last_end == self.at and wedge.has("head.loft"):
            self.scene.choosing = ("head.loft", [wedge])  # "52 or 54 Crake"
            wedge.name = wedge.name or wedge_name(wedge.value("head.loft") or 0.0)
        self.at += 1
        return True

    def _than(self, token: Token) -> bool:
        if token.lower.startswith("not") and self._but_not():
            return True
        self.scene.comparing = True
        self.scene.claims[self.at] = "left"
        self.at += 1
        return True

    def _lead(self, token: Token) -> bool:
        """ "with", "in": a name behind it is a shaft's (or what the next words say)."""
        self.scene.claims[self.at] = "silent"
        self.scene.lead = self.at
        self.at += 1
        return True

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
        if self.zone in ("player", "event") and rule not in CLUB_RULES:
            return False
        if rule in ("neck", "hang") and self._of_putter_behind(phrase):
            return True
        if rule == "club" and self._kind_of_shaft(phrase):
            return True
        if rule == "family" and self._wedge_flex(phrase):
            return True
        if rule == "plainly" and self._the_usual_one(phrase):
            return True
        if rule in CLUB_RULES and (self._likened(phrase) or self._only_pointed_at(phrase)):
            return True
        if scene.referring and rule in CLUB_RULES and self._compared(phrase) and self.mentions.find(phrase):
            return self._reference(phrase)
        if self._row_of_those() or (rule in ("bent", "change", "amounts", "label") and self._bends_each()):
            return True
        if rule in ("amounts", "dashed") and self._lofts_wanted(phrase) and self._series(phrase):
            return True
        led = self.tokens[phrase.start - 1] if phrase.start else None
        cut = led is not None and led.lower == "to" and scene.focus and scene.focus[-1].family != "wedge"
        if rule == "amounts" and led is not None and (led.text == "@" or cut):
            size = 2 if phrase.tokens[1].terminal == "DEG" else 1  # "46° @ 47, 52°": the comma ends it
            phrase = Phrase("bare", phrase.tokens[:size], phrase.start, self.tokens.index(phrase.tokens[size]))
            rule = "bare"
        if rule == "bare" and not phrase.amounts[0].unit:
            phrase = Phrase(rule, phrase.tokens, phrase.start, phrase.end)
            phrase.amounts[0].unit = self._unit_behind_or(phrase)
        if (rule == "bare" and self._lie_behind_loft(phrase)) or self._lie_of_one(phrase):
            return True
        if rule == "bare" and self._worked_out(phrase):
            return True
        if rule in ("bare", "playing") and self._really(phrase):
            return True
        if rule in ("amounts", "playing") and self._really_several(phrase):
            return True
        if rule in ("bent", "bare", "span") and self._bends_the(phrase):
            return True
        if rule == "bare" and (self._bent_at(phrase) or self._for_next_club(phrase)):
            return True
        if phrase.start in self.names.known.no_clubs:
            self._claim(phrase, "left")
            return True
        if rule in CLUB_RULES or rule == "bare":
            before, spoken_of = len(scene.drafts), list(scene.focus)
            drafts = self.mentions.take(phrase, self.zone)
            if drafts is not None:
                self._only_in_these(phrase, spoken_of)
                if scene.either and len(scene.drafts) > before and len(scene.drafts) > 1:
                    self._candidates(phrase)
                scene.lost = False
                if scene.same and self._same_in(phrase):
                    _targets, noun, origin = scene.same[-1]
                    scene.same[-1] = (drafts, noun, origin)  # "same head in the three wood"
                self._claim(phrase, "club")
                if self.zone not in ("first",):
                    self.zone = ""
                self.names.attach_pending(drafts)
                self._set_wedge(phrase)
                return True
        if rule == "group":
            return self._group(phrase)
        if rule == "same":
            if (
                self._of_the_set(phrase)
                or self._same_make(phrase)
                or self._same_weight(phrase)
                or self._same_spec(phrase)
            ):
                return True
            noun = phrase.tokens[-1].terminal
            if (noun == "SAME" and not self._same_alone(phrase)) or self._as_before(phrase.end):
                return False
            if self._told_below(phrase.end):
                self._claim(phrase, "silent")
                return True
            _parts, row_end = parts_alike(self.tokens, phrase.start + 1)
            if phrase.tokens[0].terminal == "SAME" and row_end > phrase.end:
                phrase = Phrase("same", self.tokens[phrase.start : row_end], phrase.start, row_end)
            nouns = [token.terminal for token in phrase.tokens if token.terminal in PARTS]
            nouns = nouns or self._same_cell()
            if not nouns and scene.focus and not any(draft.has("head.name") for draft in scene.focus):
                nouns = ["WHOLE"]  # "3 wood: ditto, 15, Ostrane 70 S"
            if nouns == ["SHAFTWORD"] and scene.line_start(phrase.start):
                scene.focus = self.mentions.unshafted()
            if scene.same and scene.same_from is None and scene.last_end > scene.same[-1][2].end:
                self._settle_same()  # who speaks makes no stops: "… same head … the 46 has the same shaft as the irons"
            scene.same += [(list(scene.focus), one, phrase) for one in nouns or [""]]  # "same head and shaft"
            scene.referring = True
            self._claim(phrase, "club")
            return True
        if (
            rule == "change"
            and len(phrase.tokens) == 1
            and phrase.tokens[0].terminal == "FLAT"
            and self._exactly(phrase)
        ):
            return True
        if rule == "label":
            return self._take_label(phrase)
        if rule == "weight":
            return self._weight(phrase)
        return self._facts(phrase)

    def _named_before(self, at: int) -> bool:
        """True for the group of "irons 2 up, all four wedges 1 up": the clause told of other clubs before it."""
        told = range(self.scene.clause_opening(at), at)
        return any(self.tokens[place].terminal in FAMILIES and self.scene.claims[place] == "club" for place in told)

    def _told_below(self, at: int) -> bool:
        """True for "Same shaft in all the irons: Ostrane 110 S": which shaft stands behind the colon."""
        tokens, end = self.tokens, self.scene.clause_end(at)
        colon = next((place for place in range(at, min(at + 7, end)) if tokens[place].text == ":"), -1)
        return 0 < colon < end - 1 and tokens[colon + 1].terminal == "WORD" and tokens[colon + 1].text[:1].isupper()

    def _range_goes_on(self, token: Token) -> bool:
        """ "4 iron Gannet 5 thru PW": the range ends behind its model, which all its irons have."""
        scene, tokens = self.scene, self.tokens
        first = scene.focus[0] if len(scene.focus) == 1 else None
        end = tokens[self.at + 1] if self.at + 1 < len(tokens) else None
        if first is None or end is None or first.family != "iron" or first.number is None:
            return False
        if first not in scene.clause_drafts or not first.has("head.name"):
            return False
        number = end.value if end.terminal == "NUM" and isinstance(end.value, float) else None
        if end.terminal != "NAMEDWEDGE" and not (number is not None and first.number < number <= 9):
            return False
        phrase = Phrase("span", tokens[self.at : self.at + 2], self.at, self.at + 2)
        for draft in self.mentions.through(first.number, end, phrase):
            for path, entry in first.facts.items() if draft is not first else ():
                draft.put(path, entry._replace(group=1))
        self._claim(phrase, "club")
        return True

    def _date(self, phrase: Phrase) -> bool:
        date = self.scene.read_date(phrase)
        led = {token.lower for token in self.tokens[max(0, phrase.start - 3) : phrase.start]}
        later = "date" in self.scene.facts and bool(self.scene.drafts) and not self.scene.correcting
        if date is None or led & _OTHER_DATES or later:
            return False  # behind the clubs stand the dates of what was done to them
        self.scene.facts["date"] = date
        self._claim(phrase, "set")
        return True

    def _group(self, phrase: Phrase) -> bool:
        phrase = self._before_figure(self._before_exception(phrase))
        if (opening := self._of_a_range(phrase)) is not None:
            self._claim(opening, "silent")
            return True
        if self._of_play(phrase):
            return True
        led = [token.lower for token in self.tokens[max(0, phrase.start - 2) : phrase.start]]
        if led[-1:] == ["with"] and phrase.tokens[0].lower == "them" and self.scene.line_drafts:
            self._claim(phrase, "silent")  # "the pitching wedge came with them"
            return True
        if led[-1:] == ["in"] and len(phrase.tokens) == 1 and self.scene.same and phrase.has("ALL"):
            self._claim(phrase, "silent")  # "the same in everything", "matches the irons in everything"
            return True
        alone = [token.lower for token in phrase.tokens] == ["them"]
        if led[-1:] == ["in"] and alone and self._named_before(phrase.start):
            self._claim(phrase, "silent")  # "the woods have the Reed in them, 60 g"
            return True
        those = not phrase.amounts and all(token.terminal in ("ALL", "THOSE") for token in phrase.tokens)
        if those and self.scene.grouped and self.scene.last_end == phrase.start and self.tokens[phrase.start - 1].again:
            self._claim(phrase, "silent")  # "from the 7 down they are"
            return True
        drafts = self.mentions.group(phrase)
        if phrase.tokens[0].lower == "all":
            self.scene.all_said = phrase.end
        resting = any(token.lower in RESTING for token in phrase.tokens)
        if drafts and (phrase.has("ALL") or resting):
            drafts = unnamed(self.scene, phrase, self._and_besides(phrase, self._all_but(phrase, drafts)))
        if drafts:
            before, self.scene.focus = self.scene.focus, drafts
            self.scene.implicit = False
            if phrase.has("ORDINAL") and not self.scene.clause_drafts and drafts[-1].family != "wedge":
                self.scene.clause_drafts = list(drafts)  # "the three longest …, the others …"
            said = self.scene.same[-1][2].end if self.scene.same else -1
            if self.scene.same and phrase.start - said < 9 and self.scene.last_end <= said and not resting:
                _targets, noun, origin = self.scene.same[-1]
                self.scene.same[-1] = (drafts, noun, origin)
            self.scene.lost = False
            if phrase.has("ALL"):
                self._lend_head(drafts)
            if not self.scene.clause_drafts and not phrase.has("ORDINAL") and not self._named_before(phrase.start):
                # "Nent 105 stiff in the lot": what was said before the group is said of all of it
                for path, entry in self.scene.clause_puts:
                    for draft in drafts:
                        if path not in draft.facts and path not in ("head.loft", "head.bounce", "target.loft"):
                            draft.put(path, entry._replace(group=1))
                self._withdraw([draft for draft in before if draft not in drafts])
            elif phrase.has("ALL") and led[-1:] in (["in"], ["on"]) and phrase.end >= self.scene.clause_end(phrase.end):
                self._lend_shaft(before, drafts)
            self.scene.grouped = len(drafts) > 1
            bounced = phrase.has("THOSE") and self.scene.last_path[0] == "head.bounce"
            told = "bounce" if bounced else ""  # "the sixty has six degrees of bounce, the others have ten"
            self.zone = self.zone if self.zone in ("shaft", "grip") else told
            if phrase.has("IRON", "WOOD", "HYBRID", "WEDGE", "THOSE"):
                self.scene.last_end = phrase.end  # "all the irons and the pitching wedge"
            self._claim(phrase, "club")
            self.at = max(self.at, self.past_exception)
            if phrase.has("ORDINAL") and [token.lower for token in self.tokens[self.at : self.at + 2]] in _OF_THEM:
                self.at += 2  # "the last of them bent to 61"
            if self.excepted:
                self._go_on_about(self.excepted)
                self.excepted = []
            return True
        if phrase.tokens[-1].lower.endswith(" irons") and self.tokens[phrase.end].kind != "number":
            self.scene.focus = [self.mentions.header("iron", phrase)]  # "the long irons, four and five"
            self._claim(phrase, "club")
            return True
        if all(token.terminal in ("ALL", "THOSE") for token in phrase.tokens):
            self._claim(phrase, "silent")
            return True
        return False

    def _lend_head(self, drafts: list[Draft]) -> None:
        """ "Burr Spin 52/08, 56/12 and 60/06, all Reed 125 S": the model of the first is the others' too."""
        first, *others = drafts
        head = first.facts.get("head.name")
        told = all(draft in self.scene.clause_drafts and draft.family == first.family for draft in drafts)
        if head is not None and told and not any(draft.has("head.name") for draft in others):
            for draft in others:
                draft.put("head.name", head._replace(group=1))

    def _lend_shaft(self, before: list[Draft], drafts: list[Draft]) -> None:
        """ "Driver Gannet 9, 3 wood Gannet 15, Reed 65 S in both": the shaft told of the last is that of each."""
        lender = before[-1] if before and before[-1] in drafts else None
        for draft in drafts if lender is not None else ():
            for path, entry in lender.facts.items() if lender is not None and not draft.has("shaft.name") else ():
                if path.startswith("shaft.") and draft.family != "putter":
                    draft.put(path, entry._replace(group=len(drafts)))

    def _before_figure(self, phrase: Phrase) -> Phrase:
        """The "the others" of "the 60 has 6 bounce, the others 10", where not so many others are left."""
        last = phrase.start + len(phrase.tokens) - 1
        rest = phrase.has("THOSE") and not phrase.has("ALL")  # "every one of these seven" counts them
        counted = len(phrase.tokens) > 1 and rest and phrase.tokens[-1].kind == "number"
        they = phrase.tokens[0].lower.startswith("they")  # "they've got ten, fourteen and six of bounce"
        if not counted or (phrase.amounts[-1].value < len(self.scene.drafts) and not they):
            return phrase
        return Phrase(phrase.rule, phrase.tokens[:-1], phrase.start, last)


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
    "RANGE": Walk._range_goes_on,
    "WITH": Walk._lead,
    "IN": Walk._lead,
}
