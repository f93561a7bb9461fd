"""Which characteristics a lot is judged on: the specification's, with the purchaser's requirements put in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction
from typing import Any

from ..quantities import Basis, Bounds, Contradiction, NotUnderstood, Refusal, cited, member_path, near_names
from ..quantities.units import factor
from ..specification import GROUPS, Characteristic, Specification
from ..specification.characteristic import Trait, traits
from .readings import Request, Requirement
from .rules import last_digit
from .wording import OF_REQUEST, limits_in_words

#: Digits of a converted limit in a sentence.
_SHORT = Context(prec=10)
#: What is known of a characteristic that only a drawing has.
_AGREED = Trait("measured", GROUPS[0], "as agreed", False, True)


@dataclass(frozen=True, slots=True)
class Judged:
    """The characteristics of a lot, what was dropped with its reason, and what must be said aloud."""

    characteristics: dict[str, Characteristic]
    dropped: dict[str, str]
    notices: tuple[str, ...]


class UnknownCharacteristic(Refusal):
    """The characteristic is not known, or does not apply to the product."""

    code = "unknown_characteristic"


def judged_characteristics(wanted: Specification, request: Request) -> Judged:
    """Apply requirements and drops to the characteristics of a specification.

    Raises:
        UnknownCharacteristic: a dropped id or a partial requirement names nothing that applies.
        NotUnderstood, Contradiction: a requirement cannot be read or its limits contradict each other.
    """
    found = dict(wanted.characteristics)
    notices: list[str] = []
    for requirement in sorted(request.requirements, key=lambda one: one.id):
        found[requirement.id] = _with_requirement(found.get(requirement.id), requirement, notices)
    for id in sorted(request.dropped):
        if id not in found:
            raise unknown(id, found, member_path("requirements", id))
        if found[id].mandatory:
            reason = request.dropped[id] or "no reason given"
            notices.append(f"{id}: mandatory, dropped at the purchaser's word ({reason})")
        del found[id]
    if request.fracture_rule == "thread_only" and "fracture_location" in found:
        found["fracture_location"] = _thread_only(found["fracture_location"])
    return Judged(found, dict(sorted(request.dropped.items())), tuple(notices))


def unknown(id: str, known: dict[str, Characteristic], member: str) -> UnknownCharacteristic:
    """Return the refusal for an id that is not judged here."""
    hint = {"thread_length": "; b is a reference dimension, send grip_length or body_length"}.get(id, "")
    by_symbol = (name for name, one in known.items() if one.bounds is not None and one.bounds.symbol == id)
    near = tuple(dict.fromkeys((*by_symbol, *near_names(id, known, 3))))
    return UnknownCharacteristic(
        f"{id[:60]!r} is no characteristic of this designation{hint}"
        + (f"; nearest: {', '.join(near)}" if near else ""),
        member=member,
        nearest=near,
    )


def _thread_only(characteristic: Characteristic) -> Characteristic:
    basis = Basis("order of the purchaser", "-", "fracture rule thread_only", "common practice", "memory")
    return replace(characteristic, allowed=("thread",), basis=basis)


def _with_requirement(standing: Characteristic | None, requirement: Requirement, notices: list[str]) -> Characteristic:
    given, id = requirement.given, requirement.id
    basis = Basis(
        requirement.document or "purchaser's requirement",
        requirement.revision or "-",
        OF_REQUEST,
        "tabulated",
        "one reproduction",
        "stated by the request; not checked here",
    )
    if standing is None:
        return _added(id, given, basis)
    changed = replace(
        standing,
        group=given.get("group", standing.group),
        mandatory=given.get("mandatory", standing.mandatory),
    )
    if "min" not in given and "max" not in given:
        return changed
    if standing.kind != "measured" or standing.bounds is None:
        raise NotUnderstood(f"{id} is {standing.kind} and has no limits", member=member_path("requirements", id))
    if standing.scales:
        return _on_scale(changed, given, basis, notices)
    basis = _with_kept_side(basis, standing.bounds, given)
    bounds = _merged(standing.bounds, given, basis, id)
    _say_if_looser(id, standing.bounds, bounds, given, notices)
    return replace(
        changed,
        bounds=bounds,
        basis=basis,
        reading_unit=standing.reading_unit or standing.bounds.unit,
        stated=_stated(standing.bounds, bounds, given),
    )


def _with_kept_side(basis: Basis, standing: Bounds, given: Any) -> Basis:
    """Say in the basis of a requirement where the side that it does not state comes from."""
    for side, value in (("min", standing.min), ("max", standing.max)):
        if side not in given and value is not None:
            source = standing.basis
            kept = f"{side} of {cited(source.standard, source.edition)}, {source.clause}"
            return replace(basis, note=f"{basis.note}; {kept}")
    return basis


def _on_scale(standing: Characteristic, given: Any, basis: Basis, notices: list[str]) -> Characteristic:
    """A hardness is required on one scale; the limits of the others no longer hold.

    Raises:
        NotUnderstood: one side is left to a standard on whose figures the sources disagree.
    """
    scale = given.get("unit") or next(iter(standing.scales))
    limits = standing.scales.get(scale)
    if limits is None:
        factor(scale, next(iter(standing.scales)), member_path("requirements", standing.id, "unit"))
    elif scale in standing.disputed and not {"min", "max"} <= set(given):
        raise NotUnderstood(
            f"{standing.id}: the sources disagree on the {scale} limits of this class; state both min and max",
            member=member_path("requirements", standing.id),
        )
    assert limits is not None
    basis = _with_kept_side(basis, limits, given)
    bounds = _merged(limits, given, basis, standing.id)
    _say_if_looser(standing.id, limits, bounds, given, notices)
    return replace(standing, bounds=bounds, basis=basis, scales={scale: bounds}, disputed={})


def _added(id: str, given: Any, basis: Basis) -> Characteristic:
    """A characteristic that the standard does not have, from a drawing."""
    if given.get("min") is None and given.get("max") is None:
        raise NotUnderstood(f"{id}: a new characteristic needs min or max", member=member_path("requirements", id))
    if "unit" not in given:
        raise NotUnderstood(f"{id}: a new characteristic needs a unit", member=member_path("requirements", id, "unit"))
    bounds = _bounds(id, given.get("min"), given.get("max"), given["unit"], basis)
    trait = traits().get(id, _AGREED)
    if trait.kind != "measured":
        raise NotUnderstood(f"{id} is {trait.kind} and has no limits", member=member_path("requirements", id))
    return Characteristic(
        id,
        "measured",
        given.get("group", trait.group),
        trait.instrument,
        trait.destructive,
        given.get("mandatory", True),
        basis,
        bounds,
    )


def _merged(standing: Bounds, given: Any, basis: Basis, id: str) -> Bounds:
    """Take the given sides in their unit and keep the standard's on a side that is not given."""
    unit = given.get("unit", standing.unit)
    factor(unit, standing.unit, member_path("requirements", id, "unit"))
    low = given["min"] if "min" in given else _converted(standing.min, standing.unit, unit, ROUND_FLOOR)
    high = given["max"] if "max" in given else _converted(standing.max, standing.unit, unit, ROUND_CEILING)
    if low is not None and high is not None and low > high and not {"min", "max"} <= set(given):
        kept = f"min {standing.min}" if "max" in given else f"max {standing.max}"
        side, value = ("max", high) if "max" in given else ("min", low)
        raise Contradiction(
            f"{id}: {side} {value} {unit} lies beyond the {kept} {standing.unit} of "
            f"{cited(standing.basis.standard, standing.basis.edition)}, which stays unless you state it too",
            member=member_path("requirements", id),
        )
    return _bounds(standing.symbol, low, high, unit, basis, id)


