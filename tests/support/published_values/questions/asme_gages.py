"""Questions about gages to ASME B1.2 and ASME B1.16M: the basic size of each and the end that its tolerance gives."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.designations import parse_thread
from boltwright_server.gauges import GaugeDimension, gauge_sizes

from ..check import Cells, Check
from ..comparison import Answer, Differs, Within

#: Gauges whose tolerance goes plus from the basic size; for a setting plug it depends on the dimension.
_PLUS = ("not_go_screw_ring", "go_screw_plug", "not_go_plain_snap", "go_plain_plug")
_SETTING_PLUS = {
    "setting_plug_for_go_screw_ring": ("major_diameter",),
    "setting_plug_for_not_go_screw_ring": ("major_diameter", "pitch_diameter"),
}
_MM_PER_INCH = Decimal("25.4")
_CONVERTED = Decimal("0.0005")


def _ends(row: Cells, check: Check) -> tuple[Decimal, Decimal]:
    """Return the basic size and the other end."""
    found = _dimension(row, check)
    assert found.min is not None
    assert found.max is not None
    plus = row["dimension"] in _SETTING_PLUS.get(row["gauge"], ()) or row["gauge"] in _PLUS
    return (found.min, found.max) if plus else (found.max, found.min)


def _dimension(row: Cells, check: Check) -> GaugeDimension:
    thread = parse_thread(row["designation"])
    held = gauge_sizes(thread.size, thread.classes[0], check.standard)
    gauges = {gauge.id: gauge for gauge in held.gauges}
    return gauges[row["gauge"]].dimensions[row["dimension"]]


def limits(row: Cells, check: Check) -> Answer:
    """Both ends of the limits of a new gage."""
    basic, other = _ends(row, check)
    return {"basic": basic, "other": other}


def size(row: Cells, check: Check) -> Answer:
    """The basic size of a gage."""
    return {"size": _ends(row, check)[0]}


def published(row: Cells, check: Check) -> Answer:
    """The basic size of a gage, in the unit of the listing."""
    basic = _ends(row, check)[0]
    return {"published": Within(basic * _MM_PER_INCH, _CONVERTED) if row["unit"] == "mm" else basic}


def tolerance(row: Cells, check: Check) -> Answer:
    """The tolerance of a new gage."""
    basic, other = _ends(row, check)
    return {"tolerance": abs(basic - other)}


def disagreement(row: Cells, check: Check) -> Answer:
    """A published cell that is known to differ, and what is answered in its place."""
    basic, other = _ends(row, check)
    value = other if row["seen_in"] == "computed comparison" else basic
    return {"published": Differs(value), "expected": value}


QUESTIONS = {
    "asme_gage_limits": limits,
    "asme_gage_size": size,
    "asme_gage_published": published,
    "asme_gage_tolerance": tolerance,
    "asme_gage_disagreement": disagreement,
}
