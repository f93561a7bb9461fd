"""Which columns of a catalogue are read is told, a mark costs none, and a file of which nothing is known is refused.

Marks: RFC 3629, 6, and RFC 2781, 3.2; a mark counts before what is stated: WHATWG Encoding Standard, "decode". Names of
encodings: IANA registry of character sets. Titles of other languages: common practice. Width across flats at M10: 16 mm
(ISO 4014:2011, Table 1).
"""

from __future__ import annotations

import codecs
import csv
import io
import json
from itertools import product
from typing import Any

import pytest
from flask.testing import FlaskClient

from boltwright_server.part_masters.catalogue import csv_rows
from boltwright_server.part_masters.catalogue.encodings import codec_of
from boltwright_server.web.app import create_app

VALIDATION, IMPACT = "/v1/part-masters/validation", "/v1/part-masters/impact"
CHANGE = {"from": "DIN 933", "to": "ISO 4017"}
CSV, NDJSON = "text/csv", "application/x-ndjson"
ROUTES = [pytest.param(VALIDATION, {}, id="validation"), pytest.param(IMPACT, CHANGE, id="impact")]
MARKS = {"utf-8": codecs.BOM_UTF8, "utf-16-le": codecs.BOM_UTF16_LE, "utf-16-be": codecs.BOM_UTF16_BE, "cp1252": b""}
#: Without a mark what is stated counts, so that it must be right.
WRITTEN = [
    *product(MARKS, [False], ["no", "query", "charset"]),
    *((encoding, True, stated) for encoding in list(MARKS)[:3] for stated in ("no", "query", "charset", "wrong")),
]
ROW = "A\u00e4,ISO 4032 M10 8"


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return create_app().test_client()


def rows(answer: Any) -> list[dict[str, str]]:
    assert answer.status_code == 200, answer.json
    assert answer.headers["Content-Length"] == str(len(answer.data))
    text = answer.data.decode()
    return list(csv.DictReader(io.StringIO(text, newline=""), delimiter=text[len("part_number")]))


def posted(client: FlaskClient, route: str, body: str | bytes, **query: str) -> Any:
    data = body.encode() if isinstance(body, str) else body
    return client.post(route, data=data, content_type=CSV, query_string=query)


@pytest.mark.parametrize(("route", "query"), ROUTES)
@pytest.mark.parametrize(("encoding", "marked", "stated"), WRITTEN)
def test_a_mark_costs_no_column(
    client: FlaskClient, route: str, query: dict[str, str], encoding: str, marked: bool, stated: str
) -> None:
    """Stated wrongly, a text with a mark is read all the same."""
    body = (MARKS[encoding] if marked else b"") + f"part_number,description\n{ROW}\n".encode(encoding)
    name = {"query": encoding, "wrong": "windows-1252"}.get(stated)
    kind = f"{CSV}; charset={encoding}" if stated == "charset" else CSV
    asked = {**query, **({"encoding": name} if name else {})}
    (row,) = rows(client.post(route, data=body, content_type=kind, query_string=asked))
    assert (row["part_number"], row["designation"]) == ("A\u00e4", "ISO 4032 - M10 - 8")


