"""A headless Chromium for the tests of pages. Where it is missing they are skipped aloud; with CI=true they fail."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright
from running_server import RunningServer

_NAMES = ("chromium", "chromium-browser", "google-chrome")
#: Nothing but the loopback is spoken to.
_ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
OpenPage = Callable[..., Page]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = next((found for name in _NAMES if (found := shutil.which(name))), None)
    if path is None:
        missing = "Chromium is not installed: the pages were NOT looked at (apt-get install chromium)"
        if os.environ.get("CI") == "true":
            pytest.fail(missing)
        pytest.skip(missing)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=list(_ARGUMENTS))
        yield browser
        browser.close()


@pytest.fixture
def open_page(browser: Browser, server: RunningServer) -> Iterator[OpenPage]:
    """Open an address of the service: `open_page("/docs", width=360, dark=True)`."""
    opened: list[Page] = []

    def opener(path: str, width: int = 1280, dark: bool = False) -> Page:
        page = browser.new_page(viewport={"width": width, "height": 800}, color_scheme="dark" if dark else "light")
        page.set_default_timeout(10_000)
        opened.append(page)
        page.goto(server.url + path)
        return page

    yield opener
    for page in opened:
        page.close()
