"""The judgement of a lot: every characteristic, then the lot by groups of pieces.

A lot is rejected when a group holds more nonconforming pieces than its acceptance number; otherwise it is incomplete
while anything mandatory is missing, short of its sample or undecided; otherwise it is accepted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..quantities import NotUnderstood, Refusal
from ..specification import GROUPS, Characteristic, specification
from .attribute import judge_attribute
from .characteristics import Judged, judged_characteristics, unknown
from .columns import check_columns, pieces_of
from .measured import Outcome, judge_measured
from .readings import Column, Request
from .reasons import Reason, reasons_of
from .sampling import GroupPlan, plans_of
from .statistics import Statistics, statistics
from .tensile import without_fracture_undecided

#: Piece numbers are listed up to this many; the counts are always whole.
MOST_PIECES_LISTED = 100


@dataclass(frozen=True, slots=True)
class CharacteristicVerdict:
    """What was found of one characteristic."""

    id: str
    verdict: str
    characteristic: Characteristic
    outcome: Outcome
    count: int
    nonconforming_count: int
    undecided_count: int
    nonconforming_pieces: tuple[int, ...]
    truncated: bool
    statistics: Statistics | None


@dataclass(frozen=True, slots=True)
class Judgement:
    """The verdict on a lot and everything behind it."""

    designation: str
    verdict: str
    characteristics: dict[str, CharacteristicVerdict]
    missing: tuple[str, ...]
    plans: dict[str, GroupPlan]
    nonconforming_by_group: dict[str, int]
    reasons: tuple[Reason, ...]
    notices: tuple[str, ...]
    dropped: dict[str, str]
    request: Request


def judge(request: Request) -> Judgement:
    """Judge a lot.

    Raises:
        Refusal: the designation, a column or a requirement cannot be judged; `member` says which.
    """
    wanted = specification(request.designation)
    judged = judged_characteristics(wanted, request)
    columns = _known_columns(request, judged)
    check_columns(request.columns, judged.characteristics)
    outcomes = {id: _outcome(judged.characteristics[id], column, columns, request) for id, column in columns.items()}
    outcomes = without_fracture_undecided(outcomes, columns)
    plans = plans_of(request)
    verdicts = {id: _verdict(judged.characteristics[id], columns[id], outcome) for id, outcome in outcomes.items()}
    missing = _missing(judged, verdicts, plans)
    by_group = _nonconforming_by_group(verdicts, columns, outcomes)
    over = [group for group, count in by_group.items() if count > plans[group].acceptance_number]
    verdict = _lot_verdict(over, missing, verdicts, judged)
    notices = [*wanted.notices, *judged.notices]
    for outcome in outcomes.values():
        notices.extend(outcome.notices)
    return Judgement(
        wanted.designation,
        verdict,
        verdicts,
        tuple(missing),
        plans,
        by_group,
        reasons_of(over, by_group, plans, missing, verdicts, judged.characteristics),
        tuple(notices),
        judged.dropped,
        request,
    )


def _known_columns(request: Request, judged: Judged) -> dict[str, Column]:
    if not request.columns:
        raise NotUnderstood("readings holds no column", member="readings", code="no_readings")
    for column in request.columns:
        if column.id not in judged.characteristics:
            raise unknown(column.id, judged.characteristics, f"readings/{column.id}")
        _check_kind(judged.characteristics[column.id], column)
    return {column.id: column for column in request.columns}


def _check_kind(characteristic: Characteristic, column: Column) -> None:
    measured = isinstance(column.values, np.ndarray)
    if measured is not (characteristic.kind == "measured"):
        raise Refusal(f"{column.id} is {characteristic.kind}", member=f"readings/{column.id}", code="wrong_type")


def _outcome(characteristic: Characteristic, column: Column, columns: dict[str, Column], request: Request) -> Outcome:
    if characteristic.kind != "measured":
        return judge_attribute(characteristic, column)
    rule = column.decision_rule or request.decision_rule
    return judge_measured(characteristic, column, rule, columns.get("hardness_core"))


def _verdict(characteristic: Characteristic, column: Column, outcome: Outcome) -> CharacteristicVerdict:
    bad = np.flatnonzero(outcome.nonconforming)
    undecided = int(outcome.undecided.sum())
    verdict = "nonconforming" if bad.size else "undecided" if undecided else "conforming"
    if not outcome.measured.any():
        verdict = "undecided"
    found = None
    if isinstance(column.values, np.ndarray):
        found = statistics(column.values, outcome.limits, outcome.unit)
    return CharacteristicVerdict(
        characteristic.id,
        verdict,
        characteristic,
        outcome,
        int(outcome.measured.sum()),
        int(bad.size),
        undecided,
        tuple(pieces_of(column, bad[:MOST_PIECES_LISTED])),
        bad.size > MOST_PIECES_LISTED,
        found,
    )


def _missing(judged: Judged, verdicts: dict[str, CharacteristicVerdict], plans: dict[str, GroupPlan]) -> list[str]:
    """Mandatory characteristics without readings, or with fewer than the sample of their group."""
    short = []
    for id, characteristic in judged.characteristics.items():
        needed = plans[characteristic.group].sample_size or 1
        count = verdicts[id].count if id in verdicts else 0
        if characteristic.mandatory and count < needed:
            short.append(id)
    return short


def _nonconforming_by_group(
    verdicts: dict[str, CharacteristicVerdict], columns: dict[str, Column], outcomes: dict[str, Outcome]
) -> dict[str, int]:
    """Count nonconforming pieces once per group. Destructive tests have pieces of their own."""
    pieces: dict[str, set[tuple[bool, int]]] = {group: set() for group in GROUPS}
    for id, verdict in verdicts.items():
        bad = np.flatnonzero(outcomes[id].nonconforming)
        if bad.size:
            characteristic = verdict.characteristic
            numbers = pieces_of(columns[id], bad)
            pieces[characteristic.group].update((characteristic.destructive, piece) for piece in numbers)
    return {group: len(found) for group, found in pieces.items()}


def _lot_verdict(
    over: list[str], missing: list[str], verdicts: dict[str, CharacteristicVerdict], judged: Judged
) -> str:
    if over:
        return "reject"
    undecided = any(
        verdict.undecided_count and judged.characteristics[id].mandatory for id, verdict in verdicts.items()
    )
    return "incomplete" if missing or undecided else "accept"
