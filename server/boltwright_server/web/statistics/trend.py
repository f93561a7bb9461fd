"""POST /v1/trend: how fast values drift, and how many pieces are left until a limit."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import fields

from ...statistics.trend import Trend, trend
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON
from ..http.presentation import encode
from ..http.schemas import AnswerSchema, StatedLimitsSchema
from .bodies import CONFIDENCE, LIMITS, Limits, LimitsBody, confidence_level, limits_of, read, request_body

blueprint = new_blueprint("trend", "Trend and tool wear")


class TrendBody(LimitsBody):
    """Everything but the values."""

    confidence_level = confidence_level()


class TrendSchema(AnswerSchema):
    """A straight trend. Pieces are counted after the last value; null: the limit is not reached or not proved."""

    slope = fields.Float(metadata={"description": "Per piece, in the unit of the values."})
    slope_interval = fields.List(fields.Float())
    significant = fields.Boolean()
    residual_standard_deviation = fields.Float()
    limit = fields.Float(allow_none=True, metadata={"description": "That the values run towards, in their unit."})
    pieces_until_limit = fields.Float(allow_none=True, metadata={"description": "Until the line meets the limit."})
    pieces_until_limit_interval = fields.List(
        fields.Float(allow_none=True), metadata={"description": "Until the band of the line meets it, and has passed."}
    )
    pieces_until_risk = fields.Float(
        allow_none=True, metadata={"description": "Until the band of a single piece, which scatters, meets the limit."}
    )
    limits = fields.Nested(StatedLimitsSchema)
    notices = fields.List(fields.String())


@blueprint.route("/trend", methods=["POST"])
@blueprint.doc(requestBody=request_body(LIMITS, CONFIDENCE))
@blueprint.response(200, TrendSchema)
def post_trend() -> Response:
    """Return the drift of values in the order of production and the pieces until the limit that it runs towards."""
    members, values = read(request, TrendBody)
    limits = limits_of(members)
    found = trend(values, *limits.floats, float(members["confidence_level"]))
    return Response(encode(_shown(found, limits)), mimetype=JSON)


def _shown(found: Trend, limits: Limits) -> dict[str, Any]:
    notices = [] if found.significant else ["the slope is not proved at this confidence: there is no forecast"]
    return {
        "slope": found.slope,
        "slope_interval": list(found.slope_interval),
        "significant": found.significant,
        "residual_standard_deviation": found.residual_standard_deviation,
        "limit": found.limit,
        "pieces_until_limit": found.pieces_until_limit,
        "pieces_until_limit_interval": [found.earliest, found.latest],
        "pieces_until_risk": found.at_risk,
        "limits": limits.shown,
        "notices": [*limits.notices, *notices],
    }
