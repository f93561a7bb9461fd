"""Rules of test programmes, lengths, scopes, sampling and charts, each with the published files that must notice."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from boltwright_server.mechanical import iso_898_1, iso_898_1_tests, pairing
from boltwright_server.products import thread_class, thread_length
from boltwright_server.statistics import narrow_limits, run_rules

from .patches import Patch, attribute, cell, everywhere

FEASIBILITY, SCOPE = "iso_898_1_2013/test_feasibility.csv", "iso_898_1_2013/scope.csv"
SHANKS = "iso_888_2012/shank_lengths.csv"
CLASSES = "iso_4759_1_2000/thread_classes.csv"
SWITCHING = "iso_2859_1_1999/switching.csv"
RUNS = "iso_7870_2_2013/run_rules.csv"


def _applies(test: str, column: str, new: Decimal | None) -> Patch:
    return cell("iso_898_1_2013", "test_applicability", (test,), column, new)


def _not_read(properties: Any) -> dict[str, Any]:
    """Retempering without its temperature."""
    return {}


def _any_form(nut: Any, bolt: Any, form: str, needed: Any, form_is_named: bool) -> Any:
    """A nut of another form taken for one that is named."""
    return _COMPARED(nut, bolt, form, needed, True)


_COMPARED = pairing._compared_pair

FURTHER_RULES: dict[str, tuple[tuple[str, ...], Patch]] = {
    "torsion wants b >= 1 d + 2 P": ((FEASIBILITY,), _applies("torsion", "b_pitches_more", Decimal(1))),
    "torsion ends at 10 mm": ((FEASIBILITY,), _applies("torsion", "d_max", Decimal(12))),
    "torsion stands in for a wedge test that is not feasible": (
        (FEASIBILITY,),
        cell("iso_898_1_2013", "test_applicability", ("torsion",), "instead_of", "-"),
    ),
    "the wedge test starts at 2.5 d": ((FEASIBILITY,), _applies("wedge_tensile", "l_over_d_min", Decimal("2.4"))),
    "a stud must be 3 d long": ((FEASIBILITY,), _applies("tensile", "l_over_d_min_stud", None)),
    "head soundness below 3 d": ((FEASIBILITY,), _applies("head_soundness", "l_over_d_below", Decimal("3.1"))),
    "impact from 55 mm": ((FEASIBILITY,), _applies("impact", "l_min", Decimal(54))),
    "retempering 10 Cel below the tempering temperature": (
        ("iso_898_1_2013/test_settings.csv",),
        attribute(iso_898_1_tests, "_retempering", _not_read),
    ),
    "the wedge changes above 20 mm": (
        ("iso_898_1_2013/wedge_angles.csv",),
        cell("iso_898_1_2013", "wedge_angle", ("ls_ge_2d", "8.8"), "angle_d_gt_20", Decimal(10)),
    ),
    "fine threads from M8": ((SCOPE,), attribute(iso_898_1, "_SMALLEST_FINE", 6)),
    "structural 8.8 from M12": ((SCOPE,), attribute(iso_898_1, "_STRUCTURAL_SPLIT", 10)),
    "no hex nut on a structural bolt": (
        ("astm_f3125_2015/pairing.csv",),
        attribute(pairing, "_compared_pair", _any_form),
    ),
    "ls min = lg max - 5 P": ((SHANKS,), attribute(thread_length, "_incomplete", lambda row, size: 4 * size.pitch)),
    "a shank below d/2 counts as none": (
        (SHANKS,),
        cell("iso_888_2012", "shank", ("shank_min",), "multiple", Decimal("0.6")),
    ),
    "grade C from 8.8 has 6g": ((CLASSES,), attribute(thread_class, "_is_strong", lambda property_class: False)),
    "two of five refused tighten": ((SWITCHING,), everywhere("_TIGHTEN_AT", 3)),
    "of five lots, not six": ((SWITCHING,), everywhere("_OF_LOTS", 6)),
    "five accepted relax": ((SWITCHING,), everywhere("_RELAX_AFTER", 4)),
    "a score of 30 reduces": ((SWITCHING,), everywhere("_REDUCE_AT_SCORE", 33)),
    "five refused on tightened inspection end it": ((SWITCHING,), everywhere("_DISCONTINUE_AT", 6)),
    "a set-up takes five pieces": (
        ("narrow_limit_gauging/decisions.csv",),
        attribute(narrow_limits, "QUALIFYING_PIECES", 4),
    ),
    "a point on the limit is not outside it": (
        (RUNS,),
        lambda monkeypatch: monkeypatch.setitem(
            run_rules.RULES,
            "outside_limits",
            run_rules.Rule("", lambda chart: (chart.points >= chart.upper) | (chart.points < chart.lower)),
        ),
    ),
}
