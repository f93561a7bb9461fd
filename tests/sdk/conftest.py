"""A running service, started once for these tests and stopped by its own process."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from boltwright import Client

ROOT = Path(__file__).parents[2]
PATIENCE_SECONDS = 30


@pytest.fixture(scope="session")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Yield the address of a service that is ready."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    log = tmp_path_factory.mktemp("service") / "service.log"
    command = [sys.executable, "-m", "boltwright_server", "--port", str(port), "--workers", "1", "--threads", "4"]
    with log.open("wb") as output:
        process = subprocess.Popen(command, stdout=output, stderr=subprocess.STDOUT)
    try:
        _wait(f"http://127.0.0.1:{port}/readyz", process, log)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(timeout=20)


def _wait(url: str, process: subprocess.Popen[bytes], log: Path) -> None:
    until = time.monotonic() + PATIENCE_SECONDS
    while process.poll() is None and time.monotonic() < until:
        try:
            urllib.request.urlopen(url, timeout=2).close()
            return
        except OSError:
            time.sleep(0.05)
    raise RuntimeError(f"the service did not start: {log.read_text()}")


@pytest.fixture
def client(service: str) -> Iterator[Client]:
    with Client(service) as client:
        yield client
