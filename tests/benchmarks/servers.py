"""The service and the bare application beside it, both under gunicorn with the service's own settings."""

from __future__ import annotations

import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

HOST, WORKERS, THREADS = "127.0.0.1", 2, 32
_TICK = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True, slots=True)
class Server:
    """A running server."""

    port: int
    pid: int

    def cpu_seconds(self) -> float:
        """Return the processor time that its workers have used."""
        return sum(_cpu_seconds(worker) for worker in self.workers())

    def workers(self) -> list[int]:
        """Return the process ids of its workers."""
        children = Path(f"/proc/{self.pid}/task/{self.pid}/children").read_text(encoding="ascii")
        return [int(child) for child in children.split()]


def _cpu_seconds(pid: int) -> float:
    fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / _TICK


@contextmanager
def service() -> Iterator[Server]:
    """Run the service."""
    with _running("boltwright_server") as server:
        yield server


@contextmanager
def bare(answer: bytes) -> Iterator[Server]:
    """Run the bare application; its routes are in `bare_application`."""
    with _running("tests.benchmarks.bare_application", answer) as server:
        yield server


@contextmanager
def _running(module: str, standard_input: bytes = b"") -> Iterator[Server]:
    port = _free_port()
    command = [sys.executable, "-m", module, "--port", str(port)]
    process = subprocess.Popen(command, stdin=subprocess.PIPE)
    assert process.stdin is not None
    try:
        process.stdin.write(standard_input)
        process.stdin.close()
        _wait_for(port, process)
        yield Server(port, process.pid)
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(timeout=20)


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return int(probe.getsockname()[1])


def _wait_for(port: int, process: subprocess.Popen[bytes]) -> None:
    for _ in range(200):
        if process.poll() is not None:
            raise RuntimeError(f"the server ended with {process.returncode}")
        try:
            socket.create_connection((HOST, port), timeout=1).close()
        except OSError:
            time.sleep(0.05)
        else:
            return
    raise RuntimeError("the server did not answer within 10 s")
