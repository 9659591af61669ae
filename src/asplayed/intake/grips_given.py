"""Which clubs get the grips that sentences told of: settled when the clubs are known."""

from __future__ import annotations

import re

from asplayed.intake.drafts import Draft, Entry, between
from asplayed.intake.grip_parts import Reach
from asplayed.intake.grip_statements import Given, Statement
from asplayed.intake.groups import FAMILIES
from asplayed.intake.making import wedge_name
from asplayed.intake.mentions import Mentions
from asplayed.intake.phrases import Phrase
from asplayed.intake.scene import Scene

_ROW = re.compile(
    r"(?i)\s*(?:no|nr|item|line|pos|position)?[-*(#.]*\s*0?(\d{1,2})(?:\s*[-–]\s*\d{1,2})?(?:\s*[.):\]]|\s{2,})"
)
_AT_ONCE = 60  # statements given as the list goes; what a longer list tells is given at its end alone
_RUN = ("pitching wedge", "gap wedge", "sand wedge", "lob wedge")


def _wedge(draft: Draft) -> str:
    """The name of a wedge, said or by its loft."""
    return draft.name or wedge_name(draft.value("head.loft") or 0.0)


class Met:
    """A statement of grips that the walk has come by, with the clubs that were known there."""

    def __init__(self, statement: Statement, known: list[Draft], since: list[Draft], apart: list[Draft]) -> None:
        self.statement = statement
        self.known = known  # the clubs told of before it
        self.since = since  # those of them that had no grip yet
        self.apart = apart  # a putter spoken of right before: "no need to do the putter; all the others …"


