"""Composes the engines' answers into everything required of one designation."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..coating import CoatingLimits
from ..designations import ProductDesignation, ThreadDesignation, names_thread, parse_product, parse_thread
from ..gauges import GaugeSet, gauge_sizes
from ..mechanical import Mark, MechanicalMinimums, Test
from ..products import ProductDimensions, dimensions
from ..quantities import NotCovered, NotUnderstood, asked_as
from ..quantities.keeper import remembered
from ..standards.editions import LaterEdition, later_editions
from ..threads import ThreadClass, ThreadSize, find_class, system_of
from .characteristic import Characteristic, attribute, measured, traits
from .coating import coated_characteristics, coating_notices, coating_of
from .requirements import cautions_of, class_notices, former_notices, not_covered_of, package_mark, surface_basis
from .strength import Strength, strength_of
from .thread import thread_characteristics

#: Specifications of some 30 kB each; answers and plans are kept by what asks for them.
_KEPT = 512


@dataclass(frozen=True, slots=True)
class Item:
    """What the designation names."""

    kind: str
    standard: str
    edition: str
    title: str
    thread: str
    tolerance_class: str | None
    length: Decimal | None = None
    product_grade: str | None = None
    property_class: str | None = None
    coating: str | None = None


@dataclass(frozen=True, slots=True)
class Specification:
    """Everything required of one designation. `dimensions` holds reference dimensions too; they are not judged."""

    designation: str
    item: Item
    size: ThreadSize
    #: None for a product without thread.
    tolerance: ThreadClass | None
    characteristics: dict[str, Characteristic]
    dimensions: ProductDimensions | None
    mechanical: MechanicalMinimums | None
    gauges: GaugeSet | None
    tests: tuple[Test, ...]
    marking: tuple[Mark, ...]
    not_covered: tuple[str, ...]
    cautions: tuple[str, ...]
    notices: tuple[str, ...]
    coating: CoatingLimits | None = None
    #: What stands on the package beside the marks on the part; None for a bare thread.
    package: Mark | None = None
    #: Standards of which a later edition is in force than the one whose figures stand here.
    editions: tuple[LaterEdition, ...] = ()


@remembered(_KEPT)
def specification(text: str) -> Specification:
    """Return the specification of a designation text, a product's or a thread's.

    Raises:
        NotUnderstood, UnknownName: the text names nothing that is held.
        NotStandardised, NotCovered: a standard or the service gives no value for it.
    """
    with asked_as("designation"):
        if names_thread(text):
            return _of_thread(parse_thread(text))
        return specification_of(parse_product(text))


def _of_thread(thread: ThreadDesignation) -> Specification:
    system = system_of(thread.size)
    if len(thread.classes) != 1:
        bolt, nut = system.common_classes
        raise NotUnderstood(
            f"{thread.canonical}: name one tolerance class, as {bolt} for a bolt or {nut} for a nut",
            member="designation",
            code="class_missing",
        )
    tolerance = thread.classes[0]
    return Specification(
        thread.canonical,
        Item(
            f"{tolerance.member} thread",
            system.standard,
            system.edition,
            system.title,
            thread.size.designation,
            tolerance.designation,
        ),
        thread.size,
        tolerance,
        thread_characteristics(thread.size, tolerance),
        None,
        None,
        _gauges(thread.size, tolerance),
        (),
        (),
        ("Form, angle and pitch deviations of the thread are covered by gauging only.",),
        cautions_of(None),
        (),
        editions=later_editions([(system.standard, system.edition)]),
    )


def _gauges(size: ThreadSize, tolerance: ThreadClass) -> GaugeSet | None:
    try:
        return gauge_sizes(size, tolerance)
    except NotCovered:
        return None


def specification_of(wanted: ProductDesignation) -> Specification:
    """Return the specification of a product.

    Raises:
        NotUnderstood: the designation names no property class.
        Others: as `specification`.
    """
    if wanted.property_class is None:
        raise NotUnderstood(
            f"{wanted.canonical}: name a class, as {wanted.canonical} - {_usual_class(wanted)}",
            member="designation",
            code="class_missing",
        )
    part = dimensions(wanted.product, wanted.size, wanted.length, wanted.property_class)
    tolerance = _tolerance(wanted, part)
    strength = strength_of(wanted, wanted.property_class, part, tolerance)
    coating = coating_of(wanted, tolerance)
    return Specification(
        wanted.canonical,
        _item(wanted, part, tolerance),
        wanted.size,
        tolerance,
        _characteristics(wanted, part, strength, tolerance, coating),
        part,
        strength.minimums,
        None if tolerance is None else _gauges(wanted.size, tolerance),
        strength.tests,
        strength.marking,
        not_covered_of(wanted),
        cautions_of(strength.minimums, coating),
        (*former_notices(wanted), *part.notices, *class_notices(wanted), *strength.notices, *coating_notices(coating)),
        coating,
        package_mark(wanted),
        _editions(wanted, strength, coating),
    )


def _editions(
    wanted: ProductDesignation, strength: Strength, coating: CoatingLimits | None
) -> tuple[LaterEdition, ...]:
    """Of the standards that the figures come from: of the product, its strength and its coating."""
    owner, minimums = wanted.product.standard, strength.minimums
    used = [(owner.id, owner.edition)]
    if minimums is not None:
        used.append((minimums.standard, minimums.edition))
    if coating is not None and wanted.coating is not None:
        used.append((wanted.coating.standard, wanted.coating.edition))
    return later_editions(used)


def _usual_class(wanted: ProductDesignation) -> str:
    """An example for whoever left the class out: the first that the standard lists, else a common one."""
    table = wanted.product.classes
    if table is not None:
        return str(next(iter(table.rows))[0])
    return "8.8" if wanted.product.member == "external" else "8"


def _tolerance(wanted: ProductDesignation, part: ProductDimensions) -> ThreadClass | None:
    """The class that a galvanizing mark or the product standard gives to the thread; None for no thread."""
    named = wanted.tolerance_class or part.thread_tolerance_class
    if named is None:
        return None
    return find_class(named, wanted.size)


def _item(wanted: ProductDesignation, part: ProductDimensions, tolerance: ThreadClass | None) -> Item:
    owner = wanted.product.standard
    return Item(
        wanted.product.family.item,
        owner.id,
        owner.edition,
        wanted.product.title,
        part.size,
        None if tolerance is None else tolerance.designation,
        wanted.length,
        part.product_grade,
        wanted.property_class,
        None if wanted.coating is None else wanted.coating.designation,
    )


def _characteristics(
    wanted: ProductDesignation,
    part: ProductDimensions,
    strength: Strength,
    tolerance: ThreadClass | None,
    coating: CoatingLimits | None,
) -> dict[str, Characteristic]:
    found = {
        id: measured(id, bounds, mandatory=_mandatory(id, part))
        for id, bounds in part.dimensions.items()
        if id in traits() and (bounds.min is not None or bounds.max is not None)
    }
    if tolerance is not None:
        found |= thread_characteristics(wanted.size, tolerance)
    found |= strength.characteristics
    for line in strength.marking:
        found["marking"] = attribute("marking", line.basis)
    found["surface_discontinuities"] = attribute("surface_discontinuities", surface_basis(wanted))
    if wanted.coating is None:
        return found
    return coated_characteristics(found, wanted, wanted.coating, coating)


def _mandatory(id: str, part: ProductDimensions) -> bool | None:
    """A head is plain or knurled: neither diameter alone is mandatory where the standard gives both."""
    return False if id == "head_diameter" and "head_diameter_knurled" in part.dimensions else None
