"""POST /v1/part-masters/impact.

Figures: widths across flats of the former hexagon standards 17, 19, 22, 32 mm at M10, M12, M14, M22 against 16, 18, 21,
34 mm of ISO 272 and ISO 4014; DIN 934 m 8 mm against 8.40 mm of ISO 4032 at M10; ISO 10684:2004, local thickness 40 um
on bolts of 8.8; ISO 898-1, Brinell hardness of 8.8 up to M16: 238 to 304 in 2009, 245 to 316 in 2013.
"""

from __future__ import annotations

import csv
import gzip
import io
import json
from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

URL = "/v1/part-masters/impact"


def ask(client: FlaskClient, before: str, after: str, *texts: str) -> list[dict[str, Any]]:
    rows = [{"part_number": f"P{at}", "description": text} for at, text in enumerate(texts)]
    answer = client.post(URL, json={"change": {"from": before, "to": after}, "part_masters": rows})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: list[dict[str, Any]] = answer.get_json()["part_masters"]
    assert [one["row"] for one in found] == list(range(len(texts)))
    summary = answer.get_json()["summary"]
    assert summary["rows"] == len(texts) == sum(summary["effects"].values())
    return found


def of(row: dict[str, Any], id: str) -> dict[str, Any]:
    found: dict[str, Any] = next(one for one in row["differences"] if one["id"] == id)
    return found


@pytest.mark.parametrize(
    ("size", "former", "now", "direction"),
    [
        ("M10", 17, 16, "smaller"),
        ("M12", 19, 18, "smaller"),
        ("M14", 22, 21, "smaller"),
        ("M22", 32, 34, "larger"),
    ],
)
@pytest.mark.parametrize(("before", "after"), [("DIN 931", "ISO 4014"), ("DIN 933", "ISO 4017")])
def test_former_hexagon_standards_change_their_width_across_flats(
    client: FlaskClient, before: str, after: str, size: str, former: int, now: int, direction: str
) -> None:
    (row,) = ask(client, before, after, f"{before} {size}x100 8.8")
    assert (row["effect"], row["to_designation"]) == ("changes", f"{after} - {size}x100 - 8.8")
    flats = of(row, "width_across_flats")
    assert (flats["before"]["max"], flats["after"]["max"]) == (former, now)
    assert (flats["direction"], flats["meets"]) == (direction, False)
    assert flats["before"]["basis"]["standard"] == before
    assert "is not thereby equal" in row["reasons"][0]


def test_a_size_without_known_difference_is_not_called_equal(client: FlaskClient) -> None:
    (row,) = ask(client, "DIN 933", "ISO 4017", "DIN 933 M16x40 8.8")
    assert row["effect"] == "not_judged"
    assert "does not prove it equal" in row["reasons"][0]


def test_back_to_the_former_standard(client: FlaskClient) -> None:
    (row,) = ask(client, "ISO 4032", "DIN 934", "ISO 4032 M10 8")
    assert of(row, "nut_height")["direction"] == "smaller"
    assert (of(row, "nut_height")["before"]["max"], of(row, "nut_height")["after"]["max"]) == (8.4, 8)
    assert row["to_designation"] is None


def test_what_the_change_does_not_concern_is_untouched(client: FlaskClient) -> None:
    rows = ask(client, "DIN 933", "ISO 4017", "DIN 931 M10x60 8.8", "ISO 4032 M10 8", "NUT HEX M16 CL10")
    assert {row["effect"] for row in rows} == {"untouched"}


def test_what_cannot_be_read_or_is_not_certain_is_not_judged_and_says_why(client: FlaskClient) -> None:
    rows = ask(client, "ISO 4014", "ISO 4017", "hello", "VIS H M10x40 8.8", "ISO 4014 M13x60 8.8")
    assert [row["effect"] for row in rows] == ["not_judged"] * 3
    assert "ISO 4014 - M10x40 - 8.8 or ISO 4017 - M10x40 - 8.8" in rows[1]["reasons"][0]
    assert "13 mm" in rows[2]["reasons"][0]
    (other,) = ask(client, "ISO 4014", "ISO 4017", "ISO 4032 M13 8")
    assert other["effect"] == "untouched", "unreadable, but no bolt of ISO 4014"