@pytest.mark.parametrize(("route", "query"), ROUTES)
@pytest.mark.parametrize("marks", ["\ufeff" * 2, "\ufeff" * 3, "\ufeff\u00ef\u00bb\u00bf"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16-le"])
def test_marks_of_a_file_that_was_converted_twice_cost_no_column(
    client: FlaskClient, route: str, query: dict[str, str], marks: str, encoding: str
) -> None:
    """The first mark was kept as a character, or read as Windows-1252."""
    body = f"{marks}part_number,description\n{ROW}\n".encode(encoding)
    (row,) = rows(posted(client, route, body, **query))
    assert row["part_number"] == "A\u00e4"
    if encoding == "utf-8" and set(marks) == {"\ufeff"}:
        line = marks.encode() + b'{"part_number": "A", "description": "ISO 4032 M10 8"}\n'
        answer = client.post(route, data=line, content_type=NDJSON, query_string=query)
        assert json.loads(answer.data.splitlines()[0])["part_number"] == "A"


@pytest.mark.parametrize(
    ("name", "codec"),
    [
        *[("windows-1252", "cp1252"), ("cswindows1252", "cp1252"), ("CP-1252", "cp1252"), ("x-cp1252", "cp1252")],
        *[("utf8", "utf-8"), ("csUTF8", "utf-8"), ("UTF-8-SIG", "utf-8"), ("us-ascii", "ascii"), ("csASCII", "ascii")],
        *[("latin1", "iso8859-1"), ("csISOLatin1", "iso8859-1"), ("ISO_8859-1:1987", "iso8859-1")],
        *[("latin-9", "iso8859-15"), ("csUTF16LE", "utf-16-le"), ("ISO-10646-UCS-2", "utf-16"), ("IBM850", "cp850")],
        *[
            ("csPC850Multilingual", "cp850"),
            ("IBM00858", "cp858"),
            ("macintosh", "mac-roman"),
            ("windows-1250", "cp1250"),
        ],
        *[("Windows-31J", "cp932"), ("ISO-8859-2", "iso8859-2"), ("csKOI8R", "koi8-r"), ("GB18030", "gb18030")],
        *[("klingon", None), ("rot13", None), ("hex", None), ("idna", None), ("unicode_escape", None), ("", None)],
        *[("\0", None), ("9" * 5000, None)],
    ],
)
def test_names_of_encodings(name: str, codec: str | None) -> None:
    assert codec_of(name) == codec


def test_an_encoding_that_there_is_not_is_refused_with_what_there_is(client: FlaskClient) -> None:
    for answer in (
        posted(client, VALIDATION, "description\nx\n", encoding="klingon"),
        client.post(VALIDATION, data=b"description\nx\n", content_type=f"{CSV}; charset=klingon"),
    ):
        assert answer.status_code == 422
        assert "windows-1252" in answer.json["detail"]


def test_the_first_umlaut_may_stand_behind_what_is_looked_at(client: FlaskClient) -> None:
    """A text of Windows-1252 that begins with more than 64 KiB of ASCII."""
    count = csv_rows._SNIFFED // 20
    body = "part_number,description\n" + "P,ISO 4032 M10 8 xxxxx\n" * count + f"{ROW}\n"
    found = rows(posted(client, VALIDATION, body.encode("cp1252")))
    assert len(found) == count + 1
    assert found[-1]["part_number"] == "A\u00e4"


# Which columns are read


def told(answer: Any) -> tuple[list[str], dict[str, str | None]]:
    """Columns read, and not read with the nearest member, wherever the answer says it."""
    assert answer.status_code == 200, answer.data
    assert answer.headers["Content-Length"] == str(len(answer.data))
    if answer.mimetype == CSV:
        read, unread = (json.loads(answer.headers[name]) for name in ("Columns-Read", "Columns-Not-Read"))
    else:
        last = json.loads(answer.data.splitlines()[-1]) if answer.mimetype == NDJSON else answer.json
        read, unread = last["summary"]["columns_read"], last["summary"]["columns_not_read"]
    return read, {one["title"]: one["nearest"] for one in unread}


TITLES = ["part_number", "description", "width_across_flat", "Preis \u20ac", "Norm"]
CELLS = ["A", "ISO 4014 M10x60 8.8", "99", "1,20", "ISO 4014"]
UNREAD = {"width_across_flat": "width_across_flats", "Preis \u20ac": None, "Norm": "standard"}


@pytest.mark.parametrize("form", ["json", NDJSON, CSV])
@pytest.mark.parametrize(("route", "query"), ROUTES)
def test_columns_read_and_not_read_are_told(client: FlaskClient, form: str, route: str, query: dict[str, str]) -> None:
    row = dict(zip(TITLES, CELLS, strict=True))
    if form == "json":
        answer = client.post(route, json={"part_masters": [row], **({"change": CHANGE} if query else {})})
    else:
        lines = ";".join(TITLES) + "\n" + ";".join(CELLS) + "\n" if form == CSV else json.dumps(row)
        answer = client.post(route, data=lines.encode(), content_type=form, query_string=query)
    nearest = UNREAD if route == VALIDATION else {**UNREAD, "width_across_flat": None}
    assert told(answer) == (TITLES[:2], nearest)


@pytest.mark.parametrize(
    ("title", "nearest"),
    [
        *[("Artikelnr.", "part_number"), ("Bezeichnung", "description"), ("D\u00e9signation", "designation")],
        *[("Descripci\u00f3n", "description"), ("filettatura", "thread"), ("Oberfl\u00e4che", "coating")],
        *[("SW", "width_across_flats"), ("head hieght", "head_height"), ("tensile_laod [kN]", "tensile_load")],
        *[("Lieferant", None), ("x", None), ("colour of the box", None)],
    ],
)
def test_the_nearest_member(client: FlaskClient, title: str, nearest: str | None) -> None:
    answer = posted(client, VALIDATION, f"description;{title}\nISO 4032 M10 8;x\n")
    read, unread = told(answer)
    assert (read, unread) == (["description"], {title: nearest})


def test_what_the_impact_does_not_read_is_told(client: FlaskClient) -> None:
    body = "description,width across flats,mates_with\nDIN 933 M10x40 8.8,17,ISO 4032 M10 8\n"
    assert told(posted(client, IMPACT, body, **CHANGE)) == (
        ["description"],
        {"width across flats": None, "mates_with": None},
    )


def test_a_column_without_a_title_is_told_where_it_holds_something(client: FlaskClient) -> None:
    assert told(posted(client, VALIDATION, "description,,\nISO 4032 M10 8,,\n")) == (["description"], {})
    body = "description,,\nISO 4032 M10 8,,\nISO 4032 M12 8,,99\n"
    assert told(posted(client, VALIDATION, body)) == (["description"], {"column 3": None})


def test_members_of_all_rows_are_told(client: FlaskClient) -> None:
    lines = [{"description": "ISO 4032 M10 8"}, {"colour": "red", "description ": "x"}, {"standard": "ISO 4032"}]
    body = "\n".join(map(json.dumps, lines)).encode()
    answer = client.post(VALIDATION, data=body, content_type=NDJSON)
    assert told(answer) == (["description", "standard"], {"colour": None})


def test_hundreds_of_columns_fit_into_a_header(client: FlaskClient) -> None:
    titles = [f"\u4ef6 {at} {'x' * 70}" for at in range(400)]
    answer = posted(client, VALIDATION, f"description,{','.join(titles)}\nISO 4032 M10 8\n")
    read, unread = told(answer)
    assert read == ["description"]
    assert list(unread) == [title[:80] for title in titles[: len(unread)]]
    assert len(unread) + int(answer.headers["Columns-Not-Listed"]) == 400
    assert all(len(value) < 4000 for value in answer.headers.values())


# Nothing known, titles that are mapped and not there


@pytest.mark.parametrize("form", ["json", NDJSON, CSV])
@pytest.mark.parametrize(("route", "query"), ROUTES)
def test_a_body_without_a_known_column_is_refused(
    client: FlaskClient, form: str, route: str, query: dict[str, str]
) -> None:
    row = {"Artikel": "A", "Kurztext": "ISO 4032 M10 8"}
    if form == "json":
        answer = client.post(route, json={"part_masters": [row], **({"change": CHANGE} if query else {})})
    else:
        lines = "Artikel;Kurztext\nA;ISO 4032 M10 8\n" if form == CSV else f"{json.dumps(row)}\n" * 3
        answer = client.post(route, data=lines.encode(), content_type=form, query_string=query)
    assert (answer.status_code, answer.json["code"]) == (422, "no_known_column")
    assert answer.json["nearest"][:2] == ["part_number", "description"]
    assert "'Kurztext' (nearest: description)" in answer.json["detail"]
    pointers = {"json": "/part_masters", NDJSON: "", CSV: "/columns"}
    assert [one["pointer"] for one in answer.json["errors"]] == [pointers[form]]


def test_a_later_part_of_a_catalogue_may_know_none(client: FlaskClient) -> None:
    answer = client.post(f"{VALIDATION}?first_row=7", data=b'{"colour": "red"}\n', content_type=NDJSON)
    assert told(answer) == ([], {"colour": None})


def test_a_page_instead_of_a_catalogue_is_refused(client: FlaskClient) -> None:
    answer = posted(client, VALIDATION, "<!DOCTYPE html>\n<html><body>Log in</body></html>\n" * 50)
    assert (answer.status_code, answer.json["code"]) == (422, "no_known_column")


@pytest.mark.parametrize(("route", "query"), ROUTES)
def test_a_mapped_title_that_the_file_has_not_is_refused(
    client: FlaskClient, route: str, query: dict[str, str]
) -> None:
    body = "Artikel;Text;Ma\u00df\nA;ISO 4032 M10 8;1\n"
    mapped = "Artikel:part_number,Texte:description"
    answer = posted(client, route, body, **query, columns=mapped)
    assert (answer.status_code, answer.json["code"]) == (422, "unknown_title")
    assert answer.json["errors"][0]["pointer"] == "/columns"
    assert answer.json["nearest"] == ["Text"]
    assert "'Artikel', 'Text', 'Ma\u00df'" in answer.json["detail"]
    # The title is there; read with another encoding it is not.
    mapped = "Ma\u00df:part_number,Text:description"
    assert posted(client, route, body.encode("cp1252"), **query, columns=mapped, encoding="cp850").status_code == 422
    read, unread = told(posted(client, route, body.encode("cp1252"), **query, columns=mapped))
    assert (read, unread) == (["Text", "Ma\u00df"], {"Artikel": "part_number"})


# Lines above the titles


@pytest.mark.parametrize(("route", "query"), ROUTES)
@pytest.mark.parametrize(
    ("above", "title"),
    [
        ("sep=;\n", "part_number;description"),
        ('"sep=;"\r\n', "part_number;description"),
        ("\n\nSEP=|\n\n", "part_number|description"),
        ("Schrauben GmbH\n", "part_number;description"),
        ("Schrauben GmbH;;\nStand: 30.11.2026;;\n\n", "part_number;description"),
        ("sep=;\nQuery 12, page 1\n", "part_number;description"),
        ("a,b,c,d\n" * 18, "part_number;description"),
        ("", '"part\nnumber";"description"'),
        ("Export\n", "Sach-Nr;Text"),
    ],
)
def test_titles_are_found_below_other_lines(
    client: FlaskClient, route: str, query: dict[str, str], above: str, title: str
) -> None:
    row = f"A1{'|' if '|' in title else ';'}ISO 4032 M10 8\n"
    mapped = {"columns": "Sach-Nr:part_number,Text:description"} if "Text" in title else {}
    answer = posted(client, route, f"{above}{title}\n{row}{row}", **query, **mapped)
    found = rows(answer)
    assert [(one["part_number"], one["designation"]) for one in found] == [("A1", "ISO 4032 - M10 - 8")] * 2
    assert int(answer.headers["Head-Lines"]) == len(f"{above}{title}\n".splitlines())


def test_a_row_that_holds_a_member_in_a_cell_is_no_header(client: FlaskClient) -> None:
    answer = posted(client, VALIDATION, "Artikel;Text;Art\nA;ISO 4032 M10 8;thread\nB;ISO 4032 M12 8;length\n")
    assert answer.json["code"] == "no_known_column"


def test_a_text_of_blank_lines_is_bounded_and_has_no_header(client: FlaskClient) -> None:
    answer = posted(client, VALIDATION, "\n" * 300_000)
    assert (answer.status_code, answer.json["code"]) == (422, "no_readings")
    assert len(rows(posted(client, VALIDATION, "\n" * 300_000 + f"part_number,description\n{ROW}\n"))) == 1
