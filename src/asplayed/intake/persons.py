"""Names of people: whose bag it is, who is spoken of or greets before any club is named."""

from __future__ import annotations

from itertools import pairwise

from asplayed.intake.ahead import club_at, flexed, speaks_of_no_club
from asplayed.intake.groups import FAMILIES
from asplayed.intake.known import Known
from asplayed.intake.names import NameRun, run_at
from asplayed.intake.phrases import phrase_at, says
from asplayed.intake.scene import TITLES, Scene
from asplayed.intake.tokens import DASHES, Token, gap, line_end
from asplayed.intake.wording import KIN, VERBS, ordinary_words, plain_word, prose

_PAPERS = {
    "note", "notes", "sheet", "spec", "specs", "card", "ticket", "report", "order", "form", "setup", "summary", "van",
    "workshop", "fitting", "winner", "winner's", "winners", "champion", "champion's", "sir", "madam", "team", "all",
    "update", "wishlist", "check", "job", "repair", "regrip", "file", "slip", "inventory", "summer", "winter", "spring",
    "autumn",
}  # fmt: skip
HELLOS = {"hi", "g'day", "gday", "hey", "hello", "dear", "hej", "hallo", "moin", "servus", "bonjour", "ciao", "hola"}
_PLACES = {"range", "trailer", "truck", "van", "tent", "studio", "shop", "tee", "green", "today", "here"}
_AGED = {"age", "aged", "he's", "she's", "i'm"}
_YEARS = {"yrs", "yr", "years", "year", "yo"}
_OTHERS = {"my", "mine", "i", "i'm", "i've", "his", "her", "he", "she", "he's", "she's", "their"}
RELATED = {
    "wife", "husband", "son", "daughter", "dad", "father", "mum", "mother", "brother", "sister", "friend", "mate",
    "partner", "grandmother", "grandfather", "client", "customer", "pupil", "student",
    "member", "boss", "neighbour", "uncle", "aunt", "grandson",
}  # fmt: skip
_SOMEBODY = {
    "lad", "lass", "chap", "bloke", "fellow", "guy", "man", "woman", "lady", "girl", "boy", "youngster", "junior",
    "gent", "gentleman", "golfer", "player", "pro", "amateur", "beginner", "visitor",
}  # fmt: skip
_SETS = {"set", "bag", "clubs", "list", "build", "order", "specs", "spec", "sheet", "card"}
_NOWADAYS = {"this", "last", "week", "season", "year", "today", "now", "currently", "here", "right"}
_OF_CLUBS = {"HEADWORD", "SHAFTWORD", "GRIPWORD", "BALLWORD"}
OWNED = {
    "numbers", "figures", "details", "sticks", "kit", "spec", "bag", "set", "clubs", "list", "build", "gear", "file",
    "card", "specs", "order", "ticket", "gamer", "gamers",
}  # fmt: skip
_WISHES = {"is", "was", "would", "will", "needs", "loves", "joined"}
_EPITHETS = {"young", "little", "dear", "old", "good"}  # before a person's name
_SAYING = {"says", "said", "explains", "admits"}
_QUOTES = {'"', "”", "'", "’", ","}
_GREETINGS = {"so", "g'day", "gday", "hi", "hey", "hello", "okay", "ok", "right", "dear"}


_HERE = ("heres", "here's", "this", "these", "with")  # behind who says his name: "its ada brandt heres my bag"
_DESCRIBING = {
    "the",
    "a",
    "an",
    "all",
    "both",
    "in",
    "with",
    "and",
    "my",
    "his",
    "her",
    "at",
    "on",
    "as",
    "from",
    "for",
}


def is_addressed(scene: Scene, run: NameRun) -> bool:
    """True for the "Merle" of "Hi Merle - driver …", the "Joss" of "Joss, spec for Friday: …": no model's name."""
    tokens = scene.tokens
    if scene.drafts or scene.headers or scene.focus or scene.table is not None or run.end - run.start > 2:
        return False
    behind = [*tokens[run.end : run.end + 2], None, None]
    mark, word = behind[0], behind[1]
    if mark is None or mark.terminal not in ("COMMA", "DASH", "STOP", "NEWLINE") or mark.text == ";":
        return False
    if run.start and tokens[run.start - 1].lower in HELLOS:
        return True
    alone = run.start == 0 and run.end == 1 and tokens[0].text[:1].isupper() and mark.text == ","
    if not alone or word is None or word.kind != "word" or not word.text.islower() or word.lower in _DESCRIBING:
        return False
    told = word.terminal in ("SILENT", "PLAYERWORD")
    return told or word.lower in _PAPERS | VERBS | ordinary_words()


