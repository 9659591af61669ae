"""Which words are plain English, which can be part of a name, and where people talk rather than list."""

from __future__ import annotations

from functools import cache
from importlib import resources
from itertools import pairwise

from asplayed.intake.groups import FAMILIES
from asplayed.intake.numbers import MONTHS
from asplayed.intake.scene import Scene
from asplayed.intake.tokens import Token

# What people do with clubs: a word behind a person's name.
VERBS = {
    "plays", "uses", "carries", "has", "swings", "games", "hits", "wants", "used", "played", "carried", "had",
    "gamed", "use", "play", "prefers", "likes", "putts", "came", "comes", "visited", "asked", "wins", "won", "took",
    "takes", "claimed", "lifted", "captured", "changed", "switched",
}  # fmt: skip
# What only people do: "Sam took half an inch off", "Ada reckons".
_SAYS = {
    "took", "said", "says", "told", "tells", "reckons", "reckoned", "thinks", "thought", "gave", "advised", "suggested",
    "recommended", "insisted", "insists", "asked", "asks", "wanted",
}  # fmt: skip
EXCEPT = {"except", "exc", "excl", "bar", "excluding", "excepting", "apart"}
_SHORT_FORMS = {"vat", "rrp", "tbc", "tba", "asap", "fyi", "btw", "imo", "imho", "lol", "ta", "thx", "haha", "ps", "nb"}
_DAYS = {
    "jan", "feb", "apr", "jun", "jul", "aug", "sept", "oct", "nov", "dec", "mon", "tue", "tues", "wed", "thu", "thurs",
    "fri", "sat", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
}  # fmt: skip
KIN = {"granny", "gran", "nan", "nana", "grandad", "grandpa", "grandma", "mum", "mom", "dad", "daddy", "mummy", "pop"}
_FEW_CAPITALS = 4  # a person's name and a word or two, where the models have none
_LINKING = {"COMMA", "EQ", "SILENT", "DASH"}  # what may stand between a club and its model
# What is ticked off behind a line, and is no part.
_REMARKS = {
    "checked", "passed", "done", "ok", "okay", "present", "absent", "approved", "verified", "ready", "paid", "good",
    "fine", "correct", "enthusiastic", "excellent", "agreed",
}  # fmt: skip


@cache
def ordinary_words() -> frozenset[str]:
    """Plain English words that name no part (`data/ordinary_words.txt`)."""
    text = resources.files("asplayed.intake").joinpath("data/ordinary_words.txt").read_text(encoding="utf-8")
    return frozenset(" ".join(line for line in text.splitlines() if not line.startswith("#")).split())


def cased(scene: Scene) -> bool:
    """True where the writer uses capitals inside his lines: small words then begin no name."""
    capitals = [t for t in scene.tokens if t.terminal == "WORD" and t.text[:1].isupper()]
    club = next((token.start for token in scene.tokens if token.terminal in FAMILIES), 0)
    inner = [t for t in capitals if scene.source.text[max(0, t.start - 2) : t.start].strip(" ") not in (".", "")]
    if club and not any(token.start > club for token in inner):
        return False  # "okay, player is Ada Brandt. driver, gannet, nine point five …"
    if len(inner) < _FEW_CAPITALS and _models_in_small_letters(scene):
        return False
    return len([t for t in inner if t.start]) > 1 or len(capitals) > 3


def _models_in_small_letters(scene: Scene) -> bool:
    """True for "driver gannet 10, 3w gannet 15 … I'm Ada Brandt btw": behind their clubs no model has a capital."""
    behind = [
        after
        for token, after in pairwise(scene.tokens)
        if token.terminal in FAMILIES and after.terminal == "WORD" and not plain_word(after)
    ]
    return len(behind) > 1 and not any(after.text[:1].isupper() or after.text[:1].isdigit() for after in behind)


