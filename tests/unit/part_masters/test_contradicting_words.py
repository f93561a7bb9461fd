"""Words that contradict the size, the class, the coating or the named standard are told (common practice)."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Result, Validator


def read(text: str) -> Result:
    with Validator(repeats=False) as validator:
        return validator.validate({"description": text})


def codes(text: str) -> set[str]:
    return {one.code for one in read(text).findings}


@pytest.mark.parametrize(
    "text",
    [
        # ASME B1.1-2003, Table 1: 1/2-13 UNC, 1/2-20 UNF, 5/8-11 UNC, 5/8-18 UNF, 1/4-20 UNC, 1/4-28 UNF.
        "HEX CAP SCREW 1/2-13 UNF X 2 GR 5",
        "HEX CAP SCREW 1/2-20 UNC-2A X 2 GR 5",
        "HEX NUT 5/8-18 UNC GR 5",
        "SHCS 1/4-20 UNF-3A x 1 ASTM A574",
        "HEX NUT 1/4-28UNC GRADE 5",
        # ISO 261: M12 coarse 1.75, M16 coarse 2.
        "FINE THREAD HEX BOLT ISO 4014 M12X80 8.8",
        "MUTTER ISO 4032 M16 8 FEINGEW.",
        "ECROU H PAS FIN ISO 4032 M16 8",
        "TUERCA ROSCA FINA ISO 4032 M16 8",
        "DADO FILETTATURA FINE ISO 4032 M16 8",
        "ISO 8765 M12X1.5X80 8.8 COARSE PITCH",
        "ISO 8673 M16X1.5 8 REGELGEWINDE",
        "VIS ISO 8765 M12X1.5X80 8.8 GROS PAS",
        "TORNILLO ISO 8765 M12X1.5X80 8.8 PASO GRUESO",
        "VITE ISO 8765 M12X1.5X80 8.8 PASSO GROSSO",
        # ISO 898-1 is carbon and alloy steel, ISO 3506-1 stainless.
        "ISO 4014 M10X60 8.8 INOX",
        "ISO 4017 M10X40 8.8 A2",
        "ISO 4017 M10X40 10.9 1.4301",
        "ISO 4017 M10X40 8.8 AISI 304",
        "ISO 4032 M10 8 EDELSTAHL",
        "ISO 4017 M10X40 A2-70 A4",
        "ISO 4017 M10X40 A2-70 VERZINKT",
        "ISO 4017 M10X40 A4-70 CINCADO",
        "ISO 4017 M10X40 A4-80 ZINGUE",
        "ISO 4017 M10X40 A4-80 ZINCATO",
        "ISO 4017 M10X40 A4-80 Fe/Zn8",
        # ISO 4759-1:2000: 6g for bolts, 6H for nuts of grades A and B.
        "ISO 4014 M10X60 8.8 6e",
        "ISO 4032 M10 8 6G",
    ],
)
def test_a_contradiction_is_told(text: str) -> None:
    assert "words-contradict" in codes(text)
    assert read(text).status != "valid"


@pytest.mark.parametrize(
    "text",
    [
        "HEX CAP SCREW 1/2-13 UNC-2A X 2 GR 5",
        "HEX CAP SCREW 1/2-20 UNRF X 2 GR 5",
        "FINE THREAD BOLT ISO 8765 M12X1.5X80 8.8",
        "ISO 4014 M12X80 8.8 REGELGEWINDE",
        "ISO 4014 M12X80 8.8 6g",
        "ISO 4032 M12 8 6H",
        "ISO 4017 M10X40 A2-70 EDELSTAHL",
        "ISO 4017 M10X40 INOX A2 CL 70",
        "VIS INOX A4 ISO 4017 M10X40 QUALITE 70",
        "ISO 7089 10 200 HV INOX A2",
    ],
)
def test_words_that_agree_are_no_matter(text: str) -> None:
    assert codes(text) == set()


@pytest.mark.parametrize(
    ("text", "contradicts"),
    [
        ("ISO 4014 M10X60 8.8 FULLY THREADED", True),
        ("ISO 4014 M10X60 8.8 VOLLGEWINDE", True),
        ("ISO 4014 M10X60 8.8 ENTIEREMENT FILETEE", True),
        ("ISO 4014 M10X60 8.8 TODA ROSCA", True),
        ("ISO 4014 M10X60 8.8 TUTTA FILETTATA", True),
        ("ISO 7089 10 200 HV MIT FASE", True),
        ("HEX NUT THIN ISO 4032 M10 8", True),
        ("SCHEIBE OHNE FASE ISO 7090 10 200 HV", True),
        ("HEX NUT WITHOUT FLANGE ISO 4161 M10 8", True),
        ("SCREW NO SHANK ISO 4017 M10X40 8.8", False),
        ("WASHER UNCHAMFERED ISO 7089 10 200 HV", False),
        ("ISO 4014 M10X60 8.8 NOT FULLY THREADED", False),
        ("SCHRAUBE OHNE SCHAFT ISO 4017 M10X40 8.8", False),
        ("SCHEIBE O. FASE ISO 7089 10 200 HV", False),
        ("RONDELLE SANS CHANFREIN ISO 7089 10 200 HV", False),
        ("ARANDELA SIN BISEL ISO 7089 10 200 HV", False),
        ("ROSETTA SENZA SMUSSO ISO 7089 10 200 HV", False),
        ("SCHEIBE FLACH ISO 7089 10 200 HV", False),
        ("VITE TE TF ISO 4017 M10X40 8.8", False),
        ("VITE T.F. ISO 4017 M10X40 8.8", False),
        ("VIS TF HC ISO 10642 M8X20 8.8", False),
        ("BOULON H ISO 4014 M10X60 8.8 SANS ECROU", False),
        ("HEX NUT WITHOUT FLANGE ISO 4032 M10 8", False),
    ],
)
def test_a_word_of_form_is_told_and_never_an_error(text: str, contradicts: bool) -> None:
    result = read(text)
    assert result.designation is not None
    assert result.status == ("questionable" if contradicts else "valid")


@pytest.mark.parametrize(
    "text",
    [
        "NOT PLATED",
        "NON ZINGUEE",
        "UNVERZINKT",
        "SIN CINCAR",
        "NICHT VERZINKT",
        "OHNE VERZINKUNG",
        "UNGALVANISED",
        "NO COATING",
    ],
)
def test_what_is_not_plated_is_not_plated(text: str) -> None:
    assert "hydrogen-embrittlement" not in codes(f"ISO 4762 M10X40 12.9 {text}")


@pytest.mark.parametrize(
    "text",
    [
        "CAP NUT ISO 4032 M12 8",
        "HUTMUTTER DIN 934 M12 8",
        "ISO 4032 M12 8 WELD NUT",
        "CARRIAGE BOLT ISO 4014 M10X60 8.8",
        "GEWINDESTANGE ISO 4014 M10X60 8.8",
        "FEDERRING ISO 7089 10 200 HV",
    ],
)
def test_a_word_for_another_kind_of_product_is_told_beside_a_named_standard(text: str) -> None:
    """ISO 4032, ISO 4014 and ISO 7089, scope: hexagon nuts, hexagon head bolts, plain washers."""
    assert "words-contradict" in codes(text)


@pytest.mark.parametrize(
    "text", ["THREADED ROD M12X1000 8.8", "CARRIAGE BOLT DIN 603 M10X60 8.8", "HEX NUT ISO 4032 M12 8"]
)
def test_a_word_that_is_right_contradicts_nothing(text: str) -> None:
    assert "words-contradict" not in codes(text)


def test_skt_is_a_socket_in_english_a_hexagon_in_german_and_no_contradiction_alone() -> None:
    """Common practice of the trade: `socket`, `Sechskant`."""
    assert read("SKT SCREW M10X45 12.9 CAP HEAD").designation == "ISO 4762 - M10x45 - 12.9"
    assert codes("SKT SCHRAUBE VERZINKT ISO 4017 M12X40 8.8") == set()
    assert codes("SKT ISO 4017 M12X40 8.8") == codes("SKT ISO 4762 M12X40 8.8") == set()
