"""The sampling plan that each group of characteristics is judged by, and what its pieces decide.

A group is within its acceptance number, over it, or a second sample is needed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from ..quantities import Basis, NotUnderstood, Refusal, practice, stated_by_purchaser
from ..sampling import sampling_plan
from ..specification import GROUPS
from ..specification.characteristic import has_role
from .readings import Request, Retest
from .verdicts import CharacteristicVerdict
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


State = Literal["within", "over", "second_needed", "second_passed"]


@dataclass(slots=True)
class GroupCount:
    """Nonconforming pieces of a group, each counted once, and how many of them belong to the second sample."""

    pieces: int = 0
    in_second: int = 0

    def with_more(self, other: GroupCount) -> GroupCount:
        """Return the count with further pieces."""
        return GroupCount(self.pieces + other.pieces, self.in_second + other.in_second)

    def add(self, numbers: Sequence[int], plan: GroupPlan) -> None:
        """Count the nonconforming pieces of one block."""
        self.pieces += len(numbers)
        if plan.second is not None:
            self.in_second += sum(number >= plan.second.first for number in numbers)


def state_of(plan: GroupPlan, found: GroupCount, failed: Sequence[CharacteristicVerdict]) -> State:
    """Return what a group decides; `failed` are the verdicts on its characteristics with nonconforming pieces.

    No acceptance number makes up for what the lot has as a whole, such as its batch average. One nonconforming piece
    more than the plan accepts, in the first sample, may be made up for by a second sample without any, where the plan
    or the purchaser allows one.
    """
    second = plan.second
    if any(one.characteristic.of_lot for one in failed):
        return "over"
    if found.pieces <= plan.acceptance_number:
        return "within"
    if second is None or found.pieces > plan.acceptance_number + 1 or found.in_second:
        return "over"
    # A break where none may be is no matter of chance: no second sample makes up for it.
    if any(has_role(one.id, "never_retested") for one in failed):
        return "over"
    complete = all(one.measured_count >= second.first + second.size for one in failed)
    return "second_passed" if complete else "second_needed"
