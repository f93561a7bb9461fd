"""Gauges for screw threads: limits when new, wear limits, and how each is applied."""

from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld
from .iso_1502 import gauge_sizes

__all__ = ["Gauge", "GaugeDimension", "GaugeSet", "NotHeld", "gauge_sizes"]
