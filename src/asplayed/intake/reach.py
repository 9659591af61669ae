"""How far a statement reaches: over a semicolon, to the clubs a bracket picks, to every club of the set."""

from __future__ import annotations

from asplayed.intake.ahead import club_at, flexed, shaft_ahead
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.groups import FAMILIES
from asplayed.intake.names import NameRun, run_at
from asplayed.intake.phrases import CLUB_RULES, Phrase, names_clubs, phrase_at, says
from asplayed.intake.scene import Doubt
from asplayed.intake.tokens import Token
from asplayed.intake.whose import Whose
from asplayed.intake.wording import EXCEPT

_FOR_ALL = ("grip.", "shaft.")  # what may be said of all clubs before any of them is named
_PARTS = {"HEADWORD": "head.", "SHAFTWORD": "shaft.", "GRIPWORD": "grip."}
_LINKS = ("COMMA", "EQ", "DASH")
_JOINED = {*FAMILIES, "NUM", "DEG", "AND", "COMMA", "LOFT", "SILENT"}
_OF_A_SET = ("pitching wedge", "gap wedge")
_PICKS = ("bare", "span", "dashed", "amounts", "code", "named", "club")


def whose(everyone: Draft | None) -> list[Doubt]:
    """What was said before any club and can be said of no set as a whole: a length, a loft."""
    kept = (*_FOR_ALL, "head.name")
    entries = [] if everyone is None else [entry for path, entry in everyone.facts.items() if not path.startswith(kept)]
    return [Doubt(entry.line, None, "club", f"“{entry.text}”: which club is this?") for entry in entries]


def give_to_everyone(everyone: Draft | None, drafts: list[Draft], but: set[str], *, headed: bool) -> None:
    """Give what was said of all clubs before any was named to each of them that has nothing of its own there.

    `but` are the families that were excepted; `headed` says that all clubs were told to be of one model.
    """
    if everyone is None:
        return
    drafts = [draft for draft in drafts if draft.family not in but]
    sorts = {"iron" if draft.name in ("pitching wedge", "gap wedge") else draft.family for draft in drafts}
    for draft in drafts if len(sorts) == 1 or but or headed else ():
        if "head.name" in everyone.facts and not draft.has("head.name"):
            draft.facts["head.name"] = everyone.facts["head.name"]._replace(group=1)
    for draft in drafts:
        for path, entry in everyone.facts.items():
            shaftless = draft.family == "putter" and path.startswith("shaft.")
            if path.startswith(_FOR_ALL) and not shaftless and not draft.has(path):
                draft.facts[path] = entry._replace(group=1)
                draft.lines.add(entry.line)


def _value(token: Token) -> float:
    return float(token.value) if isinstance(token.value, int | float) else 0.0


