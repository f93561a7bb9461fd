"""Writes the demo's data: part masters, lots and their readings. All of it is invented; the seed is kept.

    python catalog_demo/make_data.py [folder]

Widths across flats of the part masters are those of ISO 272:1982; the three wrong ones are widths that older
standards used (common practice). What the readings scatter about is invented.
"""

from __future__ import annotations

import csv
import random
import sys
from collections.abc import Iterator
from pathlib import Path

import other_products
from lots import LOTS, Lot, Measured

HERE = Path(__file__).parent
SEED = 2601
WIDTHS = {"M5": 8, "M6": 10, "M8": 13, "M10": 16, "M12": 18, "M16": 24, "M20": 30, "M24": 36}
LENGTHS = {
    "M5": (25, 30, 40),
    "M6": (30, 40, 50),
    "M8": (40, 50, 60, 80),
    "M10": (45, 60, 80, 100),
    "M12": (50, 70, 80, 100),
    "M16": (65, 80, 100, 150),
    "M20": (80, 100, 120, 160),
    "M24": (90, 120, 160, 200),
}
FINE = {"M8": "x1", "M10": "x1.25", "M12": "x1.5", "M16": "x1.5", "M20": "x1.5", "M24": "x2"}
BOLTS = {
    "ISO 4014": "hexagon bolt",
    "ISO 4017": "hexagon screw",
    "ISO 8765": "hexagon bolt, fine",
    "ISO 8676": "hexagon screw, fine",
}
NUTS = {"ISO 4032": "hexagon nut", "ISO 8673": "hexagon nut, fine"}
#: (description, designation, stored width across flats): what goes wrong when figures are retyped from paper.
TROUBLED = (
    ("hexagon bolt M10x60 8.7", "ISO 4014 - M10x60 - 8.7", "16"),
    ("hexagon screw M11x30 8.8", "ISO 4017 - M11x30 - 8.8", "18"),
    ("hexagon bolt M10x61 8.8", "ISO 4014 - M10x61 - 8.8", "16"),
    ("hexagon nut M10", "ISO 4032 - M10", "16"),
    ("hexagon bolt M12 10.9", "ISO 4014 - M12 - 10.9", "18"),
    ("hexagon bolt M10x1.3x60 8.8", "ISO 8765 - M10x1.3x60 - 8.8", "16"),
    ("hexagon nut M12 fine 8", "ISO 8673 - M12 - 8", "18"),
    ("hexagon nut M10 9", "ISO 4032 - M10 - 9", "16"),
    ("hex bolt M8x40, zinc, 8.8", "hex bolt M8x40 8.8", "13"),
    ("hexagon bolt M16x30 8.8", "ISO 4014 - M16x30 - 8.8", "24"),
    ("hexagon screw M16x60 12.9", "ISO 4017 - M16x60 - 12.9", "24"),
    ("hexagon bolt M12x70 8.8", "DIN 931 - M12x70 - 8.8", "18"),
    ("hexagon screw M10x40 8.8", "ISO 4017 - M10x40 - 8.8", "17"),
    ("hexagon nut M12 8", "ISO 4032 - M12 - 8", "19"),
    ("hexagon bolt M14x70 8.8", "ISO 4014 - M14x70 - 8.8", "22"),
    # Spelt as people spell them, and right:
    ("hexagon bolt M10x60 8.8", "iso4014 m10×60 8.8", "16"),
    ("hexagon screw fine M10x1.25x40 10.9", "ISO 8676 - M10 x 1,25 x 40 - 10.9", "16"),
    ("hexagon screw M8x30 8.8", "ISO 4017 M8X30 8.8", "13"),
)


def part_masters(draw: random.Random) -> Iterator[tuple[str, str, str]]:
    """Yield description, designation and stored width across flats."""
    for standard, name in BOLTS.items():
        sizes = [size for size in WIDTHS if "fine" not in name or size in FINE]
        for _ in range(10):
            size = draw.choice(sizes)
            thread = size + (FINE[size] if "fine" in name else "")
            length, grade = draw.choice(LENGTHS[size]), draw.choice(("8.8", "8.8", "10.9"))
            yield f"{name} {thread}x{length} {grade}", f"{standard} - {thread}x{length} - {grade}", str(WIDTHS[size])
    for standard, name in NUTS.items():
        for size in draw.sample(sorted(FINE), 5):
            thread = size + (FINE[size] if "fine" in name else "")
            yield f"{name} {thread} 8", f"{standard} - {thread} - 8", str(WIDTHS[size])
    yield from TROUBLED


def write_part_masters(draw: random.Random, folder: Path) -> None:
    """Write part_masters.csv, the troubled ones among the others."""
    rows = list(dict.fromkeys(part_masters(draw)))
    draw.shuffle(rows)
    rows += other_products.PART_MASTERS
    with (folder / "part_masters.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("part_number", "description", "designation", "width_across_flats [mm]"))
        writer.writerows((f"TB-{4000 + 7 * at}", *row) for at, row in enumerate(rows))


def readings(draw: random.Random, lot: Lot) -> list[list[str]]:
    """Return header and rows of a lot's readings, its special ones put in."""
    rows = [["piece", *lot.columns]]
    for piece in range(1, lot.pieces + 1):
        cells = [_cell(draw, column, piece) for column in lot.columns.values()]
        rows.append([str(piece), *cells])
    for (piece, column), value in lot.special.items():
        rows[piece][1 + list(lot.columns).index(column)] = value
    return rows


def _cell(draw: random.Random, column: Measured | str, piece: int) -> str:
    if isinstance(column, str):
        word, _, most = column.partition(" of ")
        return word if not most or piece <= int(most) else ""
    value = draw.triangular(column.centre - column.spread, column.centre + column.spread)
    return f"{value:.{column.decimals}f}" if piece <= column.pieces else ""


def write_lot(draw: random.Random, lot: Lot, folder: Path) -> None:
    """Write lot.toml and readings.csv of one lot."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "lot.toml").write_text(lot.as_toml(), encoding="utf-8")
    with (folder / "readings.csv").open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(readings(draw, lot))


def write_shop_floor(draw: random.Random, folder: Path) -> None:
    """Write shop_floor.csv: pitch diameters of M10-6g in the order of production, as the dies of a roller wear."""
    with (folder / "shop_floor.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("piece", "thread_pitch_diameter"))
        writer.writerows((piece, f"{draw.gauss(8.915 + 0.00025 * piece, 0.006):.3f}") for piece in range(1, 101))


def main(folder: Path = HERE) -> None:
    """Write everything. One seed a file, so that a new lot leaves the others as they are."""
    write_part_masters(random.Random(SEED), folder)
    for lot in (*LOTS, *other_products.LOTS):
        write_lot(random.Random(f"{SEED} {lot.id}"), lot, folder / "lots" / lot.id)
    write_shop_floor(random.Random(f"{SEED} shop floor"), folder)


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:2]))
