"""Clubs excepted from what is said of all: "all but the putter, which has a …"."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.phrases import Phrase, phrase_at, says
from asplayed.intake.through import Through
from asplayed.intake.tokens import Token
from asplayed.intake.wording import EXCEPT

_OF_ITSELF = ("head.name", "head.loft", "length")  # what a club can have been told by itself in the same clause
# What follows these is said of the excepted club.
_OWN = {
    "which", "wants", "gets", "takes", "that", "that's", "thats", "it's", "where", "has", "wears", "having", "who",
    "with",
}  # fmt: skip
_TELLS = {"which", "that", "that's", "it's"}  # what leads a figure of the excepted club

_BY_FIGURE = ("bare", "amounts", "span", "dashed")
_DOES = {"is", "are", "does", "do", "has", "have", "gets", "get", "goes", "go"}
_BESIDES = {"included", "too", "also", "besides"}


class Excepting(Through):
    """Takes clubs out of a group, and reads on about them where the words do."""

    def _all_but(self, phrase: Phrase, drafts: list[Draft]) -> list[Draft]:
        """ "All but the 9 iron": the group without the club that is excepted."""
        tokens = self.tokens
        at = phrase.end
        self.past_exception = -1
        self.excepted = []
        while at < len(tokens) and (
            tokens[at].terminal == "COMMA"
            or tokens[at].lower in ("club", "clubs", "of", "them", "the", "one", "single")
        ):
            at += 1
        joined = all(token.terminal != "COMMA" for token in tokens[phrase.end : at])
        if at >= len(tokens) or not (tokens[at].lower in EXCEPT or (joined and tokens[at].lower == "but")):
            return drafts
        club, found = self._named_behind(at)
        if club is None:
            return drafts
        found = found or [draft for draft in drafts if draft.number in [amount.value for amount in club.amounts]]
        left = [draft for draft in drafts if draft not in found]
        if not left or not found:
            return drafts
        self.scene.take(phrase.end, club.end)
        self.past_exception = club.end
        self.excepted = found
        return left

    def _and_besides(self, phrase: Phrase, drafts: list[Draft]) -> list[Draft]:
        """ "All of those, the 3 iron included, have …": the group with the club that is named besides."""
        tokens, at = self.tokens, phrase.end
        while at < len(tokens) and (tokens[at].terminal in ("COMMA", "AND") or tokens[at].lower == "the"):
            at += 1
        club = phrase_at(tokens, at) if phrase.end < at < len(tokens) else None
        named = club is not None and club.rule in ("club", "named")
        said = [token.lower for token in tokens[club.end : club.end + 2]] if club is not None else []
        end = 2 if said == ["as", "well"] else int(said[:1] != [] and said[0] in _BESIDES)
        if club is None or not named or not end:
            return drafts
        self.scene.take(phrase.end, club.end + end)
        self.past_exception = club.end + end
        return [*drafts, *(draft for draft in self.mentions.find(club) if draft not in drafts)]

    def _before_exception(self, phrase: Phrase) -> Phrase:
        """The "everything" of "everything but the wedges", which is no group of wedges."""
        for at in range(phrase.start + 1, phrase.end):
            if self.tokens[at].lower in (*EXCEPT, "but"):
                kept = [token for token in phrase.tokens if token in self.tokens[phrase.start : at]]
                return Phrase(phrase.rule, kept, phrase.start, at)
        return phrase

    def _of_a_range(self, phrase: Phrase) -> Phrase | None:
        """The "everything" of "everything from five down to wedge", the "all of" of "all of the 4 to PW"."""
        tokens, at = self.tokens, phrase.end
        if phrase.tokens[-1].kind == "number" and len(phrase.tokens) > 1:
            at = phrase.end - 1  # "all of the 4" opens the range: no four clubs are meant
            phrase = Phrase(phrase.rule, phrase.tokens[:-1], phrase.start, at)
        if not phrase.has("ALL") or len(phrase.tokens) > 1 or at >= len(tokens):
            return None
        at += tokens[at].lower == "from"
        while at < len(tokens) and tokens[at].terminal == "SILENT":
            at += 1
        span = phrase_at(tokens, at) if at < len(tokens) else None
        return phrase if span is not None and span.rule in ("span", "dashed", "amounts") else None

    def _named_behind(self, at: int) -> tuple[Phrase | None, list[Draft]]:
        """The club named behind a word of exception, and those of the set that it means."""
        tokens = self.tokens
        at += 1
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "AT", "BY", "WORD") and tokens[at].text.islower():
            at += 1
        club = phrase_at(tokens, at) if at < len(tokens) else None
        if club is not None and club.rule in ("amounts", "span", "dashed"):
            return club, self._meant(club)  # "except the 4 and 5"
        if club is None or club.rule not in ("club", "named", "bare", "family"):
            return None, []
        found = self._meant(club) if club.rule == "bare" else self.mentions.find(club)
        more = club.end + 1 if club.end < len(tokens) and tokens[club.end].terminal == "AND" else len(tokens)
        while more < len(tokens) and tokens[more].terminal == "SILENT":
            more += 1
        other = phrase_at(tokens, more) if more < len(tokens) else None
        if found and other is not None and other.rule in ("club", "named", "family") and self.mentions.find(other):
            found = [*found, *self.mentions.find(other)]  # "but the wedges and the putter"
            club = Phrase(club.rule, club.tokens, club.start, other.end)
        return club, found

    def _except(self, token: Token) -> bool:
        """ "All have Norrby grips except the putter": nothing of the clause is said of that club."""
        scene = self.scene
        if token.lower in ("excluded", "excepted", "aside") and scene.last_end == self.at:
            self._withdraw(scene.focus)  # "… all round, putter excluded"
            scene.claims[self.at] = "club"
            self.at += 1
            return True
        but = token.lower == "but" and len(scene.focus) > 1 and self._all_said_before()
        if not (token.lower in EXCEPT or but) or not scene.clause_puts:
            return False
        club, found = self._named_behind(self.at)
        if but and (club is None or not self._closed(club.end)):
            return False  # "all one up but the 5 iron has a longer shaft"
        if club is None or not found:
            return False
        if not self._only_in_a_figure(club.end):
            self._withdraw([*found, *self._excepted_too(club.end)])
        for index in range(self.at, club.end):
            scene.claims[index] = "club"
        scene.focus = [draft for draft in scene.focus if draft not in found] or scene.focus
        self.at = club.end
        self._go_on_about(found)
        return True

    def _number_excepted(self) -> bool:
        """ "The irons are all ½ short, the 7 excepted": a club told by its number alone."""
        scene, behind = self.scene, self.at + 1
        named = behind < len(self.tokens) and self.tokens[behind].lower in ("excepted", "excluded")
        phrase = phrase_at(self.tokens, self.at) if named and scene.clause_puts else None
        found = self._meant(phrase) if phrase is not None and phrase.end == behind else []
        if not found:
            return False
        self._withdraw(found)
        scene.focus = [draft for draft in scene.focus if draft not in found] or scene.focus
        scene.take(self.at, behind + 1)
        self.at = behind + 1
        return True

    def _so_too(self, token: Token) -> bool:
        """ "The irons are ½ short, and so is the sand wedge": what the clause said is said of that club too."""
        scene, tokens, at = self.scene, self.tokens, self.at + 2
        if token.lower != "so" or at >= len(tokens) or tokens[at - 1].lower not in _DOES or not scene.clause_puts:
            return False
        while at < len(tokens) - 1 and tokens[at].terminal == "SILENT":
            at += 1
        club = phrase_at(tokens, at)
        if club is None:
            return False
        named = club.rule in ("club", "named", "family")  # else by number or stamp: "and so is the sixty"
        found = self.mentions.find(club) if named else self._meant(club) if club.rule in _BY_FIGURE else []
        if not found:
            return False
        for path, entry in dict(scene.clause_puts).items():
            for draft in found:
                if path not in draft.facts:
                    draft.put(path, entry)
        scene.take(self.at, club.end)
        scene.focus, scene.grouped, self.at = found, len(found) > 1, club.end
        return True

    def _all_said_before(self) -> bool:
        """True where "all" or "every" stands before in the clause: "all one degree up but the 5"."""
        start = self.scene.clause_opening(self.at, within=self.at)
        return any(token.terminal == "ALL" for token in self.tokens[start : self.at])

    def _closed(self, at: int) -> bool:
        """True where what is told ends here, or goes on about the club just named ("…, which is two up")."""
        behind = self.tokens[at] if at < len(self.tokens) else None
        return behind is None or behind.kind in ("mark", "newline") or behind.lower in _OWN

    def _excepted_too(self, at: int) -> list[Draft]:
        """The putter of "all Gannet except the wedges (Burr) and the putter (Stint)": behind a bracket and "and"."""
        tokens, end = self.tokens, self.scene.clause_end(at)
        if at >= end or tokens[at].terminal != "LPAR":
            return []
        close = next((index for index in range(at, end) if tokens[index].terminal == "RPAR"), end)
        club = close + 1
        while club < end and tokens[club].terminal in ("AND", "SILENT", "COMMA"):
            club += 1
        phrase = phrase_at(tokens, club) if close < club < end and tokens[close + 1].terminal == "AND" else None
        return self.mentions.find(phrase) if phrase is not None and phrase.rule in ("club", "named", "family") else []

    def _only_in_a_figure(self, at: int) -> bool:
        """True for "half an inch long and 1 up, except the 4 and 5, which stay at 2 up": in the rest they are alike."""
        tokens = self.tokens
        told = {path for path, _entry in self.scene.clause_puts if not path.startswith("grip.")}
        led = [token.lower for token in tokens[at : at + 2]]
        if len(told) < 2 or led[:1] != [","] or led[1] not in _TELLS:
            return False
        end = next((index for index in range(at + 2, len(tokens)) if tokens[index].kind in ("mark", "newline")), at)
        named = any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[at + 2 : end])
        return not named and says(tokens, at + 2, end, ("change", "labelled", "bare", "swing"))

    def _shafts_but(self, at: int) -> list[Draft] | None:
        """ "All the shafts except the putter's are Reedmace": whose the name behind is."""
        tokens, scene = self.tokens, self.scene
        end = scene.clause_end(at)
        leads = (*EXCEPT, "but", "not", "not the")
        out = next((index for index in range(at, end) if tokens[index].lower in leads), -1)
        if out < 0 or not scene.drafts:
            return None
        if any(token.terminal not in ("ALL", "SILENT", "COMMA", "LPAR") for token in tokens[at:out]):
            return None
        club, found = self._named_behind(out)
        if club is None or not found or club.end >= end:
            return None
        closed = tokens[club.end].terminal == "RPAR"
        colon = club.end + closed
        if tokens[min(colon, end - 1)].lower not in (":", "-", "is", "are", "was"):
            if not closed:
                return None
            colon -= 1
        scene.take(at, colon + 1)
        return [draft for draft in scene.drafts if draft not in found]

    def _but_not(self) -> bool:
        """ "Grips: Tessary, one extra wrap, not the putter": nothing of the clause is said of that club."""
        scene = self.scene
        if len(scene.focus) < 2 or not scene.clause_puts:
            return False
        club, found = self._named_behind(self.at)
        if club is None or not found:
            return False
        self._withdraw(found)
        for index in range(self.at, club.end):
            scene.claims[index] = "club"
        scene.focus = [draft for draft in scene.focus if draft not in found] or scene.focus
        self.at = club.end
        return True

    def _apart(self, at: int) -> bool:
        """True for the putter of "Grips are Tessary, not the putter", "Grips are Tessary, Norrby on the putter"."""
        led = [token.lower for token in self.tokens[max(0, at - 2) : at]]
        return led[-1].startswith("not") or "on" in led

    def _withdraw(self, found: list[Draft]) -> None:
        """Take back from these clubs what the clause said of all."""
        for draft in found:
            for path, entry in self.scene.clause_puts:
                own = draft.facts.get(path)
                if own is None or (own.line, own.value) != (entry.line, entry.value):
                    continue
                if own.group or path not in _OF_ITSELF:
                    del draft.facts[path]

    def _only_in_these(self, phrase: Phrase, before: list[Draft]) -> None:
        """ "Reed 130 X in the 46": of the clubs that were spoken of, only those behind "in" have the shaft."""
        scene, at = self.scene, phrase.start - 1
        while at > 0 and self.tokens[at].terminal == "SILENT":
            at -= 1
        parted = 0 < len(scene.focus) < len(before) and all(draft in before for draft in scene.focus)
        if parted and scene.last_path[0] == "head.sole" and self.tokens[at].lower == "on":
            path = scene.last_path[0]
            for draft in [draft for draft in before if draft not in scene.focus]:
                draft.facts.pop(path, None)  # "crescent sole on the 58 only"
        shafted = bool(scene.clause_puts) and all(path.startswith("shaft.") for path, _entry in scene.clause_puts)
        if parted and shafted and at > 0 and self.tokens[at].lower == "in":
            self._withdraw([draft for draft in before if draft not in scene.focus])

    def _go_on_about(self, found: list[Draft]) -> None:
        """ "… except the putter, which has a Tessary", "… (Tessary)": the next words are said of the excepted club."""
        scene, tokens = self.scene, self.tokens
        at = self.at
        if at < len(tokens) and tokens[at].terminal in ("COMMA", "LPAR"):
            at += 1
        own = at > self.at and (tokens[at - 1].terminal == "LPAR" or self._figure_of_its_own(at))
        if not own and (at >= len(tokens) or tokens[at].lower not in _OWN):
            return
        verbs = ("has", "have", "wears", "with", "gets", "get", "takes")
        if tokens[at].lower in verbs and not scene.clause_puts:
            return  # "every club except the putter has a Tessary": nothing was said of the others before
        close = scene.clause_end(at)
        if tokens[at].lower == "with" and any(each.terminal == "WRAP" for each in tokens[at : min(at + 4, close)]):
            return  # "Tessary on everything but the putter, with one extra wrap": said of those gripped
        for index in range(self.at, at):
            scene.claims[index] = "silent"
        self.at = at
        scene.focus = list(found)
        scene.widened = [draft for draft in scene.widened if draft not in found]
        scene.grouped = len(found) > 1
        scene.implicit = False
        gripped = scene.last_path[0].startswith("grip.")
        says_what = (
            at + 2 < len(tokens)
            and tokens[at].lower in _TELLS
            and bool({"a", "an"} & {token.lower for token in tokens[at + 1 : at + 3]})
        )
        says_what = says_what or all(draft.family == "putter" for draft in found)  # "bar the putter, that's a Stint"
        self.zone = "grip" if gripped else "" if says_what else self.zone  # "…, that's a Burr": what club it is

    def _figure_of_its_own(self, at: int) -> bool:
        """True for the D6 of "all D4 apart from the 58, D6": a swing weight or a change, and no more."""
        phrase = phrase_at(self.tokens, at) if at < len(self.tokens) else None
        if phrase is None or phrase.rule not in ("swing", "change") or not self.scene.clause_puts:
            return False
        behind = self.tokens[phrase.end] if phrase.end < len(self.tokens) else None
        told = {"swing": ("stated.swing_weight",), "change": ("length_change", "bend.lie", "bend.loft")}[phrase.rule]
        return self.scene.clause_puts[-1][0] in told and (behind is None or behind.kind in ("mark", "newline"))
