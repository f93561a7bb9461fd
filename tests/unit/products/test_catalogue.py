"""Which products are held."""

import re

import pytest

from boltwright_server.products import find_product, products
from boltwright_server.products.product import Options
from boltwright_server.quantities import UnknownName
from boltwright_server.standards import BadFacts

HELD = (
    "4014 4016 4017 4018 4026 4027 4028 4029 4032 4033 4034 4035 4161 4162 4762 7040 7042 7089 7090 7091 7092 7093-1 "
    "7380-1 8673 8674 8675 8676 8765 10642 15071"
)


def test_the_metric_catalogue() -> None:
    held = {product.id for product in products()}
    assert {f"ISO {number}" for number in HELD.split()} <= held


def test_every_product_has_sizes_and_classes() -> None:
    for product in products():
        assert product.size_keys(), product.id
        assert product.classes is not None, product.id


def test_nut_styles_come_from_the_standards() -> None:
    """ISO 4032, 4034, 8673: style 1; ISO 4033, 8674: style 2; ISO 4035, 8675: thin, 0. Titles of the standards."""
    styles = {"ISO 4032": 1, "ISO 4033": 2, "ISO 4034": 1, "ISO 4035": 0, "ISO 8673": 1, "ISO 8674": 2, "ISO 8675": 0}
    assert {id: find_product(id).nut_style(None) for id in styles} == styles
    assert find_product("ISO 4161").nut_style("8") == 1
    assert find_product("ISO 4161").nut_style("10") == 2
    assert find_product("ISO 4014").nut_style("8.8") is None


def test_an_unknown_product_comes_with_the_nearest() -> None:
    with pytest.raises(UnknownName) as refused:
        find_product("ISO 4035X")
    assert "ISO 4035" in refused.value.nearest


@pytest.mark.parametrize(
    ("entry", "told"), [({"stile": 1}, "'stile'"), ({"style": "1"}, "'style'"), ({"grade": 1}, "'grade'")]
)
def test_a_misspelt_option_is_refused_with_its_place(entry: dict[str, object], told: str) -> None:
    with pytest.raises(BadFacts, match=re.escape("x/standard.toml, product 1: ")) as refused:
        Options.of(entry, "x/standard.toml, product 1")
    assert told in str(refused.value)
