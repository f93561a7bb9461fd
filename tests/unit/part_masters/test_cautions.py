"""Cautions of coatings: hydrogen, room in the thread, and what the standards of coatings leave out."""

from decimal import Decimal

import pytest

from boltwright_server.mechanical import grades, mechanical_minimums
from boltwright_server.part_masters.catalogue.validation import Validator
from boltwright_server.threads import find_size


def codes(description: str) -> set[str]:
    with Validator() as validator:
        return {finding.code for finding in validator.validate({"description": description}).findings}


@pytest.mark.parametrize(
    ("description", "left_out"),
    [
        ("ISO 4014 M12x60 8.8U tZn", False),
        ("ISO 4014 M12x60 10.9U tZn", False),
        ("ISO 4762 M12x60 12.9U tZn", True),
        ("ISO 4014 M12x60 A2-70 tZn", True),
        ("ISO 7089 12 200 HV tZn", False),
    ],
)
def test_bolts_up_to_10_9_are_galvanized(description: str, left_out: bool) -> None:
    """ISO 10684:2004, scope: fasteners of steel, bolts up to 10.9; washers have no property class."""
    assert ("coating-not-in-standard" in codes(description)) is left_out


def told(code: str, **row: object) -> list[str]:
    """Return the severities with which a code is told of a row."""
    with Validator(repeats=False) as validator:
        return [one.severity for one in validator.validate(row).findings if one.code == code]


HARD = "hydrogen-embrittlement"


@pytest.mark.parametrize(
    "product", ["ISO 4762", "DIN 912", "DIN 7984", "SOCKET HEAD CAP SCREW", "ZYL.SCHR. MIT INNENSECHSKANT", "VIS CHC"]
)
@pytest.mark.parametrize("coating", ["galv. verzinkt", "ZINC PLATED", "zingué", "cincado", "zincata", "tZn", "Fe/Zn5"])
def test_hard_bolts_are_told_of_hydrogen_whatever_their_standard(product: str, coating: str) -> None:
    """ISO 4042:2018, clause 4.4: baking above 390 HV, so a warning; 10.9 (380 HV) is verified; 8.8 asks for nothing.

    ISO 898-1:2013, Table 3: 335 HV (8.8), 380 HV (10.9), 435 HV (12.9).
    """
    assert told(HARD, description=f"{product} M8x30 12.9 {coating}") == ["warning"]
    assert told(HARD, description=f"{product} M8x30 10.9 {coating}") == ["notice"]
    assert told(HARD, description=f"{product} M8x30 8.8 {coating}") == []


def test_set_screws_are_hard_and_flake_brings_no_hydrogen() -> None:
    """ISO 898-5:2012: 45H has up to 560 HV. ISO 10683: the process brings in none."""
    assert told(HARD, description="DIN 913 M8x30 45H galv. verzinkt") == ["warning"]
    assert told(HARD, description="ISO 4762 M8x30 12.9 flZn-480h") == []


@pytest.mark.parametrize("coating", ["HDG", "Fe/Zn8", "ZINC PLATED"])
@pytest.mark.parametrize("grade", ["ASTM F3125 A490", "ASTM A490", "A490"])
def test_a490_is_neither_electroplated_nor_galvanized(coating: str, grade: str) -> None:
    """ASTM F3125: A490 bolts are neither electroplated nor hot dip galvanized."""
    text = f"HEAVY HEX STRUCTURAL BOLT {grade} 3/4-10 x 2-1/2 {coating}"
    assert told(HARD, description=text) == ["warning"]
    assert told("coating-not-in-standard", description=text) == ["warning"]
    assert told(HARD, description=text.replace(coating, "flZn-480h")) == []
    assert told(HARD, description=text.replace("A490", "A325")) == []


def test_no_nut_that_is_held_is_so_hard_that_plating_calls_for_measures() -> None:
    """ISO 4042:2018, 4.4 (from 360 HV), ASTM F1941 (above 39 HRC): what the rules of nuts rest on."""
    for grade in grades():
        size = find_size(Decimal(12), None) if grade.name[0].isdigit() else None
        if grade.member == "internal" and size is not None:
            hardest = mechanical_minimums(size, grade).properties.get("hardness_vickers")
            assert hardest is None or hardest.max is None or hardest.max < 360


@pytest.mark.parametrize("coating", ["zinc plated", "galv. verzinkt", "Fe/Zn8", "tZn"])
@pytest.mark.parametrize("product", ["ISO 4014 M12x80", "DIN 931 M12x80", "ISO 4032 M12", "HEX BOLT M12x80"])
def test_zinc_on_stainless_steel_is_told(product: str, coating: str) -> None:
    text = f"{product} A2-70"
    assert told("words-contradict", description=text, coating=coating) == ["warning"]
    assert told("words-contradict", description=text) == []


@pytest.mark.parametrize("product", ["ISO 4014 M12x80 8.8", "DIN 931 M12x80 8.8", "HEX BOLT M12x80 8.8"])
@pytest.mark.parametrize(("thickness", "has_room"), [("8", True), ("25", False), ({"value": 25, "unit": "um"}, False)])
def test_a_thickness_beside_words_is_judged_as_that_of_a_designation(
    product: str, thickness: object, has_room: bool
) -> None:
    """ISO 4042:1999, Table 2: pitch 1.75 in position g has room for 8 um."""
    designated = told("coating-without-room", description=product, coating="Fe/Zn8" if has_room else "Fe/Zn25")
    worded = told("coating-without-room", description=product, coating="zinc plated", coating_thickness=thickness)
    assert designated == worded == ([] if has_room else ["warning"])


def test_inch_threads_have_room_by_their_own_rule() -> None:
    """ASTM F1941: 1/2-13 class 2A has an allowance of 0.0015 in, 9.5 um a flank (ASME B1.1-2003)."""
    bolt = "ASME B18.2.1 hex cap screw 1/2-13x2 SAE J429 5"
    assert told("coating-without-room", description=bolt, coating="Fe/Zn8") == []
    assert told("coating-without-room", description=bolt, coating="Fe/Zn12") == ["warning"]
    assert told("coating-not-judged", description=bolt, coating="HDG") == ["warning"]


@pytest.mark.parametrize("nut", ["ISO 4032 M12 8", "DIN 934 M12 8", "ISO 8673 M12x1.5 8", "HEX NUT M12 8"])
def test_position_h_of_a_nut_leaves_nothing_for_a_coating_of_known_thickness(nut: str) -> None:
    """ISO 4042:1999, Table 2: the fundamental deviation of H is zero. ISO 10684:2004: tapped after galvanizing."""
    for coating in ("Fe/Zn8", "A2L", "flZn-480h"):
        assert told("coating-without-room", description=f"{nut} {coating}") == ["notice"]
    assert told("coating-without-room", description=nut, coating="zinc plated", coating_thickness="8") == ["notice"]
    for coating in ("tZn", "zinc plated", "black"):
        assert told("coating-without-room", description=f"{nut} {coating}") == []
