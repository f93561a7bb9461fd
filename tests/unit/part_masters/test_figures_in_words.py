"""Widths across flats, thicknesses, prices and counts among the words of five languages (common practice)."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Result, Validator


def read(text: str) -> Result:
    with Validator(repeats=False) as validator:
        return validator.validate({"description": text})


@pytest.mark.parametrize(
    "words",
    ["SW {}", "SW{}", "{} AF", "WRENCH SIZE {}", "SCHLÜSSELWEITE {}", "s/plats {}", "SUR PLATS {} MM", "CLE DE {}",
     "ENTRE CARAS {}", "E/C {}", "LLAVE {}", "LLAVE DEL {}", "SCHL.-WEITE {}", "OUVERTURE {}",
     "CH{}", "CH.{}", "CHIAVE {}"],
)  # fmt: skip
def test_a_width_across_flats_is_held_against_the_standard(words: str) -> None:
    """ISO 4032:2012, Tables 1 and 2: M10 has s 16, the former standard 17."""
    assert read(f"ISO 4032 M10 8 {words.format(16)}").findings == []
    assert {one.code for one in read(f"ISO 4032 M10 8 {words.format(17)}").findings} == {"dimension-outside-limits"}


@pytest.mark.parametrize(
    ("text", "former"),
    [
        ("ISO 4032 M10 8 SW 17", "DIN 934"),
        ("ISO 4014 M12X80 8.8 CLE 19", "DIN 931"),
        ("ISO 4017 M14X40 8.8 LLAVE 22", "DIN 933"),
        ("ISO 4032 M22 8 CHIAVE 32", "DIN 934"),
    ],
)
def test_a_width_of_the_former_standard_is_called_so(text: str, former: str) -> None:
    """DIN 931, 933, 934: s 17, 19, 22, 32 of M10, M12, M14, M22; the ISO standards have 16, 18, 21, 34."""
    wrong = next(one for one in read(text).findings if one.code == "dimension-outside-limits")
    assert f"that of the former standard {former}" in wrong.detail


@pytest.mark.parametrize(
    "words",
    ["ZINC PLATED {} UM", "ZN {}UM", "ZINC ELECTROPLATED {} MICRONS", "GALV. VERZINKT {} µm", "VERZINKT {}µ",
     "VERZINKT SCHICHTDICKE {} MY", "ZINGUE EP. {} MICRONS", "CINCADO ESPESOR {} MICRAS", "ZINCATA SP. {} MICRON",
     "ZINCATO {} MICROMETRI"],
)  # fmt: skip
@pytest.mark.parametrize("thickness", [8, 25])
def test_a_thickness_in_words_is_a_coating_with_its_thickness(words: str, thickness: int) -> None:
    """ISO 4042:1999, Table 2: M10 of position g has the room for 8 um, not for 25."""
    said, designated = (
        read(f"ISO 4014 M10X60 8.8 {words.format(thickness)}"),
        read(f"ISO 4014 - M10x60 - 8.8 - Fe/Zn{thickness}"),
    )
    assert said.designation == designated.designation == f"ISO 4014 - M10x60 - 8.8 - Fe/Zn{thickness}"
    assert [one.code for one in said.findings] == [one.code for one in designated.findings]
    assert ("coating-without-room" in {one.code for one in said.findings}) == (thickness == 25)


def test_a_thickness_of_another_coating_is_left_over() -> None:
    assert read("ISO 4014 M16X90 8.8 HDG 60 UM").left_over == ["60", "UM"]


@pytest.mark.parametrize(
    "words",
    ["EUR 0,35/100", "0,35 EUR", "£0.35", "0.35€/ST", "USD 0.88 EA", "CHF 12.50", "PREIS 3,20", "12.50 PLN", "$ 4.60",
     "QTE MINI 100", "MOQ 500", "VPE 200", "100 ST", "GBP 10.9", "10.9 GBP", "JE 100"],
)  # fmt: skip
def test_a_price_or_count_behind_the_class_is_no_class_and_no_size(words: str) -> None:
    assert read(f"ISO 4014 M10X60 8.8 {words}").designation == "ISO 4014 - M10x60 - 8.8"
    assert read(f"ISO 7089 4 200 HV {words}").designation == "ISO 7089 - 4 - 200 HV"


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        ("HEX BOLT ISO 4014 M36X4x 360 8.8", "ISO 4014 - M36x360 - 8.8"),
        ("VIS H ISO 8676 M12 x1.5x 50 10.9", "ISO 8676 - M12x1.5x50 - 10.9"),
        ("HEX CAP SCREW TYPE 1 7/8-9 X 3 GR 8", "ASME B18.2.1 hex cap screw - 7/8-9x3 - SAE J429 8"),
        ("HEX CAP SCREW 1/2-13 X 2 GRADO 8 SAE J429", "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 8"),
        ("HEX NUT M10 04", "ISO 4035 - M10 - 04"),  # ISO 898-2:2012: 04 and 05 are classes of thin nuts
        ("ISO 4032 M10X1.25 8", "ISO 4032 - M10x1.25 - 8"),
        ("ISO 4017 M8X30 A2-75", "ISO 4017 - M8x30 - A2-75"),
        ("DADO ISO 8673 M8 8", "ISO 8673 - M8x1 - 8"),
    ],
)
def test_sizes_and_classes_as_they_are_typed(text: str, designation: str) -> None:
    assert read(text).designation == designation


@pytest.mark.parametrize("text", ["ISO 8673 M8 8", "ISO 8673 - M8 - 8", "DADO M8 ISO 8673 8"])
def test_a_pitch_that_is_not_written_is_told(text: str) -> None:
    (finding,) = read(text).findings
    assert (finding.code, finding.expected) == ("requirement-missing", "M8x1")


def test_a_standard_that_the_row_never_named_is_not_blamed() -> None:
    (finding,) = read("BOLT 10-24 X 1").findings
    assert finding.detail.startswith("the row names no standard")


@pytest.mark.parametrize("text", ["SOCKET SCREW M8X20 45H", "SOCKET SCREW M8X20 8.8", "HEX BOLT M10X60 8.8"])
def test_a_family_of_several_stays_open(text: str) -> None:
    result = read(text)
    assert result.designation is None
    assert len(result.alternatives) >= 2
