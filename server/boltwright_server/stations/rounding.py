"""The steps to which figures of a station are rounded: limits inwards, targets to the nearest, half to even."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal, localcontext
from fractions import Fraction

from ..quantities import NotUnderstood
from ..quantities.derivation import Rounding
from ..quantities.units import dimension, factor

#: The last digit that the trade sets and reads by unit: common practice; a request may name another.
STEPS: Mapping[str, str] = {
    "mm": "0.001",
    "um": "1",
    "in": "0.0001",
    "mm3": "0.01",
    "in3": "0.000001",
    "g": "0.001",
    "N": "10",
    "kN": "0.01",
    "lbf": "10",
    "MPa": "1",
    "ksi": "0.1",
    "N.m": "0.1",
    "J": "0.1",
    "HV": "1",
    "HBW": "1",
    "HRC": "0.1",
    "HRB": "0.1",
    "HR30N": "0.1",
    "Cel": "1",
    "%": "0.1",
    "1": "0.001",
}
_DIGITS = 15


def step_of(unit: str, own: Mapping[str, Decimal] | None = None) -> Decimal:
    """Return the step of a unit: the one that was asked for in a unit of its kind, else the usual one.

    Raises:
        NotUnderstood: the unit has no usual step, or the one asked for has no end as a decimal of this unit.
    """
    for given, step in (own or {}).items():
        if dimension(given) == dimension(unit):
            return _converted(step, given, unit)
    if unit not in STEPS:
        text = f"{unit} has no usual step: name one, as {dimension(unit)} is read on the machine"
        raise NotUnderstood(text, member="step", code="missing_member")
    return Decimal(STEPS[unit])


def _converted(step: Decimal, given: str, unit: str) -> Decimal:
    if given == unit:
        return step
    exact = Fraction(step) * factor(given, unit)
    with localcontext(prec=40):
        found = Decimal(exact.numerator) / exact.denominator
    if Fraction(found) != exact:
        text = f"a step of {step} {given} has no end in {unit}: name it in {unit}"
        raise NotUnderstood(text, member="step", code="unit_does_not_fit")
    return found.normalize()


def inwards(low: Fraction | None, high: Fraction | None, step: Decimal) -> tuple[Decimal | None, Decimal | None]:
    """Return both limits as multiples of `step`: the lower one up, the upper one down."""
    least = None if low is None else Rounding("up", str(step)).apply(low)
    return least, None if high is None else Rounding("down", str(step)).apply(high)


def shown(number: Fraction | None) -> Decimal | None:
    """Return a figure before rounding: itself where its decimals end, else its first fifteen digits."""
    if number is None:
        return None
    with localcontext(prec=30):
        whole = Decimal(number.numerator) / number.denominator
    if Fraction(whole) == number:
        whole = whole.normalize()
        return whole.quantize(Decimal(1)) if whole == whole.to_integral_value() else whole
    with localcontext(prec=_DIGITS):
        return Decimal(number.numerator) / number.denominator
