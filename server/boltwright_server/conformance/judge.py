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
from .margin import margin
from .measured import Mask, Outcome, judge_measured
from .outliers import outliers
from .preparation import prepared
from .readings import Column, Request
from .reasons import Reason, reasons_of
from .risks import Risks, risks_of
from .sampling import GroupPlan, plans_of
from .statistics import Statistics, in_order, statistics
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
    margin: float | None
    outlying_pieces: tuple[int, ...]
    risks: Risks | None


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
    given = _known_columns(request, judged)
    check_columns(request.columns, judged.characteristics)
    columns, said = prepared(given, judged.characteristics)
    outcomes = {id: _outcome(judged.characteristics[id], column, columns, request) for id, column in columns.items()}
    outcomes = without_fracture_undecided(outcomes, columns)
    plans = plans_of(request)
    verdicts = {
        id: _verdict(judged.characteristics[id], columns[id], outcome, request) for id, outcome in outcomes.items()
    }
    missing = _missing(judged, verdicts, plans)
    by_group = _nonconforming_by_group(verdicts, columns, outcomes)
    over = [group for group, count in by_group.items() if count > plans[group].acceptance_number]
    verdict = _lot_verdict(over, missing, verdicts, judged)
    notices = [*wanted.notices, *judged.notices, *said]
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


def _verdict(
    characteristic: Characteristic, column: Column, outcome: Outcome, request: Request
) -> CharacteristicVerdict:
    bad = _pieces(column, outcome.nonconforming)
    undecided = [piece for piece in _pieces(column, outcome.undecided) if piece not in set(bad)]
    verdict = "nonconforming" if bad else "undecided" if undecided else "conforming"
    if not outcome.measured.any():
        verdict = "undecided"
    figures = _figures(column, outcome) if isinstance(column.values, np.ndarray) else (None, None, ())
    return CharacteristicVerdict(
        characteristic.id,
        verdict,
        characteristic,
        outcome,
        len(_pieces(column, outcome.measured)) if column.repeated else int(outcome.measured.sum()),
        len(bad),
        len(undecided),
        tuple(bad[:MOST_PIECES_LISTED]),
        len(bad) > MOST_PIECES_LISTED,
        *figures,
        risks_of(column, outcome) if request.risks else None,
    )


def _figures(column: Column, outcome: Outcome) -> tuple[Statistics | None, float | None, tuple[int, ...]]:
    """Statistics, margin and outlying pieces of measured readings."""
    values = column.values
    assert isinstance(values, np.ndarray)
    ordered = in_order(values)
    outlying = outliers(values, ordered)[:MOST_PIECES_LISTED]
    return (
        statistics(ordered, outcome.limits, outcome.unit),
        margin(ordered, outcome.limits, outcome.unit),
        tuple(pieces_of(column, outlying)),
    )


def _pieces(column: Column, mask: Mask) -> list[int]:
    """Piece numbers under a mask, each once."""
    at = np.flatnonzero(mask)
    return list(dict.fromkeys(pieces_of(column, at))) if at.size else []


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
