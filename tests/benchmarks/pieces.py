"""Decisions on single pieces through HTTP: how long they take at a steady rate, beside other load."""

from __future__ import annotations

import json
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from urllib.parse import quote

from .load import ask, exchange, get, post
from .servers import HOST, Server, bare, service
from .table import Line

CONNECTIONS, RATE, SECONDS, GOAL = 16, 200, 15.0, 0.050
STATION = {"min": 8.862, "max": 8.994, "resolution": 0.001, "standard_deviation": 0.0165}
_TARGET = "/v1/piece-decision"
#: Other load: look-ups a second on connections of their own.
_OTHERS, _PAUSE = 2, 0.02
#: Seconds until both workers have started and know the code.
_WARM = 4.0


def lines() -> Iterator[Line]:
    """Yield the results."""
    with service() as ours:
        answer = ask(ours, post(_TARGET, _body(1, None)))
        measured(ours, _TARGET, _WARM)
        yield _line("single decision, 200 a second, p99 (goal 50 ms)", measured(ours, _TARGET))
        with _look_ups(ours):
            yield _line("the same beside 100 look-ups a second", measured(ours, _TARGET))
    with bare(answer) as other:
        measured(other, "/answer", _WARM)
        yield _line("a route that returns the same bytes, 200 a second", measured(other, "/answer"))


def _line(name: str, seconds: list[float]) -> Line:
    ordered = sorted(seconds)
    p99, middle = ordered[int(len(ordered) * 0.99)], ordered[len(ordered) // 2]
    return Line(name, f"{p99 * 1e3:.1f} ms", f"(p50 {middle * 1e3:.1f} ms)", p99 / GOAL, 1.0, at_least=False)


def measured(server: Server, target: str, seconds: float = SECONDS) -> list[float]:
    """Return how long each answer took after the moment when it was due; the rate does not wait for slow ones."""
    found: list[list[float]] = [[] for _ in range(CONNECTIONS)]
    began = time.perf_counter() + 0.5
    threads = [
        threading.Thread(target=_machine, args=(server.port, target, began, at, seconds, found[at]))
        for at in range(CONNECTIONS)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return [one for some in found for one in some]


def _machine(port: int, target: str, began: float, at: int, seconds: float, found: list[float]) -> None:
    """One machine: a piece every 80 ms, each with the state of the answer before."""
    state, number = None, 0
    with socket.create_connection((HOST, port), timeout=10) as connection:
        connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        due = began + at / RATE
        while due < began + seconds:
            number += 1
            body = _body(number, state)
            time.sleep(max(0.0, due - time.perf_counter()))
            head, answer = exchange(connection, post(target, body))
            found.append(time.perf_counter() - due)
            assert head.startswith(b"HTTP/1.1 200"), head + answer
            state = json.loads(answer)["state"]
            due += CONNECTIONS / RATE


def _body(number: int, state: str | None) -> bytes:
    reading = {"number": number, "value": round(8.928 + 0.001 * (number % 7 - 3), 3)}
    return json.dumps({"station": STATION, "readings": [reading], "state": state}).encode()


@contextmanager
def _look_ups(ours: Server) -> Iterator[None]:
    ended = threading.Event()
    request = get(f"/v1/specification?designation={quote('ISO 4014 - M10x60 - 8.8')}")

    def reader() -> None:
        with socket.create_connection((HOST, ours.port), timeout=10) as connection:
            while not ended.wait(_PAUSE):
                exchange(connection, request)

    threads = [threading.Thread(target=reader) for _ in range(_OTHERS)]
    for thread in threads:
        thread.start()
    try:
        yield
    finally:
        ended.set()
        for thread in threads:
            thread.join()
