"""Memory under rows that are all different: what a worker takes before, on the way, and behind them.

`python -m tests.benchmarks.remembered [--rows 2000000]`, from the root of the project; the group of the same name sends
200 000. Every row has a size, a class, a standard and words of its own, so that nothing that is remembered helps.
"""

from __future__ import annotations

import argparse
import random
import sys
import urllib.request
from collections.abc import Iterator, Sequence
from pathlib import Path

from .servers import HOST, service
from .table import Line

ROWS, OF_A_BODY = 200_000, 20_000
#: MB that a worker may take beyond what it took after the first body: the default of the limit `remembered_bytes`.
CEILING = 256


def lines() -> Iterator[Line]:
    """Yield the results."""
    sizes = list(memory(ROWS))
    name = f"memory of the largest worker behind {ROWS} distinct rows, against the first {OF_A_BODY}"
    yield Line(name, f"{sizes[-1]:.0f} MB", f"{sizes[0]:.0f} MB", sizes[-1] - sizes[0], CEILING, at_least=False)


def memory(rows: int) -> Iterator[float]:
    """Send distinct rows and yield the MB of the largest worker behind each body."""
    with service() as server:
        for first in range(0, rows, OF_A_BODY):
            asked = urllib.request.Request(
                f"http://{HOST}:{server.port}/v1/part-masters/validation", body(first), {"Content-Type": "text/csv"}
            )
            with urllib.request.urlopen(asked, timeout=600) as answer:
                while answer.read(1024 * 1024):
                    pass
            yield max(_resident(worker) for worker in server.workers())


def body(first: int) -> bytes:
    """Return rows that no other body has."""
    chance = random.Random(first)
    rows = []
    for number in range(first, first + OF_A_BODY):
        d, length = chance.uniform(1, 100), chance.uniform(1, 900)
        word = f"{chance.getrandbits(48):X}"
        rows.append(
            f"{number},HEX BOLT M{d:.3f}X{length:.2f} {chance.uniform(3, 13):.2f} ISO{number} DIN{number + 7} {word},"
            f"{chance.uniform(1, 99):.4f},EN ISO {number}-{number % 97}\r\n"
        )
    return b"part_number,description,length,standard\r\n" + "".join(rows).encode()


def _resident(pid: int) -> float:
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    return int(status.split("VmRSS:")[1].split()[0]) / 1024


def main(arguments: Sequence[str] | None = None) -> int:
    """Send rows and print the memory on the way; returns 1 where it exceeds the ceiling."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rows", type=int, default=2_000_000)
    options = parser.parse_args(arguments)
    first = last = 0.0
    for at, size in enumerate(memory(options.rows)):
        first, last = first or size, size
        print(f"{(at + 1) * OF_A_BODY:>9} rows: {size:.0f} MB", flush=True)
    return int(last - first > CEILING)


if __name__ == "__main__":
    sys.exit(main())