def is_person(scene: Scene, known: Known, run: NameRun) -> bool:
    """True for "Jonas's bag" and for a name that heads the list before any club."""
    tokens = scene.tokens
    words = [tokens[at] for at in range(run.start, run.end) if tokens[at].terminal != "HYPHEN"]
    if any(token.terminal == "HYPHEN" and token.lower == "and" for token in tokens[run.start : run.end]):
        return False  # "Teague and Sons Clubmakers": a house
    after_name = [token.lower for token in tokens[run.end : run.end + 4]]
    counted = after_name[:1] and after_name[0] in VERBS and "clubs" in after_name and words[0].text[:1].isupper()
    owned = words[-1].lower.replace("’", "'").endswith("'s") and after_name[1:2] == ["here"]
    opens = scene.chunk_opens(run.start) and not scene.drafts
    if owned and after_name[0] in KIN | RELATED and "player" not in scene.facts and opens:
        return True  # "Nell's mum here. Her clubs: …"
    if counted and len(words) < 4 and "player" not in scene.facts and not scene.drafts:
        return True  # "For the Quarry Cup Ada had thirteen clubs: …"
    if _introduced_in_small_letters(scene, run, words) or _says_who_he_is(scene, run, words):
        return True
    if {token.lower for token in tokens[max(0, run.start - 2) : run.start]} & {"called", "named"}:
        return _somebody_called(scene, run)  # "a boxed set called the Gannet Starter" is nobody
    if _quoted(scene, run, words):
        return True
    if run.start > 1 and tokens[run.start - 1].terminal == "EQ" and tokens[run.start - 2].terminal in _OF_CLUBS:
        return False  # "Hand: right", and below it "Model: Gannet"
    aged = [token.terminal for token in tokens[run.end : run.end + 3]] == ["LPAR", "NUM", "RPAR"]
    scored = [token.terminal for token in tokens[run.end : run.end + 4]] == ["LPAR", "SNUM", "RPAR", "NEWLINE"]
    if scored and len(words) > 1 and scene.line_start(run.start) and "player" not in scene.facts and not scene.drafts:
        return True  # "Ada Brandt (-17)" under the event's name
    near = tokens[run.end + 3 * aged : run.end + 3 * aged + 3]
    handed = scene.hand_clause == scene.clause or any(token.terminal == "HAND" for token in near)
    in_bracket = _hand_in_bracket(scene, run.end)
    handed = handed or in_bracket
    gripped = any(token.terminal == "GRIPWORD" for token in tokens[max(0, run.start - 6) : run.start])
    if handed and not gripped and "player" not in scene.facts and scene.chunk_opens(run.start):
        behind = tokens[run.end].terminal if run.end < len(tokens) else "STOP"
        bracketed = in_bracket and not (run.start and tokens[run.start - 1].text == ".")
        initialled = with_initials(scene, run).start < run.start and behind == "HAND"  # "C. Brannoch LH"
        initialled = initialled or (behind == "SLASH" and with_initials(scene, run).start < run.start)
        if (aged or bracketed or initialled or behind in ("COMMA", "STOP", "NEWLINE")) and all(
            token.text[:1].isupper() for token in words
        ):
            return True
    if not all(token.terminal == "WORD" and token.text[:1].isupper() for token in words) or len(words) > 3 + (
        len(words) < run.end - run.start
    ):
        return False
    untold = "player" not in scene.facts and not scene.drafts and not scene.headers
    if untold and len(words) > 1 and _age_behind(scene, run.end):
        return True  # "Ada Brandt, 11 yrs", "notes on Ada Brandt, she's seventeen"
    first_line = run.start <= scene.first_line_end
    begin = with_initials(scene, run).start
    wide = run.start > 0 and gap(tokens[run.start - 1], tokens[run.start]) > 1
    other = tokens[run.end] if run.end < len(tokens) else None
    apart = wide and (other is None or other.kind == "newline" or gap(tokens[run.end - 1], other) > 1)
    fresh = first_line and "player" not in scene.facts and not scene.drafts
    if len(words) > 1 and fresh and apart:
        return speaks_of_no_club(scene, run.end)  # "JOB 17   Ada Brandt   RH"
    alone = fresh and scene.line_start(run.start)
    dated = run.end < len(tokens) and scene.claims[run.end] == "set" and tokens[run.end].kind == "number"
    if alone and len(words) == 2 and dated:
        return True  # "Ada Brandt   22/3/26   RH"
    if alone and len(words) == 2 and _tells_what_set(scene, run.end):
        return True  # "Ada Brandt, ladies half set"
    noted = begin > 1 and tokens[begin - 1].text == ":" and tokens[begin - 2].lower in _PAPERS
    if fresh and noted and (len(words) > 1 or begin < run.start):
        return True  # "Fit notes: Ada Brandt, 5 ft 4"
    around = [token.terminal for token in (*tokens[run.start - 1 : run.start], *tokens[run.end : run.end + 1])]
    if (
        around == ["LPAR", "RPAR"]
        and run.start > 1
        and tokens[run.start - 2].lower in _SETS
        and not plain_word(words[0])
        and "player" not in scene.facts
        and not scene.drafts
    ):
        return True  # "Clubs (Ruth): driver …"
    titled = len(words) > 1 and aged and first_line
    if titled and "player" not in scene.facts and not scene.drafts:
        return True  # "Fenwater Classic - Tomas Ridgeway (28)"
    if run.start and tokens[run.start - 1].lower == "of" and all(word.text.isupper() for word in words):
        return False  # "SCHEDULE OF ITEMS STOLEN"
    if words[0].lower.split("'")[0] in KIN | {"guest", "visitor", "caller"}:
        return False
    owner = words[0].lower.split("'")[0]
    if (owner in ordinary_words() and not words[0].named) or any(token.lower in _PAPERS for token in words):
        return False
    if alone and len(words) == 2 and len(words[1].text) > 1 and _event_or_day_behind(scene, run.end):
        return True  # "Ada Brandt, Ravelin Cup, 6 June: driver …"
    after = tokens[run.end : run.end + 3]
    owned = words[-1].lower.endswith(("'s", "s'"))
    if owned and "player" not in scene.facts and club_at(scene, run.end):
        at = run.start - 1
        while at >= 0 and tokens[at].terminal in ("SILENT", "EQ"):
            at -= 1
        if at < 0 or tokens[at].terminal in ("NEWLINE", "STOP", "BULLET"):
            return True  # "So this is Ada's driver"
    if owned and any(token.lower in OWNED for token in after):
        return "player" not in scene.facts
    if len(words) > 1 and _clubs_are_for(scene, begin, run.end):
        return True
    if scene.drafts or scene.headers or "player" in scene.facts:
        return False
    if run.start and tokens[run.start - 1].lower == "at" and prose(scene, run.start) and not owned:
        return False  # "I'm up at Heron Links with Ada Brandt": where they are
    hailed = run.start - 1 - (run.start > 1 and tokens[run.start - 1].lower in ("mr", "mrs", "ms", "miss", "dr"))
    hello = run.start > 0 and tokens[hailed].lower in HELLOS
    if hello and (not _speaks_to_its_reader(scene) or of_the_writer(scene)):
        return False  # "Hi Priya, new season, new list!": who is written to
    led = tokens[run.start - 1].lower if run.start else ""
    onward = tokens[_behind_bracket(scene, run.end) :][:1]
    verb = onward[0].lower if onward else ""
    if led in ("clubs", "what") and (verb in VERBS or verb in ("should", "will", "brings")):
        return len(words) < 3  # "These are the clubs Ada should bring", "You asked what Ada has now"
    if _introduced(scene, run) or _heads_list(scene, known, run):
        return True
    if len(words) > 1 and [token.text for token in after[:1]] == [","] and after[1:] and after[1].lower in VERBS:
        return True  # "Our champion, Ada Brandt, carries eleven clubs"
    if len(words) > 1 and scene.line_start(run.start) and _told_who(scene, run.end):
        return True  # "Ada Brandt, our new captain, plays …"
    if after and after[0].kind == "word" and after[0].lower.split()[0] in VERBS:
        lead = tokens[run.start - 1] if run.start else None
        greeted = lead is None or lead.terminal != "SILENT" or lead.lower in _GREETINGS
        if len(words) > 1 or (scene.line_start(run.start) and greeted):
            return True
    if (
        len(words) < 2
        and after
        and after[0].terminal == "COMMA"
        and run.start
        and tokens[run.start - 1].lower in _GREETINGS
        and not (tokens[run.start - 1].lower in HELLOS and _of_somebody_else(scene))
    ):
        return True
    first = with_initials(scene, run).start
    while first > 1 and tokens[first - 1].lower in _EPITHETS and tokens[first - 1].text.islower():
        first -= 1  # "Spec for young Ada Brandt"
    owner = tokens[first - 1].lower if first else ""
    if owner == "for" and first < run.start and scene.line_start(first - 1):
        return speaks_of_no_club(scene, run.end)  # "For R. Stobbart"
    if owner == "for" and fresh and scene.line_start(first - 1) and [token.text for token in after[:1]] == [":"]:
        return True  # "For Ada Brandt: Gannet driver 10.5, …"
    if (
        owner == "for"
        and tokens[first - 2].lower in ("one's", "this", "is", "ones", "all")
        and scene.clause < 2
        and first > 1
    ):
        closed = not after or after[0].kind in ("mark", "newline") or after[0].terminal in ("SILENT", "HAND", "AND")
        return closed and not flexed(scene, run.end)  # "This one's for Ada, seen at home"
    if owner in RELATED and first > 2 and [token.lower for token in tokens[first - 3 : first - 1]] == ["for", "my"]:
        return True  # "could you look at these for my son Jonas?"
    said = [token.lower for token in tokens[run.end : run.end + 3]]
    if owner in RELATED and len(words) > 1 and said[:1] == [","] and said[1:] in (["she", "is"], ["he", "is"]):
        return True  # "this is about my daughter Ada Brandt, she is eleven"
    told = tokens[_behind_bracket(scene, run.end) :][:1]
    if owner in RELATED and told and told[0].kind == "word" and told[0].lower.split()[0] in {*VERBS, *_WISHES}:
        return scene.line_start(run.start - 1) or tokens[run.start - 2].lower in ("my", "our", "the")
    heads = first < run.start and fresh and scene.chunk_opens(first)
    if heads and (not after or after[0].kind in ("mark", "newline")) and speaks_of_no_club(scene, run.end):
        return True  # "Thursday, A. Brandt, counted twice"
    noted = first > 1 and tokens[first - 2].lower in _PAPERS
    noted = noted and (first <= scene.first_line_end or scene.line_start(first - 2))
    if owner == "for" and noted and len(words) > 1 and not flexed(scene, run.end):
        return True  # "Right, notes for Ada Brandt, left-handed, session two."
    related = run.start > 1 and tokens[run.start - 1].text == "," and tokens[run.start - 2].lower in RELATED
    if related and len(words) > 1 and tokens[run.start - 3].lower in ("my", "our") and not flexed(scene, run.end):
        return True  # "Order for my daughter, Ada Brandt (14, handicap 31)"
    if owner == "for" and run.start > 1 and _set_told_before(scene, run.start - 2):
        closed = not after or after[0].kind in ("mark", "newline") or after[0].lower in ("as", "at", "dated")
        if closed and not club_at(scene, run.end):
            return True  # "half set for Ada, she is 12"
        return _club_with_its_model(scene, known, run.end)  # "clubs for Ada driver Gannet twelve degrees …"
    if scene.line_start(run.start) and (_at_event(scene, run.end) or _whose_bag(scene, run.end)):
        return True
    if owner == "for" and scene.line_start(run.start) is False and _title(scene, run):
        return True
    spoken_to = run.start > 1 and tokens[run.start - 1].lower in ("to", "with") and len(words) == 1
    if spoken_to and _of_somebody_else(scene) and prose(scene, run.start) and not flexed(scene, run.end):
        met = tokens[run.start - 2].lower in (
            "spoke",
            "talked",
            "spoken",
            "speaking",
            "chatted",
            "met",
            "up",
            "sat",
        )
        return met and scene.line_start(run.start - 2)
    if len(words) < 2 and not (run.start and tokens[run.start - 1].lower == "for" and scene.line_start(run.start - 1)):
        return False
    return speaks_of_no_club(scene, run.end)


