"""A catalogue of part masters, CSV in and CSV out with all findings, against csv.DictReader of the same file; memory.

Processor time of one process. The catalogue is the seeded one of `tests.part_master_catalogue`: no two rows ask for the
same but by a seeded fault, and every description is worded anew, so that nothing that was read can be used again. The
catalogue for the memory goes further: 2 000 000 part numbers and as many requirements, none twice.
"""

from __future__ import annotations

import csv
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from itertools import islice, product
from pathlib import Path

from tests.part_master_catalogue.generator import write

from .table import Line, middle_ratio

ROWS, SEED, ROUNDS = 200_000, 1, 3
SMALL, LARGE = 200_000, 2_000_000
_SIZES = ("5", "6", "8", "10", "12", "16", "20", "24", "30", "36", "42")
_CLASSES = ("5.6", "8.8", "9.8", "10.9")
#: Validates a file; prints the processor time and the greatest resident size in KiB. Starting Python is not counted.
_VALIDATE = """
import sys, time
from boltwright_server.web.part_masters.validation_stream import validate_csv
began = time.process_time()
with open(sys.argv[1], "rb") as rows, validate_csv(rows, None, None, {})[0] as answer:
    while answer.read(65536):
        pass
print(time.process_time() - began)
print(next(line.split()[1] for line in open("/proc/self/status") if line.startswith("VmHWM")))
"""


def lines() -> Iterator[Line]:
    """Yield the results."""
    with tempfile.TemporaryDirectory() as folder:
        catalogue, _ = write(Path(folder), SEED, ROWS)
        yield _speed(catalogue)
        yield _memory(Path(folder))


def _speed(catalogue: Path) -> Line:
    ours, theirs = [], []
    for _ in range(ROUNDS):
        theirs.append(_dict_reader(catalogue))
        ours.append(_validation(catalogue))
    ratio = middle_ratio(ours, theirs)
    shown = [f"{sorted(times)[len(times) // 2] / ROWS * 1e6:.1f} us a row" for times in (ours, theirs)]
    return Line("200 000 part masters, CSV to CSV, against csv.DictReader", shown[0], shown[1], ratio, 5.0, False)


def _dict_reader(catalogue: Path) -> float:
    began = time.process_time()
    with catalogue.open(encoding="utf-8", newline="") as file:
        rows = sum(1 for _ in csv.DictReader(file))
    took = time.process_time() - began
    assert rows == ROWS
    return took


def _validation(catalogue: Path) -> float:
    """In a process of its own: what one run remembers must not help the next."""
    said = subprocess.check_output([sys.executable, "-c", _VALIDATE, str(catalogue)], text=True)
    return float(said.split()[0])


def _memory(folder: Path) -> Line:
    small, large = (_resident(folder, rows) for rows in (SMALL, LARGE))
    shown = f"{large:.0f} MB", f"{small:.0f} MB"
    return Line("memory of 2 000 000 rows over 200 000, growth in MiB", *shown, large - small, 64.0, at_least=False)


def _resident(folder: Path, count: int) -> float:
    path = folder / "different.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        file.write("part_number,description\r\n")
        file.writelines(islice(_all_different(), count))
    return int(subprocess.check_output([sys.executable, "-c", _VALIDATE, str(path)], text=True).split()[1]) / 1024


def _all_different() -> Iterator[str]:
    """Yield rows of which no two have the same part number or ask for the same."""
    wanted = product(range(2000, 50_000), _SIZES, _CLASSES)
    for number, (length, size, name) in enumerate(wanted):
        yield f"A{number:07d},HEX BOLT ISO 4014 M{size}x{length / 100:.2f} {name}\r\n"
