"""What a coating means for a metric thread: room, limits before and after, gauges, pairs, loads and cautions.

ISO 4042, ISO 10683, ISO 10684. Thickness in um, limits in mm, loads in N.
"""

from __future__ import annotations

import re
from decimal import Decimal

from ..standards import Standard, rules
from ..threads import MetricSize, ToleranceClass
from .coating import Coating
from .embrittlement import embrittlement, specified_maximum
from .pairing import pairings
from .reduced_loads import reduced_loads
from .result import CoatingLimits, Fit
from .room import SHARES, Room, cited_table, length_group, room
from .states import states, tapped_after

_NEVER = "Galvanized threads: never mate a bolt of class 6az with a nut of class 6AZ or 6AX; the threads strip ({})."
#: 8.8, 08.8, 12.9U, 10.9S, 8, 05: the number of a class of carbon or alloy steel.
_STEEL_CLASS = re.compile(r"0?([0-9]{1,2}(?:\.[0-9])?)[US]?")
_ROOM_IN_NUT = (
    "bolts of position {position} take the zinc only with nuts 6AZ or 6AX (marked Z or X), tapped oversize after "
    "galvanizing; for nuts 6H or 6G order the bolt undersize, 6az (marked U)"
)


def never() -> str:
    """Return the caution of galvanized threads: which two are never mated."""
    return _NEVER.format(rules("ISO 10684").cited)


def metric_coating_limits(
    size: MetricSize,
    tolerance: ToleranceClass,
    coating: Coating | None = None,
    length: Decimal | None = None,
    property_class: str | None = None,
) -> CoatingLimits:
    """Return what a coating means for one member of a metric thread; lengths in mm.

    Without a coating the answer says what the tolerance position has room for.

    Raises:
        NotStandardised, UnknownName: as `threads.limits`; no such property class.
    """
    space = room(size, tolerance)
    group = None if length is None else length_group(size, length)
    hot_dip = coating is not None and coating.process == "hot dip galvanizing"
    loads = reduced_loads(size, tolerance)
    if property_class is not None:
        loads = {name: one for name, one in loads.items() if name == property_class}
    hardness = specified_maximum(size, property_class, "hardness_vickers")
    risk = None if coating is None or hardness is None else embrittlement(coating, hardness)
    return CoatingLimits(
        size,
        tolerance,
        coating,
        space,
        group,
        None if coating is None else _fit(coating, space, tolerance, group),
        states(size, tolerance, coating),
        pairings(tolerance) if hot_dip or loads else (),
        loads,
        risk,
        (
            *((risk.caution,) if risk is not None and risk.caution else ()),
            *((never(),) if hot_dip else ()),
        ),
        _notices(coating, size, property_class, length, group) + (() if risk is None else risk.notices),
    )


def _fit(coating: Coating, space: Room, tolerance: ToleranceClass, group: str | None) -> Fit:
    """Compare the thickness with the printed nominal one where there is one, else with the rule."""
    if tapped_after(coating, tolerance):
        return Fit(True, {}, "the thread is tapped after galvanizing and stays bare")
    printed = coating.process == "electroplating" and bool(space.nominal)
    largest = space.nominal if printed else space.exact
    if coating.process == "hot dip galvanizing":
        largest, group = {"local": largest["local"]}, "local"
    by_group = {name: coating.planned <= (one.max or 0) for name, one in largest.items()}
    fits = next(iter(by_group.values())) if len(set(by_group.values())) == 1 else by_group.get(group or "")
    told = _told(coating, space, tolerance, group if group in by_group else "local")
    return Fit(fits, by_group, f"{told}: {_verdict(coating, tolerance, fits)}")


def _told(coating: Coating, space: Room, tolerance: ToleranceClass, group: str | None) -> str:
    name = group or "local"
    needed, available = SHARES[name] * coating.planned, abs(space.deviation.max or 0)
    printed = space.nominal.get(name) if coating.process == "electroplating" else None
    table = f" (largest nominal thickness of {cited_table()}: {printed.max} um)" if printed else ""
    return (
        f"{coating.planned} um ({name.replace('_', ' ')}) takes {needed} um of the pitch diameter; "
        f"position {tolerance.pitch_position} leaves {available} um{table}"
    )


def _verdict(coating: Coating, tolerance: ToleranceClass, fits: bool | None) -> str:
    if fits is None:
        return "whether a batch average fits depends on the length"
    if fits:
        return "it fits"
    if coating.process == "hot dip galvanizing":
        return _ROOM_IN_NUT.format(position=tolerance.pitch_position)
    return "no room; choose a thinner coating or a position with a greater deviation"


def _notices(
    coating: Coating | None, size: MetricSize, property_class: str | None, length: Decimal | None, group: str | None
) -> tuple[str, ...]:
    if coating is None:
        return ()
    found = list(coating.notices)
    if coating.process == "hot dip galvanizing":
        found += _outside_iso_10684(size, property_class)
    elif length is not None and group is None:
        found.append(f"{cited_table()}, ends at a length of 15 d; agree a local thickness for l = {length} mm")
    average = coating.thickness.get("batch_average")
    if average is not None and average.max is not None:
        found.append(
            f"the batch average may reach {average.max} um: the GO gauge after coating decides, not the average"
        )
    return tuple(found)


def _outside_iso_10684(size: MetricSize, property_class: str | None) -> list[str]:
    of_class = None if property_class is None else class_not_galvanized(property_class)
    return [told for told in (thread_not_galvanized(size), of_class) if told is not None]


def thread_not_galvanized(size: MetricSize) -> str | None:
    """Say why hot dip galvanizing is not standardised for a thread, or None where it is.

    ISO 10684:2004, scope: coarse threads between two diameters.
    """
    facts, scope = _iso_10684()
    if size.series == "coarse" and scope["d_min"] <= size.d <= scope["d_max"] and size.pitch >= scope["pitch_min"]:
        return None
    return (
        f"{facts.cited} covers coarse threads M{scope['d_min']} to M{scope['d_max']}; {size.designation} lies "
        "outside, and hot dip galvanizing of smaller threads is not recommended"
    )


def class_not_galvanized(property_class: str) -> str | None:
    """Say why hot dip galvanizing is not standardised for a class, or None where it is.

    ISO 10684:2004, scope: bolts and nuts of carbon and alloy steel, up to a class.
    """
    facts, scope = _iso_10684()
    told = _class_outside(property_class, scope)
    return None if told is None else f"{facts.cited} {told}"


def _iso_10684() -> tuple[Standard, dict[str, Decimal]]:
    facts = rules("ISO 10684")
    return facts, {str(key[0]): row.number("value") for key, row in facts.table("scope").rows.items()}


def _class_outside(property_class: str, scope: dict[str, Decimal]) -> str | None:
    number = _STEEL_CLASS.fullmatch(property_class)
    if number is None:
        return f"covers steel fasteners with property classes; {property_class} is none"
    kind = "bolt" if "." in number[1] else "nut"
    most = scope[f"{kind}_class_max"]
    if Decimal(number[1]) <= most:
        return None
    return f"covers {kind}s up to class {most}; {property_class} lies above"
