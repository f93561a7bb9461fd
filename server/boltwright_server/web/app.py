"""The application: resources, problem documents, health."""

from __future__ import annotations

import logging
import os
from pathlib import Path

from flask import Flask, Response, request
from werkzeug.exceptions import HTTPException

from ..designations import parse_product, parse_thread
from ..documents import TEMPLATES
from ..products.own import add_own_standards
from ..quantities import Refusal
from ..quantities.keeper import KEEPER
from ..standards import all_standards
from . import conformance, look_ups, part_masters, stations, statistics
from .http.api import new_api
from .http.limits import VARIABLE, Limits, limits_from
from .http.observability import install
from .http.problem_response import from_http_exception, problem_response
from .http.problems import Problem
from .pages import health, metrics, pages

#: In the order of the OpenAPI document.
BLUEPRINTS = (
    *look_ups.BLUEPRINTS,
    *statistics.BLUEPRINTS,
    *part_masters.BLUEPRINTS,
    *conformance.BLUEPRINTS,
    *stations.BLUEPRINTS,
)
#: The plant's own standards, where the service is started by another server than its own.
STANDARDS_VARIABLE = "BOLTWRIGHT_STANDARDS"
_LOG = logging.getLogger("boltwright_server")


def create_app(log_requests: bool = False, standards: Path | None = None, limits: Limits | None = None) -> Flask:
    """Return a new application. All tables are read here, so that a bad folder stops the start, not a request.

    `standards` is a directory of the plant's own standards; the variable BOLTWRIGHT_STANDARDS names it too, and
    BOLTWRIGHT_LIMITS limits.

    Raises:
        BadFacts: a folder of facts that may not be served.
        BadLimit: a limit that is not known, or no whole number above 0.
    """
    all_standards()
    directory = standards or os.environ.get(STANDARDS_VARIABLE)
    if directory:
        add_own_standards(Path(directory))
    _build_grammars()
    app = Flask("boltwright_server.web", template_folder=str(TEMPLATES))
    limits = limits or limits_from(filter(None, os.environ.get(VARIABLE, "").split(",")))
    app.config["LIMITS"], KEEPER.limit = limits, limits.remembered_bytes
    app.config["MAX_CONTENT_LENGTH"] = limits.json_bytes
    app.json.sort_keys = False  # type: ignore[attr-defined]
    api = new_api(app)
    for blueprint in BLUEPRINTS:
        api.register_blueprint(blueprint)
    install(app, log_requests)
    app.register_blueprint(health.blueprint)
    app.register_blueprint(metrics.blueprint)
    app.register_blueprint(pages.blueprint)
    app.register_error_handler(Refusal, _refused)
    app.register_error_handler(Problem, problem_response)
    app.register_error_handler(HTTPException, from_http_exception)
    app.register_error_handler(Exception, _fault)
    return app


def _build_grammars() -> None:
    """Read one designation of each kind: a grammar takes some 40 ms to build, and no request should wait for it."""
    parse_thread("M10-6g")
    parse_product("ISO 4032 - M10 - 8")


def _refused(refusal: Refusal) -> Response:
    return problem_response(Problem.from_refusal(refusal))


def _fault(error: Exception) -> Response:
    id = getattr(request, "request_id", "-")
    _LOG.exception("fault on %s %s (request %s)", request.method, request.path, id, exc_info=error)
    return problem_response(Problem("internal_error", "A fault of the service; it has been logged."))