class Reach(Whose):
    """Settles which clubs the words between two separators are said of, where no club is named among them."""

    def _everyone(self, phrase: Phrase) -> bool:
        """ "All grips Norrby Cord. Driver …": what opens a list waits for every club of it."""
        scene = self.scene
        token = phrase.tokens[0]
        alone = token.terminal in _PARTS and self._nothing_but_a_part(phrase)
        plural = token.lower == "shafts"
        every = plural and phrase.start > 0 and self.tokens[phrase.start - 1].terminal == "ALL"
        headed = bool(scene.headers) and not every  # "Irons: Gannet …", and below it "All grips: Norrby"
        if scene.drafts or headed or self.names.waiting is not None or not (alone or plural):
            return False
        at = phrase.start - 1
        while at >= 0 and self.tokens[at].terminal in ("ALL", "SILENT"):
            at -= 1
        if at >= 0 and self.tokens[at].terminal not in ("NEWLINE", "STOP", "BULLET"):
            return False
        scene.everyone = scene.everyone or Draft("iron")
        scene.focus = [scene.everyone]
        return True

    def _opens_of_everyone(self) -> None:
        """ "All ladies flex Lacewing 45 shafts:", "Norrby grips throughout." before any club: said of every club."""
        scene, tokens = self.scene, self.tokens
        if scene.drafts or scene.headers or scene.focus or scene.table is not None or not scene.line_start(self.at):
            return
        if self.names.waiting is not None or scene.looked_for_all == scene.clause:
            return
        scene.looked_for_all = scene.clause
        end = scene.clause_end(self.at)
        end = next((at for at in range(self.at, end) if tokens[at].text == ":"), end)
        out = next((at for at in range(self.at, end) if tokens[at].lower in EXCEPT), end)
        found = [phrase_at(tokens, at) for at in range(self.at, out)]
        if any(names_clubs(one) for one in found if one is not None):
            return
        told = [token.terminal for token in tokens[self.at : out]]
        parts = ("FLEX", "FLEXCODE", "SHAFTWORD")
        part = [at for at in range(self.at, out) if tokens[at].terminal in parts]
        headed = self._clubs_all_of_one(self.at, out)
        if "ALL" not in told or not (part or headed or told[:2] == ["ALL", "EQ"]):
            return
        scene.everyone_headed = headed
        scene.everyone = Draft("iron")
        scene.focus = [scene.everyone]
        if not part:  # "Everything is Whitethroat except the putter": the heads
            self.zone = "head"
        for at in range(out, end):
            if tokens[at].terminal in FAMILIES:
                scene.everyone_but.add(FAMILIES[tokens[at].terminal])
            scene.claims[at] = "club"

    def _clubs_all_of_one(self, start: int, end: int) -> bool:
        """True for "She has six clubs, all of them Gannet Jr": clubs of which nothing but one model is told.

        So too "All Gannet except the putter: …", which opens a list.
        """
        tokens = self.tokens
        every = next((at for at in range(start, end) if tokens[at].terminal == "ALL"), end)
        before = [token.lower for token in tokens[max(start, every - 2) : every] if token.terminal not in _LINKS]
        closed = end < len(tokens) and (tokens[end].text == ":" or tokens[end].lower in EXCEPT)
        opens = every == start and closed
        name = every + 1
        while name < end and tokens[name].terminal in ("THOSE", "SILENT", "EQ", "BY"):
            name += 1
        words = tokens[
            name : next((at for at in range(name, end) if tokens[at].terminal in ("WITH", "COMMA", "IN")), end)
        ]
        named = bool(words) and all(token.terminal in ("WORD", "LETTER", "HYPHEN", "NUM") for token in words)
        return (opens or before[-1:] in (["clubs"], ["bag"], ["set"])) and named and words[0].text[:1].isupper()

    def _nothing_but_a_part(self, phrase: Phrase) -> bool:
        """True for "Head: Oskell Gannet" on a line of its own that names no club."""
        tokens = self.tokens
        end = self.scene.clause_end(phrase.end)
        if phrase.end >= end or tokens[phrase.end].text != ":":
            return False
        found = [phrase_at(tokens, at) for at in range(phrase.end, end)]
        return not any(names_clubs(one) for one in found if one is not None)

    def _row_without_model(self) -> list[Draft]:
        """The irons of "5i 25, 6i 28, 7i 32, PW 45 Knot CB", whose model stands behind them all; [] for no such row."""
        scene = self.scene
        row = scene.line_drafts
        last = scene.focus == row[-1:] and scene.table is None and not scene.club_last
        irons = [draft for draft in row if draft.family == "iron" or draft.name == "pitching wedge"]
        lofted = all(draft.has("head.loft") or draft.has("length") for draft in row)
        named = any(draft.has("head.name") or draft.has("shaft.name") for draft in row)
        return list(row) if last and len(row) > 2 and len(irons) == len(row) and lofted and not named else []

    def _again(self, run: NameRun) -> bool:
        """True for the model said once more of the same club: nothing new is named."""
        names = {
            str(entry.value).casefold() if (entry := draft.facts.get("head.name")) else "" for draft in self.scene.focus
        }
        if len(names) != 1 or names == {""} or self.zone or self.scene.table is not None:
            return False
        known, said = names.pop(), run.text.casefold()
        led = self.tokens[run.start - 1].lower == "the" if run.start else False
        same = known == said or (led and known.endswith(f" {said}"))  # "the Saddler Pro … that are the Pro"
        after = self.tokens[run.end].terminal if run.end < len(self.tokens) else "NEWLINE"
        if after in ("NUM", "CODE", "LPAR"):
            return False  # another club of the same model
        behind = phrase_at(self.tokens, run.end) if run.end < len(self.tokens) else None
        named = behind is not None and behind.rule in CLUB_RULES
        if not same or named or flexed(self.scene, run.end) or club_at(self.scene, run.end):
            return False
        for at in range(run.start, run.end):
            self.scene.claims[at] = "club"
        self.at = run.end
        return True

    def _over_semicolon(self) -> None:
        """ "Wedges: Crake 52, 56; Tarrock 105 S": behind a semicolon that names no club, all the line's are meant."""
        scene, tokens = self.scene, self.tokens
        clubs = scene.line_drafts
        if len(clubs) < 2 or not scene.focus or scene.focus[-1] not in clubs:
            return
        sorts = {"iron" if draft.in_range else draft.family for draft in clubs}
        if len(sorts) > 1:
            return
        at, end = self.at + 1, scene.clause_end(self.at + 1)
        while at < end:
            phrase = phrase_at(tokens, at)
            if phrase is not None and names_clubs(phrase):
                return
            at = at + 1 if phrase is None else phrase.end
        shafted = any(draft.has("shaft.name") for draft in scene.focus)
        scene.focus = [draft for draft in clubs if shafted or not draft.has("shaft.name")]
        scene.grouped = len(scene.focus) > 1
        scene.implicit = False

    def _over_colon(self) -> None:
        """ "… // SW 54° and LW 58°: Crake": in a line of many clubs a colon is behind all that "and" joins."""
        scene, start = self.scene, self.at
        scene.comparing = False
        while start > 0 and self.tokens[start - 1].terminal in _JOINED:
            start -= 1
        if not any(token.terminal == "AND" for token in self.tokens[start : self.at]):
            return
        joined = [draft for draft in scene.clause_drafts if start <= draft.place < self.at]
        whole = bool(joined) and scene.focus == joined[-1:] and len(joined) < len(scene.clause_drafts)
        alike = len({draft.family for draft in joined}) == 1 and not any(draft.has("head.name") for draft in joined)
        if whole and alike and len(joined) > 1:
            scene.focus, scene.grouped = joined, True

    def _over_stop(self) -> None:
        """ "5i 25, 6i 28, PW 45. Plover, Reed 100 S.": a model told after a row of clubs that have none is theirs."""
        scene, tokens = self.scene, self.tokens
        row = self._kin_of_bent(scene.before_drafts) or scene.before_drafts
        bare = len(row) > 1 and not any(draft.has("head.name") or draft.has("shaft.name") for draft in row)
        if not bare and (self._as_many_shafts(row) or self._shaft_of_all(row)):
            scene.focus, scene.grouped = list(row), True
            return
        if not bare or scene.source.spoken or len(scene.focus) != 1 or scene.focus[0] not in row:
            return
        if (
            len({"iron" if draft.family == "iron" or draft.name == "pitching wedge" else draft.family for draft in row})
            > 1
        ):
            return
        at, end = self.at + 1, scene.clause_end(self.at + 1)
        if at >= len(tokens) or tokens[at].terminal != "WORD":
            return
        while at < end:
            phrase = phrase_at(tokens, at)
            if phrase is not None and names_clubs(phrase):
                return
            at = at + 1 if phrase is None else phrase.end
        scene.focus = list(row)
        scene.grouped = True

    def _shaft_below(self, row: list[Draft]) -> None:
        """ "Irons: Gannet T (4–5), Gannet B (6–PW)" and below it "Reed 125 X, D3": the shaft is that of all of them."""
        scene, tokens, at = self.scene, self.tokens, self.at
        at += at < len(tokens) and tokens[at].terminal == "BULLET"
        irons = len(row) > len(scene.focus) > 0 and all(draft.in_range and draft.has("head.name") for draft in row)
        if not irons or scene.table is not None or any(draft.has("shaft.name") for draft in row):
            return
        end = scene.clause_end(at)
        run = run_at(scene, self.names.known, at) if at < len(tokens) and tokens[at].terminal == "WORD" else None
        figures = [phrase for place in range(at, end) if (phrase := phrase_at(tokens, place)) is not None]
        if run is not None and shaft_ahead(scene, run.end, row[-1]) and not any(map(names_clubs, figures)):
            scene.focus, scene.grouped = row, True

    def _kin_of_bent(self, named: list[Draft]) -> list[Draft]:
        """The wedges told as one, of which the sentence behind only said that some are bent; [] for none.

        In "Three Burr wedges: 50, 54 and 60. The 54 is bent to 55. Reed 130 S." the shaft is that of all three.
        """
        head = named[-1].said("head.name") if named and named[-1].family == "wedge" else None
        told = {path for path, _entry in self.scene.told_before}
        if head is None or not told or not told <= {"bend.loft", "target.loft"}:
            return []
        kin = [draft for draft in self.scene.drafts if draft.said("head.name") is head or self._lent(draft, head)]
        return kin if all(draft in kin for draft in named) else []

    @staticmethod
    def _lent(draft: Draft, head: Entry) -> bool:
        """True for a wedge whose model was told of several, this one among them."""
        own = draft.said("head.name")
        return (
            own is not None and draft.family == "wedge" and bool(own.group and head.group) and own.value == head.value
        )

    def _shaft_of_all(self, row: list[Draft]) -> bool:
        """True for "Irons 6-PW Gannet and the matching gap wedge. Reed 80 R.": a shaft and no club behind the stop.

        So too "Wedges: Burr 50-08 F, 54-10 S. Shaft Reed 105 S": clubs of one model have one shaft.
        """
        at, end = self.at + 1, self.scene.clause_end(self.at + 1)
        irons = [draft for draft in row if draft.family == "iron" and draft.number is not None]
        models = {entry.value for draft in row if (entry := draft.said("head.name")) is not None}
        others = [draft for draft in row if draft not in irons]
        set_of_irons = len(irons) > 2 and all(draft.name in _OF_A_SET for draft in others)
        spoken = self.scene.source.spoken and row is self.scene.before_drafts
        wedges = len(row) > 1 and all(draft.family == "wedge" for draft in row) and not spoken
        if not (set_of_irons or wedges) or len(models) != 1 or any(draft.has("shaft.name") for draft in row):
            return False
        name = at + (at < end and wedges and self.tokens[at].terminal == "SHAFTWORD")
        if name >= end or self.tokens[name].terminal != "WORD":
            return False
        run = run_at(self.scene, self.names.known, name)
        if run is None or says(self.tokens, at, end, CLUB_RULES):
            return False
        comma = run.end < end and self.tokens[run.end].terminal == "COMMA"
        return flexed(self.scene, run.end) or shaft_ahead(self.scene, run.end + comma, row[-1])

    def _as_many_shafts(self, row: list[Draft]) -> bool:
        """True for "3 wood at 15, 7 wood at 21. Reed 70 X and 80 X.": a shaft and a mass for each behind the stop."""
        tokens = self.tokens
        at, end = self.at + 1, self.scene.clause_end(self.at + 1)
        if len(row) < 2 or len(row) > 4 or any(draft.has("shaft.name") or not draft.has("head.name") for draft in row):
            return False
        if at >= len(tokens) or tokens[at].terminal != "WORD" or len({draft.family for draft in row}) > 1:
            return False
        numbers = [index for index in range(at, end) if tokens[index].terminal == "NUM"]
        flexed = [index for index in numbers if index + 1 < end and tokens[index + 1].terminal in ("FLEX", "FLEXCODE")]
        masses = [index for index in flexed if 38 <= _value(tokens[index]) <= 150]
        return len(numbers) == len(masses) == len(row)

    # ------------------------------------------------------------------------------------------------- brackets

    def _picked(self, run: NameRun) -> bool:
        """ "Shafts: Rung X (46), Cairn X (52-60)", "Irons: Linnet (3, 4)": the bracket says whose the name is.

        True when the bracket makes the clubs themselves; the name then is their heads'.
        """
        scene = self.scene
        opening = self._bracket(run.end)
        if opening < 0:
            return False
        closing, picks = self._picks(opening)
        if closing < 0:
            return False
        if scene.shaft_line:
            found = [draft for phrase in picks for draft in self._meant(phrase)]
            if not found:
                return False
            scene.focus = list(dict.fromkeys(found))
            scene.grouped = len(scene.focus) > 1
            scene.implicit = False
        else:
            header = scene.header
            whole = all(phrase.rule in ("bare", "span", "amounts", "dashed") for phrase in picks)
            irons = header is not None and header.family == "iron" and whole and opening == run.end
            if not irons or any(amount.value > 9 or amount.unit for phrase in picks for amount in phrase.amounts):
                return False
            made: list[Draft] = []
            for phrase in picks:
                if phrase.rule == "bare":
                    number = int(phrase.amounts[0].value)
                    made += self.mentions.irons([number], phrase)
                    self.mentions.note(made, phrase)
                else:
                    made += self.mentions.take(phrase, "first") or []
            scene.focus = made
            scene.grouped = len(made) > 1
        scene.take(opening, closing + 1)
        return not scene.shaft_line

    def _bracket(self, start: int) -> int:
        """Where the bracket behind a name opens, in the same stretch between commas; -1 for none."""
        for at in range(start, min(start + 8, len(self.tokens))):
            terminal = self.tokens[at].terminal
            if terminal == "LPAR":
                return at
            if terminal in ("COMMA", "STOP", "NEWLINE", "PIPE", "AND"):
                return -1
        return -1

    def _picks(self, opening: int) -> tuple[int, list[Phrase]]:
        """The bracket's end and the clubs named in it; -1 when anything else stands there."""
        tokens = self.tokens
        at, picks = opening + 1, []
        while at < len(tokens) and tokens[at].terminal != "RPAR":
            if tokens[at].terminal in ("COMMA", "AND", "SLASH", "SILENT"):
                at += 1
                continue
            phrase = phrase_at(tokens, at)
            if phrase is None or phrase.rule not in _PICKS:
                return -1, []
            if any(amount.unit not in ("", "deg") or amount.signed for amount in phrase.amounts):
                return -1, []
            picks.append(phrase)
            at = phrase.end
        return (at, picks) if picks and at < len(tokens) else (-1, [])
