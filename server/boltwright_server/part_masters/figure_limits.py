"""Limits that a stored figure is held against: of the size, of the class, of the length; worked out once for each."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from ..designations import ProductDesignation
from ..mechanical import mechanical_minimums
from ..products import Product, dimensions_of_form, form_of
from ..products.product_grade import length_bounds, product_grade
from ..quantities import Bounds, Refusal
from ..specification.characteristic import traits
from ..threads import MetricSize, ThreadSize
from .resolution import Sized

_REMEMBERED = 65_536
#: Figures that repeat the standard's minimum; a stored one is right only if it is that minimum.
_LOADS = {"tensile_load": "tensile_load", "proof_load": "proof_load", "nut_proof_load": "proof_load"}
_STRENGTHS = ("tensile_strength", "yield_strength", "proof_stress")
_HARDNESS = {
    "hardness_core": "hardness_vickers",
    "hardness_vickers": "hardness_vickers",
    "hardness_rockwell_c": "hardness_rockwell_c",
    "hardness_rockwell_b": "hardness_rockwell_b",
    "hardness_brinell": "hardness_brinell",
}
_OTHERS = ("elongation", "reduction_of_area", "impact_energy")
#: Dimensions that are nothing but a matter of the length; the others are alike for many lengths.
_OF_LENGTH = ("length", "grip_length", "body_length", "thread_length")
_UNTHREADED = "unthreaded_length"
#: Figures that the property class decides, where its standard gives them.
_OF_CLASS = frozenset((*_LOADS, *_STRENGTHS, *_HARDNESS, *_OTHERS))


class Limit(NamedTuple):
    """The limit that a stored figure is held against, as doubles: text equal to a limit is the limit's double."""

    low: float
    high: float
    exact: bool
    bounds: Bounds


def figure_ids() -> frozenset[str]:
    """Return the ids under which a part master may store a figure."""
    return frozenset((*traits(), *_LOADS, *_STRENGTHS, *_HARDNESS)) - {"fracture_location", "marking"}


@dataclass(frozen=True, eq=False, slots=True)
class Form:
    """What of the length decides the other dimensions. There is one of each: limits are remembered by its identity."""

    suffixes: tuple[str, ...]
    without: tuple[str, ...]
    unthreaded: Bounds | None


@lru_cache(maxsize=_REMEMBERED)
def _the_only(suffixes: tuple[str, ...], without: tuple[str, ...], unthreaded: Bounds | None) -> Form:
    return Form(suffixes, without, unthreaded)


@lru_cache(maxsize=_REMEMBERED)
def form_in(sized: Sized, length: Decimal | None) -> Form | None:
    """Return the form that the length decides; None where the standard has no such part."""
    product, size = sized.product, sized.size
    try:
        form = form_of(product, size, length if _decides(product, size, length) else _representative(sized, length))
    except Refusal:
        return None
    return _the_only(form.suffixes, form.without, form.thread.dimensions().get(_UNTHREADED))


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


@lru_cache(maxsize=_REMEMBERED)
def limit_of(sized: Sized, property_class: str | None, form: Form | None, id: str) -> Limit | None:
    """Return the limit of a figure that is not the length."""
    if form is None:
        return None
    mechanical = _mechanical(sized, property_class).get(id) if id in _OF_CLASS else None
    return mechanical or _dimension(sized, form, id)


def _dimension(sized: Sized, form: Form, id: str) -> Limit | None:
    if id in _OF_LENGTH:
        return None
    bounds = dimensions_of_form(sized.product, sized.size, form.suffixes, form.without).get(id)
    bounds = form.unthreaded if id == _UNTHREADED else bounds
    return None if bounds is None else _limit(bounds)


@lru_cache(maxsize=_REMEMBERED)
def _mechanical(sized: Sized, property_class: str | None) -> dict[str, Limit]:
    product, size = sized.product, sized.size
    if property_class is None or product.family.hardness_only:
        return {}
    try:
        minimums = mechanical_minimums(
            size,
            product.strength_class(property_class),
            product.member,
            style=product.nut_style(property_class),
        )
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


@lru_cache(maxsize=_REMEMBERED)
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
