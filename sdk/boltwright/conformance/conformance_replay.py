"""POST /v1/conformance/replay: judges a kept request again and compares the answer, byte for byte."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..decoding import Result
from ..transport import Connection
from .conformance import Conformance


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A part of the answer that is another one today; `characteristic` is None for what concerns the lot."""

    characteristic: str | None = None
    member: str
    old: Any = None
    new: Any = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ConformanceReplay(Result):
    """Whether the verdict replays; `same` is None where no digest was given."""

    same: bool | None = None
    detail: str
    fingerprint_given: str | None = None
    answer_sha256: str
    #: What moved since; None where the kept answer was not sent.
    moved: tuple[Moved, ...] | None = None
    answer: Conformance


def conformance_replay(
    connection: Connection,
    request: Mapping[str, Any],
    *,
    fingerprint: str | None = None,
    answer_sha256: str | None = None,
    answer: bytes | Mapping[str, Any] | None = None,
) -> ConformanceReplay:
    """Judge a kept request again.

    Args:
        request: the request as sent, or `Conformance.replay.request`.
        fingerprint: the kept answer's, so that the answer can say whether the tables have changed since.
        answer_sha256: the kept answer's `sha256`.
        answer: the kept answer itself, its `body` or `raw`: then `moved` says which limits moved, old and new.

    Raises:
        Error: see `boltwright.errors`.
    """
    kept = json.loads(answer) if isinstance(answer, bytes) else answer
    if answer_sha256 is None and isinstance(answer, bytes):
        answer_sha256 = hashlib.sha256(answer).hexdigest()
    body = {"request": request, "fingerprint": fingerprint, "answer_sha256": answer_sha256, "answer": kept}
    return connection.post(ConformanceReplay, "/v1/conformance/replay", body)
