"""Chunked coding that is none (RFC 9112, clause 7.1) is a 400 at every endpoint, never a fault of the service."""

from __future__ import annotations

import json
import socket
import urllib.request
from collections.abc import Iterator

import pytest
from running_server import RunningServer, ready_options, running_server

LOT = b'{"designation":"ISO 4014 - M10x60 - 8.8","readings":{"length":[60.0]}}'
#: Every POST endpoint, with a media type that it reads.
PATHS = {
    "/v1/conformance": "application/json",
    "/v1/conformance/replay": "application/x-ndjson",
    "/v1/part-masters/validation": "text/csv",
    "/v1/part-masters/impact?from=ISO%204014&to=ISO%204016": "application/x-ndjson",
    "/v1/specification": "application/json",
    "/v1/gauge-sizes/check": "application/json",
    "/v1/capability": "application/json",
    "/v1/trend": "application/json",
}
SIZE = b"%x" % len(LOT)
#: What stands in place of chunks; nothing of it is chunked coding.
MALFORMED = {
    **{f"size {size!r}": size + b"\r\n" + LOT + b"\r\n0\r\n\r\n" for size in (
        b"zz", b"-1", b"+46", b"0x46", b" 46", b"4 6", b"46 46", b"46.0", b"4_6", b"\xc2\xb2", b"46\x00", b"\x0046",
        b"", b"g", b";a=b", b"46;\x00=1", b"46;a=\"x", b"46;=", b"4" * 5000, b"46\r46", b"'46'", b"{", b"1e1", b"46h",
    )},
    "no end of line behind a chunk": SIZE + b"\r\n" + LOT + b"0\r\n\r\n",
    "a line feed behind a chunk": SIZE + b"\r\n" + LOT + b"\n0\r\n\r\n",
    "a carriage return behind a chunk": SIZE + b"\r\n" + LOT + b"\rx0\r\n\r\n",
    "more than the size": SIZE + b"\r\n" + LOT + b"xx\r\n0\r\n\r\n",
    "less than the size": b"%x\r\n" % (len(LOT) + 1) + LOT + b"\r\n0\r\n\r\n",
    "a size that ends with a line feed": SIZE + b"\n" + LOT + b"\r\n0\r\n\r\n",
    "no chunks": LOT,
    "a trailer without a colon": SIZE + b"\r\n" + LOT + b"\r\n0\r\nno colon\r\n\r\n",
    "a trailer with a blank name": SIZE + b"\r\n" + LOT + b"\r\n0\r\n : x\r\n\r\n",
    "a trailer with a name of two words": SIZE + b"\r\n" + LOT + b"\r\n0\r\ntwo words: x\r\n\r\n",
    "a trailer of no bytes that are text": SIZE + b"\r\n" + LOT + b"\r\n0\r\n\x00\x01\r\n\r\n",
    "a trailer without end": SIZE + b"\r\n" + LOT + b"\r\n0\r\n" + b"a: b\r\n" * 20_000,
    "a size without end": b"4" * 10_000,
    "cut within a size": b"4",
    "cut within a chunk": SIZE + b"\r\n" + LOT[:10],
    "cut behind a chunk": SIZE + b"\r\n" + LOT + b"\r\n",
    "cut within the last chunk": SIZE + b"\r\n" + LOT + b"\r\n0\r\n",
    "cut before any": b"",
}  # fmt: skip


@pytest.fixture(scope="module")
def server() -> Iterator[RunningServer]:
    with running_server(*ready_options()) as started:
        yield started


def exchange(server: RunningServer, raw: bytes) -> tuple[int, bytes, bytes]:
    """Send bytes, end, and return status, head and body of the answer."""
    with socket.create_connection((server.host, server.port), timeout=20) as connection:
        connection.sendall(raw)
        connection.shutdown(socket.SHUT_WR)
        head, _, body = b"".join(iter(lambda: connection.recv(65536), b"")).partition(b"\r\n\r\n")
    return int(head.split()[1]), head, body


def head_of(path: str, *lines: str) -> bytes:
    media_type = PATHS[path]
    return "\r\n".join((f"POST {path} HTTP/1.1", "Host: x", f"Content-Type: {media_type}", *lines, "", "")).encode()


def test_the_variants_are_forty_and_more() -> None:
    assert len(MALFORMED) >= 40


@pytest.mark.parametrize("path", PATHS)
def test_malformed_chunks_are_a_400_with_a_problem_document(server: RunningServer, path: str) -> None:
    for name, chunks in MALFORMED.items():
        status, head, body = exchange(server, head_of(path, "Transfer-Encoding: chunked") + chunks)
        assert status == 400, (name, head, body)
        assert json.loads(body)["code"] in ("bad_request", "body_not_whole"), name
        assert b"\r\nConnection: close" in head, name
        assert b"\r\nX-Request-Id: " in head, name


def test_chunks_with_extensions_and_a_trailer_are_read(server: RunningServer) -> None:
    chunks = SIZE + b';a=b;c="d"\r\n' + LOT + b"\r\n000\r\nDigest: x\r\n\r\n"
    assert exchange(server, head_of("/v1/conformance", "Transfer-Encoding: chunked") + chunks)[0] == 200


@pytest.mark.parametrize(
    "lines",
    [
        ("Content-Length: 10", "Transfer-Encoding: chunked"),
        ("Transfer-Encoding: chunked", "Content-Length: 70"),
        ("Transfer-Encoding: gzip, chunked",),
        ("Transfer-Encoding: identity",),
        ("Content-Length: 10, 10",),
        ("Content-Length: 10", "Content-Length: 20"),
        ("Content-Length: -1",),
        ("Content-Length: 1e3",),
    ],
)
def test_lengths_that_contradict_each_other_are_refused(server: RunningServer, lines: tuple[str, ...]) -> None:
    """RFC 9112, clause 6.3: what is one body to one reader must not be two requests to the next."""
    status, _, body = exchange(server, head_of("/v1/conformance", *lines) + SIZE + b"\r\n" + LOT + b"\r\n0\r\n\r\n")
    assert (status, json.loads(body)["code"]) == (400, "bad_request")


def test_a_refusal_by_the_server_is_counted_and_keeps_its_id(server: RunningServer) -> None:
    def refused() -> float:
        with urllib.request.urlopen(f"{server.url}/metrics") as answer:
            lines = answer.read().decode().splitlines()
        name = 'boltwright_http_requests_total{method="any",route="unmatched",status="400"}'
        return sum(float(line.split()[1]) for line in lines if line.startswith(name))

    before = refused()
    lines = ("Transfer-Encoding: chunked", "X-Request-Id: night-job")
    _, head, _ = exchange(server, head_of("/v1/conformance", *lines) + b"zz\r\n")
    assert b"X-Request-Id: night-job" in head
    assert refused() == before + 1
