"""What is wrong with a size, a length, a class, a coating or an edition, whatever else a row says; remembered."""

from __future__ import annotations

from decimal import Decimal

from ...designations import parse_coating
from ...mechanical import find_grade
from ...products import Product
from ...quantities import Refusal, UnknownName, cited
from ...quantities.keeper import remembered
from ...standards import current, rules
from ...standards.editions import in_force, later_than, standing
from ...threads import ThreadSize
from ..text.scanning.classes import AMBIGUOUS
from .findings import Finding

_REMEMBERED = 65_536
_MOST_DIAMETERS, _MOST_INCHES, _MM = Decimal(48), Decimal(12), Decimal("25.4")
_HUNDREDTH_OF_INCH = Decimal("0.254")


@remembered(_REMEMBERED)
def lists_class(product: Product, size: ThreadSize, name: str) -> bool:
    """Say whether the product standard lists the class at that size."""
    row = product.class_row(name)
    return row is not None and row.number("d_min") <= size.d <= row.number("d_max")


@remembered(_REMEMBERED)
def length_findings(product: Product, size: ThreadSize, length: Decimal) -> tuple[Finding, ...]:
    """Return what is wrong with a nominal length in mm.

    The range of the product standard; ISO 888:2012, Table 1.
    """
    if product.family.inch and product.options.length_class != "as ordered":
        return _long_for_inches(size, length)
    row = product.row(size)
    if "l_min" not in row.cells or row.get("l_min") is None:
        return ()
    low, high = row.number("l_min"), row.number("l_max")
    if not low <= length <= high:
        meant = _stored_in_inches(length, low, high)
        if meant is not None:
            detail = f"a length of {length} mm is not listed for {row.key[0]}; if inches were meant, it is {meant} mm"
            return (Finding("unit-mix-up", "length", str(length), f"{meant} mm", detail, row.basis("l_max")),)
        detail = f"{product.standard.cited} lists {row.key[0]} from {low} to {high} mm, not {length} mm"
        given = Finding("length-not-in-standard", "length", str(length), f"{low} to {high}", detail, row.basis("l_max"))
        return (given,)
    return _not_preferred(length) if product.standard.id.startswith("ISO") else ()


def _stored_in_inches(length: Decimal, low: Decimal, high: Decimal) -> Decimal | None:
    """Return the usual length of ISO 888 that a figure is in inches, typed to two decimals; None for none."""
    rows = rules("ISO 888").table("table_1").rows.values()
    usual = (Decimal(row.key[0]) for row in rows if row.word("series") == "usual")
    near = [one for one in usual if low <= one <= high and abs(length * _MM - one) <= _HUNDREDTH_OF_INCH / 2]
    return near[0] if len(near) == 1 else None


def _long_for_inches(size: ThreadSize, length: Decimal) -> tuple[Finding, ...]:
    """The inch standards list no range; a length of many diameters was likely typed in mm (common practice)."""
    if length <= max(_MOST_DIAMETERS * size.d, _MOST_INCHES):
        return ()
    inches = (length / _MM).quantize(Decimal("0.01"))
    detail = f"a length of {length} in is more than {_MOST_DIAMETERS} diameters; if mm were meant, it is {inches} in"
    return (Finding("unit-mix-up", "length", str(length), f"{inches} in", detail),)


def _not_preferred(length: Decimal) -> tuple[Finding, ...]:
    """A length that ISO 888 does not list, or lists as one to avoid."""
    lengths = rules("ISO 888").table("table_1")
    listed = lengths.find(length)
    if listed is not None and listed.word("series") == "usual":
        return ()
    usual = [row.key[0] for row in lengths.rows.values() if row.word("series") == "usual"]
    near = sorted(sorted(usual, key=lambda one: abs(Decimal(one) - length))[:2])
    basis = lengths.standard.basis(lengths.printed_as, lengths.checked, "tabulated")
    named = lengths.standard.cited
    what = f"is no nominal length of {named}" if listed is None else f"is a length that {named} says to avoid"
    expected = " or ".join(str(one) for one in near)
    return (Finding("length-not-preferred", "length", str(length), expected, f"{length} mm {what}", basis),)


