"""Old and new in one list: "Current: … Proposed: …", "the driver was a Knot, now a Gannet", "(was a Knot)"."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.groups import FAMILIES
from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import CLUB_RULES, Phrase, phrase_at, says
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token, line_end

WAS = {"current", "currently", "old", "before", "existing", "previous", "previously"}
IS = {"proposed", "recommended", "new", "after", "fitted", "replacement", "recommendation", "now"}
_BRACKETED = {
    "was",
    "were",
    "previously",
    "formerly",
    "replaces",
    "replaced",
    "replacing",
    "old",
    "before",
    "last year",
    "last season",
    "before that",
}
_CLUBS = FAMILIES.keys() - {"CHIPPER"}
_FITS = {"fit", "install", "fitted", "installed", "replace"}
_PARTS = {"SLEEVE", "LENGTH", "LIE", "LOFT", "SWINGWEIGHT", "BOUNCE"}
_CHOSE = {"settled on", "went with", "moved to", "ended with", "finished with", "chose the", "chose a"}
_STATED = {"wrote", "said", "put", "told", "gave", "typed", "listed", "had", "quoted"}  # "I wrote 44.5 for the driver"
_WRITERS = {"i", "we", "i'd", "we'd", "i've"}
_HOLDS = {"is", "are", "be", "its", "it", "but", "meant", "actually", "make", "that"}  # "it should be 45"
_SETS = {"bag", "set", "clubs", "build", "setup", "specs", "spec"}
_CAME = ("came", "arrived", "turned up", "walked in", "brought", "coming in", "comes in")  # … "with:"
_LEFT = ("goes out", "going out", "went out", "leaves", "left", "leaving", "walks out", "walked out", "goes home",
         "went home", "going home", "takes home", "took home", "takes away", "took away")  # fmt: skip
_DENIED = {"not", "not the", "not a", "not an"}
_MOST_WORDS = 6  # of a heading "What he came in with on Tuesday:"


def set_was_aside(scene: Scene) -> None:
    """Keep aside what was, where the same list says what is."""
    _in_brackets(scene)
    _under_headings(scene)
    _in_clauses(scene)
    _in_and_out(scene)
    _in_one_breath(scene)
    _last_year(scene)
    _pulled(scene)
    _misstated(scene)
    _not_but(scene)
    _replaced_by(scene)


def _not_but(scene: Scene) -> None:
    """ "The irons are not the Knot but the Gannet": the first is denied, the second told."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        if tokens[at].lower not in _DENIED or tokens[at - 1].terminal != "EQ" or scene.claims[at]:
            continue
        near = range(at + 2, min(at + 8, scene.clause_end(at)))
        but = next((place for place in near if tokens[place].lower == "but"), 0)
        if but and tokens[at + 1].lower != "only" and not any(token.kind == "mark" for token in tokens[at:but]):
            _keep_aside(scene, at, but)
            scene.claims[but] = "silent"
            for old in tokens[at:but]:
                old.terminal = "OLD"


def _replaced_by(scene: Scene) -> None:
    """ "The Knot has been replaced by a Gannet putter": a model that another one stands for now."""
    tokens = scene.tokens
    for at in range(2, len(tokens) - 2):
        been = tokens[at - 1].lower in ("been", "was", "is", "got", "were")
        if tokens[at].lower != "replaced" or not been or tokens[at + 1].lower not in ("by", "with") or scene.claims[at]:
            continue
        start, end = scene.clause_opening(at), scene.clause_end(at)
        part = any(token.terminal in ("SHAFTWORD", "GRIPWORD", "SLEEVE") for token in tokens[start:at])
        old = says(tokens, start, at, CLUB_RULES) or _names(tokens[start + 1 : at])
        if old and not part and says(tokens, at + 2, end, CLUB_RULES):
            _keep_aside(scene, start, at + 2)


