"""What an answer says of the columns of a file: in the summary of JSON and NDJSON, in the headers of CSV.

A body in which no column is known is refused: nothing of it could be read.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import IO, Any

from msgspec import Struct, structs

from ...part_masters.catalogue.columns import Columns, nearest_member
from ...part_masters.catalogue.csv_rows import Row, open_table
from ...part_masters.catalogue.titles import mapped_name
from ...quantities import Contradiction, near_names
from ..http.bodies import Path, problem
from ..http.problems import Problem
from ..http.request_streams import within_rows

#: JSON in ASCII; `Head-Lines` counts the lines before the first row, `Columns-Mapped` holds the mapped titles that
#: name a unit, with member and unit.
READ, UNREAD, NOT_LISTED, HEAD = "Columns-Read", "Columns-Not-Read", "Columns-Not-Listed", "Head-Lines"
MAPPED = "Columns-Mapped"
#: Bytes of a header; proxies refuse longer ones. What does not fit is counted.
_LONGEST_HEADER = 3000
_LONGEST_DETAIL, _SHOWN, _LOOKED = 60, 12, 40


class TitleNotRead(Struct):
    """A title that was not read, and the nearest one that would have been."""

    title: str
    nearest: str | None


def columns_shown(columns: Columns) -> dict[str, Any]:
    """Return the members that every summary has of the columns."""
    shown: dict[str, Any] = {
        "columns_read": columns.read,
        "columns_not_read": [TitleNotRead(one.title, one.nearest) for one in columns.unread],
    }
    return {**shown, "columns_not_listed": columns.not_listed} if columns.not_listed else shown


def refuse_unknown(columns: Columns, path: Path = ()) -> None:
    """Refuse rows, that stand at `path`, whose members are all unknown.

    Raises:
        Problem: no_known_column.
    """
    if columns.none_known:
        raise _no_known_column(columns, path, "")


def _no_known_column(columns: Columns, path: Path, remedy: str) -> Problem:
    unread = columns.unread[:_SHOWN]
    found = ", ".join(
        repr(one.title[:_LONGEST_DETAIL]) + (f" (nearest: {one.nearest})" if one.nearest else "") for one in unread
    )
    more = len(columns.unread) + columns.not_listed - len(unread)
    detail = (
        f"no column is known: {found or 'all titles are blank'}{f' and {more} more' if more else ''}; name one "
        f"part_number, description or designation{remedy}"
    )
    refused = problem("no_known_column", detail, path)
    near = (one.nearest for one in unread if one.nearest)
    refused.nearest = tuple(dict.fromkeys((*near, "part_number", "description", "designation")))
    return refused


class CsvColumns:
    """A CSV text below its titles, and what is to be said of them.

    Raises:
        Problem: no header line, a mapped title that is not there, or no column that is known.
    """

    def __init__(
        self,
        stream: IO[bytes],
        encoding: str | None,
        delimiter: str | None,
        names: Mapping[str, str],
        columns: Columns,
    ) -> None:
        """Find the titles; `names` maps them to members."""
        self._columns = columns
        table = open_table(
            stream, encoding, delimiter, lambda title: 2 if title in names else int(columns.knows(title))
        )
        if table is None:
            raise problem("no_readings", "the CSV text holds no header line", ())
        if table.candidates:
            _refuse_unknown_titles(names, table.candidates, columns)
        _refuse_missing(names, table.titles)
        mapped = {title: _mapped_name(title, member) for title, member in names.items()}
        self._with_units = {title: name for title, name in mapped.items() if name != names[title]}
        self.titles = [mapped.get(title, title) for title in table.titles]
        self.delimiter = table.delimiter
        self._table = table
        columns.see(tuple(self.titles), table.titles)

    def blocks(self) -> Iterator[list[Row]]:
        """Yield the rows, some thousand at once; a column without a title that holds something is told."""
        untitled = [at for at, title in enumerate(self.titles) if not title]
        for block in within_rows(self._table.blocks):
            for at in untitled:
                if any(len(row) > at and row[at].strip() for row in block):
                    self._columns.see((f"column {at + 1}",))
            yield block

    def headers(self) -> dict[str, str]:
        """Return what the headers say when the rows have been read."""
        shown = columns_shown(self._columns)
        read, left = _fitting(shown["columns_read"])
        unread, left_too = _fitting([structs.asdict(one) for one in shown["columns_not_read"]])
        beyond = left + left_too + self._columns.not_listed
        told = {READ: read, UNREAD: unread, HEAD: str(self._table.head_lines)}
        if self._with_units:
            told[MAPPED] = json.dumps(self._with_units, separators=(",", ":"))
        return {**told, NOT_LISTED: str(beyond)} if beyond else told


def _refuse_unknown_titles(names: Mapping[str, str], candidates: Sequence[Sequence[str]], columns: Columns) -> None:
    """Refuse a file of which no title is known by the line that looks most like titles: above it stands the company."""
    likeliest = max(candidates, key=lambda titles: sum(nearest_member(title) is not None for title in titles[:_LOOKED]))
    _refuse_missing(names, likeliest)
    columns.see(tuple(likeliest))
    raise _no_known_column(columns, ("columns",), ", or map titles with columns=Title:member")


def _mapped_name(title: str, member: str) -> str:
    try:
        return mapped_name(title, member)
    except Contradiction as refusal:
        raise problem("contradiction", refusal.detail, ("columns",)) from None


def _refuse_missing(names: Mapping[str, str], titles: Sequence[str]) -> None:
    """Refuse a title that the file has not: its column would be passed over."""
    missing = next((title for title in names if title not in titles), None)
    if missing is None:
        return
    named = [title for title in titles if title]
    listed = ", ".join(repr(title[:_LONGEST_DETAIL]) for title in named[:_SHOWN])
    more = f" and {len(named) - _SHOWN} more" if len(named) > _SHOWN else ""
    detail = f"columns: the file has no title {missing[:_LONGEST_DETAIL]!r}; its titles are {listed or 'blank'}{more}"
    refused = problem("unknown_title", detail, ("columns",))
    refused.nearest = near_names(missing, [title[:_LONGEST_DETAIL] for title in named], 3)
    raise refused


def _fitting(listed: Sequence[Any]) -> tuple[str, int]:
    """Return as much of a list as a header holds, as JSON, and how many are left over."""
    kept, size = [], 2
    for one in listed:
        size += len(json.dumps(one)) + 1
        if size > _LONGEST_HEADER:
            break
        kept.append(one)
    return json.dumps(kept, separators=(",", ":")), len(listed) - len(kept)
