"""What a person reads: drawings and the specification sheet, as pure functions of what the layers below decided."""

from pathlib import Path

from .drawings import GaugedThread, gauge_zones, part_drawing, thread_drawing, thread_zones
from .gauge_sheet import GaugeSheet, gauge_sheet
from .pdf import PdfMissing
from .set_up_pdf import set_up_pdf
from .set_up_sheet import SetUpSheet, set_up_sheet
from .specification_sheet import Sheet, sheet_of

#: The folder of the pages and documents that are written in HTML.
TEMPLATES = Path(__file__).with_name("templates")

__all__ = [
    "TEMPLATES",
    "GaugeSheet",
    "GaugedThread",
    "PdfMissing",
    "SetUpSheet",
    "Sheet",
    "gauge_sheet",
    "gauge_zones",
    "part_drawing",
    "set_up_pdf",
    "set_up_sheet",
    "sheet_of",
    "thread_drawing",
    "thread_zones",
]
