"""Rules across columns: what another characteristic makes of a reading.

Those that look at the same piece stand in `CROSS_RULES` and turn outcomes of a block into outcomes. Two look at the
lot, when all its blocks are known: the batch average of a coating, and a minimum hardness that only guides.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace
from decimal import Context, Decimal
from fractions import Fraction
from typing import Literal, NamedTuple

import numpy as np

from ..quantities import Bounds
from ..specification import Characteristic
from ..specification.characteristic import has_role, the_one
from .column_plan import ColumnPlan, gate_of, uncertainty
from .decide import Mask, Outcome
from .readings import Column, Floats
from .rules import Edge
from .verdicts import MOST_PIECES_LISTED, CharacteristicVerdict, verdict_word
from .wording import clause, counted, named, of_pieces

LOCATIONS = ("thread", "shank", "head_junction", "head")
#: The place of the break, and the core: other readings of a piece count only with them.
FRACTURE, CORE = the_one("location"), the_one("core")
LOCAL, MEAN = the_one("local"), the_one("mean")
#: Differences of doubles this near to an edge are decided again on the decimals as written.
_NEAR = 1e-6
#: Digits of a sum of readings as written; a million of them keep all of theirs.
_EXACT = Context(prec=60)
Minimum = Literal["guides", "open", "binds"]


class CrossRule(NamedTuple):
    """A rule across the columns of a block."""

    #: Whether a characteristic is judged by it, so that a reading of it is never judged by itself.
    concerns: Callable[[Characteristic], bool]
    #: Whether it holds in a lot that is judged on these characteristics.
    holds: Callable[[Mapping[str, Characteristic]], bool]
    #: Outcomes of the columns by themselves -> outcomes under the rule.
    apply: Callable[[Mapping[str, Outcome], Mapping[str, Column]], dict[str, Outcome]]


def across(
    outcomes: dict[str, Outcome], columns: Mapping[str, Column], characteristics: Mapping[str, Characteristic]
) -> dict[str, Outcome]:
    """Return the outcomes of a block under every rule that holds in the lot."""
    for rule in CROSS_RULES:
        if rule.holds(characteristics):
            outcomes = rule.apply(outcomes, columns)
    return outcomes


def is_single(plan: ColumnPlan, column: Column) -> bool:
    """Return whether a column is one reading that is judged by itself, whatever else is known of the piece."""
    return (
        len(column.values) == 1
        and column.pieces is None
        and not any(rule.concerns(plan.characteristic) for rule in CROSS_RULES)
    )


def is_pulled(characteristic: Characteristic) -> bool:
    """Say whether a characteristic is of a tensile test: a reading counts only with the place of its break."""
    return has_role(characteristic.id, "located")


def is_located(characteristics: Mapping[str, Characteristic]) -> bool:
    """Say whether a tensile reading needs the place of its break: unless the purchaser does not ask for it."""
    fracture = characteristics.get(FRACTURE)
    return fracture is not None and fracture.mandatory


def without_fracture_undecided(outcomes: Mapping[str, Outcome], columns: Mapping[str, Column]) -> dict[str, Outcome]:
    """Turn tensile readings that conform into undecided ones where no fracture location was given for the piece.

    ISO 898-1:2013, clause 9.1: the break lies in the free thread or the shank; one at the junction of head and shank
    fails whatever the load was.
    """
    changed = dict(outcomes)
    for id, outcome in outcomes.items():
        if not is_pulled(outcome.plan.characteristic):
            continue
        loose = outcome.measured & ~_located(columns[id], columns.get(FRACTURE)) & ~outcome.nonconforming
        if loose.any():
            doubt = "because a reading counts only with the place of its break"
            notice = f"{named(id)}: {counted(int(loose.sum()), 'reading')} without fracture location"
            notices = (*outcome.notices, notice)
            changed[id] = replace(outcome, undecided=outcome.undecided | loose, doubt=doubt, notices=notices)
    return changed


def _located(pulled: Column, fracture: Column | None) -> Mask:
    located = np.zeros(len(pulled.values), dtype=bool)
    if fracture is None:
        return located
    known = {
        piece
        for piece, value in zip(fracture.pieces or range(len(fracture.values)), fracture.values, strict=True)
        if value is not None
    }
    for at, piece in enumerate(pulled.pieces or range(len(pulled.values))):
        located[at] = piece in known
    return located


def is_over_core(characteristic: Characteristic) -> bool:
    """Say whether a hardness may exceed the core of the same piece by a permitted rise at most."""
    return characteristic.over_core is not None


def rise_judged(outcomes: Mapping[str, Outcome], columns: Mapping[str, Column]) -> dict[str, Outcome]:
    """Judge the rise of the surface over the core beside the limits of the surface.

    ISO 898-1:2013, Table 3, footnote on surface hardness: 30 HV. What is judged is the difference of the two readings,
    by the rule and with the uncertainty of the surface readings. Without a core reading of the piece nothing is
    decided.
    """
    changed = dict(outcomes)
    for id, outcome in outcomes.items():
        if outcome.plan.characteristic.over_core is not None:
            changed[id] = _with_rise(outcome, outcome.plan.characteristic.over_core, columns[id], columns.get(CORE))
    return changed


def _with_rise(outcome: Outcome, rise: Bounds, column: Column, core: Column | None) -> Outcome:
    """Return the outcome of a surface column with the rise over the core judged beside its own limits."""
    assert isinstance(column.values, np.ndarray)
    rule = outcome.plan.rule
    pairs = _Pairs(column.values, _core_of_pieces(column, core))
    edges = gate_of(rise, rise.unit, rule, uncertainty(column)).regions
    assert edges.reject_high is not None
    assert edges.conforming_high is not None
    nonconforming = outcome.nonconforming | pairs.above(edges.reject_high)
    proved = pairs.measured & ~pairs.above(
        replace(edges.conforming_high, inclusive=not edges.conforming_high.inclusive)
    )
    undecided = (outcome.undecided | (outcome.measured & ~proved)) & ~nonconforming
    doubt = outcome.doubt
    if (undecided & ~pairs.measured).any():
        doubt = "because the core of the same piece was not measured in HV"
    elif (undecided & ~outcome.undecided).any():
        doubt = f"because the stated uncertainty does not prove {rise.max} {rise.unit} at most above the core"
    return replace(outcome, nonconforming=nonconforming, undecided=undecided, doubt=doubt)


class _Pairs:
    """Surface and core of each piece, NaN where one of the two was not measured."""

    def __init__(self, surface: Floats, core: Floats) -> None:
        self._surface, self._core = surface, core
        self._difference = surface - core
        self.measured: Mask = ~np.isnan(self._difference)

    def above(self, edge: Edge) -> Mask:
        """Return where the difference lies above an edge, or on an inclusive one."""
        beyond = self._difference - float(edge.at)
        found: Mask = beyond > 0
        for at in np.flatnonzero(np.abs(beyond) < _NEAR):
            exact = Fraction(repr(float(self._surface[at]))) - Fraction(repr(float(self._core[at])))
            found[at] = exact >= edge.at if edge.inclusive else exact > edge.at
        return found


def _core_of_pieces(column: Column, core: Column | None) -> Floats:
    """Return the core under each surface reading; the softest where a piece has several."""
    assert isinstance(column.values, np.ndarray)
    if core is None or not isinstance(core.values, np.ndarray) or core.unit not in (None, "HV"):
        return np.full(column.values.shape, np.nan)
    softest: dict[int, float] = {}
    for piece, value in zip(core.pieces or range(len(core.values)), core.values.tolist(), strict=True):
        if value == value:
            softest[piece] = min(value, softest.get(piece, value))
    pieces = column.pieces or range(len(column.values))
    return np.array([softest.get(piece, np.nan) for piece in pieces], dtype=np.float64)


@dataclass(slots=True)
class LocalReadings:
    """Sum and number of the local readings so far, as written.

    ISO 10684:2004 and ISO 4042:1999, Table 1, limit their mean, the batch average, beside the local thickness.
    """

    total: Decimal = Decimal(0)
    count: int = 0

    def add(self, column: Column) -> None:
        """Add the readings of one block."""
        assert isinstance(column.values, np.ndarray)
        for value in column.values.tolist():
            if value == value:
                self.total = _EXACT.add(self.total, Decimal(repr(value)))
                self.count += 1

    def mean(self, first: Column, unit: str | None) -> Column | None:
        """Return the mean as a column of one reading, judged as the local ones are; None without any."""
        if not self.count:
            return None
        mean = float(_EXACT.divide(self.total, Decimal(self.count)))
        return Column(
            MEAN,
            np.array([mean]),
            unit,
            first.expanded_uncertainty,
            first.coverage_factor,
            first.decision_rule,
        )


def minimum_of(
    characteristic: Characteristic,
    verdicts: Mapping[str, CharacteristicVerdict],
    needed: Mapping[str, int],
    given_up: Collection[str],
) -> Minimum:
    """Return what the minimum of a characteristic with guidance is worth.

    ISO 898-2:2012, clause 9.2: of nuts that are not quenched and tempered the proof load decides, and the hardness is
    judged by its maximum. While that test was not made, readings below the minimum are undecided; where it failed, or
    the purchaser gave it up or loosened it, the minimum binds.

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


#: In the order in which they are applied. A new rule is an entry.
CROSS_RULES = (
    CrossRule(is_over_core, lambda characteristics: True, rise_judged),
    CrossRule(is_pulled, is_located, without_fracture_undecided),
)
