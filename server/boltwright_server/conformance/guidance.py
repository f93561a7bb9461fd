"""A minimum hardness that only guides: the proof load decides, and the hardness is judged by its maximum.

ISO 898-2:2012, clause 9.2: nuts that are not quenched and tempered, and their proof load. While that test was not
made, readings below the minimum are undecided; where it failed, or the purchaser gave it up or loosened it, the
minimum binds.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Literal

from ..specification import Characteristic
from .blocks import MOST_PIECES_LISTED
from .verdicts import CharacteristicVerdict, verdict_word
from .wording import clause, counted, named, of_pieces

Minimum = Literal["guides", "open", "binds"]


def minimum_of(
    characteristic: Characteristic,
    verdicts: Mapping[str, CharacteristicVerdict],
    needed: Mapping[str, int],
    given_up: Collection[str],
) -> Minimum:
    """Return what the minimum of a characteristic with guidance is worth.

    Args:
        needed: mandatory characteristic -> readings that it needs.
        given_up: ids that the purchaser dropped, made optional or loosened.
    """
    assert characteristic.guidance is not None
    id = characteristic.guidance.test
    found = verdicts.get(id)
    if id in given_up or (found is not None and found.nonconforming_count):
        return "binds"
    shown = found is not None and found.verdict == "conforming" and found.measured_count >= needed.get(id, 1)
    return "guides" if shown else "open"


def settled(one: CharacteristicVerdict, minimum: Minimum) -> CharacteristicVerdict:
    """Return the verdict on a characteristic once it is known what its minimum is worth."""
    failed, undecided, pieces = one.nonconforming_count, one.undecided_count, one.nonconforming_pieces
    if minimum == "guides" or not (one.guided_count or one.guided_undecided):
        return one
    if minimum == "open":
        undecided = one.guided_count + one.guided_undecided
        doubt = "because the minimum is guidance while the proof load holds, and that was not shown"
        return one._replace(
            verdict=verdict_word(one.measured_count, failed, undecided), undecided_count=undecided, doubt=doubt
        )
    failed, undecided = failed + one.guided_count, one.guided_undecided
    pieces = tuple(sorted((*pieces, *one.guided_pieces)))[:MOST_PIECES_LISTED]
    return one._replace(
        verdict=verdict_word(one.measured_count, failed, undecided),
        nonconforming_count=failed,
        undecided_count=undecided,
        nonconforming_pieces=pieces,
        truncated=failed > MOST_PIECES_LISTED,
    )


def guided_remark(one: CharacteristicVerdict) -> str:
    """Return what is said of pieces below a minimum that guides."""
    guidance, limits = one.characteristic.guidance, one.plan.limits
    assert guidance is not None
    assert limits is not None
    which = f"{counted(one.guided_undecided, 'piece')} not proved to reach"
    if one.guided_count:
        lies = "lies" if one.guided_count == 1 else "lie"
        which = f"{of_pieces(one.guided_count, one.measured_count, one.guided_pieces)} {lies} below"
    return (
        f"{named(one.id)}: {which} the minimum of {limits.min} {limits.unit} ({clause(limits.basis)}), which is "
        f"guidance while the proof load holds, as it does here ({clause(guidance.basis)})"
    )
