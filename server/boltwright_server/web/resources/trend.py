"""POST /v1/trend: how fast values drift, and how many pieces are left until a limit."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import msgspec
import numpy as np
from flask import Response, request
from marshmallow import Schema, fields, validate

from ...process.trend import trend
from ..api import blueprint as new_blueprint
from ..bodies import json_body, load_body
from ..caching import JSON
from ..fields import StrictDecimal
from ..presentation import encode
from ..schemas import AnswerSchema

blueprint = new_blueprint("trend", "Trend and tool wear")
_FLOATS = msgspec.json.Decoder(list[float])


class TrendBody(Schema):
    """Everything but the values."""

    min = StrictDecimal(allow_none=True, load_default=None)
    max = StrictDecimal(allow_none=True, load_default=None)
    confidence_level = StrictDecimal(
        load_default=Decimal("0.95"),
        validate=validate.Range(Decimal("0.5"), Decimal("0.999"), error="is from 0.5 to 0.999"),
    )


class TrendSchema(AnswerSchema):
    """A straight trend. Pieces are counted after the last value; null: the limit is not reached or not proved."""

    slope = fields.Float(metadata={"description": "Per piece, in the unit of the values."})
    slope_interval = fields.List(fields.Float())
    significant = fields.Boolean()
    residual_standard_deviation = fields.Float()
    limit = fields.Float(allow_none=True)
    pieces_until_limit = fields.Float(allow_none=True)
    pieces_until_limit_interval = fields.List(fields.Float(allow_none=True))
    notices = fields.List(fields.String())


BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["values"],
    "additionalProperties": False,
    "properties": {
        "values": {"type": "array", "items": {"type": "number"}},
        "min": {"type": ["number", "null"]},
        "max": {"type": ["number", "null"]},
        "confidence_level": {"type": "number", "minimum": 0.5, "maximum": 0.999},
    },
}


@blueprint.route("/trend", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@blueprint.response(200, TrendSchema)
def post_trend() -> Response:
    """Return the drift of values in the order of production and the pieces until the limit that it runs towards."""
    members, columns = load_body(json_body(request), TrendBody, {"values": _FLOATS})
    low, high = (None if members[name] is None else float(members[name]) for name in ("min", "max"))
    found = trend(np.array(columns["values"], dtype=np.float64), low, high, float(members["confidence_level"]))
    notices = [] if found.significant else ["the slope is not proved at this confidence: there is no forecast"]
    answer = {
        "slope": found.slope,
        "slope_interval": list(found.slope_interval),
        "significant": found.significant,
        "residual_standard_deviation": found.residual_standard_deviation,
        "limit": found.limit,
        "pieces_until_limit": found.pieces_until_limit,
        "pieces_until_limit_interval": [found.earliest, found.latest],
        "notices": notices,
    }
    return Response(encode(answer), mimetype=JSON)
