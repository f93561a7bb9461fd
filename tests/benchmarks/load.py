"""A client that costs little: kept connections, prepared requests, answers read by their Content-Length."""

from __future__ import annotations

import multiprocessing
import socket
import threading
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from .servers import HOST, Server

PROCESSES, CONNECTIONS = 2, 8
#: Seconds between two connections: opened all at once, chance would give most of them to one of the workers.
APART = 0.02


@dataclass(frozen=True, slots=True)
class Load:
    """What one round showed."""

    rate: float
    cpu_microseconds: float


def get(target: str) -> bytes:
    """Return a GET request."""
    return f"GET {target} HTTP/1.1\r\nHost: {HOST}\r\nAccept: application/json\r\n\r\n".encode()


def post(target: str, body: bytes) -> bytes:
    """Return a POST request with a JSON body."""
    head = f"POST {target} HTTP/1.1\r\nHost: {HOST}\r\nContent-Type: application/json\r\nContent-Length: {len(body)}"
    return f"{head}\r\n\r\n".encode() + body


def ask(server: Server, request: bytes) -> bytes:
    """Send one request and return the body of its answer."""
    with socket.create_connection((HOST, server.port)) as connection:
        head, body = exchange(connection, request)
    assert head.startswith(b"HTTP/1.1 200"), head + body
    return body


def drive(server: Server, requests: Sequence[bytes], seconds: float, connections: int = CONNECTIONS) -> Load:
    """Send the requests in turn over kept connections for some seconds; every answer has to be a 200."""
    before, began = server.cpu_seconds(), time.perf_counter()
    processes = min(PROCESSES, connections)
    arguments = [(server.port, requests, seconds, connections // processes, start) for start in range(processes)]
    with multiprocessing.get_context("fork").Pool(processes) as pool:
        answered = sum(pool.starmap(_client, arguments))
    elapsed = time.perf_counter() - began
    return Load(answered / elapsed, (server.cpu_seconds() - before) / answered * 1e6)


def _client(port: int, requests: Sequence[bytes], seconds: float, connections: int, start: int) -> int:
    counts = [0] * connections
    until = time.perf_counter() + seconds

    def one(at: int) -> None:
        index = start * 7919 + at * 104729
        time.sleep(APART * (PROCESSES * at + start))
        with socket.create_connection((HOST, port)) as connection:
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            while time.perf_counter() < until:
                head, _ = exchange(connection, requests[index % len(requests)])
                assert head.startswith(b"HTTP/1.1 200"), head
                index, counts[at] = index + 1, counts[at] + 1

    threads = [threading.Thread(target=one, args=(at,)) for at in range(connections)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return sum(counts)


def exchange(connection: Any, request: bytes) -> tuple[bytes, bytes]:
    """Send a request and return head and body of its answer."""
    connection.sendall(request)
    received = b""
    while b"\r\n\r\n" not in received:
        piece = connection.recv(65536)
        if not piece:
            raise ConnectionError("the server closed the connection")
        received += piece
    head, body = received.split(b"\r\n\r\n", 1)
    length = int(head.lower().split(b"content-length:", 1)[1].split(b"\r\n", 1)[0])
    while len(body) < length:
        body += connection.recv(65536)
    return head, body
