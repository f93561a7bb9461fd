"""Temporary files of one worker process: bodies that arrive and answers that grow share one allowance."""

from __future__ import annotations

import tempfile
import threading
from typing import Any

from .limits import Limits
from .problems import Problem, problem

_IN_MEMORY = 1024 * 1024


class TemporarySpace:
    """Bytes that wait in the temporary files of this process, and how many may."""

    def __init__(self) -> None:
        self.limit = Limits().temporary_bytes
        self.taken = 0
        # A file that is thrown away gives its bytes back, in whatever thread, and whatever that holds.
        self._lock = threading.RLock()

    def take(self, size: int) -> None:
        """Take some bytes.

        Raises:
            Problem: no_temporary_space.
        """
        with self._lock:
            if self.taken + size > self.limit:
                raise no_space(f"{self.limit} bytes of bodies and answers wait in temporary files")
            self.taken += size

    def give_back(self, size: int) -> None:
        """Give bytes back."""
        with self._lock:
            self.taken -= size


#: That of this process.
SPACE = TemporarySpace()


class AnswerFile(tempfile.SpooledTemporaryFile[bytes]):
    """An answer while it grows: in memory while it is small, within `limit` bytes and the allowance of the process."""

    def __init__(self, limit: int) -> None:
        super().__init__(max_size=_IN_MEMORY)
        self._limit = limit
        self._taken = 0

    def write(self, data: Any) -> int:
        """Write bytes.

        Raises:
            Problem: answer_too_large, or no_temporary_space.
        """
        if self._taken + len(data) > self._limit:
            detail = f"the answer exceeds {self._limit} bytes: send the rows in parts"
            raise problem("answer_too_large", detail, ())
        SPACE.take(len(data))
        self._taken += len(data)
        try:
            return super().write(data)
        except OSError as error:
            raise no_space(f"the disk of temporary files: {error.strerror}") from error

    def close(self) -> None:
        """Remove the file and give its bytes back."""
        super().close()
        taken, self._taken = self._taken, 0
        SPACE.give_back(taken)

    def __del__(self) -> None:
        self.close()


def no_space(detail: str) -> Problem:
    """Return the problem of a process that has no temporary space left."""
    return problem("no_temporary_space", detail, ())
