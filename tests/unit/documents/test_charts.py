"""Charts of a process: whatever the readings, no text meets another, is struck through, or leaves the paper."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import pairwise

import numpy as np
import pytest
from drawn import SVG, Drawing
from hypothesis import given, settings
from hypothesis import strategies as st

from boltwright_server.documents.charts import Picture, control_chart_drawing, histogram_drawing
from boltwright_server.documents.charts.lettering import folded, room_of
from boltwright_server.documents.charts.scale import Scale, spread_out
from boltwright_server.statistics import RULE_SETS, RULES, Given, control_chart, histogram

READINGS = st.lists(
    st.floats(-1e6, 1e6, allow_nan=False) | st.integers(-50, 50).map(lambda n: 8.9 + n / 1000),
    min_size=12,
    max_size=150,
)
TITLES = st.none() | st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), min_size=1, max_size=100)
KINDS = {"mean_and_range": 4, "mean_and_standard_deviation": 3, "individuals": 1}


def is_readable(drawn: Drawing) -> None:
    assert drawn.clashes() == []
    assert drawn.outside() == []
    assert drawn.struck_through() == []


@settings(max_examples=60, deadline=None)
@given(values=READINGS, kind=st.sampled_from(sorted(KINDS)), title=TITLES, unit=st.sampled_from([None, "mm", "N.m"]))
def test_any_control_chart_is_readable(values: list[float], kind: str, title: str | None, unit: str | None) -> None:
    found = control_chart(np.array(values), kind, KINDS[kind], list(RULES))
    is_readable(Drawing(control_chart_drawing(found, title, unit)))


@settings(max_examples=60, deadline=None)
@given(values=READINGS, limits=st.tuples(st.none() | st.integers(-99, 0), st.none() | st.integers(1, 99)))
def test_any_histogram_is_readable(values: list[float], limits: tuple[int | None, int | None]) -> None:
    found = histogram(np.array(values))
    low, high = (None if one is None else Decimal(one) for one in limits)
    inner = (None if low is None else low + Decimal("0.125"), None if high is None else high - Decimal("0.125"))
    picture = Picture(found, float(np.mean(values)), "Width", "mm", (low, high), inner, ("Cp 1.33", "Cpk 1.20"))
    is_readable(Drawing(histogram_drawing(picture)))


@pytest.mark.parametrize("value", [0.0, 0.1, -5.0, 1e30])
def test_equal_readings_are_drawn_too(value: float) -> None:
    values = np.full(12, value)
    chart = control_chart(values, "mean_and_range", 3, RULE_SETS["ISO 8258"])
    assert chart.in_control, "the same piece again and again lies on the centre line"
    is_readable(Drawing(control_chart_drawing(chart)))
    is_readable(Drawing(histogram_drawing(Picture(histogram(values), value))))


def test_a_point_outside_is_a_diamond_and_a_run_a_ring_and_a_bar() -> None:
    """ISO 7870-2: a point outside the limits, and seven in a row on one side, which end at the last of them."""
    values = np.array([0.5, -0.5] * 10 + [0.2] * 7 + [-0.4, 5.0, -0.4])
    found = control_chart(values, "individuals", 1, RULE_SETS["ISO 7870-2"])
    drawn = Drawing(control_chart_drawing(found, "Test"))
    signals = {(one.rule, one.chart): one.points for one in found.signals}
    assert signals["outside_limits", "individuals"] == (28,)
    assert signals["seven_same_side", "individuals"] == (26,)
    # Two moving ranges span the point outside; each shape stands once more in the legend.
    diamonds, rings = (_count(drawn, kind) for kind in ("outside", "run-end"))
    assert (diamonds, rings) == (1 + 2 + 2, 1 + 1)
    assert _count(drawn, "run") == 1
    assert "points outside" not in drawn.lettering()
    assert "individual" not in drawn.lettering()
    assert "(single values): 29" in drawn.lettering()
    assert "(single values): 27" in drawn.lettering()
    assert "(moving ranges of two): 29, 30" in drawn.lettering(), "a moving range bears the number of its later value"


def test_only_the_last_hundred_points_are_drawn_and_that_is_said() -> None:
    values = np.tile([1.0, 2.0, 1.5], 100)
    drawn = Drawing(control_chart_drawing(control_chart(values, "individuals", 1, ["outside_limits"])))
    assert len(drawn.root.findall(f"{SVG}circle")) == 200
    assert "The last 100 of 300 points are drawn." in drawn.lettering()


def test_control_limits_stand_where_the_scale_has_them() -> None:
    found = control_chart(np.array([10.0, 11.0] * 8), "individuals", 1, [])
    drawn = Drawing(control_chart_drawing(found))
    heights = [_places(one)[0][1] for one in drawn.root.findall(f"{SVG}path[@class='limit']")]
    upper, centre, lower = heights[:3]
    assert upper < centre < lower
    assert centre - upper == pytest.approx(lower - centre, abs=0.02)


def test_a_given_process_is_said() -> None:
    found = control_chart(np.arange(12.0), "individuals", 1, [], Given(5.0, 2.0))
    assert "given mean and standard deviation" in Drawing(control_chart_drawing(found)).lettering()


def test_bars_are_as_high_as_their_counts_and_limits_stand_to_scale() -> None:
    values = np.array([1.0] * 6 + [2.0] * 3 + [3.0])
    drawn = Drawing(histogram_drawing(Picture(histogram(values), 1.5, limits=(Decimal(0), Decimal(4)))))
    bars = [_places(one) for one in drawn.root.findall(f"{SVG}path[@class='bar']")]
    heights = [bar[0][1] - bar[1][1] for bar in bars]
    assert heights == pytest.approx([heights[2] * 6, heights[2] * 3, heights[2]], abs=0.05)
    low, high = (_places(one)[0][0] for one in drawn.root.findall(f"{SVG}path[@class='limit']")[:2])
    middles = [(bar[1][0] + bar[2][0]) / 2 for bar in bars]
    assert middles == pytest.approx([low + (high - low) * at / 4 for at in (1, 2, 3)], abs=0.05)


def test_who_cannot_see_a_drawing_reads_what_it_shows() -> None:
    picture = Picture(histogram(np.array([1.0, 2.0, 2.0, 3.0])), 2.0, "Width", "mm", (Decimal("0.50"), None))
    drawn = Drawing(histogram_drawing(picture))
    assert drawn.root.attrib["role"] == "img"
    described = {node.attrib["id"]: node.text for node in drawn.root if node.tag in (f"{SVG}title", f"{SVG}desc")}
    assert drawn.root.attrib["aria-labelledby"].split() == list(described)
    title, text = described.values()
    assert title == "Width"
    assert text is not None
    assert text.startswith("4 readings in 3 classes; most, 2,")
    assert "Limits: at least 0.50 mm." in text


@given(st.lists(st.tuples(st.floats(0, 90), st.floats(0.1, 12)), min_size=1, max_size=6))
def test_labels_are_spread_so_that_none_meets_another(labels: list[tuple[float, float]]) -> None:
    ordered = sorted(labels)
    places, rooms = [place for place, _ in ordered], [room for _, room in ordered]
    found = spread_out(places, rooms, 0, 100)
    edges = [(place - room / 2, place + room / 2) for place, room in zip(found, rooms, strict=True)]
    assert edges[0][0] >= -1e-9
    assert edges[-1][1] <= 100 + 1e-9
    assert all(one[1] <= other[0] + 1e-9 for one, other in pairwise(edges))


@given(st.floats(-1e9, 1e9), st.floats(1e-6, 1e9))
def test_ticks_are_few_round_and_on_the_scale(low: float, reach: float) -> None:
    scale = Scale(low, low + reach, 0, 100)
    if scale.high == scale.low or reach < 1e-9 * abs(low):
        return
    ticks = scale.ticks(5)
    assert 1 <= len(ticks) <= 6
    steps = {b - a for a, b in pairwise(ticks)}
    assert len(steps) <= 1
    assert all(step.normalize().as_tuple().digits in ((1,), (2,), (5,)) for step in steps)


def test_lines_fold_to_their_room_and_no_word_is_lost() -> None:
    text = "A designation such as ISO 4014 - M10x60 - 8.8 and then somewhat more " + "x" * 90
    lines = folded(text, 60.0)
    assert all(room_of(line) <= 60.0 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


def _count(drawn: Drawing, kind: str) -> int:
    return len(drawn.root.findall(f"{SVG}*[@class='{kind}']"))


def _places(path: object) -> list[tuple[float, float]]:
    data = path.attrib["d"]  # type: ignore[attr-defined]
    return [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", data)]
