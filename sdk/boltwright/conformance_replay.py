"""POST /v1/conformance/replay: judges a kept request again and compares the answer, byte for byte."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from .conformance import Conformance
from .decoding import Result
from .transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class ConformanceReplay(Result):
    """Whether the verdict replays; `same` is None where no digest was given."""

    same: bool | None = None
    detail: str
    fingerprint_given: str | None = None
    answer_sha256: str
    answer: Conformance


def conformance_replay(
    connection: Connection,
    request: Mapping[str, Any],
    *,
    fingerprint: str | None = None,
    answer_sha256: str | None = None,
) -> ConformanceReplay:
    """Judge a kept request again.

    Args:
        request: the request as sent, or `Conformance.replay.request`.
        fingerprint: the kept answer's, so that the answer can say whether the tables have changed since.
        answer_sha256: the kept answer's `sha256`.

    Raises:
        Error: see `boltwright.errors`.
    """
    body = {"request": request, "fingerprint": fingerprint, "answer_sha256": answer_sha256}
    return connection.post(ConformanceReplay, "/v1/conformance/replay", body)
