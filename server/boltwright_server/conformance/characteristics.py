"""Which characteristics a lot is judged on: the specification's, with the purchaser's requirements put in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from difflib import get_close_matches
from typing import Any

from ..quantities import Basis, Bounds, Contradiction, NotUnderstood, Refusal
from ..quantities.units import factor
from ..specification import GROUPS, Characteristic, Specification
from .readings import Request, Requirement


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
    for requirement in request.requirements:
        found[requirement.id] = _with_requirement(found.get(requirement.id), requirement, notices)
    for id in request.dropped:
        if id not in found:
            raise unknown(id, found, f"requirements/{id}")
        if found[id].mandatory and not request.dropped[id]:
            notices.append(f"{id}: mandatory, dropped at the purchaser's word without a reason")
        del found[id]
    if request.fracture_rule == "thread_only" and "fracture_location" in found:
        found["fracture_location"] = _thread_only(found["fracture_location"])
    return Judged(found, dict(request.dropped), tuple(notices))


def unknown(id: str, known: dict[str, Characteristic], member: str) -> UnknownCharacteristic:
    """Return the refusal for an id that is not judged here."""
    hint = {"thread_length": "; b is a reference dimension, send grip_length or body_length"}.get(id, "")
    near = get_close_matches(id[:60], list(known), n=3, cutoff=0.5)
    return UnknownCharacteristic(
        f"{id[:60]!r} is no characteristic of this designation{hint}"
        + (f"; nearest: {', '.join(near)}" if near else ""),
        member=member,
        nearest=near,
    )


def _thread_only(characteristic: Characteristic) -> Characteristic:
    basis = Basis("purchaser", "order", "fracture rule thread_only", "common practice", "memory")
    return replace(characteristic, allowed=("thread",), basis=basis)


def _with_requirement(standing: Characteristic | None, requirement: Requirement, notices: list[str]) -> Characteristic:
    given, id = requirement.given, requirement.id
    basis = Basis(
        requirement.document or "purchaser's requirement",
        requirement.revision or "-",
        "requirement of the request",
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
        raise NotUnderstood(f"{id} is {standing.kind} and has no limits", member=f"requirements/{id}")
    bounds = _merged(standing.bounds, given, basis, id)
    _say_if_looser(id, standing.bounds, bounds, notices)
    return replace(changed, bounds=bounds, basis=basis, scales={bounds.unit: bounds} if standing.scales else {})


def _added(id: str, given: Any, basis: Basis) -> Characteristic:
    """A characteristic that the standard does not have, from a drawing."""
    if given.get("min") is None and given.get("max") is None:
        raise NotUnderstood(f"{id}: a new characteristic needs min or max", member=f"requirements/{id}")
    if "unit" not in given:
        raise NotUnderstood(f"{id}: a new characteristic needs a unit", member=f"requirements/{id}/unit")
    bounds = _bounds(id, given.get("min"), given.get("max"), given["unit"], basis)
    return Characteristic(
        id,
        "measured",
        given.get("group", GROUPS[0]),
        "as agreed",
        False,
        given.get("mandatory", True),
        basis,
        bounds,
    )


def _merged(standing: Bounds, given: Any, basis: Basis, id: str) -> Bounds:
    """Take the given sides in their unit and keep the standard's on a side that is not given."""
    unit = given.get("unit", standing.unit)
    factor(unit, standing.unit, f"requirements/{id}/unit")
    low = given["min"] if "min" in given else _converted(standing.min, standing.unit, unit)
    high = given["max"] if "max" in given else _converted(standing.max, standing.unit, unit)
    return _bounds(standing.symbol, low, high, unit, basis, id)


def _bounds(
    symbol: str, low: Decimal | None, high: Decimal | None, unit: str, basis: Basis, id: str | None = None
) -> Bounds:
    try:
        return Bounds(symbol, low, high, unit, basis)
    except ValueError as error:
        raise Contradiction(str(error), member=f"requirements/{id or symbol}") from None


def _converted(value: Decimal | None, given: str, wanted: str) -> Decimal | None:
    if value is None:
        return None
    exact = factor(given, wanted)
    return value * exact.numerator / exact.denominator


def _say_if_looser(id: str, standing: Bounds, bounds: Bounds, notices: list[str]) -> None:
    low = _converted(bounds.min, bounds.unit, standing.unit)
    high = _converted(bounds.max, bounds.unit, standing.unit)
    looser_low = standing.min is not None and (low is None or low < standing.min)
    looser_high = standing.max is not None and (high is None or high > standing.max)
    if looser_low or looser_high:
        notices.append(
            f"{id}: the requirement ({low} to {high} {standing.unit}) is looser than {standing.basis.standard}:"
            f"{standing.basis.edition} ({standing.min} to {standing.max} {standing.unit}); it is used as stated"
        )
