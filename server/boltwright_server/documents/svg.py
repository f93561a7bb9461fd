"""SVG as text: escaped, and the same bytes for the same drawing.

W3C Scalable Vector Graphics 1.1 (2nd edition); only shapes, paths and text, so that every reader of SVG can take it.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

NAMESPACE = "http://www.w3.org/2000/svg"
#: On its own the drawing brings its ground and ink; inside a page it takes the ink of its surroundings.
_ALONE = (
    "svg:root{color-scheme:light dark;background:Canvas;color:CanvasText;font-variant-numeric:tabular-nums}"
    "@media print{svg:root{color-scheme:light}}"
)
Number = float | int
Point = tuple[float, float]


def number(value: Number) -> str:
    """Return a coordinate in mm to 0.01, without trailing zeros."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, *children: str, **attributes: str | Number | None) -> str:
    """Return an element; children are markup already, attributes are escaped here and left out where None.

    An underscore in an attribute's name stands for a hyphen; one at its end is dropped (`class_`).
    """
    pairs = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(value if isinstance(value, str) else number(value))}"
        for key, value in attributes.items()
        if value is not None
    )
    body = "".join(children)
    return f"<{name}{pairs}>{body}</{name}>" if body else f"<{name}{pairs}/>"


def words(text: str) -> str:
    """Return text as markup."""
    return escape(text)


def path(points: Iterable[Point], close: bool = False) -> str:
    """Return the path data through points."""
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if close else "")


def document(id: str, width: Number, height: Number, title: str, description: str, *children: str) -> str:
    """Return a whole drawing; one unit is one millimetre on paper. `id` is unique on a page."""
    return element(
        "svg",
        element("title", words(title), id=f"{id}-title"),
        element("desc", words(description), id=f"{id}-desc"),
        element("style", _ALONE),
        *children,
        xmlns=NAMESPACE,
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=f"{number(width)}mm",
        height=f"{number(height)}mm",
        role="img",
        aria_labelledby=f"{id}-title {id}-desc",
        font_family="Arial, Helvetica, 'Liberation Sans', sans-serif",
        fill="none",
        stroke="none",
        class_="drawing",
    )
