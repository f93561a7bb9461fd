"""All pages of a list, lots in blocks, drawings of gauges, limits of a characteristic, against a running service."""

from __future__ import annotations

import json
import threading
from http.server import BaseHTTPRequestHandler, HTTPServer

import pyarrow
import pytest

from boltwright import Client, Column
from boltwright.errors import MemberError, NotFoundError, ReadingsError, UnexpectedAnswer

BOLT = "ISO 4014 - M10x60 - 8.8"


def test_wear_and_narrow_limits_take_the_limits_of_a_characteristic(client: Client) -> None:
    """ISO 965-2:1998, Table 1, M10: d2 8.862 to 8.994."""
    of = {"designation": "M10-6g", "characteristic": "thread_pitch_diameter"}
    worn = client.trend([8.931, 8.933, 8.934, 8.937, 8.938, 8.941, 8.943, 8.944], **of)
    assert worn.limit == 8.994
    assert worn.pieces_until_risk is not None
    assert worn.pieces_until_limit is not None
    assert worn.pieces_until_risk < worn.pieces_until_limit
    zones = client.narrow_limits([8.93], process_mean=8.928, process_standard_deviation=0.011, **of)
    assert (zones.zones.min, zones.zones.max) == (8.862, 8.994)
    assert zones.chances is not None
    assert zones.chances.target_zone > 0.99


def test_all_pages_of_a_list(client: Client) -> None:
    """Every thread once, in the order of the pages."""
    pages = client.threads(system="ISO metric", limit=200)
    every = list(client.threads_iter(system="ISO metric", limit=60))
    assert len(every) == pages.total
    assert tuple(every[:60]) == pages.threads[:60]
    assert len({one.designation for one in every}) == len(every)


def test_the_drawing_of_gauges(client: Client) -> None:
    assert client.gauge_sizes_drawing("M10-6g").svg.startswith("<svg")
    with pytest.raises(NotFoundError):
        client.gauge_sizes_drawing("M10x1.3-6g")


def test_a_lot_in_blocks_gets_the_verdict_of_the_whole(client: Client) -> None:
    flats = [15.80 + 0.01 * (at % 15) for at in range(50)] + [16.01]
    blocks = ({"width_across_flats": [round(one, 2) for one in flats[at : at + 20]]} for at in range(0, 51, 20))
    found = client.conformance_stream(BOLT, blocks, lot_size=5000, decision_rule="simple")
    whole = client.conformance(BOLT, {"width_across_flats": [round(one, 2) for one in flats]}, lot_size=5000)
    one, other = (answer.characteristics["width_across_flats"] for answer in (found, whole))
    assert (one.verdict, one.count, one.nonconforming_pieces) == ("nonconforming", 51, (50,))
    assert (one.verdict, one.count, one.nonconforming_pieces) == (
        other.verdict,
        other.count,
        other.nonconforming_pieces,
    )
    assert (found.verdict, found.reasons) == (whole.verdict, whole.reasons)
    with pytest.raises(ReadingsError, match="line 2"):
        client.conformance_stream(BOLT, [{"height": [1.0]}])
    with pytest.raises(ValueError, match="no reading"):
        client.conformance_stream(BOLT, [{"length": [float("nan")]}])


def test_a_stream_is_tried_again_from_its_first_line() -> None:
    """A generator can be read once only; the second try carries all lines all the same."""
    heard: list[bytes] = []

    class Refusing(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            heard.append(self.rfile.read(int(self.headers["Content-Length"])))
            self.send_response(503 if len(heard) == 1 else 418)
            self.send_header("Content-Length", "0")
            self.end_headers()

        def log_message(self, *_: object) -> None:
            pass

    with HTTPServer(("127.0.0.1", 0), Refusing) as server:
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        with Client(f"http://127.0.0.1:{server.server_port}") as client, pytest.raises(UnexpectedAnswer):
            client.conformance_stream("M10-6g", ({"length": [float(at)]} for at in range(3)))
        server.shutdown()
        thread.join()
    assert len(heard) == 2
    assert heard[0] == heard[1]
    assert [json.loads(line).get("readings") for line in heard[0].splitlines()][1:] == [
        {"length": [float(at)]} for at in range(3)
    ]


def test_an_arrow_table_gets_the_verdict_of_its_columns(client: Client) -> None:
    field = pyarrow.field("length", pyarrow.float64(), metadata={"unit": "mm", "expanded_uncertainty": "0.02"})
    schema = pyarrow.schema([field, pyarrow.field("marking", pyarrow.bool_())])
    table = pyarrow.table([[60.1, None, 60.7], [True, True, True]], schema=schema)
    found = client.conformance_arrow(BOLT, table, lot_size=5000)
    columns = {"length": Column([60.1, None, 60.7], unit="mm", expanded_uncertainty=0.02), "marking": [True] * 3}
    assert found.raw == client.conformance(BOLT, columns, lot_size=5000).raw
    assert found.characteristics["length"].nonconforming_pieces == (2,)
    with pytest.raises(MemberError, match="float64"):
        client.conformance_arrow(BOLT, pyarrow.table({"length": pyarrow.array([60.1], pyarrow.float32())}))
