"""Clubs of other people, told beside the set: "Bram's 5-wood", "his driver was wooden", "you play yours two flat"."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise

from asplayed.intake.elsewhere import words_of
from asplayed.intake.groups import FAMILIES
from asplayed.intake.persons import RELATED, of_the_writer
from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.scene import CLAUSE, Scene
from asplayed.intake.tokens import Token
from asplayed.intake.wording import KIN, ordinary_words

_FIRST = {"my", "mine", "mine's", "mines", "our"}
_SECOND = {"your", "yours"}
_THIRD = {"his", "her", "their", "hers", "theirs"}
_I = {"i", "i've", "i'd", "ive", "we", "we've"}
_HE = {"he", "she", "he's", "she's", "they", "they've"}
_ALONE = {"mine", "mine's", "mines", "yours", "hers", "theirs", "his"}  # no club need follow
_IS = {"is", "are", "was", "were", "has", "had", "'s"}
_NOT = {"not", "isn't", "isnt", "aren't", "arent", "wasn't", "weren't", "ain't"}
_ENDS = ("STOP", "NEWLINE", "PIPE", "BREAK")
_TURNS = {*_FIRST, *_I, "i'm", "im", "i'll", "but"}  # behind a comma: what the teller says of himself
_LED = {"and", "but", "while", "whereas", "though", "although", "because", "so"}
_FIGURES = {"DEG", "GRAM", "INCH", "CM", "MM", "FLEX", "SWV", "UP", "DOWN", "LONG", "SHORT", "STD", "UPRIGHT"}
_DETERMINERS = {"a", "an", "the", "my", "his", "her", "our", "their", "your", "that", "one", "of", "another", "some"}
_EVERYBODY = {"everybody", "everyone", "most", "nobody", "somebody", "someone", "anybody", "others"}
_FORMER = {"old", "previous", "former", "last"}
_BACK = {"it", "they", "that", "those", "this"}  # "her brother's 6 iron but it was too heavy"
_NEAR = 4  # words between an owner and the club owned


def set_others_clubs_aside(scene: Scene) -> None:
    """Keep aside what a sentence tells of clubs that other people have, behind the first sentence that names one."""
    others = _Others(scene)
    known = False
    for start, end in others.sentences():
        known = known or others.teller == "first"
        span = others.told_of_others(start, end) if known else others.told_at_once(start, end)
        if span is not None:
            scene.set_aside(*span)
        known = known or others.names_club(start, end)


class _Others:
    """Finds who else is told of, and where what is told of his clubs begins and ends."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.people = RELATED | KIN | words_of("others")
        self._clubs: dict[int, bool] = {}

    def sentences(self) -> Iterator[tuple[int, int]]:
        """The stretches between full stops, line ends and bars that nobody has taken."""
        start = 0
        for end in range(len(self.tokens) + 1):
            if end == len(self.tokens) or self.tokens[end].terminal in _ENDS:
                if end > start and not all(self.scene.claims[start:end]) and end - start < CLAUSE:
                    yield start, end
                start = end + 1

    def _asked(self, end: int) -> bool:
        """True where a question mark ends the sentence."""
        return end < len(self.tokens) and self.tokens[end].text == "?"

    def names_club(self, start: int, end: int) -> bool:
        """True where a club is named."""
        return any(self._club_at(at) for at in range(start, end))

    @cached_property
    def teller(self) -> str:
        """Whose set it is as the list tells it: "first" for the writer's, "second" for the reader's, else "third"."""
        counts = {"first": 0, "second": 0, "third": 0}
        asked = {at for start, end in self.sentences() if self._asked(end) for at in range(start, end)}
        for at, token in enumerate(self.tokens):
            if at in asked:
                continue
            for person, words in (("first", _FIRST), ("second", _SECOND), ("third", _THIRD)):
                if token.lower in words and (token.lower in _ALONE - {"his"} or self._governs(at)):
                    whole = at + 1 < len(self.tokens) and self.tokens[at + 1].lower in ("set", "bag", "clubs")
                    counts[person] += 3 if whole else 1  # "your clubs are ready … my own driver is 10.5"
            for person, words in (("first", _I), ("second", {"you"}), ("third", _HE)):
                counts[person] += token.lower in words and self._has(at)
        if self._of_a_relative():
            return "third"
        best = max(counts, key=lambda person: counts[person])
        return best if counts[best] else "third"

    @cached_property
    def _labelled(self) -> frozenset[str]:
        """The words of the name behind "Player:", in small letters; none where no label says it."""
        for at, token in enumerate(self.tokens[:-2]):
            if token.terminal == "PLAYERWORD" and self.tokens[at + 1].text == ":" and self.scene.line_start(at):
                return frozenset(each.lower for each in self.tokens[at + 2 : at + 6] if each.line == token.line)
        return frozenset()

    def _of_a_relative(self, *, named: bool = True) -> bool:
        """True where the set is said to be for a relative or of one: "for my daughter", "my son's clubs"."""
        first = next((at for at in range(len(self.tokens)) if self._club_at(at)), len(self.tokens))
        for at in range(min(first, CLAUSE)):
            word = self.tokens[at].lower.replace("’", "'")
            led = at and self.tokens[at - 1].lower in ("my", "our")
            if led and word.removesuffix("'s") in RELATED | KIN:
                given = at > 1 and self.tokens[at - 2].lower == "for"
                if given or word.endswith("'s") or (named and self.tokens[at + 1].text[:1].isupper()):
                    return True
        return False

    def told_of_others(self, start: int, end: int) -> tuple[int, int] | None:
        """The stretch of a sentence that tells of somebody else's club; None for none."""
        tests = (
            self._compared,
            self._owned,
            self._possessed,
            self._had,
            self._elliptic,
            self._you_or_i,
            self._champion,
        )
        for test in tests:
            at = test(start, end)
            if at >= 0:
                return self._begin(start, at), self._stop(at, end, listed=self._listed(start, at))
        return None

    def told_at_once(self, start: int, end: int) -> tuple[int, int] | None:
        """ "A lot of players out here are on the Orrin Nine driver", told before any club of the set; None for none."""
        at = self._had(start, end)
        many = at >= 0 and (self.tokens[at].lower in _EVERYBODY or self.tokens[at].lower.endswith("s"))
        many = many or (0 <= at - start <= 2 and self.tokens[start].lower in _THIRD | {"other", "another"})
        at = at if many else self._you_or_i(start, end)
        at = at if at >= 0 else self._owned(start, end, words_of("others") - {"player"})
        return (self._begin(start, at), self._stop(at, end, listed=self._listed(start, at))) if at >= 0 else None

    def _club_at(self, at: int) -> bool:
        """True where a phrase that names a club begins."""
        if at not in self._clubs:
            phrase = phrase_at(self.tokens, at) if self.tokens[at].kind in ("word", "number") else None
            self._clubs[at] = phrase is not None and phrase.rule in CLUB_RULES and phrase.has(*FAMILIES)
        return self._clubs[at]

    def _governs(self, at: int, *, whole: bool = True) -> bool:
        """True for the "his" of "his old Cassia driver": a club, or the `whole` set, close behind, no mark between."""
        for place in range(at + 1, min(at + 2 + _NEAR, len(self.tokens))):
            if self._club_at(place):
                return True
            if self.tokens[place].lower in ("set", "bag", "clubs"):
                return whole
            token = self.tokens[place]
            if token.kind not in ("word", "number") or token.terminal in ("EQ", "IN", "AT", "WITH", "AND"):
                return False
            if token.lower in self.people or token.lower in words_of("has"):
                return False  # "my daughter uses a Burr 5 wood"
        return False

    def _has(self, at: int) -> bool:
        """True where a verb of having stands behind who has: "I play", "she's also got"."""
        for token in self.tokens[at + 1 : at + 4]:
            if token.lower.split(" ")[0] in words_of("has"):
                return True  # "has a" is one word of the trade
            if token.terminal != "SILENT":
                return False
        return False

    def _tells(self, start: int, end: int) -> bool:
        """True where a club, a figure or a name with a capital stands."""
        told = self.tokens[start:end]
        plain = any(token.kind == "number" or token.terminal in _FIGURES for token in told)
        return plain or self.names_club(start, end) or any(_of_a_name(token) for token in told[1:])

    def _compared(self, start: int, end: int) -> int:
        """ "Compared with: his own Furlong 8 driver", "tour average for comparison: 45.0 in"."""
        for at in range(start, end - 1):
            word, after = self.tokens[at].lower, self.tokens[at + 1].lower
            led = word in ("compared", "versus", "vs") or word.startswith("compared ")
            if led and self._tells(at + 1, end) and any(self._owner_word(place) for place in range(at + 1, end)):
                return at
            if word == "for" and after in ("comparison", "reference") and self._tells(start, end):
                return start
        return -1

    def _owned(self, start: int, end: int, people: frozenset[str] | None = None) -> int:
        """ "Bram's 5-wood", "the wife's 7 wood", "dads old 3 hybrid": an owner before a club, and not the player."""
        for at in range(start, end - 1):
            owner = self._owner(at)
            if not owner or not self._governs(at, whole=False) or self._club_before(start, at):
                continue
            first = self.teller == "first" or self._labelled
            told = people is None and first and self._somebody(at, owner)
            if owner in (self.people if people is None else people) or told:
                return at
        return -1

    def _owner_word(self, at: int) -> bool:
        """True for "his", "my", "Bram's", and for a club's own model behind "old"."""
        word = self.tokens[at].lower
        return word in _FIRST | _SECOND | _THIRD or word in _FORMER or bool(self._owner(at))

    def _owner(self, at: int) -> str:
        """The one before an "'s", in small letters; "" for any other word."""
        word = self.tokens[at].lower.replace("’", "'")
        if word.endswith("'s"):
            return word[:-2]
        if word.endswith("s'"):
            return word[:-1]
        kin = word[:-1] if word.endswith("s") else ""
        return kin if kin in KIN else ""

    def _somebody(self, at: int, owner: str) -> bool:
        """True for an owner written like a name that is neither the player nor told of in a heading."""
        player = self.scene.facts.get("player", "").lower()
        named = self.tokens[at].terminal == "WORD" and self.tokens[at].text[:1].isupper()
        signed = any(token.lower == owner for token in self.tokens[-6:])
        headed = at < self.scene.first_line_end
        return (
            named
            and owner not in ordinary_words()
            and owner not in player
            and not signed
            and not headed
            and owner not in self._labelled
        )

    def _possessed(self, start: int, end: int) -> int:
        """ "His driver was wooden", told behind "my grandfather"; "his own Furlong 8" of a list in the first person."""
        for at in range(start, end - 1):
            word = self.tokens[at].lower
            if word in _THIRD and self._governs(at, whole=False):
                subject = next((place for place in range(at - 1, start - 1, -1) if self._person(place)), -1)
                near = subject >= 0 and not any(self._club_at(place) for place in range(subject, at))
                of_writer = subject >= 0 and (
                    self.tokens[subject].lower in KIN
                    or bool({token.lower for token in self.tokens[max(0, subject - 2) : subject]} & _FIRST)
                )
                told = near and not self._of_the_set(subject) and of_writer
                if told or (self.teller == "first" and self._told_before(start, at)):
                    return max(subject, start) if near else at
            if word in ("my", "mine", "mine's") and (self._of_the_writer(at, end) or self._own_besides(at)):
                return at
        return -1

    def _of_the_writer(self, at: int, end: int) -> bool:
        """True for "mine" in a list of another's set; in a talk whose it is has been settled."""
        return self.teller != "first" and not self.scene.talk and self._mine(at, end)

    def _own_besides(self, at: int) -> bool:
        """True for "my own lob wedge is a 64" where the set's lob wedge has been told."""
        opens = at == 0 or self.tokens[at - 1].terminal in _ENDS or self.tokens[at - 1].text == ":"
        own = [token.lower for token in self.tokens[at : at + 2]] == ["my", "own"]
        if not (opens and own and self._club_at(at + 2)):
            return False
        club = phrase_at(self.tokens, at + 2)
        named = [token.value for token in club.tokens] if club is not None else []
        return any(
            [token.value for token in self.tokens[place : place + len(named)]] == named and self._club_at(place)
            for place in range(at)
        )

    def _mine(self, at: int, end: int) -> bool:
        """True for "mine's 45.5", "my own driver is 46": of the one who writes about another's set."""
        if self.tokens[at].lower == "my":
            own = self.tokens[at + 1].lower in ("own", "old") or self._of_a_relative(named=False)
            return own and self._governs(at, whole=False)
        opens = at == 0 or self.tokens[at - 1].terminal in ("COMMA", "AND", "LPAR", *_ENDS)
        return opens and self._tells(at + 1, end) and not of_the_writer(self.scene)  # "the irons I play"

    def _told_before(self, start: int, at: int) -> bool:
        """True where a relative or a friend is told of in this sentence or the one before."""
        low = start - 1
        while low > max(0, start - CLAUSE) and self.tokens[low - 1].terminal not in _ENDS:
            low -= 1
        return any(self._person(place) for place in range(max(0, low), at))

    def _person(self, at: int) -> bool:
        """True for the "grandfather" of "my grandfather", the "players" of "a lot of players"."""
        token = self.tokens[at]
        word = token.lower
        if word in _EVERYBODY:
            return True
        who = [each.lower for each in self.tokens[at + 1 : at + 3]]
        word = self._owner(at) or word if who == [",", "who"] else word  # "like my wife's, who has a 43 inch driver"
        if word not in self.people and word.removesuffix("s") not in self.people:
            return False
        led = [each.lower for each in self.tokens[max(0, at - 3) : at]]
        opens = at == 0 or self.tokens[at - 1].kind in ("mark", "newline")
        onward = self.tokens[at + 1] if at + 1 < len(self.tokens) else token
        named = onward.terminal == "HYPHEN" or _of_a_name(onward)  # "Runner-up Ada Brandt had …"
        owned = any(each.replace("’", "'").endswith("'s") for each in led[-1:])  # "next door's lad"
        return (
            bool((_DETERMINERS | {"other"}) & set(led))
            or owned
            or (opens and (word in KIN or word not in self.people or named))
        )

    def _had(self, start: int, end: int) -> int:
        """ "My partner has the Quarto 3 iron", "a lot of players out here are on the Orrin Nine driver"."""
        for at in range(start, end - 2):
            if not self._person(at) or self._of_the_set(at) or self._club_before(start, at):
                continue
            verb = self._verb_of(at, end)
            if verb > 0 and any(token.terminal == "BENT" for token in self.tokens[verb:end]):
                continue  # "somebody has had the whole lot bent a degree flat"
            if verb > 0:
                stop = self._comma(verb + 1, end)
                kind = any(token.lower in ("version", "model") for token in self.tokens[verb + 1 : stop])
                return at if kind or self._tells(verb + 1, stop) else -1
        return -1

    def _verb_of(self, at: int, end: int) -> int:
        """Where what somebody has is said: "the guy I played yesterday had", "my wife, who has"; 0 for nowhere."""
        first = at + 1
        if self.tokens[first].terminal == "COMMA":  # "The vice-captain, by contrast, swears by a 9 wood"
            close = self._comma(first + 1, min(first + 6, end))
            who = self.tokens[first + 1].lower in ("who", "whose")
            first = first + 1 if who else close + 1
        for verb in range(first, min(first + 8, end - 1)):
            token = self.tokens[verb]
            if token.lower in ("are", "is", "were", "was") and self.tokens[verb + 1].lower in ("on", "at"):
                return verb
            if token.lower.split(" ")[0] in words_of("has"):
                return verb
            if token.kind in ("mark", "number", "newline") and token.terminal != "HYPHEN":
                return 0
            if token.lower in _I | _HE | {"you"} and verb > at + 1:
                return 0
        return 0

    def _comma(self, at: int, end: int) -> int:
        """The next comma, but for one right here; the sentence's end where none stands."""
        at += self.tokens[at].terminal == "COMMA" if at < end else 0
        return next((place for place in range(at, end) if self.tokens[place].terminal == "COMMA"), end)

    def _club_before(self, start: int, at: int) -> bool:
        """True for "the putter is a Stint that my father used", "sand wedge: my cousin's old 56": it is the set's."""
        low = at
        while low > start and self.tokens[low - 1].terminal not in ("COMMA", "LPAR"):
            low -= 1
        linked = any(token.terminal == "EQ" or token.lower in ("that", "which") for token in self.tokens[low:at])
        return linked and any(self._club_at(place) for place in range(low, at))

    def _of_the_set(self, at: int) -> bool:
        """True for one told of before the first club, whose set the list can be."""
        word = self.tokens[at].lower
        first = next((place for place in range(len(self.tokens)) if self._club_at(place)), 0)
        before = any(token.lower in (word, f"{word}'s") for token in self.tokens[:first])
        return before and word in RELATED | KIN and (self.teller != "first" or self._of_a_relative())

    def _elliptic(self, start: int, end: int) -> int:
        """ "The wife's is the Petal 12 degree", "my brother plays his an inch long": the club is left out."""
        for at in range(start, end - 1):
            owner = self._owner(at)
            name = at + 1
            while name < end - 1 and _of_a_name(self.tokens[name]):
                name += 1
            said = [token.lower for token in self.tokens[name + 1 : end]]
            more = name > at + 1 and any(len(word) > 4 and word.endswith("er") for word in said)
            told = more or self._tells(name + 1, end)
            if owner in self.people and self.tokens[name].lower in _IS and told:
                return at if not self._club_before(start, at) else -1
        return -1

    def _you_or_i(self, start: int, end: int) -> int:
        """ "You play yours two flat", said by a player; "I play a 46-inch driver", by who writes of another's set."""
        for at in range(start, end - 1):
            word = self.tokens[at].lower
            if self.teller in ("first", "third") and word == "yours" and self._tells(start, end) and at > start:
                return at
            if self.teller in ("second", "third") and word in _I - {"we", "we've"} and self._plays(at, end):
                return at
        return -1

    def _champion(self, start: int, end: int) -> int:
        """ "World number one Otto Brand plays the Keld 4 in 9°", where a heading names another as the player."""
        head = self._head
        for at in range(start, end - 3 if head else start):
            names = self.tokens[at : at + 2]
            if not all(_of_a_name(token) and token.text not in head for token in names):
                continue
            verb = self.tokens[at + 2].lower.split(" ")[0]
            alone = all(sum(token.text == name.text for token in self.tokens) == 1 for name in names)
            if verb in ("plays", "uses", "carries", "games", "swings", "has") and alone and self._tells(at + 3, end):
                return at
        return -1

    @cached_property
    def _head(self) -> frozenset[str]:
        """The words of a first line that names somebody and no club; none of any other."""
        line = self.tokens[: self.scene.first_line_end]
        named = any(_of_a_name(one) and _of_a_name(other) for one, other in pairwise(line))
        return frozenset(token.text for token in line) if named and not self.names_club(0, len(line)) else frozenset()

    def _plays(self, at: int, end: int) -> bool:
        """True for "I play off 8 with a 46-inch driver": what the writer plays himself, with a figure of it."""
        verbs = {"play", "played", "use", "swing", "game", "carry"}
        said = [token.lower.split(" ")[0] for token in self.tokens[at + 1 : at + 3]]
        near = bool(set(said) & verbs)
        myself = any(token.lower == "myself" for token in self.tokens[at:end])
        return near and myself and self._tells(at + 1, end)

    def _listed(self, start: int, at: int) -> bool:
        """True where clubs of the set are told before in the same sentence, parted by commas."""
        low = self._begin(start, at)
        return any(self._club_at(place) for place in range(start, low))

    def _begin(self, start: int, at: int) -> int:
        """Where what is told begins: with the sentence, or behind the mark before it and its joining word."""
        low = at
        while (
            low > start and self.tokens[low - 1].terminal not in ("COMMA", "LPAR") and self.tokens[low - 1].text != ";"
        ):
            low -= 1
        while low < at and self.tokens[low].lower in _LED:
            low += 1
        return low

    def _stop(self, at: int, end: int, *, listed: bool = False) -> int:
        """Where it ends: with the sentence, or where the teller goes on of himself: ", I'm standard", "but …"."""
        for place in range(at + 1, end):
            token = self.tokens[place]
            if token.lower == "but" and (place + 1 == end or self.tokens[place + 1].lower not in _BACK):
                return place
            if token.lower in _HE and self.teller == "third" and self._has(place) and place > at + 2:
                return place  # "where others would have a 5 wood he has a 3 hybrid"
            marked = token.terminal == "COMMA" or token.text == ";" or token.terminal == "AND"
            if listed and token.terminal == "COMMA" and place + 1 < end and self._club_at(place + 1):
                return place  # "3 wood Hob 15, the sponsor's driver, irons Hob 4-PW"
            own = self.tokens[at].lower in _FIRST | _I
            if marked and place + 1 < end and self._goes_on(place + 1, own=own) and self._tells(place + 1, end):
                return place
        return end

    def _goes_on(self, at: int, *, own: bool) -> bool:
        """True where the set is spoken of again behind a comma; `own` says that what was told is the writer's own."""
        word = self.tokens[at].lower
        return word in (_THIRD | _HE | _SECOND | {"you"} if own else _TURNS)


def _of_a_name(token: Token) -> bool:
    return token.terminal == "WORD" and token.text[:1].isupper()
