"""What an electroplated or zinc flake coating means for a Unified inch thread: room, limits before and after, gauges.

ASTM F1941-2015: a coating t on each flank takes 4 t of the pitch diameter, so that the allowance of class 1A or
2A has room for a quarter of it; after coating the thread must not cross the basic profile (GO 3A). Lengths in inch.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from ..quantities import Bounds, NotCovered
from ..quantities.units import factor
from ..standards import rules
from ..threads import UnifiedClass, UnifiedSize, limits
from .coating import Coating
from .embrittlement import embrittlement_of_inch, specified_maximum
from .result import CoatingLimits, Fit
from .room import Room
from .states import AFTER, BEFORE, HOLDS_BEFORE, State

_STANDARD = "ASTM F1941"
_HOT_DIP = (
    "ISO 10684 galvanizes metric threads; the allowances of hot dip galvanized inch threads (nuts tapped oversize, "
    "ASTM A563 and ASTM F2329) are not held"
)
_FLAKE = "the thickness is that of ISO 10683; standards of zinc flake coatings on inch threads are not held"
_LARGEST = UnifiedClass("3", "A")


def inch_coating_limits(
    size: UnifiedSize, wanted: UnifiedClass, coating: Coating | None = None, grade: str | None = None
) -> CoatingLimits:
    """Return what a coating means for one member of a Unified thread.

    ASTM F1941-2015, coating on threads. Results in inch.

    Raises:
        NotCovered: hot dip galvanizing.
        NotStandardised, Contradiction: as `threads.limits`.
    """
    if coating is not None and coating.process == "hot dip galvanizing":
        raise NotCovered(_HOT_DIP, member="coating")
    space = _room(size, wanted)
    hardness = specified_maximum(size, grade, "hardness_rockwell_c")
    risk = None if coating is None or hardness is None else embrittlement_of_inch(coating, hardness)
    return CoatingLimits(
        size,
        wanted,
        coating,
        space,
        None,
        None if coating is None else _fit(coating, space, wanted),
        _states(size, wanted),
        (),
        {},
        risk,
        () if risk is None or risk.caution is None else (risk.caution,),
        _notices(coating),
    )


def _room(size: UnifiedSize, wanted: UnifiedClass) -> Room:
    """A quarter of the allowance as printed; an internal thread and class 3A have none."""
    row = rules(_STANDARD).table("room").rows[(wanted.member,)]
    allowance = limits(size, wanted).reference.get("allowance")
    basis = row.basis("share") if allowance is None else row.basis("share").computed(None, allowance.basis.checked)
    room = Decimal("0.0000") if allowance is None or allowance.max is None else allowance.max
    es = -room if wanted.member == "external" else room
    deviation = Bounds("es" if wanted.member == "external" else "EI", es, es, "in", basis, es)
    return Room(deviation, {"local": Bounds("t", None, room / row.number("share"), "in", basis)}, {})


def _fit(coating: Coating, space: Room, wanted: UnifiedClass) -> Fit:
    share = rules(_STANDARD).table("room").rows[(wanted.member,)].number("share")
    needed = Fraction(share * coating.planned) * factor("um", "in")
    available = abs(space.deviation.max or Decimal(0))
    fits = needed <= Fraction(available)
    taken = (Decimal(needed.numerator) / needed.denominator).quantize(Decimal("0.00001"))
    verdict = "it fits" if fits else "no room; choose a thinner coating or agree a greater allowance"
    return Fit(
        fits,
        {"local": fits},
        f"{coating.planned} um (local) takes {taken} in of the pitch diameter; class {wanted.designation} leaves "
        f"{available} in: {verdict}",
    )


def _states(size: UnifiedSize, wanted: UnifiedClass) -> tuple[State, ...]:
    """Before coating the class, after it the basic profile; the NOT GO gauge stays that of the class."""
    own, before = _named(size, wanted), limits(size, wanted).limits
    basis = rules(_STANDARD).table("room").rows[(wanted.member,)].basis("share")
    internal = wanted.member == "internal"
    largest = before if internal else limits(size, _LARGEST).limits
    boundary = {
        id: Bounds(one.symbol, one.min if internal else None, None if internal else one.max, "in", basis)
        for id, one in largest.items()
        if id in ("major_diameter", "pitch_diameter", "minor_diameter")
    }
    go = own if internal else _named(size, _LARGEST)
    after = State(AFTER, boundary, go, own, f"the GO gauge {go} decides, not the mean thickness")
    return State(BEFORE, before, own, own, HOLDS_BEFORE), after


def _named(size: UnifiedSize, wanted: UnifiedClass) -> str:
    stated = "" if size.LE is None else f"-LE {size.LE}"
    return f"{size.designation}-{wanted.designation}{stated}"


def _notices(coating: Coating | None) -> tuple[str, ...]:
    if coating is None:
        return ()
    found = [*coating.notices, *([_FLAKE] if coating.process == "zinc flake" else [])]
    average = coating.thickness.get("batch_average")
    if average is not None and average.max is not None:
        found.append(
            f"the batch average may reach {average.max} um: the GO gauge after coating decides, not the average"
        )
    return tuple(found)
