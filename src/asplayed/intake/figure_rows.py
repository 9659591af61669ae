"""Rows that tell one figure of many clubs: "Lofts: 5i 24, 6i 27.5, PW 45", "Lies: 5 61, 6 61.5"."""

from __future__ import annotations

from asplayed.intake import facts as said
from asplayed.intake.bare import bare as bare_figure
from asplayed.intake.drafts import Draft, Entry, of_group
from asplayed.intake.making import wedges_to
from asplayed.intake.phrases import CLUB_RULES, Amount, Phrase, phrase_at
from asplayed.intake.steps import step_at
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token

ROWS = {
    "LOFT": "loft", "LIE": "lie", "LENGTH": "length", "BOUNCE": "bounce", "SWINGWEIGHT": "swing", "TORQUE": "torque",
    "FREQUENCY": "frequency", "TOTALMASS": "total", "HEADMASS": "head.mass",
}  # fmt: skip
_ON = {"on", "of", "in", "for"}
_ZONES = {"head.bounce": "bounce", "length": "length", "as_played.lie": "lie", "stated.swing_weight": "swing"}
_HAVE = ("has", "at")
_LONGEST = 60  # tokens of such a row of clubs
_SHORTEST = 25  # inches: a smaller number before "long" is a change
_STANDARD = {"length": "length_change", "lie": "bend.lie"}  # what "standard" says behind this label
_BETWEEN = {"EQ", "SILENT", "DASH", "HYPHEN", "AT"}
_APART = {"COMMA", "SLASH", "AND", "STOP", "PIPE", "SILENT"}


