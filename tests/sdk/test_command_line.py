"""The command `boltwright`: what it prints, its exit codes, and one plain sentence where there is no answer."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from pathlib import Path

import pytest

from boltwright.command_line import main

BOLT = "ISO 4014 - M10x60 - 8.8"
HEADER = (
    "width_across_flats,width_across_corners,head_height,body_diameter,length,thread_go_gauge,thread_not_go_gauge,"
    "marking,hardness_core,tensile_load [kN],fracture_location\n"
)
GOOD = "15.86,18.10,6.40,9.88,60.0,pass,pass,pass,285,53.0,thread\n"


@pytest.fixture(autouse=True)
def _address(service: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOLTWRIGHT_URL", service)


@pytest.fixture
def readings(tmp_path: Path) -> Path:
    file = tmp_path / "readings.csv"
    file.write_text(HEADER + GOOD)
    return file


def judge(file: Path | str, *more: str) -> int:
    return main(["judge", str(file), "--designation", BOLT, *more])


def test_limits(capsys: pytest.CaptureFixture[str]) -> None:
    """ISO 965-2:1998, Table 1, M10, bolts of quality medium."""
    assert main(["limits", "M10-6g"]) == 0
    lines = capsys.readouterr().out.splitlines()
    pitch = next(line.split() for line in lines if "pitch diameter" in line)
    assert pitch[:6] == ["pitch", "diameter", "d2", "8.862", "8.994", "mm"]
    assert "ISO 965-1:2013" in " ".join(pitch)


def test_limits_of_a_fit_and_in_another_unit(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["limits", "M10-6H/6g", "--unit", "um"]) == 0
    said = capsys.readouterr().out
    assert said.index("M10-6g   external") < said.index("M10-6H   internal")
    assert " um " in said


def test_the_steps_to_every_limit(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["limits", "M10-6g", "--explain"]) == 0
    step = next(line for line in capsys.readouterr().out.splitlines() if "limits.pitch_diameter.min" in line)
    assert "d2_min = d2_max - Td2 = 8.862 mm" in step


def test_a_fit(capsys: pytest.CaptureFixture[str]) -> None:
    """ISO 965-2:1998, Table 1: M10 6H from 9.026, 6g to 8.994."""
    assert main(["fit", "M10-6g", "M10-6H"]) == 0
    pitch = next(line.split() for line in capsys.readouterr().out.splitlines() if "pitch diameter" in line)
    assert pitch[5:8] == ["0.032", "0.344", "mm"]


def test_what_may_never_be_mated_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fit", "M12-6az", "M12-6AZ"]) == 3
    assert "never mated" in capsys.readouterr().err


def test_a_coating(capsys: pytest.CaptureFixture[str]) -> None:
    """ISO 4042:1999, Table 2: P 1.5, g, 8 um to 5 d and 5 um above it."""
    assert main(["coating", "M10-6g", "--coating", "Fe/Zn8", "--length", "60"]) == 0
    said = capsys.readouterr().out
    assert "no room" in said
    assert "GO M10-6h, NOT GO M10-6g" in said


def test_gauges_say_what_is_from_memory(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["gauges", "M10-6g"]) == 0
    said = capsys.readouterr().out
    assert "(from memory)" in said
    assert "go_screw_ring" in said
    assert "Not covered" in said


def test_strength(capsys: pytest.CaptureFixture[str]) -> None:
    """SAE J429, load tables: 1/2-13 grade 5 bears 17 000 lbf."""
    assert main(["strength", "1/2-13", "SAE J429 5"]) == 0
    said = capsys.readouterr().out
    load = next(line.split() for line in said.splitlines() if "tensile load" in line)
    assert load[2:5] == ["Fm", "17000", "lbf"]
    assert "three radial lines" in said


def test_nuts_with_the_known_exception(capsys: pytest.CaptureFixture[str]) -> None:
    """Class 12 proves less than a 12.9 bolt bears; ISO 898-1:2013, Table 4 and ISO 898-2:2012, Table 4."""
    assert main(["nuts", "M12 - 12.9"]) == 0
    said = capsys.readouterr().out
    assert said.index("These nuts hold it") < said.index("style 1") < said.index("These do not") < said.index("05")
    assert "100300 N of the nut lies below the tensile load 103000 N" in " ".join(said.split())


def test_equivalents_say_what_differs_and_that_none_is_interchangeable(capsys: pytest.CaptureFixture[str]) -> None:
    """m max at M12: ISO 4032 10.80, ISO 4033 12.00."""
    assert main(["equivalents", "ISO 4032 - M12 - 8", "--limit", "1"]) == 0
    said = capsys.readouterr().out
    assert "ISO 4033 - M12 - 9   same thread; not interchangeable without review" in said
    height = next(line for line in said.splitlines() if "nut height" in line)
    assert "10.37 to 10.80 mm" in height
    assert "11.57 to 12.00 mm" in height
    assert height.split()[-3:] == ["larger", "not", "met"]


def test_specification_marks_what_a_verdict_needs_and_lists_what_is_not_covered(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["specification", BOLT]) == 0
    said = capsys.readouterr().out
    assert "  *  width across flats " in said
    assert "     washer face diameter " in said
    assert "Not covered" in said
    assert "Caution" in said
    assert "  [1] ISO 4014:2011, " in said
    assert "from memory" in said


def test_json_is_the_answer_as_it_came(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["limits", "M10-6g", "--json"]) == 0
    said = capsys.readouterr().out
    assert json.loads(said)["designation"] == "M10-6g"
    assert '"nominal":10.000' in said


def test_an_accepted_lot_is_exit_code_0(readings: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert judge(readings, "--lot-size", "500") == 0
    said = capsys.readouterr().out
    assert f"{BOLT}, lot of 500" in said
    assert "Verdict: ACCEPT" in said


def test_an_accepted_lot_says_first_how_many_pieces_and_by_which_plan(
    readings: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert judge(readings, "--lot-size", "20000") == 0
    said = capsys.readouterr().out
    first = said.splitlines()[0]
    assert first.startswith(f"{BOLT}, lot of 20000. Judged: mechanical 1 piece")
    assert "no sampling plan was named" in first
    assert "Not looked at" in said
    assert "decarburization depth: required by the standard" in said


def test_the_command_says_which_limit_is_from_memory(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The proof load of a fine nut is from memory (ISO 898-2:2012, Table 5): in the table and in the reason."""
    file = tmp_path / "nuts.csv"
    file.write_text("nut_proof_load\nfail\n")
    assert main(["judge", str(file), "--designation", "ISO 8673 - M10x1.25 - 8"]) == 1
    said = capsys.readouterr().out
    assert next(line for line in said.splitlines() if "nut proof load " in line).endswith("(memory)")
    assert "from memory)." in " ".join(said.split())


