"""An account of a row: each word of each member is used, left over, or told by a finding; no member is passed over."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltwright_server.part_masters.catalogue.validation import Result, Validator
from boltwright_server.part_masters.meaning.reading import words_of
from boltwright_server.part_masters.text.lexicon import all_terms

MEMBERS = ("description", "designation", "standard", "thread", "length", "property_class", "coating")
#: What stands in a cell that says nothing.
PLACEHOLDERS = ("OHNE", "SIN", "SANS", "KEINE", "?")
_WORDS = st.sampled_from(
    ("ISO 4014", "DIN 931", "ISO 898-1:2013", "ASME B18.2.1", "M10x60", "M12", "1/2-13 UNC-2A", "x 2 1/2", "8.8",
     "10.9",
     "A2-70", "A2", "GR 5", "SAE J429", "6g", "LH", "LINKS", "25 UM", "EUR 0,35", "SW 17", "QTE MINI 100", "1.4301",
     "OHNE", "SIN", "TF", "XYZ", "4711", "7", "3/8", "UNF", "M10", "200 HV", "tZn", "?", "#10-24", "B18.3", "X", "FOR",
     "%", "&", "°", ":2011", "12.9 USD", "TYPE 1", "L=60", "AISI 304", "M36X4x 360")
) | st.sampled_from([" ".join(term.words) for term in all_terms()])  # fmt: skip


def read(row: dict[str, object]) -> Result:
    with Validator(repeats=False) as validator:
        return validator.validate(row)


def unaccounted(row: dict[str, str], result: Result) -> list[str]:
    """Words of members that appear nowhere in the answer; a finding of a member tells all of that member."""
    told = {one.member for one in result.findings if one.code in ("coating-unknown", "value-unreadable")}
    told |= {member for member, text in row.items() if text in PLACEHOLDERS}
    words = Counter(word for member, text in row.items() if member not in told for word in words_of(text))
    return list((words - Counter(result.used) - Counter(result.left_over)).elements())


@settings(max_examples=250)
@given(st.dictionaries(st.sampled_from(MEMBERS), st.lists(_WORDS, min_size=1, max_size=8).map(" ".join), min_size=1))
def test_no_word_of_a_row_vanishes(row: dict[str, str]) -> None:
    assert unaccounted(row, read(row)) == []


@settings(max_examples=60)
@given(st.sampled_from(MEMBERS), st.sampled_from(("QWXYZ", "QQ99", "ZZTOP")))
def test_a_strange_word_in_any_member_is_left_over_or_told(member: str, word: str) -> None:
    row = {"standard": "ISO 4014", "thread": "M10", "length": "60", "property_class": "8.8", "coating": "zinc plated"}
    result = read(row | {member: f"{row.get(member, '')} {word}".strip()})
    parts = set(words_of(word))
    told = any(one.given is not None and word in one.given for one in result.findings)
    assert told or parts <= set(result.left_over)


@pytest.mark.parametrize(
    ("member", "given", "code"),
    [
        ("property_class", "8.8 / 10.9", "requirement-missing"),
        ("property_class", "8.8 INOX", "words-contradict"),
        ("property_class", "8.8 ZINC 25 UM", "coating-without-room"),
        ("thread", "M10 6e", "words-contradict"),
        ("thread", "M10 LH", "left-hand-thread"),
        ("thread", "M10 FINE", "words-contradict"),
        ("standard", "ISO 4014 VOLLGEWINDE", "words-contradict"),
        ("coating", "ZN 25 UM", "coating-without-room"),
        ("coating", "zinc plated, thread LH", "left-hand-thread"),
    ],
)
def test_what_a_member_says_beside_its_own_is_judged_too(member: str, given: str, code: str) -> None:
    row = {"standard": "ISO 4014", "thread": "M10", "length": "60", "property_class": "8.8"}
    assert code in {one.code for one in read(row | {member: given}).findings}


def test_an_unknown_member_of_a_row_is_left_over() -> None:
    row = {"description": "ISO 4014 M10x60 8.8", "width_across_flat": 99, "colour": "", "Thread ": None}
    assert read(row).left_over == ["width_across_flat"]
