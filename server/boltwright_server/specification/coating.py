"""What the coating in a designation changes: loads, characteristics, notices."""

from __future__ import annotations

from dataclasses import replace

from ..coating import Coating, CoatingLimits, coating_limits
from ..coating.embrittlement import measure_asked_for
from ..coating.reduced_loads import reduced_loads
from ..coating.states import AFTER, tapped_after
from ..designations import ProductDesignation
from ..mechanical import MechanicalMinimums
from ..quantities import Bounds
from ..standards import rules
from ..threads import MetricSize, ThreadClass, ToleranceClass
from ..threads.hot_dip import is_hot_dip
from .characteristic import Characteristic, attribute, measured, the_one, traits, with_role

_BEFORE = "holds before coating; other limits hold for the coated thread"
_JUDGED_BEFORE = (
    "Coated product: thread diameters are judged by the limits before coating; gauge the finished thread by the "
    "gauges listed for the coated thread."
)
_SET_SCREW = (
    "set screws are not under tensile stress, and the clause exempts them from baking; above 390 HV the record of a "
    "measure is asked for all the same"
)
_BARE = "holds for the bare thread, tapped after galvanizing"


def coating_of(wanted: ProductDesignation, tolerance: ThreadClass | None) -> CoatingLimits | None:
    """Return what the coating of a product means for its thread, or None for a plain product or one without thread.

    Raises:
        NotCovered: a hot dip galvanized inch thread.
        NotStandardised: a grade whose standard allows no such coating.
    """
    if wanted.coating is None or tolerance is None:
        return None
    property_class = None if wanted.product.family.hardness_only else wanted.property_class
    return coating_limits(wanted.size, tolerance, wanted.coating, wanted.length, property_class)


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
    told = f"{wanted.mark} behind the class: thread {wanted.tolerance_class} ({rules('ISO 10684').cited})"
    marking = tuple(
        replace(line, symbol=line.symbol + wanted.mark, requirement="; ".join(filter(None, (line.requirement, told))))
        for line in minimums.marking
    )
    return replace(minimums, loads=loads, notices=notices, marking=marking if wanted.mark else minimums.marking)


def coated_characteristics(
    found: dict[str, Characteristic], wanted: ProductDesignation, coating: Coating, limits: CoatingLimits | None
) -> dict[str, Characteristic]:
    """Return the characteristics with the state in which they hold, and those that only a coated product has."""
    tolerance = None if limits is None else limits.tolerance
    coated = dict(found)
    bare = tolerance is not None and tapped_after(coating, tolerance)
    for id in with_role("gauged"):
        bounds = found[id].bounds if id in found else None
        if bounds is not None:
            note = _BARE if bare else _BEFORE
            coated[id] = measured(id, replace(bounds, basis=replace(bounds.basis, note=note)))
    coated |= _thickness(coating)
    if limits is not None:
        coated |= _gauged_after(limits)
    coated |= _embrittlement(found, wanted, coating)
    # A thread that is cut after coating is judged as delivered.
    return {
        id: replace(one, state="as_delivered" if bare and one.group == "thread" else traits()[id].state)
        for id, one in coated.items()
    }


def _thickness(coating: Coating) -> dict[str, Characteristic]:
    """The local thickness, and the batch average where the standard of the coating limits it."""
    found = {}
    local, average = coating.thickness.get("local"), coating.thickness.get("batch_average")
    if local is not None:
        found[the_one("local")] = measured(the_one("local"), Bounds("t", local.min, None, "um", local.basis))
    if average is not None:
        bounds = Bounds("t", average.min, average.max, "um", average.basis)
        found[the_one("mean")] = measured(the_one("mean"), bounds)
    return found


def _gauged_after(limits: CoatingLimits) -> dict[str, Characteristic]:
    """The coated thread has a GO gauge of its own; where none is held it is judged only if readings are sent."""
    state = next((one for one in limits.states if one.state == AFTER), None)
    if state is None:
        return {}
    id = "thread_go_gauge_after_coating"
    if state.go is None:
        basis = rules("ISO 10684").practice("gauging after coating, no gauge held")
        return {id: replace(attribute(id, basis, mandatory=False), instrument="nut or gauge as agreed")}
    gauged = next(iter(state.limits.values())).basis
    return {id: replace(attribute(id, gauged), instrument=f"GO screw gauge {state.go}")}


def _embrittlement(
    found: dict[str, Characteristic], wanted: ProductDesignation, coating: Coating
) -> dict[str, Characteristic]:
    """Hard parts that are acid-cleaned or electroplated need the record of a measure against hydrogen.

    ISO 4042:2018, clause 4.4, exempts set screws, which are not under tensile stress, from baking. The record is asked
    for all the same: who bakes not says so in it.
    """
    core = found.get(the_one("core"))
    if core is None or wanted.product.member is None:
        return {}
    hardest = next((core.scales[scale] for scale in ("HV", "HRC") if scale in core.scales), None)
    basis = None if hardest is None or hardest.max is None else measure_asked_for(coating, hardest)
    if basis is None:
        return {}
    id = "hydrogen_embrittlement_measure"
    if wanted.product.family.hardness_only:
        basis = replace(basis, note=_SET_SCREW)
    return {id: attribute(id, basis)}


def coating_notices(coating: CoatingLimits | None) -> tuple[str, ...]:
    """Return what the buyer and the laboratory should know about the coating."""
    if coating is None or coating.fit is None:
        return ()
    told = () if coating.fit.fits else (f"Coating: {coating.fit.detail}",)
    if coating.coating is not None and tapped_after(coating.coating, coating.tolerance):
        return (*told, *coating.notices)
    return (*told, *coating.notices, _JUDGED_BEFORE)
