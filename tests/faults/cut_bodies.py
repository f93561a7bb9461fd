"""Request bodies as an outside client writes them, ways to cut them, and what a refusal is. Loopback only."""

from __future__ import annotations

import gzip
import io
import json
import random
import socket
from collections.abc import Iterator
from dataclasses import dataclass

SECONDS = 20
BULK = "/v1/part-masters/validation"
ROW = {"description": "HEX BOLT M10X60 8.8 ISO4014"}
LOT = {"designation": "ISO 4014 - M10x60 - 8.8"}


@dataclass(frozen=True)
class Body:
    """A whole body that is answered with 200.

    `ends_itself`: its form tells its last byte, so that a shorter one is wrong whatever length was announced. Of Arrow
    that is the end-of-stream mark: a writer may leave it out, but nothing else tells a lot from half of it.
    `seams`: places where the form could end.
    """

    path: str
    media_type: str
    content: bytes
    ends_itself: bool
    zipped: bool = False
    seams: tuple[int, ...] = ()

    @property
    def headers(self) -> str:
        return f"Content-Type: {self.media_type}\r\n" + ("Content-Encoding: gzip\r\n" if self.zipped else "")


@dataclass(frozen=True)
class Cut:
    """How many bytes of a body are sent, and how its length is announced.

    `full`: the length of the whole, `short`: that of the part, `more`: 424 bytes more than the whole, `chunked`: not.
    """

    body: Body
    at: int
    announced: str

    @property
    def must_be_refused(self) -> bool:
        return self.announced != "short" or self.body.ends_itself


def plain_bodies() -> Iterator[Body]:
    rows = [{"part_number": f"A-{number}", **ROW} for number in range(120)]
    readings = {"width_across_flats": [15.9] * 300, "length": [60.0] * 299 + [70.0]}
    change = {"from": "DIN 933", "to": "ISO 4017"}
    for path, value in (
        (BULK, {"part_masters": rows}),
        ("/v1/part-masters/impact", {"change": change, "part_masters": rows}),
        ("/v1/conformance", {**LOT, "readings": readings}),
        ("/v1/capability", {"values": [15.8, 15.9, 15.85, 15.87] * 40, "min": 15.73, "max": 16.0, "subgroup_size": 5}),
        ("/v1/specification", {**LOT, "requirements": {"length": {"max": 60.4, "basis": {"document": "drawing 31"}}}}),
    ):
        yield Body(path, "application/json", json.dumps(value).encode(), ends_itself=True)
    lines = b"".join(json.dumps(row).encode() + b"\n" for row in rows)
    yield Body(BULK, "application/x-ndjson", lines, ends_itself=False)
    blocks = json.dumps(LOT).encode() + b"\n" + b'{"readings": {"length": [60.0, 59.9]}}\n' * 100
    yield Body("/v1/conformance", "application/x-ndjson", blocks, ends_itself=False)
    table = b"part_number,description\r\n" + b"".join(b"A-%d,ISO 4032 M10 8\r\n" % number for number in range(120))
    yield Body(BULK, "text/csv", table, ends_itself=False)


def bodies() -> list[Body]:
    """Every form, and those that may be gzip by the documents as gzip, too."""
    plain = list(plain_bodies())
    packed = [
        Body(one.path, one.media_type, gzip.compress(one.content, mtime=0), ends_itself=True, zipped=True)
        for one in plain
        if one.path == BULK and one.media_type in ("application/x-ndjson", "text/csv")
    ]
    return [*plain, *packed, *_arrow()]


def _arrow() -> Iterator[Body]:
    """Three record batches; what rejects the lot lies in the last of them."""
    try:
        import pyarrow as pa
    except ImportError:
        return
    schema = pa.schema([("length", pa.float64())], metadata={"request": json.dumps(LOT)})
    sink = io.BytesIO()
    seams = []
    with pa.ipc.new_stream(sink, schema) as writer:
        for value in (60.0, 60.1, 70.0):
            seams.append(sink.tell())
            writer.write_batch(pa.record_batch([pa.array([value] * 200)], schema=schema))
        seams.append(sink.tell())
    yield Body("/v1/conformance", "application/vnd.apache.arrow.stream", sink.getvalue(), True, seams=tuple(seams))


def cuts_of(whole: list[Body], count: int) -> Iterator[Cut]:
    """The same cuts in every run: places at random, and the last few bytes, where an end marker lies."""
    chance = random.Random(20261130)
    for number in range(count):
        body = whole[number % len(whole)]
        size = len(body.content)
        late = chance.random() < 0.3
        at = size - chance.randint(1, min(12, size - 1)) if late else chance.randrange(1, size)
        yield Cut(body, at, chance.choice(("full", "full", "short", "chunked")))


def cuts_at_seams(whole: list[Body]) -> list[Cut]:
    """Where the part looks whole: at each seam, and at the end with more bytes announced."""
    ways = ("full", "short", "chunked")
    at_seams = [Cut(body, at, way) for body in whole for at in body.seams for way in ways if at]
    ends = [Cut(body, len(body.content), way) for body in whole for way in ("more", "chunked")]
    return at_seams + ends


def send(host: str, port: int, message: bytes) -> bytes:
    """Send bytes, close the sending half, and return all that comes back."""
    with socket.create_connection((host, port), timeout=SECONDS) as connection:
        try:
            connection.sendall(message)
            connection.shutdown(socket.SHUT_WR)
        except OSError:
            pass  # The service may refuse, and close, before the end of what is sent.
        return b"".join(_received(connection))


def _received(connection: socket.socket) -> Iterator[bytes]:
    try:
        while piece := connection.recv(65536):
            yield piece
    except ConnectionError:
        return


def message(cut: Cut) -> bytes:
    part = cut.body.content[: cut.at]
    head = f"POST {cut.body.path} HTTP/1.1\r\nHost: loopback\r\nConnection: close\r\n{cut.body.headers}"
    if cut.announced == "chunked":
        pieces = [part[at : at + 700] for at in range(0, len(part), 700)]
        chunks = b"".join(b"%x\r\n%b\r\n" % (len(piece), piece) for piece in pieces)
        return f"{head}Transfer-Encoding: chunked\r\n\r\n".encode() + chunks
    length = {"full": len(cut.body.content), "short": cut.at, "more": len(cut.body.content) + 424}[cut.announced]
    return f"{head}Content-Length: {length}\r\n\r\n".encode() + part


def status(answer: bytes) -> int | None:
    """The status of an answer; None where the connection was closed without one."""
    return int(answer.split(b" ", 2)[1]) if answer.startswith(b"HTTP/1.") else None
