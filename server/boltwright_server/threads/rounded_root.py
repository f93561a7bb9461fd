"""The rounded root of an external metric thread.

ISO 965-1:2013, clause 11: asked for from property class 8.8 up. Lengths in mm.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities.rounding import half_up
from .geometry import H_PER_PITCH
from .iso_metric import MetricSize

_UM = Decimal("0.001")
#: Least root radius in pitches: H/6.93.
_RADIUS = Decimal("0.125")


def root_radius(pitch: Decimal) -> Decimal:
    """Return the least radius R = 0.125 P, unrounded.

    ISO 965-1:2013, clause 11.
    """
    return _RADIUS * pitch


def root_min(size: MetricSize, d2_min: Decimal) -> Decimal:
    """Return d3 min = d2 min - H + P/4 of a root rounded with 0.125 P, in mm to 0.001.

    ISO 965-1:2013, clause 11.
    """
    return half_up(d2_min - H_PER_PITCH * size.pitch + size.pitch / 4, "0.001")


def root_max(size: MetricSize, d2_max: Decimal, Td2: Decimal, flat_max: Decimal) -> Decimal:
    """Return d3 max of a root rounded with 0.125 P, never above the GO gauge at `flat_max`; in mm to 0.001.

    ISO 965-1:2013, clause 11; formula only, no printed value was found. `Td2` in um.
    """
    radius = root_radius(size.pitch)
    cosine = 1 - Td2 * _UM / (4 * radius)
    # cos(60 deg - arccos x) written with roots, so that no binary trigonometry enters a limit.
    turned = cosine / 2 + H_PER_PITCH * (1 - cosine * cosine).sqrt()
    rounded_root = d2_max - H_PER_PITCH * size.pitch / 2 - 2 * radius * (1 - turned)
    return min(half_up(rounded_root, "0.001"), flat_max)
