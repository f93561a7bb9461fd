"""Reduced loads of small galvanized bolts and nuts.

ISO 10684:2004, Annex A: M8 and M10 only; from M12 up the loads of ISO 898-1 and ISO 898-2 must be met. Loads in N.
"""

from __future__ import annotations

from ..quantities import Bounds
from ..standards import Row, Table, rules
from ..threads import MetricSize, ToleranceClass

_PRINTED_APART = "printed 28 000 N; its own stress of 493 MPa on 58.0 mm2 gives 28 600 N; unresolved"
#: tolerance class -> {load id: (symbol, table)}
_TABLES = {
    "6az": {"tensile_load": ("Fm,min", "bolt_tensile_loads"), "proof_load": ("Fp", "bolt_proof_loads")},
    "6AZ": {"proof_load": ("Fp", "nut_proof_loads")},
    "6AX": {"proof_load": ("Fp", "nut_proof_loads")},
}


def reduced_loads(size: MetricSize, tolerance: ToleranceClass) -> dict[str, dict[str, Bounds]]:
    """Return loads in N by property class, where galvanizing reduces them; empty elsewhere.

    ISO 10684:2004, Annex A.
    """
    found: dict[str, dict[str, Bounds]] = {}
    for id, (symbol, name) in _TABLES.get(tolerance.designation, {}).items():
        table = rules("ISO 10684").table(name)
        row = table.find(size.designation)
        if row is not None:
            for property_class in _classes(table):
                found.setdefault(property_class, {})[id] = _load(row, property_class, symbol)
    return found


def _classes(table: Table) -> list[str]:
    return [column for column in table.columns if column not in (*table.key, "As")]


def _load(row: Row, property_class: str, symbol: str) -> Bounds:
    disputed = row.checked(property_class) == "conflict"
    basis = row.basis(property_class, note=_PRINTED_APART if disputed else None)
    return Bounds(symbol, row.number(property_class), None, "N", basis)
