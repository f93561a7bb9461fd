"""The rule of the surface: it may exceed the core of the same piece by at most the permitted rise.

ISO 898-1:2013, Table 3, footnote on surface hardness: 30 HV. What is judged is the difference of the two readings, by
the rule and with the uncertainty of the surface readings. Without a core reading of the piece nothing is decided.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np

from ..quantities import Bounds
from .column_plan import uncertainty
from .findings import Mask
from .gates import gate_of
from .measured import Outcome
from .readings import Column, Floats
from .rules import Edge

#: Differences of doubles this near to an edge are decided again on the decimals as written.
_NEAR = 1e-6


def with_rise(outcome: Outcome, rise: Bounds, column: Column, core: Column | None) -> Outcome:
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
