"""Bolts, screws, studs and nuts of stainless steel: grade and class, as A2-70.

ISO 3506-1:2009 and 2020 (bolts, screws, studs), ISO 3506-2:2009 (nuts). Stresses in MPa, loads in N, torques in N.m.
The standards of 2009 print no load tables: loads are the product of nominal stress area and stress, not rounded.
"""

from __future__ import annotations

from ..quantities import Bounds, OutsideScope
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..standards import Row, Standard, Table, rules, standard
from ..threads import MetricSize
from .answer import MechanicalMinimums, PartShape, Setting, Steel, Test
from .composition import steels_of
from .grade import Grade
from .marking import marks_of
from .stress_area import stress_area
from .test_programme import Candidate, programme_of

BOLTS, NUTS = "ISO 3506-1", "ISO 3506-2"
#: Tables of classes; what an edition that is held in part adds stands last.
_ADDED = "additions"
_BOLT_TABLES = ("table_2", "table_3", _ADDED)
_SCALES = {"hardness_vickers": "HV", "hardness_brinell": "HBW", "hardness_rockwell_c": "HRC"}
_LARGEST = 39
_REDUCED = (
    "reduced loadability: head or shank is weaker than the thread; the loads are those of the product standard, the "
    "material is that of {}"
)
_RECALLED = "class {} is new in {} and recalled, not seen in print"


def bolt_codes() -> tuple[str, ...]:
    """Return every grade with class of bolts, as `A2-70`, older edition first."""
    rows = (key for table in _BOLT_TABLES for key in _bolt_table(table).rows)
    return tuple(dict.fromkeys(f"{grade}-{property_class}" for grade, property_class in rows))


def _bolt_table(name: str) -> Table:
    return rules(BOLTS, holding=name).table(name)


def nut_codes() -> tuple[str, ...]:
    """Return every grade with class of nuts, as `A2-70` or, thin, `A2-035`."""
    return tuple(f"{grade}-{property_class}" for grade, property_class, _ in rules(NUTS).table("table_4").rows)


@remembered(4096)
def stainless_bolt_minimums(size: MetricSize, grade: Grade, shape: PartShape | None = None) -> MechanicalMinimums:
    """Return the properties, loads and tests of a stainless bolt thread.

    ISO 3506-1:2009, Tables 2 to 4, and what 2020 adds.

    Raises:
        NotStandardised: the diameter exceeds what the class covers.
    """
    row = _bolt_row(grade.code)
    _check_diameter(size, row, grade)
    facts, owner = standard(grade.folder), row.table.standard
    area = stress_area(size)
    properties = _bolt_properties(size, row)
    loads = {} if grade.reduced_loadability else _loads(size, grade, area, properties)
    return MechanicalMinimums(
        standard=owner.id,
        edition=owner.edition,
        thread=size.designation,
        property_class=grade.name,
        member="external",
        stress_area=area,
        properties=properties,
        loads=loads,
        tests=_bolt_tests(facts, size, grade, properties, loads, shape),
        notices=_notices(grade, row),
        steels=_steels(grade.code),
        marking=marks_of(facts, "hexagon" if shape is None else shape.kind, size.d, grade.code, grade.name),
    )


def _loads(size: MetricSize, grade: Grade, area: Bounds, properties: dict[str, Bounds]) -> dict[str, Bounds]:
    return {
        "tensile_load": _product("Fm,min", area, properties["tensile_strength"]),
        "yield_load": _product("Fpf,min", area, properties["yield_strength"]),
        **_torque(size, grade.code),
    }


def _notices(grade: Grade, row: Row) -> tuple[str, ...]:
    owner = row.table
    recalled = (_RECALLED.format(grade.name, owner.standard.cited),) if owner.file == f"{_ADDED}.csv" else ()
    return (*recalled, *((_REDUCED.format(grade.code),) if grade.reduced_loadability else ()))


def _bolt_row(code: str) -> Row:
    steel, property_class = code.split("-")
    for table in _BOLT_TABLES:
        row = _bolt_table(table).find(steel, property_class)
        if row is not None:
            return row
    raise KeyError(code)


def _check_diameter(size: MetricSize, row: Row, grade: Grade) -> None:
    limit = row.get("d_max") if "d_max" in row.cells else None
    if size.d > (limit or _LARGEST):
        raise OutsideScope(
            f"{row.table.standard.cited} gives {grade.name} up to M{limit or _LARGEST}; above it the properties are as "
            "agreed (the edition of 2020 is recalled to have no general limit)",
            member="thread",
        )


