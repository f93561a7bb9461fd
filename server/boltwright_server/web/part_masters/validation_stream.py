"""Part masters in and out as JSON, NDJSON and CSV.

Results are written to a temporary file while the rows arrive and sent when the last row is judged: memory stays
bounded, a client that sends before it reads cannot block itself, and a cut connection gets a clean error instead of
half an answer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import IO, Any

from ...part_masters.catalogue.collector import between_collections
from ...part_masters.catalogue.columns import Columns, validated_members
from ...part_masters.catalogue.validation import Result, Row, Summary, Validator
from ...part_masters.meaning.findings import Finding
from ...quantities.keeper import remembered
from ...standards.fingerprint import fingerprint
from ..http.presentation import basis
from .csv_lines import CsvLines
from .row_columns import CsvColumns, columns_shown, refuse_unknown
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


def result_shown(result: Result) -> dict[str, Any]:
    """Return the members of one row; `requirement` stands on rows of one part of a catalogue."""
    shown = {
        "part_number": result.part_number,
        "row": result.row,
        "status": result.status,
        "designation": result.designation,
        "confidence": round(result.confidence, 3),
        "alternatives": result.alternatives,
        "used": result.used,
        "left_over": result.left_over,
        "proposed": result.proposed,
        "findings": [finding_shown(finding) for finding in result.findings],
    }
    return shown if result.requirement is None else {**shown, "requirement": result.requirement}


def validator_of(first_row: int | None) -> Validator:
    """Return a validator of a whole catalogue, or of the part of one that starts at a row."""
    return Validator() if first_row is None else Validator(first_row, repeats=False)


def finding_shown(finding: Finding) -> dict[str, Any]:
    """Return the members of a finding."""
    return {
        "code": finding.code,
        "severity": finding.severity,
        "member": finding.member,
        "given": finding.given,
        "expected": finding.expected,
        "detail": finding.detail,
        "basis": None if finding.basis is None else basis(finding.basis),
    }


def summary_shown(summary: Summary, columns: Columns) -> dict[str, Any]:
    """Return the members of a summary."""
    return {
        "rows": summary.rows,
        "statuses": dict(summary.by_status),
        "codes": dict(summary.by_code),
        "rows_per_second": round(summary.rows_per_second()),
        **columns_shown(columns),
    }


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
        last = {"summary": summary_shown(validator.summary, columns), "fingerprint": fingerprint()}
        out.write(ENCODER.encode(last) + b"\n")
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
