"""Acceptance inspection of fasteners.

ISO 3269:2019, Table 1 (by lot size and category) and ISO 3269:2000 (by AQL, superseded, from memory).
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import NotStandardised, NotUnderstood, UnknownName
from ..standards import Row, rules
from .plan import SamplingPlan, SecondSample
from .risks import binomial_characteristic, characteristic_of_two, consumer_point, consumer_point_of_two, producer_point

EDITIONS = ("2000", "2019")
#: Category of the edition of 2019 for a characteristic group: 1 destructive and functional, 2 main dimensions, 3 rest.
CATEGORY_OF_GROUP = {"mechanical": 1, "dimension": 2, "thread": 2, "surface": 3, "marking": 3}
_SECOND = "one nonconforming piece in the first sample: take the second; accept if it holds none (one text)"
_STRICT = (
    "Two texts differ on a second sample in category 1; the stricter reading is used: any nonconforming piece rejects."
)
_SUPERSEDED = "Superseded by the edition of 2019; the plans are from memory."
_LENIENT = "Two texts differ on a second sample in category 1; the one that allows it is used, as asked for."


def iso_3269_2019(
    lot_size: int,
    group: str | None,
    category: int | None,
    fractions: tuple[Decimal, ...] = (),
    with_second: bool = False,
) -> SamplingPlan:
    """Return the plan of a lot for a characteristic group or category 1 to 3.

    ISO 3269:2019, Table 1. Two texts differ on a second sample in category 1; it has one where it is asked for. The
    curve and the risk are those of the plan asked for: `with_second` with the second sample, else of the first alone.

    Raises:
        NotUnderstood: neither group nor category. NotStandardised: category 3 below 51 pieces, a lot of one.
    """
    if category is None and group is None:
        raise NotUnderstood("ISO 3269 needs a group or a category", member="group", code="missing_member")
    category = CATEGORY_OF_GROUP[group] if category is None and group is not None else category
    table = rules("ISO 3269", holding="table_1").table("table_1")
    row = table.find_in_band(Decimal(lot_size))
    if row is None:
        raise NotStandardised(f"{table.cited} starts at 2 pieces", member="lot_size")
    if category == 3:
        if row.get("category_3_acceptance") is None:
            raise NotStandardised(
                f"{table.cited} gives no plan of category 3 for lots up to {row.number('lot_up_to')} pieces",
                member="category",
            )
        column, acceptance, second = "category_3", int(row.number("category_3_acceptance")), None
    else:
        column, acceptance = f"category_{category}_first", 0
        second = _second_sample(row, category) if category == 2 or with_second else None
    n = min(int(row.number(column)), lot_size)
    return SamplingPlan(
        scheme="ISO 3269",
        edition=table.standard.edition,
        lot_size=lot_size,
        sample_size=n,
        acceptance_number=acceptance,
        rejection_number=acceptance + 1,
        operating_characteristic=(
            characteristic_of_two(lot_size, n, second.sample_size, fractions)
            if with_second and second is not None
            else binomial_characteristic(lot_size, n, acceptance, fractions)
        ),
        producer_risk=None,
        consumer_risk=second.consumer_risk if with_second and second is not None else consumer_point(n, acceptance),
        basis=row.basis(column),
        second_sample=second,
        notices=() if category != 1 else (_STRICT,) if second is None else (_LENIENT,),
    )


def _second_sample(row: Row, category: int | None) -> SecondSample:
    first, second = (int(row.number(f"category_{category}_{name}")) for name in ("first", "second"))
    return SecondSample(second, _SECOND, consumer_point_of_two(first, second))


def iso_3269_2000(
    lot_size: int, group: str | None, aql: Decimal | None, acceptance: int, fractions: tuple[Decimal, ...] = ()
) -> SamplingPlan:
    """Return the plan for an AQL in percent and an acceptance number; the group gives the AQL where none is named.

    ISO 3269:2000, from memory.

    Raises:
        NotUnderstood: neither group nor AQL. UnknownName: the edition has no such plan.
    """
    facts, notices = rules("ISO 3269", "2000"), [_SUPERSEDED]
    if aql is None:
        row = facts.table("aql_by_group").find(group or "")
        if row is None:
            raise NotUnderstood(f"{facts.cited} needs a group or an aql", member="group", code="missing_member")
        aql, aql_of_c = row.number("grade_a_b"), row.number("grade_c")
        if aql_of_c != aql:
            notices.append(f"AQL {aql} is that of product grades A and B; for grade C ask with aql={aql_of_c}")
    plan = facts.table("sampling_plans").find(aql, Decimal(acceptance))
    if plan is None:
        known = ", ".join(f"{key[0]} with Ac {key[1]}" for key in facts.table("sampling_plans").rows)
        raise UnknownName(
            f"{facts.cited} has no plan for AQL {aql} with Ac {acceptance}; it has {known}",
            member="aql",
            code="invalid",
        )
    n = min(int(plan.number("n")), lot_size)
    return SamplingPlan(
        scheme="ISO 3269",
        edition=facts.edition,
        lot_size=lot_size,
        sample_size=n,
        acceptance_number=acceptance,
        rejection_number=acceptance + 1,
        operating_characteristic=binomial_characteristic(lot_size, n, acceptance, fractions),
        producer_risk=producer_point(n, acceptance, float(aql) / 100),
        consumer_risk=consumer_point(n, acceptance),
        basis=plan.basis("n"),
        notices=tuple(notices),
    )
