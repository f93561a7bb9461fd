"""Images written to a controller by a host that dies again and again, between requests and in the middle of one."""

from __future__ import annotations

import random
import struct
from contextlib import suppress
from typing import Any

from controller import Machine, ModbusServer, scanning

from boltwright import ModbusWriter, encode_image

LIMITS = ("stop_min", "warn_min", "target", "warn_max", "stop_max")
HEADER: dict[str, Any] = {
    "station": 7,
    "sequence": 41,
    "issued_at": 1_764_460_800,
    "valid_until": 0,
    "order": "4711-C",
    "lot": "L2026-0815",
    "basis_text": "M10-6g @ 0123abcd",
    "flags": 8,
    "entries": [],
}
#: After how many requests the host dies; 99: never.
_REQUESTS = (1, 2, 3, 4, 5, 6, 99)


class Cut(Exception):
    """The host dies here."""


def image(sequence: int, station: int = 7, shift: int = 0) -> str:
    limits = dict(zip(LIMITS, range(8869 + shift, 9000, 25), strict=False))
    entries = [{"characteristic": code, "scale": 1, **limits} for code in range(1, 7)]
    return encode_image({**HEADER, "station": station, "sequence": sequence, "entries": entries})


def interrupted_writes(modbus: ModbusServer, times: int, reads: int, first: int = 1) -> tuple[Machine, int]:
    """Write images one after the other, most of them cut off, under a reader that polls; return it, and how many ended.

    Of the hosts that die in a write of a bank, every other one dies with half of the frame on the wire.
    """
    sent: set[str] = set()
    chance, ended = random.Random(815 + first), 0
    machine = Machine(modbus.port, reads=reads)
    with scanning(machine):
        writer = ModbusWriter("127.0.0.1", modbus.port, timeout=0.05)
        call = writer._call
        for sequence in range(first, first + times):
            whole = image(sequence, shift=sequence % 20)
            sent.add(whole)
            left = [chance.choice(_REQUESTS)]

            def cut(request: Any, left: list[int] = left, whole: str = whole) -> Any:
                left[0] -= 1
                if left[0] < 0:
                    if chance.random() < 0.5:
                        _half(writer, bytes.fromhex(whole), chance.choice((16, 136)))
                    raise Cut
                return call(request)

            writer._call = cut  # type: ignore[method-assign]
            with suppress(Cut):
                ended += writer.write(whole) == "in_use"
        writer.close()
    assert {one.hex() for one in machine.taken} <= sent, "a torn image came into use"
    return machine, ended


def _half(writer: ModbusWriter, registers: bytes, bank: int) -> None:
    """Leave half of a request on the wire and close (Modbus messaging on TCP/IP 1.0b: header; function 16)."""
    request = struct.pack(">BBHHB", 1, 16, bank, 120, 240) + registers
    frame = struct.pack(">HHH", 1, 0, len(request)) + request
    with suppress(OSError, AttributeError):
        writer._client.socket.sendall(frame[: len(frame) // 2])
    writer.close()
