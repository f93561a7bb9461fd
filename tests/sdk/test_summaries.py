"""Answers as text: what a person has to know, aligned, and no figure that the answer does not state."""

from __future__ import annotations

from pathlib import Path

import pytest

from boltwright import Capability, Client, Conformance, ControlChart
from boltwright.command_line import main
from boltwright.decoding import decode

BOLT = "ISO 4014 - M10x60 - 8.8"
BASIS = b'{"standard": "ISO 4014", "edition": "2011", "clause": "Table 1", "method": "tabulated", "checked": "memory"}'
VERDICT = b"""{"designation": "ISO 4014 - M10x60 - 8.8", "verdict": "reject", "lot_size": 500, "characteristics": {
    "width_across_flats": {"verdict": "nonconforming", "count": 2, "nonconforming_count": 1, "undecided_count": 0,
        "limits": {"symbol": "s", "min": 15.73, "max": 16.00, "unit": "mm", "basis": B},
        "statistics": {"mean": 15.9, "min": 15.8, "max": 16.015, "unit": "mm"}, "basis": B},
    "thread_go_gauge": {"verdict": "conforming", "allowed": [true], "count": 12, "nonconforming_count": 0,
        "undecided_count": 0, "basis": B}},
    "missing": ["length"], "decision_rule": {"rule": "guarded", "standard": "ISO 14253-1", "edition": "2017"},
    "reasons": [{"code": "x", "detail": "Piece 2 is too wide."}], "notices": ["A notice."]}"""
VERDICT = VERDICT.replace(b"B}", BASIS + b"}")


def test_a_verdict() -> None:
    lines = decode(Conformance, VERDICT).summary().splitlines()
    assert lines[0] == "ISO 4014 - M10x60 - 8.8, lot of 500"
    assert lines[1] == "Verdict: REJECT   (decision rule guarded, ISO 14253-1:2017)"
    flats, gauge = (next(line for line in lines if name in line) for name in ("width across flats", "thread go gauge"))
    assert " ".join(flats.split()) == "width across flats nonconforming 2 1 15.800 16.015 15.73 to 16.00 mm (memory)"
    assert gauge.split()[-2:] == ["pass", "(memory)"]
    assert flats.index("nonconforming") == gauge.index("conforming")
    assert lines[lines.index("Reasons") + 1] == "  - Piece 2 is too wide."
    assert lines[lines.index("To note") + 1] == "  - A notice."


def test_a_capability(client: Client) -> None:
    found = client.capability([9.9, 10.1, 10.0, 10.2, 9.8, 10.0, 10.1, 9.9, 10.0], min=9.0, max=11.0, unit="mm")
    said = found.summary()
    assert said.startswith("Capability against 9 to 11 mm\n")
    assert found.cpk is not None
    low, high = found.cpk.confidence_interval
    line = next(line for line in said.splitlines() if line.startswith("  Cpk"))
    assert line.split() == ["Cpk", f"{found.cpk.value:.2f}", f"{low:.2f}", "to", f"{high:.2f}"]
    assert "Distribution: normal, not rejected by the Anderson-Darling test" in said


def test_a_capability_of_an_older_service_has_no_distribution() -> None:
    found = decode(Capability, b'{"count": 2, "mean": 1, "ppk": {"value": 1.0, "confidence_interval": [0.5, 1.5]}}')
    assert found.summary().splitlines()[0] == "Capability"
    assert "Distribution" not in found.summary()


def test_a_control_chart(client: Client) -> None:
    said = client.control_chart([0.5, -0.5] * 10 + [9.0], chart="individuals").summary()
    assert said.startswith("Control chart: NOT IN CONTROL")
    assert "a point outside the control limits (individuals): 21" in said
    calm = client.control_chart([1.0, 2.0, 3.0] * 4, subgroup_size=3)
    assert calm.summary().startswith("Control chart, subgroups of 3: in control")
    assert isinstance(calm, ControlChart)


@pytest.fixture
def file(tmp_path: Path, service: str, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)
    target = tmp_path / "readings.csv"
    target.write_text("width_across_flats,length [in]\n" + "15.86,2.361\n15.84,2.362\n15.85,\n15.86,2.36\n" * 5)
    return target


def test_the_command_capability(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    picture = file.with_suffix(".svg")
    of = ["--designation", BOLT, "--subgroup-size", "4", "--drawing", str(picture)]
    assert main(["capability", str(file), "width_across_flats", *of]) == 0
    said = capsys.readouterr().out
    assert "Capability against 15.73 to 16 mm" in said
    assert "Cpk" in said
    assert "ISO 4014 - M10x60 - 8.8: width across flats" in picture.read_text(encoding="utf-8")
    assert main(["capability", str(file), "length", "--min", "2.3"]) == 0
    assert "values              15\n" in capsys.readouterr().out


def test_the_command_chart_says_by_its_exit_code_whether_a_rule_fires(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture = file.with_suffix(".svg")
    asked = ["chart", str(file), "width_across_flats", "--kind", "individuals"]
    assert main([*asked, "--drawing", str(picture)]) == 0
    assert "in control" in capsys.readouterr().out
    assert ">Width across flats<" in picture.read_text(encoding="utf-8")
    file.write_text(file.read_text() + "16.3,\n")
    assert main(asked) == 1
    assert main(["chart", str(file), "height"]) == 3
    assert "no column 'height'" in capsys.readouterr().err


def test_judge_writes_pictures(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    picture = file.with_name("flats.svg")
    asked = ["judge", str(file), "--designation", BOLT, "--drawing"]
    assert main([*asked, f"width_across_flats={picture}"]) == 2
    assert "20 readings" in picture.read_text(encoding="utf-8")
    for wrong, said in (("height=x.svg", "no column 'height'"), ("length", "write it as length=FILE.svg")):
        assert main([*asked, wrong]) == 3
        assert said in capsys.readouterr().err


def test_a_gap_would_shift_the_subgroups(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["chart", str(file), "length", "--subgroup-size", "3"]) == 3
    assert "length: row 3 is empty" in capsys.readouterr().err
    assert main(["chart", str(file), "length", "--kind", "individuals"]) == 0
    file.write_text("length\n" + "60.1\n59.9\n60.0\n" * 4 + '""\n')
    assert main(["chart", str(file), "length", "--subgroup-size", "3"]) == 0
    assert main(["capability", str(file), "length", "--min", "59", "--subgroup-size", "3"]) == 0
