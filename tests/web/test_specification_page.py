"""GET /v1/specification as a page: valid, every figure leads to its basis, hostile text stays text."""

from __future__ import annotations

import re
from typing import Any
from xml.etree.ElementTree import Element

import html5lib
import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

PAGE = {"Accept": "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"}
HTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
DESIGNATIONS = (
    "ISO 4014 - M10x60 - 8.8",
    "ISO 4017 - M24x80 - 10.9",
    "ISO 8765 - M12x1.5x100 - 8.8",
    "ISO 4032 - M16 - 8",
    "ISO 4762 - M10x50 - 12.9",
    "ISO 4014 - M10x60 - 8.8U - tZn",
    "ISO 4014 - M39x200 - 8.8",
    "M10-6g",
    "M3-6H",
    "1/2-13 UNC-2A",
    "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5",
    "ISO 4014 - M10x60 - A2-70",
    "ISO 4026 - M10x20 - 45H",
    "ISO 7089 - 10 - 200 HV",
    "ISO 4162 - M10x60 - 8.8",
    "ISO 10642 - M10x60 - 8.8",
    "ISO 7380-1 - M10x30 - 10.9",
    "ISO 4161 - M10 - 8",
    "ISO 7040 - M10 - 8",
    "ISO 4028 - M8x20 - 45H",
)
HOSTILE = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "M10-6g{{7*7}}",
    "'; </style><b>",
    "M10\u0000-6g",
    "\u202eM10-6g",
)


def ask(client: FlaskClient, designation: str, path: str = "/v1/specification", **query: str) -> TestResponse:
    return client.get(path, query_string={"designation": designation, **query}, headers=PAGE)


def parsed(answer: TestResponse) -> Element:
    """Parse as a browser does; anything that the standard calls a parse error fails."""
    parser = html5lib.HTMLParser(strict=True)
    tree: Element = parser.parse(answer.get_data(as_text=True))
    return tree


def targets(page: Element) -> set[str]:
    ids = [node.attrib["id"] for node in page.iter() if "id" in node.attrib]
    assert len(ids) == len(set(ids)), "an id stands twice"
    return set(ids)


@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_the_page_is_valid_and_needs_nothing_else(client: FlaskClient, designation: str) -> None:
    answer = ask(client, designation)
    assert answer.status_code == 200
    assert answer.content_type == "text/html; charset=utf-8"
    page = parsed(answer)
    assert page.find(f".//{HTML}h1").text == designation  # type: ignore[union-attr]
    assert not list(page.iter(f"{HTML}script"))
    addresses = [node.attrib[name] for node in page.iter() for name in ("src", "href", "action") if name in node.attrib]
    assert all(address.startswith(("#", "/", "data:,")) for address in addresses)
    assert "http" not in answer.get_data(as_text=True).replace("http://www.w3.org/2000/svg", "").replace("HTTP", "")


@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_every_figure_leads_to_a_basis_and_back(client: FlaskClient, designation: str) -> None:
    page = parsed(ask(client, designation))
    known = targets(page)
    figures = [node for node in page.iter(f"{HTML}a") if node.attrib.get("class") == "figure"]
    assert len(figures) >= 6
    for figure in figures:
        assert re.fullmatch(r"#basis-\d+", figure.attrib["href"])
    fragments = {node.attrib["href"][1:] for node in page.iter() if node.attrib.get("href", "").startswith("#")}
    assert fragments <= known
    assert {one for one in known if one.startswith("basis-")} <= fragments, "a basis that nothing leads to"


@pytest.mark.parametrize("designation", DESIGNATIONS)
def test_no_number_in_a_table_or_drawing_stands_without_its_basis(client: FlaskClient, designation: str) -> None:
    page = parsed(ask(client, designation))
    for cell in page.iter(f"{HTML}td"):
        if cell.attrib.get("class") == "number":
            text = "".join(cell.itertext())
            assert text == "–" or cell.find(f"{HTML}a") is not None, text
    for group in page.iter(f"{SVG}g"):
        if "data-figure" in group.attrib:
            assert group.find(f".//{SVG}a") is not None, group.attrib["data-figure"]


def test_the_limits_are_those_of_the_json_answer(client: FlaskClient) -> None:
    """Compared digit by digit as printed; `46 400` on the page is 46400 in JSON."""
    designation = "ISO 4014 - M10x60 - 8.8"
    page = parsed(ask(client, designation))
    body = client.get("/v1/specification", query_string={"designation": designation}).get_data(as_text=True)
    rows = {node.attrib["id"]: node for node in page.iter(f"{HTML}tr") if "id" in node.attrib}
    compared = 0
    for id, low, high in re.findall(
        r'"(\w+)":\{"symbol":"[^"]+","min":([^,]+),"max":([^,]+),"nominal":[^,]+,"unit"', body
    ):
        row = rows.get(f"line-{id}")
        if row is None or low == high:
            continue
        cells = [
            "".join(cell.itertext()).replace("\u202f", "").replace("\u2212", "-") for cell in row.iter(f"{HTML}td")
        ]
        shown = [cell.replace("–", "null") for cell in cells[1:3]]
        if id != "thread_length":
            assert shown == [low, high], id
            compared += 1
    assert compared > 20


