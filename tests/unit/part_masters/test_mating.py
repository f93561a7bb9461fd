"""Parts of a set: judged, or said not to be.

ISO 898-2:2012, Table 2 (nut class for bolt class); SAE J429:2014, nuts for grades; ISO 10684:2004 (one allowance only).
"""

import pytest

from boltwright_server.part_masters.meaning.findings import Finding
from boltwright_server.part_masters.meaning.mating import check_mate
from boltwright_server.part_masters.meaning.reading import read
from boltwright_server.part_masters.meaning.requirement import resolve
from boltwright_server.specification.pairing import pairing_of

NEVER, OPEN = ["pair-not-permitted"], ["pair-not-judged"]


def found(part: str, mate: str) -> list[Finding]:
    said: list[Finding] = []
    check_mate(resolve(read(part)), mate, said)
    return said


def codes(part: str, mate: str) -> list[str]:
    return [one.code for one in found(part, mate)]


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
        ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5", "ASME B18.2.2 hex nut - 1/2-20 - SAE J995 5", False),
        ("ISO 4014 - M12x60 - 8.8", "ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5", False),
        ("ISO 4014 - M10x60 - 8.8 - tZn", "ISO 4032 - M10 - 8Z - tZn", True),
        ("ISO 4014 - M10x60 - 8.8U - tZn", "ISO 4032 - M10 - 8", True),
        ("ISO 4014 - M10x60 - 8.8U - tZn", "ISO 4032 - M10 - 8Z - tZn", False),
        ("ISO 4014 - M10x60 - 8.8U - tZn", "ISO 4032 - M10 - 8X - tZn", False),
        ("ISO 4014 - M16x60 - 8.8U - tZn", "ISO 4032 - M16 - 8 - tZn", False),
        ("ISO 4014 - M10x60 - 8.8 - tZn", "ISO 4032 - M10 - 8", False),
        ("ISO 4014 - M12x80 - 8.8", "ISO 7089 - 12 - 200 HV", True),
        ("ISO 4014 - M12x80 - 10.9", "ISO 7089 - 12 - 300 HV", True),
        ("ISO 4014 - M12x80 - 8.8", "ISO 7089 - 10 - 200 HV", False),
        ("ISO 4032 - M12 - 8", "ISO 7089 - 10 - 200 HV", False),
        ("ISO 4014 - M12x80 - A2-70", "ISO 4032 - M12 - A2-70", True),
        # What the product standard is does not matter for thread, zinc and class.
        ("DIN 931 M12x80 10.9", "DIN 934 M12 8", False),
        ("DIN 931 M12x80 8.8", "ISO 4032 - M12 - 8", True),
        ("ISO 4014 - M12x80 - 10.9", "DIN 934 M12 8", False),
        ("ISO 4014 - M12x80 - 8.8", "DIN 934 M14 8", False),
        ("DIN 603 M12x80 8.8", "ISO 4032 - M12 - 8", True),
        ("DIN 603 M12x80 8.8", "ISO 4032 - M12 - 5", False),
        ("HEX BOLT M12x80 8.8", "ISO 4032 - M12 - 6", False),
        ("HEX BOLT M12x80 8.8", "ISO 4032 - M12 - 8", True),
        ("DIN 931 M12x80 8.8U tZn", "ISO 4032 - M12 - 8Z - tZn", False),
        ("DIN 931 M12x80 8.8 tZn", "DIN 934 M12 8", False),
        ("ISO 4014 M12x80 8.8 LH", "ISO 4032 - M12 - 8", False),
        ("ISO 4014 M12x80 8.8 LH", "ISO 4032 M12 8 LH", True),
    ],
)
def test_a_pair_is_permitted_either_way_round(bolt: str, nut: str, permitted: bool) -> None:
    expected = [] if permitted else NEVER
    assert codes(bolt, nut) == expected == codes(nut, bolt)


