"""Searches that take their time: run beside the requests, asked how far they are, stopped with the best so far."""

from __future__ import annotations

import secrets
import time
from collections import OrderedDict
from collections.abc import Callable
from threading import Lock, Thread
from typing import Any

from asplayed.errors import AsplayedError, BadInput

MOST = 12
LONGEST = 8 * 3600.0
"""Seconds that an answer is kept for whoever asked: a working day."""
RUNNING = 2
"""At once: a search keeps a core busy."""


class Search:
    """One search: whose it is, what it last said of itself, and its answer or the sentence that says why there is
    none."""

    def __init__(self, who: str, what: str, wanted: Any = None) -> None:
        self.who, self.what, self.wanted = who, what, wanted
        self.said = "begun"
        self.stopping = False
        self.answer: Any = None
        self.fault = ""

    @property
    def done(self) -> bool:
        """True when there is nothing more to wait for."""
        return self.answer is not None or bool(self.fault)

    def tell(self, words: str) -> None:
        """Say how far it is; a search that was stopped is interrupted here, and answers with its best so far."""
        self.said = words
        if self.stopping:
            self.stopping = False
            raise KeyboardInterrupt


class Searches:
    """The searches of one server, the newest kept for a working day."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._found: OrderedDict[str, tuple[float, Search]] = OrderedDict()
        self._clock = clock
        self._lock = Lock()

    def _let_go(self) -> None:
        """Drop the answers that were kept too long, and the oldest of too many."""
        since = self._clock() - LONGEST
        for key in [key for key, (at, search) in self._found.items() if at < since and search.done]:
            del self._found[key]
        while len(self._found) > MOST:
            self._found.popitem(last=False)

    def begin(self, who: str, what: str, work: Callable[[Search], Any], wanted: Any = None) -> str:
        """Begin a search in a thread of its own; the key under which it is asked. `wanted` is kept beside it."""
        key = secrets.token_urlsafe(16)
        search = Search(who, what, wanted)
        with self._lock:
            if sum(not each.done for _, each in self._found.values()) >= RUNNING:
                raise BadInput("two searches are under way; wait for one of them, or stop it")
            self._found[key] = (self._clock(), search)
            self._let_go()

        def run() -> None:
            try:
                search.answer = work(search)
            except AsplayedError as fault:
                search.fault = str(fault)
            except KeyboardInterrupt:
                search.fault = "stopped before there was an answer"
            except Exception as fault:  # whoever asked waits for a sentence, not for a thread that is gone
                search.fault = f"this could not be done ({type(fault).__name__}: {fault})"

        Thread(target=run, name=f"search {what}", daemon=True).start()
        return key

    def get(self, key: str, who: str) -> Search:
        """A search of the one who asks."""
        with self._lock:
            self._let_go()
            _, found = self._found.get(key, (0.0, None))
        if found is None or found.who != who:
            raise BadInput("this search is not at hand any more; begin it once more")
        return found
