"""A set explained: sentences from its figures and findings, at three depths, sure only of what the sources allow.

A glance is one line a club. A talk says what each part is, what its settings do, why this player may have chosen
them, who should not copy them, what is unusual and how sure the figures are. Footnotes give every figure with its
band, its source and what it rests on. What a figure does not say is not said.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from asplayed.clubs import Club, GolfSet
from asplayed.clubs.hand import side
from asplayed.clubs.names import labels
from asplayed.clubs.usual import usual
from asplayed.quantities import Figure, Source, figure
from asplayed.telling.aloud import aloud, cardinal, date_aloud
from asplayed.telling.bags import with_article
from asplayed.telling.comparing import Compared, spoken_changes
from asplayed.telling.phrases import Sentence, Spelling, Spoken, Words, hedge, spelled, table
from asplayed.telling.report import Report
from asplayed.telling.words import MISSING, band_text, changed, clean, counted, listed, part_name, title, value_text
from asplayed.telling.workings import NAMES, made_name, workings

if TYPE_CHECKING:
    from asplayed.judgement import Finding
    from asplayed.players.flown import FlownClub, FlownSet

_TALKED = ("breach", "flaw", "unusual")  # levels of findings that belong in a talk; notes are for the footnotes
_STIFF, _SOFT = frozenset({"X", "TX"}), frozenset({"L", "A"})
_MANY = 3  # clubs from which a finding is told of the whole set, not of its last club
_EVEN = 1.0  # degrees by which the gaps before and after a club may differ and still be called even
_OF_FIELD = 2  # sentences a section of the field's report, in a talk
_OFF_USUAL = 0.2  # inches outside the usual lengths before a talk calls a club short or long


class ClubTold(NamedTuple):
    """One club explained."""

    name: str
    club: Club
    glance: Sentence
    brief: Sentence
    talk: tuple[Sentence, ...]
    footnotes: tuple[str, ...]


class Explanation(NamedTuple):
    """A set explained: its opening, every club in order, what holds for the whole, what has changed, its ball."""

    title: str
    opening: Sentence
    clubs: tuple[ClubTold, ...]
    whole: tuple[Sentence, ...]
    changes: tuple[Sentence, ...]
    ball: Sentence
    compared: str = ""  # what its changes are headed
    field: tuple[Sentence, ...] = ()  # the set beside a field of others

    @property
    def sentences(self) -> tuple[Sentence, ...]:
        """Everything in a talk, in the order it is told."""
        return (
            self.opening,
            *(said for club in self.clubs for said in club.talk),
            *self.whole,
            *self.changes,
            *self.field,
            self.ball,
        )


def explain(
    golf_set: GolfSet,
    findings: Sequence[Finding] = (),
    *,
    flown: FlownSet | None = None,
    changes: Compared | None = None,
    field: Report | None = None,
    spelling: Spelling = "british",
) -> Explanation:
    """A played set and its findings in sentences; with `flown`, also how far each club carries.

    `changes` are the differences from an earlier date, where it was compared with one; `field` is the set beside
    others.

    The same input gives the same words. Nothing is said of what is not known but that it is not known.

    >>> told = explain(GolfSet(clubs=(Club(club="putter", kind="putter"),)))
    >>> [said.text for said in told.clubs[0].talk]
    ['Nobody has named the head or the shaft of the putter.', 'Its loft is not known.']
    """
    words = Words(spelling)
    facts, names = golf_set.set, labels(golf_set.clubs)
    hand = f"{facts.hand}-handed" if facts.hand_source == "stated" else f"{facts.hand}-handed, it is assumed"
    opening = words.say(
        "opening" if facts.date else "opening-undated",
        title=title(golf_set),
        count=_counted(len(golf_set.clubs), "club"),
        hand=hand,
        date=Spoken(facts.date or "", date_aloud(facts.date or "", american=spelling == "american")),
    )
    carries = {each.label: each for each in flown.clubs} if flown is not None else {}
    last = {name: place for place, name in enumerate(club.club for club in golf_set.clubs)}
    at: dict[int, list[Finding]] = {}
    for finding in findings:
        if finding.level in _TALKED:
            many = len(set(finding.clubs)) >= _MANY
            place = -1 if many else max((last.get(name, -1) for name in finding.clubs), default=-1)
            at.setdefault(place, []).append(finding)
    clubs, before = [], None
    for place, (name, club) in enumerate(zip(names, golf_set.clubs, strict=True)):
        after = golf_set.clubs[place + 1] if place + 1 < len(golf_set.clubs) else None
        teller = _Teller(words, club, name, golf_set, before, after, carries.get(name), at.get(place, ()))
        clubs.append(teller.told([finding for finding in findings if club.club in finding.clubs]))
        before = teller
    whole = tuple(_finding(words, finding) for finding in at.get(-1, ()))
    return Explanation(
        clean(title(golf_set)),
        opening,
        tuple(clubs),
        whole,
        spoken_changes(changes, words) if changes is not None else (),
        _ball(words, golf_set),
        changes.heading if changes else "",
        _field(field) if field is not None else (),
    )


def _field(field: Report) -> tuple[Sentence, ...]:
    """As much of a set beside its field as belongs in a talk: the first of each kind, and how far to trust it."""
    return (field.opening, *(said for part in field.sections for said in part.sentences[:_OF_FIELD]), *field.trust)


def _counted(number: int, noun: str) -> Spoken:
    """A count with its noun, the number in words where it is said."""
    printed = counted(number, noun)
    return Spoken(printed, printed.replace(str(number), cardinal(number) if number else "no", 1))


def _ball(words: Words, golf_set: GolfSet) -> Sentence:
    name = part_name(golf_set.ball)
    if not name:
        return words.say("ball-missing")
    colour = golf_set.ball.colour if golf_set.ball else None
    return words.say("ball-colour", ball=name, colour=colour) if colour else words.say("ball", ball=name)


def _finding(words: Words, finding: Finding) -> Sentence:
    told = spelled(finding.sentence, words.spelling)
    sentence = words.say("finding" if finding.level == "unusual" else f"finding-{finding.level}", finding=told)
    figures = tuple(
        (NAMES.get(f"as_played.{name}", name.replace("_", " ")).removesuffix(" as played"), found)
        for name, found in finding.figures.items()
    )
    return sentence._replace(figures=figures)


class _Teller:
    """One club on its way into words."""

    def __init__(
        self,
        words: Words,
        club: Club,
        name: str,
        golf_set: GolfSet,
        before: _Teller | None,
        after: Club | None,
        flown: FlownClub | None,
        findings: Sequence[Finding],
    ) -> None:
        self.words, self.club, self.name, self.before = words, club, clean(name), before
        self.called = _called(self.name)
        self.after, self.flown, self.findings = after, flown, findings
        self.head, self.shaft = clean(part_name(club.head)), _shaft(club)
        self.left, self.right = (side(way, golf_set.set.hand) for way in (-1.0, 1.0))
        self.features: list[str] = []
        self.grounds: Mapping[str, str] = {}

    def told(self, findings: Sequence[Finding]) -> ClubTold:
        body = [
            *self._what(), *self._loft(), *self._sleeve(), *self._bends(), *self._sole(), *self._length(),
            *self._parts(), *self._putter(), *self._carry(),
        ]  # fmt: skip
        body += [*self._why(), *(_finding(self.words, finding) for finding in self.findings)]
        return ClubTold(
            self.name,
            self.club,
            self._glance(),
            self._brief(),
            (*body, *self._ground(body)),
            tuple(self._footnotes(findings)),
        )

    # ------------------------------------------------------------------------------------------------ what it is

    def _what(self) -> Iterator[Sentence]:
        head, shaft, club = self.head, self.shaft, self.called
        same_head = bool(head) and self.before is not None and self.before.head == head
        same_shaft = self._keeps_shaft()
        mass = self.club.shaft.mass
        again = self.before is not None and self.before.shaft == shaft and not same_shaft
        if again and head and shaft and mass is not None and mass.value is not None:
            yield self.words.say("what-mass", club=club, head=head, shaft=shaft, mass=("shaft mass", mass))
        elif same_head and same_shaft:
            yield self.words.say("what-same", club=club)
        elif same_head and shaft:
            yield self.words.say("what-same-head", club=club, head=head, shaft=shaft)
        elif same_shaft and head:
            yield self.words.say("what-same-shaft", club=club, head=head)
        elif head and shaft:
            yield self.words.say("what", club=club, head=head, shaft=shaft)
        elif head:
            yield self.words.say("putter-head" if self.club.kind == "putter" else "what-head", club=club, head=head)
        elif shaft:
            yield self.words.say("what-shaft", club=club, shaft=shaft)
        else:
            yield self.words.say("what-nothing", club=club)
        flex = (self.club.shaft.flex or "").rstrip("+-")
        if not same_shaft and flex in _STIFF:
            self.features.append("stiff")
        elif not same_shaft and flex in _SOFT:
            self.features.append("soft")
        if self.club.kind == "hybrid":
            self.features.append("hybrid")
        if self.club.kind == "driving iron":
            self.features.append("driving-iron")

    def _keeps_shaft(self) -> bool:
        """True where the shaft is the last club's: by name and flex, and by mass save in a set of irons and wedges."""
        if self.before is None or not self.shaft or self.before.shaft != self.shaft:
            return False
        kinds = {self.club.kind, self.before.club.kind}
        return kinds <= {"iron", "wedge"} or value_text(self.before.club.shaft.mass) == value_text(self.club.shaft.mass)

    def _loft(self) -> Iterator[Sentence]:
        loft, stamp = self.club.as_played.loft, self.club.head.loft
        if loft is None or loft.value is None:
            yield self.words.say("loft-missing")
        elif loft.source in (Source.COMMON_PRACTICE, Source.ASSUMED):
            yield self.words.say("loft-usual", loft=("loft", loft))
        elif stamp is not None and stamp.value is not None and value_text(stamp) != value_text(loft):
            made = made_name("loft", stamp)
            topic = f"loft-changed-{made.removeprefix('loft as ')}"
            yield self.words.say(topic, stamp=(made, stamp), loft=("loft", loft))
        elif self.club.kind != "putter":
            yield self.words.say("loft", loft=("loft", loft))
        degrees = loft.in_unit("deg").number if loft is not None and loft.has_number else 0.0
        if self.club.kind == "fairway wood" and degrees > _limit("high_wood_loft"):
            self.features.append("high-wood")

    # ------------------------------------------------------------------------------------------------ its settings

    def _sleeve(self) -> Iterator[Sentence]:
        sleeve = self.club.sleeve
        if sleeve is None:
            return
        known = told = False
        for name, change, below, above in (
            ("sleeve’s change of loft", sleeve.loft_change, "strong", "weak"),
            ("sleeve’s change of lie", sleeve.lie_change, "flat", "upright"),
        ):
            known = known or (change is not None and change.value is not None)
            if change is not None and changed(change):
                way = f"sleeve-{above if change.number > 0 else below}"
                yield self._change(way, name, change, also="also " if told else "")
                told = True
                if way in ("sleeve-strong", "sleeve-weak"):
                    self.features.append(way)
        if not known and sleeve.position:
            yield self.words.say("sleeve-unknown", position=sleeve.position)
        elif not known:
            yield self.words.say("sleeve-turned")
        face = self.club.as_played.face
        if face is not None and changed(face) and abs(face.in_unit("deg").number) >= 0.25:
            yield self._change("face-open" if face.number > 0 else "face-closed", "face", face)

    def _bends(self) -> Iterator[Sentence]:
        loft, lie = self.club.bend.loft, self.club.bend.lie
        if loft is not None and changed(loft):
            way = "bend-weak" if loft.number > 0 else "bend-strong"
            yield self._change(way, "bend of loft", loft)
            if self.club.kind == "wedge":
                yield self.words.say(f"{way}-sole")
            self.features.append(way if self.club.kind == "wedge" else f"{way}-iron")
        if lie is not None and changed(lie):
            way = "lie-upright" if lie.number > 0 else "lie-flat"
            yield self._change(way, "bend of lie", lie)
            self.features.append(way)

    def _change(self, topic: str, name: str, change: Figure, also: str = "") -> Sentence:
        """A change by its size; the sentence says the way, the record keeps the sign."""
        size = Figure(value=abs(change.number), unit=change.unit, source=change.source)
        made = self.words.say(topic, amount=(name, size), left=self.left, right=self.right, also=also)
        return made._replace(figures=((name, change),))

    def _sole(self) -> Iterator[Sentence]:
        bounce = self.club.as_played.bounce
        if self.club.kind != "wedge":
            return
        if bounce is not None and bounce.has_number and bounce.source.rank <= Source.COMPUTED.rank:
            degrees = bounce.in_unit("deg").number
            low, high = degrees <= _limit("bounce_low"), degrees >= _limit("bounce_high")
            topic = "bounce-low" if low else "bounce-high" if high else "bounce-middle"
            yield self.words.say(topic, bounce=("bounce", bounce))
            if low or high:
                self.features.append(topic)
        if self.club.head.sole:
            sole = self.club.head.sole.removesuffix(" sole")
            yield self.words.say("sole", sole=sole, a_sole=with_article(sole))

    def _length(self) -> Iterator[Sentence]:
        length, custom = self.club.as_played.length, usual(self.club, "length")
        if length is None or not length.has_number or length.source.rank > Source.COMPUTED.rank:
            return
        off = 0.0
        if custom is not None and custom.low is not None and custom.high is not None:
            inches = length.in_unit("in").number
            off = min(inches - custom.low + _OFF_USUAL, 0.0) + max(inches - custom.high - _OFF_USUAL, 0.0)
        way = "short" if off < 0 else "long" if off > 0 else ""
        if way and self.club.kind != "putter":
            yield self.words.say(f"length-{way}", length=("length", length))
            self.features.append(way)
        else:
            yield self.words.say("length", length=("length", length))

    def _parts(self) -> Iterator[Sentence]:
        shaft = self.club.shaft
        if shaft.launch and shaft.spin and (self.before is None or self.before.shaft != self.shaft):
            yield self.words.say("shaft-tendency", launch=shaft.launch, spin=shaft.spin)
        for place in dict.fromkeys(weight.place for weight in self.club.weights if weight.place):
            masses = tuple(
                (f"{place} weight", weight.mass)
                for weight in self.club.weights
                if weight.place == place and weight.mass is not None
            )
            made = self.words.say(f"weight-{place}", left=self.left, right=self.right)
            yield made._replace(figures=masses)
            if place != "neutral":
                self.features.append("weight")
        count = self._wraps()
        if count and (self.before is None or self.before._wraps() != count):
            number = cardinal(int(count)) if count == int(count) else f"{count:g}"
            yield self.words.say("wraps", wraps=f"{number} extra wrap{'' if count == 1 else 's'}")

    def _wraps(self) -> float:
        return (self.club.grip.wraps or 0) if self.club.grip is not None else 0

    def _putter(self) -> Iterator[Sentence]:
        if self.club.kind != "putter":
            return
        hang = self.club.as_played.toe_hang or (self.club.putter.toe_hang if self.club.putter else None)
        if self.club.putter is not None and self.club.putter.neck:
            yield self.words.say("neck", neck=self.club.putter.neck)
        if hang is not None and hang.has_number:
            degrees = hang.in_unit("deg").number
            topic = (
                "hang-none" if degrees == 0
                else "hang-little" if degrees < _limit("hang_little")
                else "hang-much" if degrees > _limit("hang_much")
                else "hang-some"
            )  # fmt: skip
            made = self.words.say(topic, hang=("toe hang", hang))
            yield made._replace(figures=(("toe hang", hang),))

    def _carry(self) -> Iterator[Sentence]:
        if self.flown is None:
            return
        carry = self.flown.carry
        low, high = (
            figure(carry.number if end is None else end, carry.unit, carry.source) for end in (carry.low, carry.high)
        )
        slots = {"carry": ("carry", _whole(carry)), "low": ("carry", _whole(low)), "high": ("carry", _whole(high))}
        yield self.words.say("carry", **slots)._replace(figures=(("carry", carry),))

    # ---------------------------------------------------------------------------------------- what to make of it

    def _why(self) -> Iterator[Sentence]:
        """One likely reason and one warning a club, for what was said least so far in this set."""
        for group in ("why", "copy"):
            told = table()[group]
            candidates = [
                feature
                for feature in self.features
                if self.words.told(feature, group) < len(told[feature])
                and (group != "why" or not feature.startswith("bend-") or self._evens())
            ]
            if candidates:
                chosen = min(candidates, key=lambda feature: self.words.told(feature, group))
                yield self.words.say(chosen, group, left=self.left, right=self.right)

    def _evens(self) -> bool:
        """True where the bend leaves the gaps to both neighbours even, and no less even than without it."""
        bend = self.club.bend.loft
        if bend is None or self.before is None or self.after is None or self.after.kind == "putter":
            return False
        lofts = [club.as_played.loft for club in (self.before.club, self.club, self.after)]
        known = [loft.in_unit("deg").number for loft in lofts if loft is not None and loft.has_number]
        if len(known) < len(lofts):
            return False
        longer, own, shorter = known
        unbent = own - bend.in_unit("deg").number
        uneven, was = (abs(2 * loft - longer - shorter) for loft in (own, unbent))
        return uneven <= min(_EVEN, was)

    def _ground(self, body: Sequence[Sentence]) -> Iterator[Sentence]:
        """How sure the figures in the sentences before are, by their sources; once for a run of like clubs."""
        spoken = dict(entry for said in body if not said.topic.startswith("finding") for entry in said.figures)
        hedges = {name: hedge(found) for name, found in spoken.items()}
        told = self.before.grounds if self.before is not None else {}
        if hedges.items() <= told.items():
            self.grounds = told
            return
        self.grounds = hedges
        by_hedge: dict[str, list[str]] = {}
        for name, words in hedges.items():
            by_hedge.setdefault(words, []).append(name)
        parts = [f"{listed(names)} {'is' if len(names) == 1 else 'are'} {words}" for words, names in by_hedge.items()]
        yield self.words.say("ground", figures="; ".join(parts))

    # ------------------------------------------------------------------------------------------------ the other depths

    def _glance(self) -> Sentence:
        """The club in one line: name, head, loft, length, shaft; a dash for what is not known."""
        played = self.club.as_played
        loft, length = value_text(played.loft), value_text(played.length)
        entries = tuple((key, found) for key, found in (("loft", played.loft), ("length", played.length)) if found)
        text = f"{self.name}: {self.head or MISSING}, {loft}, {length}, {self.shaft or MISSING}"
        heard = [self.head or "head not named", aloud(loft), aloud(length), self.shaft or "shaft not named"]
        said = f"{self.name}: {', '.join(part for part in heard if part != MISSING)}"
        return Sentence("glance", clean(text), spelled(clean(said), self.words.spelling), entries)

    def _brief(self) -> Sentence:
        """The club in one sentence that can stand alone in a short talk."""
        loft, length = self.club.as_played.loft, self.club.as_played.length
        if loft is None or loft.value is None:
            return self.words.say("brief-nothing", club=self.called)
        if length is None or length.value is None:
            return self.words.say("brief-loft", club=self.called, loft=("loft", loft))
        return self.words.say("brief", club=self.called, loft=("loft", loft), length=("length", length))

    def _footnotes(self, findings: Sequence[Finding]) -> Iterator[str]:
        for line in workings(self.club):
            band = f" {band_text(line.figure)}" if band_text(line.figure) else ""
            rests = f", from {listed([str(number) for number in line.rests_on])}" if line.rests_on else ""
            why = f": {line.figure.why}" if line.figure.why else ""
            yield clean(f"{line.number} {line.name} {value_text(line.figure)}{band} ({line.figure.source}{why}{rests})")
        for finding in findings:
            yield clean(f"{finding.sentence} {finding.why} {finding.remedy} ({finding.source})")