def test_memory_and_conflict_are_said_in_words(client: FlaskClient) -> None:
    page = parsed(ask(client, "ISO 4014 - M10x60 - 8.8"))
    words = ["".join(node.itertext()) for node in page.iter(f"{HTML}span") if node.attrib.get("class") == "warning"]
    assert {"from memory", "conflict"} == set(words)
    strong = {"".join(node.itertext()) for node in page.iter(f"{HTML}strong")}
    assert strong == {"from memory: not seen in print", "conflict: sources disagree"}


def test_the_sheet_says_everything_that_the_specification_says(client: FlaskClient) -> None:
    designation = "ISO 4017 - M24x80 - 10.9"
    text = " ".join("".join(parsed(ask(client, designation)).itertext()).split())
    answer: dict[str, Any] = client.get("/v1/specification", query_string={"designation": designation}).get_json()
    for said in (
        *answer["cautions"],
        *(one[1:] for one in answer["notices"]),
        answer["fingerprint"],
        answer["item"]["title"],
        answer["gauge_standard"],
    ):
        assert said in text
    for gauge in answer["gauges"]:
        assert gauge["name"] in text
    for mark in answer["marking"]:
        assert mark["requirement"] in text
    for test in answer["tests"]:
        assert test["name"][1:] in text


def test_a_broken_drawing_is_not_said_to_be_to_scale_in_length(client: FlaskClient) -> None:
    captions = [
        "".join(parsed(ask(client, designation)).find(f".//{HTML}figcaption").itertext())  # type: ignore[union-attr]
        for designation in ("ISO 4014 - M5x500 - 8.8", "ISO 4014 - M10x60 - 8.8")
    ]
    assert ["but for its length" in caption for caption in captions] == [True, False]


def test_pages_and_json_have_their_own_tags(client: FlaskClient) -> None:
    page = ask(client, "M10-6g")
    data = client.get("/v1/specification", query_string={"designation": "M10-6g"})
    assert data.content_type == "application/json"
    assert page.headers["Vary"] == data.headers["Vary"] == "Accept"
    assert page.headers["ETag"] != data.headers["ETag"]
    again = client.get(
        "/v1/specification",
        query_string={"designation": "M10-6g"},
        headers={**PAGE, "If-None-Match": page.headers["ETag"]},
    )
    assert (again.status_code, again.get_data()) == (304, b"")
    other = client.get(
        "/v1/specification", query_string={"designation": "M10-6g"}, headers={"If-None-Match": page.headers["ETag"]}
    )
    assert other.status_code == 200


@pytest.mark.parametrize("accept", ["*/*", "application/json", "application/json, text/html", ""])
def test_who_does_not_prefer_a_page_gets_json(client: FlaskClient, accept: str) -> None:
    answer = client.get("/v1/specification", query_string={"designation": "M10-6g"}, headers={"Accept": accept})
    assert answer.content_type == "application/json"


def test_same_request_same_bytes_and_no_date(client: FlaskClient) -> None:
    first, second = (ask(client, f"M10-6g{blank}").get_data(as_text=True) for blank in ("", " "))
    assert first == second
    assert not re.search(r"20\d\d-\d\d-\d\d", first)


@pytest.mark.parametrize("designation", [*HOSTILE, "x" * 300])
def test_hostile_text_is_refused_as_text(client: FlaskClient, designation: str) -> None:
    answer = ask(client, designation)
    data = client.get("/v1/specification", query_string={"designation": designation})
    assert answer.status_code == data.status_code == 422
    assert answer.content_type == "text/html; charset=utf-8"
    text = answer.get_data(as_text=True)
    assert "<script" not in text
    assert "<img" not in text
    assert "<b>" not in text
    assert "49" not in text.split("<body>")[1].replace("49%", "")


def test_a_refusal_is_a_page_with_a_form_that_keeps_what_was_asked(client: FlaskClient) -> None:
    answer = ask(client, 'ISO 4014 - M11x60 - 8.8"')
    page = parsed(ask(client, "ISO 4014 - M11x60 - 8.8"))
    field = page.find(f".//{HTML}input[@name='designation']")
    form = page.find(f".//{HTML}form")
    assert answer.status_code == 422
    assert field is not None
    assert form is not None
    assert field.attrib["value"] == "ISO 4014 - M11x60 - 8.8"
    assert (form.attrib["action"], form.attrib["method"]) == ("/v1/specification", "get")


