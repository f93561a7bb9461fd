"""The rules of strengths, loads, torques and pairs, each with the published files that must notice when it is gone."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from boltwright_server.mechanical import (
    hardness_conversion,
    iso_898_1,
    iso_898_7,
    iso_3506,
    pairing,
    stress_grade_loads,
    stress_grades,
)
from boltwright_server.standards import Table

from .patches import Patch, attribute, cell

BOLTS = "iso_898_1_2013/mechanical.csv"
STAINLESS = "iso_3506_1_2009/mechanical.csv"
STAINLESS_LOADS = "iso_3506_1_2009/loads.csv"
TORQUES = "iso_3506_1_2009/breaking_torque.csv"
SMALL_TORQUES = ("iso_898_7_1992/mechanical.csv", "iso_898_7_1992/torque_by_rule.csv")
PAIRS = "iso_898_2_2012/pairing.csv"
PAIRED_CLASSES = "iso_898_2_2012/pairing_classes.csv"
CONVERSIONS = "iso_18265_2013/limits_of_iso_898_1.csv"
SAE = "sae_j429_2014/mechanical.csv"
SAE_LOADS = "sae_j429_2014/loads_by_rule.csv"
NUTS = "astm_a194_undated/loads_by_rule.csv"
SOCKET_LOADS = "astm_a574_undated/loads_by_rule.csv"
STRUCTURAL_LOADS = "astm_f3125_2015/loads_by_rule.csv"


def _other_form(facts: Any, grade: Any, size: Any) -> Any:
    """Loads of the hex nut for the heavy hex nut."""
    table: Table = facts.tables["loads.csv"]
    return table.find(grade.word("grade"), "hex", size.d, size.threads_per_inch)


def _up_to_the_upper_end(row: Any, size: Any) -> bool:
    """Bands taken from and including the lower end."""
    return bool(row.number("d_over") <= size.d < row.number("d_up_to"))


STRENGTH_RULES: dict[str, tuple[tuple[str, ...], Patch]] = {
    "structural bolting has its own column and loads": (
        (BOLTS,),
        cell("iso_898_1_2013", "footnotes_structural", ("M12",), "tensile", Decimal(67400)),
    ),
    "breaking torques are the printed ones": (
        SMALL_TORQUES,
        cell("iso_898_7_1992", "table_2", ("M3",), "8.8", Decimal("1.6")),
    ),
    "breaking torques go by class": (
        SMALL_TORQUES[:1],
        attribute(iso_898_1, "breaking_torque", lambda size, code: iso_898_7.breaking_torque(size, "8.8")),
    ),
    "the torque factor X falls with the class": (
        ("iso_898_7_1992/torque_by_rule.csv",),
        cell("iso_898_7_1992", "table_1", ("12.9",), "X", Decimal("0.84")),
    ),
    "stainless elongation is a multiple of d in mm": (
        (STAINLESS,),
        cell("iso_3506_1_2009", "table_2", ("A2", "70"), "A_min_over_d", Decimal("0.6")),
    ),
    "stainless loads are products that are not rounded": (
        (STAINLESS_LOADS,),
        attribute(iso_3506, "shortest", lambda load: load.quantize(Decimal("1E+2")) + 0),
    ),
    "stainless torques are of austenitic steel by class": (
        (TORQUES, STAINLESS),
        attribute(iso_3506, "_torque", lambda size, code: _TORQUE(size, "A2-50")),
    ),
    "a nut holds bolts up to its class": (
        (PAIRED_CLASSES,),
        attribute(pairing, "_rank", lambda property_class: 5),
    ),
    "class 12 proves less than 12.9 bears, and a warning says so": (
        (PAIRS, PAIRED_CLASSES),
        attribute(pairing, "_warnings", lambda proof, tensile: ()),
    ),
    "between two rows of hardness runs the straight line": (
        (CONVERSIONS,),
        attribute(hardness_conversion, "_between", lambda points, value: points[0].wanted - 1),
    ),
    "printed loads of a grade win over products": (
        (SAE_LOADS, NUTS, SOCKET_LOADS, STRUCTURAL_LOADS),
        attribute(stress_grade_loads, "_printed_row", lambda facts, grade, size: None),
    ),
    "hex and heavy hex nuts have their own loads": (
        (NUTS,),
        attribute(stress_grade_loads, "_printed_row", _other_form),
    ),
    "bands of inch grades are over ... up to and including": (
        (SAE, "astm_a354_undated/mechanical.csv", "astm_a449_undated/mechanical.csv"),
        attribute(stress_grades, "_covers", _up_to_the_upper_end),
    ),
    "stress areas are those that the standard prints": (
        ("sae_j429_2014/stress_area.csv",),
        cell("sae_j429_2014", "stress_area", (Decimal("1.0000"), Decimal(14)), "As", Decimal("0.680")),
    ),
    "A490 has a maximum": (
        (STRUCTURAL_LOADS, "astm_f3125_2015/mechanical.csv"),
        cell("astm_f3125_2015", "loads", ("A490", Decimal("0.8750"), Decimal(9)), "tensile_max", None),
    ),
}

_TORQUE = iso_3506._torque
