"""`python -m tests.benchmarks [GROUP ...]`, from the root of the project. Loopback only; some minutes."""

from __future__ import annotations

import os
import platform
import sys

from . import catalogue_files, in_process, over_http, part_masters, pieces, remembered, sdk, streams
from .table import HEADER

GROUPS = {
    "in_process": in_process,
    "over_http": over_http,
    "part_masters": part_masters,
    "pieces": pieces,
    "catalogue_files": catalogue_files,
    "sdk": sdk,
    "streams": streams,
    "remembered": remembered,
}


def main(names: list[str]) -> int:
    """Run the groups named, or all."""
    if unknown := [name for name in names if name not in GROUPS]:
        print(f"unknown group {unknown[0]}; known: {', '.join(GROUPS)}", file=sys.stderr)
        return 2
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, {platform.system()} {platform.machine()}")
    print(HEADER)
    for name in names or GROUPS:
        for line in GROUPS[name].lines():
            print(line, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
