"""Threads and products that are known by name and not held have a reason of their own (facts of the trade)."""

import pytest

from boltwright_server.designations import parse_product, parse_thread
from boltwright_server.products import products
from boltwright_server.products.not_held import not_held
from boltwright_server.quantities import NotCovered, Refusal

NAMES = (
    *(
        "Tr20x4",
        "Tr 20x4-7e",
        "R 1/2",
        "Rp 3/4",
        "G 1/2",
        "G1/2A",
        "MJ10x1.25",
        "1/4-28 UNJF-3A",
        "1/2-14 NPT",
        "NPT 1/2",
    ),
    *("W 1/2", "1/2 BSW", "Rd 20x1/8", "ST 4.8", "EG M8", "DIN 571 - 8x60", "DIN 7981 - 4,2x19", "ISO 7049 - ST4.2x16"),
    *("DIN 7504 - 4,8x19", "DIN 580 - M12", "DIN 444 - M10x80", "DIN 938 - M12x50 - 8.8", "DIN 976-1 - M12x1000 - 8.8"),
    *("DIN 6796 - 12", "DIN 471 - 20x1,2", "ISO 2338 - 6x30", "DIN 660 - 5x20", "DIN 929 - M8", "DIN 798 - M6"),
    *("DIN 315 - M8", "DIN 508 - M10x12", "DIN 7984 - M8x20 - 8.8", "DIN 979 - M12", "JIS B 1180 - M10x40"),
    *("GB/T 5782 - M10x40", "IS 1364 - M10", "UNI 5588 - M10", "BS 3692 - M10x40", "NF E 25-112 - M10x40"),
)


@pytest.mark.parametrize("name", NAMES)
def test_a_name_of_the_trade_is_told_and_not_not_understood(name: str) -> None:
    with pytest.raises(NotCovered) as refused:
        parse_product(name)
    assert "which is not held" in refused.value.detail


@pytest.mark.parametrize("name", ["Tr20x4", "MJ10x1.25", "1/4-28 UNJF-3A", "G 1/2"])
def test_a_thread_is_told_where_threads_are_asked_for(name: str) -> None:
    with pytest.raises(NotCovered):
        parse_thread(name)


def test_nothing_that_is_held_is_told_as_not_held() -> None:
    """A product that comes to be held takes its name out of the list."""
    assert [product.id for product in products() if not_held(product.id) is not None] == []


@pytest.mark.parametrize("text", ["hello", "ISO 99999 - M10", "M10-6g", "1/2-13 UNC-2A", "8.8", "", "M10x60 8.8"])
def test_other_texts_are_refused_as_before(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_product(text)
    assert not isinstance(refused.value, NotCovered)
