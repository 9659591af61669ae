"""What clubs have in common: "same shaft as the 3 wood", and parts named once for a whole row of clubs."""

from __future__ import annotations

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.likened import Likeness, club_behind, likeness_at
from asplayed.intake.phrases import Phrase
from asplayed.intake.scene import LEAD
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token
from asplayed.intake.wedge_words import SET_WORDS

SHARED = (
    "head.name", "shaft.name", "shaft.flex", "shaft.mass", "shaft.mass_range", "shaft.ascending", "shaft.torque",
    "shaft.launch", "shaft.spin", "grip.name", "grip.mass", "grip.wraps", "stated.swing_weight",
)  # fmt: skip
_COPIES = {
    "SHAFTWORD": ("shaft.name", "shaft.flex", "shaft.mass", "shaft.torque", "shaft.launch", "shaft.spin"),
    "SHAFTAGAIN": ("shaft.flex", "shaft.mass", "shaft.torque", "shaft.launch", "shaft.spin"),
    "SHAFTMASS": ("shaft.mass",),
    "GRIPWORD": ("grip.name", "grip.mass", "grip.wraps"),
    "LENGTH": ("length", "length_change"),
    "FLEXWORD": ("shaft.flex",),
    "SWINGWEIGHT": ("stated.swing_weight",),
    "HEADWORD": ("head.name",),
    "LOFT": ("head.loft",),
    "LIE": ("as_played.lie", "bend.lie"),
}  # fmt: skip
_NAMING = ("WORD", "LETTER", "COLOUR")
_OTHERWISE = {"otherwise", "rest", "the rest"}  # "otherwise as the irons": in lie and length too
_SET_WEDGES = ("pitching wedge", "gap wedge")
_IN_ALL = (["in", "everything"], ["in", "all"], ["in", "every"])  # "matches the irons in everything"
_MAKES = {"make", "brand", "range", "series", "line", "lineup"}  # "a 5 wood from the same range"
_MATCHES = ("matches", "matching", "match")  # "the pitching wedge matches the irons"
_BUILT = {"just", "up", "exactly", "built", "made", "done", "finished"}  # "made up like the irons", "built as the 9"
_GOES = {"goes", "go", "comes", "came", "belongs", "belong"}
_JOINING = {"WITH", "RANGE", "IN", "SILENT"}
_LED = {"COMMA", "LPAR", "PIPE", "DASH", "SHAFTWORD", "GRIPWORD", "LENGTH", "FLEXWORD", "HEADWORD"}


