"""Each rule and each exception of the standards, taken away, turns a file of published values red.

One line a rule: its name, the files of tests/published that must notice, and the change. A rule that can be changed
without a line turning red is not tested by published values.
"""

from collections.abc import Callable
from dataclasses import replace
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Any

import pytest
from engine import clear_caches, replace_everywhere
from published_values import QUESTIONS, Check, load_checks, mismatches
from published_values.coating_rules import COATING_RULES
from published_values.further_rules import FURTHER_RULES
from published_values.inch_rules import INCH_RULES
from published_values.strength_rules import STRENGTH_RULES
from published_values.thread_rules import table_of

from boltwright_server.conformance import column_plan, rules
from boltwright_server.gauges import iso_1502, iso_1502_frame
from boltwright_server.mechanical import iso_898_1, iso_898_1_tests, iso_898_2
from boltwright_server.products import product_grade, table_engine, thread_length
from boltwright_server.quantities.rounding import significant
from boltwright_server.specification import mechanical as mechanical_characteristics
from boltwright_server.standards import Row, Table, standard
from boltwright_server.threads import ToleranceClass, iso_metric_limits, rounded_root, stress_area
from boltwright_server.threads.geometry import H_PER_PITCH, PI, tabulated

Patch = Callable[[pytest.MonkeyPatch], None]
CHECKS = {check.id: check for check in load_checks()}

EXTERNAL = "iso_965_1_2013/thread_limits_external.csv"
INTERNAL = "iso_965_1_2013/thread_limits_internal.csv"
GAUGES = "iso_1502_1996/gauge_sizes_formula.csv"
GAUGES_PRINTED = "iso_1502_1996/gauge_sizes_published.csv"
LENGTHS = "iso_4759_1_2000/length_limits.csv"
CLASSES = "iso_4759_1_2000/tolerance_classes.csv"
BOLTS = "iso_4014_2011/product_dimensions.csv"
LOADS = "iso_898_1_2013/loads_by_rule.csv"
NUT_LOADS = "iso_898_2_2012/loads_by_rule.csv"
SURFACE = "iso_898_1_2013/surface_hardness.csv"
ROOT = "iso_965_1_2013/root_at_go_gauge.csv"
DECISIONS = "iso_14253_1_2017/decision_rule.csv"
E29 = "astm_e29/rounding_and_limits.csv"


def everywhere(name: str, new: Any) -> Patch:
    return lambda monkeypatch: replace_everywhere(monkeypatch, name, new)


def attribute(owner: object, name: str, new: Any) -> Patch:
    return lambda monkeypatch: monkeypatch.setattr(owner, name, new)


def cell(folder: str, table: str, key: tuple[Any, ...], column: str, new: Any) -> Patch:
    def patch(monkeypatch: pytest.MonkeyPatch) -> None:
        set_cell(monkeypatch, standard(folder).table(table).rows[key], column, new)

    return patch


def set_cell(monkeypatch: pytest.MonkeyPatch, row: Row, column: str, new: Any) -> None:
    assert row.cells[column] != new
    monkeypatch.setitem(row.cells, column, new)  # type: ignore[arg-type]


def lower_end_included(table: Table, size: Decimal, *rest: Any) -> Row | None:
    """Bands taken from and including the lower end, in place of over ... up to and including."""
    return next((row for over, up_to, row in table._bands.get(rest, ()) if over <= size < up_to), None)


def crest_first(text: str) -> ToleranceClass:
    """A split class read the wrong way round."""
    right = PARSE(text)
    return ToleranceClass(right.crest_grade, right.crest_position, right.pitch_grade, right.pitch_position)


def doubled(lower: Decimal, upper: Decimal, checked: str) -> tuple[Decimal, Decimal, str]:
    """js taken as the whole grade to both sides."""
    return (lower, upper, checked) if upper == 0 else (2 * lower, 2 * upper, checked)


def rounded_area(size: Any) -> Decimal:
    d2 = tabulated(stress_area.pitch_diameter(size.d, size.pitch))
    d3 = tabulated(stress_area.root_diameter(size.d, size.pitch))
    return PI / 4 * ((d2 + d3) / 2) ** 2


def product_load(size: Any, grade: Any, column: str, load: str) -> Any:
    """Every load as the product of area and stress, as if no table were printed."""
    area, stress = iso_898_1._stress_area(size), iso_898_1.table_3(iso_898_1._LOAD_TABLES[load][3])
    assert area.nominal is not None
    product = significant(area.nominal * stress.number(column), 3)
    return replace(area, min=product, max=None, nominal=None, unit="N")