def _somebody_called(scene: Scene, run: NameRun) -> bool:
    """True for the name in "on the bench today, for a lad called Ada Brandt": whose clubs are told of."""
    tokens = scene.tokens
    who = run.start - 2
    lead = tokens[max(0, who - 4) : who]
    told = who > 0 and tokens[who].lower in _SOMEBODY | RELATED and tokens[who - 1].lower not in ("his", "her")
    given = any(token.lower in ("for", "of", "belongs", "is") for token in lead) or not scene.drafts
    return told and given and "player" not in scene.facts and not flexed(scene, run.end)


def _clubs_are_for(scene: Scene, start: int, end: int) -> bool:
    """True for the name in "Three wedges for Ada Brandt please, all Gannet:": whose the clubs told of next are."""
    tokens = scene.tokens
    clubs = start - 2
    while clubs > start - 4 and clubs > 0 and tokens[clubs].terminal == "SILENT":
        clubs -= 1  # "wedges built for Ada Brandt"
    if clubs < 0 or tokens[start - 1].lower != "for" or "player" in scene.facts:
        return False
    if tokens[clubs].terminal not in FAMILIES or any(draft.facts for draft in (*scene.drafts, *scene.headers)):
        return False
    after = tokens[end] if end < len(tokens) else None
    closed = after is None or after.kind in ("mark", "newline") or after.lower in ("please", "to", "as", "at")
    return closed and not flexed(scene, end)