def _misstated(scene: Scene) -> None:
    """ "I wrote 44.5 inches for the driver, it is 45 inches": the first figure was a slip, the second puts it right."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 3):
        if tokens[at].lower not in _STATED or tokens[at - 1].lower not in _WRITERS or scene.claims[at]:
            continue
        first = at + 1
        while first < at + 4 and first < len(tokens) and tokens[first].kind == "word":
            first += tokens[first].terminal == "SILENT" or 4
        slip = phrase_at(tokens, first) if first < len(tokens) else None
        if slip is None or slip.rule not in ("bare", "labelled") or len(slip.amounts) != 1:
            continue
        end = scene.clause_end(slip.end)
        club = says(tokens, max(0, at - 6), at, CLUB_RULES) or says(tokens, slip.end, end, CLUB_RULES)
        onward = scene.clause_end(min(end + 1, len(tokens)))  # "I said 120 in the irons. It's 130."
        if club and any(_puts_right(tokens, place, slip) for place in range(slip.end, onward)):
            scene.set_aside(at - 1, slip.end)
            scene.claims[at - 1], tokens[at - 1].terminal = "", "CORRECTION"


def _puts_right(tokens: list[Token], at: int, slip: Phrase) -> bool:
    """True for the figure of "it is 45", near to the slip and of its unit."""
    said = tokens[at - 1].lower
    figure = phrase_at(tokens, at) if said in _HOLDS or said.endswith(("'s", "'re")) else None
    if figure is None or figure.rule != "bare":
        return False
    wrong, right = slip.amounts[0], figure.amounts[0]
    alike = not wrong.unit or not right.unit or wrong.unit == right.unit
    return alike and 0 < abs(wrong.value - right.value) <= 0.3 * wrong.value


def _in_brackets(scene: Scene) -> None:
    """ "Gannet 9 (was Knot 10.5)": the bracket says what stood there before."""
    tokens = scene.tokens
    for at in range(len(tokens) - 1):
        if tokens[at].terminal != "LPAR" or tokens[at + 1].lower not in _BRACKETED:
            continue
        end = at + 1
        while end < len(tokens) and tokens[end].terminal not in ("RPAR", "NEWLINE"):
            end += 1
        figured = any(token.kind == "number" for token in tokens[at + 2 : end])
        if figured or _names(tokens[at + 2 : end]):
            _keep_aside(scene, at + 1, end)


def _under_headings(scene: Scene) -> None:
    """ "OLD BAG" and the lines below it, up to "NEW BAG"."""
    tokens = scene.tokens
    starts = [at for at in range(len(tokens)) if at == 0 or tokens[at - 1].kind == "newline"]
    headings = [(at, kind) for at in starts if (kind := _heading(tokens, at))]
    if {kind for _at, kind in headings} != {"was", "is"}:
        return
    for (at, kind), (end, _next) in zip(headings, [*headings[1:], (len(tokens), "")], strict=True):
        line = line_end(tokens, at)
        if kind == "is":
            scene.claims[at:line] = ["silent"] * (line - at)
            continue
        for start in [index for index in starts if at <= index < end]:
            stop = line_end(tokens, start)
            measured = any(token.terminal == "NOTE" and token.value == "figures" for token in tokens[start:stop])
            if stop > start and not measured:  # "98 mph with the driver" is of the player
                _keep_aside(scene, start, stop)


def _heading(tokens: list[Token], at: int) -> str:
    """ "was" for a line "Old bag:", "Came in with:", "is" for a line "New bag:", "Goes out with:", "" for any other."""
    end = line_end(tokens, at)
    bracket = next((place for place in range(at, end) if tokens[place].terminal == "LPAR"), end)
    words = [token.lower for token in tokens[at:bracket] if token.kind == "word"]
    if not words or len(words) > _MOST_WORDS or any(token.kind == "number" for token in tokens[at:bracket]):
        return ""
    if tokens[end - 1].text == ":" or bracket == end == at + len(words):
        said = f" {' '.join(words)} "
        if any(f" {verb} " in said for verb in _LEFT):
            return "is"
        if any(f" {verb} " in said for verb in _CAME):
            return "was"
    if len(words) > 2 or bracket < end:
        return ""
    if words[1:] and words[1] not in _SETS:
        return ""
    return _label(words[0])


def _label(word: str) -> str:
    related = word.endswith(("'s", "’s")) and word[:-2] in RELATED  # "wife's:" below "mine:"
    return "was" if word in WAS or related else "is" if word in IS or word == "mine" else ""


def _in_clauses(scene: Scene) -> None:
    """ "Current: driver Knot. Proposed: driver Gannet": sentences and lines that say at once which they tell of."""
    tokens = scene.tokens
    found: list[tuple[int, str]] = []
    for at in range(len(tokens) - 1):
        colon = tokens[at + 1].text == ":" or tokens[at].lower in ("currently", "previously")
        if scene.line_start(at) and not scene.claims[at] and colon and (kind := _label(tokens[at].lower)):
            found.append((at, kind))
    if {kind for _at, kind in found} != {"was", "is"}:
        return
    for at, kind in found:
        if kind == "was":
            _keep_aside(scene, at, scene.clause_end(at))
        else:
            scene.claims[at] = scene.claims[at + 1] = "silent"


def _in_and_out(scene: Scene) -> None:
    """ "In: Burr 95 R, worn. Out: Knot 105 S", "Out: Burr 95 R. In: Knot 105 S": what leaves the bench holds.

    Whichever of the two comes first is what came to the bench.
    """
    tokens = scene.tokens
    opens = [at for at in range(len(tokens) - 1) if scene.line_start(at)]
    labels = [at for at in opens if tokens[at + 1].text == ":" or tokens[at].text.endswith(":")]
    taken = -1
    for at, onward in pairwise(labels):
        words = {tokens[place].lower.rstrip(" :") for place in (at, onward)}
        if at <= taken or words != {"in", "out"} or tokens[onward].line - tokens[at].line > 2:
            continue
        said = [(at, scene.clause_end(at)), (onward, scene.clause_end(onward))]
        told = [place for start, end in said for place in range(start, end) if tokens[place].terminal in _CLUBS]
        if any(tokens[place - 1].lower != "as" for place in told):
            continue  # "In: 5 wood. Out: 3 wood": clubs that came into the set and went
        _keep_aside(scene, *said[0])
        scene.hide(onward, onward + 1 + (tokens[onward + 1].text == ":"))
        taken = onward


def _last_year(scene: Scene) -> None:
    """ "Driver: last year a Knot 10.5, this year a Gannet 9.5": the first is what was."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.lower not in ("last year", "last season") or scene.claims[at]:
            continue
        end = line_end(tokens, at)
        now = (
            place
            for place in range(at + 2, end - 1)
            if tokens[place].lower == "this" and tokens[place + 1].lower in ("year", "season", "week")
        )
        this = next(now, 0)
        if this and tokens[this - 1].kind == "mark":
            _keep_aside(scene, at, this - 1)
            scene.hide(this, this + 2)
            for old in tokens[at : this - 1]:
                old.terminal = "OLD"


