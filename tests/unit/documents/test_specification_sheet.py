"""The sheet of a specification: every requirement, every figure with a basis, the same bytes in every process."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from dataclasses import replace

import pytest
from running_server import environment

from boltwright_server.documents import Sheet, sheet_of
from boltwright_server.documents.bases import CHECKED_SENTENCES
from boltwright_server.documents.sheet_lines import Line
from boltwright_server.quantities.basis import CHECKED_WORDS, STATED
from boltwright_server.specification import specification

DESIGNATIONS = (
    "ISO 4014 - M10x60 - 8.8",
    "ISO 4017 - M24x80 - 10.9",
    "ISO 4032 - M16 - 8",
    "ISO 4762 - M10x50 - 12.9",
    "ISO 4014 - M10x60 - 8.8U - tZn",
    "M10-6g",
    "M16-6H",
    "1/2-13 UNC-2A",
)


def sheet(designation: str) -> Sheet:
    return sheet_of(specification(designation))


def all_lines(one: Sheet) -> list[Line]:
    blocks = [*one.coating, *one.gauges, *one.tests]
    return [
        *(line for _, lines in one.groups for line in lines),
        *one.reference,
        *(line for block in blocks for line in block.lines),
    ]


@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_every_characteristic_has_its_line(designation: str) -> None:
    found, one = specification(designation), sheet(designation)
    places = {line.place for _, lines in one.groups for line in lines}
    for id, characteristic in found.characteristics.items():
        wanted = [f"line-{id}-{scale.lower()}" for scale in characteristic.scales] or [f"line-{id}"]
        assert places >= set(wanted)


@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_places_are_unique_and_each_source_is_listed(designation: str) -> None:
    one = sheet(designation)
    lines = all_lines(one)
    places = [line.place for line in lines] + [block.place for block in [*one.coating, *one.gauges, *one.tests]]
    assert len(places) == len(set(places))
    listed = {source.number: {place for place, _ in used} for source, used in one.bases}
    assert list(listed) == list(range(1, len(listed) + 1))
    for line in lines:
        assert line.place in listed[line.source.number]


def test_limits_stand_as_the_standard_prints_them() -> None:
    """ISO 4014:2011, Tables 1 and 2, M10 grade A; ISO 898-1:2013, Tables 3 and 4 (two reproductions)."""
    lines = {line.place: line for line in all_lines(sheet("ISO 4014 - M10x60 - 8.8"))}
    flats, load = lines["line-width_across_flats"], lines["line-tensile_load"]
    assert (flats.least.text, flats.greatest.text, flats.unit) == ("15.73", "16.00", "mm")
    assert (load.least.text, load.greatest.text, load.unit) == ("46\u202f400", "", "N")
    assert lines["line-hardness_core-hrc"].greatest.text == "32"
    assert lines["line-hardness_surface-hv"].words == "at most 30 HV over the core of the same piece"
    assert lines["line-thread_go_gauge"].words == "the GO gauge passes over the whole thread"


def test_what_is_from_memory_or_in_conflict_is_said_in_words() -> None:
    warnings = {line.source.basis.checked: line.source.warning for line in all_lines(sheet("ISO 4014 - M10x60 - 8.8"))}
    assert warnings["memory"] == "from memory"
    assert warnings["conflict"] == "conflict"
    assert warnings["two reproductions"] == ""
    assert set(CHECKED_SENTENCES) == {*CHECKED_WORDS, STATED}


def test_what_does_not_apply_says_why_and_gives_no_settings() -> None:
    """ISO 898-1:2013, Table 9: the impact test needs d >= 16 mm."""
    impact = next(block for block in sheet("ISO 4014 - M10x60 - 8.8").tests if block.place == "test-impact")
    assert impact.applies is False
    assert impact.lines == []
    assert "d = 10 mm is below 16 mm" in impact.remarks[0]


def test_the_nominal_length_stands_in_the_unit_of_its_standard() -> None:
    assert ("Nominal length", "60 mm") in sheet("ISO 4014 - M10x60 - 8.8").facts
    assert ("Nominal length", "2 in") in sheet("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5").facts


def test_a_missing_drawing_is_named_as_not_covered() -> None:
    found = specification("ISO 4762 - M10x50 - 12.9")
    assert found.dimensions is not None
    square = replace(found, dimensions=replace(found.dimensions, head="square"))
    assert any("Drawing" in one for one in sheet_of(square).not_covered)
    assert not any("Drawing" in one for one in sheet("ISO 4014 - M10x60 - 8.8").not_covered)


def test_the_same_bytes_in_every_process() -> None:
    code = (
        "import hashlib\n"
        "from boltwright_server.documents import sheet_of\n"
        "from boltwright_server.specification import specification\n"
        "print(hashlib.sha256(repr(sheet_of(specification('ISO 4014 - M10x60 - 8.8'))).encode()).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**environment(), "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.strip()
        for seed in ("1", "2")
    }
    here = hashlib.sha256(repr(sheet("ISO 4014 - M10x60 - 8.8")).encode()).hexdigest()
    assert digests == {here}


def test_a_coated_product_shows_both_thicknesses_both_gauges_and_their_states() -> None:
    """ISO 10684:2004: 40 um at each place, 50 um on average; a hardness is needed on one scale."""
    lines = {line.place: line for line in all_lines(sheet("ISO 4014 - M16x90 - 8.8U - tZn"))}
    local, mean = lines["line-coating_thickness"], lines["line-coating_thickness_mean"]
    assert (local.least.text, mean.least.text, mean.mandatory) == ("40", "50", "yes")
    states = [lines[f"line-thread_go_gauge{one}"].state for one in ("", "_after_coating")]
    assert states == ["before coating", "as delivered"]
    assert {lines[f"line-hardness_core-{scale}"].mandatory for scale in ("hv", "hrc")} == {"one scale"}
