"""What must be said of a lot beside its verdict: readings far from the rest, samples larger than their plan."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..specification import GROUPS
from ..standards import rules
from .sampling import GroupPlan, plan_named
from .slips import slip_of
from .verdicts import CharacteristicVerdict
from .wording import named, pieces_named

_BOLTS = "ISO 898-1"
_TENSILE_OUTRANKS = (
    "Core hardness: below its minimum while the tensile load holds. For bolts that can be pulled the tensile test "
    "outranks the minimum hardness ({}, clause 9.9, from memory; no print was seen, so the minimum is "
    "judged here): where the purchaser agrees, state it in requirements/hardness_core"
)


def remarks_of(plans: Mapping[str, GroupPlan], verdicts: Mapping[str, CharacteristicVerdict]) -> Iterator[str]:
    """Yield the sentences in the order of the characteristics, then of the groups."""
    for one in verdicts.values():
        far = [piece for piece in one.outlying_pieces or () if piece not in one.nonconforming_pieces]
        if far:
            lies = "lies" if len(far) == 1 else "lie"
            yield f"{named(one.id)}: {pieces_named(far, len(far))} {lies} far from the rest; judged like all others"
        if one.nonconforming_count and one.plan.basis.standard == _BOLTS:
            yield from _ways_out(one)
        if one.id == "hardness_core" and one.nonconforming_count and _is_softer_than_asked(one, verdicts):
            yield _TENSILE_OUTRANKS.format(rules(_BOLTS).cited)
        if one.nonconforming_count and (slip := slip_of(one.plan, one.statistics)):
            yield f"{named(one.id)}: {slip}; read again, and name the unit"
    for group in GROUPS:
        plan = plans[group]
        if plan.sample_size is None:
            continue
        counts = [one.measured_count for one in verdicts.values() if one.characteristic.group == group]
        most = max(counts, default=0)
        allowed = plan.sample_size + (plan.second.size if plan.second else 0)
        if 0 < allowed < most:
            yield (
                f"Group {group}: {most} pieces were read where the plan takes {allowed}; its acceptance number "
                f"{plan.acceptance_number} is that of {plan.sample_size} ({plan_named(plan)})"
            )


def _is_softer_than_asked(core: CharacteristicVerdict, verdicts: Mapping[str, CharacteristicVerdict]) -> bool:
    """Whether the core of a bolt lies below its minimum while the tensile test holds."""
    pulled, low = verdicts.get("tensile_load"), core.plan.doubles[0]
    soft = core.statistics is not None and low is not None and core.statistics.min < low
    return soft and pulled is not None and pulled.verdict == "conforming" and core.plan.basis.standard == _BOLTS


def _ways_out(verdict: CharacteristicVerdict) -> Iterator[str]:
    """What ISO 898-1 allows after a failure; it holds no retest of another kind."""
    source = rules(_BOLTS).cited
    if verdict.id == "proof_load_set":
        yield (
            "Set after the proof load: where straightness or measuring is in doubt, the test may be repeated once "
            f"with 3 % more load ({source}, clause 9.6, seen in one reproduction); send the first test as replaced"
        )
    if verdict.id == "hardness_core" and verdict.plan.unit != "HV":
        yield (
            f"Core hardness: in a dispute the Vickers hardness on a section decides ({source}, clause 9.9, from "
            "memory), on its own limits"
        )
