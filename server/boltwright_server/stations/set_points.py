"""Set-points of every station that a designation passes, from the specification and what the plant gave.

Final limits become limits of a state by the plant's paired readings or by the geometry of a coating; without them the
answer says so. What is missing is asked for and never assumed.
"""

from __future__ import annotations

from dataclasses import replace

from ..quantities import NotUnderstood
from ..specification import Specification
from .bench import Bench
from .cold_heading import cut_off, extrusion, heading
from .figures import STATES, SetPoints, Station
from .hardening import hardening
from .hot_forging import hot_forging, piercing, tapping
from .plant import OTHER_AIMS, TOOLS, Plant, check_names
from .rolling import roll
from .state_limits import zone_of

_FINAL = "final limits; shift of the state unknown"
_HOT_WORK = (
    "Hot forging: hot parts, scale and presses injure; guards, eye protection and the plant's licensed practice decide."
)
_PRESS = "Headers and presses crush: guards closed; the plant's licensed practice and local codes decide."
_NO_SHIFT_NEEDED = ("coating_thickness",)


def set_points(wanted: Specification, plant: Plant) -> SetPoints:
    """Return the set-points of a product or a thread.

    Raises:
        NotUnderstood: `unknown_member`, with the nearest aims or tools; a figure that cannot be.
        NothingRemains: shift, coating or roller leave nothing. RecipeNotAllowed: the furnace's recipe.
    """
    check_names(plant.tools, TOOLS, "tools")
    check_names(plant.aims, _aims(wanted), "aims")
    bench = Bench(wanted, plant, route_of(wanted, plant))
    _check_shifts(bench)
    _work(bench)
    _judged_here(bench)
    _remarks(bench)
    stations = tuple(_at_risk(one, plant) for one in bench.stations.values())
    return SetPoints(
        wanted.designation,
        stations,
        tuple(bench.notices),
        (*wanted.cautions, *bench.cautions),
        tuple(sorted(bench.needs, key=lambda need: list(bench.stations).index(need.station))),
        tuple(bench.work.steps),
    )


def route_of(wanted: Specification, plant: Plant) -> tuple[str, ...]:
    """Return the stations in the order in which the part passes them; hot-dip nuts are tapped last."""
    coated = wanted.coating is not None or wanted.item.coating is not None or plant.thickest_coating is not None
    ending = ("coating",) if coated else ()
    if wanted.dimensions is None:
        external = wanted.tolerance is not None and wanted.tolerance.member == "external"
        return (("thread_rolling",) if external else ("tapping",)) + ending
    hard = ("hardening",) if "hardness_core" in wanted.characteristics else ()
    if wanted.item.kind == "nut":
        if _tapped_last(wanted):
            return ("hot_forging", "piercing", *hard, *ending, "tapping")
        return ("hot_forging", "piercing", "tapping", *hard, *ending)
    if wanted.tolerance is None:
        return (*hard, *ending)
    return ("cut_off", "heading", "extrusion", "thread_rolling", *hard, *ending)


def _tapped_last(wanted: Specification) -> bool:
    return wanted.coating is not None and any(one.state.startswith("tapped after") for one in wanted.coating.states)


def _aims(wanted: Specification) -> list[str]:
    measured = [id for id, one in wanted.characteristics.items() if one.kind == "measured"]
    others = () if wanted.dimensions is None else wanted.dimensions.dimensions
    return list(dict.fromkeys((*measured, *others, *OTHER_AIMS)))


def _check_shifts(bench: Bench) -> None:
    for at, shift in enumerate(bench.plant.state_shifts):
        path = ("state_shifts", str(at))
        known = [id for id, one in bench.wanted.characteristics.items() if one.kind == "measured"]
        check_names([shift.characteristic], known, *path, "characteristic")
        for member, state in (("state", shift.state), ("final_state", shift.final_state)):
            if state not in bench.states:
                text = f"{state!r} is no state of this part; it passes {', '.join(bench.states)}"
                raise NotUnderstood(text, member="/".join((*path, member)), code="invalid")
        if bench.states.index(shift.state) >= bench.states.index(shift.final_state):
            text = f"{shift.final_state} does not come after {shift.state}"
            raise NotUnderstood(text, member="/".join((*path, "final_state")), code="contradiction")


def _work(bench: Bench) -> None:
    route = bench.stations
    blank_known = roll(bench) if "thread_rolling" in route else False
    if "cut_off" in route:
        heading(bench, cut_off(bench, blank_known))
        extrusion(bench, blank_known)
        bench.warn(_PRESS)
    if "tapping" in route:
        tapping(bench)
    if "hot_forging" in route:
        hot_forging(bench)
        piercing(bench)
        bench.warn(_HOT_WORK)
    if "hardening" in route:
        hardening(bench)
    if "coating" in route:
        _coating(bench)


def _judged_here(bench: Bench) -> None:
    """Add the dimensions of the part where they are formed."""
    station = "heading" if "heading" in bench.stations else "hot_forging"
    if station not in bench.stations:
        return
    for id, one in bench.wanted.characteristics.items():
        zone = bench.zone(id, station) if one.group == "dimension" and one.kind == "measured" else None
        if zone is not None:
            aim = bench.aim(id, station)
            without = id == "washer_face_thickness" and aim.value == 0
            bench.put_zone(station, id, zone, None if without else aim)


def _coating(bench: Bench) -> None:
    thickness = bench.wanted.characteristics.get("coating_thickness")
    if thickness is not None and thickness.bounds is not None:
        bench.put_zone("coating", "coating_thickness", zone_of(thickness.bounds), None)
    found = bench.wanted.coating
    after = () if found is None else [one for one in found.states if one.state == "after coating"]
    for state in after:
        for name, bounds in state.limits.items():
            bench.put_zone("coating", f"thread_{name}", zone_of(bounds), None)


def _remarks(bench: Bench) -> None:
    for station in bench.stations.values():
        for id, one in station.set_points.items():
            if one.final and (one.min is not None or one.max is not None) and _may_shift(bench, station.id, id):
                bench.tell(f"{station.id}: {_FINAL}")
    for line in bench.wanted.notices:
        bench.tell(line)


def _may_shift(bench: Bench, station: str, id: str) -> bool:
    """A limit of the last state of a characteristic is final and nothing comes after it."""
    return id not in _NO_SHIFT_NEEDED and bench.states.index(STATES[station]) < bench.last_of(id)


def _at_risk(station: Station, plant: Plant) -> Station:
    if plant.rate is None or plant.check_interval is None or not station.set_points:
        return station
    return replace(station, pieces_at_risk=plant.rate * plant.check_interval)
