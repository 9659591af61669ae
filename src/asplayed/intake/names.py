"""Names of parts and people: runs of words that the vocabulary does not know, and what they name."""

from __future__ import annotations

from functools import cache
from importlib import resources
from typing import NamedTuple

from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.known import Known
from asplayed.intake.phrases import FLEX_NUMBER, phrase_at
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

NAMING = ("club", "named", "span", "dashed", "amounts", "code", "family")
_MASS_CLUB = {"IRON", "HYBRID", "WEDGE", "WOOD", "DRIVER", "PUTTER", "DIRON"}


# Words of the trade that makers also end a model's name with ("Gannet Draw", "Oxbow Mid"), written with a capital.
TAILS = {"PLACE", "LEVEL", "FLAT", "LONG", "SHORT", "MINIDRIVER", "SOLE", "NECK", "ORDINAL", "SIZE", "UP", "STD"}


# Words of English that makers set behind a model's name: they name no shaft of their own.
SUFFIXES = {
    "lite",
    "light",
    "max",
    "pro",
    "tour",
    "plus",
    "forged",
    "ls",
    "hl",
    "mb",
    "cb",
    "fast",
    "hd",
    "xl",
    "hollow",
}


# What people do with clubs: a word behind a person's name.
VERBS = {
    "plays", "uses", "carries", "has", "swings", "games", "hits", "wants", "used", "played", "carried", "had", "gamed",
    "use", "play", "prefers", "likes", "putts", "came", "comes", "visited", "asked",
}  # fmt: skip


_ARTICLES = {
    "to",
    "about",
    "on",
    "from",
    "the",
    "a",
    "an",
    "my",
    "his",
    "her",
    "your",
    "their",
    "it",
    "them",
    "me",
    "us",
}


_MONTHS = {
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
}  # fmt: skip


class NameRun(NamedTuple):
    """A run of words that name something: its tokens, and the user's writing."""

    start: int
    end: int
    text: str
    line: int


@cache
def ordinary_words() -> frozenset[str]:
    """Plain English words that name no part (`data/ordinary_words.txt`)."""
    text = resources.files("asplayed.intake").joinpath("data/ordinary_words.txt").read_text(encoding="utf-8")
    return frozenset(" ".join(line for line in text.splitlines() if not line.startswith("#")).split())


