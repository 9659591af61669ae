"""The folder of a sweep: what was asked, and every finished chunk with its checksum, so that a kill costs little."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import msgspec

from asplayed import __version__
from asplayed.errors import BadInput
from asplayed.sweeps.reducing import Node
from asplayed.sweeps.studies import Row, Study

ASKED = "sweep.json"
CHUNKS = "chunks"


class Chunk(msgspec.Struct, frozen=True):
    """The blocks `start` to `stop` of a study, finished."""

    start: int
    stop: int
    nodes: tuple[Node, ...]
    rows: tuple[Row, ...]


class Asked(msgspec.Struct, frozen=True):
    """What a folder's sweep is: chunks of another are never mixed with it."""

    study: str
    asplayed: str
    blocks: int
    digest: str


class Kept(NamedTuple):
    """One finished chunk: its blocks and its file."""

    start: int
    stop: int
    file: Path


def asked_by(study: Study) -> Asked:
    """What stands in the folder of this study."""
    told = msgspec.json.encode(study, enc_hook=str, order="deterministic")
    digest = hashlib.blake2b(told, digest_size=16).hexdigest()
    return Asked(study.NAME, __version__, study.blocks(), digest)


def open_folder(folder: Path, study: Study) -> None:
    """Make the folder, or take up the sweep in it; a folder of anything else is refused untouched."""
    wanted = asked_by(study)
    place = folder / ASKED
    try:
        if place.exists():
            try:
                found = msgspec.json.decode(place.read_bytes(), type=Asked)
            except msgspec.DecodeError:
                raise BadInput(f"{place} cannot be read as a sweep's; name another folder") from None
            if found != wanted:
                raise BadInput(
                    f"{folder} holds another sweep ({_differing(found, wanted)}); "
                    "name another folder, or remove this one"
                )
        elif folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            what = "holds other things" if folder.is_dir() else "is a file"
            raise BadInput(f"{folder} {what}; name an empty folder or a new one for the sweep")
        (folder / CHUNKS).mkdir(parents=True, exist_ok=True)
        put(place, msgspec.json.encode(wanted))
    except OSError as fault:
        raise BadInput(f"{folder} cannot be used ({fault.strerror}); name a folder that can be written") from fault


def _differing(found: Asked, wanted: Asked) -> str:
    if found.study != wanted.study:
        return f"of {found.study}, not of {wanted.study}"
    if found.asplayed != wanted.asplayed:
        return f"begun by version {found.asplayed}, this is {wanted.asplayed}"
    return f"also of {found.study}, with other sets, players or figures"


def put(place: Path, content: bytes) -> None:
    """Write a file whole or not at all."""
    half = place.with_name(place.name + ".part")
    with half.open("wb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())
    half.replace(place)


def encoded(chunk: Chunk) -> bytes:
    """A chunk as it travels and is kept: its checksum, then what it holds."""
    content = msgspec.json.encode(chunk)
    return hashlib.blake2b(content, digest_size=16).hexdigest().encode() + b"\n" + content


def decoded(content: bytes) -> Chunk | None:
    """The chunk, or None where its checksum does not hold."""
    said, _, held = content.partition(b"\n")
    if said != hashlib.blake2b(held, digest_size=16).hexdigest().encode():
        return None
    return msgspec.json.decode(held, type=Chunk)


def keep(folder: Path, start: int, stop: int, content: bytes) -> Kept:
    """Keep one finished chunk."""
    file = folder / CHUNKS / f"{start:012d}-{stop:012d}.json"
    try:
        put(file, content)
    except OSError as fault:
        raise BadInput(
            f"{folder} cannot be written ({fault.strerror}); make room, then give the same command: it goes on"
        ) from fault
    return Kept(start, stop, file)


def finished(folder: Path) -> tuple[list[Kept], int]:
    """The finished chunks in order, and how many were damaged: these are removed, to be done again."""
    found: list[Kept] = []
    damaged = 0
    for file in sorted((folder / CHUNKS).glob("*-*.json")):
        chunk = decoded(file.read_bytes())
        if chunk is None:
            file.unlink()
            damaged += 1
        elif not found or chunk.start >= found[-1].stop:
            found.append(Kept(chunk.start, chunk.stop, file))
    return found, damaged


def gaps(kept: Sequence[Kept], blocks: int) -> list[tuple[int, int]]:
    """The stretches of blocks that are not finished.

    >>> gaps([Kept(2, 4, Path()), Kept(4, 5, Path())], 8)
    [(0, 2), (5, 8)]
    """
    edges = [0, *(edge for each in kept for edge in (each.start, each.stop)), blocks]
    return [(a, b) for a, b in zip(edges[::2], edges[1::2], strict=True) if a < b]


def chunks_of(kept: Sequence[Kept]) -> Iterator[Chunk]:
    """Finished chunks, read one at a time; one that was damaged since is refused."""
    for each in kept:
        chunk = decoded(each.file.read_bytes())
        if chunk is None:
            raise BadInput(f"{each.file} was damaged while it was read; give the same command again: it is done anew")
        yield chunk
