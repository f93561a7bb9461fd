"""A member that a body names twice: the last value must not win in silence.

RFC 8259, clause 4: names within an object should be unique; what a receiver makes of a repeated one is unpredictable.
"""

import json

import pytest
from flask.testing import FlaskClient

LOT = '{"designation": "ISO 4014 - M10x60 - 8.8", "readings": {"length": [60.0], "width_across_flats": [15.9]}}'
BODIES = {
    "top level": (
        LOT.replace('{"des', '{"lot_size": 9, "lot_size": 900, "des'),
        "/lot_size",
        "1 and 2",
    ),
    "readings": (LOT.replace("[15.9]", '[15.9], "length": [60.1]'), "/readings/length", "1 and 3"),
    "a column": (LOT.replace("[60.0]", '{"values": [99], "values": [60.0]}'), "/readings/length/values", "1 and 2"),
    "beside values": (
        LOT.replace("[60.0]", '{"values": [60.0], "decision_rule": {"rule": "simple", "rule": "guarded"}}'),
        "/readings/length/decision_rule/rule",
        "1 and 2",
    ),
    "a requirement": (
        LOT.replace('"read', '"requirements": {"length": {"min": 59, "unit": "mm", "min": 1}}, "read'),
        "/requirements/length/min",
        "1 and 3",
    ),
    "escaped": (LOT.replace("[15.9]", '[15.9], "\\u006cength": [60.1]'), "/readings/length", "1 and 3"),
    "long": (LOT.replace("[15.9]", json.dumps([15.9] * 2000) + ', "length": [1]'), "/readings/length", "1 and 3"),
    "compact": (
        '{"designation":"ISO 4014 - M10x60 - 8.8","readings":{"length":[1],"length":[60]}}',
        "/readings/length",
        "1 and 2",
    ),
}


@pytest.mark.parametrize("case", BODIES)
def test_a_lot_names_each_member_once(case: str, client: FlaskClient) -> None:
    body, pointer, places = BODIES[case]
    answer = client.post("/v1/conformance", data=body, content_type="application/json")
    assert (answer.status_code, answer.json["code"]) == (422, "repeated_member")
    assert [error["pointer"] for error in answer.json["errors"]] == [pointer]
    assert f"as members {places}" in answer.json["detail"]
    assert pointer.rpartition("/")[2] in answer.json["detail"]


def test_a_line_of_a_stream_too(client: FlaskClient) -> None:
    lines = '{"designation": "ISO 4014 - M10x60 - 8.8"}\n{"readings": {"length": [60], "length": [99]}}\n'
    answer = client.post("/v1/conformance", data=lines, content_type="application/x-ndjson")
    assert answer.json["code"] == "repeated_member"
    assert "line 2" in answer.json["detail"]


@pytest.mark.parametrize(
    ("path", "body", "pointer"),
    [
        ("capability", '{"values": [1, 2, 3], "min": 0, "max": 4, "values": [2, 2, 3]}', "/values"),
        ("control-chart", '{"values": [1, 2, 3], "rules": ["x"], "rules": ["y"]}', "/rules"),
        ("histogram", '{"values": [1, 2, 3], "max": 4, "max": 5}', "/max"),
        ("narrow-limits", '{"min": 1, "max": 2, "min": 1.5}', "/min"),
        ("trend", '{"values": [1, 2, 3], "max": 4, "max": 5}', "/max"),
        ("sampling-plan/switching", '{"lots": [{"nonconforming": 3, "nonconforming": 0}]}', "/lots/0/nonconforming"),
        ("specification", '{"designation": "ISO 4032 - M10 - 8", "designation": "x"}', "/designation"),
        (
            "gauge-sizes/check",
            '{"gauges": [{"designation": "M10-6g", "gauge": "g", "measured": {"value": 1, "unit": "mm", "value": 2}}]}',
            "/gauges/0/measured/value",
        ),
        (
            "conformance/replay",
            '{"request": {"readings": {"a": [1], "a": [2]}, "designation": "M"}}',
            "/request/readings/a",
        ),
        ("part-masters/validation", '{"part_masters": [], "part_masters": []}', "/part_masters"),
        ("part-masters/impact", '{"change": {"from": "a", "to": "b", "to": "c"}, "part_masters": []}', "/change/to"),
    ],
)
def test_every_other_body(path: str, body: str, pointer: str, client: FlaskClient) -> None:
    answer = client.post(f"/v1/{path}", data=body, content_type="application/json")
    assert answer.json["code"] == "repeated_member", answer.json
    assert answer.json["errors"][0]["pointer"] == pointer


def test_a_colon_in_a_text_is_no_member(client: FlaskClient) -> None:
    body = LOT.replace("[60.0]", '{"values": [60.0], "measured_at": "2026-03-02T10:15:00Z"}')
    assert client.post("/v1/conformance", data=body, content_type="application/json").status_code == 200


