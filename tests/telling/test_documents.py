"""The PDFs opened: their text, their fonts, their pages, nothing over the edge, nothing run, nothing fetched."""

from __future__ import annotations

import io
import os
import re
import socket
import threading
import warnings
from contextlib import contextmanager

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from pypdf import PdfReader

from asplayed.clubs import AsPlayed, Club, GolfSet, Head, SetFacts, Shaft
from asplayed.errors import BadInput
from asplayed.quantities import figure
from asplayed.telling import words
from asplayed.telling.aloud import pieces_aloud
from asplayed.telling.bags import Bag, Carried
from asplayed.telling.comparing import Compared
from asplayed.telling.cues import cues
from asplayed.telling.documents import club_cards, cue_sheet, player_sheet, report_sheet
from asplayed.telling.explaining import explain
from asplayed.telling.field import among
from asplayed.telling.house import House
from asplayed.telling.season import counted_season
from asplayed.telling.typesetting import typeset
from asplayed.telling.workings import record_figures

POINTS = {"a4": (595.3, 841.9), "letter": (612.0, 792.0)}  # ISO 216; ANSI Y14.1


def opened(content: bytes) -> PdfReader:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return PdfReader(io.BytesIO(content))


def text_of(content: bytes) -> str:
    text = " ".join(page.extract_text() for page in opened(content).pages)
    return " ".join(text.replace("\u200b", "").split())


def all_three(golf_set, findings=(), house=House()):  # noqa: B008
    told = explain(golf_set, findings, spelling=house.spelling)
    laid_out = cues(told, golf_set, house.words_per_minute)
    return {
        "player": player_sheet(golf_set, findings, house),
        "cards": club_cards(golf_set, told, house),
        "cue": cue_sheet(golf_set, told, laid_out, house),
    }


def over_the_edge(content: bytes) -> list[str]:
    """Text that begins or ends outside its page."""
    found = []
    for page in opened(content).pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)

        def visit(text, matrix, within, font, size, width=width, height=height):
            x, y = within[4], within[5]
            if text.strip() and not (0 <= x <= width and 0 <= y <= height):
                found.append(text)

        page.extract_text(visitor_text=visit)
    return found


def pixels(content: bytes, tmp_path):
    """The pages as pictures, by poppler where it is installed."""
    import shutil
    import subprocess

    from PIL import Image

    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm is not installed")
    path = tmp_path / "document.pdf"
    path.write_bytes(content)
    subprocess.run(["pdftoppm", "-r", "50", "-gray", "-png", str(path), str(tmp_path / "page")], check=True)
    found = []
    for name in sorted(tmp_path.glob("page*.png")):
        with Image.open(name) as page:
            found.append(page.convert("L"))
    return found


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("large", [False, True])
def test_paper_and_print(fourteen, findings, paper, large):
    for name, content in all_three(fourteen, findings, House(paper=paper, large_print=large)).items():
        document = opened(content)
        for page in document.pages:
            size = tuple(sorted((float(page.mediabox.width), float(page.mediabox.height))))
            assert size == pytest.approx(POINTS[paper], abs=0.2), name
        assert over_the_edge(content) == []
        assert document.metadata is not None
        assert document.metadata.title.startswith("Tessler before the Ravelin Cup")


def test_every_club_and_figure_is_on_the_players_sheet(fourteen, findings):
    found = text_of(player_sheet(fourteen, findings))
    for club in fourteen.clubs:
        assert club.club in found
    for told in (
        "57°",
        "35 13/16 in",
        "sleeve upright: 0.75° strong",
        "7° lie between",
        "When to come again",
        "Carries: not known",
        "No breach found in the figures entered.",
        "Which flex is the 7 wood’s shaft?",
    ):
        assert told in found, told  # fmt: skip


def test_changes_are_told_or_said_to_be_none(fourteen):
    assert "Changed since last time" not in text_of(player_sheet(fourteen, ()))
    assert "Nothing differs" in text_of(player_sheet(fourteen, (), changes=Compared("Changed since last time", ())))
    assert "The driver is new." in text_of(
        player_sheet(fourteen, (), changes=Compared("Since then", ("The driver is new.",)))
    )


