"""Questions about screw gauges: limits new and worn, middle and half width of each zone, how a gauge is applied."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.designations import parse_thread
from boltwright_server.gauges import Gauge, GaugeDimension, condition, gauge_sizes
from boltwright_server.quantities import Refusal
from boltwright_server.standards import standard
from boltwright_server.threads.geometry import pitch_diameter, tabulated
from boltwright_server.threads.iso_metric_tolerances import tolerances

from ..check import Cells, Check
from ..comparison import Answer, Differs, Within

_PLACES = {
    "GO_ring_major": ("go_screw_ring", "major_diameter"),
    "GO_ring_pitch": ("go_screw_ring", "pitch_diameter"),
    "GO_ring_minor": ("go_screw_ring", "minor_diameter"),
    "GO_ring_wear_limit": ("go_screw_ring", "pitch_diameter"),
    "NOT_GO_ring_pitch": ("not_go_screw_ring", "pitch_diameter"),
    "NOT_GO_ring_minor": ("not_go_screw_ring", "minor_diameter"),
    "NOT_GO_ring_wear_limit": ("not_go_screw_ring", "pitch_diameter"),
    "GO_plug_major": ("go_screw_plug", "major_diameter"),
    "GO_plug_pitch": ("go_screw_plug", "pitch_diameter"),
    "GO_plug_wear_limit": ("go_screw_plug", "pitch_diameter"),
    "NOT_GO_plug_major": ("not_go_screw_plug", "major_diameter"),
    "NOT_GO_plug_pitch": ("not_go_screw_plug", "pitch_diameter"),
    "NOT_GO_plug_wear_limit": ("not_go_screw_plug", "pitch_diameter"),
    "GO_check_plug_for_GO_ring_pitch": ("go_check_plug_for_go_screw_ring", "pitch_diameter"),
    "NOT_GO_check_plug_for_GO_ring_pitch": ("not_go_check_plug_for_go_screw_ring", "pitch_diameter"),
    "wear_check_plug_for_GO_ring_pitch": ("wear_check_plug_for_go_screw_ring", "pitch_diameter"),
    "GO_check_plug_for_NOT_GO_ring_pitch": ("go_check_plug_for_not_go_screw_ring", "pitch_diameter"),
    "NOT_GO_check_plug_for_NOT_GO_ring_pitch": ("not_go_check_plug_for_not_go_screw_ring", "pitch_diameter"),
    "wear_check_plug_for_NOT_GO_ring_pitch": ("wear_check_plug_for_not_go_screw_ring", "pitch_diameter"),
    "check_plug_pitch": ("wear_check_plug_for_go_screw_ring", "pitch_diameter"),
}


def gauge_sizes_by_name(row: Cells, check: Check) -> Answer:
    """One figure of one gauge under the name of the reproduction."""
    quantity = row["quantity"].replace("_pitch_wear_limit", "_wear_limit")
    value = _value(quantity, row["size"], row["class"])
    if "published" not in row:
        return {"value": value}
    if row["agree"] == "no":
        return {"published": Differs(value)}
    return {"published": Within(value + _unrounding(quantity, row["size"]), Decimal(row["allowed_difference"]))}


def _value(quantity: str, size: str, tolerance: str) -> Decimal:
    thread = parse_thread(f"{size}-{tolerance}")
    cells = tolerances(thread.size, thread.classes[0])
    if quantity == "basic_D2":
        return tabulated(pitch_diameter(thread.size.d, thread.size.pitch))
    name, _, f1 = quantity.partition("_F1_")
    half_width = name.endswith("_tolerance")
    place = _PLACES.get(name.removesuffix("_tolerance").removesuffix("_min"))
    if place is None:
        row = standard("iso_1502_1996").table("table_pitch_diameter").find_in_band(cells.pitch)
        assert row is not None
        return row.number(quantity) / 1000
    gauges = {gauge.id: gauge for gauge in gauge_sizes(thread.size, thread.classes[0]).gauges}
    if f1 == "0.1P":
        # The engine publishes F1 = H/8 and says that it is in conflict; the other recalled value is 0.1 P.
        pitch = _figure(gauges[place[0]].dimensions["pitch_diameter"], name, half_width)
        return pitch + (1 if "plug" in name else -1) * thread.size.pitch / 5
    return _figure(gauges[place[0]].dimensions[place[1]], name, half_width)


def _figure(found: GaugeDimension, name: str, half_width: bool) -> Decimal:
    if name.endswith("_wear_limit"):
        assert found.wear_limit is not None
        return found.wear_limit
    if name.endswith("_min"):
        assert found.min is not None
        assert found.max is None
        return found.min
    assert found.min is not None
    assert found.max is not None
    return (found.max - found.min) / 2 if half_width else (found.max + found.min) / 2


def _unrounding(quantity: str, size: str) -> Decimal:
    """The published table starts from unrounded basic diameters; the standard's formulas from rounded ones."""
    if not quantity.startswith(("basic", "GO_plug_pitch", "GO_plug_wear", "NOT_GO_plug")) or "tolerance" in quantity:
        return Decimal(0)
    of = parse_thread(size).size
    return pitch_diameter(of.d, of.pitch) - tabulated(pitch_diameter(of.d, of.pitch))