def _told_who(scene: Scene, at: int) -> bool:
    """True for ", our new lady captain, plays" behind a name: who it is, between commas, and what is done."""
    tokens = scene.tokens
    if (
        at + 2 >= len(tokens)
        or tokens[at].text != ","
        or tokens[at + 1].lower not in ("our", "my", "the", "who", "this")
    ):
        return False
    comma = next((place for place in range(at + 2, min(at + 9, len(tokens) - 1)) if tokens[place].text == ","), 0)
    return bool(comma) and tokens[comma + 1].lower.split()[0] in VERBS


def _age_behind(scene: Scene, at: int) -> bool:
    """True where a comma and a person's age follow: ", 11 yrs", ", age 11", ", she's seventeen and …"."""
    tokens = scene.tokens
    if at + 1 >= len(tokens) or tokens[at].terminal != "COMMA":
        return False
    told = tokens[at + 1].lower in _AGED
    number = tokens[at + 1 + told] if at + 1 + told < len(tokens) else None
    if number is None or not isinstance(number.value, float) or not 4 <= number.value <= 99 or number.sign:
        return False
    after = tokens[at + 2 + told] if at + 2 + told < len(tokens) else None
    closed = after is None or after.kind in ("mark", "newline") or after.lower in ("and", *_YEARS)
    return closed and (told or number.value == int(number.value))


