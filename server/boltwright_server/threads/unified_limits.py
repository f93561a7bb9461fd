"""Limits of size of Unified inch threads: each limit starts from the one before it as rounded.

ASME B1.1-2003, formulas for limits of size; ASME B1.30-2002, decimals and rounding. The tie goes to the even digit,
which every printed cell of UNC and UNF that was compared asks for.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from ..quantities import Bounds, weakest
from ..quantities.keeper import remembered
from ..quantities.rounding import half_even
from ..standards import Row, rules
from .thread_limits import ThreadLimits
from .unified import SYSTEM, UnifiedClass, UnifiedSize, check_class
from .unified_profile import (
    ROOT_RADIUS_FACTOR,
    four_places,
    minor_diameter,
    minor_height,
    pitch_height,
    root_height,
)
from .unified_stress_area import stress_areas
from .unified_tolerances import UnifiedTolerances, tolerances

_STANDARD = "ASME B1.1"
#: From this diameter (#6) on, the minor diameter of an internal thread is rounded to three decimals.
_THREE_PLACES_FROM = Decimal("0.138")
HOT_ROLLED = ("UNC", "4-UN", "6-UN", "8-UN")
#: Limit -> the columns of the printed limits that were compared.
_COLUMNS = {
    "major_diameter": "major",
    "pitch_diameter": "pitch",
    "minor_diameter": "minor",
    "root_diameter": "unr_minor",
    "allowance": "allowance",
}


@remembered(4096)
def limits(size: UnifiedSize, wanted: UnifiedClass) -> ThreadLimits:
    """Return every limit of a Unified thread.

    ASME B1.1-2003, formulas for limits of size. Result in inch to 0.0001.

    Raises:
        NotStandardised: class 1A or 1B outside UNC and UNF from 1/4 in.
        Contradiction: UNR with a class of internal threads.
    """
    check_class(size, wanted)
    cells = tolerances(size, wanted)
    external = wanted.member == "external"
    found, reference = (_external if external else _internal)(size, wanted, cells)
    return ThreadLimits(
        system=SYSTEM,
        member=wanted.member,
        nominal_diameter=size.d,
        pitch=size.pitch,
        series=size.series_symbol,
        tolerance_class=wanted.designation,
        unit="in",
        limits=_with_evidence(size, wanted, found),
        tolerances=_as_bounds(wanted, cells),
        reference=_with_evidence(size, wanted, reference),
        engagement=_engagement(cells),
        threads_per_inch=size.threads_per_inch,
        stress_areas=stress_areas(size, found["pitch_diameter"]) if external else {},
    )


def _external(
    size: UnifiedSize, wanted: UnifiedClass, cells: UnifiedTolerances
) -> tuple[dict[str, Bounds], dict[str, Bounds]]:
    """Limits of a bolt thread; ASME B1.1-2003, formulas for external threads. d1 and d3 are reference dimensions."""
    P, basis = size.pitch, cells.basis
    d_max = four_places(size.d - cells.allowance)
    d2_max = four_places(d_max - pitch_height(P))
    limits = {
        "major_diameter": Bounds("d", four_places(d_max - cells.crest), d_max, "in", basis, size.d),
        "pitch_diameter": Bounds(
            "d2", four_places(d2_max - cells.pitch), d2_max, "in", basis, four_places(size.d - pitch_height(P))
        ),
        "minor_diameter": Bounds("d1", None, four_places(d_max - minor_height(P)), "in", basis),
        "root_diameter": Bounds("d3", None, four_places(d_max - root_height(P)), "in", basis),
    }
    if size.rounded_root:
        radius = basis.computed(None, "memory")
        limits["root_radius"] = Bounds("R", four_places(ROOT_RADIUS_FACTOR * P), None, "in", radius)
    allowance = four_places(cells.allowance)
    reference = {"allowance": Bounds("es", allowance, allowance, "in", basis)}
    if wanted.grade == "2" and size.series in HOT_ROLLED:
        wide = tolerances(size, UnifiedClass("1", "A")).crest
        reference["major_diameter_unfinished_hot_rolled"] = Bounds("d", four_places(d_max - wide), d_max, "in", basis)
    return limits, reference | _after_coating(size, cells)


def _after_coating(size: UnifiedSize, cells: UnifiedTolerances) -> dict[str, Bounds]:
    """Return the greatest size after an additive finish: the allowance is its room, the basic size its end.

    ASME B1.1-2003, clause on coated threads (memory). Classes 1A and 2A; 3A has no room.
    """
    if not cells.allowance:
        return {}
    basis = cells.basis.computed(
        "coated threads", "memory", note="limits hold before an additive finish; then GO is 3A"
    )
    d2 = four_places(size.d - pitch_height(size.pitch))
    return {
        "major_diameter_after_coating": Bounds("d", None, size.d, "in", basis),
        "pitch_diameter_after_coating": Bounds("d2", None, d2, "in", basis),
    }


def _internal(
    size: UnifiedSize, wanted: UnifiedClass, cells: UnifiedTolerances
) -> tuple[dict[str, Bounds], dict[str, Bounds]]:
    """Limits of a nut thread; ASME B1.1-2003, formulas for internal threads. There is no greatest major diameter."""
    basis = cells.basis
    D2_min = four_places(size.d - pitch_height(size.pitch))
    D1 = minor_diameter(size.d, size.pitch)
    limits = {
        "major_diameter": Bounds("D", size.d, None, "in", basis, size.d),
        "pitch_diameter": Bounds("D2", D2_min, four_places(D2_min + cells.pitch), "in", basis, D2_min),
        "minor_diameter": Bounds(
            "D1", _minor_places(size, D1), _greatest_minor(size, wanted, D1 + cells.crest), "in", basis, four_places(D1)
        ),
    }
    return limits, {}


def has_three_places(size: UnifiedSize) -> bool:
    """Say whether the minor diameter of an internal thread is rounded to three decimals. ASME B1.30-2002."""
    return size.d >= _THREE_PLACES_FROM


def _minor_places(size: UnifiedSize, value: Decimal) -> Decimal:
    """Round to three decimals from #6 on and print a zero behind them; four decimals below. ASME B1.30-2002."""
    quantum = "0.001" if has_three_places(size) else "0.0001"
    return half_even(value, quantum).quantize(Decimal("0.0001"))


