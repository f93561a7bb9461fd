"""Units in the titles of columns: a figure is read in the unit that its title names, or the title is told.

Tensile load of M10 8.8: 46.4 kN at least (ISO 898-1:2013, Table 4); width across flats of M10: 16 mm (ISO 4014:2011,
Table 1). How plants title columns: common practice; `F / kN`: ISO 80000-1:2009, 7.1.
"""

from __future__ import annotations

import json
from typing import Any

import pytest
from flask.testing import FlaskClient

VALIDATION, IMPACT = "/v1/part-masters/validation", "/v1/part-masters/impact"
BOLT = "ISO 4014 M10x60 8.8"


def checked(
    client: FlaskClient, title: str, value: str, columns: str = "", route: str = VALIDATION, **query: str
) -> Any:
    """Post one bolt with a figure under a title, in CSV."""
    body = f"Artikel;description;{title}\nA;{BOLT};{value}\n"
    asked = {**query, "columns": f"Artikel:part_number,{columns}" if columns else "Artikel:part_number"}
    return client.post(route, data=body.encode(), content_type="text/csv", query_string=asked)


def codes(answer: Any) -> str:
    assert answer.status_code == 200, answer.json
    header, row = answer.data.decode().splitlines()[:2]
    return dict(zip(header.split(";"), row.split(";"), strict=False))["codes"]


@pytest.mark.parametrize(
    "title",
    [
        *("Zugkraft [kN]", "Zugkraft (kN)", "Zugkraft in kN", "Zugkraft kN", "Zugkraft / kN", "Zugkraft/kN"),
        *("Zugkraft_kN", "Zugkraft (min) [kN]", "Zugkraft (kN) min", "Zugkraft [ kN ]", "ZUGKRAFT [KN]"),
    ],
)
def test_a_mapped_title_counts_with_its_unit(client: FlaskClient, title: str) -> None:
    """46.4 kN are right; 46 400 kN are not."""
    mapped = f"{title}:tensile_load"
    assert codes(checked(client, title, "46,4", mapped)) == ""
    assert codes(checked(client, title, "46400", mapped)) == "mechanical-figure-wrong"
    # The member may say it too, in the same unit.
    assert codes(checked(client, title, "46,4", f"{title}:tensile_load [kN]")) == ""


@pytest.mark.parametrize("title", ["SW [in]", "SW (in)", 'SW "', "SW [Zoll]", "SW in", "SW inch"])
def test_inches_of_a_title_are_no_millimetres(client: FlaskClient, title: str) -> None:
    quoted = '"' + title.replace('"', '""') + '"'
    assert codes(checked(client, quoted, "16", f"{title}:width_across_flats")) == "dimension-outside-limits"
    assert codes(checked(client, quoted, "0,62", f"{title}:width_across_flats")) == ""


@pytest.mark.parametrize(
    "title", ["SW", "SW (min)", "SW (s)", "SW Soll", "SW (DIN)", "SW-Nr", "SW in mm", "SW (mm)", "s"]
)
def test_what_is_no_unit_leaves_the_unit_of_the_standard(client: FlaskClient, title: str) -> None:
    assert codes(checked(client, title, "16", f"{title}:width_across_flats")) == ""


@pytest.mark.parametrize(
    "title", ["Zugkraft [kp]", "Zugkraft (kp)", "Zugkraft in daN", "Zugkraft [foo]", "Zugkraft in t"]
)
def test_a_unit_that_is_not_converted_is_told_in_each_row(client: FlaskClient, title: str) -> None:
    assert codes(checked(client, title, "46400", f"{title}:tensile_load")) == "value-unreadable"


@pytest.mark.parametrize(
    ("title", "member"),
    [("Zugkraft [kN]", "tensile_load [N]"), ("SW (mm)", "width_across_flats [in]"), ("L in mm", "length [in]")],
)
@pytest.mark.parametrize(("route", "query"), [(VALIDATION, {}), (IMPACT, {"from": "DIN 933", "to": "ISO 4017"})])
def test_two_units_are_refused(client: FlaskClient, title: str, member: str, route: str, query: dict[str, str]) -> None:
    answer = checked(client, title, "16", f"{title}:{member}", route, **query)
    assert (answer.status_code, answer.json["errors"][0]["pointer"]) == (422, "/columns")
    assert "state one unit" in answer.json["detail"]


@pytest.mark.parametrize("title", ["tensile_load (kN)", "Tensile load (kN)", "tensile_load [kN]"])
def test_round_brackets_of_a_title_that_is_known_count_too(client: FlaskClient, title: str) -> None:
    assert codes(checked(client, title, "46,4")) == ""
    row = {"description": BOLT, title: 46400}
    (result,) = client.post(VALIDATION, json={"part_masters": [row]}).json["part_masters"]
    assert [one["code"] for one in result["findings"]] == ["mechanical-figure-wrong"]


@pytest.mark.parametrize("title", ["tensile_load (kp)", "tensile_load, kN", "tensile_load in kN"])
def test_a_title_with_another_unit_is_not_read_and_told(client: FlaskClient, title: str) -> None:
    unread = json.loads(checked(client, title, "46400").headers["Columns-Not-Read"])
    assert [one["title"] for one in unread] == [title]


@pytest.mark.parametrize("title", ["L [in]", "L (in)", "length [in]", "length (in)"])
def test_a_length_in_inches_is_one_for_the_impact_too(client: FlaskClient, title: str) -> None:
    """The title says what the cell may say: `2 in`. Two inches are not 2 mm."""

    def assessed(title: str, cell: str) -> str:
        body = f"description;{title}\nDIN 912 M8 12.9;{cell}\n"
        columns = {} if title.startswith("length") else {"columns": f"{title}:length"}
        query = {"from": "DIN 912", "to": "ISO 4762", **columns}
        answer = client.post(IMPACT, data=body.encode(), content_type="text/csv", query_string=query)
        assert answer.status_code == 200, answer.json
        return str(answer.data.decode())

    assert assessed(title, "2") == assessed("length", "2 in")
    assert assessed(title, "2") != assessed("length", "2")


def test_the_line_that_looks_like_titles_is_shown_not_the_company(client: FlaskClient) -> None:
    """Company and date above titles of one's own, and nothing mapped."""
    body = "Muster GmbH;;\nStand 2026-11-30\nArtikel;Benennung;Schl\u00fcsselweite\n4711;ISO 4014 M10x60 8.8;16\n"
    answer = client.post(VALIDATION, data=body.encode(), content_type="text/csv")
    assert answer.status_code == 422
    assert "'Artikel' (nearest: part_number), 'Benennung' (nearest: description)" in answer.json["detail"]
    assert "Muster" not in answer.json["detail"]
    misspelt = client.post(
        VALIDATION, data=body.encode(), content_type="text/csv", query_string={"columns": "Benenung:description"}
    )
    assert misspelt.json["type"].endswith("unknown_title") or "no title" in misspelt.json["detail"]
    assert "'Benennung'" in misspelt.json["detail"]
