"""Which nuts hold a bolt: the bolt is to break before a thread strips.

ISO 898-2:2012, Table 2 (property classes); ISO 3506-2:2009 (stainless steel, by stresses); the pairing tables of SAE
and ASTM grades, and where they say nothing the stresses.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds, NotCovered, Refusal
from ..standards import Row, rules, standard
from ..threads import MetricSize, ThreadSize
from . import iso_898_2
from .answer import MechanicalMinimums
from .catalogue import mechanical_minimums
from .grade import Grade
from .iso_898_2 import CLASSES, WITHDRAWN, nut_styles
from .names import find_grade, grades

_THIN = "thin nuts strip before the bolt breaks: they pair with no bolt class for full loading"
_HIGHER = "a nut of a higher class may replace one of a lower class"
_GALLING = "stainless threads gall: lubricate, and tighten slowly"
_NO_TABLE = "no pairing table is held for {}: nuts are compared by their stress under proof load"
_NO_NUT = "{} has no nut class for {}"
_RECALLED = "the loads of this pair are from memory or computed: check them before use"
#: Nut standards whose grades are compared with an inch bolt that has no pairing table.
_INCH_NUTS = ("ASTM A563", "ASTM A194")
_FORMS = ("heavy_hex", "hex")
Nut = tuple[Grade, MechanicalMinimums | None]


@dataclass(frozen=True, slots=True)
class NutPair:
    """A nut beside the bolt. `style` is that of ISO 898-2, `form` that of inch nuts; `proof_load` is None where the
    standard gives none for the size."""

    nut: str
    standard: str
    edition: str
    style: int | None
    form: str | None
    holds: bool
    reason: str
    proof_load: Bounds | None
    warnings: tuple[str, ...]
    basis: Basis


@dataclass(frozen=True, slots=True)
class Pairing:
    """Every nut of the standards that go with the bolt, those that hold first."""

    thread: str
    bolt: str
    tensile_load: Bounds | None
    nuts: tuple[NutPair, ...]
    notices: tuple[str, ...]


def pairing(size: ThreadSize, bolt: Grade) -> Pairing:
    """Return which nut classes, styles and grades hold a bolt of a class or grade.

    Raises:
        NotCovered: no nut standard held goes with the bolt.
        Others: as `mechanical_minimums`.
    """
    minimums = mechanical_minimums(size, bolt)
    nuts, notice = _nuts(size, bolt, minimums)
    ordered = sorted(nuts, key=lambda pair: not pair.holds)
    return Pairing(size.designation, bolt.name, minimums.loads.get("tensile_load"), tuple(ordered), notice)


def _nuts(size: ThreadSize, bolt: Grade, minimums: MechanicalMinimums) -> tuple[list[NutPair], tuple[str, ...]]:
    family = standard(bolt.folder).family
    if family == "bolt_property_class" and isinstance(size, MetricSize):
        nuts, listed = list(_of_classes(size, bolt, minimums)), rules(iso_898_2.STANDARD).table("table_1")
        return nuts, (_HIGHER,) if nuts else (_NO_NUT.format(listed.cited, size.designation),)
    if family == "stainless_bolt_class":
        return list(_of_stainless(size, bolt, minimums)), (_GALLING,)
    if isinstance(size, MetricSize):
        raise NotCovered(f"no nut standard is held for {bolt.name}", member="bolt")
    named = _named(bolt)
    return list(_of_grades(size, bolt, minimums, named)), (_HIGHER,) if named else (_NO_TABLE.format(bolt.name),)


def _rank(property_class: str) -> int:
    """First number of a bolt class: 5.8 and 5.6 are 5, 12.9 is 12."""
    return int(property_class.split(".")[0])


def _of_classes(size: MetricSize, bolt: Grade, minimums: MechanicalMinimums) -> Iterator[NutPair]:
    """Classes of ISO 898-2, Table 2: each in every style that Table 1 has for the size."""
    table = rules(iso_898_2.STANDARD).table("table_2")
    for code in CLASSES:
        grade = find_grade(code, "internal")
        for style in nut_styles(size, code):
            nut = _nut(size, grade, style=style)
            row = table.find(code)
            if row is None:
                yield _pair(nut, minimums, style, None, False, _THIN, table.standard.basis("Table 2", table.checked))
                continue
            highest = row.word("bolt_class")
            holds = _rank(bolt.code) <= _rank(highest)
            reason = f"class {code} goes with bolts up to {highest}"
            yield _pair(nut, minimums, style, None, holds, reason, row.basis("bolt_class"))


def _nut(size: ThreadSize, grade: Grade, style: int | None = None, form: str | None = None) -> Nut:
    try:
        return grade, mechanical_minimums(size, grade, style=style, form=form)
    except Refusal:
        return grade, None


def _pair(
    nut: Nut,
    bolt: MechanicalMinimums,
    style: int | None,
    form: str | None,
    holds: bool,
    reason: str,
    basis: Basis,
) -> NutPair:
    grade, found = nut
    facts = standard(grade.folder)
    load = None if found is None else found.loads.get("proof_load")
    warnings = tuple(_warnings(load, bolt.loads.get("tensile_load"))) if holds and form is None else ()
    if grade.code == "9" and found is not None:
        warnings += (WITHDRAWN,)
    return NutPair(grade.name, facts.id, facts.edition, style, form, holds, reason, load, warnings, basis)


def _warnings(proof: Bounds | None, tensile: Bounds | None) -> Iterator[str]:
    """Known exceptions: a nut of class 12 proves less than a bolt of 12.9 bears."""
    if proof is None or tensile is None:
        return
    if _value(proof) < _value(tensile):
        yield (
            f"proof load {proof.min} {proof.unit} of the nut lies below the tensile load {tensile.min} {tensile.unit} "
            "of the bolt: the thread may strip first"
        )
    if {proof.basis.checked, tensile.basis.checked} & {"memory", "conflict"}:
        yield _RECALLED


def _value(load: Bounds) -> Decimal:
    assert load.min is not None
    return load.min


def _of_stainless(size: ThreadSize, bolt: Grade, minimums: MechanicalMinimums) -> Iterator[NutPair]:
    """Nuts of the same steel: they hold where the stress under proof load reaches the tensile strength of the bolt."""
    steel = bolt.code.split("-")[0]
    wanted = minimums.properties["tensile_strength"]
    for row in rules("ISO 3506-2").table("table_4").rows.values():
        if row.word("grade") != steel:
            continue
        grade = find_grade(f"{steel}-{row.word('class')}", "internal")
        thin, stress = row.number("style") == 0, row.number("Sp")
        holds = not thin and wanted.min is not None and stress >= wanted.min
        reason = _THIN if thin else f"proof stress {stress} MPa beside tensile strength {wanted.min} MPa of the bolt"
        basis = row.basis("Sp").computed("Sp of the nut against Rm of the bolt", wanted.basis.checked)
        yield _pair(_nut(size, grade), minimums, int(row.number("style")), None, holds, reason, basis)


def _of_grades(
    size: ThreadSize, bolt: Grade, minimums: MechanicalMinimums, named: dict[tuple[str, str], Row]
) -> Iterator[NutPair]:
    """Nut grades that the bolt's table names, and the others of the same standards by their stresses."""
    standards = {standard(find_grade(name).folder).id for name, _ in named} or set(_INCH_NUTS)
    nuts = [
        (nut, form)
        for grade in grades()
        if grade.member == "internal" and standard(grade.folder).id in standards
        for form in _forms(grade)
        if (nut := _nut(size, grade, form=form))[1] is not None
    ]
    needed, forms = _needed(nuts, minimums, named), {form for _, form in named} or set(_FORMS)
    for nut, form in nuts:
        row = named.get((nut[0].name, form))
        if row is not None:
            yield _named_pair(nut, minimums, form, row)
        else:
            yield _compared_pair(nut, minimums, form, needed, form in forms)


