"""Figures stored in a part master: read whatever way they were typed, and held against the standard."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any, NamedTuple

from ..designations import ProductDesignation
from ..mechanical import mechanical_minimums
from ..products import Product, dimensions_of_form, form_of
from ..products.product_grade import length_bounds, product_grade
from ..quantities import Bounds, Refusal
from ..quantities.units import CODES, factor
from ..specification.characteristic import traits
from ..threads import MetricSize, ThreadSize
from .findings import Finding
from .resolution import Resolved, Sized

_REMEMBERED = 65_536
_LONGEST_FIGURE = 40
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
#: A hardness in another scale is held against that scale's own limits, never converted.
_OF_SCALE = {"HRC": "hardness_rockwell_c", "HRB": "hardness_rockwell_b", "HBW": "hardness_brinell"}
_OTHERS = ("elongation", "reduction_of_area", "impact_energy")
#: Units that get mixed up, by the unit of the standard.
_CONFUSED = {"mm": ("in",), "N": ("kN", "lbf"), "MPa": ("ksi",), "lbf": ("N", "kN"), "in": ("mm",), "ksi": ("MPa",)}
_PSI = 1000.0
_SPOKEN = {"in": "inches"}
#: A number with its unit in one cell.
_WITH_UNIT = re.compile(r"([-+0-9.,\s]{1,30}?)\s*([A-Za-z][A-Za-z0-9./]{0,5})")
#: N/mm2 is how Europe writes MPa.
_UNITS = {code.lower(): code for code in CODES} | {"n/mm2": "MPa", "inch": "in", "nm": "N.m"}
#: Dimensions that are nothing but a matter of the length; the others are alike for many lengths.
_OF_LENGTH = ("length", "grip_length", "body_length", "thread_length")
_UNTHREADED = "unthreaded_length"
#: Figures that the property class decides, where its standard gives them.
_OF_CLASS = frozenset((*_LOADS, *_STRENGTHS, *_HARDNESS, *_OTHERS))
#: Part of the figure by which a stored load or strength may be rounded.
_ROUNDING = 0.0005


class Limit(NamedTuple):
    """The limit that a stored figure is held against, as doubles: text equal to a limit is the limit's double."""

    low: float
    high: float
    exact: bool
    bounds: Bounds


def figure_ids() -> frozenset[str]:
    """Return the ids under which a part master may store a figure."""
    return frozenset((*traits(), *_LOADS, *_STRENGTHS, *_HARDNESS)) - {"fracture_location", "marking"}


def value_of(given: str) -> float | None:
    """Return the number that a text holds, decimal comma or point; None where it holds none."""
    text = given.strip().replace(" ", "").replace("\u00a0", "")
    if not text or len(text) > _LONGEST_FIGURE or not text.isascii() or text[-1] not in "0123456789.":
        return None
    if "," in text:
        text = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text.replace(",", "")
    try:
        value = float(text)
    except ValueError:
        return None
    return value if abs(value) < 1e12 else None


def check_figures(
    found: Resolved, length: Decimal | None, figures: Mapping[str, Any], units: Mapping[str, str], said: list[Finding]
) -> None:
    """Hold every stored figure against the standard; adds a finding for each that is wrong or unreadable."""
    part, sized = found.part, found.sized
    assert part is not None
    assert sized is not None
    form = _form(sized, length)
    for id, given in figures.items():
        if isinstance(given, str) and len(given) <= _LONGEST_FIGURE and id != "length":
            said += _wrong_in_text(sized, part.property_class, form, id, given, units.get(id))
        else:
            of_length = _of_length(part, length) if id == "length" else None
            said += _wrong_in(sized, part.property_class, form, id, given, units.get(id), of_length)


@lru_cache(maxsize=_REMEMBERED)
def _wrong_in_text(
    sized: Sized, property_class: str | None, form: _Form | None, id: str, given: str, unit: str | None
) -> tuple[Finding, ...]:
    """Parts of one size have the same figures stored: each is looked at once."""
    return _wrong_in(sized, property_class, form, id, given, unit, None)


def _wrong_in(
    sized: Sized,
    property_class: str | None,
    form: _Form | None,
    id: str,
    given: Any,
    unit: str | None,
    of_length: Limit | None,
) -> tuple[Finding, ...]:
    """Return what is wrong with a figure; `unit` is that of its name, which counts if it does not say its own."""
    if isinstance(given, dict):
        unit = unit_of(given)
    number = number_of(given)
    if number is None and isinstance(given, str) and (both := split_unit(given)) is not None:
        number, unit = number_of(both[0]), both[1]
    if number is None:
        return (Finding("value-unreadable", id, _text(given), None, f"{id}: {_text(given)} is no number"),)
    unit = None if unit is None else _UNITS.get(unit.lower().replace("\u00b2", "2"), unit)
    asked = _OF_SCALE.get(unit or "", id) if id == "hardness_core" else id
    limit = of_length if id == "length" else _limit_of(sized, property_class, form, asked)
    found = None if limit is None else _check(id, number, unit, limit)
    return () if found is None else (found,)


def unit_of(given: dict[str, Any]) -> str | None:
    """Return the unit that stands beside a value, whatever its type."""
    unit = given.get("unit")
    return None if unit is None else str(unit)


def number_of(given: Any) -> float | None:
    """Return a figure given as a number, as text or as value with unit; None where it is none."""
    value = given.get("value") if isinstance(given, dict) else given
    return value_of(value) if isinstance(value, str) else _number(value)


def split_unit(given: str) -> tuple[str, str] | None:
    """Return number and unit of a text that holds both, `46.4 kN`; None where no known unit ends it."""
    text = given.strip().replace("\u00b2", "2")
    match = _WITH_UNIT.fullmatch(text) if len(given) <= _LONGEST_FIGURE else None
    if match is None:
        return None
    unit = _UNITS.get(match[2].lower())
    return None if unit is None else (match[1], unit)


