"""Charts in a browser: at the width of a telephone, by night, and on paper, with the letters as they really are."""

from __future__ import annotations

import random
from collections.abc import Iterator
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page
from running_server import RunningServer

from boltwright import Client, Drawing

pytestmark = pytest.mark.browser
#: Invented readings.
DRAW = random.Random(7)
VALUES = [round(DRAW.gauss(15.86, 0.03), 2) for _ in range(90)]
#: The widest letters, so that an estimate of their width that is too small shows.
TITLE = "WWMM ÅÄÖ 'Schlüsselweite', 80 % @ machine 3 — MMMMMMMMWWWWWWWWWWWWWWWWWWWWWWWW mmmmmmmm wwwwwwwwwwww"
STYLE = ":root{color-scheme:light dark;color:CanvasText}body{margin:0}svg{max-width:100%;height:auto}"
#: CSS pixels: what is smaller nobody reads on a telephone.
LEAST_LETTER = 9.0


@pytest.fixture(scope="module")
def drawings(server: RunningServer) -> dict[str, Drawing]:
    with Client(server.url) as client:
        rules = ["outside_limits", "seven_same_side", "four_of_five_beyond_one_sigma"]
        return {
            "chart": client.control_chart_drawing(
                [*VALUES, 16.2], chart="individuals", rules=rules, title=TITLE, unit="mm"
            ),
            "capability": client.capability_drawing(
                VALUES, min=15.73, max=16, acceptance_min=15.75, acceptance_max=15.98, title=TITLE, unit="mm"
            ),
            "load": client.histogram_drawing([1000 * value + 30000 for value in VALUES], min=46400, unit="N"),
        }


@pytest.fixture
def show(browser: Browser) -> Iterator[Any]:
    opened: list[Page] = []

    def shown(drawing: Drawing, width: int = 360, dark: bool = False) -> Page:
        page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme="dark" if dark else "light")
        opened.append(page)
        page.set_content(f"<!doctype html><meta charset=utf-8><style>{STYLE}</style>{drawing.svg}")
        return page

    yield shown
    for page in opened:
        page.close()


def boxes(page: Page) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = page.evaluate(
        """() => [...document.querySelectorAll('svg text')].map(node => {
            const box = node.getBoundingClientRect();
            return {text: node.textContent, left: box.left, right: box.right, top: box.top, bottom: box.bottom}})"""
    )
    return found


@pytest.mark.parametrize("name", ["chart", "capability", "load"])
def test_no_text_meets_another_or_leaves_the_drawing(name: str, drawings: dict[str, Drawing], show: Any) -> None:
    page = show(drawings[name])
    frame = page.locator("svg").bounding_box()
    assert frame["width"] <= 360
    found = boxes(page)
    assert len(found) > 8
    for one in found:
        assert one["left"] >= 0, one["text"]
        assert one["right"] <= frame["width"], one["text"]
        assert one["bottom"] <= frame["y"] + frame["height"], one["text"]
    # A line box is taller than its letters: lines that follow each other may share the room of their tails.
    tails = 2.5
    for one, other in combinations(found, 2):
        beside = one["right"] <= other["left"] or other["right"] <= one["left"]
        apart = one["bottom"] <= other["top"] + tails or other["bottom"] <= one["top"] + tails
        assert beside or apart, (one["text"], other["text"])


@pytest.mark.parametrize("name", ["chart", "capability"])
def test_letters_are_large_enough_on_a_telephone(name: str, drawings: dict[str, Drawing], show: Any) -> None:
    page = show(drawings[name])
    scale = page.locator("svg").bounding_box()["width"] / 110
    letters = page.locator("svg text").evaluate_all("nodes => nodes.map(node => node.getAttribute('font-size'))")
    sizes = [float(size) for size in letters]
    assert min(sizes) * scale >= LEAST_LETTER


@pytest.mark.parametrize("dark", [False, True])
def test_ink_and_ground_follow_the_page(dark: bool, drawings: dict[str, Drawing], show: Any) -> None:
    page = show(drawings["chart"], dark=dark)
    ink = page.eval_on_selector("svg text", "node => getComputedStyle(node).fill")
    assert ink == ("rgb(255, 255, 255)" if dark else "rgb(0, 0, 0)")


def test_alone_it_brings_its_own_ground_and_prints_black_on_white(
    drawings: dict[str, Drawing], browser: Browser, tmp_path: Path
) -> None:
    page = browser.new_page(color_scheme="dark")
    page.goto(drawings["chart"].save(tmp_path / "chart.svg").as_uri())
    grounds = []
    for media in ("screen", "print"):
        page.emulate_media(media=media, color_scheme="dark")
        grounds.append(page.evaluate("() => getComputedStyle(document.documentElement).backgroundColor"))
    page.close()
    assert grounds == ["rgb(18, 18, 18)", "rgb(255, 255, 255)"]


def test_a_reader_is_told_what_it_shows(drawings: dict[str, Drawing], show: Any) -> None:
    image = show(drawings["capability"]).get_by_role("img")
    assert image.count() == 1
    assert image.get_attribute("aria-labelledby") == "histogram-title histogram-desc"
    assert show(drawings["load"]).get_by_role("img", name="Histogram").count() == 1
