"""POST /v1/part-masters/validation.

Figures: ISO 4014:2011, Table 1; ISO 898-1:2013, Table 4; pairing: ISO 898-2:2012, Table 2.
"""

import csv
import gzip
import io
import json

import pytest
from flask.testing import FlaskClient

URL = "/v1/part-masters/validation"
TITLES = "part_number;description;width across flats;tensile_load [lbf]\r\n"


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    from boltwright_server.web.app import create_app

    return create_app().test_client()


def rows(client: FlaskClient, *given: object) -> list[dict]:
    answer = client.post(URL, json={"part_masters": list(given)})
    assert answer.status_code == 200
    assert answer.json["summary"]["rows"] == len(given) == len(answer.json["part_masters"])
    return answer.json["part_masters"]


def codes(row: dict) -> set[str]:
    return {finding["code"] for finding in row["findings"]}


@pytest.mark.parametrize(
    ("text", "designation"),
    [
        ("HEX BOLT M10X60 8.8 ZN ISO4014", "ISO 4014 - M10x60 - 8.8"),
        ("ISO 4014 - M10×60 - 8,8", "ISO 4014 - M10x60 - 8.8"),
        ("Sechskantschraube M10×60 DIN EN ISO 4014 8.8 feuerverzinkt", "ISO 4014 - M10x60 - 8.8 - tZn"),
        ("SKT HD CAP M8-1.25 X 30 12.9", "ISO 4762 - M8x30 - 12.9"),
        ("ISO4032 M10 8", "ISO 4032 - M10 - 8"),
        ("HEX FULL THREAD SCREW M8X20 8.8", "ISO 4017 - M8x20 - 8.8"),
    ],
)
def test_typed_descriptions_get_the_canonical_designation(client: FlaskClient, text: str, designation: str) -> None:
    (row,) = rows(client, {"description": text})
    assert row["designation"] == designation


def test_where_no_standard_is_meant_the_candidates_stand_among_the_alternatives(client: FlaskClient) -> None:
    (row,) = rows(client, {"description": "VIS H M10x40 8.8"})
    assert row["designation"] is None
    assert row["alternatives"] == ["ISO 4014 - M10x40 - 8.8", "ISO 4017 - M10x40 - 8.8"]


def test_a_former_national_standard_keeps_its_own_name(client: FlaskClient) -> None:
    (row,) = rows(client, {"description": "DIN 933 M10x40 8.8"})
    assert row["designation"] == "DIN 933 - M10x40 - 8.8"
    assert "look-alike-standard" in codes(row)
    assert row["status"] == "questionable"


@pytest.mark.parametrize(
    ("member", "value", "code"),
    [
        ("width_across_flats", "17", "dimension-outside-limits"),
        ("width_across_flats", "16,00", None),
        ("width_across_flats", 15.73, None),
        ("head_height", "0.252", "unit-mix-up"),
        ("tensile_load", 46400, None),
        ("tensile_load", {"value": 46.4, "unit": "kN"}, None),
        ("tensile_load", 44000, "mechanical-figure-wrong"),
        ("tensile_load", "46.4", "unit-mix-up"),
        ("hardness_core", 340, "mechanical-figure-wrong"),
        ("width_across_flats", "about 16", "value-unreadable"),
        ("thread", "M12", "attribute-contradicts-description"),
        ("property_class", "8.7", "property-class-unknown"),
        ("mates_with", "ISO 4032 - M10 - 5", "pair-not-permitted"),
        ("mates_with", "ISO 4032 - M10 - 8", None),
    ],
)
def test_a_stored_figure_is_held_against_the_standard(
    client: FlaskClient, member: str, value: object, code: str | None
) -> None:
    given = {"standard": "ISO 4014", "thread": "M10", "length": "60", "property_class": "8.8", member: value}
    if member in ("thread", "property_class"):
        given["description"] = "ISO 4014 M10x60 8.8" if member == "thread" else ""
    (row,) = rows(client, given)
    assert codes(row) == ({code} if code else set()) or (code in codes(row) and code is not None)


