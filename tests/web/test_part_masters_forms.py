"""Forms in which plants send part masters: no row is lost, no unit dropped, no misspelt column passed over.

docs/resources/part_masters_validation.md; RFC 1952, 2.2: a gzip file is a series of members.
"""

import csv
import gzip
import io
import json

import pytest
from flask.testing import FlaskClient

from boltwright_server.web.app import create_app

URL = "/v1/part-masters/validation"
CSV, NDJSON = "text/csv", "application/x-ndjson"
TEXT = b"part_number,description\nA1,ISO 4032 M10 8\nA2,ISO 4032 M12 8\n"


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return create_app().test_client()


def cells(client: FlaskClient, body: bytes, **query: str) -> list[dict[str, str]]:
    answer = client.post(URL, data=body, content_type=CSV, query_string=query)
    assert answer.status_code == 200, answer.json
    return list(csv.DictReader(io.StringIO(answer.text, newline="")))


def zipped(client: FlaskClient, body: bytes) -> object:
    return client.post(URL, data=body, content_type=CSV, headers={"Content-Encoding": "gzip"})


def test_joined_gzip_files_lose_no_row(client: FlaskClient) -> None:
    joined = gzip.compress(TEXT, mtime=0) + gzip.compress(b"A3,ISO 4032 M16 8\n") + b"\0" * 512
    answer = zipped(client, joined)
    assert [row["part_number"] for row in csv.DictReader(io.StringIO(answer.text))] == ["A1", "A2", "A3"]


@pytest.mark.parametrize("tail", [b"xyz", gzip.compress(b"A3,ISO 4032 M16 8\n", mtime=0)[:-4]])
def test_what_follows_a_gzip_file_and_is_none_is_refused(client: FlaskClient, tail: bytes) -> None:
    assert zipped(client, gzip.compress(TEXT, mtime=0) + tail).status_code == 400


@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_utf_16_without_a_mark_is_seen(client: FlaskClient, encoding: str) -> None:
    found = cells(client, TEXT.decode().encode(encoding))
    assert [row["designation"] for row in found] == ["ISO 4032 - M10 - 8", "ISO 4032 - M12 - 8"]


@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be", "utf-16", "utf-8"])
def test_utf_16_that_is_stated_may_have_no_mark(client: FlaskClient, encoding: str) -> None:
    """In what is no UTF-16 no title can be read: it is refused, and is no fault."""
    body = TEXT.decode().encode(encoding)
    if encoding == "utf-8":
        answer = client.post(URL, data=body, content_type=CSV, query_string={"encoding": "utf-16"})
        assert (answer.status_code, answer.json["code"]) == (422, "no_known_column")
        return
    found = cells(client, body, encoding="utf-16")
    assert [row["designation"] for row in found] == ["ISO 4032 - M10 - 8", "ISO 4032 - M12 - 8"]


def test_a_mark_before_the_first_line_of_ndjson_is_no_part_of_it(client: FlaskClient) -> None:
    body = b'\xef\xbb\xbf{"description": "ISO 4032 M10 8"}\n'
    first = json.loads(client.post(URL, data=body, content_type=NDJSON).data.splitlines()[0])
    assert first["designation"] == "ISO 4032 - M10 - 8"


def test_a_column_that_is_mapped_to_no_member_is_refused_with_the_nearest(client: FlaskClient) -> None:
    answer = client.post(
        URL, data=b"Text\nISO 4032 M10 8\n", content_type=CSV, query_string={"columns": "Text:descripton"}
    )
    assert answer.status_code == 422
    assert "description" in answer.json["detail"]
    assert answer.json["errors"][0]["pointer"] == "/columns"


@pytest.mark.parametrize(
    ("title", "value", "designation"),
    [
        ("length [mm]", "60", "ISO 4014 - M10x60 - 8.8"),
        ("length [in]", "2.5", ""),
        ("length", "2.5 in", ""),
        ("length", "60 mm", "ISO 4014 - M10x60 - 8.8"),
    ],
)
def test_the_unit_of_a_length_is_read_wherever_it_stands(
    client: FlaskClient, title: str, value: str, designation: str
) -> None:
    row = cells(client, f"description,{title}\nISO 4014 M10 8.8,{value}\n".encode())[0]
    assert row["designation"] == designation
    assert ("value-unreadable" in row["codes"]) is (designation == "")


@pytest.mark.parametrize(
    ("member", "given"),
    [
        ("width_across_flats", {"value": 16, "unit": 5}),
        ("mass_per_1000", {"value": 45, "unit": ["kg"]}),
        ("tensile_load", {"value": 46400, "unit": {}}),
    ],
)
def test_a_unit_that_is_no_text_is_a_finding(client: FlaskClient, member: str, given: object) -> None:
    row = {"description": "ISO 4014 M10x60 8.8", member: given}
    answer = client.post(URL, json={"part_masters": [row]})
    assert [one["code"] for one in answer.json["part_masters"][0]["findings"]] == ["value-unreadable"]


@pytest.mark.parametrize("length", ["9 1e99999999", "1e-99999999", "1/0", "1/1e99999999", "\u00bd", "NaN", "9" * 400])
def test_a_length_that_no_number_holds_is_a_finding(client: FlaskClient, length: str) -> None:
    row = {"description": "ISO 4014 M10 8.8", "length": length}
    answer = client.post(URL, json={"part_masters": [row]})
    assert "value-unreadable" in {one["code"] for one in answer.json["part_masters"][0]["findings"]}


def test_a_length_may_be_a_value_with_its_unit(client: FlaskClient) -> None:
    row = {"description": "ISO 4014 M10 8.8", "length": {"value": 60, "unit": "mm"}}
    answer = client.post(URL, json={"part_masters": [row]})
    assert answer.json["part_masters"][0]["designation"] == "ISO 4014 - M10x60 - 8.8"


def test_csv_says_which_words_were_used(client: FlaskClient) -> None:
    assert cells(client, TEXT)[0]["used"] == "ISO 4032 M10 8"
