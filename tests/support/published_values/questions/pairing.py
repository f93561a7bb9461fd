"""Questions about nuts for a bolt, and estimates between hardness scales."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.mechanical.hardness_conversion import convert_hardness
from boltwright_server.mechanical.pairing import NutPair
from boltwright_server.specification.pairing import pairing_of

from ..check import Cells, Check
from ..comparison import Answer, Within


def pairing(row: Cells, check: Check) -> Answer:
    """Whether a nut holds a bolt, its proof load, and whether that lies below the tensile load of the bolt."""
    found = pairing_of(f"{row['thread']} - {row['bolt']}").pairing
    nut = next(one for one in found.nuts if one.nut == row["nut"] and one.form == row.get("form", one.form))
    load = found.tensile_load
    answer: dict[str, object] = {"holds": "yes" if nut.holds else "no", "warned": _warned(nut)}
    if "tensile_load" in row:
        answer["tensile_load"] = None if load is None else load.min
        answer["proof_load"] = None if nut.proof_load is None else nut.proof_load.min
    return answer


def _warned(nut: NutPair) -> str:
    return "yes" if any("below the tensile load" in text for text in nut.warnings) else "no"


def hardness_conversion(row: Cells, check: Check) -> Answer:
    """The estimate of one scale from another, at a row of the table."""
    table = {"ISO 18265": "ISO 18265 A.1", "ASTM E140": "ASTM E140 1"}[check.standard]
    found = convert_hardness(Decimal(row["value"]), row["from"], row["to"], table)
    if "margin" in row:
        return {"estimate": Within(found.estimate, Decimal(row["margin"]))}
    return {"estimate": found.estimate}


QUESTIONS = {"pairing": pairing, "hardness_conversion": hardness_conversion}
