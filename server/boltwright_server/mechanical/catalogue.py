"""Which standard answers for a property class or grade."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..quantities import Contradiction
from ..standards import standard
from ..threads import MetricSize, ThreadSize, metric
from . import iso_898_1, iso_898_2, iso_3506, stress_grades
from .answer import MechanicalMinimums, PartShape
from .grade import Grade
from .names import find_grade


@dataclass(frozen=True, slots=True)
class Options:
    """What a question may say beside thread and class: style or form of a nut, shape of a part."""

    style: int | None = None
    form: str | None = None
    shape: PartShape | None = None


Engine = Callable[[ThreadSize, Grade, Options], MechanicalMinimums]


def _bolt_class(size: ThreadSize, grade: Grade, options: Options) -> MechanicalMinimums:
    return iso_898_1.bolt_minimums(_metric(size, grade), grade, options.shape)


def _nut_class(size: ThreadSize, grade: Grade, options: Options) -> MechanicalMinimums:
    return iso_898_2.nut_minimums(_metric(size, grade), grade, options.style)


def _stainless_bolt(size: ThreadSize, grade: Grade, options: Options) -> MechanicalMinimums:
    return iso_3506.stainless_bolt_minimums(_metric(size, grade), grade, options.shape)


def _stainless_nut(size: ThreadSize, grade: Grade, options: Options) -> MechanicalMinimums:
    return iso_3506.stainless_nut_minimums(_metric(size, grade), grade)


def _stress_grade(size: ThreadSize, grade: Grade, options: Options) -> MechanicalMinimums:
    return stress_grades.stress_grade_minimums(size, grade, options.form, options.shape)


def _metric(size: ThreadSize, grade: Grade) -> MetricSize:
    return metric(size, f"{standard(grade.folder).id} (class {grade.name})", "thread")


#: family in a `standard.toml` -> engine
_ENGINES: dict[str, Engine] = {
    "bolt_property_class": _bolt_class,
    "nut_property_class": _nut_class,
    "stainless_bolt_class": _stainless_bolt,
    "stainless_nut_class": _stainless_nut,
    "bolt_stress_grade": _stress_grade,
    "nut_stress_grade": _stress_grade,
}


def mechanical_minimums(
    size: ThreadSize,
    grade: Grade | str,
    member: str | None = None,
    style: int | None = None,
    *,
    form: str | None = None,
    structural: bool = False,
    shape: PartShape | None = None,
) -> MechanicalMinimums:
    """Return the mechanical properties, loads and tests of a thread in a property class or grade.

    `style` (0 thin, 1 regular, 2 high) is for nuts of ISO 898-2, `form` (hex, heavy_hex) for nuts of inch standards.

    Raises:
        UnknownName, Contradiction: as `find_grade`; a thread of another system; `structural` where there is no such
            column.
        NotStandardised, NotCovered: as the standard's engine.
    """
    found = find_grade(grade, member) if isinstance(grade, str) else grade
    if structural:
        found = _for_structural_bolting(found)
    return _ENGINES[standard(found.folder).family](size, found, Options(style, form, shape))


def _for_structural_bolting(grade: Grade) -> Grade:
    if standard(grade.folder).id != iso_898_1.STANDARD or grade.reduced_loadability:
        raise Contradiction(
            f"structural bolting is a matter of bolts of ISO 898-1, not of {grade.name}", member="structural"
        )
    return replace(grade, structural=True, name=f"{grade.code}S")
