"""Dimensions that a text holds beside the designation: `SW17`, `M10x20x2` of a washer."""

from __future__ import annotations

from decimal import Decimal

from ...products.look_alikes import Difference, differences, look_alikes
from ..figures.figures import check_figures
from ..meaning.findings import Finding
from ..meaning.requirement import Requirement, decimal_of


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
    for one in wrong:
        detail = f"the text says {one.detail}{_of_former(found, one)}"
        said.append(one._replace(member="description", detail=detail, right=None))


def _of_former(found: Requirement, wrong: Finding) -> str:
    """Say whose figure it is, where it is that of a former standard: M10 of DIN 934 has 17 across flats."""
    part, given = found.part, decimal_of(wrong.given or "")
    if part is None or given is None:
        return ""
    size = part.size.designation
    former = (one for one in look_alikes() if one.partner(size) is part.product)
    named = [one.former for one in former for known in differences(one, size) if _is(known, wrong, given)]
    return "" if not named else f"; it is that of the former standard {named[0]} at {size}"


def _is(known: Difference, wrong: Finding, given: Decimal) -> bool:
    return known.dimension in wrong.detail and known.former == given


def check_no_length(found: Requirement, said: list[Finding]) -> None:
    """Add a finding where a nut or a washer has a length: it is not judged, and maybe the row is another part."""
    outlines = found.meant.resolved.outlines
    if outlines and found.length and all(one.kind in ("nut", "washer") for one in outlines):
        detail = f"length {found.length} is not judged: {outlines[0].name} is a {outlines[0].kind} and has no length"
        said.append(Finding("figures-not-judged", "length", str(found.length), None, detail))