def _greatest_minor(size: UnifiedSize, wanted: UnifiedClass, value: Decimal) -> Decimal:
    """Round D1 max: as D1 min for 1B and 2B, always to four decimals for 3B. `value` starts from the unrounded D1."""
    return four_places(value) if wanted.grade == "3" else _minor_places(size, value)


def _with_evidence(size: UnifiedSize, wanted: UnifiedClass, found: dict[str, Bounds]) -> dict[str, Bounds]:
    """Say in each basis how far prints confirm the computed limits, and what another print shows instead."""
    tables = [rules(_STANDARD).table(name) for name in ("limits_seen", "older_prints")]
    rows = [table.find(size.d, size.threads_per_inch, wanted.designation) for table in tables]
    printed = [row for row in rows if row is not None]
    if size.LE is not None or not printed:
        return found
    return {id: _evidence(printed, _COLUMNS[id], one) if id in _COLUMNS else one for id, one in found.items()}


def _evidence(printed: list[Row], column: str, bounds: Bounds) -> Bounds:
    marks: list[str] = []
    others: dict[str, str] = {}
    for side, value in (("", bounds.max),) if column == "allowance" else (("min", bounds.min), ("max", bounds.max)):
        if value is not None:
            cell = f"{column}_{side}".rstrip("_")
            mark, other = _compared(printed, cell, value)
            marks.append(mark or bounds.basis.checked)
            others |= {} if other is None else {f"{side} {other.get(cell)}".strip(): _reason(other)}
    note = f"other prints show {' and '.join(others)}{next(iter(others.values()))}" if others else None
    return replace(bounds, basis=replace(bounds.basis, checked=weakest(*marks), note=note))


def _compared(printed: list[Row], column: str, value: Decimal) -> tuple[str | None, Row | None]:
    """Return the mark that prints give a computed limit (None: not printed) and the row of one that differs."""
    for row in printed:
        found = row.get(column) if column in row.cells else None
        if found is not None:
            mark = row.checked(column)
            if found == value:
                return mark, None
            return mark if mark == "conflict" else "formula", row
    return None, None


def _reason(row: Row) -> str:
    """Return why a print differs, where the table says so."""
    return f" ({row.word('reason')})" if "reason" in row.cells else ""


def _as_bounds(wanted: UnifiedClass, cells: UnifiedTolerances) -> dict[str, Bounds]:
    external = wanted.member == "external"
    crest = ("major_diameter", "Td") if external else ("minor_diameter", "TD1")
    named = [
        *([("allowance", "es", cells.allowance)] if external else []),
        ("pitch_diameter", "Td2" if external else "TD2", cells.pitch),
        (*crest, cells.crest),
    ]
    return {name: Bounds(symbol, value, value, "in", cells.basis, value) for name, symbol, value in named}


def _engagement(cells: UnifiedTolerances) -> dict[str, Bounds]:
    found = cells.engagement
    over = None if found.over is None else four_places(found.over)
    up_to = None if found.up_to is None else four_places(found.up_to)
    computed = four_places(found.LE)
    return {
        "normal": Bounds("LE", over, up_to, "in", found.basis),
        "of_the_tolerances": Bounds("LE", computed, computed, "in", found.basis, computed),
    }