@pytest.mark.parametrize(
    ("one", "other", "why"),
    [
        ("ISO 4014 - M12x80 - A2-70", "ISO 4032 - M12 - A4-80", "pairs"),
        ("ISO 4014 - M12x80 - 10.9", "ISO 4032 - M12 - A2-70", "tensile load of the bolt 87700 N"),
        ("ISO 4014 - M12x80 - A4-70", "ISO 4032 - M12 - 8", "pairs"),
        ("ISO 4014 - M12x80 - 8.8", "DIN 934 M12 8", "DIN 934"),
        ("ISO 4014 - M12x80 - 8.8", "BS 3692 HEX NUT M12 8", "BS 3692"),
        ("ISO 4014 - M12x80 - 8.8", "ISO 4032 M12", "class of the nut"),
        ("ISO 4014 M12x80", "ISO 4032 - M12 - 8", "class of the bolt"),
        ("ISO 4014 M12x80 8.8 10.9", "ISO 4032 - M12 - 8", "class of the bolt"),
        ("ISO 4014 - M12x80 - 8.8", "ISO 4032 - M12 - 8 - tZn", ""),
        ("ISO 4014 - M12x80 - 8.8 - tZn", "ISO 4032 - M12 - 8 - tZn", "nothing says whether"),
        ("BS 3692 HEX BOLT M12x80 8.8 tZn", "ISO 4032 - M12 - 8", "is not held"),
        ("ISO 4014 - M12x80 - 10.9", "ISO 7089 - 12 - 200 HV", "meant for classes up to 8"),
        ("ISO 4014 - M12x80 - 8.8", "ISO 4762 - M12x80 - 8.8", "only a bolt and a nut"),
        ("SIMILAR TO DIN 933 M12x40 8.8", "ISO 4032 - M12 - 8", "no thread is certain"),
        ("HEX BOLT 8.8", "ISO 4032 - M12 - 8", "no thread is certain"),
    ],
)
def test_what_cannot_be_judged_is_said(one: str, other: str, why: str) -> None:
    told = found(one, other)
    assert [finding.code for finding in told] == ([] if not why else OPEN)
    assert all(why in finding.detail for finding in told)


def test_each_mate_of_a_cell_is_judged() -> None:
    assert (
        codes("ISO 4014 - M12x80 - 8.8", "ISO 4032 - M12 - 8; ISO 7089 - 10 - 200 HV + DIN 934 M12 8") == NEVER + OPEN
    )


def test_nonsense_is_told() -> None:
    assert codes("ISO 4014 - M10x60 - 10.9", "MISC HARDWARE") == ["value-unreadable"]


def test_pairing_and_part_masters_say_the_same_of_allowances() -> None:
    """Both read the table of ISO 10684:2004: a plain nut is H, 8Z is 6AZ, 8X is 6AX; all of them hold the bolt."""
    nuts = {"H": "ISO 4032 - M12 - 8", "AZ": "ISO 4032 - M12 - 8Z - tZn", "AX": "ISO 4032 - M12 - 8X - tZn"}
    for bolt in ("ISO 4014 - M12x80 - 8.8 - tZn", "ISO 4014 - M12x80 - 8.8U - tZn"):
        said = {one.internal: one.may_mate for one in pairing_of(bolt).threads}
        for position, nut in nuts.items():
            assert codes(bolt, nut) == ([] if said[position] else NEVER), (bolt, nut)


@pytest.mark.parametrize("size", ["M8", "M16", "M24", "M36"])
@pytest.mark.parametrize("bolt", ["4.6", "5.8", "8.8", "10.9", "12.9"])
def test_pairing_and_part_masters_say_the_same_of_strength(size: str, bolt: str) -> None:
    for pair in pairing_of(f"{size} - {bolt}").pairing.nuts:
        standards = {1: "ISO 4032", 2: "ISO 4033"}.get(pair.style or 0)
        if standards is not None and pair.nut in ("5", "6", "8", "10", "12"):
            answer = codes(f"ISO 4014 - {size}x100 - {bolt}", f"{standards} - {size} - {pair.nut}")
            assert (answer == NEVER) == (not pair.holds), pair


@pytest.mark.parametrize("size", ["M3", "M4"])
def test_outside_the_sizes_of_nut_classes_a_usual_pair_is_a_notice(size: str) -> None:
    """ISO 898-2:2012 begins at M5; whoever pairs 8.8 with 8 below does what the trade does (common practice)."""
    (usual,) = found(f"ISO 4762 - {size}x20 - 8.8", f"ISO 4032 - {size} - 8")
    (weak,) = found(f"ISO 4762 - {size}x20 - 12.9", f"ISO 4032 - {size} - 8")
    assert (usual.code, usual.severity) == ("pair-not-judged", "notice")
    assert (weak.code, weak.severity) == ("pair-not-judged", "warning")