def _hand_in_bracket(scene: Scene, at: int) -> bool:
    """True for the bracket of "Ada Brandt (11, left-handed)": a hand, an age before it if any."""
    opened = at < len(scene.tokens) and scene.tokens[at].terminal == "LPAR"
    inside = [token.terminal for token in scene.tokens[at + 1 : at + 5]] if opened else []
    while inside and inside[0] in ("NUM", "COMMA", "SLASH"):
        inside = inside[1:]
    return inside[:1] == ["HAND"]


def _event_or_day_behind(scene: Scene, at: int) -> bool:
    """True for ", Ravelin Cup, 6 June 2025:" behind a name: an event or a day, no club, and then the list."""
    tokens = scene.tokens
    end = next(
        (place for place in range(at, len(tokens)) if tokens[place].text == ":" or tokens[place].kind == "newline"), at
    )
    heading = tokens[at:end]
    if not heading or heading[0].text not in (",", "-", "–", "—") or says(tokens, at, end, ("club", "family", "named")):
        return False
    return any(token.terminal in ("EVENTKIND", "MONTH") for token in heading)


def _set_told_before(scene: Scene, at: int) -> bool:
    """True for the bag of "and in the bag this week for Ada": words of time may stand between."""
    while at > 0 and scene.tokens[at].lower in _NOWADAYS:
        at -= 1
    return scene.tokens[at].lower in _SETS