def eligible(scene: Scene, position: int) -> bool:
    """True when the word at `position` can be part of a name."""
    token = scene.tokens[position]
    if token.terminal != "WORD" or scene.claims[position]:
        return False
    if token.named:
        return True
    if token.lower.endswith(("'d", "'ll", "'ve", "'re", "'m")):
        return False  # "I'd like …"
    word = token.lower.replace("'", "")
    if word in _DAYS or word in _SHORT_FORMS or (word in EXCEPT and token.text.islower()):
        return False
    if word in MONTHS and position and scene.tokens[position - 1].lower in ("in", "since", "until", "last"):
        return False  # "she switched in May"
    if any(character.isdigit() for character in token.text):
        return True
    if word.removesuffix("s") in KIN:
        return False  # "it was Dad's"
    if word in _REMARKS and _alone_at_the_end(scene, position):
        return False
    if word in ordinary_words():
        gripped = position + 1 < len(scene.tokens) and scene.tokens[position + 1].terminal == "GRIPWORD"
        if gripped and word == "felt" and token.text[:1].isupper():
            return True  # "Felt grip, 3 wraps"
        return token.text[:1].isupper() and (not opens_sentence(scene, position) or _telegram(scene, position))
    if token.text[:1].isupper() and opens_sentence(scene, position) and _exclaimed(scene, position):
        return False
    if token.text[:1].isupper():
        return not _one_who_says(scene, position)
    article = position > 0 and scene.tokens[position - 1].lower in ("a", "an", "the", "all", "both", "same", "called")
    joined = position + 1 < len(scene.tokens) and scene.tokens[position + 1].named
    if not scene.cased and _weighed(scene, position + 1 + joined):
        return True  # "peatreed 60 stiff", "mooring utility 95 g x"
    verbal = len(word) > 5 and word.endswith(("ing", "ed", "ly"))
    if verbal and not scene.drafts and _surname(scene, position):
        return True
    if verbal and not article and not _behind_club(scene, position) and not _opens_list_line(scene, position):
        return False
    return not scene.cased or (terse(scene, position) and _joined_on(scene, position))


def _surname(scene: Scene, position: int) -> bool:
    """True for the "brasted" of "hi its jonty brasted", where nobody writes capitals."""
    led = scene.tokens[max(0, position - 2) : position]
    said = len(led) == 2 and led[0].lower in ("its", "it's", "im", "i'm", "am")
    return said and not scene.cased and led[1].terminal == "WORD" and not plain_word(led[1])


def _alone_at_the_end(scene: Scene, position: int) -> bool:
    """True for the "CHECKED" of "… - 45.0 in - CHECKED", the "present." of "3 wood ... present. Gannet 15"."""
    tokens = scene.tokens
    before = tokens[position - 1] if position else None
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    opened = before is None or before.kind in ("mark", "newline")
    return opened and (after is None or after.kind == "newline" or after.text in (".", ",", ";"))


def _telegram(scene: Scene, position: int) -> bool:
    """True for the "Old" of "SW. Old Heath.": between full stops of a short line, before another capital word."""
    tokens = scene.tokens
    names = [token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[position : position + 2]]
    led = position > 0 and tokens[position - 1].text == "." and tokens[position - 1].line == tokens[position].line
    closed = position + 2 >= len(tokens) or tokens[position + 2].text == "." or tokens[position + 2].kind == "newline"
    return led and names == [True, True] and closed and terse(scene, position)


def _exclaimed(scene: Scene, position: int) -> bool:
    """True for the "Guilty" of "Guilty! A Moorhen": a word alone before "!" and before an article with a name."""
    behind = scene.tokens[position + 1 : position + 4]
    told = len(behind) == 3 and behind[2].text[:1].isupper()
    return told and behind[0].text == "!" and behind[1].lower in ("a", "an", "the", "it's")


def _one_who_says(scene: Scene, position: int) -> bool:
    """True for the "Sam" of "and Sam took half an inch off": one name before what only people do."""
    after = scene.tokens[position + 1].lower if position + 1 < len(scene.tokens) else ""
    marks = [scene.tokens[at].text for at in (position - 1, position + 1) if 0 <= at < len(scene.tokens)]
    names = scene.facts.get("player", "").split()
    if (
        scene.tokens[position].text.replace("’", "'").removesuffix("'s") in names
        and scene.tokens[position].text not in names
    ):
        return True  # "Hamish's is nine", of the Hamish Brandt named before
    called = marks[-1:] == [","] and (opens_sentence(scene, position) or marks[0] == ",")
    if scene.tokens[position].text in names and (called or after in VERBS or marks == [",", ","]):
        return True  # "Brandt carries three wedges", "So the driver, Ada, that's …", of the Ada Brandt named before
    alone = position == 0 or not scene.tokens[position - 1].text[:1].isupper() or position == scene.chunk_start
    return after in _SAYS and alone and prose(scene, position)


