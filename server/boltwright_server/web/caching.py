"""Look-ups of fixed tables: rendered once for each query, validated by a strong ETag.

RFC 9110, 8.8.3 (ETag) and 15.4.5 (304). Two representations of one answer have two tags.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any

from flask import Response, request

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
        return response.get_data(), response.mimetype or JSON

    @wraps(view)
    def answer(*args: Any, **kwargs: Any) -> Response:
        query = request.query_string
        if kwargs or args or len(query) > _LONGEST_CACHED_QUERY:
            response = view(*args, **kwargs)
            body, media_type = response.get_data(), response.mimetype
        else:
            body, media_type = rendered(request.path, query, preferred())
        return _with_validators(Response(body, mimetype=media_type))

    return answer


def preferred() -> str:
    """Return the media type that the client asks for: HTML only where it prefers it to JSON."""
    accept = request.accept_mimetypes
    return HTML if accept and accept.best_match((JSON, HTML), default=JSON) == HTML else JSON


def _with_validators(response: Response) -> Response:
    suffix = "" if response.mimetype == JSON else f"-{(response.mimetype or '').split('/')[-1]}"
    response.set_etag(fingerprint() + suffix)
    response.headers["Vary"] = "Accept"
    response.cache_control.public = True
    response.cache_control.max_age = MAX_AGE_SECONDS
    return response.make_conditional(request)  # type: ignore[return-value]
