"""Screw threads: every system answers the same questions (which sizes, which limits, why)."""

from .iso_metric import MetricSize, ToleranceClass, find_size, sizes
from .iso_metric_limits import ThreadLimits, limits
from .stress_area import nominal_stress_area

__all__ = [
    "MetricSize",
    "ThreadLimits",
    "ToleranceClass",
    "find_size",
    "limits",
    "nominal_stress_area",
    "sizes",
]
