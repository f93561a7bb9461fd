"""The gauges of ISO 1502 step by step.

ISO 1502:1996, clause 13. Diameters in mm, gauge tolerances in um; results on the grid of 0.0001 mm.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..quantities.derivation import Derivation, Rounding, Step
from ..standards import rules
from ..threads.iso_metric import MetricSize, ToleranceClass
from ..threads.iso_metric_derivation import add_basic_diameters
from ..threads.iso_metric_tolerances import Tolerances, tolerances
from .gauge import GaugeSet
from .iso_1502 import gauge_sizes
from .iso_1502_frame import STANDARD

_GRID = Rounding("half even", "0.0001")
_TOLERANCES = ("T_R", "T_PL", "T_CP", "Z_R", "Z_PL", "W_GO_ring", "W_NG_ring", "W_GO_plug", "W_NG_plug", "m")


@dataclass(frozen=True, slots=True)
class _Formula:
    """A diameter of a gauge: its middle, half its tolerance, and what wear adds to the middle."""

    gauge: str
    dimension: str
    symbol: str
    middle: str
    half: str
    worn: str | None = None


@dataclass(frozen=True, slots=True)
class _OneSided:
    """A diameter that only has to clear the part."""

    gauge: str
    dimension: str
    symbol: str
    expression: str
    end: str


_Rule = _Formula | _OneSided
_GO_CHECK, _NOT_GO_CHECK = "go_check_plug_for_{}", "not_go_check_plug_for_{}"
_WEAR_CHECK = "wear_check_plug_for_{}"


def _check_plugs() -> tuple[_Rule, ...]:
    go, not_go = "go_screw_ring", "not_go_screw_ring"
    rules: list[_Rule] = []
    for id, pitch, major, half in (
        (_GO_CHECK.format(go), "D2_GR - m", "d + es", "T_PL"),
        (_NOT_GO_CHECK.format(go), "D2_GR + T_R/2", "{} + 2*F1", "T_PL/2"),
        (_WEAR_CHECK.format(go), "D2_GR + W_GO_ring", "{} + 2*F1", "T_PL/2"),
        (_GO_CHECK.format(not_go), "D2_NGR - m", "d + es", "T_PL"),
        (_NOT_GO_CHECK.format(not_go), "d2_min", "d + es - Td2", "T_PL"),
        (_WEAR_CHECK.format(not_go), "D2_NGR + W_NG_ring", "d + es - Td2", "T_PL"),
    ):
        number = len(rules) // 2 + 1
        symbol = f"d2_CP{number}"
        rules.append(_Formula(id, "pitch_diameter", symbol, pitch, "T_CP/2"))
        rules.append(_Formula(id, "major_diameter", f"d_CP{number}", major.format(symbol), half))
    return tuple(rules)


_EXTERNAL: tuple[_Rule, ...] = (
    _Formula("go_screw_ring", "pitch_diameter", "D2_GR", "d2 + es - Z_R", "T_R/2", "W_GO_ring"),
    _Formula("go_screw_ring", "minor_diameter", "D1_GR", "d1 + es", "T_R/2"),
    _OneSided("go_screw_ring", "major_diameter", "D_GR", "d + es + T_PL", "min"),
    _Formula("not_go_screw_ring", "pitch_diameter", "D2_NGR", "d2_min - T_R/2", "T_R/2", "W_NG_ring"),
    _Formula("not_go_screw_ring", "minor_diameter", "D1_NGR", "D2_NGR - 2*F1", "T_R"),
    _OneSided("not_go_screw_ring", "major_diameter", "D_NGR", "d + es + T_PL", "min"),
    *_check_plugs(),
)
_INTERNAL: tuple[_Rule, ...] = (
    _Formula("go_screw_plug", "major_diameter", "d_GP", "D + EI + Z_PL", "T_PL", "-W_GO_plug"),
    _Formula("go_screw_plug", "pitch_diameter", "d2_GP", "D2 + EI + Z_PL", "T_PL/2", "-W_GO_plug"),
    _OneSided("go_screw_plug", "minor_diameter", "d1_GP", "D1 + EI", "max"),
    _Formula("not_go_screw_plug", "pitch_diameter", "d2_NGP", "D2_max + T_PL/2", "T_PL/2", "-W_NG_plug"),
    _Formula("not_go_screw_plug", "major_diameter", "d_NGP", "d2_NGP + 2*F1", "T_PL"),
    _OneSided("not_go_screw_plug", "minor_diameter", "d1_NGP", "D1 + EI", "max"),
)


def gauge_derivation(size: MetricSize, tolerance: ToleranceClass) -> tuple[Step, ...]:
    """Return the steps to every diameter of every gauge; `answers` is gauges.<id>.dimensions.<id>.<end>.

    ISO 1502:1996, clause 13.

    Raises:
        NotCovered, NotStandardised, UnknownName: as `iso_1502.gauge_sizes`.
    """
    found = gauge_sizes(size, tolerance)
    work = Derivation()
    external = tolerance.member == "external"
    _product(work, size, tolerances(size, tolerance), external)
    for rule in _EXTERNAL if external else _INTERNAL:
        _add(work, rule, found)
    return tuple(work.steps)


def _product(work: Derivation, size: MetricSize, cells: Tolerances, external: bool) -> None:
    """What the gauges start from: basic diameters, the limit at minimum material, truncation, gauge tolerances."""
    work.answering = False
    add_basic_diameters(work, size, "d" if external else "D")
    work.given("es" if external else "EI", cells.deviation, "um", cells.deviation_basis)
    work.given("Td2" if external else "TD2", cells.pitch, "um", cells.pitch_tolerance_basis)
    row = rules(STANDARD).table("table_pitch_diameter").find_in_band(cells.pitch)
    assert row is not None
    for column in _TOLERANCES:
        work.given(column, row.number(column), "um", row.basis(column))
    if external:
        work.step("d2_min", "d2 + es - Td2", "mm", cells.pitch_basis)
    else:
        work.step("D2_max", "D2 + EI + TD2", "mm", cells.pitch_basis)
    work.step(
        "F1", "H/8", "mm", row.table.standard.clause("clause 13, truncation of a NOT GO gauge").computed("clause 13")
    )
    work.answering = True


def _add(work: Derivation, rule: _Rule, found: GaugeSet) -> None:
    gauge = next(one for one in found.gauges if one.id == rule.gauge)
    dimension = gauge.dimensions[rule.dimension]
    path = f"gauges.{rule.gauge}.dimensions.{rule.dimension}"
    if isinstance(rule, _OneSided):
        work.step(rule.symbol, rule.expression, "mm", dimension.basis, _GRID, f"{path}.{rule.end}")
        return
    symbol = rule.symbol
    work.step(symbol, rule.middle, "mm", dimension.basis)
    work.step(f"{symbol}_min", f"{symbol} - {rule.half}", "mm", dimension.basis, _GRID, f"{path}.min")
    work.step(f"{symbol}_max", f"{symbol} + {rule.half}", "mm", dimension.basis, _GRID, f"{path}.max")
    if rule.worn is not None:
        sign = "-" if rule.worn.startswith("-") else "+"
        worn = dimension.wear_basis or dimension.basis
        expression = f"{symbol} {sign} {rule.worn.removeprefix('-')}"
        work.step(f"{symbol}_worn", expression, "mm", worn, _GRID, f"{path}.wear_limit")
