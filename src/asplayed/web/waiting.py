"""Files that were sent and wait for their sender's word: looked at first, taken afterwards, gone with the day."""

from __future__ import annotations

import secrets
import time
from collections import OrderedDict
from collections.abc import Callable
from threading import Lock
from typing import NamedTuple

from asplayed.errors import BadInput

MOST, ROOM = 16, 256_000_000
"""How many files wait at once, and their bytes together."""
LONGEST = 8 * 3600.0
"""Seconds that a file waits: a working day."""


class Sent(NamedTuple):
    """A file, its name (only ever shown), and who sent it."""

    who: str
    name: str
    content: bytes


class Waiting:
    """A few files at a time, for a working day; the oldest make room."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._files: OrderedDict[str, tuple[float, Sent]] = OrderedDict()
        self._clock = clock
        self._lock = Lock()

    def _let_go(self) -> None:
        """Drop what has waited too long, and the oldest of what is too much."""
        since = self._clock() - LONGEST
        for key in [key for key, (at, _) in self._files.items() if at < since]:
            del self._files[key]
        while len(self._files) > 1 and (
            len(self._files) > MOST or sum(len(sent.content) for _, sent in self._files.values()) > ROOM
        ):
            self._files.popitem(last=False)

    def put(self, sent: Sent) -> str:
        """Keep a file for now; the key under which its sender finds it again.

        >>> waiting = Waiting()
        >>> waiting.get(waiting.put(Sent("ada", "heads.csv", b"part")), "ada").name
        'heads.csv'
        """
        key = secrets.token_urlsafe(16)
        with self._lock:
            self._files[key] = (self._clock(), sent)
            self._let_go()
        return key

    def get(self, key: str, who: str) -> Sent:
        """A file that is still here and was sent by the one who asks."""
        with self._lock:
            self._let_go()
            _, found = self._files.get(key, (0.0, None))
        if found is None or found.who != who:
            raise BadInput("this file is not at hand any more; choose it once more")
        return found

    def drop(self, key: str) -> None:
        """Let go of a file that was taken."""
        with self._lock:
            self._files.pop(key, None)
