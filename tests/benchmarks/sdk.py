"""What the SDK adds to a request, and what a command takes before it asks for anything."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from typing import Any

import requests

from boltwright import Client

from .servers import HOST, service
from .table import Line, middle_ratio

ROUNDS, CALLS, GOAL = 15, 40, 1.25
_ASKED = ("ISO 4014 - M10x60 - 8.8", "ISO 4017 - M8x30 - 8.8", "ISO 4032 - M10 - 8", "ISO 4014 - M16x80 - 10.9")


def lines() -> Iterator[Line]:
    """Yield the results."""
    with service() as server, requests.Session() as session, Client(f"http://{HOST}:{server.port}") as client:
        url = f"{client.base_url}/v1/specification"
        yield from _look_ups(
            lambda asked: session.get(url, params={"designation": asked}).json(),
            lambda asked: client.specification(asked),
        )
    bare, started = (_started(program) for program in (["-c", "import argparse"], ["-m", "boltwright", "--help"]))
    yield Line("boltwright --help, against Python with argparse", f"{started:.0f} ms", f"{bare:.0f} ms", started / bare)


def _look_ups(bare: Callable[[str], Any], ours: Callable[[str], Any]) -> Iterator[Line]:
    wall: dict[Callable[[str], Any], list[float]] = {bare: [], ours: []}
    used: dict[Callable[[str], Any], list[float]] = {bare: [], ours: []}
    for _ in range(ROUNDS):
        for call in (bare, ours):
            began, before = time.perf_counter(), time.process_time()
            for at in range(CALLS):
                call(_ASKED[at % len(_ASKED)])
            wall[call].append((time.perf_counter() - began) / CALLS * 1e6)
            used[call].append((time.process_time() - before) / CALLS * 1e6)
    for name, times, goal in (("", wall, GOAL), (", processor time", used, None)):
        shown = [f"{sorted(times[call])[ROUNDS // 2]:.0f} us" for call in (ours, bare)]
        ratio = middle_ratio(times[ours], times[bare])
        title = f"SDK specification() against session.get().json(){name}"
        yield Line(title, shown[0], shown[1], ratio, goal, at_least=False)


def _started(program: list[str]) -> float:
    """Return the least processor time of some starts, in milliseconds."""
    found = []
    for _ in range(5):
        before = os.times()
        subprocess.run([sys.executable, *program], capture_output=True, check=True)
        after = os.times()
        found.append(after.children_user + after.children_system - before.children_user - before.children_system)
    return min(found) * 1e3