def test_a_superseded_edition_that_is_not_held_is_said_and_never_replaced(client: FlaskClient) -> None:
    rows = [{"description": "ISO 4014 M10x60 8.8"}, {"description": "ISO 4032 M10 8"}]
    change = {"from": "ISO 4014:1999", "to": "ISO 4014:2011"}
    answer = client.post(URL, json={"change": change, "part_masters": rows}).get_json()
    assert answer["change"]["from"]["held"] is False
    assert answer["change"]["to"]["held"] is True
    assert [row["effect"] for row in answer["part_masters"]] == ["not_judged", "untouched"]
    assert "held in its edition 2011, not 1999" in answer["part_masters"][0]["reasons"][0]


def test_two_product_standards(client: FlaskClient) -> None:
    rows = ask(client, "ISO 4014", "ISO 4017", "ISO 4014 M10x60 8.8", "ISO 4014 M10x60")
    assert [row["effect"] for row in rows] == ["changes", "changes"]
    assert of(rows[0], "body_diameter")["after"] is None
    assert "no property class" in rows[1]["reasons"][0]


def test_a_size_that_the_other_standard_does_not_list_has_no_counterpart(client: FlaskClient) -> None:
    (row,) = ask(client, "ISO 4014", "ISO 8765", "ISO 4014 M10x60 8.8")
    assert row["effect"] == "no_counterpart"
    assert "lists no M10" in row["reasons"][0]


def test_hot_dip_galvanizing_what_was_plain(client: FlaskClient) -> None:
    rows = ask(client, "none", "tZn", "ISO 4014 M10x60 8.8", "ISO 4014 M10x60 8.8 tZn", "ISO 4014 M10x60 8.8 ZN")
    assert [row["effect"] for row in rows] == ["changes", "untouched", "untouched"]
    assert rows[0]["to_designation"] == "ISO 4014 - M10x60 - 8.8 - tZn"
    assert of(rows[0], "coating_thickness")["after"]["min"] == 40
    assert "position g leaves 32 um" in rows[0]["reasons"][0]


def test_a_coating_that_a_word_names_is_not_judged(client: FlaskClient) -> None:
    rows = ask(client, "Fe/Zn8", "flZn-480h", "ISO 4014 M10x60 8.8 ZN", "ISO 4014 M10x60 8.8")
    assert [row["effect"] for row in rows] == ["not_judged", "untouched"]
    assert "does not say which coating" in rows[0]["reasons"][0]


def test_a_coating_by_its_designation(client: FlaskClient) -> None:
    rows = [
        {"designation": "ISO 4014 - M10x60 - 8.8 - Fe/Zn8"},
        {"description": "ISO 4014 M10x60 8.8", "coating": "Fe/Zn8"},
    ]
    answer = client.post(URL, json={"change": {"from": "Fe/Zn8", "to": "none"}, "part_masters": rows}).get_json()
    for row in answer["part_masters"]:
        assert (row["effect"], row["to_designation"]) == ("changes", "ISO 4014 - M10x60 - 8.8")
        assert of(row, "coating")["before_text"] == "Fe/Zn8"


def test_editions_of_a_standard_of_properties(client: FlaskClient) -> None:
    rows = ask(client, "ISO 898-1:2009", "ISO 898-1:2013", "ISO 4014 M10x60 8.8", "ISO 4032 M10 8")
    assert [row["effect"] for row in rows] == ["changes", "untouched"]
    brinell = of(rows[0], "hardness_brinell")
    assert (brinell["before"]["min"], brinell["after"]["min"], brinell["direction"]) == (238, 245, "harder")
    assert "not both held in full" in rows[0]["reasons"][0]


