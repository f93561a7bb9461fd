"""Proofs of sameness: a digest of the canonical request and of the answer's bytes.

RFC 9530 (Repr-Digest). Canonical JSON here: members sorted, no white space, readings in their shortest form.
"""

from __future__ import annotations

import base64
import hashlib
from typing import Any

import msgspec
from flask import Response

from .bodies import ANYTHING, ENVELOPE
from .caching import JSON

#: A canonical request up to this many bytes is part of the answer; a longer one the client keeps itself.
LONGEST_ECHO = 65536
#: The long members of a column, whose numbers are doubles or whole.
_LISTS = ("values", "pieces")
_CANONICAL = msgspec.json.Encoder(order="sorted", decimal_format="number")


def canonical(body: bytes) -> bytes:
    """Return the canonical JSON of a request that has been read before.

    Readings are doubles; every other number keeps the digits that were written: an uncertainty is exact, and the digits
    of a limit say to what `rounded` goes.
    """
    members: dict[str, Any] = {
        name: _readings(raw) if name == "readings" else ANYTHING.decode(raw)
        for name, raw in ENVELOPE.decode(body).items()
    }
    return _CANONICAL.encode(members)


def _readings(columns: msgspec.Raw) -> dict[str, Any]:
    return {id: _column(raw) for id, raw in ENVELOPE.decode(columns).items()}


def _column(raw: msgspec.Raw) -> Any:
    if bytes(raw).startswith(b"["):
        return msgspec.json.decode(raw)
    return {
        name: msgspec.json.decode(one) if name in _LISTS else ANYTHING.decode(one)
        for name, one in ENVELOPE.decode(raw).items()
    }


def replay_of(body: bytes) -> dict[str, Any]:
    """Return the member `replay` of an answer to `body`."""
    text = canonical(body)
    shown = msgspec.Raw(text) if len(text) <= LONGEST_ECHO else None
    return {"request_sha256": hashlib.sha256(text).hexdigest(), "request": shown}


def with_digest(answer: bytes) -> Response:
    """Return the response with a JSON answer and the digest of its bytes."""
    digest = base64.b64encode(hashlib.sha256(answer).digest()).decode()
    return Response(answer, headers=[("Content-Type", JSON), ("Repr-Digest", f"sha-256=:{digest}:")])
