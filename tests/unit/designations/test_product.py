"""Product designations: text to standard, size, length and class, and back to the one canonical text."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.designations import parse_product
from boltwright_server.products import products
from boltwright_server.quantities import Contradiction, NotUnderstood, Refusal, UnknownName

METRIC = [one for one in products() if one.standard.id.startswith("ISO")]


def sample() -> list[str]:
    """Return a designation for every size of every hexagon product."""
    found = []
    for product in METRIC:
        if product.standard.id not in ("ISO 4014", "ISO 4017", "ISO 8765", "ISO 8676", "ISO 4032", "ISO 8673"):
            continue
        for thread in product.table.column_values("thread"):
            length, name = ("x60", "8.8") if product.has_length else ("", "8")
            found.append(f"{product.standard.id} - {thread}{length} - {name}")
    return found


@pytest.mark.parametrize("text", sample())
def test_every_size_of_every_hexagon_product_reads_back(text: str) -> None:
    assert parse_product(text).canonical == text
    assert parse_product(text.replace(" ", "")).canonical == text
    assert parse_product(text.lower()).canonical == text


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("ISO 4014 - M10x60 - 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("ISO4014-M10×60-8.8", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014 M10 X 1,5 X 60 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014:2011 - M10x60 - 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("DIN EN ISO 4014 - M10x60 - 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("EN ISO 4014 - M10x60 - 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("iso 4032 - m10 - 8", "ISO 4032 - M10 - 8"),
        ("ISO 8765 - M10x1.25x60 - 10.9", "ISO 8765 - M10x1.25x60 - 10.9"),
        ("ISO 8765 - M8x60 - 10.9", "ISO 8765 - M8x1x60 - 10.9"),
        ("ISO 8673 - M8 - 8", "ISO 8673 - M8x1 - 8"),
        ("ISO 4014 - M10x62,5 - 8.8", "ISO 4014 - M10x62.5 - 8.8"),
        ("ISO 4014 - M10x60.0 - 8.8", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4032 - M10 - 05", "ISO 4032 - M10 - 05"),
        ("ISO 4014 - M10x60 - 12.9u", "ISO 4014 - M10x60 - 12.9U"),
        ("ISO 4014 - M10x60", "ISO 4014 - M10x60"),
    ],
)
def test_spellings(text: str, canonical: str) -> None:
    assert parse_product(text).canonical == canonical
    assert parse_product(canonical).canonical == canonical


@pytest.mark.parametrize(
    ("text", "error", "code"),
    [
        ("ISO 4014 - M10 - 8.8", NotUnderstood, "length_missing"),
        ("ISO 8765 - M10x60 - 8.8", NotUnderstood, "not_understood"),
        ("ISO 4014 - M10x1.5x60x5 - 8.8", NotUnderstood, "not_understood"),
        ("ISO 4032 - M10x1.5x60 - 8", NotUnderstood, "not_understood"),
        ("ISO 99999 - M10x60 - 8.8", UnknownName, "unknown_standard"),
        ("ISO 4014:1999 - M10x60 - 8.8", UnknownName, "unknown_standard"),
        ("ISO 4014 - M10x60 - 8.7", UnknownName, "unknown_property_class"),
        ("ISO 4014 - M10x1.3x60 - 8.8", UnknownName, "unknown_size"),
        ("ISO 4014 - M10x60 - 8", Contradiction, "contradiction"),
        ("ISO 4032 - M10 - 8.8", Contradiction, "contradiction"),
        ("ISO 4014 - M10x-60 - 8.8", NotUnderstood, "not_understood"),
        ("ISO - M10x60 - 8.8", NotUnderstood, "not_understood"),
        ("ISO 4014 - x60 - 8.8", NotUnderstood, "not_understood"),
        ("ISO 8765 - M8x1.25x60 - 8.8", UnknownName, "unknown_size"),
        ("ISO 8674 - M10x1.5 - 10", UnknownName, "unknown_size"),
    ],
)
def test_what_is_wrong_is_said(text: str, error: type[Refusal], code: str) -> None:
    with pytest.raises(error) as refused:
        parse_product(text)
    assert refused.value.code == code


def test_an_unknown_class_names_the_nearest() -> None:
    with pytest.raises(UnknownName) as refused:
        parse_product("ISO 4014 - M10x60 - 8.7")
    assert "8.8" in refused.value.nearest


def test_a_fine_thread_product_names_the_pitches_that_it_lists() -> None:
    """The coarse pitch is not written canonically: read back, it would be a fine one."""
    for text in ("ISO 8765 - M12x60 - 8.8", "ISO 8765 - M12x1.75x60 - 8.8"):
        with pytest.raises(Refusal) as refused:
            parse_product(text)
        assert refused.value.nearest == ("M12x1.25", "M12x1.5")
        assert text[refused.value.position :].startswith("12x")


@pytest.mark.parametrize(
    ("text", "refused_part"),
    [
        ("ISO 4014 - M10x60 - 8.8 - Zn7", "Zn7"),
        ("ISO 4032 - M10 - 8Z", "8Z"),
        ("ISO 4014 - M10x60 - 8.7", "8.7"),
        ("ISO 4014 - M10x1.3x60 - 8.8", "10x1.3x60 - 8.8"),
        ("ISO 99999 - M10x60 - 8.8", "ISO 99999 - M10x60 - 8.8"),
        ("ASME B18.2.1 hex cap screw - 1/2-13x2-1/3 - SAE J429 5", "2-1/3 - SAE J429 5"),
        ("ISO 4014 - M10x60 ? 8.8", "? 8.8"),
    ],
)
def test_a_refusal_names_the_place(text: str, refused_part: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_product(text)
    assert text[refused.value.position :] == refused_part


def test_a_former_national_standard_is_never_turned_into_the_iso_one() -> None:
    """DIN 601 has other widths across flats than ISO 4016 (M10: 17, not 16), and is not held; DIN 931 is."""
    with pytest.raises(UnknownName) as refused:
        parse_product("DIN 601 - M10x60 - 4.6")
    assert "DIN 601" in refused.value.detail
    assert parse_product("DIN 931 - M10x60 - 8.8").canonical == "DIN 931 - M10x60 - 8.8"


@given(st.text(max_size=60).map(lambda text: f"ISO 4014 - {text}"))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        found = parse_product(text)
    except Refusal:
        return
    assert parse_product(found.canonical) == found
