"""Pages of a list: an opaque cursor in the body, and the same as a Link header (RFC 8288).

A cursor belongs to one list with its filters under one fingerprint; another list, or other tables, refuse it.
"""

from __future__ import annotations

import base64
import binascii
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, Generic, TypeVar
from urllib.parse import urlencode

from flask import request
from marshmallow import fields, validate

from ...standards.fingerprint import fingerprint
from .problems import MemberError, Problem, pointer_to

T = TypeVar("T")
DEFAULT_LIMIT, GREATEST_LIMIT = 50, 500


@dataclass(frozen=True, slots=True)
class Page(Generic[T]):
    """Some items of a list, how many it has in all, and the cursor of the next page or None."""

    items: Sequence[T]
    total: int
    next: str | None


def limit() -> fields.Integer:
    """Return the field that says how many items a page has at most."""
    return fields.Integer(
        load_default=DEFAULT_LIMIT,
        validate=validate.Range(1, GREATEST_LIMIT, error=f"is 1 to {GREATEST_LIMIT}"),
        metadata={"description": "Items a page."},
    )


def cursor() -> fields.String:
    """Return the field of the cursor."""
    return fields.String(
        metadata={"description": "`next` of the page before; opaque, and good for the same filters only."},
        validate=validate.Length(min=1, max=200, error="has 1 to 200 characters"),
    )


def page_of(items: Sequence[T], arguments: Mapping[str, Any]) -> Page[T]:
    """Return the page that the query asks for.

    Raises:
        Problem: the cursor is none, or one of another list.
    """
    filters = {name: value for name, value in arguments.items() if name not in ("cursor", "limit")}
    context = _context(filters)
    start = 0 if "cursor" not in arguments else _position(arguments["cursor"], context)
    end = start + arguments["limit"]
    following = _cursor(end, context) if end < len(items) else None
    return Page(items[start:end], len(items), following)


def link(page: Page[Any]) -> dict[str, str]:
    """Return the Link header of a page; none on the last one."""
    if page.next is None:
        return {}
    query = [(name, value) for name, value in request.args.items(multi=True) if name != "cursor"]
    return {"Link": f'<{request.path}?{urlencode([*query, ("cursor", page.next)])}>; rel="next"'}


def _context(filters: Mapping[str, Any]) -> str:
    text = json.dumps([request.path, fingerprint(), sorted((name, str(value)) for name, value in filters.items())])
    return sha256(text.encode()).hexdigest()[:12]


def _cursor(position: int, context: str) -> str:
    return base64.urlsafe_b64encode(f"{position}.{context}".encode()).decode().rstrip("=")


def _position(cursor: str, context: str) -> int:
    try:
        padded = cursor + "=" * (-len(cursor) % 4)
        position, _, given = base64.b64decode(padded, altchars=b"-_", validate=True).decode("ascii").partition(".")
        found = int(position) if position.isdecimal() and len(position) < 10 else -1
    except (binascii.Error, ValueError):
        found, given = -1, ""
    if found < 0:
        raise _bad_cursor("cursor is not one that this service gave")
    if given != context:
        raise _bad_cursor("cursor belongs to other filters or to other tables: begin again without it")
    return found


def _bad_cursor(detail: str) -> Problem:
    return Problem("bad_cursor", detail, [MemberError(pointer_to("cursor"), "bad_cursor", detail)])
