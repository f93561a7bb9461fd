"""Room for coating: the rule of ISO 4042:1999 on every thread of ISO 261."""

from __future__ import annotations

from decimal import Decimal

import pytest

from boltwright_server.coating.room import GROUPS, length_group, room
from boltwright_server.quantities import Refusal
from boltwright_server.threads import ToleranceClass, find_size, limits, sizes

CLASSES = ("4h", "6g", "6f", "6e", "6G", "6H", "6az", "6AZ", "6AX")


@pytest.mark.parametrize("name", CLASSES)
def test_the_greatest_coated_thread_stays_within_the_basic_profile(name: str) -> None:
    """d2 max + 4 t <= d2 basic, and D2 min - 4 t >= D2 basic: equality for a quarter of the deviation."""
    tolerance = ToleranceClass.parse(name)
    checked = 0
    for size in sizes():
        try:
            found, pitch = room(size, tolerance), limits(size, tolerance).limits["pitch_diameter"]
        except Refusal:
            continue
        quarter = found.exact["local"].max
        near = pitch.max if tolerance.member == "external" else pitch.min
        assert abs(near - pitch.nominal) - 4 * quarter / 1000 in (Decimal(0), Decimal("0.00002"), Decimal("0.00001"))
        assert all(found.nominal[group].max <= found.exact[group].max + Decimal("0.17") for group in found.nominal)
        checked += 1
    assert checked >= 20


def test_a_length_belongs_to_the_group_that_ends_with_it() -> None:
    size = find_size(Decimal(10))
    groups = [length_group(size, Decimal(length)) for length in (50, 51, 100, 101, 150, 151)]
    assert groups == [GROUPS[1], GROUPS[2], GROUPS[2], GROUPS[3], GROUPS[3], None]
