"""Look-ups of fixed tables: rendered once for each query, validated by a strong ETag.

RFC 9110, 8.8.3 (ETag) and 15.4.5 (304). Two representations of one answer have two tags.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, lru_cache, wraps
from typing import Any

from flask import Response, request
from werkzeug.datastructures import MIMEAccept
from werkzeug.http import parse_accept_header, quote_etag

from ..standards.fingerprint import fingerprint

#: Clients may reuse an answer that long without asking again.
MAX_AGE_SECONDS = 300
_LONGEST_CACHED_QUERY = 1000
_ENTRIES = 2048
HTML = "text/html"
JSON = "application/json"

View = Callable[..., Response]


def look_up(view: View) -> View:
    """Serve a view of fixed facts from memory, with ETag, Cache-Control and 304.

    The view may depend on the path, the query and `preferred()` only. Problems are not kept.
    """

    @lru_cache(maxsize=_ENTRIES)
    def rendered(path: str, query: bytes, media_type: str) -> tuple[bytes, str]:
        response = view()
        return response.get_data(), response.content_type or JSON

    @wraps(view)
    def answer(*args: Any, **kwargs: Any) -> Response:
        query = request.query_string
        if kwargs or args or len(query) > _LONGEST_CACHED_QUERY:
            response = view(*args, **kwargs)
            return _validated(response.get_data(), response.content_type or JSON)
        return _validated(*rendered(request.path, query, preferred()))

    return answer


def preferred() -> str:
    """Return the media type that the client asks for: HTML only where it prefers it to JSON."""
    return _preferred(request.headers.get("Accept", ""))


@lru_cache(maxsize=256)
def _preferred(accept: str) -> str:
    wanted = parse_accept_header(accept, MIMEAccept)
    return HTML if wanted and wanted.best_match((JSON, HTML), default=JSON) == HTML else JSON


def _validated(body: bytes, content_type: str) -> Response:
    response = Response(body, headers=_headers(content_type))
    if "If-None-Match" in request.headers:
        response.make_conditional(request)
    return response


@cache
def _headers(content_type: str) -> tuple[tuple[str, str], ...]:
    media_type = content_type.split(";")[0]
    suffix = "" if media_type == JSON else f"-{media_type.split('/')[-1]}"
    return (
        ("Content-Type", content_type),
        ("ETag", quote_etag(fingerprint() + suffix)),
        ("Vary", "Accept"),
        ("Cache-Control", f"public, max-age={MAX_AGE_SECONDS}"),
    )
