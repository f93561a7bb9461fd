"""A4 pages as PDF: text in an embedded font, and our drawings. Needs the extra `documents`, imported when it is used.

The same content gives the same bytes: a page holds no date.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime
from io import BytesIO
from typing import Any
from xml.etree import ElementTree

from .svg import NAMESPACE

FAMILY, WIDTH, MARGIN = "sheet", 190.0, 10.0
_TEXT = f"{{{NAMESPACE}}}text"
_POINTS_A_MM = 72 / 25.4
_INK, _ACCENT = re.compile("currentColor"), re.compile(r"var\(--[a-z-]+, (#[0-9a-f]{6})\)")
#: What the font lacks -> what stands for it.
_INSTEAD = str.maketrans({"\u202f": "\u00a0", "\u2300": "\u00d8"})


class PdfMissing(Exception):
    """The libraries of the extra are not installed."""


def new_page(title: str) -> Any:
    """Return a document with one empty A4 page.

    Raises:
        PdfMissing: the extra `documents` is not installed.
    """
    try:
        from fpdf import FPDF
        from ttf_opensans import OPENSANS_BOLD, OPENSANS_ITALIC, OPENSANS_REGULAR
    except ImportError:
        raise PdfMissing from None
    pdf = FPDF(format="A4")
    pdf.set_creation_date(datetime(2000, 1, 1, tzinfo=UTC))
    pdf.set_title(title)
    pdf.set_margin(MARGIN)
    pdf.set_auto_page_break(auto=True, margin=MARGIN)
    for style, font in (("", OPENSANS_REGULAR), ("B", OPENSANS_BOLD), ("I", OPENSANS_ITALIC)):
        pdf.add_font(FAMILY, style, font.path)
    pdf.add_page()
    return pdf


def plain(text: str) -> str:
    """Return a text in the signs that the font has."""
    return text.translate(_INSTEAD)


def draw(pdf: Any, drawing: str, width: float, height: float) -> None:
    """Put a drawing at the cursor, as large as the room in mm allows and no larger than it is, and move below it."""
    root = ElementTree.fromstring(_ACCENT.sub(r"\1", _INK.sub("#000", drawing)))
    own_width, own_height = (float(part) for part in root.attrib["viewBox"].split()[2:])
    scale = min(1.0, width / own_width, height / own_height)
    texts = list(root.iter(_TEXT))
    for parent in list(root.iter()):
        for child in [one for one in parent if one.tag == _TEXT or one.tag.endswith(("}style", "}title", "}desc"))]:
            parent.remove(child)
    left, top = pdf.l_margin, pdf.get_y()
    ElementTree.register_namespace("", NAMESPACE)
    pdf.image(BytesIO(ElementTree.tostring(root)), x=left, y=top, w=own_width * scale)
    for text in texts:
        _write(pdf, text, left, top, scale)
    pdf.set_xy(left, top + own_height * scale + 1)


def _write(pdf: Any, text: ElementTree.Element, left: float, top: float, scale: float) -> None:
    """Write a text of a drawing: fpdf2 leaves subscripts and anchors of SVG aside."""
    size = float(text.attrib["font-size"])
    runs = list(_runs(text, size))
    widths = []
    for run, style, run_size, _ in runs:
        pdf.set_font(FAMILY, style, run_size * scale * _POINTS_A_MM)
        widths.append(pdf.get_string_width(run))
    part = {"middle": 0.5, "end": 1.0}.get(text.attrib.get("text-anchor") or "", 0.0)
    x = left + float(text.attrib["x"]) * scale - part * sum(widths)
    y = top + float(text.attrib["y"]) * scale
    for (run, style, run_size, lower), width in zip(runs, widths, strict=True):
        pdf.set_font(FAMILY, style, run_size * scale * _POINTS_A_MM)
        y += lower * scale
        pdf.text(x, y, run)
        x += width


def _runs(text: ElementTree.Element, size: float) -> Iterator[tuple[str, str, float, float]]:
    """Yield text, style, size and lowering of each part of a text."""
    if text.text:
        yield plain(text.text), "", size, 0.0
    for part in text:
        style = "I" if part.attrib.get("font-style") == "italic" else ""
        lower = float(part.attrib.get("dy") or 0)
        yield plain(part.text or ""), style, float(part.attrib.get("font-size") or size), lower
