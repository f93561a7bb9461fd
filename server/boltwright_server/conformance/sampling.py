"""The sampling plan that each group of characteristics is judged by."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..quantities import Basis, NotUnderstood, Refusal
from ..sampling import sampling_plan
from ..specification import GROUPS
from .readings import Request

#: The group whose tests destroy their pieces; it has a plan of its own.
DESTRUCTIVE_GROUP = "mechanical"
NO_PLAN = Basis("common practice", "-", "no sampling plan named: acceptance number 0", "common practice", "memory")


@dataclass(frozen=True, slots=True)
class GroupPlan:
    """Sample size (None: as many as were sent, at least one) and acceptance number of a group."""

    sample_size: int | None
    acceptance_number: int
    basis: Basis
    plan: Mapping[str, Any] | None = None


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
    return GroupPlan(plan.sample_size, plan.acceptance_number, plan.basis, shown)
