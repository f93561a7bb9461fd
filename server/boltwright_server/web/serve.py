"""Runs the application under gunicorn, in this process: one command, no configuration file."""

from __future__ import annotations

import logging
import os
import shutil
import socket
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from gunicorn.app.base import BaseApplication
from gunicorn.http.errors import LimitRequestHeaders, LimitRequestLine
from gunicorn.workers.gthread import ThreadWorker

from .problems import MEDIA_TYPE, Problem, document

#: Bytes of a request line that gunicorn reads; a designation of 200 characters, percent-encoded, fits.
_LONGEST_REQUEST_LINE = 8190
_DRAIN_SECONDS, _DRAIN_BYTES = 2.0, 64 * 1024 * 1024


class ProblemWorker(ThreadWorker):  # type: ignore[misc]
    """Answers what gunicorn itself refuses with a problem document too, and lets the client read it."""

    def handle_error(self, req: Any, client: socket.socket, addr: Any, exc: BaseException) -> None:
        """Write a problem document for a request that never reached the application."""
        if not isinstance(exc, Exception) or isinstance(exc, OSError):
            super().handle_error(req, client, addr, exc)
            return
        code = "uri_too_long" if isinstance(exc, LimitRequestLine) else "bad_request"
        detail = "a header is too long" if isinstance(exc, LimitRequestHeaders) else str(exc)[:200]
        problem = Problem(code, detail or "the request cannot be read")
        body = document(problem, "")
        head = (
            f"HTTP/1.1 {problem.status} Refused\r\nConnection: close\r\nContent-Type: {MEDIA_TYPE}\r\n"
            f"Content-Length: {len(body)}\r\n\r\n"
        )
        try:
            client.sendall(head.encode() + body)
            _drain(client)
        except OSError:
            self.log.debug("client went away during a refusal")


def _drain(client: socket.socket) -> None:
    """Read what the client still sends, within bounds: closing over unread bytes would reset its connection."""
    client.shutdown(socket.SHUT_WR)
    client.settimeout(_DRAIN_SECONDS)
    until, left = time.monotonic() + _DRAIN_SECONDS, _DRAIN_BYTES
    while left > 0 and time.monotonic() < until:
        piece = client.recv(65536)
        if not piece:
            return
        left -= len(piece)


class Service(BaseApplication):  # type: ignore[misc]
    """A WSGI application under gunicorn; `load_application` is called once, before the workers are forked."""

    def __init__(self, options: dict[str, Any], load_application: Callable[[], Any]) -> None:
        self.options = options
        self.load_application = load_application
        super().__init__()

    def load_config(self) -> None:
        """Take the options in place of a command line."""
        for name, value in self.options.items():
            self.cfg.set(name, value)

    def load(self) -> Any:
        """Return the WSGI application."""
        return self.load_application()


def serve(
    host: str, port: int, workers: int, threads: int, log_requests: bool = False, standards: Path | None = None
) -> int:
    """Serve until stopped by a signal; returns 0. `standards` is a directory of the plant's own standards."""
    if log_requests:
        _log_requests_to_stdout()
    master = os.getpid()
    folder = tempfile.mkdtemp(prefix="boltwright-metrics-")
    os.environ["PROMETHEUS_MULTIPROC_DIR"] = folder
    try:
        options = {**settings(host, port, workers, threads), "child_exit": _forget_worker}
        Service(options, lambda: _application(log_requests, standards)).run()
    finally:
        if os.getpid() == master:
            shutil.rmtree(folder, ignore_errors=True)
    return 0


def _application(log_requests: bool, standards: Path | None) -> Any:
    # Not imported before the folder for the metrics is known: their library looks for it when it is imported.
    from .app import create_app

    return create_app(log_requests, standards)


def settings(host: str, port: int, workers: int, threads: int) -> dict[str, Any]:
    """Return the settings of gunicorn; each key is one that it knows."""
    return {
        "bind": f"{host}:{port}",
        "workers": workers,
        "threads": threads,
        "worker_class": "boltwright_server.web.serve.ProblemWorker",
        "preload_app": True,
        "control_socket_disable": True,
        "graceful_timeout": 10,
        "keepalive": 30,
        "timeout": 60,
        "limit_request_line": _LONGEST_REQUEST_LINE,
        "accesslog": None,
        "loglevel": "warning",
    }


def _forget_worker(server: Any, worker: Any) -> None:
    """Drop the gauges of a worker that is gone; its counts stay."""
    from prometheus_client.multiprocess import mark_process_dead

    mark_process_dead(worker.pid)  # type: ignore[no-untyped-call]


def _log_requests_to_stdout() -> None:
    log = logging.getLogger("boltwright_server.requests")
    handler = logging.StreamHandler(sys.stdout)
    handler.setFormatter(logging.Formatter("%(message)s"))
    log.addHandler(handler)
    log.setLevel(logging.INFO)
    log.propagate = False
