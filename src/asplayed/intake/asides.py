"""Clubs that the list speaks of and that are not in the set: taken out, spare, sold, wished for."""

from __future__ import annotations

from itertools import pairwise

from asplayed.clubs import Passage
from asplayed.intake.another import named_alone, of_another, own_bracket
from asplayed.intake.groups import FAMILIES
from asplayed.intake.in_place import INSTEAD, points_back, turns_to_the_set
from asplayed.intake.mails import quote_depth
from asplayed.intake.phrases import CLUB_RULES, CLUBS_NAMED, phrase_at, says
from asplayed.intake.scene import CLAUSE, LEAD, Scene
from asplayed.intake.tokens import Token, gap
from asplayed.intake.wording import EXCEPT

_SWAPS = {"swapped", "swap", "swapping", "swaps", "traded", "switched", "replaced", "changed", "exchanged"}
_GIVES = {"makes", "made", "make", "making", "gives", "gave", "give"}
_SUBJECTS = {"there's", "there", "i", "he", "she", "we", "they", "and", "but", "i've", "he's", "she's"}
_REFUSED = ("don't carry", "dont carry", "don't have", "dont have", "don't use", "not carrying", "not any")
_BROUGHT = (["put", "in"], ["puts", "in"], ["bought", "a"], ["bought", "two"], ["bought", "three"], ["got", "a"])
_POINTING = {"it", "one", "them", "any", "that", "those", "this", "either"}
_STANDING = {"stood", "standing", "sat", "sitting"}  # where who speaks is
_NOT_DONE = {"nearly", "almost", "never", "not", "wasn't", "isn't", "hasn't", "haven't", "thinking", "considering"}

_SELLING = {"selling", "for sale"}
_LONG_SENTENCE = 40  # tokens: speech that runs on without a mark

_OUT = {"out", "gone", "removed", "dropped", "sold", "benched", "reserve", "reserves", "spares", "spare"}

# Said of other things than clubs too: "I am at home", "on the bench today is Ada's set".
_OF_ANYTHING = {"at home", "in the car", "outgrown", "outgrew", "lent", "on the bench"}
_WHOLE_SET = 4  # kinds of clubs that are no single clubs for sale
_FURTHER = {"other", "more", "further", "extra", "additional"}


