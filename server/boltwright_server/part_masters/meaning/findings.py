"""What can be wrong with a part master: every code of `codes.csv`, and one finding of a row. Codes are stable."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, NamedTuple, cast

from ...quantities import Basis
from ...quantities.keeper import remembered

Severity = Literal["error", "warning", "notice"]


@dataclass(frozen=True, slots=True)
class Code:
    """One code: how grave it is, what it means, and what to do about it."""

    severity: Severity
    meaning: str
    remedy: str


@remembered()
def codes() -> dict[str, Code]:
    """Return every code by its name, in the order of `codes.csv`."""
    with Path(__file__).with_name("codes.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return {row["code"]: Code(cast(Severity, row["severity"]), row["meaning"], row["remedy"]) for row in rows}


CODES: dict[str, Code] = codes()
#: A row that contradicts itself is compared with no other.
CONTRADICTIONS = frozenset(("attribute-contradicts-description", "words-contradict"))


class Finding(NamedTuple):
    """One finding of one row. `right` is what the member would be, where nothing else can be meant.

    `mild`: a notice, though the code is graver.
    """

    code: str
    member: str
    given: str | None
    expected: str | None
    detail: str
    basis: Basis | None = None
    right: str | None = None
    mild: bool = False

    @property
    def severity(self) -> Severity:
        """How grave it is."""
        return "notice" if self.mild else CODES[self.code].severity


def status_of(findings: list[Finding]) -> str:
    """Return the status of a row with these findings."""
    if any(finding.code == "unreadable" for finding in findings):
        return "unreadable"
    severities = {finding.severity for finding in findings}
    if "error" in severities:
        return "invalid"
    return "questionable" if "warning" in severities else "valid"
