"""Photos, PDFs and tables kept with a set, stored by the hash of what they hold and never by what they are called."""

from __future__ import annotations

import os
import unicodedata
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import msgspec

from asplayed.clubs.records import Record
from asplayed.errors import BadInput, StoreUnusable
from asplayed.keeping import sets
from asplayed.keeping.places import Read, Where
from asplayed.keeping.reading import reading
from asplayed.keeping.versions import Addition, append, find, fingerprint
from asplayed.quantities import plain

if TYPE_CHECKING:
    from asplayed.keeping.store import Store

KIND = "attachment"
LONGEST_NAME = 120

BEGINNINGS = (
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"%PDF-", "application/pdf"),
)
"""What a file is, told by its first bytes and not by its name."""

FIND = """
SELECT v.content FROM records AS r JOIN versions AS v ON v.record_id = r.id AND v.version = r.version
WHERE r.kind = :kind AND r.hidden = 0 AND substr(r.name, 1, length(:before)) = :before ORDER BY r.id
"""


class Attachment(Record, frozen=True, kw_only=True):
    """A file kept with a set: what it was called, the hash it is stored under, its size in bytes, what it is."""

    file: str
    sha256: str
    size: int
    media: str


class Attached(NamedTuple):
    """What attaching did: the attachment, and whether it was not there before."""

    attachment: Attachment
    new: bool


def shown_name(name: str) -> str:
    """A file's name fit to be shown: its last part, without what cannot be seen or turns the writing around.

    >>> shown_name("../../etc/passwd"), shown_name("C:\\\\bag\\\\photo\\u202egpj.exe"), shown_name("..")
    ('passwd', 'photogpj.exe', 'file')
    """
    last = unicodedata.normalize("NFC", name.encode("utf-8", "replace").decode()).replace("\\", "/").rsplit("/", 1)[-1]
    tidy = "".join(character for character in last if character.isprintable()).strip(" .")
    return tidy[:LONGEST_NAME] or "file"


def attach(store: Store, set_name: str, file: str, content: bytes, *, who: str, why: str | None = None) -> Attached:
    """Keep a file with a stored set; the same bytes again change nothing."""
    name = sets.proper_name(set_name)
    media = next((media for beginning, media in BEGINNINGS if content.startswith(beginning)), None)
    told = Attachment(
        file=shown_name(file), sha256=fingerprint(content), size=len(content), media=media or "application/octet-stream"
    )
    with store.acting("attach", who=who, why=why) as action:
        sets.load(action.read, name)
        key = f"{name}/{told.sha256}"
        newest = find(action.read, KIND, key)
        if newest is not None and not newest.hidden:
            return Attached(msgspec.json.decode(newest.content, type=Attachment), False)
        append(action, KIND, [Addition(key, msgspec.json.encode(plain(told)).decode(), newest, content)])
    return Attached(told, True)


def attachments(set_name: str, where: Where = None) -> tuple[Attachment, ...]:
    """What is kept with a set, oldest first."""
    with reading(where) as read:
        return of_set(read, sets.proper_name(set_name))


def of_set(read: Read, name: str) -> tuple[Attachment, ...]:
    """What is kept with the set of that name."""
    try:
        return tuple(
            msgspec.json.decode(content, type=Attachment) for (content,) in read(FIND, kind=KIND, before=f"{name}/")
        )
    except msgspec.MsgspecError as fault:
        raise StoreUnusable(f"the store is damaged: an attachment in it cannot be read ({fault})") from None


def content_of(set_name: str, beginning: str, where: Where = None) -> tuple[Attachment, bytes]:
    """The attachment of a set whose hash begins so, and its bytes."""
    name = sets.proper_name(set_name)
    with reading(where) as read:
        sets.load(read, name)
        found = [each for each in of_set(read, name) if beginning and each.sha256.startswith(beginning.casefold())]
        if len(found) != 1:
            many = "several attachments" if found else "no attachment"
            raise BadInput(f"{name} has {many} whose hash begins with {beginning[:64]!r}; asplayed keep attachments "
                           f"{name!r} shows them")  # fmt: skip
        version = find(read, KIND, f"{name}/{found[0].sha256}")
        assert version is not None
        return found[0], sets.original(read, version)


def write_new(target: Path, content: bytes) -> None:
    """Write a file that was not there before, for its owner to read and nobody to run."""
    try:
        opened = os.open(target, os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_NOFOLLOW, 0o600)
        with os.fdopen(opened, "wb") as stream:
            stream.write(content)
    except FileExistsError:
        raise BadInput(f"{target} is there already; name a file that is not") from None
    except (OSError, ValueError) as fault:
        raise BadInput(f"{target} cannot be written: {getattr(fault, 'strerror', None) or fault}") from None
