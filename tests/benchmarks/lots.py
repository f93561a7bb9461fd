"""The lot of the conformance benchmarks: invented readings, seeded, of eight characteristics."""

from __future__ import annotations

import json
import random
from collections.abc import Sequence

import pyarrow

from boltwright_server.quantities import Bounds
from boltwright_server.specification import specification

DESIGNATION = "ISO 4014 - M10x60 - 8.8"
CHARACTERISTICS = (
    "width_across_flats",
    "width_across_corners",
    "head_height",
    "body_diameter",
    "length",
    "washer_face_diameter",
    "thread_major_diameter",
    "thread_pitch_diameter",
)
#: What the heading station of a machine measures on every piece.
AT_THE_MACHINE = ("width_across_flats", "head_height", "length")


def body(pieces: int, characteristics: Sequence[str] = CHARACTERISTICS) -> bytes:
    """Return a request with that many pieces; about one reading in 20 000 is out of its limits."""
    chance = random.Random(4014)
    wanted = specification(DESIGNATION).characteristics
    readings = {id: _column(wanted[id].bounds, pieces, chance) for id in characteristics}
    return json.dumps({"designation": DESIGNATION, "readings": readings}).encode()


def arrow_body(body: bytes) -> bytes:
    """Return the same request as an Arrow IPC stream."""
    request = json.loads(body)
    readings = request.pop("readings")
    table = pyarrow.table(readings).replace_schema_metadata({"request": json.dumps(request)})
    sink = pyarrow.BufferOutputStream()
    with pyarrow.ipc.new_stream(sink, table.schema) as writer:
        writer.write_table(table)
    return bytes(sink.getvalue())


def _column(limits: Bounds | None, pieces: int, chance: random.Random) -> list[float]:
    assert limits is not None
    low = float(limits.min if limits.min is not None else limits.max - 1)  # type: ignore[operator]
    high = float(limits.max if limits.max is not None else low + 1)
    middle, spread = (low + high) / 2, (high - low) / 8
    return [round(chance.gauss(middle, spread), 3) for _ in range(pieces)]
