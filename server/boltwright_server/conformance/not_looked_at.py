"""What a verdict did not look at: characteristics dropped, and those neither mandatory nor measured, with why."""

from __future__ import annotations

from collections.abc import Collection

from ..specification import Characteristic
from .plan import LotPlan
from .wording import clause

_GAUGED = ("thread_major_diameter", "thread_pitch_diameter", "thread_minor_diameter")
#: What the standard asks of a class and leaves to the maker's own inspection, unless the order says otherwise.
_BY_MAKER = (
    "decarburization_depth",
    "non_decarburized_height",
    "hardness_surface",
    "retempering_drop",
    "surface_discontinuities",
)


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
    if id in _GAUGED:
        return "not mandatory beside the gauges, and not measured"
    if id in _BY_MAKER:
        return f"required by the standard, but not mandatory here, and not inspected ({clause(one.basis)})"
    return f"not mandatory, and not measured ({clause(one.basis)})"
