"""The material side of a bolt class: strengths, hardness on each scale, surface, decarburization, tempering.

ISO 898-1:2013, Tables 2 and 3 and clause 9.10. Stresses in MPa, hardness in its own scale, heights in mm.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from ..quantities import Bounds
from ..standards import Row, Standard, rules
from ..threads import MetricSize

#: property id -> (rows of Table 3 in the order of preference, limit that they are)
_ROWS: dict[str, tuple[tuple[str, str | None], ...]] = {
    "tensile_strength": (("Rm_min", None),),
    "yield_strength": (("ReL_min", None), ("Rp02_min", None), ("Rpf_min", None)),
    "proof_stress": (("Sp", None),),
    "elongation": (("A_min", None), ("Af_min", None)),
    "reduction_of_area": (("Z_min", None),),
    "impact_energy": (("KV_min", None),),
    "hardness_vickers": (("HV_min", "HV_max"),),
    "hardness_rockwell_b": (("HRB_min", "HRB_max"),),
    "hardness_rockwell_c": (("HRC_min", "HRC_max"),),
}
_NOTES = {
    "Rpf_min": "Rpf min is under investigation: it serves the ratio to the proof load and is no test value",
    "KV_min": "at -20 degrees Celsius; d >= 16 mm",
    "A_min": "machined piece, percent",
    "Af_min": "full-size bolt, ratio to d, not percent",
}


def _facts() -> Standard:
    return rules("ISO 898-1")


def table_3(name: str) -> Row:
    """Return a row of Table 3.

    Raises:
        KeyError: there is none. That is a fault of the caller.
    """
    row = _facts().table("table_3").find(name)
    if row is None:
        raise KeyError(name)
    return row


def class_properties(size: MetricSize, code: str, column: str) -> dict[str, Bounds]:
    """Return every property of a class by id; `column` is that of Table 3.

    ISO 898-1:2013, Tables 2 and 3, clause 9.10.
    """
    found = {}
    for id, choices in _ROWS.items():
        for low, high in choices:
            bounds = _window(low, high, column)
            if bounds is not None:
                found[id] = bounds
                break
    return found | _brinell(column) | _surface(column) | _decarburization(size, column) | _tempering(code)


def _window(low: str, high: str | None, column: str) -> Bounds | None:
    row = table_3(low)
    least = row.get(column)
    if least is None:
        return None
    if high is None:
        basis = row.basis(column, note=_NOTES.get(low))
        return Bounds(row.word("symbol"), least, None, row.word("unit"), basis, _nominal(low, column))
    most = table_3(high).get(column)
    return Bounds(row.word("symbol"), least, most, row.word("unit"), row.basis(column, note=_end_note(high, column)))


def _nominal(low: str, column: str) -> Decimal | None:
    """The nominal strength, which the symbol of the class is made from; Table 3 prints it above the minimum."""
    row = _facts().table("table_3").find(low.replace("_min", "_nom"))
    return None if row is None or row is table_3(low) else row.get(column)


def _end_note(high: str, column: str) -> str | None:
    """Soft classes may be harder at the end of the fastener; Table 3, footnote on hardness."""
    if high not in ("HV_max", "HRB_max"):
        return None
    end = table_3(high.replace("_max", "_end_max")).get(column)
    return None if end is None else f"up to {end} when measured at the end of the fastener"


def _brinell_rows(column: str) -> dict[str, Bounds]:
    table = _facts().table("table_3_brinell")
    found = {}
    for printed_in in dict.fromkeys(str(name) for name in table.column_values("printed_in")):
        low, high = table.find(printed_in, "min"), table.find(printed_in, "max")
        assert low is not None
        assert high is not None
        basis = replace(low.basis(column), edition=printed_in.split()[0])
        found[printed_in] = Bounds("HBW", low.get(column), high.get(column), "HBW", basis)
    return found


def _brinell(column: str) -> dict[str, Bounds]:
    rows = _brinell_rows(column)
    printed = rows["2009 layout"]
    if not _are_disputed(rows):
        return {"hardness_brinell": replace(printed, basis=replace(printed.basis, edition=_facts().edition))}
    recalled = rows["2013 recalled"]
    note = (
        f"sources disagree: printed tables give {printed.min} to {printed.max}, "
        f"another source recalls {recalled.min} to {recalled.max} for 2013; name the edition to judge on this scale"
    )
    # The printed figures are those of 1999; none was seen under 2013.
    basis = replace(rows["1999"].basis, clause="Table 3", checked="conflict", note=note)
    return {"hardness_brinell": Bounds("HBW", printed.min, printed.max, "HBW", basis)}


def _are_disputed(rows: dict[str, Bounds]) -> bool:
    return len({(one.min, one.max) for one in rows.values()}) > 1


def disputed_brinell(column: str) -> dict[str, dict[str, Bounds]]:
    """Return the Brinell limits by edition where the sources disagree: classes 8.8 to 12.9."""
    rows = _brinell_rows(column)
    if not _are_disputed(rows):
        return {}
    return {"HBW": {name.split()[0]: one for name, one in rows.items()}}


def _surface(column: str) -> dict[str, Bounds]:
    """Cap of the surface hardness; Table 3, footnotes h to j. The core + 30 HV rule stands beside it."""
    row = table_3("surface_HV_max")
    cap = row.get(column)
    rise = table_3("surface_over_core_max").get(column)
    if rise is None:
        return {}
    basis = row.basis(column, note=f"and not more than {rise} HV above the core of the same piece, both in HV 0.3")
    return {"surface_hardness_vickers": Bounds("HV 0.3", None, cap, "HV", basis)}


def surface_over_core(column: str) -> Bounds | None:
    """Return the rise of the surface over the core of the same piece that Table 3 permits."""
    row = table_3("surface_over_core_max")
    rise = row.get(column)
    return None if rise is None else Bounds("HV 0.3", None, rise, "HV", row.basis(column))


def _decarburization(size: MetricSize, column: str) -> dict[str, Bounds]:
    """Depth G of complete decarburization (Table 3) and height E of the zone without any (clause 9.10)."""
    depth = table_3("G_max")
    most = depth.get(column)
    if most is None:
        return {}
    found = {"decarburization_depth": Bounds("G", None, most, "mm", depth.basis(column))}
    row = _facts().table("decarburisation").find(size.pitch)
    name = f"E_min_{'8.8' if column.startswith('8.8') else column}"
    if row is not None and (least := row.get(name)) is not None:
        found["non_decarburized_height"] = Bounds("E", least, None, "mm", row.basis(name))
    return found


def _tempering(code: str) -> dict[str, Bounds]:
    rows = [row for row in _facts().table("table_2").rows.values() if row.word("class") == code]
    least = min((row.number("tempering_min") for row in rows if row.get("tempering_min") is not None), default=None)
    if least is None:
        return {}
    return {"tempering_temperature": Bounds("t", least, None, "Cel", rows[0].basis("tempering_min"))}
