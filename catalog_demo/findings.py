"""The catalogue of the invented plant as `boltwright validate` sees it, and what a change of coating would do to it."""

from __future__ import annotations

import csv
from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path

from boltwright import Client
from boltwright.part_masters.validation.report import write_report
from boltwright.part_masters.validation.run import validate_file
from boltwright.part_masters.validation.sources import source_of

Table = Callable[[Sequence[Sequence[str]]], str]


def findings_section(client: Client, data: Path, page: Path, table: Table) -> str:
    """Write the findings beside the report, as CSV and as a page; return the section that leads there."""
    catalogue, findings = data / "part_masters.csv", page.with_suffix(".csv")
    totals = validate_file(client, source_of(catalogue), findings, restart=True)
    write_report(findings, totals, page, catalogue.name, datetime.now().astimezone())
    statuses = [("status", "rows"), *((name, str(count)) for name, count in totals.statuses.most_common())]
    files = f"{findings.name}, and {page.name} to be looked at in a browser"
    told = f"{totals.rows} rows through `boltwright validate`: {files}."
    return "\n\n".join(("## The catalogue as a whole", told, table(statuses), _galvanized(client, catalogue)))


def _galvanized(client: Client, catalogue: Path) -> str:
    """What becomes of every plain part that is to be hot-dip galvanized."""
    with catalogue.open(encoding="utf-8", newline="") as file:
        found = client.part_masters_impact("none", "tZn", list(csv.DictReader(file)))
    effects = ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in found.summary["effects"].items())
    first = next(one for one in found.part_masters if one.effect == "changes" and one.reasons)
    return f"If every plain part were hot-dip galvanized: {effects}. `{first.to_designation}`: {first.reasons[0]}."
