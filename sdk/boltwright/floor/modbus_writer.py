"""Writes a register image to a controller over Modbus TCP: whole, read back, switched, confirmed.

Needs the extra `modbus` (pymodbus, pinned), imported with the first connection. Addresses of a message start at 0.
Modbus has no security of its own: give the controllers a network of their own.
"""

from __future__ import annotations

import logging
import struct
import time
from collections.abc import Callable
from typing import Any

from .images import registers_of
from .register_image import BYTES, LAYOUT, REGISTERS, checksum, sequence_of, switch_word

CONTROL, BANK_AT = 16, {"A": 16, "B": 136}
_SWITCH, _HEARTBEAT, _MACHINE_BEAT = 1, 2, 3
#: In use, and in use while the host was silent.
_IN_USE = (1, 8)
_WAITING = 7
#: State of the machine -> what the writer answers.
_REFUSALS = {
    2: "checksum",
    3: "version",
    4: "word_order",
    5: "sequence",
    6: "station",
    _WAITING: "waiting_for_operator",
}
_LOG = logging.getLogger("boltwright.floor")


class _NoConnection(Exception):
    pass


class _Refused(Exception):
    """The controller answered with an exception."""


class ModbusWriter:
    """One controller. Not shared between threads.

    Args:
        host, port: of the controller.
        base: the register at which the control area starts.
        device_id: of the controller, behind a gateway its unit.
        timeout: seconds for each request, and for the machine to take an image over.
    """

    def __init__(self, host: str, port: int = 502, base: int = 0, device_id: int = 1, timeout: float = 5.0) -> None:
        self._address = (host, port)
        self._base, self._device, self._timeout = base, device_id, timeout
        self._client: Any = None
        self._beats: int | None = None

    def write(self, image: str | bytes) -> str:
        """Bring an image into use and say how that ended; the machine keeps what it had in every case but the first.

        Returns: in_use; waiting_for_operator; checksum, version, word_order, sequence, station (the machine refused
        it); read_back_differs; not_taken_over; second_host; no_connection.

        Raises:
            ValueError: it is no image.
        """
        registers = registers_of(image)
        if len(registers) != BYTES:
            raise ValueError(f"an image has {BYTES} bytes, not {len(registers)}")
        try:
            return self._written(registers)
        except _NoConnection as failure:
            _LOG.debug("%s:%s: %s", *self._address, failure)
            self.close()
            return "no_connection"
        except _Refused as failure:
            _LOG.debug("%s:%s: %s", *self._address, failure)
            return "not_taken_over"

    def beat(self) -> bool:
        """Move the host's heartbeat on; say whether the controller was reached."""
        try:
            beats = (self._control()[_HEARTBEAT] if self._beats is None else self._beats) + 1
            self._beats = beats & 0xFFFF
            self._put(_HEARTBEAT, [self._beats], single=True)
        except (_NoConnection, _Refused):
            self.close()
            return False
        return True

    def close(self) -> None:
        """Close the connection; the next write opens one."""
        if self._client is not None:
            self._client.close()
            self._client = None

    def _written(self, registers: bytes) -> str:
        before = self._control()
        if before[0] not in (0, LAYOUT):
            return "version"
        if self._taken(before, registers, before[_SWITCH]) == "in_use":
            return "in_use"
        if self._other_host(before):
            return "second_host"
        if before[5] == _WAITING and self._named(before[_SWITCH], registers):
            return "waiting_for_operator"
        bank = "B" if before[_SWITCH] >> 8 == 1 else "A"
        words = _words(registers)
        self._put(BANK_AT[bank], words)
        if self._get(BANK_AT[bank], REGISTERS) != words:
            return "read_back_differs"
        if self._get(_SWITCH, 1) != [before[_SWITCH]]:
            return "second_host"
        switch = switch_word(bank, sequence_of(registers))
        self._put(_SWITCH, [switch], single=True)
        return self._confirmed(registers, switch, before)

    def _named(self, switch: int, registers: bytes) -> bool:
        """Say whether the switch word names a bank that holds this very image."""
        bank = next((name for name in BANK_AT if switch == switch_word(name, sequence_of(registers))), None)
        return bank is not None and self._get(BANK_AT[bank], REGISTERS) == _words(registers)

    def _other_host(self, control: list[int]) -> bool:
        """Say whether somebody else moves the heartbeat: after a restart of the controller it is 0."""
        return self._beats is not None and control[_HEARTBEAT] not in (0, self._beats)

    def _confirmed(self, registers: bytes, switch: int, before: list[int]) -> str:
        """Wait for the machine. A refusal that stood there before counts where nothing else comes and it lives."""
        deadline = time.monotonic() + self._timeout
        while True:
            control = self._control()
            if control[_SWITCH] != switch:
                return "second_host"
            found = self._taken(control, registers, switch)
            if found == "in_use" or (found and control[4:8] != before[4:8]):
                return found
            if time.monotonic() >= deadline:
                alive = control[_MACHINE_BEAT] != before[_MACHINE_BEAT] or not control[_MACHINE_BEAT]
                return found if found and (alive or control[4] == switch) else "not_taken_over"
            time.sleep(min(0.02, self._timeout / 10))

    def _taken(self, control: list[int], registers: bytes, switch: int) -> str:
        """Return what the machine says of an image; nothing where it says nothing yet."""
        if control[5] in _IN_USE and control[4] == switch and switch:
            return "in_use" if control[6] << 16 | control[7] == checksum(registers) else ""
        return _REFUSALS.get(control[5], "")

    # Requests

    def _control(self) -> list[int]:
        return self._get(0, CONTROL)

    def _get(self, register: int, count: int) -> list[int]:
        asked = self._call(
            lambda client: client.read_holding_registers(self._base + register, count=count, device_id=self._device)
        )
        words: list[int] = asked.registers
        return words

    def _put(self, register: int, words: list[int], single: bool = False) -> None:
        at = self._base + register
        if single:
            self._call(lambda client: client.write_register(at, words[0], device_id=self._device))
        else:
            self._call(lambda client: client.write_registers(at, words, device_id=self._device))

    def _call(self, request: Callable[[Any], Any]) -> Any:
        """Send a request; an exception answer is returned by the library, a broken connection raised."""
        client = self._connected()
        from pymodbus.exceptions import ModbusException

        try:
            found = request(client)
        except (ModbusException, OSError) as error:
            raise _NoConnection(str(error)) from error
        if found.isError():
            raise _Refused(str(found))
        return found

    def _connected(self) -> Any:
        if self._client is not None and self._client.connected:
            return self._client
        try:
            from pymodbus.client import ModbusTcpClient
        except ImportError:
            raise RuntimeError("controllers over Modbus need pymodbus: pip install 'boltwright[modbus]'") from None
        _quiet()
        host, port = self._address
        self._client = ModbusTcpClient(host, port=port, timeout=self._timeout, retries=1)
        if not self._client.connect():
            raise _NoConnection(f"{host}:{port} cannot be reached")
        return self._client


def _words(registers: bytes) -> list[int]:
    return list(struct.unpack(f">{REGISTERS}H", registers))


def _quiet() -> None:
    """Each failure would dump the last frames into the log; the writer says by itself what happened."""
    logger = logging.getLogger("pymodbus.logging")
    if logger.level == logging.NOTSET:
        logger.setLevel(logging.CRITICAL)
