"""Request bodies as streams: whole or refused, plain or gzip. Half a body must never look like a short one."""

from __future__ import annotations

import io
import zlib
from typing import IO, Any, cast

from flask import request
from werkzeug.exceptions import BadRequest, RequestEntityTooLarge

from .bodies import problem

_PIECE = 65_536
_ANY_LENGTH = 2**63 - 1
_CUT = "the body ends too early: the connection was cut"


def whole_body(limited: bool = False) -> IO[bytes]:
    """Return the body of the request as a stream that refuses to end before its length, or its last chunk, is read.

    What is read line by line is never held in memory, and may exceed the limit of a body unless `limited`.
    """
    if not limited:
        # None would mean the limit of the application.
        request.max_content_length = _ANY_LENGTH
    return cast(IO[bytes], io.BufferedReader(_WholeBody(request.stream, request.content_length), _PIECE))


def unzipped(stream: IO[bytes]) -> IO[bytes]:
    """Return what a gzip stream holds, as it is read."""
    return cast(IO[bytes], io.BufferedReader(_Unzipped(stream), _PIECE))


class _WholeBody(io.RawIOBase):
    """A body of a known length, or in chunks.

    Raises:
        Problem: cut short.
    """

    def __init__(self, stream: IO[bytes], length: int | None) -> None:
        self._stream = stream
        self._left = length or 0

    def readable(self) -> bool:
        """Return True."""
        return True

    def readinto(self, buffer: Any) -> int:
        """Fill the buffer; no bytes mean that the body is complete."""
        try:
            data = self._stream.read(len(buffer))
        except RequestEntityTooLarge:
            raise
        except (OSError, BadRequest) as error:
            raise problem("bad_request", _CUT, ()) from error
        if not data and self._left > 0:
            raise problem("bad_request", f"{_CUT}, {self._left} bytes are missing", ())
        self._left -= len(data)
        buffer[: len(data)] = data
        return len(data)


class _Unzipped(io.RawIOBase):
    """A gzip stream as it is read, for any size.

    Raises:
        Problem: not gzip, or cut short.
    """

    def __init__(self, stream: IO[bytes]) -> None:
        self._stream = stream
        self._inflate = zlib.decompressobj(wbits=31)
        self._waiting = b""

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
            raise problem("bad_request", f"the body is no gzip: {error}", ()) from None
        buffer[: len(data)] = data
        return len(data)

    def _more(self) -> bool:
        """See that bytes are waiting; files that were joined are one member after the other, zeros may pad the end."""
        if self._inflate.eof:
            self._waiting = self._inflate.unused_data.lstrip(b"\0")
            while not self._waiting:
                piece = self._stream.read(_PIECE)
                if not piece:
                    return False
                self._waiting = piece.lstrip(b"\0")
            self._inflate = zlib.decompressobj(wbits=31)
        elif not self._waiting:
            self._waiting = self._stream.read(_PIECE)
            if not self._waiting:
                raise problem("bad_request", "the gzip body ends too early", ())
        return True
