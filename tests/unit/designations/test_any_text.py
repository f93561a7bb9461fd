"""Designations round trip, and no text crashes a reader, holds it up or is refused without saying what instead.

`python -m tests.faults.designations` does the same with a million texts.
"""

from __future__ import annotations

import designation_check
import pytest
from designation_check import Findings, check
from designation_texts import coatings, product_designations, texts, threads
from hypothesis import given, settings
from hypothesis import strategies as st

from boltwright_server.designations import parse_coating, parse_product, parse_thread
from boltwright_server.quantities import NotUnderstood, Refusal
from boltwright_server.threads import SYSTEMS, classes

SIZES = [(size, tuple(classes(size))) for system in SYSTEMS for size in system.sizes()]


@given(st.sampled_from(SIZES), st.data())
@settings(max_examples=400)
def test_a_canonical_thread_designation_is_read_to_itself(sized: tuple, data: st.DataObject) -> None:
    size, tolerances = sized
    tolerance = data.draw(st.sampled_from(tolerances)) if tolerances else None
    parts = [size.designation, *([tolerance.designation] if tolerance else [])]
    if tolerance and size.system == "ISO metric" and data.draw(st.booleans()):
        parts.append(data.draw(st.sampled_from("SNL")))
    if data.draw(st.booleans()):
        parts.append("LH")
    canonical = "-".join(parts)
    assert parse_thread(canonical).canonical == canonical


@given(st.sampled_from(SIZES), st.data())
@settings(max_examples=200)
def test_spaces_case_and_signs_are_forgiven(sized: tuple, data: st.DataObject) -> None:
    """What people write for one thread is read as one thread; the case of a class decides and is kept."""
    size, tolerances = sized
    if not tolerances:
        return
    tolerance = data.draw(st.sampled_from(tolerances)).designation
    space = data.draw(st.sampled_from(["", " ", "  "]))
    name = size.designation.replace("x", data.draw(st.sampled_from("x×X*")))
    if size.system == "ISO metric":
        name = name.replace(".", data.draw(st.sampled_from(".,"))).replace("M", data.draw(st.sampled_from("Mm")))
    written = f"{space}{name}{space}{data.draw(st.sampled_from('-–'))}{space}{tolerance}{space}"
    assert parse_thread(written).canonical == f"{size.designation}-{tolerance}"


@pytest.mark.parametrize(
    ("texts", "parse"),
    [(threads(), parse_thread), (product_designations(), parse_product)],
    ids=["threads", "products"],
)
def test_every_canonical_designation_is_read_to_itself(texts: tuple[str, ...], parse: object) -> None:
    read = 0
    for text in texts:
        try:
            canonical = parse(text).canonical  # type: ignore[operator]
        except Refusal:
            continue
        assert parse(canonical).canonical == canonical  # type: ignore[operator]
        read += 1
    assert read > len(texts) * 0.8


@pytest.mark.parametrize("text", coatings())
def test_every_canonical_coating_is_read_to_itself(text: str) -> None:
    assert parse_coating(text).designation == text


def test_random_and_mutated_texts() -> None:
    seen = Findings()
    for text in texts(seed=20_000, count=20_000):
        check(text, seen)
    assert not seen.wrong, "\n".join(seen.wrong[:20])
    assert seen.read > 1_500
    assert seen.refused > 10_000


@given(st.text(max_size=205))
@settings(max_examples=300)
def test_any_text_at_all(text: str) -> None:
    seen = Findings()
    check(text, seen)
    assert not seen.wrong


@pytest.mark.parametrize(
    "text",
    [
        *("M" + "1" * 199, "1" * 200, "1 " * 100, "1/" * 100, "M10" + " " * 197, "ISO" + " " * 190 + "4014", "#" * 200),
        *("ISO 4014 - M10" + "x1" * 80, "SAE J429" + " 5" * 60, "M10-6g" + "-LH" * 60, "A" * 200, "- " * 100),
        "Fe/" * 60,
    ],
)
def test_runs_of_one_thing_are_read_in_a_line(text: str) -> None:
    seen = Findings()
    check(text, seen)
    assert not seen.wrong


def test_an_unhelpful_refusal_would_be_noticed() -> None:
    told = "cannot read 'M' at position 7 ('x'): expected a number"
    for refusal in (
        NotUnderstood("no", member="designation", position=0),
        NotUnderstood("cannot read 'M' at the end: expected x", position=1),
        NotUnderstood(told, member="designation", position=1),
    ):
        assert designation_check._unhelpful(refusal, "M", "thread")
    nowhere, outside = (NotUnderstood(told, member="designation", position=place) for place in (None, 7))
    assert designation_check._unhelpful(nowhere, "M", "thread") == "a refusal at position None"
    assert designation_check._unhelpful(outside, "M", "thread") == "a refusal at position 7"
    far = NotUnderstood(told, member="designation", position=1, expected=["a number"])
    assert designation_check._unhelpful(far, "M", "thread") == "a position outside the text"
