"""The impact of a change on part masters as JSON, NDJSON and CSV: one row out for each row in."""

from __future__ import annotations

import csv
import io
from itertools import chain
from typing import IO, Annotated, Any

from msgspec import UNSET, Meta, Struct, UnsetType

from ...part_masters.catalogue.columns import ASSESSED_MEMBERS, Columns
from ...part_masters.catalogue.row import header_of
from ...part_masters.impact.effect import EFFECTS
from ...part_masters.impact.impact import Assessment, Impact, ImpactSummary
from ..http.answers import BoundsAnswer, body_of, described, shown
from ..look_ups.difference_presentation import DifferenceAnswer, difference_shown, sides
from .row_columns import CsvColumns, TitleNotRead, columns_shown, refuse_unknown
from .row_streams import ENCODER, closed_on_failure, lines_of, rewound, row_of, spooled_file

_COLUMNS = ("part_number", "row", "designation", "effect", "to_designation", "changed", "differences", "reasons")


class ImpactDifference(DifferenceAnswer, kw_only=True, rename=sides("before", "after")):
    """A requirement that the change moves."""

    first: Annotated[BoundsAnswer | None, described("null: nothing, or a text.")]
    second: Annotated[BoundsAnswer | None, described("null: nothing, or a text.")]
    first_text: str | None
    second_text: str | None


class ImpactRow(Struct, kw_only=True):
    """One row back."""

    part_number: str
    row: Annotated[int, described("Counted from 0.")]
    designation: str | None
    effect: Annotated[
        str,
        Meta(
            description="`no_counterpart`: the other standard has no such part. `not_judged`: `reasons` says why.",
            extra_json_schema={"enum": list(EFFECTS)},
        ),
    ]
    to_designation: Annotated[str | None, described("What it would be called after it.")]
    differences: list[ImpactDifference]
    reasons: list[str]


class ImpactSummaryAnswer(Struct, kw_only=True):
    """What the rows come to: how many have an effect and a difference; the columns as for the validation."""

    rows: int
    effects: dict[str, int]
    differences: dict[str, int]
    columns_read: list[str]
    columns_not_read: list[TitleNotRead]
    columns_not_listed: int | UnsetType = UNSET


class ImpactEnd(Struct):
    """The last line of NDJSON."""

    summary: ImpactSummaryAnswer


def impact_shown(one: Impact) -> ImpactRow:
    """Return one row as answers show it."""
    differences = [difference_shown(ImpactDifference, difference) for difference in one.differences]
    return shown(ImpactRow, one, differences=differences)


def summary_shown(summary: ImpactSummary, columns: Columns) -> ImpactSummaryAnswer:
    """Return a summary as answers show it."""
    return ImpactSummaryAnswer(
        rows=summary.rows,
        effects=dict(summary.by_effect),
        differences=dict(summary.by_difference.most_common()),
        **columns_shown(columns),
    )


def assessed(row: dict[str, Any] | str, assessment: Assessment, columns: Columns) -> ImpactRow:
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
        out.write(body_of(ImpactEnd(summary=summary_shown(assessment.summary, columns))) + b"\n")
        return rewound(out)


def assess_csv(
    stream: IO[bytes], assessment: Assessment, encoding: str | None, delimiter: str | None, names: dict[str, str]
) -> tuple[IO[bytes], dict[str, str]]:
    """Return a file with a header and one line a row, and the headers; `names` maps column titles to members.

    Raises:
        Problem: see `CsvColumns`.
    """
    table = CsvColumns(stream, encoding, delimiter, names, Columns(ASSESSED_MEMBERS))
    headers = [header_of(title) for title in table.titles]
    with closed_on_failure(spooled_file()) as out:
        text = io.TextIOWrapper(out, encoding="utf-8", errors="replace", newline="")
        writer = csv.writer(text, delimiter=table.delimiter, lineterminator="\r\n")
        writer.writerow(_COLUMNS)
        for row in chain.from_iterable(table.blocks()):
            writer.writerow(_csv_line(assessment.assess_cells(headers, row)))
        text.flush()
        text.detach()
        return rewound(out), table.headers()


def _csv_line(one: Impact) -> tuple[Any, ...]:
    return (
        one.part_number,
        one.row,
        one.designation,
        one.effect,
        one.to_designation,
        " ".join(difference.id for difference in one.differences),
        ENCODER.encode(impact_shown(one).differences).decode(),
        "; ".join(one.reasons),
    )