def test_the_cue_sheet_names_the_source_of_every_figure_it_speaks_of(fourteen, findings):
    told = explain(fourteen, findings)
    laid_out = cues(told, fourteen, 150)
    found = text_of(cue_sheet(fourteen, told, laid_out))
    assert "stamped loft plus bend" in found
    assert "Hold up the driver" in found
    assert "the stamp reads 56°" in found
    for cue in laid_out:
        for name, entry in cue.figures:
            assert name in found
            assert entry.why is None or entry.why in found


def test_pronunciations_stand_where_the_word_is_said(fourteen):
    house = House(say=(("Kittiwake", "KIT-ee-wake"), ("Nowhere", "NO-ware")))
    found = text_of(all_three(fourteen, house=house)["cue"])
    assert "KIT-ee-wake" in found
    assert "NO-ware" not in found


@pytest.mark.parametrize("which", ["one", "twenty", "hostile", "bare"])
def test_nothing_runs_over_the_edge(which, request, tmp_path):
    golf_set = request.getfixturevalue(which)
    for name, content in all_three(golf_set).items():
        assert over_the_edge(content) == [], name
        folder = tmp_path / name
        folder.mkdir()
        for page in pixels(content, folder):
            rim = [page.crop(box).getextrema()[0] for box in (
                (0, 0, page.width, 8), (0, 0, 8, page.height), (page.width - 8, 0, page.width, page.height),
                (0, page.height - 8, page.width, page.height))]  # fmt: skip
            assert min(rim) > 240, name  # nothing but paper in the outer 4 mm
            assert page.getextrema()[0] < 60  # and something black within


def test_a_set_of_twenty_has_twenty_cards_and_a_wallet_card(twenty):
    found = text_of(club_cards(twenty, explain(twenty)))
    assert found.count("Swing weight") == 20
    assert found.count("For the wallet") == 1
    assert found.count("lob wedge 62°") == 2


def test_a_missing_figure_is_shown_as_missing(bare):
    found = text_of(player_sheet(bare, ()))
    assert "—" in found
    assert not re.search(r"\d+(?:\.\d+)?°", found.replace("1° to 2°", "").split("Cautions")[0])


FIGURES = ("loft", "lie", "face", "bounce", "length", "mass", "swing_weight", "butt_inertia", "frequency", "toe_hang")


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sets(st.tuples(st.integers(0, 13), st.sampled_from(FIGURES))), st.sets(st.integers(0, 13)))
def test_whatever_is_missing_is_shown_so_and_never_made_up(fourteen, missing, partless):
    clubs = []
    for place, club in enumerate(fourteen.clubs):
        gone = {name: None for at, name in missing if at == place}
        kept = replace(club, as_played=replace(club.as_played, **gone))
        clubs.append(replace(kept, head=Head(), shaft=Shaft(), sleeve=None, weights=(), grip=None, putter=None)
                     if place in partless else kept)  # fmt: skip
    golf_set = replace(fourteen, clubs=tuple(clubs))
    known = {words.value_text(found) for club in golf_set.clubs for _, found in record_figures(club)}
    known |= {value.lstrip("−") for value in known} | {golf_set.set.date}
    told = explain(golf_set)
    for said in told.sentences:
        assert {printed for _, printed in pieces_aloud(said.text) if printed} <= known
    sheet = text_of(player_sheet(golf_set, ()))
    for club in golf_set.clubs:
        assert club.club in sheet


def test_fonts_are_embedded_and_our_own(fourteen):
    for content in all_three(fourteen).values():
        for page in opened(content).pages:
            for font in (page["/Resources"].get_object().get("/Font") or {}).values():
                base = font.get_object()
                below = base["/DescendantFonts"][0].get_object() if "/DescendantFonts" in base else base
                descriptor = below["/FontDescriptor"].get_object()
                assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(descriptor), base["/BaseFont"]


def test_black_and_white_is_enough(fourteen, findings, tmp_path):
    """No colour is used where no house asked for one: every page reads the same from a black-and-white printer."""
    for content in all_three(fourteen, findings).values():
        for page in opened(content).pages:
            stream = page.get_contents().get_data().decode("latin-1")
            for values in re.findall(r"([\d.]+) ([\d.]+) ([\d.]+) (?:rg|scn|sc)\b", stream):
                assert len(set(values)) == 1, values


PAGES = ("player-sheet.pdf", "club-cards.pdf", "cue-sheet.pdf", "set-sheet.html", "explanation.html", "captions.vtt",
         "comparison.html", "comparison.pdf", "field.html", "field.pdf")  # fmt: skip


