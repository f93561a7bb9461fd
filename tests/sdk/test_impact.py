"""`boltwright impact`: parts come to what one request comes to. Width across flats at M10: 17 mm formerly, 16 mm now.

The catalogues are invented; what is right for a row is tested with the service.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
import requests

from boltwright.command_line import main
from boltwright.part_masters.validation import parts
from boltwright.part_masters.validation.parts import CSV, NDJSON

CHANGE = ("--from", "DIN 933", "--to", "ISO 4017")
_TEXTS = ("ISO 4014 M10x60 8.8", "DIN 933 M12x40 8.8", "DIN 933 M16x40 8.8", "nothing of the kind")


@pytest.fixture(autouse=True)
def _short_parts(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    monkeypatch.setattr(parts, "LINES", 7)


def catalogue(count: int) -> str:
    lines = (f'P{at},"{_TEXTS[at % 4]}\n",\n' if at % 3 else f"P{at},{_TEXTS[at % 4]},,more\n" for at in range(count))
    return "part_number,description,coating\n" + "".join(lines)


def written(tmp_path: Path, text: str, name: str = "parts.csv") -> Path:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8", newline="")
    return path


def impact_at_once(service: str, text: str, form: str = CSV) -> bytes:
    """The answer to the whole catalogue in one request."""
    query = {"from": "DIN 933", "to": "ISO 4017"}
    url = f"{service}/v1/part-masters/impact"
    return requests.post(url, data=text.encode(), headers={"Content-Type": form}, params=query, timeout=60).content


def test_the_impact_in_parts_is_that_of_one_request(
    service: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = "\n\n" + catalogue(50)
    assert main(["impact", str(written(tmp_path, text)), *CHANGE]) == 1
    assert (tmp_path / "parts.impact.csv").read_bytes() == impact_at_once(service, text)
    assert "changes" in capsys.readouterr().out
    rows = [json.dumps({"part_number": f"P{at}", "description": _TEXTS[at % 4]}) + "\n" for at in range(50)]
    assert main(["impact", str(written(tmp_path, "".join(rows), "parts.ndjson")), *CHANGE]) == 1
    expected = impact_at_once(service, "".join(rows), NDJSON).splitlines(keepends=True)[:-1]
    assert (tmp_path / "parts.impact.ndjson").read_bytes() == b"".join(expected)


@pytest.mark.parametrize(
    ("text", "code"),
    [("ISO 4014 M10x60 8.8", 0), ("DIN 933 M10x40 8.8", 1), ("DIN 933 M16x40 8.8", 2), ("hello", 2)],
)
def test_the_exit_code_of_an_impact(tmp_path: Path, text: str, code: int) -> None:
    """At M16 no difference is held."""
    assert main(["impact", str(written(tmp_path, f"description\n{text}\n")), *CHANGE, "--quiet"]) == code


def test_a_change_that_is_refused_leaves_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = written(tmp_path, catalogue(10))
    assert main(["impact", str(path), "--from", "ISO 40144", "--to", "ISO 4017"]) == 3
    assert "nearest: ISO 4014" in capsys.readouterr().err
    assert main(["impact", str(path), *CHANGE, "--out", str(tmp_path / "impact.ndjson")]) == 3
    assert "ends in .csv" in capsys.readouterr().err
    assert [one.name for one in tmp_path.iterdir()] == ["parts.csv"]
