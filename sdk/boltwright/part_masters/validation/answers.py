"""The rows of an answer of the service, as mappings, whatever its form."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path
from types import NoneType
from typing import Any, NamedTuple

from ...errors import UnexpectedAnswer

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
}


def unreadable(error: Exception) -> UnexpectedAnswer:
    """Return the error for an answer in which something `BROKEN` was found."""
    said = f"{error} is missing" if isinstance(error, KeyError) else str(error)
    return UnexpectedAnswer(f"the answer cannot be read ({said}); is it cut short, or the service another version?")


def check_kinds(row: Row) -> None:
    """Raise something `BROKEN` where a member of a row is of another kind."""
    for member, kind in _KINDS.items():
        if not isinstance(row[member], kind):
            raise ValueError(f"{member} is {str(row[member])[:40]!r}")
    check_findings(row["findings"])


def check_findings(findings: Any) -> None:
    """Raise something `BROKEN` where these are no findings."""
    if not isinstance(findings, list):
        raise ValueError(f"findings is {str(findings)[:40]!r}")
    for one in findings:
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
            yield from map(row_of_cells, csv.DictReader(file, delimiter=delimiter))
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


class Table(NamedTuple):
    """A CSV answer: titles, the cells and the text of each row, and the delimiter."""

    titles: list[str]
    rows: list[list[str]]
    lines: list[str]
    delimiter: str


def table_of(body: bytes) -> Table:
    """Return a CSV answer; a line that is cut short or has other cells than titles is `BROKEN`."""
    csv.field_size_limit(max(csv.field_size_limit(), _LARGEST_CELL))
    delimiter, text = delimiter_of(body), body.decode("utf-8")
    if not text.endswith(_END):
        raise ValueError("its last line does not end")
    lines = io.StringIO(text, newline="").readlines()
    titles, *rows = csv.reader(lines, delimiter=delimiter, strict=True)
    if set(map(len, rows)) - {len(titles)}:
        number, cells = next((at, cells) for at, cells in enumerate(rows, 1) if len(cells) != len(titles))
        raise ValueError(f"row {number} has {len(cells)} cells under {len(titles)} titles")
    if len(lines) > 1 + len(rows):  # cells that span lines
        reader = csv.reader(lines, delimiter=delimiter, strict=True)
        ends = [0, *(reader.line_num for _ in reader)]
        lines = ["".join(lines[start:end]) for start, end in pairwise(ends)]
    return Table(titles, rows, lines[1:], delimiter)


def row_of_cells(cells: Mapping[str, str]) -> Row:
    """Return a row that stands in a CSV answer or file, without its `requirement`."""
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
