"""Nuts of carbon and alloy steel.

ISO 898-2:2012. Stresses in MPa, loads in N. The printed proof loads win over the products of area and stress.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Bounds, NotStandardised, OutsideScope
from ..quantities.keeper import remembered
from ..standards import Row, Table, rules
from ..threads import MetricSize
from .answer import MechanicalMinimums, Setting, Steel, Test
from .composition import steels_of
from .grade import Grade
from .marking import marks_of
from .stress_area import stress_area
from .test_programme import Candidate, programme_of

STANDARD = "ISO 898-2"
CLASSES = ("04", "05", "5", "6", "8", "9", "10", "12")
_SCALES = {"hardness_vickers": "HV", "hardness_brinell": "HBW", "hardness_rockwell_c": "HRC"}
_SOFT = (
    "this class is not quenched and tempered: the minimum hardness is guidance, the proof load decides "
    "where the nut can be tested ({}, clause 9.2)"
)
WITHDRAWN = "the edition of 2022 no longer has class 9"
_STRESS_OF_1992 = (
    "of the edition of 1992, whose load for this style is lower; Table 4 of {} prints one load for both styles"
)
_THIN = "thin nuts strip before a bolt breaks: class {} pairs with no bolt class for full loading"


def nut_styles(size: MetricSize, code: str) -> tuple[int, ...]:
    """Return the styles in which a class exists at a size: 0 thin, 1 regular, 2 high.

    ISO 898-2:2012, Table 1.
    """
    return tuple(
        sorted(
            int(str(row.cells["style"]))
            for row in _facts("table_1").rows.values()
            if (row.word("class"), row.word("series")) == (code, size.series)
            and row.number("D_min") <= size.d <= row.number("D_max")
        )
    )


@remembered(4096)
def nut_minimums(size: MetricSize, grade: Grade, style: int | None = None) -> MechanicalMinimums:
    """Return hardness, proof load and tests of a nut thread in one property class; the default style is the lowest.

    ISO 898-2:2012, Tables 1 and 3 to 7.

    Raises:
        NotStandardised: Table 1 gives no such class for the size and style.
    """
    code = grade.code
    style = _checked_style(size, code, style)
    notices: list[str] = []
    properties, soft = _hardness(size, code, style, notices)
    stress = _stress(size, code, style)
    if stress is not None:
        properties["proof_stress"] = stress
    loads, facts = _proof_load(size, code), rules(STANDARD)
    notices += _edition_notices(size, code, style)
    return MechanicalMinimums(
        standard=facts.id,
        edition=facts.edition,
        thread=size.designation,
        property_class=grade.name,
        member="internal",
        stress_area=_stress_area(size),
        properties=properties,
        loads=loads,
        tests=_tests(size, code, properties, loads),
        notices=tuple(notices),
        steels=_steels(size, code, style),
        marking=marks_of(facts, "nut", size.d, code),
        hardness_guides=facts.clause("clause 9.2", "tabulated") if soft else None,
    )


def _facts(table: str) -> Table:
    return rules(STANDARD).table(table)


def _checked_style(size: MetricSize, code: str, style: int | None) -> int:
    styles, table = nut_styles(size, code), _facts("table_1").cited
    if not any(nut_styles(size, one) for one in CLASSES):
        raise OutsideScope(
            f"{table} covers M5 to M39 and M8x1 to M39x3; {size.designation} lies outside",
            member="thread",
        )
    if styles and style is None:
        return styles[0]
    if style is not None and style in styles:
        return style
    of_style = "" if style is None else f" of style {style}"
    held = f"; it has style {' and '.join(map(str, styles))}" if styles else ""
    raise NotStandardised(
        f"{table} gives no class {code}{of_style} for {size.designation}{held}",
        member="property_class",
    )


def _edition_notices(size: MetricSize, code: str, style: int) -> list[str]:
    """What other editions say of the class; shown, never judged."""
    notices = [_THIN.format(code)] if style == 0 else []
    if code == "9":
        notices.append(WITHDRAWN)
    if (load := _load_of_1992(size, code, style)) is not None:
        notices.append(f"the edition of 1992 prints a proof load of {load} N for class {code} style {style}")
    return notices


def _load_of_1992(size: MetricSize, code: str, style: int) -> Decimal | None:
    """The edition of 2012 prints one load a class; that of 1992 had another for some styles."""
    row, column = _facts("loads_1992").find(size.designation), f"{code}_style_{style}"
    return None if row is None or column not in row.cells else row.get(column)


def _hardness(size: MetricSize, code: str, style: int, notices: list[str]) -> tuple[dict[str, Bounds], bool]:
    """Hardness by scale, and whether the class is not quenched and tempered, so that its minimum is guidance."""
    table = _facts("table_6" if size.series == "coarse" else "table_7")
    row = table.find_in_band(size.d, code, str(style))
    if row is None:
        notices.append(f"{table.cited} gives no hardness for class {code}, {size.designation}")
        return {}, False
    soft, told = row.word("quenched_and_tempered") == "no", _SOFT.format(table.standard.cited)
    found = {}
    for id, scale in _SCALES.items():
        if f"{scale}_max" in row.cells:
            column = f"{scale}_max"
            low, high = row.get(f"{scale}_min"), row.get(column)
            found[id] = Bounds(scale, low, high, scale, row.basis(column, note=told if soft else None))
    if soft:
        notices.append(told)
    return found, soft


def _stress(size: MetricSize, code: str, style: int) -> Bounds | None:
    """Stress under proof load Sp; ISO 898-2:1992 and ISO 898-6:1994 columns behind the printed loads."""
    if size.series == "coarse":
        row = _facts("stress_coarse").find_in_band(size.d, code, str(style))
    else:
        row = _facts("stress_fine").find_in_band(size.d, code)
    if row is None or row.get("Sp") is None:
        return None
    note = None if _load_of_1992(size, code, style) is None else _STRESS_OF_1992.format(rules(STANDARD).edition)
    return Bounds("Sp", row.number("Sp"), None, "MPa", row.basis("Sp", note=note))


def _load_row(size: MetricSize) -> Row | None:
    return _facts("table_4" if size.series == "coarse" else "table_5").find(size.designation)


def _stress_area(size: MetricSize) -> Bounds:
    row = _load_row(size)
    if row is not None:
        area = row.number("As")
        return Bounds("As", area, area, "mm2", row.basis("As"), area)
    return stress_area(size)


def _proof_load(size: MetricSize, code: str) -> dict[str, Bounds]:
    """Printed proof load; Tables 4 and 5.

    Raises:
        NotStandardised: the table does not list the thread or gives no load for the class.
    """
    row = _load_row(size)
    if row is None or code not in row.cells:
        raise NotStandardised(
            f"{rules(STANDARD).cited}, Tables 4 and 5 give no proof load of class {code} for {size.designation}",
            member="thread",
        )
    return {"proof_load": Bounds("Fp", row.number(code), None, "N", row.basis(code))}


def _tests(size: MetricSize, code: str, properties: dict[str, Bounds], loads: dict[str, Bounds]) -> tuple[Test, ...]:
    load = loads["proof_load"]
    settings = {"proof_load": {"load": Setting(load.min, load.max, load.unit, load.basis)}}
    hardness = properties.get("hardness_vickers")
    if hardness is not None:
        settings["hardness_core"] = {"hardness": Setting(hardness.min, hardness.max, "HV", hardness.basis)}
    return programme_of(rules(STANDARD), Candidate(size.d, size.pitch, code, settings=settings))


def _steels(size: MetricSize, code: str, style: int) -> tuple[Steel, ...]:
    row = _facts("table_3").find_in_band(size.d, code, str(style), size.series)
    return () if row is None else steels_of([row])
