"""Sets as they are known today: played, flown and judged once, and again only after something in the store changed."""

from __future__ import annotations

import contextlib
from collections import OrderedDict
from threading import Lock
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import AsplayedError
from asplayed.keeping.places import find_place, looking

if TYPE_CHECKING:
    from asplayed.catalogue import Part
    from asplayed.catalogue.matching import Catalogue
    from asplayed.choosing.what_if import Seen
    from asplayed.clubs import GolfSet
    from asplayed.players import Player
    from asplayed.players.summaries import Session

SHOTS = 2000
"""Single shots flown for every club: as many as the command line flies, so that both say the same."""
QUICK = 500
"""And where a slider moves and the answer must follow: both sides alike, from the same chance."""
MOST = 64
"""How many sets are remembered at once."""


class Bag(NamedTuple):
    """A stored set and all that is known beside it."""

    moment: int
    """The last thing that had been done in the store when this was worked out."""
    name: str
    version: int
    golf_set: GolfSet
    seen: Seen
    parts: tuple[Part, ...]
    catalogue: Catalogue
    player: Player
    sessions: tuple[Session, ...]


class Known:
    """The sets that were looked at lately in a store that was opened before. What was worked out is kept until the
    store moves on."""

    def __init__(self, store: str | None) -> None:
        self._store = store
        self._place = find_place(store)
        self._bags: OrderedDict[str, tuple[int, Bag]] = OrderedDict()
        self._parts: tuple[int, tuple[Part, ...], Catalogue] | None = None
        self._lock = Lock()
        self._busy: dict[str, Lock] = {}
        self._others: OrderedDict[tuple[str, int, bytes], Seen] = OrderedDict()

    def warm(self) -> None:
        """Bring in the physics and its compiled flight, by trying them on the first stored set there is."""
        from asplayed.keeping import list_sets

        with contextlib.suppress(AsplayedError):
            names = [entry.name for entry in list_sets(self._store)]
            import asplayed.choosing.what_if
            import asplayed.intake.reader  # noqa: F401

            if names:
                self.bag(names[0])

    def moment(self) -> int:
        """The number of the last thing that was done in the store."""
        with looking(self._place) as read:
            rows = read("SELECT max(id) FROM actions")
        return int(rows[0][0] or 0) if rows else 0

    def catalogue(self) -> tuple[tuple[Part, ...], Catalogue]:
        """The stored parts, and the same arranged for looking up."""
        from asplayed.catalogue.matching import Catalogue
        from asplayed.keeping import stored_parts

        moment = self.moment()
        known = self._parts
        if known is None or known[0] != moment:
            parts = tuple(stored_parts(self._store))
            known = self._parts = (moment, parts, Catalogue(parts))
        return known[1], known[2]

    def bag(self, name: str) -> Bag:
        """The set stored as `name` with what is known beside it; a missing one is refused with the nearest names."""
        moment = self.moment()
        with self._lock:
            found = self._bags.get(name)
            busy = self._busy.setdefault(name, Lock())
        if found is not None and found[0] == moment:
            return found[1]
        with busy:  # several who ask for the same set wait for one answer
            found = self._bags.get(name)
            if found is None or found[0] != moment:
                try:
                    found = (moment, self._worked_out(name, moment))
                except AsplayedError:
                    self._busy.pop(name, None)  # names that are none are asked for without end
                    raise
        with self._lock:
            self._bags[name] = found
            self._bags.move_to_end(name)
            while len(self._bags) > MOST:
                gone, _ = self._bags.popitem(last=False)
                self._busy.pop(gone, None)
        return found[1]

    def seen(self, bag: Bag, player: Player, local_rules: tuple[str, ...] = (), shots: int = SHOTS) -> Seen:
        """Today's side of a bag in the hands of another player, under local rules, or from fewer shots."""
        import msgspec

        from asplayed.choosing.what_if import today
        from asplayed.quantities import plain

        if player == bag.player and not local_rules and shots == SHOTS:
            return bag.seen
        key = (bag.name, bag.moment, msgspec.json.encode([plain(player), local_rules, shots]))
        with self._lock:
            found = self._others.get(key)
        if found is None:
            found = today(bag.golf_set, player=player, sessions=bag.sessions, local_rules=local_rules, shots=shots)
            with self._lock:
                self._others[key] = found
                while len(self._others) > MOST:
                    self._others.popitem(last=False)
        return found

    def _worked_out(self, name: str, moment: int) -> Bag:
        from asplayed.choosing.what_if import today
        from asplayed.keeping import read_set
        from asplayed.keeping.shots import stored_player, stored_sessions
        from asplayed.players.records import player_of

        stored = read_set(name, self._store)
        parts, catalogue = self.catalogue()
        sessions = tuple(stored_sessions(stored.name, self._store))
        player = stored_player(stored.name, self._store) or player_of(stored.golf_set)
        seen = today(stored.golf_set, player=player, sessions=sessions, shots=SHOTS)
        return Bag(moment, stored.name, stored.version, stored.golf_set, seen, parts, catalogue, player, sessions)