class FigureRows(Stride):
    """Takes such a row whole, or leaves it to be read word by word when anything else stands in it."""

    def _figure_row(self, token: Token) -> bool:
        """Put each figure of the row on its club."""
        scene, tokens = self.scene, self.tokens
        zone = ROWS.get(token.terminal)
        opens = scene.line_start(self.at) or (self.at > 0 and tokens[self.at - 1].terminal in ("EQ", "COMMA"))
        if zone is None or not opens or scene.table is not None or not scene.drafts:
            return False
        if self.at + 1 >= len(tokens):
            return False
        marked = tokens[self.at + 1].text in (":", "=", "-", "–", "—")
        plural = token.lower.endswith("s") and tokens[self.at + 1].kind == "number"
        equated = self.at + 2 < len(tokens) and tokens[self.at + 2].terminal == "EQ"  # "loft 4 = 22, 5 = 25"
        sure = marked or plural or equated  # else three clubs tell that it is a row: "cpm 4i 312, 5i 316, 6i 320"
        at = end = self.at + 1 + marked
        while end < len(tokens) and tokens[end].terminal != "NEWLINE":
            if tokens[end].terminal == "STOP" and end + 1 < len(tokens) and tokens[end + 1].terminal in ROWS:
                break  # "Lofts 5 25, 6 28. Lies 5 61, 6 61.5"
            end += 1
        found: list[tuple[Draft, str, Entry]] = []
        pairs, stepped = 0, False
        while at < end:
            if tokens[at].terminal in _APART:
                at += 1
                continue
            if pairs and (stepped := step_at(tokens, at) is not None):
                end = at  # "Lies: the 4 iron at 61, then half a degree more each club"
                break
            named = at
            drafts, at = self._clubs_of_figure(at)
            while at < end and tokens[at].terminal in _BETWEEN:
                at += 1
            figures = _as_many(tokens, at, end, len(drafts)) or figures_at(tokens, at, end)
            if not drafts or not figures:
                return False
            pairs += len(figures) if len(figures) == len(drafts) else 1
            if len(figures) > 1 and (family := phrase_at(tokens, named)) is not None:
                woods = self.mentions.with_driver(family, drafts)
                drafts = woods if len(woods) == len(figures) else drafts
            figures = figures if len(figures) == len(drafts) else figures[:1]
            entries = of_each(figures, zone, drafts)
            if not entries:
                return False
            found += entries
            at = figures[-1].end
        if pairs < (2 if sure else 3) and not (sure and stepped):
            return False
        for draft, path, entry in found:
            draft.put(path, entry, correcting=scene.correcting > 0)
        scene.take(self.at, end)
        self.at = end
        if stepped:
            scene.last_path = (found[-1][1], [found[-1][0]])
        return True

    def _clubs_with_figures(self) -> bool:
        """ "6 is 37.5 long, 7 is 37 and 8 is 36.5": known clubs, each with its figure; one of them says of what.

        A noun before them says it too ("bounce on the 58 is 10, the 54 has 12"), and so does the figure just told.
        """
        scene, tokens = self.scene, self.tokens
        opens = scene.chunk_opens(self.at) or (self.at > 0 and tokens[self.at - 1].text == ":")
        if not opens or scene.table is not None or len(scene.drafts) < 2:
            return False
        at, end = self.at, min(scene.clause_end(self.at), self.at + _LONGEST)
        headed = ROWS.get(tokens[at].terminal, "") if at + 2 < end and tokens[at + 1].lower in _ON else ""
        at += 2 if headed else 0
        pairs: list[tuple[list[Draft], Phrase]] = []
        last = at
        while at < end:
            while at < end and tokens[at].terminal in ("COMMA", "AND", "SILENT"):
                at += 1
            clubs, behind = self._clubs_of_figure(at) if at < end else ([], at)
            if not clubs or behind >= end or not (tokens[behind].terminal == "EQ" or tokens[behind].lower in _HAVE):
                break
            figure = phrase_at(tokens, behind + 1) if behind + 1 < end else None
            if figure is None or figure.rule not in ("bare", "change", "labelled", "swing"):
                break
            pairs.append((clubs, figure))
            at = last = figure.end
        zone = headed or next((told for _clubs, figure in pairs if (told := _told_of(figure))), "")
        before = scene.clause_puts[-1][0] if not zone and pairs and scene.clause_puts else ""
        zone = zone or _ZONES.get(before, "")
        found = [entry for clubs, figure in pairs for entry in figures_of(_without_noun(figure), zone, clubs)]
        paths = {path for _draft, path, _entry in found}
        alike = len(paths) == 1 and (not before or before in paths)
        if len(pairs) < (1 if before else 2) or not zone or not alike or len(found) < len(pairs):
            return False
        for draft, path, entry in found:
            draft.put(path, entry, correcting=scene.correcting > 0)
        told_of = dict.fromkeys(draft for draft, _path, _entry in found)
        scene.clause_drafts += [draft for draft in told_of if draft not in scene.clause_drafts]
        scene.take(self.at, last)
        self.at = last
        return True

    def _lofts_of_heading(self, token: Token) -> bool:
        """Step over the label of "Lofts: 52, 58", "Loft/bounce: 50/08, 54/12" below "Wedges": each loft is a club."""
        scene, tokens = self.scene, self.tokens
        header = scene.header
        if token.terminal != "LOFT" or header is None or scene.focus != [header] or header.family == "iron":
            return False
        at = self.at + 1
        if at + 1 < len(tokens) and tokens[at].terminal in _APART and tokens[at + 1].terminal == "BOUNCE":
            at += 2
        while at < len(tokens) and tokens[at].terminal in _BETWEEN:
            at += 1
        row = tokens[at : scene.clause_end(at)]
        figures = sum(each.kind == "number" and _loft_of(each) >= 12 for each in row)
        if figures < 2 or row[0].kind != "number":
            return False
        scene.take(self.at, at)
        self.at, self.zone = at, ""
        if header.family != "wedge":
            end = at
            while end < len(tokens) and (tokens[end].kind == "number" or tokens[end].terminal in (*_APART, "DEG")):
                end += 1
            self._by_their_lofts(header, end - (tokens[end - 1].terminal in _APART))
        return True

    def _by_their_lofts(self, header: Draft, end: int) -> None:
        """Open a wood or hybrid of the heading for each loft up to `end`."""
        scene, tokens = self.scene, self.tokens
        lofts = [at for at in range(self.at, end) if tokens[at].kind == "number" and _loft_of(tokens[at]) >= 12]
        drafts = []
        for at in lofts:
            draft = Draft(header.family, line=tokens[at].line)
            draft.header = header
            draft.put("head.loft", Entry(_loft_of(tokens[at]), "deg", tokens[at].line, tokens[at].text))
            drafts.append(draft)
        scene.drafts += drafts
        self.mentions.note(drafts, Phrase("amounts", [tokens[at] for at in lofts], self.at, end))
        scene.focus, scene.grouped, scene.last_end = drafts, False, end
        for at in range(self.at, end):
            scene.claims[at] = scene.claims[at] or ("silent" if tokens[at].kind == "mark" else "club")
        self.at = end

    def _clubs_of_figure(self, at: int) -> tuple[list[Draft], int]:
        """The clubs of the set that stand at `at`, and the place behind them; none where a figure has no club."""
        scene, tokens = self.scene, self.tokens
        phrase = phrase_at(tokens, at)
        if phrase is None:
            return [], at
        clubs = phrase.rule in CLUB_RULES and phrase.rule != "code"
        if clubs and phrase.rule == "club" and phrase.tokens[-1].kind == "number" and len(phrase.tokens) == 2:
            word = Phrase("club", phrase.tokens[:1], phrase.start, phrase.start + 1)  # "hybrid 40"
            if (alone := self.mentions.find(word)) and phrase.amounts[0].value > 11:
                return alone[-1:], word.end
        if clubs and phrase.rule in ("club", "named", "family"):
            return self.mentions.find(phrase), phrase.end
        values = [amount.value for amount in phrase.amounts]
        if clubs and phrase.rule in ("span", "dashed") and len(values) in (1, 2):
            last = phrase.first("NAMEDWEDGE", "LETTER")
            high = 9.0 if last is not None else values[-1]
            named = wedges_to(last.value) if last is not None else ()
            found = [
                draft
                for draft in scene.drafts
                if (draft.number is not None and draft.family == "iron" and values[0] <= draft.number <= high)
                or (draft.in_range and draft.name in named)
            ]
            return found, phrase.end
        if phrase.rule != "bare" or phrase.amounts[0].unit not in ("", "deg") or phrase.amounts[0].signed:
            return [], at
        value = phrase.amounts[0].value
        return [
            draft
            for draft in scene.drafts
            if (draft.number == value and (draft.family == "iron" or draft in scene.focus))
            or (draft.family == "wedge" and draft.value("head.loft") == value)
        ], phrase.end


