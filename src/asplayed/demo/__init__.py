"""The demo scenario: a small workshop's week in Estow, and the whole job over it.

The makers, models, players and the event are invented, and so are their figures; they show how the tool works and are
evidence of nothing. Three lists, each written in its player's own manner, and a catalogue with generations, documents,
withdrawn parts and sleeve charts.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput

if TYPE_CHECKING:
    from asplayed.catalogue import Part
    from asplayed.clubs import GolfSet
    from asplayed.keeping import Store
    from asplayed.players import Player

# In the order in which they came to the workshop.
LISTS = ("mireille-okafor", "ada-brandt", "jonas-tessler")
WORKSHOP = ("decided.txt", "bench.csv", "measures.csv", "after-rework.txt")
STORE = "estow.sqlite"

# How fast each player swings a driver, as told at the counter, mph.
DRIVER_SPEEDS = {"mireille-okafor": 92, "ada-brandt": 74, "jonas-tessler": 118}


class Told(NamedTuple):
    """What became of one list."""

    name: str
    clubs: int
    questions: int
    findings: dict[str, int]  # how many of each level
    folder: Path


class Week(NamedTuple):
    """What the demo left in its folder."""

    folder: Path
    store: Path
    parts: int
    sets: tuple[Told, ...]


def material(name: str) -> bytes:
    """One file of the scenario, as shipped.

    >>> material("lists/ada-brandt.txt").decode().splitlines()[0]
    'Ada Brandt, 20 October 2025'
    """
    return resources.files("asplayed.demo").joinpath(name).read_bytes()


def run(folder: str | Path, say: Callable[[str], None] = lambda _: None) -> Week:
    """Do the whole job in `folder`: import the catalogue, take each list, judge it, tell it, and choose for the last.

    The lists and the catalogue are copied beside the results. Running it again over its own folder gives the same
    results; a folder that holds anything else is refused untouched.
    """
    from asplayed.catalogue import read_parts, settle
    from asplayed.clubs import played_set
    from asplayed.intake import read
    from asplayed.judgement import judge
    from asplayed.keeping import open_store
    from asplayed.keeping.shots import save_player
    from asplayed.players import Player, fly_set
    from asplayed.quantities import figure
    from asplayed.telling import tell

    folder = Path(folder)
    _make_room(folder)
    catalogue = material("catalogue.csv")
    _put(folder / "catalogue.csv", catalogue)
    told = []
    with open_store(folder / STORE) as store:
        imported = read_parts(folder / "catalogue.csv")
        store.save_parts(imported.parts, file="catalogue.csv", content=catalogue, who="demo")
        parts = store.parts()
        say(f"{len(parts)} published parts from {len({part.document for part in parts})} documents")
        for name in LISTS:
            words = material(f"lists/{name}.txt").decode("utf-8")
            _put(folder / "lists" / f"{name}.txt", words.encode("utf-8"))
            golf_set = settle(read(words, parts=parts), parts)
            store.save_set(name, golf_set, words, who="demo")
            player = Player(driver_speed=figure(float(DRIVER_SPEEDS[name]), "mph", "stated"))
            save_player(store, name, player, who="demo")
            played = played_set(golf_set)
            flown = fly_set(played, player)
            findings = judge(played, flown=flown)
            tell(played, findings, folder / name, flown=flown)
            levels = Counter[str](finding.level for finding in findings)
            told.append(Told(name, len(played.clubs), len(played.questions), dict(levels), folder / name))
            say(_line(told[-1]))
        _to_the_bench(folder / "workshop", golf_set, parts, say)
        _choice(folder / "choice", LISTS[-1], golf_set, player, parts, say)
        place = folder / STORE
    return Week(folder, place, len(parts), tuple(told))


def into_store(store: Store, *, who: str) -> tuple[str, ...]:
    """Bring the scenario's catalogue, lists and players into a store that holds no set yet; the names of the sets.

    A store with a set in it is somebody's work: it is refused, and left as it is.
    """
    from asplayed.catalogue import read_parts, settle
    from asplayed.intake import read
    from asplayed.keeping.shots import save_player
    from asplayed.players import Player
    from asplayed.quantities import figure

    if store.list_sets():
        raise BadInput("this store holds sets already; the demo is for an empty one, so that it mixes with nobody's")
    catalogue = material("catalogue.csv")
    store.save_parts(read_parts(catalogue, "catalogue.csv").parts, file="catalogue.csv", content=catalogue, who=who)
    parts = store.parts()
    for name in LISTS:
        words = material(f"lists/{name}.txt").decode("utf-8")
        store.save_set(name, settle(read(words, parts=parts), parts), words, who=who)
        save_player(store, name, Player(driver_speed=figure(float(DRIVER_SPEEDS[name]), "mph", "stated")), who=who)
    return LISTS


def _to_the_bench(folder: Path, golf_set: GolfSet, parts: Sequence[Part], say: Callable[[str], None]) -> None:
    """The last list's decided changes, ordered, built, measured, reworked and signed off."""
    from asplayed.demo.bench import at_the_bench

    made = at_the_bench(LISTS[-1], golf_set, parts, {name: material(f"workshop/{name}") for name in WORKSHOP})
    for name, content in made.files.items():
        _put(folder / name, content)
    out = f"out at first: {', '.join(made.out)}" if made.out else "nothing out"
    say(f"workshop: {made.order}, {made.clubs} clubs; {out}; signed off after the rework")


def _choice(
    folder: Path, name: str, golf_set: GolfSet, player: Player, parts: Sequence[Part], say: Callable[[str], None]
) -> None:
    """The last player's best set with its proof, the next ten, what each club is worth and what changes bring."""
    import msgspec

    from asplayed.choosing.choose import choose
    from asplayed.choosing.page import as_text
    from asplayed.quantities import plain

    chosen = choose(golf_set, player=player, parts=parts)
    _put(folder / "choice.txt", as_text(chosen).encode("utf-8"))
    _put(folder / "choice.json", msgspec.json.format(msgspec.json.encode(plain(chosen)), indent=2) + b"\n")
    proof = "proven the best" if chosen.proven else "the best in the time given"
    count = sum(len(each.changes) for each in chosen.chosen)
    changes = f"{count} change{'s' * (count != 1)}"
    say(
        f"choice: {name} saves {chosen.saved.number:.2f} strokes a round by {changes}, {proof} among "
        f"{chosen.candidates} clubs; see choice/choice.txt"
    )


def _line(told: Told) -> str:
    found = ", ".join(f"{count} {level}" for level, count in told.findings.items()) or "nothing to say"
    return f"{told.name}: {told.clubs} clubs as played; {told.questions} questions; findings: {found}"


def _make_room(folder: Path) -> None:
    ours = {STORE, f"{STORE}-wal", f"{STORE}-shm", "catalogue.csv", "lists", "workshop", "choice", *LISTS}
    if folder.exists() and not folder.is_dir():
        raise BadInput(f"{folder} is a file; name a folder for the demo's results")
    strange = sorted(entry.name for entry in folder.iterdir() if entry.name not in ours) if folder.exists() else []
    if strange:
        raise BadInput(f"{folder} holds {strange[0]}, which is not the demo's; name an empty folder or a new one")
    try:
        for name in ("lists", "workshop", "choice"):
            (folder / name).mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise BadInput(f"{folder} cannot be made ({fault.strerror}); name a folder that can be written") from fault


def _put(path: Path, content: bytes) -> None:
    try:
        path.write_bytes(content)
    except OSError as fault:
        raise BadInput(f"{path} cannot be written ({fault.strerror}); make room or name another folder") from fault
