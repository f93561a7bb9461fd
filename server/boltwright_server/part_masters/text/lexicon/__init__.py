"""The words of the trade as data: `terms.csv` (words to meanings) and `concepts.csv` (meanings to product standards).

Terms are English, German, French, Spanish and Italian; common practice, no trade names. A term of several words is
found before the words that it is made of.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from ....quantities.keeper import remembered

_HERE = Path(__file__).parent
#: Whatever a concept or the words do not say.
UNSAID = "-"


@dataclass(frozen=True, slots=True)
class Term:
    """What a word says: a feature (kind, drive, form, coating ...) and its value. `words` is how it is written."""

    feature: str
    value: str
    words: tuple[str, ...]
    language: str


@dataclass(frozen=True, slots=True)
class Concept:
    """A kind of product: features that name it, and the product standards that it may mean."""

    concept: str
    kind: str
    drive: str
    form: str
    variant: str
    thread_form: str
    series: str
    system: str
    products: tuple[str, ...]


def _rows(name: str) -> Iterator[dict[str, str]]:
    with (_HERE / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


@remembered()
def all_terms() -> tuple[Term, ...]:
    """Return every term in the order of the file."""
    rows = _rows("terms.csv")
    return tuple(Term(row["feature"], row["value"], tuple(row["term"].split()), row["language"]) for row in rows)


@remembered()
def terms() -> dict[str, Term]:
    """Return the terms of one word, in capitals without accents."""
    return {term.words[0]: term for term in all_terms() if len(term.words) == 1}


class Phrases(NamedTuple):
    """Terms of several words that begin with one word: by the words behind it, of which there are `longest` at most."""

    by_rest: dict[tuple[str, ...], Term]
    longest: int


@remembered()
def phrases() -> dict[str, Phrases]:
    """Return the terms of several words by their first word."""
    found: dict[str, dict[tuple[str, ...], Term]] = {}
    for term in all_terms():
        if len(term.words) > 1:
            found.setdefault(term.words[0], {}).setdefault(term.words[1:], term)
    return {first: Phrases(by_rest, max(map(len, by_rest))) for first, by_rest in found.items()}


@remembered(4096)
def kinds_in(words: tuple[str, ...]) -> tuple[Term, ...]:
    """Return the words of a phrase that say a kind by themselves."""
    known = (terms().get(word) for word in words)
    return tuple(term for term in known if term is not None and term.feature == "kind")


@remembered()
def concepts() -> tuple[Concept, ...]:
    """Return every kind of product in the order of the file."""
    return tuple(
        Concept(
            row["concept"],
            row["kind"],
            row["drive"],
            row["form"],
            row["variant"],
            row["thread_form"],
            row["series"],
            row["system"],
            tuple(row["products"].split(";")),
        )
        for row in _rows("concepts.csv")
    )


@remembered()
def implied(concept: str) -> dict[str, str]:
    """Return the features that a word for a whole concept implies: `SHCS` is a bolt with a socket in a cap head."""
    first = next(one for one in concepts() if one.concept == concept)
    said = {"kind": first.kind, "drive": first.drive, "form": first.form}
    return {feature: value for feature, value in said.items() if value != UNSAID}
