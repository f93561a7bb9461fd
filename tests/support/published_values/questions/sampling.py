"""Questions about sampling plans and their risks."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.quantities import Refusal
from boltwright_server.sampling import InspectedLot, acceptance_binomial, sampling_plan, switching
from boltwright_server.sampling.iso_2859_1 import plan_of_letter
from boltwright_server.sampling.probability import fraction_at

from ..check import Cells, Check
from ..comparison import Answer, Rounded


def plan_of_lot(row: Cells, check: Check) -> Answer:
    """The plan of a lot by ISO 2859-1."""
    asked = {"aql": Decimal(row["aql"]), "level": row["level"], "severity": row["severity"]}
    plan = sampling_plan("ISO 2859-1", int(row["lot_size"]), asked)
    return {
        "code_letter": plan.code_letter,
        "letter_used": plan.letter_used,
        "n": plan.sample_size,
        "acceptance_number": plan.acceptance_number,
        "rejection_number": plan.rejection_number,
    }


def code_letters(row: Cells, check: Check) -> Answer:
    """The code letter of a lot size in each inspection level that the row prints."""
    lot_size = int(row["lot_size"])
    return {
        level: sampling_plan("ISO 2859-1", lot_size, {"aql": Decimal("1.0"), "level": level}).code_letter
        for level in check.expected
    }


def plan_by_letter(row: Cells, check: Check) -> Answer:
    """The plan to which the arrows lead from a code letter, whatever the lot."""
    found = plan_of_letter(row["letter"], Decimal(row["aql"]), row["severity"])
    return {
        "letter_used": found.letter,
        "n": found.sample_size,
        "acceptance_number": found.acceptance_number,
        "rejection_number": found.acceptance_number + 1,
    }


def operating_characteristic(row: Cells, check: Check) -> Answer:
    """Probability of acceptance at the AQL, and the qualities accepted with 95, 50 and 10 percent."""
    n, acceptance = int(row["n"]), int(row["acceptance_number"])
    answer = {"acceptance_at_aql_percent": acceptance_binomial(n, acceptance, float(row["aql"]) / 100)}
    for percent in (95, 50, 10):
        answer[f"fraction_accepted_{percent}_percent"] = fraction_at(
            percent / 100, lambda fraction: acceptance_binomial(n, acceptance, fraction)
        )
    return {name: Rounded(100 * value) for name, value in answer.items()}


def plan_of_fasteners(row: Cells, check: Check) -> Answer:
    """A plan of ISO 3269 with the quality that it accepts with 10 percent, in percent."""
    asked = {name: Decimal(row[name]) for name in ("aql", "category") if name in row}
    asked |= {"acceptance_number": Decimal(row["Ac"])} if check.edition == "2000" else {}
    plan = sampling_plan("ISO 3269", int(row["lot_size"]), {**asked, "edition": check.edition})
    assert (plan.edition, plan.rejection_number) == (check.edition, plan.acceptance_number + 1)
    risk, refused, second = plan.consumer_risk, plan.producer_risk, plan.second_sample
    assert risk is not None
    return {
        "n": plan.sample_size,
        "acceptance_number": plan.acceptance_number,
        "second_n": None if second is None else second.sample_size,
        "accepted_at_aql_percent": None if refused is None else Rounded(100 - 100 * refused.value),
        "accepted_10_percent_at": Rounded(100 * risk.at),
    }


def plan_of_group(row: Cells, check: Check) -> Answer:
    """The plan of ISO 3269 for a group of characteristics; in the edition of 2000 with acceptance number 0."""
    asked = {"edition": check.edition, "group": row["group"]}
    asked |= {"acceptance_number": Decimal(0)} if check.edition == "2000" else {}
    plan = sampling_plan("ISO 3269", int(row["lot_size"]), asked)
    return {"n": plan.sample_size, "acceptance_number": plan.acceptance_number}


def switched(row: Cells, check: Check) -> Answer:
    """The severity of each of the lots and of the next one, with production steady."""
    lots = [InspectedLot(2000, int(number)) for number in row["nonconforming"].split()]
    steps = switching(lots, Decimal("1.0"), may_reduce=True)
    assert len(steps) == len(lots)
    following = "discontinue" if steps[-1].discontinue else steps[-1].next_severity
    return {"severities": f"{' '.join(step.severity for step in steps)} > {following}"}


def refusal(row: Cells, check: Check) -> Answer:
    """Whether a standard has a plan for a lot: the code of the refusal, or that it answers."""
    try:
        sampling_plan(
            "ISO 3269", int(row["lot_size"]), {"edition": check.edition, "category": Decimal(row["category"])}
        )
    except Refusal as refused:
        return {"answer": refused.code}
    return {"answer": "given"}


def zero_acceptance(row: Cells, check: Check) -> Answer:
    """The smallest sample that accepts a lot of the limiting quality with the consumer's risk at most."""
    asked = {name: Decimal(row[name]) for name in ("limiting_quality", "consumer_risk")}
    plan = sampling_plan("zero-acceptance", int(row["lot_size"]), asked)
    assert (plan.acceptance_number, plan.rejection_number) == (0, 1)
    assert plan.consumer_risk is not None
    return {"n": plan.sample_size, "accepted_percent": Rounded(100 * plan.consumer_risk.value)}


def second_sample_of_category_1(row: Cells, check: Check) -> Answer:
    """Both samples of category 1, where the second one is asked for."""
    asked = {"edition": check.edition, "category": Decimal(1), "second_sample": True}
    plan = sampling_plan("ISO 3269", int(row["lot_size"]), asked)
    assert plan.second_sample is not None
    return {"n": plan.sample_size, "second_n": plan.second_sample.sample_size}


QUESTIONS = {
    "sampling_refusal": refusal,
    "zero_acceptance": zero_acceptance,
    "switching": switched,
    "sampling_plan_of_group": plan_of_group,
    "second_sample_of_category_1": second_sample_of_category_1,
    "sampling_plan": plan_of_lot,
    "code_letters": code_letters,
    "sampling_plan_by_letter": plan_by_letter,
    "operating_characteristic": operating_characteristic,
    "sampling_plan_of_fasteners": plan_of_fasteners,
}
