"""The nearest products of the same function: other classes, threads, standards and systems. None is interchangeable.

The order is the service's own, no standard's: the sum of the relative differences in load, diameter, pitch, length and
width across flats (of a washer its outer diameter), and 1 where the thread is another one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..designations import ProductDesignation, parse_product, parse_size
from ..mechanical import find_grade
from ..products import Product, products
from ..quantities import Bounds, Refusal
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..quantities.units import factor
from ..standards import standard
from ..threads import MetricSize, ThreadSize
from .comparison import Difference, differences
from .compose import Specification, specification_of
from .configuration import lengths, sizes

MOST = 30
#: Of the other thread system, where it has any, at least so many stand among the answers.
_OTHER_SYSTEM = 2
_THIN_FORMS = ("hex_jam", "heavy_hex_jam")
_INCH = Decimal("25.4")
#: How strong a class is, and how strong the part: the first figure that both sides have.
_STRENGTHS = ("tensile_strength", "proof_stress", "hardness_vickers")
_LOADS = ("tensile_load", "proof_load", *_STRENGTHS)
_INCH_LENGTH = (
    "inch lengths are the nearest multiple of 1/8 in, above 1 in of 1/4 in (common practice): the list of the standard "
    "is not held"
)
_STEEL = "steels and their heat treatment are not compared here: see /v1/mechanical-minimums for both"
_NONE = "no other product of this function is held: {}"


@dataclass(frozen=True, slots=True)
class Alternative:
    """A product of the same function, with everything in which it differs from the asked one."""

    found: Specification
    distance: Decimal
    same_thread: bool
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class Equivalents:
    """The nearest alternatives first."""

    asked: Specification
    function: str
    alternatives: tuple[Alternative, ...]
    notices: tuple[str, ...]


def equivalents(text: str, limit: int) -> Equivalents:
    """Return up to `limit` products of the same function as that of a designation, the nearest first.

    Raises:
        Refusal: as `specification`; the text names no product.
    """
    wanted = parse_product(text)
    asked = specification_of(wanted)
    ranked = sorted(_candidates(wanted, asked), key=lambda one: (one[0], one[1].designation))
    chosen = _bounded(wanted, ranked, limit)
    found = tuple(
        Alternative(
            one,
            Decimal(round(distance * 1000)).scaleb(-3),
            one.item.thread == asked.item.thread,
            differences(asked, one),
        )
        for distance, one in chosen
    )
    return Equivalents(asked, function_of(wanted.product), found, tuple(_notices(wanted, found)))


def _notices(wanted: ProductDesignation, found: tuple[Alternative, ...]) -> Iterator[str]:
    if not found:
        yield _NONE.format(function_of(wanted.product))
    inch = any(not isinstance(one.found.size, MetricSize) for one in found)
    if inch and not wanted.product.family.inch and wanted.length is not None:
        yield _INCH_LENGTH
    if found and not wanted.product.family.hardness_only:
        yield _STEEL


def function_of(product: Product) -> str:
    """Return what a product does, in words: products of one function stand in for one another, after a review."""
    thin = product.options.style == 0 or product.options.form in _THIN_FORMS
    parts = [product.family.item, product.head if product.head != "none" else f"end {product.options.end}"]
    return ", ".join([*parts, "thin"] if thin else parts)


Ranked = tuple[Fraction, Specification]


def _bounded(wanted: ProductDesignation, ranked: list[Ranked], limit: int) -> list[Ranked]:
    """The nearest, with room for those of the other thread system."""
    other = [one for one in ranked if isinstance(one[1].size, MetricSize) != isinstance(wanted.size, MetricSize)]
    kept = other[: min(_OTHER_SYSTEM, limit // 2)]
    rest = [one for one in ranked if one not in kept][: limit - len(kept)]
    return sorted([*kept, *rest], key=lambda one: (one[0], one[1].designation))


def _candidates(wanted: ProductDesignation, asked: Specification) -> Iterator[Ranked]:
    function = function_of(wanted.product)
    for product in products():
        if function_of(product) != function:
            continue
        for size in _sizes(product, wanted.size):
            own = product is wanted.product and size == wanted.size
            yield from _of_size(product, size, wanted, asked, own)


def _of_size(
    product: Product, size: ThreadSize, wanted: ProductDesignation, asked: Specification, own: bool
) -> Iterator[Ranked]:
    """Yield the class nearest in strength, with those as strong; of the asked product the next stronger and weaker."""
    length = _length(product, size, wanted)
    # Coatings are held for metric threads only.
    coating = None if product.family.inch else wanted.coating
    found = []
    for name in _classes(product, size, wanted):
        try:
            one = specification_of(ProductDesignation(product, size, length, name, coating))
        except Refusal:
            continue
        found.append((_strength(asked, one, _STRENGTHS), one))
    chosen = _beside(found, wanted) if own else _nearest(found)
    for one in chosen:
        yield _distance(asked, one), one


def _nearest(found: list[Ranked]) -> list[Specification]:
    least = min((abs(ratio - 1) for ratio, _ in found), default=Fraction(0))
    return [one for ratio, one in found if abs(ratio - 1) == least]


def _beside(found: list[Ranked], wanted: ProductDesignation) -> list[Specification]:
    others = [(ratio, one) for ratio, one in found if one.item.property_class != wanted.property_class]
    weaker = [one for one in others if one[0] < 1]
    stronger = [one for one in others if one[0] >= 1]
    return [
        *_nearest([one for one in weaker if one[0] == max(ratio for ratio, _ in weaker)]),
        *_nearest([one for one in stronger if one[0] == min(ratio for ratio, _ in stronger)]),
    ]


def _sizes(product: Product, asked: ThreadSize) -> list[ThreadSize]:
    """The asked thread and the other pitches of its diameter; of the other system the diameters beside it."""
    listed = _listed_sizes(product)
    same_system = isinstance(asked, MetricSize) != product.family.inch
    if same_system:
        return [size for size in listed if size.d == asked.d]
    target = _millimetres(asked)
    smaller = [_millimetres(size) for size in listed if _millimetres(size) <= target]
    larger = [_millimetres(size) for size in listed if _millimetres(size) >= target]
    beside = {*(smaller and [max(smaller)]), *(larger and [min(larger)])}
    return [size for size in listed if _millimetres(size) in beside]


@remembered(128)
def _listed_sizes(product: Product) -> tuple[ThreadSize, ...]:
    return tuple(parse_size(product, one.value) for one in sizes(product).values)


def _millimetres(size: ThreadSize) -> Decimal:
    return size.d if isinstance(size, MetricSize) else size.d * _INCH


def _pitch(size: ThreadSize) -> Fraction:
    return Fraction(size.pitch) if isinstance(size, MetricSize) else Fraction(_INCH) / Fraction(size.threads_per_inch)


def _classes(product: Product, size: ThreadSize, wanted: ProductDesignation) -> Iterator[str]:
    """The classes that the standard lists for the diameter; stainless steel stands beside stainless steel only."""
    rows = () if product.classes is None else product.classes.rows.values()
    for row in rows:
        name = str(row.key[0])
        listed = row.number("d_min") <= size.d <= row.number("d_max")
        if listed and _stainless(product, name) == _stainless(wanted.product, wanted.property_class or ""):
            yield name


@remembered(1024)
def _stainless(product: Product, name: str) -> bool:
    if product.family.hardness_only:
        return False
    return standard(find_grade(name, product.member).folder).family.startswith("stainless")


def _length(product: Product, size: ThreadSize, wanted: ProductDesignation) -> Decimal | None:
    """The asked length; in the other system the nearest one."""
    if wanted.length is None or not product.has_length:
        return None
    if product.family.inch == wanted.product.family.inch:
        return wanted.length
    if product.family.inch:
        exact = Fraction(wanted.length) / Fraction(_INCH)
        parts = 4 if exact > 1 else 8
        whole = max(1, round(exact * parts))
        return shortest(Decimal(whole) / parts)
    target = wanted.length * _INCH
    listed = [Decimal(one.value) for one in lengths(product, size).values]
    return min(listed, key=lambda one: (abs(one - target), one), default=None)


def _strength(asked: Specification, other: Specification, ids: tuple[str, ...]) -> Fraction:
    """Return how strong the other is beside the asked one; where it has no figure it ranks as one without strength."""
    ratios = (_ratio(_figure(asked, id), _figure(other, id)) for id in ids)
    unknown = Fraction(0 if any(_figure(asked, id) for id in ids) else 1)
    return next((one for one in ratios if one is not None), unknown)


def _figure(found: Specification, id: str) -> Bounds | None:
    if found.mechanical is not None:
        return found.mechanical.loads.get(id) or found.mechanical.properties.get(id)
    core = found.characteristics.get("hardness_core")
    return core.bounds if core is not None and id.startswith("hardness") else None


def _ratio(asked: Bounds | None, other: Bounds | None) -> Fraction | None:
    if asked is None or other is None:
        return None
    first, second = (next((x for x in (one.nominal, one.min, one.max) if x), None) for one in (asked, other))
    if first is None or second is None:
        return None
    try:
        return Fraction(second) * factor(other.unit, asked.unit) / Fraction(first)
    except Refusal:
        return None


def _distance(asked: Specification, other: Specification) -> Fraction:
    d = Fraction(_millimetres(other.size)) / Fraction(_millimetres(asked.size))
    ratios = [_strength(asked, other, _LOADS), d, _pitch(other.size) / _pitch(asked.size)]
    for id in ("length", "width_across_flats", "outer_diameter"):
        ratio = _ratio(_dimension(asked, id), _dimension(other, id))
        if ratio is not None:
            ratios.append(ratio)
    thread = Fraction(int(asked.item.thread != other.item.thread))
    return thread + sum((abs(ratio - 1) for ratio in ratios), Fraction(0))


def _dimension(found: Specification, id: str) -> Bounds | None:
    return None if found.dimensions is None else found.dimensions.dimensions.get(id)