class Sharing(Stride):
    """Copies parts from club to club where the words say so."""

    def _compared(self, phrase: Phrase) -> bool:
        """True when "as", "like" stand before the phrase: the club is only pointed at ("same shaft as the 3 wood")."""
        at = phrase.start - 1
        while at >= 0 and self.tokens[at].terminal in ("SILENT", "IN"):
            if self.tokens[at].lower in ("as", "like"):
                return True
            at -= 1
        return False

    def _only_pointed_at(self, phrase: Phrase) -> bool:
        """True for the irons of "Reed 90 regular like the irons, but the length is standard": the talk stays on."""
        scene = self.scene
        led = self.tokens[phrase.start - 2].lower if phrase.start > 1 else ""
        told = self.tokens[phrase.start - 1].lower in ("the", "my", "his", "her", "their") and led == "like"
        known = told and bool(scene.focus) and scene.focus[0] in scene.drafts and not scene.referring
        found = self.mentions.find(phrase) if known else []
        if not found or any(draft in scene.focus for draft in found) or scene.line_start(phrase.start - 2):
            return False
        self._claim(phrase, "club")
        return True

    def _same_alone(self, phrase: Phrase) -> bool:
        """False where "same" speaks of a thing that is no part of a club ("same make", "same idea")."""
        after = self.tokens[phrase.end] if phrase.end < len(self.tokens) else None
        if after is not None and self._as_before(phrase.end):
            return False
        if after is not None and after.lower in ("bag", "person", "player", "owner", "day"):
            return False  # "it belonged to the same bag"
        if after is not None and after.lower in ("one", "ones"):
            return False  # "Same one since I was sixteen": the club just asked about
        if phrase.tokens[0].lower == "likewise" and after is not None and after.lower in ("a", "an", "the"):
            return False  # "the 7 wood is likewise a Gannet": only the model is the same
        return after is None or after.terminal in (
            "COMMA",
            "SLASH",
            "STOP",
            "NEWLINE",
            "RPAR",
            "PIPE",
            "AND",
            "SILENT",
            "NUM",
            "IN",
            "AT",
        )

    def _same_cell(self) -> list[str]:
        """What "ditto" in a cell of a table stands for, by its column: of the shaft first all, then the flex."""
        if self.scene.table is None and self.scene.focus:
            of_zone = {"grip": "GRIPWORD", "shaft": "SHAFTWORD", "head": "HEADWORD"}  # "Grip: same" among a club's keys
            return [of_zone[self.zone]] if self.zone in of_zone else []
        if not self.scene.focus:
            return []
        shafted = self.scene.focus[-1].has("shaft.name") or any(noun == "SHAFTWORD" for _, noun, _ in self.scene.same)
        shaft = "FLEXWORD" if shafted else "SHAFTWORD"
        noun = {"head": "HEADWORD", "shaft": shaft, "grip": "GRIPWORD", "loft": "LOFT", "length": "LENGTH"}
        noun["swing"] = "SWINGWEIGHT"
        return [noun[self.scene.cell]] if self.scene.cell in noun else []

    def _as_before(self, at: int) -> bool:
        """True for "same length as before": as it was, which the list does not say."""
        tokens = self.tokens
        return (
            at + 1 < len(tokens)
            and tokens[at].lower == "as"
            and tokens[at + 1].lower in ("before", "ever", "always", "last", "previously", "usual", "my", "his", "her")
            and not (at + 2 < len(tokens) and tokens[at + 1].lower in ("my", "his", "her"))
        )

    def _of_the_set(self, phrase: Phrase) -> bool:
        """ "PW from the same set", "the matching PW": the wedge goes on where the irons end, and has their model."""
        tokens = self.tokens
        behind = tokens[phrase.end] if phrase.end < len(tokens) else None
        told = behind is not None and (behind.lower == "set" or behind.terminal == "IRON")
        if phrase.tokens[0].lower != "same" or not told or not self._join_the_set():
            return False
        self._claim_with_words(phrase, 1)
        return True

    def _goes_with_the_set(self, token: Token) -> bool:
        """ "The one that goes with the irons", "PW and gap from the set": a wedge of the irons' own model."""
        tokens, at = self.tokens, self.at + 1
        led, first = self.at - 1, max(0, self.at - LEAD)
        if token.lower not in _GOES and token.lower not in ("from", "of"):
            return False
        while led > first and tokens[led].lower in ("too", "also", "is", "are"):
            led -= 1
        wedge = token.lower in ("from", "of") and led >= 0 and tokens[led].terminal == "NAMEDWEDGE"
        if token.lower not in _GOES and not wedge:
            return False
        while at < len(tokens) and (tokens[at].lower in ("the", "his", "her", "my") or tokens[at].terminal in _JOINING):
            at += 1
        pointed = at < len(tokens) and (tokens[at].terminal in ("IRON", "THOSE") or tokens[at].lower == "set")
        if not pointed or (at == self.at + 1 and not wedge) or not self._join_the_set():
            return False
        at += at + 1 < len(tokens) and tokens[at + 1].terminal == "IRON"  # "it belongs to those irons"
        self.scene.take(self.at, at + 1)
        self.at = at + 1
        return True

    def _set_wedge(self, phrase: Phrase) -> None:
        """ "Set PW and set gap too", "the set's own gap wedge": the wedge just named is of the irons' own model."""
        before = phrase.start - 1
        before -= before > 0 and self.tokens[before].lower == "own"
        if phrase.rule == "named" and before >= 0 and self.tokens[before].lower in SET_WORDS:
            self._join_the_set()

    def _join_the_set(self) -> bool:
        """Let the wedges in focus go on where the irons end, with their model; False where there are none."""
        scene = self.scene
        wedges = [draft for draft in scene.focus if draft.name in _SET_WEDGES or draft.family == "wedge"]
        irons = [draft for draft in scene.drafts if draft.family == "iron" and draft not in wedges]
        models = [model for draft in irons if (model := draft.said("head.name")) is not None]
        if not wedges or not models:
            return False
        for draft in wedges:
            if draft.name in _SET_WEDGES:
                draft.family, draft.in_range = "iron", True
            draft.facts.setdefault("head.name", models[-1]._replace(group=1))
        return True

    def _same_spec(self, phrase: Phrase) -> bool:
        """ "PW, 46 degrees, same shaft, same spec": in all that was made of the clubs before it is like them."""
        scene = self.scene
        behind = [token.lower for token in self.tokens[phrase.end : phrase.end + 2]]
        joined = behind[:1] == ["and"]  # "same shaft and build"
        built = behind[joined:][:1] in (["spec"], ["specs"], ["build"], ["setup"])
        whole = behind in (["and", "everything"], ["and", "everything else"])  # "same head and everything as the irons"
        if not ((built and joined == (len(phrase.tokens) > 1)) or whole) or not scene.focus:
            return False
        scene.same.append((list(scene.focus), "SPEC", phrase))
        scene.referring = scene.referring or whole
        self._claim_with_words(phrase, 1 + (joined or whole))
        return True

    def _claim_with_words(self, phrase: Phrase, words: int) -> None:
        """Claim "same" and so many words behind it: "same make", "same head and everything"."""
        self._claim(phrase, "club")
        self.scene.take(self.at, self.at + words)
        self.at += words

    def _same_make(self, phrase: Phrase) -> bool:
        """ "A 5 wood and a 7 wood of the same make": the model of the clubs before, where theirs is not told."""
        scene = self.scene
        behind = self.tokens[phrase.end].lower if phrase.end < len(self.tokens) else ""
        bare = bool(scene.focus) and not any(draft.has("head.name") for draft in scene.focus)
        if behind not in _MAKES or self.zone == "shaft" or len(phrase.tokens) > 1 or not bare:
            return False
        scene.same.append((list(scene.focus), "HEADWORD", phrase))
        self._claim_with_words(phrase, 1)
        return True

    def _same_weight(self, phrase: Phrase) -> bool:
        """ "Reed in all three as well, same weight but in stiff": the mass of the shaft that another club has."""
        scene = self.scene
        behind = self.tokens[phrase.end].lower if phrase.end < len(self.tokens) else ""
        if behind != "weight" or len(phrase.tokens) > 1 or not scene.last_path[0].startswith("shaft."):
            return False
        scene.same.append((list(scene.focus), "SHAFTMASS", phrase))
        self._claim_with_words(phrase, 1)
        return True

    def _same_in(self, phrase: Phrase) -> bool:
        """True for the club of "same head in the three wood", which has what another club has."""
        between = self.tokens[self.scene.same[-1][2].end : phrase.start]
        silent = all(token.terminal in ("SILENT", "IN", "AT") for token in between)
        return silent and any(token.terminal == "IN" for token in between)

    def _likened(self, phrase: Phrase) -> bool:
        """ "5 wood: as 3 wood but 18", "shaft as irons": another club of the list lends what is not said here."""
        scene, tokens = self.scene, self.tokens
        at = phrase.start - 1
        while at >= 0 and (tokens[at].lower in ("the", "my", "his", "her") or tokens[at].terminal == "IN"):
            at -= 1
        if (
            at < 1
            or tokens[at].lower not in ("as", "like", *_MATCHES)
            or scene.referring
            or not scene.focus
            or scene.focus[0] not in scene.drafts
        ):
            return False
        led = tokens[at - 1]
        built = led.lower in _BUILT and tokens[at].lower in ("like", "as")
        if not built and led.lower in ("well", "such", "known", "same", "soon", "just"):
            return False
        lofted = led.terminal in ("NUM", "DEG") and phrase.end >= scene.clause_end(phrase.end)  # "SW 55 as irons"
        named = tokens[at].lower == "as" and (scene.last_end == at or lofted)  # "SW as the irons but 1/2 short"
        if not built and not (
            named or led.text == ":" or led.terminal in _LED or led.lower in _OTHERWISE or tokens[at].lower in _MATCHES
        ):
            return False
        found = [draft for draft in self.mentions.find(phrase) if draft not in scene.focus]
        if not found:
            return False
        told = tokens[at - 2] if led.text == ":" and at > 1 else led  # "grip: as driver"
        noun = told.terminal if told.terminal in _COPIES else ""
        scene.same.append((list(scene.focus), noun, phrase))
        scene.same_from = next((draft for draft in found if draft.in_range), found[0])
        self._claim(phrase, "club")
        return True

    def _parts_likened(self) -> bool:
        """ "Shaft, length and lie as the irons", "on the irons' shaft": each part is lent by the club pointed at."""
        scene = self.scene
        likeness = (likeness_at(self.tokens, self.at) or self._named_alike()) if not scene.referring else None
        targets = list(scene.focus) or ([scene.header] if scene.header is not None else [])
        found = self.mentions.find(likeness.club) if likeness is not None else []
        lenders = [draft for draft in found if draft not in targets]
        if likeness is None or not targets or not lenders:
            return False
        scene.same += [(targets, part, likeness.club) for part in likeness.parts]
        scene.same_from = next((draft for draft in lenders if draft.in_range), lenders[0])
        scene.take(self.at, likeness.end)
        self.at = likeness.end
        return True

    def _named_alike(self) -> Likeness | None:
        """ "Same Reed as the irons": the part by its name, and the club that is told to have it."""
        tokens, end = self.tokens, self.at + 1
        while end < len(tokens) and tokens[end].terminal in _NAMING and tokens[end].text[:1].isupper():
            end += 1
        named = tokens[self.at].terminal == "SAME" and self.at + 1 < end < len(tokens)
        if not named or tokens[end].lower not in ("as", "like"):
            return None
        name, club = self.scene.words(self.at + 1, end).casefold(), club_behind(tokens, end + 1)
        if club is None:
            return None
        for part in ("SHAFTWORD", "HEADWORD", "GRIPWORD"):
            told = [draft.said(_COPIES[part][0]) for draft in self.mentions.find(club)]
            if any(entry is not None and str(entry.value).casefold().startswith(name) for entry in told):
                return Likeness([part], club, club.end)
        return None

    def _reference(self, phrase: Phrase) -> bool:
        drafts = self.mentions.find(phrase)
        self._claim(phrase, "club")
        if drafts and self.scene.same:
            self.scene.same_from = next((draft for draft in drafts if draft.in_range), drafts[0])
        return True

    def _settle_same(self) -> None:
        scene = self.scene
        for targets, noun, _phrase in scene.same:
            for draft in targets or scene.focus:
                source = scene.same_from
                paths = _COPIES.get(noun)
                if noun == "WHOLE_SPEC":
                    paths = (*_COPIES["SHAFTWORD"], "head.name")
                if noun == "WHOLE":
                    own = draft.has("shaft.name")
                    paths = ("head.name", "grip.name", *(() if own else _COPIES["SHAFTWORD"]))
                elif paths is None:
                    shaft_only = draft.has("head.name") or draft.has("shaft.name")
                    paths = _COPIES["SHAFTWORD"] + (() if shaft_only else ("head.name", "grip.name"))
                whole = noun in ("SPEC", "WHOLE_SPEC") or (
                    noun in ("", "WHOLE") and draft.name in _SET_WEDGES and self._as_irons(_phrase)
                )
                if whole or (noun in ("", "WHOLE") and self._otherwise(_phrase)):
                    paths = (*paths, *_COPIES["GRIPWORD"], "bend.lie", "length_change", "stated.swing_weight")
                if source is None:
                    source = self._before(draft, paths, targets)
                if source is None or source is draft:
                    continue
                if noun == "SHAFTWORD" and scene.same_from is not None and not source.has("shaft.name"):
                    self._lend_back(draft, source)
                for path in paths:
                    entry = source.said(path)
                    if entry is not None and not draft.has(path) and not self._of_each(source, path):
                        draft.facts[path] = entry._replace(line=_phrase.line, why=entry.why, group=1)
                        draft.lines.add(_phrase.line)
        scene.same = []
        scene.same_from = None
        scene.referring = False

    def _of_each(self, source: Draft, path: str) -> bool:
        """True for a length or a lie that each iron of the lender's run has of its own: none is all the run's."""
        if path not in ("length", "as_played.lie", "head.loft") or not source.in_range:
            return False
        run = [draft.value(path) for draft in self.scene.drafts if draft.in_range and draft.family == source.family]
        return len(set(run)) > 1

    def _lend_back(self, draft: Draft, source: Draft) -> None:
        """ "It wears the same shaft as the driver, an Osier 50": what is told at last of both."""
        for path in _COPIES["SHAFTWORD"]:
            entry = draft.facts.get(path)
            if entry is not None and any(entry is put for _path, put in self.scene.clause_puts):
                source.facts[path] = entry._replace(group=1)
                source.lines.add(entry.line)

    def _as_irons(self, phrase: Phrase) -> bool:
        """True for "PW: as irons", "made up just like the 5-9", "built the same as the irons": built as they are."""
        led = {token.lower for token in self.tokens[max(0, phrase.start - 3) : phrase.start]}
        lender = self.scene.same_from
        if phrase.rule == "same" and (lender is None or lender.in_range):
            return bool(led & _BUILT)
        return phrase.rule in ("family", "span", "dashed") and bool(led & {"as", "like"})

    def _otherwise(self, phrase: Phrase) -> bool:
        """True for "otherwise same as the irons", "rest as the irons": all that is not said of the club itself."""
        before = self.tokens[max(0, phrase.start - 3) : phrase.start]
        behind = [token.lower for token in self.tokens[phrase.end : phrase.end + 2]]
        closing = [token.lower for token in self.tokens[phrase.end : self.scene.clause_end(phrase.end)][-2:]]
        in_all = behind in _IN_ALL or closing == ["in", "everything"]  # "the same as the irons in everything"
        return any(token.lower in _OTHERWISE for token in before) or in_all

    def _before(self, draft: Draft, paths: tuple[str, ...], targets: list[Draft]) -> Draft | None:
        drafts = self.scene.drafts
        irons = [other for other in drafts if other.family == "iron" and other.in_range and other not in targets]
        if draft.name in _SET_WEDGES and len(paths) > len(_COPIES["SHAFTWORD"]) and irons:
            return irons[-1]  # "the pitching wedge came with them and is the same in everything"
        end = drafts.index(draft) if draft in drafts else len(drafts)
        own = draft.said("shaft.name") if paths in (_COPIES["SHAFTAGAIN"], _COPIES["SHAFTMASS"]) else None
        if own is not None:  # "the same Reed", "Reed again": as where that name was told
            alike = (one for one in reversed(drafts[:end]) if one not in targets and self._so_named(one, own))
            return next(alike, None)
        for other in reversed(drafts[:end]):
            if other not in targets and any(other.has(path) for path in paths[:3]):
                return other
        return None

    def _so_named(self, draft: Draft, shaft: Entry) -> bool:
        """True for a club whose shaft has this name too."""
        told = draft.said("shaft.name")
        return told is not None and str(told.value).casefold() == str(shaft.value).casefold()

    def _share(self) -> None:
        """Several irons or wedges named in one clause: a part named once there belongs to all of them."""
        drafts = [draft for draft in self.scene.clause_drafts if draft.family not in ("driver", "putter")]
        irons = any(draft.family == "iron" for draft in drafts)

        def sort(draft: Draft) -> str:
            if draft.name == "chipper":
                return "chipper"
            own = irons and draft.name in ("pitching wedge", "gap wedge") and "head.name" not in draft.facts
            return "iron" if own else draft.family

        runs: list[list[Draft]] = []
        for draft in drafts:
            if not runs or sort(runs[-1][-1]) != sort(draft):
                runs.append([])
            runs[-1].append(draft)
        for run in runs:
            named = run[0].facts.get("head.name")
            own = named is not None and not named.group
            bare = all(
                entry.group or (own and path == "head.loft") for draft in run[1:] for path, entry in draft.facts.items()
            )  # "Gannet 3 wood 15, Dunlin 4 hybrid 22 and 5 hybrid 25": of the last nothing but its stamp is told
            if len(run) > 1 and (len(runs) == 1 or (bare and run[0].family in ("wood", "hybrid"))):
                self._share_run(run, alone=len(runs) == 1)

    def _share_run(self, drafts: list[Draft], *, alone: bool) -> None:
        """Share parts within a run of clubs of one sort; in a mixed clause only the model named before them all."""
        told = [path for path, _entry in self.scene.clause_puts]
        shaft = next((at for at, path in enumerate(told) if path.startswith("shaft.")), len(told))
        if drafts[0].header is not None and all(draft.has("head.bounce") for draft in drafts):
            shaft = min(shaft, max(at for at, path in enumerate(("", *told)) if path in ("", "head.bounce")))
            # "Wedges: Crake 51° (8° bounce), 55° (12° bounce), 35¼": behind the last bounce it is of them all
        wedges = all(draft.family == "wedge" for draft in drafts)  # of one length and lie, as no irons are
        alike = ("length_change", "bend.lie", *(("length", "as_played.lie") if wedges else ()))
        behind = tuple(path for path in alike if path in told[shaft:])
        for path in (*SHARED, *behind) if alone else SHARED[:1]:
            holders = [draft for draft in drafts if path in draft.facts]
            values = {(draft.facts[path].value, draft.facts[path].low) for draft in holders}
            if len(values) != 1 or len(holders) == len(drafts):
                continue
            first, last = drafts[0], drafts[-1]
            own = any("head.name" in draft.facts and not draft.facts["head.name"].group for draft in drafts[1:])
            if path.startswith("shaft.") and path in first.facts and path not in last.facts and own:
                continue  # "PW, Gannet, the same shaft, and a sand wedge, the Burr"
            onward = path == "head.name" and drafts[0].family in ("wood", "hybrid")
            if (
                path in last.facts
                or (onward and path in first.facts)
                or (path in first.facts and drafts[0].family in ("wedge", "iron"))
            ):
                for draft in drafts:
                    if not draft.has(path):
                        draft.facts[path] = holders[0].facts[path]._replace(group=1)
                        draft.lines.add(holders[0].facts[path].line)
