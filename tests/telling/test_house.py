"""House styles: what may be chosen is taken, what cannot be is refused by name."""

from __future__ import annotations

import pytest

from asplayed.errors import BadInput
from asplayed.telling.house import contrast, house_style

PNG = (
    b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x06\x00\x00\x00\x1f\x15\xc4\x89"
    b"\x00\x00\x00\rIDATx\x9cc\xf8\xff\xff?\x03\x00\x08\xfc\x02\xfe\xa7\x9a\xa0\xa0\x00\x00\x00\x00IEND\xaeB`\x82"
)


def style(tmp_path, text: str):
    path = tmp_path / "house.toml"
    path.write_text(text, encoding="utf-8")
    return house_style(path)


def test_a_whole_style(tmp_path):
    (tmp_path / "mark.png").write_bytes(PNG)
    house = style(tmp_path, 'name = "Estow Workshop"\naccent = "#0B4F6C"\nlogo = "mark.png"\nspelling = "american"\n'
                  'words_per_minute = 165\npaper = "letter"\nlarge_print = true\n'
                  '[say]\nOkafor = "oh-KAH-for"\n')  # fmt: skip
    assert house.name == "Estow Workshop"
    assert house.accent == "#0b4f6c"
    assert house.logo == ("logo.png", PNG)
    assert (house.spelling, house.words_per_minute, house.paper, house.large_print) == ("american", 165, "letter", True)
    assert house.say == (("Okafor", "oh-KAH-for"),)


def test_the_logo_and_the_name_are_on_the_sheet(tmp_path, one):
    import io

    from PIL import Image
    from pypdf import PdfReader

    from asplayed.telling.documents import player_sheet

    Image.new("RGB", (40, 20), "#0b4f6c").save(tmp_path / "mark.png")
    house = style(tmp_path, 'name = "Estow Workshop"\nlogo = "mark.png"\n')
    page = PdfReader(io.BytesIO(player_sheet(one, (), house))).pages[0]
    assert "Estow Workshop" in page.extract_text()
    assert len(page.images) == 1


@pytest.mark.parametrize(("text", "words"), [
    ("name = ", "cannot be read as a house style"),
    ("colour = 3", "a house style has no 'colour'; it has name, accent"),
    ("name = 3", "name cannot be 3"),
    ("words_per_minute = true", "words_per_minute cannot be True"),
    ('accent = "blue"', "is not a colour; write it as #0b4f6c"),
    ('accent = "#ffff00"', "stands out from white paper only 1.1 to 1"),
    ('paper = "a3"', "paper is 'a3'; it can be a4 or letter"),
    ('spelling = "french"', "it can be british or american"),
    ("words_per_minute = 5", "it lies from 60 to 300"),
    ("# " + "x" * 100_001, "larger than a house style"),
    ("[say]\nAda = 3", "write how it is spoken"),
    ('logo = "none.png"', "cannot be read"),
    ('logo = "../../etc/passwd"', "must lie beside the house style"),
    ('logo = "/etc/passwd"', "must lie beside the house style"),
    ('logo = "house.toml"', "is neither PNG nor JPEG"),
])  # fmt: skip
def test_what_cannot_be_is_refused_by_name(text, words, tmp_path):
    with pytest.raises(BadInput) as refused:
        style(tmp_path, text)
    assert words in str(refused.value)


def test_a_missing_style_is_refused(tmp_path):
    with pytest.raises(BadInput, match="there is no house style"):
        house_style(tmp_path / "nowhere.toml")


def test_contrast_is_that_of_the_guidelines():
    # WCAG 2.2: black on white is 21:1; #767676 on white is the lightest grey that passes 4.5:1 (understanding 1.4.3)
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")
