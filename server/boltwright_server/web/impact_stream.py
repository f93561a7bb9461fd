"""The impact of a change on part masters as JSON, NDJSON and CSV: one row out for each row in."""

from __future__ import annotations

import csv
import io
from typing import IO, Any

from ..part_masters.impact import Assessment, Impact, ImpactSummary
from ..part_masters.row import header_of
from ..standards.fingerprint import fingerprint
from .difference_presentation import difference_shown
from .row_streams import ENCODER, closed_on_failure, csv_table, lines_of, rewound, row_of, spooled_file

SIDES = ("before", "after")
_COLUMNS = ("part_number", "row", "designation", "effect", "to_designation", "changed", "differences", "reasons")


def impact_shown(one: Impact) -> dict[str, Any]:
    """Return the members of one row."""
    return {
        "part_number": one.part_number,
        "row": one.row,
        "designation": one.designation,
        "effect": one.effect,
        "to_designation": one.to_designation,
        "differences": [difference_shown(difference, *SIDES) for difference in one.differences],
        "reasons": list(one.reasons),
    }


def summary_shown(summary: ImpactSummary) -> dict[str, Any]:
    """Return the members of a summary."""
    return {
        "rows": summary.rows,
        "effects": dict(summary.by_effect),
        "differences": dict(summary.by_difference.most_common()),
    }


def assess_ndjson(stream: IO[bytes], assessment: Assessment) -> IO[bytes]:
    """Return a file with one result line a line, and the summary as the last."""
    with closed_on_failure(spooled_file()) as out:
        for line in lines_of(stream):
            row = row_of(line)
            found = assessment.unreadable(row) if isinstance(row, str) else assessment.assess(row)
            out.write(ENCODER.encode(impact_shown(found)) + b"\n")
        last = {"summary": summary_shown(assessment.summary), "fingerprint": fingerprint()}
        out.write(ENCODER.encode(last) + b"\n")
        return rewound(out)


def assess_csv(
    stream: IO[bytes], assessment: Assessment, encoding: str | None, delimiter: str | None, names: dict[str, str]
) -> IO[bytes]:
    """Return a file with a header and one line a row; `names` maps column titles to members.

    Raises:
        Problem: no header line.
    """
    table = csv_table(stream, encoding, delimiter, names)
    ids = [header_of(title).id for title in table.titles]
    with closed_on_failure(spooled_file()) as out:
        text = io.TextIOWrapper(out, encoding="utf-8", errors="replace", newline="")
        writer = csv.writer(text, delimiter=table.delimiter, lineterminator="\r\n")
        writer.writerow(_COLUMNS)
        for row in table.rows:
            writer.writerow(_csv_line(assessment.assess_cells(ids, row)))
        text.flush()
        text.detach()
        return rewound(out)


def _csv_line(one: Impact) -> tuple[Any, ...]:
    shown = impact_shown(one)
    return (
        one.part_number,
        one.row,
        one.designation,
        one.effect,
        one.to_designation,
        " ".join(difference.id for difference in one.differences),
        ENCODER.encode(shown["differences"]).decode(),
        "; ".join(one.reasons),
    )