def test_a_rejected_lot_is_exit_code_1_and_says_which_piece(readings: Path, capsys: pytest.CaptureFixture[str]) -> None:
    readings.write_text(HEADER + GOOD + GOOD.replace("15.86", "16.01"))
    assert judge(readings) == 1
    said = capsys.readouterr().out
    assert "Verdict: REJECT" in said
    assert "piece 2" in said
    assert "ISO 4014:2011" in said


def test_an_incomplete_lot_is_exit_code_2(readings: Path, capsys: pytest.CaptureFixture[str]) -> None:
    readings.write_text("length\n60.0\n")
    assert judge(readings) == 2
    assert "Tensile load: mandatory" in capsys.readouterr().out


def test_the_guarded_rule_with_uncertainty(readings: Path, capsys: pytest.CaptureFixture[str]) -> None:
    readings.write_text("width_across_flats\n15.735\n")
    assert judge(readings, "--decision-rule", "guarded", "--uncertainty", "width_across_flats=0.02") == 2
    assert "undecided" in capsys.readouterr().out
    assert judge(readings, "--decision-rule", "guarded", "--edition", "2013") == 3


def test_the_fracture_rule(readings: Path) -> None:
    readings.write_text(HEADER + GOOD.replace("thread\n", "shank\n"))
    assert judge(readings) == 0
    assert judge(readings, "--fracture-rule", "thread_only") == 1


def test_readings_from_the_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO((HEADER + GOOD).encode())))
    assert judge("-") == 0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["limits", "M10x1.3-6g"], "nearest: M10x1.25"),
        (["limits", "M10-6g", "--url", "http://127.0.0.1:1"], "is the service running there?"),
        (["limits", "M10-6g", "--url", "localhost"], "base_url"),
        (["judge", "no-such.csv", "--designation", BOLT], "no-such.csv: No such file"),
        (["judge", "-", "--designation", BOLT, "--uncertainty", "height=0.1"], "no column 'height'"),
        (["judge", "-", "--designation", BOLT, "--uncertainty", "length=small"], "length=0.02"),
        (["judge", "-", "--designation", BOLT, "--decision-rule", "lenient"], "decision_rule"),
    ],
)
def test_no_answer_is_exit_code_3_and_one_sentence(
    arguments: list[str], said: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"length\n60.0\n")))
    assert main(arguments) == 3
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith("boltwright: ")
    assert printed.err.count("\n") == 1
    assert said in printed.err


@pytest.mark.parametrize("arguments", [[], ["limit", "M10-6g"], ["limits"], ["judge", "x.csv"]])
def test_a_misspelt_command_is_exit_code_3_because_2_is_an_incomplete_lot(arguments: list[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        main(arguments)
    assert caught.value.code == 3


def test_a_reader_that_has_seen_enough_is_no_error(service: str) -> None:
    command = [sys.executable, "-m", "boltwright", "specification", BOLT, "--url", service]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
