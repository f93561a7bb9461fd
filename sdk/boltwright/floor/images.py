"""Register images of layout 1: made and checked without a service."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Self

from . import register_image
from .register_image import ImageRefusal


class Image(str):
    """An image as 480 hex digits, high byte first, with what goes beside it."""

    __slots__ = ()

    @classmethod
    def of(cls, registers: bytes) -> Self:
        """Return an image from its 240 bytes."""
        return cls(registers.hex())

    @property
    def registers(self) -> bytes:
        """The 240 bytes."""
        return bytes.fromhex(self)

    @property
    def crc32(self) -> str:
        """The checksum as 8 hex digits."""
        return f"{register_image.checksum(self.registers):08x}"

    @property
    def sequence(self) -> int:
        """The sequence that it carries."""
        return register_image.sequence_of(self.registers)

    def switch_word(self, bank: str) -> str:
        """Return the word that switches bank A or B to this image, as 4 hex digits."""
        return f"{register_image.switch_word(bank, self.sequence):04x}"


def encode_image(header: Mapping[str, Any]) -> Image:
    """Return the image of a header.

    Args:
        header: station, sequence, issued_at, valid_until (Unix seconds, 0 = no end), order, lot (20 ASCII characters),
            basis_text, flags, and entries: characteristic (code), scale, stop_min, warn_min, target, warn_max,
            stop_max in counts of the scale, None for an open side.

    Raises:
        ValueError: a member that no image can hold.
    """
    try:
        return Image.of(register_image.encode(header))
    except ImageRefusal as refusal:
        raise ValueError(str(refusal)) from None
    except KeyError as missing:
        raise ValueError(f"the header lacks {missing.args[0]}") from None


def check_image(image: str | bytes, switch_word: str | int, station: int, last_sequence: int | None = None) -> str:
    """Return `good`, or the first reason why a machine must not take an image.

    The reasons: no image, version, length, word order, checksum, switch and sequence differ, old sequence, station.

    Args:
        image: 480 hex digits or 240 bytes.
        switch_word: 4 hex digits or a number.
        station: of the machine.
        last_sequence: of the image in use; None for a machine that has none.
    """
    registers = registers_of(image)
    switch = int(switch_word, 16) if isinstance(switch_word, str) else switch_word
    return register_image.check(registers, switch, station, last_sequence)


def registers_of(image: str | bytes) -> bytes:
    """Return the bytes of an image; text that is no hex is none."""
    if isinstance(image, bytes):
        return image
    try:
        return bytes.fromhex(image)
    except ValueError:
        return b""
