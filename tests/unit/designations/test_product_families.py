"""Designations beyond hexagon bolts and nuts: washers, set screws, inch products, stainless classes."""

from decimal import Decimal

import pytest

from boltwright_server.designations import parse_product
from boltwright_server.designations.sizes import inches, length_text, size_in
from boltwright_server.products import find_product
from boltwright_server.quantities import Contradiction, NotUnderstood, Refusal, UnknownName


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("ISO 7089 - 10 - 200 HV", "ISO 7089 - 10 - 200 HV"),
        ("iso7089-10-200hv", "ISO 7089 - 10 - 200 HV"),
        ("DIN EN ISO 7089 - M10 - 200HV", "ISO 7089 - 10 - 200 HV"),
        ("ISO 7091 3,5 100 HV", "ISO 7091 - 3.5 - 100 HV"),
        ("ISO 7093-1 - 20 - 300 HV", "ISO 7093-1 - 20 - 300 HV"),
        ("ISO 7093-1-20-300HV", "ISO 7093-1 - 20 - 300 HV"),
        ("ISO 4026 - M6x20 - 45H", "ISO 4026 - M6x20 - 45H"),
        ("iso 4029 M8x10 45h", "ISO 4029 - M8x10 - 45H"),
        ("ISO 7380-1 - M10x20 - 010.9", "ISO 7380-1 - M10x20 - 010.9"),
        ("ISO 4014 - M10x60 - a2-70", "ISO 4014 - M10x60 - A2-70"),
        ("ISO 4035 - M10 - 05", "ISO 4035 - M10 - 05"),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5", "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"),
        (
            "asme b18.2.1 Hexagon Cap Screw 1/2-13 UNC x 1 1/2 SAE J429 Grade 8",
            "ASME B18.2.1 hex cap screw - 1/2-13x1-1/2 - SAE J429 8",
        ),
        ("ANSI/ASME B18.2.1 heavy hex bolt 3/4-10x4 SAE J429 2", "ASME B18.2.1 heavy hex bolt - 3/4-10x4 - SAE J429 2"),
        ("inch threaded rod 2-4 1/2 UNCx24 ASTM A193 B7", "inch threaded rod - 2-4.5x24 - ASTM A193 B7"),
        ("inch threaded rod - 2 1/4-4.5x24 - SAE J429 2", "inch threaded rod - 2 1/4-4.5x24 - SAE J429 2"),
        ("ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5", "ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5"),
        ("ASME B18.2.2 heavy hex nut - 1 1/8-7 - ASTM A563 DH", "ASME B18.2.2 heavy hex nut - 1 1/8-7 - ASTM A563 DH"),
        (
            "ASME B18.3 socket head cap screw - #10-24x.75 - ASTM A574",
            "ASME B18.3 socket head cap screw - #10-24x3/4 - ASTM A574",
        ),
    ],
)
def test_spellings(text: str, canonical: str) -> None:
    """The designations of the contract, and how the trade writes them."""
    assert parse_product(text).canonical == canonical
    assert parse_product(canonical).canonical == canonical


@pytest.mark.parametrize(
    ("text", "error", "code"),
    [
        ("ISO 7089 - 10 - 8.8", UnknownName, "unknown_property_class"),
        ("ISO 7089 - 10x20 - 200 HV", NotUnderstood, "not_understood"),
        ("ISO 4026 - M6 - 45H", NotUnderstood, "length_missing"),
        ("ASME B18.2.1 - 1/2-13x2", UnknownName, "unknown_standard"),
        ("ASME B18.2.1 hex cap screw - 1/2-13", NotUnderstood, "length_missing"),
        ("ASME B18.2.2 hex nut - 1/2-13x2", NotUnderstood, "no_length"),
        ("ASME B18.2.1 hex cap screw - 1/2-13x1-1/3", NotUnderstood, "not_understood"),
        ("ASME B18.2.1 hex cap screw - 1/2-17x2", UnknownName, "unknown_size"),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J995 5", Contradiction, "contradiction"),
        ("ISO 4014 - 1/2x60 - 8.8", Contradiction, "contradiction"),
        ("ISO 4014 - M10x60 - 200 HV", UnknownName, "unknown_property_class"),
        ("DIN 961 - M10x1.25x60 - 8.8", UnknownName, "former_standard"),
        ("DIN 433 - 10,5 - 140 HV", UnknownName, "former_standard"),
        ("DIN 125 - B 10,5 - 140 HV", NotUnderstood, "not_understood"),
        ("DIN 125 - A 10,6 - 140 HV", UnknownName, "unknown_size"),
        ("ISO 7089 - A 10,5 - 200 HV", NotUnderstood, "not_understood"),
    ],
)
def test_what_is_no_product(text: str, error: type[Refusal], code: str) -> None:
    with pytest.raises(error) as refused:
        parse_product(text)
    assert refused.value.code == code


