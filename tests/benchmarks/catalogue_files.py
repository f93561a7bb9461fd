"""A catalogue file through `boltwright validate`: as a user waits for it, what the parts cost, what the client holds.

Rows are invented. The client runs in a process of its own, against a service on the loopback. `cold` is the first run
against a service that has just been started, `warm` the next one with the same file; the catalogue is that of
`part_masters`, in which no two descriptions are worded alike.
"""

from __future__ import annotations

import csv
import os
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from tests.part_master_catalogue.generator import write

from .servers import HOST, Server, service
from .table import Line, middle_ratio

FEW, MANY, GOAL_MIB = 20_000, 100_000, 64
ROWS, SEED, ROUNDS, GOAL = 200_000, 1, 3, 18.0
_TEXTS = (
    "ISO 4014 M{d}x{l} 8.8",
    "HEX BOLT M{d}X{l} 8.8 ZN ISO4014",
    "DIN 933 M{d}x{l} 8.8",
    "NUT HEX M{d} CL10",
    "nothing of the kind",
)
_CLIENT = """
import resource, sys
from boltwright.command_line import main
main(sys.argv[1:])
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024, file=sys.stderr)
"""


class _Waited(NamedTuple):
    """Microseconds a row: what a user waits, and the processor time of client and service."""

    wall: float
    client: float
    service: float


def lines() -> Iterator[Line]:
    """Yield the results."""
    yield from _as_users_wait()
    with tempfile.TemporaryDirectory() as folder, service() as server:
        url, place = f"http://{HOST}:{server.port}", Path(folder)
        few, many = (_catalogue(place / f"{rows}.csv", rows) for rows in (FEW, MANY))
        _validate(few, url)
        began = time.perf_counter()
        at_few = _validate(few, url)
        in_parts = time.perf_counter() - began
        at_once = _at_once(few, url)
        yield Line(
            f"{FEW} CSV rows in parts, against one request", f"{in_parts:.1f} s", f"{at_once:.1f} s", in_parts / at_once
        )
        growth = _validate(many, url) - at_few
        name = f"memory of the client from {FEW} to {MANY} rows"
        yield Line(name, f"{growth:.1f} MiB", f"{GOAL_MIB} MiB", growth / GOAL_MIB, 1.0, at_least=False)


def _as_users_wait() -> Iterator[Line]:
    """Time the command on a file, cold and warm, against csv.DictReader that reads the file right before."""
    runs: dict[str, list[_Waited]] = {"cold": [], "warm": []}
    readers: dict[str, list[float]] = {"cold": [], "warm": []}
    with tempfile.TemporaryDirectory() as folder:
        catalogue, _ = write(Path(folder), SEED, ROWS)
        for _ in range(ROUNDS):
            with service() as server:
                for state in runs:
                    readers[state].append(_dict_reader(catalogue))
                    runs[state].append(_waited(catalogue, server))
    for state, waited in runs.items():
        wall, client, served = (sorted(times)[len(times) // 2] for times in zip(*waited, strict=True))
        ratio = middle_ratio([one.wall for one in waited], readers[state])
        reader = f"{sorted(readers[state])[ROUNDS // 2]:.1f} us a row"
        name = f"boltwright validate, {ROWS} rows, {state}, against csv.DictReader"
        yield Line(name, f"{wall:.1f} us a row", reader, ratio, GOAL, at_least=False)
        name = f"its processor time, {state}, against that of the service"
        yield Line(name, f"{client:.1f} us a row", f"{served:.1f} us a row", client / served)


def _dict_reader(catalogue: Path) -> float:
    began = time.perf_counter()
    with catalogue.open(encoding="utf-8", newline="") as file:
        rows = sum(1 for _ in csv.DictReader(file))
    return (time.perf_counter() - began) / rows * 1e6


def _waited(catalogue: Path, server: Server) -> _Waited:
    command = [sys.executable, "-m", "boltwright", "validate", str(catalogue), "--quiet", "--fail-on", "never"]
    before, began, served = os.times(), time.perf_counter(), server.cpu_seconds()
    address = f"http://{HOST}:{server.port}"
    subprocess.run([*command, "--url", address], capture_output=True, timeout=600, check=True)
    wall, after = time.perf_counter() - began, os.times()
    client = after.children_user + after.children_system - before.children_user - before.children_system
    return _Waited(*(one / ROWS * 1e6 for one in (wall, client, server.cpu_seconds() - served)))


def _catalogue(path: Path, rows: int) -> Path:
    with path.open("w", encoding="utf-8") as file:
        file.write("part_number,description,width across flats\n")
        for at in range(rows):
            text = _TEXTS[at % 5].format(d=(8, 10, 12, 16)[at % 4], l=20 + 5 * (at % 17))
            file.write(f"P{at},{text},{15 + at % 3}\n")
    return path


def _validate(path: Path, url: str) -> float:
    """Return the greatest resident memory of the client in MiB; its report is written too."""
    command = [sys.executable, "-c", _CLIENT, "validate", str(path), "--quiet", "--url", url]
    report = str(path.with_suffix(".html"))
    done = subprocess.run([*command, "--report", report], capture_output=True, text=True, timeout=300, check=True)
    return float(done.stderr.split()[-1])


def _at_once(path: Path, url: str) -> float:
    request = urllib.request.Request(
        f"{url}/v1/part-masters/validation", path.read_bytes(), {"Content-Type": "text/csv"}, method="POST"
    )
    began = time.perf_counter()
    with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(request, timeout=300) as answer:
        while answer.read(1 << 20):
            pass
    return time.perf_counter() - began
