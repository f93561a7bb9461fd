"""Drawings of tolerance zones: the basic profile of ISO 68-1, the deviations of ISO 965-1, to scale."""

from __future__ import annotations

import re
from itertools import pairwise
from math import atan2, degrees, sqrt

import pytest
from drawn import SVG, Drawing

from boltwright_server.documents import thread_drawing, thread_zones
from boltwright_server.documents.drawings.thread_profile import Outline, profile_of
from boltwright_server.quantities import Refusal
from boltwright_server.specification import specification
from boltwright_server.threads import ToleranceClass, limits, sizes

MINUS = "\u2212"


def drawing(designation: str) -> Drawing:
    return Drawing(thread_drawing(specification(designation)) or "")


def outline(designation: str) -> tuple[Outline, Outline, Outline]:
    found = specification(designation)
    return profile_of(limits(found.size, found.tolerance)).all


def test_the_basic_profile_is_that_of_iso_68_1() -> None:
    """ISO 68-1:1998, figure 1: 60 degrees, P/8 flat at d, P/4 flat at d1, 5/8 H between them."""
    basic, _, _ = outline("M10-6g")
    pitch = 1.5
    assert 2 * basic.half_thickness(basic.outer) == pytest.approx(pitch / 8)
    assert pitch - 2 * basic.half_thickness(basic.inner) == pytest.approx(pitch / 4)
    assert 2 * basic.half_thickness(basic.pitch_diameter) == pytest.approx(pitch / 2)
    assert (basic.outer - basic.inner) / 2 == pytest.approx(5 / 8 * sqrt(3) / 2 * pitch)


@pytest.mark.parametrize("designation", ["M10-6g", "M10-6H", "M39-6g", "M3-6H", "M10x1-5g6g", "1/2-13 UNC-2A"])
def test_every_flank_leans_by_60_degrees(designation: str) -> None:
    for one in outline(designation):
        slopes = [abs(degrees(atan2(b[1] - a[1], b[0] - a[0]))) for a, b in pairwise(one.points())]
        flanks = [slope for slope in slopes if 59 < slope < 61 or 119 < slope < 121]
        assert len(flanks) >= 4
        assert all(slope in (pytest.approx(60), pytest.approx(120)) for slope in flanks)


def test_the_least_bolt_ends_at_the_root_of_clause_11() -> None:
    """ISO 965-1:2013, clause 11: d3 min of M10-6g is d2 min - H + P/4 = 7.938, by formula."""
    _, _, least = outline("M10-6g")
    assert least.inner == pytest.approx(7.938, abs=0.0005)
    assert min(radius for _, radius in least.points()) == pytest.approx(least.inner / 2)


def test_the_greatest_nut_is_drawn_to_where_a_reference_ends_it() -> None:
    """ASME B1.13M-2005: D max of M10x1.5-6H for reference is D2 max + 11/12 H = 10.397, by formula."""
    _, _, greatest = outline("M10-6H")
    assert greatest.outer == pytest.approx(10.397, abs=0.0005)
    assert greatest.inner == 8.676


def test_the_profile_is_drawn_to_scale() -> None:
    drawn = drawing("M10-6g")
    zone = drawn.root.find(f"{SVG}path[@class='zone']")
    assert zone is not None
    corners = [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", zone.attrib["d"])]
    width = max(x for x, _ in corners) - min(x for x, _ in corners)
    height = max(y for _, y in corners) - min(y for _, y in corners)
    # One and a half pitches wide; from d max = 9.968 to d3 min = 7.938 high.
    assert height / width == pytest.approx((9.968 - 7.938) / 2 / (1.5 * 1.5), rel=0.002)


#: Symbol, deviations and width of each zone in um. ISO 965-1:2013, Tables 1 to 5, rows P = 1.5 and d over 5.6 up to
#: 11.2 and P = 0.5 (two reproductions); inch: ASME B1.1-2003, printed limits of 1/2-13 UNC, in 0.0001 in.
ZONES = {
    "M10-6g": [
        ["d", "236", f"{MINUS}32", f"{MINUS}268"],
        ["d2", "132", f"{MINUS}32", f"{MINUS}164"],
        ["d1", "open", f"{MINUS}32"],
    ],
    "M10-6H": [["D", "open", "0"], ["D2", "180", "+180", "0"], ["D1", "300", "+300", "0"]],
    "M10-6G": [["D", "open", "+32"], ["D2", "180", "+212", "+32"], ["D1", "300", "+332", "+32"]],
    "M16-4h": [["d", "180", "0", f"{MINUS}180"], ["d2", "100", "0", f"{MINUS}100"], ["d1", "open", "0"]],
    "1/2-13 UNC-2A": [
        ["d", "109", f"{MINUS}15", f"{MINUS}124"],
        ["d2", "50", f"{MINUS}15", f"{MINUS}65"],
        ["d1", "open", f"{MINUS}15"],
    ],
}


@pytest.mark.parametrize("designation", ZONES)
def test_each_zone_says_its_deviations(designation: str) -> None:
    bars = drawing(designation).root.iterfind(f"{SVG}g[@class='zone']")
    said = [["".join(text.itertext()) for text in bar.iter(f"{SVG}text")] for bar in bars]
    assert said == ZONES[designation]


def test_bars_are_as_high_as_their_tolerances() -> None:
    """ISO 965-1:2013, Tables 3 and 5: Td6 = 236 um, Td2 6 = 132 um at P = 1.5 mm."""
    heights = {}
    for bar in drawing("M10-6g").root.iterfind(f"{SVG}g[@class='zone']"):
        box = bar.find(f"{SVG}path")
        assert box is not None
        ys = [float(y) for y in re.findall(r"[ML]-?[\d.]+ (-?[\d.]+)", box.attrib["d"])]
        heights[bar.attrib["data-figure"]] = max(ys) - min(ys)
    ratio = heights["thread_pitch_diameter"] / heights["thread_major_diameter"]
    assert ratio == pytest.approx(132 / 236, rel=0.002)


def test_the_unit_of_the_deviations_is_said() -> None:
    assert "in µm" in drawing("M10-6g").lettering()
    assert "in 0.0001 in" in drawing("1/2-13 UNC-2A").lettering()


def test_no_text_meets_another_or_leaves_the_paper_in_any_thread() -> None:
    seen = 0
    for size in sizes():
        for name in ("6g", "6H", "4h", "8e", "6G"):
            try:
                drawn = Drawing(thread_zones(name, size, ToleranceClass.parse(name)))
            except Refusal:
                continue
            assert not drawn.clashes(), f"{size.designation}-{name}"
            assert not drawn.outside(), f"{size.designation}-{name}"
            seen += 1
    assert seen > 700


def test_links_lead_the_figures_and_change_nothing_else() -> None:
    found = specification("M10-6g")
    alone = thread_drawing(found) or ""
    linked = thread_drawing(found, {"thread_pitch_diameter": "#basis-2"}) or ""
    assert "<a " not in alone
    assert linked.count("<a ") == 4
    assert linked.replace('<a href="#basis-2" tabindex="-1">', "").replace("</a>", "") == alone
