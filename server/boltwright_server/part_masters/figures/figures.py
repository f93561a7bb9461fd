"""Figures stored in a part master, held against the standard."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from ...designations import ProductDesignation
from ...quantities import Refusal
from ...quantities.keeper import remembered
from ...quantities.units import CODES, factor
from ...specification.characteristic import has_role, property_of_scale, traits
from ..meaning.findings import Finding
from ..meaning.outline import Outline
from ..meaning.resolution import Resolved, Sized
from .figure_limits import OF_CLASS, Form, Limit, form_in, limit_of, limit_of_length, outline_limit, specified
from .figure_texts import LONGEST_FIGURE, known_unit, number_of, shown, split_unit, unit_of

_REMEMBERED = 65_536
#: Units that get mixed up, by the unit of the standard.
_CONFUSED = {"mm": ("in",), "N": ("kN", "lbf"), "MPa": ("ksi",), "lbf": ("N", "kN"), "in": ("mm",), "ksi": ("MPa",)}
_PSI = 1000.0
_SPOKEN = {"in": "inches"}
#: Neither the size nor the class has such a limit.
NO_LIMIT = None
_NO_CLASS = "no class is certain"
#: Part of the figure by which a stored load or strength may be rounded.
_ROUNDING = 0.0005


def check_figures(
    found: Resolved,
    outlines: tuple[Outline, ...],
    length: Decimal | None,
    figures: Mapping[str, Any],
    units: Mapping[str, str],
    said: list[Finding],
) -> None:
    """Hold every stored figure against the standard; adds a finding for each that is wrong or not judged."""
    part, sized = found.part, found.sized
    if part is None or sized is None or outlines != found.outlines:
        for id, given in figures.items():
            said += _of_several(outlines, length, id, given, units.get(id))
        return
    form = form_in(sized, length)
    for id, given in figures.items():
        if isinstance(given, str) and len(given) <= LONGEST_FIGURE and id != "length":
            wrong = _wrong_in_text(sized, part.property_class, form, id, given, units.get(id))
        else:
            of_length = limit_of_length(part, length) if id == "length" else None
            wrong = _wrong_in(sized, part.property_class, form, id, given, units.get(id), of_length)
        said += _by_specification(part, length, id, given, units.get(id)) if wrong is NO_LIMIT else wrong


def _of_several(
    outlines: tuple[Outline, ...], length: Decimal | None, id: str, given: Any, unit: str | None
) -> tuple[Finding, ...]:
    """A part that is not certain: what the thread and the class decide, else what each product that is meant has."""
    number, unit, unreadable = _number_in(id, given, unit)
    if number is None:
        return unreadable
    asked = _asked(id, unit)
    found = (outline_limit(one, length, asked) for one in outlines)
    limits = [limit for limit in found if limit is not None and _says_something(limit, number)]
    if not limits or len(limits) < len(outlines):
        return (_not_judged(id, given, _why_open(outlines, id)),)
    wrong = [_check(id, number, unit, limit) for limit in limits]
    worst = wrong[0]
    return () if worst is None or None in wrong else (worst,)


def _by_specification(
    part: ProductDesignation, length: Decimal | None, id: str, given: Any, unit: str | None
) -> tuple[Finding, ...]:
    """What neither the table of sizes nor the class holds, everything that is required of the designation may."""
    number, unit, _ = _number_in(id, given, unit)
    limit = specified(part, length if part.product.has_length else None, id)
    if limit is None or number is None or not _says_something(limit, number):
        why = f"{part.product.id} {part.size.designation} has no such limit" if part.property_class else _NO_CLASS
        return (_not_judged(id, given, why),)
    wrong = _check(id, number, unit, limit)
    return () if wrong is None else (wrong,)


def _why_open(outlines: tuple[Outline, ...], id: str) -> str:
    if not outlines:
        return "no product is certain"
    if id in OF_CLASS and all(one.property_class is None for one in outlines):
        return _NO_CLASS
    not_held = next((one.not_held for one in outlines if one.not_held is not None), None)
    return f"{not_held} is not held" if not_held else f"not every product that may be meant ({_names(outlines)}) has it"


def _names(outlines: tuple[Outline, ...]) -> str:
    return " or ".join(dict.fromkeys(one.name for one in outlines))


def _not_judged(id: str, given: Any, why: str) -> Finding:
    return Finding("figures-not-judged", id, shown(given), None, f"{id} {shown(given)} is not judged: {why}")


@remembered(_REMEMBERED)
def _wrong_in_text(
    sized: Sized, property_class: str | None, form: Form | None, id: str, given: str, unit: str | None
) -> tuple[Finding, ...] | None:
    """Parts of one size have the same figures stored: each is looked at once."""
    return _wrong_in(sized, property_class, form, id, given, unit, None)


def _number_in(id: str, given: Any, unit: str | None) -> tuple[float | None, str | None, tuple[Finding, ...]]:
    """Return number and unit of a figure, or what is wrong; `unit` is that of its name, which its own overrides."""
    if isinstance(given, dict):
        unit = unit_of(given)
    number = number_of(given)
    if number is None and isinstance(given, str) and (both := split_unit(given)) is not None:
        number, unit = number_of(both[0]), both[1]
    if number is None:
        return None, None, (Finding("value-unreadable", id, shown(given), None, f"{id}: {shown(given)} is no number"),)
    return number, None if unit is None else known_unit(unit), ()


def _says_something(limit: Limit, number: float) -> bool:
    """Whether there is a limit to hold the figure against; a nominal value alone is none, but a figure may name it."""
    bounds = limit.bounds
    bounded = bounds.min is not None or bounds.max is not None
    return bounded or (bounds.nominal is not None and number == float(bounds.nominal))


def _asked(id: str, unit: str | None) -> str:
    """A hardness in another scale than the usual is held against that scale's own limits, never converted."""
    _, *others = property_of_scale()
    return property_of_scale()[unit] if unit in others and has_role(id, "core") else id


def _wrong_in(
    sized: Sized,
    property_class: str | None,
    form: Form | None,
    id: str,
    given: Any,
    unit: str | None,
    of_length: Limit | None,
) -> tuple[Finding, ...] | None:
    """Return what is wrong with a figure; NO_LIMIT where neither size nor class has one."""
    number, unit, unreadable = _number_in(id, given, unit)
    if number is None:
        return unreadable
    limit = of_length if id == "length" else limit_of(sized, property_class, form, _asked(id, unit))
    if limit is None or not _says_something(limit, number):
        return NO_LIMIT
    found = _check(id, number, unit, limit)
    return () if found is None else (found,)


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
    as_given = f"{given:g}" + ("" if unit is None else f" {unit}")
    why = f"; it would be right in {_SPOKEN.get(other, other)}" if other else ""
    basis = bounds.basis
    detail = f"{id} {as_given}: {basis.cited}, {basis.clause}, requires {expected}{why}"
    return Finding(code, id, as_given, expected, detail, basis, _right(given, limit, other))


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
