"""The programs on docs/sdk.md print what the page says; the file on docs/command_line.md is read."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest
from running_server import environment

from boltwright.readings_file import parse_readings

DOCS = Path(__file__).parents[2] / "docs"
PROGRAMS = re.findall(
    r"^```python\n(.*?)^```\n+^```text\n(.*?)^```$", (DOCS / "sdk.md").read_text(encoding="utf-8"), re.M | re.S
)


@pytest.mark.parametrize(("program", "shown"), PROGRAMS, ids=range(len(PROGRAMS)))
def test_a_program_prints_what_the_page_shows(service: str, program: str, shown: str) -> None:
    assert "Client()" in program
    program = program.replace("Client()", f"Client({service!r})")
    assert subprocess.check_output([sys.executable, "-c", program], text=True, env=environment()) == shown


def test_there_are_programs() -> None:
    assert len(PROGRAMS) >= 3


def test_the_file_of_readings_is_read() -> None:
    [shown] = re.findall(
        r"^```text\n(piece,.*?)^```$", (DOCS / "command_line.md").read_text(encoding="utf-8"), re.M | re.S
    )
    found = parse_readings(shown.encode())
    assert found["tensile_load"].unit == "kN"
    assert found["thread_go_gauge"].values == [True, True, False]
