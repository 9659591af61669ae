"""What stands before a club is named: figures and names that wait for it, numbers that only count."""

from __future__ import annotations

from copy import copy
from itertools import pairwise

from asplayed.intake.ahead import flexed
from asplayed.intake.bare import WOOD_LOFTS, bare, loft_of_family
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.names import NameRun, run_at
from asplayed.intake.phrases import CLUB_RULES, Amount, Phrase, phrase_at, says
from asplayed.intake.scene import LEAD, Doubt
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token
from asplayed.intake.wedge_words import LETTERED
from asplayed.intake.wording import eligible, ordinary, prose

_LOFTS_FIRST = {"wood": (12.5, 26.0), "hybrid": (15.0, 33.0), "wedge": (44.0, 64.0)}  # before a model and its kind
_PUTTER_LENGTHS = (30.0, 40.0)
_ROW = 8  # figures in a row that open clubs: no list names more by their figures alone
_CHUNK_ENDS = {"COMMA", "STOP", "NEWLINE", "PIPE", "LPAR", "RPAR", "SLASH", "BREAK", "SAME", "EVENTKIND", "ASIDE"}
_PART_WORDS = {"LENGTH", "LOFT", "SHAFTWORD", "HEADWORD", "GRIPWORD"}
_PACKED = {"box", "boxes", "sleeve", "sleeves", "tube", "tubes", "pack", "packs"}  # what balls are counted by
_UNIT_WORDS = {"DEG", "INCH", "MM", "CM", "GRAM", "CPM", "CLICK", "WRAP", "DASH", "RANGE", "WEDGE"}


def _digit(token: Token) -> int | None:
    """The number of a club that a token says by itself; None for any other."""
    value = token.value
    plain = token.terminal == "NUM" and isinstance(value, float) and value == int(value) and 1 <= value <= 9
    return int(value) if plain and (len(token.text) == 1 or token.text.isalpha()) else None  # type: ignore[arg-type]


def _of_irons(phrase: Phrase) -> bool:
    """True for "irons", "4-PW", "5-9 irons": clubs that can only be irons."""
    if phrase.rule == "family":
        return phrase.has("IRON")
    if phrase.rule not in ("span", "dashed"):
        return False
    return phrase.has("NAMEDWEDGE", "IRON") or all(amount.whole and amount.value <= 9 for amount in phrase.amounts)


def _wedge_of_irons(token: Token, numbers: list[int], letters: list[str]) -> str:
    """The wedge that goes on where a row of irons ends: "P", "PW", the "wedge" of "seven eight nine wedge"; or ""."""
    if token.text in LETTERED:
        return LETTERED[token.text]
    if token.terminal == "NAMEDWEDGE":
        return str(token.value)
    last = token.lower == "wedge" and numbers[-1:] == [9] and not letters
    return "pitching wedge" if last else ""


