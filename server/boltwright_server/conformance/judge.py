"""The judgement of a lot: every characteristic, then the lot by groups of pieces.

A lot is rejected when a group holds more nonconforming pieces than its acceptance number; otherwise it is incomplete
while anything mandatory is missing, short of its sample or undecided; otherwise it is accepted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..quantities import Contradiction, NotUnderstood, Refusal, member_path
from ..specification import GROUPS, Characteristic, specification
from .attribute import judge_attribute
from .characteristics import judged_characteristics, unknown
from .columns import check_columns
from .measured import Outcome, judge_measured
from .preparation import prepared
from .readings import Column, Request
from .reasons import Reason, reasons_of
from .rules import DecisionRule
from .sampling import GroupPlan, plans_of
from .surface_hardness import with_rise
from .tally import CharacteristicVerdict, Tally
from .tensile import without_fracture_undecided


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
    #: The decision rule of each characteristic, as resolved.
    rules: dict[str, DecisionRule]
    #: Blocks of readings; only a lot in one block has outliers and risks.
    blocks: int


def judge(request: Request) -> Judgement:
    """Judge a lot whose readings are all in the request.

    Raises:
        Refusal: the designation, a column or a requirement cannot be judged; `member` says which.
    """
    if not request.columns:
        raise NotUnderstood("readings holds no column", member="readings", code="no_readings")
    lot = LotJudge(request)
    lot.add(request.columns)
    return lot.verdict()


class LotJudge:
    """Judges a lot block by block, in bounded memory. `request` says everything but the readings."""

    def __init__(self, request: Request) -> None:
        """Prepare; raises what `judge` raises of designation, requirements and plans."""
        self._request = request
        self._wanted = specification(request.designation)
        self._judged = judged_characteristics(self._wanted, request)
        self._plans = plans_of(request)
        self._tallies: dict[str, Tally] = {}
        self._settings: dict[str, tuple[object, ...]] = {}
        self._rules: dict[str, DecisionRule] = {}
        self._blocks = 0
        self._by_group = dict.fromkeys(GROUPS, 0)
        self._pieces_before = {False: 0, True: 0}
        self._notices: dict[str, None] = dict.fromkeys((*self._wanted.notices, *self._judged.notices))

    @property
    def blocks(self) -> int:
        """Blocks judged so far."""
        return self._blocks

    def add(self, given: tuple[Column, ...]) -> None:
        """Judge one block of columns; its pieces follow those of the block before.

        Raises:
            Refusal: a column cannot be judged, or its settings differ from those of an earlier block.
        """
        characteristics = self._judged.characteristics
        for column in given:
            self._check(column)
        # The specification's order, not the request's: the order of JSON members must not change an answer's bytes.
        given = tuple(sorted(given, key=lambda column: list(characteristics).index(column.id)))
        check_columns(given, characteristics)
        columns, said = prepared({column.id: column for column in given}, characteristics)
        outcomes = {id: self._outcome(column, columns) for id, column in columns.items()}
        outcomes = without_fracture_undecided(outcomes, columns)
        self._count(columns, outcomes)
        self._advance(given)
        for notice in [*said, *(notice for outcome in outcomes.values() for notice in outcome.notices)]:
            self._notices.setdefault(notice)

    def _advance(self, given: tuple[Column, ...]) -> None:
        """Number the pieces of the next block after those of this one."""
        self._blocks += 1
        lengths = {False: 0, True: 0}
        for column in given:
            self._rules[column.id] = column.decision_rule or self._request.decision_rule
            destructive = self._judged.characteristics[column.id].destructive
            lengths[destructive] = max(lengths[destructive], len(column.values))
        for destructive, length in lengths.items():
            self._pieces_before[destructive] += length

    def _check(self, column: Column) -> None:
        characteristics = self._judged.characteristics
        if column.id not in characteristics:
            raise unknown(column.id, characteristics, member_path("readings", column.id))
        kind = characteristics[column.id].kind
        if isinstance(column.values, np.ndarray) is not (kind == "measured"):
            raise Refusal(f"{column.id} is {kind}", member=member_path("readings", column.id), code="wrong_type")
        if self._blocks and column.pieces is not None:
            raise Contradiction(
                f"{column.id}: pieces cannot be named in a stream", member=member_path("readings", column.id, "pieces")
            )
        if self._settings.setdefault(column.id, _settings(column)) != _settings(column):
            raise Contradiction(
                f"{column.id}: unit, uncertainty and rule are the same in every block",
                member=member_path("readings", column.id),
            )

    def _outcome(self, column: Column, columns: dict[str, Column]) -> Outcome:
        characteristic = self._judged.characteristics[column.id]
        if characteristic.kind != "measured":
            return judge_attribute(characteristic, column)
        rule = column.decision_rule or self._request.decision_rule
        found = judge_measured(characteristic, column, rule)
        if characteristic.over_core is None:
            return found
        return with_rise(found, characteristic.over_core, column, columns.get("hardness_core"), rule)

    def _count(self, columns: dict[str, Column], outcomes: dict[str, Outcome]) -> None:
        """Tally each characteristic, and nonconforming pieces once per group; destructive tests have their own."""
        found: dict[str, set[tuple[bool, int]]] = {group: set() for group in GROUPS}
        for id, outcome in outcomes.items():
            characteristic = self._judged.characteristics[id]
            tally = self._tallies.setdefault(id, Tally(characteristic))
            first = self._pieces_before[characteristic.destructive]
            bad = tally.add(columns[id], outcome, first, self._request.risks)
            found[characteristic.group].update((characteristic.destructive, piece) for piece in bad)
        for group, pieces in found.items():
            self._by_group[group] += len(pieces)

    def verdict(self) -> Judgement:
        """Return the judgement of all blocks so far."""
        verdicts = {id: tally.verdict() for id, tally in self._tallies.items()}
        missing = self._missing(verdicts)
        over = [group for group, count in self._by_group.items() if count > self._plans[group].acceptance_number]
        characteristics = self._judged.characteristics
        return Judgement(
            self._wanted.designation,
            _lot_verdict(over, missing, verdicts, characteristics),
            verdicts,
            tuple(missing),
            self._plans,
            self._by_group,
            reasons_of(over, self._by_group, self._plans, missing, verdicts, characteristics),
            tuple(self._notices),
            self._judged.dropped,
            self._request,
            dict(self._rules),
            self._blocks,
        )

    def _missing(self, verdicts: dict[str, CharacteristicVerdict]) -> list[str]:
        """Mandatory characteristics without readings, or with fewer than the sample of their group."""
        short = []
        for id, characteristic in self._judged.characteristics.items():
            needed = self._plans[characteristic.group].sample_size or 1
            count = verdicts[id].count if id in verdicts else 0
            if characteristic.mandatory and count < needed:
                short.append(id)
        return short


def _settings(column: Column) -> tuple[object, ...]:
    return (
        column.unit,
        column.expanded_uncertainty,
        column.coverage_factor,
        column.decision_rule,
        column.edition,
        column.repeated,
    )


def _lot_verdict(
    over: list[str],
    missing: list[str],
    verdicts: dict[str, CharacteristicVerdict],
    characteristics: dict[str, Characteristic],
) -> str:
    if over:
        return "reject"
    undecided = any(verdict.undecided_count and characteristics[id].mandatory for id, verdict in verdicts.items())
    return "incomplete" if missing or undecided else "accept"
