"""The specification sheet as people see it: on a phone, at a desk, on paper, in the dark and by keyboard."""

from __future__ import annotations

import re
from collections.abc import Callable
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page

pytestmark = pytest.mark.browser
OpenPage = Callable[..., Page]

BOLT = "ISO 4014 - M10x60 - 8.8"
DESIGNATIONS = (
    BOLT,
    "ISO 4017 - M24x80 - 10.9",
    "ISO 8765 - M12x1.5x100 - 8.8",
    "ISO 4032 - M16 - 8",
    "ISO 4014 - M39x200 - 8.8",
    "ISO 4017 - M3x10 - 8.8",
    "M10-6g",
)
PHONE, DESK = 360, 1280
#: A4 between the margins of 12, 12, 14 and 16 mm, in pixels of 1/96 in.
PAPER_WIDTH, PAPER_HEIGHT = 703, 1008
BLACK, WHITE = "rgb(0, 0, 0)", "rgb(255, 255, 255)"
_IN_VIEW = "node => { const box = node.getBoundingClientRect(); return box.top >= 0 && box.bottom <= innerHeight }"
_COLOURS = "() => [getComputedStyle(document.body).color, getComputedStyle(document.body).backgroundColor]"


def sheet(designation: str) -> str:
    return f"/v1/specification?{urlencode({'designation': designation})}"


def hangs_over(page: Page) -> int:
    """Return how many pixels the page is wider than its window."""
    return page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth")


@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_the_page_never_scrolls_sideways(open_page: OpenPage, designation: str, width: int) -> None:
    page = open_page(sheet(designation), width=width)
    assert page.locator("h1").inner_text() == designation
    assert hangs_over(page) == 0


def test_a_wide_table_scrolls_inside_its_box_and_keeps_the_names(open_page: OpenPage) -> None:
    page = open_page(sheet(BOLT), width=PHONE)
    box = page.locator(".scroll").first
    assert box.evaluate("node => node.scrollWidth > node.clientWidth")
    name = page.locator("#line-width_across_flats td").first
    before = name.bounding_box()
    box.evaluate("node => { node.scrollLeft = 200 }")
    after = name.bounding_box()
    assert before is not None
    assert after is not None
    assert after["x"] == pytest.approx(before["x"], abs=1)
    assert hangs_over(page) == 0


def test_both_limits_are_seen_on_a_phone_without_scrolling(open_page: OpenPage) -> None:
    page = open_page(sheet(BOLT), width=PHONE)
    for place in (0, 1):
        box = page.locator("#line-thread_pitch_diameter a.figure").nth(place).bounding_box()
        assert box is not None
        assert box["x"] + box["width"] <= PHONE


def test_a_click_on_a_figure_lands_on_its_basis_and_leads_back(open_page: OpenPage) -> None:
    page = open_page(sheet(BOLT))
    page.locator("#line-grip_length a.figure").first.click()
    fragment = page.evaluate("() => location.hash")
    assert re.fullmatch(r"#basis-\d+", fragment)
    basis = page.locator(fragment)
    assert basis.evaluate(_IN_VIEW)
    assert "ISO 4014:2011" in basis.inner_text()
    assert "from memory" in basis.inner_text()
    basis.get_by_role("link", name="lg").click()
    assert page.evaluate("() => location.hash") == "#line-grip_length"
    assert page.locator("#line-grip_length").evaluate(_IN_VIEW)


def test_a_click_on_a_figure_of_the_drawing_lands_on_the_same_basis(open_page: OpenPage) -> None:
    page = open_page(sheet(BOLT))
    page.locator("svg [data-figure=width_across_flats] a").click()
    wanted = page.locator("#line-width_across_flats a.figure").first.get_attribute("href")
    assert page.evaluate("() => location.hash") == wanted


def test_every_figure_is_reached_with_the_tab_key(open_page: OpenPage) -> None:
    page = open_page(sheet("M10-6g"))
    wanted = page.locator("a.figure").count()
    reached = 0
    for _ in range(wanted + 40):
        page.keyboard.press("Tab")
        reached += page.evaluate("() => document.activeElement.className === 'figure'")
    assert reached == wanted


