"""Gauges for screw threads: limits when new, wear limits, how each is applied, and what a measured one is worth."""

from .catalogue import GAUGE_STANDARDS, NAMES, gauge_derivation, gauge_sizes
from .condition import Condition, condition, find_gauge
from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld, Zone

__all__ = [
    "GAUGE_STANDARDS",
    "NAMES",
    "Condition",
    "Gauge",
    "GaugeDimension",
    "GaugeSet",
    "NotHeld",
    "Zone",
    "condition",
    "find_gauge",
    "gauge_derivation",
    "gauge_sizes",
]
