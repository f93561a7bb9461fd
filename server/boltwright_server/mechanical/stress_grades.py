"""Grades that their standards define by stresses in bands of diameter: SAE and ASTM, bolts and nuts.

SAE J429, SAE J995, ASTM A193, A194, A325, A354, A449, A563, A574, F3125, F568M. Everything that differs between them
stands in their folders: grades, other editions, printed loads, the rounding of loads, composition.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..quantities import Bounds, Contradiction, OutsideScope
from ..quantities.keeper import remembered
from ..standards import Row, Standard, rules, standard
from ..threads import MetricSize, ThreadSize
from .answer import Mark, MechanicalMinimums, PartShape, Setting, Steel, Test
from .composition import steels_of
from .grade import Grade
from .stress_area import stress_area
from .stress_grade_loads import computed_loads, grade_loads
from .test_programme import Candidate, programme_of

#: property id -> (symbol, least, greatest): columns of `grades.csv`
_PROPERTIES = {
    "tensile_strength": ("Rm", "tensile_min", "tensile_max"),
    "yield_strength": ("Rp0.2", "yield_min", None),
    "proof_stress": ("Sp", "proof", None),
    "proof_stress_overtapped": ("Sp", "proof_overtapped", None),
    "elongation": ("A", "elongation_min", None),
    "reduction_of_area": ("Z", "reduction_min", None),
    "hardness_brinell": ("HBW", "HBW_min", "HBW_max"),
    "hardness_rockwell_b": ("HRB", "HRB_min", "HRB_max"),
    "hardness_rockwell_c": ("HRC", "HRC_min", "HRC_max"),
    "surface_hardness_rockwell_30n": ("HR30N", None, "HR30N_max"),
    "tempering_temperature": ("t", "tempering_min", None),
}
_HARDNESS = "hardness_"
#: Tests that say nothing where the grade has no such limit.
_NEEDS = {"proof_load": "proof_load", "hardness_surface": "surface_hardness_rockwell_30n"}
_COARSE = ("UNC", "8-UN")
_FORMS = ("heavy_hex", "hex")


@dataclass(frozen=True, slots=True)
class _Other:
    """Limits of one property in another edition or source."""

    printed_in: str
    property: str
    bounds: Bounds


def codes(facts: Standard) -> tuple[str, ...]:
    """Return the grades of a standard as its tables write them; `-` where it has only one and gives it no name."""
    return tuple(dict.fromkeys(str(key[0]) for table in _grade_tables(facts) for key in facts.tables[table].rows))


def _grade_tables(facts: Standard) -> Iterator[str]:
    return (name for name in facts.tables if name.startswith("grades"))


@remembered(4096)
def stress_grade_minimums(
    size: ThreadSize, grade: Grade, form: str | None = None, shape: PartShape | None = None
) -> MechanicalMinimums:
    """Return properties, loads and tests of a thread in a grade; `form` is hex or heavy_hex, for nuts.

    Raises:
        NotStandardised: the standard gives nothing for that diameter, form or series.
        Contradiction: the standard has threads of another system.
    """
    facts = standard(grade.folder)
    row, notices = _row(facts, size, grade, form)
    area = _stress_area(facts, size)
    properties = _properties(row)
    loads = grade_loads(facts, row, size, area)
    others = _others(facts, row, properties)
    return MechanicalMinimums(
        standard=facts.id,
        edition=facts.edition,
        thread=size.designation,
        property_class=grade.name,
        member=grade.member,
        stress_area=area,
        properties=properties,
        loads=loads,
        tests=_tests(facts, size, grade, properties, loads, shape),
        notices=(*notices, *computed_loads(facts, loads), *_edition_notices(others, properties), *_notes(facts, grade)),
        disputed=_disputed(facts, others, properties),
        steels=_steels(facts, grade.code),
        marking=_marking(row, grade, shape),
    )


def _notes(facts: Standard, grade: Grade) -> list[str]:
    """What the facts say of the standard and of this grade of it."""
    return [note for note in (facts.note, facts.note_of.get(grade.code)) if note]


def _stress_area(facts: Standard, size: ThreadSize) -> Bounds:
    """As as the standard's own load tables print it, else of the thread standard."""
    table = facts.tables.get("stress_area.csv")
    row = None if table is None or isinstance(size, MetricSize) else table.find(size.d, size.threads_per_inch)
    if row is None:
        return stress_area(size)
    area = row.number("As")
    return Bounds("As", area, area, "in2", row.basis("As"), area)


