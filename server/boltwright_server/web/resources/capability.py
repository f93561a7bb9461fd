"""POST /v1/capability: capability and performance indices of values in the order of production."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import msgspec
import numpy as np
from flask import Response, request
from marshmallow import Schema, fields, validate

from ...process import Capability, Index, capability
from ...quantities import Bounds, NotUnderstood
from ...quantities.units import CODES, factor
from ...specification import specification
from ..api import blueprint as new_blueprint
from ..bodies import json_body, load_body
from ..caching import JSON
from ..fields import StrictDecimal, StrictInteger, StrictString
from ..presentation import bounds, encode
from ..schemas import AnswerSchema, BoundsSchema

blueprint = new_blueprint("capability", "Capability and performance indices of a process")
_FLOATS = msgspec.json.Decoder(list[float])


class CapabilityBody(Schema):
    """Everything but the values."""

    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    designation = StrictString(validate=validate.Length(1, 200, error="has 1 to 200 characters"))
    characteristic = StrictString(validate=validate.Length(1, 60, error="has 1 to 60 characters"))
    unit = StrictString(validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"))
    subgroup_size = StrictInteger(load_default=1)
    confidence_level = StrictDecimal(
        load_default=Decimal("0.95"),
        validate=validate.Range(Decimal("0.5"), Decimal("0.999"), error="is from 0.5 to 0.999"),
    )


class IndexSchema(Schema):
    """An index with its confidence interval."""

    value = fields.Float()
    confidence_interval = fields.List(fields.Float())


class CapabilitySchema(AnswerSchema):
    """Indices of a process."""

    count = fields.Integer()
    mean = fields.Float()
    standard_deviation_within = fields.Float(allow_none=True)
    standard_deviation_overall = fields.Float(allow_none=True)
    within_method = fields.String()
    subgroup_size = fields.Integer()
    confidence_level = fields.Float()
    limits = fields.Nested(BoundsSchema)
    cp = fields.Nested(IndexSchema, allow_none=True)
    cpk = fields.Nested(IndexSchema, allow_none=True)
    pp = fields.Nested(IndexSchema, allow_none=True)
    ppk = fields.Nested(IndexSchema, allow_none=True)
    notices = fields.List(fields.String())


BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["values"],
    "additionalProperties": False,
    "properties": {
        "values": {"type": "array", "items": {"type": "number"}},
        "min": {"type": ["number", "null"]},
        "max": {"type": ["number", "null"]},
        "designation": {"type": "string"},
        "characteristic": {"type": "string"},
        "unit": {"type": "string", "enum": list(CODES)},
        "subgroup_size": {"type": "integer", "minimum": 1, "maximum": 25},
        "confidence_level": {"type": "number", "minimum": 0.5, "maximum": 0.999},
    },
}


@blueprint.route("/capability", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@blueprint.response(200, CapabilitySchema)
def post_capability() -> Response:
    """Return Cp, Cpk, Pp and Ppk with confidence intervals, against limits given or of a characteristic."""
    members, columns = load_body(json_body(request), CapabilityBody, {"values": _FLOATS})
    values = np.array(columns["values"], dtype=np.float64)
    low, high, limits = limits_of(members)
    level = float(members["confidence_level"])
    found = capability(values, low, high, members["subgroup_size"], level)
    shown = {"subgroup_size": members["subgroup_size"], "confidence_level": level, "limits": limits}
    return Response(encode({**_shown(found), **shown}), mimetype=JSON)


def limits_of(members: dict[str, Any]) -> tuple[float | None, float | None, dict[str, Any]]:
    """Return least and greatest permissible value in the unit of the values, given or of a characteristic."""
    if "designation" not in members:
        if "characteristic" in members:
            raise NotUnderstood("characteristic needs designation", member="designation", code="missing_member")
        low, high = members.get("min"), members.get("max")
        return _float(low), _float(high), {"min": low, "max": high, "unit": members.get("unit")}
    if "min" in members or "max" in members:
        raise NotUnderstood("give min and max, or designation and characteristic", member="min", code="contradiction")
    standing = _characteristic(members)
    unit = members.get("unit", standing.unit)
    step = 1 / factor(unit, standing.unit)
    ends = [
        None if end is None else float(Decimal(end) * step.numerator / step.denominator)
        for end in (standing.min, standing.max)
    ]
    return ends[0], ends[1], bounds(standing)


def _characteristic(members: dict[str, Any]) -> Bounds:
    id = members.get("characteristic")
    if id is None:
        raise NotUnderstood("designation needs characteristic", member="characteristic", code="missing_member")
    found = specification(members["designation"]).characteristics.get(id)
    if found is None or found.kind != "measured" or found.bounds is None:
        raise NotUnderstood(
            f"{id!r} is no measured characteristic of {members['designation']}",
            member="characteristic",
            code="unknown_characteristic",
        )
    return found.bounds


def _float(value: Decimal | None) -> float | None:
    return None if value is None else float(value)


def _shown(found: Capability) -> dict[str, Any]:
    return {
        "count": found.count,
        "mean": found.mean,
        "standard_deviation_within": found.standard_deviation_within,
        "standard_deviation_overall": found.standard_deviation_overall,
        "within_method": found.within_method,
        "cp": _index(found.cp),
        "cpk": _index(found.cpk),
        "pp": _index(found.pp),
        "ppk": _index(found.ppk),
        "notices": list(found.notices),
    }


def _index(index: Index | None) -> dict[str, Any] | None:
    return None if index is None else {"value": index.value, "confidence_interval": list(index.confidence_interval)}
