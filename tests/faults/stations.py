"""The large runs of the stations, by command, on the loopback; each is bounded and says what it found.

python -m tests.faults.stations writes [10000]      interrupted writes under a polling reader: torn images
python -m tests.faults.stations decisions [10000]   sequences through HTTP: online = offline = the plain rule
python -m tests.faults.stations in-process [1000000]   sequences in this process, in batches
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "support"))

from decided_alike import in_process, through_http
from interrupted_writes import interrupted_writes

_BATCH, _WRITES_A_CONTROLLER = 10_000, 1_000


def _writes(count: int) -> str:
    from controller import server

    taken = ended = done = 0
    while done < count:
        times = min(_WRITES_A_CONTROLLER, count - done)
        with server() as modbus:
            machine, whole = interrupted_writes(modbus, times, reads=(1, 8, 40)[done // times % 3], first=done + 1)
        taken, ended, done = taken + len(machine.taken), ended + whole, done + times
    return f"{done} writes, {ended} ended in use, {taken} images taken over by the machine, 0 torn"


def _decisions(count: int) -> str:
    import requests
    from tests.benchmarks.servers import HOST, service

    with service() as running, requests.Session() as session:
        session.trust_env = False

        def post(body: dict[str, Any]) -> dict[str, Any]:
            answer = session.post(f"http://{HOST}:{running.port}/v1/piece-decision", json=body, timeout=10)
            assert answer.status_code == 200, answer.text
            return dict(json.loads(answer.content))

        readings = through_http(post, 0, count)
    return f"{count} sequences through HTTP, {readings} readings, all equal"


def _in_process(count: int) -> str:
    readings = 0
    for first in range(0, count, _BATCH):
        readings += in_process(first, min(_BATCH, count - first))
        if first and first % (10 * _BATCH) == 0:
            print(f"  {first} sequences, {readings} readings", flush=True)
    return f"{count} sequences in process, {readings} readings, all equal"


_RUNS = {"writes": (_writes, 10_000), "decisions": (_decisions, 10_000), "in-process": (_in_process, 1_000_000)}


def main(arguments: list[str]) -> int:
    """Make the run named; returns the exit code."""
    if not arguments or arguments[0] not in _RUNS:
        print(__doc__, file=sys.stderr)
        return 2
    run, usual = _RUNS[arguments[0]]
    began = time.monotonic()
    said = run(int(arguments[1]) if len(arguments) > 1 else usual)
    print(f"{said}; {time.monotonic() - began:.0f} s")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
