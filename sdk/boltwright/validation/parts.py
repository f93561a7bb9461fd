"""What a catalogue file is cut into: each part is sent on its own, and the run can go on behind any of them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Protocol

CSV, NDJSON = "text/csv", "application/x-ndjson"
#: A part ends behind so many lines or bytes, whichever comes first.
LINES, BYTES = 2000, 4 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Part:
    """Rows that follow one another. `end` counts lines or sheet rows from the start, `done` is for the progress."""

    body: bytes
    end: int
    done: int
    query: Mapping[str, str] = field(default_factory=dict)


class Source(Protocol):
    """A file in parts. `total` is what `done` comes to in `unit`, None where it is not known."""

    path: Path
    media_type: str
    unit: str
    total: int | None

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts behind a position at which an earlier part ended."""
        ...


def ndjson(rows: Iterable[Mapping[str, object]]) -> bytes:
    """Return rows as the body of an NDJSON part.

    Raises:
        TypeError, ValueError: a row holds what JSON cannot: the message names the value.
    """
    lines = (json.dumps(row, allow_nan=False, ensure_ascii=False) for row in rows)
    return b"".join(line.encode("utf-8", "replace") + b"\n" for line in lines)