def product_nut_load(size: Any, code: str) -> Any:
    area, stress = iso_898_2._stress_area(size), iso_898_2._stress(size, code, iso_898_2.nut_styles(size, code)[0])
    assert area.nominal is not None
    assert stress is not None
    assert stress.min is not None
    load = (area.nominal * stress.min / 100).quantize(Decimal(1), ROUND_HALF_UP) * 100
    return {"proof_load": replace(area, symbol="Fp", min=load, max=None, nominal=None, unit="N")}


def earlier(end: int) -> Any:
    """Let a column of the thread length end half a millimetre before the length that it is for."""
    held = thread_length._end_of

    def moved(column: str) -> Decimal | None:
        found = held(column)
        return found - Decimal("0.5") if found == end else found

    return moved


def without_zr(row: Row, column: str) -> Decimal:
    value = NUMBER(row, column)
    return -value if column == "Z_R" else value


def with_head_junction(*args: Any) -> Any:
    found = TENSILE(*args)
    found["fracture_location"] = replace(found["fracture_location"], allowed=("thread", "shank", "head_junction"))
    return found


PARSE, NUMBER, TENSILE = ToleranceClass.parse, Row.number, mechanical_characteristics._tensile
FRAME, ROOT_MAX, LIMITS = iso_1502_frame.frame_of, iso_metric_limits.root_max, product_grade.limits_of_class

