"""Prices and purses: one currency, every fault named with its row."""

from __future__ import annotations

import pytest

from asplayed.choosing.prices import Money, money, read_prices
from asplayed.errors import BadInput


@pytest.mark.parametrize(
    ("text", "value", "currency"),
    [("400 EUR", 400, "EUR"), ("€400", 400, "EUR"), ("12,50 eur", 12.5, "EUR"), ("£ 80", 80, "GBP"), ("$9", 9, "$")],
)
def test_money_is_read(text: str, value: float, currency: str) -> None:
    assert money(text) == Money(value, currency)


@pytest.mark.parametrize("text", ["400", "EUR", "", "400 EUR USD", "-5 EUR", "a lot", "EUR 400 EUR"])
def test_a_purse_without_a_currency_is_refused(text: str) -> None:
    with pytest.raises(BadInput, match="400 EUR"):
        money(text)


def test_a_table_names_its_currency_once_or_in_every_cell() -> None:
    assert read_prices("item,price [EUR]\nOskell Dunlin,90\n").by_name == {"oskell dunlin": 90}
    told = read_prices('price,item\n"90 EUR",Oskell Dunlin\n8 EUR,bend\n')
    assert told.currency == "EUR" and told.by_name["bend"] == 8


@pytest.mark.parametrize(
    ("table", "words"),
    [
        ("", "its columns are item and price"),
        ("part,cost\nx,3\n", "its columns are item and price"),
        ("item,price [EUR]\nbend\n", "row 2: it has no price"),
        ("item,price [EUR]\nbend,dear\n", "row 2: 'dear' is no price"),
        ("item,price\nbend,8\n", "row 2: '8' is no price"),
        ("item,price [EUR]\nbend,8\nbend,9\n", "row 3: 'bend' has another price"),
        ("item,price\nbend,8 EUR\nhead,9 USD\n", "in EUR and USD"),
        ("item,price [EUR]\n", "has no price"),
    ],
)
def test_a_faulty_table_is_refused_with_its_row(table: str, words: str) -> None:
    with pytest.raises(BadInput, match=words):
        read_prices(table)
