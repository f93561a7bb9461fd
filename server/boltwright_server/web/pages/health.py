"""GET /livez and /readyz: no key, no rate limit."""

from __future__ import annotations

from flask import Blueprint, Response

from ...standards import all_standards
from ...standards.fingerprint import fingerprint
from ..http.answers import Answer, sent
from ..http.caching import JSON

blueprint = Blueprint("health", __name__)


class Ready(Answer, kw_only=True):
    """What stands in memory."""

    status: str
    standards: int
    version: str


@blueprint.get("/livez")
def livez() -> Response:
    """Say that the process answers; touches nothing else."""
    return Response(b'{"status":"live"}', mimetype=JSON)


@blueprint.get("/readyz")
def readyz() -> Response:
    """Say that the tables are in memory."""
    return sent(Ready(status="ready", standards=len(all_standards()), version=fingerprint()))
