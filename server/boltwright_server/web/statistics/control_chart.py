"""POST /v1/control-chart: a Shewhart chart of values in the order of production, with the run rules that fire."""

from __future__ import annotations

from typing import Annotated, Any

from flask import Response, request
from marshmallow import Schema, fields, validate
from msgspec import Struct

from ...documents.charts import control_chart_drawing
from ...quantities import NotUnderstood
from ...statistics import CHARTS, RULE_SETS, RULES, Chart, ControlChart, Given, control_chart
from ...statistics.control_chart import ENOUGH_POINTS
from ...statistics.sources import factors_basis, run_rules_basis
from ..http.answers import Answer, BasisAnswer, answers, described
from ..http.api import blueprint as new_blueprint
from ..http.caching import SVG
from ..http.fields import StrictDecimal, StrictInteger, StrictString
from ..http.presentation import basis
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


class ChartAnswer(Struct):
    """One half of the chart."""

    id: str
    centre_line: float
    lower_control_limit: float
    upper_control_limit: float
    points: list[float]


class SignalAnswer(Struct):
    """A rule that fires; each point is the last of its pattern."""

    rule: str
    chart: str
    detail: str
    points: Annotated[tuple[int, ...], described("0-based indexes into the points of the chart.")]


class ControlChartAnswer(Answer, kw_only=True):
    """A control chart."""

    chart: str
    subgroup_size: int
    charts: list[ChartAnswer]
    rules: tuple[str, ...]
    signals: list[SignalAnswer]
    in_control: bool
    basis: Annotated[BasisAnswer, described("Of the factors.")]
    rules_basis: Annotated[list[BasisAnswer], described("Of the wording of the rules.")]
    notices: list[str]


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
@answers(blueprint, ControlChartAnswer)
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


def _shown(found: ControlChart, rules: tuple[str, ...]) -> ControlChartAnswer:
    return ControlChartAnswer(
        chart=found.kind,
        subgroup_size=found.subgroup_size,
        charts=[_chart(chart) for chart in found.charts],
        rules=rules,
        signals=[SignalAnswer(one.rule, one.chart, one.detail, one.points) for one in found.signals],
        in_control=found.in_control,
        basis=basis(factors_basis()),
        rules_basis=[basis(run_rules_basis(name)) for name, held in RULE_SETS.items() if set(held) & set(rules)],
        notices=_notices(found),
    )


def _notices(found: ControlChart) -> list[str]:
    notices = ["Control limits describe the process; they are no limits of the product."]
    if found.left_out:
        notices.append(f"the last {found.left_out} value(s) make no whole subgroup and are left out")
    count = len(found.charts[0].points)
    if found.given is None and count < ENOUGH_POINTS:
        notices.append(f"limits from {count} points are provisional; {ENOUGH_POINTS} or more are common practice")
    return notices


def _chart(chart: Chart) -> ChartAnswer:
    return ChartAnswer(chart.id, chart.centre, chart.lower, chart.upper, chart.points.tolist())