def _behind_bracket(scene: Scene, at: int) -> int:
    """The place behind a bracket that opens here; this place where none does."""
    if at >= len(scene.tokens) or scene.tokens[at].terminal != "LPAR":
        return at
    closing = (place for place in range(at, scene.clause_end(at)) if scene.tokens[place].terminal == "RPAR")
    return next(closing, at - 1) + 1


def _tells_what_set(scene: Scene, at: int) -> bool:
    """True where a comma and words like "ladies half set" end the line."""
    tokens = scene.tokens
    end = line_end(tokens, at)
    words = [token.lower for token in tokens[at + 1 : end]]
    comma = at < end and tokens[at].text in (",", "-", "–", "—", "(")
    return comma and bool(words) and set(words) & {"set", "clubs", "bag"} != set() and len(words) <= 5


def _at_event(scene: Scene, at: int) -> bool:
    """True for "Ada Brandt at the Ravelin Cup: driver …" behind the name."""
    tokens, end = scene.tokens, at + 1
    if at >= len(tokens) or tokens[at].lower not in ("at", "in", "after", "before"):
        return False
    while end < len(tokens) and tokens[end].terminal in ("SILENT", "WORD"):
        end += 1
    capital = end < len(tokens) and tokens[end].text[:1].isupper()
    return end < len(tokens) and (tokens[end].terminal == "EVENTKIND" or (capital and tokens[end].terminal == "OPEN"))


def _title(scene: Scene, run: NameRun) -> bool:
    """True for the "Ada" of a first line "Clubs needed for Ada (LH), pick up Thursday:"."""
    tokens = scene.tokens
    closed = run.end >= len(tokens) or tokens[run.end].kind in ("mark", "newline")
    first = run.start <= scene.first_line_end
    return closed and first and speaks_of_no_club(scene, run.end) and speaks_of_no_club(scene, 0)


def _whose_bag(scene: Scene, at: int) -> bool:
    """True for "Ada — bag as of Tuesday" behind the name."""
    tokens = scene.tokens
    while at < len(tokens) and tokens[at].terminal in ("COMMA", "DASH"):
        at += 1
    said = at + 1 < len(tokens) and tokens[at].lower in _SETS and tokens[at - 1].terminal in ("COMMA", "DASH")
    return said and speaks_of_no_club(scene, at)


def _heads_list(scene: Scene, known: Known, run: NameRun) -> bool:
    """True for the "Ada" of "Ada: driver = Gannet 12", the "Ada Brandt" of "Ada Brandt: Gannet driver 12, …"."""
    tokens, begin = scene.tokens, with_initials(scene, run).start
    titled = {token.lower for token in tokens[max(0, begin - 2) : begin]} & TITLES
    begin -= (1 + (tokens[begin - 1].text == ".")) if titled else 0
    mark = tokens[run.end] if run.end + 1 < len(tokens) else None
    if (
        mark is None
        or not scene.line_start(begin)
        or not (mark.text == ":" or (mark.text in DASHES and not mark.glued))
    ):
        return False
    if mark.text == ":" and _club_with_its_model(scene, known, run.end + 1):
        return True
    full = bool(titled) or begin < run.start or run.end - run.start > 1
    once = all(tokens[at].text not in {each.text for each in tokens[run.end :]} for at in range(run.start, run.end))
    model = run_at(scene, known, run.end + 1) if full and once and begin <= scene.first_line_end else None
    return model is not None and club_at(scene, model.end)


def _club_with_its_model(scene: Scene, known: Known, at: int) -> bool:
    """True for "driver Gannet 12" and "driver = Gannet": a club, and behind it a name that no flex follows."""
    tokens = scene.tokens
    club = phrase_at(tokens, at) if at < len(tokens) else None
    if club is None or club.rule != "club":
        return False
    at = club.end
    while at < len(tokens) and tokens[at].terminal in ("EQ", "SILENT", "COMMA", "NUM", "DEG"):
        at += 1
    other = run_at(scene, known, at) if at < len(tokens) and tokens[at].terminal == "WORD" else None
    return other is not None and not flexed(scene, other.end)


