"""Reads a drawing back: its dimensions by id, its lettering, and how much room each text takes."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from itertools import combinations, pairwise

SVG = "{http://www.w3.org/2000/svg}"
#: Advance widths of Liberation Sans (metrically Arial) in parts of the letter height; other letters are narrower.
_WIDTHS = {".": 0.278, " ": 0.278, "(": 0.333, ")": 0.333, "l": 0.222, "f": 0.278, "r": 0.333}
_WIDTH = 0.556
_RIM = 0.25


@dataclass(frozen=True)
class Box:
    """The room of one text, in mm on paper."""

    text: str
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )

    def is_crossed(self, start: Point, end: Point) -> bool:
        """Whether a line passes through, the very rim left out: the line is clipped against each side in turn."""
        (x1, y1), (x2, y2) = start, end
        sides = ((x1, x2 - x1, self.left, self.right), (y1, y2 - y1, self.top, self.bottom))
        enters, leaves = 0.0, 1.0
        for at, along, low, high in sides:
            low, high = low + _RIM, high - _RIM
            if along == 0:
                if not low < at < high:
                    return False
                continue
            first, last = sorted(((low - at) / along, (high - at) / along))
            enters, leaves = max(enters, first), min(leaves, last)
        return enters < leaves


Point = tuple[float, float]


class Drawing:
    """A drawing that is well-formed XML; otherwise reading it fails."""

    def __init__(self, svg: str) -> None:
        self.root = ElementTree.fromstring(svg)
        _, _, self.width, self.height = (float(part) for part in self.root.attrib["viewBox"].split())

    def measured(self, figure: str) -> float:
        """Return the length of the dimension line of a characteristic, in mm on paper."""
        line = self.root.find(f".//{SVG}g[@data-figure='{figure}']/{SVG}line[@class='measure']")
        assert line is not None, f"no dimension {figure}"
        x1, y1, x2, y2 = (float(line.attrib[name]) for name in ("x1", "y1", "x2", "y2"))
        return abs(x2 - x1) + abs(y2 - y1)

    def figures(self) -> dict[str, str]:
        """Return the lettering of each dimension by the id of its characteristic."""
        groups = self.root.iterfind(f".//{SVG}g[@data-figure]")
        return {group.attrib["data-figure"]: " ".join(_texts(group)) for group in groups}

    def lettering(self) -> str:
        return " ".join(_texts(self.root))

    def boxes(self) -> list[Box]:
        return [_box(text) for text in self.root.iter(f"{SVG}text")]

    def clashes(self) -> list[tuple[str, str]]:
        """Return pairs of texts that run into each other."""
        return [(one.text, other.text) for one, other in combinations(self.boxes(), 2) if one.meets(other)]

    def struck_through(self) -> list[tuple[str, str]]:
        """Return texts that a straight line other than a centre line crosses."""
        lines = self._segments()
        return [
            (box.text, f"{start} {end}") for box in self.boxes() for start, end in lines if box.is_crossed(start, end)
        ]

    def _segments(self) -> list[tuple[Point, Point]]:
        found = []
        for path in self.root.iter(f"{SVG}path"):
            if "stroke" in path.attrib and "stroke-dasharray" not in path.attrib:
                corners = [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path.attrib["d"])]
                found += list(pairwise(corners))
        for line in self.root.iter(f"{SVG}line"):
            x1, y1, x2, y2 = (float(line.attrib[name]) for name in ("x1", "y1", "x2", "y2"))
            found.append(((x1, y1), (x2, y2)))
        return found

    def outside(self) -> list[str]:
        """Return texts and points of lines that lie beyond the paper."""
        lost = [
            box.text
            for box in self.boxes()
            if box.left < 0 or box.top < 0 or box.right > self.width or box.bottom > self.height
        ]
        for path in self.root.iter(f"{SVG}path"):
            for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path.attrib["d"]):
                if not (0 <= float(x) <= self.width and 0 <= float(y) <= self.height):
                    lost.append(f"{x} {y}")
        return lost


def _texts(node: ElementTree.Element) -> list[str]:
    return ["".join(text.itertext()) for text in node.iter(f"{SVG}text")]


def _box(node: ElementTree.Element) -> Box:
    size, x, y = (float(node.attrib[name]) for name in ("font-size", "x", "y"))
    text = "".join(node.itertext())
    pieces = [(part.text or "", float(part.attrib.get("font-size", size))) for part in node] or [(text, size)]
    width = sum(height * _WIDTHS.get(letter, _WIDTH) for piece, height in pieces for letter in piece)
    left = x - width / 2 if node.attrib.get("text-anchor") == "middle" else x
    return Box(text, left, y - 0.72 * size, left + width, y + 0.05 * size)
