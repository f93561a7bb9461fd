"""POST /v1/control-chart: a Shewhart chart of values in the order of production, with the run rules that fire."""

from __future__ import annotations

from typing import Any

import msgspec
import numpy as np
from flask import Response, request
from marshmallow import Schema, fields, validate

from ...process.control_chart import CHARTS, RULE_SETS, RULES, Chart, control_chart
from ...quantities import Basis
from ..api import blueprint as new_blueprint
from ..bodies import json_body, load_body
from ..caching import JSON
from ..fields import StrictInteger, StrictString
from ..presentation import basis, encode
from ..schemas import AnswerSchema, BasisSchema

blueprint = new_blueprint("control_chart", "Control charts and run rules")
_FLOATS = msgspec.json.Decoder(list[float])
_FACTORS = Basis("ISO 7870-2", "2013", "table of factors", "computed", "two reproductions")
DEFAULT_RULE_SET = "ISO 7870-2"


class ControlChartBody(Schema):
    """Everything but the values."""

    chart = StrictString(
        load_default=CHARTS[0], validate=validate.OneOf(CHARTS, error=f"is not one of {', '.join(CHARTS)}")
    )
    subgroup_size = StrictInteger(load_default=5, validate=validate.Range(1, 25, error="is from 1 to 25"))
    rule_set = StrictString(
        load_default=DEFAULT_RULE_SET,
        validate=validate.OneOf(tuple(RULE_SETS), error=f"is not one of {', '.join(RULE_SETS)}"),
    )
    rules = fields.List(StrictString(validate=validate.OneOf(tuple(RULES), error=f"is not one of {', '.join(RULES)}")))


class ChartSchema(Schema):
    """One half of the chart."""

    id = fields.String()
    centre_line = fields.Float()
    lower_control_limit = fields.Float()
    upper_control_limit = fields.Float()
    points = fields.List(fields.Float())


class SignalSchema(Schema):
    """A rule that fires; each point is the last of its pattern."""

    rule = fields.String()
    chart = fields.String()
    detail = fields.String()
    points = fields.List(fields.Integer())


class ControlChartSchema(AnswerSchema):
    """A control chart."""

    chart = fields.String()
    subgroup_size = fields.Integer()
    charts = fields.List(fields.Nested(ChartSchema))
    rules = fields.List(fields.String())
    signals = fields.List(fields.Nested(SignalSchema))
    in_control = fields.Boolean()
    basis = fields.Nested(BasisSchema)
    notices = fields.List(fields.String())


BODY_SCHEMA: dict[str, Any] = {
    "type": "object",
    "required": ["values"],
    "additionalProperties": False,
    "properties": {
        "values": {"type": "array", "items": {"type": "number"}},
        "chart": {"type": "string", "enum": list(CHARTS)},
        "subgroup_size": {"type": "integer", "minimum": 1, "maximum": 25},
        "rule_set": {"type": "string", "enum": list(RULE_SETS)},
        "rules": {"type": "array", "items": {"type": "string", "enum": list(RULES)}},
    },
}


@blueprint.route("/control-chart", methods=["POST"])
@blueprint.doc(requestBody={"required": True, "content": {"application/json": {"schema": BODY_SCHEMA}}})
@blueprint.response(200, ControlChartSchema)
def post_control_chart() -> Response:
    """Return centre lines, control limits and the run rules that fire. Control limits are no tolerance limits."""
    members, columns = load_body(json_body(request), ControlChartBody, {"values": _FLOATS})
    rules = tuple(members.get("rules", RULE_SETS[members["rule_set"]]))
    values = np.array(columns["values"], dtype=np.float64)
    found = control_chart(values, members["chart"], members["subgroup_size"], rules)
    notices = ["Control limits describe the process; they are no limits of the product."]
    if found.left_out:
        notices.append(f"the last {found.left_out} value(s) make no whole subgroup and are left out")
    answer = {
        "chart": found.kind,
        "subgroup_size": found.subgroup_size,
        "charts": [_chart(chart) for chart in found.charts],
        "rules": list(rules),
        "signals": [
            {"rule": one.rule, "chart": one.chart, "detail": one.detail, "points": list(one.points)}
            for one in found.signals
        ],
        "in_control": found.in_control,
        "basis": basis(_FACTORS),
        "notices": notices,
    }
    return Response(encode(answer), mimetype=JSON)


def _chart(chart: Chart) -> dict[str, Any]:
    return {
        "id": chart.id,
        "centre_line": chart.centre,
        "lower_control_limit": chart.lower,
        "upper_control_limit": chart.upper,
        "points": chart.points.tolist(),
    }
