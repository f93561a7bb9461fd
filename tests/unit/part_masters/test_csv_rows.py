"""Rows of a CSV text: as many come out as went in, whatever stands in the cells."""

import csv
import io
from itertools import islice

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltwright_server.part_masters.catalogue import csv_rows
from boltwright_server.part_masters.catalogue.csv_rows import open_table

CELL = st.text(st.sampled_from('ab;,"\n\r é\x00×|'), max_size=12)


def rows_of(text: str | bytes, encoding: str | None = "utf-8") -> list[list[str]]:
    table = open_table(io.BytesIO(text if isinstance(text, bytes) else text.encode()), encoding, None)
    assert table is not None
    return list(table.rows)


@given(st.lists(st.tuples(st.integers(1, 99).map(str), CELL, CELL), max_size=40), st.integers(1, 60))
@settings(deadline=None)
def test_rows_written_as_csv_come_back_whole(rows: list[tuple[str, str, str]], piece: int) -> None:
    """The reference is the writer of the standard library; a cell of many lines is left to the next test."""
    written = io.StringIO(newline="")
    csv.writer(written).writerows([("a", "b", "c"), *rows])
    before, csv_rows._PIECE, csv_rows._SNIFFED = (csv_rows._PIECE, csv_rows._SNIFFED), piece, piece
    try:
        assert rows_of(written.getvalue()) == [list(row) for row in rows]
    finally:
        csv_rows._PIECE, csv_rows._SNIFFED = before


@pytest.mark.parametrize(
    ("lines", "first_cells"),
    [
        (["1;a", "2;b", "3;c"], "123"),
        (['1;x"y;"z', "2;b", "3;c"], "123"),
        (['1;"x', "2;b", "3;c"], "123"),
        (['1;"x', "2;b", '3;1/2" bolt', "4;d"], "1234"),
        (['1;"x', 'two ""quoted"" lines";y', "2;b"], "12"),
        (['1;1/2" bolt;"a;b"', "2;b"], "12"),
        (["1;a", "", "   ", "2;b"], "1 2"),
    ],
)
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_no_row_is_lost_to_stray_quotes_or_ends_of_line(lines: list[str], first_cells: str, end: str) -> None:
    back = rows_of(end.join(["n;text;more", *lines]))
    assert "".join(row[0].strip() or " " for row in back) == first_cells


def test_a_quote_that_never_closes_swallows_no_row_behind_it() -> None:
    lines = ['0;"open', *(f"{number};x" for number in range(1, 500))]
    assert [row[0] for row in rows_of("n;text\n" + "\n".join(lines))] == [str(number) for number in range(500)]


def test_a_long_cell_is_one_cell_and_a_longer_line_keeps_its_row() -> None:
    back = rows_of("n;text\n1;" + "x" * 1_000_000 + "\n2;" + "y" * (csv_rows.LONGEST_LINE + 10) + "\n3;z\n")
    assert [row[0] for row in back] == ["1", "2", "3"]
    assert len(back[0][1]) == 1_000_000


@given(st.binary(max_size=400))
@settings(deadline=None)
def test_bytes_that_are_no_text_lose_no_line(noise: bytes) -> None:
    plain = noise.translate(None, b'\n\r";\x00')
    assert len(rows_of(b"n;text\n1;" + plain + b"\n2;b\n", None)) == 2


def test_rows_come_as_they_are_read() -> None:
    """A stream without end gives its first rows."""
    table = open_table(io.BufferedReader(_Endless()), None, None)
    assert table is not None
    assert len(list(islice(table.rows, 100_000))) == 100_000


class _Endless(io.RawIOBase):
    def readable(self) -> bool:
        return True

    def readinto(self, buffer: memoryview) -> int:  # type: ignore[override]
        buffer[:] = (b"1;2\n" * len(buffer))[: len(buffer)]
        return len(buffer)
