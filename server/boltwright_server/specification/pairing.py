"""Nuts for a bolt, with what its coating asks of the threads."""

from __future__ import annotations

from dataclasses import dataclass

from ..coating import Pairing as ThreadPairing
from ..coating import pairings
from ..designations.bolt import BoltDesignation, parse_bolt
from ..mechanical.pairing import Pairing, pairing
from ..standards import rules
from ..threads import ToleranceClass

_HOT_DIP = "hot dip galvanizing"
_GALVANIZED = (
    "galvanized threads: one of the two is cut with an allowance, a bolt 6az with a plain nut or a nut 6AZ or 6AX "
    "with a bolt of 6g; never both ({})"
)
_REDUCED = "M8 and M10 with an allowance carry the reduced loads of {}, Annex A: see /v1/coating-limits"


@dataclass(frozen=True, slots=True)
class BoltPairing:
    """Which nuts hold a bolt, and which thread positions may mate where it is galvanized."""

    bolt: BoltDesignation
    pairing: Pairing
    threads: tuple[ThreadPairing, ...]
    notices: tuple[str, ...]


def pairing_of(text: str) -> BoltPairing:
    """Return the nuts that hold a bolt, a product or thread and class.

    Raises:
        Refusal: the text names no bolt, or no nut standard held goes with it.
    """
    bolt = parse_bolt(text)
    found = pairing(bolt.size, bolt.grade)
    galvanized = bolt.coating is not None and bolt.coating.process == _HOT_DIP
    with_allowance = isinstance(bolt.tolerance, ToleranceClass) and bolt.tolerance.pitch_position == "az"
    notices, named = list(found.notices), rules("ISO 10684").cited
    if galvanized or with_allowance:
        notices.append(_GALVANIZED.format(named))
        if bolt.size.d in (8, 10):
            notices.append(_REDUCED.format(named))
    threads = pairings(bolt.tolerance) if with_allowance and isinstance(bolt.tolerance, ToleranceClass) else ()
    if galvanized and not with_allowance:
        threads = pairings(ToleranceClass.parse("6g"))
    return BoltPairing(bolt, found, threads, tuple(notices))
