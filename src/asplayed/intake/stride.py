"""Where the walk is, and how a statement is put on the clubs it is said of."""

from __future__ import annotations

from collections.abc import Iterable

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.grips_given import GripsGiven
from asplayed.intake.known import Known
from asplayed.intake.mentions import Mentions
from asplayed.intake.phrases import Phrase, wedge_loft
from asplayed.intake.roles import Names
from asplayed.intake.scene import Doubt, Scene

_CHOICES = ("head.name", "head.loft", "length", "shaft.name", "shaft.mass", "shaft.flex")


class Stride:
    """Where the walk is: the scene, the place in it, the part being spoken of."""

    def __init__(self, scene: Scene, known: Known) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.mentions = Mentions(scene)
        self.names = Names(scene, known)
        self.at = 0
        self.zone = ""
        self.asked = ""  # the part that a question before this asked after
        self.line_at = 0  # where the line begins, and …
        self.entry: list[Draft] = []  # … the clubs that were spoken of there
        self.column = -1
        self.past_exception = -1  # behind the club that "all but …" excepted
        self.excepted: list[Draft] = []
        self.parted: list[Draft] = []  # clubs spoken of together, some of which were told a figure of their own …
        self.told_apart: list[Draft] = []  # … and which of them, up to …
        self.apart_end = -1
        self.grips = GripsGiven(scene, self.mentions)

    def _claim(self, phrase: Phrase, kind: str) -> None:
        for index in range(phrase.start, phrase.end):
            if not self.scene.claims[index]:
                self.scene.claims[index] = kind
        self.at = phrase.end

    def put(self, drafts: Iterable[Draft], path: str, entry: Entry) -> None:
        """Put a statement on clubs, as part of a group when there are several."""
        scene = self.scene
        drafts = list(drafts)
        chosen = scene.choosing
        entry = entry._replace(group=len(scene.focus) if len(scene.focus) > 1 else int(scene.grouped))
        modelled = [draft for draft in drafts if "head.name" in draft.facts]
        others = path == "head.name" and 0 < len(modelled) < len(drafts) and not scene.correcting
        for draft in drafts:
            said = draft.facts.get(path)
            narrower = said is not None and said.line == entry.line and said.group > entry.group == 0
            if (draft in scene.widened or self.at >= scene.beforehand) and said is not None and not narrower:
                continue
            if others and draft in modelled:
                continue  # "irons and PW are Stilts … the wedges are Whins"
            if entry.group and path == "length_change" and "length" in draft.facts and not draft.facts["length"].group:
                continue  # "everything standard length": a club's own length stands
            if draft.family == "putter" and len(scene.focus) > 1 and path.startswith("shaft."):
                continue
            known = draft.facts.get(path)
            other = scene.either and path in _CHOICES and known is not None and known.line == entry.line
            if known is not None and other and known.value == entry.value:
                continue  # "the Kittiwake 10.5 or the Whimbrel 10.5"
            doubted = scene.unsure is not None and path == "head.loft" and known is not None
            if known is not None and (other or doubted or (chosen and chosen[0] == path and draft in chosen[1])):
                old = draft.facts[path]
                draft.facts[path] = Entry(None, entry.unit, entry.line, f"{old.text} or {entry.text}")
                self._doubt(draft, path, old, entry)
                continue
            if path == "head.loft" and scene.cell == "loft" and self._played_in_table(draft, entry):
                continue
            if path == "length" and known is not None and self._loft_after_all(draft, known, entry):
                continue
            if path == "shaft.mass" and "g" in entry.text and self._number_in_name(draft, entry):
                continue
            draft.put(path, entry, correcting=scene.correcting > 0 or scene.replaced)
            if scene.unsure is not None:
                scene.claims[scene.unsure_at] = "question"
                if draft is drafts[0] and draft is scene.focus[0]:
                    words = f"{scene.unsure.text} {entry.text}"
                    scene.doubts.append(Doubt(entry.line, draft, path, words, (entry.text,)))
        scene.choosing = None
        scene.last_path = (path, drafts)
        if (path, entry) not in scene.clause_puts:
            scene.clause_puts.append((path, entry))
        if isinstance(entry.value, int | float) and not isinstance(entry.value, bool):
            if scene.last_number[0] == path and scene.last_number[1] and drafts and drafts[0] in scene.focus:
                scene.last_number = (path, list(scene.focus))
            else:
                scene.last_number = (path, drafts)
        if scene.correcting:
            scene.correcting = 1

    def _doubt(self, draft: Draft, path: str, old: Entry, entry: Entry) -> None:
        """Ask which of two holds; where the first was such a choice itself, ask that question of one more."""
        doubts = self.scene.doubts
        answers: tuple[str, ...] = (old.text,)
        for at in range(len(doubts) - 1, max(-1, len(doubts) - 1 - len(self.scene.focus)), -1):
            if doubts[at].draft is draft and doubts[at].about == path and doubts[at].text == old.text:
                answers = doubts.pop(at).answers
                break
        doubts.append(Doubt(entry.line, draft, path, f"{old.text} or {entry.text}", (*answers, entry.text)))

    def _played_in_table(self, draft: Draft, entry: Entry) -> bool:
        """A table's loft beside a club that its row names by another stamp: taken as played, and asked."""
        stamp = draft.facts.get("head.loft")
        if stamp is None or stamp.line != entry.line or draft.family != "wedge":
            return False
        if not isinstance(stamp.value, float) or not isinstance(entry.value, float):
            return False
        if not 0 < abs(stamp.value - entry.value) <= 3:
            return False
        draft.put("target.loft", entry)
        words = f"{entry.value:g} in the row of a {stamp.value:g}: is it bent to that?"
        self.scene.doubts.append(Doubt(entry.line, draft, "bend.loft", words, (f"{entry.value - stamp.value:+g}", "0")))
        return True

    def _loft_after_all(self, draft: Draft, known: Entry, entry: Entry) -> bool:
        """ "8i Corncrake 36, Coppice 110 S, fin 36.75 in": the bare number before the length was the iron's loft."""
        bare = known.line == entry.line and known.text.isdigit() and not known.group and not entry.group
        loft = float(known.value) if isinstance(known.value, int | float) else 0.0
        if not bare or draft.family != "iron" or draft.has("head.loft") or not 18 <= loft <= 50:
            return False
        draft.facts["head.loft"] = known._replace(unit="deg")
        draft.facts["length"] = entry
        return True

    def _number_in_name(self, draft: Draft, entry: Entry) -> bool:
        """A mass in grams behind a bare number: that number then was part of the name before it ("Ember 50, 55 g").

        Behind a wedge's model it was the loft ("Dunlin 50, Reed 105 g"), behind any other of the model's name.
        """
        old, name = draft.facts.get("shaft.mass"), draft.facts.get("shaft.name")
        if old is None or name is None or not old.text.isdigit() or old.line != entry.line:
            return False
        line = " ".join(self.scene.source.lines[old.line - 1].split())
        head = draft.facts.get("head.name")
        if head is not None and f"{head.text} {old.text}" in line and f"{name.text} {old.text}" not in line:
            loft = float(old.text)
            if draft.name is not None and draft.name.endswith("wedge") and wedge_loft(loft):
                draft.put("head.loft", old._replace(value=loft, unit="deg"))
            else:
                draft.facts["head.name"] = head._replace(value=f"{head.value} {old.text}")
        else:
            draft.facts["shaft.name"] = name._replace(value=f"{name.value} {old.text}")
        draft.facts["shaft.mass"] = entry
        return True
