"""Part masters in and out as JSON, NDJSON and CSV.

Results are written to a temporary file while the rows arrive and sent when the last row is judged: memory stays
bounded, a client that sends before it reads cannot block itself, and a cut connection gets a clean error instead of
half an answer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import IO, Annotated

from msgspec import UNSET, Meta, Struct, UnsetType

from ...part_masters.catalogue.collector import between_collections
from ...part_masters.catalogue.columns import Columns, validated_members
from ...part_masters.catalogue.validation import Result, Row, Summary, Validator
from ...part_masters.meaning.findings import CODES, Finding
from ...quantities.keeper import remembered
from ..http.answers import BasisAnswer, body_of, described
from ..http.presentation import basis
from .csv_lines import CsvLines
from .row_columns import CsvColumns, TitleNotRead, columns_shown, refuse_unknown
from .row_streams import ENCODER, blocks_of, closed_on_failure, lines_of, rewound, row_of, spooled_file

_COLUMNS = (
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


class FindingAnswer(Struct):
    """What is wrong with a row, what the standard says, and where."""

    code: Annotated[
        str,
        Meta(
            description="What it means and what to do: /docs/findings/{code}", extra_json_schema={"enum": list(CODES)}
        ),
    ]
    severity: Annotated[str, Meta(extra_json_schema={"enum": ["error", "warning", "notice"]})]
    member: str
    given: str | None
    expected: str | None
    detail: str
    basis: BasisAnswer | None


class PartMasterAnswer(Struct):
    """One row back."""

    part_number: str
    row: Annotated[int, described("Counted from 0.")]
    status: Annotated[str, Meta(extra_json_schema={"enum": ["valid", "questionable", "invalid", "unreadable"]})]
    designation: Annotated[str | None, described("Canonical; null where it is not certain.")]
    confidence: float
    alternatives: Sequence[str]
    used: Annotated[Sequence[str], described("Words that the reading used.")]
    left_over: Annotated[Sequence[str], described("Words that were not understood.")]
    proposed: Annotated[
        Mapping[str, str],
        described("The corrected row: members that would change, only where nothing else can be meant."),
    ]
    findings: list[FindingAnswer]
    requirement: Annotated[
        str | UnsetType,
        described("With `first_row`: product and coating asked for; empty where they are not certain."),
    ] = UNSET


class ValidationSummary(Struct, kw_only=True):
    """What the rows come to. A CSV answer says of its columns in the headers Columns-Read and Columns-Not-Read."""

    rows: int
    statuses: dict[str, int]
    codes: dict[str, int]
    rows_per_second: int
    columns_read: list[str]
    columns_not_read: list[TitleNotRead]
    columns_not_listed: int | UnsetType = UNSET


class ValidationEnd(Struct):
    """The last line of NDJSON."""

    summary: ValidationSummary


def result_shown(result: Result) -> PartMasterAnswer:
    """Return one row as answers show it; `requirement` stands on rows of one part of a catalogue."""
    return PartMasterAnswer(
        result.part_number,
        result.row,
        result.status,
        result.designation,
        round(result.confidence, 3),
        result.alternatives,
        result.used,
        result.left_over,
        result.proposed,
        [finding_shown(finding) for finding in result.findings],
        UNSET if result.requirement is None else result.requirement,
    )


def validator_of(first_row: int | None) -> Validator:
    """Return a validator of a whole catalogue, or of the part of one that starts at a row."""
    return Validator() if first_row is None else Validator(first_row, repeats=False)


def finding_shown(finding: Finding) -> FindingAnswer:
    """Return a finding as answers show it."""
    return FindingAnswer(
        finding.code,
        finding.severity,
        finding.member,
        finding.given,
        finding.expected,
        finding.detail,
        None if finding.basis is None else basis(finding.basis),
    )


def summary_shown(summary: Summary, columns: Columns) -> ValidationSummary:
    """Return a summary as answers show it."""
    return ValidationSummary(
        rows=summary.rows,
        statuses=dict(summary.by_status),
        codes=dict(summary.by_code),
        rows_per_second=round(summary.rows_per_second()),
        **columns_shown(columns),
    )


def validate_ndjson(stream: IO[bytes], first_row: int | None = None) -> IO[bytes]:
    """Return a file with one result line a line, and the summary as the last.

    Raises:
        Problem: no member of any row is known, unless the rows are a later part of a catalogue.
    """
    columns = Columns(validated_members())
    with closed_on_failure(spooled_file()) as out, validator_of(first_row) as validator:
        for lines in between_collections(blocks_of(lines_of(stream))):
            for result in validator.validate_rows(seen(map(row_of, lines), columns)):
                out.write(ENCODER.encode(result_shown(result)) + b"\n")
        if not first_row:
            refuse_unknown(columns)
        out.write(body_of(ValidationEnd(summary_shown(validator.summary, columns))) + b"\n")
        return rewound(out)


def seen(rows: Iterable[Row], columns: Columns) -> Iterator[Row]:
    """Yield rows, whose members are taken note of."""
    for row in rows:
        if not isinstance(row, str):
            columns.see(tuple(row))
        yield row


def validate_csv(
    stream: IO[bytes],
    encoding: str | None,
    delimiter: str | None,
    names: dict[str, str],
    first_row: int | None = None,
) -> tuple[IO[bytes], dict[str, str]]:
    """Return a file with a header and one line a row, and the headers; `names` maps column titles to members.

    Raises:
        Problem: see `CsvColumns`.
    """
    table = CsvColumns(stream, encoding, delimiter, names, Columns(validated_members()))
    with closed_on_failure(spooled_file()) as out, validator_of(first_row) as validator:
        lines = CsvLines(table.delimiter)
        out.write(lines.encoded([_COLUMNS if first_row is None else (*_COLUMNS, "requirement")]))
        layout = validator.layout(tuple(table.titles))
        for block in between_collections(table.blocks()):
            out.write(lines.encoded(map(_csv_line, validator.validate_block(block, layout))))
        return rewound(out), table.headers()


def _csv_line(result: Result) -> tuple[str, ...]:
    findings = result.findings
    cells = (
        result.part_number,
        str(result.row),
        result.status,
        result.designation or "",
        _rounded(result.confidence),
        "; ".join(result.alternatives) if result.alternatives else "",
        " ".join(result.left_over) if result.left_over else "",
        " ".join([finding.code for finding in findings]) if findings else "",
        f"[{','.join([_finding_text(finding) for finding in findings])}]" if findings else "[]",
        ENCODER.encode(result.proposed).decode() if result.proposed else "",
        " ".join(result.used),
    )
    return cells if result.requirement is None else (*cells, result.requirement)


@remembered(1024)
def _rounded(confidence: float) -> str:
    """Confidences are few."""
    return str(round(confidence, 3))


@remembered(8192)
def _finding_text(finding: Finding) -> str:
    """Many rows share a finding: it is written out once."""
    return ENCODER.encode(finding_shown(finding)).decode()
