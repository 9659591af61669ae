"""What the list itself teaches about names: words that name a shaft in one place name one elsewhere too."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

from asplayed.intake.unlikely import in_words, unlikely

if TYPE_CHECKING:
    from asplayed.catalogue import Part
    from asplayed.intake.scene import Scene


class Known:
    """First words of names, with the parts they were seen to name."""

    def __init__(self) -> None:
        self.seen: dict[str, Counter[str]] = {}
        self.heads: set[str] = set()  # whole names of heads
        self.heads_of_one: set[str] = set()  # those told of a single club
        self.tails: dict[str, set[str]] = {}  # last words before a mass or a flex -> the words that led to them
        self.no_clubs: set[int] = set()  # places of numbers that made a club which no set has

    def _add(self, word: str, role: str, weight: int = 1) -> None:
        self.seen.setdefault(word.casefold(), Counter())[role] += weight

    def learn_parts(self, parts: Sequence[Part]) -> None:
        """Take the makers' and models' names of catalogue parts."""
        for part in parts:
            if part.part in ("head", "shaft", "grip", "ball"):
                for name in (part.maker, part.model):
                    if name:
                        self._add(name.split()[0], part.part, 100)

    def learn(self, scene: Scene) -> None:
        """Take the names of a first reading of the list."""
        for word, role, weight in scene.evidence:
            self._add(word, role, weight)
        for draft in scene.drafts:
            if "head.name" in draft.facts:
                name = draft.facts["head.name"]
                self.heads.add(str(name.value).casefold())
                if not name.group:
                    self.heads_of_one.add(str(name.value).casefold())
        for lead, tail in scene.tails:
            if tail.isdigit():
                continue  # the 7 of "PT-7" and "MT-7" says nothing of another's
            self.tails.setdefault(tail.casefold(), set()).add(lead.casefold())
        self.no_clubs = {draft.place for draft in unlikely(scene) if not in_words(scene, draft)}

    def role(self, word: str) -> str | None:
        """The part this word names, when it names one part far more often than any other."""
        if len(self.tails.get(word.casefold(), ())) > 1:
            return "shaft"
        found = self.seen.get(word.casefold())
        if not found:
            return None
        ranked = found.most_common(2)
        if len(ranked) > 1 and ranked[0][1] < 2 * ranked[1][1]:
            return None
        return ranked[0][0] if ranked[0][1] > 1 else None

    def role_of_name(self, name: str) -> str | None:
        """The part that this whole name was seen to name and no other; else the part its first word names.

        "Elderkin Feather" is a head where one maker, Elderkin, makes heads and shafts.
        """
        first = name.split(maxsplit=1)[0] if name else ""
        seen = self.seen.get(name.casefold(), Counter())
        if len(seen) == 1 and first != name:
            part = next(iter(seen))
            if self.seen.get(first.casefold(), seen)[part] > 1:  # not only here
                return part
        return self.role(first)

    def splits(self, word: str, start_role: str | None) -> bool:
        """True when a run of names must end before this word: it is known to begin a shaft's or a grip's name."""
        role = self.role(word)
        return role in ("shaft", "grip") and role != start_role
