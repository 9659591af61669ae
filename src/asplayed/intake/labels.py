"""Words that label what is no club: the player, the hand, the event, the date, the ball, notes."""

from __future__ import annotations

from asplayed.intake.opening import CLUB_RULES
from asplayed.intake.phrases import phrase_at
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token


class Labels(Stride):
    """Takes what stands behind such a word."""

    def _hand_label(self, token: Token) -> bool:
        """ "Hand: left"."""
        scene, at = self.scene, self.at + 1
        sides = ("left", "right")
        while (
            at < len(self.tokens)
            and self.tokens[at].terminal in ("EQ", "SILENT", "PIPE")
            and (self.tokens[at].lower not in sides)
        ):
            at += 1
        word = self.tokens[at].lower if at < len(self.tokens) else ""
        if word not in ("left", "right", "l", "r"):
            return False
        scene.facts["hand"] = "left" if word[0] == "l" else "right"
        for index in range(self.at, at + 1):
            scene.claims[index] = "set"
        self.at = at + 1
        return True

    def _hand(self, token: Token) -> bool:
        self.scene.facts["hand"] = str(token.value)
        self.scene.hand_clause = self.scene.clause
        self.scene.claims[self.at] = "set"
        self.at += 1
        return True

    def _ball(self, token: Token) -> bool:
        self.scene.claims[self.at] = "ball"
        self.zone = "ball"
        self.at += 1
        return True

    def _colour(self, token: Token) -> bool:
        names = self.names
        if self.zone == "ball" or any(
            test(self.at) for test in (names.ball_ahead, names.ball_clause, names.ball_colour)
        ):
            self.zone = "ball"
            self.scene.ball.setdefault("colour", str(token.value))
            self.scene.claims[self.at] = "ball"
            self.at += 1
            return True
        return False

    def _label(self, token: Token) -> bool:
        """A word for the player, the event or the title: what follows it is that."""
        zone = {"PLAYERWORD": "player", "EVENTWORD": "event", "TITLEWORD": "title"}[token.terminal]
        if zone == "event" and self.at + 2 < len(self.tokens) and self.tokens[self.at + 1].text == ":":
            told = phrase_at(self.tokens, self.at + 2)
            if told is not None and told.rule in CLUB_RULES:
                self.scene.claims[self.at] = "left"  # "for the links week: driver, 2 iron …"
                self.at += 1
                return True
        if token.lower == "name" and (named := self._of_part()):
            self.scene.claims[self.at] = "silent"
            self.zone = named
            self.at += 1
            return True
        self.scene.claims[self.at] = "set"
        self.zone = zone
        self.at += 1
        after = self.tokens[self.at] if self.at < len(self.tokens) else None
        led = token.text.endswith(":") or (after is not None and (after.text == ":" or after.terminal == "PIPE"))
        if zone == "title" or led:
            self.at = self.scene.take_text(zone, self.at, whole=zone == "title")
            self.zone = ""
        return True

    def _of_part(self) -> str:
        """The part that an indented "name:" below "ball:" or below a club names; "" for the player's own."""
        scene = self.scene
        line = scene.source.lines[self.tokens[self.at].line - 1]
        if not line[:1].isspace():
            return ""
        if self.zone == "ball":
            return "ball"
        return "head" if len(scene.focus) == 1 and not scene.focus[0].has("head.name") else ""

    def _date_label(self, token: Token) -> bool:
        self.scene.claims[self.at] = "set"
        self.at += 1
        return True

    def _note(self, token: Token) -> bool:
        self.at = self.scene.take_note(self.at)
        return True
