"""Tolerances and allowance of Unified inch threads, in inch to six decimals.

ASME B1.1-2003, formulas for tolerances and allowance; ASME B1.30-2002 for the decimals on the way.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, weakest
from ..quantities.keeper import remembered
from ..standards import rules
from .unified import UnifiedClass, UnifiedSize, series_row
from .unified_profile import cube_root, six_places

_STANDARD = "ASME B1.1"
#: From this diameter on, 1B and 2B have the minor diameter tolerance of the pitch alone.
QUARTER = Decimal("0.25")
CLAUSE = "formulas for limits of size; rounding of ASME B1.30-2002"


@dataclass(frozen=True, slots=True)
class Engagement:
    """The length of engagement behind the tolerances, and the lengths for which they hold; inch.

    `in_diameters`: LE is the diameter, not 9 pitches; `stated`: it is the length that the designation states.
    """

    LE: Decimal
    over: Decimal | None
    up_to: Decimal | None
    basis: Basis
    in_diameters: bool
    stated: bool = False


@dataclass(frozen=True, slots=True)
class UnifiedTolerances:
    """What the limits of one size and class are computed from; inch to six decimals."""

    engagement: Engagement
    terms: tuple[Decimal, Decimal, Decimal]
    Td2_2A: Decimal
    allowance: Decimal
    pitch: Decimal
    crest: Decimal
    basis: Basis


@remembered(4096)
def tolerances(size: UnifiedSize, wanted: UnifiedClass) -> UnifiedTolerances:
    """Return the tolerances and the allowance of a size and class.

    ASME B1.1-2003, formulas for tolerances and allowance. Results in inch to six decimals.
    """
    factors = rules(_STANDARD).table("tolerance_factors").find(wanted.designation)
    assert factors is not None
    LE = engagement(size)
    terms = pitch_tolerance_terms(size.d, size.pitch, LE.LE)
    Td2 = sum(terms, Decimal(0))
    if wanted.member == "external":
        allowance = six_places(factors.number("allowance") * Td2)
        crest = six_places(factors.number("major_diameter") * cube_root(size.pitch**2))
    else:
        allowance = Decimal("0.000000")
        crest = minor_tolerance(size, wanted)
    basis = rules(_STANDARD).clause(CLAUSE).computed(None, LE.basis.checked)
    return UnifiedTolerances(
        LE, terms, Td2, allowance, six_places(factors.number("pitch_diameter") * Td2), crest, basis
    )


def pitch_tolerance_terms(d: Decimal, P: Decimal, LE: Decimal) -> tuple[Decimal, Decimal, Decimal]:
    """Return the three terms of Td2(2A) = 0.0015 D^1/3 + 0.0015 LE^1/2 + 0.015 P^2/3, each to six decimals.

    ASME B1.1-2003, formula for the pitch diameter tolerance of class 2A; inch.
    """
    return (
        six_places(Decimal("0.0015") * cube_root(d)),
        six_places(Decimal("0.0015") * LE.sqrt()),
        six_places(Decimal("0.015") * cube_root(P**2)),
    )


def minor_tolerance(size: UnifiedSize, wanted: UnifiedClass) -> Decimal:
    """Return TD1 of an internal thread in inch, each term rounded to six decimals as the worked example of 1/36 asks.

    ASME B1.1-2003, formulas for the minor diameter tolerance: 1B and 2B by size, 3B with a floor by pitch.
    """
    P, n = size.pitch, size.threads_per_inch
    wide = six_places(QUARTER * P) - six_places(Decimal("0.40") * P * P)
    if wanted.grade != "3" and size.d >= QUARTER:
        return wide
    close = six_places(Decimal("0.05") * cube_root(P**2)) + six_places(Decimal("0.03") * P / size.d) - Decimal("0.002")
    if wanted.grade != "3":
        floor = wide
    elif n >= 13:
        floor = six_places(Decimal("0.23") * P) - six_places(Decimal("1.5") * P * P)
    else:
        floor = six_places(Decimal("0.120") * P)
    return max(min(close, six_places(Decimal("0.394") * P)), floor)


@remembered(4096)
def engagement(size: UnifiedSize) -> Engagement:
    """Return LE of the tolerance formula and the lengths for which it holds.

    ASME B1.1-2003: D for UNC, UNF, 4-, 6- and 8-UN, 9P for the other series. A stated length outside the lengths for
    which that holds goes into the formula itself.
    """
    row = rules(_STANDARD).table("engagement").find(size.series)
    assert row is not None
    diameters, pitches = row.get("diameters"), row.get("pitches")
    if diameters is not None:
        LE, over, up_to = diameters * size.d, None, row.number("normal_up_to_diameters") * size.d
        checked = weakest(row.checked("diameters"), _series_checked(size))
    else:
        LE = row.number("pitches") * size.pitch
        over = row.number("normal_from_pitches") * size.pitch
        up_to = row.number("normal_up_to_pitches") * size.pitch
        checked = row.checked("pitches")
        assert pitches is not None
    basis = rules(_STANDARD).basis(row.table.printed_as, checked, "tabulated")
    if size.LE is not None and not (over or 0) <= size.LE <= up_to:
        return Engagement(size.LE, size.LE, size.LE, basis, in_diameters=False, stated=True)
    return Engagement(LE, over, up_to, basis, diameters is not None)


def _series_checked(size: UnifiedSize) -> str:
    row = series_row(size)
    return "formula" if row is None else row.checked("series")
