"""Writing what is told into a folder: every file whole or not at all, with an index and a manifest."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from collections.abc import Callable, Mapping, Sequence
from functools import cache, partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from asplayed import __version__
from asplayed.clubs import GolfSet, SetFacts
from asplayed.errors import BadInput
from asplayed.telling.captions import Caption, captions, chapters, subrip, webvtt
from asplayed.telling.comparing import compared, comparison
from asplayed.telling.cues import brief, cues, report_brief, report_cues, summary
from asplayed.telling.documents import (
    boxes_told,
    club_cards,
    cue_sheet,
    player_sheet,
    report_boxes_told,
    report_cue_sheet,
    report_sheet,
)
from asplayed.telling.drawing import drawn_set
from asplayed.telling.drawing_elements import Picture
from asplayed.telling.explaining import explain
from asplayed.telling.field import Field, beside_field
from asplayed.telling.field_pictures import field_pictures, season_pictures
from asplayed.telling.house import PLAIN, House
from asplayed.telling.overlays import OVERLAY_NAME, overlays, rendered
from asplayed.telling.palette import PAPER
from asplayed.telling.pictures import pictures, pictures_beside
from asplayed.telling.season import Season, round_up
from asplayed.telling.sheet import comparison_page, explanation_page, index_page, report_page, set_sheet
from asplayed.telling.spoken import align
from asplayed.telling.spoken import report as report_misspoken
from asplayed.telling.words import clean, title

if TYPE_CHECKING:
    from asplayed.judgement import Finding
    from asplayed.players.flown import FlownSet

# What each file is, in the order the index links them.
KINDS = {
    "set-sheet.html": "the sheet of the set, for screen and paper",
    "player-sheet.pdf": "the player’s sheet: clubs as played, gaps, findings, care",
    "club-cards.pdf": "a card for every club, and one of the set for the wallet",
    "explanation.html": "the set explained: at a glance, as a talk, in footnotes",
    "comparison.html": "the set beside its earlier self or another, club by club",
    "comparison.pdf": "what differs from the earlier set or the other, with pictures",
    "field.html": "the set beside a field of other players",
    "field.pdf": "the set beside a field of other players, on paper",
    "season.html": "what a season’s winners have in common",
    "season.pdf": "what a season’s winners have in common, on paper",
    "cue-sheet.pdf": "the presenter’s cue sheet, with running time",
    "summary.txt": "title, one line, one minute and chapters, to paste",
    "captions.vtt": "captions of the talk (WebVTT)",
    "captions.srt": "captions of the talk (SubRip)",
    "chapters.vtt": "chapters of the talk (WebVTT)",
    "misspoken.txt": "figures that were said otherwise than the record has them",
    "drawn-set.svg": "the set drawn, as a picture of its own",
    "pictures/from-above.svg": "carries with their spreads, seen from above",
    "pictures/from-the-side.svg": "flights, seen from the side",
    "pictures/heads.svg": "heads as made and as played",
    "pictures/beside-from-above.svg": "carries of both sets, seen from above",
    "pictures/beside-from-the-side.svg": "flights of both sets, seen from the side",
    "pictures/beside-progressions.svg": "loft, length and head mass of both sets",
    "pictures/beside-heads.svg": "heads of both sets, where they differ",
    "pictures/field.svg": "lofts and lengths beside the field’s",
    "pictures/season-shares.svg": "what the winners had, and the others",
    "pictures/season-sizes.svg": "the winners’ lofts and lengths beside the others’",
    "manifest.json": "every file with its size and checksum",
}


_NEEDS = {
    "misspoken.txt": "a transcript of what was said",
    "comparison.html": "an earlier set, or another, to lay beside",
    "comparison.pdf": "an earlier set, or another, to lay beside",
    "field.html": "a field of other players",
    "field.pdf": "a field of other players",
}
WANTED = (
    *(name for name in KINDS if "/" not in name and name != "manifest.json" and not name.startswith("season")),
    "pictures",
    "overlays",
)
"""What can be asked for alone, of one set."""


class Other(NamedTuple):
    """What a set is compared with: itself at an earlier date, or another's; in its player's hands, where they are
    known."""

    golf_set: GolfSet
    flown: FlownSet | None = None
    two: bool = False


def tell(
    golf_set: GolfSet,
    findings: Sequence[Finding],
    folder: str | Path,
    *,
    flown: FlownSet | None = None,
    house: House = PLAIN,
    before: Other | None = None,
    field: Field | None = None,
    transcript: Sequence[Caption] | None = None,
    only: Sequence[str] = (),
    made_from: str = "",
) -> dict[str, Any]:
    """Write everything that can be told of a set into `folder`, with an index and a manifest; answer the manifest.

    Clubs are taken as they come: worked out as played beforehand. `flown` is the set in its player's hands, without
    which carries are shown as missing; `before` is the same set at an earlier date, or another's, for what differs;
    `field` is the set among others; `transcript` is what was really said, to which captions and chapters are then
    moved; `house` says whose sheets they are; `only` names the files that are wanted (`overlays` and `pictures` for all
    of those), where not everything is; `made_from` is noted in the manifest, by which it can be known that nothing
    needs telling anew.

    The folder is made where there is none; other files in it are left alone. Every file is written under a temporary
    name first, so no reader meets half of one. Raises BadInput where the folder cannot be one or cannot be written.

    >>> with tempfile.TemporaryDirectory() as there:
    ...     [entry["file"] for entry in tell(GolfSet(), (), there)["files"]][:3]
    ['index.html', 'set-sheet.html', 'player-sheet.pdf']
    """
    contents = pack(
        golf_set, findings, flown=flown, house=house, before=before, field=field, transcript=transcript, only=only
    )
    return _written(
        golf_set, contents, Path(folder), house, whole=not only, boxes=boxes_told(golf_set), made_from=made_from
    )


def tell_season(season: Season, folder: str | Path, *, house: House = PLAIN) -> dict[str, Any]:
    """Write what a season's winners have in common into `folder`: page, PDF, cue sheet, captions, pictures; answer the
    manifest."""
    heading = SetFacts(
        title=f"What the winners of {season.year} have in common",
        date=max((bag.date for bag in (*season.winners, *season.others)), default="") or None,
    )
    boxes = report_boxes_told(round_up(season, house.spelling))
    return _written(GolfSet(set=heading), season_pack(season, house), Path(folder), house, whole=True, boxes=boxes)


def _written(
    golf_set: GolfSet,
    contents: dict[str, bytes],
    folder: Path,
    house: House,
    *,
    whole: bool,
    boxes: str,
    made_from: str = "",
) -> dict[str, Any]:
    """Index and manifest made, everything written."""
    kinds = {name: _kind(name) for name in contents}
    index = index_page(golf_set, [*kinds.items(), ("manifest.json", KINDS["manifest.json"])], house)
    contents = {"index.html": index.encode("utf-8"), **contents}
    manifest = {
        "title": clean(title(golf_set)),
        "figures_as_of": golf_set.set.date,
        "asplayed": __version__,
        "made_from": made_from,
        "warnings": [boxes] if boxes else [],
        "files": [
            {
                "file": name,
                "kind": kinds.get(name, "links to all the rest"),
                "bytes": len(content),
                "sha-256": hashlib.sha256(content).hexdigest(),
            }
            for name, content in contents.items()
        ],
    }
    contents["manifest.json"] = (json.dumps(manifest, ensure_ascii=False, indent=2) + "\n").encode("utf-8")
    _write(folder, contents, whole=whole)
    return manifest


def _kind(name: str) -> str:
    if name.startswith("overlays/"):
        return "overlay, " + ("transparent picture" if name.endswith(".png") else "drawing")
    return KINDS[name]


def pack(
    golf_set: GolfSet,
    findings: Sequence[Finding],
    *,
    flown: FlownSet | None = None,
    house: House = PLAIN,
    before: Other | None = None,
    field: Field | None = None,
    transcript: Sequence[Caption] | None = None,
    only: Sequence[str] = (),
) -> dict[str, bytes]:
    """Every file of the pack by its name, as `tell` writes them, or `only` those named, without writing anything."""
    changes = compared(before.golf_set, golf_set, two=before.two) if before is not None else None
    report = beside_field(field, house.spelling) if field is not None else None
    told = explain(golf_set, findings, flown=flown, changes=changes, field=report, spelling=house.spelling)
    laid_out = cues(told, golf_set, house.words_per_minute)
    aligned = align(laid_out, transcript) if transcript is not None else None
    parts = laid_out if aligned is None else aligned.cues
    spoken = captions(laid_out, house.words_per_minute) if aligned is None else list(aligned.captions)
    drawn = cache(lambda: pictures(golf_set, flown))
    pages: dict[str, Callable[[], str | bytes]] = {
        "set-sheet.html": lambda: set_sheet(golf_set, findings, house),
        "player-sheet.pdf": lambda: player_sheet(golf_set, findings, house, flown=flown, changes=changes),
        "club-cards.pdf": lambda: club_cards(golf_set, told, house, flown=flown),
        "explanation.html": lambda: explanation_page(golf_set, told, drawn(), house, changes=changes),
        "cue-sheet.pdf": lambda: cue_sheet(golf_set, told, laid_out, house),
        "summary.txt": lambda: summary(brief(told, house), told.sentences, parts),
        "captions.vtt": lambda: webvtt(spoken),
        "captions.srt": lambda: subrip(spoken),
        "chapters.vtt": lambda: webvtt(chapters(parts)),
        "drawn-set.svg": lambda: drawn_set(golf_set, alone=True) + "\n",
    }
    beside: list[Picture] = []
    if before is not None and changes is not None:
        other = before.golf_set
        side_by_side = partial(pictures_beside, other, golf_set, (before.flown, flown), names=changes.names)
        beside = side_by_side()
        differ = comparison(other, golf_set, changes, house.spelling)
        pages["comparison.html"] = lambda: comparison_page(other, golf_set, house, pictures=beside, told=changes)
        pages["comparison.pdf"] = lambda: report_sheet(differ, side_by_side(colours=PAPER), house)
    if field is not None and report is not None:
        beside += field_pictures(field)
        pages["field.html"] = lambda: report_page(report, field_pictures(field), house)
        pages["field.pdf"] = lambda: report_sheet(report, field_pictures(field, colours=PAPER), house)
    if aligned is not None:
        pages["misspoken.txt"] = lambda: report_misspoken(aligned)
    for name in only:
        if name not in pages and name not in ("pictures", "overlays"):
            raise BadInput(f"{name} cannot be written without {_NEEDS[name]}")
    made = {name: page() for name, page in pages.items() if not only or name in only}
    if not only or "pictures" in only:
        made |= {f"pictures/{each.name}": each.svg + "\n" for each in (*drawn(), *beside)}
    if not only or "overlays" in only:
        found = overlays(golf_set)
        made |= {f"overlays/{each.name}.svg": each.svg + "\n" for each in found}
        made |= {f"overlays/{name}.png": picture for name, picture in rendered(found)}
    return {name: page if isinstance(page, bytes) else page.encode("utf-8") for name, page in made.items()}


def season_pack(season: Season, house: House = PLAIN) -> dict[str, bytes]:
    """Every file that tells a season, by its name."""
    report = round_up(season, house.spelling)
    laid_out = report_cues(report, house.words_per_minute)
    spoken = captions(laid_out, house.words_per_minute)
    drawn = season_pictures(season)
    pages: Mapping[str, str | bytes] = {
        "season.html": report_page(report, drawn, house),
        "season.pdf": report_sheet(report, season_pictures(season, colours=PAPER), house),
        "cue-sheet.pdf": report_cue_sheet(report, laid_out, house),
        "summary.txt": summary(report_brief(report, house), report.sentences, laid_out),
        "captions.vtt": webvtt(spoken),
        "captions.srt": subrip(spoken),
        "chapters.vtt": webvtt(chapters(laid_out)),
        **{f"pictures/{each.name}": each.svg + "\n" for each in drawn},
    }
    return {name: page if isinstance(page, bytes) else page.encode("utf-8") for name, page in pages.items()}


def _stale(folder: Path, contents: Mapping[str, bytes]) -> list[Path]:
    """Overlays and pictures that an earlier telling left here and this one does not have."""
    kept = {folder / name for name in contents}
    there = (folder / "overlays").iterdir() if (folder / "overlays").is_dir() else ()
    ours = [path for path in there if OVERLAY_NAME.fullmatch(path.name)]
    ours += [folder / name for name in KINDS if name.startswith("pictures/") or name in _NEEDS]
    return [path for path in ours if path not in kept and path.is_file()]


def _write(folder: Path, contents: Mapping[str, bytes], *, whole: bool) -> None:
    """All files under temporary names, then all renamed; a fault before the renaming leaves the folder as it was."""
    made: list[tuple[Path, Path]] = []
    try:
        if folder.exists() and not folder.is_dir():
            raise BadInput(f"{folder} is a file, and the sheet needs a folder; name another place")
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in contents.items():
            target = folder / name
            target.parent.mkdir(exist_ok=True)
            if target.is_dir():
                raise BadInput(f"{target} is a folder where a file is to be written; move it or name another folder")
            handle, temporary = tempfile.mkstemp(prefix=f".{target.name}-", dir=target.parent)
            made.append((Path(temporary), target))
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            Path(temporary).chmod(0o644)
        for temporary_path, target in made:
            temporary_path.replace(target)
        for stale in _stale(folder, contents) if whole else ():
            stale.unlink()
    except (OSError, ValueError) as fault:
        if isinstance(fault, BadInput):
            raise
        reason = getattr(fault, "strerror", None) or str(fault)
        raise BadInput(f"{folder} cannot be written ({reason}); name a folder that can be") from fault
    finally:
        for temporary_path, _ in made:
            temporary_path.unlink(missing_ok=True)
