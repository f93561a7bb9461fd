"""What is looked up in the metadata of an Arrow message before Arrow itself reads it.

Apache Arrow columnar format, Message.fbs: a flatbuffer whose root is a Message; its header, a RecordBatch, has a member
`compression` where the buffers are compressed. A few bytes of those may claim any amount of memory.
"""

from __future__ import annotations

import struct

#: What ends a stream: a continuation marker and a length of 0; "IPC Streaming Format".
END_MARKER = b"\xff\xff\xff\xff\0\0\0\0"
#: Places of members in Message.fbs: Message.header, RecordBatch.compression.
_HEADER, _COMPRESSION = 2, 3


def is_compressed(metadata: bytes) -> bool:
    """Return whether the buffers of a record batch are compressed.

    Raises:
        ValueError: the metadata is no flatbuffer.
    """
    try:
        header = _member(metadata, _unsigned(metadata, 0), _HEADER)
        return bool(header and _member(metadata, header + _unsigned(metadata, header), _COMPRESSION))
    except struct.error:
        raise ValueError("the metadata of a message is cut short") from None


def _member(metadata: bytes, table: int, index: int) -> int:
    """Return where a member of a table stands, or 0 where it is absent."""
    offsets = table - struct.unpack_from("<i", metadata, table)[0]
    if offsets < 0 or table < 0:
        raise ValueError("the metadata of a message points out of it")
    size, at = struct.unpack_from("<H", metadata, offsets)[0], 4 + 2 * index
    inside = struct.unpack_from("<H", metadata, offsets + at)[0] if at < size else 0
    return table + inside if inside else 0


def _unsigned(metadata: bytes, at: int) -> int:
    found: int = struct.unpack_from("<I", metadata, at)[0]
    return found