def _loft_of(token: Token) -> float:
    """The figure, or the loft of a loft and a bounce in one."""
    value = token.value[0] if isinstance(token.value, tuple) else token.value
    return float(value) if isinstance(value, int | float) else 0.0


def figures_at(tokens: list[Token], at: int, end: int) -> list[Phrase]:
    """The figures in a row here, up to the next club: "44.5, 42.5 and 41"."""
    found: list[Phrase] = []
    while at < end:
        figure = phrase_at(tokens, at)
        if figure is None or figure.rule not in ("bare", "change", "swing", "plainly"):
            break
        behind = tokens[figure.end] if figure.end < end else None
        club = behind is not None and (behind.kind == "number" or behind.terminal in ("EQ", "DASH", "HYPHEN"))
        if found and (club or figure.rule != found[-1].rule):
            break  # the number of the next club: "5 25, 6 28"
        found.append(figure)
        at = figure.end
        while at < end and tokens[at].terminal in _APART - {"STOP", "PIPE"}:
            at += 1
    return found


def _as_many(tokens: list[Token], at: int, end: int, count: int) -> list[Phrase]:
    """The figures of "cpm 4 to 9: 302 306 310 …": nothing but as many as there are clubs; [] for any other row."""
    numbers = [place for place in range(at, end) if tokens[place].terminal == "NUM"]
    if not len(numbers) == count > 1 or any(tokens[place].terminal not in ("NUM", *_APART) for place in range(at, end)):
        return []
    return [Phrase("bare", [tokens[place]], place, place + 1) for place in numbers]


def of_each(figures: list[Phrase], zone: str, drafts: list[Draft]) -> list[tuple[Draft, str, Entry]]:
    """One figure for all these clubs, or as many as there are clubs: one each, in order; [] for any other number."""
    if len(figures) == 1:
        return figures_of(figures[0], zone, drafts)
    if len(figures) != len(drafts):
        return []
    return [told for figure, draft in zip(figures, drafts, strict=True) for told in figures_of(figure, zone, [draft])]


def _told_of(figure: Phrase) -> str:
    """The zone that the figure's own words name: "37.5 long", "12 degrees of bounce"; "" for a number alone."""
    if figure.rule == "swing":
        return "swing"
    if figure.rule == "change" and figure.has("LONG") and figure.amounts and figure.amounts[0].value > _SHORTEST:
        return "length"
    nouns = [ROWS[token.terminal] for token in figure.tokens if token.terminal in ROWS]
    return nouns[0] if figure.rule == "labelled" and nouns and not figure.directions else ""


def _without_noun(figure: Phrase) -> Phrase:
    """The number alone of "37.5 long", "12 degrees of bounce"."""
    return Phrase("bare", figure.tokens, figure.start, figure.end) if _told_of(figure) not in ("", "swing") else figure


def figures_of(figure: Phrase, zone: str, drafts: list[Draft]) -> list[tuple[Draft, str, Entry]]:
    """What the figure says of each club: a loft, a lie, a length or a swing weight; [] for anything else."""
    if zone == "swing":
        weight = figure.first("SWV") if figure.rule == "swing" else None
        if weight is None:
            return []
        entry = Entry(str(weight.value), "1", figure.line, weight.text)
        return [(draft, "stated.swing_weight", entry) for draft in drafts]
    if figure.rule == "plainly":
        path = _STANDARD.get(zone, "")
        entry = Entry(0.0, "in" if zone == "length" else "deg", figure.line, figure.tokens[0].text)
        return [(draft, path, entry._replace(group=of_group(len(drafts)))) for draft in drafts if path]
    if figure.rule not in ("bare", "change"):
        return []
    found = []
    for draft in drafts:
        amount: Amount | None = figure.amounts[0] if figure.amounts else None
        bare = figure.rule == "bare" and amount is not None
        facts = bare_figure(amount, figure, draft, zone) if bare and amount else said.change(figure, draft, zone)
        if not facts or len(facts) > 1:
            return []
        entry = facts[0][1]._replace(group=of_group(len(drafts)))
        found.append((draft, facts[0][0], entry))
    return found
