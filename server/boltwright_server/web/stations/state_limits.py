"""POST /v1/state-limits: limits of a state from final ones, by paired readings or by the geometry of a coating."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any

from flask import Response, request
from marshmallow import Schema, fields, validate
from msgspec import UNSET, Struct, UnsetType

from ...designations.reader import LONGEST
from ...quantities import NotUnderstood, near_names
from ...quantities.derivation import Step
from ...quantities.units import CODES, factor
from ...specification import Specification, specification
from ...stations import ALL_STATES, AS_DELIVERED
from ...stations.changes import Change, change_of
from ...stations.rounding import shown, step_of
from ...stations.state_limits import (
    Zone,
    before_changes,
    before_coating,
    coating_steps,
    in_process,
    steps_of,
    zone_given,
    zone_of,
)
from ..http.answers import Answer, BasisAnswer, answers, described
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body, problem
from ..http.derivations import Derivation, answer_with
from ..http.fields import StrictBoolean, StrictDecimal, StrictString
from ..http.members import load_body
from ..http.presentation import basis
from ..statistics.bodies import unit_of_values
from .bodies import FIGURE_SCHEMA, ThicknessBody, exact, share

blueprint = new_blueprint("state_limits", "Limits of a state of the part")
_STATE = validate.OneOf(ALL_STATES, error=f"is one of {', '.join(ALL_STATES)}")
_DIGITS = 10
#: Members of a request that its answer repeats.
_NAMES = ("designation", "characteristic", "state", "final_state")


class StateLimitsBody(Schema):
    """Final limits, and what happens to the part after the state."""

    designation = StrictString(validate=validate.Length(1, LONGEST, error=f"has 1 to {LONGEST} characters"))
    characteristic = StrictString(validate=validate.Length(1, 60, error="has 1 to 60 characters"))
    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    unit = unit_of_values()
    before = fields.List(StrictDecimal())
    after = fields.List(StrictDecimal())
    content = share()
    confidence = share()
    step = StrictDecimal(validate=validate.Range(Decimal(0), min_inclusive=False, error="is above 0"))
    state = StrictString(validate=_STATE)
    final_state = StrictString(load_default=AS_DELIVERED, validate=_STATE)
    coating_thickness = fields.Nested(ThicknessBody)
    explain = StrictBoolean(load_default=False)


class StateSides(Struct):
    """Limits before rounding."""

    min: Decimal | None
    max: Decimal | None


class StateLimits(Answer, kw_only=True):
    """Limits of a state. Where a coating decides there are no pairs, and nothing that is reckoned from them."""

    designation: str | UnsetType = UNSET
    characteristic: str | UnsetType = UNSET
    state: str | UnsetType = UNSET
    final_state: str | UnsetType = UNSET
    coating_thickness: Annotated[dict[str, Any] | UnsetType, described("As the request gave it.")] = UNSET
    unit: str
    final: Annotated[StateSides, described("The final limits.")]
    n: Annotated[int | UnsetType, described("Pairs.")] = UNSET
    shift: Decimal | UnsetType = UNSET
    standard_deviation: Decimal | UnsetType = UNSET
    sides: Annotated[int | UnsetType, described("1 where one limit is final: the factor is one-sided.")] = UNSET
    factor: Decimal | UnsetType = UNSET
    slope: Annotated[float | UnsetType | None, described("Of the change over the size before.")] = UNSET
    content: Decimal | UnsetType = UNSET
    confidence: Decimal | UnsetType = UNSET
    exact: StateSides
    min: Decimal | None
    max: Decimal | None
    step: Decimal
    basis: BasisAnswer
    notices: list[str]
    derivation: Derivation = UNSET


_NUMBERS = {"type": "array", "items": {"type": "number"}, "minItems": 2}
_SHARE = {"type": "number", "minimum": 0.5, "maximum": 0.9999, "default": 0.95}
BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "additionalProperties": False,
    "properties": {
        "designation": {"type": "string", "description": "With `characteristic`, in place of min and max."},
        "characteristic": {"type": "string"},
        "min": {"type": ["number", "null"]},
        "max": {"type": ["number", "null"]},
        "unit": {"type": "string", "enum": list(CODES), "description": "Of limits and readings."},
        "before": _NUMBERS,
        "after": _NUMBERS,
        "content": _SHARE,
        "confidence": _SHARE,
        "step": {"type": "number", "exclusiveMinimum": 0},
        "state": {"type": "string", "enum": list(ALL_STATES)},
        "final_state": {"type": "string", "enum": list(ALL_STATES), "default": AS_DELIVERED},
        "coating_thickness": {
            "type": "object",
            "required": ["max"],
            "properties": {"min": FIGURE_SCHEMA, "max": FIGURE_SCHEMA},
            "description": "In place of the pairs, for a diameter of a thread.",
        },
        "explain": {"type": "boolean", "default": False, "description": "Adds `derivation`."},
    },
}


@blueprint.route("/state-limits", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@answers(blueprint, StateLimits)
def post_state_limits() -> Response:
    """Return the limits in an earlier state: final limits less the shift, less the spread on each side."""
    members, _ = load_body(json_body(request), StateLimitsBody, {})
    wanted, final = _final(members)
    if "coating_thickness" in members:
        return _of_coating(members, wanted, final)
    for name in ("before", "after"):
        if name not in members:
            raise problem("missing_member", f"{name} is missing: paired readings, or coating_thickness", (name,))
    change = change_of(
        exact(members["before"]), exact(members["after"]), float(members["content"]), float(members["confidence"])
    )
    zone, step = before_changes(final, [change]), _step(members, final)
    return _answer(members, final, zone, change, steps_of(final, zone, step, change))


def _final(members: Mapping[str, Any]) -> tuple[Specification | None, Zone]:
    """Return the final limits in the unit of the readings."""
    if "designation" not in members:
        return None, _given(members)
    for name in ("min", "max"):
        if name in members:
            raise problem("contradiction", "give min and max, or designation and characteristic", (name,))
    wanted = specification(members["designation"])
    zone = zone_of(_characteristic(members, wanted))
    unit = members.get("unit", zone.unit)
    times = factor(zone.unit, unit)
    low, high = (None if limit is None else limit * times for limit in (zone.low, zone.high))
    return wanted, Zone(low, high, unit, zone.basis)


def _given(members: Mapping[str, Any]) -> Zone:
    if "coating_thickness" in members:
        raise problem("missing_member", "coating_thickness needs designation and characteristic", ("designation",))
    low, high = members.get("min"), members.get("max")
    if low is None and high is None:
        raise problem("missing_member", "final limits: min, max or both, or a designation", ("min",))
    if "unit" not in members:
        raise problem("missing_member", "unit of limits and readings is missing", ("unit",))
    if low is not None and high is not None and low > high:
        raise problem("contradiction", f"min {low} is above max {high}", ("min",))
    return zone_given(low, high, members["unit"])


def _characteristic(members: Mapping[str, Any], wanted: Specification) -> Any:
    id = members.get("characteristic")
    if id is None:
        raise problem("missing_member", "designation needs characteristic", ("characteristic",))
    found = wanted.characteristics.get(id)
    if found is None or found.bounds is None or (found.bounds.min is None and found.bounds.max is None):
        known = [name for name, one in wanted.characteristics.items() if one.bounds is not None]
        near = near_names(id, known)
        text = f"{id!r} is no characteristic with limits of {wanted.designation}"
        raise NotUnderstood(text, member="characteristic", code="unknown_characteristic", nearest=near)
    return found.bounds


def _of_coating(members: Mapping[str, Any], wanted: Specification | None, final: Zone) -> Response:
    for name in ("before", "after"):
        if name in members:
            text = "paired readings, or the geometry of a coating: not both"
            raise problem("contradiction", text, (name,))
    assert wanted is not None
    bounds = _characteristic(members, wanted)
    if wanted.tolerance is None or bounds.nominal is None:
        text = "a coating moves the diameters of a thread by geometry, and nothing else"
        raise problem("unknown_characteristic", text, ("characteristic",))
    thickness = members["coating_thickness"]
    times = factor(bounds.unit, final.unit)
    thickest = thickness["max"].in_unit(bounds.unit, "coating_thickness/max")
    if "min" in thickness and thickness["min"].in_unit(bounds.unit, "coating_thickness/min") > thickest:
        raise problem("contradiction", "min is above max", ("coating_thickness", "min"))
    zone = before_coating(members["characteristic"], bounds, bounds.nominal, wanted.tolerance.member, thickest)
    low, high = (None if limit is None else limit * times for limit in (zone.low, zone.high))
    before = Zone(low, high, final.unit, zone.basis, final=False)
    basic, member = Fraction(bounds.nominal) * times, wanted.tolerance.member
    step = _step(members, final)
    steps = coating_steps(final, before, step, members["characteristic"], basic, member, thickest * times)
    return _answer(members, final, before, None, steps)


def _step(members: Mapping[str, Any], zone: Zone) -> Decimal:
    return step_of(zone.unit, {zone.unit: members["step"]} if "step" in members else None)


def _answer(
    members: Mapping[str, Any], final: Zone, zone: Zone, change: Change | None, steps: tuple[Step, ...]
) -> Response:
    step = _step(members, zone)
    low, high = in_process(zone, step, "coating_thickness/max" if change is None else "after")
    named = {name: members[name] for name in _NAMES if name in members}
    told = {"content": members["content"], "confidence": members["confidence"]} if change is not None else {}
    limits = StateLimits(
        **named,
        unit=zone.unit,
        final=StateSides(shown(final.low), shown(final.high)),
        **({} if change is None else _change(change, zone.sides)),
        **told,
        exact=StateSides(shown(zone.low), shown(zone.high)),
        min=low,
        max=high,
        step=step,
        basis=basis(zone.basis),
        notices=[] if change is None else list(change.notices),
    )
    title = "Limits of a state"
    return answer_with(limits, title, {title: steps}, members["explain"])


def _change(change: Change, sides: int) -> dict[str, Any]:
    return {
        "n": change.n,
        "shift": shown(change.shift),
        "standard_deviation": shown(change.standard_deviation),
        "sides": sides,
        "factor": shown(_cut(change.factor(sides))),
        "slope": change.slope,
    }


def _cut(number: Fraction) -> Fraction:
    return Fraction(round(number * 10**_DIGITS), 10**_DIGITS)
