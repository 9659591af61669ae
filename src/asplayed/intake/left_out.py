"""Captions over clubs that are not in the set: "HELD BACK: Gannet 25", "not in there anymore: the 2 hybrid"."""

from __future__ import annotations

from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import CLUB_RULES, TOLD, phrase_at, says, wedge_loft
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import KIN

_ELSEWHERE = {
    "anymore", "cancelled", "canceled", "declined", "rejected", "held", "gone", "sold", "spare",
    "former", "retired", "garage", "cupboard", "attic", "shed", "cellar", "basement", "store", "storage", "wardrobe",
    "missing", "excluded", "omitted", "removed", "returned", "traded", "donated", "unused", "stolen",
    "borrowed", "deleted", "dropped", "discontinued",
}  # fmt: skip
_NO_LONGER = (["no", "longer"], ["no", "part"], ["no", "more"], ["left", "out"], ["left", "behind"])
_NOT = {
    "in", "covered", "counted", "included", "carried", "carrying", "played", "part", "used", "there", "here", "mine",
    "ordered", "bought", "built", "among", "to", "kept", "his", "hers", "ours", "yours", "theirs",
}  # fmt: skip
_OLD = {"old", "previous", "former", "last"}
_WHOLE = {"set", "bag", "clubs", "gear", "line up", "setup", "lot", "kit"}
_KEPT = {"changed", "including", "included", "just"}  # "not changed: …"
_SET = {"clubs", "apart", "as", "everything"}  # "from memory, as the clubs are in the car: driver …"
_GIVEN = {"go", "goes", "gone", "went", "going", "passes", "passed"}
_LONGEST = 10  # words of a caption


def set_captioned_aside(scene: Scene) -> None:
    """Keep aside what stands behind a caption that says its clubs are not in the set."""
    tokens = scene.tokens
    for colon, token in enumerate(tokens):
        if token.text != ":" or scene.claims[colon] == "aside":
            continue
        start = colon
        while start and colon - start <= 2 * _LONGEST and tokens[start - 1].terminal not in ("STOP", "NEWLINE", "PIPE"):
            start -= 1
        while start < colon and (tokens[start].terminal == "BULLET" or scene.claims[start] in ("voice", "silent")):
            start += 1
        marks = [word.terminal for word in tokens[start:colon] if word.terminal in ("LPAR", "RPAR")]
        if marks[-1:] == ["LPAR"]:
            continue  # "Gannet 9 (last year: Burr 10.5)" is no caption
        end = _end_of_line(scene, colon)
        if start == 0 and not says(tokens, end, len(tokens), CLUB_RULES):
            continue  # "Selling my whole set: driver Gannet 10.5, …": what is told of is the set
        named = says(tokens, start, end, CLUB_RULES) or _stamped(tokens, colon + 1)
        if _leaves_out(scene, start, colon) and named:
            scene.set_aside(start, end)


def _stamped(tokens: list[Token], at: int) -> bool:
    """True for the "60 Vetch" of "For sale: 60 Vetch": a wedge by its loft alone."""
    stamp, name = (*tokens[at : at + 2], None, None)[:2]
    lofty = stamp is not None and isinstance(stamp.value, float) and wedge_loft(stamp.value)
    return lofty and name is not None and name.terminal == "WORD" and name.text[:1].isupper()


def _end_of_line(scene: Scene, colon: int) -> int:
    """Where what stands behind a caption ends: with its sentence, or before a line that begins with a club."""
    tokens, end = scene.tokens, scene.clause_end(colon)
    cells = tokens[colon + 1 : end]
    end = next((colon + 1 + at for at, token in enumerate(cells) if token.terminal == "PIPE"), end)
    for at in range(colon + 1, end):
        club = phrase_at(tokens, at + 1) if tokens[at].kind == "newline" and at + 1 < end else None
        if club is not None and club.rule in CLUB_RULES:
            return at
    return end


def set_had_aside(scene: Scene) -> None:
    """ "He'd had a Redstart driver until March": what somebody had until some time."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if token.lower != "until" or scene.claims[at]:
            continue
        start = _clause_start(tokens, at)
        if any(each.lower in ("had", "used", "played", "gamed") for each in tokens[start:at]):
            _set_club_aside(scene, start, at)


def set_given_aside(scene: Scene) -> None:
    """ "Her Burr 7 wood goes to her daughter": a club that somebody of the family or a friend gets."""
    tokens = scene.tokens
    for at in range(1, len(tokens) - 2):
        verb = tokens[at].lower.split()
        joined = len(verb) == 2  # "goes to", one word of the trade where a range is told
        given = verb[0] in _GIVEN if verb else False
        given = given and (verb[1] if joined else tokens[at + 1].lower) == "to"
        owner, kin = (token.lower for token in tokens[at + 2 - joined : at + 4 - joined]) if given else ("", "")
        owned = owner in ("her", "his", "my", "our", "their") and kin in RELATED | KIN
        if given and owned and not scene.claims[at]:
            _set_club_aside(scene, _clause_start(tokens, at), at)


def _clause_start(tokens: list[Token], at: int) -> int:
    """Where what is told before `at` begins: behind the mark before it."""
    start = at
    while start and at - start < CLAUSE and tokens[start - 1].terminal not in ("STOP", "NEWLINE", "COMMA"):
        start -= 1
    return start


def _set_club_aside(scene: Scene, start: int, at: int) -> None:
    """Keep the clause aside when a club is named in it before `at`."""
    if says(scene.tokens, start, at, CLUB_RULES):
        scene.set_aside(start, scene.clause_end(at))


def _leaves_out(scene: Scene, start: int, colon: int) -> bool:
    """True for the words of such a caption: they say where else the clubs are, and open with no part or figure."""
    words = scene.tokens[start:colon]
    lower = [word.lower for word in words]
    if not 0 < len(words) <= _LONGEST or words[0].terminal in TOLD or set(lower) & _KEPT:
        return False
    if any(token.text == ":" for token in words):
        return False
    if "not only" in " ".join(lower):
        return False
    pairs = [lower[at : at + 2] for at in range(len(lower))]
    old = any(pair[0] in _OLD and pair[-1] in _WHOLE for pair in pairs)
    aside = any(word.terminal == "ASIDE" for word in words) and not set(lower) & _SET
    return (
        aside
        or old
        or bool(set(lower) & _ELSEWHERE)
        or any(pair in _NO_LONGER or (pair[0] in ("not", "never") and pair[-1] in _NOT) for pair in pairs)
    )
