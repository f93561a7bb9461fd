"""Rules of standards of which no table is held: `other_sources.csv` says where each stands and how it was checked."""

from __future__ import annotations

import csv
from pathlib import Path

from ..quantities import Basis
from ..quantities.keeper import remembered

OTHER_SOURCES = Path(__file__).with_name("other_sources.csv")


@remembered()
def _rules() -> dict[tuple[str, str], dict[str, Basis]]:
    """The bases by standard and clause, then by edition, the current one last."""
    found: dict[tuple[str, str], dict[str, Basis]] = {}
    with OTHER_SOURCES.open(encoding="utf-8", newline="") as file:
        for row in csv.DictReader(file):
            basis = Basis(**row)  # type: ignore[arg-type]  # a test holds the words of the file
            found.setdefault((basis.standard, basis.clause), {})[basis.edition] = basis
    return found


def other_source(standard: str, clause: str, edition: str | None = None) -> Basis:
    """Return the basis of a rule of a standard that is not held, of the edition named or else the current one.

    Raises:
        KeyError: the file has no such rule. That is a fault of the caller, not of a client.
    """
    editions = _rules()[standard, clause]
    return editions[edition or next(reversed(editions))]
