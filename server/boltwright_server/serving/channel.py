"""Connections: what reaches the application is a whole request, and what does not is refused here.

waitress reads headers and bodies of all connections in one thread and hands over whole requests, so that a client that
stops half way holds no thread. Here is what the service adds to it: each refusal is a problem document with a request
id, a metric and a line in the log; a client that is cut off or too slow is told so; bodies count as temporary space.
"""

from __future__ import annotations

import re
import socket
import time
from typing import Any

from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser, ParsingError
from waitress.receiver import ChunkedReceiver
from waitress.rfc7230 import HEADER_FIELD_RE
from waitress.task import ErrorTask
from waitress.utilities import BadRequest, InternalServerError, RequestEntityTooLarge

from ..web.http.limits import Limits
from ..web.http.observability import REQUEST_ID, refused_by_server
from ..web.http.problems import MEDIA_TYPE, PROBLEM_TYPES, Problem, document, problem
from ..web.http.temporary_space import SPACE

#: Bytes of a request line; a designation of 200 characters, percent-encoded, fits.
LONGEST_REQUEST_LINE = 8190
#: Bytes of a line that announces a chunk, and of the trailer behind the last.
_LONGEST_CHUNK_LINE, _LONGEST_TRAILER = 4096, 65_536
_LINGER_SECONDS, _LINGER_BYTES = 2.0, 64 * 1024 * 1024
_PIECE = 65_536
#: Media types whose bodies are read line by line, and may be long.
_STREAMED = re.compile(r"\s*(application/x-ndjson|text/csv)\s*(;|$)", re.IGNORECASE)


