"""What is known while a list is being read: the clubs, what is in focus, facts of the set, and the ledger of words."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable
from copy import copy
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from asplayed.clubs import Passage
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.phrases import Phrase, phrase_at
from asplayed.intake.tokens import Source, Token, gap

if TYPE_CHECKING:
    from asplayed.intake.blocks import Block
    from asplayed.intake.grip_statements import Statement


class Doubt(NamedTuple):
    """Something that the words leave open, with the answers they suggest."""

    line: int | None
    draft: Draft | None
    about: str
    text: str
    answers: tuple[str, ...] = ()


class Note(NamedTuple):
    """Words without a field, with the one club they belong to."""

    passage: Passage
    draft: Draft | None


TITLES = {"mr", "mrs", "ms", "miss", "dr", "sir", "prof"}
LEAD = 16  # function words that may stand before the first telling word of a sentence
_ARTICLES = {"a", "an", "another", "one", "is"}
CLAUSE = 120  # tokens; no sentence about clubs is longer
_TAKERS = {"": "phrase", "silent": "phrase", "left": "not understood"}
_BREAKS = {"STOP", "NEWLINE", "PIPE", "COMMA", "LPAR", "RPAR", "BREAK", "SLASH"}


class Word(NamedTuple):
    """One word or number of a text: where it stands, which of the two it is, and who took it."""

    start: int
    end: int
    kind: str
    taker: str


class Scene:
    """The state of one reading. `claims` has one entry a token: who took it, "" for nobody yet."""

    def __init__(self, source: Source, tokens: list[Token], beforehand: int | None = None) -> None:
        self.source = source
        # behind this place stands what opened the list about groups of clubs: it only adds to what each has
        self.beforehand = len(tokens) if beforehand is None else beforehand
        self.tokens = tokens
        self.claims: list[str] = [""] * len(tokens)
        self.ends: list[int] = []  # once the tokens are settled: of each, where its clause ends
        self.drafts: list[Draft] = []
        self.focus: list[Draft] = []
        self.headers: list[Draft] = []
        self.header: Draft | None = None
        self.clause_drafts: list[Draft] = []
        self.line_drafts: list[Draft] = []  # the clubs named on this line
        self.looked_for_all = -1  # the clause that was looked at for what it says of all clubs
        self.everyone_but: set[str] = set()  # families excepted from it
        self.everyone_headed = False  # all clubs were told to be of one model
        self.denied: set[str] = set()  # wedges said not to be there: no range has them
        self.asked: list[Draft] = []  # clubs named in questions
        self.gaps: set[int] = set()  # numbers of irons said not to be there: no range has them
        self.everyone: Draft | None = None  # what was said of all clubs before any was named
        self.all_said = -1  # behind the word "all"
        self.shaft_line = False  # the line began with the word "shafts"
        self.grips: list[tuple[Token, Statement]] = []  # sentences of nothing but grips, by their first token
        self.facts: dict[str, str] = {}
        self.ball: dict[str, str] = {}
        self.notes: list[Note] = []
        self.aside: list[Passage] = []
        self.doubts: list[Doubt] = []
        self.grouped = False
        self.talk = False  # two or more speak, and whose clubs each tells of is settled
        self.club_last = False  # each line names its club behind what it says of it
        self.cased = False  # capitals stand inside the lines: a small word then begins no name
        self.makers: dict[int, str] = {}  # first token of a model -> the maker named before it under its own label
        self.evidence: list[tuple[str, str, int]] = []  # a name's first word, the part it named, how surely
        self.tails: list[tuple[str, str]] = []  # first and last word of a run of names before a mass or a flex
        self.hand_clause = -1  # the clause in which the hand was said
        self.before_drafts: list[Draft] = []  # the clubs of the last clause that named any
        self.lost = False  # the line began with a name that fits no club spoken of
        self.clause_puts: list[tuple[str, Entry]] = []  # what was put on clubs in this clause
        self.told_before: list[tuple[str, Entry]] = []  # what the last clause that named any said of them
        self.widened: list[Draft] = []  # clubs that "all" takes in beyond those just spoken of: they only gain
        self.wedge_waits = False  # the model of a wedge was named, its loft comes next
        self.name_waits = False  # a model was named that waits for its club
        self.looked = -1  # the clause last searched for an unnamed putter
        self.either = False  # "or" was said in this clause
        self.correcting = 0
        self.replacing: set[int] = set()  # each "to" behind which stands what holds now
        self.replaced = False  # what follows takes the place of what is known
        self.comparing = False
        self.either = False
        self.unsure: Token | None = None
        self.unsure_at = -1
        self.correcting_line = False  # all of the line corrects
        self.correcting_block = False  # so do the lines below it, up to an empty one
        self.choosing: tuple[str, list[Draft]] | None = None
        self.named = 0  # how often clubs were named
        self.stepped: list[tuple[Draft, str, Entry, Entry]] = []  # club, path, what it steps from, its figure
        self.last_path: tuple[str, list[Draft]] = ("", [])
        self.last_number: tuple[str, list[Draft]] = ("", [])
        self.same: list[tuple[list[Draft], str, Phrase]] = []
        self.same_from: Draft | None = None
        self.referring = False
        self.after_loft = -1
        self.last_end = -1  # behind the last phrase that named clubs
        self.implicit = False  # the focus was joined by commas alone
        self.lead = -1
        self.chunk_start = 0
        self.clause = 0
        self.clause_start = 0
        self.table: list[str] | None = None
        self.cell = ""  # the zone of the table's cell being read
        self.naming: dict[int, int] = {}  # line -> the block of a form or a table whose clubs it names
        self.telling: dict[int, int] = {}  # line -> the block of whose clubs it tells, all of them
        self.members: dict[int, list[Draft]] = {}  # block -> its clubs
        self.rows: dict[int, list[str]] = {}  # first token of a table's row -> its columns' zones

    def settle(self) -> None:
        """From here on no token changes: where clauses end and which phrases begin where is looked for once."""
        end = len(self.tokens)
        self.ends = [end] * (end + 1)
        for at in range(end - 1, -1, -1):
            self.tokens[at].phrase = ()
            end = at if self.tokens[at].terminal in ("STOP", "NEWLINE") else end
            self.ends[at] = end

    def anew(self) -> Scene:
        """The scene as it stands, for one walk: what the walk adds to or takes from is its own."""
        scene = copy(self)
        for name, value in vars(self).items():
            if isinstance(value, list | dict | set):
                setattr(scene, name, copy(value))
        return scene

    @cached_property
    def terminals(self) -> frozenset[str]:
        """What kinds of words the list has; asked for in the walk, which changes no token."""
        return frozenset(token.terminal for token in self.tokens)

    @cached_property
    def lowers(self) -> frozenset[str]:
        """Every word of the list in small letters; asked for in the walk, which changes no token."""
        return frozenset(token.lower for token in self.tokens)

    @cached_property
    def ones_so_called(self) -> frozenset[tuple[str, ...]]:
        """Up to five words behind each "a", "another", "is"; asked for in the walk, which changes no token."""
        lower = [token.lower for token in self.tokens]
        led = [at + 1 for at, word in enumerate(lower) if word in _ARTICLES]
        return frozenset(tuple(lower[at : at + size]) for at in led for size in range(1, 6))

    @cached_property
    def regripped(self) -> bool:
        """True for a ticket whose first line says "regrip": a name behind a club's model is its grip."""
        heading = self.tokens[: self.first_line_end]
        return "SHAFTWORD" not in self.terminals and any(token.lower in ("regrip", "regrips") for token in heading)

    @cached_property
    def first_line_end(self) -> int:
        """The position of the first line's end; asked for in the walk, which changes no token."""
        return next((at for at, token in enumerate(self.tokens) if token.kind == "newline"), len(self.tokens))

    def words(self, start: int, end: int) -> str:
        """The user's own writing from token `start` up to `end`."""
        if start in self.makers:
            return f"{self.makers[start]} {self._writing(start, end)}"
        return self._writing(start, end)

    def _writing(self, start: int, end: int) -> str:
        first, last = self.tokens[start], self.tokens[end - 1]
        if first.written == last.written or not self.source.stamps:
            return " ".join(self.source.text[first.start : last.end].split())
        said = [token for token in self.tokens[start:end] if token.kind != "newline"]
        return first.text + "".join(token.text if token.glued else f" {token.text}" for token in said[1:])

    def tell_of(self, blocks: Iterable[Block]) -> None:
        """Take the blocks of a form or around a table: which lines name their clubs, which tell of all of them."""
        for number, block in enumerate(blocks):
            self.naming |= dict.fromkeys(block.naming, number)
            self.telling |= dict.fromkeys(block.telling, number)

    def hide(self, start: int, end: int) -> None:
        """Step over a stretch: it counts, ticks or labels a line and tells nothing."""
        for at in range(start, end):
            self.tokens[at].terminal = "BULLET"
            self.claims[at] = "silent"

    def take(self, start: int, end: int) -> None:
        """Count a stretch as told of clubs; the marks in it tell nothing."""
        for at in range(start, end):
            self.claims[at] = "silent" if self.tokens[at].kind == "mark" else "club"

    def leave(self, start: int, end: int) -> None:
        """Give a stretch back word for word, as not understood."""
        self.claims[start:end] = ["left"] * (end - start)

    def set_aside(self, start: int, end: int, *, yielding: bool = False) -> None:
        """Keep a stretch aside, word for word; `yielding` leaves to its taker what is taken already."""
        self.aside.append(Passage(line=self.tokens[start].written, text=self.words(start, end)))
        taken = self.claims[start:end] if yielding else [""] * (end - start)
        self.claims[start:end] = [claim or "aside" for claim in taken]

    def end_clause(self, line: bool) -> None:
        """Forget what holds only inside one clause."""
        self.clause += 1
        if self.clause_drafts:
            self.before_drafts = self.clause_drafts
            self.told_before = self.clause_puts
        self.clause_drafts = []
        self.clause_puts = []
        self.widened = []
        self.lost = False
        self.comparing = False
        self.either = False
        self.unsure = None
        self.choosing = None
        self.lead = -1
        onward = self.correcting_block or not line  # "Corrections: the driver is 10.5. The putter is 34."
        self.correcting_line = self.correcting_line and onward
        self.correcting = 2 if self.correcting_line else max(0, self.correcting - 1)
        self.replaced = False
        if line:
            self.line_drafts = []
            self.shaft_line = False
        if self.grouped and line:
            self.grouped = False

    def clause_end(self, position: int) -> int:
        """The position of the token that ends the clause `position` lies in."""
        if position < len(self.ends):
            return min(self.ends[position], position + CLAUSE)
        end = position
        limit = min(len(self.tokens), position + CLAUSE)
        while end < limit and self.tokens[end].terminal not in ("STOP", "NEWLINE"):
            end += 1
        return end

    def clause_opening(self, position: int, within: int = CLAUSE) -> int:
        """The position of the token that opens the clause `position` lies in, looked for so many tokens back."""
        start, limit = position, max(0, position - within)
        while start > limit and self.tokens[start - 1].terminal not in ("STOP", "NEWLINE"):
            start -= 1
        return start

    def line_start(self, position: int) -> bool:
        """True when no telling token stands before `position` on its line or in its sentence."""
        at = position - 1
        while at > position - LEAD and at >= 0 and self.tokens[at].terminal in ("SILENT", "BULLET", "AND"):
            at -= 1
        return at < 0 or self.tokens[at].terminal in ("NEWLINE", "STOP")

    def chunk_opens(self, position: int) -> bool:
        """True when `position` opens a stretch between separators."""
        at = position - 1
        while at > position - LEAD and at >= 0 and self.tokens[at].terminal in ("SILENT", "BULLET", "AND", "EQ"):
            at -= 1
        return at < 0 or self.tokens[at].terminal in _BREAKS

    def take_heading(self, position: int) -> int:
        """Take a heading as the set's title, unless it names a club; the position to go on from."""
        for at in range(position, self.clause_end(position)):
            phrase = phrase_at(self.tokens, at)
            if phrase is not None and phrase.rule in ("club", "named", "span", "family", "date"):
                return position
        return self.take_text("title", position, whole=True)

    def take_text(self, key: str, position: int, *, whole: bool) -> int:
        """Take the rest of the line (or up to a separator) as the set's title, player or event; the position behind."""
        while position < len(self.tokens) and self.tokens[position].terminal in ("EQ", "SILENT", "PIPE"):
            if position + 1 < len(self.tokens) and self._behind_initial(position + 1):
                break  # "player: A. Strand"
            named = self.tokens[position + 1 : position + 2] if self.tokens[position].text.istitle() else []
            if self.tokens[position].terminal == "SILENT" and any(self._title_word(each) for each in named):
                break  # "player: Per Strand"
            self.claims[position] = "set"
            position += 1
        end = position
        stops = {"NEWLINE"} if whole else {"NEWLINE", "COMMA", "PIPE", "LPAR", "STOP", "HAND", "SLASH", "DATE", "BREAK"}
        while end < len(self.tokens) and (self.tokens[end].terminal not in stops or self._behind_initial(end)):
            if self.tokens[end].terminal == "DASH" and not whole:
                break
            labels = self.tokens[end].terminal in ("HANDWORD", "DATEWORD", "EVENTWORD", "PLAYERWORD")
            apart = end > position and gap(self.tokens[end - 1], self.tokens[end]) > 2
            colon = end > position and end + 1 < len(self.tokens) and self.tokens[end + 1].text == ":"
            if not whole and (labels or apart or colon):
                break
            end += 1
        for at in range(position, end):
            self.claims[at] = "set"
        if end > position:
            self.facts[key] = self.words(position, end)
        return end

    @staticmethod
    def _title_word(token: Token) -> bool:
        """True for a word of nobody's with a capital."""
        return token.terminal == "WORD" and token.text[:1].isupper()

    def _behind_initial(self, at: int) -> bool:
        """True for the dot of "R. Stobbart"."""
        before, after = self.tokens[at - 1], self.tokens[at + 1 : at + 2]
        initial = len(before.text) == 1 and before.text.isupper()
        return self.tokens[at].text == "." and initial and bool(after) and after[0].text[:1].isupper()

    def take_note(self, position: int) -> int:
        """Take the stretch around a word that has no field (tip trim, handicap, grip size) as a note."""
        end = position + 1
        told = position + 1 < len(self.tokens) and self.tokens[position + 1].text == ":" and self.line_start(position)
        onward = [token.lower for token in self.tokens[position + 1 : position + 2]]
        told = told or (self.line_start(position) and onward in (["on"], ["of"], ["for"]))
        if told and self.tokens[position].lower in ("tip trim", "tip trims", "tip", "tips", "tipping", "tipped"):
            end = self.clause_end(position)  # "Tip trim: DR 1/2 in, 3W 1 in", "Tips on the irons cut 1/2 in"
            self.claims[position:end] = ["note"] * (end - position)
            self.add_note(position, end, None)
            return end
        if (cut := self._tip_of_a_club(position)) > 0:
            for index in range(position, cut):
                self.claims[index] = "note"
            self.add_note(position, cut, None)
            return cut
        numbers = False
        sized = self.tokens[position].terminal == "SIZE"
        answered = [token.kind if token.kind == "number" else token.text for token in self.tokens[end : end + 2]]
        if answered == ["?", "number"]:
            end += 1  # "Handicap? 24"
        while not sized and end < len(self.tokens) and self.tokens[end].terminal not in _BREAKS | {"WITH", "THAN"}:
            if self.tokens[end].terminal == "NOTE" and not numbers:
                break
            if self.tokens[end].terminal in ("FLEX", "SWV", "GRIPWORD", "WRAP", "PLAYERWORD") or end - position > 6:
                break
            if self.tokens[end].kind == "number" and numbers:
                break
            if self.tokens[end].terminal == "AND" and numbers:
                break
            phrase = phrase_at(self.tokens, end) if self.tokens[end].kind != "number" else None
            if phrase is not None and phrase.rule in ("club", "named", "family", "span", "labelled"):
                break
            numbers = numbers or self.tokens[end].kind == "number"
            end += 1
        colon = position + 1 < len(self.tokens) and self.tokens[position + 1].text == ":"
        named = phrase_at(self.tokens, position + 2) if colon and position + 2 < len(self.tokens) else None
        if named is not None and named.rule in ("club", "named", "family", "span", "dashed"):
            end = position + 1  # "Soft stepped: 5-PW Dunlin"
        start = position
        if not numbers and self.tokens[position].terminal != "SIZE":
            at = position - 1
            while (
                at >= 0
                and self.tokens[at].terminal in ("SILENT", "INCH", "DEG", "MM", "CM", "GRAM")
                and not self.claims[at]
            ):
                at -= 1
            if at >= 0 and self.tokens[at].kind == "number" and self.claims[at] in ("", "question"):
                start = at
        while end - 1 > position and self.tokens[end - 1].terminal in ("SILENT", "AND", "IN", "EQ", "AT"):
            end -= 1
        for index in range(start, end):
            self.claims[index] = "note"
        club = self.focus[0] if len(self.focus) == 1 else None
        self.add_note(start, end, club)
        return end

    def _tip_of_a_club(self, position: int) -> int:
        """The place behind "tip driver 1/2 in", a club and what is cut from its tip; 0 for any other note."""
        tokens = self.tokens
        club = phrase_at(tokens, position + 1) if position + 1 < len(tokens) else None
        named = club is not None and club.rule in ("club", "named", "family", "span")
        if tokens[position].lower != "tip" or club is None or not named or club.end >= len(tokens):
            return 0
        cut = phrase_at(tokens, club.end)
        return cut.end if cut is not None and cut.rule == "bare" and cut.amounts[0].value < 4 else 0

    def add_note(self, start: int, end: int, draft: Draft | None) -> None:
        """Keep words as a note, with the club they belong to."""
        passage = Passage(line=self.tokens[start].written, text=self.words(start, end), club=None)
        self.notes.append(Note(passage, draft if draft in self.drafts else None))

    def line_words(self, position: int) -> str:
        """The user's words from the clause's start to its end."""
        return self.words(self.clause_opening(position), self.clause_end(position))

    def lost_line(self, position: int) -> None:
        """Leave the rest of the clause to what is not understood."""
        for at in range(position, self.clause_end(position)):
            self.claims[at] = self.claims[at] or "left"

    def place_of(self, line: int, text: str) -> str:
        """Line and column at which these words of a sentence begin; column 1 when they cannot be found."""
        first = text.split(" ", maxsplit=1)[0]
        for token in self.tokens:
            if token.line == line and token.text == first:
                return f"line {token.written}, column {token.column}"
        return f"line {line}, column 1"

    def left_over(self) -> list[Passage]:
        """Every stretch that nobody took, word for word; a sentence with nothing understood in it stays whole."""
        return [
            Passage(line=self.tokens[start].written, text=self.words(start, end)) for start, end in self._left_spans()
        ]

    def ledger(self) -> list[tuple[str, str]]:
        """Every word and number with who took it."""
        left = {at for start, end in self._left_spans() for at in range(start, end)}
        return [
            (token.text, "not understood" if at in left else _TAKERS.get(self.claims[at], self.claims[at]))
            for at, token in enumerate(self.tokens)
            if _content(token)
        ]

    def placed(self) -> list[Word]:
        """Every word, number and date with its place in the text and who took it."""
        left = {at for start, end in self._left_spans() for at in range(start, end)}
        return [
            Word(
                token.start,
                token.end,
                token.kind,
                "not understood" if at in left else _TAKERS.get(self.claims[at], self.claims[at]),
            )
            for at, token in enumerate(self.tokens)
            if _content(token) or token.kind == "date"
        ]

    def _left_spans(self) -> list[tuple[int, int]]:
        found: list[tuple[int, int]] = []
        start = 0
        for end, token in enumerate(self.tokens):
            if token.terminal in ("STOP", "NEWLINE", "BREAK", "PIPE"):
                found += self._left_in(start, end)
                start = end + 1
        found += self._left_in(start, len(self.tokens))
        return found

    def _left_in(self, start: int, end: int) -> list[tuple[int, int]]:
        telling = [at for at in range(start, end) if _content(self.tokens[at])]
        if not telling:
            return []
        taken = [at for at in telling if self.claims[at] not in ("", "left", "silent")]
        if not taken:
            return [(telling[0], telling[-1] + 1)]
        found: list[tuple[int, int]] = []
        run: list[int] = []
        for at in telling:
            loose = self.claims[at] in ("", "left")
            if loose and (self.tokens[at].terminal != "SILENT" or self.claims[at] == "left"):
                run.append(at)
            elif not (loose or self.claims[at] == "silent") and run:
                found.append((run[0], run[-1] + 1))
                run = []
        if run:
            found.append((run[0], run[-1] + 1))
        return found

    def read_date(self, phrase: Phrase) -> str | None:
        """The date a phrase names as YYYY-MM-DD; None where the day and the month could be swapped."""
        token = phrase.first("DATE")
        if token is not None:
            return _numeric_date(token.text)
        month = phrase.first("MONTH")
        assert month is not None
        values = [amount.value for amount in phrase.amounts]
        years = [value for value in values if value > 1900]
        days = [value for value in values if value <= 31]
        if not years or not days:
            return None
        try:
            return datetime.date(int(years[0]), int(str(month.value)), int(days[0])).isoformat()
        except ValueError:
            return None


def _numeric_date(text: str) -> str | None:
    try:
        if text[:4].isdigit():
            return datetime.date.fromisoformat(re.sub("[/.]", "-", text)).isoformat()
        first, second, year = (int(part) for part in re.split("[-/.]", text))
        if "." in text or first > 12:
            return datetime.date(year, second, first).isoformat()
        if second > 12:
            return datetime.date(year, first, second).isoformat()
        return datetime.date(year, second, first).isoformat() if first == second else None
    except ValueError:
        return None


def _content(token: Token) -> bool:
    return token.kind in ("word", "number") and not token.again
