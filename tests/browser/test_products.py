"""The way to a designation in a browser: by keyboard alone, on a phone, with choices that can be taken back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

pytestmark = pytest.mark.browser
OpenPage = Callable[..., Page]
PHONE, DESK = 360, 1280


def choose(page: Page, value: str) -> None:
    """Choose by keyboard only: the field of the step has the focus when the page opens."""
    # The browser sets the focus shortly after the page has loaded.
    page.wait_for_function("() => document.activeElement.id === 'choice'", timeout=10_000)
    if page.locator("#choice").evaluate("node => node.tagName") == "SELECT":
        page.keyboard.type(value)
    else:
        page.keyboard.insert_text(value)
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.textContent") == "Next"
    with page.expect_navigation():
        page.keyboard.press("Enter")


def test_a_bolt_by_keyboard(open_page: OpenPage) -> None:
    page = open_page("/v1/products")
    for value in ("ISO 4017", "M12", "50", "10.9", "none"):
        choose(page, value)
    assert page.locator("#designation").inner_text() == "ISO 4017 - M12x50 - 10.9"
    assert page.locator("#choice").count() == 0
    with page.expect_navigation():
        page.get_by_role("link", name="Specification sheet").click()
    assert page.locator("h1").inner_text() == "ISO 4017 - M12x50 - 10.9"


def test_an_inch_screw_with_a_typed_length(open_page: OpenPage) -> None:
    page = open_page("/v1/products")
    for value in ("ASME B18.2.1 hex cap screw", "1/2-13", "1-1/2", "SAE J429 8"):
        choose(page, value)
    assert page.locator("#designation").inner_text() == "ASME B18.2.1 hex cap screw - 1/2-13x1-1/2 - SAE J429 8"


def test_a_choice_can_be_taken_back(open_page: OpenPage) -> None:
    """Choosing the size again drops what came after it and keeps what came before."""
    page = open_page("/v1/products?standard=ISO+4032&size=M10&property_class=8")
    with page.expect_navigation():
        page.get_by_role("link", name="Choose size again").click()
    assert page.locator("label[for=choice]").inner_text() == "Size"
    choose(page, "M16")
    assert page.locator(".chosen td:nth-child(2)").all_inner_texts() == ["ISO 4032", "M16"]


def test_a_wrong_length_is_told_on_a_page(open_page: OpenPage) -> None:
    page = open_page("/v1/products?standard=ASME+B18.2.1+hex+bolt&size=1%2F2-13")
    choose(page, "long")
    assert "no length in inch" in page.locator("body").inner_text()


@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize(
    "query", ["", "?standard=ISO+4014", "?standard=ISO+4014&size=M10&length=60&property_class=8.8"]
)
def test_the_page_never_scrolls_sideways(open_page: OpenPage, query: str, width: int) -> None:
    page = open_page(f"/v1/products{query}", width=width)
    assert page.evaluate("() => document.documentElement.scrollWidth - document.documentElement.clientWidth") == 0


def test_every_field_has_a_name_that_is_read_out(open_page: OpenPage) -> None:
    page = open_page("/v1/products?standard=ISO+4014&size=M10")
    assert page.get_by_label("Length in mm").get_attribute("id") == "choice"
    assert page.locator("html").get_attribute("lang") == "en"
