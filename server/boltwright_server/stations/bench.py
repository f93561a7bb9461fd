"""The bench on which set-points are worked out: the specification, what the plant gave, and the way to each figure."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction

from ..coating.states import tapped_after
from ..products.solids import Body
from ..quantities import Basis, Bounds, Contradiction, member_path, unpublished, weakest
from ..quantities.basis import Method
from ..quantities.derivation import Derivation, Rounding, RoundingRule
from ..specification import Specification
from .changes import Change
from .figures import AS_DELIVERED, STATES, Exact, Need, SetPoint, Station
from .plant import Figure, Known, Plant, given, tool
from .rounding import shown, step_of
from .state_limits import NothingRemains, Zone, before_changes, before_coating, zone_of

_UNITS = {"mm": {"length": "mm", "area": "mm2", "volume": "mm3", "ratio": "1"}}
_UNITS["in"] = {"length": "in", "area": "in2", "volume": "in3", "ratio": "1"}


class Bench:
    """Collects stations, needs, notices and derivation steps of one designation."""

    def __init__(self, wanted: Specification, plant: Plant, route: tuple[str, ...]) -> None:
        self.wanted = wanted
        self.plant = plant
        self.length = "in" if wanted.size.system == "Unified inch" else "mm"
        self.stations = {id: Station(id) for id in route}
        self.states = (*(STATES[id] for id in route), AS_DELIVERED)
        self.work = Derivation()
        self.needs: dict[Need, None] = {}
        self.notices: dict[str, None] = {}
        self.cautions: dict[str, None] = {}
        self._zones: dict[tuple[str, str], Zone | None] = {}

    def tell(self, notice: str) -> None:
        """Add a notice, once."""
        self.notices[notice] = None

    def warn(self, caution: str) -> None:
        """Add a caution, once."""
        self.cautions[caution] = None

    def unit(self, kind: str) -> str:
        """Return the unit of a length, area, volume or ratio of this product."""
        return _UNITS[self.length][kind]

    def bounds(self, id: str) -> Bounds | None:
        """Return the final limits of a measured characteristic, or of a dimension that is not judged."""
        one = self.wanted.characteristics.get(id)
        if one is not None:
            return one.bounds
        return None if self.wanted.dimensions is None else self.wanted.dimensions.dimensions.get(id)

    def zone(self, id: str, station: str) -> Zone | None:
        """Return the limits of a characteristic in the state that leaves a station, or None where it has none.

        Raises:
            NothingRemains: coating or shift leave nothing.
        """
        if (id, station) not in self._zones:
            self._zones[id, station] = self._zone(id, station)
        return self._zones[id, station]

    def _zone(self, id: str, station: str) -> Zone | None:
        bounds = self.bounds(id)
        if bounds is None or (bounds.min is None and bounds.max is None):
            return None
        zone = self._before_coating(id, bounds)
        changes = self._changes(id, STATES[station], zone.unit)
        return before_changes(zone, changes) if changes else zone

    def _before_coating(self, id: str, bounds: Bounds) -> Zone:
        tolerance, thickest = self.wanted.tolerance, self.plant.thickest_coating
        if thickest is None or tolerance is None or not id.startswith("thread_") or bounds.nominal is None:
            return zone_of(bounds)
        coating = self.wanted.coating
        if tapped_after(None if coating is None else coating.coating, tolerance):
            self.tell("the thread is tapped after coating: the coating takes no room of it")
            return zone_of(bounds)
        moved = ("thread_pitch_diameter", f"thread_{'major' if tolerance.member == 'external' else 'minor'}_diameter")
        if id not in moved:
            return zone_of(bounds)
        member = member_path("coating_thickness", "max")
        return before_coating(id, bounds, bounds.nominal, tolerance.member, thickest.in_unit(bounds.unit, member))

    def _changes(self, id: str, state: str, unit: str) -> list[Change]:
        """Return the chain of changes from a state on; a chain that ends early is told."""
        found: list[Change] = []
        at = state
        while True:
            step = next((s for s in self.plant.state_shifts if s.characteristic == id and s.state == at), None)
            if step is None:
                break
            found.append(step.in_unit(unit))
            at = step.final_state
        if found and at != AS_DELIVERED and self.states.index(at) < self.last_of(id):
            self.tell(f"{id}: the shifts given end at {at}; what changes after it is unknown")
        return found

    def last_of(self, id: str) -> int:
        """Return the place of the last state whose limits those of a characteristic are: that before the coating."""
        return self.states.index("coated") - 1 if "coated" in self.states else len(self.states) - 2

    # The figures to compute with

    def figure(self, member: str, figure: Figure | None, unit: str | None = None) -> Known:
        """Return a figure of the plant that stands in a member of its own, or what is missing."""
        wanted = unit or self.length
        value = None if figure is None else figure.in_unit(wanted, member.replace(".", "/"))
        return Known(member, value, wanted, given(member))

    def tool(self, name: str) -> Known:
        """Return a tool's figure."""
        return tool(self.plant, name, self.length)

    def aim(self, id: str, station: str) -> Known:
        """Return the figure of a characteristic: that aimed at, else the middle of two limits of the state."""
        zone, bounds = self.zone(id, station), self.bounds(id)
        unit = zone.unit if zone is not None else bounds.unit if bounds is not None else self.length
        member = f"aims.{id}"
        aimed = self.plant.aims.get(id)
        if aimed is None:
            basis = zone.basis.computed("middle of the limits") if zone is not None else given(member)
            return Known(member, None if zone is None else zone.middle, unit, basis)
        value = aimed.in_unit(unit, member_path("aims", id))
        self._check_aim(id, value, zone, station)
        return Known(member, value, unit, given(member))

    def _check_aim(self, id: str, value: Fraction, zone: Zone | None, station: str) -> None:
        low, high = (None, None) if zone is None else (zone.low, zone.high)
        if value <= 0 and id != "washer_face_thickness":
            raise Contradiction(f"{id} is aimed at above 0", member=member_path("aims", id), code="out_of_range")
        if id != "washer_face_thickness" and ((low is not None and value < low) or (high is not None and value > high)):
            text = f"aim {shown(value)} of {id} lies outside {shown(low)} to {shown(high)} ({STATES[station]})"
            raise Contradiction(text, member=member_path("aims", id))

    def gather(self, station: str, set_point: str, by_symbol: Mapping[str, Known]) -> bool:
        """Make figures known by their symbols; those that are missing become needs, and the answer is false."""
        missing = [one.member for one in by_symbol.values() if one.value is None]
        for member in missing:
            self.need(station, set_point, member)
        if missing:
            return False
        for symbol, one in by_symbol.items():
            assert one.value is not None
            self.work.given(symbol, one.value, one.unit, one.basis)
        return True

    def need(self, station: str, set_point: str, member: str) -> None:
        """Ask for a member of the request."""
        self.needs[Need(station, set_point, member)] = None

    def known_as_nothing(self, station: str, set_point: str, member: str, value: Decimal | None, what: str) -> Known:
        """Return a constant of the plant that counts as 0 where it is not given, which is told."""
        if value is None:
            self.need(station, set_point, member)
            self.tell(f"{what} is not given and counts as 0: the figures hold without it ({member})")
            basis = unpublished("not given", f"{member} counted as 0", "common practice", "memory")
            return Known(member, Fraction(0), "1", basis)
        return Known(member, Fraction(value), "1", given(member))

    # The way to a figure

    def lines(self, body: Body, basis: Basis) -> str:
        """Work the lines of a body out and return the symbol of its volume."""
        for line in body:
            self.work.step(line.symbol, line.expression, self.unit(line.kind), basis)
        return body[-1].symbol

    def step(self, symbol: str, expression: str, kind: str, basis: Basis) -> Fraction:
        """Work one expression out, unrounded."""
        self.work.step(symbol, expression, self.unit(kind) if kind in _UNITS["mm"] else kind, basis)
        return self.work.number(symbol)

    def put(self, station: str, id: str, symbol: str, unit: str, basis: Basis, step: Decimal | None = None) -> None:
        """Set a figure without limits of its own: a target from the number that `symbol` stands for."""
        exact = self.work.number(symbol)
        answers = f"{station}.set_points.{id}.target"
        target = self._rounded(f"{id}_target", symbol, unit, "half even", answers, basis, step)
        self.stations[station].set_points[id] = SetPoint(
            target, None, None, None, None, unit, basis, Exact(None, shown(exact), None), final=False
        )

    def put_zone(self, station: str, id: str, zone: Zone, target: Known | None, member: str = "") -> None:
        """Set a figure with the limits of its state, its target and its warning lines, each rounded once.

        Raises:
            NothingRemains: the zone is empty, or no multiple of the step lies in it.
        """
        path, unit, basis = f"{station}.set_points.{id}", zone.unit, zone.basis
        low = self._limit("min", zone.low, "up", zone, path)
        high = self._limit("max", zone.high, "down", zone, path)
        if low is not None and high is not None and low > high:
            text = f"{id} at {station}: nothing remains, min {shown(zone.low)}, max {shown(zone.high)} {unit}"
            raise NothingRemains(text, zone.low, zone.high, member or self._narrowed_by(id))
        exact = None if target is None else target.value
        aimed = warned_low = warned_high = None
        if exact is not None:
            assert target is not None
            self.work.given("t", exact, unit, target.basis)
            aimed = _within(low, self._rounded("target", "t", unit, "half even", f"{path}.target", basis), high)
            warned_low, warned_high = self._warning_lines(zone, path)
        if warned_low is not None and warned_high is not None and warned_low > warned_high:
            warned_low = warned_high = aimed
        self.stations[station].set_points[id] = SetPoint(
            aimed,
            low,
            high,
            _within(low, warned_low, high),
            _within(low, warned_high, high),
            unit,
            basis,
            Exact(shown(zone.low), shown(exact), shown(zone.high)),
            zone.final,
        )

    def _narrowed_by(self, id: str) -> str:
        """Return the member that left too little of a zone."""
        if any(one.characteristic == id for one in self.plant.state_shifts):
            return "state_shifts"
        return "" if self.plant.thickest_coating is None else member_path("coating_thickness", "max")

    def _warning_lines(self, zone: Zone, path: str) -> tuple[Decimal | None, Decimal | None]:
        low = high = None
        if zone.low is not None:
            self.step("w_min", "t - (t - L)/2", zone.unit, zone.basis)
            low = self._rounded("warning_min", "w_min", zone.unit, "up", f"{path}.warning_min", zone.basis)
        if zone.high is not None:
            self.step("w_max", "t + (U - t)/2", zone.unit, zone.basis)
            high = self._rounded("warning_max", "w_max", zone.unit, "down", f"{path}.warning_max", zone.basis)
        return low, high

    def _limit(self, side: str, exact: Fraction | None, rule: RoundingRule, zone: Zone, path: str) -> Decimal | None:
        if exact is None:
            return None
        symbol = "L" if side == "min" else "U"
        self.work.given(symbol, exact, zone.unit, zone.basis)
        return self._rounded(side, symbol, zone.unit, rule, f"{path}.{side}", zone.basis)

    def _rounded(
        self,
        symbol: str,
        of: str,
        unit: str,
        rule: RoundingRule,
        answers: str,
        basis: Basis,
        step: Decimal | None = None,
    ) -> Decimal:
        rounding = Rounding(rule, str(step or step_of(unit, self.plant.steps)))
        found = self.work.step(symbol, of, unit, basis, rounding, f"stations.{answers}")
        assert found is not None
        return found

    def basis(self, clause: str, method: Method, *symbols_of: Known, checked: str = "formula") -> Basis:
        """Return the basis of a figure that follows from others: no better known than the worst of them."""
        marks = [one.basis.checked for one in symbols_of if one.value is not None]
        return unpublished("geometry", clause, method, weakest(checked, *marks))


def _within(low: Decimal | None, value: Decimal | None, high: Decimal | None) -> Decimal | None:
    if value is None:
        return None
    if low is not None and value < low:
        return low
    return high if high is not None and value > high else value