def _row(facts: Standard, size: ThreadSize, grade: Grade, form: str | None) -> tuple[Row, list[str]]:
    """Return the row of the grade for that size, and what had to be chosen."""
    unit = "mm" if isinstance(size, MetricSize) else "in"
    tables = [facts.tables[name] for name in _grade_tables(facts)]
    of_grade = [row for table in tables for row in table.rows.values() if row.word("grade") == grade.code]
    in_unit = [row for row in of_grade if row.table.unit_of("d_up_to") == unit]
    if not in_unit:
        raise Contradiction(
            f"{grade.name} has {'Unified' if unit == 'mm' else 'metric'} threads; {size.designation} is {size.system}",
            member="thread",
        )
    fitting = [row for row in in_unit if _covers(row, size)]
    forms = [name for name in _FORMS if any(row.cells.get("form") == name for row in fitting)]
    chosen = form or next(iter(forms), None)
    for row in fitting:
        if "form" not in row.cells or row.word("form") == chosen:
            return row, _form_notice(grade, form, forms)
    raise OutsideScope(_nothing(facts, size, grade, form, in_unit), member="thread")


def _covers(row: Row, size: ThreadSize) -> bool:
    if not row.number("d_over") < size.d <= row.number("d_up_to") or size.d < row.number("d_min"):
        return False
    series = row.cells.get("series")
    return series in (None, "any") or (series == "coarse") is (size.series in _COARSE)


def _form_notice(grade: Grade, form: str | None, forms: list[str]) -> list[str]:
    if form is not None or len(forms) < 2:
        return []
    return [f"{grade.name}: loads of the {forms[0].replace('_', ' ')} nut; form={forms[1]} gives the other"]


def _nothing(facts: Standard, size: ThreadSize, grade: Grade, form: str | None, rows: list[Row]) -> str:
    unit = rows[0].table.unit_of("d_up_to")
    least, most = min(row.number("d_min") for row in rows), max(row.number("d_up_to") for row in rows)
    if form is not None and not any(row.cells.get("form", form) == form for row in rows):
        return f"{facts.cited} gives {grade.name} no proof load for {form.replace('_', ' ')} nuts"
    wanted = f" {form.replace('_', ' ')} nuts," if form else ""
    series = " in coarse threads (UNC, 8-UN)" if any(row.cells.get("series") == "coarse" for row in rows) else ""
    return (
        f"{facts.cited} is held for {grade.name},{wanted} from {least} to {most} {unit}{series}; "
        f"{size.designation} lies outside"
    )


def _properties(row: Row) -> dict[str, Bounds]:
    found = {}
    for id in _PROPERTIES:
        bounds = _bounds(row, id)
        if bounds is not None:
            found[id] = bounds
    return found


def _bounds(row: Row, id: str) -> Bounds | None:
    symbol, least, greatest = _PROPERTIES[id]
    low, high = (None if name is None or name not in row.cells else row.get(name) for name in (least, greatest))
    named = least if low is not None else greatest
    if named is None or (low is None and high is None):
        return None
    return Bounds(symbol, low, high, row.table.unit_of(named), row.basis(named))


def _others(facts: Standard, row: Row, properties: dict[str, Bounds]) -> list[_Other]:
    """What other editions print for the row; a side that they do not print is that of the row."""
    table = facts.tables.get("other_editions.csv")
    found = []
    for other in () if table is None else table.rows.values():
        if other.key[1:] != row.key:
            continue
        for id in _PROPERTIES:
            bounds = _bounds(other, id)
            if bounds is not None:
                found.append(_Other(other.word("printed_in"), id, _completed(bounds, properties.get(id))))
    return found


def _completed(bounds: Bounds, base: Bounds | None) -> Bounds:
    if base is None:
        return bounds
    low, high = (base.min if bounds.min is None else bounds.min), (base.max if bounds.max is None else bounds.max)
    return Bounds(bounds.symbol, low, high, bounds.unit, bounds.basis)


