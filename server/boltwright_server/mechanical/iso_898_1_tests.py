"""Which tests ISO 898-1 prescribes for a bolt, and how the machine is set.

ISO 898-1:2013, clause 9 and Tables 8 to 12. Much of it is recalled and says so in each basis.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Basis
from ..standards import Row, standard
from ..threads import MetricSize
from .answer import Setting, Test

_NAMES = {
    "wedge_tensile": "tensile test under wedge loading of finished bolts",
    "tensile": "tensile test of finished bolts",
    "full_size_elongation": "elongation and stress of full-size bolts",
    "proof_load": "proof load test of finished bolts",
    "head_soundness": "head soundness test",
    "impact": "impact test of machined pieces",
    "torsion": "torsional test",
}
#: test id -> {setting: (parameter of the standard, is it a minimum or a maximum)}
_SETTINGS: dict[str, dict[str, tuple[str, str]]] = {
    "wedge_tensile": {
        "cross_head_speed": ("tensile_crosshead_speed_max", "max"),
        "free_threaded_length_in_d": ("free_threaded_length_over_d_min", "min"),
        "wedge_hardness": ("wedge_hardness_min", "min"),
    },
    "tensile": {
        "cross_head_speed": ("tensile_crosshead_speed_max", "max"),
        "free_threaded_length_in_d": ("free_threaded_length_over_d_min", "min"),
    },
    "proof_load": {
        "hold_time": ("proof_hold_time_min", "min"),
        "permanent_set": ("proof_permanent_set_max", "max"),
        "cross_head_speed": ("proof_crosshead_speed_max", "max"),
    },
}


def bolt_tests(
    size: MetricSize,
    property_class: str,
    length: Decimal | None = None,
    thread_length: Decimal | None = None,
    fully_threaded: bool = False,
) -> tuple[Test, ...]:
    """Return every test of the standard with whether it applies; lengths in mm.

    ISO 898-1:2013, Tables 8 to 12. `applies` is None where a length would be needed to say.
    """
    rows = standard("iso_898_1_2013").table("test_applicability").rows.values()
    long_shank = _long_shank(size, length, thread_length, fully_threaded)
    return tuple(
        Test(
            str(row.key[0]),
            _NAMES[str(row.key[0])],
            _applies(row, size, length, thread_length),
            _condition(row),
            _settings(str(row.key[0]), size, property_class, long_shank),
            _basis(row),
        )
        for row in rows
    )


def tensile_test_possible(size: MetricSize, length: Decimal, thread_length: Decimal) -> bool:
    """Say whether a finished bolt can be pulled; if not, hardness decides.

    ISO 898-1:2013, clause 9.1: d >= 3 mm, l >= 2.5 d, b >= 2 d.
    """
    row = standard("iso_898_1_2013").table("test_applicability").find("wedge_tensile")
    return row is not None and bool(_applies(row, size, length, thread_length))


def _basis(row: Row) -> Basis:
    return row.table.standard.basis(f"clause {row.word('clause')}", row.checked("d_min"), "tabulated")


def _applies(row: Row, size: MetricSize, length: Decimal | None, thread_length: Decimal | None) -> bool | None:
    d_min, d_max = row.get("d_min"), row.get("d_max")
    if (d_min is not None and size.d < d_min) or (d_max is not None and size.d > d_max):
        return False
    needs_length = [name for name in ("l_over_d_min", "l_min", "b_over_d_min") if row.get(name) is not None]
    if length is None:
        return None if needs_length else True
    if _short(length, row.get("l_over_d_min"), size.d) or _short(length, row.get("l_min"), Decimal(1)):
        return False
    below = row.get("l_over_d_below")
    if below is not None and length >= below * size.d:
        return False
    return not (thread_length is not None and _short(thread_length, row.get("b_over_d_min"), size.d))


def _short(length: Decimal, multiple: Decimal | None, of: Decimal) -> bool:
    return multiple is not None and length < multiple * of


def _condition(row: Row) -> str:
    words = (
        ("d_min", "d >= {} mm"),
        ("d_max", "d <= {} mm"),
        ("l_over_d_min", "l >= {} d"),
        ("l_over_d_below", "l < {} d"),
        ("b_over_d_min", "b >= {} d"),
        ("l_min", "l >= {} mm"),
    )
    return ", ".join(text.format(row.get(column)) for column, text in words if row.get(column) is not None)


def _long_shank(
    size: MetricSize, length: Decimal | None, thread_length: Decimal | None, fully_threaded: bool
) -> bool | None:
    if fully_threaded:
        return False
    if length is None or thread_length is None:
        return None
    return length - thread_length >= 2 * size.d


def _settings(test: str, size: MetricSize, property_class: str, long_shank: bool | None) -> dict[str, Setting]:
    found = {}
    for name, (parameter, side) in _SETTINGS.get(test, {}).items():
        row = standard("iso_898_1_2013").table("test_parameters").find(parameter)
        if row is not None:
            value = row.number("value")
            low, high = (value, None) if side == "min" else (None, value)
            found[name] = Setting(low, high, row.word("unit"), row.basis("value"))
    if test == "wedge_tensile":
        found |= _wedge(size, property_class, long_shank)
    return found


def _wedge(size: MetricSize, property_class: str, long_shank: bool | None) -> dict[str, Setting]:
    """Wedge angle and hole; clause 9.1, tables recalled. No angle where the shank length is not known."""
    facts = standard("iso_898_1_2013")
    found = {}
    if long_shank is not None:
        shank = next(str(key[0]) for key in facts.table("wedge_angle").rows if _is_long(str(key[0])) is long_shank)
        row = next(
            row
            for key, row in facts.table("wedge_angle").rows.items()
            if str(key[0]) == shank and str(key[1]) == property_class
        )
        column = "angle_d_le_20" if size.d <= 20 else "angle_d_gt_20"
        angle = row.number(column)
        found["wedge_angle"] = Setting(angle, angle, "deg", row.basis(column))
    hole = facts.table("wedge_hole").find(f"M{size.d}")
    if hole is not None:
        found["wedge_hole"] = Setting(hole.number("dh_min"), hole.number("dh_max"), "mm", hole.basis("dh_min"))
    return found


def _is_long(shank: str) -> bool:
    return "ge_2d" in shank
