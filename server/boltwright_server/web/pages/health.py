"""GET /livez and /readyz: no key, no rate limit."""

from __future__ import annotations

from flask import Blueprint, Response

from ...standards import all_standards
from ...standards.fingerprint import fingerprint
from ..http.caching import JSON
from ..http.presentation import encode

blueprint = Blueprint("health", __name__)


@blueprint.get("/livez")
def livez() -> Response:
    """Say that the process answers; touches nothing else."""
    return Response(b'{"status":"live"}', mimetype=JSON)


@blueprint.get("/readyz")
def readyz() -> Response:
    """Say that the tables are in memory."""
    return Response(
        encode({"status": "ready", "standards": len(all_standards()), "version": fingerprint()}),
        mimetype=JSON,
    )
