"""Rows that the SDK sends are those that the service counts, whatever a file holds: else a good answer is refused.

The reference is the reader of the service; that it loses no row is tested beside it.
"""

from __future__ import annotations

import csv
import io
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from boltwright.part_masters.validation import parts
from boltwright.part_masters.validation.csv_source import CsvSource
from boltwright_server.part_masters.catalogue.csv_rows import open_table

#: Quotes that close and that never do, ends of lines of three kinds, blanks, zeros, both delimiters.
PIECES = st.sampled_from(
    ['"', '""', ",", ";", "\n", "\r\n", "\r", " ", "a", "b\u00e4", "\x00", "\u2028", "\x0b", '"x,y"', "\t"]
)
TEXTS = st.lists(PIECES, max_size=120).map("".join)


@pytest.fixture(scope="module")
def folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)


@given(TEXTS, st.sampled_from([1, 2, 7, 2000]))
@example('a,"\n' * 60 + "b\n", 1)
@example('"\n\n\n"\n', 1)
@settings(deadline=None, max_examples=400)
def test_every_part_has_the_rows_that_the_service_finds(folder: Path, text: str, lines: int) -> None:
    path = folder / "parts.csv"
    path.write_bytes(f"part_number,description\n{text}".encode())
    before, parts.LINES = parts.LINES, lines
    try:
        sent = list(CsvSource(path).parts(0))
    finally:
        parts.LINES = before
    for part in sent:
        table = open_table(io.BytesIO(part.body), "utf-8", None)
        assert table is not None
        assert len(list(table.rows)) == part.rows
    whole = open_table(io.BytesIO(path.read_bytes()), "utf-8", None)
    assert whole is not None
    assert sum(part.rows for part in sent) == len(list(whole.rows))


@given(st.lists(st.tuples(TEXTS, TEXTS), max_size=30))
@settings(deadline=None, max_examples=100)
def test_rows_that_a_writer_has_quoted_are_counted(folder: Path, rows: list[tuple[str, str]]) -> None:
    """The reference is the writer of the standard library; cells of more than 50 lines count as stray quotes."""
    rows = [row for row in rows if "".join(row).count("\n") + "".join(row).count("\r") < 50]
    text = io.StringIO(newline="")
    csv.writer(text).writerows([("part_number", "description"), *rows])
    path = folder / "quoted.csv"
    path.write_bytes(text.getvalue().encode())
    assert sum(part.rows for part in CsvSource(path).parts(0)) == len(rows)
