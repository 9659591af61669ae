"""Clubs that are spoken of by their model: "The five Pomanders have Cirrel Rose Iron, 55 g, L", "the hollow ones"."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token

_LEADS = {"the", "all", "both", "my", "his", "her", "these", "those"}
_VERBS = {
    "have", "has", "had", "are", "were", "get", "got", "take", "took", "wear", "carry", "come", "came", "with", "on",
    "use", "stay", "share", "all", "both", "each", "go", "want", "need", "play",
}  # fmt: skip
_ONES = {"ones", "clubs", "heads", "models"}
_LONGEST = 4  # words of a model's name


class ByModel(Stride):
    """Turns to the clubs whose model is named in the plural."""

    def _clubs_by_model(self, token: Token) -> bool:
        """Speak of "the five Pomanders", "the Larders": all the clubs of that model told so far, when several are."""
        at, scene = self.at, self.scene
        if scene.table is not None or token.kind not in ("number", "word"):
            return False
        counted = token.kind == "number" and isinstance(token.value, float) and 2 <= token.value <= 12
        led = counted or (at > 0 and self.tokens[at - 1].lower in _LEADS)
        start = at + counted
        if not led or start >= len(self.tokens):
            return False
        end, drafts = self._told_by_a_word(start)
        if not drafts and self.tokens[start].text[:1].isupper():
            end, drafts = self._named_in_plural(start)
            verb = self.tokens[end].lower.split()[:1] if 0 < end < len(self.tokens) else []
            drafts = drafts if len(drafts) > 1 and verb and verb[0] in _VERBS else []
            end += verb[:1] in (["all"], ["both"], ["each"])  # "the Larders all have": no others
        if not drafts or (counted and token.value != len(drafts)):
            return False
        for place in range(at, end):
            scene.claims[place] = scene.claims[place] or "club"
        scene.focus, scene.grouped, scene.implicit = drafts, True, False
        scene.last_end = self.at = end
        self.zone = ""
        return True

    def _told_by_a_word(self, start: int) -> tuple[int, list[Draft]]:
        """The place behind "the (two) hollow ones", and the clubs with that word in their model; (0, []) for none."""
        end = start + 2
        if end > len(self.tokens) or self.tokens[start + 1].text not in ("one", "ones"):
            return 0, []  # "the Gannet One" is a model's whole name
        word = self.tokens[start].lower
        told = [(str(entry.value), draft) for draft in self.scene.drafts if (entry := draft.said("head.name"))]
        drafts = [draft for head, draft in told if word in head.casefold().split()[1:]]
        several = self.tokens[start + 1].lower == "ones"
        return (end, drafts) if (len(drafts) > 1) == several else (0, [])

    def _named_in_plural(self, start: int) -> tuple[int, list[Draft]]:
        """The place behind a model's name with an s, and the clubs of this model or maker; (0, []) for none."""
        told = [
            (str(entry.value).casefold(), draft) for draft in self.scene.drafts if (entry := draft.said("head.name"))
        ]
        for end in range(start + 1, min(start + _LONGEST, len(self.tokens)) + 1):
            word = self.tokens[end - 1]
            if word.kind == "newline" or word.terminal == "STOP":
                break
            name = self.scene.words(start, end).casefold()
            if word.lower in _ONES and end - start > 1:
                name = f"{self.scene.words(start, end - 1).casefold()}s"  # "the Pomander ones"
            if not name.endswith("s") or any(name == head for head, _ in told):
                continue
            drafts = [draft for head, draft in told if head == name[:-1]]
            drafts = drafts or [draft for head, draft in told if head.startswith(f"{name[:-1]} ")]
            if drafts:
                return end, drafts
        return 0, []
