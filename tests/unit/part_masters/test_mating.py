"""Bolt and nut of a set.

ISO 898-2:2012, Table 2 (nut class for bolt class); SAE J429:2014, nuts for grades; ISO 10684:2004 (one allowance only).
"""

import pytest

from boltwright_server.part_masters.findings import Finding
from boltwright_server.part_masters.mating import check_mate, mate_of


def codes(part: str, mate: str) -> list[str]:
    said: list[Finding] = []
    check_mate(mate_of(part), mate, said)
    return [one.code for one in said]


@pytest.mark.parametrize(
    ("bolt", "nut", "permitted"),
    [
        ("ISO 4014 - M10x60 - 8.8", "ISO 4032 - M10 - 8", True),
        ("ISO 4014 - M10x60 - 8.8", "ISO 4032 - M10 - 10", True),
        ("ISO 4014 - M10x60 - 10.9", "ISO 4032 - M10 - 8", False),
        ("ISO 4762 - M8x30 - 12.9", "ISO 4033 - M8 - 12", True),
        ("ISO 4014 - M10x60 - 8.8", "ISO 4035 - M10 - 04", False),
        ("ISO 4014 - M10x60 - 8.8", "ISO 4032 - M12 - 8", False),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5", "ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5", True),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 8", "ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5", False),
        ("ISO 4014 - M10x60 - 8.8 - tZn", "ISO 4032 - M10 - 8Z - tZn", True),
        ("ISO 4014 - M10x60 - 8.8U - tZn", "ISO 4032 - M10 - 8Z - tZn", False),
    ],
)
def test_a_pair_is_permitted_either_way_round(bolt: str, nut: str, permitted: bool) -> None:
    expected = [] if permitted else ["pair-not-permitted"]
    assert codes(bolt, nut) == expected == codes(nut, bolt)


def test_a_mate_of_a_former_standard_is_not_judged_and_nonsense_is_told() -> None:
    assert codes("ISO 4014 - M10x60 - 10.9", "DIN 934 M10 8") == []
    assert codes("ISO 4014 - M10x60 - 10.9", "MISC HARDWARE") == ["value-unreadable"]
