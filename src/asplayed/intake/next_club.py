"""Whether a name is the model of a club that is only named behind it."""

from __future__ import annotations

from asplayed.intake.ahead import flexed, shaft_ahead, weighed_apart
from asplayed.intake.drafts import Draft
from asplayed.intake.known import Known
from asplayed.intake.model_numbers import model_number
from asplayed.intake.names import NameRun
from asplayed.intake.phrases import phrase_at, wedge_loft
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

_SEVERAL = {"wood": (12, 30), "hybrid": (14, 36), "diron": (14, 30)}  # lofts of clubs that a heading has several of

_BEHIND_A_CLUB = ("EQ", "SILENT", "NEWLINE", "COMMA")
_PLUS = ("and", "plus", "&")
_BESIDES = {*_PLUS, "also", "then", "have", "is", "there's", "i've", "got", "has", "he's", "she's", "carry", "carries"}
_DESCRIBING = {"NECK", "FACEBALANCED", "WORD", "NUM", "DEG", "INCH", "COLOUR", "SILENT", "HYPHEN", "NECKWORD"}


def lofts_under(scene: Scene, header: Draft | None) -> tuple[float, float]:
    """The lofts that clubs under a heading can have; "woods" may open with the driver."""
    if header is None:
        return (1, 0)
    low, high = _SEVERAL.get(header.family, (1, 0))
    driver = any(draft.family == "driver" for draft in scene.drafts)
    return (7 if header.word == "woods" and not driver else low, high)


def _lofted(tokens: list[Token], at: int, low: float, high: float) -> bool:
    """True when a loft between these stands at `at`, and neither a mass nor a length."""
    value = tokens[at].value if at < len(tokens) and tokens[at].terminal == "NUM" else None
    after = tokens[at + 1].terminal if at + 1 < len(tokens) else "NEWLINE"
    return isinstance(value, float) and low <= value <= high and after not in ("FLEX", "FLEXCODE", "GRAM", "INCH")


