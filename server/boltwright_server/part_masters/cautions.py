"""Coatings of part masters: embrittlement of hard fasteners, and coatings that the thread has no room for."""

from __future__ import annotations

from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from ..coating import Coating, Fit, class_not_galvanized, coating_limits, thread_not_galvanized
from ..coating.embrittlement import is_at_risk_in_inch, needs_measures
from ..coating.marking import tolerance_class_of
from ..designations import ProductDesignation
from ..mechanical import mechanical_minimums
from ..products import Product
from ..products.thread_class import thread_tolerance_class
from ..quantities import Basis, Refusal
from ..standards import standard
from ..threads import MetricSize, ThreadSize, ToleranceClass
from .findings import Finding

_REMEMBERED = 65_536
#: Coatings that are electroplated though no designation says so; acid cleaning comes before them.
_ELECTROPLATED = ("zinc plated", "zinc nickel", "nickel plated", "cadmium plated")


def cautions(part: ProductDesignation, coating: str, *, with_room: bool) -> tuple[Finding, ...]:
    """Return the cautions that the coating of a part asks for; `coating` is how the row names it.

    `with_room`: a nut cut oversize among its mates has the room that the bolt does not have.
    """
    if part.property_class is None:
        return ()
    held = part.coating
    if held is None and coating not in _ELECTROPLATED:
        return ()
    found: list[Finding] = []
    if held is None or held.process != "zinc flake":
        found.extend(_embrittlement(part.product, part.size, part.property_class, coating))
    if held is not None and held.process == "hot dip galvanizing" and not part.product.family.hardness_only:
        found.extend(_not_galvanized(part.product, part.size, part.property_class, held))
    if held is not None and not with_room:
        found.extend(_room(part.product, part.size, part.property_class, part.mark, held))
    return tuple(found)


def _not_galvanized(product: Product, size: ThreadSize, property_class: str, coating: Coating) -> tuple[Finding, ...]:
    """Threads and classes that ISO 10684:2004 leaves out; the thread counts where there is one."""
    threaded = isinstance(size, MetricSize) and product.member is not None
    of_thread = thread_not_galvanized(size) if threaded and isinstance(size, MetricSize) else None
    told = (of_thread, class_not_galvanized(property_class))
    return tuple(
        Finding("coating-not-in-standard", "coating", coating.designation, None, one, coating.basis)
        for one in told
        if one is not None
    )


class _Hardest(NamedTuple):
    """The greatest specified hardness of a class."""

    value: Decimal
    scale: str
    basis: Basis


def _embrittlement(product: Product, size: ThreadSize, property_class: str, coating: str) -> tuple[Finding, ...]:
    """ISO 4042:2018, clause 4.4; inch classes that have only a Rockwell hardness by ASTM F1941/F1941M (memory)."""
    hardest = _hardest(product, size, property_class)
    if hardest is None:
        return ()
    if not (needs_measures(hardest.value) if hardest.scale == "HV" else is_at_risk_in_inch(hardest.value)):
        return ()
    rule = "ISO 4042" if hardest.scale == "HV" else "ASTM F1941 (from memory)"
    detail = (
        f"class {property_class} may be as hard as {hardest.value} {hardest.scale}: acid cleaning and plating need the "
        f"measures of {rule} against hydrogen embrittlement"
    )
    return (Finding("hydrogen-embrittlement", "coating", coating, None, detail, hardest.basis),)


@lru_cache(maxsize=_REMEMBERED)
def _hardest(product: Product, size: ThreadSize, property_class: str) -> _Hardest | None:
    if product.family.hardness_only:
        return _hardness_class(product, property_class)
    try:
        found = mechanical_minimums(
            size,
            product.strength_class(property_class),
            product.member,
            style=product.nut_style(property_class),
        ).properties
    except Refusal:
        return None
    for id, scale in (("hardness_vickers", "HV"), ("hardness_rockwell_c", "HRC")):
        bounds = found.get(id)
        if bounds is not None and bounds.max is not None:
            return _Hardest(bounds.max, scale, bounds.basis)
    return None


def _hardness_class(product: Product, name: str) -> _Hardest | None:
    """The class of a set screw by ISO 898-5:2012, Table; a washer is not under tensile stress."""
    if product.member is None:
        return None
    row = standard("iso_898_5_2012").table("table").find(name)
    return None if row is None else _Hardest(row.number("HV_max"), "HV", row.basis("HV_max"))


def _room(product: Product, size: ThreadSize, property_class: str, mark: str, coating: Coating) -> tuple[Finding, ...]:
    """ISO 4042:1999, Table 2, local thickness; ISO 10684:2004.

    Internal threads are judged when galvanized: what is plated into them is left to the allowance of the bolt.
    """
    if product.member is None or not isinstance(size, MetricSize):
        return ()
    if product.member == "internal" and coating.process != "hot dip galvanizing":
        return ()
    fit = _fit(size, _tolerance(product, size, property_class, mark), coating)
    if fit is None or fit.fits or fit.by_group.get("local", True):
        return ()
    finding = Finding("coating-without-room", "coating", coating.designation, None, fit.detail, coating.basis)
    return (finding,)


@lru_cache(maxsize=_REMEMBERED)
def _fit(size: MetricSize, tolerance: str, coating: Coating) -> Fit | None:
    """Return what room the coating has; whatever product it is."""
    try:
        return coating_limits(size, ToleranceClass.parse(tolerance), coating).fit
    except Refusal:
        return None


@lru_cache(maxsize=_REMEMBERED)
def _tolerance(product: Product, size: MetricSize, property_class: str, mark: str) -> str:
    of_mark = tolerance_class_of(mark)
    if of_mark is not None:
        return of_mark
    row = product.row(size)
    grade = product.options.grade or str(row.cells.get("grade") or "A")
    found = thread_tolerance_class(product, row, grade, property_class)
    return "" if found is None else found.designation
