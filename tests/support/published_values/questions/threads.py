"""Questions about sizes and limits of ISO metric threads."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from boltwright_server.designations import parse_thread
from boltwright_server.quantities import Refusal
from boltwright_server.threads import ToleranceClass, find_size, limits, thread_fit
from boltwright_server.threads.iso_metric import in_selection_for_fasteners

from ..check import Cells, Check
from ..comparison import Answer, Differs, Rounded
from ..thread_rules import by_rule, formula, table_cell

_UM = Decimal("0.001")
_ARITHMETIC = re.compile(r"([\d.]+) ([+-]) ([\d.]+) is ([\d.]+)$")


def thread_sizes(row: Cells, check: Check) -> Answer:
    """Whether a plan or selection lists the size, in which series and choice."""
    size = find_size(Decimal(row["d"]), Decimal(row["pitch"]))
    if check.standard == "ISO 262" and not in_selection_for_fasteners(size):
        return {"series": "not selected"}
    return {"series": size.series, "choice": Decimal(size.choice)}


def thread_limits(row: Cells, check: Check) -> Answer:
    """Every limit of size of a thread, under the names of the reproductions."""
    return limits_by_name(row["designation"])


def limits_by_name(designation: str) -> dict[str, Decimal | None]:
    thread = parse_thread(designation)
    assert thread.canonical == parse_thread(thread.canonical).canonical
    found = limits(thread.size, thread.classes[0])
    of = found.limits
    if found.member == "internal":
        assert of["major_diameter"].max is None, "ISO sets no greatest major diameter of an internal thread"
        return {
            "D_min": of["major_diameter"].min,
            "D2_min": of["pitch_diameter"].min,
            "D2_max": of["pitch_diameter"].max,
            "D1_min": of["minor_diameter"].min,
            "D1_max": of["minor_diameter"].max,
            "D_max_ref": found.reference["major_diameter"].max,
        }
    return {
        "d_min": of["major_diameter"].min,
        "d_max": of["major_diameter"].max,
        "d2_min": of["pitch_diameter"].min,
        "d2_max": of["pitch_diameter"].max,
        "minor_max_flat": of["minor_diameter"].max,
        "d3_min": of["root_diameter"].min,
        "d3_max_rounded": of["root_diameter"].max,
        "d3_stress": found.reference["stress_minor_diameter"].max,
        "R_min": of["root_radius"].min,
    }


def thread_limits_disagreement(row: Cells, check: Check) -> Answer:
    """A published cell that is known to differ: it must still differ, and for the reason given."""
    value = limits_by_name(row["designation"])[row["quantity"]]
    assert value is not None
    reason = row["reason"] if _reason_holds(row, value) else f"not for this reason: {value}"
    return {"published": Differs(value), "expected": value, "reason": reason}


def _reason_holds(row: Cells, value: Decimal) -> bool:
    """The cause as it can be recomputed: the other edition's formula, a slip of 1 mm, a sum that does not add up."""
    published, reason = Decimal(row["published"]), row["reason"]
    if "0.433013 P" in reason:
        thread = parse_thread(row["designation"])
        d2_max = limits_by_name(row["designation"])["d2_max"]
        assert d2_max is not None
        other = d2_max - Decimal("0.433013") * thread.size.pitch
        return published == other.quantize(_UM, ROUND_HALF_UP)
    if reason.startswith("1 um"):
        return abs(value - published) == _UM
    if "1 mm too low" in reason:
        return value - published == 1
    sum_ = _ARITHMETIC.search(reason)
    if sum_ is None:
        return False
    left, right, result = Decimal(sum_[1]), Decimal(sum_[3]), Decimal(sum_[4])
    return (left + right if sum_[2] == "+" else left - right) == result == value


def rule_exceptions(row: Cells, check: Check) -> Answer:
    """A cell that the formula of ISO 965-1 misses: the formula, its rounded value, and what the table holds."""
    pitch = Decimal(row["pitch"])
    band = None if row.get("d_over", "-") == "-" else (Decimal(row["d_over"]), Decimal(row["d_up_to"]))
    exact = formula(row["cell"], pitch, band)
    return {
        "formula": Rounded(Fraction(exact)),
        "by_rule": by_rule(row["cell"], pitch, band),
        "printed": table_cell(row["cell"], pitch, band),
    }


def not_standardised(row: Cells, check: Check) -> Answer:
    """A combination that the standard leaves empty: the code of the refusal."""
    thread = parse_thread(row["designation"])
    try:
        limits(thread.size, thread.classes[0])
    except Refusal as refusal:
        return {"code": refusal.code}
    return {"code": "answered"}


def engagement(row: Cells, check: Check) -> Answer:
    """Lengths of thread engagement, on a class that every size has."""
    found = limits(parse_thread(row["thread"]).size, ToleranceClass.parse("4h")).engagement
    return {
        "short_max": found["short"].max,
        "normal_over": found["normal"].min,
        "normal_max": found["normal"].max,
        "long_over": found["long"].min,
    }


def fit(row: Cells, check: Check) -> Answer:
    """Clearances and overlap of an external and an internal thread."""
    external, internal = parse_thread(row["external"]), parse_thread(row["internal"])
    found = thread_fit(external.size, external.classes[0], internal.classes[0])
    answer = {name: getattr(found.clearances[f"{name[:5]}_diameter"], name[6:]) for name in _CLEARANCES}
    answer |= {f"overlap_{end}": getattr(found.overlap, end) for end in ("min", "max")}
    answer |= {f"ratio_{end}": getattr(found.overlap_ratio, end) for end in ("min", "max")}
    assert found.clearances["major_diameter"].max is None
    return {name: answer[name] for name in check.expected}


_CLEARANCES = ("pitch_min", "pitch_max", "major_min", "minor_min", "minor_max")

QUESTIONS = {
    "thread_engagement": engagement,
    "thread_fit": fit,
    "thread_sizes": thread_sizes,
    "thread_limits": thread_limits,
    "thread_limits_disagreement": thread_limits_disagreement,
    "thread_rule_exceptions": rule_exceptions,
    "thread_not_standardised": not_standardised,
}
