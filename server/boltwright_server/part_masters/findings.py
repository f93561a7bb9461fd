"""What can be wrong with a part master: every code with its severity and what it means. Codes are stable."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from ..quantities import Basis

Severity = Literal["error", "warning", "notice"]


@dataclass(frozen=True, slots=True)
class Code:
    """One code: how grave it is, and what its page says."""

    severity: Severity
    meaning: str


CODES: dict[str, Code] = {
    "unreadable": Code("error", "Nothing in the row names a product that a standard describes."),
    "cell-too-long": Code("error", "A cell is longer than any designation or description; it is not read."),
    "cells-do-not-fit": Code("error", "The row has more or fewer cells than the header has columns."),
    "value-unreadable": Code("error", "A figure is no number, or its unit does not fit."),
    "attribute-contradicts-description": Code("error", "A member says one thing, the description another."),
    "standard-unknown": Code("error", "The standard is not held: nothing is checked against it."),
    "look-alike-standard": Code(
        "warning", "A former national standard: its successor looks alike and may differ across flats or in height."
    ),
    "size-not-in-standard": Code("error", "The product standard does not list the thread or size."),
    "pitch-not-in-standard": Code("error", "No such pitch exists for the diameter."),
    "size-not-preferred": Code("notice", "The standard lists the size as non-preferred."),
    "length-not-in-standard": Code("warning", "The length lies outside the range that the product standard lists."),
    "length-not-preferred": Code("notice", "The length is no nominal length of ISO 888."),
    "property-class-unknown": Code("error", "No standard has such a property class, grade or steel."),
    "property-class-not-in-standard": Code(
        "warning", "The product standard does not list the class at this diameter: it is as agreed."
    ),
    "coating-unknown": Code("warning", "The coating is not understood."),
    "coating-not-in-standard": Code("warning", "No standard has a coating of that designation."),
    "coating-without-room": Code("warning", "The coating is thicker than the tolerance position leaves room for."),
    "hydrogen-embrittlement": Code(
        "notice", "Hard fasteners that are acid-cleaned or electroplated need measures against embrittlement."
    ),
    "requirement-missing": Code("warning", "A requirement that the designation needs is not given."),
    "dimension-outside-limits": Code("error", "A stored dimension lies outside the limits of the standard."),
    "mechanical-figure-wrong": Code("error", "A stored strength, hardness or load is not that of the standard."),
    "unit-mix-up": Code("error", "The figure would be right in another unit."),
    "mass-implausible": Code("warning", "The stored mass is far from the mass computed from the geometry."),
    "pair-not-permitted": Code("error", "The bolt and the nut must not be used together."),
    "edition-superseded": Code("notice", "The edition named is not the one that is held."),
    "duplicate-part-number": Code("warning", "The part number has occurred before."),
    "duplicate-requirement": Code("warning", "Another part number asks for the same product and coating."),
}


class Finding(NamedTuple):
    """One finding of one row."""

    code: str
    member: str
    given: str | None
    expected: str | None
    detail: str
    basis: Basis | None = None

    @property
    def severity(self) -> Severity:
        """How grave it is."""
        return CODES[self.code].severity


def status_of(findings: list[Finding]) -> str:
    """Return the status of a row with these findings."""
    codes = {finding.code for finding in findings}
    if "unreadable" in codes:
        return "unreadable"
    severities = {CODES[code].severity for code in codes}
    if "error" in severities:
        return "invalid"
    return "questionable" if "warning" in severities else "valid"
