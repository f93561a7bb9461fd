"""From the set-points of one station to the entries of a register image: integers, inwards, whole or not at all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..quantities import NotUnderstood, Refusal, UnknownName, near_names
from ..quantities.derivation import Rounding, RoundingRule
from ..quantities.units import dimension, factor
from .figures import SetPoint, SetPoints, Station
from .register_image import DOUBTFUL, MOST_ENTRIES, OF_A_STATE, RUN_ON, TRIAL

#: Characteristic -> its code in an image; numbers are never used again. An internal pitch diameter has its own.
CODES = {
    "thread_pitch_diameter": 1,
    "thread_major_diameter": 3,
    "thread_minor_diameter": 4,
    "rolling_blank_diameter": 5,
    "tapping_bore": 6,
    "cut_off_length": 7,
    "width_across_flats": 10,
    "head_height": 11,
    "nut_height": 12,
    "length": 13,
    "body_diameter": 14,
    "head_diameter": 15,
    "flange_diameter": 16,
    "hardness_core": 30,
}
_INTERNAL_PITCH_DIAMETER = 2
#: Code of a scale -> unit and size of one count; lengths take the finer one only where they need it.
SCALES = {
    1: ("mm", "0.001"),
    2: ("mm", "0.0001"),
    3: ("N", "1"),
    4: ("Cel", "0.1"),
    5: ("HV", "1"),
    6: ("HRC", "0.01"),
    7: ("g", "0.001"),
    8: ("MPa", "0.1"),
}
_DOUBTS = ("memory", "conflict")


class PlantFiguresMissing(Refusal):
    """A figure of the station is missing: no image is made of the others alone."""

    code = "plant_figures_missing"


@dataclass(frozen=True, slots=True)
class Entry:
    """One characteristic of an image, in counts of its scale; None is an open side."""

    id: str
    code: int
    scale: int
    stop_min: int | None
    warn_min: int | None
    target: int | None
    warn_max: int | None
    stop_max: int | None
    checked: str


def entries_of(found: SetPoints, stage: str, wanted: Sequence[str], internal: bool) -> tuple[Entry, ...]:
    """Return the entries of a station, in the order asked for.

    Raises:
        NotUnderstood: too many, one twice, or a station that the part does not pass.
        UnknownName: a characteristic that an image does not know, or that the station has not.
        PlantFiguresMissing: a figure that the plant has to give for; `needs` names the members.
    """
    station = next((one for one in found.stations if one.id == stage), None)
    if station is None:
        text = f"{found.designation} passes {', '.join(one.id for one in found.stations)}, not {stage}"
        raise NotUnderstood(text, member="registers/stage", code="contradiction")
    if not 1 <= len(wanted) <= MOST_ENTRIES or len(set(wanted)) < len(wanted):
        text = f"characteristics are 1 to {MOST_ENTRIES}, each named once"
        raise NotUnderstood(text, member="registers/characteristics", code="out_of_range")
    return tuple(_entry(_set_point(found, station, id, at), id, internal) for at, id in enumerate(wanted))


def _set_point(found: SetPoints, station: Station, id: str, at: int) -> SetPoint:
    member = f"registers/characteristics/{at}"
    if id in CODES and id in station.set_points:
        return station.set_points[id]
    missing = [one for one in found.needs if one.station == station.id and one.set_point == id]
    if missing:
        needs = [{"station": one.station, "set_point": one.set_point, "member": one.member} for one in missing]
        text = f"{id} lacks {', '.join(one.member for one in missing)}: no image is made of the other figures alone"
        raise PlantFiguresMissing(text, member=member, more={"needs": needs})
    known = [name for name in CODES if name in station.set_points]
    near = near_names(id, known) or tuple(known[:4])
    text = f"{id[:60]!r} has no code of an image at {station.id}; this station has {', '.join(known) or 'none'}"
    raise UnknownName(text, member=member, code="unknown_characteristic", nearest=near)


def _entry(point: SetPoint, id: str, internal: bool) -> Entry:
    scale = _scale(point)
    unit, count = SCALES[scale]
    times = factor(point.unit, unit) / Fraction(count)

    def counts(figure: Decimal | None, rule: RoundingRule) -> int | None:
        rounded = None if figure is None else Rounding(rule, "1").apply(Fraction(figure) * times)
        return None if rounded is None else int(rounded)

    one_sided = (point.min is None) != (point.max is None)
    code = _INTERNAL_PITCH_DIAMETER if internal and id == "thread_pitch_diameter" else CODES[id]
    return Entry(
        id,
        code,
        scale,
        counts(point.min, "up"),
        None if one_sided else counts(point.warning_min, "up"),
        None if one_sided else counts(point.target, "half even"),
        None if one_sided else counts(point.warning_max, "down"),
        counts(point.max, "down"),
        point.basis.checked,
    )


def _scale(point: SetPoint) -> int:
    """Return the scale of a figure; of lengths the coarser one where every figure in mm is a multiple of it.

    Raises:
        NotUnderstood: no scale for such a unit.
    """
    if dimension(point.unit) == "length":
        figures = (point.min, point.target, point.max, point.warning_min, point.warning_max)
        fine = point.unit != "in" and any(
            figure is not None and (Fraction(figure) * factor(point.unit, "mm") * 1000).denominator > 1
            for figure in figures
        )
        return 2 if fine else 1
    found = next((code for code, (unit, _) in SCALES.items() if unit == point.unit), None)
    if found is None:
        text = f"an image has no scale for {point.unit}"
        raise NotUnderstood(text, member="registers/characteristics", code="unit_does_not_fit")
    return found


def flags_of(found: SetPoints, stage: str, entries: Sequence[Entry], trial: bool, run_on: bool) -> int:
    """Return the flags: trial, a doubtful limit, limits of a state, run on after expiry."""
    points = next(one for one in found.stations if one.id == stage).set_points
    doubtful = any(one.checked in _DOUBTS for one in entries)
    of_a_state = not all(points[one.id].final for one in entries)
    return TRIAL * trial | DOUBTFUL * doubtful | OF_A_STATE * of_a_state | RUN_ON * run_on
