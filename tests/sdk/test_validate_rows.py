"""Rows of a program, spreadsheets, and cells beyond all measure through the validation in parts.

The catalogues are invented; what is right for a row is tested with the service.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import requests

from boltwright import Client
from boltwright.command_line import main
from boltwright.part_masters.validation import parts
from boltwright.part_masters.validation.parts import CSV, NDJSON

_TEXTS = ("ISO 4014 M10x60 8.8", "M10X60 8.8 ISO4014", "NUT HEX M16 CL10", "DIN 933 M10x40 8.8", "nothing of the kind")


@pytest.fixture(autouse=True)
def _short_parts(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    monkeypatch.setattr(parts, "LINES", 7)


def at_once(service: str, body: bytes, form: str) -> bytes:
    """The answer to the whole catalogue in one request."""
    url = f"{service}/v1/part-masters/validation"
    return requests.post(url, data=body, headers={"Content-Type": form}, timeout=60).content


def written(tmp_path: Path, content: bytes, name: str) -> Path:
    path = tmp_path / name
    path.write_bytes(content)
    return path


def test_cells_and_lines_that_are_far_too_long(service: str, tmp_path: Path) -> None:
    """A quoted cell of 1 MB over two lines, a line beyond what the service keeps, an object beyond what it reads."""
    million = "x" * 500_000
    rows = f'A,"{million}\n{million}",1\nB,ISO 4032 M10 8,16\nC,{million * 5},1\nD,ISO 4032 M12 8,18\n'
    text = f"part_number,description,width across flats\n{rows}".encode()
    out = tmp_path / "findings.csv"
    main(["validate", str(written(tmp_path, text, "parts.csv")), "--out", str(out)])
    found, expected = (
        csv.DictReader(io.StringIO(one.decode())) for one in (out.read_bytes(), at_once(service, text, CSV))
    )
    assert [(row["part_number"], row["codes"]) for row in found] == [
        (row["part_number"], row["codes"]) for row in expected
    ]
    objects = b'{"description": "' + b"x" * 9_000_000 + b'"}\n{"description": "ISO 4032 M10 8"}'
    out = tmp_path / "findings.ndjson"
    main(["validate", str(written(tmp_path, objects, "parts.ndjson")), "--out", str(out)])
    *whole, _ = [json.loads(line) for line in at_once(service, objects, NDJSON).splitlines()]
    assert [json.loads(line) for line in out.read_bytes().splitlines()] == whole


# Rows of a program


def test_rows_of_a_generator_are_read_as_results_are_taken(client: Client) -> None:
    taken: list[int] = []

    def rows() -> Iterator[dict[str, Any]]:
        for at in range(100):
            taken.append(at)
            yield {"part_number": f"P{at}", "description": "ISO 4014 M10x60 8.8"}

    found = client.part_masters_validation_iter(rows(), batch=10)
    assert next(found).designation == "ISO 4014 - M10x60 - 8.8"
    assert len(taken) == 10
    others = list(found)
    assert len(others) == 99
    assert [one.row for one in others] == list(range(1, 100))
    assert {one.findings[-1].code for one in others} == {"duplicate-requirement"}
    assert others[-1].findings[-1].expected == "P0"


def test_rows_in_batches_come_to_what_one_request_comes_to(client: Client) -> None:
    rows = [{"part_number": f"P{at % 30}", "description": _TEXTS[at % 5]} for at in range(50)]
    assert (
        tuple(client.part_masters_validation_iter(rows, batch=7)) == client.part_masters_validation(rows).part_masters
    )


# Spreadsheets


def test_a_spreadsheet_comes_to_what_its_rows_come_to(client: Client, tmp_path: Path) -> None:
    openpyxl = pytest.importorskip("openpyxl", reason="the extra `spreadsheets` is not installed")
    book = openpyxl.Workbook()
    book.active.title = "Notes"
    sheet = book.create_sheet("Parts")
    sheet.append([])
    sheet.append(["part_number", "description", "width across flats [mm]", None])
    expected = []
    for at in range(40):
        sheet.append([1000 + at, _TEXTS[at % 5], 16.0 if at % 2 else 17, "kept" if at == 3 else None])
        if at % 10 == 0:
            sheet.append([])
        expected.append(
            {"part_number": str(1000 + at), "description": _TEXTS[at % 5], "width_across_flats": 17 - at % 2}
        )
    path = tmp_path / "parts.xlsx"
    book.save(path)
    out = tmp_path / "findings.ndjson"
    assert main(["validate", str(path), "--out", str(out), "--sheet", "Parts"]) == 1
    found = [json.loads(line) for line in out.read_bytes().splitlines()]
    assert [row["part_number"] for row in found] == [row["part_number"] for row in expected]
    assert [(row["status"], row["designation"]) for row in found] == [
        (one.status, one.designation) for one in client.part_masters_validation(expected).part_masters
    ]


def test_a_sheet_that_is_not_there_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    openpyxl = pytest.importorskip("openpyxl", reason="the extra `spreadsheets` is not installed")
    openpyxl.Workbook().save(tmp_path / "parts.xlsx")
    assert main(["validate", str(tmp_path / "parts.xlsx"), "--sheet", "Parts"]) == 3
    assert "no sheet 'Parts'; there are 'Sheet'" in capsys.readouterr().err
