"""The words of the trade as data: `terms.csv` (word to meaning) and `concepts.csv` (meanings to product standards).

Terms are English, German, French, Spanish and Italian; common practice, no trade names.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

_HERE = Path(__file__).parent
#: Whatever a concept or the words do not say.
UNSAID = "-"


@dataclass(frozen=True, slots=True)
class Term:
    """What one word says: a feature (kind, drive, form, coating ...) and its value."""

    feature: str
    value: str


@dataclass(frozen=True, slots=True)
class Concept:
    """A kind of product: features that name it, and the product standards that it may mean."""

    concept: str
    kind: str
    drive: str
    form: str
    thread_form: str
    series: str
    system: str
    products: tuple[str, ...]


def _rows(name: str) -> Iterator[dict[str, str]]:
    with (_HERE / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


@cache
def terms() -> dict[str, Term]:
    """Return every word with its meaning, in capitals without accents."""
    return {row["term"]: Term(row["feature"], row["value"]) for row in _rows("terms.csv")}


@cache
def concepts() -> tuple[Concept, ...]:
    """Return every kind of product in the order of the file."""
    return tuple(
        Concept(
            row["concept"],
            row["kind"],
            row["drive"],
            row["form"],
            row["thread_form"],
            row["series"],
            row["system"],
            tuple(row["products"].split(";")),
        )
        for row in _rows("concepts.csv")
    )