@contextmanager
def listener():
    """A server on this machine that counts who comes."""
    seen: list[bytes] = []
    server = socket.create_server(("127.0.0.1", 0))
    server.settimeout(0.05)
    over = threading.Event()

    def listen():
        while not over.is_set():
            try:
                guest, _ = server.accept()
            except TimeoutError:
                continue
            with guest:
                seen.append(guest.recv(200))

    thread = threading.Thread(target=listen)
    thread.start()
    try:
        yield server.getsockname()[1], seen
    finally:
        over.set()
        thread.join()
        server.close()


def payloads(port: int, secret: str) -> list[str]:
    address = f"http://127.0.0.1:{port}"
    return [
        f'#image("{address}/a.png")',
        f'#image("{secret}")',
        f'#read("{secret}")',
        f'#include "{secret}"',
        '#import "@preview/example:0.1.0": *',
        '#eval("1+1")',
        "#panic()",
        "#{while true {}}",
        "#sys.inputs",
        "#data",
        '"]#read("/etc/passwd")["',
        "\\u{23}read(\"/etc/passwd\")",
        "$ x $ *bold* _it_ `raw` <label> @ref = heading",
        "{{ 7 * 7 }} {% include '/etc/passwd' %} {{ ''.__class__ }}",
        f'<img src="{address}/b.png"><script src="{address}/c.js"></script>',
        f'<svg xmlns="http://www.w3.org/2000/svg"><image href="{address}/d.png"/></svg>',
        f"url({address}/e) @import '{address}/f.css';",
        f"file://{secret}",
        "<!ENTITY x SYSTEM 'file:///etc/passwd'> &x;",
        "%s %n {0.__class__} {club}",
    ]  # fmt: skip


@pytest.mark.slow
def test_text_stays_text_and_nothing_is_fetched(tmp_path, monkeypatch):
    from asplayed.telling.folder import Other, pack, season_pack

    secret = tmp_path / "secret.txt"
    secret.write_text("CANARY-4711")
    with listener() as (port, seen):
        monkeypatch.setenv("http_proxy", f"http://127.0.0.1:{port}")
        monkeypatch.setenv("https_proxy", f"http://127.0.0.1:{port}")
        for payload in payloads(port, str(secret)):
            club = Club(club=payload, kind="wedge", head=Head(name=payload, sole=payload),
                        shaft=Shaft(name=payload, flex=payload),
                        as_played=AsPlayed(loft=figure(56, "deg", "stated", why=payload),
                                           swing_weight=figure(payload, "1", "stated")))  # fmt: skip
            golf_set = GolfSet(set=SetFacts(title=payload, player=payload, event=payload, date=payload), clubs=(club,))
            house = House(name=payload, say=((payload, payload),))
            carried = Carried(payload, "wedge", payload, payload, payload, 55.0, 35.0, payload, payload)
            bags = [Bag(f"{n}{payload}", f"{n}{payload}", payload, payload, 1, (carried,), payload) for n in range(6)]
            files = pack(
                golf_set, (), house=house, before=Other(golf_set, two=True), field=among(golf_set, bags, payload),
                only=() if "<svg" in payload else PAGES,
            )  # fmt: skip
            if "{" in payload or "<svg" in payload:
                files |= {f"season/{name}": page for name, page in
                          season_pack(counted_season(bags, payload), house).items()}  # fmt: skip
            sheet = text_of(files["player-sheet.pdf"])
            assert "".join(payload.split()) in "".join(sheet.split()), payload
            for name, content in files.items():
                assert b"CANARY-4711" not in content, name
                if name.endswith(".pdf"):
                    assert "CANARY-4711" not in text_of(content)
                    assert b"root:x:" not in content
    assert seen == []


