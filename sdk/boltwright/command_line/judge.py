"""`boltwright judge`: the verdict on a CSV file of readings."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from ..client import Client
from ..conformance import CharacteristicVerdict, Conformance
from ..readings import Column
from ..readings_file import parse_readings, read_readings
from ..values import cited
from .tables import Cell, aligned, listed, sections, words

EXIT_CODES = {"accept": 0, "reject": 1, "incomplete": 2}
_HELP = """CSV file: the header holds characteristic ids, with a unit in brackets where it is not the standard's, as
tensile_load [kN]; one row a piece; an empty cell is not measured; true or pass, false or fail for yes-or-no results;
a column `piece` numbers the pieces. Exit code: 0 accept, 1 reject, 2 incomplete, 3 error."""


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add `judge` to the commands."""
    judge = commands.add_parser("judge", parents=[shared], help="the verdict on a file of readings", epilog=_HELP)
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
    judge.set_defaults(run=_judge)


def _judge(client: Client, options: argparse.Namespace) -> tuple[Any, str, int]:
    content = parse_readings(sys.stdin.buffer.read()) if options.file == "-" else read_readings(options.file)
    rule = options.decision_rule
    if options.edition is not None:
        rule = {"rule": rule or "simple", "edition": options.edition}
    found = client.conformance(
        options.designation,
        _with_uncertainty(content, options.uncertainty),
        lot_size=options.lot_size,
        decision_rule=rule,
        fracture_rule=options.fracture_rule,
    )
    return found, verdict_text(found), EXIT_CODES[found.verdict]


def _with_uncertainty(columns: dict[str, Column], given: Sequence[str]) -> dict[str, Column]:
    changed = dict(columns)
    for one in given:
        id, _, text = one.partition("=")
        if id not in columns:
            raise ValueError(f"--uncertainty {one}: the file has no column {id!r}")
        try:
            changed[id] = replace(columns[id], expanded_uncertainty=float(text))
        except ValueError:
            raise ValueError(f"--uncertainty {one}: write it as {id}=0.02") from None
    return changed


def verdict_text(found: Conformance) -> str:
    """Return the verdict, what was found of each characteristic, and the reasons."""
    rule = found.decision_rule
    by = cited(rule.standard, rule.edition) if rule.standard and rule.edition else ""
    size = f", lot of {found.lot_size}" if found.lot_size else ""
    return sections(
        f"{found.designation}{size}\nVerdict: {found.verdict.upper()}   (decision rule {rule.rule}{by and ', ' + by})",
        characteristics_table(found),
        ("Reasons", listed(reason.detail for reason in found.reasons)),
        ("To note", listed(found.notices)),
    )


def characteristics_table(found: Conformance) -> str:
    """Return one line a characteristic: its verdict, how many readings, their extremes, and the limits."""
    rows: list[tuple[Cell, ...]] = [("", "", "readings", "nonconforming", "undecided", "lowest", "highest", "required")]
    rows += [_row(id, one) for id, one in found.characteristics.items()]
    return aligned(rows)


def _row(id: str, one: CharacteristicVerdict) -> tuple[Cell, ...]:
    undecided = one.undecided_count or None
    return (words(id), one.verdict, one.count, one.nonconforming_count, undecided, *_extremes(one), _required(one))


def _extremes(one: CharacteristicVerdict) -> tuple[str, str]:
    """Lowest and highest reading, with the decimals of the limit, or with more where they were read finer."""
    found = one.statistics
    if found is None:
        return "", ""
    same = one.limits is None or found.unit == one.limits.unit
    decimals = one.limits.decimals if one.limits and same else 0
    unit = "" if same else f" {found.unit}"
    finest = max(
        decimals, *(-int(Decimal(repr(value)).normalize().as_tuple().exponent) for value in (found.min, found.max))
    )
    return f"{found.min:.{finest}f}{unit}", f"{found.max:.{finest}f}{unit}"


def _required(one: CharacteristicVerdict) -> str:
    limits = "" if one.limits is None else str(one.limits)
    allowed = " or ".join("pass" if word is True else str(word) for word in one.allowed)
    return "; ".join(part for part in (allowed, limits) if part)
