"""The set-up sheet of one station: for the person at the machine, the figures and what is done with them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..specification import Specification
from ..specification.characteristic import traits
from ..stations import SetPoint, SetPoints, Station
from .bases import Bases, Figure, Source
from .drawings import part_drawing, thread_drawing
from .drawings.blank import Turned, blank_drawing, bored_drawing
from .figures import unit_written
from .names import capital, name_of

#: Station -> its name on the floor, and the state that leaves it.
NAMES = {
    "cut_off": "Cut-off",
    "heading": "Heading",
    "extrusion": "Extrusion",
    "thread_rolling": "Thread rolling",
    "hot_forging": "Hot forging",
    "piercing": "Piercing",
    "tapping": "Tapping",
    "hardening": "Hardening",
    "coating": "Coating",
}
#: What a figure that is no characteristic is measured with: common practice.
_INSTRUMENTS = {
    "rolling_blank_diameter": "micrometer",
    "cut_off_length": "caliper",
    "blank_mass": "balance, mean of ten",
    "tapping_bore": "plug gauge or bore gauge",
    "tempering_temperature": "thermocouple at the charge",
    "pierce_diameter": "tool drawing",
    "web": "caliper",
}
_THREADED = ("thread_rolling", "tapping", "coating")
_FINISHED = ("thread_rolling", "tapping", "hardening", "coating")
#: Pieces that approve a set-up, one box each on the sheet.
FIRST_PIECES = 5
ZONE_RULE = "On a stop limit is inside, beyond it the machine stops. Between the warning lines is green."
FIRST_PIECE_RULE = (
    "Five pieces in a row within the warning lines, in every figure above. A piece between warning and stop: start "
    "again; two in a row: adjust. Beyond a stop: stop and keep apart."
)
MARK_RULE = "Mark of the die compared with the order, letter by letter."
SIGNED = ("Mark read", "Checked by (name)", "Date, time", "Released by (name)")


@dataclass(frozen=True, slots=True)
class SetUpLine:
    """One figure of the station with everything that the person at the machine needs of it."""

    name: str
    stop_min: Figure
    warning_min: Figure
    target: Figure
    warning_max: Figure
    stop_max: Figure
    unit: str
    instrument: str
    source: Source


@dataclass(frozen=True, slots=True)
class SetUpSheet:
    """Everything that the sheet shows, in its order."""

    designation: str
    station: str
    state: str
    drawing: str | None
    lines: list[SetUpLine]
    gauges: list[str]
    pieces_at_risk: str | None
    missing: list[str]
    notices: list[str]
    cautions: list[str]
    bases: list[tuple[Source, list[tuple[str, str]]]]
    first_pieces: int = FIRST_PIECES
    zone_rule: str = ZONE_RULE
    first_piece_rule: str = FIRST_PIECE_RULE
    mark_rule: str = MARK_RULE
    signed: tuple[str, ...] = SIGNED


def set_up_sheet(wanted: Specification, found: SetPoints, station: Station) -> SetUpSheet:
    """Return the sheet of a station."""
    bases = Bases()
    lines = [_line(bases, wanted, id, point) for id, point in station.set_points.items()]
    needs: dict[str, list[str]] = {}
    for need in found.needs:
        if need.station == station.id:
            needs.setdefault(need.member, []).append(name_of(need.set_point))
    tolerance = None if wanted.tolerance is None else wanted.tolerance.member
    gauges = wanted.gauges.gauges if wanted.gauges is not None and station.id in _THREADED else ()
    others = tuple(f"{name}: " for name in NAMES if name != station.id)
    return SetUpSheet(
        found.designation,
        NAMES[station.id],
        station.state,
        state_drawing(wanted, found, station),
        lines,
        [one.name for one in gauges if one.member == tolerance],
        None if station.pieces_at_risk is None else f"{station.pieces_at_risk:f}",
        [f"{member} ({', '.join(names)})" for member, names in needs.items()],
        [sentence(_notice(line)) for line in found.notices if not line.startswith(others)],
        list(found.cautions),
        bases.entries(),
    )


def sentence(text: str) -> str:
    """Return a text that ends in one full stop."""
    return text if text.endswith(".") else f"{text}."


def _notice(line: str) -> str:
    """Write a notice as a sentence; a station stands in it by its id."""
    id, colon, rest = line.partition(": ")
    return f"{NAMES[id]}: {rest}" if colon and id in NAMES else capital(line)


def _line(bases: Bases, wanted: Specification, id: str, point: SetPoint) -> SetUpLine:
    source = bases.source(point.basis, f"line-{id}", name_of(id).lower())
    held = wanted.characteristics.get(id)
    known = traits().get(id)
    instrument = held.instrument if held is not None else known.instrument if known is not None else ""
    return SetUpLine(
        name_of(id),
        Figure.of(point.min, source),
        Figure.of(point.warning_min, source),
        Figure.of(point.target, source),
        Figure.of(point.warning_max, source),
        Figure.of(point.max, source),
        unit_written(point.unit),
        instrument or _INSTRUMENTS.get(id, "–"),
        source,
    )


def state_drawing(wanted: Specification, found: SetPoints, station: Station) -> str | None:
    """Return the drawing of the part as it leaves the station, or None where figures for it are missing."""
    if wanted.dimensions is None:
        return thread_drawing(wanted)
    if station.id in _FINISHED:
        return part_drawing(wanted)
    title, unit = f"{found.designation}, {station.state}", wanted.dimensions.unit
    targets = {
        id: point.target for one in found.stations for id, point in one.set_points.items() if point.target is not None
    }
    if wanted.item.kind == "nut":
        outer, height, bore = (targets.get(id) for id in ("width_across_flats", "nut_height", "tapping_bore"))
        if outer is None or height is None or bore is None:
            return None
        return bored_drawing(title, outer, bore, height, {"outer": "s", "bore": "D1", "height": "m"}, unit)
    stretches, total = _cut(targets) if station.id == "cut_off" else _headed(wanted, targets)
    return blank_drawing(title, stretches, total, unit) if stretches else None


def _cut(targets: dict[str, Decimal]) -> tuple[list[Turned], Decimal | None]:
    """The wire as it is cut off: its diameter follows from volume and length."""
    volume, length = targets.get("blank_volume"), targets.get("cut_off_length")
    if volume is None or length is None:
        return [], None
    diameter = (volume * 4 / length / Decimal("3.14159265358979")).sqrt().quantize(Decimal("0.01"))
    return [Turned(diameter, length, "d")], length


def _headed(wanted: Specification, targets: dict[str, Decimal]) -> tuple[list[Turned], Decimal | None]:
    """The head, the plain shank, the blank of the thread: as far as their figures are known."""
    across, height = (targets.get("width_across_flats") or targets.get("head_diameter")), targets.get("head_height")
    blank, length = targets.get("rolling_blank_diameter"), targets.get("length")
    if across is None or height is None or blank is None or length is None:
        return [], None
    dims = wanted.dimensions
    shank, reference = targets.get("body_diameter"), None if dims is None else dims.dimensions.get("thread_length")
    threaded = None if reference is None else reference.nominal
    symbol = "s" if "width_across_flats" in targets else "dk"
    first = Turned(across, height, symbol)
    if shank is None or threaded is None or threaded >= length:
        return [first, Turned(blank, length, "b")], length
    return [first, Turned(shank, length - threaded, "ds"), Turned(blank, threaded, "b")], None