def _of_somebody_else(scene: Scene) -> bool:
    """True when a letter speaks of the writer's own clubs or of a third person's, not of its reader's."""
    return not (_speaks_to_its_reader(scene) or "you" in scene.lowers) and bool(scene.lowers & _OTHERS)


def _speaks_to_its_reader(scene: Scene) -> bool:
    """True where a letter speaks of its reader's things; the "Yours ever" at its foot does not."""
    pairs = pairwise(token.lower for token in scene.tokens)
    if any(first == "you" and second in ("keep", "kept", "chose", "preferred") for first, second in pairs):
        return True  # "Putter: you keep the Stint"
    yours = any(token.lower == "yours" and not scene.line_start(at) for at, token in enumerate(scene.tokens))
    return yours or bool(scene.lowers & {"your", "you're", "you've"})


def of_the_writer(scene: Scene) -> bool:
    """True where the writer tells of clubs of his own: "my irons", "I play"."""
    plays = ("play", "carry", "use", "game", "putt", "keep", "carried")
    said = any(one.lower == "i" and other.lower in plays for one, other in pairwise(scene.tokens))
    return said or clubs_of(scene, {"my", "mine"})


def clubs_of(scene: Scene, whose: set[str]) -> bool:
    """True where these words stand before a club: "her driver", "my clubs"."""
    tokens = scene.tokens
    for at in range(len(tokens) - 1):
        if tokens[at].lower not in whose:
            continue
        if tokens[at + 1].terminal in FAMILIES or tokens[at + 1].lower in ("clubs", "bag", "set"):
            return True
        numbered = tokens[at + 1 : at + 3]  # "my old three wood"
        if any(token.terminal in FAMILIES for token in tokens[at + 2 : at + 4]) and all(
            token.terminal in ("SILENT", "NUM", "WORD", *FAMILIES) and token.text.islower() for token in numbered
        ):
            return True
    return False


def _introduced(scene: Scene, run: NameRun) -> bool:
    """True for "it's Ada!", "this is Jonas,", "I'm Priya" before any club."""
    tokens = scene.tokens
    lead = " ".join(token.lower for token in tokens[max(0, run.start - 3) : run.start])
    after = tokens[run.end].terminal if run.end < len(tokens) and tokens[run.end].kind != "newline" else "NEWLINE"
    here = tokens[run.end + 1].terminal if run.end + 1 < len(tokens) else "NEWLINE"
    if run.end < len(tokens) and tokens[run.end].lower == "here" and run.end - run.start <= 2:
        return here in ("STOP", "COMMA", "NEWLINE", "BREAK")  # "Halvard here!"
    if _with_another(scene, run.end) or _for_a_relative(scene):
        return (
            False  # "it's Ada, and I'm on the range with Jonas Reed", "it's Ada, three clubs for Dad": she only speaks
        )
    led = lead.endswith(("it's", " its", "this is", "i'm", "i am", "name is", "name's"))
    spoken = scene.clause < 2 and lead.endswith(" with") and _full_name(scene, run.start) and prose(scene, run.start)
    if spoken and tokens[run.start - 2].lower in _PLACES:
        return True  # "I'm on the range with Jonas Reed, who let me go through his clubs"
    told = run.start > 1 and tokens[run.start - 1].lower in ("are", "is") and tokens[run.start - 2].lower == "here"
    if told and tokens[run.end - 1].lower.endswith(("'s", "s'")):
        return True  # "And here are Ada's:"
    if spoken and _place_before(scene, run.start - 2):
        return True  # "So I'm up at Heron Links with Jonas Reed"
    if lead.endswith(("we're with", "here with", "joined by", "sat with", "i'm with", "are with")):
        return run.end - run.start in (2, 3) and not flexed(scene, run.end)  # "we're with Ada Brandt today"
    ends = after in ("STOP", "COMMA", "NEWLINE", "BREAK", "AND") or (
        after == "SILENT" and tokens[run.end].lower in ("my", *_HERE)
    )
    return led and (ends or _at_event(scene, run.end)) and run.end - run.start <= 3


