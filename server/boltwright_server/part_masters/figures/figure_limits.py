"""Limits that a stored figure is held against: of the size, of the class, of the length; worked out once for each."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import NamedTuple

from ...designations import ProductDesignation
from ...mechanical import mechanical_minimums
from ...products import Product, dimensions_of_form, form_of
from ...products.product_grade import length_bounds, product_grade
from ...quantities import Bounds, Refusal
from ...quantities.keeper import remembered
from ...specification import specification_of
from ...specification.characteristic import property_of_scale, the_one, traits
from ...threads import Member, MetricSize, ThreadSize
from ..meaning.outline import Outline
from ..meaning.resolution import Sized, the_only

_REMEMBERED = 65_536
#: Figures that repeat the standard's minimum; a stored one is right only if it is that minimum.
_LOADS = {"tensile_load": "tensile_load", "proof_load": "proof_load", "nut_proof_load": "proof_load"}
_STRENGTHS = ("tensile_strength", "yield_strength", "proof_stress")
#: A hardness by itself is on the usual scale of the core.
_HARDNESS = {
    the_one("core"): next(iter(property_of_scale().values())),
    **{name: name for name in property_of_scale().values()},
}
_OTHERS = ("elongation", "reduction_of_area", "impact_energy")
#: Dimensions that are nothing but a matter of the length; the others are alike for many lengths.
_OF_LENGTH = ("length", "grip_length", "body_length", "thread_length")
_UNTHREADED = "unthreaded_length"
#: Figures that the property class decides, where its standard gives them.
OF_CLASS = frozenset((*_LOADS, *_STRENGTHS, *_HARDNESS, *_OTHERS))


class Limit(NamedTuple):
    """The limit that a stored figure is held against, as doubles: text equal to a limit is the limit's double."""

    low: float
    high: float
    exact: bool
    bounds: Bounds


def figure_ids() -> frozenset[str]:
    """Return the ids under which a part master may store a figure."""
    return frozenset((*traits(), *_LOADS, *_STRENGTHS, *_HARDNESS)) - {the_one("location"), "marking"}


@dataclass(frozen=True, eq=False, slots=True)
class Form:
    """What of the length decides the other dimensions. There is one of each: limits are remembered by its identity."""

    suffixes: tuple[str, ...]
    without: tuple[str, ...]
    unthreaded: Bounds | None


@remembered(_REMEMBERED)
def _the_form(suffixes: tuple[str, ...], without: tuple[str, ...], unthreaded: Bounds | None) -> Form:
    return Form(suffixes, without, unthreaded)


@remembered(_REMEMBERED)
def form_in(sized: Sized, length: Decimal | None) -> Form | None:
    """Return the form that the length decides; None where the standard has no such part."""
    product, size = sized.product, sized.size
    try:
        form = form_of(product, size, length if _decides(product, size, length) else _representative(sized, length))
    except Refusal:
        return None
    return _the_form(form.suffixes, form.without, form.thread.dimensions().get(_UNTHREADED))


def _decides(product: Product, size: ThreadSize, length: Decimal | None) -> bool:
    """Whether all of the length counts, as of set screws and short screws; of others it is only their grade."""
    if length is None:
        return False
    short = product.options.short or any("_short" in name for name in product.table.columns)
    return bool(short) or not isinstance(size, MetricSize)


def _representative(sized: Sized, length: Decimal | None) -> Decimal | None:
    """A length that has the grade: dimensions other than the length depend on nothing else of it."""
    if not sized.product.has_length:
        return None
    d = sized.size.d
    return min(10 * d, Decimal(100)) if length is not None and product_grade(d, length) == "A" else Decimal(400)


@remembered(_REMEMBERED)
def limit_of(sized: Sized, property_class: str | None, form: Form | None, id: str) -> Limit | None:
    """Return the limit of a figure that is not the length."""
    if form is None:
        return None
    mechanical = _mechanical(sized, property_class).get(id) if id in OF_CLASS else None
    return mechanical or _dimension(sized, form, id)


def _dimension(sized: Sized, form: Form, id: str) -> Limit | None:
    if id in _OF_LENGTH:
        return None
    bounds = dimensions_of_form(sized.product, sized.size, form.suffixes, form.without).get(id)
    bounds = form.unthreaded if id == _UNTHREADED else bounds
    return None if bounds is None else _limit(bounds)


@remembered(_REMEMBERED)
def outline_limit(part: Outline, length: Decimal | None, id: str) -> Limit | None:
    """Return the limit of a figure of a part that is not certain, None where its standard would be needed to say.

    Loads, strengths and hardness of bolts follow from thread and class (ISO 898-1, ISO 3506-1, SAE J429).
    """
    product = part.held
    if product is not None:
        sized = the_only(product, part.size)
        return limit_of(sized, part.property_class, form_in(sized, length), id)
    reduced = part.product is not None and bool(part.product.options.loadability)
    if part.kind != "bolt" or part.strength_class is None or reduced:
        return None
    return _limits_of_class(part.size, part.strength_class, "external", None).get(id)


@remembered(4096)
def specified(part: ProductDesignation, length: Decimal | None, id: str) -> Limit | None:
    """Return the limit of a figure among everything that is required of the designation, or None."""
    try:
        required = specification_of(replace(part, length=length)).characteristics.get(id)
    except Refusal:
        return None
    return None if required is None or required.bounds is None else _limit(required.bounds)


@remembered(_REMEMBERED)
def _mechanical(sized: Sized, property_class: str | None) -> dict[str, Limit]:
    product, size = sized.product, sized.size
    if property_class is None or product.family.hardness_only or product.own_strength:
        return {}
    style = product.nut_style(property_class)
    return _limits_of_class(size, product.strength_class(property_class), product.member, style)


@remembered(_REMEMBERED)
def _limits_of_class(size: ThreadSize, name: str, member: Member | None, style: int | None) -> dict[str, Limit]:
    try:
        minimums = mechanical_minimums(size, name, member, style=style)
    except Refusal:
        return {}
    loads, properties = minimums.loads, minimums.properties
    return {
        **{id: _limit(loads[name], exact=True) for id, name in _LOADS.items() if name in loads},
        **{id: _limit(properties[id], exact=True) for id in _STRENGTHS if id in properties},
        **{id: _limit(properties[name]) for id, name in _HARDNESS.items() if name in properties},
        **{id: _limit(properties[id]) for id in _OTHERS if id in properties},
    }


def _limit(bounds: Bounds, exact: bool = False) -> Limit:
    low = float("-inf") if bounds.min is None else float(bounds.min)
    high = float("inf") if bounds.max is None else float(bounds.max)
    return Limit(low, high, exact, bounds)


@remembered(_REMEMBERED)
def _length_limit(length: Decimal, grade: str, length_class: str) -> Limit | None:
    try:
        return _limit(length_bounds(length, grade, length_class))
    except Refusal:
        return None


def limit_of_length(part: ProductDesignation, length: Decimal | None) -> Limit | None:
    """Return the limit of the length itself."""
    if length is None or not part.product.has_length or not isinstance(part.size, MetricSize):
        return None
    grade = part.product.options.grade or product_grade(part.size.d, length)
    return _length_limit(length, grade, part.product.options.length_class)
