"""Starts the service as a user does, on a free port of the loopback, and stops it by its process id."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

_START_SECONDS, _STOP_SECONDS = 30.0, 15.0


@dataclass(frozen=True)
class RunningServer:
    """A started service: where it answers and which process it is."""

    host: str
    port: int
    pid: int

    @property
    def url(self) -> str:
        return f"http://{self.host}:{self.port}"


@contextmanager
def running_server(*options: str) -> Iterator[RunningServer]:
    """Start `python -m boltwright_server`, wait for /readyz, stop it at the end."""
    host, port = "127.0.0.1", free_port()
    command = [sys.executable, "-m", "boltwright_server", "--host", host, "--port", str(port), *options]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, env=environment())
    try:
        server = RunningServer(host, port, process.pid)
        _wait_until_ready(server, process)
        yield server
    finally:
        stop(process)


def environment() -> dict[str, str]:
    """Return the environment in which a child finds the same packages as this process."""
    return {**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)}


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def _wait_until_ready(server: RunningServer, process: subprocess.Popen[bytes]) -> None:
    until = time.monotonic() + _START_SECONDS
    while time.monotonic() < until:
        if process.poll() is not None:
            raise RuntimeError(f"the service ended with {process.returncode}: {_last_words(process)}")
        try:
            with urllib.request.urlopen(f"{server.url}/readyz", timeout=1) as answer:
                if answer.status == 200:
                    return
        except OSError:
            time.sleep(0.05)
    raise RuntimeError("the service is not ready after 30 s")


def _last_words(process: subprocess.Popen[bytes]) -> str:
    return process.communicate(timeout=5)[1].decode(errors="replace")[-2000:]


def stop(process: subprocess.Popen[bytes]) -> None:
    process.terminate()
    try:
        process.communicate(timeout=_STOP_SECONDS)
    except subprocess.TimeoutExpired:
        process.kill()
        process.communicate()


def ready_options(workers: int = 1, threads: int = 4) -> Sequence[str]:
    """Options of a small service for tests."""
    return ("--workers", str(workers), "--threads", str(threads))
