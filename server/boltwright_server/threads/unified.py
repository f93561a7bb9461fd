"""Unified inch screw threads: which sizes exist and what a class says.

ASME B1.1-2003, Table 1 (standard series and selected combinations) and the clause on designation.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cached_property
from typing import Literal

from ..quantities import Contradiction, NotStandardised, NotUnderstood, UnknownName, near_names
from ..quantities.keeper import remembered
from ..quantities.rounding import half_even, shortest
from ..standards import Row, rules
from .thread_limits import Member
from .unified_diameters import GREATEST, diameter_name, diameters
from .unified_profile import minor_diameter

SYSTEM = "Unified inch"
Grade = Literal["1", "2", "3"]
_LEAST = Decimal("0.06")
#: A pitch that leaves less of the diameter than this in the minor diameter is no screw thread of the standard.
_LEAST_MINOR = Decimal("0.5")
#: Sizes that a refusal names, however many slips they take.
_NEAREST, _ANY = 3, math.inf


@dataclass(frozen=True)
class UnifiedSize:
    """A basic major diameter in inch with its threads per inch.

    `series` is UNC, UNF, UNEF, UNS or a constant-pitch series such as 8-UN. `rounded_root` is the UNR form of an
    external thread, `LE` a length of engagement in inch that the designation states.
    """

    d: Decimal
    threads_per_inch: Decimal
    series: str
    choice: int | None
    rounded_root: bool = False
    LE: Decimal | None = None

    system = SYSTEM

    @cached_property
    def pitch(self) -> Decimal:
        """P = 1/n in inch to the eight decimals that ASME B1.30 asks for."""
        return half_even(1 / self.threads_per_inch, "0.00000001")

    @property
    def series_symbol(self) -> str:
        """The series as a designation writes it: every constant-pitch series is UN, a rounded root adds R."""
        symbol = "UN" if self.series.endswith("-UN") else self.series
        return f"UNR{symbol[2:]}" if self.rounded_root else symbol

    @property
    def name(self) -> str:
        """The diameter as a designation writes it: #8, 1/4, 1 1/2 or, where it is no such size, 0.2400."""
        return diameter_name(self.d)

    @property
    def short(self) -> str:
        """Diameter and pitch without series: 1/2-13."""
        return f"{self.name}-{self.threads_per_inch}"

    @property
    def designation(self) -> str:
        """The canonical designation of the size: 1/2-13 UNC."""
        return f"{self.short} {self.series_symbol}"


@dataclass(frozen=True, slots=True)
class UnifiedClass:
    """A class: 1, 2 or 3 from the widest to the closest, A external, B internal."""

    grade: Grade
    letter: Literal["A", "B"]

    system = SYSTEM

    @property
    def member(self) -> Member:
        """A is an external thread, B an internal one."""
        return "external" if self.letter == "A" else "internal"

    @property
    def designation(self) -> str:
        """The class as written."""
        return f"{self.grade}{self.letter}"

    @classmethod
    def parse(cls, text: str) -> UnifiedClass:
        """Read `2A`.

        Raises:
            NotUnderstood: not one of 1A, 2A, 3A, 1B, 2B, 3B.
        """
        found = next((one for one in CLASSES if one.designation == text.upper()), None)
        if found is None:
            raise NotUnderstood(
                f"{text!r} is no class of Unified threads: write 1A, 2A or 3A for a bolt, 1B, 2B or 3B for a nut",
                member="designation",
            )
        return found


CLASSES = tuple(UnifiedClass(grade, letter) for letter in ("A", "B") for grade in ("1", "2", "3"))


@remembered()
def _plan() -> dict[tuple[Decimal, Decimal], UnifiedSize]:
    table = rules("ASME B1.1").table("table_1")
    return {
        (row.number("d"), row.number("threads_per_inch")): UnifiedSize(
            row.number("d"), shortest(row.number("threads_per_inch")), row.word("series"), int(row.number("choice"))
        )
        for row in table.rows.values()
    }


@remembered()
def _diameters() -> tuple[Decimal, ...]:
    return tuple(dict.fromkeys(size.d for size in _plan().values()))


def sizes() -> Iterator[UnifiedSize]:
    """Yield every size of ASME B1.1-2003, Table 1, by diameter and pitch; UNR and stated engagement left out."""
    yield from _plan().values()


def of_diameter(written: str) -> Iterator[UnifiedSize]:
    """Yield the coarse and the fine size of a diameter as written: `#8`, `1/4`, `1 1/2`."""
    wanted = diameters(written, _diameters())
    return (size for size in sizes() if size.d in wanted and size.series in ("UNC", "UNF"))


def classes(size: UnifiedSize) -> Iterator[UnifiedClass]:
    """Yield the classes that exist for a size: 1A and 1B only for UNC and UNF from 1/4 in.

    ASME B1.1-2003, Table 1 and the clause on classes (memory). UNR is a form of external threads only.
    """
    for one in CLASSES:
        if _has_class(size, one):
            yield one


