"""What a text leaves open keeps the designation back: a guess is never presented as a fact (common practice)."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Result, Validator


def validated(**row: object) -> Result:
    with Validator() as validator:
        return validator.validate(row)


@pytest.mark.parametrize(
    ("description", "member", "code"),
    [
        ("HCS 3/8-16 X 25MM GR5", "length", "value-unreadable"),
        ("ISO 4014 M10X2IN 8.8", "length", "value-unreadable"),
        ("ISO 4014 M10X60 8.8 10.9", "property_class", "requirement-missing"),
        ("HCS 1/2-13X2 GR5 GR8", "property_class", "requirement-missing"),
        ("ISO 4014 M10X60 M12X60 8.8", "thread", "requirement-missing"),
        ("BUSH FOR ISO 4014 M10X60 8.8", "description", "requirement-missing"),
        ("ISO 4032 M16 LH 8", "thread", "left-hand-thread"),
    ],
)
def test_what_is_open_is_told_and_no_designation_is_given(description: str, member: str, code: str) -> None:
    result = validated(description=description)
    assert result.designation is None
    assert (code, member) in {(one.code, one.member) for one in result.findings}


def test_two_classes_are_both_offered() -> None:
    assert validated(description="ISO 4014 M10X60 8.8 OR 10.9").alternatives == [
        "ISO 4014 - M10x60 - 8.8",
        "ISO 4014 - M10x60 - 10.9",
    ]


@pytest.mark.parametrize(
    ("description", "designation"),
    [
        ("ISO 4014 M10X60 8.8 M10X60", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014 M10X60 8.8 CL8.8", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014 M10X6CM 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("THREADED ROD M8X1M 4.8", "threaded rod - M8x1000 - 4.8"),
        ("THREADED ROD 1/2-13X3FT GR 5", "inch threaded rod - 1/2-13x36 - SAE J429 5"),
        ('"ISO 4014" "M10X60" "8.8"', "ISO 4014 - M10x60 - 8.8"),
    ],
)
def test_what_is_said_twice_or_in_a_unit_of_the_same_system_is_no_doubt(description: str, designation: str) -> None:
    assert validated(description=description).designation == designation


def test_the_unit_of_a_length_is_never_dropped() -> None:
    wrong = validated(description="HCS 1/2-13 GR5", length="50 mm")
    assert wrong.designation is None
    assert ("value-unreadable", "length") in {(one.code, one.member) for one in wrong.findings}
    right = validated(description="HCS 1/2-13 GR5", length="2 in")
    assert right.designation == "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"


def test_a_left_hand_thread_in_the_member_is_told_too() -> None:
    result = validated(description="ISO 4032 8", thread="M16-LH")
    assert result.designation is None
    assert "left-hand-thread" in {one.code for one in result.findings}


@pytest.mark.parametrize(
    "description", ["SECHSKANTSCHRAUBE ISO 4014 M10X60 8.8 MIT MUTTER", "NUT M16 CL8 & WASHER M16"]
)
def test_a_set_is_two_parts(description: str) -> None:
    result = validated(description=description)
    assert result.designation is None
    assert len(result.alternatives) == 1
    assert any("two parts" in one.detail for one in result.findings)


@pytest.mark.parametrize(
    ("description", "designation"),
    [
        ("ITEM 12: HEX NUT ISO 4032 M20 8", "ISO 4032 - M20 - 8"),
        ("6-KT-MUTTER ISO 4032 M24 8", "ISO 4032 - M24 - 8"),
        ("ISO 4017 M12 x 30 8.8 flZn/nc/480h/L", "ISO 4017 - M12x30 - 8.8 - flZnnc-480h"),
        ("DIN EN ISO 4017 M 8X 20 8.8", "ISO 4017 - M8x20 - 8.8"),
        ("ISO 4032 NUT FOR BOLT M10 8", "ISO 4032 - M10 - 8"),
    ],
)
def test_numbers_that_say_something_else_are_no_class_and_no_length(description: str, designation: str) -> None:
    assert validated(description=description).designation == designation


@pytest.mark.parametrize(
    ("description", "designation"),
    [
        ("SHCS 1/4-20 x 5/8 LG., 18-8 SS A574", "ASME B18.3 socket head cap screw - 1/4-20x5/8 - ASTM A574"),
        ("ISO 4014 M10 X 60 LG 100 PCS 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 8765 M10 X 1.25 LG 60 10.9", "ISO 8765 - M10x1.25x60 - 10.9"),
    ],
)
def test_a_length_that_is_said_already_is_not_looked_for_again(description: str, designation: str) -> None:
    assert validated(description=description).designation == designation


@pytest.mark.parametrize(
    ("description", "member"),
    [
        ("ISO 4014 M10X60 8.8 L=58", "length"),
        ("SPECIAL BOLT ISO 4014 M10X60 8.8", "description"),
        ("SCHRAUBE M10X40 AEHNLICH ISO 4017 8.8", "description"),
    ],
)
def test_a_part_that_only_resembles_the_standard_is_not_designated_by_it(description: str, member: str) -> None:
    result = validated(description=description)
    assert result.designation is None
    assert [one.member for one in result.findings] == [member]


@pytest.mark.parametrize(
    "length", ["1\u00bd", "1.1/2", "1-1/2", "1 1/2", '1 1/2"', "1\u00bd IN", "1.5", "1.500"], ids=ascii
)
def test_an_inch_and_a_half_however_it_is_written(length: str) -> None:
    result = validated(description=f"HCS 3/8-16 X {length} GR5")
    assert result.designation == "ASME B18.2.1 hex cap screw - 3/8-16x1-1/2 - SAE J429 5"


def test_an_improper_fraction_is_not_guessed() -> None:
    result = validated(description="HCS 3/8-16 X 11/2 GR5")
    assert result.designation is None
    assert [(one.code, one.given) for one in result.findings] == [("value-unreadable", "11/2")]


@pytest.mark.parametrize(
    ("description", "thread"),
    [
        ("1/2 UNC", "1/2-13"),
        ("1/2 UNF", "1/2-20"),
        ("3/8-UNC-2A", "3/8-16"),
        ("1UNC", None),
        ("1/2 UNEF", None),
        ("0/0 UNC", None),
    ],
)
def test_the_series_says_the_threads_per_inch(description: str, thread: str | None) -> None:
    """ASME B1.1-2003, Table 1."""
    result = validated(description=f"HCS {description} X 2 GR5")
    wanted = None if thread is None else f"ASME B18.2.1 hex cap screw - {thread}x2 - SAE J429 5"
    assert result.designation == wanted


@pytest.mark.parametrize(
    "description",
    [
        "ISO 4014 M10X60 8.8 EN 10204 3.1",
        "ISO 4014 M10X60 8.8 EN 10204-3.1",
        "BOLT M10, THREAD LENGTH 26, LENGTH 60, ISO 4014, 8.8",
        "ISO 4014 M10X60 8.8 THD LG 26",
    ],
)
def test_certificates_and_thread_lengths_are_no_standard_and_no_length(description: str) -> None:
    assert validated(description=description).designation == "ISO 4014 - M10x60 - 8.8"


@pytest.mark.parametrize(
    ("description", "length"), [("THREADED BAR M12 3M 8.8", "3000"), ("VARILLA ROSCADA M12 1 METRO 8.8", "1000")]
)
def test_a_rod_has_the_unit_of_its_length(description: str, length: str) -> None:
    assert validated(description=description).designation == f"threaded rod - M12x{length} - 8.8"


@pytest.mark.parametrize("standard", ["ISO 7380-2", "ISO7380-2", "ISO 7093-2"])
def test_another_part_of_a_standard_is_not_the_part_that_is_held(standard: str) -> None:
    """ISO 7380-2 has a collar, ISO 7093-2 is product grade C."""
    result = validated(description=f"{standard} M6X12 10.9")
    assert result.designation is None
    assert [(one.code, one.given) for one in result.findings] == [("standard-unknown", f"ISO {standard[3:].strip()}")]


def test_the_classes_that_are_told_are_those_of_the_size() -> None:
    """ISO 4014:2011: above M39 the property class is as agreed."""
    (found,) = validated(description="ISO 4014 M42X200 8.8").findings
    assert found.expected is None
    assert "as agreed" in found.detail


def test_an_unknown_word_without_any_name_of_a_product_is_told() -> None:
    result = validated(description="SONSTWAS M10X60 8.8")
    assert result.designation is None
    assert "SONSTWAS is not understood" in result.findings[0].detail
