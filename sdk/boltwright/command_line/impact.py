"""`boltwright impact`: what a change of standard, edition or coating does to a catalogue of part masters."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from ..part_masters.validation.impact import ImpactTotals, impact_file
from ..part_masters.validation.parts import CSV
from ..tables import sections
from ..transport import Connection
from .look_ups import Outcome
from .progress import Progress
from .validate import Printed, add_catalogue, catalogue_of, counted, tell, written_to

_HELP = """A side is a standard ('ISO 4014', 'ISO 4014:2011', 'DIN 933') or a coating (tZn, Fe/Zn8, none). One line is
written for each row: what it would be called, every requirement before and after, or why it cannot be judged. Exit
code: 0 no part changes, 1 a part changes or has no counterpart, 2 none of these, but a part cannot be judged, 3 no
answer."""


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add `impact` to the commands."""
    wanted = commands.add_parser("impact", parents=[shared], epilog=_HELP)
    add_catalogue(wanted)
    wanted.add_argument(
        "--from", dest="before", required=True, metavar="SIDE", help="what parts have now, as 'DIN 933'"
    )
    wanted.add_argument("--to", dest="after", required=True, metavar="SIDE", help="what they are to have")
    wanted.add_argument("--out", type=Path, help="default: FILE.impact.csv; .ndjson where the catalogue is no CSV")
    wanted.set_defaults(run=_impact)


def _impact(connection: Connection, options: argparse.Namespace) -> Outcome:
    with catalogue_of(options) as source, Progress(source.total, source.unit, options.quiet) as progress:
        out = written_to(options, "impact.csv" if source.media_type == CSV else "impact.ndjson")
        totals = impact_file(connection, source, options.before, options.after, out, progress, options.workers)
    text = sections(
        f"{totals.rows} rows from {options.before} to {options.after}; in {out}", counted("effect", totals.effects)
    )
    tell(totals.columns.sentence() if totals.columns.told else None)
    found = {"rows": totals.rows, "effects": totals.effects, **totals.columns.members()}
    return Printed(json.dumps(found).encode()), text, exit_code(totals)


def exit_code(totals: ImpactTotals) -> int:
    """Return 1 where a part changes or has no counterpart, else 2 where one cannot be judged, else 0."""
    if totals.effects["changes"] or totals.effects["no_counterpart"]:
        return 1
    return 2 if totals.effects["not_judged"] else 0