def _has_class(size: UnifiedSize, wanted: UnifiedClass) -> bool:
    if size.rounded_root and wanted.letter == "B":
        return False
    return wanted.grade != "1" or (size.series in ("UNC", "UNF") and size.d >= Decimal("0.25"))


def check_class(size: UnifiedSize, wanted: UnifiedClass) -> None:
    """Refuse a class that the standard does not give for the size.

    Raises:
        NotStandardised: 1A or 1B outside UNC and UNF from 1/4 in.
        Contradiction: UNR with a class of internal threads.
    """
    if size.rounded_root and wanted.letter == "B":
        raise Contradiction(
            f"{size.series_symbol} is a form of external threads; an internal thread of {size.short} is "
            f"{replace(size, rounded_root=False).designation}-{wanted.designation}",
            member="designation",
        )
    if not _has_class(size, wanted):
        raise NotStandardised(
            f"{rules('ASME B1.1').cited} gives classes 1A and 1B for UNC and UNF from 1/4 in only, "
            f"not for {size.designation}",
            member="designation",
        )


def series_row(size: UnifiedSize) -> Row | None:
    """Return the row of Table 1 that lists the size, or None for a diameter and pitch outside the table."""
    return rules("ASME B1.1").table("table_1").find(size.d, size.threads_per_inch)


@remembered(4096)
def find_size(written: str, threads_per_inch: Decimal, series: str | None = None) -> UnifiedSize:
    """Return the size of a diameter as written (`#8`, `8`, `1/4`, `1 1/2`, `.250`) and its threads per inch.

    `series` is the symbol written, or None. ASME B1.1-2003, Table 1.

    Raises:
        NotUnderstood: a fraction with denominator 0, or a bare number that may be a screw number or inches.
        UnknownName: no such diameter and pitch, or another series than the one written.
        NotStandardised: UNS outside the range of the formulas.
    """
    symbol = (series or "").upper()
    rounded = symbol.startswith("UNR")
    plain = symbol.replace("UNR", "UN", 1) if rounded else symbol
    candidates = diameters(written, _diameters())
    listed = next((_plan()[d, threads_per_inch] for d in candidates if (d, threads_per_inch) in _plan()), None)
    if listed is None:
        found = _unlisted(written, candidates, threads_per_inch, plain)
    elif plain in ("", _symbol(listed)) or (plain == "UN" and listed.series != "UNS"):
        found = listed
    else:
        raise UnknownName(
            f"{rules('ASME B1.1').cited} lists {listed.short} as {_symbol(listed)}, not {plain}",
            member="designation",
            code="unknown_size",
            nearest=[listed.designation, *_of_series(listed.d, plain)],
        )
    return replace(found, rounded_root=True) if rounded else found


def _symbol(size: UnifiedSize) -> str:
    return replace(size, rounded_root=False).series_symbol


def _of_series(d: Decimal, symbol: str) -> list[str]:
    return [size.designation for size in _plan().values() if size.d == d and size.series_symbol == symbol]


def _unlisted(written: str, candidates: list[Decimal], threads_per_inch: Decimal, symbol: str) -> UnifiedSize:
    if symbol != "UNS":
        shown = f"{written}-{threads_per_inch}{f' {symbol}' if symbol else ''}"
        raise UnknownName(
            f"{rules('ASME B1.1').cited} lists no {shown}; write UNS for a diameter and pitch outside its table",
            member="designation",
            code="unknown_size",
            nearest=_nearest(candidates, threads_per_inch),
        )
    if len(candidates) > 1 and written.isdigit():
        raise NotUnderstood(
            f"{written}-{threads_per_inch} UNS may be the screw number #{written} or {written} in: "
            f"write #{written}-{threads_per_inch} or {written}.000-{threads_per_inch}",
            member="designation",
        )
    found = UnifiedSize(candidates[-1], threads_per_inch, "UNS", None)
    if not _LEAST <= found.d <= GREATEST or minor_diameter(found.d, found.pitch) < found.d * _LEAST_MINOR:
        raise NotStandardised(
            f"the formulas of {rules('ASME B1.1').cited} are not used for {written}-{threads_per_inch}: "
            "diameters run from 0.060 to 6 in, and the pitch must leave a minor diameter of at least half the diameter",
            member="designation",
        )
    return found


def _nearest(candidates: list[Decimal], threads_per_inch: Decimal) -> list[str]:
    """Return three sizes of the nearest diameters; of one diameter those whose threads per inch are written alike."""
    by_diameter = _by_diameter()
    found: list[str] = []
    for d in sorted(by_diameter, key=lambda listed: min(abs(listed - wanted) for wanted in candidates)):
        alike = near_names(str(threads_per_inch), by_diameter[d], slips=_ANY)
        found += [by_diameter[d][name] for name in alike]
        if len(found) >= _NEAREST:
            break
    return found[:_NEAREST]


@remembered()
def _by_diameter() -> dict[Decimal, dict[str, str]]:
    """Return designations by diameter and threads per inch as written."""
    found: dict[Decimal, dict[str, str]] = {}
    for size in _plan().values():
        found.setdefault(size.d, {})[str(size.threads_per_inch)] = size.designation
    return found