@remembered(_REMEMBERED)
def class_findings(product: Product, size: ThreadSize, name: str | None) -> tuple[Finding, ...]:
    """Return what is wrong with a property class, grade or hardness class, or that none is given."""
    if name is None:
        detail = f"{product.id} needs a property class"
        return (Finding("requirement-missing", "property_class", None, None, detail),)
    if product.classes is None or lists_class(product, size, name):
        return ()
    listed = ", ".join(str(one) for one in product.classes.column_values("property_class"))
    if not product.family.hardness_only:
        try:
            find_grade(name, product.member)
        except Refusal as refusal:
            near = ", ".join(refusal.nearest) or listed
            if name.startswith("ASTM "):
                detail = f"{name} is not held for {product.id}: its strength is not checked; held are {listed}"
                return (Finding("property-class-not-in-standard", "property_class", name, near, detail),)
            return (Finding("property-class-unknown", "property_class", name, near, refusal.detail),)
    table = product.classes
    basis = table.standard.basis(table.printed_as, table.checked, "tabulated")
    here = ", ".join(one for one in map(str, table.column_values("property_class")) if lists_class(product, size, one))
    what = f"it lists {here}" if here else "its class is as agreed there"
    detail = f"{product.standard.cited} does not list class {name} for {size.designation}; {what}"
    return (Finding("property-class-not-in-standard", "property_class", name, here or None, detail, basis),)


@remembered(_REMEMBERED)
def size_findings(product: Product, size: ThreadSize) -> tuple[Finding, ...]:
    """Return a notice where the standard lists the size among the non-preferred ones."""
    row = product.row(size)
    if row.cells.get("preferred") != "no":
        return ()
    table = row.table
    basis = table.standard.basis(table.printed_as, table.checked, "tabulated")
    detail = f"{product.standard.cited} lists {row.key[0]} among the non-preferred threads"
    return (Finding("size-not-preferred", "thread", str(row.key[0]), None, detail, basis),)


@remembered(_REMEMBERED)
def coating_findings(coating: str) -> tuple[Finding, ...]:
    """Return what is wrong with a coating that is written as a designation; words for coatings pass."""
    if coating == AMBIGUOUS:
        detail = "GALV says hot dip galvanized to some and electroplated to others: write tZn, or zinc plated"
        return (Finding("coating-unknown", "coating", coating.upper(), "tZn or zinc plated", detail),)
    if not any(sign.isdigit() for sign in coating):
        return ()
    try:
        parse_coating(coating)
    except UnknownName as refusal:
        near = ", ".join(refusal.nearest) or None
        return (Finding("coating-not-in-standard", "coating", coating, near, refusal.detail),)
    except Refusal as refusal:
        return (Finding("coating-unknown", "coating", coating, None, refusal.detail),)
    return ()


@remembered(4096)
def edition_findings(name: str, year: str) -> tuple[Finding, ...]:
    """Return a warning where no limit is of the edition that a row names, a notice where a later one replaced it."""
    found, given = standing(name, year), cited(name, year)
    if not found.held:
        return ()
    if found.word != "held":
        held = current(name)
        basis = rules(name, found.held[-1]).basis("edition", "two reproductions", "tabulated")
        expected = None if held is None else held.cited
        return (Finding("edition-not-held", "standard", given, expected, found.told, basis),)
    later = later_than(name, year)
    if later is None or later.edition is None:
        return ()
    return (Finding("edition-superseded", "standard", given, cited(name, later.edition), found.told, later.basis),)


@remembered(4096)
def withdrawn_findings(grade: str) -> tuple[Finding, ...]:
    """Return a notice where the standard of a grade is withdrawn, whatever edition of it is meant."""
    name = " ".join(grade.split()[:2])
    known = in_force(name)
    if known is None or known.edition is not None:
        return ()
    detail = known.told if known.remark is None else f"{known.told}: {known.remark}"
    return (Finding("edition-superseded", "property_class", grade, None, detail),)
