"""Which gauge standards answer for which thread system; the first of a system is its default."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from ..quantities import Contradiction
from ..threads import ISO_METRIC, UNIFIED_INCH, ThreadClass, ThreadSize, ThreadSystem, system_of
from . import asme_b1_2, asme_b1_16m, iso_1502
from .gauge import GaugeSet


@dataclass(frozen=True, slots=True)
class GaugeStandard:
    """A gauge standard; its engine takes the sizes and classes of its system only."""

    id: str
    system: ThreadSystem
    engine: Callable[[Any, Any], GaugeSet]


GAUGE_STANDARDS = (
    GaugeStandard("ISO 1502", ISO_METRIC, iso_1502.gauge_sizes),
    GaugeStandard("ASME B1.16M", ISO_METRIC, asme_b1_16m.gauge_sizes),
    GaugeStandard("ASME B1.2", UNIFIED_INCH, asme_b1_2.gauge_sizes),
)
NAMES = tuple(one.id for one in GAUGE_STANDARDS)


def gauge_sizes(size: ThreadSize, tolerance: ThreadClass, standard: str | None = None) -> GaugeSet:
    """Return every gauge for one member of a thread, by the named standard or the default of the thread system.

    Raises:
        Contradiction: the standard is for another thread system.
        NotCovered: the standard holds no values for this size or tolerance.
        NotStandardised, UnknownName: the thread itself has no limits.
    """
    system = system_of(size)
    fitting = [one for one in GAUGE_STANDARDS if one.system is system]
    chosen = next((one for one in fitting if standard in (None, one.id)), None)
    if chosen is None:
        raise Contradiction(
            f"{standard} has no gauges for {system.name} threads such as {size.designation}: "
            f"use {' or '.join(one.id for one in fitting)}",
            member="standard",
        )
    return chosen.engine(size, tolerance)