class NextClub:
    """Looks behind a name for the next club of a heading, a row or a run of wedges."""

    def __init__(self, scene: Scene, known: Known) -> None:
        self.known = known
        self.scene = scene

    def _numbered_next(self, run: NameRun) -> bool:
        """True under a header for "Arden 3 (19)": the model of a club whose number and loft come next."""
        scene, tokens = self.scene, self.scene.tokens
        header = scene.header
        if header is None or header.family not in ("hybrid", "wood") or run.end + 1 >= len(tokens):
            return False
        number, after = tokens[run.end], tokens[run.end + 1]
        small = number.terminal == "NUM" and number.text.isdigit() and int(number.text) <= 11
        return small and after.terminal == "LPAR" and not model_number(self.scene, self.known, run.start, run.end)

    def _one_of_several(self, run: NameRun) -> bool:
        """True for each of "two fairways: Gannet 15, Dunlin 18": a model and a loft for every club of the heading."""
        scene, tokens = self.scene, self.scene.tokens
        header = scene.header
        low, high = lofts_under(scene, header)
        if header is None or not header.word.endswith("s") or not _lofted(tokens, run.end, low, high):
            return False
        member = bool(scene.focus) and scene.focus[-1].header is header and scene.focus[-1].has("head.loft")
        if member:
            return "head.name" in scene.focus[-1].facts and "head.name" not in header.facts
        if scene.line_start(run.start) and scene.focus == [header] and not header.facts:
            return True  # "fairway woods", and below it a line for each: "Gannet 15, Burr 60 S"
        end = scene.clause_end(run.end)
        onward = any(
            tokens[at].terminal in ("COMMA", "AND", "SLASH")
            and tokens[at + 1].terminal == "WORD"
            and tokens[at + 1].text[:1].isupper()
            and any(_lofted(tokens, name, low, high) for name in range(at + 2, min(at + 5, end)))
            for at in range(run.end, end - 1)
        )
        return scene.focus == [header] and not header.facts and onward

    def _first_of_club(self, run: NameRun) -> bool:
        """True for the first name behind "Driver:" with its loft, though the maker's shafts are called so too.

        So too behind "Putter", though its grip is of the same maker: "Putter is the Stint Round, … Stint Plump grip".
        """
        scene, focus = self.scene, self.scene.focus[-1]
        label = run.start > 0 and scene.tokens[run.start - 1].text == ":" and scene.last_end == run.start - 1
        between = scene.tokens[scene.last_end : run.start] if 0 <= scene.last_end <= run.start else []
        right_behind = bool(between) and all(token.terminal in _BEHIND_A_CLUB for token in between)
        gripped = run.end < len(scene.tokens) and scene.tokens[run.end].terminal == "GRIPWORD"
        label = label or (focus.family == "putter" and right_behind and not gripped)
        if not label or focus.facts or focus.has("head.name") or scene.table is not None:
            return False
        flexing = shaft_ahead(scene, run.end, focus) or weighed_apart(scene, run.end) or flexed(scene, run.end)
        return run.text.casefold() in self.known.heads or not flexing

    def _another_of_it(self, run: NameRun) -> bool:
        """True for "wedges Crake 46 and 52, and a Crake 58": the model again, with the loft of another wedge."""
        scene = self.scene
        told = {str(entry.value).casefold() for draft in scene.focus if (entry := draft.said("head.name")) is not None}
        at = run.end + (run.end < len(scene.tokens) and scene.tokens[run.end].lower == "at")
        phrase = phrase_at(scene.tokens, at) if at < len(scene.tokens) else None
        wedges = bool(scene.focus) and all(draft.family == "wedge" for draft in scene.focus)
        if not wedges or told != {run.text.casefold()} or phrase is None or phrase.rule != "bare":
            return False
        loft, known = phrase.amounts[0].value, [draft.value("head.loft") for draft in scene.focus]
        if scene.table is not None or not wedge_loft(loft) or None in known or loft in known:
            return False
        scene.wedge_waits = True
        return True

    def _one_besides(self, run: NameRun) -> bool:
        """True for "also a Toadflax of 60 degrees" behind a sand wedge: another club of its family, by its loft."""
        scene, tokens = self.scene, self.scene.tokens
        led = [token.lower for token in tokens[max(0, run.start - 2) : run.start]]
        if len(led) < 2 or led[0] not in _BESIDES or led[1] not in ("a", "an", "another") or not scene.focus:
            return False
        last = scene.focus[-1]
        low, high = (44, 66) if last.family == "wedge" else _SEVERAL.get(last.family, (1, 0))
        at = run.end + (tokens[run.end].lower in ("of", "at", "in", ",")) if run.end < len(tokens) else run.end
        phrase = phrase_at(tokens, at) if at < len(tokens) else None
        amount = phrase.amounts[0] if phrase is not None and phrase.rule == "bare" else None
        lofty = amount is not None and amount.unit == "deg" and low <= amount.value <= high
        told = last in scene.drafts and last.has("head.name") and last.has("head.loft")
        if amount is None or not (lofty and told) or scene.table is not None or self._told(amount.value):
            return False
        scene.wedge_waits = True
        return True

    def _wedge_next(self, run: NameRun) -> bool:
        """True under "Wedges: Crake 52°, 56°;" for "Ruff 60°": another model with the loft of another wedge."""
        scene, tokens = self.scene, self.scene.tokens
        header = scene.header
        if self._wedges_in_bracket(run) or self._label_again(run):
            return True
        phrase = phrase_at(tokens, run.end) if run.end < len(tokens) else None
        if scene.table is not None or phrase is None or (phrase.amounts and phrase.amounts[0].unit not in ("", "deg")):
            return False
        if phrase.rule == "bare" and self._wedge_behind_irons(run, phrase.end, phrase.amounts[0].value):
            return True
        if not scene.line_start(run.start):
            return self._wedge_in_row(run, phrase.rule, phrase.end, phrase.amounts[0].value if phrase.amounts else 0.0)
        if phrase.rule == "bare" and phrase.end < len(tokens) and tokens[phrase.end].terminal == "NUM":
            first, second = phrase.amounts[0].value, tokens[phrase.end].value  # "Crake 50 54 58"
            if isinstance(second, float) and wedge_loft(first) and wedge_loft(second) and first < second:
                return True
        irons = self._complete() and all(draft.family in ("iron", "wedge") for draft in scene.focus)
        headed = header is not None and header.family == "wedge" and bool(scene.focus)
        if not headed and not (irons and phrase.rule == "amounts"):
            return False  # "knot irons … burr shafts", and below it "crake fifty two and fifty eight"
        if phrase.rule not in ("bare", "amounts", "code") or flexed(self.scene, phrase.end):
            return False
        lofts = [amount for amount in phrase.amounts if amount.unit in ("", "deg") and wedge_loft(amount.value)]
        return phrase.rule == "code" or (bool(lofts) and not self._told(lofts[0].value))

    def _in_apposition(self, run: NameRun) -> bool:
        """True for "the Stint Two, a long-neck putter of 34 inches": what the model is stands behind a comma."""
        scene, tokens = self.scene, self.scene.tokens
        led = scene.line_start(run.start) or (run.start > 1 and tokens[run.start - 2].terminal == "AND")
        if not led or run.end + 2 >= len(tokens) or tokens[run.end].text != ",":
            return False
        if tokens[run.end + 1].lower not in ("a", "an", "my", "his", "her"):
            return False
        at, end = run.end + 2, scene.clause_end(run.end)
        while at < min(end, run.end + 7) and tokens[at].terminal in _DESCRIBING and not tokens[at].text[:1].isupper():
            at += 1
        club = phrase_at(tokens, at) if at < end else None
        if club is None or club.rule not in ("club", "named"):
            return False
        return not any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[club.end : end])

    def _told(self, loft: object) -> bool:
        """True when a club of this loft has been told of."""
        return any(draft.value("head.loft") == loft for draft in self.scene.drafts)

    def _complete(self) -> bool:
        """True when the clubs in focus have their heads and their shafts."""
        focus = self.scene.focus
        return bool(focus) and all(draft.has("head.name") and draft.has("shaft.name") for draft in focus)

    def _wedge_behind_irons(self, run: NameRun, end: int, loft: float) -> bool:
        """True for "then I've got a Sorrelwort fifty": behind irons that have their shafts, no mass of theirs."""
        scene, tokens = self.scene, self.scene.tokens
        led = tokens[run.start - 1].lower if run.start else ""
        behind = tokens[end].terminal if end < len(tokens) else "NEWLINE"
        told = [draft for draft in scene.focus if draft.family in ("iron", "wedge")]
        complete = told == scene.focus and self._complete()
        known = self._told(loft)
        pointed = led in ("a", "an") and not (run.start > 1 and tokens[run.start - 2].terminal in ("WITH", "IN"))
        if not (complete and pointed and wedge_loft(loft)) or known or behind in ("FLEX", "FLEXCODE", "GRAM", "INCH"):
            return False
        scene.wedge_waits = self.known.role(tokens[run.start].text) not in ("shaft", "grip")
        return scene.wedge_waits

    def _label_again(self, run: NameRun) -> bool:
        """True for the second of "WG: Dunlark 50", "WG: Dunlark 56": the label again, for another wedge."""
        scene, tokens = self.scene, self.scene.tokens
        if not scene.focus or any(draft.family != "wedge" or not draft.has("head.name") for draft in scene.focus):
            return False
        value = tokens[run.end].value if run.end < len(tokens) else None
        labelled = run.start > 1 and tokens[run.start - 1].text == ":" and tokens[run.start - 2].terminal == "WEDGE"
        if run.end + 1 < len(tokens) and tokens[run.end + 1].terminal in ("GRAM", "INCH", "FLEX", "FLEXCODE"):
            return False
        return labelled and isinstance(value, float) and wedge_loft(value) and not self._told(value)

    def _wedges_in_bracket(self, run: NameRun) -> bool:
        """True for the second of "Burnet (46-10, 52-12), Burnet Raw (60-06)": a bracket of stamps that none has yet."""
        scene, tokens = self.scene, self.scene.tokens
        bracketed = run.end < len(tokens) and tokens[run.end].terminal == "LPAR"
        wedges = bool(scene.focus) and all(draft.family == "wedge" and draft.has("head.loft") for draft in scene.focus)
        if not (bracketed and wedges) or scene.shaft_line or scene.focus[-1] not in scene.drafts:
            return False
        first = phrase_at(tokens, run.end + 1)
        if first is None or first.rule not in ("code", "dashed", "bare", "amounts"):
            return False
        token = first.tokens[0]
        loft = token.value[0] if isinstance(token.value, tuple) else token.value
        stamped = isinstance(loft, float | int) and wedge_loft(float(loft))
        return stamped and not self._told(loft)

    def _wedge_in_row(self, run: NameRun, rule: str, end: int, loft: float) -> bool:
        """True for the "Smew 56" of "Pipit 7-AW with Hornby 75 R, Smew 56 and Ruddock putter"."""
        scene, tokens = self.scene, self.scene.tokens
        bounced = any(each.terminal == "BOUNCE" for each in tokens[end : min(end + 4, scene.clause_end(run.start))])
        one = run.start > 1 and tokens[run.start - 1].lower in ("a", "an") and tokens[run.start - 2].lower in _PLUS
        article = one or (bounced and run.start and tokens[run.start - 1].lower in ("a", "an", "my"))
        opens = run.start - bool(article)
        before = tokens[opens - 1].terminal if opens else "NEWLINE"
        behind = tokens[end].terminal if end < len(tokens) else "NEWLINE"
        closed = behind in ("COMMA", "STOP", "NEWLINE", "AND", "NAMEDWEDGE", "RPAR", "WITH")
        if (
            rule != "bare"
            or not (one or before in ("COMMA", "AND"))
            or not closed
            or not 46 <= loft <= 64
            or not wedge_loft(loft)
        ):
            return False
        listed = bounced or one or (scene.header is not None and scene.header.family == "wedge")
        # "and a Smew 56, 12 bounce", "Wedges: Pipit 46, Smew 56"
        told = ("head.name", "head.loft") if listed else ("head.name", "shaft.name")
        if not scene.focus or not all(draft.has(path) for draft in scene.focus for path in told):
            return False
        if listed and self._told(loft):
            return False
        known = self.known.role(tokens[run.start].text)
        scene.wedge_waits = known not in ("shaft", "grip") and scene.focus[-1].family in ("iron", "wedge")
        return scene.wedge_waits