def test_the_later_of_two_equal_rows_names_the_first(client: FlaskClient) -> None:
    first, other, same, coated = rows(
        client,
        {"part_number": "A", "description": "ISO 4014 M10x60 8.8"},
        {"part_number": "B", "description": "HEX BOLT ISO4014 M10X60 8.8"},
        {"part_number": "A", "description": "ISO 4032 M10 8"},
        {"part_number": "C", "description": "ISO 4014 M10x60 8.8 ZN"},
    )
    assert codes(first) == set() == codes(coated)
    assert codes(other) == {"duplicate-requirement"}
    assert "part A" in other["findings"][0]["detail"]
    assert codes(same) == {"duplicate-part-number"}


def test_whatever_a_row_holds_it_comes_back(client: FlaskClient) -> None:
    back = rows(client, 5, None, {}, [], {"description": "x" * 100_000}, {"description": "ISO 4032 M10 8"})
    assert [row["status"] for row in back] == ["unreadable"] * 5 + ["valid"]
    assert "cell-too-long" in codes(back[4])


def test_ndjson_gives_a_line_for_each_line_and_the_summary_last(client: FlaskClient) -> None:
    text = b'{"part_number":"A","description":"ISO 4032 M10 8"}\n\nnonsense\n{"part_number":"B\xff"}\n'
    for body, headers in ((text, {}), (gzip.compress(text, mtime=0), {"Content-Encoding": "gzip"})):
        answer = client.post(URL, data=body, content_type="application/x-ndjson", headers=headers)
        lines = [json.loads(line) for line in answer.get_data().splitlines()]
        assert [line["status"] for line in lines[:-1]] == ["valid", "unreadable", "unreadable"]
        assert lines[-1]["summary"]["rows"] == 3


def test_a_gzip_body_that_is_cut_short_is_refused_cleanly(client: FlaskClient) -> None:
    body = gzip.compress(b'{"part_number":"A"}\n' * 1000, mtime=0)[:-12]
    answer = client.post(URL, data=body, content_type="application/x-ndjson", headers={"Content-Encoding": "gzip"})
    assert (answer.status_code, answer.json["code"]) == (400, "body_not_whole")


def test_csv_loses_no_row_to_stray_quotes_blank_lines_or_missing_cells(client: FlaskClient) -> None:
    text = (
        TITLES
        + 'A1;"HEX BOLT; M10X60 8.8 ISO4014";15,8;10431\r\n'
        + "\r\n;;;\r\n"
        + 'A2;"ISO 4032 M10 8 stray;16;\r\n'
        + 'A3;1/2" BOLT;1;2;3\r\n'
        + 'A4;"two\nlines ISO 4032 M12 8";18;\r\n'
    )
    answer = client.post(URL, data=text.encode(), content_type="text/csv")
    back = list(csv.DictReader(io.StringIO(answer.get_data(as_text=True), newline=""), delimiter=";"))
    assert [row["part_number"] for row in back] == ["A1", "", "A2", "A3", "A4"]
    assert [row["status"] for row in back] == ["valid", "unreadable", "valid", "invalid", "valid"]
    assert "cells-do-not-fit" in back[3]["codes"].split()
    assert all(isinstance(json.loads(row["findings"]), list) for row in back)


