"""What a coating means for a thread of either system."""

from __future__ import annotations

from decimal import Decimal

from ..mechanical import find_grade
from ..quantities import Contradiction, NotUnderstood
from ..threads import MetricSize, ThreadClass, ThreadSize, ToleranceClass, UnifiedClass, UnifiedSize
from .coating import Coating
from .embrittlement import refuse_plating
from .inch import inch_coating_limits
from .metric import metric_coating_limits
from .result import CoatingLimits


def coating_limits(
    size: ThreadSize,
    tolerance: ThreadClass,
    coating: Coating | None = None,
    length: Decimal | None = None,
    property_class: str | None = None,
) -> CoatingLimits:
    """Return what a coating means for one member of a thread; lengths in mm.

    ISO 4042, ISO 10683 and ISO 10684; ASTM F1941-2015 for Unified threads, whose rule knows no length groups.
    Without a coating the answer says what the tolerance class has room for.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`; no such property class; a grade that may not be plated.
        NotUnderstood: a length that is not above zero.
        NotCovered: a hot dip galvanized inch thread.
        Contradiction: a property class of the other member, a class of one system with a size of the other.
    """
    if coating is not None:
        refuse_plating(coating, property_class)
    if property_class is not None:
        _check_class(property_class, tolerance)
    if length is not None and length <= 0:
        raise NotUnderstood(f"a length must be above 0 mm, not {length}", member="length", code="out_of_range")
    if isinstance(size, MetricSize) and isinstance(tolerance, ToleranceClass):
        return metric_coating_limits(size, tolerance, coating, length, property_class)
    if isinstance(size, UnifiedSize) and isinstance(tolerance, UnifiedClass):
        return inch_coating_limits(size, tolerance, coating, property_class)
    raise Contradiction(f"{tolerance.designation} is no class of {size.designation}", member="designation")


def _check_class(property_class: str, tolerance: ThreadClass) -> None:
    try:
        find_grade(property_class, tolerance.member)
    except Contradiction as refusal:
        raise Contradiction(f"{refusal.detail}; {tolerance.designation} is not", member="property_class") from None
