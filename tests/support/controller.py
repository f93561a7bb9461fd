"""A machine controller on the loopback: a real Modbus TCP server, and a program that takes register images over.

The program reads registers through the same server as everybody, a few at a time, by the published layout and with no
code of the project, so that it sees a torn image if there is one.
"""

from __future__ import annotations

import asyncio
import struct
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from zlib import crc32

from pymodbus.client import ModbusTcpClient
from pymodbus.server import ModbusTcpServer
from pymodbus.simulator import DataType, SimData, SimDevice

REGISTERS = 256


class ModbusServer:
    """A server of 256 holding registers on a port of its own. `restart` empties them, as a power cut does."""

    def __init__(self) -> None:
        self.port = 0
        self._loop = asyncio.new_event_loop()
        self._server: ModbusTcpServer | None = None
        self._thread = threading.Thread(target=self._loop.run_forever, daemon=True)
        self._thread.start()
        self.start()

    def start(self) -> None:
        asyncio.run_coroutine_threadsafe(self._listen(), self._loop).result(10)

    async def _listen(self) -> None:
        device = SimDevice(id=1, simdata=[SimData(0, count=REGISTERS, values=0, datatype=DataType.REGISTERS)])
        self._server = ModbusTcpServer(device, address=("127.0.0.1", self.port))
        await self._server.listen()
        assert self._server.transport is not None
        self.port = self._server.transport.sockets[0].getsockname()[1]

    def stop(self) -> None:
        if self._server is not None:
            asyncio.run_coroutine_threadsafe(self._server.shutdown(), self._loop).result(10)
            self._server = None

    def restart(self) -> None:
        self.stop()
        self.start()

    def close(self) -> None:
        self.stop()
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join(10)
        self._loop.close()


class Machine:
    """The program of the controller: `step` is one scan. `taken` holds the images that came into use, in order."""

    def __init__(self, port: int, station: int = 7, reads: int = 1, operator: bool = False) -> None:
        self.client = ModbusTcpClient("127.0.0.1", port=port, timeout=2)
        self.station, self.reads, self.operator = station, reads, operator
        self.taken: list[bytes] = []
        self.last: int | None = None
        self._switch = 0

    def read(self, at: int, count: int) -> list[int]:
        found = self.client.read_holding_registers(at, count=count, device_id=1)
        assert not found.isError()
        return list(found.registers)

    def write(self, at: int, *words: int) -> None:
        assert not self.client.write_registers(at, list(words), device_id=1).isError()

    def step(self) -> None:
        switch = self.read(1, 1)[0]
        if switch == self._switch or not switch:
            return
        bank = 16 if switch >> 8 == 1 else 136
        words: list[int] = []
        pieces = 120 // self.reads
        for at in range(0, 120, pieces):
            words += self.read(bank + at, pieces)
        if self.read(1, 1)[0] != switch:
            return
        self._switch = switch
        self._decide(struct.pack(">120H", *words), switch)

    def _decide(self, image: bytes, switch: int) -> None:
        state = self.judged(image, switch)
        if state != 1:
            self.write(5, state)
            return
        self.taken.append(image)
        self.last = struct.unpack_from(">I", image, 8)[0]
        self.write(4, switch, 1, *struct.unpack(">2H", image[-4:]))

    def judged(self, image: bytes, switch: int) -> int:
        magic, layout, _, station, sequence = struct.unpack_from(">HHHHI", image)
        if (magic, layout) != (0x4257, 1):
            return 3
        if struct.unpack_from(">I", image, 216)[0] != 0x01020304:
            return 4
        if crc32(image[:236]) != struct.unpack_from(">I", image, 236)[0]:
            return 2
        if sequence & 0xFF != switch & 0xFF or (self.last is not None and sequence <= self.last):
            return 5
        if station != self.station:
            return 6
        return 7 if self.operator else 1


@contextmanager
def server() -> Iterator[ModbusServer]:
    running = ModbusServer()
    try:
        yield running
    finally:
        running.close()


@contextmanager
def scanning(machine: Machine) -> Iterator[Machine]:
    """Let a machine scan until the block ends."""
    ended = threading.Event()

    def scan() -> None:
        while not ended.wait(0.001):
            with suppress(Exception):
                machine.step()

    thread = threading.Thread(target=scan, daemon=True)
    thread.start()
    try:
        yield machine
    finally:
        ended.set()
        thread.join(10)
        machine.client.close()
