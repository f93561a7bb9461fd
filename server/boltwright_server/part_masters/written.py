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
    # Flats may be those of the head or of the socket: one of the two is judged.
    check_figures(found.meant.resolved, found.meant.resolved.outlines, found.length, figures, {}, wrong)
    open_ones = [one for one in wrong if one.code == "figures-not-judged"]
    if len(open_ones) < len(figures):
        wrong = [one for one in wrong if one not in open_ones]
    wrong = wrong[:1] if open_ones == wrong else wrong
    said.extend(one._replace(member="description", detail=f"the text says {one.detail}", right=None) for one in wrong)


def check_no_length(found: Requirement, said: list[Finding]) -> None:
    """Add a finding where a nut or a washer has a length: it is not judged, and maybe the row is another part."""
    outlines = found.meant.resolved.outlines
    if outlines and found.length and all(one.kind in ("nut", "washer") for one in outlines):
        detail = f"length {found.length} is not judged: {outlines[0].name} is a {outlines[0].kind} and has no length"
        said.append(Finding("figures-not-judged", "length", str(found.length), None, detail))
