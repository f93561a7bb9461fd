"""Clients that hold connections open: others are answered, and what is held ends after the stated time."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator

import pytest
from running_server import RunningServer, environment, free_port, ready_options, running_server

from .held_connections import HELD, held, slowest

BODY = b'{"designation":"ISO 4014 - M10x60 - 8.8","readings":{"length":[60.0,59.9]}}'
HEAD = b"POST /v1/conformance HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n"
LIMITS = ("header_seconds=2", "body_seconds=3", "silent_seconds=2", "json_bytes=100000")


@pytest.fixture(scope="module")
def server() -> Iterator[RunningServer]:
    """A service of one worker with four threads, which waits for two or three seconds."""
    with running_server(*ready_options(), *(word for limit in LIMITS for word in ("--limit", limit))) as started:
        yield started


def received(connection: socket.socket) -> bytes:
    return b"".join(iter(lambda: connection.recv(65536), b""))


@pytest.mark.parametrize("kind", HELD)
def test_others_are_answered_beside_ten_times_as_many_held_connections_as_threads(
    server: RunningServer, kind: str
) -> None:
    with held(server.host, server.port, 40, HELD[kind]):
        assert slowest(server.url, 2, patience=5.0) < 5.0


@pytest.mark.parametrize("kind", [kind for kind in HELD if kind != "silent"])
def test_what_is_held_is_told_so_and_ends(server: RunningServer, kind: str) -> None:
    with held(server.host, server.port, 3, HELD[kind]) as connections:
        for connection in connections:
            head, _, body = received(connection).partition(b"\r\n\r\n")
            assert head.startswith(b"HTTP/1.1 408 ")
            assert json.loads(body)["code"] == "request_timeout"


def test_a_silent_connection_ends_without_a_word(server: RunningServer) -> None:
    with held(server.host, server.port, 3, b"") as connections:
        assert [received(connection) for connection in connections] == [b""] * 3


@pytest.mark.parametrize("sent", [b"GET /livez HTTP/1.1\r\nHost: x\r\nX: ", HEAD % 1000])
def test_a_client_that_drips_ends_too(server: RunningServer, sent: bytes) -> None:
    began = time.monotonic()
    with socket.create_connection((server.host, server.port), timeout=0.3) as connection:
        connection.sendall(sent)
        answer = b""
        while not answer and time.monotonic() < began + 15:
            connection.sendall(b"a")
            try:
                answer = connection.recv(65536)
            except TimeoutError:
                continue
    assert answer.startswith(b"HTTP/1.1 408 ")


def test_an_answer_that_nobody_reads_holds_no_thread(server: RunningServer) -> None:
    """Each of the twelve answers is some megabytes; the service has four threads."""
    rows = b"part_number,description\r\n" + b"1,x\r\n" * 6000
    head = (
        b"POST /v1/part-masters/validation HTTP/1.1\r\nHost: x\r\nContent-Type: text/csv\r\nContent-Length: %d\r\n\r\n"
    )
    with held(server.host, server.port, 12, head % len(rows) + rows):
        assert slowest(server.url, 2, patience=20.0) < 20.0


@pytest.mark.parametrize("size", [100_001, 5_000_000])
def test_a_body_that_is_refused_unread_lets_the_client_read_why(server: RunningServer, size: int) -> None:
    """The connection is closed in words, so that no good request is sent into it."""
    with socket.create_connection((server.host, server.port), timeout=20) as connection:
        connection.sendall(HEAD % size + b"{" * size)
        head = received(connection)
    assert head.startswith(b"HTTP/1.1 413 ")
    assert b"\r\nConnection: close" in head


@pytest.mark.parametrize("media_type", ["text/plain", "application/json"])
def test_a_connection_that_was_not_closed_in_words_takes_the_next_request(
    server: RunningServer, media_type: str
) -> None:
    """A body of 90 kB is refused for its type, or for what it holds; then a good one comes on the same connection."""
    with socket.create_connection((server.host, server.port), timeout=20) as connection:
        for _ in range(3):
            bad = (HEAD % 90_000).replace(b"application/json", media_type.encode()) + b"{" * 90_000
            assert answer_on(connection, bad)[0] in (400, 415)
            status, body = answer_on(connection, HEAD % len(BODY) + BODY)
            assert (status, json.loads(body)["verdict"]) == (200, "incomplete")


def answer_on(connection: socket.socket, raw: bytes) -> tuple[int, bytes]:
    """Send a request and return the status and body of its answer, by its length."""
    connection.sendall(raw)
    data = b""
    while b"\r\n\r\n" not in data:
        piece = connection.recv(65536)
        assert piece, "the connection was closed"
        data += piece
    head, _, body = data.partition(b"\r\n\r\n")
    assert b"Connection: close" not in head
    length = int(head.split(b"Content-Length: ")[1].split(b"\r\n")[0])
    while len(body) < length:
        body += connection.recv(65536)
    return int(head.split()[1]), body


def test_a_stop_answers_what_has_arrived_and_a_dead_worker_is_replaced() -> None:
    port = free_port()
    command = [sys.executable, "-m", "boltwright_server", "--port", str(port), *ready_options()]
    process = subprocess.Popen(command, env=environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        first = wait_for_worker(process.pid, port)
        os.kill(first, signal.SIGKILL)
        assert wait_for_worker(process.pid, port, other_than=first) != first
        rows = b"part_number,description\r\n" + b"1,HEX BOLT M10X60 8.8 ISO4014 lot %d\r\n" * 4000
        head = "POST /v1/part-masters/validation HTTP/1.1\r\nHost: x\r\nContent-Type: text/csv\r\n"
        with socket.create_connection(("127.0.0.1", port), timeout=30) as connection:
            connection.sendall(f"{head}Content-Length: {len(rows)}\r\n\r\n".encode() + rows)
            time.sleep(0.3)
            process.terminate()
            answer = received(connection)
        assert answer.startswith(b"HTTP/1.1 200 ")
        assert answer.count(b"\r\n") > 4000
        assert process.wait(timeout=20) == 0
    finally:
        process.kill()
        process.wait()


def wait_for_worker(master: int, port: int, other_than: int = 0) -> int:
    """Return the worker of a master once the service answers."""
    until = time.monotonic() + 30
    while time.monotonic() < until:
        time.sleep(0.1)
        with open(f"/proc/{master}/task/{master}/children", encoding="ascii") as file:
            children = [int(child) for child in file.read().split()]
        if children and children[0] != other_than and slowest(f"http://127.0.0.1:{port}", 1, 5.0) < 5.0:
            return children[0]
    raise RuntimeError("no worker within 30 s")
