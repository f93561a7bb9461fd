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
_CANONICAL = msgspec.json.Encoder(order="sorted", decimal_format="number")


def canonical(body: bytes) -> bytes:
    """Return the canonical JSON of a request that has been read before.

    Readings are doubles; every other number keeps the digits that were written, for they state the last digit of a
    limit, and `rounded` goes by it.
    """
    members: dict[str, Any] = {
        name: msgspec.json.decode(raw) if name == "readings" else ANYTHING.decode(raw)
        for name, raw in ENVELOPE.decode(body).items()
    }
    return _CANONICAL.encode(members)


def replay_of(body: bytes) -> dict[str, Any]:
    """Return the member `replay` of an answer to `body`."""
    text = canonical(body)
    shown = msgspec.Raw(text) if len(text) <= LONGEST_ECHO else None
    return {"request_sha256": hashlib.sha256(text).hexdigest(), "request": shown}


def with_digest(answer: bytes) -> Response:
    """Return the response with a JSON answer and the digest of its bytes."""
    digest = base64.b64encode(hashlib.sha256(answer).digest()).decode()
    return Response(answer, headers={"Repr-Digest": f"sha-256=:{digest}:"}, mimetype=JSON)
