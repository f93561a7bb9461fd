"""From the engines' types to the members of the wire contract."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import TypeVar, cast

import msgspec

from ...quantities import Basis, Bounds
from ...quantities.keeper import remembered
from ...quantities.units import factor
from .answers import ENCODER, BasisAnswer, BoundsAnswer

T = TypeVar("T")


def encoded(part: T) -> T:
    """Return a part of an answer that is encoded once and goes as JSON into any answer that holds such a part."""
    return cast(T, msgspec.Raw(ENCODER.encode(part)))


@remembered(4096)
def basis(source: Basis) -> BasisAnswer:
    """Return a basis as answers show it; no `note` where there is nothing to say."""
    return BasisAnswer(source.standard, source.edition, source.clause, source.method, source.checked, source.note)


def bounds(limits: Bounds, unit: str | None = None) -> BoundsAnswer:
    """Return bounds as answers show them, in `unit` if one is named. The stored limit stays what it is."""
    if unit is None or unit == limits.unit:
        return BoundsAnswer(limits.symbol, limits.min, limits.max, limits.nominal, limits.unit, basis(limits.basis))
    low, high, nominal = (in_unit(value, limits.unit, unit) for value in (limits.min, limits.max, limits.nominal))
    return BoundsAnswer(limits.symbol, low, high, nominal, unit, basis(limits.basis))


def all_bounds(limits: Mapping[str, Bounds], unit: str | None = None) -> dict[str, BoundsAnswer]:
    """Return `bounds` for each id."""
    return {id: bounds(one, unit) for id, one in limits.items()}


def in_unit(value: Decimal | None, given: str, wanted: str | None) -> Decimal | None:
    """Return a value for display in another unit, with two digits more than the stored one resolves.

    Raises:
        Contradiction, UnknownName: the units measure different things or are not known.
    """
    if value is None or wanted is None or wanted == given:
        return value
    step = 1 / factor(wanted, given)
    exact = Fraction(value) * step
    resolution = Fraction(Decimal(1).scaleb(int(value.as_tuple().exponent))) * step
    digits = max(0, 2 - _decade(resolution))
    scaled = round(exact * 10**digits)
    return Decimal(scaled).scaleb(-digits)


def _decade(number: Fraction) -> int:
    decade = 0
    while number < 1:
        number, decade = number * 10, decade - 1
    while number >= 10:
        number, decade = number / 10, decade + 1
    return decade
