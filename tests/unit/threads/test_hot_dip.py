"""Tolerance classes for hot-dip galvanized threads: ISO 965-4:1998, ISO 965-5:1998, ISO 10684:2004, Annex B."""

from __future__ import annotations

from decimal import Decimal

import pytest

from boltwright_server.designations import parse_thread
from boltwright_server.quantities import NotStandardised, NotUnderstood, UnknownName
from boltwright_server.standards import standard
from boltwright_server.threads import ToleranceClass, find_size, limits, sizes
from boltwright_server.threads.hot_dip import CLASSES, hot_dip_cells
from boltwright_server.threads.iso_metric_tolerances import tolerances

FORMULAS = {  # in um, P in mm: the scope clauses of ISO 965-4 and ISO 965-5
    "6az": lambda P: -(300 + 20 * P),
    "6AZ": lambda P: 300 + 20 * P,
    "6AX": lambda P: 220 * P - 20,
}
GRADE_6 = {"6az": "6g", "6AZ": "6H", "6AX": "6H"}
COARSE = [size for size in sizes() if size.series == "coarse" and 8 <= size.d <= 64 and size.d not in (9, 11)]


@pytest.mark.parametrize("name", CLASSES)
@pytest.mark.parametrize("size", COARSE, ids=lambda size: size.designation)
def test_table_follows_formula_and_grade_6_of_iso_965_1(size, name):
    cells = hot_dip_cells(size, ToleranceClass.parse(name))
    grade_6 = tolerances(size, ToleranceClass.parse(GRADE_6[name]))
    assert cells.deviation == FORMULAS[name](size.pitch)
    assert (cells.pitch, cells.crest) == (grade_6.pitch, grade_6.crest)


@pytest.mark.parametrize("size", [size for size in COARSE if size.d > 8], ids=lambda size: size.designation)
def test_minor_diameter_for_stress_is_the_printed_deviation(size):
    """ISO 965-4 prints the deviation of d3 from d; the engine computes d1 - round(|es| + H/6)."""
    row = standard("iso_965_4_1998").table("deviations").find(size.designation)
    basic = limits(size, ToleranceClass.parse("6az")).limits["minor_diameter"].nominal
    stress = limits(size, ToleranceClass.parse("6az")).reference["stress_minor_diameter"].min
    assert stress == basic + row.number("deviation_d3_stress") / 1000


@pytest.mark.parametrize("size", ["M6", "M9", "M11", "M68", "M10x1.25"])
def test_no_such_thread_is_standardised(size):
    thread = parse_thread(f"{size}-6az")
    with pytest.raises(NotStandardised, match="M10 to M64"):
        limits(thread.size, thread.classes[0])


def test_only_grade_6_is_standardised():
    with pytest.raises(UnknownName) as refused:
        limits(find_size(Decimal(12)), ToleranceClass.parse("5az"))
    assert refused.value.nearest == ("6az",)


@pytest.mark.parametrize("text", ["M12-6Az", "M12-6aZ", "M12-6ax"])
def test_capitals_decide_between_bolt_and_nut(text):
    with pytest.raises(NotUnderstood):
        parse_thread(text)
