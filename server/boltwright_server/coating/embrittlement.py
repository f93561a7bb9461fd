"""Hydrogen embrittlement: what the hardness and the process of coating call for.

ISO 4042:2018, clause 4.4; with a code of 1999 also ISO 4042:1999, clause 6. Inch: ASTM F1941-2015.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..mechanical import mechanical_minimums
from ..quantities import Basis, Bounds, NotStandardised, Refusal
from ..standards import Row, rules
from ..threads import ThreadSize
from .coating import Coating

_MEASURES = {
    "none": "no measure is asked for",
    "verification": "process verification or product testing for hydrogen embrittlement; without it, baking",
    "baking": "baking (except parts not under tensile stress, and induction-hardened ends)",
}
_NEVER_PLATED = "ASTM F3125 A490"
_OF_PROCESS = {
    "electroplating": "acid cleaning and electroplating bring in hydrogen",
    "hot dip galvanizing": "acid pickling before galvanizing brings in hydrogen",
    "zinc flake": "the process brings in none, acid cleaning before it does; blast or clean in alkaline",
}


@dataclass(frozen=True, slots=True)
class Embrittlement:
    """The group by specified maximum hardness, in `unit`, and the measure that electroplating would need."""

    specified_maximum_hardness: Decimal
    group: str
    measure: str
    caution: str | None
    notices: tuple[str, ...]
    basis: Basis
    unit: str = "HV"


def specified_maximum(size: ThreadSize, property_class: str | None, scale: str) -> Decimal | None:
    """Return the greatest core hardness that a property class allows, or None where nothing can be said."""
    if property_class is None:
        return None
    try:
        hardness = mechanical_minimums(size, property_class).properties.get(scale)
    except Refusal:
        return None
    return None if hardness is None else hardness.max


def needs_measures(hardness: Decimal) -> bool:
    """Say whether electroplating a part of that specified maximum hardness in HV needs measures.

    ISO 4042:2018, clause 4.4.
    """
    return _group(hardness).word("measure") != "none"


def needs_baking(hardness: Decimal) -> bool:
    """Say whether no verification of the process is enough: above 390 HV.

    ISO 4042:2018, clause 4.4.
    """
    return _group(hardness).word("measure") == "baking"


def forbids(grade: str, process: str) -> Row | None:
    """Return where a standard of bolts forbids a process of coating for a grade, or None.

    ASTM F3125-2015; A490 alone is the same bolt under its former name.
    """
    name = grade.removeprefix("ASTM ").removeprefix("F3125 ")
    row = rules("ASTM F3125").table("coatings").find(name, process)
    return row if row is not None and row.word("permitted") == "no" else None


def is_at_risk_in_inch(hardness: Decimal) -> bool:
    """Say whether a part of that specified maximum hardness in HRC is at risk: above 39 HRC. ASTM F1941-2015."""
    return hardness > _of_inch().number("HRC_over")


def refuse_plating(coating: Coating, property_class: str | None) -> None:
    """Refuse a coating that the standard of the grade rules out for the hydrogen that it brings in.

    ASTM F3125-2015, coatings of A490 (one reproduction).

    Raises:
        NotStandardised: the grade is neither electroplated nor hot dip galvanized.
    """
    if coating.process != "zinc flake" and (property_class or "").startswith(_NEVER_PLATED):
        raise NotStandardised(
            f"{coating.designation}: {property_class} bolts are neither electroplated nor hot dip galvanized "
            f"({rules('ASTM F3125').cited}, one reproduction); order zinc flake, or another grade",
            member="coating",
        )


def measure_asked_for(coating: Coating, hardness: Bounds) -> Basis | None:
    """Return the clause that asks for a measure, above 390 HV or 39 HRC specified; None where none is asked for.

    ISO 4042:2018, clause 4.4; ASTM F1941-2015 for a hardness in HRC. Zinc flake brings in no hydrogen.
    """
    if coating.process == "zinc flake" or hardness.max is None:
        return None
    if hardness.unit == "HRC":
        return _of_inch().basis("measure") if is_at_risk_in_inch(hardness.max) else None
    row = _group(hardness.max)
    return row.basis("measure") if row.word("measure") == "baking" else None


def _of_inch() -> Row:
    return next(iter(rules("ASTM F1941").table("embrittlement").rows.values()))


def embrittlement(coating: Coating, hardness: Decimal) -> Embrittlement:
    """Return group, measure and caution for a specified maximum core hardness in HV.

    ISO 4042:2018, clause 4.4: group B holds 360 and 390 HV themselves.
    """
    row = _group(hardness)
    measure = row.word("measure")
    return Embrittlement(
        hardness,
        str(row.key[0]),
        _MEASURES[measure],
        None if measure == "none" else _caution(coating, f"{hardness} HV", measure, row.table.standard.cited),
        _by_edition_1999(coating, hardness),
        row.basis("measure"),
    )


def embrittlement_of_inch(coating: Coating, hardness: Decimal) -> Embrittlement:
    """Return group, measure and caution for a specified maximum core hardness in HRC.

    ASTM F1941-2015: above 39 HRC a part is at risk; the measure is recalled.
    """
    row, at_risk = _of_inch(), is_at_risk_in_inch(hardness)
    measure = row.word("measure") if at_risk else "none"
    return Embrittlement(
        hardness,
        str(row.key[0]) if at_risk else f"not {row.key[0]}",
        _MEASURES[measure],
        _caution(coating, f"{hardness} HRC", measure, "ASTM F1941") if at_risk else None,
        (),
        row.basis("measure" if at_risk else "HRC_over"),
        "HRC",
    )


def _group(hardness: Decimal) -> Row:
    found = None
    for row in rules("ISO 4042", holding="clause_4_4").table("clause_4_4").rows.values():
        start = row.number("HV_from")
        if hardness > start or (hardness == start and row.word("from_included") == "yes"):
            found = row
    if found is None:
        raise ValueError(f"hardness {hardness} HV")
    return found


def _caution(coating: Coating, hardness: str, measure: str, asking: str) -> str:
    told = f"Hydrogen embrittlement: specified up to {hardness}; {_OF_PROCESS[coating.process]}."
    if coating.process == "zinc flake":
        return told
    return (
        f"{told} {asking} asks for {_MEASURES[measure]}; baking does not guarantee freedom from it. "
        "Agree the process before coating."
    )


def _by_edition_1999(coating: Coating, hardness: Decimal) -> tuple[str, ...]:
    if coating.standard != "ISO 4042":
        return ()
    facts = rules(coating.standard, coating.edition)
    table = facts.tables.get("clause_6.csv")
    rows = () if table is None else table.rows.values()
    asked = [f"{row.key[0]} above {row.number('HV_over')} HV" for row in rows if hardness > row.number("HV_over")]
    return (f"{facts.cited}, clause 6, asks for {' and '.join(asked)}",) if asked else ()