def test_a_figure_with_the_focus_is_marked_and_enter_follows_it(open_page: OpenPage) -> None:
    page = open_page(sheet("M10-6g"))
    while page.evaluate("() => document.activeElement.className !== 'figure'"):
        page.keyboard.press("Tab")
    outline = page.evaluate("() => getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"
    page.keyboard.press("Enter")
    assert page.evaluate("() => location.hash").startswith("#basis-")
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('ol.bases') !== null"), "the way goes on from the basis"


@pytest.mark.parametrize("dark", [False, True])
def test_paper_is_white_and_ink_black_whatever_the_screen(open_page: OpenPage, dark: bool) -> None:
    page = open_page(sheet(BOLT), dark=dark)
    page.emulate_media(media="print", color_scheme="dark" if dark else "light")
    assert page.evaluate(_COLOURS) == [BLACK, WHITE]
    assert page.evaluate("() => getComputedStyle(document.documentElement).getPropertyValue('--paper')") == "#fff"
    assert not page.locator("form").is_visible()
    assert not page.locator("ol.bases .back").first.is_visible()
    assert page.locator("svg.drawing").evaluate_all("all => all.map(one => getComputedStyle(one).color)") == [BLACK] * 3


def test_the_printed_sheet_is_a4(open_page: OpenPage) -> None:
    page = open_page(sheet(BOLT))
    pdf = page.pdf(prefer_css_page_size=True)
    boxes = {tuple(round(float(edge)) for edge in box.split()) for box in re.findall(rb"/MediaBox \[([\d. ]+)\]", pdf)}
    assert boxes in ({(0, 0, 595, 842)}, {(0, 0, 595, 841)}, {(0, 0, 594, 841)})


@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_no_column_is_cut_off_on_paper(open_page: OpenPage, designation: str) -> None:
    """186 mm between the margins are 703 px of CSS; in print nothing may hang over them, or a cell into the next."""
    page = open_page(sheet(designation), width=703)
    page.emulate_media(media="print")
    assert hangs_over(page) == 0
    cut = page.locator("th, td").evaluate_all(
        """all => all.filter(one => {
            const words = document.createRange(); words.selectNodeContents(one)
            return words.getBoundingClientRect().right > one.getBoundingClientRect().right
        }).map(one => one.innerText)"""
    )
    assert cut == []


def test_the_dark_page_is_dark_and_readable(open_page: OpenPage) -> None:
    page = open_page(sheet(BOLT), dark=True)
    ink, paper = (sum(map(int, re.findall(r"\d+", colour))) / 3 for colour in page.evaluate(_COLOURS))
    assert paper < 60
    assert ink > 200
    drawing = page.locator("svg.drawing").first.evaluate("node => getComputedStyle(node).color")
    assert sum(map(int, re.findall(r"\d+", drawing))) / 3 > 200


@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("path", [sheet(BOLT), sheet("M10-6g").replace("specification", "gauge-sizes")])
def test_lettering_of_the_drawings_is_large_enough_to_read(open_page: OpenPage, path: str, width: int) -> None:
    page = open_page(path, width=width)
    assert hangs_over(page) == 0
    heights = page.locator("svg.drawing text").evaluate_all(
        "all => all.map(one => one.getCTM().a * parseFloat(getComputedStyle(one).fontSize))"
    )
    assert min(heights) >= 9


def test_a_step_of_a_derivation_has_the_width_of_a_phone(open_page: OpenPage) -> None:
    page = open_page("/v1/thread-limits?designation=M10-6g&explain=true", width=PHONE)
    step = page.locator(".steps tbody tr td:nth-child(2)").first.bounding_box()
    assert step["width"] > 280  # type: ignore[index]
    assert hangs_over(page) == 0


def test_paths_are_whole_on_a_phone(open_page: OpenPage) -> None:
    page = open_page("/docs", width=PHONE)
    assert page.get_by_text("/v1/standards", exact=True).bounding_box()["height"] < 30  # type: ignore[index]
    assert hangs_over(page) == 0


def test_the_drawing_of_gauges_fits_on_a_printed_page(open_page: OpenPage) -> None:
    page = open_page("/v1/gauge-sizes?designation=M10-6g", width=PAPER_WIDTH)
    page.emulate_media(media="print")
    boxes = [page.locator(what).first.bounding_box() for what in ("h1", "svg.drawing")]
    assert boxes[1]["y"] + boxes[1]["height"] - boxes[0]["y"] < PAPER_HEIGHT  # type: ignore[index]


def test_a_mistyped_designation_is_mended_in_two_clicks(open_page: OpenPage) -> None:
    page = open_page("/docs", width=PHONE)
    page.get_by_label("Designation").fill("ISO 4014 - M10x60 - 8.7")
    page.get_by_role("button").click()
    assert page.locator("h1").inner_text() == "Unknown property class"
    assert hangs_over(page) == 0
    page.get_by_role("link", name=BOLT).click()
    assert page.locator("h1").inner_text() == BOLT


def test_a_drawing_on_its_own_has_its_ground_and_ink(open_page: OpenPage) -> None:
    for dark, ink in ((False, BLACK), (True, WHITE)):
        page = open_page(sheet(BOLT).replace("specification?", "specification/drawing.svg?"), dark=dark)
        assert page.evaluate("() => getComputedStyle(document.documentElement).color") == ink
