"""Words of products of which no standard is held, beside a standard of another kind; words of five languages.

Common practice of the trade; what the standards describe: ISO 4014 and ISO 4017 hexagon head bolts and screws,
ISO 4032 regular hexagon nuts, ISO 4762 socket head cap screws, ISO 7089 plain washers, ISO 7040 nuts with
nonmetallic insert, ISO 7380-1 button heads, ISO 4029 set screws with cup point.
"""

import pytest

from boltwright_server.part_masters.catalogue.validation import Result, Validator

BOLT, NUT, WASHER = "ISO 4014 M10x60 8.8", "ISO 4032 M12 8", "ISO 7089 10 200 HV"
OF_BOLTS = (
    *("carriage bolt", "coach bolts", "wood screw", "self tapping", "rivet", "eye bolt", "threaded rod", "stud bolt"),
    *("T-bolt", "U-bolt", "square head", "anchor", "hook bolt", "shoulder", "low head", "countersunk", "button head"),
    *("Schlossschraube", "Holzschrauben", "Blechschraube", "Niet", "Ringschraube", "Augenschraube", "Gewindestange"),
    *("Stiftschraube", "Hammerkopfschraube", "Vierkantschraube", "Steinschraube", "Passschraube", "Schlitzschraube"),
    *(
        "tirefond",
        "vis a bois",
        "vis pour bois",
        "autotaraudeuse",
        "goujon",
        "tige filetee",
        "tete carree",
        "vis a oeil",
    ),
    *("tirafondo", "tornillo para madera", "autorroscante", "remache", "cancamo", "esparrago", "varilla roscada"),
    *("vite legno", "autofilettante", "rivetto", "perno ad occhio", "barra filettata", "prigioniero", "golfare"),
    *("BSW", "Trapezgewinde", "nylon", "dog point"),
)
OF_NUTS = (
    *("cap nut", "cap", "castle nut", "weld nut", "square nut", "wing", "nylon insert", "lock nut", "flange", "thin"),
    *("cage nut", "coupling nut", "domed", "slotted nut", "Hutmutter", "Kronenmutter", "Schweissmutter", "Vierkant"),
    *("Vierkantmutter", "Flügelmutter", "Fluegelmutter", "Ringmutter", "Langmutter", "ecrou borgne", "écrou carré"),
    *("ecrou papillon", "ecrou a souder", "ecrou crenele", "tuerca ciega", "tuerca cuadrada", "tuerca mariposa"),
    *("tuerca almenada", "tuerca para soldar", "dado cieco", "dado quadro", "dado ad alette", "dado a saldare"),
    *("dado a corona", "galletto"),
)
OF_WASHERS = (
    *("spring washer", "lock washer", "toothed", "Federring", "Zahnscheibe", "Fächerscheibe", "rondelle elastique"),
    *("arandela muelle", "arandela elastica", "rosetta elastica", "nut", "bolt"),
)


def read(text: str) -> Result:
    with Validator(repeats=False) as validator:
        return validator.validate({"description": text})


def codes(text: str) -> set[str]:
    return {one.code for one in read(text).findings}


@pytest.mark.parametrize(
    ("word", "part"),
    [(word, part) for words, part in ((OF_BOLTS, BOLT), (OF_NUTS, NUT), (OF_WASHERS, WASHER)) for word in words],
)
def test_a_word_of_another_kind_is_told_beside_a_standard(word: str, part: str) -> None:
    """Before or behind, in small letters or capitals; a warning, and the standard is what the part is named by."""
    for text in (f"{word} {part}", f"{part} {word.upper()}"):
        result = read(text)
        assert "words-contradict" in {one.code for one in result.findings}, text
        assert result.status == "questionable", text
        assert (result.designation or "").startswith(part[:8]), text


@pytest.mark.parametrize(
    "text",
    [
        "HEX NUT NYLON INSERT ISO 7040 M12 8",
        "Flachrundschraube mit Innensechskant ISO 7380-1 M8x20 010.9",
        "DOME HEAD SOCKET SCREW ISO 7380-1 M8x20 010.9",
        "ESPARRAGO ALLEN ISO 4029 M8x16 45H",
        "SHCS KNURLED ISO 4762 M8x30 8.8",
        "Bolzen ISO 4014 M10x60 8.8",
        "ISO 4014 M10x60 8.8 for hose clamp",
        "ISO 4014 M10x60 8.8 fuer Lager",
        "ISO 4014 M10x60 8.8 without eye",
        "Skt ISO 4017 M12x40 8.8",
        "Skt. Schr. ISO 4017 M12x40 8.8",
        "SKT HD CAP SCREW ISO 4762 M8x30 8.8",
        "ISO 4014 M10x60 8.8 mit Kegelkuppe",
    ],
)
def test_a_word_that_the_product_is_called_by_too_is_no_contradiction(text: str) -> None:
    assert codes(text) == set()


@pytest.mark.parametrize("text", ["socket ISO 4017 M12x40 8.8", "Sechskant ISO 4762 M8x30 8.8", f"nut {BOLT}"])
def test_no_word_against_the_standard_is_an_error_by_itself(text: str) -> None:
    result = read(text)
    assert (codes(text), result.status) == ({"words-contradict"}, "questionable")
    assert result.designation is not None


@pytest.mark.parametrize(
    "words",
    ["with nut", "mit Mutter", "mit 1 Mutter", "avec écrou", "con tuerca", "con dado", "+ nut", "und Mutter",
     "with spring washer", "mit Federring", "avec rondelle elastique", "con rosetta elastica"],
)  # fmt: skip
def test_what_a_bolt_is_sold_with_makes_two_parts_and_contradicts_nothing(words: str) -> None:
    for text in (f"{BOLT} {words}", f"{words} {BOLT}" if words[0] != "+" else f"BOLT {BOLT} {words}"):
        result = read(text)
        assert codes(text) == {"requirement-missing"}, text
        assert "two parts" in result.findings[0].detail
        assert result.alternatives == ["ISO 4014 - M10x60 - 8.8"]


@pytest.mark.parametrize(
    "text",
    ["Perno ad occhio M12", "VITE AD OCCHIO M12X60", "PERNO DE OJO M12", "VIS A OEIL M12X60",
     "TORNILLO PARA MADERA M8X60",
     "VIS POUR BOIS M8X60", "DADO QUADRO M8", "ECROU CARRE M8", "TUERCA CUADRADA M8", "DADO A SALDARE M8"],
)  # fmt: skip
def test_a_product_of_which_no_standard_is_held_is_unreadable_by_its_words(text: str) -> None:
    assert read(text).status == "unreadable"


@pytest.mark.parametrize(
    "word", ["vis H", "tornillo hex", "vite TE", "Sechskantschraube", "viti TE", "tornillos hexagonales"]
)
def test_a_word_for_bolt_and_screw_alike_leaves_both_open(word: str) -> None:
    """ASME B18.2.1 describes hex cap screws and hex bolts."""
    result = read(f"{word} 1/2-13 x 2 ASME B18.2.1 SAE J429 5")
    assert result.designation is None
    assert {one.partition(" - ")[0] for one in result.alternatives} == {
        "ASME B18.2.1 hex cap screw",
        "ASME B18.2.1 hex bolt",
    }


@pytest.mark.parametrize("word", ["hex bolt", "boulon H", "perno hex", "bullone TE"])
def test_a_word_for_a_bolt_alone_says_which(word: str) -> None:
    assert (
        read(f"{word} 1/2-13 x 2 ASME B18.2.1 SAE J429 5").designation
        == "ASME B18.2.1 hex bolt - 1/2-13x2 - SAE J429 5"
    )
