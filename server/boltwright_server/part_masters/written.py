"""Dimensions that a text holds beside the designation: `SW17`, `M10x20x2` of a washer."""

from __future__ import annotations

from .figures import check_figures
from .findings import Finding
from .requirement import Requirement


def check_written(found: Requirement, said: list[Finding]) -> None:
    """Hold written dimensions against the product; where that is open, they are left over."""
    reading = found.reading
    figures = dict(reading.figures or {})
    if found.part is None:
        reading.left_over = [*reading.left_over, *dict.fromkeys(figures.values())]
        return
    wrong: list[Finding] = []
    check_figures(found.meant.resolved, found.length, figures, {}, wrong)
    said.extend(one._replace(member="description", detail=f"the text says {one.detail}", right=None) for one in wrong)
