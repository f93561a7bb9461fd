"""Register image, layout 1: the limits of one station as 120 registers that are taken whole or not at all.

Register 0 magic, 1 layout, 2 length under the checksum, 3 station, 4-5 sequence, 6-9 issued and valid until (Unix
seconds, 0 = no end), 10-29 order and lot, 30-33 hash of designation and fingerprint, 34 count, 35 flags, 36-107 limits,
108-109 word-order test, 110-117 reserved (0), 118-119 CRC-32. High byte first, of 32 bits the high register first. This
module stands twice, in the service and in the SDK, byte for byte; it imports the standard library only.
"""

from __future__ import annotations

import struct
from collections.abc import Mapping, Sequence
from hashlib import sha256
from typing import Any
from zlib import crc32

LAYOUT, REGISTERS, MOST_ENTRIES, TEXT = 1, 120, 6, 20
BYTES = 2 * REGISTERS
MAGIC, CHECKED, WORD_ORDER = 0x4257, 118, 0x01020304
#: An open side: no limit, no target, no warning line.
NONE = -0x80000000
LARGEST_SEQUENCE = 2**32 - 1
TRIAL, DOUBTFUL, OF_A_STATE, RUN_ON = 1, 2, 4, 8
BANKS = {"A": 1, "B": 2}
LIMITS = ("stop_min", "warn_min", "target", "warn_max", "stop_max")
_HEAD = struct.Struct(">HHHHIII20s20s8sHH")
_ENTRY = struct.Struct(">HHiiiii")


class ImageRefusal(Exception):
    """A header that no image can hold; `member` names what is wrong."""

    def __init__(self, member: str, detail: str) -> None:
        super().__init__(f"{member}: {detail}")
        self.member = member
        self.detail = detail


def encode(header: Mapping[str, Any]) -> bytes:
    """Return the image of a header as 240 bytes.

    Raises:
        ImageRefusal: a text that is no ASCII or too long, a number out of its range, too many entries.
    """
    entries: Sequence[Mapping[str, Any]] = header["entries"]
    if len(entries) > MOST_ENTRIES:
        raise ImageRefusal("entries", f"an image holds {MOST_ENTRIES} entries, not {len(entries)}")
    body = _HEAD.pack(
        MAGIC,
        LAYOUT,
        CHECKED,
        _within("station", header["station"], 0, 0xFFFF),
        _within("sequence", header["sequence"], 1, LARGEST_SEQUENCE),
        _within("issued_at", header["issued_at"], 0, 0xFFFFFFFF),
        _within("valid_until", header["valid_until"], 0, 0xFFFFFFFF),
        _ascii("order", header["order"]),
        _ascii("lot", header["lot"]),
        sha256(header["basis_text"].encode()).digest()[:8],
        len(entries),
        _within("flags", header["flags"], 0, 0xFFFF),
    )
    body += b"".join(_entry(one, at) for at, one in enumerate(entries))
    body = body.ljust(2 * 108, b"\0") + struct.pack(">I", WORD_ORDER)
    body = body.ljust(2 * CHECKED, b"\0")
    return body + struct.pack(">I", crc32(body))


def _entry(one: Mapping[str, Any], at: int) -> bytes:
    path = f"entries/{at}"
    limits = [
        NONE if one[name] is None else _within(f"{path}/{name}", one[name], NONE + 1, 0x7FFFFFFF) for name in LIMITS
    ]
    code = _within(f"{path}/characteristic", one["characteristic"], 1, 0xFFFF)
    return _ENTRY.pack(code, _within(f"{path}/scale", one["scale"], 1, 0xFFFF), *limits)


def _within(member: str, number: Any, least: int, most: int) -> int:
    if isinstance(number, bool) or not isinstance(number, int) or not least <= number <= most:
        raise ImageRefusal(member, f"is a whole number from {least} to {most}, not {number!r:.40}")
    return number


def _ascii(member: str, text: Any) -> bytes:
    if not isinstance(text, str) or not text.isascii() or not (text.isprintable() and len(text) <= TEXT):
        raise ImageRefusal(member, f"is at most {TEXT} printable ASCII characters, not {text!r:.60}")
    return text.encode("ascii")


def switch_word(bank: str, sequence: int) -> int:
    """Return the word that switches a bank in: high byte the bank, low byte the sequence modulo 256."""
    return BANKS[bank] << 8 | sequence & 0xFF


def checksum(image: bytes) -> int:
    """Return the CRC-32 that an image carries."""
    found: int = struct.unpack_from(">I", image, 2 * CHECKED)[0]
    return found


def sequence_of(image: bytes) -> int:
    """Return the sequence of an image."""
    found: int = struct.unpack_from(">I", image, 8)[0]
    return found


def check(image: bytes, switch: int, station: int, last_sequence: int | None = None) -> str:
    """Return `good`, or the first reason why a machine must not take an image.

    A sequence is newer if it lies less than 2^31 ahead of the last one, modulo 2^32.
    """
    if len(image) != BYTES:
        return "length"
    magic, layout, length, own, sequence = struct.unpack_from(">HHHHI", image)
    if magic != MAGIC:
        return "no image"
    if layout != LAYOUT:
        return "version"
    if length != CHECKED:
        return "length"
    if struct.unpack_from(">I", image, 2 * 108)[0] != WORD_ORDER:
        return "word order"
    if crc32(image[: 2 * CHECKED]) != checksum(image):
        return "checksum"
    if sequence & 0xFF != switch & 0xFF:
        return "switch and sequence differ"
    if last_sequence is not None and not 0 < (sequence - last_sequence) % 2**32 < 2**31:
        return "old sequence"
    return "good" if own == station else "station"