def _number(value: Any) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
        return None
    number = float(value)
    return number if abs(number) < 1e12 else None


def _text(given: Any) -> str:
    return str(given)[:_LONGEST_FIGURE]


@dataclass(frozen=True, eq=False, slots=True)
class _Form:
    """What of the length decides the other dimensions. There is one of each: limits are remembered by its identity."""

    suffixes: tuple[str, ...]
    without: tuple[str, ...]
    unthreaded: Bounds | None


@lru_cache(maxsize=_REMEMBERED)
def _the_only(suffixes: tuple[str, ...], without: tuple[str, ...], unthreaded: Bounds | None) -> _Form:
    return _Form(suffixes, without, unthreaded)


@lru_cache(maxsize=_REMEMBERED)
def _form(sized: Sized, length: Decimal | None) -> _Form | None:
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
def _limit_of(sized: Sized, property_class: str | None, form: _Form | None, id: str) -> Limit | None:
    """Return the limit of a figure that is not the length."""
    if form is None:
        return None
    mechanical = _mechanical(sized, property_class).get(id) if id in _OF_CLASS else None
    return mechanical or _dimension(sized, form, id)


def _dimension(sized: Sized, form: _Form, id: str) -> Limit | None:
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


def _of_length(part: ProductDesignation, length: Decimal | None) -> Limit | None:
    if length is None or not part.product.has_length or not isinstance(part.size, MetricSize):
        return None
    grade = part.product.options.grade or product_grade(part.size.d, length)
    return _length_limit(length, grade, part.product.options.length_class)


def _check(id: str, given: float, unit: str | None, limit: Limit) -> Finding | None:
    number = given
    if unit is not None and unit != limit.bounds.unit:
        converted = _converted(given, unit, limit.bounds.unit)
        if converted is None:
            detail = f"{id}: unit {unit[:20]} does not fit a figure in {limit.bounds.unit}"
            return Finding("value-unreadable", id, f"{given:g} {unit[:20]}", limit.bounds.unit, detail)
        number = converted
    if _holds(number, limit) or _names_the_key(id, number, limit):
        return None
    other = None if unit is not None else _other_unit(number, limit)
    code = (
        "dimension-outside-limits"
        if traits().get(id) and traits()[id].group in ("dimension", "thread")
        else "mechanical-figure-wrong"
    )
    if other is not None:
        code = "unit-mix-up"
    return _wrong(code, id, given, unit, limit, other)


def _names_the_key(id: str, number: float, limit: Limit) -> bool:
    """A socket is called by its key: 8 mm, though its limits are 8.025 to 8.115."""
    nominal = limit.bounds.nominal
    return id == "socket_width_across_flats" and nominal is not None and number == float(nominal)


def _holds(number: float, limit: Limit) -> bool:
    if limit.exact:
        return abs(number - limit.low) <= _ROUNDING * limit.low
    return limit.low <= number <= limit.high


def _converted(given: float, unit: str, wanted: str) -> float | None:
    """Return the figure in the standard's unit, exact for figures as written; None where the units do not fit."""
    if unit not in CODES:
        return None
    try:
        step = factor(unit, wanted)
    except Refusal:
        return None
    exact = Decimal(repr(given)) * step.numerator / step.denominator
    return float(exact)


def _other_unit(number: float, limit: Limit) -> str | None:
    """Return the unit in which the figure would be right, if it is one of those that get mixed up."""
    unit = limit.bounds.unit
    if unit == "MPa" and _near(number / _PSI * 6.894757, limit):
        return "psi"
    for other in _CONFUSED.get(unit, ()):
        converted = _converted(number, other, unit)
        if converted is not None and _near(converted, limit):
            return other
    return None


def _near(number: float, limit: Limit) -> bool:
    """Inside the limits, or near a load: converted figures were rounded by whoever typed them."""
    if limit.exact:
        return abs(number - limit.low) <= 0.006 * limit.low
    if limit.low == float("-inf") or limit.high == float("inf"):
        end = limit.low if limit.high == float("inf") else limit.high
        return abs(number - end) <= 0.05 * abs(end)
    return limit.low * 0.995 <= number <= limit.high * 1.005


def _wrong(code: str, id: str, given: float, unit: str | None, limit: Limit, other: str | None) -> Finding:
    bounds = limit.bounds
    low = (
        "" if bounds.min is None else f"at least {bounds.min}" if limit.exact or bounds.max is None else f"{bounds.min}"
    )
    high = "" if bounds.max is None else f"at most {bounds.max}" if bounds.min is None else f" to {bounds.max}"
    expected = f"{low}{high} {bounds.unit}"
    shown = f"{given:g}" + ("" if unit is None else f" {unit}")
    why = f"; it would be right in {_SPOKEN.get(other, other)}" if other else ""
    basis = bounds.basis
    detail = f"{id} {shown}: {basis.standard}:{basis.edition}, {basis.clause}, requires {expected}{why}"
    return Finding(code, id, shown, expected, detail, basis, _right(given, limit, other))


def _right(given: float, limit: Limit, other: str | None) -> str | None:
    """A load or strength is the printed one; a figure in another unit is converted, with the decimals of its limit."""
    bounds = limit.bounds
    if limit.exact and bounds.min is not None:
        return f"{bounds.min} {bounds.unit}"
    end = bounds.max if bounds.max is not None else bounds.min
    converted = None if other is None or end is None else _converted(given, other, bounds.unit)
    if converted is None or end is None:
        return None
    rounded = Decimal(repr(converted)).quantize(end)
    return f"{rounded} {bounds.unit}" if _holds(float(rounded), limit) else None
