"""Runs of the set told by their ends: "everything from the 5 iron down", "driver to hybrid", "up to the 7 iron"."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.drafts import Draft, between
from asplayed.intake.phrases import Phrase, phrase_at, wedge_loft
from asplayed.intake.stride import Stride

_ONWARDS = {"onwards", "onward", "on", "below", "downwards"}
_HAVE = {"have", "has", "get", "got", "wear", "take", "carry", "use", "are", "share", "run", "play", "come", "both"}
_MOST_GROUPS = 12  # no sentence names more
_SAID_OF = ("EQ", "AT", "IN", "WITH", "ALL")


class Run(NamedTuple):
    """Clubs from one end to the other, and the place behind the words that say so."""

    clubs: list[Draft]
    end: int


class Through(Stride):
    """Puts such a run of known clubs into focus."""

    def _through_the_set(self) -> bool:
        """Take the words that tell a run by its ends; False where they tell none."""
        scene = self.scene
        if len(scene.drafts) < 3 or scene.table is not None:
            return False
        run = self._groups_in_a_row(self.at) or self._run_of_set(self.at)
        if run is None or len(run.clubs) < 2:
            return False
        scene.focus, scene.grouped, scene.last_end = run.clubs, True, run.end
        scene.implicit = False
        for index in range(self.at, run.end):
            scene.claims[index] = "club"
        self.at = run.end
        return True

    def _run_of_set(self, start: int) -> Run | None:
        """The run told from this place on."""
        tokens, at, led = self.tokens, start, False
        while at < len(tokens) and (
            tokens[at].terminal in ("ALL", "SILENT") or tokens[at].lower in ("from", "club", "clubs")
        ):
            led = led or tokens[at].terminal == "ALL" or tokens[at].lower == "from"
            at += 1
        if led and at + 1 < len(tokens) and tokens[at].terminal in ("UP", "RANGE"):
            while at < len(tokens) and tokens[at].terminal in ("UP", "RANGE", "SILENT"):
                at += 1
            last = self._end_club(at)
            return None if last is None else Run(between(self.scene.drafts, None, last.clubs), last.end)
        span = phrase_at(tokens, at) if led and at < len(tokens) else None
        if span is not None and span.rule in ("span", "dashed") and start > 0:
            clubs = self._meant(span)
            return Run(clubs, span.end) if clubs else None  # "D4 from the 4 to the 6"
        first = self._end_club(at)
        if first is None or first.end >= len(tokens):
            return None
        driver = first.clubs[0].family == "driver"
        end = first.end + (tokens[first.end].terminal == "AND")
        after, behind = tokens[end], tokens[end + 1] if end + 1 < len(tokens) else tokens[end]
        if after.terminal in ("DOWN", "UP") and behind.terminal == "RANGE":
            after, end = behind, end + 1
        if after.terminal in ("RANGE", "DASH") and (led or driver):
            last = self._end_club(end + 1)
            return None if last is None else Run(between(self.scene.drafts, first.clubs, last.clubs), last.end)
        if not led and not (after.terminal == "DOWN" and behind.terminal in _SAID_OF and self.scene.chunk_opens(start)):
            return None
        counted = after.lower == "on" and not any(token.lower == "from" for token in tokens[start:at])
        if counted:
            return None  # "all six on Reed 110 S"
        if after.terminal == "DOWN" or after.lower in _ONWARDS:
            return Run(between(self.scene.drafts, first.clubs, None), end + 1)
        if after.terminal == "UP" and behind.kind != "number":
            return Run(between(self.scene.drafts, None, first.clubs), end + 1)
        return None

    def _groups_in_a_row(self, start: int) -> Run | None:
        """The clubs of "the woods, the irons and the sand wedge all have …", all of them told of before."""
        tokens, at, count, clubs = self.tokens, start, 0, []
        grouped = False
        while self.scene.line_start(start) and at < len(tokens) and count < _MOST_GROUPS:
            while at < len(tokens) and tokens[at].terminal in ("SILENT", "ALL"):
                at += 1
            phrase = phrase_at(tokens, at) if at < len(tokens) else None
            if phrase is None or phrase.rule not in ("club", "named", "family"):
                return None
            found = self.mentions.find(phrase)
            if not found or not all(draft.facts or draft.number for draft in found):
                return None
            clubs += self.mentions.with_driver(phrase, found)
            grouped = grouped or phrase.rule == "family" or len(found) > 1
            at, count = phrase.end, count + 1
            parted = at
            while at < len(tokens) and tokens[at].terminal in ("COMMA", "AND") and tokens[at].text != "(":
                at += 1
            if at == parted:
                break
        said = at < len(tokens) and (tokens[at].terminal in ("ALL", "WITH") or tokens[at].lower in (*_HAVE, ":"))
        return Run(list(dict.fromkeys(clubs)), at) if said and grouped and count > 1 else None

    def _end_club(self, at: int) -> Run | None:
        """The known club (or family) named at an end of a run."""
        tokens = self.tokens
        while at < len(tokens) and tokens[at].terminal == "SILENT":
            at += 1
        phrase = phrase_at(tokens, at) if at < len(tokens) else None
        if phrase is None or phrase.rule not in ("club", "named", "family", "bare"):
            return None
        if phrase.rule == "bare":
            amount = phrase.amounts[0]
            stamped = wedge_loft(amount.value) and amount.unit in ("", "deg")
            numbered = amount.whole and 1 <= amount.value <= 9 and not amount.signed
            family = "wedge" if stamped else "iron"
            values = [
                draft
                for draft in self.scene.drafts
                if draft.family == family and amount.value in (draft.number, draft.value("head.loft"))
            ]
            return Run(values, phrase.end) if values and (stamped or numbered) else None
        clubs = self.mentions.find(phrase)
        return Run(clubs, phrase.end) if clubs else None

    def _meant(self, phrase: Phrase) -> list[Draft]:
        """The clubs of the set that a pick names: by number, by name, by stamp, by a range of either."""
        drafts = self.scene.drafts
        values = [amount.value for amount in phrase.amounts]
        if phrase.rule == "code" and isinstance(phrase.tokens[0].value, tuple):
            values = [phrase.tokens[0].value[0]]
        ranged = phrase.rule in ("span", "dashed") and (phrase.has("DASH", "RANGE"))
        ends = phrase.first("NAMEDWEDGE", "LETTER")
        found = []
        for draft in drafts:
            loft = draft.value("head.loft")
            if draft.family == "wedge" and loft is not None and any(wedge_loft(value) for value in values):
                inside = values[0] <= loft <= values[-1] if ranged and len(values) > 1 else loft in values
            elif draft.family == "iron" and draft.number is not None and values:
                high = 9.0 if ranged and len(values) == 1 else values[-1]
                inside = values[0] <= draft.number <= high if ranged else draft.number in values
            else:
                named = ends is not None and draft.name == str(ends.value)
                last = ranged and draft.in_range and ends is not None and draft.name == "pitching wedge"
                inside = named or last
            if inside:
                found.append(draft)
        header = self.scene.header
        irons = header is not None and header.family == "iron"
        if not found and phrase.rule == "bare" and values and values[0] <= 11 and not irons:
            numbered = [draft for draft in drafts if draft.number == values[0]]
            return numbered if len(numbered) == 1 else []  # "Ostrane 60 S in the three wood, 70 S in the seven"
        return found
