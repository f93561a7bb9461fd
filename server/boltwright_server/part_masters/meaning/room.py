"""Has the thread of a part room for its coating?"""

from __future__ import annotations

from decimal import Decimal

from ...coating import Coating, Fit, coating_limits
from ...coating.coating import Process
from ...coating.marking import tolerance_class_of
from ...products import Product
from ...products.thread_class import thread_tolerance_class
from ...quantities import Bounds, Refusal
from ...quantities.keeper import remembered
from ...standards import rules
from ...threads import MetricSize, ThreadSize, find_class
from .findings import Finding
from .outline import Outline

_REMEMBERED = 65_536


def coating_of_words(name: str, process: Process, thickness: Decimal) -> Coating:
    """Return a coating whose thickness in um stands beside its name: `zinc plated 25 um`."""
    facts = rules("ISO 4042", holding="table_1")
    as_stated = facts.practice("thickness as the row states it")
    bounds = Bounds("t", thickness, None, "um", as_stated, thickness)
    return Coating(f"{name} {thickness} um", process, facts.id, facts.edition, name, {"local": bounds}, as_stated)


@remembered(_REMEMBERED)
def room(part: Outline, coating: Coating) -> tuple[Finding, ...]:
    """Return what is wrong with the room of a thread for a coating.

    ISO 4042:1999, Table 2, local thickness: position H of nuts leaves nothing, G does; ISO 10684:2004: nuts are tapped
    after galvanizing; ASTM F1941-2015.
    """
    if part.kind == "washer":
        return ()
    tolerance = tolerance_of(part)
    if tolerance is None:
        return _not_judged(part, coating, f"the thread tolerance of {part.name} is not held")
    fit = _fit(part.size, tolerance, coating)
    if isinstance(fit, str):
        return _not_judged(part, coating, fit)
    if fit is None or fit.fits or fit.by_group.get("local", True):
        return ()
    # Plated nuts in position H are common stock: the bolt's allowance takes up what little reaches their threads.
    plated_nut = part.kind == "nut" and coating.process != "hot dip galvanizing"
    found = Finding("coating-without-room", "coating", coating.designation, None, fit.detail, coating.basis)
    return (found._replace(mild=plated_nut),)


def _not_judged(part: Outline, coating: Coating, why: str) -> tuple[Finding, ...]:
    detail = f"whether {part.size.designation} has room for {coating.designation} is not judged: {why}"
    return (Finding("coating-not-judged", "coating", coating.designation, None, detail),)


@remembered(_REMEMBERED)
def _fit(size: ThreadSize, tolerance: str, coating: Coating) -> Fit | str | None:
    """Return what room the coating has, whatever product it is, or why that is not known."""
    try:
        return coating_limits(size, find_class(tolerance, size), coating).fit
    except Refusal as refusal:
        return refusal.detail


@remembered(_REMEMBERED)
def tolerance_of(part: Outline) -> str | None:
    """Return the thread tolerance before coating: of the mark, or of the product; a former one has its successor's."""
    of_mark = tolerance_class_of(part.mark)
    if of_mark is not None or part.product is None:
        return of_mark
    return _of_product(part.product, part.size, part.property_class)


def _of_product(product: Product, size: ThreadSize, property_class: str | None) -> str | None:
    row = product.row(size)
    grade = product.options.grade or str(row.cells.get("grade") or ("A" if isinstance(size, MetricSize) else ""))
    found = thread_tolerance_class(product, row, grade or None, property_class)
    return None if found is None else found.designation
