"""Names of classes and grades: every one held is found by its own name, and no two share one unless bolt and nut do."""

from __future__ import annotations

from collections import Counter

import pytest

from boltwright_server.mechanical import find_grade, grades
from boltwright_server.quantities import Contradiction, UnknownName


@pytest.mark.parametrize("grade", grades(), ids=[f"{one.name}-{one.member}" for one in grades()])
def test_a_grade_is_found_by_its_name(grade: object) -> None:
    assert find_grade(grade.name, grade.member) == grade  # type: ignore[attr-defined]
    assert find_grade(f" {grade.name.lower()} ", grade.member) == grade  # type: ignore[attr-defined]


def test_a_name_belongs_to_one_bolt_and_one_nut_at_most() -> None:
    assert max(Counter((one.name, one.member) for one in grades()).values()) == 1


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("12.9\u0332", "12.9U"),
        ("12.9 underlined", "12.9U"),
        ("8,8", "8.8"),
        ("class 10.9", "10.9"),
        ("A4/80", "A4-80"),
        ("a270", "A2-70"),
        ("8.8 structural", "8.8S"),
        ("A325", "ASTM A325"),
        ("F3125 grade A325", "ASTM F3125 A325"),
        ("A193 B8 cl. 2", "ASTM A193 B8 Class 2"),
        ("A194-2H", "ASTM A194 2H"),
        ("J995 8", "SAE J995 8"),
    ],
)
def test_how_else_it_is_written(text: str, name: str) -> None:
    assert find_grade(text).name == name


def test_a_class_of_the_other_member_is_a_contradiction() -> None:
    with pytest.raises(Contradiction):
        find_grade("8", "external")
    with pytest.raises(Contradiction):
        find_grade("8.8", "internal")
    assert find_grade("A2-70").member == "external"
    assert find_grade("A2-70", "internal").member == "internal"


@pytest.mark.parametrize(
    ("text", "near"), [("8.7", "8.8"), ("A2-75", "A2-70"), ("SAE J429 9", "SAE J429 8"), ("gr 8", "SAE J429 8")]
)
def test_an_unknown_name_comes_with_the_nearest(text: str, near: str) -> None:
    with pytest.raises(UnknownName) as refused:
        find_grade(text)
    assert near in refused.value.nearest
    assert refused.value.code == "unknown_property_class"


@pytest.mark.parametrize("text", ["", " ", "?", "8.8.8", "9" * 200, "A2-", "SAE", "\u0332", "8.8\x00"])
def test_nonsense_is_refused(text: str) -> None:
    with pytest.raises(UnknownName):
        find_grade(text)
