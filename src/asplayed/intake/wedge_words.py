"""Words that name a wedge by itself: "the gap", "Sand 56", "for sand I have …"."""

from __future__ import annotations

from asplayed.intake.tokens import DASHES, Token, behind_capitals, lines_of, spanning

WEDGE_WORDS = {
    "sand": "sand wedge", "gap": "gap wedge", "lob": "lob wedge", "approach": "gap wedge",
    "pitching": "pitching wedge", "pitch": "pitching wedge",
}  # fmt: skip
LETTERED = {
    "P": "pitching wedge", "G": "gap wedge", "A": "gap wedge", "S": "sand wedge", "L": "lob wedge",
}  # fmt: skip
_HEADS = {":", "=", "/", "|", "-", "–", "—", ","}  # behind the word that a line begins with
_LETTERED_LOFTS = {"P": (43, 49), "G": (48, 53), "S": (54, 57), "L": (58, 64)}  # "A" is an article sooner
_NO_LOFT = {"g", "in", '"', "inches", "grams", "cm"}
_LONGEST = 3  # words of a model's name
SET_WORDS = {"set", "set's", "set’s", "matching"}  # "set PW and set gap": wedges of the irons' own model
STAMPED = {"gap": (48.0, 54.0), "sand": (54.0, 58.0), "lob": (58.0, 64.0)}  # lofts that go with the word
_TITLES = {"mr", "mrs", "ms", "miss", "dr", "prof"}
_BEFORE_CODES = {"the", "and", "to", "thru", "through", "a", "an", "no", "&", *DASHES, "/", ","}


def undotted(tokens: list[Token]) -> list[Token]:
    """The tokens with "P.W.", "S.W." as the one word each stands for; "S.W. Brandt" may be somebody's initials."""
    codes = {token.lower for at, token in enumerate(tokens) if _code_size(tokens, at)}
    found: list[Token] = []
    for line in lines_of(tokens):
        stamped = len(codes) > 1 or any(isinstance(one.value, float) and 44 <= one.value <= 64 for one in line)
        at = 0
        while at < len(line):
            size = _code_size(line, at)
            titled = any(token.lower in _TITLES for token in line[max(0, at - 2) : at])  # "Mr. P.W. Brandt"
            told = stamped or (at > 0 and line[at - 1].lower in _BEFORE_CODES)
            if size and not titled and told:
                found.append(spanning(f"{line[at].text}{line[at + 2].text}", "word", line[at], line[at + size - 1]))
                at += size
            else:
                found.append(line[at])
                at += 1
    return found


def _code_size(tokens: list[Token], at: int) -> int:
    """Of how many tokens the code of a wedge is that begins here, a full stop behind its letters; 0 for none."""
    letter, *rest = tokens[at : at + 4]
    if letter.lower not in ("p", "g", "a", "s", "l", "u") or len(rest) < 2 or rest[1].lower != "w":
        return 0
    alike = rest[0].text == "." and letter.text.isupper() == rest[1].text.isupper()
    if not alike or not all(token.glued for token in rest[:2]) or len(letter.text + rest[1].text) > 2:
        return 0
    return 4 if rest[2:] and rest[2].text == "." and rest[2].glued else 3


def lettered_wedge(tokens: list[Token], position: int) -> str:
    """The wedge of a line "P Dunlin 46", "S Stint 56": a letter, a model's name and a loft that goes with both."""
    name = behind_capitals(tokens, position + 1)
    stamp = tokens[name].value if position + 1 < name < len(tokens) and not tokens[position + 1].glued else None
    low, high = _LETTERED_LOFTS.get(tokens[position].text, (1, 0))
    behind = tokens[name + 1].lower if name + 1 < len(tokens) else ""
    lofty = isinstance(stamp, float) and low <= stamp <= high and behind not in _NO_LOFT
    return LETTERED[tokens[position].text] if lofty else ""


