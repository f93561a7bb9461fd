"""The gauge room of the invented plant: its measured gauges, each fit for use, worn, or out of its limits."""

from __future__ import annotations

import csv
from collections.abc import Callable, Sequence
from decimal import Decimal
from pathlib import Path

from boltwright import Client, MeasuredGauge

Table = Callable[[Sequence[Sequence[str]]], str]


def gauge_section(client: Client, data: Path, table: Table) -> tuple[str, bool]:
    """Return the section of the report, and whether every gauge is as gauges.csv expects; empty without that file."""
    if not (data / "gauges.csv").is_file():
        return "", True
    with (data / "gauges.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    found = client.gauge_sizes_check(
        MeasuredGauge(
            designation=row["designation"], gauge=row["gauge"], value=Decimal(row["measured"]), unit=row["unit"]
        )
        for row in rows
    ).gauges
    heads = ("gauge", "for", "id", "measured", "status", "remaining wear")
    lines: list[tuple[str, ...]] = [heads]
    remarks = []
    for row, one in zip(rows, found, strict=True):
        remaining = "-" if one.remaining_wear is None else f"{one.remaining_wear:g} {one.unit}"
        measured = f"{row['measured']} {row['unit']}"
        lines.append((row["gauge_number"], one.designation, one.gauge, measured, one.status, remaining))
        if one.status != "fit_for_use" or one.passes_outside:
            remarks.append(f"- {row['gauge_number']}: {' '.join(one.reasons)}")
    text = "\n\n".join(("## Gauge room", table(lines), "\n".join(remarks)))
    return text, [one.status for one in found] == [row["expected_status"] for row in rows]
