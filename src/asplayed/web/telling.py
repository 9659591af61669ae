"""Tell: sheets, cards and the presenter's pack, looked at page by page, and taken along."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from asplayed.errors import BadInput
from asplayed.web.faults import sentences_of
from asplayed.web.kit import Answer, Form, Here, Page, Tab, done, download, packed, page, part_of_path, shown

if TYPE_CHECKING:
    from asplayed.telling.captions import Caption
    from asplayed.telling.folder import Other
    from asplayed.telling.house import House
    from asplayed.web.known import Bag

set_tab = Tab("Tell", "/sets/{name}/tell", "t")

_KINDS = {
    ".pdf": "application/pdf", ".html": "text/html; charset=utf-8", ".vtt": "text/vtt; charset=utf-8",
    ".srt": "text/plain; charset=utf-8", ".txt": "text/plain; charset=utf-8", ".svg": "image/svg+xml",
}  # fmt: skip
_ALWAYS = (
    "player-sheet.pdf", "club-cards.pdf", "cue-sheet.pdf", "set-sheet.html", "explanation.html", "summary.txt",
    "captions.vtt", "captions.srt", "chapters.vtt", "drawn-set.svg",
)  # fmt: skip
_BESIDE = ("comparison.pdf", "comparison.html")


class Way(NamedTuple):
    """How a set is to be told: beside which other, in which spelling, on which paper, how large."""

    before: str = ""
    spelling: str = "british"
    paper: str = "a4"
    large: bool = False

    @property
    def query(self) -> dict[str, str]:
        """The same as the end of an address: what is as usual is left out."""
        given = {"before": self.before, "spelling": self.spelling, "paper": self.paper}
        return {**{key: value for key, value in given.items() if value}, **({"large": "true"} if self.large else {})}


def _house(way: Way) -> House:
    from asplayed.telling.house import PLAIN

    if way.spelling not in ("british", "american") or way.paper not in ("a4", "letter"):
        raise BadInput("spelling is british or american, and paper a4 or letter")
    return PLAIN._replace(spelling=way.spelling, paper=way.paper, large_print=way.large)  # type: ignore[arg-type]


def _other(here: Here, way: Way) -> Other | None:
    from asplayed.clubs import played_set
    from asplayed.keeping.comparing import find_at
    from asplayed.keeping.reading import reading
    from asplayed.telling.folder import Other

    if not way.before:
        return None
    with reading(here.store) as read:
        found = find_at(read, way.before)
    if not here.sees(found.golf_set.set.player):
        raise BadInput(f"there is no set {way.before[:60]!r}; the first page lists them")
    return Other(played_set(found.golf_set))


def told(here: Here, bag: Bag, way: Way, *only: str, transcript: Sequence[Caption] | None = None) -> dict[str, bytes]:
    """The files asked for, or all, of a set told in this way, laid beside what was really said where that is given."""
    from asplayed.telling.folder import pack

    seen = bag.seen
    flown = seen.flown if bag.sessions or bag.player.driver_speed or bag.player.handicap else None
    return pack(
        seen.golf_set,
        seen.findings,
        flown=flown,
        house=_house(way),
        before=_other(here, way),
        transcript=transcript,
        only=only,
    )


def _way(before: str, spelling: str, paper: str, large: bool) -> Way:
    return Way(before.strip()[:120], spelling, paper, large)


@shown("/sets/{name:str}/tell")
def tell_page(
    here: Here, name: str, before: str = "", spelling: str = "british", paper: str = "a4", large: bool = False
) -> Page:
    """What can be told of this set, and its beginning in words."""
    from asplayed.keeping import set_history
    from asplayed.telling.folder import KINDS

    bag = here.app.known.bag(name)
    way = _way(before, spelling, paper, large)
    try:
        summary = told(here, bag, way, "summary.txt")["summary.txt"].decode()
        fault = ""
    except BadInput as found:
        summary, fault = "", " ".join(sentences_of(found))
    files = [*_ALWAYS, *(_BESIDE if way.before and not fault else ())]
    return page(
        here,
        "telling.html",
        set_name=bag.name,
        whose=bag.golf_set.set.player or bag.name,
        way=way,
        fault=fault,
        summary=summary,
        files=[(each, KINDS[each]) for each in files],
        versions=[entry.version for entry in set_history(bag.name, here.store)],
    )


@shown("/sets/{name:str}/tell/{file:str}")
def one_file(
    here: Here,
    name: str,
    file: str,
    before: str = "",
    spelling: str = "british",
    paper: str = "a4",
    large: bool = False,
) -> Answer:
    """One file, or everything in one archive."""
    bag = here.app.known.bag(name)
    way = _way(before, spelling, paper, large)
    if file == "pack.zip":
        return download(packed(told(here, bag, way)), f"{bag.name}.zip", "application/zip")
    if file == "overlays.zip":
        return download(packed(told(here, bag, way, "overlays")), f"{bag.name}-overlays.zip", "application/zip")
    if file not in (*_ALWAYS, *_BESIDE):
        raise BadInput(f"{file[:60]!r} is not told of a set; the page lists what is")
    return download(told(here, bag, way, file)[file], file, _KINDS[file[file.rindex(".") :]])


@shown("/sets/{name:str}/tell/look/{file:str}")
def look(
    here: Here,
    name: str,
    file: str,
    before: str = "",
    spelling: str = "british",
    paper: str = "a4",
    large: bool = False,
    leaf: int = 1,
) -> Page:
    """One file looked at: a PDF one page at a time, words as words."""
    from asplayed.telling.previews import leaf as leaf_of

    bag = here.app.known.bag(name)
    way = _way(before, spelling, paper, large)
    if file not in (*_ALWAYS, *_BESIDE) or file.endswith((".html", ".svg")):
        raise BadInput(f"{file[:60]!r} is not looked at here; take it along and open it")
    content = told(here, bag, way, file)[file]
    looked_at = leaf_of(content, leaf) if file.endswith(".pdf") else None
    return page(
        here,
        "telling-look.html",
        set_name=bag.name,
        file=file,
        way=way,
        words="" if looked_at else content.decode(),
        leaf=looked_at,
        picture=f"data:image/png;base64,{base64.b64encode(looked_at.png).decode()}" if looked_at else "",
    )


@done("/sets/{name:str}/tell/spoken", upload=True)
def spoken(here: Here, name: str, form: Form) -> Page:
    """What was really said, laid beside what was written: the figures misspoken, and captions at their real times."""
    from asplayed.telling.spoken import transcript_of

    bag = here.app.known.bag(name)
    upload = form.file("spoken")
    if upload is None:
        raise BadInput("no transcript was chosen; it is a WebVTT or SubRip file")
    heard = transcript_of(upload.content, upload.name)
    files = told(here, bag, Way(), "misspoken.txt", "captions.vtt", "chapters.vtt", transcript=heard)
    return page(
        here,
        "telling-spoken.html",
        set_name=bag.name,
        misspoken=files["misspoken.txt"].decode(),
        captions=files["captions.vtt"].decode(),
        chapters=files["chapters.vtt"].decode(),
        back=f"/sets/{part_of_path(bag.name)}/tell",
    )


routes = (tell_page, one_file, look, spoken)
