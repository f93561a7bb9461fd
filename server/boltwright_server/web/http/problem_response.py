"""Problems as HTTP responses: the document, or a page where the client prefers one."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from werkzeug.exceptions import HTTPException

from .caching import HTML, preferred
from .problems import MEDIA_TYPE, PROBLEM_TYPES, Problem, document, problem_from_messages
from .refusal_page import refusal_page

_OF_STATUS = {
    404: "not_found",
    405: "method_not_allowed",
    406: "not_acceptable",
    413: "content_too_large",
    414: "uri_too_long",
    415: "unsupported_media_type",
}


def problem_response(problem: Problem) -> Response:
    """Return the problem as an HTTP response to the current request: a page where the client prefers one."""
    if preferred() == HTML:
        response = refusal_page(problem, PROBLEM_TYPES[problem.code])
    else:
        response = Response(document(problem, request.path[:200]), problem.status, mimetype=MEDIA_TYPE)
    response.headers["Vary"] = "Accept"
    return response


def from_http_exception(error: HTTPException) -> Response:
    """Return a problem document for what routing, parsing or the framework refused; headers such as Allow stay."""
    messages = getattr(error, "data", {}).get("messages") if isinstance(getattr(error, "data", None), dict) else None
    if messages:
        return problem_response(_from_query(messages))
    status = error.code or 500
    code = _OF_STATUS.get(status, "bad_request" if status < 500 else "internal_error")
    response = problem_response(Problem(code, error.description or PROBLEM_TYPES[code].title))
    for name, value in error.get_headers():
        if name.lower() not in ("content-type", "content-length"):
            response.headers[name] = value
    return response


def _from_query(messages: dict[str, Any]) -> Problem:
    """The first level of the framework's messages is the place: query."""
    return problem_from_messages({name: inner for place in messages.values() for name, inner in place.items()}, ())
