"""Readings gathered piece by piece, from a CSV file, and from a pandas frame, give the same lot the same verdict."""

from __future__ import annotations

import subprocess
import sys
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from running_server import environment

from boltwright import Client, Column, Readings

BOLT = "ISO 4014 - M10x60 - 8.8"
CSV = """piece,width_across_flats,tensile_load [kN],thread_go_gauge,fracture_location
1,15.86,,pass,
2,15.84,,fail,
7,,53.0,,thread
8,,52.6,,shank
"""


def gathered() -> Readings:
    readings = Readings().beside("tensile_load", unit="kN")
    readings.add(width_across_flats=15.86, thread_go_gauge=True)
    readings.add(width_across_flats=15.84, thread_go_gauge=False)
    readings.add(7, tensile_load=53.0, fracture_location="thread")
    readings.add(piece=8, tensile_load=52.6, fracture_location="shank")
    return readings


def test_pieces_are_numbered_from_1_and_after_the_greatest() -> None:
    readings = Readings()
    assert [readings.add(length=60.0), readings.add(9, length=60.1), readings.add(length=None)] == [1, 9, 10]
    assert readings["length"] == Column((60.0, 60.1, None), pieces=(0, 8, 9))


def test_what_stands_beside_a_column_may_come_first_or_last() -> None:
    readings = gathered().beside("tensile_load", expanded_uncertainty=0.2, instrument="T-4")
    column = readings["tensile_load"]
    assert (column.unit, column.expanded_uncertainty, column.instrument) == ("kN", 0.2, "T-4")
    assert list(readings) == ["tensile_load", "width_across_flats", "thread_go_gauge", "fracture_location"]
    assert "hardness_core" not in Readings().beside("hardness_core", unit="HV"), "no readings, no column"
    with pytest.raises(TypeError, match="operator"):
        readings.beside("tensile_load", operator="x")


@pytest.mark.parametrize(("piece", "kind"), [(-1, ValueError), (0, ValueError), (True, ValueError), (1.5, ValueError)])
def test_a_piece_has_a_whole_number(piece: Any, kind: type[Exception]) -> None:
    with pytest.raises(kind, match="whole number"):
        Readings().add(piece, length=60.0)


def test_readings_are_plain_values() -> None:
    readings = Readings()
    readings.add(length=np.float64(60.0), marking=np.bool_(True), hardness_core=np.int64(285))
    readings.add(1, head_height=Decimal("6.40"))
    found = [next(iter(readings[id].values)) for id in readings]
    assert found == [60.0, True, 285, Decimal("6.40")]
    assert [type(value) for value in found] == [float, bool, int, Decimal]
    with pytest.raises(TypeError, match="length: a reading"):
        readings.add(length=[60.0])  # type: ignore[arg-type]


def test_three_ways_to_one_verdict(client: Client, tmp_path: Path) -> None:
    pandas = pytest.importorskip("pandas")
    file = tmp_path / "lot.csv"
    file.write_text(CSV)
    frame = pandas.DataFrame(
        {
            "piece": [1, 2, 7, 8],
            "Width across flats": [15.86, 15.84, float("nan"), float("nan")],
            "tensile_load [kN]": [float("nan"), float("nan"), 53.0, 52.6],
            "thread_go_gauge": [True, False, None, None],
            "fracture_location": [None, None, "Thread", "shank"],
        }
    )
    ways = [gathered(), Readings.from_csv(file), Readings.from_frame(frame)]
    verdicts = [client.conformance(BOLT, readings) for readings in ways]
    judged = [{id: (one.verdict, one.count, one.nonconforming_pieces) for id, one in found.characteristics.items()}
              for found in verdicts]  # fmt: skip
    assert judged[0]["thread_go_gauge"] == ("nonconforming", 2, (1,))
    assert judged[0] == judged[1] == judged[2]
    assert [reason.detail for reason in verdicts[0].reasons] == [reason.detail for reason in verdicts[2].reasons]


def test_rows_are_added_to_what_a_file_holds(tmp_path: Path) -> None:
    file = tmp_path / "lot.csv"
    file.write_text(CSV)
    readings = Readings.from_csv(file)
    assert readings.add(width_across_flats=15.9) == 9
    assert list(readings["width_across_flats"].values) == [15.86, 15.84, None, None, 15.9]


def test_frames_of_text_and_of_missing_values() -> None:
    pandas = pytest.importorskip("pandas")
    lengths = pandas.array([60.0, pandas.NA])
    frame = pandas.DataFrame({"length": lengths, "marking": ["pass", "FAIL"], "head height": ["6,4", ""]})
    readings = Readings.from_frame(frame)
    assert list(readings["length"].values) == [60.0, None]
    assert list(readings["marking"].values) == [True, False]
    assert list(readings["head_height"].values) == [6.4, None]
    assert readings["length"].pieces == (0, 1)
    with pytest.raises(ValueError, match="row 2, length: 'n/a'"):
        Readings.from_frame(pandas.DataFrame({"length": ["60.0", "n/a"]}))
    with pytest.raises(ValueError, match="same characteristic"):
        Readings.from_frame(pandas.DataFrame({"length": [1.0], "Length": [1.0]}))
    with pytest.raises(ValueError, match="column 1"):
        Readings.from_frame(pandas.DataFrame({"1": [1.0]}))


def test_pandas_is_not_imported_by_the_sdk() -> None:
    program = "import sys, boltwright; sys.exit('pandas' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], env=environment(), check=False).returncode == 0
