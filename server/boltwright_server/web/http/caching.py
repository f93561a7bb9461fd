"""Look-ups of fixed tables: rendered once for each query, validated by a strong ETag.

RFC 9110, 8.8.3 (ETag) and 15.4.5 (304). Two representations of one answer have two tags.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from hashlib import sha256
from threading import Lock
from typing import Any

from cachetools import LRUCache, cached
from flask import Response, request
from werkzeug.datastructures import MIMEAccept
from werkzeug.http import parse_accept_header, quote_etag

from ...quantities.keeper import KEEPER, Memory, Size, remembered
from ...standards.fingerprint import fingerprint

#: Clients may reuse an answer that long without asking again.
MAX_AGE_SECONDS = 300
_LONGEST_CACHED_QUERY = 1000
#: Bytes of all answers that a worker remembers; some ten thousand limits of a thread, or a thousand specifications.
MOST_BYTES = 24 * 1024 * 1024
#: What an answer takes beside its body: query, tag, entries of the cache.
_BESIDE = 1500
HTML = "text/html"
JSON = "application/json"
PDF = "application/pdf"
SVG = "image/svg+xml"

View = Callable[..., Response]
Tagged = tuple[bytes, str, str, str | None]
#: By path, query and the media types of both questions to `preferred`; the least recently used leave first.
_KEPT: LRUCache[tuple[str, bytes, str, str], Tagged] = LRUCache(MOST_BYTES, lambda answer: len(answer[0]) + _BESIDE)


def look_up(view: View) -> View:
    """Serve a view of fixed facts from memory, with ETag, Cache-Control and 304.

    The view may depend on the path, the query, `preferred()` and `preferred(HTML, PDF)` only. Problems are not kept.
    """

    @wraps(view)
    def answer(*args: Any, **kwargs: Any) -> Response:
        query = request.query_string
        if kwargs or args or len(query) > _LONGEST_CACHED_QUERY:
            return _validated(*_tagged(view(*args, **kwargs)))
        return _validated(*_rendered(view, request.path, query, preferred(), preferred(HTML, PDF)))

    return answer


@cached(_KEPT, key=lambda view, *asked: asked, lock=Lock())
def _rendered(view: View, path: str, query: bytes, *media: str) -> Tagged:
    """Render an answer or remember it; one that exceeds the whole cache is rendered each time."""
    return _tagged(view())


KEEPER.add(
    Memory(f"{__name__}._rendered", lambda: Size(len(_KEPT), int(_KEPT.currsize)), lambda: _rendered.cache_clear())
)


def preferred(*others: str) -> str:
    """Return the media type that the client asks for: one of `others` (HTML if none) only where preferred to JSON."""
    return _preferred(request.headers.get("Accept", ""), others or (HTML,))


@remembered(256)
def _preferred(accept: str, others: tuple[str, ...]) -> str:
    wanted = parse_accept_header(accept, MIMEAccept)
    return wanted.best_match((JSON, *others), default=JSON) if wanted else JSON


def _tagged(response: Response) -> Tagged:
    """Return body, content type, the entity tag and the Link header of a page of a list.

    The fingerprint tags JSON. A page or drawing also changes with its template, so its own digest is added.
    """
    body, content_type = response.get_data(), response.content_type or JSON
    digest = "" if content_type.split(";")[0] == JSON else f"-{sha256(body).hexdigest()[:16]}"
    return body, content_type, quote_etag(fingerprint() + digest), response.headers.get("Link")


def _validated(body: bytes, content_type: str, tag: str, link: str | None) -> Response:
    response = Response(body, headers=_headers(content_type, tag))
    if link is not None:
        response.headers["Link"] = link
    if "If-None-Match" in request.headers:
        response.make_conditional(request)
    return response


@remembered(128)
def _headers(content_type: str, tag: str) -> tuple[tuple[str, str], ...]:
    return (
        ("Content-Type", content_type),
        ("ETag", tag),
        ("Vary", "Accept"),
        ("Cache-Control", f"public, max-age={MAX_AGE_SECONDS}"),
    )
