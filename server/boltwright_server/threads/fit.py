"""How an external and an internal thread of one size go together: least and greatest clearance, overlap of the flanks.

ISO 965-1:2013 (mm) or ASME B1.1-2003 (inch): differences of the limits of size, diameters.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from ..quantities import Basis, Bounds, Contradiction, weakest
from ..quantities.rounding import half_up
from ..standards import rules
from .systems import ThreadClass, ThreadSize, ThreadSystem, limits, system_of
from .thread_limits import ThreadLimits

#: Diameter of a pair -> what meets there.
_PLACES = {
    "pitch_diameter": "flanks",
    "major_diameter": "crest of the external, root of the internal thread",
    "minor_diameter": "root of the external, crest of the internal thread",
}


@dataclass(frozen=True, slots=True)
class ThreadFit:
    """Clearances on the diameter (negative: interference), None on a side that the standard leaves open.

    `overlap` is how far the flanks reach into each other, on the radius; `overlap_ratio` the same in percent of the
    basic 5/8 H. `engagement` holds the lengths of thread engagement.
    """

    size: ThreadSize
    external: ThreadLimits
    internal: ThreadLimits
    clearances: dict[str, Bounds]
    overlap: Bounds
    overlap_ratio: Bounds
    engagement: dict[str, Bounds]


def thread_fit(size: ThreadSize, external: ThreadClass, internal: ThreadClass) -> ThreadFit:
    """Return how a bolt and a nut thread of one size fit.

    Raises:
        Contradiction: two classes of one member.
        NotStandardised, UnknownName: as `limits`.
    """
    for tolerance, member in ((external, "external"), (internal, "internal")):
        if tolerance.member != member:
            raise Contradiction(f"{tolerance.designation} is no class of an {member} thread", member=member)
    bolt, nut = limits(size, external), limits(size, internal)
    system = system_of(size)
    clearances = {id: _clearance(system, id, _of_bolt(id, bolt), nut.limits[id]) for id in _PLACES}
    overlap = _overlap(system, bolt, nut)
    return ThreadFit(size, bolt, nut, clearances, overlap, _ratio(overlap, size), nut.engagement)


def _of_bolt(id: str, bolt: ThreadLimits) -> Bounds:
    """The minor diameter of a bolt has no least value; its rounded root, where there is one, has."""
    found, root = bolt.limits[id], bolt.limits.get("root_diameter")
    if id != "minor_diameter" or found.min is not None or root is None:
        return found
    checked = weakest(found.basis.checked, root.basis.checked)
    return replace(found, min=root.min, basis=replace(found.basis, checked=checked))


def _clearance(system: ThreadSystem, id: str, bolt: Bounds, nut: Bounds) -> Bounds:
    """Least: smallest nut against largest bolt; greatest: largest nut against smallest bolt."""
    return Bounds(
        f"{nut.symbol} - {bolt.symbol}",
        _difference(nut.min, bolt.max),
        _difference(nut.max, bolt.min),
        bolt.unit,
        _basis(system, _PLACES[id], bolt, nut),
    )


def _difference(left: Decimal | None, right: Decimal | None) -> Decimal | None:
    return None if left is None or right is None else left - right


def _basis(system: ThreadSystem, clause: str, *of: Bounds) -> Basis:
    checked = weakest(*(one.basis.checked for one in of))
    return rules(system.standard).basis(f"difference of the limits: {clause}", checked)


def _overlap(system: ThreadSystem, bolt: ThreadLimits, nut: ThreadLimits) -> Bounds:
    d, D1 = bolt.limits["major_diameter"], nut.limits["minor_diameter"]
    least, most = _difference(d.min, D1.max), _difference(d.max, D1.min)
    halves = [None if one is None else one / 2 for one in (least, most)]
    return Bounds("(d - D1)/2", halves[0], halves[1], d.unit, _basis(system, "overlap of the flanks, radial", d, D1))


def _ratio(overlap: Bounds, size: ThreadSize) -> Bounds:
    """In percent of 5/8 H, the overlap of the basic profiles; whole percent."""
    basic = (Decimal(3).sqrt() / 2) * size.pitch * 5 / 8
    shares = [None if one is None else half_up(100 * one / basic, "1") for one in (overlap.min, overlap.max)]
    return Bounds("(d - D1)/2 : 5/8 H", shares[0], shares[1], "%", overlap.basis)
