"""Rounding as the standards do it: in decimals, once, by a named rule."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal


def half_up(value: Decimal, quantum: str) -> Decimal:
    """Round to a multiple of `quantum` ("0.001"); ties away from zero."""
    return value.quantize(Decimal(quantum), rounding=ROUND_HALF_UP)


def half_even(value: Decimal, quantum: str) -> Decimal:
    """Round to a multiple of `quantum` ("0.001"); ties to the even digit."""
    return value.quantize(Decimal(quantum), rounding=ROUND_HALF_EVEN)


def significant(value: Decimal, digits: int, rounding: str = ROUND_HALF_EVEN) -> Decimal:
    """Round to `digits` significant digits; whole numbers come back without an exponent."""
    exponent = value.adjusted() - digits + 1
    return plain(value.quantize(Decimal(1).scaleb(exponent), rounding=rounding))


def plain(value: Decimal) -> Decimal:
    """Return the same number without a positive exponent (1.25E+5 -> 125000)."""
    exponent = value.as_tuple().exponent
    return value.quantize(Decimal(1)) if isinstance(exponent, int) and exponent > 0 else value


def shortest(value: Decimal) -> Decimal:
    """Return the number as a designation writes it: no trailing zeros, no exponent (10.0 -> 10)."""
    value = value.normalize()
    return value.quantize(Decimal(1)) if value == value.to_integral_value() else value
