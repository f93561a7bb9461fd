"""The set-up sheet as people see it: one side of A4, whole on a phone, in the dark."""

from __future__ import annotations

import re
from collections.abc import Callable
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page

pytestmark = pytest.mark.browser
OpenPage = Callable[..., Page]
PHONE = 360
SHEETS = (
    ("ISO 4014 - M12x80 - 8.8U - tZn", "heading"),
    ("ISO 4014 - M12x80 - 8.8U - tZn", "coating"),
    ("ISO 4762 - M8x30 - 12.9", "heading"),
    ("ISO 4162 - M10x40 - 10.9", "cut_off"),
    ("ISO 4032 - M12 - 8Z - tZn", "tapping"),
    ("ISO 4032 - M16 - 8", "hot_forging"),
    ("ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 8", "thread_rolling"),
    ("M10-6g", "thread_rolling"),
)


def sheet(designation: str, stage: str) -> str:
    return f"/v1/set-points?{urlencode({'designation': designation, 'stage': stage})}"


@pytest.mark.parametrize(("designation", "stage"), SHEETS)
def test_one_side_of_a4_and_no_scrolling_sideways(open_page: OpenPage, designation: str, stage: str) -> None:
    page = open_page(sheet(designation, stage), width=PHONE)
    assert page.locator(".of").inner_text() == designation
    assert page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth") == 0
    printed = page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page[^s]", printed)) == 1


def test_first_pieces_are_kept_on_the_sheet(open_page: OpenPage) -> None:
    page = open_page(sheet("M10-6g", "thread_rolling"), dark=True)
    assert page.locator(".boxes div").count() == 5
    assert page.get_by_text("Mark read").is_visible()
    assert page.locator("td.target").first.inner_text() == "8.928"
