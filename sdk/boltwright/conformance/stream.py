"""POST /v1/conformance as NDJSON: the verdict on a lot of any size, block after block. It changes nothing."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable, Mapping
from typing import Any

from ..decoding import decode
from ..readings import Column, Reading, written_column
from ..transport import Connection, written_json
from .conformance import Conformance

MEDIA_TYPE = "application/x-ndjson"
Block = Mapping[str, Column | Iterable[Reading] | Mapping[str, Any]]


def conformance_stream(
    connection: Connection, designation: str, blocks: Iterable[Block], **settings: Any
) -> Conformance:
    """Judge a lot whose readings come in blocks of columns, in bounded memory on both sides.

    Blocks are written to a temporary file first, so that a call that fails can be tried again.

    Args:
        designation: what the lot is.
        blocks: readings as for `Client.conformance`, without piece numbers: the pieces of a block follow those of the
            block before. A list or a generator.
        settings: those of `Client.conformance`, as lot_size and decision_rule.

    Raises:
        MemberError: a setting that the service does not know. Others: as `Client.conformance`; `detail` names the
        line, and the first block stands on line 2.
    """
    head = {"designation": designation, **{name: value for name, value in settings.items() if value is not None}}
    with tempfile.TemporaryFile() as file:
        file.write(written_json(head) + b"\n")
        for block in blocks:
            columns = {id: written_column(id, given) for id, given in block.items()}
            file.write(written_json({"readings": columns}) + b"\n")
        file.seek(0)
        return decode(Conformance, connection.post_text("/v1/conformance", file, MEDIA_TYPE))
