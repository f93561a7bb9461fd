"""A catalogue file through `boltwright validate`: what the parts cost, what the client holds, how fast the report is.

Rows are invented. The client runs in a process of its own, against a service on the loopback.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

from .servers import HOST, service
from .table import Line

FEW, MANY, GOAL_MIB = 20_000, 100_000, 64
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


def lines() -> Iterator[Line]:
    """Yield the results."""
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
