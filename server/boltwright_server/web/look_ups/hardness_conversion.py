"""GET /v1/hardness-conversion: an estimate on another scale, never a verdict."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...mechanical.hardness_conversion import SCALES, TABLE_NAMES, convert_hardness
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import basis, encode
from ..http.queries import query
from ..http.schemas import AnswerSchema, BasisSchema

blueprint = new_blueprint("hardness_conversion", "Estimates of one hardness scale from another")
_NUMBER = r"[0-9]{1,4}(?:[.,][0-9]{1,3})?"


def _scale(name: str) -> fields.String:
    return fields.String(
        required=True,
        data_key=name,
        validate=validate.OneOf(SCALES, error=f"is not one of {', '.join(SCALES)}"),
        metadata={"description": "A hardness scale, or MPa for tensile strength.", "example": "HV"},
    )


class HardnessConversionQuery(Schema):
    """What to estimate."""

    value = fields.String(
        required=True,
        validate=validate.Regexp(f"{_NUMBER}$", error="is a number such as 320 or 32.5"),
        metadata={"description": "The value as measured.", "example": "320"},
    )
    given = _scale("from")
    wanted = _scale("to")
    table = fields.String(
        load_default=TABLE_NAMES[0],
        validate=validate.OneOf(TABLE_NAMES, error=f"is not one of {', '.join(TABLE_NAMES)}"),
        metadata={"description": "Conversion table; it decides for which materials the estimate is meant."},
    )


class PointSchema(Schema):
    """A row of the table at or beside the value."""

    given = fields.Float(data_key="from")
    wanted = fields.Float(data_key="to")


class HardnessConversionSchema(AnswerSchema):
    """An estimate. It is never used for a verdict."""

    value = fields.Float(metadata={"example": 320})
    given = fields.String(data_key="from", metadata={"example": "HV"})
    wanted = fields.String(data_key="to", metadata={"example": "HRC"})
    estimate = fields.Float(metadata={"example": 32.2})
    unit = fields.String()
    is_estimate = fields.Boolean(metadata={"description": "Always true: acceptance is judged on the scale measured."})
    table = fields.String(metadata={"example": "ISO 18265 A.1"})
    material = fields.String()
    between = fields.List(fields.Nested(PointSchema))
    basis = fields.Nested(BasisSchema)
    notices = fields.List(fields.String())


@blueprint.route("/hardness-conversion")
@look_up
@query(blueprint, HardnessConversionQuery)
@blueprint.response(200, HardnessConversionSchema)
def get_hardness_conversion(arguments: dict[str, Any]) -> Response:
    """Estimate a hardness on another scale, or tensile strength, by a conversion table."""
    value = Decimal(arguments["value"].replace(",", "."))
    found = convert_hardness(value, arguments["given"], arguments["wanted"], arguments["table"])
    answer = {
        "value": found.value,
        "from": found.given,
        "to": found.wanted,
        "estimate": found.estimate,
        "unit": found.wanted,
        "is_estimate": True,
        "table": found.table,
        "material": found.material,
        "between": [{"from": one.given, "to": one.wanted} for one in found.points],
        "basis": basis(found.basis),
        "notices": list(found.notices),
    }
    return Response(encode(answer), mimetype=JSON)
