"""Marking, cautions, notices, and what is honestly not covered."""

from __future__ import annotations

from collections.abc import Iterator

from ..coating import CoatingLimits
from ..coating.embrittlement import is_at_risk_in_inch, needs_measures
from ..designations import ProductDesignation
from ..mechanical import Mark, MechanicalMinimums
from ..products import look_alike_in
from ..products.look_alikes import told
from ..quantities import Basis
from ..standards import current, other_source, rules

SUPPORT = (
    "These figures support, and do not replace, the current edition of the standard, the purchase order, local codes "
    "and the judgement of a qualified person."
)
_NO_GUARANTEE = "baking does not guarantee freedom from it. Agree the process before coating."
_EMBRITTLEMENT = (
    "Hydrogen embrittlement: with a specified hardness of 360 HV or more, acid cleaning and electroplating need the "
    f"measures of {{}} (process verification or product testing up to 390 HV, baking above); {_NO_GUARANTEE}"
)
_EMBRITTLEMENT_INCH = (
    "Hydrogen embrittlement: specified above 39 HRC, acid cleaning and electroplating need the measures of ASTM F1941 "
    f"(baking; from memory); {_NO_GUARANTEE}"
)
_TESTING = "Tensile and proof load tests store energy and throw fragments: use guards and eye protection."


def package_mark(wanted: ProductDesignation) -> Mark:
    """Return what the package or its label names, beside the marks on the part.

    ISO 898-1:2013 and ISO 898-2:2012, clause 10; for other classes the same, as common practice.
    """
    number = {"external": "ISO 898-1", "internal": "ISO 898-2"}.get(wanted.product.member or "")
    held = None if number is None or wanted.product.family.hardness_only else current(number)
    requirement = "manufacturer's or distributor's mark, designation and lot number"
    if held is None or wanted.product.family.inch:
        owner = wanted.product.standard
        basis = owner.practice("marking of packages")
    else:
        basis = held.basis("clause 10, marking of packages", "memory", "tabulated")
    return Mark("package or its label", wanted.canonical, requirement, basis)


def surface_basis(wanted: ProductDesignation) -> Basis:
    """Return the basis of the surface inspection: its limits are not held."""
    owner = wanted.product.standard
    if wanted.product.member is None:
        return owner.practice("burrs and surface, limits not held")
    if wanted.product.family.inch:
        return owner.practice("surface discontinuities, limits not held")
    number = "ISO 6157-1" if wanted.product.member == "external" else "ISO 6157-2"
    return other_source(number, "limits not held")


def _surface_standard(wanted: ProductDesignation) -> str:
    """ISO 6157 is a standard of metric fasteners; no source was seen for the one that inch products follow."""
    inch = wanted.product.family.inch and wanted.product.member is not None
    return "the standard of inch products" if inch else surface_basis(wanted).standard


def not_covered_of(wanted: ProductDesignation) -> tuple[str, ...]:
    """Return what the product must meet and the service does not judge by figures."""
    product = wanted.product
    form = "ISO 4759-3" if product.member is None else "ASME B18" if product.family.inch else "ISO 4759-1"
    lines = [
        f"Form and position (coaxiality, straightness, run-out, flatness): {form} is not judged.",
        f"Limits of surface discontinuities: {_surface_standard(wanted)} is not held; "
        "record the result of the inspection as an attribute.",
        "Chemical composition: judged on the inspection document of the wire, bar or strip, not here.",
        _coating_not_covered(wanted),
    ]
    return (*lines, *product.options.not_covered, *_withheld(wanted))


def _withheld(wanted: ProductDesignation) -> Iterator[str]:
    """Figures that the standard has and that are not held, with the reason; nothing is judged by them."""
    ids = wanted.product.family.dimension_ids()
    for column, why in wanted.product.row(wanted.size).withheld().items():
        symbol, _, limit = column.partition("_")
        name = ids.get(symbol, symbol).replace("_", " ")
        yield f"No value is held for {symbol} {limit.replace('_', ' ')} ({name}): {why}."


def _coating_not_covered(wanted: ProductDesignation) -> str:
    if wanted.coating is None:
        return "Coatings and finishes: the limits hold before coating."
    return (
        f"Coating {wanted.coating.designation}: corrosion resistance, adhesion, friction and appearance are not judged "
        "here; the limits of dimensions hold before coating."
    )


def cautions_of(minimums: MechanicalMinimums | None, coating: CoatingLimits | None = None) -> tuple[str, ...]:
    """Return the cautions that belong to a product; every specification has the first."""
    if minimums is None:
        return (SUPPORT,)
    if coating is not None:
        return (SUPPORT, _TESTING, *coating.cautions)
    return (SUPPORT, _TESTING, *_embrittlement_of(minimums))


def _embrittlement_of(minimums: MechanicalMinimums) -> tuple[str, ...]:
    """Hard parts carry the caution though no coating is named: they may be plated later."""
    vickers, rockwell = (minimums.properties.get(f"hardness_{scale}") for scale in ("vickers", "rockwell_c"))
    if vickers is not None and vickers.max is not None:
        asking = rules("ISO 4042", holding="clause_4_4").cited
        return (_EMBRITTLEMENT.format(asking),) if needs_measures(vickers.max) else ()
    at_risk = rockwell is not None and rockwell.max is not None and is_at_risk_in_inch(rockwell.max)
    return (_EMBRITTLEMENT_INCH,) if at_risk else ()


def former_notices(wanted: ProductDesignation) -> tuple[str, ...]:
    """Say of a former standard what replaced it, how that is known, and what differs at the size."""
    found = look_alike_in(wanted.product.standard.id)
    size = f"M{wanted.size.d}" if wanted.product.member is None else wanted.size.designation
    return () if found is None or found.held is None else (told(found, size),)


def class_notices(wanted: ProductDesignation) -> tuple[str, ...]:
    """Say so where the product standard does not list the property class at that diameter."""
    table = wanted.product.classes
    if table is None or wanted.property_class is None:
        return ()
    row = table.find(wanted.property_class)
    if row is None and (row := table.find(wanted.product.strength_class(wanted.property_class))) is not None:
        return (f"{wanted.product.standard.cited} lists it as {row.key[0]}: the zero tells of reduced loadability",)
    if row is not None and row.number("d_min") <= wanted.size.d <= row.number("d_max"):
        return ()
    listed = ", ".join(str(name) for name in table.column_values("property_class"))
    return (
        f"{wanted.product.standard.cited} does not list class {wanted.property_class} for {wanted.size.designation} "
        f"(it lists {listed}, from memory): it is as agreed with the purchaser",
    )
