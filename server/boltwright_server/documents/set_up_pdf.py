"""The set-up sheet of one station as one A4 page of PDF: what the page for browsers says, in the same order."""

from __future__ import annotations

from typing import Any

from . import pdf as paper
from .set_up_sheet import SetUpLine, SetUpSheet

#: Sizes of the notes in points, from the largest that is tried to the smallest that can be read.
_SIZES = (8.5, 8.0, 7.5, 7.0, 6.5, 6.0, 5.5, 5.0)
_HEADS = ("What", "Stop", "Warn", "Target", "Warn", "Stop", "Unit", "Measured with", "Basis")
_WIDTHS = (42, 16, 16, 16, 16, 16, 10, 36, 22)
_FIGURES = range(1, 6)


def set_up_pdf(sheet: SetUpSheet, fingerprint: str) -> bytes:
    """Return the sheet as PDF, its notes as large as one page allows.

    Raises:
        PdfMissing: the extra `documents` is not installed.
    """
    for size in _SIZES:
        pdf = paper.new_page(f"{sheet.designation}: set-up sheet, {sheet.station.lower()}")
        _fill(pdf, sheet, fingerprint, size)
        if pdf.page_no() == 1:
            break
    return bytes(pdf.output())


def _fill(pdf: Any, sheet: SetUpSheet, fingerprint: str, size: float) -> None:
    _head(pdf, sheet, fingerprint)
    if sheet.drawing:
        paper.draw(pdf, sheet.drawing, 100, 46 if size == _SIZES[0] else 38)
    _figures(pdf, sheet, size)
    if sheet.gauges:
        _text(pdf, f"Gauges: {'; '.join(sheet.gauges)}.", size + 0.5)
    if sheet.missing:
        _title(pdf, "Missing from the plant", size)
        _text(pdf, "; ".join(sheet.missing) + ".", size, "B")
    _first_pieces(pdf, sheet, size)
    _notes(pdf, sheet, size)


def _head(pdf: Any, sheet: SetUpSheet, fingerprint: str) -> None:
    _text(pdf, sheet.station, 15, "B")
    _text(pdf, sheet.designation, 10, "B")
    told = [f"State after it: {sheet.state}"]
    if sheet.pieces_at_risk:
        told.append(f"Pieces between two checks: {sheet.pieces_at_risk}")
    told.append(f"Fingerprint: {fingerprint}")
    _text(pdf, "    ".join(told), 8)
    _text(pdf, f"Order: {'_' * 30}    Lot: {'_' * 30}", 8)
    pdf.line(pdf.l_margin, pdf.get_y() + 0.5, pdf.l_margin + paper.WIDTH, pdf.get_y() + 0.5)
    pdf.ln(2)


def _figures(pdf: Any, sheet: SetUpSheet, size: float) -> None:
    _text(pdf, sheet.zone_rule, size)
    pdf.set_font(paper.FAMILY, "", size + 0.5)
    aligned = tuple("RIGHT" if at in _FIGURES else "LEFT" for at in range(len(_HEADS)))
    with pdf.table(
        width=paper.WIDTH,
        col_widths=_WIDTHS,
        text_align=aligned,
        line_height=size * 0.52,
        borders_layout="HORIZONTAL_LINES",
    ) as table:
        table.row(_HEADS)
        for line in sheet.lines:
            table.row([paper.plain(text) for text in _cells(line)])
    pdf.ln(1)


def _cells(line: SetUpLine) -> tuple[str, ...]:
    figures = (line.stop_min, line.warning_min, line.target, line.warning_max, line.stop_max)
    source = f"{line.source.number} {line.source.warning}".strip()
    return (line.name, *(one.text or "–" for one in figures), line.unit, line.instrument, source)


def _first_pieces(pdf: Any, sheet: SetUpSheet, size: float) -> None:
    _title(pdf, "First pieces", size)
    _text(pdf, sheet.first_piece_rule, size)
    for count, names in ((sheet.first_pieces, [str(one + 1) for one in range(sheet.first_pieces)]), (0, sheet.signed)):
        for name in names:
            pdf.set_font(paper.FAMILY, "", 6)
            pdf.cell(paper.WIDTH / len(names), 7, name, border=1 if count else "B", align="L")
        pdf.ln(8)
        if count:
            _text(pdf, sheet.mark_rule, size)


def _notes(pdf: Any, sheet: SetUpSheet, size: float) -> None:
    small = size - 0.5
    for line in sheet.notices:
        _text(pdf, f"• {line}", small)
    _title(pdf, "Cautions", size)
    for line in sheet.cautions:
        _text(pdf, f"• {line}", small)
    _title(pdf, "Bases", size)
    for of, _ in sheet.bases:
        text = f"{of.number}. {of.cited}, {of.basis.clause}; {of.method}; {of.checked}."
        _text(pdf, text, small, "B" if of.warning else "")


def _title(pdf: Any, text: str, size: float) -> None:
    pdf.ln(0.8)
    _text(pdf, text, size + 1, "B")


def _text(pdf: Any, text: str, size: float, style: str = "") -> None:
    pdf.set_font(paper.FAMILY, style, size)
    pdf.multi_cell(paper.WIDTH, size * 0.46, paper.plain(text), align="L", new_x="LMARGIN", new_y="NEXT")
