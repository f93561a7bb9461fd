"""`boltwright judge`: the verdict on a CSV file of readings."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from ..conformance.conformance import conformance
from ..conformance.drawing import conformance_drawing
from ..readings import Column
from ..readings_file import parse_readings, read_readings
from ..transport import Connection

EXIT_CODES = {"accept": 0, "reject": 1, "incomplete": 2}
_HELP = """CSV file: the header holds characteristic ids, with a unit in brackets where it is not the standard's, as
tensile_load [kN]; one row a piece; an empty cell is not measured; true or pass, false or fail for yes-or-no results;
a column `piece` numbers the pieces from 1, `index` from 0. Exit code: 0 accept, 1 reject, 2 incomplete, 3 error."""


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add `judge` to the commands."""
    judge = commands.add_parser("judge", parents=[shared], epilog=_HELP)
    judge.add_argument("file", help="CSV file of readings, - for the standard input")
    judge.add_argument("--designation", required=True, help="as 'ISO 4014 - M10x60 - 8.8'")
    judge.add_argument("--lot-size", type=int)
    judge.add_argument("--decision-rule", help="simple (default), guarded, absolute or rounded")
    judge.add_argument("--edition", help="of the decision rule, as 2013")
    judge.add_argument("--fracture-rule", help="standard (default) or thread_only")
    judge.add_argument(
        "--uncertainty",
        action="append",
        default=[],
        metavar="ID=U",
        help="expanded uncertainty (k = 2) of a column, in the unit of its readings; once for each column",
    )
    judge.add_argument(
        "--drawing",
        action="append",
        default=[],
        metavar="ID=FILE",
        help="write the histogram of a measured column to an SVG file; once for each column",
    )
    judge.set_defaults(run=_judge)


def _judge(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    columns = parse_readings(sys.stdin.buffer.read()) if options.file == "-" else read_readings(options.file)
    rule = options.decision_rule
    if options.edition is not None:
        rule = {"rule": rule or "simple", "edition": options.edition}
    readings = _with_uncertainty(columns, options.uncertainty)
    found = conformance(
        connection,
        options.designation,
        readings,
        lot_size=options.lot_size,
        decision_rule=rule,
        fracture_rule=options.fracture_rule,
    )
    for id, file in (_named(one, "--drawing", "FILE.svg", columns) for one in options.drawing):
        conformance_drawing(connection, found, readings, id).save(file)
    return found, found.summary(), EXIT_CODES[found.verdict]


def _with_uncertainty(columns: dict[str, Column], given: Sequence[str]) -> dict[str, Column]:
    changed = dict(columns)
    for one in given:
        id, text = _named(one, "--uncertainty", "0.02", columns)
        try:
            changed[id] = replace(columns[id], expanded_uncertainty=float(text))
        except ValueError:
            raise ValueError(f"--uncertainty {one}: write it as {id}=0.02") from None
    return changed


def _named(given: str, option: str, example: str, columns: dict[str, Column]) -> tuple[str, str]:
    """Return column and value of ID=VALUE."""
    id, _, value = given.partition("=")
    if id not in columns:
        raise ValueError(f"{option} {given}: the file has no column {id!r}")
    if not value:
        raise ValueError(f"{option} {given}: write it as {id}={example}")
    return id, value
