"""Which characteristics a lot is judged on: the specification's, with the purchaser's requirements put in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction
from typing import Any

from ..quantities import (
    Basis,
    Bounds,
    Contradiction,
    NotUnderstood,
    Refusal,
    member_path,
    near_names,
    stated_by_purchaser,
)
from ..quantities.units import factor
from ..specification import GROUPS, Characteristic, Specification
from ..specification.characteristic import Trait, traits
from .cross_rules import FRACTURE, is_located, is_pulled
from .readings import Request, Requirement
from .rules import last_digit
from .wording import OF_REQUEST, clause, limits_in_words

#: Digits of a converted limit in a sentence.
_SHORT = Context(prec=10)
#: What is known of a characteristic that only a drawing has.
_AGREED = Trait("measured", GROUPS[0], "as agreed", False, True)


@dataclass(frozen=True, slots=True)
class Deviation:
    """Where the purchaser asks for less than the standard; `used` is None where nothing is asked for any more."""

    standard: Characteristic
    used: Characteristic | None
    #: The document of the purchaser.
    basis: Basis
    detail: str

    @property
    def id(self) -> str:
        """The characteristic's id."""
        return self.standard.id


@dataclass(frozen=True, slots=True)
class Judged:
    """The characteristics of a lot, what was dropped with its reason, and what must be said aloud."""

    characteristics: dict[str, Characteristic]
    dropped: dict[str, str]
    deviations: tuple[Deviation, ...]
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
    standing = wanted.characteristics
    found = dict(standing)
    for requirement in sorted(request.requirements, key=lambda one: one.id):
        found[requirement.id] = _with_requirement(found.get(requirement.id), requirement)
    for id in sorted(request.dropped):
        if id not in found:
            raise unknown(id, found, member_path("requirements", id))
        del found[id]
    if request.fracture_rule == "thread_only" and FRACTURE in found:
        basis = stated_by_purchaser("order of the purchaser", "fracture rule thread_only")
        found[FRACTURE] = replace(found[FRACTURE], allowed=("thread",), basis=basis)
    deviations = tuple(_deviations(standing, found, request))
    notices = [one.detail for one in deviations]
    if FRACTURE in standing and not is_located(found) and any(map(is_pulled, found.values())):
        notices.append("Tensile test: the purchaser does not ask for the place of the break, so the load decides alone")
    return Judged(found, dict(sorted(request.dropped.items())), deviations, tuple(notices))


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


def _deviations(
    standing: Mapping[str, Characteristic], used: Mapping[str, Characteristic], request: Request
) -> Iterator[Deviation]:
    """Yield where less is asked for than the standard asks: limits, or that a mandatory characteristic is judged."""
    requirements = {one.id: one for one in request.requirements}
    for id, one in standing.items():
        now, asked = used.get(id), requirements.get(id)
        if now is None and one.mandatory:
            detail = f"{id}: mandatory, dropped at the purchaser's word ({request.dropped[id]})"
            yield Deviation(one, None, purchasers_basis(None, None), detail)
        elif now is not None and asked is not None and (told := _less(one, now, asked.given)):
            yield Deviation(one, now, purchasers_basis(asked.document, asked.revision), f"{id}: {told}")


def _less(standing: Characteristic, used: Characteristic, given: Mapping[str, Any]) -> str:
    """Say in what a characteristic asks for less than the standard; nothing where it does not."""
    told = [] if used.mandatory or not standing.mandatory else ["mandatory, not mandatory at the purchaser's word"]
    limits = used.bounds
    if limits is not None and standing.bounds is not None and limits is not standing.bounds:
        told.append(_looser(standing.scales.get(limits.unit, standing.bounds), limits, given))
    return "; ".join(filter(None, told))


def _looser(standing: Bounds, bounds: Bounds, given: Mapping[str, Any]) -> str:
    """Say that given limits are looser; compared exactly, in the unit of the standard."""
    step = factor(bounds.unit, standing.unit)
    low, high = (None if side is None else Fraction(side) * step for side in (bounds.min, bounds.max))
    looser_low = "min" in given and standing.min is not None and (low is None or low < standing.min)
    looser_high = "max" in given and standing.max is not None and (high is None or high > standing.max)
    if not looser_low and not looser_high:
        return ""
    shown = [_converted(side, bounds.unit, standing.unit) for side in (bounds.min, bounds.max)]
    low_shown, high_shown = (None if side is None else _SHORT.plus(side) for side in shown)
    stated = limits_in_words(replace(standing, min=low_shown, max=high_shown)) or "no limit"
    return (
        f"the requirement ({stated}) is looser than {clause(standing.basis)} ({limits_in_words(standing)}); "
        "it is used as stated"
    )


def purchasers_basis(document: str | None, revision: str | None) -> Basis:
    """Return the basis of what a purchaser asks for: stated in the request, checked by nobody here."""
    return stated_by_purchaser(document, OF_REQUEST, "tabulated", revision=revision)


def _with_requirement(standing: Characteristic | None, requirement: Requirement) -> Characteristic:
    given, id = requirement.given, requirement.id
    basis = purchasers_basis(requirement.document, requirement.revision)
    if standing is None:
        return _added(id, given, basis)
    if given.get("kind", standing.kind) != standing.kind:
        raise Contradiction(
            f"{id} is {standing.kind}, not {given['kind']}", member=member_path("requirements", id, "kind")
        )
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
        return _on_scale(changed, given, basis)
    basis = _with_kept_side(basis, standing.bounds, given)
    bounds = _merged(standing.bounds, given, basis, id)
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
            return replace(basis, note=f"{side} of {clause(standing.basis)}")
    return basis


def _on_scale(standing: Characteristic, given: Any, basis: Basis) -> Characteristic:
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
    guidance = None if "min" in given else standing.guidance
    return replace(standing, bounds=bounds, basis=basis, scales={scale: bounds}, disputed={}, guidance=guidance)


def _added(id: str, given: Any, basis: Basis) -> Characteristic:
    """A characteristic that the standard does not have, from a drawing or an order."""
    kind = given.get("kind", "measured")
    trait = traits().get(id, replace(_AGREED, kind=kind))
    if trait.kind != kind:
        what = "no attribute" if kind == "attribute" else "no measured characteristic: it has no limits"
        raise NotUnderstood(f"{id} is {trait.kind}, {what}", member=member_path("requirements", id))
    bounds = None
    if kind == "measured":
        bounds = _added_bounds(id, given, basis)
    elif {"min", "max", "unit"} & set(given):
        raise NotUnderstood(f"{id} is an attribute and has no limits", member=member_path("requirements", id))
    return Characteristic(
        id,
        trait.kind,
        given.get("group", trait.group),
        trait.instrument,
        trait.destructive,
        given.get("mandatory", True),
        basis,
        bounds,
        () if kind == "measured" else (True,),
        of_lot=trait.per == "lot",
    )


def _added_bounds(id: str, given: Any, basis: Basis) -> Bounds:
    if given.get("min") is None and given.get("max") is None:
        raise NotUnderstood(
            f"{id}: a new characteristic needs min or max, or kind attribute", member=member_path("requirements", id)
        )
    if "unit" not in given:
        raise NotUnderstood(f"{id}: a new characteristic needs a unit", member=member_path("requirements", id, "unit"))
    return _bounds(id, given.get("min"), given.get("max"), given["unit"], basis)


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
            f"{standing.basis.cited}, which stays unless you state it too",
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
