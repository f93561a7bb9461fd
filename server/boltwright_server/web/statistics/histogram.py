"""POST /v1/histogram: readings counted in classes, and their picture against limits and acceptance limits."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response, request
from msgspec import Struct

from ...statistics import histogram
from ...statistics.subgroups import mean_of
from ..http.answers import Answer, answers, described
from ..http.api import blueprint as new_blueprint
from ..http.caching import SVG
from .bodies import DRAWN_LIMITS, DrawnLimitsBody, Limits, StatedLimits, answered, limits_of, read, request_body
from .histogram_picture import acceptance_of, drawn

blueprint = new_blueprint("histogram", "Histogram of readings")


class AcceptanceGiven(Struct):
    """Acceptance limits as given, in the unit of the values."""

    min: Decimal | None
    max: Decimal | None
    unit: str | None


class HistogramAnswer(Answer, kw_only=True):
    """Readings in classes of equal width."""

    count: int
    mean: float
    step: Annotated[float, described("In which the readings stand; 0: in none.")]
    edges: Annotated[list[float], described("One more than classes; no reading lies on one.")]
    counts: list[int]
    limits: StatedLimits
    acceptance_limits: AcceptanceGiven


@blueprint.route("/histogram", methods=["POST"])
@blueprint.doc(requestBody=request_body(DRAWN_LIMITS))
@answers(blueprint, HistogramAnswer)
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


def _shown(members: dict[str, Any], limits: Limits, values: Any) -> HistogramAnswer:
    found = histogram(values)
    return HistogramAnswer(
        count=len(values),
        mean=mean_of(values),
        step=found.step,
        edges=found.edges.tolist(),
        counts=found.counts.tolist(),
        limits=limits.shown,
        acceptance_limits=AcceptanceGiven(*acceptance_of(members), limits.unit),
    )
