"""Why a lot got its verdict: in order of weight, in plain sentences, with the clause."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..quantities import Basis, Bounds, cited
from ..specification import Characteristic
from .sampling import GroupPlan
from .tally import CharacteristicVerdict


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason; `characteristic` is None where it speaks of a whole group."""

    code: str
    characteristic: str | None
    group: str | None
    detail: str
    basis: Basis | None


def reasons_of(
    over: Sequence[str],
    by_group: dict[str, int],
    plans: dict[str, GroupPlan],
    missing: Sequence[str],
    verdicts: dict[str, CharacteristicVerdict],
    characteristics: dict[str, Characteristic],
) -> tuple[Reason, ...]:
    """Return the reasons, the heaviest first."""
    found = [_over(group, by_group[group], plans[group]) for group in over]
    found += [_nonconforming(verdict) for verdict in verdicts.values() if verdict.nonconforming_count]
    found += [_undecided(verdict) for verdict in verdicts.values() if verdict.undecided_count]
    found += [_missing(characteristics[id], verdicts.get(id), plans) for id in missing]
    if not found:
        found.append(Reason("all_conforming", None, None, "Every mandatory characteristic conforms.", None))
    return tuple(found)


def _over(group: str, count: int, plan: GroupPlan) -> Reason:
    return Reason(
        "acceptance_number_exceeded",
        None,
        group,
        f"Group {group}: {count} nonconforming piece(s), acceptance number {plan.acceptance_number}.",
        plan.basis,
    )


def _cited(basis: Basis) -> str:
    return f"{cited(basis.standard, basis.edition)}, {basis.clause}"


def _required(characteristic: Characteristic, limits: Bounds | None) -> str:
    if characteristic.kind != "measured" or limits is None:
        return "/".join(str(word).lower() for word in characteristic.allowed)
    low = "" if limits.min is None else f"at least {limits.min}"
    high = "" if limits.max is None else f"at most {limits.max}"
    return f"{' and '.join(part for part in (low, high) if part)} {limits.unit}".strip()


def _nonconforming(verdict: CharacteristicVerdict) -> Reason:
    characteristic, basis = verdict.characteristic, verdict.plan.basis
    pieces = ", ".join(str(piece) for piece in verdict.nonconforming_pieces[:5])
    more = " ..." if verdict.nonconforming_count > 5 else ""
    return Reason(
        "nonconforming",
        verdict.id,
        characteristic.group,
        f"{verdict.id}: {verdict.nonconforming_count} of {verdict.count} nonconforming (piece {pieces}{more}); "
        f"required: {_required(characteristic, verdict.plan.limits)} ({_cited(basis)}).",
        basis,
    )


def _undecided(verdict: CharacteristicVerdict) -> Reason:
    return Reason(
        "undecided",
        verdict.id,
        verdict.characteristic.group,
        f"{verdict.id}: {verdict.undecided_count} of {verdict.count} reading(s) prove neither conformity nor "
        f"nonconformity ({_cited(verdict.plan.basis)}).",
        verdict.plan.basis,
    )


def _missing(
    characteristic: Characteristic, verdict: CharacteristicVerdict | None, plans: dict[str, GroupPlan]
) -> Reason:
    needed = plans[characteristic.group].sample_size or 1
    count = 0 if verdict is None else verdict.count
    return Reason(
        "missing",
        characteristic.id,
        characteristic.group,
        f"{characteristic.id}: mandatory, {count} of {needed} reading(s) given ({_cited(characteristic.basis)}).",
        characteristic.basis,
    )
