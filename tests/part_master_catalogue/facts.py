"""The printed tables, read as text straight from the folders of facts: no engine stands between them and the truth."""

from __future__ import annotations

import csv
from decimal import Decimal
from functools import cache
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "server" / "boltwright_server" / "standards"
Row = dict[str, str]


@cache
def table(folder: str, name: str) -> tuple[Row, ...]:
    """Return the rows of one printed table."""
    with (FOLDER / folder / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


@cache
def _by_key(folder: str, name: str, *keys: str) -> dict[tuple[str, ...], Row]:
    return {tuple(row[key] for key in keys): row for row in table(folder, name)}


def lengths(low: str, high: str) -> list[str]:
    """Return the usual nominal lengths from `low` to `high` in mm. ISO 888:2012, Table 1."""
    found = [row["l"] for row in table("iso_888_2012", "table_1") if row["series"] == "usual"]
    return [one for one in found if Decimal(low) <= Decimal(one) <= Decimal(high)]


def bolt_load(kind: str, size: str, name: str) -> str | None:
    """Return the printed minimum `tensile` or `proof` load in N. ISO 898-1:2013, Tables 4 to 7."""
    tables = {"tensile": ("table_4", "table_6"), "proof": ("table_5", "table_7")}[kind]
    return _cell("iso_898_1_2013", tables["x" in size], size, name)


def nut_load(size: str, name: str) -> str | None:
    """Return the printed proof load in N. ISO 898-2:2012, Tables 4 and 5."""
    return _cell("iso_898_2_2012", "table_5" if "x" in size else "table_4", size, name)


def _cell(folder: str, name: str, size: str, column: str) -> str | None:
    row = _by_key(folder, name, "thread").get((size,))
    value = None if row is None else row.get(column)
    return None if value in (None, "-") else value


def bolt_property(row: str, d: Decimal, name: str) -> str | None:
    """Return a printed property of a bolt class, such as `HV_max`. ISO 898-1:2013, Table 3."""
    column = name + ("_d_le_16" if d <= 16 else "_d_gt_16") if name == "8.8" else name
    found = _by_key("iso_898_1_2013", "table_3", "property").get((row,))
    value = None if found is None else found.get(column)
    return None if value in (None, "-") else value


def inch_load(kind: str, d: Decimal, tpi: str, grade: str) -> str | None:
    """Return the printed `tensile` or `proof` load in lbf. SAE J429, load tables."""
    row = _by_key("sae_j429_2014", "loads", "grade", "d", "threads_per_inch").get((grade, f"{d:.4f}", tpi))
    value = None if row is None else row[kind]
    return None if value in (None, "-") else value


def deviation(pitch: str, position: str) -> int:
    """Return the fundamental deviation in um. ISO 965-1:2013, Table 1."""
    return int(_by_key("iso_965_1_2013", "table_1", "pitch")[(pitch,)][position])
