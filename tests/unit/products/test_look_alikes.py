"""Former standards: what is said of the differences is what both tables say, where both are held."""

from decimal import Decimal

import pytest

from boltwright_server.products import LookAlike, find_product, look_alike_in, look_alikes
from boltwright_server.products.look_alikes import differences, told
from boltwright_server.standards import standard

_LIMITS = {"max": "max", "min": "min", "nom": "nominal"}


def _both_hold(one: LookAlike, size: str, column: str) -> bool:
    rows = [None if product is None else product.table.find(size) for product in (one.held, one.partner(size))]
    return all(row is not None and row.cells.get(column) is not None for row in rows)


def test_the_listed_differences_are_those_of_the_tables() -> None:
    """Former figures of the list beside the former tables that are held since."""
    listed = standard("former_standards_withdrawn").table("differences").rows.items()
    compared = 0
    for one in look_alikes():
        if one.held is None:
            continue
        by_limit = {(found.size, found.symbol, found.limit): found.former for found in differences(one)}
        for (former, size, column), row in listed:
            symbol, _, limit = str(column).partition("_")
            if former == one.former and _both_hold(one, str(size), str(column)):
                assert by_limit[str(size), symbol, _LIMITS[limit]] == row.number("value"), (former, size, column)
                compared += 1
    assert compared > 80


@pytest.mark.parametrize(
    ("designation", "size", "words"),
    [
        ("DIN 963", "M5", "head diameter dk 9.2 mm against 9.3 mm"),  # the trap of libraries that mix the two heads
        ("DIN 7985", "M3", "head diameter dk 6 mm against 5.6 mm"),
        ("DIN 6914", "M24", "thread length b 34 mm against 39 mm"),
        ("DIN 9021", "M18", "inner diameter d1 min 20 mm against 19.00 mm"),
        ("DIN 934", "M39", "nut height m 31 mm against 33.40 mm"),
    ],
)
def test_differences_of_tables_that_are_both_held(designation: str, size: str, words: str) -> None:
    found = look_alike_in(designation)
    assert found is not None
    assert words in told(found, size)


def test_a_recalled_figure_is_not_compared() -> None:
    """Heights of ISO 7042 are memory: of DIN 980 only the width and the corners are told."""
    found = look_alike_in("DIN 980")
    assert found is not None
    assert {one.symbol for one in differences(found, "M12")} == {"s", "e"}
    assert find_product("ISO 7042").table.find("M12") is not None


def test_a_size_beyond_the_former_table_that_is_held_is_told_by_the_list() -> None:
    """DIN 125 is held up to M36; at M42 a hole of 43 against 45 mm was read once."""
    found = look_alike_in("DIN 125")
    assert found is not None
    assert {one.symbol: one.former for one in differences(found, "M42")} == {"d1": Decimal(43), "h": Decimal(7)}
