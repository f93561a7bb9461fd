"""An NDJSON file in parts."""

from __future__ import annotations

import codecs
from collections.abc import Iterator, Mapping
from itertools import islice
from pathlib import Path
from typing import IO

from . import parts
from .parts import NDJSON, Part

#: Longer lines no service reads: their start is sent, so that the row comes back and memory stays bounded.
_LONGEST_OBJECT = 8 * 1024 * 1024


class NdjsonSource:
    """Lines of an NDJSON file; blank ones are no rows."""

    media_type = NDJSON
    unit = "B"
    delimiter = ","

    def __init__(self, path: Path) -> None:
        """Look at the file."""
        self.path = path
        self.total: int | None = path.stat().st_size

    def __repr__(self) -> str:
        """Say how the file is read."""
        return "NDJSON"

    def head(self) -> None:
        """Rows name their members themselves."""

    def begin(self, lines: int | None, delimiter: str, mapped: Mapping[str, str]) -> None:
        """There are no titles."""

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts; positions count lines of the file."""
        with self.path.open("rb") as file:
            end = sum(1 for _ in islice(file, behind))
            while lines := _lines(file):
                end += len(lines)
                body = b"".join(lines)
                # A mark is no part of the first line.
                rows = sum(bool(line.strip()) for line in (lines[0].removeprefix(codecs.BOM_UTF8), *lines[1:]))
                if rows:
                    yield Part(body, end, file.tell(), rows)


def _lines(file: IO[bytes]) -> list[bytes]:
    lines: list[bytes] = []
    size = 0
    while len(lines) < parts.LINES and size < parts.BYTES and (line := file.readline(_LONGEST_OBJECT + 1)):
        if not line.endswith(b"\n"):
            while len(line) > _LONGEST_OBJECT and (rest := file.readline(_LONGEST_OBJECT)) and not rest.endswith(b"\n"):
                pass
            line += b"\n"
        lines.append(line)
        size += len(line)
    return lines
