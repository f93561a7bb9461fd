"""`boltwright validate`: a catalogue of part masters, checked row by row."""

from __future__ import annotations

import argparse
import json
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any, cast

from ..part_masters.validation.parts import Source
from ..part_masters.validation.place import check_place
from ..part_masters.validation.report import write_report
from ..part_masters.validation.run import Totals, validate_file
from ..part_masters.validation.sources import source_of
from ..part_masters.validation.unpacked import STANDARD_INPUT, plain_name, unpacked
from ..tables import Cell, aligned, sections
from ..transport import Connection
from .look_ups import Outcome
from .progress import Progress

#: By the gravest finding, as far as `--fail-on` lets it count.
EXIT_CODES = {"error": 1, "warning": 2}
_COUNTED = {"warning": ("error", "warning"), "error": ("error",), "never": ()}
_HELP = """The catalogue is a CSV file (titles as members of /v1/part-masters/validation, or mapped by --columns),
NDJSON, or a spreadsheet (.xlsx, with the extra `spreadsheets`). Findings are written to a file of one line a row, .csv
or .ndjson, which is replaced when they are whole. A run that was interrupted goes on where it stopped when it is
started again. Columns that are not read are told on the error output. Exit code: 0 no row with an error or a warning,
1 a row with an error, 2 a row with a warning but none with an error, 3 no answer; --fail-on says which of them
count."""


@dataclass(frozen=True, slots=True)
class Printed:
    """What `--json` prints."""

    body: bytes


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add `validate` to the commands."""
    wanted = commands.add_parser("validate", parents=[shared], epilog=_HELP)
    add_catalogue(wanted)
    wanted.add_argument("--out", type=Path, help="findings, .csv or .ndjson (default: FILE.findings.csv)")
    wanted.add_argument("--report", type=Path, metavar="HTML", help="write a page with all findings, too")
    wanted.add_argument("--restart", action="store_true", help="begin anew instead of going on with an interrupted run")
    wanted.add_argument(
        "--fail-on",
        choices=("error", "warning", "never"),
        default="warning",
        help="the findings that make the exit code 1 or 2 (default: warning)",
    )
    wanted.set_defaults(run=_validate)


def add_catalogue(command: argparse.ArgumentParser) -> None:
    """Add what says which catalogue is read, and how."""
    command.add_argument("file", type=Path, help="CSV, .ndjson or .xlsx, also .gz; - for the standard input")
    command.add_argument("--encoding", help="of a CSV file, where it is not detected")
    command.add_argument("--delimiter", choices=("comma", "semicolon", "tab", "pipe"), help="of a CSV file")
    command.add_argument(
        "--columns", help="titles of a CSV file or spreadsheet as members: 'Artikel:part_number,Text:description'"
    )
    command.add_argument("--sheet", help="of a spreadsheet (default: the first)")
    command.add_argument("--quiet", action="store_true", help="show no progress")
    command.add_argument(
        "--workers",
        type=_workers,
        metavar="N",
        help="parts of the catalogue that are asked for at the same time (default: one a core, 8 at most)",
    )


def _workers(text: str) -> int:
    if not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"a whole number from 1 on, not {text!r}")
    return int(text)


@contextmanager
def catalogue_of(options: argparse.Namespace) -> Iterator[Source]:
    """Yield the catalogue that the options name."""
    with unpacked(options.file) as file:
        yield source_of(file, options.encoding, options.delimiter, options.columns, options.sheet)


def written_to(options: argparse.Namespace, ending: str) -> Path:
    """Return where the answer goes: beside the catalogue, if nothing else is said.

    Raises:
        ValueError: the catalogue arrives on the standard input and no file is named.
    """
    if options.out is None and str(options.file) == STANDARD_INPUT:
        raise ValueError("a catalogue from the standard input needs --out, the file for the answer")
    return cast(Path, options.out or options.file.with_name(f"{plain_name(options.file)}.{ending}"))


def _validate(connection: Connection, options: argparse.Namespace) -> Outcome:
    out = written_to(options, "findings.csv")
    if options.report is not None:
        check_place(options.report)
    with catalogue_of(options) as source, Progress(source.total, source.unit, options.quiet) as progress:
        totals = validate_file(
            connection, source, out, restart=options.restart, progress=progress, workers=options.workers
        )
    tell(totals.columns.sentence() if totals.columns.told else None, totals.begun_anew)
    if options.report is not None:
        write_report(out, totals, options.report, options.file.name, datetime.now().astimezone())
    found = {"rows": totals.rows, "statuses": totals.statuses, "codes": totals.codes, **totals.columns.members()}
    code = EXIT_CODES.get(totals.gravest or "", 0) if totals.gravest in _COUNTED[options.fail_on] else 0
    return Printed(json.dumps(found).encode()), totals_text(totals, out, options.report), code


def tell(*sentences: str | None) -> None:
    """Say on the error output what must not pass in silence."""
    for sentence in filter(None, sentences):
        print(f"boltwright: {sentence}", file=sys.stderr)


def totals_text(totals: Totals, out: Path, report: Path | None) -> str:
    """Return the rows by status and by finding."""
    return sections(
        f"{totals.rows} rows; findings in {out}" + (f", report in {report}" if report else ""),
        counted("status", totals.statuses),
        counted("finding", totals.codes),
    )


def counted(head: str, counts: Counter[str]) -> str:
    """Return counts as a table, the most frequent first."""
    rows: list[tuple[Cell, ...]] = [(name, count) for name, count in counts.most_common()]
    return aligned([(head, "rows"), *rows]) if rows else ""