class Opening(Stride):
    """Looks ahead from the opening of a line to the club it is about."""

    def _unnamed_putter(self) -> None:
        """A clause that speaks of a neck or of toe hang and names no club is the putter's."""
        scene, tokens = self.scene, self.tokens
        if (
            not scene.line_start(self.at)
            or scene.table is not None
            or (scene.focus and scene.focus[-1].family == "putter")
        ):
            return
        if scene.looked == scene.clause:
            return
        scene.looked = scene.clause
        end = scene.clause_end(self.at)
        telling = False
        at = self.at
        while at < end:
            phrase = phrase_at(tokens, at)
            if phrase is not None and (phrase.rule in CLUB_RULES or phrase.rule == "date"):
                return
            if phrase is not None and (
                phrase.rule == "hang"
                or phrase.has("TOEHANG")
                or (
                    phrase.rule == "neck"
                    and phrase.has("NECKWORD", "NECK")
                    and (
                        "neck" in phrase.tokens[-1].lower
                        or "double" in phrase.tokens[0].lower
                        or "plumber" in phrase.tokens[0].lower
                    )
                )
            ):
                telling = True
            at = at + 1 if phrase is None else phrase.end
        if telling and not any(draft.family == "putter" for draft in scene.drafts):
            draft = Draft("putter", name="putter", line=tokens[self.at].line)
            scene.drafts.append(draft)
            scene.focus = [draft]
            scene.clause_drafts.append(draft)

    def _up_top(self) -> bool:
        """ "Up top, the Gannet LT": where the talk goes through a bag from its top, the driver comes first."""
        scene, tokens = self.scene, self.tokens
        if scene.drafts or [token.lower for token in tokens[self.at : self.at + 2]] != ["up", "top"]:
            return False
        end = scene.clause_end(self.at)
        if not scene.line_start(self.at) or says(tokens, self.at + 2, end, CLUB_RULES):
            return False
        if not any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[self.at + 2 : end]):
            return False
        tokens[self.at : self.at + 2] = up, top = [copy(token) for token in tokens[self.at : self.at + 2]]
        up.terminal, top.terminal, top.value, up.phrase, top.phrase = "SILENT", "DRIVER", "driver", (), ()
        return True

    def _unnamed_driver(self) -> None:
        """The first clause that gives a head a driver's loft and names no club speaks of the driver; it is asked."""
        scene, tokens = self.scene, self.tokens
        if scene.drafts or scene.headers or scene.table is not None or not scene.line_start(self.at):
            return
        at, end = self.at, scene.clause_end(self.at)
        lofted = named = False
        shafted = any(token.terminal in ("FLEX", "FLEXCODE") for token in tokens[at:end])
        while at < end:
            phrase = phrase_at(tokens, at)
            if phrase is not None and (phrase.rule in CLUB_RULES or phrase.rule == "date"):
                return
            noted = tokens[at].terminal == "NOTE" and lofted and named  # "…, tipped an inch"
            if tokens[at].terminal in ("HAND", "PLAYERWORD", "EVENTKIND", "NOTE", "BALLWORD", "ASIDE", "THAN"):
                if noted:
                    break
                return
            lofts = phrase is not None and (phrase.rule == "bare" or (phrase.rule == "labelled" and phrase.has("LOFT")))
            for amount in phrase.amounts if phrase is not None and lofts else ():
                if 44 <= amount.value <= 64 and (amount.unit == "deg" or not lofted):
                    return  # a wedge's stamp
                unit = amount.unit or ("deg" if phrase is not None and phrase.has("LOFT") else "")
                bare = named and (amount.value % 1 == 0.5 or (shafted and amount.whole))
                of_driver = 7 <= amount.value <= 13 and not amount.signed
                lofted = lofted or (of_driver and (unit == "deg" or (bare and "DRIVER" not in scene.terminals)))
            named = named or (tokens[at].terminal == "WORD" and eligible(self.scene, at))
            at = at + 1 if phrase is None else phrase.end
        if not (lofted and named):
            return
        self._infer("driver", "driver", "the first club, by its loft, was taken for the driver: is it?")

    def _wood_of_the_driver(self) -> None:
        """A line of the driver's model with a wood's loft that names no club: a fairway wood, and asked."""
        scene, tokens = self.scene, self.tokens
        led = tokens[self.at - 1] if self.at else tokens[0]
        opens = (
            self.at > 0 and (led.kind == "newline" or led.terminal == "BULLET") and tokens[self.at].terminal == "WORD"
        )
        if not opens or scene.table is not None or not all(draft.has("head.name") for draft in scene.focus):
            return
        drivers = [draft.facts.get("head.name") for draft in scene.drafts if draft.family == "driver"]
        models = [entry.value for entry in drivers if entry is not None]
        run = run_at(self.scene, self.names.known, self.at) if models else None
        if run is None or run.text not in models:
            return
        loft = phrase_at(tokens, run.end) if run.end < len(tokens) else None
        if loft is None or loft.rule != "bare" or not 13 <= loft.amounts[0].value <= 25:
            return
        named = says(tokens, run.end, scene.clause_end(run.end), CLUB_RULES)
        if loft.amounts[0].unit not in ("", "deg") or named:
            return
        self._infer("wood", None, f"“{run.text}” has a fairway wood's loft: is it one?")

    def _infer(self, family: str, name: str | None, why: str) -> None:
        """A club that no word names, here and in focus; `why` asks whether it is one."""
        scene = self.scene
        draft = Draft(family, name=name, line=self.tokens[self.at].line)
        draft.inferred = why
        scene.drafts.append(draft)
        scene.clause_drafts.append(draft)
        scene.line_drafts.append(draft)
        scene.focus = [draft]

    def _figures_first(self) -> bool:
        """ "15 and 18 Gannet fairways", "22 Plover hybrid": lofts, their model, and the kind of club behind both."""
        scene, tokens = self.scene, self.tokens
        last = scene.focus[-1] if scene.focus else None
        headed = scene.header is not None and last is not None and scene.header in (last, last.header)
        opens = (scene.chunk_opens(self.at) or headed) and tokens[self.at].terminal == "NUM" and scene.table is None
        within = self.at > 1 and tokens[self.at - 1].terminal == "SLASH" and tokens[self.at - 2].terminal == "NUM"
        if not opens or within or self.zone in ("loft", "length"):
            return False
        near = tokens[self.at + 1 : self.at + 4 * _ROW]
        if not any(token.terminal == "WORD" and (token.text[:1].isupper() or not scene.cased) for token in near):
            return False  # no model stands behind the row
        figures, name = self._row_of_figures(self.at)
        if name >= len(tokens) or tokens[name].terminal != "WORD":
            return False
        if not tokens[name].text[:1].isupper() and (scene.cased or not eligible(scene, name)):
            return False
        run = run_at(scene, self.names.known, name)
        club = phrase_at(tokens, run.end) if run is not None and run.end < len(tokens) else None
        header = scene.header
        member = header is not None and (
            scene.focus == [header] or (bool(scene.focus) and scene.focus[-1].header is header)
        )
        spoken = member and len(figures) == 1 and figures[0].unit == "deg" and run is not None
        numbered = club is not None and club.rule == "club" and len(figures) == 1 and figures[0].unit == "deg"
        number = int(club.amounts[0].value) if numbered and club is not None and club.amounts else None
        if run is None or club is None or club.rule not in ("club", "family") or (club.amounts and not number):
            return spoken and self._lofted_member(header, figures[0], run)  # type: ignore[arg-type]
        word = club.first("WOOD", "HYBRID", "PUTTER")
        kind = word.terminal.lower() if word is not None else ""
        path, unit = ("length", "in") if kind == "putter" else ("head.loft", "deg")
        low, high = _PUTTER_LENGTHS if kind == "putter" else _LOFTS_FIRST.get(kind, (1.0, 0.0))
        if any(not low <= amount.value <= high or amount.unit not in ("", unit) for amount in figures):
            return False
        family = self.mentions.family_of(club) or "wood"
        drafts = []
        for amount in figures:
            draft = Draft(family, number=number, name="putter" if family == "putter" else None, line=run.line)
            draft.put(path, Entry(amount.value, unit, run.line, amount.token.text))
            text = self.names.tidy(run, len(figures))
            draft.put("head.name", Entry(text, "1", run.line, run.text, group=int(len(figures) > 1)))
            scene.drafts.append(draft)
            drafts.append(draft)
        self._opened(drafts, club, club.end)
        return True

    def _lofted_member(self, header: Draft, loft: Amount, run: NameRun) -> bool:
        """ "Her fairways are a fifteen-degree Gannet and an eighteen-degree Plover": each is one of the heading's."""
        scene = self.scene
        low, high = _LOFTS_FIRST.get(header.family, (1.0, 0.0))
        last = scene.focus[-1]
        waits = last is not header and last in scene.clause_drafts and not last.facts  # "The PW is a 46-degree Gannet"
        if not low <= loft.value <= high or flexed(scene, run.end) or waits:
            return False
        draft = Draft(header.family, line=run.line)
        draft.header = header
        draft.put("head.loft", Entry(loft.value, "deg", run.line, loft.token.text))
        draft.put("head.name", Entry(self.names.tidy(run, 1), "1", run.line, run.text))
        scene.drafts.append(draft)
        self._opened([draft], Phrase("bare", [loft.token], self.at, run.start), run.end)
        return True

    def _opened(self, drafts: list[Draft], phrase: Phrase, end: int) -> None:
        """Put these new clubs into focus, take the words up to `end` for them and go on behind."""
        scene = self.scene
        self.mentions.note(drafts, phrase)
        scene.focus, scene.grouped, scene.last_end = drafts, False, end
        for index in range(self.at, end):
            scene.claims[index] = scene.claims[index] or "club"
        self.at, self.zone = end, ""

    def _row_of_figures(self, at: int) -> tuple[list[Amount], int]:
        """The bare figures in a row at `at` ("15 and 18", "34 in"), and the place behind them."""
        tokens = self.tokens
        found: list[Amount] = []
        while (phrase := phrase_at(tokens, at) if at < len(tokens) else None) is not None:
            if phrase.rule != "bare" and not (phrase.rule == "amounts" and phrase.tokens[-1].terminal == "DEG"):
                break
            if any(amount.signed for amount in phrase.amounts) or len(found) >= _ROW:
                return [], len(tokens)
            found += phrase.amounts  # "a 15° and an 18°" is one phrase, "15 and 18" two
            at = phrase.end
            joined = at + 1 < len(tokens) and tokens[at].terminal in ("AND", "COMMA", "SLASH")
            at += joined and tokens[at + 1].terminal == "NUM"
        return found, at

    def _putter_by_length(self) -> None:
        """A name and a putter's length at the end of a list that has no putter: taken for it, and asked."""
        scene, tokens = self.scene, self.tokens
        token = tokens[self.at]
        if token.terminal != "WORD" or "PUTTER" in scene.terminals or not scene.drafts or scene.table is not None:
            return
        lead, first = self.at - 1, max(0, self.at - LEAD)
        while lead > first and tokens[lead].kind == "word" and tokens[lead].lower in ("and", "the", "a", "my", "then"):
            lead -= 1
        told = lead < self.at - 1 and tokens[lead].kind == "newline"  # "and the Stint, thirty five"
        if not told and (not scene.chunk_opens(self.at) or (self.zone and not self.zone.endswith("~"))):
            return
        if not scene.focus or any(draft.family == "putter" for draft in scene.drafts):
            return
        if not all(draft.has("head.name") for draft in scene.focus):
            return
        run = run_at(self.scene, self.names.known, self.at)
        if (
            run is None
            or (prose(self.scene, self.at) and not told)
            or (any(not d.has("shaft.name") for d in scene.focus) and not self._length_alone(run.end))
        ):
            return
        behind = run.end + (told and run.end < len(tokens) and tokens[run.end].terminal == "COMMA")
        phrase = phrase_at(tokens, behind) if behind < len(tokens) else None
        if phrase is None or phrase.rule != "bare" or not 31 <= phrase.amounts[0].value <= 38:
            return
        after = tokens[phrase.end].terminal if phrase.end < len(tokens) else "NEWLINE"
        if phrase.amounts[0].unit not in ("", "in") or after in ("FLEX", "FLEXCODE", "GRAM"):
            return
        draft = Draft("putter", name="putter", line=token.line)
        draft.inferred = f"“{run.text}” has a putter's length: is it the putter?"
        self.zone = ""
        scene.drafts.append(draft)
        scene.clause_drafts.append(draft)
        scene.focus = [draft]

    def _length_alone(self, at: int) -> bool:
        """True where a length in inches is all that stands between a name that opens its line and the line's end."""
        tokens = self.tokens
        inches = [token.terminal for token in tokens[at : at + 2]] == ["NUM", "INCH"]
        ends = at + 2 >= len(tokens) or tokens[at + 2].kind == "newline"
        return inches and ends and self.scene.line_start(self.at)

    def _unknown_label(self, token: Token) -> bool:
        """ "F: Grebe 2 / 15 / 43": figures behind a label nobody knows are of no club spoken of; they are asked."""
        scene, tokens = self.scene, self.tokens
        if token.terminal not in ("WORD", "LETTER") or scene.table is not None or not scene.line_start(self.at):
            return False
        at = self.at + 1
        if at < len(tokens) and tokens[at].terminal in ("WORD", "LETTER"):
            at += 1
        if at >= len(tokens) or tokens[at].text != ":" or not scene.focus or scene.focus[0] not in scene.drafts:
            return False
        end = scene.clause_end(at)
        figures = False
        while at < end:
            phrase = phrase_at(tokens, at)
            if phrase is not None and phrase.rule not in ("bare", "flex", "swing", "sole"):
                return False
            if tokens[at].terminal in ("PLAYERWORD", "EVENTWORD", "EVENTKIND", "DATE", "COLOUR", "HAND"):
                return False
            figures = figures or (phrase is not None and phrase.rule == "bare")
            at = at + 1 if phrase is None else phrase.end
        if not figures:
            return False
        scene.doubts.append(Doubt(token.line, None, "club", f"“{scene.line_words(self.at)}”: which club is this?"))
        scene.lost_line(self.at)
        self.at = end
        return True

    def _lead_in(self) -> None:
        """What opens a line before its club is named ("45 in Lindrake 60 S driver") waits for that club."""
        scene, tokens = self.scene, self.tokens
        labelled = scene.club_last and tokens[self.at].terminal in (
            "LENGTH",
            "LOFT",
            "SHAFTWORD",
            "HEADWORD",
            "GRIPWORD",
        )
        begins = labelled or tokens[self.at].terminal in ("WORD", "NUM")
        if scene.table is not None or not scene.line_start(self.at) or not begins:
            return
        here = phrase_at(tokens, self.at)
        if here is not None and here.rule != "bare" and not labelled:
            return
        at = self.at + 1 if here is None else here.end
        limit = scene.clause_end(self.at) if scene.club_last else min(len(tokens), self.at + 14)
        ends = _CHUNK_ENDS - {"COMMA", "SLASH", "PIPE"} if scene.club_last else _CHUNK_ENDS
        while at < limit and tokens[at].terminal not in ends:
            if tokens[at].terminal == "GRIPWORD" and tokens[at].lower.endswith("s"):
                return  # "Norrby grips on all clubs but the putter"
            if tokens[at].lower == "there" and tokens[at - 1].terminal == "IN":
                return  # "Foehn 75 X in there" is said of the club before
            phrase = phrase_at(tokens, at)
            ranged = scene.club_last and phrase is not None and _of_irons(phrase)
            if phrase is not None and phrase.has("PUTTER") and not scene.club_last:
                flexes = {token.terminal for token in tokens[self.at : at]} & {"FLEX", "FLEXCODE"}
                if flexes and tokens[at - 1].terminal != "IN":
                    return  # "… wedges 50, 54. Reed 120 stiff", and on the next line "putter": no putter has a flex
            if phrase is not None and (phrase.rule in ("club", "named") or ranged):
                family = "iron" if ranged else self.mentions.family_of(phrase)
                if family is not None and (tokens[at - 1].terminal != "EQ" or scene.club_last):
                    self.names.waiting = Draft(family)
                    behind = tokens[phrase.end] if phrase.end < len(tokens) else None
                    self.names.head_behind = behind is not None and behind.terminal == "WORD"
                    scene.focus = [self.names.waiting]
                return
            if phrase is not None and phrase.rule in (
                "code",
                "span",
                "dashed",
                "amounts",
                "family",
                "same",
                "group",
                "date",
            ):
                return
            at = at + 1 if phrase is None else phrase.end

    def _digits(self, token: Token) -> bool:
        """ "7 8 9 P S Dunlin", "six seven and eight hybrid": a row of numbers and letters parted by blanks alone."""
        scene, tokens = self.scene, self.tokens
        headed = scene.header is not None and scene.focus == [scene.header]
        opens = headed or scene.chunk_opens(self.at) or (self.at > 0 and tokens[self.at - 1].kind == "newline")
        if scene.table is not None or not opens or _digit(token) is None:
            return False
        at = self.at
        numbers: list[int] = []
        letters: list[str] = []
        listed = self._to_a_letter(at)
        while at < len(tokens) and (number := _digit(tokens[at])) is not None:
            numbers.append(number)
            at += 1
            joined = at + 1 < len(tokens) and tokens[at].terminal == "AND" and _digit(tokens[at + 1]) is not None
            at += (joined and len(numbers) > 1) or (listed and tokens[at].terminal == "COMMA")
        word = tokens[at].terminal if at < len(tokens) else ""
        while at < len(tokens) and (wedge := _wedge_of_irons(tokens[at], numbers, letters)):
            letters.append(wedge)
            at += 1
            more = listed and at + 1 < len(tokens) and tokens[at].terminal == "COMMA"
            at += more and tokens[at + 1].text in LETTERED
        other = word in ("HYBRID", "WOOD", "DIRON")
        irons = word == "IRON" or (headed and scene.header is not None and scene.header.family == "iron")
        apart = other or bool(letters) or irons  # "irons 3 5 7 9"
        rising = all(one < two if apart else one + 1 == two for one, two in pairwise(numbers))
        fewest = 2 if other or (word == "IRON" and tokens[at - 1].kind == "number") else 3
        if len(numbers) + len(letters) < fewest or len(numbers) < 2 or not rising or at >= len(tokens):
            return False
        halved = listed and len(numbers) > 1  # "6, 8, PW"
        if (letters and numbers[-1] != 9 and not halved) or numbers[0] < 2 or tokens[at].terminal in _UNIT_WORDS:
            return False
        phrase = Phrase("amounts", tokens[self.at : at], self.at, at)
        if other:
            drafts = [self.mentions.numbered(word, number, phrase) for number in numbers]
        else:
            drafts = self.mentions.irons(numbers, phrase)
            drafts += [self.mentions.iron_wedge(name, phrase) for name in letters]
            for draft in drafts:
                draft.in_range = True
        self.mentions.note(drafts, phrase)
        scene.focus = drafts
        scene.grouped = False
        scene.last_end = at
        self._claim(phrase, "club")
        if other or tokens[at].terminal == "IRON":
            scene.claims[at] = "club"
            self.at += 1
            scene.last_end = self.at
        self.names.attach_pending(drafts)
        return True

    def _to_a_letter(self, at: int) -> bool:
        """True for "5,6,7,8,9,P": numbers and a wedge's letter, parted by commas."""
        tokens = self.tokens
        while at + 2 < len(tokens) and _digit(tokens[at]) is not None and tokens[at + 1].terminal == "COMMA":
            at += 2
        lettered = tokens[at].text in LETTERED or tokens[at].value == "pitching wedge"
        return at > self.at and lettered and tokens[at - 1].terminal == "COMMA"

    def _wood_by_number(self, token: Token) -> bool:
        """ "3 Gannet 15" below a driver: a number, a model and the loft that a wood of this number has."""
        scene, tokens = self.scene, self.tokens
        low, high = WOOD_LOFTS.get(token.text, (0.0, 0.0))
        before = tokens[self.at - 1] if self.at else None
        opens = before is not None and (before.terminal == "NEWLINE" or (before.text == "/" and not token.glued))
        if not high or scene.table is not None or not opens:
            return False
        if not scene.focus or scene.focus[-1].family not in ("driver", "wood") or scene.focus[-1] not in scene.drafts:
            return False
        if scene.header is not None and scene.header.family != "wood":
            return False
        name = self.at + 1  # "3 Gannet 15", "3+: Gannet, 13.5"
        while name < len(tokens) and tokens[name].text in ("+", ":", ")") and name < self.at + 3:
            name += 1
        run = run_at(self.scene, self.names.known, name) if name < len(tokens) else None
        behind = run.end if run is not None else len(tokens)
        behind += behind < len(tokens) and tokens[behind].text == ","
        loft = phrase_at(tokens, behind) if behind < len(tokens) else None
        if loft is None or loft.rule != "bare" or not low <= loft.amounts[0].value <= high:
            return False
        phrase = Phrase("bare", [token], self.at, self.at + 1)
        draft = self.mentions.numbered("WOOD", int(token.text), phrase)
        self.mentions.note([draft], phrase)
        scene.focus = [draft]
        scene.grouped = False
        scene.last_end = self.at + 1
        self._claim(phrase, "club")
        return True

    def _counts(self, token: Token) -> bool:
        """Step over a number that only counts ("three of them", "for two years")."""
        tokens = self.tokens
        after = tokens[self.at + 1] if self.at + 1 < len(tokens) else None
        if after is None or token.terminal != "NUM":
            return False
        before = tokens[self.at - 1] if self.at else None
        if after.text == ":" and before is not None and before.lower in ("club", "item", "no", "number"):
            self.scene.claims[self.at] = "silent"
            self.at += 1
            return True
        if token.value == 1.0 and token.text.isdigit() and self.scene.line_start(self.at):
            club = phrase_at(tokens, self.at + 1)
            if phrase_at(tokens, self.at).rule == "bare" and club is not None and club.rule in ("club", "named"):  # type: ignore[union-attr]
                self.scene.claims[self.at] = "silent"
                self.at += 1
                return True
        held = before is not None and before.lower in ("got", "has", "have", "carries", "carry", "plays", "play")
        answers = self.scene.line_start(self.at) and before is not None and before.terminal != "SILENT"
        held = held or (answers and token.text.isalpha())  # "Hybrids?" "Two. A 5 and a 6."
        headed = self.scene.header is not None and self.scene.focus == [self.scene.header]
        several = isinstance(token.value, float) and 2 <= token.value <= 5
        if held and headed and several and after.terminal in ("STOP", "NEWLINE"):
            self.scene.claims[self.at] = "silent"  # "fairway woods. He's got two."
            self.at += 1
            return True
        waits = self.scene.header is not None and self.scene.focus == [self.scene.header]
        counted = token.value in (2.0, 3.0, 4.0, 5.0) and after.terminal not in _UNIT_WORDS  # "two extra wraps"
        if waits and self.scene.header.family == "wedge" and counted:  # type: ignore[union-attr]
            self.scene.claims[self.at] = "silent"  # "wedges (3)", "wedges are three Redshanks"
            self.at += 1
            return True
        put_right = self.scene.correcting and before is not None and before.lower == "the"
        if after.glued or put_right:  # "scratch that, she went to the 9 yesterday"
            return False
        club = phrase_at(tokens, self.at + 1)
        doubled = club is not None and club.rule == "club" and club.amounts and club.amounts[0].whole
        if doubled and token.value in (2.0, 3.0) and tokens[club.end - 1].lower.endswith("s"):  # type: ignore[union-attr]
            self.scene.claims[self.at] = "silent"  # "two three woods: 13.5 and 15"
            header = self.mentions.header(self.mentions.family_of(club) or "wood", club)  # type: ignore[arg-type]
            header.number = int(club.amounts[0].value)  # type: ignore[union-attr]
            self.scene.focus = [header]
            self._claim(club, "club")  # type: ignore[arg-type]
            return True
        packed = after.lower in _PACKED and self.zone.startswith("ball")
        if after.lower.startswith(("dozen", "doz")) or packed:
            self.scene.claims[self.at] = self.scene.claims[self.at + 1] = "left"  # "Ball: Velloran, 2 dozen"
            self.at += 2
            return True
        if isinstance(token.value, float) and 2 <= token.value <= 5 and self._counted_model(self.at + 1):
            self.scene.claims[self.at] = "silent"  # "three Crake wedges"
            self.at += 1
            return True
        behind = tokens[self.at + 2] if self.at + 2 < len(tokens) else None
        if after.lower == "of" and behind is not None and behind.terminal == "THOSE":
            self.scene.claims[self.at] = "silent"
        elif not (after.terminal == "WORD" and after.text.islower()):
            return False
        elif not ordinary(self.scene, self.at + 1):
            spelt = token.text.isalpha() and self.scene.cased and after.lower.endswith("s")
            if not spelt:  # "it has outlasted two dogs"
                return False
        self.at += 1
        return True

    def _counted_model(self, at: int) -> bool:
        """True where a name and the plural of a kind of club stand ("Crake wedges")."""
        tokens = self.tokens
        start = at
        while at < len(tokens) and at - start < 3 and tokens[at].terminal == "WORD" and tokens[at].text[:1].isupper():
            at += 1
        if at == start or at >= len(tokens):
            return False
        return tokens[at].terminal in ("WEDGE", "HYBRID", "WOOD") and tokens[at].lower.endswith("s")

    def _for_next_club(self, phrase: Phrase) -> bool:
        """A loft written before its club ("Gannet 15 3w"): it waits for the club."""
        at = phrase.end
        tokens = self.tokens
        while at < len(tokens) and tokens[at].terminal in ("SILENT", "HYPHEN"):
            at += 1
        at = self._past_model(phrase, at)
        club = phrase_at(tokens, at) if at < len(tokens) else None
        if club is not None and club.rule == "club" and phrase.amounts[0].unit in ("in", "mm", "cm"):
            if len(self.scene.focus) < 2:
                return False
            facts = bare(phrase.amounts[0], phrase, self.scene.focus[0], "")
            self.names.waiting = Draft("iron")
            for path, entry in facts or []:
                self.names.waiting.put(path, entry)
            self._claim(phrase, "club")
            return True
        if club is None or club.rule != "club" or phrase.amounts[0].unit not in ("", "deg") or phrase.amounts[0].signed:
            return False
        word = club.first("WOOD", "HYBRID", "DIRON", "DRIVER", "MINIDRIVER")
        value = phrase.amounts[0].value
        if word is None or not loft_of_family(word.terminal, value) or self.scene.same:
            return False
        if self.scene.focus and not self.names.pending and not self.scene.focus[-1].has("head.loft"):
            return False
        self.names.pending_loft = Entry(value, "deg", phrase.line, phrase.amounts[0].token.text)
        self._claim(phrase, "club")
        return True

    def _past_model(self, phrase: Phrase, at: int) -> int:
        """Behind the model of "and a 19° Dunlin hybrid": the loft and the model are those of the club named last."""
        tokens = self.tokens
        article = phrase.start > 0 and tokens[phrase.start - 1].lower in ("a", "an", "the", "his", "her", "my")
        if not article or phrase.amounts[0].unit != "deg" or at >= len(tokens) or tokens[at].terminal != "WORD":
            return at
        run = run_at(self.scene, self.names.known, at)
        club = phrase_at(tokens, run.end) if run is not None and run.end < len(tokens) else None
        if run is None or club is None or club.rule != "club" or club.amounts:
            return at
        return run.end

    def _wants_loft(self) -> bool:
        """True when the wedge just named has no loft yet."""
        focus = self.scene.focus
        return bool(focus) and focus[-1].family == "wedge" and not focus[-1].has("head.loft")

    def _lofts_wanted(self, phrase: Phrase) -> bool:
        """True when as many wedges in focus lack a loft as the phrase has numbers."""
        focus = self.scene.focus
        return len(focus) == len(phrase.amounts) > 1 and all(not draft.has("head.loft") for draft in focus)

    def _candidates(self, phrase: Phrase) -> None:
        """Two clubs for one place: both are kept, and which it is is asked."""
        scene = self.scene
        first, second = scene.drafts[-2], scene.drafts[-1]
        led = phrase.start - 1
        while led > 0 and scene.tokens[led].terminal in ("SILENT", "NEWLINE"):
            led -= 1
        below = scene.tokens[led].lower == "or" and scene.line_start(led)  # "or 7 wood: …" below a 4 hybrid
        if first.row != second.row and not below:
            return
        scene.either = False
        scene.doubts.append(
            Doubt(phrase.line, second, "club", "either this club or the one before it: which is in the set?")
        )
