"""POST /v1/histogram: readings counted in classes, and their picture against limits and acceptance limits."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import fields

from ...statistics import histogram
from ...statistics.subgroups import mean_of
from ..http.api import blueprint as new_blueprint
from ..http.caching import SVG
from ..http.schemas import AnswerSchema, StatedLimitsSchema
from .bodies import DRAWN_LIMITS, DrawnLimitsBody, Limits, answered, limits_of, read, request_body
from .histogram_picture import acceptance_of, drawn

blueprint = new_blueprint("histogram", "Histogram of readings")


class HistogramSchema(AnswerSchema):
    """Readings in classes of equal width."""

    count = fields.Integer()
    mean = fields.Float()
    step = fields.Float(metadata={"description": "In which the readings stand; 0: in none."})
    edges = fields.List(fields.Float(), metadata={"description": "One more than classes; no reading lies on one."})
    counts = fields.List(fields.Integer())
    limits = fields.Nested(StatedLimitsSchema)
    acceptance_limits = fields.Dict(metadata={"description": "min and max as given, unit of the values."})


@blueprint.route("/histogram", methods=["POST"])
@blueprint.doc(requestBody=request_body(DRAWN_LIMITS))
@blueprint.response(200, HistogramSchema)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=SVG, description="The picture", success=True)
def post_histogram() -> Response:
    """Return readings counted in classes; with `Accept: image/svg+xml` drawn with limits and acceptance limits.

    Nothing is judged: acceptance limits are those of a verdict of /v1/conformance.
    """
    members, values = read(request, DrawnLimitsBody)
    limits = limits_of(members)
    return answered(
        lambda: _shown(members, limits, values),
        lambda: drawn(members, values, limits, [f"{len(values)} readings"]),
    )


def _shown(members: dict[str, Any], limits: Limits, values: Any) -> dict[str, Any]:
    found = histogram(values)
    low, high = acceptance_of(members)
    return {
        "count": len(values),
        "mean": mean_of(values),
        "step": found.step,
        "edges": found.edges.tolist(),
        "counts": found.counts.tolist(),
        "limits": limits.shown,
        "acceptance_limits": {"min": low, "max": high, "unit": limits.unit},
    }
