"""Bolts, screws and studs of carbon and alloy steel.

ISO 898-1:2013. Stresses in MPa, loads in N. The printed load tables win over the products of area and stress.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from ..quantities import Bounds, Contradiction, NotStandardised, OutsideScope
from ..quantities.keeper import remembered
from ..quantities.rounding import significant
from ..standards import Row, rules
from ..threads import MetricSize
from .answer import Mark, MechanicalMinimums, PartShape, Test
from .composition import steels_of
from .grade import Grade
from .iso_898_1_properties import class_properties, disputed_brinell, surface_over_core, table_3
from .iso_898_1_tests import class_settings
from .iso_898_7 import breaking_torque
from .marking import marks_of
from .stress_area import stress_area
from .test_programme import Candidate, programme_of

STANDARD = "ISO 898-1"
CLASSES = ("4.6", "4.8", "5.6", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9", "12.9U")
#: Class 8.8 has two columns; 16 mm itself belongs to the first, for structural bolting only sizes below 12 mm do,
#: and that column is not for structural bolting (Table 3, footnotes a and b).
_SPLIT, _STRUCTURAL_SPLIT = 16, 12
_STRUCTURAL = ("8.8", "10.9")
_LARGEST = 39
_SMALLEST = Decimal("1.6")
#: The smallest fine thread is M8x1 (clause 1).
_SMALLEST_FINE = 8
_REDUCED = (
    "reduced loadability: head or shank is weaker than the thread; the loads are those of the product standard, "
    "hardness and material are those of class {}"
)


def bolt_minimums(size: MetricSize, grade: Grade, shape: PartShape | None = None) -> MechanicalMinimums:
    """Return the properties, loads and tests of a bolt thread in one property class.

    ISO 898-1:2013, Tables 2 to 12.

    Raises:
        OutsideScope: the diameter lies outside 1.6 to 39 mm, of fine threads outside 8 to 39 mm.
        NotStandardised: class 9.8 above 16 mm, or structural bolting below M12.
        Contradiction: structural bolting in a class that has none.
    """
    found = _of_thread(size, grade)
    if shape is None:
        return found
    tests = _tests(size, grade, found.properties, found.loads, shape)
    return replace(found, tests=tests, marking=_marking(size, grade, shape.kind))


@remembered(4096)
def _of_thread(size: MetricSize, grade: Grade) -> MechanicalMinimums:
    """What does not depend on the shape of the bolt; the tests are those of any shape."""
    _check_scope(size, grade)
    column = _column(size, grade)
    notices: list[str] = []
    loads, facts = _loads(size, grade, column, notices), rules(STANDARD)
    properties = class_properties(size, grade.code, column)
    return MechanicalMinimums(
        standard=facts.id,
        edition=facts.edition,
        thread=size.designation,
        property_class=grade.name,
        member="external",
        stress_area=_stress_area(size),
        properties=properties,
        loads=loads,
        tests=_tests(size, grade, properties, loads, None),
        notices=tuple(notices),
        disputed=disputed_brinell(column),
        surface_over_core=surface_over_core(column),
        steels=steels_of(_steel_rows(grade.code), "material"),
        marking=_marking(size, grade, "hexagon"),
    )


def _check_scope(size: MetricSize, grade: Grade) -> None:
    named = rules(STANDARD).cited
    if not _SMALLEST <= size.d <= _LARGEST:
        raise OutsideScope(
            f"{named} covers M{_SMALLEST} to M{_LARGEST}; {size.designation} lies outside",
            member="thread",
        )
    if size.series == "fine" and size.d < _SMALLEST_FINE:
        raise OutsideScope(
            f"{named} covers fine threads from M8x1 to M39x3; {size.designation} lies outside", member="thread"
        )
    if grade.code == "9.8" and size.d > _SPLIT:
        raise NotStandardised(f"{named} gives class 9.8 up to M{_SPLIT} only", member="property_class")
    if grade.structural and grade.code not in _STRUCTURAL:
        raise Contradiction(
            f"structural bolting has the classes {' and '.join(_STRUCTURAL)}, not {grade.code}", member="structural"
        )
    if grade.structural and grade.code == "8.8" and size.d < _STRUCTURAL_SPLIT:
        raise NotStandardised(
            f"{named}, Table 3: class 8.8 for structural bolting starts at M{_STRUCTURAL_SPLIT}",
            member="thread",
        )


def _column(size: MetricSize, grade: Grade) -> str:
    if grade.code == "8.8":
        return "8.8_d_gt_16" if grade.structural or size.d > _SPLIT else "8.8_d_le_16"
    return grade.code.removesuffix("U")


def _steel_rows(code: str) -> list[Row]:
    rows = rules(STANDARD).table("table_2").rows.values()
    return [row for row in rows if row.word("class") == code]


def _tests(
    size: MetricSize,
    grade: Grade,
    properties: dict[str, Bounds],
    loads: dict[str, Bounds],
    shape: PartShape | None,
) -> tuple[Test, ...]:
    candidate = Candidate(
        size.d,
        size.pitch,
        grade.code,
        shape,
        grade.reduced_loadability,
        class_settings(size, grade.code, properties, loads, surface_over_core(_column(size, grade)), shape),
    )
    return programme_of(rules(STANDARD), candidate)


def _marking(size: MetricSize, grade: Grade, kind: str) -> tuple[Mark, ...]:
    symbol = grade.name
    if symbol.endswith("U"):
        symbol = f"{symbol[:-1]} underlined"
    facts = rules(STANDARD)
    marks = marks_of(facts, kind, size.d, grade.code, symbol)
    if marks and kind == "stud" and (row := facts.table("marking_studs").find(grade.code.removesuffix("U"))):
        marks += marks_of(facts, kind, size.d, grade.code, f"{row.word('symbol')} in place of {symbol}")
    return marks


def _stress_area(size: MetricSize) -> Bounds:
    """As,nom to three digits, printed where a table lists the thread; Tables 4 to 7."""
    facts = rules(STANDARD)
    for name in ("table_4", "table_6"):
        row = facts.table(name).find(size.designation)
        if row is not None:
            area = row.number("As")
            return Bounds("As", area, area, "mm2", row.basis("As"), area)
    return stress_area(size)


def _loads(size: MetricSize, grade: Grade, column: str, notices: list[str]) -> dict[str, Bounds]:
    torque = breaking_torque(size, grade.code)
    found = {} if torque is None else {"breaking_torque": torque}
    if grade.reduced_loadability:
        notices.append(_REDUCED.format(grade.code))
        return {}
    if size.d < 3:
        notices.append(f"{rules(STANDARD).cited}, Tables 4 to 7, give no loads below M3: hardness decides")
        return found
    return {
        "tensile_load": _load(size, grade, column, "tensile"),
        "proof_load": _load(size, grade, column, "proof"),
        **found,
    }


#: load -> (symbol, printed table of coarse threads, table of fine threads, stress row of Table 3)
_LOAD_TABLES = {
    "tensile": ("Fm,min", "table_4", "Table 6", "Rm_min"),
    "proof": ("Fp", "table_5", "Table 7", "Sp"),
}


def _load(size: MetricSize, grade: Grade, column: str, load: str) -> Bounds:
    """Printed load where a table lists the thread, else As,nom times stress to three digits, ties to even."""
    symbol, coarse, fine, stress_row = _LOAD_TABLES[load]
    facts = rules(STANDARD)
    if grade.structural and grade.code == "8.8":
        row = facts.table("footnotes_structural").find(size.designation)
        if row is not None:
            return Bounds(symbol, row.number(load), None, "N", row.basis(load, note=_structural_note(row, load)))
    row = facts.table(coarse).find(size.designation)
    if row is not None:
        name = grade.code.removesuffix("U")
        return Bounds(symbol, row.number(name), None, "N", row.basis(name))
    area, stress = _stress_area(size), table_3(stress_row)
    assert area.nominal is not None
    listed = facts.table("table_6").find(size.designation) is not None
    basis = stress.basis(column).computed(
        f"{fine if listed else 'clause 9'}: As,nom x {stress.word('symbol')}, three significant digits",
        area.basis.checked,
        "formula",
        note="computed: the printed cell was not seen" if listed else f"computed: {fine} does not list this thread",
    )
    return Bounds(symbol, significant(area.nominal * stress.number(column), 3), None, "N", basis)


def _structural_note(row: Row, load: str) -> str | None:
    if load != "proof":
        return "structural bolting"
    return "structural bolting; recalled, and not the product of stress area and 600 MPa: check before use"