#: name of the rule -> files that must turn red, the change
RULES: dict[str, tuple[tuple[str, ...], Patch]] = {
    # threads
    "H = sqrt(3)/2 P, not 0.866 P": ((EXTERNAL, INTERNAL), everywhere("H_PER_PITCH", Decimal("0.866"))),
    "d2 = d - 0.649519 P, not 0.6495 P": (
        (EXTERNAL, INTERNAL),
        everywhere("pitch_diameter", lambda d, pitch: d - Decimal("0.6495") * pitch),
    ),
    "d1 = d - 1.082532 P, not 1.0825 P": (
        (EXTERNAL, INTERNAL),
        everywhere("minor_diameter", lambda d, pitch: d - Decimal("1.0825") * pitch),
    ),
    "basic diameters are rounded first, not last": ((EXTERNAL, INTERNAL, GAUGES), everywhere("tabulated", lambda d: d)),
    "diameters round half up": (
        (EXTERNAL,),
        attribute(
            iso_metric_limits, "half_up", lambda value, quantum: value.quantize(Decimal(quantum), ROUND_HALF_EVEN)
        ),
    ),
    "bands are over ... up to and including": (
        (EXTERNAL, INTERNAL, LENGTHS, CLASSES, "iso_286_1_2010/limit_deviations.csv", GAUGES_PRINTED),
        attribute(Table, "find_in_band", lower_end_included),
    ),
    "split classes name the pitch diameter first": ((EXTERNAL,), attribute(ToleranceClass, "parse", crest_first)),
    "the root never passes the GO gauge": (
        (ROOT,),
        attribute(iso_metric_limits, "root_max", lambda size, d2, Td2, flat: ROOT_MAX(size, d2, Td2, size.d)),
    ),
    "the root radius is 0.125 P": ((EXTERNAL,), attribute(rounded_root, "_RADIUS", H_PER_PITCH / 6)),
    "M3 Td2 of grade 6 is 75": (
        (EXTERNAL,),
        cell("iso_965_1_2013", "table_5", (Decimal("2.8"), Decimal("5.6"), Decimal("0.5")), "Td2_6", Decimal(80)),
    ),
    "stress area from unrounded diameters": (
        ("iso_898_1_2013/tensile_stress_area.csv",),
        attribute(stress_area, "unrounded_stress_area", rounded_area),
    ),
    "d3 is d1 - H/6": (
        ("iso_898_1_2013/tensile_stress_area.csv",),
        everywhere("root_diameter", lambda d, pitch: d - H_PER_PITCH * pitch * 5 / 4),
    ),
    # gauges
    "Z_R is negative for small tolerances": ((GAUGES,), attribute(Row, "number", without_zr)),
    "F1 is H/8": (
        (GAUGES, GAUGES_PRINTED),
        attribute(iso_1502, "frame_of", lambda *args: replace(FRAME(*args), F1=args[0].pitch / 10)),
    ),
    "gauge limits stand on a grid finer than 1 um": ((GAUGES,), attribute(iso_1502_frame, "_GRID", Decimal("0.001"))),
    "the minor diameter of a GO ring is D1 + es": (
        (GAUGES,),
        attribute(iso_1502, "frame_of", lambda *args: replace(f := FRAME(*args), d1=f.d1 - f.deviation)),
    ),
    # products
    "grade A ends at l = 10 d": (
        (BOLTS,),
        attribute(table_engine, "product_grade", lambda d, length: "A" if d <= 24 and length <= 150 else "B"),
    ),
    "grade A ends at l = 150": (
        (BOLTS,),
        attribute(table_engine, "product_grade", lambda d, length: "A" if d <= 24 and length <= 10 * d else "B"),
    ),
    "grade A ends at d = 24": (
        (BOLTS,),
        attribute(table_engine, "product_grade", lambda d, length: "A" if length <= min(10 * d, 150) else "B"),
    ),
    "l = 10 d itself is grade A": (
        (BOLTS,),
        attribute(
            table_engine, "product_grade", lambda d, length: "A" if d <= 24 and length < min(10 * d, 151) else "B"
        ),
    ),
    "b steps at 125 and 200 mm": ((BOLTS,), attribute(thread_length, "_end_of", earlier(125))),
    "b steps at 200 mm": ((BOLTS,), attribute(thread_length, "_end_of", earlier(200))),
    "lengths of grade B have js17": (
        (LENGTHS,),
        cell("iso_4759_1_2000", "tolerance_classes", ("l", "B", Decimal(0), Decimal(500)), "class", "js15"),
    ),
    "lengths of grade C double above 150": (
        (LENGTHS,),
        cell("iso_4759_1_2000", "tolerance_classes", ("l", "C", Decimal(150), Decimal(500)), "class", "js17"),
    ),
    "js is half the grade to both sides": (
        (LENGTHS, "iso_286_1_2010/limit_deviations.csv"),
        everywhere("limits_of_class", lambda tolerance, size: doubled(*LIMITS(tolerance, size))),
    ),
    # mechanical
    "class 8.8: 16 mm belongs to the lower column": (
        (LOADS,),
        attribute(
            iso_898_1,
            "_column",
            lambda size, grade: (
                ("8.8_d_le_16" if size.d < 16 else "8.8_d_gt_16") if grade.code == "8.8" else grade.code
            ),
        ),
    ),
    "class 8.8 splits at 16 mm": (("iso_898_1_2013/mechanical.csv", LOADS), attribute(iso_898_1, "_SPLIT", 20)),
    "printed loads win over products": (
        (LOADS, "iso_898_1_2013/mechanical.csv"),
        attribute(iso_898_1, "_load", product_load),
    ),
    "printed nut loads win over products": (
        (NUT_LOADS, "iso_898_2_2012/mechanical.csv"),
        attribute(iso_898_2, "_proof_load", product_nut_load),
    ),
    "surface hardness: core + 30": ((SURFACE,), attribute(iso_898_1, "surface_over_core", lambda column: None)),
    "surface hardness: cap of the class": (
        (SURFACE,),
        cell("iso_898_1_2013", "table_3", ("surface_HV_max",), "10.9", Decimal(410)),
    ),
    "the set after the proof load is 12.5 um at most": (
        ("iso_898_1_2013/proof_set.csv",),
        cell("iso_898_1_2013", "test_settings", ("proof_load", "permanent_set"), "max", Decimal(15)),
    ),
    "a break at the head junction fails": (
        ("iso_898_1_2013/wedge_fracture.csv",),
        attribute(mechanical_characteristics, "_tensile", with_head_junction),
    ),
    "the wedge is steeper on a long shank": (
        ("iso_898_1_2013/wedge_angle.csv",),
        attribute(iso_898_1_tests, "has_long_shank", lambda size, shape: shape.fully_threaded),
    ),
    "class 10.9 has its own hardness window": (
        ("iso_898_1_2013/mechanical.csv",),
        cell("iso_898_1_2013", "table_3", ("HV_max",), "10.9", Decimal(382)),
    ),
    # decisions
    "2017 guards with 1.65 u": ((DECISIONS,), attribute(rules, "ONE_SIDED_2017", Fraction(2))),
    "2013 guards with 2 u": ((DECISIONS,), attribute(rules, "GUARD_2013", Fraction(165, 100))),
    "the guard band goes inward for conformity": (
        (DECISIONS,),
        attribute(rules, "_inward_2017", lambda low, high, u: -rules.ONE_SIDED_2017 * u),
    ),
    "a small tolerance needs both limits": ((DECISIONS,), attribute(rules, "_TWO_SIDED_BELOW", 0)),
    "below 3.92 u nothing is proved": ((DECISIONS,), attribute(rules, "_UNATTAINABLE_BELOW", Fraction(0))),
    "a reading on an acceptance limit conforms": (
        (DECISIONS,),
        attribute(column_plan, "greatest_double", lambda edge: rules.greatest_double(replace(edge, inclusive=False))),
    ),
    "a reading on the outer edge is undecided": (
        (DECISIONS,),
        attribute(column_plan, "least_double", lambda edge: rules.least_double(replace(edge, inclusive=True))),
    ),
    "absolute and rounded differ": (
        (E29,),
        attribute(rules, "_rounded_low", lambda limit, quantum, ties: None if limit is None else rules.Edge(limit)),
    ),
    "readings round half to even": ((E29,), attribute(rules, "_even", lambda limit, quantum: False)),
    "loads are stated to 100 N": ((E29,), attribute(rules, "stated_digit", lambda limit, unit: Decimal(1))),
    "rule A rounds to the even multiple": (
        ("iso_80000_1_2009/rounding.csv",),
        lambda monkeypatch: monkeypatch.setitem(_rules_of_annex_b(), "A", _rules_of_annex_b()["B"]),
    ),
    **COATING_RULES,
    **INCH_RULES,
    **STRENGTH_RULES,
    **FURTHER_RULES,
}


