"""Basic major diameters of Unified threads as people write them: screw numbers, fractions and decimals of an inch.

ASME B1.1-2003, clause on designation.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from ..quantities import NotUnderstood, UnknownName
from ..quantities.keeper import remembered
from ..quantities.rounding import half_even

#: Number of a screw size n -> 0.060 + 0.013 n inch.
_NUMBERS = (0, 1, 2, 3, 4, 5, 6, 8, 10, 12)
GREATEST = Decimal(6)


@remembered(4096)
def diameters(written: str, listed: tuple[Decimal, ...] = ()) -> list[Decimal]:
    """Return the basic major diameters that a written size may mean, in inch to four decimals, the likeliest first.

    `8` may be a screw number or inches; `.312` may be the rounded 0.3125 of a listed one.

    Raises:
        NotUnderstood: a fraction that is none.
        UnknownName: no such screw number.
    """
    text = written.replace(",", ".").strip()
    if text.startswith("#"):
        return [_numbered(int(text[1:]))]
    if "/" in text:
        return [_fraction(text)]
    if "." in text:
        given = Decimal(text)
        return [*_rounded_as(given, listed), given.quantize(Decimal("0.0001"))]
    whole = int(text)
    inches = [Decimal(whole).quantize(Decimal("0.0001"))]
    return [*([_numbered(whole)] if whole in _NUMBERS else []), *(inches if 1 <= whole <= GREATEST else [])] or inches


def _numbered(number: int) -> Decimal:
    if number not in _NUMBERS:
        raise UnknownName(
            f"there is no screw number #{number}",
            member="designation",
            code="unknown_size",
            nearest=[f"#{known}" for known in sorted(_NUMBERS, key=lambda known: abs(known - number))[:3]],
        )
    return (Decimal("0.060") + number * Decimal("0.013")).quantize(Decimal("0.0001"))


def _fraction(text: str) -> Decimal:
    whole, _, rest = text.replace("-", " ").partition(" ") if " " in text or "-" in text else ("0", "", text)
    top, bottom = rest.replace(" ", "").split("/")
    if int(bottom) == 0:
        raise NotUnderstood(f"{text!r} divides by zero", member="designation")
    value = int(whole) + Fraction(int(top), int(bottom))
    return half_even(Decimal(value.numerator) / Decimal(value.denominator), "0.0001")


def _rounded_as(given: Decimal, listed: tuple[Decimal, ...]) -> list[Decimal]:
    """Return the listed diameters that the given three-decimal figure is rounded from, ties either way."""
    decimals = -int(given.as_tuple().exponent)
    if decimals < 3:
        return []
    half = Decimal(5).scaleb(-decimals - 1)
    return [d for d in listed if d != given and abs(d - given) <= half]


@remembered(4096)
def diameter_name(d: Decimal) -> str:
    """Return #8, 1/4, 1 1/2 or, where it is no such size, 0.2400."""
    for number in _NUMBERS:
        if d == Decimal("0.060") + number * Decimal("0.013"):
            return f"#{number}"
    for denominator in (1, 2, 4, 8, 16, 32, 64):
        top = int((d * denominator).to_integral_value())
        if half_even(Decimal(top) / denominator, "0.0001") == d:
            whole, rest = divmod(top, denominator)
            return " ".join([str(whole)] * bool(whole or not rest) + [f"{rest}/{denominator}"] * bool(rest))
    return str(d)
