"""The one place where a body enters: JSON, NDJSON, CSV or Arrow, plain or gzip; whole, within the limits, or refused.

How much was meant is known from Content-Length, from the last chunk, from the trailer of gzip and, of Arrow, from the
end marker. Half a body must never look like a short one, and what stands behind its end is never passed over.
"""

from __future__ import annotations

import codecs
import io
import zlib
from collections.abc import Iterable, Iterator, Sequence
from time import monotonic
from typing import IO, Any, TypeVar, cast

from flask import current_app, has_app_context, request
from werkzeug.exceptions import HTTPException, RequestEntityTooLarge

from .limits import Limits
from .problems import Problem, problem

Some = TypeVar("Some", bound=Sequence[Any])
_PIECE, _LARGE_PIECE = 65_536, 1024 * 1024
#: Bytes that any gzip body may become.
_ALWAYS_INFLATED = 65_536
#: Names of the content codings, in lower case; RFC 9110, clause 8.4.1.
_PLAIN, _GZIP = ("", "identity"), ("gzip", "x-gzip")


def limits() -> Limits:
    """Return the limits of the service; outside of one those that it would start with."""
    found: Limits = current_app.config["LIMITS"] if has_app_context() else Limits()
    return found


def body_stream() -> IO[bytes]:
    """Return the body of the request as a stream, to be read line by line; gzip is unzipped on the way.

    It refuses to end before its end. What is read from it is never held in memory, and may be long.
    """
    allowed = limits()
    body = _body(allowed.body_bytes, allowed.inflated_bytes, monotonic() + allowed.stream_seconds)
    return cast(IO[bytes], io.BufferedReader(body, _PIECE))


def whole_body() -> bytes:
    """Return the body of the request, unzipped.

    Raises:
        Problem: cut short, too long, too large once unzipped, or of another content coding.
    """
    allowed = limits()
    return _body(allowed.json_bytes, allowed.json_bytes, None).readall()


def whole_text() -> bytes:
    """Return the body as `whole_body` does, without the mark that some programs put before UTF-8."""
    return without_mark(whole_body())


def without_mark(text: bytes) -> bytes:
    """Return a text of UTF-8 without its byte order mark; one that was converted twice has two."""
    while text.startswith(codecs.BOM_UTF8):
        text = text[len(codecs.BOM_UTF8) :]
    return text


class Allowance:
    """Rows that a request may still send, and the time that is left for them."""

    def __init__(self, most: int | None = None) -> None:
        """Start with the rows of a stream, or with `most`."""
        self._limits = limits()
        self._most = most or self._limits.rows
        self._rows = 0
        self._until = monotonic() + self._limits.stream_seconds

    def take(self, rows: int) -> None:
        """Count rows.

        Raises:
            Problem: too_many_rows, or takes_too_long.
        """
        self._rows += rows
        if self._rows > self._most:
            raise problem("too_many_rows", f"more than {self._most} rows: send them in parts", ())
        if monotonic() > self._until:
            raise _too_long(self._limits.stream_seconds)


def within_rows(blocks: Iterable[Some]) -> Iterator[Some]:
    """Yield blocks of rows while their number, and the time that they take, stay within the limits.

    Raises:
        Problem: too_many_rows, or takes_too_long.
    """
    allowance = Allowance()
    for block in blocks:
        allowance.take(len(block))
        yield block


def _body(most: int, most_inflated: int, until: float | None) -> io.RawIOBase:
    # Where it is not set, the limit of the application counts.
    request.max_content_length = most
    coding = (request.content_encoding or "").strip().lower()
    if coding not in (*_PLAIN, *_GZIP):
        raise Problem("unsupported_media_type", f"Content-Encoding {coding[:40]} is not read; send gzip or none")
    plain = _WholeBody(request.stream, request.content_length, most, until)
    return plain if coding in _PLAIN else _Unzipped(plain, most_inflated, limits().inflation)


