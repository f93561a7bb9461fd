"""What only the plant knows: wire, tools, aims, its roller, its furnace, how its parts change between states.

Figures arrive as they were written, with the unit that they name or in that of the product. Nothing here has a default
but what geometry or the trade gives; what is missing is asked for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction

from ..quantities import Basis, NotUnderstood, member_path, near_names, practice, unpublished
from ..quantities.units import factor
from .changes import Change

#: Tool -> its figure where none is given, None where it has to be given; lengths, but for names that end in `_angle`.
TOOLS: Mapping[str, str | None] = {
    "chamfer_circle": None,
    "chamfer_angle": "30",
    "flange_angle": None,
    "head_angle": "90",
    "head_rim": "0",
    "head_flat": "0",
    "head_chamfer": "0",
    "drill_diameter": None,
    "drill_angle": "120",
    "countersink_diameter": None,
    "countersink_angle": None,
    "pierce_diameter": None,
    "web": None,
}
#: Tools that may be nothing: no rim, no flat, no chamfer, no web.
_MAY_BE_NONE = ("head_rim", "head_flat", "head_chamfer", "web", "drill_diameter")
#: Aims that a standard may leave without a figure, and the bore before tapping.
OTHER_AIMS = ("thread_length", "body_diameter", "washer_face_thickness", "washer_face_diameter", "tapping_bore")


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure as a request states it; no unit means that of the product."""

    value: Decimal
    unit: str | None = None

    def in_unit(self, unit: str, member: str) -> Fraction:
        """Return the figure in a unit.

        Raises:
            Contradiction, UnknownName: its own unit does not fit.
        """
        return Fraction(self.value) * (1 if self.unit is None else factor(self.unit, unit, member))


@dataclass(frozen=True, slots=True)
class Roller:
    """The thread roller: spread of the pitch diameter at constant blank, factor, root radius (None: H/6)."""

    pitch_diameter_spread: Figure | None = None
    factor: Decimal = Decimal(3)
    root_radius: Figure | None = None


@dataclass(frozen=True, slots=True)
class Recipe:
    """The plant's own heat treatment; it is checked, never proposed."""

    tempering_temperature: Figure | None = None
    hardness_min: Figure | None = None
    hardness_max: Figure | None = None
    hardness_unit: str = "HV"


@dataclass(frozen=True, slots=True)
class StateShift:
    """How one characteristic changes from a state to a later one."""

    characteristic: str
    state: str
    final_state: str
    unit: str | None
    change: Change

    def in_unit(self, unit: str) -> Change:
        """Return the change in a unit.

        Raises:
            Contradiction: that of the readings does not fit.
        """
        if self.unit is None or self.unit == unit:
            return self.change
        times = factor(self.unit, unit, "state_shifts")
        shift, spread = self.change.shift * times, self.change.standard_deviation * times
        return replace(self.change, shift=shift, standard_deviation=spread)


@dataclass(frozen=True, slots=True)
class Plant:
    """Everything that a plant gave for one designation."""

    wire_diameter: Figure | None = None
    extruded_diameter: Figure | None = None
    head_trim: Decimal | None = None
    elongation: Decimal | None = None
    forging_loss: Decimal | None = None
    aims: Mapping[str, Figure] = field(default_factory=dict)
    tools: Mapping[str, Figure] = field(default_factory=dict)
    roller: Roller = Roller()
    recipe: Recipe | None = None
    state_shifts: tuple[StateShift, ...] = ()
    thickest_coating: Figure | None = None
    rate: Decimal | None = None
    check_interval: Decimal | None = None
    #: Unit -> the step to which its figures are rounded.
    steps: Mapping[str, Decimal] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Known:
    """A figure to compute with, or, without a value, the member of a request that would give it."""

    member: str
    value: Fraction | None
    unit: str
    basis: Basis


def given(member: str) -> Basis:
    """Return the basis of a figure that the plant gave."""
    return unpublished("figure of the plant", member, "tabulated", "original")


def tool(plant: Plant, name: str, length: str) -> Known:
    """Return a tool's figure: given, by habit of the trade, or missing. Lengths in the unit `length`.

    Raises:
        NotUnderstood: a length that is not above 0, an angle that is none.
    """
    member, unit = f"tools.{name}", "deg" if name.endswith("_angle") else length
    figure = plant.tools.get(name)
    if figure is not None:
        value = figure.in_unit(unit, member_path("tools", name))
        _check_tool(name, value)
        return Known(member, value, unit, given(member))
    usual = TOOLS[name]
    habit = practice(f"{name.replace('_', ' ')} unless stated")
    return Known(member, None if usual is None else Fraction(usual), unit, habit)


def _check_tool(name: str, value: Fraction) -> None:
    angle = name.endswith("_angle")
    highest = (60 if name in ("chamfer_angle", "flange_angle") else 180) if angle else None
    if (value < 0 if name in _MAY_BE_NONE else value <= 0) or (highest is not None and value >= highest):
        least = "0 or more" if name in _MAY_BE_NONE else "above 0"
        text = f"{name} is {least}{f' and below {highest} degrees' if angle else ''}, not {float(value):g}"
        raise NotUnderstood(text, member=member_path("tools", name), code="out_of_range")


def check_names(given_names: Iterable[str], known: Iterable[str], *path: str) -> None:
    """Refuse a member that is not known, with the nearest that are.

    Raises:
        NotUnderstood: `unknown_member`, with `nearest`.
    """
    names = list(known)
    for name in given_names:
        if name not in names:
            near = near_names(name, names)
            told = f"; nearest: {', '.join(near)}" if near else ""
            text = f"Unknown member {'.'.join((*path, name))[:80]}{told}"
            raise NotUnderstood(text, member=member_path(*path, name[:60]), code="unknown_member", nearest=near)
