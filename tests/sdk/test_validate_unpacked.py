"""Catalogues that are gzip or arrive on the standard input come to what the plain file comes to, byte by byte."""

from __future__ import annotations

import gzip
import io
from pathlib import Path

import pytest

from boltwright.command_line import main

ROWS = "part_number,description\nA1,ISO 4014 M10x60 8.8\nA2,NUT HEX M16 CL10\nA3,M10X60 8.8 ISO4014\n"
LINES = '{"part_number": "A1", "description": "ISO 4014 M10x60 8.8"}\n{"description": "ISO 4032 M10 8"}\n'


@pytest.fixture(autouse=True)
def _url(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)


def findings(folder: Path, text: str, name: str) -> bytes:
    """What the plain file comes to."""
    plain = folder / f"plain{name}"
    plain.write_text(text)
    out = folder / f"plain.out{name}"
    main(["validate", str(plain), "--out", str(out), "--quiet"])
    return out.read_bytes()


@pytest.mark.parametrize(("name", "text"), [(".csv", ROWS), (".ndjson", LINES)])
def test_a_gzip_file(tmp_path: Path, name: str, text: str) -> None:
    packed, out = tmp_path / f"parts{name}.gz", tmp_path / f"out{name}"
    packed.write_bytes(gzip.compress(text.encode(), mtime=0))
    main(["validate", str(packed), "--out", str(out), "--quiet"])
    assert out.read_bytes() == findings(tmp_path, text, name)


def test_findings_of_a_gzip_file_lie_beside_it(tmp_path: Path) -> None:
    (tmp_path / "parts.csv.gz").write_bytes(gzip.compress(ROWS.encode(), mtime=0))
    main(["validate", str(tmp_path / "parts.csv.gz"), "--quiet"])
    assert (tmp_path / "parts.findings.csv").read_bytes() == findings(tmp_path, ROWS, ".csv")


@pytest.mark.parametrize(("name", "text"), [(".csv", ROWS), (".ndjson", LINES)])
@pytest.mark.parametrize("packed", [False, True])
def test_the_standard_input(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, text: str, packed: bool
) -> None:
    body = gzip.compress(text.encode(), mtime=0) if packed else text.encode()
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(body)))
    out = tmp_path / f"out{name}"
    main(["validate", "-", "--out", str(out), "--quiet"])
    assert out.read_bytes() == findings(tmp_path, text, name)


@pytest.mark.parametrize(
    "body",
    [gzip.compress(ROWS.encode(), mtime=0)[:-6], b"no gzip at all", b""],
    ids=["cut", "none", "empty"],
)
def test_a_gzip_file_that_is_cut_or_none_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], body: bytes
) -> None:
    packed = tmp_path / "parts.csv.gz"
    packed.write_bytes(body)
    assert main(["validate", str(packed), "--quiet"]) == 3
    assert "gzip file" in capsys.readouterr().err
    assert not (tmp_path / "parts.findings.csv").exists()


def test_the_standard_input_needs_a_file_for_the_findings(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["validate", "-"]) == 3
    assert "--out" in capsys.readouterr().err
