"""Gender, number and other forms of words for coatings, steels and widths across flats (common practice)."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator


def codes(text: str) -> set[str]:
    with Validator(repeats=False) as validator:
        return {one.code for one in validator.validate({"description": text}).findings}


@pytest.mark.parametrize(
    "word",
    ["elettrozincato", "elettrozincata", "elettrozincati", "elettrozincate", "zincata", "zincati", "zincate",
     "cincada", "cincados", "electrozincada", "electrocincadas", "zingué", "zinguée", "zinguées", "électrozinguées",
     "verzinkte", "verzinkter"],
)  # fmt: skip
def test_a_hard_screw_is_plated_in_any_gender_and_number(word: str) -> None:
    """ISO 4042: 12.9 is above 390 HV."""
    assert "hydrogen-embrittlement" in codes(f"ISO 4762 M10x40 12.9 {word}")


@pytest.mark.parametrize(
    "word",
    ["nichtrostend", "nichtrostender Stahl", "nicht rostend", "rostfrei", "rostfreier Stahl", "VA", "V2A", "Edelstahl",
     "inox", "inoxydable", "inoxydables", "inoxidable", "inoxidables", "inossidabile",
     "inossidabili", "CRES", "stainless"],
)  # fmt: skip
def test_stainless_beside_a_class_of_carbon_steel_is_told(word: str) -> None:
    """ISO 898-1 is carbon and alloy steel, ISO 3506-1 stainless."""
    assert codes(f"ISO 4017 M10x40 8.8 {word}") == {"words-contradict"}


@pytest.mark.parametrize(
    "words",
    ["clef de 17", "Clef 17", "CLE DE 17", "clé 17", "e.c. 17", "EC 17", "E/C 17", "entrecaras 17", "chiave 17", "SW17",
     "sw 17", "S.W. 17", "17 AF", "a/f 17", "Schlüsselweite 17"],
)  # fmt: skip
def test_a_width_across_flats_is_judged_however_it_is_called(words: str) -> None:
    """ISO 4017:2014, Table 1: M10 has 16; 17 is that of DIN 933."""
    assert "dimension-outside-limits" in codes(f"ISO 4017 M10x40 8.8 {words}")
    assert codes(f"ISO 4017 M10x40 8.8 {words.replace('17', '16')}") == set()


@pytest.mark.parametrize(
    ("text", "contradicts"),
    [
        # ASME B1.1-2003, Table 1: 1/2-13 UNC, 1/2-20 UNF, 1/4-28 UNF.
        ("1/2-13 UNF", True),
        ("1/2-20 UNC", True),
        ("HEX BOLT 1/2-13 UNF x 2", True),
        ("1/4-28 UNC 2A", True),
        ("M12x1.5 COARSE THREAD", True),
        ("1/2-13 UNC", False),
        ("1/2-20 UNF", False),
        ("M12 COARSE THREAD", False),
    ],
)
def test_the_series_of_a_thread_is_judged_without_a_product(text: str, contradicts: bool) -> None:
    assert ("words-contradict" in codes(text)) is contradicts
