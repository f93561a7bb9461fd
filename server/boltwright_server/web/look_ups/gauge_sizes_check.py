"""POST /v1/gauge-sizes/check: a measured gauge against its limits when new and its wear limit."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any, TypeVar

from flask import Response, request
from marshmallow import Schema, fields, validate
from msgspec import Struct

from ...designations import parse_thread
from ...designations.reader import LONGEST
from ...gauges import NAMES, condition, find_gauge
from ...quantities import Refusal
from ...quantities.units import CODES
from ..http.answers import Answer, BasisAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body, load, problem
from ..http.fields import StrictDecimal, StrictString
from ..http.members import anything
from .gauge_sizes import GaugeDimensionAnswer, dimension_shown, gauge_sets

blueprint = new_blueprint("gauge_sizes_check", "Measured gauges: fit for use, worn, or out of their limits")
#: Gauges in one request; a gauge room calibrates fewer in a year.
MOST = 1000
UNCERTAINTY = (
    "Judged as measured: the uncertainty of the measurement is not considered. A size equal to a limit is within it."
)


class MeasuredSchema(Schema):
    """A measured size."""

    error_messages = {"type": 'Not a valid measured size: send {"value": 9.003, "unit": "mm"}.'}  # noqa: RUF012

    value = StrictDecimal(required=True)
    unit = StrictString(required=True, validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"))


class GaugeCheckBody(Schema):
    """One measured size of one gauge."""

    designation = StrictString(
        required=True, validate=validate.Length(1, LONGEST, error=f"has 1 to {LONGEST} characters")
    )
    standard = StrictString(validate=validate.OneOf(NAMES, error=f"is not one of {', '.join(NAMES)}"))
    gauge = StrictString(required=True, validate=validate.Length(1, 60, error="has 1 to 60 characters"))
    dimension = StrictString(
        load_default="pitch_diameter", validate=validate.Length(1, 40, error="has 1 to 40 characters")
    )
    measured = fields.Nested(MeasuredSchema, required=True)


class GaugeCondition(Struct, kw_only=True):
    """What the measured size of one gauge means."""

    designation: Annotated[str, described("Canonical.", "M10-6g")]
    gauge_standard: Annotated[str, described("As cited.", "ISO 1502:1996")]
    gauge: Annotated[str, described("Its id.", "go_screw_ring")]
    dimension: Annotated[str, described("Which size of it.", "pitch_diameter")]
    status: Annotated[str, described("fit_for_use, worn or out_of_new_limits")]
    within_new_limits: bool
    measured: Annotated[Decimal, described("In the unit of the gauge standard.")]
    unit: str
    remaining_wear: Annotated[Decimal | None, described("Negative for a worn gauge; null without a wear limit.")]
    passes_outside: Annotated[
        Decimal | None,
        described("How far beyond the product limit a part may measure and still pass this gauge."),
    ]
    limits: GaugeDimensionAnswer
    basis: BasisAnswer
    reasons: list[str]
    notices: list[str]


class GaugeSizesCheck(GaugeCondition, Answer, kw_only=True):
    """The answer to one gauge."""


class GaugeSizesChecks(Answer):
    """The answer to a list of gauges, in the order of the request."""

    gauges: list[GaugeCondition]


K = TypeVar("K", bound=GaugeCondition)
_ONE: dict[str, Any] = {
    "type": "object",
    "required": ["designation", "gauge", "measured"],
    "additionalProperties": False,
    "properties": {
        "designation": {"type": "string", "example": "M10-6g"},
        "standard": {"type": "string", "enum": list(NAMES)},
        "gauge": {"type": "string", "example": "go_screw_ring"},
        "dimension": {"type": "string", "default": "pitch_diameter"},
        "measured": {
            "type": "object",
            "required": ["value", "unit"],
            "properties": {"value": {"type": "number"}, "unit": {"type": "string", "enum": list(CODES)}},
        },
    },
}
BODY_SCHEMA: dict[str, Any] = {
    "oneOf": [
        _ONE,
        {
            "type": "object",
            "required": ["gauges"],
            "additionalProperties": False,
            "properties": {"gauges": {"type": "array", "maxItems": MOST, "items": _ONE}},
        },
    ]
}


@blueprint.route("/gauge-sizes/check", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@answers(blueprint, GaugeSizesCheck, GaugeSizesChecks)
def post_gauge_sizes_check() -> Response:
    """Judge one measured gauge, or the list `gauges` of them: fit for use, worn, or out of its limits."""
    body = anything(json_body(request), ())
    if not isinstance(body, dict):
        raise problem("wrong_type", "the body is an object: one gauge, or gauges with a list of them", ())
    if "gauges" not in body:
        return sent(_judged(GaugeSizesCheck, body, ()))
    given = body["gauges"]
    if set(body) != {"gauges"} or not isinstance(given, list) or not 1 <= len(given) <= MOST:
        raise problem("invalid", f"gauges is a list of 1 to {MOST} gauges and stands alone", ("gauges",))
    return sent(
        GaugeSizesChecks(
            gauges=[_judged(GaugeCondition, one, ("gauges", str(index))) for index, one in enumerate(given)]
        )
    )


def _judged(kind: type[K], given: Any, path: tuple[str, ...]) -> K:
    """Return what the measured size of one gauge means; a refusal points below `path`."""
    if not isinstance(given, dict):
        raise problem("wrong_type", f"{'/'.join(path)} is an object", path)
    members = load(GaugeCheckBody, given, path)
    try:
        thread = parse_thread(members["designation"])
        sets = gauge_sets(thread, members.get("standard"))
        measured = members["measured"]
        gauge = find_gauge(sets, members["gauge"])
        found = condition(gauge, members["dimension"], measured["value"], measured["unit"])
    except Refusal as refusal:
        refusal.member = "/".join((*path, refusal.member)) if refusal.member else "/".join(path)
        raise
    size = found.dimension
    worn = found.status == "worn" and size.wear_basis is not None
    return shown(
        kind,
        found,
        designation=thread.canonical,
        gauge_standard=sets[0].gauge_standard,
        gauge=gauge.id,
        dimension=members["dimension"],
        measured=_decimal(found.measured),
        unit=size.unit,
        remaining_wear=_decimal(found.remaining_wear),
        passes_outside=_decimal(found.passes_outside),
        limits=dimension_shown(size),
        basis=size.wear_basis if worn else size.basis,
        notices=[UNCERTAINTY, *dict.fromkeys(notice for one in sets for notice in one.notices)],
    )


def _decimal(value: Fraction | None) -> Decimal | None:
    """Return the value to 0.1 um or 0.000001 in, for display."""
    if value is None:
        return None
    return (Decimal(value.numerator) / Decimal(value.denominator)).quantize(Decimal("0.000001"))
