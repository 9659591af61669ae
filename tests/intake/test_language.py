"""A list in another language is refused in one sentence; English ones, whatever their names, are not."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

import scoring

from asplayed.errors import BadInput
from asplayed.intake import read
from asplayed.intake.language import other_language

FOREIGN = {
    "German": "Hallo, hier die Liste von Jonas: Eisen 4 bis PW mit Stahlschäften, Driver mit 10,5 Grad, Putter 34 "
    "Zoll. Danke und bis bald!",
    "French": "Voici le sac de Jonas : un driver de 10,5 degrés avec une tige de 60 g, les fers 4 à 9 et trois wedges "
    "pour les approches.",
    "Spanish": "Esta es la bolsa de Jonas: el driver de 10,5 grados con una varilla de 60 g, los hierros del 4 al 9 y "
    "el putter de 34 pulgadas.",
    "another script": "ドライバー 十度 シャフト 硬い アイアン 四番 から ウェッジ まで パター 三十四 インチ です",
}


@pytest.mark.parametrize("language", FOREIGN)
def test_another_language_is_named(language: str) -> None:
    with pytest.raises(BadInput, match=f"seems to be in {language}; lists are read in English"):
        read(FOREIGN[language])


def test_no_english_list_of_the_corpus_is_called_foreign() -> None:
    folders = (scoring.CORPUS, scoring.CORPUS.parent / "second_author")
    for path in (file for folder in folders for file in sorted(folder.glob("*.txt"))):
        for case in scoring.cases(path):
            assert other_language(case.text) is None, case.name
