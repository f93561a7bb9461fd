"""From which diameter on a part is marked."""

from __future__ import annotations

import pytest

from boltwright_server.specification import specification


@pytest.mark.parametrize(
    ("designation", "marked"),
    [
        ("ISO 4017 - M5x30 - 8.8", True),
        ("ISO 4017 - M4x30 - 8.8", False),
        ("ISO 4762 - M5x30 - 8.8", True),
        ("ISO 4032 - M5 - 8", True),
        ("ISO 4017 - M5x30 - A2-70", True),
    ],
)
def test_5_mm_is_marked_and_less_is_not(designation: str, marked: bool) -> None:
    """ISO 898-1:2013 and ISO 898-2:2012, clause 10: d from 5 mm, two reproductions; ISO 3506-1: M5, memory."""
    assert bool(specification(designation).marking) is marked
