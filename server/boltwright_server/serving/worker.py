"""A worker process: gunicorn starts, watches and replaces it; waitress reads its connections and runs its threads."""

from __future__ import annotations

import logging
import os
import resource
import time
from typing import Any

from gunicorn.workers.base import Worker as GunicornWorker
from waitress import wasyncore
from waitress.adjustments import Adjustments
from waitress.server import TcpWSGIServer
from waitress.task import ThreadedTaskDispatcher

from ..web.http.limits import Limits
from ..web.http.observability import report_memory
from ..web.http.temporary_space import SPACE
from .channel import Channel, Parser

_LONGEST_HEADERS = 65_536
#: Bytes of a body or an answer that are held in memory; more go to a temporary file.
_IN_MEMORY = 1024 * 1024
#: Descriptors that are no connections: tables, temporary files, logs.
_SPARE_FILES = 200
#: Between two reports of what this process remembers.
_REPORT_SECONDS = 10.0
#: Never reached: a thread that waited for a slow reader would be lost to the others.
_NO_WATERMARK = 2**62


class Server(TcpWSGIServer):  # type: ignore[misc]
    """One listening socket with its connections."""

    channel_class = Channel

    def maintenance(self, now: float) -> None:
        """End connections that are held open for too long; once a second."""
        for channel in list(self.active_channels.values()):
            channel.check_time(now)


class Worker(GunicornWorker):  # type: ignore[misc]
    """Serves until it is told to stop; then answers what has arrived, and ends."""

    def run(self) -> None:
        """Serve."""
        limits = getattr(self.wsgi, "config", {}).get("LIMITS") or Limits()
        Parser.limits, SPACE.limit = limits, limits.temporary_bytes
        logging.getLogger("waitress.queue").setLevel(logging.ERROR)
        self._map: dict[int, Any] = {}
        self._threads = ThreadedTaskDispatcher()
        self._threads.set_thread_count(self.cfg.threads)
        settings = adjustments(limits)
        self._servers = [self._server(listener.sock, settings) for listener in self.sockets]
        reported = 0.0
        while self.alive and os.getppid() == self.ppid:
            self.notify()
            if (now := time.monotonic()) > reported + _REPORT_SECONDS:
                reported = now
                report_memory()
            wasyncore.poll2(1.0, self._map)
        self._finish()

    def _server(self, listener: Any, settings: Adjustments) -> Server:
        about = (listener.family, listener.type, listener.proto, listener.getsockname())
        return Server(self.wsgi, self._map, True, listener, self._threads, settings, sockinfo=about, bind_socket=False)

    def handle_exit(self, sig: int, frame: Any) -> None:
        """Stop accepting; the loop wakes up at once."""
        super().handle_exit(sig, frame)
        for server in getattr(self, "_servers", ()):
            server.pull_trigger()

    def _finish(self) -> None:
        """Answer the requests that have arrived whole, close what is idle, and end the threads."""
        until = time.monotonic() + self.cfg.graceful_timeout - 1
        for server in self._servers:
            server.accepting = False
        while time.monotonic() < until:
            self.notify()
            channels = [channel for server in self._servers for channel in server.active_channels.values()]
            for channel in channels:
                if not channel.requests:
                    channel.close_when_flushed = True
            if not channels:
                break
            wasyncore.poll2(0.05, self._map)
        self._threads.shutdown(timeout=max(0.1, until - time.monotonic()))


def adjustments(limits: Limits) -> Adjustments:
    """Return the settings of waitress."""
    files = resource.getrlimit(resource.RLIMIT_NOFILE)[0]
    return Adjustments(
        recv_bytes=262_144,
        inbuf_overflow=_IN_MEMORY,
        outbuf_overflow=_IN_MEMORY,
        outbuf_high_watermark=_NO_WATERMARK,
        connection_limit=max(10, min(limits.connections, files - _SPARE_FILES)),
        cleanup_interval=1,
        max_request_header_size=_LONGEST_HEADERS,
        max_request_body_size=limits.body_bytes + 1,
        asyncore_use_poll=True,
        log_socket_errors=False,
        clear_untrusted_proxy_headers=False,
        server_name="localhost",
        ident=None,
    )
