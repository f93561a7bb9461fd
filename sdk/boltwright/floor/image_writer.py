"""The protocol of a register image, over whatever carries it: whole, read back, switched, confirmed.

A carrier reads and writes the control area and the two banks; what they mean stands here once.
"""

from __future__ import annotations

import logging
import time

from .images import registers_of
from .register_image import BANKS, BYTES, LAYOUT, checksum, sequence_of, switch_word

SWITCH, HEARTBEAT, _MACHINE_BEAT = 1, 2, 3
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


class NoConnection(Exception):
    """The controller cannot be reached, or not any more."""


class Refused(Exception):
    """The controller answered, and not with what was asked for."""


class ImageWriter:
    """One controller. Not shared between threads. A carrier gives `close` and the four requests."""

    def __init__(self, name: str, timeout: float) -> None:
        self._name, self._timeout = name, timeout
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
        except NoConnection as failure:
            _LOG.debug("%s: %s", self._name, failure)
            self.close()
            return "no_connection"
        except Refused as failure:
            _LOG.debug("%s: %s", self._name, failure)
            return "not_taken_over"

    def beat(self) -> bool:
        """Move the host's heartbeat on; say whether the controller was reached."""
        try:
            beats = (self._control()[HEARTBEAT] if self._beats is None else self._beats) + 1
            self._beats = beats & 0xFFFF
            self._put_word(HEARTBEAT, self._beats)
        except (NoConnection, Refused):
            self.close()
            return False
        return True

    def close(self) -> None:
        """Close the connection; the next write opens one."""
        raise NotImplementedError

    def _written(self, registers: bytes) -> str:
        before = self._control()
        if before[0] not in (0, LAYOUT):
            return "version"
        if self._taken(before, registers, before[SWITCH]) == "in_use":
            return "in_use"
        if self._other_host(before):
            return "second_host"
        if before[5] == _WAITING and self._named(before[SWITCH], registers):
            return "waiting_for_operator"
        bank = "B" if before[SWITCH] >> 8 == 1 else "A"
        self._put_bank(bank, registers)
        if self._bank(bank) != registers:
            return "read_back_differs"
        if self._control()[SWITCH] != before[SWITCH]:
            return "second_host"
        switch = switch_word(bank, sequence_of(registers))
        self._put_word(SWITCH, switch)
        return self._confirmed(registers, switch, before)

    def _named(self, switch: int, registers: bytes) -> bool:
        """Say whether the switch word names a bank that holds this very image."""
        bank = next((name for name in BANKS if switch == switch_word(name, sequence_of(registers))), None)
        return bank is not None and self._bank(bank) == registers

    def _other_host(self, control: list[int]) -> bool:
        """Say whether somebody else moves the heartbeat: after a restart of the controller it is 0."""
        return self._beats is not None and control[HEARTBEAT] not in (0, self._beats)

    def _confirmed(self, registers: bytes, switch: int, before: list[int]) -> str:
        """Wait for the machine. A refusal that stood there before counts where nothing else comes and it lives."""
        deadline = time.monotonic() + self._timeout
        while True:
            control = self._control()
            if control[SWITCH] != switch:
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

    # Requests: each raises NoConnection or Refused

    def _control(self) -> list[int]:
        """Return registers 0 to 7 of the control area at least."""
        raise NotImplementedError

    def _put_word(self, register: int, word: int) -> None:
        raise NotImplementedError

    def _bank(self, bank: str) -> bytes:
        raise NotImplementedError

    def _put_bank(self, bank: str, image: bytes) -> None:
        raise NotImplementedError
