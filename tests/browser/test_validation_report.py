"""The report of a validation in a browser: one file, every finding in reach, nothing of a catalogue read as HTML."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from boltwright.part_masters.validation.columns import Columns
from boltwright.part_masters.validation.passed_on import Answer
from boltwright.part_masters.validation.report import write_report
from boltwright.part_masters.validation.run import Totals

pytestmark = pytest.mark.browser
PHONE, DESK = 360, 1280
HOSTILE = "</script><script>document.title='read as HTML'</script><img src=x onerror=alert(1)>&lt;"
Open = Callable[..., Page]


def finding(code: str, severity: str, given: str, basis: bool = False) -> dict[str, Any]:
    held = {"standard": "ISO 4014", "edition": "2011", "clause": "Table 1", "method": "tabulated", "checked": "memory"}
    detail = f"{given} is not what is expected"
    member = {"member": "width_across_flats", "given": given, "expected": "15.73 to 16.00 mm", "detail": detail}
    return {"code": code, "severity": severity, **member, "basis": held if basis else None}


def row(number: int, *findings: dict[str, Any], part_number: str | None = None) -> dict[str, Any]:
    severities = {one["severity"] for one in findings}
    status = "invalid" if "error" in severities else "questionable" if "warning" in severities else "valid"
    return {
        "part_number": part_number or f"P-{number}",
        "row": number,
        "status": status,
        "designation": f"ISO 4014 - M10x{20 + number % 50} - 8.8",
        "confidence": 1.0,
        "alternatives": [],
        "left_over": [],
        "findings": list(findings),
    }


def report(folder: Path, rows: list[dict[str, Any]]) -> Path:
    found = folder / "findings.ndjson"
    found.write_text("".join(json.dumps(one) + "\n" for one in rows), encoding="utf-8")
    totals = Totals()
    totals.add(
        Answer(
            [one["part_number"] for one in rows],
            [""] * len(rows),
            [one["status"] for one in rows],
            {at: one["findings"] for at, one in enumerate(rows) if one["findings"]},
            Columns(),
            rows.__getitem__,
            None,
        )
    )
    write_report(found, totals, folder / "report.html", "parts.csv", datetime(2026, 1, 2, 3, 4, tzinfo=UTC))
    return folder / "report.html"


@pytest.fixture
def open_report(browser: Browser, tmp_path: Path) -> Iterator[Open]:
    """Open the report of rows; whatever it asks for beside itself fails the test."""
    opened: list[Page] = []
    asked: list[str] = []

    def opener(rows: list[dict[str, Any]], width: int = DESK, dark: bool = False) -> Page:
        page = browser.new_page(viewport={"width": width, "height": 800}, color_scheme="dark" if dark else "light")
        page.set_default_timeout(10_000)
        page.on("request", lambda request: asked.append(request.url))
        page.on("pageerror", lambda error: asked.append(str(error)))
        opened.append(page)
        page.goto(report(tmp_path, rows).as_uri())
        return page

    yield opener
    for page in opened:
        page.close()
    assert asked == [(tmp_path / "report.html").as_uri()] * len(opened)


def mixed(count: int) -> list[dict[str, Any]]:
    """Every third row has nothing, every second of the others one finding, the rest two."""
    kinds = [
        (),
        (finding("dimension-outside-limits", "error", "17", basis=True),),
        (finding("length-not-preferred", "notice", "61"), finding("look-alike-standard", "warning", "DIN 931")),
    ]
    return [row(number, *kinds[number % 3]) for number in range(count)]


def count(page: Page) -> str:
    page.wait_for_timeout(150)
    return page.locator("#count").inner_text()


def test_counts_and_every_finding(open_report: Open) -> None:
    page = open_report(mixed(30))
    assert page.locator("h1").inner_text() == "Part masters: findings of parts.csv"
    assert page.locator("section >> nth=0 >> tbody tr").all_inner_texts() == [
        "valid\t10\t33.3 %",
        "questionable\t10\t33.3 %",
        "invalid\t10\t33.3 %",
        "unreadable\t0\t0.0 %",
    ]
    assert page.locator("#codes tbody tr").first.inner_text() == "dimension-outside-limits\terror\t10"
    assert count(page) == "1 to 30 of 30 findings"
    first = page.locator("#list tbody tr").first.locator("td").all_inner_texts()
    assert first[:3] == ["1", "P-1", "ISO 4014 - M10x21 - 8.8"]
    assert first[-1] == "17 is not what is expected\nISO 4014:2011, Table 1 (from memory)"


def test_filters_by_keyboard_alone(open_report: Open) -> None:
    page = open_report(mixed(60))
    page.locator("#words").focus()
    page.keyboard.type("p-29 din")
    assert count(page) == "1 to 1 of 1 findings, 60 in all"
    page.keyboard.press("Control+a")
    page.keyboard.press("Delete")
    page.keyboard.press("Tab")
    page.keyboard.type("not")
    assert count(page) == "1 to 20 of 20 findings, 60 in all"
    for _ in range(5):
        page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.textContent") == "Show all"
    page.keyboard.press("Enter")
    assert count(page) == "1 to 60 of 60 findings"


def test_a_kind_of_finding_leads_to_its_findings(open_report: Open) -> None:
    page = open_report(mixed(60))
    page.get_by_role("button", name="look-alike-standard").click()
    assert count(page) == "1 to 20 of 20 findings, 60 in all"
    assert page.evaluate("() => document.activeElement.id") == "code"
    assert set(page.locator("#list tbody td:nth-child(5)").all_inner_texts()) == {"look-alike-standard"}


def test_the_gravest_first(open_report: Open) -> None:
    page = open_report(mixed(30))
    page.select_option("#order", "g")
    count(page)
    severities = page.locator("#list tbody td:nth-child(4)").all_inner_texts()
    assert severities == ["error"] * 10 + ["warning"] * 10 + ["notice"] * 10


def test_pages_of_a_hundred(open_report: Open) -> None:
    page = open_report(mixed(1000))
    seen: list[str] = []
    assert page.locator("#previous").is_disabled()
    while True:
        seen += page.locator("#list tbody td:first-child").all_inner_texts()
        if page.locator("#next").is_disabled():
            break
        page.locator("#next").press("Enter")
    assert len(seen) == 999
    assert seen == sorted(seen, key=int)
    assert page.locator("#page").inner_text() == "page 10 of 10"


def test_fifty_thousand_findings_open_and_answer(open_report: Open) -> None:
    page = open_report([row(number, finding("unit-mix-up", "error", f"{number} lbf")) for number in range(50_000)])
    assert count(page) == "1 to 100 of 50000 findings"
    assert page.locator("#list tbody tr").count() == 100
    page.locator("#words").fill("49999")
    page.wait_for_function("() => document.querySelectorAll('#list tbody tr').length === 1")
    assert page.locator("#list tbody td >> nth=1").inner_text() == "P-49999"


def test_nothing_of_a_catalogue_is_read_as_html(open_report: Open) -> None:
    rows = [row(0, finding("unreadable", "error", HOSTILE), part_number=HOSTILE)]
    rows[0]["designation"] = None
    rows[0]["alternatives"] = [HOSTILE, "{rows}", "{script}"]
    page = open_report(rows)
    assert page.title() == "Part masters: findings of parts.csv"
    assert page.locator("#list tbody td >> nth=1").inner_text() == HOSTILE
    assert page.locator("#list tbody td >> nth=2").inner_text() == f"{HOSTILE} or {{rows}} or {{script}}"
    assert page.locator("img, main script").count() == 0


def test_no_findings(open_report: Open) -> None:
    page = open_report([row(0), row(1)])
    assert count(page) == "No findings."
    assert not page.locator("#filters").is_visible()
    assert page.locator("#codes tbody").inner_text() == "none"


@pytest.mark.parametrize("width", [PHONE, DESK])
def test_nothing_sticks_out(open_report: Open, width: int) -> None:
    rows = [*mixed(20), row(20, finding("cell-too-long", "error", "x" * 400), part_number="y" * 280)]
    page = open_report(rows, width=width)
    assert page.evaluate("() => document.documentElement.scrollWidth") <= width
    name = page.locator("#list tbody td >> nth=1").evaluate("cell => getComputedStyle(cell, '::before').content")
    assert ("part number" in name) is (width == PHONE), "on a phone each cell says what it is"


def test_dark_where_the_reader_wants_it_and_black_on_white_in_print(open_report: Open) -> None:
    page = open_report(mixed(20), dark=True)
    assert page.evaluate("() => getComputedStyle(document.body).backgroundColor") == "rgb(22, 24, 26)"
    page.emulate_media(media="print")
    assert page.evaluate("() => getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert not page.locator("#filters").is_visible()


def test_a_printout_holds_what_is_chosen_not_one_page_of_it(open_report: Open) -> None:
    page = open_report(mixed(1500))
    page.get_by_role("button", name="dimension-outside-limits").click()
    count(page)
    page.evaluate("() => window.dispatchEvent(new Event('beforeprint'))")
    assert page.locator("#list tbody tr").count() == 500
    page.evaluate("() => window.dispatchEvent(new Event('afterprint'))")
    assert page.locator("#list tbody tr").count() == 100
