"""What of a judgement the readings do not change: worked out at its first use and kept for the next piece."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from functools import cached_property

from ..specification import Characteristic, Specification, specification
from ..specification.characteristic import has_role
from .characteristics import Judged, judged_characteristics
from .column_plan import ColumnPlan, column_plan
from .readings import Column, Request
from .sampling import GroupPlan, plans_of
from .telling import Reason, absent_reason
from .wording import clause

#: Columns are kept by their settings; one whose uncertainty changes with every piece is worked out each time.
_MOST_COLUMNS = 64


class LotPlan:
    """The plan of every lot with the same request; `request` says everything but the readings.

    Threads share it: what two of them work out at once is the same.
    """

    def __init__(self, request: Request) -> None:
        """Keep the request; it is read at the first use, which raises what `judge` raises of it."""
        self.request = request
        self._columns: dict[tuple[object, ...], ColumnPlan] = {}
        #: By the characteristics measured: what a verdict says nothing of.
        self.unseen: dict[frozenset[str], tuple[tuple[str, str], ...]] = {}

    def prepare(self) -> LotPlan:
        """Work out designation, requirements and sampling plans, in that order.

        Raises:
            Refusal: one of them is wrong.
        """
        _ = self.specification, self.judged, self.groups
        return self

    @cached_property
    def specification(self) -> Specification:
        """Everything required of the designation."""
        return specification(self.request.designation)

    @cached_property
    def judged(self) -> Judged:
        """The characteristics with the purchaser's requirements put in."""
        return judged_characteristics(self.specification, self.request)

    @cached_property
    def groups(self) -> dict[str, GroupPlan]:
        """The sampling plan of each group."""
        return plans_of(self.request)

    @property
    def characteristics(self) -> dict[str, Characteristic]:
        """The characteristics judged, in the order of the specification."""
        return self.judged.characteristics

    @cached_property
    def needed(self) -> dict[str, int]:
        """How many readings each mandatory characteristic needs."""
        return {
            id: 1 if one.of_lot else self.groups[one.group].sample_size or 1
            for id, one in self.characteristics.items()
            if one.mandatory
        }

    @cached_property
    def by_standard(self) -> LotPlan | None:
        """The plan of the same lot without the purchaser's requirements; None where there are none."""
        asked = self.request
        if not asked.requirements and not asked.dropped and asked.fracture_rule == "standard":
            return None
        return LotPlan(replace(asked, requirements=(), dropped={}, fracture_rule="standard"))

    def of_standard(self, columns: tuple[Column, ...]) -> tuple[Column, ...]:
        """Return the columns that the standard knows, each in the unit in which it is read here."""
        known = {} if self.by_standard is None else self.by_standard.characteristics
        return tuple(column._replace(unit=self.column(column).unit) for column in columns if column.id in known)

    @cached_property
    def absent(self) -> dict[str, Reason]:
        """The reason for each mandatory characteristic of which no reading is sent."""
        return {id: absent_reason(self.characteristics[id]) for id in self.needed}

    @cached_property
    def _places(self) -> dict[str, int]:
        return {id: at for at, id in enumerate(self.characteristics)}

    def in_order(self, columns: tuple[Column, ...]) -> tuple[Column, ...]:
        """Return columns in the specification's order: the order of JSON members must not change an answer's bytes."""
        return tuple(sorted(columns, key=lambda column: self._places[column.id]))

    def column(self, column: Column) -> ColumnPlan:
        """Return how a column is judged.

        Raises:
            Contradiction: the unit does not fit. NotUnderstood: the scale has no such edition.
        """
        key = (column.id, column.settings)
        plan = self._columns.get(key)
        if plan is None:
            rule = column.decision_rule or self.request.decision_rule
            plan = column_plan(self.characteristics[column.id], column, rule)
            if len(self._columns) < _MOST_COLUMNS:
                plan = self._columns.setdefault(key, plan)
        return plan


#: Sets of measured characteristics whose answer is kept with a plan; the next piece mostly measures the same.
_KEPT = 16


def not_looked_at(plan: LotPlan, measured: Collection[str]) -> tuple[tuple[str, str], ...]:
    """Return (id, why) of each, those first that the purchaser dropped, then in the order of the specification."""
    key = frozenset(measured)
    found = plan.unseen.get(key)
    if found is None:
        dropped = ((id, f"dropped by the purchaser: {why}") for id, why in plan.judged.dropped.items())
        optional = (
            (id, _why(id, one, plan)) for id, one in plan.characteristics.items() if not one.mandatory and id not in key
        )
        found = (*dropped, *optional)
        if len(plan.unseen) < _KEPT:
            plan.unseen[key] = found
    return found


def _why(id: str, one: Characteristic, plan: LotPlan) -> str:
    standing = plan.specification.characteristics.get(id)
    if standing is None or standing.mandatory:
        return "not mandatory at the purchaser's word, and not measured"
    if has_role(id, "gauged"):
        return "not mandatory beside the gauges, and not measured"
    if has_role(id, "by_maker"):
        return f"required by the standard, but not mandatory here, and not inspected ({clause(one.basis)})"
    return f"not mandatory, and not measured ({clause(one.basis)})"
