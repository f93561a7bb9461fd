"""Gauges for screw threads: limits when new, wear limits, and how each is applied."""

from .catalogue import gauge_sizes
from .gauge import Gauge, GaugeDimension, GaugeSet, NotHeld

__all__ = ["Gauge", "GaugeDimension", "GaugeSet", "NotHeld", "gauge_sizes"]
