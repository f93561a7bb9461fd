"""3 000 rows, 34 kinds of fault: all come back, each kind is found, good rows are left alone; in two forms of file."""

from __future__ import annotations

import csv
import io
import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from flask import Flask
from flask.testing import FlaskClient
from running_server import RunningServer

from boltwright.command_line import main

from .mixed import GERMAN_TITLES, Row, catalogue, written
from .mixed_kinds import KINDS
from .mixed_parts import LANGUAGES

COUNT, EACH = 3000, 36
FOUND, UNDESERVED = 0.97, 1 / 300
PATH = "/v1/part-masters/validation"
MAPPED = ",".join(f"{title}:{member}" for member, title in GERMAN_TITLES.items())
Answer = list[dict[str, str]]
Sent = tuple[list[Row], bytes, dict[str, str], str]


def _utf_8() -> Sent:
    rows = catalogue(COUNT, EACH, 1130, LANGUAGES)
    return rows, written(rows, ",").encode("utf-8-sig"), {}, "text/csv; charset=utf-8"


def _cp1252() -> Sent:
    rows = catalogue(COUNT, EACH, 2611, ("de",))
    text = written(rows, ";", GERMAN_TITLES)
    return rows, text.encode("cp1252"), {"delimiter": "semicolon", "encoding": "cp1252", "columns": MAPPED}, "text/csv"


FILES: dict[str, Callable[[], Sent]] = {
    "UTF-8 with a byte order mark, stated": _utf_8,
    "cp1252, semicolons, German titles": _cp1252,
}


@pytest.fixture(scope="module", params=FILES)
def answered(request: pytest.FixtureRequest, application: Flask) -> tuple[list[Row], Answer]:
    rows, body, query, media_type = FILES[request.param]()
    response = application.test_client().post(PATH, data=body, query_string=query, content_type=media_type)
    assert response.status_code == 200, response.text[:600]
    return rows, read_back(response.get_data(as_text=True))


def read_back(text: str) -> Answer:
    """The answer's delimiter is a comma, or that of what was sent."""
    delimiter = ";" if text.partition("\n")[0].count(";") else ","
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=delimiter))


def weighty(read: dict[str, str]) -> set[str]:
    return {one["code"] for one in json.loads(read["findings"] or "[]") if one["severity"] in ("warning", "error")}


def test_every_row_comes_back_in_its_place(answered: tuple[list[Row], Answer]) -> None:
    rows, read = answered
    assert len(read) == len(rows) == COUNT
    assert [one["part_number"] for one in read] == [row.cells["part_number"] for row in rows]
    assert [int(one["row"]) for one in read] == list(range(COUNT))


def test_each_kind_of_fault_is_found(answered: tuple[list[Row], Answer]) -> None:
    """A fault that is told by a notice alone leaves its row valid: it is not found."""
    rows, read = answered
    made = Counter(row.kind for row in rows if row.kind)
    found = Counter(
        row.kind for row, one in zip(rows, read, strict=True) if row.kind and KINDS[row.kind].is_told(weighty(one))
    )
    shares = {kind: found[kind] / made[kind] for kind in KINDS}
    lacking = [f"{kind}: {share:.2f}" for kind, share in shares.items() if share < FOUND]
    assert not lacking, "\n".join(lacking)


def test_good_rows_are_left_alone(answered: tuple[list[Row], Answer]) -> None:
    rows, read = answered
    good = [(row, one) for row, one in zip(rows, read, strict=True) if row.kind is None]
    bad = [f"{row.cells}: {sorted(weighty(one))}" for row, one in good if weighty(one)]
    assert len(bad) / len(good) <= UNDESERVED, f"{len(bad)} of {len(good)}\n" + "\n".join(bad[:40])


def test_good_rows_are_read_with_their_standard_and_class(answered: tuple[list[Row], Answer]) -> None:
    rows, read = answered
    good = [(row, one) for row, one in zip(rows, read, strict=True) if row.kind is None]
    blank = [row.cells["description"] for row, one in good if not one["designation"]]
    assert len(blank) / len(good) <= UNDESERVED, "\n".join(blank[:40])


def test_the_command_answers_as_the_service(
    server: RunningServer, client: FlaskClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """`boltwright validate` with mapped titles, in parts, writes what one request for the whole file would answer."""
    monkeypatch.setenv("BOLTWRIGHT_URL", server.url)
    rows, body, query, media_type = _cp1252()
    source, out = tmp_path / "parts.csv", tmp_path / "findings.csv"
    source.write_bytes(body)
    options = ["--encoding", "cp1252", "--delimiter", "semicolon", "--columns", MAPPED, "--quiet"]
    assert main(["validate", str(source), "--out", str(out), *options]) == 1
    whole = client.post(PATH, data=body, query_string=query, content_type=media_type).get_data(as_text=True)
    said = read_back(out.read_text(encoding="utf-8-sig"))
    wanted = read_back(whole)
    assert len(said) == len(rows)
    assert [(one["part_number"], one["codes"]) for one in said] == [
        (one["part_number"], one["codes"]) for one in wanted
    ]


def test_the_catalogues_hold_every_kind() -> None:
    for make in FILES.values():
        rows = make()[0]
        kinds = Counter(row.kind for row in rows)
        assert set(kinds) == {None, *KINDS}
        assert len(KINDS) >= 20
        assert min(kinds.values()) >= EACH - 1
