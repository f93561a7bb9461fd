"""Nominal tensile stress area of a thread of any system, with its basis."""

from __future__ import annotations

from ..quantities import Bounds
from ..standards import rules
from ..threads import MetricSize, ThreadSize
from ..threads.stress_area import nominal_stress_area as metric_area
from ..threads.unified_stress_area import nominal_stress_area as unified_area


def stress_area(size: ThreadSize) -> Bounds:
    """Return As,nom in mm2 or in2.

    ISO 898-1:2013, clause 9.1.6.1 (three digits) or ASME B1.1-2003 (as printed).
    """
    if not isinstance(size, MetricSize):
        return unified_area(size)
    area = metric_area(size)
    return Bounds("As", area, area, "mm2", rules("ISO 898-1").clause("clause 9.1.6.1"), area)
