"""Files as they leave an ERP system: marks, encodings, strange columns. Written from the wire contract alone."""

import csv
import io
import json
import re

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

PATH = "/v1/part-masters/validation"
TEXT = "part_number;description;width_across_flats\r\nÄ-1;Sechskantschraube ISO 4014 M10x60 8.8;15,85\r\n"
PLAIN = TEXT.replace("Ä", "A")
MARKS = {"utf-8": b"\xef\xbb\xbf", "utf-16-le": b"\xff\xfe", "utf-16-be": b"\xfe\xff"}
STATED = {
    "utf-8": ("utf-8", "UTF-8", "utf8", "UTF8", '"utf-8"'),
    "cp1252": ("cp1252", "windows-1252", "Windows-1252", "CP1252"),
    "latin-1": ("iso-8859-1", "ISO-8859-1", "latin1", "ISO_8859-1"),
    "ascii": ("us-ascii", "US-ASCII", "ascii"),
    "utf-16-le": ("utf-16le", "UTF-16LE"),
    "utf-16-be": ("utf-16be", "UTF-16BE"),
}
NAMES = [(encoding, name) for encoding, names in STATED.items() for name in names]


def read_back(response: TestResponse) -> list[dict[str, str]]:
    assert response.status_code == 200, response.text[:600]
    text = response.get_data(as_text=True)
    delimiter = ";" if text.partition("\n")[0].count(";") else ","
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"), newline=""), delimiter=delimiter))


def one_good_row(response: TestResponse, number: str) -> None:
    (row,) = read_back(response)
    assert (row["part_number"], row["status"], row["designation"]) == (number, "valid", "ISO 4014 - M10x60 - 8.8")


@pytest.mark.parametrize("marked", [False, True])
@pytest.mark.parametrize(("encoding", "name"), NAMES)
def test_a_stated_charset_is_known_by_its_names_and_a_mark_is_taken_off(
    client: FlaskClient, encoding: str, name: str, marked: bool
) -> None:
    if marked and encoding not in MARKS:
        pytest.skip("no such mark")
    text, number = (PLAIN, "A-1") if encoding == "ascii" else (TEXT, "Ä-1")
    body = (MARKS[encoding] if marked else b"") + text.encode(encoding)
    one_good_row(client.post(PATH, data=body, content_type=f"text/csv; charset={name}"), number)


@pytest.mark.parametrize("marked", [False, True])
@pytest.mark.parametrize("encoding", ["utf-8", "cp1252", "iso-8859-1"])
def test_an_encoding_in_the_query_is_used_and_a_mark_is_taken_off(
    client: FlaskClient, encoding: str, marked: bool
) -> None:
    if marked and encoding != "utf-8":
        pytest.skip("no such mark")
    body = (MARKS["utf-8"] if marked else b"") + TEXT.encode(encoding)
    response = client.post(PATH, data=body, query_string={"encoding": encoding}, content_type="text/csv")
    one_good_row(response, "Ä-1")


@pytest.mark.parametrize("encoding", MARKS)
def test_a_mark_alone_tells_the_encoding(client: FlaskClient, encoding: str) -> None:
    one_good_row(client.post(PATH, data=MARKS[encoding] + TEXT.encode(encoding), content_type="text/csv"), "Ä-1")


def test_a_mark_is_taken_off_where_impact_is_asked(client: FlaskClient) -> None:
    body = MARKS["utf-8"] + b"part_number,description\r\nA-1,DIN 933 M10x40 8.8\r\n"
    query = {"from": "DIN 933", "to": "ISO 4017"}
    response = client.post(
        "/v1/part-masters/impact", data=body, query_string=query, content_type="text/csv; charset=utf-8"
    )
    assert [row["part_number"] for row in read_back(response)] == ["A-1"]


@pytest.mark.parametrize("media_type", ["application/json", "application/x-ndjson"])
def test_a_mark_is_taken_off_json(client: FlaskClient, media_type: str) -> None:
    row = {"part_number": "A-1", "description": "ISO 4014 M10x60 8.8"}
    value = {"part_masters": [row]} if media_type == "application/json" else row
    response = client.post(PATH, data=MARKS["utf-8"] + json.dumps(value).encode(), content_type=media_type)
    assert response.status_code == 200, response.text
    assert '"A-1"' in response.text


