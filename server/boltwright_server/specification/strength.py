"""What the property class, grade or hardness class of a product requires."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ..designations import ProductDesignation
from ..mechanical import Mark, MechanicalMinimums, PartShape, Test, mechanical_minimums
from ..mechanical.stress_area import stress_area
from ..products import ProductDimensions
from ..quantities import Basis, Bounds, NotStandardised, OutsideScope
from ..standards import Row, rules
from ..threads import ThreadClass
from .characteristic import Characteristic, attribute, hardness, the_one, traits
from .coating import for_coating
from .mechanical import bolt_characteristics, nut_characteristics

_AGREED = "strength_as_agreed"
_SURFACE = "HV_surface_max"
_AS_AGREED = f"Agree with the purchaser how the strength is shown, and record the result as {_AGREED}."
_ONLY_LOAD = "the proof load is that of the product standard; its hardness and its tests are not held"
_NOTHING_DECIDES = f"No mechanical test of the standard that is held here can be made on this part. {_AS_AGREED}"


@dataclass(frozen=True, slots=True)
class Strength:
    """Mechanical characteristics with their tests and marking; `minimums` is None for a hardness class."""

    characteristics: dict[str, Characteristic]
    minimums: MechanicalMinimums | None = None
    tests: tuple[Test, ...] = ()
    marking: tuple[Mark, ...] = ()
    notices: tuple[str, ...] = ()


def strength_of(
    wanted: ProductDesignation, property_class: str, part: ProductDimensions, tolerance: ThreadClass | None
) -> Strength:
    """Return the mechanical requirements of a product.

    Raises:
        NotStandardised, NotCovered: the standard or the service gives none for the class at a size within its scope.
    """
    if tolerance is None or wanted.product.family.hardness_only:
        return _of_hardness_class(wanted, property_class)
    if wanted.product.options.strength:
        return _beyond(wanted, wanted.product.options.strength)
    if wanted.product.options.loads:
        return _of_own_loads(wanted, property_class)
    shape = _shape(wanted, part)
    try:
        minimums = mechanical_minimums(
            wanted.size,
            wanted.product.strength_class(property_class),
            wanted.product.member,
            style=wanted.product.nut_style(property_class),
            form=wanted.product.options.form or None,
            shape=shape,
        )
    except OutsideScope as outside:
        return _beyond(wanted, outside.detail)
    minimums = _with_own_mark(for_coating(minimums, wanted, tolerance), wanted, property_class)
    found = nut_characteristics(minimums) if wanted.length is None else bolt_characteristics(minimums, shape)
    if any(one.mandatory and one.group == "mechanical" for one in found.values()):
        return Strength(found, minimums, minimums.tests, minimums.marking, minimums.notices)
    found[_AGREED] = attribute(_AGREED, _agreed(minimums))
    return Strength(found, minimums, minimums.tests, minimums.marking, (*minimums.notices, _NOTHING_DECIDES))


def _of_own_loads(wanted: ProductDesignation, property_class: str) -> Strength:
    """The proof load that the product standard itself prints for its nuts; hardness and tests are not held."""
    owner = wanted.product.standard
    row = owner.tables[wanted.product.options.loads].find(wanted.size.designation)
    load = None if row is None or property_class not in row.cells else row.get(property_class)
    if row is None or load is None:
        return _beyond(wanted, f"{owner.cited} prints no load of class {property_class} for {wanted.size.designation}")
    loads = {"proof_load": Bounds("Fp", load, None, row.table.unit, row.basis(property_class))}
    marking = _own_mark(wanted, property_class, "bearing face or chamfer of the nut")
    minimums = MechanicalMinimums(
        owner.id,
        owner.edition,
        wanted.size.designation,
        property_class,
        "internal",
        stress_area(wanted.size),
        {},
        loads,
        (),
        (_ONLY_LOAD,),
        marking=marking,
    )
    return Strength(nut_characteristics(minimums), minimums, (), marking, minimums.notices)


def _own_mark(wanted: ProductDesignation, property_class: str, place: str) -> tuple[Mark, ...]:
    symbol = f"{property_class} {wanted.product.options.mark}".strip()
    basis = wanted.product.standard.basis("marking", "memory", "tabulated")
    return (Mark(place, symbol, "manufacturer's identification mark beside the symbol", basis),)


def _with_own_mark(minimums: MechanicalMinimums, wanted: ProductDesignation, property_class: str) -> MechanicalMinimums:
    """A structural bolt bears the letters of its system beside the class."""
    if not wanted.product.options.mark:
        return minimums
    return replace(minimums, marking=_own_mark(wanted, property_class, "head"))


def _beyond(wanted: ProductDesignation, why: str) -> Strength:
    """The product is standardised, its class is not at this size or form: the strength is as agreed, and mandatory."""
    owner = wanted.product.standard
    basis = owner.practice("strength outside the scope of its standard", why)
    return Strength({_AGREED: attribute(_AGREED, basis)}, notices=(f"{why}. {_AS_AGREED}",))


def _agreed(minimums: MechanicalMinimums) -> Basis:
    """No test of the standard fits: without a mandatory requirement such a lot would pass on its dimensions alone."""
    clause = "no mandatory test fits this size, length and head"
    return rules(minimums.standard, minimums.edition).practice(clause)


def _shape(wanted: ProductDesignation, part: ProductDimensions) -> PartShape:
    """What of the product decides on its tests; a thread up to the head counts as long as the part."""
    reference = part.dimensions.get("thread_length")
    thread_length = wanted.length if reference is None else reference.nominal
    return PartShape(wanted.length, thread_length, part.fully_threaded, wanted.product.family.marking_kind)


def _of_hardness_class(wanted: ProductDesignation, property_class: str) -> Strength:
    """A washer's class stands in its own standard, a set screw's in ISO 898-5:2012."""
    row = wanted.product.class_row(property_class)
    if row is None or "HV_min" not in row.cells:
        row = rules("ISO 898-5").table("table").find(property_class)
    if row is None:
        raise NotStandardised(f"no hardness is given for class {property_class}", member="designation")
    core = the_one("core")
    scales = {scale: bounds for scale in traits()[core].scales if (bounds := _scale(row, scale)) is not None}
    found = {core: hardness(core, scales)}
    surface = row.get(_SURFACE) if _SURFACE in row.cells else None
    if surface is not None:
        bounds = Bounds("HV 0.3", None, surface, "HV", row.basis(_SURFACE))
        found[the_one("over_core")] = hardness(the_one("over_core"), {"HV": bounds})
    return Strength(found, notices=("No mark on the part is required for a hardness class (memory).",))


def _scale(row: Row, scale: str) -> Bounds | None:
    low, high = (row.get(name) if (name := f"{scale}_{end}") in row.cells else None for end in ("min", "max"))
    if low is None and high is None:
        return None
    used = f"{scale}_min" if low is not None else f"{scale}_max"
    return Bounds(scale, low, high, scale, row.basis(used))
