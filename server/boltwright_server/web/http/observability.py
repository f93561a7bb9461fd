"""What is seen of each request from outside: its id, the metrics, and, where asked for, a line in the log.

Routes are labelled by their URL rule, never by the path that a client sent: a label has a fixed set of values.
"""

from __future__ import annotations

import json
import logging
import os
import re
import secrets
from collections.abc import Callable
from datetime import UTC, datetime
from time import perf_counter
from typing import Any, cast

from flask import Flask, Request, Response, request
from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram
from prometheus_client.multiprocess import MultiProcessCollector
from prometheus_client.openmetrics.exposition import CONTENT_TYPE_LATEST, generate_latest

from ... import ENGINE_VERSION
from ...quantities.keeper import KEEPER, remembered
from ...standards.fingerprint import fingerprint
from .problems import Problem

REQUEST_ID = "X-Request-Id"
UNMATCHED = "unmatched"
#: Environment variable; where it is set before this module is imported, the workers of a service count together.
MULTIPROCESS_FOLDER = "PROMETHEUS_MULTIPROC_DIR"
#: Ids that are safe to echo in a header and to write to a log; others are replaced.
_SAFE_ID = re.compile(r"[A-Za-z0-9._:-]{1,64}")
_SECONDS = (0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1.0, 2.5, 5.0, 10.0)
_LONGEST_LOGGED_QUERY = 500
_LOG = logging.getLogger("boltwright_server.requests")

_REGISTRY = CollectorRegistry()
_REQUESTS = Counter("boltwright_http_requests", "Requests answered", ("method", "route", "status"), registry=_REGISTRY)
_DURATION = Histogram(
    "boltwright_http_request_duration_seconds",
    "Time from the first line to the answer",
    ("route",),
    buckets=_SECONDS,
    registry=_REGISTRY,
)
_LOTS = Counter("boltwright_lots_judged", "Lots judged, by verdict", ("verdict",), registry=_REGISTRY)
_BUILD = Gauge(
    "boltwright_build",
    "1, labelled with what answers",
    ("fingerprint", "engine"),
    registry=_REGISTRY,
    multiprocess_mode="max",
)
_REMEMBERED = Gauge(
    "boltwright_remembered_bytes",
    "Estimated bytes of what the workers remember",
    ("room",),
    registry=_REGISTRY,
    multiprocess_mode="livesum",
)
_ENTRIES = Gauge(
    "boltwright_remembered_entries",
    "Answers that the workers remember",
    ("room",),
    registry=_REGISTRY,
    multiprocess_mode="livesum",
)
_FORGOTTEN = Gauge(
    "boltwright_memories_forgotten",
    "How often a memory was forgotten for want of room",
    registry=_REGISTRY,
    multiprocess_mode="livesum",
)


class ObservedRequest(Request):
    """A request that knows when it began and by which id it is spoken of."""

    def __init__(self, *arguments: Any, **named: Any) -> None:
        super().__init__(*arguments, **named)
        self.began = perf_counter()
        self.request_id = _id_of(self.environ.get("HTTP_X_REQUEST_ID", ""))


def _id_of(given: str) -> str:
    """Return the id that a client sent where it is safe, else a new one."""
    return given if _SAFE_ID.fullmatch(given) else secrets.token_hex(8)


def install(app: Flask, log_requests: bool) -> None:
    """Give every answer of the application a request id, count it, and log it where `log_requests` says so."""
    app.request_class = ObservedRequest
    app.after_request(_observe(log_requests))


def count_lot(verdict: str) -> None:
    """Count a lot that was judged."""
    _lots(verdict).inc()


@remembered(8)
def _lots(verdict: str) -> Counter:
    return _LOTS.labels(verdict)


def exposition() -> tuple[bytes, str]:
    """Return all metrics in the OpenMetrics text form, and its media type. Sums over the worker processes."""
    _BUILD.labels(fingerprint(), ENGINE_VERSION).set(1)
    report_memory()
    registry = _REGISTRY
    if MULTIPROCESS_FOLDER in os.environ:
        registry = CollectorRegistry()
        MultiProcessCollector(registry)  # type: ignore[no-untyped-call]
    return generate_latest(registry), CONTENT_TYPE_LATEST  # type: ignore[no-untyped-call]


def report_memory() -> None:
    """Write down what this process remembers; every worker does, and the exposition sums."""
    for room, size in KEEPER.by_room().items():
        _REMEMBERED.labels(room).set(size.bytes)
        _ENTRIES.labels(room).set(size.entries)
    _FORGOTTEN.set(KEEPER.forgotten)


def _observe(log_requests: bool) -> Callable[[Response], Response]:
    def observe(response: Response) -> Response:
        # The request itself: each look at it through the proxy would find it anew.
        asked = cast(ObservedRequest, request._get_current_object())  # type: ignore[attr-defined]
        rule = asked.url_rule
        route = UNMATCHED if rule is None else rule.rule
        seconds = perf_counter() - asked.began
        counted, timed = _children(asked.method if rule is not None else "any", route, response.status_code)
        counted.inc()
        timed.observe(seconds)
        response.headers[REQUEST_ID] = asked.request_id
        if log_requests:
            _LOG.info(_line(asked, response, route, seconds))
        return response

    return observe


def refused_by_server(problem: Problem, given_id: str, method: str, path: str, client: str, size: int) -> str:
    """Count and log an answer that the HTTP server gave in place of the application; return its request id."""
    id = _id_of(given_id)
    _REQUESTS.labels("any", UNMATCHED, problem.status).inc()
    if _LOG.isEnabledFor(logging.INFO):
        seen = {"method": method[:20], "route": UNMATCHED, "path": path, "query": "", "status": problem.status}
        _LOG.info(_written({"request_id": id, **seen, "duration_ms": None, "bytes": size, "client": client}))
    return id


@remembered(512)
def _children(method: str, route: str, status: int) -> tuple[Counter, Histogram]:
    return _REQUESTS.labels(method, route, status), _DURATION.labels(route)


def _line(asked: ObservedRequest, response: Response, route: str, seconds: float) -> str:
    return _written(
        {
            "request_id": asked.request_id,
            "method": asked.method,
            "route": route,
            "path": asked.path[:200],
            "query": asked.query_string[:_LONGEST_LOGGED_QUERY].decode("latin-1"),
            "status": response.status_code,
            "duration_ms": round(seconds * 1000, 3),
            "bytes": response.calculate_content_length(),
            "client": asked.remote_addr,
        }
    )


def _written(members: dict[str, Any]) -> str:
    now = datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    return json.dumps({"time": now, **members})
