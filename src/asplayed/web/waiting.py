"""Files that were sent and wait for their sender's word: looked at first, taken afterwards, gone when the app stops."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from threading import Lock
from typing import NamedTuple

from asplayed.errors import BadInput

MOST, ROOM = 16, 256_000_000


class Sent(NamedTuple):
    """A file, its name (only ever shown), and who sent it."""

    who: str
    name: str
    content: bytes


class Waiting:
    """A few files at a time; the oldest make room."""

    def __init__(self) -> None:
        self._files: OrderedDict[str, Sent] = OrderedDict()
        self._lock = Lock()

    def put(self, sent: Sent) -> str:
        """Keep a file for now; the key under which its sender finds it again.

        >>> waiting = Waiting()
        >>> waiting.get(waiting.put(Sent("ada", "heads.csv", b"part")), "ada").name
        'heads.csv'
        """
        key = secrets.token_urlsafe(16)
        with self._lock:
            self._files[key] = sent
            while len(self._files) > 1 and (
                len(self._files) > MOST or sum(len(each.content) for each in self._files.values()) > ROOM
            ):
                self._files.popitem(last=False)
        return key

    def get(self, key: str, who: str) -> Sent:
        """A file that is still here and was sent by the one who asks."""
        with self._lock:
            found = self._files.get(key)
        if found is None or found.who != who:
            raise BadInput("this file is not at hand any more; choose it once more")
        return found

    def drop(self, key: str) -> None:
        """Let go of a file that was taken."""
        with self._lock:
            self._files.pop(key, None)
