"""Tables against the formulas behind them: every cell follows, but for those that are listed.

ISO 965-1:2013, Tables 1 to 6 and clause 13; the listed cells stand in iso_965_1_2013/*_exceptions.csv. ISO 898-1:2013,
clause 9.10. A cell that is mistyped, or an exception that is smoothed away, turns one of these tests red.
"""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from published_values import load_checks
from published_values.thread_rules import MULTIPLIERS, by_rule, by_steps, cells, table_of

from boltwright_server.standards import standard

TABLES = {
    "deviation_exceptions.csv": (("table_1",), 91),
    "tolerance_exceptions.csv": (("table_2", "table_3", "table_4", "table_5"), 672),
    "engagement_exceptions.csv": (("table_6",), 94),
}


def listed(file: str) -> set[tuple[str, str, str]]:
    check = next(one for one in load_checks() if one.id == f"iso_965_1_2013/{file}")
    return {(row["cell"], row.get("d_over", "-"), row["pitch"]) for row in check.rows}


@pytest.mark.parametrize("file", TABLES)
def test_every_cell_that_is_not_listed_follows_the_formula(file: str) -> None:
    tables, count = TABLES[file]
    held = [one for one in cells() if table_of(one[0]) in tables]
    assert len(held) == count
    misses = {
        (cell, str(band[0]) if band else "-", str(pitch))
        for cell, pitch, band, value in held
        if by_rule(cell, pitch, band) != value
    }
    assert misses == listed(file)


def test_every_grade_stands_a_fixed_number_of_r40_steps_from_grade_6() -> None:
    """But for three cells, each found in print."""
    held = {(cell, band, pitch): value for cell, pitch, band, value in cells()}
    misses = {}
    for (cell, band, pitch), value in held.items():
        kind, _, grade = cell.rpartition("_")
        grade_6 = held.get((f"{'Td2' if kind == 'TD2' else kind}_6", band, pitch))
        if kind in MULTIPLIERS and grade_6 is not None and by_steps(kind, int(grade), grade_6) != value:
            misses[cell, pitch] = value
    assert misses == {("Td_8", Decimal(8)): 1180}


def test_the_minor_diameter_of_the_finest_threads_departs_from_the_steps() -> None:
    """TD1 at P 0.25 has no grade 6 in print; 45 and 56 are not the 48 and 60 of the steps from 75."""
    held = {(cell, pitch): value for cell, pitch, _, value in cells()}
    quarter = Decimal("0.25")
    assert (held["TD1_4", quarter], held["TD1_5", quarter]) == (45, 56)
    assert (by_steps("TD1", 4, Decimal(75)), by_steps("TD1", 5, Decimal(75))) == (48, 60)


def test_the_heights_of_the_zone_that_is_not_decarburized_are_fractions_of_the_rounded_thread_height() -> None:
    """ISO 898-1:2013, clause 9.10: H1 = 17/24 H, E = 1/2 H1 of 8.8 and 9.8, 2/3 of 10.9, 3/4 of 12.9 (Table 3, two
    reproductions). At P 0.8 the half of the rounded H1 is a tie, 0.2455, and the recalled cell is 0.245."""
    fractions = {"8.8": Fraction(1, 2), "9.8": Fraction(1, 2), "10.9": Fraction(2, 3), "12.9": Fraction(3, 4)}
    rows = standard("iso_898_1_2013").table("decarburisation").rows.values()
    misses = {}
    assert len(rows) == 13
    for row in rows:
        height = _to_um(Decimal(17) / 24 * Decimal(3).sqrt() / 2 * row.number("pitch"))
        assert row.number("H1") == height
        for code, share in fractions.items():
            least = row.number(f"E_min_{code}")
            if least != _to_um(height * share.numerator / share.denominator):
                misses[row.number("pitch"), code] = least
    assert misses == {(Decimal("0.8"), code): Decimal("0.245") for code in ("8.8", "9.8")}


def _to_um(height: Decimal) -> Decimal:
    return height.quantize(Decimal("0.001"), ROUND_HALF_UP)
