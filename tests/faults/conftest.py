"""How many bodies the fuzzer cuts, and a service whose error stream is read when it ends.

Few cuts with every build, as many as wished by `pytest tests/faults --cuts 1000`.
"""

import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator

import pytest
from running_server import RunningServer, environment, free_port, ready_options, stop

FEW = 150


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--cuts", type=int, default=FEW, help="how many request bodies are cut at random places")


@pytest.fixture(scope="session")
def cuts(request: pytest.FixtureRequest) -> int:
    return int(request.config.getoption("cuts", FEW))


@pytest.fixture(scope="module")
def logged_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningServer]:
    """A service whose error stream goes to a file, so that many errors do not stop it; none may stand there."""
    host, port, log = "127.0.0.1", free_port(), tmp_path_factory.mktemp("log") / "errors"
    command = [sys.executable, "-m", "boltwright_server", "--host", host, "--port", str(port), *ready_options()]
    with log.open("wb") as errors:
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=errors, env=environment())
        try:
            server = RunningServer(host, port, process.pid)
            _wait(server)
            yield server
        finally:
            stop(process)
    said = log.read_text(encoding="utf-8", errors="replace").splitlines()
    bad = [line for line in said if "Traceback" in line or "[ERROR]" in line or "[CRITICAL]" in line]
    assert bad == [], f"{len(bad)} errors on the error stream"


def _wait(server: RunningServer) -> None:
    for _ in range(600):
        try:
            with urllib.request.urlopen(f"{server.url}/readyz", timeout=5) as answer:
                if answer.status == 200:
                    return
        except OSError:
            time.sleep(0.05)
    raise RuntimeError("the service is not ready after 30 s")