class Runs:
    """Finds runs of words that name something."""

    def __init__(self, scene: Scene, known: Known) -> None:
        self.known = known
        self.scene = scene
        self.pending: NameRun | None = None
        self.pending_loft: Entry | None = None
        self.labelled: NameRun | None = None  # a model before a colon: that of every club of its clause
        self.waiting: Draft | None = None  # what was said of a shaft before its club was named
        self.last: tuple[str, NameRun, list[Draft]] | None = None
        capitals = [t for t in scene.tokens if t.terminal == "WORD" and t.text[:1].isupper()]
        inner = [
            t
            for t in capitals
            if t.start and scene.source.text[max(0, t.start - 2) : t.start].strip(" ") not in (".", "")
        ]
        self.cased = len(inner) > 1 or len(capitals) > 3

    def eligible(self, position: int) -> bool:
        """True when the word at `position` can be part of a name."""
        token = self.scene.tokens[position]
        if token.terminal != "WORD" or self.scene.claims[position]:
            return False
        if token.lower.endswith(("'d", "'ll", "'ve", "'re", "'m")):
            return False  # "I'd like …"
        word = token.lower.replace("'", "")
        if word in _MONTHS and position and self.scene.tokens[position - 1].lower in ("in", "since", "until", "last"):
            return False  # "she switched in May"
        if any(character.isdigit() for character in token.text):
            return True
        if word in ordinary_words():
            return token.text[:1].isupper() and not self._opens_sentence(position)
        if token.text[:1].isupper():
            return True
        article = position > 0 and self.scene.tokens[position - 1].lower in ("a", "an", "the")
        if len(word) > 5 and word.endswith(("ing", "ed", "ly")) and not article:
            return False
        return not self.cased or (self._terse(position) and self._joined_on(position))

    def _joined_on(self, position: int) -> bool:
        """True for a small word tied by a hyphen to a name ("hand-sewn Marlow")."""
        tokens = self.scene.tokens
        after = tokens[position + 1] if position + 1 < len(tokens) else None
        before = tokens[position - 1] if position else None
        return (after is not None and after.terminal == "HYPHEN") or (
            before is not None and before.terminal == "HYPHEN"
        )

    def _goes_on(self, position: int) -> bool:
        """True for a small word that goes on with a name in a list ("Norrby cord")."""
        token = self.scene.tokens[position]
        if self.scene.claims[position] or self.ordinary(position) or token.lower in VERBS or not self._terse(position):
            return False
        return not (len(token.lower) > 5 and token.lower.endswith(("ing", "ed", "ly")))

    def ordinary(self, position: int) -> bool:
        """True for a plain English word."""
        return self.scene.tokens[position].lower.replace("'", "") in ordinary_words()

    def prose(self, position: int) -> bool:
        """True where people talk in sentences rather than list."""
        return self.scene.source.spoken or not self._terse(position)

    def _opens_sentence(self, position: int) -> bool:
        return (
            self.scene.line_start(position)
            and self.scene.table is None
            and not self.scene.tokens[position].text.isupper()
        )

    def _terse(self, position: int) -> bool:
        """True on a line that is list rather than speech: few function words, no ordinary ones."""
        tokens = self.scene.tokens
        start, end = position, position
        while start > max(0, position - 40) and tokens[start - 1].terminal not in ("NEWLINE", "STOP"):
            start -= 1
        while end < min(len(tokens), position + 40) and tokens[end].terminal not in ("NEWLINE", "STOP"):
            end += 1
        words = [token for token in tokens[start:end] if token.kind == "word"]
        plain = sum(token.terminal == "SILENT" or token.lower in ordinary_words() for token in words) - 1
        return plain * 4 <= len(words)

    def run_at(self, position: int) -> NameRun | None:
        """The run of names that begins at `position`, or None."""
        tokens = self.scene.tokens
        first = tokens[position]
        if first.terminal == "WORD":
            if not self.eligible(position):
                return None
        elif not (
            (first.terminal in ("COLOUR", "LETTER") or (first.terminal in TAILS and self._proper(position)))
            and position + 1 < len(tokens)
            and first.text[:1].isupper()
            and self.eligible(position + 1)
        ):
            return None
        at = position + 1
        focus = self.scene.focus
        start_role = None if focus and not focus[-1].has("head.name") else self.known.role(first.text)
        while at < len(tokens) and (step := self._extends(position, at)):
            same_part = self.known.role(tokens[at].text) == self.known.role(first.text)  # "Tessary Corded"
            if self.known.splits(tokens[at].text, start_role) and not same_part and not self._person_heads(position):
                break
            at += step
        while at - 1 > position and tokens[at - 1].terminal in ("HYPHEN", "SILENT"):
            at -= 1
        at = self._before_shaft(position, at)
        behind = tokens[at].lower if at < len(tokens) else ""
        if at == position + 1 and behind in _ARTICLES and self.prose(position) and self._opens_sentence(position):
            return None  # "Order the 58 with the low bounce": a verb
        return NameRun(position, at, self.scene.words(position, at), first.line)

    def _person_heads(self, position: int) -> bool:
        """True for the "Milo" of a first line "Milo Strand, handicap 9": a person, though a shaft is a Strand too."""
        scene, tokens = self.scene, self.scene.tokens
        if scene.drafts or scene.headers or "player" in scene.facts or not scene.line_start(position):
            return False
        if scene.table is not None or scene.source.spoken or self.known.role(tokens[position].text) is not None:
            return False
        end = position
        while end < len(tokens) and tokens[end].terminal == "WORD" and tokens[end].text[:1].isupper():
            end += 1
        after = tokens[end].terminal if end < len(tokens) else "NEWLINE"
        closed = after in ("COMMA", "STOP", "NEWLINE", "DASH", "LPAR", "HAND", "PIPE", "SLASH")
        return closed and 2 <= end - position <= 3 and self.speaks_of_no_club(end)

    def speaks_of_no_club(self, at: int) -> bool:
        """True when the rest of the clause names no club and has no figure of one; a player's own figures may stand."""
        tokens, end = self.scene.tokens, self.scene.clause_end(at)
        while at < end:
            if tokens[at].terminal == "NOTE":  # "handicap 9"
                at += 1
                while at < end and tokens[at].terminal in ("EQ", "SILENT", "NUM"):
                    at += 1
                continue
            phrase = phrase_at(tokens, at)
            if phrase is not None and phrase.rule in NAMING and not phrase.has("IRON", "WEDGE", "WOOD"):
                return False
            noted = phrase is not None and phrase.end < len(tokens) and tokens[phrase.end].terminal == "NOTE"
            figured = phrase is not None and phrase.rule in ("bare", "span", "code", "amounts", "flex", "labelled")
            if figured and not noted:
                return False
            at = at + 1 if phrase is None else phrase.end
        return True

    def _proper(self, position: int) -> bool:
        """True for a capital word of the trade that begins a name of two words ("High Water 110 S")."""
        tokens = self.scene.tokens
        token, after = tokens[position], tokens[position + 1 : position + 2]
        written = not token.text.isupper() and " " not in token.text and not self._opens_sentence(position)
        return written and bool(after) and after[0].text[:1].isupper() and not after[0].glued

    def _before_shaft(self, start: int, end: int) -> int:
        """Where a run right behind its club ends when a mass or flex follows: its last word then names the shaft."""
        scene, tokens = self.scene, self.scene.tokens
        focus = scene.focus
        words = [at for at in range(start, end) if tokens[at].terminal == "WORD"]
        if (
            len(words) < 2
            or not focus
            or focus[-1].has("head.name")
            or (scene.chunk_opens(start) and tokens[start - 1].terminal != "RPAR")
        ):
            return end
        if scene.lead >= scene.chunk_start or scene.table is not None or not self._shaft_ahead(end, focus[-1]):
            return end
        if (
            self._names_next(NameRun(start, end, "", 0))
            or not self._flexed(end)
            or self.known.role(tokens[start].text) == "shaft"
        ):
            return end
        return end if tokens[words[-1]].lower in SUFFIXES else words[-1]

    def _extends(self, start: int, at: int) -> int:
        """How many tokens from `at` on belong to the run begun at `start`; 0 when it ends here."""
        tokens = self.scene.tokens
        token = tokens[at]
        if self.scene.claims[at]:
            return 0
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        short = token.terminal in ("DIRON", "HYBRID") and len(token.text) <= 3 and token.text.isupper()
        if short and self.scene.focus and not self.scene.line_start(start):
            return 1
        if token.terminal == "WORD" and token.lower in SUFFIXES and not self.cased and self._terse(at):
            return 1  # "plover pro"
        if token.terminal == "WORD":
            return 1 if self.eligible(at) or self._goes_on(at) else 0
        if token.terminal == "HYPHEN" and after is not None and after.terminal in ("WORD", "LETTER", "NUM"):
            return 2
        focus = self.scene.focus
        numberless = bool(focus) and focus[-1].family in ("hybrid", "diron") and focus[-1].number is None
        if token.text == "#" and after is not None and after.glued and after.kind == "number" and not numberless:
            return 2  # "Twite #7"
        if token.terminal == "MARK" and token.text in ("'", "’", "+", "#", "&") and token.glued:
            return 1
        if (
            token.terminal == "AND"
            and token.text == "&"
            and after is not None
            and after.terminal == "WORD"
            and after.text[:1].isupper()
        ):
            return 2
        if token.terminal == "COLOUR":
            return 1 if token.text[:1].isupper() or (after is not None and after.kind == "number") else 0
        written = token.text[:1].isupper() and not token.text.isupper() and " " not in token.text
        if token.terminal in TAILS and written and self._ends_name(at):
            return 1
        wanted = bool(self.scene.focus) and not self.scene.focus[-1].has("head.name")
        if (
            token.terminal == "SWV"
            and wanted
            and after is not None
            and after.terminal in ("LPAR", "NUM", "WORD", "PIPE")
        ):
            return 1
        if self.scene.cell == "head" and token.terminal in ("LETTER", "FLEXCODE") and token.text.isupper():
            return 1  # "Gannet X" in a column of models
        if token.terminal == "LETTER" and wanted and (self.scene.focus[-1].family != "wedge" or token.text == "W"):
            return 1  # the W of a wedge's model says "wedge"; no sole is called so
        if token.terminal == "LETTER" and after is not None and after.terminal == "HYPHEN":
            return 3
        if token.terminal == "LETTER":
            return 1 if after is not None and after.terminal in ("WORD", "NUM") and not self._wedge_code(at) else 0
        if (
            token.terminal in ("FLEXCODE", "FLEX", "PLACE", "LEVEL", "ORDINAL", "SOLE", "NECK")
            and token.text[:1].isupper()
        ):
            return (
                1 if after is not None and after.terminal == "WORD" and self.eligible(at + 1) and not after.glued else 0
            )
        if token.lower == "no" and after is not None and after.text == "." and at + 2 < len(tokens):
            return 3 if tokens[at + 2].kind == "number" and tokens[at + 2].value is not None else 0
        if token.terminal == "SILENT" and token.text == ".":
            return 0
        if token.terminal in ("NUM", "SNUM"):
            return self._number_inside(start, at, after)
        if token.terminal == "PUTTER" and wanted and token.lower in ("mallet", "blade") and written:
            return 1 if focus[-1].family == "putter" else 0  # "Stint Mallet"
        if token.terminal in _MASS_CLUB and after is not None:
            return self._club_word_inside(at, after)
        return 0

    def _ends_name(self, at: int) -> bool:
        """True when a capital word of the trade behind a name says nothing of its own there."""
        tokens = self.scene.tokens
        here = phrase_at(tokens, at)
        if here is not None and len(here.tokens) > 1 and not (here.rule == "weight" and not here.has("WEIGHT", "GRAM")):
            return self._grip_ahead(at)
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if tokens[at].terminal == "MINIDRIVER" and after is not None and after.terminal == "DRIVER":
            return False
        return after is None or after.terminal not in (
            "NECKWORD",
            "SOLEWORD",
            "LAUNCH",
            "SPIN",
            "WEIGHT",
            "TURNED",
            "LENGTH",
            "LIE",
        )

    def _wedge_code(self, at: int) -> bool:
        after = self.scene.tokens[at + 1]
        return after.kind == "number" and isinstance(after.value, float) and after.value > 20

    def _number_inside(self, start: int, at: int, after: Token | None) -> int:
        """A small number in a model's name ("Gannet 2", "Ostrane 3 Black")."""
        tokens = self.scene.tokens
        token = tokens[at]
        if token.sign or not isinstance(token.value, float) or token.kind != "number":
            return 0
        phrase = phrase_at(tokens, at)
        ranged = len(self.scene.focus) > 1 and not self.scene.focus[-1].has("head.name")
        if ranged and after is not None and after.terminal == "IRON" and after.lower.endswith("s"):
            return 1  # "5-PW Gannet 5 irons"
        two = token.value == 2 and after is not None and after.lower.startswith("fairway")
        if two and self.scene.words(start, at + 1).casefold() in self.known.heads:
            return 1  # "Grebe 2 fairway" beside a "Grebe 2 driver"
        whole = 2 <= token.value <= 6 and token.value == int(token.value) and "." not in token.text
        if whole and after is not None and after.terminal in ("DRIVER", "PUTTER", "MINIDRIVER"):
            return 1  # "kittiwake three driver": no driver has such a loft
        if phrase is not None and phrase.rule == "span" and self._model_before_range(at, phrase.end):
            return 1
        if phrase is None or phrase.rule != "bare" or phrase.end != at + 1:
            return 0
        if after is not None and after.terminal == "GRIPWORD":
            return 1
        if not token.text[0].isdigit() and token.text.islower() and self._spoken_number(start, at):
            return 1
        if not token.text[0].isdigit():
            return 1 if token.text[0].isupper() and not token.text.isupper() else 0
        between = after is not None and after.terminal == "WORD" and self.eligible(at + 1) and not after.glued
        small = token.value == int(token.value) and 1 <= token.value <= 9
        focus = self.scene.focus
        header = self.scene.header
        counted = header is not None and header.family in ("hybrid", "wood")
        if small and counted and after is not None and after.terminal == "LPAR" and not self.model_number(start, at):
            return 0
        unnumbered = bool(focus) and focus[-1].family in ("hybrid", "diron") and focus[-1].number is None
        # "Hybrid: Tern 4, 22°" where other clubs are plain Terns: the number is the club's
        plain = unnumbered and not between and self.scene.words(start, at).casefold() in self.known.heads
        if small and plain and not focus[-1].has("head.loft"):
            return 0
        if focus and focus[0].has("head.name") and FLEX_NUMBER.fullmatch(token.text):
            return 0
        if between and small and token.value >= 7 and self._loft_of_driver(at) and not self._lofted_apart(start, at):
            return 0  # "Driver Gannet 9 Alder 60 S"
        version = token.text.endswith(".0") and token.value < 7
        wanted = bool(focus) and not focus[-1].has("head.name") and focus[-1].family != "putter"
        if (
            (wanted or self.scene.line_start(start))
            and 160 < token.value < 900
            and token.text.isdigit()
            and not phrase.amounts[0].unit
        ):
            return 1  # "Plover 300": no figure of a club without a unit is of that size
        if not (small or version):
            return 1 if between and 100 <= token.value <= 999 and self.scene.focus == [] else 0
        if between or version:
            return 1
        if after is not None and after.glued and after.kind == "word" and after.terminal not in ("FLEX", "FLEXCODE"):
            return 1
        focus = self.scene.focus
        if self.scene.cell == "head":
            return 1
        family = focus[0].family if focus else ""
        loft_open = bool(focus) and not focus[0].has("head.loft")
        if family == "driver" and loft_open and token.value >= 7 and not self._lofted_apart(start, at):
            return 0
        if family == "putter" and loft_open and after is not None and after.terminal in ("DEG", "LOFT", "LIE", "INCH"):
            return 0
        return 1

    def _model_before_range(self, at: int, end: int) -> bool:
        """True for the 5 of "4 iron Gannet 5 thru PW": an iron, its model, and where the irons end."""
        tokens, focus = self.scene.tokens, self.scene.focus
        one = len(focus) == 1 and focus[0].family == "iron" and focus[0].number is not None
        if not one or focus[0].has("head.name") or focus[0] not in self.scene.clause_drafts:
            return False
        after = tokens[end] if end < len(tokens) else None
        closed = after is None or after.kind in ("mark", "newline")
        return closed and tokens[at + 1].terminal == "RANGE"

    def _spoken_number(self, start: int, at: int) -> bool:
        """True for "the Ousel three, eleven and a half": a small number said with the model, before a pause."""
        tokens = self.scene.tokens
        focus = self.scene.focus
        after = tokens[at + 1].terminal if at + 1 < len(tokens) else "NEWLINE"
        value = tokens[at].value
        small = isinstance(value, float) and 2 <= value <= 6 and value == int(value)
        wanted = len(focus) == 1 and not focus[0].has("head.name") and focus[0].family in ("driver", "putter", "wood")
        pointed = start > 0 and tokens[start - 1].lower in ("the", "a", "an") and tokens[at - 1].text[:1].isupper()
        onward = tokens[at + 2] if after == "COMMA" and at + 2 < len(tokens) else None
        lofted = onward is not None and isinstance(onward.value, float) and 7 <= onward.value <= 30
        pointed = pointed or (lofted and not self.cased and focus[0].family != "putter")  # "gannet two, ten and a half"
        return small and wanted and pointed and after in ("COMMA", "STOP", "NEWLINE", "BREAK", "FLEX")

    def model_number(self, start: int, at: int) -> bool:
        """True for the 4 of "Wigeon 4 (15°, 18°)": the bracket's several lofts are clubs of one model."""
        tokens = self.scene.tokens
        closing = at + 2
        while closing < len(tokens) and tokens[closing].terminal not in ("RPAR", "NEWLINE", "STOP"):
            closing += 1
        inside = [token for token in tokens[at + 2 : closing] if token.kind == "number"]
        return len(inside) > 1 or self.scene.words(start, at + 1).casefold() in self.known.heads

    def _lofted_apart(self, start: int, at: int) -> bool:
        """True in "head: Knot 9, loft: 10.5": name and loft each have a label of their own."""
        tokens = self.scene.tokens
        labelled = start > 1 and tokens[start - 1].terminal == "EQ" and tokens[start - 2].terminal == "HEADWORD"
        behind = [token for token in tokens[at + 1 : at + 5] if token.terminal not in ("COMMA", "NEWLINE", "STOP")]
        return labelled and [token.terminal for token in behind[:2]] == ["LOFT", "EQ"]

    def _loft_of_driver(self, at: int) -> bool:
        """True for a number behind a driver's name where no other number of the clause can be its loft."""
        scene, tokens = self.scene, self.scene.tokens
        focus = scene.focus
        if not focus or focus[-1].family != "driver" or focus[-1].has("head.loft") or focus[-1].has("head.name"):
            return False
        for token in tokens[at + 1 : scene.clause_end(at)]:
            if token.kind == "number" and isinstance(token.value, float) and 7 <= token.value <= 14 and not token.sign:
                return False
        return True

    def _club_word_inside(self, at: int, after: Token) -> int:
        """ "Ember Hybrid 95 X", "Strand Iron 60": a kind of club in a shaft's name, before a mass or a flex."""
        focus = self.scene.focus
        if not focus or (focus[0] not in self.scene.drafts and not focus[0].facts):
            return 0
        token = self.scene.tokens[at]
        if not (token.text[:1].isupper() or focus[0].has("head.name")) or token.lower.endswith("s"):
            return 0
        if self.scene.cell == "shaft" and after.terminal in ("PIPE", "NEWLINE"):
            return 1
        if after.terminal in ("FLEX", "FLEXCODE"):
            return 1
        if after.terminal == "NUM" and isinstance(after.value, float) and 40 <= after.value <= 150:
            behind = self.scene.tokens[at + 2] if at + 2 < len(self.scene.tokens) else None
            flexed = behind is not None and behind.terminal in ("FLEX", "FLEXCODE", "GRAM")
            return 1 if flexed or (after.value >= 66) else 0
        return 0

    def _grip_ahead(self, position: int) -> bool:
        tokens = self.scene.tokens
        at = position
        while at < len(tokens) and tokens[at].terminal in ("WITH", "SILENT", "COMMA"):
            at += 1
        wrapped = phrase_at(tokens, at) if at > position and at < len(tokens) else None
        if (
            wrapped is not None
            and wrapped.rule == "wraps"
            and self.scene.focus
            and self.scene.focus[0].has("shaft.name")
        ):
            return True  # "Norrby Cord with one extra wrap"
        for at in range(position, min(position + 4, len(tokens))):
            if tokens[at].terminal == "GRIPWORD":
                return True
            if tokens[at].terminal not in ("SILENT", "SIZE", "COLOUR", "NUM", "GRAM", *TAILS):
                return False
        return False

    def _shaft_ahead(self, position: int, draft: Draft) -> bool:
        """True when a mass, a flex or the word "shaft" follows the run."""
        tokens = self.scene.tokens
        at = position
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "HYPHEN"):
            at += 1
        if at >= len(tokens):
            return False
        token = tokens[at]
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if token.terminal == "SHAFTWORD":
            return not self._leads_in(at)
        if token.terminal in ("FLEX", "ASCENDING", "FLEXWORD"):
            return True
        if token.terminal == "FLEXCODE":
            return draft.family != "wedge" or not (after is not None and after.terminal == "SOLEWORD")
        if token.terminal == "NUM" and isinstance(token.value, float):
            if after is not None and after.terminal in ("GRAM", "FLEX", "FLEXCODE"):
                return 30 <= token.value <= 160
            if after is not None and after.terminal in ("DASH", "RANGE") and token.value >= 70:
                return True
            if after is not None and after.terminal in ("DEG", "INCH", "MM", "CM"):
                return False
            if 44 <= token.value <= 64 and draft.family == "wedge" and not draft.has("head.loft"):
                return False
            return token.value == int(token.value) and 50 <= token.value <= 150
        return False

    def _leads_in(self, at: int) -> bool:
        """True for a word "shaft" whose name stands behind it with a mass ("Dunlin shaft Thrift 100 S")."""
        tokens = self.scene.tokens
        if at + 1 >= len(tokens) or tokens[at].terminal != "SHAFTWORD" or tokens[at + 1].terminal != "WORD":
            return False
        end = at + 1
        while end < len(tokens) and tokens[end].terminal in ("WORD", "COLOUR"):
            end += 1
        value = tokens[end].value if end < len(tokens) and tokens[end].terminal == "NUM" else None
        return isinstance(value, float) and 38 <= value <= 150 and self.eligible(at + 1)

    def _flexed(self, position: int) -> bool:
        """True when a flex or the word "shaft" stands within three tokens."""
        return any(
            token.terminal in ("FLEX", "FLEXCODE", "FLEXWORD", "SHAFTWORD", "ASCENDING")
            for token in self.scene.tokens[position : position + 3]
        )

    def _names_next(self, run: NameRun) -> bool:
        """True when a club is named right behind the run: the run then is that club's head."""
        scene, tokens = self.scene, self.scene.tokens
        at = run.end
        if at < len(tokens) and tokens[at].terminal in ("IN", "BY") and not self.scene.table:
            club = at + 1
            while club < len(tokens) and tokens[club].terminal == "SILENT":
                club += 1
            phrase = phrase_at(tokens, club) if club < len(tokens) else None
            header = scene.header is not None and scene.header.family == "iron"
            one = phrase is not None and phrase.rule == "bare" and header and phrase.amounts[0].whole
            several = phrase is not None and phrase.rule in ("span", "amounts", "dashed")
            if phrase is not None and (several or one) and 1 <= phrase.amounts[0].value <= 9:
                return True  # "Siskin CBs in the four and five, Siskin MBs from six to nine"
        for _ in range(3):
            while at < len(tokens) and tokens[at].terminal in ("SILENT", "HYPHEN"):
                at += 1
            if at >= len(tokens):
                return False
            phrase = phrase_at(tokens, at)
            if phrase is None:
                return False
            if phrase.rule in NAMING:
                if phrase.rule in ("amounts", "dashed") and len(scene.focus) == len(phrase.amounts):
                    return any(draft.has("head.loft") for draft in scene.focus)
                if phrase.rule == "code":
                    return not scene.focus or scene.focus[0].family != "wedge" or scene.focus[0].has("head.loft")
                if (
                    phrase.rule in ("dashed", "span", "amounts")
                    and phrase.amounts
                    and (phrase.amounts[0].value >= 70 or phrase.amounts[0].unit == "g")
                ):
                    return False
                if (
                    phrase.rule == "dashed"
                    and phrase.first("IRON") is None
                    and len(phrase.amounts) == 2
                    and phrase.amounts[0].value >= 44
                    and phrase.amounts[1].value <= 20
                ):
                    return not scene.focus or scene.focus[0].family != "wedge" or scene.focus[0].has("head.loft")
                if (
                    scene.focus
                    and not scene.focus[-1].has("head.name")
                    and not phrase.amounts
                    and scene.focus[-1].family == "putter"
                ):
                    return True
                return True
            if phrase.rule != "bare" or phrase.amounts[0].unit not in ("", "deg"):
                return False
            if phrase.amounts[0].unit == "" and not self._club_at(phrase.end):
                return False
            at = phrase.end
        return False

    def _club_at(self, position: int) -> bool:
        """True when a club is named at `position`."""
        phrase = phrase_at(self.scene.tokens, position) if position < len(self.scene.tokens) else None
        return phrase is not None and phrase.rule in ("club", "named")