@pytest.mark.parametrize(
    ("asked", "status", "nearest"),
    [
        ("ISO 4014 - M11x60 - 8.8", 404, "ISO 4014 - M12x60 - 8.8"),
        ("ISO 4014 - M10x60 - 8.7", 404, "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014 - M1Ox60 - 8.8", 422, "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014 - M10x60 - A2-7", 422, "ISO 4014 - M10x60 - A2-70"),
        ("ISO 4014 - M10x60 - 8.8 - tZm", 422, "ISO 4014 - M10x60 - 8.8 - tZn"),
        ("ISO 7089 - 11 - 200 HV", 404, "ISO 7089 - 10 - 200 HV"),
        ("M10x1.3-6g", 404, "M10x1.25-6g"),
        ("M10", 422, "M10-6g"),
        ("ISO 4014 - M10x60", 422, "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4015 - M10x60 - 8.8", 404, "ISO 4017 - M10x60 - 8.8"),
        ("1/2-14 UNC-2A", 404, "1/2-14 UNS-2A"),
    ],
)
def test_a_near_miss_leads_to_sheets_that_exist(client: FlaskClient, asked: str, status: int, nearest: str) -> None:
    answer = ask(client, asked)
    assert answer.status_code == status
    links = {node.text: node.attrib["href"] for node in parsed(answer).iter(f"{HTML}a")}
    assert nearest in links
    for address in links.values():
        assert client.get(address, headers=PAGE).status_code == 200


@pytest.mark.parametrize("path", ["/v1/nothing", "/v1/specification", "/v1/thread-limits?designation=M10"])
def test_every_refusal_is_a_page_for_who_prefers_one(client: FlaskClient, path: str) -> None:
    answer, data = client.get(path, headers=PAGE), client.get(path)
    assert answer.status_code == data.status_code >= 400
    assert answer.content_type == "text/html; charset=utf-8"
    assert data.content_type == "application/problem+json"
    assert data.get_json()["detail"][1:] in "".join(parsed(answer).itertext())
    assert data.headers["Vary"] == "Accept"


@pytest.mark.parametrize("path", ["/docs", "/docs/problems/unknown_size"])
def test_the_start_pages_are_valid(client: FlaskClient, path: str) -> None:
    parsed(client.get(path, headers=PAGE))


def test_a_misspelt_standard_leads_to_its_products(client: FlaskClient) -> None:
    answer = client.get("/v1/products", query_string={"standard": "ISO 4104"}, headers=PAGE)
    links = {node.text: node.attrib["href"] for node in parsed(answer).iter(f"{HTML}a")}
    page = client.get(links["ISO 4014"], headers=PAGE)
    assert page.status_code == 200
    assert "M10" in page.text


def test_what_stands_between_backticks_is_code(client: FlaskClient) -> None:
    page = client.get("/docs", headers=PAGE).text
    assert "<code>Accept: text/html</code>" in page
    assert "`" not in page


def test_the_start_page_takes_a_designation(client: FlaskClient) -> None:
    form = parsed(client.get("/docs", headers=PAGE)).find(f".//{HTML}form")
    assert form is not None
    assert form.attrib["action"] == "/v1/specification"
    assert form.find(f".//{HTML}input[@name='designation']") is not None


def test_the_drawing_is_that_of_the_page(client: FlaskClient) -> None:
    page = ask(client, "ISO 4032 - M16 - 8").get_data(as_text=True)
    without_links = re.sub(r'<a href="#basis-\d+" tabindex="-1">(.*?)</a>', r"\1", page)
    for view in ("part", "thread"):
        drawing = ask(client, "ISO 4032 - M16 - 8", "/v1/specification/drawing.svg", view=view)
        assert drawing.status_code == 200
        assert drawing.content_type == "image/svg+xml; charset=utf-8"
        assert drawing.get_data(as_text=True) in without_links


def test_the_part_is_drawn_unless_the_thread_is_asked_for(client: FlaskClient) -> None:
    default = ask(client, "ISO 4032 - M16 - 8", "/v1/specification/drawing.svg").get_data()
    assert default == ask(client, "ISO 4032 - M16 - 8", "/v1/specification/drawing.svg", view="part").get_data()


@pytest.mark.parametrize(
    ("query", "status", "code"),
    [
        ({"designation": "M10-6g"}, 422, "not_covered"),
        ({"designation": "ISO 7089 - 10 - 200 HV", "view": "thread"}, 422, "not_covered"),
        ({"designation": "ISO 4032 - M16 - 8", "view": "top"}, 422, "invalid"),
        ({"designation": "M10-6g", "size": "9"}, 422, "unknown_member"),
        ({}, 422, "missing_member"),
    ],
)
def test_a_drawing_that_is_not_held_is_refused(
    client: FlaskClient, query: dict[str, str], status: int, code: str
) -> None:
    answer = client.get("/v1/specification/drawing.svg", query_string=query)
    assert (answer.status_code, answer.get_json()["code"]) == (status, code)


def test_the_sheet_says_that_a_later_edition_exists(client: FlaskClient) -> None:
    """ISO 7040:2025 is in public catalogues; ISO 4762:2004 is the one in force."""
    text = ask(client, "ISO 7040 - M10 - 8").get_data(as_text=True)
    assert "The figures are those of ISO 7040:2012. ISO 7040:2025 is the edition in force" in text
    assert 'id="editions"' not in ask(client, "ISO 4762 - M10x50 - 12.9").get_data(as_text=True)