class GripsGiven:
    """Gives clubs the grips told of groups."""

    def __init__(self, scene: Scene, mentions: Mentions) -> None:
        self.scene = scene
        self.mentions = mentions
        self.met: list[Met] = []  # what was told
        self.given: list[tuple[Draft, str, Entry]] = []  # … and what clubs got of it
        self.alike: list[tuple[Statement, list[Draft]]] = []  # which clubs are gripped like another
        self.named: set[int] = set()  # the clubs that were told a grip by name
        self.reached: list[Draft] = []  # the clubs that the last statement was said of

    def meet(self, statement: Statement) -> None:
        """Keep a statement for the end, and give what it says to the clubs known by now."""
        drafts = self.scene.drafts
        if statement.like is not None:
            self.alike.append((statement, list(self.scene.focus)))
            return
        since = [draft for draft in drafts if not draft.has("grip.name")]
        before = self.scene.before_drafts
        apart = before if all(draft.family == "putter" for draft in before) else []
        self.met.append(Met(statement, list(drafts), since, list(apart)))
        if len(self.met) > _AT_ONCE:
            return
        self.give()
        if len(self.reached) > 1:
            self.scene.focus, self.scene.grouped = self.reached, True  # the next words may speak of these

    def give(self) -> None:
        """Give all grips told so far, anew for the clubs known now: named ones first, then all, then the rest."""
        for draft, path, entry in self.given:
            if draft.facts.get(path) is entry:
                del draft.facts[path]
        self.given = []
        told = self._corrected()
        self.named, self.reached = set(), []
        for sort in ("named", "all", "rest"):
            for met, given in told:
                whole = {reach.whole for reach in given.reach}
                order = "rest" if "rest" in whole else "named" if whole == {None} else "all"
                if order == sort:
                    self._give(met, given, sort)
        for statement, drafts in self.alike:
            self._lend(statement, drafts)

    def _lend(self, statement: Statement, drafts: list[Draft]) -> None:
        """Give clubs the grip of another: "Grip: as item 1, but three extra wraps"."""
        assert statement.like is not None
        own = statement.given[0].facts
        lenders = [draft for draft in self._meant(statement.like) if draft not in drafts]
        lent = [path for path in ("grip.name", "grip.mass", "grip.wraps") if lenders and path in lenders[0].facts]
        for draft in drafts:
            for path in {*lent, *own}:
                if path not in draft.facts:
                    draft.facts[path] = own[path] if path in own else lenders[0].facts[path]
                    self.given.append((draft, path, draft.facts[path]))

    def _corrected(self) -> list[tuple[Met, Given]]:
        """What was told, with what was put right later ("sorry, two wraps"; "not the putter")."""
        told: list[tuple[Met, Given]] = []
        for met in self.met:
            for given in met.statement.given:
                loose = not given.reach and told
                if loose and (met.statement.correcting or "grip.name" not in given.facts):
                    last = told[-1][1]
                    anew = last._replace(facts={**last.facts, **given.facts}, but=[*last.but, *given.but])
                    told[-1] = (told[-1][0], anew)
                else:
                    told.append((met, given))
        return told

    def _give(self, met: Met, given: Given, sort: str) -> None:
        """Give one grip to the clubs it was told of."""
        left = [reach for reach in given.but if reach.whole != "rest"]  # "the rest stay": as they are
        out = [draft for reach in left for draft in self._meant(reach)]
        drafts = [draft for draft in self._reached(met, given) if draft not in out]
        if met is self.met[-1]:
            self.reached = drafts
        name = given.facts.get("grip.name")
        for draft in drafts:
            known = draft.facts.get("grip.name")
            own = known is not None and name is not None and known.value != name.value
            if sort != "named" and (own or (name is not None and id(draft) in self.named)):
                continue
            for path, entry in given.facts.items():
                if path in draft.facts and (sort != "named" or (not draft.facts[path].group and len(drafts) > 1)):
                    continue
                draft.lines.add(entry.line)
                draft.facts[path] = entry._replace(group=len(drafts) if len(drafts) > 1 else 0)
                self.given.append((draft, path, draft.facts[path]))
            if sort == "named" and name is not None:
                self.named.add(id(draft))

    def _reached(self, met: Met, given: Given) -> list[Draft]:
        """The clubs a statement is said of, without those it leaves out."""
        drafts = self.scene.drafts
        if not given.reach:  # "Grips: Norrby": below the clubs of a block, those since the last; before any, all
            whole = any(draft.family == "putter" for reach in given.but for draft in self._meant(reach))
            pool = (met.since or met.known) if met.known and not whole else drafts  # "…, not the putter": of the set
            return [draft for draft in pool if draft.family != "putter"]
        found: list[Draft] = []
        for reach in given.reach:
            found += [draft for draft in self._meant(reach, met) if draft not in found]
        return found

    def _meant(self, reach: Reach, met: Met | None = None) -> list[Draft]:
        """The clubs of one word or phrase."""
        drafts = self.scene.drafts
        bench = met is not None and met.statement.bench
        if reach.whole in ("all", "of them"):
            apart = bench or reach.whole == "of them"
            return [draft for draft in drafts if not (apart and draft.family == "putter")]
        if reach.whole == "rest":
            spoken_of = met.apart if met is not None else []
            return [draft for draft in drafts if not draft.has("grip.name") and draft not in spoken_of]
        if reach.whole == "run":
            return self._run(reach)
        if reach.whole == "so far" and met is not None:
            return list(met.known or drafts)
        if reach.whole == "counted":
            return self._counted(reach.first, met)
        if reach.whole == "rows":
            return self._rows(reach.rows)
        return self._named(reach) if reach.phrase is not None else []

    def _counted(self, count: int, met: Met | None) -> list[Draft]:
        """ "All thirteen", "12 grips", "all three": all, all but the putter, or the last of those told before."""
        drafts = self.scene.drafts
        gripped = [draft for draft in drafts if draft.family != "putter"]
        if count == len(drafts) or count > len(drafts):
            return list(drafts) if count == len(drafts) else gripped
        if count == len(gripped) or count > 7 or met is None:
            return gripped
        for pool in (met.known, [draft for draft in met.known if draft.family != "putter"]):
            if len({min(draft.lines) for draft in pool if draft.lines}) == count:
                return pool  # "both" of two lines
        return met.known[-count:]

    def _run(self, reach: Reach) -> list[Draft]:
        """The clubs from one to another, in the order of a set."""
        first, last = (
            self._named(Reach(None, phrase)) if phrase is not None else None for phrase in (reach.phrase, reach.to)
        )
        if first == [] or last == []:
            return []
        return between(self.scene.drafts, first, last)

    def _rows(self, meant: tuple[int, ...]) -> list[Draft]:
        """The clubs on lines of these counts; without counted lines, those on the first, the second line of clubs."""
        rows = {}
        for line, text in enumerate(self.scene.source.lines, start=1):
            if (match := _ROW.match(text)) is not None:
                rows[line] = int(match[1])
        drafts = self.scene.drafts
        numbered = {id(draft): rows[min(draft.lines)] for draft in drafts if draft.lines and min(draft.lines) in rows}
        if numbered:
            return [draft for draft in drafts if numbered.get(id(draft), -1) in meant]
        lines = sorted({min(draft.lines) for draft in drafts if draft.lines})
        if max(meant) > len(lines):
            return [draft for draft in drafts if draft.family != "putter"] if len(meant) > 1 else []
        told = {lines[row - 1] for row in meant}
        return [draft for draft in drafts if draft.lines and min(draft.lines) in told]

    def _named(self, reach: Reach) -> list[Draft]:
        """The clubs that a phrase names."""
        phrase = reach.phrase
        assert phrase is not None
        drafts = self.scene.drafts
        if phrase.tokens[-1].lower in ("chipper", "chippers"):
            return [draft for draft in drafts if draft.name == "chipper"]
        if phrase.rule == "family" or (phrase.rule == "group" and not phrase.has("ORDINAL")) or self._plural(phrase):
            kind = phrase.first(*FAMILIES)
            family = FAMILIES[kind.terminal] if kind is not None else ""
            count = reach.first or (int(phrase.amounts[0].value) if phrase.amounts else 0)
            return self._of_family(family, kind.lower if kind is not None else "", count)
        if phrase.rule in ("span", "dashed") and not (phrase.amounts and phrase.amounts[0].value > 11):
            return self._of_span(phrase)
        if phrase.rule == "bare":
            return [draft for draft in drafts if draft.value("head.loft") == phrase.amounts[0].value]
        return self.mentions.find(phrase)

    def _plural(self, phrase: Phrase) -> bool:
        """True for "hybrids", "3 wedges"."""
        last = phrase.tokens[-1]
        small = not phrase.amounts or phrase.amounts[0].value < 5
        return phrase.rule == "club" and last.terminal in FAMILIES and last.lower.endswith("s") and small

    def _of_family(self, family: str, word: str, count: int) -> list[Draft]:
        """All clubs of a sort; a set's own wedge is one of its irons, and "woods" has the driver too."""
        drafts = self.scene.drafts
        found = [draft for draft in drafts if draft.family == family]
        if family == "iron":
            found = [draft for draft in drafts if self._an_iron(draft)]
        elif family == "wedge":
            loose = [draft for draft in found if not self._an_iron(draft)]
            found = loose if not count or count == len(loose) else found
        elif family == "wood" and "fairway" not in word:
            found = [draft for draft in drafts if draft.family in ("wood", "driver")]
        return found[-count:] if count else found

    def _an_iron(self, draft: Draft) -> bool:
        """True for an iron, and for the wedge of its set."""
        if draft.family == "iron" or draft.in_range:
            return True
        model = draft.said("head.name")
        irons = {
            one.facts["head.name"].value
            for one in self.scene.drafts
            if one.family == "iron" and "head.name" in one.facts
        }
        return draft.name in ("pitching wedge", "gap wedge") and model is not None and model.value in irons

    def _of_span(self, phrase: Phrase) -> list[Draft]:
        """The irons of "5 to PW"."""
        numbers = [int(amount.value) for amount in phrase.amounts]
        word = phrase.first("WOOD", "HYBRID", "DIRON")
        family = FAMILIES[word.terminal] if word is not None else "iron"
        ends = phrase.first("NAMEDWEDGE", "LETTER", "WEDGE")
        low, high = min(numbers), max(numbers) if ends is None else 9
        found = [
            draft for draft in self.scene.drafts
            if draft.family == family and draft.number is not None and low <= draft.number <= high
        ]  # fmt: skip
        if ends is not None:
            last = str(ends.value) if ends.value in _RUN else "pitching wedge"
            run = _RUN[: _RUN.index(last) + 1]
            wedges = [draft for draft in self.scene.drafts if draft.family in ("iron", "wedge") and draft not in found]
            found += [draft for draft in wedges if _wedge(draft) in run]
        return found