def _bolt_properties(size: MetricSize, row: Row) -> dict[str, Bounds]:
    multiple = row.number("A_min_over_d")
    strain = row.basis("A_min_over_d").computed(note=f"{multiple} d: extension in mm of the full-size fastener")
    found = {
        "tensile_strength": Bounds("Rm", row.number("Rm_min"), None, "MPa", row.basis("Rm_min")),
        "yield_strength": Bounds("Rpf", row.number("Rp02_min"), None, "MPa", row.basis("Rp02_min")),
        "elongation": Bounds("A", multiple * size.d, None, "mm", strain),
    }
    for id, scale in _SCALES.items():
        if f"{scale}_min" in row.cells and row.get(f"{scale}_min") is not None:
            low, high = row.get(f"{scale}_min"), row.get(f"{scale}_max")
            found[id] = Bounds(scale, low, high, scale, row.basis(f"{scale}_min"))
    return found


def _product(symbol: str, area: Bounds, stress: Bounds) -> Bounds:
    """Nominal stress area times stress, not rounded: no load is printed."""
    assert area.nominal is not None
    assert stress.min is not None
    basis = stress.basis.computed(
        f"As,nom x {stress.symbol}",
        area.basis.checked,
        note="the product, not rounded: the standard prints no load that was seen",
    )
    return Bounds(symbol, shortest(area.nominal * stress.min), None, "N", basis)


def _torque(size: MetricSize, code: str) -> dict[str, Bounds]:
    """Minimum breaking torque; Table 4 of 2009: austenitic grades A1 to A5, M1.6 to M16 coarse."""
    steel, property_class = code.split("-")
    row = _bolt_table("table_4").find(size.designation)
    if row is None or steel not in ("A1", "A2", "A3", "A4", "A5") or property_class not in row.cells:
        return {}
    torque = row.number(property_class)
    return {"breaking_torque": Bounds("MB,min", torque, None, "N.m", row.basis(property_class))}


def _bolt_tests(
    facts: Standard,
    size: MetricSize,
    grade: Grade,
    properties: dict[str, Bounds],
    loads: dict[str, Bounds],
    shape: PartShape | None,
) -> tuple[Test, ...]:
    wanted = {
        "tensile": ("load", loads.get("tensile_load")),
        "yield": ("load", loads.get("yield_load")),
        "elongation": ("extension", properties["elongation"]),
        "torsion": ("breaking_torque", loads.get("breaking_torque")),
        "hardness_core": ("hardness", properties.get("hardness_vickers")),
    }
    settings = {
        test: {name: Setting(limits.min, limits.max, limits.unit, limits.basis)}
        for test, (name, limits) in wanted.items()
        if limits is not None
    }
    candidate = Candidate(size.d, size.pitch, grade.code, shape, grade.reduced_loadability, settings)
    return programme_of(facts, candidate)


def _steels(code: str) -> tuple[Steel, ...]:
    row = _bolt_table("table_1").find(code.split("-")[0])
    return () if row is None else steels_of([row], "grade")


@remembered(4096)
def stainless_nut_minimums(size: MetricSize, grade: Grade) -> MechanicalMinimums:
    """Return proof stress, proof load and tests of a stainless nut thread.

    ISO 3506-2:2009, Table 4.

    Raises:
        NotStandardised: above M39.
    """
    facts = standard(grade.folder)
    steel, property_class = grade.code.split("-")
    row = next(row for key, row in facts.table("table_4").rows.items() if key[:2] == (steel, property_class))
    _check_diameter(size, row, grade)
    area = stress_area(size)
    stress = Bounds("Sp", row.number("Sp"), None, "MPa", row.basis("Sp"))
    load = _product("Fp", area, stress)
    settings = {"proof_load": {"load": Setting(load.min, None, "N", load.basis)}}
    thin = row.number("style") == 0
    return MechanicalMinimums(
        standard=facts.id,
        edition=facts.edition,
        thread=size.designation,
        property_class=grade.name,
        member="internal",
        stress_area=area,
        properties={"proof_stress": stress},
        loads={"proof_load": load},
        tests=programme_of(facts, Candidate(size.d, size.pitch, grade.code, settings=settings)),
        notices=("thin nut: it pairs with no bolt for full loading",) if thin else (),
        steels=_steels(grade.code),
        marking=marks_of(facts, "nut", size.d, grade.code),
    )