class Refused:
    """An error of a request in waitress' sense that holds the problem."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem


class Chunks(ChunkedReceiver):  # type: ignore[misc]
    """Chunked coding; RFC 9112, clause 7.1. Lines that never end are refused, and what is no trailer."""

    def received(self, data: bytes) -> int:
        """Take bytes; return how many belong to this body."""
        used: int = super().received(data)
        if len(self.control_line) > _LONGEST_CHUNK_LINE:
            self.error = BadRequest("the size of a chunk does not end")
        elif len(self.trailer) > _LONGEST_TRAILER:
            self.error = BadRequest("the trailer does not end")
        elif self.completed and not all(HEADER_FIELD_RE.match(line) for line in self.trailer.split(b"\r\n") if line):
            self.error = BadRequest("the trailer is no list of fields")
        return used


class Parser(HTTPRequestParser):  # type: ignore[misc]
    """One request as it arrives."""

    limits = Limits()
    body_rcv: Any = None

    def __init__(self, adj: Any) -> None:
        super().__init__(adj)
        self.begun = time.time()
        self._taken = 0

    def received(self, data: bytes) -> int:
        """Take bytes; return how many belong to this request."""
        if self.headers_finished:
            return self._take(super().received(data))
        begun = (self.header_plus + data[: LONGEST_REQUEST_LINE + 1]).lstrip()
        if len(begun) > LONGEST_REQUEST_LINE and b"\n" not in begun[: LONGEST_REQUEST_LINE + 1]:
            self._refuse(problem("uri_too_long", f"the request line exceeds {LONGEST_REQUEST_LINE} bytes", ()))
            return len(data)
        return int(super().received(data))

    def _take(self, size: int) -> int:
        try:
            SPACE.take(size)
            self._taken += size
        except Problem as refused:
            self._refuse(refused)
        return size

    def _refuse(self, problem: Problem) -> None:
        self.error, self.completed = Refused(problem), True

    def parse_header(self, header_plus: bytes) -> None:
        """Read request line and headers; RFC 9112: a length and chunks contradict each other."""
        stated = re.search(rb"(?im)^content-length[ \t]*:", header_plus)
        super().parse_header(header_plus)
        if self.version not in ("1.0", "1.1"):
            raise ParsingError(f"HTTP/{self.version} is not spoken here; send HTTP/1.1")
        if self.chunked:
            if stated:
                raise ParsingError("Content-Length and Transfer-Encoding contradict each other")
            codings = b",".join(re.findall(rb"(?im)^transfer-encoding[ \t]*:([^\r\n]*)", header_plus))
            if codings.lower().count(b"chunked") > 1:
                raise ParsingError("Transfer-Encoding names chunked twice")
            self.body_rcv = Chunks(self.body_rcv.getbuf())
        most = (
            self.limits.body_bytes if _STREAMED.match(self.headers.get("CONTENT_TYPE", "")) else self.limits.json_bytes
        )
        if self.content_length > most:
            detail = f"the body has {self.content_length} bytes; at most {most} are read"
            self._refuse(problem("content_too_large", detail, ()))

    def close(self) -> None:
        """Give the bytes of the body back."""
        super().close()
        taken, self._taken = self._taken, 0
        SPACE.give_back(taken)

    def late(self, now: float, last_activity: float) -> str:
        """Return why the rest of the request is no longer waited for, or an empty text."""
        limits = self.limits
        if not self.headers_finished:
            late = now - self.begun > limits.header_seconds
            return f"the headers did not end within {limits.header_seconds} s" if late else ""
        if now - last_activity > limits.silent_seconds:
            return f"no byte of the body came for {limits.silent_seconds} s; {self.missing()}"
        late = now - self.begun > limits.body_seconds
        return f"the body did not end within {limits.body_seconds} s; {self.missing()}" if late else ""

    def missing(self) -> str:
        """Return what was expected and what came."""
        came = len(self.body_rcv) if self.body_rcv is not None else 0
        if not self.headers_finished:
            return "the headers have no end"
        if self.chunked:
            return f"{came} bytes came, and no last chunk"
        return f"Content-Length announces {self.content_length} bytes, {came} came"


class RefusalTask(ErrorTask):  # type: ignore[misc]
    """Answers what the application never sees with a problem document, as the application would."""

    def execute(self) -> None:
        """Write the document."""
        found = _problem_of(self.request.error)
        self.version = "1.1"
        path = getattr(self.request, "path", "")[:200]
        body = document(found, path)
        asked = self.request.headers.get("X_REQUEST_ID", "")
        id = refused_by_server(
            found, asked, getattr(self.request, "command", ""), path, self.channel.addr[0], len(body)
        )
        self.status = f"{found.status} {PROBLEM_TYPES[found.code].title}"
        self.response_headers += [("Content-Type", MEDIA_TYPE), (REQUEST_ID, id)]
        self.set_close_on_finish()
        self.content_length = len(body)
        self.channel.lingers = True
        self.write(body)


def _problem_of(error: Any) -> Problem:
    """Return waitress' own refusals as problems: a transfer coding that is not known is the client's."""
    if isinstance(error, Refused):
        return error.problem
    if isinstance(error, InternalServerError):
        return Problem("internal_error", "A fault of the service; it has been logged.")
    code = "content_too_large" if isinstance(error, RequestEntityTooLarge) else "bad_request"
    detail = str(error.body)[:200] or "the request cannot be read"
    return problem(code, detail, ())


class Channel(HTTPChannel):  # type: ignore[misc]
    """One connection."""

    error_task_class = RefusalTask
    parser_class = Parser
    request: Any = None
    will_close: bool = False
    #: Set by a refusal: the client may still be sending, and closing over unread bytes would reset its connection.
    lingers = False
    _lingers_until = 0.0
    _left = _LINGER_BYTES

    def readable(self) -> bool:
        """Return whether bytes are waited for."""
        return bool(self._lingers_until) or bool(super().readable())

    def writable(self) -> bool:
        """Return whether something has to be sent, or the connection closed."""
        return bool(self.will_close if self._lingers_until else super().writable())

    def handle_read(self) -> None:
        """Take bytes; of a client that ends in the middle of a request the answer says what is missing."""
        try:
            data = self.socket.recv(self.adj.recv_bytes)
        except BlockingIOError:
            return
        except OSError:
            self.handle_close()
            return
        if self._lingers_until:
            self._left -= len(data)
            if not data or self._left < 0:
                self.handle_close()
        elif data:
            self.last_activity = time.time()
            self.received(data)
        elif self.request is not None:
            self.refuse(problem("body_not_whole", f"the request ends too early: {self.request.missing()}", ()))
        else:
            self.handle_close()

    def handle_write(self) -> None:
        """Send what waits; after a refusal wait for the client to read it."""
        if not (self.lingers and self.close_when_flushed):
            super().handle_write()
            return
        _, failed = self._flush_exception(self._flush_some)
        if failed or self.will_close:
            self.handle_close()
        elif self.connected and not self.total_outbufs_len:
            self._linger()

    def _linger(self) -> None:
        self._lingers_until = time.time() + _LINGER_SECONDS
        try:
            self.socket.shutdown(socket.SHUT_WR)
        except OSError:
            self.handle_close()

    def handle_close(self) -> None:
        """Close the connection; what has arrived of a request is given up."""
        request, self.request = self.request, None
        if request is not None:
            request.close()
        super().handle_close()

    def refuse(self, problem: Problem) -> None:
        """Answer the request that has arrived in part."""
        with self.requests_lock:
            request, self.request = self.request, None
            if request is None:
                return
            request.error, request.completed = Refused(problem), True
            self.requests.append(request)
            if len(self.requests) == 1:
                self.server.add_task(self)

    def check_time(self, now: float) -> None:
        """End what is held open for too long; a request that is being answered is not."""
        if self._lingers_until:
            self.will_close = self.will_close or now > self._lingers_until
        elif self.requests:
            return
        elif self.request is not None and not self.total_outbufs_len:
            if late := self.request.late(now, self.last_activity):
                self.refuse(problem("request_timeout", late, ()))
        elif now - self.last_activity > Parser.limits.silent_seconds:
            self.will_close = True
