"""The gages of ASME B1.16M step by step.

ASME B1.16M-1984, rules for the size of each gage and class X tolerances; product limits from ISO 965-1. mm.
"""

from __future__ import annotations

from ..quantities.derivation import Derivation, Rounding, Step
from ..threads.iso_metric import MetricSize, ToleranceClass
from ..threads.iso_metric_derivation import add_limits
from .asme_b1_16m import class_x, gauge_sizes
from .asme_gages_derivation import add_class_x, add_deviations, add_gage, dimension_of

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
    add_class_x(work, x)
    for gauge, dimension, symbol, at, into in _EXTERNAL if tolerance.member == "external" else _INTERNAL:
        path = f"gauges.{gauge}.dimensions.{dimension}"
        add_gage(work, symbol, at, into, _TO_UM, dimension_of(found, gauge, dimension), path)
    add_deviations(work, found, x)
    return tuple(work.steps)
