"""What the coating in a designation changes: loads, characteristics, notices."""

from __future__ import annotations

from dataclasses import replace

from ..coating import Coating, CoatingLimits, coating_limits
from ..coating.reduced_loads import reduced_loads
from ..coating.states import tapped_after
from ..designations import ProductDesignation
from ..mechanical import MechanicalMinimums
from ..quantities import Bounds
from ..threads import MetricSize, ThreadClass, ToleranceClass
from ..threads.hot_dip import is_hot_dip
from .characteristic import Characteristic, measured

_DIAMETERS = ("thread_major_diameter", "thread_pitch_diameter", "thread_minor_diameter")
_BEFORE = "holds before coating; the member coating of the specification says what holds after it"
_JUDGED_BEFORE = (
    "Coated product: thread diameters are judged by the limits before coating; gauge the finished thread as the member "
    "coating says."
)
_BARE = "holds for the bare thread, tapped after galvanizing"


def coating_of(wanted: ProductDesignation, tolerance: ThreadClass | None) -> CoatingLimits | None:
    """Return what the coating of a product means for its thread, or None for a plain product or one without thread.

    Raises:
        NotCovered: a hot dip galvanized inch thread.
    """
    if wanted.coating is None or tolerance is None:
        return None
    return coating_limits(wanted.size, tolerance, wanted.coating, wanted.length, wanted.property_class)


def for_coating(minimums: MechanicalMinimums, wanted: ProductDesignation, tolerance: ThreadClass) -> MechanicalMinimums:
    """Return the minimums with the loads of small galvanized threads, and with the mark of an allowance.

    ISO 10684:2004, Annex A and the clause on marking.
    """
    if not isinstance(wanted.size, MetricSize) or not isinstance(tolerance, ToleranceClass):
        return minimums
    loads = minimums.loads | reduced_loads(wanted.size, tolerance).get(minimums.property_class, {})
    notices = minimums.notices
    if is_hot_dip(tolerance) and loads.pop("breaking_torque", None) is not None:
        notices = (*notices, "ISO 898-7 gives no breaking torque for threads cut undersize: none is required here")
    told = f"{wanted.mark} behind the class: thread {wanted.tolerance_class} (ISO 10684:2004)"
    marking = tuple(
        replace(line, symbol=line.symbol + wanted.mark, requirement="; ".join(filter(None, (line.requirement, told))))
        for line in minimums.marking
    )
    return replace(minimums, loads=loads, notices=notices, marking=marking if wanted.mark else minimums.marking)


def coated_characteristics(
    found: dict[str, Characteristic], coating: Coating, tolerance: ThreadClass | None
) -> dict[str, Characteristic]:
    """Return the characteristics with the state in which they hold, and the local thickness of the coating."""
    coated = dict(found)
    bare = tolerance is not None and tapped_after(coating, tolerance)
    for id in _DIAMETERS:
        bounds = found[id].bounds if id in found else None
        if bounds is not None:
            note = _BARE if bare else _BEFORE
            coated[id] = measured(id, replace(bounds, basis=replace(bounds.basis, note=note)))
    local = coating.thickness.get("local")
    if local is not None:
        coated["coating_thickness"] = measured("coating_thickness", Bounds("t", local.min, None, "um", local.basis))
    return coated


def coating_notices(coating: CoatingLimits | None) -> tuple[str, ...]:
    """Return what the buyer and the laboratory should know about the coating."""
    if coating is None or coating.fit is None:
        return ()
    told = () if coating.fit.fits else (f"Coating: {coating.fit.detail}",)
    if coating.coating is not None and tapped_after(coating.coating, coating.tolerance):
        return (*told, *coating.notices)
    return (*told, *coating.notices, _JUDGED_BEFORE)