@pytest.mark.parametrize("template", [
    '#image("/etc/hostname")',
    '#read("/etc/passwd")',
    '#read("../../etc/passwd")',
    '#import "@preview/example:0.1.0": *',
    '#include "/etc/passwd"',
    '#eval("read(\\"/etc/passwd\\")")',
    "#let m = dictionary(std)",
    '#plugin("x.wasm")',
    '#image("http://127.0.0.1/x.png")',
    "#nonsense(",
])  # fmt: skip
def test_a_template_reaches_nothing_outside(template, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(BadInput) as refused:
        typeset(template, {"title": "x"})
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 600


def test_a_house_may_use_its_own_templates(fourteen, tmp_path):
    (tmp_path / "player-sheet.typ").write_text("= Ours\n#data.title #for club in data.clubs [(#club.name) ]")
    found = text_of(player_sheet(fourteen, (), House(templates=tmp_path)))
    assert found.startswith("Ours Tessler before the Ravelin Cup (driver) (3 wood)")


def test_a_page_template_of_the_house_is_sandboxed(fourteen, tmp_path):
    from asplayed.telling.sheet import set_sheet

    (tmp_path / "set-sheet.html").write_text("<p>{{ title }}</p>")
    assert set_sheet(fourteen, (), House(templates=tmp_path)) == "<p>Tessler before the Ravelin Cup</p>"
    for attempt in ("{{ title.__class__.__mro__ }}", "{{ golf_set.clubs.append(1) }}", "{{ nobody }}", "{% if %}",
                    "{% include '../secret.html' %}"):  # fmt: skip
        (tmp_path / "set-sheet.html").write_text(attempt)
        with pytest.raises(BadInput, match=r"set-sheet\.html"):
            set_sheet(fourteen, (), House(templates=tmp_path))


def test_the_same_set_gives_the_same_bytes(one, findings):
    assert all_three(one, findings) == all_three(one, findings)


def test_the_documents_are_made_for_readers_who_listen(one, bare):
    """They claim PDF/UA-1 (ISO 14289-1), which the typesetter checks, and name their language."""
    nameless = replace(one, set=replace(one.set, title="\x00"))
    for golf_set in (one, bare, nameless):
        for content in all_three(golf_set).values():
            catalogue = opened(content).trailer["/Root"]
            assert b"pdfuaid:part" in catalogue["/Metadata"].get_data()
            assert catalogue["/MarkInfo"]["/Marked"]
            assert catalogue["/Lang"].startswith("en")
            assert opened(content).metadata.title


def test_the_machines_own_fonts_are_not_looked_at(one):
    before = os.environ.get("TYPST_FONT_PATHS")
    assert before is None
    plain = replace(one, set=replace(one.set, title="東京"))
    assert all_three(plain)["player"]  # a script we have no font for is set, not fetched


def test_the_words_to_be_said_stand_with_the_figure_they_are_of(fourteen, findings):
    told = explain(fourteen, findings)
    for said in told.sentences:
        assert "".join(heard for heard, _ in said.pieces) == said.said
        for heard, printed in said.pieces:
            assert not printed or (printed in said.text and not any(letter.isdigit() for letter in heard))
    sheet = " ".join(text_of(cue_sheet(fourteen, told, cues(told, fourteen, 150))).replace("\xa0", " ").split())
    assert "fifty-seven degrees [57°]" in sheet
    assert "the fourth of October twenty twenty-six" in sheet


def test_scripts_of_the_world_print_as_letters(fourteen):
    """Words of each script come out of the PDF as they went in, and PDF/UA is not lost for want of a glyph."""
    name = "Ελλη Русь علي דוד 日本語 さくら 한국어 हिन्दी ไทย தமிழ் ქართ አማርኛ"
    golf_set = replace(fourteen, set=replace(fourteen.set, player=name, title=None))
    sheet = player_sheet(golf_set, ())
    assert b"pdfuaid" in sheet
    for word in ("日本語", "さくら", "한국어", "ไทย", "አማርኛ"):
        assert word in text_of(sheet)


def test_what_no_font_has_is_said_on_the_sheet(fourteen):
    golf_set = replace(fourteen, set=replace(fourteen.set, player="Ada \U0001f3cc"))
    for content in all_three(golf_set).values():
        assert "golfer (U+1F3CC)" in text_of(content)
    assert "No font here" not in text_of(player_sheet(fourteen, ()))


def test_a_comparison_of_two_players_stays_short_and_says_what_each_lacks(fourteen, left_handed):
    from asplayed.telling.comparing import compared, comparison

    fewer = replace(left_handed, clubs=left_handed.clubs[1:])
    told = compared(fewer, fourteen)
    report = comparison(fewer, fourteen, told)
    rows = [row for part in report.sections for table in part.tables for row in table.rows]
    assert [row for row in rows if row[0] == "driver"] == [
        ("driver", "the club", "not in the set", "Harrowmere Kittiwake, 10.5°")
    ]
    sheet = text_of(report_sheet(report, (), House()))
    assert "Mireille Okafor" in sheet
    assert "not in the set" in sheet
