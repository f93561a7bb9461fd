"""The sampling plan that each group of characteristics is judged by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from ..quantities import Basis, NotUnderstood, Refusal, practice, stated_by_purchaser
from ..sampling import sampling_plan
from ..specification import GROUPS
from .readings import Request, Retest
from .wording import clause

#: The group whose tests destroy their pieces; it has a plan of its own.
DESTRUCTIVE_GROUP = "mechanical"
NO_PLAN = practice("no sampling plan named: acceptance number 0")
#: ISO 898-1 and ISO 898-2 hold no retest plan (from memory); twice the number, all of which pass, is the habit.
_TWICE = 2


@dataclass(frozen=True, slots=True)
class SecondSample:
    """A second sample of `size` pieces after the `first` ones: one nonconforming piece among those, none in it."""

    first: int
    size: int
    basis: Basis


@dataclass(frozen=True, slots=True)
class GroupPlan:
    """Sample size (None: as many as were sent, at least one) and acceptance number of a group."""

    sample_size: int | None
    acceptance_number: int
    basis: Basis
    plan: Mapping[str, Any] | None = None
    second: SecondSample | None = None


def plans_of(request: Request) -> dict[str, GroupPlan]:
    """Return the plan of every group.

    Raises:
        NotUnderstood: a plan is asked for without a lot size.
        Refusal: the scheme refuses its parameters; the member is named below `sampling` or `sampling_destructive`.
    """
    plans = {}
    for group in GROUPS:
        member = "sampling_destructive" if group == DESTRUCTIVE_GROUP else "sampling"
        asked = request.sampling_destructive if group == DESTRUCTIVE_GROUP else request.sampling
        plans[group] = GroupPlan(None, 0, NO_PLAN) if asked is None else _plan(asked, request.lot_size, member, group)
    if request.retest is not None:
        plans[DESTRUCTIVE_GROUP] = _with_retest(plans[DESTRUCTIVE_GROUP], request.retest)
    return plans


def _plan(asked: Mapping[str, Any], lot_size: int | None, member: str, group: str) -> GroupPlan:
    if lot_size is None:
        raise NotUnderstood(f"{member} needs lot_size", member="lot_size", code="missing_member")
    parameters = {name: value for name, value in asked.items() if name != "scheme"}
    scheme = asked.get("scheme")
    if scheme == "ISO 3269" and "category" not in parameters:
        parameters.setdefault("group", group)
    try:
        plan = sampling_plan(str(scheme), lot_size, parameters)
    except Refusal as refusal:
        refusal.member = f"{member}/{refusal.member}" if refusal.member != "lot_size" else "lot_size"
        raise
    shown = {"scheme": plan.scheme, "edition": plan.edition, "code_letter": plan.code_letter, "lot_size": lot_size}
    found = GroupPlan(plan.sample_size, plan.acceptance_number, plan.basis, shown)
    if not parameters.get("second_sample") or plan.second_sample is None:
        return found
    return replace(found, second=SecondSample(plan.sample_size, plan.second_sample.sample_size, plan.basis))


def _with_retest(plan: GroupPlan, retest: Retest) -> GroupPlan:
    """Let the purchaser's agreement allow a retest of twice the first sample.

    Raises:
        NotUnderstood: neither a plan nor the request says how many pieces the first sample has.
    """
    first = retest.first_sample or plan.sample_size
    if first is None:
        raise NotUnderstood(
            "retest/first_sample is missing: without sampling_destructive nothing says where the retest begins",
            member="retest/first_sample",
            code="missing_member",
        )
    basis = stated_by_purchaser(
        retest.agreed_in,
        "retest of twice the first sample, all of which conform",
        note="ISO 898-1 and ISO 898-2 hold no retest plan; twice the number is common practice",
    )
    return replace(plan, second=SecondSample(first, _TWICE * first, basis))


def plan_named(plan: GroupPlan) -> str:
    """Return how a plan is cited: its standard with the table, or that none was named."""
    if plan.plan is None:
        return "no sampling plan was named, so none may fail"
    return clause(plan.basis)