def set_taken_out_aside(scene: Scene) -> None:
    """ "3 wood out, 5 wood in", "swapped the 60 for a 58": the club that went is kept aside, the other one read."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        if scene.claims[at]:
            continue
        start = end = at
        if token.lower in _SWAPS:
            club = at + 1
            while club < len(tokens) and tokens[club].terminal == "SILENT":
                club += 1
            if _doubted(tokens, at) and club < len(tokens) and tokens[club].lower in ("for", "to"):
                club += 1 + (club + 1 < len(tokens) and tokens[club + 1].terminal == "SILENT")
                phrase = phrase_at(tokens, club) if club < len(tokens) else None
                if phrase is not None and phrase.rule in CLUBS_NAMED:
                    scene.set_aside(at, phrase.end)
                continue
            phrase = phrase_at(tokens, club) if club < len(tokens) else None
            if phrase is None or phrase.rule not in (*CLUBS_NAMED, "bare") or phrase.end >= len(tokens):
                continue
            if tokens[phrase.end].lower not in ("for", "with", "to"):
                continue
            new = phrase.end + 1
            while new < len(tokens) and tokens[new].terminal == "SILENT":
                new += 1
            if new < len(tokens) and tokens[new].terminal == "WORD" and not _club_within(tokens, new):
                continue  # "I changed my driver to a Wigeon": the driver is told of
            end = phrase.end
        elif at and (_gone(tokens, at) if token.lower == "out" else _gives_way(tokens, at)):
            start = max(0, at - 3)
            linked = tokens[at - 1].terminal == "EQ" and tokens[at - 1].kind == "word"
            stop = at - 1 if linked or token.lower != "out" else at
            while start < at and not _ends_at(tokens, start, stop):
                start += 1
            end = at + 1
        if end - start < 2:
            continue
        scene.set_aside(start, end)


def _club_within(tokens: list[Token], at: int) -> bool:
    """True for the "Wigeon 7 wood" of "swapping a 5 wood for a Wigeon 7 wood": a model and another club."""
    for place in range(at + 1, min(at + 4, len(tokens))):
        phrase = phrase_at(tokens, place)
        if phrase is not None:
            return phrase.rule in CLUBS_NAMED
    return False


def set_quoted_aside(scene: Scene) -> None:
    """ "heron9 wrote:", "> I could not live without my 3 wood": what somebody else wrote is no club of this list."""
    tokens = scene.tokens
    lines = [0, *(at + 1 for at, token in enumerate(tokens) if token.kind == "newline")]
    spans = [(start, end - 1) for start, end in pairwise([*lines, len(tokens) + 1]) if start < end - 1]
    marked = [span for span in spans if quote_depth(tokens[slice(*span)])]
    quoted = dict.fromkeys(marked)
    own = [span for span in spans if span not in quoted]
    wrote = any([token.lower for token in tokens[end - 2 : end]] == ["wrote", ":"] for _start, end in own)
    if not wrote or not any(says(tokens, *span, CLUBS_NAMED) for span in own):
        return
    for start, end in quoted:
        scene.set_aside(start, end, yielding=True)


def set_instead_aside(scene: Scene) -> None:
    """The "instead of long irons" of "instead of long irons I have hybrids": clubs that are not carried."""
    tokens = scene.tokens
    for at in range(len(tokens) - 3):
        if tokens[at].lower not in INSTEAD or scene.claims[at] or points_back(tokens, at + 1):
            continue
        behind = range(at + 1, min(at + 7, scene.clause_end(at)))
        end = next((place for place in behind if tokens[place].lower in _SUBJECTS - {"and", "but"}), None)
        if end is None or not says(tokens, at, end, (*CLUB_RULES, "group")):
            continue
        scene.set_aside(at, end)


def set_struck_aside(scene: Scene) -> None:
    """The "~~3 wood Gannet 15~~" of a line in which the old is struck out."""
    tokens, opened = scene.tokens, -1
    for at, (first, second) in enumerate(pairwise(tokens)):
        if first.kind == "newline":
            opened = -1
        if not (first.text == second.text == "~" and second.glued):
            continue
        if opened >= 0:
            scene.set_aside(opened, at)
        opened = at + 2 if opened < 0 else -1


def _gone(tokens: list[Token], at: int) -> bool:
    """True where "out" ends what is told of a club: before a mark, or in "took the 3 wood out and put …"."""
    if at + 1 == len(tokens) or tokens[at + 1].kind in ("mark", "newline"):
        return True
    taken = any(token.lower in ("took", "take", "taken", "takes", "pulled", "left") for token in tokens[at - 6 : at])
    return taken and tokens[at + 1].lower in ("and", "for", "to", "so", "but")


def _gives_way(tokens: list[Token], at: int) -> bool:
    """True for the second word of "the five wood makes way for", "gives way to", "makes room for"."""
    return tokens[at].lower in ("way", "room") and tokens[at - 1].lower in _GIVES


def set_none_aside(scene: Scene) -> None:
    """ "Hybrid: none", "3 wood - n/a": a place that nothing fills."""
    tokens = scene.tokens
    for at in range(len(tokens)):
        if scene.claims[at] or not scene.line_start(at):
            continue
        phrase = phrase_at(tokens, at)
        if phrase is None or phrase.rule not in ("club", "named", "family") or "old" in scene.rows.get(at, ()):
            continue
        answer = phrase.end + 1
        while answer < len(tokens) and tokens[answer].terminal in ("NEWLINE", "BULLET"):
            answer += 1
        asked = phrase.end < len(tokens) and tokens[phrase.end].text == "?" and answer < len(tokens)
        refused = asked and " ".join(token.lower for token in tokens[answer : answer + 2]).startswith(_REFUSED)
        if (
            asked
            and (tokens[answer].lower in ("none", "nope", "no") or refused)
            and tokens[answer].line - tokens[at].line < 3
        ):
            scene.set_aside(at, phrase.end + 1)  # "Hybrid?", and below it "None"
            continue
        end = scene.clause_end(phrase.end)
        rest = [token for token in tokens[phrase.end : end] if token.text not in (":", "-", "–", "—", "|", "=", "/")]
        said = " ".join(token.lower for token in rest)
        dashed = not said and any(token.text in ("-", "–", "—") for token in tokens[phrase.end : end])
        if (
            said.startswith(("none", "gone", "dropped", "sold "))
            or dashed
            or said in ("nil", "n a", "no", "not carried", "not ours", "empty", "nothing")
        ):
            scene.set_aside(at, end)


def _doubted(tokens: list[Token], at: int) -> bool:
    """True behind "might", "may", "thinking": what follows has not been done."""
    return any(
        token.lower in ("might", "may", "could", "thinking", "wants", "want") for token in tokens[max(0, at - 3) : at]
    )


def _ends_at(tokens: list[Token], start: int, end: int) -> bool:
    """True when a club is named from `start` up to `end`."""
    phrase = phrase_at(tokens, start)
    return phrase is not None and phrase.rule in ("club", "named") and phrase.end == end


def set_others_aside(scene: Scene) -> None:
    """Clubs said to be spare, sold, tried or in reserve are kept word for word, outside the set."""
    tokens = scene.tokens
    for at, token in enumerate(tokens):
        behind = tokens[at + 1] if at + 1 < len(tokens) else None
        alone = (at == 0 or tokens[at - 1].kind == "newline") and behind is not None and behind.kind == "newline"
        if alone and token.lower in _OUT:
            token.terminal = "ASIDE"
    opening = _clubs_that_open(scene) if any(token.lower == "old" for token in tokens) else set()
    at = 0
    while at < len(tokens):
        if tokens[at].lower == "no" and at + 1 < len(tokens) and tokens[at].terminal == "SILENT":
            # "No three wood.": a club said not to be there
            further = tokens[at + 1].lower in _FURTHER  # "no other fairway woods": nothing is left out
            club = at + 1 + further
            phrase = phrase_at(tokens, club) if club < len(tokens) else None
            if further and phrase is not None and not phrase.amounts and phrase.has(*FAMILIES):
                scene.leave(at, phrase.end)
                at = phrase.end
                continue
            if phrase is not None and phrase.rule in ("club", "named", "family") and not scene.claims[at]:
                end = _with_its_reason(scene, phrase.end)
                scene.set_aside(at, end)
                if (wedge := phrase.first("NAMEDWEDGE")) is not None:
                    scene.denied.add(str(wedge.value))
                at = end
                continue
        if tokens[at].lower == "old" and not scene.claims[at] and (end := _old_one(scene, at, opening)):
            scene.set_aside(at, end)
            at = end
            continue
        if tokens[at].lower in ("testing", "trying out", "trying") and _either(scene, at):
            scene.claims[at] = "silent"  # two clubs for one place: both are in play
            at += 1
            continue
        if tokens[at].terminal != "ASIDE" or scene.claims[at] or _likened_to(tokens, at) or _still_in(scene, at):
            at += 1
            continue
        start, end = _aside_span(scene, at)
        start = _behind_bracket(tokens, start, at)
        if _heads_the_whole_list(scene, at, end):
            tokens[at].terminal = "SILENT"
            at += 1
            continue
        if tokens[at].lower in _OF_ANYTHING and not _speaks_of_a_club(scene, start, end):
            at += 1
            continue
        while (
            start < end
            and tokens[start].terminal in ("BULLET", "AND", "COMMA", "SILENT")
            and tokens[start].kind != "word"
        ):
            start += 1
        text_end = end
        while text_end > start and tokens[text_end - 1].kind == "newline":
            text_end -= 1
        scene.aside.append(Passage(line=tokens[start].written, text=scene.words(start, text_end)))
        for index in range(start, end):
            scene.claims[index] = scene.claims[index] or "aside"
        for index in range(start, end):
            if tokens[index].terminal == "HAND" and "hand" not in scene.facts:
                scene.facts["hand"] = str(tokens[index].value)  # "she is left-handed and has outgrown her clubs"
        if other := _under_heading(scene, at, end):
            scene.set_aside(end + 1, other, yielding=True)
            end = other
        at = max(end, at + 1)


def _clubs_that_open(scene: Scene) -> set[str]:
    """The words of the clubs that lines begin with."""
    places = [at for at in range(len(scene.tokens)) if scene.line_start(at)]
    found = [phrase_at(scene.tokens, at) for at in places if scene.tokens[at].lower != "old"]
    return {" ".join(token.lower for token in each.tokens) for each in found if each is not None}


def _old_one(scene: Scene, at: int, opening: set[str]) -> int:
    """The end of a line "Old putter: Redstart" where the same club is named on another line; 0 for any other."""
    tokens = scene.tokens
    club = phrase_at(tokens, at + 1) if at + 1 < len(tokens) and scene.line_start(at) else None
    if club is None or club.rule not in ("club", "named") or club.end >= len(tokens) or tokens[club.end].text != ":":
        return 0
    return scene.clause_end(at) if " ".join(token.lower for token in club.tokens) in opening else 0


def _with_its_reason(scene: Scene, end: int) -> int:
    """The place behind "no 3 wood, broke it": small words that tell nothing of another club belong to it."""
    tokens, stop = scene.tokens, scene.clause_end(end)
    reason = tokens[end + 1 : stop]
    if end >= stop or tokens[end].text != "," or not 1 <= len(reason) <= 5:
        return end
    plain = all(token.terminal in ("WORD", "SILENT") and token.text.islower() for token in reason)
    return stop if plain else end


def _under_heading(scene: Scene, at: int, end: int) -> int:
    """Where the lines below "For sale:", "Spare:", or below "OUT" on a line of its own end; 0 for no heading."""
    tokens = scene.tokens
    if end + 1 >= len(tokens) or tokens[end].terminal != "NEWLINE" or tokens[end + 1].terminal == "NEWLINE":
        return 0
    last = tokens[end - 1].text if end > at else tokens[at].text
    start = at
    while start > 0 and tokens[start - 1].terminal not in ("NEWLINE", "COMMA"):
        start -= 1
    told = start > 0 and tokens[start - 1].terminal == "COMMA"
    headed = last.endswith(":") and end - start < 8  # "half set, the rest stays in the car:" heads the set itself
    headed = headed or (last.endswith(":") and start == at and end - start < 14)  # "For sale, all as good as new:"
    bracketed = start == at and tokens[at + 1].text == "(" and tokens[end - 1].text == ")" and end - start < 8
    alone = start == at and (end == at + 1 or bracketed)  # "IN RESERVE (not carried)"
    if told or not (headed or alone):
        return 0
    stop = end + 1
    while stop < len(tokens):
        if tokens[stop].terminal == "NEWLINE" and tokens[stop - 1].terminal == "NEWLINE":
            break
        if alone and tokens[stop - 1].terminal == "NEWLINE" and stop > end + 1 and _heads(scene, stop):
            for index in range(stop, scene.clause_end(stop)):
                scene.claims[index] = scene.claims[index] or "left"
            break
        stop += 1
    return min(stop, len(tokens)) - (stop < len(tokens))


def _heads_the_whole_list(scene: Scene, at: int, end: int) -> bool:
    """True for the "FOR SALE, one owner:" that every club of the list stands below: these are the set."""
    tokens = scene.tokens
    if at < LEAD and tokens[at].lower in _SELLING and not says(tokens, 0, at, CLUB_RULES):
        led = [token.lower for token in tokens[at : at + 8]]
        if ":" in led and {"set", "bag", "clubs", "lot", "everything"} & set(led[: led.index(":")]):
            return True  # "Selling my whole set: driver Gannet 10.5, …"
        clubs = sum(token.terminal in FAMILIES for token in tokens[at : scene.clause_end(at)])
        if ":" in led and clubs >= _WHOLE_SET:
            return True  # "For sale, one owner: driver …, 3 wood …, irons …, putter …"
    if tokens[at].line > 2 or says(tokens, 0, end, CLUB_RULES):
        return False
    below = _under_heading(scene, at, end)
    return below > 0 and not says(tokens, below, len(tokens), CLUB_RULES)


def _heads(scene: Scene, at: int) -> bool:
    """True for a line of one or two words that names no club and tells no figure: another heading."""
    line = scene.tokens[at : scene.clause_end(at)]
    words = [token for token in line if token.text != ":"]
    return (
        0 < len(words) < 3
        and all(token.kind == "word" for token in words)
        and not says(scene.tokens, at, at + len(line), (*CLUBS_NAMED, "same", "group"))
    )


def _speaks_of_a_club(scene: Scene, start: int, end: int) -> bool:
    """True when a club is named or a figure stands between two places."""
    return says(scene.tokens, start, end, (*CLUBS_NAMED, "bare", "same", "group"))


def _likened_to(tokens: list[Token], at: int) -> bool:
    """True for the "last year" of "the new one, not the one from last year": only compared with."""
    words = tokens[max(0, at - 4) : at]
    return tokens[at].lower.startswith("last ") and any(token.terminal == "THAN" for token in words)


def _still_in(scene: Scene, at: int) -> bool:
    """True for "nearly sold", "since last season", "the blades from last year": the club is not said to be out."""
    tokens = scene.tokens
    if tokens[at].lower == "yet":
        return False  # "not here yet" says that it is out
    if tokens[at].lower in ("last year", "last season"):
        told = scene.line_start(at) or (at > 0 and tokens[at - 1].terminal in ("LPAR", "BREAK"))
        return not told
    onward = tokens[at + 1] if at + 1 < len(tokens) else None
    given = tokens[at].lower.startswith("is my ") and onward is not None
    if given and onward is not None and (onward.lower in ("old", "first") or onward.text[:1].isupper()):
        return True  # "putter is my dads old Moxley"
    if tokens[at].lower.endswith("gone") and onward is not None and (onward.kind == "number" or onward.lower == "a"):
        return True  # "and that one's gone a degree weak"
    if tokens[at].lower == "alternate" and at + 1 < len(tokens) and tokens[at + 1].lower == "between":
        return True
    if tokens[at].lower.startswith(("want", "would like", "id like")) and not _club_soon(tokens, at):
        return True  # "driver Gannet 10.5, wants the sleeve one up"
    if tokens[at].lower == "wants a" and any(token.lower in EXCEPT for token in tokens[max(0, at - 6) : at]):
        return True  # "Moss Cord on all except the putter, which wants a Moss Pistol"
    if tokens[at].lower.endswith(("dont have", "doesnt have", "do not have", "does not have")):
        had = tokens[at + 1 : at + 3]
        if had and not _club_soon(tokens, at) and not any(token.lower in _POINTING for token in had):
            return True  # "if you don't have the number"
    led = [token.lower.replace("’", "'") for token in tokens[max(0, at - 2) : at]]
    if led[-1:] and led[-1] in _STANDING and led[0] in ("i'm", "im", "am", "we're", "he's", "she's"):
        return True  # "I'm stood in the garage reading it off"
    if any(_of_the_whole_set(tokens, place) for place in range(max(0, at - 2), at)):
        return True  # "the clubs are in the car": where the set is, not what is out of it
    if tokens[at].lower.startswith("out") and at and tokens[at - 1].lower in ("went", "go", "goes", "going", "came"):
        return True  # "after the programme went out: …"
    if tokens[at].lower == "out of the bag" and any(
        token.lower in ("first", "next", "straight", "comes", "second", "last") for token in tokens[max(0, at - 2) : at]
    ):
        return True  # "first out of the bag is the driver"
    near = tokens[max(0, at - 3) : at]
    marks = [index for index, token in enumerate(near) if token.kind != "word"]
    return any(token.lower in _NOT_DONE for token in near[marks[-1] + 1 if marks else 0 :])


def _of_the_whole_set(tokens: list[Token], at: int) -> bool:
    """True for the clubs of "my clubs are in the car", and not for the bag of "the driver from this bag is gone"."""
    led = {token.lower for token in tokens[max(0, at - 2) : at]}
    return tokens[at].lower in ("clubs", "bag", "set") and not led & {"from", "of", "in"}


def _club_soon(tokens: list[Token], at: int) -> bool:
    """True where a club is named within a few words."""
    return says(tokens, at + 1, min(at + 6, len(tokens)), (*CLUBS_NAMED, "family"))


def _either(scene: Scene, at: int) -> bool:
    """True when "or" stands before this place in its sentence."""
    tokens = scene.tokens
    start = at
    while start > max(0, at - CLAUSE) and tokens[start - 1].terminal not in ("NEWLINE",):
        start -= 1
    return any(token.terminal == "OR" for token in tokens[start:at])


def _back_to(tokens: list[Token], at: int) -> bool:
    """True for "but went back to the Garganey": another head is named for the same place."""
    words = [token.lower for token in tokens[at : at + 8]]
    return "back" in words and words[words.index("back") + 1 :][:1] == ["to"]


def _put_in(tokens: list[Token], at: int, end: int) -> int:
    """Where "and put in", "and added", "and instead of it" begins; -1 where nothing came in."""
    for index in range(at, end - 1):
        joined = tokens[index].terminal in ("AND", "COMMA") or tokens[index].lower in ("then", "so")
        words = [token.lower for token in tokens[index + 1 : index + 3]]
        instead = words[0] in INSTEAD and index + 3 < end and points_back(tokens, index + 2)
        if joined and (words[0] in ("added", "adds", "adding") or words in _BROUGHT or instead):
            return index
        if joined and _comes_in(tokens, index + 1):
            return index  # "five wood's gone, seven wood came in"
    return -1


def _comes_in(tokens: list[Token], at: int) -> bool:
    """True for "seven wood came in", "a 7 wood goes in": the club that takes the place."""
    at += tokens[at].terminal == "SILENT"
    club = phrase_at(tokens, at) if at < len(tokens) else None
    if club is None or club.rule not in CLUBS_NAMED:
        return False
    onward = [token.lower for token in tokens[club.end : club.end + 2]]
    return len(onward) == 2 and onward[0] in ("came", "comes", "goes", "went", "is") and onward[1] == "in"


def _has(tokens: list[Token], at: int) -> bool:
    """True for "i have", "he carries": who has what follows."""
    return tokens[at].lower in ("i", "he", "she", "we") and tokens[at + 1].lower in (
        "have", "has", "carry", "carries", "play", "plays", "use", "uses",
    )  # fmt: skip


def _in_running_speech(scene: Scene, at: int, clubs: list[int], end: int) -> tuple[int, int]:
    """The stretch of "… i dont carry a five wood anymore hybrids are …": the words and their club, no more."""
    tokens = scene.tokens
    low = at
    while low > 0 and tokens[low - 1].lower in (*_SUBJECTS, "also", "did", "just"):
        low -= 1
    near = next((club for club in clubs if at < club <= at + 5), None)
    if near is None:
        before = [club for club in clubs if club < at]
        return (before[-1] if before else low), at + 1
    phrase = phrase_at(tokens, near)
    high = phrase.end if phrase is not None else near + 1
    while high < end and tokens[high].lower in ("anymore", "any", "more", "now", "though"):
        high += 1
    return low, high


def _tells_anew(tokens: list[Token], at: int) -> bool:
    """True for the "and" of "and I've got an old chipper"."""
    return tokens[at].terminal == "AND" and tokens[at + 1].lower in ("i've", "i", "he's", "she's", "there's", "ive")


def _parts(tokens: list[Token], at: int) -> bool:
    """True where a sentence ends; where lines run on, also before a line that begins "he's kept …" or with a club."""
    if tokens[at].terminal in ("STOP", "NEWLINE"):
        return True
    led = tokens[at - 1].terminal in ("SILENT", "AND", "ASIDE", "OR", "COMMA", "WITH") if at else True
    led = led and not (at and tokens[at - 1].terminal == "ASIDE" and _points_at(tokens[at - 1]))
    if tokens[at].kind == "newline" and not led and at + 1 < len(tokens):
        phrase = phrase_at(tokens, at + 1)
        if phrase is not None and phrase.rule in ("club", "named", "span"):
            return True
    if tokens[at].kind != "newline" or at + 1 >= len(tokens):
        return False
    stamped = tokens[at + 1].lower == "the" and at + 2 < len(tokens) and tokens[at + 2].kind == "number" and not led
    return stamped or tokens[at + 1].lower in _SUBJECTS - {"and", "but"} or _next_club(tokens, at + 1)


def _points_at(token: Token) -> bool:
    """True for "gave it away", "given that away": the club was told of before, and none is to follow."""
    return not _POINTING.isdisjoint(token.lower.split()[1:])


def _next_club(tokens: list[Token], at: int) -> bool:
    """True at "so next is a five wood", "then there's the putter": small words, one of order, and a club."""
    order = False
    for place in range(at, min(at + 8, len(tokens))):
        order = order or tokens[place].lower in ("next", "then", "so")
        phrase = phrase_at(tokens, place)
        if phrase is not None:
            return order and phrase.rule in ("club", "named", "span")
        if tokens[place].terminal not in ("SILENT", "EQ", "AND"):
            return False
    return False


def _cell(tokens: list[Token], start: int, at: int, end: int) -> tuple[int, int]:
    """The stretch between the bars around a place: "… | wedges: Vale 52/58 | for sale: Cobbett One driver"."""
    low = next((place + 1 for place in range(at, start - 1, -1) if tokens[place].terminal == "PIPE"), start)
    return low, next((place for place in range(at, end) if tokens[place].terminal == "PIPE"), end)


def _behind_bracket(tokens: list[Token], start: int, at: int) -> int:
    """Where the aside of "the hybrid (25°, Reed 60, senior) and the 5 iron is in the garage" begins: not inside."""
    first = next((place for place in range(start, at) if tokens[place].terminal in ("LPAR", "RPAR")), at)
    return first + 1 if first < at and tokens[first].terminal == "RPAR" else start


def _aside_span(scene: Scene, at: int) -> tuple[int, int]:
    """The stretch of tokens that the aside covers: its sentence or line, or its club's part of it."""
    tokens = scene.tokens
    start, end = at, at
    while start > max(0, at - CLAUSE // 2) and not _parts(tokens, start - 1):
        start -= 1
    while end < min(len(tokens), at + CLAUSE // 2) and not _parts(tokens, end):
        end += 1
    softened = start > 1 and tokens[start - 1].terminal == "SILENT" and tokens[start - 1].kind == "newline"
    if softened and tokens[start - 2].text == "," and not says(tokens, start, end, CLUBS_NAMED):
        start -= 1  # "She wanted a 3 iron too,", and on the next line "she hit it for a while, it's not on the order"
        while start > max(0, at - CLAUSE // 2) and not _parts(tokens, start - 1):
            start -= 1
    clubs = []
    position = start
    while position < end:
        phrase = phrase_at(tokens, position)
        if phrase is not None and phrase.rule in CLUBS_NAMED and not (phrase.amounts and phrase.amounts[0].value >= 70):
            clubs.append(position)
            position = phrase.end
        else:
            position = position + 1 if phrase is None else phrase.end
    for comma in range(at, end):
        if tokens[comma].terminal == "COMMA" and any(token.lower == "now" for token in tokens[comma + 1 : comma + 4]):
            return start, comma  # "he used to have the old one, now it's the new one"
        marked = tokens[comma].terminal == "COMMA"
        turns = turns_to_the_set(tokens, comma + marked)
        back = turns and (
            tokens[comma + marked + 1].lower not in ("we", "i", "they") or says(tokens, comma, end, CLUBS_NAMED)
        )
        if back and (marked or tokens[comma + 1].lower != "it"):
            return start, comma  # "I started the year with an Avocet, so it's a Stint now"
    opens = at == 0 or tokens[at - 1].kind == "newline"
    wide = at + 1 < len(tokens) and gap(tokens[at], tokens[at + 1]) > 1
    if opens and (wide or tokens[at].text.isupper()):
        return start, end  # "TRADED IN  Knot driver 9.5, Knot 3 wood": the line's label
    if (bracket := own_bracket(scene, at, start, end)) is not None:
        return bracket
    if at and tokens[at - 1].lower in ("stay", "are", "remain", "live") and all(club < at for club in clubs):
        return start, end  # "the 3 wood, the 6 and the 8 iron stay at home"
    colon = at + 1 < end and tokens[at + 1].text == ":"
    if tokens[at].text.endswith(":") or colon or tokens[at].lower.startswith("lost "):
        return _cell(tokens, start, at, end)
    new = _put_in(tokens, at, end)
    taken = any(club < new for club in clubs) or says(tokens, start, new, (*CLUB_RULES, "group"))
    if new > 0 and taken and says(tokens, new, end, CLUB_RULES):
        return start, new  # "he dropped the 5 wood and put in a 7 wood": the new one is in the set
    low = at
    while low > start and tokens[low - 1].terminal == "SILENT":
        low -= 1
    other = tokens[at].lower in ("backup", "spare", "back-up", "reserve", "alternate", "standby")
    if other and low > start and tokens[low - 1].terminal == "AND" and any(club < low for club in clubs):
        return low, end  # "my gamer is a Wigeon 9 and my backup is a Wigeon 10.5"
    if tokens[at].lower.endswith(("dont have", "dont carry", "dont play")):
        has = next((place for place in range(at + 1, end - 1) if _has(tokens, place)), 0)
        if has and any(at < club < has for club in clubs) and any(club > has for club in clubs):
            return start, has  # "i dont have a five wood i have a three iron"
    turn = next((index for index in range(at, end) if tokens[index].lower == "but"), -1)
    if turn > 0 and len(clubs) == 1 and at < clubs[0] < turn and _back_to(tokens, turn):
        return start, clubs[0]  # "he tried the Twite three wood but went back to the Garganey": the club stays
    own = [club for club in clubs if club < at]
    told = next((place for place in range(at - 1, start, -1) if _tells_anew(tokens, place)), 0)
    if told and own and own[-1] > told and any(club < told for club in clubs):
        return told + 1, end  # "putter is a Stint and I've got an old chipper in the shed"
    parts = ("COMMA", "BREAK", "AND")
    parting = next((low for low in range(at - 1, start, -1) if tokens[low].terminal in parts), 0)
    another = parting > 0 and (of_another(tokens, parting + 1) or named_alone(tokens, parting + 1, at))
    if another and any(token.kind == "number" for token in tokens[start:parting]):
        return parting + 1, end  # "5 wood Gannet 18, the old Stint is in the garage"
    if len(clubs) <= 1 or all(tokens[club].terminal == "PUTTER" for club in clubs):
        return start, end
    marks = ("COMMA", "LPAR", "PIPE", "BREAK", "SLASH")
    many = len(clubs) > 3 or end - start > _LONG_SENTENCE
    if many and not any(token.terminal in marks for token in tokens[start:end]):
        return _in_running_speech(scene, at, clubs, end)
    low = at
    while low > start and tokens[low - 1].terminal not in ("COMMA", "LPAR", "PIPE", "BREAK"):
        low -= 1
    behind = [club for club in clubs if club >= low]
    opened = tokens[low - 1].terminal == "LPAR" if low > start else False
    if (not behind or opened) and clubs and low > start:
        before = [club for club in clubs if club < at]
        low = before[-1] if before else low
        while low > start and tokens[low - 1].terminal in ("WORD", "LETTER", "SILENT"):
            low -= 1
    high = at
    while high < end and tokens[high].terminal not in ("COMMA", "RPAR", "PIPE", "BREAK"):
        high += 1
    return low, high
