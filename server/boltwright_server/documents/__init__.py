"""What a person reads: drawings and the specification sheet, as pure functions of what the layers below decided."""

from .drawings import part_drawing, thread_drawing, thread_zones
from .specification_sheet import Sheet, sheet_of

__all__ = ["Sheet", "part_drawing", "sheet_of", "thread_drawing", "thread_zones"]
