"""What a catalogue file is cut into: each part is sent on its own, and the run can go on behind any of them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple, Protocol

CSV, NDJSON = "text/csv", "application/x-ndjson"
#: A part ends behind so many lines or bytes, whichever comes first.
LINES, BYTES = 2000, 4 * 1024 * 1024
#: What a column without a title is called, with its number behind it.
UNTITLED = "column "
#: Lines that are not blank at the start of a file, among which the service finds the titles.
HEAD_LINES = 40


@dataclass(frozen=True, slots=True)
class Part:
    """Rows that follow one another. `end` counts lines or sheet rows from the start, `done` is for the progress."""

    body: bytes
    end: int
    done: int
    rows: int
    query: Mapping[str, str] = field(default_factory=dict)


class Head(NamedTuple):
    """The first lines of a file as CSV, and how they are to be read."""

    lines: bytes
    query: Mapping[str, str]


class Source(Protocol):
    """A file in parts. `total` is what `done` comes to in `unit`, None where it is not known.

    `delimiter` is that of its lines; a comma where it has none.
    """

    path: Path
    media_type: str
    unit: str
    total: int | None
    delimiter: str

    def head(self) -> Head | None:
        """Return the first lines; None where the rows name their members themselves."""
        ...

    def begin(self, lines: int | None, delimiter: str, mapped: Mapping[str, str]) -> None:
        """Take note that rows begin behind so many lines of the head, None: behind the first that is not blank.

        `mapped` are titles that name a unit, with the members that they are mapped to.
        """
        ...

    def parts(self, behind: int) -> Iterator[Part]:
        """Yield the parts behind a position at which an earlier part ended."""
        ...


def told_apart(names: Iterable[str]) -> list[str]:
    """Return names of which none stands twice: a later one gets a blank behind it, which means the same member.

    Else a row of two columns of one name would lose a value; so the service tells where they contradict each other.
    """
    found: dict[str, None] = {}
    for name in names:
        while name in found:
            name += " "
        found[name] = None
    return list(found)


def ndjson(rows: Iterable[Mapping[str, object]]) -> bytes:
    """Return rows as the body of an NDJSON part.

    Raises:
        TypeError, ValueError: a row holds what JSON cannot: the message names the value.
    """
    lines = (json.dumps(row, allow_nan=False, ensure_ascii=False) for row in rows)
    return b"".join(line.encode("utf-8", "replace") + b"\n" for line in lines)
