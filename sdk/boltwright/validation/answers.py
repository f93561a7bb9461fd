"""The rows of an answer of the service, as mappings, whatever its form."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from ..errors import UnexpectedAnswer
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
_LARGEST_CELL = 64 * 1024 * 1024


def rows_of(body: bytes, media_type: str, first_row: int) -> list[Row]:
    """Return the rows of an answer, in order.

    Raises:
        UnexpectedAnswer: the answer is cut short, or its rows are not those that follow `first_row`.
    """
    try:
        rows = _of_csv(body) if media_type == CSV else _of_ndjson(body)
    except (KeyError, ValueError, csv.Error) as error:
        raise UnexpectedAnswer(f"the answer cannot be read ({error}); is the service another version?") from None
    for number, row in enumerate(rows, first_row):
        if row.get("row") != number:
            raise UnexpectedAnswer(f"the answer holds row {row.get('row')} where row {number} is expected")
    return rows


def _of_ndjson(body: bytes) -> list[Row]:
    *rows, last = [json.loads(line) for line in body.splitlines()]
    if last["summary"]["rows"] != len(rows):
        raise ValueError(f"{len(rows)} rows came, {last['summary']['rows']} are announced")
    return rows


def read_rows(findings: Path) -> Iterator[Row]:
    """Yield the rows of a file of findings, CSV or NDJSON, in order."""
    csv.field_size_limit(max(csv.field_size_limit(), _LARGEST_CELL))
    with findings.open(encoding="utf-8", newline="") as file:
        if findings.suffix.lower() == ".csv":
            yield from map(_from_cells, csv.DictReader(file))
        else:
            yield from map(json.loads, file)


def cells_by_title(body: bytes) -> Iterator[dict[str, str]]:
    """Yield the rows of a CSV answer; its first title tells the delimiter."""
    csv.field_size_limit(max(csv.field_size_limit(), _LARGEST_CELL))
    text = body.decode("utf-8")
    return csv.DictReader(io.StringIO(text, newline=""), delimiter=text[len(COLUMNS[0])])


def _of_csv(body: bytes) -> list[Row]:
    return [_from_cells(cells) for cells in cells_by_title(body)]


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
