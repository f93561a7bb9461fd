"""Drawings through the SDK, against a running service and with fake answers."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from pathlib import Path

import pytest
import responses
from drawn import Drawing as Drawn

from boltwright import Client, Column, Drawing
from boltwright.errors import MemberError, NotCoveredError, UnexpectedAnswer

BOLT = "ISO 4014 - M10x60 - 8.8"
FLATS = [15.84, 15.86, 15.85, 15.87, 15.85, 15.86, 15.84, 15.99]


def test_a_control_chart(client: Client, tmp_path: Path) -> None:
    drawing = client.control_chart_drawing(FLATS, chart="individuals", title="Width across flats", unit="mm")
    assert "Single values, mm" in Drawn(drawing.svg).lettering()
    saved = drawing.save(tmp_path / "chart.svg")
    assert ElementTree.parse(saved).getroot().tag.endswith("svg")
    assert drawing._repr_svg_() == drawing.svg
    assert "svg" not in repr(drawing)


def test_a_capability_and_a_histogram_take_the_same_limits(client: Client) -> None:
    of = {"designation": BOLT, "characteristic": "width_across_flats"}
    for drawing in (client.capability_drawing(FLATS, **of), client.histogram_drawing(FLATS, **of)):  # type: ignore[arg-type]
        assert "limits: 15.73 to 16.00 mm" in Drawn(drawing.svg).lettering()
    found = client.histogram(FLATS, min=15.73, max=16)
    assert sum(found.counts) == found.count == 8
    assert found.limits is not None
    assert found.limits.max == 16


def test_the_drawing_of_a_part(client: Client) -> None:
    assert "Drawing" in repr(client.specification_drawing(BOLT))
    assert client.specification_drawing(BOLT, view="thread") != client.specification_drawing(BOLT)
    with pytest.raises(NotCoveredError):
        client.specification_drawing("ISO 7089 - 10 - 200 HV", view="thread")


def test_the_picture_of_a_verdict_shows_the_guard_band(client: Client) -> None:
    """ISO 14253-1:2017, U = 0.02: g = 1.65 x 0.01, so that 15.7465 to 15.9835 conform."""
    readings = {
        "width_across_flats": Column([*FLATS, None], expanded_uncertainty=0.02, decision_rule="guarded"),
        "length": {"values": [2.36] * 9, "unit": "in"},
        "thread_go_gauge": [True] * 9,
    }
    found = client.conformance(BOLT, readings)
    said = Drawn(client.conformance_drawing(found, readings, "width_across_flats").svg).lettering()
    assert "acceptance limits: 15.7465 to 15.9835 mm" in said
    assert "8 readings" in said
    said = Drawn(client.conformance_drawing(found, readings, "length").svg).lettering()
    assert "acceptance" not in said
    assert "2.3" in said
    with pytest.raises(ValueError, match="not measured"):
        client.conformance_drawing(found, readings, "thread_go_gauge")
    with pytest.raises(ValueError, match="was not judged"):
        client.conformance_drawing(found, readings, "head_height")


def test_refusals_are_those_of_the_resource(client: Client) -> None:
    with pytest.raises(MemberError) as refused:
        client.control_chart_drawing([1.0, 2.0], subgroup_size=26)
    assert refused.value.errors[0].pointer == "/subgroup_size"


@responses.activate
def test_a_service_that_cannot_draw_is_named() -> None:
    responses.post("http://bolts.test/v1/histogram", json={"count": 1})
    with Client("http://bolts.test") as client, pytest.raises(UnexpectedAnswer, match="no drawing"):
        client.histogram_drawing([1.0])


@responses.activate
def test_a_drawing_is_asked_for_by_its_media_type() -> None:
    responses.post("http://bolts.test/v1/histogram", body="<svg/>", content_type="image/svg+xml; charset=utf-8")
    with Client("http://bolts.test") as client:
        assert client.histogram_drawing([1.0]) == Drawing("<svg/>")
    assert responses.calls[0].request.headers["Accept"] == "image/svg+xml"
