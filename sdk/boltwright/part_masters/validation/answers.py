"""The rows of an answer of the service, as mappings, whatever its form."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import NoneType
from typing import Any

from ...decoding import check_numbers
from ...errors import UnexpectedAnswer
from .parts import CSV

#: One row: the members of the JSON form. `requirement` says when two rows ask for the same.
Row = dict[str, Any]
COLUMNS = (
    "part_number",
    "row",
    "status",
    "designation",
    "confidence",
    "alternatives",
    "left_over",
    "codes",
    "findings",
    "proposed",
    "used",
)
#: The gravest first.
SEVERITIES = ("error", "warning", "notice")
_LARGEST_CELL = 64 * 1024 * 1024
_DELIMITERS = ",;\t|"
_END = "\r\n"
#: What reading an answer raises that is not what the contract says.
BROKEN = (KeyError, ValueError, TypeError, AttributeError, IndexError, RecursionError, csv.Error)
_KINDS: dict[str, type | tuple[type, ...]] = {
    "part_number": str,
    "status": str,
    "designation": (str, NoneType),
    "confidence": (int, float),
    "alternatives": list,
    "left_over": list,
    "findings": list,
}


def unreadable(error: Exception) -> UnexpectedAnswer:
    """Return the error for an answer in which something `BROKEN` was found."""
    said = f"{error} is missing" if isinstance(error, KeyError) else str(error)
    return UnexpectedAnswer(f"the answer cannot be read ({said}); is it cut short, or the service another version?")


def rows_of(
    body: bytes, media_type: str, first_row: int, count: int | None = None
) -> tuple[list[Row], Mapping[str, Any]]:
    """Return the rows of an answer, in order, and its summary; CSV has none.

    Args:
        count: the rows that were sent.

    Raises:
        UnexpectedAnswer: the answer is cut short, or its rows are not those that follow `first_row`.
    """
    try:
        rows, summary = _of_csv(body) if media_type == CSV else ndjson_rows(body)
        for row in rows:
            _check_kinds(row)
    except BROKEN as error:
        raise unreadable(error) from None
    check_numbers([row["row"] for row in rows], first_row, count)
    return rows, summary


def _of_csv(body: bytes) -> tuple[list[Row], Mapping[str, Any]]:
    return [_from_cells(cells) for cells in cells_by_title(body)], {}


def _check_kinds(row: Row) -> None:
    for member, kind in _KINDS.items():
        if not isinstance(row[member], kind):
            raise ValueError(f"{member} is {str(row[member])[:40]!r}")
    for one in row["findings"]:
        if one["severity"] not in SEVERITIES or not isinstance(one["code"], str):
            raise ValueError(f"a finding is {str(one)[:40]!r}")


def ndjson_rows(body: bytes) -> tuple[list[Row], Mapping[str, Any]]:
    """Return the rows of an NDJSON answer and its summary, the last line; what is no such answer is `BROKEN`."""
    if not body.endswith(b"\n"):
        raise ValueError("its last line does not end")
    *rows, last = [json.loads(line) for line in body.splitlines()]
    if last["summary"]["rows"] != len(rows):
        raise ValueError(f"{len(rows)} rows came, {last['summary']['rows']} are announced")
    if not all(isinstance(row, dict) and "row" in row for row in rows):
        raise ValueError("a line is no row")
    return rows, last["summary"]


def read_rows(findings: Path) -> Iterator[Row]:
    """Yield the rows of a file of findings, CSV or NDJSON, in order."""
    csv.field_size_limit(max(csv.field_size_limit(), _LARGEST_CELL))
    with findings.open(encoding="utf-8", newline="") as file:
        if findings.suffix.lower() == ".csv":
            delimiter = file.readline()[len(COLUMNS[0]) :][:1] or ","
            file.seek(0)
            yield from map(_from_cells, csv.DictReader(file, delimiter=delimiter))
        else:
            yield from map(json.loads, file)


def delimiter_of(body: bytes) -> str:
    """Return the delimiter of a CSV answer: it stands behind the first title.

    Raises:
        UnexpectedAnswer: there is none.
    """
    found = body[len(COLUMNS[0]) :][:1].decode("latin-1")
    if not body.startswith(COLUMNS[0].encode()) or found not in _DELIMITERS or not found:
        raise UnexpectedAnswer("the answer has no titles; is it cut short, or the service another version?")
    return found


def cells_by_title(body: bytes) -> Iterator[dict[str, str]]:
    """Yield the rows of a CSV answer; a line that is cut short or has other cells than titles is `BROKEN`."""
    csv.field_size_limit(max(csv.field_size_limit(), _LARGEST_CELL))
    delimiter, text = delimiter_of(body), body.decode("utf-8")
    if not text.endswith(_END):
        raise ValueError("its last line does not end")
    lines = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    titles = next(lines)
    for cells in lines:
        if len(cells) != len(titles):
            raise ValueError(f"line {lines.line_num} has {len(cells)} cells under {len(titles)} titles")
        yield dict(zip(titles, cells, strict=True))


def _from_cells(cells: Mapping[str, str]) -> Row:
    return {
        "part_number": cells["part_number"],
        "row": int(cells["row"]),
        "status": cells["status"],
        "designation": cells["designation"] or None,
        "confidence": float(cells["confidence"]),
        "alternatives": cells["alternatives"].split("; ") if cells["alternatives"] else [],
        "left_over": cells["left_over"].split(" ") if cells["left_over"] else [],
        "findings": json.loads(cells["findings"]),
        "proposed": json.loads(cells["proposed"]) if cells["proposed"] else {},
        "used": cells["used"].split(" ") if cells.get("used") else [],
        **({"requirement": cells["requirement"]} if "requirement" in cells else {}),
    }


def cells_of(row: Row) -> list[Any]:
    """Return a row as the cells of `COLUMNS`, as the service writes them."""
    findings, proposed = row["findings"], row.get("proposed")
    return [
        row["part_number"],
        row["row"],
        row["status"],
        row["designation"],
        row["confidence"],
        "; ".join(row["alternatives"]),
        " ".join(row["left_over"]),
        " ".join(one["code"] for one in findings),
        json.dumps(findings, ensure_ascii=False, separators=(",", ":")),
        json.dumps(proposed, ensure_ascii=False, separators=(",", ":")) if proposed else "",
        " ".join(row.get("used", ())),
    ]
