"""The walk from cell to cell of a table: each cell speaks of what its column is headed with."""

from __future__ import annotations

from asplayed.intake.drafts import Draft
from asplayed.intake.stride import Stride
from asplayed.intake.tokens import Token


class Cells(Stride):
    """Steps over the bars and tabs between cells."""

    def _pipe(self, token: Token) -> bool:
        self.scene.claims[self.at] = "silent"
        self.scene.chunk_start = self.at + 1
        self.at += 1
        if self.scene.table is not None:
            self.column += 1
            self._enter_column()
        elif self.zone != "ball" or self.scene.ball.get("name"):
            self.zone = ""
        return True

    def _enter_column(self) -> None:
        table = self.scene.table
        self.zone = ""
        if table and 0 <= self.column < len(table):
            self.zone = table[self.column]
        self.scene.cell = self.zone
        if self.zone in ("iron", "wedge"):
            header = self.scene.header
            if header is None or header.family != self.zone:
                self.scene.header = Draft(self.zone)
                self.scene.headers.append(self.scene.header)
            self.scene.focus = [self.scene.header]  # type: ignore[list-item]
            self.zone = "first"
