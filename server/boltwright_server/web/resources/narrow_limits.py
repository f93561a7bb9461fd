"""POST /v1/narrow-limits: a decision for each piece while a machine runs, by the zones of the tolerance."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import msgspec
from flask import Response, request
from marshmallow import Schema, fields

from ...process.narrow_limits import ZONES, Zones, decide, zones
from ...quantities import Basis, NotUnderstood
from ..api import blueprint as new_blueprint
from ..bodies import json_body, load_body
from ..caching import JSON
from ..fields import StrictDecimal
from ..presentation import basis, encode
from ..schemas import AnswerSchema, BasisSchema

blueprint = new_blueprint("narrow_limits", "Narrow-limit (pre-control) decisions")
_FLOATS = msgspec.json.Decoder(list[float])
_PRACTICE = Basis("common practice", "-", "narrow-limit (pre-control) rules", "common practice", "two reproductions")


class NarrowLimitsBody(Schema):
    """Limits; one limit alone needs a target value."""

    min = StrictDecimal(allow_none=True, load_default=None)
    max = StrictDecimal(allow_none=True, load_default=None)
    target = StrictDecimal(allow_none=True, load_default=None)


class StepSchema(Schema):
    """The decision after one piece."""

    zone = fields.String(metadata={"enum": list(ZONES)})
    action = fields.String(
        metadata={
            "enum": [
                "measure_next",
                "continue",
                "adjust",
                "reset_centre",
                "stop_spread_too_large",
                "stop_adjust_and_sort",
            ]
        }
    )
    qualified = fields.Boolean()


class NarrowLimitsSchema(AnswerSchema):
    """Zones and decisions."""

    zones = fields.Dict(metadata={"description": "min, warning_low, warning_high, max: the edges of the zones."})
    steps = fields.List(fields.Nested(StepSchema))
    action = fields.String()
    qualified = fields.Boolean()
    basis = fields.Nested(BasisSchema)


BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["values"],
    "additionalProperties": False,
    "properties": {
        "values": {"type": "array", "items": {"type": "number"}},
        "min": {"type": ["number", "null"]},
        "max": {"type": ["number", "null"]},
        "target": {"type": ["number", "null"]},
    },
}


@blueprint.route("/narrow-limits", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@blueprint.response(200, NarrowLimitsSchema)
def post_narrow_limits() -> Response:
    """Return zone and action for each piece in the order of production, starting with a set-up to qualify."""
    members, columns = load_body(json_body(request), NarrowLimitsBody, {"values": _FLOATS})
    # By their shortest text the readings are the decimals that were written, so that an edge is an edge.
    values = [Fraction(repr(value)) for value in columns["values"]]
    if not values:
        raise NotUnderstood("values holds no reading", member="values", code="no_readings")
    edges = _zones(members)
    steps = decide(values, edges)
    answer = {
        "zones": {
            "min": _number(edges.low),
            "warning_low": _number(edges.warning_low),
            "warning_high": _number(edges.warning_high),
            "max": _number(edges.high),
        },
        "steps": [{"zone": step.zone, "action": step.action, "qualified": step.qualified} for step in steps],
        "action": steps[-1].action,
        "qualified": steps[-1].qualified,
        "basis": basis(_PRACTICE),
    }
    return Response(encode(answer), mimetype=JSON)


def _zones(members: dict[str, Any]) -> Zones:
    low, high, target = (members[name] for name in ("min", "max", "target"))
    if low is None and high is None:
        raise NotUnderstood("narrow limits need min or max", member="min", code="missing_member")
    if low is not None and high is not None and low >= high:
        raise NotUnderstood(f"min {low} is not below max {high}", member="min", code="contradiction")
    if (low is None or high is None) and target is None:
        raise NotUnderstood("one limit alone needs a target value", member="target", code="missing_member")
    return zones(*(None if one is None else Fraction(one) for one in (low, high, target)))


def _number(edge: Fraction | None) -> float | None:
    return None if edge is None else edge.numerator / edge.denominator
