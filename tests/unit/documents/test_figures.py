"""Figures for people: ISO 80000-1:2009, 7.3 (groups of three, no comma between them; the sign is a minus)."""

from decimal import Decimal

import pytest

from boltwright_server.documents.figures import GROUP, signed, unit_written, written


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("16.00", "16.00"),
        ("0.015", "0.015"),
        ("1040", "1040"),
        ("46400", f"46{GROUP}400"),
        ("1220000", f"1{GROUP}220{GROUP}000"),
        ("12345.678", f"12{GROUP}345.678"),
        ("-12.5", "\u221212.5"),
        ("-0.0", "0.0"),
        ("1.2E+3", "1200"),
    ],
)
def test_digits_are_kept_and_grouped(value: str, text: str) -> None:
    assert written(Decimal(value)) == text


@pytest.mark.parametrize(("value", "text"), [("32", "+32"), ("-268", "\u2212268"), ("0", "0"), ("-0", "0")])
def test_a_deviation_carries_its_sign(value: str, text: str) -> None:
    assert signed(Decimal(value)) == text


@pytest.mark.parametrize(
    ("code", "text"), [("um", "µm"), ("mm2", "mm²"), ("Cel", "°C"), ("N", "N"), ("1", ""), (None, "")]
)
def test_units_as_people_write_them(code: str | None, text: str) -> None:
    assert unit_written(code) == text
