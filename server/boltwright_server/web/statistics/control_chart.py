"""POST /v1/control-chart: a Shewhart chart of values in the order of production, with the run rules that fire."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import Schema, fields, validate

from ...documents.charts import control_chart_drawing
from ...quantities import NotUnderstood
from ...statistics import CHARTS, RULE_SETS, RULES, Chart, ControlChart, Given, Signal, control_chart
from ...statistics.control_chart import ENOUGH_POINTS
from ...statistics.sources import factors_basis, run_rules_basis
from ..http.api import blueprint as new_blueprint
from ..http.caching import SVG
from ..http.fields import StrictDecimal, StrictInteger, StrictString
from ..http.presentation import basis
from ..http.schemas import AnswerSchema, BasisSchema
from .bodies import TITLE, UNIT, answered, read, request_body, title, unit_of_values

blueprint = new_blueprint("control_chart", "Control charts and run rules")
DEFAULT_RULE_SET = "ISO 7870-2"


class ControlChartBody(Schema):
    """Everything but the values."""

    title = title()
    unit = unit_of_values()
    chart = StrictString(
        load_default=CHARTS[0], validate=validate.OneOf(CHARTS, error=f"is not one of {', '.join(CHARTS)}")
    )
    subgroup_size = StrictInteger(load_default=5, validate=validate.Range(1, 25, error="is from 1 to 25"))
    rule_set = StrictString(
        load_default=DEFAULT_RULE_SET,
        validate=validate.OneOf(tuple(RULE_SETS), error=f"is not one of {', '.join(RULE_SETS)}"),
    )
    rules = fields.List(StrictString(validate=validate.OneOf(tuple(RULES), error=f"is not one of {', '.join(RULES)}")))
    given_mean = StrictDecimal()
    given_standard_deviation = StrictDecimal()


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
    points = fields.List(fields.Integer(), metadata={"description": "0-based indexes into the points of the chart."})


class ControlChartSchema(AnswerSchema):
    """A control chart."""

    chart = fields.String()
    subgroup_size = fields.Integer()
    charts = fields.List(fields.Nested(ChartSchema))
    rules = fields.List(fields.String())
    signals = fields.List(fields.Nested(SignalSchema))
    in_control = fields.Boolean()
    basis = fields.Nested(BasisSchema, metadata={"description": "Of the factors."})
    rules_basis = fields.List(fields.Nested(BasisSchema), metadata={"description": "Of the wording of the rules."})
    notices = fields.List(fields.String())


REQUEST_BODY = request_body(
    TITLE,
    UNIT,
    {
        "chart": {"type": "string", "enum": list(CHARTS)},
        "subgroup_size": {"type": "integer", "minimum": 1, "maximum": 25, "default": 5},
        "rule_set": {"type": "string", "enum": list(RULE_SETS), "default": DEFAULT_RULE_SET},
        "rules": {"type": "array", "items": {"type": "string", "enum": list(RULES)}},
        "given_mean": {"type": "number", "description": "Limits from given values, not from the readings; or"},
        "given_standard_deviation": {"type": "number", "exclusiveMinimum": 0, "description": "of single values."},
    },
)


@blueprint.route("/control-chart", methods=["POST"])
@blueprint.doc(requestBody=REQUEST_BODY)
@blueprint.response(200, ControlChartSchema)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=SVG, description="The chart", success=True)
def post_control_chart() -> Response:
    """Return centre lines, control limits and the run rules that fire; with `Accept: image/svg+xml` the chart drawn.

    Control limits are no tolerance limits.
    """
    members, values = read(request, ControlChartBody)
    rules = tuple(dict.fromkeys(members.get("rules", RULE_SETS[members["rule_set"]])))
    found = control_chart(values, members["chart"], members["subgroup_size"], rules, _given(members))
    return answered(
        lambda: _shown(found, rules),
        lambda: control_chart_drawing(found, members.get("title"), members.get("unit")),
    )


def _given(members: dict[str, Any]) -> Given | None:
    names = ("given_mean", "given_standard_deviation")
    held = [name for name in names if name in members]
    if not held:
        return None
    for name in names:
        if name not in members:
            raise NotUnderstood(f"{held[0]} needs {name}", member=name, code="missing_member")
    return Given(*(float(members[name]) for name in names))


def _shown(found: ControlChart, rules: tuple[str, ...]) -> dict[str, Any]:
    return {
        "chart": found.kind,
        "subgroup_size": found.subgroup_size,
        "charts": [_chart(chart) for chart in found.charts],
        "rules": list(rules),
        "signals": [_signal(one) for one in found.signals],
        "in_control": found.in_control,
        "basis": basis(factors_basis()),
        "rules_basis": [basis(run_rules_basis(name)) for name, held in RULE_SETS.items() if set(held) & set(rules)],
        "notices": _notices(found),
    }


def _notices(found: ControlChart) -> list[str]:
    notices = ["Control limits describe the process; they are no limits of the product."]
    if found.left_out:
        notices.append(f"the last {found.left_out} value(s) make no whole subgroup and are left out")
    count = len(found.charts[0].points)
    if found.given is None and count < ENOUGH_POINTS:
        notices.append(f"limits from {count} points are provisional; {ENOUGH_POINTS} or more are common practice")
    return notices


def _chart(chart: Chart) -> dict[str, Any]:
    return {
        "id": chart.id,
        "centre_line": chart.centre,
        "lower_control_limit": chart.lower,
        "upper_control_limit": chart.upper,
        "points": chart.points.tolist(),
    }


def _signal(one: Signal) -> dict[str, Any]:
    return {"rule": one.rule, "chart": one.chart, "detail": one.detail, "points": list(one.points)}
