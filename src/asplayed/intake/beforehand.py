"""What a list says of groups of clubs before it names any: it is heard when the clubs are known, at the end."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.groups import FAMILIES, RESTING
from asplayed.intake.phrases import CLUB_RULES, says
from asplayed.intake.tokens import Token
from asplayed.intake.wording import EXCEPT

_TOLD = {"SHAFTWORD", "GRIPWORD", "FLEX", "FLEXCODE", "UPRIGHT", "FLAT", "LONG", "SHORT"}
_EXCEPTING = {*EXCEPT, "but"}
_ENDS = ("STOP", "NEWLINE")
_KINDS = {*FAMILIES, "NAMEDWEDGE"}
_LONGEST = 60  # tokens of such a sentence; a longer one tells of a whole set in one breath
_OPENS = 4  # tokens in which a sentence names its own club


def heard_last(tokens: list[Token]) -> tuple[list[Token], int]:
    """The tokens with what opens the list about groups of clubs moved behind the rest, and where that begins.

    "Everything from the 5 iron down is on Basalt 105 S. Driver …": the sentence waits until its clubs are known.
    """
    moved: list[Token] = []
    kept: list[Token] = []
    at = 0
    while at < len(tokens):
        end = at
        while end < len(tokens) and tokens[end].terminal not in _ENDS:
            end += 1
        clause = tokens[at : end + 1]
        if _of_groups(clause) or _told_again(clause, tokens[end + 1 :]) or _and_the_rest(tokens, at, end):
            moved += _parted(clause)
        elif _names_a_club(clause):
            break
        else:
            kept += clause
        at = end + 1
    rest, pointing = _pointing_ahead(tokens[at:])
    if not (moved or pointing) or not rest:
        return tokens, len(tokens)
    begin = len(kept) + len(rest) + len(pointing)
    return kept + rest + pointing + moved, begin


def _pointing_ahead(tokens: list[Token]) -> tuple[list[Token], list[Token]]:
    """The tokens without the sentences that point at clubs named later only, and those sentences.

    "Sand wedge Burr 56, shafted as the irons" above the irons is read below them.
    """
    kept: list[Token] = []
    moved: list[Token] = []
    named: set[str] = set()
    start = 0
    while start < len(tokens):
        end = start
        while end < len(tokens) and tokens[end].terminal not in _ENDS:
            end += 1
        clause = tokens[start : end + 1]
        at = _pointed_at(clause)
        own = {token.terminal for token in clause[: max(at, 0)] if token.terminal in _KINDS}
        aim = clause[at].terminal if at > 0 else ""
        line = (start == 0 or tokens[start - 1].terminal == "NEWLINE") and clause[-1].terminal == "NEWLINE"
        ahead = (
            line
            and aim
            and own
            and aim not in named | own
            and any(token.terminal == aim for token in tokens[end + 1 :])
        )
        if ahead and any(token.terminal in _KINDS for token in clause[:_OPENS]):
            moved += clause
        else:
            kept += clause
        named |= {token.terminal for token in clause if token.terminal in _KINDS}
        if any(one.kind == "number" and other.terminal in ("DASH", "RANGE") for one, other in pairwise(clause)):
            named.add("IRON")  # "7-PW" tells of irons without their word
        start = end + 1
    return kept, moved


def _pointed_at(clause: list[Token]) -> int:
    """Where the irons stand in "shafted as the irons", "with the irons' shaft"; -1 where nothing is pointed at."""
    for at in range(2, len(clause)):
        if clause[at].terminal not in _KINDS:
            continue
        led = [token.lower for token in clause[max(0, at - 3) : at]]
        behind = clause[at + 1 : at + 3]
        owned = clause[at].lower.endswith(("s'", "'s")) or (bool(behind) and behind[0].text in ("'", "’"))
        if {"as", "like"} & set(led) or (owned and any(token.terminal == "SHAFTWORD" for token in behind)):
            return at
    return -1


def _of_groups(clause: list[Token]) -> bool:
    """True for "all clubs but the putter have …", "irons and wedges are all on …" and their like."""
    told = [token.terminal for token in clause]
    families = [token for token in clause if token.terminal in FAMILIES]
    plural = sum(token.lower.endswith("s") for token in families)
    if {"SWINGWEIGHT", "SWV"} <= set(told) and plural == len(families) > 1:
        return True  # "Swing weight D1 on the woods and hybrids, D3 on the irons and wedges."
    if _figures_by_club(clause) > 1 and ("ALL" in told or plural):
        return True  # "All the woods have the Reed: 60 in the driver, 70 in the three wood."
    if (
        len(told) > _LONGEST
        or "ALL" not in told
        or not _TOLD & set(told)
        or any(token.text == ":" for token in clause[:2])
    ):
        return False
    excepting = any(token.lower in _EXCEPTING for token in clause)
    ranged = any(token.terminal in ("DOWN", "UP", "RANGE") for token in clause) and bool(families)
    return bool(families) and (excepting or ranged or plural == len(families) > 1)


def _and_the_rest(tokens: list[Token], start: int, end: int) -> bool:
    """True for "The woods have the Reed, 60 g, regular. Everything else has the Osier 100 S": for each of the two."""
    resting = _opens_with_rest(tokens, start)
    before = next((at for at in range(start - 2, -1, -1) if tokens[at].terminal in _ENDS), -1) + 1
    first = (before, start - 1) if resting else (start, end)
    clause = tokens[first[0] : first[1]]
    families = [token for token in clause if token.terminal in FAMILIES]
    group = bool(families) and all(token.lower.endswith(("s", "head")) for token in families)
    shafted = {"FLEX", "FLEXCODE"} & {token.terminal for token in clause}
    return group and bool(shafted) and _opens_with_rest(tokens, start if resting else end + 1)


def _opens_with_rest(tokens: list[Token], at: int) -> bool:
    return any(token.lower in RESTING for token in tokens[at : at + 2])


def _figures_by_club(clause: list[Token]) -> int:
    """How many figures stand before the club that they are of: "60 in the driver, 70 g for the three wood"."""
    found = 0
    for at, token in enumerate(clause):
        behind = [one.terminal for one in clause[at + 1 : at + _OPENS + 2]]
        lead = behind.index("IN") if "IN" in behind[:2] else -1
        found += token.kind == "number" and lead >= 0 and bool(_KINDS & set(behind[lead:]))
    return found


def _told_again(clause: list[Token], rest: list[Token]) -> bool:
    """True for "The driver, the hybrid and the irons are all Gannet" where lines below begin with each of these."""
    kinds = [token for token in clause if token.terminal in FAMILIES]
    figures = (one for one, other in pairwise(clause) if one.kind == "number" and other.terminal not in FAMILIES)
    if len(kinds) < 2 or any(figures) or clause[-1].kind == "number":
        return False
    if not any(token.terminal == "WORD" and token.text[:1].isupper() for token in clause):
        return False
    single = {token.terminal for token in kinds if not token.lower.endswith("s")}
    return (single or {token.terminal for token in kinds}) <= _opening_lines(rest)


def _opening_lines(tokens: list[Token]) -> set[str]:
    """The kinds of club that lines begin with, their numbers and marks before them."""
    kinds: set[str] = set()
    opens = False
    for token in tokens:
        if opens and token.terminal in FAMILIES:
            kinds.add(token.terminal)
        opens = token.kind == "newline" or (opens and token.kind != "word")
    return kinds


def _parted(clause: list[Token]) -> list[Token]:
    """The clause with a stop where a second statement of all begins: "…, and every club but the putter has …"."""
    for at in range(2, len(clause) - 1):
        if clause[at].terminal == "ALL" and clause[at - 1].terminal in ("AND", "COMMA"):
            clause[at - 1].terminal = "STOP"
    return clause


def _names_a_club(clause: list[Token]) -> bool:
    return says(clause, 0, len(clause), CLUB_RULES)
