"""Which gauge standard answers for a thread."""

from __future__ import annotations

from ..quantities import NotCovered
from ..threads import MetricSize, ThreadClass, ThreadSize, ToleranceClass
from . import iso_1502
from .gauge import GaugeSet


def gauge_sizes(size: ThreadSize, tolerance: ThreadClass) -> GaugeSet:
    """Return every gauge for one member of a thread.

    Raises:
        NotCovered: no gauge standard is held for the thread system, or not for this tolerance.
        NotStandardised, UnknownName: the thread itself has no limits.
    """
    if isinstance(size, MetricSize) and isinstance(tolerance, ToleranceClass):
        return iso_1502.gauge_sizes(size, tolerance)
    raise NotCovered(f"no gauges are held for {size.system} threads", member="designation")
