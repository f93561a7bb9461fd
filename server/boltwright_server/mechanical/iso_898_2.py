"""Nuts of carbon and alloy steel.

ISO 898-2:2012. Stresses in MPa, loads in N. The printed proof loads win over the products of area and stress.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from ..quantities import Bounds, NotStandardised
from ..standards import Row, Table, standard
from ..threads import MetricSize, nominal_stress_area
from .answer import MechanicalMinimums, Setting, Test

CLASSES = ("04", "05", "5", "6", "8", "9", "10", "12")
_SCALES = {"hardness_vickers": "HV", "hardness_brinell": "HBW", "hardness_rockwell_c": "HRC"}
_SOFT = (
    "this class is not quenched and tempered: the minimum hardness is guidance, the proof load decides "
    "where the nut can be tested (ISO 898-2:2012, clause 9.2)"
)


def nut_style(size: MetricSize, property_class: str) -> int:
    """Return the style of nut that a class has by default at a size: the lowest that Table 1 lists.

    ISO 898-2:2012, Table 1.

    Raises:
        NotStandardised: no style of that class covers the size.
    """
    styles = [
        int(str(row.cells["style"]))
        for row in _facts("table_1").rows.values()
        if str(row.cells["class"]) == property_class
        and str(row.cells["series"]) == size.series
        and row.number("D_min") <= size.d <= row.number("D_max")
    ]
    if not styles:
        raise NotStandardised(
            f"ISO 898-2:2012, Table 1 gives no style of class {property_class} for {size.designation}",
            member="property_class",
        )
    return min(styles)


@cache
def nut_minimums(size: MetricSize, property_class: str, style: int | None = None) -> MechanicalMinimums:
    """Return hardness and proof load of a nut thread in one property class; `style` 0 thin, 1 regular, 2 high.

    ISO 898-2:2012, Tables 1 and 4 to 7.

    Raises:
        NotStandardised: Table 1 gives no such class for the size and style.
    """
    notices: list[str] = []
    style = nut_style(size, property_class) if style is None else style
    _check_style(size, property_class, style)
    properties = _hardness(size, property_class, style, notices)
    stress = _stress(size, property_class, style)
    if stress is not None:
        properties["proof_stress"] = stress
    return MechanicalMinimums(
        standard="ISO 898-2",
        edition="2012",
        thread=size.designation,
        property_class=property_class,
        member="internal",
        stress_area=_stress_area(size),
        properties=properties,
        loads=_proof_load(size, property_class, style),
        tests=(_proof_test(),),
        notices=tuple(notices),
    )


def _facts(table: str) -> Table:
    return standard("iso_898_2_2012").table(table)


def _check_style(size: MetricSize, property_class: str, style: int) -> None:
    for row in _facts("table_1").rows.values():
        if (int(str(row.cells["style"])), str(row.cells["class"]), str(row.cells["series"])) == (
            style,
            property_class,
            size.series,
        ) and row.number("D_min") <= size.d <= row.number("D_max"):
            return
    raise NotStandardised(
        f"ISO 898-2:2012, Table 1 gives no class {property_class} of style {style} for {size.designation}",
        member="property_class",
    )


def _hardness(size: MetricSize, property_class: str, style: int, notices: list[str]) -> dict[str, Bounds]:
    table = _facts("table_6" if size.series == "coarse" else "table_7")
    row = _band(table, size.d, property_class, style)
    if row is None:
        notices.append(f"{table.cited} gives no hardness for class {property_class}, {size.designation}")
        return {}
    soft = row.word("quenched_and_tempered") == "no"
    found = {}
    for id, scale in _SCALES.items():
        if f"{scale}_max" in row.cells:
            column = f"{scale}_max"
            low, high = row.get(f"{scale}_min"), row.get(column)
            found[id] = Bounds(scale, low, high, scale, row.basis(column, note=_SOFT if soft else None))
    if soft:
        notices.append(_SOFT)
    return found


def _band(table: Table, size: Decimal, property_class: str, style: int) -> Row | None:
    return table.find_in_band(size, property_class, str(style))


def _stress(size: MetricSize, property_class: str, style: int) -> Bounds | None:
    """Stress under proof load Sp; ISO 898-2:1992 and ISO 898-6:1994 columns behind the printed loads."""
    if size.series == "coarse":
        row = _band(_facts("stress_coarse"), size.d, property_class, style)
    else:
        row = _facts("stress_fine").find_in_band(size.d, property_class)
    if row is None or row.get("Sp") is None:
        return None
    return Bounds("Sp", row.number("Sp"), None, "MPa", row.basis("Sp"))


def _load_row(size: MetricSize) -> Row | None:
    return _facts("table_4" if size.series == "coarse" else "table_5").find(size.designation)


def _stress_area(size: MetricSize) -> Bounds:
    row = _load_row(size)
    if row is not None:
        area = row.number("As")
        return Bounds("As", area, area, "mm2", row.basis("As"), area)
    area = nominal_stress_area(size)
    basis = standard("iso_898_1_2013").basis("clause 9.1.6.1", "formula")
    return Bounds("As", area, area, "mm2", basis, area)


def _proof_load(size: MetricSize, property_class: str, style: int) -> dict[str, Bounds]:
    """Printed proof load; Tables 4 and 5.

    Raises:
        NotStandardised: the table does not list the thread or gives no load for the class.
    """
    row = _load_row(size)
    if row is None or property_class not in row.cells:
        raise NotStandardised(
            f"ISO 898-2:2012, Tables 4 and 5 give no proof load of class {property_class} for {size.designation}",
            member="thread",
        )
    return {"proof_load": Bounds("Fp", row.number(property_class), None, "N", row.basis(property_class))}


def _proof_test() -> Test:
    settings = {}
    for name, parameter, side in (
        ("hold_time", "proof_hold_time_min", "min"),
        ("mandrel_hardness", "mandrel_hardness_min", "min"),
        ("cross_head_speed", "proof_crosshead_speed_max", "max"),
    ):
        row = _facts("test_parameters").find(parameter)
        if row is not None:
            value = row.number("value")
            low, high = (value, None) if side == "min" else (None, value)
            settings[name] = Setting(low, high, row.word("unit"), row.basis("value"))
    return Test(
        "proof_load",
        "proof load test on a hardened threaded mandrel; the nut must come off by hand afterwards",
        True,
        "D >= 5 mm",
        settings,
        standard("iso_898_2_2012").basis("clause 9.1", "memory"),
    )
