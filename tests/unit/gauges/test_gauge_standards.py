"""The gauge standards side by side: directions, zones against the product, what is not held.

ISO 1502:1996, ASME B1.2-1983, ASME B1.16M-1984.
"""

from decimal import Decimal

import pytest

from boltwright_server.designations import parse_thread
from boltwright_server.gauges import GaugeSet, gauge_sizes
from boltwright_server.quantities import Contradiction, NotCovered
from boltwright_server.threads import limits


def held(designation: str, standard: str | None = None) -> GaugeSet:
    thread = parse_thread(designation)
    return gauge_sizes(thread.size, thread.classes[0], standard)


@pytest.mark.parametrize(
    ("designation", "standard"),
    [("M10-6g", "ISO 1502:1996"), ("M10-6H", "ISO 1502:1996"), ("1/2-13 UNC-2A", "ASME B1.2-1983")],
)
def test_the_default_follows_the_thread_system(designation: str, standard: str) -> None:
    assert held(designation).gauge_standard == standard


def test_a_standard_of_the_other_system_is_refused() -> None:
    with pytest.raises(Contradiction, match=r"use ISO 1502 or ASME B1\.16M"):
        held("M10-6g", "ASME B1.2")
    with pytest.raises(Contradiction, match=r"use ASME B1\.2"):
        held("1/2-13 UNC-2A", "ISO 1502")


@pytest.mark.parametrize(
    "designation",
    ["M36x4-6g", "#0-80 UNF-2A", "1/2-13 UNC-2A", "1/2-13 UNC-3A", "1/2-13 UNC-2B", "1/2-13 UNC-1B", "3-4 UNC-3B"],
)
def test_asme_zones_lie_inside_the_product_tolerance(designation: str) -> None:
    """Trap: ISO NOT GO zones lie outside the product limit when new, ASME zones inside."""
    standard = "ASME B1.16M" if designation.startswith("M") else None
    for gauge in held(designation, standard).gauges:
        for dimension in gauge.dimensions.values():
            if dimension.zone is not None and gauge.member != "gauge":
                assert dimension.zone.outside == 0


def test_iso_gauges_may_lie_outside_and_say_how_far() -> None:
    zones = {gauge.id: gauge.dimensions["pitch_diameter"].zone for gauge in held("M10-6g").gauges}
    ring, not_go = zones["go_screw_ring"], zones["not_go_screw_ring"]
    assert ring is not None
    assert not_go is not None
    assert (ring.high, ring.wear, ring.outside) == (1, 13, 13)
    assert (not_go.low, not_go.wear, not_go.outside) == (-18, 6, 18)
    check = zones["wear_check_plug_for_go_screw_ring"]
    assert check is not None
    assert check.outside is None


def test_turns_allowed() -> None:
    """ISO two turns, ASME three, a NOT GO check plug one; GO gauges go all the way."""
    turns = {gauge.id: gauge.turns_allowed for gauge in held("M10-6g").gauges}
    assert (turns["go_screw_ring"], turns["not_go_screw_ring"]) == (None, 2)
    assert turns["not_go_check_plug_for_go_screw_ring"] == turns["wear_check_plug_for_not_go_screw_ring"] == 1
    assert {gauge.turns_allowed for gauge in held("M10-6H", "ASME B1.16M").gauges} == {None, 3}
    assert {gauge.turns_allowed for gauge in held("1/2-13 UNC-2B").gauges} == {None, 3}


def test_gages_of_all_classes_differ_only_through_the_product() -> None:
    """ASME B1.2: the tolerance of a gage does not depend on the class of the thread."""
    widths = set()
    for wanted in ("1A", "2A", "3A"):
        ring = held(f"1/2-13 UNC-{wanted}").gauges[0].dimensions["pitch_diameter"]
        assert (
            ring.max
            == limits(parse_thread("1/2-13").size, parse_thread(f"1/2-13-{wanted}").classes[0])
            .limits["pitch_diameter"]
            .max
        )
        assert ring.min is not None
        assert ring.max is not None
        widths.add(ring.max - ring.min)
    assert widths == {Decimal("0.0003")}


def test_a_go_gage_of_asme_serves_until_the_product_limit() -> None:
    plug = held("1/2-13 UNC-2B").gauges[0].dimensions["pitch_diameter"]
    assert plug.wear_limit == plug.min == Decimal("0.4500")
    assert plug.wear_basis is not None
    assert plug.wear_basis.checked == "memory"


def test_what_the_sources_leave_open_is_not_covered() -> None:
    assert {one.id for one in held("M10-6g").not_covered} == {
        "go_plain_ring",
        "not_go_plain_snap",
        "setting_plug_for_go_screw_ring",
        "setting_plug_for_not_go_screw_ring",
    }
    assert {one.id for one in held("M10-6H", "ASME B1.16M").not_covered} == {"go_plain_plug", "not_go_plain_plug"}
    assert [one.id for one in held("1/2-13 UNC-2A").not_covered] == ["setting_plugs_of_class_w"]


@pytest.mark.parametrize(
    ("designation", "standard"),
    [("4 1/2-8 UN-2A", None), ("1/2-30 UNS-2A", None), ("M42-6g", "ASME B1.16M"), ("M125x8-8g", "ASME B1.16M")],
)
def test_outside_the_tables_nothing_is_published(designation: str, standard: str | None) -> None:
    with pytest.raises(NotCovered):
        held(designation, standard)


def test_pitch_tolerances_step_at_one_and_a_half_inch() -> None:
    widths = {}
    for designation in ("1 1/2-12 UNF-2A", "1 9/16-12 UN-2A"):
        ring = held(designation).gauges[0].dimensions["pitch_diameter"]
        assert ring.min is not None
        assert ring.max is not None
        widths[designation] = ring.max - ring.min
    assert list(widths.values()) == [Decimal("0.0003"), Decimal("0.0004")]


def test_a_wear_limit_has_a_basis_of_its_own() -> None:
    """The major diameter of the GO plug was read in print, its wear limit is recalled."""
    major = held("M10-6H").gauges[0].dimensions["major_diameter"]
    assert major.basis.checked == "two reproductions" or major.basis.checked == "one reproduction and formula"
    assert major.wear_basis is not None
    assert major.wear_basis.checked == "memory"
