"""Screw threads: every system answers the same questions (which sizes, which limits, why)."""

from .fit import ThreadFit, thread_fit
from .iso_metric import MetricSize, ToleranceClass, find_size, sizes
from .stress_area import nominal_stress_area
from .systems import (
    ISO_METRIC,
    SYSTEMS,
    UNIFIED_INCH,
    ThreadClass,
    ThreadSize,
    ThreadSystem,
    classes,
    find_class,
    limits,
    limits_derivation,
    metric,
    system_of,
)
from .thread_limits import Member, ThreadLimits
from .unified import UnifiedClass, UnifiedSize

__all__ = [
    "ISO_METRIC",
    "SYSTEMS",
    "UNIFIED_INCH",
    "Member",
    "MetricSize",
    "ThreadClass",
    "ThreadFit",
    "ThreadLimits",
    "ThreadSize",
    "ThreadSystem",
    "ToleranceClass",
    "UnifiedClass",
    "UnifiedSize",
    "classes",
    "find_class",
    "find_size",
    "limits",
    "limits_derivation",
    "metric",
    "nominal_stress_area",
    "sizes",
    "system_of",
    "thread_fit",
]
