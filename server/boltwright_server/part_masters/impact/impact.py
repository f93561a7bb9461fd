"""What a change does to part masters: which parts change and how, which do not, which cannot be judged and why."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ...quantities import Refusal
from ...specification.comparison import Difference
from ..catalogue.row import Header, header_of, reading_of, repeated_members, text_of, with_unit
from ..meaning.findings import Finding
from ..meaning.requirement import Requirement, resolve
from .change import Change
from .effect import Effect, effect_on


@dataclass(frozen=True, slots=True)
class Impact:
    """One row back: `row` counts from 0. `to_designation` is what the part would be called after the change."""

    part_number: str
    row: int
    designation: str | None
    effect: str
    to_designation: str | None
    differences: tuple[Difference, ...]
    reasons: tuple[str, ...]


@dataclass(slots=True)
class ImpactSummary:
    """What a run came to: rows by effect, and rows by the id of what changes."""

    rows: int = 0
    by_effect: Counter[str] = field(default_factory=Counter)
    by_difference: Counter[str] = field(default_factory=Counter)


class Assessment:
    """Holds rows against a change one after the other; a bad row is not judged and never stops the rest."""

    def __init__(self, change: Change, first_row: int = 0) -> None:
        """Start with no rows; `first_row` is the number of the first one, for a part of a catalogue."""
        self._change = change
        self._first_row = first_row
        self.summary = ImpactSummary()

    def run(self, rows: Iterable[Mapping[str, Any]]) -> Iterator[Impact]:
        """Assess rows one after the other."""
        for row in rows:
            yield self.assess(row)

    def assess(self, row: Mapping[str, Any]) -> Impact:
        """Assess one row; its members are those of the validation of part masters."""
        return self.assess_cells([header_of(name) for name in row], list(row.values()))

    def assess_cells(self, headers: Sequence[Header], cells: Sequence[Any]) -> Impact:
        """Assess one row whose names were read already; one that contradicts itself is not judged."""
        ids = [header.id for header in headers]
        given = {id: cell for id, cell in zip(ids, cells, strict=False) if cell not in (None, "")}
        said: list[Finding] = []
        part_number = text_of(given, "part_number", said)
        if len(set(ids)) < len(ids) and (twice := repeated_members(ids, cells)):
            return self._kept(part_number, None, Effect("not_judged", reasons=tuple(one.detail for one in twice)))
        if "length" in given:
            given["length"] = with_unit(given["length"], next(unit for id, unit in headers if id == "length"))
        found = resolve(reading_of(given, said))
        return self._kept(part_number, found.designation, self._effect(given, found))

    def unreadable(self, detail: str) -> Impact:
        """Return the result of a row that could not even be split into members."""
        return self._kept("", None, Effect("not_judged", reasons=(detail,)))

    def _effect(self, given: Mapping[str, Any], found: Requirement) -> Effect:
        try:
            return effect_on(found, given, self._change)
        except Refusal as refusal:
            return Effect("not_judged", reasons=(refusal.detail,))

    def _kept(self, part_number: str, designation: str | None, effect: Effect) -> Impact:
        row = self._first_row + self.summary.rows
        self.summary.rows += 1
        self.summary.by_effect[effect.name] += 1
        self.summary.by_difference.update({one.id for one in effect.differences})
        return Impact(
            part_number, row, designation, effect.name, effect.to_designation, effect.differences, effect.reasons
        )
