"""Words of clubs, parts and directions that say something else where they stand."""

from __future__ import annotations

import re

from asplayed.intake.drafts import Entry
from asplayed.intake.phrases import Phrase
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token

_SLEEVE_NAME = re.compile(r"[A-Z]{1,2}(?:[+\-−–]{1,2}\d?|\d{1,2})?")  # N+, U--, B3
_DONE = {"made", "had", "shot", "won", "hit", "holed", "lost", "makes", "scored"}
_PLAYED = _DONE - {"had"} | {
    "make", "hole", "holes", "sink", "sinks", "sank", "win", "wins", "hits", "drain", "drains", "drained", "putted",
    "did", "does", "do", "started", "changed", "changes", "rolled", "rolls", "saved", "saves",
}  # fmt: skip
_SUBJECTS = ("i", "he", "she", "they", "we", "you", "who", "that")
_DONE_TO_CLUBS = {
    "bend", "bent", "build", "built", "cut", "shaft", "shafted", "grip", "gripped", "regripped", "fitted", "mark",
    "tip", "tipped", "measured", "measure", "bring", "brought", "order", "ordered", "keep", "kept", "want",
}  # fmt: skip


class Otherwise(Stride):
    """Takes such words for what they mean there."""

    def _of_the_round(self, token: Token) -> bool:
        """ "She made 22 birdies": a number of what was done, no figure of a club."""
        before = self.tokens[self.at - 1].lower if self.at else ""
        after = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else None
        if before not in _DONE or after is None or after.terminal != "WORD" or after.text[:1].isupper():
            return False
        if not after.lower.endswith("s") or token.sign:
            return False
        self.scene.claims[self.at] = self.scene.claims[self.at + 1] = "left"
        self.at += 2
        return True

    def _of_play(self, phrase: Phrase) -> bool:
        """ "The putter that holed everything on Sunday", "that won it all": what was done, and no clubs."""
        at = phrase.start - 1
        at -= at > 0 and self.tokens[at].lower in ("it", "them")
        whole = len(phrase.tokens) == 1 and (at < phrase.start - 1 or phrase.tokens[0].lower == "everything")
        if self._all_of_it(phrase):
            self._claim(phrase, "left")
            return True
        if not whole or not phrase.has("ALL") or at < 0:
            return False
        if self.tokens[at].lower not in _PLAYED and not self._done_by_somebody(at):
            return False
        self._claim(phrase, "left")
        return True

    def _all_of_it(self, phrase: Phrase) -> bool:
        """True for the "all" of "the putter that did all the damage": of a thing that is no club."""
        behind = self.tokens[phrase.end : phrase.end + 2]
        if len(behind) < 2 or [token.lower for token in phrase.tokens] != ["all"]:
            return False
        thing = behind[1].terminal == "WORD" and behind[1].text.islower() and not behind[1].lower.endswith("s")
        return behind[0].lower == "the" and thing and behind[1].lower not in ("same", "rest")

    def _done_by_somebody(self, at: int) -> bool:
        """True for the "balloon" of "because I balloon everything", which is done to a ball and to no club."""
        verb, subject = self.tokens[at], self.tokens[at - 1].lower if at else ""
        return subject in _SUBJECTS and verb.terminal == "WORD" and verb.lower not in _DONE_TO_CLUBS

    def _position_told(self) -> bool:
        """ "Sleeve one click up (N+)": the position's own name in brackets behind what was said of the sleeve."""
        scene, tokens, start = self.scene, self.tokens, self.at + 1
        end = start
        while end < len(tokens) and tokens[end].terminal not in ("RPAR", "NEWLINE", "COMMA") and end - start < 4:
            end += 1
        closed = start < end < len(tokens) and tokens[end].terminal == "RPAR"
        if not closed or len(scene.focus) != 1 or not scene.last_path[0].startswith("sleeve."):
            return False
        text = scene.words(start, end)
        if not _SLEEVE_NAME.fullmatch(text):
            return False
        entry = Entry(text, "1", tokens[start].line, text)
        scene.focus[0].put("sleeve.position", entry, correcting=True)
        for index in range(self.at, end + 1):
            scene.claims[index] = "club"
        self.at = end + 1
        return True

    def _position_explained(self, token: Token) -> bool:
        """ "A2 is half a degree weaker": what the position does that clubs were told to stand at."""
        scene, told = self.scene, self.tokens[self.at + 1 : self.at + 3]
        if not scene.chunk_opens(self.at) or len(told) < 2 or told[0].terminal != "EQ" or told[1].terminal == "NEWLINE":
            return False
        entries = [(draft, draft.facts.get("sleeve.position")) for draft in scene.drafts]
        meant = [draft for draft, entry in entries if entry is not None and entry.value == token.text]
        if not meant:
            return False
        scene.focus, scene.grouped, self.zone = meant, len(meant) > 1, "sleeve"
        scene.take(self.at, self.at + 2)
        scene.claims[self.at + 1] = "silent"
        self.at += 2
        return True

    def _kind_of_shaft(self, phrase: Phrase) -> bool:
        """ "The seventy-five gram hybrid shaft": the word says what sort of shaft it is and names no club."""
        after = self.tokens[phrase.end] if phrase.end < len(self.tokens) else None
        if len(phrase.tokens) > 1 or after is None or after.terminal != "SHAFTWORD" or after.lower.endswith("s"):
            return False
        if not self.zone.startswith("shaft"):
            return False
        self._claim(phrase, "club")
        return True

    def _wedge_flex(self, phrase: Phrase) -> bool:
        """ "52, 56 – Brunholt 125 wedge": the flex that wedges' shafts are called by, behind the shaft."""
        scene, word = self.scene, phrase.tokens[0]
        after = self.tokens[phrase.end].terminal if phrase.end < len(self.tokens) else "NEWLINE"
        shaft = self.zone in ("shaft", "shaft~") and all(draft.has("shaft.name") for draft in scene.focus)
        if word.lower != "wedge" or not shaft or after not in ("NEWLINE", "COMMA", "STOP", "RPAR", "PIPE", "SLASH"):
            return False
        if any(draft.family != "wedge" or draft.has("shaft.flex") for draft in scene.focus) or not scene.focus:
            return False
        self.put(scene.focus, "shaft.flex", Entry("wedge", "1", phrase.line, word.text))
        self._claim(phrase, "club")
        return True

    def _the_usual_one(self, phrase: Phrase) -> bool:
        """ "Just the standard one": a model and no setting."""
        after = self.tokens[phrase.end].lower if phrase.end < len(self.tokens) else ""
        if after not in ("one", "model", "version", "head") or len(phrase.tokens) > 1:
            return False
        self._claim(phrase, "silent")
        return True

    def _lie_behind_loft(self, phrase: Phrase) -> bool:
        """ "5i 25/61, 6i 28/61.5": behind an iron's loft and a stroke stands its lie."""
        scene, tokens, amount = self.scene, self.tokens, phrase.amounts[0]
        draft = scene.focus[-1] if len(scene.focus) == 1 else None
        struck = phrase.start > 1 and tokens[phrase.start - 1].text == "/" and tokens[phrase.start - 1].glued
        if draft is None or not struck or amount.unit not in ("", "deg") or not 58 <= amount.value <= 66.5:
            return False
        iron = draft.family == "iron" or draft.name == "pitching wedge"
        if not iron or draft.value("head.loft") != tokens[phrase.start - 2].value or draft.has("as_played.lie"):
            return False
        self.put([draft], "as_played.lie", Entry(amount.value, "deg", phrase.line, amount.token.text))
        self._claim(phrase, "club")
        return True

    def _exactly(self, phrase: Phrase) -> bool:
        """ "Forty-five inches flat": exactly so long, and no change of lie."""
        before = self.tokens[phrase.start - 1] if phrase.start else None
        if before is None or before.terminal not in ("INCH", "MM", "CM"):
            return False
        self._claim(phrase, "silent")
        return True

    def _closes_head(self, phrase: Phrase) -> bool:
        """ "They are Dunlin heads with 60 g Ostrane shafts": the word behind its name opens nothing."""
        last = self.names.last
        after = self.tokens[phrase.end].terminal if phrase.end < len(self.tokens) else "NEWLINE"
        return last is not None and last[0] == "head" and last[1].end == phrase.start and after != "EQ"