def test_nesting_beyond_measure_is_refused(client: FlaskClient) -> None:
    body = LOT.replace('"read', '"requirements": ' + '{"a":' * 5000 + "1" + "}" * 5000 + ', "read')
    answer = client.post("/v1/conformance", data=body, content_type="application/json")
    assert answer.json["code"] == "not_json"


ROW = '{"part_number": "P1", "description": "ISO 4014 M10x60 8.8", "thread": "M10", "thread": "M12"}'


@pytest.mark.parametrize("form", ["json", "ndjson"])
def test_a_row_comes_back_with_a_finding(form: str, client: FlaskClient) -> None:
    rows = [ROW, ROW.replace("M12", "M10")]
    kind, body = (
        ("json", f'{{"part_masters": [{", ".join(rows)}]}}') if form == "json" else ("x-ndjson", "\n".join(rows))
    )
    answer = client.post("/v1/part-masters/validation", data=body, content_type=f"application/{kind}")
    row, harmless = answer.json["part_masters"] if form == "json" else map(json.loads, answer.data.splitlines()[:2])
    found = next(one for one in row["findings"] if one["member"] == "thread" and "twice" in one["detail"])
    assert (found["code"], found["severity"], found["given"]) == ("attribute-contradicts-description", "error", "M12")
    assert "'M10'" in found["detail"]
    assert row["part_number"] == "P1"
    assert not any("twice" in one["detail"] for one in harmless["findings"])


def test_columns_of_one_title(client: FlaskClient) -> None:
    text = "part_number,description,Thread,thread\nP1,ISO 4014 M10x60 8.8,M12,M10\nP2,ISO 4014 M10x60 8.8,M10,\n"
    answer = client.post("/v1/part-masters/validation", data=text, content_type="text/csv")
    first, second = answer.text.splitlines()[1:3]
    assert "is given twice in the row" in first
    assert "is given twice in the row" not in second
    assert "ISO 4014 - M10x60 - 8.8" in second


def test_a_figure_in_two_units_keeps_the_unit_of_its_own_column(client: FlaskClient) -> None:
    """ISO 898-1:2013, Table 4: M10 8.8 breaks at 46 400 N or more; the second column, in lbf, is empty."""
    text = "part_number,designation,tensile_load [N],tensile_load [lbf]\nP1,ISO 4014 - M10x60 - 8.8,46400,\n"
    answer = client.post("/v1/part-masters/validation", data=text, content_type="text/csv")
    assert answer.text.splitlines()[1].startswith("P1,0,valid")


def test_a_figure_that_names_its_value_twice_is_none(client: FlaskClient) -> None:
    row = '{"designation": "ISO 4014 - M10x60 - 8.8", "tensile_load": {"value": 1, "unit": "N", "value": 46400}}'
    answer = client.post("/v1/part-masters/validation", data=row, content_type="application/x-ndjson")
    assert [one["code"] for one in json.loads(answer.data.splitlines()[0])["findings"]] == ["value-unreadable"]


@pytest.mark.parametrize("form", ["application/x-ndjson", "text/csv"])
def test_the_impact_on_a_row_that_contradicts_itself_is_not_judged(form: str, client: FlaskClient) -> None:
    title, cells = "part_number,designation,thread,thread", "P1,ISO 4014 - M10x60 - 8.8,M10,M12"
    text = ROW if form != "text/csv" else f"{title}\n{cells}\n"
    query = {"from": "ISO 4014", "to": "ISO 4016"}
    answer = client.post("/v1/part-masters/impact", query_string=query, data=text, content_type=form)
    assert answer.status_code == 200, answer.text
    assert "not_judged" in answer.text
    assert "P1" in answer.text
    assert "given twice" in answer.text


@pytest.mark.parametrize(
    "row",
    [
        '{"description": "ISO 4014: M10x60 8.8", "thread": "M10", "thread": "M12"}',
        '{"description": "ISO 4014 \\u003a M10x60 8.8", "thread": "M10", "thread": "M12"}',
        '{"description": "a:b", "description": "ISO 4014 M10x60 8.8"}',
        '{"thread": "M12", "tensile_load": {"value": 1, "unit": "N"}, "thread": "M10"}',
        '{"thread": {"a:b": [1, {"c": ":"}]}, "thread": "M10"}',
    ],
)
def test_colons_and_objects_in_a_row_hide_nothing(row: str, client: FlaskClient) -> None:
    answer = client.post("/v1/part-masters/validation", data=row, content_type="application/x-ndjson")
    found = json.loads(answer.data.splitlines()[0])["findings"]
    assert any("is given twice" in one["detail"] for one in found)


@pytest.mark.parametrize("form", ["json", "x-ndjson"])
def test_a_row_nested_beyond_measure_comes_back(form: str, client: FlaskClient) -> None:
    row = '{"part_number": "P1", "length": ' + '{"a":' * 700 + "1" + "}" * 700 + "}"
    body = f'{{"part_masters": [{row}]}}' if form == "json" else row
    answer = client.post("/v1/part-masters/validation", data=body, content_type=f"application/{form}")
    assert answer.status_code == 200
    assert b"findings" in answer.data
