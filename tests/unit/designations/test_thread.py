"""Thread designations: text to meaning and back to the one canonical text.

ISO 965-1:2013, clause 5; ISO 261:1998 for the sizes.
"""

from decimal import Decimal
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.designations import parse_thread
from boltwright_server.quantities import NotUnderstood, Refusal, UnknownName
from boltwright_server.threads import MetricSize, sizes

SIZES = list(sizes())
CLASSES = ("6g", "6h", "6f", "6e", "4h", "8g", "4g6g", "5g6g", "5h6h", "6H", "5H", "7H", "6G", "4H", "4H5H")
FITS = ("6H/6g", "5H/4h", "6G/6h", "4H5H/5g6g")
ENDINGS = ("", "-S", "-L", "-LH", "-L-LH")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.d}x{size.pitch}")
def test_every_size_with_every_class_reads_back(size: MetricSize) -> None:
    for tolerance, ending in product((*CLASSES, *FITS), ENDINGS):
        text = f"{size.designation}-{tolerance}{ending}"
        found = parse_thread(text)
        assert found.canonical == text
        assert found.size == size
        assert "/".join(one.designation for one in found.classes) == tolerance
        assert found.left_hand == ending.endswith("LH")


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size.d}x{size.pitch}")
def test_a_pitch_may_always_be_written_and_the_coarse_one_is_left_out(size: MetricSize) -> None:
    found = parse_thread(f"M{size.d}x{size.pitch}-6g")
    assert found.size == size
    assert found.canonical == f"{size.designation}-6g"
    assert ("x" in found.canonical) == (size.series != "coarse")


@pytest.mark.parametrize(
    "text",
    [
        "M10x1.5-6g",
        "M10×1.5-6g",
        "M10 X 1,5 - 6g",
        "m10-6g",
        "M 10 - 6g",
        "M10*1.5-6g",
        "M10–6g",
        "M10 6g",
        "  M10-6g  ",
        "M10.0-6g",
        "M10x1.50-6g",
        "M10\u00a0-\u00a06g",
        "M10\u22126g",
    ],
)
def test_spellings_of_one_thread(text: str) -> None:
    assert parse_thread(text).canonical == "M10-6g"


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("M10x1.25-6H/6g", "M10x1.25-6H/6g"),
        ("M10x1.25-6g/6H", "M10x1.25-6H/6g"),
        ("M8-LH", "M8-LH"),
        ("M8-6g-lh", "M8-6g-LH"),
        ("M6-7g6g-L", "M6-7g6g-L"),
        ("M6-6g6g", "M6-6g"),
        ("M20", "M20"),
    ],
)
def test_parts_are_put_in_their_places(text: str, canonical: str) -> None:
    assert parse_thread(text).canonical == canonical


def test_case_tells_a_bolt_from_a_nut() -> None:
    assert [one.member for one in parse_thread("M10-6g").classes] == ["external"]
    assert [one.member for one in parse_thread("M10-6G").classes] == ["internal"]
    assert [one.member for one in parse_thread("M10-6H/6g").classes] == ["internal", "external"]


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "10-6g",
        "M",
        "M-6g",
        "Mx1.5",
        "M10x",
        "M10xx1.5",
        "M10-",
        "M10-6",
        "M10-g",
        "M10-66g",
        "M10-6gg",
        "M10-6g-X",
        "M10-6g 6g",
        "M10-6g/6h",
        "M10-6H/5H",
        "M10-6H6g",
        "M10/6g",
        "M10-6g;DROP",
        "M1e1-6g",
        "M-10-6g",
        "M10x-1.5",
        "MM10",
        "M10\n-6g\x00",
        "M10-6g" * 20,
        "\N{FULLWIDTH LATIN CAPITAL LETTER M}10",
        "M١٠-6g",
    ],
)
def test_what_is_no_thread_is_refused_with_a_reason(text: str) -> None:
    with pytest.raises(NotUnderstood) as refused:
        parse_thread(text)
    assert refused.value.member == "designation"
    assert len(refused.value.detail) < 400


def test_the_reason_says_where_and_what_was_expected() -> None:
    with pytest.raises(NotUnderstood, match=r"at position 4 \('q'\): expected .*tolerance class"):
        parse_thread("M10-q")
    with pytest.raises(NotUnderstood, match="at the end"):
        parse_thread("M10x")


def test_a_long_text_is_refused_unread() -> None:
    with pytest.raises(NotUnderstood) as refused:
        parse_thread("M10" + " " * 10_000_000)
    assert refused.value.code == "too_long"
    assert "10000003" in refused.value.detail


@pytest.mark.parametrize(
    ("text", "nearest"),
    [
        ("M10x1.3", ["M10x1.25", "M10", "M10x1"]),
        ("M10x3", ["M10", "M10x1.25", "M10x1"]),
        ("M13", ["M12", "M14", "M15x1.5"]),
        ("M15", ["M15x1.5", "M15x1"]),
    ],
)
def test_an_unknown_size_names_the_nearest(text: str, nearest: list[str]) -> None:
    with pytest.raises(UnknownName) as refused:
        parse_thread(text)
    assert refused.value.code == "unknown_size"
    assert set(refused.value.nearest) & set(nearest)
    for name in refused.value.nearest:
        parse_thread(name)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        found = parse_thread(text)
    except Refusal:
        return
    assert parse_thread(found.canonical) == found


@given(
    st.decimals("0", "999", places=3),
    st.one_of(st.none(), st.decimals("0", "20", places=2)),
    st.sampled_from(["", "-6g", "-6H", " 6H/6g", "-5g6g-L-LH", "-9z", "-0g"]),
)
def test_any_numbers_are_read_or_refused(d: Decimal, pitch: Decimal | None, rest: str) -> None:
    try:
        found = parse_thread(f"M{d}{'' if pitch is None else f'x{pitch}'}{rest}")
    except Refusal:
        return
    assert found.size.d == d
    assert parse_thread(found.canonical) == found
