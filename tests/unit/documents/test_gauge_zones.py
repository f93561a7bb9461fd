"""Drawings of the zones of gauges: to scale against the tolerance of the thread, legible for every thread."""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element

import pytest
from drawn import SVG, Drawing

from boltwright_server.designations import parse_thread
from boltwright_server.documents import GaugedThread, gauge_sheet, gauge_zones
from boltwright_server.documents.drawings.level_chart import spread
from boltwright_server.gauges import gauge_sizes
from boltwright_server.quantities import Refusal
from boltwright_server.threads import SYSTEMS, ThreadClass, ThreadSize, classes, limits

MINUS = "\u2212"


def of(size: ThreadSize, tolerances: tuple[ThreadClass, ...], standard: str | None = None) -> Drawing:
    threads = [GaugedThread(limits(size, one).limits, gauge_sizes(size, one, standard)) for one in tolerances]
    return Drawing(gauge_zones(size.designation, threads))


def drawing(designation: str, standard: str | None = None) -> Drawing:
    thread = parse_thread(designation)
    return of(thread.size, thread.classes, standard)


def ends(shape: Element) -> tuple[float, float]:
    """Return the upper and the lower end of a shape; down the page is a smaller diameter."""
    ys = [float(y) for y in re.findall(r"[ML]-?[\d.]+ (-?[\d.]+)", shape.attrib["d"])]
    return min(ys), max(ys)


def bars(drawn: Drawing) -> list[tuple[float, float]]:
    return [ends(one) for one in drawn.root.iterfind(f"{SVG}path[@class='zone']")]


def test_rings_stand_where_iso_1502_puts_them() -> None:
    """M10-6g, Td2 132 um: a new GO ring from -17 to +1 um of d2 max, a NOT GO ring from -18 to 0 of d2 min.

    ISO 1502:1996, clause 13; Z_R 8, T_R 18 um (memory).
    """
    thread, go, not_go, *_ = bars(drawing("M10-6g"))
    um = (thread[1] - thread[0]) / 132
    assert (thread[0] - go[0]) / um == pytest.approx(1, abs=0.02)
    assert (go[1] - thread[0]) / um == pytest.approx(17, abs=0.02)
    assert (not_go[0] - thread[1]) / um == pytest.approx(0, abs=0.02)
    assert (not_go[1] - thread[1]) / um == pytest.approx(18, abs=0.02)


def test_the_band_is_the_tolerance_of_the_thread() -> None:
    drawn = drawing("M10-6H")
    band = drawn.root.find(f"{SVG}path[@class='band']")
    assert band is not None
    assert ends(band) == bars(drawn)[0]
    assert "max 9.206" in drawn.lettering()
    assert "min 9.026" in drawn.lettering()


def test_gages_of_asme_stand_inside_the_tolerance() -> None:
    """ASME B1.2-1983: the size is the product limit, the tolerance goes into the product tolerance."""
    thread, go, not_go, *_ = bars(drawing("1/2-13 UNC-2A"))
    assert go[0] == thread[0]
    assert not_go[1] == thread[1]
    assert thread[0] < go[1] < not_go[0] < thread[1]


def test_every_offset_is_written() -> None:
    """The offsets of the wear limits are those of the worn gauges: 13 um above d2 max, 6 above d2 min."""
    said = drawing("M10-6g").lettering()
    for text in ("worn +13", "+1", f"{MINUS}17", "worn +6", f"{MINUS}18", "+17.5", "+8.5", "GO ring and its plugs"):
        assert text in said
    assert "in 0.0001 in" in drawing("1/2-13 UNC-2B").lettering()


def test_no_text_meets_another_or_a_line_in_any_thread() -> None:
    seen = 0
    every = [(size, one) for system in SYSTEMS for size in system.sizes() for one in classes(size)]
    for size, one in every[::23]:
        try:
            drawn = of(size, (one,))
        except Refusal:
            continue
        assert not drawn.clashes(), f"{size.designation}-{one.designation}"
        assert not drawn.struck_through(), f"{size.designation}-{one.designation}"
        assert not drawn.outside(), f"{size.designation}-{one.designation}"
        assert drawn.width <= 116, "lettering would be too small on a phone"
        seen += 1
    assert seen > 400


def test_levels_that_are_close_are_moved_apart_about_where_they_were() -> None:
    assert spread([0, 10], 4) == [0, 10]
    assert spread([0, 1, 2], 4) == [-3, 1, 5]
    assert spread([0, 0, 3, 20], 4) == [-3, 1, 5, 20]
    assert spread([], 4) == []


def test_links_lead_the_offsets_and_change_nothing_else() -> None:
    thread = parse_thread("M10-6H/6g")
    members = [(limits(thread.size, one), gauge_sizes(thread.size, one)) for one in thread.classes]
    sheet = gauge_sheet(thread.canonical, members)
    alone = gauge_zones(thread.canonical, [GaugedThread(one.limits, held) for one, held in members])
    assert "<a " not in alone
    # Two limits of each thread, two limits and the wear limit of four gauges and twice of the rings, six check plugs.
    assert sheet.zones.count("<a ") == 2 * 2 + 3 * 6 + 2 * 6
    assert re.sub(r"</?a[^>]*>", "", sheet.zones) == alone
    anchors = {source.anchor for source, _ in sheet.bases}
    assert set(re.findall(r'href="#([^"]+)"', sheet.zones)) <= anchors
