"""POST /v1/trend: how fast values drift, and how many pieces are left until a limit."""

from __future__ import annotations

from typing import Annotated

from flask import Response, request

from ...statistics.trend import trend
from ..http.answers import Answer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from .bodies import CONFIDENCE, LIMITS, LimitsBody, StatedLimits, confidence_level, limits_of, read, request_body

blueprint = new_blueprint("trend", "Trend and tool wear")


class TrendBody(LimitsBody):
    """Everything but the values."""

    confidence_level = confidence_level()


class TrendAnswer(Answer, kw_only=True):
    """A straight trend. Pieces are counted after the last value; null: the limit is not reached or not proved."""

    slope: Annotated[float, described("Per piece, in the unit of the values.")]
    slope_interval: tuple[float, float]
    significant: bool
    residual_standard_deviation: float
    limit: Annotated[float | None, described("That the values run towards, in their unit.")]
    pieces_until_limit: Annotated[float | None, described("Until the line meets the limit.")]
    pieces_until_limit_interval: Annotated[
        tuple[float | None, float | None], described("Until the band of the line meets it, and has passed.")
    ]
    pieces_until_risk: Annotated[
        float | None, described("Until the band of a single piece, which scatters, meets the limit.")
    ]
    limits: StatedLimits
    notices: list[str]


@blueprint.route("/trend", methods=["POST"])
@blueprint.doc(requestBody=request_body(LIMITS, CONFIDENCE))
@answers(blueprint, TrendAnswer)
def post_trend() -> Response:
    """Return the drift of values in the order of production and the pieces until the limit that it runs towards."""
    members, values = read(request, TrendBody)
    limits = limits_of(members)
    found = trend(values, *limits.floats, float(members["confidence_level"]))
    notices = [] if found.significant else ["the slope is not proved at this confidence: there is no forecast"]
    return sent(
        shown(
            TrendAnswer,
            found,
            pieces_until_limit_interval=(found.earliest, found.latest),
            pieces_until_risk=found.at_risk,
            limits=limits.shown,
            notices=[*limits.notices, *notices],
        )
    )
