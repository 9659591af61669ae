"""The catalogue's parts, kept as documents with a few facts beside them, and the file each import came from."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePath
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from asplayed.catalogue.parts import Part, same, which
from asplayed.errors import StoreUnusable
from asplayed.keeping.reading import Read
from asplayed.keeping.versions import Addition, Version, append, find_all, fingerprint, storable
from asplayed.quantities import plain

if TYPE_CHECKING:
    from asplayed.keeping.store import Action

KIND = "part"


class PartsSaved(NamedTuple):
    """What an import did: how many parts are new, how many changed, how many stood already."""

    added: int
    changed: int
    unchanged: int


def key(part: Part) -> str:
    """What tells a stored part from every other: the part itself, and the document and dates it is told under."""
    sheet = (part.document, part.document_date, part.offered_from, part.offered_until)
    return msgspec.json.encode((which(part), sheet)).decode()


def save(action: Action, found: Sequence[Part], file: str, content: bytes) -> PartsSaved:
    """Add what is new and give what changed a version; note the file that it came from."""
    from asplayed.keeping import schema

    standing = find_all(action.read, KIND)
    added: dict[str, Addition] = {}
    unchanged = 0
    told: dict[str, Part] = {}
    for part in found:
        name, document = key(part), msgspec.json.encode(plain(part)).decode()
        newest = standing.get(name)
        if name in added or (newest and not newest.hidden and same(decode(newest.content), part)):
            unchanged += 1
            continue
        added[name] = Addition(name, document, newest)
        told[name] = part
    versions = append(action, KIND, list(added.values()))
    if not versions:
        return PartsSaved(0, 0, unchanged)
    for name, version in zip(added, versions, strict=True):
        note_facts(action, version, told[name], new=version.version == 1)
    action.connection.execute(
        schema.imports.insert().values(
            action_id=action.id, file=storable(PurePath(file).name), sha256=fingerprint(content), size=len(content)
        )
    )
    new = sum(version.version == 1 for version in versions)
    return PartsSaved(new, len(versions) - new, unchanged)


FACTS = ("part", "maker", "model", "variant")


def note_facts(action: Action, version: Version, part: Part, *, new: bool) -> None:
    """Repeat for look-ups what the newest version says the part is."""
    from asplayed.keeping import schema

    table = schema.parts
    facts = {fact: getattr(part, fact) and storable(getattr(part, fact)) for fact in FACTS}
    if new:
        action.connection.execute(table.insert().values(record_id=version.record_id, **facts))
    else:
        action.connection.execute(table.update().where(table.c.record_id == version.record_id).values(**facts))


def decode(content: str) -> Part:
    """The part in a stored document."""
    try:
        return msgspec.json.decode(content, type=Part)
    except msgspec.MsgspecError as fault:
        raise StoreUnusable(f"the store is damaged: a part in it cannot be read ({fault})") from None


def load(read: Read) -> tuple[Part, ...]:
    """Every part that is not hidden, in the order they came."""
    return tuple(decode(version.content) for version in find_all(read, KIND).values() if not version.hidden)