class _WholeBody(io.RawIOBase):
    """A body of a known length, or in chunks.

    Raises:
        Problem: cut short, too long, or not worked on within the time that a stream may take.
    """

    def __init__(self, stream: IO[bytes], length: int | None, most: int, until: float | None) -> None:
        self._stream, self._length, self._most, self._until = stream, length, most, until
        self._came = 0

    def readable(self) -> bool:
        """Return True."""
        return True

    def readinto(self, buffer: Any) -> int:
        """Fill the buffer; no bytes mean that the body is complete."""
        data = self._piece(len(buffer))
        buffer[: len(data)] = data
        return len(data)

    def readall(self) -> bytes:
        """Return all that is left."""
        return b"".join(iter(lambda: self._piece(_LARGE_PIECE), b""))

    def _piece(self, size: int) -> bytes:
        if self._until is not None and monotonic() > self._until:
            raise _too_long(limits().stream_seconds)
        data = self._read(size)
        self._came += len(data)
        if self._came > self._most:
            raise problem("content_too_large", f"the body exceeds {self._most} bytes", ())
        if not data and self._length is not None and self._came < self._length:
            raise self._cut()
        return data

    def _read(self, size: int) -> bytes:
        try:
            return self._stream.read(size)
        except RequestEntityTooLarge:
            raise
        except Exception as error:
            # Whatever a server says while it reads: chunks that are none, or a connection that is gone.
            raise self._cut("" if isinstance(error, HTTPException) else f"; {str(error)[:100]}") from error

    def _cut(self, why: str = "") -> Problem:
        announced = "no last chunk" if self._length is None else f"Content-Length announces {self._length} bytes"
        what = f"{announced}, {self._came} came{why}"
        return problem("body_not_whole", f"the body ends too early: {what}", ())


class _Unzipped(io.RawIOBase):
    """A gzip stream as it is read, for any size; RFC 1952.

    Raises:
        Problem: not gzip, cut short, more behind its end, or more than a body may become.
    """

    def __init__(self, stream: io.RawIOBase, most: int, inflation: int) -> None:
        self._stream, self._most, self._inflation = stream, most, inflation
        self._inflate = zlib.decompressobj(wbits=31)
        self._waiting = b""
        self._read = self._became = self._members = 0

    def readable(self) -> bool:
        """Return True."""
        return True

    def readinto(self, buffer: Any) -> int:
        """Fill the buffer with unzipped bytes; no bytes mean that the last member is complete."""
        try:
            data = b""
            while not data and self._more():
                data = self._inflate.decompress(self._waiting, len(buffer))
                self._waiting = self._inflate.unconsumed_tail
        except zlib.error as error:
            raise self._no_gzip(error) from None
        self._became += len(data)
        self._check_size()
        buffer[: len(data)] = data
        return len(data)

    def _check_size(self) -> None:
        read = self._read - len(self._waiting) - len(self._inflate.unused_data)
        if self._became > self._most:
            raise problem("inflates_too_much", f"unzipped, the body exceeds {self._most} bytes", ())
        if self._became > _ALWAYS_INFLATED + read * self._inflation:
            detail = f"{read} bytes of gzip became {self._became}: more than {self._inflation} times as many"
            raise problem("inflates_too_much", detail, ())

    def _no_gzip(self, error: zlib.error) -> Problem:
        if self._members:
            return problem(
                "body_not_whole", f"behind the end of the gzip body stand bytes that are no gzip: {error}", ()
            )
        return problem("bad_request", f"the body is no gzip: {error}", ())

    def _more(self) -> bool:
        """See that bytes are waiting; files that were joined are one member after the other, zeros may pad the end."""
        if self._inflate.eof:
            self._members += 1
            self._waiting = self._inflate.unused_data.lstrip(b"\0")
            while not self._waiting:
                piece = self._next()
                if not piece:
                    return False
                self._waiting = piece.lstrip(b"\0")
            self._inflate = zlib.decompressobj(wbits=31)
        elif not self._waiting:
            self._waiting = self._next()
            if not self._waiting:
                detail = f"the gzip body ends too early: {self._read} bytes came, and no trailer"
                raise problem("body_not_whole", detail, ())
        return True

    def _next(self) -> bytes:
        piece = self._stream.read(_PIECE) or b""
        self._read += len(piece)
        return piece


def _too_long(seconds: int) -> Problem:
    return problem("takes_too_long", f"the rows took more than {seconds} s: send them in parts", ())
