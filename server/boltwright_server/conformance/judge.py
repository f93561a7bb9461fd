"""The judgement of a lot: every characteristic, then the lot by groups of pieces.

A lot is rejected when a group holds more nonconforming pieces than its acceptance number; otherwise it is incomplete
while anything mandatory is missing, short of its sample or undecided; otherwise it is accepted.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..quantities import Contradiction, NotUnderstood, Refusal, member_path
from ..specification import GROUPS
from .characteristics import unknown
from .column_plan import ColumnPlan
from .columns import check_columns, check_uncertainties, prepared
from .cross_rules import LOCAL, MEAN, LocalReadings, Minimum, across, guided_remark, is_single, minimum_of, settled
from .decide import judge_attribute, judge_readings
from .plan import LotPlan, not_looked_at
from .readings import Column, Record, Request, is_recorded
from .sampling import GroupCount, State, state_of
from .telling import Findings, Reason, reasons_of, remarks_of
from .verdicts import Block, CharacteristicVerdict, block_of, block_of_one, verdict_of, with_block


@dataclass(frozen=True, slots=True)
class Judgement:
    """The verdict on a lot and everything behind it."""

    plan: LotPlan
    verdict: str
    characteristics: dict[str, CharacteristicVerdict]
    missing: tuple[str, ...]
    groups: dict[str, GroupCount]
    records: dict[str, Record]
    reasons: tuple[Reason, ...]
    notices: tuple[str, ...]
    #: Whether the lot would be accepted by the standard's own requirements; None while that is not known.
    conforms_to_standard: bool | None
    #: (id, why) of each characteristic that the verdict says nothing of.
    not_looked_at: tuple[tuple[str, str], ...]

    @property
    def carries_class(self) -> bool:
        """Whether the lot is accepted and conforms to its standard, so that class mark and package text are its own."""
        return self.verdict == "accept" and self.conforms_to_standard is True


def judge(request: Request) -> Judgement:
    """Judge a lot whose readings are all in the request.

    Raises:
        Refusal: the designation, a column or a requirement cannot be judged; `member` says which.
    """
    return judge_columns(LotPlan(request), request.columns)


def judge_columns(plan: LotPlan, columns: tuple[Column, ...]) -> Judgement:
    """Judge the readings of a lot whose plan is known.

    Raises:
        Refusal: as `judge`.
    """
    if not columns:
        raise NotUnderstood("readings holds no column", member="readings", code="no_readings")
    lot = LotJudge(plan)
    lot.add(columns)
    return lot.verdict()


class LotJudge:
    """Judges a lot block by block, in bounded memory."""

    def __init__(self, plan: LotPlan) -> None:
        """Prepare; raises what `judge` raises of designation, requirements and sampling plans."""
        self._plan = plan.prepare()
        self._verdicts: dict[str, CharacteristicVerdict] = {}
        self._first: dict[str, Column] = {}
        self._blocks = 0
        self._records: dict[str, Record] = {}
        self._groups = {group: GroupCount() for group in GROUPS}
        #: Pieces below a minimum that is guidance, by group: nonconforming only where it binds after all.
        self._guided = {group: GroupCount() for group in GROUPS}
        self._local = LocalReadings()
        self._by_standard = None if plan.by_standard is None else LotJudge(plan.by_standard)
        self._pieces_before = {False: 0, True: 0}
        self._notices: dict[str, None] = dict.fromkeys((*plan.specification.notices, *plan.judged.notices))

    @property
    def blocks(self) -> int:
        """Blocks judged so far."""
        return self._blocks

    def add(self, given: tuple[Column, ...]) -> None:
        """Judge one block of columns; its pieces follow those of the block before.

        Raises:
            Refusal: a column cannot be judged, or its settings differ from those of an earlier block.
        """
        characteristics = self._plan.characteristics
        for column in given:
            self._check(column)
        given = self._plan.in_order(given)
        check_columns(given, characteristics)
        check_uncertainties(given, self._plan.request.decision_rule)
        columns, said = prepared({column.id: column for column in given}, characteristics)
        if LOCAL in columns and MEAN in characteristics:
            self._local.add(columns[LOCAL])
        if self._by_standard is not None:
            self._by_standard.add(self._plan.of_standard(given))
        blocks = self._judged(columns)
        self._count(blocks)
        self._advance(given)
        for column in filter(is_recorded, given):
            self._records.setdefault(column.id, Record()).add(column)
        for notice in [*said, *(notice for block in blocks for notice in block.notices)]:
            self._notices.setdefault(notice)

    def _advance(self, given: tuple[Column, ...]) -> None:
        """Number the pieces of the next block after those of this one."""
        self._blocks += 1
        lengths = {False: 0, True: 0}
        for column in given:
            one = self._plan.characteristics[column.id]
            if not one.of_lot:
                lengths[one.destructive] = max(lengths[one.destructive], len(column.values))
        for destructive, length in lengths.items():
            self._pieces_before[destructive] += length

    def _check(self, column: Column) -> None:
        characteristics = self._plan.characteristics
        if column.id not in characteristics:
            raise unknown(column.id, characteristics, member_path("readings", column.id))
        kind = characteristics[column.id].kind
        if isinstance(column.values, np.ndarray) is not (kind == "measured"):
            raise Refusal(f"{column.id} is {kind}", member=member_path("readings", column.id), code="wrong_type")
        if self._blocks and column.pieces is not None:
            raise Contradiction(
                f"{column.id}: pieces cannot be named in a stream", member=member_path("readings", column.id, "pieces")
            )
        first = self._first.setdefault(column.id, column)
        if first is not column and first.settings != column.settings:
            raise Contradiction(
                f"{column.id}: unit, uncertainty and rule are the same in every block",
                member=member_path("readings", column.id),
            )

    def _judged(self, columns: dict[str, Column]) -> list[Block]:
        """Judge each column: a single reading by itself, arrays with what else is known of their pieces."""
        plans = {id: self._plan.column(column) for id, column in columns.items()}
        with_risks = self._plan.request.risks
        single = {id for id, plan in plans.items() if not with_risks and is_single(plan, columns[id])}
        outcomes = {
            id: judge_attribute(plan, columns[id]) if plan.gate is None else judge_readings(plan, columns[id])
            for id, plan in plans.items()
            if id not in single
        }
        outcomes = across(outcomes, columns, self._plan.characteristics)
        return [
            block_of_one(plan, columns[id], self._first_piece(plan))
            if id in single
            else block_of(columns[id], outcomes[id], self._first_piece(plan), with_risks, id not in self._verdicts)
            for id, plan in plans.items()
        ]

    def _first_piece(self, plan: ColumnPlan) -> int:
        return self._pieces_before[plan.characteristic.destructive]

    def _count(self, blocks: list[Block]) -> None:
        """Add to the verdicts, and count nonconforming pieces once per group; destructive tests have pieces apart."""
        found: dict[str, set[tuple[bool, int]]] = {}
        guided: dict[str, set[tuple[bool, int]]] = {}
        for block in blocks:
            one = block.plan.characteristic
            before = self._verdicts.get(one.id)
            self._verdicts[one.id] = verdict_of(block) if before is None else with_block(before, block)
            if block.bad and not one.of_lot:
                found.setdefault(one.group, set()).update((one.destructive, piece) for piece in block.bad)
            if block.guided:
                guided.setdefault(one.group, set()).update((one.destructive, piece) for piece in block.guided)
        for group, numbers in found.items():
            self._groups[group].add([number for _, number in numbers], self._plan.groups[group])
        for group, numbers in guided.items():
            beside = numbers - found.get(group, set())
            self._guided[group].add([number for _, number in beside], self._plan.groups[group])

    def verdict(self) -> Judgement:
        """Return the judgement of all blocks so far."""
        plan = self._plan
        verdicts = self._with_mean()
        if self._blocks > 1:
            verdicts = {id: one._replace(outlying_pieces=None) for id, one in verdicts.items()}
        minimums = self._minimums(verdicts)
        verdicts = {id: settled(one, minimums[id]) if id in minimums else one for id, one in verdicts.items()}
        groups = self._counts({verdicts[id].characteristic.group for id, one in minimums.items() if one == "binds"})
        missing = tuple(self._missing(verdicts))
        failed = [one for one in verdicts.values() if one.nonconforming_count]
        states = {
            group: state_of(plan.groups[group], count, [one for one in failed if one.characteristic.group == group])
            for group, count in groups.items()
        }
        verdict = _lot_verdict(states, missing, verdicts)
        standard = None if self._by_standard is None else self._by_standard.verdict()
        conforms = _CONFORMS[verdict if standard is None else standard.verdict]
        unseen = () if standard is None or verdict == "incomplete" else _given_up(plan, standard.missing)
        if unseen and conforms is None:
            conforms = False
        found = Findings(plan.groups, groups, states, verdicts, missing, plan.characteristics, plan.absent)
        guided = [guided_remark(verdicts[id]) for id, one in minimums.items() if one == "guides"]
        return Judgement(
            plan,
            verdict,
            verdicts,
            missing,
            groups,
            self._records,
            reasons_of(found, verdict, conforms, plan.judged.deviations, unseen),
            (*self._notices, *guided, *remarks_of(plan.groups, verdicts)),
            conforms,
            not_looked_at(plan, verdicts),
        )

    def _with_mean(self) -> dict[str, CharacteristicVerdict]:
        """Return the verdicts, with one on the batch average where it was not given and local readings were."""
        plan, verdicts = self._plan, dict(self._verdicts)
        if LOCAL not in verdicts or MEAN not in plan.characteristics or MEAN in verdicts:
            return verdicts
        mean = self._local.mean(self._first[LOCAL], verdicts[LOCAL].plan.unit)
        if mean is not None:
            verdicts[MEAN] = verdict_of(block_of_one(plan.column(mean), mean, 0))._replace(outlying_pieces=None)
        return {id: verdicts[id] for id in plan.characteristics if id in verdicts}

    def _minimums(self, verdicts: dict[str, CharacteristicVerdict]) -> dict[str, Minimum]:
        """Say what each minimum that is guidance is worth, where a reading makes a difference."""
        plan = self._plan
        given_up = {one.id for one in plan.judged.deviations} | set(plan.judged.dropped)
        return {
            id: minimum_of(one.characteristic, verdicts, plan.needed, given_up)
            for id, one in verdicts.items()
            if one.guided_count or (one.characteristic.guidance is not None and one.guided_undecided)
        }

    def _counts(self, binding: set[str]) -> dict[str, GroupCount]:
        """Return the pieces of each group, those below a minimum that binds among them."""
        return {
            group: count.with_more(self._guided[group]) if group in binding else count
            for group, count in self._groups.items()
        }

    def _missing(self, verdicts: dict[str, CharacteristicVerdict]) -> list[str]:
        """Mandatory characteristics without readings, or with fewer than the sample of their group."""
        return [
            id for id, needed in self._plan.needed.items() if id not in verdicts or verdicts[id].measured_count < needed
        ]


#: What a verdict by the standard's own requirements says of the lot.
_CONFORMS = {"accept": True, "reject": False, "incomplete": None}


def _given_up(plan: LotPlan, missing: tuple[str, ...]) -> tuple[str, ...]:
    """Return what the standard asks for and the purchaser does not, of which there is no reading: it stays unknown."""
    deviating = {one.id for one in plan.judged.deviations}
    return tuple(id for id in missing if id in deviating)


def _lot_verdict(states: dict[str, State], missing: tuple[str, ...], verdicts: dict[str, CharacteristicVerdict]) -> str:
    if "over" in states.values():
        return "reject"
    undecided = any(verdict.undecided_count and verdict.characteristic.mandatory for verdict in verdicts.values())
    return "incomplete" if missing or undecided or "second_needed" in states.values() else "accept"
