"""Single sampling plans indexed by AQL, lot by lot.

ISO 2859-1:1999, Tables 1 and 2-A to 2-C; risks by the binomial distribution.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, NotUnderstood, UnknownName
from ..standards import Row, rules
from .plan import SamplingPlan
from .risks import binomial_characteristic, consumer_point, producer_point

STANDARD = "ISO 2859-1"
LEVELS = ("S-1", "S-2", "S-3", "S-4", "I", "II", "III")
SEVERITIES = {"normal": "table_2_a", "tightened": "table_2_b", "reduced": "table_2_c"}
_SMALLEST_LOT = 2


def code_letter(lot_size: int, level: str) -> str:
    """Return the sample size code letter of a lot.

    ISO 2859-1:1999, Table 1.

    Raises:
        NotUnderstood: fewer than 2 pieces. UnknownName: no such inspection level.
    """
    if level not in LEVELS:
        raise UnknownName(
            f"no inspection level {level[:20]!r}; ISO 2859-1 has {', '.join(LEVELS)}", member="level", code="invalid"
        )
    table = rules(STANDARD).table("table_1")
    row = table.find_in_band(Decimal(lot_size))
    if row is None:
        raise NotUnderstood(f"{table.cited} starts at {_SMALLEST_LOT} pieces", member="lot_size", code="out_of_range")
    return row.word(level)


def aqls() -> tuple[str, ...]:
    """Return the AQL values of the tables in percent, as printed."""
    columns = rules(STANDARD).table("table_2_a").columns
    return tuple(name for name in columns if name not in ("letter", "n"))


def iso_2859_1(
    lot_size: int, aql: Decimal, level: str = "II", severity: str = "normal", fractions: tuple[Decimal, ...] = ()
) -> SamplingPlan:
    """Return the single plan of a lot; `aql` in percent nonconforming.

    ISO 2859-1:1999, Tables 1 and 2. Following an arrow changes the sample size and the acceptance number. Where the
    sample reaches the lot, every piece is inspected.

    Raises:
        UnknownName: a level, severity or AQL that the tables do not have.
    """
    letter = code_letter(lot_size, level)
    found = plan_of_letter(letter, aql, severity)
    n, acceptance = min(found.sample_size, lot_size), found.acceptance_number
    return SamplingPlan(
        scheme=STANDARD,
        edition=found.basis.edition,
        lot_size=lot_size,
        sample_size=n,
        acceptance_number=acceptance,
        rejection_number=acceptance + 1,
        operating_characteristic=binomial_characteristic(lot_size, n, acceptance, fractions),
        producer_risk=producer_point(n, acceptance, float(aql / 100)),
        consumer_risk=consumer_point(n, acceptance),
        basis=found.basis,
        code_letter=letter,
        letter_used=found.letter,
        notices=("The sample is the whole lot: inspect every piece.",) if n == lot_size else (),
    )


@dataclass(frozen=True, slots=True)
class LetterPlan:
    """The plan that the arrows lead to from a code letter."""

    letter: str
    sample_size: int
    acceptance_number: int
    basis: Basis


def plan_of_letter(letter: str, aql: Decimal, severity: str) -> LetterPlan:
    """Return the plan of a code letter, whatever the lot; `aql` in percent nonconforming.

    ISO 2859-1:1999, Tables 2-A to 2-C.

    Raises:
        UnknownName: an AQL or severity that the tables do not have.
    """
    row, column = _plan_row(letter, _column(aql), severity)
    return LetterPlan(str(row.key[0]), int(row.number("n")), int(row.word(column)), row.basis(column))


def _column(aql: Decimal) -> str:
    for name in aqls():
        if Decimal(name) == aql:
            return name
    raise UnknownName(
        f"AQL {aql} is none of ISO 2859-1: {', '.join(aqls())} percent; values between are not interpolated",
        member="aql",
        code="invalid",
        nearest=sorted(aqls(), key=lambda name: abs(Decimal(name) - aql))[:3],
    )


def _plan_row(letter: str, column: str, severity: str) -> tuple[Row, str]:
    """Follow the arrows of a column from the letter's row to a plan."""
    if severity not in SEVERITIES:
        raise UnknownName(
            f"no severity {severity[:20]!r}; it is {', '.join(SEVERITIES)}", member="severity", code="invalid"
        )
    rows = list(rules(STANDARD).table(SEVERITIES[severity]).rows.values())
    at = next(index for index, row in enumerate(rows) if row.key == (letter,))
    while rows[at].word(column) in ("up", "down"):
        at += -1 if rows[at].word(column) == "up" else 1
    return rows[at], column
