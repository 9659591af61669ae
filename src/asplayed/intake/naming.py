"""Names of heads, shafts, grips, balls and persons are taken up where the walk meets them."""

from __future__ import annotations

import re

from asplayed.intake.ahead import flexed
from asplayed.intake.balls import ball_run
from asplayed.intake.drafts import Draft, Entry
from asplayed.intake.names import NameRun, run_at
from asplayed.intake.persons import with_initials
from asplayed.intake.phrases import Phrase
from asplayed.intake.reach import Reach
from asplayed.intake.wording import prose

_SHOUTED = re.compile(r"^[A-Z]{3,} (?=[A-Z][a-z]+ [A-Z][a-z])")  # "WINNER Ada Brandt": a heading's word


class Naming(Reach):
    """Gives each run of names to the part, the person or the ball that it names."""

    def _name(self) -> bool:
        run = run_at(self.scene, self.names.known, self.at)
        if run is None:
            return False
        if not self.names.in_the_family(run) and self._again(run):
            return True
        if self._picked(run):
            self._take_name(run, "head")
            return True
        role = self.names.role(run, self.zone)
        if role is None:
            if self.scene.line_start(run.start) and self.scene.focus and not prose(self.scene, run.start):
                self.scene.lost = True
            self.at = run.end
            return True
        self._take_name(run, role)
        return True

    def _take_name(self, run: NameRun, role: str) -> None:
        scene = self.scene
        if role == "shaft" and scene.either and not flexed(scene, run.end) and scene.focus[-1].has("head.name"):
            role = "head"  # "the Gannet or the Dunlin"
        if role == "head" and (row := self._row_without_model()):
            scene.focus, scene.grouped, scene.implicit = row, True, False
        if role == "shaft":
            run = self._without_flex(run)
        self.names.weigh(run, role, self.zone)
        if role == "player":
            run = with_initials(scene, run)
        if role in ("player", "event"):
            self._take_person(run, role)
            kind = "set"
        elif role == "ball":
            run = ball_run(self.scene, run)
            if not self._take_ball(run):
                self.at = run.end
                return
            kind = "ball"
        elif role == "maker":
            for draft in scene.focus:
                draft.put("head.maker", Entry(run.text, "1", run.line, run.text))
            kind = "club"
        elif role == "waiting":
            self.names.waiting = Draft("iron")
            scene.focus = [self.names.waiting]
            self.put(scene.focus, "shaft.name", Entry(self.names.tidy(run, 1), "1", run.line, run.text))
            self.zone = "shaft"
            kind = "club"
        elif role == "pending":
            self.names.pending = run
            scene.name_waits = True
            kind = "club"
        else:
            self.put(scene.focus, f"{role}.name", Entry(self.names.tidy(run, self._count()), "1", run.line, run.text))
            if role == "shaft" and self._named_again(run):
                again = Phrase("same", self.tokens[run.start : run.end], run.start, run.end)
                scene.same.append((list(scene.focus), "SHAFTAGAIN", again))
            if role in ("shaft", "grip"):
                self.zone = role
            elif self.zone in ("shaft", "grip", "shaft~", "grip~") or role == "head":
                self.zone = ""
            self.names.last = (role, run, list(scene.focus))
            kind = "club"
        for index in range(run.start, run.end):
            scene.claims[index] = scene.claims[index] or kind
        self.at = run.end

    def _named_again(self, run: NameRun) -> bool:
        """True for "the same Reed", "that Reed", "Reed again", "the Reed too": what is not told anew is as before."""
        led = self.tokens[run.start - 1] if run.start else None
        behind = self.tokens[run.end].lower if run.end < len(self.tokens) else ""
        return behind in ("again", "too", "as well") or (
            led is not None and (led.terminal == "SAME" or led.lower == "that")
        )

    def _take_person(self, run: NameRun, role: str) -> None:
        """The player's or the event's name, on which a name right behind it goes on."""
        scene = self.scene
        text = re.sub(r"['’][sS]?$", "", run.text)
        if role == "player":
            text = _SHOUTED.sub("", text)
        onward = role in scene.facts and self.zone == role and scene.claims[run.start - 1] == "set"
        scene.facts[role] = f"{scene.facts[role]} {text}" if onward else scene.facts.get(role, text)

    def _take_ball(self, run: NameRun) -> bool:
        """The ball's name; False for talk behind a ball that has one ("a pink puffcap if it matters")."""
        scene, text = self.scene, run.text
        used = self.tokens[run.start - 1].lower if run.start else ""
        if used in ("use", "uses", "play", "plays") and text[-2:] not in ("us", "ss", "is"):
            text = text.removesuffix("s")  # "I use Pellan Darts"
        known = scene.ball.get("name") if run.start and scene.claims[run.start - 1] in ("ball", "silent") else None
        if known is None and "name" in scene.ball and not scene.correcting:
            return False
        scene.ball["name"] = f"{known} {text}" if known else text
        self.zone = "ball"
        return True

    def _count(self) -> int:
        """How many clubs are in focus; a family's header stands for several."""
        focus = self.scene.focus
        return 2 if focus and focus[0] not in self.scene.drafts else len(focus)

    def _without_flex(self, run: NameRun) -> NameRun:
        """The "Reed" of "it says Reed R on all of them": the letter that closes a shaft's name is its flex."""
        last = self.tokens[run.end - 1]
        behind = self.tokens[run.end] if run.end < len(self.tokens) else None
        closed = behind is None or behind.kind == "newline" or behind.terminal in ("STOP", "AT", "IN", "COMMA")
        if run.end - run.start < 2 or last.text not in ("R", "S") or not closed:
            return run
        if any(draft.has("shaft.flex") for draft in self.scene.focus):
            return run
        self.put(self.scene.focus, "shaft.flex", Entry(last.text, "1", last.line, last.text))
        self.scene.claims[run.end - 1] = "club"
        return run._replace(end=run.end - 1, text=self.scene.words(run.start, run.end - 1))
