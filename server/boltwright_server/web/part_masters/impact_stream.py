"""The impact of a change on part masters as JSON, NDJSON and CSV: one row out for each row in."""

from __future__ import annotations

import csv
import io
from itertools import chain
from typing import IO, Any

from ...part_masters.catalogue.columns import ASSESSED_MEMBERS, Columns
from ...part_masters.catalogue.row import header_of
from ...part_masters.impact.impact import Assessment, Impact, ImpactSummary
from ...standards.fingerprint import fingerprint
from ..look_ups.difference_presentation import difference_shown
from .row_columns import CsvColumns, columns_shown, refuse_unknown
from .row_streams import ENCODER, closed_on_failure, lines_of, rewound, row_of, spooled_file

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


def summary_shown(summary: ImpactSummary, columns: Columns) -> dict[str, Any]:
    """Return the members of a summary."""
    return {
        "rows": summary.rows,
        "effects": dict(summary.by_effect),
        "differences": dict(summary.by_difference.most_common()),
        **columns_shown(columns),
    }


def assessed(row: dict[str, Any] | str, assessment: Assessment, columns: Columns) -> dict[str, Any]:
    """Return one row back; its members are taken note of."""
    if isinstance(row, str):
        return impact_shown(assessment.unreadable(row))
    columns.see(tuple(row))
    return impact_shown(assessment.assess(row))


def assess_ndjson(stream: IO[bytes], assessment: Assessment, first_row: int = 0) -> IO[bytes]:
    """Return a file with one result line a line, and the summary as the last.

    Raises:
        Problem: no member of any row is known, unless the rows are a later part of a catalogue.
    """
    columns = Columns(ASSESSED_MEMBERS)
    with closed_on_failure(spooled_file()) as out:
        for line in lines_of(stream):
            out.write(ENCODER.encode(assessed(row_of(line), assessment, columns)) + b"\n")
        if not first_row:
            refuse_unknown(columns)
        last = {"summary": summary_shown(assessment.summary, columns), "fingerprint": fingerprint()}
        out.write(ENCODER.encode(last) + b"\n")
        return rewound(out)


def assess_csv(
    stream: IO[bytes], assessment: Assessment, encoding: str | None, delimiter: str | None, names: dict[str, str]
) -> tuple[IO[bytes], dict[str, str]]:
    """Return a file with a header and one line a row, and the headers; `names` maps column titles to members.

    Raises:
        Problem: see `CsvColumns`.
    """
    table = CsvColumns(stream, encoding, delimiter, names, Columns(ASSESSED_MEMBERS))
    ids = [header_of(title).id for title in table.titles]
    with closed_on_failure(spooled_file()) as out:
        text = io.TextIOWrapper(out, encoding="utf-8", errors="replace", newline="")
        writer = csv.writer(text, delimiter=table.delimiter, lineterminator="\r\n")
        writer.writerow(_COLUMNS)
        for row in chain.from_iterable(table.blocks()):
            writer.writerow(_csv_line(assessment.assess_cells(ids, row)))
        text.flush()
        text.detach()
        return rewound(out), table.headers()


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
