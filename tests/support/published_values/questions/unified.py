"""Questions about sizes, limits and stress areas of Unified inch threads."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from boltwright_server.designations import parse_thread
from boltwright_server.threads import ThreadLimits, UnifiedClass, UnifiedSize, limits
from boltwright_server.threads.unified_stress_area import nominal_stress_area, unrounded_stress_area

from ..check import Cells, Check
from ..comparison import Answer, Differs
from ..older_unified import older_limits


def unified_limits(row: Cells, check: Check) -> Answer:
    """Every limit of size of a thread, under the names of the reproductions."""
    return _by_name(row["designation"])


def _read(designation: str) -> tuple[UnifiedSize, UnifiedClass]:
    thread = parse_thread(designation)
    assert thread.canonical == parse_thread(thread.canonical).canonical
    assert isinstance(thread.size, UnifiedSize)
    assert isinstance(thread.classes[0], UnifiedClass)
    return thread.size, thread.classes[0]


def _by_name(designation: str) -> dict[str, Decimal | None]:
    size, wanted = _read(designation)
    found = limits(size, wanted)
    of = found.limits
    both = {
        "basic_major": size.d,
        "major_min": of["major_diameter"].min,
        "pitch_max": of["pitch_diameter"].max,
        "pitch_min": of["pitch_diameter"].min,
        "pitch_tolerance": found.tolerances["pitch_diameter"].max,
    }
    if found.member == "internal":
        assert of["major_diameter"].max is None, "ASME B1.1 sets no greatest major diameter of an internal thread"
        return {
            **both,
            "minor_min": of["minor_diameter"].min,
            "minor_max": of["minor_diameter"].max,
            "minor_tolerance": found.tolerances["minor_diameter"].max,
        }
    hot = found.reference.get("major_diameter_unfinished_hot_rolled")
    return {
        **both,
        "allowance": found.reference["allowance"].max,
        "major_max": of["major_diameter"].max,
        "major_min_hot": None if hot is None else hot.min,
        "un_minor_max": of["minor_diameter"].max,
        "unr_minor_max": of["root_diameter"].max,
        "unr_root_radius_min": of["root_radius"].min if "root_radius" in of else None,
        "pitch_max_coated": _reference(found, "pitch_diameter_after_coating"),
        "major_max_coated": _reference(found, "major_diameter_after_coating"),
    }


def _reference(found: ThreadLimits, id: str) -> Decimal | None:
    return found.reference[id].max if id in found.reference else None


def unified_limits_disagreement(row: Cells, check: Check) -> Answer:
    """A printed cell that is known to differ: it must still differ, and for the reason given."""
    value = _by_name(row["designation"])[row["quantity"]]
    assert value is not None
    older, habit = older_limits(*_read(row["designation"]))[row["quantity"]]
    explained = older == Decimal(row["published"])
    reason = habit if explained else "one unit in the last place of one print, no rounding habit gives it"
    return {"published": Differs(value), "expected": value, "reason": reason}


def unified_worked_example(row: Cells, check: Check) -> Answer:
    """One figure of a worked calculation."""
    return {"value": _by_name(row["designation"])[row["quantity"]]}


def unified_stated_engagement(row: Cells, check: Check) -> Answer:
    """Tolerance and limits of the pitch diameter of a thread with a stated length of engagement."""
    found = limits(*_read(row["designation"]))
    pitch = found.limits["pitch_diameter"]
    return {"pitch_tolerance": found.tolerances["pitch_diameter"].max, "pitch_max": pitch.max, "pitch_min": pitch.min}


def unified_basic_dimensions(row: Cells, check: Check) -> Answer:
    """Basic diameters of a size; the external and the internal thread have the same."""
    size, wanted = _read(f"{row['size']}-2B")
    of = limits(size, wanted).limits
    external = limits(size, UnifiedClass.parse("2A")).limits["pitch_diameter"]
    assert external.nominal == of["pitch_diameter"].nominal
    return {
        "basic_major": size.d,
        "basic_pitch": of["pitch_diameter"].nominal,
        "basic_minor": of["minor_diameter"].nominal,
    }


def unified_stress_area(row: Cells, check: Check) -> Answer:
    """The printed area, and whether the formula gives it."""
    size, _ = _read(f"{row['size']}-2A")
    printed = Decimal(row["As"])
    computed = unrounded_stress_area(size).quantize(printed, rounding=ROUND_HALF_UP)
    return {"As": nominal_stress_area(size).min, "formula": "equal" if computed == printed else "differs"}


QUESTIONS = {
    "unified_limits": unified_limits,
    "unified_limits_disagreement": unified_limits_disagreement,
    "unified_worked_example": unified_worked_example,
    "unified_stated_engagement": unified_stated_engagement,
    "unified_basic_dimensions": unified_basic_dimensions,
    "unified_stress_area": unified_stress_area,
}
