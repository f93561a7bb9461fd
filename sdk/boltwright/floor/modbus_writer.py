"""Writes a register image to a controller over Modbus TCP: whole, read back, switched, confirmed.

Needs the extra `modbus` (pymodbus, pinned), imported with the first connection. Addresses of a message start at 0.
Modbus has no security of its own: give the controllers a network of their own.
"""

from __future__ import annotations

import logging
import struct
from collections.abc import Callable
from typing import Any

from .image_writer import ImageWriter, NoConnection, Refused
from .register_image import REGISTERS

CONTROL, BANK_AT = 16, {"A": 16, "B": 136}
_BANK = f">{REGISTERS}H"


class ModbusWriter(ImageWriter):
    """One controller. Not shared between threads.

    Args:
        host, port: of the controller.
        base: the register at which the control area starts.
        device_id: of the controller, behind a gateway its unit.
        timeout: seconds for each request, and for the machine to take an image over.
    """

    def __init__(self, host: str, port: int = 502, base: int = 0, device_id: int = 1, timeout: float = 5.0) -> None:
        super().__init__(f"{host}:{port}", timeout)
        self._address = (host, port)
        self._base, self._device = base, device_id
        self._client: Any = None

    def close(self) -> None:
        """Close the connection; the next write opens one."""
        if self._client is not None:
            self._client.close()
            self._client = None

    # Requests

    def _control(self) -> list[int]:
        return self._get(0, CONTROL)

    def _put_word(self, register: int, word: int) -> None:
        self._put(register, [word], single=True)

    def _bank(self, bank: str) -> bytes:
        return struct.pack(_BANK, *self._get(BANK_AT[bank], REGISTERS))

    def _put_bank(self, bank: str, image: bytes) -> None:
        self._put(BANK_AT[bank], list(struct.unpack(_BANK, image)))

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
            raise NoConnection(str(error)) from error
        if found.isError():
            raise Refused(str(found))
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
            raise NoConnection(f"{host}:{port} cannot be reached")
        return self._client


def _quiet() -> None:
    """Each failure would dump the last frames into the log; the writer says by itself what happened."""
    logger = logging.getLogger("pymodbus.logging")
    if logger.level == logging.NOTSET:
        logger.setLevel(logging.CRITICAL)
