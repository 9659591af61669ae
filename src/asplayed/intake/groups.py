"""Which clubs "all three", "both", "the lot", "the two high ones" point to."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.phrases import CLUB_RULES, Phrase, phrase_at
from asplayed.intake.scene import Scene

FAMILIES = {
    "DRIVER": "driver", "MINIDRIVER": "driver", "WOOD": "wood", "HYBRID": "hybrid", "DIRON": "diron", "IRON": "iron",
    "WEDGE": "wedge", "PUTTER": "putter", "CHIPPER": "wedge", "NAMEDWEDGE": "wedge",
}  # fmt: skip
_POINTING = {"as", "like", "than", "with", "from", "matches", "match"}
RESTING = {"rest", "the rest", "others", "the others", "everything else", "all else", "the remainder", "remainder"}
_OF_THEM = {"of", "them", "these", "those", "the"}
_SAID_BETWEEN = _OF_THEM | {"is", "was", "has", "been", "have"}  # "the last has been bent one weak"
_EVERY_ONE = {
    "all", "all of", "every one", "every one of", "every one of them", "every single one", "every single one of",
    "each of", "each one of",
}  # fmt: skip
_THROUGHOUT = ("throughout", "across the board", "all round", "all around")


class Groups:
    """Finds the clubs a group of words points to."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene

    def group(self, phrase: Phrase) -> list[Draft]:
        """The clubs that "all three", "both", "those", "the two high ones" point to; [] when they point to none."""
        scene = self.scene
        drafts = scene.drafts
        waits = scene.header is not None and scene.focus == [scene.header]
        resting = any(token.lower in RESTING for token in phrase.tokens)
        if resting and drafts and (part := self._part_told(phrase)):
            spoken_of = scene.before_drafts
            apart = spoken_of if all(draft.family == "putter" for draft in spoken_of) else []
            apart = [*apart, *(draft for targets, _noun, _phrase in scene.same for draft in targets)]  # "… the same"
            return [draft for draft in self.lacking(part) if draft not in apart]  # "no need for the putter. The rest …"
        if (
            waits
            and not resting
            and not phrase.has("WOOD", "HYBRID", "IRON", "DIRON", "WEDGE", "NAMEDWEDGE", "ORDINAL")
        ):
            return scene.focus  # "I have two wedges. They are …"
        if not drafts:
            return []
        word = phrase.first("WOOD", "HYBRID", "IRON", "DIRON", "WEDGE")
        led = scene.tokens[phrase.start - 1].lower if phrase.start else ""
        subject = word is None and phrase.has("ALL") and led in ("are", "were")
        if subject and self._enumerated(phrase.start - 1):
            return list(scene.clause_drafts)
        if subject and scene.last_end == phrase.start - 1:
            return [draft for draft in scene.focus if draft in drafts]  # "Woods are all on Ostrane 60 stiff"
        family = FAMILIES[word.terminal] if word else None
        count = int(phrase.amounts[0].value) if phrase.amounts else None
        both = any(token.value == "both" for token in phrase.tokens)
        if both and not family:
            count = 2
        pool = [draft for draft in drafts if family is None or draft.family == family]
        if family == "iron" and not count and not any(draft.in_range and draft.name for draft in pool):
            pool += [draft for draft in drafts if draft not in pool and self._of_the_irons(draft)]
        order = phrase.first("ORDINAL")
        if order is not None:
            return self._ordered(str(order.value), count, pool, family, phrase.end)
        if family is not None:
            if family == "wood" and word is not None and "fairway" not in word.lower and not count:
                pool = [draft for draft in drafts if draft.family in ("wood", "driver")]
            driven = [draft for draft in drafts if draft.family == "driver"] if family == "wood" else []
            if driven and count == len(pool) + len(driven):
                return driven + pool  # "All three woods" of a driver, a 3 wood and a 4 wood
            return pool[-count:] if count else pool
        named = phrase.first("NAMEDWEDGE")
        if named is not None:
            return [draft for draft in drafts if draft.name == named.value]
        behind = scene.tokens[phrase.end].lower if phrase.end < len(scene.tokens) else ""
        if count and count > 7 and behind == "clubs":
            return [
                draft for draft in drafts if len(drafts) == count or draft.family != "putter"
            ]  # "All thirteen clubs:"
        if count:
            if len(scene.focus) == count and all(draft in drafts for draft in scene.focus):
                return scene.focus
            run = self._run_about(drafts[-1])
            if len(run) == count:
                return run  # "5 through 7 are the Burr, 8 through PW the Stint. All six on Reed"
            last = [draft for draft in drafts if draft.family == drafts[-1].family]
            return last[-count:] if len(last) >= count else drafts[-count:]
        everything = any(token.lower in (*_THROUGHOUT, "everything", "every") for token in phrase.tokens)
        behind = scene.tokens[phrase.end].lower if phrase.end < len(scene.tokens) else ""
        everything = everything or (phrase.tokens[-1].lower == "all" and behind == "clubs")
        those = [token.terminal for token in phrase.tokens] == ["ALL", "THOSE"]
        opens = phrase.start == 0 or scene.tokens[phrase.start - 1].terminal in ("NEWLINE", "BULLET")
        those = those and opens and not self._of_changes(phrase)
        if those and not scene.source.spoken and len({line for draft in drafts for line in draft.lines}) > 3:
            return list(drafts)  # below a list of clubs, line by line: "All of those get the Cordwain"
        if "above" in phrase.tokens[0].lower.split():
            return [draft for draft in drafts if draft.family != "putter"]
        if everything:
            if scene.last_path[0].startswith("grip."):
                return list(drafts)
            if phrase.first("ALL") is not None and phrase.tokens[0].lower in (
                "throughout",
                "across the board",
                "all round",
                "all around",
            ):
                return self.recent()
            if self._of_bending(phrase):
                return self._bendable()
            return [draft for draft in drafts if draft.family != "putter"]
        others = [draft for draft in scene.clause_drafts if draft not in scene.focus]
        if resting and others and len(others) < len(scene.clause_drafts):
            return others
        if resting and drafts[-1].family == "putter" and self._flexed(phrase):
            return self.lacking("shaft")  # "The woods have the Reed 60 S, everything else the Osier 100 S"
        if resting:
            return self._others_of_the_kind(led)
        behind_in = led == "in" and len(scene.focus) == 1 and not scene.clause_drafts
        if any(token.lower == "each" for token in phrase.tokens) and not behind_in:
            if len(scene.focus) == 1 and len(kin := self._kin(scene.clause_drafts)) > 1 and scene.focus[0] in kin:
                return kin  # "a driver of 43 inches and a 3 wood of 42, each D0"
            return scene.focus if scene.focus and scene.focus[0] in drafts else []
        recent = self.recent()
        if phrase.tokens[0].lower.startswith("every one") and len(recent) == 2:
            return self._run_about(recent[-1])  # of two clubs one says "both"
        if phrase.tokens[0].lower in ("all", "all of") and len(recent) == 1 and len(drafts) > 1:
            return [draft for draft in drafts if draft.family != "putter"]
        if phrase.tokens[0].lower in _EVERY_ONE and not scene.clause_drafts and recent:
            run = self._run_of(recent[-1])
            scene.widened = [draft for draft in run if draft not in recent]
            return scene.widened + recent
        kin = self._kin(recent) if recent and phrase.has("THOSE") and not phrase.has("ALL") else []
        if len(scene.focus) > 1 and kin and all(draft in kin for draft in scene.focus):
            return kin  # "irons …, wedges 52, 56. Reed in those": the wedges
        run = self._run_about(recent[-1]) if recent and phrase.has("ALL") and self._part_told(phrase) == "shaft" else []
        bare = not any(draft.has("shaft.name") for draft in run)
        return run if bare and len(run) > len(recent) and all(draft in run for draft in recent) else recent

    def _enumerated(self, end: int) -> bool:
        """True for "The driver (14°), the 5 hybrid (26°) and the irons (6, 8 and PW) are all …": one subject of many.

        `end` is the place of its verb.
        """
        scene, tokens = self.scene, self.scene.tokens
        at, joined, inside = scene.clause_opening(end), False, False
        while at < end:
            token = tokens[at]
            inside = (inside or token.terminal == "LPAR") and token.terminal != "RPAR"
            phrase = None if inside else phrase_at(tokens, at)
            if phrase is not None and phrase.rule not in CLUB_RULES:
                return False
            if phrase is None and not inside and token.terminal not in ("SILENT", "COMMA", "AND", "RPAR"):
                return False
            joined = joined or (not inside and token.terminal == "AND")
            at = at + 1 if phrase is None else phrase.end
        heads = any("head.name" in draft.facts for draft in scene.clause_drafts)
        return joined and not heads and any(draft not in scene.focus for draft in scene.clause_drafts)

    def _others_of_the_kind(self, led: str) -> list[Draft]:
        """ "The 60 has the T sole, the others the S": the run of clubs like the one just named, without it.

        `led` is the word before: "the same as the rest" points at them and tells nothing of them.
        """
        scene = self.scene
        named = [draft for draft in scene.focus if draft in scene.clause_drafts and led not in _POINTING]
        kin = self._run_about(named[-1]) if named else []
        others = [draft for draft in kin if draft not in named]
        if not others:
            others = [draft for draft in scene.drafts if draft.family == scene.drafts[-1].family]
            return [draft for draft in others if not draft.has("shaft.name")]
        return [draft for draft in others if not draft.has("shaft.name")] or others

    def _run_about(self, one: Draft) -> list[Draft]:
        """The unbroken run of clubs of one sort that this one stands in."""
        drafts, sort = self.scene.drafts, self._sort(one)
        end = drafts.index(one) if one in drafts else len(drafts)
        while end + 1 < len(drafts) and self._sort(drafts[end + 1]) == sort:
            end += 1
        return self._run_of(drafts[end]) if end < len(drafts) else []

    def _part_told(self, phrase: Phrase) -> str:
        """ "grip" or "shaft" where the sentence around a group of the rest speaks of such."""
        start = self.scene.clause_opening(phrase.start)
        said = {token.terminal for token in self.scene.tokens[start : self.scene.clause_end(phrase.end)]}
        if {"GRIPWORD", "WRAP"} & said:
            return "grip"
        return "shaft" if "SHAFTWORD" in said or self.scene.shaft_line else ""

    def _flexed(self, phrase: Phrase) -> bool:
        """True where a flex is told behind a group in its clause."""
        told = self.scene.tokens[phrase.end : self.scene.clause_end(phrase.end)]
        return any(token.terminal in ("FLEX", "FLEXCODE") for token in told)

    def lacking(self, part: str) -> list[Draft]:
        """The clubs of the set that have no such part yet."""
        return [
            draft
            for draft in self.scene.drafts
            if not draft.has(f"{part}.name") and not (part == "shaft" and draft.family == "putter")
        ]

    def unshafted(self) -> list[Draft]:
        """The clubs of "PW is a 46, and there's a 50 and a 54. Same shaft": all that the last sentence told of."""
        focus, before = self.scene.focus, self.scene.before_drafts
        alike = bool(before) and len(self._kin(before)) == len(before) and not self.scene.clause_drafts
        told = (
            alike and all(draft in before for draft in focus) and not any(draft.has("shaft.name") for draft in before)
        )
        return list(before) if told and focus else focus

    def _of_bending(self, phrase: Phrase) -> bool:
        """True for "everything is a degree flat": what only a bend does."""
        tokens, end = self.scene.tokens, self.scene.clause_end(phrase.end)
        for token in tokens[phrase.end : min(end, phrase.end + 6)]:
            if token.terminal in ("FLAT", "UPRIGHT", "WEAK", "STRONG"):
                return True
            if token.kind == "mark":
                return False
        return False

    def _of_changes(self, phrase: Phrase) -> bool:
        """True for "all of those are +½ and 2 up": lengths and lies are changed of the clubs just told of."""
        tokens = self.scene.tokens[phrase.end : phrase.end + 6]
        return any(token.terminal in ("SNUM", "UP", "DOWN", "LONG", "SHORT", "FLAT", "UPRIGHT") for token in tokens)

    def _bendable(self) -> list[Draft]:
        """The irons and wedges of the line when it speaks of such alone, else those of the set."""
        told = self.scene.line_drafts
        among = told if told and all(draft.family in ("iron", "wedge") for draft in told) else self.scene.drafts
        return [draft for draft in among if draft.family in ("iron", "wedge")]

    def _kin(self, drafts: list[Draft]) -> list[Draft]:
        """Those of the clubs that are of the last one's sort: woods and hybrids, irons, wedges, putters."""
        return [draft for draft in drafts if self._sort(draft) == self._sort(drafts[-1])]

    def _sort(self, draft: Draft) -> str:
        if draft.name in ("pitching wedge", "gap wedge"):
            model = draft.facts.get("head.name")
            irons = [iron.facts for iron in self.scene.drafts if iron.number and iron.family == "iron"]
            models = {facts["head.name"].value for facts in irons if "head.name" in facts}
            if model is None or model.value in models:
                return "iron"
        return {"driver": "wood", "hybrid": "wood"}.get(draft.family, draft.family)

    def _of_the_irons(self, draft: Draft, names: tuple[str, ...] = ("pitching wedge", "gap wedge")) -> bool:
        """True for a pitching or gap wedge of the irons' own model, or in the rows below their heading."""
        header = draft.header if not self.scene.source.spoken else None
        headed = header is not None and header.family == "iron" and header.lines.isdisjoint(draft.lines)
        own = headed or "head.name" in draft.facts
        return own and draft.name in names and self._sort(draft) == "iron"

    def _run_of(self, last: Draft) -> list[Draft]:
        """The unbroken run of clubs of one sort that ends with this one, in the order they were named."""
        run: list[Draft] = []
        drafts = self.scene.drafts
        for draft in reversed(drafts[: drafts.index(last) + 1] if last in drafts else []):
            if self._sort(draft) != self._sort(last):
                break
            run.append(draft)
        return list(reversed(run))

    def recent(self) -> list[Draft]:
        """The clubs just spoken of: those of this clause, else the focus, else the run of one family at the end."""
        scene = self.scene
        if len(wedges := self._wedges_at_the_end()) > 1:
            return wedges
        if len(bare := self._bare_at_the_end()) > 1:
            return bare
        if len(scene.clause_drafts) > 1:
            kin = self._kin(scene.clause_drafts)
            if len(kin) > 1:
                return scene.focus if scene.grouped and all(draft in scene.focus for draft in kin) else kin
        if len(scene.before_drafts) > 1 and all(draft in scene.before_drafts for draft in scene.focus):
            kin = self._kin(scene.before_drafts) if scene.source.spoken else []
            others = {draft.family for draft in scene.before_drafts if draft not in kin}
            # who speaks makes no sentences: "driver Gannet … irons four to nine Plover … Reed in all of those"
            return kin if len(kin) > 1 and kin[-1].family not in others else list(scene.before_drafts)
        if len(scene.focus) > 1:
            return scene.focus
        drafts = scene.drafts
        kind = self._sort(drafts[-1])
        recent: list[Draft] = []
        for draft in reversed(drafts):
            if self._sort(draft) != kind or (recent and draft.has("shaft.name") and not recent[0].has("shaft.name")):
                break
            recent.append(draft)
        return list(reversed(recent))

    def _wedges_at_the_end(self) -> list[Draft]:
        """The wedges without a model that the clause named last: "PW 47, GW 52.08, LW 58.10 all Samphire"."""
        run: list[Draft] = []
        for draft in reversed(self.scene.clause_drafts):
            if draft.family != "wedge" or draft.has("head.name") or not draft.has("head.loft"):
                break
            run.append(draft)
        return list(reversed(run))

    def _bare_at_the_end(self) -> list[Draft]:
        """The hybrids of "driver Gannet nine degrees then a five hybrid and a six hybrid those are …": nothing told."""
        named = self.scene.clause_drafts
        run = [draft for draft in named if draft.family == named[-1].family and not draft.facts]
        told = [draft for draft in named if draft.facts]
        return run if told and named == told + run else []

    def _ordered(self, which: str, count: int | None, pool: list[Draft], family: str | None, end: int) -> list[Draft]:
        scene = self.scene
        if which in ("first", "last", "middle"):
            if count is None and scene.tokens[end - 1].lower in ("latter", "former"):
                named = scene.clause_drafts or scene.before_drafts
                return named[:1] if which == "first" else named[-1:]
            if count is None:
                while end < len(scene.tokens) - 1 and scene.tokens[end].lower in _SAID_BETWEEN:
                    end += 1
                after = scene.tokens[end] if end < len(scene.tokens) else None
                told = after is not None and (after.terminal in ("BENT", "NUM", "TURNED") or after.lower == "one")
                if not told:
                    return []
                count = 1
            pool = pool if family else [draft for draft in pool if draft.family == pool[-1].family]
            if which == "middle":
                return pool[len(pool) // 2 :][:1] if len(pool) % 2 else []
            return pool[:count] if which == "first" else pool[-count:]
        kin = self._kin(self.recent())
        if count and family is None and which in ("low", "short") and kin and kin[-1].family != "wedge":
            return kin[:count] if which == "low" else kin[-count:]  # "the longest three", in the order of the list
        wedges = [draft for draft in pool if draft.family == "wedge" and draft.has("head.loft")]
        if family == "iron" or not wedges or (scene.focus and scene.focus[-1].family == "iron" and which != "high"):
            return []
        wedges.sort(key=lambda draft: draft.value("head.loft") or 0)
        count = count or 1
        return wedges[-count:] if which in ("high", "short") else wedges[:count]
