"""One row for each thing that can be wrong with a part master: what is said of it, and what is proposed."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path

from boltwright import Client
from boltwright.part_masters.validation.answers import read_rows
from boltwright.part_masters.validation.run import validate_file
from boltwright.part_masters.validation.sources import source_of

Table = Callable[[Sequence[Sequence[str]]], str]


def every_finding_section(client: Client, data: Path, table: Table) -> str:
    """Return the section of `every_finding.csv`, read as a plant exports it; empty where there is no such file."""
    if not (data / "every_finding.csv").is_file():
        return ""
    with tempfile.TemporaryDirectory() as folder:
        findings = Path(folder) / "findings.csv"
        validate_file(client, source_of(data / "every_finding.csv"), findings, restart=True)
        rows = [
            (one["code"], one["severity"], one["detail"], _proposed(row["proposed"]))
            for row in read_rows(findings)
            for one in row["findings"]
        ]
    told = "Each row of `every_finding.csv` has one thing wrong with it; the last two columns are the answer."
    return "\n\n".join(
        ("## Every finding once", told, table([("code", "severity", "what is said", "proposed"), *rows]))
    )


def _proposed(members: dict[str, str]) -> str:
    return ", ".join(f"{name} {value}" for name, value in members.items())
