"""What is told of a lot: why it got its verdict, and what must be said beside it, in plain sentences with the clause.

Reasons stand in order of weight: what rejects comes first (what carries the load before what only measures), then what
was not proved, then what was not measured or not often enough, then what does not decide. Remarks speak of readings far
from the rest, of samples larger than their plan, and of slips of the pen: readings that would conform if the decimal
point or the unit were another; never judged by.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis
from ..quantities.keeper import remembered
from ..quantities.units import CODES, dimension, factor
from ..specification import GROUPS, Characteristic
from ..specification.characteristic import has_role, in_words, the_one
from ..standards import rules
from .characteristics import Deviation
from .column_plan import ColumnPlan
from .sampling import GroupCount, GroupPlan, State, plan_named
from .statistics import Statistics
from .verdicts import CharacteristicVerdict
from .wording import clause, counted, do_not_conform, doubt_of, named, pieces_named, read, required

#: Groups by what a mistake in them can do.
_BY_WEIGHT = ("mechanical", "thread", "dimension", "surface", "marking")


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason; `characteristic` is None where it speaks of a whole group."""

    code: str
    characteristic: str | None
    group: str | None
    detail: str
    basis: Basis | None


_ALL_CONFORMING = Reason(
    "all_conforming", None, None, "Every mandatory characteristic was measured and conforms.", None
)
_REJECTED, _UNDECIDED = "by its standard alone the lot is rejected", "its standard alone leaves it undecided"
_UNSEEN = "not all that its standard asks for was judged"
_GROUP_WORDS: Mapping[State, tuple[str, str]] = {
    "over": ("acceptance_number_exceeded", "more than the acceptance number {}"),
    "within": ("within_acceptance_number", "not more than the acceptance number {}"),
    "second_needed": ("second_sample_needed", "a second sample of {} is needed, and all of it has to conform"),
    "second_passed": ("second_sample_passed", "and the second sample of {} holds none"),
}


@dataclass(frozen=True, slots=True)
class Findings:
    """What the reasons are made of."""

    plans: Mapping[str, GroupPlan]
    counts: Mapping[str, GroupCount]
    states: Mapping[str, State]
    verdicts: Mapping[str, CharacteristicVerdict]
    missing: tuple[str, ...]
    characteristics: Mapping[str, Characteristic]
    #: The reason for each mandatory characteristic of which no reading is sent.
    absent: Mapping[str, Reason]


def reasons_of(
    found: Findings, verdict: str, conforms: bool | None, deviations: Sequence[Deviation], unseen: tuple[str, ...] = ()
) -> tuple[Reason, ...]:
    """Return the reasons, the heaviest first; those of an accepted lot say what was judged, and by which plan.

    `unseen` are ids that the standard asks for and the purchaser gave up, without readings.
    """
    reasons = _reasons(found)
    if verdict != "accept":
        return reasons
    why = _UNSEEN if unseen else _UNDECIDED if conforms is None else _REJECTED
    head = () if conforms else (_by_deviation(why, deviations),)
    return (*head, *reasons, *_in_doubt(found), _judged(found))


def _in_doubt(found: Findings) -> Iterator[Reason]:
    """Say on which limits an accept rests that nobody saw in print, or on which the sources disagree."""
    doubted = [(id, one.plan.basis) for id, one in found.verdicts.items() if doubt_of(one.plan.basis)]
    if doubted:
        detail = _doubts_told(tuple((id, doubt_of(basis)) for id, basis in doubted))
        yield Reason("limits_in_doubt", None, None, detail, doubted[0][1])


@remembered(256)
def _doubts_told(doubted: tuple[tuple[str, str], ...]) -> str:
    """Return "The verdict rests on limits in doubt: fracture location (from memory)."."""
    by_doubt: dict[str, list[str]] = {}
    for id, doubt in doubted:
        by_doubt.setdefault(doubt, []).append(in_words(id))
    told = "; ".join(f"{', '.join(held)} ({doubt})" for doubt, held in by_doubt.items())
    return f"The verdict rests on limits in doubt: {told}."


def _by_deviation(why: str, deviations: Sequence[Deviation]) -> Reason:
    basis = deviations[0].basis if deviations else None
    ids = ", ".join(dict.fromkeys(named(one.id).lower() for one in deviations)) or "its groups"
    detail = f"Accepted by deviation ({ids}): {why}. It carries no class mark, and no package text of the class."
    return Reason("accepted_by_deviation", None, None, detail, basis)