def test_csv_in_another_encoding_and_with_other_titles(client: FlaskClient) -> None:
    text = "Artikel,Text\nA1,Sechskantschraube M10x60 ISO 4014 8.8 für Gehäuse\n".encode("cp1252")
    answer = client.post(
        URL, data=text, content_type="text/csv", query_string={"columns": "Artikel:part_number,Text:description"}
    )
    assert "ISO 4014 - M10x60 - 8.8" in answer.get_data(as_text=True)
    assert "GEHAUSE" in answer.get_data(as_text=True)


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ("11.7", None),
        (11.7, None),
        ("1.17", "unit-mix-up"),
        ({"value": 11700, "unit": "g"}, None),
        (30, "mass-implausible"),
    ],
)
def test_a_mass_far_from_the_catalogues_is_told(client: FlaskClient, given: object, code: str | None) -> None:
    """1000 hexagon nuts M10 of the former DIN 934 weigh 11.6 kg in trade catalogues (from memory); ISO 4032 is near."""
    (row,) = rows(client, {"description": "ISO 4032 M10 8", "mass_per_1000": given})
    assert codes(row) == ({code} if code else set())


@pytest.mark.parametrize(
    ("text", "words"),
    [("DIN 934 M10 8", "17 mm against 16"), ("DIN 912 M8x30 12.9", "no differing nominal dimension")],
)
def test_a_look_alike_is_told_by_what_differs_at_that_size(client: FlaskClient, text: str, words: str) -> None:
    (row,) = rows(client, {"description": text})
    (finding,) = [one for one in row["findings"] if one["code"] == "look-alike-standard"]
    assert words in finding["detail"]


@pytest.mark.parametrize(("flats", "code"), [("0.745", None), ("0.700", "dimension-outside-limits")])
def test_inch_figures_are_held_against_asme_b18(client: FlaskClient, flats: str, code: str | None) -> None:
    """ASME B18.2.1, hex cap screw 1/2: width across flats 0.736 to 0.750 in."""
    (row,) = rows(client, {"description": "1/2-13X2 HCS GR5", "width_across_flats": flats})
    assert row["designation"] == "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"
    assert codes(row) == ({code} if code else set())


@pytest.mark.parametrize("form", ["application/json", "application/x-ndjson", "text/csv"])
def test_a_part_of_a_catalogue_counts_on_and_carries_what_each_row_asks_for(client: FlaskClient, form: str) -> None:
    """The same bolt twice: nothing is called a repeat, whoever joins the parts finds it by `requirement`."""
    given = [
        {"part_number": "A", "description": "ISO 4014 M10x60 8.8"},
        {"part_number": "B", "description": "M10X60 8.8 ISO4014"},
        {"part_number": "C", "description": "nothing at all"},
    ]
    body = {
        "application/json": json.dumps({"part_masters": given}),
        "application/x-ndjson": "\n".join(map(json.dumps, given)),
        "text/csv": "part_number,description\n" + "\n".join(",".join(row.values()) for row in given),
    }[form]
    answer = client.post(URL, data=body, content_type=form, query_string={"first_row": 4000})
    text = answer.get_data(as_text=True)
    found = {
        "application/json": lambda: json.loads(text)["part_masters"],
        "application/x-ndjson": lambda: [json.loads(line) for line in text.splitlines()][:-1],
        "text/csv": lambda: list(csv.DictReader(io.StringIO(text))),
    }[form]()
    assert [int(row["row"]) for row in found] == [4000, 4001, 4002]
    assert "duplicate-requirement" not in text
    first, second, third = (row["requirement"] for row in found)
    assert first == second != ""
    assert third == ""


def test_a_first_row_below_zero_is_refused(client: FlaskClient) -> None:
    answer = client.post(URL, json={"part_masters": []}, query_string={"first_row": -1})
    assert answer.status_code == 422
    assert answer.json["errors"][0]["pointer"] == "/first_row"


@pytest.mark.parametrize(
    ("text", "length"),
    [("1/2-13 X 5 1/4 HCS GR5", "x5-1/4"), ("1/2-13 X 5 3/4 HCS GR5", "x5-3/4"), ("1/2-13 X 5 HCS GR5", "x5 ")],
)
def test_lengths_of_whole_inches_and_a_fraction_are_read_in_full(client: FlaskClient, text: str, length: str) -> None:
    for row in rows(client, {"description": "1/2-13 X 2 HCS GR5"}, {"description": text})[1:]:
        assert length in f"{row['designation']} "
