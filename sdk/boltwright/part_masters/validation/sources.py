"""The source for a file, by its suffix."""

from __future__ import annotations

from pathlib import Path

from .csv_source import CsvSource
from .ndjson_source import NdjsonSource
from .parts import Source
from .sheet_source import SheetSource


def source_of(
    path: Path,
    encoding: str | None = None,
    delimiter: str | None = None,
    columns: str | None = None,
    sheet: str | None = None,
) -> Source:
    """Return the source for a file, by its suffix: .ndjson or .jsonl, .xlsx or .xlsm, else CSV.

    Raises:
        ValueError: the extra for spreadsheets is not installed, or the workbook has no such sheet.
    """
    suffix = path.suffix.lower()
    if suffix in (".ndjson", ".jsonl"):
        return NdjsonSource(path)
    if suffix in (".xlsx", ".xlsm"):
        return SheetSource(path, sheet, columns)
    query = {"delimiter": delimiter, "columns": columns}
    return CsvSource(path, encoding, {name: value for name, value in query.items() if value})
