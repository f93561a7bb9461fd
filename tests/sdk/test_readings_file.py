"""CSV files of readings: what is read, and what is refused by line and column."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltwright import Column
from boltwright.readings_file import parse_readings, read_readings


def test_header_units_flags_words_and_empty_cells(tmp_path: Path) -> None:
    file = tmp_path / "readings.csv"
    file.write_text(
        "length,tensile_load [kN],thread_go_gauge,fracture_location\n"
        "59.8,49.2,pass,thread\n60.1,,FAIL,\n,48.8,true,Head junction\n"
    )
    assert read_readings(file) == {
        "length": Column([59.8, 60.1, None], pieces=[0, 1, 2]),
        "tensile_load": Column([49.2, None, 48.8], unit="kN", pieces=[0, 1, 2]),
        "thread_go_gauge": Column([True, False, True], pieces=[0, 1, 2]),
        "fracture_location": Column(["thread", None, "head_junction"], pieces=[0, 1, 2]),
    }


def test_pieces_are_numbered_by_their_column() -> None:
    """A piece counts from 1, as sentences do; an index from 0, as the members of an answer do."""
    assert parse_readings(b"piece,length\n7,59.8\n9,60.1\n")["length"].pieces == [6, 8]
    assert parse_readings(b"index,length\n7,59.8\n9,60.1\n")["length"].pieces == [7, 9]
    with pytest.raises(ValueError, match="from 1"):
        parse_readings(b"piece,length\n0,59.8\n")
    with pytest.raises(ValueError, match="keep one"):
        parse_readings(b"piece,index,length\n1,0,59.8\n")


@pytest.mark.parametrize(
    "text",
    [
        "length;head height [mm]\n59,8;6,4\n",
        "length\thead_height [mm]\n59,8\t6.4\n",
        "length,Head-Height [ mm ]\n59.8,6.4\n",
        "\ufeff length , head_height [mm]\r\n 59.80 , 6.4e0 \r\n\r\n",
    ],
)
def test_files_as_laboratories_write_them(text: str) -> None:
    found = parse_readings(text.encode())
    assert {id: (column.values, column.unit) for id, column in found.items()} == {
        "length": ([59.8], None),
        "head_height": ([6.4], "mm"),
    }


def test_a_row_of_empty_cells_is_a_piece_and_a_blank_line_is_none() -> None:
    assert parse_readings(b"length,marking\n1,pass\n,\n\n3,fail\n")["length"].values == [1.0, None, 3.0]


def test_a_column_without_any_reading_stays() -> None:
    assert parse_readings(b"length,marking\n,pass\n")["length"].values == [None]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "empty"),
        ("length\n", "no readings"),
        ("length,length\n1,2\n", "twice"),
        ("length,1st\n1,2\n", "column 2"),
        ("length,marking\n1\n", "line 2 has 1 cells"),
        ("length\n1\nn/a\n", "line 3, length: 'n/a' is no number"),
        ("length\n1\nnan\n", "line 3, length"),
        ("marking\npass\nok\n", "line 3, marking: 'ok' is none of"),
        ('length,marking\n"59,8",pass\n', "decimal point"),
        ("length;marking\n1.234,5;pass\n", "line 2, length"),
        ("piece,length\n1.5,2\n", "whole number"),
        ("piece,length\n,2\n", "whole number"),
        ('length\n"1\n', "line"),
    ],
)
def test_what_cannot_be_read_is_named(text: str, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        parse_readings(text.encode())


def test_a_file_in_another_encoding_is_refused() -> None:
    with pytest.raises(ValueError, match="UTF-8"):
        parse_readings("length [µm]\n1\n".encode("latin-1"))
