"""Batches of a catalogue come to what one run over the whole comes to, row by row: on two workers of a cluster too.

The rows are invented; what is right for them is not at stake here, only that both ways agree.
"""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from collections.abc import Mapping
from itertools import chain
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient
from own_standards import write_standard
from running_server import environment

from boltwright_server.part_masters.catalogue.batches import validate_batch, validate_cells, with_repeats
from boltwright_server.part_masters.catalogue.validation import Result, Validator
from boltwright_server.part_masters.repeats.repeats import Repeats

_TEXTS = (
    "HEX BOLT M10X60 8.8 ZN ISO4014",
    "ISO 4014 - M10x60 - 8.8",
    "DIN 933 M10x40 8.8",
    "nothing of the kind",
    "NUT HEX M16 CL10",
    "1/2-13X2 HCS GR5 ZP",
    "VIS H M10x40 8.8",
)


def catalogue(count: int) -> list[dict[str, Any]]:
    """Rows that repeat each other over short and long distances: part numbers, requirements, and both."""
    return [
        {
            "part_number": f"P{at % (count - 3)}",
            "description": _TEXTS[at % 7] if at % 5 else f"ISO 4017 M8x{20 + at % 40} 8.8",
            "width_across_flats": (17, 16, "16,00", "x")[at % 4],
        }
        for at in range(count)
    ]


def whole(rows: list[dict[str, Any]]) -> list[Result]:
    with Validator() as validator:
        return list(validator.run(rows))


@pytest.mark.parametrize("size", [1, 7, 50, 1000])
def test_batches_and_a_second_step_come_to_the_same(size: int) -> None:
    rows = catalogue(300)
    batches = [validate_batch(rows[at : at + size], at) for at in range(0, len(rows), size)]
    with Repeats() as repeats:
        found = list(with_repeats(chain.from_iterable(batches), repeats))
    assert found == whole(rows)
    assert {"duplicate-part-number", "duplicate-requirement"} <= {one.code for row in found for one in row.findings}


def test_the_order_in_which_batches_are_done_does_not_matter() -> None:
    rows = catalogue(120)
    starts = range(0, 120, 40)
    done = {at: validate_batch(rows[at : at + 40], at) for at in reversed(starts)}
    with Repeats() as repeats:
        found = list(with_repeats(chain.from_iterable(done[at] for at in starts), repeats))
    assert found == whole(rows)


def test_csv_rows_with_too_many_or_too_few_cells(client: FlaskClient) -> None:
    titles = ["part_number", "description", "width across flats [mm]"]
    rows = [["A", "ISO 4014 M10x60 8.8", "17"], ["B"], [], ["C", "ISO 4032 M10 8", "16", "x"], ["A", "", ""]]
    with Repeats() as repeats:
        found = list(with_repeats(validate_cells(titles, [row for row in rows if row], 0), repeats))
    text = "\n".join(",".join(row) for row in [titles, *rows])
    answer = client.post("/v1/part-masters/validation", data=text, content_type="text/csv")
    expected = list(csv.DictReader(io.StringIO(answer.get_data(as_text=True))))
    assert [" ".join(each.code for each in one.findings) for one in found] == [row["codes"] for row in expected]
    assert found[1].findings[0].code == "cells-do-not-fit"


def answer_of(client: FlaskClient, body: bytes, form: str) -> list[Mapping[str, Any]]:
    answer = client.post("/v1/part-masters/validation", data=body, content_type=form)
    return [json.loads(line) for line in answer.get_data().splitlines()]


def on_cluster(*arguments: str) -> str:
    """Run the job in a process of its own, which a cluster's threads and sockets end with; returns what it printed."""
    pytest.importorskip("distributed", reason="the extra `cluster` is not installed")
    job = [sys.executable, "-m", "boltwright_server.validate_on_cluster", *arguments]
    done = subprocess.run(job, env=environment(), capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_two_workers_come_to_what_one_process_comes_to(client: FlaskClient, tmp_path: Path) -> None:
    """Batches of 50 rows on a cluster of two processes against one request; lines that are no rows among them."""
    lines = [json.dumps(row).encode() for row in catalogue(400)]
    lines[123:123] = [b"{broken", b'"text"', b"\xff"]
    body = b"\n".join(lines)
    (tmp_path / "catalogue.ndjson").write_bytes(body)
    found_file = tmp_path / "findings.ndjson"
    printed = on_cluster(str(tmp_path / "catalogue.ndjson"), str(found_file), "--workers", "2", "--batch", "50")
    *found, last = [json.loads(line) for line in found_file.read_bytes().splitlines()]
    *expected, total = answer_of(client, body, "application/x-ndjson")
    assert found == expected
    assert len(found) == 403
    assert last["fingerprint"] == total["fingerprint"]
    assert last["summary"] == {name: total["summary"][name] for name in ("rows", "statuses", "codes")}
    assert "403 rows" in printed


def test_workers_serve_a_plants_own_standards(tmp_path: Path) -> None:
    (tmp_path / "standards").mkdir()
    write_standard(tmp_path / "standards")
    catalogue, found = tmp_path / "catalogue.csv", tmp_path / "findings.ndjson"
    row = "part_number,standard,thread,length,property_class,head height\nA,WN 4711,M10,60,8.8,9\n"
    catalogue.write_text(row, encoding="utf-8")
    on_cluster(str(catalogue), str(found), "--workers", "1", "--standards", str(tmp_path / "standards"))
    (one, _) = [json.loads(line) for line in found.read_bytes().splitlines()]
    assert one["designation"] == "WN 4711 - M10x60 - 8.8"
    assert one["findings"][0]["expected"] == "8.22 to 8.58 mm"
    assert one["findings"][0]["basis"]["standard"] == "WN 4711"