def _behind_club(scene: Scene, position: int) -> bool:
    """True for the "sanderling" of "driver sanderling 10.5 / …", the "knapweed" of "4h: knapweed, 22".

    Right behind its club, and before a figure, a mark or, where nobody writes capitals, another word of a name.
    """
    tokens, last = scene.tokens, scene.last_end
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    closed = after is None or after.kind in ("number", "newline") or after.terminal in ("SLASH", "PIPE", "COMMA")
    closed = closed or (after is not None and after.lower in ("too", "again", "also"))
    onward = after is not None and after.terminal == "WORD" and not plain_word(after)
    closed = closed or (onward and not scene.cased)
    between = tokens[last:position] if 0 <= last <= position < last + 4 else [tokens[position]]
    linked = all(token.terminal in _LINKING for token in between)
    short = onward and after is not None and len(after.text) < 4  # "irons are 6 to pw lapwing ht with …"
    return closed and linked and (terse(scene, position) or (short and not scene.cased))


def _opens_list_line(scene: Scene, position: int) -> bool:
    """True for the "knapweed" of "knapweed 6 to 9": it opens a line of a list without capitals, before a figure."""
    after = scene.tokens[position + 1] if position + 1 < len(scene.tokens) else None
    told = after is not None and (after.kind == "number" or after.terminal in FAMILIES)
    return told and not scene.cased and scene.line_start(position) and terse(scene, position)


def _weighed(scene: Scene, position: int) -> bool:
    """True when a shaft's mass and a flex stand at `position`: whatever stands before them is a shaft's name."""
    kinds = [token.terminal for token in scene.tokens[position : position + 3] if token.terminal != "GRAM"]
    if len(kinds) < 2 or kinds[0] != "NUM" or kinds[1] not in ("FLEX", "FLEXCODE"):
        return False
    mass = scene.tokens[position].value
    return isinstance(mass, float) and 38 <= mass <= 150


def ordinary(scene: Scene, position: int) -> bool:
    """True for a plain English word."""
    return plain_word(scene.tokens[position])


def plain_word(token: Token) -> bool:
    """True for a plain English word that is not settled to be part of a name."""
    return not token.named and token.lower.replace("'", "") in ordinary_words()


def prose(scene: Scene, position: int) -> bool:
    """True where people talk in sentences rather than list."""
    return scene.source.spoken or not terse(scene, position)


def goes_on(scene: Scene, position: int) -> bool:
    """True for a small word that goes on with a name in a list ("Norrby cord")."""
    token = scene.tokens[position]
    if token.text in EXCEPT or token.text in ("line", "range", "series", "lineup"):  # "from the Gannet MB line"
        return False
    if scene.claims[position] or ordinary(scene, position) or token.lower in VERBS or not terse(scene, position):
        return False
    return not (len(token.lower) > 5 and token.lower.endswith(("ing", "ed", "ly")))


def _joined_on(scene: Scene, position: int) -> bool:
    """True for a small word tied by a hyphen to a name ("hand-sewn Marlow")."""
    tokens = scene.tokens
    after = tokens[position + 1] if position + 1 < len(tokens) else None
    before = tokens[position - 1] if position else None
    return (after is not None and after.terminal == "HYPHEN") or (before is not None and before.terminal == "HYPHEN")


def opens_sentence(scene: Scene, position: int) -> bool:
    """True where anybody writes a capital; behind a semicolon nobody does: "…; Old Gate putter, 34"."""
    if position and scene.tokens[position - 1].text == ";":
        return False
    return scene.line_start(position) and scene.table is None and not scene.tokens[position].text.isupper()


def terse(scene: Scene, position: int) -> bool:
    """True on a line that is list rather than speech: few function words, no ordinary ones."""
    tokens = scene.tokens
    start, end = position, position
    while start > max(0, position - 40) and tokens[start - 1].terminal not in ("NEWLINE", "STOP"):
        start -= 1
    while end < min(len(tokens), position + 40) and tokens[end].terminal not in ("NEWLINE", "STOP"):
        end += 1
    words = [token for token in tokens[start:end] if token.kind == "word"]
    plain = sum(token.terminal == "SILENT" or plain_word(token) for token in words) - 1
    return plain * 4 <= len(words)