def _judged(found: Findings) -> Reason:
    """Say of each group how many pieces were judged, and by which plan."""
    spans: dict[str, tuple[int, int]] = {}
    for one in found.verdicts.values():
        if not one.characteristic.of_lot:
            count = one.measured_count
            few, many = spans.get(one.characteristic.group, (count, count))
            spans[one.characteristic.group] = (min(few, count), max(many, count))
    groups = tuple((group, *spans[group]) for group in _BY_WEIGHT if group in spans)
    plans = [found.plans[group] for group, _, _ in groups]
    named_plans = tuple("no sampling plan was named" if one.plan is None else clause(one.basis) for one in plans)
    return Reason("pieces_judged", None, None, _told(groups, named_plans), plans[0].basis if plans else None)


@remembered(256)
def _told(groups: tuple[tuple[str, int, int], ...], plans: tuple[str, ...]) -> str:
    """Return "Judged: thread 5 pieces, dimension 3 to 5 pieces (ISO 3269:2019, Table 1)."."""
    if not groups:
        return "Judged: no piece; only what the lot has as a whole."
    by_plan: dict[str, list[str]] = {}
    for (group, few, many), plan in zip(groups, plans, strict=True):
        pieces = counted(many, "piece") if few == many else f"{few} to {counted(many, 'piece')}"
        by_plan.setdefault(plan, []).append(f"{group} {pieces}")
    told = (f"{', '.join(held)} ({plan})" for plan, held in by_plan.items())
    return f"Judged: {'; '.join(told)}."


def _reasons(found: Findings) -> tuple[Reason, ...]:
    if not any(one.nonconforming_count or one.undecided_count for one in found.verdicts.values()):
        # The usual piece: nothing but what is missing can keep the lot from acceptance.
        return tuple(_missing(id, found) for id in found.missing) or (_ALL_CONFORMING,)
    by_weight = sorted(found.verdicts.values(), key=lambda one: _BY_WEIGHT.index(one.characteristic.group))
    failed = [one for one in by_weight if one.nonconforming_count]
    doubtful = [one for one in by_weight if one.undecided_count]
    rejecting = {group for group, state in found.states.items() if state == "over"}
    # Groups that their pieces reject, and not what the lot has as a whole.
    over = {group for group in rejecting if found.counts[group].pieces > found.plans[group].acceptance_number}
    deciding = [
        *(_of_group(group, found) for group in _BY_WEIGHT if group in over),
        *(_nonconforming(one) for one in failed if one.characteristic.group in rejecting),
        *(_of_group(group, found) for group in _BY_WEIGHT if found.states[group] == "second_needed"),
        *(_undecided(one) for one in doubtful if one.characteristic.mandatory),
        *(_missing(id, found) for id in found.missing),
        *(_of_group(group, found) for group in _BY_WEIGHT if _passes_with_failures(group, found)),
    ]
    beside = [
        *(_nonconforming(one) for one in failed if one.characteristic.group not in rejecting),
        *(_undecided(one) for one in doubtful if not one.characteristic.mandatory),
    ]
    return (*(deciding or (_ALL_CONFORMING,)), *beside)


def _passes_with_failures(group: str, found: Findings) -> bool:
    return found.counts[group].pieces > 0 and found.states[group] in ("within", "second_passed")


def _of_group(group: str, found: Findings) -> Reason:
    plan, fails = found.plans[group], do_not_conform(found.counts[group].pieces)
    code, rest = _GROUP_WORDS[found.states[group]]
    if plan.second is None or found.states[group] in ("within", "over"):
        rest, basis = rest.format(plan.acceptance_number), plan.basis
        return Reason(code, None, group, f"Group {group}: {fails}, {rest} ({plan_named(plan)}).", basis)
    rest, basis = rest.format(counted(plan.second.size, "piece")), plan.second.basis
    return Reason(code, None, group, f"Group {group}: {fails}, {rest} ({clause(basis)}).", basis)


def _nonconforming(verdict: CharacteristicVerdict) -> Reason:
    characteristic, plan = verdict.characteristic, verdict.plan
    which = f" ({pieces_named(verdict.nonconforming_pieces, verdict.nonconforming_count)})"
    fails = f"{do_not_conform(verdict.nonconforming_count, verdict.measured_count)}{which}"
    return Reason(
        "nonconforming",
        verdict.id,
        characteristic.group,
        f"{named(verdict.id)}: {'the lot does not conform' if characteristic.of_lot else fails}. "
        f"Required: {required(plan)}{read(verdict.statistics, plan.unit)} "
        f"({clause(plan.basis)}).",
        plan.basis,
    )


