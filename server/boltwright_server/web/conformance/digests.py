"""Proofs of sameness: a digest of the canonical request and of the answer's bytes.

RFC 9530 (Repr-Digest). Canonical JSON here: members sorted, no white space, readings in their shortest form.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Mapping
from typing import Any, cast

import msgspec
from flask import Response

from ..http.bodies import ANYTHING
from ..http.caching import JSON
from .answers import Replay

#: A canonical request up to this many bytes is part of the answer; a longer one the client keeps itself.
LONGEST_ECHO = 65536
#: The long members of a column, whose numbers are doubles or whole.
_LISTS = ("values", "pieces")
_OBJECT = msgspec.json.Decoder(dict[str, msgspec.Raw])
_CANONICAL = msgspec.json.Encoder(order="sorted", decimal_format="number")


def canonical(envelope: Mapping[str, msgspec.Raw], readings: Mapping[str, Any]) -> bytes:
    """Return the canonical JSON of a request that has been read: its members as written, the columns apart.

    A column is JSON as it was written, or its values where the request was not JSON.

    Readings are doubles; every other number keeps the digits that were written: an uncertainty is exact, and the digits
    of a limit say to what `rounded` goes.
    """
    members: dict[str, Any] = {name: ANYTHING.decode(raw) for name, raw in envelope.items()}
    members["readings"] = {id: _column(raw) for id, raw in readings.items()}
    return _CANONICAL.encode(members)


def _column(raw: Any) -> Any:
    if not isinstance(raw, msgspec.Raw):
        return raw
    if bytes(raw).startswith(b"["):
        return msgspec.json.decode(raw)
    return {
        name: msgspec.json.decode(one) if name in _LISTS else ANYTHING.decode(one)
        for name, one in _OBJECT.decode(raw).items()
    }


def replay_of(envelope: Mapping[str, msgspec.Raw], readings: Mapping[str, Any]) -> Replay:
    """Return the member `replay` of an answer to a request with these members, its columns of readings apart."""
    text = canonical(envelope, readings)
    shown = cast(dict[str, Any], msgspec.Raw(text)) if len(text) <= LONGEST_ECHO else None
    return Replay(hashlib.sha256(text).hexdigest(), shown)


def with_digest(answer: bytes) -> Response:
    """Return the response with a JSON answer and the digest of its bytes."""
    digest = base64.b64encode(hashlib.sha256(answer).digest()).decode()
    return Response(answer, headers=[("Content-Type", JSON), ("Repr-Digest", f"sha-256=:{digest}:")])
