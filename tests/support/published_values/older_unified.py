"""Unified limits with the rounding habits of editions before 2003, to check the reason given for each disagreement.

Three habits, fitted to prints of ASME B1.1-1989 and older: the internal minor diameter is rounded twice, the two
heights of the UNR root are rounded one by one, and some diameters of the 9P series stand in for their neighbours.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boltwright_server.quantities.rounding import half_even
from boltwright_server.threads import UnifiedClass, UnifiedSize
from boltwright_server.threads.unified_profile import four_places, minor_diameter, pitch_height
from boltwright_server.threads.unified_tolerances import tolerances

TWICE = "older print: minor diameter rounded to four places, then to three"
HEIGHTS = "older print: the two heights of the UNR root are rounded one by one"
REPRESENTATIVE = "older print: tolerance of a representative diameter"
#: Diameter -> the one whose tolerances older prints give it in the 9P series.
_REPRESENTATIVES = {
    Decimal(d): Decimal(of)
    for d, of in (
        ("0.2160", "0.1875"),
        ("0.5625", "0.5"),
        ("0.9375", "1"),
        ("2.3750", "2.5"),
        ("2.4375", "2.5"),
        ("5.7500", "6"),
    )
}
_SERIES_9P = ("UNEF", "UNS", "12-UN", "16-UN", "20-UN", "28-UN", "32-UN")


def older_limits(size: UnifiedSize, wanted: UnifiedClass) -> dict[str, tuple[Decimal, str]]:
    """Return each cell as an older print gives it, with the habit that may have moved it."""
    like = size
    if size.series in _SERIES_9P and size.d in _REPRESENTATIVES:
        like = replace(size, d=_REPRESENTATIVES[size.d])
    cells = tolerances(like, wanted)
    if wanted.member == "internal":
        return _internal(size, wanted, cells.pitch, tolerances(size, wanted).crest)
    d_max = four_places(size.d - cells.allowance)
    d2_max = four_places(d_max - pitch_height(size.pitch))
    root = d_max - _by_five_places("1.08253175", size.pitch) - _by_five_places("0.108253175", size.pitch)
    return {
        "allowance": (four_places(cells.allowance), REPRESENTATIVE),
        "major_max": (d_max, REPRESENTATIVE),
        "major_min": (four_places(d_max - cells.crest), REPRESENTATIVE),
        "pitch_max": (d2_max, REPRESENTATIVE),
        "pitch_min": (four_places(d2_max - cells.pitch), REPRESENTATIVE),
        "unr_minor_max": (root, HEIGHTS),
    }


def _internal(
    size: UnifiedSize, wanted: UnifiedClass, pitch: Decimal, crest: Decimal
) -> dict[str, tuple[Decimal, str]]:
    D2_min = four_places(size.d - pitch_height(size.pitch))
    D1 = four_places(minor_diameter(size.d, size.pitch))
    D1_max = D1 + four_places(crest)
    three = size.d >= Decimal("0.138")
    return {
        "pitch_max": (four_places(D2_min + pitch), REPRESENTATIVE),
        "minor_min": (half_even(D1, "0.001") if three else D1, TWICE),
        "minor_max": (half_even(D1_max, "0.001") if three and wanted.grade != "3" else D1_max, TWICE),
    }


def _by_five_places(factor: str, P: Decimal) -> Decimal:
    return four_places(half_even(Decimal(factor) * P, "0.00001"))
