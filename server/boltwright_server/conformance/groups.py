"""What the pieces of a group decide: within its acceptance number, over it, or a second sample is needed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from .sampling import GroupPlan
from .verdicts import CharacteristicVerdict

State = Literal["within", "over", "second_needed", "second_passed"]
#: A break where none may be is no matter of chance: no second sample makes up for it.
NEVER_RETESTED = "fracture_location"


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
    if any(one.id == NEVER_RETESTED for one in failed):
        return "over"
    complete = all(one.measured_count >= second.first + second.size for one in failed)
    return "second_passed" if complete else "second_needed"
