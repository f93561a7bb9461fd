"""The limits of one station on disk: signed, newer than any before; no clock that is set back revives what ended."""

from __future__ import annotations

import json
import os
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .signatures import NotSigned, key_of, verified

EXPIRED, CLOCK_BACK = "expired", "clock_back"


class LimitsRefused(Exception):
    """A file that is not taken, or limits that may not be used; what was in use stays.

    `code`: signature, unknown_key, other_station, replayed, expired.
    """

    def __init__(self, code: str, detail: str) -> None:
        super().__init__(detail)
        self.code = code
        self.detail = detail


@dataclass(frozen=True, slots=True)
class HeldLimits:
    """Limits in use. `marks`: `expired`, they run on by the plant's rule; `clock_back`, the clock was later before."""

    payload: dict[str, Any]
    marks: tuple[str, ...] = ()


@dataclass(slots=True)
class _Held:
    """What is on disk: the file in use, the highest sequence taken, the highest date seen."""

    file: bytes | None = None
    sequence: int = 0
    seen: int = 0


class LimitsStore:
    """The limits of a station, kept through restarts and outages. One process a directory and station.

    Args:
        directory: made if it is not there; the store writes one file for each station.
        station: the number of the station.
        keys: public keys that may release limits, raw 32 bytes by their id (`public_key_id`).
        clock: seconds since 1970, UTC.
    """

    def __init__(
        self,
        directory: str | os.PathLike[str],
        station: int,
        keys: Mapping[str, bytes],
        clock: Callable[[], float] = time.time,
    ) -> None:
        self.station = station
        self._keys = dict(keys)
        self._clock = clock
        self._path = Path(directory) / f"station-{station}.limits.json"
        self._path.parent.mkdir(parents=True, exist_ok=True)
        self._held = self._read()

    def take(self, file: bytes | str | os.PathLike[str]) -> HeldLimits:
        """Take a signed file, or the file at a path, into use.

        Raises:
            LimitsRefused: what was in use stays. OSError: the path cannot be read, or the disk not be written.
        """
        self._held = self._read()
        content = file if isinstance(file, bytes) else Path(file).read_bytes()
        payload = self._verified(content)
        if payload["station"] != self.station:
            text = f"the limits are of station {payload['station']}, this is {self.station}"
            raise LimitsRefused("other_station", text)
        if payload["sequence"] <= self._held.sequence:
            text = f"sequence {payload['sequence']} is not above {self._held.sequence}: an old file, or the one in use"
            raise LimitsRefused("replayed", text)
        seen = max(self._held.seen, int(self._clock()), payload["issued_at"])
        if _ended(payload, seen):
            raise LimitsRefused("expired", f"the limits ended at {payload['valid_until']}, it is {seen}")
        self._keep(_Held(content, payload["sequence"], seen))
        return self.current() or HeldLimits(payload)

    def current(self) -> HeldLimits | None:
        """Return the limits in use, None before the first.

        Raises:
            LimitsRefused: `expired` where they may not run on; `signature` or `unknown_key` where the disk holds
                something else than was taken, or the key was withdrawn.
        """
        self._held = self._read()
        if self._held.file is None:
            return None
        payload = self._verified(self._held.file)
        now = int(self._clock())
        back = now < self._held.seen
        ended = _ended(payload, max(now, self._held.seen))
        if now > self._held.seen + 60 or (ended and now > self._held.seen):
            self._keep(_Held(self._held.file, self._held.sequence, now))
        if ended and not payload["run_on"]:
            raise LimitsRefused("expired", f"the limits ended at {payload['valid_until']} and may not run on")
        marks = ((EXPIRED,) if ended else ()) + ((CLOCK_BACK,) if back else ())
        return HeldLimits(payload, marks)

    def holds(self, file: bytes) -> bool:
        """Say whether a file is the one in use."""
        return self._held.file == file

    def _verified(self, file: bytes) -> dict[str, Any]:
        try:
            id = key_of(file)
            if id not in self._keys:
                raise LimitsRefused("unknown_key", f"key {id[:40]!r} may not release limits here")
            return verified(file, self._keys[id])
        except NotSigned as error:
            raise LimitsRefused("signature", str(error)) from None

    def _read(self) -> _Held:
        """Return what is on disk; a file that cannot be read is told, not passed over: it knows what was used."""
        if not self._path.exists():
            return _Held()
        try:
            members = json.loads(self._path.read_text(encoding="ascii"))
            file = members["file"]
            return _Held(None if file is None else file.encode("ascii"), int(members["sequence"]), int(members["seen"]))
        except (ValueError, KeyError, TypeError, AttributeError):
            text = f"{self._path} cannot be read: it knows the last sequence; restore it, or let a person release anew"
            raise LimitsRefused("signature", text) from None

    def _keep(self, held: _Held) -> None:
        """Write whole or not at all, and to the disk before it counts."""
        file = None if held.file is None else held.file.decode("ascii")
        text = json.dumps({"file": file, "sequence": held.sequence, "seen": held.seen}, indent=1)
        beside = self._path.with_suffix(".new")
        with beside.open("w", encoding="ascii") as out:
            out.write(text)
            out.flush()
            os.fsync(out.fileno())
        os.replace(beside, self._path)
        self._sync_directory()
        self._held = held

    def _sync_directory(self) -> None:
        if os.name == "nt":
            return
        handle = os.open(self._path.parent, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _ended(payload: Mapping[str, Any], now: int) -> bool:
    return bool(0 < payload["valid_until"] < now)
