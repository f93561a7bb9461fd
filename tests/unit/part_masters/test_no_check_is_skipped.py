"""Each member of a row is judged whatever its product standard is, or a finding of that member says that it was not.

Every value here is one that no part can have, so that silence would be a check that nobody made.
"""

import pytest

from boltwright_server.part_masters.catalogue.row import MASS
from boltwright_server.part_masters.catalogue.validation import Validator
from boltwright_server.part_masters.figures.figure_limits import figure_ids
from boltwright_server.part_masters.meaning.findings import Finding

#: Kind of product standard -> a bolt, a nut and an inch bolt of it.
ROWS = {
    "held": ("ISO 4014 M12x80 8.8", "ISO 4032 M12 8", "ASME B18.2.1 hex cap screw 1/2-13x2 SAE J429 5"),
    "former": ("DIN 931 M12x80 8.8", "DIN 934 M12 8"),
    "former, by its fine thread": ("DIN 960 M12x1.25x80 8.8", "DIN 934 M12x1.25 8"),
    "not held": (
        "BS 3692 BOLT M12x80 8.8",
        "DIN 603 M12x80 8.8",
        "BS 3692 HEX NUT M12 8",
        "BS 3692 BOLT 1/2-13x2 GR 5",
    ),
    "none named": ("HEX BOLT M12x80 8.8", "HEX NUT M12 8", "HEX BOLT 1/2-13x2 GR 5"),
    "several named": ("DIN 931 / ISO 4014 M12x80 8.8",),
    "similar to one": ("SIMILAR TO DIN 931 M12x80 8.8",),
    "a left-hand thread": ("ISO 4014 M12x80 8.8 LH", "DIN 934 M12 8 LH"),
    "two classes": ("ISO 4014 M12x80 8.8 10.9",),
    "another size than is listed": ("ISO 4014 M11x80 8.8",),
    "no class": ("ISO 4014 M12x80", "DIN 931 M12x80", "DIN 603 M12x80"),
    "washers": ("ISO 7089 12 200 HV", "DIN 125 M12 200HV"),
    "set screws": ("ISO 4026 M12x40 45H", "DIN 913 M12x40 45H"),
    "reduced loadability": ("ISO 10642 M12x40 8.8", "DIN 7991 M12x40 8.8"),
}
TEXTS = [text for several in ROWS.values() for text in several]


def findings(**row: object) -> list[Finding]:
    with Validator(repeats=False) as validator:
        return validator.validate(row).findings


def members(**row: object) -> set[str]:
    return {one.member for one in findings(**row)}


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("id", sorted({*figure_ids(), MASS} - {"length"}))
def test_a_figure_that_no_part_can_have_is_told(text: str, id: str) -> None:
    found = [one for value in ("987654321", "0.0000001") for one in findings(description=text, **{id: value})]
    assert id in {one.member for one in found}


@pytest.mark.parametrize("text", TEXTS)
@pytest.mark.parametrize("mate", ["DIN 934 M14 8", "ISO 4032 - M64 - 8", "DIN 603 M14x80 8.8", "HEX NUT 3/4-10 GR 5"])
def test_a_mate_of_another_thread_is_told(text: str, mate: str) -> None:
    assert "mates_with" in members(description=text, mates_with=mate)


@pytest.mark.parametrize("text", [text for text in TEXTS if "HV" not in text and "45H" not in text])
def test_a_class_that_no_standard_has_is_told(text: str) -> None:
    unknown = "SAE J429 9" if "1/2" in text else "8.7"
    assert "property_class" in members(description=text, property_class=unknown)


@pytest.mark.parametrize("text", [text for text in TEXTS if "HV" not in text])
def test_a_thread_that_no_standard_has_is_told(text: str) -> None:
    assert "thread" in members(description=text, thread="M12x1.7")


BOLTS = [several[0] for name, several in ROWS.items() if name not in ("washers", "another size than is listed")]


@pytest.mark.parametrize("text", BOLTS)
@pytest.mark.parametrize("coating", ["Fe/Zn25", "Fe/ZnNi25", "flZn-1000h", "tZn"])
def test_a_coating_without_room_is_told(text: str, coating: str) -> None:
    """ISO 4042:1999, Table 2 and ISO 10684:2004: 25 um and more do not fit on 6g."""
    assert "coating" in members(description=text, coating=coating)


@pytest.mark.parametrize("text", [text for text in BOLTS if "45H" not in text])
@pytest.mark.parametrize(
    "coating", ["zinc plated", "Fe/Zn3", "tZn", "zinc nickel", "cadmium plated", "galvanisch verzinkt"]
)
def test_hydrogen_in_hard_bolts_is_told(text: str, coating: str) -> None:
    """ISO 4042:2018, clause 4.4: 12.9 may have 435 HV."""
    harder = text.replace(" 8.8", " 12.9").replace(" 10.9", "")
    told = [one for one in findings(description=harder, coating=coating) if one.member == "coating"]
    assert told or "12.9" not in harder
    assert "notice" not in {one.severity for one in told}


@pytest.mark.parametrize("text", ["ISO 4032 M12 8", "DIN 934 M12 8", "HEX NUT M12 8", "ISO 7089 12 200 HV"])
def test_a_length_of_what_has_none_is_told(text: str) -> None:
    assert "length" in members(description=text, length="60")


@pytest.mark.parametrize(
    "text", ["CARRIAGE BOLT M12x80 12.9", "FOUNDATION BOLT M12x80 12.9", "HAMMERSCHRAUBE M12x80 12.9"]
)
def test_of_a_product_by_words_alone_thread_and_class_are_judged(text: str) -> None:
    told = findings(description=text, coating="zinc plated", mates_with="ISO 4032 - M14 - 12", tensile_load="1000")
    codes = {one.code for one in told}
    assert {"hydrogen-embrittlement", "pair-not-permitted", "mechanical-figure-wrong"} <= codes
    assert "figures-not-judged" in {one.code for one in findings(description=text, head_diameter="20")}