def _called(name: str) -> str | Spoken:
    """A club's name within a sentence: a loft that tells two of one name apart goes before it.

    >>> _called("lob wedge 58°")
    Spoken(printed='58° lob wedge', said='fifty-eight degree lob wedge')
    """
    club, _, loft = name.rpartition(" ")
    if not club or not loft.endswith("°"):
        return name
    return Spoken(f"{loft} {club}", f"{aloud(loft).replace('degrees', 'degree')} {club}")


def _whole(entry: Figure) -> Figure:
    return Figure(value=float(round(entry.number)), unit=entry.unit, source=entry.source)


def _limit(name: str) -> float:
    limits: Mapping[str, float] = table()["limits"]
    return limits[name]


def _shaft(club: Club) -> str:
    """The shaft's name with its flex, where the name does not hold it already."""
    name, flex = part_name(club.shaft), club.shaft.flex or ""
    return clean(f"{name} {flex}" if name and flex and flex not in name.split() else name)


def one_line(told: Explanation) -> str:
    """The whole set in one line: how many clubs, from which to which, and how many things stand out."""
    if not told.clubs:
        return told.opening.text
    first, last = told.clubs[0], told.clubs[-1]
    unusual = sum(said.topic.startswith("finding") for said in told.sentences)
    span = first.name if first is last else f"{first.name} to {last.name}"
    stands = f"; {counted(unusual, 'thing stands', 'things stand')} out" if unusual else ""
    return f"{told.title}: {counted(len(told.clubs), 'club')}, {span}{stands}."


def in_time(told: Explanation, seconds: float, words_per_minute: float) -> tuple[Sentence, ...]:
    """As much as fits a time, in order: the opening, what stands out, the ball, then clubs, altered ones first.

    >>> brief = in_time(explain(GolfSet()), 60, 150)
    >>> [said.text for said in brief]
    ['A set of clubs: 0 clubs, right-handed, it is assumed. The list bears no date.', 'Nobody has said which ball is \
played.']
    """
    candidates: list[tuple[int, Sentence]] = [(0, told.opening)]
    for club in told.clubs:
        altered = any(said.topic.startswith(("loft-changed", "bend", "sleeve", "lie-")) for said in club.talk)
        candidates.append((3 if altered else 4, club.brief))
        candidates += [(1, said) for said in club.talk if said.topic.startswith("finding")]
    candidates += [*((1, said) for said in told.whole), (2, told.ball)]
    room = seconds * words_per_minute / 60
    kept = []
    for place in sorted(range(len(candidates)), key=lambda place: (candidates[place][0], place)):
        size = len(candidates[place][1].said.split())
        if size <= room:
            kept.append(place)
            room -= size
    return tuple(candidates[place][1] for place in sorted(kept))