def _undecided(verdict: CharacteristicVerdict) -> Reason:
    plan = verdict.plan
    of = f"{verdict.undecided_count} of {counted(verdict.measured_count, 'piece')}"
    return Reason(
        "undecided",
        verdict.id,
        verdict.characteristic.group,
        f"{named(verdict.id)}: {of} undecided, {verdict.doubt or _guard_band(plan)} ({clause(plan.basis)}).",
        plan.basis,
    )


def _guard_band(plan: ColumnPlan) -> str:
    regions = plan.regions
    if regions is None or not regions.attainable:
        return "because the uncertainty is too large against the tolerance to prove that any piece conforms"
    edges = (regions.conforming_low, regions.conforming_high)
    low, high = (None if edge is None else f"{float(edge.at):.10g}" for edge in edges)
    proved = f"from {low}" if high is None else f"up to {high}" if low is None else f"from {low} to {high}"
    return f"because the stated uncertainty proves conformity only {proved} {plan.unit}"


def _missing(id: str, found: Findings) -> Reason:
    characteristic = found.characteristics[id]
    plan = found.plans[characteristic.group]
    count = found.verdicts[id].measured_count if id in found.verdicts else 0
    if not count or plan.sample_size is None:
        return found.absent[id]
    detail = (
        f"{named(id)}: the sample is too small to decide, {count} of {plan.sample_size} pieces ({plan_named(plan)})."
    )
    return Reason("sample_too_small", id, characteristic.group, detail, plan.basis)


def absent_reason(characteristic: Characteristic) -> Reason:
    """Return why a lot without a reading of a mandatory characteristic is incomplete."""
    detail = f"{named(characteristic.id)}: mandatory, and no reading was given ({clause(characteristic.basis)})."
    return Reason("missing", characteristic.id, characteristic.group, detail, characteristic.basis)


_BOLTS = "ISO 898-1"
_TENSILE_OUTRANKS = (
    "Core hardness: below its minimum while the tensile load holds. For bolts that can be pulled the tensile test "
    "outranks the minimum hardness ({}, clause 9.9, from memory; no print was seen, so the minimum is "
    "judged here): where the purchaser agrees, state it in requirements/" + the_one("core")
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
        if has_role(one.id, "core") and one.nonconforming_count and _is_softer_than_asked(one, verdicts):
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
    if has_role(verdict.id, "core") and verdict.plan.unit != "HV":
        yield (
            f"Core hardness: in a dispute the Vickers hardness on a section decides ({source}, clause 9.9, from "
            "memory), on its own limits"
        )


_POINTS = ((100, "two places"), (10, "one place"), (1000, "three places"))
#: A reading against one limit is likely up to this many times the limit, or down to this part of it.
_LIKELY = 3
_KINDS = ("length", "force", "stress")


def slip_of(plan: ColumnPlan, found: Statistics | None) -> str:
    """Return what the extreme reading outside the limits may have been meant to be; nothing where nothing fits."""
    low, high = plan.ends
    if found is None or (low is None and high is None) or plan.unit is None:
        return ""
    for reading in (found.max, found.min):
        value = Decimal(repr(reading))
        if value and not _within(value, low, high, False) and (told := _meant(value, plan)):
            return f"{reading:.15g} {plan.unit} would conform as {told}"
    return ""


def _meant(value: Decimal, plan: ColumnPlan) -> str:
    low, high = plan.ends
    for unit in _other_units(plan.unit or ""):
        step = factor(unit, plan.unit or "")
        if _within(value * step.numerator / step.denominator, low, high, True):
            return f"{value.normalize():f} {unit}"
    for times, places in _POINTS:
        for meant in (value / times, value * times):
            if _within(meant, low, high, True):
                return f"{meant.normalize():f} {plan.unit}, with the decimal point {places} away"
    return ""


def _other_units(unit: str) -> list[str]:
    """Units of the same kind that a reading may have been taken in."""
    kind = dimension(unit)
    return [code for code in CODES if code != unit and dimension(code) == kind] if kind in _KINDS else []


def _within(value: Decimal, low: Decimal | None, high: Decimal | None, likely: bool) -> bool:
    """Whether a reading conforms; against one limit a likely one is also not far beyond it."""
    if (low is not None and value < low) or (high is not None and value > high):
        return False
    if not likely or (low is not None and high is not None):
        return True
    return value <= low * _LIKELY if low is not None else high is not None and value * _LIKELY >= high
