"""The demo: its invented data come from the kept seed, and its lots get the verdicts that their files expect."""

from __future__ import annotations

import csv
import filecmp
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "catalog_demo"
LOTS = sorted((DEMO / "lots").iterdir())
#: What must be the reason of each rejection, by lot.
REASONS = {
    "T-2602": "Width across flats",
    "T-2603": "Fracture location",
    "T-2604": "Core hardness",
    "T-2605": "Thread GO gauge",
    "T-2609": "Nut proof load",
    "T-2610": "Fracture location",
    "T-2612": "Thickness",
    "T-2616": "Flange diameter",
}


def run_demo(service: str, report: Path, data: Path = DEMO) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, DEMO / "demo.py", "--url", service, "--report", report, "--data", data]
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False)


@pytest.fixture(scope="module")
def report(service: str, tmp_path_factory: pytest.TempPathFactory) -> str:
    file = tmp_path_factory.mktemp("demo") / "report.md"
    done = run_demo(service, file)
    assert (done.returncode, done.stderr) == (0, "")
    assert file.read_text(encoding="utf-8") == done.stdout
    return done.stdout


def test_the_data_are_what_the_seed_makes(tmp_path: Path) -> None:
    subprocess.run([sys.executable, DEMO / "make_data.py", tmp_path], check=True)
    made = sorted(path.relative_to(tmp_path) for path in tmp_path.rglob("*.*") if path.is_file())
    lots = (path.relative_to(DEMO) for path in (DEMO / "lots").rglob("*.*"))
    kept = [Path("part_masters.csv"), Path("shop_floor.csv"), *lots]
    assert made == sorted(path for path in kept if (DEMO / path).is_file())
    assert filecmp.cmpfiles(DEMO, tmp_path, map(str, made), shallow=False)[1:] == ([], [])


def test_every_finding_is_shown_once(report: str) -> None:
    codes = re.findall(r"^## (\S+)$", (DEMO.parent / "docs" / "findings.md").read_text(encoding="utf-8"), re.MULTILINE)
    shown = report.partition("## Every finding once")[2].partition("\n## ")[0]
    assert sorted(re.findall(r"^\| ([a-z]+(?:-[a-z]+)*) +\| [enw]", shown, re.MULTILINE)) == sorted(codes)


def test_the_catalogue_as_a_whole(report: str, service: str, tmp_path: Path) -> None:
    assert "through `boltwright validate`: report.csv, and report.html" in report
    assert re.search(r"If every plain part were hot-dip galvanized: \d+ changes", report)
    run_demo(service, tmp_path / "report.md")
    with (DEMO / "part_masters.csv").open(encoding="utf-8", newline="") as file:
        expected = [row["part_number"] for row in csv.DictReader(file)]
    with (tmp_path / "report.csv").open(encoding="utf-8", newline="") as file:
        assert [row["part_number"] for row in csv.DictReader(file)] == expected
    assert "Part masters: findings of part_masters.csv" in (tmp_path / "report.html").read_text(encoding="utf-8")


def test_every_part_master_is_specified_or_refused_with_a_sentence(report: str) -> None:
    with (DEMO / "part_masters.csv").open(encoding="utf-8", newline="") as file:
        numbers = [row["part_number"] for row in csv.DictReader(file)]
    assert len(set(numbers)) == len(numbers) >= 60
    without = re.search(rf"### Without a specification: (\d+) of {len(numbers)}\n", report)
    assert without is not None
    assert 5 <= int(without[1]) <= 15
    for number in numbers:
        line = next(line for line in report.splitlines() if number in line)
        assert len(line) > len(number) + 30


def test_a_drifted_figure_comes_back_with_the_standards(report: str) -> None:
    """The width across flats of M10 is 16 mm in ISO 4017:2014, Table 1; 17 mm is what older standards used."""
    line = next(line for line in report.splitlines() if "`ISO 4017 - M10x40 - 8.8`" in line)
    assert "width_across_flats 17 mm" in line
    assert "ISO 4017:2014" in line
    assert "15.73 to 16.00 mm" in line


@pytest.mark.parametrize("lot", LOTS, ids=[lot.name for lot in LOTS])
def test_a_lot_gets_its_verdict_for_its_reason(report: str, lot: Path) -> None:
    about = tomllib.loads((lot / "lot.toml").read_text(encoding="utf-8"))
    section = report.partition(f"### {lot.name}: ")[2].partition("\n### ")[0]
    assert section.startswith(about["expected_verdict"].upper())
    reasons = [line for line in section.splitlines() if line.startswith("- ") and " not conform (piece" in line]
    assert [line[2:].partition(":")[0] for line in reasons] == ([REASONS[lot.name]] if lot.name in REASONS else [])


