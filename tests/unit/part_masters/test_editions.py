"""A year belongs to the standard that it stands behind; an edition that is not held is told the right way round.

Held: ISO 4014:2011, ISO 4017:2014, ISO 898-1:2013, ISO 4042:1999 and 2018, ISO 898-2:2012.
"""

from itertools import permutations

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator
from boltwright_server.part_masters.meaning.findings import Finding

CODES = ("edition-not-held", "edition-superseded")


def told(**row: object) -> list[Finding]:
    with Validator(repeats=False) as validator:
        return [one for one in validator.validate(row).findings if one.code in CODES]


@pytest.mark.parametrize(
    "other", ["ISO 898-1:2013", "EN 10204:2004", "ISO 3269:2019", "DIN EN ISO 9001:2015", "SAE J429:2014"]
)
def test_the_year_of_another_standard_says_nothing_of_the_product(other: str) -> None:
    for words in permutations(("ISO 4017", "M12x80", "8.8", other)):
        assert [one for one in told(description=" ".join(words)) if "4017" in (one.given or "")] == []


@pytest.mark.parametrize(
    "row",
    [
        {"description": "ISO 4014:{} M12x80 8.8"},
        {"description": "M12x80 8.8 DIN EN ISO 4014:{}-06"},
        {"description": "ISO 4014-{} M12x80 8.8"},
        {"description": "ISO 4014 Ausgabe {} M12x80 8.8"},
        {"description": "ISO 4014 edition {} M12x80 8.8"},
        {"description": "ISO 4014 édition {} M12x80 8.8"},
        {"description": "ISO 4014 edición {} M12x80 8.8"},
        {"description": "ISO 4014 ed. {} M12x80 8.8"},
        {"description": "ISO 4014 (edizione {}) M12x80 8.8"},
        {"description": "HEX BOLT M12x80 8.8", "standard": "ISO 4014:{}"},
        {"description": "EN 10204:2004 ISO 898-1:2013", "designation": "ISO 4014:{} M12x80 8.8"},
    ],
)
@pytest.mark.parametrize(("year", "word"), [("1999", "older"), ("2022", "later")])
def test_an_edition_that_is_not_held_is_told_as_older_or_later(row: dict[str, str], year: str, word: str) -> None:
    (one,) = told(**{name: text.format(year) for name, text in row.items()})
    assert (one.code, one.severity, one.given) == ("edition-not-held", "warning", f"ISO 4014:{year}")
    assert f"it is {word} than what is held" in one.detail


@pytest.mark.parametrize("row", ["ISO 4014:2011 M12x80 8.8", "ISO 4014 M12x80 8.8 Fe/Zn8 ISO 4042:2018"])
def test_of_an_edition_that_is_held_a_later_one_is_told(row: str) -> None:
    (one,) = told(description=row)
    assert (one.code, one.severity) == ("edition-superseded", "notice")
    assert "in force" in one.detail


def test_nothing_is_told_of_the_edition_in_force_and_of_none() -> None:
    assert told(description="ISO 4014 M12x80 8.8 ISO 898-1:2013") == told(description="ISO 4014 M12x80 8.8") == []


def test_each_standard_that_is_named_with_a_year_is_looked_up() -> None:
    found = told(description="ISO 4032:2023 M12 8 ISO 898-2:2022")
    assert [one.given for one in found] == ["ISO 4032:2023", "ISO 898-2:2022"]


@pytest.mark.parametrize("text", ["ASTM A325 3/4-10 x 2", "HEAVY HEX STRUCTURAL BOLT 3/4-10 x 2 A325"])
def test_a_withdrawn_standard_of_grades_is_told(text: str) -> None:
    """ASTM F3125 took the place of A325 in 2016 (common practice)."""
    (one,) = told(description=text)
    assert one.code == "edition-superseded"
    assert "F3125" in one.detail
    assert told(description=text.replace("ASTM A325", "A325").replace("A325", "ASTM F3125 A325")) == []