def _named(bolt: Grade) -> dict[tuple[str, str], Row]:
    table = standard(bolt.folder).tables.get("pairing.csv")
    rows = () if table is None else table.rows.values()
    return {(row.word("nut"), row.word("form")): row for row in rows if row.word("grade") == bolt.code}


def _forms(grade: Grade) -> tuple[str, ...]:
    rows = standard(grade.folder).table("grades").rows.values()
    held = {row.word("form") for row in rows if row.word("grade") == grade.code}
    return tuple(form for form in _FORMS if form in held)


def _proof_stress(found: MechanicalMinimums | None) -> Decimal:
    assert found is not None
    return _value(found.properties["proof_stress"])


def _needed(
    nuts: list[tuple[Nut, str]], bolt: MechanicalMinimums, named: dict[tuple[str, str], Row]
) -> dict[str, Decimal]:
    """Stress that a nut without a name in the table must reach, by standard: the least of the named ones, or Rm."""
    strength = _value(bolt.properties["tensile_strength"])
    needed: dict[str, Decimal] = {}
    for (grade, found), form in nuts:
        owner = standard(grade.folder).id
        if (grade.name, form) in named:
            needed[owner] = min(_proof_stress(found), needed.get(owner, _proof_stress(found)))
    return {id: max(needed.get(id, strength), strength) for id in {standard(nut[0].folder).id for nut, _ in nuts}}


def _named_pair(nut: Nut, bolt: MechanicalMinimums, form: str, row: Row) -> NutPair:
    return _pair(nut, bolt, None, form, True, f"named for {bolt.property_class}", row.basis("nut"))


def _compared_pair(
    nut: Nut, bolt: MechanicalMinimums, form: str, needed: dict[str, Decimal], form_is_named: bool
) -> NutPair:
    """A nut that the table of the bolt does not name: of a form that it names, and strong enough."""
    grade, found = nut
    assert found is not None
    stress, wanted = found.properties["proof_stress"], needed[standard(grade.folder).id]
    reason = f"proof stress {stress.min} ksi beside the {wanted} ksi that are needed"
    if not form_is_named:
        reason = f"no {form.replace('_', ' ')} nut is named for {bolt.property_class}"
    basis = stress.basis.computed(
        "stress under proof load of the nut against the nuts named and Rm of the bolt",
        bolt.properties["tensile_strength"].basis.checked,
    )
    return _pair(nut, bolt, None, form, form_is_named and _value(stress) >= wanted, reason, basis)
