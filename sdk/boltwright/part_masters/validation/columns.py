"""Which columns of a catalogue the service reads, and which not: asked before the rows are sent, told with them."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ...errors import UnexpectedAnswer
from ...transport import Connection
from .answers import delimiter_of
from .parts import CSV, UNTITLED, Source

_READ, _UNREAD, _NOT_LISTED, _HEAD = "Columns-Read", "Columns-Not-Read", "Columns-Not-Listed", "Head-Lines"
_MAPPED = "Columns-Mapped"


@dataclass(slots=True)
class Columns:
    """`read` are titles as they stand in the catalogue, `unread` titles with the member nearest to each, or None.

    `not_listed` counts further ones of a catalogue with hundreds of columns. Where the titles have been `looked` at,
    parts can add columns without a title only: a workbook's other names are mapped by then.
    """

    read: list[str] = field(default_factory=list)
    unread: dict[str, str | None] = field(default_factory=dict)
    not_listed: int = 0
    looked: bool = False

    def add(self, other: Columns) -> None:
        """Take in what another part of the catalogue came to."""
        if self.looked:
            self.unread.update((title, None) for title in other.unread if title.startswith(UNTITLED))
            return
        self.read += [title for title in other.read if title not in self.read]
        self.unread.update(other.unread)
        self.not_listed = max(self.not_listed, other.not_listed)

    @property
    def told(self) -> bool:
        """Whether there is anything to tell."""
        return bool(self.read or self.unread)

    def members(self) -> dict[str, Any]:
        """Return what the summary of an answer holds of it."""
        unread = [{"title": title, "nearest": nearest} for title, nearest in self.unread.items()]
        return {"columns_read": self.read, "columns_not_read": unread}

    def sentence(self) -> str:
        """Say which columns were read and which not, for a person."""
        unread = [title + (f" (nearest: {nearest})" if nearest else "") for title, nearest in self.unread.items()]
        more = f", and {self.not_listed} more" if self.not_listed else ""
        said = f"columns read: {', '.join(self.read) or 'none'}"
        return said + (f"; not read: {', '.join(unread)}{more}" if unread or more else "")


def columns_of_headers(headers: Mapping[str, str]) -> Columns:
    """Return what a CSV answer says; one of an older service says nothing.

    Raises:
        UnexpectedAnswer: the headers cannot be read.
    """
    try:
        read, unread = json.loads(headers.get(_READ, "[]")), json.loads(headers.get(_UNREAD, "[]"))
        shown = {"columns_read": read, "columns_not_read": unread}
        return columns_of_summary({**shown, "columns_not_listed": int(headers.get(_NOT_LISTED, 0))})
    except ValueError as error:
        raise UnexpectedAnswer(f"the headers of the answer cannot be read ({error})") from None


def columns_of_summary(summary: Mapping[str, Any]) -> Columns:
    """Return what a summary says.

    Raises:
        UnexpectedAnswer: the members are of another kind.
    """
    try:
        unread = {str(one["title"]): one["nearest"] for one in summary.get("columns_not_read", ())}
        read = [str(title) for title in summary.get("columns_read", ())]
        return Columns(read, unread, int(summary.get("columns_not_listed", 0)))
    except (KeyError, TypeError, ValueError) as error:
        raise UnexpectedAnswer(f"the summary of the answer cannot be read ({error!r})") from None


def _mapped(headers: Mapping[str, str]) -> dict[str, str]:
    try:
        return {str(title): str(member) for title, member in json.loads(headers.get(_MAPPED, "{}")).items()}
    except (ValueError, AttributeError) as error:
        raise UnexpectedAnswer(f"the headers of the answer cannot be read ({error})") from None


def look(connection: Connection, path: str, source: Source, **query: str) -> Columns:
    """Ask what the first lines of a catalogue hold, and let the source know where its rows begin.

    Nothing is written by then: a catalogue without a known column, a mapped title that it has not, a change that is
    refused leave no trace. NDJSON has no titles; its first part is refused instead.

    Raises:
        Error: see `boltwright.errors`.
    """
    head = source.head()
    if head is None:
        return Columns()
    body, headers = connection.post_rows(path, head.lines, CSV, first_row=0, **query, **head.query)
    lines = headers.get(_HEAD, "")
    columns = columns_of_headers(headers)
    source.begin(int(lines) if lines.isdecimal() else None, delimiter_of(body), _mapped(headers))
    columns.looked = True
    return columns
