"""The thread systems side by side: each answers which sizes and classes exist, and with which limits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from ..quantities import Contradiction
from ..quantities.derivation import Step
from ..standards import rules
from . import (
    iso_metric,
    iso_metric_derivation,
    iso_metric_limits,
    iso_metric_tolerances,
    unified,
    unified_derivation,
    unified_limits,
)
from .iso_metric import MetricSize, ToleranceClass
from .thread_limits import ThreadLimits
from .unified import UnifiedClass, UnifiedSize

ThreadSize = MetricSize | UnifiedSize
ThreadClass = ToleranceClass | UnifiedClass


@dataclass(frozen=True, slots=True)
class ThreadSystem:
    """A family of threads. `sizes` yields what its standard lists, in the order of the standard."""

    name: str
    title: str
    standard: str
    unit: str
    #: The class that most external and most internal threads have.
    common_classes: tuple[str, str]
    sizes: Callable[[], Iterator[ThreadSize]]

    @property
    def edition(self) -> str:
        """The edition whose tables answer."""
        return rules(self.standard).edition


ISO_METRIC = ThreadSystem(
    iso_metric.SYSTEM,
    "ISO general purpose metric screw thread",
    "ISO 965-1",
    "mm",
    ("6g", "6H"),
    iso_metric.sizes,
)
UNIFIED_INCH = ThreadSystem(
    unified.SYSTEM,
    "Unified inch screw thread",
    "ASME B1.1",
    "in",
    ("2A", "2B"),
    unified.sizes,
)
SYSTEMS = (ISO_METRIC, UNIFIED_INCH)


def classes(size: ThreadSize) -> Iterator[ThreadClass]:
    """Yield every class that the standard of the system gives for a size, each with all its limits.

    ISO 965-1:2013, Tables 1 to 5: each grade and position, and the recommended classes of two symbols; ASME B1.1-2003.
    """
    if isinstance(size, MetricSize):
        yield from iso_metric_tolerances.classes(size)
    else:
        yield from unified.classes(size)


def system_of(size: ThreadSize) -> ThreadSystem:
    """Return the system that a size belongs to."""
    return next(one for one in SYSTEMS if one.name == size.system)


def find_class(text: str, size: ThreadSize) -> ThreadClass:
    """Return a class by its symbol, in the system of a size.

    Raises:
        NotUnderstood: no class of that system.
    """
    return ToleranceClass.parse(text) if isinstance(size, MetricSize) else UnifiedClass.parse(text)


def limits(size: ThreadSize, tolerance: ThreadClass) -> ThreadLimits:
    """Return every limit of a thread, in the unit of its system.

    ISO 965-1:2013 (mm to 0.001) or ASME B1.1-2003 (inch to 0.0001).

    Raises:
        NotStandardised: the standard gives no such tolerance or class for the size.
        UnknownName: the standard has no such grade or position.
        Contradiction: a class of one system with a size of the other.
    """
    if isinstance(size, MetricSize) and isinstance(tolerance, ToleranceClass):
        return iso_metric_limits.limits(size, tolerance)
    if isinstance(size, UnifiedSize) and isinstance(tolerance, UnifiedClass):
        return unified_limits.limits(size, tolerance)
    raise _of_two_systems(size, tolerance)


def _of_two_systems(size: ThreadSize, tolerance: ThreadClass) -> Contradiction:
    return Contradiction(
        f"{tolerance.designation} is a class of {tolerance.system} threads; {size.designation} is {size.system}",
        member="designation",
    )


def limits_derivation(size: ThreadSize, tolerance: ThreadClass) -> tuple[Step, ...]:
    """Return the steps to every limit of a thread.

    Raises:
        Refusals as `limits`.
    """
    if isinstance(size, MetricSize) and isinstance(tolerance, ToleranceClass):
        return iso_metric_derivation.limits_derivation(size, tolerance)
    if isinstance(size, UnifiedSize) and isinstance(tolerance, UnifiedClass):
        return unified_derivation.limits_derivation(size, tolerance)
    raise _of_two_systems(size, tolerance)


def metric(size: ThreadSize, what: str, member: str) -> MetricSize:
    """Return the size as a metric one, for standards that know no other; `what` names them.

    Raises:
        Contradiction: it is a size of another system.
    """
    if isinstance(size, MetricSize):
        return size
    raise Contradiction(f"{what} has metric threads; {size.designation} is {size.system}", member=member)