def _in_one_breath(scene: Scene) -> None:
    """ "The driver was a Knot 9.5, now a Gannet": what stands between the two words was."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if scene.claims[at] or token.lower not in ("was", "were", "current", "currently") or at == 0:
            continue
        part = tokens[at - 1].terminal in _PARTS or _figure_apart(tokens, at)
        if tokens[_behind_club(tokens, at)].terminal not in _CLUBS and not part:
            continue
        behind = at + 1
        while behind < len(tokens) and tokens[behind].kind != "newline" and behind - at < 16:
            parted = tokens[behind - 1].terminal in ("COMMA", "STOP", "AND", "DASH", "SLASH")
            if parted and tokens[behind].lower in ("now", "proposed", "recommended", "new"):
                break
            chose = tokens[behind].lower in ("we", "you", "he", "she", "i") and parted
            if chose and " ".join(token.lower for token in tokens[behind + 1 : behind + 3]) in _CHOSE:
                break
            behind += 1
        else:
            continue
        told = _names(tokens[at + 1 : behind]) or any(one.terminal == "STD" for one in tokens[at + 1 : behind])
        if part and tokens[behind - 1].text == ",":  # "Lie was 70, now 71": the figure behind is still the lie
            _keep_aside(scene, at, behind - 1)
            for old in tokens[at : behind - 1]:
                old.terminal = "OLD"  # no phrase of the part and what it was
            scene.hide(behind - 1, behind + 1)
            continue
        if told and tokens[behind - 2].lower not in ("it's", "is"):
            _keep_aside(scene, at, behind - 1)
            scene.claims[behind] = "silent"
            if tokens[behind - 1].terminal == "STOP":
                tokens[behind - 1].terminal = "COMMA"  # the club is still spoken of


def _figure_apart(tokens: list[Token], at: int) -> bool:
    """True for "…, was 45½ in, now 45 in": a stretch of nothing but what a figure was."""
    figure = phrase_at(tokens, at + 1) if tokens[at - 1].text == "," else None
    now = tokens[figure.end + 1] if figure is not None and figure.end + 1 < len(tokens) else None
    return figure is not None and bool(figure.amounts) and now is not None and now.lower == "now"


def _behind_club(tokens: list[Token], at: int) -> int:
    """The place before "was", stepping back over the colon and the bracket of "7-PW (Knot): were standard"."""
    at -= 1
    if at > 0 and tokens[at].text == ":":
        at -= 1
    if at > 0 and tokens[at].terminal == "RPAR":
        first = tokens[at].line
        while at > 0 and tokens[at].terminal != "LPAR" and tokens[at].line == first:
            at -= 1
        at -= at > 0
    return at


def _pulled(scene: Scene) -> None:
    """ "4-PW Knot pull Burr 120 X fit Burr 105 S": at the bench the shaft that is pulled was."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        out = token.lower == "take" and at + 1 < len(tokens) and tokens[at + 1].lower == "out"
        if not (out or token.lower in ("pull", "remove", "pulled", "removed")) or scene.claims[at]:
            continue
        near = range(at + 1, min(at + 11, line_end(tokens, at + 1)))
        end = next((index for index in near if tokens[index].lower in _FITS), None)
        if end is not None and _names(tokens[at + 1 : end]):
            _keep_aside(scene, at, end - (tokens[end - 1].terminal in ("COMMA", "AND", "SLASH")))


def _names(tokens: list[Token]) -> bool:
    """True when a word that can be a name stands among these."""
    return any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens)


def _keep_aside(scene: Scene, start: int, end: int) -> None:
    if not all(scene.claims[start:end]):
        scene.set_aside(start, end, yielding=True)
