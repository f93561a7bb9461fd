"""From an answer that is no result to the error that says why."""

from __future__ import annotations

import json
from typing import Any

import requests
import urllib3.exceptions

from .errors import ConnectionFailed, Error, Pointer, TimedOut, TransportError, UnexpectedAnswer, class_of

MEDIA_TYPE = "application/problem+json"
REQUEST_ID = "X-Request-Id"


def error_of(response: requests.Response) -> Error:
    """Return the error for a response that is neither 200 nor 304."""
    problem = _document(response)
    if problem is not None:
        return _problem_error(problem, response)
    said = f"{response.status_code} {response.reason or ''}".strip()
    if response.is_redirect:
        return UnexpectedAnswer(f"redirected to {response.headers['Location']}; use that as base_url if it is right")
    if response.status_code >= 500 or response.status_code == 429:
        kind, detail = class_of("", response.status_code), f"answered {said} without a problem document"
        return kind(response.status_code, "", title=said, detail=detail, request_id=response.headers.get(REQUEST_ID))
    return UnexpectedAnswer(f"answered {said} without a problem document; does base_url lead to the service?")


def _document(response: requests.Response) -> dict[str, Any] | None:
    if response.headers.get("Content-Type", "").partition(";")[0].strip().lower() != MEDIA_TYPE:
        return None
    try:
        found = json.loads(response.content)
    except ValueError:
        return None
    return found if isinstance(found, dict) else None


def _pointer(entry: dict[str, Any]) -> Pointer:
    position, expected = entry.get("position"), entry.get("expected")
    return Pointer(
        str(entry.get("pointer", "")),
        str(entry.get("code", "")),
        str(entry.get("detail", "")),
        position if isinstance(position, int) else None,
        tuple(map(str, expected)) if isinstance(expected, list) else (),
    )


def _problem_error(problem: dict[str, Any], response: requests.Response) -> Error:
    code, entries = str(problem.get("code", "")), problem.get("errors")
    pointers = tuple(_pointer(one) for one in (entries if isinstance(entries, list) else ()) if isinstance(one, dict))
    nearest = problem.get("nearest")
    return class_of(code, response.status_code)(
        response.status_code,
        code,
        str(problem.get("type", "")),
        str(problem.get("title", "")),
        str(problem.get("detail", "")),
        pointers,
        tuple(map(str, nearest)) if isinstance(nearest, list) else (),
        problem.get("request_id") or response.headers.get(REQUEST_ID),
    )


def failure_of(error: Exception, base_url: str) -> TransportError:
    """Return the error for a call that got no answer. A read time-out after retries arrives as a connection error."""
    cause = _cause(error)
    # A refused connection is a kind of connection time-out in urllib3's tree.
    refused = isinstance(cause, urllib3.exceptions.NewConnectionError)
    if not refused and isinstance(cause, requests.Timeout | urllib3.exceptions.TimeoutError):
        return TimedOut(f"{base_url} did not answer in time")
    if isinstance(error, requests.exceptions.SSLError):
        return ConnectionFailed(f"{base_url}: no secure connection ({cause})")
    if isinstance(error, requests.ConnectionError | requests.exceptions.ChunkedEncodingError):
        return ConnectionFailed(f"{base_url} cannot be reached or broke off; is the service running there?")
    return TransportError(f"{base_url}: the call failed ({type(error).__name__})")


def _cause(error: Exception) -> Exception:
    inner = error.args[0] if error.args else None
    reason = getattr(inner, "reason", None)
    return next((one for one in (reason, inner) if isinstance(one, Exception)), error)
