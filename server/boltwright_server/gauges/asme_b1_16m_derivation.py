"""The gages of ASME B1.16M step by step.

ASME B1.16M-1984, rules for the size of each gage and class X tolerances; product limits from ISO 965-1. mm.
"""

from __future__ import annotations

from ..quantities.derivation import Derivation, Rounding, Step
from ..threads.iso_metric import MetricSize, ToleranceClass
from ..threads.iso_metric_derivation import add_limits
from .asme_b1_16m import class_x, gauge_sizes
from .asme_gages import ClassX
from .gauge import GaugeDimension, GaugeSet

_TO_UM = Rounding("half even", "0.001")
#: gauge, dimension, symbol, size of the gauge, tolerance and its direction (into the product tolerance)
_EXTERNAL = (
    ("go_screw_ring", "pitch_diameter", "D2_GO", "d2_max", "- X_pitch"),
    ("go_screw_ring", "minor_diameter", "D1_GO", "d1_max", "- X_crest"),
    ("not_go_screw_ring", "pitch_diameter", "D2_LO", "d2_min", "+ X_pitch"),
    ("not_go_screw_ring", "minor_diameter", "D1_LO", "d2_min - 0.2*P", "+ X_crest"),
)
_INTERNAL = (
    ("go_screw_plug", "major_diameter", "d_GO", "D_min", "+ X_crest"),
    ("go_screw_plug", "pitch_diameter", "d2_GO", "D2_min", "+ X_pitch"),
    ("not_go_screw_plug", "major_diameter", "d_HI", "D2_max + 0.2*P", "- X_crest"),
    ("not_go_screw_plug", "pitch_diameter", "d2_HI", "D2_max", "- X_pitch"),
)
_DEVIATIONS = {"lead_deviation": "dP", "half_angle_deviation": "da_2"}


def gauge_derivation(size: MetricSize, tolerance: ToleranceClass) -> tuple[Step, ...]:
    """Return the steps to every size of every gage; `answers` is gauges.<id>.dimensions.<id>.<end>.

    ASME B1.16M-1984, rules for the size of each gage.

    Raises:
        NotCovered, NotStandardised, UnknownName: as `asme_b1_16m.gauge_sizes`.
    """
    found, x = gauge_sizes(size, tolerance), class_x(size)
    work = Derivation(answering=False)
    add_limits(work, size, tolerance)
    work.answering = True
    work.given("X_pitch", x.row.number(x.pitch), x.unit, x.row.basis(x.pitch))
    work.given("X_crest", x.row.number(x.crest), x.unit, x.row.basis(x.crest))
    for gauge, dimension, symbol, at, into in _EXTERNAL if tolerance.member == "external" else _INTERNAL:
        path = f"gauges.{gauge}.dimensions.{dimension}"
        _sized(work, symbol, at, into, _dimension(found, gauge, dimension), path)
    _deviations(work, found, x)
    return tuple(work.steps)


def _dimension(found: GaugeSet, gauge: str, dimension: str) -> GaugeDimension:
    return next(one for one in found.gauges if one.id == gauge).dimensions[dimension]


def _sized(work: Derivation, symbol: str, at: str, into: str, one: GaugeDimension, path: str) -> None:
    """A gage of size `at`, its tolerance in one direction; a GO gage is worn out at its size."""
    near, far = ("max", "min") if into.startswith("-") else ("min", "max")
    work.step(symbol, at, "mm", one.basis, _TO_UM, f"{path}.{near}")
    work.step(f"{symbol}_{far}", f"{symbol} {into}", "mm", one.basis, answers=f"{path}.{far}")
    if one.wear_limit is not None:
        worn = one.wear_basis or one.basis
        work.step(f"{symbol}_worn", symbol, "mm", worn, answers=f"{path}.wear_limit", note="the product limit")


def _deviations(work: Derivation, found: GaugeSet, x: ClassX) -> None:
    """Permissible deviations of lead and half angle: the tabulated number to both sides."""
    for gauge in found.gauges:
        for dimension, symbol in _DEVIATIONS.items():
            one = gauge.dimensions.get(dimension)
            if one is not None:
                path = f"gauges.{gauge.id}.dimensions.{dimension}"
                work.given(symbol, x.row.number(dimension), one.unit, x.row.basis(dimension))
                work.step(f"{symbol}_min", f"-{symbol}", one.unit, one.basis, answers=f"{path}.min")
                work.step(f"{symbol}_max", symbol, one.unit, one.basis, answers=f"{path}.max")
