"""What the derivations of ASME gages share: a size with its tolerance to one side, and the deviations of class X.

ASME B1.2-1983 and ASME B1.16M-1984, rules for the size of each gage.
"""

from __future__ import annotations

from ..quantities.derivation import Derivation, Rounding
from .asme_gages import ClassX
from .gauge import GaugeDimension, GaugeSet

_DEVIATIONS = {"lead_deviation": "dP", "half_angle_deviation": "da_2"}


def add_class_x(work: Derivation, x: ClassX) -> None:
    """Make the tolerances of class X known."""
    work.given("X_pitch", x.row.number(x.pitch), x.unit, x.row.basis(x.pitch))
    work.given("X_crest", x.row.number(x.crest), x.unit, x.row.basis(x.crest))


def dimension_of(found: GaugeSet, gauge: str, dimension: str) -> GaugeDimension:
    """Return one dimension of one gauge of a set."""
    return next(one for one in found.gauges if one.id == gauge).dimensions[dimension]


def add_gage(
    work: Derivation, symbol: str, at: str, into: str, rounding: Rounding, one: GaugeDimension, path: str
) -> None:
    """Add a gage of size `at`, its tolerance in one direction; a GO gage is worn out at its size."""
    near, far = ("max", "min") if into.startswith("-") else ("min", "max")
    work.step(symbol, at, one.unit, one.basis, rounding, f"{path}.{near}")
    work.step(f"{symbol}_{far}", f"{symbol} {into}", one.unit, one.basis, answers=f"{path}.{far}")
    if one.wear_limit is not None:
        worn = one.wear_basis or one.basis
        work.step(f"{symbol}_worn", symbol, one.unit, worn, answers=f"{path}.wear_limit", note="the product limit")


def add_deviations(work: Derivation, found: GaugeSet, x: ClassX) -> None:
    """Add the permissible deviations of lead and half angle: the tabulated number to both sides."""
    for gauge in found.gauges:
        for dimension, symbol in _DEVIATIONS.items():
            one = gauge.dimensions.get(dimension)
            if one is not None:
                path = f"gauges.{gauge.id}.dimensions.{dimension}"
                work.given(symbol, x.row.number(dimension), one.unit, x.row.basis(dimension))
                work.step(f"{symbol}_min", f"-{symbol}", one.unit, one.basis, answers=f"{path}.min")
                work.step(f"{symbol}_max", symbol, one.unit, one.basis, answers=f"{path}.max")
