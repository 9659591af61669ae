"""Words that label what is no club: the player, the hand, the event, the date, the ball, notes."""

from __future__ import annotations

import re

from asplayed.intake.balls import ball_ahead, ball_clause, ball_colour
from asplayed.intake.persons import RELATED
from asplayed.intake.phrases import CLUB_RULES, phrase_at
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import DASHES, Token, gap

_NEAR = 8  # tokens between a ball's name and its colour: a stop, a line's end, who speaks

_NOT = {"not", "isn't", "isnt", "aren't", "never", "no"}
_ANYTHING = {"whatever", "whatever's", "anything"}


class Labels(Stride):
    """Takes what stands behind such a word."""

    def _hand_label(self, token: Token) -> bool:
        """ "Hand: left"."""
        scene, at = self.scene, self.at + 1
        sides = ("left", "right")
        while (
            at < len(self.tokens)
            and (
                self.tokens[at].terminal in ("EQ", "SILENT", "PIPE", "BULLET")
                or (at == self.at + 1 and scene.line_start(self.at))
            )
            and self.tokens[at].kind != "newline"
            and (self.tokens[at].lower not in sides or self.tokens[at].terminal == "BULLET")
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
        if self._hand_asked(str(token.value)) or self._of_the_grip(token):
            return True
        before = self.tokens[max(0, self.at - 5) : self.at]
        others = any(each.lower.removesuffix("'s") in RELATED | {"hers", "theirs"} for each in before)
        if "hand" in self.scene.facts and others:
            self.at += 1  # "she's right-handed, it's her husband who's the lefty", "but hers is right-handed"
            return True
        denied = any(each.lower in _NOT for each in before[-3:])  # "he isn't a lefty"
        self.scene.facts["hand"] = {"left": "right", "right": "left"}[str(token.value)] if denied else str(token.value)
        self.scene.hand_clause = self.scene.clause
        self.scene.claims[self.at] = "set"
        self.at += 1
        return True

    def _hand_asked(self, asked: str) -> bool:
        """ "Right or left handed? Right", "Left-handed? No": the hand is what is answered."""
        tokens = self.tokens
        answer = self.at + 2
        chosen = self.at > 0 and tokens[self.at - 1].terminal == "OR"
        if answer >= len(tokens) or tokens[self.at + 1].text not in ("?:" if chosen else "?"):
            return False
        while answer < len(tokens) and tokens[answer].terminal in ("NEWLINE", "BULLET"):
            answer += 1
        word = re.split(r"[-\s]", tokens[answer].lower)[0] if answer < len(tokens) else ""
        other = "left" if asked == "right" else "right"
        hand = {"left": "left", "l": "left", "right": "right", "r": "right", "yes": asked, "no": other}.get(word)
        if hand is None:
            return False
        self.scene.facts["hand"] = hand
        self.scene.hand_clause = self.scene.clause
        for index in range(self.at, answer + 1):
            self.scene.claims[index] = self.scene.claims[index] or "set"
        for index in range(max(self.at - 2, 0), self.at):
            if tokens[index].lower in ("right", "left", "or") and not self.scene.claims[index]:
                self.scene.claims[index] = "set"
        self.at = answer + 1
        return True

    def _of_the_grip(self, token: Token) -> bool:
        """ "2 wraps under the right hand", "left hand low": a hand on the grip, not the player's; kept as a note."""
        scene, tokens = self.scene, self.tokens
        behind = tokens[self.at + 1 : self.at + 3]
        low = [each.terminal for each in behind] == ["HANDWORD", "LEVEL"]  # "plays left hand low"
        if token.lower.replace("-", " ") not in ("left hand", "right hand") and not low:
            return False
        whole = behind[0].lower if behind else ""
        if "hand" not in scene.facts and (whole in ("throughout", "full", "only") or token.text.isupper()):
            return False  # "LEFT HAND throughout", "LEFT HAND full set"
        said = [each.lower for each in tokens[max(0, self.at - 2) : self.at]]
        if said == ["for", "the"] and "hand" not in scene.facts and not scene.drafts:
            return False  # "my clubs, all for the left hand:"
        played = [each.lower for each in tokens[max(0, self.at - 3) : self.at]]
        if played[:1] in (["play"], ["plays"], ["playing"], ["golfs"]) and played[1:2] in (["with"], ["from"]):
            return False  # "I play with the left hand."
        after = behind[0] if behind else None
        closed = after is None or after.kind in ("mark", "newline") or after.terminal == "PLAYERWORD"
        closed = closed or (after is not None and after.lower in ("bag", "set", "clubs"))
        told = {each.terminal for each in tokens[max(0, self.at - 6) : self.at] if each.line == token.line}
        apart = self.at > 0 and tokens[self.at - 1].text == "," and (after is None or after.kind == "newline")
        if apart and "hand" not in scene.facts and not told & {"GRIPWORD", "WRAP", "SIZE"}:
            return False  # "driver Gannet 9, Reed 65 S, left hand"
        wide = self.at > 0 and gap(tokens[self.at - 1], token) > 1 and token.line == tokens[self.at - 1].line
        if wide and (after is None or after.kind == "newline") and not told & {"GRIPWORD", "WRAP", "SIZE"}:
            return False  # "CUST  Ada Brandt      LEFT HAND"
        closed = closed and not (after is not None and after.glued and after.text in DASHES)
        if closed and "hand" not in scene.facts and not scene.clause_drafts:
            start = self.at
            while start and tokens[start - 1].terminal == "SILENT":
                start -= 1
            led = tokens[start - 1] if start else None
            if led is None or led.kind in ("mark", "newline") or led.terminal == "EQ":
                return False  # "Ada, right hand:"
        start, end = self.at, self.at + (2 if low else 1)
        while start and not scene.claims[start - 1] and tokens[start - 1].terminal in ("SILENT", "SHORT", "IN", "AT"):
            start -= 1
        while end < len(tokens) and (tokens[end].terminal == "LEVEL" or tokens[end].text in DASHES):
            end += 1
        for index in range(start, end):
            scene.claims[index] = "note"
        scene.add_note(start, end, scene.focus[0] if len(scene.focus) == 1 else None)
        self.at = end
        return True

    def _ball(self, token: Token) -> bool:
        self.scene.claims[self.at] = "ball"
        self.zone = "ball"
        self.at += 1
        end = self.scene.clause_end(self.at)
        said = [each.lower for each in self.tokens[self.at : min(self.at + 3, end)]]
        if not _ANYTHING.isdisjoint(said):  # "ball is whatever I find": none is named, or behind "but"
            self.at = next((at for at in range(self.at, end) if self.tokens[at].lower == "but"), end)
        elif "any" in said and not self.tokens[self.at + said.index("any") + 1].text[:1].isupper():
            self.at = end  # "ball: any", and not "ball: any Pellan you have"
        return True

    def _colour(self, token: Token) -> bool:
        scene = self.scene
        led = [each.lower for each in self.tokens[max(0, self.at - 2) : self.at]]
        under = led in (["colour", ":"], ["color", ":"]) and bool(scene.ball) and "colour" not in scene.ball
        under = under or self._colour_of_the_ball()
        if self.zone == "ball" or under or any(test(scene, self.at) for test in (ball_ahead, ball_clause, ball_colour)):
            self.zone = "ball"
            self.scene.ball.setdefault("colour", str(token.value))
            self.scene.claims[self.at] = "ball"
            self.at += 1
            return True
        return False

    def _colour_of_the_ball(self) -> bool:
        """True for the "Yellow" of "Ball's a Pellan Dart. Yellow, so I can find it.": it opens the next sentence."""
        scene, tokens = self.scene, self.tokens
        end = self.at + 1
        closed = end >= len(tokens) or tokens[end].kind in ("mark", "newline") or tokens[end].lower in ("ones", "one")
        if not (scene.line_start(self.at) and closed and "name" in scene.ball) or "colour" in scene.ball:
            return False
        return "ball" in scene.claims[max(0, self.at - _NEAR) : self.at]

    def _label(self, token: Token) -> bool:
        """A word for the player, the event or the title: what follows it is that."""
        surname = token.lower in ("surname", "last name") and " " not in self.scene.facts.get("player", " ")
        if surname and self.at + 2 < len(self.tokens) and self.tokens[self.at + 1].text == ":":
            self.scene.facts["player"] += f" {self.tokens[self.at + 2].text}"
            self.scene.claims[self.at : self.at + 3] = ["set"] * 3
            self.at += 3
            return True
        zone = {"PLAYERWORD": "player", "EVENTWORD": "event", "TITLEWORD": "title"}[token.terminal]
        onward = self.tokens[self.at + 1].text if self.at + 1 < len(self.tokens) else ""
        whose = self.tokens[self.at - 1].lower if self.at else ""
        if token.lower == "week" and (onward != ":" or whose in ("this", "last", "next", "every")):
            self.scene.claims[self.at] = "left"  # "Week 12", "this week": a time
            self.at += 1
            return True
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
            start = self.at
            self.at = self.scene.take_text(zone, start, whole=zone == "title")
            if zone == "title":
                self._owner_in_title(start, self.at)
            self.zone = ""
        return True

    def _owner_in_title(self, start: int, end: int) -> None:
        """ "Title: Half set of Ada Brandt": the title says whose clubs they are."""
        tokens = self.tokens
        whose = next((at for at in range(start, end) if tokens[at].lower.endswith((" of", " for"))), end)
        last = whose + 1
        while last < end and tokens[last].terminal in ("WORD", "HYPHEN") and tokens[last].text[:1].isupper():
            last += 1
        owned = whose < end and tokens[whose].terminal == "PLAYERWORD" and 2 <= last - whose - 1 <= 4
        if owned and "player" not in self.scene.facts:
            self.scene.facts["player"] = self.scene.words(whose + 1, last)

    def _of_part(self) -> str:
        """The part that an indented "name:" below "ball:" or below a club names; "" for the player's own.

        So too in "ball: {name: Dabchick, colour: yellow}", "Ball name: Dabchick".
        """
        scene, row = self.scene, self.tokens[self.at].line
        near = self.tokens[max(0, self.at - 3) : self.at]
        if self.zone == "ball" and any(token.terminal == "BALLWORD" and token.line == row for token in near):
            return "ball"
        line = scene.source.lines[self.tokens[self.at].line - 1]
        if not line[:1].isspace():
            return ""
        if self.zone == "ball":
            return "ball"
        part = self.zone.rstrip("~")
        if part in ("shaft", "grip") and scene.focus and not any(draft.has(f"{part}.name") for draft in scene.focus):
            return part
        return "head" if len(scene.focus) == 1 and not scene.focus[0].has("head.name") else ""

    def _date_label(self, token: Token) -> bool:
        self.scene.claims[self.at] = "set"
        self.at += 1
        return True

    def _note(self, token: Token) -> bool:
        self.at = self.scene.take_note(self.at)
        self._note_on_a_club()
        return True

    def _note_on_a_club(self) -> None:
        """ "Tip trim ½ in on the 3 wood": the note is that club's."""
        tokens, club = self.tokens, self.at
        while club < len(tokens) and tokens[club].lower in ("on", "for", "the", "his", "her", "my"):
            club += 1
        phrase = phrase_at(tokens, club) if self.at < club < len(tokens) else None
        if phrase is None or phrase.rule not in ("club", "named"):
            return
        found = self.mentions.find(phrase)
        if len(found) == 1 and self.scene.notes:
            self.scene.notes[-1] = self.scene.notes[-1]._replace(draft=found[0])
