"""Which gauge standards answer for which thread system; the first of a system is its default."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from ..quantities import Contradiction
from ..quantities.derivation import Step
from ..threads import ISO_METRIC, UNIFIED_INCH, ThreadClass, ThreadSize, ThreadSystem, system_of
from . import asme_b1_2, asme_b1_2_derivation, asme_b1_16m, asme_b1_16m_derivation, iso_1502, iso_1502_derivation
from .gauge import GaugeSet


@dataclass(frozen=True, slots=True)
class GaugeStandard:
    """A gauge standard; its engine and its derivation take the sizes and classes of its system only."""

    id: str
    system: ThreadSystem
    engine: Callable[[Any, Any], GaugeSet]
    derivation: Callable[[Any, Any], tuple[Step, ...]]


GAUGE_STANDARDS = (
    GaugeStandard("ISO 1502", ISO_METRIC, iso_1502.gauge_sizes, iso_1502_derivation.gauge_derivation),
    GaugeStandard("ASME B1.16M", ISO_METRIC, asme_b1_16m.gauge_sizes, asme_b1_16m_derivation.gauge_derivation),
    GaugeStandard("ASME B1.2", UNIFIED_INCH, asme_b1_2.gauge_sizes, asme_b1_2_derivation.gauge_derivation),
)
NAMES = tuple(one.id for one in GAUGE_STANDARDS)


def gauge_sizes(size: ThreadSize, tolerance: ThreadClass, standard: str | None = None) -> GaugeSet:
    """Return every gauge for one member of a thread, by the named standard or the default of the thread system.

    Raises:
        Contradiction: the standard is for another thread system.
        NotCovered: the standard holds no values for this size or tolerance.
        NotStandardised, UnknownName: the thread itself has no limits.
    """
    return _chosen(size, standard).engine(size, tolerance)


def gauge_derivation(size: ThreadSize, tolerance: ThreadClass, standard: str | None = None) -> tuple[Step, ...]:
    """Return the steps to every dimension of every gauge.

    Raises:
        Refusals as `gauge_sizes`.
    """
    return _chosen(size, standard).derivation(size, tolerance)


def _chosen(size: ThreadSize, standard: str | None) -> GaugeStandard:
    system = system_of(size)
    fitting = [one for one in GAUGE_STANDARDS if one.system is system]
    chosen = next((one for one in fitting if standard in (None, one.id)), None)
    if chosen is None:
        raise Contradiction(
            f"{standard} has no gauges for {system.name} threads such as {size.designation}: "
            f"use {' or '.join(one.id for one in fitting)}",
            member="standard",
        )
    return chosen