def test_editions_of_a_coating_standard_touch_coated_parts_only(client: FlaskClient) -> None:
    rows = [{"designation": "ISO 4014 - M10x60 - 8.8 - A3L"}, {"designation": "ISO 4014 - M10x60 - 8.8"}]
    change = {"from": "ISO 4042:1999", "to": "ISO 4042:2018"}
    found = client.post(URL, json={"change": change, "part_masters": rows}).get_json()["part_masters"]
    assert [row["effect"] for row in found] == ["not_judged", "untouched"]


@pytest.mark.parametrize(
    ("change", "status", "code", "pointer"),
    [
        ({"from": "ISO 4014"}, 422, "missing_member", "/change/to"),
        ({"from": "ISO 4014", "to": 7}, 422, "wrong_type", "/change/to"),
        ({"from": "ISO 40144", "to": "ISO 4017"}, 404, "unknown_standard", "/change/from"),
        ({"from": "ISO 4014", "to": "ISO 4032"}, 422, "contradiction", "/change/to"),
        ({"from": "ISO 4014", "to": "tZn"}, 422, "contradiction", "/change/to"),
        ({"from": "ISO 4014", "to": "ISO 4014:2011"}, 422, "contradiction", "/change/to"),
        ({"from": "tZn", "to": "tZn"}, 422, "contradiction", "/change/to"),
        ({"from": "ISO 898-1", "to": "ISO 898-2"}, 422, "contradiction", "/change/to"),
        ([], 422, "wrong_type", "/change"),
    ],
)
def test_a_change_that_is_none_is_refused(
    client: FlaskClient, change: Any, status: int, code: str, pointer: str
) -> None:
    answer = client.post(URL, json={"change": change, "part_masters": []})
    assert pointers(problem(answer, status, code)) == [pointer]


def test_ndjson_loses_no_row_and_sums_up(client: FlaskClient) -> None:
    lines = [
        b'{"part_number": "A", "description": "DIN 933 M10x40 8.8"}',
        b"{broken",
        b'"text"',
        b"\xff\xfe",
        b"",
        b"{}",
    ]
    answer = client.post(
        URL,
        data=gzip.compress(b"\n".join(lines), mtime=0),
        headers={"Content-Encoding": "gzip"},
        content_type="application/x-ndjson",
        query_string={"from": "DIN 933", "to": "ISO 4017"},
    )
    *rows, last = [json.loads(line) for line in answer.get_data(as_text=True).splitlines()]
    assert [row["row"] for row in rows] == [0, 1, 2, 3, 4]
    assert [row["effect"] for row in rows] == ["changes", *["not_judged"] * 4]
    assert last["summary"]["effects"] == {"changes": 1, "not_judged": 4}


def test_csv_has_one_line_for_each_row(client: FlaskClient) -> None:
    text = "Artikel;Text\r\nA;DIN 933 M12x40 8.8\r\n;;;\r\n\r\nB;ISO 4032 M10 8\r\n"
    query = {"from": "DIN 933", "to": "ISO 4017", "columns": "Artikel:part_number,Text:description"}
    answer = client.post(URL, data=text.encode(), content_type="text/csv", query_string=query)
    rows = list(csv.DictReader(io.StringIO(answer.get_data(as_text=True)), delimiter=";"))
    assert [(row["part_number"], row["effect"]) for row in rows] == [
        ("A", "changes"),
        ("", "not_judged"),
        ("B", "untouched"),
    ]
    assert rows[0]["changed"] == "width_across_flats"
    assert json.loads(rows[0]["differences"])[0]["before"]["max"] == 19


def test_a_stream_without_the_change_is_refused(client: FlaskClient) -> None:
    answer = client.post(URL, data="{}", content_type="application/x-ndjson", query_string={"from": "DIN 933"})
    assert pointers(problem(answer, 422, "missing_member")) == ["/to"]


def test_a_part_of_a_catalogue_counts_on(client: FlaskClient) -> None:
    body = {"change": {"from": "DIN 933", "to": "ISO 4017"}, "part_masters": [{"description": "DIN 933 M10x40 8.8"}]}
    answer = client.post(URL, json=body, query_string={"first_row": 4000}).get_json()
    assert [row["row"] for row in answer["part_masters"]] == [4000]
    assert answer["summary"]["rows"] == 1
