"""A client that goes away in the middle of a body: a clean refusal, no half answer, and the service lives on."""

import gzip
import json
import socket
import struct
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator

import pytest
from running_server import RunningServer, environment, free_port, ready_options, stop

ROW = b'{"part_number":"%d","description":"HEX BOLT M10X60 8.8 ISO4014"}\n'
LINE = b"%d,HEX BOLT M10X60 8.8 ISO4014\r\n"
BODIES = {
    "text/csv": b"part_number,description\r\n" + b"".join(LINE % number for number in range(2000)),
    "application/x-ndjson": b"".join(ROW % number for number in range(2000)),
}
PATH = "/v1/part-masters/validation"


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[RunningServer]:
    """A service of one worker; when it ends its error stream may hold no error and no traceback."""
    host, port = "127.0.0.1", free_port()
    log = tmp_path_factory.mktemp("log") / "errors"
    command = [sys.executable, "-m", "boltwright_server", "--host", host, "--port", str(port), *ready_options()]
    with log.open("wb") as errors:
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=errors, env=environment())
        server = RunningServer(host, port, process.pid)
        for _ in range(600):
            if _lives(server):
                break
            time.sleep(0.05)
        try:
            yield server
        finally:
            stop(process)
    said = log.read_text(encoding="utf-8", errors="replace").splitlines()
    assert [line for line in said if "Traceback" in line or "[ERROR]" in line or "[CRITICAL]" in line] == []


def _lives(server: RunningServer) -> bool:
    try:
        with urllib.request.urlopen(f"{server.url}/livez", timeout=5) as answer:
            return answer.status == 200
    except OSError:
        return False


def _half(server: RunningServer, path: str, media_type: str, body: bytes, chunked: bool, coding: str) -> socket.socket:
    """Send the head and half of a body."""
    half = body[: len(body) // 2]
    connection = socket.create_connection((server.host, server.port), timeout=20)
    head = f"POST {path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\nContent-Type: {media_type}\r\n{coding}"
    if chunked:
        pieces = [
            b"%x\r\n%b\r\n" % (len(half[at : at + 5000]), half[at : at + 5000]) for at in range(0, len(half), 5000)
        ]
        connection.sendall(f"{head}Transfer-Encoding: chunked\r\n\r\n".encode() + b"".join(pieces) + b"1000\r\nbegun")
    else:
        connection.sendall(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + half)
    return connection


@pytest.mark.parametrize("chunked", [False, True])
@pytest.mark.parametrize("zipped", [False, True])
@pytest.mark.parametrize("media_type", BODIES)
def test_half_a_body_is_refused_and_never_taken_for_a_short_one(
    server: RunningServer, media_type: str, zipped: bool, chunked: bool
) -> None:
    body = gzip.compress(BODIES[media_type], mtime=0) if zipped else BODIES[media_type]
    coding = "Content-Encoding: gzip\r\n" if zipped else ""
    with _half(server, PATH, media_type, body, chunked, coding) as connection:
        connection.shutdown(socket.SHUT_WR)
        received = b"".join(iter(lambda: connection.recv(65536), b""))
    head, _, text = received.partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 400 ")
    found = json.loads(text)
    assert (found["code"], "ends too early" in found["detail"]) == ("body_not_whole", True)


def test_half_a_stream_of_readings_gives_no_verdict(server: RunningServer) -> None:
    body = b'{"designation":"ISO 4014 - M10x60 - 8.8"}\n' + b'{"readings":{"length":[60.0,59.9]}}\n' * 1000
    with _half(server, "/v1/conformance", "application/x-ndjson", body, False, "") as connection:
        connection.shutdown(socket.SHUT_WR)
        received = b"".join(iter(lambda: connection.recv(65536), b""))
    assert received.startswith(b"HTTP/1.1 400 ")


@pytest.mark.parametrize("reset", [False, True])
@pytest.mark.parametrize("chunked", [False, True])
@pytest.mark.parametrize("media_type", BODIES)
def test_a_client_that_vanishes_leaves_the_service_alive(
    server: RunningServer, media_type: str, chunked: bool, reset: bool
) -> None:
    for _ in range(4):
        connection = _half(server, PATH, media_type, BODIES[media_type], chunked, "")
        if reset:
            connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
        connection.close()
    assert _lives(server)


def test_a_client_that_does_not_wait_for_the_answer_leaves_the_service_alive(
    server: RunningServer,
) -> None:
    body = BODIES["text/csv"] * 3
    head = f"POST {PATH} HTTP/1.1\r\nHost: x\r\nContent-Type: text/csv\r\nContent-Length: {len(body)}\r\n\r\n"
    with socket.create_connection((server.host, server.port), timeout=20) as connection:
        connection.sendall(head.encode() + body)
        assert connection.recv(20).startswith(b"HTTP/1.1 200")
    assert _lives(server)