def test_every_kind_of_story_is_told() -> None:
    expected = [tomllib.loads((lot / "lot.toml").read_text(encoding="utf-8"))["expected_verdict"] for lot in LOTS]
    assert expected.count("accept") >= 2
    assert expected.count("incomplete") >= 2
    assert expected.count("reject") == len(REASONS)


def test_a_lot_that_gets_another_verdict_is_exit_code_1(service: str, tmp_path: Path) -> None:
    data = tmp_path / "data"
    shutil.copytree(DEMO / "lots" / "T-2601", data / "lots" / "T-2601")
    shutil.copy(DEMO / "part_masters.csv", data)
    file = data / "lots" / "T-2601" / "lot.toml"
    file.write_text(file.read_text().replace('"accept"', '"reject"'))
    done = run_demo(service, tmp_path / "report.md", data)
    assert done.returncode == 1
    assert "The lot file expects reject" in done.stdout


def test_without_a_service_there_is_one_sentence(tmp_path: Path) -> None:
    done = run_demo("http://127.0.0.1:1", tmp_path / "report.md")
    assert done.returncode == 3
    assert done.stderr.count("\n") == 1
    assert not (tmp_path / "report.md").exists()


def test_every_gauge_is_as_expected_and_the_trap_is_said(report: str) -> None:
    """ISO 1502: a GO ring M10-6g of 9.001 mm is permitted and lies 7 um outside d2 max."""
    section = report.partition("## Gauge room")[2].partition("## Lots")[0]
    with (DEMO / "gauges.csv").open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            line = next(line for line in section.splitlines() if line.startswith(f"| {row['gauge_number']} "))
            assert row["expected_status"] in line
    assert "lies 0.007 mm outside d2 max" in next(line for line in section.splitlines() if line.startswith("- G-102"))


def test_the_report_names_the_nuts_of_the_bolts(report: str) -> None:
    """ISO 898-2:2012, Table 2: a bolt of 8.8 goes with nuts from class 8 on."""
    section = report.split("## Nuts for the bolts of the lots")[1].split("\n## ")[0]
    line = next(line for line in section.splitlines() if "ISO 4014 - M10x60 - 8.8" in line)
    assert "| 8, 9, 10, 12 " in line
    assert "ISO 4032" not in section


def test_the_report_watches_a_machine_and_draws_its_chart(service: str, tmp_path: Path) -> None:
    done = run_demo(service, tmp_path / "report.md")
    section = done.stdout.split("## Shop floor")[1].split("\n## ")[0]
    assert "NOT IN CONTROL" in section, "wearing dies are no steady process"
    assert "Capability against 8.862 to 8.994 mm" in section
    assert "The dies wear: after" in section
    assert "pitch diameter, thread roller 3" in (tmp_path / "report.svg").read_text(encoding="utf-8")


def test_the_simulated_line_agrees_with_its_closed_forms(report: str) -> None:
    """Common practice: at Cp 4/3 the rule that confirms stops 0.001099 times a check, 0.527 times in 480 checks."""
    section = report.partition("## A simulated line")[2].partition("\n## ")[0]
    assert "invented" in section
    rows = [[cell.strip() for cell in line.split("|")[1:-1]] for line in section.splitlines() if line.startswith("| ")]
    fault_free = [row for row in rows if row[0] in ("1.00", "1.33", "1.67")]
    assert [row[3].split(" ± ")[0] for row in fault_free] == ["5.623", "0.527", "0.037"]
    for row in fault_free:
        due, error = map(float, row[3].split(" ± "))
        assert abs(float(row[2]) - due) <= 1.5 * error
    faults = [row for row in rows if row[0] in ("header", "roller")]
    assert len(faults) == 5
    for row in faults:
        early, middle, late = (int(cell.split()[0]) for cell in row[2:])
        assert 300 <= early <= middle <= late
    one_sigma = next(row for row in faults if "one standard deviation" in row[1])
    simulated, form = map(int, re.findall(r"\d+", one_sigma[3]))
    assert simulated == pytest.approx(form, rel=0.15)


def test_the_picture_of_the_line_ends_with_the_stop(service: str, tmp_path: Path) -> None:
    run_demo(service, tmp_path / "report.md")
    drawn = (tmp_path / "report.line.svg").read_text(encoding="utf-8")
    assert drawn.count("set anew, ") >= 1
    assert drawn.count(">stop, ") == 1
