"""SVG as text: escaped, in short numbers, hatched within its outline."""

import re
import xml.etree.ElementTree as ElementTree

import pytest

from boltwright_server.documents.drawings.pen import hatching
from boltwright_server.documents.svg import document, element, number, path, words

HOSTILE = "</title><script>alert(1)</script>\"'&"


def test_hostile_text_stays_text() -> None:
    svg = document("x", 10, 10, HOSTILE, HOSTILE, element("text", words(HOSTILE), data_figure=HOSTILE))
    root = ElementTree.fromstring(svg)
    assert root.find(".//{*}script") is None
    assert [node.text for node in root.iter() if node.text and "alert" in node.text] == [HOSTILE] * 3
    assert root.find(".//{*}text[@data-figure]").attrib["data-figure"] == HOSTILE  # type: ignore[union-attr]


@pytest.mark.parametrize(("value", "text"), [(1.0, "1"), (0.125, "0.12"), (-0.001, "0"), (2.5, "2.5"), (100, "100")])
def test_coordinates_have_no_idle_digits(value: float, text: str) -> None:
    assert number(value) == text


def test_a_path_joins_its_points() -> None:
    assert path([(0, 0), (1, 2.5), (3, 4)], close=True) == "M0 0L1 2.5L3 4Z"


def test_hatching_keeps_within_a_hollow_outline() -> None:
    """A square of 20 with a notch of 10 from the right: no stroke passes through the notch."""
    outline = [(0.0, 0.0), (20.0, 0.0), (20.0, 5.0), (10.0, 5.0), (10.0, 15.0), (20.0, 15.0), (20.0, 20.0), (0.0, 20.0)]
    strokes = re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", hatching(outline))
    assert len(strokes) > 10
    for stroke in strokes:
        x1, y1, x2, y2 = map(float, stroke)
        middle = ((x1 + x2) / 2, (y1 + y2) / 2)
        assert 0 <= middle[0] <= 20
        assert 0 <= middle[1] <= 20
        assert not (middle[0] > 10.01 and 5.01 < middle[1] < 14.99)
