"""The answer to a part: checked whole, its rows passed on as they came; only those that are marked are written anew."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ...decoding import check_numbers
from .answers import BROKEN, COLUMNS, Row, cells_of, check_findings, check_kinds, ndjson_rows, row_of_cells, table_of
from .answers import unreadable as _unreadable
from .columns import Columns, columns_of_headers, columns_of_summary
from .parts import CSV, NDJSON

Finding = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Form:
    """How findings are written: CSV with a delimiter, or NDJSON."""

    media_type: str = NDJSON
    delimiter: str = ","

    @property
    def head(self) -> bytes:
        """What the file begins with."""
        return _csv([COLUMNS], self.delimiter).encode() if self.media_type == CSV else b""

    def written(self, rows: Iterable[Row]) -> str:
        """Return rows as the service writes them."""
        if self.media_type == CSV:
            return _csv(map(cells_of, rows), self.delimiter)
        return "".join(json.dumps(row, ensure_ascii=False, separators=(",", ":")) + "\n" for row in rows)


@dataclass(slots=True)
class Answer:
    """The rows of a part, in columns. `findings` are those of the rows that have any, by the index of the row.

    `lines` are the rows as they came, without `requirement`: None where something else is to be written.
    """

    part_numbers: Sequence[str]
    requirements: Sequence[str]
    statuses: list[str]
    findings: dict[int, list[Finding]]
    columns: Columns
    row: Callable[[int], Row]
    lines: list[str] | None
    _marked: dict[int, Row] = field(default_factory=dict)

    def mark(self, at: int, found: Finding) -> None:
        """Add a finding to a row."""
        row = self._marked[at] = self.row(at)
        row["findings"].append(found)
        self.findings[at] = row["findings"]
        self.statuses[at] = row["status"] = _status(row["findings"])

    def rows(self) -> Iterator[Row]:
        """Yield the rows, marks included."""
        for at in range(len(self.statuses)):
            yield self._marked.get(at) or self.row(at)

    def written(self, form: Form) -> bytes:
        """Return the rows as they came, those that are marked anew."""
        if self.lines is None:
            text = form.written(self.rows())
        else:
            for at, row in self._marked.items():
                self.lines[at] = form.written([row])
            text = "".join(self.lines)
        return text.encode("utf-8", "replace")


def answer_of(
    body: bytes, headers: Mapping[str, str], media_type: str, first_row: int, count: int | None, form: Form | None
) -> Answer:
    """Return the answer to a part of `count` rows; without a form nothing is to be written.

    Raises:
        UnexpectedAnswer: it is cut short, or its rows are not those that follow `first_row`.
    """
    try:
        numbers, found = _of_csv(body, headers, form) if media_type == CSV else _of_ndjson(body, form)
    except BROKEN as error:
        raise _unreadable(error) from None
    check_numbers(numbers, first_row, count)
    return found


def _of_csv(body: bytes, headers: Mapping[str, str], form: Form | None) -> tuple[list[int], Answer]:
    titles, rows, lines, delimiter = table_of(body)
    cells = dict(zip(titles, zip(*rows, strict=True) if rows else [()] * len(titles), strict=True))
    for one in set(cells["confidence"]):
        float(one)
    _json_cells([one for one in cells["proposed"] if one])
    findings = {at: found for at, found in enumerate(_json_cells(cells["findings"])) if found != []}
    for found in findings.values():
        check_findings(found)
    requirements = cells.get("requirement", ("",) * len(rows))
    as_wanted = form == Form(CSV, delimiter) and titles == [*COLUMNS, "requirement"]

    def row(at: int) -> Row:
        return row_of_cells(dict(zip(titles, rows[at], strict=True)))

    return list(map(int, cells["row"])), Answer(
        cells["part_number"],
        requirements,
        list(cells["status"]),
        findings,
        columns_of_headers(headers),
        row,
        _without_last(lines, rows, delimiter) if as_wanted else None,
    )


def _json_cells(cells: Sequence[str]) -> list[Any]:
    """Return what cells of JSON hold, read at once; that they have brackets themselves is their matter."""
    found: list[Any] = json.loads(f"[{','.join(cells)}]")
    if len(found) != len(cells):
        raise ValueError("a cell holds no JSON")
    return found


def _without_last(lines: list[str], rows: list[list[str]], delimiter: str) -> list[str]:
    """Return lines without their last cell; a line that writes it in an unusual way is written anew."""
    found = []
    for line, cells in zip(lines, rows, strict=True):
        last = f"{delimiter}{cells[-1]}\r\n"
        found.append(f"{line[: -len(last)]}\r\n" if line.endswith(last) else _csv([cells[:-1]], delimiter))
    return found


def _of_ndjson(body: bytes, form: Form | None) -> tuple[list[Any], Answer]:
    rows, summary = ndjson_rows(body)
    for row in rows:
        check_kinds(row)
    lines = None
    if form is not None and form.media_type == NDJSON:
        lines = [_without_requirement(*one) for one in zip(body.decode().split("\n"), rows, strict=False)]
    return [row["row"] for row in rows], Answer(
        [row["part_number"] for row in rows],
        [row.pop("requirement", "") for row in rows],
        [row["status"] for row in rows],
        {at: row["findings"] for at, row in enumerate(rows) if row["findings"]},
        columns_of_summary(summary),
        rows.__getitem__,
        lines,
    )


def _without_requirement(line: str, row: Row) -> str:
    """Return the line of a row; the member stands last, and no text within can hold its bare quotes."""
    before = line.rpartition(',"requirement":')[0]
    if before and next(reversed(row)) == "requirement":
        return f"{before}}}\n"
    return Form().written([{name: value for name, value in row.items() if name != "requirement"}])


def _status(findings: list[Finding]) -> str:
    if any(one["code"] == "unreadable" for one in findings):
        return "unreadable"
    severities = {one["severity"] for one in findings}
    return "invalid" if "error" in severities else "questionable" if "warning" in severities else "valid"


def _csv(rows: Iterable[Iterable[object]], delimiter: str) -> str:
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=delimiter, lineterminator="\r\n").writerows(rows)
    return text.getvalue()