# Columns that are not read are named.

STRANGE = {"part_number": "A-1", "description": "ISO 4014 M10x60 8.8", "width_across_flat": "99"}


def not_read(summary: dict[str, object]) -> dict[str, object]:
    told = summary["columns_not_read"]
    assert isinstance(told, list)
    return {one["title"]: one["nearest"] for one in told}


def test_a_member_that_is_not_read_is_named_with_its_nearest(client: FlaskClient) -> None:
    summary = client.post(PATH, json={"part_masters": [STRANGE]}).get_json()["summary"]
    assert not_read(summary) == {"width_across_flat": "width_across_flats"}
    read = json.dumps(summary["columns_read"])
    assert [name in read for name in ("part_number", "description", "width_across_flat")] == [True, True, False]


def test_a_member_of_a_stream_that_is_not_read_is_named(client: FlaskClient) -> None:
    response = client.post(PATH, data=json.dumps(STRANGE) + "\n", content_type="application/x-ndjson")
    last = json.loads(response.text.strip().split("\n")[-1])
    assert not_read(last["summary"]) == {"width_across_flat": "width_across_flats"}


def test_a_column_that_is_not_read_stands_in_a_header(client: FlaskClient) -> None:
    body = "part_number;description;width_across_flat\r\nA-1;ISO 4014 M10x60 8.8;99\r\n"
    response = client.post(PATH, data=body, content_type="text/csv")
    read_back(response)
    assert any(re.search("width_across_flat(?!s)", value) for value in response.headers.values())


@pytest.mark.parametrize(
    ("body", "media_type"),
    [
        ("Foo;Bar\r\nA-1;ISO 4014 M10x60 8.8\r\n", "text/csv"),
        ("Inhalt\r\nISO 4014 M10x60 8.8\r\n", "text/csv"),
        (json.dumps({"part_masters": [{"foo": "A-1", "bar": "ISO 4014 M10x60 8.8"}]}), "application/json"),
        (json.dumps({"foo": "A-1", "bar": "ISO 4014 M10x60 8.8"}) + "\n", "application/x-ndjson"),
    ],
)
def test_where_no_column_is_known_the_body_is_refused(client: FlaskClient, body: str, media_type: str) -> None:
    response = client.post(PATH, data=body, content_type=media_type)
    assert response.status_code == 422, response.text[:300]


@pytest.mark.parametrize("title", ["Bezeichnungen", "Benenung"])
def test_a_mapped_title_that_the_file_has_not_is_refused_and_the_titles_are_named(
    client: FlaskClient, title: str
) -> None:
    body = "Teil;Benennung\r\nA-1;ISO 4014 M10x60 8.8\r\n"
    query = {"columns": f"Teil:part_number,{title}:description"}
    response = client.post(PATH, data=body, query_string=query, content_type="text/csv")
    assert response.status_code == 422, response.text[:300]
    assert "Benennung" in response.text


@pytest.mark.parametrize("first", ["sep=;", "Beispiel GmbH;Stand 30.11.2026"])
def test_a_line_above_the_titles_is_passed_over_or_refused(client: FlaskClient, first: str) -> None:
    """Never thousands of rows that are all unreadable."""
    response = client.post(PATH, data=f"{first}\r\n{PLAIN}", content_type="text/csv")
    if response.status_code == 200:
        assert [row["status"] for row in read_back(response)][-1] == "valid"
    else:
        assert response.status_code == 422


@pytest.mark.parametrize(
    ("body", "media_type"),
    [(PLAIN, "text/csv"), (json.dumps({"description": "ISO 4032 M10 8"}) + "\n", "application/x-ndjson")],
)
def test_bulk_answers_say_their_length(client: FlaskClient, body: str, media_type: str) -> None:
    response = client.post(PATH, data=body, content_type=media_type)
    assert response.headers.get("Content-Length") == str(len(response.data))


# Repeats.


