"""GET /v1/units: the unit codes with their UCUM and UN/ECE Recommendation 20 codes."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...quantities.units import CODES, INTERCHANGE_CODES, dimension
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import encode
from ..http.queries import query
from ..http.schemas import AnswerSchema

blueprint = new_blueprint("units", "Unit codes")


class UnitSchema(Schema):
    """A unit."""

    code = fields.String(metadata={"example": "mm"})
    measures = fields.String(metadata={"example": "length"})
    ucum = fields.String(allow_none=True, metadata={"description": "UCUM code; hardness scales have none."})
    unece_rec_20 = fields.String(allow_none=True, metadata={"description": "UN/ECE Recommendation 20 common code."})


class UnitsSchema(AnswerSchema):
    """All unit codes."""

    units = fields.List(fields.Nested(UnitSchema))


@blueprint.route("/units")
@look_up
@query(blueprint, Schema)
@blueprint.response(200, UnitsSchema)
def get_units(_: dict[str, Any]) -> Response:
    """List the unit codes. Units of one kind are converted exactly; hardness scales never."""
    units = [
        {
            "code": code,
            "measures": dimension(code),
            "ucum": INTERCHANGE_CODES[code][0],
            "unece_rec_20": INTERCHANGE_CODES[code][1],
        }
        for code in CODES
    ]
    return Response(encode({"units": units}), mimetype=JSON)
