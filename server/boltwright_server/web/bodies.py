"""Request bodies: content type and size are checked before anything is parsed."""

from __future__ import annotations

from flask import Request

from .problems import Problem


def json_body(request: Request) -> bytes:
    """Return the raw JSON body.

    Raises:
        Problem: unsupported_media_type, or bad_request where there is no body.
    """
    if request.mimetype != "application/json":
        given = request.mimetype or "none"
        raise Problem("unsupported_media_type", f"Content-Type is {given[:60]}; send application/json")
    body = request.get_data(cache=False)
    if not body:
        raise Problem("not_json", "The body is empty; send a JSON object")
    return body