def codes(client: FlaskClient, *rows: dict[str, str]) -> list[set[str]]:
    answer = client.post(PATH, json={"part_masters": list(rows)}).get_json()
    return [{one["code"] for one in row["findings"]} for row in answer["part_masters"]]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("", "FINISH 12"),
        ("FINISH 12", ""),
        ("FINISH 12", "FINISH 14"),
        ("zinc plated", ""),
        ("zinc plated", "tZn"),
        ("zinc plated", "zinc plated, sealed per WS 4711"),
    ],
)
def test_another_coating_or_one_that_is_not_understood_is_no_repeat(
    client: FlaskClient, first: str, second: str
) -> None:
    nut = {"description": "ISO 4032 M20 8"}
    told = codes(client, {"part_number": "A", **nut, "coating": first}, {"part_number": "B", **nut, "coating": second})
    assert "duplicate-requirement" not in told[1]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("ISO 4032 M20 8", "Sechskantmutter DIN EN ISO 4032 - M20 - 8"),
        ("ISO 4014 M10x60 8.8 zinc plated", "Vis H ISO 4014 M10x60 8.8 zingué"),
        ("ISO 8765 M12x1,5x80 10.9", "HEX BOLT FINE ISO 8765 M12X1.5X80 10.9"),
        ("ISO 7089 10 200 HV", "Scheibe ISO 7089 M10 200HV"),
    ],
)
def test_the_same_in_other_words_is_a_repeat(client: FlaskClient, first: str, second: str) -> None:
    told = codes(client, {"part_number": "A", "description": first}, {"part_number": "B", "description": second})
    assert "duplicate-requirement" in told[1]


# What the designation grammar accepts is its answer.

CANONICAL = """
ISO 4014 - M16x80 - 8.8S
ISO 4014 - M16x90 - 8.8U - tZn
ISO 4014 - M12x80 - 12.9U
ISO 4032 - M16 - 8Z - tZn
ISO 4032 - M16 - 10X - tZn
ISO 4017 - M10x40 - 8.8 - Fe/Zn5
ISO 8765 - M10x1.25x60 - 10.9
ISO 7089 - 10 - 200 HV
ISO 4014 - M10x60 - A2-70
ISO 4032 - M12 - A4-70
ISO 4035 - M12 - A2-035
ISO 7380-1 - M8x20 - 010.9
ISO 4026 - M8x10 - 45H
ISO 4762 - M8x30 - 12.9
ISO 4014 - M12x80 - 8.8 - flZn-480h
ISO 4014 - M12x80 - ASTM F568M 8.8
ISO 4762 - M10x40 - A5-70
ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5
ASME B18.2.2 hex nut - 1/2-13 - SAE J995 5
ASME B18.2.1 heavy hex bolt - 3/4-10x3 - ASTM A449
ASME B18.2.1 hex cap screw - 7/8-14x4 - ASTM A354 BD
ASME B18.2.6 heavy hex structural bolt - 3/4-10x3 - ASTM F3125 A325
ASME B18.2.2 heavy hex nut - 3/4-10 - ASTM A563 DH
ASME B18.3 socket head cap screw - #10-32x1 - ASTM A574
threaded rod - M12x1000 - 8.8
inch threaded rod - 3/4-10x6 - ASTM A193 B7
inch threaded rod - 1-8x12 - ASTM A193 B8 Class 2
ISO 7042 - M12 - 12
ISO 15071 - M8x30 - 12.9
""".strip().split("\n")


@pytest.mark.parametrize("member", ["designation", "description"])
@pytest.mark.parametrize("text", CANONICAL)
def test_a_canonical_designation_comes_back_as_itself(client: FlaskClient, text: str, member: str) -> None:
    accepted = client.get("/v1/specification", query_string={"designation": text})
    assert accepted.status_code == 200, accepted.text[:300]
    (row,) = client.post(PATH, json={"part_masters": [{"part_number": "A", member: text}]}).get_json()["part_masters"]
    assert row["designation"] == accepted.get_json()["designation"] == text
    assert "designation" not in (row.get("proposed") or {})
    assert row["left_over"] == []