def stamps_around(tokens: list[Token], at: int) -> bool:
    """True between the lofts of two wedges, the lower first: "52; 58", "50-08 F; 54-10 F"."""
    before = at - 1 - (at > 1 and tokens[at - 1].kind == "word" and len(tokens[at - 1].text) == 1)
    if before > 2 and tokens[before - 1].text in "-/." and tokens[before - 2].kind == "number" and tokens[before].glued:
        before -= 2  # its bounce
    if before < 0 or at + 1 >= len(tokens):
        return False
    first, second = tokens[before].value, tokens[at + 1].value
    return isinstance(first, float) and isinstance(second, float) and 46 <= first < second <= 64


def names_wedge(tokens: list[Token], words: list[str], position: int, tagged: list[Token]) -> bool:
    """True where one of WEDGE_WORDS, tagged last, names a club: heads a line, stands in a row or by its loft."""
    before = tagged[-2] if len(tagged) > 1 else None
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    if wedge_named_later(tokens, words, position) or for_sand(tokens, position):
        return True
    if wedge_by_loft(tokens, position, before):
        return True
    wedges = any(entry.terminal == "WEDGE" for entry in tagged[-60:])
    if before is None or before.terminal in ("NEWLINE", "BULLET", "STOP"):
        told = after is not None and (after.text in _HEADS or after.lower in ("is", "has"))
        return wedges or told or _model_and_loft(tokens, position)
    if before.terminal == "DASH" and before.glued and tokens[position].glued:
        return len(tagged) > 2 and tagged[-3].kind == "number"  # "7-sand"
    if before.terminal == "RANGE":
        return True
    if before.terminal in ("AND", "COMMA"):
        return wedge_before(tagged)
    if before.lower in SET_WORDS and words[position] in ("gap", "pitching"):
        return True
    named = after is not None and after.text[:1].isupper()
    return before.lower in ("a", "the", "his", "her", "my") and not named and wedges


def _model_and_loft(tokens: list[Token], position: int) -> bool:
    """True for the "Sand" of "Sand Burr 56": a wedge's loft stands behind a name on the same line."""
    end = behind_capitals(tokens, position + 1, _LONGEST)
    stamp = tokens[end].value if position + 1 < end < len(tokens) else None
    return isinstance(stamp, float) and 44 <= stamp <= 64


def wedge_named_later(tokens: list[Token], words: list[str], position: int) -> bool:
    """True for the "gap" of "pitching, gap and sand wedge"."""
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    if after is None or not (after.text in (",", "/", "&") or after.lower == "and"):
        return False
    return any(word in ("wedge", "wedges") for word in words[position + 2 : position + 7])


def for_sand(tokens: list[Token], position: int) -> bool:
    """True for the "sand" of "For sand I have a Teasel of fifty-six degrees", "For the bunkers there is …"."""
    near = [token.lower for token in tokens[max(0, position - 2) : position + 3] if token.lower != "the"]
    word = tokens[position].lower if tokens[position].lower in ("sand", "bunkers", "bunker") else "sand"
    near = near[near.index(word) - 1 :] if word in near[1:] else []
    led = (["i"], ["he"], ["she"], ["there's"], ["it's"], [","], ["a"], ["my"], ["there"])
    return near[:2] == ["for", word] and near[2:3] in led


def wedge_by_loft(tokens: list[Token], position: int, before: Token | None) -> bool:
    """True for the "Gap" of "Gap 50, Sand 56": a wedge's word with a wedge's loft behind it."""
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    lofted = after is not None and isinstance(after.value, float) and 44 <= after.value <= 64 and not after.sign
    low, high = STAMPED.get(tokens[position].lower, (1.0, 0.0))
    if lofted and before is not None and before.terminal == "WORD" and low <= after.value <= high:  # type: ignore[union-attr,operator]
        return True  # "a crake sand fifty five"
    return lofted and (before is None or before.terminal in ("NEWLINE", "BULLET", "STOP", "COMMA", "AND", "SLASH"))


def wedge_before(tagged: list[Token]) -> bool:
    """True for a word, tagged last, behind another wedge's ("pitching and gap")."""
    behind = [token for token in tagged[-4:-1] if token.terminal not in ("AND", "COMMA")]
    return bool(behind) and behind[-1].terminal == "NAMEDWEDGE"