def _quoted(scene: Scene, run: NameRun, words: list[Token]) -> bool:
    """True for who is quoted before any club: "I like a driver that sits open," says Ada Brandt."""
    if run.start < 2 or "player" in scene.facts or len(words) != 2 or any(draft.facts for draft in scene.drafts):
        return False
    mark, verb = [token.lower for token in scene.tokens[run.start - 2 : run.start]]
    return verb in _SAYING and mark in _QUOTES and all(word.text[:1].isupper() for word in words)


def _says_who_he_is(scene: Scene, run: NameRun, words: list[Token]) -> bool:
    """True for the "Ada Brandt" of "I'm Ada Brandt by the way", "my name is Ada Brandt", anywhere in a list."""
    lead = " ".join(token.lower.replace("’", "'") for token in scene.tokens[max(0, run.start - 3) : run.start])
    says = f" {lead}".endswith((" i'm", " im", " i am", " my name is", " my name's", " it's me", " its me"))
    named = len(words) == 2 and all(word.terminal == "WORD" and word.text[:1].isupper() for word in words)
    return says and named and "player" not in scene.facts and not flexed(scene, run.end)


def _introduced_in_small_letters(scene: Scene, run: NameRun, words: list[Token]) -> bool:
    """True for "this is ada brandt" at the end of the first line of a dictated list without capitals."""
    if scene.cased or scene.drafts or "player" in scene.facts or run.end >= len(scene.tokens):
        return False
    greeted = len(words) == 1 and scene.tokens[0].lower in HELLOS and run.start <= 6  # "hey coach its ada, …"
    if len(words) != 2 and not greeted:
        return False
    plain = all(word.terminal == "WORD" and not plain_word(word) for word in words)
    after = scene.tokens[run.end]
    closed = after.kind == "newline" or after.terminal in ("AND", "COMMA", "STOP") or after.lower in ("here", *_HERE)
    return plain and closed and _introduced(scene, run)


def _place_before(scene: Scene, at: int) -> bool:
    """True where a place ends, written with a capital, behind "at" or "in" and before "with"."""
    tokens = scene.tokens
    start = at
    while start > 0 and tokens[start].kind == "word" and tokens[start].text[:1].isupper():
        start -= 1
    return start < at and tokens[start].lower in ("at", "in")


def _with_another(scene: Scene, at: int) -> bool:
    """True where "with" and a name of two words follow in the sentence."""
    tokens, end = scene.tokens, scene.clause_end(at)
    return any(tokens[index].lower == "with" and _full_name(scene, index + 1) for index in range(at, end - 2))


def _for_a_relative(scene: Scene) -> bool:
    """True where the clubs are told to be for a relative before any is named: "three clubs for Dad", "for my son"."""
    tokens = scene.tokens
    first = next((at for at, token in enumerate(tokens[:60]) if token.terminal in FAMILIES), 0)
    for at in range(1, first):
        owner = at - 1 - (tokens[at - 1].lower in ("my", "our"))
        if tokens[at].lower in RELATED - {"client", "customer"} and owner >= 0 and tokens[owner].lower == "for":
            return not any(token.terminal == "WORD" and token.text[:1].isupper() for token in tokens[at + 1 : at + 2])
    return False


def _full_name(scene: Scene, at: int) -> bool:
    """True for two capital words of nobody's at this place."""
    words = scene.tokens[at : at + 2]
    plain = all(token.terminal == "WORD" and token.text[:1].isupper() for token in words)
    return len(words) == 2 and plain and not flexed(scene, at + 2)


def with_initials(scene: Scene, run: NameRun) -> NameRun:
    """The name with the initials before it: "C. Brannoch", "A. B. Strand"."""
    tokens, start = scene.tokens, run.start
    while start > 1 and tokens[start - 1].text == "." and _initial(tokens[start - 2]):
        if tokens[start].glued and start == run.start:
            break
        start -= 2
    if start == run.start:
        return run
    return run._replace(start=start, text=scene.words(start, run.end))


def _initial(token: Token) -> bool:
    return len(token.text) == 1 and token.text.isupper() and token.kind == "word"
