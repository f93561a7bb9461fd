"""Serves one station from a configuration file: takes signed limits, keeps the controller on them, says how it stands.

Works without the service that made the limits. One pass takes a new file from the inbox, if there is one, and brings
the limits in use to the controller.
"""

from __future__ import annotations

import logging
import time
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from threading import Event
from typing import Any

from .limits_store import LimitsRefused, LimitsStore
from .modbus_writer import ModbusWriter
from .opcua_writer import OpcUaWriter
from .signatures import public_key_id

IN_USE, WAITING, KEPT_OLD, NO_CONNECTION, FILE_REFUSED = 0, 3, 4, 5, 6
_CODES = {"in_use": IN_USE, "waiting_for_operator": WAITING, "no_connection": NO_CONNECTION}
#: Seconds: between two passes, between two lines of an unchanged state, until a refused image is offered again.
_EVERY, _MINUTE, _AGAIN = 1.0, 60.0, 30.0
_KEY_BYTES = 32
_LOG = logging.getLogger("boltwright.floor")
_LIMITS: Mapping[str, Any] = {"directory": str, "station": int, "inbox": str, "keys": (dict, list)}
_MODBUS: Mapping[str, Any] = {"host": str, "port": int, "base": int, "device_id": int}
_FILES = ("certificate", "private_key", "server_certificate")
_OPCUA: Mapping[str, Any] = {"url": str, "namespace": str, "security": str, **dict.fromkeys(_FILES, str)}


@dataclass(frozen=True, slots=True)
class Settings:
    """A configuration file, checked."""

    directory: Path
    station: int
    inbox: Path
    keys: dict[str, bytes]
    writer: Callable[[], ModbusWriter | OpcUaWriter]

    @classmethod
    def read(cls, path: Path) -> Settings:
        """Return the settings of a file; paths in it are relative to it.

        Raises:
            ValueError: a table or a member that is missing, unknown or of another type. OSError: it cannot be read.
        """
        try:
            whole = tomllib.loads(path.read_text(encoding="utf-8"))
        except tomllib.TOMLDecodeError as error:
            raise ValueError(f"{path}: {error}") from None
        _known(whole, ("limits", "modbus", "opcua"), str(path))
        limits = _members(whole.get("limits"), _LIMITS, tuple(_LIMITS), f"{path}, [limits]")
        beside = path.parent
        return cls(
            beside / limits["directory"],
            limits["station"],
            beside / limits["inbox"],
            _keys(limits["keys"], path),
            _writer(whole, path),
        )


def _writer(whole: Mapping[str, Any], path: Path) -> Callable[[], ModbusWriter | OpcUaWriter]:
    """Return what makes the writer of the controller that a configuration names."""
    if ("modbus" in whole) == ("opcua" in whole):
        raise ValueError(f"{path}: exactly one of [modbus] and [opcua] is needed")
    if "modbus" in whole:
        return partial(ModbusWriter, **_members(whole["modbus"], _MODBUS, ("host",), f"{path}, [modbus]"))
    opcua = _members(whole["opcua"], _OPCUA, ("url", "namespace"), f"{path}, [opcua]")
    files = {name: path.parent / opcua[name] for name in _FILES if name in opcua}
    return partial(OpcUaWriter, **{**opcua, **files})


def _members(table: Any, known: Mapping[str, Any], needed: tuple[str, ...], where: str) -> dict[str, Any]:
    if not isinstance(table, dict):
        raise ValueError(f"{where} is missing")
    _known(table, tuple(known), where)
    for name in needed:
        if name not in table:
            raise ValueError(f"{where}: {name} is missing")
    for name, value in table.items():
        if not isinstance(value, known[name]) or isinstance(value, bool):
            raise ValueError(f"{where}: {name} is no {type(value).__name__}; see the docs of the floor")
    return table


def _known(table: Mapping[str, Any], known: tuple[str, ...], where: str) -> None:
    for name in table:
        if name not in known:
            raise ValueError(f"{where}: unknown {name}; known: {', '.join(known)}")


def _keys(given: dict[str, Any] | list[Any], path: Path) -> dict[str, bytes]:
    """Return public keys by id, from a table of them or a list, 64 hex digits each."""
    named = list(given.items()) if isinstance(given, dict) else [(None, one) for one in given]
    found = {}
    for id, text in named:
        try:
            key = bytes.fromhex(text)
        except (TypeError, ValueError):
            key = b""
        if len(key) != _KEY_BYTES or id not in (None, public_key_id(key)):
            raise ValueError(f"{path}, [limits] keys: {id or text!r} is no Ed25519 key of 64 hex digits with that id")
        found[public_key_id(key)] = key
    return found


class Floor:
    """One station: its store and its controller."""

    def __init__(self, settings: Settings, clock: Callable[[], float] = time.time) -> None:
        self._inbox = settings.inbox
        self._store = LimitsStore(settings.directory, settings.station, settings.keys, clock)
        self._writer = settings.writer()
        self._stamp = 0
        self.said = ""

    def once(self) -> int:
        """Make one pass; return its exit code and leave what happened in `said`."""
        refusal = self._take()
        try:
            held = self._store.current()
        except LimitsRefused as error:
            return self._end(FILE_REFUSED if refusal else KEPT_OLD, f"limits not used: {error.code}: {error}")
        if held is None:
            return self._end(FILE_REFUSED if refusal else KEPT_OLD, refusal or "no limits yet")
        payload = held.payload
        answer = self._writer.write(payload["image"])
        marks = f", {', '.join(held.marks)}: the lot is incomplete" if held.marks else ""
        told = f"{answer}: sequence {payload['sequence']}, order {payload['order']}, {payload['designation']}{marks}"
        if refusal:
            return self._end(FILE_REFUSED, f"{refusal}; {told}")
        return self._end(_CODES.get(answer, KEPT_OLD), told)

    def _end(self, code: int, said: str) -> int:
        self.said = said
        return code

    def _take(self) -> str:
        """Take the file of the inbox, unless it is in use already or was refused before; return a refusal."""
        try:
            file = self._inbox.read_bytes()
        except FileNotFoundError:
            return ""
        except OSError as error:
            return f"{self._inbox}: {error.strerror}"
        if self._store.holds(file):
            return ""
        try:
            self._store.take(file)
        except LimitsRefused as error:
            return f"{self._inbox} refused: {error.code}: {error}"
        _LOG.info("took %s", self._inbox)
        return ""

    def _inbox_changed(self) -> bool:
        """Say whether the file of the inbox is another one than at the last pass."""
        try:
            stamp = self._inbox.stat().st_mtime_ns
        except OSError:
            stamp = 0
        changed, self._stamp = stamp != self._stamp, stamp
        return changed

    def run(self, stop: Event) -> int:
        """Make a pass a second until stopped; say each change, and once a minute how it stands."""
        told, said_at, code, refused_at = "", 0.0, NO_CONNECTION, 0.0
        while not stop.is_set():
            now = time.monotonic()
            if code not in (KEPT_OLD, FILE_REFUSED) or now - refused_at >= _AGAIN or self._inbox_changed():
                code, refused_at = self.once(), now
            self._writer.beat()
            if self.said != told or now - said_at >= _MINUTE:
                _LOG.info("%s", self.said)
                told, said_at = self.said, now
            stop.wait(_EVERY)
        _LOG.info("stopped; the machine runs on with what it has")
        return code

    def close(self) -> None:
        """Close the connection."""
        self._writer.close()
