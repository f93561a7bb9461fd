"""What is judged, and what is said not to be, is the same in JSON, NDJSON and CSV."""

import csv
import io
import json

import pytest
from flask.testing import FlaskClient

URL = "/v1/part-masters/validation"
#: Rows with one code that each must have; what they rest on stands beside the unit tests of part masters.
ROWS = [
    ({"description": "DIN 931 M12x80 8.8", "tensile_load": "44000"}, "mechanical-figure-wrong"),
    ({"description": "DIN 609 M12x80 8.8", "head_height": "19"}, "figures-not-judged"),
    ({"description": "ISO 4032 M12 8", "length": "60"}, "figures-not-judged"),
    ({"description": "DIN 912 M8x30 12.9 galv. verzinkt"}, "hydrogen-embrittlement"),
    ({"description": "HEX BOLT 1/2-13x2 GR 8", "coating": "Fe/Zn25"}, "coating-without-room"),
    ({"description": "BS 3692 BOLT M12x80 8.8", "coating": "tZn"}, "coating-not-judged"),
    ({"description": "ISO 4014 M12x80 10.9", "mates_with": "DIN 934 M12 8"}, "pair-not-permitted"),
    ({"description": "ISO 4014 M12x80 A2-70", "mates_with": "ISO 4032 M12 A4-80"}, "pair-not-judged"),
    ({"description": "ISO 4014:2022 M12x80 8.8"}, "edition-not-held"),
    ({"description": "ISO 4014:2011 M12x80 8.8"}, "edition-superseded"),
    ({"description": "ISO 4014 M12 8.8", "length": "3.15"}, "unit-mix-up"),
]


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    from boltwright_server.web.app import create_app

    return create_app().test_client()


def test_every_form_of_a_catalogue_tells_the_same(client: FlaskClient) -> None:
    rows = [{**row, "part_number": f"A{number}"} for number, (row, _) in enumerate(ROWS)]
    lines = "".join(json.dumps(row) + "\n" for row in rows)
    table = io.StringIO()
    writer = csv.DictWriter(table, sorted({name for row in rows for name in row}))
    writer.writeheader()
    writer.writerows(rows)
    by_json = client.post(URL, json={"part_masters": rows}).json["part_masters"]
    by_lines = client.post(URL, data=lines, content_type="application/x-ndjson").get_data(as_text=True).splitlines()
    by_table = client.post(URL, data=table.getvalue(), content_type="text/csv").get_data(as_text=True)
    told = [[one["code"] for one in row["findings"]] for row in by_json]
    assert [code for codes, (_, code) in zip(told, ROWS, strict=True) if code not in codes] == []
    assert told == [[one["code"] for one in json.loads(line)["findings"]] for line in by_lines[: len(rows)]]
    assert told == [row["codes"].split() for row in csv.DictReader(io.StringIO(by_table))]
    severities = [[one["severity"] for one in row["findings"]] for row in by_json]
    assert severities == [
        [one["severity"] for one in json.loads(row["findings"])] for row in csv.DictReader(io.StringIO(by_table))
    ]
