"""A lot of a million pieces as NDJSON: the memory of the worker that judges it, and its time.

The stream is sent in chunks over the loopback, block by block, and ends after its last piece. Memory is the high-water
mark of resident memory, set back to what the idle process holds before the lot is sent.
"""

from __future__ import annotations

import http.client
import json
import time
from collections.abc import Iterator
from pathlib import Path

from . import lots
from .servers import HOST, Server, service
from .table import Line

PIECES, GOAL_MIB = 1_000_000, 64
#: Pieces of one line; a block of the larger size is what a client may send at most within some megabytes.
BLOCKS = (1_000, 20_000)
_SLOWEST_SECONDS = 120


def lines() -> Iterator[Line]:
    """Yield the results."""
    with service() as server:
        for size in BLOCKS:
            head, block = _head_and_block(size)
            _judge(server, head, block, 1)
            yield from _whole_lot(server, head, block, size)


def _whole_lot(server: Server, head: bytes, block: bytes, size: int) -> Iterator[Line]:
    blocks = PIECES // size
    idle = {pid: _reset_high_water(pid) for pid in server.workers()}
    began = time.perf_counter()
    answer = _judge(server, head, block, blocks)
    took = time.perf_counter() - began
    assert {one["count"] for one in answer["characteristics"].values()} == {PIECES}
    most = max(_mib(pid, "VmHWM") - before for pid, before in idle.items())
    name = f"10^6 pieces x 8 as NDJSON, blocks of {size}"
    yield Line(f"{name}: memory", f"{most:.1f} MiB", f"{GOAL_MIB} MiB", most / GOAL_MIB, 1.0, at_least=False)
    parsing = _time_of_parsing(block) * blocks
    yield Line(f"{name}: time", f"{took:.2f} s", f"{parsing:.2f} s", took / parsing)


def _head_and_block(size: int) -> tuple[bytes, bytes]:
    request = json.loads(lots.body(size))
    readings = request.pop("readings")
    return json.dumps(request).encode() + b"\n", json.dumps({"readings": readings}).encode() + b"\n"


def _judge(server: Server, head: bytes, block: bytes, blocks: int) -> dict[str, dict[str, dict[str, int]]]:
    connection = http.client.HTTPConnection(HOST, server.port, timeout=_SLOWEST_SECONDS)
    try:
        body = (head if at == 0 else block for at in range(blocks + 1))
        kind = {"Content-Type": "application/x-ndjson", "Transfer-Encoding": "chunked"}
        connection.request("POST", "/v1/conformance", body, kind, encode_chunked=True)
        answer = connection.getresponse()
        text = answer.read()
        assert answer.status == 200, text
        found: dict[str, dict[str, dict[str, int]]] = json.loads(text)
        return found
    finally:
        connection.close()


def _time_of_parsing(block: bytes) -> float:
    began = time.perf_counter()
    repeats = max(1, 2_000_000 // len(block))
    for _ in range(repeats):
        json.loads(block)
    return (time.perf_counter() - began) / repeats


def _reset_high_water(pid: int) -> float:
    """Set the high-water mark of a process back to what it holds, and return that."""
    Path(f"/proc/{pid}/clear_refs").write_text("5", encoding="ascii")
    return _mib(pid, "VmHWM")


def _mib(pid: int, name: str) -> float:
    for line in Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines():
        if line.startswith(name):
            return int(line.split()[1]) / 1024
    raise LookupError(name)
