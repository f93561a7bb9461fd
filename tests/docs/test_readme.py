"""The README's first request and first SDK call are run as they stand, against a service that really runs."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys

import pytest
from documentation.answers import difference, parse
from documentation.curl import SHOWN
from documentation.examples import ROOT
from running_server import RunningServer, environment

README = (ROOT / "README.md").read_text(encoding="utf-8")
_CURL = re.compile(r"^```bash\n(curl .*?)^```.*?^```json\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_PYTHON = re.compile(r"^```python\n(.*?)^```\n+^```text\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@pytest.mark.skipif(shutil.which("curl") is None, reason="curl is not installed; test_examples.py asks the application")
def test_the_first_request(server: RunningServer) -> None:
    [(command, shown)] = _CURL.findall(README)
    answer = subprocess.check_output(["sh", "-c", command.replace(SHOWN, server.url)], text=True)
    assert difference(parse(shown), parse(answer)) is None


def test_the_first_call_of_the_sdk(server: RunningServer) -> None:
    [(program, shown)] = _PYTHON.findall(README)
    program = program.replace("Client()", f"Client({server.url!r})")
    assert subprocess.check_output([sys.executable, "-c", program], text=True, env=environment()) == shown


def test_the_job_stands_at_the_very_top() -> None:
    heading, paragraph = README.split("\n\n")[:2]
    assert heading == "# Boltwright"
    assert "REST service" in paragraph.replace("\n", " ")
