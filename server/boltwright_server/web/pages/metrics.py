"""GET /metrics: counters and timings of all worker processes, in the OpenMetrics text form."""

from __future__ import annotations

from flask import Blueprint, Response

from ..http.observability import exposition

blueprint = Blueprint("metrics", __name__)


@blueprint.get("/metrics")
def metrics() -> Response:
    """Return the metrics; no key and no rate limit, as the health checks."""
    body, media_type = exposition()
    return Response(body, content_type=media_type)
