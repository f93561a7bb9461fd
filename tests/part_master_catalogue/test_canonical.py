"""What a specification answers is read as itself: as a designation, as a description, and member by member.

A sample by default; `python -m tests.part_master_catalogue canonical` reads all of them.
"""

from decimal import Decimal
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.unit.designations.test_every_product import designations_of

from boltwright_server.designations import parse_product
from boltwright_server.part_masters.catalogue.validation import Validator
from boltwright_server.part_masters.text.designated import designated
from boltwright_server.products import Product, products
from boltwright_server.quantities import Refusal

from .canonical_texts import misread


def test_what_a_specification_answers_is_read_as_itself() -> None:
    wrong, count = misread(Random(11), 0.02)
    assert count > 1000
    assert wrong == []


@pytest.mark.parametrize("product", products(), ids=lambda product: product.id)
def test_every_size_and_listed_class_is_read_as_itself(product: Product) -> None:
    with Validator(repeats=False) as validator:
        for text in (one.canonical for one in designations_of(product)):
            read = validator.validate({"designation": text})
            assert (read.designation, read.left_over) == (text, [])
            assert read.confidence == 1.0


@pytest.mark.parametrize("between", [" ", "-", " -", "- "])
@pytest.mark.parametrize("by", ["x", "X", " x ", " \u00d7 "])
def test_parts_that_stand_in_other_signs_are_read_as_the_grammar_reads_them(between: str, by: str) -> None:
    for text in CANONICAL_TEXTS:
        name, size, *rest = text.split(" - ")
        other = between.join((name, size.replace("x", by), *rest))
        read = designated(other)
        meant = parse_product(other)
        assert read is not None
        assert (read.standard, read.property_class) == (meant.product.id, meant.property_class)
        assert read.coating == (meant.coating and meant.coating.designation)
        assert read.length is None or Decimal(read.length) == meant.length


#: One of each: a pitch, a coating of each form, a steel, a nut, a set screw. All are accepted by the grammar.
CANONICAL_TEXTS = (
    "ISO 4014 - M10x60 - 8.8",
    "ISO 8765 - M10x1.25x60 - 10.9 - tZn",
    "ISO 4017 - M10x40 - 8.8 - Fe/Zn5/An/T0",
    "ISO 4762 - M24x120 - 12.9 - flZn-720h",
    "ISO 4014 - M10x60 - A2-70",
    "ISO 4032 - M12 - 8 - A2L",
    "ISO 7380-1 - M8x20 - 010.9",
    "ISO 4026 - M8x10 - 45H",
    "ISO 4035 - M12 - 04",
)


_PIECES = st.sampled_from(
    ("ISO 4014", "DIN EN ISO 4032", "iso4762", "ASME B18.2.1 hex cap screw", "ISO 7089", ":2011", "M10", "M8x1", "x60",
     "X 1.5", "1/2-13", "UNC", "10", "8.8", "8Z", "200 HV", "45H", "A2-70", "SAE J429 5", "SAEJ429 8", "ASTM A325",
     "GRADE", "CLASS", "tZn", "flZnnc-480h", "Fe/Zn8", "/An//T0", "A3L", "ZINC", "BOLT", "LH", "60", "S", "U")
)  # fmt: skip


@given(st.lists(st.tuples(_PIECES, st.sampled_from((" ", "", " - ", "-"))), min_size=2, max_size=7))
def test_no_text_that_the_grammar_accepts_is_weighed_word_by_word(parts: list[tuple[str, str]]) -> None:
    text = "".join(piece + between for piece, between in parts)
    try:
        meant = parse_product(text)
    except Refusal:
        assert designated(text) is None
        return
    with Validator(repeats=False) as validator:
        read = validator.validate({"description": text})
    assert (read.designation, read.left_over) == (meant.canonical, [])