def _stated(standing: Bounds, bounds: Bounds, given: Any) -> tuple[Fraction | None, ...]:
    """Return the last stated digits, in the unit of `bounds`, where a side was kept and converted; else nothing."""
    if bounds.unit == standing.unit or {"min", "max"} <= set(given):
        return ()
    step = factor(standing.unit, bounds.unit)
    digits = []
    for side, kept, now in (("min", standing.min, bounds.min), ("max", standing.max, bounds.max)):
        digit = last_digit(now if side in given else kept, bounds.unit if side in given else standing.unit)
        digits.append(digit if digit is None or side in given else digit * step)
    return tuple(digits)


def _bounds(
    symbol: str, low: Decimal | None, high: Decimal | None, unit: str, basis: Basis, id: str | None = None
) -> Bounds:
    try:
        return Bounds(symbol, low, high, unit, basis)
    except ValueError as error:
        text = str(error).replace(f"{symbol}:", f"{id or symbol}:", 1)
        raise Contradiction(text, member=member_path("requirements", id or symbol)) from None


def _converted(value: Decimal | None, given: str, wanted: str, outward: str = ROUND_HALF_EVEN) -> Decimal | None:
    """Return a value in another unit to 28 digits; a limit goes outward, so that a reading equal to it conforms."""
    if value is None or given == wanted:
        return value
    exact = Fraction(value) * factor(given, wanted)
    return Context(prec=28, rounding=outward).divide(Decimal(exact.numerator), Decimal(exact.denominator))


def _say_if_looser(id: str, standing: Bounds, bounds: Bounds, given: Any, notices: list[str]) -> None:
    low = _converted(bounds.min, bounds.unit, standing.unit) if "min" in given else standing.min
    high = _converted(bounds.max, bounds.unit, standing.unit) if "max" in given else standing.max
    looser_low = standing.min is not None and (low is None or low < standing.min)
    looser_high = standing.max is not None and (high is None or high > standing.max)
    if looser_low or looser_high:
        shown = [None if side is None else _SHORT.plus(side) for side in (low, high)]
        stated = limits_in_words(replace(standing, min=shown[0], max=shown[1])) or "no limit"
        source = cited(standing.basis.standard, standing.basis.edition)
        notices.append(
            f"{id}: the requirement ({stated}) is looser than {source} ({limits_in_words(standing)}); "
            "it is used as stated"
        )