def disagreement(row: Cells, check: Check) -> Answer:
    """A published cell that is known to differ: by the rounding of the basic diameter and no more."""
    value, published = _value(row["quantity"], row["size"], row["class"]), Decimal(row["published"])
    digit = Decimal(1).scaleb(published.as_tuple().exponent)  # type: ignore[arg-type]
    assert abs(value + _unrounding(row["quantity"], row["size"]) - published) <= max(digit, Decimal("0.0001"))
    return {"published": Differs(value), "expected": value}


def zones(row: Cells, check: Check) -> Answer:
    """Where the pitch diameter of a gauge lies against the product limit that it guards."""
    thread = parse_thread(row["designation"])
    gauges = {gauge.id: gauge for gauge in gauge_sizes(thread.size, thread.classes[0]).gauges}
    zone = gauges[row["gauge"]].dimensions["pitch_diameter"].zone
    assert zone is not None
    assert zone.unit == "um"
    return {
        "product_limit": zone.product_limit,
        "low": zone.low,
        "high": zone.high,
        "wear": zone.wear,
        "inside": {1: "above", -1: "below"}.get(zone.inward),
        "outside": zone.outside,
    }


def limits(row: Cells, check: Check) -> Answer:
    """Both limits of a dimension of a new gauge, and the size at which it is worn out."""
    found = _gauge(row, check).dimensions[row["dimension"]]
    return {"min": found.min, "max": found.max, "wear_limit": found.wear_limit}


def application(row: Cells, check: Check) -> Answer:
    """How far a gauge may enter, and which way it wears."""
    found = _gauge(row, check)
    return {"turns_allowed": found.turns_allowed, "wears": found.wears}


def refusal(row: Cells, check: Check) -> Answer:
    """Whether a standard has gauges for a thread: the code of the refusal, or that it answers."""
    thread = parse_thread(row["designation"])
    try:
        gauge_sizes(thread.size, thread.classes[0], check.standard)
    except Refusal as refused:
        return {"answer": refused.code}
    return {"answer": "given"}


def measured_condition(row: Cells, check: Check) -> Answer:
    """Whether a gauge of that pitch diameter serves, and how far it lies beyond the product limit in um."""
    found = condition(_gauge(row, check), "pitch_diameter", Decimal(row["measured"]), "mm")
    return {"status": found.status, "outside_um": 1000 * (found.passes_outside or 0)}


def _gauge(row: Cells, check: Check) -> Gauge:
    thread = parse_thread(row["designation"])
    held = gauge_sizes(thread.size, thread.classes[0], check.standard)
    return next(gauge for gauge in held.gauges if gauge.id == row["gauge"])


QUESTIONS = {
    "gauge_sizes": gauge_sizes_by_name,
    "gauge_disagreement": disagreement,
    "gauge_zones": zones,
    "gauge_limits": limits,
    "gauge_application": application,
    "gauge_condition": measured_condition,
    "gauge_refusal": refusal,
}
