"""Part masters in and out as JSON, NDJSON and CSV.

Results are written to a temporary file while the rows arrive and sent when the last row is judged: memory stays
bounded, a client that sends before it reads cannot block itself, and a cut connection gets a clean error instead of
half an answer.
"""

from __future__ import annotations

import csv
import io
import tempfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import IO, Any

import msgspec

from ..part_masters.csv_rows import cells, delimiter_of, text_lines
from ..part_masters.findings import Finding
from ..part_masters.validation import Result, Summary, Validator
from ..standards.fingerprint import fingerprint
from .bodies import problem
from .presentation import basis

NDJSON, CSV = "application/x-ndjson", "text/csv"
#: Bytes of one NDJSON line; longer lines come back as unreadable rows.
LONGEST_LINE = 8 * 1024 * 1024
_PIECE = 65_536
_IN_MEMORY = 1024 * 1024
_ENCODER = msgspec.json.Encoder(decimal_format="number")
_OBJECT = msgspec.json.Decoder(dict[str, Any], float_hook=Decimal)
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
        "left_over": result.left_over,
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


def summary_shown(summary: Summary) -> dict[str, Any]:
    """Return the members of a summary."""
    return {
        "rows": summary.rows,
        "statuses": dict(summary.by_status),
        "codes": dict(summary.by_code),
        "rows_per_second": round(summary.rows_per_second()),
    }


def validate_ndjson(stream: IO[bytes], first_row: int | None = None) -> IO[bytes]:
    """Return a file with one result line a line, and the summary as the last."""
    with _closed_on_failure(_file()) as out, validator_of(first_row) as validator:
        for line in _lines(stream):
            out.write(_ENCODER.encode(result_shown(_ndjson_row(validator, line))) + b"\n")
        last = {"summary": summary_shown(validator.summary), "fingerprint": fingerprint()}
        out.write(_ENCODER.encode(last) + b"\n")
        return _rewound(out)


def _ndjson_row(validator: Validator, line: bytes) -> Result:
    if len(line) > LONGEST_LINE:
        return validator.unreadable(f"the line has {len(line)} bytes; at most {LONGEST_LINE} are read")
    try:
        return validator.validate(_OBJECT.decode(line))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        return validator.unreadable(f"the line is no JSON object: {error}")


def _lines(stream: IO[bytes]) -> Iterator[bytes]:
    """Yield lines that are not blank; of a line that is too long only its length matters."""
    while line := stream.readline(LONGEST_LINE + 1):
        while not line.endswith(b"\n") and len(line) > LONGEST_LINE:
            more = stream.readline(_PIECE)
            if not more or more.endswith(b"\n"):
                break
        if line.strip():
            yield line


def validate_csv(
    stream: IO[bytes],
    encoding: str | None,
    delimiter: str | None,
    names: dict[str, str],
    first_row: int | None = None,
) -> IO[bytes]:
    """Return a file with a header and one line a row; `names` maps column titles to members.

    Raises:
        Problem: no header line.
    """
    lines = text_lines(stream, encoding)
    header = next((line for line in lines if line.strip()), None)
    if header is None:
        raise problem("no_readings", "the CSV text holds no header line", ())
    separator = delimiter or delimiter_of(header)
    titles = [names.get(title.strip(), title.strip()) for title in next(csv.reader([header], delimiter=separator))]
    with _closed_on_failure(_file()) as out, validator_of(first_row) as validator:
        text = io.TextIOWrapper(out, encoding="utf-8", errors="replace", newline="")
        writer = csv.writer(text, delimiter=separator, lineterminator="\r\n")
        writer.writerow(_COLUMNS if first_row is None else (*_COLUMNS, "requirement"))
        layout = validator.layout(tuple(titles))
        ids = [layout.ids[title] for title in titles]
        for row in cells(lines, separator):
            given = dict(zip(ids, row, strict=False))
            wrong = () if len(row) == len(ids) else (_count(len(row), len(ids)),)
            writer.writerow(_csv_line(validator.validate_given(given, layout, *wrong)))
        text.flush()
        text.detach()
        return _rewound(out)


def _count(found: int, wanted: int) -> Finding:
    detail = f"the row has {found} cells under {wanted} columns"
    return Finding("cells-do-not-fit", "", str(found), str(wanted), detail)


def _csv_line(result: Result) -> tuple[Any, ...]:
    findings = result.findings
    cells = (
        result.part_number,
        result.row,
        result.status,
        result.designation,
        round(result.confidence, 3),
        "; ".join(result.alternatives) if result.alternatives else "",
        " ".join(result.left_over) if result.left_over else "",
        " ".join(finding.code for finding in findings) if findings else "",
        _ENCODER.encode([finding_shown(finding) for finding in findings]).decode() if findings else "[]",
    )
    return cells if result.requirement is None else (*cells, result.requirement)


class Unzipped(io.RawIOBase):
    """A gzip stream as it is read, for any size.

    Raises:
        Problem: not gzip, or cut short.
    """

    def __init__(self, stream: IO[bytes]) -> None:
        self._stream = stream
        self._inflate = zlib.decompressobj(wbits=31)

    def readable(self) -> bool:
        """Return True."""
        return True

    def readinto(self, buffer: Any) -> int:
        """Fill the buffer with unzipped bytes."""
        try:
            data = self._inflate.decompress(self._inflate.unconsumed_tail, len(buffer)) if self._tail() else b""
            while not data and not self._inflate.eof:
                piece = self._stream.read(_PIECE)
                if not piece:
                    raise problem("bad_request", "the gzip body ends too early", ())
                data = self._inflate.decompress(piece, len(buffer))
        except zlib.error as error:
            raise problem("bad_request", f"the body is no gzip: {error}", ()) from None
        buffer[: len(data)] = data
        return len(data)

    def _tail(self) -> bool:
        return bool(self._inflate.unconsumed_tail)


@contextmanager
def _closed_on_failure(file: IO[bytes]) -> Iterator[IO[bytes]]:
    """Close the file unless all went well; then whoever sends it closes it."""
    try:
        yield file
    except BaseException:
        file.close()
        raise


def _file() -> IO[bytes]:
    return tempfile.SpooledTemporaryFile(max_size=_IN_MEMORY)


def _rewound(file: IO[bytes]) -> IO[bytes]:
    file.seek(0)
    return file