def _is_conflict(id: str, properties: dict[str, Bounds]) -> bool:
    return id in properties and properties[id].basis.checked == "conflict"


def _disputed(facts: Standard, others: list[_Other], properties: dict[str, Bounds]) -> dict[str, dict[str, Bounds]]:
    """Limits on which the sources disagree, hardness by its scale; an older edition alone is no dispute."""
    found: dict[str, dict[str, Bounds]] = {}
    for other in others:
        if _is_conflict(other.property, properties):
            base = properties[other.property]
            key = base.unit if other.property.startswith(_HARDNESS) else other.property
            found.setdefault(key, {facts.edition: base})[other.printed_in] = other.bounds
    return found


def _edition_notices(others: list[_Other], properties: dict[str, Bounds]) -> list[str]:
    return [
        f"{one.printed_in} gives {one.property.replace('_', ' ')} {_window(one.bounds)}"
        for one in others
        if not _is_conflict(one.property, properties)
    ]


def _window(bounds: Bounds) -> str:
    if bounds.min is None or bounds.max is None:
        side = f"at most {bounds.max}" if bounds.min is None else f"at least {bounds.min}"
        return f"{side} {bounds.unit}"
    return f"{bounds.min} to {bounds.max} {bounds.unit}"


def _tests(
    facts: Standard,
    size: ThreadSize,
    grade: Grade,
    properties: dict[str, Bounds],
    loads: dict[str, Bounds],
    shape: PartShape | None,
) -> tuple[Test, ...]:
    """Tests of ASTM F606; for metric grades its metric companion holds, which is not held here."""
    if isinstance(size, MetricSize):
        return ()
    settings: dict[str, dict[str, Setting]] = {
        test: {name: _from(limits)}
        for test, name, limits in (
            ("wedge_tensile", "load", loads.get("tensile_load")),
            ("tensile", "load", loads.get("tensile_load")),
            ("proof_load", "load", loads.get("proof_load")),
            (
                "hardness_core",
                "hardness",
                properties.get("hardness_rockwell_c") or properties.get("hardness_rockwell_b"),
            ),
            ("hardness_surface", "hardness", properties.get("surface_hardness_rockwell_30n")),
        )
        if limits is not None
    }
    settings.setdefault("wedge_tensile", {}).update(_wedge(facts, size, shape))
    candidate = Candidate(size.d, size.pitch, grade.code, shape, settings=settings)
    prefix = "nut_" if grade.member == "internal" else ""
    tests = programme_of(rules("ASTM F606"), candidate, prefix)
    return tuple(test for test in tests if test.id not in _NEEDS or _NEEDS[test.id] in {**properties, **loads})


def _from(limits: Bounds) -> Setting:
    return Setting(limits.min, limits.max, limits.unit, limits.basis)


def _wedge(facts: Standard, size: ThreadSize, shape: PartShape | None) -> dict[str, Setting]:
    """Wedge angle of the standard itself, else of ASTM F606; none where the shape is not known."""
    if shape is None:
        return {}
    table = facts.tables.get("wedge_angle.csv") or rules("ASTM F606").table("wedge_angle")
    product = "stud_or_flange" if shape.kind in ("stud", "flange") else "bolt"
    if shape.fully_threaded:
        product = "threaded_to_head"
    row = table.find_in_band(size.d, product) or table.find_in_band(size.d, "bolt")
    if row is None:
        return {}
    angle = row.number("angle")
    return {"wedge_angle": Setting(angle, angle, "deg", row.basis("angle"))}


def _steels(facts: Standard, code: str) -> tuple[Steel, ...]:
    table = facts.tables.get("chemistry.csv")
    rows = () if table is None else (row for row in table.rows.values() if row.word("grade") == code)
    return steels_of(rows, "material")


def _marking(row: Row, grade: Grade, shape: PartShape | None) -> tuple[Mark, ...]:
    column, place = ("head_mark", "head") if grade.member == "external" else ("mark", "top or side of the nut")
    if shape is not None and shape.kind == "stud":
        place = "one end of the stud"
    symbol = row.word(column)
    if symbol == "none":
        return ()
    return (Mark(place, symbol, "manufacturer's identification mark beside the symbol", row.basis(column)),)
