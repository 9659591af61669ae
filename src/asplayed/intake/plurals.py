"""Whether the s of a model's name is a plural's: "Dunlins" in the irons, and "Ramsons" that are always so called."""

from __future__ import annotations

from asplayed.intake.names import SUFFIXES, NameRun
from asplayed.intake.next_club import NextClub
from asplayed.intake.wording import prose, terse

_SINGLE = {
    "players",
    "works",
    "links",
    "canvas",
    "atlas",
    "lens",
    "news",
    "series",
}  # … behind another word of the name


def _may_be_plural(text: str) -> bool:
    """True for "Dunlins"; "Moss", "Nimbus" and "Nib Works" are single."""
    named = " " in text and text.lower().split(" ")[-1] in _SINGLE
    return text.endswith("s") and text[-2:] not in ("ss", "us", "is") and not named


class Plurals(NextClub):
    """Says how a name is kept when several clubs have it."""

    def _one_so_called(self, run: NameRun) -> bool:
        """True for "Sedge Wings" where the list also tells of "a Sedge Wings", or that one "is Sedge Wings too"."""
        words = tuple(token.lower for token in self.scene.tokens[run.start : run.end])
        return words in self.scene.ones_so_called

    def _always_so(self, run: NameRun, text: str) -> bool:
        """True for the "Ramsons" of "Ramsons 50/54/58": before its lofts in a terse line, and never a single Ramson."""
        tokens = self.scene.tokens
        single = any(token.text == text[:-1] for token in tokens)
        before = tokens[run.start - 1] if run.start else None
        behind = run.end + (run.end < len(tokens) and tokens[run.end].text == ",")
        after = tokens[behind] if behind < len(tokens) else None
        lofted = after is not None and (after.kind == "number" or after.terminal == "CODE")
        if behind > run.end:  # "Ramsons, 50° and 54°", and not "Dunlins, 7-PW"
            lofted = lofted and all(draft.family == "wedge" for draft in self.scene.focus)
        counted = before is not None and before.kind == "number"
        return lofted and not counted and not single and terse(self.scene, run.start)

    def _apposed(self, run: NameRun) -> bool:
        """True for the "Ramsons" of "52 and 58, Ramsons, both …": between two commas a wedge is named as it is."""
        tokens = self.scene.tokens
        marks = [tokens[at].terminal for at in (run.start - 1, run.end) if 0 <= at < len(tokens)]
        return marks == ["COMMA", "COMMA"] and all(draft.family == "wedge" for draft in self.scene.focus)

    def _in_a_row(self, run: NameRun, stem: str) -> bool:
        """True for the "Ramsons" of "Irons 5-PW: Ramsons, 105 S": short rows name models as they are, but for "MBs"."""
        scene, last = self.scene, stem.rsplit(maxsplit=1)[-1]
        if last.isupper() or last[-1].isdigit() or last.lower() in SUFFIXES or scene.source.spoken:
            return False
        return len(scene.source.lines[run.line - 1]) < 90 and terse(scene, run.start)

    def _before_its_mass(self, run: NameRun) -> bool:
        """True for the "Pampas" of "shafted with the Pampas 50 in A flex": a shaft's mass stands behind its name."""
        behind = self.scene.tokens[run.end : run.end + 2]
        mass = behind[0].value if behind and behind[0].terminal == "NUM" else None
        flexed = len(behind) > 1 and behind[1].terminal in ("FLEX", "FLEXCODE", "IN", "GRAM")
        return flexed and isinstance(mass, float) and 38 <= mass <= 150 and self.scene.tokens[run.end].text.isdigit()

    def tidy(self, run: NameRun, count: int) -> str:
        """The name as kept: the user's words, a plural's s gone where several clubs are said to be "Dunlins"."""
        name = self._single(run, count)
        return name[:-1] if name != run.text and name.endswith(("tche", "sche")) else name  # "Nuthatches both"

    def _single(self, run: NameRun, count: int) -> str:
        text = run.text.strip(" '’")
        if self._one_so_called(run) or (count > 1 and text.casefold() in self.known.heads_of_one):
            return text
        if text.lower().endswith(("'s", "’s")):
            text = text[:-2]
        elif self._before_its_mass(run):
            return text
        at = run.start - 1
        while at >= 0 and self.scene.tokens[at].terminal == "SILENT":
            if self.scene.tokens[at].lower in ("are", "theyre", "they're") and count > 1 and _may_be_plural(text):
                return text[:-1]
            at -= 1
        if count > 1 and at >= 0 and self.scene.tokens[at].kind == "number" and _may_be_plural(text):
            return text[:-1]
        if count > 1 and _may_be_plural(text):
            stem = text[:-1]
            if self.scene.tokens[run.start - 1].terminal in ("ALL", "THOSE"):
                return stem
            before = self.scene.tokens[max(0, run.start - 5) : run.start]
            apart = max((at for at, token in enumerate(before) if token.terminal == "COMMA"), default=-1)
            nearby = {token.lower for token in before[apart + 1 :] if token.line == run.line}
            listed = " " in text and self.scene.tokens[run.start - 1].text == ":" and not prose(self.scene, run.start)
            plural = text[-2:] not in ("as", "os") and len(stem) > 3 and not listed  # "Irons: Saltwort Players"
            plural = plural and not self._apposed(run) and not self._in_a_row(run, stem)
            if (
                (plural and not self._always_so(run, text))
                or self.scene.source.spoken
                or nearby & {"the", "some", "are"}
            ):
                return stem
            words = {token.text for token in self.scene.tokens if token.kind == "word"}
            if stem.strip() and stem.split()[-1] in words:
                return stem
            if at >= 0 and self.scene.tokens[at].terminal == "EQ" and self.scene.tokens[at].lower == "are":
                return stem
        return text