def test_the_products_of_an_inch_standard_are_the_nearest_of_its_bare_number() -> None:
    with pytest.raises(UnknownName) as refused:
        parse_product("ASME B18.2.1 - 1/2-13x2")
    assert "ASME B18.2.1 hex cap screw" in refused.value.nearest
    assert "ASME B18.2.1 heavy hex bolt" in refused.value.nearest


@pytest.mark.parametrize(
    ("text", "threads", "position"),
    [
        ("ASME B18.2.2 hex nut - 1/4 - SAE J995 2", ("1/4-20", "1/4-28"), 23),
        ('ASME B18.2.1 hex bolt - 1 1/2" x 3 - SAE J429 1', ("1 1/2-6", "1 1/2-12"), 24),
        ("ASME B18.3 socket head cap screw - #8x1 - ASTM A574", ("#8-32", "#8-36"), 35),
    ],
)
def test_an_inch_size_without_its_pitch_is_told_its_threads(text: str, threads: tuple[str, ...], position: int) -> None:
    """ASME B1.1-2003, Table 1: UNC and UNF of the diameter."""
    with pytest.raises(NotUnderstood, match="name the threads per inch") as refused:
        parse_product(text)
    assert refused.value.nearest == threads
    assert refused.value.position == position


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2", "2"),
        ("2.5", "2.5"),
        ("3/4", "0.75"),
        ("1-1/2", "1.5"),
        ("1 1/2", "1.5"),
        (".25", "0.25"),
        ('2"', "2"),
        ("2 in", "2"),
    ],
)
def test_inches(text: str, value: str) -> None:
    assert inches(text) == Decimal(value)


@pytest.mark.parametrize("text", ["", "x", "1/0", "1/3", "1//2", "-1", "1-", "1e3"])
def test_what_is_no_length_in_inch(text: str) -> None:
    with pytest.raises(NotUnderstood):
        inches(text)


@pytest.mark.parametrize(
    ("value", "text"), [("2", "2"), ("0.75", "3/4"), ("1.5", "1-1/2"), ("2.03125", "2-1/32"), ("1.1", "1.1")]
)
def test_lengths_in_inch_are_written_as_fractions(value: str, text: str) -> None:
    product = find_product("ASME B18.2.1 hex bolt")
    assert length_text(product, Decimal(value)) == text
    assert inches(text) == Decimal(value)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("DIN 933 - M10x60 - 8.8", "M10"),
        ("DIN 961 M10x1.25x60", "M10x1.25"),
        ("DIN 934 M10 x 1,25", "M10x1.25"),
        ("DIN 933 M8x16", "M8"),
        ("DIN 125 A 10,5", None),
    ],
)
def test_the_size_that_a_text_mentions(text: str, size: str | None) -> None:
    assert size_in(text) == size


@pytest.mark.parametrize(("hole", "size"), [("10,5", "10"), ("10.5", "10"), ("6.4", "6"), ("13", "12"), ("37", "36")])
def test_a_former_washer_is_designated_by_form_and_hole(hole: str, size: str) -> None:
    """DIN 125-1:1990, Table 1: holes of M6, M10, M12 and M36 in three sources."""
    assert parse_product(f"DIN 125 - A {hole} - 140 HV").canonical == f"DIN 125 - {size} - 140 HV"
