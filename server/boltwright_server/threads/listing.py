"""Lists over the thread systems: sizes by filter, and which classes exist for which pitches.

ISO 261:1998, ISO 965-1:2013, ISO 965-4 and ISO 965-5:1998; ASME B1.1-2003.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..quantities import UnknownName, near_names
from ..quantities.keeper import remembered
from ..quantities.units import factor
from .iso_metric import ToleranceClass
from .systems import SYSTEMS, ThreadClass, ThreadSize, ThreadSystem, classes
from .unified import UnifiedSize


@dataclass(frozen=True, slots=True)
class SizeFilter:
    """What to list; None takes all. Diameters in `unit`, both ends included."""

    system: str | None = None
    series: str | None = None
    choice: int | None = None
    min_diameter: Decimal | None = None
    max_diameter: Decimal | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class ClassEntry:
    """A class and the threads for which its standard gives all limits; pitches in mm, or threads per inch."""

    system: ThreadSystem
    tolerance: ThreadClass
    pitches: tuple[Decimal, ...]
    series: tuple[str, ...]
    least_diameter: Decimal
    greatest_diameter: Decimal
    thread_count: int


def find_system(name: str) -> ThreadSystem:
    """Return a thread system by its name, `ISO metric` or `Unified inch`.

    Raises:
        UnknownName: there is no such system.
    """
    for system in SYSTEMS:
        if system.name.casefold() == name.strip().casefold():
            return system
    known = [system.name for system in SYSTEMS]
    raise UnknownName(
        f"no thread system {name[:40]!r}; held are {', '.join(known)}",
        member="system",
        nearest=near_names(name, known, slips=math.inf),
    )


def series_names(system: ThreadSystem | None = None) -> list[str]:
    """Return the series of a system, or of all."""
    of = SYSTEMS if system is None else (system,)
    return sorted({size.series for one in of for size in one.sizes()})


def sizes_matching(wanted: SizeFilter) -> list[ThreadSize]:
    """Return the sizes that a filter keeps, system by system, in the order of the standards.

    Raises:
        UnknownName: no such system or series.
    """
    system = None if wanted.system is None else find_system(wanted.system)
    series = None if wanted.series is None else _known_series(wanted.series, system)
    of = SYSTEMS if system is None else (system,)
    unit = wanted.unit or ("mm" if system is None else system.unit)
    return [
        size
        for one in of
        for size in one.sizes()
        if series in (None, size.series) and wanted.choice in (None, size.choice) and _within(size, one, unit, wanted)
    ]


def _known_series(name: str, system: ThreadSystem | None) -> str:
    known = series_names(system)
    for one in known:
        if one.casefold() == name.strip().casefold():
            return one
    raise UnknownName(
        f"no series {name[:40]!r}; held are {', '.join(known)}",
        member="series",
        nearest=near_names(name, known, 5, math.inf),
    )


def _within(size: ThreadSize, system: ThreadSystem, unit: str, wanted: SizeFilter) -> bool:
    diameter = Fraction(size.d) / factor(unit, system.unit)
    low, high = wanted.min_diameter, wanted.max_diameter
    return (low is None or Fraction(low) <= diameter) and (high is None or diameter <= Fraction(high))


@remembered()
def class_entries() -> tuple[ClassEntry, ...]:
    """Return every class of every system with the threads that have it."""
    return tuple(entry for system in SYSTEMS for entry in _entries(system, system.sizes()))


def classes_of(size: ThreadSize, system: ThreadSystem) -> tuple[ClassEntry, ...]:
    """Return the classes that exist for one thread."""
    return tuple(_entries(system, [size]))


def _entries(system: ThreadSystem, sizes: Iterable[ThreadSize]) -> Iterator[ClassEntry]:
    by_class: dict[ThreadClass, list[ThreadSize]] = {}
    for size in sizes:
        for tolerance in classes(size):
            by_class.setdefault(tolerance, []).append(size)
    for tolerance, having in by_class.items():
        diameters = [size.d for size in having]
        yield ClassEntry(
            system,
            tolerance,
            tuple(sorted({_pitch(size) for size in having})),
            tuple(sorted({size.series for size in having})),
            min(diameters),
            max(diameters),
            len(having),
        )


def _pitch(size: ThreadSize) -> Decimal:
    return size.threads_per_inch if isinstance(size, UnifiedSize) else size.pitch


def grades_and_positions(tolerance: ThreadClass) -> tuple[list[str], list[str]]:
    """Return the grades and positions of a class: pitch diameter first, then crest where it differs."""
    if isinstance(tolerance, ToleranceClass):
        grades = [str(tolerance.pitch_grade), str(tolerance.crest_grade)]
        positions = [tolerance.pitch_position, tolerance.crest_position]
        return list(dict.fromkeys(grades)), list(dict.fromkeys(positions))
    return [tolerance.grade], [tolerance.letter]
