"""A made-up standard of a known family becomes part of a copy of the tree by the guide alone, without a line of code.

DEVELOPERS.md, "Add a standard of a known family": the folder, its line in the registry, published values, the pin.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tree import ROOT

FOLDER = "wn_33_2020"
STANDARD = """\
id = "WN 33"
edition = "2020"
title = "Hexagon very high nuts (made up)"
family = "hexagon_nut"

[[product]]
style = 2

[[table]]
file = "table_1.csv"
printed_as = "Table 1"
content = "Dimensions"
unit = "mm"
key = ["thread"]
text = ["grade"]
checked = "original"

[[table]]
file = "property_classes.csv"
printed_as = "Table 2"
content = "Property classes"
unit = "mm"
key = ["property_class"]
text = ["property_class"]
ordered = false
checked = "original"
"""
TABLE = """\
thread,grade,m_max,m_min,mw_min,s_max,s_min,e_min,dw_min
M10,A,12.00,11.57,9.26,16.00,15.73,17.77,14.6
M12,A,14.00,13.57,10.86,18.00,17.73,20.03,16.6
"""
ABOUT = """\
standard = "WN 33"
edition = "2020"

[[check]]
file = "product_dimensions.csv"
question = "product_dimensions"
printed_in = "made up"
checked = "made up"
unit = "mm"
ask = ["thread", "grade", "symbol"]
"""
PUBLISHED = "thread,grade,symbol,printed,rule,exception\nM10,A,m_max,12.00,-,-\nM12,A,s_min,17.73,17.73,-\n"
ASK = """\
import json
from boltwright_server.web.app import create_app
client = create_app().test_client()
found = client.get("/v1/specification", query_string={"designation": "WN 33 - M10 - 10"}).get_json()
lot = {"designation": "WN 33 - M10 - 10", "readings": {"nut_height": [12.01, 11.57]}}
judged = client.post("/v1/conformance", json=lot).get_json()
listed = client.get("/v1/standards").get_json()["standards"]
print(json.dumps([found["characteristics"]["nut_height"], judged["verdict"], "WN 33" in [one["id"] for one in listed]]))
"""


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """The tree with the folder of facts and its published values, but without its line and its pin."""
    left_out = shutil.ignore_patterns("__pycache__", "*.egg-info")
    for part in ("server", "tests/published", "tests/structure", "tests/support"):
        shutil.copytree(ROOT / part, tmp_path / part, ignore=left_out)
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    facts = tmp_path / "server/boltwright_server/standards" / FOLDER
    facts.mkdir()
    (facts / "standard.toml").write_text(STANDARD)
    (facts / "table_1.csv").write_text(TABLE)
    (facts / "property_classes.csv").write_text("property_class,d_min,d_max\n8,10,12\n10,10,12\n")
    values = tmp_path / "tests/published" / FOLDER
    values.mkdir()
    (values / "about.toml").write_text(ABOUT)
    (values / "product_dimensions.csv").write_text(PUBLISHED)
    return tmp_path


def register(copy: Path) -> None:
    """Add the one line of the guide, in the order of the list."""
    registry = copy / "server/boltwright_server/standards/registry.py"
    lines = registry.read_text(encoding="utf-8").splitlines(keepends=True)
    last = max(number for number, line in enumerate(lines) if line.startswith('    "') and line.rstrip().endswith('",'))
    registry.write_text("".join([*lines[: last + 1], f'    "{FOLDER}",\n', *lines[last + 1 :]]), encoding="utf-8")


def run(copy: Path, *command: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": str(copy / "server"), "PYTHONDONTWRITEBYTECODE": "1"}
    return subprocess.run(
        [sys.executable, *command], cwd=copy, env=environment, capture_output=True, text=True, check=False, timeout=300
    )


def checks(copy: Path, *more: str) -> subprocess.CompletedProcess[str]:
    """The tests of the guide that look at a new standard."""
    files = ("tests/structure/test_registry.py", "tests/structure/test_released_tables.py")
    return run(copy, "-m", "pytest", "-q", "-p", "no:cacheprovider", *files, *more)


def test_the_four_steps_are_all_that_it_takes(copy: Path) -> None:
    register(copy)
    assert run(copy, "tests/structure/pin_tables.py").returncode == 0
    checked = checks(copy, "tests/published/test_published.py", "-k", f"registry or released or {FOLDER}")
    assert checked.returncode == 0, checked.stdout
    answer = run(copy, "-c", ASK)
    assert answer.returncode == 0, answer.stderr
    height, verdict, listed = json.loads(answer.stdout)
    assert (height["min"], height["max"]) == (11.57, 12.00)
    assert (height["basis"]["standard"], height["basis"]["clause"]) == ("WN 33", "Table 1")
    assert (verdict, listed) == ("reject", True)


def test_a_forgotten_step_is_named(copy: Path) -> None:
    without_line = checks(copy)
    assert without_line.returncode == 1
    assert "add a line to server/boltwright_server/standards/registry.py" in without_line.stdout
    register(copy)
    shutil.rmtree(copy / "tests/published" / FOLDER)
    without_values = checks(copy)
    assert f"missing: tests/published/{FOLDER}/about.toml" in without_values.stdout
    assert f"{FOLDER} has no line in released_tables.toml" in without_values.stdout
