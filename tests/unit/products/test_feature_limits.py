"""The rules of the product grades against every figure of the product tables that has one."""

import csv
from collections.abc import Iterator
from decimal import Decimal

import pytest
from published_values.check import PUBLISHED

from boltwright_server.products import find_product
from boltwright_server.products.feature_limits import FEATURES, Asked, class_limits, feature_limits
from boltwright_server.products.product import size_of
from boltwright_server.quantities import NotCovered, NotUnderstood, UnknownName
from boltwright_server.quantities.rounding import half_up

FOLDERS = {
    "ISO 4014": "iso_4014_2011",
    "ISO 4016": "iso_4016_2011",
    "ISO 8765": "iso_8765_2011",
    "ISO 4032": "iso_4032_2012",
    "ISO 4033": "iso_4033_2012",
    "ISO 4034": "iso_4034_2012",
    "ISO 4035": "iso_4035_2012",
    "ISO 8674": "iso_8674_2012",
    "ISO 7089": "iso_7089_2000",
    "ISO 7091": "iso_7091_2000",
    "ISO 7093-1": "iso_7093_1_2000",
}
#: Symbol -> column of the product table that the rule starts from; d is the thread diameter.
START = {"s": "s_max", "e": "s_max", "dw": "s_max", "k": "k_nom", "kw": "k_nom", "ds": "d", "m": "m_max", "mw": "m_max"}
WASHER = {"d1": "d1_min", "d2": "d2_max", "h": "h_nom"}
#: Nuts print these to 0.1 mm; washer faces from the figure to 0.01.
TENTHS = ("mw", "dw")


def cells(product: str) -> Iterator[tuple[dict[str, str], str, str]]:
    with (PUBLISHED / FOLDERS[product] / "product_dimensions.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            symbol, _, side = row["symbol"].partition("_")
            if symbol in START | WASHER and side in ("min", "max") and row["rule"] != "-":
                yield row, symbol, side


@pytest.mark.parametrize("product", FOLDERS)
def test_every_cell_that_has_a_rule(product: str) -> None:
    held = find_product(product)
    ids = {feature.symbol: id for id, feature in FEATURES.items()}
    counted = 0
    for row, symbol, side in cells(product):
        size = size_of(row["thread"])
        table = held.row(size)
        start = (START | WASHER)[symbol]
        nominal = size.d if start == "d" else table.number(start)
        beside = table.number("h_nom") if symbol in WASHER else size.d if symbol in ("m", "mw") else None
        found = getattr(feature_limits(ids[symbol], Asked(row["grade"][0], nominal, beside)), side)
        if symbol in TENTHS and held.member == "internal":
            least = feature_limits("nut_height", Asked(row["grade"], nominal, beside)).min if symbol == "mw" else found
            found = half_up(least * Decimal("0.8") if symbol == "mw" else least, "0.1")
        assert found == Decimal(row["rule"]), row
        counted += 1
    assert counted > 50


def test_a_size_that_no_table_lists() -> None:
    """ISO 4759-1: s = 17 of grade A is h13; IT13 over 10 up to 18 is 0.27. e min 1.13 x 16.73 = 18.9049."""
    flats = feature_limits("width_across_flats", Asked("A", Decimal(17)))
    assert (flats.min, flats.max) == (Decimal("16.73"), Decimal(17))
    assert feature_limits("width_across_corners", Asked("A", Decimal(17))).min == Decimal("18.90")


def test_an_iso_286_class() -> None:
    """ISO 286-2:2010: 20 D12 is 20.065 to 20.275; one reproduction and formula."""
    limits = class_limits("D12", Decimal(20))
    assert (limits.min, limits.max) == (Decimal("20.065"), Decimal("20.275"))


@pytest.mark.parametrize(
    ("feature", "asked", "error"),
    [
        ("colour", Asked("A", Decimal(10)), UnknownName),
        ("width_across_flats", Asked("D", Decimal(10)), NotUnderstood),
        ("nut_height", Asked("A", Decimal(10)), NotUnderstood),
        ("outer_diameter", Asked("A", Decimal(10)), NotUnderstood),
        ("head_height", Asked("A", Decimal(501)), NotCovered),
        ("outer_diameter", Asked("B", Decimal(10), Decimal(2)), NotCovered),
    ],
)
def test_what_has_no_rule(feature: str, asked: Asked, error: type[Exception]) -> None:
    with pytest.raises(error):
        feature_limits(feature, asked)