def _rules_of_annex_b() -> dict[str, Any]:
    from published_values.questions import rounding

    return rounding._RULES


@pytest.fixture(autouse=True)
def _caches() -> Any:
    clear_caches()
    yield
    clear_caches()


@pytest.mark.parametrize("rule", RULES)
def test_a_rule_taken_away_is_noticed(rule: str, monkeypatch: pytest.MonkeyPatch) -> None:
    files, patch = RULES[rule]
    patch(monkeypatch)
    clear_caches()
    blind = [file for file in files if not disagrees(CHECKS[file])]
    assert not blind, f"{blind} still agree"


def disagrees(check: Check) -> bool:
    try:
        return bool(mismatches(check, QUESTIONS[check.question]))
    except (AssertionError, AttributeError, KeyError, StopIteration, TypeError, ValueError):
        return True


def listed_exceptions(question: str) -> list[Check]:
    """Return one check of one row for each cell that is listed as an exception to its rule."""
    return [
        replace(check, rows=(row,))
        for check in CHECKS.values()
        for row in check.rows
        if check.question == question and row.get("exception", "yes") != "-"
    ]


def test_an_exception_of_a_product_table_smoothed_away_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each cell of rule_vs_table that departs from ISO 4759-1, set to what the rule gives."""
    listed = listed_exceptions("product_dimensions")
    assert len(listed) >= 18
    for check in listed:
        row = check.rows[0]
        table = standard(check.folder).table("table_1")
        column = next(name for name in (row["symbol"], f"{row['symbol']}_{row['grade']}") if name in table.columns)
        with monkeypatch.context() as patched:
            set_cell(patched, table.rows[(row["thread"],)], column, Decimal(row["rule"]))
            clear_caches()
            assert disagrees(check), f"{check.id}: {row}"


def test_a_printed_load_replaced_by_its_product_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each load of ISO 898-1 and ISO 898-2 that is printed otherwise, set to the rounded product."""
    listed = listed_exceptions("mechanical_by_rule")
    assert len(listed) >= 25
    tables = {("ISO 898-1", "tensile_load_min"): "table_4", ("ISO 898-1", "proof_load"): "table_5"}
    for check in listed:
        row = check.rows[0]
        table = standard(check.folder).table(tables.get((check.standard, row["quantity"]), "table_4"))
        with monkeypatch.context() as patched:
            set_cell(patched, table.rows[(row["thread"],)], row["property_class"], Decimal(row["rule"]))
            clear_caches()
            assert disagrees(check), f"{check.id}: {row}"


def test_a_thread_tolerance_replaced_by_its_formula_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each of the 145 cells of ISO 965-1 that its formula misses, set to the R40 number of the formula."""
    listed = listed_exceptions("thread_rule_exceptions")
    assert len(listed) == 82 + 14 + 49
    for check in listed:
        row = check.rows[0]
        table = standard(check.folder).table(table_of(row["cell"]))
        band = [Decimal(row[name]) for name in ("d_over", "d_up_to") if row.get(name, "-") != "-"]
        with monkeypatch.context() as patched:
            set_cell(patched, table.rows[(*band, Decimal(row["pitch"]))], row["cell"], Decimal(row["by_rule"]))
            assert disagrees(check), f"{check.id}: {row}"


def test_a_cell_that_is_not_standardised_may_not_be_filled(monkeypatch: pytest.MonkeyPatch) -> None:
    """M1-6H, filled by the formula as public tables fill it, is noticed."""
    check = CHECKS["iso_965_1_2013/not_standardised.csv"]
    first = replace(check, rows=tuple(row for row in check.rows if row["designation"] == "M1-6H"))
    tables = standard("iso_965_1_2013")
    quarter = Decimal("0.25")
    set_cell(monkeypatch, tables.table("table_2").rows[(quarter,)], "TD1_6", Decimal(71))
    set_cell(
        monkeypatch, tables.table("table_4").rows[(Decimal("0.99"), Decimal("1.4"), quarter)], "TD2_6", Decimal(71)
    )
    clear_caches()
    assert disagrees(first)
