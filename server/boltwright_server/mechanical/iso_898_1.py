"""Bolts, screws and studs of carbon and alloy steel.

ISO 898-1:2013. Stresses in MPa, loads in N. The printed load tables win over the products of area and stress.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from ..quantities import Bounds, NotCovered, NotStandardised
from ..quantities.rounding import significant
from ..standards import Row, standard
from ..threads import MetricSize, nominal_stress_area
from .answer import MechanicalMinimums
from .iso_898_1_tests import bolt_tests

CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9", "12.9U")
#: Class 8.8 has two columns; 16 mm itself belongs to the first (Table 3, footnotes a and b).
_SPLIT = 16
_LARGEST = 39
_SMALLEST = Decimal("1.6")

#: property id -> (rows of Table 3 in the order of preference, limit that they are)
_ROWS: dict[str, tuple[tuple[str, str | None], ...]] = {
    "tensile_strength": (("Rm_min", None),),
    "yield_strength": (("ReL_min", None), ("Rp02_min", None), ("Rpf_min", None)),
    "proof_stress": (("Sp", None),),
    "elongation": (("A_min", None), ("Af_min", None)),
    "reduction_of_area": (("Z_min", None),),
    "impact_energy": (("KV_min", None),),
    "hardness_vickers": (("HV_min", "HV_max"),),
    "hardness_rockwell_b": (("HRB_min", "HRB_max"),),
    "hardness_rockwell_c": (("HRC_min", "HRC_max"),),
}
_RPF = "Rpf min is under investigation: it serves the ratio to the proof load and is no test value"
_IMPACT = "at -20 degrees Celsius; d >= 16 mm"


@cache
def bolt_minimums(size: MetricSize, property_class: str) -> MechanicalMinimums:
    """Return the properties and loads of a bolt thread in one property class.

    ISO 898-1:2013, Tables 2 to 7.

    Raises:
        NotStandardised: the diameter lies outside 1.6 to 39 mm, or class 9.8 above 16 mm.
        NotCovered: a class of reduced loadability, as 08.8.
    """
    _check_scope(size, property_class)
    column = _column(size, property_class)
    notices: list[str] = []
    return MechanicalMinimums(
        standard="ISO 898-1",
        edition="2013",
        thread=size.designation,
        property_class=property_class,
        member="external",
        stress_area=_stress_area(size),
        properties=_properties(column, property_class),
        loads=_loads(size, property_class, column, notices),
        tests=bolt_tests(size, property_class),
        notices=tuple(notices),
        disputed=_disputed_brinell(column),
        surface_over_core=_surface_over_core(column),
    )


def _check_scope(size: MetricSize, property_class: str) -> None:
    if property_class not in CLASSES:
        raise NotCovered(f"class {property_class} of reduced loadability is not held", member="property_class")
    if not _SMALLEST <= size.d <= _LARGEST:
        raise NotStandardised(
            f"ISO 898-1:2013 covers M{_SMALLEST} to M{_LARGEST}; {size.designation} lies outside",
            member="thread",
        )
    if property_class == "9.8" and size.d > _SPLIT:
        raise NotStandardised(f"ISO 898-1:2013 gives class 9.8 up to M{_SPLIT} only", member="property_class")


def _column(size: MetricSize, property_class: str) -> str:
    if property_class == "8.8":
        return "8.8_d_le_16" if size.d <= _SPLIT else "8.8_d_gt_16"
    return property_class.removesuffix("U")


def _row(name: str) -> Row:
    row = standard("iso_898_1_2013").table("table_3").find(name)
    if row is None:
        raise KeyError(name)
    return row


def _properties(column: str, property_class: str) -> dict[str, Bounds]:
    found = {}
    for id, choices in _ROWS.items():
        for low, high in choices:
            bounds = _window(low, high, column)
            if bounds is not None:
                found[id] = bounds
                break
    found |= _brinell(column) | _surface(column) | _tempering(property_class)
    return found


def _window(low: str, high: str | None, column: str) -> Bounds | None:
    row = _row(low)
    least = row.get(column)
    if least is None:
        return None
    note = {"Rpf_min": _RPF, "KV_min": _IMPACT}.get(low)
    if high is None:
        return Bounds(row.word("symbol"), least, None, row.word("unit"), row.basis(column, note=note))
    most = _row(high).get(column)
    return Bounds(row.word("symbol"), least, most, row.word("unit"), row.basis(column, note=_end_note(high, column)))


def _end_note(high: str, column: str) -> str | None:
    """Soft classes may be harder at the end of the fastener; Table 3, footnote on hardness."""
    if high not in ("HV_max", "HRB_max"):
        return None
    end = _row(high.replace("_max", "_end_max")).get(column)
    return None if end is None else f"up to {end} when measured at the end of the fastener"


def _brinell_rows(column: str) -> dict[str, Bounds]:
    table = standard("iso_898_1_2013").table("table_3_brinell")
    found = {}
    for printed_in in dict.fromkeys(str(name) for name in table.column_values("printed_in")):
        rows = [table.rows[key] for key in table.rows if str(key[0]) == printed_in]
        by_bound = {str(row.key[1]): row for row in rows}
        low, high = by_bound["min"], by_bound["max"]
        found[printed_in] = Bounds("HBW", low.get(column), high.get(column), "HBW", low.basis(column))
    return found


def _brinell(column: str) -> dict[str, Bounds]:
    rows = _brinell_rows(column)
    printed = rows["2009 layout"]
    if not _disputed(rows):
        return {"hardness_brinell": printed}
    recalled = rows["2013 recalled"]
    note = (
        f"sources disagree: printed tables give {printed.min} to {printed.max}, "
        f"another source recalls {recalled.min} to {recalled.max} for 2013; name the edition to judge on this scale"
    )
    basis = type(printed.basis)("ISO 898-1", "2013", "Table 3", "tabulated", "conflict", note)
    return {"hardness_brinell": Bounds("HBW", printed.min, printed.max, "HBW", basis)}


def _disputed(rows: dict[str, Bounds]) -> bool:
    return len({(one.min, one.max) for one in rows.values()}) > 1


def _disputed_brinell(column: str) -> dict[str, dict[str, Bounds]]:
    """Brinell limits by edition where the sources disagree: classes 8.8 to 12.9."""
    rows = _brinell_rows(column)
    if not _disputed(rows):
        return {}
    return {"HBW": {name.split()[0]: one for name, one in rows.items()}}


def _surface(column: str) -> dict[str, Bounds]:
    """Cap of the surface hardness; Table 3, footnotes h to j. The core + 30 HV rule stands beside it."""
    row = _row("surface_HV_max")
    cap = row.get(column)
    rise = _row("surface_over_core_max").get(column)
    if rise is None:
        return {}
    basis = row.basis(column, note=f"and not more than {rise} HV above the core of the same piece, both in HV 0.3")
    return {"surface_hardness_vickers": Bounds("HV 0.3", None, cap, "HV", basis)}


def _surface_over_core(column: str) -> Bounds | None:
    row = _row("surface_over_core_max")
    rise = row.get(column)
    return None if rise is None else Bounds("HV 0.3", None, rise, "HV", row.basis(column))


def _tempering(property_class: str) -> dict[str, Bounds]:
    """Least tempering temperature; Table 2."""
    rows = [
        row
        for row in standard("iso_898_1_2013").table("table_2").rows.values()
        if str(row.key[0]) == property_class and row.get("tempering_min") is not None
    ]
    if not rows:
        return {}
    least = min(row.number("tempering_min") for row in rows)
    basis = rows[0].basis("tempering_min")
    return {"tempering_temperature": Bounds("t", least, None, "Cel", basis)}


def _stress_area(size: MetricSize) -> Bounds:
    """As,nom to three digits, printed where a table lists the thread; Tables 4 to 7."""
    facts = standard("iso_898_1_2013")
    for name in ("table_4", "table_6"):
        row = facts.table(name).find(size.designation)
        if row is not None:
            area = row.number("As")
            return Bounds("As", area, area, "mm2", row.basis("As"), area)
    area = nominal_stress_area(size)
    return Bounds("As", area, area, "mm2", facts.basis("clause 9.1.6.1", "formula"), area)


def _loads(size: MetricSize, property_class: str, column: str, notices: list[str]) -> dict[str, Bounds]:
    if size.d < 3:
        notices.append("ISO 898-1:2013, Tables 4 to 7, give no loads below M3: hardness decides")
        return {}
    return {
        "tensile_load": _load(size, property_class, column, "table_4", "Rm_min", "Fm,min"),
        "proof_load": _load(size, property_class, column, "table_5", "Sp", "Fp"),
    }


def _load(size: MetricSize, property_class: str, column: str, table: str, stress_row: str, symbol: str) -> Bounds:
    """Printed load where the table lists the thread, else As,nom times stress to three digits, ties to even."""
    row = standard("iso_898_1_2013").table(table).find(size.designation)
    if row is not None:
        name = property_class.removesuffix("U")
        load = row.number(name)
        return Bounds(symbol, load, None, "N", row.basis(name))
    area, stress = _stress_area(size), _row(stress_row)
    product = significant(area.nominal * stress.number(column), 3) if area.nominal is not None else None
    fine = {"table_4": "Table 6", "table_5": "Table 7"}[table]
    basis = stress.basis(column).computed(
        f"{fine}: As,nom x {stress.word('symbol')}, three significant digits",
        area.basis.checked,
        "formula",
        note="computed: the printed cell was not seen",
    )
    return Bounds(symbol, product, None, "N", basis)
