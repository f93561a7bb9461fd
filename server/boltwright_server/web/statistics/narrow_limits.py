"""POST /v1/narrow-limits: a decision for each piece while a machine runs, by the zones of the tolerance."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from flask import Response, request
from marshmallow import Schema, fields, validate

from ...quantities import NotUnderstood
from ...statistics.narrow_limits import ACTIONS, ZONES, Chances, Zones, chances, decide, zones
from ...statistics.sources import narrow_limits_basis
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON
from ..http.fields import StrictDecimal
from ..http.presentation import basis, encode
from ..http.schemas import AnswerSchema, BasisSchema, StatedLimitsSchema
from .bodies import LIMITS, Limits, LimitsBody, limits_of, read, request_body

blueprint = new_blueprint("narrow_limits", "Narrow-limit (pre-control) decisions")
_PROCESS = ("process_mean", "process_standard_deviation")


class NarrowLimitsBody(LimitsBody):
    """Limits; one limit alone needs a target value. With a process there are chances of the rules too."""

    target = StrictDecimal(allow_none=True)
    process_mean = StrictDecimal()
    process_standard_deviation = StrictDecimal(
        validate=validate.Range(min=0, min_inclusive=False, error="is above 0"),
    )


class StepSchema(Schema):
    """The decision after one piece."""

    zone = fields.String(metadata={"enum": list(ZONES)})
    action = fields.String(metadata={"enum": list(ACTIONS)})
    qualified = fields.Boolean()


class ChancesSchema(Schema):
    """What a steady normal process does to the rules."""

    target_zone = fields.Float()
    warning_zones = fields.Float()
    outside = fields.Float()
    qualification = fields.Float(metadata={"description": "Five pieces in a row in the target zone."})
    stop = fields.Float(metadata={"description": "A check of one or two pieces that ends in a stop."})


class NarrowLimitsSchema(AnswerSchema):
    """Zones and decisions."""

    zones = fields.Dict(metadata={"description": "min, warning_low, warning_high, max: the edges of the zones."})
    steps = fields.List(fields.Nested(StepSchema))
    action = fields.String()
    qualified = fields.Boolean()
    chances = fields.Nested(ChancesSchema, metadata={"description": "Only for a given process."})
    limits = fields.Nested(StatedLimitsSchema)
    notices = fields.List(fields.String())
    basis = fields.Nested(BasisSchema)


REQUEST_BODY = request_body(
    LIMITS,
    {
        "target": {"type": ["number", "null"], "description": "One limit alone needs it."},
        "process_mean": {"type": "number", "description": "With the standard deviation: asks for the chances."},
        "process_standard_deviation": {"type": "number", "exclusiveMinimum": 0},
    },
)


@blueprint.route("/narrow-limits", methods=["POST"])
@blueprint.doc(requestBody=REQUEST_BODY)
@blueprint.response(200, NarrowLimitsSchema)
def post_narrow_limits() -> Response:
    """Return zone and action for each piece in the order of production, starting with a set-up to qualify."""
    members, values = read(request, NarrowLimitsBody)
    limits = limits_of(members)
    edges = _zones(members, limits)
    # By their shortest text the readings are the decimals that were written, so that an edge is an edge.
    steps = decide([Fraction(repr(value)) for value in values.tolist()], edges)
    answer = {
        "zones": {
            "min": _number(edges.low),
            "warning_low": _number(edges.warning_low),
            "warning_high": _number(edges.warning_high),
            "max": _number(edges.high),
        },
        "steps": steps,
        "action": steps[-1].action,
        "qualified": steps[-1].qualified,
        **_chances(members, edges),
        "limits": limits.shown,
        "notices": list(limits.notices),
        "basis": basis(narrow_limits_basis()),
    }
    return Response(encode(answer), mimetype=JSON)


def _chances(members: dict[str, Any], edges: Zones) -> dict[str, Chances]:
    given = [name for name in _PROCESS if name in members]
    if not given:
        return {}
    for name in _PROCESS:
        if name not in members:
            raise NotUnderstood(f"{given[0]} needs {name}", member=name, code="missing_member")
    return {"chances": chances(edges, *(float(members[name]) for name in _PROCESS))}


def _zones(members: dict[str, Any], limits: Limits) -> Zones:
    if limits.low is None and limits.high is None:
        raise NotUnderstood("narrow limits need min or max", member="min", code="missing_member")
    target = members.get("target")
    if None in (limits.low, limits.high) and target is None:
        raise NotUnderstood("one limit alone needs a target value", member="target", code="missing_member")
    return zones(*(None if one is None else Fraction(one) for one in (limits.low, limits.high, target)))


def _number(edge: Fraction | None) -> float | None:
    return None if edge is None else edge.numerator / edge.denominator
