"""Runs the application: one command, no configuration file. gunicorn keeps the workers, waitress the connections."""

from __future__ import annotations

import ipaddress
import logging
import os
import resource
import shutil
import socket
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from gunicorn.app.base import BaseApplication

from ..web.http.limits import Limits

_BACKLOG = 1024


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
    host: str,
    port: int,
    workers: int,
    threads: int,
    log_requests: bool = False,
    standards: Path | None = None,
    limits: Limits | None = None,
) -> int:
    """Serve until stopped by a signal; returns the exit code. `standards` is the directory of a plant's own."""
    try:
        listener = listening(host, port)
    except OSError as error:
        print(f"cannot listen on {host} port {port}: {error.strerror or error}", file=sys.stderr)
        return 1
    _say_where(listener, port)
    if log_requests:
        _log_requests_to_stdout()
    _allow_many_connections()
    master = os.getpid()
    folder = tempfile.mkdtemp(prefix="boltwright-metrics-")
    os.environ["PROMETHEUS_MULTIPROC_DIR"] = folder
    try:
        options = {**settings(listener, workers, threads), "child_exit": _forget_worker}
        Service(options, lambda: _application(log_requests, standards, limits)).run()
    finally:
        if os.getpid() == master:
            shutil.rmtree(folder, ignore_errors=True)
    return 0


def listening(host: str, port: int) -> socket.socket:
    """Return a socket that listens on a name or an address, IPv4 or IPv6; port 0 is any free one.

    Raises:
        OSError: no such address, or another process listens there.
    """
    family, _, _, _, address = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)[0]
    listener = socket.socket(family, socket.SOCK_STREAM)
    try:
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind(address)
        listener.listen(_BACKLOG)
    except OSError:
        listener.close()
        raise
    return listener


def _say_where(listener: socket.socket, wanted: int) -> None:
    """Name a port that was chosen, and caution where others than this machine reach the service."""
    address, port = listener.getsockname()[:2]
    if not wanted:
        print(f"listening on port {port}", file=sys.stderr, flush=True)
    if not ipaddress.ip_address(address.partition("%")[0]).is_loopback:
        caution = "without encryption or log-in: keep it to a network that you trust, or put a proxy in front of it"
        print(f"caution: {address} is reached from other machines, {caution}", file=sys.stderr, flush=True)


def _allow_many_connections() -> None:
    """Raise the number of open files to what the system allows: each connection is one."""
    _, most = resource.getrlimit(resource.RLIMIT_NOFILE)
    resource.setrlimit(resource.RLIMIT_NOFILE, (most, most))


def _application(log_requests: bool, standards: Path | None, limits: Limits | None) -> Any:
    # Not imported before the folder for the metrics is known: their library looks for it when it is imported.
    from ..web.app import create_app

    return create_app(log_requests, standards, limits)


def settings(listener: socket.socket, workers: int, threads: int) -> dict[str, Any]:
    """Return the settings of gunicorn, which takes the socket over; each key is one that it knows."""
    return {
        "bind": f"fd://{listener.detach()}",
        "workers": workers,
        "threads": threads,
        "worker_class": "boltwright_server.serving.worker.Worker",
        "preload_app": True,
        "control_socket_disable": True,
        "graceful_timeout": 10,
        "timeout": 60,
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
