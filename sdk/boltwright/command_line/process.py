"""`boltwright capability` and `boltwright chart`: one column of a CSV file of readings, in the order of production."""

from __future__ import annotations

import argparse
import sys
from typing import Any

from ..readings import Column, values_of
from ..readings_file import parse_readings, read_readings
from ..statistics.capability import capability, capability_drawing
from ..statistics.control_chart import control_chart, control_chart_drawing
from ..transport import Connection

_ORDER = """The rows of the file stand in the order of production. Empty cells before and after the readings are passed
over; between them too where no subgroups are formed."""


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add both commands."""
    column = argparse.ArgumentParser(add_help=False)
    column.add_argument("file", help="CSV file of readings, - for the standard input")
    column.add_argument("column", help="the characteristic id at its head, as width_across_flats")
    column.add_argument("--subgroup-size", type=int, help="pieces in a subgroup")
    column.add_argument("--drawing", metavar="FILE", help="write the picture to this SVG file too")
    _add_capability(commands, [shared, column])
    _add_chart(commands, [shared, column])


def _add_capability(commands: Any, parents: list[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser("capability", parents=parents, epilog=_ORDER)
    parser.add_argument("--designation", help="the product whose limits count; or")
    parser.add_argument("--min", type=float, help="the limits themselves, in the unit of the readings")
    parser.add_argument("--max", type=float)
    parser.add_argument("--distribution", help="normal (default), log-normal, weibull or empirical")
    parser.set_defaults(run=_capability)


def _add_chart(commands: Any, parents: list[argparse.ArgumentParser]) -> None:
    parser = commands.add_parser(
        "chart",
        parents=parents,
        epilog=f"{_ORDER} Exit code: 0 in control, 1 a run rule fires, 3 error.",
    )
    parser.add_argument("--kind", help="mean_and_range (default), mean_and_standard_deviation or individuals")
    parser.add_argument("--rule-set", help="ISO 7870-2 (default) or ISO 8258")
    parser.set_defaults(run=_chart)


def _capability(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    values, unit = _column(options, (options.subgroup_size or 1) > 1)
    of: dict[str, Any] = {"min": options.min, "max": options.max}
    if options.designation is not None:
        of |= {"designation": options.designation, "characteristic": options.column}
    asked = {**of, "unit": unit, "subgroup_size": options.subgroup_size, "distribution": options.distribution}
    if options.drawing:
        capability_drawing(connection, values, title=None if options.designation else options.column, **asked).save(
            options.drawing
        )
    found = capability(connection, values, **asked)
    return found, found.summary(), 0


def _chart(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    values, unit = _column(options, options.kind != "individuals")
    asked = {"chart": options.kind, "subgroup_size": options.subgroup_size, "rule_set": options.rule_set}
    if options.drawing:
        title = options.column.replace("_", " ").capitalize()
        control_chart_drawing(connection, values, title=title, unit=unit, **asked).save(options.drawing)
    found = control_chart(connection, values, **asked)
    return found, found.summary(), 0 if found.in_control else 1


def _column(options: argparse.Namespace, in_subgroups: bool) -> tuple[list[Any], str | None]:
    """Return the readings of the column and their unit; a gap would shift all subgroups behind it."""
    columns = parse_readings(sys.stdin.buffer.read()) if options.file == "-" else read_readings(options.file)
    found: Column | None = columns.get(options.column)
    if found is None:
        raise ValueError(f"the file has no column {options.column!r}; it has {', '.join(columns)}")
    cells = values_of(found)
    read = [at for at, cell in enumerate(cells) if cell is not None]
    if in_subgroups and read and len(read) < read[-1] - read[0] + 1:
        row = next(at for at in range(read[0], read[-1]) if cells[at] is None) + 1
        raise ValueError(f"{options.column}: row {row} is empty, which would shift the subgroups behind it")
    return [cells[at] for at in read], found.unit
