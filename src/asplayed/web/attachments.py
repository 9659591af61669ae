"""Photos and papers kept with a set: put there by hash, handed out as downloads, never opened in the page's name."""

from __future__ import annotations

from typing import Any

from asplayed.errors import BadInput
from asplayed.quantities import plain
from asplayed.web.kit import (
    Answer,
    Form,
    Here,
    Page,
    Tab,
    asked,
    done,
    download,
    missing,
    page,
    part_of_path,
    see_other,
    shown,
)

set_tab = Tab("Papers", "/sets/{name}/papers", "f")


@shown("/sets/{name:str}/papers")
def papers(here: Here, name: str) -> Page:
    """What is kept with the set."""
    from asplayed.keeping import read_set
    from asplayed.keeping.attaching import attachments

    stored = read_set(name, here.store)
    return page(
        here,
        "papers.html",
        set_name=stored.name,
        whose=stored.golf_set.set.player or stored.name,
        papers=attachments(stored.name, here.store),
    )


@done("/sets/{name:str}/papers", upload=True)
def attached(here: Here, name: str, form: Form) -> Answer:
    """Keep one more file with the set."""
    from asplayed.keeping.attaching import attach

    upload = form.file("paper")
    if upload is None or not upload.content:
        raise BadInput("no file was chosen, or it is empty; choose a photo, a PDF or a table")
    attach(here.kept, name, upload.name, upload.content, who=here.who, why=form.text("why") or None)
    return see_other(f"/sets/{part_of_path(name)}/papers")


@shown("/sets/{name:str}/papers/{sha256:str}")
def paper(here: Here, name: str, sha256: str) -> Answer:
    """One file, to be kept by the browser and not opened by it."""
    from asplayed.keeping.attaching import content_of

    if len(sha256) != 64 or not sha256.isalnum():
        raise missing("there is no such file with this set")
    try:
        found, content = content_of(name, sha256, here.store)
    except BadInput:
        raise missing("there is no such file with this set") from None
    return download(content, found.file, "application/octet-stream")


@asked("/api/sets/{name:str}/papers")
def api_papers(here: Here, name: str) -> dict[str, Any]:
    """What is kept with the set."""
    from asplayed.keeping import read_set
    from asplayed.keeping.attaching import attachments

    stored = read_set(name, here.store)
    return {"attachments": [plain(each) for each in attachments(stored.name, here.store)]}


routes = (papers, attached, paper, api_papers)
