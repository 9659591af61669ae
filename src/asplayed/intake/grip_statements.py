"""What the pieces of a sentence about grips say together: which grip is told of which clubs, and of which not."""

from __future__ import annotations

from typing import NamedTuple

from asplayed.intake.drafts import Entry
from asplayed.intake.grip_parts import Part, Reach
from asplayed.intake.groups import FAMILIES
from asplayed.intake.scene import Scene

_EVERY = ("all", "of them")


class Given(NamedTuple):
    """One grip told: what of it, on which clubs, and not on which."""

    facts: dict[str, Entry]
    reach: list[Reach]
    but: list[Reach]


class Statement(NamedTuple):
    """What one sentence says of grips."""

    given: list[Given]
    correcting: bool
    bench: bool  # "regripped": what is done at a bench, and a putter comes with a grip of its own
    like: Reach | None = None  # the club whose grip it is: said of the clubs spoken of


class Reader:
    """Makes statements of the pieces of one sentence."""

    def __init__(self, scene: Scene, parts: list[Part], leaning: str, *, partly: bool) -> None:
        self.scene = scene
        self.tokens = scene.tokens
        self.parts = [_has_by_name(parts, at) for at in range(len(parts))]
        self.leaning = leaning
        self.partly = partly  # a stretch of the sentence tells of other things
        self.given: list[Given] = []
        self.out: list[Reach] = []  # the clubs just left out
        self.own = False  # what follows is of those
        self.owned: list[Given] = []  # what was told of those
        self.maker = ""  # the name before a colon, which the names behind it go on with
        self.replacing = False

    def statement(self) -> Statement | None:
        """What the pieces say together, or None."""
        parts = self.parts
        correcting = bool(parts) and parts[0].sort == "no"
        self._open()
        for index, part in enumerate(parts):
            if not self._hear(index, part):
                return None
        given = [one for one in self.given if one.facts or one.but]
        for one in self.owned:  # "on everything, except the wedges: those get three wraps": of the same grip
            if "grip.name" not in one.facts and "grip.name" in given[0].facts:
                one.facts["grip.name"] = given[0].facts["grip.name"]
        if not self._stands(given, correcting):
            return None
        bench = any(part.sort == "grip" and "gripped" in str(part.value) for part in parts)
        return Statement(given, correcting, bench)

    def _open(self, *reach: Reach) -> Given:
        """Begin another grip."""
        self.given.append(Given({}, list(reach), []))
        self.own = False
        return self.given[-1]

    def _hear(self, index: int, part: Part) -> bool:
        """Add one piece to what was said; False where it fits nowhere."""
        sort = part.sort
        if sort in ("name", "mass", "wraps"):
            self._fact(index, part)
        elif sort == "club":
            assert isinstance(part.value, Reach)
            self._club(index, part.value)
        elif sort == "out behind":
            self._leave_out(index)
        elif sort == "keeps":
            if index == 0 or self.parts[index - 1].sort != "keeps":
                self._leave_out(index)
        elif sort == "those" or (sort == "mark" and part.value == "("):
            self.own = bool(self.out)
        elif sort == "has":
            self.own = self.own or (bool(self.out) and bool(self.given[-1].facts) and part.value not in ("with", "w"))
        elif sort == "mark" and part.value == ")":
            self.own, self.out = False, []
        elif sort == "no":
            self.replacing = index > 0
        return True

    def _fact(self, index: int, part: Part) -> None:
        """A name, a mass or wraps: of the grip being told, of the club just left out, or of another grip."""
        path = {"name": "grip.name", "mass": "grip.mass", "wraps": "grip.wraps"}[part.sort]
        token = self.tokens[part.start]
        value = part.value if isinstance(part.value, str | float) else None
        if path == "grip.name" and self.maker and self.tokens[part.start - 1].lower == "the":
            value = f"{self.maker} {value}"  # "Grips are all Norrby: the Lite on the driver, the Firm on the irons"
            if self.given[0].facts.get(path) is not None and self.given[0].facts[path].value == self.maker:
                del self.given[0].facts[path]
                self.given[0].reach.clear()
        entry = Entry(value, "g" if path == "grip.mass" else "1", token.line, self.scene.words(part.start, part.end))
        now = self.given[-1]
        led = next((one for one in reversed(self.parts[:index]) if one.sort != "mark"), None)
        if path == "grip.name" and led is not None and led.sort == "keeps":
            self.own = True  # "putter has its own, the Norrby Fat"
        self.replacing = self.replacing and not self._on_others(index)  # "… one, sorry, two on the irons"
        if self.own and self.out:
            now = self._open(*self.out)
            self.owned.append(now)
        elif (path in now.facts or self._apart_from(now, index)) and not self.replacing:
            now = self._open()
        self.replacing, self.out = False, []
        behind = self.parts[index + 1 : index + 2]
        if path == "grip.name" and behind and behind[0].value == ":":
            self.maker = str(value)
        now.facts[path] = entry

    def _apart_from(self, now: Given, index: int) -> bool:
        """True for the wraps of "Grips: Norrby, two extra wraps on the irons": of other clubs than the name."""
        parts = self.parts
        labelled = (
            parts[0].sort == "grip" and parts[1].sort in ("name", "mark") and "gripped" not in str(parts[0].value)
        )
        whole = labelled and len(self.given) == 1 and parts[index].sort == "wraps" and parts[index - 1].value == ","
        return bool((now.reach or whole) and now.facts) and self._on_others(index)

    def _on_others(self, index: int) -> bool:
        """True for the wraps of "Norrby on everything, two extra wraps on the irons"."""
        behind = self.parts[index + 1 : index + 3]
        named = bool(behind) and behind[0].sort == "club"
        return named and not (len(behind) > 1 and behind[1].sort in ("out behind", "in behind", "keeps", "name"))

    def _club(self, index: int, reach: Reach) -> None:
        """Clubs: left out, taken in, or the next whose grip is told."""
        parts = self.parts
        now = self.given[-1]
        behind = next((part.sort for part in parts[index + 1 :] if part.sort not in ("has", "mark", "those")), "")
        tight = self._tight(index)
        mode = self._mode(index)
        if mode == "out":
            now.but.append(reach)
            self.out = [*self.out, reach] if self._joined(index) else [reach]
            return
        if mode == "in" or (behind == "in behind" and now.facts):
            now.reach.append(reach)
            return
        if behind in ("out behind", "keeps") or self._kept_before(index):
            now.but.append(reach)
            self.out = [reach]
            return
        figures = tight and reach.whole is not None and not now.reach and self._behind(index) != "name"
        fresh = bool(now.facts) and not figures and (tight or (bool(now.reach) and not self._joined(index)))
        laid = index and parts[index - 1].sort in ("name", "mass") and not now.reach and self._on(parts[index].start)
        bracketed = parts[index + 1 : index + 2] and parts[index + 1].value == "(" and self._behind(index) != "name"
        shared = bracketed and bool(now.reach) and self._joined(index) and "grip.name" in now.facts
        if fresh and not laid and not shared:  # "Norrby Firm on the irons with one extra wrap" is one grip
            self._open(reach)
        else:
            now.reach.append(reach)

    def _on(self, at: int) -> bool:
        """True for clubs behind "on" or "for"."""
        led = [token.lower for token in self.tokens[max(0, at - 2) : at]]
        return bool(led) and (
            led[-1] in ("on", "for") or (led[-1] in ("the", "my", "his", "her") and led[0] in ("on", "for"))
        )

    def _mode(self, index: int) -> str:
        """ "out" behind "but", "in" behind "including", also where clubs are joined to one that is."""
        at = index - 1
        while at >= 0 and self.parts[at].sort in ("mark", "club", "has"):
            if self.parts[at].sort == "mark" and self.parts[at].value in (":", "=", "(", ")"):
                return ""
            comma = self.parts[at].sort == "mark" and self.parts[at].value == ","
            if comma and self._tight(index):
                return ""
            at -= 1
        sort = self.parts[at].sort if at >= 0 else ""
        return sort if sort in ("out", "in") else ""

    def _tight(self, index: int) -> bool:
        """True where a grip follows right behind clubs: "the irons Norrby", "putter: Norrby", "the wedges have two"."""
        return self._behind(index) in ("name", "wraps", "mass")

    def _behind(self, index: int) -> str:
        """What sort of piece follows right behind clubs."""
        parts = self.parts
        at = index + 1
        while at < len(parts) and (
            parts[at].sort in ("has", "those", "grip")
            or (parts[at].sort == "mark" and str(parts[at].value) in ":=-–—(")
        ):
            at += 1
        return parts[at].sort if at < len(parts) else ""

    def _joined(self, index: int) -> bool:
        """True where only marks stand between these clubs and those before."""
        at = index - 1
        while at >= 0 and self.parts[at].sort == "mark" and self.parts[at].value in (",", "&", "/"):
            at -= 1
        return at >= 0 and self.parts[at].sort in ("club", "out")

    def _kept_before(self, index: int) -> bool:
        """True for the putter of "leave the putter as it is"."""
        at = index - 1
        return at >= 0 and self.parts[at].sort == "keeps" and (at == 0 or self.parts[at - 1].sort in ("mark", "no"))

    def _leave_out(self, index: int) -> None:
        """ "… putter excepted", "the putter keeps its own": the clubs right before are left out."""
        at = index - 1
        while at >= 0 and self.parts[at].sort in ("mark", "grip", "has", "those"):
            at -= 1
        if at < 0 or self.parts[at].sort != "club":
            return
        club = self.parts[at].value
        now = self.given[-1]
        if isinstance(club, Reach) and club in now.reach:
            now.reach.remove(club)
            target = self.given[-2] if not now.facts and not now.reach and len(self.given) > 1 else now
            target.but.append(club)

    def _stands(self, given: list[Given], correcting: bool) -> bool:
        """True where this is a whole statement of grips and nothing else can be meant."""
        parts = self.parts
        if not given or any(one.reach and not one.facts for one in given):
            return False
        if any(not one.reach and one.facts for one in given[1:]):
            return False
        if self.partly and len(given) > 1 and not given[0].reach and parts[0].sort != "grip":
            return False  # "Put a Norrby grip on the Alder putter, left it at 34"
        reaches = [reach for one in given for reach in (*one.reach, *one.but)]
        gripped = any(part.sort == "grip" for part in parts)
        wraps = any(part.sort == "wraps" for part in parts)
        named = [part for part in parts if part.sort == "name"]
        if not any(one.facts for one in given) and parts[0].sort == "out" and not gripped:
            return self.leaning in ("taken", "line") and self.tokens[parts[0].start].lower != "no"
        if not any(one.facts for one in given) and {part.sort for part in parts} <= {
            "club",
            "keeps",
            "out behind",
            "grip",
        }:
            return self.leaning in ("taken", "line")  # "Putter untouched."
        if self.leaning == "taken" and named and not (reaches or gripped or wraps or correcting):
            return False  # "All clubs with Norrby grips. Collection only."
        if self.leaning == "taken" and not (gripped or wraps or correcting) and self._first_told_of(reaches):
            return False  # "All grips Norrby. Driver Gannet 9. …": the clubs themselves, and no grips of theirs
        if self.leaning == "taken" or (self.leaning == "heading" and (named or wraps)):
            return True
        if self.leaning == "line" and not gripped:
            return not named and (wraps or bool(reaches)) and not gripped
        if self._labelled():
            return True
        group = (
            any(one.but for one in given)
            or any(reach.whole is not None or self._several(reach) for reach in reaches)
            or len(given) > 1
        )
        rest = any(reach.whole == "rest" for reach in reaches)
        if self.leaning == "said" and rest and named:
            return True
        if group and (gripped or wraps):
            return bool(given[0].facts)
        if not reaches and len(given) == 1 and self.leaning != "inside" and self._of_all_grips():
            return True
        # "Norrby on everything": what is on every club is its grip
        everything = next(
            (part for part in parts if isinstance(part.value, Reach) and part.value.whole in _EVERY), None
        )
        if (
            everything is parts[0]
            and len(parts) > 2
            and parts[1].value in ("wear", "wears")
            and parts[2].sort == "name"
        ):
            return True  # "Every club here wears a Norrby, 42 g"
        on = everything is not None and self.tokens[everything.start - 1].lower == "on"
        only = all(set(one.facts) <= {"grip.name"} for one in given)
        named = parts[parts[0].sort == "has" :][:2]  # "Can I have the Norrby on everything"
        return on and only and named[0].sort == "name" and named[1:] == [everything]

    def _first_told_of(self, reaches: list[Reach]) -> bool:
        """True where a club is meant that the list names nowhere else."""
        said = [token for reach in reaches if reach.phrase for token in reach.phrase.tokens]
        kinds = [token for token in said if token.terminal in FAMILIES]
        return any(self._stands_once(token.terminal) for token in kinds)

    def _stands_once(self, terminal: str) -> bool:
        found = (token for token in self.tokens if token.terminal == terminal)
        return next(found, None) is not None and next(found, None) is None

    def _labelled(self) -> bool:
        """True for "Putter grip: Norrby", "Grip, irons: Norrby"."""
        parts = [part for part in self.parts if part.sort != "mark"]
        label = {part.sort for part in parts[:2]} == {"grip", "club"} and "gripped" not in str(parts[0].value)
        near = label and parts[1].start - parts[0].end <= 1 and self.tokens[parts[1].end].text in (":", "=")
        return near and len(parts) > 2 and parts[2].sort == "name"

    def _of_all_grips(self) -> bool:
        """True for "Grips: Norrby, one extra wrap", "I use Norrby grips": no clubs are named, so all are meant."""
        parts = [part for part in self.parts if part.sort not in ("mark", "size")]
        sorts = [part.sort for part in parts]
        plural = [part for part in parts if part.sort == "grip" and part.value == "grips"]
        line = self.tokens[self.parts[0].start].column == 1  # "Midsize Norrby grips" on a line that is no part's
        opens = sorts[:2] == ["grip", "name"] or sorts[:3] == ["has", "name", "grip"]
        opens = opens or (line and sorts[:2] == ["name", "grip"])
        return bool(plural) and opens and sorts.count("name") == 1

    def _several(self, reach: Reach) -> bool:
        """True for "irons", "5-PW", "the three wedges"."""
        phrase = reach.phrase
        return phrase is not None and (
            phrase.rule in ("family", "span", "dashed", "amounts")
            or reach.first > 1
            or phrase.tokens[-1].lower.endswith("s")
        )


def _has_by_name(parts: list[Part], at: int) -> Part:
    """The "keeps its" of "the putter keeps its Norrby" as "has": what it keeps is named."""
    end = next((place for place in range(at, len(parts)) if parts[place].sort != "keeps"), len(parts))
    start = next((place for place in range(at, -1, -1) if parts[place].sort != "keeps"), -1)
    named = end < len(parts) and parts[end].sort == "name" and start >= 0 and parts[start].sort == "club"
    return parts[at]._replace(sort="has", value="has") if parts[at].sort == "keeps" and named else parts[at]
